"""A sentence behind the last course that makes the piece one of two."""

import pytest

from hookside.notation import read

_FLIPPER = "Flipper\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n"  # demo
_TOLD = (
    "You need a pair.",
    "You'll need two of these.",
    "Make a pair.",
    "The second one is worked alike.",
    "The other flipper is made in the same way.",
    "Its twin is worked in the same way.",
    "Do all that once more for the other foot.",
    "FO. x2",
    "FO [2 pieces]",
    "Fasten off, leave a tail for sewing (x2)",
    "Fasten off and weave in the tail (x2)",
    "Do everything again for the second foot.",
    "Repeat for the second flipper.",
    "Now the other one.",
    "And one more just like it.",
    "Make a second flipper the same, but do not cut the yarn.",
    "Make another in the same way but leave a long tail.",
)


@pytest.mark.parametrize("told", _TOLD)
def test_it_is_one_of_two(told: str) -> None:
    piece = read(f"{_FLIPPER}{told}\n\nBody\nRnd 1: 6 sc in MR (6)\n").pieces[0]
    assert (piece.name, piece.make, len(piece.courses)) == ("Flipper", 2, 2)


@pytest.mark.parametrize(
    "told",
    [
        "FO on the first leg only.",
        "Fasten off the first leg. Do not fasten off the second.",
        "Only cut the yarn on the first leg.",
        "Do not cut the yarn on the second leg.",
    ],
)
def test_how_one_ends_and_not_the_other_tells_that_there_are_two(told: str) -> None:
    ring = "Rnd 1: 6 sc in MR (6)\n"
    pieces = read(f"Demo toy\n\nLeg\n{ring}{told}\n\nBody\n{ring}").pieces
    assert [(p.name, p.make) for p in pieces] == [("Leg", 2), ("Body", 1)]
    apart = read(f"Demo toy\n\nLeg 1\n{ring}{told}\n\nLeg 2\n{ring}").pieces
    assert [(p.name, p.make) for p in apart] == [("Leg 1", 1), ("Leg 2", 1)]


@pytest.mark.parametrize("told", ["Repeat for the other side.", "Repeat for the second edge."])
def test_a_side_is_no_piece(told: str) -> None:
    assert read(f"{_FLIPPER}{told}\n").pieces[0].make == 1


def test_a_course_behind_goes_on_with_the_same_piece() -> None:
    piece = read(f"{_FLIPPER}Now the other one.\nRnd 3: sc around (12)\n").pieces[0]
    assert (piece.make, len(piece.courses)) == (1, 3)


@pytest.mark.parametrize(
    ("heading", "name", "make"),
    [
        ("FLIPPER, two of them (start at the tip)", "Flipper", 2),
        ("Flipper (2 times crochet)", "Flipper", 2),
        ("FEET (marigold, 2 alike)", "Feet", 2),
        ("Front band (each side alike)", "Front band", 2),
        ("Ears (make 2 grey, 2 pink)", "Ears", 4),
        ("Wings - one pair", "Wings", 2),
        ("Paws, both the same", "Paws", 2),
        ("Tentacle (eight needed)", "Tentacle", 8),
        ("Feet - 2 off", "Feet", 2),
        ("Fin (to be made twice)", "Fin", 2),
        ("Leg (make one for each side)", "Leg", 2),
        ("Ear (part 2 of 4)", "Ear", 1),
        ("Ear [part two of four]", "Ear", 1),
        ("Ear (2 of 4)", "Ear", 1),
        ("Ear (part 2)", "Ear", 1),
        ("Ear (in two pieces)", "Ear", 1),
        ("Part 2 of 4: Ear", "Ear", 1),
        ("Spots, number 4", "Spots, number 4", 1),
        ("Spot, total: 3", "Spot", 3),
        ("Spot - count: 4", "Spot", 4),
        ("Spot. Total: 3", "Spot", 3),
        ("Spot, pieces: 3", "Spot", 3),
        ("Ear (part 2 of 4), make 2", "Ear", 2),
        ("Ear (pieces: 2)", "Ear", 2),
        ("Spot (makes 4)", "Spot", 4),
        ("Spot (count: 4)", "Spot", 4),
        ("SPOT [AMOUNT: 4]", "Spot", 4),
        ("Spot (Total: 3 spots)", "Spot", 3),
        ("Leaf 3 green + 1 red", "Leaf", 4),
        ("LEAF 3 DARK GREEN + 1 RED", "Leaf", 4),
        ("Leaves 3 green 1 red", "Leaves", 4),
        ("Body 2 navy and 2 white", "Body 2 navy and 2 white", 1),
        ("Fin, left and right alike", "Fin", 2),
        ("Fins left + right the same", "Fins", 2),
        ("Petal - repeat to make 6", "Petal", 6),
        ("Gill (three per side, so six)", "Gill", 6),
        ("Hull (one piece)", "Hull", 1),
        ("SEAL HEAD - Moss, smaller hook, spiral", "Seal head", 1),
        ("Float, from the top", "Float", 1),
        ("Fin, left", "Fin, left", 1),
        ("Fins x2 grey", "Fins", 2),
        ("3,Tail", "Tail", 1),
        ("Body (begin with 6 sts)", "Body", 1),
        ("Spots: 2 in white and 2 in black", "Spots", 4),
        ("Leg (x2 in grey, x2 in white)", "Leg", 4),
        ("Studs (red x1, green x1, blue x1)", "Studs", 3),
        ("Petals, 3 of each: pink and white", "Petals", 6),
        ("Stud (one each in red, green and blue)", "Stud", 3),
        ("Stud (make 3 - 1 red, 1 green, 1 blue)", "Stud", 3),
        ("Ears - 2 outer, 2 inner", "Ears", 4),
        ("4 legs: 2 long 2 short", "Legs", 4),
        ("Ears, 4 pieces alike, 2 grey and 2 pink", "Ears", 4),
        ("Studs (set of 4)", "Studs", 4),
        ("Studs, set of four", "Studs", 4),
        ("Studs (two pairs)", "Studs", 4),
        ("Studs (make 3 pairs)", "Studs", 6),
        ("Studs (one per corner, four corners)", "Studs", 4),
        ("Studs (make 2 for each of the 3 lids)", "Studs", 6),
        ("Studs (a pair for each side)", "Studs", 4),
        ("Studs (2 per side)", "Studs", 4),
        ("Studs (make 2, twice)", "Studs", 4),
        ("Studs (make 3+1 spare)", "Studs", 4),
        ("Studs (make 3, plus 1 spare)", "Studs", 4),
        ("The Arms (green, two)", "Arms", 2),
        ("Her ears (pink, 2)", "Ears", 2),
        ("The tail (white, 12 cm)", "Tail", 1),
        ("MUZZLE [03:15]", "Muzzle", 1),
        ("FLIPPERS, make 2 [18:00] (see the video)", "Flippers", 2),
        ("Studs (no. needed: 4)", "Studs", 4),
        ("EYE BUMPS do 2", "Eye bumps", 2),
        ("Lid (one color per side)", "Lid", 1),
        ("Lid (two pairs of needles)", "Lid", 1),
        ("Fins: two.", "Fins", 2),
        ("Fins: 2.", "Fins", 2),
        ("Studs 1-4", "Studs 1-4", 4),
        ("Studs 1, 2 and 3", "Studs 1, 2 and 3", 3),
        ("Paws: repeat this four times", "Paws", 4),
        ("Stud, one on either side of the lid", "Stud", 2),
        ("Stud, one for each side of the lid", "Stud", 2),
        ("Stud - two on either side of the lid", "Stud", 4),
        ("Studs (make 2 in red and 2 more in blue)", "Studs", 4),
    ],
)
def test_copies_are_asked_for_in_whatever_words(heading: str, name: str, make: int) -> None:
    piece = read(f"Demo toy\n\n{heading}\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n").pieces[0]
    assert (piece.name, piece.make) == (name, make)


