"""Ordinals that lost their noun among their like: "4th to 7th just sc in every st" between "3rd rnd" and "8th rnd".

Such a line counts on from the one above it; it gets a label in figures ("R4-7:"). So do those of a text that has no
noun at all ("1st: 6 sc in a ring", "2nd: ..."). The length stays.
"""

from __future__ import annotations

import re

_NTH = r"(?:st|nd|rd|th)"
_LINE = re.compile(
    rf"^(?P<lead>[^\w\n]{{0,6}}(?:(?:on|in|for) (?:the )?|the )?)(?P<n>\d{{1,3}}){_NTH}"
    rf"(?:[ ]?(?P<to>to|till|through|-|and|&|\+)[ ]?(?:the )?(?P<last>\d{{1,3}}){_NTH})?"
    r"(?P<noun>[ ](?:rounds?|rnds?|rows?|rds?)\b)?[ ]?[:.,=)-]{0,2}(?![ ](?:\d{1,3}(?:st|nd|rd|th)|and|to)\b)"
    r"(?=[ ](?P<body>[^\n]{2}[^\n]*))",
    re.M | re.I,
)
_WORK = re.compile(
    r"[ ](?:(?:just|only|simply|plain|again|work|crochet|make|do) )*(?:[(\[*\d]|(?:sc|[hd]?dc|h?tr|inc|dec|increas\w*|"
    r"decreas\w*|single|double|sl|ch|in|all|every|each|repeat|no|without|even|the same|same)\b)",
    re.I,
)
_FEWEST = 3


def labelled(text: str) -> str:
    """The page with a label in place of each such ordinal, where all of them count up."""
    lines = [m for m in _LINE.finditer(text) if m["noun"] or _WORK.match(text, m.end())]
    nouns = [m["noun"].strip().lower() for m in lines if m["noun"]]
    if len(lines) < _FEWEST or len(nouns) == len(lines) or (not nouns and not _all_told(lines)):
        return text
    row = sum(noun.startswith("row") for noun in nouns) * 2 > len(nouns)
    parts: list[str] = []
    at = before = 0
    for match in lines:
        n, last = int(match["n"]), int(match["last"] or match["n"])
        if not match["noun"] and (n == before + 1 or (n == 1 and not nouns)) and last >= n:
            sign = "&" if (match["to"] or "").lower() in ("and", "&", "+") else "-"
            both = f"{n}{sign}{last}" if match["last"] else n
            told = f"{'Row ' if row and match['last'] else 'R'}{both}:"
            room = match.end() - match.start("n")
            if len(told) <= room:
                parts += [text[at : match.start("n")], told.ljust(room)]
                at = match.end()
        before = last
    return "".join([*parts, text[at:]])


def _all_told(lines: list[re.Match[str]]) -> bool:
    """ "1st: 6 sc in ring", "2nd - inc around": without any noun, where each has a sign behind it and they count up
    from one, in one part or more."""
    if any(re.search(r"[:.)=-]$", m[0]) is None for m in lines):
        return False
    before = 0
    for match in lines:
        n = int(match["n"])
        if n != before + 1 and n != 1:
            return False
        before = int(match["last"] or n)
    return int(lines[0]["n"]) == 1
