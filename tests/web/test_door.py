"""Who is let in: Host, Origin, and the headers on every answer."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from callers import called
from werkzeug.test import Client

from hookside.web.address import Address
from hookside.web.door import Door
from hookside.web.doors import Doors

ADDRESS = Address(4717)
# What opens a socket: RFC 6455, 1.3, with its own example of a key.
OPENING = {
    "Host": "127.0.0.1:4717", "Origin": "http://127.0.0.1:4717", "Upgrade": "websocket", "Connection": "Upgrade",
    "Sec-WebSocket-Key": "dGhlIHNhbXBsZSBub25jZQ==", "Sec-WebSocket-Version": "13",
}  # fmt: skip


def behind(environ, start_response):  # type: ignore[no-untyped-def]
    start_response("200 OK", [("Content-Type", "text/plain"), ("Content-Security-Policy", "sandbox")])
    return [b"in"]


class Ask:
    """Asks a door at this machine's own listener."""

    def __init__(self, folder: Path) -> None:
        self.client = Client(Door(behind, Doors(folder, ADDRESS)))

    def get(self, path: str, headers: dict[str, str], method: str = "GET"):  # type: ignore[no-untyped-def]
        base = {"hookside.caller": called()}
        return self.client.open(path, method=method, headers=headers, environ_base=base)

    def post(self, path: str, headers: dict[str, str]):  # type: ignore[no-untyped-def]
        return self.get(path, headers, "POST")


@pytest.fixture
def client(tmp_path: Path) -> Ask:
    return Ask(tmp_path)


def asked(client: Ask, path: str = "/", **headers: str) -> int:
    named = {k.replace("_", "-"): v for k, v in headers.items()}
    status: int = client.get(path, headers={"Host": "127.0.0.1:4717", **named}).status_code
    return status


@pytest.mark.parametrize("host", ["127.0.0.1:4717", "localhost:4717", "[::1]:4717", "LOCALHOST:4717"])
def test_our_own_names_are_let_in(client: Ask, host: str) -> None:
    assert asked(client, Host=host) == 200


@pytest.mark.parametrize(
    "host",
    [
        "gulls.example", "gulls.example:4717", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:4718", "localhost",
        "0.0.0.0:4717", "192.168.1.20:4717", "127.0.0.1:4717.gulls.example", "127.0.0.1:4717,gulls.example",
        "gulls.example@127.0.0.1:4717", "2130706433:4717", "127.1:4717", "",
    ],
)  # fmt: skip
def test_another_name_is_refused(client: Ask, host: str) -> None:
    # A page elsewhere can let its own name lead to 127.0.0.1 (DNS rebinding); the Host header then says its name.
    assert asked(client, Host=host) == 403


@pytest.mark.parametrize("origin", ["http://127.0.0.1:4717", "http://localhost:4717", "http://[::1]:4717"])
def test_our_own_pages_are_let_in(client: Ask, origin: str) -> None:
    assert asked(client, Origin=origin) == 200
    assert asked(client, "/socket.io/", **OPENING | {"Origin": origin}) == 200


@pytest.mark.parametrize(
    "wrong",
    [
        {"Sec-WebSocket-Key": ""}, {"Sec-WebSocket-Key": "short"}, {"Sec-WebSocket-Version": "8"},
        {"Connection": "keep-alive"},
    ],
)  # fmt: skip
def test_a_socket_that_does_not_begin_as_one_is_said(client: Ask, wrong: dict[str, str]) -> None:
    answer = client.get("/socket.io/", headers=OPENING | wrong)
    assert answer.status_code == 400
    assert json.loads(answer.data)["code"] == "malformed"
    assert client.post("/socket.io/", headers=OPENING).status_code == 400


@pytest.mark.parametrize(
    "origin",
    [
        "null", "", "http://gulls.example", "https://127.0.0.1:4717", "http://127.0.0.1:4718", "http://127.0.0.1",
        "http://127.0.0.1:4717.gulls.example", "http://127.0.0.1:4717/", "file://", "*",
    ],
)  # fmt: skip
def test_pages_of_others_are_refused(client: Ask, origin: str) -> None:
    assert asked(client, Origin=origin) == 403
    assert asked(client, "/socket.io/", Origin=origin, Upgrade="websocket") == 403


def test_a_socket_must_say_where_it_comes_from(client: Ask) -> None:
    assert asked(client) == 200
    assert asked(client, "/socket.io/?EIO=4&transport=websocket") == 403
    assert asked(client, "/anything", Upgrade="websocket") == 403


def test_a_refusal_is_a_sentence(client: Ask) -> None:
    answer = client.get("/", headers={"Host": "gulls.example"})
    assert answer.json is not None
    assert answer.json["code"] == "host"
    assert "http://127.0.0.1:4717" in answer.json["say"]


@pytest.mark.parametrize("host", ["127.0.0.1:4717", "gulls.example"])
def test_every_answer_carries_the_headers(client: Ask, host: str) -> None:
    headers = client.get("/", headers={"Host": host}).headers
    for name in ("Content-Security-Policy", "X-Content-Type-Options", "Referrer-Policy", "X-Frame-Options"):
        assert headers.get(name), name


def test_the_policy_knows_no_inline_script(client: Ask) -> None:
    policy = client.get("/", headers={"Host": "gulls.example"}).headers["Content-Security-Policy"]
    rules = dict(rule.split(" ", 1) for rule in policy.split("; "))
    assert rules["default-src"] == "'none'"
    assert rules["script-src"] == "'self'"
    assert "unsafe" not in policy
    assert "*" not in policy


def test_what_came_by_no_door_is_refused(client: Ask) -> None:
    # No header can stand in for what the server says of its own listener.
    answer = client.client.get("/", headers={"Host": "127.0.0.1:4717", "Hookside-Caller": "here"})
    assert answer.status_code == 403
    assert json.loads(answer.data)["code"] == "listener"


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"Content-Length": "3000000"}, 413), ({"Content-Length": "9" * 40}, 413), ({"Content-Length": "-1"}, 400),
        ({"Content-Length": "1e3"}, 400), ({"Content-Length": "\u0663"}, 400), ({"Transfer-Encoding": "chunked"}, 411),
    ],
)  # fmt: skip
def test_bodies_are_bounded_before_they_are_read(client: Ask, headers: dict[str, str], status: int) -> None:
    base = {"hookside.caller": called()}
    environ = {"CONTENT_LENGTH": headers.get("Content-Length", "0")}
    if "Transfer-Encoding" in headers:
        environ["HTTP_TRANSFER_ENCODING"] = headers["Transfer-Encoding"]
    answer = client.client.open(
        "/", method="POST", headers={"Host": "127.0.0.1:4717"}, environ_base=base, environ_overrides=environ
    )
    assert answer.status_code == status
