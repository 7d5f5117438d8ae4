"""Numbers printed behind the work that no count holds: a second count, "(12) (13)", "12 sts. 13 sts.", and one by a
noun that nobody knows, "(17 beads)". Where the course comes to them all is well; what it does not come to is said.
"""

from __future__ import annotations

import re
from collections.abc import Collection

from hookside.notation.askings.colournames import is_colour
from hookside.notation.labels.countlist import several_counts

_BY_NOUN = re.compile(
    r"[(\[{=]\s*(?:=|total:?|about|approx\.?|ca\.?|now|so|you have)?\s*(?P<n>\d{1,4}) (?P<of>[a-z]{2,12})\b"
    r"(?: (?:on|in|of|at|all|total|left|now|around|here|the|hook|them|these|each|round|row)\b){0,4}\s*[)\]}]?[\s.!]*$",
    re.I,
)
_SO_OFTEN = re.compile(
    r"[(\[]\s*(?P<n>\d{1,4})\s*(?:sts?|stitches)?\s*[)\]]\s*,?\s*"
    r"(?:x ?\d{1,2}|\d{1,2} ?x|twice|thrice|(?:two|three|four|five|six|\d{1,2}) times)[\s.!]*$",
    re.I,
)
_NAMED = re.compile(r"\b(?:sc|[hd]?dc|h?tr|inc|dec)\b", re.I)
# Numbers of these count no stitches of a round
_OTHER = re.compile(
    r"(?:cm|mm|in|inch|inches|grams?|yards?|yds?|metres?|meters?|times?|rounds?|rnds?|rows?|photos?|pics?|pictures?|"
    r"pages?|pieces?|colou?rs?|min|mins|minutes?|hours?|days?|more|fewer|less|unworked|strands?|ways?|ply|eyes|inc|incs|"
    r"dec|decs|increases?|decreases?|repeats?|reps?|sides?|ends?|loose|extra|ch|chains?|chs|sps?|spaces?|groups?|"
    r"stripes?|corners?|clusters?|shells?|skipped|to|or|and|per|for|x)",
    re.I,
)


def unheld(body: str, known: set[int], worked: Collection[int], makes: int) -> tuple[int, int] | None:
    """Where a number that may be the count, and is none that the course comes to, stands in its body.

    `worked`: the amounts that its words tell.
    """
    often = _SO_OFTEN.search(body)
    if often is not None and int(often["n"]) not in known and _NAMED.search(body, 0, often.start()):
        return often.span("n")  # "6 sc in MR (6) x2": the round twice, or two of the part, and no twelve stitches more
    told = several_counts(body)
    if len(told) > 1 and sum(one.n for one in told) not in known:
        odd = [one for one in told if one.n not in known]
        return (odd[0].start, odd[0].end) if odd else None
    named = _BY_NOUN.search(body)
    if named is None or int(named["n"]) in (*known, *worked) or _OTHER.fullmatch(named["of"]) or is_colour(named["of"]):
        return None
    near = makes < 2 * int(named["n"]) and int(named["n"]) < 2 * makes  # "(6 petals)" of 36 counts something else
    return named.span("n") if near else None
