"""Numbers in front of the names of parts: "[1] HEAD", "[2] BODY", "#3 ARMS (make 2)", "4 - TAIL".

Such a number counts the parts and asks for no copies, as "2 EARS" by itself does. Only a whole page tells one from
the other: the numbers go up by one from part to part, and each part has rounds of its own.
"""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass

from hookside.notation.labels.patterns import COURSE

_OF = r"(?:[ ]?(?:/|of)[ ]?\d{1,2})?"  # "[2/5]", "2 of 5:"
_WORD = r"(?:(?:part|piece|pt|no|nr|section|chapter)\b[ ]?\.?:?[ ]?)"
_NUMBER = (
    rf"[\[({{<][ ]?{_WORD}?#?(?P<boxed>\d{{1,2}})\.?{_OF}[ ]?[\])}}>][ ]{{0,4}}(?:[-:.|/][ ]{{0,4}})?|"
    rf"(?:#[ ]?|n[or]\b\.?[ ]?#?)(?P<signed>\d{{1,2}}){_OF}[ ]{{0,4}}(?:[-:.|/)][ ]{{0,4}}|[ ])|"
    rf"(?P<bare>\d{{1,2}}){_OF}(?:[ ]{{0,4}}[-:|/][ ]{{0,4}}|[ ]{{1,4}})"
)
_HEADED = re.compile(
    rf"^[ ]{{0,8}}(?:#{{1,6}}[ ])?(?P<number>{_NUMBER})(?P<name>[A-Za-z][^\n]{{1,80}})$", re.I | re.M
)
# A hint of them: a line that begins with a two, and a letter soon behind it
SECOND = re.compile(r"^[^\w\n]{0,10}(?:[a-z]{2,7}[ .:]{0,3}#?)?2(?!\d)[^\n]{0,12}[ \])}>][A-Za-z]", re.I | re.M)
# What begins a round, a job or a sentence, and no name
_NO_NAME = re.compile(
    r"(?:ch|chain|sc|hdc|dc|htr|tr|dtr|sl|ss|st|sts|inc|dec|mr|magic|single|double|half|treble|make|work|crochet|"
    r"begin|start|change|switch|join|attach|sew|stuff|fasten|cut|weave|close|insert|place|pin|embroider|leave|turn|add|"
    r"put|repeat|rep|continue|finish|with|using|use|now|then|in|from|for|when|if|you|i|we|it|this|take|hold|x|times|"
    r"rounds?|rnds?|rows?|r|of|mm|cm|g|oz|yds?|m|balls?|skeins?|increase|decrease|invisible|v|a|pairs?|more|bobble)\b",
    re.I,
)
_COURSE = re.compile(
    rf"^[ ]{{0,8}}(?:{COURSE}\.?[ ]?[#(\[]?(?P<n>\d{{1,3}}|one|i)\b|"
    rf"(?P<behind>\d{{1,3}})(?:st|nd|rd|th)?[ ]?{COURSE}\b|"
    rf"first[ ]{COURSE}\b|(?P<alone>\d{{1,3}})(?:[ ]?[-.:)]|[ ]{{2}}))",
    re.I | re.M,
)
_COPIES = re.compile(r"\bmake\b|\bx ?\d|\d ?x\b|\b(?:pieces|pcs|alike|both|pair)\b", re.I)
_PLURAL = re.compile(r"(?:[^s]s|feet|teeth|hooves|leaves)$", re.I)
_BEHIND_NAME = re.compile(r"\s*(?:[(\[{/,:|]|\s-|\.\s)")
_ENOUGH = 3  # parts in a row that are numbered alike, so that nothing else need speak for it


@dataclass(slots=True)
class _Part:
    """A line that may be the numbered heading of a part."""

    match: re.Match[str]
    n: int
    form: str
    fresh: bool = False  # rounds of its own stand behind it

    def counts_parts(self) -> bool:
        """ "2 BODY", "3 ARMS x 2": can its number ask for no copies?"""
        if self.n < 2:
            return False
        name = self.match["name"]
        return bool(_COPIES.search(name)) or _PLURAL.search(_BEHIND_NAME.split(name, maxsplit=1)[0]) is None


def _parts(text: str) -> list[_Part]:
    found = []
    for match in _HEADED.finditer(text):
        if _NO_NAME.match(match["name"]) or match["name"].rstrip()[-1:] in (".", ";", ",", "="):
            continue
        number = match["boxed"] or match["signed"] or match["bare"]
        if match["bare"] and not match["name"][0].isupper():
            continue
        form = re.sub(r"\d+", "", match["number"]).replace(" ", "").lower()
        found.append(_Part(match, int(number), form))
    return found


def _runs(parts: list[_Part]) -> list[list[_Part]]:
    """Those of one form whose numbers go up by one from the first."""
    runs: list[list[_Part]] = []
    for part in parts:
        if runs and runs[-1][-1].form == part.form and part.n == runs[-1][-1].n + 1:
            runs[-1].append(part)
        elif part.n == 1:
            runs.append([part])
    return [run for run in runs if len(run) > 1]


def _begin(text: str, run: list[_Part]) -> bool:
    """Do parts of the run have rounds of their own, the first of them or those that go on in number?"""
    last = 0
    ends = [part.match.start() for part in run[1:]] + [len(text)]
    for part, end in zip(run, ends, strict=True):
        numbers = []
        for course in itertools.islice(_COURSE.finditer(text, part.match.end(), end), 400):
            told = course["n"] or course["behind"] or course["alone"] or "1"
            numbers.append(int(told) if told.isdecimal() else 1)
        part.fresh = bool(numbers) and numbers[0] in (1, last + 1)
        last = max(numbers, default=last)
    return sum(part.fresh for part in run) > 1


def unnumbered(text: str) -> str:
    """The page with the sign of a heading in place of such numbers; the length stays."""
    parts = _parts(text)
    if len(parts) < 2:
        return text
    out, at = [], 0
    for run in _runs(parts):
        sure = len(run) >= _ENOUGH and not run[0].match["bare"]
        if not (_begin(text, run) and (sure or any(part.counts_parts() for part in run))):
            continue
        for part in run:
            start, end = part.match.start("number"), part.match.start("name")
            out.append(text[at:start])
            out.append("# ".ljust(end - start)[: end - start])
            at = end
    out.append(text[at:])
    return "".join(out)
