"""A round told in a sentence among labelled ones, with its count: "In the next round decrease every second stitch
(8).", "..., and in the last round decrease six times. (6)", "In the fourth round change to white and decrease ... (9)".

It gets its label, "Next round:", and a line of its own; the length stays. A page told so as a whole is `sentences`'.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import ORDINAL_WORDS

_SHAPES = r"(?:increas|decreas|inc|dec|sc|crochet|work|double|make|skip|change to [a-z]{3,12} and (?:inc|dec|work|sc))"
_TOLD = Sought(
    ("in the ",),
    r"(?:^[ ]*|(?<=[.!;)])[ ]|(?:(?<=\w)|(?<=\)));?,? (?:and |then )+)"
    rf"(?P<lead>in the (?P<which>next|last|following|final|{'|'.join(ORDINAL_WORDS)}) (?P<noun>{COURSE}),? )"
    rf"(?={_SHAPES}[^.;\n]{{3,90}}?\.? ?[(\[]\d{{1,3}}[)\]])",
    re.I | re.M,
)


def labelled(text: str) -> str:
    """The page with such rounds behind labels."""
    return _TOLD.sub(_label, text)


def _label(match: re.Match[str]) -> str:
    which, noun = match["which"].lower(), match["noun"]
    named = f"{'Last' if which in ('last', 'final') else 'Next'} {noun}"
    label = f"{noun} {ORDINAL_WORDS[which]}: " if which in ORDINAL_WORDS else f"{named}: "
    label = label.ljust(len(match["lead"]))
    before = len(match[0]) - len(match["lead"])
    begins = match.start() == 0 or match.string[match.start() - 1] == "\n"
    return (" " * before if begins else "\n".ljust(before)) + label
