"""A strand worked otherwise than it was laid: courses with another body, as a mend makes them.

A deviation says of one course what is worked in it now. It knows what the course was (`was`), so that it is put on a
strand that was laid anew only where that course is still the same. What comes of it is another strand with an id of
its own; the one it was made from stays as it is.
"""

from __future__ import annotations

import hashlib
import json
from bisect import bisect_left
from collections.abc import Iterable, Sequence

from pydantic import Field

from hookside.follow.place import reach
from hookside.follow.strand import Strand, StrandCourse, StrandCue
from hookside.pattern import Group, Node, Record, Words, length, makes, uses


class CueSaid(Record):
    """What a cue says now: its numbers went with the course."""

    address: str
    text: str
    words: Words


class Deviation(Record):
    """One course as it is worked now.

    course  its id
    was     fingerprint of the body it had
    said    cues of the course that say other numbers now
    count   a pause to count directly behind the course; None: none is added
    """

    course: str
    was: str
    body: list[Node]
    plain: bool
    words: Words
    said: list[CueSaid] = Field(default_factory=list)
    count: CueSaid | None = None


class Mend(Record):
    """What was done about one miscount, or one way of working that is not the pattern's.

    say     in words, for the recap: "round 21 takes up one stitch fewer"
    course  the course in which the count went wrong: a hook that is ripped back past it needs the mend no more
    on      id of the strand it was put on; "" before it is
    """

    say: str
    course: str
    deviations: list[Deviation]
    on: str = ""


def fingerprint(body: Sequence[Node]) -> str:
    """Alike for bodies that are the same to the hands, whatever the words."""
    text = json.dumps(_fabric(body), separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def _fabric(body: Sequence[Node]) -> list[object]:
    return [
        [node.stitch, node.count, node.uses, node.makes, node.steps, node.loops, node.into, node.colour]
        if isinstance(node, Group)
        else [node.times, _fabric(node.body)]
        for node in body
    ]


def fits(strand: Strand, mend: Mend) -> bool:
    """Whether every course a mend changes is there, and as it was when the mend was made."""
    bodies = {course.id: course.body for course in strand.courses if course.read}
    return all(one.course in bodies and fingerprint(bodies[one.course]) == one.was for one in mend.deviations)


def mended(strand: Strand, mends: Iterable[Mend]) -> tuple[Strand, list[Mend]]:
    """The strand with those of the mends, in their order, that still fit it; and which these are."""
    kept: list[Mend] = []
    for mend in mends:
        if fits(strand, mend):
            kept.append(mend.model_copy(update={"on": strand.id}))
            strand = deviate(strand, mend.deviations)
    return strand, kept


def deviate(strand: Strand, deviations: Sequence[Deviation]) -> Strand:
    """The strand with courses worked otherwise. ValueError for a course that is not there or not as it was.

    A cue inside a course keeps the stitches before it; one in the course's last stitch stays in the last stitch.
    """
    asked = {one.course: one for one in deviations}
    if len(asked) != len(deviations):
        raise ValueError("two deviations of one course")
    said = {cue.address: cue for one in deviations for cue in [*one.said, *([one.count] if one.count else [])]}
    pauses = {one.count.address for one in deviations if one.count}
    courses: list[StrandCourse] = []
    cues: list[StrandCue] = []
    at = 0

    def put(cue: StrandCue) -> None:
        nonlocal at
        new = said.get(cue.address)
        update: dict[str, object] = {"step": at}
        if new is not None:
            update |= {"text": new.text, "words": new.words}
        if cue.address in pauses:
            update["weight"] = "pause"
        cues.append(cue.model_copy(update=update))
        at += 1

    waiting = list(strand.cues)
    known = {cue.address for cue in waiting}
    for course in strand.courses:
        while waiting and waiting[0].step < course.first:
            put(waiting.pop(0))
        one = asked.pop(course.id, None)
        body = course.body
        if one is not None:
            if not course.read or fingerprint(body) != one.was:
                raise ValueError(f"course {course.id} is not as it was")
            body = one.body
        first, steps, done = at, length(body) if course.read else 1, 0
        inside = [cue for cue in waiting if cue.step < course.end]
        waiting = waiting[len(inside) :]
        for passed, cue in enumerate(inside):
            offset = cue.step - course.first - passed
            if one is not None:
                offset = max(done, _moved(course.body, body, offset))
            at += offset - done
            done = offset
            put(cue)
        at += steps - done
        update: dict[str, object] = {"first": first, "end": at}
        if one is not None:
            update |= {
                "body": body, "uses": uses(body), "makes": makes(body), "plain": one.plain, "words": one.words,
            }  # fmt: skip
            if not one.plain:
                update |= {"plain_index": None, "plain_of": None, "plain_from": None, "plain_to": None}
        courses.append(course.model_copy(update=update))
        if one is not None and one.count is not None and one.count.address not in known:
            count = one.count
            put(
                StrandCue(
                    address=count.address, step=at, kind="count", text=count.text, basis="worked out", weight="pause",
                    words=count.words,
                )
            )  # fmt: skip
    for cue in waiting:
        put(cue)
    if asked:
        raise ValueError(f"no course {', '.join(asked)}")
    new = Strand(id="", piece=strand.piece, terms=strand.terms, length=at, courses=courses, cues=cues)
    made_from = [strand.id, new.model_dump(mode="json", exclude={"id"})]
    canonical = json.dumps(made_from, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return new.model_copy(update={"id": hashlib.sha256(canonical.encode()).hexdigest()[:32]})


def _moved(old: Sequence[Node], new: Sequence[Node], offset: int) -> int:
    """Where a cue before step `offset` of a body stands in the changed one."""
    before, after = list(old), list(new)
    made = _made(before, offset)
    if offset >= length(before):
        return length(after)
    rest = length(before) - offset
    if makes(before) - made <= 1 and rest <= length(after):
        return length(after) - rest
    return step_made(after, made)


def step_made(body: list[Node], stitches: int) -> int:
    """The first step of a body before which so many stitches are made; its length where it makes fewer."""
    return bisect_left(range(length(body)), stitches, key=lambda offset: _made(body, offset))


def _made(body: list[Node], offset: int) -> int:
    found = reach(body, offset)
    return makes(body) if found is None else found.made
