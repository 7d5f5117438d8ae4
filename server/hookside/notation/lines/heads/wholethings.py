"""A thing told whole in one line behind the rounds of another: "Ribbon: ch 30, fasten off. You need 3 of these.",
"tentacles - ch 30, 2 sc in each ch from 2nd ch. Make 6", "fringe - cut 8 cm pieces. Make 10".

It is a part of its own where its line says that it ends there (cut, sewn on) or how many are made: else a name in front
of chains may be an edging, a loop or talk of the rounds above. What is cut and wound and is not counted ("hair - cut 10
strands") is a job.
"""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines.copies.asked import copies, copies_behind
from hookside.notation.lines.furniture import foundation
from hookside.notation.vocabulary import AMOUNT
from hookside.stitches import singular

_YARN = r"(?:(?:with|in|using) [^,;:.\n]{2,24},? )?"
THING = re.compile(
    r"\W{0,3}(?P<name>[A-Za-z]{3,}(?: [a-z]{3,}){0,2})"
    r"(?P<aside> ?[(\[][^()\[\]\n]{1,24}[)\]]|, [^:\n]{1,24}| in [a-z]{3,12}(?: [a-z]{3,12})?)?(?: ?:| -+) "
    rf"(?=(?P<hooked>{_YARN}(?:(?:make|work|crochet) )?"
    rf"(?:(?:a )?ch(?:ain)?s?(?: of)? ?{AMOUNT}|{AMOUNT} ch(?:ain)?s?\b|"
    rf"{AMOUNT} (?:sc|[hd]?dc) in|(?:an? )?magic\b|mr\b))|"
    rf"{_YARN}(?:cut|wrap|wind|braid|plait|twist|make an? (?:tassel|pom|braid|plait|fringe|cord)))",
    re.I,
)
_NO_NAME = frozenset(
    [
        "round", "rounds", "rnd", "rnds", "row", "rows", "step", "line", "edging", "border", "trim", "edge",
        "finish", "finishing", "note", "tip", "hint", "next", "then", "now", "first", "last", "begin",
        "beginning", "start", "starting", "foundation", "setup", "repeat", "turn", "turning", "join", "chain",
        "all", "both", "each", "every", "part", "with", "using", "yarn", "hook", "materials", "abbreviations",
        "assembly", "option", "optional", "for", "the", "set", "loop", "centre", "center", "base", "increase",
        "decrease", "inc", "dec", "shell", "picot", "bobble", "cluster", "popcorn", "puff", "stitch", "work",
    ]
)  # fmt: skip
_ENDS = re.compile(
    r"\b(?:fasten|finish off|f\.?/?o\b|cut|break|close|sew|knot|tie|leave (?:an? )?(?:long )?(?:tail|\d))", re.I
)


_DYED = re.compile(r"\b(?:with|in|using) [a-z]{3,}", re.I)  # "Strings: chain 30 with black"


# "fin: ch 5, 4 sc, turn, dec twice, turn, dec": more than one row, and no one line of work
_ROWS = re.compile(
    r"\b(?:turn|sc|dc)\b.*\bturn\b|\b(?:rows|rounds|rnds|(?:row|round|rnd) \d)\b",
    re.I | re.S,
)


class WholeThing:
    """Its name, how many, where its yarn is told and where its work begins; whether that is hooked."""

    def __init__(self, told: re.Match[str], text: str) -> None:
        self.name, self.begins, self.hooked = told["name"], told.end(), told["hooked"] is not None
        self.head = told.end("aside") if told["aside"] else told.end("name")
        self.make = copies(f"{told['name']}{told['aside'] or ''}")[1]
        self.behind = copies_behind(text[told.end() :])
        self.asked = self.make > 1 or self.behind > 1


def whole_thing(text: str) -> WholeThing | None:
    """The thing that a line tells whole; None for any other line."""
    told = THING.match(text) if ": " in text or "- " in text else None
    if told is None or _NO_NAME.intersection(told["name"].lower().split()) or is_colour(told["name"].lower()):
        return None
    if _ROWS.search(text, told.end()):
        return None
    thing = WholeThing(told, text)
    ends = _ENDS.search(text, told.end()) is not None
    cord = _DYED.search(text, told.end()) is not None and foundation(text[told.end() :]) is not None
    return thing if not thing.hooked or ends or thing.asked or cord else None


def another_thing(words: str, name: str) -> bool:
    """Does a line behind the rounds tell of a thing by another name? What it says of copies is of that one."""
    called = set(map(singular, re.findall(r"[a-z]+", name.lower())))
    lines = (THING.match(line) for line in words.split("\n"))
    return any(told is not None and singular(told["name"].lower().split()[-1]) not in called for told in lines)
