"""`python3 server/start.py`: its stamps, its dead ends, and a real first, second and offline start."""

from __future__ import annotations

import ast
import glob
import importlib.util
import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import urllib.request
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
LEFT_OUT = shutil.ignore_patterns(
    ".git", ".venv", "node_modules", "dist", "static", "__pycache__", ".*_cache", ".hypothesis", "test-results"
)
# As on a machine without a network: nothing to ask, nothing kept from earlier.
OFFLINE = {
    "PIP_INDEX_URL": "http://127.0.0.1:9/simple", "PIP_EXTRA_INDEX_URL": "", "PIP_FIND_LINKS": "",
    "PIP_CONFIG_FILE": os.devnull, "PIP_NO_CACHE_DIR": "1", "npm_config_registry": "http://127.0.0.1:9/",
}  # fmt: skip


@pytest.fixture
def start() -> ModuleType:
    spec = importlib.util.spec_from_file_location("hookside_start", ROOT / "server" / "start.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    """A small tree with all that the stamps look at."""
    for name, text in {
        "pyproject.toml": "[project]", "server/constraints.txt": "flask==1", "frontend/package-lock.json": "{}",
        "frontend/index.html": "<title>", "frontend/src/main.tsx": "draw()", "frontend/src/main.test.ts": "check()",
        "frontend/node_modules/preact/index.js": "x", ".venv/bin/python": "",
    }.items():  # fmt: skip
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def build(start: ModuleType, tree: Path) -> None:
    page = tree / start.PAGE
    page.mkdir(parents=True, exist_ok=True)
    (page / "index.html").write_text("<title>", encoding="utf-8")
    (page / ".stamp").write_text(start.page_key(tree), encoding="utf-8")


def in_place(start: ModuleType, tree: Path, extras: set[str]) -> None:
    build(start, tree)
    start.write_stamp(tree, extras)


def test_it_parses_on_python_3_8() -> None:
    source = (ROOT / "server" / "start.py").read_text(encoding="utf-8")
    ast.parse(source, feature_version=(3, 8))
    imported = {n.names[0].name for n in ast.walk(ast.parse(source)) if isinstance(n, ast.Import)}
    assert imported <= set(sys.stdlib_module_names)


def test_an_old_python_says_which_one_is_needed(start: ModuleType) -> None:
    none: Callable[[str], None] = lambda name: None  # noqa: E731
    assert start.too_old((3, 11, 0)) is None
    assert start.too_old((4, 0)) is None
    alone = start.too_old((3, 8, 18), none)
    assert "3.11" in alone
    assert "3.8" in alone
    assert "\n" not in alone
    beside = start.too_old((3, 9, 2), lambda name: name if name == "python3.12" else None)
    assert "python3.12 server/start.py" in beside


def test_a_fresh_tree_wants_everything(start: ModuleType, tree: Path) -> None:
    assert start.wanting(tree, ()) == {"environment", "page"}


def test_what_is_in_place_is_left_alone(start: ModuleType, tree: Path) -> None:
    in_place(start, tree, {"test"})
    assert start.wanting(tree, ()) == set()
    assert start.wanting(tree, {"test"}) == set()
    assert start.wanting(tree, {"voice"}) == {"environment"}


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        ("pyproject.toml", {"environment"}),
        ("server/constraints.txt", {"environment"}),
        ("frontend/package-lock.json", {"page"}),
        ("frontend/index.html", {"page"}),
        ("frontend/src/main.tsx", {"page"}),
        ("frontend/src/new.css", {"page"}),
        ("frontend/src/main.test.ts", set()),
        ("frontend/node_modules/preact/index.js", set()),
        ("server/hookside/anything.py", set()),
    ],
)
def test_a_change_wants_no_more_than_it_must(start: ModuleType, tree: Path, name: str, wanted: set[str]) -> None:
    in_place(start, tree, set())
    (tree / name).parent.mkdir(parents=True, exist_ok=True)
    (tree / name).write_text("changed", encoding="utf-8")
    assert start.wanting(tree, ()) == wanted


def test_a_file_that_was_renamed_or_removed_counts(start: ModuleType, tree: Path) -> None:
    in_place(start, tree, set())
    (tree / "frontend/src/main.tsx").rename(tree / "frontend/src/other.tsx")
    assert start.wanting(tree, ()) == {"page"}
    (tree / "frontend/src/other.tsx").unlink()
    assert start.wanting(tree, ()) == {"page"}


@pytest.mark.parametrize("stamp", ["", "{", "[]", '{"environment": 1}', '{"extras": "test"}', "null"])
def test_a_torn_stamp_is_not_trusted(start: ModuleType, tree: Path, stamp: str) -> None:
    in_place(start, tree, set())
    (tree / ".venv" / start.STAMP).write_text(stamp, encoding="utf-8")
    assert start.wanting(tree, ()) == {"environment"}


def test_a_stamp_without_what_it_vouches_for_is_not_trusted(start: ModuleType, tree: Path) -> None:
    in_place(start, tree, set())
    (tree / ".venv/bin/python").unlink()
    (tree / start.PAGE / "index.html").unlink()
    assert start.wanting(tree, ()) == {"environment", "page"}


def test_a_tree_that_was_moved_is_installed_anew(start: ModuleType, tree: Path) -> None:
    in_place(start, tree, set())
    moved = tree.with_name(tree.name + "-moved")
    tree.rename(moved)
    assert start.wanting(moved, ()) == {"environment"}
    moved.rename(tree)


def test_the_code_of_this_folder_is_served(start: ModuleType, tree: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An environment that points elsewhere: whatever it has on its path, this folder's code comes first."""
    monkeypatch.setenv("PYTHONPATH", "elsewhere")
    found = start.own_code(tree)["PYTHONPATH"].split(os.pathsep)
    assert found == [str(tree / "server"), "elsewhere"]


def test_a_copy_that_cannot_be_installed_says_so(
    start: ModuleType, tree: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    in_place(start, tree, set())
    moved = tree.with_name(tree.name + "-moved")
    shutil.copytree(tree, moved)
    monkeypatch.setattr(start, "has_pip", lambda python: True)
    monkeypatch.setattr(start, "install", lambda root, extras: (False, "ERROR: No matching distribution found"))
    monkeypatch.setattr(start, "still_works", lambda root: True)
    assert start.prepare(moved) == start.python_of(moved)
    assert "This folder was copied or moved" in capsys.readouterr().out
    assert start.wanting(moved, ()) == {"environment"}  # asked again at the next start
    (tree / "pyproject.toml").write_text("[project] # changed", encoding="utf-8")
    start.prepare(tree)
    assert "Going on with what was installed before" in capsys.readouterr().out
    shutil.rmtree(moved)


def test_the_page_stamp_is_for_the_sources_the_build_knows(start: ModuleType) -> None:
    names = start.page_sources(ROOT)
    assert {"frontend/package-lock.json", "frontend/index.html", "frontend/src/main.tsx"} <= set(names)
    assert not [n for n in names if "node_modules" in n or "/dist/" in n]


# --- pip another way -----------------------------------------------------------------------------------------------


def bare_environment(folder: Path) -> Path:
    """An environment as Debian makes it without its package python3-venv: without pip."""
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(folder / ".venv")], check=True)
    return folder / ".venv/bin/python"


