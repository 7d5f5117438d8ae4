"""Servers that come into the world with everything read in.

A server and the reading process behind it take three seconds of the processor to start, nearly all of it for importing
and making patterns of text ready; three hundred tests start one each. Here both are forks of a process that has done
it once. That they start from nothing, and how, is the matter of tests/ground, tests/web/test_serve.py and
tests/web/test_readings.py.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from multiprocessing.connection import Connection
from pathlib import Path
from typing import IO

READY = [
    "tests.nursery", "hookside.cli", "hookside.cli.house", "hookside.journal", "hookside.web.app", "hookside.web.doors",
    "hookside.web.keeping", "hookside.web.readings", "hookside.web.serve", "hookside.web.serving", "hookside.web.shelf",
]  # fmt: skip
# Stands where the reading process would: hands its pipes over, and ends, as that one does, when nobody has asked.
PLACE = (
    "import os, signal, socket, sys\n"
    "to = socket.socket(socket.AF_UNIX)\n"
    "to.connect(sys.argv[1])\n"
    "socket.send_fds(to, [b'.'], [0, 1, 2])\n"
    "for fd in 0, 1: os.close(fd)\n"
    "to.recv(1)\n"
    "os.kill(os.getpid(), signal.SIGALRM)\n"
)
FORKS = multiprocessing.get_context("forkserver")
FORKS.set_forkserver_preload(READY)


class Grown:
    """A server that was forked, to be handled as a subprocess is."""

    def __init__(self, arguments: Sequence[str], environment: dict[str, str], readers: Path) -> None:
        reading, writing = FORKS.Pipe(duplex=False)
        with reading, writing:
            self.inner = FORKS.Process(
                target=served, args=(writing, list(arguments), environment, str(readers)), daemon=True
            )
            self.inner.start()
            self.stdout: IO[str] = os.fdopen(os.dup(reading.fileno()), encoding="utf-8")

    @property
    def pid(self) -> int:
        assert self.inner.pid is not None
        return self.inner.pid

    def poll(self) -> int | None:
        return self.inner.exitcode

    def wait(self, timeout: float | None = None) -> int:
        """The exit code. Raises subprocess.TimeoutExpired."""
        self.inner.join(timeout)
        code = self.inner.exitcode
        if code is None:
            raise subprocess.TimeoutExpired("serve", timeout or 0)
        return code

    def send_signal(self, number: int) -> None:
        if self.poll() is None:
            os.kill(self.pid, number)

    def kill(self) -> None:
        self.send_signal(signal.SIGKILL)


def served(out: Connection, arguments: list[str], environment: dict[str, str], readers: str) -> None:
    """In the fork: `hookside` with these arguments."""
    os.environ.clear()
    os.environ.update(environment)
    with out:
        os.dup2(out.fileno(), 1)
    sys.stdout = os.fdopen(1, "w", encoding="utf-8", closefd=False)
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    from hookside.cli import main
    from hookside.web import readings as room

    room.Readings = partial(room.Readings, reader_at(readers))
    main(arguments, prog_name="hookside")


def reader_at(readers: str) -> tuple[str, ...]:
    """The command that starts a reading process, as `web/readings.py` takes it, of those who are to be had there."""
    return (sys.executable, "-I", "-S", "-c", PLACE, readers)


@contextmanager
def readers(at: Path) -> Iterator[Path]:
    """Where reading processes are to be had: each who comes to this socket with three pipes gets one of its own."""
    with socket.socket(socket.AF_UNIX) as door:
        door.bind(str(at))
        door.listen(8)
        process = FORKS.Process(target=bear_readers, args=(door,), daemon=True)
        process.start()
    try:
        yield at
    finally:
        process.kill()
        process.join()


def bear_readers(door: socket.socket) -> None:
    """In a fork: read once, so that all is ready, and then be the mother of those who are asked for."""
    from hookside.web import reader

    reader.make_ready()
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    while True:
        asking, _ = door.accept()
        _, pipes, _, _ = socket.recv_fds(asking, 1, 3)
        if os.fork() == 0:
            door.close()
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)
            for end, pipe in enumerate(pipes):
                os.dup2(pipe, end)
                os.close(pipe)
            answers = os.dup(1)
            os.dup2(2, 1)
            try:
                with os.fdopen(0, "rb", closefd=False) as questions, os.fdopen(answers, "wb") as told:
                    reader.serve(questions, told)
            finally:
                os._exit(0)
        for pipe in pipes:
            os.close(pipe)
        asking.close()
