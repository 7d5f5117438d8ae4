"""One line as it is asked about: where it stands, what stands below it, and the label in front of it."""

from __future__ import annotations

from dataclasses import dataclass

from hookside.notation.labels.label import Label

# Sections of what one needs and knows before the first round
BOOKISH = ("materials", "yarn", "hook", "gauge", "abbreviations", "notes", "terms")


@dataclass(slots=True)
class Asked:
    """A line of a page. Positions are those of the cleaned text."""

    index: int  # among the lines that are used
    start: int
    at: int  # behind its bullet
    end: int
    first: str  # the bullet
    text: str  # behind the bullet
    label: Label | None  # "Rnd 3:", whatever it turns out to be
    # Asked for only where the line has no label that holds
    following: tuple[int, int] | None = None  # the next line with anything on it
    bare: Label | None = None  # "3.", a number that may be a label
