"""A whole pattern measured, and what the maker says of her own yarn."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from hookside.cli import main
from hookside.compile import measured, read
from hookside.pattern import Terms
from hookside.shape import Asked, CannotBeMeasured, Measures
from hookside.shape.amounts import used

# Demo: the everyday ball of 36, in two colours, twice.
BALL = """Mooring Float
US terms
Hook: 3.5 mm
Gauge: 20 sts and 20 rounds = 10 cm
Yarn: worsted, 100 g = 200 m

Float (make 2)
With red, rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnd 5: (3 sc, inc) x 6 (30)
Rnd 6: (4 sc, inc) x 6 (36)
Change to white.
Rnds 7-12: sc in each st around (36)
Rnd 13: (4 sc, dec) x 6 (30)
Rnd 14: (3 sc, dec) x 6 (24)
Stuff firmly.
Rnd 15: (2 sc, dec) x 6 (18)
Rnd 16: (sc, dec) x 6 (12)
Rnd 17: dec x 6 (6)
Fasten off, leaving a 20 cm tail, and close the hole.
"""


def measures(text: str = BALL, **asked: str) -> Measures:
    return measured(read(text), Asked(**asked))


def test_the_everyday_ball() -> None:
    """n = 6, w = 5 mm: 36 * 5 / pi = 57.2957795 mm across, a true sphere of that 98.4841905 cm3 (4/3 pi R^3)."""
    piece = measures().pieces[0]
    assert piece.openings_mm[:6] == pytest.approx([9.549, 19.1, 28.6, 38.2, 47.7, 57.3], abs=0.06)
    assert len(piece.openings_mm) == 17
    assert piece.width_mm.low < 57.2957795 < piece.width_mm.high
    assert piece.volume_cm3.low < 98.4841905 < piece.volume_cm3.high
    assert piece.width_mm.value == pytest.approx(57.2957795, rel=0.06)


def test_yarn_is_additive() -> None:
    found = measures()
    (float_,) = found.pieces
    assert float_.make == 2
    assert found.yarn_m.value == pytest.approx(2 * float_.yarn_m.value, rel=1e-2)
    assert sum(float_.yarn_m.by_colour.values()) == pytest.approx(float_.yarn_m.value, rel=1e-2)
    assert list(float_.yarn_m.by_colour) == ["red", "white"]
    assert found.yarn_g is not None
    assert found.yarn_g.value == pytest.approx(found.yarn_m.value / 2, rel=1e-2)  # 100 g = 200 m
    four = measures(BALL.replace("make 2", "make 4"))
    assert four.yarn_m.value == pytest.approx(2 * found.yarn_m.value, rel=1e-2)


def test_what_was_unravelled_counts() -> None:
    """432 stitches at 10.6 w, w = 5 mm: 22.896 m (arithmetic on windchilde.com's figure)."""
    flat = measures(used="20 sc used 106 cm")
    # The ball's increases count as two stitches, its decreases a little over one.
    assert flat.pieces[0].yarn_m.value == pytest.approx(22.896 + 0.525, rel=0.03)
    tight = measures(used="20 sc used 46 cm")
    assert tight.pieces[0].yarn_m.value < flat.pieces[0].yarn_m.value / 2
    assert "2.3 cm for a single crochet, by your measuring" in " ".join(tight.basis)
    wide = measures().pieces[0].yarn_m
    narrow = tight.pieces[0].yarn_m
    assert narrow.high - narrow.low < wide.high - wide.low


@pytest.mark.parametrize(
    "words", ["", "some", "20 sc", "46 cm", "0 sc used 46 cm", "20 sc used 46 m", "20 sc used 1 mm"]
)
def test_what_cannot_have_been_unravelled(words: str) -> None:
    with pytest.raises(CannotBeMeasured):
        used(words, 5.0, "US")


@pytest.mark.parametrize(
    ("words", "terms", "as_us"),
    [  # the names of one stitch in both sets of terms: Craft Yarn Council, crochet abbreviations, US and UK
        ("20 dc used 46 cm", "UK", "20 sc used 46 cm"), ("20 double crochet used 46 cm", "UK", "20 sc used 46 cm"),
        ("20 htr used 60 cm", "UK", "20 hdc used 60 cm"), ("20 tr used 80 cm", "UK", "20 dc used 80 cm"),
        ("20 half treble used 60 cm", "UK", "20 half double crochet used 60 cm"),
        ("20 double crochets used 80 cm", "US", "20 dc used 80 cm"),
        ("20 stitches used 46 cm", "UK", "20 sts used 46 cm"),
    ],
)  # fmt: skip
def test_what_was_unravelled_is_named_in_the_terms_of_the_text(words: str, terms: Terms, as_us: str) -> None:
    told, other = used(words, 5.0, terms), used(as_us, 5.0, "US")
    assert told.value == other.value
    assert ("a double crochet" if terms == "UK" else "a single crochet") in told.basis


def test_a_swatch_goes_before_the_pattern() -> None:
    own = measures(gauge="10 sts = 4.6 cm")
    assert own.fabric.kind == "swatch"
    assert own.fabric.stitch_mm == 4.6
    assert own.pieces[0].width_mm.value < measures().pieces[0].width_mm.value


def test_another_hook_and_yarn() -> None:
    smaller = measures(hook="2.5 mm")
    k = (2.5 / 3.5) ** (1 / 3)  # of the same yarn, by the rule for hook and yarn: how printed gauges go with the hook
    assert smaller.pieces[0].width_mm.value == pytest.approx(measures().pieces[0].width_mm.value * k, rel=1e-2)
    assert "all lengths are taken 0.89 times that" in smaller.basis[0]  # beside the gauge it follows from
    assert "swatch" in smaller.basis[0]
    chunky = measures(yarn="chunky")
    assert any("4.75 mm hook makes a dense toy fabric" in line for line in chunky.basis)
    assert chunky.pieces[0].width_mm.value > measures().pieces[0].width_mm.value
    band = measures(yarn="100 g = 60 m")
    assert any("yarn of 60 m for 100 g a 6.5 mm hook" in line for line in band.basis)
    assert band.pieces[0].width_mm.value > chunky.pieces[0].width_mm.value
    assert measures(yarn="sewing thread").pieces[0].width_mm.value < smaller.pieces[0].width_mm.value
    loose = measures(yarn="DK", hook="6 mm")
    assert any("stuffing may show" in line for line in loose.warnings)
    assert any("stuffing may show" in line for line in measures(hook="6 mm").warnings)  # in the pattern's own yarn
    assert measures(hook="4 mm").warnings == []
    with pytest.raises(CannotBeMeasured, match="names no yarn"):
        measures(yarn="the blue one")
    with pytest.raises(CannotBeMeasured, match="millimetres"):
        measures(hook="7")


def test_beside_a_swatch_no_word_of_hers_vanishes() -> None:
    """The swatch measures; of the yarn and the hook it is said that they were not understood, and what they may be."""
    found = measures(gauge="10 sts = 4.6 cm", yarn="thick purple wool", hook="G")
    assert found.fabric.kind == "swatch"
    assert found.yarn_g is None
    yarn, hook = found.warnings
    assert "“thick purple wool” names no yarn" in yarn
    assert "100 g = 210 m" in yarn
    assert "“G” is no hook size" in hook
    assert "about 4.1 mm" in hook
    assert measures(gauge="10 sts = 4.6 cm", yarn="DK", hook="4 mm").warnings == []


def test_eyes_go_with_the_size() -> None:
    """10 mm eyes at 5 mm stitches are 8 mm at 4 mm ones (similarity)."""
    eyed = BALL.replace("Yarn: worsted", "Materials: two 10 mm safety eyes\nYarn: worsted")
    told = " ".join(measures(eyed, gauge="10 sts = 4 cm").basis)
    assert "Eyes of 10 mm" in told
    assert "about 8 mm" in told
    line = eyed.replace("two 10 mm", "a 4 mm hook, two 10 mm")
    assert "Eyes of 10 mm" in " ".join(measures(line, gauge="10 sts = 4 cm").basis), "not of the hook's"
    assert "Eyes of" not in " ".join(measures(eyed).basis)
    assert "Eyes of" not in " ".join(measures(gauge="10 sts = 4 cm").basis)
    guessed = eyed.replace("Gauge: 20 sts and 20 rounds = 10 cm\n", "")
    near = measures(guessed).fabric.stitch_mm * 0.88
    assert "Eyes of" not in " ".join(measures(guessed, gauge=f"10 sts = {near:.2f} cm").basis), "a guess may be hers"


def test_the_command_prints_and_stops_with_sentences(tmp_path: object) -> None:
    def run(*words: str) -> tuple[int, str]:
        done = CliRunner().invoke(main, ["measure", "-", *words], input=BALL)
        return done.exit_code, done.output

    code, told = run()
    assert code == 0
    assert "How this was worked out:" in told
    assert "red" in told
    code, told = run("--json")
    found = json.loads(told)
    assert set(found) == {"pieces", "basis"}
    assert set(found["pieces"][0]) == {
        "name", "height_mm", "width_mm", "volume_cm3", "stuffing_g", "yarn_m", "openings_mm",
    }  # fmt: skip
    assert all(set(found["pieces"][0][one]) == {"value", "low", "high"} for one in ("volume_cm3", "stuffing_g"))
    assert len(found["pieces"][0]["openings_mm"]) == 17
    assert json.loads(run("--json", "--full")[1])["pieces"][0]["make"] == 2
    assert set(found["pieces"][0]["height_mm"]) == {"value", "low", "high"}
    assert set(found["pieces"][0]["yarn_m"]) == {"value", "low", "high", "by_colour"}
    assert isinstance(found["basis"][0], str)
    for bad in ("0", "-3 sts = 1 cm", "4000 sts = 10 cm", "words"):
        code, told = run("--gauge", bad)
        assert code == 2
        assert told.count("\n") == 1
        assert "20 sts and 22 rounds = 10 cm" in told
    done = CliRunner().invoke(main, ["measure", "-"], input="a letter to the harbour master")
    assert done.exit_code == 2
    assert "nothing to measure" in done.output


def test_whoever_reads_a_pattern_waits_for_no_numerical_library() -> None:
    import subprocess
    import sys

    code = "import sys, hookside.compile; print([m for m in ('numpy', 'scipy') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_loose_hook_of_the_pattern_itself_is_said_of_a_toy_alone() -> None:
    """Demo: worsted on 6 mm. A toy hook of it is 4 mm."""
    rounds = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnds 3-5: sc around (12)\n"
    text = "Float\nUS terms\nWorsted yarn, a {hook} hook\n\nFloat\n" + rounds + "{end}"
    stuffed, open_end = "Stuff.\nRnd 6: dec x 6 (6)\nFasten off and close.\n", "Fasten off.\n"
    said = [measured(read(text.format(hook=hook, end=end))).warnings for hook, end in (
        ("6 mm", stuffed), ("4.5 mm", stuffed), ("6 mm", open_end)
    )]  # fmt: skip
    assert [len(one) for one in said] == [1, 0, 0]
    assert "take about 4 mm for a toy" in said[0][0]
