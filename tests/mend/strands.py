"""Strands to mend: every piece of our own patterns, and a small one of which each count is known by heart."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from hookside.compile import Choices, lay, read
from hookside.follow import Strand

OURS = Path(__file__).resolve().parents[2] / "patterns"

# demo
BUOY = """Fender buoy
US terms

Buoy
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnds 5-7: sc in each st around (24)
Rnd 8: (2 sc, inv dec) x 6 (18)
Rnd 9: sc in each st around (18)
Rnd 10: (sc, inv dec) x 6 (12)
Rnd 11: inv dec x 6 (6)
"""


@cache
def strands() -> tuple[Strand, ...]:
    """Every piece of our own patterns that has rounds or rows."""
    found: list[Strand] = []
    for path in sorted(OURS.glob("*.txt")):
        text = path.read_text(encoding="utf-8")
        found += [one.strand for one in lay(read(text), text, Choices()) if one.copy == 1 and one.strand.courses]
    return tuple(found)


@cache
def laid(text: str) -> Strand:
    return lay(read(text), text, Choices())[0].strand


def at_end(strand: Strand, label: str) -> int:
    """Where nothing of the course behind `label` is worked."""
    index = next(i for i, course in enumerate(strand.courses) if course.label == label)
    return strand.courses[index + 1].first if index + 1 < len(strand.courses) else strand.courses[index].end
