"""The printed count at the very end of a body, in the dresses that can be nothing else: "~ 24 sc", "<24 sts>"."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from hookside.colours import COLOURS

_NOUN = (
    r"(?:sts?|st's|stitch(?:es)?|sc|[hd]dc|dc|htr|tr|(?:half )?(?:single|double|treble) (?:treble )?crochets?|"
    r"half trebles?|trebles?)"
)
_ALL = r"(?:,? ?(?:in (?:total|all|(?:the |this |each )?(?:round|rnd|row))|total|altogether|now))?"
_TOLD = rf"(?P<n>\d{{1,4}})(?: ?{_NOUN}\b\.?)?{_ALL}"
_REMAIN = r"(?:remain(?:s|ing)?|rem|left)\b"
_NAMED = rf"(?P<n>\d{{1,4}}) ?{_NOUN}\b\.?{_ALL}"
# "first st - 24", but not "rows 2 - 3", "in next - 6"
_NO_SPAN = r"(?<!\d)(?<!\bnext)(?<!\blast)(?<!\bin)(?<!\bto)(?<!\bof)(?<!\bthe)(?<!\beach)(?<!\bx)(?<![*(\[,:])"
_COUNT = r"(?:total(?: (?:sts?|stitches|count))?|(?:sts?|stitch(?:es)?)[ -]?count|count)(?: is)?\s*[:=]?"
_WORDS = (
    rf"{_COUNT}|(?:your|this|the) (?:round|row|rnd) (?:now )?has|"
    r"(?:you|there) (?:(?:will|should) )?(?:now )?(?:have|are|be)"
)
# Each dress, and what can stand before its number: one of these signs, or a word ("w")
_TAILS = tuple(
    (before, re.compile(rf"{dress}\s*[.!]?\s*$", re.I))
    for before, dress in (
        ("w:=", rf"(?:^|[.,;]\s*)(?:{_WORDS})\s*{_TOLD}"),
        ("w:=", rf"(?:^|[.,;]\s*|(?<=[\w)\]}}*])\s+){_COUNT}\s*{_TOLD}"),
        ("w<:=", rf"\s*<\s*(?:total:? ?|= ?)?{_TOLD}\s*>"),
        ("*", rf"\s*\*\s*{_TOLD}\s*\*"),
        # "/24/", "|24|", "~24~"
        ("/|\\~\"#^_!:+-.", rf"\s*(?P<sign>[/|\\~\"#^_!:+]|--|\.\.)\s?{_TOLD}\s?(?P=sign)"),
        ("/", rf"(?<=[a-z)\]}}*])\s+/\s*{_TOLD}"),
        ("~=>", rf"\s*(?:[~=]>?|->)\s*{_TOLD}"),
        ("-", rf"(?:(?<=ch 1)|(?<=ch 2)|{_NO_SPAN})\s+--?\s*{_TOLD}"),
        ("-", rf"(?:\s+--?\s*|(?<=\bjoin)-){_NAMED}"),
        (
            ".:",
            r"\s*(?:\.\.+|(?<!side)(?<!chain)(?<!ring)(?<!bottom)(?<!loops)(?<!only)(?<!back)(?<!then)(?<!ch):)"
            rf"\s*{_NAMED}",
        ),
        # "ss to first dc: 72"
        (":", rf"(?P<work>\b(?:ss|sl st|join)\b[^:;.\d]{{0,30}}(?:\d ?ch|ch ?-?\d)?)\s*:\s*{_TOLD}"),
        (":", rf"(?P<work>\btimes|\bx ?\d{{1,3}}|\baround|\bend|[)\]}}])\s*:\s*{_TOLD}"),
        (".,;", rf"(?:^|(?<=[\w)\]}}*]))[.,;]\s+(?P<n>\d{{1,4}}) {_NOUN} (?:in (?:total|all)|total|altogether)"),
        # "Mr, 6sc      6": a column of its own, behind work that says how much it is
        ("w)]}*0123456789", r"(?P<work>(?:\d|around|each|every)[^\n]{0,32}[^\s\d]\d{0,3})[ ]{3,}(?P<n>\d{1,4})"),
        # "sc            24": the same behind a plain round
        ("w", r"(?P<work>^\W*(?:\([a-z ]{2,20}\) ?)?(?:sc|[hd]?dc|h?tr))[ ]{3,}(?P<n>\d{1,4})"),
        # "Repeat row 5. 4 sc remain.", "There are 4 sc left"
        ("w.;-", rf"(?:^|[.;]\s+|\s-+\s+)(?:(?:{_WORDS}|this leaves(?: you(?: with)?)?)\s+)?{_NAMED} {_REMAIN}"),
        # "no change, is 24"
        ("w", rf"(?:^\W{{0,4}}|(?<=[\w)\]}}*])[.,;:]\s+)(?:is|still|makes|that(?:'s| is| makes)|comes to) {_TOLD}"),
        ("w", r"(?<=[a-z\d])(?<![,;] [sdt][cr])(?<![,;] hdc)\s+(?:for|to make) (?P<n>\d{1,4}) (?:sts|stitches)"),
    )
)
_BRACKETED = "w([{=:", re.compile(rf"[(\[{{]\s*(?:(?:{_WORDS})\s*|= ?)?{_TOLD}\s*[)\]}}]\s*[.!]?\s*$", re.I)
_LONGEST = 48  # letters of the longest of them
_LAST_NUMBER = re.compile(r".*(?<!\d)(?P<n>\d+)", re.S)
# What may stand behind the digits of any of them, and nothing else
_BEHIND = re.compile(
    rf"(?: ?{_NOUN}\b\.?| {_NOUN})?{_ALL}(?: {_REMAIN})?\s*(?:[>*/|\\~\"#^_!:+)\]}}]|--|\.\.)?\s*[.!]?\s*$", re.I
)


class Tail(NamedTuple):
    """A printed count: its digits are body[start:end], all that belongs to it begins at `at`."""

    n: int
    start: int
    end: int
    at: int


def _of_colour(line: str, match: re.Match[str]) -> bool:
    """ "white: 5 sc, red: 7 sc": an amount in a colour, and no count."""
    return match[0].lstrip().startswith(":") and line[: match.start()].rsplit(" ", 1)[-1].lower() in COLOURS


_LISTED = re.compile(r"(?P<sign>[/>|-])\s?\d{1,3} ?(?:sc|[hd]dc|dc|htr|tr)\b\.?$")
_LAST_OF_LIST = 12  # letters of the longest of them
_GOES_ROUND = re.compile(
    r"\b(?:x|times|twice|around|rep(?:eat)?|each|every|all|to end|across)\b|[)\]}*]|\d ?x\b|\bx ?\d"
)


def of_list(line: str) -> bool:
    """ "2 sc / 4 dec / 2 sc": the last of a list that such a sign parts, and no count behind a stroke or a dash."""
    line = line.rstrip(" .")
    last = _LISTED.search(line, max(0, len(line) - _LAST_OF_LIST))
    if last is None or _GOES_ROUND.search(line):
        return False
    before = rf"[a-z\d]\s?{re.escape(last['sign'])}\s?\d{{0,3}} ?(?:sc|[hd]?dc|h?tr|inc|dec|sl st|ss)\b"
    return re.search(before, line[: last.start()]) is not None


@lru_cache(64)
def _dressed(before: str, bracketed: bool) -> list[re.Pattern[str]]:
    """The dresses in which a count may stand that has such a sign before its number."""
    return [dress for signs, dress in ((*_TAILS, _BRACKETED) if bracketed else _TAILS) if before in signs]


def tail(body: str, bracketed: bool = False) -> Tail | None:
    """The count that a body ends with; None where its end could be work as well, as brackets can (`bracketed`: not)."""
    begin = max(0, len(body) - _LONGEST)
    line = body.replace("\n", " ")
    number = _LAST_NUMBER.match(line, begin)
    if number is None or not _BEHIND.match(line, number.end()):
        return None
    if line.rstrip(" .")[-1:].isalpha() and of_list(line.lower()):
        return None
    sign = line[: number.start("n")].rstrip()[-1:]
    before = "w" if sign.isalpha() else sign
    for dress in _dressed(before, bracketed):
        match = dress.search(line, begin)
        if match is not None and not _of_colour(line, match):
            work = match.end("work") if "work" in dress.groupindex else match.start()
            return Tail(int(match["n"]), *match.span("n"), work)
    return None
