"""The size that a pattern prints of itself: it tells of its maker's hand. Texts are demo, but where a source stands."""

from __future__ import annotations

import pytest

from hookside.compile import measured, read
from hookside.cues.openings import FINGERS
from hookside.pattern import Pattern, Piece
from hookside.shape import Asked, Measures, yarns
from hookside.shape.gauge import SPREADS
from hookside.shape.printed import printed

BALL = """Fog ball

Materials: DK yarn in grey, a 3 mm hook, stuffing
{said}

BALL
R1: 6 sc in magic ring (6)
R2: inc x 6 (12)
R3: (sc, inc) x 6 (18)
R4: (2 sc, inc) x 6 (24)
R5-8: sc in each st (24)
R9: (2 sc, dec) x 6 (18)
R10: (sc, dec) x 6 (12)
Stuff.
R11: dec x 6 (6)
Close.
"""
SEAL = """Seal

Materials: DK yarn, 3 mm hook
{said}

HEAD
R1: 6 sc in magic ring (6)
R2: inc x 6 (12)
R3: (sc, inc) x 6 (18)
R4-7: sc in each st (18)
R8: (sc, dec) x 6 (12)
Stuff.
Fasten off, leaving a tail for sewing.

BODY
R1: 6 sc in magic ring (6)
R2: inc x 6 (12)
R3: (sc, inc) x 6 (18)
R4: (2 sc, inc) x 6 (24)
R5-10: sc in each st (24)
R11: (2 sc, dec) x 6 (18)
R12: (sc, dec) x 6 (12)
Stuff.
Fasten off.

FLIPPER (make 2)
R1: 6 sc in magic ring (6)
R2-5: sc in each st (6)
Fasten off.

ASSEMBLY
Sew the head to the body. Sew a flipper to each side of the body.
"""


def size_of(text: str, said: str, **asked: str) -> Measures:
    return measured(read(text.format(said=said)), Asked(**asked))


@pytest.mark.parametrize(
    ("said", "mm", "axis"),
    [
        ("Finished size: about 9 cm", 90, "most"),
        ("about 9 cm", 90, "most"),
        ("Skill level: easy. Finished height: 4½ inches.", 114.3, "high"),
        ("She is approximately 19 cm high when you use the same yarn as me.", 190, "high"),
        ("Size: 13 cm / 5.1\" tall with the yarn and hook given below.", 130, "high"),
        ("Finished size: 5 in wide, 4 in tall", 101.6, "high"),
        ("Approx. 18-22 cm (7-9 inches) tall", 200, "high"),
        ("The gull is about 3 and 1/2 inches tall.", 88.9, "high"),
        ("It measures 15 cm around.", 47.746, "wide"),
        ("Approximate size: 4.7 in (12 cm) from feet to head, 5.5 in (14 cm) to the tip of the ears.", 119.38, "high"),
    ],
)  # fmt: skip
def test_the_size_a_text_says(said: str, mm: float, axis: str) -> None:
    """The last is how circulo.com.br prints the size of its Doll Poppy; an inch is 25.4 mm."""
    found = printed(Pattern(notes=[said]))
    assert found is not None
    assert found.mm == pytest.approx(mm, rel=1e-3)
    assert found.axis == axis


@pytest.mark.parametrize(
    "said",
    [
        "Tension: the first three rounds measure 7 cm across.",
        "8 mm safety eyes",
        "about 50 m of each colour",
        "Leave a tail 30 cm long.",
        "It sits about 15 cm tall.",
        "About 9 cm high without the sprout.",
        "Sizes: small 10 cm, medium 15 cm, large 20 cm tall",
        "With DK it is 12 cm tall. With aran it becomes 20 cm tall.",
        "The fabric is about 10 by 10 of something tall.",
    ],
)
def test_what_is_no_size_of_the_thing(said: str) -> None:
    assert printed(Pattern(notes=[said])) is None


def test_the_size_of_a_part_is_not_that_of_the_whole() -> None:
    two = [Piece(name="Body", courses=[]), Piece(name="Ears", courses=[])]
    assert printed(Pattern(pieces=two, notes=["Ears 3 cm long"])) is None
    assert printed(Pattern(pieces=two[:1], notes=["Body 5 cm tall"])) is not None


def test_a_ball_comes_out_as_large_as_the_text_says() -> None:
    guess, told = size_of(BALL, ""), size_of(BALL, "Finished size: about 4.5 cm across.")
    assert guess.fabric.kind == "both"
    assert told.fabric.kind == "size"
    assert told.fabric.spread == SPREADS["size"]
    assert told.pieces[0].width_mm.value == pytest.approx(45, rel=0.01)
    k = told.fabric.stitch_mm / guess.fabric.stitch_mm
    assert told.pieces[0].height_mm.value == pytest.approx(guess.pieces[0].height_mm.value * k, rel=0.01)
    assert "“about 4.5 cm across”" in told.basis[0]
    assert f"taken for {guess.fabric.stitch_mm:.3g} mm" in told.basis[0]


def test_a_toy_comes_out_as_high_as_the_text_says() -> None:
    """Head on body: the printed height is that of both."""
    guess = size_of(SEAL, "")
    assert guess.whole is None or guess.whole.of
    told = size_of(SEAL, "Finished height: 7.5 cm")
    assert told.fabric.kind == "size"
    high = next(line for piece in told.pieces for line in piece.said if line.startswith("With the head sewn on"))
    assert "about 7.5 cm high" in high


