"""A text's own key, wherever it stands and however it is put: above the rounds or behind the last one.

"single crochet (b), increase (z)", "By 'column' I mean sc.", "* X single crochet, V increase": each part of a line is
asked whether it is a name and a stitch that everybody knows, in either order. A line of nothing else is no course and
no heading; one that tells a name among other words is left what it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from hookside.notation.bodies.tongues import key_of
from hookside.notation.labels.label import at_line_start
from hookside.notation.lines.heads.parts import PARTS
from hookside.notation.vocabulary import COURSE_WORDS, REMEMBERED
from hookside.pattern import Terms
from hookside.stitches import named

_BOTH: tuple[Terms, Terms] = ("US", "UK")
_LONGEST = 400  # letters of a line that may hold a key
_LINES = 600  # of a text that are asked
_NAME = r"[A-Za-z][A-Za-z.'-]{0,11}(?: [A-Za-z.]{1,11}){0,2}"
_WHAT = r"(?P<what>[^=]{2,80})"
# Strong signs take any name, the words of a sentence a quoted or a very short one
_STRONG = r"\s?[=:]\s?|\s?[-=]>\s?|\s-{1,2}\s|\s(?:here |always )?(?:means|stands for|is short for)\s"
_MEANT = r",? (?:I|we) mean |,? (?:it|that|this) (?:means|is) "
_WEAK = r" (?:is|are|for|as) (?:used for |written for |made as )?"
_QUOTED = r"[\"'](?P<quoted>[A-Za-z][A-Za-z. -]{0,15})[\"']"
_SIGNED = re.compile(rf"(?:{_QUOTED}|(?P<name>{_NAME}?))(?P<sign>{_STRONG}|{_MEANT}|{_WEAK}){_WHAT}", re.I)
_BRACKETED = re.compile(
    rf"(?:{_QUOTED}|(?P<name>{_NAME})) ?[(\[](?P<inside>[^()\[\]]{{1,40}})[)\]](?:(?: ?=| (?:is|are)\b).{{0,80}})?",
    re.I,
)
# ... but not who speaks: "I write n for sc"
_BARE = re.compile(rf"(?!I (?:write|use|say|mean|call|put)\b)(?P<name>(?-i:[A-Z]{{1,3}})|[xvatfm]) {_WHAT}", re.I)
_BEHIND = re.compile(
    r"(?P<what>[A-Za-z\d][A-Za-z\d .-]{1,30}?)(?:\s?[=:]\s?|\s-\s)[\"']?(?P<name>[A-Za-z]{1,5})[\"']?", re.I
)
_WIDE = re.compile(r"(?P<name>[A-Za-z]{1,5})[ ]{2,20}(?P<what>[A-Za-z\d][^=]{1,80})")  # "wz   increase (two in one)"
# "Here he is. I write "x" for single crochet, ...": the key begins with that sentence, whatever stands ahead of it
_SPEAKS = re.compile(r"(?<=[.!?:] )(?:I|we) (?:write|use|say|put) (?=[\"'])", re.I)
# What may stand in front of a name: a heading with its colon, "In this pattern", "When I write", "By"
_HEADED = re.compile(r"[^:=]{2,60}:\s+(?=[\"'A-Za-z])|.{0,60}?\.\s+(?=[\"'A-Za-z])")
_LED = re.compile(
    r"(?:in|here|below|note|when(?:ever)?|where(?:ver)?|by|please|also|and|i|we|an?|the|my|with|use)\b[^=:]{0,50}$",
    re.I,
)
_WORD = re.compile(r"(?<![\w'\"])(?=[\w'\"])")
_MOST_LEAD = 8  # words in front of a name
_SEPARATORS = re.compile(
    r"\([^()]{0,60}\)|\[[^\[\]]{0,60}\]|(?P<cut>\s?[,;|/]\s?(?:and |& )?|\.\s+(?![=:(-])|\s{2,}|\s(?:and|&)\s)"
)
_DASHES = re.compile(r"(?P<cut>\s-{1,2}\s)")
_DRESS = " \t.*+#>-"
_THROUGHOUT = re.compile(
    r"\s(?:throughout|everywhere|here|below|stitch(?:es)?|in (?:us|uk|american|british)(?: english)? terms|"
    r"[(\[](?:us|uk)[)\]])$",
    re.I,
)
_ARTICLES = re.compile(r"(?:(?:an?|the|one|1|plain|ordinary|regular|normal|basic|simple|usual|work|make)\s)+", re.I)
# "two in one stitch", "2 sc in the same st", "2 stitches taken together"
_SHAPING = re.compile(
    r"(?:(?:work|make|crochet|put) )?(?:[23]|two|three) ?(?:[a-z]+ ){0,3}?"
    r"(?:in(?:to)? (?:one|1|the same|a single|the next|each)(?: [a-z]{2,10})?|(?:[a-z]+ )?tog(?:ether)?)",
    re.I,
)
_NO_NAMES = frozenset(
    [
        "an", "is", "it", "or", "and", "the", "you", "use", "us", "uk", "in", "of", "to", "do", "as", "at",
        "be", "by", "my", "we", "he", "so", "if", "no", "on", "up", "go", "me", "all", "then", "next",
        "repeat", "rep", "make", "work", "note", "notes", "tip", "start", "begin", "join", "chain", "stitch",
        "stitches", "using", "with", "from", "for", "this", "that", "here", "yarn", "hook", "needle",
        "finish", "total", "also", "each", "first", "last", "second", "third", "one", "two", "three", "body",
        "terms", "size", "special", "abbreviations", "key", "not", "only", "both", "like", "method",
        "beginning", "foundation", "dmc", "fo", "ws", "rs",
    ]
)  # fmt: skip
_HINT = re.compile(r"[=:(\[]|- |\w  +\w|\b(?:is|means|mean|stands|for|[A-Zxva]) ", re.I)


@lru_cache(maxsize=REMEMBERED)
def stitch_meant(what: str) -> str | None:
    """The stitch that a meaning names outright, or "shaping" where it tells two in one or together."""
    plain = what.strip(" \t.,;\"'")
    if not 1 < len(plain) <= 80:
        return None
    first = re.split(r"[,(;\[]|\s=\s", plain)[0].strip(" \"'")
    for words in (plain, first, *re.findall(r"[(\[]=?\s?([^()\[\]]{2,40})[)\]]", plain), *plain.split(" = ")[1:]):
        bare = _THROUGHOUT.sub("", words.strip(" .\"'"))
        bare = _ARTICLES.sub("", bare, count=1) if _ARTICLES.match(bare) else bare
        for each in (words.strip(), bare):
            known = next((entry.key for terms in _BOTH if (entry := named(each, terms)) is not None), None)
            if known is not None or (known := key_of(each)) is not None:
                return known
        if _SHAPING.fullmatch(bare):
            return "shaping"
    return None


def _known(name: str) -> str | None:
    return next((entry.key for terms in _BOTH if (entry := named(name, terms)) is not None), None)


def _may_name(name: str, quoted: bool, weak: bool, what: str) -> bool:
    """Can these letters stand for a stitch?"""
    low = name.lower().strip(" .")
    words = low.split()
    if not words or len(low) > 16 or any(w in COURSE_WORDS for w in words):
        return False
    if quoted:
        return not all(w in _NO_NAMES for w in words)
    if any(w in _NO_NAMES for w in words):
        return False
    if any(w in PARTS for w in words) or (weak and len(low) > 2):
        return False
    ours = _known(low)
    return ours is None or ours == stitch_meant(what) or len(low) < 4


def pair(part: str) -> tuple[str, str] | None:
    """A name and the stitch it stands for, where a part of a line is nothing else."""
    part = part.strip(_DRESS)
    if not 3 <= len(part) <= 120:
        return None
    signed = _SIGNED.fullmatch(part)
    if signed is not None:
        name, what = signed["quoted"] or signed["name"], signed["what"]
        weak = re.fullmatch(_WEAK, signed["sign"]) is not None
        if stitch_meant(what) and _may_name(name, bool(signed["quoted"]), weak, what):
            name, what = name.strip(" ."), what.strip(" .\"'")
            return (what, name) if len(what) < 6 < len(name) and _known(name) else (name, what)
    bracketed = _BRACKETED.fullmatch(part) if part[-1:] in ")]" or ")" in part or "]" in part else None
    if bracketed is not None:
        name, inside = bracketed["quoted"] or bracketed["name"], bracketed["inside"].strip("= \"'")
        if stitch_meant(inside) and _may_name(name, bool(bracketed["quoted"]), False, inside) and not _known(name):
            return name.strip(" ."), inside
        if stitch_meant(name) and len(inside) < 7 and _may_name(inside, False, False, name) and inside.isalpha():
            return inside, name
    turned = _BEHIND.fullmatch(part)
    if turned is not None and stitch_meant(turned["what"]) and not _known(turned["name"]):
        return (turned["name"], turned["what"].strip()) if _may_name(turned["name"], False, False, "") else None
    bare = _BARE.fullmatch(part)
    if bare is not None and stitch_meant(bare["what"]) and not _known(bare["name"] + " " + bare["what"]):
        return bare["name"], bare["what"].strip(" .")
    return None


def _parts(line: str, cuts: re.Pattern[str]) -> Iterator[str]:
    at = 0
    for match in cuts.finditer(line):
        if match["cut"] is None:
            continue
        yield line[at : match.start()]
        at = match.end()
    yield line[at:]


_COURSE = re.compile(r"[^\w\n]{0,6}(?:\d|(?:r|rnds?|rounds?|rows?|rds?)\.? ?\d)", re.I)


def _may_be_key(line: str) -> bool:
    return len(line) <= _LONGEST and _COURSE.match(line) is None and _HINT.search(line) is not None


@lru_cache(maxsize=REMEMBERED)
def pairs(line: str) -> tuple[tuple[str, str], ...]:
    """The (name, meaning) pairs of a line that is a key and nothing else."""
    line = line.strip(_DRESS)
    if not _may_be_key(line):
        return ()
    if line[:1] == "(" and line[-1:] == ")" and ")" not in line[1:-1]:
        line = line[1:-1]
    speaks = _SPEAKS.search(line)
    line = line[speaks.start() :] if speaks else line
    best: tuple[tuple[str, str], ...] = ()
    for cuts in (_SEPARATORS, _DASHES):
        parts = list(_parts(line, cuts))
        found = _told(parts) if cuts is _SEPARATORS or len(parts) > 1 else ()
        best = found if len(found) > len(best) else best
    wide = _WIDE.fullmatch(line) if not best and "  " in line else None
    if wide is not None and stitch_meant(wide["what"]) and _may_name(wide["name"], False, False, wide["what"]):
        return ((wide["name"], wide["what"].strip(" .")),)
    return best


def _behind_lead(part: str, first: bool) -> tuple[str, str] | None:
    """A pair behind a heading or the words of a sentence: of these as many as can be, so that a name is short."""
    if first and (head := _HEADED.match(part)) is not None and (told := pair(part[head.end() :])) is not None:
        return told
    part = part.strip(_DRESS)
    starts = [m.start() for m in _WORD.finditer(part, 1)][:_MOST_LEAD] if _LED.match(part[:50]) else []
    pairs_found = (pair(part[at:]) for at in reversed(starts))
    return next((each for each in pairs_found if each is not None and each[0] != "a"), None)


def _told(parts: list[str]) -> tuple[tuple[str, str], ...]:
    found: list[tuple[str, str]] = []
    loose = 0
    for index, part in enumerate(parts):
        told = pair(part) or _behind_lead(part, first=not found)
        if told is not None:
            found.append(told)
        elif found and len(part) > 1:
            loose += 1
        elif index and len(part) > 1:
            return ()
    names = {name.lower() for name, _ in found}
    whats = {stitch_meant(what) for _, what in found}
    sound = len(names) == len(found) and loose <= len(found) and (len(found) == 1 or len(whats) > 1)
    return tuple(found) if sound else ()


def key_lines(text: str, lines: list[tuple[int, int]]) -> dict[int, tuple[tuple[str, str], ...]]:
    """Lines that are a key and nothing else, by where they begin. One name by itself needs a plain sign of a key."""
    found: dict[int, tuple[tuple[str, str], ...]] = {}
    alone: list[int] = []  # lines of one name, below a line that is no key
    asked = 0
    above: tuple[tuple[str, str], ...] = ()
    for start, end in lines:
        line = text[start:end]
        if not line or line.isspace():
            continue
        told: tuple[tuple[str, str], ...] = ()
        if asked < _LINES and _may_be_key(line) and at_line_start(text, start, end) is None:
            asked += 1
            told = pairs(line)
        if told:
            found[start] = told
            if alone and above:
                alone.pop()  # the next one bears it out
            elif len(told) == 1 and not above and "=" not in line:
                alone.append(start)
        above = told
    for start in alone:
        del found[start]
    return found
