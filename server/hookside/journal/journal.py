"""The journal: the one writer of a data folder's file, and what the other rooms ask of it."""

from __future__ import annotations

import secrets
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Protocol

from sqlalchemy import Connection, func, select

from hookside.follow import Mend, Order, State, Strand
from hookside.journal import ledger
from hookside.journal.applied import AppliedMoves, applied_moves
from hookside.journal.backups import FOLDER, Backup, backup, offer
from hookside.journal.backups import kept as kept_backups
from hookside.journal.changing import Changing
from hookside.journal.counted import last_count
from hookside.journal.cupboard import Terms
from hookside.journal.laid import keep_strands, sound
from hookside.journal.lineage import last_row, read_branches, shared
from hookside.journal.mends import mends_of
from hookside.journal.migrate import REVISIONS, revision, up_to_date
from hookside.journal.recap import recap
from hookside.journal.recasting import Run
from hookside.journal.store import FILE, Store
from hookside.journal.tables import devices, makings, rows, strays
from hookside.journal.trouble import Damaged, Trouble, Unsound

HISTORY_SHOWN = 50


class Chosen(Protocol):
    """What the maker chose when beginning."""

    @property
    def terms(self) -> Terms | None: ...
    @property
    def hand(self) -> str: ...
    @property
    def order(self) -> Order: ...


def utc_now() -> str:
    """Wall time as rows carry it: shown to the maker, never used for order."""
    return datetime.now(UTC).isoformat(timespec="seconds")


@dataclass(frozen=True, slots=True)
class Bench:
    """A making: its pattern's id, its runs as they lie, their places, strands, mends, and when it was last worked."""

    pattern: str
    runs: list[dict[str, Any]]
    state: State
    strands: Mapping[str, Strand]
    mends: Mapping[str, list[Mend]]
    worked: str | None


