"""A mended line never makes a text worse: slips of five kinds, planted in every fifth round, in every style of print.

Ninety rounds in each style and 300 in one, in parts of fifteen. Of every place the line that is offered first is taken
by itself: fewer things are left to look at then, and never more.
"""

from __future__ import annotations

import random
import re
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from styles import BRITISH, STYLES, Made

from hookside.notation import read
from hookside.notation.mended import mend, taken

PARTS, MANY, ROUNDS, EACH = 6, 20, 15, 5


def piece(chance: random.Random) -> list[Made]:
    """Rounds as toys have them: up by a few stitches, plain, and down again."""
    six = chance.randint(5, 8)
    made = [Made(1, six, 0, "", 0, 0, six)]
    high = chance.randint(3, 6)
    for number in range(2, ROUNDS + 1):
        there = made[-1].makes
        ring = there // six
        if number <= high:
            made.append(Made(number, 0, ring - 1, "inc", six, 0, there + six))
        elif number > ROUNDS - high + 2 and ring > 2:
            made.append(Made(number, 0, ring - 2, "dec", six, 0, there - six))
        elif chance.random() < 0.4 and there > 12:
            lead = chance.randint(1, there - 10)
            made.append(Made(number, lead, 2, "inc", 2, there - lead - 6, there + 2))
            if number < ROUNDS and chance.random() < 0.8:
                continue
        else:
            made.append(Made(number, there, 0, "", 0, 0, there))
        if made[-1].makes % six:
            made[-1] = Made(number, there, 0, "", 0, 0, there)
    return made


def wrong_count(m: Made, chance: random.Random) -> Made:
    return replace(m, makes=m.makes + chance.choice([-2, -1, 1, 2]))


def wrong_times(m: Made, chance: random.Random) -> Made:
    return replace(m, times=m.times + chance.choice([-1, 1])) if m.times > 2 else wrong_count(m, chance)


def wrong_between(m: Made, chance: random.Random) -> Made:
    return replace(m, between=m.between + 1) if m.times else wrong_lead(m, chance)


def wrong_lead(m: Made, chance: random.Random) -> Made:
    return replace(m, lead=m.lead + chance.choice([-1, 1])) if m.lead > 2 else wrong_count(m, chance)


def wrong_label(m: Made, chance: random.Random) -> Made:
    return replace(m, number=m.number - 1)


SLIPS: list[Callable[[Made, random.Random], Made]] = [wrong_count, wrong_times, wrong_between, wrong_lead, wrong_label]


def printed(made: list[Made], style: str, true: list[Made]) -> str:
    head = {"lettered": "X - single crochet, V - increase, A - decrease\n\n"}.get(style, "")
    head = "UK terms\n\n" if style in BRITISH else head
    ring = f"{true[0].makes} {'dc' if style in BRITISH else 'sc'} in MR"
    first = f"Rnd 1: {ring} ({made[0].makes})"
    return f"Harbour buoy\n\n{head}Body\n\n" + "\n".join([first, *(STYLES[style](m) for m in made[1:])]) + "\n"


def texts(style: str, parts: int = PARTS) -> list[str]:
    chance = random.Random(f"{style} 7")
    out = []
    for part in range(parts):
        true = piece(chance)
        made = list(true)
        for at in range(EACH - 1, ROUNDS, EACH):
            made[at] = SLIPS[(part + at // EACH) % len(SLIPS)](made[at], chance)
        out.append(printed(made, style, true))
    return out


def helps(text: str) -> int:
    """At how many places a line is offered; each of them that is first leaves less to look at."""
    before = read(text)
    offered = [f for f in before.findings if f.suggestions]
    for found in offered:
        then = read(taken(text, found.suggestions[0]))
        told = [f"{f.code} {f.course}" for f in then.findings]
        assert len(told) < len(before.findings), (text, found.message, found.suggestions[0].label, told)
    return len(offered)


@pytest.mark.parametrize("style", STYLES)
def test_each_line_that_is_offered_first_leaves_less_to_look_at(style: str) -> None:
    assert sum(helps(text) for text in texts(style)) > PARTS


def test_so_it_does_in_three_hundred_rounds() -> None:
    assert sum(helps(text) for text in texts("toy", MANY)) > 2 * MANY


def test_so_it_does_where_few_counts_are_printed() -> None:
    """Then only the courses behind tell what is wrong: a line that moves the fault one course on is not offered."""
    chance = random.Random(7)
    for text in texts("toy") + texts("times_behind"):
        helps(re.sub(r" (?:\(\d+\)|= \d+)$", lambda m: m[0] if chance.random() < 0.4 else "", text, flags=re.M))


@pytest.mark.parametrize("style", ["toy", "british"])
def test_all_of_them_leave_less_to_look_at(style: str) -> None:
    for text in texts(style):
        done = mend(text)
        assert len(done.pattern.findings) <= len(read(text).findings) - len(done.changes)
