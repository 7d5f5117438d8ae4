"""A recount: somebody counts what is there, at 60 to 120 a minute, and the last number is the count. Pure.

What an engine hears of it is a row of numbers in time, some of them mistaken and some not heard. Two things are known:
each number follows the one before, and they come in a beat. So the row that was said is found as the likeliest one that
could have been heard like this (Viterbi 1967), each number at its time: three that were lost leave a gap of four beats,
and a thirty among fifteen and seventeen is hardly one. It is sure where no other last number comes near.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from statistics import median

from hookside.voice.numerals import Numerals

MOST = 120  # the largest number that is listened for
FURTHEST = 9  # numbers that may be lost in a row
AFRESH = 1.0  # seconds of silence before a count that begins anew
BEATS = 6  # of the latest that tell the beat
UNCLEAR_MOST = 3  # words in a row of which none is clear
PARTED = 1.6  # seconds at most from "twenty" to its "one", where a breath or a beat comes between
MARGIN = 2.0  # log odds by which a last number that is sure is likelier than any other

# Log odds of what may have happened, each set on the tuning voices (tests/listening/README.md).
ALIKE, OTHER, UNCLEAR = -2.5, -4.5, -1.5  # heard as a number that sounds like it, as another, as what fits badly
AGAIN, LOST = -1.5, -0.7  # a number that is no new one; each one not heard
HALF = -1.0  # "twenty" heard of twenty four: the rest may still come, or was lost
OFF, RESTED = -4.0, -1.0  # the most that being out of the beat costs, and that a rest between two numbers does
BEGINS = (0.0, -2.0, -3.0)  # with one, two, three
ELSEWHERE = -6.0


TENS = range(20, 100, 10)


@dataclass(frozen=True)
class Word:
    """A number that was heard, None where something was said that fits none; `clear`: it fits well."""

    at: float
    number: int | None
    clear: bool = True


@dataclass
class Recount:
    numerals: Numerals
    words: list[Word] = field(default_factory=list)
    before: int = 0  # the number before the last word

    def hear(self, words: Sequence[Word], quiet: float) -> tuple[int, bool]:
        """(the count so far, whether it is sure). `quiet`: seconds of silence before these words. Raises ValueError
        where no word was heard yet."""
        for word in words:
            self.add(word)
        if [w.number for w in words[:3]] == [1, 2, 3] and quiet >= AFRESH:
            self.words = list(words)
        best, second, path = self.likeliest()
        last = self.words[-1]
        self.before = path[-2] if len(path) > 1 else 0
        sure = best - second >= MARGIN and last.number == path[-1] and last.clear and path[0] <= len(BEGINS)
        return path[-1], sure

    def add(self, word: Word) -> None:
        """One word more. Behind twenty comes twenty one and never one: so twenty, and then one, is one number that was
        said in two parts, by who lets a stitch through her fingers at each."""
        last = self.words[-1] if self.words else None
        ten = last.number if last is not None else None
        follows = ten is not None and ten in TENS and word.number is not None and 0 < word.number < 10
        if last and ten and word.number and follows and word.at - last.at <= PARTED and self.reached(ten - FURTHEST):
            self.words[-1] = Word(last.at, ten + word.number, last.clear and word.clear)
            return
        self.words.append(word)

    @property
    def half(self) -> bool:
        """Whether the number in hand is said in part: "twenty" where twenty itself was before it."""
        ten = self.words[-1].number if self.words else None
        return ten is not None and ten in TENS and self.reached(ten)

    def reached(self, number: int) -> bool:
        """Whether a number of so much, and not ten more, was heard before the last word."""
        return any(w.number is not None and number <= w.number < number + 10 for w in self.words[:-1])

    @property
    def trusts(self) -> bool:
        """Whether one more unclear word may belong to the count: after a few in a row it is talk."""
        return any(word.number is not None and word.clear for word in self.words[-UNCLEAR_MOST:])

    def likeliest(self) -> tuple[float, float, list[int]]:
        """(log odds of the likeliest row, of the likeliest with another last number, the row)."""
        if not self.words:
            raise ValueError("a recount of nothing")
        beat = self.beat()
        states = range(1, MOST + 1)
        first = self.words[0]
        odds = [(BEGINS[n - 1] if n <= len(BEGINS) else ELSEWHERE) + self.fits(first, n) for n in states]
        steps: list[list[int]] = []
        for before, word in pairwise(self.words):
            moved = [step(d, word.at - before.at, beat) for d in range(FURTHEST + 2)]
            came, taken = [], []
            for n in states:
                best, d = max((odds[n - 1 - d] + moved[d], d) for d in range(min(n, len(moved))))
                came.append(best + self.fits(word, n))
                taken.append(d)
            odds = came
            steps.append(taken)
        end = max(states, key=lambda n: odds[n - 1])
        second = max(odds[n - 1] for n in states if n != end)
        path = [end]
        for taken in reversed(steps):
            path.append(path[-1] - taken[path[-1] - 1])
        return odds[end - 1], second, path[::-1]

    def beat(self) -> float | None:
        """Seconds from one number to the next, by those heard one behind the other; None where there are too few."""
        gaps = [
            b.at - a.at
            for a, b in pairwise(self.words)
            if a.number is not None and b.number == a.number + 1 and a.clear and b.clear
        ]
        return median(gaps[-BEATS:]) if len(gaps) >= 3 else None

    def fits(self, word: Word, number: int) -> float:
        """Log odds that a number is heard as this word."""
        if word.number is None or word.number == number:
            return 0.0
        if not word.clear:
            return UNCLEAR
        if word.number in TENS and word.number < number < word.number + 10:
            return HALF
        return ALIKE if self.alike(word.number, number) else OTHER

    def alike(self, a: int, b: int) -> bool:
        """Whether two numbers sound alike: twenty one and thirty one, twenty and twenty one."""
        less, more = min(a, b), max(a, b)
        if more in (10 * less, 10 * (less - 10)):  # eight and eighty, fourteen and forty
            return True
        x, y = (self.numerals.say(n)[0].split() for n in (a, b))
        return x[-1] == y[-1] or x == y[: len(x)] or y == x[: len(y)]


def step(ahead: int, seconds: float, beat: float | None) -> float:
    """Log odds of going on by so many numbers in so much time."""
    cost = AGAIN if not ahead else LOST * (ahead - 1)
    if not beat:
        return cost - abs(ahead - 1)
    beats = seconds / beat
    off = -0.5 * ((ahead - beats) / (0.3 + 0.12 * beats)) ** 2
    return cost + max(RESTED if ahead == 1 and beats > 1 else OFF, off)
