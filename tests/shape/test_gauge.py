"""Gauge from words, from a hook, from a yarn."""

from __future__ import annotations

import pytest

from hookside.compile import read
from hookside.pattern import Pattern
from hookside.shape import Asked, CannotBeMeasured, gauge, hooks, yarns
from hookside.shape.working import worked_with


@pytest.mark.parametrize(
    ("words", "width", "height"),
    [
        # 20 sts x 22 rows in 10 cm: w = 5, h = 4.545454545455. 12 x 15 in 4 in: w = 101.6/12, h = 101.6/15. 13 x 15 in
        # 4 in: w = 7.815384615385, h = 6.773333333333 (definition of gauge; the last two are published swatches:
        # label of a worsted acrylic, and F. Schultz, The Crochet Handbook).
        ("20 sts x 22 rows = 10 cm", 5, 4.545454545455),
        ("20 sts and 22 rounds over 10 x 10 cm", 5, 4.545454545455),
        ("10 cm = 20 sts and 22 rows", 5, 4.545454545455),
        ("12 sc x 15 rows in 4 in", 8.466666666667, 6.773333333333),
        ('13 stitches and 15 rows = 4"', 7.815384615385, 6.773333333333),
        ("7 sts and 8 rows = 2 x 2 in", 50.8 / 7, 6.35),
        ("5 sts = 1 inch, 6 rows = 1 inch", 5.08, 25.4 / 6),
        ("5 sts and 6 rows to the inch", 5.08, 25.4 / 6),
        ("3 1/2 single crochet = 1 inch, 4 single crochet rows = 1 inch", 25.4 / 3.5, 25.4 / 4),
        ("13.5 sts x 19 rows = 4″ x 4″", 101.6 / 13.5, 101.6 / 19),
        ("First 4 rounds = 2 in", 12.7 / 2 / 0.95, 12.7 / 2),
        ("after round 5: 5 cm across", 5 / 0.95, 5),
        ("6 rounds of sc = 6 cm in diameter", 5 / 0.95, 5),
        # Such low rows of half double crochet there are none: they were counted of single crochet.
        ("14 hdc and 16 rows = 4 in", 101.6 / 14, 101.6 / 16),
        ("4 rows half double crochet = 1 1/2 in, 7 half double crochets = 1 1/2 in", 38.1 / 7, 38.1 / 4 / (11 / 7)),
        ("5hdc and 3 rows = 1 inch", 5.08, 25.4 / 3 / (1 + (15 / 7 - 1) / 2)),
        ("11 sts = 2 1/4 in, 12 rows = 2½ in", 57.15 / 11, 63.5 / 12),
        # Three rows of single and two of double crochet, each 15/7 as high, in an inch.
        ("8 dc = 1 in (3 rows sc & 2 rows dc = 1 in)", 3.175, 25.4 / (3 + 2 * 15 / 7)),
        ('4 rows of dc and 4 sc rows = 4"; 13 sts = 4 in', 101.6 / 13, 101.6 / (4 + 4 * 15 / 7)),
        # Only a width: the height is 0.95 of it, said to be a guess (common practice, no source).
        ("10 sts = 4.6 cm", 4.6, 4.37),
        # Five rounds across 5 cm are 5 mm each.
        ("Rounds 1-5 = 5 cm across", 5 / 0.95, 5),
        # A double crochet is 15/7 of a single crochet high (one maker's measurement: 15 mm and 7 mm).
        ("20 dc and 10 rows = 15 cm", 7.5, 7),
    ],
)
def test_a_gauge_in_words(words: str, width: float, height: float) -> None:
    found = gauge.written(words)
    assert found is not None
    assert found.width == pytest.approx(width, rel=1e-9)
    assert found.height == pytest.approx(height, rel=1e-9)


