"""Rounds numbered with a number sign alone: "#05 6*(1sc + inc)", "#03..#04 sc all", "No. 5 inc x 6" -> "05: 6*...".

Lines that count up from one so become numbers with a colon, and what names one of them ("eyes at #08") gets a letter;
the length stays.
"""

from __future__ import annotations

import re

_TO = r"(?:\.\.\.?|-{1,2}>?|to|thru|through|until|and|&|\+|,)"
_DASH = r"[ ]-{1,2}[ ]\d{1,3}(?![ ]?[:.)=-])"  # "no. 1 - 6 sc in ring": no six rounds
_SIGN = r"#|(?i:no|nr)\.?"
FIRST = re.compile(r"\n[ ]{0,6}(?:#|[Nn][oOr]\.?)[ ]?0?1(?!\d)")  # without it nothing is looked for
_LABEL = re.compile(
    rf"^[ ]{{0,6}}(?P<sign>{_SIGN})[ ]?(?P<n>\d{{1,3}})(?:(?!{_DASH})[ ]?(?P<to>{_TO})[ ]?(?:{_SIGN})?[ ]?"
    r"(?P<last>\d{1,3})(?P<often>[ ]?\((?:x ?\d{1,2}|\d{1,2} (?i:rounds|rnds|rows))\))?)?(?!\d)(?:[ ]?[:.)=-])?"
    r"(?=[ ])(?P<body>[^\n]*)$",
    re.M,
)
# ... and where a line of words names one of them: "eyes at #08", "as #5-#7", "between #6 and #7"
_NAMED = re.compile(
    r"(?P<lead>\b(?:at|of|from|after|before|in|on|like|as|to|and|through|until|with|between|repeat|rep)[ ]|"
    r"(?<=\d)[ ]?(?:\.\.\.?|-{1,2}>?|[&+,])[ ]?)#(?=[ ]?\d{1,3}(?!\d))",
    re.I,
)
_WORK = re.compile(
    r"(?i:\b(?:increase|decrease|single|double|half|treble|"
    r"sc|[hd]?dc|h?tr|inc|dec|sl ?st|ch|ring|mr|magic|sts?|stitch(?:es)?|around)\b)|\dsc|\ddc"
)
_FEWEST = 3  # lines before the sign is taken for a label


def labelled(text: str) -> str:
    """The page with such signs written as the labels that they are."""
    lines = list(_LABEL.finditer(text))
    if len(lines) < _FEWEST or 2 * sum(_WORK.search(m["body"]) is not None for m in lines) < len(lines):
        return text
    before, steps, begun = 0, 0, 0
    for match in lines:
        n = int(match["n"])
        begun += n == 1
        steps += n == before + 1
        before = int(match["last"] or n)
    if not begun or 3 * steps < 2 * len(lines):
        return text
    return _NAMED.sub(lambda m: m["lead"] + "R".ljust(m.end() - m.end("lead")), _LABEL.sub(_signed, text))


def _signed(match: re.Match[str]) -> str:
    lead = match[0][: match.start("sign") - match.start()]
    width = match.start("body") - match.start() - len(lead)
    to = "&" if match["to"] in ("and", "&", "+", ",") else "-"
    numbers = f"{match['n']}{to}{match['last']}" if match["last"] else match["n"]
    return lead + f"{numbers}{match['often'] or ''}:".ljust(width) + match["body"]
