"""Signs of a list in front of what it lists: "1.1 Row 1: ...", "A.2 R2: ...", "B. Rnd 2 = ...", "[pic 3] Rnd 3 - ...".

Numbers of an outline are told by their order: each is the next one on its level, or the first one below. Those above
others head a part. Letters are told by going up from A in every list of them, where the text calls no yarn by one. They
are taken out, or are the labels where the rounds have no others; the length stays.
"""

from __future__ import annotations

import re
from itertools import pairwise

from hookside.notation.labels.patterns import COURSE

_FEWEST = 3  # signs in order; two may stand so by chance
_LINE = re.compile(
    r"^[ ]{0,8}(?P<sign>[(\[\u00a7]?[ ]?(?P<number>(?:\d{1,2}|[A-Z])(?:\.\d{1,2}){1,3}|\d{1,2}(?=[.)]))\.?"
    r"[)\]]?[.:)-]?[ ]{1,4})(?=(?P<rest>\S[^\n]{0,300}))",
    re.M,
)
OUTLINE = re.compile(r"^[ ]{0,8}[(\[\u00a7]?[ ]?[\dA-Z]{1,2}\.[\d.]*2\b", re.M)  # a hint of them
_LABELLED = re.compile(rf"{COURSE}s?\.?[ ]?#?\d", re.I)
_BEFORE_LABEL = re.compile(
    rf"^[ ]{{0,8}}(?P<letter>[A-Z])[.):][ ]{{1,4}}(?P<label>(?={COURSE}s?\.?[ ]?#?\d))", re.M | re.I
)
# "d) Stuff it." among "c) Rnd 3: ...", "a) Black yarn. Rnd 1: ..."
_STEP = re.compile(
    rf"^[ ]{{0,8}}(?P<letter>[A-Z])[.)][ ]{{1,4}}(?P<label>(?={COURSE}s?\.?[ ]?#?\d))?(?=[A-Za-z(*\[])", re.M | re.I
)
LETTER = re.compile(r"^[ ]{0,8}[Cc][.):] ", re.M)  # a hint: three of them
_A_YARN = re.compile(
    r"(?<![^\W_])[A-H][ ]?[=(-][ ]?[a-z]{3}|[a-z]{3}[ ]?[(=][ ]?[A-H]\)?(?![^\W_])|"
    r"\b(?:colou?r|yarn|shade)[ ][A-H]\b",
    re.I,
)
_SHOWN = r"(?:photo(?:graph)?|picture|pict?|figure|fig|image|img|illustration|step photo)s?"
_WHICH = r"\.?[ ]?(?:#|no\.?[ ])?[ ]?\d{1,3}[a-z]?(?:[ ]?(?:-|,|&|and|to)[ ]?\d{1,3})?"
# before what it shows, or in a bracket in the middle of a line: "(see photo 3)"
_PICTURE = re.compile(
    rf"^[ ]{{0,8}}(?:[(\[{{][ ]?{_SHOWN}{_WHICH}[ ]?[)\]}}][ ]?[:.-]?[ ]{{0,4}}(?=[A-Za-z*(\d])|"
    rf"{_SHOWN}{_WHICH}[ ]?[:-][ ]{{0,4}}(?={COURSE}s?\.?[ ]?#?\d))|"
    rf"[(\[{{](?<=\S[ ].)[ ]?(?:(?:see|as in|look at)[ ](?:the[ ])?{_SHOWN}"
    rf"(?:{_WHICH}|[ ](?:above|below|on the (?:left|right)))?|{_SHOWN}{_WHICH})[ ]?[)\]}}]",
    re.M | re.I,
)
PICTURE = ("hoto", "HOTO", "ict", "pic", "Pic", "PIC", "fig", "Fig", "mage", "img", "llust")  # a hint of them


def _place(number: str) -> tuple[int, ...]:
    """ "2.10" -> (2, 10), "B.1" -> (2, 1)."""
    return tuple(ord(part) - ord("A") + 1 if part.isalpha() else int(part) for part in number.split("."))


def _behind(a: tuple[int, ...], b: tuple[int, ...]) -> bool:
    """Does an outline go from one place to the other?"""
    if len(b) > len(a):
        return b[: len(a)] == a and set(b[len(a) :]) <= {0, 1}
    # "1.3" -> "1.4", "1.4" -> "2.0", and "1.4" -> "2.1" where the part has no number of its own
    return any(b[:n] == a[:n] and b[n] == a[n] + 1 and set(b[n + 1 :]) <= {0, 1} for n in range(len(b)))


def outlined(text: str) -> str:
    """The page without the numbers of an outline."""
    lines = [(match, _place(match["number"])) for match in _LINE.finditer(text)]
    deep = [(m, place) for m, place in lines if len(place) > 1]
    if len(deep) < _FEWEST or not all(_behind(a, b) for (_, a), (_, b) in pairwise(deep)):
        return text
    labelled = any(_LABELLED.match(m["rest"]) for m, _ in deep)
    depth = max(len(place) for _, place in deep)
    out, at = [], 0
    for n, (match, place) in enumerate(lines):
        below = lines[n + 1][1] if n + 1 < len(lines) else ()
        heads = place[-1] == 0 or (len(below) > len(place) and below[: len(place)] == place)
        if not heads and len(place) == 1:
            continue
        start, end = match.span("sign")
        sign = "# " if heads else "" if labelled or len(place) < depth else f"{place[-1]}:"
        out += [text[at:start], sign.ljust(end - start)]
        at = end
    return "".join(out) + text[at:]


def lettered(text: str) -> str:
    """The page without letters that go up from A in every list of them, before labels and what is done between."""
    if _A_YARN.search(text):
        return text
    for rule in (_STEP, _BEFORE_LABEL):
        led = list(rule.finditer(text))
        labels = sum(m["label"] is not None for m in led)
        places = [ord(m["letter"].upper()) - ord("A") for m in led]
        if labels < _FEWEST or 2 * labels < len(led) or places[0]:
            continue
        if all(b in (a + 1, 0) for a, b in pairwise(places)):
            return rule.sub(lambda m: " " * len(m[0]), text)
    return text


def pictured(text: str) -> str:
    """The page without the numbers of pictures in front of what they show, or beside it."""
    return _PICTURE.sub(lambda m: " " * len(m[0]), text)
