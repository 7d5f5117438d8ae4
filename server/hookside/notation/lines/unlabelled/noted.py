"""Notes on a phone: a ring, and below it a line for each round, none labelled, each ending in its count.

"6 in ring / inc 12 / 1 sc 1 inc 18 / 24 x3 rounds / then blo 24, change to white". One such line may be anything; a
column of them, with counts that follow one upon the other, is a piece.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from hookside.colours import COLOURS
from hookside.notation.askings.kinds import classify
from hookside.notation.labels.howlong import of_its_own
from hookside.notation.labels.label import at_line_start, bare_number
from hookside.notation.lines.unlabelled import alone
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import COUNT_WORDS, NUMBER_WORDS, number_of

_ROUNDS = r"(?:rounds?|rnds?|rows?|rds?|r)\b"
_N = rf"\d{{1,2}}|{COUNT_WORDS}"
_LEAD = re.compile(r"(?:(?:and|then|next|now)\b[:,]?\s*)+|same(?=\s+\d)\s+", re.I)
# "24 x3 rounds", "24 for 3 rounds", "sc 24, 3 rounds", "24 (3 rounds)"
_LASTS = Sought(
    r"[rR](?i:ounds?|nds?|ows?|ds?|)\b",
    rf"\s*[,;(]?\s*(?:(?:x|for|over)\s*)?(?P<n>{_N})\s*(?:more\s+)?{_ROUNDS}\s*\)?\W*$",
    re.I,
)
# "24 x 3" on 24, "24 3x"
_BARE_LASTS = re.compile(r"(?P<count>\d{1,3})(?P<lasts>\s*(?:[x*]\s*(?P<n>\d{1,2})|\s(?P<n2>\d{1,2}) ?[x*]))\W*$", re.I)
# "sc around x2 (12)": the count may stand behind it
_AROUND_LASTS = re.compile(
    r"(?:sc|[hd]?dc|h?tr)[ ](?:all[ ])?(?:a?round|in each(?: st)?),?[ ]?x[ ]?(?P<n>\d{1,2})\b(?=\W*\d{0,3}\W*$)", re.I
)
_SPELT = re.compile(r"(?P<count>\d{1,3})(?P<lasts>(?:[ ,]+(?P=count))+)\W*$")  # "18 18": two rounds
_FIRST_LASTS = re.compile(rf"(?P<n>{_N})\s*{_ROUNDS}\s*(?:of\s*|[:,-]\s*)?(?=\d|sc\b|blo\b|flo\b)", re.I)
_SHADE = re.compile(r"\W*([a-z]+)\b[:,]? (?=\d|\(|blo\b|flo\b|sc\b|inc\b|dec\b)", re.I)
_CHANGES = re.compile(
    r"\s*[,;.(]?\s*(?:and |then )?"
    r"(?:(?:change|switch|swap|go|back)(?: colou?rs?| yarn)?(?: back)? to|join|now in|in|with)"
    r" (?P<colour>[a-z]+(?: [a-z]+)?)\s*\)?\W*$",
    re.I,
)
# "1 dec 12 stuff a bit"
_JOB = re.compile(
    r"(?<=[\d)\]])\s*[,;.(-]?\s+(?P<job>(?:then |and |now )?(?:stuff|fill)(?:ing)?"
    r"(?: it| now| here| (?:a )?(?:bit|little)| lightly| firmly| well| with \w+| the \w+)*)\W*$",
    re.I,
)
_STITCHES = frozenset(
    [
        "sc", "dc", "hdc", "inc", "dec", "invdec", "sts", "st", "stitches", "stitch", "blo", "flo", "bl", "fl", "in",
        "each", "every", "all", "around", "round", "x", "times", "rep", "repeat", "other", "even", "evenly", "plain",
        "again", "the", "and", "loops", "loop", "back", "front", "only", "next", "ring", "mr", "magic",
    ]
)  # fmt: skip
_COUNT = re.compile(r"(?P<n>\d{1,3})\s*(?:sts?|stitches|sc|inc|dec)?\s*[)\]]?\W*$", re.I)
_MARK = re.compile(r"[ \t]*(?:[-+*o~]|\[[ xX]?\])[ \t]+(?=\S)")  # "- 18 x 4": a list of them
_LOOPS = re.compile(r"\W*(?:in )?(?:[bf]lo?\b|(?:back|front) loops?)", re.I)
_ALONE = re.compile(r"[ \t]*(?P<count>\d{1,3})[ \t]*(?:sts?|stitches)?[ \t.]*$", re.I)
_NUMBERED = re.compile(
    r"[ \t]*(?P<first>\d{1,3})(?:[ ]?-[ ]?(?P<last>\d{1,3}))?[ ]?[.):/-][ \t]*"
    r"(?P<count>\d{1,3})[ \t]*(?:sts?|stitches)?[ \t.]*$",
    re.I,
)
_FEWEST_IN_RING, _MOST_IN_RING = 4, 16
_LONGEST = 60  # characters of a note
_FEWEST = 4  # rounds of a column, the ring among them
_FEWEST_AGAIN = 2  # rounds of another one, where the text has shown that it is noted so
_WORDS_OF_ASIDE = 2
_MOST_GROWN = 2  # a round is no more than so many times the one below it
_MOST_ROUNDS = 60


@dataclass(frozen=True, slots=True)
class Noted:
    """One line of such a column: the rounds it stands for, and where its words stand in the text.

    No rounds: a line between two of them, with something to do ("eyes! 4 rows up 6 apart").
    """

    numbers: list[int]
    start: int
    end: int
    job: int  # where what is asked behind the count begins; where the line ends, if nothing is
    shade: int = 0  # where the colour in front of the words ends; 0 where none is told


def _shade(line: str) -> re.Match[str] | None:
    """ "black 12", "red: inc 12": the colour in front of a note."""
    shade = _SHADE.match(line)
    return shade if shade is not None and shade[1].lower() in COLOURS else None


def _aside(line: str, below: str, before: int) -> bool:
    """Is a line without a stitch only something to do, since the column goes on below it?"""
    words = re.findall(r"[a-z]+", line.lower())
    if (
        not line[:1].isalpha()
        or of_its_own(line)
        or len(words) < _WORDS_OF_ASIDE
        or not re.search(r"\d|!", line)
        or _STITCHES.issuperset(words)
        or alone.ring(below)
    ):
        return False
    a, b, rounds = _stretch(below, before)
    return 0 < rounds <= _MOST_ROUNDS and _counted(below[a:b], before) > 0


def _stretch(text: str, before: int, begins: int = 0) -> tuple[int, int, int]:
    """Where the words of a note begin and end, for how many rounds they stand; 0 rounds where it is no note."""
    lead = _LEAD.match(text, begins)
    start, end, rounds = lead.end() if lead else begins, len(text.rstrip()), 1
    first = _FIRST_LASTS.match(text, start)
    told = first or _LASTS.search(text, start, end)
    if told is not None:
        rounds = number_of(told["n"])
        start, end = (told.end(), end) if first else (start, told.start())
    bare = _BARE_LASTS.match(text, start, end) if told is None else None
    if bare is not None and int(bare["count"]) == before:
        return start, bare.start("lasts"), int(bare["n"] or bare["n2"])
    around = _AROUND_LASTS.match(text, start, end) if told is None else None
    if around is not None:
        return start, end, int(around["n"])
    spelt = _SPELT.match(text, start, end) if told is None else None
    if spelt is not None and _follows(int(spelt["count"]), before):
        return start, spelt.start("lasts"), 1 + len(re.findall(r"\d+", spelt["lasts"]))
    return start, end, rounds


def _counted(words: str, before: int) -> int:
    """The count that ends a note, by words of stitches alone and fit for what is there; 0 where it is no note."""
    changes = _CHANGES.search(words)
    if changes is not None:
        if classify(words[changes.start() :].strip(" ,;.(")) != "colour" and changes["colour"].lower() not in COLOURS:
            return 0
        words = words[: changes.start()]
    count = _COUNT.search(words)
    if count is None or not all(w in _STITCHES or w in NUMBER_WORDS for w in re.findall(r"[a-z]+", words.lower())):
        return 0
    n = int(count["n"])
    return n if _follows(n, before) else 0


def _follows(count: int, before: int) -> bool:
    return before <= _MOST_GROWN * count and count <= _MOST_GROWN * before


def columns(text: str, lines: list[tuple[int, int]]) -> dict[int, Noted]:
    """The lines of such columns, by where they start; none in a text whose lines are labelled."""
    several: list[dict[int, Noted]] = []
    at = 0
    marks = {mark.end(): start for start, end in lines if (mark := _MARK.match(text, start, end)) is not None}
    begins = {start: bare for bare, start in marks.items()}
    lines = [(begins.get(start, start), end) for start, end in lines]
    while at < len(lines):
        column = _numbers_alone(text, lines, at) or _column(text, lines, at)
        if any(_needs_column(text[n.start : n.end]) for n in column.values()):
            several.append(column)
        at += max(1, len(column))
    fewest = _FEWEST_AGAIN if any(len(column) >= _FEWEST for column in several) else _FEWEST
    kept = [column for column in several if len(column) >= fewest]
    return {marks.get(start, start): noted for column in kept for start, noted in column.items()}


def alone_in_gap(line: str, before: int) -> tuple[int, int, list[int]] | None:
    """ "then blo 24, change to white" where the next label leaves out one: where its words stand, and rounds from 1."""
    a, b, rounds = _stretch(line, before)
    again = _BARE_LASTS.match(line) is not None and len(line[a:b]) < len(line.strip())  # "18 x 4" on 18
    if len(line) > _LONGEST or not (a or again or _LOOPS.match(line)) or not _counted(line[a:b], before):
        return None
    return a, b, list(range(1, rounds + 1))


def _needs_column(words: str) -> bool:
    """Is a line one that by itself nobody takes for a round: "24", "inc 12", "blo 12"?"""
    return re.fullmatch(r"\W*(?:\d{1,3}|(?:\w+ ?){1,3} \d{1,3})\W*", words) is not None


def _numbers_alone(text: str, lines: list[tuple[int, int]], first: int) -> dict[int, Noted]:
    """ "1. 6 / 2. 12 / 3. 18", "6 / 12 / 18 / 24": counts and nothing else, numbered from one or not at all."""
    column: dict[int, Noted] = {}
    before = number = 0
    numbered = _NUMBERED.match(text, *lines[first]) is not None
    for at in range(first, len(lines)):
        start, end = lines[at]
        told = _NUMBERED.match(text, start, end) if numbered else _ALONE.match(text, start, end)
        if told is None:
            break
        count, last = int(told["count"]), number + 1
        if numbered:
            last = int(told["last"] or told["first"])
            if int(told["first"]) != number + 1 or not number < last <= number + _MOST_ROUNDS:
                break
        begins = before or _FEWEST_IN_RING <= count <= _MOST_IN_RING
        if not begins or (before and not before <= _MOST_GROWN * count <= _MOST_GROWN**2 * before):
            break
        if len(column) == 1 and count != 2 * before:
            break  # a first round is doubled: other numbers that count up are no rounds
        column[start] = Noted([*range(number + 1, last + 1)], told.start("count"), told.end(), end)
        number, before = last, count
    return column if len(column) >= _FEWEST else {}


def _column(text: str, lines: list[tuple[int, int]], first: int) -> dict[int, Noted]:
    start, end = lines[first]
    head = text[start:end]
    before = alone.stitches_in_ring(head) if end - start <= _LONGEST else 0
    if before < _FEWEST_IN_RING or at_line_start(text, start, end) or bare_number(text, start, end):
        return {}
    column = {start: Noted([1], start, end, end)}
    number = 1
    for at in range(first + 1, len(lines)):
        start, end = lines[at]
        line = text[start:end]
        if not line.strip() or end - start > _LONGEST or at_line_start(text, start, end) or alone.ring(line):
            break
        asked = _JOB.search(line)
        job = asked.start("job") if asked else len(line)
        shade = _shade(line)
        a, b, rounds = _stretch(line[: asked.start()] if asked else line, before, shade.end() if shade else 0)
        count = _counted(line[a:b], before)
        if not count and (alone.job(line) is not None or classify(line) is not None):
            continue
        if not count and at + 1 < len(lines) and _aside(line, text[slice(*lines[at + 1])], before):
            column[start] = Noted([], start, start, start)
            continue
        if not count or rounds > _MOST_ROUNDS:
            break
        told = Noted([*range(number + 1, number + rounds + 1)], start + a, start + b, start + job)
        column[start] = replace(told, shade=start + shade.end(1)) if shade else told
        number += rounds
        before = count
    return column
