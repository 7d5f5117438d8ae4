"""The port: chosen once, then remembered in the data folder.

Another port is another origin to a browser, and what a device has stored for one origin no other can see: moves
still waiting in its outbox would be stranded. So the port never changes by itself.
"""

from __future__ import annotations

import os
import socket
import sys
from pathlib import Path

HERE = "127.0.0.1"
NAME = "port"
FIRST_TRIES = range(4717, 4727)  # unassigned at IANA as far as we remember; any would do


class PortTaken(Exception):
    """Another program listens on the port that this folder's devices know."""

    def __init__(self, port: int, chosen: bool, host: str = HERE) -> None:
        if host != HERE:
            super().__init__(
                f"Port {port}, which your paired devices know, is taken by another program: stop that program and "
                "share again."
            )
            return
        again = f"hookside serve --port {port}" if chosen else "Hookside"
        what = "which you asked for" if chosen else "which the devices of this shelf know"
        super().__init__(
            f"Port {port}, {what}, is taken by another program: stop that program and start {again} again, or give "
            "another port with --port N (moves that still wait on a device are then not found until this port is back)."
        )


def remembered(folder: Path, name: str = NAME) -> int | None:
    """The port of earlier starts."""
    try:
        port = int((folder / name).read_text(encoding="ascii").strip())
    except (OSError, ValueError):
        return None
    return port if 1 <= port <= 65535 else None


def remember(folder: Path, port: int, name: str = NAME) -> None:
    """Write the port down, in one piece."""
    fresh = folder / (name + ".new")
    fresh.write_text(f"{port}\n", encoding="ascii")
    os.replace(fresh, folder / name)


def listen(port: int, host: str = HERE) -> socket.socket:
    """A listening socket. Raises OSError where the port is taken. Port 0 lets the system choose."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        if sys.platform != "win32":  # there it would let two programs share the port
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.bind((host, port))
        listener.listen(128)
    except BaseException:
        listener.close()
        raise
    return listener


def open_port(
    folder: Path, asked: int | None = None, host: str = HERE, name: str = NAME, tries: range = FIRST_TRIES
) -> socket.socket:
    """Listen on the port asked for, else on the remembered one, else choose. Raises PortTaken."""
    fixed = asked if asked is not None else remembered(folder, name)
    if fixed is not None:
        try:
            listener = listen(fixed, host)
        except OSError as e:
            raise PortTaken(fixed, asked is not None, host) from e
    else:
        listener = first_free(host, tries)
    if listener.getsockname()[1] != remembered(folder, name):  # a full disk is no reason not to start again
        remember(folder, listener.getsockname()[1], name)
    return listener


def first_free(host: str = HERE, tries: range = FIRST_TRIES) -> socket.socket:
    """A listener on the first free of our usual ports, else on any."""
    for port in tries:
        try:
            return listen(port, host)
        except OSError:
            continue
    return listen(0, host)
