"""Labels in the middle of a line, told from mentions of a course ("repeat round 6", "after round 4")."""

from __future__ import annotations

import re

from hookside.notation.labels.label import Label, label_of, ordinal
from hookside.notation.labels.patterns import COUNT_LABEL, LABEL, ORDINAL_LABEL

FIRST_NUMBER = re.compile(r"(?:(?<=[.:!)\]])\s+|\s{2,})[(\[#]?(?P<n>1)(?P<stop>\s?[.):]\]?(?!\d)\s*|\s+-\s+)")
NUMBER_WITHIN = re.compile(
    r"(?:(?<=[)\].;!,])|(?<=\dst)|"
    r"(?<=sts))(?:\s*[/|*]{1,2})?\s+[(\[#]?(?P<numbers>\d{1,3}(?:\s*-\s*\d{1,3})?)(?P<stop>\s?[.):]\]?(?:\s*[-:])?|"
    r"\s+-)(?=\s+[a-z(\[*\d])",
    re.I,
)
_NOT_BEFORE = re.compile(
    r"(?:\b(?:repeat|rep|reps|of|to|until|till|after|from|through|thru|as|between|and|in|for|work|works|working|"
    r"like|around|on|at|into|with|per|the|previous|last|every|each|before|by|since|end|than|see|&|than|first|next|"
    r"same|both|within|onto|when|while|during|finish|finishing|completing|complete|starting|over|across|plus|or|do|"
    r"did|make|joining|above|below|once|begin|beginning|follow|following|if|next to|near|past|"
    r"rounds?|rnds?|rows?|reaching|,)|[(\[,&\-])\s*$",
    re.I,
)


# The end of a body, though the word may also lead to a mention: "... sc around R5:"
_WORKED_BEFORE = re.compile(r"\b(?:around|across|end|each|over|same|both|work|once|twice)\s*$", re.I)
_GOES_ON = re.compile(
    r"\s*(?:\d|[(\[{*]|sc\b|dc|hdc|htr|tr\b|inc|dec|inv|ch\b|ch\d|chain|in\b|work|blo|flo|back|front|rep|mr\b|"
    r"magic|sl\b|ss\b|with\b|using|make|join|change|single|double|half|treble|as\b|same|turn|bobble|sk\b|skip|miss|"
    r"starting)",
    re.I,
)


def within(text: str, at: int, end: int) -> list[Label]:
    """Labels in the middle of a line: no word before them leads to a mention, and a sign says that they start."""
    found: list[Label] = []
    matches = [(m, False) for m in LABEL.finditer(text, at, end)]
    if re.search(r"\d(?:st|nd|rd|th|\.)\s+(?:r|R)", text[at:end]):
        matches.extend((m, True) for m in ORDINAL_LABEL.finditer(text, at, end))
    if re.search(r"\d\s?(?:r|rnd|row|round)s?\s?:", text[at:end], re.I):
        matches.extend((m, False) for m in COUNT_LABEL.finditer(text, at, end) if ":" in m["stop"])
    matches.sort(key=lambda m: m[0].start())
    for match, is_ordinal in matches:
        if match.start() == at or (found and match.start() < found[-1].end):
            continue
        before = text[max(at, match.start() - 24) : match.start()]
        opened = before.rstrip()[-1:]
        if opened in "([" and (match["stop"] or "").strip()[:1] in (")", "]"):
            before = before.rstrip()[:-1]
        stop = match["stop"] or ""
        body = match.start("aside") - 1 if match["aside"] and not stop else match.end()
        if not stop and not _GOES_ON.match(text, body):
            continue
        listed = ":" in stop and before.rstrip()[-1:] in (",", "-") and match["kind"][-1:].lower() != "s"
        listed = listed or (":" in stop and bool(_WORKED_BEFORE.search(before)))
        if _NOT_BEFORE.search(before) and not before.rstrip().endswith(("),", "],")) and not listed:
            continue
        ended = before.rstrip()[-1:] in ".)]!;:*>}?_-/|" or re.search(
            r"\d\s*$|\bsts?\s*$|\bstitches\s*$|\s{3,}$|\),$|\],$", before.rstrip(" ") if before.rstrip() else before
        )
        goes_on = bool(_GOES_ON.match(text, body))
        if ":" in stop or (ended and (stop or goes_on)):
            label = ordinal(match) if is_ordinal else label_of(text, match)
            if label:
                found.append(label)
    return found
