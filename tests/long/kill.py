"""Kills a working journal with SIGKILL at random moments, and looks whether anything acknowledged was lost.

    python tests/long/kill.py --count 1000 [--seed 1] [--out FILE]

A child keeps three makings busy, one client each, and tells every acknowledgement through a pipe. After each kill
the journal is opened again: every acknowledged move must be there once and with the answer that was given, resending
must change nothing, and each run must stand exactly as far as its moves went. A journal is killed a hundred times, then
comes a fresh one: opening it reads all its rows. The last line printed is the result as JSON; exit 1 when anything was
lost or doubled.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import os
import platform
import random
import select
import shutil
import signal
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent / "vectors"), str(HERE.parents[1] / "server")]

from laying import Round, group, lay  # noqa: E402

from hookside.follow import Order  # noqa: E402
from hookside.journal import Journal  # noqa: E402

CLIENTS = 3
WRONG = "wrong: "
LIVES_OF_ONE = 100  # of one journal
LONGEST_LIFE = 0.1  # seconds from its first acknowledgement, or from its start
STRAND = lay("mooring", [Round(str(n), [group("sc", 2000)], plain=True) for n in range(1, 201)])


def move(making: int, seq: int, base: int) -> dict[str, Any]:
    """The client's move number `seq`, the same each time it is made but for its base."""
    return {
        "id": hashlib.sha256(f"{making} {seq}".encode()).hexdigest()[:32],
        "device": f"client-{making}",
        "device_seq": seq,
        "making": making,
        "run": "p1.c1",
        "strand": STRAND.id,
        "base": base,
        "intent": "next",
        "unit": "stitch",
    }


def place(journal: Journal, making: int) -> tuple[int, int]:
    """How far the making's run is, and the making's head."""
    snapshot = journal.snapshot(making)
    assert snapshot is not None
    return snapshot["state"]["runs"]["p1.c1"]["at"], snapshot["head"]


def work(folder: Path, makings: list[int], pipe: int, seed: int) -> None:
    """The child: three clients at one journal until it is killed."""
    journal = Journal.open(folder)

    def client(making: int) -> None:
        rng = random.Random(f"{seed} {making}")
        seq, head = place(journal, making)
        while True:
            batch = [move(making, seq + n, head) for n in range(1, rng.choice([1, 1, 1, 2, 5]) + 1)]
            answers = journal.moves(batch, time.monotonic())
            told = [[making, m["device_seq"], a["row"], a["to"]] for m, a in zip(batch, answers, strict=True)]
            os.write(pipe, "".join(json.dumps(line) + "\n" for line in told).encode())
            seq, head = seq + len(batch), answers[-1]["head"]

    threads = [threading.Thread(target=client, args=(making,), daemon=True) for making in makings]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


def one_life(folder: Path, makings: list[int], rng: random.Random) -> Iterator[list[int]]:
    """Let a child live for a random while; what it acknowledged, as [making, seq, row, to]."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        try:
            work(folder, makings, writing, rng.randrange(1 << 30))
        finally:
            os._exit(1)  # only a kill ends a child
    os.close(writing)
    if rng.random() < 0.8:  # most are killed at work, some while they open the journal
        select.select([reading], [], [], 30)
    time.sleep(rng.uniform(0, LONGEST_LIFE))
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status), "the child ended by itself"
    with os.fdopen(reading, "rb") as told:
        for line in told.read().splitlines(keepends=True):
            if line.endswith(b"\n"):
                yield json.loads(line)


def lives(count: int, rng: random.Random, folder: Path) -> Counter[str]:
    """So many lives of one fresh journal; what is wrong in the end, one entry for each sentence under "wrong: "."""
    journal = Journal.open(folder)
    pattern = journal.add_pattern("demo", "US", "yours")
    laid = [SimpleNamespace(run="p1.c1", piece="mooring", copy=1, copies=1, strand=STRAND)]
    choices = SimpleNamespace(terms=None, hand="right", order=Order())
    makings = [journal.begin(pattern, "Mooring", laid, choices) for _ in range(CLIENTS)]
    journal.close()
    acknowledged = lost = doubled = unacknowledged_but_kept = 0
    for _ in range(count):
        told = list(one_life(folder, makings, rng))
        acknowledged += len(told)
        journal = Journal.open(folder)
        for making in makings:
            at, head = place(journal, making)
            mine = [line for line in told if line[0] == making]
            highest = max((seq for _, seq, _, _ in mine), default=0)
            unacknowledged_but_kept += max(0, at - highest) if mine else 0
            # Resend what was acknowledged, and the move that may have been on its way when the kill came.
            again = [move(making, seq, head) for _, seq, _, _ in mine]
            for start in range(0, len(again), 500):
                answers = journal.moves(again[start : start + 500], time.monotonic())
                for (_, _, row, to), answer in zip(mine[start : start + 500], answers, strict=True):
                    lost += (answer["row"], answer["to"]) != (row, to)
            journal.moves([move(making, at, head), move(making, at + 1, head)] if at else [], time.monotonic())
            now, _ = place(journal, making)
            doubled += abs(now - (at + 1 if at else 0))
        journal.close()
    journal = Journal.open(folder)
    wrong = journal.check()
    rows = journal.count_rows()
    expected = sum(place(journal, making)[0] for making in makings) + len(makings)
    journal.close()
    return Counter({
        "acknowledged": acknowledged,
        "kept_without_acknowledgement": unacknowledged_but_kept,
        "lost": lost,
        "doubled": doubled + abs(rows - expected),
        "rows": rows,
        **{f"{WRONG}{sentence}": 1 for sentence in wrong},
    })  # fmt: skip


def run(count: int, seed: int, folder: Path) -> dict[str, Any]:
    rng, found = random.Random(seed), Counter[str]()
    started = time.monotonic()
    for first in range(0, count, LIVES_OF_ONE):
        found += lives(min(LIVES_OF_ONE, count - first), rng, folder / str(first))
        shutil.rmtree(folder / str(first))
    return {
        "kills": count,
        "seed": seed,
        **{name: found[name] for name in ("acknowledged", "kept_without_acknowledgement", "lost", "doubled", "rows")},
        "wrong": [name.removeprefix(WRONG) for name in found if name.startswith(WRONG)],
        "seconds": round(time.monotonic() - started, 1),
        "machine": f"{platform.machine()}, {os.cpu_count()} cores, {platform.system()} {platform.release()}, "
        f"Python {platform.python_version()}",
        "date": datetime.now(UTC).date().isoformat(),
    }


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="hookside-kill-") as folder:
        result = run(asked.count, asked.seed, Path(folder))
    text = json.dumps(result) + "\n"
    if asked.out:
        asked.out.write_text(text, "utf-8")
    sys.stdout.write(text)
    return 1 if result["lost"] or result["doubled"] or result["wrong"] or not result["acknowledged"] else 0


if __name__ == "__main__":
    sys.exit(main())
