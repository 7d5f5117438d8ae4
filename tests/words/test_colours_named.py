"""The colour a sentence changes to or begins with (demo sentences)."""

import pytest

from hookside.words import colour_named


@pytest.mark.parametrize(
    ("text", "colour"),
    [
        ("Orange", "orange"),
        ("In brown.", "brown"),
        ("Start with rust again.", "rust"),
        ("Start in rust again", "rust"),
        ("Grab the rust yarn for his boots.", "rust"),
        ("You need the rust yarn now.", "rust"),
        ("Pick up your rust coloured yarn.", "rust"),
        ("We begin with the boots, in rust.", "rust"),
        ("Rust for the boots, brown for the rest.", "rust"),
        ("With some rust", "rust"),
        ("Now the white comes in.", "white"),
        ("Now I changed to white because red alone looked dull.", "white"),
        ("Change to white in the last stitch of the red round", "white"),
        ("Cut the black, join white", "white"),
        ("Work with white held double", "white"),
        ("Change back to the dark blue yarn", "dark blue"),
        ("Change to speckled brown", "speckled brown"),
        ("Change to seafoam", "seafoam"),
        ("Change from rust to cream.", "cream"),
        ("We leave rust and move to cream.", "cream"),
        ("Change to yarn B.", "yarn B"),
        ("Using A,", "A"),
        ("Continue in A", "A"),
        ("Switch to fern when finishing the last sc", "fern"),
        ("Pick clay up again in the last st", "clay"),
        ("Join in clay.", "clay"),
        ("Join in the charcoal", "charcoal"),
        ("Join in the first st", ""),
        ("Black and white", ""),
        ("Alternate black and white", ""),
        ("Change colour.", ""),
        ("Change to the new colour", ""),
    ],
)
def test_the_colour_of_a_sentence(text: str, colour: str) -> None:
    assert colour_named(text) == colour
