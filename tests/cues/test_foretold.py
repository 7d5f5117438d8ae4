"""Jobs printed ahead of the round they name, and behind it: where each is asked."""

import pytest

from hookside.cues import complete
from hookside.notation import read
from hookside.words.cues import bench_words

ROUNDS = "R1: 6 sc in mr\nR2: inc x 6\nR3: (sc, inc) x 6\nR4-R8: sc around\nR9: (sc, dec) x 6\nR10: dec x 6"


def asked(text: str) -> list[tuple[str, str]]:
    (piece,) = complete(read(text)).pieces
    kinds = ("stuff", "eyes")
    return [(cue.kind, cue.after) for cue in piece.cues if cue.kind in kinds and cue.weight != "whisper"]


def test_what_stands_below_a_heading_is_asked_at_the_round_it_names() -> None:
    text = f"Owl\n\nHEAD\nPlace the eyes between R5 and R6, 4 stitches apart. Stuff after R8.\n{ROUNDS}"
    assert asked(text) == [("eyes", "6"), ("stuff", "8")]


@pytest.mark.parametrize(
    "told",
    [
        "When round 6 is done, insert the eyes; when round 8 is done, stuff.",
        "After round 6 add the eyes, after round 8 start stuffing.",
        "After round 6 add the eyes and after round 8 start stuffing.",
    ],
)
def test_two_jobs_in_one_sentence_have_each_their_round(told: str) -> None:
    assert asked(f"Owl\n\nHEAD\n{told}\n{ROUNDS}") == [("eyes", "6"), ("stuff", "8")]


@pytest.mark.parametrize(
    ("told", "due"),
    [
        ("Put the eyes on before decreasing.", [("eyes", "8")]),
        ("Stuff the head before you close it.", [("stuff", "9")]),
        ("Eyes are placed 6 stitches apart.", [("eyes", "8")]),  # there is nothing yet to put them on
    ],
)
def test_below_a_heading_no_job_is_asked_before_its_work_is_there(told: str, due: list[tuple[str, str]]) -> None:
    assert [one for one in asked(f"Owl\n\nHEAD\n{told}\n{ROUNDS}") if one[0] == due[0][0]] == due


def test_what_stands_between_rounds_waits_for_its_own() -> None:
    early = ROUNDS.replace("R3:", "Stuff after round 8. Eyes at R6.\nR3:")
    assert asked(f"Owl\n{early}") == [("eyes", "6"), ("stuff", "8")]


def test_two_rounds_named_are_two_goes() -> None:
    early = ROUNDS.replace("R3:", "Stuff after R5 and again after R8.\nR3:")
    assert asked(f"Owl\n{early}") == [("stuff", "5"), ("stuff", "8")]


def test_behind_the_last_round_the_named_one_holds() -> None:
    assert asked(f"Owl\n{ROUNDS}\nStuff after round 9.") == [("stuff", "9")]


def test_eyes_are_not_moved_from_their_round_where_it_is_no_narrower() -> None:
    assert asked(f"Owl\nInsert the eyes after R5.\n{ROUNDS}") == [("eyes", "5"), ("stuff", "8")]


@pytest.mark.parametrize(
    "text",
    [
        f"Owl\nIn round 8 put a marker in stitch 15.\n{ROUNDS}",
        f"Owl\n\nHEAD\nPlace a marker in stitch 15 of round 8.\n{ROUNDS}",
        "Owl\n" + ROUNDS.replace("R3:", "In round 8 put a marker in the 15th stitch.\nR3:"),
        "Owl\n" + ROUNDS.replace("R9:", "In round 8 put a marker in stitch 15.\nR9:"),
        "Owl\n" + ROUNDS.replace("sc around", "sc around. In R8 mark st 15"),
        "Owl\n" + ROUNDS.replace("R4-R8: sc around", "R4-R7: sc around\nR8: sc around, marking the 15th st"),
        "Owl\n" + ROUNDS.replace("R4-R8: sc around", "R4-R7: sc around\nR8: sc around with a marker in st 15 (18)"),
    ],
)
def test_a_marker_for_one_stitch_of_a_round_waits_for_that_stitch(text: str) -> None:
    (piece,) = complete(read(text)).pieces
    (marker,) = [cue for cue in piece.cues if cue.kind == "marker" and cue.basis == "written"]
    assert (marker.after, marker.at) == ("8", 15)
    assert "15" in bench_words("marker", marker.text, "US")
    assert [course.makes for course in piece.courses] == [6, 12, 18, 18, 18, 18, 18, 18, 12, 6]


