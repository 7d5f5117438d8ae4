"""Decreases invisible or plain: the same counts, and refused where an invisible one would show or take needed loops."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookside.compile import Choices, lay, read
from hookside.habits import habits
from hookside.habits.worked import listed
from hookside.pattern import Group, Node

HEAD = "Buoy\nUS terms\nHook: 3 mm\n\nBuoy\n"
START = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc x 6. (12)\nRnd 3: sc in each st around. (12)\n"
PATTERNS = Path(__file__).resolve().parents[2] / "patterns"


def kinds(body: list[Node]) -> set[str]:
    found: set[str] = set()
    for node in body:
        found |= {node.stitch} if isinstance(node, Group) else kinds(node.body)
    return found & {"dec", "sc2tog", "inv dec"}


def test_plain_and_invisible_are_the_same_counts() -> None:
    for file, written, other in (("seal-pup.txt", "invisible", "plain"), ("striped-buoys.txt", "plain", "invisible")):
        text = (PATTERNS / file).read_text(encoding="utf-8")
        pattern = read(text)
        before = [one.strand for one in lay(pattern, text, Choices())]
        after = [one.strand for one in lay(pattern, text, Choices.model_validate({"decreases": other}))]
        same = [one.strand.id for one in lay(pattern, text, Choices.model_validate({"decreases": written}))]
        assert same == [strand.id for strand in before]
        for old, new in zip(before, after, strict=True):
            assert [(c.id, c.uses, c.makes, c.end) for c in old.courses] == [
                (c.id, c.uses, c.makes, c.end) for c in new.courses
            ]
        told = set().union(*(kinds(c.body) for strand in after for c in strand.courses))
        assert told == ({"inv dec"} if other == "invisible" else {"dec"})


def test_plain_takes_the_name_the_text_has() -> None:
    text = HEAD + START + "Rnd 4: sc2tog, inv dec x 2, sc in next 6 sts. (9)\n"
    (one,) = lay(read(text), text, Choices(decreases="plain"))
    assert kinds(one.strand.courses[-1].body) == {"sc2tog"}


@pytest.mark.parametrize(
    ("rounds", "why"),
    [
        ("Rnd 4: BLO sc2tog 6 times. (6)\n", "it is worked into one loop"),
        (
            "Rnd 4: sc2tog, sc in next 10 sts. (11)\nRnd 5: FLO sc in each st around. (11)\n",
            "round 5 goes into the front",
        ),
        ("Rnd 4: turn, sc2tog, sc in next 10 sts. (11)\n", "the work is turned there"),
        (
            "Rnd 4: sc2tog, sc in next 10 sts. (11)\nRnd 5: sc in each st around. (11)\nFasten off.\n\n"
            "Collar\nRnd 1: Join yarn, sc in the front loops of round 3. (12)\n",
            "its front loops are needed later",
        ),
    ],
)
def test_refused_with_the_reason(rounds: str, why: str) -> None:
    """At-the-chair: right side facing, unturned, both loops, not where the next round needs the front loops."""
    allowed = habits(read(HEAD + START + rounds)).invisible
    assert [change for change in allowed.changes if "4" in change] == []
    assert len(allowed.stays) == 1
    assert allowed.stays[0].startswith("Buoy: Round 4 stays plain: ")
    assert why in allowed.stays[0]


def test_rows_stay_plain() -> None:
    pattern = read((PATTERNS / "signal-pennant.txt").read_text(encoding="utf-8"))
    allowed = habits(pattern).invisible
    assert allowed.changes == []
    assert allowed.stays == [
        "Pennant: Rows 13, 17, 21, 25, 29, 33 and 37 stay plain: an invisible decrease shows on the other side of "
        "turned rows."
    ]


def test_closing_through_the_front_loops_needs_none_of_another_round() -> None:
    text = (PATTERNS / "striped-buoys.txt").read_text(encoding="utf-8")
    assert habits(read(text)).invisible.changes == ["rounds 16, 17, 19, 21 and 23 of Buoy"]


@pytest.mark.parametrize(
    ("labels", "said"),
    [
        (["5"], "round 5"),
        (["5", "6"], "rounds 5 and 6"),
        (["5", "7", "8", "9"], "rounds 5 and 7 to 9"),
        (["9", "10", "11"], "rounds 9 to 11"),
        (["1", "1b", "2"], "rounds 1, 1b and 2"),
    ],
)
def test_courses_listed(labels: list[str], said: str) -> None:
    assert listed([f"round {label}" for label in labels]) == said