@pytest.mark.parametrize(
    "led", ["Fins: two.", "Fins - two.", "Fins. Two.", "Fins: two of them.", "Fins: make two.", "Fins: a pair."]
)
def test_copies_in_front_of_a_first_round_on_their_line(led: str) -> None:
    pieces = read(f"Hull\nR1: 6 sc in MR (6)\n\n{led} R1: 6 sc in MR (6) R2: inc around (12)\n").pieces
    assert [(p.name, p.make, len(p.courses)) for p in pieces] == [("Hull", 1, 1), ("Fins", 2, 2)]


@pytest.mark.parametrize(
    ("heading", "shade"),
    [
        ("Fins (x2) rust", "Rust"),
        ("Fins x2 rust", "Rust"),
        ("Fins (make 2) dark green", "Dark green"),
        ("FINS [2 pieces] rust", "Rust"),
        ("Fins (make 2) (rust): R1: 6 sc in MR (6)", "Rust"),
        ("Fins: two, rust. R1: 6 sc in MR (6)", "Rust"),
        ("fins make two same color", "Same color"),
        ("Fins (make 2, same color as the hull)", "Same color as the hull"),
    ],
)
def test_a_colour_behind_how_many_is_told_at_its_part(heading: str, shade: str) -> None:
    ring = "" if "R1" in heading else "R1: 6 sc in MR (6)\n"
    piece = read(f"Hull\nR1: 6 sc in MR (6)\n\n{heading}\n{ring}R2: inc around (12)\n").pieces[1]
    assert (piece.name, piece.make, [c.text for c in piece.cues if c.kind == "colour"]) == ("Fins", 2, [shade])


def test_copies_by_colour_on_a_line_of_their_own() -> None:
    piece = read("Demo toy\n\nEARS\n(make 2 grey, 2 pink)\nRnd 1: 6 sc in MR (6)\n").pieces[0]
    assert (piece.name, piece.make) == ("Ears", 4)


@pytest.mark.parametrize("below", ["(dark gray, make 2)", "Make two. In moss, begin.", "(make 2)"])
def test_copies_on_the_line_below_the_name(below: str) -> None:
    piece = read(f"Demo toy\n\nWings\n{below}\nRnd 1: 6 sc in MR (6)\n").pieces[0]
    assert (piece.name, piece.make) == ("Wings", 2)


def test_stitches_behind_a_named_part_that_are_no_round_are_said() -> None:
    text = "Fin A\nR1: 6 sc in MR (6)\nR2: inc around (12)\nFin B\nAs fin A. 5 sc in the corner.\n"
    pattern = read(text)
    assert [c.makes for c in pattern.pieces[1].courses] == [6, 12]
    assert [f.line for f in pattern.findings if f.code == "left-out"] == [5]


@pytest.mark.parametrize(
    ("told", "name", "made"),
    [
        ("Pair of flippers", "Flippers", 2),
        ("A pair of fenders:", "Fenders", 2),
        ("Flippers (left and right)", "Flippers", 2),
        ("Flipper - left & right", "Flipper", 2),
        ("Flippers 1 & 2", "Flippers 1 & 2", 2),
        ("Flippers 1-4", "Flippers 1-4", 4),
        ("Flippers A, B and C", "Flippers A, B and C", 3),
        ("Left flipper / right flipper", "Left flipper / right flipper", 2),
        ("Left and right flipper", "Left and right flipper", 2),
        ("Flipper A and flipper B", "Flipper A and flipper B", 2),
        ("Flipper 1, Flipper 2 and Flipper 3", "Flipper 1, Flipper 2 and Flipper 3", 3),
        ("Flipper one & two", "Flipper one & two", 2),
        ("First and second flipper", "First and second flipper", 2),
        ("Flipper. Crochet it twice.", "Flipper", 2),
        ("FLIPPER. MAKE IT TWICE.", "Flipper", 2),
        ("Flipper (work this 3 times)", "Flipper", 3),
        ("Flipper. Two of them.", "Flipper", 2),
        ("FLIPPER / two of them", "Flipper", 2),
        ("The Flipper Fin. Everyone makes two of these!", "The Flipper Fin", 2),
        ("Flipper x3 gray + x1 red", "Flipper", 4),
        ("Flipper x2 gray x1 red", "Flipper", 3),
        ("Left flipper", "Left flipper", 1),
        ("Flipper 2", "Flipper 2", 1),
    ],
)
def test_copies_that_a_name_tells(told: str, name: str, made: int) -> None:
    piece = read(f"{told}\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n").pieces[0]
    assert (piece.name, piece.make, len(piece.courses)) == (name, made, 2)


@pytest.mark.parametrize(
    ("told", "made"),
    [
        ("You will need two of these.", 2),
        ("We'll need four of them!", 4),
        ("You make three of these, one for each mast.", 3),
        ("There are three of these.", 3),
    ],
)
def test_copies_told_in_a_sentence_below_the_name(told: str, made: int) -> None:
    piece = read(f"Flipper\n{told}\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n").pieces[0]
    assert (piece.name, piece.make, len(piece.courses)) == ("Flipper", made, 2)


@pytest.mark.parametrize(
    ("told", "made"),
    [
        ("You will need four of these.", 4),
        ("Make 8 more.", 9),
        ("Make another one just like this.", 2),
        ("Sew to head (make 2).", 2),
        ("Stuff and close (make 2).", 2),
        ("Stuff and close, make 3.", 3),
        ("Do the other one to match.", 2),
        ("Make a total of 4", 4),
        ("You need a total of four flippers.", 4),
        ("Make 3 of these in red and 2 in white.", 5),
        ("Make one in red, one in blue and two in green.", 4),
        ("Make 3 in red", 3),
        ("Fasten off. Make 3 in dark red.", 3),
        ("Work the second one in grey.", 2),
        ("Make the other flipper in light grey.", 2),
        ("Make 3 in the ring.", 1),
    ],
)
def test_copies_told_behind_the_rounds(told: str, made: int) -> None:
    assert read(f"{_FLIPPER}{told}\n").pieces[0].make == made


@pytest.mark.parametrize(
    ("told", "made"),
    [
        ("Work 2, mirrored.", 2),
        ("Work two.", 2),
        ("Work three in gray.", 3),
        ("Do two, mirrored.", 2),
        ("Four of them", 4),
        ("Both alike.", 2),
        ("Work both the same.", 2),
        ("You will want four.", 4),
        ("Two, mirrored", 2),
        ("Two the same, brown yarn.", 2),
        ("Three, all the same colour.", 3),
        ("Do it twice.", 2),
        ("Sure! You need three of these, all the same colour.", 3),
        ("As rounds 1-3 of the oar, do this twice.", 1),
        ("I had two of the same yarns.", 1),
        ("Make 2, then 2 more in blue.", 4),
    ],
)
def test_copies_told_below_a_name_in_few_words(told: str, made: int) -> None:
    for name in ("Flipper", "Toy\n\nFlipper", "MITTS"):
        (piece,) = read(f"{name}\n{told}\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n").pieces
        assert (piece.make, [c.makes for c in piece.courses]) == (made, [6, 12])


