"""A line below a round without a count that is the next round by its form, whatever the two come to."""

from __future__ import annotations

import re

from hookside.notation.lines.unlabelled import alone

_HOOKED_UP = r"(?:[,.;]? ?(?:and |then )?(?:join|turn|sl ?st|ss|slip|do not|don't)\b[^.;\n]{0,40})?"
# "sc around", "sc in each st, join"
_ALL_THE_WAY = re.compile(
    r"\b(?:(?:all )?a?round|across|all the way|(?:in|into) (?:each|every|all)(?: (?:sts?|stitch(?:es)?|sc|one))?)"
    rf"{_HOOKED_UP}\W{{0,3}}$",
    re.I,
)
_OFTEN = re.compile(rf"(?:[x*] ?\d{{1,3}}|\b\d{{1,3}} ?(?:x|times)|\btwice){_HOOKED_UP}\W{{0,3}}$", re.I)
_BEGINS = re.compile(
    r"(?:ch(?:ain)? ?\d\W{1,3})?(?:turn\W{1,3})?(?:(?:now|then|work) )?"
    r"(?:[(\[*]|\d{1,3} |sc(?:2tog)?\b|[hd]?dc\b|h?tr\b|inc|dec)",
    re.I,
)
_END = 90  # characters of a round that tell how it ends


def another_round(above: str, line: str) -> bool:
    """ "6 sc in MR" or "rep from * around, join" and then "ch 1, sc in each st": the first is a ring, or goes all
    the way and leaves nothing, and the second is a round by its form."""
    if len(line) > _END or not _BEGINS.match(line):
        return False
    if not (_ALL_THE_WAY.search(above[-_END:]) or alone.ring(above)):
        return False
    bare = alone.without_count(line)
    return _ALL_THE_WAY.search(bare) is not None or _OFTEN.search(bare) is not None
