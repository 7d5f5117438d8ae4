"""Short for "with" and "without": "w/ red, sc around", "start w/yellow", "w/o stuffing", "mr w 6 sc"."""

from __future__ import annotations

import re

from hookside.notation.page.edits import put

# Without its stroke it may be white yarn, but not behind a ring, or a verb that asks for one thing more
_WITH = re.compile(
    r"(?<![\w/])w/(?P<out>o\b(?: ?-?out\b)?)? ?(?=[a-z])|"
    r"\b(?:mr|mc|ring|circle|loop|start|begin|stuff|fill|embroider|sew|join|close) (?P<bare>w )(?=[a-z\d])",
    re.I,
)


def spelt(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The text with such words in full, and the way back."""
    edits = [(*m.span("bare" if m["bare"] else 0), ("without " if m["out"] else "with ")) for m in _WITH.finditer(text)]
    return put(text, offsets, edits) if edits else (text, offsets)
