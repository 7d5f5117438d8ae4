"""Counting along, on utterances made by hand; on sound: tests/listening."""

from __future__ import annotations

import pytest

from hookside.voice.count import Count, Counted
from hookside.voice.decision import Counting, Expecting
from hookside.voice.heard import Heard, Span
from hookside.voice.phrasebook import RUN, Phrasebook
from hookside.voice.recount import Recount, Word

BOOK = Phrasebook.load("en")
EXTRA = {"inc": "IH NG K", "i": "AY", "kept": "K EH P T", "pot": "P AA T"}


class Maker:
    """Somebody who counts through a round, and the page that follows her."""

    def __init__(self, total: int = 36, at: int = 0, style: str = "round") -> None:
        self.count, self.total, self.at, self.clock, self.style = Count(BOOK), total, at, 100.0, style
        self.told: list[Counted | None] = []

    @property
    def expecting(self) -> Expecting:
        ahead = tuple(range(self.at + 1, self.total + 1)) or (1,)
        return Expecting(count=Counting(self.style, ahead, self.total - self.at, inc=True, dec=True))

    def say(self, words: str, after: float = 2.0, phones: str | None = None, fit: float = -4.0) -> Counted | None:
        if words == "let me count":
            self.count.begin(self.clock)
            return None
        start = self.clock + after
        spans, at = [], start
        for word in words.split():
            sounds = BOOK.counting.sounds.get(word) or EXTRA[word]
            end = at + 0.09 * len(sounds.split())
            spans.append(Span(word, at, end, fit, sounds))
            at = end
        heard = " ".join(span.sounds or "" for span in spans) if phones is None else phones
        utterance = Heard(words, start, at, after, 5 * fit + 15, "pocketsphinx", tuple(spans), heard)
        told = self.count.hear(utterance, self.expecting) or self.count.guess(utterance, self.expecting)
        self.clock = at
        self.told.append(told)
        if told is not None and not told.recount:
            self.at = told.number
        return told


def say_number(maker: Maker, *numbers: int, after: float = 2.0) -> None:
    for number in numbers:
        maker.say(BOOK.spoken(number), after)


def test_the_place_follows_the_number() -> None:
    maker = Maker()
    for number in range(1, 37):
        maker.say(BOOK.spoken(number))
        assert maker.at == number
    assert maker.told[0] is not None
    assert not maker.told[0].confirmed
    assert maker.told[5] is not None
    assert maker.told[5].confirmed


def test_runs_in_one_breath() -> None:
    maker = Maker()
    for words in ("one two three four", "five", "six seven eight"):
        maker.say(words, 5.0)
    assert maker.at == 8
    assert maker.count.numbers("one three seven", Counting("round", (1,))) == []


def test_a_number_that_was_missed_is_made_good() -> None:
    maker = Maker()
    say_number(maker, 1, 2, 3, 5, 6)
    assert maker.at == 6


def test_numbers_that_were_missed_are_made_good_by_those_that_bear_each_other_out() -> None:
    """However far they are: one by itself is talk, the next behind it seldom is."""
    maker = Maker()
    say_number(maker, 1, 2, 3)
    for number in (13, 14):
        maker.say(BOOK.spoken(number), 6.0)
    assert maker.at == 14


def test_the_number_that_the_beat_has_come_to_is_taken() -> None:
    maker = Maker()
    say_number(maker, *range(1, 6), after=2.0)
    maker.clock += 4 * 2.35  # four were said, and not heard
    say_number(maker, 10)
    assert maker.at == 10


def test_a_run_of_numbers_bears_itself_out() -> None:
    maker = Maker(at=25)
    say_number(maker, 26, 27)
    maker.clock += 3
    maker.say("thirty three thirty four thirty five")
    assert maker.at == 35


@pytest.mark.parametrize("breath", [0.2, 0.9])
def test_a_number_counted_in_two_parts_is_one(breath: float) -> None:
    maker = Maker(at=20)
    say_number(maker, 21, 22)
    maker.say("twenty")
    assert maker.at == 22
    maker.say("three", breath)
    assert maker.at == 23
    maker.say("twenty four twenty")
    maker.say("five twenty six", breath)
    assert maker.at == 26


