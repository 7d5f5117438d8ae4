"""A write-ahead log that was damaged after a crash: nothing acknowledged is forgotten without a word.

The logs are SQLite's own, as https://www.sqlite.org/fileformat2.html#the_write_ahead_log describes them.
"""

from __future__ import annotations

import random
import shutil
from pathlib import Path

import pytest
from desk import Desk

from hookside.journal import FILE, Journal, Trouble
from hookside.journal.backups import FOLDER, backup
from hookside.journal.mending import inspect
from hookside.journal.restore import restore
from hookside.journal.trouble import Damaged
from hookside.journal.writeahead import LOG, broken

MOVES = 30
NOW = "2026-11-25T18:02:00+00:00"


@pytest.fixture
def killed(desk: Desk, folder: Path, tmp_path: Path) -> Path:
    """The folder as a kill leaves it: all acknowledged, most of it only in the log."""
    for _ in range(MOVES):
        assert desk.do("next", unit="stitch")["ok"]
    left = tmp_path / "killed"
    left.mkdir()
    for name in (FILE, FILE + LOG):
        shutil.copyfile(folder / name, left / name)
    return left


def rows_of(folder: Path) -> int:
    journal = Journal.open(folder)
    try:
        return journal.count_rows()
    finally:
        journal.close()


def copy_of(killed: Path, name: str) -> tuple[Path, bytearray]:
    place = killed.parent / name
    shutil.copytree(killed, place)
    return place, bytearray((place / (FILE + LOG)).read_bytes())


def test_a_log_as_it_was_written(killed: Path) -> None:
    assert not broken(killed / (FILE + LOG))
    assert rows_of(killed) == MOVES + 1


def test_a_log_cut_short_anywhere_is_one_that_was_being_written(killed: Path) -> None:
    chance = random.Random(1)
    log = killed.parent / "log"
    whole = (killed / (FILE + LOG)).read_bytes()
    for _ in range(60):
        end = chance.randrange(len(whole))
        log.write_bytes(whole[:end])
        assert not broken(log), end


def test_a_transaction_torn_by_a_power_cut_is_none_that_was_acknowledged(killed: Path) -> None:
    """Its frames may reach the disk in any order: one of them is missing, the commit behind it is there."""
    place, log = copy_of(killed, "torn")
    size = 24 + int.from_bytes(log[8:12], "big")
    commits = [at for at in range(32, len(log) - size + 1, size) if int.from_bytes(log[at + 4 : at + 8], "big")]
    first_of_the_last = commits[-2] + size
    assert first_of_the_last < commits[-1]
    log[first_of_the_last + 100] ^= 1
    (place / (FILE + LOG)).write_bytes(log)
    assert rows_of(place) == MOVES


@pytest.mark.parametrize("seed", range(25))
def test_one_bit_is_noticed_or_takes_nothing_but_the_last_move(killed: Path, seed: int) -> None:
    chance = random.Random(seed)
    place, log = copy_of(killed, "flipped")
    at = chance.randrange(len(log))
    log[at] ^= 1 << chance.randrange(8)
    (place / (FILE + LOG)).write_bytes(log)
    before = (place / FILE).read_bytes()
    if broken(place / (FILE + LOG)):
        with pytest.raises(Damaged, match=FILE + LOG):
            Journal.open(place)
        assert (place / FILE).read_bytes() == before
        assert (place / (FILE + LOG)).read_bytes() == log
    else:
        assert rows_of(place) >= MOVES, at


def test_a_log_without_its_head(killed: Path) -> None:
    place, log = copy_of(killed, "headless")
    log[:3000] = random.Random(1).randbytes(3000)
    (place / (FILE + LOG)).write_bytes(log)
    with pytest.raises(Trouble, match="is not what was written"):
        Journal.open(place)


def test_check_says_it_and_a_repair_goes_on_under_another_epoch(killed: Path) -> None:
    place, log = copy_of(killed, "middle")
    known = Journal.open(killed)
    epoch = known.epoch
    known.close()
    log[len(log) // 2] ^= 64
    (place / (FILE + LOG)).write_bytes(log)
    for _ in range(2):  # to look changes nothing
        report = inspect(place)
        assert len(report.flaws) == 1
        assert FILE + LOG in report.flaws[0]
        assert 0 < report.rows < MOVES
        assert f"the {report.rows} rows" in report.mends[0]
    told = inspect(place, repair=True, wall=NOW)
    assert (told.left, told.mends) == ([], report.mends)
    kept = [file for file in (place / FOLDER).iterdir() if file.name.endswith(LOG)]
    assert [file.read_bytes() for file in kept] == [log]
    journal = Journal.open(place)
    assert (journal.count_rows(), journal.epoch != epoch, journal.check()) == (report.rows, True, [])
    assert journal.parted(1, epoch, MOVES + 1) is not None
    journal.close()


def test_a_backup_put_in_its_place_keeps_both_files_as_they_are(folder: Path, killed: Path) -> None:
    good = killed.parent / "good.hookside"
    backup(folder / FILE, good, NOW)
    place, log = copy_of(killed, "replaced")
    log[len(log) // 2] ^= 64
    (place / (FILE + LOG)).write_bytes(log)
    done = restore(place, good, NOW, over=True)
    assert done.rows == MOVES + 1
    assert done.replaced is not None
    assert done.replaced.with_name(done.replaced.name + LOG).read_bytes() == log
    assert rows_of(place) == MOVES + 1
