"""A making as it lies on the bench, for commands: where the hook is, in words, and moves of it."""

from __future__ import annotations

import re
import secrets
from dataclasses import dataclass
from typing import Any, NoReturn

from hookside.cli.files import stop
from hookside.cli.hers import called_in, strand_in_her_words
from hookside.cli.house import Ask, Unanswered, copy_named
from hookside.follow import Order, RunState, Spot, State, Strand, StrandCourse, locate, status, suggest
from hookside.web.ending import Ending

READY = re.compile(r"/ready-((?:p\d+x\d+\.?)+)$")  # the stop before a round that works other pieces in: joining.py


@dataclass(frozen=True)
class Bench:
    """One run of a making at its place."""

    making: int
    snapshot: dict[str, Any]
    run: dict[str, Any]
    state: State
    strand: Strand  # in the maker's words for the colours
    spot: Spot

    @property
    def here(self) -> RunState:
        return self.state.runs[self.run["run"]]

    @property
    def at(self) -> int:
        return self.here.at

    @property
    def named(self) -> str:
        return copy_named(self.run)

    @property
    def course(self) -> StrandCourse | None:
        return None if self.spot.course is None else self.strand.courses[self.spot.course]

    @property
    def asides(self) -> list[dict[str, Any]]:
        """What other devices say of this run, and was not taken."""
        return [one for one in self.snapshot["asides"] if one["run"] == self.run["run"]]


def bench_of(ask: Ask, making: int, run: str | None = None) -> Bench:
    """The run in hand (before the first stitch the first one) or another, as the journal has it now."""
    snapshot = ask("GET", f"/api/makings/{making}")
    state = State.model_validate(snapshot["state"])
    name = run or state.in_hand or snapshot["runs"][0]["run"]
    laid = next(one for one in snapshot["runs"] if one["run"] == name)
    strand = Strand.model_validate(snapshot["strands"][state.runs[name].strand])
    worded = strand_in_her_words(strand, called_in(snapshot["choices"], name))
    return Bench(making, snapshot, laid, state, worded, locate(worded, state.runs[name].at))


def place(bench: Bench, at: int) -> str:
    """ "in round 3, 4 of 18 made" of a step of the run."""
    spot = locate(bench.strand, at)
    if spot.course is None:
        return "after the last stitch"
    course = bench.strand.courses[spot.course]
    chains = spot.group_step if spot.group is not None and (spot.group.stitch, spot.group.makes) == ("ch", 0) else 0
    if not spot.stitch and chains:
        return f"in {name_of(course)}, chain {chains} of {spot.group_length} made"
    if not spot.stitch:
        return f"at the start of {name_of(course)}"
    return f"in {name_of(course)}" + (f", {spot.stitch} of {spot.of} made" if spot.of else "")


def name_of(course: StrandCourse) -> str:
    return f"the first {course.kind}" if course.label == "0" else f"{course.kind} {course.label}"


def step_at(bench: Bench, label: str, made: int) -> int:
    """The step where so many stitches of a course are made. One sentence and 2 where there is no such place."""
    from hookside.follow import step_made, step_of

    course = next((one for one in bench.strand.courses if one.label == label), None)
    if course is None:
        stop(f"{bench.named} has no round or row {label}.")
    if not made:
        return course.first
    if not course.read:
        stop(f"{name_of(course).capitalize()} could not be read, so its stitches are not known. Go to its start.")
    if course.makes is None or made > course.makes:
        stop(f"{name_of(course).capitalize()} of {bench.named} has {course.makes} stitches.")
    return step_of(bench.strand, course, step_made(course.body, made))


# -- words -------------------------------------------------------------------


