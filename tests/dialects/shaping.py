"""Increases and decreases by their many names, one of them or several in a row."""

from __future__ import annotations

from .amounts import base, cased, in_words, short, stitch, tongue, worded
from .dialect import Dialect
from .made import Kind

SHORT_INC = {
    "inc": 5, "increase": 0.8, "incr": 0.3, "s inc": 0.4, "inc 1": 0.3, "1 inc": 0.5, "inc in next st": 0.8,
    "increase in the next st": 0.3, "inc (2 s in same st)": 0.2,
}  # fmt: skip
LONG_INC = {
    "2 s in next st": 2, "2 s in next": 0.8, "2s in next st": 0.7, "work 2 s in next st": 0.4, "2 s in same st": 0.4,
    "s twice in next st": 0.4, "2 s in 1 st": 0.4, "two s in the next stitch": 0.4, "s 2 in next st": 0.3,
    "2 s into next st": 0.5, "2 s in the next st": 0.6, "2 s in one st": 0.3, "2 s into the same stitch": 0.2,
    "[2 s] in next st": 0.15,
}  # fmt: skip
SHORT_DEC = {
    "dec": 5, "decrease": 0.8, "decr": 0.3, "invdec": 1.2, "inv dec": 0.8, "inv. dec": 0.3, "invisible decrease": 0.5,
    "s2tog": 2.5, "s 2 tog": 0.4, "s dec": 0.4, "dec 1": 0.3, "1 dec": 0.5, "s-dec": 0.2,
}  # fmt: skip
LONG_DEC = {
    "s2tog over next 2 sts": 0.8, "dec over next 2 sts": 0.5, "s next 2 sts together": 0.8, "dec in next 2 sts": 0.3,
    "s the next two sts tog": 0.3, "work the next 2 sts together": 0.3, "s2tog in next 2 sts": 0.3,
    "s 2 together": 0.3, "s two sts together": 0.3, "s2tog (dec)": 0.2,
}  # fmt: skip


def _word(d: Dialect, kind: Kind) -> tuple[str, bool]:
    """(the word for one change, whether it says where it is worked)."""
    if short(d):
        if tongue(d) == "letters":
            return {"inc": "V", "dec": "A"}[kind], False
        own = d.pick("shaping.own", {"i and d": 2, "inc and dec": 2})
        return dict(zip(("inc", "dec"), own.split(" and "), strict=True))[kind], False
    names, longer = (SHORT_INC, LONG_INC) if kind == "inc" else (SHORT_DEC, LONG_DEC)
    form = d.pick(f"{kind}.word", {**names, **longer})
    if base(d) == "hdc" and kind == "dec" and "inv" in form:
        form = "dec"  # an invisible decrease is a matter of single crochets
    words = form.split(" ")
    s = stitch(d)
    done = [
        w.replace("s2tog", f"{s} 2 together" if worded(d) else cased(d, f"{s.lower()}2tog"))
        if "s2tog" in w
        else w.replace("s", s, 1)
        if w in ("s", "2s", "[2", "s]", "s-dec", "(2")
        else cased(d, w)
        if w in ("inc", "dec")
        else w
        for w in words
    ]
    text = " ".join(done)
    if worded(d):
        text = text.replace(f"2{s}", f"2 {s}")
    return text, form in longer


def change(d: Dialect, kind: Kind) -> str:
    return _word(d, kind)[0]


def says_where(d: Dialect, kind: Kind) -> bool:
    """Whether one change is a small sentence of its own."""
    return _word(d, kind)[1]


def changes(d: Dialect, kind: Kind, n: int, counted: bool) -> str:
    """`n` changes in a row. `counted`: a count is printed with the course, so that "inc 3" means one thing."""
    if n == 1:
        return change(d, kind)
    word, sentence = _word(d, kind)
    if short(d):
        return f"{n}{word}" if tongue(d) == "letters" else f"{n} {word}"
    bare = word.removesuffix(" 1").removeprefix("1 ").removesuffix(" in next st").removesuffix(" in the next st")
    if "(" in bare:
        bare = bare.split(" (")[0]
    number = in_words(n) if d.has("shaping.times in words", 0.08) else str(n)
    if kind == "inc" and sentence:
        s = stitch(d)
        forms = [
            f"2 {s} in each of next {n} sts", f"2 {s} in next {n} sts", f"({word}) {number} times",
            f"[{word}] x{n}", f"2 {s} in each of the next {n} stitches",
        ]  # fmt: skip
        names = ["each of next", "next 3", "bracket times", "bracket x", "each of the next"]
    elif sentence:
        forms = [f"({word}) {number} times", f"[{word}] x{n}", f"({word}) x {n}", f"{{{word}}} x{n}"]
        names = ["bracket times", "bracket x", "bracket x ", "curly x"]
    else:
        plural = bare + "s" if bare in ("increase", "decrease") else bare
        forms = [f"{bare} x{n}", f"{bare} x {n}", f"{n} {plural}", f"({bare}) x{n}", f"{bare} {number} times"]
        names = ["inc x3", "inc x 3", "3 inc", "(inc) x3", "inc 3 times"]
        if any(c.isdigit() for c in bare):
            # rule: a name with a figure in it ("sc 2 tog") has a bracket about it, or its number behind
            forms, names = [f"({bare}) x{n}", f"({bare}) {number} times"], ["(inc) x3", "bracket times"]
        if kind == "inc" and " " not in bare:
            forms += [f"{bare} in next {n} sts", f"{bare} in each of next {n} sts"]
            names += ["inc in next 3 sts", "inc in each of next 3 sts"]
        if counted and " " not in bare and "2tog" not in bare:
            forms.append(f"{bare} {n}")
            names.append("inc 3")
    style = d.pick(f"{kind}.many", names)
    return forms[names.index(style)] if style in names else forms[0]


def all_round(d: Dialect, kind: Kind, times: int, around: str, counted: bool) -> str:
    """A course of nothing but changes."""
    word, sentence = _word(d, kind)
    s = stitch(d)
    names = {"as others": 3.0, "around": 1.0}
    if kind == "inc":
        names |= {"in each st": 2.0, "2 in each st": 2.0, "2 in each st plain": 0.7}
    how = "as others" if short(d) else d.pick(f"{kind}.all", names)
    if how == "in each st" and not sentence:
        bare = word.split(" ")[0] if word.startswith("inc") else word.removeprefix("1 ")
        return f"{bare} in each st {around}"
    if how in ("2 in each st", "in each st"):
        return f"2 {s} in each st {around}"
    if how == "2 in each st plain":
        return f"2 {s} in each st"
    if how == "around" and not sentence:
        bare = word.removesuffix(" 1").removeprefix("1 ").removesuffix(" in next st").removesuffix(" in the next st")
        return f"{bare.split(' (')[0]} {around}"
    return changes(d, kind, times, counted)
