"""After a mend the counts agree with the next written course, whatever the pattern."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strands import BUOY, at_end, laid, strands

from hookside.follow import Strand, carry, deviate, fits, flaws, locate, mended
from hookside.mend.counting import count_check
from hookside.mend.ground import Subject, obstacle, subject
from hookside.mend.offering import Miscount, offers
from hookside.mend.talk import Offer, Talk
from hookside.pattern import makes, uses

PICTURE = BUOY.replace(
    "Rnds 5-7: sc in each st around (24)",
    "Rnd 5: 8 sc with red, 4 sc with white, 12 sc with red (24)\nRnds 6-7: sc in each st around (24)",
)
JOINED = """Twin float
US terms

Float
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnds 3-4: sc in each st around (12)
Join the second leg.
Rnd 5: sc in each st around (12)
Rnd 6: (sc, dec) x 4 (8)
"""


def offered(strand: Strand, label: str, more: int) -> dict[str, Offer]:
    at = at_end(strand, label)
    asked = subject(strand, at, {})
    assert asked is not None
    return {offer.key: offer for offer in offers(strand, at, Miscount(asked, more))}


def test_one_too_few_is_taken_up_where_the_round_shapes_next() -> None:
    strand = laid(BUOY)
    found = offered(strand, "4", -1)
    shaping = found["shaping"]
    assert shaping.title == "In the last repeat of round 8"
    assert shaping.line == "(2 sc, inv dec) x 5, 3 sc"
    assert shaping.say == "Rounds 5 to 7 on 23. Round 8: (2 sc, inv dec) x 5, 3 sc. That makes 18, as written."
    assert found["hidden"].title == "One hidden increase in round 5"
    assert found["hidden"].line == "21 sc, inc, 1 sc"  # 23 below, 24 made
    assert list(found) == ["shaping", "hidden", "rip", "leave"]
    assert shaping.mend is not None
    new = deviate(strand, shaping.mend.deviations)
    counts = [(course.label, course.uses, course.makes) for course in new.courses[3:9]]
    assert counts == [("4", 18, 23), ("5", 23, 23), ("6", 23, 23), ("7", 23, 23), ("8", 23, 18), ("9", 18, 18)]
    # What she counted just now is not asked for again. 23 stand there, and 23 are pulled out.
    (said,) = [cue.text for cue in new.cues if cue.kind == "count" and cue.address.startswith(new.courses[3].id)]
    assert said == "Counted: 23 in round 4."
    assert found["rip"].say == "Pull out 23 stitches, to the start of round 4, and work it once more."
    # Right after it the maker is asked to count, and the place is where it was.
    (count,) = [cue for cue in new.cues if cue.address.endswith("/count.0") and cue.weight == "pause"]
    assert (count.text, count.step) == ("Count now: 18 in round 8.", new.courses[7].end)
    at = at_end(strand, "4")
    carried = carry(strand, new, at)
    assert carried.sure
    assert locate(new, carried.to).course == locate(strand, at).course == 4
    assert locate(new, carried.to).stitch == 0


def test_one_too_many_with_the_makers_own_decrease() -> None:
    found = offered(laid(BUOY), "6", 1)
    assert found["hidden"].line == "21 sc, inv dec, 2 sc"  # 25 below, 24 made
    assert found["shaping"].line == "(2 sc, inv dec) x 5, inv dec, 1 sc, inv dec"


def test_never_inside_a_picture() -> None:
    found = offered(laid(PICTURE), "4", -1)
    for key in ("shaping", "hidden", "leave"):
        assert found[key].kind == "refused", key
        assert "picture" in found[key].say
    assert found["rip"].kind == "rip"
    strand = laid(PICTURE)
    midway = offers(strand, at_end(strand, "4") + 20, Miscount(Subject(4, False, 20), -1))
    assert [offer.kind for offer in midway] == ["refused", "rip"]


def test_behind_a_picture_a_slip_is_led_on_and_she_is_told_to_look() -> None:
    found = offered(laid(PICTURE), "5", -1)
    assert {key: offer.kind for key, offer in found.items()} == {
        "shaping": "mend", "hidden": "mend", "rip": "rip", "leave": "mend",
    }  # fmt: skip
    for key in ("shaping", "hidden", "leave"):
        assert found[key].say.endswith("Look at the colours of round 5 first: they stay as they are worked."), key


def test_never_where_parts_join() -> None:
    strand = laid(JOINED)
    found = offered(strand, "3", -1)
    assert found["shaping"].kind == "refused"
    assert found["hidden"].kind == "mend"  # round 4 lies before the join
    after = offered(strand, "4", -1)
    assert {key: offer.kind for key, offer in after.items()} == {
        "shaping": "refused", "hidden": "refused", "rip": "rip", "leave": "refused",
    }  # fmt: skip
    assert "Parts join" in after["hidden"].say


def test_left_in_the_last_round_it_is_said_what_a_part_that_goes_on_counts_on() -> None:
    say = offered(laid(BUOY), "11", 1)["leave"].say
    assert "the piece ends with 7 stitches" in say
    assert "a part that goes on from these stitches counts on 6, so pull it out then" in say


def test_leaving_it_goes_on_until_a_round_can_take_it_up() -> None:
    strand = laid(BUOY)
    leave = offered(strand, "9", -1)["leave"]
    assert leave.mend is not None
    new = deviate(strand, leave.mend.deviations)
    assert [(c.uses, c.makes) for c in new.courses[8:]] == [(18, 17), (17, 11), (11, 6)]
    assert "until round 11 takes it up" in leave.say


@settings(deadline=None, max_examples=60)  # the first one reads our patterns
@given(st.data())
def test_after_a_mend_counts_agree_with_the_next_written_course(data: st.DataObject) -> None:
    strand = strands()[data.draw(st.integers(0, len(strands()) - 1))]
    at = data.draw(st.integers(1, strand.length))
    asked = subject(strand, at, {})
    more = data.draw(st.sampled_from([-2, -1, 1, 2]))
    if asked is None or asked.ours + more < 1:
        return
    turn = data.draw(st.one_of(st.none(), st.integers(1, 3)))
    course = strand.courses[asked.index]
    for offer in offers(strand, at, Miscount(asked, more, turn)):
        assert (offer.mend is not None) == (offer.kind == "mend")
        assert (offer.to is not None) == (offer.kind in ("go", "rip"))
        if offer.kind == "rip":
            assert offer.to is not None
            assert course.first <= offer.to <= at
            assert f"{offer.many} stitch" in offer.say  # one number, the one that was counted
        if offer.mend is None:
            continue
        assert fits(strand, offer.mend)
        new = deviate(strand, offer.mend.deviations)
        assert flaws(new) == []
        assert not fits(new, offer.mend)  # it is not put on twice
        assert mended(strand, [offer.mend]) == (new, [offer.mend.model_copy(update={"on": strand.id})])
        changed = [i for i, (a, b) in enumerate(zip(strand.courses, new.courses, strict=True)) if a.body != b.body]
        first, last = min(changed), max(changed)
        assert first >= asked.index
        for i in range(asked.index + 1, len(new.courses)):
            written, now = strand.courses[i], new.courses[i]
            if obstacle(strand, i) is None or i <= last:
                assert now.uses == new.courses[i - 1].makes
            if i > last:
                assert (now.uses, now.makes, now.body) == (written.uses, written.makes, written.body)
        if offer.key in ("shaping", "hidden", "here"):
            assert new.courses[last].makes == strand.courses[last].makes
        for i in changed:
            body = new.courses[i].body
            assert (new.courses[i].uses, new.courses[i].makes) == (uses(body), makes(body))
            assert i == asked.index or obstacle(strand, i) is None
        # Every stop and pause is still there, once, and the new one asks for a count.
        added = {cue.address for cue in new.loud} - {cue.address for cue in strand.loud}
        assert {cue.address for cue in strand.loud} <= {cue.address for cue in new.loud}
        assert all(address.endswith("/count.0") for address in added)


def talk(strand: Strand, at: int, **answers: int | str) -> Talk:
    return count_check(strand, at, {}, answers)


def test_the_slip_is_looked_for_first() -> None:
    strand = laid(BUOY)
    at = at_end(strand, "4")
    first = talk(strand, at).ask
    assert first is not None
    assert (first.text, first.kind) == ("How many stitches do you count in round 4?", "number")
    assert [choice.value for choice in first.choices] == [22, 23, 24, 25, 26]
    assert talk(strand, at, n=24).said == "24 is right: round 4 has 24."
    edge = talk(strand, at, n=23).ask
    assert edge is not None
    assert edge.text == "Is the marked stitch the very next one to work into?"
    unfinished = talk(strand, at, n=23, edge="no")
    assert unfinished.to is not None
    assert (locate(strand, unfinished.to).course, locate(strand, unfinished.to).stitch) == (3, 23)
    gap = talk(strand, at, n=23, edge="yes").ask
    assert gap is not None
    assert gap.text == "Look along round 4: between neighbouring increases there should be 2. Is one gap different?"
    which = talk(strand, at, n=23, edge="yes", gap="differs").ask
    assert which is not None
    assert (which.least, which.most) == (1, 6)
    found = talk(strand, at, n=23, edge="yes", gap="differs", which=5)
    assert found.said.startswith("Round 4 has 1 stitch too few, in repeat 5.")
    assert [offer.key for offer in found.offers] == ["shaping", "hidden", "spot", "rip", "leave"]
    spot = next(offer for offer in found.offers if offer.key == "spot")
    assert spot.to is not None
    assert locate(strand, spot.to).stitch == 16


def test_in_the_middle_of_a_round_the_place_may_be_what_is_off() -> None:
    strand = laid(BUOY)
    course = strand.courses[3]
    at = next(step for step in range(course.first, course.end) if locate(strand, step).stitch == 12)
    alike = talk(strand, at, n=11, gap="alike")
    assert alike.to is not None
    assert locate(strand, alike.to).stitch == 11
    assert alike.offers == []
    differs = talk(strand, at, n=11, gap="differs", which=2)
    here = differs.offers[0]
    assert (here.key, here.line) == ("here", "2 sc, inc, 3 sc, (2 sc, inc) x 3, inc, 1 sc, inc")
    assert here.mend is not None
    assert makes(deviate(strand, here.mend.deviations).courses[3].body) == 24


def test_far_off_is_counted_again_and_not_mended() -> None:
    strand = laid(BUOY)
    at = at_end(strand, "6")
    again = talk(strand, at, n=19).ask
    assert again is not None
    assert again.key == "again"
    assert talk(strand, at, n=19, again=24).said == "24 is right: round 6 has 24. The first count was off."
    told = talk(strand, at, n=19, again=19, edge="yes")
    assert [offer.kind for offer in told.offers] == ["go", "rip"]


@settings(deadline=None, max_examples=60)  # the first one reads our patterns
@given(st.data())
def test_a_talk_ends(data: st.DataObject) -> None:
    """Whatever is answered, each question is another one, and it comes to an end."""
    strand = strands()[data.draw(st.integers(0, len(strands()) - 1))]
    at = data.draw(st.integers(0, strand.length))
    answers: dict[str, int | str] = {}
    for _ in range(8):
        said = count_check(strand, at, {}, answers)
        if said.ask is None:
            assert said.said
            assert said.to is None or 0 <= said.to <= strand.length
            return
        assert said.ask.key not in answers
        if said.ask.kind == "choice":
            answers[said.ask.key] = data.draw(st.sampled_from([choice.value for choice in said.ask.choices]))
        else:
            likely = [choice.value for choice in said.ask.choices]
            low, high = said.ask.least, said.ask.most
            near = [st.sampled_from(likely)] if likely else []
            answers[said.ask.key] = data.draw(st.one_of(*near, st.integers(low, high)))
    pytest.fail("it goes on asking")
