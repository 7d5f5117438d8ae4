"""Colors told by their courses in a sentence before the first: "alternate 2 rounds of grey and 2 of red".

Each is put before the course that begins with it, as those of a heading are. Where the courses themselves name a
color, the sentence only tells in passing what they say.
"""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import SHADE
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.roundshades import lists_shades, turns_shades
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
# "Stripe pattern: 3 green, 2 red, 2 green", "first three green, then two red": a list and nothing else
_ITEM = (
    rf"(?:first,? |then |next,? )?(?:(?:{_MANY}) (?:{_COURSES} (?:(?:in|of|with) )?)?(?:{SHADE})|"
    rf"(?:{SHADE}) ?(?:x|\u00d7) ?\d{{1,2}}\b)"
)
_LISTED = re.compile(
    r"\W{0,4}(?:(?P<stripes>stripe[sd]?(?: pattern| sequence)?|striping)|"
    r"(?:colou?r|yarn)s?(?: sequence| order)?)?\W{0,4}"
    rf"(?P<items>{_ITEM}(?:(?:,? (?:and )?|; | ?[-/+] ?){_ITEM}){{0,11}}"
    rf"(?:,? (?:(?:and |then )*(?:the )?rest(?: in| is| are)?|(?:and )?then(?: back to)?) (?P<rest>{SHADE}))?)"
    r"(?: again)?\W*",
    re.I,
)
_ANY_COURSE = re.compile(rf"\b{_COURSES}|\bstripe", re.I)
_EACH = re.compile(
    rf"\b(?:(?P<n>{_MANY}) (?:{_COURSES} (?:(?:in|of|with) )?)?(?P<shade>{SHADE})|"
    rf"(?P<shade2>{SHADE}) ?(?:x|\u00d7) ?(?P<n2>\d{{1,2}}))(?! [a-z]{{4,}}(?<!then))",
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
    rf"(?:every|stripes of) (?:(?P<n7>{_MANY}) )?{_COURSES}[:,.]? "
    rf"(?P<list7>(?:{SHADE}) first,? (?:and )?then (?:{SHADE}))|"
    rf"(?P<list5>{_LIST}),?(?: (?:in turn|by turns|alternat\w+),?)? (?P<n5>{_MANY}) {_COURSES} each|"
    rf"(?P<n4>{_MANY}) (?:by|and) (?P=n4)(?: {_COURSES})?[:,]? (?:in |of )?(?P<list4>{_LIST})",
    re.I,
)
_NAME = re.compile(SHADE, re.I)
_FROM = re.compile(rf"\bfrom (?:the )?{COURSE} ?(?P<n>\d{{1,3}})", re.I)

_MOST_BEHIND = 200  # ... and behind the last one
_MOST = 40  # lines before the first course that are looked at
_LONGEST_LIST = 160
_LONGEST = 600  # characters of such a line

_SEVERAL = re.compile(r"\n|\. (?=[A-Z])")
_SHORT = 60  # ... and of one of a list

Items = list[Waiting | RawText]
Spans = list[tuple[int, int]]


def striped(text: str, queue: Items, notes: Spans, yarns: frozenset[str], make: int) -> tuple[list[Dyed], Spans]:
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
        found = by_number(text, at, stop, labels, yarns) or _in_a_list(text, at, stop, labels, make)
        found = found or _by_turns(text, at, stop, labels)
        if (at, stop) in lines and any(dyed.ends for dyed in found):
            continue  # each of its sentences by itself
        if found and not any(names_shade(text, item) for item in queue[first : len(queue) - len(behind)]):
            inside = [span for span in stretches if any(span[0] <= dyed.start < span[1] for dyed in found)]
            return [dyed for dyed in found if dyed.course in labels], inside
    return [], []