@pytest.mark.parametrize(
    ("words", "mm"),
    # Charts give G as 4.0 or 4.25 mm, N as 9 or 10, I as 5.5 (handbook tables of hooks).
    [
        ("size G hook", 4.1),
        ("G crochet hook", 4.1),
        ("Size I", 5.5),
        ("N hook", 9.5),
        ("3.5 mm", 3.5),
        ("hook 2", 2.0),
        ("hook no. 2.5", 2.5),
        ("a 3,5 hook", 3.5),
        ("hook 7", None),
        ("hooks: 12 of them", None),
        ("I like it", None),
    ],
)
def test_a_hook_good_enough_for_a_guess(words: str, mm: float | None) -> None:
    assert hooks.about(words) == mm
    assert words == "3.5 mm" or hooks.size(words) is None


def test_eyes_are_no_hook() -> None:
    """A list in one line: what stands at the hook, else what is left of the line without eyes and needles (demo)."""
    for line, width in (
        ("hook 2, filler, eyes 2 pcs 5 mm", 3.0),
        ("a crochet hook, 3 mm, two 9 mm eyes", 4.5),
        ("eyes of 5 mm and a 2.5 mm hook", 3.75),
    ):
        assert gauge.estimated("", "", [line]).width == pytest.approx(width)  # 1.5 times the hook (common practice)


def test_the_terms_say_how_tall_a_stitch_is() -> None:
    words = "20 tr and 10 rows = 15 cm"
    assert gauge.written(words, "UK").height == pytest.approx(7)  # type: ignore[union-attr]
    assert gauge.written(words, "US").height < 6  # type: ignore[union-attr]


@pytest.mark.parametrize("words", ["", "not important", "tight enough to hold the stuffing", "gauge: see photo"])
def test_words_without_a_gauge(words: str) -> None:
    assert gauge.written(words) is None
    with pytest.raises(CannotBeMeasured, match="20 sts and 22 rounds = 10 cm"):
        gauge.swatch(words)


@pytest.mark.parametrize("words", ["4000 sts = 10 cm", "2 sts = 10 m", "20 sts = 10 cm, 9000 rows = 10 cm"])
def test_a_gauge_no_yarn_has(words: str) -> None:
    with pytest.raises(CannotBeMeasured, match="no yarn makes that"):
        gauge.swatch(words)


@pytest.mark.parametrize("words", ["0 sts = 10 cm", "20 sts = 0 cm", "-4 sts", "20 sts = 1/0 cm"])
def test_nothing_by_nothing(words: str) -> None:
    with pytest.raises(CannotBeMeasured):
        gauge.swatch(words)


@pytest.mark.parametrize(
    ("words", "mm"),
    [
        # US letters and numbers: Craft Yarn Council's list, each confirmed by two or more retail charts.
        ("B-1", 2.25), ("C-2", 2.75), ("D-3", 3.25), ("E-4", 3.5), ("F-5", 3.75), ("G-6", 4.0), ("H-8", 5.0),
        ("I-9", 5.5), ("J-10", 6.0), ("K-10 1/2", 6.5), ("L-11", 8.0),
        ("2.75 mm (C-2)", 2.75), ("US G/6 (4 mm) hook", 4.0), ("2,5mm", 2.5), ("size H hook", 5.0), ("3.5", 3.5),
        ("US 7", 4.5), ("7 / 4.5 mm", 4.5),
    ],
)  # fmt: skip
def test_hook_sizes(words: str, mm: float) -> None:
    assert hooks.size(words) == mm


@pytest.mark.parametrize("words", ["7", "G", "B", "C", "N", "a hook", "0 mm", "400 mm", "4 balls of yarn"])
def test_hooks_that_are_not_sure_stay_open(words: str) -> None:
    """A bare 7 is 4.5 mm or a steel 1.65 mm, a bare G 4.0 or 4.25, B and C differ too (retail charts)."""
    assert hooks.size(words) is None


@pytest.mark.parametrize(
    ("words", "metres"),
    [
        ("100 g = 320 m", 320), ("50g/125 yds", 125 * 0.9144 * 2), ("170 m per 100 g", 170), ("50 g ball (85m)", 170),
        ("Cotton, 106 yards/ 50 g", 106 * 0.9144 * 2), ("12 g grey", None), ("1 m of black yarn for the face", None),
    ],
)  # fmt: skip
def test_metres_on_a_band(words: str, metres: float | None) -> None:
    found = yarns.metres_per_100_g(words)
    assert found == (None if metres is None else pytest.approx(metres))


