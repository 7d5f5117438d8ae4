"""What to have at hand. Expected amounts follow from shape/, which has its own tests; here it is who gets how much."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookside.compile import measured, read
from hookside.gather import Gathered, Item, gather
from hookside.gather.hook import us_size, us_words
from hookside.shape import Asked

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"

# Demo: a beacon whose list forgets the blue, the stuffing and everything to sew with.
BEACON = """Harbor beacon

US terms

Materials
DK yarn (100 g = 230 m): white, red
8 mm safety eyes
a bell for the top

Hook: 3.5 mm
Gauge: 20 sts and 21 rounds = 10 cm

Lamp (make 2)
With white.
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (1 sc, inc) x 6. (18)
Change to red.
Rnds 4-6: sc in each st around. (18)
Put the eyes in between rounds 4 and 5.
Change to blue.
Rnd 7: (1 sc, dec) x 6. (12)
Stuff it firmly.
Rnd 8: dec x 6. (6)
Fasten off and sew the hole shut.
"""


def of(text: str, copies: dict[int, int] | None = None) -> Gathered:
    pattern = read(text)
    return gather(pattern, text, measured(pattern), copies=copies)


def own(name: str, copies: dict[int, int] | None = None) -> Gathered:
    return of((PATTERNS / name).read_text(encoding="utf-8"), copies)


def item(found: Gathered, id: str) -> Item:
    return next(one for one in found.items if one.id == id)


def test_what_the_text_forgets_is_implied_by_the_round_that_asks_for_it() -> None:
    found = of(BEACON)
    forgotten = {one.id: one.why for one in found.items if one.forgotten}
    assert set(forgotten) == {"yarn:blue", "stuffing", "needle", "marker", "scissors"}
    assert forgotten["yarn:blue"].startswith("implied by round 6 of Lamp")
    assert forgotten["stuffing"] == "implied by round 7 of Lamp: “Stuff it firmly.”"
    assert forgotten["marker"].startswith("implied by round 2 of Lamp")
    assert forgotten["needle"].startswith("implied by round 8 of Lamp")


def test_what_is_listed_is_not_forgotten_and_keeps_its_words() -> None:
    buoys = own("striped-buoys.txt")
    assert [one.id for one in buoys.items if one.forgotten] == []
    assert item(buoys, "yarn:color a").printed == "color A, madder red, 35 g"
    assert item(buoys, "yarn:color a").name == "DK yarn, color A"
    assert item(buoys, "stuffing").printed == "Polyester stuffing, about 30 g"
    pennant = own("signal-pennant.txt")
    assert item(pennant, "yarn:color b").printed == "3 g of colour B (weld yellow)"
    assert [one.name for one in pennant.items if one.id.startswith("other:")] == [
        "a smooth stick 10 mm thick and 30 cm long"
    ]
    assert [one.id for one in own("harbor-skiff.txt").items if one.forgotten] == ["pins", "scissors"]


def test_a_small_line_outside_the_list_counts_as_listed() -> None:
    seal = own("seal-pup.txt")
    assert item(seal, "stuffing").printed == "About 10 g of stuffing"
    assert item(seal, "thread").printed == "1 m of black yarn for the face"
    assert item(seal, "yarn:only").printed.startswith("Sport yarn, 12 g gray")


def test_amounts_grow_with_the_copies_and_keep_their_spread() -> None:
    five, ten = own("striped-buoys.txt"), own("striped-buoys.txt", {1: 10, 2: 10})
    for id in ("yarn:color a", "yarn:color b"):
        one, two = item(five, id), item(ten, id)
        assert one.metres
        assert two.metres
        assert one.grams
        assert two.metres.value == pytest.approx(2 * one.metres.value)
        assert two.metres.high == pytest.approx(2 * one.metres.high)
        assert one.metres.low < one.metres.value < one.metres.high
        # The text's own band: 100 g = 230 m.
        assert one.grams.value == pytest.approx(one.metres.value / 2.3, rel=0.01)
    assert [(piece.name, piece.copies, piece.printed) for piece in ten.pieces] == [
        ("Buoy", 10, 5),
        ("Rope loop", 10, 5),
    ]
    assert ten.said[0] == "What the text prints is for the copies it names; the amounts are for yours."
    pattern = (PATTERNS / "striped-buoys.txt").read_text(encoding="utf-8")
    total = measured(read(pattern)).yarn_m.value
    assert sum(one.metres.value for one in five.items if one.metres) == pytest.approx(total, rel=0.01)


def test_eyes_with_size_for_all_copies() -> None:
    assert (item(of(BEACON), "eyes").name, item(of(BEACON), "eyes").amount) == ("8 mm eyes", "4")
    assert item(of(BEACON, {1: 3}), "eyes").amount == "6"


def test_a_hook_is_guessed_from_a_band_as_from_a_weight() -> None:
    """51 / root of 250 m is 3.2, of DK's 225 m 3.4; a quarter of a millimetre at a time."""
    rounds = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: sc around (12)\nStuff.\nRnd 4: dec x 6 (6)\n"
    for yarn, hook in (("Cotton, 50 g = 125 m", "3.25 mm hook"), ("DK yarn", "3.5 mm hook")):
        found = of(f"Float\nUS terms\nMaterials\n{yarn}\n\nFLOAT\n{rounds}Fasten off and close.\n")
        assert item(found, "hook").name == hook


