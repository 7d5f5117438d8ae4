"""Jobs and colors that the words of a range give to one of its courses: "R4-9: sc (stuff after R6, R8 in black)"."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import NamedTuple

from hookside.notation.askings.colournames import SHADE
from hookside.notation.askings.roundshades import lists_shades
from hookside.notation.askings.when import may_tell, when
from hookside.notation.courses.shaderanges import by_number
from hookside.notation.labels.patterns import COURSE
from hookside.notation.vocabulary import COUNT_WORDS, ORDINAL_WORDS, number_of
from hookside.pattern import CueKind

_N = rf"\d{{1,2}}|{COUNT_WORDS}"
_NTH = rf"\d{{1,2}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)}|last|final"
# "in R5 attach the arms", "from R7", "between R6 and R7", "in the last stitch of R6"
_AT = re.compile(
    r"(?<![a-z])(?:(?P<made>between|after|behind|(?:last|final) (?:st|sts|stitch|sc|pull|yarn over) (?:of|in|on))|"
    r"at|in|on|during|for|from|with|work(?:ing)?|make|making|crochet|do(?:ing)?|(?:join|attach) [a-z]{3,9}) "
    r"(?:the )?(?:(?P<end>end of )|(?:very )?(?:start|beginning) of )?"
    rf"(?:the )?{COURSE}\.? ?#?(?P<n>\d{{1,3}})(?![\w.]?\d)|"
    rf"^\W{{0,4}}{COURSE}\.? ?#?(?P<n2>\d{{1,3}})\b(?= ?[:=,-]| [a-z])",
    re.I,
)
# "in the last round", "after the second round", "for the last 2 rounds": told by its place in the range
_BY_PLACE = re.compile(
    r"(?<![a-z])(?P<way>in|on|at|for|during|before|after|behind|with|from|(?<!of )the) (?:the )?"
    r"(?P<end>end of (?:the )?)?"
    rf"(?P<nth>{_NTH}) (?:(?P<many>{_N}) )?{COURSE}(?![a-z])",
    re.I,
)
# "halfway, insert the eyes", "in the middle of these rounds"
_HALFWAY = re.compile(
    rf"\bhalf ?-?way\b|\b(?:in|at|about|around) the middle(?! (?:of|at) (?!(?:these|the|this) {COURSE})|[a-z ]*\d)",
    re.I,
)
# "after two of these rounds", "after the first two rounds", "on the third of these"
_THESE = "of (?:these|those|them|the)"
_OF_THESE = re.compile(
    rf"\b(?P<way>after|before|behind|on|in|at|during|with) (?:(?:the )?first )?(?P<many>{_N}) "
    rf"(?:{_THESE}|{COURSE}(?! (?:of|in) ))(?![a-z])|"
    rf"\b(?P<way2>after|before|behind|on|in|at|during|with|for) (?:the )?(?P<nth>{_NTH}) (?:{_THESE}|"
    r"one)(?![a-z])",
    re.I,
)
# "the last two in red", "work the last 2 of these rounds in red"
_LAST_OF_THEM = re.compile(
    rf"\b(?:the )?(?:last|final) (?P<many>{_N})(?: of (?:these|those|them|the))?(?: {COURSE}s?)? "
    rf"(?:are )?(?:in|with) (?={SHADE})",
    re.I,
)
_STOPS = re.compile(r"\b(?:stop|paus|halt|wait|break off)", re.I)
_EVERY = re.compile(
    rf"\b(?:every|each) (?:(?P<n>{_N}|other|second|third|fourth|2nd|3rd|4th) )?{COURSE}(?![a-z])", re.I
)
_OTHER = {"other": 2, "second": 2, "third": 3, "fourth": 4, "2nd": 2, "3rd": 3, "4th": 4}
# "the third in white", "the third round is in white"
_THAT_ONE = re.compile(
    rf"(?<!after the )(?<!before the )(?<!from the )\b(?P<nth>{_NTH})(?: one| {COURSE})? (?:is )?(?:in|with) "
    rf"(?={SHADE})",
    re.I,
)
# "all but R6 in red", "first three in red, the rest in white", "middle round in red": which of the courses is open
_WHICH_OF_THEM = re.compile(
    rf"\b(?:all|everything|each|every one)\b(?: (?:of (?:them|these)|{COURSE}))? ?(?:but|except)\b|"
    rf"\bmiddle (?:{COURSE}|one|(?:{_N}))\b|"
    r"\bthe (?:rest|others?|remaining(?: ones)?)\b|\bnone\b|(?:,|\band) (?:except|apart from|but not)\b",
    re.I,
)
# "alternating 1 round red, 1 round green"
_BY_TURNS = re.compile(
    rf"\balternat\w*:?(?: (?:between|with))? (?:{_N}) (?:{COURSE} )?(?:in |of )?(?:{SHADE}),? (?:and |then )*(?:{_N}) "
    rf"(?:{COURSE} )?(?:in |of )?(?:{SHADE})", re.I
)
_IN_A_SHADE = re.compile(rf"\b(?:in|with|is|are) (?:the )?(?:{SHADE})", re.I)
_LONGEST = 90  # letters of a list of colors
_PARTED = re.compile(r"[\s,/-]+(?:and |then )?")
_SHADE = re.compile(rf"(?<![\w-])(?:{SHADE})", re.I)
# "red for 2, white for 4", "2 red, 4 white" (no stitches), "red, red, white"
_SO_LONG_EACH = re.compile(
    rf"(?<![\w-])(?:{SHADE}) for (?:the (?:first|next|last) )?(?P<n>{_N})\b(?! ?(?:sts?|stitches|sc|[hd]?dc)\b)", re.I
)
_SO_MANY_EACH = re.compile(rf"(?<![\w-])(?P<n>{_N}) (?:{COURSE}s? )?(?:of |in )?(?:{SHADE})", re.I)
_LISTED = re.compile(rf"[.;,:(-] ?(?P<list>(?:{SHADE})(?:(?:, ?| and |, and )(?:{SHADE})){{1,19}})[\s.)!]*$", re.I)
_LAST_STITCH = re.compile(r"\b(?:last|final) (?:st|sts|stitch|sc|pull|yarn over)\b", re.I)
# "change to grey in R6" goes on from there, "for R6-7", "only in R6" does not
_GOES_ON = re.compile(r"\b(?:chang|switch|swap|join|continu|start|begin|go|back to|from|onwards?)", re.I)
_SO_LONG = re.compile(r"\b(?:for|only|just)\b|\d ?(?:-|to|and|&|,) ?\d", re.I)
# Put at a place of the piece, at whatever time, unless the words begin with their round: "in R5 attach the arms"
_PLACED = ("eyes", "embroider", "sew", "pin", "weave")
_LED = re.compile(rf"\W{{0,4}}(?:(?:at|in|on|during|with|after) )?(?:the )?(?:end of )?{COURSE}\.? ?#?\d", re.I)
_PUT_THERE = ("sew", "join")
_AHEAD = re.compile(r"\b(?:before|prior to|until|after|once|when|as soon as|start(?:ing)?|begin(?:ning)?)\b", re.I)
# "..., inserting the eyes in R6": while that is worked, and no place for later
_MEANWHILE = re.compile(r"\W{0,4}(?:and |then |while |also )*[a-z]{2,9}ing\b", re.I)
# "Swap to oat now, we want hazel again in two rounds", "..., after two rounds it is hazel again": of what comes behind
# the range, since below it all its rounds are made
_HERE = re.compile(r"\b(?:now|here|at this point)\b", re.I)
_LOOKS_AHEAD = re.compile(
    r"[,;:(-]\s?(?:(?:but|and|as|since|because|then|for|so) )?(?:(?:after|in|for) [^,;:(]{1,24} )?"
    r"(?:we|you|i|it|he|she|they|don'?t|do not|leave|keep|carry|the [a-z]{3,12} (?:is|will|comes?))(?![a-z]).*|"
    r"\b(?:in|for) (?:(?:just|only|about|another|the next) )*"
    rf"(?:{_N}) (?:more )?{COURSE}(?! of )(?![a-z])|\b(?:{_N}) {COURSE} (?:later|from now|on)(?![a-z])",
    re.I | re.S,
)
# "Back to hazel for the last two rounds.", with rounds behind it: of those
_OF_THE_LAST = re.compile(rf"\b(?:for|in|over|on) (?:the )?(?:last|final) (?:(?:{_N}) )?{COURSE}(?! of |[a-z])", re.I)
_CHANGES = re.compile(r"\b(?:chang|switch|swap)|\b(?:go|back) (?:back )?to\b", re.I)


class Due(NamedTuple):
    """Behind which of the courses, by its number in the list, -1 before the first; the words that say so, where they
    are but some of them. `back`: a color ends there, and none is told for what follows."""

    behind: int
    start: int = 0
    end: int = 0
    back: bool = False


def _shared_out(body: str, many: int) -> tuple[int, int] | None:
    """ "red for 2, white for 4", "2 red, 4 white", "red, red, white": colors that add up to the `many` of a range."""
    for pattern in (_SO_LONG_EACH, _SO_MANY_EACH):
        each = list(pattern.finditer(body))
        if len(each) > 1 and (pattern is _SO_LONG_EACH or sum(number_of(m["n"]) for m in each) == many):
            return each[0].start(), each[-1].end()
    listed = _LISTED.search(body)
    shades = [shade.lower() for shade in _SHADE.findall(listed["list"])] if listed is not None else []
    if listed is not None and len(shades) == many and any(a == b for a, b in pairwise(shades)):
        return listed.span("list")  # one each, with none twice in a row, stands at each of them
    return None


def open_which(body: str, many: int = 0) -> tuple[int, int] | None:
    """Where the words of a range of so `many` tell a color of some of its courses, and leave open of which."""
    low = body.lower()
    shared = _shared_out(body, many) if many > 1 and _SHADE.search(body) else None
    if shared is not None:
        return shared
    turns = _BY_TURNS.search(body) if many > 1 and "alternat" in low else None
    if turns is not None:
        return turns.span()
    if not ("in " in low or "with " in low):
        return None
    told = _WHICH_OF_THEM.search(body)
    shade = _IN_A_SHADE.search(body) if told is not None else None
    if told is None or shade is None:
        return None
    return min(told.start(), shade.start()), max(told.end(), shade.end())


def due_in(
    words: str, kind: CueKind, labels: list[int], yarns: frozenset[str], *, below: bool = False, more: bool = False
) -> list[Due]:
    """The courses among `labels`, which have one body, that an asking in their words, or in a sentence `below`, names;
    `more`: are there others behind them?

    Such a sentence has to tell a time, or what is filled: what else it tells of a place it asks behind them all, and
    `cues.jobs` in time for eyes.
    """
    if len(labels) < 2:
        return []
    if kind == "colour" and not below:
        dyed = _one_each(words, len(labels)) or _that_one(words, len(labels), more=more)
        if dyed:
            return dyed
    if not may_tell(words):
        return []
    ahead = _LOOKS_AHEAD.search(words) if below and kind == "colour" else None
    if ahead is None and below and more and kind == "colour":
        ahead = _OF_THE_LAST.search(words)
    if ahead is not None:
        changes = _CHANGES.search(words)
        if changes is not None and (changes.start() < ahead.start() or _HERE.search(words)):
            words = words[: ahead.start()]
            if _HERE.search(words) or not may_tell(words):
                return []
    if below and (kind != "colour" or not (_CHANGES.search(words) or lists_shades(words))):
        told = [one for one in when(words, kind, ordinals=False) if not one.left and one.course in labels]
        if kind in _PUT_THERE and not _AHEAD.search(words) and "(" not in words:
            return []  # "Attach the arms at R6.", when all rounds of the range are made; "(R6)" may be a time
        return [Due(labels.index(one.course) - one.before) for one in told if kind == "stuff" or not one.place]
    if kind == "colour":
        dyed = dyed_in(words, labels, yarns, more=more)
        if dyed:
            return dyed
    due = _by_number(words, kind, labels)
    due = due or _by_place(words, kind, len(labels)) or _of_these(words, kind, len(labels))
    due = due or _every(words, kind, len(labels))
    if not due and _HALFWAY.search(words):
        due = [(len(labels) - 1) // 2]
    return [Due(at) for at in dict.fromkeys(due)]


def dyed_in(words: str, labels: list[int], yarns: frozenset[str], *, more: bool = False) -> list[Due]:
    """The courses that words name by their numbers as those of a color; `more`: are there others behind them?"""
    if _LAST_STITCH.search(words) is not None:
        return []
    dyed = by_number(words, 0, len(words), labels, yarns)
    if len({words[d.start : d.end].lower() for d in dyed}) < 2:
        on = _GOES_ON.search(words) is not None and _SO_LONG.search(words) is None
        found = [Due(labels.index(d.course) - 1, back=d.ends) for d in dyed if not (d.ends and on)]
        past = [*labels, labels[-1] + 1] if more and found and not on else []
        ends = past and any(d.ends and d.course == past[-1] for d in by_number(words, 0, len(words), past, yarns))
        return [*found, Due(len(labels) - 1, back=True)] if ends else found
    found = [Due(labels.index(d.course) - 1, d.start, d.end, d.ends) for d in dyed]
    before = _SHADE.search(words, 0, dyed[0].start)
    return [*([Due(-1, *before.span())] if before is not None else []), *found]


def _one_each(words: str, many: int) -> list[Due]:
    """ "(red white red)" of three rounds: each has its own."""
    words = words.replace("-", " ")
    found = list(_SHADE.finditer(words)) if len(words) <= _LONGEST else []
    if len(found) != many or _PARTED.sub("", _SHADE.sub("", words)).strip(" ()."):
        return []
    return [Due(n - 1, *shade.span()) for n, shade in enumerate(found)]


def _that_one(words: str, many: int, *, more: bool) -> list[Due]:
    """ "the third in white", "the last two in red": of the courses, where no noun stands behind it; those behind
    it are as before."""
    some = _LAST_OF_THEM.search(words)
    if some is not None and number_of(some["many"]) < many:
        return [Due(many - number_of(some["many"]) - 1), *([Due(many - 1, back=True)] if more else [])]
    told = _THAT_ONE.search(words)
    nth = told["nth"].lower() if told is not None else ""
    at = many if not nth else many - 1 if nth in ("last", "final") else _nth(nth)
    back = [Due(at, back=True)] if at < many - 1 else []
    return [Due(at - 1), *back] if at < many else []


def led_by_course(words: str) -> bool:
    """ "In R5 attach the arms", "stop at R7 and insert the eyes": a time, and no place."""
    return _STOPS.search(words) is not None or _LED.match(words) is not None


def _by_number(words: str, kind: CueKind, labels: list[int]) -> list[int]:
    due = [one for one in when(words, kind, ordinals=False) if not one.left]
    if due:
        ahead = kind not in ("stuff", *_PLACED)
        led = led_by_course(words) or _MEANWHILE.match(words) is not None
        return [
            labels.index(one.course) - (one.before or (one.place and ahead))
            for one in due
            if one.course in labels and not (one.place and kind in _PLACED and not led)
        ]
    at = _AT.search(words)
    n = int(at["n"] or at["n2"]) if at is not None else 0
    if at is None or n not in labels or (kind in _PLACED and words[: at.start()].strip(" (,;-")):
        return []
    return [labels.index(n) - (not (at["made"] or at["end"] or kind == "stuff"))]


def _by_place(words: str, kind: CueKind, many: int) -> list[int]:
    told = _BY_PLACE.search(words)
    if told is None:
        return []
    nth = told["nth"].lower()
    last = nth in ("last", "final")
    way = told["way"].lower()
    made = way in ("after", "behind") or told["end"] or (kind in ("stuff", *_PLACED) and last and way != "before")
    if told["many"]:
        at = many - number_of(told["many"]) if last else number_of(told["many"]) - 1 if made else 0
    else:
        at = many - 1 if last else _nth(nth)
    if not 0 <= at < many:
        return []
    return [at - (not made)]


def _of_these(words: str, kind: CueKind, many: int) -> list[int]:
    told = _OF_THESE.search(words)
    if told is None:
        return []
    way = (told["way"] or told["way2"]).lower()
    nth = (told["nth"] or "").lower()
    at = number_of(told["many"]) - 1 if told["many"] else many - 1 if nth in ("last", "final") else _nth(nth)
    made = way in ("after", "behind") or (kind in ("stuff", *_PLACED) and way != "before")
    return [at - (not made)] if 0 <= at < many else []


def _nth(word: str) -> int:
    return ORDINAL_WORDS[word] - 1 if word in ORDINAL_WORDS else int(word[:-2]) - 1


def _every(words: str, kind: CueKind, many: int) -> list[int]:
    told = _EVERY.search(words) if kind in ("colour", "stuff") else None
    if told is None:
        return []
    n = _OTHER.get((told["n"] or "").lower()) or number_of(told["n"] or "1")
    if n < 1 or (n < 2 and kind == "stuff"):
        return []
    return list(range(n - 1, many - (kind == "colour"), n))
