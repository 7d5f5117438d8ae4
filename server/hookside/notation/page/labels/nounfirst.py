"""Labels whose noun stands before an ordinal: "Row the First.-", "Rd. 2nd, ...", "Rounds the third to sixth:"; and
such as fill a line in words, above their work: "ROUND ONE", "Rounds Three to Five".

Each gets its figures ("Row 1:"), in the same length.
"""

from __future__ import annotations

import re

from hookside.notation.page.inwords import NTH, WORD, value
from hookside.notation.sought import Sought

_LABEL = Sought(
    r"[rR](?<!\w.)(?:[oO][uU][nN][dD]|[nN]?[dD]|[oO][wW])[sS]?\.? (?:[tT][hH][eE] )?[a-zA-Z\d]+[ ,.:;)-]",
    rf"^(?P<lead>[^\w\n]{{0,6}})(?P<noun>rounds?|rnds?|rds?|rows?)\.?[ ](?:the[ ])?"
    rf"(?P<numbers>{NTH}(?:(?:[ ]?(?:-|,|&|\+)[ ]?|[ ](?:to|through|thru|until|and)[ ])(?:and[ ])?(?:the[ ])?{NTH})*)"
    r"(?P<stop>[ ]?[:.,;)-]{1,3})(?=[ ]{0,3}\S)",
    re.I | re.M,
)
# "ROUNDS FIVE, SIX AND SEVEN" and nothing else in its line
_IN_WORDS = Sought(
    r"[rR](?<!\w.)(?:[oO][uU][nN][dD]|[nN]?[dD]|[oO][wW])[sS]? [a-zA-Z]",
    rf"^(?P<lead>[^\w\n]{{0,6}})(?P<noun>rounds?|rnds?|rds?|rows?)[ ]"
    rf"(?P<numbers>{WORD}(?:(?:[ ]?(?:-|,|&|\+)[ ]?|[ ](?:to|through|thru|until|and)[ ])(?:and[ ])?{WORD})*)"
    r"(?P<stop>[ ]?[:.,)*_-]{0,4})[ ]*$",
    re.I | re.M,
)
# "Round four, five, six and seven: ...": more than two, wherever a sentence begins
_LIST = Sought(
    r"[rR](?<!\w.)(?:[oO][uU][nN][dD]|[nN]?[dD]|[oO][wW])[sS]? [a-zA-Z-]+, ",
    rf"(?:^[^\w\n]{{0,6}}|(?<=[.!?;)\]][ ]))(?P<lead>)(?P<noun>rounds?|rnds?|rds?|rows?)[ ]"
    rf"(?P<numbers>{WORD}(?:,[ ]{WORD})+,?[ ](?:and|&)[ ]{WORD})(?P<stop>[ ]?:)",
    re.I | re.M,
)
_NTH = re.compile(rf"{NTH}|{WORD}", re.I)
_TO = re.compile(r"-|\b(?:to|through|thru|until)\b", re.I)


def labelled(text: str) -> str:
    """The page with figures in such labels."""
    for rule in (_LABEL, _IN_WORDS, _LIST):
        text = rule.sub(_figures, text)
    return text


def _figures(match: re.Match[str]) -> str:
    told = match["numbers"]
    parts: list[str] = []
    at = 0
    for nth in _NTH.finditer(told):
        if parts:
            parts.append("-" if _TO.search(told[at : nth.start()]) else ",")
        parts.append(str(value(nth[0])))
        at = nth.end()
    noun = "Row" if match["noun"][:2].lower() == "ro" and match["noun"][2:3].lower() == "w" else "Rnd"
    label = f"{match['lead']}{noun}{'s' if parts[1:] else ''} {''.join(parts)}:"
    return label.ljust(len(match[0])) if len(label) <= len(match[0]) else match[0]
