"""The account of lines: each course on them, and what a line that is no course was taken for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import groupby, islice

from hookside.notation.courses.sheet import Account, Sheet
from hookside.notation.courses.waiting import name_of, title_of
from hookside.notation.explaining import sums
from hookside.notation.explaining.parts import Part, parts_of
from hookside.notation.explaining.roles import asked, role_of
from hookside.notation.findings.table import spell
from hookside.notation.reader import MOST_BYTES, reading
from hookside.pattern import Cue, Finding, Pattern, Piece, Terms

MOST_TOLD = 200  # lines and courses of one answer
_MOST_ALIKE = 12  # courses of one body whose sums are told one by one
_MOST_WRAPPED = 40  # lines of one course
_LONGEST = 160  # letters of a line
_HEADS = {"error": "Can't be followed", "warning": "Look here", "note": "Noticed"}


@dataclass(frozen=True, slots=True)
class Explanation:
    """How a line, or a course on it, was read. Lines count from 1; `course` is its id, None for other lines."""

    line: int
    text: str  # the course or the line as printed, shortened where it is long
    title: str
    course: str | None = None
    parts: list[Part] = field(default_factory=list)
    says: list[str] = field(default_factory=list)  # how it came to be read so
    noticed: list[str] = field(default_factory=list)  # what there is to look at, and what it asks the hands for


class Explainer:
    """One reading of one text, looked into afterwards. Shapes only; nothing is read twice."""

    def __init__(
        self, text: str, terms: Terms | None = None, due: Callable[[Pattern], Pattern] | None = None
    ) -> None:
        """`due` puts the cues of a pattern where they are due; without it they are told where they are printed."""
        self.beyond = len(text.encode("utf-8", "replace")) > MOST_BYTES
        self.reader, self.pattern = reading("" if self.beyond else text, terms, keep=True)
        self.sheet: Sheet = self.reader.sheet
        self.lines = text.split("\n")
        self.cues: dict[int, list[tuple[Piece, Cue]]] = {}  # by line
        shown = due(self.pattern) if due is not None else self.pattern
        cues = [c for p in shown.pieces for c in p.cues]
        told = {(c.line, c.text) for c in cues if c.basis == "written"}
        moved = {(c.line, c.text) for c in cues if c.basis != "written"} & told
        for piece in shown.pieces:
            for cue in piece.cues:
                key = cue.line, cue.text
                if key not in told or (cue.basis == "written") == (key in moved):
                    continue  # what no line prints, and the printed place of a job that is due elsewhere
                self.cues.setdefault(cue.line, []).append((piece, cue))
        self.on_line: dict[int, list[Finding]] = {}
        self.at_course: dict[str, list[Finding]] = {}
        for found in self.pattern.findings:
            if found.course_id is not None:
                self.at_course.setdefault(found.course_id, []).append(found)
            elif found.span:
                self.on_line.setdefault(found.line, []).append(found)
        self.accounts: dict[int, list[int]] = {}  # by line: the courses on it, by their number in the sheet
        self.by_id: dict[str, Account] = {}
        for index, account in enumerate(self.sheet.accounts):
            if account.course is not None:
                self.by_id[account.course.id] = account
            first, last = self._span(account)
            for line in range(first, last + 1):
                self.accounts.setdefault(line, []).append(index)
        self.roles: dict[int, tuple[str, str]] = {}  # by line: its role and its cleaned words
        page = self.sheet.page
        for start, end, role in self.reader.roles:
            self.roles.setdefault(page.line(start), (role, page.text[start:end].strip()))

    def _span(self, account: Account) -> tuple[int, int]:
        """The lines on which a course stands, label and body, as far as it is not too long."""
        page, todo = self.sheet.page, account.todo
        start = page.line(todo.at)
        # a body that stands elsewhere has its words at its own raw course
        end = max(todo.raw.end if todo.borrowed else todo.end, todo.at)
        return start, max(start, min(page.line(max(todo.at, end - 1)), start + _MOST_WRAPPED))

    def between(self, first: int, last: int) -> list[Explanation]:
        """What stands on the lines first to last, both counted, in the order of the text."""
        found: list[Explanation] = []
        told: set[int] = set()
        for line in range(max(1, first), min(last, len(self.lines)) + 1):
            here = self.accounts.get(line, [])
            new = [i for i in here if i not in told]
            told.update(new)
            found += self._courses([self.sheet.accounts[i] for i in new])
            if not here and self.lines[line - 1].strip():
                found.append(self._other(line))
            if len(found) >= MOST_TOLD:
                break
        return found[:MOST_TOLD]

    def course(self, ident: str) -> Explanation | None:
        """The account of one course by its id."""
        account = self.by_id.get(ident)
        return self._body([account]) if account is not None else None

    def _text(self, account: Account) -> str:
        """A course as it is printed, label and body."""
        page, todo = self.sheet.page, account.todo
        end = todo.raw.end if todo.borrowed else todo.end
        if end <= todo.at:
            return _short(self.lines[page.line(todo.at) - 1])
        return _short(page.original[slice(*page.span(todo.at, end))])

    # -- courses ----------------------------------------------------------------------------------------------------
    def _courses(self, accounts: list[Account]) -> list[Explanation]:
        """One explanation for each body; courses that share one are told together."""
        bodies = groupby(accounts, key=lambda a: (id(a.todo.raw), a.todo.start, a.todo.source))
        return [self._body(list(shared)) for _, shared in islice(bodies, MOST_TOLD)]

    def _body(self, accounts: list[Account]) -> Explanation:
        first = accounts[0]
        todo = first.todo
        line = self.sheet.page.line(todo.at)
        terms, own = self.sheet.terms, self.sheet.own
        shown = self.sheet.page.original[slice(*self.sheet.page.span(todo.start, todo.end))]
        parts = parts_of(todo.parsed, terms, own, None if todo.borrowed else shown) if todo.parsed is not None else []
        text = self._text(first)
        if first.course is None:
            title = f"Chains for the first course of {first.piece.name}"
            return Explanation(line, text, title, None, parts, ["The next course is worked into them."])
        says = [sums.label(first, self._label(first))]
        if todo.source:
            says.append(f"Its words point to {todo.source}: the parts above are read there.")
        elif todo.borrowed:
            says.append("Its words ask for plain stitches.")
        says += self._flags(first)
        says.append(sums.there(first))
        says += sums.sums(first, terms, own)
        says += _alike(accounts) if len(accounts) > 1 else []
        says += sums.printed(accounts[-1])
        says += sums.choices(first, own)
        ids = [a.course.id for a in accounts if a.course is not None]
        noticed = self._found(line, ids)
        noticed += [asked(piece, cue) for piece, cue in self.cues.get(line, [])[:_MOST_ALIKE] if cue.course_id in ids]
        return Explanation(line, text, self._title(accounts), first.course.id, parts, says, noticed)

    def _title(self, accounts: list[Account]) -> str:
        first, last = accounts[0].todo, accounts[-1].todo
        name = title_of(first)
        if len(accounts) > 1:
            name = f"{first.kind.capitalize()}s {first.label} to {last.label}"
        return f"{name} of {accounts[0].piece.name}"

    def _label(self, account: Account) -> str:
        label = account.todo.raw.label
        if label is None:
            return ""
        return " ".join(self.sheet.page.text[label.start : label.end].split()).rstrip(" -=")

    def _flags(self, account: Account) -> list[str]:
        parsed = account.todo.parsed
        if parsed is None:
            return []
        phrases = parsed.phrases
        told = [
            (phrases.unworked, "Its words leave stitches of the course below unworked."),
            (phrases.elsewhere, "Its words name another piece, and some of it goes there: stitches here may be left."),
            (phrases.layers, "It goes through two layers at once, so every stitch takes two."),
            (phrases.counts_as is True, "Its words say that the turning chain counts as a stitch."),
            (phrases.counts_as is False, "Its words say that the turning chain does not count as a stitch."),
            (phrases.counted_chains, "Its words say that each chain counts as a stitch."),
            (phrases.unclosed, "A bracket in it is never closed; I closed it at the end."),
        ]
        return [sentence for there, sentence in told if there]

    def _found(self, line: int, ids: list[str]) -> list[str]:
        """What was noticed at these courses, alike findings once."""
        out: list[str] = []
        codes: dict[str, int] = {}
        for found in [*self.on_line.get(line, []), *(f for ident in ids for f in self.at_course.get(ident, []))]:
            codes[found.code] = codes.get(found.code, 0) + 1
            if codes[found.code] == 1:
                out.append(f"{_HEADS[found.severity]}: {found.message}")
        alike = sum(n - 1 for n in codes.values())
        return [*out, f"The same is so for {spell(alike)} more of them."] if alike else out

    @property
    def terms(self) -> str:
        """In which terms the text was read, and why."""
        return f"Read in {self.sheet.terms} terms. {self.pattern.terms_because}".strip()

    # -- other lines ------------------------------------------------------------------------------------------------
    def _other(self, line: int) -> Explanation:
        role, words = self.roles.get(line, ("", ""))
        cues = self.cues.get(line, [])[:_MOST_ALIKE]
        title, says = role_of(line, "cue" if role == "story" and cues else role, words, self.pattern, self.sheet)
        noticed = [asked(piece, cue) for piece, cue in cues]
        found = self.on_line.get(line, [])[:_MOST_ALIKE]
        if any(f.code == "left-out" for f in found):
            title, says = "Left out", []
        noticed = [f"{_HEADS[f.severity]}: {f.message}" for f in found] + noticed
        return Explanation(line, _short(self.lines[line - 1]), title, None, [], says, noticed)


def _short(words: str) -> str:
    words = " ".join(words[: 4 * _LONGEST].split())
    return words if len(words) <= _LONGEST else words[: _LONGEST - 3] + "..."


def _alike(accounts: list[Account]) -> list[str]:
    """Courses that share a body: told once where they come to the same, else one by one."""
    sums_of = [(a.course.uses, a.course.makes) for a in accounts if a.course is not None]
    if len(set(sums_of)) == 1:
        return [f"The {spell(len(accounts))} of them are alike."]
    out = []
    for account in accounts[1:_MOST_ALIKE]:
        assert account.course is not None
        name = name_of(account.todo.label, account.todo.kind).capitalize()
        if account.course.read:
            out.append(f"{name} uses {account.course.uses} and makes {account.course.makes}.")
        else:
            out.append(f"{name} could not be counted.")
    if len(accounts) > _MOST_ALIKE:
        out.append(f"The {len(accounts) - _MOST_ALIKE} behind them go on in the same way.")
    return out


def explain(text: str, first: int, last: int, terms: Terms | None = None) -> list[Explanation]:
    """How the lines first to last (from 1) of a text were read. Empty where there are no such lines."""
    return Explainer(text, terms).between(first, last)
