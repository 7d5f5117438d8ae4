"""How long a tail has to be, where the text names no length."""

from __future__ import annotations

import re

from hookside.cues.openings import Opened
from hookside.layers import flat
from hookside.pattern import Piece
from hookside.shape.gauge import Gauge
from hookside.shape.lengths import LENGTH

# Common practice, no source: sewing 3 x the seam and 20 cm, never under 30; closing 20 cm.
SEAM, SPARE, LEAST, CLOSING = 3.0, 200.0, 300.0, 200.0

_TO_SEW = re.compile(r"\b(?:sew|attach|join)", re.IGNORECASE)


def with_tails(piece: Piece, opened: Opened | None, gauge: Gauge) -> Piece:
    """The piece with a length beside each fastening off and each tail after its last course that names none."""
    if not piece.courses:
        return piece
    last = piece.courses[-1]
    cues = [
        cue.model_copy(update={"advice": _advice(piece, opened, gauge, cue.text)})
        if cue.kind in ("fasten", "tail") and cue.course_id == last.id and not (cue.advice or LENGTH.search(cue.text))
        else cue
        for cue in piece.cues
    ]
    return piece if cues == piece.cues else piece.model_copy(update={"cues": cues})


def sewing(made: int, gauge: Gauge) -> int:
    """Centimetres of tail to sew on an edge of so many stitches."""
    return int(-(-max(LEAST, SEAM * made * gauge.width + SPARE) // 50) * 5)  # up to the next 5 cm


def _advice(piece: Piece, opened: Opened | None, gauge: Gauge, text: str) -> str:
    # One that is for sewing is measured for that, however small the end: one cut too short cannot be mended.
    told = [text, *(cue.text for cue in piece.cues if cue.course_id == piece.courses[-1].id and cue.kind != "close")]
    if opened is not None and opened.shuts and not any(_TO_SEW.search(said) or flat(said) for said in told):
        return f"To close the hole {CLOSING / 10:.0f} cm are enough, as most makers do it."
    made = piece.courses[-1].makes
    if not made:
        return ""
    return (
        f"For sewing it on leave about {sewing(made, gauge)} cm, worked out: three times its edge of {made} stitches "
        "and 20 cm to spare."
    )
