"""Devices that lose answers, send twice and out of turn, at a journal that is restarted, changed and restored.

A model of the page keeps what is confirmed, what waits and what was acknowledged, as the page does; between it and the
journal lie messages that may be dropped, delivered twice, late or out of order. What must hold whatever happens:

- within one journal a move has one answer for ever, and what was acknowledged is there;
- a restored journal has exactly what its backup had; a device that knows more is told so, and what it puts back is
  there once;
- what is held in memory is what a replay of the rows gives, and `check` finds nothing.
"""

from __future__ import annotations

import shutil
import tempfile
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from types import SimpleNamespace
from typing import Any, ClassVar

from desk import RUNS, STRANDS, choices, laid
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule
from laying import Cue, Round, group, lay, times

from hookside.follow import Applied, Intent, State, apply
from hookside.journal import FILE, Journal, ledger, standing
from hookside.journal.backups import backup
from hookside.journal.restore import restore

standing.HISTORY_HELD = 3  # so few that undoing comes to what has to be read again

DEVICES = ("phone", "tablet")
NOT_OF_INTENT = {"device", "device_seq", "making", "strand", "base", "backlog"}
NOW = "2026-11-25T18:02:00+00:00"
MAKING = 1
HOW = ("arrives", "arrives", "waits", "is late", "comes twice", "loses its answer")
FATES = ("send", "arrive", "arrive and stay", "drop")
CHOSEN = (
    ("yarn", "red"), ("yarn", None), ("spiral", True), ("spiral", None),
    ("tick", {"list": "gather", "item": "hook", "on": True}),
    ("note", {"note": "a", "run": "p3.c1", "step": 3, "text": "tight", "when": ""}),
)  # fmt: skip
MEANWHILE = ("1 s", "6 s", "6 s", "restart", "backup", "restore")


def another(name: str, third: int, rounds: int) -> Any:
    """The small buoy as it reads after a change."""
    return lay(
        name,
        [
            Round("1", [group("ring"), group("sc", 6)]), Round("2", [group("inc", 6)]),
            Round("3", [times(6, group("sc", third), group("inc"))]),
            *(Round(str(4 + n), [group("sc", 6 * third + 12)], plain=True) for n in range(rounds)),
            Cue("stop", "stuff"), Round(str(4 + rounds), [group("sc", 6)]),
        ],
    )  # fmt: skip


TEXTS = [STRANDS["buoy"], another("buoy2", 1, 3), another("buoy3", 2, 2)]


@dataclass
class Message:
    """A batch on its way: what was sent, and by whom."""

    device: str
    epoch: str
    moves: list[dict[str, Any]]


@dataclass
class Page:
    """What a page knows."""

    name: str
    epoch: str = ""
    head: int = 0
    confirmed: State | None = None
    strands: dict[str, Any] = field(default_factory=dict)
    waiting: list[dict[str, Any]] = field(default_factory=list)
    acknowledged: dict[str, tuple[dict[str, Any], int]] = field(default_factory=dict)  # id: the move, its row
    apart: set[str] = field(default_factory=set)  # not put back after a restore: the maker went on from there
    seq: int = 0

    def adopt(self, journal: Journal) -> None:
        snapshot = journal.snapshot(MAKING, self.name)
        assert snapshot is not None
        self.epoch, self.head = snapshot["epoch"], snapshot["head"]
        self.confirmed = State.model_validate(snapshot["state"])

    def visible(self) -> State:
        state = self.confirmed
        assert state is not None
        for move in self.waiting:
            if move["intent"] == "choose":
                continue  # touches no place
            if state.runs[move["run"]].strand != move["strand"]:
                continue  # its steps mean another strand
            intent = Intent.model_validate({k: v for k, v in move.items() if k not in NOT_OF_INTENT})
            done = apply(state, self.strands, self.head + 1, intent)
            state = done.state if isinstance(done, Applied) else state
        return state


def bare(state: State) -> State:
    """A state without what could be undone in it."""
    runs = {name: run.model_copy(update={"history": []}) for name, run in state.runs.items()}
    return state.model_copy(update={"runs": runs})


