"""Engines: what turns sound into words. One small interface; one file imports each library."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Protocol

from hookside.voice.heard import Heard


class Recogniser(Protocol):
    """Listens to one stream. Belongs to one thread at a time."""

    clock: float  # seconds of sound and gaps since it was made

    def feed(self, pcm: bytes) -> list[Heard]:
        """Take sound, in pieces of any length; what ended within it."""

    def gap(self, seconds: float) -> list[Heard]:
        """Silence that was left out of the stream: ends what is being said, moves the clock on."""

    def expect(self, phrases: Sequence[str]) -> None:
        """Listen for these phrases from the next utterance on. Words the model lacks must not be among them."""

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

    def recogniser(self, phrases: Sequence[str], *, opinion: bool = False) -> Recogniser:
        """A listener for `phrases`; `opinion`: with a second opinion, `Heard.free`. Raises EngineLost."""

    def close(self) -> None:
        """Give back the model."""
