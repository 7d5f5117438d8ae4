"""Where the hook is: one integer, read against its strand.

A place is the next step to do, 0 to `strand.length`; `length` means finished. It may rest on a stop, on a
pause or on a course that could not be read, and never on a whisper: whoever lands on one slides past it.

Only the course in hand is ever looked into; courses and cues are found by bisection.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from typing import NamedTuple

from hookside.follow.strand import Strand, StrandCourse, StrandCue
from hookside.pattern import Group, Node, Record, length, makes


class Turn(Record):
    """One time through a repeat: "repeat 3 of 7". `i` counts from 1."""

    i: int
    n: int


class Ahead(Record):
    """The next stop or pause, and how far it is.

    distance_courses   courses still to be completed before it is due; 0 when it is due in the course in hand
                       or right here
    distance_stitches  stitches still to be made before it is due
    """

    address: str
    step: int
    distance_courses: int
    distance_stitches: int


class Spot(Record):
    """A place in the words a screen needs.

    course        index of the course in hand; between courses the next one; None past the last
    stitch        stitches made so far in that course
    of            stitches it makes; None where that is not known
    repeat        the turn of the innermost repeat that holds the next stitch
    repeats       the turns of all repeats that hold it, outermost first
    path          where the group in hand stands: an index into the course's body, then into the body of each
                  repeat on the way down
    group         the group the next stitch belongs to; None in an unread course and behind a course's last stitch.
                  While the course is still being led into (`lead`), its first real one
    group_step    steps of that group already done, of `group_length`
    lead          what leads into the course and is still to be done, in order: "ch 1", "turn"
    trail         what goes with the group in hand once it is done, where that is the course's last: "join"
    cue           the cue the place rests on
    unread        the place rests on a course that could not be read
    """

    course: int | None
    stitch: int
    of: int | None
    repeat: Turn | None
    repeats: list[Turn]
    path: list[int]
    group: Group | None
    group_step: int
    group_length: int
    lead: list[Group]
    trail: list[Group]
    cue: StrandCue | None
    unread: bool
    next_cue: Ahead | None
    finished: bool


class Reach(NamedTuple):
    """A step of a body, found: offsets count steps of the body from 0."""

    path: tuple[int, ...]
    turns: tuple[tuple[int, int], ...]
    group: Group
    start: int  # offset of the group occurrence in hand
    made: int  # stitches of the body made before this step
    turn: tuple[int, int] | None  # offsets where the turn in hand of the innermost repeat begins and ends


def reach(body: list[Node], offset: int) -> Reach | None:
    """Find step `offset` of a body; None at or past its end. Repeats are counted through, never unrolled."""
    nodes, base, made = body, 0, 0
    path: list[int] = []
    turns: list[tuple[int, int]] = []
    turn: tuple[int, int] | None = None
    while True:
        for index, node in enumerate(nodes):
            size = node.length if isinstance(node, Group) else node.times * length(node.body)
            if offset < base + size:
                path.append(index)
                break
            base += size
            made += makes([node])
        else:
            return None
        if isinstance(node, Group):
            made += _made_in_group(node, offset - base)
            return Reach(tuple(path), tuple(turns), node, base, made, turn)
        one = length(node.body)
        times = (offset - base) // one
        base += times * one
        made += times * makes(node.body)
        turns.append((times + 1, node.times))
        turn = (base, base + one)
        nodes = node.body


def _made_in_group(group: Group, steps: int) -> int:
    """Stitches made by the first `steps` steps of a group. An increase makes one with each of its steps."""
    whole, rest = divmod(steps, group.steps)
    return whole * group.makes + min(rest, group.makes)


def edges(course: StrandCourse) -> tuple[int, int]:
    """Where a course's own stitches begin and end, in steps of its body.

    What stands before is a turning or starting chain: nobody counts it, so it goes with the first unit. A foundation
    chain does not lead in: there is nothing below it, and it is work of its own. What stands behind closes the course
    (join, turn, the chain that is turned on) and goes with the last unit.
    """
    body = course.body
    end = length(body)
    if not makes(body):
        return 0, end
    lead = sum(group.length for group in _leading(body)) if course.uses else 0
    return lead, end - sum(group.length for group in _closing(body))


def _leading(body: list[Node]) -> list[Group]:
    """Chains that make nothing and actions at the very beginning of a body."""
    found: list[Group] = []
    for node in _with_steps(body):
        if not isinstance(node, Group) or node.makes or node.stitch not in ("ch", "turn", "join"):
            break
        found.append(node)
    return found


def _closing(body: list[Node]) -> list[Group]:
    """Joins and turns at the very end of a body, with a chain before a turn or last of all behind a join."""
    found: list[Group] = []
    nodes = _with_steps(body)
    for index in range(len(nodes) - 1, -1, -1):
        node = nodes[index]
        if not isinstance(node, Group) or node.makes:
            break
        if node.stitch == "ch":
            before = nodes[index - 1] if index else None
            joined = not found and isinstance(before, Group) and before.stitch == "join"
            if not joined and not (found and found[0].stitch == "turn"):
                break
        elif node.stitch not in ("turn", "join"):
            break
        found.insert(0, node)
    return found


def _with_steps(body: list[Node]) -> list[Node]:
    """A body without what the hands only pass over: skipped stitches."""
    return [node for node in body if length([node])]


def course_at(strand: Strand, at: int) -> int | None:
    """Index of the course in hand at `at`; between courses the next one; None past the last."""
    index = bisect_right(strand.course_ends, at)
    return index if index < len(strand.courses) else None


def courses_done(strand: Strand, at: int) -> int:
    """How many courses lie wholly behind a place."""
    return bisect_right(strand.course_ends, at)


def offset_in(strand: Strand, course: StrandCourse, at: int) -> int:
    """Steps of the course's body that lie behind a place; cues inside the course are not counted."""
    if at <= course.first:
        return 0
    inside = bisect_left(strand.cue_steps, at) - bisect_left(strand.cue_steps, course.first)
    return at - course.first - inside


