"""The body of a course, part by part: its words and what they were taken for."""

from __future__ import annotations

from dataclasses import dataclass

from hookside.notation.bodies.chunks import Chunk, Phrases, Place, Times
from hookside.notation.courses.waiting import Parsed
from hookside.notation.findings.table import spell
from hookside.pattern import Terms
from hookside.stitches import TABLE, Stitch, full_name, plural

MOST_PARTS = 40
_LONGEST = 80  # letters of one part's words
_BEGIN = frozenset(["NB", "BARE", "ST", "PLACEPRE"])
_GO_ON = frozenset(["ST", "NA", "PLACE", "ANDPLACE", "TIMES", "LOOPSPOST", "COLOURPOST"])


@dataclass(frozen=True, slots=True)
class Part:
    """Words as they are printed, and what they were taken for."""

    text: str
    sense: str


def parts_of(parsed: Parsed, terms: Terms, own: dict[str, Stitch], shown: str | None) -> list[Part]:
    """The parts of a body in the order of print.

    `shown`: its original characters, which are taken where there are as many; None where the body is borrowed from
    another course, so that its count and its askings are not meant.
    """
    body = shown if shown is not None and len(shown) == len(parsed.body) else parsed.body
    phrases = parsed.phrases
    found = [(first, last, "words I do not know") for first, last in _neighbours(body, phrases.unknown)]
    found += [(first, last, "a remark, with nothing in it to work") for first, last in phrases.asides]
    if shown is not None:
        found += [(*_with_bracket(body, first, last), f"the printed count, {n}") for n, first, last in phrases.counts]
        found += [(cue.start, cue.end, _ASKED.get(cue.kind, f"something to do: {cue.kind}")) for cue in phrases.cues]
    found += _worked(phrases, terms, own)
    senses: dict[tuple[int, int], list[str]] = {}
    for first, last, sense in sorted(found, key=lambda f: f[:2]):
        if last > first:
            senses.setdefault((first, last), []).append(sense)
    out = [Part(_words(body, *span), "; ".join(told)) for span, told in senses.items()]
    if len(out) > MOST_PARTS:
        out[MOST_PARTS:] = [Part("...", f"and {len(out) - MOST_PARTS} more parts")]
    return out


_ASKED = {"other": "something to do", "colour": "a change of colour", "count": "a moment to count"}


