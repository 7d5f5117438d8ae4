"""Jobs told in one sentence, each by its own round: "After round 11 add the eyes, after round 12 start stuffing.",
"Eyes at Rnd 6; white at Rnd 7; stuffing at the eighth round."

Each becomes a sentence of its own, or a bracket, since a sentence is asked for at one round. The length stays.
"""

from __future__ import annotations

import re
from itertools import pairwise

from hookside.notation.askings.colournames import SHADE
from hookside.notation.labels.patterns import COURSE
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import ORDINAL_WORDS

_AT = r"(?:after|when|once|at the end of) (?:the end of )?(?:round|rnd|row)"
_TWO = Sought(
    ("after r", "when r", "once r", "end of r"),
    rf"(?P<first>\b{_AT} \d{{1,3}}\b[^.;:()\n]{{4,90}}?)(?P<seam>[,;](?: and| then)?| and)(?P<gap> )(?P<next>[awo])"
    rf"(?=(?:fter|hen|nce) (?:round|rnd|row) \d{{1,3}}\b)",
    re.I,
)


# A time in the work: "after Rnd 6", "from the eighth round", "after the eighth" and "after 8" behind all else,
# "between Rnds 5 and 6"
_NTH = rf"(?:{'|'.join(ORDINAL_WORDS)}|\d{{1,2}}(?:st|nd|rd|th))"
_TIME = re.compile(
    r"(?<![a-z])(?:(?:at|in|after|once|when|behind|from)(?: the)?(?: end of)?(?: the)? "
    rf"(?:{COURSE}\.? ?#?\d{{1,3}}(?![\w-]|[./] ?\d)|{_NTH} {COURSE}(?![a-z]))|"
    rf"after (?:the {_NTH}|\d{{1,2}})$|"
    rf"between (?:the )?{COURSE}\.? ?#?\d{{1,3}} and (?:{COURSE}\.? ?)?#?\d{{1,3}}(?![\w-]))",
    re.I,
)
_HINT = re.compile(
    r"[aiowbfAIOWBF](?<![a-zA-Z].)"
    r"(?i:(?<=a)(?:t|fter)|(?<=i)n|(?<=o)(?:nce|f)|(?<=w)hen|(?<=b)(?:ehind|etween)|(?<=f)rom) "
    rf"(?i:(?:the )?(?:{COURSE}|[a-z]{{3,8}}th|\d))"
)
# What each clause tells, so that two of one sort are known: a second color may only be the end of the first
_JOBS = (
    re.compile(r"\b(?:stuff|fill|wadding|fib(?:re|er)fill)", re.I),
    re.compile(r"\beyes\b", re.I),
    re.compile(r"\b(?:nose|mouth|smile|face)\b", re.I),
    re.compile(rf"(?:\b(?:to|in|with)|^)\s*(?:{SHADE})|\b(?:{SHADE})\s*$", re.I),
    re.compile(r"\b(?:sew|attach|pin|insert|glue|embroider)\b", re.I),
)
# Words between two signs
_CLAUSE = re.compile(r"[^.,;:()\[\]{}\n]{4,90}")
_CLOSED = {"(": ")(", "[": "][", "{": "}{"}
_BETWEEN = re.compile(r"\s(?:and then|and|then) (?!(?:[a-z]+\.? ?)?#?\d)", re.I)  # "Rnds 5 and 6" is one time
_LEADS = re.compile(r"(?:and |then )+", re.I)
_SEAM = re.compile(r"[,;]? (?:(?:and|then) )*", re.I)

# "(add the eyes when you've done R7: two rounds below)": no round that begins there
_DONE_ROUND = Sought(
    ("done r", "finished r", "after r", "made r", "once r"),
    rf"(?P<round>(?:done|finished|after|made|once) {COURSE}\.? ?#?\d{{1,3}})[:](?P<more> [^()\[\]\n]{{3,90}}[)\]])",
    re.I,
)


def parted(text: str) -> str:
    """The page with a full stop between each two."""
    text = _TWO.sub(_stopped, text)
    text = _DONE_ROUND.sub(lambda told: told["round"] + "," + told["more"], text)
    return "\n".join(_by_rounds(line) if _HINT.search(line) else line for line in text.split("\n"))


def _by_rounds(line: str) -> str:
    """A line with a full stop between neighbours of which each tells another job, by a round of its own."""
    told = [span for span in _clauses(line) if _TIME.search(line[slice(*span)])]
    for (start, stop), (first, last) in pairwise(told):
        seam = line[stop:first]
        jobs = _sort(line[start:stop]), _sort(line[first:last])
        if not _SEAM.fullmatch(seam) or None in jobs or jobs[0] == jobs[1]:
            continue
        within = _within(line, start)
        if within and len(seam) > 1:
            line = line[:stop] + _CLOSED[within].ljust(len(seam)) + line[first:]
        elif not within:
            line = line[:stop] + ". ".ljust(len(seam)) + line[first].upper() + line[first + 1 :]
    return line


def _within(line: str, at: int) -> str:
    """The sign of the bracket in which a place of a line stands; nothing outside of any."""
    open_at = max(line.rfind(sign, 0, at) for sign in _CLOSED)
    closed = max(line.rfind(sign, 0, at) for sign in ")]}")
    return line[open_at] if open_at > closed else ""


def _clauses(line: str) -> list[tuple[int, int]]:
    """Where the clauses of a line stand, without what joins them."""
    found: list[tuple[int, int]] = []
    for whole in _CLAUSE.finditer(line):
        at = whole.start()
        for seam in [*_BETWEEN.finditer(line, *whole.span()), None]:
            stop = seam.start() if seam is not None else whole.end()
            while at < stop and line[at] == " ":
                at += 1
            led = _LEADS.match(line, at, stop)
            found.append((led.end() if led is not None else at, stop))
            at = seam.end() if seam is not None else stop
    return found


def _sort(clause: str) -> int | None:
    """Which job a clause tells beside its one round."""
    bare, times = _TIME.subn("", clause)
    if times != 1:
        return None
    return next((n for n, job in enumerate(_JOBS) if job.search(bare.strip())), None)


def _stopped(match: re.Match[str]) -> str:
    return match["first"] + ".".ljust(len(match["seam"])) + match["gap"] + match["next"].upper()
