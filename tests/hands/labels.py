"""Labels of one course and of several. `N` stands for the number, `T` for it with its ending, `W` for it in words."""

from __future__ import annotations

from dialects.amounts import in_words
from dialects.dialect import Dialect
from dialects.labels import nth

SINGLE = (
    "Rnd {N}: ", "R{N}. ", "R{N}: ", "{N}) ", "({N}) ", "{N}. ", "{T} rnd - ", "{T} round: ", "Rd.{N} ",
    "Rd {N} \u2013 ", "ROUND {W}: ", "Round {W}. ",
    "#{N} ", "#{N}: ", "{N} - ", "{N}: ", "R{N} = ", "R{N} -> ", "Rnd {N}) ", "Rnd.{N}: ", "rnd{N}: ", "R-{N}: ",
    "Rnd{N} ", "RND {N} ", "[{N}] ",
    "[R{N}] ", "(Rnd {N}) ", "Round {N}\n", "Round {N} \u2013 ", "{N}.) ", "R{N}) ", "Rnd {N} -- ", "rd {N}, ",
    "R{N} ", "{N}.rnd: ", "{N}.\n",
    "Nr {N}: ", "R0{N}: ", "R{N}| ", "R {N}: ", "Rnd #{N}. ", "R{N}... ", "R{N}\u2014 ", "{N}.- ", "Rnd {N}\n",
    "{T}: ", "round {N} ", "Rn {N}: ",
    "R.{N}: ", "r {N}) ", "Rnd. {N}. ", "Rnd {N}, ", "R{N}; ", "*R{N}* ", "**R{N}:** ", "_Rnd {N}_ ",
    "Rnd {N}> ", "R{N}\t", "Rnd ({N}): ",
    "Rnd no. {N}: ", "Round number {N}: ", "R.{N} ", "Step {N}: ", "Line {N}: ", "Circle {N}: ", "R{N}~ ",
)  # fmt: skip
RANGE = (
    "A-B", "A - B", "A to B", "A\u2013B", "A thru B", "A~B", "A..B", "A-RB", "each", "A-B (5 rounds)", "A/each",
    "A & each",
    "A until B", "A through B", "A...B", "A\u2014B", "A -B", "A-B (x5)", "A up to B", "A till B", "A+each",
    "each, and",
    "A ~ B", "A to RB", "A- B", "A\u2013RB", "A-B incl.", "A-B (5 rnds)",
)  # fmt: skip


def _row(text: str, flat: bool) -> str:
    if not flat:
        return text
    for word, row in (("Rounds", "Rows"), ("Round", "Row"), ("rounds", "rows"), ("round", "row"), ("ROUND", "ROW"),
                      ("RND", "ROW"), ("Rnd", "Row"), ("rnds", "rows"), ("rnd", "row"), ("Circle", "Row"), ("Rd",
                          "Rw"),
                      ("rd ", "row "), ("Rn ", "Row ")):  # fmt: skip
        text = text.replace(word, row)
    return text


def form(d: Dialect, flat: bool) -> str:
    return _row(d.pick("hand.label", SINGLE), flat)


def single(d: Dialect, n: int, flat: bool, count: str = "") -> str:
    """`count` stands between the number and the sign behind it."""
    text = form(d, flat)
    if " ({N})" in text:
        return text.format(N=n).replace(f"({n})", f"({n}){count}")
    return text.format(N=f"{n}{count}", T=nth(n), W=_worded(in_words(n), text) + count)


def _worded(word: str, text: str) -> str:
    return word.upper() if text.startswith("ROUND") or text.startswith("ROW") else word.capitalize()


def several(d: Dialect, numbers: list[int], flat: bool, count: str = "") -> str | None:
    """The label of a run, or None where this hand's labels have no such form."""
    one = form(d, flat)
    if "{N}" not in one or "\n" in one or "0{N}" in one:
        if "{T}" in one:
            a, b = nth(numbers[0]), nth(numbers[-1])
            joint = d.pick("hand.nth range", ("A to B", "A-B", "A \u2013 B", "A through B", "A until B"))
            return joint.replace("A", a).replace("B", b) + one.removeprefix("{T}")
        return None
    kind = d.pick("hand.range", RANGE)
    a, b, n = numbers[0], numbers[-1], len(numbers)
    if n > 5 and "each" in kind:
        kind = "A-B"
    if n == 2 and d.has("hand.pair", 0.5):
        text = d.pick("hand.pair sign", ("A & B", "A and B", "A, B", "A + B", "A/B", "A+B", "A&B"))
    else:
        text = kind
    if "each" in text:
        n = 5
        sign = {"each": ", ", "A/each": "/", "A & each": " & ", "A+each": "+", "each, and": ", "}[text]
        text = sign.join(map(str, numbers))
        if kind == "each, and":
            text = ", ".join(map(str, numbers[:-1])) + f" and {b}"
    text = text.replace("5", str(n)).replace("A", str(a)).replace("RB", f"R{b}").replace("B", str(b))
    if "R" in text and not one.startswith(("R", "r")):
        text = text.replace("R", "")
    front, _, back = one.partition("{N}")
    if d.has("hand.range plural", 0.5):
        for word in ("Round ", "Rnd ", "Row ", "round ", "Rd "):
            front = front.replace(word, word[:-1] + "s ") if front == word else front
    if front.endswith(" ("):
        return _row(front + text, flat) + back.replace(")", f"){count}", 1)
    return _row(front + text, flat) + count + back
