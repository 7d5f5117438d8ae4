"""The vectors, replayed move by move. frontend/src/follow/stepping.test.ts does the same in TypeScript."""

from __future__ import annotations

import subprocess
import sys
from typing import Any

import pytest
from reading import HERE, told, vectors

from hookside.follow import Applied, Intent, Order, Refusal, apply, begin, locate, replay, status, suggest

CASES = {f"{folder}/{name}": case for folder in ("follow", "bad", "traces") for name, case in vectors(folder).items()}


def test_there_are_vectors_of_every_kind() -> None:
    assert {name.split("/")[0] for name in CASES} == {"follow", "bad", "traces"}
    assert {case["format"] for case in CASES.values()} == {1}


@pytest.mark.parametrize("name", CASES)
def test_case(name: str) -> None:
    case: dict[str, Any] = CASES[name]
    assert case["why"]
    strands, runs = case["laid"], [run for run, _ in case["runs"]]
    order = Order.model_validate(case.get("order", {"kind": "one"}))
    state = start = begin(case["runs"], strands)
    rows = []
    for row, move in enumerate(case["moves"], 1):
        intent = Intent.model_validate({"run": runs[0], **move["do"]})
        rows.append((row, intent))
        done = apply(state, strands, row, intent)
        seen: dict[str, Any] = {}
        if isinstance(done, Refusal):
            seen["refusal"] = done.code
        else:
            state = done.state
            seen |= done.outcome.model_dump(mode="json")
            assert state.head == row
        if intent.run in state.runs:
            run = state.runs[intent.run]
            strand = strands[run.strand]
            seen |= {
                "in_hand": state.in_hand,
                "counts": run.counts,
                "history": [past.row for past in run.history],
                "status": status(state, intent.run, strand),
                "suggest": suggest(order, runs, state, strands),
            }
            spot = told(locate(strand, run.at))
            if "spot" in move:
                seen["spot"] = {key: spot[key] for key in move["spot"]}
        assert isinstance(done, Applied) == ("refusal" not in move), f"move {row} of {name}: {seen}"
        expected = {key: value for key, value in move.items() if key != "do"}
        assert {key: seen.get(key, "absent") for key in expected} == expected, f"move {row} of {name}"
    assert replay(start, strands, rows) == state


def test_what_is_made_by_program_is_still_what_it_makes() -> None:
    done = subprocess.run([sys.executable, str(HERE / "write.py"), "--check"], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
