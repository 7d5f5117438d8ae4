"""What a row leaves at its two ends: stitches that slip stitches pass over, last ones that nobody works into."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground, fits
from hookside.notation.arithmetic.summing import read_as
from hookside.notation.courses.ahead import Ahead, needed
from hookside.notation.courses.waiting import Parsed
from hookside.notation.trees.nodes import SILENT, Mark, Node, Rep, Work
from hookside.stitches import Stitch

Own = dict[str, Stitch]
_OVER = re.compile(
    r"\W*(?:turn\W+(?:and )?)?(?:sl\.? ?sts?\.?|slip(?: ?stitch(?:es)?)?|ss) (?:over|across) (?:the )?"
    r"(?:next |first )*\d",
    re.I,
)


@contextmanager
def _over_first(items: list[Node]) -> Iterator[bool]:
    """The slip stitches a row begins with, taken for passing over what is there; whether there are such."""
    at = 0
    while at < len(items) and (
        isinstance(items[at], SILENT) or (isinstance(n := items[at], Work) and n.key == "ch")
    ):
        at += 1
    first = items[at] if at < len(items) - 1 else None
    if not isinstance(first, Work) or first.key != "sl st" or first.fill:
        yield False
        return
    items[at] = replace(first, base="slipped")
    yield True
    items[at] = first


def slipped(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "sl st across first 2 sts, sc in next 4, leave the rest. (4)": slipped over, and not counted afterwards."""
    if ground.chain or ground.declared is None:
        return None  # along a chain there is nothing to pass over
    with _over_first(parsed.tree.items) as passed:
        chosen = choose(parsed.tree, ground, own) if passed else None
    if chosen is None or not chosen.fits:
        return None
    chosen.why.append("slip stitches over")
    return chosen


def passed_over(parsed: Parsed, chosen: Chosen, ground: Ground, after: Ahead | None, own: Own) -> Chosen | None:
    """ "Sl st in first 2 sts, ch 1, sc to end", a row with nothing printed: those two are left behind as a step.

    Slip stitches that are stitches need no chain behind them, and nobody says "over" of them (common practice, no
    source).
    """
    at = next((i for i, c in enumerate(parsed.tree.choices) if c.why == "stitches or on the way"), None)
    picks = chosen.reading.picks
    if (at is None and not _OVER.match(parsed.body)) or needed(chosen.reading.makes, after, own):
        return None
    if at is not None:
        other = read_as(parsed.tree, (*picks[:at], 2, *picks[at + 1 :]), ground, own, chosen.counted)
    else:
        with _over_first(parsed.tree.items) as passed:
            if not passed:
                return None
            other = read_as(parsed.tree, picks, ground, own, chosen.counted)
    same = other.makes == chosen.reading.makes
    return replace(chosen, reading=other, why=["slip stitches passed"]) if not same and fits(other, ground) else None


def kept_back(parsed: Parsed, ground: Ground, own: Own) -> bool:
    """ "Sc in each st to last 2 sts, turn": the last two are left, and no words need say so once more.

    Without a turn behind them only the printed count tells whether something was forgotten there.
    """
    behind = list(reversed(parsed.tree.items))
    last = next((n for n in behind if not isinstance(n, SILENT)), None)
    if not isinstance(last, (Work, Rep)) or not last.fill or not last.last or not ground.there:
        return False
    turns = any(isinstance(n, Mark) and n.name == "turn" for n in behind[: behind.index(last)])
    if ground.declared is None and not turns:
        return False
    return choose(parsed.tree, ground.but(free=True), own).fits
