"""Places: "in each of the next 3 sts", "in 2nd ch from hook", "in same st"."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Place
from hookside.notation.bodies.spots import Spots
from hookside.notation.bodies.wording.places import SPACE, TO_CORNER
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, REST
from hookside.notation.vocabulary import (
    ARTICLES,
    COURSE_WORDS,
    EACH,
    NEXT,
    PREPOSITIONS,
    RING_WORDS,
)

TOGETHER = re.compile(r"(?P<n>\d) ?(?:sc|dc|hdc|htr|tr) (?:tog|together)\b")

_RINGS = ("ring", "circle", "loop")
_FROM_HOOK = re.compile(r"\b(?:from|of) (?:the |your )?hook\b")
# "in am ring", "into the starting ring": by whatever name the ring goes
_RING_KINDS = frozenset(
    ["am", "ma", "m", "amigurumi", "yarn", "thread", "starting", "start", "beginning", "foundation", "initial", "slip",
     "finger", "closing", "drawstring", "tightening", "wool", "sliding", "double"]
)  # fmt: skip

_REST = frozenset({"in", "into", "on", "for", "over", "along", "to", "through", "all", "of", "the", "your"}).union(
    {"rest", "remainder", "others"}
)


class Places(Spots):
    """Where stitches go."""

    def place(self, at: int) -> tuple[Place, int] | None:
        """The place that starts at token `at`, and the token after it."""
        if at >= self.count:
            return None
        here = at
        start = self.toks[at].start
        prep = False
        if self.last_type() == "ST" and self.out.chunks[-1].value == "sl st" and "corner" in self.low:
            corner = TO_CORNER.match(self.low, start)
            if corner:
                return self._done(Place("space", noun="corner"), start, self.token_after(corner.end(), at))
        if self.toks[at].text in _REST and self.last_type() in ("ST", "NA", "LOOPSPOST", "COLOURPOST", "CLOSE"):
            rest = REST.match(self.low, start)
            behind = self.token_after(rest.end(), at) if rest else at
            if rest and (self.word(behind) in CLAUSE_ENDS or self.word(behind) in ("with", "in")):
                return self._done(Place("fill", noun="sts"), start, behind)
        while self.word(here) in ("worked", "evenly", "for", "made") or (
            self.word(here) == "from"
            and (
                self.kind(here + 1) == "ordinal" or (self.word(here + 1) == "the" and self.kind(here + 2) == "ordinal")
            )
        ):
            prep = prep or self.word(here) == "from"
            here += 1
        word = self.word(here)
        if word in (
            "around",
            "across",
            "all",
            "to",
            "until",
            "till",
            "til",
            "evenly",
            "the",
            "right",
            "up",
            "throughout",
            "round",
        ):
            fill = self.fill_tail(here)
            if fill and not (word == "around" and self._round_a_post(here + 1)):
                return self._done(Place("fill", last=fill[1]), start, fill[0])
        if word == "per" and self.is_noun(here + 1):
            return self._done(Place("fill", each=True), start, here + 2)
        if word == "inside" and self.word(here + 1) in CLAUSE_ENDS:
            return self._done(Place("ring"), start, here + 1)
        if word == "around" or word in PREPOSITIONS:
            prep = True
            here += 1
            if self.word(here) == "to":
                here += 1
        if self.word(here) in ("blo", "flo", "back", "front", "bl", "fl", "both") or (
            self.word(here) == "the" and self.word(here + 1) in ("back", "front", "blo", "flo", "both")
        ):
            looped = self.loops(here)
            if looped:
                step = looped[0]
                if self.word(step) in ("of", "on", "in"):
                    inner = self.place(step + 1) or self.place(step)
                    if inner:
                        inner[0].loops = looped[1]
                        inner[0].start = start
                        return inner
                return None
        while self.word(here) in ARTICLES or (self.word(here) == "very" and self.word(here - 1) == "the"):
            here += 1
        if self.word(here) in ("center", "centre", "middle") and (self.word(here + 1) in ("of", "st", "stitch")):
            here += 1
            while self.word(here) in ARTICLES:
                here += 1
        tok = self.toks[here] if here < self.count else None
        if tok is None:
            return None
        if prep and self.word(here + 1) == "just" and self.word(here + 2) in ("made", "worked", "completed"):
            return self._done(Place("same"), start, here + 3)  # "sl st in the sc just made"
        whole = here + (tok.text in ("whole", "entire", "full"))
        course = self.word(whole) in COURSE_WORDS or (whole > here and self.word(whole) == "circle")
        if prep and course and self.word(whole + 1) in CLAUSE_ENDS and self.after_stitch() and here > at + 1:
            return self._done(Place("fill"), start, whole + 1)  # "sc in the round", "sc in the whole circle"
        if prep and tok.key == "ch" and "ring" in (self.word(here + 1), self.word(here + 2)):
            return self._done(Place("ring"), start, here + 2 + (self.word(here + 1) == "-"))
        if prep and (
            tok.key == "ring"
            or (tok.text in RING_WORDS and tok.kind == "word")
        ):
            return self._done(Place("ring"), start, here + 1)
        if prep and tok.kind == "word" and tok.text in _RING_KINDS and self.word(here + 1) in _RINGS:
            return self._done(Place("ring"), start, here + 2)
        if (
            prep
            and tok.text in ("other", "opposite", "second", "unworked", "remaining", "underside", "bottom")
            and self.word(here + 1) in ("side", "loops", "loop", "edge")
        ):
            step = here + 2
            while self.word(step) in ("of", "the", "same"):
                step += 1
            if self.kind(step) == "number" and self.word(step + 1) in ("ch", "chs", "chain", "chains"):
                return self._done(
                    Place(
                        "next", n=self.toks[step].value, noun="ch", number=(self.toks[step].start, self.toks[step].end)
                    ),
                    start,
                    step + 2,
                )
            if self.word(step) in ("each", "next"):
                inner = self.place(step)
                if inner:
                    inner[0].start = start
                    return inner
        if prep and tok.text in ("magic", "adjustable", "sliding"):
            return None
        if prep and tok.text in ("turning", "tch") and (tok.text == "tch" or self.word(here + 1) in ("ch", "chain")):
            return self._done(Place("one", noun="top"), start, here + 1 + (tok.text != "tch"))
        if prep and tok.text == "base" and self.word(here + 1) == "of":
            past = self._top_of(here)
            return self._done(Place("same"), start, past) if past else None
        if prep and tok.text == "top":
            past = self._top_of(here)
            return self._done(Place("one", noun="top"), start, past) if past else None
        if tok.kind == "ordinal":
            value = tok.value
            step = here + 1
            noun = self.noun_phrase(step)
            text = self.body[tok.start : self.toks[min(noun, self.count) - 1].end].lower()
            chain = self.word(step) in ("chain", "chains", "chs") or (step < self.count and self.toks[step].key == "ch")
            if (
                _FROM_HOOK.search(text)
                or (chain and value > 1 and prep)
                or (chain and self.word(step + 1) == "from")
                or (prep and value > 1 and re.match(r" ?(?:nd|rd|th)? from (?:the |your )?hook\b", self.low[tok.end :]))
            ):
                past = noun
                if self.word(past) == "from":
                    past += 2 if self.word(past + 1) == "hook" else 3
                return self._done(Place("hook", n=value), start, past)
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
                return self._done(
                    Place("next" if many > 1 else "first", n=many, number=number),
                    start,
                    max(noun, step if many == 1 else step + 1),
                )
            if prep and not chain and (noun > step or self.word(step) in CLAUSE_ENDS):
                return self._done(Place("order", n=value), start, noun)
            return None
        ends = self.word(here + 1) in CLAUSE_ENDS
        if prep and (tok.text in ("rest", "remainder") or (tok.text in ("remaining", "rem") and ends)):
            past = here + 1
            while self.word(past) in ("of", "the", "your") or (past > here + 1 and self.is_noun(past)):
                past += 1
            return self._done(Place("fill", noun="sts"), start, past)
        if prep and tok.text == "one" and self.word(here + 1) in ("after", "following", "behind"):
            return self._done(Place("one", noun="st"), start, here + 2)
        each = False
        if tok.text in EACH:
            each = True
            here += 1
            left = here + 1 + (self.word(here + 1) == "the")
            if self.word(here) == "of" and self.word(left) in ("rest", "remainder"):  # "in each of the rest"
                return self._done(Place("fill", each=True, noun="sts"), start, left + 1)
            if self.word(here) in ("other", "alternate") or (
                self.kind(here) == "ordinal" and self.toks[here].value > 1
            ):
                every = self.toks[here].value if self.kind(here) == "ordinal" else 2
                noun = self.noun_phrase(here + 1)
                if noun == here + 1 and not (self.word(noun) in CLAUSE_ENDS and self.after_stitch()):
                    return None
                fill = self.fill_tail(noun)
                return self._done(Place("nth", n=every), start, fill[0] if fill else noun)
            if self.word(here) in ("and", "&") and self.word(here + 1) in EACH:
                here += 2  # "in each and every st"
            while self.word(here) in ARTICLES or (
                self.word(here) in ("-", "single") and (self.word(here) == "single" or self.kind(here + 1) != "number")
            ):
                here += 1
            if tok.text != "all" and self.kind(here) == "number" and self.toks[here].value in (2, 3):
                noun = self.noun_phrase(here + 1)
                if noun > here + 1:
                    tog = self.word(noun) in ("together", "tog")
                    past = noun + tog
                    fill = self.fill_tail(past)
                    return self._done(
                        Place("every", n=self.toks[here].value, each=True, together=tog),
                        start,
                        fill[0] if fill else past,
                    )
            if tok.text == "all" and self.kind(here) == "number" and not prep and here + 1 == self.count:
                return self._done(Place("fill", each=True), start, here)  # "inc all 12": what it comes to
            if tok.text == "all" and self.kind(here) == "number" and not self._stitch_at(here + 1):
                noun = self.noun_phrase(here + 1)
                if noun > here + 1:
                    told = self.toks[here]
                    fill = self.fill_tail(noun)
                    return self._done(
                        Place("next", n=told.value, each=True, number=(told.start, told.end)),
                        start,
                        fill[0] if fill else noun,
                    )
            if self.word(here) in ("front", "back") and self.word(here + 1) in ("loop", "loops", "lp", "lps"):
                past = self._noun_tail(here + 2)  # "2 hdc in each front loop"
                fill = self.fill_tail(past)
                place = Place("fill", each=True, last=fill[1] if fill else 0, noun="st", loops=self.word(here))
                return self._done(place, start, fill[0] if fill else past)
            if tok.text in ("each", "every") and self.word(here) == "one" and self.word(here + 1) in CLAUSE_ENDS:
                return self._done(Place("fill", each=True, noun="st"), start, here + 1)
        if self.word(here) == "same":
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
        named_next = False
        which = ""
        while self.word(here) in NEXT or (self.word(here) in ("last", "first", "1st") and self.kind(here) != "stitch"):
            if self.word(here) in ("last", "first"):
                which = self.word(here)
            named_next = True
            here += 1
            while self.word(here) in ARTICLES:
                here += 1
        if self.kind(here) == "ordinal" and self.toks[here].value == 1 and each:
            here += 1
            which = "first"
            named_next = True
        if named_next and self.kind(here) == "stitch":
            # "sc next 2 sc tog": by itself "2 sc tog" is a stitch's name, here it says into what
            both = TOGETHER.match(self.low, self.toks[here].start)
            if both:
                return self._done(
                    Place("next", n=int(both["n"]), together=True, noun="sts", number=both.span("n")), start, here + 1
                )
        n = None
        number = None
        if self.kind(here) == "number":
            n = self.toks[here].value
            number = (self.toks[here].start, self.toks[here].end)
            here += 1
            if self.word(here) in ("more", "remaining", "rem", "unworked", "skipped"):
                here += 1
        if self.word(here) in ("remaining", "rem", "unworked", "unused", "skipped") or (
            self.word(here) == "other" and self.is_noun(here + 1)
        ):
            here += 1
            named_next = True
        noun = self.noun_phrase(here)
        noun_text = self.body[self.toks[here].start : self.toks[noun - 1].end].lower() if noun > here else ""
        space = bool(re.search(r"\b(?:sps?|spaces?)\b", noun_text)) or ("ch-" in noun_text)
        if each and n is None and not (which and named_next):
            if noun == here and not named_next:
                fill = self.fill_tail(here)
                if fill is None and self.word(here) in CLAUSE_ENDS:
                    fill = here, 0
                return self._done(Place("fill", each=True, last=fill[1]), start, fill[0]) if fill else None
            if self.word(noun) in ("and", "&", "or"):
                step = noun + 1
                if self.word(step) in PREPOSITIONS:
                    step += 1
                inner = self.place(step) if self.word(step) in EACH else None
                past = inner[1] if inner and inner[0].kind == "fill" else self.noun_phrase(step)
                if past > step and not self._starts_place(past):
                    if inner is None:
                        fill = self.fill_tail(past)
                        inner = self._done(Place("fill", each=True, last=fill[1] if fill else 0), start, past)
                        past = fill[0] if fill else past
                    inner[0].start = start
                    inner[0].noun = self.low[self.toks[here].start : self.toks[past - 1].end]
                    return inner[0], past
            fill = self.fill_tail(noun)
            last = 0
            if fill:
                noun, last = fill
            elif self.word(noun) in ("after", "thereafter", "afterwards", "onwards"):
                noun += self.word(noun + 1) in CLAUSE_ENDS  # "in 2nd ch from hook and in every chain after"
            return self._done(Place("fill", each=True, last=last, noun=noun_text), start, noun)
        if named_next or n is not None:
            if not named_next and not prep and not each:
                return None
            if n is not None and not (named_next or each) and self.word(at) == "to":
                return None  # "increase to 24" says what it comes to
            if (
                not named_next
                and not each
                and prep
                and noun == here
                and n is not None
                and n > 1
                and self.word(at) != "over"
                and self.word(here) not in CLAUSE_ENDS
            ):
                return None
            if (
                n is None
                and self.is_noun(here)
                and noun_text in ("sts", "stitches", "chs", "chains")
                and which != "last"
            ):
                fill = self.fill_tail(noun)
                if fill or self.word(here - 1) in ("remaining", "rem", "unworked"):
                    return self._done(
                        Place("fill", last=fill[1] if fill else 0, noun=noun_text), start, fill[0] if fill else noun
                    )
            if which == "last" and re.search(r"\b(?:made|worked|completed)$", noun_text):
                return self._done(Place("same"), start, noun)  # "sl st in last sc made"
            kind = "space" if space else "last" if which == "last" else "next"
            if n is None and not named_next:
                kind = "one"
            if not named_next and not each and n == 1:
                kind = "one"
            together = False
            if self.word(noun) in ("together", "tog"):
                together = True
                noun += 1
            elif each and self.word(noun) in ("around", "across"):
                noun += 1
            return self._done(
                Place(kind, n=n or 1, each=each, noun=noun_text, together=together, number=number), start, noun
            )
        if prep and noun > here:
            if noun_text in ("sts", "stitches") or self.word(here) in ("chs", "sts"):
                fill = self.fill_tail(noun)
                return self._done(Place("fill", last=fill[1] if fill else 0), start, fill[0] if fill else noun)
            return self._done(Place("space" if space else "one", noun=noun_text), start, noun)
        return None
