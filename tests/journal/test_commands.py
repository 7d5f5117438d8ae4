"""The journal's commands, as a maker types them."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from desk import Desk

from hookside.cli import main
from hookside.journal import FILE, Journal
from hookside.journal.backups import FOLDER, kept
from hookside.web.keeping import Keeping
from hookside.web.lock import FolderLock


@pytest.fixture
def house(desk: Desk, folder: Path) -> Path:
    for _ in range(3):
        desk.do("next", unit="stitch")
    desk.journal.close()
    return folder


def hookside(*words: object) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def test_there_and_back(house: Path, tmp_path: Path) -> None:
    file = tmp_path / "mine.sqlite"
    done = hookside("backup", file, "--folder", house)
    assert (done.exit_code, done.output.split(" (")[0]) == (0, f"{file}: 4 rows, read back and sound")
    again = hookside("backup", file, "--folder", house)
    assert again.exit_code == 1
    assert again.output == f"{file} is there already. Name another file, or say --over to write over it.\n"
    assert hookside("backup", file, "--folder", house, "--over").exit_code == 0

    refused = hookside("restore", file, "--folder", house)
    assert refused.exit_code == 1
    assert "Say --over to put mine.sqlite in its place" in refused.output
    done = hookside("restore", file, "--folder", house, "--over")
    assert done.exit_code == 0, done.output
    assert f"{house / FILE} has 4 rows now, as of " in done.output
    assert "The journal that was there is kept: " in done.output
    shutil.rmtree(house)
    assert hookside("restore", file, "--folder", house).exit_code == 0
    assert hookside("check", "--folder", house).output.startswith(f"{house / FILE}: 4 rows in 1 making, all as they")


def test_a_backup_while_a_server_holds_the_folder_and_a_restore_not(house: Path, tmp_path: Path) -> None:
    file = tmp_path / "mine.sqlite"
    with FolderLock(house) as lock:
        lock.tell("http://127.0.0.1:4717")
        assert hookside("backup", file, "--folder", house).exit_code == 0
        assert hookside("check", "--folder", house).exit_code == 0
        before = (house / FILE).read_bytes()
        for words in (("restore", file, "--over"), ("check", "--repair")):
            refused = hookside(*words, "--folder", house)
            assert refused.exit_code == 1
            assert f"Hookside is serving {house} at http://127.0.0.1:4717. Stop it first" in refused.output
        assert (house / FILE).read_bytes() == before


def test_check_says_what_a_repair_would_do(house: Path) -> None:
    import sqlite3

    with Keeping(house, soon=3600) as keeping:
        assert keeping.once() == 0
    connection = sqlite3.connect(house / FILE)
    connection.execute("DROP TRIGGER rows_refuse_update")
    connection.execute("UPDATE rows SET payload = '{}' WHERE row = 3")
    connection.commit()
    connection.close()
    said = hookside("check", "--folder", house)
    assert said.exit_code == 1
    name = kept(house)[0].file.name
    assert "  Row 3 is not what was written.\n" in said.output
    assert "A repair would put right (--repair):\n" in said.output
    assert f"  Row 3 is put back from {name}.\n" in said.output
    assert f"{house / FOLDER}: 1 backup of its own, 1 sound.\n" in said.output
    assert hookside("check", "--folder", house, "--repair").exit_code == 0
    assert hookside("check", "--folder", house).exit_code == 0


def test_what_can_not_be_repaired_names_the_last_good_backup(house: Path) -> None:
    with Keeping(house, soon=3600) as keeping:
        assert keeping.once() == 0
    (house / FILE).write_bytes(b"a letter to grandmother, not a journal " * 400)
    said = hookside("check", "--folder", house)
    assert said.exit_code == 1
    assert "is damaged and was left as it is" in said.output
    assert f"hookside restore --over --folder {house} {kept(house)[0].file}\n" in said.output
    assert hookside("restore", "--over", "--folder", house, kept(house)[0].file).exit_code == 0
    journal = Journal.open(house)
    assert journal.count_rows() == 4
    journal.close()


def test_backups_are_made_while_serving(house: Path) -> None:
    """The keeper's own thread: one soon after the start, and none where nothing changed."""
    with Keeping(house, soon=0.0, every=0.01) as keeping:
        while not kept(house):
            keeping.over.wait(0.05)
        while keeping.process is None or keeping.process.poll() is None:
            keeping.over.wait(0.05)
    assert len(kept(house)) == 1
    assert not keeping.thread.is_alive()


def test_folders_that_are_none(tmp_path: Path) -> None:
    for words in (("backup", tmp_path / "x.sqlite"), ("check",)):
        said: Any = hookside(*words, "--folder", tmp_path / "nowhere")
        assert said.exit_code == 1
        assert "There is no journal in" in said.output
    (tmp_path / "file").write_text("")
    assert hookside("restore", tmp_path / "file", "--folder", tmp_path / "file").exit_code in (1, 2)
    assert hookside("restore", tmp_path / "none", "--folder", tmp_path / "new").output == (
        f"There is no file {tmp_path / 'none'}.\n"
    )


@pytest.mark.parametrize("how", ["letter", "truncated", "empty", "gone", "read-only"])
def test_serving_what_can_not_be_served_is_said_once(house: Path, how: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """One sentence or two, an exit code, nothing changed; and the backup that is offered does put it right."""
    with Keeping(house, soon=3600) as keeping:
        assert keeping.once() == 0
    file = house / FILE
    whole = file.read_bytes()
    if how == "letter":
        file.write_bytes(b"a letter to grandmother, not a journal " * 400)
    elif how == "truncated":
        file.write_bytes(whole[:9000])
    elif how == "empty":
        file.write_bytes(b"")
    elif how == "gone":
        file.unlink()
    else:
        from hookside.journal import store

        monkeypatch.setattr(store, "PRAGMAS", (*store.PRAGMAS, "query_only = ON"))
    before = file.read_bytes() if file.exists() else None
    said = hookside("serve", "--folder", house, "--no-browser")
    assert said.exit_code == 1, said.output
    assert said.output.count("\n") == 1
    assert (file.read_bytes() if file.exists() else None) == before
    if how == "read-only":
        assert "cannot be written" in said.output
        return
    assert f"hookside restore --folder {house} --over {kept(house)[0].file}" in said.output
    assert hookside("restore", "--folder", house, "--over", kept(house)[0].file).exit_code == 0
    journal = Journal.open(house)
    assert (journal.count_rows(), journal.check()) == (4, [])
    journal.close()
