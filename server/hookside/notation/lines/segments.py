"""Stages two and three together: lines and labels -> the pieces of a text in order, bodies still unread."""

from __future__ import annotations

import re

from hookside.notation.lines.colours.ownyarns import is_yarn
from hookside.notation.lines.colours.partshades import part_colours
from hookside.notation.lines.colours.titlecolours import title_colours
from hookside.notation.lines.copies.above import copies_above
from hookside.notation.lines.copies.partslist import count_copies
from hookside.notation.lines.heads import headings
from hookside.notation.lines.layout import (
    MOST_BARE,
    MOST_BESIDE,
    MOST_LINES,
    MOST_TALK,
    Layout,
    RawText,
)
from hookside.notation.lines.questions import BULLET
from hookside.notation.lines.rungs.table import Rungs
from hookside.notation.page.cleaning import Page
from hookside.pattern import Terms

# What a line was, where many of them in a row tell nothing of any course
_TALK = frozenset(["story", "cue", "notes", "materials", "abbreviations", "continuation", "gauge"])


class Cutter(Rungs):
    """Walks the lines once."""

    def run(self) -> Layout:
        filled = talk = beside = bare = 0
        for index, (start, end) in enumerate(self.used_lines):
            line = self.text[start:end]
            if line and not line.isspace():
                filled += 1
                if filled > MOST_LINES:
                    self.out.bounds["too-many-lines"] = start
            if self.out.full:
                break
            if not line.strip():
                self.blank = True
                if self.course is not None and self._balanced(self.course):
                    self.course = None
                continue
            if start < self.taken:
                self.out.roles.append((start, end, "continuation"))
                continue
            counted = self.course is not None and not self.blank and self.counts_below(start, end)
            if not counted and self.furniture(start, end):
                self.out.roles.append((start, end, "furniture"))
                self.blank = self.blank or not any(c.isalnum() for c in line)  # a rule across the page parts
                continue
            if talk > MOST_TALK and not self.labels_near(index, start, end):
                self.out.bounds.setdefault("too-much-talk", start)
                self.course = None
                continue
            full = "too-much-beside" if beside > MOST_BESIDE else "too-many-bare" if bare > MOST_BARE else ""
            if full and not counted and not self.names_round(index, start, end):
                self.out.bounds.setdefault(full, start)
                self.course = None  # no line behind one that is left out is the rest of it
                continue
            told = self.again.role(line) if not counted and self.piece is not None and self.closed() else None
            if told is not None:
                self.out.bounds.setdefault("over-and-over", start)
                self.put_again(start, end)
            role = told or self.line(index, start, end)
            if told is None:
                self.again.learn(line, end, role, self.piece)
            talk = talk + 1 if role in _TALK else 0
            beside += not self.tells_round(role, start, end)
            bare += role == "course" and self.course is not None and self.course.label is None
            self.out.roles.append((start, end, role))
            self.blank = False
        if not self.page.whole and not self.out.full:
            self.out.bounds["too-many-lines"] = len(self.text)
        self.named_by_title()
        self.out.named = any(p.name for p in self.out.pieces)
        for piece in self.out.pieces:
            self.told_behind(piece)
        yarns = self.told_yarns()
        self.out.unread = count_copies(self.text, self.out.pieces, lambda what: is_yarn(what, yarns))
        part_colours(self.text, self.out.pieces, lambda what: is_yarn(what, yarns) or what.lower() in self.yarns())
        copies_above(self.text, self.out)
        title_colours(self.text, self.out)
        return self.out

    def named_by_title(self) -> None:
        """ "Wings x2 (gold)" at the head of a text, talk below it: the title names the first part, and its copies."""
        first = self.out.pieces[0] if self.out.pieces else None
        if first is None or first.name or first.make > 1 or not self.out.title:
            return
        named = headings.heading(self.out.title, True, True)
        if named and named[1] > 1 and headings.PARTS.intersection(re.findall(r"[a-z]+", named[0].lower())):
            first.name, first.make = named

    def closed(self) -> bool:
        """Does the course above ask for no more?"""
        return self.course is None or self._balanced(self.course)

    def put_again(self, start: int, end: int) -> None:
        """A line whose like were words among the rounds some hundred times."""
        begin = BULLET.match(self.text, start, end)
        if self.piece is not None:
            self.piece.items.append(RawText(begin.end() if begin else start, end))
        self.course = None


def cut(page: Page, terms: Terms) -> Layout:
    """The layout of a page. Linear in its length."""
    return Cutter(page, terms).run()
