"""The file itself: append-only, checked, migrated, and clear about what is wrong with it."""

from __future__ import annotations

import random
import shutil
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import event, inspect

from hookside.journal import FILE, Damaged, Full, Journal, Locked, ReadOnly, TooNew, Trouble
from hookside.journal.migrate import HEAD, MIGRATIONS, REVISIONS
from hookside.journal.tables import metadata
from hookside.journal.trouble import in_plain_words


def raw(journal: Journal) -> sqlite3.Connection:
    return sqlite3.connect(journal.store.file, isolation_level=None)


@pytest.mark.parametrize("table", ["rows", "strands"])
@pytest.mark.parametrize(
    "deed",
    [
        "UPDATE {t} SET {c} = {c}",
        "DELETE FROM {t}",
        "INSERT OR REPLACE INTO {t} SELECT * FROM {t} LIMIT 1",
    ],
)
def test_what_is_written_stays(desk: Any, table: str, deed: str) -> None:
    desk.do("next", unit="stitch")
    connection = raw(desk.journal)
    connection.execute("PRAGMA recursive_triggers = ON")
    before = connection.execute(f"SELECT * FROM {table}").fetchall()
    assert before
    with pytest.raises(sqlite3.IntegrityError, match="kept for ever"):
        connection.execute(deed.format(t=table, c="payload" if table == "rows" else "json"))
    assert connection.execute(f"SELECT * FROM {table}").fetchall() == before
    connection.close()


def damage(journal: Journal, *deeds: str) -> None:
    """Change what the triggers guard, as only a fault or a stranger would."""
    connection = raw(journal)
    for name in ("rows_refuse_update", "rows_refuse_delete", "strands_refuse_update", "strands_refuse_delete"):
        connection.execute(f"DROP TRIGGER {name}")
    for deed in deeds:
        assert connection.execute(deed).rowcount == 1, deed
    connection.close()


@pytest.mark.parametrize(
    ("deed", "said"),
    [
        ("UPDATE rows SET answer = replace(answer, '1', '2') WHERE row = 3", "Row 3 is not what was written."),
        ("UPDATE rows SET wall = '2020-01-01' WHERE row = 4", "Row 4 is not what was written."),
        ("UPDATE rows SET device = 'tablet' WHERE row = 2", "Row 2 is not what was written."),
        ("UPDATE rows SET payload = 'x' WHERE row = 4", "Row 4 is not what was written."),
        ("DELETE FROM rows WHERE row = 3", "Row 4 is not what was written."),
        ("UPDATE strands SET json = replace(json, '\"length\":82', '\"length\":81') WHERE id = 'buoy'",
         "Strand buoy is not what was written."),
        ("UPDATE strands SET json = '' WHERE id = 'buoy'", "Strand buoy is not what was written."),
    ],
)  # fmt: skip
def test_check_finds_what_was_changed(desk: Any, deed: str, said: str) -> None:
    for _ in range(3):
        desk.do("next", unit="stitch")
    assert desk.journal.check() == []
    damage(desk.journal, deed)
    assert said in desk.journal.check()


def test_check_follows_the_rows_to_where_they_lead(desk: Any) -> None:
    """A row whose sum was made anew, by someone who knows how, still leads elsewhere than was acknowledged."""
    from hookside.journal.rows import row_sum

    desk.do("next", unit="stitch")
    connection = raw(desk.journal)
    connection.row_factory = sqlite3.Row
    first, second = (dict(row) for row in connection.execute("SELECT * FROM rows ORDER BY row"))
    second["answer"] = second["answer"].replace('"to":1', '"to":9')
    second["sum"] = row_sum(second, first["sum"])
    connection.close()
    damage(desk.journal, f"UPDATE rows SET answer = '{second['answer']}', sum = '{second['sum']}' WHERE row = 2")
    assert desk.journal.check()[-1] == "Row 2 of making 1 leads elsewhere than was acknowledged."


def test_a_damaged_making_is_said_and_the_others_go_on(desk: Any, reopened: Callable[[], Any]) -> None:
    desk.do("next", unit="stitch")
    damage(desk.journal, "UPDATE rows SET payload = '{' WHERE row = 2")
    first = desk.making
    other = desk.begin()
    later = reopened()
    with pytest.raises(Damaged, match=r"Harbour seal \(making 1\) cannot be followed: row 2 is not what was written"):
        later.journal.snapshot(first)
    assert later.journal.snapshot(other)["id"] == other
    moves = [{**later.move("next", unit="stitch"), "making": making} for making in (first, other)]
    answers = later.send(*moves)
    assert [(a["ok"], a.get("code")) for a in answers] == [(False, "damaged"), (True, None)]
    shelved = {m["id"]: m.get("damaged") for m in later.journal.makings()}
    assert "row 2" in shelved[first]
    assert shelved[other] is None
    assert later.journal.put_away(first) is True
    assert [m["id"] for m in later.journal.makings()] == [other]
    assert later.journal.put_away(first) is False