def test_another_yarn_and_hook_stand_in_the_names_too() -> None:
    pattern = read(BEACON)

    def by(**said: str) -> Gathered:
        asked = Asked(gauge="20 sts and 21 rounds = 10 cm", **said)
        return gather(pattern, BEACON, measured(pattern, asked), asked)

    other = by(yarn="worsted", hook="4 mm")
    assert item(other, "yarn:white").name == "worsted yarn, white"
    assert "your own yarn: worsted" in item(other, "yarn:white").why
    assert item(other, "hook").name == "4 mm hook"
    unknown = by(yarn="thick purple wool", hook="G")
    assert "Hookside does not know it" in item(unknown, "yarn:white").why
    assert item(unknown, "hook").name == "3.5 mm hook"
    assert "not sure of “G”" in item(unknown, "hook").why
    assert any("names no yarn" in line for line in unknown.said)


def test_cautions_only_where_they_are_due() -> None:
    """Small parts: 31.7 mm across, up to 57.1 mm deep (Canada SOR/2011-17, Sch. 1). The float is 2 cm by its text."""
    assert [one.id for one in own("signal-pennant.txt").cautions] == ["hands"]
    assert [one.id for one in own("kelp-frond.txt").cautions] == ["toy", "small", "hands"]
    assert [one.id for one in own("seal-pup.txt").cautions] == ["toy", "small", "hands"]
    assert [one.id for one in of(BEACON).cautions] == ["toy", "eyes", "loose", "small", "hands"]
    assert all(one.source for one in of(BEACON).cautions)


@pytest.mark.parametrize(
    ("mm", "us"),
    # Craft Yarn Council's list as two or more retail charts confirm it; 4.5 mm is the one common size without a letter.
    [(2.25, "B-1"), (3.25, "D-3"), (4.0, "G-6"), (4.5, "7"), (6.5, "K-10.5"), (8.0, "L-11"), (3.0, "")],
)
def test_us_sizes(mm: float, us: str) -> None:
    assert us_size(mm) == us


def test_a_size_without_a_letter_lies_between_two() -> None:
    assert us_words(3.0) == "between US C-2 and D-3"


def test_without_a_list_everything_comes_from_the_rounds() -> None:
    text = "Float\nUS terms\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: inc x 6. (12)\nRnd 3: sc in each st around. (12)\n"
    found = of(text + "Stuff it.\nRnd 4: dec x 6. (6)\nFasten off.\n")
    assert found.said[0].startswith("The text has no list")
    assert item(found, "hook").why.startswith("the text names none")
    assert item(found, "stuffing").why.startswith("implied by round 3")
    assert not item(found, "stuffing").forgotten


def test_joined_rounds_worked_as_a_spiral_want_a_marker() -> None:
    text = """Cup
US terms
Hook: 3 mm
CUP
Rnd 1: 6 sc in magic ring, join with sl st in first sc. (6)
Rnd 2: Ch 1, 2 sc in each st around, join with sl st in first sc. (12)
Fasten off.
"""
    pattern = read(text)
    joined, spiral = (gather(pattern, text, measured(pattern), as_spiral=so) for so in (False, True))
    assert "marker" not in {one.id for one in joined.items}
    assert item(spiral, "marker").why.startswith("implied by round 2 of Cup")


def test_what_is_only_asked_back_asks_for_nothing() -> None:
    text = (
        "Float\nUS terms\nMaterials\nDK yarn, 3 mm hook\n\nFLOAT\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
    )
    text += "Rnds 3-6: sc in each st around (12)\nStuff it.\nRnd 7: dec x 6 (6)\nFasten off.\n"
    assert "needle" not in {one.id for one in of(text).items if "starting tail" in one.why}


def test_a_colour_that_is_not_named_beside_one_that_is() -> None:
    text = BEACON.replace("With white.\n", "")
    assert item(of(text), "yarn:only").name == "DK yarn, the color it begins with"


