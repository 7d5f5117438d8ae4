"""Pages that show the shelf are told when something on it is another.

They look again for themselves, so one word is enough for all that happens until somebody looks: a hundred devices at
work do not send a hundred words a second.
"""

from __future__ import annotations

import threading
from typing import Any

from flask import Flask, Response, request
from flask_socketio import SocketIO

ROOM = "shelf"
CHANGING = ("POST", "PUT", "DELETE")
ON_IT = ("/api/patterns", "/api/makings")  # not how she likes it: the page that changed it shows that already


class ShelfNews:
    """Says once that the shelf changed, and again only after it was looked at."""

    def __init__(self, socket: SocketIO) -> None:
        self.socket = socket
        self.told = False
        self.lock = threading.Lock()

    def listen(self, app: Flask) -> None:
        """Register what is heard, and look at every request that was done."""
        self.socket.server.on("shelf", self.watch)
        app.after_request(self.after)

    def watch(self, sid: str, *payload: Any) -> dict[str, bool]:
        """{} -> {ok}: this page shows the shelf. Whatever it shows already may be old by now: it looks afterwards."""
        self.socket.server.enter_room(sid, ROOM)
        return {"ok": True}

    def after(self, answer: Response) -> Response:
        if request.method in CHANGING and answer.status_code < 300 and request.path.startswith(ON_IT):
            self.changed()
        return answer

    def changed(self) -> None:
        with self.lock:
            before, self.told = self.told, True
        if not before:
            self.socket.emit("shelf", {}, to=ROOM)

    def looked(self) -> None:
        """Before the shelf is read: what changes from here on is told again."""
        with self.lock:
            self.told = False
