"""What asks the hands within a course, and talk beside it: where such a clause ends, and that it is no work."""

from __future__ import annotations

import re

from hookside.colours import COLOURS
from hookside.notation.askings.askings import askings
from hookside.notation.askings.byround import beside_round
from hookside.notation.askings.clauses import leaves_colour, new_colour
from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.doneahead import done_ahead
from hookside.notation.askings.during import done_within
from hookside.notation.askings.dyedpart import DYED_BEHIND, PART_DYED
from hookside.notation.askings.kinds import HOLDS_STITCH, classify
from hookside.notation.askings.marked import MARKS
from hookside.notation.askings.roundshades import NTH_SHADE, ROUNDS, SHADE, shades_by_round
from hookside.notation.askings.short import named_behind
from hookside.notation.bodies.chunks import CueClause
from hookside.notation.bodies.listed import Listed
from hookside.notation.bodies.wording.joins import IN_THE_JOIN
from hookside.notation.bodies.wording.places import FOLDED, FOLDED_FIRST, STARTING_IN
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, SHAPING, TALK, TERMS_TOLD, WORKS
from hookside.notation.vocabulary import EACH, HARMLESS, PREPOSITIONS, TIMES_WORDS, number_of
from hookside.pattern import CueKind

# With a number beside it, more than a remark
_SHAPED = re.compile(r"\b(?:crochet|together|tog|into one|doubl\w+|(?:work|make|do) \d+ (?:rnds|rounds|rows))\b")
# "minus the last st", "leave out the last inc": what was just told is less by it
_LESSENS = re.compile(
    r"(?:but |and |then )?(?:minus|less|except(?:ing)?|omit(?:ting)?|leav(?:e|ing) (?:out|off)|drop(?:ping)?) (?:for )?"
    r"(?:the |your )?(?:very )?(?:last|first|final|one|1|two|2)\b[^,.;]{0,24}|"
    # ... or adds, or works together what the round would count apart
    r"(?:and |then )?(?:working|crocheting|taking) (?:the )?[a-z0-9]+ and (?:the )?[a-z0-9]+ (?:sts? |stitch(?:es)? )?"
    r"together\b[^,.;]{0,24}|"
    r"(?:and |then )?adding (?:one|1|two|2|an?) (?:extra |more )?st(?:itch)?(?:es|s)?\b[^,.;]{0,24}"
)
# Where stitches go, before any count is printed
_GOES_INTO = re.compile(
    r"\b(?:in(?:to)?|over|around) (?:the )?(?:very )?(?:next|same|following|each|every)(?: \d+)?"
    r"(?: (?:sts?|stitch(?:es)?|sc|[hd]?dc|one|ones|place|loop|space|sp))?(?=\s*(?:[,.;()\[\]=*-]|$))"
)

# Where a sentence ends that stands behind the count of its round
_SENTENCE = re.compile(r"[^.;!?()\[\]{}*]+(?=[.;!?]|$)")
_CLAUSE_BEHIND = re.compile(r"[^.;!?()\[\]{}*]+?(?=\s*(?:[.;!?()\[\]{}*]|$))")
_APART = re.compile(r"\d+ (?:sts?|stitch(?:es)?|sc|dc) (?:apart|between|from)\b")  # how far, and no work
_IF_YOU_LIKE = re.compile(r"\bif (?:you (?:like|wish|want|prefer)|desired)\b")
_ENDS_COUNT = (".", ")", "]", ";", "!", "-", ",", ">")  # in front of such a sentence
# What such a sentence may ask, whatever numbers it names: no stitch is worked by it
_ASKED_BEHIND = frozenset(["eyes", "stuff", "close", "fasten", "tail", "weave", "sew", "embroider", "marker", "hold"])

# "sc around (24) - in sea foam": what the round is worked in, by whatever name
_IN_YARN = re.compile(r"(?:in|with|using) (?:the )?(?P<name>[a-z]+(?: [a-z]+)?)")

