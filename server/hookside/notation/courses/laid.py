"""Two layers at once: mostly the piece folded flat, now and then another part that lies upon it, stitch on stitch."""

from __future__ import annotations

import re
from dataclasses import replace

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.bodies.wording.places import LAYERED
from hookside.notation.courses.waiting import Parsed, Waiting
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.nodes import Node, Rep, Tree, Work
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
    single = ground.but(layers=False)
    other = choose(parsed.tree, single, own)
    if other.fits:
        return replace(other, why=[*other.why, "one upon the other"])
    doubled = _doubled_there(parsed)
    other = choose(Tree(doubled, parsed.tree.choices), single, own) if doubled and not taken.fits else other
    return replace(other, why=[*other.why, "two layers there"]) if other.fits else None


# Words by which a course through a piece laid flat goes through both its layers, or closes it
_THROUGH = re.compile(
    r"\b(?:both|two|2|double|layers?|thickness(?:es)?|through|thru|together|tog|across|along|edges?|top|openings?|clos\w+|"
    r"shut|seal\w*|seams?|join\w*|sew\w*|flaps?|ends?|sides?|halves)\b",
    re.I,
)


def flat_alone(parsed: Parsed, taken: Chosen, ground: Ground, body: str, own: dict[str, Stitch]) -> int | None:
    """What "Fold in half, sc around" makes where each layer gets its stitches: nothing else tells that it goes through
    both; None where words or numbers do."""
    if not ground.layers or ground.declared is not None or not taken.fits or _THROUGH.search(body) is not None:
        return None
    other = choose(parsed.tree, ground.but(layers=False), own)
    return other.reading.makes if other.fits and other.reading.makes != taken.reading.makes else None


def _doubled_there(parsed: Parsed) -> list[Node]:
    """ "6 sc, 3 sc through both layers, 6 sc" on 18: only those three go through two; nothing where all of it does."""
    low = parsed.body.lower()
    items = parsed.tree.items
    spans = []
    for told in LAYERED.finditer(low):
        start = max(low.rfind(stop, 0, told.start()) for stop in ",;.([")
        end = told.end()
        if not any(isinstance(n, Work) and start < n.start < end for n in items):  # "through both layers sc 3, ..."
            end = next((at for at in range(end, len(low)) if low[at] in ",;.)]"), len(low))
        spans.append((start, end))
    through = [n for n in items if isinstance(n, Work) and any(a < n.start < b for a, b in spans)]
    apart = [n for n in items if isinstance(n, (Work, Rep)) and not any(n is one for one in through)]
    if not through or not apart or any(n.fill for n in through):
        return []
    return [replace(n, layers=2) if isinstance(n, Work) and any(n is one for one in through) else n for n in items]
