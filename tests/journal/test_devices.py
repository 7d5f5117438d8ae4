"""Devices at one journal: moves made offline, lost answers, resends, restarts, clocks, quarrels and their settling.

A model of the page keeps what is confirmed and what waits, as the page does. Whatever happens, a move is in the journal
at most once, an acknowledged one exactly once and with the same answer for ever, and what is held in memory is what
a replay of the rows gives.
"""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import Any

from desk import choices, laid
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from hookside.follow import Applied, Intent, State, apply
from hookside.journal import Journal, ledger

RUNS = {"p1.c1": "flipper", "p1.c2": "flipper", "p2.c1": "skiff", "p3.c1": "buoy"}
DEVICES = ("phone", "tablet", "laptop")
NOT_OF_INTENT = {"device", "device_seq", "making", "strand", "base", "backlog"}


class Page:
    """What a page knows: the snapshot it joined with, what it sent and what waits."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.online = True
        self.head = 0
        self.confirmed: State | None = None
        self.waiting: list[dict[str, Any]] = []
        self.seq = 0

    def join(self, journal: Journal, making: int) -> None:
        snapshot = journal.snapshot(making, self.name)
        assert snapshot is not None
        self.head = snapshot["head"]
        self.confirmed = State.model_validate(snapshot["state"])

    def visible(self, strands: Any) -> State:
        state = self.confirmed
        assert state is not None
        for move in self.waiting:
            intent = Intent.model_validate({k: v for k, v in move.items() if k not in NOT_OF_INTENT})
            done = apply(state, strands, self.head + 1, intent)
            state = done.state if isinstance(done, Applied) else state
        return state


class Devices(RuleBasedStateMachine):
    template: Path | None = None

    @initialize()
    def begin(self) -> None:
        self.room = Path(tempfile.mkdtemp(prefix="hookside-devices-"))
        if Devices.template is None:  # the migrations are the slow part, and the same each time
            Devices.template = Path(tempfile.mkdtemp(prefix="hookside-template-")) / "house"
            made = Journal.open(Devices.template)
            made.begin(made.add_pattern("demo", None, "yours"), "Harbour seal", laid(), choices())
            made.close()
        shutil.copytree(Devices.template, self.room / "house")
        self.journal = Journal.open(self.room / "house")
        self.making = 1
        self.now = 100.0
        self.made = 0
        self.answers: dict[str, dict[str, Any]] = {}
        self.senders: dict[str, str] = {}
        self.strands = self.standing().strands
        self.pages = {name: Page(name) for name in DEVICES}
        for page in self.pages.values():
            page.join(self.journal, self.making)

    def standing(self) -> Any:
        with self.journal.store.reading() as connection:
            return ledger.read_standing(connection, self.making)

    @rule(
        device=st.sampled_from(DEVICES),
        run=st.sampled_from([*RUNS, "p3.c1", "p3.c1"]),
        kind=st.sampled_from(["next"] * 6 + ["back", "undo", "goto", "rip", "take", "count", "done"]),
        unit=st.sampled_from(["stitch", "group", "repeat", "round"]),
        number=st.integers(0, 60),
        at_once=st.sampled_from([True, True, False]),
    )
    def tap(self, device: str, run: str, kind: str, unit: str, number: int, at_once: bool) -> None:
        self.make(device, run, kind, unit, number, at_once)

    def make(self, device: str, run: str, kind: str, unit: str, number: int, at_once: bool) -> None:
        """A move on one page; mostly it is told of the others' before, and sends its own at once."""
        page = self.pages[device]
        if at_once and page.online and not page.waiting:
            page.join(self.journal, self.making)
        now = page.visible(self.strands).runs[run]
        strand = self.strands[now.strand]
        intent: dict[str, Any] = {"intent": kind}
        cue, unread = strand.cue_at.get(now.at), strand.unread_at.get(now.at)
        if kind == "next" and now.at == strand.length:
            kind, intent["intent"] = "rip", "rip"  # finished: some of it again
        if kind in ("next", "back"):
            intent["unit"] = unit
            if kind == "next" and (unread or (cue and cue.weight == "stop")):
                intent = {"intent": "done", "cue": cue.address if cue else unread.id if unread else "", "count": number}
        elif kind == "undo":
            intent["undoes"] = now.history[-1].id if now.history else 0
        elif kind in ("goto", "rip"):
            intent["to"] = number
        elif kind == "count":
            intent["n"] = number
        elif kind == "done":
            intent["cue"] = "buoy.4/stuff.1"
        self.made += 1
        page.seq += 1
        page.waiting.append(
            {"id": f"{self.made:032x}", "device": device, "device_seq": page.seq, "making": self.making, "run": run,
             "strand": RUNS[run], "base": page.head, **intent, **({} if page.online else {"backlog": True})}
        )  # fmt: skip

        if at_once:
            self.send(device, 500, True)

    @rule(device=st.sampled_from(DEVICES), taps=st.integers(1, 6), unit=st.sampled_from(["stitch", "repeat", "round"]))
    def work_on(self, device: str, taps: int, unit: str) -> None:
        """Several moves onwards in a row, as one works."""
        for _ in range(taps):
            self.make(device, "p3.c1", "next", unit, 12, True)

    @rule(device=st.sampled_from(DEVICES), most=st.integers(1, 6), answered=st.sampled_from([True, True, False]))
    def some_arrive(self, device: str, most: int, answered: bool) -> None:
        self.send(device, most, answered)

    def send(self, device: str, most: int, answered: bool) -> None:
        """What waits goes out, in its order; the answer may be lost on its way."""
        page = self.pages[device]
        batch = page.waiting[:most]
        if not page.online or not batch:
            return
        answers = self.journal.moves(batch, self.now)
        self.remember(batch, answers)
        if answered:
            del page.waiting[: len(batch)]
            page.join(self.journal, self.making)

    def remember(self, batch: list[dict[str, Any]], answers: list[dict[str, Any]]) -> None:
        for move, answer in zip(batch, answers, strict=True):
            assert answer["ok"]
            assert answer["id"] == move["id"]
            self.senders[move["id"]] = move["device"]
            assert self.answers.setdefault(move["id"], answer) == answer, "the same move, another answer"

    @rule(device=st.sampled_from(DEVICES), what=st.sampled_from(["joins", "link", "1 s", "6 s", "restart"]))
    def meanwhile(self, device: str, what: str) -> None:
        page = self.pages[device]
        if what == "joins" and page.online:
            page.join(self.journal, self.making)
        elif what == "link":
            page.online = not page.online
        elif what == "restart":
            self.journal.close()
            self.journal = Journal.open(self.room / "house")
        else:
            self.now += 6.0 if what == "6 s" else 1.0

    @rule(data=st.data())
    @precondition(lambda self: self.answers)
    def an_old_move_comes_again(self, data: st.DataObject) -> None:
        id = data.draw(st.sampled_from(sorted(self.answers)))
        kept = self.answers[id]
        again = {"id": id, "device": self.senders[id], "device_seq": 0, "making": self.making, "run": kept["run"],
                 "strand": "buoy", "base": 0, "intent": "next", "unit": "stitch"}  # fmt: skip
        before = self.journal.snapshot(self.making)
        assert self.journal.moves([again], self.now) == [kept]
        (stranger,) = self.journal.moves([again | {"device": "kettle"}], self.now)
        assert (stranger["ok"], stranger["code"]) == (False, "id")
        assert self.journal.snapshot(self.making) == before

    @rule(device=st.sampled_from(DEVICES), data=st.data())
    @precondition(lambda self: self.journal._standings and self.journal._standings[1].asides)
    def settle(self, device: str, data: st.DataObject) -> None:
        snapshot = self.journal.snapshot(self.making)
        page = self.pages[device]
        assert snapshot is not None
        if not page.online:
            return
        asked = data.draw(st.sampled_from(snapshot["asides"]))
        to = data.draw(st.sampled_from([asked["to"], snapshot["state"]["runs"][asked["run"]]["at"]]))
        self.made += 1
        move = {"id": f"{self.made:032x}", "device": device, "device_seq": 0, "making": self.making,
                "run": asked["run"], "strand": RUNS[asked["run"]], "base": page.head, "intent": "settle", "to": to,
                "asides": [asked["row"]]}  # fmt: skip
        answers = self.journal.moves([move], self.now)
        self.remember([move], answers)
        assert answers[0]["kind"] == "settle"
        assert answers[0]["asides"] == len(snapshot["asides"]) - 1

    @invariant()
    def memory_is_a_replay_of_the_rows(self) -> None:
        if not hasattr(self, "journal"):
            return
        self.journal.snapshot(self.making)
        held, fresh = self.journal._standings[self.making], self.standing()
        for name in ("state", "head", "asides", "worked", "runs", "order", "terms", "gone"):
            assert getattr(held, name) == getattr(fresh, name), name
        assert [(s.device, s.last, s.before_last) for s in held.stints] == [
            (s.device, s.last, s.before_last) for s in fresh.stints
        ]

    def teardown(self) -> None:
        if not hasattr(self, "journal"):
            return
        # Everything arrives in the end; then all pages show the same, and each move is there once.
        for page in self.pages.values():
            while page.waiting:
                self.remember(page.waiting[:4], self.journal.moves(page.waiting[:4], self.now))
                del page.waiting[:4]
        for page in self.pages.values():
            page.join(self.journal, self.making)
        assert len({page.visible(self.strands).model_dump_json() for page in self.pages.values()}) == 1
        assert len(self.answers) == self.made
        assert self.journal.count_rows() == self.made + 1
        assert len({answer["row"] for answer in self.answers.values()}) == self.made
        assert self.journal.check() == []
        self.journal.close()
        shutil.rmtree(self.room)


TestDevices = Devices.TestCase
TestDevices.settings = settings(
    max_examples=25, stateful_step_count=50, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
