"""The count check: the slip is looked for first, then ways out are offered."""

from __future__ import annotations

from collections.abc import Mapping

from hookside.follow import Strand, StrandCourse, locate
from hookside.mend.ground import Subject, at_stitch, cap, gaps, name, shapes, stitches, subject
from hookside.mend.offering import MOST, Miscount, offers
from hookside.mend.talk import YES_NO, Answers, Choice, Offer, Question, Talk, near, number
from hookside.pattern import makes

LARGEST = 2000  # stitches in a course; the limit of reading too


def count_check(strand: Strand, at: int, counts: Mapping[str, int], answers: Answers) -> Talk:
    """What to say to a count, given the answers so far.

    n      stitches from marker to hook
    again  the same, counted once more: where the first count was far off
    edge   "yes": the next stitch goes into the marked one; "no"
    gap    "alike", "differs", "unsure"; which: the gap that differs, from the marker
    hole   "yes", "no"; where: the stitch at which there is one, from the marker
    """
    asked = subject(strand, at, counts)
    if asked is None:
        return Talk(said="Nothing is there to count yet: the first stitches come next.")
    course = strand.courses[asked.index]
    n = number(answers, "n", 0, LARGEST)
    if n is None:
        return Talk(ask=_how_many("n", course, asked, ""))
    if n == asked.ours:
        return Talk(said=f"{n} is right: {_should(course, asked)}.")
    if abs(n - asked.ours) > MOST:
        again = number(answers, "again", 0, LARGEST)
        if again is None:
            off = f"That is {stitches(abs(n - asked.ours))} {'more' if n > asked.ours else 'fewer'} than I have."
            return Talk(ask=_how_many("again", course, asked, f"{off} Put a pin into every tenth stitch."))
        n = again
        if n == asked.ours:
            return Talk(said=f"{n} is right: {_should(course, asked)}. The first count was off.")
    return _looked_for(strand, at, asked, course, n, answers)


def ways_out(strand: Strand, index: int, n: int) -> list[Offer]:
    """What can be done at the end of course `index` that came out with `n`, where nobody looks for the slip.

    None where the count is right; only ripping back where it is far off.
    """
    course = strand.courses[index]
    more = n - (course.makes or 0)
    if not more:
        return []
    found = offers(strand, course.end, Miscount(Subject(index, True, course.makes or 0), more))
    return found if abs(more) <= MOST else [offer for offer in found if offer.kind == "rip"]


def _looked_for(strand: Strand, at: int, asked: Subject, course: StrandCourse, n: int, answers: Answers) -> Talk:
    """The count is another one: where did it go wrong?"""
    more = n - asked.ours
    if asked.whole:
        edge = answers.get("edge")
        if edge not in ("yes", "no"):
            return Talk(ask=_edge(course, more))
        if edge == "no":
            return _not_there(strand, asked, course, more, n)
    if abs(more) > MOST:
        many = f"{stitches(abs(more))} {'too many' if more > 0 else 'too few'}"
        said = f"{cap(many)} in {name(course)} are more than a mend can hide."
        found = [offer for offer in offers(strand, at, Miscount(asked, more)) if offer.kind == "rip"]
        return Talk(said=said, offers=[*_place(strand, asked, course, n), *found])
    slip: Miscount | Question | None
    slip = _by_gaps(strand, at, asked, course, more, answers)
    if slip is None and asked.whole:
        slip = _by_touch(asked, course, more, n, answers)
    if isinstance(slip, Question):
        return Talk(ask=slip)
    if slip is None:
        # Nothing is wrong in what is worked of this course: then only the place is.
        return Talk(
            said=f"Then nothing is wrong: you are at stitch {n} of {name(course)}, and I was not.",
            to=at_stitch(strand, course, n),
        )
    off = f"{stitches(abs(more))} {'too many' if more > 0 else 'too few'}"
    said = f"{cap(name(course))} has {off}{_found(slip)}. Choose what you would rather do."
    place = [] if asked.whole or answers.get("gap") == "differs" else _place(strand, asked, course, n)
    return Talk(said=said, offers=[*place, *offers(strand, at, slip)])


def _how_many(key: str, course: StrandCourse, asked: Subject, before: str) -> Question:
    where = f"in {name(course)}" if asked.whole else "from the marker to the hook"
    text = f"How many stitches do you count {where}?"
    more = f"{before} Count the Vs, not the loop on the hook. I have {asked.ours}.".strip()
    return Question(
        key=key, kind="number", text=text, more=more, choices=near(asked.ours, 0, LARGEST), least=0, most=LARGEST
    )


