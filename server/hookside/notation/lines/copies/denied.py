"""Numbers of copies that deny each other, and words beside a name that tell no number at all: "Wing (make 2)" with "Sew
all four wings on." behind it, "2 Wings (make 3)", "Wing (make 0)", "Wing (make 2, mirror the second)"."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from math import prod
from typing import NamedTuple

from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines.copies.pairs import several_told
from hookside.notation.lines.copies.summed import multiplied, summed
from hookside.notation.lines.layout import Layout, RawCourse, RawPiece
from hookside.notation.vocabulary import COPIES, SEVERAL_WORDS, number_of
from hookside.stitches import singular

_LONGEST = 160  # letters of a line that is looked at
_N = COPIES
# In a heading: at its beginning, behind "make", or alone in a bracket
_LEADS = re.compile(
    rf"^[^\w\n]{{0,4}}(?:(?:all|the|our|my|your|his|her|its|for|each|of|these|those) )*"
    rf"(?P<n>{_N}) (?:[a-z]+ ){{0,2}}[a-z]+s\b",
    re.I,
)
_MADE = re.compile(
    rf"\b(?:make|need|crochet|there are|there will be)\s(?P<n>{_N})\b"
    r"(?! ?(?:more|st|sc|ch|x|round|rnd|row|dec|inc|in )|[.,]\d)|"
    rf"[(\[]\s?(?:x ?)?(?P<n2>{_N})(?: ?x)?\s?[)\]]",
    re.I,
)
# In a sentence of its own
_ALONE = re.compile(
    rf"(?:^\W{{0,4}}|[.!;)] )(?:you(?:'ll| will)? |then |now |please )*(?:make|need|crochet) (?P<n>{_N})"
    r"(?: of (?:these|those|them))?(?: in (?:all|total)| altogether| total)?"
    r"(?:\W{0,3}(?=$|(?<=[.!;)] )[A-Z])|"
    r"(?=,? (?:but|and|then) (?:only |do |don't |not )*(?:leave|fasten|cut|sew|join|keep)\b))",
    re.I,
)
# "make 4; 1 red, 2 blue": so many in each
_SHADED = re.compile(
    rf"(?<=[;:,(-])\s?{_N} (?:in |of )?[a-z]{{3,12}}(?:(?:, and|,| and| \+| &) {_N} (?:in |of )?[a-z]{{3,12}}){{1,4}}"
    r"(?=\s?[).;]|\s*$)",
    re.I,
)
_LISTED = re.compile(rf" [a-z]+(?: [a-z]+)?(?:,? and|,|;) {_N} ", re.I)  # "make 2 grey, 2 pink"
_EACH_SHADE = re.compile(rf"(?P<n>{_N}) (?:in |of )?(?P<shade>[a-z]{{3,12}})", re.I)
# Copies of which the rest stands on the paper and is not worked
_SHORTER = re.compile(
    rf"\b(?:make|work|crochet|do) (?:{_N}|another|a second|one)\b[^.()\n]{{0,30}}\b(?:stop(?:ping)?|end(?:ing)?|"
    r"finish(?:ing)?) (?:at|after|with|before) (?:the )?(?:R|rounds?|rnds?|rows?) ?\d{1,3}",
    re.I,
)
# Wherever a part is named: "all four wings", "You need: 4 wings"
_NAMED = re.compile(
    rf"\b(?P<some>the )?(?:(?<=the )|\b(?:that's|that is|that makes|these are) |"
    rf"\b(?:all(?: of)?(?: the| your)?|you(?:'ll| will)? need:?|needed:) )(?P<n>{_N}) "
    r"(?P<of>[a-z]+ )?(?P<what>[a-z]{3,20})\b",
    re.I,
)
# "Make a second wing, and while you are at it, two feet."
_ASKED = re.compile(
    rf"(?:^\W{{0,4}}|[.!] )(?:now |then |also )?(?:make|crochet)\b[^.;:()\n]{{0,50}}?\b(?P<n>{_N}|a second|another) "
    r"(?P<of>[a-z]+ )?(?P<what>[a-z]{3,20})\b(?:[^.;:()\n]{0,40}?,[^.;:()\n]{0,40}? "
    rf"(?P<n2>{_N}) (?P<what2>[a-z]{{3,20}})\b)?",
    re.I,
)
# Numbers that no count of copies can be, and those of which it is open what they count
_NO_NUMBER = re.compile(
    rf"\b(?:make|made|crochet|need|x)\s*(?:0\b|[-\u2212]\s?\d|\d{{1,2}}[.,]\d|\d{{0,2}}\s?[\u00bc-\u00be]|1/2|half\b)|"
    rf"\b{_N} or (?:{_N} )?(?:pairs?|sets?)\b|\b(?:{_N}|a|one) (?:pairs?|sets?) (?:of|in|for) (?:each|every)\b|"
    r"\bmake (?:[~\u2248]|about |ca\.? ?|lots|plenty|many|loads|enough|tons|[ivx]{1,4}\b|\d{4,}|"
    r"\d{1,2}\+(?=\s?[)\],]|$))[^)\n]{0,24}|"
    rf"\b{_N},? or {_N} (?:for|if|when)\b|"
    r"[(\[]\d{1,2} ?(?:of )?[A-F]\b[^)\n]{0,20}|[(\[](?:[A-FLMSX]|X[SL]) ?[:=] ?\d[^)\n]{0,20}|"
    rf"\b{_N} ?[(\[]{_N}(?:[,/] ?{_N}){{1,6}}[)\]]|"
    rf"[(\[:,-]\s?(?:(?:ca|approx)\b\.?|about|around|roughly) {_N}\b(?=\W*$)|"
    rf"[(\[]{_N} ?(?:-|to) ?{_N}(?: pieces)?[)\]](?=\W*$)|"
    r"\bx ?\d{1,2}[ ,)(]{1,3}x ?\d{1,2}\b|"
    r"[(\[]\d{1,2} ?x ?\d{1,2}(?! ?cm| ?mm)[^)\n]{0,12}|"
    rf"\b{_N} x {_N} (?:colou?rs|shades)\b|(?:[-\u2013\u2014]|,(?=[^:\n]{{1,6}}:)) (?P<n>{_N})\W*$|"
    rf"\bone pair (?:per|for)\b|"
    rf"\b{_N} for (?:each|every) of (?:the |your )?{_N}\b|\b{_N} (?:as )?spares?\b",
    re.I,
)
# "Eyelid (one for each eye)", "For each horn:": as many as there are of another
_OF_EACH = re.compile(
    rf"\b(?:(?:one|1|an?|{_N} pairs?) )?(?:(?:for|on|at|to) (?:each|every|either)|per) "
    r"(?!st\b|stitch|round|rnd|row|side|colou?r|size)[a-z]{3,}",
    re.I,
)
# "4 - Paw", "Four: paws", where no part is the first by its number
_SET_OFF = re.compile(rf"\W{{0,3}}(?!one\b|1\b){_N}(?: ?[-\u2013\u2014:] ?|\) )(?=[a-z]{{3}})", re.I)
# "Legs | 4", "Legs 4/4", "Arm and a duplicate", "Petals (should have 6)": more than one by some word or number that no
# other rule takes
_MORE_THAN_ONE = re.compile(
    r"^\W*(?:[a-z]+ )?(?:[a-z]{2,}s|feet)(?:\s*[|/=~]\s*|\s*)(?:[2-9]|1[0-2])(?:\s?/\s?\d{1,2})?"
    r"(?:\s*[(\[][^()\[\]\d]*[)\]])?\W*$|"
    rf"[(\[<{{](?:(?!(?:r|rds?|rnds?|rounds?|rows?|sizes?|no|parts?|pages?|hook|col|colou?rs?|yarns?|steps?|charts?|of|"
    r"photos?|fig|versions?|from|to|in|shades?|days?|pieces?|sections?|levels?)\b)[a-z']+ ){0,4}"
    rf"(?:[2-9]|1[0-2]|{SEVERAL_WORDS})\s?[)\]>}}]|"
    r"\b(?:twins?|twice|thrice|duplicates?|dozens?|[a-z]{2,6}fold|(?:the|a) second one|\d{1,2} more|\d{1,2} times|"
    r"(?:front|upper|top|inner)(?: and | ?[&/+] ?)(?:back|lower|bottom|outer) [a-z]+s|quadruple)\b|"
    r"/\s?(?:[2-9]|1\d)\s?/|^\W*(?:[2-9]|1\d)\s?/\s?(?=[a-z]{3})",
    re.I,
)
# What one of them has and the other has not
_MIRRORED = re.compile(
    r"\bmirror(?:ed|ing|s)?\b[^.;()\n]{0,40}|\b(?:colou?rs?|yarns?|shades?) (?:swapped|reversed|the other way)\b|"
    r"\b(?:second|other|2nd|one|third|last|next) (?:one |[a-z]{2,14} )?(?:is |a |one )*"
    r"(?:\d|one|two|three|a) (?:rounds?|rnds?|rows?) (?:longer|shorter|more|fewer|less)\b",
    re.I,
)
# Behind the rounds of a part whose heading has told its number already
_MORE = re.compile(
    rf"(?:^\W{{0,4}}|[.!;)] )(?:(?:then|and|now) )*(?:make|crochet|work) (?P<words>(?:{_N}|another|a third|a fourth)"
    r"(?: more| one(?: more)?)?)(?=\W*$|[.!,;]| (?:in|with) )",
    re.I,
)
_THE_OTHER = re.compile(rf"\bfor (?:the |your )?other (?P<n>{_N})\b", re.I)
_EVERYTHING = re.compile(
    rf"\W{{0,4}}(?:make|work|crochet|you need) (?:all|every|each)(?: of)?(?: the)? (?:pieces?|parts?|ones?)"
    rf" (?:twice|thrice|{_N} times)\W*|"
    rf"\W{{0,4}}(?:make|work|crochet|you need) (?:everything (?:twice|thrice|{_N} times)|{_N} of (?:everything|each"
    r" (?:part|piece)|all (?:parts|pieces)))\W*",
    re.I,
)
_ABOVE = frozenset(["heading", "make", "title"])
_HINTS = ("make", "need", "crochet", "work", "all", "the ", "(", "mirror", "swapped", "longer", "shorter", "x", "for")


class Denied(NamedTuple):
    """A stretch of the text, the part it is about (None: several), and what is said of it."""

    start: int
    end: int
    piece: RawPiece | None
    code: str


def denied(text: str, layout: Layout) -> list[Denied]:
    """In the order of the text."""
    worked = [p for p in layout.pieces if any(isinstance(i, RawCourse) for i in p.items)]
    if not worked:
        return []
    counted = any(text[start : start + 3].strip(" .):") == "1" for start, _, role in layout.roles if role == "heading")
    begins = [p.at for p in layout.pieces]
    by_name: dict[str, list[RawPiece]] = {}
    for piece in layout.pieces:
        for word in {singular(word) for word in piece.name.lower().split()}:
            by_name.setdefault(word, []).append(piece)
    found: list[Denied] = []
    at_work = {id(p) for p in worked}
    for start, end, role in layout.roles:
        line = text[start : min(end, start + _LONGEST)]
        low = line.lower()
        at = bisect_right(begins, end) - 1
        here = layout.pieces[at] if at >= 0 else None
        if role not in _ABOVE:
            within = here if id(here) in at_work else None
            told = [s for s in several_told(line, by_name, within) if id(s.piece) in at_work]
            for a, b, piece, n in told:
                found.append(Denied(start + a, start + b, piece, "copies-denied" if n else "copies-plural"))
            if told:
                continue
        if role == "course" or (role not in _ABOVE and not any(hint in low for hint in _HINTS)):
            continue
        of = here if id(here) in at_work else None
        if role == "title" and of is None and len(worked) == 1 and worked[0].make == 1:
            found.extend(Denied(start + m.start(), start + m.end(), worked[0], "copies-unsure")
                         for m in [_OF_EACH.search(line)] if m)
        found.extend(_in_line(line, start, role, of, counted, _headed(text, of) if role not in _ABOVE else 0))
        if role not in ("heading", "title"):
            found.extend(Denied(start + a, start + b, p, "copies-denied") for a, b, p in _named(line, by_name))
    return found


def _in_line(line: str, start: int, role: str, piece: RawPiece | None, counted: bool, headed: int) -> Iterator[Denied]:
    if (told := _EVERYTHING.fullmatch(line)) is not None:
        yield Denied(start, start + len(line), None, "copies-ahead")
        return
    if piece is None:
        if role == "heading" and (told := _MIRRORED.search(line)) is not None:
            yield Denied(start, start + len(line), None, "copies-ahead")
        return
    if role in _ABOVE:
        numbers = [] if counted else [m for m in [_LEADS.match(line)] if m]
        numbers += [m for m in _MADE.finditer(line) if not _LISTED.match(line, m.end())]
        told_n = [number_of(m["n"] or m["n2"]) if "n2" in m.groupdict() else number_of(m["n"]) for m in numbers]
        off = [m for m, n in zip(numbers, told_n, strict=True) if n not in (0, piece.make)]
        together = prod(told_n), sum(told_n), (summed(line) or ("", 0))[1]
        if off and piece.make not in together and multiplied(line) == line:
            yield Denied(start + off[0].start(), start + off[0].end(), piece, "copies-denied")
            return
        if (shares := _SHADED.search(line)) is not None:
            each = _EACH_SHADE.findall(shares[0])
            if all(is_colour(shade) for _, shade in each) and sum(number_of(n) for n, _ in each) != piece.make:
                yield Denied(start + shares.start(), start + shares.end(), piece, "copies-denied")
        open_ = (_OF_EACH.search, _MORE_THAN_ONE.search, *(() if counted else (_SET_OFF.match,)))
        alone = next((m for way in open_ if (m := way(line)) is not None), None) if piece.make == 1 else None
        told = alone or _NO_NUMBER.search(line)
        if told is not None and (told is alone or told["n"] is None or number_of(told["n"]) != piece.make):
            yield Denied(start + told.start(), start + told.end(), piece, "copies-unsure")
    elif (told := _THE_OTHER.search(line)) is not None:
        if piece.make > 1 and number_of(told["n"]) != piece.make - 1:
            yield Denied(start + told.start(), start + told.end(), piece, "copies-denied")
    elif headed == piece.make > 1 and not _ALONE.search(line) and (told := _MORE.search(line)) is not None:
        yield Denied(start + told.start("words"), start + told.end("words"), piece, "copies-unsure")
    elif (told := _SHORTER.search(line)) is not None:
        yield Denied(start + told.start(), start + told.end(), piece, "copies-in-part")
    elif (told := _ALONE.search(line)) is not None and number_of(told["n"]) not in (1, piece.make):
        if piece.make == 1 and line.rstrip()[-1:] not in (".", "!", ")"):
            return  # the rest of it stands on the next line
        yield Denied(start + told.start(), start + told.end(), piece, "copies-denied")
    if (told := _MIRRORED.search(line)) is not None and (piece.make > 1 or role not in _ABOVE):
        yield Denied(start + told.start(), start + told.end(), piece, "for-some")


def _headed(text: str, piece: RawPiece | None) -> int:
    """The number that the heading of a part tells; 0 where it tells none."""
    if piece is None or piece.make == 1:
        return 0
    begins = text.rfind("\n", 0, piece.at) + 1
    line = text[begins : begins + _LONGEST].split("\n")[0]
    told = _MADE.search(line) or _LEADS.match(line)
    return number_of(next(n for n in told.groups() if n)) if told is not None else 0


def _named(line: str, by_name: dict[str, list[RawPiece]]) -> Iterator[tuple[int, int, RawPiece]]:
    """Where a line tells another number of a part than those that are counted."""
    for asked in _ASKED.finditer(line) if "ake " in line or "rochet " in line else ():
        for many, what in (("n", "what"), ("n2", "what2")):
            parts = by_name.get(singular(asked[what].lower()), []) if asked[what] else []
            wanted = 2 if (asked[many] or "").lower() in ("a second", "another") else number_of(asked[many] or "1")
            if parts and wanted > sum(p.make for p in parts):
                yield asked.start(many), asked.end(what), parts[0]
    for told in _NAMED.finditer(line):
        there = by_name.get(singular(told["what"].lower()), [])
        if told["of"]:
            there = [p for p in there if told["of"].strip().lower() in p.name.lower().split()]
        n, counted = number_of(told["n"]), sum(p.make for p in there)
        fewer = told["some"] and n < counted  # "the two legs of the other pair"
        if there and not fewer and n not in (1, counted, *(p.make for p in there)):
            yield told.start("n"), told.end(), there[0]
