"""Where a making stands: its state, who moved last, what lies aside. A cache of its rows, rebuilt by replay."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from hookside.follow import Moved, Order, State, Strand, carry, recast
from hookside.journal.choices import CHANGE_STEPS, all_chosen
from hookside.journal.mends import Kept, mends_after
from hookside.journal.moves import Move

FRESH = 5.0  # seconds of the server's monotonic clock in which a move may be put onto one newer row
NEVER_REBASED = ("goto", "count", "rip")
HISTORY_HELD = 50  # moves of a run that are at hand to be undone; older ones are read again when it comes to them
STINTS_KEPT = 8  # neighbours are of different devices, so for any device the last 8 hold more than 2 rows of others


@dataclass(frozen=True, slots=True)
class Aside:
    """A move that was kept and not applied, and the step of `strand` its device thinks its run is at."""

    row: int
    device: str
    run: str
    to: int
    base: int
    strand: str


@dataclass(slots=True)
class Stint:
    """Rows of one device, applied one after another with no other device's between."""

    device: str
    last: int
    made: float | None  # when, by the monotonic clock; None for a row of an earlier process
    before_last: int = 0  # 0: the stint has one row


@dataclass(slots=True)
class Standing:
    """A making in memory. `head` is its last row of any kind; `state.head` the last that was applied."""

    id: int
    pattern: str
    begun_in: Order
    runs: list[dict[str, Any]]
    begun_terms: str
    strands: Mapping[str, Strand]
    start: State
    state: State
    head: int
    gone: bool = False
    edited: str | None = None  # the pattern whose changed text the making has not been told about
    worked: str | None = None
    stints: list[Stint] = field(default_factory=list)
    asides: list[Aside] = field(default_factory=list)
    views: dict[str, State] = field(default_factory=dict)  # how a device with asides sees the making
    movers: dict[str, str] = field(default_factory=dict)  # for each run the device whose move its place comes from
    choices: Mapping[str, Any] = field(default_factory=dict)
    mends: Kept = field(default_factory=dict)  # of each run that was mended
    doubted: Mapping[str, Any] = field(default_factory=dict)  # choices that wait for her yes, as they were before
    shortened: frozenset[str] = frozenset()  # runs of which not all is held that could be undone

    def draft(self) -> Standing:
        """A copy to work on while a transaction is not yet on disk."""
        return replace(
            self,
            stints=[replace(stint) for stint in self.stints],
            asides=list(self.asides),
            views=dict(self.views),
        )

    # -- what a move meets --------------------------------------------------

    def foreign(self, device: str, base: int) -> tuple[int, float | None]:
        """Applied rows newer than `base` that are another device's: how many (2: two or more), the newest's time."""
        count, made = 0, None
        for stint in reversed(self.stints):
            if stint.last <= base or count >= 2:
                break
            if stint.device != device:
                made = stint.made if count == 0 else made
                count += 2 if stint.before_last > base else 1
        return min(count, 2), made

    def fits(self, move: Move, now: float) -> bool:
        """Whether a move may be applied to the state as it is. The maker's word that settles always may."""
        run = self.state.runs.get(move.run)
        if run is not None and run.strand != move.strand:
            return False
        count, made = self.foreign(move.device, move.base)
        if count == 0:
            return True
        if count > 1 or move.backlog or move.intent in NEVER_REBASED:
            return False
        if self.asides and move.base < self.asides[0].row:
            return False
        return made is not None and now - made < FRESH

    # -- what a row does ----------------------------------------------------

    def taken(self, row: int, run: str, device: str, state: State, wall: str, now: float | None) -> None:
        """A row was applied."""
        self.movers = {**self.movers, run: device}
        self.state = state
        self.head = row
        self.worked = wall
        last = self.stints[-1] if self.stints else None
        if last is not None and last.device == device:
            last.before_last, last.last, last.made = last.last, row, now
        else:
            self.stints = [*self.stints[1 - STINTS_KEPT :], Stint(device, row, now)]

    def recast(self, row: int, payload: Mapping[str, Any], laid: Mapping[str, Strand]) -> None:
        """Runs go onto other strands. Those they leave stay at hand: asides and old moves are told by them.

        The maker's notes go along: each stays at the stitch it was written at.
        """
        self.strands = {**self.strands, **laid}
        self.choices = notes_after(self.choices, self.state, self.strands, payload)
        self.state = recast_by(self.state, self.strands, row, payload)
        self.runs = _runs_after(self.runs, payload)
        self.mends = mends_after(self.mends, payload)
        moved = {one["run"] for one in payload["moved"]}
        self.movers = {run: device for run, device in self.movers.items() if run not in moved}
        self.head = row
        self.edited, self.doubted = None, {}

    def chose(self, row: int, choices: list[dict[str, Any]]) -> bool:
        """The maker chose something; whether the making asks because of it."""
        before = self.choices
        self.choices, self.head = all_chosen(before, choices), row
        # What is finished is not laid anew, but one copy more is one that nobody has worked.
        laying = ("copies",) if self.finished else CHANGE_STEPS
        asks = {one["choice"] for one in choices if one["choice"] in laying}
        asks = {name for name in asks if self.choices.get(name) != before.get(name)}
        self.doubted = {name: before.get(name) for name in asks} | dict(self.doubted)
        if asks:
            self.edited = self.edited or self.pattern
        return bool(asks)

    def stayed(self, row: int, back: list[dict[str, Any]]) -> None:
        """The making goes on with the steps it has, and with `back`, the choices that fit them."""
        self.choices, self.head = all_chosen(self.choices, back), row
        self.edited, self.doubted = None, {}

    # -- what is held of it -------------------------------------------------

    def forget(self) -> None:
        """Hold only the newest moves of each run, once there are twice as many: memory is the same after years."""
        long = {name for name, run in self.state.runs.items() if len(run.history) > 2 * HISTORY_HELD}
        if long:
            runs = self.state.runs
            cut = {name: runs[name].model_copy(update={"history": runs[name].history[-HISTORY_HELD:]}) for name in long}
            self.state = self.state.model_copy(update={"runs": {**runs, **cut}})
            self.shortened |= long

    def lacks(self, run: str, many: int) -> bool:
        """Whether fewer than so many of a run's moves are held although there may be more."""
        return run in self.shortened and len(self.state.runs[run].history) < many

    def remembered(self, state: State) -> None:
        """All that could be undone was read again."""
        self.state, self.shortened = state, frozenset()

    def laid_aside(self, aside: Aside, view: State) -> None:
        self.head = aside.row
        self.asides.append(aside)
        self.views[aside.device] = view

    def settled(self, rows: list[int]) -> None:
        """End the asking for the asides named, and for earlier ones of the same device and run."""
        named = [aside for aside in self.asides if aside.row in rows]

        def over(aside: Aside) -> bool:
            return any((aside.device, aside.run) == (a.device, a.run) and aside.row <= a.row for a in named)

        self.asides = [aside for aside in self.asides if not over(aside)]
        waiting = {aside.device for aside in self.asides}
        self.views = {device: view for device, view in self.views.items() if device in waiting}

    def open_asides(self) -> list[Aside]:
        """What to ask about: the newest aside of each device and run."""
        newest = {(aside.device, aside.run): aside for aside in self.asides}
        return list(newest.values())

    @property
    def order(self) -> Order:
        """The order of work as it was chosen last."""
        chosen = self.choices.get("order")
        return self.begun_in if chosen is None else Order.model_validate(chosen)

    @property
    def terms(self) -> str:
        """The terms whose words are worked in: those chosen, once she has said yes to them."""
        chosen = self.doubted if "terms" in self.doubted else self.choices
        return chosen.get("terms") or self.begun_terms

    @property
    def finished(self) -> bool:
        return all(run.at == self.strands[run.strand].length for run in self.state.runs.values())

    def aside_at(self, aside: Aside) -> int:
        """The step an aside names, on the strand its run is on now."""
        now = self.state.runs[aside.run].strand
        if aside.strand == now or aside.strand not in self.strands:
            return aside.to
        return carry(self.strands[aside.strand], self.strands[now], aside.to).to

    def knows_aside(self, rows: list[int] | None) -> bool:
        return any(aside.row in (rows or []) for aside in self.asides)


