"""A designer's own sentence: in the maker's terms, and as a voice can say it."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from hookside.pattern import Terms
from hookside.stitches import TABLE, plain_name
from hookside.words.numbers import decimal, ordinal

# Table names that are also everyday words ("slip the loop off the hook"): left alone in sentences.
_EVERYDAY = frozenset(
    {"slip", "single", "singles", "fan", "pop", "bob", "p", "ps", "sh", "bs", "bo", "pc", "ar", "chain", "ring"}
)

# The other words that differ between the two sets of terms; each list runs US, UK. Craft Yarn Council booklet 2018
# heads such a list; "yarn over / yarn round hook": UK book abbreviation pages CB960 (2015), CB1616 (2023).
_OTHER_WORDS = (("yarn over", "yarn round hook"), ("yo", "yrh"), ("gauge", "tension"))

_EXPANSIONS = {
    "st": "stitch", "sts": "stitches", "ch": "chain", "chs": "chains", "sp": "space", "sps": "spaces",
    "rnd": "round", "rnds": "rounds", "rep": "repeat", "lp": "loop", "lps": "loops", "tog": "together",
    "rs": "right side", "ws": "wrong side", "blo": "back loops only", "flo": "front loops only",
    "beg": "beginning", "cont": "continue", "prev": "previous", "foll": "following", "rem": "remaining",
    "ea": "each", "bet": "between", "approx": "about", "tch": "turning chain", "mr": "magic ring",
    "yo": "yarn over", "yrh": "yarn round hook", "fo": "fasten off", "pm": "place marker", "sm": "slip marker",
}  # fmt: skip
_REMEMBERED = 4096  # sentences that were put into words: "Stuff firmly.", the names of stitches and groups
_UNITS = {"cm": "centimeter", "mm": "millimeter", "m": "meter", "g": "gram", "yd": "yard", "yds": "yard", "oz": "ounce"}


_BEFORE_STOP = re.compile(r"\s+([.,;:!?])")


def tidy(text: str) -> str:
    """One line, single spaces, no space before a stop."""
    return _BEFORE_STOP.sub(r"\1", " ".join(text.split()))


@cache
def _pairs(source: Terms, target: Terms) -> dict[str, str]:
    """Names in one set of terms that are called something else in the other."""
    found: dict[str, str] = {}
    for entry in TABLE.values():
        there = entry.names(target)
        for index, name in enumerate(entry.names(source)):
            key = plain_name(name)
            same = key in {plain_name(n) for n in there}
            if key in found or key in _EVERYDAY or (same and index > 0) or plain_name(there[min(index, 1)]) == key:
                continue
            if index < 2:
                found[key] = there[index]
            elif " " in key:
                found[key] = there[1]
            else:
                found[key] = there[0]
    for us, uk in _OTHER_WORDS:
        found[us if source == "US" else uk] = uk if source == "US" else us
    return found


@cache
def _pattern(source: Terms, target: Terms) -> re.Pattern[str]:
    names = sorted(_pairs(source, target), key=len, reverse=True)
    spelled = "|".join(re.escape(n).replace(r"\ ", r"[\s.\-]+") for n in names)
    return re.compile(rf"(?<![A-Za-z])(?:{spelled})(?![A-Za-z])", re.IGNORECASE)


def translate(text: str, source: Terms, target: Terms) -> str:
    """Stitch names of a sentence in other terms, all in one pass, so that sc -> dc -> tr cannot happen.

    >>> translate("1 sc, then dc", "US", "UK")
    '1 dc, then tr'
    """
    if source == target:
        return text
    pairs = _pairs(source, target)

    def other(match: re.Match[str]) -> str:
        name = pairs[plain_name(match[0])]
        return name[:1].upper() + name[1:] if match[0][:1].isupper() and match[0][1:2].islower() else name

    return _pattern(source, target).sub(other, text)


@cache
def _names(terms: Terms) -> dict[str, str]:
    """Abbreviation -> full name, for reading aloud."""
    found: dict[str, str] = {}
    for entry in TABLE.values():
        name = entry.name(terms)
        for spelling in (entry.abbreviation(terms), entry.key if entry.key not in TABLE or terms == "US" else ""):
            if spelling and plain_name(spelling) not in _EVERYDAY:
                found.setdefault(plain_name(spelling), name[:1].lower() + name[1:] if name[1:2].islower() else name)
    return found


def _unit(terms: Terms, number: str, unit: str) -> str:
    name = _UNITS[unit.lower()]
    if terms == "UK" and name.endswith("meter"):
        name = name[:-5] + "metre"
    return name if number == "1" else name + "s"


_PLAIN_MARKS = str.maketrans({"\u2018": "'", "\u2019": "'", "\u2013": "-", "\u2014": " - ", "\u00d7": "x"})
_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_RANGE = re.compile(r"\d\s*-\s*[A-Z]?\d")
_TO = re.compile(r"(?<=\w)-(?=[A-Z]?\d)")
_COURSE = re.compile(r"\b(?:rnd|rd|r)\.?\s*(?=\d)", re.IGNORECASE)
_MEASURE = re.compile(rf"(?<!\d)({_NUMBER.pattern})\s*({'|'.join(_UNITS)})\b", re.IGNORECASE)
_BY = re.compile(r"(\d+)\s*x\s*(\d+)")
_TIMES = re.compile(r"\s*\bx\s*(\d+)\b|(?<=\d)\s*x\b")
_OPENS = re.compile(r"\s*[(\[{]\s*")
_CLOSES_AT_STOP = re.compile(r"\s*[)\]}]\s*([.,;:!?])")
_CLOSES = re.compile(r"\s*[)\]}]\s*")
_DASH = re.compile(r"\s-+\s")
_ORDINAL = re.compile(r"\b(\d{1,6})(?:st|nd|rd|th)\b")
_HYPHEN = re.compile(r"(?<=[a-z])-(?=\d)|(?<=\d)-(?=[a-z])", re.IGNORECASE)
_TOGETHER = re.compile(r"(?<=[A-Za-z])(?=\d+\s*tog\b)")
_UNSPOKEN = re.compile(r"[^A-Za-zÀ-ÿ ,.;:!?'-]+")
_WORD = re.compile(r"[A-Za-z]+")
_COLON = re.compile(r":(?=\s|$)")
_COMMAS = re.compile(r"([,;])(?:\s*[,;])+")
_COMMA_AT_STOP = re.compile(r"([.!?])\s*,")
_EDGES = re.compile(r"^[\s,;]+|[\s,;]+$")


@lru_cache(_REMEMBERED)
def spoken_text(text: str, terms: Terms) -> str:
    """A sentence for a voice: abbreviations written out, numbers in words, no symbols.

    >>> spoken_text("R4: sc in next 2 sts (20 cm tail).", "US")
    'round four, single crochet in next two stitches, twenty centimeters tail.'
    """
    said = tidy(text).translate(_PLAIN_MARKS)
    numbered = _NUMBER.search(said) is not None
    if numbered:
        said = _TO.sub(" to ", said) if _RANGE.search(said) else said
        said = _COURSE.sub("round ", said)
        said = _MEASURE.sub(lambda m: f"{m[1]} {_unit(terms, m[1], m[2])}", said)
        if "x" in said:
            said = _BY.sub(r"\1 by \2", said)
            said = _TIMES.sub(lambda m: f" {m[1]} times" if m[1] else " times", said)
    said = said.replace("&", " and ").replace("%", " percent").replace("/", " or ").replace("=", " is ")
    said = _OPENS.sub(", ", said)
    said = _CLOSES_AT_STOP.sub(r"\1", said)
    said = _CLOSES.sub(", ", said)
    said = _DASH.sub(", ", said)
    if numbered:
        said = _ORDINAL.sub(lambda m: ordinal(int(m[1])), said)
        said = _HYPHEN.sub(" ", said)
        said = _TOGETHER.sub(" ", said)
    said = _write_out(said, terms)
    if numbered:
        said = _NUMBER.sub(lambda m: f" {decimal(m[0])} ", said)
    said = _UNSPOKEN.sub(" ", said)
    return _mend_stops(said)


@cache
def _spelled(terms: Terms) -> re.Pattern[str]:
    """Every abbreviation to write out; the longest first, so that "sl st" and "inv dec" go before their parts."""
    names = "|".join(re.escape(n).replace(r"\ ", r"[\s.\-]+") for n in sorted(_names(terms), key=len, reverse=True))
    return re.compile(rf"(?<![A-Za-z])(?:{names})(?![A-Za-z])", re.IGNORECASE)


def _write_out(text: str, terms: Terms) -> str:
    """Abbreviations to words."""
    names = _names(terms)
    text = _spelled(terms).sub(lambda m: names[plain_name(m[0])], text)
    return _WORD.sub(lambda m: _EXPANSIONS.get(m[0].lower(), m[0]), text)


def _mend_stops(text: str) -> str:
    said = _COLON.sub(",", tidy(text))
    said = _COMMAS.sub(r"\1", said)
    said = _COMMA_AT_STOP.sub(r"\1", said)
    return _EDGES.sub("", said)


def clip(text: str, letters: int) -> str:
    """The beginning of a sentence, cut between words; whole where it is short enough."""
    text = tidy(text)
    if len(text) <= letters:
        return text
    cut = text[: letters + 1].rsplit(" ", 1)[0].rstrip(",;:- ")
    return (cut if len(cut) > letters // 3 else text[:letters]) + " …"
