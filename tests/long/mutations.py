"""Two hundred thousand mutated texts: none fells the reader, none changes a count in silence.

    python tests/long/mutations.py [--count 200000] [--seed 1] [--workers 2] [--out FILE]

Half of them have one to four things changed anywhere (tests/notation/mutations.py); each is read, and the sums of every
course are held against its groups. In the other half one amount of one course is changed while its printed count still
stands: the course must come to that count or be spoken of. The last line printed is the result as JSON; exit 1 where
anything of that does not hold.
"""

from __future__ import annotations

import argparse
import multiprocessing
import random
import sys
import time
from collections import Counter
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / "notation"), str(HERE.parents[1] / "server")]

from _house import finish, now  # noqa: E402
from mutating import judged, miscounted, mutated  # noqa: E402

from hookside.notation.reader import Reader  # noqa: E402
from hookside.pattern import makes, uses  # noqa: E402

TEXTS = [
    path.read_text(encoding="utf-8")
    for folder in (HERE.parent / "notation" / "collection", HERE.parents[1] / "patterns")
    for path in sorted(folder.glob("*.txt"))
]
COUNTED = [text for text in TEXTS if miscounted(text, random.Random(0))]  # with a count to hold an amount against
SLOW = 1.5  # seconds of the processor that no text may take
SHOWN = 20  # failures that are shown
Failures = list[tuple[str, str]]


def part(seed: int, count: int) -> tuple[Counter[str], Failures, float]:
    """`count` texts of each kind -> tallies, failures (kind, what was read), the longest reading in seconds."""
    chance = random.Random(seed)
    tally: Counter[str] = Counter()
    failures: Failures = []
    longest = 0.0
    for _ in range(count):
        text = mutated(chance.choice(TEXTS), chance)
        began = time.process_time()
        try:
            reader = Reader(text, None)
            pattern = reader.read()
        except Exception as trouble:
            failures.append(("fell", f"{trouble!r}: {text[:400]!r}"))
            continue
        longest = max(longest, time.process_time() - began)
        failures.extend(("fell at a course", f"{trouble!r}: {body[:200]!r}") for body, trouble in reader.sheet.fell)
        tally["read"] += 1
        for piece in pattern.pieces:
            for course in piece.courses:
                tally["courses"] += 1
                if course.read and (uses(course.body), makes(course.body)) != (course.uses, course.makes):
                    failures.append(("sums", course.text))
    for _ in range(count):
        line = judged(chance.choice(COUNTED), chance)
        tally["amounts changed"] += line is not None
        if line:
            failures.append(("silent", line))
    return tally, failures, longest


def run(count: int, seed: int, workers: int) -> tuple[dict[str, Any], Failures]:
    started = now()
    each = 250
    seeds = [(seed * 1_000_003 + n, each) for n in range(max(1, count // (2 * each)))]
    tally: Counter[str] = Counter()
    failures: Failures = []
    longest = 0.0
    with multiprocessing.Pool(workers) as pool:
        for got, wrong, slowest in pool.starmap(part, seeds, chunksize=1):
            tally += got
            failures += wrong
            longest = max(longest, slowest)
    kinds = Counter(kind for kind, _ in failures)
    result = {
        "texts": tally["read"] + kinds["fell"] + tally["amounts changed"],
        "courses": tally["courses"],
        "amounts_changed": tally["amounts changed"],
        "fell": kinds["fell"] + kinds["fell at a course"],
        "sums_wrong": kinds["sums"],
        "silent": kinds["silent"],
        "longest": round(longest, 3),
        "seed": seed,
        "seconds": round(now() - started, 1),
    }
    return result, failures


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=200_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--out", type=Path)
    asked = parser.parse_args()
    result, failures = run(asked.count, asked.seed, asked.workers)
    for kind, what in failures[:SHOWN]:
        print(f"{kind}: {what}")
    good = not (result["fell"] or result["sums_wrong"] or result["silent"]) and result["longest"] < SLOW
    return finish(result, good, asked.out)


if __name__ == "__main__":
    sys.exit(main())
