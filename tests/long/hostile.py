"""Texts and payloads that are broken or mean harm, by the hundred thousand, at a working server.

    python tests/long/hostile.py [--count 100000] [--seed 1] [--out FILE]

Four kinds at once: texts to be read, mended, explained (our patterns torn and mixed, soups of words, signs from all of
Unicode, deep brackets, large numbers); requests at every route of the application with bodies spoilt, and at addresses
that are none; messages of every event, ours with fields exchanged for others; bytes that are no HTTP and no WebSocket.
None may end the server, none may be answered with "broken", nothing may stand in the log; and after it a good client
works as before. The last line printed is the result as JSON; exit 1 where one of that does not hold.
"""

from __future__ import annotations

import argparse
import asyncio
import http.client
import json
import random
import re
import socket
import sys
import tempfile
import threading
from collections import Counter
from contextlib import suppress
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from _house import HERE, RUN, Cut, House, Line, begin, finish, move, now, serving

from hookside.journal import Journal
from hookside.web.address import Address
from hookside.web.app import create_app
from hookside.web.doors import Doors
from hookside.web.readings import Readings

OURS = [file.read_text("utf-8") for file in sorted((HERE.parents[1] / "patterns").glob("*.txt"))]
WORDS = [
    "Rnd", "Row", "R", "1", "2", "3", "6", "12", ":", "(", ")", "[", "]", "{", "}", "*", "x", ",", ";", ".", "-", "=",
    "sc", "inc", "dec", "ch", "MR", "rep", "from", "around", "in", "next", "each", "st", "sts", "to last", "times",
    "2nd", "hook", "BLO", "turn", "join", "(make", "2)", "Rounds", "9-12:", "999999999", "-1", "0", "(0)", "\u00d7",
    "\u2013", "\u00bd", "sl", "invdec", "shell", "bobble",
]  # fmt: skip
VALUES: list[Any] = [
    None, True, False, 0, -1, 1, 2**31, 2**53, 2**63, 2**200, 1.5, float("1e308"), "", "x", "p1.c1", "../..", "\x00",
    "\ud800", "a" * 70_000, "' OR 1=1 --", [], [[]], [1] * 600, {}, {"a": {}}, "0" * 32, "next", "\u202e", "1e9",
]  # fmt: skip
ODD = [
    "/api/makings/99999999999999999999", "/api/patterns/%00", "/api/nothing", "/api/../api/shelf",
    "/%2e%2e/%2e%2e/etc/passwd", "/assets/../../x", "/socket.io/", "/socket.io/?EIO=4&transport=polling", "//",
    "/" + "a" * 3000, "/?" + "b=1&" * 500,
]  # fmt: skip
ALWAYS = ["join", "moves", "which"]  # these three are always answered
BODIES: list[dict[str, Any]] = [
    {"text": "Rnd 1: 6 sc", "terms": None, "course": "p1.c1"},
    {"pattern": "1", "order": {"kind": "one"}, "copies": {"1": 3}, "anyway": True},
    {"run": RUN, "at": 40, "answers": {"n": 39}, "offer": "leave"}, {"stay": True}, {"labels": ["harbour", "grey"]},
    {"gauge": "20 sts and 22 rounds = 10 cm", "used": "20 sc used 46 cm", "yarn": "50 g = 120 m", "hook": "3 mm"},
    {"item": "hook", "on": True}, {"name": "Wren"}, {"hand": "left", "breaks": 20, "quiet": ["stuff"]},
    {"shown": "ABCDEFGH", "name": "Kettle"}, {"knock": "a" * 32, "let_in": True, "name": "Kettle", "maker": ""},
]  # fmt: skip


def ways_in(folder: Path) -> tuple[list[tuple[str, str]], list[str]]:
    """What the application itself answers, so that nothing new is forgotten: (method, address) with the making and the
    pattern of this house in it, and the names of its events."""
    journal = Journal.open(folder)
    app, socket = create_app(journal, None, Doors(folder, Address(1)), Readings())
    routes = []
    for rule in app.url_map.iter_rules():
        path = re.sub(r"<(?:\w+:)?\w+>", lambda found: "nothing" if "path" in found[0] else "1", rule.rule)
        routes += [(method, path) for method in sorted((rule.methods or set()) - {"OPTIONS", "HEAD"})]
    events = sorted({event for handlers in socket.server.handlers.values() for event in handlers})
    app.extensions["hookside.ears"].shut()
    journal.close()
    return routes, events