class Restless(RuleBasedStateMachine):
    template: Path | None = None
    deeds: ClassVar[Counter[str]] = Counter()  # what was done, over all runs

    @initialize()
    def begin(self) -> None:
        self.room = Path(tempfile.mkdtemp(prefix="hookside-restless-"))
        if Restless.template is None or not Restless.template.exists():
            Restless.template = Path(tempfile.mkdtemp(prefix="hookside-template-")) / "house"
            made = Journal.open(Restless.template)
            made.begin(made.add_pattern("demo", None, "yours"), "Harbour seal", laid(), choices())
            made.close()
        shutil.copytree(Restless.template, self.room / "house")
        self.folder = self.room / "house"
        self.journal = Journal.open(self.folder)
        self.now, self.made, self.text, self.texts = 100.0, 0, 0, 0
        self.all_made: set[str] = set()
        self.answers: dict[str, dict[str, Any]] = {}  # of the journal as it is now
        self.on_the_way: list[Message] = []
        self.backup: tuple[Path, dict[str, dict[str, Any]], list[Any]] | None = None
        self.pages = {name: Page(name) for name in DEVICES}
        for page in self.pages.values():
            page.strands = {**STRANDS, **{strand.id: strand for strand in TEXTS}}
            page.adopt(self.journal)

    # -- devices ------------------------------------------------------------

    @rule(
        device=st.sampled_from(DEVICES),
        run=st.sampled_from(["p3.c1", "p3.c1", "p3.c1", *(run for run, *_ in RUNS)]),
        kind=st.sampled_from(["next"] * 6 + ["back", "undo", "goto", "rip", "take", "count"]),
        unit=st.sampled_from(["stitch", "group", "repeat", "round"]),
        number=st.integers(0, 60),
        taps=st.integers(1, 4),
        how=st.sampled_from(HOW),
    )
    def tap(self, device: str, run: str, kind: str, unit: str, number: int, taps: int, how: str) -> None:
        """Moves are made, and sent, mostly."""
        self.make(device, run, kind, unit, number, taps)
        self.send(device, 5, how)

    @rule(device=st.sampled_from(DEVICES), taps=st.integers(1, 8), unit=st.sampled_from(["stitch", "repeat", "round"]),
          how=st.sampled_from(HOW))  # fmt: skip
    def work_on(self, device: str, taps: int, unit: str, how: str) -> None:
        """As one works: onwards, a few at a time."""
        self.make(device, "p3.c1", "next", unit, 12, taps)
        self.send(device, 8, how)

    @rule(device=st.sampled_from(DEVICES), what=st.sampled_from(CHOSEN), how=st.sampled_from(HOW))
    def chooses(self, device: str, what: tuple[str, Any], how: str) -> None:
        """Something is chosen, and goes the way of the moves around it."""
        page = self.pages[device]
        self.made += 1
        page.seq += 1
        id = f"{self.made:032x}"
        choices = [{"choice": what[0], "value": what[1]}]
        page.waiting.append(
            {"id": id, "device": device, "device_seq": page.seq, "making": MAKING, "run": "", "strand": "",
             "base": page.head, "intent": "choose", "choices": choices}
        )  # fmt: skip
        self.all_made.add(id)
        self.send(device, 5, how)

    def make(self, device: str, run: str, kind: str, unit: str, number: int, taps: int) -> None:
        page = self.pages[device]
        for _ in range(taps):
            self.made += 1
            page.seq += 1
            now = page.visible().runs[run]
            id = f"{self.made:032x}"
            intent = self.intent(page, run, kind, unit, number)
            page.waiting.append(
                {"id": id, "device": device, "device_seq": page.seq, "making": MAKING, "run": run,
                 "strand": now.strand, "base": page.head, **intent}
            )  # fmt: skip
            self.all_made.add(id)

    def intent(self, page: Page, run: str, kind: str, unit: str, number: int) -> dict[str, Any]:
        now = page.visible().runs[run]
        strand = page.strands[now.strand]
        cue, unread = strand.cue_at.get(now.at), strand.unread_at.get(now.at)
        if kind == "next" and now.at == strand.length:
            return {"intent": "rip", "to": number}
        if kind == "next" and (unread or (cue and cue.weight == "stop")):
            address = cue.address if cue else unread.id if unread else ""
            return {"intent": "done", "cue": address, "count": number}
        if kind in ("next", "back"):
            return {"intent": kind, "unit": unit}
        if kind == "undo":
            return {"intent": "undo", "undoes": (now.history[-1].id or 0) if now.history else 0}
        if kind in ("goto", "rip"):
            return {"intent": kind, "to": number}
        return {"intent": "count", "n": number} if kind == "count" else {"intent": "take"}

    def send(self, device: str, most: int, how: str) -> None:
        """What waits goes out, in its order; nothing is forgotten before its answer has come."""
        page = self.pages[device]
        if how == "waits" or not page.waiting:
            return
        self.on_the_way.append(Message(device, page.epoch, [dict(move) for move in page.waiting[:most]]))
        if how != "is late":
            self.deliver(len(self.on_the_way) - 1, keep=how == "comes twice", answered=how != "loses its answer")

    @rule(device=st.sampled_from(DEVICES), which=st.integers(0, 5), what=st.sampled_from(FATES))
    def messages(self, device: str, which: int, what: str) -> None:
        """Any of those on their way arrives, not the oldest only; or is dropped; or what waits goes out once more."""
        if what == "send" or not self.on_the_way:
            self.send(device, which + 1, HOW[which])
        elif what == "drop":
            self.deeds["message dropped"] += 1
            self.on_the_way.pop(which % len(self.on_the_way))
        else:
            self.deliver(which % len(self.on_the_way), keep=what == "arrive and stay", answered=which % 2 == 0)

    def deliver(self, which: int, keep: bool, answered: bool) -> None:
        message = self.on_the_way[which]
        if not keep or len(self.on_the_way) > 6:
            self.on_the_way.pop(which)
        if message.epoch != self.journal.epoch:
            return  # the door of web/live.py: another journal gets nothing unasked
        self.deeds["message taken"] += 1
        answers = self.journal.moves(message.moves, self.now)
        assert all(answer["ok"] for answer in answers)
        for move, answer in zip(message.moves, answers, strict=True):
            self.deeds[f"answer: {answer['kind']}"] += 1
            assert self.answers.setdefault(move["id"], answer) == answer, "the same move, another answer"
        if answered:
            self.acknowledged(message, answers)

    def acknowledged(self, message: Message, answers: list[dict[str, Any]]) -> None:
        page = self.pages[message.device]
        if page.epoch != message.epoch:
            return  # it has met the restored journal meanwhile
        for move, answer in zip(message.moves, answers, strict=True):
            page.acknowledged[move["id"]] = (move, answer["row"])
        page.waiting = [move for move in page.waiting if move["id"] not in page.acknowledged]
        page.adopt(self.journal)

    @rule(device=st.sampled_from(DEVICES), put_back=st.booleans())
    def joins(self, device: str, put_back: bool) -> None:
        """A page meets the journal; where it knows more than a restored one, the maker says what counts."""
        self.meet(self.pages[device], put_back)

    def meet(self, page: Page, put_back: bool) -> None:
        parted = self.journal.parted(MAKING, page.epoch, page.head)
        if parted is None:
            page.adopt(self.journal)
            return
        assert parted["known"] == "earlier"
        self.deeds["device asked after a restore"] += 1
        shared = parted["shared"]
        kept = self.journal.which(MAKING, list(page.acknowledged))
        more = {id: held for id, held in page.acknowledged.items() if id not in kept}
        assert all(row > shared for _, row in more.values()), "a row that both should have is missing"
        page.acknowledged = {id: held for id, held in page.acknowledged.items() if id in kept}
        again = [move for move, _ in sorted(more.values(), key=lambda held: held[1])] + page.waiting
        page.adopt(self.journal)
        if put_back:
            page.waiting = [{**move, "base": min(move["base"], shared), "backlog": True} for move in again]
        else:
            page.waiting = []
            page.apart |= {move["id"] for move in again}

    # -- the journal --------------------------------------------------------

    @rule(what=st.sampled_from(MEANWHILE))
    def meanwhile(self, what: str) -> None:
        if what == "restart":
            self.deeds["restart"] += 1
            self.journal.close()
            self.journal = Journal.open(self.folder)
        elif what == "backup":
            self.is_backed_up()
        elif what == "restore" and self.backup is not None:
            self.is_restored()
        else:
            self.now += 6.0 if what == "6 s" else 1.0

    def is_backed_up(self) -> None:
        self.deeds["backup"] += 1
        target = self.room / "backup.sqlite"
        backup(self.folder / FILE, target, NOW, over=True)
        self.backup = target, dict(self.answers), self.rows()

    def is_restored(self) -> None:
        assert self.backup is not None
        self.deeds["restore"] += 1
        file, answers, rows = self.backup
        epoch = self.journal.epoch
        self.journal.close()
        restore(self.folder, file, NOW, over=True)
        shutil.rmtree(self.folder / "backups")  # the journals that were replaced
        self.journal = Journal.open(self.folder)
        self.answers = dict(answers)
        assert self.journal.epoch != epoch
        assert self.rows() == rows

    @rule(device=st.sampled_from(DEVICES), text=st.integers(0, 2), stay=st.sampled_from([False, False, True]))
    def the_pattern_is_changed(self, device: str, text: int, stay: bool) -> None:
        self.texts += 1
        self.journal.update_pattern(self.journal.patterns()[0]["id"], f"demo {self.texts}", None)
        if self.journal.asking(MAKING) is None:
            return  # all of it is finished
        runs = [
            SimpleNamespace(run=one.run, piece=one.piece, copy=one.copy, copies=one.copies,
                            strand=TEXTS[text] if one.piece == "buoy" else one.strand)
            for one in laid()
        ]  # fmt: skip
        asked = self.journal.proposal(MAKING, runs)
        if stay or asked is None:
            self.journal.stay(MAKING)
            return
        places = {run["run"]: run["to"]["at"] for run in asked["runs"] if not run["sure"]}
        self.deeds["recast"] += 1
        assert isinstance(self.journal.recast(MAKING, runs, places, asked["head"]), int)

    @rule(device=st.sampled_from(DEVICES), theirs=st.booleans())
    def settles(self, device: str, theirs: bool) -> None:
        page = self.pages[device]
        snapshot = self.journal.snapshot(MAKING)
        assert snapshot is not None
        if page.epoch != self.journal.epoch or not snapshot["asides"]:
            return
        aside = snapshot["asides"][0]
        here = snapshot["state"]["runs"][aside["run"]]
        self.made += 1
        id = f"{self.made:032x}"
        self.all_made.add(id)
        move = {"id": id, "device": device, "device_seq": 0, "making": MAKING, "run": aside["run"],
                "strand": here["strand"], "base": page.head, "intent": "settle",
                "to": aside["to"] if theirs else here["at"], "asides": [aside["row"]]}  # fmt: skip
        (answer,) = self.journal.moves([move], self.now)
        assert (answer["kind"], answer["asides"]) == ("settle", len(snapshot["asides"]) - 1)
        self.deeds["settle"] += 1
        self.answers[id] = answer
        page.acknowledged[id] = (move, answer["row"])

    # -- what must hold -----------------------------------------------------

    def rows(self) -> list[Any]:
        with self.journal.store.reading() as connection:
            return list(connection.exec_driver_sql("SELECT row, id, sum FROM rows ORDER BY row"))

    @invariant()
    def memory_is_a_replay_of_the_rows(self) -> None:
        if not hasattr(self, "journal"):
            return
        self.journal.snapshot(MAKING)
        held = self.journal._standings[MAKING]
        with self.journal.store.reading() as connection:
            fresh = ledger.read_standing(connection, MAKING)
        assert fresh is not None
        for run, held_run in held.state.runs.items():  # of what could be undone the newest may be all that is held
            whole = fresh.state.runs[run].history
            assert held_run.history == whole[len(whole) - len(held_run.history) :]
            assert run in held.shortened or held_run.history == whole
        assert bare(held.state) == bare(fresh.state)
        for name in ("head", "asides", "worked", "runs", "edited", "movers", "choices", "doubted"):
            assert getattr(held, name) == getattr(fresh, name), name
        stints = [[(s.device, s.last, s.before_last) for s in one.stints] for one in (held, fresh)]
        assert stints[0] == stints[1]

    @invariant()
    def what_was_acknowledged_is_there(self) -> None:
        if not hasattr(self, "journal"):
            return
        for page in self.pages.values():
            if page.epoch == self.journal.epoch:
                kept = self.journal.which(MAKING, list(page.acknowledged))
                assert kept == {id: row for id, (_, row) in page.acknowledged.items()}

    def teardown(self) -> None:
        if not hasattr(self, "journal"):
            return
        try:
            for page in self.pages.values():
                self.meet(page, put_back=True)
                while page.waiting:
                    batch = page.waiting[:4]
                    answers = self.journal.moves(batch, self.now)
                    assert all(answer["ok"] for answer in answers)
                    for move, answer in zip(batch, answers, strict=True):
                        assert self.answers.setdefault(move["id"], answer) == answer
                    self.acknowledged(Message(page.name, page.epoch, batch), answers)
            for page in self.pages.values():
                page.adopt(self.journal)
            first, second = (page.visible() for page in self.pages.values())
            assert first == second
            apart = set().union(*(page.apart for page in self.pages.values()))
            ids = [id for _, id, _ in self.rows()]
            assert len(ids) == len(set(ids))
            missing = self.all_made - set(ids)
            assert missing <= apart, "a move is neither in the journal nor kept apart"
            assert self.journal.check() == []
        finally:
            self.journal.close()
            shutil.rmtree(self.room)
