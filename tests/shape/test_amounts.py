"""Yarn adds up, whatever a piece is made of; and what has not come to rest is said. Demo pieces."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookside.compile import measured, read
from hookside.pattern import Course, Group, Piece
from hookside.shape import amounts
from hookside.shape import stuffed as stuffing
from hookside.shape.outline import outline
from hookside.stitches import TABLE

STITCHES = ("sc", "hdc", "dc", "tr")
ROUND = st.tuples(st.sampled_from(STITCHES), st.integers(1, 60), st.sampled_from([None, "red", "white"]))


def piece(rounds: list[tuple[str, int, str | None]]) -> Piece:
    courses = [
        Course(
            id=f"p.{i}", label=str(i), kind="round", uses=n, makes=n, text="", line=i,
            body=[Group(stitch=stitch, count=n, colour=colour)],
        )
        for i, (stitch, n, colour) in enumerate(rounds, start=1)
    ]  # fmt: skip
    return Piece(name="Demo", courses=courses, cues=[])


@settings(max_examples=80, deadline=None)
@given(above=st.lists(ROUND, min_size=1, max_size=8), below=st.lists(ROUND, min_size=1, max_size=8))
def test_yarn_of_two_parts_is_the_yarn_of_both(
    above: list[tuple[str, int, str | None]], below: list[tuple[str, int, str | None]]
) -> None:
    """The work of a piece is that of its first rounds and that of the rest, in all and stitch by stitch; only tails
    hang on where a colour begins and ends."""
    parts = [sum(amounts.yarn(piece(rounds), lambda cue: "").widths.values()) for rounds in (above, below)]
    whole = amounts.yarn(piece([*above, *below]), lambda cue: "")
    assert sum(whole.widths.values()) == pytest.approx(sum(parts))
    assert sum(parts) == pytest.approx(sum(n * TABLE[stitch].yarn for stitch, n, _ in [*above, *below]))


@settings(max_examples=40, deadline=None)
@given(rounds=st.lists(ROUND, min_size=1, max_size=8), k=st.floats(0.3, 3))
def test_yarn_goes_with_the_stitch(rounds: list[tuple[str, int, str | None]], k: float) -> None:
    """Scaled by k the work takes k times the yarn, and tails stay as long as they are (similarity)."""
    took = amounts.yarn(piece(rounds), lambda cue: "")
    tails = sum(took.tails.values())
    small, large = (sum(took.mm(7.5, width).values()) - tails for width in (5.0, 5.0 * k))
    assert large == pytest.approx(k * small)


def test_ends_are_counted_where_a_colour_is_cut_and_not_where_it_is_carried() -> None:
    """10 cm at each end of a yarn, 12.5 where the piece begins and ends (common practice, no source)."""

    def tails(*colours: str) -> dict[str, float]:
        return amounts.yarn(piece([("sc", 12, colour) for colour in colours]), lambda cue: "").tails

    assert tails("red", "red") == {"red": 250}
    assert tails("red", "white") == {"red": 225, "white": 225}
    # Stripes are carried up: white begins and ends once, and so does red.
    assert tails(*["red", "red", "white", "white"] * 3) == {"red": 225, "white": 225}
    # Five rounds of white in between are too many: red is cut and begins anew.
    assert tails("red", "white", "white", "white", "white", "white", "red") == {"red": 450, "white": 200}


def test_what_has_not_come_to_rest_is_said_and_spread(monkeypatch: pytest.MonkeyPatch) -> None:
    text = (
        "Float\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\nFloat\nRnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nRnds 4-7: sc in each st around (18)\nStuff.\n"
        "Rnd 8: (sc, dec) x 6 (12)\n"
        "Rnd 9: dec x 6 (6)\nFasten off and close the hole.\n"
    )
    outline.cache_clear()
    rested = measured(read(text)).pieces[0]
    monkeypatch.setattr(stuffing, "ROUNDS", 1)
    outline.cache_clear()
    restless = measured(read(text)).pieces[0]
    outline.cache_clear()
    assert "has not come to rest" not in " ".join(rested.said)
    assert "has not come to rest" in " ".join(restless.said)
    assert restless.width_mm.high / restless.width_mm.value > rested.width_mm.high / rested.width_mm.value


def test_the_ball_band_is_never_the_gauge() -> None:
    """It is for loose flat fabric, and makes toys far too large (common practice)."""
    text = (
        "Float\nUS terms\nMaterials:\n"
        "- DK cotton, 100 g = 210 m; ball band: 14 sc and 16 rows = 10 cm with a 4.5 mm hook\n- 3 mm hook\n\n"
        "Float\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nStuff.\n"
        "Rnd 4: (sc, dec) x 6 (12)\nFasten off.\n"
    )
    found = measured(read(text)).fabric
    assert found.kind == "both"
    assert found.stitch_mm < 100 / 14 - 1


def test_the_tail_is_as_long_as_the_bench_asks() -> None:
    """Sewing on 3 x the seam and 20 cm (common practice, no source): of 12 cm 56, rounded up to 60."""
    text = "Cap\nUS terms\nGauge: 20 sts = 10 cm\n\nCap\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
    (open_end,) = read(text + "Rnd 3: inc x 12 (24)\nFasten off.\n").pieces
    assert "60 cm" in next(cue.advice for cue in open_end.cues if cue.kind == "fasten")
    assert sum(amounts.yarn(open_end, lambda cue: "").tails.values()) == 125 + 600
