"""The live line, over a real socket."""

from __future__ import annotations

import http.client
from contextlib import suppress
from typing import Any

import pytest
import requests
import socketio
import websocket


def test_joining_gives_the_snapshot_once(house: Any) -> None:
    making = house.begin()
    tablet = house.device()
    first = tablet.join(making)
    assert first["ok"] is True
    assert first["epoch"] == house.journal.epoch
    assert first["snapshot"]["id"] == making
    assert first["head"] == first["snapshot"]["head"]
    again = tablet.join(making, first["epoch"], first["head"])
    assert again["snapshot"] is None
    assert tablet.join(making, "another", first["head"])["snapshot"] is not None


def test_a_making_that_is_gone(house: Any) -> None:
    making = house.begin()
    house.ask("DELETE", f"/api/makings/{making}")
    answer = house.device().join(making)
    assert (answer["ok"], answer["code"]) == (False, "gone")


def test_a_move_is_acknowledged_and_told_to_the_others(house: Any) -> None:
    making = house.begin()
    tablet, phone = house.device(), house.device("phone")
    snapshot = tablet.join(making)["snapshot"]
    phone.join(making)
    move = tablet.move(snapshot, "next", unit="round")
    answer = tablet.send(move)
    (done,) = answer["answers"]
    assert done["ok"], done
    assert (done["id"], done["kind"], done["from"]) == (move["id"], "move", snapshot["state"]["runs"]["p1.c1"]["at"])
    assert done["to"] > done["from"]
    assert phone.news.wait(10)
    (rows,) = phone.heard
    assert (rows["making"], rows["head"]) == (making, done["head"])
    (row,) = rows["rows"]
    assert {k: row[k] for k in ("row", "kind", "device", "run", "intent", "from", "to", "passed", "in_hand")} == {
        "row": done["row"], "kind": "move", "device": tablet.id, "run": "p1.c1", "intent": "next",
        "from": done["from"], "to": done["to"], "passed": done["passed"], "in_hand": "p1.c1",
    }  # fmt: skip
    assert tablet.heard == []
    place = house.ask("GET", f"/api/makings/{making}")[1]["state"]["runs"]["p1.c1"]["at"]
    assert place == done["to"]


def test_resending_is_harmless(house: Any) -> None:
    making = house.begin()
    tablet = house.device()
    snapshot = tablet.join(making)["snapshot"]
    moves = [tablet.move(snapshot, "next", unit="stitch") for _ in range(3)]
    first = tablet.send(*moves)
    place = house.ask("GET", f"/api/makings/{making}")[1]["state"]["runs"]["p1.c1"]["at"]
    assert tablet.send(*moves)["answers"] == first["answers"]
    assert house.ask("GET", f"/api/makings/{making}")[1]["state"]["runs"]["p1.c1"]["at"] == place


def test_another_making_is_not_told(house: Any) -> None:
    one, other = house.begin(), house.begin()
    tablet, phone = house.device(), house.device("phone")
    phone.join(one)
    phone.join(other)  # leaves the first
    snapshot = tablet.join(one)["snapshot"]
    assert tablet.send(tablet.move(snapshot, "next", unit="stitch"))["ok"]
    elsewhere = tablet.join(other)["snapshot"]
    assert tablet.send(tablet.move(elsewhere, "next", unit="stitch"))["ok"]
    assert phone.news.wait(10)
    assert [rows["making"] for rows in phone.heard] == [other]


def test_another_journal_takes_nothing(house: Any) -> None:
    making = house.begin()
    tablet = house.device()
    snapshot = tablet.join(making)["snapshot"]
    answer = tablet.ask("moves", {"epoch": "another", "moves": [tablet.move(snapshot, "next", unit="stitch")]})
    assert answer == {"ok": False, "code": "epoch", "epoch": house.journal.epoch}
    assert house.ask("GET", f"/api/makings/{making}")[1]["head"] == snapshot["head"]


