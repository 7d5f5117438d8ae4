"""The whole way from a text to a Pattern: every stage in order, and the last one, findings."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from itertools import islice, pairwise, product
from typing import Any

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground, Reading, fits
from hookside.notation.arithmetic.stitches import group
from hookside.notation.arithmetic.summing import read_as
from hookside.notation.askings.askings import askings, classify, weight_of
from hookside.notation.bodies.chunks import Phrases
from hookside.notation.bodies.phrases import gather
from hookside.notation.bodies.tokens import Dictionary
from hookside.notation.findings.mending import Mend, mends
from hookside.notation.findings.omitted import left_out
from hookside.notation.findings.table import finding, spell
from hookside.notation.labels import references
from hookside.notation.labels.label import CourseKind, Label, numbers_of
from hookside.notation.lines import segments
from hookside.notation.lines.layout import Layout, RawCourse, RawPiece, RawText, sentences, short_name
from hookside.notation.page.cleaning import Page, clean
from hookside.notation.terms import Decision, decide
from hookside.notation.trees.building import build
from hookside.notation.trees.changing import changed
from hookside.notation.trees.nodes import (
    MOST_REPEATS,
    MOST_STITCHES,
    Choice,
    CueAt,
    Mark,
    Node,
    One,
    Rep,
    Tone,
    Tree,
    Work,
)
from hookside.notation.vocabulary import number_of
from hookside.pattern import Course, Cue, CueKind, Finding, Group, Pattern, Piece, Repeat, Suggestion, Terms, Words
from hookside.pattern import Node as Made
from hookside.stitches import Stitch, named

MOST_BYTES = 256 * 1024
MOST_COURSES = 5000
MOST_SAID = 12  # courses of one shared body that each say they could not be read
MOST_BODY = 16_000  # characters: 2,000 stitches, each written out

_MEANING = {
    "list goes round": "a list worked again and again to the end",
    "back along the chain": "one side of the chain and then back along the other",
    "beside the counted": "a stitch into the turning chain, beside those that are counted",
    "bridge counts": "a chain whose stitches count",
    "what is multiplied": "the whole stretch worked again and again",
    "missing multiplier": "a bracket repeated to the end",
    "times or more times": "that many times in all",
    "more times or times": "that many times in all",
    "spread or in each": "that many in each stitch",
    "in each or spread": "one in each stitch",
    "all told or in each": "that many in each stitch",
    "increases or stitches in one": "that many stitches in one",
    "decreases or stitches together": "that many stitches worked together",
    "places or decreases": "one decrease for each number",
    "what goes around": "only the last stitch going all the way",
    "in each or along": "the other of the two bracket meanings",
    "join or stitch": "a slip stitch that is a stitch of its own",
    "turning chain counts": "a turning chain that counts as a stitch",
    "same or next": "both in the next stitch",
    "kept back or left": "a count of what is left at the end",
    "one stitch or two": "two stitches, a plain one and the other",
    "together or apart": "each in a stitch of its own",
    "slip stitch levels": "a last slip stitch that only levels the edge",
}


@dataclass(slots=True)
class Parsed:
    """A body, read as far as it can be without knowing what is below it."""

    phrases: Phrases
    tree: Tree


@dataclass(slots=True)
class Waiting:
    """One course still to be summed."""

    label: int
    kind: CourseKind
    start: int
    end: int
    at: int  # where the label starts: the finding's line
    raw: RawCourse
    parsed: Parsed | None
    declared: int | None = None
    declared_at: tuple[int, int] | None = None
    first_of: bool = True  # of the courses that share this body
    last_of: bool = True
    borrowed: bool = False  # the body stands at another course
    failed: str = ""
    what: str = ""
    text: str = ""
    until: int | None = None
    foundation: bool = False  # only chains: its steps belong to the next course
    cycle: list[Parsed] = field(default_factory=list)
    skipped: list[tuple[int, int]] = field(default_factory=list)  # words passed over, in the body


@dataclass(slots=True)
class Before:
    """The last course of the piece before: its label, its stitches, the copies of its piece."""

    label: int
    makes: int | None
    make: int


@dataclass(slots=True)
class Stage:
    """What a stage made of one stretch of the text: for looking on."""

    stage: str
    line: int
    text: str
    result: Any


class Reader:
    """One reading of one text."""

    def __init__(self, text: str, terms: Terms | None, watch: bool = False) -> None:
        self.page: Page = clean(text)
        self.findings: list[Finding] = []
        self.own: dict[str, Stitch] = {}
        self.done: dict[str, list[Waiting | RawText]] = {}  # pieces read so far, by slug
        self.cache: dict[str, Parsed] = {}
        self.turning: dict[int, bool] = {}
        self.fell: list[tuple[str, Exception]] = []  # bodies over which reading fell, for the tests to find
        self.ends: list[tuple[str, int]] = []  # name and last count of every copy of every piece so far
        self.sums: dict[Any, Chosen] = {}
        self.passed: list[tuple[int, int]] = []  # sentences taken for story
        self.ids: dict[str, int] = {}
        self.courses = 0
        self.full = False  # has it been said that there are too many?
        self.before: Before | None = None
        self.watch = watch
        self.stages: list[Stage] = []
        self.decision: Decision = (
            decide(self.page.text) if terms is None else Decision(terms, "You chose the terms.", True)
        )
        self.terms: Terms = self.decision.terms
        self.names = Dictionary(self.terms)

    # -- the stages -----------------------------------------------------------------------------------------------
    def read(self) -> Pattern:
        page = self.page
        if not page.text.strip():
            return Pattern(findings=[finding(page, "empty", 0, 0)])
        layout = segments.cut(page, self.terms)
        if self.watch:
            self.see("page", 1, page.text, "unchanged" if page.text == page.original else "cleaned")
            for start, end, role in layout.roles:
                self.see("line", page.line(start), page.text[start:end].strip(), role)
        self.define(layout)
        self.turning = _turning_notes(layout, page.text)
        pieces = [self.piece(raw, index, layout) for index, raw in enumerate(layout.pieces)]
        shown = [p for p in pieces if p is not None]
        if not any(p.courses for p in shown):
            self.findings.append(finding(page, "not-a-pattern", 0, 0))
            shown = []
        elif not self.decision.certain:
            self.findings.append(finding(page, "terms", 0, 0, because=self.decision.because))
        if layout.beyond is not None:
            self.findings.append(finding(page, "too-many-lines", layout.beyond, layout.beyond))
        self.findings.sort(key=lambda f: (f.line, f.column))
        pattern = Pattern.model_construct(
            format=1,
            title=layout.title or (shown[0].name if shown else ""),
            terms=self.terms,
            terms_because=self.decision.because,
            hook=layout.hook,
            gauge=layout.gauge,
            materials=layout.materials,
            notes=[n for n in layout.notes if n],
            abbreviations=layout.abbreviations,
            pieces=shown,
            findings=self.findings,
        )
        if shown:
            self.findings.extend(left_out(page, layout, pattern, self.passed))
            self.findings.sort(key=lambda f: (f.line, f.column))
        return pattern

    def see(self, stage: str, line: int, text: str, result: Any) -> None:
        if self.watch:
            self.stages.append(Stage(stage, line, text, result))

    # -- abbreviations of the text's own --------------------------------------------------------------------------
    def define(self, layout: Layout) -> None:
        """An abbreviation the text defines itself wins; where it only spells out a stitch we know, ours is kept."""
        own_names: dict[str, str] = {}
        for name, what in layout.abbreviations.items():
            if not short_name(name) or re.match(
                r"(?:sts?|stitch|rnds?|rounds?|rows?|rep|beg|lps?|sps?|cont|foll|prev|rem|alt|approx|tog|rs|ws|mc|cc|[bf]lo?|yo|yrh|t-?ch|nxt|ea|sm|pm|fo|col)\b",
                name,
                re.I,
            ):
                continue
            known = named(name, self.terms)
            meant = named(what, self.terms) or named(re.split(r"[,(;]", what)[0], self.terms)
            low = what.lower()
            arithmetic = self._meaning(low)
            if known is not None:
                if (
                    arithmetic is not None
                    and arithmetic != (known.uses, known.makes)
                    and known.key
                    not in (
                        "ch",
                        "sl st",
                        "ring",
                        "join",
                        "turn",
                        "skip",
                        "cluster",
                        "bobble",
                        "popcorn",
                        "puff",
                        "picot",
                    )
                ):
                    self.own[name] = Stitch(
                        name,
                        *arithmetic,
                        max(1, arithmetic[1]),
                        known.height,
                        known.yarn,
                        (name, what),
                        (name, what),
                        known.symbol,
                        known.of,
                        ("the text",),
                    )
                    own_names[name] = name
                elif (
                    meant is not None
                    and meant.key != known.key
                    and meant.key not in ("turn", "join")
                    and known.of != meant.of
                    and (meant.uses, meant.makes) != (known.uses, known.makes)
                ):
                    own_names[name] = meant.key
                continue
            if meant is not None and meant.key not in ("turn", "join"):
                own_names[name] = meant.key
                continue
            if (
                arithmetic or re.search(r"\b(?:stitch|st\b|crochet|bobble|loop stitch|worked)", low)
            ) and not re.fullmatch(
                r"(?:sts?|stitch(?:es)?|rounds?|rows?|repeat|beginning|loops?|spaces?|chain spaces?|.{0,12}side|yarn over.*|yarn.*|stitch ?markers?|hooks?|foll.*|next stitch|.*loop only.*|back loops?|front loops?|marker.*|place .*)",  # noqa: E501
                low,
            ):
                key = arithmetic or (1, 1)
                self.own[name] = Stitch(
                    name,
                    key[0],
                    key[1],
                    max(1, key[1]),
                    1.0,
                    13.0,
                    (name, what),
                    (name, what),
                    "cross",
                    "sc",
                    ("the text",),
                )
                own_names[name] = name
                if arithmetic is None and re.search(
                    rf"(?<![a-z]){re.escape(name.lower())}(?![a-z])", self.page.text.lower()
                ):
                    at = self.page.text.lower().find(name.lower())
                    self.findings.append(finding(self.page, "own-stitch", at, at + len(name), name=name))
        letters = _LETTERS.search(self.page.text)
        if (
            letters
            and len(_LETTERS.findall(self.page.text)) > 1
            and not {n.lower() for n in own_names} & {"x", "v", "a"}
        ):
            own_names.update({"X": "sc", "V": "inc", "A": "dec"})
            self.findings.append(finding(self.page, "letters", letters.start(), letters.end()))
        self.names = Dictionary(self.terms, {n.lower(): k for n, k in own_names.items()})

    def _meaning(self, what: str) -> tuple[int, int] | None:
        """ "2 sc in same st" -> uses 1, makes 2; None where the words do not say."""
        told = _TOLD_ALIKE.search(what)
        if told:
            n = number_of(told["n"])
            return (1, n) if told["into"] else (n, 1)
        match = re.match(
            r"(?:work |make )?(\d|two|three|four|five)\s+([a-z ]+?)s?\s+(?:in|into)\s+(?:the\s+)?(?:1|one|same|next|a|a single|single|each)\b",  # noqa: E501
            what,
        )
        if match and named(match[2].strip(), self.terms):
            return 1, number_of(match[1])
        match = re.match(
            r"(?:work |make |crochet )?(?:the )?(?:next )?(\d|two|three|four)\s*(?:sts?|stitches|[a-z]{2,3})?\s*(?:worked\s+)?tog(?:ether)?\b",  # noqa: E501
            what,
        )
        if match:
            return number_of(match[1]), 1
        match = re.match(
            r"(?:[a-z]+ )*?(?:sc|dc|hdc|tr|htr|single crochet|double crochet)\s*(?:next )?(\d|two|three)\s*(?:sts? |stitches )?tog",  # noqa: E501
            what,
        )
        if match:
            return number_of(match[1]), 1
        return None

    # -- bodies ---------------------------------------------------------------------------------------------------
    def parse(self, body: str) -> Parsed:
        key = body
        done = self.cache.get(key)
        if done is None:
            if len(body) > MOST_BODY:
                done = self.cache[key] = Parsed(Phrases(), Tree(failed="unread"))
                return done
            try:
                phrases = gather(body, self.names)
                tree = build(phrases, self.own) if len(phrases.chunks) <= 4000 else Tree(failed="length")
            except Exception as trouble:  # the last resort: one course is lost, and said, and not the whole text
                self.fell.append((body, trouble))
                phrases, tree = Phrases(unknown=[(0, min(len(body), 80))]), Tree(failed="unread")
            done = self.cache[key] = Parsed(phrases, tree)
        return done

    def piece(self, raw: RawPiece, index: int, layout: Layout) -> Piece | None:
        if not raw.items:
            return None
        courses = any(isinstance(i, RawCourse) for i in raw.items) or any(
            isinstance(i, RawText)
            and self.done
            and (m := references.LIKE_PIECE.match(self.page.text[i.start : i.end]))
            and slug(re.split(r"[.,;(]", m["name"])[0])
            for i in raw.items[:1]
        )
        name = raw.name
        if not name:
            if index == 0 or not layout.named:
                name = layout.title if index == 0 and layout.title else f"Piece {index + 1}"
            else:
                name = f"Piece {index + 1}"
        piece = Piece.model_construct(name=name, make=raw.make, line=self.page.line(raw.at), courses=[], cues=[])
        if not courses:
            writer = _Cues(self, piece)
            for item in raw.items:
                if isinstance(item, RawText):
                    writer.text(item, None)
            return piece if piece.cues else None
        PieceReader(self, piece, raw).run()
        return piece


class _Cues:
    """Writes the cues of one piece, with addresses that stay the same while the text does."""

    def __init__(self, reader: Reader, piece: Piece) -> None:
        self.reader = reader
        self.piece = piece
        self.slug = slug(piece.name)
        self.counts: dict[str, int] = {}

    def add(
        self, kind: CueKind, start: int, end: int, course: Course | None, at: int | None = None, inside: bool = False
    ) -> None:
        label = course.label if course is not None else "0"
        base = course.id if course is not None else f"{self.slug}.0"
        stem = f"{base}/{kind}"
        n = self.counts.get(stem, 0) + 1
        self.counts[stem] = n
        text = self.reader.page.quote(start, end).strip(" -*,;")
        text = text[:1].upper() + text[1:]
        self.piece.cues.append(
            Cue.model_construct(
                address=f"{stem}.{n}",
                after=label,
                course_id=course.id if course is not None else None,
                at=at if inside else None,
                kind=kind,
                text=text,
                basis="written",
                weight=weight_of(kind, text),
                line=self.reader.page.line(start),
                words=Words(),
            )
        )

    def text(self, item: RawText, course: Course | None) -> None:
        text = self.reader.page.text
        for start, stop in sentences(text, item.start, item.end):
            asked = askings(text[start:stop])
            self.reader.see(
                "sentence", self.reader.page.line(start), text[start:stop].strip(), [a[0] for a in asked] or "story"
            )
            if not asked:
                self.reader.passed.append((start, stop))
            for kind, first, last in asked:
                self.add(kind, start + first, start + last, course)


def slug(name: str) -> str:
    """ "Left fin" -> "left-fin"."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "piece"


