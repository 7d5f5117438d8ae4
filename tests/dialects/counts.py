"""Printed counts: where they stand, in what dress, of what, and at which courses."""

from __future__ import annotations

from .amounts import short, stitch
from .dialect import Dialect
from .made import Course

DRESS = {
    " (24)": 6, " [24]": 2, " {24}": 0.6, " - 24": 1.5, " = 24": 1.5, " <24>": 0.3, ". 24": 0.5,
    ". (24)": 1, " -- 24": 0.4, " \u2014 24": 0.5, " \u2013 24": 0.5, " => 24": 0.2, " -> 24": 0.2, " ...24": 0.2,
    " *24*": 0.15, ". (24 total)": 0.2, " (=24)": 0.3, ": 24": 0.3, "(24)": 0.7, "=24": 0.5, ". [24]": 0.5,
    " (total 24)": 0.3, " (total: 24)": 0.3, " ( 24 )": 0.2, ". Total 24": 0.3, " ~ 24": 0.15, ", 24 in total": 0.2,
    ".....24": 0.2,
}  # fmt: skip
UNITS = {
    "": 4,
    " sts": 3,
    " st": 0.7,
    " stitches": 1,
    " sc": 1.5,
    " sts total": 0.2,
    "sts": 0.5,
    "st": 0.2,
    " sts.": 0.2,
}
SENTENCES = {
    ". You will have 24 sts.": 1, ". You should now have 24 stitches.": 0.8, ". There are 24 sts.": 0.3,
    ". 24 sts.": 1, ". (You will have 24 sts)": 0.4, ". Total: 24 sts.": 0.5, ". Stitch count: 24.": 0.5,
    ". You now have 24 sc.": 0.4, ". St count 24": 0.2, ". 24 stitches in the round.": 0.2, " to make 24 sts": 0.15,
    ". That makes 24 stitches.": 0.2, ". Count: 24": 0.2, " for 24 sts": 0.1, ". Your round has 24 sts now.": 0.1,
    ". You are left with 24 sts.": 0.1, ". It comes to 24 sts.": 0.1, ". The round now has 24 sts.": 0.1,
}  # fmt: skip
BEFORE = {" (24)": 2, " [24]": 1, " (24 sts)": 1.5, " - 24 sts": 0.5, ", 24 sts": 0.3}
WHERE = {"end": 8, "sentence": 1, "before": 0.8}
OFTEN = {"always": 7, "where it changes": 1.3, "every second": 0.4, "never": 0.8}


def printed(d: Dialect, course: Course) -> bool:
    """Whether this course has a count at all."""
    often = d.pick("count.often", OFTEN)
    if often == "where it changes":
        return course.makes != course.uses
    if often == "every second":
        return course.number % 2 == 1
    return often == "always"


def dressed(d: Dialect, course: Course) -> tuple[str, str]:
    """(what goes behind the label, what goes behind the body). Rule: where the body's own words end in a bracket or a
    bare number a count has a bracket of its own (the caller looks)."""
    if not printed(d, course):
        return "", ""
    n = str(course.makes + course.misprint)
    where = d.pick("count.where", WHERE)
    if where == "before":
        return d.pick("count.before", BEFORE).replace("24", n), ""
    if where == "sentence":
        return "", d.pick("count.sentence", SENTENCES).replace("24", n).replace(
            "sc", stitch(d) if not short(d) else "sts"
        )
    dress = d.pick("count.dress", DRESS)
    unit = d.pick("count.unit", UNITS)
    if ("total" in unit and "otal" in dress) or "in total" in dress:
        unit = " sts"
    unit = unit.replace("sc", stitch(d) if not short(d) else "sts")
    if course.how == "oval" and unit.strip() not in ("", "sts", "st", "stitches"):
        unit = " sts"
    return "", dress.replace("24", n + unit)
