"""A key among other matter: "DK, 2.75 mm. s=sc i=inc d=dec. mr.", "Doll (s: sc, i: inc)", "s for sc, i for inc".

A tester's line holds yarn, hook and key in one; whoever writes so uses letters of her own in every round. Only pairs
whose meaning is a stitch that everybody knows are taken, two of them at least in a line (or one among short forms of
something else), and only what no list of the text explains.
"""

from __future__ import annotations

import re

from hookside.notation.lines.keys.shapingtold import shaping_told
from hookside.notation.lines.layout import Layout
from hookside.pattern import Terms
from hookside.stitches import named

_STITCHES = (
    r"(?:single|double|half[ -]double|half[ -]treble|treble) crochets?|single|slip stitch|chain|increase|decrease|"
    r"sl ?st|inv(?:isible)? dec(?:rease)?|inc|dec|sc2tog|dc2tog|[hd]?dc|h?tr|sc|ch"
)
_SIGN = r"\s?(?:[=:\u2192]|[-=]>)\s?|\s-{1,2}\s|\s(?:is|for|means|stands for|as)\s(?:an? |the )?|\s?\("
_PAIR = re.compile(rf"(?<![\w'.-])(?P<name>[A-Za-z]{{1,3}})(?:{_SIGN})(?P<what>{_STITCHES})\b(?!\d)", re.I)
# "s is single crochet, i an increase, d a decrease": the second of them leaves the verb out
_NEXT = re.compile(rf"(?:,|;| and|, and) (?P<name>[A-Za-z]) (?:an? )(?P<what>{_STITCHES})\b", re.I)
_MAY = re.compile(r"\b[A-Za-z]{1,3}(?:\s?[=:(\u2192]|\s?->|\s-|\s(?:is|for|means|stands|as)\s)")
# "o = orange, w = white, d = sc2tog": others are colors
_EQUAL = re.compile(r"(?<![\w'.-])[A-Za-z]{1,3}\s?=\s?[A-Za-z]{2}")
_FEWEST = 2  # pairs of a line
_LONGEST = 400  # letters of a line that may hold a key
_NO_NAMES = frozenset(
    ["an", "is", "it", "or", "and", "the", "you", "use", "us", "uk", "in", "of", "to", "r", "rd", "do"]
)
_LINES = 400  # of a text that are asked


def key_within(line: str, terms: Terms) -> dict[str, str]:
    """Short forms explained anywhere in a line, each with its meaning; nothing where fewer than two are."""
    if len(line) > _LONGEST or _MAY.search(line) is None:
        return {}
    told = [(m["name"], m["what"]) for m in _PAIR.finditer(line)]
    if told:
        told += [(m["name"], m["what"]) for m in _NEXT.finditer(line)]
    pairs = {n: what for n, what in told if n.lower() not in _NO_NAMES and n.lower() != what.lower()}
    of_stitches = len({what.lower() for what in pairs.values()}) >= _FEWEST
    if not of_stitches and len(_EQUAL.findall(line)) < _FEWEST + 1:
        return {}
    return {name: what for name, what in pairs.items() if named(name, terms) is None}


def scattered(text: str, layout: Layout, terms: Terms) -> dict[str, str]:
    """The keys of all lines that are no course, and the shaping that their sentences explain."""
    found: dict[str, str] = {}
    explained = {name.lower() for name in layout.abbreviations}
    for start, end, role in layout.roles[:_LINES]:
        if role != "course":
            line = text[start : min(end, start + _LONGEST)]
            found.update(key_within(line, terms))
            found.update(shaping_told(line))
    return {name: what for name, what in found.items() if name.lower() not in explained}
