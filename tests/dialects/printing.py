"""A whole pattern in one maker's dialect, with its truth.

What a human could not follow is left out, by rule:
- a text in UK terms, in letters or in an author's own words says so at its head;
- no bracket at all around a repeat only where the repeat is the whole course;
- "rep from * 6 times" (five more or six more?) is never written, and "..., repeat 6 times" without brackets only
  beside a printed count;
- a course without a printed count has a body that stands alone;
- a label with no sign behind it is never followed by a figure, but for a letter glued to its number ("R3 24sc");
- a count without a bracket says "sts" or nothing, never the stitch ("..., inc. 24 sc" might be more work);
- "same as last round" only behind an even round;
- where an X is a stitch, nothing like "x6" stands before a repeat;
- one paragraph needs labels with a word and a sign;
- a blank alone between parts never stands between a change and a figure ("dec 2 sc" might be two decreases), a comma
  without a blank never between two figures;
- "and" never before "2 sc in one st" (it might be one stitch with all of them in it), nor a blank alone before a change
  that a name could go with ("dc inc") where no count is printed;
- a table has a column for its counts, and a number in words or before its word ("3 rnd") has a sign behind it;
- a count with no bracket and no equals sign stands at the very end, behind the join.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from . import between, counts, headings, labels, layout
from .amounts import base, short, stitch, tongue
from .courses import SEPARATORS, course_lines
from .dialect import Dialect
from .layout import Line
from .made import Course, Piece, Whole, pattern
from .runs import others, runs


@dataclass
class Printed:
    text: str
    truth: dict[str, Any]
    marks: dict[tuple[str, str], set[str]] = field(
        default_factory=dict
    )  # (piece, label) -> choices it was printed with
    lines: dict[tuple[str, str], str] = field(default_factory=dict)


def _settled(d: Dialect) -> None:
    """Choices that others depend on, and those that would not go together."""
    how = d.pick("layout.how", {"lines": 8, "table": 0.8, "paragraph": 0.8})
    tongue(d)
    base(d)
    w = d.pick("label.word", labels.WORDS)
    if how == "lines" and w and d.has("layout.bold labels", 0.08):
        for name in ("repeat.road", "repeat.bracket"):
            if "star" in d.pick(name, {"number": 1} if name.endswith("road") else {"round": 1}):
                d.chosen[name] = "number"
    if how == "table":
        d.chosen["count.where"] = "end"  # a table has a column for it
    if how == "paragraph":
        if not w:
            d.chosen["label.word"] = "Rnd"
        d.chosen["label.mark"] = d.chance("paragraph").choice([": ", " - ", ". "])
        if d.pick("count.dress", counts.DRESS)[-1] not in ")]}>":
            d.chosen["count.dress"] = " (24)"
    if "*" in d.pick("count.dress", counts.DRESS):
        d.chosen |= {"repeat.road": "number", "repeat.bracket": "round"}  # rule: stars are one thing in a text
    sep = d.pick("body.separator", SEPARATORS)
    if sep == " + " and short(d):
        sep = d.chosen["body.separator"] = ", "
    if d.pick("count.where", counts.WHERE) == "before":
        for name in ("label.mark", "label.mark of a number"):
            if ")" in d.pick(name, labels.MARKS if name == "label.mark" else labels.NUMBER_MARKS):
                d.chosen[name] = ": "
    if sep == "\n" and (how != "lines" or not w or short(d)):
        d.chosen["body.separator"] = ", "


def _piece(d: Dialect, piece: Piece, at: int, out: Printed) -> list[Line]:
    d.marks = set()
    head = headings.heading(d, piece, at)
    lines = [Line("heading", h) for h in head]
    note = between.note(d, piece)
    if note:
        lines.append(Line("said", note))
    about = d.marks
    courses: list[dict[str, Any]] = []
    tint = ""
    before: Course | None = None
    for run in runs(d, piece):
        d.marks = set()
        sentence = None if tint else others(d, piece, run, before)
        if sentence is not None:
            d.pick("even.runs", [])
            d.pick("even.echoes", [])
            new, counted = [Line("said", sentence)], False
        else:
            new, counted = course_lines(d, piece, run, before, tint)
        tint = ""
        lines += new
        for course in run:
            key = (piece.name, str(course.number))
            out.marks[key] = set(d.marks)
            out.lines[key] = new[-1].text
            courses.append({
                "label": str(course.number), "kind": "row" if piece.flat else "round", "uses": course.uses,
                "makes": course.makes, "declared": course.makes + course.misprint if counted else None,
            })  # fmt: skip
            if course.misprint and counted:
                out.truth["mistakes"].append({"piece": piece.name, "course": str(course.number), "why": "demo"})
        before = run[-1]
        for job in piece.jobs:
            if job.after != before.number:
                continue
            sentence, cues = between.told(d, job)
            out.truth["cues"] += [{**c, "piece": piece.name} for c in cues]
            if job.kind == "colour" and d.has("colour.in the next label", 0.25):
                tint = job.about
            elif d.has("job.behind the course", 0.2) and d.chosen["layout.how"] == "lines" and job.kind != "colour":
                course_line = lines[-1]
                course_line.text += ("" if course_line.text[-1] in ".!)]}" else ".") + " " + sentence
            else:
                lines.append(Line("said", sentence))
        talk = between.story(d, f"{piece.name}{before.number}")
        if talk:
            lines.append(Line("said", talk))
    for key in [k for k in out.marks if k[0] == piece.name]:
        out.marks[key] |= about
    out.truth["pieces"].append({"name": piece.name, "make": piece.make, "courses": courses})
    lines.append(Line("said", ""))
    return lines


def _top(d: Dialect, whole: Whole) -> list[Line]:
    out = [whole.title, ""]
    if d.has("top.materials", 0.6):
        out += ["Materials:", "- cotton yarn in blue, white and red", "- 3 mm hook", "- fibrefill", ""]
    if d.has("top.gauge", 0.15):
        out += ["Gauge: 5 stitches and 5 rounds = 2 cm", ""]
    kind = tongue(d)
    if kind == "UK":
        out += [d.pick("top.terms", [
            "UK terms", "This pattern uses UK terms throughout.", "Written in UK crochet terminology", "(UK terms)",
            "British terms are used: dc is the US single crochet.", "Terms: UK",
        ]), ""]  # fmt: skip
    elif kind == "letters":
        out += [*d.pick("top.letters", [
            "X - single crochet, V - increase, A - decrease", "X = sc\nV = inc\nA = dec",
            "X: single crochet\nV: increase\nA: decrease",
        ]).split("\n"), ""]  # fmt: skip
    elif kind == "own":
        inc, dec = d.pick("shaping.own", {"i and d": 2, "inc and dec": 2}).split(" and ")
        s = stitch(d)
        sign = d.pick("top.own sign", [" = ", ": ", " - "])
        out += ["Abbreviations:", f"{s}{sign}single crochet", f"{inc}{sign}increase (2 single crochet in one stitch)",
                f"{dec}{sign}decrease (single crochet 2 together)", ""]  # fmt: skip
    elif d.has("top.abbreviations", 0.35):
        out += [
            "Abbreviations",
            "ch = chain",
            "sc = single crochet",
            "inc = increase",
            "dec = decrease",
            "st(s) = stitch(es)",
            "",
        ]
    if d.chosen.get("rounds.worked") == "joined" and (base(d) == "hdc" or d.has("top.chain told", 0.5)):
        out += ["The ch 1 at the beginning of a round does not count as a stitch.", ""]
    if d.chosen.get("rows.turn") == "once" and any(p.flat for p in whole.pieces):
        out += ["In rows, ch 1 and turn at the end of every row.", ""]
    return [Line("top", t) for t in out]


def printed(number: int) -> Printed:
    """Text number `number` with its truth."""
    d = Dialect(number)
    whole = pattern(d.chance("pattern"))
    _settled(d)
    out = Printed(
        "", {"style": "dialect", "terms": "UK" if tongue(d) == "UK" else "US", "pieces": [], "cues": [], "mistakes": []}
    )
    lines: list[Line] = []
    for at, piece in enumerate(whole.pieces, 1):
        lines += _piece(d, piece, at, out)
    d.marks = set()
    lines = _top(d, whole) + lines
    if d.has("end.assembly", 0.5):
        lines += [Line("heading", "Assembly"), Line("said", f"Sew everything to the {whole.pieces[0].name.lower()}.")]
        out.truth["pieces"].append({"name": "Assembly", "make": 1, "courses": []})
        out.truth["cues"].append({"piece": "Assembly", "after": "0", "kind": "sew"})
    out.text = layout.laid(d, lines)
    marks = set(d.marks)
    for m in out.marks.values():
        m |= marks
    return out
