"""The page stage: look-alikes, dashes, tags, and the way back to the original."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookside.notation.page.cleaning import clean


@pytest.mark.parametrize(
    ("original", "cleaned"),
    [
        ("(sc, inc) \u00d7 6", "(sc, inc) x 6"),
        ("6 s\u0441 in MR", "6 sc in MR"),  # a Cyrillic es
        ("(sc, inc) \u0445 6", "(sc, inc) x 6"),  # a Cyrillic kha
        ("\uff08\uff12\uff53\uff43\uff09", "(2sc)"),  # full-width signs
        ("Rnd\u00a01\u2013 6 sc", "Rnd 1- 6 sc"),
        ("s\u200bc", "sc"),  # a zero-width space
        ("Rnd l: 6 sc (1O)", "Rnd 1: 6 sc (10)"),  # what a scan does to 1 and 0
        ("Rnd&nbsp;1: 6 sc", "Rnd      1: 6 sc"),
        ("<b>Rnd 1:</b> 6 sc", "   Rnd 1:     6 sc"),
        ("**Rnd 1:** 6 sc", "  Rnd 1:   6 sc"),
        ("*sc, inc; rep from * to **", "*sc, inc; rep from * to **"),
        ("\ufb01n", "fin"),
    ],
)
def test_clean(original: str, cleaned: str) -> None:
    assert clean(original).text == cleaned


def test_a_table_row_becomes_label_body_and_count() -> None:
    assert " ".join(clean("| 4 | (2 sc, inc) x 6 | 24 |").text.split()) == "4 : (2 sc, inc) x 6 = 24"


@given(st.text(max_size=200))
def test_every_character_has_a_way_back(text: str) -> None:
    page = clean(text)
    places = [page.back(i) for i in range(len(page.text) + 1)]
    assert places == sorted(places)
    assert all(0 <= p <= len(text) for p in places)
    for i in range(len(page.text)):
        assert page.line(i) >= 1
        assert page.column(i) >= 1


def test_positions_are_those_of_the_original() -> None:
    text = "a\u200bb\r\nc<br>sc"
    page = clean(text)
    at = page.text.index("sc")
    assert text[page.back(at) :] == "sc"
    assert (page.line(at), page.column(at)) == (2, 6)
