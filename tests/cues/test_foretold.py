"""Jobs printed ahead of the round they name, and behind it: where each is asked."""

from hookside.cues import complete
from hookside.notation import read

ROUNDS = "R1: 6 sc in mr\nR2: inc x 6\nR3: (sc, inc) x 6\nR4-R8: sc around\nR9: (sc, dec) x 6\nR10: dec x 6"


def asked(text: str) -> list[tuple[str, str]]:
    (piece,) = complete(read(text)).pieces
    kinds = ("stuff", "eyes")
    return [(cue.kind, cue.after) for cue in piece.cues if cue.kind in kinds and cue.weight != "whisper"]


def test_what_stands_below_a_heading_is_asked_at_the_round_it_names() -> None:
    text = f"Owl\n\nHEAD\nPlace the eyes between R5 and R6, 4 stitches apart. Stuff after R8.\n{ROUNDS}"
    assert asked(text) == [("eyes", "6"), ("stuff", "8")]


def test_what_stands_between_rounds_waits_for_its_own() -> None:
    early = ROUNDS.replace("R3:", "Stuff after round 8. Eyes at R6.\nR3:")
    assert asked(f"Owl\n{early}") == [("eyes", "6"), ("stuff", "8")]


def test_two_rounds_named_are_two_goes() -> None:
    early = ROUNDS.replace("R3:", "Stuff after R5 and again after R8.\nR3:")
    assert asked(f"Owl\n{early}") == [("stuff", "5"), ("stuff", "8")]


def test_behind_the_last_round_the_named_one_holds() -> None:
    assert asked(f"Owl\n{ROUNDS}\nStuff after round 9.") == [("stuff", "9")]


def test_eyes_are_not_moved_from_their_round_where_it_is_no_narrower() -> None:
    assert asked(f"Owl\nInsert the eyes after R5.\n{ROUNDS}") == [("eyes", "5")]
