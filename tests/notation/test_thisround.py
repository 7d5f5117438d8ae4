"""Colors of one round alone: behind it the one before comes back, whether its words or the heading tell them."""

import pytest

from hookside.notation import read

_BALL = "R1: 6 sc in MR (6)\nR2: inc x 6 (12)\n{}\nR4: sc around\nR5: sc around\nR6: dec x 6 (6)"


def colours(text: str) -> list[tuple[str, str]]:
    """Each change of color by the course it stands behind; what is worked out goes back."""
    (piece,) = read(text).pieces
    return [
        (cue.after, "back" if cue.basis == "worked out" else cue.text.lower())
        for cue in piece.cues
        if cue.kind == "colour" and cue.course_id is not None
    ]


@pytest.mark.parametrize(
    "told",
    [
        "R3: sc around. This round is worked in black.",
        "R3: sc around (work this round in black)",
        "R3: Just this round in black: sc around",
        "R3: sc 12; this one is black",
        "R3 (only this round black): sc 12",
        "R3: in black, sc around (this round only)",
    ],
)
def test_the_words_of_a_round_tell_its_color_ahead_of_it_and_behind_it_the_other_is_back(told: str) -> None:
    (begins, what), (ends, back) = colours(f"Ball in red\n{_BALL.format(told)}")
    assert (begins, ends, back) == ("2", "3", "back")
    assert "black" in what


@pytest.mark.parametrize(
    "told",
    [
        "R3: sc around in black, for this round only",
        "R3: sc around in black for one round",
        "R3: sc 12 in black (only this round)",
    ],
)
def test_what_its_stitches_are_dyed_in_ends_with_it(told: str) -> None:
    assert colours(f"Ball in red\n{_BALL.format(told)}") == [("3", "back")]


@pytest.mark.parametrize(
    ("told", "then"),
    [
        ("R3: in black, for this round only: BLO sc around", "R4: sc around in red"),
        ("R3: sc around in black, this round only, then back to red", "R4: sc around"),
    ],
)
def test_nothing_is_gone_back_to_where_the_next_color_is_told(told: str, then: str) -> None:
    text = f"Ball in red\n{_BALL.format(told)}".replace("R4: sc around", then)
    assert "back" not in [what for _, what in colours(text)]


@pytest.mark.parametrize(
    "told",
    [
        "R3: in black, sc around, BLO for this round only",
        "R3: in black, sc around",
        "R3: in black, inc 6 in this round",
    ],
)
def test_what_is_limited_otherwise_is_no_color_of_one_round(told: str) -> None:
    assert "back" not in [what for _, what in colours(f"Ball in red\n{_BALL.format(told)}")]


@pytest.mark.parametrize(
    "heading",
    [
        "Ball (white; black in rounds 3 and 5)",
        "Ball, white with black in rounds 3 & 5",
        "Ball - white, but black for round 3 and round 5",
        "Ball in white, black in rounds 3 and 5",
        "Ball (white and black, black in R3 and R5)",
    ],
)
def test_a_heading_with_a_color_of_some_rounds_has_the_main_one_back_behind_each(heading: str) -> None:
    text = f"{heading}\n{_BALL.format('R3: sc around')}"
    assert read(text).pieces[0].name == "Ball"
    assert colours(text) == [("2", "black"), ("3", "white"), ("4", "black"), ("5", "white")]
    first = read(text).pieces[0].cues[0]
    assert (first.after, first.text) == ("0", "White")


def test_a_color_of_a_range_alone_ends_with_it() -> None:
    rounds = "R1: 6 sc in MR (6)\nR2: inc x 6 (12)\nR3-4: sc around (white, these rounds only)\nR5: sc around"
    assert [after for after, _ in colours(f"Ball in red\n{rounds}")] == ["2", "4"]


def test_stripes_that_a_title_tells_are_shown_and_said() -> None:
    pattern = read(f"Ball in red and white stripes of two rounds\n{_BALL.format('R3: sc around')}")
    assert (pattern.pieces[0].name, pattern.pieces[0].cues[0].kind) == ("Ball", "colour")
    assert [f.code for f in pattern.findings] == ["colors-mixed"]
