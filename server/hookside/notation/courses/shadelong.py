"""For how many rounds a color is told in a sentence of its own: "Two rounds in red.", "Red for two rounds.", "The first
two rounds are white, the rest red."

The sentence is asked where it stands. Where the range behind it has as many rounds that is its place; where it may
as well mean those above it, or some of a longer range, nobody can tell, and that is said.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookside.notation.askings.colournames import SHADE
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.layout import RawCourse, RawText
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import COPIES, number_of

_N = COPIES
_SO_MANY = Sought(
    rf" (?i:{COURSE})",
    rf"\b(?P<n>{_N}) (?:more |plain |full )?{COURSE}s? (?:are |is |go |worked )?(?:(?:in|of|with) )?(?:the )?"
    rf"(?:{SHADE})|"
    rf"(?:{SHADE}) (?:yarn )?for (?:the (?:next|following) )?(?P<n2>{_N}) {COURSE}",
    re.I,
)
# "One round white:", "Now white, one round.", "Swap to white for one round.": nothing but a color and for how long
_LED = r"(?:(?:change|switch|swap|go|use|work|join|now|then|next|and|just|only|to|in|with|the|for|a|an?other),? )*"
_ALONE = re.compile(
    rf"{_LED}(?:(?P<n>{_N}) (?:more |plain |single )?{COURSE}s? (?:(?:in|of|with) )?(?:the )?(?:{SHADE})(?: yarn)?|"
    rf"single {COURSE} (?:in|of) (?:{SHADE})|"
    rf"(?:{SHADE})(?: yarn| wool)?(?:,? | ?\(| x ?)(?:for )?(?:just |only )?(?:the )?(?:next )?"
    rf"(?P<n2>{_N})? ?(?:more )?{COURSE}s?)"
    r"(?: now| only| alone)?\W*",
    re.I,
)
_SOME = re.compile(
    rf"\b(?:first|last|next|other|middle) (?:{_N} )?{COURSE}s? (?:is|are|in|go) |\bthe (?:rest|others?)\b", re.I
)
# "one round red: sc around", "sc around in red only", behind the label of the course that is meant
_FOR_THIS = re.compile(
    rf"\b(?:one|1|a|this)(?: single)? {COURSE} (?:only |alone )?(?:(?:in|of|with) )?(?:{SHADE})|"
    rf"(?:{SHADE}) (?:yarn )?(?:only|alone)\b(?! (?:in|for|at|on|from|with)\b)",
    re.I,
)
_LONGEST = 160  # letters of such a sentence


def _courses(item: RawCourse | RawText | None) -> int:
    """How many courses an item of a piece stands for, by its label."""
    if not isinstance(item, RawCourse):
        return 0
    return len(item.label.numbers) or item.label.relative if item.label is not None else 1


def _nearest(items: Sequence[RawCourse | RawText]) -> list[int]:
    """For each item, of how many courses the nearest label before it tells."""
    found, last = [], 0
    for item in items:
        found.append(last)
        last = _courses(item) or last
    return found


def for_so_long(words: str) -> int:
    """For how many courses from its place on a color is told alone: "One round white:"; 0 for any other words."""
    told = _ALONE.fullmatch(words.strip()) if len(words) <= _LONGEST else None
    if told is None:
        return 0
    return number_of(told["n"] or told["n2"] or "1")


def for_this_alone(body: str) -> str:
    """The words of a course that tell its color for no other: "sc around in red only"."""
    told = _FOR_THIS.search(body) if len(body) <= _LONGEST else None
    return told[0] if told is not None else ""


def open_lengths(text: str, items: Sequence[RawCourse | RawText]) -> Iterator[tuple[int, int]]:
    """Where the sentences of a piece tell a color of so many rounds, and leave open of which."""
    above, below = _nearest(items), _nearest(items[::-1])[::-1]
    for at, item in enumerate(items):
        if not isinstance(item, RawText) or item.end - item.start > _LONGEST:
            continue
        words = text[item.start : item.end]
        told = list(_SO_MANY.finditer(words))
        if not told:
            continue
        n = sum(number_of(m["n"] or m["n2"]) for m in told)
        before, behind = above[at], below[at]
        placed = behind == n != before or (before == behind == 1 and len(told) == 1)
        if not placed or _SOME.search(words):
            yield item.start, item.end
