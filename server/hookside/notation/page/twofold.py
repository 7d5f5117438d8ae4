"""A text for which "2dc" is two in the same stitch, as it says outright: each of them is printed so from then on."""

from __future__ import annotations

import re

_STITCH = r"(?:sc|[hd]?dc|h?tr)"
TOLD = re.compile(
    rf"^[^\w\n]{{0,6}}(?:(?:an? |where it says )?[\"'])?(?P<name>2 ?(?P<stitch>{_STITCH}))[\"']?"
    rf"\s*(?:=|:|-+|means?|stands for|is)\s*(?:work |make |always )*(?:2|two) (?P=stitch)s? (?:worked )?"
    r"(?:in|into) (?:the )?(?:same|one|1|a single)\b",
    re.I | re.M,
)
_TIMES = re.compile(r" ?(?:x ?\d|\d{1,2} ?(?:x|times)\b|[a-z]{3,6} times\b|twice\b)", re.I)
_MAY = re.compile(r"\b(?:same|one|1|single) (?:st|place|loop)")


def twofold(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The text with "2dc" as "2dc in next st", wherever it does not say itself what it goes into, and the way back."""
    told = TOLD.search(text) if _MAY.search(text) else None
    if told is None:
        return text, offsets
    rule = re.compile(rf"(?<![\w\"'])2{told['stitch']}(?![\w\"'])(?! (?:in|into|on)\b)", re.I)
    way = list(range(len(text))) if offsets is None else offsets
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for match in rule.finditer(text):
        start, end = match.span()
        if told.start() <= start < told.end():
            continue
        words = f"{match[0]} in next st"
        words = f"({words})" if _TIMES.match(text, end) else words
        parts.append(text[at:start] + words)
        back.extend(way[at:start])
        back.extend(way[min(start + i, end - 1)] for i in range(len(words)))
        at = end
    parts.append(text[at:])
    back.extend(way[at:])
    return "".join(parts), back
