"""The garbage collector rests while a text is read, and never longer."""

from __future__ import annotations

import gc
import threading

import pytest

from hookside.compile import read, reading
from hookside.notation import uncollected
from hookside.pattern import Pattern

OWL = "R1: 6 sc in mr (6)\nR2: inc x 6 (12)\n"


def test_it_rests_until_the_last_word_is_put(monkeypatch: pytest.MonkeyPatch) -> None:
    on = []

    def dressed(pattern: Pattern) -> Pattern:
        on.append(gc.isenabled())
        return pattern

    monkeypatch.setattr(reading, "dress", dressed)
    read(OWL)
    assert on == [False]
    assert gc.isenabled()


def test_it_is_on_again_after_what_went_wrong(monkeypatch: pytest.MonkeyPatch) -> None:
    def falls(pattern: Pattern) -> Pattern:
        raise ValueError("slipped")

    monkeypatch.setattr(reading, "dress", falls)
    with pytest.raises(ValueError, match="slipped"):
        read(OWL)
    assert gc.isenabled()


def test_the_outer_of_two_turns_it_on() -> None:
    with uncollected():
        with uncollected():
            pass
        assert not gc.isenabled()
    assert gc.isenabled()


def test_a_reading_that_ends_first_leaves_it_resting_for_another_thread() -> None:
    begun, end = threading.Event(), threading.Event()

    def other() -> None:
        with uncollected():
            begun.set()
            end.wait(10)

    thread = threading.Thread(target=other)
    with uncollected():
        thread.start()
        assert begun.wait(10)
    resting = not gc.isenabled()
    end.set()
    thread.join(10)
    assert resting
    assert gc.isenabled()


def test_where_it_was_off_it_stays_off() -> None:
    gc.disable()
    try:
        with uncollected():
            pass
        assert not gc.isenabled()
    finally:
        gc.enable()


def test_a_text_that_was_read_leaves_next_to_no_circles_behind() -> None:
    """What was made meanwhile counts as old from then on: a circle would stay for long (demo: shapings that go on, and
    stitches named behind their shaping)."""
    shaped = "R{n}: sc in next {n} sc, decrease 1 sc (9)\nR{m}: sc around\n"
    rounds = "".join(shaped.format(n=n, m=n + 1) for n in range(3, 200, 2))
    text = f"{OWL}{rounds}Wing\n{OWL}R3: as R2 of owl but dec instead of inc\nRepeat from R1.\n"
    read(text)  # what is kept for the next one
    gc.collect()
    read(text)
    assert gc.collect() < 20
