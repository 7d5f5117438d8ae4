"""Any generated piece, printed in any style, reads back to the same stitches."""

import json
import random
import re
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parent))

from styles import BRITISH, STYLES, Made

from hookside.notation import read


@st.composite
def pieces(draw: st.DrawFn) -> list[Made]:
    there = draw(st.integers(4, 12))
    made = [Made(1, there, 0, "", 0, 0, there)]
    for number in range(2, draw(st.integers(3, 9))):
        change = draw(st.sampled_from(["inc", "dec", ""]))
        if not change:
            made.append(Made(number, there, 0, "", 0, 0, there))
            continue
        used = 1 if change == "inc" else 2
        between = draw(st.integers(0, 6))
        most = there // (between + used)
        if most < 2 or (change == "inc" and there > 200):
            made.append(Made(number, there, 0, "", 0, 0, there))
            continue
        times = draw(st.integers(2, min(most, 12)))
        rest = there - times * (between + used)
        lead = draw(st.integers(0, rest))
        makes = there + times * (1 if change == "inc" else -1)
        made.append(Made(number, lead, between, change, times, rest - lead, makes))
        there = makes
    return made


def printed(made: list[Made], style: str) -> str:
    first = "6 dc in MR" if style in BRITISH else "6 sc in MR"
    lines = [STYLES[style](m) for m in made]
    lines[0] = lines[0].replace(
        STYLES[style](made[0]), f"Rnd 1: {first.replace('6', str(made[0].makes))} ({made[0].makes})"
    )
    head = "UK terms\n\n" if style in BRITISH else ""
    if style == "lettered":
        head = "X - single crochet, V - increase, A - decrease\n\n"
    return f"Harbour buoy\n\n{head}Body\n\n" + "\n".join(lines) + "\n"


def sums(text: str) -> list[tuple[str, int | None, int | None]]:
    return [(c.label, c.uses, c.makes) for p in read(text).pieces for c in p.courses]


def truth(made: list[Made]) -> list[tuple[str, int, int]]:
    below = [0, *(m.makes for m in made)]
    return [(str(m.number), used, m.makes) for m, used in zip(made, below, strict=False)]


@pytest.mark.parametrize("style", STYLES)
@settings(max_examples=15, deadline=None)
@given(made=pieces())
def test_printed_and_read_back(style: str, made: list[Made]) -> None:
    text = printed(made, style)
    assert sums(text) == truth(made)
    assert [f.code for f in read(text).findings if f.severity == "error"] == []


@settings(max_examples=25, deadline=None)
@given(made=pieces(), seed=st.integers(0, 10_000))
def test_stable_under_spaces_case_dashes_and_quotes(made: list[Made], seed: int) -> None:
    chance = random.Random(seed)
    text = printed(made, chance.choice(["toy", "magazine", "places", "classic", "full_words", "times_behind"]))
    swaps = {
        " ": [" ", "  ", "\u00a0", "\u2009"],
        "-": ["-", "\u2013", "\u2014", "\u2212"],
        "x": ["x", "\u00d7", "X"],
        "(": ["(", "\uff08"],
        ")": [")", "\uff09"],
    }
    head, body = text.split("Rnd 1", 1)
    change = chance.choice([str.lower, str.upper, str])
    varied = head + "Rnd 1" + "".join(chance.choice(swaps.get(c, [c])) for c in change(body))
    assert sums(varied) == truth(made)


QUOTES = [("", ""), ('"', '"'), ("\u201c", "\u201d"), ("\u2018", "\u2019"), ("\u00ab", "\u00bb"), ("\u201e", "\u201c")]


@settings(max_examples=25, deadline=None)
@given(made=pieces(), seed=st.integers(0, 10_000))
def test_stable_under_quotes_around_the_work(made: list[Made], seed: int) -> None:
    chance = random.Random(seed)
    lines = printed(made, "toy").split("\n")
    for at, line in enumerate(lines):
        if line.startswith("Rnd "):
            label, rest = line.split(": ", 1)
            work, count = rest.rsplit(" (", 1)
            left, right = chance.choice(QUOTES)
            lines[at] = f"{label}: {left}{work}{right} ({count}"
    assert sums("\n".join(lines)) == truth(made)


