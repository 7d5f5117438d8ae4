"""What tests of several rooms share: a real server process, a real Chromium."""

from __future__ import annotations

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from tests.nursery import Grown, reader_at, readers

if TYPE_CHECKING:
    from playwright.sync_api import Browser

ROOT = Path(__file__).resolve().parent.parent
CHROMIUM = [
    "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
    "--disable-sync", "--no-first-run",
]  # fmt: skip


def free_port() -> int:
    """A port that nobody listens on just now."""
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return int(s.getsockname()[1])


class LiveServer:
    """A real `hookside serve` process on a folder of its own. The port stays the same over restarts."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.port = free_port()
        self.process: Any = None  # as a subprocess.Popen[str] is

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def command(self) -> list[str]:
        where = ["--folder", str(self.folder), "--port", str(self.port)]
        return [sys.executable, "-m", "hookside", "serve", "--no-browser", *where]

    def environment(self) -> dict[str, str]:
        env = {k: v for k, v in os.environ.items() if k not in ("HOOKSIDE_HOME", "DISPLAY", "WAYLAND_DISPLAY")}
        paths = [str(ROOT / "server"), *env.get("PYTHONPATH", "").split(os.pathsep)]
        return dict(env, PYTHONPATH=os.pathsep.join(p for p in paths if p))

    def spawn(self) -> Any:
        return subprocess.Popen(
            self.command(), env=self.environment(), stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, text=True
        )

    def start(self) -> None:
        """Start and wait until it says where it is."""
        assert self.process is None, "it runs already"
        self.process = self.spawn()
        for line in self.process.stdout:
            if self.url in line:
                return
        code = self.process.wait()
        self.forget()
        raise AssertionError(f"the server ended with {code} before it said where it is")

    def forget(self) -> None:
        if self.process is not None:
            self.process.stdout.close()
        self.process = None

    def end(self, number: int) -> int:
        """Send a signal, wait, and tell the exit code."""
        assert self.process is not None, "it does not run"
        self.process.send_signal(number)
        try:
            code = self.process.wait(timeout=30)
        except subprocess.TimeoutExpired:  # it must not stand in the way of the next test; who asks for 0 sees -9
            self.process.kill()
            code = self.process.wait(timeout=30)
        self.forget()
        return code

    def stop(self) -> int:
        """Ask it to stop, as a person or the system would."""
        return self.end(signal.SIGTERM)

    def kill(self) -> None:
        """kill -9: nothing in it gets to run any more."""
        self.end(signal.SIGKILL)

    def restart(self) -> None:
        """Stop politely and start again at the same address."""
        self.stop()
        self.start()

    def api(self, method: str, path: str, body: Any = None) -> tuple[int, Any]:
        """One JSON request. Returns (status, answer)."""
        request = urllib.request.Request(self.url + path, method=method)
        if body is not None:
            request.data = json.dumps(body).encode()
            request.add_header("Content-Type", "application/json")
        try:
            with urllib.request.urlopen(request, timeout=30) as answer:
                text, status = answer.read(), answer.status
        except urllib.error.HTTPError as e:
            with e:
                text, status = e.read(), e.code
        return status, json.loads(text) if text else None


class GrownServer(LiveServer):
    """A `hookside serve` whose start takes no time, since everything is read in already."""

    def __init__(self, folder: Path, readers: Path) -> None:
        super().__init__(folder)
        self.readers = readers

    def spawn(self) -> Any:
        _, _, _, *arguments = self.command()
        return Grown(arguments, self.environment(), self.readers)


@pytest.fixture(scope="session")
def reading(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Where the houses of this session have their reading processes from."""
    with readers(tmp_path_factory.mktemp("r") / "r") as at:
        yield at


@pytest.fixture
def reads_at_once(reading: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Houses of commands typed in this process have their reading process from there too."""
    from hookside.web import readings as room

    monkeypatch.setattr(room, "Readings", partial(room.Readings, reader_at(str(reading))))


@pytest.fixture
def server(tmp_path: Path, reading: Path) -> Iterator[GrownServer]:
    """A running server on an empty data folder."""
    live = GrownServer(tmp_path / "house", reading)
    live.start()
    yield live
    if live.process is not None:
        live.stop()


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """A real Chromium, headless: the one named by HOOKSIDE_CHROMIUM, else the system's."""
    from playwright.sync_api import sync_playwright

    path = os.environ.get("HOOKSIDE_CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
    assert path, "no Chromium here: tests/run.py finds or fetches one, or name one in HOOKSIDE_CHROMIUM"
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=CHROMIUM)
        yield browser
        browser.close()
