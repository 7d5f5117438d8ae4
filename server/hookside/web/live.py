"""The live line to each page: joining a making, taking moves, telling the other devices.

One event at a time for each client, in the order they came. A handler's return value is the acknowledgement; it
leaves only after the journal's transaction is on disk, because the journal returns only then.
"""

from __future__ import annotations

import re
import threading
import time
import traceback
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from functools import wraps
from typing import TYPE_CHECKING, Any

from flask_socketio import SocketIO

from hookside.journal.trouble import Full, ReadOnly, Trouble
from hookside.web.damage import Damage
from hookside.web.said import Said, writable
from hookside.web.shelf_news import ShelfNews

if TYPE_CHECKING:
    from hookside.journal import Journal

MOST_MOVES = 500  # in one message: one transaction
MOST_IDS = 1000
LARGEST = 2**53 - 1  # the largest number a page can hold exactly
DEVICE = re.compile(r"[\x21-\x7e]{1,64}")
ROOM = "making-"


def room(making: int) -> str:
    return f"{ROOM}{making}"


def answered(handler: Callable[..., dict[str, Any]]) -> Callable[..., dict[str, Any]]:
    """Whatever a page (by its sid) sends, the answer is an acknowledgement: {"ok": false, "code", "say"} at worst."""

    @wraps(handler)
    def safe(self: Any, sid: str, *payload: Any) -> dict[str, Any]:
        if len(payload) != 1 or not isinstance(payload[0], dict) or not writable(payload[0]):
            return {"ok": False, "code": "malformed", "say": "Hookside could not understand that message."}
        try:
            return handler(self, sid, payload[0])
        except Said as e:
            return {"ok": False, "code": e.code, "say": e.say}
        except Trouble as e:
            return {"ok": False, "code": e.code, "say": self.damage.say(e)}
        except Exception as e:
            traceback.print_exception(e)
            return {"ok": False, "code": "broken", "say": "Hookside stumbled over this. Nothing was changed."}

    return safe


@dataclass(slots=True)
class Sent:
    """Moves that came in one message, and what became of them."""

    moves: list[Any]
    sid: str
    answers: list[dict[str, Any]] = field(default_factory=list)
    error: Exception | None = None
    done: bool = False


