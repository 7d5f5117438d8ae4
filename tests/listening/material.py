"""Sound to tune and to score with: voices that are made here, and recordings of people that Debian carries.

What thresholds are set on and what is scored never meet: the voices kal16 and espeak-ng and the recordings of one half
are for tuning, slt, rms and awb and the other half for scoring. All sound is 16 kHz, mono, 16 bits, as raw bytes.
"""

from __future__ import annotations

import hashlib
import os
import random
import shutil
import subprocess
import tempfile
from array import array
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

RATE = 16_000
RECORDINGS = Path("/usr/share/asterisk/sounds")
PACKAGES = (
    "flite", "espeak-ng", "sox", "libsox-fmt-all", "ffmpeg", "asterisk-core-sounds-en-wav",
    "asterisk-core-sounds-en-g722", "asterisk-core-sounds-fr-wav", "asterisk-core-sounds-es-wav",
    "asterisk-core-sounds-ru-wav", "asterisk-core-sounds-it-wav", "asterisk-prompt-it-menardi-wav",
    "asterisk-prompt-fr-armelle", "asterisk-prompt-es-co",
)  # fmt: skip
TUNE = ("kal16", "kal16 fast", "kal16 slow", "en-us", "en-gb")
SCORE = ("slt", "rms", "awb")
SHORT = 1.7  # seconds: a recording up to this is a short word, the hard case
SPEEDS = {"fast": ("--setf", "duration_stretch=0.8"), "slow": ("--setf", "duration_stretch=1.25")}


class NotHere(Exception):
    """What is needed is not on this machine and cannot be brought; the text says so."""


def bring() -> None:
    """Voices and recordings onto this machine. Raises NotHere."""
    if all(map(shutil.which, ("flite", "espeak-ng", "sox", "ffmpeg"))) and (RECORDINGS / "en_US_f_Allison").is_dir():
        return
    if os.name != "posix" or os.geteuid() != 0 or not shutil.which("apt-get"):
        raise NotHere(f"The voices and recordings are missing, and only root on a Debian can bring them: {PACKAGES}")
    quiet = dict(os.environ, DEBIAN_FRONTEND="noninteractive")
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *PACKAGES]):
        if subprocess.run(["apt-get", *command], env=quiet, stdout=subprocess.DEVNULL, check=False).returncode:
            raise NotHere(f"Debian did not give the voices and recordings: {PACKAGES}")


def cellar() -> Path:
    """Where sound that was made once is kept for the next time."""
    folder = Path(os.environ.get("HOOKSIDE_SOUNDS") or Path(tempfile.gettempdir()) / "hookside-sounds")
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def made(key: str, commands: list[list[str]]) -> bytes:
    """The output of the last command, kept under `key`. `@` in a command is a file between the two."""
    file = cellar() / f"{hashlib.sha256(key.encode()).hexdigest()[:24]}.raw"
    if not file.exists():
        with tempfile.NamedTemporaryFile(suffix=".wav") as between:
            for command in commands:
                parts = [between.name if p == "@" else p for p in command]
                told = subprocess.run(parts, capture_output=True, check=False)
            file.write_bytes(told.stdout)
    return file.read_bytes()


def raw(source: str, *effects: str) -> list[str]:
    return ["sox", "-q", source, "-r", str(RATE), "-c", "1", "-b", "16", "-e", "signed", "-t", "raw", "-", *effects]


def say(voice: str, text: str) -> bytes:
    """A text by one of the voices, as loud as the others."""
    name, _, speed = voice.partition(" ")
    if name[:2] in ("en", "ko"):
        speak = ["espeak-ng", "-v", name, "-s", "140", "-w", "@", text]
    else:
        speak = ["flite", "-voice", name, *SPEEDS.get(speed, ()), "-t", text, "-o", "@"]
    return made(f"{voice}|{text}", [speak, raw("@", "norm", "-6")])


@dataclass(frozen=True)
class Recording:
    """A prompt spoken by a person; `name` is folder and file."""

    name: str
    path: Path

    @property
    def scored(self) -> bool:
        """In which half it is: by a hash of its name, so that nobody chose."""
        return int(hashlib.md5(self.name.encode()).hexdigest(), 16) % 2 == 1

    def sound(self) -> bytes:
        if self.path.suffix == ".g722":
            read = ["ffmpeg", "-v", "error", "-nostdin", "-f", "g722", "-i", str(self.path), "-ar", str(RATE)]
            return made(self.name, [[*read, "-ac", "1", "-f", "s16le", "-"]])
        return made(self.name, [raw(str(self.path))])


def recordings() -> list[Recording]:
    """All of them; English in the wide band where it is there."""
    out = []
    for folder in sorted(p for p in RECORDINGS.iterdir() if p.is_dir() and not p.is_symlink() and len(p.name) < 25):
        wanted = (".g722",) if any(folder.rglob("*.g722")) else (".wav", ".gsm")
        for path in sorted(folder.rglob("*")):
            if path.suffix in wanted and "silence" not in path.parts:
                out.append(Recording(f"{folder.name}/{path.relative_to(folder).with_suffix('')}", path))
    return out


def seconds(sound: bytes) -> float:
    return len(sound) / RATE / 2


def trimmed(sound: bytes, loud: int = 400) -> bytes:
    """Without the silence at both ends: what is softer than `loud`, of 32767; 25 ms are left before, 50 behind."""
    samples = array("h", sound)
    at = [i for i, s in enumerate(samples) if abs(s) > loud]
    return samples[max(0, at[0] - 400) : at[-1] + 800].tobytes() if at else sound


def still(length: float, level: int = 12) -> bytes:
    """A quiet room: faint noise, the same each time."""
    count = int(length * RATE)
    return (NOISE[level] * (count * 2 // len(NOISE[level]) + 1))[: count * 2]


NOISE = {12: array("h", (round(random.Random(n).gauss(0, 12)) for n in range(3 * RATE))).tobytes()}


def babble(length: float, sources: list[bytes], seed: int) -> array[int]:
    """Five who talk at once, each from another part of the sources."""
    chance, count = random.Random(seed), int(length * RATE)
    out = [0] * count
    for _ in range(5):
        one: array[int] = array("h")
        while len(one) < count:
            one.frombytes(chance.choice(sources))
        start = chance.randrange(len(one) - count + 1)
        out = [a + b for a, b in zip(out, one[start : start + count], strict=True)]
    return array("h", (max(-32768, min(32767, value // 3)) for value in out))


def power(samples: Iterator[int] | array[int] | list[int]) -> float:
    values = list(samples)
    return sum(v * v for v in values) / max(1, len(values))


def mixed(sound: bytes, noise: array[int], decibels: float) -> bytes:
    """Sound with noise behind it, so many decibels softer than its loud parts; the whole at 0.6 of its strength."""
    samples = array("h", sound)
    top = max(map(abs, samples))
    voiced = power([s for s in samples if abs(s) > top / 20])
    factor = (voiced / power(noise)) ** 0.5 / 10 ** (decibels / 20)
    out = ((s + n * factor) * 0.6 for s, n in zip(samples, noise, strict=True))
    return array("h", (max(-32768, min(32767, int(v))) for v in out)).tobytes()
