"""The socket itself: websocket only, with bounds on what one message may weigh and how fast they may come."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import simple_websocket
from engineio.async_drivers._websocket_wsgi import SimpleWebSocketWSGI
from flask_socketio import SocketIO

from hookside.web.pace import Bucket

LARGEST_MESSAGE = 1 << 20  # bytes: 500 moves take about 150 kB
PROTOCOL = "hookside"  # named in answer to a page that offers it beside its device's pass
MESSAGES, BYTES = 400.0, float(4 << 20)  # a second, after a first lot of twice as many


MOST_UNREAD = 32  # messages that may lie here before more is taken from the line


class Line(simple_websocket.Server):  # type: ignore[misc]
    """Takes nothing more from the line while what came has not been looked at: the network makes the sender wait."""

    def _handle_events(self) -> Any:
        going = super()._handle_events()
        while going and self.connected and len(self.input_buffer) > MOST_UNREAD:
            time.sleep(0.005)
        return going


class BoundedSocket(SimpleWebSocketWSGI):  # type: ignore[misc]
    """Refuses an oversized message while it arrives, not after it lies in memory whole, and reads who sends too fast
    more slowly: nothing is lost."""

    def __init__(self, handler: Callable[..., Any], server: Any, **settings: Any) -> None:
        bounds = {"max_message_size": LARGEST_MESSAGE, "subprotocols": [PROTOCOL]}
        super().__init__(handler, server, **{**bounds, **settings})
        self.messages, self.bytes = Bucket(MESSAGES, 2 * MESSAGES), Bucket(BYTES, 2 * BYTES)

    def __call__(self, environ: Any, start_response: Any) -> Any:
        """Until it closes. Then Werkzeug has nothing to answer, and is told so as by a client that hung up."""
        self.ws = Line(environ, **self.server_args)
        self.app(self)
        raise ConnectionError

    def wait(self) -> Any:
        message = super().wait()
        if message is not None:
            time.sleep(max(self.messages.take(), self.bytes.take(len(message))))
        return message


def bounded_socket(socket: SocketIO) -> None:
    """Put the bounds in. Engine.IO checks sizes only once a message is complete and has no setting for this."""
    engine = socket.server.eio
    engine._async = {**engine._async, "websocket": BoundedSocket}
