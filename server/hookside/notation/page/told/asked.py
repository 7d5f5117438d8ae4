"""Questions that a text answers itself: "Q: When do I stuff? A: after round 8."

Their letters go, and one sentence tells both: "Stuff, after round 8." The length stays.
"""

from __future__ import annotations

import re

from hookside.notation.sought import Sought

_ASKED = Sought(
    ("? a: ", "? a. ", "?\na: ", "? answer"),
    r"(?<![\w])(?P<q>q(?:uestion)?[:.] "
    r"(?:(?:when|where|how)(?: do| should| can| must|'s| is| are)?(?: (?:i|you|we|one))? )?)"
    r"(?P<what>[^?\n]{3,90})\?(?P<a>\s(?:a|answer)[:.] )(?=[^\n]{3})",
    re.I,
)


def answered(text: str) -> str:
    """The page with such a question and its answer in one sentence."""
    return _ASKED.sub(lambda m: " " * len(m["q"]) + m["what"] + "," + " " * len(m["a"]), text)
