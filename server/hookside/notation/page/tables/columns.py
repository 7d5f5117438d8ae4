"""Tables with bars and more than three columns: each column is told by what stands in it.

A row "| 4-6 | B | sc in each st | 20 |" becomes "4-6:(B) sc in each st = 20" in the same number of characters; the
colour is named only where it changes.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator

from hookside.notation.page.tables.shadecells import ASIDE, END, MARK, is_name, shade_columns, told_by
from hookside.notation.vocabulary import COUNT_WORDS, ORDINAL_WORDS

# the cell of a label has nothing else in it, so that it may be printed in any way: "7th to 11th rounds", "Rnd Two"
_WORD = r"(?:rnd|round|row|rd|rn|rw|r)s?\.?(?:[ ]*(?:no\.?|nr\.?|number))?"
_NTH = r"#?\d{1,4}(?:st|nd|rd|th)?"
_TO = r"(?:[-\u2010-\u2015\u2212~&,+/=]|\.\.\.?|to|and|thru|through|until)"
_IN_WORDS, _NTH_IN_WORDS = f"(?:{COUNT_WORDS})", f"(?:{'|'.join(ORDINAL_WORDS)})"
LABEL_CELL = (
    rf"(?:from[ ]+)?(?:{_WORD}[ ]*)?{_NTH}(?:[ ]*{_TO}[ ]*(?:{_WORD}[ ]*)?{_NTH}){{0,12}}"
    rf"(?:[ ]*{_WORD})?(?:[ ]*[(\[][^()\[\]|\n]{{1,24}}[)\]])?"
    rf"|{_WORD}[ ]+{_IN_WORDS}(?:[ ]*{_TO}[ ]*{_IN_WORDS})?"
    rf"|{_NTH_IN_WORDS}(?:[ ]*{_TO}[ ]*{_NTH_IN_WORDS})?[ ]+{_WORD}"
)
_LABEL = re.compile(rf"(?:{LABEL_CELL})[.:]?", re.I)
_COUNT = re.compile(r"(?:n ?= ?|now |makes )?[(\[]?(\d{1,4})[)\]]?(?:[ ]*(?:sts?|stitches|sc|dc))?", re.I)
STITCH = re.compile(
    r"(?<![a-z])(?:\d*(?:[hd]?dc|sc|h?tr|dtr|inc|dec|ch|ss)\d*|sl st|[bf]lo|around|"
    r"single|double|treble|stitch(?:es)?|each|repeat|rep|mr)(?![a-z])",
    re.I,
)
# Words behind the count, and not for how long the row stands ("7 rnds")
REMARK = re.compile(
    r"(?!\d{1,3} (?:rnds?|rounds?|rows?)$)[^|\n]*(?:[a-z]{3}|(?<![a-z])(?:fo|f/o|pm|sm)(?![a-z]))[^|\n]*", re.I
)
# A colour, or whatever may be the name of one; what asks for something is a note
_NAMED = re.compile(
    r"(?!.*\b(?:stuff|fill|eyes?|nose|ears?|change|switch|insert|place|marker|attach|sew|join|turn|fasten|close|here|first|"
    r"before|after|the|it)(?:ing)?\b)[A-Za-z][A-Za-z ]{0,20}",
    re.I,
)
_TIMES = re.compile(r"\s*(?:(?:no\.?|number) of )?(?:times|repeats?|reps?|x)\s*", re.I)
# "x 4", "(3x)", "twice" in a cell of its own: how often its row, or what stands before it, is worked
_HOW_MANY = re.compile(r"\(?\d{1,2} (?:rounds|rnds|rows)\)?", re.I)  # nothing new beside a range
_ONCE = re.compile(r"\(?(?:[x*] ?1|1 ?x)\)?|1 (?:time|round|rnd|row)", re.I)
OFTEN = re.compile(r"\(?(?:[x*] ?\d{1,2}|\d{1,2} ?(?:x|times)|twice|thrice)\)?", re.I)
_RULE = re.compile(r"[ |:\-+=_]*")
Kinds = tuple[int, int, int | None, int | None]  # columns of labels, work, colour, count
_SHORTEST_RULE = 7  # "|-|-|-|"
_FEWEST = 4  # columns; three and two are told by their look alone


def _cells(line: str) -> list[tuple[int, int]]:
    """Spans of the cells between the bars, without the blanks around the text."""
    bars = [-1, *(m.start() for m in re.finditer(r"\|", line)), len(line)]
    spans = [(a + 1, b) for a, b in itertools.pairwise(bars)]
    if spans and not line[slice(*spans[0])].strip():
        spans = spans[1:]
    if spans and not line[slice(*spans[-1])].strip() and line.rstrip().endswith("|"):
        spans = spans[:-1]
    return spans


def _blocks(lines: list[str]) -> Iterator[tuple[int, int]]:
    """Runs of lines that hold bars; a rule below a head, blank by now, parts none."""
    start = None
    for at, line in enumerate([*lines, ""]):
        if "|" in line:
            start = at if start is None else start
        elif start is not None and not (len(line) >= _SHORTEST_RULE and line.isspace()):
            yield start, at
            start = None


def _kinds(rows: list[list[str]], times: int | None) -> Kinds | None:
    """Which column holds the labels, the work, the colour and the count; `times` is the one of the multipliers."""
    wide = range(len(rows[0]))
    columns = [[row[c].strip() for row in rows] for c in wide]
    labels = [c for c in wide if all(_LABEL.fullmatch(cell) for cell in columns[c])]
    if not labels:
        return None
    stitchy = [sum(bool(STITCH.search(cell)) for cell in columns[c]) for c in wide]
    work = max(wide, key=lambda c: (stitchy[c], len("".join(columns[c]))))
    if work <= labels[0] or not stitchy[work]:
        return None
    bare = [c for c in wide if any(columns[c]) and all(not cell or _COUNT.fullmatch(cell) for cell in columns[c])]
    counts = [c for c in bare if c > work and c != times]
    taken = {labels[0], work, times, *counts}
    rest = [c for c in wide if c not in taken]
    named = [c for c in rest if all(_NAMED.fullmatch(cell) for cell in columns[c] if cell)]
    return labels[0], work, named[0] if named else None, counts[0] if counts else None


def _repeated(out: list[str], line: str, work: tuple[int, int], times: tuple[int, int]) -> None:
    """ "| sc, inc | 6 |" becomes "(sc, inc )x 6", where there is room for the brackets."""
    n = line[slice(*times)].strip()
    start, end = work
    if n.isdecimal() and int(n) > 1 and end < times[0] + 1 and line[start] == " " and line[end - 1] == " ":
        out[start], out[end - 1], out[end] = "(", ")", "x"
        out[slice(*times)] = line[slice(*times)]


def _multipliers(
    out: list[str], line: str, cells: list[tuple[int, int]], kinds: Kinds, times: int | None
) -> None:
    """The cells that say how often stay where they are: behind the work, or behind the count in its brackets."""
    label, work, _, count = kinds
    ranged = len(re.findall(r"\d+", line[slice(*cells[label])])) > 1
    for column in range(work + 1, len(cells)):
        told = line[slice(*cells[column])].strip()
        several = _HOW_MANY.fullmatch(told) and not ranged
        if column in (times, count) or _ONCE.fullmatch(told) or not (OFTEN.fullmatch(told) or several):
            continue
        out[slice(*cells[column])] = line[slice(*cells[column])]
        if count is not None and column > count and cells[count][1] < len(line):
            out[cells[count][0] - 1], out[cells[count][1]] = "(", ")"


def _noted(cell: str) -> bool:
    """Is it told beside the row? What is worked in a second column ("3 sc") is shown, if it is in no count."""
    return REMARK.fullmatch(cell) is not None or STITCH.search(cell) is not None


def _written(
    line: str, cells: list[tuple[int, int]], kinds: Kinds, name: bool, times: int | None, shades: frozenset[int]
) -> str:
    label, work, colour, count = kinds
    out = [" "] * len(line)
    for column in shades:
        start, end = cells[column]
        if column < label and line[start:end].strip():
            out[start:end], out[end] = line[start:end], END
    for column in (label, work):
        out[slice(*cells[column])] = line[slice(*cells[column])]
    out[cells[label][1]] = ":"
    if name and colour is not None and label < colour < work:
        start, end = cells[colour]
        text = line[start:end].strip()
        at = line.index(text, start)
        if at > start and at + len(text) < len(line):
            out[at - 1 : at + len(text) + 1] = f"({text})"
    if times is not None:
        _repeated(out, line, cells[work], cells[times])
    if count is not None:
        start, end = cells[count]
        number = _COUNT.match(line[start:end].strip())
        if number:
            at = line.index(number[1], start)
            out[start - 1] = "="
            out[at : at + len(number[1])] = number[1]
    _multipliers(out, line, cells, kinds, times)
    for column in range(work + 1, len(cells)):
        start, end = cells[column]
        told = line[start:end].strip()
        if column in shades:
            if told and not told_by(told, line[slice(*cells[work])]) and (is_name(told) or column > (count or 0)):
                out[start - 1] = MARK
                out[start:end] = line[start:end]
        elif column > max(work, count or 0) and _noted(told):
            out[start - 1] = ASIDE
            out[start:end] = line[start:end]
        elif column not in (count, times, colour) and _noted(told) and end < len(line):
            out[start - 1], out[end] = ASIDE, "=" if column + 1 == count else END
            out[start:end] = line[start:end]
    for column in range(label + 1, work):
        start, end = cells[column]
        if column not in (times, colour) and REMARK.fullmatch(line[start:end].strip()):
            out[start - 1], out[end] = ASIDE, END
            out[start:end] = line[start:end]
    return "".join(out)


def wide(text: str) -> str:
    """The text with the rows of its wide tables written as courses; the length stays."""
    lines = text.split("\n")
    last = ""
    for start, end in _blocks(lines):
        rows = [(at, _cells(lines[at])) for at in range(start, end) if not _RULE.fullmatch(lines[at])]
        rows = [(at, cells) for at, cells in rows if len(cells) >= _FEWEST]
        head = None
        if rows and not any(re.search(r"\d", lines[rows[0][0]][slice(*c)]) for c in rows[0][1]):
            head = rows.pop(0)[0]
        if not rows or any(len(cells) != len(rows[0][1]) for _, cells in rows):
            continue
        heads = _cells(lines[head]) if head is not None else []
        times = next((c for c, span in enumerate(heads) if _TIMES.fullmatch(lines[head or 0][slice(*span)])), None)
        kinds = _kinds([[lines[at][slice(*c)] for c in cells] for at, cells in rows], times)
        if kinds is None:
            continue
        titles = [lines[head or 0][slice(*c)].strip() for c in heads]
        shades = shade_columns(titles, [[lines[at][slice(*c)].strip() for c in cells] for at, cells in rows])
        if head is not None:
            lines[head] = " " * len(lines[head])
        for at, cells in rows:
            colour = lines[at][slice(*cells[kinds[2]])].strip() if kinds[2] is not None else ""
            lines[at] = _written(lines[at], cells, kinds, bool(colour) and colour != last, times, shades)
            last = colour or last
    return "\n".join(lines)
