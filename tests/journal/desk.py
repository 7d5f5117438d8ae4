"""A making to test with, and devices that move in it."""

from __future__ import annotations

from dataclasses import dataclass, field
from types import SimpleNamespace
from typing import Any

from laying import small_strands

from hookside.follow import Order
from hookside.journal import Journal

STRANDS = small_strands()
RUNS = [("p1.c1", "flipper", 1, 2), ("p1.c2", "flipper", 2, 2), ("p2.c1", "skiff", 1, 1), ("p3.c1", "buoy", 1, 1)]


def laid(runs: list[tuple[str, str, int, int]] = RUNS) -> list[Any]:
    return [
        SimpleNamespace(run=run, piece=strand, copy=copy, copies=copies, strand=STRANDS[strand])
        for run, strand, copy, copies in runs
    ]


def choices(order: Order | None = None) -> Any:
    return SimpleNamespace(terms=None, hand="right", order=order or Order())


@dataclass
class Desk:
    """A journal, one making of it, and a clock that only tests turn."""

    journal: Journal
    making: int = 0
    now: float = 1000.0
    made: int = 0
    heads: dict[str, int] = field(default_factory=dict)

    def begin(self) -> int:
        pattern = self.journal.add_pattern("demo", "US", "yours")
        self.making = self.journal.begin(pattern, "Harbour seal", laid(), choices())
        return self.making

    def begin_with(self, strand: Any) -> int:
        run = SimpleNamespace(run="p1.c1", piece=strand.piece, copy=1, copies=1, strand=strand)
        return self.journal.begin(self.journal.patterns()[0]["id"], "Another", [run], choices())

    def head(self) -> int:
        snapshot = self.journal.snapshot(self.making)
        assert snapshot is not None
        return int(snapshot["head"])

    def join(self, device: str) -> dict[str, Any]:
        """The device learns of every row there is."""
        snapshot = self.journal.snapshot(self.making, device)
        assert snapshot is not None
        self.heads[device] = snapshot["head"]
        return snapshot

    def move(self, intent: str, device: str = "phone", run: str = "p3.c1", **more: Any) -> dict[str, Any]:
        """A move as the device would send it, knowing what it knows."""
        self.made += 1
        strand = {name: strand for name, strand, _, _ in RUNS}.get(run, "buoy")
        return {
            "id": f"{self.made:032x}",
            "device": device,
            "device_seq": self.made,
            "making": self.making,
            "run": run,
            "strand": strand,
            "base": self.heads.setdefault(device, self.head()),
            "intent": intent,
            **more,
        }

    def send(self, *moves: dict[str, Any]) -> list[dict[str, Any]]:
        return self.journal.moves(moves, self.now)

    def do(self, intent: str, device: str = "phone", **more: Any) -> dict[str, Any]:
        """Make one move and learn its answer."""
        answer = self.send(self.move(intent, device, **more))[0]
        if answer["ok"]:
            self.heads[device] = answer["head"]
        return answer

    def finish(self, *only: str) -> None:
        """Work every run, or these, to its end, round by round, and answer whatever waits on the way."""
        for run in only or self.state()["runs"]:
            for _ in range(20):
                answer = self.do("next", run=run, unit="round")
                if answer.get("code") == "finished":
                    break
                if answer.get("code") == "stop":
                    state = self.state()["runs"][run]
                    strand = self.journal.snapshot(self.making)["strands"][state["strand"]]
                    cue = next((c["address"] for c in strand["cues"] if c["step"] == state["at"]), None)
                    unread = next((c["id"] for c in strand["courses"] if c["first"] == state["at"]), None)
                    self.do("done", run=run, cue=cue or unread, count=12)

    def state(self) -> dict[str, Any]:
        snapshot = self.journal.snapshot(self.making)
        assert snapshot is not None
        state: dict[str, Any] = snapshot["state"]
        return state

    def at(self, run: str = "p3.c1") -> int:
        return int(self.state()["runs"][run]["at"])
