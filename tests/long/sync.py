"""A device comes back with ten thousand moves made offline: how long until the journal has acknowledged all of them.

    python tests/long/sync.py [--count 10000] [--out FILE]

The moves go to a real server over one socket, in batches of 500 as the page sends them, the next when the last is
acknowledged. The last line printed is the result as JSON; exit 1 where it took 2 seconds or more, or where the journal
does not have each move exactly once.
"""

from __future__ import annotations

import asyncio
import sys
import tempfile
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from _house import Line, asked_of, begin, finish, kept, move, now, serving

BATCH = 500
MOST = 2.0  # seconds


async def send(port: int, making: int, count: int) -> tuple[float, list[dict[str, Any]]]:
    line = await Line(port).open()
    snapshot = (await line.join(making, "phone"))["snapshot"]
    moves = [move(f"{n:032x}", "phone", n, making, snapshot["head"], backlog=True) for n in range(1, count + 1)]
    answers: list[dict[str, Any]] = []
    started = now()
    for start in range(0, count, BATCH):
        told = await line.ask("moves", {"epoch": snapshot["epoch"], "moves": moves[start : start + BATCH]})
        answers += told["answers"]
    took = now() - started
    line.close()
    return took, answers


def run(folder: Path, count: int) -> dict[str, Any]:
    (making,) = begin(folder, 1)
    with serving(folder) as house:
        before = house.worked()
        took, answers = asyncio.run(send(house.port, making, count))
        worked = house.worked() - before
        stumbled = house.stumbled()
    applied = sum(answer["kind"] == "move" for answer in answers)
    return kept(
        folder, making, moves=count, seconds=round(took, 3), limit=MOST, stumbled=stumbled, applied=applied,
        processor_seconds_of_the_server=round(worked, 2),
    )  # fmt: skip


def main() -> int:
    asked = asked_of(__doc__, 10_000)
    with tempfile.TemporaryDirectory(prefix="hookside-sync-") as room:
        result = run(Path(room) / "house", asked.count)
    whole = result["applied"] == result["place"] == result["rows"] == asked.count
    sound = not result["wrong"] and not result["stumbled"]
    return finish(result, whole and sound and result["seconds"] < MOST, asked.out)


if __name__ == "__main__":
    sys.exit(main())
