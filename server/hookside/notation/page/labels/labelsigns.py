"""Labels with a word or a sign behind them that no label has elsewhere, within a line too: "Nr 4: ...; Nr 5: ...",
"Step 4: ...; Step 5: ...", "Rnd 4> ... / Rnd 5> ...", "R4| inc x 6". They become "Rd 4:" and "R4:"; the length stays.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.sought import Sought

_FEWEST = 3
_TO = r"(?:[ ]?(?:-|\u2013|\u2014|to|till|until|thru|through|&|and|,|/|\+|\.\.\.?)[ ]?(?:R(?=\d))?\d{1,3}){0,5}"
_NUMBERED = Sought(
    ("nr",), rf"(?<![\w.#])(?P<word>[Nn][rR]\.?)(?P<n>[ ]?\d{{1,3}}){_TO}(?=[ ]?(?:[:.)=(\[]|-[ ]))"
)
_SIGN = re.compile(
    rf"(?P<label>(?<!\w){COURSE}\.?[ ]?#?\d{{1,3}}{_TO}[ ]?)(?P<sign>[>~]|\|(?=[^|\n]*(?:\n|$)))(?=[ ])",
    re.I,
)
# "R1; mr 6 / R2; inc x6": where a label may begin alone
_HALF_STOP = re.compile(
    rf"(?:^[ \t]{{0,8}}|(?<=[./;)][ ])|(?<=[ ]{{2}}))(?P<label>{COURSE}\.?[ ]?#?\d{{1,3}}{_TO});(?=[ ])", re.I | re.M
)
# "Step 1: ...; Step 2: ..." in one line; where each begins a line, others know them
_STEP = Sought(
    ("step ", "line ", "circle "),
    rf"(?<![\w.#-])(?P<word>(?i:step|line|circle))(?P<n>[ ]\d{{1,3}}){_TO}(?=[ ]?[:.)][ ])",
)
# "6~10 step  no increase" , "Stage 2  inc x 6", with no sign: each begins its line
_LAP = r"(?:step|stage|lap|tour|level|circle|circuit)s?"
_SPAN = r"(?:[ ]?(?:-|~|\u2013|to|and|&)[ ]?(?P<last{}>\d{{1,3}}))?"
_STEP_LINE = re.compile(
    rf"^[^\w\n]{{0,4}}(?P<label>(?:{_LAP}[ ]?(?P<behind>\d{{1,3}}){_SPAN.format(2)}|"
    rf"(?P<n>\d{{1,3}}){_SPAN.format('')}[ ]?{_LAP}[ ]?[.:)]?)[ ]{{1,4}})(?=(?P<body>\S[^\n]{{1,300}}))",
    re.M | re.I,
)
STEP = re.compile(rf"^[^\w\n]{{0,4}}(?:{_LAP}[ ]?2|2[ ]?{_LAP})\b", re.M | re.I)  # a hint of them
_COUNTED = re.compile(
    r"\d[^\n]*\b(?:sc|[hd]?dc|h?tr|inc\w*|dec\w*|sts?|stitches|ring)\b|[(\[=-][ ]?\d{1,3}[ ]?\w{0,8}[)\]]?\W*$", re.I
)
# "Round 1 of 4: 6 sc in mr"
_OF_ALL = re.compile(
    rf"^(?P<label>[^\w\n]{{0,6}}{COURSE}\.?[ ]?#?\d{{1,3}}) (?:of|out of) \d{{1,3}}(?=[ ]?[:.)-])", re.I | re.M
)
_LABELLED = re.compile(rf"(?<!\w){COURSE}\.?[ ]?#?\d{{1,3}}[ ]?[:.)]", re.I)


def told(text: str) -> str:
    """The page with such labels as others write them."""
    if " of " in text:
        text = _OF_ALL.sub(lambda m: m["label"].ljust(len(m[0])), text)
    found = list(_NUMBERED.finditer(text))
    if len(found) >= _FEWEST and _counting_up(found) and len(_LABELLED.findall(text)) * 3 < len(found):
        parts: list[str] = []
        at = 0
        for match in found:
            parts += [text[at : match.start()], "Rd".ljust(match.end("word") - match.start())]
            at = match.end("word")
        text = "".join([*parts, text[at:]])
    text = _within(text)
    if (">" in text or "|" in text or "~ " in text) and len(_SIGN.findall(text)) >= _FEWEST:
        text = _SIGN.sub(lambda m: f"{m['label']}:", text)
    if "; " in text and len(_HALF_STOP.findall(text)) >= _FEWEST:
        text = _HALF_STOP.sub(lambda m: f"{m['label']}:", text)
    return text


def steps(text: str) -> str:
    """The page with labels in the place of such steps, where they count up from one in every part."""
    found = list(_STEP_LINE.finditer(text))
    if len(found) < _FEWEST or 3 * len(_LABELLED.findall(text)) > len(found):
        return text
    if 4 * sum(_COUNTED.search(m["body"]) is not None for m in found) < 3 * len(found):
        return text
    before = 0
    for match in found:
        n = int(match["n"] or match["behind"])
        if n != 1 and n <= before:
            return text
        before = int(match["last"] or match["last2"] or n)
    parts: list[str] = []
    at = 0
    for match in found:
        start, end = match.span("label")
        last = match["last"] or match["last2"]
        label = f"R{match['n'] or match['behind']}{f'-{last}' if last else ''}:"
        parts += [text[at:start], label.ljust(end - start)]
        at = end
    return "".join([*parts, text[at:]])


def _within(text: str) -> str:
    """The page with steps that stand within its lines as rounds, where nothing else has a label."""
    found = list(_STEP.finditer(text))
    inside = sum(text[max(0, m.start() - 3) : m.start()].endswith(("; ", ". ", "/ ", "   ")) for m in found)
    if len(found) < _FEWEST or 2 * inside < len(found) - 1 or not _counting_up(found, gaps=True):
        return text
    if 3 * len(_LABELLED.findall(text)) > len(found):
        return text
    parts: list[str] = []
    at = 0
    for match in found:
        word = "Row" if match["word"].lower() == "line" else "Rd"
        parts += [text[at : match.start("word")], word.ljust(len(match["word"]))]
        at = match.end("word")
    return "".join([*parts, text[at:]])


def _counting_up(found: list[re.Match[str]], *, gaps: bool = False) -> bool:
    """Does each go on from the one before it, or begin anew with one? `gaps`: what is left out may be told in words."""
    before = 0
    for match in found:
        n = int(match["n"])
        if n not in (1, before + 1) and not (gaps and n > before):
            return False
        before = int(re.findall(r"\d+", match[0])[-1])
    return int(found[0]["n"]) == 1
