"""Numbers as they are said, from a few words of a language: 1 to 199."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

NUMBER = "{number}"  # where a number stands in a phrase


class Numerals:
    """The number words of one way of counting.

    ones     the words for 1, 2, ...: up to 9 where the language builds "ten one", up to 19 where it does not.
    tens     the words for 20, 30, ... 90; with `ones` up to 9 they begin with 10.
    hundred  ways to say 100, the usual first; may be empty where such counting ends before.
    joined   what may stand between the hundred and the rest, the usual first.
    most     the largest number that is listened for.
    """

    def __init__(
        self,
        most: int,
        ones: Sequence[str],
        tens: Sequence[str],
        hundred: Sequence[str] = (),
        joined: Sequence[str] = ("",),
    ) -> None:
        if len(ones) not in (9, 19) or len(tens) != (8 if len(ones) == 19 else 9):
            raise ValueError("number words: 19 ones with 8 tens, or 9 ones with 9 tens")
        if most > (199 if hundred else 99):
            raise ValueError("number words: no word for so large a number")
        self.most, self.ones, self.tens = most, tuple(ones), tuple(tens)
        self.hundred, self.joined = tuple(hundred), tuple(joined)

    def say(self, number: int) -> list[str]:
        """Every way to say 1 <= number <= 199, the usual first."""
        if number <= len(self.ones):
            return [self.ones[number - 1]]
        if number < 100:
            tens, ones = divmod(number, 10)
            ten = self.tens[tens - (2 if len(self.ones) == 19 else 1)]
            return [f"{ten} {self.ones[ones - 1]}" if ones else ten]
        if number == 100:
            return list(self.hundred)
        rest = self.say(number - 100)
        return [" ".join(p for p in (h, j, r) if p) for h in self.hundred for j in self.joined for r in rest]

    def all(self) -> list[tuple[str, int]]:
        """Every number that is listened for, in every way it is said, as (words, number)."""
        return [(said, number) for number in range(1, self.most + 1) for said in self.say(number)]

    @cached_property
    def values(self) -> dict[str, int]:
        """Words to number."""
        return dict(self.all())
