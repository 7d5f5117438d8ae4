"""The state of one making: which run is in hand and where each run stands, as moves leave it.

`apply` is a pure function from state and intent to the next state or a refusal. What it leaves unchanged it
shares with the state before. The journal is the truth; a state is its replay.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from pydantic import ConfigDict, Field, StrictInt, StrictStr

from hookside.follow.place import course_at, courses_done, slide
from hookside.follow.stepping import LARGEST_COUNT, Refusal, Step, advance, answer, jump, retreat, rip
from hookside.follow.strand import Strand
from hookside.pattern import Record

NONE_DROPPED: dict[str, int] = {}  # one for all moves that dropped no count; nobody writes into it
HISTORY_KEPT = 200  # moves of a run that can be undone one after another

IntentName = Literal["next", "back", "done", "goto", "rip", "undo", "take", "count", "settle"]
Status = Literal["not begun", "on the hook", "set aside", "ready to sew", "finished"]


class Intent(Record):
    """What the maker wants, and of which run.

    next, back   by `unit`
    done         answers `cue`; an unread course is named by its id and needs `count`
    goto, rip    to step `to`
    undo         takes back `undoes`, the run's newest move: its row, or the move's id while its row is not known
    take         takes the run in hand; the one in hand is set aside
    count        `n` stitches were counted and found; moves nothing
    settle       two devices disagreed; the maker says the hook is at step `to`
    """

    intent: IntentName
    run: StrictStr
    id: StrictStr = ""
    unit: StrictStr | None = None
    to: StrictInt | None = None
    cue: StrictStr | None = None
    count: StrictInt | None = None
    undoes: StrictInt | StrictStr | None = None
    n: StrictInt | None = None
    asides: list[StrictInt] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Past:
    """One move of a run that can be undone: how things stood before it.

    There is one for each move of every making in memory: a record proper takes four times the room.
    """

    row: int
    id: str = ""
    at: int
    in_hand: str | None
    counts: dict[str, int] = field(default_factory=dict)  # typed counts the move dropped by going back before them


class RunState(Record):
    """One run: its strand, its place, the counts typed for unread courses behind it, newest move last."""

    strand: str
    at: int = 0
    counts: dict[str, int] = Field(default_factory=dict)
    history: list[Past] = Field(default_factory=list)


class State(Record):
    """A making. `head` is the last row that was applied."""

    in_hand: str | None = None
    head: int = 0
    runs: dict[str, RunState]


class Outcome(Record):
    """What a move did to its run."""

    model_config = ConfigDict(extra="forbid", populate_by_name=True, serialize_by_alias=True)

    run: str
    from_: int = Field(validation_alias="from", serialization_alias="from")
    to: int
    passed: list[str]


class Applied(Record):
    """The state after a move, and what the move did."""

    state: State
    outcome: Outcome


MOST_COPIES = 99  # of one piece in one making


class Order(Record):
    """The order of work for copies.

    one     one after another
    pair    the copies of a piece side by side, round by round
    level   each copy to the end of the course called `label`, then one after another
    """

    kind: Literal["one", "pair", "level"] = "one"
    label: str | None = None


def begin(runs: Iterable[tuple[str, str]], strands: Mapping[str, Strand], row: int = 0) -> State:
    """A making nobody has moved in yet. `runs` pairs each run with its strand's id, in the pattern's order."""
    return State(
        head=row,
        runs={run: RunState(strand=strand, at=slide(strands[strand], 0)[0]) for run, strand in runs},
    )


def _step(strand: Strand, at: int, intent: Intent) -> Step | Refusal:
    match intent.intent:
        case "next":
            return advance(strand, at, intent.unit)
        case "back":
            return retreat(strand, at, intent.unit)
        case "done":
            return answer(strand, at, intent.cue, intent.count)
        case "goto":
            return jump(strand, at, intent.to)
        case "rip":
            return rip(strand, at, intent.to)
        case "settle":
            if intent.to is None or not 0 <= intent.to <= strand.length:
                return Refusal(code="range")
            rest, slid = slide(strand, intent.to)
            return Step(to=rest, passed=slid)
        case "count":
            if intent.n is None:
                return Refusal(code="needs-count")
            if not 0 <= intent.n <= LARGEST_COUNT:
                return Refusal(code="range")
            return Step(to=at)
        case _:
            return Step(to=at)


def apply(state: State, strands: Mapping[str, Strand], row: int, intent: Intent) -> Applied | Refusal:
    """The state after journal row `row` carried `intent`, or why it cannot be made."""
    run = state.runs.get(intent.run)
    if run is None:
        return Refusal(code="no-run")
    strand = strands[run.strand]
    if intent.intent == "undo":
        return _undo(state, run, strand, row, intent)
    step = _step(strand, run.at, intent)
    if isinstance(step, Refusal):
        return step
    outcome = Outcome(run=intent.run, from_=run.at, to=step.to, passed=step.passed)
    if intent.intent == "count" or (step.to == run.at and state.in_hand == intent.run):
        return Applied(state=state.model_copy(update={"head": row}), outcome=outcome)

    counts = run.counts
    answered = strand.unread_at.get(run.at)
    if intent.intent == "done" and answered is not None and intent.count is not None:
        counts = {**counts, answered.id: intent.count}
    kept, dropped = _counts_behind(strand, counts, step.to)
    past = Past(row=row, id=intent.id, at=run.at, in_hand=state.in_hand, counts=dropped)
    moved = run.model_copy(update={"at": step.to, "counts": kept, "history": [*run.history[1 - HISTORY_KEPT :], past]})
    return Applied(state=_with(state, row, intent.run, intent.run, moved), outcome=outcome)


def _undo(state: State, run: RunState, strand: Strand, row: int, intent: Intent) -> Applied | Refusal:
    """Take back the run's newest move: its place, the run in hand, and typed counts the move had dropped."""
    past = run.history[-1] if run.history else None
    if past is None or intent.undoes is None or intent.undoes == "" or intent.undoes not in (past.row, past.id):
        return Refusal(code="not-last")
    kept, _ = _counts_behind(strand, {**run.counts, **past.counts}, past.at)
    moved = run.model_copy(update={"at": past.at, "counts": kept, "history": run.history[:-1]})
    outcome = Outcome(run=intent.run, from_=run.at, to=past.at, passed=[])
    return Applied(state=_with(state, row, past.in_hand, intent.run, moved), outcome=outcome)


