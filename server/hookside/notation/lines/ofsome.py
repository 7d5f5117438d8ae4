"""A colour that a heading, or a line below it, tells of some copies alone: "Legs (make 2, then 2 more in blue)",
"Make 3, the last one in white.", "Make one in hazel and one in oat."."""

from __future__ import annotations

import re

from hookside.notation.vocabulary import COPIES

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


def of_some(text: str) -> tuple[int, int, int] | None:
    """Its start, its end, and where the name in front of it ends; None for any other line."""
    low = text.lower()
    each = low.count(" in ") + low.count(" with ")
    if not each or (each < 2 and not any(word in low for word in _SOME)):
        return None
    told = _OF_SOME.search(text)
    return (*told.span("told"), told.start("lead")) if told is not None else None
