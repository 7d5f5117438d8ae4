"""Names of parts and their colors, whatever stands between them: "Nose -> black", "NOSE * dark brown * 1x",
"[ARMS - grey - 2 pieces]", "[Head] white", "White: legs (make 4)", "For the nose use black", "Legs. Make 4 in white.".

Above a round all of them become "Arms (grey) (2 pieces)", which every reader of headings knows. A word that names no
color we know is one where other names of the text stand before a color in the same way: "SHOES - blush, make 2".
"White, magic ring" below a name becomes "With White, make a magic ring".
"""

from __future__ import annotations

import re
from itertools import islice, pairwise
from typing import NamedTuple

from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.colours.ownyarns import letters_of
from hookside.notation.lines.copies.asked import copies
from hookside.notation.lines.copies.belowname import many_below
from hookside.notation.lines.heads import headings
from hookside.notation.page.edits import Edit, put
from hookside.notation.vocabulary import SEVERAL_WORDS

_BEGINS = (
    rf"[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?#?\d|\d{{1,3}}(?:st|nd|rd|th)?(?:[ ]?[.:)-]|[ ](?:{COURSE}\b|\d))|"
    r"ch(?:ain)?[ ]?\d|[^\n]{0,30}\b(?:ring|mr|circle|loop)\b)"
)
# A line right above a round, or with one line between them; or what stands in front of the first round in its line
_ABOVE = re.compile(
    rf"^(?![^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?#?)?\d)(?:(?P<line>[^\n]{{5,80}})"
    rf"(?=\n+{_BEGINS}|\n[^\n]{{3,60}}\n+[^\w\n]{{0,6}}{COURSE}\.?[ ]?#?1\b)|"
    rf"(?P<led>[^\n]{{5,60}}?)(?=[ ]?[:.,-][ ]+{COURSE}\.?[ ]?#?1[ ]?[:.)-]))",
    re.M | re.I,
)
_N = rf"(?:\d{{1,2}}|{SEVERAL_WORDS}|one)"
_MAKE = r"(?:make|crochet|work|made)"
_COPIES = re.compile(
    rf"x[ ]?\d{{1,2}}|(?:{_MAKE}[ ])(?:x[ ]?)?{_N}|{_N}[ ]?x|{_N}(?:[ ](?:pieces?|pcs|times|of (?:them|these)))?", re.I
)
_USE = (
    r"(?:(?:i|we|you)[ ])?(?:(?:am|are)[ ])?(?:all[ ])?(?:work(?:ed|ing)?[ ]|made[ ]|crocheted[ ])?"
    r"(?:in|with|using|use|used|take|took|of)[ ](?:the[ ]|some[ ])?"
)
# What stands between two of them: signs, "in", a new line
_SEAM = re.compile(
    rf"(?:\s*(?:[^\w\s'&]+|\b_+\b|\n)\s*|"
    rf"(?<!\ba)[ ]+(?={_USE}|magic (?:ring|circle|loop)\b|x[ ]?\d|\d{{1,2}}[ ]?x\b|make\b)|"
    rf"(?:(?<=[ ]x\d)|(?<=[ ]\dx))[ ]+)+(?:{_USE})?",
    re.I,
)
_LEAD = re.compile(rf"[^\w\n]*(?:for )?(?:(?:the|his|her|its|my) )?(?:now )?(?:{_USE})?", re.I)
_RING = re.compile(r"(?:(?:make|form|do) )?(?:an? )?(?:(?:magic|adjustable) (?:ring|circle|loop)|mr|mc)", re.I)
_NAME = re.compile(r"[A-Za-z][A-Za-z']{2,}(?:[ ][A-Za-z'&]{1,14}){0,3}(?:[ ](?:\d{1,2}|[A-Z]))?")
_NO_NAME = re.compile(
    rf"(?:colou?rs?|yarns?|wool|cotton|threads?|shades?|stripes?|hooks?|needles?|first|last|rest|everything|all|then|"
    rf"now|again|back|start|{COURSE}s?|stitch(?:es)?|sts|gauge|size|tension|note|tip|nb)\b",
    re.I,
)
_OF_ROUNDS = re.compile(rf"\b{COURSE}s?\b", re.I)  # "Odd rounds in FLO."
_IN = re.compile(r"\b(?:in|us(?:e|ed|ing))$", re.I)  # "Shoes in blush": a yarn by whatever name
_MOST = 200


class _Chunk(NamedTuple):
    """A name "N", a shade "S", a letter or word that may be one "?", copies "C", a ring "R", at text[start:end]."""

    kind: str
    start: int
    end: int
    seam: str  # what stands before it

    @property
    def sign(self) -> str:
        """The seam by what it is, "in" for all words: whose like may stand before a color elsewhere."""
        return "in" if _IN.search(self.seam) else self.seam.strip(" ()[]{}") or "("


