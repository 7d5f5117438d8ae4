"""The table of phrases: what each means, what is listened for when, and that no two sound alike."""

from __future__ import annotations

from itertools import combinations

import pytest

from hookside.voice.engines.with_pocketsphinx import Sphinx
from hookside.voice.likeness import SILENT, align, apart
from hookside.voice.numerals import NUMBER, Numerals
from hookside.voice.phrasebook import Phrasebook, Said, languages

INTENTS = {
    "next", "stitch", "group", "repeat", "round", "back", "undo", "done", "where", "left", "ahead", "again", "goto",
    "rip", "count", "recount", "lost", "pause", "hold", "listen", "finish", "yes", "no", "help", "worked_on",
    "show", "parts", "gather", "habits", "pattern", "runs", "check", "recap", "shape", "chart", "notes", "record",
    "kinds", "lock", "hands", "more",
}  # fmt: skip


@pytest.mark.parametrize("language", ["en", "ko"])
def test_a_language_has_phrases_for_every_intent(language: str) -> None:
    book = Phrasebook.load(language)
    assert language in languages()
    assert {row.intent for row in book.rows} == INTENTS
    for row in book.rows:
        assert row.says
        assert row.phrases
        for phrase in row.phrases:
            assert len(phrase.split()) >= 2, f"{phrase!r} is a single word, and those are a setting"
    assert all(len(word.split()) == 1 for row in book.rows for word in row.single)


def test_what_phrases_mean() -> None:
    book = Phrasebook.load("en")
    assert book.intent("next repeat") == Said("repeat", "repeat")
    assert book.intent("go to round twenty one") == Said("goto", None, 21)
    assert book.intent("i have one hundred five") == Said("count", None, 105)
    assert book.intent("rip back to round seven") == Said("rip", None, 7)
    assert book.intent("i worked on to round nine") == Said("worked_on", None, 9)
    assert book.intent("i worked on to the end of round twelve") == Said("worked_on", None, 12)
    assert book.intent("i worked on") == Said("worked_on")
    assert book.intent("next next") is None
    assert book.intent("next repeat please") is None


@pytest.mark.parametrize("language", ["en", "ko"])
def test_no_number_is_listened_for_that_cannot_be_meant(language: str) -> None:
    book = Phrasebook.load(language)
    heard = {(said.intent, said.number) for p in book.phrases(False, {"rounds": 24}) if (said := book.intent(p))}
    for intent in ("goto", "rip", "worked_on"):
        assert max(n for i, n in heard if i == intent and n is not None) == 24
    assert max(n for i, n in heard if i == "count" and n is not None) > 24
    assert {i for i, _ in heard} == {row.intent for row in book.rows}
    counts = {said.number for p in book.answers(["count"], {"stitches": 12}) if (said := book.intent(p))}
    assert counts == set(range(1, 13))


def test_what_is_listened_for() -> None:
    book = Phrasebook.load("en")
    unasked, short = set(book.phrases(False)), set(book.phrases(True))
    assert unasked < short
    assert {"next", "undo"} <= short - unasked
    assert not {"yes", "forty two"} & short
    answers = book.answers(["yes", "no"])
    assert {"yes", "no", "nope"} <= set(answers)
    assert "next round" not in answers
    assert {"one", "forty two"} <= set(book.answers(["count"]))
    # What the buttons of a sheet that asks are called can be said as it stands there.
    assert {"yes", "done", "one question back", "ask me again", "nothing now"} <= set(
        book.answers(["yes", "no", "count", "back", "done"])
    )


def test_the_help_is_the_table_without_what_cannot_be_heard() -> None:
    book = Phrasebook.load("en")
    rows = {(row["intent"], row["unit"]): row for row in book.help(missing=["carry"])}
    assert len(rows) == len(book.rows)
    assert "carry on" not in rows["next", None]["phrases"]
    assert "next please" in rows["next", None]["phrases"]
    assert "go to round 12" in rows["goto", None]["phrases"]
    assert not any(NUMBER in phrase for row in rows.values() for phrase in row["phrases"])


