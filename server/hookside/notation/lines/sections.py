"""The headings of sections: materials, abbreviations, notes, the pattern itself, the sewing up."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, cast

from hookside.notation.bodies.respelling import slip
from hookside.notation.lines.starttail import starting_tails
from hookside.notation.vocabulary import REMEMBERED

Section = Literal["materials", "gauge", "hook", "abbreviations", "notes", "pattern", "assembly", "yarn", "terms"]

_SECTIONS: list[tuple[Section, re.Pattern[str]]] = [
    (section, re.compile(pattern))
    for section, pattern in cast(
        list[tuple[Section, str]],
        [
            (
                "materials",
                r"(?:materials?|supplies|you(?:'ll| will)? need|what you(?:'ll| will)? need|tools|notions|"
                r"requirements|things you need|equipment|shopping list|you need|stuff (?:you(?:'ll)? need|i used)|"
                r"(?:(?:what|the things|for (?:this|the|one) [a-z]+,?|here) )?(?:i|we)(?:'ve| have)? (?:used|took)|"
                r"(?:what|things) (?:i|we) (?:had|have)(?: at hand)?|"
                r"(?:for (?:the )?work,? )?(?:it is necessary|we(?:'ll| will)? need|is needed))\b(?: (?:list|needed|"
                r"required|used|"
                r"and tools|& tools|and supplies))*",
            ),
            ("yarn", r"(?:yarns?|colou?rs?|colou?r key)(?: used| needed)?"),
            ("gauge", r"(?:gauge|tension)"),
            ("hook", r"(?:crochet )?hooks?(?: size)?"),
            ("terms", r"(?:terms?|terminology|language)(?: used)?"),
            (
                "abbreviations",
                r"(?:abbreviations?|(?:abbrev|abbr)\.?(?: used| list)?|"
                r"stitch(?:es)?(?: (?:used|guide|key|glossary|list|abbreviations|"
                r"explanations?))?|special stitch(?:es)?|key|glossary|definitions|stitches and abbreviations|"
                r"abbreviations? (?:used|list|key|and terms|& terms)|abbreviations \(.*\)|pattern abbreviations|"
                r"techniques?|special abbreviations?|(?:conventional |conditional )?"
                r"(?:signs|symbols|conventions|notations?|designations|shorthand|legend)(?: used)?|"
                r"short forms(?: used)?|(?:(?:my|the) )?words(?: used| i use)?|"
                r"points(?=: ?(?:sc|[hd]?dc|inc|dec|ch|mr)[,;]))",
            ),
            (
                "notes",
                r"(?:(?:special |important |helpful )?notes?|pattern notes?|"
                r"designer'?s? notes?|tips?|before you (?:begin|start)|introduction|intro|"
                r"about(?: (?!\d).{0,30})?|difficulty(?: level)?|skill(?: level)?|level|(?:finished )?(?:size|"
                r"measurements?|dimensions?)|copyright.{0,40}|general (?:notes?|info(?:rmation)?|instructions)|"
                r"construction|safety(?: note)?|important|read (?:this )?first|disclaimer|care(?: instructions)?|"
                r"time|please note|how it is made|good to know|how to (?:read|use|follow) (?:this|the|my) patterns?)",
            ),
            (
                "pattern",
                r"(?:(?:the )?pattern(?: instructions)?|(?:the )?instructions|directions|let's (?:begin|start|go)|"
                r"method|how to make(?: it)?|to make|written (?:instructions|pattern))",
            ),
            (
                "assembly",
                r"(?:assembly|assembl(?:e|ing)|finishing(?: touches| off| up| methods?| instructions)?|mounting|"
                r"making up|to make up|to finish|"
                r"putting (?:it|everything|them) (?:all )?together|put(?:ting)? together|sewing(?: up| together|"
                r" it together)?|sew(?:ing)? the (?:parts|pieces)|final (?:touches|assembly|steps)|"
                r"joining(?: the pieces| the parts)?|make[ -]?up|construction of parts|assembly (?:and|"
                r"&) finishing|finishing (?:and|&) assembly|to assemble|joining up|last touches|finish|final|sew|"
                r"completion|to complete|putting together|connect(?:ing|ion)?)",
            ),
        ],
    )
]


@lru_cache(REMEMBERED)
def section_of(text: str) -> tuple[Section, int] | None:
    """The section a line opens -> (which, where its own text starts)."""
    match = re.match(r"[\s#>*_=~\-.\d)]*\[?", text)
    at = match.end() if match else 0
    low = text[at:].lower()
    for section, rule in _SECTIONS:
        hit = rule.match(low)
        if not hit:
            continue
        rest = low[hit.end() :]
        if hit[0].startswith("before") and starting_tails(low, 0, len(low)):
            continue  # "Before you start: leave a 30 cm tail."
        tail = re.match(r"[\s*_#]*(?:\([^)]{0,40}\))?[\s*_]*(?P<end>\.?[:\-=\]]+|\.?\s*$)[\s*_=~\-]*", rest)
        if tail is None and (section in ("materials", "yarn", "hook", "gauge") or hit[0] in _OF_SHORT_FORMS):
            tail = re.match(r"(?P<end>\.)\s+(?=\S)", rest)  # "Yarn. Aran weight in black."
        if tail is None and _shouted(section, text[at:], hit[0]):
            tail = re.match(r"(?P<end>)\s+(?=\S)", rest)  # "MATERIALS  1 x 50 g ball of blue."
        if tail:
            if hit[0] == "sew" and not text[at : at + 3].isupper() and ":" not in tail["end"]:
                continue  # "Sew." below a part is what is done to it
            if section in ("assembly", "pattern") and tail["end"].startswith("-") and rest[tail.end() :].strip():
                continue
            return section, at + hit.end() + tail.end()
    word = low.strip(" #*_:=-~.")
    if 6 <= len(word) <= 14 and word.isalpha():
        for right, section in _SLIPPED.items():
            if word != right and slip(word, right):
                return section, len(text)
    return None


_OF_SHORT_FORMS = ("abbreviations", "abbreviation", "abbrev", "abbr")
# Of sections whose names may begin a title ("STITCH A GULL", "COLOUR Burst"), those that do not
_LISTED = re.compile(r"notes?|yarns?|colou?rs|stitches|abbrev.*")


def _shouted(section: Section, text: str, head: str) -> bool:
    """Whether a heading in capitals, and nothing else, parts a section from what stands behind it in its line."""
    if section not in ("materials", "gauge", "hook") and not _LISTED.fullmatch(head):
        return False
    return len(head) >= 4 and text[: len(head)].isupper() and not text.isupper()


# Headings of sections that are typed in haste: "Finshing", "Materails"
_SLIPPED: dict[str, Section] = {
    "finishing": "assembly",
    "assembly": "assembly",
    "assembling": "assembly",
    "materials": "materials",
    "abbreviations": "abbreviations",
    "instructions": "pattern",
}


# Behind the last piece, short lines of such words alone open the sewing up: "Putting the seal together", "The face"
_SEWING_UP = re.compile(
    r"""\W*(?:(?:step|part)\s\w{1,5}\W+|\d{1,2}[.)]\s+|now\s+|and\s+)?
    (?:how\ to\s+|let's\ |to\s+|the\s+|toy\s+|final\s+|last\s+)*(?:
      (?:assembl|finish|complet|bring|join|attach|sew|decorat|construct|mak|put|collect|embroider|stuff|fac|block|
      gather|clos)
        (?:y|e|t?ing|ion|ery|ed)?\b
        (?:[\ ,&/-]+(?:and|up|off|together|it|all|everything|the|of|parts?
        |pieces?|details?|features|toy|him|her|them|us|'em|our|your|his
        |instructions|steps?|touches|in|place|finishing|sewing|assembly|stuffing|blocking|closing|ends
        |[a-z]{2,10}(?=\ together\b)|
        (?<=\bthe\ )[a-z]{2,10}s?)\b){0,5}
      | details | (?:last|final)\ (?:steps?|bits?(?:\ and\ (?:bobs|pieces))?) | (?:everything|all)\ together(?:\ now)?
      | finally | at\ the\ end | steps | touches
    )\W*$""",
    re.I | re.X,
)
_SEWING_UP_INLINE = re.compile(
    r"\W*(?:assembl(?:y|ing)|mounting|put(?:ting)? together|finishing(?: up| off)?|making[ -]up|"
    r"to (?:finish|make up|assemble)|joining|"
    r"sewing(?: up)?|construction|finish)"
    r"(?:\.\s+|\s*(?:\.\s?){3}\s*|\s+-+\s+|\.?-+\s*(?=[A-Z])|\s+(?=[A-Z][a-z]))(?=\S)"
)


_SHOUTED = re.compile(r"[A-Z][A-Z ]+(?=(?:\s|\.?-+\s*|\s?(?:\.\s?){3}\s*)[A-Z][a-z])")


def sewing_up(text: str) -> bool:
    """Is this line, met behind courses, the heading of the sewing up?"""
    return len(text) <= 48 and text.strip()[-1:] not in (".", "!", ",") and bool(_SEWING_UP.match(text))


def sewing_up_inline(text: str) -> int | None:
    """ "Making up. Sew the fins on." -> where the first asking begins."""
    match = re.match(_SEWING_UP_INLINE.pattern, text, re.I) if text[:40].isupper() else None
    match = match or _SEWING_UP_INLINE.match(text[:1].lower() + text[1:])
    match = match or _SEWING_UP_INLINE.match(text[:12].lower() + text[12:])
    # "MAKING UP Sew the feet on.", "JOINING-Sew the feet on."
    shouted = _SHOUTED.match(text) if match is None else None
    match = match or (_SEWING_UP_INLINE.match(shouted[0].lower() + text[shouted.end() :]) if shouted else None)
    return match.end() if match else None
