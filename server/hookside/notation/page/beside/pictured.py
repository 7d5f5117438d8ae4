"""Numbers in brackets that a text says are photographs: "R2: inc x 6 [2]". They are taken out; the length stays."""

from __future__ import annotations

import re

_PICTURE = r"(?:photo(?:graph)?|picture|pic|image|illustration)s?"  # a figure may be a number
_BRACKETS = r"(?P<kind>(?:square |round )?brackets|parenthes[ei]s|\[ ?[\dn]* ?\]|\( ?[\dn]* ?\))"
_WORDS = r"(?:(?!(?:not|no|sts?|stitch|stitches|counts?|totals?)\b)[a-z]{1,12} ){1,4}"
_HINTS = ("photo", "pic", "image", "illustrat")
# "Numbers in square brackets are photographs", "[3] means photo 3"
_NUMBERS = re.compile(
    rf"\b(?:numbers?|figures?|digits?|what is) (?:in(?:side)?|between|within) (?:the |these )?{_BRACKETS}"
    rf",? {_WORDS}{_PICTURE}\b",
    re.I,
)
# "The photos are numbered in square brackets", "photo numbers stand in [ ]"
_PICTURES = re.compile(
    rf"\b{_PICTURE} {_WORDS}(?:in(?:side)?|between|within) (?:the )?{_BRACKETS}", re.I
)
_SQUARE = re.compile(r"\[ ?\d{1,3}(?: ?[-,&+] ?\d{1,3}){0,4} ?\]")
_ROUND = re.compile(r"\( ?\d{1,3}(?: ?[-,&+] ?\d{1,3}){0,4} ?\)")


def without(text: str) -> str:
    """The page without such numbers, where the text says outright what they are."""
    low = text.lower()
    told = (_NUMBERS.search(text) or _PICTURES.search(text)) if any(hint in low for hint in _HINTS) else None
    if told is None:
        return text
    square = told["kind"][:1] == "[" or told["kind"][:6].lower() == "square"
    square = square or (told["kind"].lower() == "brackets" and _SQUARE.search(text) is not None)
    return (_SQUARE if square else _ROUND).sub(lambda m: " " * len(m[0]), text)
