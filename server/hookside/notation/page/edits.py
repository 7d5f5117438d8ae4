"""Words of a page in place of others, longer or shorter, with the way back to the designer's own characters."""

from __future__ import annotations

Edit = tuple[int, int, str]


def put(text: str, offsets: list[int] | None, edits: list[Edit]) -> tuple[str, list[int]]:
    """The text with the edits in it; of two that overlap the first one counts."""
    way = list(range(len(text))) if offsets is None else offsets
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for start, end, new in sorted(edits):
        if start < at:
            continue
        parts += [text[at:start], new]
        back.extend(way[at:start])
        last = max(start, end - 1)
        back.extend(way[min(start + i, last, len(way) - 1)] for i in range(len(new)))
        at = end
    parts.append(text[at:])
    back.extend(way[at:])
    return "".join(parts), back
