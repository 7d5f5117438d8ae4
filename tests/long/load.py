"""Two hundred clients, each making one move a second on a line of its own: how long until each is acknowledged.

    python tests/long/load.py [--clients 200] [--seconds 600] [--out FILE]

The clients are in this process, the server in another, both on this machine; each client works at a making of its own
and begins at its own moment of the second. The last line printed is the result as JSON: milliseconds from sending to
acknowledgement, and the server's memory after a minute (or a tenth of the time) and at the end. Exit 1 where one move
in a hundred took 20 ms or more, an answer was not "applied", memory grew by more than a tenth, or a move was lost.
"""

from __future__ import annotations

import argparse
import asyncio
import gc
import random
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from _house import RUN, Cut, House, Journal, Line, begin, finish, move, now, percentile, serving

LIMIT = 20.0  # ms
GROWTH = 1.1


class Client:
    """One device at one making."""

    def __init__(self, number: int, making: int) -> None:
        self.number, self.making = number, making
        self.took: list[float] = []
        self.errors: list[str] = []
        self.made = 0

    async def open(self, port: int) -> None:
        self.line = await Line(port).open()
        joined = await self.line.join(self.making, f"device-{self.number}")
        self.epoch, self.head = joined["epoch"], joined["head"]

    async def work(self, until: float, first: float) -> None:
        due = first
        while due < until:
            await asyncio.sleep(max(0.0, due - time.monotonic()))
            self.made += 1
            id = f"{self.number:08x}{self.made:024x}"
            one = move(id, f"device-{self.number}", self.made, self.making, self.head)
            started = now()
            try:
                told = await self.line.ask("moves", {"epoch": self.epoch, "moves": [one]})
                self.took.append((now() - started) * 1000)
                (answer,) = told["answers"]
                if answer["kind"] != "move":
                    self.errors.append(str(answer))
                self.head = answer["head"]
            except (Cut, KeyError, ValueError) as error:
                self.errors.append(repr(error))
                return
            due += 1.0


async def measure(house: House, makings: list[int], seconds: float) -> tuple[list[Client], list[float], float]:
    clients = [Client(n, making) for n, making in enumerate(makings)]
    for client in clients:
        await client.open(house.port)
    await asyncio.sleep(min(5.0, seconds))  # what the start leaves behind, the first backup too
    gc.collect()
    gc.freeze()  # of this process: its own tidying up is none of the server's time
    chance = random.Random(1)
    start = time.monotonic() + 0.5
    before = house.worked()
    memory: list[float] = []

    async def watch() -> None:
        while time.monotonic() < start + seconds:
            await asyncio.sleep(max(0.5, seconds / 60))
            memory.append(house.resident())

    work = [client.work(start + seconds, start + chance.random()) for client in clients]
    await asyncio.gather(watch(), *work)
    worked = house.worked() - before
    for client in clients:
        client.line.close()
    return clients, memory, worked


def run(folder: Path, count: int, seconds: float) -> dict[str, Any]:
    makings = begin(folder, count)
    with serving(folder) as house:
        clients, memory, worked = asyncio.run(measure(house, makings, seconds))
        stumbled = house.stumbled()
    took = [ms for client in clients for ms in client.took]
    journal = Journal.open(folder)
    places = [journal.snapshot(making)["state"]["runs"][RUN]["at"] for making in makings]  # type: ignore[index]
    rows = journal.count_rows() - count
    journal.close()
    settled = memory[max(0, len(memory) // 10)]
    return {
        "clients": count,
        "seconds": seconds,
        "moves": len(took),
        "ms": {name: round(percentile(took, share), 2) for name, share in
               (("median", 0.5), ("p90", 0.9), ("p99", 0.99), ("p999", 0.999))} | {"most": round(max(took), 2)},
        "limit_p99": LIMIT,
        "errors": [error for client in clients for error in client.errors][:10],
        "lost": sum(client.made - place for client, place in zip(clients, places, strict=True)) + len(took) - rows,
        "memory_mb": {"early": round(settled, 1), "end": round(memory[-1], 1), "most": round(max(memory), 1)},
        "processor_ms_a_move": round(worked * 1000 / len(took), 2),
        "stumbled": stumbled,
    }  # fmt: skip


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--clients", type=int, default=200)
    parser.add_argument("--seconds", type=float, default=600.0)
    parser.add_argument("--out", type=Path)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="hookside-load-") as room:
        result = run(Path(room) / "house", asked.clients, asked.seconds)
    memory = result["memory_mb"]
    flat = memory["end"] <= memory["early"] * GROWTH
    sound = not result["errors"] and not result["lost"] and not result["stumbled"]
    return finish(result, sound and flat and result["ms"]["p99"] < LIMIT, asked.out)


if __name__ == "__main__":
    sys.exit(main())
