"""Words for a beginner, at first times. Practice of the trade, no source. Demo patterns."""

from __future__ import annotations

from hookside.compile import Choices, lay, read
from hookside.cues import counts, learning

BUOY = """Buoy
US terms

Buoy (make 2)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnds 4-6: sc in each st around (18)
Rnd 7: (sc, dec) x 6 (12)
Rnd 8: dec x 6 (6)
Fasten off.
"""


def told(text: str) -> dict[str, tuple[str, str]]:
    (piece,) = (p for p in read(text).pieces if p.courses)
    return {cue.address.split("/learn-")[1].split(".")[0]: (cue.after, cue.text) for cue in learning(piece)}


def test_each_first_time_has_its_word_once() -> None:
    found = told(BUOY)
    assert {what: after for what, (after, _) in found.items()} == {
        "ring": "1", "second": "1", "inc": "2", "curl": "3", "dec": "6", "pair": "8",
    }  # fmt: skip
    assert "count 6 back from the hook" in found["second"][1]
    assert "12 become 18" in found["inc"][1], "one word at a time: the first increases had to wait a round"
    assert "18 become 12" in found["dec"][1]


def test_where_there_is_no_ring_none_is_spoken_of() -> None:
    begun = BUOY.replace("6 sc in magic ring (6)", "ch 2, 6 sc in 2nd ch from hook (6)")
    assert "not the chain: count 6 back from the hook" in told(begun)["second"][1]
    assert "not the ring" in told(BUOY)["second"][1]


def test_behind_a_join_the_stitch_is_the_one_that_it_went_into() -> None:
    joined = BUOY.replace("6 sc in magic ring (6)", "6 sc in magic ring, sl st to first sc (6)")
    joined = joined.replace("Rnd 2: inc x 6", "Rnd 2: ch 1, inc x 6, sl st to first sc")
    text = told(joined)["second"][1]
    assert text.endswith("not the ring: the one that the join went into.")


def test_one_copy_has_no_fellows_and_rows_hide_their_edge() -> None:
    assert "pair" not in told(BUOY.replace(" (make 2)", ""))
    rows = "Flag\nUS terms\n\nFlag\nRow 1: ch 11, sc in 2nd ch from hook and in each ch across (10)\n"
    found = told(rows + "Rows 2-5: ch 1, turn, sc in each st across (10)\nFasten off.")
    assert {what: after for what, (after, _) in found.items()} == {"edge": "1"}


def test_the_ring_has_its_word_before_its_first_stitch() -> None:
    """First stitch in the ring: under both strands; the ring will not hold: the chain-2 start gives the same count."""
    pattern = read(BUOY)
    strand = lay(pattern, BUOY, Choices())[0].strand
    ring, count = strand.cues[0], strand.cues[1]
    assert (ring.step, ring.weight) == (1, "whisper"), "behind the ring, which is the first step"
    assert strand.courses[0].body[0].stitch == "ring"
    assert "under both strands, ring and tail" in ring.words.full
    assert "two chains" in ring.words.full
    assert count.address.endswith("count.0")
    assert "ring" not in told(BUOY.replace("6 sc in magic ring", "ch 2, 6 sc in 2nd ch from hook"))


def test_both_sides_of_a_chain_have_their_word_where_the_work_turns() -> None:
    keel = (
        "Keel\nUS terms\n\nKeel\nRnd 1: Ch 5, sc in 2nd ch from hook, sc in next 2 ch, 3 sc in last ch; on the other "
        "side of the chain sc in next 2 ch, 2 sc in last ch (10)\nRnd 2: sc in each st around (10)\nFasten off.\n"
    )
    (piece,) = read(keel).pieces
    (cue,) = [c for c in learning(piece) if "/learn-sides" in c.address]
    assert (cue.after, cue.at) == ("1", 6)
    assert "do not flip it" in cue.text
    legs = "sc in 12 sts of the first leg, ch 3, sc in 12 sts of the second leg, sc in the other side of the 3 ch"
    assert "sides" not in told(f"Gull\nUS terms\n\nBody\nRnd 1: {legs} (27)\nRnd 2: sc in each st around (27)\n")


def test_a_ring_is_drawn_shut_once_its_stitches_are_counted() -> None:
    (piece,) = read(BUOY).pieces
    assert [cue.text for cue in counts(piece) if "draw the ring shut" in cue.text] == [
        "Count now: 6 in round 1. Count the Vs, not the loop on the hook. Then draw the ring shut."
    ]
    (piece,) = read(BUOY.replace("6 sc in magic ring", "ch 2, 6 sc in 2nd ch from hook")).pieces
    assert not any("draw the ring shut" in cue.text for cue in counts(piece))


def test_they_are_whispers_that_were_worked_out() -> None:
    (piece,) = read(BUOY).pieces
    assert {(c.weight, c.basis) for c in learning(piece)} == {("whisper", "worked out")}


def test_what_goes_on_from_finished_parts_has_no_starting_tail_to_hide() -> None:
    """A cup can be told inside from outside in the leg; in the body that goes on from two of them it shows already."""
    leg = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nRnds 4-6: sc around (18)\n"
    text = (
        f"Pilot\nUS terms\n\nLeg (make 2)\n{leg}Fasten off the first leg only.\n\nBody\n"
        "Rnd 1: Ch 2, sc around the first leg (18), 2 sc in ch, sc around the second leg (18), 2 sc in ch (40)\n"
        "Rnds 2-5: sc around (40)\nFasten off.\n"
    )
    legs, body = (piece for piece in read(text).pieces if piece.courses)
    assert any("curl" in cue.text for cue in learning(legs))
    assert not any("curl" in cue.text for cue in learning(body))


def test_parts_that_stay_empty_have_no_stuffing_to_keep_alike() -> None:
    assert "stuffing" not in told(BUOY)["pair"][1]
    assert "stuffing" not in told(BUOY.replace("Fasten off.", "Do not stuff. Fasten off."))["pair"][1]
    assert "same stuffing" in told(BUOY.replace("Rnd 8", "Stuff firmly.\nRnd 8"))["pair"][1]
