"""The jobs that a heading tells, in its bracket or behind how many there are: "BODY (make 1, stuff after round 3, leave
a 20 cm tail)", "Legs - make two, leave a tail for sewing", "Paws x2, leave tails".

Colors and how many there are are told there as well; they are read by what knows them.
"""

from __future__ import annotations

import re

from hookside.notation.askings.askings import job
from hookside.notation.vocabulary import COUNT_WORDS
from hookside.pattern import CueKind

_BRACKET = re.compile(r"[(\[{](?P<told>[^()\[\]{}\n]{6,90})[)\]}]")
_CHUNK = re.compile(r"[^,;]+")
# "Feet, 2 pieces, ", "Nose: make one and ", "Fins - two, ": a name, how many, and what else is told
_BEHIND_MANY = re.compile(
    r"\W*[a-z][a-z' ]{1,30}?(?:\s*[,;:]\s*|\s+-+\s+|\s+(?=make|x ?\d|\d ?x))"
    rf"(?:(?:make|made|work|crochet|need) (?:x ?)?(?:\d{{1,2}}|{COUNT_WORDS})|x ?\d{{1,2}}|\d{{1,2}} ?x|"
    rf"\d{{1,2}}(?= (?:pieces|pcs))|(?:{COUNT_WORDS}))\b(?: (?:pieces|pcs|alike|of (?:them|these|those)))?"
    r"(?P<seam>\s*[,;:]\s*|\s+-+\s+|\s+and\s+)(?P<told>[^()\[\]{}\n]{4,80})$",
    re.I,
)
_TOLD: tuple[CueKind, ...] = ("stuff", "eyes", "embroider", "tail", "close", "fasten", "weave", "hold", "marker", "sew")
_BEHIND: tuple[CueKind, ...] = (*_TOLD, "shape", "join", "pin")
_UNFILLED = re.compile(r"(?:no stuffing|(?:not |un-?)stuffed|(?:do not|don't) stuff)\W*", re.I)
_LENGTH_LEFT = re.compile(r"(?:leav\w*|with) (?:an? )?\d{1,3} ?(?:cm|mm|in|inch(?:es)?|\")(?![a-z])", re.I)  # of yarn


def jobs_told(text: str) -> list[tuple[int, int]]:
    """Where they stand, each by itself."""
    behind = _BEHIND_MANY.match(text)
    found = [] if behind is None else _jobs(text, *behind.span("told"), _BEHIND)
    for bracket in _BRACKET.finditer(text):
        found += _jobs(text, *bracket.span("told"), _TOLD)
    return found


def before_jobs(text: str) -> str:
    """The name and how many, where nothing but jobs stands behind them."""
    behind = _BEHIND_MANY.match(text)
    if behind is None:
        return text
    told = len(_jobs(text, *behind.span("told"), _BEHIND))
    return text[: behind.start("seam")] if told == len(_CHUNK.findall(behind["told"])) else text


def _jobs(text: str, begins: int, ends: int, kinds: tuple[CueKind, ...]) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    for chunk in _CHUNK.finditer(text, begins, ends):
        words = chunk[0].strip()
        if job(words) in kinds or _LENGTH_LEFT.match(words) or _UNFILLED.fullmatch(words):
            first = chunk.start() + len(chunk[0]) - len(chunk[0].lstrip())
            found.append((first, first + len(words)))
    return found
