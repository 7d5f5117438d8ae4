"""Places known by their names: the ring, the top of a turning chain, the rest, the third stitch of so many."""

from __future__ import annotations

import re
from typing import Literal

from hookside.notation.bodies.chunks import Place
from hookside.notation.bodies.spots import Spots
from hookside.notation.bodies.wording.places import BETWEEN_ALL, BETWEEN_NEXT, CHAINS, SPACE, TO_CORNER
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, REST
from hookside.notation.vocabulary import COURSE_WORDS, RING_WORDS

# A place and the token behind it; False where there is none; None where it goes by no name and may be another
Found = tuple[Place, int] | Literal[False] | None

_RINGS = ("ring", "circle", "loop")
_FROM_HOOK = re.compile(r"\b(?:from|of) (?:the |your )?hook\b")
# "in am ring", "into the starting ring": by whatever name the ring goes
_RING_KINDS = frozenset(
    ["am", "ma", "m", "amigurumi", "yarn", "thread", "starting", "start", "beginning", "foundation", "initial", "slip",
     "finger", "closing", "drawstring", "tightening", "wool", "sliding", "double"]
)  # fmt: skip

# "6 sc in a ring made of the yarn end"
_MADE_OF = re.compile(
    r"(?: (?:that is )?(?:(?:made|formed|wound|laid) )?(?:of|from|with|out of) (?:the |your |a )?"
    r"(?:(?:yarn|thread|wool|tail|end|loose)\b[ -]?){1,3}|(?<= of yarn) end|(?<= of thread) end)"
    r"(?=\s*(?:[.,;(\[=]|- ?\d|$))"
)
_REST = frozenset({"in", "into", "on", "for", "over", "along", "to", "through", "all", "of", "the", "your"}).union(
    {"rest", "remainder", "others"}
)