def test_what_a_breath_begins_is_no_number_of_its_own() -> None:
    maker = Maker(total=42, at=40)
    maker.count.last, maker.count.when = 40, 99.0
    maker.say("forty one forty")  # the path of a grammar may go on within a number, over a breath that hisses
    assert maker.at == 41
    assert maker.count.half is not None


def test_a_number_unlike_the_one_the_engine_knows_is_told_by_its_sounds_while_a_count_goes_on() -> None:
    maker = Maker()
    say_number(maker, 1, 2, 3, 4)
    maker.say("i kept", phones="F AY V", fit=-6.0)
    assert maker.at == 5
    maker.say("pot", phones="P AA T", fit=-7.0)
    assert maker.at == 5
    maker.clock += 60
    maker.say("i kept", phones="S IH K S", fit=-6.0)
    assert maker.at == 5


def test_a_count_that_begins_in_a_pause_of_talk_is_told_by_its_second_number() -> None:
    maker = Maker(at=10)
    assert maker.say("eleven", 0.5) is None
    told = maker.say("twelve", 0.5)
    assert told is not None
    assert told.number == 12
    calm = Maker(at=10)
    calm.say("eleven", 1.5)
    assert calm.at == 11


def test_one_number_makes_no_count_in_which_sounds_are_guessed() -> None:
    maker = Maker(at=10)
    say_number(maker, 11)
    maker.say("i kept", phones="T W EH L V", fit=-6.0)
    assert maker.at == 11
    say_number(maker, 12)
    maker.say("i kept", phones="TH ER T IY N", fit=-6.0)
    assert maker.at == 13


def test_a_number_said_twice_moves_once() -> None:
    maker = Maker()
    say_number(maker, 1, 2, 3, 3)
    assert maker.told[-1] is None
    say_number(maker, 4)
    assert maker.at == 4


def test_what_sounds_alike_is_settled_by_what_is_possible() -> None:
    maker = Maker(at=12)
    maker.count.last, maker.count.when = 12, 99.0
    told = maker.say("thirty", phones="TH ER T IY N")
    assert told is not None
    assert told.number == 13


def test_a_number_far_from_the_count_is_no_move() -> None:
    maker = Maker()
    say_number(maker, 1, 2, 3)
    maker.say("twenty seven")
    assert maker.at == 3
    say_number(maker, 4)
    assert maker.at == 4


def test_a_count_taken_up_elsewhere_is_borne_out_by_its_next_number() -> None:
    maker = Maker()
    say_number(maker, 1, 2, 3)
    maker.clock += 30
    say_number(maker, 7)
    first = maker.at
    say_number(maker, 8)
    assert (first, maker.at) == (3, 8)


def test_sounds_that_are_no_number_move_nothing() -> None:
    maker = Maker(at=10)
    for words, phones in (("eleven", "AH B AA T IH M"), ("twelve", "P AO L"), ("eleven", "S M UW DH")):
        maker.say(words, 3.0, phones, fit=-9.0)
    assert maker.at == 10


def test_no_count_where_none_is_expected_and_no_words_beside_numbers() -> None:
    maker = Maker()
    heard = Heard("one", 0, 0.3, 1, None, "pocketsphinx")
    assert maker.count.hear(heard, Expecting()) is None
    assert maker.count.numbers("next round", Counting("round", (1,))) == []


@pytest.mark.parametrize(("style", "leads_to"), [("repeat", 5), ("round", 6)])
def test_an_increase_belongs_to_the_count(style: str, leads_to: int) -> None:
    """Through the round an increase is two stitches; within the repeat it is called as the last of it."""
    maker = Maker(style=style)
    say_number(maker, 1, 2, 3, 4)
    maker.say("inc")
    assert maker.at == leads_to


def test_let_me_count_moves_nothing_and_keeps_the_last_number() -> None:
    maker = Maker(at=36)
    assert maker.say("let me count") is None
    for number in range(1, 35):
        maker.say(BOOK.spoken(number), 0.4)
    assert maker.at == 36
    last = maker.told[-1]
    assert last == Counted(34, True, True, "thirty four")
    maker.say("one", 20.0)
    assert maker.told[-1] is None or not maker.told[-1].recount


