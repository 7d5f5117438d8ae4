"""A colour that a heading, or a line below it, tells of some copies alone: "Legs (make 2, then 2 more in blue)",
"Make 3, the last one in white.", "Make one in hazel and one in oat."."""

from __future__ import annotations

import re

from hookside.colours import COLOURS
from hookside.notation.vocabulary import COPIES

_LONGEST = 100  # characters of such a line

_SOME = ("more", "second", "third", "fourth", "last", "other")  # one of these is in each such line
_OF_SOME = re.compile(
    r"(?P<lead>\s?[(\[,:.-]?\s?)\b(?:make|work|crochet|need) "
    rf"(?P<told>{COPIES}(?:(?: (?:in|with) [a-z]+)?(?:,? (?:and then|and|then)|,) (?:{COPIES}|another) more|"
    rf" (?:in|with) (?:the )?[a-z]+(?: [a-z]+)?(?:,? (?:and then|and|then|&)|,) (?:the )?(?:{COPIES}|other)"
    r"(?: one)?|"
    r"(?:,| and|, and) (?:the )?(?:second|third|fourth|last|other)(?: one)?)"
    r" (?:in|with) (?:the )?[a-z]+(?: [a-z]+)?)(?=[)\].\s]{0,4}$)",
    re.I,
)

# "The first in hazel, the second in oat.", "One hazel and one oat.": a line that tells nothing else
_IS = r"(?: is)?(?: (?:in|with))? (?:the )?"
_ONE_EACH = re.compile(
    r"[^\w\n]{0,6}(?P<told>(?:the )?(?:first|1st|one)(?: (?:one|ear|arm|leg|wing|paw|foot)| of (?:them|these))?"
    rf"{_IS}(?P<a>[a-z]+(?: [a-z]+)?)(?:,|;| and|, and|,? but) (?:the )?(?:second|2nd|other|one|another)"
    rf"(?: (?:one|ear|arm|leg|wing|paw|foot))?{_IS}(?P<b>[a-z]+(?: [a-z]+)?))[^\w\n]{{0,4}}",
    re.I,
)


def one_each(text: str) -> tuple[int, int] | None:
    """Where a line tells the color of one copy and of another, and nothing else."""
    if len(text) > _LONGEST or not ("one" in text.lower() or "first" in text.lower()):
        return None
    told = _ONE_EACH.fullmatch(text)
    shades = [told[name].lower().split()[-1] for name in ("a", "b")] if told is not None else []
    return told.span("told") if told is not None and all(shade in COLOURS for shade in shades) else None


def of_some(text: str) -> tuple[int, int, int] | None:
    """Its start, its end, and where the name in front of it ends; None for any other line."""
    low = text.lower()
    each = low.count(" in ") + low.count(" with ")
    if not each or (each < 2 and not any(word in low for word in _SOME)):
        return None
    told = _OF_SOME.search(text)
    return (*told.span("told"), told.start("lead")) if told is not None else None
