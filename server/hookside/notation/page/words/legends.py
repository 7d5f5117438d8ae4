"""A list of short forms in the brackets of a title: "Ball (m = single crochet, v = increase)".

Each form gets a line of its own: brackets and the commas between them become ends of lines, the length stays.
"""

from __future__ import annotations

import re

_ITEM = r"[^\W\d_]{1,6}\.?[ ]?=[ ]?[a-z0-9][a-z0-9 ]{2,40}"
_LEGEND = re.compile(
    rf"^(?P<name>[ \t]*[^\W\d_][^()\n=]{{0,40}}?[ ]?)\((?P<lead>(?:[a-z ]{{3,20}}:[ ]?)?)"
    rf"(?P<items>{_ITEM}(?:[ ]?[,;][ ]?{_ITEM})+)[ ]?\)(?P<end>[ \t.:]*)$",
    re.I | re.M,
)


def unfolded(text: str) -> str:
    """The page with such lists below their title, a line for each form."""

    def lines(match: re.Match[str]) -> str:
        items = re.sub(r"[,;]", "\n", match["items"])
        return f"{match['name']}\n{' ' * len(match['lead'])}{items} {match['end']}"

    return _LEGEND.sub(lines, text)
