"""What a strand is like around a place: which course a count belongs to, and which courses must not be touched."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from hookside.follow import Strand, StrandCourse, courses_done, locate, step_made, step_of
from hookside.mend.kinds import decrease, plain_stitch, shaping
from hookside.pattern import Group, Node, Repeat, length, makes


@dataclass(frozen=True, slots=True)
class Subject:
    """The course that a count from marker to hook counts.

    index  of the course
    whole  it is done, and nothing of the next one is worked
    ours   stitches it should have, so far
    """

    index: int
    whole: bool
    ours: int


def subject(strand: Strand, at: int, counts: Mapping[str, int]) -> Subject | None:
    """The course whose stitches lie between marker and hook.

    None before the first stitch, and where no count is known.
    """
    spot = locate(strand, at)
    if spot.course is not None and spot.stitch > 0:
        return Subject(spot.course, False, spot.stitch)
    index = courses_done(strand, at) - 1
    if index < 0:
        return None
    course = strand.courses[index]
    made = counts.get(course.id, course.makes)
    return Subject(index, True, made) if made else None


def name(course: StrandCourse) -> str:
    """ "round 16", "the start"."""
    if course.label == "0":
        return "the start" if course.kind == "row" or not course.makes else "the first round"
    return f"{course.kind} {course.label}"


def stitches(n: int) -> str:
    return f"{n} {'stitch' if n == 1 else 'stitches'}"


def at_stitch(strand: Strand, course: StrandCourse, n: int) -> int:
    """The step before which `n` stitches of a course are made; what closes it is still to be done."""
    if n <= 0:
        return course.first
    offset = step_made(course.body, n)
    return course.end if offset >= length(course.body) else step_of(strand, course, offset)


def shapes(course: StrandCourse) -> bool:
    """Whether a course makes another number than it takes up, by increases or decreases."""
    return course.read and course.uses != course.makes and bool(shaping(course.body))


def obstacle(strand: Strand, index: int) -> str | None:
    """Why a course may not be worked otherwise, nor another number of stitches be led through it; None: it may."""
    course = strand.courses[index]
    if not course.read:
        return f"{cap(name(course))} stands in the designer's words, so its stitches can't be worked out."
    before = strand.courses[index - 1] if index else None
    if before is None or before.makes is None or course.uses != before.makes or _joins(strand, index):
        return f"Parts join or stitches are left in {name(course)}: its count has to be the written one."
    return moves_picture(course) if picture(strand, index) else None


def moves_picture(course: StrandCourse) -> str:
    return f"The colours of {name(course)} are placed stitch by stitch: one more or fewer would move the picture."


def cap(text: str) -> str:
    return text[:1].upper() + text[1:]


def _joins(strand: Strand, index: int) -> bool:
    start = strand.courses[index - 1].end if index else 0
    end = strand.courses[index].end
    return any(cue.kind == "join" and start <= cue.step < end for cue in strand.cues)


def picture(strand: Strand, index: int) -> bool:
    """Colours that change within a course, elsewhere than in its last stitch (that change belongs to the next)."""
    course = strand.courses[index]
    colours = {group.colour for group in groups(course.body) if group.makes}
    if len(colours) > 1:
        return True
    for cue in strand.cues:
        if cue.kind == "colour" and course.first < cue.step < course.end:
            made = locate(strand, cue.step).stitch
            if made > 0 and made + 1 < makes(course.body):
                return True
    return False


def groups(body: list[Node]) -> Iterator[Group]:
    """The groups of a body, each once as it is written."""
    for node in body:
        if isinstance(node, Repeat):
            yield from groups(node.body)
        else:
            yield node


def decrease_of(strand: Strand, index: int) -> str:
    """The decrease to work in a course: its own, else the piece's, else the plain one ("").

    The invisible one only where it does well: plain rounds of single crochet seen from outside, both loops, and not
    where the next round takes the front loops.
    """
    own = [group.stitch for group in groups(strand.courses[index].body) if decrease(group)]
    if own:
        return own[0]
    piece = [g.stitch for course in strand.courses for g in groups(course.body) if decrease(g)]
    wanted = next((stitch for stitch in piece if stitch in ("dec", "inv dec", "sc2tog")), "")
    if wanted != "inv dec":
        return wanted
    here = strand.courses[index]
    following = strand.courses[index + 1] if index + 1 < len(strand.courses) else None
    fronts = following is not None and any(g.loops == "front" for g in groups(following.body))
    turned = here.kind == "row" or any(g.stitch == "turn" for g in groups(here.body))
    looped = any(g.loops for g in groups(here.body))
    return "" if fronts or turned or looped else "inv dec"


@dataclass(frozen=True, slots=True)
class Gaps:
    """The even gaps of a course: `between` plain stitches between two neighbouring increases or decreases."""

    between: int
    turns: int
    what: str  # "increases"


def gaps(course: StrandCourse) -> Gaps | None:
    """The gaps of a course that is one repeat with one increase or decrease in it; None for any other."""
    worked = [node for node in course.body if makes([node]) or (isinstance(node, Group) and node.uses)]
    if len(worked) != 1 or not isinstance(worked[0], Repeat):
        return None
    repeat = worked[0]
    if repeat.times < 2 or not all(isinstance(node, Group) for node in repeat.body):
        return None
    inside = list(groups(repeat.body))
    shaped = [g for g in inside if g in shaping(repeat.body)]
    plain = [g for g in inside if plain_stitch(g)]
    if len(shaped) != 1 or shaped[0].count != 1 or len(shaped) + len(plain) != len(inside):
        return None
    between = sum(g.count for g in plain)
    if not between:
        return None
    return Gaps(between, repeat.times, "decreases" if decrease(shaped[0]) else "increases")
