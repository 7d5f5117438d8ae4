"""The second listener, over real TLS: pairing, showing out, the socket, and where the machine is."""

from __future__ import annotations

import errno
import http.client
import json
import secrets
import socket
import ssl
import threading
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from network import PLACE, Phone, hang_up, share
from socketio.exceptions import ConnectionError as NotConnected
from zeroconf import IPVersion, Zeroconf

from hookside.web import devices as devices_room
from hookside.web.household import Household, addresses
from hookside.web.mdns import Announcement
from hookside.web.tls.authority import private

if TYPE_CHECKING:
    from conftest import House


@pytest.fixture
def shared(house: House) -> House:
    share(house)
    return house


@pytest.fixture
def phone(shared: House) -> Phone:
    return Phone(shared)


def test_by_default_only_this_machine_is_listened_to(house: House, tmp_path: Path) -> None:
    assert house.doors.sharing.open is None
    assert house.ask("GET", "/api/share")[1]["on"] is False
    assert not (tmp_path / "doors").exists()
    assert house.ask("GET", "/api/addresses") == (200, {"addresses": [house.url], "protocols": []})


def test_paired_and_in(phone: Phone) -> None:
    assert phone.raw("GET", "/")[:2][0] == 303
    assert phone.ask("GET", "/api/shelf") == (401, json.loads(phone.raw("GET", "/api/shelf")[2]))
    device = phone.pair("Seal's phone")
    assert phone.ask("GET", "/api/shelf")[0] == 200
    state = phone.house.ask("GET", "/api/share")[1]
    assert [(d["id"], d["name"], d["maker"]) for d in state["devices"]] == [(device, "Seal's phone", "Ada")]
    assert state["knocking"] == []


def test_the_cookie_as_it_should_be(phone: Phone) -> None:
    link, _ = phone.house.doors.pairing.invite()
    _, knock = phone.ask("POST", "/api/pair/knock", {"shown": link})
    assert phone.ask("POST", "/api/pair/ask", {"knock": knock["knock"]}) == (200, {"paired": False})
    waiting = phone.house.doors.pairing.waiting()[0]
    phone.house.doors.pairing.answer(waiting.id, True, "gull", "")
    _, headers, _ = phone.raw(
        "POST", "/api/pair/ask", json.dumps({"knock": knock["knock"]}).encode(), {"Content-Type": "application/json"}
    )
    parts = [part.strip() for part in headers["Set-Cookie"].split(";")]
    # RFC 6265bis, 4.1.3.2: a __Host- cookie is Secure, has Path=/ and no Domain.
    assert parts[0].startswith("__Host-hookside=")
    assert {"Path=/", "Secure", "HttpOnly", "SameSite=Strict"} <= set(parts)
    assert not any(part.startswith("Domain") for part in parts)
    assert phone.raw("GET", "/")[1]["Set-Cookie"] == headers["Set-Cookie"]  # who comes often is not asked again


def test_host_and_device_see_the_same_figures(phone: Phone) -> None:
    _, invited = phone.house.ask("POST", "/api/share/invite")
    link = invited["url"].split("#")[1]
    assert invited["url"].startswith(f"https://{PLACE}:{phone.address.port}/pair#")
    assert invited["qr"].startswith("<svg")
    _, knock = phone.ask("POST", "/api/pair/knock", {"shown": link, "name": "gull"})
    state = phone.house.ask("GET", "/api/share")[1]
    assert state["knocking"][0] | {"id": ""} == {"id": "", "name": "gull", "figures": knock["figures"]}


def test_typed_and_wrong(phone: Phone) -> None:
    _, invited = phone.house.ask("POST", "/api/share/invite")
    status, told = phone.ask("POST", "/api/pair/knock", {"shown": "AAAA AAAA"})
    assert (status, told["say"]) == (403, "That is not what the laptop shows. 4 tries are left.")
    assert phone.ask("POST", "/api/pair/knock", {"shown": invited["typed"]})[0] == 200
    assert phone.ask("POST", "/api/pair/knock", {"shown": invited["typed"]})[1]["code"] == "not-invited"


