"""Our own patterns read without findings, and every count is as worked out by hand.

The tables were written beside the patterns with pencil arithmetic, without the reader: for each course the stitches
it uses and the stitches it makes. Where a published figure exists it is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from hookside.compile import Choices, lay, read
from hookside.follow import flaws
from hookside.pattern import Group, Node, Pattern, Piece, length
from hookside.stitches import TABLE

FOLDER = Path(__file__).resolve().parents[2] / "patterns"


@dataclass(frozen=True)
class Worked:
    """A piece by hand: the chain it starts with (0: a magic ring) and what each numbered course makes, in order.

    A course uses what the one before it made, so the makes are the whole table.
    """

    make: int
    kind: str
    chain: int
    makes: list[int]


def n(count: int, times: int) -> list[int]:
    return [count] * times


BY_HAND: dict[str, dict[str, Worked]] = {
    "striped-buoys": {
        # disc of 6 rounds, 3 x 3 plain, then the tip: 36 30 24 24 18 18 12 12 6
        "BUOY": Worked(5, "round", 0, [6, 12, 18, 24, 30, 36, *n(36, 9), 30, 24, 24, 18, 18, 12, 12, 6]),
        "ROPE LOOP": Worked(5, "row", 21, [20]),
    },
    "harbor-skiff": {
        # oval on 11 chains: 2 x 11 = 22, then 6 more a round (arithmetic of the oval start); two rounds with 2 more
        "Hull": Worked(1, "round", 11, [22, 28, 34, 40, 40, 40, 40, 42, 44, 44, 44]),
        "Seat": Worked(2, "row", 9, n(8, 3)),
    },
    "signal-pennant": {
        "Pennant": Worked(
            1, "row", 25,
            [*n(24, 12), *n(22, 4), *n(20, 4), *n(18, 4), *n(16, 4), *n(14, 4), *n(12, 4), *n(10, 4)],
        ),
    },
    "kelp-frond": {
        # 12 chains: 11 up one side, 3 in the tip, 11 down the other; then 1 more at the foot twice and 3 at the tip
        "BLADE": Worked(3, "round", 13, [25, 30]),
        "FLOAT": Worked(3, "round", 0, [6, 12, 12, 12, 6]),
        "STEM": Worked(1, "row", 41, [40]),
    },
    "seal-pup": {
        "BODY": Worked(
            1, "round", 0,
            [6, 12, 12, 18, 24, 30, *n(30, 4), 24, 24, 30, 36, *n(36, 6), 30, 30, 30, 24, 24, 24, 18, 18, 12, 12, 6],
        ),
        "FLIPPERS": Worked(2, "round", 0, [6, 8, 10, 12, *n(12, 4), 10]),
        "TAIL": Worked(1, "round", 0, [6, 12, 18]),
    },
}  # fmt: skip

# Where each job is due: course it follows, or course and stitch, by hand.
CUES: dict[str, dict[str, list[tuple[str, int | None, str]]]] = {
    "striped-buoys": {
        "BUOY": [
            ("9", 35, "colour"), ("12", 35, "colour"), ("15", 35, "colour"), ("19", None, "stuff"),
            ("22", None, "stuff"), ("23", None, "fasten"), ("23", None, "close"),
        ],
    },
    "seal-pup": {"BODY": [("12", None, "stuff"), ("27", None, "stuff"), ("30", None, "stuff"), ("31", None, "close")]},
    "kelp-frond": {"FLOAT": [("4", None, "stuff"), ("5", None, "close")], "BLADE": [("2", None, "fasten")]},
    "signal-pennant": {
        "Pennant": [
            ("6", None, "other"), ("7", None, "other"), ("20", 19, "colour"), ("28", 15, "colour"),
            ("40", None, "fasten"),
        ],
    },
    "harbor-skiff": {
        "Hull": [
            ("4", None, "other"), ("5", None, "other"), ("10", 44, "colour"), ("11", None, "fasten"),
            ("11", None, "weave"),
        ],
    },
}  # fmt: skip

# Yarn: by pattern and colour, the rounds and rows worked in it (None: the whole piece), metres in 100 g as printed, and
# the grams the list of materials asks for. The yarns are invented (demo).
YARN: list[tuple[str, str, list[tuple[str, range | None]], int, float]] = [
    ("striped-buoys", "35 g", [("BUOY", range(1, 10)), ("BUOY", range(13, 16)), ("ROPE LOOP", None)], 230, 35),
    ("striped-buoys", "25 g", [("BUOY", range(10, 13)), ("BUOY", range(16, 24))], 230, 25),
    ("harbor-skiff", "10 g brown", [("Hull", range(1, 11))], 170, 10),
    ("harbor-skiff", "4 g cream", [("Hull", range(11, 12)), ("Seat", None)], 170, 4),
    ("signal-pennant", "12 g of colour A", [("Pennant", range(1, 21)), ("Pennant", range(29, 41))], 210, 12),
    ("signal-pennant", "3 g of colour B", [("Pennant", range(21, 29))], 210, 3),
    ("kelp-frond", "6 g dark green", [("BLADE", None), ("STEM", None)], 230, 6),
    ("kelp-frond", "4 g light green", [("FLOAT", None)], 230, 4),
    ("seal-pup", "12 g gray", [("BODY", None), ("FLIPPERS", None), ("TAIL", None)], 320, 12),
]  # fmt: skip

NAMES = sorted(path.stem for path in FOLDER.glob("*.txt"))


def text_of(name: str) -> str:
    return (FOLDER / f"{name}.txt").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def read_all() -> dict[str, Pattern]:
    return {name: read(text_of(name)) for name in NAMES}


def piece_of(pattern: Pattern, name: str) -> Piece:
    (piece,) = [p for p in pattern.pieces if p.name.lower() == name.lower()]
    return piece


def test_every_pattern_has_its_table() -> None:
    assert sorted(BY_HAND) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_reads_without_findings(name: str, read_all: dict[str, Pattern]) -> None:
    assert [(f.line, f.severity, f.message) for f in read_all[name].findings] == []


@pytest.mark.parametrize(("name", "piece"), [(name, piece) for name in BY_HAND for piece in BY_HAND[name]])
def test_counts_are_as_worked_by_hand(name: str, piece: str, read_all: dict[str, Pattern]) -> None:
    by_hand, found = BY_HAND[name][piece], piece_of(read_all[name], piece)
    assert found.make == by_hand.make
    assert {course.kind for course in found.courses} == {by_hand.kind}
    chains = [group for group in found.courses[0].body[:1] if isinstance(group, Group) and group.stitch == "ch"]
    assert length([*chains]) == by_hand.chain, "the first course begins with the chain it is worked into"
    numbered = found.courses
    assert [course.label for course in numbered] == [str(i) for i in range(1, len(by_hand.makes) + 1)]
    assert [course.makes for course in numbered] == by_hand.makes
    assert [course.declared for course in numbered] == by_hand.makes
    assert [course.uses for course in numbered][1:] == by_hand.makes[:-1], "each works into the whole of the one before"
    assert all(course.read for course in found.courses)


@pytest.mark.parametrize("name", NAMES)
def test_only_courses_with_a_table_are_read(name: str, read_all: dict[str, Pattern]) -> None:
    with_courses = [p.name.lower() for p in read_all[name].pieces if p.courses]
    assert with_courses == [piece.lower() for piece in BY_HAND[name]]


@pytest.mark.parametrize(("name", "piece"), [(name, piece) for name in CUES for piece in CUES[name]])
def test_jobs_are_due_where_the_hands_need_them(name: str, piece: str, read_all: dict[str, Pattern]) -> None:
    found = [(cue.after, cue.at, cue.kind) for cue in piece_of(read_all[name], piece).cues]
    assert [due for due in CUES[name][piece] if due not in found] == []


@pytest.mark.parametrize("name", NAMES)
def test_stuffing_and_closing_stop_the_work(name: str, read_all: dict[str, Pattern]) -> None:
    weights = {(c.kind, c.weight) for p in read_all[name].pieces for c in p.cues if c.kind in ("stuff", "close")}
    assert {weight for _, weight in weights} <= {"stop"}


@pytest.mark.parametrize("name", NAMES)
def test_a_section_of_sewing_up_follows_the_pieces(name: str, read_all: dict[str, Pattern]) -> None:
    last = read_all[name].pieces[-1]
    assert last.courses == []
    kinds = {cue.kind for cue in last.cues}
    assert "weave" in kinds
    assert kinds & {"sew", "close"}


@pytest.mark.parametrize("name", NAMES)
def test_terms_materials_hook_gauge(name: str, read_all: dict[str, Pattern]) -> None:
    pattern = read_all[name]
    assert pattern.terms == ("UK" if name == "signal-pennant" else "US")
    assert pattern.title.lower().replace(" ", "-").endswith(name.split("-", 1)[1])
    assert pattern.hook
    assert pattern.gauge
    assert pattern.materials
    assert pattern.notes
    assert {"st", "ch", "sc", "dc", "inc", "st(s)"} & set(pattern.abbreviations)


@pytest.mark.parametrize("name", NAMES)
def test_strands_lie_sound(name: str, read_all: dict[str, Pattern]) -> None:
    for terms in ("US", "UK"):
        laid = lay(read_all[name], text_of(name), Choices(terms=terms))
        assert all(flaws(one.strand) == [] for one in laid)
        copies = [one for one in laid if one.run.startswith("p1.")]
        assert len(copies) == next(iter(BY_HAND[name].values())).make
        assert len({one.strand.id for one in copies}) == 1


def in_single_crochet(body: list[Node]) -> float:
    """The yarn in a body, told in single crochet; the proportions are the stitch table's."""
    total = 0.0
    for node in body:
        if isinstance(node, Group):
            total += node.count * TABLE[node.stitch].yarn if node.stitch in TABLE else 0
        else:
            total += node.times * in_single_crochet(node.body) * TABLE["sc"].yarn
    return total / TABLE["sc"].yarn


