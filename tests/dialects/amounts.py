"""Stitch names, and how many of them: "3 sc", "sc in next 3 sts", "3X"."""

from __future__ import annotations

from .dialect import Dialect

UNITS = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def in_words(n: int) -> str:
    """A number below a hundred in letters; greater ones stay figures."""
    if n < 20:
        return UNITS[n]
    return str(n) if n > 99 else TENS[n // 10] + (f"-{UNITS[n % 10]}" if n % 10 else "")


def tongue(d: Dialect) -> str:
    """US or UK names, letters as translated patterns have them, or the author's own short list."""
    return d.pick("terms.tongue", {"US": 0.71, "UK": 0.17, "letters": 0.07, "own": 0.05})


def short(d: Dialect) -> bool:
    """Letters and own lists are never mixed with sentences."""
    return tongue(d) in ("letters", "own")


def base(d: Dialect) -> str:
    return "sc" if short(d) else d.pick("stitch.base", {"sc": 0.9, "hdc": 0.1})


def worded(d: Dialect) -> bool:
    return not short(d) and d.pick("stitch.form", {"abbreviation": 0.86, "words": 0.14}) == "words"


def cased(d: Dialect, word: str) -> str:
    case = d.pick("stitch.case", {"lower": 0.8, "upper": 0.09, "title": 0.11})
    return {"lower": word, "upper": word.upper(), "title": word[:1].upper() + word[1:]}[case]


def stitch(d: Dialect) -> str:
    """The plain stitch of the text, as it is named there."""
    if short(d):
        return {"letters": "X", "own": d.pick("stitch.own", ["s", "S", "c"])}[tongue(d)]
    names = {
        ("US", "sc"): ("sc", "single crochet"),
        ("US", "hdc"): ("hdc", "half double crochet"),
        ("UK", "sc"): ("dc", "double crochet"),
        ("UK", "hdc"): ("htr", "half treble crochet"),
    }
    abbreviation, words = names[tongue(d), base(d)]
    return words if worded(d) else cased(d, abbreviation)


BY_AMOUNT = {
    "3 sc": 4, "sc 3": 2, "3sc": 2, "sc3": 0.6, "sc in next 3 sts": 2, "sc in next 3": 0.8,
    "sc in the next 3 stitches": 1, "sc in each of the next 3 sc": 1, "sc in each of next 3 sts": 1, "sc x3": 0.7,
    "sc x 3": 0.5, "3x sc": 0.5, "3 x sc": 0.4, "work 3 sc": 0.6, "1 sc in each of next 3 sts": 0.8,
    "1 sc in next 3 sts": 0.5, "sc in next three sts": 0.6, "sc into next 3 sts": 0.5, "sc across next 3 sts": 0.3,
    "sc next 3 sts": 0.5, "three sc": 0.3,
}  # fmt: skip
WORDED = {
    "sc in the next 3 stitches": 3, "sc in next three sts": 2, "3 sc": 1, "sc in each of the next 3 sc": 1,
    "sc 3": 0.5, "work 3 sc": 0.5, "sc in next 3 sts": 1,
}  # fmt: skip


def amount_form(d: Dialect) -> str:
    if short(d):
        return d.pick("amount.short", {"3sc": 3, "3 sc": 1})
    return d.pick("amount.words", WORDED) if worded(d) else d.pick("amount.form", BY_AMOUNT)


def plain(d: Dialect, n: int) -> str:
    """`n` plain stitches."""
    form, s = amount_form(d), stitch(d)
    many = f"{s}s" if worded(d) and s.endswith("crochet") and d.has("stitch.plural", 0.3) else s
    if n == 1:
        places = "next" in form
        if places:
            one = {"sc in next st": 3, "1 sc in next st": 1, "sc in next": 1, "sc": 1, "1 sc": 0.6}
            one_form = d.pick("amount.one place", one)
            return one_form.replace("sc", s).replace("next st", "the next stitch" if worded(d) else "next st")
        one_form = d.pick("amount.one", {"as others": 1, "name alone": 1})
        if one_form == "name alone" and not short(d):
            return s
        return {"3sc": f"1{s}", "sc 3": f"{s} 1", "sc3": f"{s}1", "three sc": f"one {s}"}.get(form, f"1 {s}")
    number = in_words(n) if "three" in form else str(n)
    text = form.replace("three", "3").replace("sc", "@") if "three" in form else form.replace("sc", "@")
    text = text.replace("3", number)
    first, _, rest = text.partition("@")
    counted = bool(first.strip()) and not rest
    return first + (many if counted else s) + rest.replace("@", s)


def last(d: Dialect, n: int) -> str:
    """`n` plain stitches that end a course."""
    if not short(d):
        how = d.pick("amount.last", {"as others": 3, "last": 1, "to end": 0.7, "remaining": 0.4})
        s = stitch(d)
        if how == "last" and n > 1:
            return f"{s} in last {n} sts"
        if how == "last":
            return f"{s} in last st"
        if how == "to end" and n > 1:
            return f"{s} to end"
        if how == "remaining" and n > 1:
            return f"{s} in remaining {n} sts"
    return plain(d, n)
