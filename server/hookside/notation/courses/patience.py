"""How long a text is searched for what is not plain in it: one purse for all that is looked for."""

from __future__ import annotations

MOST_SEARCHED = 2000
# What a search takes, in a few readings of a course each: one that finds nothing has tried all meanings there are, and
# mended lines are tried number by number
FOUND, IN_VAIN, MENDS = 1, 4, 16


class Patience:
    """A course that does not come out as it stands is looked into: its wider meanings, the mended lines that could be
    offered, the sentence that it may be told in. Each such search, made once for one body at the same stitches, takes
    something of this. A text that comes out takes none, however long it is; one of which many hundreds of courses are
    in doubt is nothing that anyone could follow, and would be searched for seconds.
    """

    def __init__(self) -> None:
        self.searched = 0
        self.refused = False  # was a search not made that would have been?
        self.said = False  # ... and has that been said?

    @property
    def left(self) -> bool:
        return self.searched < MOST_SEARCHED

    def allows(self) -> bool:
        """Is there any left for a search that the course at hand needs?"""
        self.refused = self.refused or not self.left
        return self.left

    def took(self, many: int) -> None:
        """A search was made."""
        self.searched += many