def text(chance: random.Random) -> str:
    """Something to read."""
    kind = chance.randrange(6)
    if kind == 0:
        return " ".join(chance.choices(WORDS, k=chance.randrange(1, 120))).replace(" R", "\nR")
    if kind == 1:
        return "".join(chr(chance.choice([chance.randrange(32, 127), chance.randrange(0xD7FF)])) for _ in range(200))
    if kind == 2:
        sign = chance.choice(["(", "[", "*", "(sc, ", "\n", "{", "((", '"'])
        return f"Rnd 1: 6 sc in MR (6)\nRnd 2: {sign * chance.randrange(1, 400)} inc x {10 ** chance.randrange(30)}"
    lines = chance.choice(OURS).splitlines()
    for _ in range(chance.randrange(1, 6)):
        n = chance.randrange(len(lines))
        if kind == 3:
            lines[n] = chance.choice(chance.choice(OURS).splitlines() or [""])
        elif kind == 4:
            lines[n] = lines[n].replace(chance.choice("0123456789(),x "), chance.choice(["", "99", "((", "\u00a0"]))
        else:
            start = chance.randrange(len(lines[n]) + 1)
            lines[n] = lines[n][:start] + chance.choice(WORDS) + lines[n][start + chance.randrange(4) :]
    return "\n".join(lines[: chance.randrange(1, len(lines) + 1)])


def spoilt(chance: random.Random, good: Any) -> Any:
    """A payload with something in it exchanged, left away or added."""
    if isinstance(good, dict) and good and chance.random() < 0.9:
        copy = dict(good)
        key = chance.choice(list(copy))
        deed = chance.randrange(4)
        if deed == 0:
            del copy[key]
        elif deed == 1:
            copy[chance.choice(["x", "__class__", key * 2])] = chance.choice(VALUES)
        else:
            copy[key] = spoilt(chance, copy[key])
        return copy
    if isinstance(good, list) and good and chance.random() < 0.8:
        return [spoilt(chance, chance.choice(good)) for _ in range(chance.randrange(4))]
    return chance.choice(VALUES)


CHOSEN = [
    {"choice": "yarn", "value": "red"}, {"choice": "spiral", "value": True},
    {"choice": "gauge", "value": {"gauge": "20", "used": "", "yarn": "", "hook": ""}},
    {"choice": "tick", "value": {"list": "gather", "item": "hook", "on": True}},
    {"choice": "note", "value": {"note": "a", "run": "p1.c1", "step": 3, "text": "tight", "when": ""}},
]  # fmt: skip


def choosing(id: str) -> dict[str, Any]:
    about = {"id": id, "device": "kettle", "device_seq": 2, "making": 1, "base": 0}
    return {**about, "intent": "choose", "choices": CHOSEN}


class Tally:
    """What was asked, and what should not have been answered."""

    def __init__(self) -> None:
        self.asked: Counter[str] = Counter()
        self.answers: Counter[str] = Counter()
        self.broken: list[str] = []
        self.lock = threading.Lock()

    def add(self, kind: str, answer: str, about: str = "") -> None:
        with self.lock:
            self.asked[kind] += 1
            self.answers[answer] += 1
            if answer in ("broken", "500", "no answer") and len(self.broken) < 10:
                self.broken.append(f"{kind}: {answer}: {about[:300]}")


def code_of(body: bytes, status: int) -> str:
    with suppress(ValueError, AttributeError):
        return str(json.loads(body).get("code", status))
    return str(status)


def requests(house: House, tally: Tally, chance: random.Random, kind: str, count: int) -> None:
    """Texts, or requests of any kind, over a connection that stays open as long as it may."""
    line = http.client.HTTPConnection("127.0.0.1", house.port, timeout=90)
    for _ in range(count):
        if kind == "text":
            method, address = "POST", chance.choice(["/api/read"] * 18 + ["/api/mend", "/api/explain"])
            asked = {"text": text(chance), "terms": None} | ({"course": "p1.c1"} if address == "/api/explain" else {})
            sent = json.dumps(asked).encode()
        else:
            method, address = chance.choice(house.routes)  # type: ignore[attr-defined]
            if chance.random() < 0.2:
                method = chance.choice(["GET", "POST", "PUT", "DELETE", "PATCH"])
            if chance.random() < 0.1:
                address = chance.choice(ODD)
            good = chance.choice([*BODIES, {"choices": CHOSEN}])
            whole = json.dumps(spoilt(chance, good)).encode("utf-8", "replace")
            sent = chance.choice([whole, whole[: chance.randrange(len(whole) + 1)], chance.randbytes(60), b"[" * 5000])
            if (method, address) == ("DELETE", "/api/makings/1"):
                method = "GET"  # the good client works at this one afterwards
        try:
            line.request(method, address, sent, {"Content-Type": "application/json"})
            answer = line.getresponse()
            tally.add(kind, code_of(answer.read(), answer.status), f"{method} {address} {sent[:200]!r}")
        except (OSError, http.client.HTTPException) as error:
            known = isinstance(error, http.client.HTTPException | ConnectionError)
            tally.add(kind, "closed" if known else "no answer", repr(error))
            line.close()
    line.close()


