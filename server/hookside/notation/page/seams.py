"""Seams in a paragraph in front of which a round stands without a label of its own: it gets a line of its own.

"Body: 6 sc in magic ring. R2: inc x 6. Next round: sc around." A blank becomes the end of a line, the length stays.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE, WORK_OF_NEXT

_AHEAD = 100  # letters of a line in which its first round ends
_SECOND = re.compile(rf"(?<=[.;)\]}}])[ ](?={COURSE}\.?[ ]?(?:2|two)\b)", re.I)
_FIRST = re.compile(rf"\b{COURSE}s?\.?[ ]?(?:1|one)\b|\b(?:1st|first)[ ]{COURSE}\b", re.I)
_RING = re.compile(r"\b(?:ring|circle|mr|mc|amr|magic loop|slip loop|loop)\b", re.I)
_CHAINS = re.compile(r"(?:make |start with |begin with )?ch(?:ain)?[ ]?\d", re.I)
# "Body. Magic ring, 6 sc." above "R2:"
_NAMED = re.compile(
    rf"^(?P<name>[ ]{{0,8}}(?!{COURSE}\b)[A-Z][A-Za-z' ]{{2,30}})\.[ ](?=[^\n]{{3,200}}\n{COURSE}\.?[ ]?(?:2|two)\b)",
    re.M | re.I,
)
# "Next round: 2 dc in each", "Next round, 2 dc in each"
_NEXT = re.compile(rf"(?<=[.;)\]}}])[ ](?=(?:next|following)[ ]{COURSE}(?:[ ]?[:-]|,?[ ]{WORK_OF_NEXT}))", re.I)

# "Ears (2): black, 6 dc into ring, pull tight, fasten off.": a whole part on one line, its jobs behind its one round
_WHOLE = re.compile(
    rf"^(?P<round>[ ]{{0,8}}(?!{COURSE}s?\b|r\d)[a-z][a-z' ]{{1,30}}(?:[(,][^():.\n]{{1,16}}\)?)?[ ]?[:-][ ]"
    r"[^.:;\n]{0,40}?\b(?:ring|circle|loop|mr|mc)\b(?:[ ](?:(?:of|with)[ ])?\d{1,2}(?:[ ](?:sc|dc|sts?))?)?),[ ]"
    r"(?=(?:pull|draw|fasten|cut)\b)(?=[^\n]{0,60}?\b(?:fasten|cut)\b)",
    re.M | re.I,
)


# "Make two, in orange. Make 5 chain. Row 1, ...": how many, in front of the work
_SO_MANY = re.compile(
    r"^(?P<told>[ ]{0,8}(?:(?:make|work|you (?:need|make|want)) (?:[2-9]|two|three|four|five|six|seven|eight)"
    r"(?: of (?:these|them|those))?|(?:two|three|four|six) (?:again|of (?:these|them|those)))"
    r"(?:,? in (?:the )?[a-z]{3,12}(?: [a-z]{3,12})?)?\.)[ ](?=[a-z\d])"
    r"(?=[^\n]{0,60}\b(?:ring|circle|loop|ch|chain|rnd|round|row)\b)",
    re.M | re.I,
)


# "Take the black, make a ring and work six into it.", "Take the black and make a ring": the yarn for a first round
_TAKEN = re.compile(
    r"^(?P<gap>[ ]{0,8})(?:take|grab)(?P<yarn> (?:the |your |some )?[a-z]{3,12}(?: [a-z]{3,12})?)(?P<and>,| and|, and) "
    r"(?=(?:make|form|work|begin|start)\b[^.\n]{0,40}\b(?:ring|circle|loop)\b)",
    re.M | re.I,
)


def parted(text: str) -> str:
    """The page with such seams as ends of lines."""
    text = _TAKEN.sub(lambda m: f"{m['gap']}With{m['yarn']},".ljust(len(m[0])), text)
    text = _SO_MANY.sub(lambda m: m["told"].replace(" again", "").ljust(len(m["told"])) + "\n", text)
    if "2" in text or "wo" in text:
        text = _SECOND.sub(lambda m: _end_of_first(text, m.start()), text)
        text = _NAMED.sub(lambda m: f"{m['name']}:\n" if _begins(text, m.end()) else m[0], text)
    if "fasten" in text or "cut" in text:
        text = _WHOLE.sub(r"\g<round>.\n", text)
    return _NEXT.sub("\n", text)


def _end_of_first(text: str, at: int) -> str:
    """The end of a line behind a ring that has no label; a blank anywhere else."""
    start = max(text.rfind("\n", 0, at) + 1, at - _AHEAD)
    bare = _RING.search(text, start, at) is not None and _FIRST.search(text, start, at) is None
    return "\n" if bare and (start == 0 or text[start - 1] == "\n") else " "


def _begins(text: str, at: int) -> bool:
    """Is what stands behind a name, to the end of its line, a first round?"""
    end = text.find("\n", at)
    begun = _RING.search(text, at, end) or _CHAINS.match(text, at, end)
    return begun is not None and _FIRST.search(text, at, end) is None
