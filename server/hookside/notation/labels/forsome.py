"""Words that go for some of the copies of a part, or for one size of it: "(first cone only)", "R3-7 for large"."""

from __future__ import annotations

import re

_LONGEST = 400  # characters of a body that are looked at
_NTH = r"(?:first|1st|second|2nd|third|3rd|fourth|4th|other|left|right|front|back)"
# What is first, left or in front of everything: "front loops only", "right side only"
_NO_PART = (
    r"(?:loops?|lps?|sts?|stitch\w*|chs?|chains?|rounds?|rnds?|rows?|r|sides?|half|halves|posts?|times?|layers?|sc|"
    r"[hd]?dc|h?tr|spaces?|sps?|colou?rs?|yarns?|edges?|corners?|inc\w*|dec\w*|bumps?|bars?)"
)
_PART = rf"(?!{_NO_PART}\b)[a-z]{{2,14}}"
_SIZE = (
    r"(?:(?:extra )?(?:small|large)|medium|big|smaller|larger|bigger|taller|shorter|tall|short|mini|baby|toddler|child|"
    r"adult|xs|xl|small and medium|medium and large|small and large)"
)
_CALLED = r"(?:sizes?|sized|versions?|ones?)"
_FOR_SOME = re.compile(
    rf"\b(?:(?:for|on|of|with) )?(?:the )?{_NTH} (?:{_PART} ){{1,2}}only\b|"
    rf"\bonly (?:for |on |with |of |work (?:this|it) (?:for|on) )?the {_NTH} {_PART}\b(?! (?:{_NO_PART})\b)|"
    r"\b(?:for|on) (?:just |only )?one (?:of (?:them|these|the [a-z]+) )?only\b|\bon (?:only|just) one\b|"
    rf"\b(?:for (?:the )?)?{_SIZE}(?: {_CALLED})? only\b|\bonly (?:for )?(?:the )?{_SIZE} {_CALLED}\b|"
    rf"\b(?:for|on) (?:the )?{_SIZE}(?: {_CALLED})?(?=\s*(?:[.,;:)\]\n]|$|work\b|make\b|do\b|sc\b|\d|R\d))|"
    rf"(?<=[(\[]){_SIZE}(?: {_CALLED})?\s?:|"
    rf"(?<=[(\[])\d{{1,3}}(?: sts?| sc)? (?:for|on) (?:the )?{_NTH}(?: one| {_PART})?(?=\s*[)\]])",
    re.I,
)
_HINTS = ("only", "size", "for ", "on ", ":")
_ENDS = re.compile(r"[.;()\[\]\n]")
# A second range in a bracket behind the first: "R3-5 (3-7):"
_OTHER_RANGE = re.compile(r"\s*(?:r[a-z]{0,4}\.? ?)?(?P<first>\d{1,3})\s?-\s?(?P<last>\d{1,3})\s*", re.I)
# "make 2, the second one without R4", "make 2; work R4 on one only"
_ONE = r"(?:the )?(?:first|second|third|1st|2nd|3rd|other|one|left|right|front|back)\b"
_DIFFERS = re.compile(
    rf"\b{_ONE}[^.;()\n]{{0,40}}?\b(?:without|longer|shorter|bigger|smaller|more|fewer|less|only|omit\w*|skip\w*|"
    rf"stops?|ends?|R\d+|rounds?|rnds?|rows?)\b[^.;()\n]{{0,40}}|"
    rf"\b(?:R ?\d+|(?:rounds?|rnds?|rows?) \d+)\b[^.;()\n]{{0,30}}\b(?:on|for|in) (?:only |just )?"
    rf"{_ONE}[^.;()\n]{{0,24}}",
    re.I,
)


_ROUND = r"\b(?:rounds?|rnds?|rows?|r)\.? ?#?"
_COPY = rf"(?:the |your )?{_NTH}"
_OF_ONE_COPY = re.compile(
    rf"\W{{0,3}}(?:(?:only )?(?:for|on|with|in) )?{_COPY} (?P<part>{_PART})\b(?: only\b)?\s?[:,-]?\s"
    rf"[^\n]{{0,60}}?{_ROUND}(?P<n>\d{{1,3}})\b|"
    rf"\W{{0,3}}(?:now |then )?(?:work|make|do|crochet) {_ROUND}(?P<n2>\d{{1,3}}) (?:of|on|for|in) "
    rf"{_COPY} (?P<part2>{_PART})\b",
    re.I,
)
_LONGEST_LINE = 140


def of_one_copy(line: str) -> tuple[str, int] | None:
    """ "Second ear: work R3 in cream.", "Work round 5 of the second ear in cream." -> the part, and the round that it
    speaks of; None for any other line."""
    told = _OF_ONE_COPY.match(line) if len(line) <= _LONGEST_LINE else None
    if told is None:
        return None
    return (told["part"] or told["part2"]).lower(), int(told["n"] or told["n2"])


def for_some(words: str) -> list[tuple[int, int]]:
    """Where words speak of some copies or of one size alone, each with the bracket or the sentence that it is in."""
    low = words[:_LONGEST].lower()
    if not any(hint in low for hint in _HINTS):
        return []
    found: list[tuple[int, int]] = []
    for match in _FOR_SOME.finditer(low):
        start = max((m.end() for m in _ENDS.finditer(low, 0, match.start())), default=0)
        closes = _ENDS.search(low, match.end())
        end = closes.start() if closes is not None else len(low)
        start += len(low[start:end]) - len(low[start:end].lstrip(" -,"))
        if not found or found[-1][1] <= start:
            found.append((start, end))
    return found


def other_range(aside: str, numbers: list[int]) -> bool:
    """ "R3-5 (3-7)": a bracket that tells other rounds than the label, for another size."""
    match = _OTHER_RANGE.fullmatch(aside) if len(numbers) > 1 else None
    if match is None:
        return False
    return int(match["first"]) <= numbers[-1] and [int(match["first"]), int(match["last"])] != [numbers[0], numbers[-1]]


def differs(heading: str) -> tuple[int, int] | None:
    """Where a heading tells that one of its copies has other rounds than the rest."""
    match = _DIFFERS.search(heading[:_LONGEST])
    return match.span() if match is not None else None
