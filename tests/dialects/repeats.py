"""Repeats: brackets of every kind, stars open and closed, none at all; how often, and until where."""

from __future__ import annotations

import re

from .amounts import in_words, short, tongue
from .dialect import Dialect

BRACKETS = {"round": 5, "square": 2.5, "curly": 0.6, "angle": 0.15, "stars": 1}
SIGNS = {"round": "()", "square": "[]", "curly": "{}", "angle": "<>", "stars": "**"}
TIMES = {
    " x6": 3, "x6": 2, " x 6": 3, " X 6": 0.5, " 6 times": 3, " 6x": 1.5, " *6": 0.7, " six times": 0.8, " 6 X": 0.2,
    " repeat 6 times": 0.8, ", repeat 6 times": 0.5, " rep 6 times": 0.4, ", 6 times": 0.5, " - 6 times": 0.3,
    " x6 times": 0.3, " for a total of 6 times": 0.2, " 6 times in all": 0.2, " (6 times)": 0.3, " times 6": 0.3,
}  # fmt: skip
BEFORE = {"6x ()": 2, "6 x ()": 1, "x6 ()": 0.4, "repeat () 6 times": 0.7, "6 times: ()": 0.5, "6 times ()": 0.4}
OPEN = {
    "; rep from * 5 more times": 3, "; repeat from * 5 more times": 1, ", rep from * 5 times more": 1,
    "; rep from * five more times": 0.8, "; rep from * for a total of 6 times": 0.5,
    ". Rep from * 5 more times": 0.4, "; rep from * another 5 times": 0.3, ", * rep from * to * 5 more times": 0.0,
    "* repeat 5 more times": 0.5, "* rep 5 more times": 0.3, "; rep from * 6 times in total": 0.4,
}  # fmt: skip
TO_END = {
    "*; rep from * around": 3, "*; repeat from * to end": 1, "*, rep from * around": 1,
    "*; rep from * to end of round": 1, "() around": 2, "[] around": 1.5, "** around": 1, "() repeat around": 1,
    "[] rep to end": 0.5, "(), rep around": 0.6, ", repeat around": 1.2, "; repeat around": 0.6, ", rep to end": 0.5,
    ", repeat 6 times": 0.6, "() all around": 0.5, ", repeat to the end of the round": 0.4,
    ", and repeat around": 0.4, "() to end": 0.6, "*. Rep from * around": 0.5,
    ". Do this 6 times in all": 0.3, ". Work this 6 times": 0.2,
}  # fmt: skip
TO_LAST = {
    "*; rep from * to last 2 sts": 3, "() to last 2 sts": 1, "*, repeat from * until 2 sts remain": 0.7,
    "[] rep to last 2 sts": 0.5, "() until last 2 sts": 0.5, "*; rep from * across to last 2 sts": 0.3,
}  # fmt: skip


def _number(template: str, times: int) -> str:
    """A form with its sample numbers (six in all, five more) made into the true ones."""
    if times == 2 and "more time" in template and "5" in template:
        return template.replace("5 more times", "once more" if template.startswith("; rep") else "1 more time")
    true = {"five": in_words(times - 1), "5": str(times - 1), "six": in_words(times), "6": str(times)}
    return re.sub("five|six|5|6", lambda sample: true[sample[0]], template)  # at once: "5" may become "6"


def _wrapped(inner: str, signs: str) -> str:
    return f"{signs[0]}{inner}{signs[1]}"


def _bracketed(d: Dialect, inner: str, times: int, counted: bool) -> str:
    """A repeat with its number, that can stand anywhere in a course. Rule: "(...), repeat 2 times" (twice, or twice
    more?) only where a count is printed."""
    kind = d.pick("repeat.bracket", BRACKETS)
    if ("(" in inner or "[" in inner) and not short(d):
        kind = "round" if "[" in inner else "square"
    text = _wrapped(inner, SIGNS[kind])
    if kind != "stars" and not short(d) and d.has("repeat.number in front", 0.12):
        return _number(d.pick("repeat.before", BEFORE), times).replace("()", text)
    options = {k: w for k, w in TIMES.items() if kind != "stars" or "*" not in k}
    name = "repeat.times behind stars" if kind == "stars" else "repeat.times"
    if not counted:
        name, options = "repeat.times without count", {k: w for k, w in options.items() if "rep" not in k}
    if tongue(d) == "letters":  # rule: "(2X, V) 6 X" might be six more of them
        name, options = f"{name} in letters", {k: w for k, w in options.items() if k not in (" 6 X", " 6x")}
    return text + _number(d.pick(name, options), times)


def _filled(form: str, inner: str) -> str:
    for signs in ("()", "[]", "**"):
        if form.startswith(signs):
            return _wrapped(inner, signs) + form[2:]
    if form.startswith("*"):
        return "*" + inner + form[1:]
    return inner + form


def again(d: Dialect, inner: str, times: int, *, first: bool, rest: int | None, counted: bool) -> str:
    """`inner`, `times` times. `first`: nothing stands before it; `rest`: plain stitches behind it to the course's end,
    None where something else follows. Rule: without any bracket only where the repeat is the whole course, and with a
    number and no bracket only where a count is printed. Rule: a star inside a text in Markdown's bold is no repeat."""
    road = d.pick("repeat.road", {"number": 5, "open star": 2, "to the end": 2.2})
    starred = d.chosen.get("layout.bold labels") != "yes" and "*" not in inner
    if road == "to the end" and not short(d):
        if rest == 0:
            options = {
                k: w for k, w in TO_END.items()
                if (starred or "*" not in k) and (first or k[0] not in ",;.") and (counted or "6" not in k)
                and (("[" not in k and "(" not in k) or not any(c in inner for c in "[("))
            }  # fmt: skip
            return _filled(_number(d.pick(_key("repeat.to end", options), options), times), inner)
        if rest:
            options = {
                k: w for k, w in TO_LAST.items()
                if (starred or "*" not in k) and (("[" not in k and "(" not in k) or not any(c in inner for c in "[("))
            }  # fmt: skip
            form = d.pick(_key("repeat.to last", options), options)
            text = form.replace("last 2 sts", f"last {rest} sts" if rest > 1 else "last st")
            text = text.replace("2 sts remain", f"{rest} sts remain" if rest > 1 else "1 st remains")
            return _filled(text, inner)
    if road == "open star" and starred and times > 1 and not short(d):
        return _filled("*" + _number(d.pick("repeat.open", OPEN), times), inner)
    return _bracketed(d, inner, times, counted)


def _key(name: str, options: dict[str, float]) -> str:
    """The habit's name; another one where some of its words cannot be used, so that these stay out of the others."""
    return name if len(options) > 15 or (name.endswith("last") and len(options) == 6) else f"{name} ({len(options)})"