def told(bench: Bench, full: bool) -> list[str]:
    """Where the hook is, what is in hand, what waits, what comes."""

    def worded(thing: Any) -> str:
        return str((thing.words.full if full else thing.words.short) or thing.words.short or thing.text)

    spot, course = bench.spot, bench.course
    lines = [f"{bench.snapshot['title']}. {bench.named}: {place(bench, bench.at)}."]
    if course is not None and not spot.finished:
        whole = worded(course) if course.read else f"as written: {course.text}"
        many = "" if course.makes is None else f" ({course.makes})"
        lines.append(f"  {name_of(course)}: {whole}{many}")
        if course.plain_of and course.plain_of > 1:
            which = f"{course.plain_index} of {course.plain_of}"
            lines.append(f"  plain {course.kind} {which}, {course.kind}s {course.plain_from} to {course.plain_to}")
    if bench.asides:
        lines.append("Your devices do not agree on the place:")
        lines += [f"  {one['device_name'] or 'another device'} says {place(bench, one['to'])}" for one in bench.asides]
        lines.append(f"Say where the marker is: hookside work {bench.making} here ROUND STITCHES")
    elif spot.cue is not None:
        lines += _waiting("Stop" if spot.cue.weight == "stop" else "Now", worded(spot.cue), spot.cue.words.full)
        lines += [f"  {name} is not worked yet." for name in still_to_work(bench)]
        lines.append(f"When it is done: hookside work {bench.making} done")
    elif spot.unread:
        lines.append(f"It could not be read. When it is worked, say its count: hookside work {bench.making} done COUNT")
    elif spot.finished:
        lines += finished(bench)
    elif spot.group is not None:
        turn = f", repeat {spot.repeat.i} of {spot.repeat.n}" if spot.repeat else ""
        lead = "".join(f"{one.words.short or one.stitch}, then " for one in spot.lead)
        lines.append(f"Next: {lead}{spot.group.words.full if full else spot.group.words.short}{turn}")
        if bench.state.in_hand and (other := comes_next(bench)):
            lines.append(f"In your order of work {copy_named(other)} comes now: {_take(bench, other)}")
    if spot.next_cue and not spot.finished and spot.cue is None:
        cue = bench.strand.cue_at[spot.next_cue.step]
        far = spot.next_cue.distance_courses
        unit = course.kind if course else "round"
        when = f"in this {unit}" if far <= 0 else f"in {far} {unit}{'' if far == 1 else 's'}"
        lines.append(f"Then, {when}: {worded(cue)}")
    if bench.snapshot["edited"]:
        lines.append(
            f"The pattern or a choice was changed, and the bench asks about it: hookside choose {bench.making}"
        )
    return lines


def _waiting(how: str, head: str, whole: str) -> list[str]:
    """What waits, with its whole sentence where that says more: where the eyes go, how a colour is drawn through."""

    def letters(text: str) -> str:
        return "".join(one for one in text.lower() if one.isalnum())

    if letters(whole) == letters(head):
        return [f"{how}: {head}"]
    return [f"{how}: {whole}"] if letters(whole).startswith(letters(head)) else [f"{how}: {head}", f"  {whole}"]


def comes_next(bench: Bench) -> dict[str, Any] | None:
    """The copy that the order of work wants in hand next; None where it is this one, or none is left."""
    snapshot = bench.snapshot
    strands = {id: Strand.model_validate(one) for id, one in snapshot["strands"].items()}
    names = [one["run"] for one in snapshot["runs"]]
    state = bench.state.model_copy(update={"in_hand": bench.run["run"]})
    wanted = suggest(Order.model_validate(snapshot["order"]), names, state, strands)
    return next((one for one in snapshot["runs"] if one["run"] == wanted), None)


def finished(bench: Bench) -> list[str]:
    """What comes when a copy is worked."""
    run = comes_next(bench)
    if run is None:
        return ["All of it is worked.", f"What is left: hookside finish --making {bench.making}"]
    return [f"{bench.named} is worked. Next: {_take(bench, run)}"]


def _take(bench: Bench, run: dict[str, Any]) -> str:
    return f"hookside work {bench.making} take {copy_named(run)}"


