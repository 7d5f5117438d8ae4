"""Numbers, and rounds by their numbers, as sentences write them: "twenty-one", "the third to the fifth round"."""

from __future__ import annotations

import re

from hookside.notation.vocabulary import NUMBER_WORDS, ORDINAL_WORDS, TENS

_ONES = "|".join(list(NUMBER_WORDS)[:9])
WORD = rf"(?:(?:{'|'.join(TENS)})(?:[ -](?:{_ONES}))?|{'|'.join(reversed(NUMBER_WORDS))})"
N = rf"(?:\d{{1,3}}|{WORD})"
NTH = (
    rf"(?:\d{{1,3}}(?:st|nd|rd|th)|(?:(?:{'|'.join(TENS)})[ -])?(?:{'|'.join(ORDINAL_WORDS)})|"
    rf"{'|'.join(ten[:-1] + 'ieth' for ten in TENS)})"
)
COURSE = r"(?P<{}>rounds?|rows?|rnds?)"
TO = r"(?:to|through|until|and|till)"


def value(word: str) -> int:
    """ "twenty-one", "third", "thirtieth", "12th" -> its number."""
    if (figures := re.match(r"\d+", word)) is not None:
        return int(figures[0])
    tens, _, ones = word.lower().replace("-", " ").partition(" ")
    if tens.endswith("ieth") and tens not in ORDINAL_WORDS:
        return TENS[tens[:-4] + "y"]
    value = TENS.get(tens) or NUMBER_WORDS.get(tens) or ORDINAL_WORDS[tens]
    return value + (NUMBER_WORDS.get(ones) or ORDINAL_WORDS.get(ones) or 0)
