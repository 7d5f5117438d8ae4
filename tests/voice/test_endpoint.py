"""Where speech begins and ends, frame by frame."""

from __future__ import annotations

import math
import random
from array import array

import pytest

from hookside.voice.endpoint import BEFORE, BEFORE_NOISY, BEGINS, ENDS, FRAME_BYTES, NOISY, Endpoint, level


def tone(decibels: float, seed: int = 0) -> bytes:
    """A frame of noise of this level."""
    chance = random.Random(seed)
    peak = 32768 * math.sqrt(3) * 10 ** (decibels / 20)
    return array("h", (round(chance.uniform(-peak, peak)) for _ in range(FRAME_BYTES // 2))).tobytes()


@pytest.mark.parametrize("decibels", [-60.0, -40.0, -20.0])
def test_a_level_is_decibels_of_full_scale(decibels: float) -> None:
    assert level(tone(decibels)) == pytest.approx(decibels, abs=1)


def test_digital_silence_has_a_level() -> None:
    assert level(bytes(FRAME_BYTES)) == -100


def run(levels: list[float], voices: bool = True) -> tuple[list[int], Endpoint]:
    """How many frames of speech each frame brought."""
    ends = Endpoint()
    return [len(ends.take(tone(d, i), voices)) for i, d in enumerate(levels)], ends


def test_speech_between_silence_comes_out_with_a_little_before_and_after() -> None:
    given, ends = run([-70] * 20 + [-20] * 30 + [-70] * 30)
    assert sum(given) == BEFORE - BEGINS + 30 + ENDS
    assert not ends.open
    assert (ends.first, ends.last) == (20, 49)
    assert max(given) == BEFORE


def test_a_pause_within_a_word_is_no_end() -> None:
    given, ends = run([-70] * 20 + [-20] * 10 + [-70] * 5 + [-20] * 10 + [-70] * 20)
    assert (ends.first, ends.last) == (20, 44)
    assert sum(given) == BEFORE - BEGINS + 25 + ENDS


def test_a_knock_is_no_speech() -> None:
    given, ends = run([-70] * 20 + [-10] * 4 + [-70] * 20)
    assert sum(given) == 0
    assert not ends.open


def test_voices_that_go_on_become_the_room() -> None:
    """A murmur that never stops, and speech ten decibels above it: the speech comes out by itself."""
    _, ends = run([-40] * 120)
    assert not ends.open
    ends_of_speech = 0
    for i, d in enumerate([-28.0] * 25 + [-40.0] * 20):
        was = ends.open
        ends.take(tone(d, i), True)
        ends_of_speech += was and not ends.open
    assert ends_of_speech == 1
    assert (ends.first, ends.last) == (120, 144)


def test_what_no_voice_is_in_is_no_speech() -> None:
    given, _ = run([-70] * 20 + [-20] * 30, voices=False)
    assert sum(given) == 0


def test_how_far_speech_stands_above_the_room() -> None:
    _, ends = run([-50] * 40 + [-20] * 30 + [-50] * 20)
    assert ends.above == pytest.approx(30, abs=2)


def test_a_gap_tells_nothing_of_the_room() -> None:
    ends = Endpoint()
    for i in range(100):
        ends.take(tone(-40, i), True)
    room = ends.room
    for _ in range(50):
        ends.take(bytes(FRAME_BYTES), True, known=False)
    assert ends.room == room


def test_forgetting_drops_the_utterance_and_keeps_the_room() -> None:
    given, ends = run([-45] * 60 + [-20] * 10)
    assert ends.open
    room = ends.room
    ends.forget()
    assert not ends.open
    assert ends.room == room
    assert sum(given) > 0
    assert [len(ends.take(tone(-45, i), True)) for i in range(20)] == [0] * 20


def test_in_a_noisy_room_less_is_given_out_from_before() -> None:
    given, ends = run([-40] * 120 + [-20] * 30 + [-40] * 30)
    assert ends.noisy
    assert sum(given) == BEFORE_NOISY + 30 + ENDS


def test_what_somebody_says_without_a_rest_is_no_noisy_room() -> None:
    """Four tenths of talk are soft or between two words; it is as loud as babble taken all together."""
    _, ends = run(([-25] * 6 + [-40] * 2 + [-68] * 2) * 12)
    assert ends.room > NOISY
    assert not ends.noisy


def test_a_room_is_noisy_again_soon_after_somebody_has_talked_in_it() -> None:
    _, ends = run([-42, -40, -38] * 40 + [-20] * 60 + [-42, -40, -38] * 15)
    assert ends.noisy
