"""Rows in the file: appending them, finding them again, and replaying them into where a making stands."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from sqlalchemy import Connection, and_, bindparam, null, or_, select, union_all

from hookside.follow import Applied, Intent, Order, State, Strand, apply, begin
from hookside.journal.rows import BEFORE_THE_FIRST, compact, row_sum, text_sum
from hookside.journal.standing import Aside, Standing, recast_by
from hookside.journal.tables import makings, rows, strands, strays

APPLIED = ("move", "settle")
CHANGED = (*APPLIED, "recast")  # kinds of rows that change a state
COLUMNS = {"making", "run", "strand", "id", "device", "device_seq", "intent"}  # of a move that have their own
ONLY_THE_MOVE = {"base", "backlog"}  # of a payload that are no part of the intent


# What every move asks: built once, because building them takes longer than SQLite takes to answer.
LAST = select(rows.c.row, rows.c.sum).order_by(rows.c.row.desc()).limit(1)
INSERT = rows.insert()
IDS: Any = bindparam("ids", expanding=True)
KNOWN = union_all(
    select(rows.c.id, rows.c.device, rows.c.answer, null()).where(rows.c.id.in_(IDS)),
    select(strays.c.id, strays.c.device, null(), strays.c.move).where(strays.c.id.in_(IDS)),
)


class NotAsWritten(Exception):
    """Something of a making is not what was written; the text names it."""


def intent_of(row: Any) -> Intent:
    """The intent a row carries."""
    payload = {key: value for key, value in json.loads(row.payload).items() if key not in ONLY_THE_MOVE}
    return Intent(intent=row.intent, run=row.run, id=row.id, **payload)


def changed(state: State, strands: Mapping[str, Strand], row: Any) -> State | None:
    """The state after a row that was applied; None where it does not apply, which no row that was written does."""
    if row.kind == "recast":
        return recast_by(state, strands, row.row, json.loads(row.payload))
    done = apply(state, strands, row.row, intent_of(row))
    return done.state if isinstance(done, Applied) else None


def strands_of_recast(payload: Mapping[str, Any]) -> set[str]:
    """The strands that a recast row puts runs on."""
    return {one["strand"] for one in (*payload["moved"], *payload["added"])}


class Pen:
    """Writes rows behind the last one of an open writing transaction, all at once at its end."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        last = connection.execute(LAST).first()
        self.row: int = last.row if last else 0
        self.sum: str = last.sum if last else BEFORE_THE_FIRST
        self.waiting: list[dict[str, Any]] = []

    def next_row(self) -> int:
        return self.row + 1

    def write(self, payload: Any, answer: Any, **columns: Any) -> None:
        row = {**columns, "row": self.next_row(), "payload": compact(payload), "answer": compact(answer)}
        row["sum"] = row_sum(row, self.sum)
        self.row, self.sum = row["row"], row["sum"]
        self.waiting.append(row)

    def put_down(self) -> None:
        if self.waiting:
            self.connection.execute(INSERT, self.waiting)
            self.waiting = []


def known_answers(connection: Connection, ids: Iterable[str]) -> dict[str, tuple[str, dict[str, Any]]]:
    """Moves that came before, by id: the device of each, and the answer it was given."""
    wanted = list(ids)
    if not wanted:
        return {}
    return {
        id: (device, json.loads(answer) if answer is not None else gone(json.loads(move)))
        for id, device, answer, move in connection.execute(KNOWN, {"ids": wanted})
    }


def gone(move: Mapping[str, Any]) -> dict[str, Any]:
    """The answer to a move for a making that this journal does not have."""
    return {
        "ok": True, "id": move["id"], "row": 0, "kind": "refused", "code": "gone", "run": move["run"],
        "from": 0, "to": 0, "passed": [], "head": 0, "in_hand": None, "asides": 0,
    }  # fmt: skip


def keep_stray(connection: Connection, move: Mapping[str, Any], wall: str) -> dict[str, Any]:
    """Keep a move whose making is not there, and the answer to it."""
    text = compact(move)
    stray = {"id": move["id"], "device": move["device"], "making": move["making"], "move": text, "wall": wall}
    connection.execute(strays.insert().values(**stray, sum=stray_sum(stray)))
    return gone(move)


def stray_sum(stray: Mapping[str, Any]) -> str:
    """The checksum of a stray: over its columns. Strays stand each for itself."""
    return text_sum(compact([stray[column] for column in ("id", "device", "making", "move", "wall")]))


