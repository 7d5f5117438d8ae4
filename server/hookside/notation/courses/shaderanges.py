"""Colors told by the numbers of their courses: "brown for rounds 1-4, cream for 5-8", "Rounds 5-8 cream, the rest
brown", "end of R4 to cream", or one such line below the other.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from hookside.colours import COLOURS
from hookside.notation.askings.colournames import SHADE
from hookside.notation.labels.patterns import COURSE
from hookside.notation.vocabulary import (
    COUNT_WORDS,
    HARMLESS,
    NOUNS,
    NUMBER_WORDS,
    ORDINAL_WORDS,
    PREPOSITIONS,
    number_of,
)

_MANY = rf"\d|{COUNT_WORDS}"
_N = r"\d{1,3}(?!\w)"
_TO = rf" ?(?:-|to|until|through) ?(?:the )?(?:{COURSE}\.? ?)?"
# Behind the first of them "4-5 black" and "the rest white" go without the word
_WHERE = (
    rf"(?:(?:at )?(?:the )?(?:(?P<past>end of |after )|(?P<begin>(?:start|beginning) of (?:the )?)|"
    rf"(?P<upto>(?:up to |through |to (?=(?:the )?{COURSE}\.? ?#?\d))(?:and including )?(?:the end of )?|"
    r"un?till? (?:the )?end of ))?(?:from )?"
    rf"(?:the )?(?P<named>{COURSE}\.? ?#?)?"
    rf"(?P<list>{_N}(?:{_TO}{_N})?(?:(?:, and |, ?| and | ?[&+] ?)(?:{COURSE}\.? ?)?{_N}(?:{_TO}{_N})?){{0,12}})"
    rf"(?P<on> on(?:wards?)?)?|"
    rf"(?:all )?(?:the )?(?P<parity>odd|even)(?:[- ]numbered)? (?:{COURSE}(?![a-z])|ones)|"
    rf"(?:every|each) (?P<step>second|2nd|third|3rd|fourth|4th) {COURSE}(?![a-z])|"
    rf"(?:the )?(?P<turn>last|first|next|following) (?P<many>{_MANY})(?P<turns> {COURSE})?|"
    rf"(?:the )?(?P<final>last {COURSE})|(?:the )?(?P<nth>{'|'.join(ORDINAL_WORDS)}) {COURSE}(?![a-z])|"
    rf"(?P<rest>(?:all |in )?(?:the )?(?:rest|others?|remainder|remaining|everything else|all else|otherwise|elsewhere|"
    rf"everywhere else|(?:to|un?till?) (?:finish|(?:the )?end))"
    rf"(?: {COURSE})?"
    rf"(?: of (?:it|them|the {COURSE}))?))"
)
# ... and a hint of it
_A_PLACE = re.compile(
    r"\d|odd|even|every|each|last|first|next|following|rest|other|remain|all else|elsewhere|"
    rf"{'|'.join(ORDINAL_WORDS)}",
    re.I,
)
_WORDS = re.compile(r"\w+")
_SPAN = re.compile(rf"(?P<first>\d{{1,3}})(?:{_TO}(?P<last>\d{{1,3}}))?", re.I)
_LINKS = r"(?:are|is|stays?|worked?|made|in|with|use|using|the|chang(?:e|ing)|switch(?:ing)?|go|back|to)"
_NEAR = 40  # characters on either side of such words
_TIP = re.compile(r"\b(?:last|final) (?:st|stitch|sc|dc|hdc|htr|tr|pull|yarn[- ]over|yo)(?![a-z])", re.I)
_KNOWN = re.compile(SHADE, re.I)  # one word of the text's own list, alone, may be no yarn at all
_REST_FIRST = re.compile(
    rf"\b(?:(?:all|everything|everywhere) else|the (?:rest|others)|all (?:the )?others?|otherwise|elsewhere) "
    rf"(?:{_LINKS} )*(?P<shade>{SHADE})",
    re.I,
)
# "Main color green; stripe R4-5 red", "Green, switching to red for rounds 4 and 5", "Begin green; at R4 red",
# "(2x, green, last round red)", "Body, green, but red for the last round"
_MAIN = re.compile(
    r"\W{0,4}(?:(?:make |x ?)?\d{1,2} ?x?[,;] |[a-z]{3,12}[,:] )?"
    r"(?P<lead>(?:(?:the )?(?:main|base|basic|ground|background) (?:colou?r|yarn|shade)|colou?r|begin|start)"
    r"(?: is| in| with)?[: ]\s?)?(?:in )?",
    re.I,
)
_THEN = re.compile(r"(?: yarn| wool)?(?:[;,.]? (?:but |and )?(?:chang|switch|swap)ing to\b|[;.])", re.I)
_COMMA = re.compile(r"(?: yarn| wool)?, (?:but |and |only |with )?(?:the )?", re.I)  # "Green, last round red"
_WITH = re.compile(
    rf",? (?:with|but for|except for|save for) (?:an?|one|two|the) (?:{SHADE}) (?:band|stripe|ring|line|round)", re.I
)
_STARTS = re.compile(
    r"\b(?:start|begin|beginning|begun|started|work|worked)(?:ing|s)? "
    r"(?:(?:the|this|each|every|your|my) [a-z]{2,12} )?(?:off |out )?(?:in|with|using)(?: the)? ?$",
    re.I,
)
# "Using grey, begin the head; change to cream in R5."
_OPENS = re.compile(r"[^\w\n]{0,6}(?:(?:first|now|so|here),? )?(?:using|with|in)(?: the)? ?", re.I)
_SETS_OUT = re.compile(r"(?: yarn| wool)?,? (?:we |you |i )?(?:start|begin|make|work|crochet)\b", re.I)
_THROUGHOUT = re.compile(r" (?:yarn )?(?:throughout|all over|all the way|overall)\b", re.I)
_EXCEPT = re.compile(r"[^.;\n]{0,24}\b(?:except|but|apart from|save|only)\b", re.I)
_PAST = r"after|behind|(?:at )?(?:the )?end of"
_CHANGE_BACK = r"(?:(?:chang|switch|swap|go|turn|return)(?:es?|s|ing)? )?back(?: again)?"
_BACK = re.compile(
    rf"\b{_CHANGE_BACK},? (?:(?P<past>{_PAST})|at|in|from|for|with) (?:the )?"
    rf"{COURSE}\.? ?#?(?P<n>{_N})|"
    rf"\b(?:(?P<past2>{_PAST})|at|in|from|for|with) (?:the )?{COURSE}\.? ?#?(?P<n2>{_N}),? (?:we |you )?"
    rf"{_CHANGE_BACK}(?=[\s.!]*$)",
    re.I,
)
_NO_YARNS = (
    HARMLESS, NUMBER_WORDS, PREPOSITIONS, NOUNS,
    frozenset(["rest", "others", "other", "last", "first", "end", "all", "remaining", "insert", "place", "body"]),
)  # fmt: skip


class Dyed(NamedTuple):
    """The name of a color at text[start:end], and the course that begins with it; where it `ends`, the first course
    behind it for which none is told."""

    start: int
    end: int
    course: int
    ends: bool = False


class _Item(NamedTuple):
    """A color and its courses; None are all that no other item has. `on`: and what follows, until another begins."""

    start: int
    end: int
    courses: list[int] | None
    on: bool


@lru_cache(64)
def _patterns(yarns: frozenset[str]) -> tuple[re.Pattern[str], ...]:
    """ "grey for rounds 1-2" and "rounds 3-4 in pink"; `yarns`: words of the text's own list."""
    own = sorted(w for w in yarns if len(w) > 2 and not any(w in words for words in _NO_YARNS))
    shade = rf"{SHADE}|(?:{'|'.join(own)})\b" if own else SHADE
    return (
        re.compile(
            rf"(?<![\w-])(?P<shade>{shade})(?: yarn| wool| bands?| stripes?| rings?| lines?| round)?(?: again)? ?"
            r"(?:[:=(-]|\b(?:for|in|on|over|at|from)\b)? "
            rf"?(?:in )?(?:the )?{_WHERE}(?![\w])",
            re.I,
        ),
        re.compile(rf"(?<![\w-]){_WHERE}(?:,? (?:which|that)(?= ))? ?[:=(-]? ?(?:{_LINKS} )*(?P<shade>{shade})", re.I),
        re.compile(rf"(?<![\w-])(?P<shade>{shade})", re.I),
        re.compile(rf"[^\w\n]{{0,4}}(?:and )?(?:then|after that),? (?:{_LINKS} )*(?P<shade>{shade})", re.I),
    )


