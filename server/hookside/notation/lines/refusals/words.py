"""A line refused though it is as short as a name: it tells in a word what is done between two rounds."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.grammar import ordered
from hookside.notation.askings.kinds import classify
from hookside.notation.lines import furniture
from hookside.notation.lines.heads import headings
from hookside.notation.lines.heads.framedjob import framed_job
from hookside.notation.lines.heads.parts import MAIN_PARTS
from hookside.notation.lines.layout import RawText
from hookside.notation.lines.refusals.named import Named, Naming
from hookside.notation.lines.unlabelled import alone
from hookside.pattern import CueKind

# "Snout on.", "Ears in", "Cord through": a thing, and where it goes now
_THING_GOES = re.compile(
    r"\W{0,3}(?:(?:now|next|then),? )?(?:the |his |her |its )?(?P<thing>[a-z]+(?: [a-z]+)?) "
    r"(?:on|in|through|next|off|out)\W{0,3}",
    re.I,
)
# ... and more behind it: "Eyes on now, then stuff", "Whiskers on, eyes in", "Arms on, then stuff"
_THINGS_GO = re.compile(
    r"\W{0,3}(?:(?:now|next|then|here|first),? )?(?:(?:the|his|her|its|both) )?[a-z]+(?: and [a-z]+)? "
    r"(?:(?:on|in|off|out|through)(?: (?:now|next|here|first|again))?"
    r"(?:(?:,| and|,? then|,? and then) (?:(?:then|the|his|her|its|both) ){0,2}[a-z]+(?: [a-z]+){0,2}){0,3})"
    r"[\s.!]{0,3}",
    re.I,
)
_KINDS_TOLD: tuple[tuple[CueKind, re.Pattern[str]], ...] = (
    ("stuff", re.compile(r"\b(?:stuff|fill|wadding)", re.I)),
    ("eyes", re.compile(r"\beyes?\b", re.I)),
)
# "White band.": the rounds to come in their yarn
_BAND = re.compile(
    r"\W{0,3}(?:an? |the |one )?(?P<shade>[a-z]+) "
    r"(?:band|stripe|patch|section|part|bit|ring|tip|top|bottom)\W{0,3}",
    re.I,
)


class Words(Naming):
    """Does it tell in a word what is done, and how is that shown?"""

    def tells_in_a_word(self, name: Named) -> bool:
        """ "Snout on.", "White band.", "Beak!" with the next round behind it: what is done there, and no other part.

        "Body." between two blank lines, "Body" and "BODY." stay the names of parts that go on from the one above.
        """
        text = name.text.rstrip()
        on = name.on or (_THINGS_GO.fullmatch(text) is not None and self._goes_on_plainly(name.following))
        if not (on and name.alone) or name.marked or name.hashed or self.cut_off():
            return False
        goes = _THING_GOES.fullmatch(text) or _THINGS_GO.fullmatch(text)
        if text[-1:] not in (".", "!"):
            return bool(goes) or self._band(text)
        words = re.findall(r"[a-z]+", text.lower())
        if self.finished() and not MAIN_PARTS.isdisjoint(words):
            return False  # "Body." behind "Legs (make 2)"
        named = all(word in headings.PARTS or word in ("the", "and") for word in words)
        behind = self.text[name.end : name.following[0]] if name.following is not None else ""
        apart = self.blank and behind.count("\n") > 1 and text[-1:] == "."
        return not (named and (name.loud or apart))

    def _goes_on_plainly(self, line: tuple[int, int] | None) -> bool:
        """Is a line a round as the one above, neither of which has a label, and no ring that begins another part?"""
        if line is None or not self._labels_nothing() or not self._opens_plainly(*line):
            return False
        told = self.text[slice(*line)]
        return not alone.ring(told) and furniture.foundation(told) is None

    @staticmethod
    def _band(text: str) -> bool:
        told = _BAND.fullmatch(text)
        return told is not None and is_colour(told["shade"])

    def put_word(self, text: str, at: int, end: int) -> None:
        """ "Snout on.", "Tickle the belly": shown there in its own words, as what it asks for where that is plain."""
        told = _THING_GOES.fullmatch(text)
        kind = classify(text) or alone.job(text) or framed_job(text)
        if kind is None and told is not None and told["thing"].lower().split()[-1] in headings.PARTS:
            kind = "sew" if re.search(r"\bon\W*$", text) else "other"
        elif kind is None and self._band(text):
            kind = "colour"
        kind = kind or ordered(text) or next((of for of, words in _KINDS_TOLD if words.search(text)), None)
        if self.piece is not None:
            self.piece.items.append(RawText(at, end, kind or "other"))
        self.course = None
