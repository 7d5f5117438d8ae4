"""A round told in lines one below the other, with no comma between them: "2 sc", "inc in next 3 sts", "4 sc"."""

from __future__ import annotations

import re

from hookside.notation.bodies.tokens import Dictionary, Token, tokens

_NARROW = 24  # letters: no page is so narrow that its lines were cut there
_FIRST_WORDS = 24
_OPENS = ("(", "[", "{", "*", "<")
_NO_GROUP = ("ch", "sl st", "ring", "turn", "join")
# "sc in next" and "3 sts", "work 3" and "sc": a line that its maker would not end so
_GOES_ON = re.compile(
    r"(?:[,;:(\[{*+&/=-]|\b(?:in|into|of|the|each|every|and|to|x|from|with|last|rep|repeat|then|an?|work|make|"
    r"first|same|remaining|(?<![a-z] )\d+))\s*$",
    re.I,
)


def parted(body: str, lead: int, names: Dictionary) -> str:
    """The body with a sign for each break between two such lines; `lead`: letters before it on its first line.

    A page that is cut at its margin leaves no room at the end of a line for the word behind it: lines that leave some
    were ended by whoever wrote them.
    """
    lines = body.split("\n")
    widths = [len(line.rstrip()) + (0 if n else lead) for n, line in enumerate(lines)]
    widest = max(*widths, _NARROW)
    words = [line.split(maxsplit=1)[0] if line.strip() else "" for line in lines]
    ended = [n for n in range(1, len(lines)) if widths[n - 1] + 1 + len(words[n]) <= widest]
    if not ended or not all(begins(tokens(line[:_FIRST_WORDS], names)) for line in lines[1:]):
        return body
    if any(_GOES_ON.search(line) for line in lines[:-1]):
        return body
    return re.sub(r"\n(?=\d)(?<=\d\n)", ";", body).replace("\n", ",")  # "5,4" would be one number


def begins(told: list[Token]) -> bool:
    """Do these words begin with a stitch of the course below, its amount, or a bracket around such?"""
    told = [t for t in told[:5] if t.text not in ("work", "then")]
    while told and told[0].text in _OPENS:
        told = told[1:]
    if told and told[0].kind == "number":
        told = told[1 + (len(told) > 1 and told[1].text == "x") :]
    return bool(told) and told[0].kind == "stitch" and told[0].key not in _NO_GROUP
