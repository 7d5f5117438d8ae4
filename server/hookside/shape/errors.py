"""What shape cannot go on with, as a sentence for the maker."""

from __future__ import annotations


class CannotBeMeasured(ValueError):
    """The message says what was wrong with what was given, and what would do instead."""
