"""Strokes between the columns of a table, "4 / 24 / (2 sc, inc) x 6", and before counts: "4: (2 sc, inc) x 6 /24".

Of one line nobody can tell what its strokes part (two sizes are written so as well), so several must bear it out.
"""

from __future__ import annotations

import re
from itertools import pairwise

from hookside.notation.page.edits import Edit, put

_KIND = r"(?:(?:rnds?|rounds?|rows?|rds?|r)\.?[ ]?)?"
_NUMBERED = rf"{_KIND}(?P<first>\d{{1,3}})(?:[ ]?(?:-|to|and|&|,)[ ]?{_KIND}(?P<last>\d{{1,3}}))?"
# "4th stage", "6th~11th stage": as a translation numbers its rounds
_NTH = (
    r"(?P<nth>\d{1,3})(?:st|nd|rd|th)(?:[ ]?(?:[~-]|to)[ ]?(?P<until>\d{1,3})(?:st|nd|rd|th))?[ ]"
    r"(?:stages?|steps?|tiers?|levels?|laps?|turns?|rounds?|rnds?|rows?|lines?)"
)
_EYES = r"eyes?|mesh(?:es)?|loops?|points?|pts?"  # ... and calls its stitches
_ROW = re.compile(
    rf"^[ ]{{0,8}}(?P<label>{_NUMBERED}|{_NTH})[ ]?(?P<one>/)[ ]?(?P<count>\d{{1,4}})"
    rf"(?:[ ]?(?:sts?|stitches|(?P<eye>{_EYES})))?[ ]?/"
    r"[ ]?(?P<how>[^\n/]{0,200})$",
    re.I | re.M,
)
# "+6, (2 sc, inc) x 6": how many more it gets, before the work that says so
_GAIN = re.compile(r"[+-] ?\d{1,3} ?[,;:] ?(?=[a-z\d(\[{*])", re.I)
_LOOPS = re.compile(
    r"(?:work )?(?:in |into |through )?(?:the )?"
    r"(?:(?:back|front)(?: loops?| lps?| strands?)(?: only)?|[bf]lo)[ .]*", re.I
)
_NOTHING = re.compile(r"[ -]*")
_HEAD = re.compile(
    r"^[ ]{0,8}(?:rounds?|rnds?|rows?|no\.?|number|stages?|steps?|tiers?|levels?) ?/ ?(?:number of )?"
    rf"(?:stitches|sts|count|total|{_EYES})(?: count)? ?/ ?[a-z ]{{2,24}}$",
    re.I | re.M,
)
# "5-8: 24 /24", "1: 6 in ring /6", "7-11 36X /36"
_COUNTED = re.compile(
    rf"^[^\w\n]{{0,6}}{_NUMBERED}(?:[ ]?[:.)][ ]?|[ ](?=[a-z\d(\[*]))"
    rf"(?P<body>[^\n/]{{1,200}}?)(?P<gap> ?)(?P<stroke>/ ?)(?P<n>\d{{1,4}})"
    r"(?P<noun>(?: ?(?:sts?|stitches))?)[ .]*"
    # "/ 12, stuff", "/ 6 FO", "/ 12 (insert eyes)"
    r"(?:[,;.]?[ ]?[(-]?[ ]?(?:and |then )?(?:stuff|fill|insert|add|place|(?:safety )?eyes|fasten|f/?o\b|finish|close|"
    r"cut|change|switch|join|marker|pm\b|sew|leave|turn|don'?t|do not)[^\n/]{0,80})?$",
    re.I | re.M,
)
_RINGED = re.compile(r"(?P<n>\d{1,2}) (?:[a-z]{2,4} )?in(?:to)? (?:an? )?(?:m[rc]|magic|ring|circle|loop)\b\D*", re.I)
_BARE = re.compile(r"(?:sc |dc )?(?P<n>\d{1,4})(?: ?(?:sc|dc|sts?|stitches|[xX]))?")
_FEWEST = 3


def strokes(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rows as courses and such counts in brackets, and the way back."""
    edits = [*_rows(text), *_counts(text)]
    return put(text, offsets, edits) if edits else (text, offsets)


def steps_on(found: list[re.Match[str]]) -> int:
    """How many of these labels go on from the one before them, or begin a part."""
    spans = [_span(m) for m in found]
    return sum(b[0] in (1, a[1] + 1) for a, b in pairwise(spans))


def _span(match: re.Match[str]) -> tuple[int, int]:
    told = match.groupdict()
    first, last = told["first"] or told["nth"], told["last"] or told.get("until")
    return int(first), int(last or first)


def _count_up(found: list[re.Match[str]]) -> bool:
    return len(found) >= _FEWEST and 4 * steps_on(found) >= 3 * (len(found) - 1)


def _rows(text: str) -> list[Edit]:
    rows = list(_ROW.finditer(text))
    if not _count_up(rows):
        return []
    edits: list[Edit] = [(m.start(), m.end(), " " * len(m[0])) for m in _HEAD.finditer(text)]
    for match in rows:
        start, end = match.span("how")
        first, last = _span(match)
        if match["nth"]:
            edits.append((*match.span("label"), f"Rnd {first}-{last}" if match["until"] else f"Rnd {first}"))
        gain = _GAIN.match(text, start, end)
        begins = gain.end() if gain is not None else start
        count, how = match["count"], text[begins:end].rstrip()
        if _NOTHING.fullmatch(how):
            edits.append((match.start("one"), end, f": {count} ({count})"))
            continue
        if match["eye"]:
            edits += [(m.start(), m.end(), "sts" if m["s"] else "st") for m in _eyes(match["eye"], text, begins, end)]
        plain = f", {count}" if _LOOPS.fullmatch(how) else ""
        edits.append((match.start("one"), begins, ": "))
        edits.append((begins + len(how), end, f"{plain} ({count})"))
    return edits


def _eyes(noun: str, text: str, start: int, end: int) -> list[re.Match[str]]:
    """Where the work of such a row says that noun: "2 sc in each eye", "2 eyes together"."""
    stem = noun.lower().removesuffix("es" if noun.lower().startswith("mesh") else "s")
    rule = re.compile(rf"\b(?:(?<=[\dehty] )){stem}(?P<s>e?s)?\b", re.I)
    return list(rule.finditer(text, start, end))


def _counts(text: str) -> list[Edit]:
    """Counts behind a stroke, unless a number alone is another one than its count: then they may be sizes."""
    lines = list(_COUNTED.finditer(text))
    if len(lines) < _FEWEST:
        return []
    told = ((m, m["body"].strip()) for m in lines)
    bare = [(m, b) for m, body in told if (b := _BARE.fullmatch(body) or _RINGED.fullmatch(body)) is not None]
    if not bare or any(m["n"] != b["n"] for m, b in bare):
        return []
    return [(m.start("stroke"), m.end("n"), f"{'' if m['gap'] else ' '}({m['n']})") for m in lines]
