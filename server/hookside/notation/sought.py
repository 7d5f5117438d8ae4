"""What most pages hold nothing of is looked for cheaply first.

Two habits keep the search through a page cheap. A pattern begins with what it takes, `[lI](?<=[(].)` and not
`(?<=[(])[lI]`: the engine runs to such a letter at once, but tries a pattern that begins by looking about, or with a
letter in either case, at every place. And a page is asked for a hint before it is asked for what is dear: `Sought`.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator


class Sought:
    """A pattern, and a hint of it that is in a text wherever the pattern is.

    The hint is some words, in small letters, of which there is one; or a pattern that begins with what it takes.
    """

    __slots__ = ("hint", "pattern", "words")

    def __init__(self, hint: tuple[str, ...] | str, pattern: str, flags: int = 0) -> None:
        self.words = hint if isinstance(hint, tuple) else ()
        self.hint = re.compile(hint) if isinstance(hint, str) else None
        self.pattern = re.compile(pattern, flags)

    def may_be_in(self, text: str) -> bool:
        if self.hint is not None:
            return self.hint.search(text) is not None
        return self.may_be_in_small(text.lower())

    def may_be_in_small(self, low: str) -> bool:
        """The same of a text in small letters, where the hint is some words: for who asks for several."""
        for word in self.words:  # noqa: SIM110  (a generator costs more than the looking)
            if word in low:
                return True
        return False

    def match(self, text: str) -> re.Match[str] | None:
        return self.pattern.match(text) if self.may_be_in(text) else None

    def search(self, text: str, at: int = 0, end: int = sys.maxsize) -> re.Match[str] | None:
        """`at`, `end`: a stretch of it, which alone is asked for the hint: a page has thousands of them."""
        asked = text[at:end] if at or end < len(text) else text
        return self.pattern.search(text, at, end) if self.may_be_in(asked) else None

    def finditer(self, text: str) -> Iterator[re.Match[str]]:
        return self.pattern.finditer(text) if self.may_be_in(text) else iter(())

    def count(self, text: str) -> int:
        return sum(1 for _ in self.finditer(text))

    def sub(self, put: str | Callable[[re.Match[str]], str], text: str, count: int = 0) -> str:
        return self.pattern.sub(put, text, count) if self.may_be_in(text) else text
