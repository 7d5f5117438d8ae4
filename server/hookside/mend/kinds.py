"""What a group of stitches is to a mend: plain, an increase, a decrease, and of which stitch."""

from __future__ import annotations

from collections.abc import Sequence

from hookside.pattern import Group, Node, Repeat
from hookside.stitches import TABLE

INCREASES = {"sc": "inc", "hdc": "hdc inc", "dc": "dc inc", "tr": "tr inc", "sl st": "sl st inc"}
DECREASES = {"sc": "dec", "hdc": "hdc2tog", "dc": "dc2tog", "tr": "tr2tog", "sl st": "sl st2tog"}
PLAIN_STITCHES = frozenset(DECREASES)


def plain_stitch(group: Group) -> bool:
    """One stitch of the table in each stitch, nothing special about where it goes."""
    return group.stitch in PLAIN_STITCHES and group.into is None and (group.uses, group.makes, group.steps) == (1, 1, 1)


def increase(group: Group) -> bool:
    """Two of one plain stitch in one."""
    return group.into is None and (group.uses, group.makes) == (1, 2) and base_of(group) in PLAIN_STITCHES


def decrease(group: Group) -> bool:
    """Two stitches together in one."""
    return group.into is None and (group.uses, group.makes) == (2, 1) and base_of(group) in PLAIN_STITCHES


def shaping(body: Sequence[Node]) -> list[Group]:
    """The increases and decreases of a body, each once as it is written."""
    found: list[Group] = []
    for node in body:
        if isinstance(node, Repeat):
            found += shaping(node.body)
        elif increase(node) or decrease(node):
            found.append(node)
    return found


def base_of(group: Group) -> str:
    """The plain stitch it is made of, by its key; "" of one that is not in the table."""
    entry = TABLE.get(group.stitch)
    return "" if entry is None else entry.of or entry.key


def alike(one: Group, other: Group) -> bool:
    """Whether two groups differ in nothing but their count and their words."""
    skip = {"count", "words"}
    return one.model_dump(exclude=skip) == other.model_dump(exclude=skip)
