"""A round that goes all the way and then tells how many shapings that are: "decrease all the way around, twelve
decreases". The number is how often it is worked, so that the sum of the round holds it against the stitches below.
"""

from __future__ import annotations

import re

from hookside.notation.vocabulary import number_of

_N = r"\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|sixteen|eighteen|twenty"
_ALL_ROUND = (
    r"(?:(?:all )?(?:the way )?(?:a?round|to (?:the )?end)|all the way|all|"
    r"(?:in(?:to)?|over) (?:each|every|all)(?: (?:sts?|stitch(?:es)?|sc|one))?(?: (?:all )?(?:the way )?a?round)?)"
)
_TOLD = re.compile(
    rf"^(?P<lead>\s{{0,3}}(?:(?:just|now|then|and|work|make|do|crochet) ){{0,3}})(?P<work>[^.;()\[\]\n]{{3,60}}?),? "
    rf"{_ALL_ROUND}(?:,|:|;| -+)? (?:so |(?:and )?(?:that's|that is|that makes|which (?:is|makes)|making|for) )?"
    rf"(?P<n>{_N}) (?P<how>inc|dec)(?:s|reas(?:es?|ings?))?(?: in (?:all|total)| altogether| total)?"
    r"(?=\s{0,3}(?:[.;,=]|[(\[] ?\d|- ?\d|$))",
    re.I,
)
_ONE = {
    "inc": re.compile(r"(?:an? |1 |one )?(?:inc(?:s|reas(?:e|ing))?|(?:2|two) sc|double)", re.I),
    "dec": re.compile(r"(?:an? |1 |one )?(?:dec(?:s|reas(?:e|ing))?|sc ?2 ?tog|(?:sc )?(?:2|two) tog(?:ether)?)", re.I),
}
_SHAPING = {
    "inc": re.compile(r"\binc(?:rease)?\b|\b(?:2|two) (?:sc )?in\b", re.I),
    "dec": re.compile(r"\bdec(?:rease)?\b|tog(?:ether)?\b", re.I),
}


# "inc 6 (1 sc, inc, repeat)", "6 decreases: 2 sc, dec": how many, and how the round goes
_EXPLAINED = re.compile(
    r"^\s{0,3}(?:(?P<how>inc|dec)(?:rease)? ?(?:x ?)?(?P<n>\d{1,2})|"
    r"(?P<n2>\d{1,2}) (?:x )?(?P<how2>inc|dec)(?:s|reases?)?)"
    r"(?: ?(?P<open>[(\[])|: )(?P<list>[^()\[\]\n.;:*]{3,40}?)"
    r"(?:,? (?:rep(?:eat(?:ed)?)?|etc|and so on|(?:all )?(?:the way )?a?round|to (?:the )?end))?\.?(?(open)[)\]])"
    r"(?=\s{0,3}(?:[.;=]|[(\[] ?\d|- ?\d|$))",
    re.I,
)
_PLAIN_AND_ONE = re.compile(
    r"\s?(?:(?:\d{1,2}|one|two|three) )?(?:sc|[hd]?dc|h?tr)(?: \d{1,2})?(?:,| and) "
    r"(?:1 |one |an? )?(?P<how>inc|dec)(?:rease)?\s?",
    re.I,
)


def numbered(body: str) -> str:
    """The body with those words in the form that counts: "12 dec", "(1 sc, 1 inc) x 6"; of the same length."""
    told = _TOLD.match(body) if "creas" in body or "incs" in body or "decs" in body else None
    if told is None:
        return _explained(body) if "(" in body or "[" in body or ":" in body else body
    how, n = told["how"].lower(), number_of(told["n"].lower())
    if _ONE[how].fullmatch(told["work"]) is not None:
        meant = f"{told['lead']}{n} {how}"
    elif len(_SHAPING[how].findall(told["work"])) == 1:
        meant = f"{told['lead']}({told['work']}) x {n}"
    else:
        return body
    return meant.ljust(told.end()) + body[told.end() :] if len(meant) <= told.end() else body


def _explained(body: str) -> str:
    told = _EXPLAINED.match(body)
    how = _PLAIN_AND_ONE.fullmatch(told["list"]) if told is not None else None
    if told is None or how is None or how["how"].lower() != (told["how"] or told["how2"]).lower():
        return body
    return f"({told['list'].strip()}) x {told['n'] or told['n2']}".ljust(told.end()) + body[told.end() :]
