"""What a range says of its last course alone, in a sentence behind its work: "At the end of row 19 the total is 19."

It is the count of that course, and not one of each.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.inwords import WORD, N, value

_NOUN = r"(?: (?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr))?"
_COUNT = (
    rf"(?:a total of |all )?(?P<n>\d{{1,4}}|{WORD}){_NOUN}"
    r"(?: (?:in all|in total|altogether|left|remain(?:ing)?|now))?"
)
_HAS = (
    r"(?:(?:the|your) (?:total|count|number)(?: of sts| of stitches)?(?: (?:is|are|will be|should be))?|"
    r"(?:you|we|it|there|that|this) (?:(?:will|should|now|then|still|can|is to) ){0,2}"
    r"(?:have|has|be|is|are|remains?|counts?|makes?|gives?(?: you)?|leaves?(?: you)?(?: with)?|comes? to)):?"
)
_TOLD = re.compile(
    r"(?:(?<=[.;!,:)(\]])|(?<=[.;!,)] )|(?<= - ))(?:(?:so|and|then),? )?(?:"
    rf"(?:(?:at|by) (?:the )?end of|after|by|on|in|with|(?:once|when) (?:you|we) (?:have (?:worked|done|finished)|"
    rf"reach|finish)) (?:the )?(?:{COURSE}\.? ?(?P<of>{N})|last (?:{COURSE}|one)),? {{1,8}}"
    rf"(?:{_HAS} {_COUNT}|(?P<n3>\d{{1,4}}|{WORD}){_NOUN} (?:are |will be |should be )?(?:left|remain)(?:ing)?)|"
    rf"{COURSE}\.? ?(?P<of2>\d{{1,3}}) {{1,8}}(?:(?:should|will|now|then) )?(?:has|have|ends? (?:with|on|at)|makes?|"
    rf"comes? to|counts?|is) {_COUNT.replace('<n>', '<n2>')})"
    r"(?=\s*(?:[.;!)]|$))",
    re.I,
)
_MAY = re.compile(r"r(?:ow|ound|n?d) ?[a-z0-9-]{1,12},? {1,8}(?:[a-z]+ ){1,4}[a-z0-9]|last (?:row|round|rnd|one)", re.I)


@dataclass(frozen=True, slots=True)
class OfLast:
    """The count of the last course of a range, and where its digits and all of its words stand."""

    n: int
    digits: tuple[int, int]
    start: int
    end: int


def of_last(body: str, numbers: list[int]) -> OfLast | None:
    """What a body says of the last of its courses; None where it says nothing, or names another one."""
    if len(numbers) < 2 or not _MAY.search(body):
        return None
    told = _TOLD.search(re.sub(r"\s", " ", body))
    if told is None:
        return None
    named = told["of"] or told["of2"]
    if named is not None and value(named) != numbers[-1]:
        return None
    which = next(name for name in ("n", "n2", "n3") if told[name])
    return OfLast(value(told[which]), told.span(which), *told.span())