class PieceReader:
    """Courses of one piece, from the first to the last."""

    def __init__(self, reader: Reader, piece: Piece, raw: RawPiece) -> None:
        self.reader = reader
        self.page = reader.page
        self.piece = piece
        self.raw = raw
        self.cues = _Cues(reader, piece)
        self.by_label: dict[int, Waiting] = {}
        self.waiting: list[Waiting | RawText] = []
        self.kind: CourseKind = "round"
        self.ways: dict[int, tuple[tuple[int, ...], bool]] = {}  # how a body was read where it stood first
        self.counts_ahead: bool | None = None  # what a foundation says of its own chain
        self.ahead: list[Made] = []  # chains on a line of their own, for the next course to begin with
        self.doubt: Waiting | None = None  # the last course whose count is not sure and not confirmed since
        self.turning = dict(reader.turning)  # does a turning chain of that height count? 0: of any height
        self.ring_ahead = False  # "Make a magic ring." on a line of its own: the first course starts with it
        stem = slug(piece.name)
        taken = reader.ids.get("/" + stem, 0) + 1
        reader.ids["/" + stem] = taken
        self.slug = stem if taken == 1 else f"{stem}-{taken}"
        self.cues.slug = self.slug

    def run(self) -> None:
        self.kind = self.guess_kind()
        begins = any(
            isinstance(i, RawCourse) and i.label is not None and i.label.numbers[:1] == [1] for i in self.raw.items
        )
        for item in self.raw.items:
            written_out = begins and isinstance(item, RawText)
            if not written_out and self.copied(item):
                if isinstance(item, RawText):
                    self.waiting.extend(self.besides(item))
            elif isinstance(item, RawText):
                self.waiting.append(item)
            elif item.foundation:
                self.found(item)
            else:
                self.expand(item)
        self.stand_alone()
        self.order()
        self.reader.done.setdefault(slug(self.raw.name or self.piece.name), self.waiting)
        self.sum_up()

    def piece_named(self, words: str) -> list[Waiting | RawText] | None:
        """The courses of an earlier piece that a text points to by name: "as first fin", "same as leg 1"."""
        wanted = slug(
            re.split(
                r"[.,;(=|]|\b(?:but|until|up to|through|from|to round|rounds?|rnds?|rows?|except)\b",
                words.strip(),
                maxsplit=1,
            )[0]
        )
        wanted = re.sub(r"^(?:the|for|for-the|in|in-the|a)-", "", wanted)
        for name, waiting in reversed(self.reader.done.items()):
            if wanted and (
                name == wanted
                or name.rstrip("s") == wanted.rstrip("s")
                or wanted in ("previous", "other", "last-one")
                or set(wanted.split("-")) <= set(name.split("-"))
            ):
                return waiting
        return None

    def copied(self, raw: RawCourse | RawText) -> bool:
        """ "Work as first fin": its courses again, here."""
        text = self.page.text[raw.start : raw.end]
        if self.partners(raw, text):
            return True
        match = references.LIKE_PIECE.match(text)
        if not match:
            return False
        waiting = self.piece_named(match["name"])
        if waiting is None:
            return False
        upto = re.search(
            r"(?:rounds?|rnds?|rows?|r)\.?\s*(?:1\s*(?:-|to|through)\s*)?(\d{1,3})", text[match.start("name") :], re.I
        )
        wanted: list[int] | None = None
        if isinstance(raw, RawCourse) and raw.label is not None and raw.label.numbers:
            wanted = raw.label.numbers
        for todo in waiting:
            if not isinstance(todo, Waiting):
                continue
            if wanted is not None and todo.label not in wanted and not todo.foundation:
                continue
            if wanted is None and upto and todo.label > int(upto[1]):
                continue
            self.reader.courses += 1
            again = replace(todo, raw=raw if isinstance(raw, RawCourse) else todo.raw, at=raw.start, borrowed=True)
            self.waiting.append(again)
            self.by_label[again.label] = again
        return True

    def partners(self, raw: RawCourse | RawText, text: str) -> bool:
        """ "Rnds 4-6: as rnds 1-3 of the base": each has its partner there; a printed count is the last one's."""
        match = references.OF_PIECE.match(text)
        waiting = self.piece_named(match["name"]) if match else None
        if match is None or not waiting:
            return False
        wanted = numbers_of(match["numbers"])
        theirs = {t.label: t for t in waiting if isinstance(t, Waiting)}
        sources = [theirs[w] for w in wanted if w in theirs]
        own = list(raw.label.numbers) if isinstance(raw, RawCourse) and raw.label is not None else []
        if not own:
            own = list(wanted) if not self.last_label() else []
        if not own:
            own = list(range(self.last_label() + 1, self.last_label() + 1 + len(wanted)))
        if len(sources) != len(wanted) or len(own) != len(wanted):
            return False
        printed = references.printed(text[match.end() :], raw.start + match.end())
        for at, (number, source) in enumerate(zip(own, sources, strict=True)):
            final = at == len(own) - 1
            self.reader.courses += 1
            again = replace(
                source,
                label=number,
                raw=raw if isinstance(raw, RawCourse) else source.raw,
                at=raw.start,
                borrowed=True,
                first_of=at == 0,
                last_of=final,
            )
            if final and printed is not None:
                again.declared, again.declared_at = printed[0], (printed[1], printed[2])
            self.waiting.append(again)
            self.by_label[again.label] = again
        return True

    def guess_kind(self) -> CourseKind:
        kinds = [i.kind for i in self.raw.items if isinstance(i, RawCourse) and i.kind]
        if kinds:
            return kinds[0]
        text = " ".join(
            self.page.text[i.start : i.end].lower() for i in self.raw.items[:12] if isinstance(i, RawCourse)
        )
        return "row" if re.search(r"\bturn\b", text) and not re.search(r"magic|\bmr\b|ring|around", text) else "round"

    def found(self, raw: RawCourse) -> None:
        """Chains on a line of their own: kept for the next course, which is worked into them."""
        start, end = _trim(self.page.text, raw.start, raw.end)
        parsed = self.reader.parse(self.page.text[start:end])
        text = self.page.quote(start, end)
        self.waiting.append(
            Waiting(0, raw.kind or self.kind, start, end, raw.start, raw, parsed, text=text, foundation=True)
        )

    def besides(self, item: RawText) -> list[RawText]:
        """What "work as the first fin, but do not stuff" asks besides the courses it names."""
        text = self.page.text
        spans = sentences(text, item.start, item.end)
        return [RawText(a, b) for a, b in spans if any(kind != "other" for kind, _, _ in askings(text[a:b]))]

    def carry(self) -> int | None:
        """Stitches of the piece before, where the numbers go on from it: a brim, sides, a body under its head."""
        first = next((t for t in self.waiting if isinstance(t, Waiting)), None)
        before = self.reader.before
        if first is None or first.foundation or before is None or before.make != self.piece.make:
            return None
        if first.label < 2 or first.label != before.label + 1 or first.raw.label is None:
            return None
        starts_anew = first.parsed is None or any(
            c.type == "MARK" and c.value[0] == "ring" for c in first.parsed.phrases.chunks
        )
        return None if starts_anew else before.makes

    def stand_alone(self) -> None:
        """Chains with no course behind them are all there is to work: a cord. They are a course then."""
        if not any(isinstance(t, Waiting) and not t.foundation for t in self.waiting):
            for todo in self.waiting:
                if isinstance(todo, Waiting):
                    todo.foundation = False
                    self.reader.courses += 1

    # -- labels and references ------------------------------------------------------------------------------------
    def expand(self, raw: RawCourse) -> None:
        reader = self.reader
        text = self.page.text
        label = raw.label
        last = self.last_label()
        start, end = raw.start, raw.end
        numbers: list[int] = []
        if label is not None:
            numbers = list(label.numbers)
            if label.relative:
                numbers = list(range(last + 1, last + 1 + label.relative))
            if label.dash and label.second and len(numbers) >= 2:
                start, numbers = self.dashed(raw, numbers)
        body_start, body_end = _trim(text, start, end)
        body = text[body_start:body_end]
        kind = raw.kind or self.kind
        at = label.start if label is not None else start
        reference = references.REFERENCE.match(body)
        even = references.EVEN.match(body) if reference is None else None
        if reference is not None and self.refer(raw, numbers, reference, body_start, body_end, kind, at):
            return
        if even is not None:
            n = references.small(even["n"] or even["n2"] or even["n3"] or "1")
            if not numbers:
                numbers = list(range(last + 1, last + 1 + n))
            elif len(numbers) == 1 and n > 1:
                after = self.following(raw)
                if (
                    after is None
                    or after.label is None
                    or not after.label.numbers
                    or after.label.numbers[0] != last + 2
                ):
                    numbers = list(range(numbers[0], numbers[0] + n))
            self.put(
                numbers,
                kind,
                body_start,
                body_end,
                at,
                raw,
                reader.parse("sc in each st around" if reader.terms == "US" else "dc in each st around"),
                borrowed=True,
                printed=references.printed(even["rest"], body_start + even.start("rest")),
            )
            self.rest_cues(even["rest"], body_start + even.start("rest"))
            return
        parsed = reader.parse(body)
        reader.see("label", self.page.line(at), text[at:start].strip(), numbers)
        reader.see("tokens", self.page.line(body_start), body, [repr(c) for c in parsed.phrases.chunks])
        reader.see("tree", self.page.line(body_start), body, parsed.tree.failed or [repr(i) for i in parsed.tree.items])
        if not numbers:
            if raw.label is None and not _works(parsed) and not parsed.phrases.unknown:
                if any(c.type == "MARK" and c.value[0] == "ring" for c in parsed.phrases.chunks):
                    self.ring_ahead = True
                    for clause in parsed.phrases.cues:
                        self.waiting.append(RawText(body_start + clause.start, body_start + clause.end))
                else:
                    self.waiting.append(RawText(body_start, body_end))
                return
            begun = any(isinstance(t, Waiting) and not t.foundation for t in self.waiting)
            numbers = [last + 1 if last or begun else 0]
            if raw.label is None and parsed.phrases.rounds and parsed.phrases.rounds > 1 and last:
                numbers = list(range(last + 1, last + 1 + min(parsed.phrases.rounds, 500)))
        elif len(numbers) > 1 or (label is not None and label.aside):
            self.check_rounds(label, parsed, numbers, at, start)
        elif parsed.phrases.rounds and parsed.phrases.rounds > 1 and len(numbers) == 1 and label is not None:
            numbers = list(range(numbers[0], numbers[0] + min(parsed.phrases.rounds, 500)))
        told = _rounds_told(parsed)
        if told > 1 and len(numbers) == 1:
            numbers = list(range(numbers[0], numbers[0] + min(told, 500)))
            parsed = Parsed(parsed.phrases, _once_round(parsed.tree))
        self.put(numbers, kind, body_start, body_end, at, raw, parsed)

    def last_label(self) -> int:
        for todo in reversed(self.waiting):
            if isinstance(todo, Waiting) and not todo.foundation:
                return todo.label
        return 0

    def dashed(self, raw: RawCourse, numbers: list[int]) -> tuple[int, list[int]]:
        """ "Rnd 1 - 6 sc in MR" or "Rnd 1-6 sc around": which? By what follows: the next label, the number's space."""
        assert raw.label is not None and raw.label.second is not None  # noqa: PT018
        second, past = raw.label.second
        first = numbers[0]
        following = self.following(raw)
        single = False
        if following is not None and following.label is not None and following.label.numbers:
            single = following.label.numbers[0] <= numbers[-1] and following.label.numbers[0] > first
        between = self.page.text[raw.label.number_spans[0][0] : second]
        rest = self.page.text[past : raw.end].strip()
        if numbers[-1] <= first or (re.search(r"\s-\s", between) and following is None):
            single = True
        if "," in between and not re.search(r"^\s*[:.\-]", rest):
            single = True
        if (
            not single
            and re.search(r"\s-\s", between)
            and numbers[-1] - first > 1
            and not re.match(r"(?:sc|dc|hdc|htr|tr|work|in|with|around)\b", rest)
        ):
            single = True
        if single:
            return second, [first]
        return raw.start, numbers

    def following(self, raw: RawCourse) -> RawCourse | None:
        found = False
        for item in self.raw.items:
            if item is raw:
                found = True
            elif found and isinstance(item, RawCourse):
                return item
        return None

    def check_rounds(self, label: Label | None, parsed: Parsed, numbers: list[int], at: int, start: int) -> None:
        said = parsed.phrases.rounds
        if label is not None and label.aside:
            match = re.match(r"\s*(\d{1,3})\s*(?:rounds?|rnds?|rows?)\s*$", label.aside, re.I)
            if match:
                said = int(match[1])
                if len(numbers) == 1 and said > 1:
                    numbers.extend(range(numbers[0] + 1, numbers[0] + min(said, 500)))
                    return
        if said is not None and said != len(numbers) and said > 0 and len(numbers) > 1:
            self.reader.findings.append(
                finding(
                    self.page,
                    "range-count",
                    at,
                    start,
                    piece=self.piece.name,
                    course=str(numbers[0]),
                    expected=len(numbers),
                    found=said,
                    Course=self.name(numbers[0], self.kind).capitalize(),
                )
            )

    def put(
        self,
        numbers: list[int],
        kind: CourseKind,
        start: int,
        end: int,
        at: int,
        raw: RawCourse,
        parsed: Parsed | None,
        *,
        borrowed: bool = False,
        printed: tuple[int, int, int] | None = None,
        failed: str = "",
        what: str = "",
        cycle: list[Parsed] | None = None,
        until: int | None = None,
    ) -> None:
        reader = self.reader
        declared = declared_at = None
        if printed is not None:
            declared, declared_at = printed[0], (printed[1], printed[2])
        elif parsed is not None and not borrowed and parsed.phrases.counts:
            n, first, last = parsed.phrases.counts[-1] if len(parsed.phrases.counts) == 1 else parsed.phrases.counts[0]
            declared, declared_at = n, (start + first, start + last)
        elif raw.label is not None and raw.label.aside:
            match = re.match(r"\s*(\d{1,4})\s*(?:sts?|stitches|sc|dc)?\s*$", raw.label.aside)
            if match:
                declared, declared_at = (
                    int(match[1]),
                    (raw.label.aside_at + match.start(1), raw.label.aside_at + match.end(1)),
                )
        text = self.page.quote(start, end)
        each: list[int] = []  # "(24, 30, 36)": a count for every course of a range
        if declared_at is not None and len(numbers) > 1:
            listed = _LIST.match(self.page.text, declared_at[0], end)
            each = [int(n) for n in re.split(r"\D+", listed[0])] if listed else []
        for index, number in enumerate(numbers):
            if reader.courses >= MOST_COURSES:
                if not reader.full:
                    reader.full = True
                    reader.findings.append(finding(self.page, "too-many-courses", at, start))
                return
            reader.courses += 1
            use = cycle[index % len(cycle)] if cycle else parsed
            final = index == len(numbers) - 1
            shown_count = declared if (not cycle or final or len(cycle) == 1) else None
            if len(each) == len(numbers):
                shown_count = each[index]
            todo = Waiting(
                number,
                kind,
                start,
                end,
                at,
                raw,
                use,
                shown_count,
                declared_at,
                index == 0,
                final,
                borrowed,
                failed,
                what,
                text,
                until,
            )
            self.waiting.append(todo)
            self.by_label[number] = todo

    def refer(
        self, raw: RawCourse, numbers: list[int], match: re.Match[str], start: int, end: int, kind: CourseKind, at: int
    ) -> bool:
        """ "repeat rounds 5 and 6 three more times": the bodies those courses have, again."""
        reader = self.reader
        last = self.last_label()
        rest = match["rest"] or ""
        if match["numbers"]:
            wanted = numbers_of(match["numbers"])
        elif match["ordinal"]:
            wanted = [int(match["ordinal"])]
        else:
            n = references.small(match["lastn"] or "1")
            wanted = list(range(max(1, last - n + 1), last + 1))
        if wanted and last and len(wanted) > 1 and not match["numbers"]:
            wanted = [w for w in wanted if w in self.by_label]
        sources = [
            self.by_label[w].parsed for w in wanted if w in self.by_label and self.by_label[w].parsed is not None
        ]
        noun = "rows" if kind == "row" else "rounds"
        printed = references.printed(rest, start + match.start("rest"))
        if not sources or len(sources) < len(wanted):
            if not numbers:
                numbers = [last + 1]
            self.put(
                numbers,
                kind,
                start,
                end,
                at,
                raw,
                None,
                printed=printed,
                failed="reference",
                what=f"{noun} {', '.join(str(w) for w in wanted)}",
            )
            return True
        cycle = [s for s in sources if s is not None]
        until = references.UNTIL.search(rest)
        change = references.change_of(rest, reader.terms)
        if change is None and references.changes(rest):
            # a reference that changes what it repeats is left to the maker: the words are shown as they stand
            if not numbers:
                numbers = [last + 1]
            self.put(numbers, kind, start, end, at, raw, None, printed=printed, failed="unread", what=match[0].strip())
            return True
        if not numbers:
            times = 1
            again = re.match(
                r"\W*(?:for |a |another |total of )*(?P<n>\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|twelve|once|twice)\b\s*(?:more\s+)?(?:times?|x)?",  # noqa: E501
                rest,
                re.I,
            )
            if again:
                times = references.small(again["n"])
            row = re.search(r"\b(?:until|to|through|till)\s+(?:row|round|rnd|r)\s*(\d{1,4})", rest, re.I)
            rows = references.UNTIL_ROWS.search(rest)
            if row or rows:
                total = max(0, int(row[1] if row else rows["n"] if rows else 0) - last)
            elif until:
                total = 500
            else:
                total = times * len(cycle)
            numbers = list(range(last + 1, last + 1 + min(total, 1000)))
        if change is not None:
            turns = -(-len(numbers) // len(cycle))
            told = [self.changed(c, change, turn) for turn in range(1, turns + 1) for c in cycle]
            if not any(t is not None for t in told):
                self.put(
                    numbers, kind, start, end, at, raw, None, printed=printed, failed="unread", what=match[0].strip()
                )
                return True
            cycle = [t or c for t, c in zip(told, cycle * turns, strict=True)]
        self.put(
            numbers,
            kind,
            start,
            end,
            at,
            raw,
            cycle[0],
            borrowed=True,
            printed=printed if not until else None,
            cycle=cycle,
            until=int(until["n"]) if until and raw.label is None else None,
        )
        self.rest_cues(rest, start + match.start("rest"))
        return True

    def changed(self, parsed: Parsed, change: references.Change, again: int) -> Parsed | None:
        tree = changed(parsed.tree, change, again)
        return None if tree is None else Parsed(parsed.phrases, tree)

    def rest_cues(self, rest: str, at: int) -> None:
        for match in re.finditer(r"[.;]\s*([A-Za-z][^.;]*)", rest):
            if classify(match[1]) is not None:
                self.waiting.append(RawText(at + match.start(1), at + match.end(1)))

    def order(self) -> None:
        """ "Rnds 3 and 5: ..." then "Rnd 4: ...": into the order in which they are worked, when that is what the numbers say."""  # noqa: E501
        courses = [t for t in self.waiting if isinstance(t, Waiting)]
        if any(t.foundation for t in courses):
            return
        listed = [t for t in courses if t.raw.label is not None and len(t.raw.label.numbers) > 1]
        labels_listed = {id(t.raw): t.raw.label.numbers for t in listed if t.raw.label}
        if not any(b - a > 1 for numbers in labels_listed.values() for a, b in pairwise(numbers)):
            return
        labels_seen = [t.label for t in courses]
        if len(set(labels_seen)) != len(labels_seen):
            return
        after: dict[int, list[RawText]] = {}
        lead: list[RawText] = []
        current: Waiting | None = None
        for item in self.waiting:
            if isinstance(item, Waiting):
                current = item
            elif current is None:
                lead.append(item)
            else:
                after.setdefault(current.label, []).append(item)
        out: list[Waiting | RawText] = [*lead]
        for todo in sorted(courses, key=lambda t: t.label):
            out.append(todo)
            out.extend(after.get(todo.label, []))
        self.waiting = out

    # -- sums -----------------------------------------------------------------------------------------------------
    def name(self, label: int, kind: CourseKind) -> str:
        return f"{kind} {label}" if label else f"the first {kind}"

    def sum_up(self) -> None:
        there: int | None = self.carry()
        maybe: int | None = None  # what the course below prints, where that is something else
        chain = 0
        below: Waiting | None = None
        doubt: Waiting | None = None  # the last course whose count is not sure and not confirmed since
        course: Course | None = None
        seen: dict[int, int] = {}
        until_met: set[int] = set()
        first = there is None
        spaced = False
        queue = self.waiting
        for index, item in enumerate(queue):
            if isinstance(item, RawText):
                self.cues.text(item, course)
                continue
            todo = item
            if todo.foundation:
                made = self.founded(todo, course)
                if todo.parsed is not None and todo.parsed.phrases.counts_as is not None:
                    self.counts_ahead = todo.parsed.phrases.counts_as
                if made is not None:
                    self.ahead.extend(made.body)
                    if there is None:
                        chain, first = (0 if made.joined else made.chain), True
                continue
            if (
                (todo.raw.label is None or todo.raw.label.relative)
                and below is not None
                and todo.label > below.label + 1
            ):
                todo.label = (
                    below.label + 1
                )  # the courses before it were as many as it took, not as many as there might be
            if todo.until is not None:
                if id(todo.raw) in until_met or there == todo.until:
                    until_met.add(id(todo.raw))
                    continue
                if there is None or (
                    below is not None
                    and below.raw is todo.raw
                    and there < todo.until
                    and course is not None
                    and (course.uses or 0) > there
                ):
                    continue
            self.check_label(todo, below, seen)
            ground = Ground(
                there,
                chain,
                first or (there is None and chain > 0 and (below is None or below.label == 0)),
                todo.declared,
                spaces=spaced,
            )
            if todo.parsed is not None and todo.parsed.phrases.elsewhere:
                ground.lend = self.lent(self.page.text[todo.start : todo.end])
            try:
                taken, ground = self.take(todo, ground, maybe, queue, index)
                if taken is not None and taken.reading.spaces and todo.parsed is not None:
                    taken, ground = self.spaces(todo, taken, ground, queue, index)
            except Exception as trouble:  # as in Reader.parse: the course is unread, and said
                self.reader.fell.append((todo.text, trouble))
                todo.failed, taken = "unread", None
            spaced = ground.mode in ("spaces", "both")
            before = course
            said = len(self.reader.findings)
            course = self.course(todo, taken, ground, below, seen)
            self.doubt = doubt = self.doubts(todo, taken, ground, course, doubt, said, queue, index)
            self.piece.courses.append(course)
            self.course_cues(todo, taken, course, before)
            chain = 0
            maybe = None
            if taken is not None and course.read:
                reading = taken.reading
                only_chain = reading.makes == 0 and reading.chain > 0
                there = None if (reading.makes == 0 and reading.uses == 0) else reading.makes
                chain = reading.chain if only_chain else 0
                if reading.makes == 0 and reading.uses > 0:
                    there = None
                if todo.declared is not None and todo.declared != reading.makes:
                    maybe = todo.declared
            else:
                there = todo.declared
            first = first and todo.label == 0 and there is None
            below = todo
        if there is not None and below is not None:
            self.reader.ends.extend([(self.slug, there)] * self.piece.make)
        if below is not None:
            self.reader.before = Before(below.label, there, self.piece.make)

    def lent(self, body: str) -> tuple[int, ...]:
        """Stitches of the pieces a course works into: those it names, else the last two."""
        words = set(re.findall(r"leg|arm|foot|fin|wing|flipper|ear|tube|half|piece", body.lower()))
        named_so = [n for slug_, n in self.reader.ends if any(w in slug_ for w in words)]
        return tuple(named_so or [n for _, n in self.reader.ends[-2:]])

    def founded(self, todo: Waiting, before: Course | None) -> Reading | None:
        """The chains a course is worked into; where they cannot be read, their words are asked as they stand."""
        taken, _ = self.take(todo, Ground(None, 0, True, None), None, [], 0)
        if taken is None or taken.reading.unknown:
            self.cues.add("other", todo.start, todo.end, before)
            return None
        for clause in todo.parsed.phrases.cues if todo.parsed is not None else []:
            self.cues.add(clause.kind, todo.start + clause.start, todo.start + clause.end, before)
        return taken.reading

    def doubts(
        self,
        todo: Waiting,
        taken: Chosen | None,
        ground: Ground,
        course: Course,
        doubt: Waiting | None,
        said: int,
        queue: list[Waiting | RawText],
        index: int,
    ) -> Waiting | None:
        """Says what is a guess and what rests on one; returns the course that is in doubt from here on."""
        if taken is None or not course.read or todo.parsed is None:
            return None
        reading = taken.reading
        confirmed = todo.declared is not None and todo.declared == course.makes
        spoken = self.reader.findings[said:]
        where: dict[str, Any] = {
            "piece": self.piece.name,
            "course": course.label,
            "course_id": course.id,
            "found": course.makes,
            "Course": self.title(todo),
        }
        add = self.reader.findings.append
        guess = False
        if taken.fits and todo.declared is None and not taken.why and not todo.borrowed and todo.first_of:
            other = self.as_likely(todo, taken, ground)
            if other is not None and not self.needed(course.makes, queue, index):
                add(finding(self.page, "as-likely", todo.start, todo.end, **where, other=other))
                guess = True
        if todo.skipped:
            first, last = todo.start + todo.skipped[0][0], todo.start + todo.skipped[-1][1]
            words = self.page.text[first:last] if last - first < 60 else self.page.text[first : first + 60] + "..."
            add(finding(self.page, "skipped", first, last, **where, words=" ".join(words.split())))
            guess = not confirmed
        if todo.parsed.phrases.unclosed and not confirmed:
            add(finding(self.page, "unclosed", todo.start, todo.end, **where))
            guess = True
        if todo.parsed.phrases.measured and not todo.borrowed:
            first, last = (todo.start + n for n in todo.parsed.phrases.measured)
            add(finding(self.page, "measured", first, last, **where, words=self.page.text[first:last]))
        if reading.branches and not confirmed:
            add(finding(self.page, "branch", todo.start, todo.end, **where))
            guess = True
        if not confirmed and _lone(todo.parsed) and not self.needed(course.makes, queue, index):
            add(finding(self.page, "lone", todo.start, todo.end, **where))
            guess = True
        if todo.declared is None and not todo.borrowed and todo.last_of and not spoken:
            apart = _LAST_COUNT.search(self.page.text, todo.start, todo.end)
            if apart and int(apart[1]) not in (course.makes, *_numbers(todo.parsed)):
                add(finding(self.page, "count-apart", *apart.span(1), declared=apart[1], **where))
                guess = True
        if confirmed:
            return None
        if any(f.severity != "note" for f in spoken) or guess:
            return todo
        if doubt is None or not reading.filled:
            return None
        below = self.name(doubt.label, doubt.kind)
        add(finding(self.page, "rests-on", todo.start, todo.end, below=below, **where))
        return doubt

    def as_likely(self, todo: Waiting, taken: Chosen, ground: Ground) -> int | None:
        """What a course makes by its other meaning, where "2 sc in next 2 sts" comes out both ways; else None."""
        assert todo.parsed is not None
        tree = todo.parsed.tree
        for at, choice in enumerate(tree.choices[:8]):
            if choice.why not in ("spread or in each", "in each or spread"):
                continue
            picks = tuple(1 - p if i == at else p for i, p in enumerate(taken.reading.picks))
            other = read_as(tree, picks, ground, self.reader.own, taken.counted)
            if fits(other, ground) and other.makes != taken.reading.makes:
                return other.makes
        return None

    def needed(self, makes: int | None, queue: list[Waiting | RawText], index: int) -> bool:
        """Does the next course, by its own numbers, need so many stitches?"""
        after = next((t for t in islice(queue, index + 1, index + 20) if isinstance(t, Waiting)), None)
        if (
            makes is None
            or after is None
            or after.parsed is None
            or after.parsed.tree.failed
            or after.parsed.phrases.unknown
        ):
            return False
        need = choose(after.parsed.tree, Ground(makes, 0, False, after.declared), self.reader.own)
        return need.fits and (not need.reading.filled or after.declared is not None)

    def check_label(self, todo: Waiting, below: Waiting | None, seen: dict[int, int]) -> None:
        if not todo.first_of or todo.raw.label is None or todo.raw.label.relative:
            return
        label = todo.label
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(label)}
        name = self.name(label, todo.kind)
        if label in seen:
            suggestions = []
            if (
                todo.raw.label.number_spans
                and len(todo.raw.label.numbers) == 1
                and below is not None
                and below.label == label
            ):
                start, end = todo.raw.label.number_spans[0]
                first, last = self.page.span(start, end)
                suggestions = [
                    Suggestion(
                        label=f"{todo.kind.capitalize()} {label + 1}", start=first, end=last, replacement=str(label + 1)
                    )
                ]
            self.reader.findings.append(
                finding(
                    self.page,
                    "label-again",
                    todo.at,
                    todo.start,
                    suggestions=suggestions,
                    found=label,
                    Course=name.capitalize(),
                    **where,
                )
            )
        elif below is not None and below.label and label < below.label:
            self.reader.findings.append(
                finding(
                    self.page,
                    "label-order",
                    todo.at,
                    todo.start,
                    found=label,
                    expected=below.label + 1,
                    Course=name.capitalize(),
                    before=self.name(below.label, below.kind),
                    **where,
                )
            )
        elif below is not None and below.label and label > below.label + 1:
            gap = label - below.label - 1
            missing = (
                f"{todo.kind} {below.label + 1} is"
                if gap == 1
                else f"{todo.kind}s {below.label + 1} to {label - 1} are"
            )
            self.reader.findings.append(
                finding(
                    self.page,
                    "label-gap",
                    todo.at,
                    todo.start,
                    expected=below.label + 1,
                    found=label,
                    before=self.name(below.label, below.kind),
                    this=name,
                    missing=missing,
                    **{**where, "course": str(label)},
                )
            )

    def take(
        self, todo: Waiting, ground: Ground, maybe: int | None, queue: list[Waiting | RawText], index: int
    ) -> tuple[Chosen | None, Ground]:
        """The reading of one course, by all that is known around it."""
        parsed = todo.parsed
        if parsed is None:
            return None, ground
        phrases = parsed.phrases
        height = _lead_chain(parsed.tree.items)
        if phrases.counts_as is not None:
            ground.counts_as = self.turning[height] = phrases.counts_as
        elif height in self.turning or (height and 0 in self.turning):
            counts = self.turning.get(height, self.turning.get(0))
            told = choose(parsed.tree, replace(ground, counts_as=counts), self.reader.own)
            ground.counts_as = counts if told.fits else None
        ground.free = phrases.unworked or phrases.elsewhere
        ground.layers = phrases.layers
        problem = (
            parsed.tree.failed or ("unread" if phrases.unknown or not _works(parsed) else "") or self.too_much(parsed)
        )
        if problem == "unread" and phrases.unknown and _works(parsed):
            left = _may_be_left(phrases, self.page.text[todo.start : todo.end])
            known = self.skipping(parsed, ground) if left else None
            if known is not None:
                todo.skipped = phrases.unknown
                return known, ground
        if problem:
            todo.failed = problem
            return None, ground
        if self.counts_ahead is not None and ground.counts_as is None:
            ground.counts_as = self.counts_ahead
        self.counts_ahead = None
        key = (
            id(parsed),
            ground.there,
            ground.chain,
            ground.first,
            ground.declared,
            ground.free,
            ground.counts_as,
            ground.layers,
            ground.lend,
            ground.spaces,
            maybe,
        )
        known = self.reader.sums.get(key)
        if known is None:
            known = self.settle(parsed, ground, maybe)
            self.reader.sums[key] = known
        chosen = known
        if chosen.reading.empty:
            todo.failed = "unread"  # a stretch that came to nothing was meant for something
            return None, ground
        if ground.declared is None:
            way = self.ways.get(id(parsed))
            if way is not None:  # read once, the same words are read the same way again
                same = read_as(parsed.tree, way[0], ground, self.reader.own, way[1])
                if fits(same, ground):
                    return Chosen(same, True, counted=way[1]), ground
        if chosen.fits:
            self.ways.setdefault(id(parsed), (chosen.reading.picks, chosen.counted))
        if not chosen.fits and not todo.last_of and ground.declared is not None:
            # the count of a range that shapes is the count after its last course
            quiet = self.settle(parsed, replace(ground, declared=None), maybe)
            if quiet.fits and quiet.reading.makes != quiet.reading.uses:
                todo.declared = None
                return quiet, replace(ground, declared=None)
        if not chosen.fits and maybe is not None and ground.there is not None and chosen.reading.uses == maybe:
            ground = replace(ground, there=maybe)
        if (
            chosen.fits
            and ground.declared is None
            and chosen.others == []
            and parsed.tree.choices
            and ground.there is not None
        ):
            chosen = self.look_ahead(parsed, chosen, ground, queue, index)
        return chosen, ground

    def skipping(self, parsed: Parsed, ground: Ground) -> Chosen | None:
        """A course with words that nobody knows, where all its numbers come out without them; said at the course."""
        chosen = self.settle(parsed, replace(ground), None)
        reading = chosen.reading
        if not chosen.fits or reading.unknown or ground.free:
            return None
        if ground.declared is not None:
            return chosen if ground.there is not None or reading.uses == 0 else None
        return chosen if ground.there is not None and not reading.filled else None

    def spaces(
        self, todo: Waiting, taken: Chosen, ground: Ground, queue: list[Waiting | RawText], index: int
    ) -> tuple[Chosen, Ground]:
        """Chain spaces count as what the next course needs: not at all, alone, or beside the stitches."""
        assert todo.parsed is not None
        reading = taken.reading
        if todo.parsed.phrases.counted_chains:
            return self.with_spaces(todo, taken, ground, "chains")
        after = next((t for t in islice(queue, index + 1, index + 20) if isinstance(t, Waiting)), None)
        there = {
            "": reading.stitches,
            "spaces": reading.spaces,
            "both": reading.stitches + reading.spaces,
            "chains": reading.stitches + reading.chains,
        }
        as_printed = next((m for m, n in there.items() if n == ground.declared), "")
        if after is None or after.parsed is None or after.parsed.tree.failed or after.parsed.phrases.unknown:
            return self.with_spaces(todo, taken, ground, as_printed)
        into = after.parsed.phrases.into_spaces
        order = ["", "chains", "both", "spaces"] if not into else [into, *(m for m in there if m != into)]
        if into == "both" and not any(
            isinstance(n, Work | One) and n.fill and n.base == "next" for n in _walk(after.parsed.tree.items)
        ):
            order = ["", "both", "spaces", "chains"]  # corners: first as stitches with the spaces between them
        for mode in order:
            below = Ground(
                there[mode], 0, False, after.declared, after.parsed.phrases.unworked, spaces=mode in ("spaces", "both")
            )
            below.counts_as = after.parsed.phrases.counts_as
            if choose(after.parsed.tree, below, self.reader.own).fits:
                return self.with_spaces(todo, taken, ground, mode)
        return self.with_spaces(todo, taken, ground, as_printed or order[0])

    def with_spaces(self, todo: Waiting, taken: Chosen, ground: Ground, mode: str) -> tuple[Chosen, Ground]:
        assert todo.parsed is not None
        if not mode:
            return taken, ground
        ground = replace(ground, mode=mode)
        again = read_as(todo.parsed.tree, taken.reading.picks, ground, self.reader.own, taken.counted)
        return replace(taken, reading=again, fits=fits(again, ground)), ground

    def settle(self, parsed: Parsed, ground: Ground, maybe: int | None) -> Chosen:
        own = self.reader.own
        chosen = choose(parsed.tree, ground, own)
        if chosen.fits:
            return chosen
        if maybe is not None:
            other_ground = replace(ground, there=maybe)
            other = choose(parsed.tree, other_ground, own)
            if other.fits:
                return other
        trailing = self.trailing_count(parsed, ground)
        if trailing is not None:
            return trailing
        level = self.levelled(parsed, ground)
        if level is not None:
            return level
        rounds = self.goes_round(parsed, ground)
        if rounds is not None:
            return rounds
        if ground.declared is not None and chosen.reading.filled and not chosen.reading.unknown:
            quiet = choose(parsed.tree, replace(ground, declared=None), own)
            if quiet.fits and any(isinstance(n, Group) and n.count == ground.declared for n in quiet.reading.body[-1:]):
                ground.declared = None  # "sc to end (11)": the bracket counts that stretch only
                return quiet
        return chosen

    def trailing_count(self, parsed: Parsed, ground: Ground) -> Chosen | None:
        """ "(2 sc, inc) x 6, 24 sc": the last "24 sc" may be the printed count and no work."""
        items = parsed.tree.items
        if ground.declared is not None or len(items) < 2 or parsed.tree.choices:
            return None
        last = items[-1]
        if (
            not isinstance(last, Work)
            or last.n < 3
            or last.per != 1
            or last.base != "next"
            or last.fill
            or last.number is None
            or last.times
        ):
            return None
        short = Tree(items[:-1], parsed.tree.choices)
        counted = replace(ground, declared=last.n)
        chosen = choose(short, counted, self.reader.own)
        if chosen.fits and ground.there is not None:
            ground.declared = last.n
            return chosen
        return None

    def goes_round(self, parsed: Parsed, ground: Ground) -> Chosen | None:
        """ "2 sc, inc. 24 sts" on 18: the list again and again, where only so the printed count comes out."""
        items = parsed.tree.items
        lead = 0
        while lead < len(items) and isinstance(items[lead], Mark | Tone | CueAt):
            lead += 1
        tail = len(items)
        while tail > lead and isinstance(items[tail - 1], Mark | CueAt):
            tail -= 1
        body = items[lead:tail]
        if ground.declared is None or ground.there is None or len(body) < 2:
            return None
        if not all(isinstance(n, Work) and not n.fill and n.key != "ch" and n.base == "next" for n in body):
            return None
        tree = Tree([*items[:lead], Rep(body, fill=True), *items[tail:]], parsed.tree.choices)
        chosen = choose(tree, ground, self.reader.own)
        if not chosen.fits:
            return None
        chosen.why.append("list goes round")
        return chosen

    def levelled(self, parsed: Parsed, ground: Ground) -> Chosen | None:
        """A last "sl st in next st" that only levels the edge: 0 used, 0 made."""
        items = parsed.tree.items
        at = len(items) - 1
        while at >= 0 and not isinstance(items[at], Work):
            at -= 1
        if at <= 0:
            return None
        last = items[at]
        assert isinstance(last, Work)
        if last.key != "sl st" or last.n > 2 or last.fill:
            return None
        saved = last.base, last.key, last.n
        items[at] = Mark("join")
        chosen = choose(parsed.tree, ground, self.reader.own)
        items[at] = last
        if chosen.fits and saved:
            chosen.why.append("slip stitch levels")
            return chosen
        return None

    def look_ahead(
        self, parsed: Parsed, chosen: Chosen, ground: Ground, queue: list[Waiting | RawText], index: int
    ) -> Chosen:
        """Nothing printed and two meanings that fit: the next course may need one of them."""
        nxt = next((t for t in islice(queue, index + 1, index + 20) if isinstance(t, Waiting)), None)
        if nxt is None or nxt.parsed is None or nxt.parsed.tree.failed or nxt.parsed.phrases.unknown:
            return chosen
        need = choose(nxt.parsed.tree, Ground(chosen.reading.makes, 0, False, nxt.declared), self.reader.own)
        if need.fits:
            return chosen
        sizes = [range(len(c.options)) for c in parsed.tree.choices]
        for picks in islice(product(*sizes), 64):
            other = read_as(parsed.tree, picks, ground, self.reader.own)
            if other.makes != chosen.reading.makes and fits(other, ground):
                then = choose(nxt.parsed.tree, Ground(other.makes, 0, False, nxt.declared), self.reader.own)
                if then.fits:
                    return Chosen(other, True, [parsed.tree.choices[i].why for i, p in enumerate(picks) if p])
        return chosen

    def too_much(self, parsed: Parsed) -> str:
        for node in _walk(parsed.tree.items):
            if isinstance(node, Rep) and node.times > MOST_REPEATS:
                return "too-many-repeats"
            if (isinstance(node, Rep) and node.times < 1) or (isinstance(node, Work | One) and node.n < 1):
                return "no-times"
            if isinstance(node, Work) and (node.n * node.per > MOST_STITCHES):
                return "too-many-stitches"
        return ""

    # -- the course and its findings ------------------------------------------------------------------------------
    def course(
        self, todo: Waiting, taken: Chosen | None, ground: Ground, below: Waiting | None, seen: dict[int, int]
    ) -> Course:
        n = seen.get(todo.label, 0)
        seen[todo.label] = n + 1
        if self.ring_ahead and taken is not None and not seen.get(-1):
            seen[-1] = 1
            if (
                not any(isinstance(g, Group) and g.stitch == "ring" for g in taken.reading.body)
                and taken.reading.uses == 0
            ):
                taken.reading.body.insert(0, group("ring", 1, 0, 0, 1, None, None, None))
        ahead, self.ahead = self.ahead, []
        suffix = "" if n == 0 else chr(ord("a") + n) if n < 26 else f"x{n}"
        ident = f"{self.slug}.{todo.label}{suffix}"
        reading = taken.reading if taken is not None else None
        read = reading is not None and not reading.unknown
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(todo.label), "course_id": ident}
        for f in reversed(self.reader.findings[-2:]):
            if f.course == str(todo.label) and f.course_id is None and f.piece == self.piece.name:
                f.course_id = ident
        if reading is not None and reading.unknown and taken is not None:
            if todo.first_of:
                self.reader.findings.append(
                    finding(self.page, "unknown-length", todo.start, todo.end, Course=self.title(todo), **where)
                )
        elif reading is None:
            self.unread(todo, where)
        elif taken is not None and reading.makes > MOST_STITCHES:
            self.reader.findings.append(
                finding(self.page, "too-many-stitches", todo.start, todo.end, Course=self.title(todo), **where)
            )
            read = False
        elif taken is not None:
            self.judge(todo, taken, ground, below, where)
        spiral = (
            todo.kind == "round"
            and reading is not None
            and not reading.joined
            and not reading.turned
            and not _joins(reading.body)
        )
        return Course.model_construct(
            id=ident,
            label=str(todo.label),
            kind=todo.kind,
            uses=reading.uses if read and reading else None,
            makes=reading.makes if read and reading else None,
            declared=todo.declared,
            text=todo.text,
            line=self.page.line(todo.at),
            body=[*ahead, *reading.body] if read and reading else [],
            read=read,
            spiral=bool(read and spiral),
            plain=bool(read and reading and _is_plain(reading)),
            words=Words(),
        )

    def title(self, todo: Waiting) -> str:
        name = self.name(todo.label, todo.kind)
        return name[:1].upper() + name[1:]

    def unread(self, todo: Waiting, where: dict[str, Any]) -> None:
        shared = todo.raw.label.numbers if todo.raw.label is not None else []
        if not todo.first_of and todo.label - (shared[0] if shared else todo.label) >= MOST_SAID:
            return
        body = self.page.text[todo.start : todo.end]
        name = self.name(todo.label, todo.kind)
        start, end = todo.start, todo.end
        if todo.failed == "reference":
            self.reader.findings.append(
                finding(self.page, "reference", start, end, Course=self.title(todo), what=todo.what, **where)
            )
            return
        if todo.failed in ("nesting", "too-many-stitches", "too-many-repeats", "no-times"):
            found = None
            if todo.failed == "too-many-repeats" and todo.parsed is not None:
                found = max((n.times for n in _walk(todo.parsed.tree.items) if isinstance(n, Rep)), default=0)
            self.reader.findings.append(
                finding(
                    self.page, todo.failed, start, end, Course=self.title(todo), found=found, **{**where, "this": name}
                )
            )
            return
        if todo.parsed is not None and todo.parsed.phrases.unknown and not todo.borrowed:
            first, last = todo.parsed.phrases.unknown[0]
            start, end = todo.start + first, todo.start + last
            what = body[first:last]
        else:
            what = " ".join(body.split())[:80]
        self.reader.findings.append(finding(self.page, "unread", start, max(end, start), what=what, this=name, **where))

    def judge(self, todo: Waiting, taken: Chosen, ground: Ground, below: Waiting | None, where: dict[str, Any]) -> None:
        """Findings about the sums of one course."""
        reading = taken.reading
        add = self.reader.findings.append
        if taken.why and taken.fits:
            telling = [w for w in taken.why if w != "slip stitch levels" and w != "join or stitch"]
            if telling:
                add(
                    finding(
                        self.page,
                        "chosen",
                        todo.start,
                        todo.end,
                        Course=self.title(todo),
                        meaning=_MEANING.get(telling[0], telling[0]),
                        because=self.because(ground, reading),
                        **where,
                    )
                )
        if taken.bounded and not taken.fits and todo.first_of:
            add(finding(self.page, "bounded", todo.start, todo.end, Course=self.title(todo), **where))
        if reading.over_chain:
            add(
                finding(
                    self.page,
                    "chain",
                    todo.start,
                    todo.end,
                    Course=self.title(todo),
                    over=spell(reading.over_chain),
                    chain=reading.chain,
                    room=spell(max(0, reading.chain - 1)),
                    mends="",
                    **where,
                )
            )
            return
        if taken.fits:
            if (
                reading.chain_left > 0
                and (ground.chain or reading.chain)
                and todo.kind == "row"
                and todo.declared is not None
                and not ground.free
                and reading.uses == 0
            ):
                add(
                    finding(
                        self.page,
                        "chain-left",
                        todo.start,
                        todo.end,
                        Course=self.title(todo),
                        over=spell(reading.chain_left),
                        found=reading.chain_left,
                        **where,
                    )
                )
            return
        uses_wrong = ground.there is not None and not ground.free and (reading.uses != ground.there or reading.uneven)
        if uses_wrong:
            assert ground.there is not None
            over = reading.uses - ground.there
            found_mends = self.mend(todo, taken, ground)
            code = "overrun" if over > 0 else "left-over"
            if over == 0 and reading.uneven == 0:
                code = "count"
            below_name = self.name(below.label, below.kind) if below is not None else "the course below"
            left = abs(over) if over else reading.uneven
            own_sums = todo.declared is not None and reading.makes == todo.declared and not reading.filled
            add(
                finding(
                    self.page,
                    code,
                    todo.start,
                    todo.end,
                    expected=ground.there,
                    found=reading.uses,
                    # its own numbers come out: then it is the course below, already spoken of, that is off
                    severity="warning" if own_sums and self.doubt is not None else None,
                    suggestions=self.suggestions(todo, found_mends),
                    Course=self.title(todo),
                    works=self.works(reading),
                    below=below_name,
                    there=ground.there,
                    over=f"{spell(left)} {'are' if left != 1 else 'is'}" if code == "left-over" else spell(left),
                    mends=self.told(todo, found_mends, ground),
                    **where,
                )
            )
        elif todo.declared is not None and todo.declared not in reading.counts():
            found_mends = self.mend(todo, taken, ground)
            add(
                finding(
                    self.page,
                    "count",
                    *(todo.declared_at or (todo.start, todo.end)),
                    expected=reading.makes,
                    found=todo.declared,
                    suggestions=[
                        *self.count_suggestion(todo, reading.makes),
                        *self.suggestions(todo, [m for m in found_mends if not m.count]),
                    ],
                    Course=self.title(todo),
                    makes=self.made(reading),
                    declared=todo.declared,
                    mends=self.told(todo, [m for m in found_mends if not m.count], ground),
                    **where,
                )
            )

    def because(self, ground: Ground, reading: Reading) -> str:
        if ground.declared is not None and ground.there is not None:
            return (
                f"only so does it use the {ground.there} stitches there and make the {ground.declared} that are printed"
            )
        if ground.declared is not None:
            return f"only so does it make the {ground.declared} that are printed"
        if ground.there is not None and reading.uses == ground.there:
            return f"only so does it use the {ground.there} stitches there"
        return "the next course needs it so"

    def works(self, reading: Reading) -> str:
        body = [n for n in reading.body if not (isinstance(n, Group) and n.stitch in ("ch", "turn", "join"))]
        if len(body) == 1 and isinstance(body[0], Repeat):
            each = sum(_used(n) for n in body[0].body)
            return f"works {each} stitch{'es' if each != 1 else ''} {_often(body[0].times)} = {reading.uses}"
        return f"uses {reading.uses} stitch{'es' if reading.uses != 1 else ''}"

    def made(self, reading: Reading) -> str:
        body = [n for n in reading.body if not (isinstance(n, Group) and n.stitch in ("ch", "turn", "join"))]
        if len(body) == 1 and isinstance(body[0], Repeat):
            each = sum(_made(n) for n in body[0].body)
            return f"makes {each} stitch{'es' if each != 1 else ''} {_often(body[0].times)} = {reading.makes}"
        return f"makes {reading.makes} stitch{'es' if reading.makes != 1 else ''}"

    def mend(self, todo: Waiting, taken: Chosen, ground: Ground) -> list[Mend]:
        if todo.borrowed or todo.parsed is None or len(self.reader.findings) > 200:
            return []
        return mends(todo.parsed.tree, taken.reading, ground, self.reader.own)

    def mended(self, todo: Waiting, mend: Mend) -> tuple[int, int, str]:
        """Start, end (in the cleaned page) and new text of the stretch a mend changes."""
        edits = [(todo.start + e.start, todo.start + e.end, str(e.value)) for e in mend.edits]
        if mend.count and todo.declared_at is not None:
            edits.append((*todo.declared_at, str(mend.makes)))
        edits.sort()
        start, end = edits[0][0], max(e[1] for e in edits)
        out: list[str] = []
        at = start
        for first, last, value in edits:
            a, _ = self.page.span(at, at)
            b, c = self.page.span(first, last)
            out.append(self.page.original[a:b])
            out.append(value)
            at = last
            del c
        return start, end, "".join(out)

    def suggestions(self, todo: Waiting, found: list[Mend]) -> list[Suggestion]:
        out: list[Suggestion] = []
        for mend in found:
            start, end, new = self.mended(todo, mend)
            first, last = self.page.span(start, end)
            out.append(
                Suggestion(
                    label=f"{self.title(todo)}: {self.whole(todo, mend)}", start=first, end=last, replacement=new
                )
            )
        return out

    def whole(self, todo: Waiting, mend: Mend) -> str:
        """The body as a mend leaves it, without its printed count."""
        start, end, new = self.mended(todo, Mend(mend.edits, mend.makes, False))
        a, b = self.page.span(todo.start, todo.end)
        first, last = self.page.span(start, end)
        text = self.page.original[a:first] + new + self.page.original[last:b]
        text = (
            re.split(r"(?<=[)\]\w])\s*[(\[]\s*\d+[^()\[\]]*[)\]]|\.\s", text, maxsplit=1)[0]
            if todo.declared is not None
            else text
        )
        return " ".join(text.split()).strip(" .")

    def told(self, todo: Waiting, found: list[Mend], ground: Ground) -> str:
        if not found:
            return ""
        used = f"uses all {ground.there} and makes" if ground.there is not None else "makes"
        parts = [f'"{self.whole(todo, m)}" {used} {m.makes}' for m in found[:2]]
        return " " + "; ".join(parts) + "."

    def count_suggestion(self, todo: Waiting, makes: int) -> list[Suggestion]:
        if todo.declared_at is None:
            return []
        first, last = self.page.span(*todo.declared_at)
        return [
            Suggestion(label=f"{self.title(todo)}: {makes} stitches", start=first, end=last, replacement=str(makes))
        ]

    # -- cues of a course -----------------------------------------------------------------------------------------
    def course_cues(self, todo: Waiting, taken: Chosen | None, course: Course, before: Course | None) -> None:
        if todo.parsed is None or todo.borrowed:
            return
        clauses = todo.parsed.phrases.cues
        if not clauses:
            return
        placed = dict(taken.reading.cues) if taken is not None and course.read else {}
        for index, clause in enumerate(clauses):
            made = placed.get(index)
            body = self.page.text[todo.start + clause.start : todo.start + clause.end]
            for kind, first, last in askings(body) or [(clause.kind, 0, len(body))]:
                self.course_cue(
                    todo,
                    course,
                    before,
                    kind,
                    todo.start + clause.start + first,
                    todo.start + clause.start + last,
                    made,
                    clause.start,
                )

    def course_cue(
        self,
        todo: Waiting,
        course: Course,
        before: Course | None,
        kind: CueKind,
        start: int,
        end: int,
        made: int | None,
        at: int,
    ) -> None:
        """One asking printed inside a course: before it, inside it or after it."""
        if todo.parsed is None:
            return
        leads = at <= _first_stitch(todo.parsed.phrases)
        if leads and kind != "count":
            if todo.first_of:
                self.cues.add(kind, start, end, before)
        elif made is not None and course.makes is not None and 0 < made < course.makes:
            self.cues.add(kind, start, end, course, made, inside=True)
        elif todo.last_of:
            self.cues.add(kind, start, end, course)


