"""Words of the trade that are misspelt, read badly by a scan or wrongly chosen by a machine -> the word that was meant.

Only a word nobody knows is touched, and only where one word of the trade is within a slip of the hand of it: two
letters swapped, one doubled or left out, "rn" read for "m". A letter changed for another is taken in long words alone:
"wing" is no "ring".
"""

from __future__ import annotations

from functools import cache, lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.vocabulary import (
    ARTICLES,
    COURSE_WORDS,
    EACH,
    HARMLESS,
    NEXT,
    NOUNS,
    NUMBER_WORDS,
    ORDINAL_WORDS,
    PREPOSITIONS,
    REMEMBERED,
    RING_WORDS,
    TURNS_MEANING,
)
from hookside.stitches import by_name

_TRADE = (
    "stitch stitches next each every around across repeat times magic ring round rounds single double treble half "
    "crochet chain chains skip slip join turn back front loop loops only both together increase increases decrease "
    "decreases first last same from hook into with work space spaces previous remaining until twice starting "
    "beginning through post invisible again more below foundation"
)
_KNOWN_BESIDES = (
    "count counts row rows end side sides other second leg legs body piece pieces total stay star form fasten leave "
    "sew stuff marker mark place top bottom edge corner color colour yarn thread tail long firm tight pull close "
    "center centre middle even evenly straight work works worked made make makes here there where then than that "
    "this these those them they their have head hold hole whole once one ones ace bach bead lock bloc leap lop loo "
    "timers tines tomes skips slips joins turns tune bank pack lack rack rock hock look book cook took nook wring "
    "bring string sound found wound mound pound bound ground sting king wing sing rings rang rung angle tingle "
    "trouble reap beat teach reach beach peach earth search lest list lost fist firs form farm worth wish wood word "
    "pacing tempo gain main rain grain dain simple signal simples couple fabric wither width wit"
)
# What a scan reads for another letter, each way
_LOOKS_LIKE = frozenset(["ec", "ce", "hb", "bh", "tl", "lt", "li", "il", "un", "nu", "eo", "oe", "co", "oc"])
_LONG = 7  # letters; from here on a changed letter is taken for a slip


@cache
def _trade() -> frozenset[str]:
    return frozenset(_TRADE.split())


def of_trade(word: str) -> bool:
    """Is it a word of the trade, or a slip of one?"""
    return word in _trade() or meant(word) is not None


@cache
def _known() -> frozenset[str]:
    printed = [name.lower().replace("-", " ") for terms in ("US", "UK") for name in by_name(terms)]
    names = {part for name in printed for part in name.split()}
    groups = (
        ARTICLES,
        COLOURS,
        COURSE_WORDS,
        EACH,
        HARMLESS,
        NEXT,
        NOUNS,
        NUMBER_WORDS,
        ORDINAL_WORDS,
        PREPOSITIONS,
        RING_WORDS,
        SHADES,
        TURNS_MEANING,
    )
    return frozenset(names | _trade() | set(_KNOWN_BESIDES.split())).union(*groups)


@lru_cache(REMEMBERED)
def meant(word: str) -> str | None:
    """The word of the trade that a word is a slip of; None where it is a word, or no single one is near."""
    known = _known()
    if len(word) < 4 or any(word.removesuffix(end) in known for end in ("", "s", "d", "ed", "r", "er", "ing", "ly")):
        return None
    near = {other for other in _near(word) if slip(word, other)}
    stems = {other.removesuffix("es").removesuffix("s") for other in near}
    return min(near, key=len) if len(stems) == 1 else None


@cache
def _shortened() -> dict[str, list[str]]:
    """The words of the trade by what is left of them without any one letter."""
    found: dict[str, list[str]] = {}
    for word in _trade():
        for short in _less(word):
            found.setdefault(short, []).append(word)
    return found


def _less(word: str) -> set[str]:
    return {word[:at] + word[at + 1 :] for at in range(len(word))}


def _near(word: str) -> frozenset[str]:
    """The words of the trade of which a word may be a slip: with a letter less or more, changed, or swapped."""
    trade, shortened = _trade(), _shortened()
    less = _less(word)
    near = [w for s in (word, *less) if s in shortened for w in shortened[s]]
    return (trade & less.union(_read_so(word))).union(near)


def _read_so(word: str) -> tuple[str, ...]:
    """The same with what a scan reads for one letter put right."""
    return word.replace("rn", "m"), word.replace("cl", "d"), word.replace("vv", "w")


def slip(word: str, other: str) -> bool:
    """Is `word` a slip of the hand or of a scan for `other`?"""
    if word == other:
        return True
    if ("rn" in word or "cl" in word or "vv" in word) and other in _read_so(word):
        return True
    at = next((i for i, (a, b) in enumerate(zip(word, other, strict=False)) if a != b), min(len(word), len(other)))
    if len(word) == len(other):
        if word[at + 1 :] == other[at + 1 :]:  # a letter changed for another
            scanned = word[at] + other[at] in _LOOKS_LIKE  # "eaeh", "stitcb"
            return scanned or (len(word) >= _LONG and 0 < at < len(word))
        swapped = word[at] == other[at + 1] and word[at + 1] == other[at]
        return swapped and word[at + 2 :] == other[at + 2 :]
    if len(other) < 5 or at == 0 or abs(len(word) - len(other)) != 1:
        return False
    short, long = sorted((word, other), key=len)
    return long[at + 1 :] == short[at:]  # doubled or left out
