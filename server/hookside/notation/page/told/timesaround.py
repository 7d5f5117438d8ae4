"""Rounds told as how often one goes around: "Go around 5 times without any change.", "Next time around, put 2 in ...".

They become what others write, "Work 5 rounds even" and "Next round,": a letter that says so has no other word for them,
and as talk they were lost.
"""

from __future__ import annotations

import re

from hookside.notation.page.edits import Edit, put
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import NUMBER_WORDS

_N = rf"(?:\d{{1,2}}|{'|'.join(NUMBER_WORDS)})"
_STILL = (
    r"(?:plain|even|straight|unchanged|(?:without|not) doing anything(?: else)?|(?:without|with no) (?:any )?(?:more )?"
    r"(?:changes?|shaping|increas\w+|decreas\w+|incs?|decs?))"
)
_AROUND = Sought(
    ("go ", "going ", "work ", "crochet "),
    r"(?:(?<=^)|(?<=[.!?;] )|(?<=\bthen )|(?<=\bnow ))(?P<told>(?:you )?(?:go|work|crochet|keep going)(?: all)?"
    rf"(?: the way)? a?round (?:(?P<still>{_STILL}) )?(?P<often>once|twice|{_N}(?: more)? times)(?: more)?"
    rf"(?:,? (?P<still2>{_STILL}))?)(?=\s*(?:[.,;(=]|$))",
    re.I | re.M,
)
# ... and "Next round, put 2 in ...": the comma in front of a verb
_NEXT = Sought(
    ("next round,", "next row,", "next time round", "next time around", "next time you go"),
    r"(?P<told>(?:the )?(?P<next>next) (?:time (?:a?round|you go a?round),?|(?:round|row),(?= (?:put|take|do|make)\b)))"
    r"(?= [a-z\d])",
    re.I,
)


def told(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds as rounds, and the way back."""
    edits: list[Edit] = []
    for match in _AROUND.finditer(text):
        often = match["often"].lower().split()[0]
        n = {"once": "1", "twice": "2"}.get(often, often)
        verb = "Work" if match["told"][:1].isupper() else "work"
        edits.append((*match.span("told"), f"{verb} {n} round{'' if n in ('1', 'one') else 's'} even"))
    for match in _NEXT.finditer(text):
        edits.append((*match.span("told"), f"{match['next']} {'row' if 'row,' in match['told'] else 'round'}:"))
    return put(text, offsets, edits) if edits else (text, offsets)
