"""Stages two and three together: lines and labels -> the pieces of a text in order, bodies still unread."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from hookside.notation import furniture, labels, lines
from hookside.notation.definitions import DEFINES as _DEFINES
from hookside.notation.definitions import definitions, is_definition
from hookside.notation.labels import CourseKind, Label
from hookside.notation.page import Page
from hookside.notation.prompts import classify, is_colour
from hookside.notation.tables import is_header
from hookside.notation.tokens import Dictionary, tokens
from hookside.notation.vocabulary import NUMBER_WORDS
from hookside.pattern import Terms


@dataclass(slots=True)
class RawCourse:
    """A body and what it is called; `end` grows with continuation lines."""

    label: Label | None
    start: int
    end: int
    kind: CourseKind | None
    foundation: bool = False  # only chains: the ground of the next course


@dataclass(slots=True)
class RawText:
    """Sentences between courses."""

    start: int
    end: int


@dataclass(slots=True)
class RawPiece:
    """A heading and all that stands under it."""

    name: str
    make: int
    at: int
    items: list[RawCourse | RawText] = field(default_factory=list)
    assembly: bool = False
    headed: bool = True


@dataclass(slots=True)
class Layout:
    """A text with its parts sorted out."""

    title: str = ""
    hook: str = ""
    gauge: str = ""
    materials: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    abbreviations: dict[str, str] = field(default_factory=dict)
    pieces: list[RawPiece] = field(default_factory=list)
    beyond: int | None = None  # where the page was left: it has more lines than any pattern
    named: bool = False  # does any piece have a name?
    roles: list[tuple[int, int, str]] = field(default_factory=list)  # line start, end, role (for the trace)


_BULLET = re.compile(r"\s*(?:(?:[#>]+|[-=]+>|=(?=\s*[A-Za-z]))\s*)?(?:[-+*o~]\s+(?=\S))?(?:\[[ xX]?\]\s*)?[\"']?\s*")
_OPENERS = re.compile(
    r"(?:(?:start|begin)\w*\b[^.\n]{0,24}\b(?:with|by|in)\b|(?:make|into|in)(?: an?| the)?\b[^.\n]{0,12}"
    r"(?:ring|circle|mr)\b|"
    r"magic|mr\b|ch(?:ain)?\s*-?\d|with\b|using\b|\d+\s*(?:sc|dc|hdc|ch)\b)",
    re.I,
)
_GLUED = re.compile(r"(?P<name>[A-Z][A-Za-z' ]{1,24}(?:,? ?[(\[]?(?:make|x) ?\w{1,6}[)\]]?)?)(?:\s*:|\s+-)\s*(?=\S)")
# A row in front of row 1 that has a name and no number
_GROUND_ROW = re.compile(r"(?:foundation|set[ -]?up|base|beginning|starting)\b", re.I)
# "Left fin: same as the right one"
_LIKE_ANOTHER = re.compile(
    r"(?:(?:make|work|crochet|do|repeat|follow|complete|exactly|just|worked|made|the)\s+)*(?:same|as|like|"
    r"identical|repeat|rounds? \d+\s*(?:-|to)\s*\d+ of)\b",
    re.I,
)
_BETWEEN = re.compile(r"\s*[(\[]?(?:with|using|in|make|x|\d+ ?x|\d+ pieces|colou?r|yarn|hook|start|work|this|"
r"the|note|do not|use)\b", re.I)
_SPACED = re.compile(r"(?P<mark>#?)(?P<n>\d{1,3})[ ]+(?=(?P<next>[\da-z(\[*]))", re.I)
_MAKE_LINE = re.compile(
    r"\s*[(\[]?\s*(?:(?:make|crochet|you need|need)\s+|x\s*)(?P<n>\d{1,3}|"
    r"[a-z]+)\b(?P<rest>[^.\n]{0,40})[)\]]?[.:]?\s*$"
    r"|\s*[(\[]?\s*(?P<n2>\d{1,2}|two|three|four|five|six)\s*(?:pieces?|pcs|parts|details|x|times|of each|"
    r"alike)\s*[)\]]?[.:]?\s*$",
    re.I,
)
_FOUNDATION = re.compile(
    r"\s*(?:foundation|starting|base|beginning|set[ -]?up)?\s*(?:ch(?:ain)?|start|foundation|to (?:start|begin)|"
    r"begin)\s*(?:row|round|rnd)?\s*[:\-]\s*(?=(?:with\b|using\b|make\b|ch\b|ch\d|chain\b|magic\b|mr\b|\d))",
    re.I,
)
_HOOK = re.compile(r"[^\n.;]{0,30}?\b(\d{1,2}(?:[.,]\d{1,2})?\s*mm)\b[^\n.;,]{0,30}", re.I)
_COUNTED = re.compile(r"(?:\d\s*(?:sts?|stitches)|[.=:]\s*\d{1,4}(?:\s*(?:sc|dc|hdc|htr|tr))?|"
r"\s-+\s*\d{1,4})\s*$", re.I)
_HOOK_SIZE = re.compile(r"\d\s*mm\b|\b[B-S][-/ ]?\d{0,2}\b(?=\s*(?:hook|\(|$|\d))|\bsize\s+[A-Z0-9]\b")
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+(?=[A-Z*(\"])")


class Cutter:
    """Walks the lines once."""

    def __init__(self, page: Page, terms: Terms) -> None:
        self.page = page
        self.text = page.text
        self.terms = terms
        self.out = Layout()
        self.section: str = "front"
        self.piece: RawPiece | None = None
        self.course: RawCourse | None = None  # the one a continuation line would go on with
        self.names = Dictionary(terms)
        self.names_seen = 0
        self.last_number = 0
        self.blank = True
        self.spaced = False  # courses are numbered by a number and a space
        self.any_course = False
        self.used_lines: list[tuple[int, int]] = []
        self.asked: dict[tuple[int, int], tuple[int, bool]] = {}  # lines asked about before: does a course open there?
        self.passing: dict[tuple[int, int], bool] = {}  # ... and do they belong to the page alone?
        at = 0
        for line in self.text.split("\n"):
            self.used_lines.append((at, at + len(line)))
            at += len(line) + 1

    # -- small questions ------------------------------------------------------------------------------------------
    def dictionary(self) -> Dictionary:
        if self.names_seen != len(self.out.abbreviations):
            self.names_seen = len(self.out.abbreviations)
            self.names = Dictionary(self.terms, {n.lower(): n for n in self.out.abbreviations if _short_name(n)})
        return self.names

    def stitchy(self, start: int, end: int) -> bool:
        """Do stitches stand here, and little else?"""
        toks = tokens(self.text[start : min(end, start + 400)], self.dictionary())
        stitches = sum(t.kind == "stitch" for t in toks)
        numbers = sum(t.kind in ("number", "ordinal") for t in toks)
        words = sum(t.kind == "word" and len(t.text) > 3 and t.text not in _PLAIN for t in toks)
        return stitches > 0 and (stitches + numbers) >= words

    def opens_course(self, at: int, end: int) -> bool:
        """Would the line at `at` begin a course? Remembered, as each line is asked about by those above it."""
        known = self.asked.get((at, end))
        if known is None or known[0] != self.names_seen:
            known = self.asked[at, end] = (self.names_seen, self._opens_course(at, end))
        return known[1]

    def _opens_course(self, at: int, end: int) -> bool:
        begin = _BULLET.match(self.text, at, end)
        at = begin.end() if begin else at
        if labels.at_line_start(self.text, at, end) or self._founds(at, end):
            return True
        bare = labels.bare_number(self.text, at, end)
        if bare and self.stitchy(bare.end, end):
            return True
        return bool(_OPENERS.match(self.text, at, end)) and self.stitchy(at, end)

    def _founds(self, at: int, end: int) -> bool:
        match = _FOUNDATION.match(self.text, at, end)
        return match is not None and not match[0].lower().lstrip().startswith("ch")

    def next_line(self, index: int) -> tuple[int, int] | None:
        for start, end in self.used_lines[index + 1 : index + 8]:
            if self.text[start:end].strip() and not self.furniture(start, end):
                return start, end
        return None

    def furniture(self, start: int, end: int) -> bool:
        """Page numbers, copyright lines, heads of tables."""
        known = self.passing.get((start, end))
        if known is None:
            known = self.passing[start, end] = self._furniture(start, end)
        return known

    def _furniture(self, start: int, end: int) -> bool:
        line = self.text[start:end]
        if furniture.is_furniture(line) or is_header(line):
            return True
        return not self.page.html and is_header(self.page.original[self.page.back(start) : self.page.back(end)])

    # -- the walk -------------------------------------------------------------------------------------------------
    def run(self) -> Layout:
        filled = 0
        for index, (start, end) in enumerate(self.used_lines):
            line = self.text[start:end]
            if line and not line.isspace():
                filled += 1
                if filled > MOST_LINES:
                    self.out.beyond = start
                    break
            if not line.strip():
                self.blank = True
                if self.course is not None and self._balanced(self.course):
                    self.course = None
                continue
            if self.furniture(start, end):
                self.out.roles.append((start, end, "furniture"))
                self.blank = self.blank or not any(c.isalnum() for c in line)  # a rule across the page parts
                continue
            role = self.line(index, start, end)
            self.out.roles.append((start, end, role))
            self.blank = False
        self.out.named = any(p.name for p in self.out.pieces)
        return self.out

    def _balanced(self, course: RawCourse) -> bool:
        body = self.text[course.start : course.end]
        if len(body) > _LONGEST_BODY:
            return True  # no course is that long: it has lost its end
        return (
            all(body.count(a) <= body.count(b) for a, b in ("()", "[]", "{}"))
            and bool(body.strip())
            and body.rstrip()[-1:] not in ",("
        )

    def line(self, index: int, start: int, end: int) -> str:
        begin = _BULLET.match(self.text, start, end)
        at = begin.end() if begin else start
        # a star at the start belongs to a repeat unless a label follows it
        first = self.text[start:at]
        label = labels.at_line_start(self.text, at, end)
        if (
            "*" in first
            and label is None
            and not labels.bare_number(self.text, at, end)
            and self.section in ("pattern", "assembly")
        ):
            at = start + len(first) - len(first.lstrip(" #>"))
            at = start + first.index("*")
        if label is not None and not self._mention(label, at, end):
            return self.labelled(label, end)
        following = self.next_line(index)
        bare = labels.bare_number(self.text, at, end)
        if bare is not None and self.bare_is_label(bare, end):
            return self.labelled(bare, end)
        spaced = self.spaced_number(at, end)
        if spaced is not None:
            return self.labelled(spaced, end)
        text = self.text[at:end]
        if not self.any_course and lines.section_of(text) is None and is_definition(text, self.terms):
            self.define(text)
            return "abbreviations"
        if self.founds(at, end, following):
            return self.foundation(at, end)
        foundation = _FOUNDATION.match(self.text, at, end)
        if foundation is not None and self.section not in _BOOKISH and self.stitchy(foundation.end(), end):
            return self.unlabelled(foundation.end(), end)
        section = lines.section_of(text)
        if section is not None:
            return self.open_section(self.meant(section[0], text), at + section[1], end, text)
        if self.any_course:
            inline = lines.sewing_up_inline(text)
            if inline is not None and self._asks(at + inline, end):
                return self.open_section("assembly", at + inline, end, text)
            if lines.sewing_up(text) and following is not None and not self.opens_course(*following):
                return self.open_section("assembly", end, end, text)
        if not self.any_course and re.match(r"\W*(?:gauge|tension)\b[^\n]{0,40}\d", text, re.I):
            self.out.gauge = f"{self.out.gauge} {self.page.quote(at, end)}".strip()
            return "gauge"
        if self.any_course and furniture.finishes_off(text):
            self.put_text(at, end)
            return "cue"
        glued = self.heading_before_course(at, end)
        if glued is not None:
            return glued
        inside = labels.within(self.text, at, end)
        if not inside and end - at > 60 and self.section not in ("materials", "abbreviations"):
            number = labels.FIRST_NUMBER.search(self.text, at, end)
            if number and self.stitchy(number.end(), min(end, number.end() + 60)):
                inside = [Label(number.start("n"), number.end(), [1], None, explicit=False)]
        if inside:
            return self.glued(at, inside, end, index)
        make = _MAKE_LINE.match(text)
        if (
            make
            and self.piece is not None
            and not any(isinstance(i, RawCourse) for i in self.piece.items)
            and ((n := make["n"] or make["n2"]).isdecimal() or n.lower() in NUMBER_WORDS)
        ):
            self.piece.make = lines.number_of(n)
            return "make"
        if self.course is not None and not self.blank and self.continues(at, end):
            self.course.end = end
            return "continuation"
        if (
            self.course is not None
            and not self._balanced(self.course)
            and self.stitchy(at, end)
            and lines.heading(text, self.blank, False) is None
        ):
            self.course.end = end
            return "continuation"
        if (
            self.piece is not None
            and not self.piece.items
            and self.piece.headed
            and re.fullmatch(r"\s*[(\[][^()\[\]]{2,80}[)\]][.:]?\s*", text)
        ):
            self.put_text(at, end)
            return "story"
        head = self.heading(text, at, end, following, self.leads_soon(index))
        if head is not None:
            return head
        if self.section in ("materials", "yarn", "hook", "gauge", "abbreviations", "notes", "terms") and not (
            self.blank and self.piece is not None and self.section == "notes" and self._asks(at, end)
        ):
            return self.in_section(text, at, end)
        if self.section == "front" and not (self._opens_plainly(at, end)):
            return self.front(text, at, end)
        if self._opens_plainly(at, end):
            return self.unlabelled(at, end)
        self.put_text(at, end)
        return "cue" if self._asks(at, end) else "story"

    def heading_before_course(self, at: int, end: int) -> str | None:
        """ "Wing (make 2): 5 sc in a magic ring" or "Loop: Ch 10.": a heading with an unnumbered course behind it."""
        match = _GLUED.match(self.text, at, end)
        if not match or labels.within(self.text, match.end(), end):
            return None
        head = lines.heading(match["name"], True, True)
        words = re.findall(r"[a-z]+", match["name"].lower())
        if head is None or not (head[1] > 1 or any(w in lines.PARTS for w in words) or match["name"].isupper()):
            return None
        rest = self.text[match.end() : end]
        if self.any_course and _LIKE_ANOTHER.match(rest):
            self.new_piece(head[0], head[1], at)
            self.put_text(match.end(), end)
            return "reference"
        chains = furniture.foundation(rest) is not None
        if not chains and not self._opens_plainly(match.end(), end):
            return None
        self.new_piece(head[0], head[1], at)
        return self.foundation(match.end(), end) if chains else self.unlabelled(match.end(), end)

    def meant(self, section: str, text: str) -> str:
        """ "Construction" tells how it is built in front of the pieces, and how to put them together behind them."""
        built = section == "notes" and self.any_course and re.match(r"\W*construction\b", text, re.I)
        return "assembly" if built else section

    def founds(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """Only chains stand here, for the next course to be worked into."""
        if self.section in ("materials", "yarn", "hook", "gauge", "abbreviations") and not (
            following is not None and self.opens_course(*following)
        ):
            return False
        if self.course is not None and not self.blank and not self._balanced(self.course):
            return False
        text = self.text[at:end]
        if furniture.foundation(text) is None:
            return False
        begun = self.piece is not None and any(isinstance(i, RawCourse) for i in self.piece.items)
        return not (begun and re.match(r"\s*(?:ch(?:ain)?\s*[1-3]\b|[1-3]\s*ch)", text, re.I))

    def foundation(self, at: int, end: int) -> str:
        at += furniture.foundation(self.text[at:end]) or 0
        piece = self.ensure_piece(at)
        piece.items.append(RawCourse(None, at, end, None, foundation=True))
        self.course = None
        if self.section != "assembly":
            self.section = "pattern"
        return "foundation"

    def _mention(self, label: Label, at: int, end: int) -> bool:
        """ "Round 4 is a little fiddly" names a round and is none."""
        if not label.explicit and label.numbers and not _WORKED.search(self.text, label.end, end):
            return True  # "1st step: gather what you need"
        rest = self.text[label.end : end].strip().lower()
        if label.stopped:
            if self.section in ("materials", "gauge") and not self.stitchy(label.end, end):  # noqa: SIM103
                return True
            return False
        return bool(
            re.match(r"(?:is|are|was|will|and|should|may|can|has|have|looks?|onwards?|for|if|when|where|or)\b", rest)
        ) or (not rest and not label.numbers)

    def spaced_number(self, at: int, end: int) -> Label | None:
        """ "1 6 sc in MR", "2 inc x 6": numbers with nothing but a space behind, once two numbers began such a list."""
        match = _SPACED.match(self.text, at, end)
        if not match or self.section in ("materials", "abbreviations", "gauge", "hook", "yarn"):
            return None
        n = int(match["n"])
        begins = n == 1 and (match["mark"] or match["next"].isdecimal())
        follows = self.spaced and n == self.last_number + 1
        if not (begins or follows) or not self.stitchy(match.end(), end):
            return None
        self.spaced = True
        return Label(match.start(), match.end(), [n], None, explicit=False)

    def bare_is_label(self, label: Label, end: int) -> bool:
        """A number at the start of a line is a label where courses go on from it and stitches follow."""
        if self.section in ("materials", "abbreviations", "gauge", "hook", "yarn"):  # noqa: SIM102
            if not (label.numbers[0] == 1 and self.stitchy(label.end, end) and self.section != "abbreviations"):
                return False
        rest = self.text[label.end : end]
        if not rest.strip():
            return False
        if re.match(r"\s*(?:mm|cm|g|m|oz|yards?|skeins?|balls?)\b", rest, re.I):
            return False
        n = label.numbers[0]
        expected = (
            self.piece is not None
            and self.last_number
            and n in (self.last_number + 1, self.last_number + 2, self.last_number)
        )
        if self.stitchy(label.end, end):
            return True
        return bool(
            expected
            and self.section == "pattern"
            and re.match(
                r"\s*(?:rep|repeat|work|same|as|change|with|sew|stuff|fasten|join|continue|turn)\b", rest, re.I
            )
            and self._numbered_courses()
        )

    def _numbered_courses(self) -> bool:
        assert self.piece is not None
        return any(isinstance(i, RawCourse) and i.label is not None and not i.label.explicit for i in self.piece.items)

    def _opens_plainly(self, at: int, end: int) -> bool:
        """An unnumbered course: stitches from its first word on."""
        text = self.text[at:end]
        low = text.lower().strip()
        if not self.stitchy(at, end):
            return (
                bool(re.match(r"(?:repeat|rep|work|continue)\b[^.]{0,40}\b(?:rounds?|rnds?|rows?)\b", low))
                and self.piece is not None
                and bool(self.last_number)
            )
        if re.match(r"(?:repeat|rep|work)\b[^.]{0,60}\b(?:rounds?|rnds?|rows?)\b", low) and self.last_number:
            return True
        if re.match(
            r"(?:i|we|you|this|the|note|if|when|tip|for|it|there|these|my|all|please|as|once|after|before)\b", low
        ):
            return False
        toks = tokens(text[:200], self.dictionary())
        lead = [t for t in toks[:7] if not (t.kind == "sign")]  # noqa: SIM201
        if not lead:
            return False
        kind = classify(re.split(r"[.;]", text, maxsplit=1)[0])
        if kind in ("sew", "fasten", "weave", "stuff", "eyes", "embroider", "pin", "close", "tail", "marker"):
            return False
        if lead[0].kind == "stitch" and lead[0].key not in ("turn", "join", "skip"):
            return True
        if lead[0].kind == "number" and len(lead) > 1 and lead[1].kind == "stitch":
            return True
        return bool(_OPENERS.match(low)) and any(t.kind == "stitch" for t in lead)

    def _asks(self, at: int, end: int) -> bool:
        return any(classify(s) is not None for s in _SENTENCE_END.split(self.text[at:end]))

    def continues(self, at: int, end: int) -> bool:
        """Is this line the rest of the course before it?"""
        assert self.course is not None
        if self.course.end - self.course.start > _LONGEST_BODY:
            return False
        if not self._balanced(self.course):
            return True
        body = self.text[max(self.course.start, self.course.end - _TAIL) : self.course.end].rstrip()
        first = self.text[at : at + 1]
        low = self.text[at:end].lower()
        if body[-1:] in ",;(-&+=*" or (
            re.search(
                r"\b(?:in|of|the|next|each|and|to|x|from|into|with|last|rep|then|a|around|work|make)$", body, re.I
            )
            and body[-1:] not in ".)]"
        ):
            return True
        if re.match(r"[(\[]\s*\d+[^()\[\]]{0,24}[)\]]\s*\.?\s*$", low) or re.match(r"[-=]\s*\d+", low):
            return True
        if not body:
            return True
        if (
            body[-1:] not in ",("
            and not self.stitchy(at, end)
            and classify(_SENTENCE_END.split(self.text[at:end])[0]) is not None
        ):
            return False
        closed = body[-1:] in ".!)]}" or _COUNTED.search(body)
        if first.islower() and not closed:
            return True
        if self.stitchy(at, end) and not closed and not lines.heading(self.text[at:end], False, True):
            return True
        if (
            body[-1:] in ")]"
            and not re.search(r"[(\[]\s*\d+[^()\[\]]*[)\]]$", body)
            and self.stitchy(at, end)
            and (first.islower() or first.isdecimal() or first in "([*")
        ):
            return True
        if (
            body[-1:] == "."
            and first.islower()
            and self.stitchy(at, end)
            and not re.search(r"[(\[]\s*\d+[^()\[\]]*[)\]]\.?$", body)
        ):
            return True
        return bool(re.match(r"(?:x\s*\d|\d+\s*times|rep(?:eat)?\b.*\*|around\b|times\b)", low))

    # -- what a line does -----------------------------------------------------------------------------------------
    def ensure_piece(self, at: int) -> RawPiece:
        if self.piece is None:
            self.piece = RawPiece("", 1, at, headed=False)
            self.out.pieces.append(self.piece)
        return self.piece

    def labelled(self, label: Label, end: int) -> str:
        if label.relative == 1 and not self.last_number and _GROUND_ROW.match(self.text, label.start):
            label.numbers, label.relative = [0], 0
        rest = labels.within(self.text, label.end, end)
        if not rest and not label.explicit:
            rest = self.numbers_within(label, end)
        here = label
        for nxt in [*rest, None]:
            stop = nxt.start if nxt is not None else end
            name = chains = None
            if nxt is not None and (not nxt.numbers or nxt.numbers[0] <= (here.numbers[-1] if here.numbers else 0)):
                cut, name, chains = self.heading_tail(here.end, stop)
                stop = cut
            self.add_course(here, here.end, stop)
            if nxt is None:
                break
            if name is not None:
                self.new_piece(name[0], name[1], stop)
            if chains is not None:
                self.foundation(*chains)
            here = nxt
        return "course"

    def numbers_within(self, label: Label, end: int) -> list[Label]:
        """ "1. 6 sc in MR (6) 2. inc x 6 (12)": numbers that go up by one, each behind a full stop or a count."""
        found: list[Label] = []
        expected = label.numbers[0 if label.dash else -1] + 1
        for match in labels.NUMBER_WITHIN.finditer(self.text, label.end, end):
            numbers = labels.numbers_of(match["numbers"])
            if numbers and numbers[0] in (expected, 1):
                found.append(Label(match.start("numbers"), match.end(), numbers, None, explicit=False))
                expected = numbers[-1] + 1
        return found

    def heading_tail(self, start: int, stop: int) -> tuple[int, tuple[str, int] | None, tuple[int, int] | None]:
        """ "... Fasten off. ARMS (make 2): Ch 8." -> where the heading starts, the heading, the chains."""
        chains = None
        seams = [m.end() for m in re.finditer(r"[.!:)\]}]\s*", self.text[start:stop])][-4:]
        for seam in [0, *seams]:
            tail = self.text[start + seam : stop]
            if tail.strip() and furniture.foundation(tail) is not None:
                chains = (start + seam, stop)
                stop = start + seam
                break
        text = self.text[start:stop]
        for match in reversed([m for m in re.finditer(r"[.!)\]}]\s*", text)][-3:]):
            bare = text[match.end() :].strip()
            if not bare:
                continue
            head = lines.heading(bare, True, True) or (
                lines.heading(bare.rstrip("."), True, True) if len(bare.split()) <= 6 else None
            )
            if head is not None:
                return start + match.end(), head, chains
        return stop, None, chains

    def add_course(self, label: Label, start: int, end: int) -> None:
        if not self.any_course or self.section != "assembly":
            self.section = "pattern"
        numbers = label.numbers
        if numbers:
            first = numbers[0]
            if (
                self.piece is not None
                and first == 1
                and self.last_number >= 1
                and any(isinstance(i, RawCourse) and i.label for i in self.piece.items)
            ):
                founded = []
                while isinstance(last := self.piece.items[-1], RawCourse) and last.foundation:
                    founded.append(self.piece.items.pop())
                self.new_piece("", 1, label.start, headed=False)
                self.piece.items.extend(reversed(founded))
            elif (
                self.piece is not None
                and self.piece.assembly
                and first == 1
                and not any(isinstance(i, RawCourse) for i in self.piece.items)
            ):
                self.piece.assembly = False
            self.last_number = numbers[-1]
        elif label.relative:
            self.last_number += label.relative
        piece = self.ensure_piece(label.start)
        self.section = "pattern"
        course = RawCourse(label, start, end, label.kind)
        piece.items.append(course)
        self.course = course
        self.any_course = True

    def glued(self, at: int, inside: list[Label], end: int, index: int) -> str:
        """A line whose first label stands in its middle: a heading glued to its first course, or a whole text in one line."""  # noqa: E501
        before = self.text[at : inside[0].start]
        cut, name, chains = self.heading_tail(at, inside[0].start)
        if chains is not None:
            before = self.text[at : chains[0]]
            cut = min(cut, chains[0])
        if name is None:
            head = lines.heading(before.strip(), True, True)
            if head is not None:
                name, cut = head, at
            elif not self.out.title and not self.any_course and len(before.split()) <= 8:
                self.out.title = lines.tidy_name(before)
                cut = at
        if cut > at:
            self.loose(at, cut)
        if name is not None:
            self.new_piece(name[0], name[1], cut)
        if chains is not None:
            self.foundation(*chains)
        self.labelled(inside[0], end)
        return "course"

    def loose(self, at: int, end: int) -> None:
        """Text before the first label of a line: front matter, or sentences between courses."""
        for start, stop in _sentences(self.text, at, end):
            sentence = self.text[start:stop].strip()
            if furniture.foundation(sentence) is not None:
                self.foundation(start, stop)
                continue
            if self.any_course or self.piece is not None:
                self.put_text(start, stop)
                continue
            if is_definition(sentence, self.terms):
                self.define(sentence)
                continue
            section = re.match(r"(materials|gauge|tension|hook|yarn|abbreviations|notes?|terms)\s*:\s*", sentence, re.I)
            if section:
                found = lines.section_of(sentence[: section.end()])
                if found:
                    self.open_section(found[0], start + section.end(), stop, sentence)
                    continue
            if not self.out.title and len(sentence.split()) <= 8:
                self.out.title = lines.tidy_name(sentence)
            else:
                self.in_section(sentence, start, stop) if self.section != "front" else self.out.notes.append(
                    self.page.quote(start, stop)
                )

    def new_piece(self, name: str, make: int, at: int, headed: bool = True) -> None:
        self.piece = RawPiece(name, make, at, headed=headed)
        self.out.pieces.append(self.piece)
        self.course = None
        self.last_number = 0
        self.section = "pattern"

    def leads_soon(self, index: int) -> bool:
        """Does a course follow within three lines, with only a colour, a note or copies in between?"""
        between = 0
        for start, end in self.used_lines[index + 1 : index + 10]:
            line = self.text[start:end]
            if not line.strip() or self.furniture(start, end):
                continue
            if self.opens_course(start, end) or self.founds(start, end, None):
                return self.begins(start, end)
            between += 1
            if between > 2 or (lines.section_of(line) is not None and not re.match(r"\W*(?:colou?r|"
            r"yarn|hook)", line, re.I)):
                return False
            if not _BETWEEN.match(line) and (lines.heading(line, True, True) is not None or len(line) > 160):
                return False
        return False

    def begins(self, start: int, end: int) -> bool:
        """Is the course of this line the first of a piece, by its label?"""
        begin = _BULLET.match(self.text, start, end)
        at = begin.end() if begin else start
        label = labels.at_line_start(self.text, at, end) or labels.bare_number(self.text, at, end)
        return label is None or not label.numbers or label.numbers[0] <= 1

    def heading(
        self, text: str, at: int, end: int, following: tuple[int, int] | None, soon: bool = False
    ) -> str | None:
        leads = following is not None and (
            self.opens_course(*following)
            or bool(_MAKE_LINE.match(self.text[following[0] : following[1]]))
            or self.founds(*following, None)
        )
        first = following is not None and self.begins(*following)
        head = lines.narrated(text) if leads and (first or text.rstrip().endswith(":")) else None
        if head is not None:
            self.new_piece(head[0], head[1], at)
            return "heading"
        head = lines.heading(text, self.blank, leads)
        if head is None or self._works_stitches(text, at, end):
            return None
        if self.piece is not None and is_colour(text):
            return None  # "Navy:" between two rounds is a colour
        if head[1] == 1 and len(text.split()) > 2 and not text.strip().isupper() and text.strip()[-1:] != ":":
            asked = classify(text)
            if asked is not None and asked not in ("other", "join", "colour", "turn"):
                return None
        marked = (
            bool(re.match(r"\s*#", text))
            or bool(re.match(r"\s*#", self.text[at - 2 : at + 1]))
            or "**"
            in self.page.original[self.page.back(at) - 3 if self.page.back(at) >= 3 else 0 : self.page.back(at) + 1]
        )
        if self.section == "abbreviations" and not marked and _DEFINES.match(text) and re.search(r"[:=\-]\s*\w", text):
            return None
        words = {w.lower() for w in re.findall(r"[A-Za-z]+", head[0])}
        known = bool(words & lines.PARTS)
        if soon and not leads and (known or head[1] > 1) and self.blank and self.any_course:
            self.new_piece(head[0], head[1], at)
            return "heading"
        if (
            not self.out.title
            and not self.any_course
            and not self.out.pieces
            and self.section == "front"
            and not (leads and (known or head[1] > 1))
        ):
            return None
        if (
            self.section in ("front", "materials", "abbreviations", "gauge", "hook", "notes", "yarn", "terms")
            and not leads
            and not (head[1] > 1 and self.section == "front")
            and not (marked and known)
        ):
            asks = following is not None and self._asks(*following) and self.any_course
            if not (
                known
                and self.section in ("notes", "front")
                and following is not None
                and (self.stitchy(*following) or asks)
            ):
                return None
        if (
            self.section in ("pattern", "assembly")
            and self.any_course
            and not leads
            and not marked
            and head[1] == 1
            and not known
            and not text.strip().isupper()
            and not text.strip().endswith(":")
        ):
            return None
        if (
            text.strip().endswith(":")
            and not leads
            and not known
            and not marked
            and head[1] == 1
            and self._asks(at, end)
        ):
            return None
        self.new_piece(head[0], head[1], at)
        return "heading"

    def _works_stitches(self, text: str, at: int, end: int) -> bool:
        """ "6 sc in magic ring (6)" under a heading is a course, whatever its bracket looks like."""
        if not re.search(r"\d", text) or re.search(r"\bmake\b|\bx\s*\d+\s*[)\]]?\s*$", text, re.I) or text.isupper():
            return False
        return self._opens_plainly(at, end)

    def open_section(self, section: str, at: int, end: int, text: str) -> str:
        self.course = None
        rest = self.text[at:end].strip()
        if section == "pattern":
            self.section = "pattern" if self.any_course else "front-pattern"
            self.section = "pattern"
            return "section"
        if section == "assembly":
            name = lines.tidy_name(
                re.split(r"[:\-]", self.text[at - 1 - (at - 1 - text_start(self.text, at)) : at], maxsplit=1)[0]
            )
            self.piece = RawPiece(name or "Assembly", 1, at, assembly=True)
            self.out.pieces.append(self.piece)
            self.section = "assembly"
            self.last_number = 0
            if rest:
                self.put_text(at, end)
            return "section"
        self.section = section
        if rest:
            self.in_section(self.text[at:end], at, end)
            if section in ("hook", "gauge", "terms"):
                self.section = "materials" if section == "hook" else section
        return "section"

    def in_section(self, text: str, at: int, end: int) -> str:
        quote = self.page.quote(at, end).strip(" -*•")
        if not quote:
            return "blank"
        if self.section in ("materials", "yarn", "hook"):
            if not self.out.hook and (self.section == "hook" or re.search(r"\bhook\b", text, re.I)):
                match = _HOOK.search(text)
                if match or self.section == "hook":
                    self.out.hook = _hook_part(quote)
            self.out.materials.append(quote)
            return "materials"
        if self.section == "gauge":
            self.out.gauge = f"{self.out.gauge} {quote}".strip()
            return "gauge"
        if self.section == "abbreviations":
            self.define(text)
            return "abbreviations"
        if self.section == "notes" and "=" in text:
            self.define(text)
        self.out.notes.append(quote)
        return "notes"

    def define(self, text: str) -> None:
        self.out.abbreviations.update(definitions(text))

    def front(self, text: str, at: int, end: int) -> str:
        quote = lines.tidy_name(self.page.quote(at, end))
        if (
            not self.out.title
            and quote
            and len(quote) <= 120
            and not (text.rstrip().endswith(".") and len(quote.split()) > 3)
            and not re.match(r"\s*[\w ]+\s=\s", text)
        ):
            self.out.title = quote
            return "title"
        if re.search(r"^\s*[A-Za-z][\w \-/]{0,16}\s*=\s", text):
            self.define(text)
            return "abbreviations"
        if not self.out.hook:
            match = re.match(r"\s*(?:crochet )?hook\b", text, re.I)
            if match:
                self.out.hook = self.page.quote(at, end)
        if self.any_course or self.piece is not None:
            self.put_text(at, end)
            return "story"
        self.out.notes.append(self.page.quote(at, end))
        return "notes"

    def unlabelled(self, at: int, end: int) -> str:
        piece = self.ensure_piece(at)
        course = RawCourse(None, at, end, None)
        piece.items.append(course)
        self.course = course
        self.any_course = True
        if self.section != "assembly":
            self.section = "pattern"
        return "course"

    def put_text(self, at: int, end: int) -> None:
        if self.piece is None:
            self.out.notes.append(self.page.quote(at, end))
            return
        last = self.piece.items[-1] if self.piece.items else None
        if (
            isinstance(last, RawText)
            and not self.blank
            and self.text[last.start : last.end].rstrip()[-1:] not in ".!?:"
            and (self.text[at : at + 1].islower() or last.end - last.start > 40)
        ):
            last.end = end
        else:
            self.piece.items.append(RawText(at, end))
        self.course = None


_WORKED = re.compile(r"\d|stitch|crochet|repeat|increas|decreas|\b(?:[hd]?dc|sc|h?tr|inc|dec)\b", re.I)
MOST_LINES = 15_000  # three for each of the most courses that are followed
_LONGEST_BODY = 16_000  # characters
_TAIL = 300  # characters of a body that tell whether it goes on
_BOOKISH = ("materials", "yarn", "hook", "gauge", "abbreviations", "notes", "terms")
_PLAIN = frozenset(
    [
        "next",
        "each",
        "around",
        "stitch",
        "stitches",
        "from",
        "hook",
        "repeat",
        "times",
        "across",
        "last",
        "magic",
        "ring",
        "first",
        "work",
        "with",
        "back",
        "loops",
        "only",
        "round",
        "chain",
        "join",
        "turn",
        "same",
        "into",
    ]
)


def _hook_part(text: str) -> str:
    """The part of a line that tells the hook: "white DK yarn, 3 mm hook, a needle" -> "3 mm hook"."""
    parts = [p.strip() for p in re.split(r"[,;](?!\d)|[.:]\s|\band\b(?! \d)", text) if p.strip()]
    told = [p for p in parts if _HOOK_SIZE.search(p)]
    named = [p for p in told if re.search(r"\bhook", p, re.I)]
    return (named or told or [text])[0] if len(parts) > 1 else text


def text_start(text: str, at: int) -> int:
    """Start of the line that holds `at`."""
    return text.rfind("\n", 0, max(0, at - 1)) + 1


def _sentences(text: str, at: int, end: int) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    start = at
    for match in re.finditer(r"[.!?](?=\s|$)", text[at:end]):
        stop = at + match.end()
        before = text[max(start, stop - 6) : stop - 1].lower()
        if re.search(r"\b(?:approx|no|st|sts|rnd|rnds|etc|e\.g|i\.e|cm|mm|vs|ch)$", before) and not re.match(
            r"\s+[A-Z]", text[stop : stop + 3]
        ):
            continue
        if text[start:stop].strip():
            found.append((start, stop))
        start = stop
    if text[start:end].strip():
        found.append((start, end))
    return found


def sentences(text: str, at: int, end: int) -> list[tuple[int, int]]:
    """Spans of the sentences in a stretch of text; the dot of "st." or "approx." ends none."""
    found = []
    for start, stop in _sentences(text, at, end):
        while start < stop and text[start].isspace():
            start += 1
        found.append((start, stop))
    return found


def _short_name(name: str) -> bool:
    return len(name) <= 16 and len(name.split()) <= 3 and bool(re.match(r"[A-Za-z]", name))


def cut(page: Page, terms: Terms) -> Layout:
    """The layout of a page. Linear in its length."""
    return Cutter(page, terms).run()