@pytest.mark.parametrize(
    ("deed", "what"),
    [
        ("UPDATE rows SET sum = 'x' || substr(sum, 2) WHERE row = 3", "row 3"),
        ("UPDATE rows SET answer = replace(answer, '\"to\":2', '\"to\":3') WHERE row = 3", "row 3"),
        ("UPDATE rows SET device = 'tablet' WHERE row = 2", "row 2"),
        ("UPDATE rows SET wall = CAST(x'ff' AS TEXT) WHERE row = 2", "row 2"),
        ("DELETE FROM rows WHERE row = 3", "row 4"),
        ("DELETE FROM rows WHERE row = 1", "row 2"),
        ("DELETE FROM strands WHERE id = 'buoy'", "strand buoy"),
        ("UPDATE strands SET json = replace(json, 'buoy', 'bouy') WHERE id = 'buoy'", "strand buoy"),
        ("UPDATE strands SET json = CAST(x'ff' AS TEXT) || json WHERE id = 'buoy'", "strand buoy"),
    ],
)  # fmt: skip
def test_no_place_is_told_from_what_was_not_written(
    desk: Any, reopened: Callable[[], Any], deed: str, what: str
) -> None:
    for _ in range(3):
        desk.do("next", unit="stitch")
    damage(desk.journal, deed)
    later = reopened()
    with pytest.raises(Damaged, match=f"{what} is not what was written"):
        later.journal.snapshot(desk.making)


def test_a_lost_sum_harms_no_other_making(desk: Any, reopened: Callable[[], Any]) -> None:
    desk.do("next", unit="stitch")
    first, other = desk.making, desk.begin()
    damage(desk.journal, "UPDATE rows SET sum = '' WHERE row = 2")
    later = reopened()
    with pytest.raises(Damaged, match="row 2"):
        later.journal.snapshot(first)
    assert later.journal.snapshot(other)["id"] == other


@pytest.mark.parametrize(
    "deed",
    [
        "DROP TABLE rows", "DROP TABLE settings", "ALTER TABLE rows RENAME TO rovs",
        "UPDATE alembic_version SET version_num = '0q01'", "UPDATE alembic_version SET version_num = '0000'",
        "DROP TABLE alembic_version",
    ],
)  # fmt: skip
def test_a_file_whose_tables_are_not_ours_is_said(desk: Any, folder: Path, deed: str) -> None:
    desk.journal.close()
    connection = sqlite3.connect(folder / FILE)
    connection.execute("PRAGMA foreign_keys = OFF")
    connection.execute(deed)
    connection.commit()
    connection.close()

    def look() -> None:
        opened = Journal.open(folder)
        try:
            opened.maker()
            opened.count_rows()
        finally:
            opened.close()

    with pytest.raises(Damaged, match="is damaged and was left as it is"):
        look()


def test_letters_that_are_none_leave_the_shelf_standing(desk: Any, reopened: Callable[[], Any]) -> None:
    desk.journal.set_maker({"hand": "left"})
    connection = raw(desk.journal)
    for change in ("patterns SET text = text ||", "settings SET value =", "makings SET title = title ||"):
        connection.execute(f"UPDATE {change} CAST(x'ff' AS TEXT)")
    connection.close()
    later = reopened()
    assert later.journal.patterns()[0]["text"] == "demo\ufffd"
    assert later.journal.makings()[0]["title"] == "Harbour seal\ufffd"
    assert later.journal.maker()["hand"] == "right"
    assert later.do("next", unit="stitch")["to"] == 1


def test_random_flips_are_one_sentence_each_or_harmless(desk: Any, folder: Path) -> None:
    for _ in range(40):
        desk.do("next", unit="stitch")
    desk.journal.close()
    whole = (folder / FILE).read_bytes()
    chance = random.Random(4717)
    for n in range(25):
        flipped = bytearray(whole)
        for _ in range(3):
            flipped[chance.randrange(100, len(whole))] ^= 1 << chance.randrange(8)
        later = folder.parent / f"flipped{n}"
        later.mkdir()
        (later / FILE).write_bytes(flipped)
        try:
            opened = Journal.open(later)
        except Trouble as trouble:
            said = trouble.say
        else:
            said = shelf_in_words(opened)
        assert "\n" not in said
        assert not [sign for sign in ("column", "sqlite3", "validation", "Error", "Expecting") if sign in said], said


