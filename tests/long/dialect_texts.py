"""Ten thousand whole patterns in random dialects, read and held against their truth.

    python tests/long/dialect_texts.py [--count 10000] [--first 100000] [--workers 2] [--out FILE] [--hands]

Each text is a pattern of its own making whose stitches are known, printed in habits drawn by chance
(tests/dialects/; with `--hands` in those of tests/hands/, where every habit is as frequent as any). Says which habits
stand out among what was missed; the last line printed is the result as JSON.
Exit 1 where a text fells the reader, where more than 0.3 % of the courses are wrong in silence, or fewer than 92 %
are right: fewer than for texts of people, because chance brings together habits that no single maker has.
"""

from __future__ import annotations

import argparse
import multiprocessing
import sys
from functools import partial
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent), str(HERE.parents[1] / "server")]

from _house import finish, now  # noqa: E402
from dialects import judging  # noqa: E402
from dialects.printing import printed  # noqa: E402
from hands.printing import printed as by_hand  # noqa: E402

EACH = 250  # texts that a worker takes at a time
RIGHT, SILENT = 0.92, 0.003


def merged(parts: list[judging.Judged]) -> judging.Judged:
    """The figures of several runs in one."""
    whole = judging.Judged()
    for part in parts:
        whole.total.texts += part.total.texts
        whole.total.counts += part.total.counts
        whole.outcomes += part.outcomes
        whole.missed += part.missed
        whole.slowest = max(whole.slowest, part.slowest)
        for choice, counted in part.by_choice.items():
            whole.by_choice.setdefault(choice, type(counted)()).update(counted)
        for choice, texts in part.texts_of.items():
            for outcome, numbers in texts.items():
                whole.texts_of.setdefault(choice, {}).setdefault(outcome, set()).update(numbers)
    return whole


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=10_000)
    parser.add_argument("--first", type=int, default=100_000)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--out", type=Path)
    parser.add_argument("--hands", action="store_true")
    asked = parser.parse_args()
    started = now()
    last = asked.first + asked.count
    ranges = [range(at, min(at + EACH, last)) for at in range(asked.first, last, EACH)]
    with multiprocessing.Pool(asked.workers) as pool:
        judge = partial(judging.judge, printer=by_hand if asked.hands else printed)
        whole = merged(pool.map(judge, ranges, chunksize=1))
    print("\n".join(judging.standing_out(whole)))
    print(judging.table(whole))
    total = whole.total
    result = {
        "texts": total.texts,
        "courses": total.counts["courses"],
        "fell": total.counts["crashes"],
        "right": round(total.courses_right, 5),
        "silent": round(total.silent, 5),
        "cues_right": round(total.cues_right, 5),
        "mistakes_found": round(total.mistakes_found, 5),
        "false_errors_per_200": round(total.false_errors, 3),
        "habits": len({choice.partition("=")[0] for choice in whole.by_choice}),
        "first": asked.first,
        "seconds": round(now() - started, 1),
    }
    good = not result["fell"] and (asked.hands or (total.courses_right >= RIGHT and total.silent <= SILENT))
    return finish(result, good, asked.out)


if __name__ == "__main__":
    sys.exit(main())
