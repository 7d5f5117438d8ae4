"""Why a line that looks like a heading is none, by the reason that the trace tells. All samples are demo."""

import pytest

from hookside.notation.lines.refusals.table import REASONS
from hookside.notation.reader import trace

HEAD = "HEAD\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\n"
ON = "Rnd 3: sc around (12)\n"
SAMPLES = {
    "Little Harbour Gull": ("it is the title", "{}\n\n" + HEAD + ON),
    "Needle method description:": ("it stands in a list", "Gull\n\nMaterials\nGrey wool, a needle\n\n{}\n\n" + HEAD),
    "Starting at the beak with white": ("it tells where the part begins", "Gull\n\nHEAD\n{}\nRnd 1: 6 sc in MR (6)\n"),
    "Cheeks: pink thread, three stitches under each eye.": (
        "it tells of a thing between two rounds",
        HEAD + "{}\n" + ON,
    ),
    "Navy:": ("it is a colour", HEAD + "{}\n" + ON),
    "Eyes after R2": ("it tells where a thing goes on the rounds", HEAD + "{}\n" + ON),
    "Arms from R2": ("it tells where a thing goes on the rounds", HEAD + "{}\n" + ON),
    "Back to red!": ("it tells of a colour", HEAD + "{}\n" + ON),
    "Snout on.": ("it is a job", HEAD + "{}\n" + ON),
    "Beak!": ("it tells in a word what is done between two rounds", HEAD + "\n{}\n\n" + ON),
    "Tail starts here": ("it tells of a part that the rounds go over into", HEAD + "{}\n" + ON),
    "Head: hd": ("it explains an abbreviation", "Abbreviations\nsc: single crochet\n{}\nRnd 1: 6 sc in MR (6)\n"),
    "Harbour Lights": ("it names no part, and no round follows", HEAD + "\n{}\nIt is late.\n"),
}


@pytest.mark.parametrize("line", SAMPLES)
def test_the_trace_says_why_a_line_is_no_heading(line: str) -> None:
    why, text = SAMPLES[line]
    assert why in REASONS
    pattern, stages = trace(text.format(line))
    told = [str(stage.result) for stage in stages if stage.stage == "line" and stage.text == line]
    assert [result.partition("; no heading: ")[2] for result in told] == [why]
    assert line not in [piece.name for piece in pattern.pieces][1:]
