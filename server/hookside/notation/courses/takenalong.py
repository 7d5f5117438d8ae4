"""What a part that is made like another one takes along from it besides its courses: "Make as left leg."

Colors, filling and shaping belong to the way it is made, and go with the courses they stand at, unless the part tells
its own. What belongs to a place on the finished thing, eyes or a face, or ends the yarn, may be meant for the other one
alone: it is said, and not asked for. Told in a color of its own, such a part has that wherever the other one has its
only color.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import chain

from hookside.notation.askings.askings import askings
from hookside.notation.askings.kinds import classify
from hookside.notation.courses.oneyarn import in_one_yarn
from hookside.notation.courses.waiting import Waiting
from hookside.notation.lines.layout import RawText, sentences
from hookside.notation.trees.nodes import GROUPS, Choice, Node, One, Rep, Tone, Work
from hookside.pattern import CueKind

ALONG: frozenset[CueKind] = frozenset(["colour", "stuff", "shape", "turn"])
_COLOUR: frozenset[CueKind] = frozenset(["colour"])
_NONE: frozenset[CueKind] = frozenset()
_SAID: frozenset[CueKind] = frozenset(["eyes", "embroider", "close", "fasten", "tail"])
_YARN_ENDS: frozenset[CueKind] = frozenset(["fasten", "tail", "hold"])  # what becomes of it, told in one word or more
_FILLED = re.compile(r"\b(?:un)?stuff|\bfill(?:ed|ing)?\b|\bempty\b|\bhollow\b", re.I)
_FROM_COURSE = re.compile(
    r"\b(?:after|behind|from|end of|before|at|in) (?:the )?(?:r|rnds?|rounds?|rows?)\.? ?\d", re.I
)
_MOST_QUOTED = 3
Spans = list[tuple[int, int]]


class TakenAlong:
    """The jobs of `theirs`, the line of another part. `own`: where the words of the part itself stand; `dyed`: has it
    told a color already? `whole`: all of that part, and not only some of its rounds."""

    def __init__(self, text: str, theirs: list[Waiting | RawText], own: Spans, dyed: bool, whole: bool) -> None:
        self.text = text
        self.theirs = theirs
        told = [(kind, text[a + x : a + y]) for a, b in own for kind, x, y in askings(text[a:b])]
        told += [("colour", text[a:b]) for a, b in own if classify(text[a:b]) == "colour"]
        kinds: set[CueKind] = {kind for kind, _ in told}
        if any(_FILLED.search(text, a, b) for a, b in own):
            kinds.add("stuff")
        early = [words for kind, words in told if kind == "colour" and _FROM_COURSE.search(words) is None]
        self.dyed = dyed or bool(early)
        self.own = kinds | (_COLOUR if self.dyed else _NONE)
        self.whole = whole
        self.kinds = (ALONG if whole else _COLOUR) - self.own
        if self.colours_kept():
            self.kinds |= _COLOUR
        later = "colour" in kinds and not self.dyed  # "but change to blue after R4": it begins as the other one does
        self.ahead = self.kinds | (_COLOUR if later else _NONE)

    def before(self) -> list[RawText]:
        """What stands in front of their first course."""
        return [self._copy(one, self.ahead) for one in self._texts(None)]

    def behind(self, course: Waiting) -> list[RawText]:
        """What stands behind the last of their courses with this number."""
        return [self._copy(one, self.kinds) for one in self._texts(course)]

    def told_with(self, course: Waiting) -> Waiting:
        """That course with the jobs in its words, and without their color where this part has one of its own."""
        parsed = course.parsed
        if self.dyed and parsed is not None and self.one_colour():
            parsed = in_one_yarn(parsed)
        return replace(course, parsed=parsed, along=self.kinds)

    def one_colour(self) -> bool:
        """Are all their stitches of one color, as far as their words tell?"""
        return not self._changes() and len({name.lower() for name in self._names()}) < 2

    def colours_kept(self) -> bool:
        """Has this part a color of its own, and they more than one?"""
        return self.dyed and not self.one_colour()

    def left(self) -> Spans:
        """What they are asked besides, which this part does not tell of itself; its yarn's end in whichever words."""
        found: Spans = []
        said = _SAID - self.own - (_YARN_ENDS if self.own & _YARN_ENDS else _NONE)
        for item in self.theirs if self.whole else []:
            if isinstance(item, RawText) and item.job is not None:
                found += [(item.start, item.end)] if item.job in said else []
                continue
            for start, stop in self._clauses(item):
                asked = askings(self.text[start:stop])
                found += [(start + a, start + b) for kind, a, b in asked if kind in said]
        return found[:_MOST_QUOTED]

    def _texts(self, course: Waiting | None) -> list[RawText]:
        found: list[RawText] = []
        here = course is None
        for item in self.theirs:
            if isinstance(item, RawText):
                found += [item] if here else []
            elif course is None:
                break
            else:
                here = item.label == course.label and not item.foundation
        return found

    def _copy(self, item: RawText, kinds: frozenset[CueKind]) -> RawText:
        return replace(item, along=kinds if item.along is None else item.along & kinds)

    def _clauses(self, item: Waiting | RawText) -> Spans:
        if isinstance(item, RawText):
            return sentences(self.text, item.start, item.end)
        if item.parsed is None or item.borrowed:
            return []
        return [(item.start + c.start, item.start + c.end) for c in item.parsed.phrases.cues]

    def _changes(self) -> bool:
        """Is any color told behind their first stitch?"""
        worked = False
        for item in self.theirs:
            dyed = isinstance(item, RawText) and item.job == "colour"
            kinds = {classify(self.text[a:b]) for a, b in self._clauses(item)} if worked or dyed else set()
            if worked and (dyed or "colour" in kinds):
                return True
            worked = worked or (isinstance(item, Waiting) and not item.foundation)
        return False

    def _names(self) -> Iterator[str]:
        trees = (t.parsed.tree.items for t in self.theirs if isinstance(t, Waiting) and t.parsed is not None)
        return chain.from_iterable(_colours(items) for items in trees)


def _within(node: Node) -> list[list[Node]]:
    if isinstance(node, Choice):
        return node.options
    return [node.body] if isinstance(node, GROUPS) else []


def _colours(nodes: list[Node]) -> Iterator[str]:
    for node in nodes:
        if isinstance(node, (Tone, Work, One, Rep)) and node.colour is not None:
            yield node.colour
        for inner in _within(node):
            yield from _colours(inner)
