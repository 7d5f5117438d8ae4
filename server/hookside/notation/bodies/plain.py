"""The commonest bodies, read at a glance: "(3 sc, inc) x 6 (30)". What is here is what `gather` would find, and sooner.

Only amounts of plain stitches, brackets with a multiplier, and a count behind them all: signs that stand so can mean
nothing else, and so need none of the questions that wordier bodies are asked.
"""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Chunk, Phrases, Times
from hookside.notation.bodies.tokens import Dictionary

_ITEM = re.compile(
    r"(?:(?P<before>[0-9]{1,4}) ?)?(?P<stitch>sc|hdc|dc|inc|dec)(?: (?P<behind>[0-9]{1,4}))?(?![a-z0-9])"
)
_TIMES = re.compile(r" ?(?P<all>[x*] ?(?P<n>[0-9]{1,3}))(?![a-z0-9])| (?P<times>(?P<n2>[0-9]{1,3}) times)(?![a-z])")
_COUNT = re.compile(r" ?[(\[](?P<n>[0-9]{1,4})[)\]]\.?$")
_CLOSES = {"(": ")", "[": "]"}
_DEEPEST = 6


def plain(body: str, names: Dictionary) -> Phrases | None:
    """The phrases of a body of amounts, brackets and a count; None for any other, and where x is a stitch."""
    if "x" in names.own:
        return None
    low = body.lower()
    out = Phrases()
    chunks = out.chunks
    open_: list[str] = []
    at, end, begins = 0, len(low), True
    while at < end or begins:
        sign = low[at : at + 1]
        if begins and sign in _CLOSES:
            open_.append(sign)
            chunks.append(Chunk("OPEN", sign, at, at + 1))
            at += 1
        elif begins:
            item = _ITEM.match(low, at)
            key = names.key(item["stitch"]) if item is not None else None
            if item is None or key is None or (item["before"] and item["behind"]):
                return None
            if item["before"]:
                chunks.append(Chunk("NB", (int(item["before"]), *item.span("before")), *item.span("before")))
            chunks.append(Chunk("ST", key, *item.span("stitch")))
            if item["behind"]:
                chunks.append(Chunk("NA", (int(item["behind"]), *item.span("behind")), *item.span("behind")))
            at, begins = item.end(), False
            often = _TIMES.match(low, at) if not (item["before"] or item["behind"]) else None
            if often is not None:
                chunks.append(_times(often))
                at = often.end()
        elif open_ and sign == _CLOSES[open_[-1]]:
            open_.pop()
            often = _TIMES.match(low, at + 1)
            if often is None:
                return None
            chunks += Chunk("CLOSE", sign, at, at + 1), _times(often)
            at = often.end()
        elif sign == ",":
            chunks.append(Chunk("SEP", ",", at, at + 1))
            at, begins = at + 1 + (low[at + 1 : at + 2] == " "), True
        else:
            count = _COUNT.match(low, at) if not open_ else None
            if count is None:
                return None
            out.counts.append((int(count["n"]), *count.span("n")))
            at = end
        if len(open_) > _DEEPEST:
            return None
    return None if open_ else out


def _times(match: re.Match[str]) -> Chunk:
    which, n = ("all", "n") if match["n"] else ("times", "n2")
    return Chunk("TIMES", Times(int(match[n]), number=match.span(n)), *match.span(which))
