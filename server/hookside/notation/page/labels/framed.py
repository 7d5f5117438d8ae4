"""Labels between signs of the writer's own: "~ 4 ~ sc around", "*3* inc x 6", "-- 8 thru 11 --", "<5> (2 sc, inc) x 6".

What stands between such signs may be anything; where it counts up from line to line, those are the labels of rounds.
The frame becomes a colon behind the number, which every later stage knows; the length stays.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.tables.strokes import steps_on

_FEWEST = 3  # labels that count up
_KIND = rf"(?:(?i:{COURSE})\.? ?#?)?"
_TO = r" ?(?:-{1,2}>?|[\u2013\u2014\u2192\u2026]|\.{2,3}|~|to|thru|through|until|till|&|,|\+|/|and) ?"
_FRAMED = re.compile(
    rf"(?:^[ \t]{{0,8}}|(?<=[;./)][ ])(?=[*_]{{1,2}}[a-zA-Z]))"
    r"(?P<open>(?P<sign>[~*=_+\u00b0\u2022\u2605\u2606-])(?P=sign){0,2}|<) ?"
    rf"(?P<label>{_KIND}(?P<first>\d{{1,3}})(?:{_TO}{_KIND}(?P<last>\d{{1,3}})){{0,6}})"
    r"(?P<close> ?(?(sign)(?P=sign){1,3}|>) ?[:.]?)(?=[ \t]{1,4}\S)",
    re.M,
)
_MAY_STAND = re.compile(
    r"^[ \t]{0,8}[~*=_+\u00b0\u2022\u2605\u2606<-]{1,3} ?(?:[rR][a-zA-Z]{0,4}\.? ?#?)?1(?!\d)", re.M
)
# "\u26051 Magic ring", "\u26056, \u26057 Do \u26055 again": a picture glued to the number as a round's own sign
_PICTURED = re.compile(
    r"^[ \t]{0,8}(?P<sign>[\u2600-\u27bf\u25a0-\u25ff\u00a7\u00b0])(?P<first>\d{1,3})"
    r"(?:(?:, ?| ?[-&] ?| to | and )(?P=sign)(?P<last>\d{1,3})){0,8}(?=[ .:,)-])",
    re.M,
)


def _pictured(text: str) -> str:
    """The page with "R1" for such a sign and its number wherever it stands, where those that begin lines count up."""
    found = list(_PICTURED.finditer(text))
    told = [m for m in found if m["sign"] == found[0]["sign"]]
    if len(told) < _FEWEST or not _counting_up(told):
        return text
    return re.sub(rf"{told[0]['sign']}(?=\d)", "R", text)


# "1/ mr 6 sc. 2/ inc x6", "5/ to 8/ sc 24": a stroke behind the number, as on a list
_STROKED = re.compile(
    r"(?:^[ \t]{0,8}|(?<=[:.;!?)][ ]))(?P<first>\d{1,3})/(?:(?: to | ?- ?| ?& ?| and )(?P<last>\d{1,3})/)?(?=[ ]\S)",
    re.M,
)


def _stroked(text: str) -> str:
    """The page with a point for such a stroke, wherever it stands, where those that lead a round count up."""
    found = list(_STROKED.finditer(text))
    if len(found) < _FEWEST or not _counting_up(found):
        return text
    return re.sub(r"(?<![\w/.])(?P<n>\d{1,3})/(?=[ .,])", r"\g<n>.", text)


# "1R  6sc ring", "5R -> 8R  sc", "eyes at 4R": the letter behind the number
_TURNED = re.compile(r"^[ \t]{0,8}(?P<first>\d{1,3})R(?:[ ]{0,3}-?>?[ ]{0,3}(?P<last>\d{1,3})R)?(?=[ :.])", re.M)


def _turned(text: str) -> str:
    """The page with "R1" for "1R" wherever it stands, where those that begin lines count up."""
    found = list(_TURNED.finditer(text))
    if len(found) < _FEWEST or not _counting_up(found):
        return text
    return re.sub(r"(?<![\w.])(?P<n>\d{1,3})R\b", r"R\g<n>", text)


# "[5] Repeat [4]." under labels in brackets: a round by its label, and no amount
_IN_BRACKETS = re.compile(
    r"^[ \t]{0,8}(?P<sign>[\[(])(?P<first>\d{1,3})(?: ?(?:-|to|&|and) ?(?P<last>\d{1,3}))?[\])](?=[ :.])", re.M
)
_POINTED = re.compile(
    r"(?P<lead>\b(?:repeat|rep\.?|as|like|same as|as in|of)(?: (?P<noun>rounds?|rnds?|rows?))? )"
    r"[\[(](?P<n>\d{1,2})(?P<to>-(?P<m>\d{1,2}))?[\])](?=[ ]?(?:[.;,]|$|[(\[{=]| [a-z(\[]))",
    re.I | re.M,
)


def _pointed(text: str) -> str:
    """The page with "repeat R4 " for such a round, where those that begin lines count up; the length stays."""
    if _POINTED.search(text) is None:
        return text
    found = list(_IN_BRACKETS.finditer(text))
    if len(found) < _FEWEST or not _counting_up(found):
        return text

    def label(match: re.Match[str]) -> str:
        number = match["n"] + (match["to"] or "")
        named = "" if match["noun"] else "R"
        return f"{match['lead']}{named}{number}".ljust(len(match[0]))

    return _POINTED.sub(label, text)


def labelled(text: str) -> str:
    """The page with framed labels as plain ones, where they count up; of the same length."""
    if not text.isascii():
        text = _pictured(text)
    if "1R" in text:
        text = _turned(text)
    if "1/ " in text:
        text = _stroked(text)
    if "[1]" in text or "(1)" in text:
        text = _pointed(text)
    if _MAY_STAND.search(text) is None:
        return text
    framed = list(_FRAMED.finditer(text))
    if len(framed) < _FEWEST or not _counting_up(framed):
        return text
    parts: list[str] = []
    at = 0
    for match in framed:
        begins, ends = match.span("label")
        if text[: match.start("open")][-1:] == " " and text[match.start("open") - 2] in ";./)":
            # within a line: right behind what ended the round before it
            room = match.end() - match.start("open") - (ends - begins)
            parts += [text[at : match.start("open")], text[begins:ends], ":".ljust(room)]
            at = match.end()
            continue
        parts += [text[at : match.start("open")], " " * (begins - match.start("open")), text[begins:ends],
                  ":".ljust(match.end() - ends)]  # fmt: skip
        at = match.end()
    return "".join([*parts, text[at:]])


def _counting_up(framed: list[re.Match[str]]) -> bool:
    """Does each go on from the one before it, or begin a part, but for one in ten?"""
    return int(framed[0]["first"]) == 1 and 10 * steps_on(framed) >= 9 * (len(framed) - 1)
