"""Groups in a corner told without brackets: "3 tr, 2 ch, 3 tr in next corner" is all in that corner."""

from __future__ import annotations

from hookside.notation.bodies.chunks import Chunk
from hookside.notation.bodies.wording.places import CORNER, SPACE

_MOST_CHAINS = 5


def bracketed(chunks: list[Chunk]) -> list[Chunk]:
    """The same phrases, with a bracket around every group that goes into one space on both sides of its chains."""
    places = [at for at, c in enumerate(chunks) if c.type == "PLACE" and c.value.n == 1 and _holds(c)]
    if not places:
        return chunks
    out = list(chunks)
    for at in reversed(places):
        begins = _begins(out, at)
        if begins is not None:
            first, last = out[begins], out[at]
            out.insert(at, Chunk("CLOSE", ")", last.start, last.start))
            out.insert(begins, Chunk("OPEN", "(", first.start, first.start))
    return out


def _holds(chunk: Chunk) -> bool:
    place = chunk.value
    if place.each or place.kind == "fill":
        return False
    return bool(SPACE.search(place.noun) or CORNER.search(place.noun))


def _begins(chunks: list[Chunk], at: int) -> int | None:
    """Where "3 tr, 2 ch, 3 tr" begins that ends before `at`; None for anything else."""
    second = _stitch(chunks, at - 1)
    chain = _stitch(chunks, second[1] - 2) if second and _apart(chunks, second[1] - 1) else None
    first = _stitch(chunks, chain[1] - 2) if chain and chain[0] == "ch" and _apart(chunks, chain[1] - 1) else None
    if second is None or chain is None or first is None or chain[2] > _MOST_CHAINS:
        return None
    return first[1] if first[0] == second[0] and first[0] not in ("ch", "sl st") else None


def _apart(chunks: list[Chunk], at: int) -> bool:
    return at > 0 and chunks[at].type == "SEP"


def _stitch(chunks: list[Chunk], at: int) -> tuple[str, int, int] | None:
    """A stitch with its number that ends at `at` -> (its key, where it begins, how many)."""
    if at >= 1 and chunks[at].type == "NA" and chunks[at - 1].type == "ST":
        return str(chunks[at - 1].value), at - 1, chunks[at].value[0]
    if at >= 0 and chunks[at].type == "ST":
        if at >= 1 and chunks[at - 1].type == "NB":
            return str(chunks[at].value), at - 1, chunks[at - 1].value[0]
        return str(chunks[at].value), at, 1
    return None
