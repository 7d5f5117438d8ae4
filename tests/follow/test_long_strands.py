"""A strand of 5,000 courses, reading's limit, is followed without looking at more than the course in hand."""

from __future__ import annotations

from typing import Any

import pytest
from laying import Cue, Round, group, lay, times

from hookside.follow import advance, jump, locate, place, retreat, stepping
from hookside.follow.strand import Strand
from hookside.pattern import Node

COURSES = 5000


@pytest.fixture(scope="module")
def anchor_line() -> Strand:
    items: list[Round | Cue] = []
    for n in range(1, COURSES + 1):
        items += [Round(str(n), [times(400, group("sc", 4), group("dec"))]), Cue("whisper", "marker")]
    return lay("anchor-line", [*items, Cue("stop", "fasten")])


@pytest.fixture
def looked_into(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """The bodies that were looked into, by identity."""
    seen: list[int] = []
    real = place.reach

    def reach(body: list[Node], offset: int) -> Any:
        seen.append(id(body))
        return real(body, offset)

    monkeypatch.setattr(place, "reach", reach)
    monkeypatch.setattr(stepping, "reach", reach)
    return seen


@pytest.mark.parametrize("course", [0, 1, 2499, 4999])
def test_only_the_course_in_hand_is_looked_into(anchor_line: Strand, looked_into: list[int], course: int) -> None:
    here = anchor_line.courses[course]
    at = here.first + 1234
    spot = locate(anchor_line, at)
    # 246 turns of 5 and 4 more: 1234 steps, as many stitches, since a decrease is one step and one stitch.
    assert (spot.course, spot.stitch, spot.of) == (course, 1234, 2000)
    assert spot.repeat is not None
    assert (spot.repeat.i, spot.repeat.n) == (247, 400)
    assert spot.next_cue is not None
    assert (spot.next_cue.distance_courses, spot.next_cue.distance_stitches) == (
        COURSES - course,
        2000 * (COURSES - course) - 1234,
    )
    for unit in ("stitch", "group", "repeat", "round", "plain"):
        advance(anchor_line, at, unit)
        retreat(anchor_line, at, unit)
    assert set(looked_into) == {id(here.body)}


def test_a_jump_over_everything_looks_into_nothing(anchor_line: Strand, looked_into: list[int]) -> None:
    done = jump(anchor_line, 0, anchor_line.length)
    assert done.model_dump() == {
        "to": anchor_line.length - 1,
        "passed": [cue.address for cue in anchor_line.cues if cue.weight == "whisper"],
    }
    assert looked_into == []
