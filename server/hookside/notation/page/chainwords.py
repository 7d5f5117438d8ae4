"""What a text calls its chains, told in its own list: "ml = stitch in the air = chain" makes "9 ml" nine chains."""

from __future__ import annotations

import re

_TOLD = re.compile(
    r"^[ \-*+]{0,4}(?P<name>[A-Za-z]{1,5})[ ]?(?:=|:|-[ ])[ ]*[^\n=:]{0,30}?(?:=[ ]*)?[(]?"
    r"(?:chain|air loop|loop in the air)(?:[ ]st(?:itch)?(?:es)?)?[)]?[ ]*[.,;]?[ ]*$",
    re.M | re.I,
)
_OURS = frozenset(["c", "ch", "chs", "chain", "mc", "cc", "st", "sts", "sp", "tch"])
_BEFORE = r"(?:(?<=\d)|(?<=\d[ ])|(?<=(?:nd|rd|th|st|he)[ ])|(?<=(?:last|each|next)[ ])|(?<=(?:first|every)[ ]))"


def chainwords(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The text with its own word for chains as "ch", wherever it stands at a number or a place, and the way back."""
    names = [m for m in _TOLD.finditer(text) if m["name"].lower() not in _OURS or m["name"] == "c"]
    if not names or len(names) > 1:
        return text, offsets
    name = re.escape(names[0]["name"])
    rule = re.compile(
        rf"(?<![A-Za-z])(?:{_BEFORE}{name}|{name}(?=[ ]?\d))(?![A-Za-z])(?![ ]?[=:])",
        re.I if len(name) > 1 else 0,
    )
    parts: list[str] = []
    way = list(range(len(text))) if offsets is None else offsets
    back: list[int] = []
    at = 0
    for match in rule.finditer(text):
        if names[0].start() <= match.start() < names[0].end():
            continue
        start, end = match.span()
        parts.append(text[at:start] + "ch".ljust(end - start))
        back.extend(way[at:end])
        if end - start == 1:
            back.append(way[start])
        at = end
    if not parts:
        return text, offsets
    parts.append(text[at:])
    back.extend(way[at:])
    whole = "".join(parts)
    return whole, back if len(whole) != len(text) or offsets is not None else None
