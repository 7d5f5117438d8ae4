"""Jobs told by the thing they are about: a face only told of is lost once the piece is shut (demo sentences)."""

import pytest

from hookside.compile import read
from hookside.pattern import Cue, CueKind

BUOY = (
    "Bell buoy\n\nBuoy\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\nRnd 3: (sc, inc) x 6 (18)\n"
    "Rnd 4: (2 sc, inc) x 6 (24)\nRnds 5-7: sc around (24)\n{told}\nRnd 8: (2 sc, dec) x 6 (18)\n"
    "Rnd 9: (sc, dec) x 6 (12)\nRnd 10: dec x 6 (6)\nFasten off.\n"
)
LINE = 9


def cues_of(told: str) -> list[Cue]:
    pattern = read(BUOY.format(told=told))
    assert [piece.name for piece in pattern.pieces] == ["Buoy"]
    return [cue for cue in pattern.pieces[0].cues if cue.line == LINE and cue.basis == "written"]


@pytest.mark.parametrize(
    ("told", "kind"),
    [
        ("Whiskers: three strands of thread on each side, before you close.", "embroider"),
        ("Cheeks: pink thread, three stitches under each eye.", "embroider"),
        ("Mouth: black thread over 4 stitches of round 5.", "embroider"),
        ("With a bit of rust I embroidered a small nose between the eyes, one round below.", "embroider"),
        ("With black I embroidered the mouth.", "embroider"),
        ("I used black thread for the whiskers.", "embroider"),
        ("We gave him a little black smile.", "embroider"),
        ("A small nose in rust between the eyes.", "embroider"),
        ("The nose is a French knot in black.", "embroider"),
        ("The little bell goes into the middle of the filling.", "other"),
        ("At this point a wire of 10 cm finds its place inside.", "other"),
        ("Cardboard disc in the bottom.", "other"),
        ("In goes the rattle.", "other"),
        ("Two pebbles for weight, wrapped in a scrap of sail.", "other"),
        ("A spoonful of glass pellets, then a bit of fluff.", "stuff"),
        ("Fibre in, not too tight.", "stuff"),
        ("Now a handful of fluff.", "stuff"),
        ("It wants a handful of wool in its belly before the next round.", "stuff"),
        ("Before I closed her up I stitched a little beak in yellow with two or three straight stitches.", "embroider"),
        ("Heart beat box goes in before you shut it.", "other"),
        ("The joint goes through between rounds 4 and 5.", "other"),
        ("With the smaller hook:", "other"),
        ("Now change to the 2.5 mm hook.", "other"),
        ("Two strands held together from now on.", "other"),
        ("Two 8 mm eyes, rounds 4/5, six apart.", "eyes"),
        ("A tail of a forearm's length is needed later for the seam.", "tail"),
    ],
)
def test_a_thing_told_is_asked_for_where_it_is_told(told: str, kind: CueKind) -> None:
    (cue,) = cues_of(told)
    assert (cue.kind, cue.text) == (kind, told)
    assert cue.weight != "whisper"


@pytest.mark.parametrize(
    "told",
    [
        "I love his little nose so much!",
        "The bell rings when it blows, which my kids like.",
        "Next time I might give him a mouth.",
        "My cat stole the whiskers twice.",
        "The face looks a bit like a pear now.",
        "It will curl a bit, that is fine.",
    ],
)
def test_company_stays_company(told: str) -> None:
    assert cues_of(told) == []


def test_a_colour_for_a_feature_that_is_worked_stays_a_colour() -> None:
    (cue,) = [cue for cue in cues_of("Now I change to white for the cheeks.") if cue.kind == "colour"]
    assert cue.weight == "pause"


def test_a_thing_named_and_not_understood_is_said() -> None:
    text = BUOY.format(told="Whiskers without knots, never too long.")
    (said,) = [finding.message for finding in read(text).findings if finding.line == LINE]
    assert said.startswith("I left this out")
