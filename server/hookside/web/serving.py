"""The server: Werkzeug's, one thread for each connection, with what a house needs added.

A connection that says nothing is dropped after `PATIENCE` seconds, and more than `MOST` at once are turned away
at once, so that neither holds up anybody else. Small packets go out at once (TCP_NODELAY): the two frames of a
socket message would otherwise wait 40 ms for each other.
"""

from __future__ import annotations

import json
import socket
import sys
import threading
import traceback
from http import HTTPStatus
from typing import TYPE_CHECKING, Any

from werkzeug.serving import ThreadedWSGIServer, WSGIRequestHandler

if TYPE_CHECKING:
    from _typeshed.wsgi import WSGIApplication, WSGIEnvironment

PATIENCE = 10.0  # seconds for a request to arrive; a socket once open has its own heartbeat
MOST = 512  # connections at once


class Handler(WSGIRequestHandler):
    """One connection."""

    disable_nagle_algorithm = True
    protocol_version = "HTTP/1.1"
    timeout = PATIENCE

    def make_environ(self) -> WSGIEnvironment:
        environ = super().make_environ()
        if environ.get("HTTP_UPGRADE", "").lower() == "websocket":
            # From here on silence is normal: the socket's own heartbeat finds out who has gone.
            self.connection.settimeout(None)
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

    def log(self, type: str, message: str, *args: Any) -> None:
        """Nothing about requests: addresses and queries belong to the maker."""

    def log_error(self, format: str, *args: Any) -> None:
        """Nor about clients that hung up."""


class Server(ThreadedWSGIServer):
    """Serves `app` on a socket that already listens."""

    daemon_threads = True

    def __init__(self, listener: socket.socket, app: WSGIApplication, most: int = MOST) -> None:
        host, port = listener.getsockname()[:2]
        self.free = threading.BoundedSemaphore(most)
        super().__init__(host, port, app, Handler, fd=listener.fileno())
        listener.close()  # the server holds a copy of its own

    def process_request(self, request: Any, client_address: Any) -> None:
        """Called by the accepting thread: must never wait."""
        if not self.free.acquire(blocking=False):
            self.shutdown_request(request)
            return
        try:
            super().process_request(request, client_address)
        except BaseException:
            self.free.release()
            raise

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        """Called in the connection's own thread: a handshake of TLS belongs here, not in `get_request`."""
        try:
            super().process_request_thread(request, client_address)
        finally:
            self.free.release()

    def log(self, type: str, message: str, *args: Any) -> None:
        """Only what went wrong in our own code."""
        if type == "error":
            print(message % args if args else message, file=sys.stderr)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A client that breaks off is no news; a fault of ours is."""
        if not isinstance(sys.exception(), OSError):
            traceback.print_exc()
