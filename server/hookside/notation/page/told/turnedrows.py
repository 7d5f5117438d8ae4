"""Rows told in one line with a turn behind each: "Flap: chain 6, 5 sc, turn, 4 sc, turn, 3 sc."

They get a line and a label each, where the line begins with its chain and every stretch between two turns is worked. A
turn to the other side of the chain, or one behind a longer chain ("ch 10, turn, sl st 9": a lock of hair), parts none.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put
from hookside.notation.page.told.strips import below_a_name
from hookside.notation.vocabulary import AMOUNT, number_of

_TURN = re.compile(r"\bturn\b", re.I)
_BEGINS = re.compile(
    r"[^\w\n]{0,6}(?:(?P<label>(?:row|r|rnd|round)[ ]?1[ ]?[:.)-][ ]?)|"
    rf"(?P<name>(?!{COURSE}\b)[^\W\d][^:.\n]{{0,40}}"
    r"(?P<seam>:|\.|[ ][-\u2013\u2014])[ ]))?"
    rf"(?P<chain>(?:(?:make|start with|begin with|work|with [a-z]{{3,12}},?|in [a-z]{{3,12}},?)[ ])?(?:an?[ ])?"
    rf"(?:chain|ch)(?:[ ]of)?[ ]?(?P<n>{AMOUNT})\b(?:[ ](?:chains|ch)\b)?)",
    re.I,
)
# Between two rows: the turn, and what leads the next one
_SEAM = re.compile(
    r"(?P<turn>\bturn(?:[ ](?:the[ ]|your[ ])?work)?)(?:[ ]?[.,;:]+[ ]|[ ]?-[ ]|[ ](?=and[ ]))"
    r"(?:(?:and|then|now)[ ])*(?:(?:work|make|do|crochet)[ ])?",
    re.I,
)
_CHAINED = re.compile(r"\W*(?:and[ ])?(?:turn\b|then\b|\W)*", re.I)
_WORK = re.compile(
    r"\b(?:\d{0,3}[ ]?(?:sc|[hd]?dc|h?tr|inc|dec|invdec|sl[ ]?sts?|(?:sc|dc|hdc)\d?tog)|single|double|"
    r"decrease|increase)\b",
    re.I,
)
_LONG_CHAIN = re.compile(r"\bch(?:ain)?[ ]?(?:[4-9]|\d\d)\W*\Z", re.I)
# A line that goes round its chain, or is no row: "3 sc in last ch, turn, on the other side of the chain"
_AROUND = re.compile(
    r"\b(?:other side|opposite|underside|both sides|join|around|rounds?|rnds?|rows?\b|repeat|rep|ring|counts? as|"
    r"turn (?:to|it|over|back|upside)|[2-9] (?:sc|[hd]?dc) in(?:to)? (?:the )?(?:last|end))\b|"
    r"[(\[*][^()\[\]*\n]*\bturn\b[^()\[\]*\n]*[)\]*]",
    re.I,
)
_NEXT_LABEL = re.compile(
    rf"\s*[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?#?[2-9]|[2-9][:.)]|(?:2nd|next|second)[ ]{COURSE}\b)", re.I
)
# "ch 8. 1. sc 7. 2. ch 1, turn, sc 7.", "ch 8. R1 sc 7. R2 turn, ...": its rows have labels, and a turn begins them
_NUMBERED = re.compile(
    rf"(?<![\w.])1[.:)][ ][^\n]*(?<![\w.])2[.:)][ ]|(?<![^\W_]){COURSE}\.?[ ]?#?[12]\b", re.I
)
_ENDS = re.compile(
    r"(?P<seam>[.,;][ ](?:and[ ])?)(?=(?:f\.?[ /]?o\b|fasten|finish|cut|leave (?:a|an|long|the)\b|sew|close|stuff|"
    r"break|bind|weave)[^\n]*$)",
    re.I | re.M,
)
_COUNT = re.compile(r"\W*\d{1,3}[ ]?(?:sc|[hd]?dc|h?tr|sts?|stitches)\W*", re.I)
_FEWEST = 3  # chains: one or two are for the turn
_LONGEST = 400  # letters of such a line
_MOST = 100


def parted(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rows in lines of their own, and the way back."""
    edits: list[Edit] = []
    done = -1
    for turn in _TURN.finditer(text):
        if turn.start() < done:
            continue
        start, done = text.rfind("\n", 0, turn.start()) + 1, text.find("\n", turn.end())
        done = len(text) if done < 0 else done
        if done - start <= _LONGEST:
            edits += _rows(text, start, done)
    return put(text, offsets, edits) if edits else (text, offsets)


def _rows(text: str, start: int, end: int) -> list[Edit]:
    """The labels of the rows of one line; none where it is told in any other way."""
    begins = _BEGINS.match(text, start, end)
    if begins is None or number_of(begins["n"]) < _FEWEST:
        return []
    if not (begins["label"] or begins["name"] or below_a_name(text, start)):
        return []
    if _AROUND.search(text, begins.start("chain"), end) or _NEXT_LABEL.match(text, end):
        return []
    if _NUMBERED.search(text, begins.end(), end):
        return []
    at = _CHAINED.match(text, begins.end(), end)
    seams = list(_SEAM.finditer(text, at.end() if at is not None else begins.end(), end))
    ends = _ENDS.search(text, seams[-1].end(), end) if seams else None
    stop = ends.start() if ends is not None else end
    bounds = [begins.end(), *(edge for seam in seams for edge in (seam.start(), seam.end())), stop]
    rows = [text[a:b] for a, b in zip(bounds[::2], bounds[1::2], strict=True)]
    if len(rows) == 2 and _COUNT.fullmatch(rows[1]) and text[seams[0].end("turn")] == ".":
        return []  # "ch 8, 7 sc, turn. 7 sc.": what the row comes to
    if not 1 < len(rows) <= _MOST or not all(map(_WORK.search, rows)) or any(map(_LONG_CHAIN.search, rows[:-1])):
        return []
    edits: list[Edit] = []
    if not begins["label"]:
        head = "\n" if begins["name"] else ""
        edits.append((begins.start("seam") if head else begins.start("chain"), begins.start("chain"), f"{head}Row 1: "))
    edits += [(seam.end("turn"), seam.end(), f"\nRow {n}: ") for n, seam in enumerate(seams, 2)]
    if ends is not None:
        edits.append((*ends.span("seam"), ".\n"))
    return edits
