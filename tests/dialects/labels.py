"""What stands before a course: the word, its number, the sign behind it; ranges and lists."""

from __future__ import annotations

from .amounts import in_words
from .dialect import Dialect

WORDS = {
    "Rnd": 4,
    "Round": 3,
    "R": 3,
    "Rd": 1,
    "rnd": 0.7,
    "round": 0.5,
    "RND": 0.5,
    "ROUND": 0.3,
    "r": 0.3,
    "Rn": 0.15,
    "": 1.6,
    "Row": 0.5,
}
FLAT_WORDS = {"Row": 5, "R": 2, "row": 0.7, "ROW": 0.5, "Rw": 0.1}
ORDER = {
    "Rnd 3": 6,
    "Rnd3": 1,
    "Rnd #3": 0.3,
    "3 rnd": 0.3,
    "3rd rnd": 0.7,
    "Rnd. 3": 0.3,
    "Round Three": 0.3,
    "third round": 0.2,
    "Rnd no. 3": 0.1,
    "#3": 0.1,
}
MARKS = {
    ": ": 7, ". ": 1.3, " - ": 1.3, " \u2013 ": 0.5, ") ": 0.8, " ": 1.0, ":": 0.4, "- ": 0.3, " : ": 0.3,
    " = ": 0.1, "> ": 0.1, " \u2014 ": 0.3, ".) ": 0.2, ":- ": 0.15, "\t": 0.2, "; ": 0.1, " -- ": 0.2,
    "(Rnd 3) ": 0.3, "[Rnd 3] ": 0.3, ". - ": 0.1,
}  # fmt: skip
NUMBER_MARKS = {". ": 5, ") ": 3, ": ": 3, " - ": 1, ".": 0.3, ".) ": 0.2, ".- ": 0.2, "(3) ": 0.3}
RANGES = {
    "3-6": 6, "3 - 6": 1, "3 to 6": 1.5, "R3-R6": 1, "3\u20136": 1, "3 through 6": 0.6, "3 thru 6": 0.3,
    "3, 4, 5 and 6": 0.7, "3, 4, 5, 6": 0.6, "3, 4, 5 & 6": 0.5, "From round 3 to round 6": 0.2, "3 \u2013 6": 0.4,
    "3/4/5/6": 0.2, "3-6 (4 rounds)": 0.5, "3..6": 0.1, "3+4+5+6": 0.1, "R3 to R6": 0.4, "3 until 6": 0.15,
    "3-6 inclusive": 0.15, "3~6": 0.2,
}  # fmt: skip
NTH = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth", "eighteenth", "nineteenth",
    "twentieth",
)  # fmt: skip


def nth(n: int) -> str:
    return f"{n}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10 if n not in (11, 12, 13) else 0, 'th') }"


def word(d: Dialect, flat: bool) -> str:
    if not flat:
        return d.pick("label.word", WORDS)
    chosen = d.pick("label.word", WORDS)
    if chosen in ("", "R", "Row"):
        return chosen
    return d.pick("label.flat word", FLAT_WORDS)


def _order(d: Dialect, w: str) -> str:
    """Rule: a bare number has no order of words; a letter alone is glued or has a sign before its number."""
    if not w:
        return "3"
    if w in ("R", "r"):
        return d.pick("label.letter", {"R3": 6, "R 3": 1, "R.3": 0.2, "R#3": 0.1})
    if w in ("Rn", "Rw"):
        return "Rnd 3"
    return d.pick("label.order", ORDER)


def _one(form: str, w: str, n: int) -> str:
    low = w.lower() if w not in ("RND", "ROUND", "ROW") else w
    if form == "Round Three":
        return f"{w} {in_words(n).title()}"
    if form == "third round":
        name = NTH[n - 1] if n <= 20 else nth(n)
        return f"{name.capitalize()} {low}"
    return {
        "3": str(n), "Rnd 3": f"{w} {n}", "Rnd3": f"{w}{n}", "Rnd #3": f"{w} #{n}", "3 rnd": f"{n} {low}",
        "3rd rnd": f"{nth(n)} {low}", "Rnd. 3": f"{w}. {n}", "Rnd no. 3": f"{w} no. {n}", "#3": f"#{n}",
        "R3": f"{w}{n}", "R 3": f"{w} {n}", "R.3": f"{w}.{n}", "R#3": f"{w}#{n}",
    }[form]  # fmt: skip


