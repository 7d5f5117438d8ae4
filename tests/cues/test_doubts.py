"""What was started although it can't be followed: said again before the first stitch of its round. Demo texts."""

from __future__ import annotations

from hookside.compile import Choices, lay, read
from hookside.follow import Strand, flaws

BADGER = """Badger
US terms

Body
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (20)
Rnd 4: sc in each st around (18)
Stuff the tip.
Rnd 5: (sc, dec) x 5 (10)
Rnd 6: sc in each st around
Fasten off.
"""


def strand(text: str, **choices: object) -> Strand:
    (laid,) = lay(read(text), text, Choices.model_validate({"anyway": True, **choices}))
    return laid.strand


def test_the_sentence_of_the_read_through_waits_before_the_first_stitch() -> None:
    body = strand(BADGER)
    assert flaws(body) == []
    count, over = (cue for cue in body.cues if cue.is_doubt)
    assert (count.address, count.weight) == ("body.3/doubt.0", "pause")
    assert count.words.short == "Round 3 and its count differ"
    assert "18, but the pattern prints 20" in count.words.full
    assert (over.address, over.words.short) == ("body.5/doubt.0", "Round 5 does not add up")
    assert over.words.full.endswith("= 15, but round 4 made 18: three are left over.")
    assert '"' not in over.words.full, "mended lines are taken where the text is read"
    by_id = {course.id: course for course in body.courses}
    for doubt in (count, over):
        between = [cue for cue in body.cues if doubt.step < cue.step < by_id[doubt.home].first]
        assert doubt.step < by_id[doubt.home].first
        assert {cue.weight for cue in between} <= {"whisper"}, "the next thing is the stitch"
    stuff = next(cue for cue in body.cues if cue.kind == "stuff")
    assert stuff.step < over.step, "what the text asks for there comes first"


def test_what_adds_up_has_none_and_no_choice_turns_it_down() -> None:
    right = BADGER.replace("(20)", "(18)").replace("x 5 (10)", "x 6 (12)")
    assert not any(cue.is_doubt for cue in strand(right).cues)
    assert [cue.home for cue in strand(BADGER, kinds_off=["other"]).cues if cue.is_doubt] == ["body.3", "body.5"]


def test_the_first_round_of_a_piece_has_it_too() -> None:
    body = strand("Dot\nUS terms\n\nDot\nRnd 1: 6 sc in magic ring (8)\nRnd 2: inc x 6 (12)\n")
    assert body.cues[0].address == "dot.1/doubt.0"
    assert body.cues[0].step == 0
