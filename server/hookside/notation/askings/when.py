"""By which course a job is told that stands elsewhere: "stuff after round 8", "eyes between R5 and R6", "when 12 sts
remain"."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, NamedTuple

from hookside.notation.labels.patterns import COURSE
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import COUNT_WORDS, NUMBER_WORDS, ORDINAL_WORDS, REMEMBERED, number_of
from hookside.pattern import Course, CueKind, Piece


class When(NamedTuple):
    """Behind which course a job is due: `course`, or the first that goes down to `left` stitches, or the one that so
    many come behind as `ends` says; `last`: behind the last of all.

    `before`: in front of that course; `place`: a place on the piece, and no time; `narrows`: before the first course
    that narrows, before the run of them that shuts the piece, or before the last of them.
    """

    course: int = 0
    left: int = 0
    before: bool = False
    place: bool = False
    ends: int = 0
    last: bool = False
    narrows: Literal["", "first", "run", "last"] = ""


_ONE = rf"(?:the )?(?:{COURSE}\.? ?#?(?P<n>\d{{1,3}})|(?P<nth>\d{{1,3}})(?:st|nd|rd|th) {COURSE})(?![\w.]?\d)"
_DONE = (
    r"(?:the end of |end of |completing |finishing |working |making |"
    r"you(?: have|'ve)? (?:finish(?:ed)?|completed?|done|worked) )?"
)
_REACHED = (
    r"(?:you (?:begin|start|reach|work|make|do|crochet|get to|come to|are (?:at|on)) |"
    r"(?:begin|start|reach|work|mak)ing )?"
)
_WHEN = re.compile(
    rf"(?<![a-z])(?:"
    rf"(?P<after>after|behind|following|once|when|as soon as|at the end of|end of|"
    rf"with(?= {COURSE}\.? ?#?\d{{1,3}} (?:done|finished|complete|worked))) {_DONE}(?P<reached>{_REACHED})"
    rf"|(?P<before>before|until|by|from|prior to|(?:at|with|on|in) the (?:very )?(?:start|beginning) of|"
    rf"note (?:to|for|on|about)) {_REACHED}"
    rf"|(?P<between>between|btwn?|betw\.?|in between) "
    rf"|(?P<place>at|in|on|over|begins|starts|into|through|during|around|level with|"
    rf"(?<!last )(?<!final )(?:sts?|stitch(?:es)?)(?: #?\d{{1,3}})? of)(?: about)? "
    rf"|(?P<aside>[(\[])(?=[^()\[\]\n]{{0,20}}[)\]])"
    # "eyes: R4", "Eyes R3/4", "6 mm, R4", "R5: eyes"
    rf"|(?P<bare>[a-z]{{3,9}} ?(?::|=|-) ?|(?:eyes?|nose|mouth|stuffing|stuff|filling|wadding|mm|mark),? |"
    rf"^\W{{0,3}}(?={COURSE}\.? ?#?\d{{1,3}} ?[:=-] ?(?:eyes|nose|stuff|fill|bead|mark)))){_ONE}"
    rf"(?: ?(?P<and>-|/|to|and|&) ?(?:the )?(?:{COURSE}\.? ?#?)?(?P<last>\d{{1,3}})(?![\w.]?\d))?",
    re.I,
)
_AGAIN = re.compile(
    rf"(?:,|and|&|then|again|once more|finish(?:ing)?|also|after|before|at|in|on|behind|\s)+{_ONE}", re.I
)
# ", a little more after R8", "and the top after R9": another go, told with what is filled and no verb
_FURTHER = re.compile(r"[\s,;&+-]{1,4}(?:and |then |but |with |plus |& )*(?:[a-z-]+ ){0,5}", re.I)
# ", the rest at R11", "and the other half after R11": another go, at a place as well
_THE_REST = re.compile(
    r"[\s,;&]{1,3}(?:and |then )*(?:the )?(?:rest|remainder|other half|second half|remaining half)(?: of it)? "
    rf"(?:(?P<late>after|behind)|at|in) {_ONE}",
    re.I,
)
# "in the last stitch of round 8", "on the last pull of R8": while that round is still in the hand
_TIP_OF = re.compile(
    rf"(?<![a-z])(?:last|final) (?:st|sts|stitch|sc|dc|hdc|htr|tr|pull|pull-?through|yarn[- ]over|yo|loop|one) "
    rf"(?:of|in|on) {_ONE}",
    re.I,
)
_TIP = re.compile(r"(?<![a-z])(?:last|final) (?:st|stitch|sc|dc|hdc|htr|tr|pull|yarn[- ]over|yo)(?![a-z])", re.I)
_ALONG = ("over", "through", "during", "around")  # "joined over R6 and R7": in one go
# "two rounds from the end", "before the last 2 rounds", "with 3 rounds to go"
_N = rf"(?P<{{}}>\d{{{{1,2}}}}|{COUNT_WORDS})"
_FROM_END = re.compile(
    rf"(?<![\w-])(?:before the (?:last|final) (?:{_N.format('last')} )?{COURSE}(?! of )|"
    rf"{_N.format('many')} {COURSE} (?:(?:from|before) the (?:very )?end|to go|"
    r"(?:are |still |are still )?(?:left|remain(?:ing)?)))(?![a-z])(?! of )",
    re.I,
)
_LEFT = re.compile(
    r"(?<![a-z])(?:when|once|as soon as|with|at|until)\b(?: (?:you|there|have|are|is|only|about|down|to|the)){0,5} "
    r"(?P<n>\d{1,3}) (?:sts?|stitches)(?: (?:are|is))?(?: (?:still|only))? (?:left|remain(?:ing)?)\b",
    re.I,
)
# "Fasten off with a long tail at the end.", above the rounds
_AT_LAST = re.compile(
    r"(?<![a-z])(?:(?:at|by) the (?:very )?end(?! of)|(?:when|once|after) (?:you(?:'re| are| have)? |it(?:'s| is) |"
    r"they are |(?:the|this|each) [a-z]{3,12} is )?(?:done|finished|complete))(?![a-z])(?!.*\bstart)",
    re.I,
)
# "before decreasing", "before you close it", "before the opening gets too small", "before stuffing"
_NARROWS = re.compile(
    r"(?<![a-z])before (?:(?:you|we|i|the|it|its|his|her|doing|making|working|any|all|it is|it's) )*"
    r"(?:(?:start|begin)(?:ning|ing)? (?:(?:on|with|to|the|any) )*)?"
    r"(?:(?P<first>decreas\w*|decs?(?![a-z])|narrow\w*)|"
    r"(?:clos|shut|stuff|fill|finish|draw|sew\w* (?:(?:it|him|her|them|the [a-z]+) )?(?:up|shut|closed)|"
    r"(?:(?:hole|opening|gap|top|head|body|neck|piece|end) )?(?:(?:is|gets?|becomes?|grows?) )+(?:too |so )?"
    r"(?:clos|shut|stuff|fill|small|narrow|tight|sewn))[a-z]*)",
    re.I,
)
_IN_TIME = ("eyes", "embroider", "stuff", "other", "sew")
_AT_LAST_DONE = ("fasten", "tail", "hold", "close")
# The number of a course or of stitches, or how many courses are told of; in small letters, which is found faster
_HINT = re.compile(
    rf"{COURSE}\.? ?(?:#?\d|(?:{COUNT_WORDS})(?![a-z]))|\d(?:st|nd|rd|th) {COURSE}|"
    rf"\d (?:sts?|stitches|{COURSE})(?![a-z])|"
    rf"(?:{'|'.join(ORDINAL_WORDS)}|next|last|final|each|every|other|odd|even|one|two|three|four|five|six) "
    rf"(?:[a-z]{{2,6}} )?{COURSE}(?![a-z])|\bstripe|\bin turn\b|\bhalf ?-?way\b|\bthe middle\b|"
    r"\b(?:of (?:these|those|them)|(?:last|first|second|third|fourth) one)\b"
)
# "round six", "the sixth round"
_IN_WORDS = re.compile(rf"(?<![a-z])({COURSE}) ({COUNT_WORDS})(?![a-z-])", re.I)
_ORDINAL = re.compile(rf"\b({'|'.join(ORDINAL_WORDS)}) ({COURSE})(?![a-z])", re.I)
_TWO_NTHS = re.compile(  # "between the fifth and sixth rounds"
    rf"\b({'|'.join(ORDINAL_WORDS)}) (and|to) (?:the )?({'|'.join(ORDINAL_WORDS)}) ({COURSE})(?![a-z])", re.I
)
_SO_MANY = re.compile(
    rf"\b(after|behind|once|when)( you(?: have|'ve| are)?(?: done| made| worked| finished)?)? (?:the first )?"
    rf"(\d{{1,3}}|{COUNT_WORDS}) ({COURSE})(?![a-z])",
    re.I,
)
# What goes through the fabric, or into the hollow, at the place that is told; all else only at a time
_AT_A_PLACE = ("stuff", "eyes", "embroider", "colour", "marker")
# "eyes between rounds 5 and 6 once round 7 is complete": where, and then when
_AT_A_TIME_TOO = ("eyes", "embroider", "sew", "pin")
_WORKED_IN = ("join", "other")  # "the arms are joined in R7": while that is worked, so that it is told before it
# "Surface crochet around R7", "a ribbon through R7", "in the front loops of R7": on the fabric, which has to be there
_ON_FABRIC = re.compile(
    r"(?<![a-z])(?:surface|(?:front|back|unworked|unused|free|left) (?:loops?|lps)|(?:back|chain|running)[ -]?stitch|"
    r"(?:row|line|ring) of (?:sl|slip)|ribbon|elastic|cord|bow|(?:tie|wrap|run|thread|lace|weave|pull)(?: [a-z]+){0,4} "
    r"(?:a?round|through|into)|'s (?:front|back) loops?)(?![a-z])",
    re.I,
)
_NEXT_GO = 80  # characters within which another time of a job is told
# "Attach the arm (R7)", "the arms are attached at R7": on the way, and not later
_ATTACHED = re.compile(r"\W{0,4}(?:then |now )*attach|(?:the |both )?[a-z]{3,12} (?:is|are|get|gets) attached", re.I)
_NEVER = ("count", "turn")  # told of many courses, and asked at none by a note


def may_tell_ahead(text: str) -> bool:
    """A glance at a line of notes: is there that, or a time that every piece has, as in "before closing"?"""
    return may_tell(text) or _NARROWS.search(text) is not None


def on_fabric(text: str) -> bool:
    """Is something worked upon a course that is there, or drawn through it: "surface crochet around R7"?"""
    return _ON_FABRIC.search(text) is not None


def names_round(text: str) -> bool:
    """Does a clause name the course, or the number of stitches, at which something is due?"""
    text = in_figures(text)
    return may_tell(text) and any(told.search(text) is not None for told in (_WHEN, _LEFT, _FROM_END))


def without_round(text: str) -> str:
    """An asking without the words that say by which course it is due."""
    return _WHEN.sub("", in_figures(text))


# "Stuff after 11.", "Draw up after step 12", "after the eighth": by the number of a table's row alone
_BARE_AFTER = Sought(
    ("after ", "before ", "at the end of "),
    r"(?<![a-z])(after|before|at the end of) (?:(?:steps?|lines?|trips?|laps?|circles?|tiers?) )?"
    rf"(?:#?(\d{{1,2}})|the ({'|'.join(ORDINAL_WORDS)}))(?(3)(?=[:,]|\W*$)|(?=[)\]*]*\.?\W*$))",
    re.I,
)


def in_figures(text: str, ordinals: bool = True) -> str:
    """ "round six" as "round 6"; "the sixth round" and "after six rounds" too, which in a range may be another one."""
    text = _BARE_AFTER.sub(lambda told: f"{told[1]} round {told[2] or ORDINAL_WORDS[told[3].lower()]}", text)
    text = _IN_WORDS.sub(lambda told: f"{told[1]} {NUMBER_WORDS[told[2].lower()]}", text)
    if not ordinals:
        return text
    text = _SO_MANY.sub(lambda told: f"{told[1]} {told[4]} {number_of(told[3])}", text)
    text = _TWO_NTHS.sub(
        lambda told: f"{told[4]} {ORDINAL_WORDS[told[1].lower()]} {told[2]} {ORDINAL_WORDS[told[3].lower()]}", text
    )
    return _ORDINAL.sub(lambda told: f"{ORDINAL_WORDS[told[1].lower()]}th {told[2]}", text)


@lru_cache(REMEMBERED)
def may_tell(text: str) -> bool:
    """A glance at a line: is there the number of a course, or of stitches, in it?"""
    return _HINT.search(text.lower()) is not None or _BARE_AFTER.search(text) is not None


def _changes(text: str) -> list[When]:
    """A color told for a round is in the hand when that begins; "after" it, and between two, it is made first.

    One taken up in its last stitch stands behind it, as such a change below the round does: `cues.due` moves both.
    """
    tips = list(_TIP_OF.finditer(text))
    if tips:
        return [When(int(tip["n"] or tip["nth"])) for tip in tips]
    told = [match for match in _WHEN.finditer(text) if not match["bare"]]
    tip = len(told) == 1 and told[0]["place"] is not None and _TIP.search(text) is not None  # "in R8, in the last st"
    return [_changed(match, tip) for match in told]


def _changed(told: re.Match[str], tip: bool) -> When:
    made = tip or (told["after"] and not told["reached"]) or told["between"] or on_fabric(told.string)
    return When(int(told["n"] or told["nth"]), before=not made)


def when(text: str, kind: CueKind, ordinals: bool = True) -> list[When]:
    """The courses that an asking names as its own; the second of "after R9 and again after R14" is another go."""
    if kind in _IN_TIME and ordinals and not may_tell(text) and (narrows := _NARROWS.search(text)) is not None:
        return [When(narrows="first" if narrows["first"] else "last" if kind == "stuff" else "run")]
    if kind in _NEVER or not may_tell(text):
        return [When(last=True)] if kind in _AT_LAST_DONE and ordinals and _AT_LAST.search(text) else []
    ends = _from_end(text) if ordinals else []
    text = _FROM_END.sub("", text) if ends else text
    text = in_figures(text, ordinals)
    left = _LEFT.search(text)
    told = _WHEN.search(text)
    if kind == "colour" and told is None and _TIP_OF.search(text) is not None:
        return _changes(text)
    if told is None or (left is not None and left.start() < told.start()):
        return [When(left=int(left["n"]))] if left is not None else ends
    if kind in _AT_A_TIME_TOO and (told["place"] or told["between"]):
        timed = next((more for more in _WHEN.finditer(text, told.end()) if more["after"] or more["before"]), None)
        told = timed or told
    place = bool(told["place"] or told["between"] or told["bare"] or told["aside"])
    n, last = int(told["n"] or told["nth"]), int(told["last"] or 0)
    several = bool(last) and told["and"].lower() in ("and", "&")
    attached = kind == "sew" and place and _ATTACHED.match(text) is not None
    if place and (kind in _WORKED_IN or attached) and not told["bare"]:
        there = kind == "other" and on_fabric(text)
        found = [When(n, before=not (told["between"] or there), place=there)]
        if there or told["between"] or (told["place"] or "").lower() in _ALONG:
            return found
        more = [When(last, before=True)] if several else []
        return [*found, *more, *(When(one.course, before=True) for one in _again(text, told.end()))]
    if (place and kind not in _AT_A_PLACE) or (told["bare"] and kind == "colour"):
        return []
    if kind == "colour":
        return _changes(text)
    before = bool(told["before"] and told["before"].lower() != "from") or bool(told["reached"])
    if (told["between"] or told["and"] == "/") and kind != "stuff":
        n = max(n, last)
    found = [When(n, before=before, place=place)]
    if told["after"] and last > n + 1 and several:
        found.append(When(last))  # "after R6 and R9": two goes
    return [*found, *_more_goes(text, told, kind), *(ends if kind == "stuff" else [])]


def _again(text: str, at: int) -> list[When]:
    """ ", R8 and again before R10" behind the course that was named first."""
    found = []
    while (more := _AGAIN.match(text, at)) is not None:
        found.append(When(int(more["n"] or more["nth"]), before="before" in more[0].lower()))
        at = more.end()
    return found


def _more_goes(text: str, told: re.Match[str], kind: CueKind) -> list[When]:
    """What is told behind the first time of a job: other times of the same."""
    found = _again(text, told.end()) if kind == "stuff" else []
    if not found and kind == "stuff" and (rest := _THE_REST.match(text, told.end())) is not None:
        return [When(int(rest["n"] or rest["nth"]), place=rest["late"] is None)]
    if found or not told["after"]:
        return found
    highest, at = int(told["last"] or told["n"] or told["nth"]), told.end()
    while (more := _WHEN.search(text, at, at + _NEXT_GO)) is not None:
        n = int(more["n"] or more["nth"])
        early = (more["before"] or "").lower() == "before" or bool(more["reached"])
        if not (more["after"] or early) or n <= highest or _FURTHER.fullmatch(text, at, more.start()) is None:
            break
        found.append(When(n, before=early))
        highest, at = n, more.end()
    return found


def _from_end(text: str) -> list[When]:
    """The time that is told by how many courses come behind it."""
    told = _FROM_END.search(text)
    return [When(ends=number_of(told["last"] or told["many"] or "1"))] if told is not None else []


def places(courses: list[Course]) -> dict[str | None, int]:
    """The number in the piece of each course, by its id; -1 for what is told before the first."""
    return {None: -1} | {course.id: at for at, course in enumerate(courses)}


def due_at(piece: Piece, told: When) -> int | None:
    """The number in the piece of the course behind which it is due, -1 before the first; None where there is none."""
    if told.last:
        return len(piece.courses) - 1
    if told.ends:
        return len(piece.courses) - 1 - told.ends if told.ends < len(piece.courses) else None
    if told.narrows:
        return _before_narrowing(piece, told.narrows)
    if told.left:
        left = (i for i, c in enumerate(piece.courses) if c.makes == told.left and (c.uses or 0) > told.left)
        return next(left, None)
    label = str(told.course)
    at = next((i for i, course in enumerate(piece.courses) if course.label == label), None)
    return None if at is None else at - told.before


def _before_narrowing(piece: Piece, which: str) -> int | None:
    """The course in front of those that narrow; None where none does."""
    gains = [(c.makes or 0) - (c.uses or 0) if c.read and c.uses else 0 for c in piece.courses]
    narrow = [at for at, gain in enumerate(gains) if gain < 0]
    if not narrow:
        return None
    if which != "run":
        return narrow[0 if which == "first" else -1] - 1
    grown = max((at for at, gain in enumerate(gains[: narrow[-1]]) if gain > 0), default=-1)
    return next(at for at in narrow if at > grown) - 1