def open_list(text: str, queue: Items, notes: Spans, make: int) -> tuple[int, int] | None:
    """Where a sentence before the first course, or one of the notes, lists colors by so many courses, or by turns;
    asked where nobody could tell with which course each begins, and no course names any itself."""
    first = next((i for i, item in enumerate(queue) if isinstance(item, Waiting) and not item.foundation), len(queue))
    lines = [(item.start, item.end) for item in queue[:first] if isinstance(item, RawText)]
    if len(queue) < first + 2:
        return None
    for at, stop in (span for line in [*lines, *notes] for span in sentences(text, *line)):
        if stop - at > _LONGEST_LIST:
            continue
        each = list(_EACH.finditer(text, at, stop)) if (at, stop) not in notes else []
        many = [number_of(m["n"] or m["n2"]) for m in each]
        listed = len(many) > 1 and not _of_copies(text[at:stop], many, make)
        if (listed or turns_shades(text[at:stop])) and not any(names_shade(text, one) for one in queue[first:]):
            return at, stop
    return None


def _behind(text: str, queue: Items, labels: list[int], yarns: frozenset[str]) -> list[RawText]:
    """What stands behind the last course, where it is nothing but such a list, or such sentences."""
    found: list[RawText] = []
    for item in reversed(queue):
        if not isinstance(item, RawText):
            break
        if len(found) > _MOST_BEHIND:
            return []  # no list is that long
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


def _in_a_list(text: str, at: int, stop: int, labels: list[int], make: int) -> list[Dyed]:
    """ "3 green, 2 red, 2 green" of seven courses; stripes go on from the first where the list is at its end, and
    whatever else does not add up is open."""
    told = _LISTED.fullmatch(text, at, stop)
    each = list(_EACH.finditer(text, *told.span("items"))) if told is not None else []
    many = [number_of(m["n"] or m["n2"]) for m in each]
    left = len(labels) - sum(many)
    if told is None or not many or min(many) < 1 or _of_copies(text[at:stop], many, make):
        return []
    if (left < 1 or told["stripes"]) if told["rest"] else len(many) < 2 or (left and not told["stripes"]):
        return []
    spans = [m.span("shade" if m["shade"] else "shade2") for m in each]
    if told["rest"]:  # "3 rounds green, 2 rounds red, rest green"
        spans, many = [*spans, told.span("rest")], [*many, left]
    return _in_turn([(*span, n) for span, n in zip(spans, many, strict=True)], labels, labels[0])


def _of_copies(words: str, many: list[int], make: int) -> bool:
    """ "One hazel and one oat" of two copies."""
    return (sum(many) == make or set(many) == {1}) and _ANY_COURSE.search(words) is None


def _by_turns(text: str, at: int, stop: int, labels: list[int]) -> list[Dyed]:
    if _SPEAKS.search(text, at, stop) is None:
        return []
    cycle: list[tuple[int, int, int]] = []
    alike = _ALIKE.search(text, at, stop)
    if alike is not None:
        which = next(which for which in ("", "2", "3", "4", "5", "6", "7") if alike[f"list{which}"])
        each = number_of(alike[f"n{which}"] or "1")
        cycle = [(*m.span(), each) for m in _NAME.finditer(text, *alike.span(f"list{which}"))]
    else:
        for match in _SO_MANY.finditer(text, at, stop):
            which, n = ("shade", "n") if match["shade"] else ("shade2", "n2")
            cycle.append((*match.span(which), number_of(match[n])))
    if len(cycle) < 2 or any(n < 1 for _, _, n in cycle):
        return []
    begin = _FROM.search(text, at, stop)
    return _in_turn(cycle, labels, int(begin["n"]) if begin is not None else labels[0])


def _in_turn(cycle: list[tuple[int, int, int]], labels: list[int], course: int) -> list[Dyed]:
    """The colors of a cycle, one behind the other from a course on, each for so many."""
    found: list[Dyed] = []
    while course <= labels[-1]:
        start, end, often = cycle[len(found) % len(cycle)]
        found.append(Dyed(start, end, course))
        course += often
    return found
