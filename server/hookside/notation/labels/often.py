"""How often a course is worked, told in a bracket behind its count: "(24) (twice)", "(24) (R6 too)", "24 (x2)"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.labels import references
from hookside.notation.labels.patterns import COURSE

_N = rf"\d{{1,2}}|one|{references.SMALL}"
_ROUNDS = r"(?:rounds?|rnds?|rows?|rds?)"
_LEADS = r"and|plus|then|also|do|work|worked|make|made|this|that|it|the|same|exactly|for|over|on|in|all|as|ditto|again"
_LEAD = re.compile(rf"(?:(?:{_LEADS}|repeat|repeated|rep)\b[ ,:]*)*", re.I)
_IN_ALL = re.compile(
    r"(?:[ ,]*(?:in (?:total|all)|altogether|total|too|as well|the same|alike|likewise|also|again))+$", re.I
)
_ADDS = re.compile(r"\b(?:also|same|ditto|again|alike|likewise|too|as well|and|repeat|rep)\b", re.I)
_OFTEN = re.compile(
    rf"(?:x ?(?P<x>\d{{1,2}})|(?P<times>{_N}) ?(?:x|times)|(?P<word>twice|thrice)|"
    rf"(?P<rounds>{_N}) ?x? ?{_ROUNDS}|x ?(?P<rounds2>{_N}) ?{_ROUNDS}|"
    rf"(?P<more>{_N}|once) more(?: (?:times?|{_ROUNDS}))?|"
    rf"(?:next|following) (?:(?P<next>{_N}) )?{_ROUNDS}|{_ROUNDS} after(?: (?:it|that|this))?|"
    rf"{COURSE}s?\.? ?#?(?:\d{{1,3}} ?(?:,|and|&|\+|to|-)+ ?(?:and )?(?:{COURSE}\.? ?)?)*(?P<upto>\d{{1,3}}))",
    re.I,
)
_ONCE_AGAIN = re.compile(
    r"(?:do|work|make|repeat|rep)(?: (?:it|this|that))?(?: again| over| once| once again)?|again", re.I
)
_BARE_REPEAT = re.compile(r"(?:repeat(?:ed)?|rep)\b(?! (?:again|it again))", re.I)
_COUNTED = re.compile(
    r"[(\[{=,;-]\s*\d{1,4}(?: ?[a-z]{1,8}\.?)?\s*[)\]}]?[\s.,;:-]*$|[.] \d{1,4} ?[a-z]{0,8}[\s.,;:-]*$", re.I
)
_LONGEST = 40  # letters


@dataclass(frozen=True, slots=True)
class Often:
    """So many courses in all (`or_more`: it may as well be one more), or up to the one of that number; where it stands.

    `of_plain`: only of a round that adds and takes nothing can that be said."""

    n: int
    upto: int
    or_more: bool
    of_plain: bool
    start: int
    end: int


def often(body: str) -> Often | None:
    """What the last bracket of a body says of how often the course is worked; None where it says nothing of it."""
    last = body.rstrip(" .,;!")
    at = max(last.rfind("("), last.rfind("["), last.rfind("{")) if last[-1:] in (")", "]", "}") else -1
    inner = last[at + 1 : -1]
    told = _told(inner) if at > 0 and len(inner) <= _LONGEST and not inner.isdigit() else None
    if told is None or not _COUNTED.search(body, 0, at):
        return None
    return Often(*told, at, len(last))


def tells(inner: str) -> bool:
    """May these words of a bracket tell how often a course is worked, or that another one is the same?"""
    return _told(inner) is not None


def _told(inner: str) -> tuple[int, int, bool, bool] | None:
    words = inner.strip(" .,;!")
    if _ONCE_AGAIN.fullmatch(words):
        return 2, 0, False, True
    lead = _LEAD.match(words)
    past = lead.end() if lead is not None else 0
    rest = words[past:]
    tail = _IN_ALL.search(rest)
    core = _OFTEN.fullmatch(rest[: tail.start()] if tail is not None else rest)
    if core is None:
        return None
    if core["upto"]:
        beside = _ADDS.search(f"{words[:past]} {tail[0] if tail is not None else ''}")
        return (0, int(core["upto"]), False, False) if beside is not None else None
    repeats = _BARE_REPEAT.search(words[:past]) is not None
    if core["rounds"] or core["rounds2"]:
        return references.small(core["rounds"] or core["rounds2"]), 0, repeats, False
    times = core["x"] or core["times"] or core["word"]
    if times:
        return references.small(times), 0, repeats, True
    more = core["more"] or core["next"] or "one"
    return references.small(more) + 1, 0, False, bool(core["more"])
