"""Printers: one course of one's own making, printed as different houses print it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Made:
    """A generated round: `lead` plain stitches, then (`between` sc, change) `times` times, then `tail` plain stitches.

    `change` is "inc", "dec" or "" (no change: `lead` stitches all the way).
    """

    number: int
    lead: int
    between: int
    change: str
    times: int
    tail: int
    makes: int


def _parts(
    made: Made, plain: Callable[[int], str], change: Callable[[str], str], bracket: Callable[[str, int], str]
) -> str:
    parts = []
    if made.lead:
        parts.append(plain(made.lead))
    if made.change:
        inner = ([plain(made.between)] if made.between else []) + [change(made.change)]
        parts.append(bracket(", ".join(inner), made.times))
    if made.tail:
        parts.append(plain(made.tail))
    return ", ".join(parts)


def _worked(change: str, stitch: str = "sc") -> str:
    return f"2 {stitch} in next st" if change == "inc" else f"{stitch}2tog"


def toy(m: Made) -> str:
    return f"Rnd {m.number}: " + _parts(m, lambda n: f"{n} sc", str, lambda b, t: f"({b}) x {t}") + f" ({m.makes})"


def glued(m: Made) -> str:
    return f"R{m.number} " + _parts(m, lambda n: f"{n}sc", str, lambda b, t: f"({b})x{t}") + f" [{m.makes}]"


def numbers_behind(m: Made) -> str:
    return (
        f"{m.number}. "
        + _parts(m, lambda n: f"sc {n}", lambda c: f"{c} 1", lambda b, t: f"[{b}] {t} times")
        + f" - {m.makes} sts"
    )


def magazine(m: Made) -> str:
    return (
        f"Round {m.number}: "
        + _parts(m, lambda n: f"Sc in each of next {n} sts", _worked, lambda b, t: f"[{b}] {t} times")
        + f". {m.makes} sts."
    )


def places(m: Made) -> str:
    return (
        f"Rnd {m.number} - "
        + _parts(m, lambda n: f"sc in next {n} sts" if n > 1 else "sc in next st", _worked, lambda b, t: f"({b}) {t}x")
        + f" ({m.makes} sts)"
    )


def starred(m: Made) -> str:
    return f"{m.number}) " + _parts(m, lambda n: f"{n} sc", str, lambda b, t: f"*{b}* {t} times") + f" = {m.makes}"


def capital(m: Made) -> str:
    return (
        f"RND {m.number}: "
        + _parts(m, lambda n: f"{n} SC", lambda c: c.upper(), lambda b, t: f"({b}) X {t}")
        + f" ({m.makes})"
    )


def marked(m: Made) -> str:
    return (
        f"**Rnd {m.number}:** "
        + _parts(m, lambda n: f"{n} sc", lambda c: "inv dec" if c == "dec" else c, lambda b, t: f"{{{b}}} \u00d7 {t}")
        + f" **({m.makes})**"
    )


def web(m: Made) -> str:
    return (
        f"<p><b>Rnd&nbsp;{m.number}</b>&ndash; "
        + _parts(m, lambda n: f"{n} sc", str, lambda b, t: f"({b}) &times; {t}")
        + f" &#40;{m.makes}&#41;</p>"
    )


def table_row(m: Made) -> str:
    return f"| {m.number} | " + _parts(m, lambda n: f"{n} sc", str, lambda b, t: f"({b}) x {t}") + f" | {m.makes} |"


def full_words(m: Made) -> str:
    return (
        f"Round {m.number}: "
        + _parts(
            m,
            lambda n: f"single crochet in the next {n} stitches",
            lambda c: "increase" if c == "inc" else "invisible decrease",
            lambda b, t: f"({b}) repeat {t} times",
        )
        + f" ({m.makes} stitches)"
    )


def british(m: Made) -> str:
    return (
        f"Rnd {m.number}: "
        + _parts(
            m,
            lambda n: f"dc in next {n} sts" if n > 1 else "dc in next st",
            lambda c: _worked(c, "dc"),
            lambda b, t: f"[{b}] {t} times",
        )
        + f" ({m.makes})"
    )


STYLES: dict[str, Callable[[Made], str]] = {
    f.__name__: f
    for f in (
        toy,
        glued,
        numbers_behind,
        magazine,
        places,
        starred,
        capital,
        marked,
        web,
        table_row,
        full_words,
        british,
    )
}
