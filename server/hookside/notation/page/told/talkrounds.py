"""Rounds told in the running words of a letter or of a talk, none of them by its number.

"Start with six stitches in a ring. Then I work 2 dc in every stitch, so I have 12. The round after that goes one plain,
two in the next, all the way, 18. Then four rounds plain." Each round gets a line and a label, written shortly, with the
count that is told behind it; a job gets a line of its own. A clause that speaks of stitches and is none that we know
stands as a round in its own words, so that it is said as unread: no round is left out in silence. A paragraph of which
too little is known stays as it is.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from hookside.notation.page.edits import Edit, put
from hookside.notation.page.inwords import value
from hookside.notation.page.told import talkclauses as clauses
from hookside.notation.page.told.talkseries import Series, series
from hookside.notation.sought import Sought

# The lines up to an empty one, or to one that names another part: "The comb, red: 4 chain"
_PARAGRAPH = re.compile(
    r"\S[^\n]*(?:\n(?!(?<=[.)]\n)(?:The )?[A-Z][a-z]+(?:,? [a-z]{3,12}){0,2}: "
    r"(?:[a-z ]{0,16})?(?:\d|ch|chain|a ring|ring))[ \t]*\S[^\n]*)*"
)
_SHORTEST, _LONGEST = 40, 6000  # letters of such a paragraph
_SHORT = 90  # ... below which every word of it has to be known
_FEWEST = 3  # rounds that are known, the ring among them
_CLAUSE_ENDS = re.compile(
    r"[.!?;:](?=\s|$)|,(?=\s)|\s(?=(?:and )?then\b|and (?:close|stuff|sew|fasten|cut|draw|pull|fill))|\n\n"
)
_SENTENCE_ENDS = re.compile(r"[.!?](?=\s|$)")
_MAY = Sought(
    ("ring", "circle", "loop", "mr", "mc", "second chain", "2nd ch"),
    r"\b(?:ring|circle|loop|mr|mc)\b|second chain|2nd ch",
    re.I,
)
_RINGS = ("ring", "circle", "loop", "mr", "mc", "second", "2nd")  # one of them is wherever a first round is told
_LIKE_THIS = re.compile(r"\b(?:this|it|how|follows|way|so|I|we|you)\b[^:]{0,12}:$", re.I)
_OPENING = re.compile(r"(?:\s*\b(?:so|ok|okay|well|now|right|first|then|and)\b[\s,]*)+", re.I)  # "So, " is no name
_LINE_ENDS = re.compile(r"(?<=[.!?:;])\n|^[^\n]{0,44}(?<![.!?:;])\n", re.M)  # those that are no wraps
_WRAPPED = re.compile(r"(?<=\S)\n(?=[ \t]*\S)")
# "For the ear I make a ring", "The tail starts with", "The nose is nothing:": whose ring it is
_OF = re.compile(
    r"(?:(?:for|now|and) )?(?:the|an?|each) (?P<name>(?!round|ring|next|last|first|start|magic|loop|hat for)[a-z]{3,12}"
    r"(?: [a-z]{3,10})?)(?:,? (?:I|we|you|make|start|begin|it)\b| (?:starts?|begins?|is|goes)\b|:)",
    re.I,
)

_OFTEN = ("n", "n2", "n3", "n4", "n5", "n6", "n7", "n8", "n9", "n10", "once")  # for how many rounds a plain one is told
_THEN = re.compile(r"\bthen $", re.I)
# "(sc, inc) around (18)", "*sc, inc* (18)" among what is told in words: a round as others write it
_WRITTEN = re.compile(
    r"\s*(?P<work>\*(?=[^*]*\b(?:\d{0,2} ?(?:sc|[hd]?dc|h?tr|inc|dec)))[^*\n]{2,40}\*"
    rf"(?:,? (?:rep(?:eat)? )?(?:x ?\d{{1,2}}|{clauses.N} (?:more )?times|(?:all )?(?:the way )?a?round|"
    r"to (?:the )?end))?|"
    r"[(\[](?=[^()\[\]]*\b(?:\d{0,2} ?(?:sc|[hd]?dc|h?tr|inc|dec))\b)[^()\[\]\n]{2,40}[)\]]"
    r" (?:all (?:the way )?a?round|around|to the end)\b)",
    re.I,
)


@dataclass(slots=True)
class _Walk:
    """What was found in a paragraph so far."""

    edits: list[Edit] = field(default_factory=list)
    number: int = 0  # of the last round
    known: int = 0
    unknown: int = 0
    stitch: str = ""  # as the paragraph names its stitches
    plain: bool = False  # the last round is a plain one
    led: bool = False  # a round was announced
    last: int = -1  # the edit behind the last round, where its count goes
    there: int = 0  # stitches of the last round; 0 where they are not known
    back: bool = False  # the counts of further rounds may stand alone


def labelled(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds labelled, each on a line of its own, and the way back."""
    if _MAY.search(text) is None or clauses.LABELLED.search(text):
        return text, offsets
    edits: list[Edit] = []
    before: _Walk | None = None
    flat = _WRAPPED.sub(" ", text)
    for paragraph in _PARAGRAPH.finditer(text):
        start, end = paragraph.span()
        walk = _begun(flat, start, end) if _SHORTEST <= end - start <= _LONGEST else None
        lines = sum(1 for _ in _LINE_ENDS.finditer(text, start, end)) + 1
        dark = walk is not None and (3 * walk.unknown > 2 * walk.known or (end - start < _SHORT and walk.unknown > 0))
        if walk is not None and (walk.known < _FEWEST or dark or walk.known <= lines):
            walk = None
        elif walk is None and before is not None and end - start <= _LONGEST:
            walk = _gone_on(flat, start, end, before)
        if walk is not None:
            edits += walk.edits
            before = walk
    return put(text, offsets, edits) if edits else (text, offsets)


