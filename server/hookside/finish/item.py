"""One thing to do when the parts are worked."""

from __future__ import annotations

from typing import Literal

from hookside.pattern import Basis, CueKind, Record

Job = CueKind | Literal["block", "look", "tug"]


class FinishItem(Record):
    """One line of the list.

    id      the same as long as the text is: ticks are kept by it
    text    what to do, a sentence: the designer's where `basis` is "written"
    more    where the place is, counted, and where this comes from; "" where there is nothing to add
    spoken  both for a voice
    cue     address of the cue on the bench that asks the same: once that is answered, this is done
    card    the technique card that shows it
    """

    id: str
    kind: Job
    text: str
    more: str = ""
    spoken: str = ""
    basis: Basis = "written"
    cue: str | None = None
    card: str | None = None
