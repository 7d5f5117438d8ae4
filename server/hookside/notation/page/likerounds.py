"""Rounds of another part told behind a name, with a span and no label: "Pot: same as cactus Rd. 1 - 4, then in brown:".

They get a line with the label they lack, "Rd. 1-4: same as cactus", and what is told of the yarn behind it one too.
"""

from __future__ import annotations

import re
from itertools import islice

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import put
from hookside.notation.sought import Sought

_SPAN = Sought(
    ("same as ", "like ", ": as ", "\nas "),
    r"^(?P<name>[^\W\d_][A-Za-z' ]{1,24})(?P<copies>(?:[ ]?[(][^()\n]{1,16}[)])?)(?P<seam>:[ ]|:?\n)"
    r"(?P<like>(?:(?:work|make|made|worked|exactly|just|the) )?(?:same as|like|as)(?: for| in)?(?: the)?) "
    r"(?P<other>[a-z]{3,15}(?: (?!r(?:oun|n)?ds?\b|rows?\b)[a-z]{3,12})?)(?:'s)?,? "
    rf"(?P<course>{COURSE})\.? ?(?P<first>\d{{1,2}}) ?(?:-|\u2013|to) ?(?P<last>\d{{1,2}})"
    r"[,;.]?(?: and| but)?(?: then| now)?(?:,? (?:in|with) (?P<shade>[a-z]{3,12}(?: [a-z]{3,12})?))?"
    r" ?[:.,]?[ ]?$",
    re.I | re.M,
)
_LONGEST_HEAD = 40
_MOST = 40  # of them in a text, each of which looks through what stands in front
_NEXT = re.compile(rf"\n[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?)?(?P<n>\d{{1,3}})(?!\d)", re.I)


def _headed(name: str, front: str) -> bool:
    """Does a short line in front begin or end with that name: "Sleepy Cactus"?"""
    lines = (line.strip(" :.*#").lower() for line in front.split("\n") if len(line) <= _LONGEST_HEAD)
    return any(line.removeprefix("the ").startswith(name.lower()) or line.endswith(name.lower()) for line in lines)


def labelled(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds on a labelled line, where the part stands above and the round behind them goes on."""
    edits = []
    for match in islice(_SPAN.finditer(text), _MOST):
        behind = _NEXT.match(text, match.end())
        if behind is None or int(behind["n"]) != int(match["last"]) + 1:
            continue
        if not _headed(match["other"], text[: match.start()]):
            continue
        rounds = f":\n{match['course']} {match['first']}-{match['last']}: same as {match['other']}"
        dyed = f"\nin {match['shade']}:" if match["shade"] else ""
        edits.append((match.start("seam"), match.end(), rounds + dyed))
    return put(text, offsets, edits) if edits else (text, offsets)
