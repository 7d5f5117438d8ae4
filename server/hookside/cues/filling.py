"""What a text says of filling its parts beside their own rounds: gathered once for all of its pieces."""

from __future__ import annotations

import re
from bisect import bisect_left
from functools import cached_property

from hookside.cues.openings import FILLING
from hookside.cues.worked import stem
from hookside.pattern import Cue, Pattern, Piece
from hookside.unstuffed import NOT_STUFFED

PARTS = re.compile(r"\s*(?:,|/|&|\+|\band\b)\s*", re.IGNORECASE)
_WHOLE = re.compile(r"\b(?:body|toy|doll|it|him|her|everything)\b|^\W*stuff(?:ing)?\s+(?:firmly|well|lightly|before)\b")
_STUFFS = re.compile(r"\bstuff\w*\s+(?:the |your )?(?P<what>[a-z]+)\b")
_WORD = re.compile(r"\b[a-z]+")


class Filling:
    """The sections, notes and materials of one pattern. A text may have a thousand pieces: what is asked of each looks
    up words, and goes through none of the other pieces."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.worked = [piece for piece in pattern.pieces if piece.courses]
        self.sections = [cue for piece in pattern.pieces if not piece.courses for cue in piece.cues]

    def left_empty(self, piece: Piece) -> bool:
        """Whether another part of the text says that this piece is not stuffed."""
        name = stem(piece.name)
        at = bisect_left(self._empty, name)
        return bool(name) and at < len(self._empty) and self._empty[at].startswith(name)

    @cached_property
    def printed(self) -> bool:
        """Whether the text has anything to fill with, or fills any part."""
        told = [*self.pattern.materials, *self.pattern.notes]
        return any(FILLING.search(line) and not NOT_STUFFED.search(line) for line in told) or any(
            cue.kind == "stuff" and not NOT_STUFFED.search(cue.text)
            for piece in self.pattern.pieces
            for cue in piece.cues
        )

    def elsewhere(self, piece: Piece) -> list[Cue]:
        """Stuffing of this piece, or of a part its name tells of, that is printed in a section of sewing up. A line
        that names no piece ("Stuff the body", of a piece called Mouse) means the largest one."""
        if not self._stuffing:
            return []
        names = [name for part in PARTS.split(piece.name) if (name := stem(part))]
        whole = self._of_the_whole if piece is self._largest else frozenset()
        return [
            cue for at, (text, cue) in enumerate(self._stuffing) if at in whole or any(name in text for name in names)
        ]

    def named_in(self, *texts: str) -> list[Piece]:
        """The pieces that each of these texts in small letters names, by the stem of a name at a word's beginning."""
        named = [
            {word[:end] for word in _WORD.findall(text) for end in range(1, len(word) + 1)} & self._by_stem.keys()
            for text in texts
        ]
        numbers = sorted(n for name in set.intersection(*named) for n in self._by_stem[name])
        return [self.worked[n] for n in numbers]

    @cached_property
    def astray(self) -> list[Cue]:
        """Stuffing printed behind the last round of one part that names another, worked before it, and not this one:
        "Stuff the ball." behind the ear."""
        found: list[Cue] = []
        for number, piece in enumerate(self.worked):
            last, own = piece.courses[-1].id, {stem(part) for part in PARTS.split(piece.name)}
            if piece.courses[0].uses or not number:
                continue  # what goes on from others is filled with them
            for cue in piece.cues:
                if cue.kind != "stuff" or cue.course_id != last or NOT_STUFFED.search(cue.text):
                    continue
                meant = _STUFFS.search(cue.text.lower())
                before = self.named_in(meant["what"]) if meant else []
                mine = any(name and name in cue.text.lower() for name in own)
                if not mine and any(other in self.worked[:number] for other in before):
                    found.append(cue)
        return found

    @cached_property
    def _by_stem(self) -> dict[str, list[int]]:
        found: dict[str, list[int]] = {}
        for number, piece in enumerate(self.worked):
            if name := stem(piece.name):
                found.setdefault(name, []).append(number)
        return found

    @cached_property
    def _empty(self) -> list[str]:
        """Every word, in order, of the lines that leave something empty."""
        told = [*(cue.text for cue in self.sections), *self.pattern.notes]
        return sorted({word for line in told if NOT_STUFFED.search(line) for word in _WORD.findall(line.lower())})

    @cached_property
    def _stuffing(self) -> list[tuple[str, Cue]]:
        return [
            (cue.text.lower(), cue)
            for cue in [*self.sections, *self.astray]
            if cue.kind == "stuff" and not NOT_STUFFED.search(cue.text)
        ]

    @cached_property
    def _largest(self) -> Piece:
        return max(self.pattern.pieces, key=lambda of: sum(course.makes or 0 for course in of.courses))

    @cached_property
    def _of_the_whole(self) -> frozenset[int]:
        """Which lines of `_stuffing` name no piece but the whole."""
        every = {name for of in self.worked for part in PARTS.split(of.name) if (name := stem(part))}
        return frozenset(
            at
            for at, (text, _) in enumerate(self._stuffing)
            if _WHOLE.search(text) is not None and not any(name in text for name in every)
        )
