"""Every route and every event of the socket, tried as one who may not: the list is the application's own.

A route or event added anywhere is tried here without anybody thinking of it.
"""

from __future__ import annotations

import http.client
import re
from typing import TYPE_CHECKING, Any

import pytest
from network import PLACE, Phone, hang_up, share
from socketio.exceptions import ConnectionError as NotConnected

from hookside.web.door import Door

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from conftest import House

    from hookside.web.readings import Readings

# What one who is not paired may have, route by route; all else must be refused.
FOR_ALL = {("GET", "/pair"), ("POST", "/api/pair/knock"), ("POST", "/api/pair/ask")}
METHODS = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS")
SAMPLES = {"int": "1", "path": "some/way", "default": "some", "string": "some"}


# Of the built page's files the ones that draw the app for the system, and what the pairing page is made of.
PICTURES = {"hook.svg", "icons/icon-192.png", "icons/mask-512.png"}
PAIRING = {"assets/pair-1.js"}
KEPT_IN = {"index.html", "pair.html", "worker.js", "manifest.webmanifest", "assets/bench-1.js", "icons/notes.txt"}


@pytest.fixture
def phone(house: House) -> Phone:
    return at_the_door(house)


def at_the_door(house: House) -> Phone:
    share(house)
    # This test asks faster than anybody may: how fast is tried elsewhere.
    front = house.app.wsgi_app
    assert isinstance(front, Door)
    assert house.doors.sharing.open is not None
    house.doors.sharing.open.server.arrivals = None
    front.unpaired.rate = front.house.rate = front.unpaired.most = front.house.most = 1e6
    return Phone(house)


def every_route(house: House) -> list[tuple[str, str]]:
    """Each method at a sample of each rule, and at the socket's own place, which is no rule of Flask's."""
    paths = {
        re.sub(r"<(?:(\w+)(?:\([^)]*\))?:)?\w+>", lambda m: SAMPLES[m[1] or "default"], rule.rule)
        for rule in house.app.url_map.iter_rules()
    }
    paths |= {"/socket.io/", "/socket.io/?EIO=4&transport=polling", "/socket.io/?EIO=4&transport=websocket"}
    return [(method, path) for path in sorted(paths) for method in METHODS]


def every_event(house: House) -> list[str]:
    """What the socket listens for, of all namespaces, and what the library itself knows."""
    server = house.socket.server
    named = {event for handlers in server.handlers.values() for event in handlers}
    classes = {
        name.removeprefix("on_")
        for handler in server.namespace_handlers.values()
        for name in dir(handler)
        if name.startswith("on_")
    }
    return sorted(named | classes)


def test_the_lists_are_not_empty(house: House) -> None:
    paths = {path for _, path in every_route(house)}
    assert {"/", "/api/shelf", "/api/makings/1", "/api/share", "/api/devices/some", "/api/pair/knock"} <= paths
    assert {"join", "moves"} <= set(every_event(house))


def refused(answer: tuple[int, dict[str, str], bytes], status: int) -> bool:
    """Refused with the door's own few words: nothing of what lies behind it."""
    code, headers, body = answer
    return code == status and len(body) < 300 and "Set-Cookie" not in headers


@pytest.mark.parametrize("who", ["unpaired", "revoked", "invented"])
def test_no_route_for_one_who_is_not_paired(phone: Phone, who: str) -> None:
    if who == "revoked":
        assert phone.house.doors.sharing.show_out(phone.pair())
    if who == "invented":
        phone.cookies = {"__Host-hookside": "A" * 43}
    let_through = []
    for method, path in every_route(phone.house):
        if (method, path) in FOR_ALL:
            continue
        answer = phone.raw(method, path)
        # The page itself sends a browser to be paired.
        sent_on = (method, path) == ("GET", "/") and answer[0] == 303 and answer[1]["Location"] == "/pair"
        # A socket is refused one step earlier: nobody has said which page it belongs to.
        no_page = path.startswith("/socket.io") and refused(answer, 403)
        if not (sent_on or no_page or refused(answer, 401)):
            let_through.append((method, path, answer[0]))
    assert let_through == []


def test_of_the_built_page_the_pictures_and_what_pairs(
    new_house: Callable[..., House], readings: Readings, tmp_path: Path
) -> None:
    """A system fetches the pictures for its home screen without the page's cookie. Nothing else is given out."""
    static = tmp_path / "static"
    for name in PICTURES | PAIRING | KEPT_IN:
        (static / name).parent.mkdir(parents=True, exist_ok=True)
        (static / name).write_text(f"demo {name}", encoding="utf-8")
    (static / "pair.html").write_text('<script type="module" src="./assets/pair-1.js"></script>', encoding="utf-8")
    stranger = at_the_door(new_house(readings, static))
    got = {name: stranger.raw("GET", f"/{name}") for name in PICTURES | PAIRING | KEPT_IN}
    assert {name for name, answer in got.items() if answer[0] == 200} == PICTURES | PAIRING
    assert {name for name, answer in got.items() if refused(answer, 401)} == KEPT_IN
    others = [stranger.raw(method, f"/{name}") for name in PICTURES for method in METHODS if method != "GET"]
    assert all(refused(answer, 401) for answer in others)
    foreign = [stranger.raw("GET", f"/{name}", None, {"Host": "gulls.example"}) for name in PICTURES]
    assert all(refused(answer, 403) for answer in foreign)


