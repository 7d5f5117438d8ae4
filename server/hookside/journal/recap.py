"""A making in a few words, for the shelf."""

from __future__ import annotations

from typing import Any

from hookside.follow import State, locate, suggest
from hookside.journal.standing import Standing


def recap(standing: Standing) -> dict[str, Any]:
    """{head, worked, terms, in_hand, finished, asides, edited}.

    When it was last worked and in whose words, where the run in hand stands, what is open.
    """
    return {
        "head": standing.head,
        "worked": standing.worked,
        "terms": standing.terms,
        "in_hand": _in_hand(standing),
        "finished": standing.finished,
        "asides": len(standing.open_asides()),
        "edited": standing.edited is not None,
    }


def _in_hand(standing: Standing) -> dict[str, Any] | None:
    name = standing.state.in_hand
    if name is None:
        return None
    run = standing.state.runs[name]
    strand = standing.strands[run.strand]
    spot = locate(strand, run.at)
    course = None if spot.course is None else strand.courses[spot.course]
    ahead = spot.next_cue
    cue = spot.cue or (strand.cue_at[ahead.step] if ahead else None)
    laid = next(one for one in standing.runs if one["run"] == name)
    return {
        "run": name,
        "piece": laid["piece"],
        "copy": laid["copy"],
        "copies": laid["copies"],
        "label": course.label if course else None,
        "kind": course.kind if course else None,
        "stitch": spot.stitch,
        "of": spot.of,
        "next_cue": {
            "kind": cue.kind,
            "text": cue.text,
            "distance_courses": 0 if spot.cue or ahead is None else ahead.distance_courses,
            "waits": spot.cue is not None,
        }
        if cue
        else None,
        "then": _then(standing, name) if course is None else None,
    }


def _then(standing: Standing, name: str) -> dict[str, Any] | None:
    """What the order of work has in hand behind a run whose last stitch is made; nothing where no other one is left.

    A section that is only sewn or finished has no courses: nothing of it is still to be crocheted.
    """
    state = standing.state
    run = state.runs[name]
    worked = run.model_copy(update={"at": standing.strands[run.strand].length})
    behind = State(in_hand=name, head=state.head, runs={**state.runs, name: worked})
    other = suggest(standing.order, [one["run"] for one in standing.runs], behind, standing.strands)
    if other is None:
        return None
    laid = next(one for one in standing.runs if one["run"] == other)
    courses = bool(standing.strands[state.runs[other].strand].courses)
    return {"piece": laid["piece"], "copy": laid["copy"], "copies": laid["copies"], "crocheted": courses}
