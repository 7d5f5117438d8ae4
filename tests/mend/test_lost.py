"""Lost, and found again: honest answers lead to the stitch the hook is at."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from strands import BUOY, at_end, laid, strands

from hookside.compile import Choices, lay, read
from hookside.follow import Strand, courses_done, locate
from hookside.mend.lost import lost
from hookside.mend.talk import Answers, Talk


def talked(strand: Strand, at: int, answers: Answers) -> Talk:
    """The talk with every question answered as `answers` has it."""
    given_so_far: Answers = {}
    for _ in range(8):
        said = lost(strand, at, {}, given_so_far)
        if said.ask is None:
            return said
        assert said.ask.key not in given_so_far
        given_so_far[said.ask.key] = answers[said.ask.key]
    raise AssertionError("it goes on asking")


def test_one_question_after_another() -> None:
    strand = laid(BUOY)
    at = next(s for s in range(strand.length) if locate(strand, s).course == 4 and locate(strand, s).stitch == 17)
    first = lost(strand, at, {}, {}).ask
    assert first is not None
    assert first.text == "Is the loop on the hook?"
    out = lost(strand, at, {}, {"loop": "no"})
    assert out.said.startswith("Put the hook back into the last whole loop")
    assert out.ask is not None
    assert out.ask.text == "Is the marker still in?"
    back = talked(strand, at, {"loop": "yes", "marker": "no", "on": "no"})
    assert back.said == "You had made 17 in round 5. Count back 17 from the hook: the marker goes there."
    assert back.to == at


def test_the_marker_is_out_at_the_end_of_a_round() -> None:
    strand = laid(BUOY)
    said = talked(strand, at_end(strand, "4"), {"loop": "yes", "marker": "no", "on": "no"})
    assert said.said == "Round 4 is done, with 24. The marker goes into the next stitch you make."


def test_worked_on_by_two_rounds() -> None:
    strand = laid(BUOY)
    found = talked(strand, at_end(strand, "4"), {"loop": "yes", "marker": "yes", "n": 5, "courses": 6})
    assert found.said == "You are in round 7, and 5 stitches of 24 are made."
    assert found.to is not None
    assert (locate(strand, found.to).course, locate(strand, found.to).stitch) == (6, 5)


# demo
LEGGED = """Harbour hand
US terms

LEG (make 2)
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
Rnds 3-6: sc around (12)

BODY
Rnd 7: 12 sc around the first leg, 12 sc around the second leg (24)
Rnds 8-20: sc around (24)
"""


def test_rounds_that_go_on_from_a_leg_are_asked_for_by_their_numbers() -> None:
    """A column of the body runs down the leg to its ring: nineteen rounds lie below round 20, not thirteen."""
    strand = lay(read(LEGGED), LEGGED, Choices())[-1].strand
    at = at_end(strand, "18")
    said = lost(strand, at, {}, {"loop": "yes", "marker": "yes", "n": 11})
    assert said.ask is not None
    assert said.ask.text == "Which round is the last whole one below that?"
    assert "begins with round 7" in said.ask.more
    assert [choice.value for choice in said.ask.choices][2:] == [18, 19, 20, "unsure"]
    found = talked(strand, at, {"loop": "yes", "marker": "yes", "n": 11, "courses": 19})
    assert found.said == "You are in round 20, and 11 stitches of 24 are made."
    first = talked(strand, at, {"loop": "yes", "marker": "yes", "n": 11, "courses": 6})
    assert first.said == "You are in round 7, and 11 stitches of 24 are made."


def test_rounds_that_begin_anew_on_two_legs_are_counted_from_where_they_are_joined() -> None:
    """The only ring lies in a leg: counted from there, every round of the body would be some too many."""
    text = LEGGED.replace("Rnd 7:", "Rnd 1:").replace("Rnds 8-20:", "Rnds 2-14:")
    strand = lay(read(text), text, Choices())[-1].strand
    said = lost(strand, at_end(strand, "12"), {}, {"loop": "yes", "marker": "yes", "n": 11})
    assert said.ask is not None
    assert said.ask.text == "How many whole rounds lie below that, from the start?"
    assert "the round that goes on from the parts before is the first" in said.ask.more


def test_the_rounds_cannot_be_counted() -> None:
    strand = laid(BUOY)
    answers: Answers = {"loop": "yes", "marker": "yes", "n": 3, "courses": "unsure", "below": 24}
    found = talked(strand, at_end(strand, "4"), answers)
    assert found.said == (
        "4 rounds have 24: 4, 5, 6 and 7. The nearest to where you were is taken. "
        "You are in round 5, and 3 stitches of 24 are made."
    )
    none = talked(strand, at_end(strand, "4"), answers | {"below": 21})
    assert none.to is None
    assert "No round of this part has 21 stitches" in none.said
    too_many = talked(strand, at_end(strand, "4"), {"loop": "yes", "marker": "yes", "n": 30, "courses": 6})
    assert too_many.to is None
    assert too_many.said.startswith("Round 7 has only 24, so 30 can't be in it.")


@settings(deadline=None, max_examples=60)  # the first one reads our patterns
@given(st.data())
def test_it_ends_at_the_stitch_where_the_hook_is(data: st.DataObject) -> None:
    strand = strands()[data.draw(st.integers(0, len(strands()) - 1))]
    thought = data.draw(st.integers(0, strand.length))
    really = data.draw(st.integers(0, strand.courses[-1].end))
    spot = locate(strand, really)
    answers: Answers = {
        "loop": data.draw(st.sampled_from(["yes", "no"])), "marker": data.draw(st.sampled_from(["yes", "no"])),
        "on": "yes", "n": spot.stitch, "courses": courses_done(strand, really) - _chains(strand, really),
        "below": 1,
    }  # fmt: skip
    found = talked(strand, thought, answers)
    assert found.to is not None
    there = locate(strand, found.to)
    assert (there.course, there.stitch) == (spot.course, spot.stitch)


def _chains(strand: Strand, at: int) -> int:
    """Foundation chains before a place: no course that one counts."""
    first = next(i for i, course in enumerate(strand.courses) if course.makes or not course.read)
    return min(first, courses_done(strand, at))


@settings(deadline=None, max_examples=60)
@given(st.data())
def test_whatever_is_answered_it_ends_on_a_stitch_or_says_why_not(data: st.DataObject) -> None:
    strand = strands()[data.draw(st.integers(0, len(strands()) - 1))]
    at = data.draw(st.integers(0, strand.length))
    answers: Answers = {}
    for _ in range(8):
        said = lost(strand, at, {}, answers)
        if said.ask is None:
            assert said.said
            assert said.to is None or 0 <= said.to <= strand.length
            return
        choices = [choice.value for choice in said.ask.choices]
        numbers = [st.integers(said.ask.least, said.ask.most)] if said.ask.kind == "number" else []
        answers[said.ask.key] = data.draw(st.one_of(*([st.sampled_from(choices)] if choices else []), *numbers))
    raise AssertionError("it goes on asking")
