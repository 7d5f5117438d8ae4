"""Signs of an author's own between the number of a round and its stitches: "1 >> 6 sc", "R4 ~ inc x 6"."""

from __future__ import annotations

import itertools
import re

from hookside.notation.sought import Sought

_KIND = r"(?:(?:rounds?|rnds?|rows?|rds?|r|steps?|laps?)\.?[ ]*)?"
_TO = r"[ ]*(?:[-\u2010-\u2015\u2212,&]|to|and)[ ]*"
_ODD = r"\u00bb\u203a\u25b8\u25ba\u25b6\u279c\u2794\u00b7\u2022\u2219\u2192\u21d2\u27a1\u2218\u25e6\u2605\u2606"
_SIGN = (
    rf"(?:[{_ODD}]{{1,2}}|>{{1,3}}|[-=]{{1,2}}>|~{{1,2}}|::|\\|\^|;|"
    # "rnd 1 .. 6 sc in ring", but "rnds 2 .. 7: sc" is a range
    r"(?:\.{2,4}|\u2026)(?= )(?!\.?[ ]+\d{1,3}[ ]?[:)=.-])|"
    # "Round 2 / 3 sc in each": no two rounds, where a stroke stands behind every label; "4 / 24 sts / +6" is a table
    r"/(?<=[ ]/)(?=[ ])(?![ ]+\d{1,3}[ ]?(?:(?:sts?|stitches)\b[ ]?)?(?:[:=./)|,&-]|$)))"
)
_LINE = Sought(
    rf"[{_ODD}>~\\^;:\u2026./](?:(?<![:.])|(?<=:)(?=:)|(?<=[\d ]\.)(?=\.))",
    rf"^(?P<lead>[ \t]{{0,8}}(?:[^\w\s\[(]{{1,2}}[ ]|[\[(]\d{{1,3}}[\])][ ])?{_KIND}"
    rf"(?P<first>\d{{1,4}})(?:{_TO}{_KIND}(?P<last>\d{{1,4}}))*[ ]?)(?P<sign>{_SIGN})"
    r"(?=[ ]*[^\s\d]|[ ]+\d|(?<=;)\d{{1,3}}[ ]?[a-z])",
    re.I | re.M,
)
_FEWEST = 3  # lines that count up
# "6 \u00b7 [1 \u00b7 inc] x 6 \u00b7 6": a dot in mid-height between the items of a list, and no bullet
_DOT = re.compile(
    r"[\u00b7\u2022\u2219\u22c5\u30fb\u25e6\u2218\u25cf\u25cb\u25aa\u25ab](?<=[\w)\]}*.] .)(?= [\w(\[{*])"
)
_LABEL_ALONE = re.compile(rf"[^\w\n]*{_KIND}\d{{1,4}}(?:{_TO}{_KIND}\d{{1,4}})*[ .:)]*", re.I)
_SHAPES = re.compile(r"\b(?:\d*(?:sc|[hd]?dc|h?tr)|inc|dec|invdec|[a-z]{2,3}\d?tog)\b", re.I)


# "inc x 6 \u2022 12": one dot in the line, and the count behind it
_COUNT = re.compile(r" ?\d{1,4}(?: ?(?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr|total))?[ .]*", re.I)

# "inc x 6 >> 12", "inc x 6 \u2605 12": other signs, before nothing but the count
_LAST = re.compile(
    rf"(?P<sign>[\u00bb\u203a\u25ba\u25b6\u2605\u2606>](?<=[\w)\]}}.] .)(?:(?<=>)>)?)(?={_COUNT.pattern}$)", re.I | re.M
)

# "sc3tog--1 sc": a dash right behind the work, and the count; "5 sc-inc-5 sc" is a list
_DASHED = re.compile(r"-(?<=[a-z)\]*].)-{0,2}(?=\d{1,4} (?:sts?|stitches|sc|[hd]?dc|h?tr)[ .]*$)", re.I | re.M)
_DASH_LIST = re.compile(r"\b(?:sc|[hd]?dc|inc|dec)-+(?:\d{1,2} ?)?(?:sc|[hd]?dc|inc|dec)\b(?![ .]*$)", re.I | re.M)


# "(sc, inc)*6 *18*": stars around the count, and one in front of how often
_STARRED = re.compile(r"(?<=[ \t])\*(?=\d{1,3}\*[ \t]*$)(?P<n>\d{1,3})\*", re.M)


def _dots(line: str) -> list[int]:
    """Where dots part the items of a line of stitches; one behind its label is none."""
    found = [m.start() for m in _DOT.finditer(line)]
    if not found or _SHAPES.search(line) is None:
        return []
    return [at for at in found if not _LABEL_ALONE.fullmatch(line, 0, at)]


