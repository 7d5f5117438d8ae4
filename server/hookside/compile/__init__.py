"""Text and choices -> pattern and strands. The only room that calls notation, cues and words."""

from hookside.compile.laying import CannotBeFollowed, Choices, Laid, lay
from hookside.compile.numbering import step_after
from hookside.compile.reading import explained, in_terms, measured, read

__all__ = [
    "CannotBeFollowed",
    "Choices",
    "Laid",
    "explained",
    "in_terms",
    "lay",
    "measured",
    "read",
    "step_after",
]
