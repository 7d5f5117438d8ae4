"""Words as they lie on a page into lines in the order they are read: columns one after another, furniture left out."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

COLUMN = 3  # lines that begin at one place with a gap before it, to call it a column
GAP = 1.5  # of the letters' size: between two columns, or two cells
_LABEL = re.compile(r"\W*(?:r|rnds?|rounds?|rows?)?\.?\s*\d[\d\s,&.:)-]*$", re.IGNORECASE)  # a cell: "Rnds 4-6"
_COUNT = re.compile(r"\W*\d{1,3}\W*$")
TOGETHER = 0.45  # of the letters' size: heights so near belong to one line
_NARROW = frozenset(" ,.;:()[]iljtfr'!|-")
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

    @property
    def reach(self) -> float:
        """Where it ends, letter by letter: narrower than `end`, and the nearer of the two in a book's letters."""
        narrow = sum(letter in _NARROW for letter in self.text.rstrip())
        return self.x + (0.28 * narrow + 0.52 * (len(self.text.rstrip()) - narrow)) * self.size


def lines(words: list[Word], width: float) -> list[str]:
    """The lines of a page. Columns, two or more, are read one after the other between what goes across them."""
    words = [word for word in words if word.text.strip()]
    split = _gutter(words, width)
    if split is None or _table(words, split):
        return _rows(words, cells=split is not None)
    out: list[str] = []
    left: list[Word] = []
    right: list[Word] = []

    def told() -> list[str]:
        # A column may hold columns itself: three are two, of which one is two.
        return lines(left, width) + lines(right, width)

    for row in _by_row(words):
        if _crosses(row, split):
            out += told() + _rows(row)
            left, right = [], []
        else:
            left += [word for word in row if word.x < split - 2]
            right += [word for word in row if word.x >= split - 2]
    return out + told()


def _gutter(words: list[Word], width: float) -> float | None:
    """Where a second column, or cell, begins; None where there is one only."""
    rows = _by_row(words)
    starts: Counter[int] = Counter()
    for row in rows:
        end = reach = 0.0
        for word in row:
            # A round that begins within a line begins a column, though the gap before it is narrow.
            apart = word.x - end > GAP * word.size or (word.x - reach > word.size and _TWO.match(word.text))
            if 0.2 * width < word.x < 0.8 * width and apart:
                starts[round(word.x / 4)] += 1
            end, reach = max(end, word.end), max(reach, word.reach)
    for place, count in starts.most_common(6):
        at = place * 4 - 2.0
        if count < COLUMN:
            break
        begun = [word for word in words if abs(word.x - place * 4) <= 4]
        before = [word for word in words if word.x < at - 20]
        top, foot = min(w.y for w in begun), max(w.y for w in begun)
        crossing = sum(top <= row[0].y <= foot and _crosses(row, at) for row in rows)
        if crossing <= 0.1 * len(begun) and len(_by_row(before)) >= COLUMN and _beside(begun, before):
            return at
    return None


def _beside(begun: list[Word], before: list[Word]) -> bool:
    """Whether lines stand beside each other: at one height, or overlapping, as in columns of their own measure. What is
    only set in has nothing beside it."""
    level = sum(any(abs(w.y - v.y) <= TOGETHER * max(w.size, v.size) for v in before) for w in begun)
    near = sum(any(abs(w.y - v.y) < 0.95 * min(w.size, v.size) for v in before) for w in begun)
    return level >= 2 or near >= COLUMN


def _crosses(row: list[Word], at: float) -> bool:
    return any(word.x < at - 2 and word.reach > at + word.size for word in row)


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
    """Lines from top to bottom; a gap wider than a line and a half becomes an empty one, a sentence that went on as its
    column was full is one line. `cells`: bars between them."""
    rows = _by_row(words)
    edge = max((row[-1].reach for row in rows), default=0.0)
    out: list[str] = []
    before: list[Word] = []
    for row in rows:
        text = _joined(row, cells)
        step = row[0].y - before[0].y if before else 0.0
        size = max(before[0].size, row[0].size) if before else 0.0
        if before and not cells and step < 1.45 * size and _goes_on(out[-1], before[-1], text, edge):
            out[-1] += f" {text}"
        else:
            out += ["", text] if before and step > 1.9 * size else [text]
        before = row
    return out


def _goes_on(line: str, last: Word, text: str, edge: float) -> bool:
    """Whether a sentence, no round, goes on in the next line: its word had no room, or the sentence wants more."""
    if _WORK.match(line) or not re.match(r"[A-Z][a-z]+ [a-z]", line) or re.search(r"[.!?:;)\]\u00ad\u2010-]$", line):
        return False
    if _WANTS.search(line):
        return re.match(r"[a-z\d]", text) is not None
    first = text.split(" ")[0]
    full = last.reach + (len(first) + 1) * last.size * 0.4 > edge
    return full and re.match(r"[a-z]{2}", text) is not None and not _WORK.match(text)


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


_WANTS = re.compile(r" (?:an?|the|and|or|of|in|with|between|to|from|at|on|for|into)$")
_TWO = re.compile(r"\b(?:rnds?|rounds?|rows?|r)\.?\s?\d+(?:\s?[-\u2013]\s?\d+)?\s?:", re.IGNORECASE)


def mixed(page: list[str]) -> bool:
    """Whether two columns seem to stand in its lines, each line holding two rounds."""
    return sum(len(_TWO.findall(line)) > 1 for line in page) >= 2


def body(words: list[Word], height: float) -> tuple[list[Word], list[str]]:
    """The words of a page without the small print at its head and foot, apart from the rest; then that, in lines."""
    words = [word for word in words if word.text.strip()]
    rows = _by_row(words)
    if len(rows) < 5:
        return words, []
    letters: Counter[float] = Counter()
    for word in words:
        letters[round(word.size, 1)] += len(word.text)
    common = letters.most_common(1)[0][0]
    left: list[list[Word]] = []
    for edge, near in ((rows, 0.1), (rows[::-1], 0.9)):
        for row, beyond in pairwise(edge[:3]):
            outside = row[0].y < near * height if near < 0.5 else row[0].y > near * height
            apart = abs(row[0].y - beyond[0].y) > 2.5 * common
            small = all(word.size < 0.8 * common for word in row)
            if outside and apart and small and not _WORK.match(_joined(row, False)):
                left.append(row)
                break
    gone = {id(word) for row in left for word in row}
    return [word for word in words if id(word) not in gone], [_joined(row, False) for row in left]


def without_furniture(pages: list[list[str]], known: Iterable[str] = ()) -> tuple[list[list[str]], list[str]]:
    """Pages without the lines that stand at the head or foot of most of them or are `known` as such, and without bare
    page numbers there; then what was left out, each once. A round is none of these, though rounds alike but for their
    numbers may end a page."""
    seen: Counter[str] = Counter()
    for page in pages:
        seen.update({_plain(line) for line in _edges(page) if not _WORK.match(line)})
    often = {line for line, n in seen.items() if line and n >= 3 and n >= 0.5 * len(pages)}
    often |= {_plain(line) for line in known}
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
