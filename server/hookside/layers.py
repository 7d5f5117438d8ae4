"""Two layers at once: how a text says that an end is folded flat, or that a hook goes through both sides of it.

The reading, the shape and the cues ask these words here, so that all three know the same ones.
"""

from __future__ import annotations

import re

# What lies double. "Sides" are those of a fold or a seam only where something goes through both or takes them together.
SIDES = r"(?:layers?|sides?|walls|thicknesses|edges)"
BOTH = r"(?:both|the two|two|2)(?: the| of the)?"
THROUGH_BOTH = re.compile(
    rf"\b(?:through|thru|across) {BOTH} {SIDES}\b(?! of the ch)|\b{BOTH} {SIDES} (?:together|at once)\b"
    r"|\b(?:both|two) (?:layers|thicknesses)\b|\b(?:through|thru) both(?=\s*(?:[,.;:(\[=]|$))",
    re.IGNORECASE,
)
_FLATTENED = re.compile(r"\bflatten\w*|\b(?:press|pinch|lay|fold)\w*\b[^.;]{0,40}\bflat\b", re.IGNORECASE)


def flat(text: str) -> bool:
    """Whether a line presses an end flat, or works both sides of it together: no hole is drawn shut there."""
    return _FLATTENED.search(text) is not None or THROUGH_BOTH.search(text) is not None
