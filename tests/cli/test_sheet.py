"""What a job says on paper, where no bench stands beside it."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from hookside.cli import main
from hookside.cli.sheet import job_words

# demo
SEAL = (
    "Grey Seal\nUS terms\n\nBody\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
    "Rnds 4-6: sc around (18)\nPlace the eyes between rounds 4 and 5, 3 stitches apart.\nStuff.\n"
    "Rnd 7: (sc, dec) x 6 (12)\nRnd 8: dec x 6 (6)\nFasten off and close.\n\nAssembly\n"
    "Sew the first flipper to the body at round 5 and the second one opposite, 9 stitches further.\n"
)


@pytest.mark.parametrize(
    ("short", "text", "basis", "said"),
    [
        ("Eyes in", "Eyes between 5 and 6, 7 sts apart.", "written", "Eyes in: “Eyes between 5 and 6, 7 sts apart.”"),
        ("Sew the legs on", "Sew the legs on at round 5.", "written", "Sew the legs on at round 5."),
        ("Stuff firmly", "Stuff firmly.", "written", "Stuff firmly"),
        ("Stuff now", "Stuff while fingers fit.", "worked out", "Stuff now"),
        ("", "Weave in.", "written", "Weave in."),
    ],
)  # demo
def test_the_designers_sentence_stands_with_the_short_words(short: str, text: str, basis: str, said: str) -> None:
    assert job_words({"words": {"short": short}, "text": text, "basis": basis}) == said


def test_what_says_where_things_go_is_on_the_sheet(tmp_path: Path) -> None:
    text, sheet = tmp_path / "seal.txt", tmp_path / "seal.html"
    text.write_text(SEAL, encoding="utf-8")
    done = CliRunner().invoke(main, ["paper", str(text), "-o", str(sheet)])
    assert done.exit_code == 0, done.output
    printed = sheet.read_text(encoding="utf-8")
    assert "3 stitches apart" in printed
    assert "the second one opposite, 9 stitches further" in printed
