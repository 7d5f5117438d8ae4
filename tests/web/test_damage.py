"""A journal that is damaged while it is served: one sentence, which names the last good backup and how to have it."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from hookside.journal.backups import rotate
from hookside.journal.journal import utc_now
from hookside.journal.trouble import Damaged, Full
from hookside.web import damage as room
from hookside.web.damage import LOOKED, Damage

if TYPE_CHECKING:
    from conftest import House


def test_pages_are_offered_the_last_good_backup(house: House) -> None:
    making = house.begin()
    tablet = house.device()
    snapshot = tablet.join(making)["snapshot"]
    backup = rotate(house.journal.store.file.parent, utc_now())
    assert backup is not None
    assert tablet.send(tablet.move(snapshot, "next"))["ok"]
    damaged = sqlite3.connect(house.journal.store.file)
    damaged.execute("ALTER TABLE patterns RENAME TO patterns_gone")
    damaged.execute("ALTER TABLE rows RENAME TO rows_gone")
    damaged.commit()
    damaged.close()
    status, told = house.ask("GET", "/api/shelf")
    assert (status, told["code"]) == (503, "damaged")
    put_back = f"restore --folder {house.journal.store.file.parent} --over {backup}"
    assert told["say"].endswith(put_back)
    assert "The last good backup is of" in told["say"]
    snapshot["head"] += 1
    answer = tablet.send(tablet.move(snapshot, "next"))
    assert (answer["ok"], answer["code"]) == (False, "damaged")
    assert answer["say"].endswith(put_back)


def test_backups_are_not_read_through_for_every_question(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    looks: list[Path] = []
    now = [0.0]

    def look(folder: Path) -> str:
        looks.append(folder)
        return "Put it back."

    monkeypatch.setattr(room, "offer", look)
    damage = Damage(tmp_path, lambda: now[0])
    assert damage.say(Full("No room.")) == "No room."
    for _ in range(3):
        assert damage.say(Damaged("Damaged.")) == "Damaged. Put it back."
    assert looks == [tmp_path]
    now[0] = LOOKED
    damage.say(Damaged("Damaged."))
    assert looks == [tmp_path] * 2


def test_a_disk_that_does_not_give_its_backups_leaves_the_first_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(folder: Path) -> str:
        raise OSError("gone")

    monkeypatch.setattr(room, "offer", gone)
    assert Damage(tmp_path).say(Damaged("Damaged.")) == "Damaged."
