"""Counting along: a maker counts aloud, and the place follows the number. Pure; times come with what was heard.

A grammar of numbers turns any sound into a number, so a number alone is no evidence. What counts together: how like
the sounds are to the number; whether it is one that may come now, the next before those that would skip; whether it
comes in the beat of the count so far. A number that could be talk waits until the next one bears it out. One that was
missed or misheard is made good by the one after it, since each says where the hook is.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from statistics import median

from hookside.voice.decision import CALM, QUIET_ANSWER, Counting, Expecting, longest
from hookside.voice.engines import Row
from hookside.voice.heard import Heard
from hookside.voice.likeness import Sounds, measures
from hookside.voice.phrasebook import Phrasebook, runs
from hookside.voice.recount import MOST, PARTED, TENS, Recount, Word

FASTEST = 1.0  # stitches a second that hands can make: who counts faster counts what is there already
ALIVE = 12.0  # seconds after which a count is no longer going on, at least
BEATS = 3.0  # or so many of its beats
RECOUNT_ENDS = 6.0  # seconds without a number that end a recount
RECOUNT_BEGINS = 10.0  # and before its first number
SHORTEST = 0.15  # seconds of a sound that may have been a number
LEAST_A_SOUND = 0.05  # seconds that each sound of a number takes at least
RECOUNT_FITS = -9.0  # a number in one fits at least so well (`Span.sure`), else it was something else

NEAR, NEAR_GOING = 2, 4  # so far ahead a number is taken by itself, before and while a count is going on

# Log odds for a number by its rank among those possible: the next one, one skipped, more skipped, none of them.
RANKS = (1.0, -0.8, -2.0, -2.0)
ELSEWHERE = -5.0
AGAIN = -1.5  # the number that was counted last, said once more while the count goes on
IN_BEAT = 1.0  # a count is going on, and this is about when its next number is due
DUE, OFF_BEAT = -1.0, 0.2  # numbers were missed, and this is the one that the beat has come to; by so much at most
FIRST = -0.5  # no count is going on
IN_A_RUN = 0.7  # for each further number of a breath
OTHER_WORD = 1.2  # what it costs to take the sounds for another number than the grammar did
ACT = 1.5
WAIT = -4.0  # from here on a number may be borne out by the next


@dataclass(frozen=True)
class Counted:
    """`number` is the last that was heard; `confirmed` whether numbers before it led there; `recount`: the maker
    counts what is there, and nothing moves. `odds` are for the log."""

    number: int
    confirmed: bool
    recount: bool
    words: str
    odds: float = 0.0


@dataclass(frozen=True)
class Pending:
    """A number that may have been counted, when it was said, and the log odds that the count is there."""

    number: int
    when: float
    odds: float


@dataclass
class Count:
    """Follows one maker. Belongs to one thread."""

    book: Phrasebook
    last: int | None = None  # the number counted last
    when: float = -100.0  # it was said
    beats: deque[float] = field(default_factory=lambda: deque(maxlen=7))
    pending: Pending | None = None  # a number that waits for the next
    half: tuple[int, float] | None = None  # the ten of a number whose rest may come, and when it was said
    numbered: bool = False  # the latest utterance was numbers
    rested: float = -100.0  # when the round in hand was finished
    recounting: float | None = None  # the last number of a recount was said at
    recounted: int = 0
    row_so_far: Recount = field(init=False)  # the recount

    def __post_init__(self) -> None:
        self.row_so_far = Recount(self.book.counting.numbers)

    def phrases(self, expecting: Expecting) -> list[str]:
        """Numbers and runs of them, and words for an increase and a decrease."""
        if expecting.count is None:
            return []
        # Alike all through a round, since a grammar takes a while to make.
        ahead = expecting.count.next
        most = max([1, *ahead, (ahead[0] if ahead else 1) - 1 + expecting.count.left])
        return runs(self.book, max(40, 20 * math.ceil(most / 20)))

    def row(self) -> Row | None:
        """While a recount goes on: the numbers one after another, beginning with the next."""
        if self.recounting is None:
            return None
        numbers = self.book.counting.numbers
        said = tuple(self.book.spoken(n) for n in range(1, min(MOST, numbers.most) + 1))
        so_far = self.row_so_far
        return Row(said, min(so_far.before if so_far.half else self.recounted, len(said) - 1), so_far.half)

    def begin(self, now: float) -> None:
        """A recount begins, whether or not the maker counts along as she works."""
        self.recounting, self.recounted, self.pending = now, 0, None
        self.row_so_far = Recount(self.book.counting.numbers)

    @property
    def patience(self) -> float:
        """Seconds that a recount waits for a number."""
        return RECOUNT_ENDS if self.row_so_far.words else RECOUNT_BEGINS

    def rest(self, now: float) -> None:
        """Time has passed in which nothing was said."""
        if self.recounting is not None and now - self.recounting > self.patience:
            self.recounting = None

    def hear(self, heard: Heard, expecting: Expecting) -> Counted | None:
        """What an utterance does to the count; None where it is no number, or not taken for one."""
        before, self.half = self.half, None
        if self.recounting is not None:
            if heard.start - self.recounting <= self.patience:
                return self.recount(heard)
            self.recounting = None
        count = expecting.count
        if count is None:
            return None
        if not count.left and self.last is not None:
            self.rested = max(self.rested, self.when)
        heard, ten = self.parted(heard)
        numbers = self.numbers(heard.words, count)
        if before is not None and heard.start - before[1] <= PARTED and numbers and numbers[0] < 10:
            numbers = [before[0] + numbers[0], *numbers[1:]]
            numbers = numbers if follow_each_other(numbers) else numbers[:1]
            heard = replace(heard, quiet=max(heard.quiet, QUIET_ANSWER))  # a breath within a number is no silence
        self.numbered = bool(numbers or ten)
        counted = self.follow(numbers, heard, count) if numbers else None
        if ten is not None and self.last is not None and 0 <= self.last - ten < 9:
            self.half = (ten, heard.end)
        return counted

    def guess(self, heard: Heard, expecting: Expecting) -> Counted | None:
        """An utterance that the engine took for nothing that was said: while a count goes on, and two numbers have told
        its beat, its sounds are held against those of the next numbers. A grammar finds a path through something else
        where a speaker's number is unlike the one it knows."""
        count = expecting.count
        if count is None or self.recounting is not None or heard.quiet < QUIET_ANSWER:
            return None
        if self.numbered or not self.going(heard) or not self.beats:
            return None
        sounds, found = Sounds.load(self.book.language), measures(heard)
        if sounds is None or found is None:
            return None
        choices = [(-math.inf, 0)]
        for number in count.next[:2]:
            said = self.book.sounds(number)
            if LEAST_A_SOUND * len(said) <= heard.length <= longest(len(said)):
                odds = self.beat_odds(heard) + sounds.weighed(found, said) + rank(number, count) - OTHER_WORD
                choices.append((odds, number))
        odds, number = max(choices)
        return self.take(number, heard, True, odds) if odds >= ACT else None

    def parted(self, heard: Heard) -> tuple[Heard, int | None]:
        """(the utterance without what belongs to the next number, the ten that is its last word): a breath may end
        within "twenty one", and where twenty was counted before, "twenty" is the beginning of a number."""
        words, values = heard.words.split(), self.book.counting.numbers.values
        ten = values.get(words[-1]) if words else None
        if ten is None or ten not in TENS:
            return heard, None
        before = next((v for n in range(len(words) - 1) if (v := values.get(" ".join(words[n:-1])))), None)
        if len(words) == 1:
            before = self.last if self.going(heard) else None
        if before is None or not 0 <= before - ten < 9:
            return heard, ten
        spans = heard.spans[:-1] if len(heard.spans) == len(words) else heard.spans
        return replace(heard, words=" ".join(words[:-1]), spans=spans), ten

    # -- a recount ----------------------------------------------------------------

    def recount(self, heard: Heard) -> Counted | None:
        """The last number is the count; where it is not sure the page asks. Sounds that are no number may hide one."""
        words = self.row_of(heard)
        if not any(word.clear for word in words):
            if heard.length < SHORTEST or not self.row_so_far.words or not self.row_so_far.trusts:
                return None
            words = words or [Word(heard.start, None)]
        self.recounting = heard.end
        self.recounted, sure = self.row_so_far.hear(words, heard.quiet)
        return Counted(self.recounted, sure, True, heard.words)

    def row_of(self, heard: Heard) -> list[Word]:
        """The numbers of an utterance of the row."""
        values, words = self.book.counting.numbers.values, heard.words.split()
        spans = heard.spans if len(heard.spans) == len(words) else ()
        out: list[Word] = []
        at = 0
        while at < len(words):
            # Twenty one is one number, twenty and one would be two: the row never has one behind twenty.
            size = next((n for n in range(min(4, len(words) - at), 0, -1) if " ".join(words[at : at + n]) in values), 0)
            if not size:
                return []
            fits = [span.sure for span in spans[at : at + size] if span.sure is not None]
            start = spans[at].start if spans else heard.start + heard.length * at / len(words)
            clear = min(fits, default=0.0) >= RECOUNT_FITS
            out.append(Word(start, values[" ".join(words[at : at + size])], clear))
            at += size
        return out

    def too_fast(self, numbers: Sequence[int], heard: Heard) -> bool:
        """More stitches than hands can have made since the round was finished."""
        since = heard.end - self.rested
        return self.rested > 0 and numbers[0] == 1 and len(numbers) >= 3 and len(numbers) > 1 + since * FASTEST

    # -- the count along ------------------------------------------------------------

    def follow(self, numbers: Sequence[int], heard: Heard, count: Counting) -> Counted | None:
        if heard.quiet < QUIET_ANSWER:
            return None
        if self.too_fast(numbers, heard):
            self.begin(heard.end)
            return self.recount(heard)
        number, odds = self.judged(numbers, heard, count)
        if number == self.last and self.going(heard):
            self.when = heard.end
            return None
        pending = self.pending
        borne_out = -math.inf if pending is None else self.borne_out(pending, numbers, heard, count)
        if borne_out >= ACT:
            return self.take(numbers[-1], heard, True, borne_out)
        going = self.going(heard)
        near = number in count.next[: NEAR_GOING if going else NEAR] or self.due(number, heard)
        # A count that begins in a pause of talk, or with a number that the grammar did not hear, is told by its second.
        trusted = going or (heard.quiet >= CALM and number in numbers)
        if odds >= ACT and trusted and (near or (len(numbers) > 1 and going)):
            return self.take(number, heard, going, odds)
        if max(odds, borne_out) > WAIT:
            number = numbers[-1] if borne_out > odds else number
            self.pending = Pending(number, heard.end, max(odds, borne_out))
        return None

    def borne_out(self, pending: Pending, numbers: Sequence[int], heard: Heard, count: Counting) -> float:
        """Log odds that the count was where a number before told, and has come from there to these: where a grammar
        makes numbers of talk, one seldom follows the other."""
        ahead = numbers[0] - pending.number
        if not 1 <= ahead <= 2 or heard.start - pending.when > self.alive or numbers[-1] not in count.next:
            return -math.inf
        return pending.odds + self.fit(numbers, heard) + RANKS[ahead - 1]

    def take(self, number: int, heard: Heard, confirmed: bool, odds: float) -> Counted:
        if self.last is not None and number > self.last and self.going(heard):
            self.beats.append((heard.end - self.when) / (number - self.last))
        self.last, self.when, self.pending = number, heard.end, None
        return Counted(number, confirmed, False, heard.words, odds)

    def going(self, heard: Heard) -> bool:
        """Whether a count is going on."""
        return heard.start - self.when < self.alive

    @property
    def alive(self) -> float:
        """Seconds from one number to the next within which they belong to one count."""
        return max(ALIVE, BEATS * self.beat())

    def beat(self) -> float:
        """Seconds from one number to the next, 0 where it is not known."""
        return median(self.beats) if self.beats else 0.0

    # -- evidence -------------------------------------------------------------------

    def numbers(self, words: str, count: Counting) -> list[int]:
        """The numbers of an utterance in order; empty where it is anything but numbers that follow each other. A word
        for an increase or a decrease stands for the next number."""
        counting = self.book.counting
        out: list[int] = []
        rest = words.split()
        while rest:
            size = next(
                (n for n in range(min(4, len(rest)), 0, -1) if " ".join(rest[:n]) in counting.numbers.values), 0
            )
            if size:
                out.append(counting.numbers.values[" ".join(rest[:size])])
            elif (rest[0] in counting.increase and count.inc) or (rest[0] in counting.decrease and count.dec):
                size = 1
                step = 2 if rest[0] in counting.increase and count.style == "round" else 1
                out.append(out[-1] + step if out else count.next[min(step, len(count.next)) - 1] if count.next else 0)
            else:
                return []
            rest = rest[size:]
        return out if follow_each_other(out) else []

    def fit(self, numbers: Sequence[int], heard: Heard) -> float:
        """Log odds for numbers as the engine took them, but for their place in the count."""
        prior = self.prior(numbers, heard)
        odds = None if (sounds := Sounds.load(self.book.language)) is None else sounds.odds(heard)
        return prior + (10 * ((heard.score or 0.0) - 0.8) if odds is None else odds)

    def judged(self, numbers: Sequence[int], heard: Heard, count: Counting) -> tuple[int, float]:
        """(the number, log odds that it was counted)."""
        # A breath may begin with what was counted before.
        new = [n for n in numbers if self.last is None or n > self.last or not self.going(heard)]
        again = numbers[-1] == self.last and self.going(heard)
        first = AGAIN if again else self.place((new or numbers)[0], heard, count)
        odds = self.fit(numbers, heard)
        choices = [(odds + first, numbers[-1])]
        sounds, found = Sounds.load(self.book.language), measures(heard)
        if sounds is None or found is None:
            return numbers[-1], odds + first
        prior = self.prior(numbers, heard)
        called = {*self.book.counting.increase, *self.book.counting.decrease} & set(heard.words.split())
        for number in count.next[: 0 if called else 2]:
            odds = prior + sounds.weighed(found, self.book.sounds(number))
            choices.append((odds + rank(number, count) - OTHER_WORD, number))
        odds, number = max(choices)
        return number, odds

    def due(self, number: int, heard: Heard) -> bool:
        """Whether a number is the one that the beat of the count has come to meanwhile."""
        beat = self.beat()
        if not beat or self.last is None or not self.going(heard):
            return False
        beats = (heard.end - self.when) / beat
        return beats >= 2 and abs(number - self.last - beats) <= OFF_BEAT * beats

    def place(self, number: int, heard: Heard, count: Counting) -> float:
        """Log odds for a number by its place among those possible, or in the beat."""
        odds = rank(number, count)
        return max(odds, DUE) if number in count.next and self.due(number, heard) else odds

    def prior(self, numbers: Sequence[int], heard: Heard) -> float:
        """Log odds for these numbers before their sounds are held against anything."""
        return self.beat_odds(heard) + IN_A_RUN * (len(numbers) - 1)

    def beat_odds(self, heard: Heard) -> float:
        if not self.going(heard):
            return FIRST
        beat = self.beat()
        return IN_BEAT if not beat or 0.4 <= (heard.end - self.when) / beat <= 2.5 else 0.0


def follow_each_other(numbers: Sequence[int]) -> bool:
    return all(0 < b - a <= 2 for a, b in pairwise(numbers)) and 0 not in numbers


def rank(number: int, count: Counting) -> float:
    """Log odds for a number by its place among those possible."""
    if number not in count.next:
        return ELSEWHERE
    at = count.next.index(number)
    return RANKS[at] if at < len(RANKS) else ELSEWHERE + 1