@pytest.mark.parametrize("told", ["Work 6 in a magic ring.", "Work 2 in each.", "Make 12 in ring."])
def test_stitches_below_a_name_are_no_copies(told: str) -> None:
    assert read(f"Flipper\n{told}\nRnd 2: inc around (12)\n").pieces[0].make == 1


@pytest.mark.parametrize("told", ["Do this four times.", "These come in threes.", "I needed five."])
def test_what_may_tell_copies_right_above_the_first_round_is_said(told: str) -> None:
    pattern = read(f"Flipper\n{told}\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n")
    assert [(f.code, f.line) for f in pattern.findings] == [("talk", 2)]


@pytest.mark.parametrize("told", ["Flipper, one of each color", "Flipper (as many as you like, at least 5)"])
def test_what_leaves_open_how_many_is_said(told: str) -> None:
    assert "copies-open" in {f.code for f in read(f"{told}\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\n").findings}


@pytest.mark.parametrize(
    ("last", "make"),
    [
        ("Rnd 3: sc (12). Make 3.", 3),
        ("Rnd 3: sc (12), make 2", 2),
        ("Rnd 3: sc (12) - make 2 of these, leave a tail", 2),
        ("Rnd 3: sc (12). FO, make 2.", 2),
        ("Rnd 3: sc (12). Fasten off. Make another one.", 2),
        ("Rnd 3: sc (12)\nFO and make a second one.", 2),
        ("Rnd 3: sc (12)\nFasten off, leave a tail. Make four.", 4),
        ("Rnd 3: inc, make 2, sc 11 (13)", 1),
        ("Rnd 3: sc (12). Fasten off. Make 2 sc in the next st.", 1),
    ],
)
def test_how_many_told_behind_the_last_round(last: str, make: int) -> None:
    assert read(f"{_FLIPPER}{last}\n").pieces[0].make == make


@pytest.mark.parametrize(
    ("heading", "name", "make"),
    [
        ("4 front legs and 2 back legs, all the same:", "Front legs and back legs", 6),
        ("2 wings and 2 fins:", "Wings and fins", 4),
        ("Front legs (x2) & back legs (x2)", "Front legs and back legs", 4),
        ("Arms (make 2), legs (make 2)", "Arms and legs", 4),
        ("Arms 2x & legs 2x", "Arms and legs", 4),
        ("Top (make 1) and bottom (make 1)", "Top and bottom", 2),
        ("Arms and legs (make 2 of each)", "Arms and legs", 4),
        ("Ear, inner and outer (make 2 of each)", "Ear, inner and outer", 4),
        ("Ears (make 2 of each color)", "Ears", 2),
        ("Paws: 2 x front, 2 x back", "Paws", 4),
        ("Paws (4 pieces, 2 front, 2 back)", "Paws", 4),
        ("Petals (make a dozen)", "Petals", 12),
        ("Petals - make half a dozen", "Petals", 6),
        ("Scales (make a couple)", "Scales", 2),
        ("Petals, 2 x 5 pieces", "Petals", 10),
        ("Petals (make 2 sets of 5)", "Petals", 10),
        ("Petals (make 5 twice)", "Petals", 10),
        ("Petals (3 + 3)", "Petals", 6),
        ("Square (5 x 5)", "Square", 5),
        ("Pocket (10 x 10 cm)", "Pocket", 1),
        ("Feet. 2.", "Feet", 2),
        ("Toes (6 in all, 3 for each foot)", "Toes", 6),
        ("Fingers: 4 for each hand", "Fingers", 4),
        ("LEG 1 + 2 brown", "Leg 1 + 2", 2),
        ("Legs 1 and 2, brown", "Legs 1 and 2", 2),
        ("Leg 2", "Leg 2", 1),
    ],
)
def test_several_numbers_in_a_heading(heading: str, name: str, make: int) -> None:
    piece = read(f"{heading}\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\n").pieces[0]
    assert (piece.name, piece.make, len(piece.courses)) == (name, make, 2)


@pytest.mark.parametrize(
    ("told", "make"),
    [
        ("(work it twice)", 2),
        ("You will make this piece twice.", 2),
        ("This part is made 3 times.", 3),
        ("To be made twice.", 2),
        ("Make 2.", 2),
    ],
)
def test_how_often_below_the_name(told: str, make: int) -> None:
    assert read(f"Paddle\n{told}\nRnd 1: 6 sc in MR (6)\n").pieces[0].make == make


@pytest.mark.parametrize("told", ["FO. You will need three of these.", "FO, you need 3 in all", "FO. Make 3."])
def test_how_many_behind_the_last_course(told: str) -> None:
    assert read(f"{_FLIPPER}{told}\n\nBody\nRnd 1: 6 sc in MR (6)\n").pieces[0].make == 3


@pytest.mark.parametrize(
    ("told", "make"),
    [
        ("Fin 2, 3 and 4: the same", 3),
        ("Fins 2-4: as fin 1", 3),
        ("Fin 2, 3, 4 - same", 3),
        ("Fin 2 and 3. Work the same.", 2),
    ],
)
def test_several_like_the_first(told: str, make: int) -> None:
    text = f"Fin 1\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\nFO.\n{told}\n\nBody\nRnd 1: 6 sc in MR (6)\n"
    fins = read(text).pieces[1]
    assert (fins.make, [c.makes for c in fins.courses]) == (make, [6, 12])


_ROUNDS = "Rnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n"  # demo


@pytest.mark.parametrize(
    "told",
    [
        "Make 1 body, 2 wings and 3 knobs.",
        "Pieces: 1 body, 2 wings, 3 knobs",
        "(You need a body, 2 wings and three knobs.)",
        "Pieces: body, wings (2), knobs x3",
        "Parts\n1 body\n2 wings\n3 knobs",
    ],
)
def test_a_list_ahead_of_the_parts_counts_them(told: str) -> None:
    pieces = read(f"{told}\n\nBody\n{_ROUNDS}\nWing\n{_ROUNDS}\nKnob\n{_ROUNDS}").pieces
    assert [(p.name, p.make) for p in pieces] == [("Body", 1), ("Wing", 2), ("Knob", 3)]


@pytest.mark.parametrize("told", ["You need:\n2 eyes\n1 hook", "You need 2 eyes, a hook and a needle.", "2 eyes"])
def test_a_list_of_things_counts_no_parts(told: str) -> None:
    pieces = read(f"{told}\n\nBody\n{_ROUNDS}\nEye\n{_ROUNDS}").pieces
    assert [p.make for p in pieces] == [1, 1]


def test_parts_with_rounds_of_their_own_are_not_counted_twice() -> None:
    text = f"Make 1 body and 2 wings.\n\nBody\n{_ROUNDS}\nLeft wing\n{_ROUNDS}\nRight wing\n{_ROUNDS}"
    assert [p.make for p in read(text).pieces] == [1, 1, 1]


