"""Count check, lost and found, mends, and the recap, over HTTP. Questions move nothing; a mend is a row."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Annotated, Any

from flask import Blueprint, jsonify, request
from flask.typing import ResponseReturnValue
from pydantic import Field

from hookside.follow import Mend, Strand, carry, locate, mended, status, step_made, step_of
from hookside.follow.place import course_at, offset_in
from hookside.journal.trouble import MovedOn
from hookside.mend.counting import count_check
from hookside.mend.ground import name, subject
from hookside.mend.lost import lost
from hookside.mend.recapping import recap
from hookside.mend.talk import Talk
from hookside.web.body import LARGEST, Strict, body
from hookside.web.makers import maker_of
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.journal.journal import Bench
    from hookside.web.live import Live
    from hookside.web.readings import Readings

Step = Annotated[int, Field(ge=0, le=LARGEST)]
Name = Annotated[str, Field(pattern=r"^[\x21-\x7e]{1,64}$")]
Key = Annotated[str, Field(pattern=r"^[a-z]{1,20}$")]
DAY = 86_400.0  # seconds after which hands are at rest
Value = Step | Annotated[str, Field(max_length=20)]


class Asked(Strict):
    """Where the page is, and what was answered so far."""

    run: Name
    at: Step
    answers: dict[Key, Value] = Field(default_factory=dict, max_length=20)


class Chosen(Asked):
    """The offer that is taken."""

    offer: Key


class OneRun(Strict):
    """A run at a step."""

    run: Name
    at: Step


@dataclass(frozen=True)
class Place:
    """A run of a making, and the step the page is at."""

    bench: Bench
    strand: Strand
    at: int
    counts: dict[str, int]


def shown(talk: Talk) -> dict[str, Any]:
    """A talk as pages get it: what a mend does lies here, not there."""
    told = talk.model_dump(mode="json", exclude={"offers"})
    return told | {"offers": [offer.model_dump(mode="json", exclude={"mend"}) for offer in talk.offers]}


def mending(journal: Journal, readings: Readings, live: Live) -> Blueprint:
    """Routes under /api/makings/ID."""
    routes = Blueprint("mending", __name__, url_prefix="/api/makings")

    def bench_of(id: int) -> Bench:
        bench = journal.bench(id) if id <= LARGEST else None
        if bench is None:
            raise Said(404, "gone", "This making is not on the shelf any more.")
        return bench

    def place(id: int, run: str, at: int) -> Place:
        bench = bench_of(id)
        state = bench.state.runs.get(run)
        if state is None:
            raise Said(404, "no-run", "This making has no such piece any more. Reload the page.")
        strand = bench.strands[state.strand]
        if at > strand.length:
            raise Said(409, "moved-on", "This making was moved on meanwhile. Begin once more.")
        return Place(bench, strand, at, state.counts)

    def put_on(id: int, run: str, at: int, new: Strand, to: int, mends: list[Mend]) -> ResponseReturnValue:
        try:
            head = journal.put_on(id, run, at, new, to, mends)
        except MovedOn as e:
            raise Said(409, e.code, e.say) from e
        with live.turn:
            live.tell_of(id, head, "recast")
        return jsonify(head=head, to=to)

    @routes.post("/<int:id>/count")
    def count(id: int) -> ResponseReturnValue:
        """A count: the next question, or what can be done."""
        asked = body(Asked)
        here = place(id, asked.run, asked.at)
        return jsonify(shown(count_check(here.strand, here.at, here.counts, dict(asked.answers))))

    @routes.post("/<int:id>/lost")
    def find(id: int) -> ResponseReturnValue:
        """The next question to the fabric, or the stitch the hook is at."""
        asked = body(Asked)
        here = place(id, asked.run, asked.at)
        return jsonify(shown(lost(here.strand, here.at, here.counts, dict(asked.answers))))

    @routes.post("/<int:id>/mend")
    def mend(id: int) -> ResponseReturnValue:
        """Take an offer of the count check. What is done is worked out here again, from the answers."""
        asked = body(Chosen)
        here = place(id, asked.run, asked.at)
        answers = dict(asked.answers)
        talk = count_check(here.strand, here.at, here.counts, answers)
        offer = next((one for one in talk.offers if one.key == asked.offer), None)
        if offer is None or offer.mend is None:
            raise Said(409, "no-offer", "This is not offered any more. Count once more.")
        new, kept = mended(here.strand, [offer.mend])
        before = here.bench.mends.get(asked.run, [])
        return put_on(id, asked.run, here.at, new, _place_on(here, new, answers), [*before, *kept])

    @routes.post("/<int:id>/unmend")
    def unmend(id: int) -> ResponseReturnValue:
        """Take a run's newest mend back: its courses are as written again."""
        asked = body(OneRun)
        here = place(id, asked.run, asked.at)
        kept = here.bench.mends.get(asked.run, [])
        if not kept:
            raise Said(409, "no-mend", "There is no mend to take back in this piece.")
        base, left = mended(journal.strand(kept[0].on), kept[:-1])
        return put_on(id, asked.run, here.at, base, carry(here.strand, base, here.at).to, left)

    @routes.get("/<int:id>/rest")
    def rest(id: int) -> ResponseReturnValue:
        """{rested}: seconds since a stitch was last moved, or null. By this machine's clock: a device's may err."""
        worked = bench_of(id).worked
        return jsonify(rested=worked and _since(worked))

    @routes.get("/<int:id>/recap")
    def tell(id: int) -> ResponseReturnValue:
        """What to know before the next stitch: {lines: [{what, text}], when}."""
        bench = bench_of(id)
        run = request.args.get("run", "") or bench.state.in_hand or bench.runs[0]["run"]
        here = place(id, run, 0)
        state = bench.state.runs[run]
        choices = (journal.choices(id) or {"choices": {}})["choices"]
        pattern = journal.kept_pattern(bench.pattern)
        spine = readings.spine(pattern["text"], pattern["terms"]) if pattern else {}
        last = journal.last_count(id, run)
        lines = recap(
            here.strand, state.at, here.counts,
            hook=choices.get("hook") or spine.get("hook", ""), hand=journal.maker(maker_of(journal))["hand"],
            colours={**choices.get("colours", {}), **choices.get(f"colours/{run}", {})},
            mends=[*_habits(choices), *(one.say for one in bench.mends.get(run, []))], aside=_aside(bench, run),
            counted=(last["n"], _counted_in(journal.strand(last["strand"]), last["at"])) if last else None,
            rested=bench.worked is not None and _since(bench.worked) >= DAY,
        )  # fmt: skip
        return jsonify(lines=[line.model_dump() for line in lines], when=last["when"] if last else None)

    return routes