def told(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such names in the one form, and the way back."""
    found = [c for m in islice(_ABOVE.finditer(text), _MOST) if (c := _chunks(text, *_whole(text, m)))]
    listed = [c for pair in pairwise(found) if _touching(text, *pair) for c in pair]
    found = [chunks for chunks in found if chunks not in listed]  # a list of what is worked in which
    if not found:
        return text, offsets
    ways = {one.sign for chunks in found for one in chunks[1:] if one.kind == "S"} | {"in"}
    front = tuple(text[: found[0][0].start].split("\n")[:60])
    letters = letters_of(front) if any(c.kind == "?" for chunks in found for c in chunks) else frozenset()
    edits: list[Edit] = []
    for chunks in found:
        if chunks[1].kind == "R":
            edits += _in_words(text, *chunks)
            continue
        if _is_read(text, chunks):
            continue
        unknown = next((c for c in chunks if c.kind == "?"), None)
        word = text[unknown.start : unknown.end] if unknown is not None else ""
        if unknown is not None and word not in letters and (len(word) == 1 or unknown.sign not in ways):
            continue
        edits += _in_one_form(text, chunks)
    return put(text, offsets, edits) if edits else (text, offsets)


def _in_words(text: str, shade: _Chunk, ring: _Chunk) -> list[Edit]:
    return [(_line(text, shade), shade.start, "With "), (shade.end, ring.end, ", make a magic ring")]


def _touching(text: str, chunks: list[_Chunk], others: list[_Chunk]) -> bool:
    """Do they stand on lines one below the other?"""
    return not text[chunks[-1].end : others[0].start].strip(" *()[].,;:-\n")


def _line(text: str, chunk: _Chunk) -> int:
    """Where its line starts."""
    return text.rfind("\n", 0, chunk.start) + 1


def _whole(text: str, match: re.Match[str]) -> tuple[int, int]:
    """With the name above it where a line tells its color and its copies alone: "Legs" / "White, make 4"."""
    start, end = match.span("line" if match["line"] else "led")
    line = text[start:end]
    if match["line"] is None or not copies(line)[1] > 1 or _LEAD.match(line) is None or start < 2:
        return start, end
    above = text.rfind("\n", 0, start - 1) + 1
    name = text[above : start - 1].strip()
    alone = _NAME.fullmatch(name.strip(" *#_=:.-")) is not None and headings.heading(name, True, True) is not None
    kinds = "".join(sorted(c.kind for c in _split(text, start, end)))
    return (above, end) if alone and kinds == "CS" else (start, end)


def _chunks(text: str, start: int, end: int) -> list[_Chunk]:
    """The chunks of such a line; none where it is anything else, or is read as it stands."""
    chunks = _split(text, start, end)
    kinds = "".join(c.kind for c in chunks)
    if kinds == "SR":
        return chunks
    if re.fullmatch(r"N(?:S|\?)C?|NC(?:S|\?)|SNC?", kinds) is None:
        return []
    name = next(text[c.start : c.end] for c in chunks if c.kind == "N")
    if _NO_NAME.match(name) or _OF_ROUNDS.search(name) or headings.orders(name):
        return []
    words = name.lower().split()
    if not name[0].isupper() and headings.PARTS.isdisjoint(words):
        return []
    if kinds[0] == "S" and (chunks[1].sign not in (":", "-") or not headings.PARTS.issuperset(words)):
        return []  # "White: cloud" may be anything
    return chunks


def _is_read(text: str, chunks: list[_Chunk]) -> bool:
    """Does a heading say the same as it stands?"""
    line = text[chunks[0].start : chunks[-1].end]
    ahead = text[_line(text, chunks[0]) : chunks[0].start]
    name = next(text[c.start : c.end] for c in chunks if c.kind == "N")
    if "\n" in line or any("." in c.seam for c in chunks) or ahead.strip(" *#_=~-(["):
        return False
    line = ahead + text[chunks[0].start : (text + "\n").index("\n", chunks[-1].end)]
    made = max(1, *(copies(f"Part ({text[c.start : c.end]})")[1] for c in chunks if c.kind == "C"), 1)
    head = headings.heading(line, True, True)
    if head is None or head[1] != made or not headings.tidy_name(name).lower().endswith(head[0].lower()):
        return False  # "Her ears (pink, 2)" are ears
    return headings.colour_told(line) is not None or headings.word_aside(line) is not None


def _split(text: str, start: int, end: int) -> list[_Chunk]:
    lead = _LEAD.match(text, start, end)
    at = lead.end() if lead is not None else start
    last = start + len(text[start:end].rstrip(" .:,;*#_=~-)]}>\"/"))
    chunks: list[_Chunk] = []
    seam = ""
    while at < last:
        gap = _SEAM.search(text, at, last)
        stop = gap.start() if gap is not None else last
        words = text[at:stop]
        kind = _kind(words, not any(c.kind == "N" for c in chunks))
        if not kind:
            return []
        chunks.append(_Chunk(kind, at, stop, seam))
        seam = gap[0].strip() if gap is not None else ""
        at = gap.end() if gap is not None else last
    return chunks


def _kind(words: str, nameless: bool) -> str:
    if _COPIES.fullmatch(words) or many_below(words):
        return "C"
    if _RING.fullmatch(words):
        return "R"
    if headings.is_shade(words):
        return "S"
    if nameless:
        return "N" if _NAME.fullmatch(words) is not None else ""
    if re.fullmatch(r"[A-H]", words) or (words.isalpha() and headings.word_aside(f"Part ({words})") is not None):
        return "?"
    return ""


def _in_one_form(text: str, chunks: list[_Chunk]) -> list[Edit]:
    """The edits: a color told ahead goes behind its name, all else stays where it is."""
    edits: list[Edit] = []
    ahead = ""
    if chunks[0].kind == "S":
        ahead = f" ({text[chunks[0].start : chunks[0].end]})"
        edits.append((_line(text, chunks[0]), chunks[1].start, ""))
        chunks = chunks[1:]
    else:
        edits.append((_line(text, chunks[0]), chunks[0].start, ""))
    before = chunks[0].end
    for chunk in chunks[1:]:
        edits.append((before, chunk.start, f"{ahead} (" if before == chunks[0].end else ") ("))
        before = chunk.end
    closing = re.match(r"[ .:,;*#_=~\-)\]}>\"/]*", text[before:]) if before != chunks[0].end else None
    if closing is None:
        edits.append((before, before, ahead))
    else:
        rest = ":" if re.match(r"[ ]?[:.,-][ ]+[Rr]", text[before:]) else ""
        edits.append((before, before + len(closing[0]), f"){rest}{' ' if rest else ''}"))
    return edits