@settings(max_examples=20, deadline=None)
@given(made=pieces())
def test_uk_and_us_versions_compile_alike(made: list[Made]) -> None:
    british = read(printed(made, "british"))
    american = read(printed(made, "places"))
    assert (british.terms, american.terms) == ("UK", "US")
    assert [c.body for p in british.pieces for c in p.courses] == [c.body for p in american.pieces for c in p.courses]


# Section 10 of the worked examples (from the table of names in both tongues): all names exchanged in one pass.
_UK = {
    "sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "sc2tog": "dc2tog", "hdc2tog": "htr2tog", "dc2tog": "tr2tog",
    "single crochet": "double crochet", "half double crochet": "half treble", "double crochet": "treble",
    "skip": "miss",
}  # fmt: skip
_NAMES = re.compile(
    r"(?<![a-z])(?P<n>\d*)(?P<name>half double crochet|single crochet|double crochet|(?:sc|hdc|dc)2tog|sc|hdc|dc|tr|"
    r"skip)(?P<end>s?\b|(?=\d))",
    re.I,
)
COLLECTION = [
    path
    for path in sorted(Path(__file__).with_name("collection").glob("*.txt"))
    if json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))["terms"] == "US"
]


def _in_uk(match: re.Match[str]) -> str:
    name = _UK[match["name"].lower()]
    return match["n"] + (name.capitalize() if match["name"][0].isupper() else name) + match["end"]


@pytest.mark.parametrize("path", COLLECTION, ids=lambda p: p.stem)
def test_a_whole_text_reads_alike_in_uk_terms(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    american = read(text, "US")
    british = read(_NAMES.sub(_in_uk, text), "UK")
    assert [[c.body for c in p.courses] for p in british.pieces] == [
        [c.body for c in p.courses] for p in american.pieces
    ]
    assert [[(c.kind, c.after) for c in p.cues] for p in british.pieces] == [
        [(c.kind, c.after) for c in p.cues] for p in american.pieces
    ]


@pytest.mark.parametrize("path", COLLECTION, ids=lambda p: p.stem)
def test_a_whole_text_reads_alike_with_other_signs(path: Path) -> None:
    """Other line ends, blanks behind lines, wide spaces, curly quotes and long dashes change nothing."""
    text = path.read_text(encoding="utf-8")
    plain = read(text)
    curly = re.sub(r"(?<=[A-Za-z])'(?=[a-z])", "\u2019", text)
    for varied in (
        text.replace("\n", "\r\n"),
        text.replace("\n", "  \n"),
        re.sub(r"(?<=\w) (?=\w)", "\u00a0", text),
        curly,
        re.sub(r"(?<= )-(?= )", "\u2014", text),
        re.sub(r"(?<=\d)-(?=\d)", "\u2013", text),
    ):
        got = read(varied)
        assert [(p.name, p.make, [(c.label, c.uses, c.makes, c.declared) for c in p.courses]) for p in got.pieces] == [
            (p.name, p.make, [(c.label, c.uses, c.makes, c.declared) for c in p.courses]) for p in plain.pieces
        ]
        assert [[(c.kind, c.after) for c in p.cues] for p in got.pieces] == [
            [(c.kind, c.after) for c in p.cues] for p in plain.pieces
        ]


def test_a_disc_of_n_rounds_of_six() -> None:
    """Round k of a disc has 6k stitches and n rounds 3n(n + 1) in all (section 1 of the worked examples)."""
    made = [Made(1, 6, 0, "", 0, 0, 6)] + [Made(k, 0, k - 2, "inc", 6, 0, 6 * k) for k in range(2, 21)]
    for style in STYLES:
        got = [m for _, _, m in sums(printed(made, style))]
        assert got == [6 * k for k in range(1, 21)], style
        assert sum(m or 0 for m in got) == 3 * 20 * 21
