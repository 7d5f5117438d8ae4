"""Who is connected, and who has to go when the house is full.

A connection waits until its request has arrived whole; from then on it is being answered. When all places are
taken, the one that has waited longest without saying what it wants gives way to the next caller: so no number of
silent connections keeps out one that speaks.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Literal

from hookside.web.wire import Wire

Listener = Literal["here", "house", "trust"]
MOST = 512  # connections at once on one listener
MOST_EACH = 64  # of them from one address of the network; on this machine all come from one


class Caller:
    """One connection. `listener` says which door it came to; nothing a caller sends can change that."""

    def __init__(self, wire: Wire, listener: Listener, address: str) -> None:
        self.wire = wire
        self.listener = listener
        self.address = address  # for counting, never for letting in
        self.device: str | None = None  # the paired device that this connection has shown itself to be
        self.arrived: Callable[[], None] = lambda: None  # its request is here whole


class Lobby:
    """The callers of one listener. `each` None: no bound for one address."""

    def __init__(self, most: int = MOST, each: int | None = None) -> None:
        self.most, self.each = most, each
        self.lock = threading.Lock()
        self.inside: dict[Caller, bool] = {}  # in the order they came; True while it waits
        self.by_address: dict[str, int] = {}

    def admit(self, caller: Caller) -> bool:
        """Take a caller in, at another's cost where that is fair. False: there is no place."""
        with self.lock:
            its_own = self.each is not None and self.by_address.get(caller.address, 0) >= self.each
            if its_own or len(self.inside) >= self.most:
                fits = (c for c, waits in self.inside.items() if waits and (not its_own or c.address == caller.address))
                oldest = next(fits, None)
                if oldest is None:
                    return False
                self._forget(oldest)
                oldest.wire.cut()
            self.inside[caller] = True
            self.by_address[caller.address] = self.by_address.get(caller.address, 0) + 1
        caller.arrived = lambda: self._arrived(caller)
        return True

    def _arrived(self, caller: Caller) -> None:
        with self.lock:
            if caller in self.inside:
                self.inside[caller] = False

    def leave(self, caller: Caller) -> None:
        with self.lock:
            self._forget(caller)

    def _forget(self, caller: Caller) -> None:
        if self.inside.pop(caller, None) is None:
            return
        left = self.by_address[caller.address] - 1
        if left:
            self.by_address[caller.address] = left
        else:
            del self.by_address[caller.address]

    def devices(self) -> set[str]:
        """The paired devices that are connected now."""
        with self.lock:
            return {caller.device for caller in self.inside if caller.device}

    def cut(self, which: Callable[[Caller], bool]) -> int:
        """End all connections of a kind, open sockets too. Returns how many."""
        with self.lock:
            chosen = [caller for caller in self.inside if which(caller)]
        for caller in chosen:
            caller.wire.cut()
        return len(chosen)
