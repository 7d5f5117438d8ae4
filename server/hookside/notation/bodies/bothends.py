"""Rows that are shaped at their ends, told beside the stitch that goes along: "sc across, dec 1 st at each end"."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.notation.bodies.chunks import Place
from hookside.notation.bodies.edges import Edges
from hookside.notation.bodies.wording.stretches import PLAIN
from hookside.stitches import TABLE

_PLAIN_WORD = r"(?:sc|[hd]?dc|h?tr|dtr)"
_ENDS = (
    r"(?:(?P<both>(?:at |on |in )?(?:the )?(?:each|both|either) (?:ends?|sides?|edges?)|"
    r"(?:at |in )(?:the )?(?:very )?(?:beg(?:inning)?|start) and (?:at )?(?:the )?end|"
    r"(?:in |into |over |of )?(?:the )?(?:very )?first and (?:the )?(?:very )?last"
    r"(?: (?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr)\b)?)"
    r"|(?:at|in) (?:the )?(?:very )?(?:(?P<start>beginning|beg|start)|end))"
    r"(?: of (?:the |this |each |every )?(?:row|round|rnd|work|piece))?"
)
SHAPED_ENDS = re.compile(
    rf"(?:(?:and|with|while|working|by|,) )*(?:(?P<verb>inc|dec)(?:rease|reasing)?|2 (?P<two>{_PLAIN_WORD})|"
    rf"(?P<tog>{_PLAIN_WORD}) ?2 ?tog)(?: (?:1|one|a|an))?(?: (?:sts?|stitch|sc|[hd]?dc|h?tr)\b)?"
    rf"(?: \((?:(?:work )?2 (?:{_PLAIN_WORD}|sts) tog(?:ether)?|{_PLAIN_WORD} ?2 ?tog|"
    rf"(?:work )?2 {_PLAIN_WORD} in(?:to)? (?:the )?(?:same|next|1|one)(?: st(?:itch)?)?)\))? {_ENDS}"
    rf"(?P<middle>,? (?:and |with )?(?:work )?(?:1 )?(?P<st>{_PLAIN_WORD})\b(?: evenly| even)?(?: (?:in|into))?"
    r"(?: (?:the|all|all the))?(?: (?:sts? |stitches )?(?:in )?between| rest| others?| remaining| across| other sts)"
    r"(?: (?:sts?|stitches))?)?(?=\s*(?:[.,;()\[=]|: \d{1,3} (?:sc|sts?|[hd]?dc)\b|- ?\d|$))"
)
_BEGIN = frozenset(
    ["and", "with", "while", "working", "by", "inc", "dec", "increase", "decrease", "increasing", "decreasing"]
)
_HINT = re.compile(
    r"\b(?:each|both|either) (?:end|side|edge)|\b(?:beg|beginning|start|first) and |\bat (?:the )?(?:beg|start|end)"
)


@lru_cache(8)
def _may_shape(low: str) -> bool:
    """Whether a course tells of its ends at all; each of its words asks."""
    return _HINT.search(low) is not None


class BothEnds(Edges):
    """The ends of a row, and what goes along between them."""

    def shaped_ends(self, at: int) -> int | None:
        """Takes the shaping and its stretch together: the stitches at the ends are of those that are there."""
        tok = self.toks[at]
        led = tok.text in _BEGIN or tok.kind in ("number", "stitch")
        if not led or self.depth or not _may_shape(self.low):
            return None
        match = SHAPED_ENDS.match(self.low, tok.start)
        if match is None:
            return None
        before = [c for c in self.out.chunks if c.type not in ("SEP", "MARK", "CUE", "LOOPS", "COLOUR")]
        while len(before) > 1 and before[0].value == "ch" and before[1].type == "NA":
            del before[:2]
        along = [c.type for c in before] in (["ST", "PLACE"], ["NB", "ST", "PLACE"])
        if before and not along:
            return None
        stitch = self.names.key(match["st"]) if match["st"] else "sc"
        if along:
            place, told = before[-1].value, str(before[-2].value)
            if place.kind != "fill" or place.last or place.hook or told not in PLAIN or match["middle"]:
                return None
            stitch = told
            gone = set(map(id, before))
            self.out.chunks[:] = [c for c in self.out.chunks if id(c) not in gone]
        elif not match["middle"] and match["verb"] and not re.search(r"first and| (?:each|both|either) ", match[0]):
            return None
        if match["two"] or match["tog"]:
            stitch = self.names.key(match["two"] or match["tog"])
        grows = match["verb"] == "inc" or match["two"] is not None
        key = ("inc" if grows else "dec") if stitch == "sc" else f"{stitch} inc" if grows else f"{stitch}2tog"
        if key not in TABLE:
            return None
        span = match.span()
        both = match["both"] is not None
        place = Place("ends", start=span[0], end=span[1])
        if not both:
            place = Place("ends", n=1 if match["start"] else 2, noun="one", start=span[0], end=span[1])
        self.emit("ST", key, *span)
        self.emit("PLACE", place, *span)
        return self.token_after(match.end(), at)