# Demo: the first piece begins without naming its yarn.
LABELLED = """Harbour kettle
UK terms

Materials
Yarn A: 15 g DK cotton, blue
Yarn B: 5 g DK cotton, cream

Pot
Round 1: 6 dc in magic ring (6)
Rounds 2-6: dc in each st (6)

Spout
With yarn A.
Round 1: 5 dc in magic ring (5)
Rounds 2-5: dc in each st (5)

Knob
With yarn B.
Round 1: 5 dc in magic ring (5)
"""


def test_the_yarn_that_is_not_named_is_the_first_of_a_list_with_labels() -> None:
    """Two balls on the list are two on ours, each with all that its line says."""
    for text in (LABELLED, LABELLED.replace("With yarn A.\n", "")):
        yarns = [one for one in of(text).items if one.kind == "yarn"]
        assert [(one.name, one.printed) for one in yarns] == [
            ("DK yarn, yarn A", "Yarn A: 15 g DK cotton, blue"),
            ("DK yarn, yarn B", "Yarn B: 5 g DK cotton, cream"),
        ]
        pattern = read(text)
        whole = measured(pattern).yarn_m.value
        assert sum(one.metres.value for one in yarns if one.metres) == pytest.approx(whole, rel=0.02)


def test_ids_stay_what_they_are_and_come_once() -> None:
    ids = [one.id for one in own("striped-buoys.txt").items]
    assert ids == [one.id for one in own("striped-buoys.txt", {1: 2}).items]
    assert len(ids) == len(set(ids))
    assert all(len(id) <= 200 for id in ids)


def test_eyes_that_are_asked_for_before_they_are_printed_are_counted_once() -> None:
    late = (
        BEACON.replace("Put the eyes in between rounds 4 and 5.\n", "")
        + "\nAssembly\nPut the eyes between rounds 4 and 5 of the lamp.\n"
    )
    assert item(of(late, {1: 1}), "eyes").amount == "2"


@pytest.mark.parametrize("many", ["1 pair", "x2", "2", "2 pieces"])
def test_how_many_of_a_thing_is_no_thing_to_find(many: str) -> None:
    found = of(BEACON.replace("8 mm safety eyes", f"8 mm safety eyes, {many}"))
    assert item(found, "eyes").printed == f"8 mm safety eyes, {many}"
    assert [one.name for one in found.items if one.id.startswith("other:")] == ["a bell for the top"]


# Demo: a list written as one paragraph; legs that a round works in; a mouth in a yarn of the list.
CHICK = """Gull chick

US terms

Materials
DK cotton: grey 20 g, white 10 g. 3 mm hook. 8 mm safety eyes. Approx. 15 g stuffing. Stitch marker. Yarn needle.

LEG (make 2)
With grey.
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: sc around (6)
Stuff firmly.

BODY
With white.
Rnd 1: ch 2, sc in 6 sts of the first leg, sc in each of the 2 ch, sc in 6 sts of the second leg, 2 sc in the ch (16)
Rnds 2-4: sc around (16)
Embroider a mouth in grey.
Rnd 5: dec x 8 (8)
Stuff firmly. Fasten off, close the hole.
"""


def test_a_list_in_one_paragraph_is_one_thing_for_each_sentence() -> None:
    found = of(CHICK)
    assert [one.id for one in found.items if one.forgotten] == ["scissors"]
    assert (item(found, "yarn:grey").name, item(found, "yarn:grey").printed) == ("DK yarn, grey", "grey 20 g")
    assert item(found, "stuffing").printed == "Approx. 15 g stuffing"
    assert item(found, "needle").printed == "Yarn needle"
    assert not [one.id for one in found.items if one.id.startswith("other:")]


def test_embroidering_in_a_yarn_of_the_list_asks_for_no_thread() -> None:
    assert "thread" not in {one.id for one in of(CHICK).items}
    assert item(of(CHICK.replace("in grey", "in black")), "thread").forgotten


def test_what_a_round_works_in_is_no_small_part_by_itself() -> None:
    """The legs are 1 cm wide, and never apart: a round of the body goes through them."""
    assert "Leg" not in small(CHICK)
    joined = next(line for line in CHICK.splitlines() if "first leg" in line)
    apart = CHICK.replace(joined, "Rnd 1: 16 sc in a magic ring (16)")
    assert "Leg" in small(apart)


def small(text: str) -> str:
    """What is said of small parts."""
    return next((one.text for one in of(text).cautions if one.id == "small"), "")


