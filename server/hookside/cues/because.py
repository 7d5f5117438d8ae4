"""The sentence with which a cue that no text prints says why it is there."""

from __future__ import annotations


def because(why: str) -> str:
    """ "Worked out, because the hole gets small." """
    return f"Worked out, because {why}."
