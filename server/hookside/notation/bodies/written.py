"""What a text writes out once and then calls by a name: "Corner = (2 dc, ch 2, 2 dc)", "corner in each ch-2 sp"."""

from __future__ import annotations

import re

from hookside.notation.vocabulary import number_of

_STITCH = r"(?:ch|sl st|ss|sc|hdc|dc|htr|tr|dtr)"
_ITEM = rf"(?:(?:\d{{1,2}}|one|two|three) ?)?{_STITCH}(?:[ -]?\d{{1,2}})?"
_TAIL = (
    r"(?:,? ?(?:all )?(?:worked |made )?(?:in|into) (?:the )?(?:(?:same|one|1|next|indicated|specified|designated|"
    r"given|each|a|corner|single|required)(?: single)? )?(?:(?:ch|chain)[ -]?\d ?)?(?:sts?|stitch|sps?|spaces?|ch|"
    r"chain|place|loop|corner)(?: (?:indicated|specified|required|given|or sp(?:ace)?))?)?"
)
_WRITTEN = re.compile(
    rf"(?:work |make )?[(\[]?(?P<list>{_ITEM}(?:(?:,| and|,? then|, and) {_ITEM}){{1,8}})[)\]]?(?P<tail>{_TAIL})",
    re.I,
)
# The name, a sign, and what it stands for
_TOLD = re.compile(
    r"(?:^|(?<=[.;:] )|(?<=\n))[ \t*-]*(?P<name>[A-Za-z][A-Za-z]{1,13}(?:-[A-Za-z]{1,7})?(?: (?:st|stitch))?) ?"
    r"(?P<sign>[=:]) ?"
    r"(?P<what>(?:work |make )?[(\[\d]?[^\n.;=]{6,110}?)(?=[.;]|\s*$)",
    re.M,
)
# Every list that is told so begins with such an item behind such a sign
_BEGINS = re.compile(
    rf"[=:](?:(?<=[A-Za-z].)|(?<=[A-Za-z] .)) *(?:work |make )?[(\[]?{_ITEM}(?:,| and|,? then)", re.I
)
_MOST = 20  # names of one text
# "T = ch 1 & turn", "CT = turn your work": the end of a row
_TURN = re.compile(
    r"(?:(?:and|then) )?(?:(?:ch|chain)[ ]?(?P<n>\d|one|two|three)\b[ ]?(?:[,&+]|and\b)*[ ]?(?:then )?)?"
    r"turn(?: (?:the|your|my|over)(?: work| piece)?| work)?",
    re.I,
)
_CHAIN_BEHIND = re.compile(r"turn(?:[, ]| and| with)* (?:ch|chain)[ ]?(?P<n>\d|one|two|three)", re.I)


def written_out(what: str) -> str | None:
    """The list behind a name as a body with its place, where it is more than so many of one stitch; else None."""
    what = what.strip(" .")
    what = f"{what})" if what.count("(") > what.count(")") else what
    match = _WRITTEN.fullmatch(what)
    if match is None:
        return None
    kinds = set(re.findall(_STITCH, match["list"].lower()))
    if len(kinds) < 2:
        return None
    return f"({match['list']}){match['tail'].replace(', ', ' ')}"


def turn_written_out(what: str) -> str | None:
    """The turn behind a name, with its chain where it has one: "ch 1, turn", "turn"; else None."""
    match = _TURN.fullmatch(what.strip(" .()")) or _CHAIN_BEHIND.fullmatch(what.strip(" .()"))
    if match is None:
        return None
    return f"ch {number_of(match['n'].lower())}, turn" if match["n"] else "turn"


def _used(name: str, text: str, start: int, end: int) -> bool:
    """Is the name worked anywhere but where it is told?"""
    use = re.compile(
        rf"(?:^|[(*,;:\d]|\band|\bwork|\bmake|\ba|\bthen) ?(?:1 |one |a )?{re.escape(name)}s?"
        r"(?= (?:in|into|x|around|across|to|\d)\b| ?[,;)*])",
        re.I | re.M,
    )
    return any(not start <= m.start() < end for m in use.finditer(text))


def told_in(text: str) -> dict[str, str]:
    """Names that a page gives to lists of stitches, each with its list, as far as they are worked somewhere."""
    found: dict[str, str] = {}
    if _BEGINS.search(text) is None:
        return found
    for match in _TOLD.finditer(text):
        body = written_out(match["what"])
        closed = match["sign"] == "=" or match["what"].lstrip()[:1] in "([" or (body is not None and body[-1:] != ")")
        if body is None or not closed or len(found) >= _MOST:
            continue
        if _used(match["name"], text, *match.span()):
            found[match["name"]] = body
    return found
