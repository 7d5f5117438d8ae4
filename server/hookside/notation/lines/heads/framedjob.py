"""A job that is set as loud as the name of a part, between two rounds: "** change to sweater colour **",
"== Insert eyes ==".

Only where the rounds go on in number behind it: in front of a first round the same words head what they head.
"""

from __future__ import annotations

import re

from hookside.notation.askings.kinds import classify
from hookside.pattern import CueKind

# "change to sweater colour", "switch to trousers", "new colour: shoe": other yarn, by whatever name
_OTHER_YARN = re.compile(
    r"(?![^\n]*\b(?:sc|hdc|dc|rows?|rounds?|working|hook|sides?)\b)"
    r"(?:(?:and|now|then|next|here),? )*(?:(?:change|switch|swap|turn)(?: over| back)? (?:to|into) (?:the )?[a-z]|"
    r"(?:change|switch|swap)(?: the)? (?:yarns?|colou?rs?|threads?)|"
    r"(?:start|begin|continue|carry on|go on|work|join|attach|use|take|pick up)(?: with| in)? (?:the |a )?"
    r"[a-z ]{0,24}\b(?:yarn|colou?r|thread)\b|"
    r"(?:the )?(?:new|next|other) (?:yarn|colou?r|shade|thread)\b|(?:the )?[a-z]+ (?:yarn|colou?r)$)[^.\n]{0,40}",
    re.I,
)
# Words between two like signs: a name or a job, and never the rest of the round above
FRAMED = re.compile(r"\s*(?P<sign>[=~#<>-]|\*(?=\*))(?P=sign){1,20}[ ]?[A-Za-z][A-Za-z' -]{1,40}[ ]?[=~#<>*-]{2,20}\s*")
_SIGNS = " \t#>*_=~-.:/+<|!"
# What a part may not be called; to join, to fold or to sew may head rounds of their own
_LOUD_JOBS: tuple[CueKind, ...] = ("stuff", "eyes", "embroider", "marker", "tail")


def framed_job(text: str) -> CueKind | None:
    """The job that such a line tells; None for what may be the name of a part."""
    told = text.strip(_SIGNS)
    if _OTHER_YARN.fullmatch(told) is not None:
        return "colour"
    kind = classify(told)
    return kind if kind in _LOUD_JOBS else None