# A yarn behind the count: so many words of one, letters of a name that nobody knows, and what is none
_MOST_OF_A_YARN = 3
_A_YARN = 3
_NO_YARN_BEHIND = HARMLESS | frozenset(
    ["done", "next", "plain", "even", "same", "total", "now", "sts", "stitches", "count", "all", "end", "repeat"]
)

_TERSE = 6  # words of a clause that tells of a stitch: "Foo st over next 2 sts"

# "work 4, dec", "count 4, decrease": an amount, whatever stitch is meant
_DONE = frozenset(["work", "make", "crochet", "do", "knit", "count"])
_BEHIND_SOME = ("after ", "behind ", "past ", "following ", "from ")
_FOLDS = frozenset(["fold", "flatten", "press", "pinch", "squeeze"])

# "R7 onwards white", "round 6: leave a tail outside": of one course of a range
ROUND_WORDS = frozenset(["r", "rnd", "rnds", "round", "rounds", "rd", "rds", "row", "rows"])
_OF_A_ROUND = re.compile(
    rf"{ROUNDS}(?:st|nd|rd|th)?(?: ?[:=-] ?| )(?:(?:onwards?|on|is|are|in|with|only|the|worked|made|to|using|then) )*"
    r"(?P<what>[a-z][^.;,()\[\]:]{1,80})"
)

# Words of which an English sentence of three words has one
_ENGLISH = re.compile(
    r"\b(?:an?|the|i[nst]|it|to|o[nf]|and|as|at|you|we|with|without|for|more|no|not|this|that|just|only|keep|go(?:ing)?|"
    r"even|same|all|each|every|like|around|round|plain|straight|crochet|knit|work|next|last|change[sd]?)\b"
)


_WITH_JOB = re.compile(
    r"(?:with|while) (?:(?:insert|add|plac|putt|attach|fix)ing )?"
    r"(?:(?:the|your|some|both|safety|light|firm|\d{1,2} ?mm) ){0,3}"
    r"(?:eyes|stuffing|filling)\b[^.;,()\[\]=]{0,60}"
)


# "change to cream, working in back loops only: ...": where the work begins
LOOPS_LEAD = re.compile(
    r"\s*(?:and |then )*(?:(?:work|crochet)(?:ing)? )?(?:(?:in|into|through) (?:the )?)?"
    r"(?:(?:back|front) (?:loops?|lps?)|[bf]lo)(?: only)?\s*[:,]"
)
_WORKS = ("work", "make", "do", "crochet")
_NO_ONE = ("turn", "join", "ring", "ch", "sl st", "skip")  # "make a ring", "leave a chain": may be no work
_TO_LOOPS = ("and", "then", "in", "into", "through", "working")


