"""Where eyes go, in few words: between which rounds, on which one, how far apart."""

from __future__ import annotations

import re

_BETWEEN = re.compile(
    r"\b(?:between|btw|betw\.?)\s+(?:the\s+)?(?:rounds?|rnds?|r|rows?)?\.?\s*(\d+)(?:st|nd|rd|th)?\s*"
    r"(?:and|&|n|-|\u2013)\s*(?:rounds?|rnds?|r|rows?)?\.?\s*(\d+)",
    re.IGNORECASE,
)
_ON_ROUND = re.compile(
    r"\b(?:in|at|on|over|into|after|behind) (?:the )?(?:(?:rounds?|rnds?|rows?|r)\.? ?(\d{1,3})\b|"
    r"(\d{1,3})(?:st|nd|rd|th) (?:rounds?|rnds?|rows?)\b)",
    re.IGNORECASE,
)
# "... his eyes next. Rounds 4 and 5, five stitches apart."
_ROUNDS_ALONE = re.compile(
    r"[.!] (?:rounds?|rnds?|rows?|r)\.? ?(\d{1,3}) ?(?:and|&|-|to) ?(?:r\.? ?)?(\d{1,3})\b", re.IGNORECASE
)
_APART = re.compile(r"\b(\d{1,2} (?:sts?|stitches|sc|dc))\b\.?(?= (?:apart|in between|between them))", re.IGNORECASE)
# Sewn on from outside: nothing of them needs the inside of a piece
BEADS = re.compile(r"(?!.*\b(?:safety|washers?)\b).*\b(?:beads?|buttons?)\b", re.IGNORECASE | re.DOTALL)
NEEDLEWORK = re.compile(r"\bembroider|\bstitch the eyes|\bsew the eyes", re.IGNORECASE)


def eyes_in(text: str) -> str:
    """The title of a job with eyes: "Eyes in, between rounds 10 and 11, 8 stitches apart"."""
    job = "Sew the eyes on" if BEADS.match(text) else "Embroider the eyes" if NEEDLEWORK.search(text) else "Eyes in"
    place, one, apart = _BETWEEN.search(text), _ON_ROUND.search(text), _APART.search(text)
    noun = "rows" if place and re.search(r"\brow", place[0], re.IGNORECASE) else "rounds"
    where = f", between {noun} {place[1]} and {place[2]}" if place else f", round {one[1] or one[2]}" if one else ""
    alone = _ROUNDS_ALONE.search(text) if not where else None
    where = f", rounds {alone[1]} and {alone[2]}" if alone else where
    return f"{job}{where}{f', {apart[1]} apart' if apart else ''}"
