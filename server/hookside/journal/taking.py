"""Taking moves: what becomes of each, one transaction at a time, and where the makings stand meanwhile."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from typing import Any

from sqlalchemy import Connection, select

from hookside.follow import Applied, State, Strand, apply
from hookside.journal import ledger
from hookside.journal.backups import quoted
from hookside.journal.choices import all_chosen, too_many
from hookside.journal.cupboard import Cupboard
from hookside.journal.moves import Choosing, Move, read_move
from hookside.journal.standing import Aside, Standing
from hookside.journal.store import Store
from hookside.journal.tables import makings
from hookside.journal.trouble import Damaged, Trouble, in_plain_words

MOST_MOVES = 500  # in one transaction
AHEAD = {"ok": False, "code": "ahead", "say": "This device knows moves that are not in the journal. Nothing was taken."}
TAKEN_ID = {"ok": False, "code": "id", "say": "The id of this move was already used by another device."}


class Taking(Cupboard):
    """The part of a journal that moves go to. What is held in memory is a cache of the rows."""

    def __init__(self, store: Store, wall: Callable[[], str]) -> None:
        super().__init__(store, wall)
        self._standings: dict[int, Standing] = {}
        self._strands: dict[str, Strand] = {}  # that are in use, each once

    def moves(self, raw: Sequence[Any], now: float) -> list[dict[str, Any]]:
        """Decide on moves in their order, in one transaction, and answer each.

        The answers may be passed on: when this returns, what they acknowledge is on disk.

        Args:
            raw: at most 500 moves of one device as they arrived.
            now: seconds of a monotonic clock, the same one at each call.
        """
        return self.moves_of([raw], now)[0]

    def moves_of(self, asked: Sequence[Sequence[Any]], now: float) -> list[list[dict[str, Any]]]:
        """As `moves`, for what several devices sent at the same time: one transaction for all of them."""
        if sum(map(len, asked)) > MOST_MOVES:
            raise ValueError(f"{sum(map(len, asked))} moves in one transaction; {MOST_MOVES} are the most")
        read = [[read_move(one) for one in raw] for raw in asked]
        with self._lock:
            drafts: dict[int, Standing] = {}
            try:
                with self.store.writing() as connection:
                    ids = {move.id for moves in read for move in moves if not isinstance(move, dict)}
                    known = ledger.known_answers(connection, ids)
                    pen = ledger.Pen(connection)
                    answers = [self._answers(connection, pen, drafts, known, moves, now) for moves in read]
                    pen.put_down()
            except BaseException:
                # The transaction may or may not be on disk: what is in memory of these makings is asked anew.
                for making in drafts:
                    self._standings.pop(making, None)
                raise
            for draft in drafts.values():
                draft.forget()
            self._standings |= drafts
        return answers

    def _answers(
        self,
        connection: Connection,
        pen: ledger.Pen,
        drafts: dict[int, Standing],
        known: dict[str, tuple[str, dict[str, Any]]],
        moves: Sequence[Move | Choosing | dict[str, Any]],
        now: float,
    ) -> list[dict[str, Any]]:
        """The answers to one device. `known` are moves that were answered before, and gets these."""
        if self._ahead(connection, [m for m in moves if not isinstance(m, dict) and m.id not in known]):
            return [move if isinstance(move, dict) else AHEAD for move in moves]
        answers = []
        for move in moves:
            if isinstance(move, dict):
                answers.append(move)
                continue
            if move.id not in known:
                known[move.id] = (move.device, self._decide(connection, pen, drafts, move, now))
            device, answer = known[move.id]
            kind = answer.get("kind", "refused")  # none where the making itself is damaged
            alike = (kind == "choice") == isinstance(move, Choosing) or kind == "refused"
            answers.append(answer if device == move.device and alike else TAKEN_ID)
        return answers

    def _ahead(self, connection: Connection, moves: Iterable[Move | Choosing]) -> bool:
        """Whether a device knows rows that are not here: then nothing of it is taken before the maker was asked."""
        newest: dict[int, int] = {}
        for move in moves:
            newest[move.making] = max(newest.get(move.making, 0), move.base)
        for making, base in newest.items():
            with suppress(Damaged):
                standing = self._standing(connection, making)
                if standing is not None and base > standing.head:
                    return True
        return False

    def _decide(
        self, connection: Connection, pen: ledger.Pen, drafts: dict[int, Standing], move: Move | Choosing,
        now: float,
    ) -> dict[str, Any]:  # fmt: skip
        spare = isinstance(move, Move)  # a choice of nothing says so
        standing = drafts.get(move.making)
        if standing is None:
            try:
                held = self._standing(connection, move.making)
            except Damaged as damaged:  # one making; moves of the others in the same batch go on
                return {"ok": False, "code": damaged.code, "say": damaged.say}
            if held is None:
                return ledger.keep_stray(connection, move.model_dump(mode="json", exclude_none=spare), self.wall())
            standing = drafts[move.making] = held.draft()
        row, wall = pen.next_row(), self.wall()
        if isinstance(move, Choosing):
            kind, said = self._choose(standing, move, row)
        else:
            kind, said = self._try(connection, pen, standing, move, wall, now)
        standing.head = row
        here = standing.state.runs.get(move.run)
        at = here.at if here else 0
        answer = {
            "ok": True, "id": move.id, "row": row, "kind": kind, "run": move.run, "from": at, "to": at, "passed": [],
            "head": row, "in_hand": standing.state.in_hand, "asides": len(standing.open_asides()), **said,
        }  # fmt: skip
        payload = move.model_dump(mode="json", exclude_none=spare, exclude=ledger.COLUMNS)
        pen.write(
            payload, answer, making=move.making, run=move.run, strand=move.strand, id=move.id,
            device=move.device, device_seq=move.device_seq, kind=kind, intent=move.intent, wall=wall,
        )  # fmt: skip
        return answer

    def _choose(self, standing: Standing, asked: Choosing, row: int) -> tuple[str, dict[str, Any]]:
        """Take a choice into a draft, or refuse it. It is never laid aside: the last one counts."""
        if standing.gone:
            return "refused", {"code": "gone"}
        choices = [one.model_dump() for one in asked.choices]
        if too_many(all_chosen(standing.choices, choices)):
            return "refused", {"code": "full"}
        return "choice", {"asks": standing.chose(row, choices)}

    def _try(
        self, connection: Connection, pen: ledger.Pen, standing: Standing, move: Move, wall: str, now: float
    ) -> tuple[str, dict[str, Any]]:
        """Apply a move to a draft, or lay it aside, or refuse it: the row's kind and what the answer says of it."""
        row = pen.next_row()
        if standing.gone:
            return "refused", {"code": "gone"}
        settles = move.intent == "settle"
        if settles and not standing.knows_aside(move.asides):
            return "refused", {"code": "settled"}
        here = standing.state.runs.get(move.run)
        if settles and here is not None and here.strand != move.strand:
            return "refused", {"code": "recast"}  # its step is one of the strand that was left
        aside = not settles and move.run in standing.state.runs and not standing.fits(move, now)
        if aside:
            pen.put_down()  # rows of this batch are part of what the device knows
        elif move.intent == "undo" and standing.lacks(move.run, 1):
            pen.put_down()
            self._remember(connection, standing)
        state = self._view(connection, standing, move) if aside else standing.state
        done = apply(state, standing.strands, row, move)
        if not isinstance(done, Applied):
            return "refused", {"code": done.code}
        said = done.outcome.model_dump(mode="json")
        if aside:
            seen = Aside(row, move.device, move.run, done.outcome.to, move.base, state.runs[move.run].strand)
            standing.laid_aside(seen, done.state)
            return "aside", said
        standing.taken(row, move.run, move.device, done.state, wall, now)
        if settles:
            standing.settled(move.asides or [])
        return "settle" if settles else "move", said

    def _view(self, connection: Connection, standing: Standing, move: Move) -> State:
        """The making as the device of a move sees it, with its earlier asides that it has not been told of."""
        own = [aside for aside in standing.asides if aside.device == move.device]
        untold = bool(own) and move.base < own[-1].row
        if untold and move.base <= own[-1].base and move.device in standing.views:
            return standing.views[move.device]  # it has learnt nothing since, of another strand for one
        base = max(own[-1].base, move.base) if untold else move.base
        return ledger.view_of(connection, standing, move.device, base)

    def _remember(self, connection: Connection, standing: Standing) -> None:
        """Read again what could be undone of a making, as it stands in this transaction."""
        fresh = self._read(connection, standing.id)
        assert fresh is not None, "it stands"
        standing.remembered(fresh.state)

    def _standing(self, connection: Connection, making: int) -> Standing | None:
        held = self._standings.get(making)
        if held is None:
            held = self._read(connection, making)
            if held is not None:
                held.forget()
                self._standings[making] = held
        return held

    def _read(self, connection: Connection, making: int) -> Standing | None:
        """A making from its rows. Raises Damaged."""
        try:
            with in_plain_words(self.store.file):
                return ledger.read_standing(connection, making, self._strands)
        except Trouble:
            raise
        except Exception as error:  # what was damaged with its sum can be anything
            raise self._damaged(connection, making, error) from error

    def _damaged(self, connection: Connection, making: int, error: Exception) -> Damaged:
        what = str(error) if isinstance(error, ledger.NotAsWritten) else "one of its rows"
        title = connection.execute(select(makings.c.title).where(makings.c.id == making)).scalar()
        return Damaged(
            f"{title or 'This making'} (making {making}) cannot be followed: {what} is not what was written. "
            "It was left as it is, and the others go on. Stop Hookside and look at what is there with: hookside check "
            f"--folder {quoted(self.store.file.parent)}, or put this making away and begin it anew."
        )
