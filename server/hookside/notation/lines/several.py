"""Headings that name more than one without a "make": "Pair of spikes", "Legs 1 & 2", "Ears (left and right)"."""

from __future__ import annotations

import re

from hookside.notation.lines.parts import PARTS

# What a bag of tools holds in pairs
_TOOLS = r"(?:scissors|shears|pliers|tweezers|needles?|hooks?|hands|glasses|safety|plastic|googly|toy|stitch)"
_PAIR_OF = re.compile(
    rf"\W*(?:an? |one )?pair of (?P<what>(?!(?:[a-z]+ )?{_TOOLS}\b)[a-z]+(?: [a-z]+){{0,2}})\W*$", re.I
)
_AND = r"\s*(?:&|and|\+|/|,)\s*"
_BOTH_SIDES = rf"(?:left{_AND}(?:the )?right|right{_AND}(?:the )?left|l ?[&/+] ?r|r ?[&/+] ?l)"
# "Ears (left and right)", "Arm - left & right"
_SIDES_ASIDE = re.compile(rf"\s*(?:[(\[]|[,:]\s|\s-+\s)\s*(?:one )?{_BOTH_SIDES}(?: ones?)?\s*[)\]]?\W*$", re.I)
# "Left leg / right leg", "Left and right ear"
_SIDES_NAMED = re.compile(
    rf"\W*(?P<one>left|right)(?P<part>(?: [a-z]+){{1,2}})?{_AND}(?:the )?(?P<other>left|right)"
    r"(?P<again>(?: [a-z]+){1,2})\W*$",
    re.I,
)
# "Legs 1 & 2", "Legs 1-4", "Fins A and B"
_LISTED = re.compile(
    r"\W*(?P<what>(?:[a-z]+ ){0,2}?(?P<part>[a-z]{2,}))\s+(?P<first>\d{1,2}|[a-d])\s*"
    r"(?P<rest>(?:(?:&|and|\+|/|,|-|to|,\s*and)\s*(?:\d{1,2}|[a-h])\b\s*)+)\W*$",
    re.I,
)
_ITEM = re.compile(r"(?P<join>&|and|\+|/|,|-|to)\s*(?P<item>\d{1,2}|[a-h])\b", re.I)
_MOST = 40


def several(text: str) -> tuple[str, int] | None:
    """The name that is left of such a heading, and how many of it that makes; None for any other line."""
    low = text.lower()
    if "pair of" in low and (pair := _PAIR_OF.match(text)) is not None:
        return pair["what"], 2
    if ("left" in low and "right" in low) or "&" in low or "/" in low or "+" in low:
        aside = _SIDES_ASIDE.search(text)
        if aside is not None and aside.start() > 1:
            return text[: aside.start()], 2
        sides = _SIDES_NAMED.match(text)
        if sides is not None and sides["one"].lower() != sides["other"].lower():
            part = (sides["part"] or sides["again"]).lower()
            return (text, 2) if part == sides["again"].lower() and part.split()[-1] in PARTS else None
    return named_by_numbers(text)


def named_by_numbers(text: str) -> tuple[str, int] | None:
    """ "Legs 1, 2 and 3": no number in it tells how many by itself."""
    listed = _LISTED.match(text)
    if listed is None or listed["part"].lower() not in PARTS:
        return None
    n = _how_many(listed["first"], listed["rest"])
    return (text, n) if 1 < n <= _MOST else None


def _how_many(first: str, rest: str) -> int:
    """ "1" and "& 2, 5-7" -> 5; 0 where they do not go up."""
    last, n = _place(first), 1
    for told in _ITEM.finditer(rest):
        item = _place(told["item"])
        if item <= last or told["item"].isdecimal() != first.isdecimal():
            return 0
        n += item - last if told["join"] in ("-", "to") else 1
        last = item
    return n


def _place(item: str) -> int:
    return int(item) if item.isdecimal() else ord(item.lower())
