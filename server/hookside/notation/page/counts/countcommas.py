"""Counts that an author prints behind a comma: "R4: [dc, inc] 6 times, 18 dc". The comma becomes the full stop that
others print there, so that the count is not worked as stitches; the length stays.

It is an author's way where several rounds end so that go all the way without it ("dc in every dc, 12 dc"), for behind
those there is nothing left to work into; behind "6 times" alone it may be work.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

_FEWEST = 4
_FULL = 2
_NOUN = r"(?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr)"
_LINE = re.compile(rf"^[^\w\n]{{0,6}}(?:(?:{COURSE})\.? ?#?\d|\d{{1,3}}[.:)])[^\n]{{0,300}}$", re.I | re.M)
# What makes a round whole: "6 times", "x 6", "in every dc", "around", "in magic loop"
_ALL = (
    rf"\b(?:each|every|all) (?:of the )?{_NOUN}(?: a?round)?|\ba?round|\bto (?:the )?end|\beach chain|"
    r"\bsame as (?:row|rnd|round) \d{1,3}"
)
_COUNTED = re.compile(
    r"(?:\b\d{1,2} times|\btwice|\b[x*] ?\d{1,2}|\d{1,2} ?x|\)[ ]?\d{1,2}|"
    rf"(?P<all>{_ALL})|\b(?:magic )?(?:ring|loop|circle|mr))"
    rf"(?P<comma>,)[ ](?P<n>\d{{1,4}})[ ]{_NOUN}\.?\s*$",
    re.I,
)
# "dc two together, 16 dc": what a row ends with and its count, where every line of the page has one
_TOGETHER = re.compile(rf"\btog(?:ether)?(?P<comma>,)[ ](?P<n>\d{{1,4}})[ ]{_NOUN}\.?\s*$", re.I)
_HINT = re.compile(rf", \d{{1,4}} {_NOUN}\b", re.I)
_PRINTED = re.compile(r"[(\[{=][ ]?\d{1,4}(?: ?[a-z]{2,8})?[ ]?[)\]}]?\.?\s*$", re.I)


def stopped(text: str) -> str:
    """The page with a full stop in front of each such count, where that is the author's way."""
    if len(_HINT.findall(text)) < _FEWEST:
        return text
    told: list[int] = []
    at_ends: list[int] = []
    full = others = 0
    for line in _LINE.finditer(text):
        ends = _HINT.search(line[0]) is not None
        match = _COUNTED.search(line[0]) if ends else None
        if match is not None:
            told.append(line.start() + match.start("comma"))
            full += match["all"] is not None
        elif ends and (ended := _TOGETHER.search(line[0])) is not None:
            at_ends.append(line.start() + ended.start("comma"))
        elif _PRINTED.search(line[0]):
            others += 1
    if len(told) + len(at_ends) == sum(1 for _ in _LINE.finditer(text)):
        told += at_ends
    if len(told) < _FEWEST or full < _FULL or others * 2 > len(told):
        return text
    signs = list(text)
    for at in told:
        signs[at] = "."
    return "".join(signs)