def test_shown_out_at_once_with_what_is_open(phone: Phone) -> None:
    device = phone.pair()
    other = Phone(phone.house)
    other.pair("tablet")
    line, others = phone.line(), other.line()
    _, known = phone.ask("GET", "/api/addresses")
    elsewhere = Phone(phone.house).line(origin=known["addresses"][1], protocols=known["protocols"])  # by its pass
    try:
        gone, gone_too = threading.Event(), threading.Event()
        line.on("disconnect", lambda *_: gone.set())
        elsewhere.on("disconnect", lambda *_: gone_too.set())
        assert phone.house.ask("GET", "/api/share")[1]["devices"][0]["here"] is True
        status, state = phone.house.ask("DELETE", f"/api/devices/{device}")
        assert status == 200
        assert [d["name"] for d in state["devices"]] == ["tablet"]
        assert gone.wait(20)
        assert gone_too.wait(20)
        assert phone.ask("GET", "/api/shelf")[0] == 401
        with pytest.raises(NotConnected):
            phone.line()
        with pytest.raises(NotConnected):
            Phone(phone.house).line(origin=known["addresses"][1], protocols=known["protocols"])
        assert others.call("join", {}, timeout=20)["code"] == "malformed"  # the other one is still there
    finally:
        for one in (line, others, elsewhere):
            hang_up(one)


def test_what_is_decided_at_the_machine_is_not_decided_from_the_network(phone: Phone) -> None:
    device = phone.pair()
    for method, path, body in [
        ("GET", "/api/share", None), ("POST", "/api/share", {"on": False}), ("POST", "/api/share/invite", {}),
        ("POST", "/api/share/answer", {"knock": "x", "let_in": True}), ("DELETE", f"/api/devices/{device}", None),
    ]:  # fmt: skip
        status, told = phone.ask(method, path, body)
        assert (status, told["code"]) == (403, "host-only"), path


def test_this_machine_needs_no_pairing(shared: House) -> None:
    status, told = shared.ask("POST", "/api/pair/knock", {"shown": "x"})
    assert (status, told["code"]) == (403, "at-home")


@pytest.mark.parametrize("header", ["X-Forwarded-For", "Forwarded", "X-Real-IP", "Hookside-Caller", "X-Forwarded-Host"])
@pytest.mark.parametrize("value", ["127.0.0.1", "for=127.0.0.1", "here"])
def test_no_header_stands_for_an_address(phone: Phone, header: str, value: str) -> None:
    # The caller even is at 127.0.0.1 here: which listener it came to decides, and nothing else.
    assert phone.ask("GET", "/api/shelf", headers={header: value})[0] == 401


def test_the_cookie_does_not_open_what_it_should_not(phone: Phone) -> None:
    phone.pair()
    good = dict(phone.cookies)
    token = good["__Host-hookside"]
    for wrong in ({"hookside": token}, {"__Host-hookside": token[:-1]}, {"__Host-hookside": token + "x"}):
        phone.cookies = wrong
        assert phone.ask("GET", "/api/shelf")[0] == 401


def test_big_messages_pass_over_tls_whole(phone: Phone) -> None:
    # A record of TLS has 16 kB at most (RFC 8446, 5.1), and a socket takes no more at a time.
    phone.pair()
    rounds = "\n".join(f"Round {n}: sc in each st around (6)" for n in range(2, 400))
    making = phone.house.begin(f"Kelp\n\nRound 1: 6 sc in magic ring (6)\n{rounds}\nFasten off.\n")
    line = phone.line()
    try:
        about = {"making": making, "device": "phone-1", "device_name": "phone", "epoch": "", "head": 0}
        answer: Any = line.call("join", about, timeout=30)
        assert answer["ok"]
        assert len(json.dumps(answer)) > 64 << 10
        noise = {"making": making, "device": "phone-1", "epoch": "x" * 200_000, "head": 0}
        assert line.call("join", noise, timeout=30)["ok"]
    finally:
        hang_up(line)


def test_a_page_of_ours_reaches_the_other_address_with_its_pass(phone: Phone) -> None:
    phone.pair()
    _, known = phone.ask("GET", "/api/addresses")
    name = phone.house.doors.house
    assert name is not None
    assert known["addresses"] == [f"https://{PLACE}:{phone.address.port}", f"https://{name.names[1]}:{name.port}"]
    stranger = Phone(phone.house)  # no cookie: it does not follow a page to another address
    other_page = known["addresses"][1]
    line = stranger.line(origin=other_page, protocols=known["protocols"])
    try:
        assert line.call("join", {}, timeout=20)["code"] == "malformed"
    finally:
        hang_up(line)
    with pytest.raises(NotConnected):
        stranger.line(origin=other_page, protocols=["hookside", "pass.AAAA"])
    with pytest.raises(NotConnected):
        stranger.line(origin=other_page, protocols=["hookside"])
    # The pass opens the socket and nothing else.
    header = {"Sec-WebSocket-Protocol": ", ".join(known["protocols"])}
    assert stranger.ask("GET", "/api/shelf", headers=header)[0] == 401
    stranger.cookies = {"__Host-hookside": known["protocols"][1].removeprefix("pass.")}
    assert stranger.ask("GET", "/api/shelf")[0] == 401