def mark(d: Dialect, w: str) -> str:
    """Rule: a bare number always has a sign behind it that no stitch count has."""
    if w:
        return d.pick("label.mark", MARKS)
    return d.pick("label.mark of a number", NUMBER_MARKS)


def _filled(form: str, numbers: dict[str, int]) -> str:
    """A form whose sample figures become true numbers."""
    return "".join(str(numbers.get(sign, sign)) for sign in form)


def _closed(text: str, sign: str, w: str) -> str:
    if sign == "(3) " or sign.startswith("("):
        return f"({text}) "
    if sign.startswith("["):
        return f"[{text}] "
    return text + sign


def label(d: Dialect, numbers: list[int], flat: bool, behind: str = "") -> str:
    """The label of one course or of a run of them, with its sign. `behind` goes between label and sign."""
    w = word(d, flat)
    form = _order(d, w)
    sign = mark(d, w)
    if (form in ("3 rnd", "Round Three") and not sign.strip()) or (form == "#3" and sign.strip() in ("=", ">")):
        sign = ": "
    if len(numbers) == 1:
        return _closed(_one(form, w, numbers[0]) + behind, sign, w)
    a, b = numbers[0], numbers[-1]
    many = w + (
        "s" if w in ("Rnd", "Round", "Rd", "rnd", "round", "Row", "row") and d.has("label.plural", 0.75) else ""
    )
    many += "S" if w in ("RND", "ROUND", "ROW") and d.has("label.plural", 0.75) else ""
    kind = d.pick("label.range", RANGES)
    if (", " in kind and len(numbers) > 4) or (" (" in kind and form == "3 rnd"):
        kind = "3-6"
    if len(numbers) == 2 and d.has("label.pair", 0.3):
        pair = d.pick("label.pair sign", {"3 and 4": 3, "3 & 4": 2, "3, 4": 1, "3 + 4": 0.3})
        joined = _filled(pair, {"3": a, "4": b})
    elif ", " in kind or "/" in kind or "+" in kind:
        sep = ", " if ", " in kind else kind[1]
        head = sep.join(str(n) for n in numbers[:-1])
        end = {"and 6": " and ", "& 6": " & "}.get(kind[-5:] if "and" in kind else kind[-3:], sep)
        joined = head + end + str(b)
    elif kind.startswith("From"):
        joined = f"{a} to {b}" if form in ("third round", "Round Three") or not w else f"from {w} {a} to {w} {b}"
        if joined.startswith("from"):
            return _closed(joined[0].upper() + joined[1:] + behind, sign if sign.strip() else ": ", w)
    elif kind.startswith("R3"):
        if w and form in ("R3", "R 3", "Rnd 3", "Rnd3"):
            low_form, high_form = _one(form, w, a), _one(form, w, b)
            return _closed(low_form + kind.removeprefix("R3").removesuffix("R6") + high_form + behind, sign, w)
        joined = f"{a}-{b}"
    else:
        dashed = " " in kind and "-" in kind.replace("\u2013", "-")
        if dashed and sign.strip(" ") in ("", "-", "\u2013", "\u2014", "--"):
            kind = "3-6"  # rule: a dash with blanks is either in the range or behind it
        joined = _filled(kind, {"3": a, "6": b, "4": len(numbers)})
        if "rounds" in joined and flat:
            joined = joined.replace("rounds", "rows")
    low = many.lower() if w not in ("RND", "ROUND", "ROW") else many
    text = {
        "3": joined, "Rnd3": f"{many}{joined}", "Rnd #3": f"{many} #{joined}", "3 rnd": f"{joined} {low}",
        "R3": f"{w}{joined}", "R 3": f"{w} {joined}", "R.3": f"{w}.{joined}", "R#3": f"{w}#{joined}",
        "#3": f"#{joined}", "Rnd. 3": f"{many}. {joined}", "3rd rnd": f"{nth(a)} to {nth(b)} {low}",
    }.get(form, f"{many} {joined}")  # fmt: skip
    return _closed(text + behind, sign, w)


def named(d: Dialect, n: int, flat: bool) -> str:
    """How another course of the same text is spoken of: "round 6"."""
    w = word(d, flat)
    if not w:
        return f"{'row' if flat else 'round'} {n}"
    if w in ("R", "r"):
        return f"{w}{n}"
    if d.chosen.get("label.order") in ("3rd rnd", "third round"):
        return f"{nth(n)} {w.lower()}"
    return f"{w if w.isupper() else w.lower()} {n}"
