"""The loops of some rounds of a range, and colors that share a round. All texts are invented (demo)."""

import pytest

from hookside.notation import read
from hookside.pattern import in_order

ABOVE = "Owl\nR1: 6 sc in mr (6)\nR2: inc x 6 (12)\nR3: (sc, inc) x 6 (18)\n"


@pytest.mark.parametrize(
    ("line", "loops"),
    [
        ("R4-9: sc, work R6 in the back loops only", {6: "back"}),
        ("R4-9: sc 18 (18), R6 in BLO", {6: "back"}),
        ("R4-9: sc around (18) - R6 BLO", {6: "back"}),
        ("R4-9: sc (R6 in front loops only)", {6: "front"}),
        ("R4-9: sc, last round in BLO", {9: "back"}),
        ("R4-9: sc in each st around (18); rounds 6 and 8 in front loops only", {6: "front", 8: "front"}),
        ("R4-9: sc, BLO in R6 only", {6: "back"}),
        ("R4-9: sc around (18), in BLO at R6 and R8.", {6: "back", 8: "back"}),
        ("Rnds 4-9: sc (18) (rnd 6: FLO)", {6: "front"}),
        ("R4-9: sc (18), the third round through back loops", {6: "back"}),
        ("R4-9: sc in the back loops of R3 (18)", dict.fromkeys(range(4, 10), "back")),
        ("R4-9: sc in BLO, stuff after R6", dict.fromkeys(range(4, 10), "back")),
    ],
)
def test_the_loops_of_one_round_of_a_range(line: str, loops: dict[int, str]) -> None:
    courses = read(f"{ABOVE}{line}\n").pieces[0].courses
    assert [c.makes for c in courses] == [6, 12, *[18] * 7]
    assert {int(c.label): g.loops for c in courses for g in in_order(c.body) if g.loops} == loops


@pytest.mark.parametrize(
    ("line", "colors"),
    [
        ("sc 18 (4 white / 14 brown)", [(4, "white"), (14, "brown")]),
        ("sc 18 (white 4, brown 14)", [(4, "white"), (14, "brown")]),
        ("18 sc (4 in white and 14 in brown) (18)", [(4, "white"), (14, "brown")]),
        ("sc around (4 white, 10 brown, 4 white)", [(4, "white"), (10, "brown"), (4, "white")]),
        ("sc 18 (4 white / 10 brown)", [(18, None)]),
    ],
)
def test_colors_in_a_bracket_share_the_stitches_of_their_round(line: str, colors: list[tuple[int, str | None]]) -> None:
    piece = read(f"{ABOVE}R4: {line}\nR5: sc around\n").pieces[0]
    assert [(g.count, g.colour) for g in in_order(piece.courses[3].body)] == colors
    told = [cue.text for cue in piece.cues if cue.after == "3"]
    assert told == (["4 white / 10 brown"] if len(colors) == 1 else [])
