"""Numbers as they are said: "forty-two", "second", "two point seven five"."""

from __future__ import annotations

_SMALL = (
    "nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_ODD_ORDINALS = {
    "one": "first",
    "two": "second",
    "three": "third",
    "five": "fifth",
    "eight": "eighth",
    "nine": "ninth",
    "twelve": "twelfth",
}


def cardinal(number: int) -> str:
    """A whole number from 0 to 999,999 in words. ValueError outside."""
    if not 0 <= number <= 999_999:
        raise ValueError(f"{number} is not between 0 and 999,999.")
    if number < 20:
        return _SMALL[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return _TENS[tens] + (f"-{_SMALL[ones]}" if ones else "")
    size, name = (100, "hundred") if number < 1000 else (1000, "thousand")
    high, low = divmod(number, size)
    tail = ""
    if low:
        tail = f" and {cardinal(low)}" if low < 100 else f" {cardinal(low)}"
    return f"{cardinal(high)} {name}{tail}"


def ordinal(number: int) -> str:
    """ "first", "twenty-first", "one hundredth". ValueError outside 0 to 999,999."""
    words = cardinal(number)
    at = max(words.rfind(" "), words.rfind("-")) + 1
    head, last = words[:at], words[at:]
    if last in _ODD_ORDINALS:
        return head + _ODD_ORDINALS[last]
    if last.endswith("y"):
        return head + last[:-1] + "ieth"
    return head + last + "th"


def decimal(text: str) -> str:
    """Digits with an optional point, as a voice says them: "2.75" -> "two point seven five".

    Numbers too long to be a count are said digit by digit.
    """
    whole, _, part = text.partition(".")
    spoken = cardinal(int(whole)) if len(whole) <= 6 else " ".join(_SMALL[int(d)] for d in whole)
    return spoken + (" point " + " ".join(_SMALL[int(d)] for d in part) if part else "")


def times(number: int) -> str:
    """How often, in words: "once", "twice", "seven times"."""
    return {1: "once", 2: "twice"}.get(number) or f"{cardinal(number)} times"


def times_in_digits(number: int) -> str:
    """How often, for the eye: "once", "twice", "7 times"."""
    return {1: "once", 2: "twice"}.get(number) or f"{number} times"