def messages(house: House, tally: Tally, chance: random.Random, kind: str, count: int) -> None:
    async def all_of_them() -> None:
        line: Line | None = None
        good = {"making": 1, "device": "kettle", "device_name": "Kettle", "epoch": "e", "head": 0, "ids": ["0" * 32],
                "moves": [move("0" * 32, "kettle", 1, 1, 0), choosing("1" * 32)]}  # fmt: skip
        for _ in range(count):
            try:
                if line is None or line.over:
                    line = await Line(house.port).open()
                payload = spoilt(chance, good)
                if isinstance(payload, dict) and chance.random() < 0.5:
                    payload["epoch"] = house.epoch  # type: ignore[attr-defined]
                if chance.random() < 0.1:
                    line.frame(chance.choice([1, 2, 3, 7, 9, 10]), chance.randbytes(chance.randrange(80)))
                    tally.add(kind, "sent")
                    continue
                events: list[str] = house.events  # type: ignore[attr-defined]
                event = chance.choice(ALWAYS if chance.random() < 0.8 else [*events, "no such thing"])
                if event not in ALWAYS:  # some of them are not answered
                    line.say(f"42{json.dumps([event, payload])}")
                    tally.add(kind, "sent")
                    continue
                told = await line.ask(event, payload, patience=60)
                tally.add(kind, told.get("code", "ok"), f"{event} {str(payload)[:200]}")
            except Cut:
                tally.add(kind, "closed")
                line = None
        if line is not None:
            line.close()

    asyncio.run(all_of_them())


def raw(house: House, tally: Tally, chance: random.Random, kind: str, count: int) -> None:
    """Bytes that are no request, or half of one."""
    for _ in range(count):
        with suppress(OSError), socket.create_connection(("127.0.0.1", house.port), timeout=5) as line:
            head = b"GET /socket.io/?EIO=4&transport=websocket HTTP/1.1\r\nHost: x\r\nUpgrade: websocket\r\n\r\n"
            half = head[: chance.randrange(80)]
            line.sendall(chance.choice([chance.randbytes(50), head, half, b"\r\n" * 40, b"\x16\x03\x01"]))
            line.shutdown(socket.SHUT_WR)
            line.recv(200)
        tally.add(kind, "sent")


SHARES = (("text", 0.4, requests), ("request", 0.25, requests), ("message", 0.3, messages), ("bytes", 0.05, raw))


async def works(house: House) -> bool:
    """A good client makes a move, after all of it."""
    line = await Line(house.port).open()
    snapshot = (await line.join(1, "phone"))["snapshot"]
    one = move("f" * 32, "phone", 1, 1, snapshot["head"])
    told = await line.ask("moves", {"epoch": snapshot["epoch"], "moves": [one]})
    line.close()
    return bool(told["ok"] and told["answers"][0]["ok"])


def run(folder: Path, count: int, seed: int) -> dict[str, Any]:
    begin(folder, 1)
    routes, events = ways_in(folder)
    tally, started = Tally(), now()
    with serving(folder) as house:
        house.routes, house.events = routes, events  # type: ignore[attr-defined]
        house.epoch = house.ask("/api/shelf")["epoch"]  # type: ignore[attr-defined]
        threads = []
        for kind, share, work in SHARES:
            words = (house, tally, random.Random(f"{seed} {kind}"), kind, int(count * share) + 1)
            threads.append(threading.Thread(target=work, args=words))
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        crashed = house.process is None or house.process.poll() is not None
        good = not crashed and asyncio.run(works(house))
        stumbled = house.stumbled()
        log = Path(house.log.name).read_text("utf-8", "replace")
    return {
        "seed": seed,
        "routes": len(routes),
        "events": len(events),
        "asked": dict(tally.asked),
        "answers": dict(tally.answers.most_common(30)),
        "crashes": int(crashed),
        "broken": tally.broken,
        "stumbled": [*stumbled[:5], *([log[-1500:]] if stumbled else [])],
        "still_works": good,
        "seconds": round(now() - started, 1),
    }


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="hookside-hostile-") as room:
        result = run(Path(room) / "house", asked.count, asked.seed)
    good = not result["crashes"] and not result["broken"] and not result["stumbled"] and result["still_works"]
    return finish(result, good, asked.out)


if __name__ == "__main__":
    sys.exit(main())
