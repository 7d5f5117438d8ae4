"""What the phrases of `grammar` come to: work as a body writes it, with braces for the text's own stitch."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

EACH_PLAIN = "{st} in each st around"
EACH_TWO = "2 {st} in each st around"
ALL_PAIRS = "{dec} around"


@dataclass(frozen=True, slots=True)
class Said:
    """One phrase: work as a body writes it, or what is made of the work before it.

    `kind`: work, fill (it goes all the way by itself), bare (a number and nothing else), marked (in the marked ones),
    open, close, times, round, count, loops, no (known, and no work that can be read).
    """

    kind: str
    body: str = ""
    n: int = 0
    start: int = 0
    end: int = 0


Makes = Callable[[re.Match[str]], Said]


def says(kind: str, body: str) -> Makes:
    """The same for whatever the words are."""
    said = Said(kind, body)
    return lambda m: said


def number(kind: str) -> Makes:
    """A number that says how often."""
    return lambda m: Said(kind, "", int(m["n"]))


def plain(kind: str) -> Makes:
    """So many plain stitches."""
    return lambda m: Said(kind, f"{m['n']} {{st}}", int(m["n"]))


def into(m: re.Match[str]) -> Said:
    """So many in one place."""
    return Said("work", "{st}" if m["n"] == "1" else f"{m['n']} {{st}} in next st")


def each_of(m: re.Match[str]) -> Said:
    """So many in each of some places."""
    return Said("work", f"{m['m']} {{st}}" if m["n"] == "1" else f"{m['n']} {{st}} in each of next {m['m']} sts")


def each(m: re.Match[str]) -> Said:
    """So many in each stitch there is."""
    return Said("fill", EACH_PLAIN if (m["n"] or "1") == "1" else f"{m['n']} {{st}} in each st around")


def every_nth(m: re.Match[str]) -> Said:
    """So many in every third one, and one in those between."""
    nth = int(m["nth"] or 2)
    between = f"{nth - 1} {{st}}, " if nth > 1 else ""
    return Said("fill", f"({between}{m.groupdict().get('n') or 2} {{st}} in next st) around")


def pairs(m: re.Match[str]) -> Said:
    """Every second and third one together."""
    first, second = int(m["nth"]), int(m["m"])
    between = f"{first - 1} {{st}}, " if first > 1 else ""
    return Said("fill" if second == first + 1 else "no", f"({between}{{dec}}) around")


def up_to(m: re.Match[str]) -> Said:
    """Plain ones as far as the last few."""
    return Said("work", f"{{st}} in each st to last {m['n']} sts" if m["n"] else "{st} in each st to last st")


def increases(m: re.Match[str]) -> Said:
    """So many increases, one behind the other."""
    n = m["n"] or "1"
    return Said("work", "2 {st} in next st" if n == "1" else f"2 {{st}} in each of next {n} sts")


def decreases(m: re.Match[str]) -> Said:
    """So many decreases, one behind the other."""
    return Said("work", f"{m['n']} {{dec}}" if m["n"] and m["n"] != "1" else "{dec}")


def signed(m: re.Match[str]) -> Said:
    """So many more or fewer, spread evenly."""
    return Said("fill", f"{'inc' if m['sign'] == '+' else 'dec'} {m['n']} evenly around")


def ring(m: re.Match[str]) -> Said:
    """So many in the ring."""
    return Said("fill", f"{m['n'] or m['n2'] or m['n3']} {{st}} in magic ring")


def skipped(m: re.Match[str]) -> Said:
    """So many passed over."""
    return Said("work", f"skip next {m['n']} sts")
