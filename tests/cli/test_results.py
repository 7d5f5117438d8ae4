"""Where results go: to a new file, whole, and never over what was read or what Hookside keeps; and what is said when
nothing can be written."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from hookside.cli import main
from hookside.web.ending import printable

if TYPE_CHECKING:
    from tests.conftest import LiveServer

# demo
FLOAT = "Cork Float\nUS terms\n\nFloat (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nFasten off.\n"
COMMANDS = ("compile", "gather", "measure", "finish", "paper")


@pytest.fixture
def pattern(tmp_path: Path) -> Path:
    file = tmp_path / "here" / "float.txt"
    file.parent.mkdir()
    file.write_text(FLOAT, encoding="utf-8")
    return file


def hookside(*words: object) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.mark.parametrize("command", COMMANDS)
def test_never_over_the_pattern_nor_another_file(
    command: str, pattern: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(pattern.parent)
    for out in (pattern, "float.txt", "./float.txt"):
        refused = hookside(command, "float.txt", "-o", out)
        assert (refused.exit_code, refused.stderr.count("\n")) == (2, 1)
        assert "is the pattern itself" in refused.stderr
    for words in ((command, pattern, "-o", pattern), (command, pattern, "-o", pattern, "--over")):
        refused = hookside(*words)
        assert (refused.exit_code, "is the pattern itself" in refused.stderr) == (2, True)
    link = pattern.with_name("link.txt")
    link.symlink_to(pattern)
    assert hookside(command, pattern, "-o", link, "--over").exit_code == 2
    assert pattern.read_text(encoding="utf-8") == FLOAT

    other = pattern.with_name("other.txt")
    other.write_text("mine", encoding="utf-8")
    refused = hookside(command, pattern, "-o", other)
    assert (refused.exit_code, refused.stderr) == (
        2, f"{other} is there already. Name another file with -o, or say --over to write over it.\n"
    )  # fmt: skip
    assert other.read_text(encoding="utf-8") == "mine"
    assert hookside(command, pattern, "-o", other, "--over").exit_code == 0
    assert other.read_text(encoding="utf-8") not in ("mine", "")
    assert sorted(os.listdir(pattern.parent)) == ["float.txt", "link.txt", "other.txt"]  # nothing half written


def test_an_explanation_is_no_pattern_either(pattern: Path) -> None:
    refused = hookside("explain", f"{pattern}:5", "-o", pattern, "--over")
    assert (refused.exit_code, pattern.read_text(encoding="utf-8")) == (2, FLOAT)


def test_never_among_the_files_of_a_data_folder(pattern: Path, tmp_path: Path) -> None:
    folder = tmp_path / "house"
    assert hookside("keep", pattern, "--folder", folder).exit_code == 0
    assert hookside("begin", "Cork Float", "--folder", folder).exit_code == 0
    journal = folder / "journal.sqlite"
    before = journal.read_bytes()
    for file in (journal, folder / "new.csv", folder / "backups" / "new.csv"):
        for words in (("record", 1, "--csv", "--folder", folder), ("gather", pattern)):
            refused = hookside(*words, "-o", file, "--over")
            assert (refused.exit_code, "where Hookside keeps its own files" in refused.stderr) == (2, True)
    assert journal.read_bytes() == before
    out = tmp_path / "sittings.csv"
    assert hookside("record", 1, "--csv", "--folder", folder, "-o", out).exit_code == 0
    assert out.read_text(encoding="utf-8")
    assert hookside("record", 1, "--csv", "--folder", folder, "-o", out).exit_code == 2


def typed(line: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """A line in a shell, where hookside is called h."""
    h = f'h() {{ "{sys.executable}" -m hookside "$@" --folder "{folder}"; }}; {line}'
    return subprocess.run(["sh", "-c", h], capture_output=True, text=True, check=False)


def test_an_output_that_takes_nothing_does_not_undo_what_was_done(pattern: Path, server: LiveServer) -> None:
    """First where nobody serves, then where a house does."""
    folder = server.folder
    server.stop()
    told = typed(f'h keep "{pattern}" >/dev/full', folder)
    done = "It is done, only it could not be told here: standard output can't be written (No space left on device).\n"
    assert (told.returncode, told.stderr) == (1, done)
    server.start()
    for words in ("begin 'Cork Float'", "note 1 twice", "copy 1", "choose 1 --terms UK --yes", "likes hand=left"):
        told = typed(f"h {words} >/dev/full", folder)
        assert (told.returncode, told.stderr) == (1, done), words
    assert "twice" in hookside("note", 1, "--folder", folder).output
    assert "terms: UK" in hookside("choose", 1, "--folder", folder).output
    for words in ("likes", "shelf", "choose 1", "note 1"):
        told = typed(f"h {words} >/dev/full", folder)
        said = (2, "Standard output can't be written (No space left on device).\n")
        assert (told.returncode, told.stderr) == said, words
    told = typed("h --help >/dev/full", folder)
    assert "Traceback" not in told.stderr
    # A reader who has seen enough ends nothing half way, and nothing is said of it.
    told = typed(f'{{ h keep "{pattern}" "{pattern}"; echo $? >&2; }} | :', folder)
    assert (told.stderr.strip() in ("0", "1"), told.stdout) == (True, "")
    assert hookside("shelf", "--find", "cork", "--folder", folder).output.count("Cork Float, yours") == 1


def test_no_control_sign_comes_to_the_terminal(pattern: Path, tmp_path: Path) -> None:
    assert printable("a\x1b[31m\x9bb\r\x07\n\tc\x7f") == "a[31mb\n\tc"
    folder = tmp_path / "house"
    hookside("keep", pattern, "--folder", folder)
    hookside("begin", "Cork Float", "--folder", folder)
    hookside("label", 1, "\x1b[31mred", "--folder", folder)
    hookside("colours", 1, "red=a\x1b[31mb\nc", "--folder", folder)
    for words in (("shelf",), ("colours", 1), ("back", "\x1b[2J")):
        told = hookside(*words, "--folder", folder)
        assert "\x1b" not in told.output, words
    assert hookside("colours", 1, "--folder", folder).output == "red: a[31mb c\n"
