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

# "The first in hazel, the second in oat.", "One lime, one green and one mint.": a list that tells nothing else
_ONE = re.compile(
    r"(?:the )?(?:first|1st|second|2nd|third|3rd|fourth|4th|last|other|another|one|two|three|1|2|3)"
    r"(?: (?:ones?|more|ears?|arms?|legs?|wings?|paws?|f[oe]{2}t)| of (?:them|these))?"
    r"(?: (?:is|are))?(?: (?:in|with))? (?:the )?(?P<shade>[a-z]+(?: [a-z]+)?)",
    re.I,
)
_PARTED = re.compile(r"\s*(?:[,;]|\band\b|\bbut\b)(?:\s*\b(?:and|then)\b)?\s*", re.I)
_LED = re.compile(
    rf"[^\w\n]{{0,6}}(?:(?:make|work|crochet|(?:you|we)(?:'ll| will)? (?:need|want|make)) (?:a total of )?{COPIES}"
    r"\s*[,:;.-]+\s*)?",
    re.I,
)
_HEAD = re.compile(rf"[^:\n]{{2,40}}[(\[,]\s?(?:make |x ?)?{COPIES}(?: of them)?[)\]]?\s*[:,-]\s+", re.I)
_NUMBERED = re.compile(r"\b(?:one|two|three|first|second|third|1st|\d)\b", re.I)


def one_each(text: str) -> tuple[int, int] | None:
    """Where a line tells the color of each of two copies or more, and nothing else."""
    if len(text) > _LONGEST or _NUMBERED.search(text) is None:
        return None
    led = _LED.match(text)
    start = led.end() if led is not None else 0
    end = len(text.rstrip(" .!:)]"))
    chunks = _PARTED.split(text[start:end])
    told = [_ONE.fullmatch(chunk) for chunk in chunks]
    if len(chunks) < 2 or any(one is None or one["shade"].lower().split()[-1] not in COLOURS for one in told):
        return None
    return start, end


def of_some(text: str) -> tuple[int, int, int] | None:
    """Its start, its end, and where the name in front of it ends; None for any other line."""
    low = text.lower()
    each = low.count(" in ") + low.count(" with ")
    if not each or (each < 2 and not any(word in low for word in _SOME)):
        return None
    head = _HEAD.match(text)
    own = one_each(text[head.end() :]) if head is not None else None
    if head is not None and own is not None and own[0] == 0:  # "Peas (make 3): one in lime, one in green, one in mint"
        return head.end(), head.end() + own[1], len(head[0].rstrip(" :,-"))
    told = _OF_SOME.search(text)
    return (*told.span("told"), told.start("lead")) if told is not None else None
