"""Counts between the number of a label and its sign: "R4 - 16 sts -> sc around", "*R4, 16 sts* sc around",
"(2 {12}) 6 inc", "#3, 18 sts: ...", "2 - 12 sts." over the work. They become "R4 (16):"; the length stays.

Such a number is one the round comes to, and no work: work stands behind the sign, and lines of this kind count up.
Between two dashes, "R3 - 18 - (1 sc, inc) x 6", it is one where the label below is that of round 4, or where as the
last it would have many rounds shaped alike; else those are rounds 3 to 18.
"""

from __future__ import annotations

import itertools
import re

from hookside.notation.labels.patterns import COURSE

_FEWEST = 3
_NOUN = r"(?i:sts?|stitches|sc|dc)"
_TO = (
    r"[ ]{0,2}(?:-|\u2013|\u2014|~|\.{2,3}|to|until|till?|thru|through|up[ ]{1,2}to|&|and|,|\+|/)[ ]{0,2}"
    r"(?:[rR](?=\d))?"
)
_UP_TO = re.compile(r"up[ ]{1,2}to|till?|until")
_SO_MANY = r"[ ]?\(\d{1,3} (?i:rounds|rnds|rows)\)"
_LINE = re.compile(
    r"(?:^(?P<lead>[ \t]{0,8}(?:[-*>\u2022\u25cb\u2026][ ]|\[[ ]{1,2}\][ ]{1,2})?)|(?<=[.;/)][ ])|(?<=[ ]{3}))"
    r"(?P<open>[(\[]|[*_]{1,2})?"
    rf"(?P<label>(?P<kind>(?i:(?:{COURSE}|steps?|lines?|circles?|rn|rw|nr)\.?[ ]?(?:no\.[ ]|number[ ])?#?|\#)[ -]?)?"
    rf"\(?(?P<first>\d{{1,3}})(?:{_TO}(?P<last>\d{{1,3}})){{0,6}}\)?(?:[ ]incl\.|{_SO_MANY})?)"
    rf"(?P<rest>(?:[ ]{{0,2}}(?:\((?P<a>\d{{1,3}})(?:[ ]?{_NOUN})?\)|\[(?P<b>\d{{1,3}})(?:[ ]?{_NOUN})?\]|"
    rf"\{{(?P<c>\d{{1,3}})(?:[ ]?{_NOUN})?\}})|(?:,[ ]?|[ ][-\u2013\u2014])[ ](?P<d>\d{{1,3}})[ ]?(?i:sts?|stitches)\b)"
    r"(?P<sign>[ ]?(?:\.?[ ]?(?i:rnd|round|row)s?\b[ .:]?|[:.]?(?:[)\]]|[*_]{1,2})|"
    r"\.{3}|->|=>|-{1,2}|\.[)-]|[\u2013\u2014:.)~>|;,=])?))"
    r"(?P<end>[ \t]+|\n[ \t]*)(?=(?P<work>[^\s\d|][^\n]+|\d[^\n]*[a-zA-Z][^\n]*))",
    re.M,
)
# A bracket or a count right behind a number: what such a label has, and few others
_MAY = re.compile(r"[\d).](?:[ ]{0,2}[(\[{]\d|(?:,[ ]?|[ ][-\u2013\u2014])[ ]\d{1,3}[ ]?[sS][tT])")
_ANY_LABEL = re.compile(rf"[^\w\n]{{0,4}}(?:(?i:{COURSE})\.?[ ]?#?\d|\d{{1,3}}[ ]?[.:)](?:\s|$))")
# What may not stand behind a count that no sign parts from it: "Row 4, 12 sts in blue", "Row 4, 12 sts sc, 3 sts dc"
_WORKED = re.compile(r"(?:Ch|CH|ch|MR|mr|\d|[A-Z(\[*])")


def _told(match: re.Match[str]) -> bool:
    if match["open"] and match["sign"] is None:
        return False
    if match["lead"] is None and match["kind"] is None:
        return False
    if "\n" in match["end"]:
        return _ANY_LABEL.match(match["work"]) is None
    if match["sign"] is None:
        told = match["kind"] is not None and _WORKED.match(match["work"]) is not None
        return told and (match["d"] is None or match["rest"].startswith(","))
    return match["sign"] != "," or match["kind"] is not None


def behind(text: str) -> str:
    """The page with such counts in brackets behind their labels, where the labels count up."""
    found = [m for m in _LINE.finditer(text) if _told(m)] if _MAY.search(text) else []
    if len(found) < _FEWEST or all(m["a"] and (m["sign"] or "").strip() == ":" for m in found):
        return text
    steps = sum(
        int(after["first"]) == 1 or int(after["first"]) > int(before["last"] or before["first"])
        for before, after in itertools.pairwise(found)
    )
    if 10 * steps < 9 * (len(found) - 1):
        return text
    parts: list[str] = []
    at = 0
    for match in found:
        # "Rnd (3&4) - 20 sts:": two brackets behind each other would be work
        label = re.sub(_SO_MANY, lambda m: " " * len(m[0]), match["label"]).replace("(", " ").replace(")", " ")
        label = _UP_TO.sub(lambda m: "-".ljust(len(m[0])), label)
        parts += [text[at : match.start("open" if match["open"] else "label")], " " * len(match["open"] or ""), label]
        count = match["a"] or match["b"] or match["c"] or match["d"]
        room = match.end("end") - match.end("label")
        parts.append(f"({count}):".ljust(room) if len(count) + 4 <= room else match["rest"] + match["end"])
        at = match.end("end")
    return "".join([*parts, text[at:]])


_DASHED = re.compile(
    rf"^[^\w\n]{{0,4}}(?P<label>(?i:{COURSE})\.?[ ]?#?(?P<first>\d{{1,3}})(?P<to>-\d{{1,3}})?)[ ][-\u2013\u2014][ ]"
    r"(?P<n>\d{1,3})[ ][-\u2013\u2014:][ ](?=(?P<work>[a-zA-Z(\[*{\d][^\n]*))",
    re.M,
)
_NEXT = re.compile(rf"^[^\w\n]{{0,4}}(?i:{COURSE})\.?[ ]?#?(?P<n>\d{{1,3}})\b", re.M)
_COUNTED = re.compile(r"[(\[=-][ ]?\d{1,3}\W*$")
_SHAPES = re.compile(r"\b(?:inc|dec)(?:\b|reas)|\dtog\b", re.I)


def between_dashes(text: str) -> str:
    """The page with such counts in brackets behind their labels."""
    parts: list[str] = []
    at = 0
    for match in _DASHED.finditer(text):
        first, n = int(match["first"]), int(match["n"])
        after = _NEXT.search(text, match.end())
        then = int(after["n"]) if after is not None else 0
        alike = bool(parts) and (match["to"] is not None or not _COUNTED.search(match["work"]))  # as those above it
        last = then <= first < n - 1 or match["to"] is not None
        if not (first < then <= n or (last and (alike or _SHAPES.search(match["work"])))):
            continue
        parts += [text[at : match.end("label")], f" ({n}):".ljust(match.end() - match.end("label"))]
        at = match.end()
    return "".join([*parts, text[at:]])