def _neighbours(body: str, spans: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Spans with nothing but spaces between them as one."""
    found: list[tuple[int, int]] = []
    for first, last in sorted(spans):
        if found and not body[found[-1][1] : first].strip():
            found[-1] = (found[-1][0], last)
        else:
            found.append((first, last))
    return found


def _with_bracket(body: str, first: int, last: int) -> tuple[int, int]:
    """A count together with the bracket it stands in, where there is nothing else in it."""
    around = body[max(0, first - 1) : first] + body[last : last + 1]
    return (first - 1, last + 1) if around in ("()", "[]", "{}") else (first, last)


def _words(body: str, first: int, last: int) -> str:
    words = " ".join(body[first:last].split())
    return words if len(words) <= _LONGEST else words[: _LONGEST - 3] + "..."


def _worked(phrases: Phrases, terms: Terms, own: dict[str, Stitch]) -> list[tuple[int, int, str]]:
    """Stitches with all that belongs to them, brackets, stars and marks, each with its span."""
    found: list[tuple[int, int, str]] = []
    chunks = phrases.chunks
    at = 0
    while at < len(chunks):
        chunk = chunks[at]
        past = at + 1
        if chunk.type in _BEGIN:
            while past < len(chunks) and chunks[past].type in _GO_ON and not _ends(chunks[at:past], chunks[past]):
                past += 1
            sense = _stitches(chunks[at:past], terms, own)
        elif chunk.type in ("CLOSE", "STARC"):
            while past < len(chunks) and chunks[past].type in _GO_ON - {"ST", "NA"}:
                past += 1
            sense = _stretch(chunks[at + 1 : past])
        elif chunk.type == "LOOPS" and at and not any(c.type in _BEGIN for c in chunks[past:]):
            sense = _behind(chunk).removeprefix(", ")
        else:
            sense = _sign(chunk, terms)
        if sense:
            found.append((min(c.start for c in chunks[at:past]), max(c.end for c in chunks[at:past]), sense))
        at = past
    return found


def _ends(part: list[Chunk], chunk: Chunk) -> bool:
    """A second stitch begins a part of its own."""
    return chunk.type == "ST" and any(c.type in ("ST", "BARE") for c in part)


def _stitches(part: list[Chunk], terms: Terms, own: dict[str, Stitch]) -> str:
    amount = next((c.value[0] for c in part if c.type in ("NB", "NA", "BARE")), None)
    stitch = next((str(c.value) for c in part if c.type == "ST"), None)
    along = any(c.type in ("PLACE", "ANDPLACE", "PLACEPRE") and (c.value.n > 1 or c.value.kind == "fill") for c in part)
    told = stitches(1 if amount is None else amount, stitch or "sc", terms, own)
    if amount is None and along:
        told = told.removeprefix("1 ")
    if stitch is None:
        told += ", the plain stitch of this pattern"
    return told + "".join(_behind(c) for c in part)


def stitches(n: int, key: str, terms: Terms, own: dict[str, Stitch]) -> str:
    """ "6 increases", "1 single crochet", in the terms of the text."""
    entry = TABLE.get(key)
    if entry is None or key in own:
        return f"{n} {key}, the text's own stitch"
    name = full_name(entry, terms)
    return f"{n} {name if n == 1 else plural(name)}"


def _behind(chunk: Chunk) -> str:
    """What stands behind a stitch or a bracket: a place, a multiplier, loops, a colour."""
    if chunk.type in ("PLACE", "ANDPLACE", "PLACEPRE"):
        joined = " and " if chunk.type == "ANDPLACE" else ", "
        return joined + _place(chunk.value)
    if chunk.type == "TIMES":
        return ", " + _times(chunk.value)
    if chunk.type in ("LOOPSPOST", "LOOPS"):
        return f", through the {chunk.value} loops only" if chunk.value else ", through both loops"
    if chunk.type == "COLOURPOST":
        return f", in {chunk.value}"
    return ""


def _place(place: Place) -> str:
    n = spell(place.n)
    noun = "chains" if place.noun.startswith("ch") else "stitches"
    kept = f", up to the last {spell(place.last)}" if place.last else " to the end"
    told = {
        "next": f"in each of the next {n} {noun}" if place.each else f"in the next {n} {noun}",
        "fill": f"in every stitch{kept}" if place.each else f"all the way{kept}",
        "same": "in the same stitch",
        "one": "in one stitch",
        "first": "in the first stitch",
        "last": "in the last stitch" if place.n == 1 else f"in the last {n} stitches",
        "ring": "into the ring",
        "hook": f"in chain number {place.n} from the hook",
        "space": "in the space" if place.n == 1 else f"in {n} spaces",
        "nth": f"in every stitch whose number is a multiple of {place.n}",
        "order": f"in stitch number {place.n} from there",
        "evenly": "spread evenly",
        "ends": "at both ends",
        "piece": "on the other piece",
        "chain": "along the chain",
    }.get(place.kind, "in its place")
    if place.kind == "next" and place.n == 1:
        told = "in the next chain" if noun == "chains" else "in the next stitch"
    if place.hook:
        told += f", from chain number {place.hook} from the hook on"
    return told + (", worked together" if place.together else "")


def _times(times: Times) -> str:
    if times.fill:
        return f"again and again, up to the last {spell(times.last)}" if times.last else "again and again to the end"
    if times.uses is not None:
        return f"again and again over the next {spell(times.uses)} stitches"
    if times.more:
        return f"{_often(times.n)} more, after the first"
    return f"{_often(times.n)} in all"


def _often(n: int) -> str:
    return {1: "once", 2: "twice"}.get(n, f"{spell(n)} times")


def _stretch(behind: list[Chunk]) -> str:
    """The end of a bracket or of a starred stretch."""
    if not behind:
        return "to here"
    return "from there to here" + "".join(_behind(c) for c in behind)


_MARKS = {
    "ring": "a magic ring to start in",
    "closed ring": "the chain is closed to a ring",
    "join": "the course is closed: this makes no stitch",
    "turn": "the work is turned",
    "other side": "from here along the other side of the chain",
}


def _sign(chunk: Chunk, terms: Terms) -> str:
    """A sign or a phrase that stands by itself; nothing where it only parts others."""
    if chunk.type == "MARK":
        return _MARKS.get(chunk.value[0], str(chunk.value[0]))
    if chunk.type in ("OPEN", "STARO"):
        return "from here"
    if chunk.type == "SKIP":
        n = chunk.value[0]
        verb = "skipped" if terms == "US" else "missed"
        return f"{spell(n)} {'stitch is' if n == 1 else 'stitches are'} {verb}" if n else f"a space is {verb}"
    if chunk.type == "LOOPS":
        return f"from here through the {chunk.value} loops only" if chunk.value else "from here through both loops"
    if chunk.type == "COLOUR":
        return f"from here in {chunk.value}"
    if chunk.type == "REPFROM":
        return "the stretch from the star, " + _times(chunk.value)
    if chunk.type == "REPALL":
        return "all of it, " + _times(chunk.value)
    return ""