def _begun(text: str, start: int, end: int) -> _Walk | None:
    """A paragraph that tells a first round."""
    low = text[start:end].lower()
    ring = clauses.RING.search(text, start, end) if any(word in low for word in _RINGS) else None
    if ring is None:
        return None
    walk = _Walk(stitch=_stitch(text[start:end]))
    at = _ring(text, walk, ring, start)
    while at < end:
        at = _next(text, walk, at, end)
    return walk


def _gone_on(text: str, start: int, end: int, before: _Walk) -> _Walk | None:
    """A paragraph that goes on from the one before, where its rounds are known."""
    if clauses.RING.search(text, start, end):
        return None
    walk = _Walk(number=before.number, stitch=before.stitch)
    at = start
    while at < end:
        at = _next(text, walk, at, end)
    return walk if walk.known and 3 * walk.unknown <= 2 * walk.known else None


def _stitch(words: str) -> str:
    """The stitch of a paragraph, by the first that it names; stitches without a name are "st"."""
    for told in re.finditer(clauses.ST, words, re.I):
        named = _named(told[0])
        if named != "st":
            return named
    return "st"


def _named(words: str | None) -> str:
    low = (words or "").lower().replace(".", "")
    short = {"half treble": "htr", "half double": "hdc", "single": "sc", "double": "dc", "treble": "tr"}
    for name, stitch in short.items():
        if low.startswith(name):
            return stitch
    low = low.rstrip("s")
    return low if low in ("sc", "dc", "hdc", "htr", "tr") else "st"


def _ring(text: str, walk: _Walk, ring: re.Match[str], start: int) -> int:
    """A first round; whose it is, where a sentence says so, stands above it."""
    sentence = max((m.end() for m in _SENTENCE_ENDS.finditer(text, start, ring.start())), default=start)
    of = _OF.search(text, sentence, ring.start())
    n = value(ring["a"] or ring["b"] or ring["c"])
    stitch = _named(ring["st"] or ring["stb"] or ring["stc"])
    stitch = walk.stitch if stitch == "st" else stitch
    begin = ring.start()
    clause = max(sentence, text.rfind(",", start, begin) + 1)
    clause += len(text[clause:begin]) - len(text[clause:begin].lstrip())
    lead = clauses.RING_LEAD.search(text, clause, begin)
    begin = lead.start() if lead is not None else begin
    ahead = text[sentence:begin].strip()
    if _OPENING.fullmatch(text, sentence, begin):
        begin = sentence
    head = "\n" if begin else ""
    if ahead and of is None and (ahead[-1] not in ",.!?:;" or _LIKE_THIS.search(ahead)):
        begin -= len(text[:begin]) - len(text[:begin].rstrip(" ,:;\n"))
        head = ".\n"
    if of is not None and not walk.number:
        head = f"\n\n{of['name'].capitalize()}\n"
        begin = max(sentence, of.start())
    elif of is not None:
        head = f"\n\n{of['name'].capitalize()}\n"
        begin = of.start()
    elif walk.number:
        head = "\n\n"
    walk.edits.append((begin, ring.end(), f"{head}Rnd 1: {n} {_so_many(n, stitch)} in magic ring"))
    walk.number, walk.known, walk.plain, walk.led = 1, walk.known + 1, False, False
    walk.there, walk.back = n, False
    return _count(text, walk, ring.end())


