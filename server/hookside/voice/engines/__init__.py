"""Engines: what turns sound into words. One small interface; one file imports each library."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from hookside.voice.heard import Heard


@dataclass(frozen=True)
class Row:
    """What may be said in this order, many in one breath; most likely beginning with `said[begins]`. `half`: of that
    the first word was said already, and the rest comes now."""

    said: tuple[str, ...]
    begins: int
    half: bool = False


class Recogniser(Protocol):
    """Listens to one stream. Belongs to one thread at a time."""

    clock: float  # seconds of sound and gaps since it was made
    open: bool  # something is being said

    def feed(self, pcm: bytes) -> list[Heard]:
        """Take sound, in pieces of any length; what ended within it."""

    def gap(self, seconds: float) -> list[Heard]:
        """Silence that was left out of the stream: ends what is being said, moves the clock on."""

    def expect(self, phrases: Sequence[str], row: Row | None = None) -> None:
        """Listen for these phrases, and for the row where there is one, from the next utterance on."""

    def join(self) -> None:
        """What ended last was no phrase: if more follows at once, take both as one utterance."""

    def again(self, wide: bool = False) -> Heard | None:
        """What ended last, decoded once more with other edges, less of the room before it and more behind, or `wide`:
        so much more before it that a soft beginning is in it; None in a quiet room, where they hardly matter, and where
        it is not kept."""

    def reset(self) -> None:
        """Forget the utterance in hand. The clock goes on, and what comes next has no silence before it."""

    def close(self) -> None:
        """Give back what it holds. It hears nothing afterwards."""


class Engine(Protocol):
    """A library with a model of one language. Used from several threads at once."""

    name: str
    language: str

    def vocabulary(self, words: Iterable[str]) -> set[str]:
        """Those of `words` that the model knows."""

    def recogniser(self, phrases: Sequence[str]) -> Recogniser:
        """A listener for `phrases`. Raises EngineLost."""

    def close(self) -> None:
        """Give back the model."""
