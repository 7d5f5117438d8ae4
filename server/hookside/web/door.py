"""The door: one wrapper in front of everything, Socket.IO included.

It looks at two headers before anything else sees the request.

Host    must name this server. A page elsewhere can point a name of its own at 127.0.0.1 (rebinding), and
        then its requests count as same-origin in the browser; only the Host header still tells.
Origin  where it is sent, must be one of our pages. A socket must send it: browsers always do, and neither the
        same-origin rule nor a preflight protects sockets.

It also puts the headers on every answer that tell the browser how little the page may do.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import TYPE_CHECKING

from hookside.web.address import Address

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment


def policy(address: Address) -> str:
    """The content security policy: our own files, our own socket, nothing inline."""
    # Its grammar has no place for an address in brackets.
    sockets = " ".join(sorted(f"ws://{host}" for host in address.hosts if not host.startswith("[")))
    return "; ".join(
        [
            "default-src 'none'",
            "script-src 'self'",
            "style-src 'self'",
            "font-src 'self'",
            "img-src 'self' data:",
            "media-src 'self' blob: data:",
            f"connect-src 'self' {sockets}",
            "manifest-src 'self'",
            "worker-src 'self'",
            "base-uri 'none'",
            "form-action 'none'",
            "frame-ancestors 'none'",
        ]
    )


def greets(environ: WSGIEnvironment) -> bool:
    """Whether a request has what opens a WebSocket (RFC 6455, 4.1): otherwise the library behind stumbles."""
    upgrades = [part.strip().lower() for part in environ.get("HTTP_CONNECTION", "").split(",")]
    key = environ.get("HTTP_SEC_WEBSOCKET_KEY", "")
    version = environ.get("HTTP_SEC_WEBSOCKET_VERSION", "")
    return environ.get("REQUEST_METHOD") == "GET" and "upgrade" in upgrades and len(key) == 24 and version == "13"


class Door:
    """The WSGI wrapper. `app` is everything behind it."""

    def __init__(self, app: WSGIApplication, address: Address) -> None:
        self.app = app
        self.address = address
        self.headers = [
            ("Content-Security-Policy", policy(address)),
            ("X-Content-Type-Options", "nosniff"),
            ("Referrer-Policy", "no-referrer"),
            ("Cross-Origin-Opener-Policy", "same-origin"),
            ("Cross-Origin-Resource-Policy", "same-origin"),
            ("X-Frame-Options", "DENY"),
        ]

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        refusal = self.refusal(environ)
        if refusal is not None:
            status, code, sentence = refusal
            body = json.dumps({"say": sentence, "code": code}).encode()
            start_response(
                status,
                [("Content-Type", "application/json"), ("Content-Length", str(len(body))), *self.headers],
            )
            return [body]

        def answer(status: str, headers: list[tuple[str, str]], exc_info=None):  # type: ignore[no-untyped-def]
            set_already = {name.lower() for name, _ in headers}
            added = [h for h in self.headers if h[0].lower() not in set_already]
            return start_response(status, headers + added, exc_info)

        return self.app(environ, answer)

    def refusal(self, environ: WSGIEnvironment) -> tuple[str, str, str] | None:
        """None to let it in, else (status, code, sentence)."""
        stranger = self.stranger(environ)
        if stranger is not None:
            return ("403 Forbidden", *stranger)
        if environ.get("HTTP_UPGRADE", "").lower() == "websocket" and not greets(environ):
            return "400 Bad Request", "malformed", "A socket has to begin as sockets do. Reload the page."
        return None

    def stranger(self, environ: WSGIEnvironment) -> tuple[str, str] | None:
        """None for whoever may come in, else (code, sentence)."""
        host = environ.get("HTTP_HOST", "").lower()
        if host not in self.address.hosts:
            return "host", f"This is Hookside at {self.address.url}; it does not answer to another name."
        origin = environ.get("HTTP_ORIGIN")
        if origin is None:
            socket = environ.get("HTTP_UPGRADE") is not None or environ.get("PATH_INFO", "").startswith("/socket.io")
            return ("origin", "A socket has to say which page it belongs to.") if socket else None
        if origin.lower() not in self.address.origins:
            return "origin", "Hookside talks to its own pages only."
        return None
