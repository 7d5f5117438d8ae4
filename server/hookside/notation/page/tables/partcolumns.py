"""Tables with a part in each column: "| Rnd | Body | Arm |" above rows that hold a round of both.

Read row by row two parts would be mixed into one. Each column is written out below its name, one part after the
other, a cell on a line of its own behind the label of its row. The only part, "| Rnd | Leg x4 | Total |", is named
above them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookside.colours import COLOURS
from hookside.notation.lines.heads.parts import is_part
from hookside.notation.page.tables.columns import LABEL_CELL, STITCH
from hookside.notation.page.tables.pasted import HEADER

Span = tuple[int, int]
_LABEL = re.compile(rf"(?:{LABEL_CELL})[.:]?", re.I)
_OWN_LABEL = re.compile(r"(?:(?:rnd|round|row|rd|r)s?\.? ?\d{1,3}|\d{1,3})(?:-\d{1,3})?[.:)][ ]?(?=[^\s\d])", re.I)
_COUNT = re.compile(r"[(\[]?\d{1,4}[)\]]?(?:[ ]*(?:sts?|stitches|sc|dc))?", re.I)
_NAME = re.compile(r"[^\W\d_][A-Za-z' -]{1,30}(?: ?\d)?(?: ?\(?(?:x ?\d{1,2}|\d{1,2} ?x|make \w{1,6})\)?)?")
_EVEN = re.compile(r"(?:same|even|plain|as |like |rep|work even|around)", re.I)
_JOB = re.compile(r"(?:fasten|f\.?o\b|finish|stuff|close|cut|leave|sew|join|fold|press|tie)", re.I)
_NOTHING = re.compile(r"[-\u2010-\u2015\u2212./x\s]*", re.I)
_RULE = re.compile(r"[\s|:\-+=_]*")
_LISTS = HEADER | {
    "abbreviation", "meaning", "size", "amount", "material", "yarn", "chart", "symbol", "loop", "repeat", "job"
}  # fmt: skip
_FEWEST = 2  # rows below the head
_LONGEST = 400  # letters of a row
_ROWS = 400  # of a table


_SIGNS = {
    sign: re.compile(told)
    for sign, told in (("|", r"\|"), ("\t", r"\t"), (";", ";"), ("  ", r"(?<=\S)[ ]{2,}(?=\S)"))
}


def _cells(line: str, bar: str) -> list[Span]:
    seams = [m.span() for m in _SIGNS[bar].finditer(line)]
    spans = list(zip([0, *(end for _, end in seams)], [*(start for start, _ in seams), len(line)], strict=True))
    if bar == "|" and spans and not line[slice(*spans[0])].strip():
        spans = spans[1:]
    if bar == "|" and spans and not line[slice(*spans[-1])].strip():
        spans = spans[:-1]
    return spans


def _tables(lines: list[str], html: bool) -> Iterator[tuple[int, int, str]]:
    """Runs of lines with one sign between their cells -> first, behind the last, the sign."""
    at = 0
    while at < len(lines):
        bar = next((sign for sign in _SIGNS if sign in lines[at].strip()), "")
        end = at + 1
        while bar and end < len(lines) and len(lines[end]) <= _LONGEST and end - at < _ROWS:
            if not (bar in lines[end].strip() or (html and not lines[end].strip())):
                break
            end += 1
        if bar and end - at > _FEWEST:
            yield at, end, bar
        at = end


def _is_name(cell: str) -> bool:
    words = re.findall(r"[a-z]+", cell.lower())
    return (
        _NAME.fullmatch(cell) is not None
        and not STITCH.search(cell)
        and not all(word in _LISTS or word in COLOURS or word.rstrip("s") in _LISTS for word in words)
    )


def _is_work(cell: str) -> bool:
    return STITCH.search(cell) is not None or _EVEN.match(cell) is not None


def _columns(head: list[str], rows: list[list[str]]) -> list[tuple[int, int | None]]:
    """The columns of the parts, each with that of its counts; empty where it is another kind of table."""
    told = [[cell for cell in column if not _NOTHING.fullmatch(cell)] for column in zip(*rows, strict=True)]
    own = not _LABEL.fullmatch(rows[0][0])
    parts: list[tuple[int, int | None]] = []
    for at in range(0 if own else 1, len(head)):
        if _is_name(head[at]):
            work = [cell for cell in told[at] if _is_work(cell) and not (own and not _OWN_LABEL.match(cell))]
            if len(work) < _FEWEST or len(work) * 2 < len(told[at]):
                return []
            parts.append((at, None))
        elif parts and parts[-1][1] is None and told[at] and all(_COUNT.fullmatch(cell) for cell in told[at]):
            parts[-1] = (parts[-1][0], at)
        else:
            return []
    labelled = own or (
        all(_LABEL.fullmatch(cell) for cell in told[0])
        and all(word in HEADER for word in re.findall(r"[a-z]+", head[0].lower()))
    )
    return parts if len(parts) > 1 and labelled else []


def _one_name(head: list[str]) -> int | None:
    """The column of the only part, among others that every table has: "| Rnd | Leg x4 | Total | Jobs |"."""
    names = [at for at, cell in enumerate(head) if at and _is_name(cell) and not _LISTS.issuperset(_words(cell))]
    others = {word for at, cell in enumerate(head) if at not in names for word in _words(cell)}
    known = all(word in _LISTS or word.rstrip("s") in _LISTS for word in others)
    if len(names) != 1 or not _words(head[0]) or not known:
        return None
    name = [word for word in _words(head[names[0]]) if word not in ("x", "make")]
    return names[0] if name and is_part(name[-1]) else None


def _words(cell: str) -> list[str]:
    return re.findall(r"[a-z]+", cell.lower())


def parted(text: str, html: bool = False) -> tuple[str, list[int] | None]:
    """The text with such tables written out part by part, and the way back; None where it holds none.

    `html`: its tags are gone, and lines between the rows may be empty.
    """
    if not any(sign in text for sign in _SIGNS):
        return text, None
    lines = text.split("\n")
    begins = [0]
    for line in lines:
        begins.append(begins[-1] + len(line) + 1)
    chars: list[str] = []
    back: list[int] = []
    copied = 0

    def put(new: str, at: int, moving: bool) -> None:
        chars.append(new)
        back.extend(at + i if moving else at for i in range(len(new)))

    for first, end, bar in _tables(lines, html):
        kept = [n for n in range(first, end) if not _RULE.fullmatch(lines[n])]
        spans = {n: _cells(lines[n], bar) for n in kept}
        wide = len(spans[kept[0]]) if kept else 0
        # a row of a part that goes on alone ends early where tabs stand between cells
        spans = {n: of + [(len(lines[n]), len(lines[n]))] * (wide - len(of)) for n, of in spans.items()}
        if wide < 2 or len(kept) <= _FEWEST or any(len(of) != wide for of in spans.values()):
            continue
        cells = [[lines[n][slice(*span)].strip() for span in spans[n]] for n in kept]
        cells[0] = [name.strip("*_ ") for name in cells[0]]
        parts = _columns(cells[0], cells[1:])
        if (alone := _one_name(cells[0])) is not None:
            begin, stop = spans[kept[0]][alone]
            put(text[copied : begins[first]], copied, True)
            put(f"{cells[0][alone]}\n", begins[kept[0]] + begin, False)
            put(text[begins[first] : begins[kept[0]] + begin], begins[first], True)
            put(" Work ", begins[kept[0]] + begin, False)
            copied = begins[kept[0]] + stop
            continue
        if not parts or (bar == "  " and not parts[0][0]):
            continue  # a page in two columns is parted by `gutter`
        put(text[copied : begins[first]], copied, True)
        for column, counts in parts:
            start = begins[kept[0]] + spans[kept[0]][column][0]
            put(f"\n{cells[0][column]}\n", start, False)
            for row, n in enumerate(kept[1:], 1):
                cell = cells[row][column]
                if _NOTHING.fullmatch(cell):
                    continue
                at = begins[n] + lines[n].index(cell, spans[n][column][0])
                label = cells[row][0].rstrip(".:") if parts[0][0] else ""
                if label and not _JOB.match(cell):
                    put(f"{'' if label[0].isalpha() or not label[-1:].isdigit() else 'R'}{label}: ", at, False)
                put(cell, at, True)
                if counts is not None and not _NOTHING.fullmatch(told := cells[row][counts]):
                    put(f" ({told.strip('()[]')})", at + len(cell) - 1, False)
                put("\n", at + len(cell) - 1, False)
        copied = begins[end] - 1 if end < len(lines) else len(text)
    if not copied:
        return text, None
    put(text[copied:], copied, True)
    return "".join(chars), back