def by_number(text: str, at: int, stop: int, labels: list[int], yarns: frozenset[str]) -> list[Dyed]:
    """The colors of one sentence, or of one line below the other; none where they are told of the same course twice."""
    if _A_PLACE.search(text, at, stop) is None:
        return []
    words = _WORDS.findall(text[at:stop].lower())  # those alone, as to make the patterns anew for each text is dear
    patterns = _patterns(frozenset(w for w in words if w in yarns and w not in COLOURS))
    ways = [(match.start(), way) for way in (0, 1) if (match := patterns[way].search(text, at, stop)) is not None]
    for _, way in sorted(ways):
        items = list(_items(text, at, stop, labels, patterns, way))
        found = _dyed(items, labels)
        if found and (len(items) > 1 or _KNOWN.fullmatch(text, items[0].start, items[0].end)):
            return _and_back(text, at, stop, labels, found)
    return []


def _and_back(text: str, at: int, stop: int, labels: list[int], found: list[Dyed]) -> list[Dyed]:
    """... with the course that begins in the one before again, told with no name: "and back after R7"."""
    back = next((m for m in _BACK.finditer(text, at, stop) if m.start() >= found[-1].end), None)
    if back is None or any(dyed.ends for dyed in found):
        return found
    n = int(back["n"] or back["n2"]) + bool(back["past"] or back["past2"])
    if n in labels and n > found[-1].course:
        return [*found, Dyed(*back.span(), n)]
    return found


