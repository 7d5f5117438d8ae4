"""A heading's color by the text's own names of its yarns: "TUMMY (in B)", "SHELL (moss green)", "Keel - driftwood".

A letter is one where the list of materials gives it to a yarn; a word is one where a line of that list that speaks of
yarn names it.
"""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.askings.colourtalk import yarn_words
from hookside.notation.askings.yarnstaken import yarns_taken
from hookside.notation.vocabulary import REMEMBERED

_LONGEST = 90  # characters of a heading
_LETTER = r"(?:(?:yarn|colou?r|col|shade) )?(?:[A-H]|MC|CC\d?)\b"  # main and contrasting color: so called by everybody
_IN = r"(?:worked |made |all |crocheted |starts |starting |begins |beginning |begun )*(?:in|with|using)"
_NAME = r"[A-Za-z]+(?:[ -][A-Za-z]+){0,2}"
# "(in B)", "(make 2, in C)", "(B)", "(moss green)": what a bracket ends with
_BRACKET = re.compile(
    rf"[(\[]\s*(?:[^()\[\]]{{0,30}}[,;:-]\s*|(?:make |x ?)?(?:\d|two|three|four)x? )?(?:{_IN} )?(?:the )?"
    rf"(?P<what>{_LETTER}|{_NAME})(?: yarn)?\s*[)\]]"
)
# "WINGS (make 2) in A", "Keel, in driftwood", "BEAK - C", "EARS in oat (make 2)"
_COPIES = r"(?:\s*[(\[,-]\s*(?:make|work|crochet|x)\s?\w{1,6}\s*[)\]]?|\s+x\s?\d{1,2})"
_BEHIND = re.compile(
    rf"[\s,;:)\]-]\s*(?:{_IN}\s+(?:the )?(?P<what>{_LETTER}|{_NAME})|[-:,]\s*(?P<bare>{_LETTER}))(?: yarn)?"
    rf"{_COPIES}?\s*[.:]?\s*$",
)
_COLOUR = "|".join(sorted(COLOURS, key=len, reverse=True))
_SHADES = "|".join(sorted(SHADES))
_GIVEN = re.compile(
    r"[(\[]\s*(?:yarn |colou?r |shade )?([A-H])\s*[)\]]|(?:^|[,;/]\s*)\W{0,3}([A-H])\s*[-:=.]+\s*[A-Za-z]|"
    rf"(?:^|[,;/:]\s*)([A-H])\s+(?:(?:{_SHADES})\s+)*(?:{_COLOUR})\b|"
    # "Color key: G - green, R - red", "(R) red": whichever letter, beside a color that we know
    rf"(?:^|[,;/:]\s*)\W{{0,3}}([A-Z])\s*[-:=)]+\s*(?:(?:{_SHADES})\s+)*(?:{_COLOUR})\b|"
    r"\b(?:[Yy]arn|[Cc]olou?r|[Ss]hade|[Cc]ol)\.?\s+([A-HJ-Z])\b|[a-z]\s*[-:=]\s*([A-H])\s*(?:$|[,;(])"
)
_YARN_LINE = re.compile(
    r"\b(?:yarns?|wool|cotton|acrylic|colou?rs?|shades?|balls?|skeins?|dk|aran|worsted|sport|chunky|bulky|fingering|"
    r"\d+ ?(?:g|gr|grams?|m|yds?|yards|oz))\b",
    re.I,
)
_NO_SHADE = re.compile(
    r"\b(?:make|optional|both|alike|same|left|right|stuffed|front|back|top|bottom|hook|mm|cm|and|or|one|two|three|four|"
    r"rounds?|rows?|flat|piece|pieces|pairs?)\b",
    re.I,
)


# "color A" of "color A = navy, color B = gold"
CALLS_A_YARN = re.compile(r"(?:yarn|colou?r|col|shade) [A-H]", re.I)
# "Gauge not important. Yarn: dove, ink.", "3.5 mm hook, fern and clay yarn": yarns of a note ahead of the parts
_AHEAD = re.compile(
    r"[Yy](?<=\b.)arns?(?: ?:|,? in) (?P<listed>[a-z]+(?: [a-z]+)?(?:(?:, (?:and )?| and )[a-z]+(?: [a-z]+)?){0,7})"
    r"(?=[.;\n])|,\s(?P<pair>[a-z]+(?:, [a-z]+)? and [a-z]+) yarns?\b"
)
_CHANGES_TO = re.compile(
    r"\b(?:[Cc]hange|[Ss]witch|[Jj]oin|[Bb]ack)(?: back)?(?: to| in)? (?:[Yy]arn |[Cc]olou?r )?B\b(?![-'])|"
    r"^(?:-> ?)?B:?$",
    re.M,
)
_FRONT = 1200  # characters of a text that are asked for them


@lru_cache(REMEMBERED)
def _told_ahead(front: str) -> tuple[str, ...]:
    return tuple(f"Yarn: {m['listed'] or m['pair']}" for m in _AHEAD.finditer(front))


@lru_cache(REMEMBERED)
def _changed_to(text: str) -> tuple[str, ...]:
    """Letters of yarns that a text without a list changes to: where that is to B, A is one as well."""
    return ("Yarn A", "Yarn B") if "B" in text and _CHANGES_TO.search(text) else ()


def yarns_ahead(text: str) -> tuple[str, ...]:
    """The yarns that a sentence of the first lines lists, and those that are taken up by their names, as lines of a
    list."""
    return (*_told_ahead(text[:_FRONT]), *_changed_to(text), *(f"Yarn {name}" for name in yarns_taken(text)))


@lru_cache(REMEMBERED)
def letters_of(materials: tuple[str, ...]) -> frozenset[str]:
    """The letters that a list of materials calls its yarns by: "Black (A)", "A: white", "Color B"."""
    return frozenset(next(g for g in m.groups() if g) for line in materials for m in _GIVEN.finditer(line[:200]))


def own_shade(text: str, materials: tuple[str, ...]) -> tuple[int, int] | None:
    """Where a heading names one of the text's own yarns."""
    if len(text) > _LONGEST:
        return None
    for match in [*_BRACKET.finditer(text), *_BEHIND.finditer(text)]:
        group = "what" if match["what"] else "bare"
        if is_yarn(match[group], materials, letter_only=group == "bare"):
            return match.span(group)
    return None


def is_yarn(what: str, materials: tuple[str, ...], letter_only: bool = False) -> bool:
    if re.fullmatch(_LETTER, what) or (len(what) == 1 and what.isupper()):
        return what.startswith(("MC", "CC")) or what[-1] in letters_of(materials)
    if letter_only or _NO_SHADE.search(what):
        return False
    low = what.lower()
    lines = [line.lower() for line in materials if _YARN_LINE.search(line)]
    named = re.compile(rf"\b{re.escape(low)}\b")
    if not any(named.search(line) for line in lines):
        return low.split()[-1] in COLOURS and len(low.split()) > 1
    words = yarn_words(lines)
    return all(word in words or word in COLOURS for word in re.findall(r"[a-z]+", low))
