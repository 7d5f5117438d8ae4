"""What leaves a part empty: "Do not stuff", "it is not stuffed", "the wings stay empty". Asked here by all rooms."""

from __future__ import annotations

import re

ASKED = "Is it to be filled?"  # what Hookside asks where no word of the text tells it

_BE = r"(?:is|are|was|were|be|being|gets?|stays?|stayed|remains?|kept|left|it's|they're|that's)"
# "The leg does not need to be stuffed", "needs no filling", "you don't have to stuff it", "we won't be stuffing them"
_FILLED = r"(?:be )?(?:any )?(?:stuff(?:ed|ing)?|fill(?:ed|ing)?)"
_ENOUGH = r"(?!\s+(?:yet|too|so|very|firmly|enough|well|until|till|past|properly|evenly|right|all|much|more|here)\b)"
NEEDS_NONE = re.compile(
    r"\b(?:(?:do|does|did|will|would)(?: not|n'?t)|won'?t|needn'?t|need not|no) "
    rf"(?:(?:need|have|want|require|get|be|for|it|them|this)s? (?:to )?){{0,2}}{_FILLED}\b{_ENOUGH}|"
    rf"\b(?:needs?|wants?|has|have|gets?|takes?|requires?) no (?:stuffing|filling)\b{_ENOUGH}",
    re.IGNORECASE,
)
# "If the neck is not stuffed firmly it wobbles" and "not stuffed yet" leave nothing empty
NOT_STUFFED = re.compile(
    rf"{NEEDS_NONE.pattern}|"
    r"\b(?:do not|don'?t|did not|didn'?t|does not|doesn'?t|need not|needn'?t|no need to|without|never)\s+(?:stuff|fill)"
    r"(?!\w*\s+(?:yet|too|so|very|until|till|past|all|right|over)\b)|"
    # word for word from the Japanese
    r"\b(?:do not|don'?t|never)\s+(?:pack|put)(?: in)?(?: any| the)? (?:cotton|stuffing|filling)\b(?!\s+(?:yet|too|so|"
    r"very|until|in the|into the)\b)|\b(?:cotton|stuffing|filling) is not (?:put|packed)\b(?!\s+(?:yet|into? the)\b)|"
    r"\bun-?(?:stuffed|filled)\b|\bno (?:stuffing|filling)\b|"
    rf"(?<!\bif )\b(?:{_BE}\s+not|{_BE}n'?t|not to be|(?:should|must|may|shall) not be|not)\s+"
    r"(?:be\s+|being\s+|to be\s+)?(?:stuffed|filled)\b(?!\s+(?:yet|too|so|very|firmly|enough|well|until|till|past|"
    r"properly|evenly|at this|right|all)\b)|"
    r"\b(?:stays?|remains?|left|leave|keep|kept) (?:it |them |the [a-z]+ |this |these )?(?:flat and )?"
    r"(?:empty|hollow)\b(?!\s+(?:until|till|for now|at first|yet))",
    re.IGNORECASE,
)