def _items(
    text: str, at: int, stop: int, labels: list[int], patterns: tuple[re.Pattern[str], ...], way: int
) -> Iterator[_Item]:
    begun = patterns[2].search(text, at, stop)
    rest = _REST_FIRST.search(text, at, stop) if not way else None
    if rest is not None:
        yield _Item(*rest.span("shade"), None, on=False)  # "everything else is black, with a yellow band in R4-5"
    elif begun is not None and not way and _WITH.match(text, begun.end(), stop):
        yield _Item(*begun.span("shade"), None, on=False)  # "brown, with a white band at rounds 5 and 6"
    besides = _EXCEPT.match(text, begun.end(), stop) if begun is not None and way else None
    if begun is not None and besides is not None:
        yield _Item(*begun.span("shade"), None, on=False)  # "brown, except rounds 5-8 in cream"
        at = besides.end()
    first = patterns[way].search(text, at, stop) if begun is not None else None
    alone = first is None or first.start("shade") != begun.start() if begun is not None else False
    opens = begun is not None and _OPENS.fullmatch(text, at, begun.start()) and _SETS_OUT.match(text, begun.end(), stop)
    if begun is not None and alone and _THROUGHOUT.match(text, begun.end(), stop):
        yield _Item(*begun.span("shade"), None, on=False)  # "in black throughout, with white for R7"
    elif begun is not None and alone and (opens or _STARTS.search(text, at, begun.start())):
        yield _Item(*begun.span("shade"), labels[:1], on=True)  # "start in black, R7 onwards white"
    elif begun is not None and alone and rest is None and besides is None and _is_main(text, at, begun, first):
        yield _Item(*begun.span("shade"), None, on=False)
    matches = list(patterns[way].finditer(text, at, stop))
    named, past = _one_behind_the_other(text, matches, at, stop, labels), 0
    carried, behind = False, at
    for match in matches:
        named = named or any(match[told] for told in ("named", "turns", "final", "parity", "step", "nth"))
        if match["rest"]:
            yield _Item(*match.span("shade"), None, on=False)
        elif named:
            tip = _at_the_tip(text, match)
            carried = bool(match["past"]) or (carried and _AND_AFTER.match(text, behind, match.end()) is not None)
            behind = match.end()
            courses = _courses(match, labels, past, tip or carried)
            past = max(courses, default=past)
            yield _Item(*match.span("shade"), courses, tip or carried or _goes_on(text, match))
            after = patterns[3].match(text, match.end(), stop)
            own = patterns[way].match(text, after.start("shade"), stop) if after is not None and not way else None
            if after is not None and own is None:  # "then cream in rounds 3-9" names its courses itself
                yield _Item(*after.span("shade"), [n for n in labels if n > past][:1], on=True)


def _is_main(text: str, at: int, first: re.Match[str], next_: re.Match[str] | None) -> bool:
    """Is that the color of all courses for which none is told? It stands at the head of the sentence."""
    led = _MAIN.fullmatch(text, at, first.start())
    if led is None or next_ is None:
        return False
    behind = text[first.end() : next_.start()]
    return bool(led["lead"]) or _THEN.match(behind) is not None or _COMMA.fullmatch(behind) is not None


def _one_behind_the_other(text: str, matches: list[re.Match[str]], at: int, stop: int, labels: list[int]) -> bool:
    """ "1-3 green, 4-5 red": numbers with no noun, and with nothing around them, that go through the courses from the
    first: what else may be counted so?"""
    if len(matches) < 2 or any(match["list"] is None for match in matches):
        return False
    told = [n for match in matches for span in _SPAN.finditer(match["list"]) for n in _from_to(span)]
    between = [text[a.end() : b.start()] for a, b in pairwise(matches)]
    alone = not any(part.strip(" .,;/+&\n-").removeprefix("and").strip() for part in between)
    bare = not text[matches[-1].end() : stop].strip(" .!)") and _NAMED_SO.fullmatch(text, at, matches[0].start())
    ranged = len(told) > len(matches)
    return bool(alone and bare) and ranged and told[:1] == labels[:1] and told == list(range(told[0], told[-1] + 1))


