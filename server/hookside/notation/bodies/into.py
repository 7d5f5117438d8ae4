"""Into what a course is worked: the spaces of the one below, its stitches, both, or single chains."""

from __future__ import annotations

from itertools import takewhile

from hookside.notation.bodies.chunks import Chunk
from hookside.notation.bodies.wording.places import CHAINS, CORNER, SPACE, STITCH_TOO, TO_SPACE


def worked_into(chunks: list[Chunk]) -> str:
    """What a course works into: spaces alone, spaces and stitches, single chains, or (nothing said) stitches."""
    space = stitch = chain = False
    begins = _travel(chunks)
    for at, chunk in enumerate(chunks[begins:], begins):
        if chunk.type == "SKIP":
            stitch = stitch or chunk.value[0] > 0  # "4 sc in next ch-3 sp, skip sc": it is there to be passed over
        if chunk.type not in ("PLACE", "ANDPLACE", "PLACEPRE"):
            if chunk.type == "REPFROM" and chunk.value.fill and chunk.value.last:
                stitch = True
            continue
        place = chunk.value
        if place.kind in ("same", "skipped", "ring", "hook"):
            continue
        chain = chain or bool(CHAINS.search(place.noun))
        if SPACE.search(place.noun) or (CORNER.search(place.noun) and _chained(chunks, at)):
            space = True
            stitch = stitch or bool(STITCH_TOO.search(place.noun))
        elif place.kind != "fill" or place.each:
            stitch = True
    return "both" if space and stitch else "spaces" if space else "chains" if chain else ""


def _travel(chunks: list[Chunk]) -> int:
    """Chunks of slip stitches that only go to where the round begins: "sl st in next 2 dc and in sp, ch 3"."""
    at = 0
    while at < len(chunks) and (
        chunks[at].type in ("PLACE", "ANDPLACE", "SEP") or (chunks[at].type == "ST" and chunks[at].value == "sl st")
    ):
        at += 1
    behind = at + 1 if at + 1 < len(chunks) and chunks[at].type == "NB" else at
    if behind < len(chunks) and chunks[behind].type == "ST" and chunks[behind].value == "ch":
        return at
    place = next((c.value for c in reversed(chunks[:at]) if c.type in ("PLACE", "ANDPLACE")), None)
    if place is None:
        return 0
    # "sl st in first 2 chs, (sc, ch 3, sc) in each ch-5 sp": along the chain to the middle of its space
    ahead = next((c.value for c in chunks[at:] if c.type in ("PLACE", "PLACEPRE")), None)
    along = CHAINS.search(place.noun) and ahead is not None and SPACE.search(ahead.noun)
    return at if TO_SPACE.search(place.noun) or along else 0


def _chained(chunks: list[Chunk], at: int) -> bool:
    """Is it a bracket with a chain in it that goes into the place at `at`: "(2 dc, ch 2, 2 dc) in each corner"?"""
    if at == 0 or chunks[at - 1].type != "CLOSE":
        return False
    inner = reversed(chunks[: at - 1])
    return any(c.type == "ST" and c.value == "ch" for c in takewhile(lambda c: c.type != "OPEN", inner))
