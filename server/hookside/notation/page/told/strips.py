"""Strips told in one line: "Bow: ch 5, 4 sc, 6 rows.", "Strap: ch 5, 6 rows of 4 sc, FO." They get a row for each.

One that is told in any other way stays as it stands, and what it asks for besides its first row is said.
"""

from __future__ import annotations

import re

from hookside.notation.page.edits import Edit, put
from hookside.notation.vocabulary import AMOUNT, number_of

_N = AMOUNT
_ST = r"(?:sc|hdc|dc|htr|tr|single crochets?|double crochets?|half double crochets?|trebles?|half trebles?)"
_ROWS = re.compile(r" rows?\b|\bturn x ?\d", re.I)
_LINE = re.compile(
    r"(?P<name>[^\W\d][^:\n]{0,40}?(?::| ?[-\u2013\u2014]) )?"
    rf"(?P<chain>(?:(?:make|start with|begin with|work) )?(?:a )?(?:chain|ch)(?: of)? {_N}(?: ch\b| chains\b)?)"
    r"(?:[,.;:]| and\b| then\b|,? turn\b){1,3} (?:turn[,.;] )?"
    rf"(?:(?P<first>(?P<m>\d{{1,3}}) (?P<st>{_ST})(?: across| along it)?|(?P<st2>{_ST}) in (?:the )?(?:2nd|second) "
    r"ch(?:ain)?\b[^\n;:]{2,80}?|(?P<st3>sc|dc) across)"
    r"(?:(?:[,.;]| x| \*)?(?: ch 1,? turn[,.;]?| turn[,.;]?| and turn[,.;]?)?)"
    rf"(?: (?:(?:work|do|for|make|then|and|in|repeat(?= (?:for )?{_N} more)) ){{0,3}}(?P<k>{_N}) (?P<more>more )?rows|"
    # "ch 7, 6 sc, ch 1 turn x4"
    r"(?<=turn) x ?(?P<k3>\d{1,2})(?!\d))"
    rf"(?: of (?P<m2>\d{{1,3}})(?: {_ST}| sts| stitches)?| of (?:this|these|it))?|"
    rf"(?:(?:work|do|make|then) )?(?P<k2>{_N}) rows (?:of|with|x) (?P<first2>(?P<m3>\d{{1,3}}) (?P<st4>{_ST})))"
    r"(?: each| each row)?(?:,? (?:in all|in total|total|altogether))?"
    r"(?P<tail>\W*|[.,;] [^\n]{2,80})",
    re.I,
)
_BARE_NAME = re.compile(r"(?:\A|\n)[^\n\d.:;]{2,40}:?[ \t]*\n\Z")
_WORKS_ON = re.compile(rf"\b(?:{_ST}|inc|dec|ch|chain|rows?|rounds?|rnds?)\b", re.I)
_LONGEST = 200  # letters of such a line
_NEAR = 60


def parted(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such a strip in lines of its own, and the way back."""
    edits: list[Edit] = []
    told = -1
    for rows in _ROWS.finditer(text):
        start = text.rfind("\n", 0, rows.start()) + 1
        end = text.find("\n", rows.end())
        end = len(text) if end < 0 else end
        if start == told or end - start > _LONGEST:
            continue
        told = start
        strip = _LINE.fullmatch(text, start, end)
        if strip is None or not (strip["name"] or below_a_name(text, start)):
            continue
        edits.extend(_in_rows(strip))
    return put(text, offsets, edits) if edits else (text, offsets)


def below_a_name(text: str, start: int) -> bool:
    """Does the line that begins there stand right below one that may be the name of its part?"""
    return _BARE_NAME.search(text, max(0, start - _NEAR), start) is not None


def _in_rows(strip: re.Match[str]) -> list[Edit]:
    """What goes between the words of a strip, so that each of its rows has a label."""
    amount = strip["m"] or strip["m3"]
    stitch = strip["st"] or strip["st2"] or strip["st3"] or strip["st4"]
    many = number_of(strip["k"] or strip["k2"] or strip["k3"]) + bool(strip["more"])
    if many < 2 or _WORKS_ON.search(strip["tail"]) or (amount and strip["m2"] and amount != strip["m2"]):
        return []
    first = strip["first"] or strip["first2"]
    edits: list[Edit] = []
    if strip["name"]:
        seam = strip.start("chain") - len(strip["name"]) + len(re.sub(r" ?[:\u2013\u2014-] $", "", strip["name"]))
        edits.append((seam, strip.start("chain"), "\n"))
    ahead = strip.end("chain")
    rest = strip["tail"].lstrip(" .,;)")
    rows = f".\nRow 1: {first}\nRow{'s' if many > 2 else ''} 2{f'-{many}' if many > 2 else ''}: {stitch} across\n"
    edits.append((ahead, strip.end() - len(rest), rows))
    return edits
