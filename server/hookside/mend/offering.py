"""What can be done about a miscount, smallest first, each course spelled as it is worked then."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from hookside.follow import (
    CueSaid,
    Deviation,
    Mend,
    Strand,
    StrandCourse,
    StrandCue,
    fingerprint,
    locate,
    step_made,
    step_of,
    stitches_between,
)
from hookside.mend.altering import altered_by, begins_alike, carried, slipped
from hookside.mend.ground import (
    Subject,
    cap,
    decrease_of,
    groups,
    moves_picture,
    name,
    obstacle,
    picture,
    shapes,
    stitches,
)
from hookside.mend.talk import Offer
from hookside.pattern import Course, Cue, Group, Node, Repeat, Terms, Words, makes, uses
from hookside.words import course_words, cue_words, group_words

SHIFTED = "a pattern of stitches that would be shifted."
MOST = 2  # stitches too many or too few that are mended; more are counted again, or ripped back


@dataclass(frozen=True, slots=True)
class Miscount:
    """A count that is `more` stitches off in the course of `subject` (negative: fewer).

    turn    the turn of its repeat in which the slip was found, from 1
    stitch  the stitch at which it was found, from 1
    """

    subject: Subject
    more: int
    turn: int | None = None
    stitch: int | None = None

    def before(self, course: StrandCourse) -> int | None:
        """The stitches of the course, as it should be, before which it went wrong; None: near its end."""
        if self.turn is not None:
            made = 0
            for node in course.body:
                if isinstance(node, Repeat):
                    return made + self.turn * makes(node.body)
                made += makes([node])
        if self.stitch is not None:
            return self.stitch
        return None if self.subject.whole else self.subject.ours


Bodies = dict[int, list[Node]]  # by course index


def offers(strand: Strand, at: int, slip: Miscount) -> list[Offer]:
    """Ways out of a miscount of one or two stitches."""
    here = slip.subject.index
    course = strand.courses[here]
    stuck = _own_obstacle(strand, slip)
    found = [] if stuck else [*_this_course(strand, at, slip), *_next_shaping(strand, slip), *_hidden(strand, slip)]
    if stuck:
        found.append(Offer(key="mend", kind="refused", title="Mend it further on", say=stuck))
    found += _back(strand, at, slip, course)
    if not stuck:
        found += _leave(strand, slip)
    return found


def _own_obstacle(strand: Strand, slip: Miscount) -> str | None:
    """Why a slip in this course cannot be led on. That parts join in it matters only for what it takes up, and a
    picture only while it is worked: once the course is done its colours stand where they stand."""
    course = strand.courses[slip.subject.index]
    if not course.read:
        return obstacle(strand, slip.subject.index)
    return moves_picture(course) if not slip.subject.whole and picture(strand, slip.subject.index) else None


def _look_first(strand: Strand, index: int) -> str:
    """What is said with every way that leaves a picture as it was worked."""
    if not picture(strand, index):
        return ""
    return f" Look at the colours of {name(strand.courses[index])} first: they stay as they are worked."


# -- the ways ---------------------------------------------------------------


def _this_course(strand: Strand, at: int, slip: Miscount) -> list[Offer]:
    """In the last repeat of the course in hand, where the hook has not come to it."""
    here = slip.subject.index
    course = strand.courses[here]
    if slip.subject.whole or not shapes(course):
        return []
    turns = locate(strand, at).repeats
    # A slip in the last turn itself, or in a course of one turn, has no later place in this course.
    if len(turns) != 1 or turns[0].i >= turns[0].n or obstacle(strand, here):
        return []
    wrong = slipped(course.body, slip.more, slip.before(course))
    body = altered_by(wrong, 0, -slip.more, decrease_of(strand, here))
    if body is None or not begins_alike(wrong, body, slip.subject.ours + slip.more):
        return []
    mend, line = _mend(strand, {here: body}, here, here)
    count = makes(course.body)
    say = f"Work on as written; the last repeat of {name(course)} takes it up: {line}. That makes {count}."
    title = _where(course)
    return [Offer(key="here", kind="mend", title=title, say=say, line=line, mend=mend)]


def _next_shaping(strand: Strand, slip: Miscount) -> list[Offer]:
    here = slip.subject.index
    to = next((i for i in range(here + 1, len(strand.courses)) if shapes(strand.courses[i])), None)
    if to is None:
        return []
    return [_absorbed(strand, slip, to, "shaping", _where(strand.courses[to]))]


def _where(course: StrandCourse) -> str:
    repeats = any(isinstance(node, Repeat) and node.times > 1 for node in course.body)
    return f"In the last repeat of {name(course)}" if repeats else f"Near the end of {name(course)}"


def _no_room(course: StrandCourse) -> str:
    return f"No repeat of {name(course)} has a plain stitch that could take it up."


def _hidden(strand: Strand, slip: Miscount) -> list[Offer]:
    """One hidden increase or decrease in the next plain course, or two of them."""
    here = slip.subject.index
    to = next((i for i in range(here + 1, len(strand.courses)) if carried(strand.courses[i].body, 1)), None)
    if to is None or any(shapes(strand.courses[i]) for i in range(here + 1, to)):
        return []
    what = "decrease" if slip.more > 0 else "increase"
    many = f"One hidden {what}" if abs(slip.more) == 1 else f"Two hidden {what}s"
    return [_absorbed(strand, slip, to, "hidden", f"{many} in {name(strand.courses[to])}")]


def _absorbed(strand: Strand, slip: Miscount, to: int, key: str, title: str) -> Offer:
    """Taken up in course `to`: the courses before it are worked on the stitches there are."""
    bodies = _led(strand, slip, to)
    if isinstance(bodies, str):
        return Offer(key=key, kind="refused", title=title, say=bodies)
    course = strand.courses[to]
    why = obstacle(strand, to)
    if why:
        return Offer(key=key, kind="refused", title=title, say=why)
    body = altered_by(course.body, slip.more, 0, decrease_of(strand, to))
    if body is None:
        return Offer(key=key, kind="refused", title=title, say=_no_room(course))
    mend, line = _mend(strand, {**bodies, to: body}, slip.subject.index, to)
    between = _between(strand, slip.subject.index + 1, to)
    lead = f"{between} on {strand_count(bodies, strand, to)}. " if between else ""
    say = f"{lead}{cap(name(course))}: {line}. That makes {makes(body)}, as written."
    if key == "hidden" and course.kind == "round":
        say += " The end of a round is at the back for most; if not for you, work it where the back is."
    say += _look_first(strand, slip.subject.index)
    return Offer(key=key, kind="mend", title=title, say=say, line=line, mend=mend)


def _back(strand: Strand, at: int, slip: Miscount, course: StrandCourse) -> list[Offer]:
    """Pulled out is what stands there: as many as were counted, not as many as there should be."""
    found: list[Offer] = []
    spot = _spot(strand, slip, course)
    if spot is not None and course.first < spot < at:
        many = max(1, stitches_between(strand, spot, at) + slip.more)
        where = f"repeat {slip.turn}" if slip.turn is not None else f"stitch {slip.stitch}"
        say = f"Pull out about {stitches(many)}, to the start of {where} of {name(course)}, and work on as written."
        found.append(Offer(key="spot", kind="rip", title="Back to the spot", say=say, to=spot, many=many))
    many = max(0, stitches_between(strand, course.first, at) + slip.more)
    say = f"Pull out {stitches(many)}, to the start of {name(course)}, and work it once more."
    found.append(Offer(key="rip", kind="rip", title=f"Pull {name(course)} out", say=say, to=course.first, many=many))
    return found


def _spot(strand: Strand, slip: Miscount, course: StrandCourse) -> int | None:
    if not course.read:
        return None
    if slip.turn is not None:
        at = next((i for i, node in enumerate(course.body) if isinstance(node, Repeat)), None)
        if at is None:
            return None
        repeat = course.body[at]
        assert isinstance(repeat, Repeat)
        one = [Repeat(body=repeat.body, times=slip.turn - 1)] if slip.turn > 1 else []
        return step_of(strand, course, _length([*course.body[:at], *one]))
    if slip.stitch is not None:
        return step_of(strand, course, step_made(course.body, slip.stitch - 1))
    return None


def _leave(strand: Strand, slip: Miscount) -> list[Offer]:
    """As it is, through all that comes: plain courses with that many, shaping ones with it in their last repeat."""
    here, more = slip.subject.index, slip.more
    title = f"Leave it, and go on with {(strand.courses[here].makes or 0) + more}"
    bodies: Bodies = {here: slipped(strand.courses[here].body, more, slip.before(strand.courses[here]))}
    end = len(strand.courses)
    taken = None
    for index in range(here + 1, end):
        course = strand.courses[index]
        why = obstacle(strand, index)
        if why:
            return [Offer(key="leave", kind="refused", title=title, say=why)]
        body = carried(course.body, more)
        if body is None and shapes(course):
            body = altered_by(course.body, more, more)
        if body is None:
            body = altered_by(course.body, more, 0, decrease_of(strand, index)) if shapes(course) else None
            if body is None:
                why = _no_room(course) if shapes(course) else f"{cap(name(course))} works {SHIFTED}"
                return [Offer(key="leave", kind="refused", title=title, say=why)]
            taken = index
        bodies[index] = body
        if taken is not None:
            break
    if len(bodies) == 1:
        # Whether another part goes on in these stitches is not known here: the strand is one piece.
        say = (
            f"It was the last one: the piece ends with {stitches(makes(bodies[here]))}. A seam or an opening takes it; "
            f"a part that goes on from these stitches counts on {strand.courses[here].makes}, so pull it out then."
        )
        mend, _ = _mend(strand, bodies, here, None)
        return [Offer(key="leave", kind="mend", title=title, say=say, mend=mend)]
    mend, line = _mend(strand, bodies, here, here + 1)
    fewer = f"{abs(more)} {'more' if more > 0 else 'fewer'}"
    if taken is None:
        say = f"Every {strand.courses[here].kind} from here has {fewer} than written, and the piece ends so."
    else:
        until = f"until {name(strand.courses[taken])} takes it up"
        say = f"Every {strand.courses[here].kind} from here has {fewer} than written, {until}."
    nearest = strand.courses[here + 1]
    say += f" Next, {name(nearest)}: {line}.{_look_first(strand, here)}"
    return [Offer(key="leave", kind="mend", title=title, say=say, line=line, mend=mend)]


def _led(strand: Strand, slip: Miscount, to: int) -> Bodies | str:
    """The courses from the slip to the one before `to`, each on the stitches there are; or why that can't be."""
    here = slip.subject.index
    bodies: Bodies = {here: slipped(strand.courses[here].body, slip.more, slip.before(strand.courses[here]))}
    for index in range(here + 1, to):
        course = strand.courses[index]
        why = obstacle(strand, index)
        if why:
            return why
        body = carried(course.body, slip.more)
        if body is None:
            return f"{cap(name(course))} comes before it, and works {SHIFTED}"
        bodies[index] = body
    return bodies


