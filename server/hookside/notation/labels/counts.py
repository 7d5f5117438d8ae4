"""Courses of which the count is told and little else: "Rnd 2: 12", "12 sc (inc in each)"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.askings.kinds import classify
from hookside.notation.labels.patterns import COURSE
from hookside.pattern import CueKind

_JOBS: frozenset[CueKind | None] = frozenset(
    ["stuff", "eyes", "marker", "fasten", "close", "tail", "hold", "sew", "turn", "shape"]
)
_CHANGE = re.compile(r"(?:change|switch|swap|join|cut|break)\b", re.I)  # and no "in red": that is the round's own
_PUT_ON = re.compile(r"(?:(?:add|place|insert|safety|place the|add the) )*(?:eyes|nose|(?P<marker>marker|pm))", re.I)
_ALONE = re.compile(r"\W*(?P<n>\d{1,3})(?: ?(?:sts?|stitches))?\W*$", re.I)
# "6, 12, 18, 24", "(6, 12, 18, 24)", "increase to 24, 30, 36 sts": a count for each of several rounds
LISTED = re.compile(
    r"(?i:(?:inc|dec)(?:reas\w+)?,? (?:evenly )?(?:each (?:round|rnd|row) )?to )?[(\[{]?\s?"
    r"\d{1,3}(?:\s*(?:,|;|,? and)\s*\d{1,3})+(?: sts| stitches)?[)\]}.\s]{0,3}(?:[(\[{]\d{1,3}[)\]}])?\W*"
)
LAST_AGAIN = re.compile(r"\b(?P<n>\d{1,3})\W{1,3}(?P=n)\W+$")
# "18 sc (inc in every other)": the number is what there is at the end, how it is made stands in the bracket
_EXPLAINED = re.compile(
    r"\s*(?P<n>\d{1,3}) ?(?:[hd]?dc|sc|sts?|stitches)?,? ?[(\[]"
    r"(?P<how>(?:inc|dec)(?:rease)?,? (?:in |on )?(?:each|every)"
    r"(?: other| second| 2nd| third| 3rd)?(?: sts?| stitch| sc)?(?: around)?)[)\]]\W*$",
    re.I,
)


# "12 stitches (double all)", "18 sc (every 2nd stitch doubled)"
_DOUBLED = re.compile(
    r"\s*(?P<n>\d{1,3}) ?(?:[hd]?dc|sc|sts?|stitches),? ?[(\[](?:double (?P<which>all|(?:each|every)"
    r"(?: other| second| 2nd| third| 3rd)?)|(?P<which2>(?:each|every)(?: other| second| 2nd| third| 3rd)?)"
    r"(?: sts?| stitch| sc)? doubled)(?: sts?| stitch(?:es)?| sc)?[)\]]\W*$",
    re.I,
)


# "48 - 48", "36 (36)": so many stitches, and as many at the end
_TWICE = re.compile(r"\s*(?P<n>\d{1,3})\s*(?:[-=:]+|[(\[{])\s*(?P<m>(?P=n))\s*(?:sts?|stitches)?\s*[)\]}]?\W*$", re.I)

# "double (16)" on eight stitches
_DOUBLE = re.compile(
    r"\s*double(?:d)?(?: up| all| it| them)*\s*[-=([]+\s*(?P<n>\d{1,3})\s*(?:sts?|stitches)?\W*$", re.I
)
# "12 inc", "12 inc = 12" on six stitches, "12 dec" on eighteen: more than there is room for, so what there is behind it
_SHAPED = re.compile(
    r"\s*(?P<n>\d{1,3}) ?(?P<how>inc|dec)(?:s|reases?)?(?P<told>\s*[-=([]+\s*(?P=n)\s*(?:sts?|stitches)?)?\W*$", re.I
)
# "still 18", "remain at 18 sts", "keep the 18": as many as there are
_STAYS = re.compile(
    r"\W*(?:(?:(?:you |it )?(?:stays?|remains?|keep(?:s|ing)?|hold)(?: it| this| them)?(?: at| to| on| with)?)|"
    r"still(?: at)?|always)"
    r"(?: the| all)? (?P<n>\d{1,3})(?: (?:sts?|stitches|sc|dc))?\W*$",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Told:
    """A count and where it stands in the body; `words`: how the course is worked, nothing where it is plain.

    `more`: how many stitches more (or fewer) that are, where the count is all that is told; else 0.
    """

    n: int
    start: int
    end: int
    words: str
    more: int = 0


def told(body: str, before: int | None) -> Told | None:
    """What a body says that is a count; `before`: how many stitches there are, None where that is not known.

    A number alone is a count only where it is another one than there are: else it is that many stitches.
    """
    match = _EXPLAINED.match(body)
    if match is not None:
        how = re.sub(r"^(inc|dec)rease", r"\1", match["how"], flags=re.I)
        how = f"{how} st" if re.search(r"(?:each|every|other|second|2nd|third|3rd)$", how, re.I) else how
        return Told(int(match["n"]), *match.span("n"), how)
    match = _DOUBLED.match(body)
    if match is not None:
        which = (match["which"] or match["which2"]).lower().replace("all", "each")
        return Told(int(match["n"]), *match.span("n"), f"inc in {which} st")
    twice = _TWICE.match(body)
    if twice is not None and before in (None, int(twice["n"])):
        return Told(int(twice["n"]), *twice.span("m"), "")
    stays = _STAYS.match(body)
    if stays is not None and before in (None, int(stays["n"])):
        return Told(int(stays["n"]), *stays.span("n"), "")
    match = _DOUBLE.match(body)
    if match is not None and before and int(match["n"]) == 2 * before:
        return Told(int(match["n"]), *match.span("n"), "inc in each st")
    match = _SHAPED.match(body)
    if match is not None and before and int(match["n"]) > (before if match["how"].lower() == "inc" else before // 2):
        n = int(match["n"])
        doubled = match["how"].lower() == "inc" and n == 2 * before
        between = before < n <= 2 * before if match["how"].lower() == "inc" else before > n >= (before + 1) // 2
        if doubled or (match["told"] and between):
            return Told(n, *match.span("n"), f"{match['how'].lower()} {abs(n - before)} evenly", n - before)
    match = _ALONE.match(body)
    if match is None or before is None or not before or int(match["n"]) == before:
        return None
    n = int(match["n"])
    if not before < n <= 2 * before and not before > n >= (before + 1) // 2:
        return None
    words = f"inc {n - before} evenly" if n > before else f"dec {before - n} evenly"
    return Told(n, *match.span("n"), words, n - before)


# "Total: 9, 11, 13 and 15 sts." behind several rounds, "40 sts after Round 5, 48 after Round 6"
_EACH_AT_END = re.compile(
    r"(?:total|counts?|stitches|[-=:])\s*[:=]?\s*(?P<list>\d{1,4}(?:\s*,\s*\d{1,4})*\s*,?\s*(?:and|&)\s*\d{1,4})"
    r"\s*(?:sts?|stitches|sc|[hd]?dc|h?tr)?\W*$",
    re.I,
)
_AFTER_ONE = re.compile(
    rf"(?P<n>\d{{1,4}})(?:(?: (?:sts?|stitches|sc|[hd]?dc|h?tr))? (?:after|at the end of)|"
    rf" (?:sts|stitches) (?:in|on)) {COURSE}\.? ?"
    r"(?P<of>\d{1,3})(?!\d)",
    re.I,
)
_MAY_COUNT = re.compile(r"\d\W+(?:and|&)\s+\d|\d [a-z ]*(?:after|in|on|of)\s", re.I)


def for_each(body: str, numbers: list[int]) -> list[tuple[int, int, int]]:
    """The count that a body prints for each of its courses, with its place in the body; none where it does not."""
    if len(numbers) < 2 or not _MAY_COUNT.search(body):
        return []
    line = re.sub(r"\s", " ", body)
    listed = _EACH_AT_END.search(line)
    if listed is not None:
        numbered = re.compile(r"\d+").finditer(line, *listed.span("list"))
        found = [(int(m[0]), *m.span()) for m in numbered]
        return found if len(found) == len(numbers) else []
    after = {int(m["of"]): (int(m["n"]), *m.span("n")) for m in _AFTER_ONE.finditer(line)}
    return [after[n] for n in numbers] if sorted(after) == sorted(numbers) else []


# "12, eyes", "18, then stuff", "6 and close", "12 (marker)"
_THEN_A_JOB = re.compile(
    r"\W*(?P<count>\d{1,3}(?: ?(?:sts?|stitches))?)(?:\s*[,;.]|(?=\s*\()|(?=\s))\s*\(?(?:and |then |now )*"
    r"(?P<job>[a-z/][a-z '/.]{1,60})\)?\W*$",
    re.I,
)


@dataclass(frozen=True, slots=True)
class ThenAJob:
    """Where a count alone ends, and where what is asked behind it begins."""

    count: int
    job: int
    kind: CueKind


def then_a_job(body: str) -> ThenAJob | None:
    """A count alone and what is asked behind it; None for any other body."""
    match = _THEN_A_JOB.match(body)
    if match is None:
        return None
    job = match["job"].strip()
    put_on = _PUT_ON.fullmatch(job)
    kind = classify(job) if put_on is None else "marker" if put_on["marker"] else "eyes"
    asks = kind in _JOBS or (kind == "colour" and _CHANGE.match(job))
    return ThenAJob(match.end("count"), match.start("job"), kind) if kind is not None and asks else None


def alone(body: str) -> int | None:
    """The number that is a whole body, else None."""
    match = _ALONE.match(body)
    return int(match["n"]) if match is not None else None
