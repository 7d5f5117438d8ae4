"""I am lost: the fabric is asked, one question at a time, until the hook is at a stitch again."""

from __future__ import annotations

from collections.abc import Mapping

from hookside.follow import Strand, StrandCourse, courses_done, locate
from hookside.mend.ground import at_stitch, cap, name, stitches
from hookside.mend.talk import YES_NO, Answers, Choice, Question, Talk, near, number
from hookside.pattern import makes

LARGEST = 2000


def lost(strand: Strand, at: int, counts: Mapping[str, int], answers: Answers) -> Talk:
    """What to ask, or where the hook is, given the answers so far.

    loop    "yes", "no": the loop is on the hook
    marker  "yes", "no": the marker is in
    on      "yes", "no": more was worked since the place was last moved (asked where the marker is out)
    n       stitches from marker, or from the start of the course, to the hook
    courses whole rounds or rows from the start up to there, or the number of the last whole one where the part's own do
            not begin with 1; "unsure"
    below   stitches of the last whole one, counted; where the number of them is not known
    """
    if not any(course.read and makes(course.body) for course in strand.courses):
        return Talk(said="There are no stitches to count in this part: look which of its jobs are done.")
    if answers.get("loop") not in ("yes", "no"):
        return Talk(ask=Question(key="loop", text="Is the loop on the hook?", choices=YES_NO))
    said = "" if answers["loop"] == "yes" else _hook_in()
    here = _in_hand(strand, at)
    rows = here.kind == "row"
    if not rows:
        if answers.get("marker") not in ("yes", "no"):
            return Talk(said=said, ask=Question(key="marker", text="Is the marker still in?", choices=YES_NO))
        if answers["marker"] == "no":
            if answers.get("on") not in ("yes", "no"):
                text = "Did you work on since this page last moved?"
                return Talk(said=said, ask=Question(key="on", text=text, choices=YES_NO))
            if answers["on"] == "no":
                return _as_it_was(strand, at, counts)
            said = "The new round begins above the first stitch of the one below: feel for the step in the edge."
    made = locate(strand, at).stitch
    n = number(answers, "n", 0, LARGEST)
    if n is None:
        start = "the start of the row" if rows else "the marker" if answers.get("marker") == "yes" else "the step"
        text = f"How many stitches from {start} to the hook?"
        more = "" if rows or answers.get("marker") != "yes" else "The marked stitch is the first."
        return Talk(said=said, ask=_asked("n", text, more, made, 0))
    return _which_course(strand, at, counts, answers, n, said)


def _hook_in() -> str:
    return (
        "Put the hook back into the last whole loop, from front to back. If stitches have run, draw the yarn until "
        "one is whole."
    )


def _in_hand(strand: Strand, at: int) -> StrandCourse:
    index = locate(strand, at).course
    return strand.courses[index if index is not None else -1]


def _asked(key: str, text: str, more: str, likely: int, least: int, most: int = LARGEST) -> Question:
    return Question(
        key=key, kind="number", text=text, more=more, choices=near(likely, least, most), least=least, most=most
    )


def _as_it_was(strand: Strand, at: int, counts: Mapping[str, int]) -> Talk:
    """The marker alone is lost: it goes back to where it was, by the place."""
    spot = locate(strand, at)
    if spot.course is not None and spot.stitch > 0:
        course = strand.courses[spot.course]
        n = spot.stitch
        back = f"You had made {n} in {name(course)}. Count back {n} from the hook: the marker goes there."
        return Talk(said=back, to=at)
    index = courses_done(strand, at) - 1
    course = strand.courses[max(index, 0)]
    made = counts.get(course.id, course.makes)
    if index < 0 or not made:
        return Talk(said="Nothing is worked yet: the marker goes into the first stitch you make.", to=at)
    return Talk(
        said=f"{cap(name(course))} is done, with {made}. The marker goes into the next stitch you make.", to=at
    )


