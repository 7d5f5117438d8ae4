"""Tells the pages on the machine itself who asks to come in: whichever of them the maker looks at just then."""

from __future__ import annotations

from typing import Any

from flask_socketio import SocketIO

from hookside.web.pairing import Pairing

ROOM = "machine"


class Knocks:
    """Event `knocks` {names}: to a page when it comes, and to all of this machine when that changes."""

    def __init__(self, socket: SocketIO, pairing: Pairing) -> None:
        self.socket, self.pairing = socket, pairing

    def listen(self) -> None:
        self.socket.server.on("connect", self.came)
        self.pairing.changed = self.tell

    def came(self, sid: str, *_: Any) -> None:
        """A page is there. The library calls this for an event of that name too, with whatever a page sends in it: who
        it is says the connection alone."""
        environ = self.socket.server.get_environ(sid)
        if environ is None or environ["hookside.caller"].listener != "here":
            return
        self.socket.server.enter_room(sid, ROOM)
        if self.names():
            self.socket.emit("knocks", {"names": self.names()}, to=sid)

    def tell(self) -> None:
        self.socket.emit("knocks", {"names": self.names()}, to=ROOM)

    def names(self) -> list[str]:
        return [knock.name for knock in self.pairing.waiting()]
