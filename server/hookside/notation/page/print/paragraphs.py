"""A paragraph that its page broke into lines, rounds and all: "... (6) Rnd 2: Work 2 / sc in each st. (12) Rnd / 3:".

Where labels stand in the middle of lines, the ends of full lines are the page's and no designer's: they become blanks,
so that the paragraph is read as if it stood in one line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from hookside.colours import COLOURS
from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.inwords import NTH, N
from hookside.notation.vocabulary import ORDINAL_WORDS

_NTH = rf"(?:\d{{1,3}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)})"
_LABEL = (
    rf"(?:{COURSE}\.?[ ]?#?\d{{1,3}}(?:[ ]?(?:-|to|and|&)[ ]?(?:{COURSE}\.?[ ]?)?\d{{1,3}})?"
    r"(?=[ ]?[:.)=-]|[ ][\d(\[*a-z])|"
    rf"{_NTH}(?:[ ]?(?:-|to|and|&)[ ]?{_NTH})?[ ](?:round|rnd|row)s?[ ]?[:.)-])"
)
_ENDED = r"[.)\]}>!;=]"
# A label or a number with its sign, behind what ends a round
_WITHIN = re.compile(rf"{_ENDED}[ ](?:{_LABEL}|\d{{1,2}}[.):][ ](?=[a-zA-Z\d(\[*]))|\d[ ]{_LABEL}", re.I)
# ... and one that the end of a line cuts in two: "Rnd / 3:", "4th / to 6th rounds:"
_CUT = re.compile(
    rf"{_ENDED}[ ](?:{COURSE}\.?[ ]*\n[ ]*\d{{1,3}}[ ]?[:.)-]|"
    rf"{_NTH}(?:[ ](?:to|and))?[ ]*\n[ ]*(?:(?:to|and)[ ])?(?:{_NTH}[ ])?(?:round|rnd|row)s?[ ]?[:.)-])",
    re.I,
)
_AT_START = re.compile(rf"^[ ]{{0,8}}(?:{_LABEL}|\d{{1,2}}[.):][ ])", re.I | re.M)
# A round that a sentence begins with: "In round 5 work ...", "For the third row,", "Then round 6,", "Round 7 is plain."
_TOLD = re.compile(
    rf"(?:^|[.!?:;][ ])(?:(?:and|now|then|next|so|finally),?[ ])?(?:"
    rf"(?:in|on|for|with)[ ](?:the[ ])?(?:{COURSE}\s{N}\b|{NTH}\s{COURSE}\b)|"
    rf"(?:the[ ])?(?:{COURSE}\s{N}(?:[ ](?:to|and)[ ]{N})?|{NTH}\s{COURSE})"
    r"(?:[ ](?:is|are|has|have|starts|begins|comes)\b|,[ ]))",
    re.I | re.M,
)
_MAY_TELL = re.compile(
    r"[rR](?<=[ ].)(?i:ound|ow)s?\s(?:\d{1,2}(?:,|\s[a-z])|[a-z]+[,\s])|[tT]he[ ][a-z0-9-]+\s(?i:round|row)"
)
_BEGINS = re.compile(
    rf"[ ]{{0,8}}(?:(?:in|on|for|with|then|now|next|and|so|okay|ok),?[ ]){{0,3}}(?:the[ ])?"
    rf"(?:{COURSE}[ ]{N}|{NTH}[ ]{COURSE})\b",
    re.I,
)
# "red: R3: ...", "(Red) R3: ...": a yarn in front of the first round of its line
_SHADED = re.compile(
    rf"[ ]{{0,8}}[(\[]?(?:{'|'.join(sorted(COLOURS, key=len, reverse=True))})[)\]]?[:.,]?[ ]{_LABEL}", re.I
)
_FEWEST_TOLD = 3  # such sentences in a page
_PROSE = 50  # letters of a line of such a page
_OF_ROUNDS = re.compile(r"\b(?:rounds?|rows?)\b", re.I)
_FEWEST = 2  # labels within the lines of a paragraph
_NARROWEST, _WIDEST = 16, 130  # letters of a full line
_CALLED = r"\s*[A-Z][\w']*(?: [\w'&]+){0,2}(?: ?[(\[][^()\[\]]{1,20}[)\]])?"
_NAME = re.compile(rf"{_CALLED}:?\s*")  # "Wing", "Arm (make 2)"
# "Ear: magic ring 5 (5); rnd 2 ...": a part that begins its line, its rounds behind it
_PART_AND_ROUNDS = re.compile(
    rf"(?!\s*(?i:{COURSE})\b){_CALLED}: (?=[^\n]{{0,40}}\b(?i:ring|circle|loop|mr|ch(?:ain)? ?\d|{COURSE}\.? ?1\b))"
)
# ... and its first round right behind the name: where most lines begin so, a line is a part, and none was wrapped
_PART_AND_FIRST = re.compile(
    rf"\s*(?:\d{{1,2}} )?(?!(?i:{COURSE})\b)[A-Za-z][\w']*(?: [\w'&]+){{0,2}}(?: ?[(\[][^()\[\]]{{1,30}}[)\]])?"
    rf"(?P<sign>:?) (?i:{COURSE})\.? ?1\b"
)
_GROWN = 1.3  # times as wide is a line that grew together with the next
_RAGGED = 4  # letters by which full lines may be short of the widest


def rejoined(text: str, broken: int = 0) -> str:
    """The text with its wrapped paragraphs in one line each; the length stays.

    `broken`: words that were cut at the ends of lines and are whole again, so that as many lines grew together.
    """
    out: list[str] = []
    at = 0
    told = _MAY_TELL.search(text) is not None and sum(1 for _ in _TOLD.finditer(text)) >= _FEWEST_TOLD
    for start, lines in _blocks(text):
        width = _width(lines, broken)
        if not _NARROWEST <= width <= _WIDEST:
            continue  # looked at first: what stands before a label is read for each label of a line
        if 2 * sum(_PART_AND_FIRST.match(line) is not None for line in lines) > len(lines):
            continue
        block = "\n".join(lines)
        within = sum(_worked_before(block, m.start()) for m in _WITHIN.finditer(block))
        within += _FEWEST * (_CUT.search(block) is not None)
        prose = told and width >= _PROSE and within < _FEWEST and _OF_ROUNDS.search(block) is not None
        # Of a paragraph that was wrapped, few lines begin with a round
        prose = prose and 2 * sum(_BEGINS.match(line) is not None for line in lines) <= len(lines)
        within += _FEWEST * prose
        if within < _FEWEST or 2 * within < sum(1 for _ in _AT_START.finditer(block)):
            continue
        out += [text[at:start], _joined(lines, width, prose)]
        at = start + len(block)
    return "".join([*out, text[at:]])


def _width(lines: list[str], broken: int) -> int:
    """How many letters the widest line has, but for such as grew together."""
    widths = sorted((len(line.rstrip()) for line in lines), reverse=True)
    grown = [n for n in range(1, min(broken, len(widths) - 3) + 1) if widths[n - 1] > _GROWN * widths[n]]
    return widths[grown[-1]] if grown else widths[0]


def _blocks(text: str) -> Iterator[tuple[int, list[str]]]:
    """Where each paragraph of more than one line begins, and its lines; a table's lines are none."""
    lines: list[str] = []
    at = 0
    for line in [*text.split("\n"), ""]:
        if line.strip() and "|" not in line:
            lines.append(line)
        else:
            if len(lines) > 1:
                yield at - sum(len(one) + 1 for one in lines), lines
            lines = []
        at += len(line) + 1


def _worked_before(block: str, at: int) -> bool:
    """Does work stand before a label in its line, and no count alone: "(6) Rnd 1: ...", or the word of it: "Rd. 1:"?"""
    before = block[block.rfind("\n", 0, at) + 1 : at + 1]
    return any(c.isalpha() for c in before) and any(c.isdecimal() for c in before)


def _joined(lines: list[str], width: int, prose: bool) -> str:
    out = [lines[0]]
    for before, line in pairwise(lines):
        word = line.split(maxsplit=1)[0]
        full = len(before.rstrip()) + 1 + len(word) > width - _RAGGED
        ended = before.rstrip()[-1:]
        full = full and not (ended in ".!:" and _NAME.fullmatch(line))
        full = full and not (ended in ".!;:)]" and _PART_AND_ROUNDS.match(line))
        part = _PART_AND_FIRST.match(line)
        full = full and not (ended != "," and part is not None and part["sign"])
        full = full and not (ended in ".!;)]" and _SHADED.match(line))
        # ... and where a round begins a line anyway, its label may stand there
        full = full and not (prose and ended in ".!:;)]" and _BEGINS.match(line))
        out += [" " if full else "\n", line]
    return "".join(out)