def test_a_page_from_an_earlier_address_is_still_one_of_ours(phone: Phone) -> None:
    phone.pair()
    sharing = phone.house.doors.sharing
    sharing.find = lambda: [PLACE, "192.168.77.5"]
    sharing.look()
    sharing.find = lambda: [PLACE]
    sharing.look()
    hang_up(phone.line(origin=f"https://192.168.77.5:{phone.address.port}"))
    with pytest.raises(NotConnected):
        phone.line(origin=f"https://192.168.77.6:{phone.address.port}")


def test_the_leaf_follows_the_address(phone: Phone) -> None:
    def shown() -> set[str]:
        raw = socket.create_connection((PLACE, phone.address.port), timeout=10)
        with phone.context.wrap_socket(raw, server_hostname=PLACE) as line:
            names = (line.getpeercert() or {}).get("subjectAltName", ())
        return {str(value) for kind, value in names if kind == "IP Address"}  # type: ignore[misc]

    assert shown() == {PLACE}
    phone.pair()
    line = phone.line()
    try:
        sharing = phone.house.doors.sharing
        sharing.find = lambda: [PLACE, "10.9.8.7"]
        sharing.look()
        assert shown() == {PLACE, "10.9.8.7"}
        assert line.call("join", {}, timeout=20)["code"] == "malformed"  # nobody was cut off for it
        assert f"10.9.8.7:{phone.address.port}" in phone.house.doors.house.hosts  # type: ignore[union-attr]
    finally:
        hang_up(line)


def test_sharing_ends_at_once(phone: Phone) -> None:
    phone.pair()
    line = phone.line()
    try:
        gone = threading.Event()
        line.on("disconnect", lambda *_: gone.set())
        assert phone.house.ask("POST", "/api/share", {"on": False})[1]["on"] is False
        assert gone.wait(20)
        with pytest.raises(OSError, match="refused"):
            socket.create_connection((PLACE, phone.address.port), timeout=10)
    finally:
        hang_up(line)
    # Those who were paired are still known when it begins again, at the same port.
    assert phone.house.ask("POST", "/api/share", {"on": True})[1]["on"] is True
    assert phone.ask("GET", "/api/shelf")[0] == 200


def test_a_taken_port_is_said_and_this_machine_goes_on(house: House) -> None:
    share(house)
    port = house.doors.house.port  # type: ignore[union-attr]
    house.doors.sharing.end()
    with socket.socket() as stranger:
        stranger.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        stranger.bind(("0.0.0.0", port))
        stranger.listen()
        status, told = house.ask("POST", "/api/share", {"on": True})
    assert (status, told["code"]) == (409, "port-taken")
    assert str(port) in told["say"]
    assert house.ask("GET", "/api/share")[1]["on"] is False


def test_a_damaged_authority_is_said(house: House) -> None:
    share(house)
    house.doors.sharing.end()
    (house.doors.folder / "authority.key").write_text("gull", encoding="utf-8")
    status, told = house.ask("POST", "/api/share", {"on": True})
    assert (status, told["code"]) == (409, "authority")


def test_the_name_is_chosen_once(tmp_path: Path) -> None:
    first = Household.of(tmp_path)
    first.keep(tmp_path)
    assert Household.of(tmp_path).name == first.name
    assert first.name.startswith("hookside-")
    assert first.name.endswith(".local")
    assert len(first.name) == len("hookside-XXXX.local")


def test_addresses_of_this_machine_are_of_a_house() -> None:
    assert all(private(at) for at in addresses())


def test_who_is_not_paired_may_not_ask_without_end(phone: Phone) -> None:
    statuses = [phone.raw("POST", "/api/pair/ask", b'{"knock":"x"}', {"Content-Type": "application/json"})[0]]
    for _ in range(200):
        if statuses[-1] == 429:
            break
        statuses.append(phone.raw("GET", "/api/shelf")[0])
    assert statuses[-1] == 429


def test_an_unpaired_body_is_small(phone: Phone) -> None:
    assert phone.raw("POST", "/api/pair/knock", b" " * 5000)[0] == 413


