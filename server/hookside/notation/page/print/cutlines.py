"""Lines that a page broke where no line of a pattern ends: within a label, a reference, the way a part starts."""

from __future__ import annotations

import re
from functools import partial

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.stages import Stages
from hookside.notation.sought import Sought

# "Rnds 4-" at the end of a line and "6: ..." on the next
# ... and in a paragraph: "... (12). Rnd" and "3: ..."
_CUT_LABEL = Sought(
    r"[rR](?<!\w.)(?i:ounds?|nds?|ns?|ows?|ws?|ds?|)\.?(?:[ ]?\d{1,3}[ ]?-)?[ ]*\n[ ]*\d",
    rf"(?:^[ ]{{0,8}}|(?<=[.:;)\]][ ])(?<!\d\.[ ])){COURSE}\.?(?:[ ]?\d{{1,3}}[ ]?-[ ]*\n[ ]*|(?<!\br)[ ]*\n[ ]*)"
    r"\d{1,3}(?:-\d{1,3})?[ ]?[:.)]",
    re.I | re.M,
)
# "With white, repeat row" and "7. (10 sts)"
_CUT_POINT = Sought(
    r"[rR](?<=[ ].)(?i:ows?|ounds?|nds?)[ ]*\n[ ]*\d",
    r"\b(?:repeat|rep|as|of|like|from|to|until|after|through|at|in)[ ](?:the[ ])?(?:rows?|rounds?|rnds?)[ ]*\n[ ]*"
    r"(?=\d)",
    re.I,
)
# "Do not join this or" and "following rnds."
_CUT_AND_SO_ON = Sought(
    ("\nfollowing", "\nsubsequent", "\nother ro", "\nother rn"),
    r"\b(?:this|or|and|all|any|the|these)[ ]*\n(?=(?:following|subsequent|other)[ ](?:rows?|rounds?|rnds?)\b(?![ ]?:))",
)
# "Ch." and "1, turn.", "begun with" and "ch. 1.": no line ends so. Behind a small "ch" a number may be an amount
_CUT_SENTENCE = Sought(
    ("ch\n", "ch.\n", " with\nch"),
    r"(?<=\bCh)\.?\n[ ]*(?=\d{1,2},?[ ](?:and[ ])?turn)|(?<=[ ]with)\n(?=ch\.?[ ]?\d{1,2}\.?[ ]*$)",
    re.M,
)
# "HEAD: Beg at tip of trunk, with" and "gray, ch 2.": a name and the way to start, broken where no sentence ends
_CUT_START = Sought(
    r"[a-z,][ ]*\n[a-z]",
    r"^(?P<start>[ ]{0,8}[A-Z][A-Za-z' ]{2,24}(?:[ ]?\([^()\n]{3,20}\))?[:.][ ][^\n.:;()\d]{4,70}"
    r"(?:\b(?:with|at|in|the|a|and|of|from|to|using|into|on)|,))[ ]*\n(?=[a-z][^\n:]*\b(?:ch|chain|ring)\b)",
    re.M,
)
_ALL_ONES = re.compile(r"^1\.[ ][^\n]*(?:\n1\.[ ][^\n]*)+", re.M)


def _counted_up(match: re.Match[str]) -> str:
    """Markdown lets every item of a numbered list say "1.": they get the numbers that a reader is shown."""
    items = match[0].split("\n")
    return "\n".join(f"{n}.".ljust(3) + item[3:] if n < 10 else f"{n}:" + item[3:] for n, item in enumerate(items, 1))


def _whole(match: re.Match[str]) -> str:
    return match[0].replace("\n", " ")


CUTS: Stages = (
    ((), partial(_CUT_LABEL.sub, _whole)),
    ((), partial(_CUT_POINT.sub, _whole)),
    ((), partial(_CUT_AND_SO_ON.sub, _whole)),
    ((), partial(_CUT_SENTENCE.sub, _whole)),
    ((), partial(_CUT_START.sub, _whole)),
    (("\n1. ",), partial(_ALL_ONES.sub, _counted_up)),
)