def shelf_in_words(opened: Journal) -> str:
    """Everything a shelf asks for, and what was said of it."""
    try:
        opened.patterns()
        opened.maker()
        said = " ".join(m.get("damaged", "") for m in opened.makings())
        if not said.strip():
            opened.snapshot(1)
        return said
    except Trouble as trouble:
        return trouble.say
    finally:
        opened.close()


def test_a_journal_that_was_emptied_is_not_written_over(desk: Any, folder: Path) -> None:
    desk.journal.close()
    (folder / FILE).write_bytes(b"")
    (folder / "port").write_text("4717\n")
    with pytest.raises(Damaged, match="something emptied it"):
        Journal.open(folder)
    assert (folder / FILE).read_bytes() == b""


def test_a_first_start_that_was_cut_short_is_begun_again(folder: Path) -> None:
    folder.mkdir()
    (folder / FILE).write_bytes(b"")
    (folder / "hookside.lock").write_text('{"pid": 1}')
    opened = Journal.open(folder)
    assert opened.check() == []
    opened.close()


def test_the_journal_is_made_once(folder: Path) -> None:
    first = Journal.open(folder)
    epoch = first.epoch
    assert len(epoch) == 32
    first.close()
    second = Journal.open(folder)
    assert second.epoch == epoch
    assert second.check() == []
    second.close()
    other = Journal.open(folder / "other")
    assert other.epoch != epoch
    other.close()


def test_migrations_lead_to_the_tables_in_use(journal: Journal) -> None:
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    scripts = ScriptDirectory.from_config(config)
    assert scripts.get_heads() == [HEAD]
    assert [script.revision for script in reversed(list(scripts.walk_revisions()))] == list(REVISIONS)
    seen = inspect(journal.store.engine)
    assert set(seen.get_table_names()) == {*metadata.tables, "alembic_version"}
    for name, table in metadata.tables.items():
        columns = {column["name"]: column["nullable"] for column in seen.get_columns(name)}
        for column in table.columns:
            assert columns.pop(column.name) == (bool(column.nullable) and not column.primary_key) or column.primary_key
        assert columns == {}


def test_a_migration_that_fails_leaves_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import alembic.op

    real, calls = alembic.op.create_table, []

    def breaks(name: str, *columns: Any, **more: Any) -> Any:
        calls.append(name)
        if name == "rows":
            raise RuntimeError("the light went out")
        return real(name, *columns, **more)

    monkeypatch.setattr(alembic.op, "create_table", breaks)
    with pytest.raises(RuntimeError, match="the light went out"):
        Journal.open(folder)
    assert "makings" in calls
    connection = sqlite3.connect(folder / FILE)
    left = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    connection.close()
    assert left <= {"alembic_version", "sqlite_sequence"}
    monkeypatch.undo()
    journal = Journal.open(folder)
    assert journal.check() == []
    journal.close()


def test_a_journal_of_a_later_version(journal: Journal, folder: Path) -> None:
    connection = raw(journal)
    connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()
    journal.close()
    with pytest.raises(TooNew, match="written by a later Hookside") as told:
        Journal.open(folder)
    assert str(folder) in told.value.say


def test_the_disk_is_full(desk: Any) -> None:
    """SQLITE_FULL from SQLite itself, by a bound on the file's pages."""
    desk.do("next", unit="stitch")
    engine = desk.journal.store.engine
    engine.dispose()

    def bound(dbapi: Any, _: Any) -> None:
        dbapi.execute(f"PRAGMA max_page_count = {dbapi.execute('PRAGMA page_count').fetchone()[0]}")

    event.listen(engine, "connect", bound)
    moves = [desk.move("next", unit="stitch") for _ in range(200)]
    with pytest.raises(Full, match="no room left on the disk of"):
        desk.send(*moves)
    # Nothing of the batch was done, neither on disk nor in memory.
    assert desk.at() == 1
    assert desk.journal.count_rows() == 2
    event.remove(engine, "connect", bound)
    engine.dispose()
    assert [a["kind"] for a in desk.send(*moves)].count("move") > 0
    assert desk.journal.check() == []


