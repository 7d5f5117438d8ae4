"""Writes what of the vectors is made by program, or checks that it is still what the program makes.

    python tests/vectors/write.py           writes strands/ and traces/
    python tests/vectors/write.py --check   exit 1 where a file differs

The cases in follow/ and bad/ are written by hand from the meaning of the strands and are never touched here.
A changed trace needs a sentence in the commit that says why.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1] / "server")]

from laying import Cue, Round, group, lay, small_strands, times  # noqa: E402
from reading import told, write_json  # noqa: E402

from hookside.follow import Applied, Intent, Order, State, Strand, apply, begin, locate, status, suggest  # noqa: E402
from hookside.pattern import Node  # noqa: E402

SEED = 20240317
TRACES = 24
MOVES = 60
LABELS = [str(n) for n in range(1, 9)]


def random_body(rng: random.Random, depth: int = 0) -> list[Node]:
    nodes: list[Node] = []
    for _ in range(rng.randint(1, 3)):
        if depth < 3 and rng.random() < 0.4:
            nodes.append(times(rng.randint(1, 4), *random_body(rng, depth + 1)))
        else:
            nodes.append(group(rng.choice(["sc", "inc", "dec", "ch", "hdc", "shell", "sc"]), rng.randint(1, 5)))
    if depth == 0 and rng.random() < 0.2:
        nodes.insert(0, group("skip"))
    return nodes


def random_cue(rng: random.Random, at: int | None = None) -> Cue:
    weight = rng.choice(["stop", "pause", "whisper", "whisper"])
    return Cue(weight, rng.choice(["stuff", "colour", "marker", "eyes"]), at)  # type: ignore[arg-type]


def random_strand(rng: random.Random, name: str) -> Strand:
    items: list[Round | Cue] = [random_cue(rng) for _ in range(rng.choice([0, 0, 1]))]
    for label in LABELS[: rng.randint(2, 8)]:
        if rng.random() < 0.12:
            items.append(Round(label, read=False))
        elif rng.random() < 0.25:
            items.append(Round(label, [group("sc", rng.randint(3, 12))], plain=True))
        else:
            body = random_body(rng)
            most = sum(node.makes * node.count for node in body if node.type == "group")
            inside = sorted(rng.randint(0, most) for _ in range(rng.choice([0, 0, 1, 2])))
            items.append(Round(label, body, cues=[random_cue(rng, at) for at in inside]))
        items += [random_cue(rng) for _ in range(rng.choice([0, 1, 1, 2]))]
    return lay(name, items)


def random_intent(rng: random.Random, state: State, strands: dict[str, Strand]) -> dict[str, Any]:
    """A likely move: mostly onwards, sometimes back, answers where they are wanted, now and then nonsense."""
    run = state.in_hand if state.in_hand and rng.random() < 0.85 else rng.choice(list(state.runs))
    here = state.runs[run]
    strand = strands[here.strand]
    cue, unread = strand.cue_at.get(here.at), strand.unread_at.get(here.at)
    intent: dict[str, Any] = {"run": run}
    if unread and rng.random() < 0.7:
        return {**intent, "intent": "done", "cue": unread.id, "count": rng.randint(0, 60)}
    if cue and cue.weight == "stop" and rng.random() < 0.7:
        return {**intent, "intent": "done", "cue": cue.address}
    if here.at == strand.length and rng.random() < 0.8:
        return {**intent, "intent": rng.choice(["rip", "goto"]), "to": rng.randint(0, strand.length)}
    unit = rng.choice(["stitch", "group", "repeat", "round", "plain", "plain"])
    kind = rng.choices(
        ["next", "back", "goto", "rip", "undo", "take", "count", "done", "settle"], [60, 12, 4, 4, 9, 2, 2, 2, 1]
    )[0]
    intent["intent"] = kind
    if kind in ("next", "back"):
        intent["unit"] = unit
    elif kind in ("goto", "settle"):
        intent["to"] = min(strand.length + 1, max(-1, here.at + rng.randint(-25, 40)))
    elif kind == "rip":
        intent["to"] = here.at - rng.randint(-1, 30)
    elif kind == "undo":
        intent["undoes"] = here.history[-1].row if here.history and rng.random() < 0.9 else rng.randint(1, 50)
    elif kind == "count":
        intent["n"] = rng.randint(0, 40)
    elif kind == "done":
        intent["cue"] = rng.choice(strand.cues).address if strand.cues else "none"
    return intent


def after(order: Order, runs: list[str], strands: dict[str, Strand], state: State, intent: Intent) -> dict[str, Any]:
    """All a trace says of the state after a move."""
    run = state.runs[intent.run]
    strand = strands[run.strand]
    return {
        "in_hand": state.in_hand,
        "counts": run.counts,
        "history": [past.row for past in run.history],
        "status": status(state, intent.run, strand),
        "spot": told(locate(strand, run.at)),
        "suggest": suggest(order, runs, state, strands),
    }


def trace(number: int) -> dict[str, Any]:
    rng = random.Random(SEED + number)
    strands = {name: random_strand(rng, name) for name in ("gull", "seal")[: rng.randint(1, 2)]}
    runs = [("p1.c1", "gull"), ("p1.c2", "gull"), ("p2.c1", list(strands)[-1])][: rng.randint(1, 3)]
    order = Order.model_validate(
        rng.choice([{"kind": "one"}, {"kind": "pair"}, {"kind": "level", "label": rng.choice(LABELS)}])
    )
    state = begin(runs, strands)
    moves = []
    for row in range(1, MOVES + 1):
        told_intent = random_intent(rng, state, strands)
        intent = Intent.model_validate(told_intent)
        done = apply(state, strands, row, intent)
        move: dict[str, Any] = {"do": told_intent}
        if isinstance(done, Applied):
            state = done.state
            move |= done.outcome.model_dump(mode="json", exclude={"run"})
        else:
            move["refusal"] = done.code
        moves.append(move | after(order, [run for run, _ in runs], strands, state, intent))
    return {
        "format": 1,
        "name": f"trace {number}",
        "why": f"random moves on random strands, seed {SEED + number}",
        "laid": {name: strand.model_dump(mode="json") for name, strand in strands.items()},
        "runs": runs,
        "order": order.model_dump(mode="json"),
        "moves": moves,
    }


def made() -> dict[Path, str]:
    files = {
        HERE / "strands" / f"{name}.json": write_json(strand.model_dump(mode="json"), deep="courses cues")
        for name, strand in small_strands().items()
    }
    for number in range(1, TRACES + 1):
        files[HERE / "traces" / f"{number:02}.json"] = write_json(trace(number), deep="moves")
    return files


def main(arguments: list[str]) -> int:
    files = made()
    present = {path for folder in ("strands", "traces") for path in (HERE / folder).glob("*.json")}
    if arguments == ["--check"]:
        differing = {path for path, text in files.items() if path not in present or path.read_text("utf-8") != text}
        for path in sorted(differing | (present - set(files))):
            print(f"{path.relative_to(HERE)} is not what tests/vectors/write.py makes")
        return 1 if differing or present - set(files) else 0
    if arguments:
        print(__doc__)
        return 2
    for path in present - set(files):
        path.unlink()
    for path, text in files.items():
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, "utf-8", newline="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