class Live:
    """Hears what pages send."""

    def __init__(self, journal: Journal, socket: SocketIO) -> None:
        self.journal = journal
        self.shelf = ShelfNews(socket)
        self.damage = Damage(journal.store.file.parent)
        self.socket = socket
        self.turn = threading.Lock()  # rows are told in the order they were written
        self.gate = threading.Lock()
        self.queue: list[Sent] = []
        self.told: dict[int, int] = {}  # the last row told of each making

    def listen(self) -> None:
        """Register what is heard: with the socket itself, because a request of Flask's for every event would look its
        address up among all routes, a quarter of what a move takes."""
        for event, handler in {"join": self.join, "moves": self.moves, "which": self.which}.items():
            self.socket.server.on(event, handler)

    @answered
    def join(self, sid: str, asked: dict[str, Any]) -> dict[str, Any]:
        """{making, device, device_name, epoch, head} -> {ok, epoch, head, snapshot or null where nothing is new}."""
        making, device, name = asked.get("making"), asked.get("device"), asked.get("device_name", "")
        if type(making) is not int or not 0 <= making <= LARGEST:
            raise Said(400, "malformed", "Hookside could not understand which making this page works on.")
        if not isinstance(device, str) or not DEVICE.fullmatch(device) or not isinstance(name, str) or len(name) > 200:
            raise Said(400, "malformed", "Hookside could not understand which device this is.")
        server = self.socket.server
        for other in server.rooms(sid):
            if str(other).startswith(ROOM):
                server.leave_room(sid, other)
        # First into the room, then the snapshot: a row that falls between the two is told twice, never missed.
        server.enter_room(sid, room(making))
        with suppress(Full, ReadOnly):  # what a device is called is no reason not to show the place
            self.journal.meet(device, name)
        epoch, head = asked.get("epoch"), asked.get("head")
        parted = None
        if isinstance(epoch, str) and epoch and type(head) is int and 0 <= head <= LARGEST:
            parted = self.journal.parted(making, epoch, head)
        snapshot = self.journal.snapshot(making, device)
        if snapshot is None:
            server.leave_room(sid, room(making))
            return {
                "ok": False, "code": "gone", "say": "This making is not on the shelf any more.",
                "epoch": self.journal.epoch, "restored": parted,
            }  # fmt: skip
        known = epoch == snapshot["epoch"] and head == snapshot["head"]
        return {
            "ok": True, "epoch": snapshot["epoch"], "head": snapshot["head"], "snapshot": None if known else snapshot,
            "restored": parted,
        }  # fmt: skip

    @answered
    def which(self, sid: str, asked: dict[str, Any]) -> dict[str, Any]:
        """{making, epoch, head, ids} -> {ok, epoch, shared, rows}: which of a device's moves this journal has.

        For a device that knows another epoch, or rows that are not there: what is not in `rows` is what it knows more.
        `head`, the last row it knows, may be left away.
        """
        making, epoch, ids = asked.get("making"), asked.get("epoch"), asked.get("ids")
        head = asked.get("head", LARGEST)
        if type(making) is not int or not 0 <= making <= LARGEST or type(head) is not int or not 0 <= head <= LARGEST:
            raise Said(400, "malformed", "Hookside could not understand which making this page works on.")
        if not isinstance(epoch, str) or not isinstance(ids, list) or len(ids) > MOST_IDS:
            raise Said(400, "malformed", f"Ids of moves come as a list of at most {MOST_IDS}.")
        kept = self.journal.which(making, [id for id in ids if isinstance(id, str)])
        parted = self.journal.parted(making, epoch, head)
        alike = head if parted is None else parted["shared"]
        if parted is not None and parted["known"] == "behind":
            alike = max(kept.values(), default=0)
        return {"ok": True, "epoch": self.journal.epoch, "shared": alike, "rows": kept}

    @answered
    def moves(self, sid: str, asked: dict[str, Any]) -> dict[str, Any]:
        """{epoch, moves} -> {ok, answers}, one answer for each move, in their order."""
        if asked.get("epoch") != self.journal.epoch:
            return {"ok": False, "code": "epoch", "epoch": self.journal.epoch}
        moves = asked.get("moves")
        if not isinstance(moves, list) or len(moves) > MOST_MOVES:
            raise Said(400, "malformed", f"Moves come as a list of at most {MOST_MOVES}.")
        sent = Sent(moves, sid)
        with self.gate:
            self.queue.append(sent)
        while not sent.done:
            with self.turn:
                if not sent.done:
                    self.take()
        if sent.error is not None:
            raise sent.error
        return {"ok": True, "answers": sent.answers}

    def take(self) -> None:
        """Give the journal what waits, oldest first, and tell of it. What comes in while the disk is written to waits
        for the next turn and then shares one transaction: a hundred devices need no hundred syncs."""
        with self.gate:
            count = many = 0
            while count < len(self.queue) and (many := many + len(self.queue[count].moves)) <= MOST_MOVES:
                count += 1
            together, self.queue = self.queue[:count], self.queue[count:]
        try:
            answers = self.journal.moves_of([sent.moves for sent in together], time.monotonic())
        except Exception as error:
            # What one of them sent may be why: each alone, so that it harms no other.
            answers = [self.alone(sent) for sent in together] if len(together) > 1 else [[]]
            if len(together) == 1:
                together[0].error = error
        for sent, told in zip(together, answers, strict=True):
            sent.answers = told
            try:
                if sent.error is None:
                    self.tell(sent.moves, told, sent.sid)
            finally:
                sent.done = True

    def alone(self, sent: Sent) -> list[dict[str, Any]]:
        try:
            return self.journal.moves(sent.moves, time.monotonic())
        except Exception as error:
            sent.error = error
            return []

    def tell(self, moves: list[dict[str, Any]], answers: list[dict[str, Any]], sid: str) -> None:
        """Tell the other devices of each making what was written. A refusal changes nothing for them, nor does a move
        that was sent again."""
        written: dict[int, list[dict[str, Any]]] = {}
        for move, answer in zip(moves, answers, strict=True):
            if answer["ok"] and answer["kind"] != "refused" and answer["row"] > self.told.get(move["making"], 0):
                row = {k: answer.get(k) for k in ("row", "kind", "run", "from", "to", "passed", "in_hand", "asides")}
                row |= {"device": move["device"], "intent": move["intent"], "id": move["id"]}
                if answer["kind"] == "choice":
                    row |= {"choices": move["choices"], "asks": answer["asks"]}
                written.setdefault(move["making"], []).append(row)
        for making, rows in written.items():
            head = self.told[making] = max(row["row"] for row in rows)
            news = {"making": making, "head": head, "rows": rows}
            self.socket.emit("rows", news, to=room(making), skip_sid=sid)
        if written:
            self.shelf.changed()

    def tell_of(self, making: int, head: int, kind: str) -> None:
        """Tell the devices of a making about a row that none of them sent: they ask for the making afresh."""
        self.told[making] = max(head, self.told.get(making, 0))
        row = {
            "row": head, "kind": kind, "run": "", "from": 0, "to": 0, "passed": [], "in_hand": None, "asides": 0,
            "device": "", "intent": kind, "id": "",
        }  # fmt: skip
        self.socket.emit("rows", {"making": making, "head": head, "rows": [row]}, to=room(making))
        self.shelf.changed()
