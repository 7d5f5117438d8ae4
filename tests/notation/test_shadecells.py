"""The colour that a table names behind the work of a row is the colour of that row, from its first stitch."""

import pytest

from hookside.compile import read
from hookside.pattern import Group

ROWS = [
    ("1", "6 sc in magic ring", "6"),
    ("2", "inc x 6", "12"),
    ("3", "(1 sc, inc) x 6", "18"),
    ("4", "sc around", "18"),
    ("5", "sc around", "18"),
]


def changes(text: str) -> list[tuple[str, str]]:
    """(the round before, its words) of each cue of colour."""
    return [(cue.after, cue.text) for p in read(text).pieces for cue in p.cues if cue.kind == "colour"]


def table(comma: str, title: str, shades: list[str], behind: str = "") -> str:
    tail = [behind] if behind else []
    rows = [["Rnd", "Work", "Sts", title, *tail]]
    rows += [[*row, shade, *("" for _ in tail)] for row, shade in zip(ROWS, shades, strict=True)]
    return "Fish\n\nBody\n\n" + "\n".join(comma.join(row) for row in rows) + "\n"


@pytest.mark.parametrize("comma", ["\t", " | "])
@pytest.mark.parametrize("title", ["Colour", "Yarn", "Color"])
@pytest.mark.parametrize("shades", [["grey", "grey", "white", "white", "grey"], ["A", "A", "B", "B", "A"]])
def test_a_colour_behind_the_work_begins_with_its_row(comma: str, title: str, shades: list[str]) -> None:
    pattern = read(table(comma, title, shades))
    (body,) = pattern.pieces
    assert [c.makes for c in body.courses] == [6, 12, 18, 18, 18]
    told = [(after, text.lower().strip(".").split()[-1]) for after, text in changes(table(comma, title, shades))]
    assert told == [("0", shades[0].lower()), ("2", shades[2].lower()), ("4", shades[4].lower())]


def test_an_empty_cell_goes_on_in_the_same_colour() -> None:
    assert [after for after, _ in changes(table("\t", "Colour", ["grey", "", "white", "", ""]))] == ["0", "2"]


def test_stitches_that_name_their_colours_need_no_cell() -> None:
    text = table("\t", "Colour", ["grey", "grey", "grey", "grey/black", "grey"])
    text = text.replace("4\tsc around", "4\t9 sc grey, 9 sc black")
    body = read(text).pieces[0]
    stitches = [node.colour for node in body.courses[3].body if isinstance(node, Group)]
    assert stitches == ["grey", "black"]


def test_a_mend_offered_beside_such_a_cell_is_the_work() -> None:
    text = table("\t", "Colour", ["grey"] * 5).replace("sc around\t18\tgrey\n5", "(1 sc, dec) x 5\t12\tgrey\n5")
    told = [fix.label for f in read(text).findings for fix in f.suggestions]
    assert told
    assert not any("(grey)," in label for label in told)


@pytest.mark.parametrize("comma", ["\t", "|", " | "])
def test_a_note_on_how_a_row_begins_stands_before_its_work(comma: str) -> None:
    text = table(comma, "Notes", ["start in grey", "", "", "BLO", "stuff before starting"])
    (body,) = read(text).pieces
    assert [c.makes for c in body.courses] == [6, 12, 18, 18, 18]
    loops = [isinstance(c.body[0], Group) and c.body[0].loops for c in body.courses]
    assert loops[3:] == ["back", None]
    assert [(c.kind, c.after) for c in body.cues if c.kind in ("colour", "stuff")] == [("colour", "0"), ("stuff", "4")]


@pytest.mark.parametrize(
    ("comma", "columns"),
    [(comma, c) for comma in ("|", " | ") for c in ("RWCN", "RNWC", "RWNC", "RCWN")]
    + [(comma, c) for comma in ("\t", ";") for c in ("RWCN", "RNWC")],
)
def test_a_column_of_notes_heads_no_part_and_loses_no_job(comma: str, columns: str) -> None:
    notes = {"3": "ears go here", "4-6": "eyes after R5", "7": "stuff first"}
    work = [("1", "6 sc in mr", "6"), ("2", "inc x 6", "12"), ("3", "(sc, inc) x 6", "18"), ("4-6", "sc around", "18")]
    rows = [dict(zip("RWC", row, strict=True), N=notes.get(row[0], "")) for row in [*work, ("7", "dec x 9", "9")]]
    head = {"R": "Rnd", "W": "Work", "C": "Sts", "N": "Notes"}
    edge = "|" if "|" in comma else ""
    lines = [f"{edge}{comma.join(row[c] for c in columns)}{edge}" for row in [head, *rows]]
    (body,) = read("Bee\n" + "\n".join(lines) + "\n").pieces
    assert [c.makes for c in body.courses] == [6, 12, 18, 18, 18, 18, 9]
    told = {(c.after, c.text) for c in body.cues if c.basis == "written"}
    assert {("3", "Ears go here"), ("6", "Stuff first")} <= told
    assert any("yes after R5" in text for _, text in told)