def test_quick_numbers_after_the_end_of_a_round_are_a_recount() -> None:
    maker = Maker(total=12)
    say_number(maker, *range(1, 13))
    assert maker.at == 12
    told = maker.say("one two three four", 0.6)
    assert told is not None
    assert told.recount
    told = maker.say("five six seven", 0.3)
    assert told == Counted(7, True, True, "five six seven")


def test_what_is_listened_for_stays_alike_through_a_round() -> None:
    maker = Maker()
    first = maker.count.phrases(maker.expecting)
    maker.at = 30
    assert maker.count.phrases(maker.expecting) == first
    assert {"thirty six", "one two three", "inc", "dec"} <= set(first)
    assert max(len(BOOK.counting.numbers.values and p.split()) for p in first) <= 2 * RUN
    assert maker.count.phrases(Expecting()) == []


def recounted(*breaths: str, quiet: float = 0.5) -> tuple[int, bool]:
    maker = Maker(at=36)
    maker.say("let me count")
    for words in breaths:
        maker.say(words, quiet)
    last = maker.told[-1]
    assert last is not None
    assert last.recount
    assert maker.at == 36
    return last.number, last.confirmed


def test_a_recount_in_long_breaths() -> None:
    assert recounted("one two three four five six seven eight nine ten eleven", "twelve thirteen") == (13, True)
    assert recounted("nineteen twenty twenty one", "twenty two")[1] is False


def test_a_number_that_cannot_follow_is_taken_by_its_place_and_asked_about() -> None:
    assert recounted("one two three four", "thirty") == (5, False)
    assert recounted("one two three", "five six") == (6, True)  # the last number is the count, whatever was skipped
    assert recounted("one two three", "three four") == (4, True)


def test_a_recount_begun_anew_starts_from_one() -> None:
    assert recounted("one two three four", "one two three", quiet=2.0) == (3, True)
    assert recounted("one two three four", "one two three")[1] is False  # or it was five, six, seven?


def test_what_was_lost_is_known_by_the_beat() -> None:
    """Four a second apart, three that were not heard, one misheard: eight beats in all (worked out by hand)."""
    row = Recount(BOOK.counting.numbers)
    for number in range(1, 5):
        told = row.hear([Word(float(number), number)], 0.4)
    assert told == (4, True)
    assert row.hear([Word(8.0, 80)], 0.4) == (8, False)
    assert row.hear([Word(9.0, 9)], 0.4) == (9, True)
    assert row.hear([Word(10.0, None)], 0.4) == (10, False)


def test_a_teen_among_teens_is_no_ten() -> None:
    row = Recount(BOOK.counting.numbers)
    told = row.hear([Word(n / 2, n) for n in range(1, 15)] + [Word(7.5, 50), Word(8.0, 16)], 0.4)
    assert told == (16, True)


def test_other_sounds_in_a_recount_are_no_number() -> None:
    maker = Maker(at=36)
    maker.say("let me count")
    maker.say("one two three")
    told = maker.say("four", 0.5, fit=-12.0)
    assert told is not None
    assert not told.confirmed
    told = maker.say("four five", 0.5)
    assert told is not None
    assert (told.number, told.confirmed) == (5, True)
    assert maker.count.row() is not None
    maker.count.rest(maker.clock + 20)
    assert maker.count.row() is None


def test_a_number_said_in_two_parts_is_one() -> None:
    """Twenty, a breath, one: as a slow hand counts by touch."""
    row, clock = Recount(BOOK.counting.numbers), 0.0
    for number in range(1, 21):
        clock += 0.8
        row.hear([Word(clock, number)], 0.3)
    for unit in range(1, 7):
        clock += 0.8
        row.hear([Word(clock, 20)], 0.3)
        assert row.half
        clock += 0.8
        assert row.hear([Word(clock, unit)], 0.3) == (20 + unit, True)
        assert not row.half
    assert row.hear([Word(clock + 0.8, 20)], 0.3) == (27, False)  # the rest was lost: asked, not claimed


def test_a_ten_far_from_the_count_is_no_part_of_a_number() -> None:
    row = Recount(BOOK.counting.numbers)
    for number in range(1, 5):
        row.hear([Word(float(number), number)], 0.4)
    row.hear([Word(5.0, 50)], 0.4)
    assert not row.half
    assert row.hear([Word(6.0, 6)], 0.4) == (6, True)
