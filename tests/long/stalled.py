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
import multiprocessing
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


def trusting(authority: bytes) -> ssl.SSLContext:
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    context.load_verify_locations(cadata=authority)
    return context


class Tablet:
    """A good client: paired, with a socket that stays open."""

    def __init__(self, here: int) -> None:
        self.here, self.cookie = here, ""
        state = self.at_home("GET", "/api/share")
        self.port = int(state["addresses"][0].rsplit(":", 1)[1])
        plain = int(re.findall(r":(\d+)/", state["trust"])[0])
        with urllib.request.urlopen(f"http://{PLACE}:{plain}/hookside.crt", timeout=30) as file:
            self.authority = file.read()
        self.context = trusting(self.authority)
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


KINDS = (
    "here: no bytes", "here: half a head", "here: half a body",
    "house: no bytes", "house: half a handshake", "house: half a head", "house: half a body",
)  # fmt: skip


def stalls(here: int, house: int, authority: bytes) -> dict[str, Callable[[str], socket.socket]]:
    """How to make each kind, from an address. `here`, `house`: the listeners' ports."""
    half, context = hello(), trusting(authority)

    def plain(port: int, said: bytes) -> Callable[[str], socket.socket]:
        def make(source: str) -> socket.socket:
            line = socket.create_connection((PLACE, port), 10, (source, 0))
            line.sendall(said)
            return line

        return make

    def secure(said: bytes) -> Callable[[str], socket.socket]:
        def make(source: str) -> socket.socket:
            raw = socket.create_connection((PLACE, house), 10, (source, 0))
            line = context.wrap_socket(raw, server_hostname=PLACE)
            line.sendall(said)
            return line

        return make

    head = {port: HEAD % (PLACE.encode(), port) for port in (here, house)}
    made = (
        plain(here, b""), plain(here, head[here]), plain(here, head[here] + b'\r\n{"shown": '),
        plain(house, b""), plain(house, half), secure(head[house]), secure(head[house] + b'\r\n{"shown": '),
    )  # fmt: skip
    return dict(zip(KINDS, made, strict=True))


def hold(kind: str, where: tuple[int, int, bytes], count: int, over: Any, full: Any, opened: Any) -> None:
    """Hold that many open until it is over, in a process of its own: it must not take the tablet's time."""
    many_handles()
    make = stalls(*where)[kind]
    lines: list[socket.socket] = []
    while not over.is_set():
        while len(lines) < count and not over.is_set():
            with suppress(OSError):
                lines.append(make(f"127.0.1.{opened.value % ADDRESSES + 1}"))
                opened.value += 1
        full.set()
        watch = select.poll()
        by_handle = {line.fileno(): line for line in lines}
        for handle in by_handle:
            watch.register(handle, select.POLLIN | select.POLLHUP)
        for handle, _ in watch.poll(100):
            line = by_handle[handle]
            try:
                line.setblocking(False)
                ended = not line.recv(4096)
            except (ssl.SSLWantReadError, BlockingIOError):
                ended = False  # a ticket of TLS was all
            except OSError:
                ended = True
            if not ended:
                continue
            line.close()
            lines.remove(line)
    for line in lines:
        line.close()


@contextmanager
def held(kind: str, where: tuple[int, int, bytes], count: int) -> Iterator[Any]:
    """Have that many held open; tells how many were opened in all."""
    new = multiprocessing.get_context("spawn")
    over, full, opened = new.Event(), new.Event(), new.Value("i", 0)
    process = new.Process(target=hold, args=(kind, where, count, over, full, opened))
    process.start()
    try:
        if not full.wait(120):
            raise RuntimeError(f"only {opened.value} of {count} could be opened")
        yield opened
    finally:
        over.set()
        process.join()


def many_handles() -> None:
    import resource

    most = resource.getrlimit(resource.RLIMIT_NOFILE)[1]
    resource.setrlimit(resource.RLIMIT_NOFILE, (min(8192, most), most))


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
    with tempfile.TemporaryDirectory(prefix="hookside-stalled-") as folder, server(Path(folder)) as port:
        tablet = Tablet(port)
        seen = {"alone": beside(tablet, seconds)}
        for name in KINDS:
            with held(name, (port, tablet.port, tablet.authority), count) as opened:
                seen[name] = beside(tablet, seconds) | {"opened": opened.value}
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
