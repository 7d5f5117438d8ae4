"""What lies under a making is changed, by another text, a choice or a mend: each a row of its own."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, select

from hookside.follow import Mend, Strand
from hookside.journal import ledger
from hookside.journal.choices import CHANGE_STEPS
from hookside.journal.cupboard import Terms
from hookside.journal.laid import keep_strands, sound
from hookside.journal.recasting import Run, moved, plan
from hookside.journal.recasting import shown as shown_plan
from hookside.journal.tables import makings, patterns
from hookside.journal.taking import Taking
from hookside.journal.trouble import Damaged, MovedOn


class Changing(Taking):
    """The part of a journal that lays other strands under makings. No place moves unless its maker is told."""

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
        """{pattern, order, choices, chosen, head, anyway}: what a making has not answered; None where nothing is asked.

        The pattern whose text is to be laid anew, by which order and choices; `chosen` names those of them that ask.
        `anyway`: it was begun although something in it can't be followed, and goes on so.
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
                "anyway": any(
                    cue.is_doubt for run in standing.state.runs.values() for cue in standing.strands[run.strand].cues
                ),
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
        sound({one.strand.id: one.strand for one in laid}.values())
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
                keep_strands(connection, [*going_on, *(one.strand for _, one in made.added)])
                connection.execute(makings.update().where(makings.c.id == making).values(pattern=standing.edited))
                pen = ledger.Pen(connection)
                row = self._write(pen, making, "recast", "recast", payload)
                pen.put_down()
            self._standings.pop(making, None)
            return row

    def put_on(self, making: int, run: str, at: int, new: Strand, to: int, mends: Sequence[Mend]) -> int:
        """Put a run that stands at step `at` on a mended strand, at its step `to`; the making's new last row.

        `mends`: all that the strand carries; none where it is as it was laid. Raises MovedOn where the run stands
        elsewhere or the making asks something first, Unsound.
        """
        sound([new])
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
                keep_strands(connection, [new])
                pen = ledger.Pen(connection)
                row = self._write(pen, making, "recast", "mend", payload)
                pen.put_down()
            self._standings.pop(making, None)
            return row
