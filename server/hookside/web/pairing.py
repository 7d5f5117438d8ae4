"""Pairing: an invitation made on this machine, a knock by a device that holds it, and a person who lets it in.

An invitation has two forms. The link carries 128 random bits behind the "#", which browsers do not send: the page
posts them. The typed form has 8 letters and figures that cannot be taken for one another, is good for two minutes,
and all wrong tries of everybody together are counted: the fifth ends the invitation. Either form works once. Holding
it only lets a device knock: the page on this machine shows its name and the same two figures as the device, and
somebody there says yes.
"""

from __future__ import annotations

import hmac
import secrets
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass

from hookside.web.devices import Device, Devices, digest, plain

LETTERS = "34679ACDEFHJKMNPQRTWXY"  # none of 0 O, 1 I L, 2 Z, 5 S, 8 B, U V, G
TYPED = 8
TYPED_LASTS = 120.0  # seconds
LINK_LASTS = 600.0
KNOCK_LASTS = 300.0
WRONG_TRIES = 5
MOST_KNOCKS = 5


class NotInvited(Exception):
    """What was shown opens nothing. `left`: tries there still are, None where there is no invitation."""

    def __init__(self, left: int | None) -> None:
        super().__init__("not invited")
        self.left = left


class RanOut(Exception):
    """Eight letters were typed when no letters were good any more. It costs no try: none could have helped."""


class TurnedAway(Exception):
    """The knock was refused, has been waiting too long, or was never made."""


@dataclass
class Invitation:
    link: str  # both as SHA-256
    typed: str
    made: float
    wrong: int = 0


@dataclass
class Knock:
    """A device at the door. `token`: what it gets, once somebody has let it in."""

    id: str
    secret: str  # SHA-256 of what the device asks with
    name: str
    figures: str
    at: float
    device: Device | None = None
    token: str | None = None
    refused: bool = False


def tidy(typed: str) -> str:
    """As it was meant: capitals, without spaces and dashes."""
    return "".join(c for c in typed.upper() if c.isalnum())


class Pairing:
    """One invitation at a time, and a few at the door."""

    def __init__(self, devices: Devices, clock: Callable[[], float] = time.monotonic) -> None:
        self.devices = devices
        self.clock = clock
        self.lock = threading.Lock()
        self.invitation: Invitation | None = None
        self.knocks: dict[str, Knock] = {}
        self.changed: Callable[[], None] = lambda: None  # called when somebody knocked or was answered

    def invite(self) -> tuple[str, str]:
        """A new invitation in place of the last: (what goes behind the "#", what is typed)."""
        link = secrets.token_urlsafe(16)
        typed = "".join(secrets.choice(LETTERS) for _ in range(TYPED))
        with self.lock:
            self.invitation = Invitation(digest(link), digest(typed), self.clock())
        return link, typed

    def cancel(self) -> None:
        """No invitation, nobody at the door."""
        with self.lock:
            self.invitation = None
            self.knocks = {}
        self.changed()

    def lasts(self) -> tuple[int, int]:
        """Whole seconds that link and typed form are still good for."""
        with self.lock:
            if self.invitation is None:
                return 0, 0
            age = self.clock() - self.invitation.made
        return max(0, round(LINK_LASTS - age)), max(0, round(TYPED_LASTS - age))

    def knock(self, shown: str, name: str) -> tuple[str, str]:
        """Hold up an invitation: (a secret to ask with, two figures to compare). Raises NotInvited, RanOut."""
        now = self.clock()
        with self.lock:
            self._tidy(now)
            invited = self.invitation
            if invited is None or now - invited.made > LINK_LASTS:
                self.invitation = None
                raise NotInvited(None)
            link = hmac.compare_digest(digest(shown), invited.link)
            typed = hmac.compare_digest(digest(tidy(shown)), invited.typed) and now - invited.made <= TYPED_LASTS
            if not link and len(tidy(shown)) == TYPED and now - invited.made > TYPED_LASTS:
                raise RanOut
            if not (link or typed):
                invited.wrong += 1
                if invited.wrong >= WRONG_TRIES:
                    self.invitation = None
                    raise NotInvited(None)
                raise NotInvited(WRONG_TRIES - invited.wrong)
            self.invitation = None
            secret = secrets.token_urlsafe(16)
            figures = f"{secrets.randbelow(90) + 10}"
            made = Knock(secrets.token_hex(8), digest(secret), plain(name) or "a device", figures, now)
            while len(self.knocks) >= MOST_KNOCKS:
                del self.knocks[next(iter(self.knocks))]
            self.knocks[made.id] = made
        self.changed()
        return secret, figures

    def _tidy(self, now: float) -> None:
        self.knocks = {k: v for k, v in self.knocks.items() if now - v.at <= KNOCK_LASTS}

    def waiting(self) -> list[Knock]:
        """Those at the door that nobody has answered."""
        with self.lock:
            self._tidy(self.clock())
            return [k for k in self.knocks.values() if k.token is None and not k.refused]

    def answer(self, id: str, let_in: bool, name: str, maker: str) -> Device | None:
        """Let in or turn away. Raises TurnedAway where nobody stands there, TooMany, OSError."""
        answered = self._answer(id, let_in, name, maker)
        self.changed()
        return answered

    def _answer(self, id: str, let_in: bool, name: str, maker: str) -> Device | None:
        with self.lock:
            self._tidy(self.clock())
            knock = self.knocks.get(id)
            if knock is None or knock.token is not None or knock.refused:
                raise TurnedAway
            if not let_in:
                knock.refused = True
                return None
            knock.device, knock.token = self.devices.let_in(name or knock.name, maker)
            return knock.device

    def ask(self, secret: str) -> tuple[Device, str] | None:
        """The device asks: None while nobody has answered, else itself and its token, once. Raises TurnedAway."""
        sought = digest(secret)
        with self.lock:
            self._tidy(self.clock())
            knock = next((k for k in self.knocks.values() if hmac.compare_digest(k.secret, sought)), None)
            if knock is None:
                raise TurnedAway
            if knock.refused:
                del self.knocks[knock.id]
                raise TurnedAway
            if knock.device is None or knock.token is None:
                return None
            del self.knocks[knock.id]
            return knock.device, knock.token
