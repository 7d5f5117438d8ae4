"""The socket itself: websocket only, with bounds on what one message may weigh and how fast they may come."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from contextlib import suppress
from typing import Any

import simple_websocket
from engineio.async_drivers._websocket_wsgi import SimpleWebSocketWSGI
from flask_socketio import SocketIO
from socketio import packet
from wsproto.utilities import LocalProtocolError

from hookside.web.pace import Bucket

LARGEST_MESSAGE = 1 << 20  # bytes: 500 moves take about 150 kB
PROTOCOL = "hookside"  # named in answer to a page that offers it beside its device's pass
MESSAGES, BYTES = 400.0, float(4 << 20)  # a second, after a first lot of twice as many


# What Engine.IO's version 4 may send as text, of which Socket.IO's is the one that begins with 4. The library looks at
# the first letter only, takes it for a number, and reads the rest as JSON however deep it is.
PACKET = re.compile(r"4[0-6]|[1-356](probe)?$")
MOST_UNREAD = 32  # messages that may lie here before more is taken from the line


class Line(simple_websocket.Server):  # type: ignore[misc]
    """Takes nothing more from the line while what came has not been looked at: the network makes the sender wait."""

    def _handle_events(self) -> Any:
        going = super()._handle_events()
        while going and self.connected and len(self.input_buffer) > MOST_UNREAD:
            time.sleep(0.005)
        return going

    def close(self, *words: Any, **named: Any) -> None:
        """Say farewell, unless the other thread of this connection has closed it already, or is just doing so."""
        with suppress(OSError, simple_websocket.ConnectionClosed, LocalProtocolError):
            super().close(*words, **named)


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
        if isinstance(message, str) and not PACKET.match(message):
            self.close()
            return None  # as if it had hung up
        if message is not None:
            time.sleep(max(self.messages.take(), self.bytes.take(len(message))))
        return message


class NoPacket(Exception):
    """What came on a socket is not Socket.IO."""


class Packet(packet.Packet):  # type: ignore[misc]
    """A packet of Socket.IO; whatever else raises NoPacket, however the library would stumble over it."""

    @classmethod
    def data_is_binary(cls, data: Any) -> bool:
        """No: nothing of ours is sent in bytes, and five hundred answers need not be looked through for them."""
        return False

    def decode(self, encoded: Any) -> Any:
        try:
            count = super().decode(encoded)
        except Exception as error:  # numbers that are none, brackets in brackets, halves of letters
            raise NoPacket from error
        event = self.packet_type in (packet.EVENT, packet.BINARY_EVENT)
        if event and not (isinstance(self.data, list) and self.data and isinstance(self.data[0], str)):
            raise NoPacket
        return count

    def add_attachment(self, attachment: Any) -> Any:
        try:
            return super().add_attachment(attachment)
        except Exception as error:  # more of them than were announced, or none where one was
            raise NoPacket from error


def bounded_socket(socket: SocketIO) -> None:
    """Put the bounds in, for which the libraries have no settings: sizes while a message arrives, and an end for
    whoever sends what is no message at all."""
    engine = socket.server.eio
    engine._async = {**engine._async, "websocket": BoundedSocket}
    socket.server.packet_class = Packet
    heard = engine.handlers["message"]

    def message(sid: str, data: Any) -> None:
        try:
            if not data:  # taken for an event without a name by the library
                raise NoPacket
            heard(sid, data)
        except (NoPacket, ValueError):  # ValueError: a packet, but none that a page may send
            engine.disconnect(sid)

    engine.on("message", message)
