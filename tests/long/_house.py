"""For the scripts beside it: a server of its own, and lines to it that speak Socket.IO without a page.

The lines are written on plain sockets, so that two hundred of them take little of the machine they measure:
RFC 6455 for the frames, https://socket.io/docs/v4/engine-io-protocol and socket-io-protocol for what is in them.
"""

from __future__ import annotations

import argparse
import asyncio
import base64
import json
import os
import platform
import random
import re
import signal
import socket
import struct
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any

HERE = Path(__file__).resolve().parent
SERVER = HERE.parents[1] / "server"
sys.path[:0] = [str(HERE.parent / "vectors"), str(SERVER)]

from laying import Round, group, lay  # noqa: E402

from hookside.follow import Order  # noqa: E402
from hookside.journal import Journal  # noqa: E402

STRAND = lay("mooring", [Round(str(n), [group("sc", 2000)], plain=True) for n in range(1, 201)])
RUN = "p1.c1"


def begin(folder: Path, makings: int) -> list[int]:
    """Makings of one long strand in a fresh folder; their ids."""
    journal = Journal.open(folder)
    pattern = journal.add_pattern("demo", "US", "yours")
    laid = [SimpleNamespace(run=RUN, piece="mooring", copy=1, copies=1, strand=STRAND)]
    choices = SimpleNamespace(terms=None, hand="right", order=Order())
    made = [journal.begin(pattern, f"Mooring {n}", laid, choices) for n in range(1, makings + 1)]
    journal.close()
    return made


def move(id: str, device: str, seq: int, making: int, base: int, **more: Any) -> dict[str, Any]:
    """One stitch on."""
    return {
        "id": id, "device": device, "device_seq": seq, "making": making, "run": RUN, "strand": STRAND.id,
        "base": base, "intent": "next", "unit": "stitch", **more,
    }  # fmt: skip


def spare_port() -> int:
    """A free port that nobody else is given while a killed server is away: none of the usual ones, which another
    Hookside of this machine would take, and none that the system hands to connections (RFC 6335: from 49152; Linux:
    from 32768), one of which could even meet itself there."""
    while True:
        port = random.randrange(20_000, 30_000)
        with suppress(OSError), socket.create_server(("127.0.0.1", port)):
            return port


