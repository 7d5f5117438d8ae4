"""Laws of following, on strands and moves at random, with every step written out as the oracle."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from unrolled import Written, strands, unroll

from hookside.follow import (
    Applied,
    Intent,
    Refusal,
    State,
    Step,
    Strand,
    advance,
    apply,
    begin,
    jump,
    locate,
    replay,
    retreat,
    stitches_between,
)
from hookside.pattern import makes

UNITS = ("stitch", "group", "repeat", "round", "plain")
few = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def same(strand: Strand, a: Written, b: Written, unit: str) -> bool:
    """Whether step b belongs to the unit that step a is in the middle of."""
    if a.course != b.course or b.course is None:
        return False
    if unit == "stitch":
        return a is b
    a, b = a.home or a, b.home or b
    turns = a.within
    if unit in ("repeat", "plain") and turns:
        return b.within[: len(turns)] == turns
    if unit == "round" or (unit == "plain" and strand.courses[a.course or 0].plain):
        return True
    return (a.path, a.turns) == (b.path, b.turns)


def named(steps: list[Written]) -> list[str]:
    """The stitch of each group the steps belong to."""
    return [stitch for _, stitch in dict.fromkeys((step.path, step.stitch) for step in steps)]


def slid(line: list[Written], at: int) -> int:
    while at < len(line) and line[at].whisper:
        at += 1
    return at


def onward(strand: Strand, line: list[Written], at: int, unit: str) -> int | str:
    """Where `advance` must come to rest, step by step."""
    if at == len(line):
        return "finished"
    if line[at].halts:
        cue = strand.cue_at.get(at)
        if cue is None or cue.weight == "stop":
            return "stop"
        return slid(line, at + 1)
    start = line[at]
    at += 1
    while at < len(line) and not line[at].halts:
        if line[at].whisper:
            rest = slid(line, at)
            inside = rest < len(line) and not line[rest].halts and same(strand, start, line[rest], unit)
            if not inside:
                return rest
            at = rest
        elif not same(strand, start, line[at], unit):
            return at
        else:
            at += 1
    return at


def backward(strand: Strand, line: list[Written], at: int, unit: str) -> int | str:
    """Where `retreat` must come to rest, step by step."""
    at -= 1
    while at >= 0 and line[at].whisper:
        at -= 1
    if at < 0:
        return "start"
    start, rest = line[at], at
    while not line[rest].halts:
        at -= 1
        while at >= 0 and line[at].whisper:
            at -= 1
        if at < 0 or not (line[at].halts or same(strand, start, line[at], unit)):
            return rest
        if line[at].halts:
            # It is met on the way only if the unit began before it.
            before = [step for step in line[:at] if step.course == start.course]
            return at if any(same(strand, start, step, unit) for step in before) else rest
        rest = at
    return rest


def told(done: Step | Refusal) -> int | str:
    return done.to if isinstance(done, Step) else done.code


@few
@given(strands(), st.data())
def test_every_place_is_what_writing_it_out_says(strand: Strand, data: st.DataObject) -> None:
    line = unroll(strand)
    for at in range(strand.length + 1):
        spot = locate(strand, at)
        assert spot.finished == (at == len(line))
        after = [step for step in line[at:] if step.course is not None]
        here = line[at] if at < len(line) else None
        if here is not None and here.course is not None and here.address is None:
            assert spot.course == here.course
            leads = here.home if here.home and here.path < here.home.path else None
            shown = leads or here
            assert (tuple(spot.path), spot.group_step, spot.stitch) == (shown.path, shown.group_step, here.made)
            assert [(turn.i, turn.n) for turn in spot.repeats] == list(shown.turns)
            assert spot.repeat == (spot.repeats[-1] if shown.turns else None)
            left = [step for step in after if step.course == here.course]
            edges = [step for step in left if step.home]
            before = [step for step in edges if step.home and step.path < step.home.path]
            assert [group.stitch for group in spot.lead] == named(before)
            here_too = (shown.path, shown.turns)
            behind = [step for step in left if (step.path, step.turns) != here_too and step not in before]
            last = not (shown.home or any(step.home is None for step in behind))
            assert [group.stitch for group in spot.trail] == (named(behind) if last else [])
        elif here is not None and here.course is not None:
            assert (spot.course, spot.unread, spot.group) == (here.course, True, None)
        elif spot.course is not None and not after:
            # A cue behind the last stitch, still inside its course.
            assert (spot.group, spot.stitch) == (None, strand.courses[spot.course].makes)
        halts = [cue for cue in strand.cues if cue.step > at and cue.weight != "whisper"]
        assert (spot.next_cue.address if spot.next_cue else None) == (halts[0].address if halts else None)


@few
@given(strands(), st.sampled_from(UNITS))
def test_on_and_back_are_what_walking_says(strand: Strand, unit: str) -> None:
    line = unroll(strand)
    for at in range(strand.length + 1):
        if at < len(line) and line[at].whisper:
            continue
        assert told(advance(strand, at, unit)) == onward(strand, line, at, unit), f"next {unit} at {at}"
        assert told(retreat(strand, at, unit)) == backward(strand, line, at, unit), f"back {unit} at {at}"


def leap(strand: Strand, line: list[Written], at: int, to: int) -> int | str:
    """Where `jump` must come to rest, step by step."""
    if to <= at:
        return slid(line, to)
    if line[at].halts:
        if at not in strand.cue_at or strand.cue_at[at].weight == "stop":
            return "stop"
        at = slid(line, at + 1)
    while at < to and not line[at].halts:
        at = slid(line, at + 1)
    return at


@few
@given(strands())
def test_a_jump_goes_as_far_as_walking_would(strand: Strand) -> None:
    line = unroll(strand)
    places = [at for at in range(len(line) + 1) if slid(line, at) == at]
    for at in places:
        for to in range(0, len(line) + 1, 1 + len(line) // 40):
            assert told(jump(strand, at, to)) == leap(strand, line, at, to), f"from {at} to {to}"


def intents(strand: Strand, state: State, row: int) -> st.SearchStrategy[dict[str, Any]]:
    """Any intent at all, likely ones more often."""
    place = st.integers(-1, strand.length + 1)
    names = [cue.address for cue in strand.cues] + [course.id for course in strand.courses if not course.read] + ["x"]
    here = [
        strand.cue_at[run.at].address if run.at in strand.cue_at else strand.unread_at[run.at].id
        for run in state.runs.values()
        if run.at in strand.cue_at or run.at in strand.unread_at
    ]
    return st.one_of(
        st.fixed_dictionaries({"intent": st.sampled_from(["next", "next", "back"]), "unit": st.sampled_from(UNITS)}),
        st.fixed_dictionaries(
            {
                "intent": st.just("done"),
                "cue": st.sampled_from(here * 3 + names),
                "count": st.sampled_from([None, 0, 12, 2001]),
            }
        ),
        st.fixed_dictionaries({"intent": st.sampled_from(["goto", "rip", "settle"]), "to": place}),
        st.fixed_dictionaries({"intent": st.just("undo"), "undoes": st.integers(1, row)}),
        st.fixed_dictionaries({"intent": st.just("undo"), "undoes": st.just(row - 1)}),
        st.just({"intent": "take"}),
        st.fixed_dictionaries({"intent": st.just("count"), "n": st.integers(-1, 40)}),
    )


@few
@given(strands(), st.data())
def test_any_moves_at_all(strand: Strand, data: st.DataObject) -> None:
    line = unroll(strand)
    laid = {strand.id: strand}
    start = state = begin([("p1.c1", strand.id), ("p1.c2", strand.id)], laid)
    rows = []
    for row in range(1, data.draw(st.integers(1, 25)) + 1):
        run = data.draw(st.sampled_from(["p1.c1", "p1.c2"]))
        intent = Intent.model_validate({"run": run} | data.draw(intents(strand, state, row)))
        rows.append((row, intent))
        before, frozen = state, state.model_dump_json()
        done = apply(state, laid, row, intent)
        assert before.model_dump_json() == frozen, "a state is never changed, only followed by another"
        if not isinstance(done, Applied):
            continue
        state, outcome = done.state, done.outcome
        now = state.runs[run]
        assert (outcome.from_, outcome.to) == (before.runs[run].at, now.at)
        # Every run stands on its strand, never on a whisper, and knows the counts of the unread courses behind it
        # unless the maker's own word put it past one.
        for each in state.runs.values():
            assert 0 <= each.at <= strand.length
            assert each.at == strand.length or not line[each.at].whisper
            behind = {step.address for step in line[: each.at] if step.address and step.course is not None}
            assert set(each.counts) <= behind
            if not any(i.intent == "settle" for _, i in rows):
                assert set(each.counts) == behind
        if intent.intent in ("next", "goto", "done") and outcome.to > outcome.from_:
            passed = [step.address for step in line[outcome.from_ : outcome.to] if step.address]
            assert outcome.passed == passed
            waiting = [at for at in range(outcome.from_, outcome.to) if line[at].halts]
            assert waiting in ([], [outcome.from_]), "what waits was passed without being rested on"
            if waiting and intent.intent != "done":
                assert strand.cue_at[outcome.from_].weight == "pause", "only done answers a stop"
            if waiting and intent.intent != "goto":
                assert stitches_between(strand, outcome.from_, outcome.to) == 0, "an answer works no stitch"
        if intent.intent in ("back", "rip"):
            assert outcome.to <= outcome.from_
        if intent.intent == "back":
            assert not any(step.halts for step in line[outcome.to + 1 : outcome.from_])
        if now.history and now.history[-1].row == row:
            undone = apply(state, laid, row + 1000, Intent(intent="undo", run=run, undoes=row))
            assert isinstance(undone, Applied)
            assert undone.state.model_copy(update={"head": before.head}) == before, "undo restores"
            assert len(now.history) == len(before.runs[run].history) + 1
    assert replay(start, laid, rows) == state, "replay is stepping"


@few
@given(strands(), st.data())
def test_every_stitch_is_counted_once_whatever_the_units(strand: Strand, data: st.DataObject) -> None:
    laid = {strand.id: strand}
    state = begin([("p1.c1", strand.id)], laid)
    line = unroll(strand)
    counted, reached, row = 0, state.runs["p1.c1"].at, 0
    while reached < strand.length:
        row += 1
        address = line[reached].address
        intent: dict[str, Any] = {"intent": "next", "unit": data.draw(st.sampled_from(UNITS))}
        if address is not None and (reached in strand.unread_at or strand.cue_at[reached].weight == "stop"):
            intent = {"intent": "done", "cue": address, "count": 7}
        done = apply(state, laid, row, Intent.model_validate({"run": "p1.c1"} | intent))
        assert isinstance(done, Applied)
        assert done.outcome.from_ == reached
        assert done.outcome.to > reached, "a move onwards goes on"
        counted += stitches_between(strand, reached, done.outcome.to)
        state, reached = done.state, done.outcome.to
    assert counted == sum(makes(course.body) for course in strand.courses if course.read)
    assert row <= strand.length