@pytest.mark.parametrize(("feet", "toes"), [("Foot (make 2)", 6), ("Foot", 3)])
def test_so_many_for_each_of_another_part(feet: str, toes: int) -> None:
    pieces = read(f"{feet}\n{_ROUNDS}\nToe (make 3 for each foot)\n{_ROUNDS}").pieces
    assert pieces[1].make == toes


@pytest.mark.parametrize("told", ["Toe\nMake 3 for each foot.", "TOE. THREE FOR EACH FOOT. WITH GRAY."])
def test_so_many_for_each_of_another_part_below_the_name(told: str) -> None:
    pieces = read(f"Foot (make 2)\n{_ROUNDS}\n\n{told}\n{_ROUNDS}").pieces
    assert [(p.name, p.make) for p in pieces] == [("Foot", 2), ("Toe", 6)]


def test_one_for_each_of_another_part_behind_the_name() -> None:
    told = "CUFF. ONE FOR EACH SLIPPER. WITH GRAY CH 7."
    pieces = read(f"Slippers (make 2)\n{_ROUNDS}\n\n{told}\nRow 1: 6 sc (6)\n").pieces
    assert [(p.name, p.make, p.courses[-1].makes) for p in pieces[1:]] == [("Cuff", 2, 6)]


def test_a_colour_and_how_many_behind_the_name() -> None:
    pieces = read(f"Hull\n{_ROUNDS}\n\nFins. Gray, and you want four.\n{_ROUNDS}").pieces
    assert (pieces[1].name, pieces[1].make) == ("Fins", 4)
    assert "colour" in [c.kind for c in pieces[1].cues]


_ROWS = ("| Ears | make 2 |", "| EARS | 2 pcs | brown |", "| **Ears:** | x 2 |", "Ears | a pair")  # demo


@pytest.mark.parametrize("row", _ROWS)
def test_so_does_the_row_of_a_table_that_names_it(row: str) -> None:
    (ears,) = read(f"{row}\n| R1 | 6 sc in ring | 6 |\n| R2 | inc x 6 | 12 |\n").pieces
    assert (ears.name, ears.make) == ("Ears", 2)


@pytest.mark.parametrize(
    "heading",
    ["FIN, quantity 4", "FIN (quantity 4)", "FIN, qty 4", "FIN (QTY: 4)", "FIN qty. 4", "FIN, number needed 4",
     "FIN (4 needed)", "FIN, 4 off", "FIN, 4 required:", "B. FIN, quantity 4"],
)  # fmt: skip
def test_a_heading_says_the_quantity(heading: str) -> None:
    (piece,) = read(f"{heading}\nRd 1: MR, 5 sc (5)\nRd 2: sc 4, inc (6)\n").pieces
    assert (piece.name, piece.make, len(piece.courses)) == ("Fin", 4, 2)


def test_some_quantity_of_yarn_is_no_number_of_copies() -> None:
    (piece,) = read("FIN (small quantity of red)\nRd 1: MR, 5 sc (5)\nRd 2: sc 4, inc (6)\n").pieces
    assert piece.make == 1


@pytest.mark.parametrize("told", ["Parts: paw x2, leaf x3", "Pieces: 2 paws and 3 leaves"])
def test_a_list_of_parts_is_no_part_of_several_sorts(told: str) -> None:
    rounds = "Rnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n"
    pieces = read(f"Demo toy\n\n{told}\n\nPaw\n{rounds}\nLeaf\n{rounds}").pieces
    assert [(piece.name, piece.make) for piece in pieces] == [("Paw", 2), ("Leaf", 3)]


@pytest.mark.parametrize(
    ("told", "made"),
    [
        ("FO\nThree others like this.", 4),
        ("FO. Second one: same.", 2),
        ("FO all 4 flippers", 4),
        ("Fasten off all four.", 4),
        ("3 others the same", 4),
        ("And the other three.", 4),
        ("All four flippers alike.", 4),
        ("Then do it all again for the other one", 2),
        ("Repeat for the other four.", 5),
        ("Same for the remaining three flippers.", 4),
        ("Now make its twin.", 2),
        ("One more, please.", 2),
        ("FO.\nDo this three times.", 3),
        ("FO.\nRepeat this twice more.", 3),
        ("Stuff lightly. Make three others like this.", 4),
        ("Fasten off and work three more.", 4),
        ("FO, leaving a long tail, and crochet one more.", 2),
        ("Make a second flipper, but end with a long tail.", 2),
        ("Work another flipper without a tail.", 2),
        ("Fasten off and sew on two more beads.", 1),
        ("Fasten off and work the second ear.", 1),
        ("Sew on an eye. Repeat for the other one.", 1),
        ("FO. Repeat for the other side.", 1),
        ("Fasten off all four buttons.", 1),
    ],
)
def test_others_like_it_are_told_behind_the_rounds(told: str, made: int) -> None:
    pattern = read(f"{_FLIPPER}{told}\n\nBody\nRnd 1: 6 sc in MR (6)\n")
    assert [(p.name, p.make) for p in pattern.pieces] == [("Flipper", made), ("Body", 1)]


def test_others_like_it_are_told_in_the_line_of_the_last_round() -> None:
    (piece,) = read("Flipper\nRnd 1: 6 sc in MR (6)\nRnd 2: sc around (6). Fasten off and work three more.\n").pieces
    assert (piece.make, [c.makes for c in piece.courses]) == (4, [6, 6])


def test_more_of_the_part_or_of_its_last_round_is_said() -> None:
    shaped = f"{_FLIPPER}Rnd 3: (sc, dec) x 4 (8)\nRepeat this twice more.\n\nBody\nRnd 1: 6 sc in MR (6)\n"
    pattern = read(shaped)
    assert (pattern.pieces[0].make, [c.makes for c in pattern.pieces[0].courses]) == (1, [6, 12, 8])
    assert [(f.code, f.line) for f in pattern.findings] == [("more-of-what", 5)]
    assert [c.text for c in pattern.pieces[0].cues if c.line == 5] == ["Repeat this twice more."]
    plain = read(f"{_FLIPPER}Rnd 3: sc around (12)\nDo this three times.\n")
    assert [c.makes for c in plain.pieces[0].courses] == [6, 12, 12, 12, 12]
    assert [f.code for f in plain.findings] == ["rounds-or-copies"]


@pytest.mark.parametrize("told", ["Repeat this twice more.", "Do this round three times."])
def test_a_number_below_tells_that_rounds_are_meant(told: str) -> None:
    pattern = read(f"{_FLIPPER}Rnd 3: sc around (12)\n{told}\nRnd 6: dec around (6)\n")
    assert [c.makes for c in pattern.pieces[0].courses] == [6, 12, 12, 12, 12, 6]
    assert not pattern.findings


def test_colours_held_together_are_no_two_parts() -> None:
    pieces = read("Flipper\nBoth colors held together.\nRnd 1: 6 sc in MR (6)\n").pieces
    assert [(p.name, p.make) for p in pieces] == [("Flipper", 1)]


