"""How long a tail has to be, where the text names no length."""

from __future__ import annotations

import re

from hookside.cues.openings import Opened
from hookside.cues.worked import stem, told_of
from hookside.layers import flat
from hookside.pattern import Pattern, Piece
from hookside.shape.gauge import Gauge
from hookside.shape.lengths import LENGTH

# Common practice, no source: sewing 3 x the seam and 20 cm, never under 30; closing 20 cm.
SEAM, SPARE, LEAST, CLOSING = 3.0, 200.0, 300.0, 200.0

_SEWS = re.compile(
    r"\b(?:sew|attach|stitch)\w*\s+(?P<what>[^.;]*?)\s+(?:on|onto|to|into|at|along|between|in|under|behind|over|below"
    r"|above|inside|around|beneath|underneath|against|across)\b",
    re.IGNORECASE,
)
_TO_SEW = re.compile(r"\b(?:sew|attach|join)", re.IGNORECASE)


def sewn_on(pattern: Pattern) -> list[str]:
    """What the sections of making up sew on, in the text's words in small letters: "the claws" of "Sew the claws to
    the shell"."""
    sections = [cue for piece in pattern.pieces if not piece.courses for cue in piece.cues]
    return [told["what"].lower() for cue in sections if (told := _SEWS.search(cue.text)) is not None]


def with_tails(piece: Piece, opened: Opened | None, gauge: Gauge, on: list[str]) -> Piece:
    """The piece with a length beside each fastening off and each tail after its last course that names none. `on`: what
    is sewn on, as `sewn_on` has it."""
    if not piece.courses:
        return piece
    last = piece.courses[-1]
    ends = [cue.text for cue in piece.cues if cue.course_id == last.id and cue.kind != "close"]
    shuts = opened is not None and opened.shuts
    sews = any(_TO_SEW.search(said) or flat(said) for said in ends)
    cues = [
        cue.model_copy(update={"advice": _advice(piece, shuts, gauge, sews, on)})
        if cue.kind in ("fasten", "tail") and cue.course_id == last.id and not (cue.advice or LENGTH.search(cue.text))
        else cue
        for cue in piece.cues
    ]
    return piece if cues == piece.cues else piece.model_copy(update={"cues": cues})


def sewing(made: int, gauge: Gauge) -> int:
    """Centimetres of tail to sew on an edge of so many stitches."""
    return int(-(-max(LEAST, SEAM * made * gauge.width + SPARE) // 50) * 5)  # up to the next 5 cm


def _advice(piece: Piece, shuts: bool, gauge: Gauge, sews: bool, on: list[str]) -> str:
    # One that is for sewing is measured for that, however small the end: one cut too short cannot be mended.
    if shuts and not sews:
        if any(told_of(stem(piece.name), what) for what in on):
            return (
                f"For closing the hole and sewing it on leave about {(CLOSING + LEAST) / 10:.0f} cm, worked out: "
                f"{CLOSING / 10:.0f} for the hole, and hardly a seam takes less than {LEAST / 10:.0f}."
            )
        return f"To close the hole {CLOSING / 10:.0f} cm are enough, as most makers do it."
    made = piece.courses[-1].makes
    if not made:
        return ""
    return (
        f"For sewing it on leave about {sewing(made, gauge)} cm, worked out: three times its edge of {made} stitches "
        "and 20 cm to spare."
    )
