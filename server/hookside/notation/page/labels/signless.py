"""Labels that lost their sign among their like: "4 row (3 sc, inc)" between "3 row:" and "5 row:", "3 (sc, inc)"
between "2." and "4.".

Such a line counts on from the label above it and is counted on by the next one; it gets the colon. The length stays.
"""

from __future__ import annotations

import re
from collections import Counter

_LINE = re.compile(
    r"^[^\w\n]{0,6}(?P<n>\d{1,3})(?:[ ]?(?:-|,|&|to|and)[ ]?(?P<last>\d{1,3}))?(?!\d)"
    r"(?P<word>\.?[ ]?(?:rows?|rnds?|rds?|rounds?)\b)?(?P<sign>\.?[ ]?[:.)=]|[ ]-(?=[ ]))?(?P<body>[^\n]*)$",
    re.M | re.I,
)
_WORK = re.compile(
    r"[ ](?:[(\[*\d]|(?:sc|[hd]?dc|h?tr|inc|dec|increase|decrease|work|crochet|make|single|double|sl|ch|in|all|every|"
    r"each|repeat|no|without)\b)",
    re.I,
)
_BRACKETED = re.compile(r"[ ][(\[*]")
_HOW_MANY = re.compile(r" \(\d{1,3} (?:rounds?|rnds?|rds?|rows?)\) ?[:.]", re.I)  # its sign stands behind this
_FEWEST = 3  # labels with a sign


def _kind(match: re.Match[str]) -> str:
    """What a label calls its courses: "row", "rnd", or "" for a number alone."""
    return (match["word"] or "").strip(". ").lower().rstrip("s")


def _closed(text: str, at: int) -> bool:
    """Does the line above end as a course does, with a count or a full stop?"""
    above = text[:at].rstrip("\n")[-1:]
    return above in (")", "]", ".", "!") or above.isdecimal()


def signed(text: str) -> str:
    """The page with a colon behind such labels."""
    lines = list(_LINE.finditer(text))
    told = Counter(_kind(m) for m in lines if m["sign"])
    if not told or max(told.values()) < _FEWEST or all(m["sign"] for m in lines):
        return text
    put: list[int] = []
    before = 0
    for match, after in zip(lines, [*lines[1:], None], strict=True):
        n, last, kind = int(match["n"]), int(match["last"] or match["n"]), _kind(match)
        if not match["sign"]:
            onward = after is None or int(after["n"]) in (last + 1, 1)
            many = match["word"] is not None and match["word"].lower().endswith("s") and not match["last"]
            if n != before + 1 or last < n or not onward or many or told[kind] < _FEWEST:
                continue  # "5 rows sc": so many of them
            if not (_WORK if kind else _BRACKETED).match(match["body"]) or _HOW_MANY.match(match["body"]):
                continue
            if not kind and not (_closed(text, match.start()) and after is not None and after["sign"]):
                continue
            put.append(match.start("body"))
        before = last
    ends = [0, *(at + 1 for at in put)]
    return ":".join([*(text[a:b] for a, b in zip(ends, put, strict=False)), text[ends[-1] :]])
