"""Copies of one part that are told by their sorts: "Buttons (1 red, 1 green, 1 blue)", "Ears - 2 outer, 2 inner",
"Petals, 3 of each: pink and white"."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from hookside.colours import COLOURS, SHADES
from hookside.notation.lines.heads.parts import PARTS
from hookside.notation.vocabulary import COPIES, NUMBER_WORDS, REMEMBERED, number_of

_LONGEST = 120  # characters of a heading
_MOST = 60
# Where they begin behind the name
_SEAM = re.compile(r"\s*(?:[(\[{]|:|,|\.(?=\s)|\s-+(?=\s)|(?<=[a-z])-+(?=\s)|(?<=[A-Za-z])\s(?=x ?\d|\d{1,2} ?x\s|"
    r"\d{1,2} (?:[A-Za-z]+ ){1,2}(?:(?:[+&]|and) )?\d))\s*")
_LED = re.compile(
    r"(?:(?:you(?:'ll)?|we|to|will|please|i|make|made|work|crochet|need|want|do)\s+)*"
    rf"(?:(?P<all>{COPIES})(?:\s?x)?(?:\s+(?:pieces|pcs|details|in all|in total|altogether|copies|alike|identical))*"
    r"\s*(?:[:=,-]+|\(|-\s)\s*)?",
    re.I,
)
_JOINT = re.compile(r"\s*(?:[,;/+&]+(?:\s*and\b|\s*then\b)?|\band\b|\bplus\b|\bthen\b)\s*", re.I)
_FIRST = re.compile(
    rf"(?:x\s?(?P<x>\d{{1,2}})|(?P<n>{COPIES})(?:\s?x)?)(?:\s+(?:pieces|pcs|ones?|copies))?\s+"
    r"(?:(?:is|are|in|of|from|the|worked|made|to be)\s+)*(?P<sort>[A-Za-z][A-Za-z' -]*)",
    re.I,
)
_LAST = re.compile(
    rf"(?P<sort>[A-Za-z][A-Za-z' -]*?)\s*[(:=]?\s*(?:x\s?(?P<x>\d{{1,2}})|(?P<n>{COPIES})(?:\s?x)?)\)?", re.I
)
# "2 long 2 short": nothing parts one from the other but its number
_UNPARTED = re.compile(r"(?<=[a-z])\s+(?=(?:\d{1,2}|x\d)\s?x?\s)", re.I)
_EACH = re.compile(
    rf"(?P<n>{COPIES})(?:\s?x)?\s+(?:(?:of|in|for)\s+)?each(?:\s+(?:colou?r|shade|one|size))?"
    r"(?:\s*[:,-]|\s+(?:in|of|with))?\s+(?P<list>.+)|"
    rf"(?P<list2>.+?)\s*[,:-]\s*(?P<n2>{COPIES})(?:\s?x)?\s+(?:(?:of|in)\s+)?each(?:\s+(?:colou?r|shade|size))?",
    re.I,
)
_KINDS = frozenset(
    [
        "outer", "inner", "outside", "inside", "left", "right", "front", "back", "upper", "lower", "top", "bottom",
        "large", "larger", "small", "smaller", "big", "bigger", "medium", "little", "tiny", "long", "longer", "short",
        "shorter", "wide", "narrow", "thick", "thin", "tall", "plain", "striped", "mirrored", "reversed", "closed",
        "open", "hind", "fore", "rear", "middle", "round", "flat",
    ]
)  # fmt: skip
# Of what there is one: "Body 2 navy and 2 white" are its rounds
_ALONE = frozenset(["body", "head", "torso", "trunk", "neck", "base", "hull", "hat"])
# "Yarn: 2 white, 1 black", "Pieces: 2 paws and 3 leaves"
_NO_NAME = re.compile(
    r"\b(?:yarns?|wool|skeins?|hanks?|threads?|cotton|colou?rs?|materials?|rounds?|rows?|rnds?|parts?|pieces?|details?)"
    r"\W*$",
    re.I,
)
_OF_COPIES = re.compile(r"\b(?:x ?\d|\d ?x|in|make|work|one|two|three|each|pieces|pcs|copies)\b", re.I)
_BESIDE = frozenset(
    ["with", "yarn", "colour", "color", "ones", "one", "wool", "cotton", "shade", "size", "side", "and", "the"]
)
# What is worked, bought or measured, and of which a number is no number of copies
_NO_SORT = frozenset(
    [
        "sc", "dc", "hdc", "htr", "tr", "dtr", "inc", "dec", "ch", "chs", "chain", "chains", "st", "sts", "stitch",
        "stitches", "round", "rounds", "rnd", "rnds", "row", "rows", "times", "time", "mm", "cm", "inch", "inches", "g",
        "oz", "more", "loops", "loop", "sl", "ss", "slip", "single", "double", "half", "treble", "each", "every", "per",
        "all", "total", "picot", "strands", "balls", "skeins", "eyes", "beads", "x", "from", "until", "then", "to",
        "magic", "ring", "mr", "part", "step", "rd", "rds", "r", "colour", "color", "colours", "colors", "yarn",
        "yarns",
    ]
)  # fmt: skip


Told = tuple[tuple[int, str], ...]


class Sorts(NamedTuple):
    """The sorts in their order, as told, with how many of each; text[start:end] tells them, text[:name] names the part.

    `dyed`: each is a color and nothing else."""

    each: Told
    name: int
    start: int
    end: int
    dyed: bool

    @property
    def made(self) -> int:
        return sum(n for n, _ in self.each)


@lru_cache(REMEMBERED)
def sorts(text: str) -> Sorts | None:
    """What a heading tells so; None where it tells no such thing."""
    if len(text) > _LONGEST or not _promises(text):
        return None
    for seam in list(_SEAM.finditer(text))[:4]:
        name = text[: seam.start()]
        if not re.search(r"[A-Za-z]{2}", name):
            continue
        end = len(text.rstrip(" .:;)]}*_#"))
        words = text[seam.end() : end]
        if words.count("(") > words.count(")") and text[end : end + 1] == ")":
            end += 1
        found = told(words, _manifold(name))
        if found is None or _NO_NAME.search(name):
            continue
        dyed = any(_is_shade(sort) for _, sort in found) and not any(_KINDS.intersection(_words(s)) for _, s in found)
        added = seam[0].isspace() and name.strip().lower() not in _ALONE  # "Leaf 3 green + 1 red"
        if dyed and not (_plural(name) or added or _OF_COPIES.search(words) or all(n == 1 for n, _ in found)):
            return None  # "Body (2 navy, 2 white)": rounds, or copies
        return Sorts(found, seam.start(), seam.end(), end, dyed)
    return None


def told(words: str, manifold: bool = True) -> Told | None:
    """ "1 red, 1 green and 2 blue" -> ((1, "red"), (1, "green"), (2, "blue")). `manifold`: there may be sorts of any
    name, and not those alone that are in everyone's mouth."""
    if len(words) > _LONGEST or not _promises(words):
        return None
    words = words.strip(" .:;)]}([{")
    each = _EACH.fullmatch(words)
    if each is not None:
        listed = [one.strip() for one in _JOINT.split(each["list"] or each["list2"])]
        known = len(listed) > 1 and all(_known(one) for one in listed)
        return _held([(number_of(each["n"] or each["n2"]), one) for one in listed], 0) if known else None
    lead = _LED.match(words)
    whole = number_of(lead["all"]) if lead is not None and lead["all"] else 0
    rest = words[lead.end() if lead is not None else 0 :]
    chunks = [piece for chunk in _JOINT.split(rest) for piece in _UNPARTED.split(chunk)]
    found: list[tuple[int, str]] = []
    for chunk in chunks:
        item = _FIRST.fullmatch(chunk) or _LAST.fullmatch(chunk)
        if item is None:
            return _listed(chunks, whole)
        found.append((int(item["x"]) if item["x"] else number_of(item["n"]), item["sort"].strip()))
    if not all(_known(sort) or (manifold and _likely(sort)) for _, sort in found):
        return None
    return _held(found, whole)