def _next(text: str, walk: _Walk, at: int, end: int) -> int:
    """What stands at `at`: the offset behind it."""
    lead = clauses.LEAD.match(text, at, end)
    if lead is not None:
        walk.led = True
        walk.edits.append((at, lead.end(), " "))
        return lead.end()
    beside = clauses.BESIDE.match(text, at, end) if walk.plain else None
    if beside is not None:
        walk.edits.append((at, beside.end(), " "))
        return beside.end()
    written = _WRITTEN.match(text, at, end) if walk.number else None
    if written is not None:
        walk.known, walk.unknown = walk.known - 1, walk.unknown + 1  # others read such as well
        return _put(walk, at, _Told(written.end(), written["work"]), text)
    first = clauses.TO_BY.match(text, at, end)
    if first is None and walk.number:
        first = clauses.COUNT_FIRST.match(text, at, end)
    if first is not None:
        behind = first.end()
        while (skip := clauses.SKIP.match(text, behind, end)) is not None:
            behind = skip.end()
        told = _round(text, walk, behind, end)
        if told is not None:
            return _put(walk, at, told, text, count=value(first["n"]))
    told = _round(text, walk, at, end)
    summed = clauses.SUMMED.match(text, at, end) if walk.number and not clauses.SKIP.match(text, at, end) else None
    if summed is not None and (told is None or told.end < summed.end("words")):
        walk.known, walk.unknown = walk.known - 1, walk.unknown + 1
        return _put(walk, at, _Told(summed.end("words"), _line(text, *summed.span("words"))), text)
    if told is not None:
        return _put(walk, at, told, text)
    alone = clauses.COUNT_ALONE.match(text, at, end) if walk.number else None
    if alone is not None and (behind := _counted(walk, alone)):
        return behind
    backwards = clauses.BACKWARDS.match(text, at, end) if walk.number else None
    if backwards is not None:
        walk.back, walk.led = True, False
        walk.edits.append((at, backwards.end(), "\n"))
        return backwards.end()
    copies = clauses.COPIES.match(text, at, end)
    if copies is not None:
        walk.edits.append((at, copies.end(), f"\nMake {value(copies['n'])}.\n"))
        return copies.end()
    job = clauses.JOB.match(text, at, end)
    if job is not None:
        return _job(text, walk, job, end)
    skip = clauses.SKIP.match(text, at, end)
    if skip is not None and skip.end() > at:
        opened = text.find("(", at, skip.end()) if walk.number else -1
        begins = opened > at and _WRITTEN.match(text, opened, end) is not None
        begins = begins or (opened > at and series(text, opened, end, walk.there) is not None)
        stop = opened if begins else skip.end()
        walk.edits.append((at, stop, " "))
        return stop
    return _other(text, walk, at, end)


def _counted(walk: _Walk, alone: re.Match[str]) -> int:
    """A sentence with nothing but the count of the round in front of it; 0 where that has another."""
    n = value(alone["n"])
    if walk.last == len(walk.edits) - 1 and walk.edits[walk.last][2] == "\n":
        at = walk.edits[walk.last][0]
        walk.edits[walk.last] = (at, alone.end(), f" ({n})\n")
    elif walk.there == n:
        walk.edits.append((alone.start(), alone.end(), " "))
    else:
        return 0
    walk.there, walk.led = n, False
    return alone.end()


def _so_many(n: int, stitch: str) -> str:
    return "sts" if stitch == "st" and n != 1 else stitch


