"""Backups: one sound file whatever goes on meanwhile, thinned out to a ladder; restored with an epoch of its own."""

from __future__ import annotations

import os
import sqlite3
import stat
import threading
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from desk import Desk

from hookside.journal import FILE, Damaged, Full, Journal, Trouble
from hookside.journal.backups import FOLDER, NOTE, backup, kept, last_good, look, read_note, rotate, rungs
from hookside.journal.restore import restore
from hookside.journal.tables import metadata
from hookside.journal.trouble import Occupied, ReadOnly

NOW = "2026-11-25T18:02:00+00:00"


def lines_of(journal: Journal) -> list[Any]:
    with journal.store.reading() as connection:
        return list(connection.exec_driver_sql("SELECT row, sum FROM rows ORDER BY row"))


def test_a_backup_is_the_journal(desk: Desk, folder: Path, tmp_path: Path) -> None:
    desk.do("next", unit="round")
    target = tmp_path / "copy.sqlite"
    assert backup(folder / FILE, target, NOW) == 2
    assert look(target) == []
    assert read_note(target)["taken"] == NOW
    assert stat.S_IMODE(target.stat().st_mode) == 0o600
    assert [f.name for f in tmp_path.iterdir() if "copy" in f.name] == ["copy.sqlite"]  # one file, nothing beside it
    later = Desk(desk.journal)
    restored = tmp_path / "other"
    restore(restored, target, NOW)
    opened = Journal.open(restored)
    assert lines_of(opened) == lines_of(later.journal)
    assert opened.snapshot(desk.making)["state"] == desk.state()  # type: ignore[index]
    opened.close()


def test_a_backup_while_moves_are_made(desk: Desk, folder: Path, tmp_path: Path) -> None:
    over = threading.Event()
    answers: list[dict[str, Any]] = []

    def work() -> None:
        while not over.is_set():
            answers.append(desk.do("next" if len(answers) % 2 == 0 else "back", unit="stitch"))

    worker = threading.Thread(target=work)
    worker.start()
    try:
        for n in range(5):
            before = len(answers)
            target = tmp_path / f"{n}.sqlite"
            rows = backup(folder / FILE, target, NOW)
            assert before + 1 <= rows
            assert look(target) == []
    finally:
        over.set()
        worker.join()
    assert all(answer["kind"] == "move" for answer in answers)


def test_nothing_is_written_over_unasked(desk: Desk, folder: Path, tmp_path: Path) -> None:
    target = tmp_path / "copy.sqlite"
    target.write_text("a letter")
    with pytest.raises(Occupied, match="--over"):
        backup(folder / FILE, target, NOW)
    assert target.read_text() == "a letter"
    backup(folder / FILE, target, NOW, over=True)
    assert look(target) == []
    with pytest.raises(Occupied, match="the journal itself"):
        backup(folder / FILE, folder / FILE, NOW, over=True)


