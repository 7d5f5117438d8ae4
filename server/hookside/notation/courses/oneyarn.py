"""A round worked as another one, but in one yarn: "as R2, but keep to red", "as R2 without changing colour"."""

from __future__ import annotations

import re

from hookside.notation.courses.waiting import Parsed
from hookside.notation.trees.asked import every
from hookside.notation.trees.copying import copy_of
from hookside.notation.trees.nodes import One, Rep, Tone, Work

_DYED = (Work, Rep, One, Tone)
_COLOUR = r"(?:colou?rs?|yarns?|thread)"
# What is said of the yarn alone, and changes no stitch
SAME_YARN = re.compile(
    rf"\s*,?\s*(?:but\s+)?(?:(?:do not|don'?t|without|with no|no)\s+(?:any\s+)?(?:the\s+)?"
    rf"(?:chang(?:e|ing)\s+(?:of\s+)?(?:the\s+)?{_COLOUR}|{_COLOUR}(?:\s+changes?)?|"
    rf"(?:cut(?:ting)?|break(?:ing)?)\s+(?:off\s+)?(?:the\s+|any\s+)?{_COLOUR})|"
    rf"(?:leav(?:e|ing)\s+out|skip(?:ping)?|omit(?:ting)?)\s+the\s+{_COLOUR}\s+changes?|keep(?:ing)?\s+the\s+"
    rf"(?:same\s+)?{_COLOUR})(?=\s*(?:[.,;(\[=]|- ?\d|$))",
    re.I,
)


def in_one_yarn(parsed: Parsed) -> Parsed:
    """The same stitches without the colours that the words of that other round give to some of them."""
    if not any(isinstance(n, _DYED) and n.colour is not None for n in every(parsed.tree)):
        return parsed
    tree = copy_of(parsed.tree)
    for node in every(tree):
        if isinstance(node, _DYED):
            node.colour = None
    return Parsed(parsed.phrases, tree, parsed.body)
