"""Rounds that say first what they come to and how in brackets: "2: 12 sc (2 per st)", "9. 12 (decrease twelve times)".

The bracket becomes the work and the number its count, "2: 2 per st (12)", where it grows or shrinks the round before.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

_LABEL = (
    rf"^[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?#?)?\d{{1,3}}(?:[ ]?(?:-|to|and|&)[ ]?\d{{1,3}})?"
    r"[ ]?[:.)=-]{1,2}[ ]{1,4}"
)
_LINE = re.compile(rf"{_LABEL}(?P<body>\S[^\n]{{0,200}})", re.M | re.I)
_BODY = re.compile(
    r"(?P<n>\d{1,3})(?:[ ](?P<st>sc|[hd]?dc|h?tr|sts?|single crochets?|stitches))?,?[ ]"
    r"\((?P<how>[^()\n=]{3,60})\)(?=[ ]?(?:[.;,!][ ]|[.;,!]?$))",
    re.I,
)
_HINT = re.compile(r"\d[a-z ]{0,16},? \([^()\n]{0,40}(?:\binc|\bdec|together|\btog|\bper |2 in |\beach\b)", re.I)
_GROWS = re.compile(r"\binc|\b(?:2|two)(?: [a-z]+)? (?:in|into|per)\b|doubl", re.I)
_SHRINKS = re.compile(r"\bdec|together|\btog\b|2tog\b", re.I)
_NONE = re.compile(r"\b(?:no|not|without|plain|even)\b", re.I)
_COUNT = re.compile(r"[(\[=]\s?(?P<n>\d{1,3})(?:\s(?:sts?|sc))?\s?[)\]]?\W*$")
_SO_MANY = re.compile(r"\d{1,2} (?:inc|dec)[a-z]*")
_EACH_TIME = re.compile(r"(?<=dec |inc )each time|(?<=decrease |increase )each time", re.I)
_EXPLAINED = re.compile(r"(?:inc|dec)[a-z]* [a-z0-9 ]{3,30}: (?=[^:]*(?:\binc|\bdec))", re.I)
_FEWEST = 2  # such rounds; a lone one may be a remark


def _before(body: str) -> int | None:
    """What a round comes to, as far as its line says it."""
    told = _COUNT.search(body) or re.search(r"(?P<n>\d{1,3})", body)
    return int(told["n"]) if told is not None else None


def _work(how: str) -> str:
    """The words of a bracket as a round is told."""
    how = _EXPLAINED.sub("", how.strip())
    how = _EACH_TIME.sub("all", how)
    if "," in how and "rep" not in how.lower():
        return f"({how}) around"
    return f"{how} evenly" if _SO_MANY.fullmatch(how) else how


def put_behind(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds the usual way round, and the way back."""
    if not _HINT.search(text):
        return text, offsets
    found: list[tuple[int, int, str]] = []
    last: int | None = None
    sure = False  # a round told so is twice or half of the one before: no remark, even by itself
    for line in _LINE.finditer(text):
        told = _BODY.match(line["body"])
        n = int(told["n"]) if told is not None else None
        if told is not None and n is not None and last is not None and not _NONE.search(told["how"]):
            grows, shrinks = _GROWS.search(told["how"]), _SHRINKS.search(told["how"])
            if (grows and not shrinks and last < n <= 3 * last) or (shrinks and not grows and last / 3 <= n < last):
                at = line.start("body")
                sure = sure or n == 2 * last or 2 * n == last
                found.append((at, at + told.end(), f"{_work(told['how'])} ({n})"))
        last = n if n is not None else _before(line["body"])
    if len(found) < _FEWEST and not sure:
        return text, offsets
    way = list(range(len(text))) if offsets is None else offsets
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for start, end, new in found:
        parts += [text[at:start], new]
        back += way[at:start]
        back += [way[min(start + i, end - 1)] for i in range(len(new))]
        at = end
    parts.append(text[at:])
    back += way[at:]
    return "".join(parts), back
