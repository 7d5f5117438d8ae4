"""The server: Werkzeug's, one thread for each connection, with what a house needs added.

Each listener (this machine, the network, the plain one that tells how to trust) is one such server in the same
process; a connection carries the name of its listener in the WSGI environment, set here and nowhere else. The
handshake of TLS happens in the connection's own thread, so that a stalled one holds up nobody. Every stage has a
deadline, and when the house is full silent callers give way (lobby.py). Small packets go out at once (TCP_NODELAY):
the two frames of a socket message would otherwise wait 40 ms for each other.
"""

from __future__ import annotations

import json
import socket
import ssl
import sys
import traceback
from collections.abc import Callable
from http import HTTPStatus
from typing import TYPE_CHECKING, Any

from werkzeug.serving import ThreadedWSGIServer, WSGIRequestHandler

from hookside.web.lobby import MOST, Caller, Listener, Lobby
from hookside.web.pace import Paces
from hookside.web.wire import Wire

if TYPE_CHECKING:
    from _typeshed.wsgi import WSGIApplication, WSGIEnvironment

PATIENCE = 10.0  # seconds for a handshake, and again for the head of a request
SILENCE = 70.0  # seconds an open socket may be silent: its heartbeat comes every 25 and is waited for 20


class Handler(WSGIRequestHandler):
    """One connection."""

    disable_nagle_algorithm = True
    protocol_version = "HTTP/1.1"
    server: Server

    def setup(self) -> None:
        self.caller: Caller = self.request
        self.request = self.caller.wire
        self.caller.wire.due(PATIENCE)
        super().setup()

    def make_environ(self) -> WSGIEnvironment:
        environ = super().make_environ()
        environ["hookside.caller"] = self.caller
        return environ

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """What is no request of HTTP at all is answered in words too."""
        long = code == HTTPStatus.REQUEST_URI_TOO_LONG
        say = "That address is too long." if long else "That is no request Hookside understands."
        body = json.dumps({"say": say, "code": str(int(code))}).encode()
        self.close_connection = True
        self.send_response(code)
        self.send_header("Connection", "close")
        self.send_header("Content-Type", "application/json")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)

    def version_string(self) -> str:
        """Nobody needs to know what we are made of."""
        return "Hookside"

    def log(self, type: str, message: str, *args: Any) -> None:
        """Nothing about requests: addresses and queries belong to the maker."""

    def log_error(self, format: str, *args: Any) -> None:
        """Nor about clients that hung up."""


def anywhere(address: str) -> bool:
    return True


class Server(ThreadedWSGIServer):
    """Serves `app` on a socket that already listens.

    `context`: speak TLS; it may be replaced at any time, for the connections that come after. `at`: whether a caller
    who came to this address of ours is let in; asked of our end of the connection, never of theirs. `arrivals`: how
    fast one address may open connections: a handshake costs us a millisecond, and who asks for it next to nothing.
    """

    daemon_threads = True

    def __init__(
        self,
        listener: socket.socket,
        app: WSGIApplication,
        name: Listener = "here",
        context: ssl.SSLContext | None = None,
        most: int = MOST,
        each: int | None = None,
        at: Callable[[str], bool] = anywhere,
        arrivals: Paces | None = None,
    ) -> None:
        host, port = listener.getsockname()[:2]
        self.name, self.at, self.arrivals = name, at, arrivals
        self.lobby = Lobby(most, each)
        super().__init__(host, port, app, Handler, fd=listener.fileno())
        listener.close()  # the server holds a copy of its own
        self.ssl_context = context  # Werkzeug looks here for the scheme of an address

    def get_request(self) -> tuple[Any, Any]:
        """The next caller. Raises OSError, which passes this caller over and no other."""
        sock, address = self.socket.accept()
        try:
            if not self.at(sock.getsockname()[0]):
                raise ConnectionRefusedError("not at this address")
            return Caller(Wire(sock, PATIENCE), self.name, address[0]), address
        except BaseException:
            sock.close()
            raise

    def process_request(self, request: Any, client_address: Any) -> None:
        """Called by the accepting thread: must never wait."""
        too_fast = self.arrivals is not None and not self.arrivals.allows(request.address)
        if too_fast or not self.lobby.admit(request):
            self.shutdown_request(request)
            return
        try:
            super().process_request(request, client_address)
        except BaseException:
            self.lobby.leave(request)
            raise

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        """Called in the connection's own thread."""
        try:
            super().process_request_thread(request, client_address)
        finally:
            self.lobby.leave(request)

    def finish_request(self, request: Any, client_address: Any) -> None:
        if self.ssl_context is not None:
            request.wire.secure(self.ssl_context)
        super().finish_request(request, client_address)

    def shutdown_request(self, request: Any) -> None:
        request.wire.farewell()
        request.wire.close()

    def log(self, type: str, message: str, *args: Any) -> None:
        """Only what went wrong in our own code."""
        if type == "error":
            print(message % args if args else message, file=sys.stderr)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A client that breaks off is no news; a fault of ours is."""
        if not isinstance(sys.exception(), OSError):
            traceback.print_exc()