def pip_files(start: ModuleType) -> list[str]:
    bundled = os.path.join(sys.base_prefix, "lib", "python3*", "ensurepip", "_bundled", "pip-*.whl")
    return list(start.pip_wheels()) + glob.glob(bundled)


def test_pip_comes_from_a_file_on_the_machine(start: ModuleType, tmp_path: Path) -> None:
    python = bare_environment(tmp_path)
    assert not start.has_pip(python)
    files = pip_files(start)
    assert files, "this machine has no copy of pip as a file"
    assert start.bring_pip(python, wheels=lambda: files[:1], pips=list, which=lambda name: None)
    assert start.has_pip(python)


def test_pip_comes_from_another_pip(start: ModuleType, tmp_path: Path) -> None:
    python = bare_environment(tmp_path)
    other = [[sys.executable, "-m", "pip"]]
    assert start.bring_pip(python, wheels=list, pips=lambda: other, which=lambda name: None)


def test_no_pip_anywhere_is_one_sentence(start: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(start, "bring_pip", lambda python: start.has_pip(python))
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    with pytest.raises(start.DeadEnd) as caught:
        start.make_environment(tmp_path, ensurepip=False)
    assert "sudo apt install python3-venv" in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_folder_that_cannot_be_written_is_one_sentence(start: ModuleType, tmp_path: Path) -> None:
    (tmp_path / "tree").write_text("a file where the tree should be", encoding="utf-8")
    with pytest.raises(start.DeadEnd, match="make that folder writable") as caught:
        start.make_environment(tmp_path / "tree")
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("told", "reason"),
    [
        ("ERROR: No matching distribution found for flask", "offline"),
        ("npm error code ENOTFOUND\nerror: metadata-generation-failed", "offline"),
        ("SSLError(SSLCertVerificationError(1, '[SSL: CERTIFICATE_VERIFY_FAILED]", "SSL_CERT_FILE"),
        ("npm error code SELF_SIGNED_CERT_IN_CHAIN", "NODE_EXTRA_CA_CERTS"),
        ("a\nnpm error A complete log of this run can be found in: /x\nOSError: [Errno 28] No space left\nhint: b",
         "No space left"),
        ("\n  the last word  \n\n", "the last word"),
        ("", "no reason given"),
    ],
)  # fmt: skip
def test_the_reason_in_a_few_words(start: ModuleType, told: str, reason: str) -> None:
    assert reason in start.why(told)
    assert "\n" not in start.why(told)


def failing(start: ModuleType, monkeypatch: pytest.MonkeyPatch, works: set[str], told: str) -> list[set[str]]:
    """Let only these extras install; what was tried."""
    tried: list[set[str]] = []

    def install(root: Path, extras: set[str]) -> tuple[bool, str]:
        tried.append(set(extras))
        return extras <= works, told

    monkeypatch.setattr(start, "install", install)
    return tried