def _since(worked: str) -> float:
    """Seconds since then, by this machine's clock."""
    return (datetime.now(UTC) - datetime.fromisoformat(worked)).total_seconds()


def _place_on(here: Place, new: Strand, answers: dict[str, int | str]) -> int:
    """The place on the mended strand: within a course as many stitches as were counted."""
    asked = subject(here.strand, here.at, here.counts)
    n = answers.get("again", answers.get("n"))
    if asked is None or asked.whole or not isinstance(n, int):
        index = course_at(here.strand, here.at)
        led = 0 if index is None else offset_in(here.strand, here.strand.courses[index], here.at)
        # The chain that leads into the next course is made already, whatever becomes of its stitches.
        if index is not None and led:
            return step_of(new, new.courses[index], led)
        return carry(here.strand, new, here.at).to
    course = new.courses[asked.index]
    return step_of(new, course, step_made(course.body, n))


def _counted_in(strand: Strand, at: int) -> str:
    """The course that was counted with the hook at a step: "round 5"; "" where nothing is there to count."""
    asked = subject(strand, at, {})
    return name(strand.courses[asked.index]) if asked else ""


def _habits(choices: dict[str, Any]) -> list[str]:
    """What is worked otherwise than written by the maker's choice."""
    told = ["Joined rounds are worked as a spiral"] if choices.get("spiral") else []
    if choices.get("decreases"):
        told.append(f"{choices['decreases'].capitalize()} decreases wherever they do")
    return told


def _aside(bench: Bench, run: str) -> list[str]:
    """Pieces that wait with their loop live, with where they are."""
    told = []
    for one in bench.runs:
        name = one["run"]
        strand = bench.strands[bench.state.runs[name].strand]
        if name == run or not strand.courses or status(bench.state, name, strand) != "set aside":
            continue
        spot = locate(strand, bench.state.runs[name].at)
        copy = f" {one['copy']} of {one['copies']}" if one["copies"] > 1 else ""
        course = strand.courses[spot.course] if spot.course is not None else None
        told.append(f"{one['piece']}{copy}, {course.kind} {course.label}" if course else f"{one['piece']}{copy}")
    return told