def test_small_parts_are_tried_whether_stuffed_or_not_and_beads_are_called_beads() -> None:
    """A beak of five stitches goes into a cylinder of 31.7 mm before any stuffed part does; what is no toy has none."""
    gull = (
        "Gull\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\nMaterials\nDK yarn, white\nPair of 6 mm black beads for "
        "eyes\nStuffing\n\nBody\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
        "Rnd 4: (2 sc, inc) x 6 (24)\nRnds 5-24: sc around (24)\nStuff.\nRnd 25: dec x 12 (12)\nRnd 26: dec x 6 (6)\n"
        "Fasten off.\n\nBeak\nRnd 1: 4 sc in magic ring (4)\nRnd 2: inc, 3 sc (5)\nRnd 3: sc around (5)\n"
        "Fasten off, leaving an end.\n\nMaking up\nSew on beads for eyes, one on each side of the beak at 20th round.\n"
    )
    found = of(gull)
    assert "Beak (about 1." in small(gull)
    assert "Body" not in small(gull)
    assert item(found, "eyes").name == "6 mm beads for eyes"
    assert "Beads" in next(one.text for one in found.cautions if one.id == "eyes")
    assert "small" not in {one.id for one in own("signal-pennant.txt").cautions}


DINGHY = """Dinghy
MATERIALS
1 x 50 g ball Double Knitting in each of Grey (A), Black (B) and
White (C). 3.50 mm crochet hook. Washable toy filling. Pair of
9 mm safety eyes.
a stitch marker and a tapestry needle

I use US terms. Everything is worked in a spiral, so do not join your rounds.

HULL
With A.
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
With C.
Rnds 3-4: sc around (12)
Stuff firmly.

FLAG (black)
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
Fasten off.
"""


def test_a_wrapped_list_is_read_whole_and_what_only_tells_how_to_work_is_nothing_to_find() -> None:
    found = of(DINGHY)
    assert not [one.name for one in found.items if one.id.startswith("other:")]
    assert item(found, "eyes").printed == "Pair of 9 mm safety eyes"
    assert item(found, "marker").printed == "a stitch marker"
    assert item(found, "needle").printed == "a tapestry needle"


def test_the_yarns_stand_in_the_order_of_the_list_and_are_called_as_it_calls_them() -> None:
    yarns = [one for one in of(DINGHY).items if one.kind == "yarn"]
    assert [one.name for one in yarns] == [
        "Double Knitting yarn, grey (A)",
        "Double Knitting yarn, black",
        "Double Knitting yarn, white (C)",
    ]
    assert not [one.id for one in yarns if one.forgotten]


@pytest.mark.parametrize(
    "line",
    [
        "3.5 mm hook, 6 mm eyes, stuffing",
        "6 mm eyes, stuffing, 3.5 mm hook",
        "3.5 mm hook; stuffing; 6 mm safety eyes",
        "A 3.5 mm crochet hook, fibrefill, 6 mm eyes, 1 pair",
    ],
)
def test_what_stands_beside_the_hook_in_its_line_is_listed(line: str) -> None:
    found = of(
        f"Float\nUS terms\nMaterials\nWhite DK yarn\n{line}\n\nFLOAT\nRnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nRnd 4: sc around (18)\nPut the eyes between rounds 2 and 3.\n"
        "Stuff it.\nRnd 5: (sc, dec) x 6 (12)\nRnd 6: dec x 6 (6)\n"
    )
    assert item(found, "hook").name == "3.5 mm hook"
    assert item(found, "eyes").name.startswith("6 mm")
    assert not item(found, "eyes").forgotten
    assert not item(found, "stuffing").forgotten


def test_a_line_that_says_more_of_the_hook_alone_lists_nothing_beside_it() -> None:
    found = of(
        "Float\nUS terms\nMaterials\nWhite DK yarn\n3.5 mm hook, US E, or the size you need\n\nFLOAT\n"
        "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
    )
    assert [one.id for one in found.items if one.kind != "notion"] == ["hook", "yarn:only"]
    assert not any("size" in one.name for one in found.items)


def test_a_letter_small_or_large_is_one_yarn_with_its_color_and_none_of_the_list_is_lost() -> None:
    """Demo: a round names "b", a line between rounds "B"; what no round takes stands in the list all the same."""
    text = (
        "Pilot\nUS terms\nGauge: 24 sts and 26 rnds = 10 cm\n\nMATERIALS\n"
        "DK yarn: A grey 50 g, B teal 20 g, C yellow 5 g\n\nARM\nWith A.\nR1. MR 6 (6)\nR2. inc*6 (12)\n"
        "R3. change to B. sc 12\nR4. change to A. sc 12\nChange to B.\nR5-9. sc 12\nFO.\n"
    )
    yarns = {one.id: one for one in of(text).items if one.kind == "yarn"}
    assert {one.name for one in yarns.values()} == {"DK yarn, grey (A)", "DK yarn, teal (B)", "C yellow 5 g"}
    assert yarns["yarn:b"].printed == "B teal 20 g"
    total = measured(read(text)).yarn_m
    assert set(total.by_colour) == {"A", "B"}
    assert sum(one.metres.value for one in yarns.values() if one.metres) == pytest.approx(total.value, rel=0.01)
