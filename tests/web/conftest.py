"""A whole house in this process: journal, application, server, and clients that speak to it over real sockets."""

from __future__ import annotations

import http.client
import itertools
import json
import secrets
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import socketio

from hookside.journal import Journal
from hookside.web.address import Address
from hookside.web.app import create_app
from hookside.web.doors import Doors
from hookside.web.port import listen
from hookside.web.readings import Readings
from hookside.web.serving import Server

sys.path.insert(0, str(Path(__file__).resolve().parent))  # tests of the doors share callers.py and network.py

# demo
BUOY = """Mooring buoy

Materials: red cotton, 3 mm hook

BUOY (make 2)
Round 1: 6 sc in magic ring (6)
Round 2: inc x 6 (12)
Round 3: (sc, inc) x 6 (18)
Rounds 4-6: sc in each st around (18)
Stuff firmly.
Round 7: (sc, dec) x 6 (12)
Round 8: dec x 6 (6)
Fasten off, leaving a long tail for sewing.
"""


class Device:
    """A page's socket, without a page."""

    def __init__(self, house: House, name: str) -> None:
        self.house = house
        self.id = secrets.token_hex(8)
        self.name = name
        self.seq = itertools.count(1)
        self.heard: list[dict[str, Any]] = []
        self.news = threading.Event()
        self.line = socketio.Client(reconnection=False)
        self.line.on("rows", self.hear)
        for event, heard in house.listening.items():
            self.line.on(event, heard)
        self.line.connect(house.url, transports=["websocket"])
        self.wire = self.line.eio.ws
        self.raw = self.wire.sock

    def close(self) -> None:
        self.wire.close(timeout=0)  # at once: this client would wait seconds for an answer it has read already
        self.line.disconnect()
        self.raw.close()

    def hear(self, rows: dict[str, Any]) -> None:
        self.heard.append(rows)
        self.news.set()

    def ask(self, event: str, data: Any) -> Any:
        return self.line.call(event, data, timeout=20)

    def join(self, making: int, epoch: str = "", head: int = 0) -> dict[str, Any]:
        about = {"making": making, "device": self.id, "device_name": self.name, "epoch": epoch, "head": head}
        answer: dict[str, Any] = self.ask("join", about)
        return answer

    def move(self, snapshot: dict[str, Any], intent: str, base: int | None = None, **more: Any) -> dict[str, Any]:
        """A move as a page would make it; not sent yet."""
        run = snapshot["runs"][0]
        return {
            "id": secrets.token_hex(16), "device": self.id, "device_seq": next(self.seq), "making": snapshot["id"],
            "run": run["run"], "strand": run["strand"], "base": snapshot["head"] if base is None else base,
            "intent": intent, **more,
        }  # fmt: skip

    def send(self, *moves: dict[str, Any]) -> dict[str, Any]:
        answer: dict[str, Any] = self.ask("moves", {"epoch": self.house.journal.epoch, "moves": list(moves)})
        return answer


class House:
    """One server on a journal of its own."""

    text = BUOY

    def __init__(self, folder: Path, readings: Readings, static: Path | None = None) -> None:
        self.journal = Journal.open(folder)
        listener = listen(0)
        self.address = Address(listener.getsockname()[1])
        self.url = self.address.url
        self.doors = Doors(folder, self.address)
        self.app, self.socket = create_app(self.journal, static, self.doors, readings)
        self.ears = self.app.extensions["hookside.ears"]
        self.server = Server(listener, self.app)
        self.thread = threading.Thread(target=self.server.serve_forever, args=(0.02,))
        self.thread.start()
        self.devices: list[Device] = []
        self.listening: dict[str, Callable[[Any], object]] = {}  # what the next device hears besides

    def device(self, name: str = "tablet") -> Device:
        self.devices.append(Device(self, name))
        return self.devices[-1]

    def raw(
        self, method: str, path: str, body: bytes | None = None, headers: dict[str, str] | None = None
    ) -> tuple[int, dict[str, str], bytes]:
        """One request as it is. Returns (status, headers, body)."""
        line = http.client.HTTPConnection("127.0.0.1", self.address.port, timeout=30)
        try:
            line.request(method, path, body, headers or {})
            answer = line.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read()
        finally:
            line.close()

    def ask(self, method: str, path: str, body: Any = None) -> tuple[int, Any]:
        """One JSON request. Returns (status, what was answered)."""
        sent = None if body is None else json.dumps(body).encode()
        headers = {} if body is None else {"Content-Type": "application/json"}
        status, _, text = self.raw(method, path, sent, headers)
        return status, json.loads(text)

    def begin(self, text: str = text) -> int:
        """Put a text on the shelf and begin a making of it."""
        status, pattern = self.ask("POST", "/api/patterns", {"text": text, "terms": None})
        assert status == 200, pattern
        status, making = self.ask("POST", "/api/makings", {"pattern": pattern["id"], "order": {"kind": "one"}})
        assert status == 200, making
        return int(making["id"])

    def close(self) -> None:
        for device in self.devices:
            device.close()
        self.doors.sharing.end()
        self.server.shutdown()
        self.thread.join()
        self.ears.shut()
        self.journal.close()


@pytest.fixture(scope="session")
def readings() -> Iterator[Readings]:
    made = Readings()
    yield made
    made.close()


@pytest.fixture
def new_house(tmp_path: Path) -> Iterator[Callable[..., House]]:
    """Makes a house that reads in a way of its own."""
    made: list[House] = []

    def make(readings: Readings, static: Path | None = None) -> House:
        made.append(House(tmp_path / "data", readings, static))
        return made[-1]

    yield make
    for house in made:
        house.close()


@pytest.fixture
def house(new_house: Callable[..., House], readings: Readings) -> House:
    return new_house(readings)
