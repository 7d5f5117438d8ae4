"""A line refused for its colour: it names one, tells of one, or is the yarn of the heading above."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour, is_patterned, only_shades
from hookside.notation.askings.colourtalk import colour_talk
from hookside.notation.askings.kinds import classify
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.heads import headings
from hookside.notation.lines.refusals.named import Named, Naming

_FOR_A_PART = re.compile(r"\W*(?P<shade>[A-Za-z]+(?: [a-z]+)?) for (?:the|his|her|its|both)\b")
# "Cream: rounds 5-8", "Rnds 5 - 8 in cream"
_SHADE_OF_ROUNDS = re.compile(
    rf"[^\w\n]{{0,6}}(?P<shade>[A-Za-z]+(?: [a-z]+)?) ?(?:[:=(-] ?)?(?:(?:for|in|from) )?(?:the )?"
    rf"{COURSE}\.? ?\d(?:[\d ,&)-]|and|to|{COURSE}){{0,16}}\W{{0,3}}$|"
    rf"[^\w\n]{{0,6}}{COURSE}\.? ?\d[\d ,&-]{{0,24}}:? ?(?:in |with |are )?(?P<late>[A-Za-z]+(?: [a-z]+)?)\W{{0,3}}$",
    re.I,
)
_ONCE_MORE = re.compile(r"\W+(?:again|now|once more)\W*$", re.I)  # "DARK AGAIN"
_BACK_TO = re.compile(r"\W*(?:(?:and|now|then|go|change|switch) )*back (?:to|in|with)\b", re.I)
# "Stripes: 2 green, 2 white": rounds of each, and no four stripes
_STRIPES = re.compile(
    r"\W*(?:(?:the )?(?:colou?r|stripe) ?(?:order|pattern|sequence|repeat)|stripes?|striping) ?[:=-](?![^\n]*\bmake\b)"
    r"[^\n]*\b(?P<shade>[a-z]{3,})(?:,? (?:and )?(?:repeat\w*|so on))?\W*$",
    re.I,
)
# "green x3, red x2", "red x 2 rounds": rounds of each as well
_SO_MANY_OF_EACH = re.compile(
    r"\W*(?P<shade>[a-z]{3,}) ?x ?\d{1,2}(?:(?:[,;/+-]? (?:and )?[a-z]{3,} ?x ?\d{1,2})+| (?:rounds|rnds|rows))\W*",
    re.I,
)
_DROPS = re.compile(r"\W*(?:now |then )?drop\b", re.I)
_PART_GOES_ON = re.compile(
    r"(?:the )?(?P<name>[a-z]+)\s*[,-]\s+(?:(?:continu(?:e|ed|ing)|go(?:ing)? on|carry(?:ing)? on) )?(?:with|in)\b",
    re.I,
)


class Colours(Naming):
    """Is it a colour, and no part?"""

    def tells_rounds_of_a_colour(self, name: Named) -> bool:
        told = _SHADE_OF_ROUNDS.match(name.text)
        return told is not None and is_colour(told["shade"] or told["late"])

    def is_a_colour(self, name: Named) -> bool:
        stripes = _STRIPES.match(name.text) or _SO_MANY_OF_EACH.fullmatch(name.text)
        if stripes is not None and is_colour(stripes["shade"]):
            return True
        lead = _FOR_A_PART.match(name.text) if self.no_round_yet() and name.alone else None
        if lead is not None and is_colour(lead["shade"]):
            return True  # "Red for the hand" below "Arm (make 2)"
        shade = is_colour(_ONCE_MORE.sub("", name.text)) or is_patterned(name.text) or is_patterned(name.head[0])
        shade = shade or only_shades(name.text)
        return shade and (self.piece is not None or bool(name.leads and self.out.title))

    def talks_of_colours(self, name: Named) -> bool:
        told = name.on and name.alone and (_DROPS.match(name.text) or _BACK_TO.match(name.text))
        if told and classify(name.text) == "colour":
            return True  # "Drop the black.", though a drop may be a part; "back to A"
        if self.piece is None or not name.alone or not colour_talk(name.text, self.yarns()):
            return False
        part = _PART_GOES_ON.match(name.text) if (name.opens or name.marked) and name.leads and self.blank else None
        if part is not None and part["name"].lower() in headings.PARTS:
            return False  # "Body, continue with black:"
        apart = self.blank or (name.first and not self.no_round_yet())
        dressed = apart and name.leads and headings.dressed(name.text.rstrip(" :"))  # "Watering can, in grey"
        return name.on or not (dressed or self.names_more(name.head[0]))

    def is_the_yarn_of_a_heading(self, name: Named) -> bool:
        return name.leads and name.alone and self._shade_below(name.text)
