"""Two jobs told in one sentence, each by its round: "After round 11 add the eyes, after round 12 start stuffing."

The second becomes a sentence of its own, since a sentence is asked for at one round. The length stays.
"""

from __future__ import annotations

import re

from hookside.notation.sought import Sought

_AT = r"(?:after|when|once|at the end of) (?:the end of )?(?:round|rnd|row)"
_TWO = Sought(
    ("after r", "when r", "once r", "end of r"),
    rf"(?P<first>\b{_AT} \d{{1,3}}\b[^.;:()\n]{{4,90}}?)(?P<seam>[,;](?: and| then)?| and)(?P<gap> )(?P<next>[awo])"
    rf"(?=(?:fter|hen|nce) (?:round|rnd|row) \d{{1,3}}\b)",
    re.I,
)


def parted(text: str) -> str:
    """The page with a full stop between the two."""
    return _TWO.sub(_stopped, text)


def _stopped(match: re.Match[str]) -> str:
    return match["first"] + ".".ljust(len(match["seam"])) + match["gap"] + match["next"].upper()
