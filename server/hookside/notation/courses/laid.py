"""Two layers at once: mostly the piece folded flat, now and then another part that lies upon it, stitch on stitch."""

from __future__ import annotations

import re
from dataclasses import replace

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.courses.waiting import Parsed, Waiting
from hookside.notation.lines.layout import RawText
from hookside.stitches import Stitch

# "lay the pink ear on the grey one", "hold both wings together, wrong sides facing"
_UPON = re.compile(
    r"\b(?:wrong|right) sides? (?:together|facing|inside|in\b|out)|\b(?:on top of|upon|against) (?:the |each )?\w+|"
    r"\b(?:on|onto|over|behind|to) (?:the )?(?:\w+ )?(?:other|first|second|one)\b|"
    r"\b(?:both|two|2) (?:the |of the )?(?:\w+ )?(?:pieces|parts|halves|panels|motifs|squares|circles|discs|ears|wings|"
    r"fins|leaves|flippers|soles|feet) together\b",
    re.I,
)
_FLAT = re.compile(r"\b(?:fold|flat|press|pinch|squeez|squash|clos(?:e|ing)|shut|in half)", re.I)


def behind(queue: list[Waiting | RawText], index: int) -> int:
    """Where the course before the one at `index` ends; 0 where there is none."""
    return next((t.end for at in range(index - 1, -1, -1) if isinstance(t := queue[at], Waiting)), 0)


def laid(parsed: Parsed, taken: Chosen, ground: Ground, told: str, own: dict[str, Stitch]) -> Chosen | None:
    """The course as one round through two parts, each of which has its stitches: where the print needs it, or `told`
    (the words since the course below) lays a part upon it and folds nothing; else None."""
    lies = ground.declared is None and _UPON.search(told) is not None and _FLAT.search(told) is None
    if ground.there is None or (taken.fits and not lies):
        return None
    other = choose(parsed.tree, replace(ground, layers=False), own)
    return replace(other, why=[*other.why, "one upon the other"]) if other.fits else None
