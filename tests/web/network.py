"""The house as the network sees it: real TLS, the authority trusted, cookies kept as a browser keeps them."""

from __future__ import annotations

import http.client
import json
import random
import socket
import ssl
from contextlib import suppress
from http.cookies import SimpleCookie
from typing import TYPE_CHECKING, Any

import socketio

from hookside.web.keep import private_folder
from hookside.web.port import remember, remembered
from hookside.web.wire import Wire

if TYPE_CHECKING:
    from conftest import House

PLACE = "127.0.0.1"  # this machine stands for an address of the house


def spare_port() -> int:
    """A free port that nobody else on this machine takes while a house is closed for a moment: none of the usual ones,
    which every other Hookside takes (another run of these tests, the maker's own), none that the system hands out."""
    while True:
        port = random.randrange(20_000, 30_000)
        with suppress(OSError), socket.create_server(("127.0.0.1", port)):
            return port


def share(house: House) -> None:
    """Open the second listener, at a port of its own. No name is told to the real network."""
    if remembered(house.doors.folder) is None:
        private_folder(house.doors.folder)
        remember(house.doors.folder, spare_port())
    house.doors.sharing.find = lambda: [PLACE]
    house.doors.sharing.announce = False
    house.doors.sharing.begin()


def trusting(house: House) -> ssl.SSLContext:
    """A client that trusts the household's authority and nobody else."""
    opened = house.doors.sharing.open
    assert opened is not None
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    context.load_verify_locations(cadata=opened.authority.file)
    return context


class Line(Wire):
    """The client's end of an open socket. This client reads it in one thread and writes to it in another, and OpenSSL
    allows no two calls at once on one connection: left to itself it took about one line in a hundred for closed."""

    def __init__(self, port: int, context: ssl.SSLContext) -> None:
        plain = socket.create_connection((PLACE, port), timeout=30)
        super().__init__(context.wrap_socket(plain, server_hostname=PLACE), seconds=600)

    @property
    def _closed(self) -> bool:  # asked by the client before it closes it
        return self.fileno() < 0

    def gettimeout(self) -> float | None:
        return None

    def shutdown(self, how: int) -> None:
        self.cut()


class Phone:
    """A browser on the network, without a page."""

    def __init__(self, house: House) -> None:
        self.house = house
        assert house.doors.house is not None
        self.address = house.doors.house
        self.context = trusting(house)
        self.cookies: dict[str, str] = {}

    def raw(
        self, method: str, path: str, body: bytes | None = None, headers: dict[str, str] | None = None
    ) -> tuple[int, dict[str, str], bytes]:
        line = http.client.HTTPSConnection(PLACE, self.address.port, timeout=30, context=self.context)
        sent = {"Cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items())} if self.cookies else {}
        try:
            line.request(method, path, body, sent | (headers or {}))
            answer = line.getresponse()
            for header in answer.headers.get_all("Set-Cookie") or []:
                self.cookies |= {k: v.value for k, v in SimpleCookie(header).items()}
            return answer.status, dict(answer.getheaders()), answer.read()
        finally:
            line.close()

    def ask(self, method: str, path: str, body: Any = None, headers: dict[str, str] | None = None) -> tuple[int, Any]:
        sent = None if body is None else json.dumps(body).encode()
        more = {} if body is None else {"Content-Type": "application/json"}
        status, _, text = self.raw(method, path, sent, more | (headers or {}))
        return status, json.loads(text) if text else None

    def pair(self, name: str = "phone") -> str:
        """Be invited, knock, be let in. Returns the device's id."""
        link, _ = self.house.doors.pairing.invite()
        status, knock = self.ask("POST", "/api/pair/knock", {"shown": link, "name": name})
        assert status == 200, knock
        waiting = self.house.doors.pairing.waiting()[0]
        status, state = self.house.ask(
            "POST", "/api/share/answer", {"knock": waiting.id, "let_in": True, "name": name, "maker": "Ada"}
        )
        assert status == 200, state
        status, paired = self.ask("POST", "/api/pair/ask", {"knock": knock["knock"]})
        assert status == 200, paired
        return str(state["devices"][-1]["id"])

    def line(
        self, headers: dict[str, str] | None = None, origin: str | None = None, protocols: list[str] | None = None
    ) -> socketio.Client:
        """An open socket. Raises socketio.exceptions.ConnectionError where it is refused."""
        sent = {"Cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items())} if self.cookies else {}
        options: dict[str, Any] = {"socket": Line(self.address.port, self.context)}
        if origin != "":
            options["origin"] = origin or self.address.url
        else:
            options["suppress_origin"] = True
        if protocols:
            options["subprotocols"] = protocols
        client = socketio.Client(reconnection=False, websocket_extra_options=options)
        client.connect(self.address.url, headers=sent | (headers or {}), transports=["websocket"], wait_timeout=10)
        return client


def hang_up(client: socketio.Client) -> None:
    """Close at once: this client would wait seconds for an answer."""
    wire = client.eio.ws
    if wire is not None:
        raw = wire.sock
        wire.close(timeout=0)
        client.disconnect()
        if raw is not None:
            raw.close()
