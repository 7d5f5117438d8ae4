"""A page goes through stages, one behind the other. Each is a row of a table: words of which one is on the page
wherever the stage has something to do (none: it is asked of every page), and the stage.

The order is part of the meaning: a stage finds the page as those above it left it.
"""

from __future__ import annotations

from collections.abc import Callable

Way = list[int] | None  # to each character its place in the original; None: its own
Stages = tuple[tuple[tuple[str, ...], Callable[[str], str]], ...]
Moves = tuple[tuple[tuple[str, ...], Callable[[str, Way], tuple[str, Way]]], ...]


def _wanted(text: str, hints: tuple[str, ...]) -> bool:
    for hint in hints:
        if hint in text:
            return True
    return not hints


def through(text: str, stages: Stages) -> str:
    """The page behind stages that keep every character in its place."""
    for hints, stage in stages:
        if _wanted(text, hints):
            text = stage(text)
    return text


def moved(text: str, way: Way, stages: Moves) -> tuple[str, Way]:
    """The page behind stages that move characters, and the way back."""
    for hints, stage in stages:
        if _wanted(text, hints):
            text, way = stage(text, way)
    return text, way
