"""The technique cards: which there must be, in both terms, and that they say nothing the stitch table contradicts.

What a card must say of loops and pulls is checked against read pages (named beside each); the wording is ours.
"""

from __future__ import annotations

import re
import tomllib
from importlib.resources import files
from typing import get_args

import pytest

from hookside.pattern import CueKind, Terms
from hookside.stitches import ACTIONS, TABLE
from hookside.words import Card, cards
from hookside.words.cards import WITHOUT_CARD

BOTH: tuple[Terms, Terms] = ("US", "UK")
OF = {terms: {card.key: card for card in cards(terms)} for terms in BOTH}


def test_every_stitch_of_the_table_has_one_card() -> None:
    explained = [key for card in cards("US") for key in card.stitches]
    assert len(explained) == len(set(explained)), "a stitch with two cards"
    assert set(explained) == set(TABLE) - WITHOUT_CARD
    assert {"ring", "join", "turn"} == ACTIONS  # all of them among those


@pytest.mark.parametrize(
    "key",
    [
        "ring", "chain-start", "single", "two-in-one", "decrease", "invisible-decrease", "loops", "half-double",
        "double", "treble", "chain-sides", "slip-stitch", "picot", "colour", "marker", "second-round", "stuffing",
        "closing", "shaping", "ends-stuffed", "ends-flat", "sewing-on",
    ],
)  # fmt: skip
def test_what_a_maker_may_ask_for_is_there(key: str) -> None:
    assert key in OF["US"]


@pytest.mark.parametrize("terms", BOTH)
def test_a_card_is_a_few_short_sentences_that_can_be_spoken(terms: Terms) -> None:
    for card in cards(terms):
        assert 3 <= len(card.steps) <= 6, card.key
        for sentence in [*card.steps, *([card.watch] if card.watch else [])]:
            assert sentence[0].isupper() or sentence[0].isdigit(), sentence
            assert sentence.endswith((".", "?")), sentence
            assert len(sentence.split()) <= 30, sentence
            assert not set(sentence) & set("{}()[]*/&=<>"), sentence
        assert card.title[0].isupper()


@pytest.mark.parametrize("terms", BOTH)
def test_no_card_speaks_in_short_names_or_in_the_other_terms(terms: Terms) -> None:
    own = {entry.name(terms).lower() for entry in TABLE.values()}
    foreign = {entry.name("UK" if terms == "US" else "US").lower() for entry in TABLE.values()} - own
    short = {entry.abbreviation(terms).lower() for entry in TABLE.values()} - own - {"turn", "join"}
    pairs = [("yarn over", "yarn round hook"), ("color", "colour"), ("center", "centre"), ("skip", "miss")]
    other = {uk if terms == "US" else us for us, uk in pairs}
    for card in cards(terms):
        text = " ".join([card.title, *card.steps, card.watch]).lower()
        for name in sorted(own, key=len, reverse=True):  # "treble crochet" is no UK treble
            text = text.replace(name, "")
        for word in foreign | other:
            assert not re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", text), (card.key, word)
        for word in short:
            assert not re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", text), (card.key, word)


@pytest.mark.parametrize("key", ["two-in-one", "invisible-increase", "decrease", "invisible-decrease"])
def test_a_card_is_called_by_the_word_that_stands_on_the_bench(key: str) -> None:
    assert key.rpartition("-")[2].replace("one", "increase") in OF["US"][key].title.lower()


def test_names_of_stitches_follow_the_table() -> None:
    # US single crochet is UK double crochet, US double crochet UK treble (okeydokeys.com and UK book lists).
    assert [OF["US"][k].title for k in ("single", "half-double", "double", "treble")] == [
        "Single crochet", "Half double crochet", "Double crochet", "Treble crochet and taller",
    ]  # fmt: skip
    assert [OF["UK"][k].title for k in ("single", "half-double", "double", "treble")] == [
        "Double crochet", "Half treble", "Treble", "Double treble and taller",
    ]  # fmt: skip


COUNTS = {"one": 1, "two": 2, "three": 3, "four": 4}


def loops(card: Card) -> list[int]:
    """How many loops are on the hook, where the card says so, in order."""
    said = r"\b(one|two|three|four) (?:loops? (?:are|is) (?:on|left)|are left)"
    found = re.findall(said, " ".join(card.steps).lower())
    return [COUNTS[word] for word in found]


@pytest.mark.parametrize(
    ("key", "on_the_hook"),
    [
        ("single", [2]),  # insert, draw up: 2; through both (trantor.is glossary; roseandsagecrochet.com)
        ("half-double", [3]),  # 3, then through all three (thebestknittersguide.com 2010)
        ("double", [3, 2]),  # 3, through two, through two (roseandsagecrochet.com)
        ("treble", [4, 1]),  # two turns of yarn: 4, then three pulls through two (list of terms, biographworld.com)
        ("decrease", [2, 3]),  # 2, 3, through all three (trantor.is glossary: sc2tog)
        ("invisible-decrease", [3, 2]),  # 3, through the two front strands: 2 (53stitches.com; theodoreandrose.com)
    ],
)
@pytest.mark.parametrize("terms", BOTH)
def test_the_loops_on_the_hook_are_those_of_the_trade(key: str, on_the_hook: list[int], terms: Terms) -> None:
    assert loops(OF[terms][key]) == on_the_hook


def test_turning_chains_are_those_of_the_table() -> None:
    # 1 single, 2 half double, 3 double, 4 treble: Crochet Guild of America lesson sheet 1997.
    said = OF["US"]["turn"].steps[0]
    for key in ("sc", "hdc", "dc", "tr"):
        assert f"{TABLE[key].height:.0f} for {TABLE[key].us[1]}" in said


def test_sources_are_named_and_known() -> None:
    head = files("hookside.words").joinpath("cards.toml").read_text(encoding="utf-8").partition("[words]")[0]
    known = {"CP", "mem", *re.findall(r"^#.*?\b([A-Z])  ", head, re.MULTILINE), *re.findall(r"\s{4,}([A-Z])  ", head)}
    for card in cards("US"):
        assert card.sources, card.key
        assert set(card.sources) <= known, (card.key, known)


def test_cues_that_need_hands_lead_to_a_card() -> None:
    kinds = {kind for card in cards("US") for kind in card.cues}
    assert kinds <= set(get_args(CueKind))
    assert {"marker", "colour", "stuff", "close", "shape", "weave", "sew"} <= kinds


def test_a_word_in_braces_that_is_nothing_is_refused() -> None:
    table = tomllib.loads(files("hookside.words").joinpath("cards.toml").read_text(encoding="utf-8"))
    from hookside.words.cards import _word

    with pytest.raises(KeyError):
        _word("no such stitch", table["words"], "US")
    assert _word("Yo", table["words"], "UK") == "Yarn round hook"
    assert _word("hdc s", table["words"], "UK") == "half trebles"
