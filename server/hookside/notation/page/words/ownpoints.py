"""A text's own abbreviations with points, "m.b. = single crochet", "k.s. - single crochet": without the points wherever
they stand, as other keys have them. Those of our own tongue are known with their points; the length stays.
"""

from __future__ import annotations

import re

_OURS = frozenset(["sc", "dc", "tr", "ss", "st", "ch", "sl", "mr", "mc", "hk", "yo"])
_TOLD = re.compile(r"(?<![\w.])(?P<name>[^\W\d_]\.[ ]?[^\W\d_]\.)(?=[ ]?[=:\u2013\u2014-][ ]?[a-z])")


def plain(text: str) -> str:
    """The page with such names in letters alone."""
    for name in {m["name"] for m in _TOLD.finditer(text)}:
        short = name.replace(".", "").replace(" ", "")
        if short.lower() not in _OURS:
            text = re.sub(rf"(?<![\w.]){re.escape(name)}", short.ljust(len(name)), text)
    return text
