"""Counts how the phone loop mistakes sounds, and weighs it: writes server/hookside/voice/sounds/en.json.

    python tests/listening/learn.py         about a quarter of an hour; needs scipy, which nothing else here does

Uses the voices and recordings that are for tuning only (material.py). Right utterances are every English phrase by the
tuning voices, and phrases put together from words of a recorded speaker (words_recorded.py), so that what tells a
person from a machine is not taken for what tells a phrase from talk. Wrong ones are short recorded words that the
grammar took for a phrase.
"""

from __future__ import annotations

import json
import math
import random
import sys
from collections import Counter
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
SERVER = HERE.parents[1] / "server"
sys.path[:0] = [str(HERE), str(SERVER)]

import material  # noqa: E402
import words_recorded  # noqa: E402

from hookside.voice.engines.with_pocketsphinx import Sphinx  # noqa: E402
from hookside.voice.heard import Heard  # noqa: E402
from hookside.voice.likeness import Pair, Sounds, align, kind, measures  # noqa: E402
from hookside.voice.phrasebook import Phrasebook  # noqa: E402

NAMES = ("likeness", "weakest", "path")
KINDS = ("same", "kin", "strange", "missing", "added")
SMOOTH = 20.0  # a pair weighs by its counts from about so many in ten thousand on
RECORDED = 260  # phrases of the recorded speaker
RARE = 3  # pairs counted less often, both ways together, go by their kind


def gather() -> tuple[list[Heard], list[Heard]]:
    """(what was heard right, what was taken for a phrase)."""
    book = Phrasebook.load("en")
    recogniser = Sphinx().recogniser(book.phrases(False))
    recogniser.feed(material.still(2))
    right, wrong = [], []
    chance = random.Random(5)
    for row in book.rows:
        for pattern in row.phrases:
            filled = book.filled(row, pattern)
            for voice in material.TUNE:
                for text, _ in filled if len(filled) == 1 else chance.sample(filled[:62], 3):
                    told = recogniser.feed(material.say(voice, text) + material.still(1.0))
                    right += [h for h in told if h.words == text]
    right += put_together()
    short = [r for r in material.recordings() if not r.scored]
    for recording in short:
        sound = recording.sound()
        if 0.1 < material.seconds(sound) <= material.SHORT:
            told = recogniser.feed(sound + material.still(0.9))
            wrong += [h for h in told if " " in h.words and book.intent(h.words) and h.quiet > 0.35]
    return right, wrong


def put_together() -> list[Heard]:
    """What was heard right of a recorded speaker's phrases, among all phrases of the book."""
    phrases = words_recorded.phrases(4, RECORDED)
    everything = [*Phrasebook.load("en").phrases(False), *(text for text, _ in phrases)]
    recogniser = Sphinx().recogniser(list(dict.fromkeys(everything)))
    recogniser.feed(material.still(2))
    out = []
    for text, sound in phrases:
        out += [h for h in recogniser.feed(sound + material.still(0.9)) if h.words == text]
    return out


def counted(utterances: list[Heard]) -> Counter[Pair]:
    out: Counter[Pair] = Counter()
    for heard in utterances:
        found = measures(heard)
        if found is not None:
            out.update(align(found.expected, found.sounds))
    return out


def table(right: list[Heard], wrong: list[Heard]) -> tuple[dict[str, float], dict[Pair, float]]:
    """Log ratios by kind, and by pair where it was counted often enough."""
    yes, no = counted(right), counted(wrong)
    kinds_yes, kinds_no = Counter[str](), Counter[str]()
    for pairs, kinds in ((yes, kinds_yes), (no, kinds_no)):
        for pair, count in pairs.items():
            kinds[kind(pair)] += count
    total, other = yes.total(), no.total()
    kinds = {k: math.log((kinds_yes[k] + 1) / total) - math.log((kinds_no[k] + 1) / other) for k in KINDS}
    pairs = {}
    for pair in {*yes, *no}:
        if yes[pair] + no[pair] >= RARE:
            prior = kinds[kind(pair)] / 2
            up = yes[pair] / total * 1e4 + SMOOTH * math.exp(prior)
            pairs[pair] = math.log(up / (no[pair] / other * 1e4 + SMOOTH * math.exp(-prior)))
    return kinds, pairs


def weigh(right: list[Heard], wrong: list[Heard], kinds: dict[str, float], pairs: dict[Pair, float]) -> dict[str, Any]:
    """Logistic regression of three measures, ridge 0.5 on standardised ones, both classes of equal weight."""
    import numpy as np
    from scipy.optimize import minimize

    sounds = Sounds(kinds, pairs, 0, 0, 0, 0)
    rows = []
    for heard in (*right, *wrong):
        found = measures(heard)
        assert found is not None
        rows.append([sounds.like(found.expected, found.sounds), found.weakest, found.path])
    x, y = np.array(rows), np.array([1] * len(right) + [-1] * len(wrong))
    weight = np.where(y > 0, len(y) / 2 / len(right), len(y) / 2 / len(wrong))
    middle, spread = x.mean(0), x.std(0)
    z = np.c_[(x - middle) / spread, np.ones(len(x))]

    def cost(b: Any) -> Any:
        return (weight * np.logaddexp(0, -y * (z @ b))).sum() + 0.5 * (b[:-1] ** 2).sum()

    best = minimize(cost, np.zeros(len(NAMES) + 1)).x
    scaled = best[:-1] / spread
    return {**dict(zip(NAMES, scaled.tolist(), strict=True)), "offset": float(best[-1] - scaled @ middle)}


def write(right: list[Heard], wrong: list[Heard]) -> None:
    """Pairs and weights are learnt on different halves of the utterances, so that the weights know how pairs do on
    sound they were not counted on; then the pairs are counted on all."""
    kinds, pairs = table(right[::2], wrong[::2])
    weights = weigh(right[1::2], wrong[1::2], kinds, pairs)
    kinds, pairs = table(right, wrong)
    rows: dict[str, dict[str, float]] = {}
    for (a, b), value in sorted(pairs.items()):
        rows.setdefault(a, {})[b] = round(value, 2)
    data = {
        "from": f"{len(right)} phrases and {len(wrong)} other utterances; tests/listening/learn.py",
        "kinds": {k: round(v, 3) for k, v in kinds.items()},
        "weights": {k: round(v, 4) for k, v in weights.items()},
        "pairs": rows,
    }
    text = json.dumps(data, indent=1).replace(",\n   ", ", ").replace("{\n   ", "{").replace("\n  }", "}")
    (SERVER / "hookside" / "voice" / "sounds" / "en.json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    material.bring()
    write(*gather())