class Journal(Changing):
    """Patterns, makings and their rows. Safe to use from several threads; one process per folder.

    Every method raises a Trouble when the file cannot be read or written, and then nothing was changed.
    """

    def __init__(self, store: Store, epoch: str, wall: Callable[[], str]) -> None:
        super().__init__(store, wall)
        self.epoch = epoch
        self._strands_shown: dict[str, dict[str, Any]] = {}

    @classmethod
    def open(cls, folder: Path, wall: Callable[[], str] = utc_now) -> Journal:
        """The journal in a folder, made or brought up to date where needed. Raises Trouble."""
        try:
            if not (folder / FILE).exists() and kept_backups(folder):
                raise Damaged(
                    f"The journal {folder / FILE} is gone, though backups of it are there. "
                    f"To begin with an empty shelf all the same, put the folder {folder / FOLDER} elsewhere."
                )
            store = Store(folder)
            try:
                keep_before_migrating(store, wall())
                return cls(store, up_to_date(store, wall()), wall)
            except BaseException:
                store.close()
                raise
        except Damaged as damaged:
            raise Damaged(f"{damaged.say} {offer(folder)}") from damaged

    def close(self) -> None:
        with self._lock:
            self.store.close()

    # -- makings ------------------------------------------------------------

    def begin(self, pattern_id: str, title: str, laid: Sequence[Run], choices: Chosen) -> int:
        """Begin a making; its id. Raises Unsound for a strand that does not add up."""
        laid_strands = {run.strand.id: run.strand for run in laid}
        sound(laid_strands.values())
        if not laid:
            raise Unsound(f"There is nothing to work in {title or 'this pattern'}.")
        now = self.wall()
        payload = {
            "order": choices.order.model_dump(mode="json"),
            "terms": choices.terms or laid[0].strand.terms,
            "hand": choices.hand,
            "runs": [
                {"run": r.run, "piece": r.piece, "copy": r.copy, "copies": r.copies, "strand": r.strand.id}
                for r in laid
            ],
        }
        with self._lock, self.store.writing() as connection:
            keep_strands(connection, laid_strands.values())
            done = connection.execute(makings.insert().values(pattern=str(pattern_id), title=title, begun=now))
            assert done.inserted_primary_key is not None
            making = int(done.inserted_primary_key[0])
            pen = ledger.Pen(connection)
            pen.write(
                payload, {}, making=making, run="", strand="", id=secrets.token_hex(16), device="", device_seq=0,
                kind="begin", intent="begin", wall=now,
            )  # fmt: skip
            pen.put_down()
        return making

    def makings(self) -> list[dict[str, Any]]:
        """What the shelf shows of each making at hand, the latest worked first."""
        return self._recaps(makings.c.put_away.is_(None))

    def makings_away(self) -> list[dict[str, Any]]:
        """The makings that were put away, as `makings` tells them, the latest worked first."""
        return self._recaps(makings.c.put_away.is_not(None))

    def _recaps(self, which: Any) -> list[dict[str, Any]]:
        with self._lock, self.store.reading() as connection:
            kept = connection.execute(select(makings).where(which)).all()
            told = [(row, *self._recap(connection, row.id)) for row in kept]
        told.sort(key=lambda one: one[1], reverse=True)
        return [
            {"id": row.id, "pattern": row.pattern, "title": row.title, "begun": row.begun, "head": head, **said}
            for row, head, said in told
        ]

    def _recap(self, connection: Connection, making: int) -> tuple[int, dict[str, Any]]:
        """A making's last row and its recap. One that is damaged says so, last of all, and keeps no other away."""
        try:
            standing = self._standing(connection, making)
            assert standing is not None, "its row was just read"
            return standing.head, recap(standing)
        except Damaged as damaged:
            return 0, NO_RECAP | {"damaged": damaged.say}

    def snapshot(self, making: int, device: str | None = None) -> dict[str, Any] | None:
        """All a device needs to follow a making; None where it is not there or was put away."""
        with self._lock, self.store.reading() as connection:
            standing = self._standing(connection, making)
            if standing is None or standing.gone:
                return None
            if any(standing.lacks(run, HISTORY_SHOWN) for run in standing.state.runs):
                self._remember(connection, standing)
            kept = connection.execute(select(makings.c.title, makings.c.pattern).where(makings.c.id == making)).one()
            names = {row.device: row.name for row in connection.execute(select(devices))}
        in_use = {run.strand for run in standing.state.runs.values()}
        asides = [
            {"row": a.row, "device": a.device, "device_name": names.get(a.device, ""), "run": a.run,
             "to": standing.aside_at(a)}
            for a in standing.open_asides()
        ]  # fmt: skip
        return {
            "epoch": self.epoch,
            "id": making,
            "pattern": kept.pattern,
            "title": kept.title,
            "head": standing.head,
            "order": standing.order.model_dump(mode="json"),
            "terms": standing.terms,
            "runs": standing.runs,
            "state": shown(standing.state),
            "strands": {id: self._shown(strand) for id, strand in standing.strands.items() if id in in_use},
            "asides": asides,
            "last": {run: {"device": by, "device_name": names.get(by, "")} for run, by in standing.movers.items()},
            "edited": standing.edited is not None,
            "mends": {
                run: [
                    {
                        "say": one["say"], "course": one["course"],
                        "courses": [told["course"] for told in one["deviations"]],
                    }
                    for one in kept
                ]
                for run, kept in standing.mends.items()
            },
            "choices": dict(standing.choices),
        }

    def choices(self, making: int) -> dict[str, Any] | None:
        """{head, choices} of a making; None where it is not there or was put away."""
        with self._lock, self.store.reading() as connection:
            standing = self._standing(connection, making)
            if standing is None or standing.gone:
                return None
            return {"head": standing.head, "choices": dict(standing.choices)}

    def begun_copies(self, making: int) -> dict[int, int]:
        """How many of each piece, by its number, a making was begun with: what came later is not in it."""
        with self._lock, self.store.reading() as connection:
            standing = self._standing(connection, making)
            runs = standing.start.runs if standing else {}
            return dict(Counter(int(run.split(".")[0][1:]) for run in runs))

    def _shown(self, strand: Strand) -> dict[str, Any]:
        """A strand as devices get it. It never changes, so this is worked out once."""
        if strand.id not in self._strands_shown:
            self._strands_shown[strand.id] = strand.model_dump(mode="json")
        return self._strands_shown[strand.id]

    def put_away(self, making: int) -> bool:
        """Take a making off the shelf; False where it is not there. A damaged one can be put away too.

        Its rows stay; moves for it are kept and answered "gone".
        """
        with self.store.reading() as connection:
            at_hand = (makings.c.id == making) & makings.c.put_away.is_(None)
            if connection.execute(select(makings.c.id).where(at_hand)).first() is None:
                return False
        self._put(making, self.wall())
        return True

    def bring_back(self, making: int) -> bool:
        """Put a making that was put away back on the shelf, at the place it had. False where none is put away."""
        with self.store.reading() as connection:
            away = (makings.c.id == making) & makings.c.put_away.is_not(None)
            if connection.execute(select(makings.c.id).where(away)).first() is None:
                return False
        self._put(making, None)
        return True

    def _put(self, making: int, away: str | None) -> None:
        with self._lock:
            with self.store.writing() as connection:
                connection.execute(makings.update().where(makings.c.id == making).values(put_away=away))
            self._standings.pop(making, None)

    # -- mends ---------------------------------------------------------------

    def bench(self, making: int) -> Bench | None:
        """A making as those see it who mend it; None where it is not there or was put away."""
        with self._lock, self.store.reading() as connection:
            standing = self._standing(connection, making)
            if standing is None or standing.gone:
                return None
            pattern = connection.execute(select(makings.c.pattern).where(makings.c.id == making)).scalar_one()
            mends = {run: mends_of(standing, run) for run in standing.mends}
            return Bench(str(pattern), standing.runs, standing.state, standing.strands, mends, standing.worked)

    def strand(self, id: str) -> Strand:
        """A strand that is kept."""
        with self._lock, self.store.reading() as connection:
            return ledger.read_strands(connection, [id])[id]

    def applied(self, making: int) -> AppliedMoves:
        """The moves of a making that were applied, each with when it was written down."""
        with self._lock, self.store.reading() as connection:
            return applied_moves(connection, making)

    def last_count(self, making: int, run: str) -> dict[str, Any] | None:
        """{n, row, when}: the newest count of a run that its maker stated; None where she stated none."""
        with self._lock, self.store.reading() as connection:
            return last_count(connection, making, run)

    # -- a journal that was restored ----------------------------------------

    def parted(self, making: int, epoch: str, head: int) -> dict[str, Any] | None:
        """What a device that knows `epoch` and row `head` of a making has to be told; None where nothing.

        {known, shared, when, taken}. known: "earlier", this journal comes from that one; "behind", it is the same and
        lacks rows the device has seen; "stranger". Up to row `shared` of the making both are alike.
        """
        with self.store.reading() as connection:
            branches = read_branches(connection)
            now = branches.get(self.epoch)
            when = {"when": now.restored if now else None, "taken": now.taken if now else None}
            if epoch == self.epoch:
                last = last_row(connection, making)
                return None if head <= last else {"known": "behind", "shared": 0, **when}
            alike = shared(branches, self.epoch, epoch)
            if alike is None:
                return {"known": "stranger", "shared": 0, **when}
            return {"known": "earlier", "shared": min(head, last_row(connection, making, alike)), **when}

    def which(self, making: int, ids: Sequence[str]) -> dict[str, int]:
        """Those of some moves of a making that this journal has, with their rows; 0 for one kept as a stray."""
        found: dict[str, int] = {}
        with self.store.reading() as connection:
            wanted = list(ids)
            kept = select(rows.c.id, rows.c.row).where(rows.c.id.in_(wanted), rows.c.making == making)
            found |= {row.id: row.row for row in connection.execute(kept)}
            stray = select(strays.c.id).where(strays.c.id.in_(wanted), strays.c.making == making)
            return dict.fromkeys(connection.execute(stray).scalars(), 0) | found

    # -- looking after ------------------------------------------------------

    def check(self) -> list[str]:
        """What is not as it was written, as sentences; empty when all is well."""
        from hookside.journal.check import check

        with self._lock, self.store.reading() as connection:
            return check(connection)

    def backups(self) -> list[Backup]:
        """The backups that were made by themselves, newest first."""
        return kept_backups(self.store.file.parent)

    def count_rows(self) -> int:
        with self.store.reading() as connection:
            return int(connection.execute(select(func.count()).select_from(rows)).scalar_one())


NO_RECAP: dict[str, Any] = {
    "worked": None, "terms": "US", "in_hand": None, "finished": False, "asides": 0, "edited": False,
}  # fmt: skip


def shown(state: State) -> dict[str, Any]:
    """A state as devices get it: of each run's history the newest 50 moves."""
    cut = {name: run.model_copy(update={"history": run.history[-HISTORY_SHOWN:]}) for name, run in state.runs.items()}
    return state.model_copy(update={"runs": cut}).model_dump(mode="json")


def keep_before_migrating(store: Store, wall: str) -> None:
    """A journal of an earlier version is kept as it is, before its tables are changed. Raises Damaged."""
    if not store.file.is_file():
        return
    with store.reading() as connection:
        found = revision(connection)
    if found in REVISIONS[:-1]:
        with suppress(Trouble):  # what is damaged is said when it is asked for; changing the tables loses nothing
            (store.file.parent / FOLDER).mkdir(mode=0o700, exist_ok=True)
            backup(store.file, store.file.parent / FOLDER / f"before-{REVISIONS[-1]}.sqlite", wall, over=True)
