"""Loops that the words of a range tell for one of its courses: "R4-9: sc, R6 in back loops only"."""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

from hookside.notation.labels.label import numbers_of
from hookside.notation.labels.patterns import COURSE
from hookside.notation.vocabulary import ORDINAL_WORDS

_LOOPS = (
    r"(?:(?:in|into|through|thru|using|with|on) )?(?:the )?"
    r"(?:(?P<side>back|front)[ -]?(?:loops?|lps?)(?: only)?|(?P<short>[bf]lo?)\b)(?: only)?"
)
_NTH = rf"\d{{1,2}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)}|last|final"
_WHICH = (
    rf"(?:the )?(?:{COURSE}\.? ?#?(?P<ones>\d{{1,3}}(?: ?(?:-|to|and|,|&) ?(?:{COURSE}\.? ?)?\d{{1,3}}){{0,9}})|"
    rf"(?P<nth>{_NTH}) {COURSE}(?![a-z]))"
)
# "first blo", "the last one in back loops": of the courses of the range
_NTH_ALONE = rf"(?:the )?(?P<nth>{_NTH})(?: one)?(?= (?:in|into|through|thru|using|the|back|front|[bf]lo?)\b)(?P<ones>)"
_LEAD = r"(?:(?:and|but|except(?: for| that)?|with|working|work|make|crochet|only|just|for|in|on|at|sc) ){0,4}"
_BEGINS = r"(?:[,;.(\[]|-(?= )|(?<=\s)(?=(?:and|but|except|with)\b)) ?"
_ENDS = r"[)\]]?(?=\s*(?:[,;.(\[=)\]]|- ?\d|and\b|$))"
_PATTERNS = (
    re.compile(
        rf"{_BEGINS}{_LEAD}{_WHICH}(?:(?: ?[:=,-] ?| )(?:(?:is|are|worked|go(?:es)?|only|all|sc) ){{0,3}})"
        rf"{_LOOPS}{_ENDS}",
        re.I,
    ),
    re.compile(rf"{_BEGINS}{_LEAD}{_NTH_ALONE} {_LOOPS}{_ENDS}", re.I),
    re.compile(rf"{_BEGINS}{_LEAD}{_LOOPS} (?:of|in|on|at|for) {_WHICH}(?: only)?{_ENDS}", re.I),
)
_HINT = re.compile(r"loops?\b|\b[bf]lo?\b|lps?\b", re.I)


class OwnLoops(NamedTuple):
    """The courses, their loops, and the body without these words, whose others stay where they are."""

    courses: list[int]
    side: Literal["back", "front"]
    body: str


def own_loops(body: str, labels: list[int]) -> OwnLoops | None:
    """What the body of a range says of the loops of some of its courses; None where it says nothing of the kind."""
    if len(labels) < 2 or _HINT.search(body) is None:
        return None
    for pattern in _PATTERNS:
        told = pattern.search(body)
        own = _own(told, labels) if told is not None else []
        if told is None or not own or len(own) == len(labels):
            continue
        side: Literal["back", "front"] = "back" if (told["side"] or told["short"])[:1] in "bB" else "front"
        return OwnLoops(own, side, f"{body[: told.start()]}{' ' * len(told[0])}{body[told.end() :]}".rstrip())
    return None


def _own(told: re.Match[str], labels: list[int]) -> list[int]:
    if told["ones"]:
        named = numbers_of(told["ones"])
        return named if set(named) <= set(labels) else []
    nth = told["nth"].lower()
    if nth in ("last", "final"):
        return labels[-1:]
    n = ORDINAL_WORDS.get(nth) or int(nth[:-2])
    return labels[n - 1 : n]