_PARTS_AHEAD = [
    "Part / How many / Color\nHull / 1 / gray\nFins / 2 / gray\nStuds / 3 / white",
    "Part | How many | Color\nHull | 1 | gray\nFins | 2 | gray\nStuds | 3 | white",
    "| Part | Make | Color | Notes |\n|---|---|---|---|\n| Hull | 1 | gray | firm |\n| Fins | 2 | gray | flat |\n"
    "| Studs | 3 | white | flat |",
    "Part\tHow many\tColor\nHull\t1\tgray\nFins\t2\tgray\nStuds\t3\twhite",
    "Part      How many   Color\nHull      1          gray\nFins      2          gray\nStuds     3          white",
    "Color | Part | Number\ngray | Hull | 1\ngray | Fins | 2\nwhite | Studs | 3",
    "Parts to make:\n- Hull: 1, gray\n- Fins: 2, gray\n- Studs: 3, white",
    "Hull, 1, gray\nFins, 2, gray\nStuds, 3, white",
    "Parts: hull 1 gray, fins 2 gray, studs 3 white",
    "Parts: 1 gray hull, 2 gray fins, 3 white studs",
    "Pieces: 1 hull (gray). 2 fins (gray). 3 studs (white).",
    "You need: 1 hull in gray, 2 fins in gray and 3 studs in white",
]


def _toy(ahead: str) -> str:
    parts = "".join(f"\n{name}\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n" for name in ("Hull", "Fins", "Studs"))
    return f"Demo toy\n\n{ahead}\n{parts}"


@pytest.mark.parametrize("ahead", _PARTS_AHEAD)
def test_a_list_of_parts_ahead_gives_them_their_number_and_colour(ahead: str) -> None:
    pattern = read(_toy(ahead))
    told = [(p.name, p.make, [c.text for c in p.cues if c.kind == "colour"]) for p in pattern.pieces]
    assert told == [("Hull", 1, ["Gray"]), ("Fins", 2, ["Gray"]), ("Studs", 3, ["White"])]
    assert not pattern.findings


def test_what_a_heading_tells_itself_goes_before_the_list() -> None:
    pattern = read(_toy(_PARTS_AHEAD[1]).replace("\nFins\n", "\nFins (make 4, pink)\n"))
    fins = pattern.pieces[1]
    assert (fins.name, fins.make, [c.text for c in fins.cues if c.kind == "colour"]) == ("Fins", 4, ["Pink"])


@pytest.mark.parametrize(
    "ahead", ["How many of what: hull one, fins two.", "Needed: 1 hull, 2 fins, 3 studs, 2 eyes (bought)"]
)
def test_numbers_of_parts_that_are_not_taken_are_said(ahead: str) -> None:
    pattern = read(_toy(ahead))
    assert [(f.code, f.line) for f in pattern.findings] == [("copies-ahead", 3)]


@pytest.mark.parametrize("ahead", ["Materials: 2 eyes, gray yarn, 3 mm hook.", "The fins are 2 cm long, the hull not."])
def test_other_numbers_ahead_are_no_copies(ahead: str) -> None:
    assert [p.make for p in read(_toy(ahead)).pieces] == [1, 1, 1]
    assert "copies-ahead" not in [f.code for f in read(_toy(ahead)).findings]


@pytest.mark.parametrize(
    ("above", "made", "said"),
    [
        ("BOOTEES (make 2)", 2, "copies-under"),
        ("## Bootees (2 alike)", 2, "copies-far"),
        ("Bootees x2", 2, "copies-far"),
    ],
)
def test_copies_told_above_a_heading_are_counted_or_said(above: str, made: int, said: str) -> None:
    sole = "\nSole\nRnd 1: 6 sc in MR (6)\n" if "#" not in above else "\n## Sole\nRnd 1: 6 sc in MR (6)\n"
    pattern = read(f"HULL\nRnd 1: 6 sc in MR (6)\n\n{above}\n{sole}\nSTRAP\nRnd 1: 6 sc in MR (6)\n")
    assert [(p.name, p.make) for p in pattern.pieces] == [("Hull", 1), ("Sole", made), ("Strap", 1)]
    assert [f.code for f in pattern.findings] == [said]


_RING = "\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\n"


def _made(text: str) -> list[tuple[str, int]]:
    return [(p.name, p.make) for p in read(text).pieces]


@pytest.mark.parametrize(
    "title",
    [
        "BOOTEES (make 2)",
        "Bootees, make 2",
        "Bootees - make two",
        "Bootees x2",
        "**Bootees (make a pair)**",
        "BOOTEES (2)",
        "Bootees (set of 2)\nUS terms",
        "Bootees (make 2)\nYarn: white DK\nHook: 3 mm",
        "Bootees\nMake 2.",
    ],
)
def test_copies_that_the_title_asks_for_are_those_of_each_part(title: str) -> None:
    parts = f"\n\nSole{_RING}\nUpper{_RING}\nStrap{_RING}"
    assert _made(title + parts) == [("Sole", 2), ("Upper", 2), ("Strap", 2)]


@pytest.mark.parametrize(
    ("title", "parts", "made"),
    [
        ("MITTENS (2)", "Cuff | Thumb (make 1 on each)", [("Cuff", 2), ("Thumb", 2)]),
        ("Mittens (a pair)", "Hand (make 2) | Thumb (make 2)", [("Hand", 2), ("Thumb", 2)]),
        ("Mittens (make 2)", "Left mitten | Right mitten", [("Left mitten", 1), ("Right mitten", 1)]),
        ("Wheels (4)", "Outer | Inner (8)", [("Outer", 4), ("Inner", 8)]),
        ("MOUSE (make 3)", "Body | Ear (make 2)", [("Body", 3), ("Ear", 6)]),
        ("Coasters (set of three)", "High | Half | Low", [("High", 1), ("Half", 1), ("Low", 1)]),
        ("Cloths (make 2)", "Ribbed cloth | Striped cloth", [("Ribbed cloth", 1), ("Striped cloth", 1)]),
        ("BOOTEES (make 2)", "Sole | Upper | HAT", [("Sole", 2), ("Upper", 2), ("Hat", 1)]),
        ("TABLE (4 legs)", "Top | Leg", [("Top", 1), ("Leg", 4)]),
        ("Spider with 8 legs", "Body | Leg", [("Body", 1), ("Leg", 8)]),
        ("Bear (2 pages)", "Head | Body", [("Head", 1), ("Body", 1)]),
        ("Bear, version 2", "Head | Body", [("Head", 1), ("Body", 1)]),
    ],
)
def test_how_far_the_copies_of_a_title_go(title: str, parts: str, made: list[tuple[str, int]]) -> None:
    assert _made(f"{title}\n\n" + "\n".join(f"{part}{_RING}" for part in parts.split(" | "))) == made


def test_a_title_with_copies_names_the_one_part_below_it() -> None:
    assert _made(f"Wing (make 2)\nUS terms.\n{_RING}") == [("Wing", 2)]


@pytest.mark.parametrize(
    ("headings", "said"),
    [
        ("Wheels (4)\nTyre | Hub", ["copies-far", "copies-under"]),
        ("Wheels (make 4)\nRim | Hub", ["copies-far", "copies-under"]),
        ("Wheels x 4\n\nTyre\n | Hub\n", ["copies-far", "copies-under"]),
        ("Wheels (4)\nTyre: | Hub: | Roof", ["copies-under", "copies-under"]),
        ("Wheels (4)\n- Tyre | - Hub | Roof", ["copies-under", "copies-under"]),
        ("**Wheels (4)**\nTyre: | Hub: | **Roof**", ["copies-under", "copies-under"]),
    ],
)
def test_each_part_below_a_heading_without_rounds_has_its_copies(headings: str, said: list[str]) -> None:
    pattern = read(f"Demo car\n\nHull{_RING}" + "".join(f"{part}{_RING}" for part in headings.split(" | ")))
    made = [(p.name, p.make) for p in pattern.pieces]
    assert made[:1] == [("Hull", 1)]
    assert [n for _, n in made[1:3]] == [4, 4]
    assert made[3:] in ([], [("Roof", 1)])
    assert [f.code for f in pattern.findings] == said