PAYLOADS: list[Any] = [
    None, 1, "x", [], {}, {"making": "1"}, {"making": True, "device": "d"}, {"making": 1, "device": 5},
    {"making": 1, "device": ""}, {"making": 1, "device": "d" * 65},
    {"making": 1, "device": "d", "device_name": "n" * 201}, {"making": 10**30, "device": "d"},
    {"making": -1, "device": "d"}, {"making": 1, "device": "\ud800"},
    {"making": 1, "device": "d", "device_name": "\ud800"}, b"buoy", {"making": 1, "device": b"d"},
]  # fmt: skip


def test_nonsense_is_answered_not_dropped(house: Any) -> None:
    tablet = house.device()
    for payload in PAYLOADS:
        answer = tablet.ask("join", payload)
        assert answer["ok"] is False, payload
        assert answer["say"]
    for moves in (None, 1, "x", {}, [{}] * 501):
        answer = tablet.ask("moves", {"epoch": house.journal.epoch, "moves": moves})
        assert (answer["ok"], answer["code"]) == (False, "malformed"), moves
    making = house.begin()
    good = tablet.move(tablet.join(making)["snapshot"], "next", unit="stitch")
    broken: list[Any] = [
        1, None, [], {}, good | {"id": 5}, good | {"id": "short"}, good | {"making": "x"}, good | {"making": 10**30},
        good | {"intent": "fly"}, good | {"more": 1}, good | {"base": -1}, good | {"run": "\0"}, good | {"device": ""},
        {k: v for k, v in good.items() if k != "run"}, good | {"intent": "goto", "to": "x"},
    ]  # fmt: skip
    for move in broken:
        (answer,) = tablet.send(move)["answers"]
        assert answer["ok"] is False or answer["kind"] == "refused", (move, answer)
    (answer,) = tablet.send(good)["answers"]
    assert (answer["ok"], answer["kind"]) == (True, "move")


def test_events_nobody_knows_do_no_harm(house: Any) -> None:
    tablet = house.device()
    tablet.line.emit("gulls", {"a": 1})
    tablet.line.emit("join", ({"making": 1}, {"making": 2}))
    assert tablet.join(house.begin())["ok"]


def test_a_message_too_large_ends_the_line_alone(house: Any) -> None:
    making = house.begin()
    greedy, tablet = house.device("greedy"), house.device()
    greedy.line.emit("moves", {"epoch": "e", "moves": ["x" * (2 << 20)]})
    greedy.line.wait()  # until the server hangs up
    assert not greedy.line.connected
    assert tablet.join(making)["ok"]


def shake(house: Any, **headers: str) -> int:
    """The status that a websocket handshake with these headers gets."""
    line = http.client.HTTPConnection("127.0.0.1", house.address.port, timeout=10)
    try:
        asked = {
            "Connection": "Upgrade", "Upgrade": "websocket", "Sec-WebSocket-Version": "13",
            "Sec-WebSocket-Key": "AAAAAAAAAAAAAAAAAAAAAA==", **headers,
        }  # fmt: skip
        line.request("GET", "/socket.io/?EIO=4&transport=websocket", headers=asked)
        with line.getresponse() as answer:
            return answer.status
    finally:
        line.close()


def test_sockets_of_others_are_refused(house: Any) -> None:
    assert shake(house, Origin=house.url) == 101
    assert shake(house) == 403
    for origin in ("http://gulls.example", "null", "https://127.0.0.1", house.url + "0"):
        assert shake(house, Origin=origin) == 403
    assert shake(house, Origin=house.url, Host="gulls.example") == 403
    assert shake(house, Origin="http://gulls.example", Host="gulls.example") == 403


def test_polling_is_no_way_in(house: Any) -> None:
    status, _, _ = house.raw("GET", "/socket.io/?EIO=4&transport=polling", None, {"Origin": house.url})
    assert status == 400
    with requests.Session() as session, pytest.raises(socketio.exceptions.ConnectionError):
        socketio.Client(reconnection=False, http_session=session).connect(house.url, transports=["polling"])


def test_no_other_async_mode_slips_in(house: Any) -> None:
    assert house.socket.async_mode == "threading"