def test_the_file_may_not_be_written(desk: Any) -> None:
    engine = desk.journal.store.engine
    engine.dispose()

    def forbid(dbapi: Any, _: Any) -> None:
        dbapi.execute("PRAGMA query_only = ON")  # makes SQLite answer SQLITE_READONLY

    event.listen(engine, "connect", forbid)
    with pytest.raises(ReadOnly, match="cannot be written"):
        desk.do("next", unit="stitch")
    assert desk.at() == 0


def test_another_program_holds_the_file(desk: Any) -> None:
    engine = desk.journal.store.engine
    engine.dispose()

    def hasten(dbapi: Any, _: Any) -> None:
        dbapi.execute("PRAGMA busy_timeout = 20")

    event.listen(engine, "connect", hasten)
    other = raw(desk.journal)
    other.execute("BEGIN IMMEDIATE")
    move = desk.move("next", unit="stitch")
    with pytest.raises(Locked, match="Another program holds"):
        desk.send(move)
    other.execute("ROLLBACK")
    other.close()
    assert desk.send(move)[0]["to"] == 1


def test_no_database_at_all(folder: Path) -> None:
    folder.mkdir()
    (folder / FILE).write_bytes(b"a letter to grandmother, not a journal " * 400)
    with pytest.raises(Damaged, match="is damaged") as told:
        Journal.open(folder)
    assert told.value.code == "damaged"


def test_a_truncated_file(desk: Any, folder: Path) -> None:
    for _ in range(50):
        desk.do("next", unit="stitch")
    desk.journal.close()
    whole = (folder / FILE).read_bytes()
    later = folder.parent / "later"
    later.mkdir()
    (later / FILE).write_bytes(whole[: len(whole) // 2 // 4096 * 4096])

    def look() -> None:
        opened = Journal.open(later)
        try:
            opened.makings()
        finally:
            opened.close()

    with pytest.raises(Damaged):
        look()


def test_a_folder_that_is_a_file(tmp_path: Path) -> None:
    (tmp_path / "house").write_text("not a folder")
    with pytest.raises(ReadOnly, match="cannot be used"):
        Journal.open(tmp_path / "house")
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / FILE).mkdir()
    with pytest.raises(Trouble, match="cannot be opened"):
        Journal.open(tmp_path / "other")


@pytest.mark.parametrize("code", [sqlite3.SQLITE_IOERR_SHMSIZE, sqlite3.SQLITE_IOERR_WRITE, sqlite3.SQLITE_CANTOPEN])
def test_a_disk_without_room_is_no_broken_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int) -> None:
    """SQLite speaks of a disk that does not write where its index finds no room (sqlite.org/rescode.html): who took it
    for damage would put an older copy over a sound journal."""

    def failing() -> None:
        error = sqlite3.OperationalError("disk I/O error")
        error.sqlite_errorcode = code
        with in_plain_words(tmp_path / FILE):
            raise error

    room = shutil.disk_usage(tmp_path)
    monkeypatch.setattr(shutil, "disk_usage", lambda _: room._replace(free=4096))
    with pytest.raises(Full, match="no room left on the disk of"):
        failing()
    monkeypatch.setattr(shutil, "disk_usage", lambda _: room._replace(free=1 << 30))
    with pytest.raises((Damaged, ReadOnly)):
        failing()


def test_a_transaction_that_fails_leaves_memory_as_the_disk(desk: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever breaks after moves were decided, what is in memory does not run ahead of what is on disk."""
    from hookside.journal import ledger

    desk.do("next", unit="stitch")
    before = desk.journal.snapshot(desk.making)
    moves = [desk.move("next", unit="stitch") for _ in range(3)]

    def breaks(pen: Any) -> None:
        raise OSError("the cable came out")

    monkeypatch.setattr(ledger.Pen, "put_down", breaks)
    with pytest.raises(OSError, match="cable"):
        desk.send(*moves)
    assert desk.journal.snapshot(desk.making) == before
    monkeypatch.undo()

    def gone(_: Any) -> None:
        raise sqlite3.OperationalError("disk I/O error")

    engine = desk.journal.store.engine
    event.listen(engine, "commit", gone)
    with pytest.raises(Trouble):
        desk.send(*moves)
    event.remove(engine, "commit", gone)
    assert desk.journal.snapshot(desk.making) == before
    assert [a["to"] for a in desk.send(*moves)] == [2, 3, 4]


def test_a_copy_of_the_folder_is_the_same_journal(desk: Any, folder: Path) -> None:
    desk.do("next", unit="round")
    before = desk.journal.snapshot(desk.making)
    desk.journal.close()
    shutil.copytree(folder, folder.parent / "copy")
    copied = Journal.open(folder.parent / "copy")
    assert copied.snapshot(desk.making) == before
    copied.close()
