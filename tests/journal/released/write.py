"""Keeps a journal as this version writes it, so that every later version can be held to opening it.

    python tests/journal/released/write.py

Writes REVISION.sqlite and REVISION.json (where its makings stand) beside this script, once for each revision of the
tables: run it when a version with a new migration is released. What is there is never written over.
"""

from __future__ import annotations

import json
import shutil
import sqlite3
import sys
import tempfile
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent), str(HERE.parents[1] / "vectors"), str(HERE.parents[2] / "server")]

from desk import Desk, laid  # noqa: E402
from laying import Round, group, lay  # noqa: E402

from hookside.journal import FILE, Journal  # noqa: E402
from hookside.journal.migrate import HEAD  # noqa: E402


def work(desk: Desk) -> None:
    """A little of all that rows can say: moves, one laid aside and settled, a changed pattern, one aside left open."""
    desk.begin()
    desk.journal.meet("phone", "Phone")
    desk.journal.meet("tablet", "Tablet")
    desk.journal.set_maker({"hand": "left"})
    for unit in ("stitch", "round", "repeat", "round"):
        desk.do("next", unit=unit)
    desk.join("tablet")
    for _ in range(3):
        desk.do("next", unit="stitch")
    desk.now += 60
    aside = desk.do("next", "tablet", unit="round")
    assert aside["kind"] == "aside", aside
    assert desk.do("settle", to=desk.at(), asides=[aside["row"]])["kind"] == "settle"
    desk.do("next", run="p1.c1", unit="round")
    assert desk.do("goto", to=0, undoes=None)["kind"] == "move"
    (pattern,) = desk.journal.patterns()
    desk.journal.update_pattern(pattern["id"], "demo, changed", "US")
    longer = lay("flipper2", [Round(str(n), [group("sc", 6)]) for n in range(1, 6)])
    runs = laid()
    for run in runs[:2]:
        run.strand = longer
    assert isinstance(desk.journal.recast(desk.making, runs, {}, desk.head()), int)
    desk.send(desk.move("next", unit="stitch") | {"making": 99})
    desk.heads["tablet"] = 1
    assert desk.do("next", "tablet", unit="stitch")["kind"] == "aside"


def told(journal: Journal) -> list[dict[str, Any]]:
    """What is held against it later: where each making stands, and what is asked of it."""
    snapshots = [journal.snapshot(making["id"]) for making in journal.makings()]
    return [
        {"id": s["id"], "title": s["title"], "head": s["head"], "asides": len(s["asides"]),
         "in_hand": s["state"]["in_hand"], "at": {run: one["at"] for run, one in s["state"]["runs"].items()}}
        for s in snapshots if s
    ]  # fmt: skip


def main() -> None:
    target = HERE / f"{HEAD}.sqlite"
    if target.exists():
        sys.exit(f"{target.name} is there already and stays as it was released.")
    with tempfile.TemporaryDirectory() as folder:
        journal = Journal.open(Path(folder))
        work(Desk(journal))
        target.with_suffix(".json").write_text(json.dumps(told(journal), indent=2) + "\n", "utf-8")
        journal.close()
        connection = sqlite3.connect(Path(folder) / FILE)
        connection.execute("PRAGMA journal_mode = DELETE")  # one file, without a log beside it
        connection.close()
        shutil.copyfile(Path(folder) / FILE, target)


if __name__ == "__main__":
    main()
