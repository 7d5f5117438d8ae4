"""Rounds with every stitch in its like: "fpdc around each fpdc and bpdc around each bpdc" is the round below again."""

from __future__ import annotations

import re
from collections.abc import Callable

from hookside.notation.courses.waiting import Parsed
from hookside.notation.labels import howlong
from hookside.notation.trees.asked import every
from hookside.notation.trees.nodes import Work

_ONE = r"(?:1 |one )?(?P<{0}>[a-z]{{2,6}}) (?:in|into|around|round|over|on) (?:each |every |the |next |all )*(?P={0})s?"
_TOLD = re.compile(
    r"\s*(?:(?:ch(?:ain)? ?[1-4]|[1-4] ?ch)\b(?: ?\([^()]{0,40}\))?[\s,.;:]*(?:and |then )?)?[*(\[]*\s*(?:work )?"
    rf"{_ONE.format('a')}(?:\s*(?:,|;|and|&)\s*)+{_ONE.format('b')}\b[*)\]]*"
    r"(?:[,;]?\s*(?:and )?(?:rep(?:eat)?(?: from \*)?|continue|as set))?(?P<rest>[^\n]*)",
    re.I,
)
# "same as R2, working over the posts of R7": of the round that is below anyway
_INTO_BELOW = re.compile(
    r"[,;]? ?(?:working|work|going|all) (?:over|into|around|in|on) (?:the |all |those )*(?:posts?|sts|stitches|tops?)"
    r" (?:of|from|in) (?:r|rnd|round|row)s?\.? ?(?P<n>\d{1,3})(?=\s*(?:[.,;(\[=-]|$))",
    re.I,
)


def again(body: str, below: Parsed | None, key: Callable[[str], str | None]) -> bool:
    """Does a body work into their likes the stitches of the round below, which has no others?"""
    match = _TOLD.match(body)
    if match is None or below is None or howlong.works_on(match["rest"]):
        return False
    told = {key(match[name].lower()) for name in "ab"}
    there = {n.key for n in every(below.tree) if isinstance(n, Work) and n.key != "ch"}
    return len(told) == 2 and None not in told and there == told


def plainly(rest: str, last: int) -> str:
    """What stands behind a reference, without the words that name the round below, `last`, as what it goes into."""
    match = _INTO_BELOW.search(rest)
    return rest if match is None or int(match["n"]) != last else rest[: match.start()] + rest[match.end() :]
