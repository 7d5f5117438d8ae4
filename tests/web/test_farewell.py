"""Both threads of a connection may close it in the same moment."""

from __future__ import annotations

import socket
import threading
from typing import Any

from wsproto import ConnectionType, WSConnection
from wsproto.events import AcceptConnection, Request

from hookside.web.socket import Line


def test_two_farewells_at_once_are_one() -> None:
    """The second finds the connection closing already, which the library calls a breach of protocol."""
    line: Any = Line.__new__(Line)
    ours, theirs = socket.socketpair()
    client, server = WSConnection(ConnectionType.CLIENT), WSConnection(ConnectionType.SERVER)
    server.receive_data(client.send(Request(host="a", target="/")))
    list(server.events())
    server.send(AcceptConnection())
    line.ws, line.sock, line.connected = server, ours, True
    line.close_reason = line.close_message = None
    line.close()
    line.connected = True  # as the other thread still sees it
    said: list[BaseException] = []

    def again() -> None:
        try:
            line.close()
        except BaseException as error:
            said.append(error)

    thread = threading.Thread(target=again)
    thread.start()
    thread.join()
    ours.close()
    theirs.close()
    assert said == []
