"""Labels with a comma behind them within a paragraph: "Round 2, two in every one, 12. Round 3, one and then two ...".

The comma becomes the colon that others print there, where that is the teller's way; the name in "For the head, green
again, Round 1," gets a line of its own. The length stays.
"""

from __future__ import annotations

import re

_LABEL = re.compile(
    r"(?P<label>(?<![^.!?,\n] )(?<!\n\n)\b(?:Rounds?|Rnds?|Rows?)[ ](?P<first>\d{1,3})"
    r"(?:(?:,[ ]\d{1,3}){0,8}[ ](?:to|through|thru|and|-)[ ](?P<last>\d{1,3}))?)"
    r"(?:,(?=[ ](?:[a-z]|\d{1,3}[ ](?!and|to|thr)[a-z]))|[ ](?=(?:just|only|simply|also)[ ]))(?![^.:\n]{1,40}:)"
)
_PART = re.compile(
    r"(?<=[.!?])[ ](?P<for>For the )(?P<name>[a-z]{3,12}(?: [a-z]{3,12})?)(?P<more>,[^.,:;\n]{2,40})?,[ ]"
    r"(?=(?:Round|Rnd|Row)[ ]1[,:])"
)
_FEWEST = 4  # labels so told, which go on from one another


def labelled(text: str) -> str:
    """The page with such labels as others print them."""
    found = list(_LABEL.finditer(text))
    if len(found) < _FEWEST:
        return text
    last = steps = 0
    for match in found:
        steps += int(match["first"]) in (1, last + 1)
        last = int(match["last"] or match["first"])
    if int(found[0]["first"]) > 2 or steps < len(found) - 1:
        return text
    text = _LABEL.sub(lambda m: f"{m['label']}:", text)
    return _PART.sub(_named, text)


def _named(match: re.Match[str]) -> str:
    told = f"{match['name'].capitalize()}{match['more'] or ''}"
    return f"\n{told.ljust(len(match[0]) - 2)}\n"
