"""Groups tied by a plus in a list with commas: "5 sc, 1 sc + inc * 5 times, 5 sc" works both of them five times."""

from __future__ import annotations

from hookside.notation.bodies.chunks import Chunk

_ENDS = ("OPEN", "CLOSE", "STARO", "STARC", "REPFROM", "REPALL", "CUE")


def tied(chunks: list[Chunk]) -> list[Chunk]:
    """The same phrases, with a bracket around what a plus ties together before a multiplier."""
    begun = chunks[_lead(chunks) :]
    if not any(c.type == "SEP" and c.value == "+" for c in begun):
        return chunks
    if not any(a.type == "SEP" and a.value == "," and _works(begun[at + 1 :]) for at, a in enumerate(begun)):
        return chunks
    out: list[Chunk] = []
    for chunk in chunks:
        begins = _begins(out) if chunk.type == "TIMES" else None
        if begins is not None:
            first, last = out[begins], out[-1]
            out.insert(begins, Chunk("OPEN", "(", first.start, first.start))
            out.append(Chunk("CLOSE", ")", last.end, last.end))
        out.append(chunk)
    return out


def _works(chunks: list[Chunk]) -> bool:
    """Is a stitch told first here, and no chain, turn or join?"""
    first = next((c for c in chunks if c.type not in ("NB", "OPEN")), None)
    return first is not None and first.type in ("ST", "BARE") and first.value not in ("ch", "sl st")


def _lead(chunks: list[Chunk]) -> int:
    """Where the work begins behind "ch 1," and its like."""
    types = [c.type for c in chunks[:4]]
    if chunks and "ch" in [c.value for c in chunks[:2] if c.type == "ST"] and "SEP" in types:
        return types.index("SEP") + 1
    return 0


def _begins(out: list[Chunk]) -> int | None:
    """Where the group that ends here begins, if a plus stands in it."""
    at = len(out)
    while at and out[at - 1].type not in _ENDS and not (out[at - 1].type == "SEP" and out[at - 1].value != "+"):
        at -= 1
    inside = out[at:]
    return at if any(c.type == "SEP" for c in inside) and inside[0].type != "SEP" else None
