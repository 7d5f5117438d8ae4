"""A round in the loops that an earlier one left: "in the free back loops of round 2: 12 sc"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.labels.patterns import COURSE

_LOOPS_OF = re.compile(
    rf"(?P<lead>(?:re-?join|join|attach|re-?attach)\w*\b[^.;:\n]{{0,24}}?)?"
    rf"(?:(?:now |then )?work(?:ing|ed)? )?(?:in|into|on|along|to|through) "
    rf"(?:(?P<every>each|every) (?:of )?)?(?:the )?"
    rf"(?:free |left-?over |remaining |unworked |unused |exposed |empty |open )*(?:(?P<which>front|back)? ?"
    rf"(?:free |left-?over |remaining |unworked |unused )?(?:loops?|lps?)|(?P<short>[bf]lo?)\b)"
    r"(?: (?:only|left(?: over| free)?|that (?:is|are|were) left))?"
    r"(?P<each> of (?:each|every|all)(?: the)? (?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr))?"
    rf",? (?:of|from|at|on|in) (?:the )?"
    rf"(?:{COURSE}\.? ?#?(?P<n>\d{{1,3}})|(?P<nth>\d{{1,3}})(?:st|nd|rd|th) {COURSE})\b"
    r"(?: of the (?:body|head|piece|crown))?"
    r"(?:,? (?:from |which is )?behind (?:the |those |your )?[a-z]+(?: (?:sts?|stitch(?:es)?|loops|round)\b)?)?",
    re.I,
)


_ANY_LOOP = re.compile(r"loop|lp|[bf]l", re.I)


@dataclass(frozen=True, slots=True)
class LeftLoops:
    """The number of the course whose stitches are worked into, and the body with a short word for its loops."""

    upon: int
    body: str


def left_loops(body: str) -> LeftLoops | None:
    """What a body says of the course whose loops it goes into; its length, and what stands behind, stay the same."""
    match = _LOOPS_OF.search(body) if _ANY_LOOP.search(body) else None
    if match is None:
        return None
    upon = int(match["n"] or match["nth"])
    if match["lead"]:  # "Rejoin the yarn in the back loop of R7, ...": something to do, told as it stands
        return LeftLoops(upon, body)
    short = {"f": "FLO", "b": "BLO"}.get((match["which"] or match["short"] or "").lower()[:1], "")
    if match["each"] or match["every"]:  # "1 dc in back loop of each dc of 17th rnd"
        short = f"{short} in each st"
    return LeftLoops(upon, f"{body[: match.start()]}{short:<{len(match[0])}}{body[match.end() :]}")


_ON_FABRIC = re.compile(
    r"\W*(?:with [^.;,]{3,40}, ?)?(?:and )?(?:re-?)?(?:join|attach)\w* "
    r"(?:(?:the|your|new|[a-z]{3,10}) ){0,2}(?:yarn|thread|colou?r)?\b[^.;]{0,60}?"
    r"\b(?:loops?|round|rnd|edge|row|stitch|st|corner|side)\b[^.;]{0,40}?[,;.] ?ch(?:ain)? ?[1-4]\b"
    r"(?!.*from (?:the )?hook)",
    re.I | re.S,
)


def on_fabric(body: str) -> bool:
    """ "Join yarn in a free loop of round 12, ch 2, 30 hdc": the chain only goes up, what is there bears the course."""
    return _ON_FABRIC.match(body) is not None


_JOINED_ABOVE = re.compile(
    r"\b(?:re-?)?(?:join|attach|insert|pull up|start|begin|pick up)\w*\b[^.;:]{0,60}?"
    r"\b(?:loops?|lps?|round|rnd|edge|row|stitch|st|corner|side|end|top|bottom|seam|opening|rim)\b",
    re.I,
)


def joined_above(sentence: str) -> bool:
    """ "With sea, join in a front loop of Rnd 10.": the course below it goes into what is there."""
    return _JOINED_ABOVE.search(sentence) is not None
