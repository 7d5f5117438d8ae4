"""Where a part goes, counted in stitches of the round it is placed on.

Unturned work leans, so the line of markers is no measure: stitches of the placement round are (common practice, no
source). What is said here is arithmetic on what the text prints and on the counts of its own rounds.
"""

from __future__ import annotations

import re

from hookside.finish.parts import Part
from hookside.pattern import Course, Terms
from hookside.words import translate

_COURSE = re.compile(r"\b(?:rounds?|rnds?|rows?|r)\.?\s?(\d+)", re.IGNORECASE)
_GAP = re.compile(
    r"\b(\d+)\s*(?:sts?|stitches|sc|dc)\b\.?\s*(?:(?:in |of space )?between|apart|of space|free)", re.IGNORECASE
)
_ONTO = re.compile(r"\b(?:to|onto|on|over|across|of|inside|along|against|under)\b[^,;.:]{0,40}$", re.IGNORECASE)
_BOTH_SIDES = re.compile(r"\b(?:one on (?:each|either) side|on (?:both|each|either) sides?)\b", re.IGNORECASE)

# Without a number of stitches in print: a pair that has the round between them.
_OPPOSITE = re.compile(
    r"\b(?:on|at|to) (?:(?:each|either) side|(?:both|the|opposite) sides)\b"
    r"(?! of (?:the |his |her |its )?(?:face|nose|eyes?|mouth|beak|snout|muzzle|tail|neck|front|back|other)\b)",
    re.IGNORECASE,
)


def counted(text: str, parts: list[Part], terms: Terms, written: Terms) -> list[str]:
    """What can be counted of the places a sentence names, as sentences in the maker's terms; [] where nothing can."""
    said: list[str] = []
    leans = False
    for found in _COURSE.finditer(text):
        ground = _ground(text, found, parts)
        course = ground.course(found[1]) if ground else None
        if ground is None or course is None or course.makes is None:
            continue
        kind, many = course.kind, course.makes
        said.append(f"{kind.capitalize()} {course.label} of {ground.called} has {many} stitches.")
        said += _between(text, many, course, [part for part in parts if part is not ground and part.named_in(text)])
        leans = leans or kind == "round"
    if leans:
        said.append("Count along the round, not from the line of markers: that line leans.")
    return [translate(sentence, written, terms) for sentence in dict.fromkeys(said)]


def _ground(text: str, found: re.Match[str], parts: list[Part]) -> Part | None:
    """The part whose course is meant: the one named behind it, else the one that something is put onto, else the only
    one that has such a course. None where that is not certain."""
    having = [part for part in parts if part.course(found[1])]
    behind = re.match(r"\s*(?:of|on) (?:the |each )?", text[found.end() :], re.IGNORECASE)
    if behind:
        rest = text[found.end() + behind.end() :]
        named = [part for part in having if (m := part.mention().search(rest)) and m.start() == 0]
        if named:
            return named[0]
    onto = [p for p in having if any(_ONTO.search(text[: m.start()]) for m in p.mention().finditer(text))]
    if len(onto) == 1:
        return onto[0]
    return having[0] if len(having) == 1 else None


def _between(text: str, many: int, course: Course, sewn: list[Part]) -> list[str]:
    """What a printed gap leaves of the round."""
    gap = _GAP.search(text)
    if gap is None:
        counted_out = re.search(r"\d\s*(?:sts?|stitches|sc|dc)\b", text, re.IGNORECASE)
        if counted_out or len(sewn) != 1 or sewn[0].piece.make != 2 or not _OPPOSITE.search(text):
            return []
        half = many // 2
        ways = f"{half} stitches" if many == 2 * half else f"{half} stitches one way round and {many - half} the other"
        return [f"One on each side: {ways} from the middle of one to the middle of the other."]
    free = int(gap[1])
    if free >= many:
        return [f"Look here: the text says {free} stitches, and there are only {many} in {course.kind} {course.label}."]
    rest = many - free
    if len(sewn) == 1 and sewn[0].pressed and _BOTH_SIDES.search(text):
        last = sewn[0].piece.courses[-1].makes
        if last and rest - 2 * (last // 2) > 0:
            wide = last // 2
            return [
                f"With {free} between them and {wide} taken up by each (an edge of {last}, pressed flat, is {wide} "
                f"wide), {rest - 2 * wide} are left on the other side."
            ]
    return [f"With {free} between them, {rest} are left for what they stand on and the other way round."]
