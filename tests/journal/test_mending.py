"""What `hookside check` finds in a data folder, and what it puts right without guessing."""

from __future__ import annotations

import random
import sqlite3
from pathlib import Path

import pytest
from desk import Desk

from hookside.journal import FILE, Journal, Trouble
from hookside.journal.backups import FOLDER, rotate
from hookside.journal.mending import inspect
from hookside.journal.tables import GUARDS

NOW = "2026-11-25T18:02:00+00:00"


def hurt(folder: Path, *deeds: str) -> None:
    """Change what the guards protect, and put the guards back: only the sums tell."""
    connection = sqlite3.connect(folder / FILE, isolation_level=None)
    for name in GUARDS:
        if name != "rows_of_a_making":
            connection.execute(f"DROP TRIGGER {name}")
    for deed in deeds:
        assert connection.execute(deed).rowcount == 1, deed
    for name, sql in GUARDS.items():
        if name != "rows_of_a_making":
            connection.execute(sql)
    connection.close()


def test_all_is_well(desk: Desk, folder: Path) -> None:
    desk.do("next", unit="stitch")
    rotate(folder, NOW)
    report = inspect(folder)  # while the journal is open
    assert (report.flaws, report.mends, report.rows, report.makings) == ([], [], 2, 1)
    assert [flaws for _, flaws in report.backups] == [[]]
    assert not list(folder.glob(".looking-*"))


@pytest.mark.parametrize(
    "deeds",
    [
        ["UPDATE rows SET answer = replace(answer, '1', '2') WHERE row = 3"],
        ["UPDATE rows SET sum = 'x' WHERE row = 4"],
        ["DELETE FROM rows WHERE row = 3"],
        ["DELETE FROM rows WHERE row = 1"],
        ["UPDATE rows SET payload = '' WHERE row = 2", "UPDATE rows SET device = 'tablet' WHERE row = 3"],
        ["UPDATE strands SET json = replace(json, 'buoy', 'bouy') WHERE id = 'buoy'"],
        ["DELETE FROM strands WHERE id = 'skiff'"],
    ],
)
def test_what_a_backup_has_is_put_back(desk: Desk, folder: Path, deeds: list[str]) -> None:
    for _ in range(4):
        desk.do("next", unit="stitch")
    rotate(folder, NOW)
    for _ in range(2):
        desk.do("next", unit="stitch")
    before = desk.state()
    epoch = desk.journal.epoch
    desk.journal.close()
    hurt(folder, *deeds)
    report = inspect(folder)
    assert report.flaws
    assert len(report.mends) == len(deeds)
    assert report.left == []
    again = inspect(folder)
    assert again.flaws == report.flaws  # looking changes nothing
    done = inspect(folder, repair=True, wall=NOW)
    assert (done.mends, done.left) == (report.mends, [])
    opened = Journal.open(folder)
    try:
        assert opened.check() == []
        assert opened.epoch == epoch  # nothing that was acknowledged is otherwise: devices need not ask
        assert Desk(opened, desk.making).state() == before
    finally:
        opened.close()
    assert list((folder / FOLDER).glob("replaced-*"))


def test_missing_guards_are_made_anew(desk: Desk, folder: Path) -> None:
    desk.journal.close()
    connection = sqlite3.connect(folder / FILE)
    connection.execute("DROP TRIGGER rows_refuse_update")
    connection.execute("DROP INDEX rows_of_a_making")
    connection.close()
    report = inspect(folder)
    assert report.flaws == [
        "rows_refuse_update, a guard of the file, is missing.", "rows_of_a_making, a guard of the file, is missing.",
    ]  # fmt: skip
    assert inspect(folder, repair=True, wall=NOW).left == []
    assert inspect(folder).flaws == []


def test_what_no_backup_has_is_left_and_said(desk: Desk, folder: Path) -> None:
    rotate(folder, NOW)
    for _ in range(3):
        desk.do("next", unit="stitch")
    desk.journal.close()
    hurt(folder, "UPDATE rows SET payload = '{}' WHERE row = 3")
    report = inspect(folder)
    assert report.mends == []
    assert "Row 3 is not what was written." in report.left
    assert inspect(folder, repair=True, wall=NOW).left == report.left


def test_a_row_of_another_journal_is_not_taken(desk: Desk, folder: Path) -> None:
    """A backup whose row fits the number and not the sums around it mends nothing."""
    for _ in range(3):
        desk.do("next", unit="stitch")
    rotate(folder, NOW)
    desk.journal.close()
    other = Desk(Journal.open(folder.parent / "other"))
    other.begin()
    for _ in range(3):
        other.do("next", unit="round", device="tablet")
    other.journal.close()
    (folder / FILE).write_bytes((folder.parent / "other" / FILE).read_bytes())
    hurt(folder, "UPDATE rows SET payload = '{}' WHERE row = 3")
    assert inspect(folder).mends == []


def test_a_file_that_is_none(folder: Path, tmp_path: Path) -> None:
    with pytest.raises(Trouble, match="no journal"):
        inspect(tmp_path)
    folder.mkdir()
    (folder / FILE).write_bytes(b"a letter to grandmother, not a journal " * 400)
    report = inspect(folder)
    assert len(report.flaws) == 1
    assert "is damaged and was left as it is" in report.flaws[0]
    assert report.left == report.flaws


@pytest.mark.parametrize("seed", range(12))
def test_any_damage_is_told_in_words_and_what_is_repaired_is_whole(desk: Desk, folder: Path, seed: int) -> None:
    """Bits turned over anywhere, sometimes the end cut off: looking never stumbles, and changes nothing."""
    for _ in range(30):
        desk.do("next", unit="stitch")
    rotate(folder, NOW)
    for _ in range(3):
        desk.do("next", unit="stitch")
    desk.journal.close()
    chance = random.Random(seed)
    hurt = bytearray((folder / FILE).read_bytes())
    for _ in range(chance.choice([1, 3, 20])):
        hurt[chance.randrange(len(hurt))] ^= 1 << chance.randrange(8)
    if seed % 4 == 0:
        hurt = hurt[: chance.randrange(len(hurt))]
    (folder / FILE).write_bytes(hurt)
    report = inspect(folder)
    assert (folder / FILE).read_bytes() == hurt
    for said in report.flaws + report.mends + report.left:
        assert "\n" not in said
        assert ".looking-" not in said
    done = inspect(folder, repair=True, wall=NOW)
    assert (done.flaws, done.mends, done.left) == (report.flaws, report.mends, report.left)
    if not done.left:
        opened = Journal.open(folder)
        assert (opened.count_rows(), opened.check()) == (34, [])
        opened.close()
