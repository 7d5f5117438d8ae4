"""Colors that a title tells by their rounds, or in stripes, where no other heading names the part below it: "Ball, red
with black in rounds 3 & 5"."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import only_shades
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.colours.headcolours import Colours, colours_told
from hookside.notation.lines.heads.headings import colour_told, tidy_name
from hookside.notation.lines.layout import HeadColours, Layout, RawCourse, RawPiece, RawText

_BY_ROUND = re.compile(rf"\b{COURSE}\.? ?#?\d|\bstrip(?:es?|ed|ing|y)\b", re.I)

_ASIDE = re.compile(r"\((?P<told>[^()\n]{5,60})\)")  # "Heart (blue, then white)"


def dyed_by(at: int, told: Colours, before: tuple[int, int] | None) -> tuple[RawText | None, HeadColours]:
    """What is asked ahead of the first course by several colors of a heading at `at`, and those of its later ones;
    `before`: where its words in front of them name one."""
    first: RawText | None = None
    begun = bool(told.shades) and told.shades[0].course == 1
    if begun or not told.shades:
        start, end = told.shades[0][:2] if begun else (told.start, told.end)
        first = RawText(at + start, at + end, "colour")
    elif before is not None:
        first = RawText(at + before[0], at + before[1], "colour")  # "Ball, blue (white from R5)"
    later = [(at + s.start, at + s.end, s.course) for s in told.shades[begun:]]
    return first, HeadColours(at + told.start, at + told.end, told.plain, later)


def named_before(words: str) -> tuple[int, int] | None:
    """The color that stands in front of the bracket with several."""
    shade = colour_told(words.rstrip(" ([{,-"))
    return shade[:2] if shade is not None else None


def title_colours(text: str, out: Layout) -> None:
    """Gives them to the only part there is."""
    worked = [p for p in out.pieces if any(isinstance(i, RawCourse) for i in p.items)]
    title = next(((a, b) for a, b, role in out.roles if role == "title"), None)
    if title is None or len(worked) != 1 or worked[0].name:
        return
    aside = _ASIDE.search(text, *title)
    if not _BY_ROUND.search(text, *title) and not (aside is not None and only_shades(aside["told"])):
        return
    piece: RawPiece = worked[0]
    at, line = title[0], text[slice(*title)].rstrip()
    told = colours_told(line, tuple(out.materials))
    before = colour_told(line[: told.start].rstrip(" ([{,-")) if told is not None else None
    name = tidy_name(line[: before[2] if before is not None else told.start]) if told is not None else ""
    if told is None or told.copies or not name:
        return
    first, piece.colours = dyed_by(at, told, before[:2] if before is not None else None)
    piece.name = name
    if first is not None:
        piece.items.insert(0, first)