@pytest.mark.parametrize(
    ("words", "name"),
    [("DK cotton", "light"), ("light worsted", "light"), ("worsted", "medium"), ("super bulky", "super bulky"),
     ("chunky", "bulky"), ("4-ply", "super fine"), ("sport yarn, baby soft", "fine"), ("green", None)],
)  # fmt: skip
def test_yarn_weights(words: str, name: str | None) -> None:
    """Names by the Craft Yarn Council's standard and the UK names of trade tables."""
    found = yarns.weight(words)
    assert (found and found.name) == name


def test_plies_count_where_nothing_else_does() -> None:
    """US patterns say "4 ply worsted"; alone it is the UK's name of fingering (trade tables)."""
    named = [yarns.weight(words) for words in ("4 ply worsted", "4 ply")]
    assert [one and one.name for one in named] == ["medium", "super fine"]
    by_hook = [yarns.weight("4-ply", mm) for mm in (2.5, 3.5, 5.0)]  # fingering: 2.25 to 3.5 mm by the same standard
    assert [one and one.name for one in by_hook] == ["super fine", "super fine", "medium"]
    assert yarns.metres(["4-ply yarn in blue"], 5.0) == yarns.metres(["worsted"])


def test_a_gauge_that_its_own_hook_and_yarn_deny() -> None:
    """9 sc to the inch are 2.8 mm; worsted with a 4 mm hook makes 20 sc in 4 in, 5.1 mm, and more (published.toml)."""
    materials = ["worsted", "4 mm hook"]
    odd = gauge.estimated("9 sc = 1 in", "4 mm", materials)
    assert odd.kind == "pattern"
    assert odd.width == pytest.approx(25.4 / 9)
    assert "would rather make stitches of" in odd.basis
    assert odd.width / (1 - odd.spread) == pytest.approx(gauge.from_hook(4, 165).width)
    even = gauge.estimated("20 sc = 4 in", "4 mm", materials)
    assert even.spread == gauge.SPREADS["pattern"]
    assert "rather" not in even.basis


def test_the_hook_for_a_toy_is_below_the_bands() -> None:
    """0.5 to 1.5 mm below the standard's hooks (makers and sellers; common practice) for the yarns that toys are mostly
    made of, and never above them; thicker yarn is worked further below."""
    for weight in yarns.WEIGHTS:
        hook = yarns.toy_hook(weight.metres)
        assert hook <= weight.hooks[1]
        if weight.name in ("fine", "light", "medium"):
            assert weight.hooks[0] - 1.5 <= hook <= weight.hooks[0] - 0.5


def test_a_band_alone_is_a_yarn_to_guess_from() -> None:
    band = gauge.estimated("", "", ["Cotton, 50 g = 125 m"])
    assert band.kind == "yarn"
    assert band.basis.startswith("A guess from yarn of 250 m for 100 g worked with a 3.25 mm hook, as firm fabric")
    assert gauge.estimated("", "", ["DK"]).basis.startswith("A guess from light yarn worked with a 3.5 mm hook")


def test_what_is_trusted_first() -> None:
    materials = ["DK cotton, 50 g = 125 m", "3.5 mm hook"]
    assert gauge.estimated("20 sts and 22 rows = 10 cm", "4 mm", materials).kind == "pattern"
    assert gauge.estimated("not important", "4 mm", materials).kind == "both"
    assert gauge.estimated("", "", materials[1:]).width == pytest.approx(5.25)  # 1.5 x 3.5 mm (common practice)
    assert gauge.estimated("", "", materials[1:]).kind == "hook"
    assert gauge.estimated("", "", materials).width == pytest.approx(5.25, rel=0.1)
    assert gauge.estimated("", "", materials[:1]).kind == "yarn"
    nothing = gauge.estimated("", "", [])
    assert nothing.kind == "guess"
    assert "guess" in nothing.basis
    spreads = [gauge.SPREADS[kind] for kind in ("swatch", "pattern", "both", "yarn", "hook", "guess")]
    assert spreads == sorted(spreads)


