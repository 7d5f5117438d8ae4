"""What a round asks for in its own words and no job shows: two layers, stitches left alone, a marker on the way.

The stitches of such a round are read, so its line is worked as "9 sc"; whoever follows by ear never sees the rest.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookside.cues.because import because
from hookside.layers import THROUGH_BOTH, flat
from hookside.pattern import Course, Cue, Piece

_HINTS = ("both", "two ", "2 ", "flat", "fold", "unworked", "mark")
_LAID = re.compile(r"\b(?:press|pinch|lay|fold)\w*\b[^.;,]{0,40}\b(?:flat|in half)\b|\bflatten\w*", re.IGNORECASE)
# "leaving st 4-6 unworked for the tail hole: ch 3 instead"; the last ones left are seen where the row ends
_LEFT = re.compile(
    r"\bleav(?:e|ing)\b(?! (?:the )?(?:last|rest|remaining|rem|other)\b)[^.;(\[]{0,40}\bunworked\b[^.;(\[]{0,80}",
    re.IGNORECASE,
)
_MARKER = re.compile(
    r"\b(?:plac|putt|mov|add|hang|insert)(?:e|ing)? (?:an?|the|your|two|2) (?:stitch )?markers?\b[^.;(\[]{0,80}|"
    r"\bmark(?:ing)? (?:the )?(?:sts?|stitch(?:es)?) \d[^.;(\[]{0,80}",
    re.IGNORECASE,
)
_COUNT_BEHIND = re.compile(r"\s*(?:[(\[]\s*\d{1,4}[^()\[\]]{0,12}[)\]]|[=-]\s*\d{1,4})\s*\.?\s*$")


def lies_double(course: Course) -> bool:
    """Whether its stitches go through two layers, so that fewer are made of them and yet none is a decrease."""
    return _hinted(course) and flat(course.text)


def beforehand(piece: Piece) -> Iterator[Cue]:
    """A pause before each course whose words ask for more than its stitches, where no printed job tells it."""
    told: set[tuple[int, str]] = set()
    before: Course | None = None
    for course in piece.courses:
        for asked in _asked(course) if course.read and _hinted(course) else []:
            if (course.line, asked) in told or _shown(asked, course, piece):
                continue
            told.add((course.line, asked))
            yield Cue(
                address=f"{course.id}/beforehand.{sum(line == course.line for line, _ in told) - 1}",
                after=before.label if before else "0",
                course_id=before.id if before else None,
                kind="other",
                text=f"Next {course.kind}: {asked[:1].lower()}{asked[1:]}",
                basis="worked out",
                weight="pause",
                line=course.line,
                advice=because(f"the words of {course.kind} {course.label} ask for it"),
            )
        before = course


def _hinted(course: Course) -> bool:
    low = course.text.lower()
    return any(hint in low for hint in _HINTS)


def _asked(course: Course) -> Iterator[str]:
    text = course.text
    if _LAID.search(text) or THROUGH_BOTH.search(text):
        yield _COUNT_BEHIND.sub("", text).strip(" .,;:")
    for pattern in (_LEFT, _MARKER):
        for found in pattern.finditer(text):
            yield _COUNT_BEHIND.sub("", found[0]).strip(" .,;:-")


def _shown(asked: str, course: Course, piece: Piece) -> bool:
    """Whether a job of that line tells it already: in these words, or as what it does with the layers or the marker."""
    near = [cue.text.lower() for cue in piece.cues if cue.line == course.line]
    low = asked.lower()
    if any(low in text or text in low for text in near):
        return not flat(asked) or any(flat(text) for text in near)
    return any(flat(text) for text in near) if flat(asked) else "mark" in low and any("mark" in text for text in near)