@pytest.mark.parametrize("origin", ["https://gulls.example", "null", "http://127.0.0.1:{port}", "https://127.0.0.1"])
@pytest.mark.parametrize("listener", ["here", "house"])
def test_no_route_for_a_page_of_others(phone: Phone, listener: str, origin: str) -> None:
    phone.pair()
    ask: Any = phone if listener == "house" else phone.house
    headers = {"Origin": origin.format(port=1)}
    answers = [(m, p, ask.raw(m, p, None, headers)) for m, p in every_route(phone.house)]
    assert [(m, p, a[0]) for m, p, a in answers if not refused(a, 403)] == []


@pytest.mark.parametrize("host", ["gulls.example", "gulls.example:{port}", "localhost", "192.168.0.9:{port}", ""])
@pytest.mark.parametrize("listener", ["here", "house"])
def test_no_route_by_another_name(phone: Phone, listener: str, host: str) -> None:
    phone.pair()
    ask: Any = phone if listener == "house" else phone.house
    port = phone.address.port if listener == "house" else phone.house.address.port
    headers = {"Host": host.format(port=port)}
    answers = [(m, p, ask.raw(m, p, None, headers)) for m, p in every_route(phone.house)]
    assert [(m, p, a[0]) for m, p, a in answers if not refused(a, 403)] == []


def test_the_door_of_this_machine_has_no_name_in_the_network(phone: Phone) -> None:
    for at in (f"{PLACE}:{phone.address.port}", f"{phone.address.names[1]}:{phone.house.address.port}"):
        assert phone.house.raw("GET", "/api/shelf", None, {"Host": at})[0] == 403


@pytest.mark.parametrize(
    "who", ["unpaired", "revoked", "invented", "no origin", "foreign origin", "plain origin", "foreign host"]
)
def test_no_event_of_the_socket_for_one_who_may_not(phone: Phone, who: str) -> None:
    """The line itself is refused, so that no event arrives; each is sent all the same, and counted."""
    heard: list[str] = []
    server = phone.house.socket.server
    for handlers in server.handlers.values():
        for event, handler in list(handlers.items()):
            handlers[event] = spy(event, handler, heard)
    headers: dict[str, str] = {}
    origin = None
    if who not in ("unpaired", "invented"):
        device = phone.pair()
        if who == "revoked":
            phone.house.doors.sharing.show_out(device)
    if who == "invented":
        phone.cookies = {"__Host-hookside": "A" * 43}
    if who == "no origin":
        origin = ""
    if who == "foreign origin":
        origin = "https://gulls.example"
    if who == "plain origin":
        origin = f"http://{PLACE}:{phone.address.port}"
    if who == "foreign host":
        headers["Host"] = "gulls.example"
    for event in every_event(phone.house):
        with pytest.raises(NotConnected):
            send(phone, event, headers, origin)
    assert heard == []


def send(phone: Phone, event: str, headers: dict[str, str], origin: str | None) -> None:
    line = phone.line(headers, origin)
    try:
        line.call(event, {}, timeout=5)
    finally:
        hang_up(line)


def test_every_event_is_heard_from_a_paired_device(phone: Phone) -> None:
    """The other side of the check above: the same client, paired, is heard."""
    heard: list[str] = []
    for handlers in phone.house.socket.server.handlers.values():
        for event, handler in list(handlers.items()):
            handlers[event] = spy(event, handler, heard)
    phone.pair()
    line = phone.line()
    try:
        assert line.call("join", {}, timeout=20)["code"] == "malformed"
    finally:
        hang_up(line)
    assert "join" in heard


def spy(event: str, handler: Any, heard: list[str]) -> Any:
    def listens(*what: Any) -> Any:
        heard.append(event)
        return handler(*what)

    return listens


@pytest.mark.parametrize(
    "path", ["/api/shelf", "/socket.io/", "/pair", "/index.html", "/assets/x.js", "/trust/x", "/trust/"]
)
def test_the_plain_listener_has_two_things(phone: Phone, path: str) -> None:
    opened = phone.house.doors.sharing.open
    assert opened is not None

    def ask(path: str, host: str | None = None, method: str = "GET") -> tuple[int, dict[str, str], bytes]:
        line = http.client.HTTPConnection(PLACE, opened.plain.port, timeout=20)
        try:
            line.request(method, path, headers={"Host": host} if host else {})
            answer = line.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read()
        finally:
            line.close()

    assert ask(path)[0] == 404
    assert ask(path, method="POST")[0] == 405
    assert ask(path, host="gulls.example")[0] == 403
    assert ask("/trust", host="gulls.example")[0] == 403
    status, headers, nothing = ask("/")
    assert (status, headers["Location"], nothing) == (303, "/trust", b"")
    status, headers, file = ask("/hookside.crt")
    assert (status, file) == (200, opened.authority.file)
    assert "Set-Cookie" not in headers
    status, headers, page = ask("/trust")
    assert status == 200
    assert opened.authority.fingerprint.replace(":", "") in re.sub(r"<br>|[\s:]", "", page.decode())
    assert "Set-Cookie" not in headers
    assert "script" not in page.decode().lower()
    assert "unsafe" not in headers["Content-Security-Policy"]
    status, headers, file = ask("/hookside.crt")
    assert (status, headers["Content-Type"], file) == (200, "application/x-x509-ca-cert", opened.authority.file)
    assert "Set-Cookie" not in headers
