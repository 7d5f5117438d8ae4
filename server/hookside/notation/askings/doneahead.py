"""What is told behind a round and done before it: "(6), after filling it well", ", having attached the eyes",
", but push in the stuffing first".

What is told as done already was asked nowhere else: it is asked for in front of the round that supposes it.
"""

from __future__ import annotations

import re

from hookside.notation.askings.kinds import classify
from hookside.pattern import CueKind

_ONLY = r"\W*(?:but |and |do this |work this |worked |only )*"
_DONE = re.compile(
    _ONLY + r"(?:(?:right |directly |straight )?after|having|once|when|as soon as|following)\s+"
    r"(?:(?:first|you|you've|i|i've|we|it|has|have|had|is|been|all|the piece)\s+)*"
    r"(?P<verb>put|sewn|[a-z]{3,12}(?:ing|ed))(?P<rest>(?: [a-z' -]*)?)",
    re.I,
)
_IN_PLACE = re.compile(
    _ONLY + r"(?:after|once|when|as soon as|with) (?:the |your |both |its |his |her |safety |all )*"
    r"(?P<thing>eyes|stuffing|filling)(?: (?:and|&) (?:the |your )?(?:eyes|stuffing|filling|nose))?"
    r"(?: (?:is|are|have been))?(?: all)?"
    r"(?: (?:in|inside|on|attached|inserted|placed|put in|fixed|in place))?",
    re.I,
)
# "once the nose is embroidered"
_IS_DONE = re.compile(
    _ONLY + r"(?:after|once|when|as soon as) (?P<thing>(?:the |your |both |its |his |her )*[a-z]+(?: [a-z]+)?) "
    r"(?:is|are|has been|have been) (?P<verb>sewn|put|[a-z]{3,12}ed)(?P<rest>(?: (?:in|on|on to|onto|well|firmly))?)",
    re.I,
)
_FIRST = re.compile(
    r"\W*(?:but|only)\b,? (?P<told>[a-z' ]+?),? (?:first|beforehand|before that|before this|ahead)", re.I
)
_FIRST_LED = re.compile(
    r"\W*(?:but|only)\b,? (?:first|before that|before this|beforehand|remember to first)\b,? (?P<told>[a-z' ]+)", re.I
)
# "Don't forget: eyes before this round!"
_REMEMBERED = re.compile(
    r"(?:(?:don'?t|do not) forget|remember|mind|nb|note)[:,]?(?: to| the| about)* (?P<told>[a-z' ]+?),? "
    r"before (?:this|the) (?:round|rnd|row|one)",
    re.I,
)
_THINGS: dict[str, CueKind] = {"eyes": "eyes", "safety eyes": "eyes", "stuffing": "stuff", "filling": "stuff"}
_AHEAD: tuple[CueKind, ...] = ("stuff", "eyes", "embroider", "shape", "pin", "weave", "colour", "marker")
_LONGEST = 90  # letters of such a clause
BEGINS = frozenset(["after", "having", "once", "when", "as", "but", "only", "following", "right", "directly"])


def done_ahead(clause: str) -> CueKind | None:
    """The job of a clause that tells it as done before the round; None for any other."""
    if len(clause) > _LONGEST:
        return None
    told = clause.strip(" \t,.;:!-()[]")
    first = _FIRST.fullmatch(told) or _FIRST_LED.fullmatch(told)
    if first is not None:
        return _of(first["told"])
    kept = _REMEMBERED.fullmatch(told)
    if kept is not None:
        return _THINGS.get(kept["told"].lower()) or _of(kept["told"])
    there = _IN_PLACE.fullmatch(told)
    if there is not None:
        return "eyes" if there["thing"].lower() == "eyes" else "stuff"
    lain = _IS_DONE.fullmatch(told)
    done = lain or _DONE.fullmatch(told)
    if done is None:
        return None
    what = f" {lain['thing']}{lain['rest']}" if lain is not None else done["rest"] or " it"
    return next((kind for base in _bases(done["verb"].lower()) if (kind := _of(base + what)) is not None), None)


def _bases(verb: str) -> list[str]:
    """What a form of a verb may come of: "stuffed", "placing" and "pinned" end in "ed", "e" and a letter twice."""
    if verb in ("put", "sewn"):
        return [verb[:3]]
    stem = verb.removesuffix("ing") if verb.endswith("ing") else verb.removesuffix("ed")
    return [stem, stem + "e", stem[:-1]]


def _of(told: str) -> CueKind | None:
    kind = classify(told.strip())
    return kind if kind in _AHEAD else None
