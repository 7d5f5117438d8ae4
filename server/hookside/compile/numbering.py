"""Courses and cues of a piece on one line of steps, each job where it is due."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from hookside.compile.plain import plain_runs
from hookside.cues import beforehand, counts, doubts, learning, markers
from hookside.follow import StrandCourse, StrandCue
from hookside.pattern import Cue, CueKind, Group, Node, Pattern, Piece, Terms, Words, length, makes
from hookside.words import CLAUSE_LETTERS, Surroundings, cue_words


def numbered(
    piece: Piece, pattern: Pattern, terms: Terms, off: frozenset[CueKind]
) -> tuple[list[StrandCourse], list[StrandCue], int]:
    """Courses and cues of a piece on one line of steps; the third value is its length. `off`: kinds of cue not wanted.

    Order at one spot: when to count, as stuffing hides what is wrong; what the text says, line by line; what is wrong
    with the next course; the marker; the next stitch. Stops of one kind that stand directly behind one another are one
    job, and one stop with the sentences of all.
    """
    said = {cue.address: cue.words for cue in piece.cues}
    counted, marks = counts(piece), [*markers(piece), *learning(piece)]
    wrong = [*doubts(piece, pattern.findings), *beforehand(piece)]
    said |= {cue.address: cue_words(cue, terms, terms) for cue in [*counted, *wrong, *marks]}
    between, inside = _due(piece, [*_wanted([*counted, *piece.cues], off), *wrong, *_wanted(marks, off)])
    known = Surroundings(piece, pattern)
    for index, waiting in between.items():
        between[index] = list(_as_one(waiting, said, known, terms))
    plain = plain_runs(piece.courses, between, inside)
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


def _wanted(cues: Iterable[Cue], off: frozenset[CueKind]) -> Iterator[Cue]:
    """The cues without what was worked out of the kinds that are off; what the text says of those is only shown."""
    for cue in cues:
        if cue.kind not in off:
            yield cue
        elif cue.basis == "written":
            yield cue.model_copy(update={"weight": "whisper"})


def _as_one(waiting: list[Cue], said: dict[str, Words], known: Surroundings, terms: Terms) -> Iterator[Cue]:
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
        words = cue_words(one, terms, known.pattern.terms, known.of(cues[0]))
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
    0: before the first, when the ring is made that it goes into.

    An increase makes one stitch with each of its steps. A stitch with steps that make nothing (V stitch) is
    finished first. Repeats are counted through, never unrolled.
    """
    steps = 0
    for node in body:
        if stitches <= 0:
            return node.length if isinstance(node, Group) and node.stitch == "ring" else steps
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
