"""The commonest bodies, read at a glance: "(3 sc, inc) x 6 (30)". What is here is what `gather` would find, and sooner.

Only amounts of plain stitches, the places that nearly every text has, brackets with a multiplier, and a count behind
them all: signs that stand so can mean nothing else, and so need none of the questions that wordier bodies are asked.
"""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Chunk, Phrases, Place, Times
from hookside.notation.bodies.tokens import Dictionary

_ITEM = re.compile(
    r"(?:(?P<before>[0-9]{1,4}) *)?(?P<stitch>sc|hdc|dc|h?tr|inc|dec|invdec)(?: +(?P<behind>[0-9]{1,4}))?(?![a-z0-9])"
)
_NOUN = "sts?|stitch(?:es)?|sc|dc"
_PLACE = re.compile(
    rf" (?P<all>in (?:(?P<each>each) of )?(?:the )?next (?:(?P<n>[1-9][0-9]{{0,2}}) )?(?P<next>{_NOUN})|"
    r"in (?P<ring>magic ring|mr))(?= *(?:[,()\[\]]|$))|"
    # ... all the way; an amount behind a comma might be what the round comes to
    r" (?P<way>in (?:each|every) (?P<fill>st|stitch|sc|dc)(?: (?:around|across))?|around|across)(?= *(?:[()\[\]]|$))"
)
_PLACE_WORDS = frozenset(
    ["in", "each", "every", "of", "the", "next", "st", "sts", "stitch", "stitches", "magic", "ring", "mr", "around",
     "across"]
)  # fmt: skip
_TIMES = re.compile(
    r" *(?P<all>[x*] *(?P<n>[0-9]{1,3}))(?![a-z0-9])| +(?P<times>(?P<n2>[0-9]{1,3}) times)(?![a-z])|"
    r" +(?P<over>(?P<n3>[0-9]{1,3})x)(?![a-z0-9])(?! *[0-9])"
)
_COUNT = re.compile(r"\s*[(\[] *(?P<n>[0-9]{1,4})(?: ?(?:sts?|stitches))? *[)\]]\.?$")
_CLOSES = {"(": ")", "[": "]"}
_DEEPEST = 6
_SHAPING = ("inc", "dec", "inv dec")  # "1 inc in each st" is one thing, said twice


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
            where = _PLACE.match(low, at) if not item["behind"] else None
            often = _TIMES.match(low, at) if where is None and not (item["before"] or item["behind"]) else None
            if where is not None:
                noun = where["next"] or where["fill"] or "st"
                known = noun.startswith("st") or names.key(noun) is not None
                if not known or names.renames(_PLACE_WORDS) or (item["before"] and key in _SHAPING):
                    return None
                chunks.append(_place(where))
                at = where.end()
            elif often is not None:
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


def _place(match: re.Match[str]) -> Chunk:
    start, end = match.span("all" if match["all"] else "way")
    if match["next"]:
        number = match.span("n") if match["n"] else None
        n, each = int(match["n"] or 1), bool(match["each"])
        place = Place("next", n, each, noun=match["next"], start=start, end=end, number=number)
    elif match["ring"]:
        place = Place("ring", start=start, end=end)
    else:
        place = Place("fill", each=bool(match["fill"]), noun=match["fill"] or "", start=start, end=end)
    return Chunk("PLACE", place, start, end)


def _times(match: re.Match[str]) -> Chunk:
    which, n = ("all", "n") if match["n"] else ("times", "n2") if match["n2"] else ("over", "n3")
    return Chunk("TIMES", Times(int(match[n]), number=match.span(n)), *match.span(which))
