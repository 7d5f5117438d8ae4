"""The colors of parts, told once ahead of them all: "Head and body grey, hat blue.", "Use grey for the head, pink for
the nose", "Everything in grey except the nose, which is pink."
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import NamedTuple

from hookside.notation.askings.colournames import SHADE
from hookside.notation.lines.copies.partslist import called_so, coloured
from hookside.notation.lines.heads.parts import MAIN_PARTS, PARTS, is_part
from hookside.notation.lines.layout import RawCourse, RawPiece, RawText, spans_of_sentences
from hookside.notation.vocabulary import COUNT_WORDS
from hookside.stitches import singular

_LONGEST = 200  # letters of a sentence that tells them
_MOST_AHEAD = 20_000  # letters ahead of the first part that are looked at
_LEAD = re.compile(
    r"\W*(?:(?:colou?rs?|yarns?|shades?|materials?)(?: used| by part)? ?[:=-]|you(?:'ll| will)? need\b)?", re.I
)
_SHADE = re.compile(rf"(?<![\w-])(?:{SHADE})(?: yarn| wool| cotton)?", re.I)
_REST = re.compile(
    r"(?:all )?(?:the )?(?:rest|others?(?: (?:parts?|pieces?))?|remaining (?:parts|pieces))"
    r"(?: of (?:it|the toy))?(?![a-z])|"
    r"every(?:thing|\s(?:part|piece))(?: else)?|all(?: the)? (?:other )?(?:parts|pieces)|all else|all(?= in\b)",
    re.I,
)
_EXCEPT = re.compile(r"except(?: for)?|but(?: for)?|apart from|save(?: for)?|besides", re.I)
_FILLER = re.compile(
    r"(?:the|a|an|is|are|in|with|use|using|used|for|work|worked|make|made|crochet|crocheted|all|both|and|my|his|her|its|"
    r"their|which|that|only|will|be|yarn|colou?r|of|i|we|it|stay|stays)(?![a-z])|[\s,:;=)&+/.!|-]+|\(",
    re.I,
)
_ASIDE = re.compile(r"\((?=[^()]*\d)[^()]{1,40}\)")  # "head white (3 rounds grey)"
_GOES_ON = re.compile(r"[,;]|\band\b")
_TWO_PAIRS = 4  # parts and colors, behind which a list goes on with other things: "..., hook 3 mm"
# "White legs (make 4)", "4 brown ears": a color in front of a part; no lemon, rose or stone
_DYED = re.compile(
    rf"\W*(?:(?:the |make )?(?:\d{{1,2}}|{COUNT_WORDS}) |the )?(?P<shade>(?:(?:light|dark|pale) )?"
    r"(?:white|black|red|blue|green|yellow|purple|pink|brown|gr[ae]y|cream|beige|navy|teal|turquoise)) "
    r"(?P<part>[a-z]{3,12})(?=[ ]*(?:[:.(\[,*#]|x ?\d|- |\n|$))",
    re.I,
)
_WORD = re.compile(r"[a-z]+(?:'s)?", re.I)


class _Told(NamedTuple):
    """One word or more of such a sentence: a shade "S", a part "P" by its name, the rest "R", an exception "X"."""

    kind: str
    start: int
    end: int
    name: str = ""


def part_colours(text: str, pieces: list[RawPiece], is_yarn: Callable[[str], bool]) -> None:
    """Gives them to the parts that name none themselves. `is_yarn`: does the text call one of its yarns so?"""
    worked = [p for p in pieces if p.name and any(isinstance(i, RawCourse) for i in p.items)]
    if len(worked) < 2:
        return
    ahead = min(p.at for p in worked)
    spans = _sentences(text, max(0, ahead - _MOST_AHEAD), ahead, {w for p in worked for w in _nouns(p.name)})
    told = [one for span in spans for one in _dyed(_parts(text, *span, worked, is_yarn))]
    for name, shade in [*(one for one in told if one[0]), *(one for one in told if not one[0])]:
        for piece in [p for p in worked if called_so(name, p)] if name else worked:
            if not coloured(piece) and not _names_shade(text, piece.at, piece):
                piece.items.insert(0, RawText(*shade, "colour"))
    for piece in worked:
        dyed = _DYED.match(text, piece.at)
        if dyed is None or not is_part(dyed["part"].lower()) or coloured(piece):
            continue
        if not _names_shade(text, dyed.end(), piece):
            piece.items.insert(0, RawText(*dyed.span("shade"), "colour"))


def _nouns(text: str) -> set[str]:
    return {singular(word) for word in _WORD.findall(text.lower())}


def _sentences(text: str, start: int, ahead: int, names: set[str]) -> Iterator[tuple[int, int]]:
    """Those of the lines ahead that hold a word of such names, or speak of all parts."""
    at = start
    for line in text[start:ahead].split("\n"):
        if len(line) <= 2 * _LONGEST and (not names.isdisjoint(_nouns(line)) or _REST.search(line) is not None):
            yield from ((a, b) for a, b in spans_of_sentences(text, at, at + len(line)) if b - a <= _LONGEST)
        at += len(line) + 1


def _parts(
    text: str, start: int, end: int, worked: list[RawPiece], is_yarn: Callable[[str], bool]
) -> list[_Told]:
    """The words of a sentence; none where one of them is anything else."""
    lead = _LEAD.match(text, start, end)
    at, told = lead.end() if lead is not None else start, []
    while at < end:
        shade = _SHADE.match(text, at, end)
        if shade is not None and (len(shade[0]) > 1 or is_yarn(shade[0])):
            told.append(_Told("S", *shade.span()))
        elif (match := _REST.match(text, at, end)) is not None:
            told.append(_Told("R", *match.span()))
        elif (match := _EXCEPT.match(text, at, end)) is not None:
            told.append(_Told("X", *match.span()))
        elif (found := _name(text, at, end, worked)) is not None:
            told.append(found)
        elif (match := _ASIDE.match(text, at, end) or _FILLER.match(text, at, end)) is not None:
            at = match.end()
            continue
        elif (match := _WORD.match(text, at, end)) is not None and is_yarn(match[0]):
            told.append(_Told("S", *match.span()))
        else:
            return told if len(told) >= _TWO_PAIRS and _GOES_ON.search(text, told[-1].end, at) is not None else []
        at = told[-1].end
    return told


def _name(text: str, at: int, end: int, worked: list[RawPiece]) -> _Told | None:
    """The name of a part at some place: of one that is worked, or of any other, "whiskers"."""
    words: list[re.Match[str]] = []
    while len(words) < 3 and (match := _WORD.match(text, at if not words else words[-1].end() + 1, end)) is not None:
        words.append(match)
    for many in range(len(words), 0, -1):
        name = text[at : words[many - 1].end()]
        known = singular(name.lower()) in {singular(part) for part in _KNOWN} if many == 1 else False
        if any(called_so(name, piece) for piece in worked) or known:
            return _Told("P", at, words[many - 1].end(), name)
    return None


_KNOWN = PARTS | MAIN_PARTS


def _dyed(told: list[_Told]) -> list[tuple[str, tuple[int, int]]]:
    """Each part with its color; "" stands for every other one. Nothing where it is not plain which has which."""
    order = "".join(one.kind for one in told)
    if re.fullmatch(r"(?:R?SXP+S|RSX(?:P+S)+|(?:P+S|RS)+)", order):
        groups = re.finditer(r"[PR]+S|SX", order)
    elif re.fullmatch(r"(?:S(?:P+|R))+", order):
        groups = re.finditer(r"S[PR]+", order)
    else:
        return []
    found: list[tuple[str, tuple[int, int]]] = []
    rest: list[tuple[str, tuple[int, int]]] = []
    for group in groups:
        several = told[group.start() : group.end()]
        shade = next((one.start, one.end) for one in several if one.kind == "S")
        if "X" in group[0]:
            rest.append(("", shade))
            continue
        for one in several:
            if one.kind != "S":
                (rest if one.kind == "R" else found).append((one.name, shade))
    return [*found, *rest] if len(rest) < 2 else []


def _names_shade(text: str, at: int, piece: RawPiece) -> bool:
    """Does its first round, or what stands in front of it behind `at`, name a color?"""
    first = next(i for i in piece.items if isinstance(i, RawCourse))
    return _SHADE.search(text, at, first.end) is not None