def test_hers_goes_before_what_the_text_says() -> None:
    for asked in ({"gauge": "20 sts = 10 cm"}, {"hook": "4 mm"}, {"yarn": "aran"}):
        assert size_of(BALL, "Finished size: about 4.5 cm across.", **asked).fabric.kind in ("swatch", "both")


def test_a_printed_gauge_stays_and_what_denies_it_is_said() -> None:
    gauge = "Gauge: 20 sts and 21 rounds = 10 cm"
    agrees, denies = (size_of(BALL, f"{said}\n\n{gauge}") for said in ("About 4 cm across.", "About 8 cm across."))
    assert agrees.fabric.kind == denies.fabric.kind == "pattern"
    assert agrees.pieces == denies.pieces
    assert agrees.basis[1].endswith("“About 4 cm across”; by its gauge it comes to about 3.9 cm, within the spread.")
    assert "“About 8 cm across”" in denies.basis[1]
    assert "by its gauge that would be about 3.9 cm" in denies.basis[1]


def test_a_size_that_no_hand_makes_is_no_evidence() -> None:
    """Half a metre of 24 stitches on a 3 mm hook: it is the size of something else."""
    guess, told = size_of(BALL, ""), size_of(BALL, "About 50 cm tall.")
    assert told.fabric == guess.fabric
    assert "perhaps something else is measured there" in told.basis[1]


def test_without_a_plain_thing_to_measure_the_size_is_left_alone() -> None:
    """A toy whose parts the text sews nowhere: nobody knows what 12 cm are."""
    apart = SEAL.replace("Sew the head to the body. Sew a flipper to each side of the body.", "Sew all together.")
    assert size_of(apart, "Finished size: 12 cm").fabric.kind == "both"


def test_a_list_in_one_line_names_its_yarn() -> None:
    assert yarns.metres(["DK yarn in grey, a 3 mm hook, stuffing"]) == 225
    assert yarns.metres(["fine needle and thread to sew on"]) is None
    assert yarns.metres(["worsted, 3 strands held together"]) == 55


def test_cues_go_by_the_same_fabric_as_the_sizes() -> None:
    """A ball said to be a third larger than its hook and yarn make it: it is stuffed at the last round after which its
    opening, as `measure` has it, lets fingers in, and that is another one than by the guess."""
    text = BALL.replace("Stuff.\n", "")
    due, tall = {}, {}
    for said in ("", "About 4.8 cm across."):
        pattern = read(text.format(said=said))
        found = measured(pattern)
        (piece,), (sizes,) = pattern.pieces, found.pieces
        (cue,) = (cue for cue in piece.cues if cue.kind == "stuff")
        at = next(i for i, course in enumerate(piece.courses) if course.id == cue.course_id)
        opening, behind = sizes.openings_mm[at : at + 2]
        assert opening is not None
        assert behind is not None
        assert opening >= FINGERS > behind
        due[said], tall[said] = at, found.fabric.kind
    assert list(tall.values()) == ["both", "size"]
    assert len(set(due.values())) == 2


def test_a_size_nothing_is_made_of_is_said() -> None:
    found = measured(read(SEAL.format(said="About 14 cm long.")))
    assert found.fabric.kind == "both"
    assert found.basis[1].startswith("The pattern says “About 14 cm long”. Nothing is made of that here")


def test_what_only_our_cue_stuffs_comes_out_as_large_as_it_is_said_to_be() -> None:
    """A body that goes on from two legs, stuffing printed at the end of the text: legs and body together."""
    leg = "Leg (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnds 2-4: sc around (6)\nFasten off the first leg only.\n\n"
    body = "Body\nRnd 5: sc 6 around the second leg, ch 3, sc 6 around the first leg, sc 3 in ch (18)\n"
    body += "Rnd 6: (2 sc, inc) x 6 (24)\nRnds 7-11: sc around (24)\nRnd 12: (2 sc, dec) x 6 (18)\n"
    body += "Rnd 13: (sc, dec) x 6 (12)\nRnd 14: dec x 6 (6)\nFasten off and close.\n\nTo finish\nStuff firmly.\n"
    found = measured(read(f"Crab\n\nDK yarn, 3 mm hook, stuffing\nAbout 7 cm tall.\n\n{leg}{body}"))
    assert found.fabric.kind == "size"
    assert found.whole is not None
    assert found.whole.height_mm.value == pytest.approx(70, rel=0.01)


def test_eyes_of_her_own_fabric_go_by_the_size_the_pattern_prints() -> None:
    """A swatch in which the toy comes out as large as it is said to be asks for the eyes of the pattern."""
    text = BALL.replace("stuffing", "stuffing, two 9 mm safety eyes").format(said="About 5 cm across.")
    mm = measured(read(text)).fabric.stitch_mm
    same, larger = (measured(read(text), Asked(gauge=f"10 sts = {k * mm} mm")) for k in (10, 15))
    assert not any(line.startswith("Eyes of") for line in same.basis)
    assert "Eyes of 9 mm in the pattern's size: about 14 mm in this one." in larger.basis


@pytest.mark.parametrize("said", ["Height approx. 13 cm", "Height ca. 13 cm"])
def test_a_short_word_before_the_figure_ends_no_sentence(said: str) -> None:
    size = printed(read(BALL.format(said=said)))
    assert size is not None
    assert (size.mm, size.axis, size.quote) == (130, "high", said)