def test_further_goes_printed_with_the_first_are_told_at_their_rounds() -> None:
    """At the first of them there is something to do as well, and none of them is lost."""
    for told in ("Stuff after R6 and again after R8.", "Stuff now and top up after R8.", "Stuff here, again after R8."):
        text = "Owl\n" + ROUNDS.replace("R4-R8: sc around", f"R4-R6: sc around (18)\n{told}\nR7-R8: sc around")
        assert [one for one in asked(text) if one[0] == "stuff"] == [("stuff", "6"), ("stuff", "8")]


def test_the_name_of_a_section_without_rounds_is_no_other_piece() -> None:
    told = "Put the eyes between R5 and R6 before you close up."
    done = complete(read(f"Owl\n\nHEAD\n{told}\n{ROUNDS}\n\nMAKING UP\nHide the ends."))
    assert [cue.after for cue in done.pieces[0].cues if cue.kind == "eyes"] == ["6"]


def test_a_color_taken_up_in_the_last_stitch_of_a_round_waits_for_it() -> None:
    done = complete(read(f"Owl\nYou will change to cream in the last stitch of round 8, so have it ready.\n{ROUNDS}"))
    assert [(cue.after, cue.at) for cue in done.pieces[0].cues if cue.kind == "colour"] == [("8", 17)]


def test_the_color_a_piece_begins_with_is_told_with_where_it_begins() -> None:
    (piece,) = complete(read(f"Owl\n\nHEAD\nI begin at the top of the head with grey.\n{ROUNDS}")).pieces
    assert [(cue.after, cue.text) for cue in piece.cues if cue.kind == "colour"] == [
        ("0", "I begin at the top of the head with grey.")
    ]


def test_a_part_attached_below_a_heading_waits_for_its_round() -> None:
    arm = "ARM\nR1: 6 sc in mr\nR2-R8: sc around\nAttach the arm to the body at R4.\n"
    arms, body = complete(read(f"Owl\n\n{arm}\nBODY\nAttach the arm at R7.\n{ROUNDS}")).pieces
    sewn = [[cue.after for cue in piece.cues if cue.kind == "sew"] for piece in (arms, body)]
    assert sewn == [["8"], ["6"]]


@pytest.mark.parametrize("job", ["Sew the wings on at R7.", "Wings go on at R7.", "Sew arms on (R7)."])
def test_what_is_sewn_on_by_a_round_of_the_notes_is_said(job: str) -> None:
    assert [f.code for f in read(f"Owl\n{job}\n{ROUNDS}").findings if f.severity != "note"] == ["ahead"]


@pytest.mark.parametrize(
    ("told", "places"),
    [
        ("Once Rnd 4 is done, join the oat and carry on with it; hazel comes back for R7.", ["4", "6"]),
        ("After round 4 change to oat.", ["4"]),
        ("After round 4 we changed to oat.", ["6"]),
    ],
)
def test_a_change_told_behind_its_round_stands_at_it(told: str, places: list[str]) -> None:
    rounds = "Start with hazel.\n" + ROUNDS.replace("R4-R8: sc around", "R4: sc around\nR5: sc\nR6: sc\nR7: sc\nR8: sc")
    (piece,) = complete(read(f"Owl\n{rounds.replace('R7:', told + chr(10) + 'R7:')}")).pieces
    assert [cue.after for cue in piece.cues if cue.kind == "colour"][1:] == places


def test_a_yarn_that_is_not_cut_changes_in_the_last_stitch_as_any_other() -> None:
    for told, at in (("but don't cut the hazel", 17), ("and cut the hazel", None)):
        rounds = ROUNDS.replace("R4-R8: sc around", f"Swap to oat now for the stripe, {told}.\nR4-R8: sc around")
        (piece,) = complete(read(f"Owl\nStart with hazel.\n{rounds}")).pieces
        assert [cue.at for cue in piece.cues if cue.kind == "colour" and cue.after == "3"] == [at], told


@pytest.mark.parametrize(
    ("job", "kind"),
    [
        ("Embroider the cheeks between rounds 4 and 5 before stuffing.", "embroider"),
        ("The whiskers are sewn on before you fill it.", "sew"),
        ("Remember to sew the whiskers on before stuffing the head.", "embroider"),
    ],
)
def test_what_is_told_behind_the_filling_as_done_before_it_stands_in_front_of_it(job: str, kind: str) -> None:
    rounds = "R1: 6 sc in mr\nR2: inc x 6\nR3-R5: sc around\nR6: (sc, dec) x 4\nStuff.\nR7: dec x 4\n"
    (piece,) = complete(read(f"Owl\n{rounds}{job}\n")).pieces
    told = [cue.kind for cue in piece.cues if cue.weight != "whisper" and cue.kind in ("stuff", kind)]
    assert told == [kind, "stuff"]
