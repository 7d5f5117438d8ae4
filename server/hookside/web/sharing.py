"""Sharing: the second listener, to the local network, over TLS; and the plain one that tells how to trust it.

Both run in this process on threads of their own, and come and go while the first listener goes on. A third thread
looks now and then where the machine is: when its address has changed, or the leaf nears its end, the leaf is made
anew and the next connection gets it; no open one is cut for that.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hookside.web.address import Address
from hookside.web.household import Household, addresses
from hookside.web.keep import private_folder
from hookside.web.lobby import MOST_EACH
from hookside.web.pace import Paces
from hookside.web.port import first_free, open_port
from hookside.web.serving import Server

if TYPE_CHECKING:
    from _typeshed.wsgi import WSGIApplication

    from hookside.web.doors import Doors
    from hookside.web.mdns import Announcement
    from hookside.web.tls.authority import Authority

EVERYWHERE = "0.0.0.0"  # only callers who come to a private address of ours are let in: see Server.at
PORTS = range(4737, 4747)  # as in port.py: unassigned as far as we remember
TRUST_PORTS = range(4757, 4767)
MOST_TRUST = 48  # connections at once on the plain listener
LOOK = 10.0  # seconds between two looks at the addresses


@dataclass
class Open:
    """What stands while the house is shared."""

    authority: Authority
    at: list[str]
    server: Server
    plain: Server
    threads: list[threading.Thread]
    name: Announcement | None = None


class Sharing:
    """Begins and ends it. `app` is what it serves, the door in front; `find` tells this machine's addresses, and
    without `announce` no name is told to the network."""

    def __init__(self, doors: Doors) -> None:
        self.doors = doors
        self.app: WSGIApplication = nothing
        self.find: Callable[[], list[str]] = addresses
        self.announce = True
        self.turn = threading.RLock()
        self.open: Open | None = None
        self.trouble: str | None = None
        self.over = threading.Event()

    @property
    def folder(self) -> Path:
        return self.doors.folder

    def wanted(self) -> bool:
        """Whether the maker shared it until further notice."""
        return Household.of(self.folder).shared

    def want(self, shared: bool) -> None:
        """Remember that. Raises OSError."""
        with self.turn:
            private_folder(self.folder)
            household = Household.of(self.folder)
            household.shared = shared
            household.keep(self.folder)

    def begin(self) -> None:
        """Share, if it is not shared already. Raises PortTaken, Unusable, OSError."""
        from hookside.web.tls.authority import Authority, private

        with self.turn:
            if self.open is not None:
                return
            private_folder(self.folder)
            household = Household.of(self.folder)
            household.keep(self.folder)
            authority = Authority(self.folder, household.name)
            context = authority.leaf(at := self.find())
            with open_port(self.folder, None, EVERYWHERE, "port", PORTS) as listener:
                paces = Paces(rate=50, most=200)
                server = Server(listener, self.app, "house", context, each=MOST_EACH, at=private, arrivals=paces)
            with first_free(EVERYWHERE, TRUST_PORTS) as listener:
                paces = Paces(rate=5, most=40)
                plain = Server(listener, nothing, "trust", most=MOST_TRUST, each=8, at=private, arrivals=paces)
            self.open = Open(authority, at, server, plain, [])
            self.over.clear()
            self.settle(household)
            for work in (lambda: server.serve_forever(0.1), lambda: plain.serve_forever(0.1), self.watch):
                thread = threading.Thread(target=work, daemon=True)
                thread.start()
                self.open.threads.append(thread)

    def settle(self, household: Household) -> None:
        """The addresses are these now: tell the doors, the plain listener and the network."""
        from hookside.web.mdns import Announcement
        from hookside.web.trust import Trust

        assert self.open is not None
        o = self.open
        house = Address(o.server.port, (*o.at, household.name), "https")
        plain = Address(o.plain.port, (*o.at, household.name))
        household.met(o.at)
        household.keep(self.folder)
        self.doors.open_house(house, household.earlier)
        o.plain.app = Trust(plain, house, o.authority.file, o.authority.fingerprint)
        if o.name is not None:
            o.name.end()
        o.name = Announcement(household.name, house.port, o.at) if self.announce and o.at else None

    def watch(self) -> None:
        """Until sharing ends: keep leaf and addresses as they should be."""
        while not self.over.wait(LOOK):
            self.look()

    def look(self) -> None:
        """One look: a leaf for where the machine is now, and for long enough."""
        with self.turn:
            if self.open is None:
                return
            try:
                at = self.find()
                if not self.open.authority.fits(at):
                    self.open.server.ssl_context = self.open.authority.leaf(at)
                if at != self.open.at:
                    self.open.at = at
                    self.settle(Household.of(self.folder))
                self.trouble = None
            except OSError as e:
                self.trouble = f"The doors' folder {self.folder} cannot be written ({e.strerror or e}): make room."

    def end(self) -> None:
        """Stop sharing; what is open is cut."""
        with self.turn:
            shared, self.open = self.open, None
            self.over.set()
            self.doors.close_house()
            if shared is None:
                return
            for server in (shared.server, shared.plain):
                server.shutdown()
                server.lobby.cut(lambda caller: True)
            if shared.name is not None:
                shared.name.end()
        for thread in shared.threads:
            if thread is not threading.current_thread():
                thread.join(5)

    def show_out(self, device: str) -> bool:
        """Forget a device and cut its connections, open sockets too. False where it was not there. Raises OSError."""
        gone = self.doors.devices.show_out(device)
        if self.open is not None:
            self.open.server.lobby.cut(lambda caller: caller.device == device)
        return gone

    def connected(self) -> set[str]:
        return self.open.server.lobby.devices() if self.open is not None else set()

    def state(self) -> dict[str, Any]:
        """What the shelf shows of it."""
        here, pairing = self.connected(), self.doors.pairing
        devices = [
            {"id": d.id, "name": d.name, "maker": d.maker, "paired": d.paired, "seen": d.seen, "here": d.id in here}
            for d in self.doors.devices.all()
        ]
        knocking = [{"id": k.id, "name": k.name, "figures": k.figures} for k in pairing.waiting()]
        state: dict[str, Any] = {"on": False, "devices": devices, "knocking": knocking, "say": self.trouble}
        o, house = self.open, self.doors.house
        if o is None or house is None:
            return state
        plain: Address = Address(o.plain.port, house.names)
        link, typed = pairing.lasts()
        return state | {
            "on": True,
            "addresses": house.urls if o.at else [],
            "named": o.name is not None and o.name.heard,
            "trust": f"{plain.url}/trust",
            "fingerprint": o.authority.fingerprint,
            "invited": {"link": link, "typed": typed},
        }


def nothing(environ: Any, start_response: Any) -> list[bytes]:
    """Stands where the application will be: no listener serves before that."""
    raise AssertionError("not open yet")
