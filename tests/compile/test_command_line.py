"""`hookside compile`: what it prints and how it ends."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from hookside.cli import main
from hookside.cli.files import LARGEST_TEXT

ROOT = Path(__file__).resolve().parents[2]

BUOY = """Little Float

US terms

FLOAT (make 2)

Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
Rnds 3-4: sc in each st around (12)

Stuff the float firmly.

Rnd 5: dec x 6 (6)

Fasten off, leaving a 20 cm tail.
"""
BROKEN = BUOY.replace("Rnd 5: dec x 6 (6)", "Rnd 5: dec x 5 (6)")


def run(*arguments: str, given: str | bytes | None = None) -> tuple[int, str, str]:
    result = CliRunner().invoke(main, ["compile", *arguments], input=given)
    return result.exit_code, result.stdout, result.stderr


@pytest.fixture
def buoy(tmp_path: Path) -> str:
    path = tmp_path / "float.txt"
    path.write_text(BUOY, encoding="utf-8")
    return str(path)


def test_a_pattern_that_can_be_followed_ends_with_0(buoy: str) -> None:
    code, out, err = run(buoy)
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[0] == "Little Float"
    assert any(line.split() == ["used", "made", "printed"] for line in lines)
    (second,) = [line for line in lines if line.strip().startswith("round 2 ")]
    assert second.split() == ["round", "2", "6", "12", "12", "inc", "x", "6"]
    assert "    stop: stuff: Stuff the float firmly" in out
    assert lines[-1] == "This can be followed: 5 rounds and rows in 1 piece."


def test_a_mistake_ends_with_1_and_is_shown_in_the_text(tmp_path: Path) -> None:
    path = tmp_path / "float.txt"
    path.write_text(BROKEN, encoding="utf-8")
    code, out, _ = run(str(path))
    assert code == 1
    number = BROKEN.splitlines().index("Rnd 5: dec x 5 (6)") + 1
    lines = out.splitlines()
    at = next(i for i, line in enumerate(lines) if line.startswith(f"  Line {number}, can't be followed: "))
    assert lines[at + 1] == "    Rnd 5: dec x 5 (6)"
    caret = lines[at + 2]
    assert set(caret) == {" ", "^"}
    assert 4 <= caret.index("^") < len(lines[at + 1])


def test_a_course_without_end_does_not_fill_the_screen() -> None:
    code, out, _ = run("-", given=f"Rnd 1: 6 sc in a magic ring (6)\nRnd 2: work {'as the tide goes, ' * 200}(6)\n")
    assert code in (0, 1)
    assert max(len(line) for line in out.splitlines()) < 500


def test_nothing_at_all_can_not_be_followed() -> None:
    code, out, _ = run("-", given="")
    assert code == 1
    assert out.splitlines()[-1] == "This can't be followed yet: look at the lines above."


def test_the_stable_form(buoy: str) -> None:
    """The fields other programs lean on, by name."""
    code, out, _ = run(buoy, "--json")
    assert code == 0
    form = json.loads(out)
    assert (form["format"], form["title"], form["terms"], form["findings"]) == (1, "Little Float", "US", [])
    (piece,) = form["pieces"]
    assert (piece["name"], piece["make"]) == ("FLOAT", 2) or piece["name"].lower() == "float"
    assert [c["label"] for c in piece["courses"]] == ["1", "2", "3", "4", "5"]
    assert [(c["uses"], c["makes"], c["declared"]) for c in piece["courses"]][1:] == [
        (6, 12, 12),
        (12, 12, 12),
        (12, 12, 12),
        (12, 6, 6),
    ]
    course_fields = {"id", "label", "kind", "uses", "makes", "declared", "text", "line"}
    assert all(course_fields <= set(c) and c["kind"] == "round" for c in piece["courses"])
    assert {"after", "course_id", "kind", "text", "basis", "weight"} <= set(piece["cues"][0])
    kinds = [(c["after"], c["kind"], c["weight"]) for c in piece["cues"]]
    assert ("4", "stuff", "stop") in kinds
    assert ("5", "fasten", "stop") in kinds
    assert all(c["words"]["short"] and c["words"]["spoken"] for c in piece["courses"] + piece["cues"])


def test_the_form_of_a_finding(tmp_path: Path) -> None:
    path = tmp_path / "float.txt"
    path.write_text(BROKEN, encoding="utf-8")
    code, out, _ = run(str(path), "--json")
    assert code == 1
    found = [f for f in json.loads(out)["findings"] if f["severity"] == "error"]
    fields = {"severity", "line", "column", "piece", "course", "course_id", "message", "suggestions"}
    assert found
    assert all(fields <= set(f) for f in found)
    assert found[0]["course"] == "5"


def test_standard_input_and_a_file_to_write(tmp_path: Path, buoy: str) -> None:
    assert run("-", given=BUOY)[1] == run(buoy)[1]
    out = tmp_path / "read.json"
    code, printed, _ = run(buoy, "--json", "-o", str(out))
    assert (code, printed) == (0, "")
    assert json.loads(out.read_text(encoding="utf-8"))["title"] == "Little Float"


def test_terms_can_be_told(buoy: str) -> None:
    code, out, _ = run(buoy, "--json", "--terms", "uk")
    assert json.loads(out)["terms"] == "UK"
    assert code in (0, 1)


def test_the_stages_can_be_seen(buoy: str) -> None:
    code, out, _ = run(buoy, "--trace")
    assert code == 0
    assert "Rnd 2: inc x 6 (12)" in out
    stages = ["page", "line", "label", "tokens", "tree", "arithmetic"]  # and "finding", where something is found
    assert [s for s in stages if f"  {s} " in out] == stages


def test_the_last_stages_tell_sums_and_findings(tmp_path: Path) -> None:
    file = tmp_path / "float.txt"
    file.write_text("Float\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 5 (12)\n", encoding="utf-8")
    code, out, _ = run(str(file), "--trace")
    assert code == 1
    assert "6 there; uses 5, makes 10; 12 printed; does not come out" in out
    assert out.rstrip().splitlines()[-1].split()[:4] == ["3", "finding", "error", "left-over"]


def _misuse(*arguments: str, given: bytes | None = None) -> str:
    code, out, err = run(*arguments, given=given)
    assert (code, out) == (2, "")
    assert err.count("\n") == 1, "one sentence"
    assert err.endswith(".\n")
    return err


def test_what_cannot_be_read_ends_with_2_and_one_sentence(tmp_path: Path, buoy: str) -> None:
    assert "There is no file" in _misuse(str(tmp_path / "gull.txt"))
    assert "is a folder" in _misuse(str(tmp_path))
    binary = tmp_path / "photo.txt"
    binary.write_bytes(b"\x89PNG\xff\xfe\x00")
    assert "photo.txt is a picture, and Hookside reads no pictures" in _misuse(str(binary))
    assert "not plain text" in _misuse("-", given=b"\xff\xff")
    large = tmp_path / "novel.txt"
    large.write_bytes(b"a" * (LARGEST_TEXT + 1))
    assert "larger than 256 kB" in _misuse(str(large))
    assert "can't be written" in _misuse(buoy, "-o", str(tmp_path))
    assert "can't be opened" in _misuse("a\0b")


@pytest.mark.parametrize("arguments", [[], ["--sideways", "float.txt"], ["float.txt", "--terms", "FR"]])
def test_a_command_that_makes_no_sense_ends_with_2(arguments: list[str]) -> None:
    assert run(*arguments)[0] == 2


def test_the_sentence_about_terms_names_them_as_they_are_written(buoy: str) -> None:
    code, _, err = run(buoy, "--terms", "FR")
    assert code == 2
    assert "FR is neither US nor UK; write --terms US or --terms UK." in err


def test_a_start_uses_nothing_and_a_chain_is_told_as_one() -> None:
    code, out, _ = run("-", given="Row 0: ch 22\nRow 1: sc in 2nd ch from hook and in each ch across (21)\n")
    assert code in (0, 1)
    (chain,) = [line for line in out.splitlines() if line.strip().startswith("row 0")]
    (first,) = [line for line in out.splitlines() if line.strip().startswith("row 1")]
    assert chain.split()[:5] == ["row", "0", "22", "ch", "-"]
    assert first.split()[:4] == ["row", "1", "21", "21"]


def test_reading_starts_no_web_server(buoy: str) -> None:
    """`hookside compile` must not pay for flask; asked in a process of its own."""
    asked = (
        "import sys; from hookside.cli import main\n"
        f"try: main(['compile', {buoy!r}])\n"
        "except SystemExit as end: print(end.code)\n"
        "print([m for m in ('flask', 'socketio', 'sqlalchemy') if m in sys.modules])"
    )
    ran = subprocess.run(
        [sys.executable, "-c", asked],
        env={**os.environ, "PYTHONPATH": str(ROOT / "server")},
        capture_output=True,
        text=True,
        check=True,
    )
    assert ran.stdout.splitlines()[-2:] == ["0", "[]"]


def test_serving_is_among_the_commands() -> None:
    result = CliRunner().invoke(main, ["--help"])
    assert result.exit_code == 0
    assert "compile" in result.stdout
    assert "serve" in result.stdout


def test_mend_says_each_change_and_shows_the_mended_pattern(buoy: str) -> None:
    code, out, err = run("-", "--mend", given=BROKEN)
    assert (code, err) == (0, "")
    assert out.splitlines()[:4] == [
        "Mended 1 line:",
        "  Line 13: Round 5 uses 10 stitches, but round 4 made 12: two are left over. "
        '"dec x 6" uses all 12 and makes 6.',
        "    was: Rnd 5: dec x 5 (6)",
        "    is:  Rnd 5: dec x 6 (6)",
    ]
    assert out.split("\n\n", 1)[1] == run(buoy)[1]


def test_mend_writes_the_mended_text_and_never_over_the_pattern(tmp_path: Path) -> None:
    source, target = tmp_path / "broken.txt", tmp_path / "mended.txt"
    source.write_text(BROKEN, encoding="utf-8")
    code, out, _ = run(str(source), "--mend", "-o", str(target))
    assert code == 0
    assert out.startswith("Mended 1 line:")
    assert target.read_text(encoding="utf-8") == BUOY
    assert source.read_text(encoding="utf-8") == BROKEN
    code, _, err = run(str(source), "--mend", "-o", str(source))
    assert (code, err.count("\n")) == (2, 1)
    assert source.read_text(encoding="utf-8") == BROKEN


def test_mend_for_programs_and_where_there_is_nothing_to_mend(buoy: str) -> None:
    told = json.loads(run("-", "--mend", "--json", given=BROKEN)[1])["mended"]
    assert (told["text"], told["more"]) == (BUOY, False)
    assert [(c["line"], c["before"], c["after"]) for c in told["changes"]] == [
        (13, "Rnd 5: dec x 5 (6)", "Rnd 5: dec x 6 (6)")
    ]
    assert run(buoy, "--mend")[1].startswith("Nothing was mended")


def test_what_is_alike_is_shown_twenty_times_and_then_counted() -> None:
    text = "Rnd 1: 6 sc in MR (6)\n" + "".join(f"Rnd {n}: wobble the {n} gulls\n" for n in range(2, 502))
    out = run("-", given=text)[1]
    assert out.count("I could not read round") == 20
    assert "  And 480 more like those.\n" in out
