"""Sentences that ask the hands for something, each with the kinds of asking it holds; story text holds none.

All sentences are invented (demo). "Sentence | kind kind": one kind for each job, in order.
"""

import itertools
from pathlib import Path

import pytest

from hookside.notation.askings.askings import askings
from hookside.notation.askings.weights import weight_of
from hookside.notation.lines.layout import sentences

SAMPLES = [
    tuple(part.strip() for part in line.split("|"))
    for line in Path(__file__).with_name("askings.txt").read_text(encoding="utf-8").splitlines()
]


@pytest.mark.parametrize(("sentence", "kinds"), SAMPLES)
def test_asking(sentence: str, kinds: str) -> None:
    found = askings(sentence)
    assert " ".join(kind for kind, _, _ in found) == kinds
    assert all(a[2] <= b[1] for a, b in itertools.pairwise(found)), "no word is asked twice"


def test_no_word_of_an_asking_sentence_is_lost() -> None:
    sentence = "Look along the boat from the bow; when the seats lie level, sew both short ends to the hull."
    ((_, start, end),) = askings(sentence)
    assert (start, end) == (0, len(sentence))


@pytest.mark.parametrize(
    ("sentence", "weight"),
    [
        ("Keep the knots inside.", "whisper"),
        ("Do not stuff.", "pause"),
        ("Embroider the eyes over round 6.", "stop"),
        ("Make a tassel.", "pause"),
        ("Stuff firmly.", "stop"),
    ],
)
def test_weight(sentence: str, weight: str) -> None:
    (kind, start, end), *_ = askings(sentence)
    assert weight_of(kind, sentence[start:end]) == weight


def test_no_asking_ends_in_the_and_that_leads_on() -> None:
    sentence = "Cut the yarn, leave 20 cm and sew the hole closed."
    assert [sentence[a:b] for _, a, b in askings(sentence)] == ["Cut the yarn, leave 20 cm", "sew the hole closed."]


def test_a_sentence_without_an_end_is_cut_so_often_and_keeps_its_words() -> None:
    sentence = "Stuff the head, close the hole, " * 2000
    found = askings(sentence)
    assert 2 < len(found) <= 200
    assert found[0][1] == 0
    assert found[-1][2] > len(sentence) - 4


def test_stops_by_themselves_are_no_sentences() -> None:
    text = ". . Stuff the head. . ! Close it . ."
    assert [text[a:b] for a, b in sentences(text, 0, len(text))] == ["Stuff the head.", "Close it ."]
    assert sentences(". . .", 0, 5) == [(0, 5)]
