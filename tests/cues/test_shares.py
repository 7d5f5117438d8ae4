"""Copies of one piece that a heading tells each in a colour of its own: each is asked for its own. Demo numbers."""

import pytest

from hookside.compile import Choices, lay
from hookside.notation import read

_ROUNDS = "\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nFasten off."


@pytest.mark.parametrize(
    ("heading", "asked"),
    [
        ("Ears (one brown, one white)", ["Brown", "White"]),
        ("Ears - make one in brown & one in white", ["Brown", "White"]),
        ("Legs (make four, two brown and two white)", ["Brown", "Brown", "White", "White"]),
        ("Legs (make four: 2 brown, 2 white)", ["Brown", "Brown", "White", "White"]),
        ("Legs: work 2 like this, then a third in grey", ["", "", "Grey"]),
        ("Studs (1 red, 1 green, 2 blue)", ["Red", "Green", "Blue", "Blue"]),
        ("Leg (x2 in grey, x2 in white)", ["Grey", "Grey", "White", "White"]),
        ("Petals, 2 of each: pink and white", ["Pink", "Pink", "White", "White"]),
        ("Stud (make 3: red, green, blue)", ["Red", "Green", "Blue"]),
        ("Fin x2 (pink inside, brown outside)", ["Pink inside, brown outside"] * 2),
        ("Feet (one in orange, the other in red)", ["Orange", "Red"]),
        ("Fins (make 2, navy)", ["Navy", "Navy"]),
        ("Fins (make 2, then 2 more in blue)", ["", "", "Blue", "Blue"]),
        ("Fins (make 2 in red and 2 more in blue)", ["Red", "Red", "Blue", "Blue"]),
        ("Fins\nMake 2, then 2 more in blue.", ["", "", "Blue", "Blue"]),
        ("Fin (make 3, the third in white)", ["", "", "White"]),
        ("Fin: make 2, the second in white.", ["", "White"]),
        ("Fin\nMake 3, the last one in dark red.", ["", "", "Dark red"]),
        ("Fins (make 2)\nThe first in hazel, the second in oat.", ["Hazel", "Oat"]),
        ("Fins (make 2)\nOne of them in hazel, the other in oat.", ["Hazel", "Oat"]),
        ("Fins (make 2)\nOne hazel and one oat.", ["Hazel", "Oat"]),
        ("Fins (make 3): one in lime, one in green, one in mint", ["Lime", "Green", "Mint"]),
        ("Fins\nYou need three, one in lime, one in green and one in mint.", ["Lime", "Green", "Mint"]),
        ("Fin (make 3: red, white, red)", ["Red", "White", "Red"]),
        ("Fin (make 4, two in fern for the back and two in clay for the front)", ["Fern", "Fern", "Clay", "Clay"]),
    ],
)
def test_each_copy_begins_in_its_own_colour(heading: str, asked: list[str]) -> None:
    text = heading + _ROUNDS
    laid = lay(read(text), text, Choices())
    told = [" ".join(cue.text for cue in one.strand.cues if cue.kind == "colour") for one in laid]
    assert told == asked


@pytest.mark.parametrize(
    ("behind", "asked"),
    [
        ("Make 2 of these in red and 1 in white.", ["Red", "Red", "White"]),
        ("Make one in red, one in blue and two in green.", ["Red", "Blue", "Green", "Green"]),
        ("Work the second one in grey.", ["", "Grey"]),
        ("Make 3, the third in white.", ["", "", "White"]),
        ("Make the other fin in light grey.", ["", "Light grey"]),
    ],
)
def test_a_colour_of_copies_told_behind_the_rounds_is_asked_in_front_of_them(behind: str, asked: list[str]) -> None:
    text = f"Fin{_ROUNDS}\n{behind}"
    laid = lay(read(text), text, Choices())
    told = [[(cue.text, cue.step) for cue in one.strand.cues if cue.kind == "colour"] for one in laid]
    assert told == [[(shade, 0)] if shade else [] for shade in asked]


def test_two_colours_at_once_are_neither_of_them() -> None:
    """So that the change to one of them, where the rounds print it, still halts."""
    text = "Fin (navy/cream)\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nChange to cream.\nRnd 3: sc in each st (12)"
    (fin,) = lay(read(text), text, Choices())
    told = [(cue.text, cue.weight) for cue in fin.strand.cues if cue.kind == "colour"]
    assert told == [("Navy/cream", "pause"), ("Change to cream.", "pause")]


def test_a_colour_without_a_place_is_said() -> None:
    (said,) = [f for f in read("Body (navy, then cream)" + _ROUNDS).findings if f.code == "colors-where"]
    assert said.severity == "warning"
    assert '"navy, then cream"' in said.message
    assert "where cream begins" in said.message


def test_copies_by_what_they_are_are_told_it() -> None:
    text = "Ears - 2 outer, 2 inner" + _ROUNDS
    told = [one.strand.cues[0].text for one in lay(read(text), text, Choices())]
    assert told == ["This one: outer", "This one: outer", "This one: inner", "This one: inner"]
