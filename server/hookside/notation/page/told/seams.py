"""Seams in a paragraph in front of which a round stands without a label of its own: it gets a line of its own.

"Body: 6 sc in magic ring. R2: inc x 6. Next round: sc around." A blank becomes the end of a line, the length stays.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE, WORK_OF_NEXT
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import SEVERAL

_AHEAD = 100  # letters of a line in which its first round ends
_SECOND = re.compile(rf"(?:(?<=[.;)\]}}])|(?<=[)\]}}],))[ ](?={COURSE}\.?[ ]?(?:2|two)\b)", re.I)
_FIRST = re.compile(rf"\b{COURSE}s?\.?[ ]?(?:1|one)\b|\b(?:1st|first)[ ]{COURSE}\b", re.I)
_RING = re.compile(r"\b(?:ring|circle|mr|mc|amr|magic loop|slip loop|loop)\b", re.I)
_CHAINS = re.compile(r"(?:make |start with |begin with )?ch(?:ain)?[ ]?\d", re.I)
# "Body. Magic ring, 6 sc." above "R2:"
_NAMED = Sought(
    (". ",),
    rf"^(?P<name>[ ]{{0,8}}(?!{COURSE}\b)[A-Z][A-Za-z' ]{{2,30}})\.[ ]"
    rf"(?=[^\n]{{3,200}}\n(?:{COURSE}\.?[ ]?(?:2|two)\b|next round:))",
    re.M | re.I,
)
# "MOUSE. Start at the nose. Wind the wool round your finger and work 6 dc into the ring." above "Next round:"
_NAMED_AND_TOLD = re.compile(
    rf"^(?P<name>[ ]{{0,8}}(?!{COURSE}\b|NOTE|P\.?S)[A-Z][A-Z' ]{{2,30}})(?P<dot>[.:])[ ]"
    r"(?P<told>(?:[A-Z][^\n.:;]{3,60}\.[ ]){0,2})(?=[A-Z][^\n.:;]{8,100}\.?[ ]*\n{1,3}"
    rf"[ ]{{0,8}}(?:[Tt]he )?(?:[Nn]ext|NEXT|2nd|[Ss]econd)[ ](?i:{COURSE})\b)",
    re.M,
)
# "Next round: 2 dc in each", "Next round, 2 dc in each"
_NEXT = Sought(
    ("next r", "following r"),
    rf"(?<=[.;)\]}}])[ ](?=(?:next|following)[ ]{COURSE}(?:[ ]?[:-]|,?[ ]{WORK_OF_NEXT}))",
    re.I,
)

# "Ears (2): black, 6 dc into ring, pull tight, fasten off.": a whole part on one line, its jobs behind its one round
_WHOLE = re.compile(
    rf"^(?P<round>[ ]{{0,8}}(?!{COURSE}s?\b|r\d)[a-z][a-z' ]{{1,30}}(?:[(,][^():.\n]{{1,16}}\)?)?[ ]?[:-][ ]"
    r"[^.:;\n]{0,40}?\b(?:ring|circle|loop|mr|mc)\b(?:[ ](?:(?:of|with)[ ])?\d{1,2}(?:[ ](?:sc|dc|sts?))?)?),[ ]"
    r"(?=(?:pull|draw|fasten|cut)\b)(?=[^\n]{0,60}?\b(?:fasten|cut)\b)",
    re.M | re.I,
)


# "Make two, in orange. Make 5 chain. Row 1, ...": how many, in front of the work
_SO_MANY = Sought(
    (". ",),
    rf"^(?P<told>[ ]{{0,8}}(?:(?:make|work|you (?:need|make|want)) {SEVERAL}"
    r"(?: of (?:these|them|those))?|(?:two|three|four|six) (?:again|of (?:these|them|those)))"
    r"(?:,? in (?:the )?[a-z]{3,12}(?: [a-z]{3,12})?)?\.)[ ](?=[a-z\d])"
    r"(?=[^\n]{0,60}\b(?:ring|circle|loop|ch|chain|rnd|round|row)\b)",
    re.M | re.I,
)


# "EARS, two of them. Into a ring work 6 dc ...": a name with its copies as one tells them, in front of the work
_NAME_AND_MANY = Sought(
    (". ",),
    rf"^(?P<name>[ ]{{0,8}}(?!{COURSE}\b)[A-Z][A-Za-z' ]{{2,24}}, {SEVERAL}"
    r"(?: of (?:these|them|those))?\.)[ ]"
    r"(?=[A-Z\d])(?=[^\n.]{0,60}\b(?i:ring|circle|loop|ch|chain|rnd|round|row)\b)",
    re.M,
)
# "6 dc into a ring and one round with 2 dc in each dc": a second round told in the breath of the first
_AND_ONE = Sought(
    tuple(f" {n} {noun}" for n in ("1", "a", "one", "another", "second") for noun in ("rnd", "round")),
    r"(?P<ring>\b(?:ring|circle|loop)\b(?: (?:work|make|put|crochet|with|of))?"
    r"(?: \d{1,2} (?:sc|[hd]?dc|h?tr|stitches|sts))?)"
    r"(?P<and>,? (?:and )?(?:then )?(?:work |make |do )?(?:one|another|a|1|a second) (?:round|rnd)"
    r"(?: with| of| where you (?:work|make|put|do)|:)? )"
    r"(?=(?:\d|one|two|inc)[a-z]* [^\n.;]{0,30}\b(?:each|every|all)\b)",
    re.I,
)


# "Take the black, make a ring and work six into it.", "Take the black and make a ring": the yarn for a first round
_TAKEN = Sought(
    ("take ", "grab "),
    r"^(?P<gap>[ ]{0,8})(?:take|grab)(?P<yarn> (?:the |your |some )?[a-z]{3,12}(?: [a-z]{3,12})?)(?P<and>,| and|, and) "
    r"(?=(?:make|form|work|begin|start)\b[^.\n]{0,40}\b(?:ring|circle|loop)\b)",
    re.M | re.I,
)


# "..., scrap of white. Start at the nose: magic ring with 6 sc. Rnd 2, ...": a first round among other sentences
_STARTS = Sought(
    (". start", ". begin"),
    r"(?<=\.)[ ](?=(?:start(?:ing)?|begin(?:ning)?)[ ](?:at|from|with)[ ][^.\n]{0,40}\b(?:ring|circle|loop|mr|mc)\b"
    rf"[^.\n]{{0,40}}[.;][ ]{COURSE}\.?[ ]?(?:2|two)\b)",
    re.I,
)

_NAME = re.compile(r"[ ]{0,8}[A-Z][A-Za-z' ]{2,30}\.(?P<gap>[ ])")


def parted(text: str) -> str:
    """The page with such seams as ends of lines."""
    text = _TAKEN.sub(lambda m: f"{m['gap']}With{m['yarn']},".ljust(len(m[0])), text)
    text = _SO_MANY.sub(lambda m: m["told"].replace(" again", "").ljust(len(m["told"])) + "\n", text)
    text = _NAME_AND_MANY.sub(r"\g<name>\n", text)
    if " round" in text or " rnd" in text:
        text = _AND_ONE.sub(_next_below, text)
    if "2" in text or "wo" in text:
        text = _begun(text)
        text = _SECOND.sub(lambda m: _end_of_first(text, m.start()), text)
        text = _NAMED.sub(lambda m: f"{m['name']}:\n" if _begins(text, m.end()) else m[0], text)
    if re.search(rf"^[ ]{{0,8}}(?:the )?(?:next|2nd|second)[ ]{COURSE}\b", text, re.M | re.I):
        text = _NAMED_AND_TOLD.sub(_told_below, text)
    if "fasten" in text or "cut" in text:
        text = _WHOLE.sub(r"\g<round>.\n", text)
    return _NEXT.sub("\n", text)


def _next_below(match: re.Match[str]) -> str:
    """The second round below the ring, where its words leave room for a label."""
    told = f"{match['ring']}\nNext round:"
    return told.ljust(len(match[0])) if len(told) <= len(match[0]) else match[0]


def _told_below(match: re.Match[str]) -> str:
    """Such a name by itself above what is told of the start, and the ring below that."""
    if not _begins(match.string, match.end()):
        return match[0]
    told = match["told"]
    return f"{match['name']}{match['dot']}\n{told[:-1]}\n" if told else f"{match['name']}{match['dot']}\n"


def _begun(text: str) -> str:
    """The text with such a first round on a line of its own, and its name as well."""
    signs: list[str] = []
    for match in _STARTS.finditer(text):
        name = _NAME.match(text, text.rfind("\n", 0, match.start()) + 1, match.start())
        signs = signs or list(text)
        signs[match.start()] = "\n"
        if name is not None:
            signs[name.start("gap")] = "\n"
    return "".join(signs) or text


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