def test_a_word_below_a_name_is_its_yarn_where_another_part_has_its_own_so() -> None:
    assert _made(f"Bird\n\nWing (2x)\nPetrol{_RING}\nBeak\nMustard{_RING}") == [("Wing", 2), ("Beak", 1)]
    assert _made(f"Bird\n\nWing (2x)\nPetrol{_RING}\nBody{_RING}") == [("Wing", 2), ("Body", 1)]


def test_copies_by_sort_are_those_of_the_parts_that_bear_them() -> None:
    for above in ("Spots: 3 small, 2 large\n", "SPOTS (3 SMALL AND 2 LARGE)\n"):
        made = _made(f"Demo toy\n\n{above}\nSmall spot{_RING}\nLarge spot{_RING}\nTail{_RING}")
        assert made == [("Small spot", 3), ("Large spot", 2), ("Tail", 1)]
    made = _made(f"Spots: 3 small, 2 large\n\nSmall spot{_RING}\nLarge spot{_RING}")
    assert made == [("Small spot", 3), ("Large spot", 2)]


@pytest.mark.parametrize(
    "ahead", ["Hull, make 1; fins, make 2", "Hull (make 1), fins (make 2)", "Hull - make 1, fins - make 2"]
)
def test_a_list_ahead_tells_them_with_a_verb(ahead: str) -> None:
    assert _made(f"Demo toy\n\n{ahead}\n\nHull{_RING}\nFin{_RING}") == [("Hull", 1), ("Fin", 2)]


@pytest.mark.parametrize(
    "told",
    [
        "For the small wheels stop here (make two).",
        "Stop here for the small wheels (make 2).",
        "Small wheels (make 2): stop here.",
        "For the small ones fasten off here, make two.",
    ],
)
def test_copies_that_end_between_two_rounds_are_said_and_cut_no_part(told: str) -> None:
    pattern = read(f"Demo car\n\nWheel (x4)\nRnd 1: 6 sc in MR (6)\n{told}\nRnd 2: inc x 6 (12)\n")
    assert [(p.name, p.make, [c.makes for c in p.courses]) for p in pattern.pieces] == [("Wheel", 4, [6, 12])]
    assert [f.code for f in pattern.findings] == ["copies-in-part"]


@pytest.mark.parametrize(
    "told",
    [
        "Make 1 mum (R1-R5) and 3 babies (R1-R3).",
        "1 mum: R1-R5, 3 babies: R1-R3",
        "Make three small ones (rnds 1-3) and one big one (all rounds).",
    ],
)
def test_copies_with_their_own_rounds_are_said(told: str) -> None:
    pattern = read(f"Demo toy\n\n{told}\n{_RING}Rnd 3: sc around (12)\n")
    assert [f.code for f in pattern.findings] == ["copies-in-part"]


@pytest.mark.parametrize(
    ("led", "made"),
    [("SIDES (both alike): They are worked in rows.", 2), ("Lid: It is worked in the round.", 1)],
)
def test_a_name_and_a_sentence_behind_its_colon_begin_a_part(led: str, made: int) -> None:
    assert [n for _, n in _made(f"Demo box\n\nBase{_RING}\n{led}{_RING}")] == [1, made]


def test_one_on_each_of_two_is_two() -> None:
    ring = "Rnd 1: 6 sc in MR (6)"
    pieces = read(f"Mittens (make 2)\n{ring}\n\nThumb (one on each mitten)\n{ring}\n").pieces
    assert [(p.name, p.make) for p in pieces] == [("Mittens", 2), ("Thumb", 2)]


@pytest.mark.parametrize(
    "ahead",
    [
        "CONTENTS\nMaterials ......... 2\nHull ......... 3\nFins ......... 4\nStuds ......... 5",
        "Materials 1\nHull 2\nFins 3\nStuds 4\nAssembly 5",
        "Hull | 3\nFins | 5\nStuds | 6",
        "Page\nHull 2\nFins 3\nStuds 4",
    ],
)
def test_the_pages_of_a_list_of_contents_are_no_copies(ahead: str) -> None:
    assert [p.make for p in read(_toy(ahead)).pieces] == [1, 1, 1]


def test_numbers_that_go_up_are_copies_where_the_line_above_says_so() -> None:
    assert [p.make for p in read(_toy("Part | How many\nHull | 2\nFins | 4\nStuds | 6")).pieces] == [2, 4, 6]


@pytest.mark.parametrize(
    ("told", "name", "made", "shade"),
    [
        ("Beak: rust. Chain 4, sc in second chain from hook and in next two. Fasten off.", "Beak", 1, ["Rust"]),
        ("Beak (rust): ch 4, sc in 2nd ch from hook and in next 2. FO", "Beak", 1, ["Rust"]),
        ("Beak, rust: chain 4, sc in second chain from hook and in next two. FO", "Beak", 1, ["Rust"]),
        ("Beak, 2x: ch 4, sc in 2nd ch from hook and in next 2. FO", "Beak", 2, []),
    ],
)
def test_a_part_told_in_one_line_behind_another_with_its_colour(
    told: str, name: str, made: int, shade: list[str]
) -> None:
    pattern = read(f"{_FLIPPER}Rnd 3: sc around (12)\n{told}\n")
    flipper, part = pattern.pieces
    assert [c.makes for c in flipper.courses] == [6, 12, 12]
    assert (part.name, part.make, [c.makes for c in part.courses]) == (name, made, [3])
    assert [c.text for c in part.cues if c.kind == "colour"] == shade
    assert not [c for c in flipper.cues if c.kind == "fasten"]
    assert not pattern.findings


def test_copies_told_with_the_yarn_behind_a_name() -> None:
    arms = read(f"{_FLIPPER}\nARMS. With rust, make 2.\nRnd 1: 6 sc in MR (6)\nRnd 2: sc around (6)\n").pieces[1]
    assert (arms.name, arms.make, len(arms.courses)) == ("Arms", 2, 2)


@pytest.mark.parametrize(
    ("text", "made"),
    [
        ("Pads for Taps\n\n{}Sl st in next sc. FO.\nMake a second pad in the same way. Wash in a net.\n", [("", 2)]),
        ("Mitts\n\nNotes\nThe ch 1 is no stitch. Make two, they are identical.\n\n{}FO.\n", [("Mitts", 2)]),
        ("Toy\n\nHead\n{0}\nLegs. 4 pieces. Begin with brown\n{0}\nHorns. 2 pieces. Brown\n{0}",
         [("Head", 1), ("Legs", 4), ("Horns", 2)]),
        ("Cart\n\nBed\n{0}\nWheels (make 4)\nTyre\n{0}\nHub (make 2)\n{0}", [("Bed", 1), ("Tyre", 4), ("Hub", 2)]),
    ],
)  # fmt: skip
def test_copies_behind_ahead_and_above(text: str, made: list[tuple[str, int]]) -> None:
    pieces = read(text.format("1) 6 sc in MR (6)\n2) inc x 6 (12)\n")).pieces
    assert [(p.name if name else "", p.make) for p, (name, _) in zip(pieces, made, strict=True)] == made


