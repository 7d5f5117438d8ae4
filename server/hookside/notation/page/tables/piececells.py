"""Tables that name the piece in front of each row: "PLANT;3;(1 sc, inc) x 6;18", "Plant | 3 | ..." .

The name stays where it changes, on a line of its own; the cells behind it are a table like any other.
"""

from __future__ import annotations

import itertools
import re

from hookside.notation.page.tables.cells import between
from hookside.notation.page.tables.columns import STITCH
from hookside.notation.page.tables.pasted import HEADER

_NAME = re.compile(r"(?:\d{1,2} ?x? )?[^\W\d_][\w ',:/&()-]{0,40}")
_KIND = re.compile(r"(?:rnd|round|row|rd|r|step|no|nr)s?\.?", re.I)  # "Round;3;...": no piece is called that
_LABEL = re.compile(r"(?:(?:rnd|round|row|rd|r)s?\.?[ ]?)?(\d{1,3})(?:[ ]?(?:[-\u2010-\u2015]|to)[ ]?(\d{1,3}))?", re.I)
# A hint of such rows: a number in the second cell
_NUMBERED = {
    comma: re.compile(
        rf"^[ ]{{0,8}}\|?[^{re.escape(comma)}\n]{{0,44}}{re.escape(comma)}[ \"]{{0,12}}{_LABEL.pattern}[ \"]{{0,12}}"
        rf"{re.escape(comma)}",
        re.I | re.M,
    )
    for comma in ";\t|,"
}
_PIECES = frozenset(["piece", "pieces", "part", "parts", "section", "element"])
_HEADS = HEADER | _PIECES | {"name"}
# Said of the piece
_OFTEN = re.compile(r"\b(?:make|crochet|work) (?:\d|two|three|four|five|six)\b|\b(?:x ?\d|\dx?)$", re.I)
# "part,qty,round,...": how many of the part, in the cell behind its name
_QUANTITY = re.compile(r"(?:qty|quantity|copies|make|how many|pieces|pcs|amount|number|x)\.?", re.I)
_FEWEST = 3  # rows with a name, a number and stitches
_FEWEST_CELLS = 3
_FURTHEST_IN = 7  # blanks before a row


def _spans(line: str, comma: str) -> list[tuple[int, int]]:
    """The cells of a line, without the empty one before a bar at its start."""
    spans = between(line, comma)
    return spans[1:] if comma == "|" and not line[slice(*spans[0])].strip() else spans


def _courses(told: dict[int, list[str]]) -> list[tuple[str, int, int]]:
    """Name, first and last number of the rows that are courses; a cell left empty has the name above it."""
    found, name = [], ""
    for cells in told.values():
        name = cells[0] or name
        label = _LABEL.fullmatch(cells[1])
        if label and _NAME.fullmatch(name) and any(STITCH.search(cell) for cell in cells[2:]):
            found.append((name, int(label[1]), int(label[2] or label[1])))
    return found


def _are_pieces(courses: list[tuple[str, int, int]], headed: bool) -> bool:
    """Do the numbers begin again with each new name, and only there? Colours in the first column change anywhere; where
    its head says that it tells the parts, "Side" may go on counting from "Top"."""
    if len(courses) < _FEWEST or courses[0][1] > 2 or any(_KIND.fullmatch(name) for name, *_ in courses):
        return False
    return all(
        (after[1] == before[2] + 1)
        if after[0] == before[0]
        else after[1] == 1 or (headed and after[1] == before[2] + 1)
        for before, after in itertools.pairwise(courses)
    )


def _quantities(
    spans: dict[int, list[tuple[int, int]]], told: dict[int, list[str]]
) -> dict[int, tuple[int, tuple[int, int]]]:
    """How many of its part each row tells in its second cell, and where, by the head of the table; such a cell is
    taken out of the rows. Nothing, where there is no such column."""
    head = next(iter(told.values()), [])
    rows = {n: cells for n, cells in told.items() if cells is not head}
    if len(head) <= _FEWEST_CELLS or not _QUANTITY.fullmatch(head[1]) or not rows:
        return {}
    if not all(len(cells) > _FEWEST_CELLS and re.fullmatch(r"\d{1,2}", cells[1] or "1") for cells in rows.values()):
        return {}
    many = {n: (int(cells[1] or "1"), spans[n][1]) for n, cells in told.items() if cells is not head}
    many |= {n: (1, spans[n][1]) for n in told if n not in many}
    for cells in told.values():
        del cells[1]
    return many


def headed(text: str) -> str:
    """The page with such names as headings; the length stays."""
    for comma, numbered in _NUMBERED.items():
        if text.count(comma) < _FEWEST * (_FEWEST_CELLS - 1) or len(numbered.findall(text)) < _FEWEST:
            continue
        lines = text.split("\n")
        spans = {n: _spans(line, comma) for n, line in enumerate(lines) if line.count(comma) >= _FEWEST_CELLS - 1}
        spans = {n: row for n, row in spans.items() if len(row) >= _FEWEST_CELLS}
        told = {n: [lines[n][slice(*span)].strip(' "') for span in row] for n, row in spans.items()}
        many = _quantities(spans, told)
        if not _are_pieces(_courses(told), next(iter(told.values()), [""])[0].lower() in _PIECES):
            continue
        name = ""
        for n, cells in told.items():
            start, end = spans[n][0][0], (spans[n][0] if not many else many[n][1])[1]
            if all(word in _HEADS for word in re.findall(r"[a-z]+", lines[n].lower())):
                lines[n] = " " * len(lines[n])
            elif cells[0] and cells[0] != name and _NAME.fullmatch(cells[0]):
                name = cells[0]
                rest = lines[n][end + 1 :]
                if not _LABEL.fullmatch(cells[1]) and _OFTEN.search(rest.rstrip(f"{comma} ")):
                    gap, rest = " ", rest.replace(comma, " ") if comma != "," else rest
                else:
                    gap = "\n"
                named = lines[n][start:end].replace(chr(34), " ")
                if many:
                    named = f"{name}*{many[n][0]}".ljust(end - start) if many[n][0] > 1 else name.ljust(end - start)
                lines[n] = f"{' ' * start}{named[: end - start]}{gap}{rest}"
            elif cells[0] in ("", name):
                # a long name would leave its rows further in than any line of a list stands
                gap = "\n" if comma != "|" and end > _FURTHEST_IN else " " * (comma != "|")
                lines[n] = f"{' ' * end}{gap}{lines[n][end + (comma != '|') :]}"
        return "\n".join(lines)
    return text
