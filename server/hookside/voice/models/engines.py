"""Which engines can listen here, without loading any."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.util import find_spec

INSTALL = "start Hookside with server/start.py, which installs it"


@dataclass(frozen=True)
class Standing:
    """An engine: whether its library is there, and a sentence on it."""

    name: str
    there: bool
    say: str


def has(library: str) -> bool:
    try:
        return find_spec(library) is not None
    except (ImportError, ValueError):
        return False


def all() -> list[Standing]:
    """Both engines, the better one first."""
    vosk, sphinx = has("vosk"), has("pocketsphinx")
    return [
        Standing(
            "vosk",
            vosk,
            "listens best, once a model of your language was added."
            if vosk
            else f"its library is not there; {INSTALL}, or pocketsphinx listens alone.",
        ),
        Standing(
            "pocketsphinx",
            sphinx,
            "listens to English without anything to add, best in a quiet room."
            if sphinx
            else f"its library is not there; {INSTALL}.",
        ),
    ]
