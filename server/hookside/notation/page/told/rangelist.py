"""A list below a range, each item a job by one of its rounds: "R3-7: 12 sc (12)" and below it "- R5: change to blue",
"* eyes after R6". They become sentences of the range, which knows what is told of one of its rounds.
"""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put

_RANGE = re.compile(
    rf"^[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?)?#?(?P<first>\d{{1,3}})[ ]?(?:-|to|thru|through)[ ]?(?:{COURSE}\.?[ ]?)?"
    r"(?P<last>\d{1,3})[ ]?[:.)=-][^\n]{3,}$",
    re.I | re.M,
)
_ITEM = re.compile(
    r"\n(?P<lead>[ ]{0,12}(?:[-*+>~o(\[][ ]{0,3}|[a-f]\)[ ]{1,3})?)"
    r"(?P<told>(?:(?:at|in|on|after|before|when|once|from|at the (?:end|start) of)[ ](?:the[ ])?)?"
    rf"{COURSE}\.?[ ]?#?(?P<n>\d{{1,3}})(?:[ ]is[ ](?:done|finished|over))?(?P<sign>[ ]?[:,-](?=[ ])|(?=[ ]))"
    r"(?P<words>[ ][^\n]{3,80}?)|"
    r"(?P<before>[a-z][^\n\d:]{2,60}[ ](?:at|in|on|after|before|from|(?:when|once)[ ])[ ]?(?:the[ ])?"
    rf"{COURSE}\.?[ ]?#?(?P<n2>\d{{1,3}})(?:[ ]is[ ](?:done|finished))?(?![\w-]|[ ]?(?:-|to|and|&)[ ]?\d)))"
    r"(?P<end>[ ]?[.;,!]?[)\]]?[ ]*)(?=\n|$)",
    re.I,
)
_STITCHES = re.compile(
    r"(?<![a-z])(?:\d{1,2} ?x|x ?\d|(?:\d{1,3} ?)?(?:sc|[hd]?dc|h?tr|dtr|inc|dec|ss|sl st|blo|flo|bobbles?|shells?|"
    r"increas\w*|decreas\w*|single|double|treble|half|each|around|chain|ch|sts?|stitch(?:es)?|skip|repeat|same|loops?)"
    r"(?:2tog|3tog)?(?![a-z]))|[*=/]",
    re.I,
)
_PLACED = re.compile(r"\b(?:its|the) (?:first|last) st(?:itch)?\b", re.I)
_DYED = re.compile(r"(?P<shade>[a-z]{3,12}(?: [a-z]{3,12})?) (?P<when>(?:at|in|on|after|before|from) .+)", re.I)


def joined(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such items behind the words of their range, and the way back."""
    edits: list[Edit] = []
    for label in _RANGE.finditer(text):
        end = label.end()
        first, last = int(label["first"]), int(label["last"])
        while first < last and (item := _ITEM.match(text, end)) is not None:
            if not first <= int(item["n"] or item["n2"]) <= last or _works(item) or not _listed(item):
                break
            edits += _sentence(text[label.start() : end].rstrip()[-1:], item)
            end = item.end()
    return put(text, offsets, edits) if edits else (text, offsets)


def _listed(item: re.Match[str]) -> bool:
    """Has it the sign of a list, or no look of a sentence: "after R4 change to blue"?"""
    return bool(item["lead"].strip() or item["sign"] or (item["n"] and item["told"][:1].islower()))


def _works(item: re.Match[str]) -> bool:
    words = item["words"] or item["before"]
    return _STITCHES.search(_PLACED.sub("", words)) is not None


def _sentence(above: str, item: re.Match[str]) -> list[Edit]:
    told = item["told"]
    edits = [(item.start(), item.start("told") + 1, (" " if above in ".!" else ". ") + told[:1].upper())]
    if item["sign"]:
        edits.append((*item.span("sign"), ""))
    elif item["before"] and (dyed := _DYED.fullmatch(told)) is not None and is_colour(dyed["shade"]):
        when = dyed["when"][:1].upper() + dyed["when"][1:]
        edits = [(item.start(), item.end("told"), f"{edits[0][2][:-1]}{when} {dyed['shade']}")]
    return [*edits, (item.start("end"), item.end("end"), ".")]
