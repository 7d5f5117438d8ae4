"""Rounds told by their count alone, in a word: "R2: twelve", "round three eighteen", "rounds four to eight stay at
eighteen". It becomes the figure that others print there; the length stays.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.inwords import WORD, N, value
from hookside.notation.vocabulary import TENS

_COUNT = re.compile(
    rf"^(?P<lead>[^\w\n]{{0,6}}{COURSE}s?\.?[ ]?#?(?P<label>{N})"
    rf"(?:[ ]?(?:-|to|till|until|through|and)[ ]?(?:{COURSE}[ ]?)?(?P<last>{N}))?[ ]?[:.,)=-]{{0,2}}[ ])"
    rf"(?P<told>(?:(?:(?:stays?|staying|keep|remains?|still|even|just|so)[ ](?:(?:at|on)[ ])?)?(?P<n>{WORD})))"
    r"(?P<noun>[ ](?:sts?|stitches))?[ .]*$",
    re.I | re.M,
)
_FEWEST = 3  # stitches: "round twenty one" is the name of a round


def in_figures(text: str) -> str:
    """The page with such counts in figures."""
    return _COUNT.sub(_figures, text)


def _figures(match: re.Match[str]) -> str:
    label = (match["last"] or match["label"]).lower()
    if value(match["n"]) < _FEWEST or (label in TENS and value(match["n"]) < 10):
        return match[0]
    return match["lead"] + str(value(match["n"])).ljust(len(match[0]) - len(match["lead"]))
