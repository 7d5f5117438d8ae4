"""The record in the form that is shown and given out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from hookside.follow import State, Strand
from hookside.pattern import Record as Form
from hookside.record.left import left
from hookside.record.sittings import Pace, Sitting, pace, sittings, worked


class ToldSitting(Form):
    """`begun`, `ended`: seconds since 1970. `a_minute`: None where it is too short to tell."""

    begun: float
    ended: float
    stitches: int
    pieces: list[str]
    a_minute: float | None


class ToldPace(Form):
    """Stitches a minute; `sittings` 0: nobody's own, by common practice."""

    value: float
    low: float
    high: float
    sittings: int


class Metres(Form):
    """Metres of yarn, by share of the stitches left."""

    value: float
    low: float
    high: float


class ToldLeft(Form):
    """`minutes`: of working, finishing not in it. `metres`: None where the yarn cannot be worked out."""

    stitches: int
    stitches_of: int
    courses: int
    courses_of: int
    unread: int
    minutes: ToldPace
    metres: Metres | None


class ToldRun(Form):
    """Stitches left of one copy of a piece. What has none (a section of sewing up) is not told here: that nothing is
    left of it says nothing of whether it is done."""

    run: str
    piece: str
    number: int  # of its copies
    copies: int
    stitches: int
    stitches_of: int


class Record(Form):
    """The record of one making. `worked_seconds`: the sum of its sittings; `pulled_out`: stitches that were ripped;
    `notes`: each with its piece and the course it was written in."""

    title: str
    sittings: list[ToldSitting]
    worked_seconds: float
    pulled_out: int
    pace: ToldPace | None
    left: ToldLeft
    runs: list[ToldRun]
    notes: list[dict[str, Any]]


def record(
    title: str,
    rows: Iterable[Mapping[str, Any]],
    runs: Sequence[Mapping[str, Any]],
    state: State,
    strands: Mapping[str, Strand],
    notes: Sequence[Mapping[str, Any]] = (),
    yarn: Mapping[str, Metres] | None = None,
) -> Record:
    """The record of a making from its applied moves {when, run, strand, intent, from, to} and where it stands.

    `yarn`: metres for one copy of each piece, by its name.
    """
    moves = worked(rows, strands)
    found = sittings(moves)
    own = pace(found)
    ahead = left(state, strands, own)
    pieces = {run["run"]: run["piece"] for run in runs}
    about, least, most = ahead.minutes
    return Record(
        title=title,
        sittings=[_sitting(one, pieces) for one in found],
        worked_seconds=sum(one.seconds for one in found),
        pulled_out=sum(-move.stitches for move in moves if move.ripped),
        pace=_pace(own),
        left=ToldLeft(
            stitches=ahead.stitches, stitches_of=ahead.stitches_of, courses=ahead.courses,
            courses_of=ahead.courses_of, unread=ahead.unread,
            minutes=ToldPace(value=about, low=least, high=most, sittings=own.sittings if own else 0),
            metres=_metres(yarn or {}, [(pieces[run], *share) for run, share in ahead.by_run.items()]),
        ),
        runs=[
            ToldRun(
                run=run["run"], piece=run["piece"], number=run["copy"], copies=run["copies"],
                stitches=ahead.by_run[run["run"]][0], stitches_of=ahead.by_run[run["run"]][1],
            )
            for run in runs
            if ahead.by_run[run["run"]][1]
        ],
        notes=[
            {**note, "piece": pieces.get(str(note.get("run")), ""), "place": _place(note, state, strands)}
            for note in notes
        ],
    )  # fmt: skip


def _place(note: Mapping[str, Any], state: State, strands: Mapping[str, Strand]) -> str:
    """The course a note was written in: "round 3"; "" where there is none."""
    run = state.runs.get(str(note.get("run")))
    courses = strands[run.strand].courses if run else []
    course = next((one for one in courses if int(note.get("step", 0)) < one.end), None)
    return f"{course.kind} {course.label}" if course else ""


def _metres(yarn: Mapping[str, Metres], runs: Sequence[tuple[str, int, int]]) -> Metres | None:
    """Metres for what is left of runs as (piece, stitches left, of how many); None where a piece has no figure."""
    if any(piece not in yarn for piece, _, whole in runs if whole):
        return None
    shares = [(yarn[piece], stitches / whole) for piece, stitches, whole in runs if whole]
    return Metres(
        value=sum(m.value * share for m, share in shares),
        low=sum(m.low * share for m, share in shares),
        high=sum(m.high * share for m, share in shares),
    )


def _sitting(one: Sitting, pieces: Mapping[str, str]) -> ToldSitting:
    names = list(dict.fromkeys(pieces.get(run, run) for run in one.runs))
    rate = one.a_minute
    return ToldSitting(begun=one.begun, ended=one.ended, stitches=one.stitches, pieces=names, a_minute=rate)


def _pace(own: Pace | None) -> ToldPace | None:
    return ToldPace(value=own.value, low=own.low, high=own.high, sittings=own.sittings) if own else None


HEAD = ("begun", "ended", "minutes", "stitches", "stitches a minute", "pieces")


def table(told: Record, instant: Any) -> list[tuple[str, ...]]:
    """The sittings as a table for a spreadsheet, its first line the names. `instant` writes a time out."""
    return [
        HEAD,
        *(
            (
                instant(one.begun), instant(one.ended), f"{(one.ended - one.begun) / 60:.1f}", str(one.stitches),
                "" if one.a_minute is None else f"{one.a_minute:.1f}", "; ".join(one.pieces),
            )
            for one in told.sittings
        ),
    ]  # fmt: skip
