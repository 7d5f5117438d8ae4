"""A color for some stitches of a round, told behind its work: "sc around, the last 6 in white", "(sts 7 to 9 red)"."""

from __future__ import annotations

import re

from hookside.colours import COLOURS, SHADES
from hookside.notation.vocabulary import AMOUNT, ORDINAL_WORDS, number_of

_SHADE = rf"(?:(?:{'|'.join(sorted(SHADES))}) )*(?:{'|'.join(sorted(COLOURS, key=len, reverse=True))})\b"
_N = AMOUNT
_STITCH = r"(?:sts?|stitch(?:es)?|sc|of them|ones)"
_WHICH = (
    rf"(?:(?P<end>first|last|final|middle|cent(?:er|re)) (?P<n>{_N})(?! ?(?:loops?|lps?|rounds?|rnds?|rows?|pull))"
    rf"(?: {_STITCH})?|"
    rf"{_STITCH} ?(?P<from>\d{{1,3}})(?:(?: ?(?:-|to|through|and|&|,) ?)(?:{_STITCH} ?)?(?P<to>\d{{1,3}}))?|"
    rf"(?P<from2>\d{{1,3}})(?:st|nd|rd|th)"
    rf"(?: ?(?:-|to|through|and|&) ?(?:the )?(?P<to2>\d{{1,3}})(?:st|nd|rd|th))?"
    rf"(?: {_STITCH}|(?= (?:in|with|is|are)\b))|"
    r"(?P<one>(?:very )?(?:first|last|final) (?:st|stitch|sc)(?!s|es|itch))|"
    r"(?:(?P<side>first|second|last|other) )?half|(?P<some>\d{1,3}|one|two|three|four|five|six) of "
    r"(?:them|these|those|the sts|the stitches|the sc)|(?:some|a few|several)(?: of (?:them|these|those|the sts))?)"
)
# "changing to white for the middle 8 stitches", "with red for sts 7-9": the color ahead of them
_AHEAD = (
    rf"(?P<ahead>(?:(?:chang|switch|swapp?|us|work|go)(?:e|ing)?(?: (?:over|to|in|with))*|in|with) (?:the )?{_SHADE}"
    r"(?: yarn| wool)? (?:only |just )?(?:for|over|across|in|on) (?:only |just )?"
    r"(?!the (?:very )?(?:first|last|final) st))"
)
# The whole of such a clause
PART_DYED = re.compile(
    rf"(?:(?:with|and|but|then|work|working|make|making) )*{_AHEAD}?(?:the )?{_WHICH}"
    rf"(?: (?:of (?:it|them|the round|this round)|are|is|worked|made|all))*(?(ahead)|,? (?:(?:in|with) )?"
    rf"(?:the )?{_SHADE}(?: yarn| wool)?)(?: only| alone)?"
    rf"(?:,? (?:and |then )+(?:back |return )+to (?:the )?{_SHADE})?"
    r"(?=\s*(?:[.,;()\[\]=-]|and\b|half\b|$))"
)
_PART = re.compile(rf"\b(?:the )?{_WHICH}(?![a-z\d])")
# "after the 9th stitch", "after st 9", "after nine stitches": the next one is the first in the new color
_PAST = r"(?:after|behind|past|following) (?:(?:the|you|have|made|worked|working|making|first) ){0,4}"
_NTH = rf"{'|'.join(ORDINAL_WORDS)}"
_ONE = r"(?:sts?|stitch(?:es)?|sc)(?![a-z])"
_AFTER = re.compile(
    rf"\b{_PAST}(?:(?P<n>{_N}|{_NTH})(?:st|nd|rd|th)? {_ONE}|{_ONE}\.? (?:no\.? ?|number )?#?(?P<st>{_N}))(?![a-z\d])"
)
_BEHIND = rf"{_PAST}(?:(?:{_N}|{_NTH})(?:st|nd|rd|th)? {_ONE}|{_ONE}\.? (?:no\.? ?|number )?#?{_N})(?![a-z\d])"
_FROM = rf"from (?:the )?(?:{_ONE} \d{{1,3}}|\d{{1,3}}(?:st|nd|rd|th) {_ONE})(?: on(?:wards?)?)?"
# The whole of a clause that tells it with the place ahead, or with a color and no verb of changing
DYED_BEHIND = re.compile(
    rf"(?:(?:then|and|now) )*(?:{_BEHIND},? (?P<what>(?:change|switch|swap|join|use|go|take|add|attach|pick|place|put|"
    r"work)[^.,;:()\[\]=]{2,40})|"
    rf"(?:(?:use|using|take|work|go|in|with|on|over|the) ){{0,3}}{_SHADE}(?: yarn| wool)? (?:{_BEHIND}|{_FROM}))"
    r"(?=\s*(?:[.,;()\[\]=]|$))"
)
_HALFWAY = re.compile(r"\bhalf ?-?way\b")


def stitches_dyed(words: str, makes: int) -> tuple[int, int] | None:
    """The first and the last stitch, of `makes`, that a clause of a color names; None where it names none of them."""
    low = " ".join(words.lower().split())
    if _HALFWAY.search(low):
        return (makes // 2 + 1, makes) if makes > 1 else None
    after = _AFTER.search(low)
    if after is not None:
        n = after["n"] or after["st"]
        behind: int = ORDINAL_WORDS.get(n) or number_of(n)
        return (behind + 1, makes) if behind < makes else None
    told = _PART.search(low)
    if told is None or (told["one"] and PART_DYED.fullmatch(low) is None):
        return None  # "changing to red in the sl st to first sc": where it is joined
    if told["end"]:
        n = number_of(told["n"])
        before = (makes - n) // 2 if told["end"][0] in "mc" else 0 if told["end"] == "first" else makes - n
        first, last = before + 1, before + n
    elif told["from"] or told["from2"]:
        first = int(told["from"] or told["from2"])
        last = int(told["to"] or told["to2"] or first)
    elif told["one"]:
        first = last = 1 if "first" in told["one"] else makes
    elif told["side"]:
        first, last = (1, makes // 2) if told["side"] == "first" else (makes // 2 + 1, makes)
    else:
        return None  # "half in white", "6 of them": which, nobody knows
    return (first, last) if 1 <= first <= last <= makes else None
