"""Every journal that was ever released opens, stands where it stood, and is worked on."""

from __future__ import annotations

import json
import shutil
import sqlite3
from pathlib import Path

import pytest
from desk import Desk
from laying import Round, group, lay
from test_mends import BUOY, mend
from test_recast import edit, laid

from hookside.journal import FILE, Journal
from hookside.journal.backups import FOLDER
from hookside.journal.migrate import HEAD, REVISIONS

RELEASED = Path(__file__).resolve().parent / "released"
JOURNALS = sorted(RELEASED.glob("*.sqlite"))


def test_each_revision_is_kept() -> None:
    assert [file.stem for file in JOURNALS] == list(REVISIONS)


@pytest.mark.parametrize("file", JOURNALS, ids=lambda file: file.stem)
def test_it_opens(file: Path, tmp_path: Path) -> None:
    shutil.copyfile(file, tmp_path / FILE)
    journal = Journal.open(tmp_path)
    try:
        for told in json.loads(file.with_suffix(".json").read_text("utf-8")):
            snapshot = journal.snapshot(told["id"])
            assert snapshot is not None
            assert {run: one["at"] for run, one in snapshot["state"]["runs"].items()} == told["at"]
            assert (snapshot["head"], snapshot["title"]) == (told["head"], told["title"])
            assert (snapshot["state"]["in_hand"], len(snapshot["asides"])) == (told["in_hand"], told["asides"])
            run = snapshot["runs"][-1]
            move = {
                "id": "f" * 32, "device": "phone", "device_seq": 99, "making": told["id"], "run": run["run"],
                "strand": run["strand"], "base": snapshot["head"], "intent": "next", "unit": "stitch",
            }  # fmt: skip
            (answer,) = journal.moves([move], 1.0)
            assert (answer["kind"], answer["from"]) == ("move", told["at"][run["run"]])
        assert journal.check() == []
        before = tmp_path / FOLDER / f"before-{HEAD}.sqlite"
        assert before.exists() == (file.stem != HEAD)  # as it was, in case the change of tables was a mistake
        assert journal.patterns()
        assert journal.maker()["hand"] == "left"
        with journal.store.reading() as connection:
            assert connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar() == HEAD
    finally:
        journal.close()


@pytest.mark.parametrize("file", JOURNALS, ids=lambda file: file.stem)
def test_what_came_later_goes_into_it(file: Path, tmp_path: Path) -> None:
    """Choices, ticks, notes, counts, a mend and a changed text, in a making that was begun before there were any."""
    shutil.copyfile(file, tmp_path / FILE)
    journal = Journal.open(tmp_path)
    (told,) = json.loads(file.with_suffix(".json").read_text("utf-8"))
    desk = Desk(journal, told["id"], made=1000)
    snapshot = desk.join("phone")
    for aside in snapshot["asides"]:
        strand = snapshot["state"]["runs"][aside["run"]]["strand"]
        answer = desk.do("settle", run=aside["run"], strand=strand, to=aside["to"], asides=[aside["row"]])
        assert answer["kind"] == "settle"
    note = {"note": "a", "run": "p3.c1", "step": 3, "text": "tight", "when": ""}
    counted = {"run": "p3.c1", "course": "buoy.1", "n": 6, "right": True}
    tick = {"list": "gather", "item": "hook", "on": True}
    said = {"yarn": "red", "tick": tick, "note": note, "count": counted}
    chosen = [{"choice": name, "value": value} for name, value in said.items()]
    assert desk.do("choose", run="", strand="", choices=chosen)["kind"] == "choice"
    mend(desk)
    edit(desk)
    courses = [*(Round(c.label, c.body, plain=c.plain) for c in BUOY.courses), Round("7", [group("sc", 6)], plain=True)]
    longer = lay("buoy", list(courses)).model_copy(update={"id": "longer"})
    assert isinstance(journal.recast(desk.making, laid(buoy=longer), {}, desk.head()), int)
    stands = journal.snapshot(desk.making)
    assert stands is not None
    assert not stands["edited"]
    assert stands["choices"]["yarn"] == "red"
    assert stands["choices"]["ticks"] == {"gather": ["hook"]}
    assert [one["n"] for one in stands["choices"]["counted"]] == [6]
    kept = journal.bench(desk.making)
    assert kept is not None
    assert [one.course for one in kept.mends["p3.c1"]] == ["buoy.4"]
    journal.close()
    later = Journal.open(tmp_path)
    try:
        assert later.snapshot(desk.making) == stands
        assert later.check() == []
    finally:
        later.close()


def test_the_oldest_is_as_it_was_released() -> None:
    """A fixture that somebody opened by mistake would be brought up to date, and prove nothing."""
    for file in JOURNALS:
        connection = sqlite3.connect(f"file:{file}?immutable=1", uri=True)
        assert connection.execute("SELECT version_num FROM alembic_version").fetchone() == (file.stem,)
        connection.close()