def _between(strand: Strand, start: int, end: int) -> str:
    """ "Round 17", "Rounds 17 to 20", "" """
    if start >= end:
        return ""
    first, last = strand.courses[start], strand.courses[end - 1]
    return cap(name(first)) if start == end - 1 else f"{cap(first.kind)}s {first.label} to {last.label}"


def strand_count(bodies: Bodies, strand: Strand, to: int) -> int:
    """Stitches of the course before `to` as they are now."""
    before = bodies.get(to - 1)
    return makes(before) if before is not None else strand.courses[to - 1].makes or 0


def _length(body: Sequence[Node]) -> int:
    return sum(n.length if isinstance(n, Group) else n.times * _length(n.body) for n in body)


# -- as deviations ----------------------------------------------------------


def _mend(strand: Strand, bodies: Bodies, wrong: int, count: int | None) -> tuple[Mend, str]:
    """The mend, and the line of the course whose count is asked right after it (of the last one where none is)."""
    deviations = []
    line = ""
    for index, body in sorted(bodies.items()):
        course = strand.courses[index]
        if fingerprint(body) == fingerprint(course.body):
            continue
        dressed = _dressed(body, course, strand.terms)
        plain = course.plain and carried(body, 0) is not None
        new = Course(
            id=course.id, label=course.label, kind=course.kind, uses=uses(body), makes=makes(body),
            declared=course.declared, text=course.text, line=1, body=dressed, spiral=course.spiral, plain=plain,
        )  # fmt: skip
        words = course_words(new, strand.terms)
        asks = count == index
        deviations.append(
            Deviation(
                course=course.id, was=fingerprint(course.body), body=dressed, plain=plain, words=words,
                said=_renumbered(strand, course, new, counted=index == wrong),
                count=_count(new, strand) if asks else None,
            )
        )  # fmt: skip
        if asks or count is None:
            line = words.short
    made = makes(bodies[wrong])
    because = f"{name(strand.courses[wrong])} came out with {made}"
    if count is not None and count == max(bodies):
        say = f"{cap(name(strand.courses[count]))}: {line} ({because})" if count != wrong else f"{cap(because)}: {line}"
    else:
        say = f"{cap(because)}, and the next ones go on so"
    return Mend(say=say, course=strand.courses[wrong].id, deviations=deviations), line


