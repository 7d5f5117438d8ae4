"""In which colour, and through which loops, the stitches of a course are told beside them."""

import pytest

from hookside.notation import read
from hookside.pattern import in_order

BEGUN = "Fish\nRnd 1: 12 sc in MR (12)\n"


@pytest.mark.parametrize(
    ("line", "shade"),
    [
        ("Rnd 2 (orange): sc around (12)", "orange"),
        ("Rnd 2 [in orange]: sc around (12)", "orange"),
        ("Round 2 (with B) - 12 sc (12)", "B"),
        ("Rnd 2: sc around (12), in orange", "orange"),
        ("Rnd 2: sc around (12) with orange", "orange"),
        ("Rnd 2: sc around (12) - orange", "orange"),
        ("Rnd 2: sc around (12) orange. Stuff.", "orange"),
        ("Rnd 2: sc around (12) [orange]", "orange"),
        ("Rnd 2: sc around (12), change to orange", None),
        ("Rnd 2: sc 12 all in orange", "orange"),
        ("Rnd 2: 12 sc all in orange (12)", "orange"),
        ("Rnd 2: sc 12 (all in orange)", "orange"),
        ("Rnd 2: sc all in orange", "orange"),
        ("Rnd 2: 3 sc in red, 9 sc in white (12)", "red"),
    ],
)
def test_a_color_told_beside_a_course_is_its_own(line: str, shade: str | None) -> None:
    (fish,) = read(BEGUN + line).pieces
    assert [next(in_order(course.body)).colour for course in fish.courses[1:]] == [shade]
    assert fish.courses[1].makes == 12


def test_brackets_in_front_of_stitches_tell_the_colors_of_what_follows() -> None:
    (fish,) = read("Fish\nRnd 1: [B] 12 sc in MR (12)\nRnd 2: [A] 4 sc [B] 6 sc [A] 2 sc (12)").pieces
    assert [g.colour for g in in_order(fish.courses[1].body)] == ["A", "B", "A"]
    (fish,) = read("Fish\nRnd 1: 12 sc in MR (12)\nRnd 2: 4 sc [B], 8 sc [A] (12)").pieces
    assert [g.colour for g in in_order(fish.courses[1].body)] == ["B", "A"]


@pytest.mark.parametrize("line", ["Rnd 2 (blo): sc around (12)", "Rnd 2 [back loops only]: 12 sc (12)"])
def test_loops_in_a_bracket_behind_the_number_are_worked(line: str) -> None:
    (fish,) = read(BEGUN + line).pieces
    assert {group.loops for group in in_order(fish.courses[1].body)} == {"back"}


@pytest.mark.parametrize(
    ("line", "side"),
    [
        ("Rnd 2 - sc in each, back loop only (12)", "back"),
        ("Rnd 2: sc around, FLO (12)", "front"),
        ("Rnd 2: (1 sc, inc) x 6, front loops only (18)", "front"),
        ("Rnd 2: (1 sc, inc, blo) x 6 (18)", "back"),
        ("Rnd 2: *1 sc, inc, back loops only* 6 times (18)", "back"),
        ("Rnd 2: sc in each st around - back loops only (12)", "back"),
        ("Rnd 2: sc in each st around. Back loops only. (12)", "back"),
        ("Rnd 2: sc around, working in back loops only (12)", "back"),
        ("Rnd 2: 12 sc, working through back loops", "back"),
        ("Rnd 2: dec x 6, blo (6)", "back"),
        ("Rnd 2: sc around (12), BLO", "back"),
        ("Rnd 2: sc around, back loops only, join (12)", "back"),
        ("Rnd 2: sc around, BLO, change to white (12)", "back"),
    ],
)
def test_loops_behind_all_stitches_of_a_round_are_those_of_the_round(line: str, side: str) -> None:
    pattern = read(BEGUN + line)
    worked = [g for g in in_order(pattern.pieces[0].courses[1].body) if g.makes and g.uses]
    assert {group.loops for group in worked} == {side}
    assert not pattern.findings


@pytest.mark.parametrize(
    "line",
    [
        "Rnd 2: sc around, join, back loops only (12)",
        "Rnd 2: sc around, stuff lightly. Back loops only. (12)",
        "Rnd 2: 6 sc in flo, 6 sc, blo (12)",
    ],
)
def test_loops_of_which_it_is_not_told_whose_they_are_are_said(line: str) -> None:
    assert [f.code for f in read(BEGUN + line).findings] == ["passed-over"]


def test_a_stitch_without_a_number_is_offered_one_where_the_printed_count_needs_it() -> None:
    text = f"{BEGUN}Rnd 2: (sc, inc) x 6 (18)\nRnd 3: (sc, inc) x 6 (24)"
    (wrong,) = [f for f in read(text).findings if f.severity == "error"]
    assert wrong.suggestions[0].label == "Round 3: (2 sc, inc) x 6, makes 24"
    edit = wrong.suggestions[0]
    assert not read(text[: edit.start] + edit.replacement + text[edit.end :]).findings


@pytest.mark.parametrize(
    "told",
    [
        "Change to black after the 9th stitch.",
        "Change to black after st 9.",
        "Change to black after 9 sts.",
        "Change to black after the first nine stitches.",
        "After the 9th stitch change to black.",
        "After stitch nine, switch to black.",
        "Then after 9 sts change to black.",
        "Black after the ninth stitch.",
        "Use black after 9 sts.",
        "Black from stitch 10 on.",
        "Change to black at the 10th stitch.",
    ],
)
def test_a_color_behind_the_ninth_stitch_is_drawn_through_in_it(told: str) -> None:
    (fish,) = read(f"{BEGUN}Rnd 2: inc around (24)\nRnd 3: sc 24. {told}").pieces
    (cue,) = [c for c in fish.cues if c.kind == "colour"]
    assert (cue.after, cue.at) == ("3", 9)


@pytest.mark.parametrize("told", ["first blo", "the first one in back loops only", "first in blo", "first round blo"])
def test_the_first_of_a_range_has_its_own_loops(told: str) -> None:
    (fish,) = read(f"{BEGUN}Rnds 2-4: sc 12, {told}\nRnds 5-6: sc 12 ({told.replace('first', 'last')})").pieces
    assert [next(in_order(course.body)).loops for course in fish.courses[1:]] == ["back", None, None, None, "back"]


@pytest.mark.parametrize(
    "told",
    [
        "change to cream, working in back loops only: sc around",
        "change to cream, in blo: sc around",
        "switch to cream and work in back loops only: sc around",
        "change to cream in back loops only: sc around",
    ],
)
def test_loops_told_behind_a_change_are_those_of_the_round(told: str) -> None:
    (fish,) = read(f"{BEGUN}Rnd 2: {told} (12)").pieces
    assert [next(in_order(course.body)).loops for course in fish.courses[1:]] == ["back"]
