"""Commands of one moment, and a house that goes away between two questions."""

from __future__ import annotations

import os
import subprocess
import sys
from contextlib import ExitStack
from pathlib import Path

from click.testing import CliRunner

from hookside.cli import main
from hookside.cli.house import house
from hookside.web.lock import FolderLock

# demo
FLOAT = "Net float\nUS terms\n\nFloat\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnds 3-4: sc around (12)\n"
AT_ONCE = 5


def hookside(folder: Path, *words: str) -> str:
    done = CliRunner().invoke(main, [*words, "--folder", str(folder)])
    assert done.exit_code == 0, (words, done.output)
    return done.output


def begun(folder: Path) -> Path:
    text = folder / "float.txt"
    text.write_text(FLOAT, encoding="utf-8")
    hookside(folder, "keep", str(text))
    hookside(folder, "begin", "Net float")
    hookside(folder, "work", "1", "next", "round")
    return folder


def test_moves_of_one_moment_take_turns_and_each_is_made_and_said(tmp_path: Path) -> None:
    folder = begun(tmp_path)
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p)}
    command = [sys.executable, "-m", "hookside", "work", "1", "next", "stitch", "--folder", str(folder)]
    running = [
        subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=env)
        for _ in range(AT_ONCE)
    ]
    said = [one.communicate()[0] for one in running]
    assert [one.returncode for one in running] == [0] * AT_ONCE, said
    assert f"{AT_ONCE} of " in hookside(folder, "work", "1"), said


def test_what_is_asked_after_a_house_went_away_goes_to_whoever_has_the_folder(tmp_path: Path) -> None:
    folder = begun(tmp_path)
    with ExitStack() as other:
        other.enter_context(FolderLock(folder)).tell("http://127.0.0.1:9")  # the port where nothing answers: RFC 863
        with house(folder) as ask:
            other.close()
            assert [one["title"] for one in ask("GET", "/api/shelf")["makings"]] == ["Net float"]
