"""The door: one wrapper in front of everything, Socket.IO included.

Which listener a connection came to is told by the server that accepted it; neither its address nor any header it
sends can change that. What comes to this machine's own listener is let in; what comes from the network must show
that it is paired, and until then sees the pairing page and nothing else. At both:

Host    must name this server. A page elsewhere can point a name of its own at 127.0.0.1 (rebinding), and
        then its requests count as same-origin in the browser; only the Host header still tells.
Origin  where it is sent, must be one of our pages. A socket must send it: browsers always do, and neither the
        same-origin rule nor a preflight protects sockets.

A request is taken in whole, within bounds of size and time, before anything behind the door sees it. The door also
puts the headers on every answer that tell the browser how little the page may do.
"""

from __future__ import annotations

import io
import json
from collections.abc import Collection, Iterable
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING

from hookside.web.devices import Device
from hookside.web.doors import Doors
from hookside.web.lobby import Caller
from hookside.web.pace import Paces
from hookside.web.said import Said
from hookside.web.serving import PATIENCE, SILENCE

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment

COOKIE = "__Host-hookside"
COOKIE_LASTS = 400 * 86400  # seconds; browsers keep none longer (RFC 6265bis, 5.5)
PASS = "pass."  # in front of a device's pass among the subprotocols of a socket
LARGEST_BODY = 2 << 20  # bytes: a text of 256 kB, every character of it escaped in JSON, with room
LARGEST_FILE = 20 << 20  # bytes: a file with a pattern in it, pictures and all
FILES = "/api/file"  # the one place that takes files
LARGEST_UNPAIRED = 4 << 10
SLOWEST = 64 << 10  # bytes a second that a body must come at
PAIRING_PAGE = "/pair"
PAIRING = {("GET", PAIRING_PAGE), ("POST", "/api/pair/knock"), ("POST", "/api/pair/ask")}
HEADERS = [
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("X-Frame-Options", "DENY"),
]
NOBODY = "default-src 'none'; frame-ancestors 'none'"  # the policy of an answer that is no page of ours


class Refusal(Exception):
    """Not let in: a status line, a word for the page, a sentence."""

    def __init__(self, status: str, code: str, say: str) -> None:
        super().__init__(say)
        self.status, self.code, self.say = status, code, say


def cookie(token: str) -> str:
    """The header that makes a browser keep a device's token, out of reach of scripts and of other sites."""
    return f"{COOKIE}={token}; Path=/; Max-Age={COOKIE_LASTS}; Secure; HttpOnly; SameSite=Strict"


def token_of(environ: WSGIEnvironment) -> str | None:
    try:
        found = SimpleCookie(environ.get("HTTP_COOKIE", "")).get(COOKIE)
    except CookieError:
        return None
    return found.value if found else None


def pass_of(environ: WSGIEnvironment) -> str | None:
    offered = (part.strip() for part in environ.get("HTTP_SEC_WEBSOCKET_PROTOCOL", "").split(","))
    return next((part[len(PASS) :] for part in offered if part.startswith(PASS)), None)


def opens_socket(environ: WSGIEnvironment) -> bool:
    return environ.get("HTTP_UPGRADE") is not None or environ.get("PATH_INFO", "").startswith("/socket.io")


def host_only(environ: WSGIEnvironment) -> None:
    """For what is decided beside the machine itself: refuse everybody who came from the network. Raises Said."""
    if environ["hookside.caller"].listener != "here":
        raise Said(403, "host-only", "That is decided on the machine that Hookside runs on.")


def greets(environ: WSGIEnvironment) -> bool:
    """Whether a request has what opens a WebSocket (RFC 6455, 4.1): otherwise the library behind stumbles."""
    upgrades = [part.strip().lower() for part in environ.get("HTTP_CONNECTION", "").split(",")]
    key = environ.get("HTTP_SEC_WEBSOCKET_KEY", "")
    version = environ.get("HTTP_SEC_WEBSOCKET_VERSION", "")
    return environ.get("REQUEST_METHOD") == "GET" and "upgrade" in upgrades and len(key) == 24 and version == "13"


