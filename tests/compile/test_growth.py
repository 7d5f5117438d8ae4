"""What a text of twice the length takes is about twice the work: counted in calls, not in seconds."""

from __future__ import annotations

import sys
from collections.abc import Callable
from types import FrameType
from typing import Any

import pytest

from hookside.compile import read

OWL = "R1: 6 sc in mr (6)\nR2: inc x 6 (12)\nR3: (sc, inc) x 6 (18)\n"
MOST = 2.6  # times as many; what grows with the square makes four times as many


def _legs(n: int) -> str:
    legs = "".join(f"LEG {k}\nR1: {k} sc in mr ({k})\nR2: sc around ({k})\n" for k in range(4, n + 4))
    return f"{legs}BODY\n" + "".join(f"R{k}: sc around leg {k}, ch 3, sc around leg {k + 1}\n" for k in range(4, n + 3))


# demo
PAGES: dict[str, Callable[[int], str]] = {
    "parts of one round": lambda n: "".join(f"Ear number {k}\nR1: {k + 4} sc in mr ({k + 4})\n" for k in range(n)),
    "legs of a body": _legs,
    "eyes at every round": lambda n: OWL
    + "".join(f"R{k}: sc around (18)\nInsert the eyes between R{k - 1} and R{k}.\n" for k in range(4, n + 4)),
    "tails": lambda n: OWL + "".join(f"Leave a tail of yarn for part {k}.\n" for k in range(n)),
    "ends of a row": lambda n: f"{OWL}R4: " + "".join(f"{k % 9 + 1} sc + dec, " for k in range(n)),
    "labels to labels": lambda n: "R1-" * (20 * n),
    "second rows again": lambda n: OWL + "Row 2: ch 1, dec at each end, turn (8)\n" * (3 * n),
    "shapings that go on": lambda n: OWL + "".join(f"R{k}-{k + 2}: inc 6 each round\n" for k in range(4, n + 4)),
    "parts like the next": lambda n: "".join(f"Part{k}\nR1-9: as Part{k + 1}\n" for k in range(n)),
    "jobs at every round": lambda n: OWL + " R9: sc 18 (18). Change to red. Stuff." * (2 * n),
    "counts alone": lambda n: OWL + "(6)\n" * (4 * n),
    "rows of a table in quotes": lambda n: OWL + "".join(f'"{k}","(sc, inc) x 6","{k * 6}"\n' for k in range(n)),
}


def _calls(text: str) -> int:
    made = 0

    def count(_frame: FrameType, event: str, _arg: Any) -> None:
        nonlocal made
        made += event in ("call", "c_call")

    sys.setprofile(count)
    try:
        read(text)
    finally:
        sys.setprofile(None)
    return made


@pytest.mark.parametrize("name", PAGES)
def test_twice_the_text_is_twice_the_work(name: str) -> None:
    page = PAGES[name]
    _calls(page(10))  # what is made ready once
    once = _calls(page(120))
    assert _calls(page(240)) < MOST * once
