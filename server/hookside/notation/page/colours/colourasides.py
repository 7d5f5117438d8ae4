"""The color of a round and the one it ends in, told between its label and its work: "Rnd 4 oat, back to hazel on the
last yarn over: sc around". They get the bracket that others put round them; the length stays.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

HINTS = ("last ", "final ", "at the end")
_ENDS = r"(?:(?:very )?(?:last|final) (?:st|stitch|sc|dc|hdc|pull|yarn[ -]?over|yo|loop|step)|at the (?:very )?end)"
_ASIDE = re.compile(
    rf"^(?P<label>[^\w\n]{{0,6}}{COURSE}\.?[ ]?#?\d{{1,3}}(?:[ ]?-[ ]?\d{{1,3}})?[ ]?)(?P<open>[:,-][ ]|[ ])"
    r"(?P<told>(?:in |with |using )?(?:the )?(?P<shade>[a-z]{3,12}(?: [a-z]{3,12})?)(?P<by>,|;| -| and)"
    r" (?:then |but |and )*(?:chang|switch|swap|go |going |back |return|finish|end|change)"
    rf"[^:\n,.;()\[\]\d]{{0,40}}\b{_ENDS}[^:\n,.;()\[\]\d]{{0,20}})(?P<close>:[ ])",
    re.I | re.M,
)
_NO_SHADE = re.compile(
    r"\b(?:sc|[hd]?dc|h?tr|inc|dec|work|sts?|stitch\w*|around|even|plain|each|round|same|repeat|ch|join|turn|single|double|"
    r"crochet|across|then|as)\b",
    re.I,
)


def bracketed(text: str) -> str:
    """The page with a bracket round each of them."""
    return _ASIDE.sub(_round, text)


def _round(match: re.Match[str]) -> str:
    if _NO_SHADE.search(match["shade"]):
        return match[0]
    lead = match["label"].rstrip()
    gap = " " * (len(match["label"]) - len(lead) + len(match["open"]) - 1)
    told = match["told"]
    if match["by"].strip() == "and":
        told = told.replace(" and", ",   ", 1)
    return f"{lead}{gap}({told}):"
