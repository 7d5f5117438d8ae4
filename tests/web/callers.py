"""A caller as the server makes one, without a server: for tests that ask an application directly."""

from __future__ import annotations

import socket

from hookside.web.lobby import Caller, Listener
from hookside.web.wire import Wire


def called(listener: Listener = "here", address: str = "127.0.0.1") -> Caller:
    ours, theirs = socket.socketpair()
    theirs.close()
    caller = Caller(Wire(ours, 5.0), listener, address)
    ours.close()
    return caller
