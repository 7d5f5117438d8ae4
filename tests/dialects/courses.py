"""One course or a run of them, as a line: body, count, join and turn, label."""

from __future__ import annotations

from itertools import pairwise

from . import counts, evens, labels, layout, repeats, shaping, starts
from .amounts import in_words, last, plain, short, stitch
from .dialect import Dialect
from .layout import Line
from .made import Again, Change, Course, Part, Piece, Plain

SEPARATORS = {
    ", ": 8,
    "; ": 0.7,
    " then ": 0.4,
    ", then ": 0.7,
    " / ": 0.3,
    " + ": 0.3,
    ",": 0.6,
    " ": 0.5,
    " and ": 0.2,
    "\n": 0.25,
    " , ": 0.2,
}
JOINS = {
    ", sl st to join, ch 1": 1, ", join with sl st to first st": 1, ". Join.": 0.5, ", sl st in first st": 0.8,
    ". Sl st to join.": 0.8, ", ss to join": 0.4, ". Join with a slip stitch in the first sc, ch 1.": 0.5,
    ", join": 0.5, "; join.": 0.2,
}  # fmt: skip


def _separator(d: Dialect, body: list[str]) -> str:
    """Rule: nothing but a blank between parts only where each is a number and a name."""
    sep = d.pick("body.separator", SEPARATORS)
    if sep == " " and d.pick("count.often", counts.OFTEN) != "always":
        return ", "
    if sep == " and " and any(b.endswith((" one st", " 1 st", "same st", "same stitch")) for b in body):
        return ", "
    if sep in (" ", ",") or sep == " + ":
        simple = all(len(b.split()) <= 2 and (b[:1].isdigit() or b.isalpha() or b[:1] in "([{*") for b in body)
        numbered = [b for b in body if b[:1].isdigit()]
        if sep == " " and (not simple or (not numbered and len(body) > 2)):
            return ", "
    if sep in (" ", ",") and any(
        b[:1].isdigit() and (a[-1:].isdigit() or (sep == " " and not a[:1].isdigit())) for a, b in pairwise(body)
    ):
        return ", "
    if sep == " and " and len(body) > 2:
        return ", "
    return sep


def _inner(d: Dialect, parts: tuple[Plain | Change, ...]) -> str:
    words = [
        plain(d, p.n) if isinstance(p, Plain) else shaping.change(d, p.kind)
        for p in parts
        if not isinstance(p, Plain) or p.n
    ]
    sep = _separator(d, words)
    return (", " if sep == "\n" else sep).join(words)


def shaped(d: Dialect, parts: tuple[Part, ...], flat: bool, counted: bool) -> str:
    """The body of a course that shapes."""
    around = "across" if flat else "around"
    if len(parts) == 1 and isinstance(parts[0], Again) and len(parts[0].parts) == 1:
        only = parts[0].parts[0]
        assert isinstance(only, Change)
        return shaping.all_round(d, only.kind, parts[0].times, around, counted)
    words: list[str] = []
    for at, part in enumerate(parts):
        behind = parts[at + 1 :]
        if isinstance(part, Plain):
            if part.n:
                words.append(plain(d, part.n) if behind or not at else last(d, part.n))
        elif isinstance(part, Change):
            words.append(shaping.changes(d, part.kind, part.n, counted))
        elif len(part.parts) == 1 and isinstance(part.parts[0], Change):
            words.append(shaping.changes(d, part.parts[0].kind, part.times, counted))
        else:
            rest = 0 if not behind else None
            if len(behind) == 1 and isinstance(behind[0], Plain):
                rest = behind[0].n
            words.append(repeats.again(d, _inner(d, part.parts), part.times, first=not at, rest=rest, counted=counted))
    sep = _separator(d, words)
    return sep.join(words)


def _turned(d: Dialect, body: str, first: bool, final: bool) -> str:
    """Rows turn: told before, told behind, or told once for all."""
    how = d.pick(
        "rows.turn",
        {
            "ch 1, turn, ": 2,
            "Turn, ch 1, ": 1,
            ", ch 1, turn": 2,
            "; turn": 0.7,
            ". Ch 1, turn.": 1,
            "once": 1,
            "Ch 1. ": 0.7,
        },
    )
    if how == "once":
        return body
    if how[0] in ",;.":
        return body if final else body + how
    return body if first else how + body


def _joined(d: Dialect, body: str, course: Course) -> str:
    if d.pick("rounds.worked", {"spiral": 8, "joined": 2}) == "spiral":
        return body
    if course.number > 1 and d.has("rounds.ch 1 in front", 0.4):
        body = "Ch 1, " + body
    return body


