"""A piece told in one breath, without a label: "4 sc in a magic ring, then 2 sc in every stitch so that's 8, then one
round plain, then (1 sc, inc) x4 which is 12, plain again, ...". Each round, and each job between, gets a line.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import put
from hookside.notation.vocabulary import AMOUNT

_N = AMOUNT
_RING = re.compile(
    rf"(?P<seam>(?:[:.,;]|\bwith|\b(?:make|do|work|start))[ ]{{1,2}})"
    rf"(?P<ring>{_N} (?:sc|dc|single crochets?|stitches|sts) (?:in|into) (?:an? |the )?"
    rf"(?:magic |adjustable )?(?:ring|circle|loop)\b)",
    re.I,
)
_PLAIN = r"(?:(?:an?(?:other)?|one|1) )?(?:plain(?: (?:round|again)|(?=[,.;]))|round (?:plain|even|of sc))"
_WORK = rf"(?:[(\[]|{_N} (?:sc|dc|in|rounds|inc|dec)\b|(?:inc|dec|sc|dc)\b|{_PLAIN}|work {_N}|decrease|increase)"
_SEAM = re.compile(
    rf"(?P<then>[,.;]? (?:and )?then (?:(?:do|work|make) )?(?={_WORK})|[.;] now (?=work {_N}|{_N} rounds)|"
    rf"[,;] (?:and )?(?={_PLAIN}))|"
    r"(?<=[\w)]), (?=(?:put|stuff|add|leave|cut|fasten)\b)|"
    r"(?<=\d) and (?=(?:pull|close|fasten|cut|stuff|draw)\b)",
    re.I,
)
_LABELLED = re.compile(rf"\b(?:{COURSE})\.? ?#?\d", re.I)
_FEWEST = 4  # rounds that "then" leads
_SHORTEST = 120  # letters of such a paragraph


def parted(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such paragraphs in lines, and the way back."""
    edits = []
    for line in re.finditer(r"[^\n]+", text):
        if len(line[0]) < _SHORTEST or line[0].count("then ") < _FEWEST or _LABELLED.search(line[0]):
            continue
        ring = _RING.search(text, line.start(), line.end())
        if ring is None:
            continue
        seams = list(_SEAM.finditer(text, ring.end(), line.end()))
        if sum(seam["then"] is not None for seam in seams) >= _FEWEST:
            sign = ring["seam"].rstrip()
            edits.append((ring.start("seam"), ring.start("ring"), f"{sign}\n"))
            edits += [(*seam.span(), "\n") for seam in seams]
    return put(text, offsets, edits) if edits else (text, offsets)
