"""Two layers at once: folded flat, both parts together, an arm worked in on the way."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Chunk, CueClause
from hookside.notation.bodies.placed import Placed
from hookside.notation.bodies.wording.joins import THROUGH_BOTH
from hookside.notation.bodies.wording.places import BOTH_TOGETHER, FOLDED, FOLDED_FIRST, LAYERED, THROUGH_PARTS

_FOLD_ALONE = re.compile(r"(?:now |then |and )*fold(?:ed)?\s*[,;:]")  # "fold, 4 sc": nothing but that can be meant


class Layers(Placed):
    """What is worked through more than the fabric in hand."""

    def folded(self, at: int) -> int | None:
        """ "fold flat and", "close the arm with": before stitches that go through two layers at once."""
        start = self.toks[at].start
        first = FOLDED_FIRST.match(self.low, start)
        if first is not None:
            self.out.layers = True
            self.out.asides.append(first.span())
            return self.token_after(first.end(), at)
        match = FOLDED.match(self.low, start)
        if match is None:
            return None
        through = LAYERED.search(match["rest"]) or BOTH_TOGETHER.search(match["rest"])
        flat = re.search(r"\b(?:flat(?:ten)?|in half|together|opening|both)\b", match[0] + match["rest"])
        shut = re.match(r"(?:now |then |and )*(?:close|seal|shut)\b", match[0])
        if not (through or flat or shut or _FOLD_ALONE.match(match[0])):
            return None
        self.out.layers = True
        self.out.asides.append((start, match.end()))
        return self.token_after(match.end(), at)

    def with_part(self, at: int) -> int | None:
        """ "5 sc through arm and body", "5 sc joining the first arm": stitches of this course all the same."""
        match = THROUGH_PARTS.match(self.low, self.toks[at].start)
        if match is None or not self.after_stitch() or LAYERED.search(match[0]):
            return None
        self.out.through = True
        self.out.cues.append(CueClause("join", *match.span()))
        chunks = self.out.chunks
        ahead = len(chunks)  # the part is laid on before those stitches
        while ahead and chunks[ahead - 1].type in ("ST", "NB", "NA", "PLACE"):
            ahead -= 1
        chunks.insert(ahead, Chunk("CUE", len(self.out.cues) - 1, *match.span()))
        return self.token_after(match.end(), at)

    def through_layers(self, at: int) -> int | None:
        """ "through both layers", told behind the stitches or before them."""
        start = self.toks[at].start
        match = LAYERED.match(self.low, start)
        if match is None:
            return None
        self.out.layers = True
        return self.token_after(match.end(), at)

    def over_part(self, at: int) -> int | None:
        """ "through both" where a part has been laid on: stitches of this course all the same."""
        told = self.out.over_part and self.after_stitch()
        match = THROUGH_BOTH.match(self.low, self.toks[at].start) if told else None
        if match is None:
            return None
        self.out.asides.append(match.span())
        return self.token_after(match.end(), at)