# The shorthand of charts in letters, where the text does not say what they mean: "(X, V) x 6", "6V", "V6".
_LETTERS = re.compile(r"(?<![\w-])(?:\d{1,3}V|V\d{1,3}|\(\d*X\d*\s*,\s*\d*[VA]\d*\))(?![\w-])", re.I)
_LIST = re.compile(r"\d{1,4}(?:\s*[,/;]\s*\d{1,4})+(?=\s*(?:sts?|stitches)?\s*[)\]}])")
_TURNING = re.compile(
    r"(?:\bch(?:ain)?s?[- ]?(?P<n>\d)\b|\b(?P<n0>\d) ch(?:ain)?s?\b|"
    r"\b(?P<any>(?:beginning|turning|starting|beg|first) (?:ch(?:ain)?s?)\b(?:[- ]?(?P<n2>\d))?))"
    r"[^.;:]{0,70}?\b(?P<not>(?:does|do|will|is|are|doesn't|don't|not|never|n't)\b[^.;:]{0,24}?)?"
    r"\bcount(?:s|ed)?\b(?! (?:every|the|your|each row|rows|how|them|it|again|carefully))",
    re.I,
)


# In a text's own words: "growth, 2 low loops in one", "shrink, 2 low loops closed together"
_TOLD_ALIKE = re.compile(
    r"(?:^|[,:(] ?)(?P<n>\d|two|three) (?:[a-z]+ ){1,3}?(?:(?P<into>in(?:to)? (?:one|1|the same))"
    r"(?: (?:stitch|st|loop))?|(?:closed|worked|crocheted|made) (?:together|tog))\)?\.?$"
)