def notes_after(
    choices: Mapping[str, Any], state: State, strands: Mapping[str, Strand], payload: Mapping[str, Any]
) -> Mapping[str, Any]:
    """The choices with each note of a run that goes onto another strand mapped as places are. `state`: before it."""
    if not choices.get("notes"):
        return choices
    to = {one["run"]: strands[one["strand"]] for one in payload["moved"]}

    def mapped(note: dict[str, Any]) -> dict[str, Any]:
        new = to.get(note["run"])
        if new is None:
            return note
        old = strands[state.runs[note["run"]].strand]
        return {**note, "step": carry(old, new, min(note["step"], old.length)).to}

    return {**choices, "notes": [mapped(note) for note in choices["notes"]]}


def recast_by(state: State, strands: Mapping[str, Strand], row: int, payload: Mapping[str, Any]) -> State:
    """The state after a recast row."""
    moved = [Moved(run=one["run"], strand=one["strand"], to=one["to"]) for one in payload["moved"]]
    return recast(state, strands, row, moved, [(one["run"], one["strand"]) for one in payload["added"]])


def _runs_after(runs: list[dict[str, Any]], payload: Mapping[str, Any]) -> list[dict[str, Any]]:
    """A making's runs after a recast row, in its order."""
    strand = {one["run"]: one["strand"] for one in payload["moved"]}
    copies = {one["run"].split(".")[0]: one["copies"] for one in payload["added"]}  # of a piece there are more of
    all_of_them = [
        {
            **run,
            "strand": strand.get(run["run"], run["strand"]),
            "copies": max(run["copies"], copies.get(run["run"].split(".")[0], 0)),
        }
        for run in runs
    ] + payload["added"]
    order = {run: index for index, run in enumerate(payload["order"])}
    return sorted(all_of_them, key=lambda run: order.get(run["run"], len(order)))
