"""Headings that name more than one without a "make": "Pair of spikes", "Legs 1 & 2", "Ears (left and right)"."""

from __future__ import annotations

import re

from hookside.notation.lines.heads.parts import PARTS
from hookside.notation.vocabulary import NUMBER_WORDS
from hookside.stitches import singular

# What a bag of tools holds in pairs
_TOOLS = r"(?:scissors|shears|pliers|tweezers|needles?|hooks?|hands|glasses|safety|plastic|googly|toy|stitch)"
_PAIR_OF = re.compile(
    rf"\W*(?:an? |one )?pair of (?P<what>(?!(?:[a-z]+ )?{_TOOLS}\b)[a-z]+(?: [a-z]+){{0,2}})\W*$", re.I
)
_AND = r"\s*(?:&|and|\+|/|,)\s*"
_BOTH_SIDES = rf"(?:for (?:the )?)?(?:left{_AND}(?:the )?right|right{_AND}(?:the )?left|l ?[&/+,] ?r|r ?[&/+,] ?l)"
_TWO_OF_ITS_KIND = rf"(?:front{_AND}back|back{_AND}front|upper{_AND}lower|top{_AND}bottom|inner{_AND}outer)"
_ALIKE = r"(?:both |are |worked |made )*(?:exactly )?(?:alike|the same|identical)"
# "Ears (left and right)", "Arm - left & right", "Fin L + R", "Scale (front and back alike)"
_SIDES_ASIDE = re.compile(
    r"\s*(?:[(\[]|[,:]\s|\s-+\s|(?<=[a-z]s)\s(?=l|r)|(?<=[a-z])\s(?=(?-i:L ?[&/+] ?R)))\s*"
    rf"(?:(?:one )?{_BOTH_SIDES}(?: ones?)?\s*(?:,? {_ALIKE})?|{_TWO_OF_ITS_KIND},? {_ALIKE})\s*[)\]]?\W*$",
    re.I,
)
_SIDE = r"(?:left|right|l|r|front|back|upper|lower|top|bottom)"
# "Left leg / right leg", "Left and right ear", "Upper and lower jaw"
_SIDES_NAMED = re.compile(
    rf"\W*(?P<one>{_SIDE})(?P<part>(?: [a-z]+){{1,2}})?{_AND}(?:the )?(?P<other>{_SIDE})"
    r"(?P<again>(?: [a-z]+){1,2})\W*$",
    re.I,
)
# "Legs 1 & 2", "Legs 1-4", "Fins A and B", "Gills (a), (b) and (c)", "Gill I + II", "Leg one, two and three"
_MANY = r"-|to\b|thru\b|through\b|\.{2,3}|\u2026"
_JOIN = rf"(?:&|\+|/|,(?:\s*(?:and\b|&))?|and\b|{_MANY})"
_NO = r"(?:nos?\b\.?|numbers?\b|#)"
_ONE = r"(?:\d{1,2}|[a-h]|i{1,3}|iv|vi{0,3}|one|two|three|four|five|six|seven|eight)"
_LISTED = re.compile(
    r"\W*(?P<what>(?:[a-z]+ ){0,2}?(?P<part>[a-z]{2,}?)),?\s+(?:(?P<no>nos?\b\.?|numbers?|#)\s*)?"
    rf"(?P<first>\(?{_ONE}\b\)?)\s*(?P<rest>(?:{_JOIN}\s*(?:{_NO}\s*)?\(?{_ONE}\b\)?\s*)+)\W*$",
    re.I,
)
_ITEM = re.compile(rf"(?P<join>{_JOIN})\s*(?:{_NO}\s*)?\(?(?P<item>{_ONE})\b\)?", re.I)
_FRACTION = re.compile(r"/\d")
_RANGE = re.compile(_MANY, re.I)
_ROMAN = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii")
# "Fin A and Fin B", "Leg one and leg two", "First and second ear": each named by its place among them
_ORDINALS = {"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4}
_PLACE = r"(?:\d|[A-H]|[a-d]|(?i:one|two|three|four))"
_NAMED_ALIKE = re.compile(
    rf"\W*(?P<what>[A-Za-z]+(?: [a-z]+)?) (?P<first>{_PLACE})(?P<rest>(?:{_AND}(?:and )?(?:the )?[A-Za-z]+(?: [a-z]+)? "
    rf"{_PLACE}){{1,5}})\W*$"
)
_ONE_ALIKE = re.compile(rf"{_AND}(?:and )?(?:the )?(?P<what>[A-Za-z]+(?: [a-z]+)?) (?P<place>{_PLACE})(?![A-Za-z])")
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
    if any(sign in low for sign in ("&", "/", "+", ",", " and ")):
        aside = _SIDES_ASIDE.search(text)
        if aside is not None and aside.start() > 1:
            return text[: aside.start()], 2
        sides = _SIDES_NAMED.match(text)
        if sides is not None and sides["one"].lower() != sides["other"].lower():
            part, again = (sides["part"] or sides["again"]).lower(), sides["again"].lower()
            # "Front and back legs" may be four
            single = sides["one"].lower() in ("left", "right", "l", "r") or singular(again) == again
            return (text, 2) if part == again and single and part.split()[-1] in PARTS else None
    alike = _named_alike(text) if "and" in low or any(sign in text for sign in "&/+,") else None
    return alike if alike is not None else named_by_numbers(text)


def _named_alike(text: str) -> tuple[str, int] | None:
    """ "Fin A and Fin B" -> two of that name, in their order."""
    again = _NAMED_ALIKE.match(text)
    if again is not None:
        others = [(m["what"].lower(), _place(m["place"])[1]) for m in _ONE_ALIKE.finditer(again["rest"])]
        here = (again["what"].lower(), _place(again["first"])[1])
        in_order = [here, *others] == [(here[0], here[1] + n) for n in range(len(others) + 1)]
        return (text, 1 + len(others)) if in_order and others else None
    nths = _BY_ORDINALS.match(text)
    if nths is None or nths["again"].lower().removesuffix("s") not in PARTS:
        return None
    if nths["part"] and nths["part"].lower() != nths["again"].lower():
        return None
    places = [_ORDINALS[w.lower()] for w in re.findall(rf"\b(?:{_NTH})\b", nths["nths"], re.I)]
    return (text, len(places)) if places == list(range(places[0], places[0] + len(places))) else None


def named_by_numbers(text: str) -> tuple[str, int] | None:
    """ "Legs 1, 2 and 3": no number in it tells how many by itself."""
    listed = _LISTED.match(text)
    if listed is None:
        return None
    part, first = listed["part"].lower(), listed["first"].strip("()")
    starts = _place(first)[1] == 1
    if singular(part) == part and _FRACTION.fullmatch(listed["rest"]):
        return None  # "Upper 2/3"
    of_text = singular(part) in _OF_TEXTS
    n = _how_many(first, listed["rest"])
    counted = listed["no"] or (n > 2 and "-" not in listed["rest"])
    if part not in PARTS and (of_text or not starts or not (counted or singular(part) != part)):
        return None
    return (text if first == listed["first"] else listed["what"], n) if 1 < n <= _MOST else None


def _how_many(first: str, rest: str) -> int:
    """ "1" and "& 2, 5-7" -> 5; 0 where they do not go up, or are not told alike."""
    (kind, last), n = _place(first), 1
    for told in _ITEM.finditer(rest):
        alike, item = _place(told["item"])
        if item <= last or alike != kind:
            return 0
        n += item - last if _RANGE.fullmatch(told["join"]) else 1
        last = item
    return n


def _place(item: str) -> tuple[str, int]:
    """ "3", "c", "III", "three": in what it is told, and which one it is."""
    low = item.lower()
    if low.isdecimal():
        return "figure", int(low)
    if low in NUMBER_WORDS:
        return "word", NUMBER_WORDS[low]
    return ("roman", _ROMAN.index(low) + 1) if low in _ROMAN else ("letter", ord(low) - ord("a") + 1)
