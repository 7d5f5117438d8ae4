"""A first round that begins with "MC", where no yarn is called so: a magic circle ("Round 1: MC 6", "R1 - MC, 6 sc").

MC is the main color as often. It is the ring where every MC of the text may be one, none has a yarn's words beside it,
and the first round has no other ring or chain to go into; it is written "MR" there, so that the length stays.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

_MC = re.compile(r"(?<![^\W_])mc\b", re.I)
_N = r"(?:\d{1,2}|four|five|six|seven|eight|nine|ten|twelve)"
_ST = r"(?:sc|[hd]?dc|h?tr|sts?|stitches|singles?|doubles?)"
_LABEL = (
    rf"^[^\w\n]{{0,6}}(?:[a-z][a-z' ]{{1,24}}[:.-][ ]{{1,3}})?(?:(?:{COURSE}\.?[ ]?#?)?(?:1|one)\b|"
    rf"(?:1st|first)[ ]{COURSE}\b)[ ]?[^\w\n]{{0,6}}"
)
_FIRST = re.compile(
    rf"{_LABEL}(?:(?:(?:start|begin|make)[ ](?:an?[ ])?|an?[ ])?(?P<ahead>mc)"
    rf"(?:[ ]?[,:;.+x*/-]|[ ]of|[ ]and)?[ ]{{0,2}}(?:(?:ch(?:ain)?[ ]?1|work|crochet)[ ]?,?[ ])?"
    rf"(?:{_N}\b|\d{{1,2}}{_ST}\b|{_ST}[ ]{_N}\b)|{_N}[ ]?(?:{_ST}[ ])?(?P<behind>mc)(?=[ .,]{{0,3}}(?:[(\[=].*)?$))",
    re.I | re.M,
)
# ... and what else may be said of such a circle: in the key, or where its stitches go into it
_CIRCLE = re.compile(
    rf"(?:\d{{1,2}} ?{_ST} in(?:to)?(?: an?| the)?|\ban?|\b(?:circle|ring) ?[(\[=:-]{{1,2}}) ?(?P<mc>mc)\b|"
    r"(?<![^\W_])(?P<led>mc)(?:[)\]]? ?[=:(-]{1,2} ?(?:magic|adjustable|ring|circle)| with \d)",
    re.I,
)
_ELSEWHERE = re.compile(r"\b(?:ring|circle|mr|loop|hook|chains?|ch[ -]?(?:[2-9]|\d\d))\b", re.I)  # to work into
_YARN = re.compile(r"\bcc\d?\b|\b(?:main|contrast(?:ing)?) (?:colou?r|yarn|shade)\b", re.I)


def ringed(text: str) -> str:
    """The page with such circles as rings."""
    first = [m for m in _FIRST.finditer(text) if not _has_ground(text, m)]
    if not first or _YARN.search(text):
        return text
    at = {m.start(m.lastgroup or 0) for m in first}
    known = at.union(m.start(m.lastgroup or 0) for m in _CIRCLE.finditer(text))
    if any(m.start() not in known for m in _MC.finditer(text)):
        return text
    for start in at:
        text = f"{text[:start]}MR{text[start + 2 :]}"
    return text


def _has_ground(text: str, first: re.Match[str]) -> bool:
    """Does its own line, or the one above it, name another ring or a chain?"""
    above = text.rfind("\n", 0, max(0, text.rfind("\n", 0, first.start(first.lastgroup or 0)))) + 1
    end = text.find("\n", first.end())
    told = text[above : first.start(first.lastgroup or 0)], text[first.end() : len(text) if end < 0 else end]
    return any(_ELSEWHERE.search(words) for words in told)