class House:
    """A server in a process of its own, on a port that it keeps when it is started again."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.port = folder, spare_port()
        self.process: subprocess.Popen[str] | None = None
        self.log = (folder.parent / f"{folder.name}.log").open("a")
        self.start()

    def start(self) -> None:
        words = [sys.executable, "-P", "-c", "from hookside.cli import main; main()", "serve", "--no-browser"]
        words += ["--folder", str(self.folder), "--port", str(self.port)]
        environment = {**os.environ, "PYTHONPATH": str(SERVER), "PYTHONDONTWRITEBYTECODE": "1"}
        self.process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=self.log, text=True, env=environment)
        assert self.process.stdout is not None
        said = ""
        for line in self.process.stdout:
            said += line
            if f"http://127.0.0.1:{self.port}" in line:
                return
        told = Path(self.log.name).read_text("utf-8", "replace")[-2000:]
        raise RuntimeError(f"the server did not start: {said}{told}")

    @property
    def pid(self) -> int:
        assert self.process is not None
        return self.process.pid

    def kill(self) -> None:
        assert self.process is not None
        self.process.kill()
        self.process.wait()

    def ask(self, path: str) -> Any:
        with urllib.request.urlopen(f"http://127.0.0.1:{self.port}{path}", timeout=30) as answer:
            return json.load(answer)

    def resident(self) -> float:
        """Megabytes in memory; 0 where the system does not tell."""
        with suppress(OSError):
            pages = int(Path(f"/proc/{self.pid}/statm").read_text().split()[1])
            return pages * os.sysconf("SC_PAGE_SIZE") / 1e6
        return 0.0

    def worked(self) -> float:
        """Seconds of processor the server has taken; 0 where the system does not tell."""
        with suppress(OSError):
            fields = Path(f"/proc/{self.pid}/stat").read_text().rsplit(")", 1)[1].split()
            return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")
        return 0.0

    def stumbled(self) -> list[str]:
        """Lines of its log that tell of a fault."""
        self.log.flush()
        text = Path(self.log.name).read_text("utf-8", "replace")
        return [line for line in text.splitlines() if "Traceback" in line or "stumbled" in line]

    def close(self) -> None:
        assert self.process is not None
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
            with suppress(subprocess.TimeoutExpired):
                self.process.wait(15)
        if self.process.poll() is None:
            self.kill()
        self.log.close()


@contextmanager
def serving(folder: Path) -> Iterator[House]:
    house = House(folder)
    try:
        yield house
    finally:
        house.close()


class Cut(Exception):
    """The line is not there any more."""


class Line:
    """A page's socket: `ask` sends an event and waits for its acknowledgement."""

    def __init__(self, port: int, through: int | None = None) -> None:
        self.port, self.through = port, through or port
        self.asked = 0
        self.waiting: dict[int, asyncio.Future[Any]] = {}
        self.heard: list[tuple[str, Any]] = []
        self.over = False

    async def open(self) -> Line:
        try:
            self.reader, self.writer = await asyncio.open_connection("127.0.0.1", self.through)
            key = base64.b64encode(os.urandom(16)).decode()
            host = f"127.0.0.1:{self.port}"
            self.writer.write(
                f"GET /socket.io/?EIO=4&transport=websocket HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\n"
                f"Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Key: {key}\r\n"
                "Sec-WebSocket-Version: 13\r\n\r\n".encode()
            )
            head = await asyncio.wait_for(self.reader.readuntil(b"\r\n\r\n"), 20)
            if b" 101 " not in head.split(b"\r\n")[0]:
                raise Cut(head.split(b"\r\n")[0].decode())
            self.listening = asyncio.create_task(self.listen())
            self.ready: asyncio.Future[None] = asyncio.get_running_loop().create_future()
            self.say("40")
            await asyncio.wait_for(self.ready, 20)
        except (OSError, asyncio.IncompleteReadError, TimeoutError) as error:
            self.close()
            raise Cut(str(error)) from error
        except Cut:
            self.close()
            raise
        return self

    async def listen(self) -> None:
        try:
            while True:
                first, second = await self.reader.readexactly(2)
                size = second & 0x7F
                if size == 126:
                    (size,) = struct.unpack(">H", await self.reader.readexactly(2))
                elif size == 127:
                    (size,) = struct.unpack(">Q", await self.reader.readexactly(8))
                body = await self.reader.readexactly(size)
                if first & 0xF == 8:
                    raise Cut
                if first & 0xF == 9:
                    self.frame(10, body)
                elif first & 0xF == 1:
                    self.took(body.decode())
        except (OSError, asyncio.IncompleteReadError, Cut):
            pass
        finally:
            self.over = True
            for future in [*self.waiting.values(), self.ready]:
                if not future.done():
                    future.set_exception(Cut())
                    future.exception()  # who waits is told; nobody need wait

    def took(self, text: str) -> None:
        if text == "2":
            self.say("3")
        elif text.startswith("40"):
            self.ready.set_result(None)
        elif text.startswith("43"):
            number, body = re.match(r"43(\d+)(.*)", text, re.S).groups()  # type: ignore[union-attr]
            future = self.waiting.pop(int(number), None)
            if future is not None and not future.done():
                future.set_result(json.loads(body)[0])
        elif text.startswith("42"):
            event, *data = json.loads(text[2:])
            self.heard.append((event, data[0] if data else None))

    def frame(self, kind: int, body: bytes) -> None:
        size = len(body)
        head = bytes([0x80 | kind])
        if size < 126:
            head += bytes([0x80 | size])
        elif size < 1 << 16:
            head += bytes([0x80 | 126]) + struct.pack(">H", size)
        else:
            head += bytes([0x80 | 127]) + struct.pack(">Q", size)
        mask = os.urandom(4)
        whole = int.from_bytes(body, "big") ^ int.from_bytes((mask * (size // 4 + 1))[:size], "big")
        self.writer.write(head + mask + whole.to_bytes(size, "big"))

    def say(self, text: str) -> None:
        self.frame(1, text.encode())

    async def ask(self, event: str, data: Any, patience: float = 20.0) -> Any:
        """Raises Cut where no answer comes."""
        if self.over:
            raise Cut
        self.asked += 1
        number = self.asked
        future = self.waiting[number] = asyncio.get_running_loop().create_future()
        try:
            self.say(f"42{number}{json.dumps([event, data])}")
            return await asyncio.wait_for(future, patience)
        except (OSError, TimeoutError) as error:
            raise Cut(str(error)) from error
        finally:
            self.waiting.pop(number, None)

    async def join(self, making: int, device: str, epoch: str = "", head: int = 0) -> Any:
        about = {"making": making, "device": device, "device_name": device, "epoch": epoch, "head": head}
        return await self.ask("join", about)

    def close(self) -> None:
        self.over = True
        if hasattr(self, "writer"):
            with suppress(Exception):
                self.writer.transport.abort()
        if hasattr(self, "listening"):
            self.listening.cancel()


def about() -> dict[str, Any]:
    """What the numbers were measured on, when, and how many processes wanted the processor meanwhile."""
    busy = os.getloadavg() if hasattr(os, "getloadavg") else ()
    return {
        "load_average": [round(one, 1) for one in busy],  # of the last 1, 5 and 15 minutes
        "machine": f"{platform.machine()}, {os.cpu_count()} cores, {platform.system()} {platform.release()}, "
        f"Python {platform.python_version()}",
        "date": datetime.now(UTC).date().isoformat(),
    }


def finish(result: dict[str, Any], good: bool, out: Path | None) -> int:
    """Print the result as the last line, keep it where asked; the exit code."""
    text = json.dumps({**result, **about()}) + "\n"
    if out:
        out.write_text(text, "utf-8")
    sys.stdout.write(text)
    sys.stdout.flush()
    return 0 if good else 1


def percentile(values: list[float], share: float) -> float:
    """The value that `share` of all do not exceed."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def now() -> float:
    return time.perf_counter()


def kept(folder: Path, making: int, **more: Any) -> dict[str, Any]:
    """What the journal of a house has once it is shut: {…more, place, rows, wrong} of a making that began alone."""
    journal = Journal.open(folder)
    snapshot = journal.snapshot(making)
    assert snapshot is not None
    found = {"place": snapshot["state"]["runs"][RUN]["at"], "rows": journal.count_rows() - 1, "wrong": journal.check()}
    journal.close()
    return {**more, **found}


def asked_of(what: str | None, count: int) -> argparse.Namespace:
    """--count and --out of a script whose head tells them."""
    parser = argparse.ArgumentParser(description=what, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=count)
    parser.add_argument("--out", type=Path)
    return parser.parse_args()
