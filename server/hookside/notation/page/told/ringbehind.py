"""The first round behind some talk in one line: "Begin at the nose. Make a loop and work 6 dc into it." above "2nd
round: ...".

The round gets a line of its own, on which it is read as any other; nothing moves.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.unlabelled import alone

_BEHIND = re.compile(
    r"(?<=[.!])[ ](?P<ring>[^.!\n]*(?:(?<=\b[a-z])\.[^.!\n]+)*\.?)[ ]*\n\s*"
    rf"(?=[^\w\n]{{0,4}}(?:{COURSE}\.?[ ]?#?(?:2|two)\b|(?:2nd|second)[ ]{COURSE}\b|2[ ]?[.:)]))",
    re.I,
)
_WORK = re.compile(r"\d(?![\d.]*[ ]?(?:mm|cm|g\b|strands?|ply))|\b(?:sc|dc|ch|chain|inc|dec)\b", re.I)
_HINTS = ("ring", "loop", "circle", "mr", "mc")
_LONGEST = 300  # characters of such a line


def parted(text: str) -> str:
    """The page with such rounds on lines of their own; the length stays."""
    low = text.lower()
    if not any(hint in low for hint in _HINTS) or not (". " in low or "! " in low):
        return text
    for match in _BEHIND.finditer(text):
        begins = text.rfind("\n", 0, match.start()) + 1
        before = text[begins : match.start()]
        if match.start() - begins > _LONGEST or _WORK.search(before) or not alone.stitches_in_ring(match["ring"]):
            continue
        text = f"{text[: match.start()]}\n{text[match.start() + 1 :]}"
    return text