@pytest.mark.parametrize(("name", "printed", "worked", "metres", "grams"), YARN, ids=[f"{y[0]} {y[1]}" for y in YARN])
def test_the_yarn_asked_for_is_enough_and_not_three_balls(
    name: str, printed: str, worked: list[tuple[str, range | None]], metres: int, grams: float,
    read_all: dict[str, Pattern],
) -> None:  # fmt: skip
    """2.5 to 3.3 cm in a single crochet of such yarns, and 0.3 to 0.6 m of tails a piece (common practice, no source).

    The most it can take is covered; what is over is at most half of that again, and a gram.
    """
    assert printed in text_of(name)
    assert f"{metres} m" in text_of(name) or f"50 g = {metres // 2} m" in text_of(name)
    least = most = 0.0
    for piece_name, labels in worked:
        piece = piece_of(read_all[name], piece_name)
        stitches = sum(in_single_crochet(c.body) for c in piece.courses if labels is None or int(c.label) in labels)
        least += piece.make * (stitches * 0.025 + 0.3)
        most += piece.make * (stitches * 0.033 + 0.6)
    assert least / metres * 100 < most / metres * 100 <= grams <= 1.5 * most / metres * 100 + 1


def test_the_disc_of_six_increases_a_round(read_all: dict[str, Pattern]) -> None:
    """Round n of a flat disc makes 6n stitches, 3n(n + 1) in all after n rounds.

    6, 12, 18, 24, 30, 36: printed in mamas2hands 2017 and ahooka.com 2014.
    """
    disc = [course.makes for course in piece_of(read_all["striped-buoys"], "BUOY").courses[:6]]
    assert disc == [6, 12, 18, 24, 30, 36]
    for rounds in range(1, 7):
        assert disc[rounds - 1] == 6 * rounds
        assert sum(m or 0 for m in disc[:rounds]) == 3 * rounds * (rounds + 1)


