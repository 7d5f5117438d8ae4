"""Holds 500 stalled connections of each kind open against a running server, and asks it things beside them.

    python tests/long/stalled.py [--count 500] [--seconds 15] [--out FILE]

Kinds: no bytes at all, half a handshake of TLS, half the head of a request, half its body; at this machine's own
listener and at the network's, where they come from fifty addresses. What the server drops is opened again at once.
Meanwhile a paired tablet opens connections of its own and asks over a socket that stays open. The last line printed
is the result as JSON: milliseconds alone and beside the stalled ones; exit 1 when anything failed.
"""

from __future__ import annotations

import argparse
import http.client
import json
import os
import platform
import re
import select
import signal
import socket
import ssl
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import socketio

HERE = Path(__file__).resolve().parent
PLACE = "127.0.0.1"
ADDRESSES = 50
HEAD = b"POST /api/pair/knock HTTP/1.1\r\nHost: %s:%d\r\nContent-Type: application/json\r\nContent-Length: 400\r\n"


class Tablet:
    """A good client: paired, with a socket that stays open."""

    def __init__(self, here: int) -> None:
        self.here, self.cookie = here, ""
        state = self.at_home("GET", "/api/share")
        self.port = int(state["addresses"][0].rsplit(":", 1)[1])
        plain = int(re.findall(r":(\d+)/", state["trust"])[0])
        with urllib.request.urlopen(f"http://{PLACE}:{plain}/hookside.crt", timeout=30) as file:
            self.context = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
            self.context.load_verify_locations(cadata=file.read())
        link = self.at_home("POST", "/api/share/invite")["url"].split("#")[1]
        knock = self.ask("POST", "/api/pair/knock", {"shown": link, "name": "tablet"})
        waiting = self.at_home("GET", "/api/share")["knocking"][0]["id"]
        self.at_home("POST", "/api/share/answer", {"knock": waiting, "let_in": True})
        self.ask("POST", "/api/pair/ask", {"knock": knock["knock"]})
        options = {"sslopt": {"context": self.context}, "origin": f"https://{PLACE}:{self.port}"}
        self.line = socketio.Client(reconnection=False, websocket_extra_options=options)
        self.line.connect(f"https://{PLACE}:{self.port}", headers={"Cookie": self.cookie}, transports=["websocket"])

    def at_home(self, method: str, path: str, body: Any = None) -> Any:
        """One request at this machine's own listener."""
        return self._ask(http.client.HTTPConnection(PLACE, self.here, timeout=20), method, path, body)

    def ask(self, method: str, path: str, body: Any = None) -> Any:
        """One request over a new connection of TLS."""
        line = http.client.HTTPSConnection(PLACE, self.port, timeout=20, context=self.context)
        return self._ask(line, method, path, body)

    def _ask(self, line: http.client.HTTPConnection, method: str, path: str, body: Any) -> Any:
        try:
            headers = {"Content-Type": "application/json", **({"Cookie": self.cookie} if self.cookie else {})}
            line.request(method, path, None if body is None else json.dumps(body), headers)
            answer = line.getresponse()
            if answer.headers["Set-Cookie"]:
                self.cookie = answer.headers["Set-Cookie"].split(";")[0]
            text = answer.read()
            if answer.status != 200:
                raise RuntimeError(f"{path}: {answer.status} {text!r}")
            return json.loads(text)
        finally:
            line.close()

    def over_the_line(self) -> None:
        answer = self.line.call("join", {}, timeout=20)
        if answer["code"] != "malformed":
            raise RuntimeError(str(answer))