def test_a_phrase_with_two_meanings_is_refused() -> None:
    table = {
        "language": "xx", "name": "X",
        "numbers": {"n": {"most": 9, "ones": list("abcdefghi"), "tens": list("jklmnopqr")}},
        "counting": {"numbers": "n", "increase": [], "decrease": []},
        "row": [
            {"intent": "next", "says": ".", "phrases": ["on we go"]},
            {"intent": "back", "says": ".", "phrases": ["on we go"]},
        ],
    }  # fmt: skip
    with pytest.raises(ValueError, match="on we go"):
        Phrasebook(table)


@pytest.mark.parametrize(
    ("language", "numbers", "said"),
    [
        ("en", "plain", {1: "one", 13: "thirteen", 30: "thirty", 42: "forty two", 100: "one hundred",
                         119: "one hundred nineteen"}),
        # The two ways of counting, as any primer of Korean has them.
        ("ko", "native", {1: "하나", 10: "열", 11: "열 하나", 20: "스물", 36: "서른 여섯", 99: "아흔 아홉"}),
        ("ko", "sino", {1: "일", 10: "십", 15: "십 오", 42: "사십 이"}),
    ],
)  # fmt: skip
def test_numbers_as_they_are_said(language: str, numbers: str, said: dict[int, str]) -> None:
    numerals = Phrasebook.load(language).numerals[numbers]
    for number, words in said.items():
        assert numerals.say(number)[0] == words
        assert numerals.values[words] == number
    every = numerals.all()
    assert len({words for words, _ in every}) == len(every) >= numerals.most


def test_number_words_that_do_not_fit_are_refused() -> None:
    with pytest.raises(ValueError, match="19 ones"):
        Numerals(most=20, ones=["one"], tens=["ten"])
    with pytest.raises(ValueError, match="no word"):
        Numerals(most=120, ones=list("abcdefghi"), tens=list("jklmnopqr"))


# -- how phrases sound: pronunciations from the model's own dictionary ---------------


def sounds(engine: Sphinx, phrase: str) -> list[list[str]]:
    """Every way to say a phrase."""
    out: list[list[str]] = [[]]
    for word in phrase.split():
        out = [said + way.split() for said in out for _, way in engine.pronounced(word)][:12]
    return out


def distance(a: list[str], b: list[str]) -> float:
    """Sounds that differ, by `likeness`: 1 for one left out or added, less for one of the same kind; the least over
    both ways to lay them side by side."""
    return sum(1.0 if SILENT in pair else apart(*pair) for pair in align(a, b))


@pytest.fixture(scope="module")
def pocketsphinx() -> Sphinx:
    return Sphinx()


def test_the_model_knows_every_english_word(pocketsphinx: Sphinx) -> None:
    words = Phrasebook.load("en").words()
    assert words - pocketsphinx.vocabulary(words) == set()


def test_number_sounds_are_those_of_the_dictionary(pocketsphinx: Sphinx) -> None:
    for word, said in Phrasebook.load("en").counting.sounds.items():
        assert said in [way for _, way in pocketsphinx.pronounced(word)]


def test_phrases_of_different_intents_sound_apart(pocketsphinx: Sphinx) -> None:
    """No phrase is near to one that means something else; further where the other one means the opposite."""
    book = Phrasebook.load("en")
    said = [
        (phrase, row.intent, sounds(pocketsphinx, phrase.replace(NUMBER, "twelve")))
        for row in book.rows
        for phrase in row.phrases
    ]
    opposites = [
        {a, b}
        for ahead in ("next", "stitch", "group", "repeat", "round", "done")
        for a, b in ((ahead, "back"), (ahead, "undo"), (ahead, "rip"))
    ] + [{"hold", "listen"}, {"yes", "no"}]
    near = []
    for (phrase, intent, ways), (other, another, others) in combinations(said, 2):
        if intent == another or {intent, another} == {"goto", "rip"}:
            continue  # going to a round and ripping back to it are both asked back, with the words in full
        least = min(distance(a, b) for a in ways for b in others)
        if least < (4.0 if {intent, another} in opposites else 2.4):
            near.append(f"{phrase!r} and {other!r} differ by {least:.1f} sounds only")
    assert near == []
