"""Plain stitches and what shapes, as hands write them. `S` stands for the stitch, `3` for how many."""

from __future__ import annotations

from dialects.amounts import in_words
from dialects.dialect import Dialect

STITCHES = ("sc", "sc", "sc", "SC", "Sc", "single crochet", "s.c.")
UK_STITCHES = ("dc", "dc", "DC", "double crochet")
AMOUNTS = (
    "3 S", "S 3", "3S", "S in next 3 sts", "1 S in each of next 3 sts", "S in next 3", "S in the next 3 stitches",
    "S x3", "S x 3", "3 x S", "3x S", "S\u00d73", "S next 3", "S in each of the next 3 sts", "S into next 3 sts",
    "work 3 S", "S (3)", "S in next three sts", "three S", "S for 3", "S for 3 sts", "S across 3",
    "S over next 3 sts",
    "S in 3 sts", "1 S in next 3 sts", "next 3 sts S", "3 times S", "S 3 times", "S3", "3 S's", "S each in next 3",
)  # fmt: skip
INCREASES = (
    "inc", "INC", "Inc", "increase", "incr", "inc.", "1 inc", "inc 1", "inc in next st", "2 S in next st",
    "2 S in next",
    "2S in next st", "2 S in same st", "2 S in one st", "2 S in 1 st", "S 2 in next st", "work 2 S in next st",
    "S twice in next st", "two S in next st", "2 S into next st", "2-in-1", "S inc", "(2 S in next st)",
    "inc in next",
    "make an inc", "an increase", "2 S into 1 stitch", "put 2 S in the next st", "double in next st",
    "2 sts in next st",
    "S inc in next st", "2in1", "2 S in the following st", "inc over 1",
)  # fmt: skip
DECREASES = (
    "dec", "DEC", "Dec", "decrease", "decr", "dec.", "1 dec", "dec 1", "S2tog", "S 2 tog", "S2 tog", "Sdec", "S dec",
    "inv dec", "invdec", "inv. dec.", "invisible dec", "S next 2 sts together", "dec over next 2 sts", "a decrease",
    "2tog", "2 tog", "S 2 together", "work 2 together", "work next 2 sts together", "join 2 sts together", "idec",
    "dec in next 2 sts", "S2tog in next 2 sts", "S the next two sts together", "2 sts tog", "one dec",
    "dec next 2 sts",
    "two together", "S-dec",
)  # fmt: skip
MANY = ("W x3", "(W) x3", "3 W", "W 3 times", "[W] 3 times", "W x 3", "(W) 3 times", "3x W", "3 x W", "W three times")
ALL = (
    "as many", "as many", "W around", "W in each st", "W in every st around", "W in each st around", "W all around",
    "W all the way around", "W every st", "only W", "W to the end", "as many, around", "W in all sts", "(W) around",
    "*W* around", "*W; rep from * around", "each st W", "W, repeat around",
)  # fmt: skip
EVENS = (
    "as many", "as many", "S around", "S in each st", "S in each st around", "S in every st", "1 S in each st",
    "24 S",
    "S all around", "S in all sts", "S in all 24 sts", "S in each S around", "even", "work even", "S even", "S 24",
    "S in each stitch", "1 S in every stitch around", "S every st", "plain", "plain round", "no inc", "no increases",
    "S in each", "S each st", "S across all sts", "just S", "S the whole way round", "work 1 S in each st around",
    "24 S around", "one S in each stitch", "S in each st to end", "S in each of the 24 sts", "S evenly around",
    "no shaping", "straight", "S straight", "S all the way round", "S in each and every stitch",
)  # fmt: skip
LAST = ("as many", "as many", "as many", "as many", "S in last 3 sts", "S to end", "S in remaining 3 sts", "last 3 S",
        "end with 3 S", "S in the last 3", "S last 3", "finish with 3 S", "3 more S",
        "S to the end of the round")  # fmt: skip
LOOPS = ("in BLO, @", "BLO: @", "@ in BLO", "@ BLO", "(BLO) @", "@ (BLO)", "in back loops only, @", "BLO @",
         "@ in back loops only", "@ through back loops", "@ (back loops only)", "@ blo", "@ in the back loop only",
         "back loop only: @", "@ [BLO]", "@, in BLO", "@ in bl only", "working in back loops, @")  # fmt: skip


def uk(d: Dialect) -> bool:
    return d.has("hand.uk", 0.12)


def stitch(d: Dialect) -> str:
    return d.pick("hand.stitch uk", UK_STITCHES) if uk(d) else d.pick("hand.stitch", STITCHES)


def _named(d: Dialect, form: str) -> str:
    """Rule: nothing is glued to a name of two words or with dots."""
    s = stitch(d)
    if " " in s or "." in s:
        form = form.replace("S2tog", "S 2 tog").replace("3S", "3 S").replace("2S", "2 S").replace("S3", "S 3")
        form = form.replace("Sdec", "S dec").replace("S-dec", "S dec").replace("S2 tog",
            "S 2 tog").replace("S's", "S")
    return form.replace("S", s)


