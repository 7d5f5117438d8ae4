"""Plain rounds counted behind their name, where no number labels them: "Plain round x 2.", "Even round, twice.",
"3 x plain round" -> "Work 2 plain rounds."; and what else is told of rounds that only their order numbers: "Increase
round: every 2nd", "Then 6 (dec all round).", "Next 3: sc in each" among lines that "Next:" leads.
"""

from __future__ import annotations

import re

from hookside.notation.page.edits import Edit, put
from hookside.notation.vocabulary import SEVERAL_WORDS, number_of

HINTS = ("round", "rnd", "row", "hen ", "ext ")
_NOUN = r"(?P<noun>rounds?|rnds?|rows?)"
_PLAIN = r"(?:plain|even|straight|sc|single crochet)"
_N = rf"(?:\d{{1,2}}|{SEVERAL_WORDS})"
_TIMES = re.compile(
    rf"^(?P<lead>[^\w\n(\[]{{0,4}})(?:{_PLAIN} {_NOUN}[ ]?(?:[(\[]?x ?(?P<n>{_N})[)\]]?|[,:]? ?(?:(?P<twice>twice)|"
    rf"(?P<n2>{_N}) times))|(?P<n3>{_N}) ?x {_PLAIN} (?P<noun3>rounds?|rnds?|rows?))"
    r"(?=[ ]?[.!,]?[ ]*(?:\(\d+\)[. ]*)?$)",
    re.I | re.M,
)
_SHAPING = re.compile(
    r"^[^\w\n]{0,4}(?P<shape>inc|dec)rease (?:round|rnd|row)s?: "
    r"(?=(?:in )?(?:every|each) (?:\d|other|second|third|fourth))",
    re.I | re.M,
)
_COUNT_AHEAD = re.compile(
    r"^[^\w\n]{0,4}(?:then|next|now),? (?P<n>\d{1,3}) \((?P<work>(?:inc|dec|sc|dc|\d)[^()\n]{2,40})\)(?=[ ]?[.]?[ ]*$)",
    re.I | re.M,
)
_NEXT_ALONE = re.compile(r"^[^\w\n]{0,4}next:", re.I | re.M)
_NEXT_SO_MANY = re.compile(rf"^[^\w\n]{{0,4}}next (?P<n>{_N})(?=: )", re.I | re.M)


def told(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds as others tell them, and the way back."""
    edits: list[Edit] = []
    for m in _TIMES.finditer(text):
        n = 2 if m["twice"] else number_of(m["n"] or m["n2"] or m["n3"])
        noun = (m["noun"] or m["noun3"]).rstrip("s")
        edits.append((m.end("lead"), m.end(), f"Work {n} plain {noun}s"))
    edits += [(m.end(), m.end(), f"{m['shape'].lower()} ") for m in _SHAPING.finditer(text)]
    edits += [(*m.span(), f"Next round: {m['work']} ({m['n']})") for m in _COUNT_AHEAD.finditer(text)]
    if _NEXT_ALONE.search(text) is not None:
        edits += [(m.end(), m.end(), " rounds") for m in _NEXT_SO_MANY.finditer(text)]
    return put(text, offsets, sorted(edits)) if edits else (text, offsets)
