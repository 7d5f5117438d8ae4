"""What a text calls its rounds in another tongue, or by a letter of its own: "V1:", "Vuelta 2-5." -> "R1:", "Rnd"."""

from __future__ import annotations

import re
from itertools import pairwise

_LEAD = re.compile(
    r"^[^\w\n]{0,6}(?P<word>[^\W\d_]{1,10})\.?[ ]?(?P<n>\d{1,3})"
    r"(?:[ ]?(?:-|to|a|al|bis|et|y|und|and|,|&)[ ]?(?:(?P=word)\.?[ ]?)?(?P<last>\d{1,3}))?[ ]?(?:[:.)=]|-(?=[ ]))"
    r"(?P<body>[^\n]*)$",
    re.M,
)
_WORKED = re.compile(r"\d|[(\[*]")
_ROWS = frozenset([
    "reihe", "reihen", "fila", "filas", "hilera", "hileras", "rang", "rangs", "riga", "righe", "rij", "rijen",
    "carreira", "carreiras", "rad",
])  # fmt: skip
# Words that are read as labels already, and such as number something else
_OTHERS = frozenset([
    "r", "rd", "rds", "rnd", "rnds", "round", "rounds", "row", "rows", "line", "lines", "lap", "laps", "circle",
    "circles", "tour", "tours", "level", "levels", "rank", "ranks", "series", "step", "steps", "turn", "turns",
    "ring", "rings", "part", "parts", "page", "picture", "pictures", "photo", "photos", "pic", "pics", "fig",
    "figure", "figures", "image", "video", "chapter", "section", "day", "note", "tip", "size", "option", "version",
    "method", "leg", "legs", "arm", "arms", "ear", "ears", "wing", "wings", "fin", "fins", "piece", "square",
    "strip", "panel", "petal", "motif", "colour", "color", "yarn", "ball", "skein", "block", "side", "item",
    "chart", "no", "nr", "number", "x",
])  # fmt: skip
_FEWEST = 3  # lines that count up before a word is taken for a label


def coursewords(text: str) -> str:
    """Lines that count up by a word nobody knows get "R" or "Rnd" in its place; the length stays."""
    told: dict[str, list[tuple[int, int, bool]]] = {}
    for match in _LEAD.finditer(text):
        word = match["word"]
        if word.lower() in _OTHERS:
            continue
        n = int(match["n"])
        worked = bool(_WORKED.search(match["body"]))
        stem = word.lower() if len(word) < 4 else word.lower().rstrip("s")
        told.setdefault(stem, []).append((n, int(match["last"] or n), worked))
    for word, lines in told.items():
        if len(lines) < _FEWEST or 2 * sum(worked for _, _, worked in lines) < len(lines):
            continue
        steps = sum(after[0] == before[1] + 1 for before, after in pairwise(lines))
        if 3 * steps < 2 * (len(lines) - sum(n == 1 for n, _, _ in lines)) or steps < _FEWEST - 1:
            continue
        ours = "Row" if word in _ROWS else "Rnd" if len(word) > 2 else "Rd"[: len(word)]
        text = re.sub(
            rf"(?<![^\W_]){re.escape(word)}(?P<more>s|n|es)?(?=\.?[ ]?\d{{1,3}}(?!\d))",
            lambda m, ours=ours: ours.ljust(len(m[0])),  # type: ignore[misc]
            text,
            flags=re.I,
        )
    return text
