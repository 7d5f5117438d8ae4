"""Words as they lie on a page into lines in the order they are read: columns one after another, furniture left out."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass

COLUMN = 3  # lines that begin at one place with a gap before it, to call it a column
GAP = 1.5  # of the letters' size: between two columns, or two cells
_LABEL = re.compile(r"\W*(?:r|rnds?|rounds?|rows?)?\.?\s*\d[\d\s,&.:)-]*$", re.IGNORECASE)  # a cell: "Rnds 4-6"
_COUNT = re.compile(r"\W*\d{1,3}\W*$")
TOGETHER = 0.45  # of the letters' size: heights so near belong to one line
WIDTH = 0.5  # of the letters' size: what a letter takes on average


@dataclass(frozen=True, slots=True)
class Word:
    """A run of letters: where it begins, from the left and from the top, its size and its text."""

    x: float
    y: float
    size: float
    text: str

    @property
    def end(self) -> float:
        return self.x + len(self.text.rstrip()) * self.size * WIDTH


def lines(words: list[Word], width: float) -> list[str]:
    """The lines of a page. Two columns are read one after the other between what goes across both."""
    words = [word for word in words if word.text.strip()]
    split = _gutter(words, width)
    if split is None or _table(words, split):
        return _rows(words, cells=split is not None)
    out: list[str] = []
    left: list[Word] = []
    right: list[Word] = []
    for row in _by_row(words):
        if _crosses(row, split):
            out += _rows(left) + _rows(right) + _rows(row)
            left, right = [], []
        else:
            left += [word for word in row if word.x < split - 2]
            right += [word for word in row if word.x >= split - 2]
    return out + _rows(left) + _rows(right)


def _gutter(words: list[Word], width: float) -> float | None:
    """Where a second column, or cell, begins; None where there is one only."""
    rows = _by_row(words)
    starts: Counter[int] = Counter()
    for row in rows:
        end = 0.0
        for word in row:
            if 0.2 * width < word.x < 0.8 * width and word.x - end > GAP * word.size:
                starts[round(word.x / 4)] += 1
            end = max(end, word.end)
    for place, count in starts.most_common(4):
        at = place * 4 - 2.0
        if count < COLUMN:
            break
        beside = [row for row in rows if any(abs(word.x - place * 4) <= 4 for word in row)]
        crossing = sum(_crosses(row, at) for row in beside)
        left = sum(any(word.x < at - 20 for word in row) for row in rows)
        both = sum(any(word.x < at - 20 for word in row) for row in beside)
        if crossing <= 0.1 * len(beside) and left >= COLUMN and both >= 2:
            return at
    return None


def _crosses(row: list[Word], at: float) -> bool:
    return any(word.x < at - 2 and word.end > at + word.size for word in row)


def _table(words: list[Word], split: float) -> bool:
    """Whether what stands beside each other are cells of one line: labels before it, or counts behind it."""
    pairs = [
        ("".join(w.text for w in row if w.x < split - 2), "".join(w.text for w in row if w.x >= split - 2))
        for row in _by_row(words)
        if not _crosses(row, split)
    ]
    pairs = [(left, right) for left, right in pairs if left and right]
    cells = sum(bool(_LABEL.match(left.strip()) or _COUNT.match(right)) for left, right in pairs)
    return bool(pairs) and cells > 0.7 * len(pairs)


def _by_row(words: list[Word]) -> list[list[Word]]:
    rows: list[list[Word]] = []
    for word in sorted(words, key=lambda w: (w.y, w.x)):
        if rows and abs(rows[-1][0].y - word.y) <= TOGETHER * max(rows[-1][0].size, word.size):
            rows[-1].append(word)
        else:
            rows.append([word])
    return [sorted(row, key=lambda w: w.x) for row in rows]


def _rows(words: list[Word], cells: bool = False) -> list[str]:
    """Lines from top to bottom; a gap wider than a line and a half becomes an empty one. `cells`: bars between them."""
    out: list[str] = []
    before: Word | None = None
    for row in _by_row(words):
        if before is not None and row[0].y - before.y > 1.9 * max(before.size, row[0].size):
            out.append("")
        out.append(_joined(row, cells))
        before = row[0]
    return out


def _joined(row: list[Word], cells: bool) -> str:
    text = ""
    end = 0.0
    for word in row:
        gap = word.x - end
        glued = not text or text.endswith(" ") or word.text.startswith(" ") or gap < 0.12 * word.size
        bar = "| " if cells and text and gap > GAP * word.size else ""
        text += word.text if glued and not bar else f" {bar}{word.text}"
        end = word.end
    return " ".join(text.split())


# -- over all pages ---------------------------------------------------------

_DIGITS = re.compile(r"\d+")
_BROKEN = re.compile(r"(?<=[a-z])[-\u00ad\u2010]$")  # hyphen, soft hyphen, the typesetter's
_WORK = re.compile(
    r"\W*(?:(?:rnds?|rounds?|rows?)\.?\s*\d|r\s?\d+\s*[:.)-])|.*[(\[]\s*\d+\s*(?:sts?\.?)?\s*[)\]]\W*$", re.IGNORECASE
)
_PAGE_NUMBER = re.compile(r"^(?:page\s*)?-?\s*\d{1,3}\s*(?:/|of\s*\d{1,3})?\s*-?$", re.IGNORECASE)


def without_furniture(pages: list[list[str]]) -> tuple[list[list[str]], list[str]]:
    """Pages without the lines that stand at the head or foot of most of them, and without bare page numbers there; then
    what was left out, each once. A round is none of these, though rounds alike but for their numbers may end a page."""
    seen: Counter[str] = Counter()
    for page in pages:
        seen.update({_plain(line) for line in _edges(page) if not _WORK.match(line)})
    often = {line for line, n in seen.items() if line and n >= 3 and n >= 0.5 * len(pages)}
    left: dict[str, None] = {}
    out = []
    for page in pages:
        edge = set(map(id, _edges(page)))
        kept = []
        for line in page:
            at_edge = id(line) in edge
            if at_edge and (_plain(line) in often or _PAGE_NUMBER.match(line)):
                left[line] = None
            else:
                kept.append(line)
        out.append(kept)
    return out, list(left)


def _edges(page: list[str]) -> list[str]:
    told = [line for line in page if line]
    return told[:2] + told[-2:] if len(told) > 4 else told


def _plain(line: str) -> str:
    return _DIGITS.sub("0", line).lower()


def whole(pages: list[list[str]]) -> str:
    """Pages as one text: an empty line between two, but for where a sentence or a word goes on over the page."""
    out: list[str] = []
    for page in pages:
        told = page[next((n for n, line in enumerate(page) if line), len(page)) :]
        if not told:
            continue
        while out and not out[-1]:
            out.pop()
        goes_on = out and (out[-1].endswith(",") or _BROKEN.search(out[-1]) or re.match(r"[a-z]", told[0]))
        out += told if goes_on or not out else ["", *told]
    return "\n".join(unbroken(out)).strip("\n") + "\n"


def unbroken(lines: list[str]) -> list[str]:
    """Lines without words that were parted at their end: "cro-" and "chet" become one. A hyphen before a number, or
    between what is no word, stays."""
    out: list[str] = []
    for line in lines:
        line = line[:-1].replace("\u00ad", "") + line[-1:]  # a soft hyphen within a line is not to be seen
        if out and _BROKEN.search(out[-1]) and re.match(r"[a-z]{2,}", line):
            head, _, tail = line.partition(" ")
            out[-1] = out[-1][:-1] + head
            if tail:
                out.append(tail)
        else:
            out.append(line)
    return out
