"""The fabric in which cues are worked out: how wide its stitches are tells how wide a piece stands open."""

from __future__ import annotations

from hookside.cues.jobs import jobs
from hookside.cues.openings import all_opened
from hookside.pattern import Pattern
from hookside.shape import Asked, CannotBeMeasured
from hookside.shape.gauge import GUESSES, Gauge
from hookside.shape.printed import printed
from hookside.shape.working import worked_with


def cloth_of(pattern: Pattern, asked: Asked | None = None) -> Gauge:
    """Hers, the pattern's, that which its printed size makes, or a guess; the same that `measure` has.

    Only a printed size needs the numerical libraries, and only in a text that prints no gauge.
    """
    guess = _known(pattern, asked)
    if (asked and (asked.gauge or asked.yarn or asked.hook)) or guess.kind not in GUESSES or printed(pattern) is None:
        return guess
    from hookside.shape.measure import made_in

    found = made_in(_filled(pattern, guess), Asked())[0]
    return found if found.kind == "size" else guess


def _known(pattern: Pattern, asked: Asked | None) -> Gauge:
    """What there is to measure with; a gauge that cannot be is passed over: `measure` says what is wrong."""
    for asks in (asked or Asked(), Asked()):
        try:
            return worked_with(pattern, asks)[0]
        except CannotBeMeasured:
            continue
    return worked_with(pattern.model_copy(update={"gauge": ""}), Asked())[0]


def _filled(pattern: Pattern, guess: Gauge) -> Pattern:
    """With the stuffing that it prints too late or forgets: what is stuffed is as large in either fabric."""
    worked = jobs(pattern, all_opened(pattern, guess)).cues
    pieces = [
        piece.model_copy(update={"cues": [*piece.cues, *worked.get(number, [])]})
        for number, piece in enumerate(pattern.pieces)
    ]
    return pattern.model_copy(update={"pieces": pieces})
