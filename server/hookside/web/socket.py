"""The socket itself: websocket only, with a bound on what one message may weigh."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from engineio.async_drivers._websocket_wsgi import SimpleWebSocketWSGI
from flask_socketio import SocketIO

LARGEST_MESSAGE = 1 << 20  # bytes: 500 moves take about 150 kB


class BoundedSocket(SimpleWebSocketWSGI):  # type: ignore[misc]
    """Refuses an oversized message while it arrives, not after it lies in memory whole."""

    def __init__(self, handler: Callable[..., Any], server: Any, **settings: Any) -> None:
        super().__init__(handler, server, **{"max_message_size": LARGEST_MESSAGE, **settings})


def bounded_socket(socket: SocketIO) -> None:
    """Put the bound in. Engine.IO checks sizes only once a message is complete and has no setting for this."""
    engine = socket.server.eio
    engine._async = {**engine._async, "websocket": BoundedSocket}
