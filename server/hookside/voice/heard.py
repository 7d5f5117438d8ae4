"""What an engine says it heard: the one shape between engines and everything that judges."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

RATE = 16_000  # samples a second: mono, 16 bits, little-endian, as everywhere in this room
BYTES_A_SECOND = 2 * RATE


@dataclass(frozen=True)
class Span:
    """One word and when it was said, in seconds of the listener's clock.

    sure      vosk: its confidence, 0 to 1. pocketsphinx: natural log of how likely the word's sounds are, per frame of
              10 ms, 0 being the best that any sound of the language could do: a word that was said lies at -2 to -7,
              one that was not mostly below -8.
    sounds    how the word is said, where the engine has a dictionary ("N EH K S T").
    """

    word: str
    start: float
    end: float
    sure: float | None = None
    sounds: str | None = None


@dataclass(frozen=True)
class Heard:
    """One utterance, from silence to silence.

    Times are seconds of the listener's clock: all sound and all gaps since the recogniser was made.
    words     the phrase that fits best, words parted by one space; empty where the engine found none.
    start,end of the speech itself, the silence at both edges left out.
    quiet     seconds of silence before `start`; 0 where the utterance was cut off from a longer one.
    score     how well the phrase fits. pocketsphinx: the path of the phrase against the freest path through the sounds
              of the language, per frame of 10 ms (reference: the phone loop; near 0 or below: it fits badly).
              vosk: the confidence of the least certain word, 0 to 1. None where the engine has none.
    engine    "pocketsphinx" or "vosk".
    spans     the words one by one.
    phones    the freest path itself, as sounds ("N EH K S T"), where the engine has one.
    above     decibels by which the speech stood above the room, where that is known (`Endpoint.above`).
    """

    words: str
    start: float
    end: float
    quiet: float
    score: float | None
    engine: str
    spans: tuple[Span, ...] = ()
    phones: str | None = None
    above: float | None = None

    @property
    def length(self) -> float:
        """Seconds of speech."""
        return self.end - self.start


class EngineLost(Exception):
    """An engine, or its model, is not there or does not work. The text is a sentence for the maker; `code` is one of
    "no-engine", "no-model", "damaged"."""

    def __init__(self, code: str, say: str) -> None:
        super().__init__(say)
        self.code, self.say = code, say


def damaged_model(folder: Path) -> EngineLost:
    """What to say of a model that does not load."""
    return EngineLost(
        "damaged",
        f"The voice model {folder.name} does not work: remove it with “hookside voice remove {folder.name}” and add it "
        "again. Touch and keys go on.",
    )
