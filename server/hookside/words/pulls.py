"""A stitch that ends with another colour: all but its last pull is made in the old one."""

from __future__ import annotations

from hookside.pattern import Node, Repeat, makes

# Loops on the hook before a stitch's last pull, as they are commonly worked (common practice, no source). Two-together
# of half doubles is worked in several ways and is left out.
_BEFORE_IT: dict[str, int] = {
    "sc": 2, "inc": 2, "hdc": 3, "hdc inc": 3, "dc": 2, "dc inc": 2, "tr": 2, "tr inc": 2, "esc": 2, "edc": 2,
    "dec": 3, "sc2tog": 3, "sc3tog": 4, "inv dec": 2, "dc2tog": 3, "dc3tog": 4, "tr2tog": 3, "tr3tog": 4,
}  # fmt: skip


def last_pull(loops: int | None, new: str) -> str:
    """How the stitch before a new colour ends: with all but its last pull made in the old one."""
    if loops is None:
        return f"Next stitch: stop with 2 loops on the hook (3 in a decrease), pull {new} through."
    if not loops:
        return f"Next stitch: stop before its last pull, and make that with {new}."
    return f"Next stitch: stop with {loops} loops on the hook, pull {new} through."


def loops_left(body: list[Node], stitches: int) -> int | None:
    """Loops on the hook before the last pull of the stitch that comes when so many of a body are made; None: there is
    none, 0: its designers differ in it."""
    for node in body:
        made = makes([node])
        if stitches >= made:
            stitches -= made
            continue
        if isinstance(node, Repeat):
            return loops_left(node.body, stitches % makes(node.body))
        return _BEFORE_IT.get(node.stitch, 0)
    return None