def test_a_word_below_copies_that_may_be_yarn_or_part_is_said() -> None:
    rounds = "R1: 6 sc in MR (6)\nR2: inc x 6 (12)\n"
    cart = read(f"Cart\n\nBed\n{rounds}\nWheels (make 4)\nOuterling\n{rounds}\nKnob (make 2)\n{rounds}")
    assert [f.code for f in cart.findings] == ["part-or-yarn"]


@pytest.mark.parametrize(
    "told",
    [
        "Body, make 1; ears, make 2",
        "Body (make 1), ears (make 2)",
        "Body, make 1 and ears, make 2",
        "Body - make one; ears - make two",
        "Ears x 2, body x 1",
        "Bear\nBody, make 1; ears, make 2",
    ],
)
def test_a_list_in_the_first_line_gives_each_part_its_own_number(told: str) -> None:
    pattern = read(f"{told}\n\nBody\nR1: 6 sc in mr (6)\nR2: inc x 6 (12)\n\nEar\nR1: 6 sc in mr (6)\n")
    assert [(p.name, p.make) for p in pattern.pieces] == [("Body", 1), ("Ear", 2)]
    assert not pattern.findings


@pytest.mark.parametrize(
    ("told", "made"),
    [
        ("Hey Mo, here's how I did the flippers (you need two of them, same thing twice):", 2),
        ("Hi Mo! This is the flipper, do it twice.", 2),
        ("Hi, flipper as promised - you'll want two", 2),
        ("Here are the flippers, you need four:", 4),
    ],
)
def test_copies_told_in_the_first_words_of_a_letter(told: str, made: int) -> None:
    piece = read(f"{told}\n\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\n").pieces[0]
    assert (piece.make, len(piece.courses)) == (made, 2)


@pytest.mark.parametrize(
    ("ahead", "make"),
    [
        ("Work two the same. They fit either hand.", 2),
        ("DK yarn, 4 mm hook. Make two.", 2),
        ("Notes: you need two of everything.", 2),
        ("Both are alike. Make two.", 2),
        ("DK yarn, 4 mm hook. Please make 2 of each.", 2),
        ("You will need two of all the parts.", 2),
        ("Make two thumbs.", 1),
        ("Work two rounds for each strip.", 1),
    ],
)
def test_a_sentence_ahead_of_several_parts_asks_for_all_of_them(ahead: str, make: int) -> None:
    pieces = read(f"PLAIN MITTENS\n{ahead}\n\nCuff\nRnd 1: 6 sc in ring (6)\n\nHand\nRnd 1: 8 sc in ring (8)\n").pieces
    assert [(p.name, p.make) for p in pieces] == [("Cuff", make), ("Hand", make)]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Fin (make 2)\nR1: 6 sc in MR (6)\nMake 4 in all.", "copies-denied"),
        ("Two fins\nMake 3\nR1: 6 sc in MR (6)", "copies-denied"),
        ("Fin (make 2) (3)\nR1: 6 sc in MR (6)", "copies-denied"),
        ("You need: 4 fins\nFin (make 2)\nR1: 6 sc in MR (6)", "copies-denied"),
        ("Fins (make 4; 1 red, 2 blue)\nR1: 6 sc in MR (6)", "copies-denied"),
        ("Fin (make -2)\nR1: 6 sc in MR (6)", "copies-unsure"),
        ("Fin (x 2 for each of the 3 birds)\nR1: 6 sc in MR (6)", "copies-unsure"),
        ("Fin\nR1: 6 sc in MR (6)\nR2: inc x 6 (12)\nMake 2 more, but stop at R1.", "copies-in-part"),
        ("Fin (make 2, mirror the second)\nR1: 6 sc in MR (6)", "for-some"),
        ("Fin\nR1: 6 sc in MR (6)\nSecond fin with colors swapped.", "for-some"),
        ("Toy\nMake all pieces twice.\nFin\nR1: 6 sc in MR (6)\nTail\nR1: 6 sc in MR (6)", "copies-ahead"),
        ("Fin -- two\nR1: 6 sc in MR (6)", "copies-unsure"),
        ("Fin (make 2+)\nR1: 6 sc in MR (6)", "copies-unsure"),
        ("Fin, 2:\nR1: 6 sc in MR (6)", "copies-unsure"),
        ("Fin (make plenty)\nR1: 6 sc in MR (6)", "copies-unsure"),
        ("Fin (2 of A, 2 of B)\nR1: 6 sc in MR (6)", "copies-unsure"),
        ("Fin (make 2, or 4 for a spider)\nR1: 6 sc in MR (6)", "copies-unsure"),
        ("Fin (make 2)\nR1: 6 sc in MR (6)\nMake one more.", "copies-unsure"),
        ("All four fins\nR1: 6 sc in MR (6)", ""),
        ("Fin (make 2)\nR1: 6 sc in MR (6)\nRepeat for the other 3 fins.", "copies-denied"),
        ("Fin\nR1: 6 sc in MR (6)\nMake two but fasten off only the second.", ""),
        ("Fin (make 2)\nR1: 6 sc in MR (5 for the second)", "for-some"),
        ("Fin\nR1: 6 sc in MR (6)\nFO. Make one more.", ""),
        ("Fin - 1\nR1: 6 sc in MR (6)", ""),
        ("+++ Fin, make 4 +++\nR1: 6 sc in MR (6)", ""),
        ("First fin\nR1: 6 sc in MR (6)\nSecond fin and tail\nR1: 6 sc in MR (6)\nNow join the two fins.", ""),
        ("Fin (make 2)\nR1: 6 sc in MR (6)\nMake 2.", ""),
        ("Fin (make 2 grey, 2 pink)\nR1: 6 sc in MR (6)", ""),
        ("Front fin (make 2)\nR1: 6 sc in MR (6)\nBack fin (make 2)\nR1: 6 sc in MR (6)\nSew all four fins on.", ""),
        ("1 Body\nR1: 6 sc in MR (6)\n2 Fins (make 4)\nR1: 6 sc in MR (6)", ""),
        ("Fins (make 4)\nR1: 6 sc in MR (6)\nSew the two fins of a side together.", ""),
    ],
)
def test_numbers_of_copies_that_deny_each_other_are_said(text: str, code: str) -> None:
    kinds = ("copies-denied", "copies-unsure", "copies-in-part", "for-some", "copies-ahead")
    said = {f.code for f in read(text).findings if f.code in kinds}
    assert said == ({code} if code else set())


@pytest.mark.parametrize(
    "words", ["with 5 instead of 6", "5 instead of 6", "all numbers doubled", "but the second in hdc", "but halved"]
)
def test_what_another_part_has_otherwise_is_said(words: str) -> None:
    found = read(f"Fin\nR1: 6 sc in MR (6)\nR2: inc x 6 (12)\n\nTail\nAs fin, {words}")
    assert any(f.code == "otherwise" for f in found.findings)


