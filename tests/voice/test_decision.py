"""Act, ask or leave: each guard by itself, on utterances made by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from hookside.voice.decision import BARS, KINDS, Expecting, Settings, Verdict, decide
from hookside.voice.heard import Heard, Span
from hookside.voice.phrasebook import Phrasebook

BOOK = Phrasebook.load("en")
SOUNDS = {
    "go": "G OW", "back": "B AE K", "next": "N EH K S T", "round": "R AW N D", "yes": "Y EH S", "all": "AO L",
    "done": "D AH N", "rip": "R IH P", "to": "T UW", "seven": "S EH V AH N", "thirteen": "TH ER T IY N",
    "wake": "W EY K", "up": "AH P", "please": "P L IY Z", "i": "AY", "have": "HH AE V", "forty": "F AO R T IY",
    "two": "T UW", "that": "DH AE T", "job": "JH AA B", "is": "IH Z", "some": "S AH M",
    "out": "AW T", "twelve": "T W EH L V", "where": "W EH R", "now": "N AW", "twenty": "T W EH N T IY", "it": "IH T",
}  # fmt: skip
SPHINX = Settings("pocketsphinx")
NOTHING = Expecting()


def said(words: str, phones: str | None = None, fit: float = -4.0, quiet: float = 1.0, slow: float = 1.0) -> Heard:
    """An utterance, by default one whose sounds were heard as they are said."""
    spans, at = [], 10.0
    for word in words.split():
        end = at + 0.09 * slow * len(SOUNDS[word].split())
        spans.append(Span(word, at, end, fit, SOUNDS[word]))
        at = end
    sounds = " ".join(SOUNDS[word] for word in words.split()) if phones is None else phones
    return Heard(words, 10.0, at, quiet, 5 * fit + 15, "pocketsphinx", tuple(spans), sounds)


def verdict(heard: Heard, expecting: Expecting = NOTHING, settings: Settings = SPHINX) -> str:
    return decide(heard, expecting, settings, BOOK).verdict


def test_a_phrase_is_acted_on() -> None:
    told = decide(said("next round"), NOTHING, SPHINX, BOOK)
    assert told.verdict == "act"
    assert told.said is not None
    assert (told.said.intent, told.said.unit) == ("round", "round")
    assert told.scores["odds"] > 0


def test_only_a_whole_phrase_counts() -> None:
    assert decide(said("next"), NOTHING, SPHINX, BOOK) == Verdict("ignore", decide(
        said("next"), NOTHING, SPHINX, BOOK).said, "a phrase only where it is asked for")  # fmt: skip
    assert decide(said("round next"), NOTHING, SPHINX, BOOK).said is None
    assert verdict(said("next"), settings=Settings("pocketsphinx", single=True)) == "act"


def test_there_is_silence_before_it_and_it_is_not_drawn_out() -> None:
    assert verdict(said("next round", quiet=0.1)) == "ignore"
    assert verdict(said("next round", slow=4)) == "ignore"


def test_other_sounds_are_left() -> None:
    assert verdict(said("next round", phones="M AA M AH", fit=-12)) == "ignore"
    assert verdict(said("next round", fit=-30)) == "ignore"


def test_going_back_needs_more_than_going_on() -> None:
    grades = [said("go back", fit=-x / 4) for x in range(0, 200)]
    ahead = [said("next round", fit=-x / 4) for x in range(0, 200)]
    odds = {
        kind: [t.scores["odds"] for t in (decide(h, NOTHING, SPHINX, BOOK) for h in some) if t.verdict == "act"]
        for kind, some in (("back", grades), ("move", ahead))
    }
    assert min(odds["back"]) > min(odds["move"])


def test_jumps_and_ripping_back_are_asked() -> None:
    assert verdict(said("go to round seven")) == "ask"
    assert verdict(said("rip some out")) == "ask"


def test_numbers_that_sound_like_others_are_asked() -> None:
    assert verdict(said("i have forty two")) == "act"
    assert verdict(said("i have thirteen")) == "ask"
    assert verdict(said("i have forty")) == "ask"
    waiting = Expecting(waits="question", answers=("count",))
    assert verdict(said("forty two"), waiting) == "act"
    assert verdict(said("forty two")) == "ignore"


def test_a_number_that_cannot_be_meant_is_no_twin() -> None:
    """Thirteen and thirty are settled by how many there are; where both can be, the page asks about both."""
    few, many = Expecting(most={"stitches": 29}), Expecting(most={"stitches": 30})
    assert decide(said("i have thirteen"), few, SPHINX, BOOK).twin is None
    assert verdict(said("i have thirteen"), few) == "act"
    assert decide(said("i have thirteen"), many, SPHINX, BOOK).twin == 30
    assert decide(said("i have forty"), many, SPHINX, BOOK).twin == 14
    assert decide(said("i have forty two"), many, SPHINX, BOOK).twin is None
    assert decide(said("i have thirteen"), Expecting(most={"rounds": 20}), SPHINX, BOOK).twin == 30


def test_a_round_that_she_worked_on_to_is_asked_back() -> None:
    assert KINDS["worked_on"] == KINDS["goto"] == "asked"
    assert BARS[KINDS["worked_on"]].act > 50


def test_a_question_hears_its_answers_alone() -> None:
    asked = Expecting(waits="question", answers=("yes", "no"))
    assert verdict(said("yes", phones="Y EH"), asked) == "act"
    assert verdict(said("yes")) == "ignore"
    assert verdict(said("next round"), asked) == "ignore"


def test_what_is_listened_for_beside_the_answers_needs_as_much_as_ever_and_asks_nothing() -> None:
    sheet = Expecting(waits="question", answers=("yes", "no", "where", "pause"))
    assert verdict(said("where now"), sheet) == "act"
    grades = [said("where now", fit=-x / 8) for x in range(0, 200)]
    assert [verdict(h, sheet) == "act" for h in grades] == [verdict(h, NOTHING) == "act" for h in grades]
    assert {verdict(h, sheet) for h in grades} == {"act", "ignore"}
    assert verdict(replace(said("where now"), quiet=0.2), sheet) == "ignore"


def test_a_count_is_answered_in_the_words_of_one_who_looks_up() -> None:
    asked = Expecting(waits="question", answers=("count",))
    assert verdict(said("twenty two it is"), asked) == "act"
    assert verdict(said("twenty two it is")) == "ignore"


def test_what_takes_back_and_what_states_a_count_need_more_than_next() -> None:
    assert BARS[KINDS["undo"]].act > BARS[KINDS["next"]].act + 0.9
    assert BARS[KINDS["back"]].act > BARS[KINDS["next"]].act + 0.9
    assert BARS[KINDS["count"]].act > BARS[KINDS["next"]].act + 0.9


@pytest.mark.parametrize(
    ("above", "quiet", "granted"),
    [(40.0, 2.0, 0.0), (27.0, 2.0, 0.0), (21.0, 2.0, 0.5), (14.0, 2.0, 1.0), (14.0, 0.5, 0.0)],
)
def test_in_babble_a_phrase_after_a_silence_needs_a_little_less(above: float, quiet: float, granted: float) -> None:
    plain = decide(said("next round"), NOTHING, SPHINX, BOOK).scores["odds"]
    there = replace(said("next round"), above=above, quiet=quiet)
    assert decide(there, NOTHING, SPHINX, BOOK, behind=True).scores["odds"] - plain == pytest.approx(granted)
    stop = Expecting(waits="stop")
    at_stop = decide(said("that job is done"), stop, SPHINX, BOOK).scores["odds"]
    assert decide(replace(said("that job is done"), above=above), stop, SPHINX, BOOK).scores["odds"] == at_stop


def test_after_a_pause_of_talk_nothing_is_done_unasked() -> None:
    assert verdict(said("next round", quiet=0.6)) == "ignore"
    assert verdict(said("next round", quiet=1.1)) == "act"
    asked = Expecting(waits="question", answers=("yes", "no"))
    assert verdict(said("yes", quiet=0.3), asked) == "act"


def test_where_something_sounds_all_the_time_a_shorter_silence_is_enough() -> None:
    babble = replace(said("next round"), above=20.0, quiet=0.7)
    assert decide(babble, NOTHING, SPHINX, BOOK).verdict == "act"
    assert decide(replace(babble, above=None), NOTHING, SPHINX, BOOK).why == "in the middle of talk"
    assert decide(replace(babble, quiet=0.5), NOTHING, SPHINX, BOOK).why == "in the middle of talk"


def test_what_follows_a_phrase_comes_as_fast_as_it_is_said() -> None:
    soon = said("next round", quiet=0.6)
    assert decide(soon, NOTHING, SPHINX, BOOK, behind=True).verdict == "act"
    assert decide(replace(soon, quiet=0.2), NOTHING, SPHINX, BOOK, behind=True).verdict == "ignore"


def test_done_is_easier_where_something_waits_but_no_sound_passes_a_stop() -> None:
    at_a_stop = Expecting(waits="stop")
    grades = [said("that job is done", fit=-x / 8) for x in range(0, 200)]
    free = [v.scores["odds"] for v in (decide(h, NOTHING, SPHINX, BOOK) for h in grades) if v.verdict == "act"]
    there = [v.scores["odds"] for v in (decide(h, at_a_stop, SPHINX, BOOK) for h in grades) if v.verdict == "act"]
    assert 0 <= min(there) < min(free)
    assert verdict(said("that job is done", phones="M AH N AA", fit=-9), at_a_stop) != "act"


def test_a_round_finished_is_never_what_answers_a_stop() -> None:
    """No phrase for a thing done ends like one for a round done: a stop must not be passed by a slip of the ear."""
    ends = {phrase.split()[-1] for row in BOOK.rows if row.intent == "round" for phrase in row.phrases}
    short = [phrase for row in BOOK.rows if row.intent == "done" for phrase in row.phrases if len(phrase.split()) < 3]
    assert not ends & {phrase.split()[-1] for phrase in short}


def test_being_called_back_is_no_easier_than_other_phrases() -> None:
    held = Expecting(waits="question", answers=("listen",))
    assert verdict(said("wake up please"), held) == "act"
    assert verdict(said("wake up please", phones="W EH P L S AH", fit=-10), held) != "act"


@pytest.mark.parametrize(
    ("words", "score", "what"),
    [("next round", 0.95, "act"), ("next round", 0.6, "ask"), ("go back", 0.95, "ask"), ("go back", 1.0, "act")],
)
def test_by_confidence_where_an_engine_has_nothing_else(words: str, score: float, what: str) -> None:
    heard = replace(said(words), score=score, engine="vosk", phones=None)
    assert verdict(heard, settings=Settings("vosk")) == what


def test_every_intent_has_its_kind() -> None:
    assert {row.intent for row in BOOK.rows} == set(KINDS)
