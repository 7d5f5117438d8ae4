"""What was taken for talk, said by its lines: those that may hold a job or work show their own words."""

from __future__ import annotations

import re

from hookside.notation.findings.table import finding
from hookside.notation.page.cleaning import Page
from hookside.pattern import Finding

_MOST = 12  # findings with words of their own; what is beyond stands with the others
_MOST_LINES = 20  # numbers of lines in one sentence
_LONGEST = 300  # characters of a sentence that are looked at
# Names of what hands are needed for, however the sentence goes on: "By now I had stuffed him nice and full"
_MAY_HOLD = re.compile(
    r"(?<![a-z])(?:(?:re)?stuff(?:ed|ing)?|fill(?:ed|ing)?|eyes?|noses?|mouth|tails?|cut|snip|yarn|colou?r|sew|sewn|"
    r"close[ds]?|sewing|fasten\w*|rounds?|rnds?|rows?|stitch(?:es)?|sts?|sc|inc|dec|ch|chain|repeat|again|twice|both|"
    r"another|(?:back|change|changed|switch|switched|swap|swapped|on) to|one (?:for|of)|each|marker|weave|embroider\w*|"
    r"pin|fold\w*)"
    r"(?![a-z])",
    re.I,
)
_NAME_LETTERS = 40  # a line up to this long without a full stop may be the name of a part

Spans = list[tuple[int, int]]


def talk(page: Page, told: Spans) -> list[Finding]:
    """One finding for all that was taken for talk, so that nothing goes without a word; what may hold something to do
    stands by itself, since behind the words of another line nobody would look for it."""
    own = [span for span in told if _may_hold(page.text, *span)][:_MOST]
    by_itself = set(own)
    others = [span for span in told if span not in by_itself]
    return [_said(page, [span]) for span in own] + ([_said(page, others)] if others else [])


def _may_hold(text: str, start: int, end: int) -> bool:
    if _MAY_HOLD.search(text, start, min(end, start + _LONGEST)):
        return True
    alone = end - start <= _NAME_LETTERS and text[max(start - 1, 0)] == "\n" and text[end : end + 1] in ("\n", "")
    return alone and text[start:end].rstrip()[-1:].isalnum()


def _said(page: Page, told: Spans) -> Finding:
    lines = sorted({page.line(start) for start, _ in told})
    shown = ", ".join(str(n) for n in lines[:_MOST_LINES])
    if len(lines) > _MOST_LINES:
        shown += f" and {len(lines) - _MOST_LINES} more"
    elif len(lines) > 1:
        shown = " and ".join(shown.rsplit(", ", 1))
    start, end = told[0]
    words = page.quote(start, min(end, start + 120))
    noun = f"Line {shown} is" if len(lines) == 1 else f"Lines {shown} are"
    return finding(page, "talk", start, end, noun=noun, words=words)
