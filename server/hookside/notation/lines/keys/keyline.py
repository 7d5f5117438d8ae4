"""A key in one line: "x: sc    v: inc    a: dec", "X - sc | V - inc", "x:sc v:inc", "x sc   v inc"."""

from __future__ import annotations

import re
from itertools import pairwise

from hookside.notation.bodies.tongues import key_of
from hookside.pattern import Terms
from hookside.stitches import named

_BOTH: tuple[Terms, Terms] = ("US", "UK")
_SIGN = r"(?:\s?[:=]\s?|\s-{1,2}\s)"
_NAME = r"(?!(?:rounds?|rnds?|rows?|rds?|r)\.?\s?\d)(?P<name>[A-Za-z][A-Za-z0-9./]{0,9}(?:\s?\d?tog|\ssts?)?)"
# The next short form: behind the line's start, a space, or a sign between the pairs
_NEXT = re.compile(rf"(?:^[\s*+-]{{0,6}}|[\s|/,;(]){_NAME}{_SIGN}(?=\S)")
_MAY = re.compile(r"[:=-].*[:=-]")
_LED = re.compile(
    r"[^\w\n]{0,6}[A-Za-z]{3,12}(?: [A-Za-z]{1,12})?(?:\s?[:=-]\s+|\s{2,})(?=[A-Za-z][\w./]{0,9}(?:\s?[:=]|\s-))"
)
# "x sc   v inc   a dec": no sign at all, a wide space between them
_WIDE = re.compile(r"[ ]{2,}|\t")
_SIGNLESS = re.compile(r"(?P<name>[A-Za-z]{1,3}) (?P<what>[A-Za-z0-9][\w ]{1,30})")
# "dec., work", "inc = increase,", "here inc means": a meaning that goes on in the line below
_CUT_SHORT = re.compile(
    r"(?<![\w.])(?P<name>[A-Za-z][A-Za-z.]{0,8})\s?(?:[=:,]|-{1,2}|means|is|stands for)\s?"
    r"(?:(?:[a-z]{1,12} ){0,4}(?:[a-z]{1,12}[,:]|to|by|as|the|an?|in|into|of|work|working|make|making|next))?$"
)
_LONGEST_END = 80  # letters at the end of a line in which such a meaning begins
_MOST = 1_000  # characters
_SHORT = 3  # letters of a short form that need not be known


def known(what: str) -> bool:
    """Does a meaning name a stitch that we know, by its first words?"""
    first = re.split(r"[,(;]| = ", what)[0].strip(" .")
    return any(named(first, terms) for terms in _BOTH) or key_of(first) is not None


def key_line(text: str) -> list[tuple[str, str]]:
    """The (name, meaning) pairs of such a line; nothing where it is none. Two meanings at least must be known ones."""
    if len(text) > _MOST:
        return []
    led = _LED.match(text)
    text = text[led.end() :] if led is not None else text
    return (_signed(text) if _MAY.search(text) else []) or _wide(text)


def cut_short(text: str) -> bool:
    """Does a line end in the middle of what a stitch that everybody knows is short for: "...; dec., work"?"""
    told = _CUT_SHORT.search(text[-_LONGEST_END:].rstrip())
    name = told["name"].rstrip(".") if told is not None else ""
    return bool(name) and (named(name, "US") is not None or named(name, "UK") is not None)


def _signed(text: str) -> list[tuple[str, str]]:
    heads = list(_NEXT.finditer(text))
    if len(heads) < 2 or heads[0].start() > 0:
        return []
    ends = [after.start() for _, after in pairwise(heads)] + [len(text)]
    whats = [text[head.end() : end].strip(" \t,;|/.") for head, end in zip(heads, ends, strict=True)]
    whole = [what.removesuffix(")") if what.count(")") > what.count("(") else what for what in whats]
    return _enough([(head["name"].rstrip("."), what) for head, what in zip(heads, whole, strict=True)])


def _wide(text: str) -> list[tuple[str, str]]:
    parts = [part for part in _WIDE.split(text.strip()) if part]
    if len(parts) > 3 and all(len(name) <= _SHORT for name in parts[::2]):  # "x   sc   v   inc"
        parts = [f"{name} {what}" for name, what in zip(parts[::2], parts[1::2], strict=False)]
    return signless(parts)


def signless(parts: list[str]) -> list[tuple[str, str]]:
    """Pairs with nothing between a short form and its meaning, "x sc": each part must be one, as in `key_line`."""
    pairs = [_SIGNLESS.fullmatch(part.strip()) for part in parts]
    told = [(m["name"], m["what"]) for m in pairs if m is not None]
    return _enough(told) if len(told) == len(parts) else []


def _enough(told: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """The pairs, where half of them are sure: "Repeat: sc, then: inc" is no key."""
    if not all(what and (len(name) <= _SHORT + 1 or known(name)) for name, what in told):
        return []
    fits = sum(known(what) and (len(name) <= _SHORT or known(name)) for name, what in told)
    return told if fits > 1 and 2 * fits >= len(told) else []
