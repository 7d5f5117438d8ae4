"""A first round that is named behind its work: "6 sc in a magic ring. That's Round 1.", "... ring (round 1)".

Its label goes in front, where labels stand, if the next label is the second.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put
from hookside.notation.sought import Sought

_FIRST = (
    rf"(?P<label>(?:(?:your|the|our|my) )?(?:{COURSE}\.? ?(?:#|no\. ?|number )?(?:1|one)(?![\w/-])|"
    rf"(?:first|1st) {COURSE}\b))"
)
_IS = r"(?:is|makes|completes|counts as|finishes|will be|was)"
_DONE = r"(?: (?:done|complete|finished|made|over))?"
_NAMED = Sought(
    rf"[ (\[](?i:{_FIRST})",
    rf"(?<=\S)(?:(?:[.;!,:]| ?[-–—])? (?:and |so |now )?(?:that['’]?s|(?:that|this|which|it) {_IS}) |"  # noqa: RUF001
    rf" ?[(\[](?:(?:that['’]?s|(?:this|that|which) {_IS}|=) )?|"  # noqa: RUF001
    rf" ?(?:[-–—=]|\.{{2,3}}) ){_FIRST}{_DONE}[)\]]?[.!,]?(?= |$)",  # noqa: RUF001
    re.I | re.M,
)
_LABEL = re.compile(rf"^[^\w\n]{{0,6}}(?:{COURSE}\.? ?#?)?(?P<n>\d{{1,3}}|two|one)\b", re.I | re.M)
_BEGINS = re.compile(r"\b(?:ring|circle|loop|ch|chains?)\b", re.I)
_WORKED = re.compile(
    r"\b(?:\d{1,3}|six|eight|[a-z]{3,6}) (?:sc|[hd]?dc|h?tr|s\.?c|d\.?c|sts?|stitches|singles?|doubles?|half)\b|"
    r"\b(?:sc|[hd]?dc|h?tr) (?:\d|in)",
    re.I,
)
_LABELLED = re.compile(rf"[^\w\n]{{0,6}}(?:{COURSE}\.? ?#?\d|\d{{1,3}} ?[.:)-])", re.I)
_NEAR = 300  # characters of a first round, and between it and the second
_SENTENCE = re.compile(r"(?:^|(?<=[.!?:]) )(?=[A-Z\d])")


def labelled(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds labelled in front, and the way back; the next label must be the second."""
    edits: list[Edit] = []
    for named in _NAMED.finditer(text):
        start = text.rfind("\n", 0, named.start()) + 1
        work = text[start : named.start()]
        following = _LABEL.search(text, named.end(), named.end() + _NEAR)
        if len(work) > _NEAR or following is None or following["n"].lower() not in ("2", "two"):
            continue
        if not _WORKED.search(work):
            continue
        edits.append((named.start(), named.end(), "."))
        if not _LABELLED.match(work):
            starts = [m.start() for m in _SENTENCE.finditer(work)]
            begin = start + next((at for at in starts if _BEGINS.search(work[at:].split(".")[0])), 0)
            edits.append((begin, begin, "Row 1: " if "row" in named["label"].lower() else "Round 1: "))
    return put(text, offsets, edits) if edits else (text, offsets)
