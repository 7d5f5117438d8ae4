"""Colors told by their courses in a sentence before the first: "alternate 2 rounds of grey and 2 of red".

Each is put before the course that begins with it, as those of a heading are. Where the courses themselves name a
color, the sentence only tells in passing what they say.
"""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import SHADE
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.roundshades import lists_shades
from hookside.notation.courses.shaderanges import Dyed, by_number
from hookside.notation.courses.waiting import Waiting
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.layout import RawText, sentences
from hookside.notation.vocabulary import COUNT_WORDS, number_of

_MANY = rf"\d|{COUNT_WORDS}"
_COURSES = r"(?:rounds?|rnds?|rows?)"
_SPEAKS = re.compile(
    r"\b(?:stripe[sd]?|alternat\w+|repeat|and so on|over and over|every (?:(?:\d|other|two|three) )?r|by turns|"
    r"in turn)",
    re.I,
)
# "2 rounds of grey", "2 rounds grey", "2 of red"
_SO_MANY = re.compile(
    rf"\b(?P<n>{_MANY})(?: {_COURSES})?(?: in| of| with| the)+ (?P<shade>{SHADE})|"
    rf"\b(?P<n2>{_MANY}) {_COURSES} (?P<shade2>{SHADE})",
    re.I,
)
# "2 rounds each of grey, white and red", "grey and red every 2 rounds"
_LIST = rf"(?:{SHADE})(?:(?:,? (?:and |& |then )*|/)(?:{SHADE}))+"
_ALIKE = re.compile(
    rf"(?P<n>{_MANY}) {_COURSES} each(?: of| in| with)? (?P<list>{_LIST})|"
    rf"(?P<list2>{_LIST}),?(?: alternat\w+| chang\w+)? every (?:(?P<n2>{_MANY}) )?{_COURSES}|"
    rf"(?:every|stripes of|each of) (?:(?P<n3>{_MANY}) )?{_COURSES}(?: each)?[:,]? (?:in |of )?(?P<list3>{_LIST})|"
    rf"every (?:(?P<n6>{_MANY}) )?{_COURSES}(?: each)?[:,.]? (?:you |we |and )*(?:start(?:ing)?|begin(?:ning)?|first)"
    rf"(?: off)?(?: with| in)? (?P<list6>{_LIST})|"
    rf"(?P<list5>{_LIST}) (?:in turn|by turns),? (?P<n5>{_MANY}) {_COURSES} each|"
    rf"(?P<n4>{_MANY}) (?:by|and) (?P=n4)(?: {_COURSES})?[:,]? (?:in |of )?(?P<list4>{_LIST})",
    re.I,
)
_NAME = re.compile(SHADE, re.I)
_FROM = re.compile(rf"\bfrom (?:the )?{COURSE} ?(?P<n>\d{{1,3}})", re.I)

_MOST = 40  # lines before the first course that are looked at
_LONGEST = 600  # characters of such a line

_SEVERAL = re.compile(r"\n|\. (?=[A-Z])")
_SHORT = 60  # ... and of one of a list

Items = list[Waiting | RawText]
Spans = list[tuple[int, int]]


def striped(text: str, queue: Items, notes: Spans, yarns: frozenset[str]) -> tuple[list[Dyed], Spans]:
    """The colors that the sentences before the first course, or among the `notes`, tell by their courses, and these
    sentences; none where the courses name any themselves."""
    first = next((i for i, item in enumerate(queue) if isinstance(item, Waiting) and not item.foundation), len(queue))
    labels = sorted({item.label for item in queue[first:] if isinstance(item, Waiting)})
    told = [*notes, *((item.start, item.end) for item in queue[:first] if isinstance(item, RawText))]
    behind = _behind(text, queue, labels, yarns)
    told += [(item.start, item.end) for item in behind]
    told = [(start, end) for start, end in told[:_MOST] if end - start <= _LONGEST] if len(labels) > 1 else []
    stretches = [span for start, end in told for span in sentences(text, start, end)]
    lines = [span for span in told if span not in stretches]
    for at, stop in [*_stacked(text, told), *lines, *stretches]:
        found = by_number(text, at, stop, labels, yarns) or _by_turns(text, at, stop, labels)
        if (at, stop) in lines and any(dyed.ends for dyed in found):
            continue  # each of its sentences by itself
        if found and not any(names_shade(text, item) for item in queue[first : len(queue) - len(behind)]):
            inside = [span for span in stretches if any(span[0] <= dyed.start < span[1] for dyed in found)]
            return [dyed for dyed in found if dyed.course in labels], inside
    return [], []


def _behind(text: str, queue: Items, labels: list[int], yarns: frozenset[str]) -> list[RawText]:
    """What stands behind the last course, where it is nothing but such a list, or such sentences."""
    found: list[RawText] = []
    for item in reversed(queue):
        if not isinstance(item, RawText):
            break
        line = text[item.start : item.end]
        spans = sentences(text, item.start, item.end) if len(line) <= _LONGEST else []
        told = all(classify(text[a:b]) in (None, "colour") for a, b in spans) if spans else False
        if not lists_shades(line) and not (told and by_number(text, item.start, item.end, labels, yarns)):
            break
        found.append(item)
    return found[::-1]


def _stacked(text: str, told: Spans) -> Spans:
    """Short lines one below the other, as of a list: "Brown: rounds 1-4" above "Cream: rounds 5-8"."""
    found: Spans = []
    for start, end in told:
        if found and end - start <= _SHORT and not text[found[-1][1] : start].strip(" \n-*"):
            found[-1] = (found[-1][0], end)
        elif end - start <= _SHORT:
            found.append((start, end))
    return [(start, end) for start, end in found if _SEVERAL.search(text, start, end)]


def names_shade(text: str, item: Waiting | RawText) -> bool:
    """Does a course, or what stands between two, name a color?"""
    if isinstance(item, RawText):
        return item.job == "colour" or classify(text[item.start : item.end]) == "colour"
    return item.parsed is not None and any(c.type in ("COLOUR", "COLOURPOST") for c in item.parsed.phrases.chunks)


def _by_turns(text: str, at: int, stop: int, labels: list[int]) -> list[Dyed]:
    if _SPEAKS.search(text, at, stop) is None:
        return []
    cycle: list[tuple[int, int, int]] = []
    alike = _ALIKE.search(text, at, stop)
    if alike is not None:
        which = next(which for which in ("", "2", "3", "4", "5", "6") if alike[f"list{which}"])
        each = number_of(alike[f"n{which}"] or "1")
        cycle = [(*m.span(), each) for m in _NAME.finditer(text, *alike.span(f"list{which}"))]
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
