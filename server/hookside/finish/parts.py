"""The parts of a pattern, as sewing up sees them: how large, stuffed or flat, and which of them a sentence names."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from hookside.pattern import Course, Piece
from hookside.stitches import plural

_DRY = re.compile(r"\b(?:do not|don't|no need to|without|not) stuff|\bunstuffed\b|\bno stuffing\b", re.IGNORECASE)
_FLATTENED = re.compile(r"\b(?:press|flatten|fold)\w*\b", re.IGNORECASE)
_FOR_SEWING = re.compile(r"\bfor sewing\b|\bto sew\b|\bsew(?:n|ing)? (?:it )?on\b", re.IGNORECASE)


@dataclass(frozen=True)
class Part:
    """A piece that has rounds or rows. `number` counts the pattern's pieces from 1, as runs do."""

    number: int
    piece: Piece

    @property
    def name(self) -> str:
        """As it stands inside a sentence: "flipper", "head and body"."""
        words = (self.piece.name.strip() or "piece").split()
        return " ".join(w if w.isupper() and len(w) < 3 else w[:1].lower() + w[1:] for w in words)

    @property
    def many(self) -> bool:
        return self.piece.make > 1

    @property
    def called(self) -> str:
        """With its article, all copies together: "the flippers", "the body"."""
        return f"the {plural(self.name) if self.many else self.name}"

    @property
    def stuffed(self) -> bool:
        return any(cue.kind == "stuff" and not _DRY.search(cue.text) for cue in self.piece.cues)

    @property
    def flat(self) -> bool:
        """Worked in rows and never stuffed: what lies flat and may be blocked."""
        return not self.stuffed and all(course.kind == "row" for course in self.piece.courses)

    @property
    def strap(self) -> bool:
        """A flat part that is only a strip: three rows at most, or four stitches wide."""
        wide = max((course.makes or 0 for course in self.piece.courses), default=0)
        return self.flat and (len(self.piece.courses) <= 3 or wide <= 4)

    @property
    def pressed(self) -> bool:
        """It is pressed flat or folded before it is sewn on: its edge lies double."""
        return any(cue.kind in ("shape", "other") and _FLATTENED.search(cue.text) for cue in self.piece.cues)

    @property
    def for_sewing(self) -> bool:
        """A tail is left on it to sew with."""
        return any(cue.kind in ("fasten", "tail", "close") and _FOR_SEWING.search(cue.text) for cue in self.piece.cues)

    @property
    def size(self) -> int:
        """Stitches in all: what is larger has more of them."""
        return sum(course.makes or 0 for course in self.piece.courses)

    @property
    def colours(self) -> int:
        """How often the colour changes in it."""
        return sum(
            cue.kind == "colour" and cue.after != "0" and cue.weight != "whisper" for cue in self.piece.cues
        )

    def course(self, label: str) -> Course | None:
        """The course of a number, where it could be read."""
        return next((c for c in self.piece.courses if c.label == label and c.makes), None)

    def named_in(self, text: str) -> bool:
        return bool(self.mention().search(text))

    def mention(self) -> re.Pattern[str]:
        """The name in print, one or several of it."""
        single = re.sub(r"(?<=[^s])s$", "", self.name.lower())
        ways = {single, self.name.lower(), plural(single)}
        return re.compile(rf"\b(?:{'|'.join(sorted(map(re.escape, ways), key=len, reverse=True))})\b", re.IGNORECASE)


def parts_of(pieces: Iterable[Piece]) -> list[Part]:
    """The pieces that are worked, in the order of the text."""
    return [Part(number, piece) for number, piece in enumerate(pieces, start=1) if piece.courses]