def _turning_notes(layout: Layout, text: str) -> dict[int, bool]:
    """What the notes say of turning chains for the whole text: height -> does it count; 0 for any height."""
    found: dict[int, bool] = {}
    loose = [text[i.start : i.end] for p in layout.pieces for i in p.items if isinstance(i, RawText)]
    for note in [*layout.notes, *layout.abbreviations.values(), *loose]:
        for match in _TURNING.finditer(note):
            height = int(match["n"] or match["n0"] or match["n2"] or 0)
            found[height] = not (match["not"] and re.search(r"not|n't|never", match["not"], re.I))
    return found


_LAST_COUNT = re.compile(r"(?:[(\[{<]\s*|(?<=\s))(\d{1,4})\s*(?:sts?|stitches)?\s*[)\]}>]?\s*\.?\s*$")


def _lone(parsed: Parsed) -> bool:
    """Is the whole course one stitch without a number or a place?"""
    worked = [n for n in parsed.tree.items if isinstance(n, Work)]
    return len(worked) == 1 and worked[0].alone and worked[0].fill


# Words that must never be left out of a course: numbers, places, loops, repeats and what turns a meaning round
_TELLING = re.compile(
    r"\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|once|twice|thrice|double|half|first|second|"
    r"third|fourth|fifth|last|next|each|every|other|alternate|same|both|all|in|into|on|over|under|around|across|between|"
    r"behind|before|after|below|above|along|through|top|side|edge|end|corner|loops?|lps?|lo|blo|flo|back|front|post|"
    r"strand|gap|space|sps?|rep\w*|times?|again|until|more|less|fewer|extra|skip\w*|miss\w*|leav\w*|omit\w*|un\w+|"
    r"turn\w*|not|no|without|except|instead|inc\w*|dec\w*|tog\w*|sts?|stitch\w*|chains?|ch|rows?|rounds?|rnds?)\b",
    re.I,
)


