"""A voice model that a page sends as a zip: in pieces no larger than any other request, put together on disk.

One file arrives at a time. Nothing of it is unpacked before it is whole; what is unpacked has bounds of its own
(`hookside.voice.models.unpack`).
"""

from __future__ import annotations

import re
import secrets
import shutil
import threading
import time
from dataclasses import dataclass
from pathlib import Path

from hookside.voice.models import Models
from hookside.voice.models.shelf import NAME
from hookside.web.said import Said

LARGEST = 2 << 30  # bytes of a zip: the largest models fold to that
ROOM = 3  # so many times its size has to be free on the disk: the zip, and what comes out of it
IDLE = 30.0  # seconds after which another file may begin in its place
BEGINNING = b"PK\x03\x04"  # of every zip that holds something (APPNOTE.TXT 4.3.7)
WHERE = "Voice models are zips, such as vosk-model-small-en-us-0.15.zip from alphacephei.com/vosk/models."


@dataclass
class Arrival:
    """One file on its way; `size` in bytes, `touched` by the monotonic clock."""

    id: str
    file: Path
    size: int
    there: int
    touched: float


class Arriving:
    """What arrives for the models of one data folder."""

    def __init__(self, models: Models) -> None:
        self.models = models
        self.turn = threading.Lock()
        self.now: Arrival | None = None

    def begin(self, name: str, size: int, data: bytes) -> Arrival:
        """The first piece. Raises Said."""
        stem = re.sub(r"\.zip$", "", name, flags=re.IGNORECASE)
        if not data.startswith(BEGINNING):
            raise Said(422, "no-zip", f"{name} is no zip. {WHERE}")
        if not NAME.fullmatch(stem):
            raise Said(
                422, "no-zip", f"{name} is no name for a voice model: letters, figures, dots and dashes. {WHERE}"
            )
        if size > LARGEST:
            raise Said(413, "too-large", f"{name} is larger than any voice model: up to 2 GB.")
        with self.turn:
            if self.now is not None and time.monotonic() - self.now.touched < IDLE:
                raise Said(409, "busy", "Another voice model is just coming in. Wait until it is there.")
            self._forget()
            try:
                place = self.models.fresh("arriving")
                if shutil.disk_usage(place).free < ROOM * size:
                    raise Said(
                        507, "disk", f"There is no room on Hookside's disk for {name}: it takes {ROOM} times its size."
                    )
                self.now = Arrival(secrets.token_hex(8), place / f"{stem}.zip", size, 0, 0.0)
                return self._append(self.now, data)
            except OSError as e:
                raise Said(507, "disk", f"{name} could not be kept ({e.strerror or e}).") from e

    def more(self, id: str, at: int, data: bytes) -> Arrival:
        """The next piece. Raises Said."""
        with self.turn:
            now = self.now
            if now is None or now.id != id or at != now.there:
                raise Said(409, "broken-off", "This file broke off on its way. Choose it once more.")
            try:
                return self._append(now, data)
            except OSError as e:
                self._forget()
                raise Said(507, "disk", f"The file could not be kept ({e.strerror or e}).") from e

    def _append(self, now: Arrival, data: bytes) -> Arrival:
        if not data or now.there + len(data) > now.size:
            self._forget()
            raise Said(400, "malformed", "That is another length than was said at first. Choose the file once more.")
        with now.file.open("ab") as out:
            out.write(data)
        now.there += len(data)
        now.touched = time.monotonic()
        if now.there == now.size:
            self.now = None  # whole: whoever works with it throws it away
        return now

    def _forget(self) -> None:
        if self.now is not None:
            shutil.rmtree(self.now.file.parent, ignore_errors=True)
        self.now = None