_NAMED_SO = re.compile(r"\W{0,4}(?:(?:colou?rs?|yarns?|shades?|stripes?)(?: (?:by|of) rounds?)?\W{1,3})?", re.I)


def _from_to(span: re.Match[str]) -> range:
    return range(int(span["first"]), int(span["last"] or span["first"]) + 1)


# "after R3 (red) and R6 (blue)"
_AND_AFTER = re.compile(r"\W{0,2} ?and (?:again )?(?:the )?(?:round|rnd|row|r)\.? ?\d", re.I)
_BAND = re.compile(r"\b(?:bands?|stripes?|rings?|lines?)\b", re.I)
_AGAIN = re.compile(r" again\b", re.I)  # "R10 black again"


def _goes_on(text: str, match: re.Match[str]) -> bool:
    if _BAND.search(match[0]):
        return False  # "with a white stripe at R5"
    told = match["on"] or match["past"] or match["begin"] or _ON.match(match[0])
    return bool(told or (match["list"] and _AGAIN.match(text, match.end())))


_ON = re.compile(
    r"from\b(?!.*\d.*\d)|at (?:the )?[a-z]{1,6}\.? ?#?\d{1,3}(?!\w)(?!.*\d)|"
    r".*\b(?:from|at|in) (?:the )?[a-z]{1,6}\.? ?#?\d{1,3}$",
    re.I,
)


def _at_the_tip(text: str, match: re.Match[str]) -> bool:
    """ "Change to cream in round 8, in the last stitch": it begins with the end of that course."""
    one = match["list"] is not None and match["list"].isdecimal()
    if not one or _TIP.search(text, max(0, match.start() - _NEAR), match.end() + _NEAR) is None:
        return False
    start = max(match.start() - _NEAR, *(text.rfind(sign, 0, match.start()) + 1 for sign in ".;\n"))
    ends = [at for sign in ".;\n" if (at := text.find(sign, match.end(), match.end() + _NEAR)) >= 0]
    return _TIP.search(text, start, min(ends, default=match.end() + _NEAR)) is not None


def _courses(match: re.Match[str], labels: list[int], past: int, tip: bool) -> list[int]:
    """The courses that a phrase names; `past` is the last that one before it named; `tip` where it takes up a yarn."""
    if match["final"]:
        return labels[-1:]
    if match["nth"]:
        return [n for n in labels if n == ORDINAL_WORDS[match["nth"].lower()]]
    if match["parity"]:
        return [n for n in labels if n % 2 == (match["parity"].lower() == "odd")]
    if match["step"]:
        step = {"2": 2, "s": 2, "3": 3, "t": 3}.get(match["step"][0].lower(), 4)
        return [n for n in labels if n % step == 0]
    if match["turn"]:
        many, turn = number_of(match["many"]), match["turn"].lower()
        return labels[-many:] if turn == "last" else [n for n in labels if n > past][:many]
    found: list[int] = []
    for span in _SPAN.finditer(match["list"]):
        first, last = int(span["first"]), int(span["last"] or span["first"])
        if match["past"] or tip:
            first = last = first + 1
        elif match["upto"]:
            first = past + 1
        found += [n for n in labels if first <= n <= last]
    return found


def _dyed(items: list[_Item], labels: list[int]) -> list[Dyed]:
    """Where each color begins; nothing where it can not be told."""
    told: dict[int, _Item] = {}
    rest = [item for item in items if item.courses is None]
    for one in items:
        if any(course in told for course in one.courses or []):
            return []
        told |= dict.fromkeys(one.courses or [], one)
    if len(rest) > 1 or not told:
        return []
    found: list[Dyed] = []
    hand: _Item | None = None
    any_other = rest[0] if rest else None
    open_ = True  # does no word tell of the course before?
    for course in labels:
        item: _Item | None = told.get(course) or (hand if hand is not None and hand.on else any_other or hand)
        if item is not None and item is not hand:
            found.append(Dyed(item.start, item.end, course))
        elif item is not None and not item.on and course not in told and item is not any_other and not open_:
            found.append(Dyed(item.start, item.end, course, ends=True))
            item = None  # "rounds 6 and 8 in red": it begins anew
        open_ = course not in told
        hand = item
    return found
