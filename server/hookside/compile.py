"""Text and choices -> pattern and strands. The only place that calls notation, cues and words."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Literal, NamedTuple

from pydantic import Field

from hookside.cues import coloured, complete, counts, learning, markers, of_copy
from hookside.follow import Order, Strand, StrandCourse, StrandCue
from hookside.habits import Decreases, worked
from hookside.joining import parts_first, with_joinings
from hookside.notation import read as read_text
from hookside.pattern import (
    Course,
    Cue,
    CueKind,
    Group,
    Node,
    Pattern,
    Piece,
    Record,
    Repeat,
    Terms,
    Words,
    length,
    makes,
)
from hookside.shape import Asked
from hookside.words import CLAUSE_LETTERS, around, colour_named, cue_words, dress, dress_piece

if TYPE_CHECKING:
    from hookside.notation.explaining.explanation import Explainer
    from hookside.shape import Measures

VERSION = "8"  # part of every strand's id: raise it when the same text comes to lie differently on its strand
MOST_COPIES = 99  # of one piece in one making


class Choices(Record):
    """What the maker chose before the first stitch.

    terms    the words she wants to work in; None: the text's own
    hand     the hand that holds the hook
    order    the order of work for copies
    copies   how many to make of a piece, by its number as the runs count it; a piece not named: as printed
    gauge    what she says of her own fabric. `lay` takes a pattern that was read with it
    kinds_off  kinds of cue she wants none of: what was worked out is left out, what the text says is only shown
    spiral   joined rounds as a spiral, where a piece allows it
    decreases  invisible or plain, where a course allows it; None: as the text has them
    anyway   work it although something in it can't be followed: courses that could not be read are
             instructions, printed counts stand as they are
    """

    terms: Terms | None = None
    hand: Literal["right", "left"] = "right"
    order: Order = Order()
    copies: dict[int, int] = Field(default_factory=dict)
    gauge: Asked | None = None
    kinds_off: list[CueKind] = Field(default_factory=list)
    spiral: bool = False
    decreases: Decreases | None = None
    anyway: bool = False


@dataclass(frozen=True, slots=True)
class Laid:
    """One run and its strand. Copies of a piece share one strand, but for those that the text tells apart."""

    run: str  # "p1.c2": piece 1, copy 2, both counted from 1 in the pattern's order
    piece: str  # its name
    copy: int
    copies: int
    strand: Strand


class CannotBeFollowed(ValueError):
    """The pattern cannot be worked as it is; the message is a sentence for the maker."""


def read(text: str, terms: Terms | None = None, asked: Asked | None = None) -> Pattern:
    """A pattern as people publish it -> the compiled form, cues where they are due, words in its own terms.

    `terms` settles in which terms the text is written, where the maker knows better than the evidence. `asked`: what
    she says of her own fabric; cues that hang on how wide a piece stands open are due by it.
    """
    return dress(_due_in_time(read_text(text, terms), asked))


def explained(text: str, terms: Terms | None = None) -> Explainer:
    """How a text was read, line by line, with its cues where they are due."""
    from hookside.notation.explaining.explanation import Explainer  # only for those who ask

    return Explainer(text, terms, _due_in_time)


def _due_in_time(pattern: Pattern, asked: Asked | None = None) -> Pattern:
    return coloured(with_joinings(complete(pattern, asked)))


def in_terms(pattern: Pattern, terms: Terms) -> Pattern:
    """A pattern that was read, with all its words in these terms. `terms` of it stays what the text is written in."""
    return dress(pattern, terms)


def measured(pattern: Pattern, asked: Asked | None = None) -> Measures:
    """Sizes, openings, yarn and stuffing of a pattern. CannotBeMeasured, with a sentence, for a gauge that can't be."""
    # Only here: whoever reads or follows a pattern waits for no numerical library.
    from hookside.shape.measure import measure

    return measure(pattern, lambda cue: colour_named(cue.text), asked)


def lay(pattern: Pattern, text: str, choices: Choices) -> list[Laid]:
    """The runs of a making, in the order of the pattern's pieces, copies of a piece one after another; a piece that is
    worked into another one stands before it, wherever it is printed.

    `pattern` is `text` as `read` gave it, by the gauge chosen. Pieces with neither courses nor cues have no run.
    CannotBeFollowed where a finding is an error and the choice is not to go on anyway, for a number of copies that is
    not 1 to 99, or for copies of a piece that is not there.
    """
    if not pattern.can_be_followed and not choices.anyway:
        first = next(f for f in pattern.findings if f.severity == "error")
        raise CannotBeFollowed(f"Line {first.line} can't be followed yet. {first.message}")
    digest = hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
    laid: list[Laid] = []
    for number in choices.copies:
        if not 1 <= number <= len(pattern.pieces):
            raise CannotBeFollowed(f"There is no piece {number} to make copies of. Reload the page and begin again.")
    for number in parts_first(pattern):
        piece = pattern.pieces[number - 1]
        if not piece.courses and not piece.cues:
            continue
        copies = choices.copies.get(number, piece.make)
        if not 1 <= copies <= MOST_COPIES:
            asked = "You asked" if number in choices.copies else f"Line {piece.line} says"
            raise CannotBeFollowed(
                f"{asked} to make {copies} of {piece.name or 'this piece'}; "
                f"Hookside follows 1 to {MOST_COPIES}. Choose another number and begin again."
            )
        alike: dict[int, Strand] = {}
        for copy in range(1, copies + 1):
            told = of_copy(pattern, number, copy, copies)
            which = 0 if told is piece else (copy - 1) % piece.make + 1
            if which not in alike:
                alike[which] = _strand(pattern, told, number, digest, choices)
            laid.append(Laid(f"p{number}.c{copy}", piece.name, copy, copies, alike[which]))
    return laid


