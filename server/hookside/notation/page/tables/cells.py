"""Rows of a spreadsheet as they are pasted: cells between commas or semicolons, some of them in quotes.

'12,"(3 sc, inc) x6",30,stuff' becomes "12: (3 sc, inc) x6 =30" and, on a line of its own, "stuff": the separators
alone change, one character for one.
"""

from __future__ import annotations

import itertools
import re
from collections import Counter

from hookside.notation.page.tables.columns import STITCH
from hookside.notation.page.tables.pasted import HEADER
from hookside.notation.page.tables.shadecells import ASIDE, END, MARK, shade_columns, told_by

_KIND = r"(?:(?:rnd|round|row|rd|r)s?\.?[ ]*)?"
_LABEL = re.compile(
    rf"{_KIND}\d{{1,4}}(?:[ ]*(?:[-\u2010-\u2015\u2212]|to|,|&|and)[ ]*{_KIND}\d{{1,4}}){{0,6}}[.:]?", re.I
)
_COUNT = re.compile(r"[(\[]?\d{1,4}[)\]]?(?:[ ]*(?:sts?|stitches|sc|dc))?", re.I)
_HOW_MANY = re.compile(r"\d{1,3} (?:rounds?|rnds?|rows?)", re.I)  # what the label of a range says already
_OFTEN = re.compile(r"(?:no\.? of |number of )?(?:rep(?:eat)?s?|times|x)", re.I)  # what heads a column of multipliers
_HEADS = HEADER | {"repeat", "repeats", "rep", "reps", "times", "x", "yarn", "shade"}
_MARKS = frozenset(["part", "piece", "section", "name", "title", "heading", "note", "notes", "job", "info", "comment"])
_FEWEST = 3  # rows with a number and stitches


def between(line: str, comma: str) -> list[tuple[int, int]]:
    """Spans between the separators that stand outside quotes."""
    spans, start, quoted = [], 0, False
    if '"' not in line:
        for cell in line.split(comma):
            spans.append((start, start + len(cell)))
            start += len(cell) + 1
        return spans
    for at, char in enumerate(line):
        if char == '"':
            quoted = not quoted
        elif char == comma and not quoted:
            spans.append((start, at))
            start = at + 1
    return [*spans, (start, len(line))]


def _told(line: str, span: tuple[int, int]) -> str:
    return line[slice(*span)].strip(' "')


def _often(lines: list[str], spans: list[list[tuple[int, int]]], wide: int) -> int:
    """The column that tells how often its row's stitches are repeated, by the head of the table; -1 where none does."""
    for n, row in enumerate(spans):
        if len(row) == wide:
            told = [_told(lines[n], span) for span in row]
            return next((at for at, cell in enumerate(told) if at > 1 and _OFTEN.fullmatch(cell)), -1)
    return -1


def _multiplied(chars: list[str], work: tuple[int, int], often: tuple[int, int]) -> None:
    """ '"sc, inc",6' as '(sc, inc)x6'; once is no multiplier."""
    line = "".join(chars)
    start = work[0] + len(line[slice(*work)]) - len(line[slice(*work)].lstrip())
    end = work[0] + len(line[slice(*work)].rstrip())
    chars[often[0] - 1] = "x"
    if line[start] == line[end - 1] == '"' and end - start > 2:
        chars[start], chars[end - 1] = "(", ")"


