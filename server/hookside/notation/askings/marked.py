"""Which stitches of a round a marker goes into: "place a marker in the 15th stitch", "mark sts 3, 9 and 15"."""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.vocabulary import ORDINAL_WORDS

_NTH = rf"(?:\d{{1,3}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)})"
_MORE = r"(?:(?: ?, ?(?:and )?| ?& ?| and )"
_STITCH = r"(?:sts?|stitch(?:es)?|sc)"
_PLACED = (
    rf"(?:{_STITCH}\.? (?:no\.? ?|number )?#?(?P<n>\d{{1,3}}(?!\d){_MORE}(?:{_STITCH} )?\d{{1,3}}(?!\d)){{0,9}})|"
    rf"(?P<nth>{_NTH}{_MORE}(?:the )?{_NTH}){{0,9}}) {_STITCH}(?![a-z]))"
)
# What of a clause tells it, from its verb or the marker on
MARKS = re.compile(
    r"(?:(?:with|and|while|then|also) )*"
    r"(?:(?:mark|plac|put|hang|clip|add|attach|leav|insert|slip|us)(?:t?ing|e)?\b ?)?"
    r"(?:(?:an?|the|your|one|two|three|four|\d|stitch|locking|removable|coloured|colored) ){0,4}(?:markers? )?"
    rf"(?:(?:in|into|on|onto|at|to|for) )?(?:each of )?(?:the )?{_PLACED}"
    rf"(?: (?:of|in|on) (?:this|the|that) (?:last |same )?{COURSE}(?![a-z])|"
    rf" (?:of|in|on) (?:the )?{COURSE}\.? ?\d{{1,3}}| (?:(?:of|in|on|for) )?(?:each|every) {COURSE}(?![a-z]))?"
    r"(?: as you go| as well| too| for the [a-z]{3,12})?",
    re.I,
)
_PLACE = re.compile(_PLACED, re.I)
_NUMBER = re.compile(rf"\d+|{'|'.join(ORDINAL_WORDS)}", re.I)


def stitches_marked(words: str) -> list[int]:
    """The numbers of the stitches, in their order; none where it is the first, in which a marker goes anyway."""
    told = _PLACE.search(words) if "mark" in words.lower() else None
    if told is None:
        return []
    named = _NUMBER.findall((told["n"] or told["nth"]).lower())
    found = sorted({int(n) if n.isdecimal() else ORDINAL_WORDS[n] for n in named})
    return found if found != [1] else []
