"""Names between marks with words behind them, as forums and notes have them: "[b]WINGS x2[/b] gold, these are flat",
"~*~ BODY ~*~ worked on from the legs". The words go into a bracket behind the name; other marks of a forum are blanks.
"""

from __future__ import annotations

import re

from hookside.notation.page.edits import put

FRAME = re.compile(r"^[ ]{0,4}[^\w\s()\[\]{}]{2,5}[ ][A-Za-z]", re.M)  # a hint of such a name
_TAG = re.compile(r"\[(?P<end>/?)(?P<tag>b|i|u|s|size|colou?r|center|quote|h[1-4])(?:=[^\]\n]{0,30})?\]", re.I)
_NAME = re.compile(
    r"^[ ]{0,4}(?:(?P<open>\[(?P<tag>b|u|i|h[1-4])\])[ ]?(?P<name>[^\[\]()\n]{2,40})(?P<close>\[/(?P=tag)\])|"
    r"(?P<frame>[^\w\s()\[\]{}]{2,5})[ ](?P<name2>[A-Za-z][A-Za-z' ]{1,30}?)(?P<close2>[ ](?P=frame))|"
    r"(?P<arrow>>{2,3})[ ](?P<name3>[A-Za-z][A-Za-z' ]{1,30}?)(?P<close3>[ ]<{2,3}))"
    r"(?P<rest>[ ]+(?![xX] ?\d|make\b|\d|[:.(\[-])(?=[^\n]{0,99}[a-z]{3})[^()\n]{3,100}?)[ ]*$",
    re.M | re.I,
)


def unmarked(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page without such marks, and the way back."""
    edits: list[tuple[int, int, str]] = []
    for told in _NAME.finditer(text):
        close = "close" if told["open"] else "close2" if told["frame"] else "close3"
        edits += [(*told.span(close), " ("), (told.end("rest"), told.end("rest"), ")")]
    kept = {start for start, _, _ in edits}
    closed = {m["tag"].lower() for m in _TAG.finditer(text) if m["end"]}
    edits += [(*m.span(), "") for m in _TAG.finditer(text) if m["tag"].lower() in closed and m.start() not in kept]
    return put(text, offsets, edits) if edits else (text, offsets)