def listed(text: str) -> str:
    """Dots between the items of a list become commas, signs before counts equals signs; the length stays."""
    if len(_STARRED.findall(text)) >= _FEWEST:
        text = _STARRED.sub(lambda m: f"({m['n']})", text)
    last = [m for m in _LAST.finditer(text) if _SHAPES.search(text, text.rfind("\n", 0, m.start()) + 1, m.start())]
    if len(last) >= _FEWEST:
        text = _LAST.sub(lambda m: "=".ljust(len(m["sign"])), text)
    if len(_DASHED.findall(text)) >= _FEWEST and _DASH_LIST.search(text) is None:
        text = _DASHED.sub(lambda m: "=".ljust(len(m[0])), text)
    if _DOT.search(text) is None:
        return text
    lines = text.split("\n")
    parted = {i: dots for i, line in enumerate(lines) if (dots := _dots(line))}
    counted = [i for i, dots in parted.items() if len(dots) == 1 and _COUNT.fullmatch(lines[i], dots[0] + 1)]
    habit = len(counted) >= _FEWEST and 4 * len(counted) >= 3 * len(parted)
    for i, dots in parted.items():
        sign = "=" if habit and i in counted else ","
        letters = list(lines[i])
        for at in dots:
            letters[at] = sign
        lines[i] = "".join(letters)
    return "\n".join(lines)


# "3 = (sc, inc) x6 (18)", "3=(1,inc)*6=18": an equals sign, where each such line prints its count
_EQUALS = re.compile(
    r"^(?P<lead>[ \t]{0,8}(?P<n>\d{1,3})[ ]?)="
    r"(?=[ ][^\n]*[(\[][ ]?\d{1,3}[ ]?[)\]]\W*$|[^\n=]*[a-z)*][^\n=]*=[ ]?\d{1,3}\W*$|"
    r"[ ]?\d{1,3}\W*$|[^\n=]*\b(?:mr|mc|ring|circle)\W*$)",
    re.M | re.I,
)


def _equalled(text: str) -> str:
    numbers = [int(m["n"]) for m in _EQUALS.finditer(text)]
    if len(numbers) < _FEWEST or any(n not in (1, last + 1) for last, n in itertools.pairwise([0, *numbers])):
        return text
    return _EQUALS.sub(lambda m: f"{m['lead']}:", text)


# "R1, start 6 sc in a loop", "R5-7, work even": a comma behind the label, where lines count up so
_COMMAS = re.compile(
    r"(?P<lead>\n[ \t]{0,8}(?i:rounds?|rnds?|rows?|rds?|r)\.?[ ]?(?P<first>\d{1,3})"
    r"(?:[ ]?(?:-|to|and|&)[ ]?[rR]?(?P<last>\d{1,3}))?),"
    # ... and no list of rounds ("R4, 5 and 6:", "R4, R6 in red"), nor what is told of one: "R4, in red", "R4, for 24:"
    r"(?=[ ](?!\d{1,3}[ ]?(?:[,&:.)-]|and|to|\n)|and\b|"
    r"(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]?\d|in[ ](?!each|every|the)|"
    r"(?:for|still|now|always|mak(?:es?|ing)|giv(?:es?|ing)|(?:up |down |back )?to)[ ]))"
)


def _behind_commas(text: str) -> str:
    lines = list(_COMMAS.finditer(text))
    steps = sum(
        int(after["first"]) in (1, int(before["last"] or before["first"]) + 1)
        for before, after in itertools.pairwise(lines)
    )
    if len(lines) < _FEWEST or 3 * steps < 2 * len(lines):
        return text
    return _COMMAS.sub(lambda m: f"{m['lead']}:", text)


# "Rnd 4 - 24 - (2 sc, inc) x6", "4-6 - 24 - sc": the count between the label and the work, which is no range
_COUNTED = re.compile(
    rf"^(?P<lead>[^\w\n]{{0,6}}{_KIND}(?P<first>\d{{1,3}})(?:(?:-|[ ]?(?:to|and|&)[ ]?)(?P<last>\d{{1,3}}))?[ ]?)"
    r"(?P<sign>[-:])(?P<count>[ ]?\d{1,3}[ ]?)(?P=sign)(?=[ ]?[^\s-])",
    re.I | re.M,
)


def _counted(text: str) -> str:
    """ "Rnd 4 : 24 = (2 sc, inc) x6". As ranges, such labels would run into each other."""
    lines = list(_COUNTED.finditer(text))
    if len(lines) < _FEWEST:
        return text
    steps = overlaps = 0
    for before, after in itertools.pairwise(lines):
        steps += int(after["first"]) in (1, int(before["last"] or before["first"]) + 1)
        overlaps += int(before["count"]) >= int(after["first"])
    if 2 * steps < len(lines) or 2 * overlaps < len(lines):
        return text
    return _COUNTED.sub(lambda m: f"{m['lead']}:{m['count']}=", text)


def separated(text: str) -> str:
    """Such signs become colons where the lines they stand in count up; the length stays."""
    text = _behind_commas(_equalled(_counted(text)))
    lines = list(_LINE.finditer(text))
    if len(lines) < _FEWEST:
        return text
    steps = sum(
        int(after["first"]) in (1, int(before["last"] or before["first"]) + 1)
        for before, after in itertools.pairwise(lines)
    )
    if 2 * steps < len(lines):
        return text
    return _LINE.sub(lambda m: m["lead"] + ":".ljust(len(m["sign"])), text)
