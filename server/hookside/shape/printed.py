"""The size that a pattern says of itself: it tells of its maker's hand where no gauge is printed.

"About 12 cm tall" is worth more than any guess from a hook: it was measured on the very thing. What it is the size of
must be plain: a toy whose height is known, or the only piece there is. What leaves parts out or counts ears with it,
and a text of several sizes, tell nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import pi
from typing import Literal

from hookside.pattern import Pattern
from hookside.shape.lengths import LENGTH, MM, NUMBER, UNIT, number, tidied, unit
from hookside.shape.sewn import cm

Axis = Literal["high", "wide", "most"]
ALIKE = 0.08  # share within which two figures are one size, in centimetres and in inches

_SIZE = re.compile(
    r"\b(?:sizes?|heights?|measure(?:s|ments?)|dimensions?|stands?|tall|high|wide|width|across|diameter|circumference"
    r"|long|length)\b",
    re.IGNORECASE,
)
_BARE = re.compile(
    rf"\s*(?:about|approx\w*\.?|approximately|roughly|ca\.?)?\s*{NUMBER}[\s-]*(?:{UNIT}|(?:-|\u2013|to)\s*\d)",
    re.IGNORECASE,
)
# A sentence that leaves parts out or counts ears with it, or that tells several sizes.
_OTHER = re.compile(
    r"\b(?:without|excluding|including|inclusive|(?:not )?counting|not including|sit(?:s|ting)?|seated"
    r"|small part|with (?:the |its )?(?:ears?|legs?|hat|arms?|horns?|antlers?))\b"
    r"|\bsmall\b.*\b(?:medium|large)\b|\bmedium\b.*\blarge\b",
    re.IGNORECASE,
)
# A clause that tells of something else than the finished thing.
_ELSE = re.compile(
    r"\b(?:gauge|tension|swatch|rounds?|rnds?|rows?|stitch(?:es)?|sts?|scs?|dcs?|hdcs?|hooks?|tails?|eyes?|felt|yarn"
    r"|balls? of|skeins?|needles?|sticks?|wire|cords?|loops?|foam|styrofoam|openings?|holes?|ring|buttons?|beads?"
    r"|ribbon|to (?:the )?(?:top|tips?) of|smaller|larger|bigger|at least|more than|less than)\b",
    re.IGNORECASE,
)
_IF = re.compile(
    r"\b(?:when|if|using|made (?:with|in|of)|worked (?:with|in)|with (?:the|my|this)|in the)\b.*", re.IGNORECASE
)
_RANGE = re.compile(rf"({NUMBER})\s*(?:{UNIT})?\s*(?:-|\u2013|to)\s*({NUMBER})\s*({UNIT})", re.IGNORECASE)
_SENTENCES = re.compile(r"(?:(?<!\bapprox)(?<!\bca)\.|[;!?])(?:\s|$)|\s[|]\s", re.IGNORECASE)
_CLAUSES = re.compile(r",\s|\band\b|(?<=[a-z)])\s+(?:by|x|\u00d7)\s+(?=\d)")
_AND_A_HALF = re.compile(r"(?<=\d) and (?=\d/\d)")
_ALONG = (
    ("high", re.compile(r"\b(?:tall|high|heights?|stands?|head to (?:toe|foot|feet)|feet to head)\b", re.IGNORECASE)),
    ("around", re.compile(r"\b(?:around|circumference)\b", re.IGNORECASE)),
    ("wide", re.compile(r"\b(?:wide|width|across|diameter)\b", re.IGNORECASE)),
)  # fmt: skip
_SMALL = ("mm", "cm", "in")
_AXES: dict[str, Axis] = {"high": "high", "wide": "wide", "most": "most"}


@dataclass(frozen=True, slots=True)
class Printed:
    """`mm` along an axis; `most`: the text does not say along which, and the greatest is taken. `quote`: its words."""

    mm: float
    axis: Axis
    quote: str


def printed(pattern: Pattern) -> Printed | None:
    """The size the text says of the finished thing, its height before others; None where it says none or several."""
    several = len(pattern.pieces) > 1
    names = {word for piece in pattern.pieces for word in piece.name.lower().split() if several}
    told = [*pattern.notes, *(line for line in pattern.materials if _SIZE.search(line))]
    found = [size for line in told for size in _sizes(line, names)]
    for axis in ("high", "wide", "most"):
        along = [size for size in found if size.axis == axis]
        if along:
            first = along[0]
            return first if all(abs(size.mm / first.mm - 1) <= ALIKE for size in along) else None
    return None


def _sizes(line: str, parts: set[str]) -> Iterator[Printed]:
    """The sizes of a line; a clause that names one of `parts` tells only of that."""
    plain = _AND_A_HALF.sub(" ", tidied(line)).replace("*", "")
    for sentence in _SENTENCES.split(plain):
        named = _BARE.match(sentence) is not None  # what stands under a heading: "about 9 cm"
        if not (named or _SIZE.search(sentence)) or _OTHER.search(sentence):
            continue
        for clause in _CLAUSES.split(sentence):
            told = _IF.sub("", clause)
            named = named or _SIZE.search(told) is not None
            mm = _length(told) if named and not _ELSE.search(told) else None
            if mm is None or parts & {word.lower() for word in re.findall(r"[A-Za-z]+", told)}:
                continue
            along = next((axis for axis, sign in _ALONG if sign.search(told)), "most")
            quote = " ".join(told.split()).strip(" :-")[:80]
            yield Printed(mm / pi, "wide", quote) if along == "around" else Printed(mm, _AXES[along], quote)


def _length(part: str) -> float | None:
    """The first length of a clause, mm, the middle of a range; None for what is told in metres or yards: yarn."""
    try:
        between = _RANGE.search(part)
        if between:
            of = unit(between[3])
            low, high = number(between[1]), number(between[2])
            return (low + high) / 2 * MM[of] if of in _SMALL and low < high < 2 * low else None
        single = LENGTH.search(part)
        return number(single[1]) * MM[unit(single[2])] if single and unit(single[2]) in _SMALL else None
    except ValueError:
        return None


def beside(size: Printed, worked_out: float, spread: float, by: str) -> str:
    """What is said of the text's size where something surer than a guess is measured with."""
    told = at_odds(size, worked_out, spread, by)
    near = f"The pattern says “{size.quote}”; by {by} it comes to about {cm(worked_out)}, within the spread."
    return told[0] if told else near


def at_odds(size: Printed, worked_out: float, spread: float, by: str) -> list[str]:
    """A sentence where the text's size is not the one worked out; none where each lies in the spread of the other."""
    k = worked_out / size.mm
    if 1 - spread <= k <= 1 / (1 - spread):
        return []
    return [
        f"The pattern says “{size.quote}”, and by {by} that would be about {cm(worked_out)}: perhaps something else is "
        "measured there. Crochet ten stitches and measure them before you trust either."
    ]
