"""Two changes of color in one sentence: "Change to oat, and to hazel again after round 5.", "White for two rounds, then
back to red.", "Join the oat after round 5; hazel comes back for round 7." Each is due at a course of its own.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from hookside.notation.askings.colourtalk import colour_talk, only_a_yarn
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.when import when
from hookside.notation.labels.patterns import COURSE
from hookside.notation.vocabulary import COUNT_WORDS, number_of
from hookside.pattern import Course

_LONGEST = 160  # characters of such a sentence
_N = rf"\d{{1,2}}|{COUNT_WORDS}"
_SEAM = re.compile(r"[;,]\s*(?:(?:and|then|but|afterwards)\s+)*|\s+(?:and|then)\s+(?:then\s+)?")
_FOR_COURSE = re.compile(rf"\bfor (?:the )?{COURSE}\.? ?(?P<n>\d{{1,3}})\b", re.I)
# "for two rounds", "two rounds of white": how long the first one goes on
_SO_LONG = re.compile(
    rf"\b(?:for|over|during) (?:(?:the|next|following|just|only|exactly) )*(?P<n>{_N}) (?:more )?"
    rf"{COURSE}(?![a-z.] ?\d)|"
    rf"\b(?P<n2>{_N}) (?:more )?{COURSE} (?:of|in|with)\b",
    re.I,
)
# "..., then to red after two rounds": the same told of the second
_AFTER = re.compile(
    rf"\b(?:after|in) (?:(?:another|just|the|next|those|these|that|only) )*(?P<n>{_N}) (?:more )?"
    rf"{COURSE}(?![a-z])(?! of )|"
    rf"\b(?P<n2>{_N}) {COURSE} later\b",
    re.I,
)
_MAY = re.compile(r"\b(?:and|then|but|afterwards)\b|[;,]", re.I)
# "to hazel again", "hazel again from round 6": told of the second with no verb
_TO = re.compile(r"(?:(?:back|over) )*(?:to|in|into|with) (?=[a-z])", re.I)
# What may stand beside the name of a yarn and says when
_TIME = re.compile(
    rf"\b(?:now|here|again|then|from here(?: on)?|until the end|(?:from|after|in|at|until|before) (?:the )?(?:end of )?"
    rf"{COURSE}\.? ?\d{{1,3}}(?: on(?:wards)?)?|"
    rf"(?:for|over|during|after|in) (?:[a-z]+ ){{0,3}}(?:{_N}) (?:more )?{COURSE}|"
    rf"(?:{_N}) (?:more )?{COURSE} (?:of|in|with|later))\b",
    re.I,
)


class InTurn(NamedTuple):
    """Where the first ends and the second begins, and how many courses lie between, where the words count them."""

    end: int
    start: int
    rounds: int = 0


def in_turn(words: str, course: Course | None, yarns: frozenset[str]) -> InTurn | None:
    """The two changes of a sentence below that course; None where it tells but one, or no time of the second."""
    if len(words) > _LONGEST or _MAY.search(words) is None:
        return None
    for seam in reversed(list(_SEAM.finditer(words))):  # "Drop red, pick up white, and after R5 drop white": the last
        first, later = words[: seam.start()], words[seam.end() :]
        if not later.strip() or not (_changes(first, yarns) and _changes(later, yarns)):
            continue
        so_long, after = _SO_LONG.search(first), _AFTER.search(later)
        told = after or so_long
        if told is not None:
            return InTurn(seam.start(), seam.end(), number_of(told["n"] or told["n2"]))
        following = _FOR_COURSE.search(later) if course is not None else None
        own = following is not None and course is not None and following["n"] == str(int(course.label) + 1)
        if own or when(later, "colour"):
            return InTurn(seam.start(), seam.end())
    return None


def _changes(words: str, yarns: frozenset[str]) -> bool:
    if classify(words) == "colour" or colour_talk(words, yarns):
        return True
    if (to := _TO.match(words)) is not None:
        return _changes(f"change to {words[to.end() :]}", yarns)
    return only_a_yarn(_TIME.sub("", words), yarns)  # "then hazel again from round 6"
