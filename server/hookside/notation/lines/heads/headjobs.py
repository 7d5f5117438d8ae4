"""The jobs in the bracket of a heading: "BODY (make 1, stuff after round 3, leave a 20 cm tail)".

Colors and how many there are are told in such a bracket as well; they are read by what knows them.
"""

from __future__ import annotations

import re

from hookside.notation.askings.askings import job
from hookside.pattern import CueKind

_BRACKET = re.compile(r"[(\[{](?P<told>[^()\[\]{}\n]{6,90})[)\]}]")
_CHUNK = re.compile(r"[^,;]+")
_TOLD: tuple[CueKind, ...] = ("stuff", "eyes", "embroider", "tail", "close", "fasten", "weave", "hold", "marker", "sew")
_LENGTH_LEFT = re.compile(r"(?:leav\w*|with) (?:an? )?\d{1,3} ?(?:cm|mm|in|inch(?:es)?|\")(?![a-z])", re.I)  # of yarn


def jobs_in_brackets(text: str) -> list[tuple[int, int]]:
    """Where they stand, each by itself."""
    found: list[tuple[int, int]] = []
    for bracket in _BRACKET.finditer(text):
        for chunk in _CHUNK.finditer(text, *bracket.span("told")):
            words = chunk[0].strip()
            if job(words) in _TOLD or _LENGTH_LEFT.match(words):
                first = chunk.start() + len(chunk[0]) - len(chunk[0].lstrip())
                found.append((first, first + len(words)))
    return found
