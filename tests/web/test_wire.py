"""One connection's bytes: whole, in time, and by two threads at once."""

from __future__ import annotations

import socket
import ssl
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from hookside.web.keep import private_folder
from hookside.web.tls.authority import Authority
from hookside.web.wire import READ, Wire, wait


@pytest.fixture(params=["plain", "tls"])
def ends(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[tuple[Wire, socket.socket]]:
    """Our end as a wire, theirs as a socket that blocks."""
    ours, theirs = socket.socketpair()
    wire = Wire(ours, 20.0)
    if request.param == "tls":
        private_folder(tmp_path / "doors")
        authority = Authority(tmp_path / "doors", "hookside-kelp.local")
        trusting = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
        trusting.load_verify_locations(cadata=authority.file)
        shake = threading.Thread(target=wire.secure, args=(authority.leaf(["127.0.0.1"]),))
        shake.start()
        theirs = trusting.wrap_socket(theirs, server_hostname="127.0.0.1")
        shake.join()
    yield wire, theirs
    wire.close()
    theirs.close()


def take(line: socket.socket, size: int) -> bytes:
    got = bytearray()
    while len(got) < size:
        more = line.recv(65536)
        assert more
        got += more
    return bytes(got)


def test_a_message_goes_out_whole(ends: tuple[Wire, socket.socket]) -> None:
    wire, theirs = ends
    message = bytes(range(256)) * 4096  # more than any buffer on the way holds
    sent: list[int] = []
    thread = threading.Thread(target=lambda: sent.append(wire.send(message)))
    thread.start()
    assert take(theirs, len(message)) == message
    thread.join()
    assert sent == [len(message)]


def test_two_messages_at_once_do_not_mix_while_a_third_comes_in(ends: tuple[Wire, socket.socket]) -> None:
    wire, theirs = ends
    size, many = 300_000, 6
    heard: list[bytes] = []

    def listen() -> None:
        got = b""
        while len(got) < size:
            got += wire.recv(4096)
        heard.append(got)

    senders = [
        threading.Thread(target=lambda n=n: [wire.send(bytes([n]) * size) for _ in range(many)]) for n in (1, 2)
    ]
    talker = threading.Thread(target=theirs.sendall, args=(b"\x03" * size,))
    for thread in (*senders, talker):
        thread.start()
    listener = threading.Thread(target=listen)
    listener.start()
    for _ in range(2 * many):
        message = take_exactly(theirs, size)
        assert message == message[:1] * size
    for thread in (*senders, talker, listener):
        thread.join()
    assert heard == [b"\x03" * size]


def take_exactly(line: socket.socket, size: int) -> bytes:
    got = b""
    while len(got) < size:
        more = line.recv(size - len(got))
        assert more
        got += more
    return got


def test_one_deadline_for_all_of_a_stage(ends: tuple[Wire, socket.socket]) -> None:
    wire, theirs = ends
    wire.due(0.2)
    theirs.sendall(b"G")
    assert wire.recv(10) == b"G"
    with pytest.raises(TimeoutError):
        wire.recv(10)


def test_an_open_socket_lasts_while_something_comes(ends: tuple[Wire, socket.socket]) -> None:
    wire, theirs = ends
    wire.lasting(0.3)
    before = wire.until
    theirs.sendall(b"still here")
    assert wire.recv(100) == b"still here"
    assert wire.until > before
    with pytest.raises(TimeoutError):
        wire.recv(10)


def test_cutting_wakes_whoever_waits(ends: tuple[Wire, socket.socket]) -> None:
    wire, _ = ends
    heard: list[bytes] = []
    thread = threading.Thread(target=lambda: heard.append(wire.recv(10)))
    thread.start()
    wire.cut()
    thread.join(20)
    assert heard == [b""]


def test_closed_by_another_thread_is_an_end_like_others(ends: tuple[Wire, socket.socket]) -> None:
    wire, _ = ends
    told: list[object] = []

    def listen() -> None:
        try:
            told.append(wire.recv(10))
        except OSError as e:
            told.append(e)

    threads = [threading.Thread(target=listen) for _ in range(8)]
    for thread in threads:
        thread.start()
    wire.farewell()
    wire.close()
    for thread in threads:
        thread.join(20)
    assert len(told) == 8  # each ended, with nothing or with an OSError, which every reader knows
    with pytest.raises(OSError, match=r"closed|descriptor"):
        wire.send(b"gull")
    with pytest.raises(ConnectionAbortedError):
        wait(wire.fileno(), READ, 1.0)


def test_a_client_that_hangs_up_is_the_end(ends: tuple[Wire, socket.socket]) -> None:
    wire, theirs = ends
    theirs.close()
    assert wire.recv(10) == b""


def test_half_a_handshake_ends_in_time(tmp_path: Path) -> None:
    private_folder(tmp_path / "doors")
    context = Authority(tmp_path / "doors", "hookside-kelp.local").leaf(["127.0.0.1"])
    ours, theirs = socket.socketpair()
    with theirs:
        wire = Wire(ours, 0.1)
        theirs.sendall(b"\x16\x03\x01\x02\x00\x01")  # a record of TLS that says it goes on
        with pytest.raises(TimeoutError):
            wire.secure(context)
        wire.close()