def of_copies(each: Told) -> list[str]:
    """Of which sort each copy is."""
    return [sort for n, sort in each for _ in range(n)]


def _listed(chunks: list[str], whole: int) -> Told | None:
    """ "make 3: red, green, blue": one of each."""
    plain = len(chunks) == whole and all(_is_shade(chunk) for chunk in chunks)
    return _held([(1, chunk.strip()) for chunk in chunks], whole) if plain else None


def _held(found: list[tuple[int, str]], whole: int) -> Told | None:
    made = sum(n for n, _ in found)
    named = {sort.lower() for _, sort in found}
    if len(found) < 2 or len(named) < len(found) or not 1 < made <= _MOST or 0 in {n for n, _ in found}:
        return None
    return tuple(found) if whole in (0, made) else None


def _promises(text: str) -> bool:
    low = text.lower()
    joined = any(sign in low for sign in (",", ";", "/", "+", "&", " and ", " plus ", " then "))
    if not joined and not _UNPARTED.search(low):
        return False
    return any(c.isdigit() for c in low) or any(w in NUMBER_WORDS for w in re.findall(r"[a-z]{3,6}", low))


def _plural(name: str) -> bool:
    words = re.findall(r"[a-z]+", name.lower())
    return bool(words) and (words[-1].endswith("s") or words[-1] in ("feet", "teeth"))


def _manifold(name: str) -> bool:
    """May there be more than one of what is named so?"""
    words = re.findall(r"[a-z]+", name.lower())
    return bool(words) and (_plural(name) or words[-1] in PARTS)


def _words(sort: str) -> list[str]:
    return [word for word in re.split(r"[^a-z']+", sort.lower()) if word]


def _is_shade(sort: str) -> bool:
    if len(sort) == 1 and sort.isupper():
        return True
    words = [word for word in _words(sort) if word not in _BESIDE]
    return bool(words) and words[-1] in COLOURS and not any(word in _KINDS or word in _NO_SORT for word in words)


def _known(sort: str) -> bool:
    words = [word for word in _words(sort) if word not in _BESIDE]
    sure = any(word in COLOURS or word in _KINDS for word in words)
    plain = all(word in COLOURS or word in SHADES or word in _KINDS or word in PARTS for word in words)
    return (len(sort) == 1 and sort.isupper()) or (sure and plain) or (0 < len(words) <= 2 and _is_shade(sort))


def _likely(sort: str) -> bool:
    words = _words(sort)
    return 0 < len(words) <= 3 and len(words[-1]) > 2 and not any(w in _NO_SORT or w in NUMBER_WORDS for w in words)
