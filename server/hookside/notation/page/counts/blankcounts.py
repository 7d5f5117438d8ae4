"""Sheets on which a class writes its own counts: "I have ___ (teacher has 12)", "My count: ____ (should be 18)".

The line to write on goes, what the other one has becomes the printed count; the length stays.
"""

from __future__ import annotations

import re

_FEWEST = 2
_COUNT = re.compile(
    r"(?P<blank>\b(?:(?:I|we|you) (?:now )?(?:have|got|get|count(?:ed)?|made)|"
    r"(?:my|your|our) (?:count|number|total|stitches)|count(?:ed)?|stitches|total)"
    r"[ ]?[:=]?[ ]{0,2}[_.\u2026]{2,30}(?:[ ]?(?:sts|stitches))?[.,]?[ ]{0,4})"
    r"(?P<told>(?P<open>[(\[])(?:the |my |our )?[a-z' ]{0,24}?\b"
    r"(?:has|have|had|is|be|gets?|got|says?|answer|right|correct)"
    r"[ ]?[:=]?[ ]?(?P<n>\d{1,4})(?:[ ]?(?:sts|stitches))?(?P<close>[)\]]))",
    re.I,
)


def told(text: str) -> str:
    """The page with such counts as others print them."""
    if len(_COUNT.findall(text)) < _FEWEST:
        return text
    return _COUNT.sub(lambda m: f"({m['n']})".rjust(len(m[0])), text)