def _written(
    line: str, spans: list[tuple[int, int]], comma: str, often: int = -1, shades: frozenset[int] = frozenset()
) -> str:
    """One row as a course, or as a heading and notes. `often`: the column of its multiplier; `shades`: of colours."""
    told = [_told(line, span) for span in spans]
    chars = list(line)
    filled = [n for n, cell in enumerate(told) if cell]
    if often in filled and often > 1 and told[often].isdecimal() and STITCH.search(told[often - 1]):
        filled.remove(often)
        if told[often] != "1":
            _multiplied(chars, spans[often - 1], spans[often])
        else:
            chars[slice(*spans[often])] = " " * len(line[slice(*spans[often])])
    chars = [" " if c == '"' else c for c in chars]
    if not filled or all(w in _HEADS for w in re.findall(r"[a-z]+", line.lower())):
        return " " * len(line)
    label = filled[0] if _LABEL.fullmatch(told[filled[0]]) else None
    rest = [n for n in filled if n != label]
    counts = [n for n in rest if _COUNT.fullmatch(told[n])]
    work = next((n for n in rest if STITCH.search(told[n])), next((n for n in rest if n not in counts), None))
    count = next((n for n in counts if n != work), None)
    for n in range(1, len(spans)):
        if chars[spans[n][0] - 1] == comma:
            chars[spans[n][0] - 1] = " "
    if label is None or work is None:
        if told[filled[0]].lower() in _MARKS:  # 'PART,"LEG, make 4"', 'note,"stuff a little"'
            chars[slice(*spans[filled[0]])] = " " * (spans[filled[0]][1] - spans[filled[0]][0])
            filled = filled[1:]
        for n in filled[1:]:
            chars[spans[n][0] - 1] = "\n"
        return "".join(chars)
    for n in rest:
        at = spans[n][0] - 1
        if n == count and n > work:
            chars[at] = "="
        elif n in shades and n > work and told_by(told[n], told[work]):
            chars[at : spans[n][1]] = " " * (spans[n][1] - at)  # "5 sc grey, 6 sc black" names them itself
        elif n > work and n in shades:
            chars[at] = MARK
        elif label < n < work and (count is None or not label < count <= n):
            chars[at], chars[spans[n][1]] = ASIDE, END
        elif n != work and n != count:
            chars[at] = ASIDE if n > work else "\n"
            if _HOW_MANY.fullmatch(told[n]):
                chars[at : spans[n][1]] = " " * (spans[n][1] - at)
    if chars[spans[label][1]] != ASIDE:
        chars[spans[label][1]] = ":"
    if count is not None and count < work:
        chars[spans[work][0] - 1] = "="
    return "".join(chars)


def cells(text: str) -> str:
    """The page with the rows of a spreadsheet written as courses; the length stays."""
    for comma in ",;\t":
        if text.count(comma) < _FEWEST * 2:
            continue
        lines = text.split("\n")
        spans = [between(line, comma) if comma in line else [] for line in lines]
        worked = [n for n, row in enumerate(spans) if len(row) > 2 and _is_row(lines[n], row)]
        widths = Counter(len(spans[n]) for n in worked)
        wide = max(widths, key=lambda w: widths[w], default=0)
        quoted = any('"' in lines[n] for n in worked)
        counted = comma == ";" and any(
            all(_COUNT.fullmatch(_told(lines[n], spans[n][at])) for n in worked) for at in (-1, 1)
        )
        if widths[wide] < _FEWEST or wide < (3 if comma != "\t" and (quoted or counted) else 4):
            continue
        if comma != "\t" and not quoted and any(comma + " " in lines[n].rstrip(" ") for n in worked):
            continue  # "round 3, ch 1, sc 1, inc 1, 18 sts": no cells, but what is said one after the other
        if 2 * widths[wide] < len(worked) or not _counts_up(lines, spans, worked):
            continue
        often = _often(lines, spans, wide)
        rows = [[_told(lines[n], span) for span in spans[n]] for n in worked if len(spans[n]) == wide]
        first = next(n for n, row in enumerate(spans) if len(row) == wide)
        shades = shade_columns([_told(lines[first], span) for span in spans[first]], rows)
        for n, row in enumerate(spans):
            if len(row) == wide or (row and _told(lines[n], row[0]).lower() in _MARKS):
                lines[n] = _written(lines[n], row, comma, often, shades)
        return "\n".join(lines)
    return text


def _is_row(line: str, row: list[tuple[int, int]]) -> bool:
    told = [_told(line, span) for span in row]
    first = next((cell for cell in told if cell), "")
    return bool(_LABEL.fullmatch(first)) and any(STITCH.search(cell) for cell in told[1:])


def _counts_up(lines: list[str], spans: list[list[tuple[int, int]]], worked: list[int]) -> bool:
    """Do most rows follow each other in number?"""
    numbers = []
    for n in worked:
        found = [int(d) for d in re.findall(r"\d+", next(c for c in (_told(lines[n], s) for s in spans[n]) if c))]
        numbers.append((found[0], found[-1]))
    return 2 * sum(b[0] in (1, a[1] + 1) for a, b in itertools.pairwise(numbers)) >= len(numbers) - 1