def plain(d: Dialect, n: int, *, last: bool = False, alone: bool = False) -> str:
    """`n` plain stitches. Rule: "S (3)" and bare "S3" only where counts cannot be meant."""
    form = d.pick("hand.amount", AMOUNTS)
    if last and n > 1:
        ending = d.pick("hand.last", LAST)
        form = form if ending == "as many" else ending
    if alone and form in ("S (3)",):
        form = "3 S"
    if n == 1:
        one = {"3 S": "1 S", "S 3": "S", "3S": "1S", "3 x S": "1 S", "3x S": "1 S", "three S": "one S",
            "work 3 S": "1 S",
               "S\u00d73": "S", "S x3": "S", "S x 3": "S", "3 times S": "S", "S 3 times": "S", "S3": "S1",
               "S (3)": "S",
               "3 S's": "1 S", "S for 3": "S 1", "S in next three sts": "S in next st",
               "last 3 S": "last 1 S", "end with 3 S": "end with 1 S"}  # fmt: skip
        form = one.get(form) or d.pick("hand.one", ("S in next st", "1 S in next st", "S", "1 S", "S in next"))
    return _named(d, form.replace("three", in_words(n)).replace("3", str(n)))


def change(d: Dialect, kind: str) -> str:
    return _named(d, d.pick(f"hand.{kind}", INCREASES if kind == "inc" else DECREASES))


def _many_of(d: Dialect, word: str, n: int) -> str:
    """Rule: a word that holds a figure or several words has a bracket round it before its number."""
    form = d.pick("hand.many", MANY)
    bare = word.removeprefix("1 ").removesuffix(" 1").removeprefix("an ").removeprefix("a ").removeprefix("one ")
    bare = bare.removeprefix("make ").removeprefix("an ").removesuffix(" over")  # "inc over 1", its 1 gone
    if " " in bare or any(c.isdigit() for c in bare):
        form = {"W x3": "(W) x3", "3 W": "(W) 3 times", "W 3 times": "(W) 3 times", "W x 3": "[W] x 3",
            "3x W": "3x (W)",
                "3 x W": "3 x (W)", "W three times": "(W) three times"}.get(form, form)  # fmt: skip
    if bare.startswith("("):
        bare = bare[1:-1] if "(W)" in form or "[W]" in form else bare
    return form.replace("three", in_words(n)).replace("3", str(n)).replace("W", bare)


def changes(d: Dialect, kind: str, n: int) -> str:
    return change(d, kind) if n == 1 else _many_of(d, change(d, kind), n)


def all_round(d: Dialect, kind: str, n: int, flat: bool) -> str:
    """A course of nothing but changes. Rule: "in each st" is said of what is done in one stitch."""
    word = change(d, kind)
    form = d.pick("hand.all", ALL)
    bare = word.removeprefix("1 ").removesuffix(" 1").removeprefix("an ").removeprefix("a ").removeprefix("one ")
    bare = bare.removesuffix(" over")
    if form.startswith("as many"):
        return _many_of(d, word, n) + (" around" if "around" in form and not flat else "")
    if (" st" in form or form.startswith("each")) and kind == "dec":
        form = "W around"
    if form.startswith("W in") or form in ("W every st", "each st W"):
        for tail in (" in next st", " in next", " in same st", " in one st", " in 1 st", " into next st",
            " into 1 stitch",
                     " in the next st", " in the following st", " over 1"):  # fmt: skip
            bare = bare.removesuffix(tail)
        if bare.startswith("("):
            return f"2 {stitch(d)} in each st {'across' if flat else 'around'}"
    if bare.startswith("("):
        form = form.replace("(W)", "W")
    return (form.replace("around", "across") if flat else form).replace("W", bare)


def even(d: Dialect, n: int, flat: bool, loops: str) -> str:
    form = d.pick("hand.even", EVENS)
    if loops and form in ("even", "work even", "plain", "plain round", "no inc", "no increases", "no shaping",
                          "straight"):  # fmt: skip
        form = "S in each st around"
    if flat:
        form = form.replace("all the way round", "in each st").replace("the whole way round", "in each st")
        form = form.replace("all around", "across").replace("around", "across").replace("plain round", "plain")
        form = form.replace("evenly across", "in each st")
    text = plain(d, n, alone=True) if form == "as many" else _named(d, form.replace("24", str(n)))
    if loops:
        wrap = d.pick("hand.loops", LOOPS)
        if loops == "front":
            wrap = wrap.replace("BLO", "FLO").replace("blo", "flo").replace("back", "front").replace("bl only",
                "fl only")
        text = wrap.replace("@", text)
    return text
