"""Joined rounds as a spiral: the same counts, the stitches of one that is written so, refused where it would show."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookside.compile import Choices, lay, read
from hookside.follow import Strand
from hookside.habits import habits
from hookside.pattern import Group, Node, makes, uses

HEAD = "Mooring float\nUS terms\nHook: 3 mm\n\n"
WAYS = ("plain", "up", "down")


def strands(text: str, **choices: object) -> list[Strand]:
    return [one.strand for one in lay(read(text), text, Choices.model_validate(choices))]


def stitches(body: list[Node]) -> list[tuple[str, int, int]]:
    """Every stitch of a body by what it uses and makes, actions and chains left out."""
    out: list[tuple[str, int, int]] = []
    for node in body:
        if isinstance(node, Group):
            out += [(node.stitch, node.uses, node.makes)] * (node.count if node.makes else 0)
        else:
            out += stitches(node.body) * node.times
    return out


def written(courses: list[tuple[str, int]], joined: bool, counts: bool) -> str:
    """A float by its shaping, joined or in a spiral. Where the ch 1 counts it stands for the first single crochet."""
    made, lines = 6, [f"Rnd 1: 6 sc in magic ring{', join with sl st in first sc' * joined}. (6)"]
    for number, (way, every) in enumerate(courses, start=2):
        single = f"sc in next {every} sts, " if every > 1 else "sc in next st, "
        unit = every + (2 if way == "down" else 1)
        times, left = divmod(made, unit)
        if way == "plain" or not times:
            body, makes_, first = "sc in each st around", made, "sc in each st around"
        else:
            shape = "2 sc in next st" if way == "up" else "sc2tog"
            makes_ = made + times * (1 if way == "up" else -1)
            rest = f", sc in next {left} st{'s' * (left > 1)}" if left else ""
            body = f"*{single}{shape}; repeat from * {times} times in all{rest}"
            fewer = f"sc in next {every - 1} sts, " if every > 2 else "sc in next st, " if every == 2 else ""
            again = f", *{single}{shape}; repeat from * {times - 1} times in all" if times > 1 else ""
            first = f"{fewer}{shape}{again}{rest}"
        start = ("ch 1 (counts as first sc), " + first if counts else "ch 1, " + body) if joined else body
        lines.append(f"Rnd {number}: {start}{', join with sl st in first sc' * joined}. ({makes_})")
        made = makes_
    return HEAD + "Float\n" + "\n".join(lines) + "\nFasten off.\n"


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.tuples(st.sampled_from(WAYS), st.integers(1, 5)), min_size=1, max_size=7),
    st.booleans(),
)
def test_the_same_counts_and_the_stitches_of_a_written_spiral(courses: list[tuple[str, int]], counts: bool) -> None:
    joined = written(courses, joined=True, counts=counts)
    (as_written,) = strands(joined)
    (spiral,) = strands(joined, spiral=True)
    (by_hand,) = strands(written(courses, joined=False, counts=False))
    assert [(c.id, c.uses, c.makes) for c in spiral.courses] == [(c.id, c.uses, c.makes) for c in as_written.courses]
    for course, other in zip(spiral.courses, by_hand.courses, strict=True):
        assert (makes(course.body), uses(course.body)) == (course.makes, course.uses)
        assert stitches(course.body) == stitches(other.body)
        assert course.spiral
    # The marker goes with a spiral as if it had been written as one.
    assert [c.address for c in spiral.cues if c.kind == "marker"] == [
        c.address for c in by_hand.cues if c.kind == "marker"
    ]


JOINED = "Rnd {n}: Ch 1, sc in each st around, join with sl st in first sc. (12)\n"
ROUNDS = (
    "Rnd 1: 6 sc in magic ring, join with sl st in first sc. (6)\n"
    "Rnd 2: Ch 1, 2 sc in each st around, join with sl st in first sc. (12)\n"
)


def float_of(*rounds: str, end: str = "Fasten off.\n") -> str:
    return HEAD + "Float\n" + ROUNDS + "".join(rounds) + end


def test_an_open_end_is_levelled_by_one_slip_stitch_that_is_not_counted() -> None:
    (spiral,) = strands(float_of(JOINED.format(n=3)), spiral=True)
    last = spiral.courses[-1]
    assert last.words.short == "12 sc, 1 sl st in next st"
    assert (last.uses, last.makes) == (12, 12)
    assert any(cue.address.endswith("/level.0") for cue in spiral.cues)


def test_a_closed_end_is_not() -> None:
    end = "Cut the yarn and draw the tail through the front loops of the last 6 sts to close the hole.\n"
    (spiral,) = strands(
        float_of("Rnd 3: Ch 1, sc2tog 6 times, join with sl st in first sc. (6)\n", end=end), spiral=True
    )
    assert spiral.courses[-1].words.short == "sc2tog x 6"


def test_a_chain_that_counts_is_a_stitch_and_shares_the_place_of_the_next_one() -> None:
    text = float_of(
        "Rnd 3: Ch 1 (counts as a st), sc in same st, 2 sc in each of next 11 sts, join with sl st in ch 1. (24)\n"
    )
    (spiral,) = strands(text, spiral=True)
    assert spiral.courses[-1].words.short == "inc x 12, 1 sl st in next st"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (float_of("Rnd 3: Ch 2, hdc in each st around, join with sl st in first hdc. (12)\n"), "half double crochet"),
        (float_of("Rnd 3: Ch 1, dc in each st around, join with sl st in first dc. (12)\n"), "double crochet"),
        (
            float_of("Rnd 3: Ch 1, turn, sc in each st around, join with sl st in first sc. (12)\n"),
            "the work is turned",
        ),
        (float_of("Change to color B.\n", JOINED.format(n=3)), "its colours change"),
        (float_of("Rnd 3: Ch 1, sc in first st, ch 2, skip 1 st, sc in next 10 sts, join. (11)\n"), "chains among"),
        (float_of("Rnd 3: Ch 1, sl st in each st around, join with sl st in first st. (12)\n"), "slip stitches"),
    ],
)
def test_refused_with_the_reason(text: str, why: str) -> None:
    """At-the-chair's conditions: only single crochet, unturned, no taller stitches, no designed stripes."""
    allowed = habits(read(text)).spiral
    assert allowed.changes == []
    assert len(allowed.stays) == 1
    assert why in allowed.stays[0]
    assert [s.id for s in strands(text, spiral=True)] == [s.id for s in strands(text)]


def test_the_reason_is_in_the_terms_of_the_text() -> None:
    text = float_of("Rnd 3: Ch 2, htr in each st around, join with ss in first htr. (12)\n")
    text = text.replace("US", "UK").replace("sc", "dc")
    (stays,) = habits(read(text)).spiral.stays
    assert stays == (
        "Float: It stays joined: round 3 has half trebles. Only double crochet runs on without a step that shows."
    )


def test_a_place_at_the_seam_is_named() -> None:
    text = float_of(JOINED.format(n=3), end="Fasten off.\n\nMaking up\nSew the ring to the float at the seam.\n")
    (mind,) = habits(read(text)).spiral.mind
    assert "at the seam" in mind


def test_what_is_a_spiral_already_is_left_alone() -> None:
    text = HEAD + "Float\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: inc x 6. (12)\nFasten off.\n"
    assert habits(read(text)).spiral.model_dump() == {"changes": [], "stays": [], "mind": []}
    assert [s.id for s in strands(text, spiral=True)] == [s.id for s in strands(text)]