class Door:
    """The WSGI wrapper. `app` is everything behind it; `pairing_files` what the pairing page is made of."""

    def __init__(self, app: WSGIApplication, doors: Doors, pairing_files: Collection[str] = ()) -> None:
        self.app = app
        self.doors = doors
        self.open_to_all = PAIRING | {("GET", f"/{name}") for name in pairing_files}
        self.here = Paces(rate=2000, most=4000)
        self.house = Paces(rate=100, most=400)
        self.unpaired = Paces(rate=4, most=60)

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        caller = environ.get("hookside.caller")
        listener = caller.listener if isinstance(caller, Caller) else "here"
        added = [("Content-Security-Policy", self.doors.policies.get(listener, NOBODY)), *HEADERS]
        try:
            if not isinstance(caller, Caller):
                raise Refusal("403 Forbidden", "listener", "This request came by no door.")
            device = self.admit(environ, caller)
            self.take_in(environ, caller, device)
        except Refusal as e:
            body = json.dumps({"say": e.say, "code": e.code}).encode()
            headers = [("Content-Type", "application/json"), ("Content-Length", str(len(body))), *added]
            if e.code == "unpaired" and (environ["REQUEST_METHOD"], environ["PATH_INFO"]) == ("GET", "/"):
                start_response("303 See Other", [("Location", PAIRING_PAGE), *headers])
            else:
                start_response(e.status, headers)
            return [body]
        token = token_of(environ)
        if device and token and environ["PATH_INFO"] == "/":
            added.append(("Set-Cookie", cookie(token)))  # its time begins again: who comes often is never asked again

        def answer(status: str, headers: list[tuple[str, str]], exc_info=None):  # type: ignore[no-untyped-def]
            set_already = {name.lower() for name, _ in headers}
            return start_response(status, headers + [h for h in added if h[0].lower() not in set_already], exc_info)

        return self.app(environ, answer)

    def admit(self, environ: WSGIEnvironment, caller: Caller) -> Device | None:
        """Let in, or raise Refusal. Returns the paired device, None at this machine's own door and for pairing."""
        address = self.doors.address(caller.listener)
        if address is None:
            raise Refusal("403 Forbidden", "closed", "Hookside is not shared just now.")
        if environ.get("HTTP_HOST", "").lower() not in address.hosts:
            say = f"This is Hookside at {address.url}; it does not answer to another name."
            raise Refusal("403 Forbidden", "host", say)
        origin = environ.get("HTTP_ORIGIN")
        if origin is None and opens_socket(environ):
            raise Refusal("403 Forbidden", "origin", "A socket has to say which page it belongs to.")
        if origin is not None and origin.lower() not in self.doors.origins[caller.listener]:
            raise Refusal("403 Forbidden", "origin", "Hookside talks to its own pages only.")
        paces = self.house if caller.listener == "house" else self.here
        if not paces.allows(caller.address):
            raise Refusal("429 Too Many Requests", "fast", "That is more than Hookside takes at once. Wait a moment.")
        device = None
        if caller.listener == "house":
            device = self.shown(environ, caller)
            if device is None:
                self.meet(environ, caller)
        if environ.get("HTTP_UPGRADE", "").lower() == "websocket" and not greets(environ):
            raise Refusal("400 Bad Request", "malformed", "A socket has to begin as sockets do. Reload the page.")
        return device

    def shown(self, environ: WSGIEnvironment, caller: Caller) -> Device | None:
        """The device that shows its token, or at a socket its pass."""
        token = token_of(environ)
        passage = pass_of(environ) if opens_socket(environ) else None
        for secret, known in ((token, self.doors.devices.by_token), (passage, self.doors.devices.by_pass)):
            device = known(secret) if secret else None
            if device is not None and secret is not None:
                # First the mark by which its connections are found, then the second look: whoever is shown out in
                # between is met either there or here.
                caller.device = device.id
                if known(secret) is not None:
                    self.doors.devices.saw(device)
                    return device
        return None

    def meet(self, environ: WSGIEnvironment, caller: Caller) -> None:
        """A device that is not paired: the pairing page and nothing else."""
        if not self.unpaired.allows(caller.address):
            raise Refusal("429 Too Many Requests", "fast", "That is too often. Wait a minute and try once more.")
        if opens_socket(environ) or (environ["REQUEST_METHOD"], environ["PATH_INFO"]) not in self.open_to_all:
            say = "This device is not paired with Hookside, or not any more. Open /pair to pair it."
            raise Refusal("401 Unauthorized", "unpaired", say)

    def take_in(self, environ: WSGIEnvironment, caller: Caller, device: Device | None) -> None:
        """Read the body whole, in bounds of size and time; then the connection waits no longer."""
        environ["hookside.device"] = device
        most = LARGEST_FILE if environ.get("PATH_INFO") == FILES else LARGEST_BODY
        most = LARGEST_UNPAIRED if caller.listener == "house" and device is None else most
        if "HTTP_TRANSFER_ENCODING" in environ:
            raise Refusal("411 Length Required", "411", "Hookside wants to know beforehand how long a request is.")
        length = environ.get("CONTENT_LENGTH") or "0"
        if not (length.isascii() and length.isdecimal()):
            raise Refusal("400 Bad Request", "400", "That is no request Hookside understands.")
        size = int(length) if len(length) <= 12 else most + 1
        if size > most:
            bound = "a file may have up to 20 MB" if most == LARGEST_FILE else "a pattern may have up to 256 kB of text"
            say = f"That is more than Hookside takes at once: {bound}."
            raise Refusal("413 Content Too Large", "413", say)
        if size:
            caller.wire.due(PATIENCE + size / SLOWEST)
            body = environ["wsgi.input"].read(size)
            if len(body) < size:
                raise Refusal("400 Bad Request", "400", "That request broke off.")
            environ["wsgi.input"] = io.BytesIO(body)
        else:
            environ["wsgi.input"] = io.BytesIO()
        caller.arrived()
        if opens_socket(environ):
            caller.wire.lasting(SILENCE)
