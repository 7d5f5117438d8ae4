"""A making in a few words, for the shelf."""

from __future__ import annotations

from typing import Any

from hookside.follow import locate
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
    }
