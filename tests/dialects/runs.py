"""Which courses are told in one breath, and which only in a sentence behind another."""

from __future__ import annotations

from . import labels
from .dialect import Dialect
from .made import Course, Piece


def alike(one: Course, other: Course) -> bool:
    plain = one.how == other.how == "even" and not (one.tints or other.tints) and not (one.misprint or other.misprint)
    return plain and one.loops == other.loops == "" and not (one.echo or other.echo)


def runs(d: Dialect, piece: Piece) -> list[list[Course]]:
    """Courses that are printed in one: neighbouring even ones with nothing between, a repetition of two rows."""
    stops = {j.after for j in piece.jobs}
    how = d.pick(
        "even.runs", {"range": 7, "each by itself": 2.5, "first, then the others": 1, "others in a sentence": 1}
    )
    echoed = d.pick("even.echoes", {"range": 3, "sentence": 1, "each by itself": 1.5})
    out: list[list[Course]] = []
    for course in piece.courses:
        before = out[-1][-1] if out else None
        if (
            before is not None
            and course.echo
            and before.echo
            and echoed != "each by itself"
            and before.number not in stops
        ):
            out[-1].append(course)
            continue
        same = before is not None and alike(before, course) and before.number not in stops and how != "each by itself"
        first_of_all = len(out) < 2 or not alike(out[-2][-1], out[-1][0]) or out[-2][-1].number in stops
        if same and (how == "range" or len(out[-1]) > 1 or not first_of_all):
            out[-1].append(course)
        else:
            out.append([course])
    return out


def others(d: Dialect, piece: Piece, run: list[Course], before: Course | None) -> str | None:
    """A run told as a sentence behind the course before it: "Repeat round 6 three more times." """
    if before is None or piece.courses[-1] is before:
        return None
    kind = "row" if piece.flat else "round"
    n = len(run)
    if run[0].echo and n % 2 == 0 and d.chosen.get("even.echoes") == "sentence":
        times = {1: "once more", 2: "twice more"}.get(n // 2, f"{n // 2} more times")
        return d.pick(
            "even.echo sentence", ["Repeat rows 2 and 3 T.", "Rep rows 2-3 T.", "Repeat the last two rows T."]
        ).replace("T", times)
    if alike(before, run[0]) and d.chosen.get("even.runs") == "others in a sentence":
        times = {1: "once more", 2: "twice more"}.get(n, f"{n} more times")
        form = d.pick("even.others", [
            "Repeat round 6 T.", "Repeat the last round T.", "Rep last round T", "Work N more rounds even.",
            "Work another N rounds in the same way.",
        ])  # fmt: skip
        form = form.replace("round 6", labels.named(d, before.number, piece.flat)).replace(
            "N more rounds", f"{n} more rounds" if n > 1 else "1 more round"
        )
        form = form.replace("another N rounds", f"another {n} rounds" if n > 1 else "another round").replace("T", times)
        return form.replace("round", kind)
    return None