def _strand(pattern: Pattern, piece: Piece, number: int, digest: str, choices: Choices) -> Strand:
    terms = choices.terms or pattern.terms
    dressed = dress_piece(worked(piece, pattern, choices.spiral, choices.decreases), pattern, terms)
    courses, cues, end = _numbered(dressed, pattern, terms, frozenset(choices.kinds_off))
    strand = Strand(id="", piece=piece.name, terms=terms, length=end, courses=courses, cues=cues)
    made_from = {
        "text": digest,
        "read_in": pattern.terms,
        "piece": number,
        "choices": {"terms": terms},  # hand and order change no step; what the others change, the strand has
        "version": VERSION,
        "strand": strand.model_dump(mode="json", exclude={"id"}),  # one id never stands for two lines of steps
    }
    canonical = json.dumps(made_from, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return strand.model_copy(update={"id": hashlib.sha256(canonical.encode()).hexdigest()[:32]})


# -- numbering --------------------------------------------------------------


def _numbered(
    piece: Piece, pattern: Pattern, terms: Terms, off: frozenset[CueKind]
) -> tuple[list[StrandCourse], list[StrandCue], int]:
    """Courses and cues of a piece on one line of steps; the third value is its length. `off`: kinds of cue not wanted.

    Order at one spot: when to count, as stuffing hides what is wrong; what the text says, line by line; the marker;
    the next stitch. Stops of one kind that stand directly behind one another are one job, and one stop with the
    sentences of all.
    """
    said = {cue.address: cue.words for cue in piece.cues}
    counted, marks = counts(piece), [*markers(piece), *learning(piece)]
    said |= {cue.address: cue_words(cue, terms, terms) for cue in [*counted, *marks]}
    between, inside = _due(piece, list(_wanted([*counted, *piece.cues, *marks], off)))
    for index, waiting in between.items():
        between[index] = list(_as_one(waiting, said, piece, pattern, terms))
    plain = _plain_runs(piece.courses, between, inside)
    courses: list[StrandCourse] = []
    cues: list[StrandCue] = []
    at = 0

    def put(cue: Cue) -> None:
        nonlocal at
        cues.append(
            StrandCue(
                address=cue.address,
                step=at,
                kind=cue.kind,
                text=cue.text,
                basis=cue.basis,
                weight=cue.weight,
                words=said[cue.address],
            )
        )
        at += 1

    for cue in between[-1]:
        put(cue)
    for index, course in enumerate(piece.courses):
        first = at
        steps = length(course.body) if course.read else 1
        done = 0
        for offset, cue in inside[index]:
            at += offset - done
            done = offset
            put(cue)
        at += steps - done
        run = plain.get(index)
        courses.append(
            StrandCourse(
                id=course.id,
                label=course.label,
                kind=course.kind,
                first=first,
                end=at,
                uses=course.uses,
                makes=course.makes,
                declared=course.declared,
                text=course.text,
                body=course.body,
                read=course.read,
                spiral=course.spiral,
                plain=course.plain,
                plain_index=run and run.place,
                plain_of=run and run.of,
                plain_from=run and run.start,
                plain_to=run and run.stop,
                words=course.words,
            )
        )
        for cue in between[index]:
            put(cue)
    return courses, cues, at


def _wanted(cues: list[Cue], off: frozenset[CueKind]) -> Iterator[Cue]:
    """The cues without what was worked out of the kinds that are off; what the text says of those is only shown."""
    for cue in cues:
        if cue.kind not in off:
            yield cue
        elif cue.basis == "written":
            yield cue.model_copy(update={"weight": "whisper"})


def _as_one(waiting: list[Cue], said: dict[str, Words], piece: Piece, pattern: Pattern, terms: Terms) -> Iterator[Cue]:
    """Cues at one spot, neighbouring stops of one kind put together under the first one's address.

    `said` gets the words of what was put together.
    """
    for (kind, weight), together in groupby(waiting, key=lambda cue: (cue.kind, cue.weight)):
        cues = list(together)
        if weight != "stop" or kind == "other" or len(cues) == 1:
            yield from cues
            continue
        sentences = [cue.text.rstrip() for cue in cues]
        text = " ".join(part if part.endswith((".", "!", "?")) else f"{part}." for part in sentences)
        one = cues[0].model_copy(update={"text": text})
        words = cue_words(one, terms, pattern.terms, around(piece, pattern, cues[0]))
        titles = [said[cue.address].short for cue in cues]
        said[one.address] = words.model_copy(update={"short": _title(titles)})
        yield one


def _title(titles: list[str]) -> str:
    """The titles of one stop's sentences as one, as far as they fit: "Stuff the body now. Fill the neck well"."""
    whole = ". ".join(dict.fromkeys(titles))
    return whole if len(whole) <= CLAUSE_LETTERS else titles[0]


def _due(piece: Piece, cues: list[Cue]) -> tuple[dict[int, list[Cue]], dict[int, list[tuple[int, Cue]]]]:
    """Cues by the course they follow (-1: before the first), and cues inside courses with the step they stand before.

    A cue whose course is not there goes by its label, and to the end when that is not there either: none is lost.
    """
    by_id = {course.id: index for index, course in enumerate(piece.courses)}
    by_label = {course.label: index for index, course in enumerate(piece.courses)}
    last = len(piece.courses) - 1
    between: dict[int, list[Cue]] = {index: [] for index in range(-1, last + 1)}
    inside: dict[int, list[tuple[int, Cue]]] = {index: [] for index in range(last + 1)}
    for cue in cues:
        if cue.course_id is None:
            index = -1 if cue.after == "0" else by_label.get(cue.after, last)
        else:
            index = by_id.get(cue.course_id, by_label.get(cue.after, last))
        if cue.at is None or index < 0 or not piece.courses[index].read:
            between[index].append(cue)
        else:
            inside[index].append((step_after(piece.courses[index].body, cue.at), cue))
    for waiting in inside.values():
        waiting.sort(key=lambda pair: pair[0])  # stable: cues at one spot stay in the order of the text
    return between, inside


def step_after(body: list[Node], stitches: int) -> int:
    """The number of steps of a body after which `stitches` stitches are first made; all of them where it makes fewer.

    An increase makes one stitch with each of its steps. A stitch with steps that make nothing (V stitch) is
    finished first. Repeats are counted through, never unrolled.
    """
    steps = 0
    for node in body:
        if stitches <= 0:
            break
        made = makes([node])
        if made < stitches:
            stitches -= made
            steps += length([node])
            continue
        if isinstance(node, Group):
            whole, rest = divmod(stitches, node.makes)
            return steps + whole * node.steps + rest
        whole, rest = divmod(stitches, makes(node.body))
        if rest == 0:
            whole, rest = whole - 1, makes(node.body)
        return steps + whole * length(node.body) + step_after(node.body, rest)
    return steps


class _PlainRun(NamedTuple):
    """ "plain round 2 of 4, rounds 9 to 12" """

    place: int
    of: int
    start: str
    stop: str


def _plain_runs(
    courses: list[Course], between: dict[int, list[Cue]], inside: dict[int, list[tuple[int, Cue]]]
) -> dict[int, _PlainRun]:
    """For each course in a run of alike plain ones, two or more: its place in the run, and where the run goes.

    A change of colour ends a run: what is counted on is the stripe.
    """
    changes = {index for index, cues in between.items() if any(cue.kind == "colour" for cue in cues)}
    for index, cues in inside.items():
        for _, cue in cues:
            if cue.kind != "colour":
                continue
            changes.add(index)
            if (cue.at or 0) + 1 < (courses[index].makes or 0):  # not for the last stitch: two colours in one course
                changes.add(index - 1)
    return {
        index: _PlainRun(place, len(run), courses[run[0]].label, courses[run[-1]].label)
        for run in _alike(courses, changes)
        if len(run) > 1
        for place, index in enumerate(run, start=1)
    }


def _alike(courses: list[Course], changes: set[int]) -> Iterator[list[int]]:
    """Runs of neighbouring plain courses that work the same stitches. `changes`: courses behind which a run ends."""
    run: list[int] = []
    for index, course in enumerate(courses):
        same = run and course.plain and _fabric(course) == _fabric(courses[run[-1]])
        if same and index - 1 not in changes:
            run.append(index)
            continue
        yield run
        run = [index] if course.plain else []
    yield run


def _fabric(course: Course) -> tuple[object, ...]:
    """What makes two plain courses alike to the hands: kind, count, stitches and loops, whatever the colour."""
    return (course.kind, course.makes, tuple(_stitches(course.body)))


def _stitches(body: list[Node]) -> Iterator[tuple[str, str | None]]:
    for node in body:
        if isinstance(node, Repeat):
            yield from _stitches(node.body)
        elif node.makes:
            yield node.stitch, node.loops