def test_where_it_can_not_be_written(desk: Desk, folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(ReadOnly, match="cannot be written"):
        backup(folder / FILE, tmp_path / "nowhere" / "copy.sqlite", NOW)
    with pytest.raises(Trouble, match="no journal"):
        backup(tmp_path / FILE, tmp_path / "copy.sqlite", NOW)

    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(Full, match="no room"):
        backup(folder / FILE, tmp_path / "copy.sqlite", NOW)
    monkeypatch.undo()
    assert not list(tmp_path.glob("*copy*")) + list(tmp_path.glob(".*copy*"))


def test_a_damaged_journal_is_no_backup(desk: Desk, folder: Path, tmp_path: Path) -> None:
    desk.do("next", unit="stitch")
    connection = sqlite3.connect(folder / FILE)
    connection.execute("DROP TRIGGER rows_refuse_update")
    connection.execute("UPDATE rows SET payload = '{}' WHERE row = 2")
    connection.commit()
    connection.close()
    with pytest.raises(Damaged, match="was not backed up, because it is damaged"):
        backup(folder / FILE, tmp_path / "copy.sqlite", NOW)
    assert not (tmp_path / "copy.sqlite").exists()


def test_nothing_secret_is_in_a_backup(desk: Desk, folder: Path, tmp_path: Path) -> None:
    """What is in the house beside the journal (keys, paired devices) is not in the file; only its tables are."""
    (folder / "doors").mkdir()
    (folder / "doors" / "authority.key").write_text("SECRET-OF-THE-DOOR")
    backup(folder / FILE, tmp_path / "copy.sqlite", NOW)
    assert b"SECRET-OF-THE-DOOR" not in (tmp_path / "copy.sqlite").read_bytes()
    connection = sqlite3.connect(tmp_path / "copy.sqlite")
    tables = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    keys = {key for (key,) in connection.execute("SELECT key FROM settings")}
    connection.close()
    assert tables == {*metadata.tables, "alembic_version", "sqlite_sequence"}
    assert keys <= {"maker", NOTE}


# -- made by themselves -----------------------------------------------------


def test_one_is_made_where_something_changed(desk: Desk, folder: Path) -> None:
    first = rotate(folder, NOW)
    assert first is not None
    assert first.name == "journal-000001-20261125.sqlite"
    assert rotate(folder, NOW) is None
    changes: list[Callable[[], Any]] = [
        lambda: desk.do("next", unit="stitch"),
        lambda: desk.journal.add_pattern("Rnd 1: 6 sc", None, "yours"),
        lambda: desk.journal.set_maker({"hand": "left"}),
        lambda: desk.journal.put_away(desk.making),
        lambda: desk.journal.meet("tablet", "Tablet"),
    ]
    for change in changes:
        change()
        assert rotate(folder, NOW) is not None
        assert rotate(folder, NOW) is None
    found = kept(folder)
    assert [one.number for one in found] == [6, 5, 4, 3]  # all of one day: the newest four
    assert [one["when"] for one in [{"when": one.taken} for one in desk.journal.backups()]] == [NOW] * 4
    assert not [file for file in (folder / FOLDER).iterdir() if file.name.endswith(".part")]


def test_the_ladder() -> None:
    """Two a day for two years: what is kept is few, reaches far back, and always holds the newest."""
    first = date(2026, 1, 1)
    made: list[tuple[int, date]] = []
    for n in range(2 * 730):
        made.append((n, first + timedelta(days=n // 2)))
        keep = rungs(made)
        made = [one for one in made if one[0] in keep]
        assert n in keep
        assert len(made) <= 4 + 7 + 5 + 12
    days = [day for _, day in made]
    assert (days[-1] - days[0]).days >= 330
    assert len({day for day in days if (days[-1] - day).days < 7}) == 7


def test_a_wrong_clock_costs_no_new_backup() -> None:
    """The clock stands in 2099 for a while and then is put right: newer is the higher number, whatever the day."""
    made = [(1, date(2026, 1, 1)), (2, date(2099, 1, 1)), (3, date(2099, 1, 2)), (4, date(2026, 1, 2))]
    for n in range(5, 60):
        made.append((n, date(2026, 1, 2) + timedelta(days=n)))
        keep = rungs(made)
        made = [one for one in made if one[0] in keep]
        assert {number for number, _ in made} >= set(range(max(1, n - 3), n + 1)) - {1, 2, 3}


def test_too_little_room_makes_none(desk: Desk, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from types import SimpleNamespace

    from hookside.journal import backups

    monkeypatch.setattr(backups.shutil, "disk_usage", lambda _: SimpleNamespace(free=1 << 20))
    assert rotate(folder, NOW) is None


def test_the_last_good_one_is_offered(desk: Desk, folder: Path) -> None:
    desk.do("next", unit="stitch")
    rotate(folder, NOW)
    for _ in range(2):
        desk.do("next", unit="stitch")
        rotate(folder, "2026-11-26T07:00:00+00:00")
    desk.journal.close()
    newest = kept(folder)[0].file
    newest.write_bytes(newest.read_bytes()[: newest.stat().st_size // 2])
    newest.with_name("letter.txt").write_text("not a backup")
    good = last_good(folder)
    assert good is not None
    assert good.number == 2
    (folder / FILE).write_bytes(b"a letter to grandmother, not a journal " * 400)
    for name in ("-wal", "-shm"):
        (folder / (FILE + name)).unlink(missing_ok=True)
    with pytest.raises(Damaged) as said:
        Journal.open(folder)
    assert "is damaged and was left as it is" in said.value.say
    assert f"hookside restore --folder {folder} --over {good.file}" in said.value.say
    assert "The last good backup is of 2026-11-26 07:00, with 3 rows." in said.value.say


# -- restored ---------------------------------------------------------------


def test_a_restore_takes_the_place_and_keeps_what_was(desk: Desk, folder: Path, tmp_path: Path) -> None:
    desk.do("next", unit="stitch")
    backup(folder / FILE, tmp_path / "copy.sqlite", NOW)
    for _ in range(3):
        desk.do("next", unit="stitch")
    epoch = desk.journal.epoch
    desk.journal.close()
    with pytest.raises(Occupied, match="Say --over"):
        restore(folder, tmp_path / "copy.sqlite", NOW)
    done = restore(folder, tmp_path / "copy.sqlite", NOW, over=True)
    assert (done.rows, done.taken) == (2, NOW)
    assert done.replaced is not None
    assert look(done.replaced) == []
    assert sorted(file.name for file in folder.iterdir()) == [FOLDER, FILE]
    opened = Journal.open(folder)
    try:
        assert opened.epoch != epoch
        assert opened.count_rows() == 2
        assert opened.check() == []
        # A device that knows three rows more is told where they parted, and which of its moves are there.
        told = opened.parted(desk.making, epoch, 5)
        assert told == {"known": "earlier", "shared": 2, "when": NOW, "taken": NOW}
        assert opened.parted(desk.making, epoch, 1)["shared"] == 1  # type: ignore[index]
        assert opened.parted(desk.making, opened.epoch, 2) is None
        assert opened.parted(desk.making, opened.epoch, 5) == {**told, "known": "behind", "shared": 0}
        assert opened.parted(desk.making, "f" * 32, 5) == {**told, "known": "stranger", "shared": 0}
        assert opened.which(desk.making, [f"{n:032x}" for n in range(1, 5)]) == {f"{1:032x}": 2}
    finally:
        opened.close()


def test_two_restores_of_one_backup_know_each_other(desk: Desk, folder: Path, tmp_path: Path) -> None:
    """Devices may know the epoch of a journal that was itself replaced: it is remembered where it could be read."""
    desk.do("next", unit="stitch")
    backup(folder / FILE, tmp_path / "copy.sqlite", NOW)
    first = desk.journal.epoch
    desk.journal.close()
    restore(folder, tmp_path / "copy.sqlite", NOW, over=True)
    between = Desk(Journal.open(folder), desk.making, made=50)
    second = between.journal.epoch
    between.do("next", unit="stitch")
    between.do("next", unit="stitch")
    between.journal.close()
    restore(folder, tmp_path / "copy.sqlite", NOW, over=True)
    opened = Journal.open(folder)
    try:
        for epoch in (first, second):
            told = opened.parted(desk.making, epoch, 4)
            assert told is not None
            assert (told["known"], told["shared"]) == ("earlier", 2)
    finally:
        opened.close()


def test_moves_that_a_device_knows_more_are_put_back(desk: Desk, folder: Path, tmp_path: Path) -> None:
    desk.do("next", unit="stitch")
    backup(folder / FILE, tmp_path / "copy.sqlite", NOW)
    moves = [desk.move("next", unit="stitch") for _ in range(40)]
    desk.send(*moves)
    before = desk.state()["runs"]["p3.c1"]["at"]
    desk.journal.close()
    restore(folder, tmp_path / "copy.sqlite", NOW, over=True)
    later = Desk(Journal.open(folder), desk.making)
    try:
        assert later.at() < before
        again = [{**move, "base": min(move["base"], 2), "backlog": True} for move in moves]
        answers = later.send(*again)
        assert {answer["kind"] for answer in answers} == {"move"}
        assert later.at() == before
        assert later.send(*again) == answers
        assert later.journal.check() == []
    finally:
        later.journal.close()


def test_two_devices_that_know_more_are_asked(desk: Desk, folder: Path, tmp_path: Path) -> None:
    backup(folder / FILE, tmp_path / "copy.sqlite", NOW)
    phone = [desk.move("next", unit="stitch") for _ in range(5)]
    desk.send(*phone)
    desk.join("tablet")
    tablet = [desk.move("next", "tablet", unit="round")]
    desk.send(*tablet)
    desk.journal.close()
    restore(folder, tmp_path / "copy.sqlite", NOW, over=True)
    later = Desk(Journal.open(folder), desk.making)
    try:
        first = later.send(*[{**move, "base": 1, "backlog": True} for move in phone])
        assert {answer["kind"] for answer in first} == {"move"}
        (second,) = later.send(*[{**move, "base": 1, "backlog": True} for move in tablet])
        assert second["kind"] == "aside"
        (aside,) = later.journal.snapshot(desk.making)["asides"]  # type: ignore[index]
        assert (aside["device"], later.at()) == ("tablet", first[-1]["to"])
    finally:
        later.journal.close()


@pytest.mark.parametrize("how", ["flipped", "truncated", "letter", "empty", "later"])
def test_no_damaged_file_is_restored(desk: Desk, folder: Path, tmp_path: Path, how: str) -> None:
    for _ in range(30):
        desk.do("next", unit="stitch")
    file = tmp_path / "copy.sqlite"
    backup(folder / FILE, file, NOW)
    if how == "flipped":
        connection = sqlite3.connect(file)
        connection.execute("DROP TRIGGER rows_refuse_update")
        connection.execute("UPDATE rows SET answer = replace(answer, '1', '2') WHERE row = 7")
        connection.commit()
        connection.close()
    elif how == "truncated":
        file.write_bytes(file.read_bytes()[: file.stat().st_size // 2 // 4096 * 4096])
    elif how == "later":
        connection = sqlite3.connect(file)
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
        connection.close()
    else:
        file.write_bytes(b"" if how == "empty" else b"a letter to grandmother" * 300)
    before = desk.journal.epoch, lines_of(desk.journal)
    desk.journal.close()
    with pytest.raises(Trouble) as said:
        restore(folder, file, NOW, over=True)
    assert "\n" not in said.value.say
    assert said.value.say.startswith(f"{file} was not put back, and nothing was changed: ")
    opened = Journal.open(folder)
    assert (opened.epoch, lines_of(opened)) == before
    opened.close()
    assert not list(folder.glob(".restoring-*"))


def test_each_released_journal_is_restored(tmp_path: Path) -> None:
    for file in sorted((Path(__file__).resolve().parent / "released").glob("*.sqlite")):
        folder = tmp_path / file.stem
        restore(folder, file, NOW)
        opened = Journal.open(folder)
        assert opened.check() == []
        assert opened.makings()
        opened.close()


def test_a_restore_over_a_damaged_journal_keeps_its_files(desk: Desk, folder: Path, tmp_path: Path) -> None:
    backup(folder / FILE, tmp_path / "copy.sqlite", NOW)
    desk.journal.close()
    (folder / FILE).write_bytes(b"not a journal any more" * 500)
    done = restore(folder, tmp_path / "copy.sqlite", NOW, over=True)
    assert done.replaced is not None
    assert done.replaced.read_bytes() == b"not a journal any more" * 500
    opened = Journal.open(folder)
    assert opened.check() == []
    opened.close()


def test_a_folder_copied_while_in_use_is_restored_with_its_log(desk: Desk, folder: Path, tmp_path: Path) -> None:
    for _ in range(3):
        desk.do("next", unit="stitch")
    (tmp_path / "copied").mkdir()
    for name in (FILE, f"{FILE}-wal"):
        (tmp_path / "copied" / name).write_bytes((folder / name).read_bytes())
    done = restore(tmp_path / "other", tmp_path / "copied" / FILE, NOW)
    assert done.rows == 4


def test_a_journal_that_is_gone_is_not_begun_anew(desk: Desk, folder: Path) -> None:
    """An empty shelf where weeks of work lay would be believed; what can be put back is said instead."""
    desk.do("next", unit="stitch")
    rotate(folder, NOW)
    desk.journal.close()
    (folder / FILE).unlink()
    with pytest.raises(Damaged, match="is gone, though backups of it are there") as said:
        Journal.open(folder)
    assert "The last good backup is of 2026-11-25 18:02, with 2 rows. Put it back with: " in said.value.say
    assert not (folder / FILE).exists()
    restore(folder, kept(folder)[0].file, NOW)
    opened = Journal.open(folder)
    assert opened.count_rows() == 2
    opened.close()