NOTHING_FITS = "ERROR: No matching distribution found for vosk>=0.3.45"


@pytest.mark.parametrize(
    ("works", "last", "sentence"),
    [
        ({"test", "voice"}, {"test", "voice"}, ""),
        ({"test", "voice-plain"}, {"test", "voice-plain"}, "plainer"),
        ({"test"}, {"test"}, "by touch and keys"),
    ],
)
def test_without_a_voice_library_the_rest_is_installed(
    start: ModuleType, tree: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
    works: set[str], last: set[str], sentence: str,
) -> None:  # fmt: skip
    tried = failing(start, monkeypatch, works, NOTHING_FITS)
    assert start.install_what_goes(tree, {"test", "voice"})[0]
    assert tried[-1] == last
    said = capsys.readouterr().out
    assert (sentence in said) if sentence else not said


def test_without_a_network_nothing_else_is_tried(
    start: ModuleType, tree: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = "NewConnectionError: Failed to establish a new connection\n" + NOTHING_FITS
    tried = failing(start, monkeypatch, {"test"}, told)
    assert start.install_what_goes(tree, {"voice"}) == (False, told)
    assert tried == [{"voice"}]


# --- for real ------------------------------------------------------------------------------------------------------


class Started:
    """`python3 server/start.py` in a tree of its own."""

    def __init__(self, tree: Path, port: int, **env: str) -> None:
        clean = {k: v for k, v in os.environ.items() if k not in ("PYTHONPATH", "VIRTUAL_ENV", "HOOKSIDE_HOME")}
        python = getattr(sys, "_base_executable", sys.executable)
        where = ["--folder", str(tree.parent / "house"), "--port", str(port)]
        self.process = subprocess.Popen(
            [python, "server/start.py", "--no-browser", *where], cwd=tree, env={**clean, **env},
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
        )  # fmt: skip
        self.url = f"http://127.0.0.1:{port}"
        self.said: list[str] = []
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self.said.append(line)
            if self.url in line:
                return
        raise AssertionError(f"start.py ended with {self.process.wait()}: {''.join(self.said)}")

    def get(self, path: str) -> bytes:
        with urllib.request.urlopen(self.url + path, timeout=30) as answer:
            body: bytes = answer.read()
        return body

    def stop(self) -> None:
        self.process.send_signal(signal.SIGTERM)
        assert self.process.wait(timeout=30) == 0
        assert self.process.stdout is not None
        self.process.stdout.close()


def test_a_first_start_without_a_network_says_so(tmp_path: Path) -> None:
    tree = tmp_path / "tree"
    shutil.copytree(ROOT, tree, ignore=LEFT_OUT)
    env = {k: v for k, v in os.environ.items() if k not in ("PYTHONPATH", "VIRTUAL_ENV")} | OFFLINE
    python = getattr(sys, "_base_executable", sys.executable)
    told = subprocess.run([python, "server/start.py"], cwd=tree, env=env, capture_output=True, text=True)
    assert told.returncode == 1
    assert told.stderr.count("\n") == 1
    assert "is this machine offline?" in told.stderr
    assert (tree / ".venv/start.log").is_file()


def test_first_second_and_offline_start(start: ModuleType, tmp_path: Path) -> None:
    tree = tmp_path / "tree"
    shutil.copytree(ROOT, tree, ignore=LEFT_OUT)
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        port: int = s.getsockname()[1]

    first = Started(tree, port)
    assert any("Installing" in line for line in first.said)
    page = first.get("/")
    assert b'<script type="module"' in page
    shelf: dict[str, Any] = json.loads(first.get("/api/shelf"))
    assert len(shelf["patterns"]) == len(list((ROOT / "patterns").glob("*.txt")))
    first.stop()

    second = Started(tree, port, **OFFLINE)
    assert second.said == [f"Hookside is at {second.url}\n"]
    assert second.get("/") == page
    second.stop()

    with (tree / "frontend/index.html").open("a", encoding="utf-8") as source:
        source.write("<!-- changed -->\n")
    offline = Started(tree, port, **OFFLINE)
    assert any("Keeping the page that was built before" in line for line in offline.said)
    assert offline.get("/") == page
    offline.stop()

    with (tree / "server/constraints.txt").open("a", encoding="utf-8") as pins:
        pins.write("# changed\n")
    changed = Started(tree, port, **OFFLINE)
    assert any("Going on with what was installed before" in line for line in changed.said)
    assert changed.get("/") == page
    changed.stop()

    # A copy without a network: its own code and page are served, not those of the folder it was copied from.
    copy = tmp_path / "copy"
    shutil.copytree(tree, copy, symlinks=True)
    with (copy / start.PAGE / "index.html").open("a", encoding="utf-8") as built:
        built.write("<!-- the copy -->\n")
    for squeezed in (copy / start.PAGE).glob("index.html.*"):
        squeezed.unlink()
    copied = Started(copy, port, **OFFLINE)
    assert any("This folder was copied or moved" in line for line in copied.said)
    assert b"<!-- the copy -->" in copied.get("/")
    copied.stop()
