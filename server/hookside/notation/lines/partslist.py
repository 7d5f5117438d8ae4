"""How many of each part a list ahead of the rounds tells: "Make 2 feet and 3 knobs.", "Pieces: 1 body, 2 wings"; and
how many in all where a heading tells them for each of another part: "Toe (make 3 for each foot)"."""

from __future__ import annotations

import re

from hookside.notation.lines.layout import RawCourse, RawPiece
from hookside.notation.vocabulary import NUMBER_WORDS, number_of
from hookside.stitches import singular

_N = r"(?:\d{1,2}|an?|one|" + "|".join(NUMBER_WORDS) + r")"
_INTRO = re.compile(
    r"[^\w\n]{0,6}(?:(?:(?:you(?:'ll| will)? |we |to )?(?:need|make|crochet)(?: to (?:make|crochet))?|"
    r"(?:list of )?(?:pieces|parts)(?: (?:list|needed|to make))?)\s*[:=-]?\s+)(?=\w)",
    re.I,
)
_ITEM = re.compile(
    rf"[^\w\n]{{0,6}}(?:(?P<n>{_N}) ?(?:x ?)?(?P<what>[a-z]+(?: [a-z]+){{0,2}})|"
    r"(?P<what2>[a-z]+(?: [a-z]+){0,2}) ?(?:\(x? ?(?P<n2>\d{1,2})\)|x ?(?P<n3>\d{1,2}))|"
    r"(?P<bare>[a-z]+(?: [a-z]+)?))[^\w\n]{0,4}$",
    re.I,
)
_BETWEEN = re.compile(r"\s*(?:[,;&+]\s*(?:and\s)?|\band\b)\s*", re.I)
_SHORT = 120  # letters of a line that can be a list
_FOR_EACH = re.compile(r"\b(?P<n>\d{1,2}|[a-z]{3,6}) (?:(?:for|on|to) (?:each|every)|per) (?P<what>[a-z]{3,})\b", re.I)

Listed = list[tuple[int, str]]


def count_copies(text: str, pieces: list[RawPiece]) -> None:
    """Gives parts whose own headings tell no number the one that a list ahead of all rounds tells of them."""
    worked = [p for p in pieces if p.name and any(isinstance(i, RawCourse) for i in p.items)]
    if not worked:
        return
    if len(worked) > 1 and any(p.make == 1 for p in worked):
        ahead = min(i.start for p in pieces for i in p.items if isinstance(i, RawCourse))
        for listed in _lists(text[:ahead]):
            _give(listed, worked)
    for piece in worked:
        _for_each(text, piece, worked)


def _lists(ahead: str) -> list[Listed]:
    """Each list among these lines: in one line behind such a word, or of two and more parts."""
    found: list[Listed] = []
    run: Listed = []
    begun = False
    for line in [*ahead.split("\n"), ""]:
        intro = _INTRO.match(line)
        items = _items(line[intro.end() if intro else 0 :])
        if items and not intro:
            run += items
            continue
        if begun or len(run) > 1:
            found.append(run)
        run, begun = items, bool(items)
    return found


def _items(words: str) -> Listed:
    """ "2 feet, 1 shade and 3 knobs" -> its numbers and names; nothing where any of it is something else."""
    items: Listed = []
    if not words.strip() or len(words) > _SHORT:
        return []
    for told in _BETWEEN.split(words):
        match = _ITEM.match(told)
        if match is None:
            return []
        n = match["n"] or match["n2"] or match["n3"] or "a"
        what = match["what"] or match["what2"] or match["bare"]
        items.append((1 if n.lower() in ("a", "an") else number_of(n), what))
    return items if any(n > 1 for n, _ in items) or words.lstrip(" -*(")[:1].isdecimal() else []


def _words(name: str) -> set[str]:
    return {singular(word) for word in re.findall(r"[a-z]+", name.lower())}


def _named(what: str, pieces: list[RawPiece]) -> list[RawPiece]:
    wanted = _words(what)
    return [p for p in pieces if wanted <= _words(p.name)]


def _give(listed: Listed, worked: list[RawPiece]) -> None:
    """A list counts copies where each of its names is that of a part: not "2 eyes, a hook and a needle"."""
    parts = [(n, _named(what, worked)) for n, what in listed]
    if not all(there for _, there in parts):
        return
    for n, there in parts:
        if len(there) == 1 and there[0].make == 1 and n > 1:  # "2 wings" of which each has its own rounds: as they are
            there[0].make = n


def _for_each(text: str, piece: RawPiece, worked: list[RawPiece]) -> None:
    """ "Toe (make 3 for each foot)": six, where the foot is made twice."""
    end = text.find("\n", piece.at)
    heading = text[piece.at : end if end >= 0 else len(text)][:_SHORT]
    told = _FOR_EACH.search(heading) if piece.make > 1 else None
    if told is None or number_of(told["n"]) != piece.make:
        return
    there = [p for p in _named(told["what"], worked) if p is not piece]
    if len(there) == 1 and there[0].make > 1:
        piece.make *= there[0].make
