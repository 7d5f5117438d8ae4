"""Replays a vector on an implementation of following, and says where it first differs."""

from __future__ import annotations

from typing import Any

from reading import told


def difference(follow: Any, case: dict[str, Any]) -> str | None:
    """The first move after which `follow` (the room, or a changed copy of it) is not as the vector says."""
    strands = {name: follow.Strand.model_validate(strand) for name, strand in case["laid"].items()}
    runs = [run for run, _ in case["runs"]]
    order = follow.Order.model_validate(case.get("order", {"kind": "one"}))
    state = start = follow.begin(case["runs"], strands)
    rows = []
    for row, move in enumerate(case["moves"], 1):
        intent = follow.Intent.model_validate({"run": runs[0], **move["do"]})
        rows.append((row, intent))
        done = follow.apply(state, strands, row, intent)
        seen: dict[str, Any] = {}
        if isinstance(done, follow.Refusal):
            seen["refusal"] = done.code
        else:
            state = done.state
            seen |= done.outcome.model_dump(mode="json")
            if state.head != row:
                return f"after move {row} the head is {state.head}"
        if intent.run in state.runs:
            run = state.runs[intent.run]
            strand = strands[run.strand]
            seen |= {
                "in_hand": state.in_hand,
                "counts": run.counts,
                "history": [past.row for past in run.history],
                "status": follow.status(state, intent.run, strand),
                "suggest": follow.suggest(order, runs, state, strands),
            }
            if "spot" in move:
                spot = told(follow.locate(strand, run.at))
                seen["spot"] = {key: spot[key] for key in move["spot"]}
        expected = {key: value for key, value in move.items() if key != "do"}
        if "refusal" in seen and "refusal" not in move:
            return f"move {row} is refused: {seen['refusal']}"
        found = {key: seen.get(key, "absent") for key in expected}
        if found != expected:
            return f"move {row}: expected {expected}, found {found}"
    if follow.replay(start, strands, rows) != state:
        return "replay differs from stepping"
    return None
