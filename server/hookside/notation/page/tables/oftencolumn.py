"""Tables with a column that tells how often: "3 | sc, inc | 6 | 18 | a note" below "Rnd | work | times | total | note".

Each row becomes the line that others write, "3: (sc, inc) x6 = 18", and its note stands on a line below it.
"""

from __future__ import annotations

import re

from hookside.notation.page.edits import Edit, put

_LABELS = frozenset(["rnd", "round", "row", "rd", "r", "no", "no.", "#", "rnds", "rounds", "rows", "nr"])
_WORKS = frozenset(["work", "what", "how", "instructions", "instruction", "stitches", "pattern", "do", "what to do"])
_OFTEN = frozenset(["times", "x", "repeat", "repeats", "rep", "reps", "how often", "how many times"])
_COUNTS = frozenset(["total", "count", "sts", "st count", "stitch count", "sum", "in all", "after", "makes"])
_NOTES = frozenset(["note", "notes", "remarks", "remark", "comment", "comments", "extra"])
_NUMBERED = re.compile(r"[a-zA-Z]{0,5}\.? ?\d{1,3}(?: ?(?:[-\u2013&,]|to) ?\d{1,3})?\.?")
_FEWEST = 3


def _cells(text: str, start: int, end: int, bar: str) -> list[tuple[int, int]]:
    spans = []
    at = start
    for part in text[start:end].split(bar):
        gap = len(part) - len(part.lstrip())
        spans.append((at + gap, at + gap + len(part.strip())))
        at += len(part) + 1
    return spans


def _columns(names: list[str]) -> dict[str, int] | None:
    """Which column is which; None where the heads tell no label, work, times and count in this order."""
    kinds = {"label": _LABELS, "work": _WORKS, "often": _OFTEN, "count": _COUNTS, "note": _NOTES}
    at = {kind: n for n, name in enumerate(names) for kind, words in kinds.items() if name in words}
    order = [at.get(kind, -1) for kind in ("label", "work", "often", "count")]
    return at if -1 not in order and order == sorted(order) else None


def multiplied(text: str) -> tuple[str, list[int] | None]:
    """The page with the rows of such tables as lines, and the way back; None where it holds none."""
    edits: list[Edit] = []
    columns: dict[str, int] | None = None
    bar = ""
    begins = 0
    for line in text.split("\n"):
        start, begins = begins, begins + len(line) + 1
        sign = "\t" if "\t" in line else "|" if line.count("|") > 1 else ""
        if not sign:
            continue
        spans = _cells(text, start, start + len(line), sign)
        told = [text[a:b] for a, b in spans]
        heads = _columns([name.lower().strip("*_ ") for name in told])
        if heads is not None:
            columns, bar = heads, sign
            edits.append((start, start + len(line), ""))
        elif columns is not None and sign == bar and len(told) > columns["often"]:
            edits += _row(start, start + len(line), spans, told, columns)
    if len(edits) < _FEWEST:
        return text, None
    return put(text, None, edits)


def _row(start: int, end: int, spans: list[tuple[int, int]], told: list[str], columns: dict[str, int]) -> list[Edit]:
    """A row as a line; nothing where it has no number and no work."""
    label, work = spans[columns["label"]], spans[columns["work"]]
    if not _NUMBERED.fullmatch(told[columns["label"]]) or work[0] == work[1]:
        return []
    many = told[columns["often"]].strip("x\u00d7 ")
    count = spans[columns["count"]] if columns["count"] < len(spans) else (end, end)
    note = spans[columns["note"]] if columns.get("note", len(spans)) < len(spans) else (end, end)
    if many and not many.isdecimal():
        return []
    edits: list[Edit] = [(start, label[0], ""), (label[1], work[0], ": (" if many else ": ")]
    edits.append((work[1], count[0], (f") x{many}" if many else "") + (" = " if count[0] < count[1] else "")))
    edits.append((count[1], note[0], "\n" if note[0] < note[1] else ""))
    if note[1] < end:
        edits.append((note[1], end, ""))
    return edits
