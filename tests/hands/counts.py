"""Printed counts: `24` stands for the number."""

from __future__ import annotations

from dialects.dialect import Dialect
from dialects.made import Course

BEHIND = (
    " (24)", " [24]", " {24}", " = 24", " - 24", " \u2013 24", " : 24", " (24 sts)", " [24 sts]", " = 24 sts",
    " - 24 sts",
    " (24 st)", " (24 sc)", " 24 sts", ". 24 sts", ". (24)", ". [24]", "...24", " (=24)", " =24", " (24 sts total)",
    " (total 24)", " 24 in all", ", 24 sts in all", " (24 in total)", " -> 24", " => 24", " <24>", " *24*",
    " (24 stitches)",
    ". You have 24 sts now.", ". Total 24.", " (24s)", "(24)", "[24]", " |24|", " ~24~", " // 24", " (24!)",
    ". That's 24.", " makes 24", ", makes 24 sts", " (makes 24)", ", for 24 sts", " to get 24 sts", ", that's 24",
    " / 24", " (24 sts now)", " 24st", " \u2014 24 sts", " =24sts", ". Count: 24", " (count: 24)", "; 24 sts",
    " ==> 24", " (24 sts.)",
    " \u2192 24", " ...24 sts", ", you now have 24", " _24_", " ( 24 )", " (st count 24)", " [=24]", " {24 sts}",
    ": 24 sts",
    ". 24 stitches.", "\t24", "\n(24)", "\n24 sts", " [24 sc]", " #24", " **24**", " (24 tot.)",
)  # fmt: skip
AHEAD = (" (24)", " [24]", " (24 sts)", " - 24 sts", ", 24 sts", " {24}", " [24 sts]")
OFTEN = {"always": 7, "where it changes": 2, "never": 1}


def often(d: Dialect) -> str:
    return d.pick("hand.count often", OFTEN)


def counted(d: Dialect, course: Course, counts: bool = True) -> bool:
    how = often(d)
    return how == "always" or (how == "where it changes" and course.makes != course.uses)


def ahead(d: Dialect, course: Course) -> str:
    """The count behind the label, by those who print it there."""
    if counted(d, course) and d.pick("hand.count where", {"behind": 6, "ahead": 1}) == "ahead":
        return d.pick("hand.count ahead", AHEAD).replace("24", str(course.makes + course.misprint))
    return ""


def behind(d: Dialect, course: Course, stitch: str) -> str:
    if not counted(d, course) or d.pick("hand.count where", {"behind": 6, "ahead": 1}) == "ahead":
        return ""
    form = d.pick("hand.count", BEHIND)
    return form.replace("sc", stitch).replace("24", str(course.makes + course.misprint))
