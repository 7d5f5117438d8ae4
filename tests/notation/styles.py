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


_WORDS = ["One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"]


def _word(n: int) -> str:
    return _WORDS[n - 1] if n <= len(_WORDS) else str(n)


def _nth(n: int) -> str:
    return f"{n}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10 if n not in (11, 12, 13) else 0, 'th') }"


def _again(body: str, times: int) -> str:
    """A starred repeat told as a magazine tells it: once, then so many times more."""
    return f"*{body}; rep from * {times - 1} more time{'s' if times > 2 else ''}"


def translated(m: Made) -> str:
    return (
        f"{m.number} row: " + _parts(m, lambda n: f"{n} sc", str, lambda b, t: f"({b})*{t}") + f" ({m.makes})"
    )


def lettered(m: Made) -> str:
    letters = {"inc": "V", "dec": "A"}
    work = _parts(m, lambda n: f"{n}X", lambda c: letters[c], lambda b, t: f"({b})*{t}")
    return f"R{m.number}: {work} ({m.makes})"


def tabbed(m: Made) -> str:
    return f"{m.number}\t" + _parts(m, lambda n: f"{n} sc", str, lambda b, t: f"({b}) x {t}") + f"\t{m.makes}"


def leaflet(m: Made) -> str:
    """UK terms."""
    def plain(n: int) -> str:
        return f"1 dc in each of next {n} sts" if n > 1 else "1 dc in next st"

    return f"{_nth(m.number)} round: {_parts(m, plain, lambda c: _worked(c, 'dc'), _again)}. ({m.makes} sts)"


def in_words(m: Made) -> str:
    return (
        f"Round {_word(m.number)}: "
        + _parts(
            m,
            lambda n: f"single crochet in next {n} stitches" if n > 1 else "single crochet in next stitch",
            lambda c: "increase" if c == "inc" else "decrease",
            lambda b, t: f"({b}) {_word(t).lower()} times",
        )
        + f". ({m.makes} stitches)"
    )


def quoted(m: Made) -> str:
    return "> " + toy(m)


def slashed(m: Made) -> str:
    return f"r{m.number} / " + _parts(m, lambda n: f"{n} sc", str, lambda b, t: f"({b}) x{t}") + f" / {m.makes}"


def times_behind(m: Made) -> str:
    return f"Rd {m.number}: " + _parts(m, lambda n: f"sc x{n}", str, lambda b, t: f"({b}) x{t}") + f" = {m.makes}"


def times_before(m: Made) -> str:
    return f"Rnd {m.number}: " + _parts(m, lambda n: f"{n} sc", str, lambda b, t: f"{t}x ({b})") + f" ({m.makes} sts)"


def classic(m: Made) -> str:
    return (
        f"Rnd {m.number}: "
        + _parts(m, lambda n: f"sc in next {n} sts" if n > 1 else "sc in next st", _worked, _again)
        + f". [{m.makes} sts]"
    )


BRITISH = ("british", "leaflet")
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
        translated,
        lettered,
        tabbed,
        leaflet,
        in_words,
        quoted,
        slashed,
        times_behind,
        times_before,
        classic,
    )
}