class Remarks(Listed):
    """Askings and asides."""

    def worked(self) -> bool:
        """Is any stitch told before this?"""
        return any(c.type in ("ST", "CLOSE", "BARE") for c in self.out.chunks)

    def cue_end(self, at: int) -> int:
        """The token after an asking that starts at `at`: the sentence's end, or the clause where stitches go on."""
        here = at
        level = 0
        while here < self.count:
            tok = self.toks[here]
            if tok.kind == "sign":
                if tok.text in "([{":
                    closing = self.close_of(here)
                    if level == 0 and closing is not None and self.is_count(here, closing):
                        return here
                    level += 1
                elif tok.text in ")]}":
                    level -= 1
                    if level < 0:
                        return here
                elif tok.text == "-" and self.glued(here) and self.toks[here - 1].key == "ch":
                    pass  # "in any ch-2 space"
                elif (
                    (level == 0 and tok.text in ".;!" and not self._decimal(here))
                    or (level == 0 and (tok.text == ":" and here > at) and self.stitchy(here + 1))
                    or (level == 0 and tok.text == "," and (self.stitchy(here + 1) or self._folds(here + 1)))
                    or (level == 0 and tok.text == "," and self._works_on(here))
                    or (level == 0 and tok.text == "," and LOOPS_LEAD.match(self.low, tok.end) is not None)
                    or (level == 0 and here > at and (self._tells_count(here) or self._dash_to_work(here)))
                ):
                    return here
            elif level == 0 and here > at and (self._works_on(here) or self._to_loops(here)):
                return here
            here += 1
        return here

    def _works_on(self, at: int) -> bool:
        """ "... and 5 sc", "... and work a 5-dc bobble": stitches behind a word of going on."""
        if self._works_one(at + 1):
            return self.word(at) in ("then", "and", ",", "for")
        here = at + 1 + (self.word(at + 1) in _WORKS)
        if self.word(at) not in ("then", "and") or self.kind(here) not in ("number", "stitch"):
            return False
        return self.stitchy(here) and self.toks[here].key != "turn"

    def _works_one(self, at: int) -> bool:
        """ "work a bobble", "a 5-dc bobble": one stitch."""
        here = at + (self.word(at) in _WORKS)
        if self.word(here) not in ("a", "an") or self.kind(here + 1) != "stitch":
            return False
        return self.toks[here + 1].key not in _NO_ONE

    def _to_loops(self, at: int) -> bool:
        """ "... and work in back loops only:": the loops of the work that comes."""
        return self.word(at) in _TO_LOOPS and LOOPS_LEAD.match(self.low, self.toks[at].start) is not None

    def with_job(self, at: int) -> int | None:
        """ "sc around with eyes at R6", "... marking st 9": a job behind the stitches, with no stop between."""
        start = self.toks[at].start
        told = MARKS.match(self.low, start) if "mark" in self.low else None
        if told is not None and "mark" in told[0]:
            self.out.cues.append(CueClause("marker", *told.span()))
            self.emit("CUE", len(self.out.cues) - 1, *told.span())
            return self.token_after(told.end(), at)
        told = _WITH_JOB.match(self.low, start) if self.worked() else None
        if told is None:
            return None
        kind = classify(told[0]) or beside_round(told[0]) or ("eyes" if "eyes" in told[0] else "stuff")
        self.out.cues.append(CueClause(kind, *told.span()))
        self.emit("CUE", len(self.out.cues) - 1, *told.span())
        return self.token_after(told.end(), at)

    def dyed_part(self, at: int) -> int | None:
        """ "sc around, the last 6 in white", "... (sts 7 to 9 red)": a color for some of the stitches that are told."""
        bracket = self.toks[at].text in ("(", "[")
        past, spans = at + bracket, []
        while past < len(self.toks) and (told := PART_DYED.match(self.low, self.toks[past].start)) is not None:
            spans.append(told.span())
            past = self.token_after(told.end(), past)
            if not bracket or self.word(past) not in (",", "and", "&"):
                break
            past += 1  # "(half white, half red)"
        if not spans or not self._all_told(past + bracket, self.low[slice(*spans[0])]):
            return None
        if bracket and self.word(past) not in (")", "]"):
            return None
        for start, end in spans:
            self.out.cues.append(CueClause("colour", start, end))
            self.emit("CUE", len(self.out.cues) - 1, start, end)
        return past + bracket

    def dyed_after(self, at: int) -> int | None:
        """ "After the 9th stitch change to red", "black after 9 sts": a color, or a marker, behind some stitch."""
        may = not self.depth and any(word in self.low for word in _BEHIND_SOME)
        told = DYED_BEHIND.match(self.low, self.toks[at].start) if may else None
        if told is None:
            return None
        what = told["what"] or ""
        kind = classify(what.strip()) if what else "colour"
        kind = "colour" if SHADE.search(what) else kind
        if kind not in ("colour", "marker"):
            return None
        self.out.cues.append(CueClause(kind, *told.span()))
        self.emit("CUE", len(self.out.cues) - 1, *told.span())
        return self.token_after(told.end(), at)

    def rest_dyed(self, at: int) -> int | None:
        """ "sc in each of the first 12 sts, the last 6 in red": those of one color are stitches of their own."""
        told = PART_DYED.match(self.low, self.toks[at].start)
        worked = [c for c in self.out.chunks if c.type not in ("SEP", "CUE")]
        if told is None or not told["n"] or [c.type for c in worked] != ["ST", "PLACE"] or self.depth:
            return None
        shade = SHADE.search(told[0])
        if worked[1].value.kind != "next" or told["end"] == "first" or shade is None:
            return None
        n, start, end = number_of(told["n"]), *told.span()
        self.emit("SEP", None, start, start)
        self.emit("NB", (n, start, end), start, end)
        self.emit("ST", worked[0].value, start, end)
        self.emit("COLOURPOST", shade[0], start, end)
        return self.token_after(end, at)

    def _all_told(self, past: int, dyed: str) -> bool:
        """Are all stitches of the round told: by what goes all the way round, a repeat, the printed count, or one
        amount of which some are `dyed`: "sc 18, the last 6 in white"?"""
        if self.out.counts:
            return True
        chunks = [c for c in self.out.chunks if c.type not in ("SEP", "CUE", "MARK")]
        last = chunks[-1] if chunks else None
        if last is None or self.depth:
            return False
        if last.type == "TIMES" or (last.type == "PLACE" and last.value.kind == "fill"):
            return True
        amounts = [c.value[0] for c in chunks if c.type in ("NB", "NA")]  # "sc 18, the last 6 in white (18)"
        printed = self.word(past) in ("(", "[", "=") and self.kind(past + 1) == "number" and self.toks[past + 1].value
        some = PART_DYED.match(dyed)
        fewer = some is not None and number_of(some["n"] or "0") < next(iter(amounts), 0)
        return len(chunks) == 2 and (amounts == [printed] or (printed is False and fewer))

    def lessens(self, text: str) -> bool:
        """Is the work just told less by a clause behind it?"""
        here = self.worked() and not (self.depth or self.out.counts)
        return here and _LESSENS.fullmatch(text.strip(" -")) is not None

    def within(self, text: str, kind: CueKind | None) -> bool:
        """Is a clause behind stitches, and in front of the printed count, done while the round is worked?"""
        return self.worked() and not self.depth and not self.out.counts and done_within(text, kind)

    def _tells_count(self, at: int) -> bool:
        """ "- 18", "= 18 sts": a sign with nothing behind it but the printed count; no "rnds 8-9"."""
        if self.word(at) == "-" and self.kind(at - 1) == "number" and self.glued(at):
            return False
        return (
            (self.word(at) in ("-", "=") or (self.word(at) in ("/", "|") and self.apart(at)))
            and self.kind(at + 1) == "number"
            and (self._past_count(at + 1) > at + 2 or at + 2 == self.count)
            and self._count_after_dash(at + 1)
        )

    def _dash_to_work(self, at: int) -> bool:
        """ "dec - sew the mouth now - 9 sc": a dash between blanks, stitches behind it."""
        if self.word(at) not in ("-", "/", "|") or at + 1 >= self.count or not self.stitchy(at + 1):
            return False
        return self.toks[at - 1].end < self.toks[at].start and self.toks[at].end < self.toks[at + 1].start

    def _lone(self, at: int) -> bool:
        """Is the number at `at` an amount of nothing that is named?"""
        return self.word(at + 1) in CLAUSE_ENDS and self.word(at - 1) not in ("round", "rnd", "row", "and", "-", "r")

    def _folds(self, at: int) -> bool:
        """Does a clause begin here that is worked through both layers: "do not stuff, fold in half and sc ..."?"""
        if self.word(at) not in _FOLDS:
            return False
        start = self.toks[at].start
        return FOLDED_FIRST.match(self.low, start) is not None or FOLDED.match(self.low, start) is not None

    def cue(self, at: int) -> int:
        past = max(self.cue_end(at), at + 1)
        start = self.toks[at].start
        last = past - 1
        while last > at and self.word(last) in ("/", "|", "-", ":"):
            last -= 1
        end = self.toks[last].end
        text = self.low[start:end]
        if self.lessens(text):
            self.out.unknown.append((start, end))
            return past
        kind = classify(text) or "other"
        joins = kind == "colour" and not self.depth and IN_THE_JOIN.search(text) is not None
        self.out.cues.append(CueClause(kind, start, end, leads=self.within(text, kind), joins=joins))
        self.emit("CUE", len(self.out.cues) - 1, start, end)
        if joins and not any(c.type == "MARK" and c.value[0] == "join" for c in self.out.chunks):
            self.emit("MARK", ("join", None), start, end)
        works_on = any(t.kind == "stitch" for t in self.toks[past:])
        if kind == "other" and works_on and not self.out.counts:
            lone = (t for i, t in enumerate(self.toks[at:past], at) if t.kind == "number" and self._lone(i))
            self.out.unknown.extend((t.start, t.end) for t in lone)  # no amount goes unsaid
        if kind == "colour":
            name = new_colour(self.body[start:end])
            if name or leaves_colour(text):
                self.emit("COLOUR", name or "", start, end)
        return past

    def of_a_round(self, at: int) -> int | None:
        """A color or a job that names one course of a range in front -> the token behind it."""
        told = _OF_A_ROUND.match(self.low, self.toks[at].start) if self.worked() else None
        if told is None:
            return None
        past = self.token_after(told.end(), at)
        if any(t.kind == "stitch" and t.key not in ("turn", "join") for t in self.toks[at:past]):
            return None
        kind = "colour" if is_colour(told["what"]) else classify(told["what"].strip())
        if kind is None or kind == "other":
            return None
        self.out.cues.append(CueClause(kind, *told.span()))
        self.emit("CUE", len(self.out.cues) - 1, *told.span())
        return past

    def asked_behind(self, at: int) -> int | None:
        """ "... (48). Put in the eyes between rounds 13 and 14, five stitches between them.": a job with a sentence of
        its own behind the printed count -> the token behind it."""
        if self.depth or not self.out.counts or self.word(at - 1) not in _ENDS_COUNT:
            return None
        said = _SENTENCE.match(self.low, self.toks[at].start)
        optional = said is not None and _IF_YOU_LIKE.search(said[0]) is not None
        if said is None or (not optional and WORKS.search(_APART.sub(" ", said[0]))):
            return None
        kind = named_behind(said[0]) or classify(said[0].strip())
        if optional:
            kind = kind or "other"  # "sc evenly down the side if you like": shown, and no work of this course
        elif kind is None or kind not in _ASKED_BEHIND:
            return None
        start, end = said.start(), said.start() + len(said[0].rstrip())
        self.out.cues.append(CueClause(kind, start, end))
        self.emit("CUE", len(self.out.cues) - 1, start, end)
        return self.token_after(end, at)

    def done_before(self, at: int) -> int | None:
        """ "... (6), after filling it well.": a job behind the work that is done before it -> the token behind it."""
        if not (self.worked() or self.out.counts):
            return None
        said = _CLAUSE_BEHIND.match(self.low, self.toks[at].start)
        kind = done_ahead(said[0]) if said is not None else None
        if said is None or kind is None:
            return None
        past = self.token_after(said.start() + len(said[0].rstrip()), at)
        if any(tok.kind == "stitch" for tok in self.toks[past : self.count]):
            return None
        start, end = said.start(), said.start() + len(said[0].rstrip())
        self.out.cues.append(CueClause(kind, start, end, leads=True))
        self.emit("CUE", len(self.out.cues) - 1, start, end)
        return past

    def dyed_behind(self, start: int, end: int) -> None:
        """The color of a course told behind its count: that is what it begins with."""
        self.out.cues.append(CueClause("colour", start, end, leads=True))
        self.emit("CUE", len(self.out.cues) - 1, start, end)

    def yarn_behind(self, at: int) -> int | None:
        """ "... (12) -> oat", "... (18), barley": a yarn and no more behind the count -> the token behind it.

        What an arrow points at is taken up for the next course; by itself it is the color of this one.
        """
        end = self.count
        while end > at and self.toks[end - 1].kind == "sign":
            end -= 1
        if not 0 < end - at <= _MOST_OF_A_YARN or any(self.kind(here) != "word" for here in range(at, end)):
            return None
        start, stop = self.toks[at].start, self.toks[end - 1].end
        name = self.low[start:stop]
        arrow = self.word(at - 1) in (">", "=")
        yarn = classify(name) in (None, "colour") and (self.names_yarn(name) or self.is_letter_colour(at))
        if arrow and (yarn or (end == at + 1 and len(name) >= _A_YARN and name not in _NO_YARN_BEHIND)):
            self.out.cues.append(CueClause("colour" if yarn else "other", start, stop))
            self.emit("CUE", len(self.out.cues) - 1, start, stop)
        elif yarn and not arrow and name.split()[-1] not in COLOURS:
            self.emit("COLOUR", self.body[start:stop], start, stop)
            self.dyed_behind(start, stop)
        else:
            return None
        return self.count

    def remark(self, at: int) -> int | None:
        """A sentence or clause without any stitch in it: an asking or an aside."""
        tok = self.toks[at]
        talk = TALK.match(self.low, tok.start) if self.out.counts and not self.depth else None
        if talk and not WORKS.search(talk[0]):
            kind = classify(talk[0])
            kind = beside_round(talk[0]) if kind in (None, "other") else kind
            if kind is not None:
                self.out.cues.append(CueClause(kind, *talk.span()))
                self.emit("CUE", len(self.out.cues) - 1, *talk.span())
            else:
                self.out.asides.append(talk.span())
            return self.token_after(talk.end(), at)
        amount = tok.text in _DONE and self.kind(at + 1) == "number"
        if amount and self.word(at + 2) in CLAUSE_ENDS:
            return None
        if tok.text in ("rep", "repeat", "repeating", "rpt", "blo", "flo", "bl", "fl", "rs", "ws"):
            return None
        if tok.text == "work" and self.word(at + 1) in ("from", "between") and self.word(at + 2) == "*":
            return None
        if tok.text in ("increasing", "decreasing", "double") and self.place(at + 1):
            return None
        often = at + (tok.text in ("and", "then"))
        if self.word(often) in TIMES_WORDS and self.place(often + 1):
            return None  # "sc once in each of 2, twice in the next"
        if self.loops(at) or self.place(at) or STARTING_IN.match(self.low, tok.start):
            return None
        if tok.text in ("and", "then", "now", "work", "make", "next") and self.stitchy(at):
            return None
        if self._works_one(often):
            return None
        here = at
        level = 0
        stitches = numbers = 0
        words = 0
        while here < self.count:
            t = self.toks[here]
            if t.kind == "sign":
                if t.text in "([{":
                    closing = self.close_of(here)
                    if closing is not None and self.is_count(here, closing) is not None:
                        break
                    level += 1
                elif t.text in ")]}":
                    level -= 1
                elif level <= 0 and (
                    (t.text in ".;!*" and not self._decimal(here))
                    or (t.text in ",:" and self.stitchy(here + 1))
                    or (here > at and (self._tells_count(here) or self._dash_to_work(here)))
                ):
                    break
            elif t.kind == "stitch" and t.key not in ("turn", "join"):
                stitches += 1
                if self.kind(here - 1) == "number" and here > at + 1:
                    stitches += 1  # "start with ... and 6 sc": work, whatever else it says
            elif t.kind == "number":
                if self.word(here + 1) in ("in", "into") and self.place(here + 1):
                    return None  # "then 2 in the next": work, though no stitch is named
                numbers += 1
            else:
                words += 1
            here += 1
        end = self.toks[here - 1].end if here > at else tok.end
        sentence = self.low[tok.start : end]
        if stitches == 0 and TERMS_TOLD.match(sentence):
            self.out.asides.append((tok.start, end))
            return here
        if self.lessens(sentence):
            self.out.unknown.append((tok.start, end))
            return here
        kind = classify(sentence)
        if kind is None and self.worked() and HOLDS_STITCH.match(sentence):
            self.out.unknown.append((tok.start, end))  # "..., with 3 white sts at the front"
            return here
        if kind in (None, "other") and not stitches and self.worked():
            kind = named_behind(sentence) or kind
        if kind in (None, "other") and numbers and not stitches and self.worked():
            kind = "colour" if kind is None and shades_by_round(sentence) else beside_round(sentence) or kind
        short = numbers and not stitches and words <= 1 and len(tok.text) > 1 and kind in (None, "other")
        works_on = any(t.kind == "stitch" for t in self.toks[here:])
        if short and works_on and not (self.out.counts or self.depth or self.times(at)):
            self.out.unknown.append((tok.start, end))  # "go 4, dec": it may be stitches
            return here
        if stitches == 0 or (stitches <= 1 and kind is not None and words >= 4 and kind not in ("other", "join")):
            if self.place_like(at, here):
                return None
            told = kind == "colour" and not self.depth and self.out.counts and not works_on
            yarn = _IN_YARN.fullmatch(sentence.strip(" -")) if told else None
            if yarn is not None or (told and is_colour(sentence)):
                first = self.low.index(yarn["name"], tok.start) if yarn is not None else tok.start
                stop = first + len(yarn["name"]) if yarn is not None else end
                self.emit("COLOUR", self.body[first:stop], tok.start, end)
                self.dyed_behind(tok.start, end)  # "... (12), black", "... (12) - in sea foam"
                return here
            within = self.within(sentence, kind)
            if within and kind is None and not (stitches or numbers or SHAPING.search(sentence)):
                kind = "other"  # what is not understood of a round and is done in it is shown with it
            if kind is not None and not (kind == "other" and numbers and _SHAPED.search(sentence)):
                self.out.cues.append(CueClause(kind, tok.start, end, leads=within))
                self.emit("CUE", len(self.out.cues) - 1, tok.start, end)
                if kind == "colour" and works_on and (leaves_colour(sentence) or new_colour(sentence)):
                    self.emit("COLOUR", new_colour(sentence) or "", tok.start, end)
                return here
            if SHAPING.search(sentence) or (numbers and _SHAPED.search(sentence)):
                self.out.unknown.append((tok.start, end))
                return here
            if not self.out.counts and (self.out.chunks or words <= _TERSE) and _GOES_INTO.search(sentence):
                self.out.unknown.append((tok.start, end))  # "and again in the next": work in words of its own
                return here
            behind_count = bool(words and self.out.counts) and not (numbers or self.depth) and self.only_talk(at)
            alone = not (self.out.chunks or self.out.counts or works_on)
            if alone and words >= 3 and not _ENGLISH.search(sentence):
                self.out.unknown.append((tok.start, end))  # "jede M verd (12)": all the work there is, in words unknown
                return here
            if self.out.counts and not self.depth and self._asks_several(tok.start, sentence):
                return here
            if self.out.chunks and not self.depth and NTH_SHADE.search(sentence):
                self.out.cues.append(CueClause("colour", tok.start, end))
                self.emit("CUE", len(self.out.cues) - 1, tok.start, end)
                return here
            if (words >= 3 and numbers == 0) or words >= 5 or behind_count:
                self.out.asides.append((tok.start, end))
                return here
        return None

    def _asks_several(self, start: int, sentence: str) -> bool:
        """ "Long tail, sew the belly on first, then fins": jobs in clauses, though the sentence as a whole is none."""
        told = [(kind, a, b) for kind, a, b in askings(sentence) if kind != "other"]
        for kind, a, b in told:
            self.out.cues.append(CueClause(kind, start + a, start + b))
            self.emit("CUE", len(self.out.cues) - 1, start + a, start + b)
        return bool(told)

    def only_talk(self, at: int) -> bool:
        """Does nothing at `at` say where, how often or in what colour?"""
        tok = self.toks[at]
        leads = tok.text in PREPOSITIONS or tok.text in ("for", "with", "using", "through", "twice", "each", "both")
        return not leads and self.times(at) is None and self.colour_name(at) is None

    def place_like(self, at: int, end: int) -> bool:
        return any(
            self.word(here) in ("around", "across", "blo", "flo") or self.word(here) in EACH
            for here in range(at, min(end, at + 4))
        )
