"""Bodies of single courses: tokens, phrases, tree and arithmetic together."""

from pathlib import Path

import pytest

from hookside.notation.arithmetic.choosing import choose
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.bodies.phrases import Gatherer, gather
from hookside.notation.bodies.tokens import Dictionary, tokens
from hookside.notation.page.cleaning import clean
from hookside.notation.trees.building import build
from hookside.pattern import Group, length, makes, uses

LINES = [
    line.split("|")
    for line in (Path(__file__).parent / "bodies.txt").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]


def read_body(there: str, body: str):
    """A body on its ground -> the reading chosen."""
    phrases = gather(clean(body).text, Dictionary("US"))
    assert not phrases.unknown
    tree = build(phrases, {})
    assert not tree.failed
    stitches = int(there) if there.isdigit() else None
    ground = Ground(
        stitches,
        int(there[1:]) if there[0] == "c" else 0,
        stitches is None,
        phrases.counts[0][0] if phrases.counts else None,
        phrases.unworked or phrases.elsewhere,
        phrases.counts_as,
    )
    return choose(tree, ground, {})


@pytest.mark.parametrize(("there", "body", "used", "made"), LINES, ids=[line[1] for line in LINES])
def test_body(there: str, body: str, used: str, made: str) -> None:
    chosen = read_body(there, body)
    assert chosen.fits
    assert (chosen.reading.uses, chosen.reading.makes) == (int(used), int(made))
    assert (uses(chosen.reading.body), makes(chosen.reading.body)) == (int(used), int(made))


# Round arithmetic, section 2 of the worked examples (sums there computed from the Craft Yarn Council list).
@pytest.mark.parametrize(
    ("there", "body", "used", "made"),
    [
        (6, "inc x6", 6, 12),
        (12, "(sc, inc) x6", 12, 18),
        (18, "(2 sc, inc) x6", 18, 24),
        (24, "(2 sc, dec) x6", 24, 18),
        (36, "(4 sc, dec) x6", 36, 30),
        (12, "dec x6", 12, 6),
        (30, "sc in each st", 30, 30),
        (18, "(sc, inc) x6, sc in next 6", 18, 24),
        (18, "(2 sc, inc) x5", 15, 20),
    ],
)
def test_round_arithmetic(there: int, body: str, used: int, made: int) -> None:
    chosen = read_body(str(there), body)
    assert (chosen.reading.uses, chosen.reading.makes) == (used, made)


def test_inc_x_6_is_one_group_and_a_bracket_is_a_repeat() -> None:
    (group,) = read_body("6", "inc x 6").reading.body
    assert (group.type, group.stitch, group.count, group.steps) == ("group", "inc", 6, 2)
    (repeat,) = read_body("12", "(sc, inc) x 6").reading.body
    assert (repeat.type, repeat.times, length([repeat])) == ("repeat", 6, 18)


def test_all_into_one_stitch_uses_one() -> None:
    body = read_body("1", "(sc, hdc, dc) in next st").reading.body
    assert [(g.stitch, g.uses, g.into) for g in body if isinstance(g, Group)] == [
        ("sc", 1, None),
        ("hdc", 0, "same st"),
        ("dc", 0, "same st"),
    ]


def test_loops_and_colours_reach_their_groups() -> None:
    body = read_body("21", "In BLO, (A) 9 sc, (B) 12 sc").reading.body
    assert [(g.count, g.loops, g.colour) for g in body if isinstance(g, Group)] == [(9, "back", "A"), (12, "back", "B")]


def test_tokens_split_what_is_glued() -> None:
    found = tokens("2sc, inc x6, sc2tog, 2nd ch", Dictionary("US"))
    assert [(t.kind, t.key or t.text) for t in found if t.kind != "sign"] == [
        ("number", "2"),
        ("stitch", "sc"),
        ("stitch", "inc"),
        ("word", "x"),
        ("number", "6"),
        ("stitch", "sc2tog"),
        ("ordinal", "2"),
        ("stitch", "ch"),
    ]


def test_at_most_64_readings() -> None:
    tree = build(gather("(sc, inc), " * 12 + "sc", Dictionary("US")), {})
    assert len(tree.choices) == 12
    chosen = choose(tree, Ground(500), {})
    assert not chosen.fits
    assert chosen.bounded


def test_no_file_of_the_chain_takes_the_name_of_another() -> None:
    """A method of the same name in two of them would be one of them for both, and nothing would say so."""
    told = [name for kind in Gatherer.__mro__[:-1] for name in vars(kind) if not name.startswith("__")]
    assert sorted({name for name in told if told.count(name) > 1}) == []
