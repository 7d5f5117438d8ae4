"""Colors told by their courses in a sentence before the first: "alternate 2 rounds of grey and 2 of red".

Each is put before the course that begins with it, as those of a heading are. Where the courses themselves name a
color, the sentence only tells in passing what they say.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from hookside.colours import COLOURS, SHADES
from hookside.notation.askings.kinds import classify
from hookside.notation.courses.waiting import Waiting
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.layout import RawText, sentences
from hookside.notation.vocabulary import NUMBER_WORDS, number_of

_SHADE = (
    rf"(?:(?:{'|'.join(sorted(SHADES))}) )*(?:{'|'.join(sorted(COLOURS, key=len, reverse=True))})\b|"
    r"(?:yarn |colou?r )?(?-i:[A-H])\b"
)
_MANY = r"\d|" + "|".join(word for word in NUMBER_WORDS if len(word) > 2)
_COURSES = r"(?:rounds?|rnds?|rows?)"
_YARN = r"(?: yarn| wool)?(?: again)?"
# Behind the first of them "4-5 black" and "the rest white" go without the word
_WHERE = (
    rf"(?:(?P<named>{COURSE} ?)?(?P<n>\d{{1,3}})(?: ?(?:-|to|and|&) ?(?:{COURSE} ?)?(?P<last>\d{{1,3}}))?|"
    r"(?:the )?(?P<rest>rest|others))"
)
# "grey for rounds 1-2", "rounds 3-4 in pink"
_BY_NUMBER = (
    re.compile(rf"(?P<shade>{_SHADE}){_YARN} (?:for|in|on|over|at) (?:the )?{_WHERE}(?!\w)", re.I),
    re.compile(rf"(?<![\w-]){_WHERE}:? (?:are |is |worked |in |with |= ?|the )*(?P<shade>{_SHADE})", re.I),
)
_SPEAKS = re.compile(r"\b(?:stripe[sd]?|alternat\w+|every (?:\d|other|two|three) r)", re.I)
# "2 rounds of grey", "2 rounds grey", "2 of red"
_SO_MANY = re.compile(
    rf"\b(?P<n>{_MANY})(?: {_COURSES})?(?: in| of| with| the)+ (?P<shade>{_SHADE})|"
    rf"\b(?P<n2>{_MANY}) {_COURSES} (?P<shade2>{_SHADE})",
    re.I,
)
# "2 rounds each of grey, white and red", "grey and red every 2 rounds"
_LIST = rf"(?:{_SHADE})(?:(?:, | and |, and | & |/)(?:{_SHADE}))+"
_ALIKE = re.compile(
    rf"(?P<n>{_MANY}) {_COURSES} each(?: of| in| with)? (?P<list>{_LIST})|"
    rf"(?P<list2>{_LIST}),?(?: alternat\w+| chang\w+)? every (?P<n2>{_MANY}) {_COURSES}",
    re.I,
)
_NAME = re.compile(_SHADE, re.I)
_FROM = re.compile(rf"\bfrom (?:the )?{COURSE} ?(?P<n>\d{{1,3}})", re.I)

_MOST = 40  # lines before the first course that are looked at
_LONGEST = 600  # characters of such a line

Items = list[Waiting | RawText]


class Dyed(NamedTuple):
    """The name of a color at text[start:end], and the course that begins with it."""

    start: int
    end: int
    course: int


def striped(text: str, queue: Items, front: list[tuple[int, int]]) -> list[Dyed]:
    """The colors that the sentences before the first course tell by their courses; none where the courses do so."""
    first = next((i for i, item in enumerate(queue) if isinstance(item, Waiting) and not item.foundation), len(queue))
    labels = sorted({item.label for item in queue[first:] if isinstance(item, Waiting)})
    told = [*front, *((item.start, item.end) for item in queue[:first] if isinstance(item, RawText))]
    for start, end in told[:_MOST]:
        for at, stop in sentences(text, start, end) if len(labels) > 1 and end - start <= _LONGEST else []:
            found = _by_number(text, at, stop) or _by_turns(text, at, stop, labels)
            if found and not any(_names_one(text, item) for item in queue[first:]):
                return [dyed for dyed in found if dyed.course in labels]
    return []


def _names_one(text: str, item: Waiting | RawText) -> bool:
    if isinstance(item, RawText):
        return classify(text[item.start : item.end]) == "colour"
    return item.parsed is not None and any(c.type in ("COLOUR", "COLOURPOST") for c in item.parsed.phrases.chunks)


def _by_number(text: str, at: int, stop: int) -> list[Dyed]:
    for pattern in _BY_NUMBER:
        found: list[Dyed] = []
        last = 0
        for match in pattern.finditer(text, at, stop):
            if not found and not match["named"]:
                continue
            course = last + 1 if match["rest"] else int(match["n"])
            last = int(match["last"] or course) if not match["rest"] else course
            found.append(Dyed(*match.span("shade"), course))
        courses = [dyed.course for dyed in found]
        if len(found) > 1 and courses == sorted(set(courses)):
            return found
    return []


def _by_turns(text: str, at: int, stop: int, labels: list[int]) -> list[Dyed]:
    if _SPEAKS.search(text, at, stop) is None:
        return []
    cycle: list[tuple[int, int, int]] = []
    alike = _ALIKE.search(text, at, stop)
    if alike is not None:
        which, n = ("list", "n") if alike["list"] else ("list2", "n2")
        cycle = [(*m.span(), number_of(alike[n])) for m in _NAME.finditer(text, *alike.span(which))]
    else:
        for match in _SO_MANY.finditer(text, at, stop):
            which, n = ("shade", "n") if match["shade"] else ("shade2", "n2")
            cycle.append((*match.span(which), number_of(match[n])))
    if len(cycle) < 2 or any(n < 1 for _, _, n in cycle):
        return []
    begin = _FROM.search(text, at, stop)
    course = int(begin["n"]) if begin is not None else labels[0]
    found: list[Dyed] = []
    while course <= labels[-1]:
        start, end, often = cycle[len(found) % len(cycle)]
        found.append(Dyed(start, end, course))
        course += often
    return found
