"""The journal: the one writer of a data folder's file, and what the other rooms ask of it."""

from __future__ import annotations

import secrets
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Protocol

from sqlalchemy import Connection, func, select

from hookside.follow import Mend, Order, State, Strand, flaws
from hookside.journal import ledger
from hookside.journal.applied import AppliedMoves, applied_moves
from hookside.journal.backups import FOLDER, Backup, backup, offer
from hookside.journal.backups import kept as kept_backups
from hookside.journal.choices import CHANGE_STEPS
from hookside.journal.counted import last_count
from hookside.journal.cupboard import Terms
from hookside.journal.lineage import last_row, read_branches, shared
from hookside.journal.mends import mends_of
from hookside.journal.migrate import REVISIONS, revision, up_to_date
from hookside.journal.recap import recap
from hookside.journal.recasting import Run, moved, plan
from hookside.journal.recasting import shown as shown_plan
from hookside.journal.rows import text_sum
from hookside.journal.store import FILE, Store
from hookside.journal.tables import devices, makings, patterns, rows, strands, strays
from hookside.journal.taking import Taking
from hookside.journal.trouble import Damaged, MovedOn, Trouble, Unsound

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


class Journal(Taking):
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
        _sound(laid_strands.values())
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
            _keep_strands(connection, laid_strands.values())
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
                run: [{"say": one["say"], "course": one["course"]} for one in kept]
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

    # -- a pattern that was changed -----------------------------------------

    def update_pattern(self, id: str, text: str, terms: Terms | None) -> list[tuple[int, int]]:
        """Another text for a pattern. Makings under way keep the strands they have, and ask.

        Returns their ids, each with its new last row.
        """
        with self._lock, self.store.writing() as connection:
            kept = connection.execute(select(patterns.c.text, patterns.c.terms).where(patterns.c.id == str(id))).first()
            connection.execute(patterns.update().where(patterns.c.id == str(id)).values(text=text, terms=terms))
            same = kept is not None and (kept.text, kept.terms) == (text, terms)
            return [] if same else self._edited(connection, str(id), str(id))

    def edited_copy(self, of: str, id: str) -> list[tuple[int, int]]:
        """Pattern `of` was changed by putting a changed copy `id` on the shelf; as `update_pattern`."""
        with self._lock, self.store.writing() as connection:
            return self._edited(connection, str(of), str(id))

    def _edited(self, connection: Connection, of: str, id: str) -> list[tuple[int, int]]:
        pen = ledger.Pen(connection)
        told, drafts = [], {}
        for making in connection.execute(select(makings.c.id).where(makings.c.pattern == of)).scalars().all():
            try:
                standing = self._standing(connection, making)
            except Damaged:
                continue
            if standing is None or standing.finished:
                continue
            draft = drafts[making] = standing.draft()
            draft.edited, draft.head = id, self._write(pen, making, "choice", "edited", {"pattern": id})
            told.append((making, draft.head))
        pen.put_down()
        for making in drafts:
            self._standings.pop(making, None)  # read again when asked for: this transaction is not yet on disk
        return told

    def _write(self, pen: ledger.Pen, making: int, kind: str, intent: str, payload: dict[str, Any]) -> int:
        """A row that no device sent; its number."""
        pen.write(
            payload, {}, making=making, run="", strand="", id=secrets.token_hex(16), device="", device_seq=0,
            kind=kind, intent=intent, wall=self.wall(),
        )  # fmt: skip
        return pen.row

    def asking(self, making: int) -> dict[str, Any] | None:
        """{pattern, order, choices, chosen, head}: what a making has not answered; None where nothing is asked.

        The pattern whose text is to be laid anew, by which order and choices; `chosen` names those of them that ask.
        """
        with self._lock, self.store.reading() as connection:
            standing = self._standing(connection, making)
            if standing is None or standing.gone or standing.edited is None:
                return None
            return {
                "pattern": standing.edited,
                "order": standing.order,
                "choices": {name: standing.choices[name] for name in CHANGE_STEPS if name in standing.choices},
                "chosen": sorted(standing.doubted),
                "head": standing.head,
            }

    def proposal(self, making: int, laid: Sequence[Run]) -> dict[str, Any] | None:
        """What the changed text, laid, means for a making: recasting.shown, with its head. None: nothing differs."""
        with self._lock, self.store.reading() as connection:
            standing = self._standing(connection, making)
            if standing is None:
                return None
            made = plan(standing, laid)
            return None if made.nothing else {"head": standing.head, **shown_plan(made, bool(standing.doubted))}

    def stay(self, making: int, keep: bool = False, head: int | None = None) -> int:
        """The making goes on with the steps it has; its new last row. Raises MovedOn where it is not at row `head` any
        more: what is asked by now may be another question than the one that was answered.

        Choices that asked are as they were before them, unless they are to be kept: then they changed nothing.
        """
        with self._lock:
            with self.store.writing() as connection:
                standing = self._standing(connection, making)
                if head is not None and (standing is None or standing.head != head):
                    raise MovedOn("This making was moved on meanwhile. Look at the question once more.")
                doubted = {} if standing is None or keep else standing.doubted
                back = [{"choice": name, "value": doubted[name]} for name in sorted(doubted)]
                pen = ledger.Pen(connection)
                row = self._write(pen, making, "choice", "stay", {"choices": back} if back else {})
                pen.put_down()
            self._standings.pop(making, None)
            return row

    def reworded(self, making: int, laid: Sequence[Run]) -> int:
        """A choice that left every step as it was, laid: other words at most. The making's new last row."""
        with self._lock:
            with self.store.reading() as connection:
                standing = self._standing(connection, making)
            if standing is not None and standing.doubted and plan(standing, laid, words=True).going:
                done = self.recast(making, laid, {}, standing.head)
                if isinstance(done, int):
                    return done
            return self.stay(making, keep=True)

    def recast(self, making: int, laid: Sequence[Run], places: dict[str, int], head: int) -> int | list[str]:
        """Put a making's runs on the strands of the changed text; its new last row.

        `places` are the maker's words on where runs are; a list of runs is returned where her word is missing, and
        nothing is done. Raises MovedOn where the making is not at row `head` any more, Unsound.
        """
        _sound({one.strand.id: one.strand for one in laid}.values())
        with self._lock:
            with self.store.writing() as connection:
                standing = self._standing(connection, making)
                if standing is None or standing.edited is None or standing.head != head:
                    raise MovedOn("This making was moved on meanwhile. Look at the question once more.")
                made = plan(standing, laid, words=bool(standing.doubted))
                going, asked = moved(made, places)
                if asked:
                    return asked
                for one, to in zip(made.going, going, strict=True):
                    if not 0 <= to.to <= one.new.length:
                        return [one.run]
                payload = {
                    "pattern": standing.edited,
                    "moved": [{**to.model_dump(), "from_strand": one.old.id, "from": one.at}
                              for one, to in zip(made.going, going, strict=True)],
                    "added": [{"run": run, "piece": one.piece, "copy": one.copy, "copies": one.copies,
                               "strand": one.strand.id} for run, one in made.added],
                    "order": made.order,
                    "mends": {one.run: [mend.model_dump(mode="json") for mend in one.mends]
                              for one in made.going if one.mends},
                }  # fmt: skip
                going_on = [strand for one in made.going for strand in (one.new, one.laid)]
                _keep_strands(connection, [*going_on, *(one.strand for _, one in made.added)])
                connection.execute(makings.update().where(makings.c.id == making).values(pattern=standing.edited))
                pen = ledger.Pen(connection)
                row = self._write(pen, making, "recast", "recast", payload)
                pen.put_down()
            self._standings.pop(making, None)
            return row

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

    def put_on(self, making: int, run: str, at: int, new: Strand, to: int, mends: Sequence[Mend]) -> int:
        """Put a run that stands at step `at` on a mended strand, at its step `to`; the making's new last row.

        `mends`: all that the strand carries; none where it is as it was laid. Raises MovedOn where the run stands
        elsewhere or the making asks something first, Unsound.
        """
        _sound([new])
        with self._lock:
            with self.store.writing() as connection:
                standing = self._standing(connection, making)
                state = None if standing is None else standing.state.runs.get(run)
                if standing is None or state is None or standing.gone or state.at != at:
                    raise MovedOn("This making was moved on meanwhile. Count once more from where it is now.")
                if standing.edited is not None:
                    raise MovedOn("The bench asks first whether you go on by what was changed. Answer that, then mend.")
                payload = {
                    "moved": [{"run": run, "strand": new.id, "to": to, "from_strand": state.strand, "from": at}],
                    "added": [],
                    "order": [one["run"] for one in standing.runs],
                    "mends": {run: [mend.model_dump(mode="json") for mend in mends]},
                }
                _keep_strands(connection, [new])
                pen = ledger.Pen(connection)
                row = self._write(pen, making, "recast", "mend", payload)
                pen.put_down()
            self._standings.pop(making, None)
            return row

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
REPORT = "This is a mistake of Hookside's reading; please tell its authors, with the pattern."


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


def _sound(laid: Iterable[Strand]) -> None:
    """Raises Unsound for a strand that does not add up."""
    for strand in laid:
        wrong = flaws(strand)
        if wrong:
            raise Unsound(f"{strand.piece or 'This piece'} cannot be begun: {'; '.join(wrong)}. {REPORT}")


def _keep_strands(connection: Connection, laid: Iterable[Strand]) -> None:
    """Keep strands that are not kept yet. One id never stands for two lines of steps."""
    for strand in laid:
        text = strand.model_dump_json()
        kept = connection.execute(select(strands.c.json).where(strands.c.id == strand.id)).scalar()
        if kept is None:
            connection.execute(strands.insert().values(id=strand.id, json=text, sum=text_sum(text)))
        elif Strand.model_validate_json(kept) != strand:
            raise Unsound(f"{strand.piece or 'This piece'} cannot be begun: its steps are known otherwise. {REPORT}")
