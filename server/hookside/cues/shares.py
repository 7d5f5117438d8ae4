"""Copies of one piece each of its own color or sort: "One brown, one white", "Work 2 like this, then a third in grey",
"2 outer, 2 inner"."""

from __future__ import annotations

import re

from hookside.colours import COLOURS
from hookside.notation.lines.copies import sorts
from hookside.pattern import Cue, Piece

_NUMBERS = {"the other": 1, "another": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_SOME = re.compile(
    rf"\b(?P<n>{'|'.join(_NUMBERS)}|\d)x? (?:more |of (?:these|them|those) )?(?:in |of |with )?(?:the )?(?:yarn )?"
    r"(?P<shade>[a-z]+(?: [a-z]+){0,2}?)(?: yarn)?(?=\s*(?:[,;/&+.]|\b(?:and|for)\b|$))",
    re.IGNORECASE,
)
# "2, then 2 more in blue": of the first ones no color is told
_MORE = re.compile(
    rf"\b(?P<n>{'|'.join(_NUMBERS)}|\d),? (?:and |then )+(?P<more>{'|'.join(_NUMBERS)}|\d)(?: more)?(?: one)? "
    r"(?:in|with) (?:the )?(?P<shade>[a-z]+(?: [a-z]+)?)\W*$",
    re.IGNORECASE,
)
# "the third in white", "the last one in dark red"
_NTH = re.compile(
    r"\b(?P<nth>second|third|fourth|fifth|2nd|3rd|4th|last|final|other)(?: (?!in\b|with\b)[a-z]+)?"
    r"(?: (?:is|worked|made|being))* (?:in|with) (?:the )?(?P<shade>[a-z]+(?: [a-z]+)?)\W*$",
    re.IGNORECASE,
)
_PLACES = {"second": 2, "third": 3, "fourth": 4, "fifth": 5, "2nd": 2, "3rd": 3, "4th": 4}
_FIRST = re.compile(
    r"\b(?:first|1st|one)(?: (?!in\b|with\b|is\b)[a-z]+){0,2}(?: is)?(?: (?:in|with))? (?:the )?"
    r"(?P<shade>[a-z]+(?: [a-z]+)?)",
    re.IGNORECASE,
)
_LISTED = re.compile(r"(?:^|: ?)(?P<list>[a-z ]+(?:(?:, ?| ?/ ?| and )[a-z ]+)+)\W*$", re.IGNORECASE)
_ASKED_LATE = re.compile(r"\W*(?:make|work|crochet|do|(?:the )?first|one)\b", re.IGNORECASE)
_FOR_PLACE = re.compile(r" for (?:the )?[a-z]+(?=\s*(?:,|\band\b|$|\W*$))", re.IGNORECASE)  # "two in fern for the back"
_LAST = re.compile(
    r"\b(?:like this|alike)\b.*\b(?:second|third|fourth|more|other|another)(?: one)? (?:in|with|of) "
    r"(?P<shade>[a-z]+(?: [a-z]+){0,2})\W*$",
    re.IGNORECASE,
)


def in_its_shade(piece: Piece, own: int) -> Piece:
    """The piece as its copy `own` is begun, where one line tells of all copies what each is; else the piece itself."""
    kept: list[Cue] = []
    for cue in piece.cues:
        shades = _shades(cue.text, piece.make) if cue.kind == "colour" and cue.after == "0" else []
        each = _sorts(cue.text, piece.make) if cue.kind in ("colour", "other") and cue.after == "0" else []
        if cue.kind == "other" and each:
            kept.append(cue.model_copy(update={"text": f"This one: {each[own - 1]}"}))
        elif not (shades := each or shades):
            kept.append(cue)
        elif shade := shades[own - 1]:
            kept.append(cue.model_copy(update={"text": shade[:1].upper() + shade[1:]}))
    kept = _told_late(piece, own, kept)
    return piece if kept == piece.cues else piece.model_copy(update={"cues": kept})


def _told_late(piece: Piece, own: int, cues: list[Cue]) -> list[Cue]:
    """ "Work the second one in grey." behind the last course: told in front of the first one of that copy, since at its
    end it is too late."""
    first, last = piece.courses[0], piece.courses[-1]
    kept: list[Cue] = []
    begun: list[Cue] = []
    for cue in cues:
        late = cue.course_id == last.id and cue.basis == "written" and cue.kind in ("colour", "other")
        shades = _shades(cue.text, piece.make) if late and _ASKED_LATE.match(cue.text) else []
        if shades and (shade := shades[own - 1]):
            told = {"kind": "colour", "weight": "pause", "after": "0", "course_id": None, "text": shade.capitalize()}
            begun.append(cue.model_copy(update={**told, "address": f"{first.id.rpartition('.')[0]}.0/own-colour.0"}))
        elif not shades:
            kept.append(cue)
    return [*begun, *kept]


def _sorts(text: str, make: int) -> list[str]:
    """The sort of each copy; [] where the line does not tell as many as there are."""
    told = sorts.told(_FOR_PLACE.sub("", text))
    each = sorts.of_copies(told) if told is not None else []
    return each if len(each) == make else []


def _shades(text: str, make: int) -> list[str]:
    """The colour of each copy, "" where none is told; [] where the line does not tell them one by one."""
    last = _LAST.search(text)
    if last is not None and _is_shade(last["shade"]):
        return ["" for _ in range(make - 1)] + [last["shade"]]
    more = _MORE.search(text)
    if more is not None and _is_shade(more["shade"]):
        first, n = (_NUMBERS.get(word) or int(word) for word in (more["n"].lower(), more["more"].lower()))
        return [""] * first + [more["shade"]] * n if first + n == make else []
    nth = _NTH.search(text)
    at = make if nth is None else _PLACES.get(nth["nth"].lower(), make)
    if nth is not None and _is_shade(nth["shade"]) and at <= make and not (nth["nth"].lower() == "other" and make > 2):
        before = _SOME.search(text, 0, nth.start()) or _FIRST.search(text, 0, nth.start())
        rest = before["shade"] if before is not None and _is_shade(before["shade"]) else ""
        return [nth["shade"] if one == at else rest for one in range(1, make + 1)]
    listed = _LISTED.search(text)
    one_by_one = re.split(r", ?| ?/ ?| and ", listed["list"]) if listed is not None else []
    if len(one_by_one) == make and all(_is_shade(shade.strip() or "-") for shade in one_by_one):
        return [shade.strip() for shade in one_by_one]
    found = [(m["n"].lower(), m["shade"]) for m in _SOME.finditer(text) if _is_shade(m["shade"])]
    shades = [shade for n, shade in found for _ in range(_NUMBERS.get(n) or int(n))]
    return shades if len(found) > 1 and len(shades) == make else []


def _is_shade(name: str) -> bool:
    return name.lower().split()[-1] in COLOURS or (len(name) == 1 and name.isupper())
