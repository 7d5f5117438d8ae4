"""What the end of a page leaves in the middle of a text: running heads, page numbers, "continued on page 52".

A name in capitals is a running head where it stands beside a page number in its own line, or twice and at least once
above or below one. What stands there becomes blanks; where it cut a sentence in two, so do the line ends around it.
"""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise

from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.furniture import is_furniture

_CAPITALS = r"[A-Z](?:[A-Z0-9'&,]|[ ]{1,2}(?=[A-Z0-9&])|[.](?=[ ][A-Z])){4,50}"
_NUMBER = re.compile(r"[ ]*-?[ ]?\d{1,3}[ ]?-?[ ]*")
_HEAD = re.compile(rf"[ ]*(?P<name>{_CAPITALS})[ ]*")
_PAGE = r"(?:[\dlIO]{2,3}|-[ ]?[\dlIO]{1,3}[ ]?-)"  # a scan's number, "- 4 -"
_GAP = r"(?:[ ]{2,}(?:[|:/][ ]{2,})?)"  # "42   |   HATS": a bar has become a colon
_BESIDE = re.compile(rf"[ ]*(?:{_PAGE}{_GAP}(?P<name>{_CAPITALS})|(?P<first>{_CAPITALS}){_GAP}{_PAGE})[ ]*")
_NO_NAME = re.compile(rf"{COURSE}\b|(?:.*\b)?(?:STS?|STITCH(?:ES)?|SC|H?DC|TR|TOTAL|COUNT|MAKE)\b", re.I)
# A page that has none of it is asked no more
_HINT = re.compile(
    r"^[ ]*-?[ ]?\d{1,3}[ ]?-?[ ]*$|^[ ]*-?[ ]?[\dlIO]{1,3}[ ]?-?[ ]{2,}(?:[|:/][ ]{2,})?[A-Z]{2}|"
    r"[A-Z]{2}[ ]{2,}(?:[|:/][ ]{2,})?[\dlIO]{2,3}[ ]*$|ontinue",
    re.M,
)
_ENDS = (".", "!", "?", ":")
_GOES_ON = re.compile(r"[a-z]|\d{1,3} (?:more )?times\b|[(\[=]?\d{1,3} ?(?:sts?|sc|dc|hdc|tr)?[)\].]")
_OPEN = re.compile(r"[,;(\[*]$|[A-Za-z]-$|\b(?:next|each|every|in|the|of|to|from|and|with|a)$")


def _names(lines: list[str]) -> set[str]:
    """The running heads of a page."""
    beside = {m["name"] or m["first"] for line in lines if (m := _BESIDE.fullmatch(line))}
    told = Counter(m["name"] for line in lines if (m := _HEAD.fullmatch(line)))
    by_number = {
        m["name"]
        for pair in pairwise(lines)
        for line, other in (pair, pair[::-1])
        if (m := _HEAD.fullmatch(line)) and _NUMBER.fullmatch(other)
    }
    return {n for n in beside | {n for n in by_number if told[n] > 1} if not _NO_NAME.match(n)}


def _joins(before: str, after: str) -> bool:
    """Do two lines belong to one sentence?"""
    before, after = before.rstrip(), after.lstrip()
    if not before or before.endswith(_ENDS):
        return False
    return _GOES_ON.match(after) is not None or _OPEN.search(before) is not None


def _name_in(line: str) -> str:
    match = _HEAD.fullmatch(line) or _BESIDE.fullmatch(line)
    return (match.groupdict().get("name") or match.groupdict().get("first") or "") if match else ""


def without(text: str) -> str:
    """The text without what the ends of its pages leave; the length stays."""
    if _HINT.search(text) is None:
        return text
    lines = text.split("\n")
    names = _names(lines)
    out: list[str] = []
    first = next((i for i, line in enumerate(lines) if line.strip()), 0)
    here = 0
    while here < len(lines):
        past = here
        found = False
        while past < len(lines) and (not lines[past].strip() or _of_page(lines, past, names, past == first)):
            found = found or bool(lines[past].strip())
            past += 1
        if past == here or not found:
            out.extend(lines[here : max(past, here + 1)])
            here = max(past, here + 1)
            continue
        named = any(_name_in(line) in names for line in lines[here:past] if line.strip())
        before, after = out[-1] if out else "", lines[past] if past < len(lines) else ""
        joins = _joins(before, after)
        if joins:
            out[-1] += " " * sum(len(line) + 1 for line in lines[here:past])
        elif named:
            out.extend(" " * len(line) for line in lines[here:past])
        else:
            out.extend(lines[here:past])
        here = past
    return "\n".join(out)


def _of_page(lines: list[str], at: int, names: set[str], first: bool) -> bool:
    """Is a line one of those that the end of a page leaves?"""
    line = lines[at]
    if _name_in(line) in names:
        return not first or _BESIDE.fullmatch(line) is not None
    if _NUMBER.fullmatch(line):
        beside = [lines[i] for i in (at - 1, at + 1) if 0 <= i < len(lines)]
        return all(not other.strip() or _name_in(other) in names for other in beside)
    return "ontinue" in line and is_furniture(line)
