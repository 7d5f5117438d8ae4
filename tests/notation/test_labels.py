"""Course labels in the dresses they are printed in."""

import pytest

from hookside.notation import read

BODIES = [
    ("6 sc in MR", 6),
    ("inc x 6", 12),
    ("(sc, inc) x 6", 18),
    ("sc around", 18),
    ("sc around", 18),
    ("(sc, dec) x 6", 12),
]
TRUTH = [(str(n), made) for n, (_, made) in enumerate(BODIES, 1)]

LABELS = [
    "Rnd {}: ",
    "Rnd {} - ",
    "Rnd {}. ",
    "Rnd {}) ",
    "Rnd {} ",
    "Rnd{}: ",
    "RND {}: ",
    "Round {} \u2013 ",
    "R{}: ",
    "R{} ",
    "R{}. ",
    "R{} - ",
    "R{}- ",
    "R{}) ",
    "r{}: ",
    "{}. ",
    "{}) ",
    "{}: ",
    "{} - ",
    "({}) ",
    "#{}: ",
    "Rd {}: ",
    "[Rnd {}] ",
    "(Rnd {}) ",
    "**Rnd {}:** ",
    "**{}.** ",
    "<b>R{}</b> ",
    "- Rnd {}: ",
    "\u2022 Round {}: ",
    "* R{}: ",
    "> Rnd {}: ",
    "Rnd no. {}: ",
    "{}th rnd: ",
    "{}. rnd: ",
    "Rnd {} (RS): ",
    "{}\t",
    "Round {}:\n",
    "R{}\n",
    "{}.",
    "R{}:",
    "Rnd {}, ",
    "Rnd {} -- ",
    "Round number {}: ",
]
RANGES = [
    "Rnds 4-5: ",
    "Rnd 4-5: ",
    "Rnds 4 - 5: ",
    "Rnds 4 to 5: ",
    "Rnds 4 and 5: ",
    "Rnds 4 & 5: ",
    "Rnds 4, 5: ",
    "R4-R5: ",
    "R4-5 ",
    "4-5. ",
    "4 - 5) ",
    "4-5: ",
    "Rnds 4\u20135 (2 rounds): ",
    "Rnds 4-5 [2 rnds]: ",
    "Rnd 4 to Rnd 5: ",
    "Rounds 4 through 5: ",
    "4th and 5th rnds: ",
    "4th-5th rnd: ",
    "Rnds 4+5: ",
    "Rnd 4-5 - ",
    "Rnds 4-5\n",
    "Next 2 rnds: ",
    "R4 & R5: ",
]
COUNTS = [
    " ({})",
    " [{}]",
    " - {} sts",
    " = {}",
    " {{{}}}",
    " <{}>",
    ", {} sts",
    ". {} sts",
    " ({} sts)",
    " \u2192 {}",
    " {} sts",
    " ({} stitches total)",
    " \u2013 you have {} sts",
    " ({}sc)",
    ". ({})",
    " (total {})",
    " /{}/",
]


def courses(text: str) -> list[tuple[str, int | None]]:
    return [(c.label, c.makes) for p in read(text).pieces for c in p.courses]


@pytest.mark.parametrize("label", LABELS)
def test_label(label: str) -> None:
    text = "Harbour buoy\n\nBody\n\n" + "".join(
        label.format(n) + f"{body} ({made})\n" for n, (body, made) in enumerate(BODIES, 1)
    )
    assert courses(text) == TRUTH
    assert not read(text).findings


@pytest.mark.parametrize(
    "label",
    ["Rnd {}: ", "Rnd {} - ", "Round {} \u2013 ", "R{}: ", "R{}- ", "{}. ", "{}) ", "({}) ", "[Rnd {}] ", "{}th rnd: "],
)
@pytest.mark.parametrize("between", [" ", ". "])
def test_a_whole_pattern_in_one_paragraph(label: str, between: str) -> None:
    text = (
        "Harbour buoy. Body. "
        + between.join(label.format(n) + f"{body} ({made})" for n, (body, made) in enumerate(BODIES, 1))
        + ". Fasten off."
    )
    assert courses(text) == TRUTH


@pytest.mark.parametrize("label", RANGES)
@pytest.mark.parametrize("body", ["sc in each st around", "18 sc", "sc around"])
def test_a_range_is_one_course_each(label: str, body: str) -> None:
    text = f"Buoy\n\nBody\n\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n{label}{body} (18)\nRnd 6: (sc, dec) x 6 (12)\n"  # noqa: E501
    assert courses(text) == TRUTH
    assert not read(text).findings


@pytest.mark.parametrize("count", COUNTS)
def test_printed_count(count: str) -> None:
    text = "Buoy\n\nBody\n\n" + "".join(
        f"Rnd {n}: {body}{count.format(made)}\n" for n, (body, made) in enumerate(BODIES, 1)
    )
    pattern = read(text)
    assert [(c.label, c.makes, c.declared) for p in pattern.pieces for c in p.courses] == [
        (label, made, made) for label, made in TRUTH
    ]
    assert not pattern.findings