class Known(Spots):
    """Names that are told apart by a look at a word or two."""

    def _corner_or_rest(self, at: int) -> tuple[Place, int] | None:
        """ "sl st to corner", "sc in the rest": what may stand right behind stitches alone."""
        start = self.toks[at].start
        if self.last_type() == "ST" and self.out.chunks[-1].value == "sl st" and "corner" in self.low:
            corner = TO_CORNER.match(self.low, start)
            if corner:
                return self._done(Place("space", noun="corner"), start, self.token_after(corner.end(), at))
        if self.toks[at].text in _REST and self.last_type() in ("ST", "NA", "LOOPSPOST", "COLOURPOST", "CLOSE"):
            rest = REST.match(self.low, start)
            behind = self.token_after(rest.end(), at) if rest else at
            if rest and (self.word(behind) in CLAUSE_ENDS or self.word(behind) in ("with", "in")):
                return self._done(Place("fill", noun="sts"), start, behind)
        return None

    def between_stitches(self, at: int) -> tuple[Place, int] | None:
        """The gaps between stitches: all of a round, of which there are as many as stitches, or one of them."""
        start = self.toks[at].start
        told = BETWEEN_ALL.match(self.low, start)
        if told is not None:
            return self._done(Place("fill", each=True, noun="st"), start, self.token_after(told.end(), at))
        told = BETWEEN_NEXT.match(self.low, start)
        if told is not None:
            return self._done(Place("next", noun="gap"), start, self.token_after(told.end(), at))
        return None

    def _by_name(self, at: int, here: int, start: int, prep: bool) -> Found:
        """ "in the ring", "in the sc just made", "in the whole round", "in top of tch"."""
        tok = self.toks[here]
        if prep and self.word(here + 1) == "just" and self.word(here + 2) in ("made", "worked", "completed"):
            return self._done(Place("same"), start, here + 3)  # "sl st in the sc just made"
        whole = here + (tok.text in ("whole", "entire", "full"))
        course = self.word(whole) in COURSE_WORDS or (whole > here and self.word(whole) == "circle")
        if prep and course and self.word(whole + 1) in CLAUSE_ENDS and self.after_stitch() and here > at + 1:
            return self._done(Place("fill"), start, whole + 1)  # "sc in the round", "sc in the whole circle"
        if prep and tok.key == "ch" and "ring" in (self.word(here + 1), self.word(here + 2)):
            return self._done(Place("ring"), start, here + 2 + (self.word(here + 1) == "-"))
        all_round = self.last_type() == "PLACE" and self.out.chunks[-1].value.kind == "fill"
        if prep and tok.text == "mc" and (all_round or "mc" in self.names.colours):
            return False  # "sc around in MC", "12 sc in MC, 12 sc in CC": the main colour
        if prep and (tok.key == "ring" or (tok.text in RING_WORDS and tok.kind == "word")):
            made = _MADE_OF.match(self.low, tok.end)
            return self._done(Place("ring"), start, self.token_after(made.end(), here) if made else here + 1)
        if prep and tok.kind == "word" and tok.text in _RING_KINDS and self.word(here + 1) in _RINGS:
            return self._done(Place("ring"), start, here + 2)
        if prep and tok.text in ("magic", "adjustable", "sliding"):
            return False
        if prep and tok.text in ("turning", "tch") and (tok.text == "tch" or self.word(here + 1) in ("ch", "chain")):
            return self._done(Place("one", noun="top"), start, here + 1 + (tok.text != "tch"))
        if prep and self.is_noun(here) and self.word(here + 1) == "at":
            base = here + 2 + (self.word(here + 2) == "the")
            past = self._top_of(base) if self.word(base) == "base" else None
            return self._done(Place("same"), start, past) if past else None  # "in st at base of ch-3"
        if prep and tok.text == "base" and self.word(here + 1) == "of":
            past = self._top_of(here)
            return self._done(Place("same"), start, past) if past else False
        of = here + 1 + (self.word(here + 1) in ("ch", "chain", "st"))
        if prep and tok.kind == "ordinal" and tok.value > 1 and self.word(of) == "of":
            past = self._top_of(of - 1)  # "in 3rd of 3 ch", "in 3rd ch of ch-4"
            return self._done(Place("one", noun="top"), start, past) if past else None
        if prep and tok.text == "top":
            past = self._top_of(here)
            return self._done(Place("one", noun="top"), start, past) if past else False
        return None

    def _in_order(self, here: int, start: int, prep: bool) -> tuple[Place, int] | None:
        """ "2nd ch from hook", "first 3 sts", "in the third st"."""
        tok = self.toks[here]
        value = tok.value
        step = here + 1
        noun = self.noun_phrase(step)
        text = self.body[tok.start : self.toks[min(noun, self.count) - 1].end].lower()
        spaced = value > 1 and prep and "hook" not in text and SPACE.search(self.low[tok.end : tok.end + len(text)])
        if spaced and noun > step:
            noun_told = self.low[tok.end : self.toks[noun - 1].end].strip()
            return self._done(Place("space", noun=noun_told), start, noun)  # "in 2nd ch-3 sp"
        chain = self.word(step) in ("chain", "chains", "chs") or (step < self.count and self.toks[step].key == "ch")
        chain = chain or (self.word(step) == "loop" and value > 1 and self.low.startswith("from ", start))
        if (
            _FROM_HOOK.search(text)
            or (chain and value > 1 and prep)
            or (chain and self.word(step + 1) == "from")
            or (prep and value > 1 and re.match(r" ?(?:nd|rd|th)? from (?:the |your )?hook\b", self.low[tok.end :]))
        ):
            past = noun
            if self.word(past) == "from":
                past += 2 if self.word(past + 1) == "hook" else 3
            along = self.low.startswith("from ", start)  # "sc 24 from 2nd ch"
            return self._done(Place("hook", n=value, each=along), start, past)
        if value == 1:
            number = None
            many = 1
            if self.kind(step) == "number":
                many = self.toks[step].value
                number = (self.toks[step].start, self.toks[step].end)
                noun = self.noun_phrase(step + 1)
                if noun == step + 1 and not prep:
                    return None
            elif noun == step and not prep:
                return None
            past = max(noun, step if many == 1 else step + 1)
            told = self.low[tok.end : self.toks[past - 1].end].strip()
            if SPACE.search(told):
                return self._done(Place("space", n=many, noun=told, number=number), start, past)  # no stitch
            slips = self.last_type() == "ST" and self.out.chunks[-1].value == "sl st"
            chained = slips and CHAINS.search(told) is not None  # "sl st in first 2 chs": on to the space
            kind: Literal["next", "first"] = "next" if many > 1 else "first"
            return self._done(Place(kind, n=many, noun=told if chained else "", number=number), start, past)
        if prep and not chain and (noun > step or self.word(step) in CLAUSE_ENDS):
            return self._done(Place("order", n=value), start, noun)
        return None

    def _left_over(self, here: int, start: int, prep: bool) -> tuple[Place, int] | None:
        """ "in the rest of the sts", "in the one after"."""
        tok = self.toks[here]
        ends = self.word(here + 1) in CLAUSE_ENDS
        if prep and (tok.text in ("rest", "remainder") or (tok.text in ("remaining", "rem") and ends)):
            past = here + 1
            while self.word(past) in ("of", "the", "your") or (past > here + 1 and self.is_noun(past)):
                past += 1
            return self._done(Place("fill", noun="sts"), start, past)
        if prep and tok.text == "one" and self.word(here + 1) in ("after", "following", "behind"):
            return self._done(Place("one", noun="st"), start, here + 2)
        return None

    def _same(self, here: int, start: int) -> tuple[Place, int]:
        """ "in same st", "in the same place as the join"."""
        noun = self.noun_phrase(here + 1)
        if self.word(noun) in ("place", "base") and noun == here + 1:
            noun += 1
        if self.word(noun) == "." and self.word(noun + 1) in ("as", "where"):
            noun += 1  # "into the same ch. as the first d.c."
        if self.word(noun) in ("as", "where") or self.word(noun) == "ch":
            step = noun + 1
            while step < self.count and self.kind(step) != "sign" and self.word(step) not in ("and", "then"):
                step += 1
            noun = step
        gap = SPACE.search(self.low[self.toks[here].start : self.toks[noun - 1].end])
        return self._done(Place("same", noun=gap[0] if gap else ""), start, noun)
