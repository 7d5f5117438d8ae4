"""A place carried from one strand to another by course and stitch. Expected steps are counted by hand (demo rounds)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from laying import Cue, Round, group, lay, times

from hookside.follow import RunState, State, carry, changes, cue_changes, locate, recast, same_steps, slide
from hookside.follow.recast import Moved
from hookside.follow.strand import Strand

RING = [group("ring"), group("sc", 6)]
TWELVE = [group("inc", 6)]
EIGHTEEN = [times(6, group("sc"), group("inc"))]
PLAIN = [group("sc", 18)]


def buoy(*more: Round | Cue, third: list[object] | None = None) -> Strand:
    """7 steps, 12, 18, then plain rounds of 18: round 4 begins at step 37."""
    rounds = [Round("1", RING), Round("2", TWELVE), Round("3", third or EIGHTEEN)]  # type: ignore[arg-type]
    return lay("buoy", [*rounds, *more])


def plain(*labels: int) -> list[Round]:
    return [Round(str(n), PLAIN, plain=True) for n in labels]


OLD = buoy(*plain(4, 5, 6), Cue("stop", "stuff"))


def said(old: Strand, new: Strand, at: int) -> list[tuple[str, str, bool]]:
    return [(change.label, change.what, change.behind) for change in changes(old, new, at)]


def test_rounds_added_ahead_move_nothing() -> None:
    new = buoy(*plain(4, 5, 6, 7, 8), Cue("stop", "stuff"))
    at = 37 + 12  # round 4, stitch 12
    carried = carry(OLD, new, at)
    assert (carried.to, carried.sure, carried.missed) == (at, True, [])
    assert said(OLD, new, at) == [("7", "new", False), ("8", "new", False)]


def test_a_round_behind_that_is_longer_moves_the_step_and_not_the_place() -> None:
    new = buoy(*plain(4, 5, 6), third=[times(6, group("sc", 2), group("inc"))])  # 24 steps where 18 were
    carried = carry(OLD, new, 37 + 12)
    assert (carried.to, carried.sure) == (43 + 12, True)
    assert locate(new, carried.to).stitch == locate(OLD, 37 + 12).stitch == 12
    assert said(OLD, new, 37 + 12) == [("3", "different", True)]


def test_a_course_in_hand_that_changed_is_not_sure() -> None:
    new = buoy(*plain(4, 5, 6), third=[times(6, group("sc", 2), group("inc"))])
    at = 19 + 7  # round 3: sc inc, sc inc, one sc: 7 stitches made
    carried = carry(OLD, new, at)
    assert (carried.sure, carried.start) == (False, 19)
    assert locate(new, carried.to).stitch == locate(OLD, at).stitch == 7
    assert said(OLD, new, at) == [("3", "different", False)]


def test_a_course_that_is_not_begun_needs_no_asking() -> None:
    new = buoy(*plain(4, 5, 6), third=[times(6, group("sc", 2), group("inc"))])
    carried = carry(OLD, new, 19)
    assert (carried.to, carried.sure) == (19, True)


def test_a_shorter_course_holds_the_place_inside_it() -> None:
    new = buoy(Round("4", [group("dec", 9)]), *plain(5))
    carried = carry(OLD, new, 37 + 16)  # 16 of 18 made, and the new round makes 9
    assert not carried.sure
    assert 37 <= carried.to < 37 + 9


def test_a_course_that_is_gone() -> None:
    new = buoy(*plain(4))
    carried = carry(OLD, new, 37 + 18 + 5)  # round 5, stitch 5
    assert (carried.to, carried.sure) == (37, False)
    assert said(OLD, new, 37 + 18 + 5) == [("5", "gone", False), ("6", "gone", False)]


def test_rows_and_rounds_of_one_number_are_two_things() -> None:
    new = buoy(*plain(4, 5, 6))
    rows = new.model_copy(update={"courses": [course.model_copy(update={"kind": "row"}) for course in new.courses]})
    assert not carry(OLD, rows, 40).sure


def test_a_new_stop_directly_before_the_round_is_asked() -> None:
    new = buoy(*plain(4, 5), Cue("stop", "eyes"), *plain(6), Cue("stop", "stuff"))
    at = 37 + 36  # round 6, nothing of it worked
    carried = carry(OLD, new, at)
    assert new.cue_at[carried.to].kind == "eyes"
    assert carried.missed == []


def test_a_new_stop_behind_the_place_is_told() -> None:
    new = buoy(*plain(4), Cue("stop", "eyes"), *plain(5, 6), Cue("stop", "stuff"))
    carried = carry(OLD, new, 37 + 36 + 3)
    assert [cue.kind for cue in carried.missed] == ["eyes"]
    assert carried.to == 37 + 36 + 3 + 1
    new_cues, gone = cue_changes(OLD, new)
    assert ([cue.kind for cue in new_cues], gone) == (["eyes"], [])


def test_a_stop_that_was_answered_is_not_told_again() -> None:
    old = buoy(*plain(4), Cue("stop", "eyes"), *plain(5, 6))
    new = buoy(*plain(4), Cue("stop", "eyes"), *plain(5, 6, 7))
    assert carry(old, new, 37 + 18 + 1 + 4).missed == []


def test_a_stop_that_waits_waits_on() -> None:
    old = buoy(*plain(4), Cue("stop", "eyes"), *plain(5, 6))
    new = buoy(*plain(4), Cue("stop", "eyes"), *plain(5, 6, 7))
    carried = carry(old, new, 37 + 18)
    assert (new.cue_at[carried.to].kind, carried.sure) == ("eyes", True)


def test_a_stop_that_comes_later_now_passes_no_round() -> None:
    old = buoy(*plain(4), Cue("stop", "eyes"), *plain(5, 6))
    new = buoy(*plain(4, 5), Cue("stop", "eyes"), *plain(6))
    carried = carry(old, new, 37 + 18)
    assert (carried.to, locate(new, carried.to).stitch) == (37 + 18, 0)
    assert new.courses[locate(new, carried.to).course or 0].label == "5"


def test_other_words_are_the_same_steps() -> None:
    other = OLD.model_copy(update={"id": "another", "piece": "Buoy"})
    assert same_steps(OLD, other)
    assert not same_steps(OLD, buoy(*plain(4, 5, 6)))


def test_counts_of_unread_rounds_go_along() -> None:
    old = lay("mitten", [Round("1", RING), Round("2", read=False), Round("3", PLAIN)])
    new = lay("glove", [Round("1", RING), Round("2", read=False), Round("3", PLAIN), Round("4", PLAIN)])
    state = State(in_hand="p1.c1", head=3, runs={"p1.c1": RunState(strand="mitten", at=10, counts={"mitten.2": 14})})
    done = recast(state, {"mitten": old, "glove": new}, 4, [Moved(run="p1.c1", strand="glove", to=10)])
    assert done.runs["p1.c1"] == RunState(strand="glove", at=10, counts={"glove.2": 14})
    assert (done.head, done.in_hand) == (4, "p1.c1")
    back = recast(state, {"mitten": old, "glove": new}, 4, [Moved(run="p1.c1", strand="glove", to=7)])
    assert back.runs["p1.c1"].counts == {}


BODIES = [RING, TWELVE, EIGHTEEN, PLAIN, [group("dec", 6)], [times(3, group("sc"), times(2, group("inc")))]]
CUES = [Cue("stop", "eyes"), Cue("pause", "colour"), Cue("whisper", "marker"), Cue("stop", "stuff")]
ITEMS = st.lists(
    st.one_of(
        st.builds(lambda n, body: ("round", n, body), st.integers(1, 6), st.sampled_from(BODIES)),
        st.sampled_from(CUES),
    ),
    max_size=9,
)


def strand_of(name: str, items: list[object]) -> Strand:
    met: dict[str, int] = {}
    laid: list[Round | Cue] = []
    for item in items:
        if isinstance(item, Cue):
            laid.append(item)
            continue
        assert isinstance(item, tuple)
        label = str(item[1])
        met[label] = met.get(label, 0) + 1
        laid.append(Round(label + "b" * (met[label] - 1), item[2]))
    return lay(name, laid)


@given(ITEMS, ITEMS, st.data())
def test_any_two_strands(first: list[object], second: list[object], data: st.DataObject) -> None:
    """Whatever is carried where: a place that exists, rests on no whisper, and passes no stop that it does not tell."""
    old, new = strand_of("one", first), strand_of("one", second)
    at = data.draw(st.integers(0, old.length))
    at, _ = slide(old, at)
    carried = carry(old, new, at)
    assert 0 <= carried.start <= carried.to <= new.length
    assert slide(new, carried.to)[0] == carried.to
    asked = {(cue.kind, cue.text) for cue in old.loud if cue.step < at}
    silently = [cue for cue in new.loud if cue.step < carried.to and (cue.kind, cue.text) not in asked]
    assert set(cue.address for cue in silently) <= {cue.address for cue in carried.missed}
    changes(old, new, at)
    assert carry(old, old, at).to == at
    assert changes(old, old, at) == []


@pytest.mark.parametrize("at", range(OLD.length + 1))
def test_a_strand_onto_itself(at: int) -> None:
    carried = carry(OLD, OLD, at)
    assert (carried.to, carried.sure, carried.missed) == (at, True, [])