def _which_course(
    strand: Strand, at: int, counts: Mapping[str, int], answers: Answers, n: int, said: str
) -> Talk:
    """A number of stitches is known: in which course?"""
    done = courses_done(strand, at)
    first = _first(strand)
    kind = _in_hand(strand, at).kind
    asked = answers.get("courses")
    before = _before(strand, first)
    whole = number(answers, "courses", before, before + len(strand.courses) - first)
    if whole is None and asked != "unsure":
        if before:
            text = f"Which {kind} is the last whole one below that?"
            more = f"By the pattern's numbers: this part begins with {kind} {before + 1}. Count on from it."
        else:
            one = "the ring's stitches are the first" if kind == "round" else "the chain is none"
            begins = f"{strand.courses[first].id}/ready-"
            if any(cue.address.startswith(begins) for cue in strand.cues):  # it goes on from other parts
                one = f"the {kind} that goes on from the parts before is the first"
            text, more = f"How many whole {kind}s lie below that, from the start?", f"Count along a column; {one}."
        least, most = before, before + len(strand.courses) - first
        question = _asked("courses", text, more, before + max(0, done - first), least, most)
        question.choices.append(Choice(value="unsure", text="I can't tell"))
        return Talk(said=said, ask=question)
    if whole is not None:
        return _settled(strand, first + whole - before, n)
    below = number(answers, "below", 1, LARGEST)
    if below is None:
        last = strand.courses[max(0, done - 1)]
        likely = counts.get(last.id, last.makes) or 0
        text = f"How many stitches has the last whole {kind}, the one below the hook?"
        return Talk(said=said, ask=_asked("below", text, "Count the Vs all the way.", likely, 1))
    fits = [
        index + 1
        for index, course in enumerate(strand.courses)
        if counts.get(course.id, course.makes) == below and _holds(strand, index + 1, n)
    ]
    if not fits:
        return Talk(
            said=f"No {kind} of this part has {below} stitches and {n} on it. Count both once more, or rip back to a "
            f"{kind} you are sure of."
        )
    best = min(fits, key=lambda index: (abs(index - done), index))
    found = _settled(strand, best, n)
    if len(fits) > 1:
        names = [strand.courses[index - 1].label for index in fits]
        several = f"{len(fits)} {kind}s have {below}: {', '.join(names[:-1])} and {names[-1]}."
        found = found.model_copy(update={"said": f"{several} The nearest to where you were is taken. {found.said}"})
    return found


def _first(strand: Strand) -> int:
    """Courses before the first that makes stitches: a foundation chain is none that one counts."""
    return next(i for i, course in enumerate(strand.courses) if course.makes or not course.read)


def _before(strand: Strand, first: int) -> int:
    """The number that comes before this part's own: 6 of a body whose rounds are 7, 8 and on, worked onto its legs. A
    column runs down into these, so that only the pattern's numbers can be asked for. 0 where they begin with 1, or are
    no plain row of numbers."""
    labels = [course.label for course in strand.courses[first:]]
    if not labels or not labels[0].isdecimal():
        return 0
    begins = int(labels[0])
    return begins - 1 if begins > 1 and labels == [str(begins + i) for i in range(len(labels))] else 0


def _holds(strand: Strand, index: int, n: int) -> bool:
    if index >= len(strand.courses):
        return n == 0
    course = strand.courses[index]
    return n <= makes(course.body) if course.read else n == 0


def _settled(strand: Strand, index: int, n: int) -> Talk:
    """`n` stitches of course `index` are made."""
    if index >= len(strand.courses):
        if n == 0:
            return Talk(said="All of it is worked. What is left is the finishing.", to=strand.courses[-1].end)
        return Talk(said="That is more than this part has. Count once more, from its first stitches.")
    course = strand.courses[index]
    if not course.read:
        return Talk(said=f"You are at {name(course)}, which stands in the designer's words.", to=course.first)
    if n > makes(course.body):
        return Talk(
            said=f"{cap(name(course))} has only {makes(course.body)}, so {n} can't be in it. Count once more from the "
            "marker, or see whether a round lies between."
        )
    to = at_stitch(strand, course, n)
    if n == 0:
        return Talk(said=f"You are at the start of {name(course)}.", to=to)
    return Talk(said=f"You are in {name(course)}, and {stitches(n)} of {makes(course.body)} are made.", to=to)
