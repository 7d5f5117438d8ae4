"""Rounds told in whole sentences, where no round has a label: "Now work two single crochet in every stitch"."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.labels import howlong
from hookside.notation.lines.unlabelled import alone

_AND = r"(?:(?:and|now|next|then|again|first|finally|after that|from here|this time|to finish)\b[,:]?\s+)*"
_ROUND = (
    r"(?:(?:one|a|another|the next|the last|1)\s+(?:more\s+)?(?:whole\s+|last\s+)?(?:round|row|rnd)\s+"
    r"(?:(?:of|with|as|where you|in which you)\b\s*:?\s*)?)?"
)
_LEAD = re.compile(
    rf"\W*{_AND}(?:(?:you|we)\s+(?:now\s+)?)?(?:work|make|do|crochet|put|continue\s+with|go\s+on\s+with)\s+{_ROUND}"
    r"(?:an?\s+(?=inc|dec|single|double|half|treble|[sdh]+c\b))?",
    re.I,
)

_IN_LOOPS = re.compile(
    r"(?:all\s+)?(?:in|into|through|working\s+in(?:to)?)\s+(?:the\s+|only\s+the\s+)?(?:back|front|both)\b", re.I
)
_LOOPS_LED = re.compile(
    r"(?:(?:working |work )?(?:all )?(?:in|into|through) )?(?:the )?"
    r"(?:(?:back|front) (?:loops?|lps?)(?: only)?|[bf]lo)(?: this time)?[,:] ?(?=[\d(\[*a-z])"
)
_SHADE_LED = re.compile(r"\W*(?:in|with|using)? ?(?P<shade>[a-z]+(?: [a-z]+){0,2})[,:] ?(?=[\d(\[*a-z])")
_COUNTED = re.compile(
    r"(?:\b(?:have|has|gives?(?:\s+you)?|makes?|making|giving(?:\s+you)?|total(?:\s+of)?|leaves?(?:\s+you)?|are|is|left"
    r"\s+with)\s+(?:now\s+|still\s+|with\s+)?)\d{1,4}(?:\s+(?:sts?|stitches|sc|dc|in\s+all|left))?\W*$",
    re.I,
)


def lead(text: str) -> int:
    """How long the verb and what stands before it are; 0 where the sentence begins otherwise."""
    match = _LEAD.match(text)
    return match.end() if match else 0


def in_loops(text: str, at: int) -> bool:
    """ "Work one round in the back loops only": no stitch is named, and a round is told all the same."""
    return bool(at and re.search(r"\b(?:round|row|rnd)\b", text[:at], re.I) and _IN_LOOPS.match(text, at))


def loops_lead(low: str) -> int:
    """How long "back loops only, " in front of a round in small letters is; 0 where none is told."""
    match = _LOOPS_LED.match(low) if "loop" in low[:30] or "lo" in low[:4] or "lp" in low[:20] else None
    return match.end() if match else 0


def shade_lead(low: str) -> int:
    """How long "white: " or "in dark red, " in front of a round in small letters is; 0 where no color is told."""
    match = _SHADE_LED.match(low) if ":" in low[:30] or "," in low[:30] else None
    return match.end() if match and is_colour(match["shade"]) else 0


def ended(text: str) -> bool:
    """Is a round that was told whole where its sentence ends: counted, or gone all the way round?"""
    text = text.rstrip()
    counted = alone.all_round(text) or _COUNTED.search(text) is not None
    return text[-1:] in (".", "!", ")") and (counted or bool(howlong.of_its_own(text.rstrip(".!"))))