def _may_be_left(phrases: Phrases, body: str) -> bool:
    """May the words nobody knows be left out for a try? One stretch of them, without anything that could count."""
    first, last = phrases.unknown[0][0], phrases.unknown[-1][1]
    words = body[first:last]
    return sum(b - a for a, b in phrases.unknown) >= len(words.replace(" ", "")) and not _TELLING.search(words)


def _rounds_told(parsed: Parsed) -> int:
    """ "sc around 3 times", "sc around, then sc around again": so many rounds in one sentence."""
    works = [n for n in parsed.tree.items if not isinstance(n, Mark | CueAt | Tone)]
    first = works[0] if works else None
    if not isinstance(first, Work) or not first.fill or first.last or first.per > 1 or parsed.phrases.unknown:
        return 1
    alike = all(isinstance(n, Work) and n.fill and not n.last and (n.key, n.per) == (first.key, 1) for n in works)
    return sum(n.times or 1 for n in works if isinstance(n, Work)) if alike else 1


def _once_round(tree: Tree) -> Tree:
    """The first of the rounds of such a sentence."""
    first = next(n for n in tree.items if isinstance(n, Work))
    return Tree([n for n in tree.items if n is first or not isinstance(n, Work)])


def _numbers(parsed: Parsed) -> list[int]:
    """Every amount and multiplier that was read as such."""
    out: list[int] = []
    for node in _walk(parsed.tree.items):
        if isinstance(node, Rep):
            out.append(node.times)
        elif isinstance(node, Work | One):
            out.append(node.n)
    return out


