"""The server: silent and numerous connections do not hold up anybody."""

from __future__ import annotations

import http.client
import json
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack

import pytest

from hookside.web import serving
from hookside.web.pace import Paces
from hookside.web.port import listen
from hookside.web.serving import Server

held, arrived = threading.Event(), threading.Semaphore(0)


def app(environ, start_response):  # type: ignore[no-untyped-def]
    environ["hookside.caller"].arrived()
    if environ["PATH_INFO"] == "/hold":
        arrived.release()
        held.wait(30)
    if environ["PATH_INFO"] == "/stumble":
        raise RuntimeError("on purpose")
    start_response("200 OK", [("Content-Type", "text/plain"), ("Content-Length", "2")])
    return [b"ok"]


@pytest.fixture
def small() -> Iterator[Server]:
    """A server that takes eight connections at once."""
    server = Server(listen(0), app, most=8)
    thread = threading.Thread(target=server.serve_forever, args=(0.02,))
    thread.start()
    yield server
    server.shutdown()
    thread.join()


def ask(server: Server, path: str = "/") -> tuple[int, bytes]:
    line = http.client.HTTPConnection("127.0.0.1", server.port, timeout=10)
    try:
        line.request("GET", path)
        answer = line.getresponse()
        return answer.status, answer.read()
    finally:
        line.close()


def test_stalled_connections_hold_nobody_up(small: Server) -> None:
    with ExitStack() as stack:
        for half in (b"", b"GET", b"GET / HTTP/1.1\r\nHost: x"):
            stalled = stack.enter_context(socket.create_connection(("127.0.0.1", small.port)))
            stalled.sendall(half)
        assert ask(small) == (200, b"ok")


def test_the_longest_silent_gives_way(small: Server) -> None:
    with ExitStack() as stack:
        silent = []
        for _ in range(8):
            silent.append(stack.enter_context(socket.create_connection(("127.0.0.1", small.port), timeout=10)))
            silent[-1].sendall(b"GET")
        for waiting in (silent[0], silent[1]):
            assert ask(small) == (200, b"ok")
            assert waiting.recv(1) == b""
        for _ in range(50):
            assert ask(small) == (200, b"ok")


def test_where_all_are_being_answered_one_more_is_turned_away(small: Server) -> None:
    with ExitStack() as stack:
        stack.callback(held.set)
        for _ in range(8):
            line = stack.enter_context(socket.create_connection(("127.0.0.1", small.port), timeout=10))
            line.sendall(b"GET /hold HTTP/1.1\r\nHost: x\r\n\r\n")
        assert all(arrived.acquire(timeout=20) for _ in range(8))
        with socket.create_connection(("127.0.0.1", small.port), timeout=10) as ninth:
            assert ninth.recv(1) == b""
    for _ in range(100):
        try:
            assert ask(small) == (200, b"ok")
            break
        except (OSError, http.client.HTTPException):
            continue
    else:
        raise AssertionError("the server never let anybody in again")


def test_silence_ends(small: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving, "PATIENCE", 0.05)
    with socket.create_connection(("127.0.0.1", small.port), timeout=10) as silent:
        assert silent.recv(1) == b""


def test_a_trickle_ends_as_silence_does(small: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    # A time-out of the socket's own would begin anew with every byte.
    monkeypatch.setattr(serving, "PATIENCE", 0.3)
    with socket.create_connection(("127.0.0.1", small.port), timeout=10) as slow:
        slow.settimeout(0.02)
        for _ in range(1000):
            try:
                slow.sendall(b"G")
                if slow.recv(1) == b"":
                    break
            except TimeoutError:
                continue
            except ConnectionError:
                break
        else:
            raise AssertionError("it was listened to for ever")


def test_only_callers_at_our_own_addresses_are_heard() -> None:
    # It is asked which address of ours they came to, not where they come from.
    server = Server(listen(0), app, at=lambda address: address == "127.0.0.2")
    thread = threading.Thread(target=server.serve_forever, args=(0.02,))
    thread.start()
    try:
        with socket.create_connection(("127.0.0.1", server.port), timeout=10) as line:
            assert line.recv(1) == b""
    finally:
        server.shutdown()
        thread.join()


def test_one_address_opens_only_so_many_in_a_while() -> None:
    server = Server(listen(0), app, arrivals=Paces(rate=0.001, most=3))
    thread = threading.Thread(target=server.serve_forever, args=(0.02,))
    thread.start()
    try:
        assert [ask(server) for _ in range(3)] == [(200, b"ok")] * 3
        with socket.create_connection(("127.0.0.1", server.port), timeout=10) as line:
            assert line.recv(1) == b""
    finally:
        server.shutdown()
        thread.join()


def test_packets_go_out_at_once() -> None:
    assert serving.Handler.disable_nagle_algorithm


def test_requests_leave_no_trace_but_faults_do(small: Server, capfd: pytest.CaptureFixture[str]) -> None:
    assert ask(small, "/?secret=1")[0] == 200
    said = capfd.readouterr()
    assert said.out + said.err == ""
    assert ask(small, "/stumble")[0] == 500
    told, until = "", time.monotonic() + 20  # the answer may be here before the line is written
    while "on purpose" not in told and time.monotonic() < until:
        time.sleep(0.02)
        told += capfd.readouterr().err
    assert "on purpose" in told


@pytest.mark.parametrize(
    "bytes_",
    [b"\0" * 500, b"GET / HTTP/9.9\r\n\r\n", b"GET " + b"a" * 70000 + b" HTTP/1.1\r\n\r\n", b"\r\n" * 50,
     b"GET / HTTP/1.1\r\n" + b"A: b\r\n" * 200 + b"\r\n", "GET /\u00fc HTTP/1.1\r\nHost: \u00fc\r\n\r\n".encode()],
    ids=["zeros", "version", "long", "empty", "headers", "not-ascii"],
)  # fmt: skip
def test_nonsense_is_survived(small: Server, bytes_: bytes) -> None:
    with socket.create_connection(("127.0.0.1", small.port), timeout=10) as line:
        line.sendall(bytes_)
        line.shutdown(socket.SHUT_WR)
        try:
            while line.recv(4096):
                pass
        except ConnectionResetError:
            pass
    assert ask(small) == (200, b"ok")


@pytest.mark.parametrize(
    ("bytes_", "status", "say"),
    [
        (b"GET /" + b"a" * 70000 + b" HTTP/1.1\r\n\r\n", b"414", "That address is too long."),
        (b"\x16\x03\x01 gulls and seals HTTP\r\n\r\n", b"400", "That is no request Hookside understands."),
        (b"GET / HTTP/9.9\r\n\r\n", b"505", "That is no request Hookside understands."),
    ],
    ids=["long", "garbage", "version"],
)
def test_what_is_no_request_is_answered_in_words(small: Server, bytes_: bytes, status: bytes, say: str) -> None:
    with socket.create_connection(("127.0.0.1", small.port), timeout=10) as line:
        line.sendall(bytes_)
        line.shutdown(socket.SHUT_WR)
        told = b""
        try:
            while more := line.recv(4096):
                told += more
        except ConnectionResetError:
            pass  # it did not read all of what was sent
    head, _, body = told.rpartition(b"\r\n\r\n")
    assert json.loads(body) == {"say": say, "code": status.decode()}
    assert head == b"" or status in head.split(b"\r\n")[0]