FRAMES: list[str | bytes] = [
    "", "9", "4", "42", "42{", "42[]", "42[1]", '42["join"', '42["join",{"making":1}', "42" + "[" * 200_000, "4" * 1000,
    '42/gulls,["join",{}]', "40/gulls,", "41", '451-["moves",{"_placeholder":true,"num":0}]', "45" + "9" * 50 + "-[]",
    "43" + "9" * 400 + "[]", "2probe", "1", "0{}", "\0\0\0", "ü" * 1000, b"", b"\xff\xfe\x00", b"x" * 10_000,
]  # fmt: skip


@pytest.mark.parametrize("frame", FRAMES, ids=range(len(FRAMES)))
def test_frames_of_no_protocol_harm_nobody_else(house: Any, frame: str | bytes) -> None:
    stranger, tablet = house.device("stranger"), house.device()
    stranger.wire.send(frame, websocket.ABNF.OPCODE_TEXT if isinstance(frame, str) else websocket.ABNF.OPCODE_BINARY)
    assert tablet.join(house.begin())["ok"]


def test_a_device_that_knows_another_journal_is_told(house: Any) -> None:
    making = house.begin()
    device = house.device()
    snapshot = device.join(making)["snapshot"]
    moves = [device.move(snapshot, "next", unit="stitch") for _ in range(3)]
    rows = [answer["row"] for answer in device.send(*moves)["answers"]]
    head, epoch = rows[-1], snapshot["epoch"]
    assert device.join(making)["restored"] is None
    assert device.join(making, epoch, head)["restored"] is None
    behind = device.join(making, epoch, head + 5)
    assert (behind["restored"]["known"], behind["snapshot"]["head"]) == ("behind", head)
    stranger = device.join(making, "0" * 32, head)
    assert (stranger["restored"]["known"], stranger["restored"]["shared"]) == ("stranger", 0)
    assert stranger["snapshot"]["last"] == {moves[0]["run"]: {"device": device.id, "device_name": "tablet"}}
    ids = [move["id"] for move in moves]
    asked = {"making": making, "epoch": epoch, "ids": [*ids, "f" * 32]}
    told = device.ask("which", asked)
    assert told == {"ok": True, "epoch": epoch, "shared": head, "rows": dict(zip(ids, rows, strict=True))}
    for wrong in ({"ids": "all"}, {"ids": ["0"] * 1001}, {"making": "1"}, {"epoch": 5}, {"head": -1}):
        assert device.ask("which", asked | wrong)["code"] == "malformed"
    lost = device.join(99, "0" * 32, 4)
    assert (lost["ok"], lost["code"], lost["restored"]["known"]) == (False, "gone", "stranger")


def test_nothing_is_taken_of_a_device_that_is_ahead(house: Any) -> None:
    making = house.begin()
    device = house.device()
    snapshot = device.join(making)["snapshot"]
    fits, ahead = device.move(snapshot, "next", unit="stitch"), device.move(snapshot, "next", base=99, unit="stitch")
    assert [answer["code"] for answer in device.send(fits, ahead)["answers"]] == ["ahead", "ahead"]
    assert device.join(making)["snapshot"]["head"] == snapshot["head"]


@pytest.mark.parametrize(
    "text",
    ["", "]", "x", "bAAA=", "\u00b2", "2" + "[" * 9000, "4" + "[" * 9000, "4", "4x",
     "42", "42{}", "42[]", "42[1]", '42["moves"', "42" + "[" * 9000, "451-", '45999999-["moves",{}]',
     '42["connect",{"hookside.caller":{}}]', '42["connect"]', '42["disconnect",1,2]',
     '451-["moves",{"_placeholder":true,"num":7}]', "44{}", "47", "4\u00e4", "43x[]"],
)  # fmt: skip
def test_what_is_no_message_ends_its_own_line_and_nothing_else(
    house: Any, capfd: pytest.CaptureFixture[str], text: str
) -> None:
    stranger, good = house.device(), house.device()
    making = house.begin()
    with suppress(websocket.WebSocketException, OSError):  # it may be ended before it has said all
        stranger.wire.send(text)
        stranger.wire.send_binary(b"\x00\x01")
    assert good.join(making)["ok"]
    assert good.send(good.move(good.join(making)["snapshot"], "next", unit="stitch"))["ok"]
    told = capfd.readouterr()
    assert "Traceback" not in told.err + told.out
