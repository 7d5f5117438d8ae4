"""Says where the heading of a part, or one of its courses, names a color, eyes or stuffing of which nothing in that
part asks.

The net below all that reads colors and jobs: whatever dress they come in, they are asked for, shown with the words of
a step, or said here.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from typing import Any

from hookside.colours import COLOURS
from hookside.notation.findings.table import finding
from hookside.notation.page.cleaning import Page
from hookside.pattern import Finding, Pattern, Piece, groups

_WORD = re.compile(r"[^\W\d_]{2,}\d?")
_LONGEST = 300  # characters of a line that are looked at
_WORK = ("heading", "course", "continuation", "make")
_ROUNDS = ("course", "continuation")
_OF_STITCHES = re.compile(r"(?:\d|\binc(?:rease)?|\bdec(?:rease)?|\bhalf|\bx) ?$")  # what machines call them: "12 eyes"
_MOST = 20  # such findings of a text
# Words that are colors and common words of a page as well, or a ring: "rose", "straw", "6 sc in MC"
_OTHERS = frozenset(
    [
        "rose", "stone", "sand", "natural", "skin", "flesh", "straw", "chestnut", "walnut", "moss", "oat", "lemon",
        "plum", "wine", "salmon", "copper", "ca", "cb", "mc", "tan", "gold", "silver", "hazel", "ginger", "mint",
        "peach", "apricot", "lime", "olive", "coral",
    ]
)  # fmt: skip
# What is put into a piece before it is shut, by the kind of cue that asks for it
_THINGS = {
    "eye": "eyes", "eyes": "eyes", "stuff": "stuff", "stuffing": "stuff", "stuffed": "stuff", "whiskers": "embroider",
}  # fmt: skip
_NAMED = COLOURS - _OTHERS


def unasked(page: Page, roles: list[tuple[int, int, str]], pattern: Pattern) -> list[Finding]:
    """One for each part and color, at the first place that names it; none in lines of which something is said."""
    said = {f.line for f in pattern.findings}
    pieces = sorted((p for p in pattern.pieces if p.courses), key=lambda p: p.line)
    begins = [p.line for p in pieces]
    by_line: dict[int, set[str]] = {}  # parts of one line share what is asked in it
    for piece in pieces:
        by_line.setdefault(piece.line, set()).update(_asked(piece))
    known = [by_line[p.line] for p in pieces]
    found: list[Finding] = []
    for start, end, role in roles:
        line = page.line(start)
        at = bisect_right(begins, line) - 1
        if role not in _WORK or at < 0 or line in said:
            continue
        for word in _WORD.finditer(page.text, start, min(end, start + _LONGEST)):
            low = word[0].lower()
            thing = _THINGS.get(low) if role in _ROUNDS else None
            if thing is not None and _OF_STITCHES.search(page.text, start, word.start()) is not None:
                thing = None
            name = thing or low
            if (thing is None and low not in _NAMED) or name in known[at]:
                continue
            known[at].add(name)
            code = "shade-unasked" if thing is None else "job-unasked"
            where: dict[str, Any] = {"piece": pieces[at].name, "name": pieces[at].name, "words": word[0]}
            found.append(finding(page, code, *word.span(), **where))
            if len(found) == _MOST:
                return found
    return found


def _asked(piece: Piece) -> set[str]:
    """The words of all that is asked in a part, the kinds of it, and the colors of its stitches."""
    asked = {word for cue in piece.cues for word in _words(cue.text)} | set(_words(piece.name))
    asked |= {cue.kind for cue in piece.cues} | {_THINGS[word] for word in asked & _THINGS.keys()}
    shades = {g.colour for course in piece.courses for g in groups(course.body) if g.colour}
    return asked | {word for shade in shades for word in _words(shade)}


def _words(text: str) -> list[str]:
    return [word[0].lower() for word in _WORD.finditer(text)]