def test_the_kelp_float_is_the_everyday_ball_of_two(read_all: dict[str, Pattern]) -> None:
    """6 .. 6n, n plain rounds, 6(n - 1) .. 6: 3n - 1 rounds, 12 n^2 stitches (arithmetic of the trade's usual ball)."""
    ball = [course.makes or 0 for course in piece_of(read_all["kelp-frond"], "FLOAT").courses]
    assert len(ball) == 3 * 2 - 1
    assert sum(ball) == 12 * 2**2


def test_a_spiral_is_a_spiral_and_a_join_a_join(read_all: dict[str, Pattern]) -> None:
    buoy = piece_of(read_all["striped-buoys"], "BUOY").courses
    hull = piece_of(read_all["harbor-skiff"], "Hull").courses
    assert all(course.spiral for course in buoy[:-1])
    assert not any(course.spiral for course in hull[1:-1])
    assert [course.label for course in buoy if course.plain][:9] == [str(i) for i in range(7, 16)]


def test_small_parts_are_cautioned(read_all: dict[str, Pattern]) -> None:
    """Floats fit a small-parts cylinder of 31.7 mm (16 CFR 1501.4); the seal's face is embroidered, and it says why."""
    assert any("small part" in note for note in read_all["kelp-frond"].notes)
    assert any("small part" in note for note in read_all["seal-pup"].notes)
