"""Places: "in each of the next 3 sts", "in 2nd ch from hook", "in same st"."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Place
from hookside.notation.bodies.every import Every
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS
from hookside.notation.vocabulary import (
    ARTICLES,
    COURSE_WORDS,
    EACH,
    NEXT,
    PREPOSITIONS,
)

TOGETHER = re.compile(r"(?P<n>\d) ?(?:sc|dc|hdc|htr|tr) (?:tog|together)\b")

_CHAIN_NOUNS = frozenset(["ch", "chain", "chains", "chs", "chain loop", "chain arch", "ch loop"])

_SKIPPED = frozenset(["skipped", "missed", "passed", "unworked"])  # ... in a course that skips


_SINGLED_OUT = frozenset(["corner", "center", "centre", "middle", "central"])
_PLAIN = frozenset(["sc", "hdc", "dc", "tr", "ch"])
_OF_CORNER = re.compile(
    r"of (?:(?:the|each|every|next|previous|last|any|same|this|that|first) )*"
    r"(?:\d ?-? ?(?:sc|[hd]?dc|h?tr|sts?) ?-? ?)?"
    r"(?:corners?|groups?|clusters?|shells?|inc(?:rease)?s?|v|fan)\b(?: (?:sts?|groups?|below))?"
)
_NAMED_BY_TURN = frozenset(["this", "last", "previous", "preceding", "prev", "current", "new"])  # ... round
_AT_AN_END = frozenset(["end", "final", "beginning", "beg"])  # ... chain
_THE = frozenset(["the", "its", "all"])  # ... other 11 stitches
_LEFT = frozenset(["more", "remaining", "rem", "unworked", "skipped", "other", "others"])
_SAYS_MORE = frozenset(
    ["times", "time", "x", "of", "and", "or", "st", "sts", "back", "front", "both", *COURSE_WORDS, *PREPOSITIONS]
)

# a stretch may begin so: "around", "to the end", "all the way over", "clear across", "on to the end"
_GOES_ON = frozenset(
    ["around", "across", "all", "to", "until", "till", "til", "evenly", "the", "right", "up", "throughout", "round"]
).union(["clear", "clean", "on"])


class Places(Every):
    """Where stitches go."""

    def place(self, at: int) -> tuple[Place, int] | None:
        """The place that starts at token `at`, and the token after it."""
        if at >= self.count:
            return None
        start = self.toks[at].start
        behind = self._corner_or_rest(at)
        if behind is not None:
            return behind
        gap = self.between_stitches(at) if "between " in self.low else None
        if gap is not None:
            return gap
        here = at
        prep = False
        while self.word(here) in ("worked", "evenly", "for", "made") or (
            self.word(here) == "from"
            and (
                self.kind(here + 1) == "ordinal" or (self.word(here + 1) == "the" and self.kind(here + 2) == "ordinal")
            )
        ):
            prep = prep or self.word(here) == "from"
            here += 1
        word = self.word(here)
        if word in _GOES_ON:
            fill = self.fill_tail(here)
            if fill and not (word in ("around", "round") and self._round_a_post(here + 1)):
                return self._done(Place("fill", last=fill[1]), start, fill[0])
        if word == "per" and self.is_noun(here + 1):
            return self._done(Place("fill", each=True), start, here + 2)
        if word == "inside" and self.word(here + 1) in CLAUSE_ENDS:
            return self._done(Place("ring"), start, here + 1)
        at_base = word == "at" and "base" in (self.word(here + 1), self.word(here + 2))
        if word == "around" or word in PREPOSITIONS or at_base or (word == "round" and self._round_a_post(here + 1)):
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
        if prep and self.word(here) in ("post", "posts") and self.word(here + 1) == "of":
            here += 2  # "around the post of the next st"
            while self.word(here) in ARTICLES:
                here += 1
            inner = self.place(here)
            if inner is not None:
                inner[0].start = start
                return inner
        if prep and self.word(here) in ("those", "these") and self.kind(here + 1) == "number":
            those = self.toks[here + 1]  # "until 4 sts remain, sc in those 4"
            noun = self.noun_phrase(here + 2)
            place = Place("next", n=those.value, each=True, number=(those.start, those.end))
            return self._done(place, start, noun)
        if prep and self.round_itself(here):
            return self._done(Place("fill"), start, here + 2)
        if prep and self._singled_out(here):
            return self._done(Place("one", noun="st"), start, self._of_corner(here + 2))
        middle = self.word(here) in ("center", "centre", "middle")
        if middle and (self.word(here + 1) in ("of", "st", "stitch") or self._stitch_at(here + 1)):
            here += 1
            while self.word(here) in ARTICLES:
                here += 1
        tok = self.toks[here] if here < self.count else None
        if tok is None:
            return None
        found = self._by_name(at, here, start, prep)
        if found is None and prep:
            found = self._other_side(here, start)
        if found is not None:
            return found or None
        if tok.kind == "ordinal":
            return self._in_order(here, start, prep)
        left = self._left_over(here, start, prep)
        if left is not None:
            return left
        if tok.text == "all" and not prep and self._dyed_behind(here + 1) and (self._amount_told() or self._apart(at)):
            return None  # "sc 18 all in white", "dec x 6, all in red": "all" is said of the colour of what is told
        each = tok.text in EACH
        if each:
            told = self._every(here, start, prep)
            if not isinstance(told, int):
                return told
            here = told
            if self.out.layers and self.word(here) == "pair" and self.word(here + 1) == "of":
                here += 2  # "through both layers in each pair of sts": one of each layer
        if self.word(here) == "same":
            return self._same(here, start)
        if prep and (passed := self._skipped(here, start)) is not None:
            return passed
        return self._amount_of(at, here, start, prep, each)

    def round_itself(self, here: int) -> bool:
        """ "18 sc in next round", "inc x 6 into the last round": all of it, and no one stitch to work 18 into."""
        named = self.word(here) in NEXT or self.word(here) in _NAMED_BY_TURN
        return named and self.word(here + 1) in COURSE_WORDS and self.word(here + 2) in CLAUSE_ENDS

    def _singled_out(self, here: int) -> bool:
        """ "3 sc in corner sc", "in the center sc of each corner": one stitch, told by where it stands."""
        if self.word(here) not in _SINGLED_OUT:
            return False
        named = self.kind(here + 1) == "stitch" and self.toks[here + 1].key in _PLAIN
        if not named and self.word(here + 1) not in ("st", "stitch"):
            return False
        if self.word(here + 2) != "of":
            return self.word(here + 2) in CLAUSE_ENDS  # "3 sc in corner sc in next 5": the next stitch begins
        if self.depth or "*" in self.low:
            return True
        return self.word(here + 3) not in EACH  # "sc around, 3 sc in middle sc of each corner": of how many?

    def _of_corner(self, at: int) -> int:
        """The token behind "of each corner", "of 3-sc group"; `at` where nothing of that kind stands."""
        match = _OF_CORNER.match(self.low, self.toks[at].start) if self.word(at) == "of" else None
        return self.token_after(match.end(), at) if match is not None else at

    def _skipped(self, here: int, start: int) -> tuple[Place, int] | None:
        """ "in skipped st", "in both missed dc", "in the st just skipped": what this course passed over before."""
        if not any(c.type == "SKIP" for c in self.out.chunks):
            return None
        n, number = 1, None
        if self.kind(here) == "number" or self.word(here) == "both":
            n = self.toks[here].value if self.kind(here) == "number" else 2
            number = (self.toks[here].start, self.toks[here].end) if self.kind(here) == "number" else None
            here += 1
        told = self.word(here) in _SKIPPED
        noun = self.noun_phrase(here + told)
        behind = noun + (self.word(noun) in ("you", "that")) + (self.word(noun) == "just")
        if not told and self.word(behind) in _SKIPPED and noun > here:
            return self._done(Place("skipped", n=n, number=number), start, behind + 1)
        if told and (noun > here + 1 or self.word(noun) in CLAUSE_ENDS):
            return self._done(Place("skipped", n=n, number=number), start, noun)
        return None

    def _other_side(self, here: int, start: int) -> tuple[Place, int] | None:
        """ "in the other side of each ch", "in the unworked loops of 6 ch"."""
        tok = self.toks[here]
        if tok.text in ("other", "opposite", "second", "unworked", "remaining", "underside", "bottom") and self.word(
            here + 1
        ) in ("side", "loops", "loop", "edge"):
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
        return None

    def _amount_of(self, at: int, here: int, start: int, prep: bool, each: bool) -> tuple[Place, int] | None:
        """ "next 3 sts", "last st", "each sc", "ch-2 sp": so many of a noun."""
        named_next = False
        which = ""
        while (
            self.word(here) in NEXT
            or (self.word(here) in ("last", "first", "1st") and self.kind(here) != "stitch")
            or (self.word(here) in _AT_AN_END and self.word(here + 1) in ("ch", "chain", "st", "stitch", "loop"))
            or (self.word(here) == "other" and self.word(here - 1) in _THE and self.kind(here + 1) == "number")
        ):
            if self.word(here) in ("last", "first") or self.word(here) in _AT_AN_END:
                which = "first" if self.word(here) in ("first", "beginning", "beg") else "last"
            named_next = True
            here += 1
            while self.word(here) in ARTICLES:
                here += 1
        if named_next and self.word(here) in COURSE_WORDS and self.word(here - 1) in NEXT:
            return None  # "sc 18, next round in red": of another round, and no place in this one
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
            if self.word(here) in _LEFT or (each and self._told_of(here)):
                here += 1
        if self.word(here) in ("remaining", "rem", "unworked", "unused", "skipped") or (
            self.word(here) == "other" and self.is_noun(here + 1)
        ):
            here += 1
            named_next = True
        noun = self.noun_phrase(here)
        noun_text = self._noun_text(here, noun, start)
        space = bool(re.search(r"\b(?:sps?|spaces?)\b", noun_text)) or ("ch-" in noun_text)
        if each and n is None and not (which and named_next):
            return self._all_of(here, noun, start, named_next)
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

    def _told_of(self, here: int) -> bool:
        """ "in each of the 4 underarm chs": a word that says which, between the number and its noun."""
        word = self.word(here)
        return self.kind(here) == "word" and word.isalpha() and word not in _SAYS_MORE and self.is_noun(here + 1)

    def _noun_text(self, here: int, noun: int, start: int) -> str:
        """The words of a noun; a chain that is worked over, and not into, is a space."""
        told = self.body[self.toks[here].start : self.toks[noun - 1].end].lower() if noun > here else ""
        over = self.low.startswith(("over ", "around "), start) and told in _CHAIN_NOUNS
        return "ch sp" if over else told

    def _dyed(self, at: int) -> bool:
        """ "in each with red": does the colour of the stitches stand here?"""
        behind = at + 1 + (self.word(at + 1) == "the")
        in_one = self.colour_name(behind) is not None or self.is_letter_colour(behind)
        return self.word(at) in ("with", "in", "using") and in_one

    def _dyed_behind(self, at: int) -> bool:
        """ "all in white", "all of them in A", "all white"."""
        at += 2 * (self.word(at) == "of")
        return self._dyed(at) or self.colour_name(at) is not None

    def _apart(self, at: int) -> bool:
        """Does a sign part this from the work told ahead of it: "sc around, all"?"""
        return bool(self.out.chunks) and self.word(at - 1) in (",", ";", ".", "-")

    def _amount_told(self) -> bool:
        """Do the stitches that this would be the place of have an amount: "18 sc", "sc 18"?"""
        kinds = [chunk.type for chunk in self.out.chunks[-2:]]
        return kinds[-1:] == ["NA"] or kinds == ["NB", "ST"]

    def _all_of(self, here: int, noun: int, start: int, named_next: bool) -> tuple[Place, int] | None:
        """ "each sc", "each st and each ch", "every chain after": all of a noun, as far as is told."""
        noun_text = self._noun_text(here, noun, start)
        if noun == here and not named_next:
            fill = self.fill_tail(here)
            if fill is None and (self.word(here) in CLAUSE_ENDS or self._dyed(here)):
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