def _dressed(body: Sequence[Node], was: StrandCourse, terms: Terms) -> list[Node]:
    """Words for the groups that are new; the others keep the ones they had."""
    known = {_key(group): group.words for group in groups(was.body)}
    return [
        Repeat(body=_dressed(node.body, was, terms), times=node.times)
        if isinstance(node, Repeat)
        else node.model_copy(update={"words": known.get(_key(node)) or group_words(node, terms)})
        for node in body
    ]


def _key(group: Group) -> tuple[object, ...]:
    return (group.stitch, group.count, group.uses, group.makes, group.loops, group.into, group.colour)


def _renumbered(strand: Strand, was: StrandCourse, now: Course, counted: bool) -> list[CueSaid]:
    """Worked-out cues of a course whose sentence has its numbers in it. What was `counted` just now is not asked."""
    found = []
    for cue in strand.cues:
        if cue.basis != "worked out" or not cue.address.startswith(f"{was.id}/"):
            continue
        text = cue.text
        if cue.kind == "count":
            asks = "Counted" if counted else "Count now"
            text = text.replace(f"Count now: {was.makes} ", f"{asks}: {now.makes} ")
        text = re.sub(rf"\b{was.uses} become {was.makes}\b", f"{now.uses} become {now.makes}", text)
        if text != cue.text:
            found.append(CueSaid(address=cue.address, text=text, words=_cue_words(cue, text, strand.terms)))
    return found


def _cue_words(cue: StrandCue, text: str, terms: Terms) -> Words:
    plain = Cue(
        address=cue.address, after="0", kind=cue.kind, text=text, basis="worked out", weight=cue.weight,
    )  # fmt: skip
    return cue_words(plain, terms, terms)


def _count(course: Course, strand: Strand) -> CueSaid:
    text = f"Count now: {course.makes} in {course.kind} {course.label}."
    cue = Cue(
        address=f"{course.id}/count.0", after=course.label, course_id=course.id, kind="count", text=text,
        basis="worked out", weight="pause",
    )  # fmt: skip
    return CueSaid(address=cue.address, text=text, words=cue_words(cue, strand.terms, strand.terms))
