"""What is done again and again. `I` stands for what, 6 for how often, 5 for how often more."""

from __future__ import annotations

from dialects.amounts import in_words
from dialects.dialect import Dialect

REPEATS = (
    "(I) x6", "(I) x 6", "[I] x 6", "(I) 6 times", "[I] 6 times", "{I} x6", "*I* x6", "*I* 6 times",
    "*I; rep from * 5 more times", "*I, repeat from * 5 more times", "*I* repeat 6 times", "6x (I)", "6 x (I)",
    "6 times (I)", "(I)x6", "(I)*6", "(I) six times", "[I] six times", "(I) \u00d7 6", "(I) * 6", "(I), 6x",
    "(I) 6X", "(I)6x",
    "*I*, rep *-* 5 more times", "(I) repeat 6 times", "(I) rep x6", "[I]x6", "rep (I) 6 times", "repeat [I] 6 times",
    "(I) 6 times in total", "do (I) 6 times", "work (I) six times", "*I* six times", "(I) - 6 times",
    "(I) for 6 times",
    "<I> x6", "*I, rep from * for a total of 6 times", "(I) repeated 6 times", "{I} 6 times", "6*(I)",
    "(I) ...6 times", "(I): 6 times", "(I) (6x)", "(I) (6 times)", "*I, rep from * five more times", "[I; 6 times]",
    "6 repeats of (I)", "*I*x6", "(I)x 6", "repeat *I* 6 times", "*I** 6 times",
)  # fmt: skip
TO_END = (
    "(I) around", "[I] around", "*I* around", "*I; rep from * around", "*I, repeat from * to end",
    "*I, rep from * around",
    "(I) rep around", "[I] to end", "(I) to the end", "*I* repeat around", "*I, rep * around", "(I) all around",
    "(I) all the way around", "repeat (I) around", "*I* rep to end", "*I; repeat from * to end of round",
    "(I)... around",
    "rep *I* around", "(I), repeat to end", "*I* all round", "[I], rep around",
)  # fmt: skip
WHOLE = (
    "I, repeat around", "I; rep around", "I, rep to end", "I, around", "I. Repeat around.", "I - repeat around",
    "I, repeat 6 times", "I x6", "I, x6", "I 6 times", "I, repeat", "I, and repeat", "I, and so on around",
    "alternate I around", "I, keep going around", "I, repeat to end of round", "I ... repeat around",
    "I, rep 6 times", "I - x6", "I, 6 times", "I, repeat this 6 times", "I, do this 6 times", "I (repeat around)",
    "I (x6)", "I (6 times)", "I, and repeat that all the way round", "I (repeat 6 times)",
)  # fmt: skip


def again(d: Dialect, inner: str, times: int, *, whole: bool, last: bool, counted: bool, flat: bool) -> str:
    """Rule: without a bracket only where the repeat is the whole course, has several parts, and a count is printed."""
    road = d.pick("hand.repeat road", {"number": 5, "to end": 2, "whole": 2})
    if road == "whole" and whole and counted and "," in inner and "(" not in inner:
        form = d.pick("hand.repeat whole", WHOLE)
    elif road != "number" and last:
        form = d.pick("hand.repeat to end", TO_END)
    else:
        form = d.pick("hand.repeat", REPEATS)
    if "*" in form and "*" in inner:
        form = "(I) x6"
    for pair in ("()", "[]"):
        if pair[0] in form and pair[0] in inner:
            form = form.replace(pair[0], "{").replace(pair[1], "}")
    if flat:
        form = form.replace("all the way around", "across").replace("all around", "across").replace("around",
            "across")
        form = form.replace("end of round", "end").replace("all round", "across").replace("all the way round",
            "across")
    more = {1: "once more", 2: "2 more times"}.get(times - 1, f"{times - 1} more times")
    form = form.replace("5 more times", more).replace("five more times", "once more" if times == 2 else
                                                      f"{in_words(times - 1)} more times")  # fmt: skip
    if more not in form:
        form = form.replace("six", in_words(times)).replace("6", str(times))
    return form.replace("I", inner, 1)
