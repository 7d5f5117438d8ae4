"""Texts with something changed in them: what a paste, a keyboard and a scan do to a pattern."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from hookside.notation import read

_NUMBER = re.compile(r"(?<![\d.])\d{1,3}(?![\d.])")
_WORD = re.compile(r"[A-Za-z]{3,}")
_COURSE = re.compile(
    r"^(?P<label>(?:Rnds?|Rounds?|Rows?|R)\.?\s?\d[^:\n]{0,12}:\s*)(?P<work>.+?)\s*(?P<count>[(\[]\d{1,3}[)\]])$", re.M
)
_SIGNS = "()[]{}*,.;:-=/|<>#&\"'\n\t \u00a0\u200b\u2013x0l1O"


def _at(text: str, chance: random.Random) -> int:
    return chance.randrange(len(text)) if text else 0


def drop(text: str, chance: random.Random) -> str:
    at = _at(text, chance)
    return text[:at] + text[at + chance.randint(1, 4) :]


def double(text: str, chance: random.Random) -> str:
    at = _at(text, chance)
    return text[: at + 1] + text[at : at + 1] + text[at + 1 :]


def swap(text: str, chance: random.Random) -> str:
    at = _at(text, chance)
    return text[:at] + text[at : at + 2][::-1] + text[at + 2 :]


def sign(text: str, chance: random.Random) -> str:
    at = _at(text, chance)
    return text[:at] + chance.choice(_SIGNS) + text[at + chance.randint(0, 1) :]


def number(text: str, chance: random.Random) -> str:
    found = list(_NUMBER.finditer(text))
    if not found:
        return text
    match = chance.choice(found)
    other = chance.choice([0, 1, int(match[0]) + 1, max(0, int(match[0]) - 1), int(match[0]) * 10, 9999])
    return text[: match.start()] + str(other) + text[match.end() :]


def word(text: str, chance: random.Random) -> str:
    found = list(_WORD.finditer(text))
    if not found:
        return text
    gone, taken = chance.choice(found), chance.choice(found)
    return text[: gone.start()] + taken[0] + text[gone.end() :]


def line_away(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    del lines[chance.randrange(len(lines))]
    return "\n".join(lines)


def line_again(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    return "\n".join([*lines[: at + 1], lines[at], *lines[at + 1 :]])


def lines_moved(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    line = lines.pop(chance.randrange(len(lines)))
    lines.insert(chance.randint(0, len(lines)), line)
    return "\n".join(lines)


def run_together(text: str, chance: random.Random) -> str:
    breaks = [m.start() for m in re.finditer(r"\n", text)]
    at = chance.choice(breaks) if breaks else 0
    return text[:at] + " " + text[at + 1 :]


def cut_short(text: str, chance: random.Random) -> str:
    return text[: _at(text, chance)]


ANY: list[Callable[[str, random.Random], str]] = [
    drop, double, swap, sign, number, word, line_away, line_again, lines_moved, run_together, cut_short,
]  # fmt: skip


def mutated(text: str, chance: random.Random) -> str:
    """A text with one to four things changed."""
    for _ in range(chance.randint(1, 4)):
        text = chance.choice(ANY)(text, chance)
    return text


def miscounted(text: str, chance: random.Random) -> tuple[str, str] | None:
    """A text in which one amount of one course was changed, while its printed count still stands.

    -> (the text, the changed course's line); None where no course of the text has a count in a bracket and a number.
    """
    courses = [m for m in _COURSE.finditer(text) if _NUMBER.search(m["work"])]
    if not courses:
        return None
    match = chance.choice(courses)
    amount = chance.choice(list(_NUMBER.finditer(match["work"])))
    value = int(amount[0])
    other = chance.choice([n for n in (value + 1, value - 1, value + 2, value * 2) if n > 0 and n != value])
    work = match["work"][: amount.start()] + str(other) + match["work"][amount.end() :]
    line = match["label"] + work + " " + match["count"]
    return text[: match.start()] + line + text[match.end() :], line


def judged(text: str, chance: random.Random) -> str | None:
    """Changes one amount and reads: "" where all is well, the changed line where it was passed over in silence.

    None where the text has no course for this. All is well where the course still comes to what is printed (a chain
    that turns may be longer), or where something is said at it. A line that became no course at all must be spoken of.
    """
    changed = miscounted(text, chance)
    if changed is None:
        return None
    whole, line = changed
    at = whole[: whole.index(line)].count("\n") + 1
    printed = int(re.sub(r"\D", "", line.rsplit(" ", 1)[1]))
    pattern = read(whole)
    spoken = {f.course_id for f in pattern.findings if f.course_id} | {f.line for f in pattern.findings}
    courses = [c for piece in pattern.pieces for c in piece.courses if c.line == at]
    if at in spoken or any(c.id in spoken for c in courses) or any(c.makes == printed for c in courses):
        return ""
    return line
