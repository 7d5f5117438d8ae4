"""Courses that shape nothing: "sc in each st around", "24 sc", "work even"."""

from __future__ import annotations

from .amounts import cased, plain, short, stitch, worded
from .dialect import Dialect
from .made import Course

FORMS = {
    "sc in each st around": 5, "sc around": 2.5, "24 sc": 3, "sc in each st": 1.5, "1 sc in each st": 0.7,
    "sc in every stitch": 0.5, "sc all around": 0.5, "sc in each sc around": 0.6, "sc in all 24 sts": 0.6,
    "sc evenly around": 0.3, "1 sc in each st around": 0.6, "sc in each stitch around": 0.6, "sc in all sts": 0.4,
    "work even": 1, "even": 0.3, "work even around": 0.2, "no changes": 0.1, "work 1 round even": 0.0,
    "sc into each st around": 0.4, "sc in each of the 24 sts": 0.3, "sc the whole round": 0.1, "sc even": 0.1,
    "sc without increasing": 0.1, "plain round": 0.0, "sc in each st to end": 0.4, "work in sc around": 0.2,
    "work one sc in each st": 0.2, "sc every st": 0.2, "sc in next 24 sts": 0.5,
}  # fmt: skip
SHORTER = {"24X": 1}
LOOPS = {
    "in BLO, ": 1.5, "BLO: ": 1, "(BLO) ": 0.6, " in BLO": 2, " (BLO)": 1, "working in back loops only, ": 1,
    " in back loops only": 0.8, " through the back loops only": 0.4, "BLO ": 0.6, " blo": 0.8,
    "in the back loop only ": 0.6,
}  # fmt: skip


def _loops(d: Dialect, text: str, loops: str) -> str:
    form = d.pick("loops.form", {k: v for k, v in LOOPS.items() if not worded(d) or "oop" in k})
    if loops == "front":
        form = form.replace("BLO", "FLO").replace("blo", "flo").replace("back", "front")
    return form + text if form[0] != " " else text + form


def even(d: Dialect, course: Course, flat: bool, only_count: bool = False) -> str:
    """The body of an even course. `only_count`: in a range a bare number will do ("R6-R9: 24")."""
    if course.tints:
        form = d.pick(
            "colour.inside", ["9 sc in red", "(red) 9 sc", "with red, 9 sc", "red: 9 sc", "9 sc (red)", "red 9 sc"]
        )
        return ", ".join(form.replace("9 sc", plain(d, n)).replace("red", c) for n, c in course.tints)
    n, s = course.makes, stitch(d)
    if short(d):
        text = f"{n}{s}"
    elif course.loops:
        text = f"{s} in each st {'across' if flat else 'around'}"
    else:
        if only_count and d.chosen["layout.how"] != "table" and d.has("even.only a number", 0.05):
            return str(n)
        form = d.pick("even.form", FORMS)
        if flat:
            form = (
                form.replace("the whole round", "in each st")
                .replace("all around", "across")
                .replace("around", "across")
            )
        if "24 sc" in form or form == "sc in next 24 sts":
            text = plain(d, n)
        else:
            text = form.replace("sc", s).replace("24", str(n))
    if course.loops:
        text = _loops(d, text, course.loops)
    return text


def upper_first(text: str) -> str:
    return text[:1].upper() + text[1:]


__all__ = ["cased", "even", "upper_first"]
