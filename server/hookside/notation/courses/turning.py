"""What the notes of a text say of its turning chains: "ch 3 counts as a dc throughout"."""

from __future__ import annotations

import re

from hookside.notation.lines.layout import Layout, RawText
from hookside.notation.sought import Sought

_TURNING = Sought(
    ("count",),
    r"(?:\bch(?:ain)?s?[- ]?(?P<n>\d)\b|\b(?P<n0>\d) ch(?:ain)?s?\b|"
    r"\b(?P<any>(?:beginning|turning|starting|beg|first) (?:ch(?:ain)?s?)\b(?:[- ]?(?P<n2>\d))?))"
    r"[^.;:]{0,70}?\b(?P<not>(?:does|do|will|is|are|doesn't|don't|not|never|n't)\b[^.;:]{0,24}?)?"
    r"\bcount(?:s|ed)?\b(?! (?:every|the|your|each row|rows|how|them|it|again|carefully))",
    re.I,
)
# "Ch 2 at the start of a round = not a stitch", "the ch 1 is no stitch"
_NO_STITCH = Sought(
    ("no st", "not a", "never a"),
    r"\bch(?:ain)?s?[- ]?(?P<n>\d)\b[^.;:=]{0,50}?(?:=|\b(?:is|are)\b) ?(?:no|not an?|never an?) st(?:itch)?\b",
    re.I,
)
# "In every row the turning ch 3 is the first dc", "ch 3 stands for a stitch", "the ch 3 is included in my totals"
_A_STITCH = Sought(
    ("ch",),
    r"(?:\bch(?:ain)?s?[- ]?(?P<n>\d)\b|\b(?P<any>(?:beginning|turning|starting|beg) ch(?:ain)?s?\b(?![- ]?\d)))"
    r"[^.;:=]{0,40}?(?:=|\b(?:is|are|stands? (?:in )?(?:for|as)|replaces?|acts? as|serves? as|equals?|"
    r"takes? the place of)) ?(?:(?:always|also|already|your|the|a|one|1|as|my|our|each|every) ){0,4}"
    r"(?:(?:very )?first (?:sts?|stitch|[hd]?dc|h?tr|dtr)\b|(?:sts?|stitch|[hd]?dc|h?tr|dtr)\b(?! (?:in|into)\b)|"
    r"included in (?:the|my|our|your|all|every|each) (?:stitch )?(?:counts?|totals?|numbers?)\b)",
    re.I,
)


def turning_notes(layout: Layout, text: str) -> dict[int, bool]:
    """What the notes say of turning chains for the whole text: height -> does it count; 0 for any height."""
    found: dict[int, bool] = {}
    loose = [text[i.start : i.end] for p in layout.pieces for i in p.items if isinstance(i, RawText)]
    for note in [*layout.notes, *layout.abbreviations.values(), *loose]:
        for match in _TURNING.finditer(note):
            height = int(match["n"] or match["n0"] or match["n2"] or 0)
            found[height] = not (match["not"] and re.search(r"not|n't|never", match["not"], re.I))
        found.update({int(match["n"]): False for match in _NO_STITCH.finditer(note)})
        for match in _A_STITCH.finditer(note):
            found.setdefault(int(match["n"] or 0), True)
    return found
