"""Jobs that a sentence tells by their rounds, in whatever words: "You will have to stuff it after round 6", "eyes after
R5, stuffing after R6".

An order is known by its verb (`askings`). Where a round is named there need be none: a job and a round beside it are
enough, so that what is told ahead, a little at length, is not taken for talk.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from hookside.notation.askings.askings import askings, job
from hookside.notation.askings.when import may_tell, names_round, when
from hookside.notation.labels.patterns import COURSE
from hookside.pattern import CueKind

_LONGEST = 300  # characters of such a sentence
_KINDS: tuple[CueKind, ...] = ("stuff", "eyes", "embroider", "close", "sew", "fasten", "marker")
# What tells a job wherever it stands, the dearest first: "the eyes", "stuffing", "you embroider"
_NAMED = re.compile(
    r"(?<![a-z-])(?:(?P<embroider>embroider\w*|(?:nose|mouth|smile|face|whiskers|eyebrows)(?![a-z]))|"
    r"(?P<stuff>(?:re)?stuff(?:s|ed|ing)?|fill(?:ed|ing)?|fibrefill|fiberfill|wadding)(?![a-z])|"
    r"(?P<eyes>(?:safety )?(?:eyes|nose))(?![a-z])|"
    r"(?P<join>(?:joined|attached|crocheted on)(?![a-z]))|"
    r"(?P<other>(?:rattles?|squeakers?|bells?|beads?|weights?|pellets|wires?|magnets?)(?![a-z]))|"
    r"(?P<marker>mark(?:ers?)?(?![a-z])))",
    re.I,
)
_HINT = re.compile(
    r"stuff|fill|eyes|nose|mouth|smile|face|whisk|brow|embroid|wadd|joined|attached|crocheted|rattl|squeak|bell|"
    r"pellet|wire|magnet|bead|weight|mark",
    re.I,
)
_DEAREST: tuple[CueKind, ...] = ("embroider", "eyes", "stuff", "join", "other", "marker")
# "and" between two numbers parts nothing
_SEAM = re.compile(
    rf"\s*[,;:]\s*(?:(?:and|then|but)\s+)*|\s+(?:(?:and|then|but|plus)\s+)+(?!(?:the )?(?:{COURSE}\.? ?)?#?\d)|"
    r"\s+[&+]\s+(?![\dr])",
    re.I,
)
# "Rnd 5" in front of a colon and a job
_ROUND_ALONE = re.compile(rf"\W*{COURSE}\.? ?#?\d{{1,3}}\W*", re.I)
# Told of what is not to be done, or asked, or of another time: said, and not asked for
_UNSURE = re.compile(
    r"n't\b|n\u2019t\b|[?]|\b(?:not|no|never|without|unless|instead|already|looks?|looked|was|were|wish|shows?|photos?|pictures?|"
    r"video|page|measures?)\b",
    re.I,
)
_BESIDE_IT = re.compile(r"\W*(?:before|after|while|without) (?:you |we )?(?:stuff|fill|clos|sew)ing\W*$", re.I)
_FORGETS = re.compile(r"(?:do not|don't|don\u2019t|never|not to) forget", re.I)


class Told(NamedTuple):
    """A job at sentence[start:end]; `sure` where its words leave no doubt that it is one."""

    kind: CueKind
    start: int
    end: int
    sure: bool = True


def beside_round(clause: str) -> CueKind | None:
    """The job of a clause that names a round and gives no order: "remember the eyes at R6"."""
    if len(clause) > _LONGEST or _HINT.search(clause) is None or not names_round(clause):
        return None
    return _kind(clause) if _UNSURE.search(_FORGETS.sub("", clause)) is None else None


def told_by_round(sentence: str) -> list[Told]:
    """The jobs of a sentence that names the rounds of some: what it orders, and what stands beside a round."""
    asked = [Told(*one) for one in askings(sentence)]
    if len(sentence) > _LONGEST or _HINT.search(sentence) is None or not may_tell(sentence):
        return asked
    beside = _beside(sentence)
    timed = [one for one in asked if when(sentence[one.start : one.end], one.kind)]
    if not beside or {one.kind for one in beside} <= {one.kind for one in timed} or len(beside) < len(timed):
        return asked
    kinds = {one.kind for one in beside}
    kept = [one for one in asked if one.kind not in kinds and one.kind != "other"]
    clear = [one for one in kept if not any(one.start < b.end and b.start < one.end for b in beside)]
    return sorted([*beside, *clear], key=lambda one: one.start)


class _Part(NamedTuple):
    start: int
    end: int
    kind: CueKind | None
    round: bool


def _beside(sentence: str) -> list[Told]:
    """Each job with the round beside it; those without one share their neighbour's."""
    parts = _parts(sentence)
    groups: list[list[_Part]] = []
    for at, part in enumerate(parts):
        here = groups[-1] if groups else []
        kinds = {p.kind for p in here if p.kind}
        whole = bool(kinds) and any(p.round for p in here)
        more = part.kind is not None and kinds and part.kind not in kinds
        led = whole and part.round and part.kind is None and any(p.kind for p in parts[at + 1 :])
        again = whole and part.round and part.kind in kinds and part.kind != "stuff"
        if here and not (more or led or again):
            here.append(part)
        else:
            groups.append([part])
    found: list[Told] = []
    for at, group in enumerate(groups):
        kind = next((p.kind for p in group if p.kind), None)
        start, end = group[0].start, group[-1].end
        if kind is None:
            continue
        if not any(p.round for p in group):  # "stuff and put in the eyes after R6"
            beside = [*groups[at + 1 : at + 2], *groups[at - 1 : at][:at]]
            other = next((g for g in beside if any(p.round for p in g)), None)
            if other is None:
                continue
            start, end = min(start, other[0].start), max(end, other[-1].end)
        words = _FORGETS.sub("", sentence[start:end])
        found.append(Told(kind, start, end, _UNSURE.search(words) is None))
    return found


def _parts(sentence: str) -> list[_Part]:
    seams = [match.span() for match in _SEAM.finditer(sentence)]
    starts, ends = [0, *(end for _, end in seams)], [*(start for start, _ in seams), len(sentence)]
    clauses = [(a, b, sentence[a:b]) for a, b in zip(starts, ends, strict=True) if sentence[a:b].strip()]
    return [
        _Part(a, b, _kind(words), names_round(words) or _ROUND_ALONE.fullmatch(words) is not None)
        for a, b, words in clauses
    ]


def _kind(clause: str) -> CueKind | None:
    if _BESIDE_IT.match(clause):
        return None  # "The face is embroidered after round 7, before stuffing."
    ordered = job(clause)
    if ordered in _KINDS:
        return ordered
    named = {match.lastgroup for match in _NAMED.finditer(clause)}
    if not named:
        return None
    for kind in _DEAREST:
        if kind in named:
            return kind
    return None
