"""One listener between a pretended engine and a pretended page: what is learnt when."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

import pytest

from hookside.voice.engines import Row
from hookside.voice.heard import Heard, Span
from hookside.voice.listening import SURE_WIDE, Listening


class Pretended:
    """An engine that knows every word but "carry", and hears what it is told."""

    name, language = "pocketsphinx", "en"

    def __init__(self) -> None:
        self.clock = 0.0
        self.open = False
        self.row: Row | None = None
        self.learnt: list[list[str]] = []
        self.resets = self.joins = 0
        self.agains: list[str] = []
        self.other: Heard | None = None  # what it hears where it is asked to listen once more
        self.widest: Heard | None = None  # and with the widest edges, where that is something else
        self.told: list[Heard] = []
        self.closed = False

    def vocabulary(self, words: Iterable[str]) -> set[str]:
        return set(words) - {"carry"}

    def recogniser(self, phrases: Sequence[str]) -> Pretended:
        self.learnt.append(list(phrases))
        return self

    def feed(self, pcm: bytes) -> list[Heard]:
        self.clock += len(pcm) / 32000
        told, self.told = self.told, []
        return told

    def gap(self, seconds: float) -> list[Heard]:
        self.clock += seconds
        return []

    def expect(self, phrases: Sequence[str], row: Row | None = None) -> None:
        self.learnt.append(list(phrases))
        self.row = row

    def join(self) -> None:
        self.joins += 1

    def again(self, wide: bool = False) -> Heard | None:
        self.agains.append("wide" if wide else "other")
        return self.widest if wide and self.widest else self.other

    def reset(self) -> None:
        self.resets += 1

    def close(self) -> None:
        self.closed = True


class Page:
    def __init__(self, **asked: Any) -> None:
        self.engine = Pretended()
        self.told: list[tuple[str, dict[str, Any]]] = []
        about = {"language": "en", "single": False, "log": False, "count": None, **asked}
        self.listening = Listening(self.engine, about, lambda event, **said: self.told.append((event, said)))

    def expect(self, **what: Any) -> None:
        self.listening.hear({"do": "expect", "waits": None, "answers": None, "count": None, **what}, b"")

    def sound(self, seq: int, quiet: int = 0, *heard: Heard) -> None:
        self.engine.told = list(heard)
        self.listening.hear({"do": "sound", "seq": seq, "quiet": quiet, "at": 0.0}, bytes(1600))


def count(style: str, next: list[int], left: int, **words: bool) -> dict[str, Any]:
    return {"style": style, "next": next, "left": left, "words": {"inc": False, "dec": False, **words}}


def test_words_the_model_lacks_are_named() -> None:
    assert Page().listening.missing == ["carry"]


def test_answers_and_back_again() -> None:
    page = Page()
    everything = page.engine.learnt[0]
    page.expect(answers=["yes", "no"])
    page.expect()
    assert len(page.engine.learnt) == 3
    # The answers first, and all other phrases beside them, so that talk has something else to come near to.
    assert page.engine.learnt[1][0] == "yes"
    assert {"no", "next round"} <= set(page.engine.learnt[1])
    assert page.engine.learnt[2] == everything


def test_a_count_goes_on_with_the_same_phrases() -> None:
    page = Page(count={"style": "round"})
    for done in range(42):
        page.expect(count=count("round", [*range(done + 1, 43), 1, 2, 3], 42 - done, inc=True))
    assert len({tuple(phrases) for phrases in page.engine.learnt[1:]}) <= 2


def spoken(words: str, sure: float, phones: str) -> Heard:
    sounds = {"go": "G OW", "back": "B AE K", "round": "R AW N D", "done": "D AH N",
              "i": "AY", "have": "HH AE V", "forty": "F AO R T IY"}  # fmt: skip
    spans = tuple(Span(w, n * 0.3, n * 0.3 + 0.3, sure, sounds[w]) for n, w in enumerate(words.split()))
    return Heard(words, 2.0, 2.6, 1.5, 5 * sure + 15, "pocketsphinx", spans, phones)


def test_what_was_not_clear_is_heard_once_more_and_the_likelier_counts() -> None:
    page = Page()
    clear, unlike = spoken("go back", -2.5, "G OW B AE K"), spoken("round done", -12.0, "S IY T SH IY")
    page.engine.other = clear
    page.sound(0, 0, unlike)
    assert [(said["intent"], said["verdict"]) for _, said in page.told] == [("back", "act")]
    page.engine.other = unlike
    page.sound(1, 0, spoken("go", -2.5, "G OW"))  # no phrase at all, and then an unlikely one
    assert [(said["intent"], said["verdict"]) for _, said in page.told[1:]] == [("round", "ignore")]
    agains = list(page.engine.agains)
    page.sound(2, 0, clear)
    page.sound(3, 0, spoken("i have forty", -2.5, "AY HH AE V F AO R T IY"))
    assert page.engine.agains == agains == ["other", "other", "wide"]  # the widest where it still is nothing
    assert [(said["intent"], said["verdict"]) for _, said in page.told[-2:]] == [("back", "act"), ("count", "ask")]


def test_with_the_widest_edges_a_phrase_needs_more() -> None:
    page = Page()
    page.engine.other = nothing = spoken("go", -2.5, "G OW")
    page.engine.widest = spoken("go back", -2.5, "G OW B AE K")
    page.sound(0, 0, nothing)
    assert [(said["intent"], said["verdict"]) for _, said in page.told] == [("back", "act")]
    for fit in range(-60, 0):  # the better half of what a move needs in a quiet room is not enough
        page.told.clear()
        page.engine.widest = spoken("go back", fit / 4, "G OW B AE K")
        page.sound(1 - fit, 0, nothing)
        assert all(said["scores"]["odds"] > SURE_WIDE for _, said in page.told)
    page.told.clear()
    page.engine.widest = replace(spoken("go back", -2.5, "G OW B AE K"), quiet=0.5)
    page.sound(90, 0, replace(nothing, quiet=0.5))
    assert page.told == []  # within talk they are not tried


def test_how_many_there_can_be() -> None:
    page = Page(most={"rounds": 24, "stitches": None})
    assert {"go to round twenty four", "i have sixty"} <= set(page.engine.learnt[0])
    assert "go to round thirty" not in page.engine.learnt[0]
    page.expect(most={"rounds": 36})
    assert "rip back to round thirty six" in page.engine.learnt[1]
    page.expect(answers=["goto"], most={"rounds": 5})
    assert "go to round five" in page.engine.learnt[2]
    assert "go to round six" not in page.engine.learnt[2]


def test_the_number_that_may_have_been_meant_is_told() -> None:
    page = Page()
    page.sound(0, 0, spoken("i have forty", -2.5, "AY HH AE V F AO R T IY"))
    page.sound(1, 0, spoken("go back", -2.5, "G OW B AE K"))
    assert [said["twin"] for _, said in page.told] == [{"number": 14, "words": "i have fourteen"}, None]


def test_packets_lost_and_a_deaf_ear() -> None:
    page = Page()
    page.sound(0)
    page.sound(1)
    assert page.engine.resets == 0
    page.sound(3)
    page.sound(4)
    assert page.engine.resets == 1
    clock = page.engine.clock
    page.listening.hear({"do": "deaf", "on": True}, b"")
    page.sound(5)
    assert (page.engine.resets, page.engine.clock) == (2, clock)
    page.listening.hear({"do": "deaf", "on": False}, b"")
    page.sound(6, 2000)
    assert page.engine.clock == pytest.approx(clock + 2.05)


def test_milliseconds_count_from_the_end_of_the_speech() -> None:
    page = Page()
    for seq in range(20):
        page.sound(seq)
    page.sound(20, 0, Heard("go back", 0.2, 0.75, 1.0, None, "pocketsphinx"))
    (event, said), *more = page.told
    assert (event, said["intent"], more) == ("heard", "back", [])
    assert said["ms"] >= 1000 * (21 * 0.05 - 0.75)
    assert said["utterance"] == f"{int(said['utterance'], 16):032x}"
    page.listening.close()
    assert page.engine.closed


COUNTED = {"let": "L EH T", "me": "M IY", "count": "K AW N T"}


def said(words: str, start: float, end: float, phones: str = "L EH T M IY K AW N T", fit: float = -4.0) -> Heard:
    """Numbers, or "let me count" with its sounds as they were heard."""
    if words != "let me count":
        return Heard(words, start, end, 1.0, None, "pocketsphinx")
    spans = tuple(Span(word, start, end, fit, sounds) for word, sounds in COUNTED.items())
    return Heard(words, start, end, 1.0, 5 * fit + 15, "pocketsphinx", spans, phones)


def test_a_recount_listens_for_numbers_in_a_row_until_nothing_comes() -> None:
    page = Page(count={"style": "round", "next": [1], "left": 0, "words": {}})
    assert page.engine.row is None
    page.sound(0, 0, said("let me count", 0.0, 0.8))
    assert page.engine.row is not None
    assert page.engine.row.said[page.engine.row.begins] == "one"
    assert "next round" not in page.engine.learnt[-1]
    page.sound(1, 0, said("one two three", 1.2, 2.4))
    assert page.told[-1][0] == "counted"
    assert page.told[-1][1]["number"] == 3
    assert page.engine.row.said[page.engine.row.begins] == "four"
    page.sound(2, 20_000)
    assert page.engine.row is None
    assert "next round" in page.engine.learnt[-1]


def test_a_recount_waits_for_who_is_still_speaking() -> None:
    page = Page(count={"style": "round", "next": [1], "left": 0, "words": {}})
    page.sound(0, 0, said("let me count", 0.0, 0.8))
    page.engine.open = True
    for seq in range(1, 200):
        page.sound(seq)
    assert page.engine.row is not None


def test_a_recount_needs_no_count_along_and_no_sound_begins_one() -> None:
    page = Page()
    page.sound(0, 0, said("let me count", 0.0, 0.8, phones="M UW", fit=-12.0))
    assert page.engine.row is None
    page.sound(1, 0, said("let me count", 2.0, 2.8))
    assert page.engine.row is not None
    page.sound(2, 0, said("one two three four", 3.0, 4.4))
    event, counted = page.told[-1]
    assert event == "counted"
    assert (counted["number"], counted["recount"]) == (4, True)


def test_a_recount_that_was_asked_back_begins_with_yes() -> None:
    page = Page()
    page.listening.recounts("recount", "ask", 1.0)
    assert page.engine.row is None
    page.listening.recounts("yes", "act", 2.0)
    assert page.engine.row is not None


def test_a_recount_by_a_key_begins_and_ends_as_the_page_says() -> None:
    page = Page()
    for recount in (True, True, False):
        page.listening.hear({"do": "expect", "waits": None, "answers": None, "count": None, "recount": recount}, b"")
        assert (page.engine.row is not None) is recount


def test_what_was_no_phrase_may_go_on() -> None:
    page = Page()
    page.sound(0, 0, said("go", 1.0, 1.4))
    assert page.engine.joins == 1
    page.sound(1, 0, said("next round", 3.0, 3.8))
    assert page.engine.joins == 1
    page.listening.hear({"do": "expect", "waits": "question", "answers": ["yes", "no"], "count": None}, b"")
    page.sound(2, 0, said("go", 5.0, 5.4))
    assert page.engine.joins == 1


def test_behind_talk_a_phrase_waits_for_silence_and_behind_a_phrase_it_does_not() -> None:
    page = Page()
    talk, soon = spoken("go", -2.5, "G OW"), replace(spoken("go back", -2.5, "G OW B AE K"), quiet=0.6)
    page.sound(0, 0, soon)  # the first of all
    page.sound(1, 0, soon)
    page.sound(2, 0, talk)
    page.sound(3, 0, soon)
    page.listening.hear({"do": "deaf", "on": True}, b"")
    page.listening.hear({"do": "deaf", "on": False}, b"")
    page.sound(4, 0, soon)  # behind what Hookside said
    assert [said["verdict"] for _, said in page.told] == ["act", "act", "ignore", "act"]
