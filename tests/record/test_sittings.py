"""Sittings and pace from moves with times; all moves here are demo."""

from __future__ import annotations

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookside.record import Sitting, Worked, pace, sittings

START = 1_700_000_000.0
MINUTE = 60.0


def hand(at: float, stitches: int, run: str = "p1.c1") -> Worked:
    return Worked(START + at, run, stitches, hands=True)


def evening(begun: float, rate: float, minutes: int, every: int = 1) -> list[Worked]:
    """A sitting of so many minutes at so many stitches a minute, told every so many minutes."""
    return [hand(begun + at * MINUTE, round(rate * every)) for at in range(0, minutes + 1, every)]


def test_a_rest_ends_a_sitting_and_a_slow_round_does_not() -> None:
    moves = [hand(0, 30), hand(19 * MINUTE, 30), hand(60 * MINUTE, 30), hand(61 * MINUTE, 6)]
    first, second = sittings(moves)
    assert (first.seconds, first.stitches, first.moves) == (19 * MINUTE, 60, 2)
    assert (second.begun, second.ended) == (START + 60 * MINUTE, START + 61 * MINUTE)
    assert sittings([]) == []


def test_a_clock_that_was_put_back_ends_a_sitting() -> None:
    assert len(sittings([hand(0, 6), hand(60, 6), hand(-3600, 6), hand(-3500, 6)])) == 2


def test_the_first_move_tells_nothing_of_how_long_it_took() -> None:
    (one,) = sittings(evening(0, 20, 10))
    assert one.stitches == 220
    assert one.paced == 200
    assert one.a_minute == pytest.approx(20)


def test_what_is_taken_back_counts_against_it() -> None:
    (one,) = sittings([*evening(0, 20, 10), hand(10.5 * MINUTE, -20), hand(11 * MINUTE, 20)])
    assert one.a_minute == pytest.approx(200 / 11)


def test_a_jump_is_no_pace() -> None:
    """ "I worked on to the end of round 15": those stitches were not made in that minute."""
    (one,) = sittings([*evening(0, 20, 10), Worked(START + 10.2 * MINUTE, "p1.c1", 400, hands=False)])
    assert one.stitches == 620
    assert one.a_minute == pytest.approx(200 / 10.2)


@pytest.mark.parametrize(
    "moves",
    [[hand(0, 6), hand(60, 6)], evening(0, 2, 5), evening(0, 400, 10)],
    ids=["short", "hardly a stitch", "faster than fingers"],
)
def test_some_sittings_tell_nothing(moves: list[Worked]) -> None:
    assert pace(sittings(moves)) is None


def test_the_pace_is_stitches_over_minutes_so_that_a_long_sitting_weighs_more() -> None:
    day = 86400.0
    found = pace(sittings([*evening(0, 30, 10), *evening(day, 10, 40), *evening(2 * day, 20, 10)]))
    assert found is not None
    assert found.value == pytest.approx((300 + 400 + 200) / 60)
    assert found.sittings == 3
    assert found.low < 10.5
    assert found.high > 20


def test_few_sittings_are_said_to_be_unsure() -> None:
    found = pace(sittings(evening(0, 20, 30)))
    assert found is not None
    assert (found.low, found.high) == (pytest.approx(12), pytest.approx(28))


def test_four_sittings_of_five_lie_inside_the_spread() -> None:
    """Against the standard library's normal distribution: rates whose logarithms are normal."""
    law = statistics.NormalDist(0, 0.3)
    rates = [20 * 2.718281828459045 ** law.inv_cdf((k + 0.5) / 8) for k in range(8)]
    moves = [move for day, rate in enumerate(rates) for move in evening(day * 86400.0, rate, 30, every=10)]
    found = pace(sittings(moves))
    assert found is not None
    inside = sum(found.low <= rate <= found.high for rate in rates)
    assert 6 <= inside <= 7


@given(st.lists(st.tuples(st.floats(-4000, 4000), st.integers(-50, 200), st.booleans()), max_size=60))
def test_nothing_is_lost_between_sittings(steps: list[tuple[float, int, bool]]) -> None:
    at, moves = START, []
    for apart, stitches, hands in steps:
        at += apart
        moves.append(Worked(at, "p1.c1", stitches, hands))
    found: list[Sitting] = sittings(moves)
    assert sum(one.stitches for one in found) == sum(move.stitches for move in moves)
    assert sum(one.moves for one in found) == len(moves)
    assert all(one.seconds >= 0 for one in found)
    told = pace(found)
    assert told is None or 0 < told.low <= told.value <= told.high
