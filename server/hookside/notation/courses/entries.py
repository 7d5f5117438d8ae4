"""A course as it is written into its piece: its name, its groups, and what had to be said of it."""

from __future__ import annotations

from typing import Any

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.ground import Ground, Reading
from hookside.notation.arithmetic.stitches import group
from hookside.notation.courses.doubting import Doubting
from hookside.notation.courses.founding import Founding
from hookside.notation.courses.parts import Joined
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Part, Waiting, title_of
from hookside.notation.findings.table import finding
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.asked import every
from hookside.notation.trees.nodes import MOST_STITCHES, Mark
from hookside.pattern import NO_WORDS, Course, Group, Piece, unchecked
from hookside.pattern import Node as Made


class Entries(Founding):
    """Writes courses down. `ring`: a magic ring stands on a line of its own."""

    def __init__(self, sheet: Sheet, piece: Piece, stem: str, queue: list[Waiting | RawText], ring: bool) -> None:
        super().__init__(sheet, piece, stem, queue)
        self.ring_ahead = ring
        self.judge = Doubting(sheet, piece)
        self.ahead: list[Made] = []  # chains on a line of their own, for the next course to begin with
        self.seen: dict[int, int] = {}  # how often a number was met

    def course(self, todo: Waiting, taken: Chosen | None, ground: Ground, below: Waiting | None) -> Course:
        seen = self.seen
        n = seen.get(todo.label, 0)
        seen[todo.label] = n + 1
        if self.ring_ahead and taken is not None and not seen.get(-1):
            seen[-1] = 1
            if (
                not any(is_ring(g) for g in taken.reading.body)
                and taken.reading.uses == 0
            ):
                taken.reading.body.insert(0, group("ring", 1, 0, 0, 1, None, None, None))
        ahead, self.ahead = self.ahead, []
        if taken is not None and rings_itself(ahead) and not names_ring(todo):
            taken.reading.body[:] = [n for n in taken.reading.body if not is_ring(n)]
        suffix = "" if n == 0 else chr(ord("a") + n) if n < 26 else f"x{n}"
        ident = f"{self.slug}.{todo.label}{suffix}"
        reading = taken.reading if taken is not None else None
        read = reading is not None and not reading.unknown
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(todo.label), "course_id": ident}
        for f in reversed(self.sheet.findings[-2:]):
            if f.course == str(todo.label) and f.course_id is None and f.piece == self.piece.name:
                f.course_id = ident
        if reading is not None and reading.unknown and taken is not None:
            if todo.first_of:
                self.sheet.findings.append(
                    finding(self.page, "unknown-length", todo.start, todo.end, Course=title_of(todo), **where)
                )
        elif reading is None:
            self.judge.unread(todo, where)
        elif taken is not None and reading.makes > MOST_STITCHES:
            self.sheet.findings.append(
                finding(self.page, "too-many-stitches", todo.start, todo.end, Course=title_of(todo), **where)
            )
            read = False
        elif taken is not None:
            self.judge.sums(todo, taken, ground, below, where)
            if todo.first_of and todo.parsed is not None and todo.parsed.phrases.elsewhere:
                own = Part(self.slug, ground.there, below.kind) if below is not None else None
                joined = Joined(self.sheet, todo, reading, ground, below, self.sheet.parts, own)
                self.sheet.findings.extend(joined.findings(where))
        spiral = (
            todo.kind == "round"
            and reading is not None
            and not reading.joined
            and not reading.turned
            and not joins(reading.body)
        )
        return unchecked(
            Course,
            id=ident,
            label=str(todo.label),
            kind=todo.kind,
            uses=reading.uses if read and reading else None,
            makes=reading.makes if read and reading else self.promised(todo, reading),
            declared=todo.printed if reading is not None and todo.printed == reading.makes else todo.declared,
            text=todo.text,
            line=self.page.line(todo.at),
            body=[*ahead, *reading.body] if read and reading else [],
            read=read,
            spiral=bool(read and spiral),
            plain=bool(read and reading and is_plain(reading)),
            words=NO_WORDS,
        )

    @staticmethod
    def promised(todo: Waiting, reading: Reading | None) -> int | None:
        """What is printed for a course whose words could not be read: that is there for the next one, and is said."""
        unread = reading is None and todo.failed in ("", "unread", "reference")
        return todo.declared if unread else None


def joins(body: list[Made]) -> bool:
    return any(isinstance(n, Group) and n.stitch in ("join", "turn") for n in body)


def is_ring(node: Made) -> bool:
    return isinstance(node, Group) and node.stitch == "ring"


def rings_itself(ahead: list[Made]) -> bool:
    """ "Ch 4, sl st to form a ring." on its own line: "8 sc into ring" below it goes into that, and makes no other."""
    return any(isinstance(n, Group) and n.stitch == "ch" for n in ahead) and joins(ahead)


def names_ring(todo: Waiting) -> bool:
    nodes = every(todo.parsed.tree) if todo.parsed is not None else []
    return any(isinstance(n, Mark) and n.name == "ring" for n in nodes)


def is_plain(reading: Reading) -> bool:
    groups = [n for n in reading.body if not (isinstance(n, Group) and (n.stitch in ("ch", "join", "turn")))]
    if len(groups) != 1 or not isinstance(groups[0], Group):
        return False
    only = groups[0]
    return only.uses == 1 and only.makes == 1 and only.count > 1
