"""An acknowledgement rests on the disk: under FULL a sync of the log lies between write and answer, always.

Each connection is asked for its setting, and a child's real system calls are watched. That the watching can see
the difference is shown by the same child under NORMAL, where it must fail.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

from hookside.journal import Journal

Call = tuple[str, str]  # name, file

HERE = Path(__file__).resolve().parent
SERVER = HERE.parents[1] / "server"

# The child: moves one at a time, each acknowledged by a write to its standard output.
CHILD = """
import sys, time
from pathlib import Path
from types import SimpleNamespace
folder, setting, vectors = sys.argv[1:]
sys.path.insert(0, vectors)
from laying import small_strands
from hookside.follow import Order
from hookside.journal import Journal, store
store.PRAGMAS = tuple(p.replace("synchronous = FULL", "synchronous = " + setting) for p in store.PRAGMAS)
assert any(p == "synchronous = " + setting for p in store.PRAGMAS)
journal = Journal.open(Path(folder))
laid = [SimpleNamespace(run="p1.c1", piece="buoy", copy=1, copies=1, strand=small_strands()["buoy"])]
pattern = journal.add_pattern("demo", "US", "yours")
making = journal.begin(pattern, "Buoy", laid, SimpleNamespace(terms=None, hand="right", order=Order()))
import os
for n in range(1, 11):
    move = {"id": f"{n:032x}", "device": "phone", "device_seq": n, "making": making, "run": "p1.c1",
            "strand": "buoy", "base": n, "intent": "next", "unit": "stitch"}
    os.write(1, b"sent\\n")
    (answer,) = journal.moves([move], time.monotonic())
    assert answer["ok"]
    os.write(1, b"acknowledged\\n")
os._exit(0)
"""


def watched(setting: str, tmp_path: Path) -> list[list[Call]]:
    """For each move the calls on the journal's files between sending and acknowledgement."""
    tmp_path.mkdir()
    told = tmp_path / "told"
    environment = {**os.environ, "PYTHONPATH": str(SERVER), "PYTHONDONTWRITEBYTECODE": "1"}
    arguments = [str(tmp_path / "house"), setting, str(HERE.parent / "vectors")]
    # The child's standard output is a file, so that its writes can be told from all others.
    shell = ["/bin/sh", "-c", 'out=$1; shift; exec "$@" >"$out"', "sh", str(told)]
    watcher = [sys.executable, str(HERE / "syscalls.py"), *shell, sys.executable, "-c", CHILD, *arguments]
    done = subprocess.run(watcher, env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    calls: list[Call] = [(name, file) for name, file in json.loads(done.stdout)]
    assert told.read_text().split() == ["sent", "acknowledged"] * 10
    moves: list[list[Call]] = []
    between = False
    for name, file in calls:
        if file == str(told):
            between = not between
            if between:
                moves.append([])
        elif between and "journal.sqlite" in file:
            moves[-1].append((name, file))
    assert len(moves) == 10
    return moves


def synced(calls: list[Call]) -> bool:
    """Something was written to the log, and the last such write was synced."""
    log = ["sync" if name in ("fsync", "fdatasync") else "write" for name, file in calls if file.endswith("-wal")]
    return "write" in log and log[-1] == "sync"


def test_a_sync_lies_between_write_and_acknowledgement(tmp_path: Path) -> None:
    full = watched("FULL", tmp_path / "full")
    assert [synced(calls) for calls in full] == [True] * 10


def test_the_watching_would_notice_its_absence(tmp_path: Path) -> None:
    normal = watched("NORMAL", tmp_path / "normal")
    assert not any(synced(calls) for calls in normal[1:])  # the first may sync the log's own header
    assert all(any(file.endswith("-wal") for _, file in calls) for calls in normal)


def test_every_pooled_connection_is_set_up_alike(journal: Journal) -> None:
    engine = journal.store.engine
    connections = [engine.connect() for _ in range(12)]  # more than the pool keeps
    try:
        raw = {id(c.connection.dbapi_connection) for c in connections}
        assert len(raw) == 12
        for connection in connections:
            told = {
                name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
                for name in ("synchronous", "journal_mode", "foreign_keys", "busy_timeout", "recursive_triggers")
            }
            # 2 is FULL: https://www.sqlite.org/pragma.html#pragma_synchronous
            assert told == {
                "synchronous": 2, "journal_mode": "wal", "foreign_keys": 1, "busy_timeout": 5000,
                "recursive_triggers": 1,
            }  # fmt: skip
    finally:
        for connection in connections:
            connection.close()
    with journal.store.writing() as connection:
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2
