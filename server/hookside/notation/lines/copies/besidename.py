"""How many copies a bracket or a few words behind a name ask for, in whatever words: "Arm, two of them", "Spot
(count: 4)"."""

from __future__ import annotations

import re

from hookside.colours import COLOURS, SHADES
from hookside.notation.lines.heads.parts import PARTS
from hookside.notation.vocabulary import COPIES, NUMBER_WORDS, SEVERAL_WORDS, number_of
from hookside.stitches import singular

# What stands behind a name: in brackets, or behind a comma, a dash, a colon
_ASIDE = re.compile(
    r"\s*[(\[{](?P<in>[^()\[\]{}]{1,48})[)\]}]|"
    r"\s*(?:,|:|\s-+)\s+(?P<behind>[^()\[\]{}]{1,48}?)(?=\s*(?:[(\[{]|\W*$))"
)
# The words that copies are asked for with; an aside with any other word, but a colour, tells something else
_ASKING_WORDS = frozenset(
    [
        "make", "made", "do", "work", "worked", "crochet", "crocheted", "need", "needed", "want", "required", "you",
        "you'll", "will", "to", "be", "of", "them", "these", "those", "each", "alike", "same", "the", "identical",
        "equal", "matching", "similar", "pieces", "piece", "pcs", "pc", "parts", "part", "times", "time", "off", "in",
        "all", "copies", "total", "altogether", "items", "units", "small", "little", "large", "ones", "per", "a",
        "side", "sides", "either", "for", "repeat", "second", "other", "so", "and", "with", "more", "exactly", "just",
        "is", "are", "both", "pair", "please", "sorry", "realize", "realise", "half", "halves",
        "again", "only", "thing", "things", "replicates", "wanted",
        "double", "twice", "thrice", "one", "leg", "arm", "ear", "wing", "outer", "inner", "left",
        "right", "front", "back",
    ]
)  # fmt: skip
THEN_ONE = re.compile(
    r"(?:,|\b(?:and|then|plus))\s+(?:then )?(?:one|another|1)(?: more)?,? (?:mirror|revers|flipped)", re.I
)
TWO = re.compile(
    r"\b(?:both|pair|twice|(?:in )?double|(?:each|either) (?:side|leg|arm|ear|wing)|(?:for|the) (?:the )?"
    r"(?:second|other))\b",
    re.I,
)


def told_aside(text: str) -> tuple[str, int]:
    """ "Arm, two of them", "Ear (2 times crochet)", "Fins (white, 2 alike)": copies asked for in whatever words."""
    at = re.search(r"[A-Za-z]{2}", text)
    for match in _ASIDE.finditer(text, at.end()) if at else []:
        told = match["in"] or match["behind"]
        n = _asked(told.lower().replace("\u2019", "'"), match["in"] is not None)
        chunks = [c for c in re.split(r"[,;]", told.lower()) if c.strip()]
        if n == 1 and 2 <= len(chunks) <= 3:  # "(marigold, 2 alike)": a colour by whatever name
            both = [_asked(c, match["in"] is not None) for c in chunks]
            n = max(both) if not any(re.search(r"\d", c) for c, m in zip(chunks, both, strict=True) if m == 1) else 1
        if n > 1:
            return text[: match.start()] + " " + text[match.end() :], n
    return text, 1


# "(part 2 of 4)", "(part 2)", "(in 2 parts)": which part of the text this is, or of how many its own work is
_OF_SO_MANY = re.compile(
    rf"^\W*of {COPIES}\W*$|"
    rf"\b{COPIES} (?:of|out of) (?:the )?(?:\d{{1,2}}|{SEVERAL_WORDS})\b|"
    rf"\bin (?:\d{{1,2}}|{SEVERAL_WORDS}) (?:different |separate )?"
    r"(?:parts|pieces|halves|sections|steps|stages)\b|"
    r"\b(?:part|piece|section|step|page|chapter|version|number|no\.?|photo|chart|fig(?:ure|\.)?) "
    rf"{COPIES}\b"
)


def _asked(told: str, enclosed: bool) -> int:
    """The copies an aside asks for; 1 where it tells something else."""
    if _OF_SO_MANY.search(told):
        return 1
    words = re.findall(r"[a-z']+|\d+", told)
    counts = [w for w in words if (w.isdecimal() or w in NUMBER_WORDS) and w not in ("a", "an")]
    if len(words) > 9 or re.search(r"\d[.,]\d|\d ?(?:-|/)|%|\d ?(?:ins?|inch(?:es)?|cm|mm|g|oz|yds?|m)\W*$", told):
        return 1
    plain = all(w in _ASKING_WORDS or w in counts or w in COLOURS or w in SHADES for w in words)
    numbers = [number_of(w) for w in counts if number_of(w) > 1]
    if not plain or not (numbers or TWO.search(told)):
        return 1
    if not numbers:
        return 2
    if not enclosed and len(words) == 1:
        return 1  # "Part, 2"
    return numbers[-1] if re.search(r"\b(?:so|total|altogether|in all)\b", told) else numbers[0]


# "Spots (makes 4)", "Spot (count: 4)", "Spot - total 3 spots", "Spot, total: 3" (a page has "Spot = 3" for that)
_COUNTED = re.compile(
    r"\s*(?:[(\[]|(?:[,:./]|\s(?:-+|[\u2013\u2014/]))\s(?!number \d)|(?=\s=))\s*(?:(?:total(?: number| amount)?|count|"
    r"amount|number|pieces|pcs|parts|how many)(?: needed| required)?"
    rf"\s*(?:[:=]|\bis\b)?|makes|(?P<bare>=))\s*(?P<n>\d{{1,2}}|{SEVERAL_WORDS})"
    r"(?: (?P<what>[a-z]+))?(?: in all| in total| altogether)?\s*(?:[)\]]|[.:]?\s*$)",
    re.I,
)
_YIELDS = re.compile(r"[(\[]\s*makes\b", re.I)  # "Acorn (makes 6)": of whatever is named, as recipes have it
_COUNTING = ("total", "count", "amount", "number", "pieces", "pcs", "parts", "how many", "makes", "=")
_MOST_COUNTED = 24  # more are stitches


def counted(text: str) -> tuple[str, int] | None:
    """A name with a bracket that tells a number of it; None where that may be the stitches of a round."""
    low = text.lower()
    told = _COUNTED.search(text) if any(hint in low for hint in _COUNTING) else None
    name = re.findall(r"[a-z]+", text[: told.start()].lower()) if told is not None else []
    if told is None or not name or not 1 < number_of(told["n"]) <= _MOST_COUNTED:
        return None
    what = singular((told["what"] or "").lower())
    if what not in ("", "piece", "part", "copy", "item", "pc", *map(singular, name)):
        return None
    if told["bare"] is not None and singular(name[-1]) not in PARTS and name[-1] not in PARTS:
        return None  # "sts = 12"
    many = _may_be_many(name[-1]) or _YIELDS.match(told[0].strip()) is not None
    return (text[: told.start()] + text[told.end() :], number_of(told["n"])) if many else None


def _may_be_many(noun: str) -> bool:
    return noun in PARTS or singular(noun) != noun
