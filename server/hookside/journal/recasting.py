"""A pattern was changed while it is being made: what is different, and where each run would go on.

Pieces are known again by their names, else by their numbers; courses by kind and number (follow/recast.py). Runs that
are finished, and runs whose steps are the same, stay as they are. Nothing is moved here: a plan is shown to the maker,
and carried out when she has said so.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol

from hookside.follow import Carried, Change, Mend, Moved, Strand, carry, changes, cue_changes, locate, same_steps, slide
from hookside.journal.mends import laid_anew
from hookside.journal.standing import Standing


class Run(Protocol):
    """One run as it is laid: copies of a piece share a strand."""

    @property
    def run(self) -> str: ...
    @property
    def piece(self) -> str: ...
    @property
    def copy(self) -> int: ...
    @property
    def copies(self) -> int: ...
    @property
    def strand(self) -> Strand: ...


@dataclass(frozen=True, slots=True)
class Going:
    """A run that goes onto another strand."""

    run: str
    piece: str
    copy: int
    copies: int
    old: Strand
    new: Strand
    at: int
    carried: Carried
    changes: list[Change]
    laid: Strand  # as the text lays it; `new` is that with the mends which the run carries on
    mends: list[Mend] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Plan:
    """What a changed text means for a making.

    going  runs under way whose steps differ
    added  runs that are new: of pieces that the text did not have, and copies the maker wants more of
    more   of pieces with more copies: name, how many more, how many in all
    order  all runs in the order of the text, those it does not have any more last
    left   names of pieces that the text does not have any more; their runs go on as they are
    """

    going: list[Going] = field(default_factory=list)
    added: list[tuple[str, Run]] = field(default_factory=list)
    more: list[tuple[str, int, int]] = field(default_factory=list)
    order: list[str] = field(default_factory=list)
    left: list[str] = field(default_factory=list)

    @property
    def nothing(self) -> bool:
        return not self.going and not self.added and not self.left


def plan(standing: Standing, laid: Sequence[Run], words: bool = False) -> Plan:
    """Hold a making against its text as it reads now, laid in full. `words`: steps in other words are others too."""
    old: dict[str, list[dict[str, Any]]] = {}
    for run in standing.runs:
        old.setdefault(_number(run["run"]), []).append(run)
    new: dict[str, list[Run]] = {}
    for one in laid:
        new.setdefault(_number(one.run), []).append(one)
    partner = _partners({n: runs[0]["piece"] for n, runs in old.items()}, {n: runs[0].piece for n, runs in new.items()})
    wanted: Mapping[str, int] = standing.choices.get("copies", {})
    made = Plan(left=[runs[0]["piece"] for n, runs in old.items() if n not in partner.values()])
    free = max((int(n[1:]) for n in [*old, *new]), default=0)
    for number, runs in new.items():
        if number not in partner:
            name = number
            if number in old:
                free += 1
                name = f"p{free}"
            made.added.extend((f"{name}.c{one.copy}", one) for one in runs)
            made.order.extend(f"{name}.c{one.copy}" for one in runs)
            continue
        for kept in old[partner[number]]:
            made.order.append(kept["run"])
            going = _going(standing, kept, runs[0].strand, words)
            if going is not None:
                made.going.append(going)
        _more(made, partner[number], len(old[partner[number]]), runs if partner[number][1:] in wanted else [])
    made.order.extend(run["run"] for run in standing.runs if run["run"] not in made.order)
    return made


def _more(made: Plan, number: str, there: int, laid: Sequence[Run]) -> None:
    """Copies that are wanted beyond those there are. Fewer take nothing away: what was begun stays."""
    runs = [(f"{number}.c{one.copy}", one) for one in laid[there:]]
    if runs:
        made.added.extend(runs)
        made.order.extend(run for run, _ in runs)
        made.more.append((laid[0].piece, len(runs), len(laid)))


def _number(run: str) -> str:
    """ "p1" of "p1.c2"."""
    return run.split(".")[0]


def _partners(old: dict[str, str], new: dict[str, str]) -> dict[str, str]:
    """New piece number -> old one: first by names that stand once on both sides, then by number."""
    names_old, names_new = list(old.values()), list(new.values())
    found: dict[str, str] = {}
    for number, name in new.items():
        if names_new.count(name) == 1 and names_old.count(name) == 1:
            found[number] = next(n for n, other in old.items() if other == name)
    for number in new:
        if number not in found and number in old and number not in found.values():
            found[number] = number
    return found


def _going(standing: Standing, kept: dict[str, Any], laid: Strand, words: bool) -> Going | None:
    state = standing.state.runs[kept["run"]]
    old = standing.strands[state.strand]
    new, mends = laid_anew(standing, kept["run"], laid)
    if state.at == old.length or old.id == new.id or (same_steps(old, new) and not words):
        return None
    return Going(
        kept["run"], kept["piece"], kept["copy"], kept["copies"], old, new, state.at,
        carry(old, new, state.at), changes(old, new, state.at), laid, mends,
    )  # fmt: skip


def moved(made: Plan, places: dict[str, int]) -> tuple[list[Moved], list[str]]:
    """Where each run goes, and the runs whose place has to be asked for first."""
    going, asked = [], []
    for one in made.going:
        to = places.get(one.run)
        if to is None and not one.carried.sure:
            asked.append(one.run)
        going.append(Moved(run=one.run, strand=one.new.id, to=one.carried.to if to is None else to))
    return going, asked


CHOSEN = "What you chose changes what you work by."

# -- in words ---------------------------------------------------------------


def shown(made: Plan, chosen: bool = False) -> dict[str, Any]:
    """A plan as pages get it: {say, runs, added, left, only_more}. `chosen`: what asks is a choice of the maker's.

    `only_more`: copies come in, and no step of what there is changes.
    """
    several = len({one.piece for one in made.going}) > 1
    said: list[str] = []
    for one in made.going:
        sentence = _changes_said(one)
        if sentence and not any(sentence in other for other in said):
            said.append(f"{one.piece}: {sentence}" if several and one.piece else sentence)
    more = {name for name, _, _ in made.more}
    said += [f"{name or 'The piece'}: {_copies(many)} more, {of} in all." for name, many, of in made.more]
    new = dict.fromkeys(one.piece for _, one in made.added if one.piece not in more)
    said += [f"{name or 'A piece'} is new." for name in new]
    said += [f"{name or 'A piece'} is not in it any more; what you have of it stays." for name in made.left]
    return {
        "say": " ".join([CHOSEN if chosen else "The pattern was changed.", *said]),
        "runs": [_run_shown(one) for one in made.going],
        "added": list(new),
        "left": made.left,
        "only_more": not made.going and not made.left and not new,
    }


def _copies(many: int) -> str:
    return "one copy" if many == 1 else f"{many} copies"


def _run_shown(one: Going) -> dict[str, Any]:
    begun = one.at != slide(one.old, 0)[0]
    return {
        "run": one.run, "piece": one.piece, "copy": one.copy, "copies": one.copies,
        "begun": begun, "sure": one.carried.sure,
        "from": place(one.old, one.at),
        "to": place(one.new, one.carried.to), "start": place(one.new, one.carried.start),
        "was": _course_text(one.old, one.at), "now": _course_text(one.new, one.carried.to),
        "missed": [
            {"address": cue.address, "kind": cue.kind, "text": cue.text}
            for cue in one.carried.missed
            if not cue.is_doubt  # of a course that is worked there is nothing to do any more
        ],
    }  # fmt: skip


def place(strand: Strand, at: int) -> dict[str, Any]:
    """A place for people: {at, say, label, kind, stitch, of}."""
    spot = locate(strand, at)
    course = None if spot.course is None else strand.courses[spot.course]
    if spot.finished:
        say = "at the end"
    elif course is None:
        say = f"behind the last {strand.courses[-1].kind}" if strand.courses else "at the start"
    elif spot.cue is not None and spot.stitch == 0:
        say = f"before {course.kind} {course.label}"
    elif spot.stitch == 0:
        say = f"{course.kind} {course.label}, at its start"
    else:
        made = f"{spot.stitch} of {spot.of} made" if spot.of else f"after stitch {spot.stitch}"
        say = f"{course.kind} {course.label}, {made}"
    return {
        "at": at, "say": say, "label": course.label if course else None, "kind": course.kind if course else None,
        "stitch": spot.stitch, "of": spot.of,
    }  # fmt: skip


def _course_text(strand: Strand, at: int) -> str:
    spot = locate(strand, at)
    return "" if spot.course is None else strand.courses[spot.course].text


def _changes_said(one: Going) -> str:
    """ "Rounds 9 and 10 are new. Round 3 is different; it lies behind you." """
    said: list[str] = []
    for what, is_, are in (("new", "is new", "are new"), ("different", "is different", "are different"),
                           ("gone", "is gone", "are gone")):  # fmt: skip
        for behind in (False, True):
            found = [change for change in one.changes if change.what == what and change.behind is behind]
            for kind in dict.fromkeys(change.kind for change in found):
                labels = [change.label for change in found if change.kind == kind]
                many = len(labels) > 1
                tail = f"; {'they lie' if many else 'it lies'} behind you" if behind else ""
                said.append(f"{kind.capitalize()}{'s' if many else ''} {listed(labels)} {are if many else is_}{tail}.")
    new, gone = cue_changes(one.old, one.new)
    said += [f"New: {cue.text.rstrip('.')}." for cue in new[:3]]
    said += [f"Not asked any more: {cue.text.rstrip('.')}." for cue in gone if not cue.is_doubt][:3]
    named = {course.id: f"{course.kind.capitalize()} {course.label}" for course in one.old.courses}
    said += [f"{named[cue.home]} adds up now." for cue in gone if cue.is_doubt][:3]
    return " ".join(said)


def listed(labels: list[str]) -> str:
    """ "9", "9 and 10", "3, 9 to 12 and 14"."""
    parts: list[list[str]] = []
    for label in labels:
        last = parts[-1][-1] if parts else ""
        if label.isdecimal() and last.isdecimal() and int(label) == int(last) + 1:
            parts[-1].append(label)
        else:
            parts.append([label])
    said = [
        text
        for part in parts
        for text in ([f"{part[0]} to {part[-1]}"] if len(part) > 2 else part)
    ]  # fmt: skip
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"