def step_of(strand: Strand, course: StrandCourse, offset: int) -> int:
    """The strand's step for step `offset` of the course's body: the reverse of `offset_in`."""
    step = course.first + offset
    index = bisect_left(strand.cue_steps, course.first)
    while index < len(strand.cue_steps) and strand.cue_steps[index] <= step:
        step += 1
        index += 1
    return step


def stitches_before(strand: Strand, at: int) -> int:
    """Stitches made from the strand's start up to a place. Unread courses count as 0."""
    index = course_at(strand, at)
    if index is None:
        return strand.made_before[-1]
    return strand.made_before[index] + stitch_in(strand, strand.courses[index], at)


def stitch_in(strand: Strand, course: StrandCourse, at: int) -> int:
    """Stitches of the course made before a place in it."""
    if not course.read:
        return 0
    found = reach(course.body, offset_in(strand, course, at))
    return makes(course.body) if found is None else found.made


def rests(strand: Strand, at: int) -> bool:
    """Whether the place rests on something that waits: a stop, a pause, an unread course."""
    index = bisect_left(strand.halts, at)
    return index < len(strand.halts) and strand.halts[index] == at


def slide(strand: Strand, at: int) -> tuple[int, list[str]]:
    """Past the whispers that stand at `at`: where it comes to rest, and their addresses."""
    passed = []
    while (cue := strand.cue_at.get(at)) is not None and cue.weight == "whisper":
        passed.append(cue.address)
        at += 1
    return at, passed


def cues_between(strand: Strand, start: int, end: int) -> list[StrandCue]:
    """The cues on steps start to end - 1: what a way forward passes, what ripping back opens again."""
    return strand.cues[bisect_left(strand.cue_steps, start) : bisect_left(strand.cue_steps, end)]


def stitches_between(strand: Strand, start: int, end: int) -> int:
    """Stitches made on the way from one place to a later one: what ripping back undoes."""
    return stitches_before(strand, end) - stitches_before(strand, start)


def next_cue(strand: Strand, at: int) -> Ahead | None:
    """The next stop or pause past `at`, whispers and unread courses left out."""
    index = bisect_right(strand.loud, at, key=lambda cue: cue.step)
    if index == len(strand.loud):
        return None
    cue = strand.loud[index]
    return Ahead(
        address=cue.address,
        step=cue.step,
        distance_courses=courses_done(strand, cue.step) - courses_done(strand, at),
        distance_stitches=stitches_between(strand, at, cue.step),
    )


def locate(strand: Strand, at: int) -> Spot:
    """A place in words: course, stitch, repeat, group, cue."""
    index = course_at(strand, at)
    course = None if index is None else strand.courses[index]
    found, here = None, 0
    lead: list[Group] = []
    trail: list[Group] = []
    if course is not None and course.read:
        offset = offset_in(strand, course, at)
        begin, end = edges(course)
        here = max(offset, begin)
        found = reach(course.body, here)
        gone = 0
        for group in _leading(course.body) if begin else []:
            gone += group.length
            if gone > offset:
                lead.append(group)
        if found is not None and found.start + found.group.length == end:
            trail = _closing(course.body) if makes(course.body) else []
    turns = [Turn(i=i, n=n) for i, n in found.turns] if found else []
    return Spot(
        course=index,
        stitch=0 if course is None else stitch_in(strand, course, at),
        of=None if course is None else course.makes,
        repeat=turns[-1] if turns else None,
        repeats=turns,
        path=list(found.path) if found else [],
        group=found.group if found else None,
        group_step=here - found.start if found else 0,
        group_length=found.group.length if found else 0,
        lead=lead,
        trail=trail,
        cue=strand.cue_at.get(at),
        unread=at in strand.unread_at,
        next_cue=next_cue(strand, at),
        finished=at == strand.length,
    )