def read_strands(connection: Connection, ids: Iterable[str]) -> dict[str, Strand]:
    """Strands by id. Raises NotAsWritten."""
    wanted = list(ids)
    found = connection.execute(select(strands).where(strands.c.id.in_(wanted))).all()
    for row in found:
        if text_sum(row.json) != row.sum:
            raise NotAsWritten(f"strand {row.id}")
    for id in set(wanted) - {row.id for row in found}:
        raise NotAsWritten(f"strand {id}")
    return {row.id: Strand.model_validate_json(row.json) for row in found}


def at_hand(connection: Connection, ids: set[str], known: dict[str, Strand] | None) -> dict[str, Strand]:
    """Strands by id, each read once for all that share `known`. Raises NotAsWritten."""
    if known is None:
        return read_strands(connection, ids)
    if ids - known.keys():
        known |= read_strands(connection, ids - known.keys())
    return {id: known[id] for id in ids}


def read_standing(connection: Connection, making: int, known: dict[str, Strand] | None = None) -> Standing | None:
    """Where a making stands, by replay of its rows; None where there is no such making.

    Each row is held against its sum, and so is each strand: a place is only told from what was written. Strands in
    `known` are taken from there, and read ones put there: makings of one pattern share them.
    Raises NotAsWritten, and whatever replay runs into where the sums were made to fit.
    """
    kept = connection.execute(select(makings).where(makings.c.id == making)).first()
    if kept is None:
        return None
    before = rows.alias("before")
    written = connection.execute(
        select(rows, before.c.sum.label("sum_before"))
        .outerjoin(before, before.c.row == rows.c.row - 1)
        .where(rows.c.making == making)
        .order_by(rows.c.row)
    )
    standing: Standing | None = None
    for row in written:
        if row_sum(row._asdict(), row.sum_before or BEFORE_THE_FIRST) != row.sum and not _fits(connection, row):
            raise NotAsWritten(f"row {row.row}")
        payload = json.loads(row.payload)
        if row.kind == "begin":
            runs: list[dict[str, Any]] = payload["runs"]
            laid = at_hand(connection, {run["strand"] for run in runs}, known)
            start = begin([(run["run"], run["strand"]) for run in runs], laid, row.row)
            standing = Standing(
                id=making,
                pattern=kept.pattern,
                begun_in=Order.model_validate(payload["order"]),
                runs=runs,
                begun_terms=payload["terms"],
                strands=laid,
                start=start,
                state=start,
                head=row.row,
                gone=kept.put_away is not None,
            )
            continue
        if standing is None:
            raise NotAsWritten("its beginning")
        standing.head = row.row
        if row.kind in APPLIED:
            state = changed(standing.state, standing.strands, row)
            if state is None:
                raise NotAsWritten(f"row {row.row}")
            standing.taken(row.row, row.run, row.device, state, row.wall, None)
        if row.kind == "recast":
            standing.recast(row.row, payload, at_hand(connection, strands_of_recast(payload), known))
        if row.kind == "choice":
            match row.intent:
                case "choose":
                    standing.chose(row.row, payload["choices"])
                case "edited":
                    standing.edited = payload["pattern"]
                case "stay":
                    standing.stayed(row.row, payload.get("choices", []))
        if row.kind == "settle":
            standing.settled(payload.get("asides", []))
        if row.kind == "aside":
            to = json.loads(row.answer)["to"]
            standing.asides.append(Aside(row.row, row.device, row.run, to, payload["base"], row.strand))
    if standing is None:
        raise NotAsWritten("its beginning")
    return standing


def _fits(connection: Connection, row: Any) -> bool:
    """Whether a row is as it was written although the one before it lost its sum: damage goes no further than it is."""
    two = connection.execute(select(rows).where(rows.c.row.in_((row.row - 2, row.row - 1))).order_by(rows.c.row)).all()
    if not two or two[-1].row != row.row - 1:
        return False
    first = two[0].sum if len(two) == 2 else BEFORE_THE_FIRST
    return bool(row_sum(row._asdict(), row_sum(two[-1]._asdict(), first)) == row.sum)


def view_of(connection: Connection, standing: Standing, device: str, base: int) -> State:
    """The making as a device saw it that knew rows up to `base` and made its own moves after that."""
    own = and_(rows.c.device == device, rows.c.row > base)
    written = connection.execute(
        select(rows)
        .where(rows.c.making == standing.id)
        .where(or_(and_(rows.c.kind.in_(CHANGED), or_(rows.c.row <= base, own)), and_(rows.c.kind == "aside", own)))
        .order_by(rows.c.row)
    )
    state = standing.start
    for row in written:
        state = changed(state, standing.strands, row) or state  # what the device did aside may not apply here
    return state
