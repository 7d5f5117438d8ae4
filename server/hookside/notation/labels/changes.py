"""What a reference changes of the course that it repeats: "as row 4 but dec for inc", "one more sc between"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.labels.references import COUNT_IN, SMALL, small
from hookside.pattern import Terms
from hookside.stitches import named

_NUMBER = r"\d{1,2}|an?|one|two|three|four|five|six"
_MORE = re.compile(
    rf"\b(?:(?P<n>{_NUMBER})\s+(?P<sign>more|extra|additional|less|fewer)\s*(?:sc|dc|hdc|htr|tr|st|sts|stitch|"
    rf"stitches)?|"
    rf"(?P<n2>{_NUMBER})\s*(?:sc|dc|hdc|htr|tr|st|sts|stitch|stitches)\s+(?P<sign2>more|extra|less|fewer)|"
    rf"(?P<sign3>adding|add)\s+(?P<n3>{_NUMBER})\s*(?:more |extra )?(?:sc|dc|hdc|htr|tr|sts?|stitch|stitches))"
    r"(?:\s+(?:sts?\s+|stitch(?:es)?\s+)?(?:in\s+)?(?:between|before|after)\b|"
    # "repeat R3 with one more sc in each repeat", "as R3, one more sc"
    r"\s+(?:in|to|on|for|per)\s+(?:(?:each|every)\s+)?(?:repeat|group|section|segment)\b|"
    r"(?(sign2)|(?<=sc|dc|tr|ts|st|es|ch))\W*(?:\(\d{1,4}[^()]{0,12}\)\W*)?$)",
    re.I,
)
_BETWEEN = re.compile(
    rf"\b(?P<n>{_NUMBER})\s*(?:(?:single crochets?|sc|dc|hdc|htr|tr|sts?|stitch(?:es)?)\s+|"
    r"(?=between\W*(?:\(\d+\)\W*)?$))"
    r"(?:(?:(?:in\s+)?between|before)\s+(?:the\s+|each\s+|every\s+)*(?:inc|dec|corner|(?:ch-?\d?\s+)?sp)|"
    r"(?:in\s+)?between(?=\W*(?:\(\d+\)\W*)?$)|"
    r"(?:on|along|for|per|across|down)\s+(?:each\s+|every\s+|all\s+(?:four\s+)?)?sides?\b)",
    re.I,
)
# "repeat round 3 but with 2 sc"
_BUT_PLAIN = re.compile(
    rf"^\W*but\s+(?:with|work(?:ing)?|using|do(?:ing)?|make)?\s*(?P<n>{_NUMBER})\s*(?:sc|dc|hdc|htr|tr|sts?|stitch(?:es)?)"
    r"(?:\s+(?:first|before|between))?\W*(?:\(\d+[^()]{0,12}\)\W*)?$",
    re.I,
)
_EACH_TIME = re.compile(r"\b(?:each|every)\s+(?:time|repeat|round|rnd|row|new round)\b", re.I)
_INSTEAD = re.compile(
    r"\b(?:but|with|using|work(?:ing)?|use|do|make)?\s*(?:an?\s+)?(?P<new>(?:\d+\s*)?[a-z0-9 ]{2,24}?)\s+"
    r"(?:instead of|in place of|for each)\s+(?:an?\s+|the\s+|each\s+)?(?P<old>\d+|[a-z0-9 ]{2,24}?)\s*(?:[.,;()\[]|$)",
    re.I,
)
_REPLACING = re.compile(
    r"\breplac(?:e|ing)\s+(?:each\s+|the\s+|all\s+|every\s+)?(?P<old>[a-z0-9 ]{2,24}?)\s+(?:with|by)\s+(?:an?\s+)?"
    r"(?P<new>[a-z0-9 ]{2,24}?)\s*(?:[.,;()\[]|$)",
    re.I,
)
# "work R4 again with dec": what widened there narrows here
_SHAPED_SO = re.compile(
    r"^\W*(?:again,? |once more,? )?(?:but )?(?:with|using|by|this time|now)(?: only)? "
    r"(?P<new>inc|dec)(?:s|reas(?:e|es|ing))?(?: instead| this time)?\W*(?:\(\d+[^()]{0,12}\)\W*)?$",
    re.I,
)
# "same as r2 but x3"
_TIMES = re.compile(
    r"^\W*but\s+(?:repeat(?:ing|ed)?\s+|work(?:ing)?\s+|do\s+)?(?:it\s+)?(?:x\s*(?P<n>\d{1,2})|(?P<n2>\d{1,2}|two|"
    r"three|four|"
    r"five|six|seven|eight|nine|ten|twelve|twice)\s*(?:times|x|\b(?<=twice)))\W*(?:\(\d+[^()]{0,12}\)\W*)?$",
    re.I,
)
_ONLY_LOOPS = re.compile(
    r"^\W*(?:but\s+|this time\s+|working\s+|work\s+|all\s+|now\s+)*(?:in|through|using|into)?\s*(?:the\s+)?"
    r"(?P<loops>blo|flo|back loops?(?: only)?|front loops?(?: only)?|both loops)\b"
    r"\W*(?:\d{1,4}\s*(?:sts?|stitch(?:es)?|sc|dc)?\W*)?$",
    re.I,
)
TIMES_MORE = re.compile(
    rf"\b(?:another\s+)?(?:\d{{1,3}}|once|twice|one|{SMALL})\s+(?:more|further|additional)\s+times?\b|"
    rf"\b(?:another\s+)?(?:\d{{1,3}}|one|{SMALL})\s+times?(?:\s+more)?\b|\b(?:once|twice)\s+more\b",
    re.I,
)
_SAME_YARN = re.compile(r"\bwithout (?:any )?(?:chang\w+ (?:the )?)?(?:colou?rs?|yarns?|thread)(?: changes?)?\b", re.I)
_CHANGES = re.compile(
    r"\b(?:but|except|working|adding|more|less|fewer|increas|decreas|with \d|between|instead|plus|minus|replac\w+|"
    r"omit\w*|without|reverse|backwards?|mirror\w*|doubl\w+|halv\w+|opposite|beginning with|starting with)\b",
    re.I,
)


# "as R4, but inc in the last st", "like R3, but start with a dec": a plain round with one shaping at its end
_AT_AN_END = re.compile(
    r"\W*but\s+(?:with\s+)?(?:(?:an? |one )?(?P<shape>inc|dec)(?:rease)?\s+(?:in|at|on|over)\s+the\s+"
    r"(?P<where>first|last)\s+(?P<two>(?:2|two) )?(?:sts?|stitch(?:es)?)|"
    r"(?P<way>start|begin|end|finish)(?:ing)? with (?:an? |one )?(?P<one>inc|dec)(?:rease)?)\W*"
    r"(?:\(\d+[^()]{0,12}\)\W*)?$",
    re.I,
)


def at_an_end(rest: str) -> str | None:
    """The body that a plain round has with such a shaping; None where the words ask for something else."""
    match = _AT_AN_END.match(rest)
    if match is None:
        return None
    shape = (match["shape"] or match["one"]).lower()
    if match["shape"] and (shape == "dec") != bool(match["two"]):
        return None  # "dec in the last st": with which other?
    first = (match["where"] or match["way"]).lower() in ("first", "start", "begin")
    return f"{shape}, sc around" if first else f"sc in each st to last {'st' if shape == 'inc' else '2 sts'}, {shape}"


@dataclass(frozen=True, slots=True)
class Change:
    """What a reference changes: plain stitches more between the shapings (`each` time again), stitches for others."""

    plain: int = 0
    between: int = 0  # so many plain stitches between the shapings, whatever there were
    each: bool = False
    old: str = ""  # a stitch key, or a number in digits
    new: str = ""
    loops: str | None = None
    times: int = 0  # so many times, however often it was before


def changes(rest: str) -> bool:
    """Do the words behind a reference change what it repeats?"""
    rest = TIMES_MORE.sub(" ", COUNT_IN.sub(" ", _SAME_YARN.sub(" ", rest)))
    return bool(_CHANGES.search(rest)) and not re.search(r"^\W*(?:until|till?|for)\b", rest, re.I)


def _key(words: str, terms: Terms) -> str:
    shaping = re.search(r"\b(inc|dec)reas\w*$", words.strip().lower())
    if shaping:
        return shaping[1]
    words = re.sub(r"^(?:but|with|using|working|work|use|do|make|an?)\s+", "", words.strip().lower())
    words = re.sub(r"^(?:1|one)\s+|\s+(?:each|only)$", "", words)
    if words.isdecimal():
        return words
    number = re.match(r"(\d+)\s*[a-z]+$", words)
    found = named(words, terms) or named(words.rstrip("s"), terms)
    if found is None and number:
        return number[1]
    return found.key if found else ""


_WIDE = re.compile(r"\s{4,}")  # in a run of blanks each of several patterns would try every place for every other


def change_of(rest: str, terms: Terms) -> Change | None:
    """The change that the words behind a reference ask for; None where they cannot be read."""
    rest = _WIDE.sub("   ", rest)
    more = _MORE.search(rest)
    if more:
        told = (more["n"] or more["n2"] or more["n3"]).lower()
        n = small(told) if told not in ("a", "an") else 1
        down = (more["sign"] or more["sign2"] or more["sign3"]).lower() in ("less", "fewer")
        return Change(plain=-n if down else n, each=bool(_EACH_TIME.search(rest)))
    between = _BETWEEN.search(rest)
    if between:
        return Change(between=small(between["n"]))
    swap = _INSTEAD.search(rest) or _REPLACING.search(rest)
    if swap:
        old, new = _key(swap["old"], terms), _key(swap["new"], terms)
        if old.isdecimal() and not new.isdecimal():
            number = re.search(r"(\d+)\s*[a-z]*$", swap["new"])
            new = number[1] if number else ""
        return Change(old=old, new=new) if old and new and old.isdecimal() == new.isdecimal() else None
    shaped = _SHAPED_SO.match(rest)
    if shaped:
        new = shaped["new"].lower()
        return Change(old="inc" if new == "dec" else "dec", new=new)
    plain = _BUT_PLAIN.match(rest)
    if plain:
        return Change(between=small(plain["n"]))
    times = _TIMES.match(rest)
    if times:
        return Change(times=small(times["n"] or times["n2"]))
    loops = _ONLY_LOOPS.match(rest)
    if loops:
        word = loops["loops"].lower()
        return Change(
            loops="back" if word.startswith("b") and word != "both loops" else "front" if word[0] == "f" else None
        )
    return None
