"""Numbers as they are said."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookside.words.numbers import cardinal, decimal, ordinal, times, times_in_digits

_UNDER_TWENTY = (
    "nought one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen"
)
_BY_TEN = "twenty thirty forty fifty sixty seventy eighty ninety"
_UNITS = {word: n for n, word in enumerate(_UNDER_TWENTY.split())}
_TENS = dict(zip(_BY_TEN.split(), range(20, 100, 10), strict=True))


def _heard(words: str) -> int:
    """The number a listener understands: an independent way back."""
    total = part = 0
    for word in re.split(r"[ -]", words):
        if word == "and":
            continue
        if word == "thousand":
            total, part = (total + part) * 1000, 0
        elif word == "hundred":
            part *= 100
        else:
            part += _UNITS[word] if word in _UNITS else _TENS[word]
    return total + part


@given(st.integers(0, 999_999))
def test_a_listener_hears_the_number(number: int) -> None:
    assert _heard(cardinal(number)) == number


@pytest.mark.parametrize("number", [-1, 1_000_000])
def test_numbers_beyond_are_refused(number: int) -> None:
    with pytest.raises(ValueError, match="is not between"):
        cardinal(number)


# English ordinals: common dictionary forms, from memory.
@pytest.mark.parametrize(
    ("number", "said"),
    [(1, "first"), (2, "second"), (3, "third"), (5, "fifth"), (8, "eighth"), (9, "ninth"), (12, "twelfth"),
     (20, "twentieth"), (21, "twenty-first"), (42, "forty-second"), (100, "one hundredth"),
     (113, "one hundred and thirteenth")],
)  # fmt: skip
def test_ordinals(number: int, said: str) -> None:
    assert ordinal(number) == said


def test_decimals_and_times() -> None:
    assert decimal("2.75") == "two point seven five"
    assert decimal("20") == "twenty"
    assert decimal("12345678") == "one two three four five six seven eight"
    assert [times(n) for n in (1, 2, 7)] == ["once", "twice", "seven times"]
    assert [times_in_digits(n) for n in (1, 2, 7)] == ["once", "twice", "7 times"]
