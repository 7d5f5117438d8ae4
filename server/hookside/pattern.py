"""The common tongue of the rooms: what a pattern is once it has been read.

Every room speaks in these shapes and none of them knows a file, a clock or a
network. `Pattern.model_dump(mode="json")` is the public compiled form; its
fields named in `FORMAT` 1 only ever gain neighbours, they never change meaning.

Counting
--------
A *step* is one thing the hands do. One entry of the stitch table completed is
one step for each stitch it makes (`inc` is 2 steps), and one step where it
makes one or none (a decrease, a chain, "join", "turn", "make the ring").
Steps are counted, never stored one by one: a course holds run-length groups.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from typing import Annotated, Any, Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field

FORMAT = 1

Severity = Literal["error", "warning", "note"]
Weight = Literal["stop", "pause", "whisper"]
Basis = Literal["written", "worked out"]
Terms = Literal["US", "UK"]
CueKind = Literal[
    "stuff", "tail", "close", "colour", "eyes", "shape", "weave", "sew", "turn", "fasten",
    "marker", "hold", "join", "pin", "embroider", "count", "other",
]


class Record(BaseModel):
    """Base of every shape here: an unknown field is a mistake, not a surprise."""

    model_config = ConfigDict(extra="forbid")


_R = TypeVar("_R", bound=Record)
_put = object.__setattr__


def unchecked(model: type[_R], **fields: Any) -> _R:
    """A record of values that are right already. What has no default, or a list for one, must be given.

    Reading makes a great many of them, so they are made as unpickling makes them, many times as fast as by checks.
    """
    return _made(model, {**_blank(model), **fields}, set(fields))


def altered(record: _R, **fields: Any) -> _R:
    """A copy of a record with other values, which are right already, in these fields: `model_copy` in half its time."""
    return _made(type(record), {**record.__dict__, **fields}, record.model_fields_set | fields.keys())


def _made(model: type[_R], values: dict[str, Any], told: set[str]) -> _R:
    record = model.__new__(model)
    _put(record, "__dict__", values)
    _put(record, "__pydantic_extra__", None)
    _put(record, "__pydantic_fields_set__", told)
    _put(record, "__pydantic_private__", None)
    return record


@cache
def _blank(model: type[Record]) -> dict[str, Any]:
    """Its fields in their order, which is that of the compiled form, with their defaults."""
    blank = {name: field.get_default() for name, field in model.model_fields.items()}
    return {name: value if isinstance(value, str | int | Words) else None for name, value in blank.items()}


class Words(Record):
    """One thing said three ways, in the maker's terms.

    short   "4 sc"                              for a screen a metre away
    full    "4 single crochet, one in each"     for a beginner
    spoken  "single crochet in the next four"   for a voice; no symbols
    """

    short: str = ""
    full: str = ""
    spoken: str = ""


NO_WORDS = Words()  # shared by all records that have none yet: words are never changed in place


class Group(Record):
    """Neighbouring stitches named in one breath: "2 sc in next st", "4 sc", "make the ring".

    `uses`, `makes` and `steps` are those of ONE of the `count`.
    A chain is 1 step that makes 0; a skip is 0 steps that uses 1.
    """

    type: Literal["group"] = "group"
    stitch: str  # a key of the stitch table, or one of the text's own (see Pattern.abbreviations)
    count: int = Field(default=1, ge=0)
    uses: int = 1
    makes: int = 1
    steps: int = 1
    loops: Literal["back", "front"] | None = None
    into: str | None = None  # where it goes when not simply the next stitch: "ring", "2nd ch from hook", "same st"
    colour: str | None = None
    words: Words = Words()

    @property
    def length(self) -> int:
        """Steps of the whole group."""
        return self.count * self.steps


class Repeat(Record):
    """Groups worked again and again."""

    type: Literal["repeat"] = "repeat"
    body: list[Node]
    times: int = Field(ge=1)


Node = Annotated[Group | Repeat, Field(discriminator="type")]


def length(body: list[Node]) -> int:
    """Steps in a body."""
    return sum(n.length if isinstance(n, Group) else n.times * length(n.body) for n in body)


def uses(body: list[Node]) -> int:
    """Stitches of the course below that a body uses up."""
    return sum(n.count * n.uses if isinstance(n, Group) else n.times * uses(n.body) for n in body)


def makes(body: list[Node]) -> int:
    """Stitches a body makes for the next course to work into."""
    return sum(n.count * n.makes if isinstance(n, Group) else n.times * makes(n.body) for n in body)


def in_order(body: Sequence[Node]) -> Iterator[Group]:
    """The groups of a body in the order they are worked, repeats counted through."""
    for node in body:
        if isinstance(node, Group):
            yield node
        else:
            for _ in range(node.times):
                yield from in_order(node.body)


def groups(body: Sequence[Node]) -> Iterator[Group]:
    """The groups of a body, each looked at once, however often it is repeated."""
    for node in body:
        if isinstance(node, Group):
            yield node
        else:
            yield from groups(node.body)


def colours(body: Sequence[Node]) -> set[str | None]:
    """The yarns of its groups."""
    return {group.colour for group in groups(body)}


class Suggestion(Record):
    """One edit of the original text that a tap can take: text[start:end] becomes `replacement`."""

    label: str  # what the maker sees: "Round 12: (sc in next 6, inc) x 6, makes 48"
    start: int  # offset in characters from the start of the text
    end: int
    replacement: str


class Finding(Record):
    """Something reading noticed. Lines and columns count from 1; `span` is in characters."""

    severity: Severity
    code: str  # a key of the table of mistakes, e.g. "left-over"
    line: int = 1
    column: int = 1
    span: int = 0
    piece: str | None = None
    course: str | None = None
    course_id: str | None = None
    message: str
    expected: int | None = None
    found: int | None = None
    suggestions: list[Suggestion] = []


class Cue(Record):
    """A step that is not a stitch. `after` and `at` say where it is due, `line` where it is printed.

    after      label of the course it follows, "0" before the first
    course_id  that course's id; None before the first
    at         None: between courses. A number: inside course `course_id`, once that many stitches are made
    """

    address: str  # unique in the pattern and unchanged while the text is: "head.22/stuff.1"
    after: str
    course_id: str | None = None
    at: int | None = None
    kind: CueKind
    text: str  # the designer's words, tidied
    basis: Basis = "written"
    weight: Weight
    line: int = 1
    advice: str = ""  # what Hookside adds to the designer's words: a length, or where it was due
    words: Words = Words()


class Course(Record):
    """One round or one row."""

    id: str  # unique in the pattern: "head.12"; a label met twice gets "head.12b"
    label: str  # the number alone; "0" for an unnumbered first course
    kind: Literal["round", "row"]
    uses: int | None  # None when the course could not be read
    makes: int | None  # where it could not be read, the count that is printed for it
    declared: int | None = None  # the count the designer printed
    text: str  # as printed, without its label
    line: int
    body: list[Node] = []
    read: bool = True  # False: an instruction step; the maker types its count
    spiral: bool = False  # a round that runs straight on into the next one, without a join
    plain: bool = False  # the same stitch once in each stitch, all the way
    words: Words = Words()


class Piece(Record):
    """A part worked on its own. A section of sewing up is a piece without courses."""

    name: str
    make: int = Field(default=1, ge=1)
    line: int = 1
    courses: list[Course] = []
    cues: list[Cue] = []


class JoinPart(Record):
    """A piece that another one works in: its number, counted from 1, its copies, the stitches of its last course."""

    number: int
    name: str
    copies: int = Field(ge=1)
    stitches: int | None = None


class Joining(Record):
    """A course that works other pieces in: they must be ready before it.

    piece  the number of the piece whose course it is
    makes  what the joined course comes to, as reading counts it
    yarn   what becomes of the parts' yarn, as a sentence; "" where the piece's own yarn goes on
    say    all of it, for before the first stitch
    """

    piece: int
    course_id: str
    label: str
    kind: Literal["round", "row"]
    parts: list[JoinPart]
    makes: int | None = None
    yarn: str = ""
    say: str = ""


class Pattern(Record):
    """A pattern as read: the compiled form."""

    format: Literal[1] = 1
    title: str = ""
    terms: Terms = "US"
    terms_because: str = ""  # the evidence, as a sentence
    hook: str = ""
    gauge: str = ""
    materials: list[str] = []
    notes: list[str] = []
    abbreviations: dict[str, str] = {}
    pieces: list[Piece] = []
    joinings: list[Joining] = []
    findings: list[Finding] = []

    @property
    def can_be_followed(self) -> bool:
        """No finding is an error and there is something to work."""
        return not any(f.severity == "error" for f in self.findings)
