"""`hookside serve` as a process: one for each folder, stopped politely, restarted at the same address.

Here it starts from nothing, as at home; elsewhere in the tests it is a fork (`tests/nursery.py`).
"""

from __future__ import annotations

import errno
import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from tests.conftest import LiveServer

from hookside.web import serve as serve_room

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def server(tmp_path: Path) -> Iterator[LiveServer]:
    live = LiveServer(tmp_path / "house")
    live.start()
    yield live
    if live.process is not None:
        live.stop()


def second(server: Any, *more: str) -> subprocess.CompletedProcess[str]:
    """Another start on the same folder, to its end."""
    command = [sys.executable, "-m", "hookside", "serve", "--no-browser", "--folder", str(server.folder), *more]
    return subprocess.run(command, env=server.environment(), capture_output=True, text=True, timeout=30)


def test_our_patterns_are_on_the_shelf_at_first_start(server: Any) -> None:
    status, shelf = server.api("GET", "/api/shelf")
    assert status == 200
    ours = sorted((ROOT / "patterns").glob("*.txt"))
    assert [p["source"] for p in shelf["patterns"]] == ["own"] * len(ours)
    assert all(p["can_be_followed"] for p in shelf["patterns"])
    server.restart()
    assert len(server.api("GET", "/api/shelf")[1]["patterns"]) == len(ours)


def test_a_second_start_finds_the_first(server: Any) -> None:
    found = second(server)
    assert (found.returncode, found.stdout, found.stderr) == (0, f"Hookside is at {server.url}\n", "")
    assert server.api("GET", "/api/shelf")[0] == 200


def test_the_port_is_remembered_over_restarts(server: Any) -> None:
    server.stop()
    command = [sys.executable, "-m", "hookside", "serve", "--no-browser", "--folder", str(server.folder)]
    with subprocess.Popen(command, env=server.environment(), stdout=subprocess.PIPE, text=True) as again:
        assert again.stdout is not None
        assert again.stdout.readline() == f"Hookside is at {server.url}\n"
        again.send_signal(signal.SIGTERM)
        assert again.wait(timeout=30) == 0


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_it_stops_politely(server: Any, number: int) -> None:
    assert server.end(number) == 0