def _lead_chain(items: list[Node]) -> int:
    """Height of the chain that a course starts with; 0 where it starts with none."""
    for node in items:
        if isinstance(node, Work):
            return node.n if node.key == "ch" else 0
        if not isinstance(node, Mark | CueAt | Tone):
            return 0
    return 0


def _first_stitch(phrases: Phrases) -> int:
    for chunk in phrases.chunks:
        if chunk.type in ("ST", "OPEN", "STARO", "NB", "BARE", "SKIP", "PLACEPRE") or (
            chunk.type == "MARK" and chunk.value[0] == "ring"
        ):
            return int(chunk.start)
    return -1


def _often(times: int) -> str:
    return {1: "once", 2: "twice"}.get(times, f"{spell(times)} times")


def _used(node: Made) -> int:
    if isinstance(node, Group):
        return node.count * node.uses
    return node.times * sum(_used(n) for n in node.body)


def _made(node: Made) -> int:
    if isinstance(node, Group):
        return node.count * node.makes
    return node.times * sum(_made(n) for n in node.body)


def _joins(body: list[Made]) -> bool:
    return any(isinstance(n, Group) and n.stitch in ("join", "turn") for n in body)


def _is_plain(reading: Reading) -> bool:
    groups = [n for n in reading.body if not (isinstance(n, Group) and (n.stitch in ("ch", "join", "turn")))]
    if len(groups) != 1 or not isinstance(groups[0], Group):
        return False
    only = groups[0]
    return only.uses == 1 and only.makes == 1 and only.count > 1


