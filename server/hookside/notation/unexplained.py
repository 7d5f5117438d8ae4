"""Letters that stand for stitches in a text that explains none: "R2 6i [12]", "R3 6(1s, i) [18]".

A plain stitch, an increase and a decrease are tried for them in every order, and taken where one order alone makes all
of those courses come out as printed. What is taken so is said: counts tell how many, and never how tall a stitch is.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import permutations

from hookside.notation.findings.table import finding
from hookside.notation.page.cleaning import Page
from hookside.notation.supposing import LONGEST
from hookside.pattern import Course, Finding, Pattern

_MEANINGS = {"single": "a single crochet", "increase": "an increase", "decrease": "a decrease"}
_LETTER = re.compile(r"[A-Za-z](?<![A-Za-z'].)(?![A-Za-z'])")
_NO_LETTERS = re.compile(r"\b(?:mr|mc|ring|magic|ch|in|around|times|sts?)\b", re.I)
# Nothing but amounts, letters, brackets and signs, with at most the word of a count behind them
_MOST_SHORT = 160
_SHORTHAND = re.compile(rf"[\dA-Za-z\s()\[\]{{}}<>,;:.*+=/|\u00d7-]{{1,{_MOST_SHORT}}}")
_WORD = re.compile(r"[A-Za-z]{2}")
_FEWEST = 3  # courses that are written so, and print their counts
_MOST_LETTERS = 3


def letters_of(pattern: Pattern) -> list[str]:
    """The letters of courses that could not be read and hold nothing else: none where they are too few, or too many."""
    unread = [course for piece in pattern.pieces for course in piece.courses if not course.read]
    if len(unread) < _FEWEST:
        return []
    # Each of thousands of courses of one range has the words of all: one that can be no shorthand, however many of its
    # words are taken out (a third of it stays), is not looked into
    short = [course.text for course in unread if len(course.text) <= 3 * _MOST_SHORT]
    bodies = [_NO_LETTERS.sub(" ", text) for text in short]
    written = [body for body in bodies if _SHORTHAND.fullmatch(body) and not _WORD.search(body)]
    found = [set(_LETTER.findall(body)) - {"x"} for body in written]
    letters = sorted(set().union(*found))
    if sum(bool(one) for one in found) < max(_FEWEST, len(unread) // 2) or len(letters) > _MOST_LETTERS:
        return []
    return letters


def explained(
    letters: list[str], pattern: Pattern, read: Callable[[dict[str, str]], Pattern], length: int
) -> dict[str, str]:
    """Each letter with its meaning, where one order alone fits all counts. `read` is called six times at most."""
    if not letters or length > LONGEST:
        return {}
    before = {c.id for c in _courses(pattern) if not c.read}
    fits: list[dict[str, str]] = []
    for meanings in permutations(_MEANINGS, len(letters)):
        told = dict(zip(letters, meanings, strict=True))
        after = read(told)
        astray = {f.course_id for f in after.findings if f.severity == "error"}
        borne = [c for c in _courses(after) if c.id in before and c.read]
        counted = sum(c.declared is not None and c.declared == c.makes for c in borne)
        if counted >= _FEWEST and 4 * len(borne) >= 3 * len(before) and not astray & before:
            fits.append(told)
    return fits[0] if len(fits) == 1 else {}


def told_of(page: Page, letters: dict[str, str]) -> Finding:
    """What was supposed, at the first of them."""
    words = [f"{name} as {_MEANINGS[what]}" for name, what in letters.items()]
    at = next((m.start() for m in _LETTER.finditer(page.text) if m[0] in letters), 0)
    listed = " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
    return finding(page, "letters-supposed", at, at + 1, listed=listed)


def _courses(pattern: Pattern) -> list[Course]:
    return [course for piece in pattern.pieces for course in piece.courses]
