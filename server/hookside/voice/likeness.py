"""How much the sounds that were heard are like those of a phrase.

The freest path through the sounds of a language (the phone loop) hears "next repeat" as "N EH P S R EH B EY D": not the
right sounds, but mistaken in the way it mistakes those sounds always. How it mistakes them, and what it hears where
something else was said, has been counted on voices and recordings (tests/listening/learn.py writes `sounds/*.json`).
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from hookside.voice.heard import Heard

Pair = tuple[str, str]  # (sound of the phrase, sound heard); "" where one of them has no partner
SILENT = ""
NEAR = 0.6  # cost of taking a sound for one of its kin, where nothing is 0 and leaving one out is 1
FAR = 1.2

# Sounds of a kind, by place and manner of articulation, in the alphabet of the dictionary.
KIN = (
    "AA AO AH AE", "AH EH IH AE UH ER", "IY IH Y EY", "UW UH OW W AO L", "AW OW AA L", "AY EY OY AA AE IY",
    "P T K B D G HH", "B P V M", "D T DH N", "G K", "F V TH S P", "S Z SH TH", "SH ZH CH JH S", "CH JH T D SH",
    "M N NG", "L W R ER", "TH DH F T D", "V B W F",
)  # fmt: skip
KINDRED = frozenset((a, b) for kin in KIN for a in kin.split() for b in kin.split())


def align(expected: Sequence[str], heard: Sequence[str]) -> list[Pair]:
    """The cheapest way to lay the sounds heard beside those expected."""
    cost = [[float(i + j) for j in range(len(heard) + 1)] for i in range(len(expected) + 1)]
    for i, a in enumerate(expected, 1):
        for j, b in enumerate(heard, 1):
            cost[i][j] = min(cost[i - 1][j] + 1, cost[i][j - 1] + 1, cost[i - 1][j - 1] + apart(a, b))
    out: list[Pair] = []
    i, j = len(expected), len(heard)
    while i or j:
        if i and j and cost[i][j] == cost[i - 1][j - 1] + apart(expected[i - 1], heard[j - 1]):
            out.append((expected[i - 1], heard[j - 1]))
            i, j = i - 1, j - 1
        elif i and cost[i][j] == cost[i - 1][j] + 1:
            out.append((expected[i - 1], SILENT))
            i -= 1
        else:
            out.append((SILENT, heard[j - 1]))
            j -= 1
    return out[::-1]


def apart(a: str, b: str) -> float:
    return 0.0 if a == b else NEAR if (a, b) in KINDRED else FAR


def kind(pair: Pair) -> str:
    """What a pair is, where it was never counted."""
    a, b = pair
    if not a or not b:
        return "added" if not a else "missing"
    return "same" if a == b else "kin" if pair in KINDRED else "strange"


@dataclass(frozen=True)
class Sounds:
    """What was counted for a language, and how it is weighed: natural logs of how much likelier a pair is where the
    phrase was said than where something else was."""

    kinds: dict[str, float]
    pairs: dict[Pair, float]
    likeness: float
    weakest: float
    path: float
    offset: float

    @staticmethod
    @cache
    def load(language: str) -> Sounds | None:
        """None for a language of which nothing was counted."""
        place = files("hookside.voice") / "sounds" / f"{language}.json"
        if not place.is_file():
            return None
        data = json.loads(place.read_text(encoding="utf-8"))
        pairs = {(a, b): value for a, row in data["pairs"].items() for b, value in row.items()}
        return Sounds(data["kinds"], pairs, **data["weights"])

    def like(self, expected: Sequence[str], heard: Sequence[str]) -> float:
        """Mean over the sounds of the phrase."""
        pairs = align(expected, heard)
        total = sum(self.pairs[pair] if pair in self.pairs else self.kinds[kind(pair)] for pair in pairs)
        return total / max(1, len(expected))

    def odds(self, heard: Heard) -> float | None:
        """Natural log of the odds that the phrase was said rather than something else, counted on as many utterances
        of each; None where the engine gave no sounds."""
        found = measures(heard)
        return None if found is None else self.weighed(found, found.expected)

    def weighed(self, found: Measures, expected: Sequence[str]) -> float:
        """The same, for these sounds in place of those that the engine took for said."""
        likeness = self.likeness * self.like(expected, found.sounds)
        return self.offset + likeness + self.weakest * found.weakest + self.path * found.path


@dataclass(frozen=True)
class Measures:
    """What tells of an utterance whether it was said: the sounds expected and heard, the fit of the weakest word, and
    the path of the phrase against the freest one (`Heard.score`)."""

    expected: list[str]
    sounds: list[str]
    weakest: float
    path: float


def measures(heard: Heard) -> Measures | None:
    """None where the engine does not give all of it."""
    if heard.phones is None or heard.score is None or not heard.spans:
        return None
    fits, expected = [], []
    for span in heard.spans:
        if span.sounds is None or span.sure is None:
            return None
        expected += span.sounds.split()
        fits.append(span.sure)
    return Measures(expected, heard.phones.split(), min(fits), heard.score)