def still_to_work(bench: Bench) -> list[str]:
    """The copies that a round works in and that are not worked yet. Its twin is frontend/src/pages/bench/ready.ts."""
    found = READY.search(bench.spot.cue.address) if bench.spot.cue else None
    names: list[str] = []
    for part in found[1].split(".") if found else []:
        piece, _, copies = part.partition("x")
        runs = [one for one in bench.snapshot["runs"] if one["run"].split(".")[0] == piece]
        how = {one["run"]: _status(bench, one["run"]) for one in runs}
        left = [one for one in runs if how[one["run"]] not in ("ready to sew", "finished")]
        left.sort(key=lambda one: how[one["run"]] == "not begun")
        missing = max(0, int(copies) - (len(runs) - len(left)))
        names += [copy_named(one) for one in left[:missing]]
    return names


def _status(bench: Bench, run: str) -> str:
    strand = Strand.model_validate(bench.snapshot["strands"][bench.state.runs[run].strand])
    return status(bench.state, run, strand)


# -- moves -------------------------------------------------------------------

REFUSED = {
    "finished": "Its last step is done: nothing comes after it. Go back, or take up another copy.",
    "start": "Nothing lies behind: this is the very beginning.",
    "not-here": "What waited there was answered meanwhile. Look where the hook is, and say it once more.",
    "range": "There is no such place, or it does not lie behind the hook.",
    "not-last": "There is nothing of this copy to take back.",
    "no-run": "There is no such copy any more.",
    "needs-count": "It could not be read, so its count has to be said: done 24",
    "gone": "This making was put away.",
    "settled": "That was answered meanwhile. Look where the hook is.",
    "recast": "This copy goes by other steps since. Look where the hook is, and say it once more.",
}


def move(ask: Ask, bench: Bench, intent: str, **more: Any) -> dict[str, Any]:
    """Make one move; the journal's answer, when it is on disk. Raises Ending with the sentence of a refusal.

    An answer that was lost is asked for once more, by the same id and of whoever has the folder by then: the journal
    says what became of the move.
    """
    sent = {
        "id": secrets.token_hex(16), "run": bench.run["run"], "strand": bench.here.strand,
        "base": bench.snapshot["head"], "intent": intent, **more,
    }  # fmt: skip
    address = f"/api/makings/{bench.making}/moves"
    try:
        answer = ask("POST", address, sent)
    except Unanswered:
        try:
            answer = ask("POST", address, sent)
        except Unanswered as lost:
            raise Ending(
                "No answer came, so whether the hook moved is not known. "
                f"Look before you move it again: hookside work {bench.making}"
            ) from lost
    if answer["kind"] == "refused":
        refuse(bench, answer["code"])
    if answer["kind"] == "aside":
        raise Ending(
            "Another device moved on meanwhile, so this was kept beside and not taken. "
            f"Look which of the two is right: hookside work {bench.making}"
        )
    _forget(ask, bench, intent, answer["to"])
    return dict(answer)


def refuse(bench: Bench, code: str) -> NoReturn:
    if code == "stop":
        what = bench.spot.cue.words.short if bench.spot.cue else "a round that could not be read"
        raise Ending(f"This waits first: {what}. When it is done, say: hookside work {bench.making} done")
    raise Ending(REFUSED.get(code, f"Hookside refused this ({code})."))


def _forget(ask: Ask, bench: Bench, intent: str, to: int) -> None:
    """Counts behind which the hook went back are asked for anew, and the last one where a rip ended: the page does the
    same (countdue.ts)."""
    run = bench.run["run"]
    kept = [one for one in bench.snapshot["choices"].get("counted", []) if one["run"] == run]
    if to >= bench.at:
        over = [one for one in kept if intent == "undo" and one["n"] is None and one["right"]]
    else:
        ends = {course.id: course.end for course in bench.strand.courses}
        over = [one for one in kept if ends.get(one["course"], 0) > to]
    said = [{**one, "on": False} for one in over[-49:]]
    stands = next((course for course in reversed(bench.strand.courses) if course.end <= to), None)
    if intent == "rip" and stands is not None and stands.makes and not locate(bench.strand, to).stitch:
        said.append({"run": run, "course": stands.id, "n": None, "right": True, "on": True})
    if said:
        choices = [{"choice": "count", "value": one} for one in said]
        ask("POST", f"/api/makings/{bench.making}/choices", {"choices": choices})
