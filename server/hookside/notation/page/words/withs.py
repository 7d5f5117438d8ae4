"""Short for "with" and "without": "w/ red, sc around", "start w/yellow", "w/o stuffing"."""

from __future__ import annotations

import re

from hookside.notation.page.edits import put

_WITH = re.compile(r"(?<![\w/])w/(?P<out>o\b(?: ?-?out\b)?)? ?(?=[a-z])", re.I)


def spelt(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The text with such words in full, and the way back."""
    if "w/" not in text and "W/" not in text:
        return text, offsets
    edits = [(*m.span(), ("without " if m["out"] else "with ")) for m in _WITH.finditer(text)]
    return put(text, offsets, edits) if edits else (text, offsets)
