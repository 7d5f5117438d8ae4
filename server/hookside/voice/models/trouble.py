"""What can go wrong with a model, in words."""

from __future__ import annotations

FROM_DISK = (
    "A model fetched in another way can be added from disk, without network: “hookside voice add FOLDER-OR-ZIP”."
)


class CannotAdd(Exception):
    """A model that was not added, or not removed. The text is for the maker; nothing was changed."""

    def __init__(self, code: str, say: str) -> None:
        super().__init__(say)
        self.code, self.say = code, say