def _with(state: State, row: int, in_hand: str | None, name: str, run: RunState) -> State:
    return state.model_copy(update={"head": row, "in_hand": in_hand, "runs": {**state.runs, name: run}})


def _counts_behind(strand: Strand, counts: dict[str, int], at: int) -> tuple[dict[str, int], dict[str, int]]:
    """Typed counts split at a place: those of courses behind it, and those it stands before again."""
    if not counts:
        return counts, NONE_DROPPED
    ahead = {course.id for step, course in strand.unread_at.items() if step >= at}
    kept = {course: n for course, n in counts.items() if course not in ahead}
    return kept, {course: n for course, n in counts.items() if course in ahead}


def replay(state: State, strands: Mapping[str, Strand], rows: Iterable[tuple[int, Intent]]) -> State:
    """The state after rows in order. A refused row leaves it as it was."""
    for row, intent in rows:
        done = apply(state, strands, row, intent)
        if isinstance(done, Applied):
            state = done.state
    return state


def status(state: State, run: str, strand: Strand) -> Status:
    """What a maker would call the state of one run."""
    at = state.runs[run].at
    if at == strand.length:
        return "finished"
    if at == slide(strand, 0)[0]:
        return "not begun"
    if courses_done(strand, at) == len(strand.courses):
        return "ready to sew"
    return "on the hook" if state.in_hand == run else "set aside"


def suggest(order: Order, runs: Sequence[str], state: State, strands: Mapping[str, Strand]) -> str | None:
    """The run the order of work wants in hand next; None when it is the one in hand, or all are finished.

    Nothing is suggested in the middle of a course, nor before the first course that makes stitches is done: a copy
    that is a bare chain is no good place to lay it down. A piece is not left until its copies are finished, except
    as the maker likes: any run can be taken in hand.

    Args:
        runs: the making's runs in the pattern's order; "p1.c2" is copy 2 of piece 1.
    """

    def strand_of(run: str) -> Strand:
        return strands[state.runs[run].strand]

    def finished(run: str) -> bool:
        return state.runs[run].at == strand_of(run).length

    def done(run: str) -> int:
        return courses_done(strand_of(run), state.runs[run].at)

    in_hand = state.in_hand
    if in_hand is None:
        return next((run for run in runs if not finished(run)), None)
    if not finished(in_hand) and _inside_course(strand_of(in_hand), state.runs[in_hand].at):
        return None
    if not finished(in_hand) and done(in_hand) <= _bare(strand_of(in_hand)):
        return None
    here = list(runs).index(in_hand)
    unfinished = [run for run in [*runs[here:], *runs[:here]] if not finished(run)]
    copies = [run for run in runs if run in unfinished and _piece(run) == _piece(in_hand)]
    wanted: str | None = None
    if order.kind == "pair" and copies:
        wanted = min(copies, key=done)
    elif order.kind == "level" and copies:
        level = _courses_to(strand_of(in_hand), order.label)
        below = [run for run in copies if done(run) < level]
        if done(in_hand) >= level and below:
            wanted = below[0]
        elif done(in_hand) == level:
            wanted = copies[0]
    if wanted is None and finished(in_hand) and unfinished:
        wanted = next((run for run in unfinished if run in copies), unfinished[0])
        # Jobs of sewing come when what stands before them in the text is worked: a piece that lies open goes first.
        before = [run for run in list(runs)[: list(runs).index(wanted)] if run in unfinished and strand_of(run).courses]
        if before and not strand_of(wanted).courses:
            wanted = before[0]
    return None if wanted == in_hand else wanted


def _inside_course(strand: Strand, at: int) -> bool:
    index = course_at(strand, at)
    return index is not None and at > strand.courses[index].first


def _bare(strand: Strand) -> int:
    """Courses before the first one that makes stitches; -1 where there is no course at all."""
    making = (index for index, course in enumerate(strand.courses) if course.makes or not course.read)
    return next(making, -1)


def _courses_to(strand: Strand, label: str | None) -> int:
    """Courses up to the end of the one called `label`; 0 where there is none, so that no copy waits for it."""
    return next((index + 1 for index, course in enumerate(strand.courses) if course.label == label), 0)


def _piece(run: str) -> str:
    """ "p1" of "p1.c2"."""
    return run.split(".")[0]
