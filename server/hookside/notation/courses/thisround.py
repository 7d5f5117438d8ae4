"""A color that words give to the one course they stand beside: "sc around in black, for this round only", "This round
is worked in black."

Behind that course the color before it comes back, as behind one that a range names alone; the words tell no more.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from hookside.colours import COLOURS
from hookside.notation.askings.colournames import SHADE
from hookside.notation.labels.patterns import COURSE

_LONGEST = 600  # characters of a course that are looked at
_THIS = rf"(?<!of )(?:this|these|that) (?:(?:{COURSE}|one|ones)(?![a-z])|(?=in |with |is |are ))"
_ONLY = re.compile(
    rf"\b(?:(?:for|in|on) )?(?:(?:only|just) )?(?:for )?(?:(?:this|these) (?:one )?{COURSE}(?![a-z])"
    rf"(?:,? (?:only|alone|and no more))?|one {COURSE}(?![a-z])(?: (?:only|alone))?)",
    re.I,
)
_LIMITS = re.compile(r"\b(?:only|just|alone|for|no more)\b", re.I)
_LOOPS = re.compile(r"\b(?:[fb]lo|loops?|hook|posts?|stitch(?:es)?|sts?|inc\w*|dec\w*)\b|\d", re.I)
_MADE = r"(?:(?:is|are|was|goes|all|worked|made|done|crocheted|again|to be|you|we|i|work|make|do|use) )*"
_HERE = rf"{_THIS} ?{_MADE}(?:in |with )?(?:the )?"


_HINTS = ("this", "these", "one r", "but ", "only", "just ")


class ThisRound(NamedTuple):
    """Where the words stand; where they themselves name the color, and not the work of their course, `names` it."""

    start: int
    end: int
    names: bool


@lru_cache(64)
def _dyes(yarns: frozenset[str]) -> re.Pattern[str]:
    own = sorted(w for w in yarns if len(w) > 2 and w not in COLOURS)
    shade = rf"(?:{SHADE}|(?:{'|'.join(own)})\b)" if own else rf"(?:{SHADE})"
    return re.compile(
        rf"\b(?:(?:(?:work|make|do|crochet|use)(?:ing)? )?(?:only |just )?{_HERE}{shade}|"
        rf"(?:use|using|with|in|all in) (?:the )?{shade}(?: yarn| wool)?,? (?:(?:only|just) )?(?:for|in|on) "
        rf"(?:(?:only|just) )?(?:this|these) {COURSE}(?![a-z])"
        rf"|{shade}(?: yarn| wool)?(?:,? | \()(?:for )?(?:only |just )?(?:this|these) {COURSE},? (?:only|alone)"
        rf"|(?:only|just) (?:for )?(?:this|one) {COURSE}:? (?:in |with )?(?:the )?{shade}"
        # "sc around, but in white", "sc around, white this time"
        rf"|(?:but|only|just) (?:(?:this|it|all|worked|work|use|only) )*(?:in|with) (?:the )?{shade}"
        rf"|(?:(?:in|with) )?(?:the )?{shade}(?: yarn| wool)?,? (?:just |only )?this time"
        # "R3 (red only): ...", "sc around, red only"
        rf"|(?:(?<=[(\[])|(?<=, )){shade}(?= only))"
        r"(?: yarn| wool| colou?r| thread)?(?: only| alone)?(?=[\s.!]*(?:[,;:()\[\]]|$|[.!] ))",
        re.I,
    )


def this_round(text: str, start: int, end: int, yarns: frozenset[str]) -> ThisRound | None:
    """The words of a course that limit a color to it; None where there are none."""
    end = min(end, start + _LONGEST)
    low = text[start:end].lower()
    if not any(hint in low for hint in _HINTS):
        return None
    own = frozenset(w for w in re.findall(r"[a-z]+", low) if w in yarns)
    named = _dyes(own).search(text, start, end)
    if named is not None:
        return ThisRound(*named.span(), True)
    shade = re.compile(rf"(?<![\w-])(?:{SHADE}|(?:{'|'.join(sorted(own)) or '(?!)'})\b)", re.I)
    for told in _ONLY.finditer(text, start, end):
        if _LIMITS.search(told[0]) is None:
            continue
        before = [m.end() for m in shade.finditer(text, start, told.start())]
        if before and _LOOPS.search(text, before[-1], told.start()) is None:
            return ThisRound(*told.span(), False)
    return None
