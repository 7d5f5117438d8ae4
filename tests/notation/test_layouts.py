"""Pages laid out in many ways: which pieces, which courses with which counts, which cues after which course.

`layouts.txt` holds the samples (all invented: demo). A block is "== name", the text, "--", and one line for each
piece: "Name x2: 1=6 2=12; 2 stuff; 2 fasten", where "x2" are the copies, "1=6" is course 1 with 6 stitches and
"2 stuff" is a cue of that kind after course 2. "?" stands for a course left to the maker.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from hookside.notation import read
from hookside.pattern import Pattern

SAMPLES = Path(__file__).with_name("layouts.txt")


def samples() -> list[tuple[str, str, list[str]]]:
    """(name, text, the line of each piece)."""
    found = []
    for block in re.split(r"^== ", SAMPLES.read_text(encoding="utf-8"), flags=re.M)[1:]:
        name, rest = block.split("\n", 1)
        text, truth = rest.split("\n--\n")
        found.append((name, text + "\n", truth.strip().split("\n")))
    return found


def told(pattern: Pattern) -> list[str]:
    """A reading in the short form of the samples."""
    out = []
    for piece in pattern.pieces:
        head = piece.name + (f" x{piece.make}" if piece.make > 1 else "")
        courses = " ".join(f"{c.label}={c.makes if c.makes is not None else '?'}" for c in piece.courses)
        out.append("; ".join([f"{head}: {courses}".rstrip() if courses else f"{head}: ",
                              *(f"{c.after} {c.kind}" for c in piece.cues)]))
    return out


@pytest.mark.parametrize(("name", "text", "truth"), samples(), ids=[s[0] for s in samples()])
def test_layout(name: str, text: str, truth: list[str]) -> None:
    pattern = read(text)
    assert told(pattern) == truth, name
    assert not [f.message for f in pattern.findings if f.severity == "error"]


@pytest.mark.parametrize(
    ("line", "hook"),
    [
        ("Materials: yarn blue, white, hook 2, filler, eyes 2 pcs 5 mm", "hook 2"),
        ("Materials: 8 mm eyes, 3,5 mm hook, stuffing", "3,5 mm hook"),
        ("Materials: white DK, size G hook and 9 mm eyes", "size G hook"),
        ("Materials: 3.5 mm hook and 2 beads", "3.5 mm hook"),
    ],
)
def test_the_size_of_eyes_is_not_the_hooks(line: str, hook: str) -> None:
    assert read(f"Whale\n{line}\n\nBody\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\n").hook == hook


def test_what_stands_under_a_gauge_and_is_none_is_a_material() -> None:
    text = "Buoy\nGauge: 5 sts = 1 in\n{line}\n\nBuoy\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\n"
    for line in ("Worsted yarn in red and white, stuffing", "A 4 mm hook", "Polyester stuffing"):
        assert (read(text.format(line=line)).gauge, read(text.format(line=line)).materials) == ("5 sts = 1 in", [line])
    assert read(text.format(line="with a 4 mm hook")).gauge == "5 sts = 1 in with a 4 mm hook"


def test_headings_in_capitals_need_no_sign_behind_them() -> None:
    leaflet = read(
        "QUAYSIDE LEAFLET No. 14\nTug boat\n\n"
        "MATERIALS  1 x 50 g ball Double Knitting in Red. 3.00 mm crochet hook. Washable filling.\n"
        "TENSION 11 dc and 12 rnds to 5 cm.\nABBREVIATIONS dc = double crochet; ch = chain.\n"
        "NOTE Mark the first st.\n\n"
        "HULL\n1st rnd: make 2 ch, 6 dc into 2nd ch from hook. 6 dc.\n2nd rnd: 2 dc into each dc. 12 dc.\n"
    )
    assert (leaflet.title, leaflet.notes) == ("Tug boat", ["QUAYSIDE LEAFLET No. 14", "Mark the first st."])
    assert (leaflet.hook, leaflet.gauge) == ("3.00 mm crochet hook", "11 dc and 12 rnds to 5 cm.")
    assert leaflet.materials == ["1 x 50 g ball Double Knitting in Red. 3.00 mm crochet hook. Washable filling."]
    assert leaflet.abbreviations["dc"] == "double crochet"
    assert [(course.label, course.makes) for course in leaflet.pieces[0].courses] == [("1", 6), ("2", 12)]


def test_a_name_spelled_out_in_brackets_leaves_no_half_of_them() -> None:
    """ "MB (make bobble): (yrh, ...)": what is shown of it has its brackets in pairs."""
    text = "Badger\n\nSpecial stitch\nMB (make bobble): (yrh, draw a loop through) 5 times, yrh and through all.\n\n"
    told = read(text + "Body\nRnd 1: 6 dc in MR (6)\nRnd 2: (MB, 1 dc) x 3 (6)\n").abbreviations["MB"]
    assert told.startswith("make bobble: (yrh, draw a loop through) 5 times")
    assert told.count("(") == told.count(")")


def test_a_title_in_capitals_is_no_section() -> None:
    assert read("STITCH A GULL in an hour\n\nBODY\nRnd 1: 6 sc in MR (6)\n").title == "STITCH A GULL in an hour"
