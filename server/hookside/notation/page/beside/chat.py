"""Messages with who wrote them and when: "[10:03] Bea: R1 magic ring 6 sc", "Bea: R2 inc in all 6 = 12".

Names, times and which message of how many it is ("3/8 Rnd 2: ...") are taken out, so that each round begins its line
as it does elsewhere; the length stays.
"""

from __future__ import annotations

import re
from collections import Counter

from hookside.colours import COLOURS
from hookside.notation.lines.heads.headings import PARTS

_DATE = r"(?:\d{1,4}[./-]\d{1,2}[./-]\d{1,4},? )?"
_CLOCK = rf"{_DATE}\d{{1,2}}[:.]\d\d(?:[:.]\d\d)?(?: ?[ap]\.?m\.?)?"
_NAME = r"(?P<name>[A-Z][A-Za-z_.]{1,15}(?: [A-Z][A-Za-z.]{0,12})?)"
# "[10:03] Bea: ", "10:03 - Bea: ", "Bea (10:03): ", "Bea: "
_LEAD = re.compile(
    rf"^ {{0,4}}(?:(?P<at>[\[(] ?{_CLOCK} ?[\])][ ,]?|{_CLOCK} ?(?:- ?)?))?{_NAME}"
    rf"(?P<behind> [\[(]?{_CLOCK}[\])]?)?[ ]?: (?=(?P<told>[^\n]{{1,400}}))",
    re.M | re.I,
)
_ROUND = re.compile(r"(?:and )?(?:then )?(?:r(?:ou)?n?d? ?\d{1,3}\b|round \w+|row \w+|\d{1,3}[.:)] )", re.I)
_STITCHES = re.compile(rf"{_ROUND.pattern}|[^\n]{{0,24}}?\b(?:sc|[hd]?dc|h?tr|inc|dec)\b", re.I)
# Names that lead many lines of a page and write none of them
_NO_NAMES = frozenset([
    "round", "rounds", "rnd", "rnds", "row", "rows", "stitches", "count", "colour", "color", "yarn", "note", "tip",
    "step", "part", "work", "instruction", "repeat", "total", "hook", "left", "right", "front", "back", "optional",
    "video", "photo", "us", "uk", "same",
])  # fmt: skip
_NAMED = PARTS | COLOURS  # what leads a line without a time, and is nobody: "red: R4: ..."
_FEWEST = 3  # messages of one hand, with a round in two of them
# "3/8 Rnd 2: inc x6 = 12", "(3/8) ...", "... = 12 [3/8]": which message of how many
_OF_SEVERAL = re.compile(
    r"^(?P<first>[ ]{0,4}[(\[]?(?P<n>\d{1,2})[ ]?/[ ]?(?P<all>\d{1,2})[)\]]?[.:]?(?=[ ]+[^\d\s/x*-]|[ ]*$))|"
    r"(?P<last>(?<=[^\s/][ ])[(\[]?(?P<n2>\d{1,2})/(?P<all2>\d{1,2})[)\]]?[ ]*$)",
    re.M,
)


def unnumbered(text: str) -> str:
    """The page without the numbers of its messages, which count up from one; the length stays."""
    told = list(_OF_SEVERAL.finditer(text))
    numbers = [int(m["n"] or m["n2"]) for m in told]
    if len({m["all"] or m["all2"] for m in told}) != 1 or len(told) < _FEWEST:
        return text
    if numbers != list(range(1, len(told) + 1)) or numbers[-1] > int(told[0]["all"] or told[0]["all2"]):
        return text
    return _OF_SEVERAL.sub(lambda m: " " * len(m[0]), text)


def without(text: str) -> str:
    """The page without the names and times in front of its messages; as it is where it is no such talk."""
    if text.count(": ") < _FEWEST:
        return text
    leads = [m for m in _LEAD.finditer(text) if _NO_NAMES.isdisjoint(m["name"].lower().split())]
    leads = [m for m in leads if m["at"] or m["behind"] or _NAMED.isdisjoint(m["name"].lower().split())]
    written = Counter(m["name"].lower() for m in leads)
    rounds = Counter(m["name"].lower() for m in leads if (_STITCHES if m["at"] else _ROUND).match(m["told"]))
    hands = {name for name, n in written.items() if n >= _FEWEST and rounds[name] > 1}
    if not hands:
        return text
    stamped = any(m["at"] or m["behind"] for m in leads if m["name"].lower() in hands)
    others = {name for name, n in written.items() if n > 1 or stamped}
    gone = [m for m in leads if m["name"].lower() in hands | others]
    out, at = [], 0
    for match in gone:
        out += [text[at : match.start()], "\n".ljust(len(match[0]))]  # a message ends where the next one begins
        at = match.end()
    return "".join([*out, text[at:]])