def test_hook_and_yarn_twice_as_thick_make_a_stitch_twice_as_wide() -> None:
    """A yarn twice as thick is a quarter as long for its weight."""
    small, large = gauge.from_hook(3, 240), gauge.from_hook(6, 60)
    assert large.width == pytest.approx(2 * small.width)
    assert gauge.from_hook(3, 240, toy=False).width > small.width
    assert small.width < gauge.from_hook(4, 240).width < gauge.from_hook(4, 120).width


def test_rows_are_lower_than_rounds_where_both_are_guessed() -> None:
    assert gauge.from_hook(4).row < gauge.from_hook(4).height
    told = gauge.swatch("20 sts and 22 rows = 10 cm")
    assert told.row == told.height


@pytest.mark.parametrize(
    ("words", "strands"),
    [("worsted, 3 strands held together", 3), ("two strands of DK", 2), ("sport yarn held double", 2), ("DK", 1)],
)
def test_strands_held_together(words: str, strands: int) -> None:
    assert yarns.strands(words) == strands
    one, all_ = yarns.metres(["worsted"]), yarns.metres(["worsted, held triple"])
    assert one is not None
    assert all_ == pytest.approx(one / 3)
    assert yarns.metres(["4 mm hook", "50 g = 125 m, green"]) == 250
    assert yarns.metres(["green"]) is None
    assert yarns.metres(["fine needle", "black embroidery thread", "chunky yarn"]) == yarns.metres(["chunky"])


def test_a_gauge_of_the_pattern_that_is_none_is_said_and_passed_over() -> None:
    for words in ("0 sts = 10 cm", "-20 sts = 10 cm"):
        found = gauge.estimated(words, "4 mm", [])
        assert found.kind == "hook"
        assert found.basis.startswith(f"The pattern's gauge, “{words}”, is none that can be measured with. A guess")
    assert gauge.estimated("not important for this toy", "4 mm", []).basis.startswith("A guess")


def test_hook_and_yarn_are_found_where_a_text_without_a_list_names_them() -> None:
    """Demo: what stands before the first round, and what runs on behind the gauge."""
    text = "Marker cone\nYarn A white, yarn B red, 100 g = 210 m. Hook 3.5 mm.\n\nCONE\nR1: 6 sc in magic ring (6)\n"
    found, _ = worked_with(read(text), Asked())
    assert found.kind == "both"
    assert "3.5 mm hook and yarn of about 210 m" in found.basis
    behind = Pattern(gauge="Gauge is not important. Hook 4 mm")
    assert worked_with(behind, Asked())[0].kind == "hook"


@pytest.mark.parametrize("words", ["20 sts and 2 rounds = 10 cm", "2 sts and 20 rows = 4 cm"])
def test_no_stitch_is_many_times_as_high_as_wide(words: str) -> None:
    with pytest.raises(CannotBeMeasured, match="no crochet makes that"):
        gauge.swatch(words)


@pytest.mark.parametrize("words", ["0 sts and 22 rounds = 10 cm", "20 sts and 0 rounds = 10 cm"])
def test_of_nothing_no_half_is_believed(words: str) -> None:
    with pytest.raises(CannotBeMeasured, match="is not a gauge"):
        gauge.swatch(words)
    assert gauge.swatch("20 sts and 20 rounds = 10 cm").height == 5


def test_rounds_are_measured_by_their_letter_too() -> None:
    """Four rounds are 4 cm from edge to edge: 5 mm each (arithmetic)."""
    for words in ("R1-4 = 4 cm across", "R1-R4 = 4 cm across"):
        found = gauge.written(words)
        assert found is not None
        assert found.height == pytest.approx(5)


def test_low_rows_of_a_tall_stitch_are_said_to_be_taken_for_single_crochet() -> None:
    found = gauge.written("22 sts and 20 rows to 4 inches, in dc")
    assert found is not None
    assert "only rows of single crochet" in found.basis
    assert "only rows" not in gauge.swatch("16 sts and 8 rows to 4 inches, in dc").basis


def test_a_hook_less_than_nothing_is_none() -> None:
    assert hooks.size("-3 mm") is None
    assert hooks.size("3 mm") == 3