def test_it_stops_whichever_thread_is_told(server: Any) -> None:
    """The system may hand a signal to any thread; the one that waits for it is not woken then."""
    server.stop()
    other = (
        "import signal, threading, time\n"
        "threading.Thread(target=time.sleep, args=(600,), daemon=True).start()\n"
        "signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGTERM})\n"
        "from hookside.cli import main\n"
        "main()"
    )
    command = [sys.executable, "-c", other, "serve", "--no-browser", "--folder", str(server.folder)]
    with subprocess.Popen(command, env=server.environment(), stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout is not None
            assert process.stdout.readline() == f"Hookside is at {server.url}\n"
            process.send_signal(signal.SIGTERM)
            assert process.wait(timeout=60) == 0
        finally:
            process.kill()


def test_it_comes_back_after_a_kill(server: Any) -> None:
    text = server.api("GET", "/api/patterns/" + str(server.api("GET", "/api/shelf")[1]["patterns"][0]["id"]))[1]["text"]
    status, kept = server.api("POST", "/api/patterns", {"text": text})
    assert status == 200
    server.kill()
    server.start()
    assert server.api("GET", f"/api/patterns/{kept['id']}")[1]["text"] == text


def test_a_stranger_on_the_port_is_said(server: Any, tmp_path: Path) -> None:
    other = tmp_path / "other"
    command = [sys.executable, "-m", "hookside", "serve", "--no-browser", "--folder", str(other)]
    told = subprocess.run(
        [*command, "--port", str(server.port)], env=server.environment(), capture_output=True, text=True, timeout=30
    )
    assert told.returncode == 1
    assert f"Port {server.port}" in told.stderr
    assert "Traceback" not in told.stderr


def test_a_folder_that_cannot_be_used_is_said(server: Any, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("not a folder", encoding="utf-8")
    command = [sys.executable, "-m", "hookside", "serve", "--no-browser", "--folder", str(tmp_path / "file" / "house")]
    told = subprocess.run(command, env=server.environment(), capture_output=True, text=True, timeout=30)
    assert told.returncode == 1
    assert "HOOKSIDE_HOME" in told.stderr
    assert "Traceback" not in told.stderr


def test_a_full_disk_is_said_as_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: Any, **__: Any) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(serve_room, "run", full)
    told = CliRunner().invoke(serve_room.serve, ["--no-browser", "--folder", str(tmp_path / "house")])
    assert told.exit_code == 1
    assert "There is no room left on the disk of" in told.output
    assert "writable" not in told.output


def test_an_emptied_journal_is_said_and_left(server: Any) -> None:
    server.stop()
    for file in server.folder.glob("journal.sqlite*"):
        file.unlink()
    (server.folder / "journal.sqlite").write_bytes(b"")
    told = second(server)
    assert told.returncode == 1
    assert "something emptied it" in told.stderr
    assert told.stderr.count("\n") == 1
    assert (server.folder / "journal.sqlite").read_bytes() == b""


def test_home_names_the_folder(server: Any, tmp_path: Path) -> None:
    env = dict(server.environment(), HOOKSIDE_HOME=str(server.folder))
    command = [sys.executable, "-m", "hookside", "serve", "--no-browser"]
    told = subprocess.run(command, env=env, capture_output=True, text=True, timeout=30)
    assert told.stdout == f"Hookside is at {server.url}\n"


# What a serving process must not carry: they take tens of megabytes. Some are wanted by the process that reads, some
# once it is shared; of those that may not be installed at all, a voice is an extra.
HEAVY = ("scipy", "numpy", "cryptography", "zeroconf", "segno", "lark")
EXTRA = ("vosk", "pocketsphinx", "sounddevice", "eventlet", "gevent")


def test_the_serving_process_carries_nothing_heavy(tmp_path: Path, server: Any) -> None:
    """All imports of a process that serves while patterns are read, begun and moved, as Python itself lists them.

    Each extra is put where an import of it would succeed, so that an import that is merely tried shows too. The process
    that reads is started without the listing.
    """
    for name in EXTRA:
        (tmp_path / "decoys" / name).mkdir(parents=True)
        (tmp_path / "decoys" / name / "__init__.py").write_text("", encoding="utf-8")
    server.stop()
    env = server.environment()
    path = os.pathsep.join([env["PYTHONPATH"], str(tmp_path / "decoys")])
    env = dict(env, PYTHONPATH=path)
    python, *rest = server.command()
    with (tmp_path / "imports").open("w", encoding="utf-8") as told:
        command = [python, "-X", "importtime", *rest]
        process = subprocess.Popen(command, env=env, stdout=subprocess.PIPE, stderr=told, text=True)
        with process:
            assert process.stdout is not None
            assert process.stdout.readline()
            try:
                pattern = server.api("GET", "/api/shelf")[1]["patterns"][0]["id"]
                text = server.api("GET", f"/api/patterns/{pattern}")[1]["text"]
                assert server.api("POST", "/api/read", {"text": text})[0] == 200
                begun = {"pattern": pattern, "order": {"kind": "one"}}
                assert server.api("POST", "/api/makings", begun)[0] == 200
            finally:
                process.send_signal(signal.SIGTERM)
    imported = set(re.findall(r"\|\s+([\w.]+)$", (tmp_path / "imports").read_text(encoding="utf-8"), re.MULTILINE))
    assert {"hookside.web.live", "hookside.web.doors", "sqlalchemy"} <= imported
    assert "hookside.compile" not in imported
    assert not {name for name in imported if name.split(".")[0] in HEAVY + EXTRA}
