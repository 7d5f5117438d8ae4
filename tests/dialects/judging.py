"""Texts in random dialects, read and held against their truth; which choices stand out among what was missed.

    python tests/dialects/judging.py [--count 400] [--first 1] [--show KIND] [--text N] [--hands]

`--hands` reads the texts of tests/hands/ instead. `--show silent|said|open|missing|false` prints courses of that
kind; `--text N` prints text N with what was read of it.
"""

from __future__ import annotations

import argparse
import math
import sys
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent), str(HERE.parents[1] / "server")]

import score  # noqa: E402
from hands.printing import printed as by_hand  # noqa: E402

from dialects.printing import Printed, printed  # noqa: E402
from hookside.pattern import Pattern  # noqa: E402

MISSES = ("silent", "said", "open", "missing", "false")


@dataclass
class Judged:
    """Figures over many texts. `outcomes`: course by course, "right" or one of MISSES; `by_choice` per choice."""

    total: score.Score = field(default_factory=score.Score)
    outcomes: Counter[str] = field(default_factory=Counter)
    by_choice: dict[str, Counter[str]] = field(default_factory=dict)
    texts_of: dict[str, dict[str, set[int]]] = field(default_factory=dict)  # choice -> outcome -> numbers of texts
    missed: list[tuple[str, int, str, str]] = field(default_factory=list)  # outcome, text, where, line
    slowest: float = 0.0

    def share(self, outcome: str) -> float:
        return self.outcomes[outcome] / max(1, self.total.counts["courses"])


def outcomes_of(truth: score.Truth, pattern: Pattern) -> dict[tuple[str, str], tuple[str, str]]:
    """(piece, label) -> (outcome, what was read), for every true course."""
    out: dict[tuple[str, str], tuple[str, str]] = {}
    for true_piece, piece in score.pair_pieces(truth["pieces"], pattern.pieces):
        if true_piece is None:
            continue
        name = true_piece["name"]
        for true, course in score.pair_courses(true_piece["courses"], piece.courses if piece else []):
            if true is None:
                continue
            key = (name, true["label"])
            if course is None or piece is None:
                out[key] = ("missing", "")
                continue
            spoken = score._spoken_of(pattern, piece, course)
            if course.makes == true["makes"]:
                errors = [f.message for f in spoken if f.severity == "error"]
                out[key] = ("false", errors[0]) if errors else ("right", "")
            elif course.makes is None:
                out[key] = ("open", spoken[0].message if spoken else "")
            else:
                read = f"read {course.makes}, truth {true['makes']}"
                out[key] = ("said", f"{read}: {spoken[0].message}") if spoken else ("silent", read)
    return out


def judge(numbers: range, printer: Callable[[int], Printed] = printed) -> Judged:
    from hookside.notation import read

    judged = Judged()
    for number in numbers:
        made = printer(number)
        began = time.process_time()
        try:
            pattern = read(made.text)
        except Exception as trouble:  # a figure of its own
            judged.total.counts["crashes"] += 1
            judged.missed.append(("missing", number, "the whole text", f"fell over: {trouble!r}"))
            pattern = Pattern()
        judged.slowest = max(judged.slowest, time.process_time() - began)
        score.score_text(made.truth, pattern, judged.total, str(number))
        for key, (outcome, why) in outcomes_of(made.truth, pattern).items():
            _count(judged, made, number, key, outcome, why)
    return judged


def _count(judged: Judged, made: Printed, number: int, key: tuple[str, str], outcome: str, why: str) -> None:
    judged.outcomes[outcome] += 1
    for choice in made.marks[key]:
        judged.by_choice.setdefault(choice, Counter())[outcome] += 1
        if outcome != "right":
            judged.texts_of.setdefault(choice, {}).setdefault(outcome, set()).add(number)
    if outcome != "right":
        judged.missed.append((outcome, number, f"{key[0]} {key[1]}", f"{made.lines[key]!r}  <- {why}"))


def standing_out(judged: Judged, most: int = 40) -> list[str]:
    """The choices with more misses than chance gives them, worst first: misses, texts, share, how far from chance."""
    whole = sum(judged.outcomes.values())
    missed = whole - judged.outcomes["right"]
    rate = missed / max(1, whole)
    rows = []
    for choice, counted in judged.by_choice.items():
        n = sum(counted.values())
        bad = n - counted["right"]
        expected = n * rate
        if bad < 3 or bad <= expected:
            continue
        far = (bad - expected) / math.sqrt(max(expected, 0.5))
        texts = len(set().union(*judged.texts_of[choice].values()))
        kinds = ", ".join(f"{k} {counted[k]}" for k in MISSES if counted[k])
        rows.append(
            (far, f"{choice:<58} {bad:5} of {n:5} in {texts:3} texts ({100 * bad / n:5.1f} %) {far:6.1f}   {kinds}")
        )
    return [text for _, text in sorted(rows, reverse=True)[:most]]


def table(judged: Judged) -> str:
    n = max(1, judged.total.counts["courses"])
    kinds = "  ".join(f"{k} {judged.outcomes[k]} ({100 * judged.outcomes[k] / n:.2f} %)" for k in ("right", *MISSES))
    return f"{score.table(judged.total)}\n\nby course: {kinds}\nslowest text {judged.slowest:.2f} s"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=400)
    parser.add_argument("--first", type=int, default=1)
    parser.add_argument("--show", choices=[*MISSES, "cues"])
    parser.add_argument("--text", type=int)
    parser.add_argument("--most", type=int, default=40)
    parser.add_argument("--hands", action="store_true")
    asked = parser.parse_args()
    printer = by_hand if asked.hands else printed
    if asked.text is not None:
        print(printer(asked.text).text)
        judged = judge(range(asked.text, asked.text + 1), printer)
        print("\n".join(judged.total.details))
        return 0
    judged = judge(range(asked.first, asked.first + asked.count), printer)
    if asked.show == "cues":
        print("\n".join(line for line in judged.total.details if "cue" in line))
    elif asked.show:
        for outcome, number, where, line in judged.missed:
            if outcome == asked.show:
                print(f"{number} {where}: {line}")
    else:
        print("\n".join(standing_out(judged, asked.most)))
    print(table(judged))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
