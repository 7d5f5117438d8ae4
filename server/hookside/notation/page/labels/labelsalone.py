"""Labels on lines of their own, each with its steps on lines below: "ROW 2:", "CHAIN 1.", "10 SINGLE CROCHET.", "TURN."

So large sheets for beginners are set. Where that is how a page has it, the steps of a round are put into one line; each
end of a line becomes a sign, the length stays. A line that is no step ends the round: it is a job, a name or talk.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

_FEWEST = 2  # labels with more than one step below them
_MOST = 12  # steps of one round
_LABEL = re.compile(
    rf"[ ]{{0,8}}[#*]{{0,3}}[ ]?(?:{COURSE}s?\.?[ ]?#?\d{{1,3}}(?:(?:[ ]?(?:-|,|to|and|&|\u2013)[ ]?)+\d{{1,3}})*|"
    rf"\d{{1,3}}(?:st|nd|rd|th)[ ]{COURSE})[ ]?[:.]?[ *]{{0,3}}",
    re.I,
)
_STEP = re.compile(
    r"[ ]{0,8}(?:[-*\u2022][ ])?(?:"
    r"(?:\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)[ ]?(?:more )?"
    r"(?:sc|[hd]?dc|h?tr|sl ?st|ss|inc|dec|ch|single|double|half|treble|slip|chain)|"
    r"(?:sc|[hd]?dc|h?tr|sl st|ss|inc|dec|sc2tog|ch|chain|single crochet|"
    r"double crochet|increase|decrease|slip stitch)\b|"
    r"(?:work|make|do|start|begin|skip|miss|put)\b[^\n]*\b(?:ring|circle|chain|ch|sc|dc|sts?|stitch(?:es)?|hook|inc\w*|"
    r"dec\w*|crochets?)\b|"
    r"(?:and |then |now )?(?:repeat|rep|do this|do that|do it|same as|as (?:in )?(?:row|round|rnd))\b|"
    r"(?:and |then |do not |don't )?(?:turn|join|pull (?:it )?tight)\b|"
    r"(?:you (?:now |should )?have|count|total|that is|that makes|stitches)[ ]?:?[ ]{1,3}\d)",
    re.I,
)
_ENDS = ".,;:!)"


def joined(text: str) -> str:
    """The page with the steps below such labels in their line."""
    lines = text.split("\n")
    spans = []
    for n, line in enumerate(lines):
        if line.strip() and _LABEL.fullmatch(line):
            last = n
            while last + 1 < len(lines) and last - n < _MOST and _STEP.match(lines[last + 1]):
                last += 1
            if last > n:
                spans.append((n, last))
    if sum(last - first > 1 for first, last in spans) < _FEWEST:
        return text
    parts = [*lines]
    for first, last in spans:
        parts[first] += " " if lines[first].rstrip()[-1:] in (":", ".") else ":"
        for n in range(first + 1, last):
            parts[n] += " " if lines[n].rstrip()[-1:] in _ENDS else ","
    ends = {n for first, last in spans for n in range(first, last)}
    return "".join(part if n in ends or n == len(parts) - 1 else f"{part}\n" for n, part in enumerate(parts))
