"""Parts whose color, or how many they are, stands between their name and work of one line: "Paws, pink, make 4: same as
body", "Head in black - as the body", "Tail: in pink, 4 rounds of 6 sc", "Arms: work 2 alike. MR 5 (5), fasten off".
The name, its color and its copies become a heading of their own, "Paws (pink) (make 4)", and the work the line below:
no word moves, only what parts them changes.
"""

from __future__ import annotations

import re
from itertools import islice

from hookside.notation.askings.colournames import is_colour
from hookside.notation.labels import references
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.heads.headings import some_shade
from hookside.notation.lines.heads.parts import is_part
from hookside.notation.page.edits import Edit, put
from hookside.notation.vocabulary import SEVERAL_WORDS

_N = rf"(?:\d{{1,2}}|{SEVERAL_WORDS})"
_LIKE = (
    r"(?:(?:make|work|worked|made|crochet|do|exactly|just|is|are)[ ])*(?:the[ ])?(?:exact[ ])?"
    r"(?:same|as|like|identical)\b"
)
_RING = r"(?:\d{1,2}[ ](?:sc|dc)[ ](?:in|into)[ ](?:an?[ ])?)?(?:mr|magic[ ](?:ring|circle|loop))\b"
_WORK = rf"\d{{1,2}}[ ](?:rounds|rnds|rows)[ ]of[ ]\d|ch(?:ain)?[ ]?(?:\d\d|[2-9])\b|{_RING}"
_LINE = re.compile(
    r"^(?P<lead>[^\w\n]{0,4})(?P<name>[A-Za-z][A-Za-z' ]{1,24}?)"
    r"(?P<told>(?:[ ]?[,:(\[]|[ ]-+[ ]|[ ](?=(?:in|with|using|x[ ]?\d|make)\b))[^\n]{2,50}?)"
    rf"(?:[ ]?[:.,;][ ]|[ ]-+[ ]|(?<=[)\]])[ ])(?P<work>(?:(?P<like>{_LIKE})|{_WORK})[^\n]*)$",
    re.I | re.M,
)
# ... and no rounds behind it that only shape, of which nobody says where they begin: they would go into the ring
_RUNG = re.compile(rf"{_RING}(?:[ ]\d{{1,2}})?(?:[ ]?\(\d{{1,2}}\)|(?![^\n]*\b(?:inc|dec)))", re.I)
_SEAM = re.compile(r"(?:[\s,:;()\[\].]|(?<=\s)-+(?=\s)|\b(?:in|with|using)\b)+", re.I)
_WORD = re.compile(
    r"[^\s,:;()\[\].]+(?:[ ][^\s,:;()\[\].]+)*?(?=[ ]?[,:;()\[\].]|[ ]-+[ ]|[ ](?:in|with|using)\b|[ ]?$)", re.I
)
_COPIES = re.compile(
    rf"x[ ]?\d{{1,2}}|(?:make|crochet|work)[ ](?:x[ ]?)?{_N}(?:[ ](?:alike|of[ ](?:them|these)))?|\d{{1,2}}[ ]?x|"
    rf"(?:{SEVERAL_WORDS})(?:[ ](?:pieces|alike|of[ ](?:them|these)))?|\d{{1,2}}[ ](?:pieces|pcs)", re.I
)
_BEGUN = re.compile(rf"^[^\w\n]{{0,6}}{COURSE}\.?[ ]?(?:1|one)\b|\b(?:ring|mr|circle)\b|\bch[ ]?\d", re.I | re.M)
_MOST = 60


def told(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such names on lines of their own, and the way back."""
    begun = _BEGUN.search(text)  # above it a color is one of a list
    found = islice(_LINE.finditer(text, begun.start()), _MOST) if begun is not None else ()
    edits = [edit for match in found for edit in _parted(text, match)]
    return put(text, offsets, edits) if edits else (text, offsets)


def _parted(text: str, match: re.Match[str]) -> list[Edit]:
    if not is_part(match["name"].lower().split()[-1]) or not _is_work(match):
        return []
    spots: list[tuple[int, int]] = []
    at, end = match.span("told")
    while at < end:
        seam = _SEAM.match(text, at, end)
        word = _WORD.match(text, seam.end() if seam is not None else at, end)
        if word is None:
            break
        spots.append(word.span())
        at = word.end()
    words = [text[a:b] for a, b in spots]
    shades = [w for w in words if is_colour(w) or some_shade(w)]
    if len(shades) > 1 or not (shades or _RUNG.match(match["work"])):
        return []
    if any(w not in shades and _COPIES.fullmatch(w) is None for w in words):
        return []
    edits: list[Edit] = []
    before = match.end("name")
    for start, stop in spots:
        edits.append((before, start, ") (" if edits else " ("))
        before = stop
    return [*edits, (before, match.start("work"), ")\n")]


def _is_work(match: re.Match[str]) -> bool:
    """Stitches behind "Tail: pink, ", which nothing else reads; or what another part has, by its name."""
    if match["like"] is None:
        return match["told"].lstrip().startswith((":", "-")) or _RUNG.match(match["work"]) is not None
    other = references.LIKE_PIECE.match(match["work"])
    if other is None:
        return references.same_again(match["work"]) is not None
    return any(is_part(word) for word in re.findall(r"[a-z]+", other["name"].lower())[:3])
