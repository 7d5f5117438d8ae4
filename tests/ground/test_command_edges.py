"""The command at its edges: closed and full streams, a file named twice, homes that are not there, an early Ctrl+C."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
HOOKSIDE = f'"{sys.executable}" -m hookside'
# demo
PATTERN = "Float\n\nFLOAT\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"


def shell(command: str, folder: Path, **env: str) -> subprocess.CompletedProcess[str]:
    paths = [str(ROOT / "server"), os.environ.get("PYTHONPATH", "")]
    full = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in paths if p), **env}
    return subprocess.run(
        ["sh", "-c", command], cwd=folder, env=full, capture_output=True, text=True, timeout=60, check=False
    )


def told(done: subprocess.CompletedProcess[str], code: int) -> str:
    """The one sentence a command ended with."""
    assert done.returncode == code, done
    assert done.stderr.count("\n") == 1, done.stderr
    assert "Traceback" not in done.stderr
    return done.stderr


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "float.txt").write_text(PATTERN, encoding="utf-8")
    return tmp_path


def test_the_pattern_is_never_written_over(folder: Path) -> None:
    """By a process, as at home; by which other names is tried in tests/cli/test_results.py."""
    (folder / "same.txt").symlink_to(folder / "float.txt")
    assert "is the pattern itself" in told(shell(f"{HOOKSIDE} compile float.txt -o same.txt", folder), 2)
    assert (folder / "float.txt").read_text(encoding="utf-8") == PATTERN
    assert shell(f"{HOOKSIDE} compile float.txt -o other.txt", folder).returncode == 0
    assert (folder / "other.txt").read_text(encoding="utf-8").startswith("Float")


def test_a_standard_input_that_is_closed(folder: Path) -> None:
    assert "no standard input" in told(shell(f"{HOOKSIDE} compile - <&-", folder), 2)


def test_a_standard_output_that_takes_nothing(folder: Path) -> None:
    assert "No space left" in told(shell(f"{HOOKSIDE} compile float.txt >/dev/full", folder), 2)
    assert "no standard output" in told(shell(f"{HOOKSIDE} compile float.txt >&-", folder), 2)


def test_a_home_of_nobody(folder: Path) -> None:
    done = shell(f"{HOOKSIDE} serve --no-browser", folder, HOOKSIDE_HOME="~nobody_of_that_name/x")
    assert "~nobody_of_that_name/x" in told(done, 1)
    assert not (folder / "~nobody_of_that_name").exists()


def test_an_early_interrupt_is_quiet(folder: Path) -> None:
    """Ctrl+C while the parts are still being loaded: the library it falls into here is one that serving loads."""
    interrupt = "import os, signal, time\nos.kill(os.getpid(), signal.SIGINT)\ntime.sleep(9)\n"
    (folder / "click.py").write_text(interrupt, encoding="utf-8")
    command = [sys.executable, "-m", "hookside", "serve", "--no-browser", "--folder", str(folder / "house")]
    paths = [str(folder), str(ROOT / "server"), os.environ.get("PYTHONPATH", "")]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in paths if p)}
    done = subprocess.run(command, env=env, capture_output=True, text=True, timeout=60, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (-signal.SIGINT, "", "")
