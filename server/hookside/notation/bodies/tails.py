"""What stands behind stitches and says where they went, or what for: "on the other side", "to close it"."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Chunk, Place, Times
from hookside.notation.bodies.elsewhere import Elsewhere
from hookside.notation.bodies.wording.places import (
    BACK_OVER,
    BOTH_TOGETHER,
    SHUT_BY,
    SIDE_BEHIND,
    STARTING_IN,
    TO_ITS_END,
)
from hookside.notation.bodies.wording.stretches import LEFT_FOR, NO_PURPOSE, PURPOSE
from hookside.notation.vocabulary import ORDINAL_WORDS


class Tails(Elsewhere):
    """The end of a clause."""

    def tail(self, at: int) -> int | None:
        """What may stand behind stitches without being work: "... to close it", "... for the neck"."""
        start = self.toks[at].start
        if self.out.layers and self.after_stitch() and (match := SHUT_BY.match(self.low, start)):
            return self.token_after(match.end(), at)
        match = SIDE_BEHIND.match(self.low, start) if self.last_type() in ("ST", "NA", "PLACE") else None
        if match and self._crosses(match):
            past = self.token_after(match.end(), at)
            kinds = [c.type for c in self.out.chunks[-2:]]
            if kinds[-1:] == ["ST"] and kinds[:1] != ["NB"]:  # "sc along the other side": in each ch of it
                fill = self.fill_tail(past)
                place = Place("fill", each=True, last=fill[1] if fill else 0, start=match.start(), end=match.end())
                self.emit("PLACE", place, *match.span())
                past = fill[0] if fill else past
            return past
        match = BOTH_TOGETHER.match(self.low, start) if self.last_type() == "ST" else None
        if match:
            self.out.layers = True
            return self.token_after(match.end(), at)
        match = STARTING_IN.match(self.low, start) if self.last_type() in ("ST", "NA") else None
        if match:
            n = int(match["n"]) if match["n"] else ORDINAL_WORDS[match["word"]]
            self.emit("PLACE", Place("hook", n=n, each=True, start=start, end=match.end()), start, match.end())
            return self.token_after(match.end(), at)
        match = BACK_OVER.match(self.low, start) if self.last_type() in ("ST", "NA") else None
        if match and not match["nth"] and self.fill_the_chain():
            self.out.asides.append(match.span())
            return self.token_after(match.end(), at)
        if match:
            nth = match["nth"] or "2"
            n = int(nth) if nth.isdecimal() else ORDINAL_WORDS[nth]
            chained = self.chained()
            # "10 sc back", "sc 10 back": so many along the chain, and not so many into each of it
            told = self.last_type() == "NA" or (len(self.out.chunks) > 1 and self.out.chunks[-2].type == "NB")
            place = Place("hook" if told else "fill", n=n if told else 1, each=True, start=start, end=match.end())
            place.hook = n if chained and not told else 0
            if chained or not told:
                self.emit("PLACE", place, start, match.end())
            return self.token_after(match.end(), at)
        whole = self.last_type() == "PLACE" and self.out.chunks[-1].value.kind == "fill"
        match = TO_ITS_END.match(self.low, start) if whole and self.out.chunks[-1].value.each else None
        if match:
            self.out.asides.append(match.span())
            return self.token_after(match.end(), at)
        leads = self.low.startswith(("for ", "to ", "as "), start)
        match = LEFT_FOR.match(self.low, start) if leads and self._leaves_gap() else None
        if match:
            self.out.asides.append(match.span())  # "skip next 12 sts for the first armhole"
            return self.token_after(match.end(), at)
        match = PURPOSE.match(self.low, start) if self._all_round() else None
        if match and not NO_PURPOSE.search(match["what"]) and not re.search(r"\d", match[0]):
            self.out.asides.append(match.span())
            return self.token_after(match.end(), at)
        return None

    def _crosses(self, match: re.Match[str]) -> bool:
        """ "3 sc in last ch, hdc in next 4 on the other side": the side is told behind the first stitches of it."""
        chunks = self.out.chunks
        clause = next((i for i in range(len(chunks) - 1, -1, -1) if chunks[i].type == "SEP"), None)
        if self.depth or clause is None or any(c.type == "MARK" and c.value[0] == "other side" for c in chunks):
            return False
        begun = any(c.type in ("PLACE", "PLACEPRE") and c.value.kind == "hook" for c in chunks[:clause])
        if not begun and not (self.chained() and any(c.type == "SKIP" for c in chunks[:clause])):
            return False  # "8 ch, skip 1 ch, 6 sc, 3 sc in end ch, 5 sc on the other side" has passed its first chain
        chunks.insert(clause + 1, Chunk("MARK", ("other side", None), *match.span()))
        return True

    def _leaves_gap(self) -> bool:
        """Have stitches just been passed over, or chains been made over them?"""
        kinds = [(c.type, c.value) for c in self.out.chunks[-3:] if c.type != "SEP"]
        return any(kind == "SKIP" or (kind == "ST" and value == "ch") for kind, value in kinds)

    def _all_round(self) -> bool:
        """Has what was told last gone all the way?"""
        chunks = [c for c in self.out.chunks[-2:] if c.type != "SEP"]
        if not chunks or self.depth:
            return False
        last = chunks[-1].value
        fills = last.fill if isinstance(last, Times) else isinstance(last, Place) and last.kind == "fill"
        return fills and not last.last