def hello() -> bytes:
    """The first half of what a client of TLS says first."""
    out = ssl.MemoryBIO()
    context = ssl.create_default_context()
    line = context.wrap_bio(ssl.MemoryBIO(), out, server_hostname=PLACE)
    with suppress(ssl.SSLWantReadError):
        line.do_handshake()
    said = out.read()
    return said[: len(said) // 2]


def stalls(tablet: Tablet) -> dict[str, Callable[[str], socket.socket]]:
    """How to make each kind, from an address."""
    half = hello()

    def plain(port: int, said: bytes) -> Callable[[str], socket.socket]:
        def make(source: str) -> socket.socket:
            line = socket.create_connection((PLACE, port), 10, (source, 0))
            line.sendall(said)
            return line

        return make

    def secure(said: bytes) -> Callable[[str], socket.socket]:
        def make(source: str) -> socket.socket:
            raw = socket.create_connection((PLACE, tablet.port), 10, (source, 0))
            line = tablet.context.wrap_socket(raw, server_hostname=PLACE)
            line.sendall(said)
            return line

        return make

    here, house = (HEAD % (PLACE.encode(), port) for port in (tablet.here, tablet.port))
    return {
        "here: no bytes": plain(tablet.here, b""),
        "here: half a head": plain(tablet.here, here),
        "here: half a body": plain(tablet.here, here + b'\r\n{"shown": '),
        "house: no bytes": plain(tablet.port, b""),
        "house: half a handshake": plain(tablet.port, half),
        "house: half a head": secure(house),
        "house: half a body": secure(house + b'\r\n{"shown": '),
    }


@contextmanager
def held(make: Callable[[str], socket.socket], count: int) -> Iterator[dict[str, int]]:
    """Hold that many open, until the block ends; tells how many had to be opened again."""
    over = threading.Event()
    full = threading.Event()
    told = {"opened": 0, "open": 0}

    def hold() -> None:
        lines: list[socket.socket] = []
        while not over.is_set():
            while len(lines) < count and not over.is_set():
                with suppress(OSError):
                    lines.append(make(f"127.0.1.{told['opened'] % ADDRESSES + 1}"))
                    told["opened"] += 1
                told["open"] = len(lines)
            full.set()
            watch = select.poll()
            by_handle = {line.fileno(): line for line in lines}
            for handle in by_handle:
                watch.register(handle, select.POLLIN | select.POLLHUP)
            for handle, _ in watch.poll(100):
                line = by_handle[handle]
                with suppress(OSError):
                    line.setblocking(False)
                    if line.recv(4096):
                        continue  # a ticket of TLS, or an answer before the end
                line.close()
                lines.remove(line)
        for line in lines:
            line.close()

    thread = threading.Thread(target=hold)
    thread.start()
    try:
        if not full.wait(120):
            raise RuntimeError(f"only {told['open']} of {count} could be opened")
        yield told
    finally:
        over.set()
        thread.join()


def beside(tablet: Tablet, seconds: float) -> dict[str, Any]:
    """What the tablet sees meanwhile, in milliseconds."""
    kinds: dict[str, Callable[[], Any]] = {
        "here": lambda: tablet.at_home("GET", "/api/maker"),
        "tls": lambda: tablet.ask("GET", "/api/maker"),
        "socket": tablet.over_the_line,
    }
    took: dict[str, list[float]] = {name: [] for name in kinds}
    failed = 0
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        for name, ask in kinds.items():
            begun = time.perf_counter()
            try:
                ask()
            except Exception as e:
                failed += 1
                print(f"  {name}: {e!r}", flush=True)
            took[name].append((time.perf_counter() - begun) * 1000)
        time.sleep(0.03)
    seen: dict[str, Any] = {
        name: {
            "p50": round(statistics.median(all_), 1),
            "p99": round(statistics.quantiles(all_, n=100)[98], 1),
            "most": round(max(all_), 1),
        }
        for name, all_ in took.items()
    }
    return seen | {"asked": sum(map(len, took.values())), "failed": failed}


@contextmanager
def server(folder: Path) -> Iterator[int]:
    """A `hookside serve --share` of its own."""
    env = dict(os.environ, PYTHONPATH=os.pathsep.join([str(HERE.parents[1] / "server"), *sys.path]))
    with socket.socket() as free:
        free.bind((PLACE, 0))
        port = free.getsockname()[1]
    where = ["--folder", str(folder), "--port", str(port), "--share", "--address", PLACE]
    command = [sys.executable, "-m", "hookside", "serve", "--no-browser", *where]
    with subprocess.Popen(command, env=env, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        for line in process.stdout:
            if "Shared with paired devices" in line:
                break
        drain = threading.Thread(target=process.stdout.read, daemon=True)
        drain.start()
        try:
            yield port
        finally:
            process.send_signal(signal.SIGTERM)
            process.wait(30)
            drain.join()


def run(count: int, seconds: float) -> dict[str, Any]:
    import resource

    most = resource.getrlimit(resource.RLIMIT_NOFILE)[1]
    resource.setrlimit(resource.RLIMIT_NOFILE, (min(8192, most), most))
    with tempfile.TemporaryDirectory(prefix="hookside-stalled-") as folder, server(Path(folder)) as port:
        tablet = Tablet(port)
        seen = {"alone": beside(tablet, seconds)}
        for name, make in stalls(tablet).items():
            with held(make, count) as told:
                seen[name] = beside(tablet, seconds) | {"opened": told["opened"]}
            print(f"{name}: {seen[name]}", flush=True)
        tablet.line.disconnect()
    slowest = max(seen[kind][way]["most"] for kind in seen for way in ("here", "tls", "socket"))
    return {
        "stalled": count,
        "seconds_each": seconds,
        "failed": sum(seen[kind]["failed"] for kind in seen),
        "slowest_ms": slowest,
        "seen": seen,
        "machine": f"{platform.machine()}, {os.cpu_count()} cores, {platform.system()} {platform.release()}, "
        f"Python {platform.python_version()}",
        "date": datetime.now(UTC).date().isoformat(),
    }


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=500)
    parser.add_argument("--seconds", type=float, default=15)
    parser.add_argument("--out", type=Path)
    asked = parser.parse_args()
    result = run(asked.count, asked.seconds)
    text = json.dumps(result) + "\n"
    if asked.out:
        asked.out.write_text(text, "utf-8")
    sys.stdout.write(text)
    return 1 if result["failed"] else 0


if __name__ == "__main__":
    sys.exit(main())