@dataclass(slots=True)
class _Told:
    """A round as it is understood: where it ends, its work in short, for how many rounds."""

    end: int
    body: str
    many: int = 1
    plain: bool = False
    count: int = 0  # told within its words
    makes: int = 0  # as its words come to; 0 where that is not known


def _round(text: str, walk: _Walk, at: int, end: int) -> _Told | None:
    st = walk.stitch
    pair = clauses.PAIR.match(text, at, end)
    if pair is not None:
        told = _pair(text, walk, pair, end)
        if told is not None:
            return told
    row = series(text, at, end, walk.there)
    if row is not None:
        return _in_a_row(walk, row)
    between = clauses.BETWEEN.match(text, at, end)
    if between is not None:
        shaping = "dec" if (between["kind"] or "").lower().startswith("dec") else f"2 {_so_many(2, st)} in next st"
        n = value(between["n"])
        return _Told(between.end(), f"(1 {st} in next {f'{n} sts' if n > 1 else 'st'}, {shaping}) around")
    each = clauses.EACH.match(text, at, end)
    plain = clauses.PLAIN.match(text, at, end)
    if each is not None and each["many"]:
        many = value(each["many"])
        return _Told(each.end(), f"inc x {many}", makes=2 * many if walk.there == many else 0)
    if each is not None and (plain is None or plain.end() <= each.end()):
        n = 2 if each["inc"] else 1 if each["n"].lower() == "a" else value(each["n"])
        stitch = _named(each["st"]) if each["st"] else st
        many, behind = _over(text, each.end(), end)
        named = _so_many(n, st if stitch == "st" else stitch)
        return _Told(behind, f"{n} {named} in each st around", many, plain=n == 1, makes=n * walk.there)
    dec = clauses.DEC.match(text, at, end)
    if dec is not None:
        times = _times(dec["many"] or dec["times"] or dec["reach"] or dec["times2"] or dec["reach2"] or "")
        half = walk.there // 2 if walk.there % 2 == 0 else 0
        return _Told(dec.end(), f"dec x {times}" if times else "dec around", makes=half)
    if plain is not None and plain.end() > at:
        many = next((_times(plain[g]) for g in _OFTEN if plain[g]), 1) or 1
        more, behind = _over(text, plain.end(), end)
        same = plain["same"] or plain["n4"]
        body = f"repeat Rnd {walk.number}" if same else f"1 {st} in each st around"
        count = next((value(plain[g]) for g in ("each", "at", "on", "on2", "on3", "on4") if plain[g]), 0)
        return _Told(behind, body, max(many, more), True, count, walk.there)
    counted = clauses.ONLY_COUNT.match(text, at, end)
    if counted is None and (walk.back or _THEN.search(text, max(0, at - 9), at)):
        counted = clauses.BARE.match(text, at, end)
    if counted is None:
        return None
    n = value(counted["n"])
    return _Told(counted.end(), str(n), makes=n) if n != walk.there else None