def _works(parsed: Parsed) -> bool:
    return any(isinstance(n, Work | One | Rep) for n in _walk(parsed.tree.items))


def _walk(nodes: list[Node]) -> list[Node]:
    out: list[Node] = []
    stack = list(nodes)
    while stack:
        node = stack.pop()
        out.append(node)
        if isinstance(node, Choice):
            for option in node.options:
                stack.extend(option)
        elif isinstance(node, Rep | One):
            stack.extend(node.body)
    return out


def _trim(text: str, start: int, end: int) -> tuple[int, int]:
    while start < end and text[start] in " \n:-.=":
        if text[start] == "-" and text[start + 1 : start + 2].isdecimal():
            break
        start += 1
    while end > start and text[end - 1].isspace():
        end -= 1
    return start, end


def read(text: str, terms: Terms | None = None) -> Pattern:
    """Any text -> what it says. Never raises: what cannot be read stays in the pattern as words, with a finding."""
    if len(text) > MOST_BYTES or len(text.encode("utf-8", "replace")) > MOST_BYTES:
        page = Page(text[:1], text[:1], None, [0])
        return Pattern(findings=[finding(page, "too-long", 0, 0)], terms=terms or "US")
    return Reader(text, terms).read()


def trace(text: str, terms: Terms | None = None) -> tuple[Pattern, list[Stage]]:
    """The same, with what every stage made of the text."""
    if len(text.encode("utf-8", "replace")) > MOST_BYTES:
        return read(text, terms), []
    reader = Reader(text, terms, watch=True)
    pattern = reader.read()
    return pattern, reader.stages
