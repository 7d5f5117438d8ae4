"""Cuts the link between three devices and a working server, again and again, and now and then kills the server.

    python tests/long/cuts.py [--cuts 200] [--kills 20] [--seed 1] [--out FILE]

Each device has an outbox as the page has: a move is forgotten only when its answer has come, and what waits is sent
again, in its order, over a new connection. Between device and server stands a relay that lets bytes through in pieces
and drops connections at any byte, either way. In the end everything heals; then every move that was made must be in
the journal exactly once, every answer must be what the journal has, and each run must stand as far as its moves went.
The last line printed is the result as JSON; exit 1 when anything was lost or doubled.
"""

from __future__ import annotations

import argparse
import asyncio
import hashlib
import random
import sys
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from _house import RUN, Cut, House, Journal, Line, begin, finish, move, now, serving

DEVICES = 3
BATCH = 20


class Relay:
    """Between devices and server: passes bytes on in pieces, until it is told to drop everything."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.open = True
        self.ends: set[asyncio.StreamWriter] = set()

    async def begin(self, house: House) -> None:
        self.house = house
        self.server = await asyncio.start_server(self.take, "127.0.0.1", 0)
        self.port = int(self.server.sockets[0].getsockname()[1])

    async def take(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        if not self.open:
            writer.transport.abort()
            return
        try:
            there, out = await asyncio.open_connection("127.0.0.1", self.house.port)
        except OSError:
            writer.transport.abort()
            return
        self.ends |= {writer, out}
        with suppress(OSError, asyncio.CancelledError):
            await asyncio.gather(self.pass_on(reader, out), self.pass_on(there, writer))
        for end in (writer, out):
            end.transport.abort()
            self.ends.discard(end)

    async def pass_on(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        while True:
            piece = await reader.read(self.chance.choice([20, 200, 4000]))
            if not piece or writer.transport.is_closing():
                writer.transport.abort()
                return
            writer.write(piece)
            await asyncio.sleep(0)

    def cut(self) -> None:
        for end in self.ends:
            end.transport.abort()
        self.ends.clear()


class Device:
    """A page with its outbox."""

    def __init__(self, number: int, making: int, house: House, relay: Relay) -> None:
        self.name, self.making = f"device-{number}", making
        self.house, self.relay = house, relay
        self.waiting: list[dict[str, Any]] = []
        self.answers: dict[str, dict[str, Any]] = {}
        self.other: list[str] = []  # answers to a move that are not the one given before
        self.made = self.sent_again = 0
        self.line: Line | None = None
        self.working = True

    def tap(self) -> None:
        self.made += 1
        id = hashlib.sha256(f"{self.name} {self.made}".encode()).hexdigest()[:32]
        self.waiting.append(move(id, self.name, self.made, self.making, self.head, backlog=self.line is None))

    async def work(self, chance: random.Random) -> None:
        self.head = 0
        while self.working or self.waiting:
            try:
                if self.line is None or self.line.over:
                    self.line = None
                    line = await Line(self.house.port, self.relay.port).open()
                    joined = await line.join(self.making, self.name)
                    self.epoch, self.head = joined["epoch"], joined["head"]
                    self.line = line
                if self.working:
                    for _ in range(chance.choice([1, 1, 1, 3, 8])):
                        self.tap()
                batch = self.waiting[:BATCH]
                told = await self.line.ask("moves", {"epoch": self.epoch, "moves": batch}, patience=5)
                for one, answer in zip(batch, told["answers"], strict=True):
                    if self.answers.setdefault(one["id"], answer) != answer:
                        self.other.append(one["id"])
                    self.head = max(self.head, answer["head"])
                del self.waiting[: len(batch)]
                if self.answers and chance.random() < 0.1:  # an old one comes again: an answer that was lost on its way
                    await self.again(chance)
                await asyncio.sleep(chance.choice([0, 0, 0.002]))
            except (Cut, KeyError, TypeError):
                if self.line is not None:
                    self.line.close()
                self.line = None
                if self.working:
                    self.tap()  # worked on without a link
                await asyncio.sleep(0.01)

    async def again(self, chance: random.Random) -> None:
        id = chance.choice(list(self.answers))
        kept = self.answers[id]
        old = move(id, self.name, 0, self.making, 0)
        assert self.line is not None
        told = await self.line.ask("moves", {"epoch": self.epoch, "moves": [old]}, patience=5)
        self.sent_again += 1
        if told["answers"][0] != kept:
            self.other.append(id)


async def trouble(house: House, cuts: int, kills: int, makings: list[int], seed: int) -> list[Device]:
    chance = random.Random(seed)
    relay = Relay(chance)
    await relay.begin(house)
    devices = [Device(n, making, house, relay) for n, making in enumerate(makings)]
    work = [asyncio.create_task(device.work(random.Random(f"{seed} {device.name}"))) for device in devices]
    deeds = ["cut"] * cuts + ["kill"] * kills
    chance.shuffle(deeds)
    for deed in deeds:
        await asyncio.sleep(chance.uniform(0.0, 0.25))
        if deed == "kill":
            house.kill()
            relay.cut()
            await asyncio.to_thread(house.start)
            continue
        relay.open = False
        relay.cut()
        await asyncio.sleep(chance.uniform(0.0, 0.1))
        relay.open = True
    for device in devices:
        device.working = False
    await asyncio.wait_for(asyncio.gather(*work), 120)
    for device in devices:
        if device.line is not None:
            device.line.close()
    relay.server.close()
    relay.cut()
    await asyncio.sleep(0.1)  # for what was passed on to find that it is over
    return devices


def run(folder: Path, cuts: int, kills: int, seed: int) -> dict[str, Any]:
    makings = begin(folder, DEVICES)
    started = now()
    with serving(folder) as house:
        devices = asyncio.run(trouble(house, cuts, kills, makings, seed))
        stumbled = house.stumbled()
    journal = Journal.open(folder)
    lost = doubled = 0
    for device in devices:
        snapshot = journal.snapshot(device.making)
        assert snapshot is not None
        kept: dict[str, int] = {}
        for start in range(0, device.made, 500):
            kept |= journal.which(device.making, list(device.answers)[start : start + 500])
        lost += sum(kept.get(id) != answer["row"] for id, answer in device.answers.items())
        lost += device.made - len(device.answers)
        doubled += abs(snapshot["state"]["runs"][RUN]["at"] - device.made)
    made = sum(device.made for device in devices)
    result = {
        "cuts": cuts,
        "kills": kills,
        "seed": seed,
        "made": made,
        "sent_again": sum(device.sent_again for device in devices),
        "lost": lost,
        "doubled": doubled + abs(journal.count_rows() - DEVICES - made),
        "other_answers": sum(len(device.other) for device in devices),
        "wrong": journal.check(),
        "stumbled": stumbled,
        "seconds": round(now() - started, 1),
    }
    journal.close()
    return result


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--cuts", type=int, default=200)
    parser.add_argument("--kills", type=int, default=20)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="hookside-cuts-") as room:
        result = run(Path(room) / "house", asked.cuts, asked.kills, asked.seed)
    bad = ("lost", "doubled", "other_answers", "wrong", "stumbled")
    return finish(result, not any(result[name] for name in bad) and result["made"] > asked.cuts, asked.out)


if __name__ == "__main__":
    sys.exit(main())