def _in_a_row(walk: _Walk, row: Series) -> _Told:
    """Several stitches in a row as one round."""
    if row.work.startswith("(") and row.times is not None and row.times[:1] in "xX":
        walk.known, walk.unknown = walk.known - 1, walk.unknown + 2  # others read such as well
    if row.times is None:
        return _Told(row.end, row.work, makes=row.makes)
    times = _times(row.times)
    often = times or (walk.there // row.uses if walk.there % row.uses == 0 else 0)
    return _Told(row.end, f"{row.work} x {times}" if times else f"{row.work} around", makes=often * row.makes)


def _pair(text: str, walk: _Walk, pair: re.Match[str], end: int) -> _Told | None:
    """ "one plain, two in the next, all the way": how often it goes is told, or a count behind it tells it."""
    counted = clauses.COUNT.match(text, pair.end(), end) is not None
    if not pair["go"] and not counted:
        return None
    n = value(pair["of"] or pair["a"] or pair["b"] or pair["bare"] or "one")
    st = walk.stitch
    shaping = f"2 {_so_many(2, st)} in next st" if pair["inc"] else "dec"
    times = _times(pair["times"] or pair["reach"] or "")
    work = f"(1 {st} in next {n} sts, {shaping})" if n > 1 else f"(1 {st} in next st, {shaping})"
    return _Told(pair.end(), f"{work} x {times}" if times else f"{work} around")


def _times(words: str) -> int:
    """ "six times", "x 6", "twice", "six" -> the number; 0 for "all the way"."""
    low = words.lower()
    if low.startswith(("twice", "thrice", "once")):
        return {"twice": 2, "thrice": 3}.get(low[:6].rstrip(), 1) if low[:4] != "once" else 1
    number = re.search(clauses.N, words, re.I)
    return value(number[0]) if number is not None and "way" not in low else 0


def _over(text: str, at: int, end: int) -> tuple[int, int]:
    """For how many rounds a plain one is told to be done, and where that ends."""
    over = clauses.OVER.match(text, at, end)
    if over is None:
        return 1, at
    many = 2 if over["twice"] else value(over["n"]) if over["n"] else value(over["more"]) + 1
    return many, over.end()


def _put(walk: _Walk, at: int, told: _Told, text: str, count: int = 0) -> int:
    """The round gets its line and label, with the count behind it."""
    first, last = walk.number + 1, walk.number + told.many
    label = f"Rnd {first}" if first == last else f"Rnds {first}-{last}"
    loops = clauses.LOOPS.match(text, told.end)
    end = loops.end() if loops is not None else told.end
    blo = "" if loops is None else ", in BLO" if loops["which"].lower() == "back" else ", in FLO"
    walk.edits.append((at, end, f"\n{label}: {told.body}{blo}"))
    walk.number, walk.known, walk.plain, walk.led = last, walk.known + 1, told.plain, False
    walk.there, count = told.makes, count or told.count
    if told.body.isdecimal():
        walk.edits.append((end, end, "\n"))
        return end
    if count:
        walk.there = count
        walk.edits.append((end, end, f" ({count})\n"))
        again = clauses.COUNT.match(text, end)
        return again.end() if again is not None and value(again["n"]) == count else end
    return _count(text, walk, end)


def _count(text: str, walk: _Walk, at: int) -> int:
    """The count behind a round, in a bracket; the line ends there."""
    count = clauses.COUNT.match(text, at)
    if count is None:
        walk.last = len(walk.edits)
        walk.edits.append((at, at, "\n"))
        return at
    walk.there = value(count["n"])
    walk.edits.append((at, count.end(), f" ({value(count['n'])})\n"))
    return count.end()


def _job(text: str, walk: _Walk, job: re.Match[str], end: int) -> int:
    """Something to do between two rounds, on a line of its own."""
    walk.led = False
    if job["after"]:
        walk.edits.append((job.start(), job.end(), "\nStuff.\n"))
        return job.end()
    ends = clauses.JOB_ENDS.search(text, job.end(), end)
    behind = ends.start() if ends is not None else end
    walk.edits.append((job.start(), behind, f"\n{_line(text, job.start(), behind)}.\n"))
    return behind


def _line(text: str, at: int, end: int) -> str:
    return " ".join(text[at:end].split()).strip(" ,;:")


def _other(text: str, walk: _Walk, at: int, end: int) -> int:
    """A clause that no pattern knows: talk, or a round in its own words where it speaks of stitches."""
    ends = _CLAUSE_ENDS.search(text, at, end)
    behind = ends.start() if ends is not None else end
    behind = max(behind, min(end, at + 1))
    ring = clauses.RING.search(text, at, behind)
    words = _line(text, at, behind)
    if ring is not None:
        return _ring(text, walk, ring, at)
    rounds = clauses.ROUNDS_ALONE.fullmatch(words) if walk.number else None
    if rounds is not None:
        body = f"1 {walk.stitch} in each st around"
        return _put(walk, at, _Told(behind, body, value(rounds["n"]), True, makes=walk.there), text)
    if walk.number and (walk.led or (clauses.STITCHY.search(words) and not clauses.ASIDE.search(words))):
        walk.number += 1
        walk.unknown += 1
        walk.led = walk.plain = False
        count = clauses.COUNT_BEHIND.match(text, behind, end)
        counted = f" ({count['n']})" if count is not None else ""
        walk.edits.append((at, behind, f"\nRnd {walk.number}: {words}{counted}\n"))
        if count is not None:
            walk.edits.append((*count.span(), " "))
            walk.there = value(count["n"])
        return count.end() if count is not None else behind
    walk.edits.append((at, behind, f"\n{words}.\n" if words else " "))
    return behind
