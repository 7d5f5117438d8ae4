"""The parts of a pattern, as sewing up sees them: how large, stuffed or flat, and which of them a sentence names."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from hookside.pattern import Course, Piece
from hookside.shape.threads import threads, used
from hookside.stitches import plural
from hookside.unstuffed import NOT_STUFFED
from hookside.words import colour_named

_FLATTENED = re.compile(r"\b(?:press|flatten|fold)\w*\b", re.IGNORECASE)
_JOINED_NAMES = re.compile(r"\s+and\s+|\s*[&+/,]\s*", re.IGNORECASE)
_NO_NOUNS = frozenset(
    ("left", "right", "front", "back", "upper", "lower", "top", "bottom", "inner", "outer", "first", "second", "third",
     "fourth", "one", "two", "three", "four", "piece", "part", "side")
)  # fmt: skip
_FOR_SEWING = re.compile(r"\bfor sewing\b|\bto sew\b|\bsew(?:n|ing)? (?:it )?on\b", re.IGNORECASE)


@dataclass(frozen=True)
class Part:
    """A piece that has rounds or rows. `number` counts the pattern's pieces from 1, as runs do.

    own     nouns of its name that no other part has: "the flag" is the signal flag where that is the only flag
    nouns   nouns that may mean it beside others: "the arms" are left arm and right arm
    joined  it is worked into another piece: nothing of it is sewn on
    """

    number: int
    piece: Piece
    own: frozenset[str] = frozenset()
    nouns: frozenset[str] = frozenset()
    joined: bool = False

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
        name = plural(self.name) if self.many else self.name
        return name if name.split()[0] in ("the", "my", "your", "our", "a", "an") else f"the {name}"

    @property
    def stuffed(self) -> bool:
        return any(cue.kind == "stuff" and not NOT_STUFFED.search(cue.text) for cue in self.piece.cues)

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
    def changes(self) -> int:
        """How often the colour changes in it: as often as the bench asks for another, within repeats too."""
        asked = sum(
            cue.kind == "colour" and cue.course_id is not None and cue.weight != "whisper" for cue in self.piece.cues
        )
        uses = list(used(self.piece, lambda cue: colour_named(cue.text)))
        return max(asked, sum(use.colour != before.colour for before, use in pairwise(uses)))

    @property
    def cut(self) -> int:
        """How many yarns begin on its way: the others are carried along."""
        return max(0, len(threads(self.piece, list(used(self.piece, lambda cue: colour_named(cue.text))))) - 1)

    def course(self, label: str) -> Course | None:
        """The course of a number, where it could be read."""
        return next((c for c in self.piece.courses if c.label == label and c.makes), None)

    def named_in(self, text: str) -> bool:
        return bool(self.mention().search(text))

    def spoken_of(self, text: str) -> bool:
        """Whether a sentence names it, alone or among others of its noun."""
        return self.named_in(text) or bool(self.nouns and _named(self.nouns).search(text))

    def mention(self) -> re.Pattern[str]:
        """The name in print, one or several of it, by its noun where no other part has that."""
        return _named({self.name.lower(), _single(self.name.lower()), *self.own})


def _single(name: str) -> str:
    return re.sub(r"(?<=[^s])s$", "", name)


def _named(names: Iterable[str]) -> re.Pattern[str]:
    ways = {way for name in names for way in (name, plural(name))}
    return re.compile(rf"\b(?:{'|'.join(sorted(map(re.escape, ways), key=len, reverse=True))})\b", re.IGNORECASE)


def _nouns(part: Part) -> frozenset[str]:
    """ "flag" of "signal flag", "head" and "body" of "head and body" """
    found = set()
    for name in _JOINED_NAMES.split(re.sub(r"\([^)]*\)", " ", part.name.lower())):
        words = [word for word in re.findall(r"[a-z]{2,}", name) if word not in _NO_NOUNS]
        if words:
            found.add(_single(words[-1]))
    return frozenset(found)


def parts_of(pieces: Iterable[Piece], joined: Collection[int] = ()) -> list[Part]:
    """The pieces that are worked, in the order of the text; `joined`: numbers of those that are worked into others."""
    bare = [Part(number, piece, joined=number in joined) for number, piece in enumerate(pieces, 1) if piece.courses]
    nouns = {part.number: _nouns(part) for part in bare}

    def told(part: Part) -> Part:
        others = [other for other in bare if other is not part]
        own = nouns[part.number].difference(*(nouns[other.number] for other in others))
        shared = nouns[part.number].difference(_single(other.name.lower()) for other in others)
        return replace(part, own=own, nouns=shared)

    return [told(part) for part in bare]
