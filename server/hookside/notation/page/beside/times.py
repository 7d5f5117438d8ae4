"""Where a film is told along its time: "02:05 R1: 6 sc in a magic ring". The times are no part of what is worked."""

from __future__ import annotations

import re
from itertools import pairwise

_CLOCK = re.compile(r":(?<=\d.)[0-5]\d")
_TIME = r"[(\[]?(?:\d{1,2}:)?\d{1,3}:[0-5]\d[)\]]?"
_ROUND = r"(?:(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]?\d|\d{1,3}(?:[ ]?-[ ]?\d{1,3})?[ ]?[.:)][ ])"
_LEAD = re.compile(rf"^[ ]{{0,8}}(?:{_TIME}[ ]?(?:-+[ ]?|to[ ])?){{1,2}}(?:[ ]*(?:[-:|>=]+|at)[ ]+|[ ]+)(?=\S)", re.M)
_TRAIL = re.compile(rf"(?<=\S)[ ]+(?:(?:[-|@]+|at)[ ]*)?{_TIME}[ ]*$", re.M)
_TOLD = re.compile(_ROUND, re.I)
_ALONE = re.compile(rf"^[ ]*{_TIME}[ ]*$", re.M)  # a line of its own above what is told
_GREETING = re.compile(  # what is said beside the work
    rf"^[ ]*{_TIME}[ ]*[-:|]*[ ]*(?:hello|hi|intro(?:duction)?|welcome|outro|bye|goodbye|end|"
    r"thanks?(?: you)? for watching|finished (?:toy|piece)|subscribe)(?:[ ][^\n]{0,20})?[!. ]*$",
    re.I | re.M,
)
_FIGURES = re.compile(r"\d+")
_FEWEST = 3  # lines with a round beside their time


def _rising(leads: list[re.Match[str]]) -> bool:
    """Do the times go on from line to line, as a film does? "2:10 SHELL", "6:05 stuff it now"."""
    told = [[int(n) for n in _FIGURES.findall(m[0])[:3]] for m in leads]
    seconds = [n[0] * 60 + n[1] if len(n) == 2 else n[0] * 3600 + n[1] * 60 + n[2] for n in told]
    return len(leads) > _FEWEST and all(a < b for a, b in pairwise(seconds))


def untimed(text: str) -> str:
    """The page without the times of a film, where rounds are told beside them; the length stays."""
    if _CLOCK.search(text) is None:
        return text
    leads = list(_LEAD.finditer(text))
    if sum(bool(_TOLD.match(text, m.end())) for m in leads) >= _FEWEST or _rising(leads):
        text = _GREETING.sub(lambda m: " " * len(m[0]), text)
        text = _LEAD.sub(lambda m: " " * len(m[0]), text)
    trails = list(_TRAIL.finditer(text))
    if sum(bool(_TOLD.match(text, text.rfind("\n", 0, m.start()) + 1)) for m in trails) >= _FEWEST:
        text = _TRAIL.sub(lambda m: " " * len(m[0]), text)
    alone = list(_ALONE.finditer(text))
    if sum(bool(_TOLD.match(text, m.end() + 1)) for m in alone) >= _FEWEST:
        text = _ALONE.sub(lambda m: " " * len(m[0]), text)
    return text
