"""Ranges that say their word twice, or "from": "Circle 7 to Circle 9:", "Carr. 4 to Carr. 9:", "from 6° to 13° giro -".

The second word is left out, and so is "from": what is left is the range that others print, with blanks behind it.
One label for several rounds, "R4 x4:", gets the bracket that others set around their number.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

_TWICE = re.compile(
    r"^(?P<lead>[^\w\n]{0,6}(?P<word>[^\W\d_]{2,12}\.?)[ ]?\d{1,3}[ ]?(?:to|-|\u2013|until|till|through|and|&)[ ]?)"
    r"(?P<again>(?P=word)[ ]?)(?P<end>\d{1,3}[ ]?[:.)=\u2014-])",
    re.M | re.I,
)
_FROM = re.compile(
    r"^(?P<lead>[^\w\n]{0,6})(?P<from>from[ ])(?P<n>\d{1,3})(?P<sign>[\u00b0\u00ba.\u00aa]?)[ ](?P<to>to|a|al)[ ]"
    r"(?P<last>\d{1,3})(?P=sign)(?P<end>[ ][^\W\d_]{2,10}[ ]?[:.)\u2014-])",
    re.M | re.I,
)

# "1\u00b0 giro -": an ordinal of another tongue
_ORDINAL = re.compile(r"(?<=\d)[\u00b0\u00ba\u00aa](?=[ ][^\W\d_]{2,10}[ ]?[:.)\u2014\u2013-])")


# "R 8 on through R 13."
_ON_THROUGH = re.compile(
    r"(?<=\d) on(?P<to> (?:through|thru|to|till|until) )(?=(?:R ?|rnds? |rounds? |rows? )?\d)", re.I
)
# "R4 x4:", "Rnd 4 x 4 -"
_SO_OFTEN = re.compile(
    rf"^(?P<label>[^\w\n]{{0,6}}{COURSE}\.?[ ]?\d{{1,3}})(?P<often>[ ][x*][ ]?(?P<n>\d{{1,2}})[ ]?[:-][ ])", re.I | re.M
)


def once(text: str) -> str:
    """The page with such ranges said once; the length stays."""
    if " on t" in text or " on until " in text:
        text = _ON_THROUGH.sub(lambda m: m["to"].ljust(len(m[0])), text)
    if " x" in text or " *" in text:
        text = _SO_OFTEN.sub(lambda m: m["label"] + f"(x{m['n']}):".ljust(len(m["often"])), text)
    text = _TWICE.sub(lambda m: f"{m['lead']}{m['end']}".ljust(len(m[0])), text)
    text = _FROM.sub(lambda m: f"{m['lead']}{m['n']}-{m['last']}{m['end']}".ljust(len(m[0])), text)
    return text if text.isascii() else _ORDINAL.sub(".", text)
