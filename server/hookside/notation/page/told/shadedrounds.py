"""Rounds of several colors told in one sentence, of which the later leave out the noun: "3 rounds even in red, 2 in
white", "Work 5 rounds even: 3 red, 2 white", "5 rounds even, the last 2 in white". Each gets its own number of rounds.
"""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import SHADE
from hookside.notation.page.edits import Edit, put
from hookside.notation.vocabulary import SEVERAL_WORDS, number_of

HINTS = (" rounds", " rnds", " rows")
_N = rf"(?:\d{{1,2}}|one|{SEVERAL_WORDS})"
_HOW = r"(?: (?:even|plain|straight|of sc|in sc|more))*"
_IN = rf"(?:(?:in|with|of) )?(?:the )?(?:{SHADE})"
_LINE = (
    rf"^[^\w\n]{{0,4}}(?:(?:then|now|and|work|crochet|do|make|sc around)[, ]+(?:for )?)*(?P<n>{_N})"
    rf"(?P<noun> (?:rounds|rnds|rows)){_HOW}"
)
_ENDS = r"[ ]?[.]?$"
# "Work 3 rounds even in red, 2 in white"
_LATER = re.compile(
    rf"{_LINE} {_IN}(?P<later>(?:,? (?:and )?(?:then )?(?:for )?{_N} {_IN}){{1,6}}){_ENDS}", re.I | re.M
)
# "Work 5 rounds even (3 red, 2 white)"
_LISTED = re.compile(
    rf"{_LINE}(?P<later>,? ?[(:] ?{_N} {_IN}(?:,? (?:and )?(?:then )?{_N} {_IN}){{1,6}}[)]?){_ENDS}", re.I | re.M
)
# "5 rounds even, the last two in white"
_LAST = re.compile(
    rf"{_LINE}(?P<later>,? (?:(?:and|with|but) )?the last (?P<last>{_N}) (?P<shade>{_IN})){_ENDS}", re.I | re.M
)
_ONE = re.compile(rf"(?P<n>{_N})(?= {_IN})", re.I)


def told(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with a number of rounds for each of the colors, and the way back."""
    edits: list[Edit] = []
    for match in _LATER.finditer(text):
        edits += [(m.end(), m.end(), match["noun"]) for m in _ONE.finditer(text, *match.span("later"))]
    for match in _LISTED.finditer(text):
        each = list(_ONE.finditer(text, *match.span("later")))
        if sum(number_of(m["n"]) for m in each) != number_of(match["n"]):
            continue
        edits.append((match.start("n"), each[0].start(), ""))
        edits += [(m.end(), m.end(), f"{match['noun']} even") for m in each]
        if match["later"].endswith(")"):
            edits.append((match.end("later") - 1, match.end("later"), ""))
    for match in _LAST.finditer(text):
        rest = number_of(match["n"]) - number_of(match["last"])
        if rest > 0:
            edits.append((*match.span("n"), str(rest)))
            edits.append((*match.span("later"), f", {match['last']}{match['noun']} even {match['shade']}"))
    return put(text, offsets, sorted(edits)) if edits else (text, offsets)
