"""Headings that name more than one without a "make": "Pair of spikes", "Legs 1 & 2", "Ears (left and right)"."""

from __future__ import annotations

import re

from hookside.notation.lines.heads.parts import PARTS
from hookside.stitches import singular

# What a bag of tools holds in pairs
_TOOLS = r"(?:scissors|shears|pliers|tweezers|needles?|hooks?|hands|glasses|safety|plastic|googly|toy|stitch)"
_PAIR_OF = re.compile(
    rf"\W*(?:an? |one )?pair of (?P<what>(?!(?:[a-z]+ )?{_TOOLS}\b)[a-z]+(?: [a-z]+){{0,2}})\W*$", re.I
)
_AND = r"\s*(?:&|and|\+|/|,)\s*"
_BOTH_SIDES = rf"(?:for (?:the )?)?(?:left{_AND}(?:the )?right|right{_AND}(?:the )?left|l ?[&/+] ?r|r ?[&/+] ?l)"
# "Ears (left and right)", "Arm - left & right"
_SIDES_ASIDE = re.compile(
    rf"\s*(?:[(\[]|[,:]\s|\s-+\s|(?<=[a-z]s)\s(?=l|r))\s*(?:one )?{_BOTH_SIDES}(?: ones?)?\s*"
    r"(?:,? (?:both |are |worked |made )*(?:exactly )?(?:alike|the same|identical))?\s*[)\]]?\W*$",
    re.I,
)
# "Left leg / right leg", "Left and right ear"
_SIDES_NAMED = re.compile(
    rf"\W*(?P<one>left|right|l|r)(?P<part>(?: [a-z]+){{1,2}})?{_AND}(?:the )?(?P<other>left|right|l|r)"
    r"(?P<again>(?: [a-z]+){1,2})\W*$",
    re.I,
)
# "Legs 1 & 2", "Legs 1-4", "Fins A and B"
_LISTED = re.compile(
    r"\W*(?P<what>(?:[a-z]+ ){0,2}?(?P<part>[a-z]{2,}?))\s+(?:(?P<no>nos?\b\.?|numbers?|#)\s*)?"
    r"(?P<first>\d{1,2}|[a-d])\s*(?P<rest>(?:(?:&|and|\+|/|,|-|to|,\s*and)\s*#?(?:\d{1,2}|[a-h])\b\s*)+)\W*$",
    re.I,
)
_ITEM = re.compile(r"(?P<join>&|and|\+|/|,|-|to)\s*#?(?P<item>\d{1,2}|[a-h])\b", re.I)
# "Fin A and Fin B", "Leg one and leg two", "First and second ear": each named by its place among them
_ORDINALS = {"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4}
_SMALL = {"one": 1, "two": 2, "three": 3, "four": 4}
_PLACE = r"(?:\d|[A-H]|[a-d]|(?i:one|two|three|four))"
_NAMED_ALIKE = re.compile(
    rf"\W*(?P<what>[A-Za-z]+(?: [a-z]+)?) (?P<first>{_PLACE})(?P<rest>(?:{_AND}(?:and )?(?:the )?[A-Za-z]+(?: [a-z]+)? "
    rf"{_PLACE}){{1,5}})\W*$"
)
_ONE_ALIKE = re.compile(rf"{_AND}(?:and )?(?:the )?(?P<what>[A-Za-z]+(?: [a-z]+)?) (?P<place>{_PLACE})(?![A-Za-z])")
_WORDED = re.compile(
    rf"\W*(?P<part>[a-z]{{3,}}) (?P<words>(?:one|two|three|four)(?:{_AND}(?:and )?(?:two|three|four)){{1,3}})\W*$", re.I
)
_NTH = "first|1st|second|2nd|third|3rd|fourth|4th"
_BY_ORDINALS = re.compile(
    rf"\W*(?:the )?(?P<nths>(?:{_NTH})(?: (?P<part>[a-z]{{3,}}))?(?:{_AND}(?:and )?(?:the )?(?:{_NTH})){{1,3}}) "
    r"(?P<again>[a-z]{3,})\W*$",
    re.I,
)
_MOST = 40
_OF_TEXTS = frozenset(
    [
        "round", "rnd", "row", "rd", "line", "step", "part", "page", "chapter", "section", "figure", "fig", "photo",
        "picture", "pic", "image", "chart", "diagram", "size", "age", "year", "month", "week", "day", "hour", "skill",
        "level", "note", "version", "pattern", "stitch", "st", "color", "colour", "yarn", "ball", "skein", "number",
        "repeat", "stage", "phase", "video", "clue", "lesson", "block", "motif", "stripe", "section", "volume", "issue",
    ]
)  # fmt: skip


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
    alike = _named_alike(text) if "and" in low or any(sign in text for sign in "&/+,") else None
    return alike if alike is not None else named_by_numbers(text)


def _named_alike(text: str) -> tuple[str, int] | None:
    """ "Fin A and Fin B" -> two of that name, in their order."""
    again = _NAMED_ALIKE.match(text)
    if again is not None:
        others = [(m["what"].lower(), _placed(m["place"])) for m in _ONE_ALIKE.finditer(again["rest"])]
        here = (again["what"].lower(), _placed(again["first"]))
        in_order = [here, *others] == [(here[0], here[1] + n) for n in range(len(others) + 1)]
        return (text, 1 + len(others)) if in_order and others else None
    worded = _WORDED.match(text)
    if worded is not None and worded["part"].lower().removesuffix("s") in PARTS:
        places = [_SMALL[w.lower()] for w in re.findall(r"one|two|three|four", worded["words"], re.I)]
        return (text, len(places)) if places == list(range(1, len(places) + 1)) else None
    nths = _BY_ORDINALS.match(text)
    if nths is None or nths["again"].lower().removesuffix("s") not in PARTS:
        return None
    if nths["part"] and nths["part"].lower() != nths["again"].lower():
        return None
    places = [_ORDINALS[w.lower()] for w in re.findall(rf"\b(?:{_NTH})\b", nths["nths"], re.I)]
    return (text, len(places)) if places == list(range(places[0], places[0] + len(places))) else None


def _placed(item: str) -> int:
    return _SMALL.get(item.lower()) or _place(item)


def named_by_numbers(text: str) -> tuple[str, int] | None:
    """ "Legs 1, 2 and 3": no number in it tells how many by itself."""
    listed = _LISTED.match(text)
    part = listed["part"].lower() if listed is not None else ""
    if listed is None or not (
        part in PARTS or (_first(listed["first"]) and (_of_many(part) or (listed["no"] and part not in _OF_TEXTS)))
    ):
        return None
    n = _how_many(listed["first"], listed["rest"])
    return (text, n) if 1 < n <= _MOST else None


def _first(item: str) -> bool:
    return item.lower() in ("1", "a")


def _of_many(part: str) -> bool:
    """ "Buttons 1-4": the plural of a thing that is made, and not of what a text or a work is parted into."""
    return singular(part) != part and singular(part) not in _OF_TEXTS


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
