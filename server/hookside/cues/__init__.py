"""Cues that the text prints too late, and those it leaves to the maker."""

from hookside.cues.beforehand import beforehand
from hookside.cues.colours import coloured
from hookside.cues.copies import of_copy
from hookside.cues.counting import counts
from hookside.cues.doubts import doubts
from hookside.cues.due import complete
from hookside.cues.learning import learning
from hookside.cues.marker import markers

__all__ = ["beforehand", "coloured", "complete", "counts", "doubts", "learning", "markers", "of_copy"]
