"""How many courses a sentence stands for: "sc around for 3 rounds", "sc around. 4 rounds in all", "... to round 8".

And what is worked besides, in words behind a reference: "work even, then decrease to 6".
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from hookside.notation.askings.kinds import classify
from hookside.notation.bodies.besidecounts import ON_EACH
from hookside.notation.bodies.wording.counts import ONLY_TURNS
from hookside.notation.bodies.wording.tails import tail
from hookside.notation.labels import alike, changes, often, references
from hookside.notation.labels.patterns import COURSE
from hookside.notation.vocabulary import REMEMBERED

_ROUNDS = r"(?:rounds?|rnds?|rows?|rds?|laps?|tiers?)"
_N = rf"\d{{1,3}}|one|{references.SMALL}"
_MENTIONS = re.compile(r"[rRlLtT](?<!\w.)(?i:(?<=r)(?:ound|nd|ow|d|\.? ?\d)|(?<=l)ap|(?<=t)ier)")
_LENGTH = re.compile(
    rf"(?<![\s,;.])[\s,;.]{{1,8}}(?:(?:and|then|continue|keep going|go on|work(?:ing)?|do this|keep|"
    r"(?:the )?same|rep(?:eat)?(?:ing)?(?: (?:this|that|it))?(?=\s+(?:up|to|until|till?|thr\w+)\b)|"
    r"(?P<on>so on))\s+)*(?:"
    rf"(?:for|over)\s+(?:(?:the\s+)?(?:next|following)\s+|a\s+total\s+of\s+|another\s+)?(?P<for>{_N})\s+"
    r"(?P<more3>more\s+)?"
    rf"{_ROUNDS}(?:\s+(?:in\s+)?(?:total|altogether|all))?"
    rf"|(?<=[,;.-] )(?P<in_all>{_N})\s+{_ROUNDS},?\s+(?:in\s+(?:total|all)|altogether|total)"
    r"|(?:all the way\s+)?(?:up\s+)?(?:to|until|till|til|through|thru)\s+(?:(?:and\s+)?including\s+|the\s+end\s+of\s+|"
    rf"you\s+reach\s+)*{COURSE}\.?\s*#?(?P<upto>\d{{1,4}})"
    rf"|(?:repeat(?:ing)?|rep)\s+(?:(?:this|that|the\s+(?:last|same))\s+(?P<this>{_ROUNDS})\s+|this\s+)?(?:for\s+)?"
    rf"(?:another\s+)?(?P<again>{_N}|once|twice)(?:\s+(?P<more>more))?\s*(?:(?:times?|x)\b|(?P<rounds>{_ROUNDS}))?"
    r"(?:\s+(?P<more2>more))?"
    r")(?=\s*(?:[.,;(\[=]|- ?\d|$))",
    re.I,
)
# ... and no group of stitches, "(2 sc, inc) twice": that is worked
_COUNT = re.compile(
    r"[(\[{]\s*(?:total:? ?|= ?)?\d(?![^()\[\]{}]{0,60}[,;+&] ?(?:\d{1,2} ?)?(?:inc|dec|sc\d?|[hd]?dc|h?tr)\b)"
    r"[^()\[\]{}]*[)\]}](?! ?(?:[x*] ?\d|\d{1,2} ?x\b|\w{1,6} times\b|twice\b|thrice\b|around\b))|"
    r"(?:^|(?<=\s))\W{0,4}\d{1,4} (?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr)(?:\W*$|\. (?=[a-z]\D*$))",
    re.I,
)
# "(24 x 2 rnds)", "(24 sts, for 2 rounds)": in the bracket of the count
_WITHIN_COUNT = re.compile(
    rf"(?:(?<=\d)|(?<=sts)|(?<=stitches))(?P<told>,?\s*(?:x|for)\s*(?P<n>{_N})\s*{_ROUNDS})\s*[)\]]\W*$", re.I
)
# "sc (24) x4 rnds": behind that bracket
_BEHIND_COUNT = re.compile(
    r"[(\[]\s?\d{1,4}(?: ?(?:sts?|stitches|sc|dc))?\s?[)\]]"
    rf"(?P<told>,?\s*(?:(?:x|\*|for|over)\s*)?(?P<n>{_N})\s*{_ROUNDS})\W*$",
    re.I,
)
# "sc 12, two times" on 12, "12 sc x2 (12)", "sc x3 (12)" for three rounds
_TIMES_ALL = re.compile(
    r"\W*(?:(?:sc|[hd]?dc|h?tr) (?P<n>\d{1,3})|(?P<n2>\d{1,3}) ?(?:sc|[hd]?dc|h?tr|sts?)|(?:sc|[hd]?dc|h?tr))"
    rf"(?P<told>,? (?:x ?(?P<often>\d{{1,2}})|(?P<often2>{_N}) ?(?:x|times)|(?P<twice>twice)))"
    r"(?: ?[(\[] ?(?P<count>\d{1,3}) ?[)\]])?\W*$",
    re.I,
)
_STITCH = re.compile(
    r"\b(?:\d+ ?)?(?:sc|[hd]?dc|h?tr|[ds]\.c|inc|dec|invdec|ch|sl ?st|sc2tog|increas\w+|decreas\w+|single|double|"
    r"half|chain)\b",
    re.I,
)
_WORKED = re.compile(rf"{_STITCH.pattern}|\b(?:even(?:ly)?|straight|plain|a?round|across|blo|flo)\b|^\W*\d", re.I)
_BESIDE = re.compile(r"\W*(?:and )?(?:chang|switch|plac|insert|put|mark|mov|attach|sew|join|leav|stuff|fasten)", re.I)
_PLAIN = re.compile(
    r"\W*(?:(?:all |only )?(?:in|of|with) )?(?:each |every )?(?:sc|[hd]?dc|h?tr)"
    r"(?: in (?:each|every|all) (?:sts?|stitch(?:es)?|sc))?(?: (?:all )?(?:a?round|across))?\W*",
    re.I,
)
_ENDING = re.compile(r"^\W*(?:and |but )?(?:end|finish)(?:ing)? (?:with|by|on)(?: a)?\b")  # "ending with ch 3, turn"
_NONE = re.compile(r"\b(?:no|without|not|never|any)\b", re.I)
_CLAUSES = re.compile(r"[.;,:]|\bthen\b")
_LOOKED_INTO = 600  # letters behind a seam: from each to the end of its body would take the square of a long line


@dataclass(frozen=True, slots=True)
class Length:
    """So many courses in all, or up to the one of that number; `or_more`: it may as well be one more of them."""

    n: int
    upto: int
    or_more: bool
    start: int  # where the words stand
    end: int
    in_all: bool = False  # with `or_more`: so many in all are the likelier
    further: bool = False  # behind a label it may as well be one more: "R4: sc around for two more rounds"


@lru_cache(REMEMBERED)
def length(body: str) -> Length | None:
    """What a body says of the number of its courses, where nothing is worked behind those words."""
    told = alike.told(body)
    if told is not None and not works_on(body[told.end :]):
        return Length(told.n, told.upto, told.or_more, told.start, told.end, told.in_all)
    again = often.often(body)
    if again is not None and (not again.of_plain or alike.plain(body, again.start)):
        return Length(again.n, again.upto, again.or_more, again.start, again.end)
    if not _MENTIONS.search(body):
        return None
    within = _WITHIN_COUNT.search(body) or _BEHIND_COUNT.search(body)
    if within is not None:
        return Length(references.small(within["n"]), 0, False, *within.span("told"))
    match = _LENGTH.search(body)
    if match is None or works_on(body[match.end() :]):
        return None
    if not _behind_work(body, match.start()):
        return None
    if match["for"] or match["in_all"]:
        further = bool(match["more3"] or match["on"])
        return Length(references.small(match["for"] or match["in_all"]), 0, False, *match.span(), further=further)
    if match["upto"]:
        return Length(0, int(match["upto"]), False, *match.span())
    if not (match["this"] or match["rounds"]):
        return None
    n, more = references.small(match["again"]), bool(match["more"] or match["more2"])
    return Length(n + more, 0, not more, *match.span())


def times_all(body: str, there: int | None, courses: int) -> Length | None:
    """ "sc 12, two times" on the 12 that are `there`: as many rounds. Of a plain stitch alone, in a range of as many
    `courses`, each of them is one."""
    told = _TIMES_ALL.match(body)
    if told is None:
        return None
    often = 2 if told["twice"] else references.small(told["often"] or told["often2"])
    amount = told["n"] or told["n2"]
    if often < 2 or courses not in (1, often) or (told["count"] and amount and told["count"] != amount):
        return None
    fits = int(amount) == there if amount else courses == often
    return Length(often, 0, False, *told.span("told")) if fits else None


def _behind_work(body: str, at: int) -> bool:
    """Are they the rounds that are told? In "sc around. Stuff up to rnd 20" it is the stuffing that goes so far."""
    worked = _CLAUSES.split(body[:at])[-1]
    return bool(_WORKED.search(worked)) and classify(worked.strip()) in (None, "other")


_THEN = re.compile(r"\s*[,;.]\s*(?:and\s+)?then\s+(?:work\s+)?", re.I)


def parted(body: str) -> tuple[int, int] | None:
    """ "Work even for 3 rounds, then inc in every st": where the plain courses end, and where the next one begins."""
    match = _LENGTH.search(body) if _MENTIONS.search(body) else None
    if (followed := _followed(body)) is not None:
        return followed
    behind = _THEN.match(body, match.end()) if match is not None and match["for"] else None
    if match is None or behind is None or not _STITCH.search(body, behind.end()):
        return None
    if not _behind_work(body, match.start()):
        return None
    return match.end(), behind.end()


_FOLLOWED = re.compile(r"[\s,;.]{1,4}(?:and )?(?:followed by|then)\s+(?=\w+ )", re.I)
_A_ROUND = re.compile(r"\b(?:rounds?|rnds?|rows?)\b", re.I)


def _followed(body: str) -> tuple[int, int] | None:
    """ "(sc, dec) x 6, followed by a plain round": where the round ends, and where the plain one begins."""
    if not _MENTIONS.search(body):
        return None
    for seam in _FOLLOWED.finditer(body):
        even = references.EVEN.match(body, seam.end(), seam.end() + _LOOKED_INTO)
        if even is None or works_on(even["rest"]) or not _tells_work(body, seam.start()):
            continue
        if even["n"] or even["n2"] or even["n3"] or even["n4"] or (even["one"] and _A_ROUND.search(even["one"])):
            return seam.start(), seam.end()
    return None


_SENTENCE = re.compile(r"(?<=[.!)\]])\s+(?=[A-Z])")
_WORK = (None, "other", "turn", "join")


_AGAIN = re.compile(r"(?:now |then )?(?:rep|(?P<another>(?:work )?another\b))", re.I)
_THIS_ONE = re.compile(r"\b(?:this|that|these|those) (?:round|rnd|row)", re.I)  # `length` tells of it


def plain_behind(body: str) -> int | None:
    """ "... repeat all round (30). Work 12 rounds without shaping.": where rounds without a label begin behind a body,
    plain ones or earlier ones again: "... (12). Repeat rows 2 and 3 three more times." """
    for seam in _SENTENCE.finditer(body):
        far = seam.end() + _LOOKED_INTO
        even = references.EVEN.match(body, seam.end(), far)
        if even is not None and (even["n"] or even["n2"] or even["n3"] or even["n4"]) and not works_on(even["rest"]):
            return seam.end() if _tells_work(body, seam.start()) else None
        begins = _AGAIN.match(body, seam.end())
        again = references.REFERENCE.match(body, seam.end(), far) if begins is not None else None
        if again is not None and begins is not None and begins["another"] and _tells_work(body, seam.start()):
            return seam.end()  # "Work another 4 rounds in the same way."
        if again is not None and not _THIS_ONE.search(again[0]) and changes.TIMES_MORE.match(again["rest"].strip()):
            return seam.end() if _tells_work(body, seam.start()) else None
    return None


def _tells_work(body: str, end: int) -> bool:
    """Is a round told before `end`: stitches, or that it is plain?"""
    digits = any(c.isdecimal() for c in body[:end])  # "24X", whatever the text calls its stitches
    return bool(digits or _STITCH.search(body, 0, end) or references.EVEN.match(body, 0, end))


def jobless(rest: str) -> str:
    """Words behind a reference without the sentences that ask the hands for something else: "... Add the eyes now." """
    if "." not in rest:
        return rest
    sentences = _SENTENCE.split(rest)
    # "..., adding 1 sc between increases." changes the round, though adding may be sewing
    return " ".join(s for s in sentences if classify(s.strip()) in _WORK or changes.change_of(s, "US") is not None)


@lru_cache(REMEMBERED)
def of_its_own(line: str) -> bool:
    """ "Sc around for 3 rounds", "Then sc 3 rounds": rounds of their own, told without a label."""
    even = references.EVEN.match(line)
    if even is not None and (even["n"] or even["n2"] or even["n3"] or even["n4"]):
        return True
    told = length(line)
    return told is not None and told.n > 0 and not told.or_more


# "... of sc, 3 in each corner": some into one, without the name of a stitch
_ALL_IN = re.compile(
    r"\b(?:[2-5]|two|three) in(?:to)? (?:each|every|both|all|the) (?!rounds?\b|rnds?\b|rows?\b)[a-z]", re.I
)


def works_on(rest: str) -> bool:
    """Is any stitch worked in these words, beside a printed count and what asks the hands for something else?"""
    if _ALL_IN.search(rest) is not None:
        return True
    for clause in _CLAUSES.split(_COUNT.sub(" ; ", ON_EACH.sub(" ; ", rest))):
        if not _STITCH.search(clause) or _NONE.search(clause) or _PLAIN.fullmatch(clause):
            continue
        if (count := tail(clause.strip())) is not None and count.at == 0:
            continue  # "You now have 12 sc"
        if ONLY_TURNS.match(_ENDING.sub("", clause.lower())):
            continue  # "repeat round 2, sl st to join, ch 1"
        if not _BESIDE.match(clause) and classify(clause.strip()) in (None, "other"):
            return True
    return False