def _join(d: Dialect, flat: bool) -> str:
    if flat or d.pick("rounds.worked", {"spiral": 8, "joined": 2}) == "spiral":
        return ""
    return d.pick("rounds.join", JOINS)


def _body(d: Dialect, piece: Piece, run: list[Course], before: Course | None, counted: bool) -> tuple[str, str]:
    """(a line of its own before the course, the body)."""
    course = run[0]
    if course.how in ("ring", "oval", "chain"):
        return starts.start(d, course)
    if course.how == "even":
        if course.echo and len(run) > 1 and d.chosen.get("even.echoes") == "range":
            form = d.pick("even.echo", {
                "repeat rows 2 and 3": 2, "rep rows 2-3": 2, "Repeat Rows 2 & 3": 1,
                "repeat rows 2 and 3 alternately": 0.3, "as rows 2 and 3": 0.5,
            })  # fmt: skip
            if len(run) % 2 == 0 and d.has("even.echo times", 0.3):
                form += {2: " once", 4: " twice"}.get(len(run), f" {in_words(len(run) // 2)} times")
            return "", form
        again = before is not None and before.how == "even" and not before.tints and before.loops == course.loops
        if again and not course.tints and d.has("even.by reference", 0.12):
            assert before is not None
            other = labels.named(d, before.number, piece.flat)
            form = d.pick("even.reference", {
                "repeat round 6": 3, "rep round 6": 1, "as round 6": 0.7, "same as round 6": 1,
                "same as last round": 1, "work as round 6": 0.3, "repeat the last round": 0.7, "as before": 0.0,
                "repeat previous round": 0.5, "see round 6": 0.05,
            })  # fmt: skip
            form = form.replace("round 6", other)
            return "", form.replace("round", "row") if piece.flat else form
        return "", evens.even(d, course, piece.flat, only_count=len(run) > 1)
    return "", shaped(d, course.parts, piece.flat, counted)


def course_lines(
    d: Dialect, piece: Piece, run: list[Course], before: Course | None, tint: str
) -> tuple[list[Line], bool]:
    """The lines of a run of courses, and whether a count is printed."""
    course = run[0]
    behind_label, count = counts.dressed(d, course)
    counted = bool(behind_label or count)
    own, body = _body(d, piece, run, before, counted)
    if body.isdigit() and course.how == "even":
        behind_label = count = ""
        counted = True
    elif piece.flat and not (course.echo and len(run) > 1):
        body = _turned(d, body, course.how == "chain", course is piece.courses[-1])
    else:
        body = _joined(d, body, course)
    joining = "" if body.isdigit() else _join(d, piece.flat)
    if tint:
        body = f"with {tint}, {body}"
    if d.has("body.capital", 0.45) and not short(d):
        body = body[:1].upper() + body[1:]
    if counted:
        body = layout.scanned(d, body, f"{piece.name}{course.number}")
    if count and count[0] != " " and count[0] not in ".;:," and body[-1:].isdigit():
        count = " " + count.lstrip()
    bare = count.strip(" .-=;:\u2013\u2014>")
    if count and bare[:1].isdigit() and ")" not in count and "]" not in count and stitch(d) in count.split():
        count = count.replace(stitch(d), "sts")
    if body.endswith(".") and count.startswith("."):
        count = count[1:]
    label = labels.label(d, [c.number for c in run], piece.flat, behind_label)
    if (
        label.endswith(" ")
        and label.rstrip()[-1:].isalnum()
        and (body[:1].isdigit() and d.chosen["label.word"] not in ("R", "r"))
    ):
        label = label.rstrip() + ": "
    if d.chosen.get("layout.bold labels") == "yes":
        bare = label.rstrip(": .\t")
        label = f"**{label.strip()}** " if d.has("layout.bold with its sign", 0.6) else f"**{bare}**: "
    lines = [Line("said", own)] if own else []
    marked = count.rstrip(" .")[-1:] in (")", "]", "}", ">") or "=" in count
    behind = joining + count if d.has("rounds.join before the count", 0.5) or not marked else count + joining
    if joining.endswith(".") and behind.startswith(joining) and count.startswith((".", ",", ";", ":")):
        behind = joining + " " + count.lstrip(".,;: ")
    stop = "." if d.has("body.full stop", 0.2) and not (body + behind).endswith(".") else ""
    cell = str(course.makes + course.misprint) if count else ""
    text = label + body + behind + stop
    lines.append(Line("course", text, label, body + joining, cell))
    return lines, counted or body.isdigit()