def test_plain_speech_at_the_tls_door_ends(phone: Phone) -> None:
    with socket.create_connection((PLACE, phone.address.port), timeout=10) as line:
        line.sendall(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n")
        line.settimeout(20)
        with suppress(ConnectionResetError):
            assert b"Hookside" not in line.recv(4096)


def test_a_stranger_does_not_trust_it(phone: Phone) -> None:
    line = http.client.HTTPSConnection(PLACE, phone.address.port, timeout=10, context=ssl.create_default_context())
    with pytest.raises(ssl.SSLCertVerificationError):
        line.request("GET", "/")
    line.close()


def test_nothing_of_it_is_told_aloud(phone: Phone, capfd: pytest.CaptureFixture[str]) -> None:
    phone.pair()
    _, known = phone.ask("GET", "/api/addresses")
    hang_up(phone.line(protocols=known["protocols"]))
    said = capfd.readouterr()
    assert said.out + said.err == ""


def test_the_name_is_told_to_the_network_and_taken_back() -> None:
    # Another answerer of multicast DNS on the same line, as a phone has one.
    name = f"hookside-{secrets.token_hex(2)}"
    told = Announcement(f"{name}.local", 4737, [PLACE])
    listener = Zeroconf(interfaces=[PLACE], ip_version=IPVersion.V4Only)
    try:
        found = listener.get_service_info("_https._tcp.local.", f"{name}._https._tcp.local.", 30_000)
        assert found is not None
        assert (found.server, found.parsed_addresses(), found.port) == (f"{name}.local.", [PLACE], 4737)
    finally:
        told.end()
        listener.close()


HOSTILE: list[Any] = [
    None, [], 0, "x", {}, {"shown": None}, {"shown": ""}, {"shown": "x" * 65}, {"shown": ["x"]}, {"shown": "\ud800"},
    {"knock": "\u202e"}, {"knock": "x", "more": 1}, {"knock": {}}, {"knock": "x", "let_in": "yes"}, {"on": 1},
    {"on": None}, {"knock": "x", "let_in": True, "name": "x" * 161}, {"knock": "x" * 41, "let_in": False},
]  # fmt: skip


@pytest.mark.parametrize("path", ["/api/pair/knock", "/api/pair/ask", "/api/share", "/api/share/answer"])
def test_nonsense_is_refused_in_words(phone: Phone, path: str) -> None:
    ask: Any = phone if path.startswith("/api/pair") else phone.house
    for body in HOSTILE:
        status, told = ask.ask("POST", path, body)
        assert 400 <= status < 500, body
        assert told["say"]
    for raw in (b"{", b"\xff\xfe", b"[" * 4000, b'{"shown": 1e999}'):
        status, _, text = ask.raw("POST", path, raw, {"Content-Type": "application/json"})
        assert 400 <= status < 500, raw
        assert json.loads(text)["say"]


@pytest.mark.parametrize("id", ["x", "%00", "..%2f..", "a" * 3000, "\u00fc".encode().hex()])
def test_showing_out_nobody_is_said(shared: House, id: str) -> None:
    status, told = shared.ask("DELETE", f"/api/devices/{id}")
    assert status == 404
    assert told["say"]


@pytest.mark.parametrize(
    "cookie", ["", "=", ";;;", "__Host-hookside", "__Host-hookside=", '__Host-hookside=\x7f"', "a" * 9000]
)
def test_an_odd_cookie_is_no_cookie(phone: Phone, cookie: str) -> None:
    assert phone.raw("GET", "/api/shelf", None, {"Cookie": cookie})[0] == 401


def test_a_machine_on_no_network_waits_for_one(house: House) -> None:
    sharing = house.doors.sharing
    sharing.announce, sharing.find = False, list
    status, state = house.ask("POST", "/api/share", {"on": True})
    assert (status, state["on"], state["addresses"]) == (200, True, [])
    sharing.find = lambda: [PLACE]
    sharing.look()
    assert house.ask("GET", "/api/share")[1]["addresses"][0].startswith(f"https://{PLACE}:")
    Phone(house).pair()


def test_a_folder_that_cannot_be_written_is_said(phone: Phone, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: Any) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    device = phone.pair()
    link, _ = phone.house.doors.pairing.invite()
    phone.ask("POST", "/api/pair/knock", {"shown": link})
    waiting = phone.house.doors.pairing.waiting()[0].id
    monkeypatch.setattr(devices_room, "keep", full)
    for method, path, body in [
        ("POST", "/api/share/answer", {"knock": waiting, "let_in": True}), ("DELETE", f"/api/devices/{device}", None),
    ]:  # fmt: skip
        status, told = phone.house.ask(method, path, body)
        assert (status, told["code"]) == (503, "disk")
        assert "no room left on the disk" in told["say"]
    # Nothing was changed: who was in is in, who waits waits.
    assert phone.ask("GET", "/api/shelf")[0] == 200
    state = phone.house.ask("GET", "/api/share")[1]
    assert [len(state["devices"]), len(state["knocking"])] == [1, 1]
