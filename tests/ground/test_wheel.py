"""The wheel carries page, patterns and migrations: built, installed elsewhere, run and asked."""

from __future__ import annotations

import json
import os
import re
import signal
import socket
import subprocess
import sys
import urllib.request
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "--wheel-dir", str(folder)]
    subprocess.run([*command, str(ROOT)], check=True, stdout=subprocess.DEVNULL)
    (found,) = folder.glob("*.whl")
    return found


def test_it_holds_all_that_is_needed(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as box:
        names = set(box.namelist())
    assert "hookside/static/index.html" in names
    assert any(re.fullmatch(r"hookside/static/assets/.+\.js\.gz", name) for name in names)
    assert {f"hookside/patterns/{p.name}" for p in (ROOT / "patterns").glob("*.txt")} <= names
    assert "hookside/stitches.toml" in names
    sources = {p.relative_to(ROOT / "server").as_posix() for p in (ROOT / "server" / "hookside").rglob("*.py")}
    assert sources <= names, "sources, migrations among them"
    assert not [n for n in names if "node_modules" in n or "__pycache__" in n or "tests/" in n]


def test_installed_elsewhere_it_serves(wheel: Path, tmp_path: Path) -> None:
    env = {k: v for k, v in os.environ.items() if k not in ("PYTHONPATH", "VIRTUAL_ENV", "HOOKSIDE_HOME")}
    env["PIP_COMPILE"] = "0"  # Python makes ready what it reads; pip would do so for all that is installed
    subprocess.run([sys.executable, "-m", "venv", str(tmp_path / "env")], check=True)
    bin_ = tmp_path / "env" / "bin"
    pins = ["--constraint", str(ROOT / "server" / "constraints.txt")]
    subprocess.run([bin_ / "python", "-m", "pip", "install", "--quiet", *pins, str(wheel)], check=True, env=env)
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        port = s.getsockname()[1]
    url = f"http://127.0.0.1:{port}"
    command = [bin_ / "hookside", "serve", "--no-browser", "--folder", tmp_path / "house", "--port", str(port)]
    with subprocess.Popen(
        command, cwd=tmp_path, env=env, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == f"Hookside is at {url}\n"
        try:
            with urllib.request.urlopen(url, timeout=30) as answer:
                page = answer.read().decode()
            script = re.search(r'src="\.?/?(assets/[^"]+\.js)"', page)
            assert script, page
            with urllib.request.urlopen(f"{url}/{script[1]}", timeout=30) as answer:
                assert answer.headers["Content-Type"].startswith("text/javascript")
            with urllib.request.urlopen(f"{url}/api/shelf", timeout=30) as answer:
                shelf = json.load(answer)
        finally:
            process.send_signal(signal.SIGTERM)
        assert process.wait(timeout=30) == 0
    assert len(shelf["patterns"]) == len(list((ROOT / "patterns").glob("*.txt")))
    assert (tmp_path / "house").is_dir()
