"""A page that listens, without a page: real sound over a real socket."""

from __future__ import annotations

import json
import queue
import random
import threading
import wave
from array import array
from collections.abc import Callable
from pathlib import Path
from typing import Any

from hookside.voice.heard import RATE

SOUNDS = Path(__file__).parents[1] / "voice" / "sounds"
PACKET = 1600
QUIET = {"waits": None, "answers": None, "count": None}


def still(seconds: float) -> bytes:
    chance = random.Random(3)
    return array("h", (chance.randint(-20, 20) for _ in range(int(seconds * RATE)))).tobytes()


def said(name: str) -> bytes:
    """An utterance with a second of silence around it."""
    with wave.open(str(SOUNDS / f"{name}.wav")) as file:
        return still(1.0) + file.readframes(file.getnframes()) + still(0.7)


class Listener:
    """A page that listens."""

    def __init__(self, house: Any, making: int, name: str = "tablet") -> None:
        self.house, self.making = house, making
        self.device = house.device(name)
        self.told: queue.Queue[tuple[str, dict[str, Any]]] = queue.Queue()
        self.seq = 0
        self.ear = ""
        for event in ("heard", "counted", "ear_lost", "ear_taken", "voice_progress"):
            self.device.line.on(event, lambda data, event=event: self.told.put((event, data)))

    def listen(self, **more: Any) -> dict[str, Any]:
        asked = {
            "making": self.making, "device": self.device.id, "device_name": self.device.name, "language": "en",
            "single": False, "count": None, **more,
        }  # fmt: skip
        answer: dict[str, Any] = self.device.ask("listen", asked)
        self.ear, self.seq = answer.get("ear", ""), 0
        return answer

    def tell(self, event: str, **more: Any) -> None:
        self.device.line.emit(event, {"ear": self.ear, **more})

    def sound(self, pcm: bytes, quiet: int = 0) -> None:
        for at in range(0, len(pcm), PACKET):
            self.tell("sound", seq=self.seq, quiet=quiet, pcm=pcm[at : at + PACKET])
            self.seq += 1
            quiet = 0

    def next(self) -> tuple[str, dict[str, Any]]:
        return self.told.get(timeout=30)

    def heard(self) -> dict[str, Any]:
        event, data = self.next()
        assert event == "heard", data
        return data

    def settled(self) -> None:
        """What was sent has been dealt with: the line keeps its order, and so does the listener."""
        self.device.ask("join", {"making": self.making, "device": self.device.id})


def moves_go_on(page: Listener) -> bool:
    snapshot = page.device.join(page.making)["snapshot"]
    answer = page.device.send(page.device.move(snapshot, "next", unit="stitch"))
    return bool(answer["answers"][0]["ok"])


def waited(so: Callable[[], bool]) -> None:
    """Wait until it is so; a thread of the server's brings it about."""
    moment = threading.Event()
    for _ in range(1500):
        if so():
            return
        moment.wait(0.02)
    raise AssertionError("it never came about")


def shelve(house: Any, name: str, language: str, parts: dict[str, Path | bytes]) -> Path:
    """Put a model on the shelf as it would lie there."""
    folder: Path = house.ears.models.folder / name
    folder.mkdir(parents=True)
    for part, what in parts.items():
        (folder / part).parent.mkdir(parents=True, exist_ok=True)
        if isinstance(what, Path):
            (folder / part).symlink_to(what)
        else:
            (folder / part).write_bytes(what)
    label = {"language": language, "added": 1.0, "source": "disk"}
    (folder / "hookside.json").write_text(json.dumps(label), "utf-8")
    return folder


DAMAGED: dict[str, Path | bytes] = {
    "am/final.mdl": b"no", "graph/HCLr.fst": b"no", "graph/Gr.fst": b"no", "conf/model.conf": b"",
}  # fmt: skip