def test_more_of_a_part_that_another_names_is_said() -> None:
    parts = "Fin\nR1: 6 sc in MR (6)\n\nTail\nR1: 6 sc in MR (6)\n"
    found = read(f"{parts}Make a second fin, and while you are at it, two tails.")
    assert [f.code for f in found.findings].count("copies-denied") == 2


_BODY = "Body\nR1: 6 sc in MR (6)\n\n"


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Ear\nR1: 6 sc in MR (6)\nSew both ears on.", "copies-denied"),
        ("Ear\nR1: 6 sc in MR (6)\nTake both ears and sew them on.", "copies-denied"),
        ("Ear\nR1: 6 sc in MR (6)\nSew the four ears on.", "copies-denied"),
        ("Ear\nR1: 6 sc in MR (6)\nAttach 3 ears, evenly spaced.", "copies-denied"),
        ("Ear\nR1: 6 sc in MR (6)\nFasten off and attach the pair to the body.", "copies-denied"),
        ("Ear\nR1: 6 sc in MR (6)\n\nFinishing\nSew an ear on each side.", "copies-denied"),
        ("Ear\nR1: 6 sc in MR (6)\nSew the first ear on the left, the second one on the right.", "copies-denied"),
        ("Ear x2 x2\nR1: 6 sc in MR (6)", "copies-unsure"),
        ("Ear (make 3): one in lime, one in green\nR1: 6 sc in MR (6)", "copies-denied"),
        ("Ear\nR1: 6 sc in MR (6)\n\nAssembly: Sew the ears to the body.", "copies-plural"),
        ("Foot\nR1: 6 sc in MR (6)\nSew the feet on.", "copies-plural"),
        ("Ear\nR1: 6 sc in MR (6)\nSew ears to the body.", "copies-plural"),
        ("Ear\nR1: 6 sc in MR (6)\nSew the ear on.", ""),
        ("Ears\nR1: 6 sc in MR (6)\nSew the ears on.", ""),
        ("Ear (make 2)\nR1: 6 sc in MR (6)\nSew both ears on.", ""),
        ("Left ear\nR1: 6 sc in MR (6)\n\nRight ear\nR1: 6 sc in MR (6)\nSew both ears on.", ""),
        ("Ear (make 3): one in lime, two in green\nR1: 6 sc in MR (6)", ""),
    ],
)
def test_several_of_a_part_that_is_counted_once_are_said(text: str, code: str) -> None:
    said = {f.code for f in read(_BODY + text).findings if f.code.startswith("copies-")}
    assert said == ({code} if code else set())


@pytest.mark.parametrize("name", ["Ear no. 1 and 2", "Ears #1 & #2", "Ears 1 & 2"])
def test_numbers_of_the_copies_in_a_name_are_as_many(name: str) -> None:
    assert [p.make for p in read(f"{_BODY}{name}\nR1: 6 sc in MR (6)").pieces] == [1, 2]


@pytest.mark.parametrize(
    ("heading", "n"),
    [
        ("Leg | qty 4", 4),
        ("Leg (repeat 3 more times for 4 legs)", 4),
        ("Leg (do this again to make 2 legs)", 2),
        ("Ear no. 1 & no. 2", 2),
        ("Ear #1 and #2", 2),
        ("Ear (make second one the same)", 2),
        ("Ear (make the other one alike)", 2),
        ("Ear (mk 2)", 2),
        ("Ear (mk. 2)", 2),
        ("Ear 2 ea", 2),
        ("Ears, 2 each", 2),
        ("Ear_2x", 2),
        ("Ear_x2", 2),
        ("Wing (L) and (R)", 2),
        ("Wing (right) & (left)", 2),
        ("Scale (at least 4)", 4),
        ("FINS, two also", 2),
        ("Ears - also two", 2),
        ("Ears, two of them as well", 2),
        ("Now for the fin, of which you want two:", 2),
        ("For the arms you want two of these:", 2),
        ("Legs, 4x: green", 4),
        ("WINGS x2: gold, these are flat, ch 1 and turn each row", 2),
        ("Legs x4: they are tiny, so take the small hook", 4),
        ("Make 5 flags in red and 4 in white", 9),
    ],
)
def test_copies_asked_for_in_a_hand_of_ones_own(heading: str, n: int) -> None:
    pattern = read(f"{heading}\nR1: 6 sc in MR (6)\nR2: inc x 6 (12)")
    assert [piece.make for piece in pattern.pieces] == [n]


@pytest.mark.parametrize("heading", ["Scale (at least 4)", "Horn: you could make 2 but I only made 1"])
def test_a_number_that_is_left_open_is_said(heading: str) -> None:
    pattern = read(f"{heading}\nR1: 6 sc in MR (6)\nR2: inc x 6 (12)")
    assert "copies-open" in [f.code for f in pattern.findings]


@pytest.mark.parametrize("told", ["Rep for 2nd ear", "Rep for second ear", "Repeat for the 2nd ear."])
def test_a_second_one_in_few_words_is_made(told: str) -> None:
    assert [p.make for p in read(f"Ear\nR1: 6 sc in MR (6)\nR2: inc x 6 (12)\n{told}").pieces] == [2]


def test_a_part_called_as_a_stitch_is_with_its_copies_and_its_yarn_is_no_round() -> None:
    pattern = read("Shell, 1x: brown\nR1: 6 sc in MR (6)\nLegs, 4x: green\nR1: 5 sc in MR (5)")
    assert [(piece.name, piece.make) for piece in pattern.pieces] == [("Shell", 1), ("Legs", 4)]
    assert [cue.text for piece in pattern.pieces for cue in piece.cues] == ["Brown", "Green"]


def test_what_is_told_behind_a_name_and_its_copies_names_nothing() -> None:
    text = "BEE\nBODY\nR1: 6 sc in MR (6)\nWINGS x2: gold, these are flat, ch 1 and turn each row\nR1: 6 sc in MR (6)"
    wings = read(text).pieces[1]
    assert (wings.name, wings.make, [cue.text for cue in wings.cues]) == ("Wings", 2, ["Gold"])


@pytest.mark.parametrize(
    ("line", "n", "shade"),
    [
        ("Head in black: make as the body.", 1, "Black"),
        ("Head, black: as the body up to R2.", 1, "Black"),
        ("Head in black - as the body", 1, "Black"),
        ("Head (black): same as body", 1, "Black"),
        ("Head (black). Work as given for body.", 1, "Black"),
        ("Paw x4, pink: same as body", 4, "Pink"),
        ("Ears in pink (make 2): like the body.", 2, "Pink"),
        ("Tail: in pink, same as body", 1, "Pink"),
        ("Paws, pink, make 4: same as body", 4, "Pink"),
        ("Paw (pink, make 4): same as body", 4, "Pink"),
        ("Head: black, as body.", 1, "Black"),
        ("Head: black. As the body.", 1, "Black"),
        ("Paw - same as body, but pink", 1, "Pink"),
        ("Paw (make 4): same as body", 4, "White"),
    ],
)
def test_a_part_like_another_keeps_the_color_of_its_own(line: str, n: int, shade: str) -> None:
    other = read(f"Body (white)\nR1: 6 sc in ring (6)\nR2: inc around (12)\n\n{line}").pieces[1]
    assert (other.make, [c.makes for c in other.courses], [c.text for c in other.cues]) == (n, [6, 12], [shade])
