"""The paired devices: who they are, and the hashes of what they show at the door.

A device's token is 256 random bits in a cookie that no script can read. Its pass is made from the token and opens
the socket alone: a page that has to try another address of ours takes it along, because no cookie goes there. Only
hashes of both are on disk; of random bits a plain hash is enough.
"""

from __future__ import annotations

import base64
import datetime
import hashlib
import json
import secrets
import threading
from dataclasses import asdict, dataclass, replace
from pathlib import Path

from hookside.web.keep import keep

FILE = "devices.json"
MOST = 40  # devices of one household
NAME_LENGTH = 40


class TooMany(Exception):
    """There are as many devices as a household may have."""


@dataclass(frozen=True)
class Device:
    """One phone, tablet or laptop. `maker`: whose it is. Days are ISO dates, shown and never used for order."""

    id: str
    name: str
    maker: str
    token: str  # SHA-256, hex
    passage: str
    paired: str
    seen: str


def digest(secret: str) -> str:
    return hashlib.sha256(secret.encode("utf-8", "surrogateescape")).hexdigest()


def passage_of(token: str) -> str:
    """The pass that belongs to a token. It does not lead back to it."""
    raw = hashlib.sha256(b"hookside socket pass\0" + token.encode("utf-8", "surrogateescape")).digest()
    return base64.urlsafe_b64encode(raw).decode().rstrip("=")


def plain(name: str, length: int = NAME_LENGTH) -> str:
    """A name as it may be shown: one line of visible letters."""
    return " ".join("".join(c if c.isprintable() else " " for c in name).split())[:length].strip()


def today() -> str:
    return datetime.datetime.now(datetime.UTC).date().isoformat()


class Devices:
    """Kept in one small file. `folder`: the doors' own; it is not made before somebody is let in."""

    def __init__(self, folder: Path) -> None:
        self.file = folder / FILE
        self.lock = threading.Lock()
        self.known = self._read()

    def _read(self) -> dict[str, Device]:
        """A file that cannot be read lets nobody in: pairing again is the way back."""
        try:
            kept = json.loads(self.file.read_text(encoding="utf-8"))
            return {d["id"]: Device(**d) for d in kept}
        except (OSError, ValueError, TypeError, KeyError):
            return {}

    def _keep(self, known: dict[str, Device]) -> None:
        """On disk first: who was shown out stays out after a crash. Raises OSError, and then nothing has changed."""
        keep(self.file, json.dumps([asdict(d) for d in known.values()], indent=1).encode())
        self.known = known

    def all(self) -> list[Device]:
        return list(self.known.values())

    def let_in(self, name: str, maker: str) -> tuple[Device, str]:
        """A new device and its token, which is told this once. Raises TooMany, OSError."""
        token = secrets.token_urlsafe(32)
        device = Device(
            secrets.token_hex(8), plain(name) or "device", plain(maker), digest(token), digest(passage_of(token)),
            today(), today(),
        )  # fmt: skip
        with self.lock:
            if len(self.known) >= MOST:
                raise TooMany
            self._keep(self.known | {device.id: device})
        return device, token

    def show_out(self, id: str) -> bool:
        """Forget a device. False where there is none such. Raises OSError."""
        with self.lock:
            if id not in self.known:
                return False
            self._keep({k: d for k, d in self.known.items() if k != id})
        return True

    def belongs(self, id: str, maker: str) -> Device | None:
        """A device is somebody else's from now on. None where there is none such. Raises OSError."""
        with self.lock:
            now = self.known.get(id)
            if now is None:
                return None
            changed = replace(now, maker=plain(maker))
            self._keep(self.known | {id: changed})
            return changed

    def by_token(self, token: str) -> Device | None:
        sought = digest(token)
        return next((d for d in self.known.values() if d.token == sought), None)

    def by_pass(self, passage: str) -> Device | None:
        sought = digest(passage)
        return next((d for d in self.known.values() if d.passage == sought), None)

    def saw(self, device: Device) -> None:
        """It was here today: written down once a day, where the disk takes it."""
        if device.seen == today():
            return
        with self.lock:
            now = self.known.get(device.id)
            if now is None or now.seen == today():
                return
            known = self.known | {device.id: replace(now, seen=today())}
            try:
                self._keep(known)
            except OSError:
                self.known = known  # a date that is only shown
