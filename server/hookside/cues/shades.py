"""Whether two names are one colour: "A" and "navy" of "navy (A)", "color B" and "B", "speckled brown" and "brown"."""

from __future__ import annotations

import re

from hookside.pattern import Pattern

_BESIDE = r"\)?\s*(?:=|:|\(|\[|\s[-\u2013]\s|\sis\s)\s*(?:yarn|colou?r|col)?\s*"
_ALSO = {"main": "mc", "contrast": "cc", "contrasting": "cc"}
_ROLE = re.compile(r"\b(main|contrast(?:ing)?) (?:colou?r|yarn|shade)\b")
_NO_PART = re.compile(r"\b(?:the|yarn|colou?rs?|col|shade|thread|wool|cotton)\b")


class Shades:
    """The names of a pattern's colours, by its list of materials."""

    def __init__(self, pattern: Pattern) -> None:
        explained = [f"{short} = {meaning}" for short, meaning in pattern.abbreviations.items()]
        self._lines = [_ROLE.sub(lambda at: _ALSO[at[1]], line.lower()) for line in [*pattern.materials, *explained]]
        self._known: dict[tuple[str, str], bool] = {}

    def same(self, one: str, other: str) -> bool:
        """Whether both name one colour, as far as the text tells."""
        a, b = sorted((plainly(one), plainly(other)), key=len)
        if a == b:
            return True
        if (a, b) not in self._known:
            self._known[a, b] = self._shortened(a, b) or self._said_to_be(a, b)
        return self._known[a, b]

    def _said_to_be(self, a: str, b: str) -> bool:
        both = [line for line in self._lines if a in line and b in line]
        if not both:
            return False
        first, second = re.escape(a), re.escape(b)
        either = re.compile(rf"\b{first}\b{_BESIDE}{second}\b|\b{second}\b{_BESIDE}{first}\b")
        return any(either.search(line) for line in both)

    def _shortened(self, a: str, b: str) -> bool:
        """ "brown" for "speckled brown", where the list has no other brown."""
        if len(a) < 3 or not b.endswith(f" {a}"):
            return False
        alone = re.compile(rf"(?<!{re.escape(b.removesuffix(a))})\b{re.escape(a)}\b")
        return not any(alone.search(line) for line in self._lines)


def plainly(name: str) -> str:
    """ "The white yarn" -> "white", "Main color" -> "mc" """
    bare = " ".join(_NO_PART.sub(" ", name.lower()).replace(".", " ").split())
    return _ALSO.get(bare, bare) or name.lower()
