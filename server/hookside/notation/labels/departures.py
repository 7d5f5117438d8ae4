"""What a part does otherwise than the one it is like: "as ear 1, but skip R6", "... with two more plain rounds"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from hookside.notation.labels.label import numbers_of
from hookside.notation.labels.patterns import COURSE
from hookside.notation.labels.references import SMALL, ordinals, small
from hookside.notation.vocabulary import ORDINAL_WORDS

Way = Literal[
    "skip", "without last", "stop", "only", "long", "plain", "shorter", "longer", "end", "after", "again", "reads"
]

MOST_WORDS = 400  # characters behind the name of a part that are looked at
_C = rf"(?:{COURSE}\.?\s?#?)"
_NTH = rf"(?:\d{{1,3}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)})"
_ONES = r"(?:\d{1,3}(?:\s?(?:-|to|through|thru|,|,? and|&)\s?(?:(?:the )?" + _C + r")?\d{1,3})*)"
_WHICH = rf"(?:the )?(?:{_C}\s?(?P<numbers>{_ONES})|(?P<nth>{_NTH}) (?:round|rnd|row|rd)\b)"
_RANGE = rf"(?:the )?{_C}\s?(?P<a>\d{{1,3}})\s?(?:-|to|through|thru)\s?{_C}?(?P<b>\d{{1,3}})"
_OTHER = rf"{_C}?\s?(?P<c>\d{{1,3}})\s?(?:-|to|through|thru)\s?{_C}?(?P<d>\d{{1,3}})"
_N = rf"(?P<n>\d{{1,2}}|an?|one|{SMALL})"
_ROUNDS = r"(?:rounds?|rnds?|rows?|rds?)"
_PLAIN = r"(?P<plain>(?:plain|even|straight|sc|dc|single crochet) )?"
_OF = r"(?P<of> (?:of|in|with) (?:plain )?(?:sc|dc|single crochet|double crochet)| even| straight|(?<=s) plain)?"
_WORK = r"(?:(?:you|work(?:ing)?|make|making|do(?:ing)?|crochet(?:ing)?|with|only|just|there (?:is|are)|has|have) )*"
_END = r"(?=\s*(?:[.,;()\n]|$|but\b|and\b|then\b))"

# Where a clause begins: at the name of the part, behind a sign, behind "but", "only", "except", "that"
_AT = r"(?:^|(?<=[.,;(])|(?<=\bbut)|(?<=\bonly)|(?<=\bexcept)|(?<=\bthat))\s*"
_OR_AND = r"(?:^|(?<=[.,;(])|(?<=\bbut)|(?<=\bonly)|(?<=\bexcept)|(?<=\bthat)|(?<=\band))\s*"
_MORE = r"(?:more |extra |additional |further )?"
_SAID_PLAIN = r"(?P<plain>(?:plain|even|straight|sc|dc) )"
_INSTEAD = r"(?:instead of|in place of|rather than)"
_WAS = rf"(?P<m>\d{{1,2}}|{SMALL})"
_LEAVING = (
    r"(?:skip(?:ping)?|omit(?:ting)?|leav(?:e|ing) (?:out|off|away)|miss(?:ing)?(?: out)?|without|with no|minus|no|"
    r"less|drop(?:ping)?|(?:do not|don't|not) (?:work|make|do|crochet)|not (?:working|making|doing))"
    r"(?: working| doing)?"
)
_STOPPING = (
    r"(?:work(?:ing)?|mak(?:e|ing)|stop(?:ping)?|end(?:ing)?|finish(?:ing)?|fasten(?:ing)? off|"
    r"cut(?:ting)? (?:the )?yarn)"
)
_AS_FAR = r"(?:(?:right |all the way )?(?:up to|to|through|thru|until|till|as far as)(?: and including)?)"
_DONE = r"(?: (?:is|are) (?:completed?|done|finished|worked|made))?"
_EXTRA = rf"(?:add(?:ing)? )?{_N} {_MORE}{_PLAIN}(?:extra )?{_ROUNDS}(?: more)?{_OF}(?: more| extra)?"
_AT_END = r"(?:at the (?:very )?(?:end|top|edge)|before (?:you )?(?:fasten|finish)(?:ing)? off)"
_TIMES = rf"(?P<times>once more|twice more|once|twice|again|{_N} (?:more )?times?(?: more)?)"

_TOLD: list[tuple[Way, str]] = [
    # "R3-6 becomes R3-4", "changing R3-6 to R3-4", "work R3-8 instead of R3-6"
    (
        "long",
        rf"{_RANGE} (?:now )?(?:becomes?|is|are|=|->|changes? to|turns? into|should be|goes to|runs? to) "
        rf"(?:only )?(?:the )?{_OTHER}",
    ),
    ("long", rf"(?:chang(?:e|ing)|replac(?:e|ing)) {_RANGE} (?:to|into|with|by) {_OTHER}"),
    ("long", rf"{_WORK}(?:the )?{_OTHER} {_INSTEAD} {_RANGE}"),
    ("long", rf"{_INSTEAD} {_RANGE},? {_WORK}(?:the )?{_OTHER}"),
    # "work only 3 rounds at R3-6", "R3-6: only 3 rounds"
    ("long", rf"{_AT}{_WORK}{_N} {_PLAIN}{_ROUNDS}{_OF}(?: only)? (?:at|for|in|over|{_INSTEAD}) {_RANGE}"),
    (
        "long",
        rf"{_RANGE}(?: (?:is|are|becomes?)|\s?[:=])? (?:only |just )?{_N} {_PLAIN}{_ROUNDS}{_OF}(?: only)?",
    ),
    # "2 plain rounds instead of 4", "instead of 4 rounds of sc work 6"
    ("plain", rf"{_AT}{_WORK}{_N} {_PLAIN}{_ROUNDS}{_OF} {_INSTEAD} (?:the )?{_WAS}(?: {_ROUNDS})?"),
    ("plain", rf"{_AT}{_WORK}{_N} {_INSTEAD} {_WAS} {_PLAIN}{_ROUNDS}{_OF}"),
    ("plain", rf"{_INSTEAD} (?:the )?{_WAS} {_PLAIN}{_ROUNDS}{_OF},? {_WORK}{_N}(?: {_ROUNDS})?"),
    ("skip", rf"\b{_LEAVING} {_WHICH}"),
    ("skip", rf"\bleav(?:e|ing) {_WHICH} (?:out|off|away)"),
    ("skip", rf"{_WHICH} (?:is|are) (?:left out|omitted|skipped|dropped|not (?:worked|made|done))"),
    ("without last", rf"\b{_LEAVING} the (?:last|final) (?:{_N} )?{_ROUNDS}"),
    ("without last", rf"\bleav(?:e|ing) the (?:last|final) (?:{_N} )?{_ROUNDS} (?:out|off|away)"),
    ("only", rf"{_AT}{_WORK}(?:for )?(?:only |just )?(?:the )?first {_N} {_ROUNDS}(?: only| alone)?"),
    ("only", rf"{_AT}{_WORK}(?:for |from )?(?:only |just )?{_RANGE}(?: only| alone)?"),
    (
        "only",
        rf"{_AT}{_WORK}(?:for |on )?(?:the )?{_C}\s?(?P<numbers>\d{{1,3}} ?(?:and|&) ?\d{{1,3}})(?: only| alone)?",
    ),
    ("only", rf"{_AT}(?:from )?(?:the )?(?P<a2>{_NTH}) to (?:the )?(?P<b2>{_NTH}) (?:round|rnd|row|rd)s?"),
    (
        "stop",
        rf"\b(?:{_STOPPING}|only|just) (?P<where>after|at|with|on|by|before|{_AS_FAR}) "
        rf"(?:(?:the )?end of )?{_WHICH}{_DONE}",
    ),
    ("stop", rf"{_AT}(?P<where>{_AS_FAR}) (?:(?:the )?end of )?{_WHICH}{_DONE}"),
    # "two more rounds of sc at the end", "2 extra rounds after R6", "one plain round less"
    ("end", rf"{_OR_AND}{_WORK}{_EXTRA} {_AT_END}"),
    # "plus two rounds", "and 2 more rounds", "+ 1 round": behind all that the other has
    (
        "end",
        rf"(?:\bplus|\+|\bwith|\badd(?:ing)?) ?{_WORK}{_N} {_MORE}{_PLAIN}(?:extra )?{_ROUNDS}{_OF}(?: {_AT_END})?",
    ),
    ("end", rf"\b(?:and|then) {_WORK}{_N} (?:more|extra|additional|further) {_PLAIN}{_ROUNDS}{_OF}"),
    ("after", rf"{_OR_AND}{_WORK}{_EXTRA} (?P<where>after|before|behind|following) {_WHICH}"),
    ("longer", rf"{_AT}{_WORK}(?:add(?:ing)? )?{_N} (?:more|extra|additional) {_SAID_PLAIN}?{_ROUNDS}{_OF}"),
    ("longer", rf"{_AT}{_WORK}{_N} {_SAID_PLAIN}?{_ROUNDS}{_OF} (?P<by>more|extra|longer|higher|taller)"),
    ("shorter", rf"{_AT}{_WORK}{_N} (?:fewer|less) {_SAID_PLAIN}?{_ROUNDS}{_OF}"),
    ("shorter", rf"{_AT}{_WORK}{_N} {_SAID_PLAIN}?{_ROUNDS}{_OF} (?P<by>less|fewer|shorter|lower)"),
    ("plain", rf"{_AT}{_WORK}{_N} {_SAID_PLAIN}{_ROUNDS}(?: only)?"),
    ("plain", rf"{_AT}{_WORK}{_N} {_ROUNDS}(?P<of> (?:of|in) (?:plain )?(?:sc|dc)| even| straight)(?: only)?"),
    ("again", rf"(?:repeat(?:ing)?|rep|work(?:ing)?|do) {_WHICH} {_TIMES}(?: before {_C}\s?\d{{1,3}})?"),
    ("reads", rf"{_INSTEAD} {_WHICH},? {_WORK}(?P<body>[^.;\n]{{1,200}})"),
    ("reads", rf"\b(?:work|make|do) (?P<body>[^.,;\n]{{1,80}}?) {_INSTEAD} {_WHICH}"),
    ("reads", rf"replac(?:e|ing) {_WHICH} (?:with|by) (?P<body>[^.;\n]{{1,200}})"),
    ("reads", rf"\b(?:on|at|in|for) {_WHICH},? (?:you )?(?:work|make|do) (?P<body>[^.;\n]{{1,200}}?)(?: instead)?"),
    (
        "reads",
        rf"{_AT}{_WORK}(?:for |on |in )?{_WHICH}\s*"
        r"(?:(?:now )?(?:reads?|is|are|becomes?|should (?:be|read)|goes)\s?:?|:|=|(?=in (?:the )?[bf]))\s*"
        r"(?P<body>[^.;\n]{1,200})",
    ),
]
_RULES = [(way, re.compile(rule + _END, re.I)) for way, rule in _TOLD]


@dataclass(frozen=True, slots=True)
class Departure:
    """One way in which a part departs from another; `numbers` are courses of that other one."""

    way: Way
    start: int
    end: int
    numbers: tuple[int, ...] = ()
    n: int = 0
    were: int = 0  # how many there were, where that is told: "2 plain rounds instead of 4"
    plain: bool = False  # is it told that they are plain ones?
    body: tuple[int, int] = (0, 0)


def departures(words: str) -> list[Departure]:
    """The departures told in `words`, which stand behind the name of a part."""
    rest = words[:MOST_WORDS]
    found: list[Departure] = []
    for way, rule in _RULES:
        for match in rule.finditer(rest):
            one = _departure(way, match)
            if one is not None:
                found.append(one)
                rest = f"{rest[: one.start]}{';' * (one.end - one.start)}{rest[one.end :]}"
    return sorted(found, key=lambda d: d.start)


def _departure(way: Way, match: re.Match[str]) -> Departure | None:
    told = {name: value for name, value in match.groupdict().items() if value}
    start, end = match.span()
    n = _small(told["n"]) if "n" in told else 0
    plain = "plain" in told or "of" in told
    numbers = _numbers(told)
    if way == "long":
        if "c" in told:
            first, last = int(told["c"]), int(told["d"])
            n = last - first + 1 if numbers and first == numbers[0] else 0
        return Departure(way, start, end, numbers, n) if numbers and n > 0 else None
    if way == "only":
        numbers = numbers or tuple(range(1, n + 1))
        return Departure(way, start, end, numbers) if numbers else None
    if way == "stop":
        last = numbers[-1] - told["where"].lower().startswith("before")
        return Departure(way, start, end, (last,)) if len(numbers) == 1 and last > 0 else None
    if way == "after":
        at = numbers[-1] - (told["where"].lower() == "before")
        return Departure(way, start, end, (at,), n, plain=plain) if n else None
    if way == "again":
        times = told["times"].lower()
        n = n or {"once": 1, "twice": 2, "again": 1}.get(times.split()[0], 0)
        more = "more" in times or times == "again"
        again = match[0].lower().startswith("rep")
        if not more and (again or n < 2):
            return None  # "repeat R6 twice": in all, or twice more?
        return Departure(way, start, end, numbers, n if more else n - 1)
    if way == "reads":
        return Departure(way, start, end, numbers, body=match.span("body")) if numbers else None
    if way == "plain" and not plain:
        return None
    return Departure(way, start, end, numbers, n, _small(told["m"]) if "m" in told else 0, plain)


def _numbers(told: dict[str, str]) -> tuple[int, ...]:
    if "a2" in told:
        told = {"a": ordinals(told["a2"]), "b": ordinals(told["b2"])}
    if "a" in told:
        return tuple(range(int(told["a"]), min(int(told["b"]), int(told["a"]) + 500) + 1))
    if "numbers" in told:
        return tuple(numbers_of(told["numbers"]))
    return (int(ordinals(told["nth"])),) if "nth" in told else ()


def _small(word: str) -> int:
    return 1 if word.lower() in ("a", "an") else small(word)


# "As the legs to the end of 2nd rnd", "... for the first 3 rounds", "... until round 4 is done"
_FAR = re.compile(
    rf"\b(?:first (?P<first>\d{{1,2}}|{SMALL}) (?:rounds|rnds|rows)|"
    rf"(?:rounds?|rnds?|rows?|r)\.?\s*#?(?:1\s*(?:-|to|through|thru|and|&|,)\s*)?(?P<n>\d{{1,3}})|"
    rf"(?P<nth>{_NTH}) (?:rounds?|rnds?|rows?))\b",
    re.I,
)
_LIMITED = re.compile(r"\b(?:until|till|up to|to the end of|through|thru|to (?:the )?\d|stop(?:ping)?|only)\b", re.I)
NOT_TOLD = -1


def upto(text: str) -> int | None:
    """The last round that "as the legs, to the end of round 2" names; None where it takes all, NOT_TOLD if unclear."""
    told = departures(text)
    if any(one.way in ("stop", "only") for one in told):
        return None  # told by what is otherwise
    for one in told:
        start = text[: one.start].removesuffix("only ").removesuffix("just ")  # "only R3-6 becomes R3-4"
        text = f"{start}{';' * (one.end - len(start))}{text[one.end :]}"
    text = re.split(r"\b(?:but|then)\b(?! stop)", text.split("\n")[0])[0]
    match = _FAR.search(text)
    limited = _LIMITED.search(text.split(".")[0])
    if match is not None and (limited or match["first"]):
        return small(match["first"]) if match["first"] else int(match["n"] or ordinals(match["nth"]))
    return NOT_TOLD if limited else None
