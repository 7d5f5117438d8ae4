"""One connection's bytes, plain or over TLS, under one clock.

A socket's own time-out counts from each byte: who sends one every nine seconds keeps a ten second time-out waiting
for ever. Here all that belongs to one stage (the handshake, the head of a request, its body) has one deadline.

The socket below never blocks. A socket message may be read by one thread while another writes; OpenSSL does not
allow that on one connection, so each short step into it is taken under a lock, and the waiting happens outside.
"""

from __future__ import annotations

import io
import select
import socket
import ssl
import threading
import time
from contextlib import suppress
from typing import Any

SENDING = 30.0  # seconds for one answer, or one message, to be taken
READ, WRITE = 1, 2
WANTING = (BlockingIOError, ssl.SSLWantReadError, ssl.SSLWantWriteError)


def wait(handle: int, what: int, seconds: float) -> bool:
    """Whether the socket became ready in time. `select` alone cannot watch handles above 1023 on Unix.

    Raises OSError where it was closed meanwhile by another thread.
    """
    if handle < 0:
        raise ConnectionAbortedError("closed")
    if hasattr(select, "poll"):
        watch = select.poll()
        watch.register(handle, select.POLLIN if what == READ else select.POLLOUT)
        return bool(watch.poll(seconds * 1000))
    reading, writing = ([handle], []) if what == READ else ([], [handle])
    return any(select.select(reading, writing, [], seconds))


class Wire:
    """The connection as the server's library wants to see a socket. `until`: when what it waits for must be here."""

    def __init__(self, sock: socket.socket, seconds: float) -> None:
        sock.setblocking(False)
        self.sock = sock
        self.turn = threading.Lock()
        self.sending = threading.Lock()  # a message goes out whole before another begins
        self.quiet: float | None = None  # seconds of silence allowed from now on, instead of one deadline
        self.until = 0.0
        self.due(seconds)

    def due(self, seconds: float) -> None:
        """All that comes next must have come in this many seconds."""
        self.quiet, self.until = None, time.monotonic() + seconds

    def lasting(self, quiet: float) -> None:
        """An open socket from here on: it lasts as long as it is never silent for `quiet` seconds."""
        self.quiet, self.until = quiet, time.monotonic() + quiet

    def secure(self, context: ssl.SSLContext) -> None:
        """The handshake of TLS. Raises OSError (of which ssl.SSLError and TimeoutError are kinds)."""
        with self.turn:
            made = context.wrap_socket(self.sock, server_side=True, do_handshake_on_connect=False)
            self.sock = made
        self._step(made.do_handshake, self.until)

    def _step(self, work: Any, until: float) -> Any:
        """Do it without blocking, as often as it takes. Raises TimeoutError."""
        while True:
            try:
                with self.turn:
                    return work()
            except WANTING as e:
                what = WRITE if isinstance(e, ssl.SSLWantWriteError) else READ
                left = until - time.monotonic()
                if left <= 0 or not wait(self.fileno(), what, left):
                    raise TimeoutError("nothing came in time") from None

    def recv(self, size: int) -> bytes:
        """As a socket's: what is there, at least one byte, or none at the end."""
        try:
            got: bytes = self._step(lambda: self.sock.recv(size), self.until)
        except (ssl.SSLEOFError, ssl.SSLZeroReturnError):
            return b""  # hung up without a word of farewell, as browsers do
        if self.quiet is not None:
            self.until = time.monotonic() + self.quiet
        return got

    def send(self, data: Any) -> int:
        """All of it: over TLS a plain `send` takes 16 kB at most, and who calls us does not look."""
        view, until = memoryview(data).cast("B"), time.monotonic() + SENDING
        rest = view
        with self.sending:
            while rest:
                rest = rest[self._send(rest, until) :]
        return len(view)

    def _send(self, data: memoryview, until: float) -> int:
        while True:
            try:
                with self.turn:
                    return self.sock.send(data)
            except WANTING as e:
                what = READ if isinstance(e, ssl.SSLWantReadError) else WRITE
                left = until - time.monotonic()
                if left <= 0 or not wait(self.fileno(), what, left):
                    raise TimeoutError("nobody took it in time") from None

    sendall = send

    def makefile(self, mode: str, buffering: int = -1) -> io.BufferedReader:
        assert mode == "rb", "only reading is wanted of it"
        return io.BufferedReader(Raw(self))

    def cut(self) -> None:
        """End it from any thread: whoever waits on it wakes up."""
        with self.turn:
            self._cut()

    def _cut(self) -> None:
        with suppress(OSError):  # it may have ended
            # Of the plain socket: that of TLS would turn to speaking in the clear.
            socket.socket.shutdown(self.sock, socket.SHUT_RDWR)

    def farewell(self) -> None:
        """Say that no more comes, and end it; nobody waits for an answer to that."""
        with self.turn:
            with suppress(OSError, ValueError):
                if isinstance(self.sock, ssl.SSLSocket):
                    self.sock.unwrap()
            self._cut()  # in the same turn: unwrapped, the socket would send in the clear

    def close(self) -> None:
        with self.turn:
            self.sock.close()

    def fileno(self) -> int:
        return self.sock.fileno()

    def setsockopt(self, *option: Any) -> None:
        self.sock.setsockopt(*option)

    def settimeout(self, seconds: float | None) -> None:
        """The library's own time-outs mean nothing here: `due` and `lasting` do."""


class Raw(io.RawIOBase):
    """A wire as a file to read from."""

    def __init__(self, wire: Wire) -> None:
        self.wire = wire

    def readable(self) -> bool:
        return True

    def readinto(self, into: Any) -> int:
        got = self.wire.recv(len(into))
        into[: len(got)] = got
        return len(got)