def _should(course: StrandCourse, asked: Subject) -> str:
    return f"{name(course)} has {asked.ours}" if asked.whole else f"{asked.ours} of {name(course)} are made"


def _edge(course: StrandCourse, more: int) -> Question:
    if course.kind == "row":
        text = "Are you at the very end of the row?"
        return Question(key="edge", text=text, more="The last stitch hides by the edge.", choices=YES_NO)
    text = "Is the marked stitch the very next one to work into?"
    less = "If not, the round is not done yet." if more < 0 else "If you have passed it, a new round is begun."
    return Question(key="edge", text=text, more=less, choices=YES_NO)


def _not_there(strand: Strand, asked: Subject, course: StrandCourse, more: int, n: int) -> Talk:
    """The hook is not at the end of the course: then the fabric is right and the place is not."""
    if more < 0:
        said = f"Then {name(course)} is not done: {stitches(-more)} to go. You are at stitch {n} of it."
        return Talk(said=said, to=at_stitch(strand, course, n))
    behind = strand.courses[asked.index + 1] if asked.index + 1 < len(strand.courses) else None
    if behind is None or not behind.read or not behind.makes or behind.makes < more:
        return Talk(said=f"Then count {name(course)} alone, from the first stitch to the one before the marker.")
    said = f"Then {name(course)} is right, and {stitches(more)} of {name(behind)} are made."
    return Talk(said=said, to=at_stitch(strand, behind, more))


def _place(strand: Strand, asked: Subject, course: StrandCourse, n: int) -> list[Offer]:
    """The place is moved to where the count is, and nothing else."""
    if not course.read or not 0 <= n <= makes(course.body) or n == asked.ours:
        return []
    say = f"Nothing is wrong with the work: you are at stitch {n} of {name(course)}."
    return [Offer(key="place", kind="go", title="Only the place is off", say=say, to=at_stitch(strand, course, n))]


def _by_gaps(
    strand: Strand, at: int, asked: Subject, course: StrandCourse, more: int, answers: Answers
) -> Miscount | Question | None:
    """Even gaps show where a repeat went wrong. None: they are alike, so it is not in this course."""
    even = gaps(course)
    if even is None or not shapes(course):
        return None if not asked.whole or not shapes(course) else Miscount(asked, more)
    spot = locate(strand, at)
    turns = even.turns if asked.whole else (spot.repeats[0].i if spot.repeats else 1)
    gap = answers.get("gap")
    if gap not in ("alike", "differs", "unsure"):
        should = f"between neighbouring {even.what} there should be {even.between}"
        text = f"Look along {name(course)}: {should}. Is one gap different?"
        return Question(
            key="gap", text=text,
            choices=[
                Choice(value="differs", text="One is different"), Choice(value="alike", text="All are alike"),
                Choice(value="unsure", text="I can't tell"),
            ],
        )  # fmt: skip
    if gap == "alike":
        return Miscount(asked, more) if asked.whole else None
    if gap == "unsure":
        return Miscount(asked, more)
    which = number(answers, "which", 1, turns)
    if which is None:
        text = "Which gap, counted from the marker?"
        more_said = f"The first one ends at the first of the {even.what}."
        return Question(
            key="which", kind="number", text=text, more=more_said, least=1, most=turns,
            choices=[Choice(value=i, text=str(i)) for i in range(1, min(turns, 8) + 1)],
        )  # fmt: skip
    return Miscount(asked, more, turn=which)


def _by_touch(asked: Subject, course: StrandCourse, more: int, n: int, answers: Answers) -> Miscount | Question:
    """In a plain course a finger finds it: a stitch left out, or two in one."""
    hole = answers.get("hole")
    if hole not in ("yes", "no"):
        if more < 0:
            text = f"Feel along {name(course)} from the marker: is a stitch left out, a small hole or a slant?"
        else:
            text = f"Feel along {name(course)} from the marker: do two stitches grow out of one?"
        return Question(key="hole", text=text, choices=YES_NO)
    if hole == "no":
        return Miscount(asked, more)
    where = number(answers, "where", 1, max(1, n))
    if where is None:
        text = "At which stitch is it, counted from the marker?"
        return Question(key="where", kind="number", text=text, least=1, most=max(1, n))
    return Miscount(asked, more, stitch=where)


def _found(slip: Miscount) -> str:
    if slip.turn is not None:
        return f", in repeat {slip.turn}"
    return f", about stitch {slip.stitch}" if slip.stitch is not None else ""
