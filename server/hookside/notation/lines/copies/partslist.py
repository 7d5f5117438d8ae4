"""How many of each part, and in what colour, a list or a table ahead of the rounds tells: "Make 2 feet and 3 knobs.",
"Pieces: 1 body (grey), 2 wings (white)", "Ears | 2 | grey"; and how many in all where a heading tells them for each of
another part: "Toe (make 3 for each foot)"."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines.layout import RawCourse, RawPiece, RawText, spans_of_sentences
from hookside.notation.vocabulary import COPIES, COUNT_WORDS, NUMBER_WORDS, REMEMBERED, number_of
from hookside.stitches import singular

_N = rf"(?:{COPIES}|an?)"
_INTRO = re.compile(
    r"[^\w\n]{0,6}(?:(?:(?:you(?:'ll| will)? |we |to )?(?:need|make|crochet)(?: to (?:make|crochet))?|"
    r"(?:list of )?(?:pieces|parts)(?: (?:list|needed|to make))?|"
    r"(?:this|the|he|she|it)(?: [a-z]+)? (?:has|needs|consists of|is made (?:up )?of)|"
    rf"[a-z]+(?: [a-z]+)?(?=: (?:\d{{1,2}}|{COUNT_WORDS}) [a-z]))\s*[:=-]?\s+)(?=\w)",
    re.I,
)
_SHADE = r"(?P<{0}>[a-z]+(?: [a-z]+)?)"
_ITEM = re.compile(
    rf"[^\w\n]{{0,6}}(?:(?P<n>{_N}) ?(?:x ?)?(?P<what>[a-z]+(?: [a-z]+){{0,2}}?)|"
    r"(?P<what2>[a-z]+(?: [a-z]+){0,2}?)(?:,? ?(?:\((?:make |x ?)?(?P<n2>\d{1,2})\)|"
    r"x ?(?P<n3>\d{1,2})|(?P<n4>\d{1,2}) ?x?)|(?:,| ?[:-])? ?make (?P<n5>" + _N + r"))|"
    r"(?P<bare>[a-z]+(?: [a-z]+)?))"
    rf"(?: ?\((?:in )?{_SHADE.format('s1')}\)|,? in {_SHADE.format('s2')}|(?<=[\dx)]) {_SHADE.format('s3')})?"
    r"[^\w\n]{0,4}$",
    re.I,
)
_MAKES_MANY = re.compile(
    r"^[^\w\n]{0,6}(?:you(?:'ll)? (?:will )?need|make|crochet) (?=\d|an?\b|[a-z]{3,5}\b)[^\n]{8,80}$", re.I | re.M
)
_BETWEEN = re.compile(r"\s*(?:(?:,(?! ?(?:make|x) ?\d)|[;&+])\s*(?:and\s)?|\band\b)\s*", re.I)
_ALL_IN = re.compile(r"\W*(?:all|everything|each|both)(?: of (?:them|it))? in (?P<shade>[a-z]+(?: [a-z]+)?)\W*$", re.I)
_ENDS_IN_NUMBER = re.compile(r"[a-z][ .|\t:/-]{1,60}(?P<n>\d{1,3})[ .|]{0,4}$", re.I)
_ASKS = re.compile(r"\bmake \d|\bx ?\d", re.I)  # and is no number of a page
_COUNTS_PARTS = re.compile(r"\b(?:how many|qty|quantity|make|pieces|parts|copies|number of)\b", re.I)
_MOST_WORDS = 9
_MOST_COPIES = 40
_FILLERS = frozenset(
    [
        "x", "make", "made", "piece", "pieces", "pc", "pcs", "in", "of", "the", "each", "them", "these", "alike",
        "same", "no", "qty", "yarn", "color", "colour", "times", "work", "crochet", "need", "with", "both", "all",
    ]
)  # fmt: skip
_LETTER = re.compile(r"(?:yarn |colou?r )?[A-H]")
# What a line that counts holds
_COUNTS = re.compile(rf"\d|\b(?:{COUNT_WORDS})\b", re.I)
_MOST_PARTS = 60
_MOST_AHEAD = 300  # lines
_SHORT = 120  # letters of a line that can be a list
_LONGEST = 300  # letters of a line in which such a number is looked for
_MEASURES = frozenset(["cm", "mm", "inch", "in", "inche", "st", "sc", "round", "rnd", "row", "color", "colour"])
_FOR_EACH = re.compile(r"\b(?P<n>\d{1,2}|[a-z]{3,6}) (?:(?:for|on|to) (?:each|every)|per) (?P<what>[a-z]{3,})\b", re.I)

Shade = tuple[int, int] | None


class Item(NamedTuple):
    """So many of what a list calls so, at text[start:end]; where it tells their colour."""

    n: int
    what: str
    shade: Shade
    start: int
    end: int


Listed = list[Item]


def count_copies(
    text: str, pieces: list[RawPiece], is_yarn: Callable[[str], bool]
) -> list[tuple[int, int]]:
    """Gives parts whose own headings tell no number, or no colour, those that a list ahead of all rounds tells.

    `is_yarn`: does the text call one of its yarns so? -> lines that tell numbers of parts, and could not be taken."""
    worked = [p for p in pieces if p.name and any(isinstance(i, RawCourse) for i in p.items)]
    if not worked:
        return []
    unread: list[tuple[int, int]] = []
    if 1 < len(worked) <= _MOST_PARTS:
        ahead = min(i.start for p in worked for i in p.items if isinstance(i, RawCourse))
        lists = [*_tables(text, ahead, worked, is_yarn), *_lists(text, ahead, worked)]
        lists += _lists_behind(text, ahead, worked)
        taken = {item.start for listed in lists if _give(text, listed, worked, pieces) for item in listed}
        lines = [(a, b) for a, b in _lines(text, ahead) if not any(a <= at <= b for at in taken)]
        unread = [line for line in lines if _tells_copies(text, *line, worked)]
    for piece in worked:
        _for_each(text, piece, worked)
    return unread


def _tells_copies(text: str, start: int, end: int, worked: list[RawPiece]) -> bool:
    """ "Pieces: 1 body, 2 ears, 2 eyes (bought)": a number above one beside a part that is still made once, in a line
    that names another part too."""
    if not 8 < end - start <= _LONGEST or not _COUNTS.search(text, start, end):
        return False
    if any(start <= p.at < end for p in worked):
        return False
    words = [singular(w) for w in re.findall(r"[a-z]+|\d+", text[start:end].lower())]
    called = [singular(re.findall(r"[a-z]+", p.name.lower())[-1]) for p in worked if re.search("[a-z]", p.name, re.I)]
    named = {name for name in words if called.count(name) == 1}
    if len(named) < 2:
        return False
    single = {name for name in named for p in worked if p.make == 1 and name in _words(p.name)}
    for at, word in enumerate(words):
        if not (word.isdecimal() or word in NUMBER_WORDS) or not 1 < number_of(word) <= _MOST_COPIES:
            continue
        before, behind = words[max(0, at - 1) : at], words[at + 1 : at + 3]
        before = words[max(0, at - 2) : at - 1] if before == ["x"] else before
        beside = [w for w in behind if w in named] or ([] if _MEASURES.intersection(behind[:1]) else before)
        if beside and beside[0] in single:
            return True
    return False


def _lines(text: str, ahead: int) -> list[tuple[int, int]]:
    """The lines ahead of the rounds, those nearest to them; each name of a part is looked for in each."""
    lines, at = [], 0
    for line in text[:ahead].split("\n"):
        lines.append((at, at + len(line)))
        at += len(line) + 1
    return lines[-_MOST_AHEAD:]


def _lists(text: str, ahead: int, worked: list[RawPiece]) -> list[Listed]:
    """Each list among these lines: in one line behind such a word, or of two and more parts. What heads a part lists
    none: "Shell, 5 mm hook" are no five of it."""
    found: list[Listed] = []
    run: Listed = []
    begun = False
    for start, end in [*_lines(text, ahead), (ahead, ahead)]:
        intro = _INTRO.match(text, start, end)
        at = intro.end() if intro else start
        items = _items(text, at, end) if not any(start <= p.at < end for p in worked) else []
        if not items and intro:
            for first, stop in spans_of_sentences(text, at, end)[:1]:  # "Make 2 feet and 3 knobs. Sew them on."
                items = _items(text, first, stop)
        if items and not intro and _ENDS_IN_NUMBER.search(text, start, end) and not _ASKS.search(text, start, end):
            items = []  # rows of a table, or a list of pages
        if items and not intro:
            run += items
            continue
        if begun or len(run) > 1:
            found.append(run)
        run, begun = items, bool(items)
    return found


def _lists_behind(text: str, ahead: int, worked: list[RawPiece]) -> list[Listed]:
    """ "Make 2 ears and 4 legs." at the very end: a list that names nothing but parts, and more than one."""
    found = []
    for line in _MAKES_MANY.finditer(text, ahead):
        intro = _INTRO.match(text, *line.span())
        items = _items(text, intro.end() if intro else line.start(), line.end())
        if len(items) > 1 and all(len(_found(text, item, worked)[1]) == 1 for item in items):
            found.append(items)
    return found


def _items(text: str, at: int, end: int) -> Listed:
    """ "2 feet, 1 shade and 3 knobs" -> its numbers and names; nothing where any of it is something else."""
    items: Listed = []
    words = text[at:end]
    if not words.strip() or len(words) > _SHORT:
        return []
    seams = [(m.start(), m.end()) for m in _BETWEEN.finditer(text, at, end)]
    begins, ends = [at, *(b for _, b in seams)], [*(a for a, _ in seams), end]
    if len(spans_of_sentences(text, at, end)) > 1:  # "1 body (grey). 2 ears (grey)."
        spans = spans_of_sentences(text, at, end)
        begins, ends = [a for a, _ in spans], [b for _, b in spans]
    for first, stop in zip(begins, ends, strict=True):
        told = _ITEM.match(text, first, stop)
        every = _ALL_IN.match(text, first, stop) if told is None or first == begins[-1] else None
        if every is not None and items:
            items = [i._replace(shade=i.shade or every.span("shade")) for i in items]
            continue
        if told is None:
            return []
        n = told["n"] or told["n2"] or told["n3"] or told["n4"] or told["n5"] or "a"
        what = told["what"] or told["what2"] or told["bare"]
        shade = next((told.span(s) for s in ("s1", "s2", "s3") if told[s]), None)
        items.append(Item(1 if n.lower() in ("a", "an") else number_of(n), what, shade, first, stop))
    return items if any(i.n > 1 for i in items) or words.lstrip(" -*(")[:1].isdecimal() else []


def _tables(text: str, ahead: int, worked: list[RawPiece], is_yarn: Callable[[str], bool]) -> list[Listed]:
    """Rows that each name a part and how many of it, and perhaps its colour; two and more."""
    found: list[Listed] = []
    run: Listed = []
    pages: list[int] = []  # the numbers that these rows end with, and those of the rows beside them
    others = False  # do such rows name anything but parts?
    counted = False  # does the line above them say that they count?
    for start, end in [*_lines(text, ahead), (ahead, ahead)]:
        line = text[start:end]
        if not line.strip(" |-+=_:") and end < ahead:
            continue
        item = _row(text, start, end, worked, is_yarn)
        ends = _ENDS_IN_NUMBER.search(line) if len(line) <= _SHORT else None
        if item is None and ends is None:
            if (counted and not others) or not _contents(run, pages, others):
                found.append(run)
            run, pages, others, counted = [], [], False, _COUNTS_PARTS.search(line) is not None
            continue
        run = run if item is None else [*run, item]
        others = others or item is None
        pages.append(int(ends["n"]) if ends is not None else 0)
    return [each for each in found if len({item.what.lower() for item in each}) > 1]


def _contents(rows: Listed, pages: list[int], others: bool) -> bool:
    """ "Materials ..... 2 / Head ..... 3 / Body ..... 4": pages that go up from row to row, and no copies."""
    up = len(pages) > 1 and all(a < b for a, b in itertools.pairwise(pages))
    return up and (others or pages[0] > 1) and not any(row.shade for row in rows)


def _row(
    text: str, start: int, end: int, worked: list[RawPiece], is_yarn: Callable[[str], bool]
) -> Item | None:
    """ "Ears | 2 | grey", "Ears (2): grey", "grey - Ears - 2": the name of a part, how many, perhaps a colour."""
    if end - start > _SHORT or not _COUNTS.search(text, start, end) or any(start <= p.at < end for p in worked):
        return None
    if not any(_words(p.name) & _words(text[start:end]) for p in worked):
        return None
    words = list(re.finditer(r"[A-Za-z']+|\d+", text[start:end]))
    named = _name_among(words, worked) if 1 < len(words) <= _MOST_WORDS else None
    if named is None:
        return None
    rest = [w for at, w in enumerate(words) if at not in named and w[0].lower() not in _FILLERS]
    numbers = [w for w in rest if w[0].isdecimal() or w[0].lower() in NUMBER_WORDS]
    others = [w for w in rest if w not in numbers]
    if len(numbers) != 1 or number_of(numbers[0][0]) > _MOST_COPIES:
        return None
    shade: Shade = None
    table = text.count("|", start, end) > 1
    for first in range(len(others)):
        last = others[-1] if not table else others[first]
        told = text[start + others[first].start() : start + last.end()]
        if is_colour(told) or is_yarn(told) or _LETTER.fullmatch(told):
            shade = start + others[first].start(), start + last.end()
            break
        if not table:
            return None
    name = " ".join(words[at][0] for at in named)
    return Item(number_of(numbers[0][0]), name, shade, start, end)


def _name_among(words: list[re.Match[str]], worked: list[RawPiece]) -> range | None:
    """Which of the words are the name of one part."""
    for many in (3, 2, 1):
        for first in range(len(words) - many + 1):
            name = " ".join(w[0] for w in words[first : first + many])
            if not is_colour(name) and len(_words(name)) == many and len(_named(name, worked)) == 1:
                return range(first, first + many)
    return None


@lru_cache(REMEMBERED)
def _words(name: str) -> frozenset[str]:
    return frozenset(singular(word) for word in re.findall(r"[a-z]+", name.lower()))


def called_so(what: str, piece: RawPiece) -> bool:
    """Does a part bear this name?"""
    return bool(_words(what)) and _words(what) <= _words(piece.name)


def _named(what: str, pieces: list[RawPiece]) -> list[RawPiece]:
    wanted = _words(what)
    return [p for p in pieces if wanted and wanted <= _words(p.name)]


def _give(text: str, listed: Listed, worked: list[RawPiece], pieces: list[RawPiece]) -> bool:
    """Is it taken? A list counts where each of its names is that of a part: not "2 eyes, a hook and a needle"."""
    parts = [_found(text, item, worked) for item in listed]
    if not all(there for _, there in parts):
        return False
    for item, there in parts:
        if len(there) != 1:
            continue  # "2 wings" of which each has its own rounds: as they are
        if there[0].make == 1:
            there[0].make = max(1, item.n)
        if item.shade is not None and not coloured(there[0]):
            there[0].items.insert(0, RawText(*item.shade, "colour"))
    first, last = text.rfind("\n", 0, listed[0].start) + 1, listed[-1].end
    for piece in (p for p in pieces if p.at < first and p not in worked and not p.assembly):
        piece.make = 1  # "Lamp / Make 2 feet and 3 knobs."
    for piece in [p for p in pieces if first <= p.at < last and p not in worked]:
        pieces.remove(piece)  # "Ears, 2, grey": a line of the list, and no part
    return True


def _found(text: str, item: Item, worked: list[RawPiece]) -> tuple[Item, list[RawPiece]]:
    """The parts that an item names; of "2 grey ears" the first word is their colour."""
    words = item.what.split()
    for led in range(len(words)):
        shade = " ".join(words[:led])
        there = _named(" ".join(words[led:]), worked)
        if there and led and (item.shade is not None or not is_colour(shade)):
            return item, []
        if there:
            at = text.index(shade, item.start)
            return (item._replace(shade=(at, at + len(shade))) if led else item), there
    return item, []


def coloured(piece: RawPiece) -> bool:
    """Does its heading tell a colour by itself, or a line in front of its first round?"""
    first = next((at for at, i in enumerate(piece.items) if isinstance(i, RawCourse)), 0)
    told = (i for i in piece.items[:first] if isinstance(i, RawText))
    return piece.colours is not None or any(i.job == "colour" for i in told)


def _for_each(text: str, piece: RawPiece, worked: list[RawPiece]) -> None:
    """ "Toe (make 3 for each foot)", "Make 3 for each foot." below: six, where the foot is made twice."""
    end = text.find("\n", piece.at)
    begins = next((i.start for i in piece.items if isinstance(i, RawCourse)), piece.at)
    heading = text[piece.at : max(begins, end if end >= 0 else len(text))][:_SHORT]
    told = _FOR_EACH.search(heading)
    if told is None or number_of(told["n"]) != piece.make:
        return
    there = [p for p in _named(told["what"], worked) if p is not piece]
    if len(there) == 1 and there[0].make > 1:
        piece.make *= there[0].make
