"""A body changed by a stitch. The spelled lines are worked out by hand (demo rounds)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from laying import group, times

from hookside.mend.altering import altered, altered_by, begins_alike, carried, slipped, split
from hookside.mend.edits import Change
from hookside.pattern import Group, Node, makes, uses
from hookside.words import group_words


def each(body: list[Node]) -> list[tuple[str, int, int]]:
    """A body stitch by stitch."""
    found: list[tuple[str, int, int]] = []
    for node in body:
        if isinstance(node, Group):
            found += [(node.stitch, node.uses, node.makes)] * node.count
        else:
            found += each(node.body) * node.times
    return found


FIVE_IN = [times(6, group("sc", 4), group("inc"))]
FIVE_OUT = [times(6, group("sc", 4), group("dec"))]
JOINED = [group("ch"), times(6, group("inc"), group("sc", 3)), group("join")]


def line(body: list[Node] | None) -> str | None:
    if body is None:
        return None
    return ", ".join(
        group_words(n, "US").short if isinstance(n, Group) else f"({line(n.body)}) x {n.times}" for n in body
    )


@pytest.mark.parametrize(
    ("body", "change", "spelled"),
    [
        # One stitch too few below: 35 where 36 are wanted.
        (FIVE_IN, (-1, 0), "(4 sc, inc) x 5, 1 sc, inc, 1 sc, inc"),
        (FIVE_OUT, (-1, 0), "(4 sc, dec) x 5, 5 sc"),
        # One too many: 37.
        (FIVE_IN, (1, 0), "(4 sc, inc) x 5, 6 sc"),
        (FIVE_OUT, (1, 0), "(4 sc, dec) x 5, 1 sc, dec, 2 sc, dec"),
        # One more or fewer made in this very course.
        (FIVE_IN, (0, 1), "(4 sc, inc) x 5, 1 sc, inc, 2 sc, inc"),
        (FIVE_OUT, (0, 1), "(4 sc, dec) x 5, 6 sc"),
        (FIVE_IN, (0, -1), "(4 sc, inc) x 5, 5 sc"),
        # Led on as it is.
        (FIVE_IN, (1, 1), "(4 sc, inc) x 5, 5 sc, inc"),
        (FIVE_OUT, (-1, -1), "(4 sc, dec) x 5, 3 sc, dec"),
        # A plain course: one hidden increase or decrease near its end.
        ([group("sc", 36)], (-1, 0), "33 sc, inc, 1 sc"),
        ([group("sc", 36)], (1, 0), "33 sc, dec, 2 sc"),
        # What closes the course stays behind it.
        (JOINED, (-1, 0), "ch 1, (inc, 3 sc) x 5, inc x 2, 1 sc, join"),
        # Too little room in one repeat: the last two.
        ([times(6, group("sc"), group("inc"))], (-1, 0), "(1 sc, inc) x 4, inc x 3"),
        ([group("dec", 6)], (-1, 0), "dec x 5, 1 sc"),
        # No room at all.
        ([group("inc", 6)], (-1, 0), None),
        ([group("shell", 4)], (1, 0), None),
    ],
)
def test_the_altered_line(body: list[Node], change: tuple[int, int], spelled: str | None) -> None:
    assert line(altered(body, Change(*change))) == spelled


def test_the_makers_own_decrease_where_it_is_single_crochet() -> None:
    found = altered([group("sc", 12)], Change(1, 0), "inv dec")
    assert line(found) == "9 sc, inv dec, 2 sc"
    found = altered([group("hdc", 12)], Change(1, 0), "inv dec")
    assert line(found) == "9 hdc, hdc2tog, 2 hdc"


def test_a_slip_where_it_was_found() -> None:
    assert line(slipped(FIVE_IN, -1, 12)) == "4 sc, inc, 5 sc, (4 sc, inc) x 4"  # in the second turn, 12 stitches
    assert line(slipped([group("sc", 12)], 1, 6)) == "3 sc, inc, 8 sc"
    assert makes(slipped([group("dec", 6)], -1)) == 5
    assert makes(slipped([group("inc", 6)], 1)) == 13


UNITS = st.sampled_from(
    [
        group("sc"), group("sc", 3), group("inc"), group("dec"), group("hdc", 2), group("bobble"),
        group("sc", 2, into="ring"),
    ]
)  # fmt: skip
TURNS = st.builds(lambda n, body: times(n, *body), st.integers(1, 6), st.lists(UNITS, min_size=1, max_size=4))
BODIES = st.lists(st.one_of(UNITS, TURNS), min_size=1, max_size=4)
CHANGES = st.tuples(st.integers(-2, 2), st.integers(-2, 2))


@given(BODIES, CHANGES)
def test_what_is_changed_is_what_was_asked(body: list[Node], change: tuple[int, int]) -> None:
    used, made = change
    if used and made and used != made:
        return
    new = altered_by(body, used, made)
    if new is not None:
        assert (uses(new) - uses(body), makes(new) - makes(body)) == (used, made)
        assert begins_alike(new, body, 0)


@given(BODIES, st.integers(-2, 2), st.one_of(st.none(), st.integers(0, 20)))
def test_a_slip_is_as_large_as_it_was_and_lies_before_its_stitch(
    body: list[Node], more: int, before: int | None
) -> None:
    body = [group("sc", 3), *body]
    new = slipped(body, more, before)
    assert (uses(new), makes(new) - makes(body)) == (uses(body), more)
    if before is not None:
        behind = each(split(body, max(before, -more))[1])
        assert each(new)[len(each(new)) - len(behind) :] == behind


@given(BODIES, st.integers(0, 40))
def test_split_in_two(body: list[Node], stitches: int) -> None:
    front, behind = split(body, stitches)
    assert makes(front) + makes(behind) == makes(body)
    assert uses(front) + uses(behind) == uses(body)
    assert begins_alike([*front, *behind], body, makes(body))
    if stitches <= makes(body):
        assert makes(front) >= stitches


@given(st.integers(3, 90), st.integers(-2, 2))
def test_a_plain_course_is_led_on(count: int, more: int) -> None:
    new = carried([group("ch"), group("sc", count), group("join")], more)
    assert new is not None
    assert makes(new) == uses(new) == count + more
    assert carried(FIVE_IN, more) is None
