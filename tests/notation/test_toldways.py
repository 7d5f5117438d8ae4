"""How rounds are worked, told ahead of the first: kept in mind, or said. All texts are invented (demo)."""

import pytest

from hookside.notation import read
from hookside.pattern import in_order

ROUNDS = "R1: 6 sc in mr (6)\nR2: inc x 6 (12)\nR3: (sc, inc) x 6 (18)\nR4-R9: sc around (18)\nR10: (sc, dec) x 6 (12)"


@pytest.mark.parametrize(
    ("line", "rounds", "side"),
    [
        ("All rounds in back loops only.", range(2, 11), "back"),
        ("Work every round in BLO unless stated otherwise.", range(2, 11), "back"),
        ("Please work in front loops only throughout.", range(2, 11), "front"),
        ("Work in BLO.", range(2, 11), "back"),
        ("Note: from round 5 on work in BLO.", range(5, 11), "back"),
        ("Rounds 5 to 9 are worked through the back loop only.", range(5, 10), "back"),
        ("Every second round is worked in the back loops.", range(2, 11, 2), "back"),
        ("Odd rounds in FLO.", range(3, 11, 2), "front"),
        ("The last 2 rounds are worked in front loops.", range(9, 11), "front"),
        ("BLO in rounds 4 and 6.", (4, 6), "back"),
    ],
)
def test_loops_told_ahead_are_kept_in_mind(line: str, rounds: range | tuple[int, ...], side: str) -> None:
    pattern = read(f"Owl\n{line}\n{ROUNDS}")
    courses = pattern.pieces[0].courses
    assert [c.makes for c in courses] == [6, 12, *[18] * 7, 12]
    assert {int(c.label) for c in courses for g in in_order(c.body) if g.loops == side} == set(rounds)
    assert [f.line for f in pattern.findings if f.code == "loops-ahead"] == [2]


def test_loops_of_a_round_of_its_own_stay() -> None:
    rounds = "R1: 6 sc in mr (6)\nR2: inc x 6 in FLO (12)\nR3: sc around (12)"
    pattern = read(f"Owl\nAll rounds in back loops only.\n{rounds}")
    loops = [{g.loops for g in in_order(c.body)} for c in pattern.pieces[0].courses]
    assert loops[1:] == [{"front"}, {"back"}]


@pytest.mark.parametrize(
    "line",
    [
        "Before you start: the first 3 rounds are worked in hdc.",
        "For the small size stop after R3.",
        "Every other round is worked in the back loops.",
        "Every other round is white.",
        "Work rounds 2-3 plain.",
        "Do rounds 2-3 without increases.",
        "Work round 10 plain.",
    ],
)
def test_what_can_not_be_kept_in_mind_is_said(line: str) -> None:
    found = [f for f in read(f"Owl\n{line}\n{ROUNDS}").findings if f.code == "way-ahead"]
    assert [f.line for f in found] == [2]
    assert line in found[0].message


@pytest.mark.parametrize(
    "line", ["The first 3 rounds are in sc.", "R1 to R3 are a little fiddly in black.", "Work rounds 5-6 plain."]
)
def test_what_the_rounds_say_themselves_is_not_said_again(line: str) -> None:
    rounds = ROUNDS.replace("R2: inc", "R2: in black, inc")
    assert not [f for f in read(f"Owl\n{line}\n{rounds}").findings if f.code == "way-ahead"]


@pytest.mark.parametrize(
    "line",
    [
        "Use hdc instead of sc throughout.",
        "Replace all sc with hdc.",
        "All sc are worked as hdc.",
        "Read sc as hdc.",
        "Substitute hdc for sc.",
        "Work half double crochet wherever it says sc.",
        "Use hdc for sc in the last round.",
    ],
)
def test_a_stitch_worked_for_another_is_said(line: str) -> None:
    pattern = read(f"Owl\n{line}\n{ROUNDS}")
    assert [f.line for f in pattern.findings if f.code == "way-ahead"] == [2]


@pytest.mark.parametrize("line", ["US terms, so sc instead of UK dc.", "Use hdc instead of tr.", "A 3 mm hook for sc."])
def test_terms_and_what_does_not_occur_are_not_said(line: str) -> None:
    assert not [f for f in read(f"Owl\n{line}\n{ROUNDS}").findings if f.code == "way-ahead"]


@pytest.mark.parametrize(
    "line",
    [
        "Use white except where told.",
        "White unless otherwise noted.",
        "Everything is white unless it says so.",
        "All white, except where a colour is given.",
        "Made in white.",
    ],
)
def test_the_color_of_all_is_in_the_hand_at_the_start(line: str) -> None:
    (piece,) = read(f"Owl\n{line}\n{ROUNDS}").pieces
    assert [(cue.kind, cue.after) for cue in piece.cues] == [("colour", "0")]
