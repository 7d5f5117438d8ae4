"""Fourth stage, second half: words gathered into the phrases the grammar knows.

"in each of the next 3 sts" is one phrase, PLACE; "rep from * to last 2 sts" is one, REPFROM. What a phrase is
can depend on where it stands (a number before its stitch or after it), which keeps the grammar itself LALR(1).
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from hookside.notation.askings.kinds import classify
from hookside.notation.askings.lastpull import last_pull_at
from hookside.notation.bodies.chunks import Chunk, CueClause, Phrases, Place, Times
from hookside.notation.bodies.corners import bracketed
from hookside.notation.bodies.into import worked_into
from hookside.notation.bodies.orders import orders
from hookside.notation.bodies.plain import plain
from hookside.notation.bodies.plussed import tied
from hookside.notation.bodies.qualified import unwrapped
from hookside.notation.bodies.repeats import DOES
from hookside.notation.bodies.tokens import Dictionary
from hookside.notation.bodies.wording.places import ELSEWHERE, LAYERS
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, SPELT_ALL, SPELT_OUT, SPELT_TIMES
from hookside.notation.bodies.wording.tails import Tail, tail
from hookside.notation.bodies.words import Words
from hookside.notation.page.told.sentences import figured
from hookside.notation.vocabulary import NUMBER_WORDS, TENS, number_of

# "<2 sc, inc> x 6", "6x <2 sc, inc>": no count, which begins with its number and names no second stitch
_ANGLED_REPEAT = re.compile(
    r"<(?!\s*(?:=|total:?)?\s*\d{1,4}\s*(?:[a-z]+\.?)?(?: total)?\s*>)([^<>\n]*[a-z][^<>]*)>"
    r"(?=\s*(?:-? ?\d{1,2} ?(?:x|times)\b|[x*] ?\d|(?:two|three|four|five|six|seven|eight|nine|ten) times|twice|around|"
    r"across|to |until |rep))|(?<=\dx )<([^<>\n]*[a-z][^<>]*)>|(?<=\d x )<([^<>\n]*[a-z][^<>]*)>",
    re.I,
)
# "3 sc finishing the last st in black": a clause without a comma before it
_TIPS = frozenset(["finishing", "ending", "completing", "closing", "pulling", "drawing", "changing", "switching"])
_SENTENCE = re.compile(r"[.!?](?=\s)")
_WORKED = frozenset(["ST", "REPFROM", "REPALL", "CLOSE", "BARE"])


# What a job told with no stop behind stitches begins with
_BEHIND_WORK = frozenset(
    ["with", "while", "and", "mark", "marking", "marker", "markers", "place", "placing", "put", "putting", "hang",
     "hanging", "clip", "clipping", "add", "adding", "attach", "attaching", "leave", "leaving", "insert", "inserting"]
)  # fmt: skip
# ... and a color for some of the stitches
_PARTS = frozenset(
    ["the", "last", "first", "final", "middle", "centre", "center", "st", "sts", "stitch", "stitches", "half", "second",
     "other", "some", "a", "several", "with", "and", "but", "work", "working", "make", "making", "in", "using",
     "change", "changing", "switch", "switching", "swap", "swapping", "use"]
)  # fmt: skip
_DRAWS = frozenset(["insert", "inserting", "put", "pull", "draw"])


class Gatherer(Words):
    """Walks the tokens of one body once, from left to right."""

    def walk(self) -> Phrases:
        at = 0
        while at < self.count:
            at = max(self.step(at), at + 1)
        return self.out

    def drawn_up(self, at: int) -> int | None:
        """A decrease told in moves of the hook, loop by loop."""
        start = self.toks[at].start
        loops = SPELT_OUT.match(self.low, start)
        sts = SPELT_ALL.match(self.low, start) or SPELT_TIMES.match(self.low, start)
        told = sts or loops
        if told is None:
            return None
        many = 2 if told["n"] == "twice" else number_of(told["n"]) - (sts is None)
        self.emit("ST", {2: "dec", 3: "sc3tog"}[many], *told.span())
        return self.token_after(told.end(), at)

    def step(self, at: int) -> int:
        """Takes the phrase that starts at token `at`; returns the token behind it."""
        tok = self.toks[at]
        if tok.kind == "sign":
            dyed = self.dyed_part(at) if tok.text in ("(", "[") else None
            if dyed is not None:
                return dyed
            drawn = self.drawn_up(at) if tok.text in ("(", "[", "*") and " hook " in self.low else None
            if drawn is not None:
                return drawn
            dots = self.trailing(at) if tok.text == "." and self.word(at + 2) == "." else None
            return dots if dots is not None else self.sign(at)
        if at == 0 and tok.text in ("row", "round", "rnd") and self.word(1) == ":":
            return 2  # "R11 row: 12, ch 1, turn": which of the two it is
        if at == 0 and tok.text == "to" and self.word(1) in ("begin", "start") and self.word(2) in (",", ":"):
            return 3  # "To begin, ch 5 and join"
        if behind := self.explains(at):
            return behind
        past = self.with_job(at) if tok.text in _BEHIND_WORK else None
        if past is not None:
            return past
        past = self.dyed_part(at) if tok.text in _PARTS or tok.kind in ("ordinal", "number") else None
        past = past or (self.rest_dyed(at) if tok.text in ("the", "last") else None)
        if past is not None:
            return past
        past = self.with_part(at) if tok.text in ("joining", "join") and self.last_type() in ("ST", "NA") else None
        if past is not None:
            return past
        clause = self.at_clause_start()
        if clause and tok.text in self.names.glued and (past := self.in_letters(at)) is not None:
            return past
        drawn = self.drawn_up(at) if tok.text in _DRAWS else None
        if drawn is not None:
            return drawn
        past = self.shaped_ends(at)
        past = past if past is not None or tok.text not in DOES else self.does_again(at)
        past = past if past is not None else self.by_wording(at)
        if past is None and clause:
            past = self.clause_start(at)
        elif past is None and tok.text in _TIPS and (tip := last_pull_at(self.low, tok.start)) is not None:
            past = self.changes_at_tip(at, tip)
        if past is not None:
            return past
        if clause and self.only_leads(at):
            return at + 1
        if tok.text in ("rep", "repeat", "repeating", "reps", "rpt") or (
            tok.text == "work" and self.word(at + 1) in ("from", "between") and self.word(at + 2) == "*"
        ) or (tok.text == "from" and self.word(at + 1) == "*" and self.open_star):  # "from * to end", without a verb
            if clause and self.word(at + 1) in ("(", "[", "{") and self.repeat_phrase(at) is None:
                return at + 1  # "repeat (sc, inc) six times"
            if self.repeats_what_follows(at):
                return at + 1
            return self.repeat(at)
        if tok.kind == "stitch":
            return self.written(at) if tok.key in self.names.written else self.stitch(at)
        if clause and tok.kind == "ordinal" and tok.value == 1 and self._stitch_at(at + 1) and self.place(at + 2):
            return at + 1  # "1st sc in 2nd ch from hook"
        past = self.in_loops(at, clause)
        if past is not None:
            return past
        if (
            tok.text in ("for", "over")
            and self.last_type() == "ST"
            and self.kind(at + 1) == "number"
            and self.word(at + 2) in CLAUSE_ENDS
        ):
            told = self.toks[at + 1]
            self.emit("NA", (told.value, told.start, told.end), told.start, told.end)
            return at + 2
        if tok.kind == "number":
            return self.number(at)
        return self.words(at, clause)

    def explains(self, at: int) -> int:
        """ "... 4 times (14). Bobble = 5 dc tog in one st": what a stitch of the round is, behind its count; 0: no."""
        tok = self.toks[at]
        if tok.kind != "stitch" or self.word(at + 1) != "=" or self.word(at - 1) != "." or not self.out.counts:
            return 0
        stop = next((i for i in range(at, self.count) if self.word(i) == "."), self.count)
        self.out.asides.append((tok.start, self.toks[stop - 1].end))
        return stop

    def in_letters(self, at: int) -> int | None:
        """ "A5": an amount of plain stitches in colour A; "A inc": what is behind it, in that colour."""
        tok = self.toks[at]
        name = self.body[tok.start : tok.end]
        number = self.kind(at + 1) == "number"
        if not name.isupper() or (number and self.toks[at + 1].start != tok.end):
            return None
        if number and not self._stitch_at(at + 2):
            told = self.toks[at + 1]
            self.emit("NB", (told.value, told.start, told.end), told.start, told.end)
            self.emit("ST", "sc", tok.start, told.end)
            self.emit("COLOURPOST", name, tok.start, tok.end)
            return at + 2
        if number or self._stitch_at(at + 1):
            self.emit("COLOUR", name, tok.start, tok.end)
            return at + 1
        return None

    def written(self, at: int) -> int:
        """ "corner in each ch-2 sp": the list that the text writes out for it, in the place told here or there."""
        joined = self.joined(at)
        if joined is not None:
            return joined
        tok = self.toks[at]
        span = tok.start, tok.end
        plain = Dictionary(self.names.terms)
        told = [Chunk(c.type, _moved(c.value, span), *span) for c in gather(self.names.written[tok.key], plain).chunks]
        if self.names.written[tok.key].endswith("turn"):  # "T = ch 1, turn": it goes into no stitch
            self.out.chunks.extend(told)
            return at + 1
        place = told.pop() if told and told[-1].type == "PLACE" else Chunk("PLACE", Place("one"), *span)
        n = self.out.chunks.pop().value[0] if self.last_type() == "NB" else 0
        past = at + 1
        if not n and self.kind(past) == "number" and not self.is_noun(past + 1) and self.kind(past + 1) != "stitch":
            n, past = self.toks[past].value, past + 1
        if n:
            self.emit("OPEN", "(", *span)
        self.out.chunks.extend(told)
        here = self.place(past)
        many = here is not None and here[0].kind == "next" and here[0].n > 1
        if here is None or n:
            if place.value.kind == "same":
                place.value = Place("one")
            if here is not None and n and not many:
                place.value, past = here
            self.out.chunks.append(place)
        if n:
            self.emit("CLOSE", ")", *span)
            self.emit("TIMES", Times(n), *span)
        self.number_first = None
        return past


def _moved(value: Any, span: tuple[int, int]) -> Any:
    """What a phrase of another text says, as if it were printed at `span`."""
    if isinstance(value, Place):
        return replace(value, start=span[0], end=span[1], number=None)
    return (value[0], *span) if isinstance(value, tuple) and len(value) == 3 else value


_NOUN_ENDS = re.compile(r"(?: stitches)?[ .!]{0,30}$")  # ", for twenty-one stitches."
_NUMBERS_END = frozenset(word[-3:] for word in (*NUMBER_WORDS, *TENS))
_YOU_HAVE = re.compile(r"\byou (?:now |should |will |still )*have [a-z]", re.I)  # "You should have six. Cut the yarn."


def gather(body: str, names: Dictionary) -> Phrases:
    """Phrases of a body; linear in its length but for brackets, whose ends are looked up."""
    body = unwrapped(body)
    if "<" in body:
        body = _ANGLED_REPEAT.sub(lambda angled: f"({angled[0][1:-1]})", body)
    out = _read(body, names)
    _keep_orders(out, body)
    return out


def _keep_orders(out: Phrases, body: str) -> None:
    """ "sc around (put the beans in)": what is ordered in words that are passed over is asked behind the round."""
    for start, end in out.asides:
        words = body[start:end]
        if orders(words) and not any(cue.start < end and start < cue.end for cue in out.cues):
            inner = words.strip(" ()[]{}*.,;-")
            begin = start + words.index(inner)
            out.cues.append(CueClause(classify(inner) or "other", begin, begin + len(inner)))


def _read(body: str, names: Dictionary) -> Phrases:
    """Phrases of a body by the shortest way that leads to them."""
    out = plain(body, names) or before_count(body, names)
    ends_in_word = _NOUN_ENDS.sub("", body)[-3:].lower() in _NUMBERS_END
    if out is None and (ends_in_word or (" have " in body and _YOU_HAVE.search(body) is not None)):
        body = figured(body)
        out = before_count(body, names)
    if out is None:
        out = gathered(body, names)
        if len(out.counts) > 1 and _bare_count(body, out, out.counts[-1][0]):
            at = max(body.rfind(sign, 0, out.counts[-1][1]) for sign in "([{,")
            again = gathered(body[:at], names, counted=True) if at > out.counts[0][2] else out
            if not again.counts and not again.unknown:
                again.counts.append(out.counts[-1])
                return again
    _count_again(out)
    return out


def _count_again(out: Phrases) -> None:
    """ "(3, dec) x 6, 24 (24)": a last bare number that is the count, told twice; no work could be left beside it."""
    if not out.counts or [c.type for c in out.chunks[-2:]] != ["SEP", "BARE"]:
        return
    if out.chunks[-1].value[0] == out.counts[-1][0] and any(c.type in _WORKED for c in out.chunks[:-2]):
        del out.chunks[-2:]


def _only_told(out: Phrases) -> None:
    """ "Wobble along the crust as you like. (30)": words without a stitch in them and a bracket with a number is no
    round of 30 plain ones: the bracket is the count, and the words are the work that cannot be read."""
    worked = [c for c in out.chunks if c.type not in ("SEP", "CUE")]
    if out.counts or [c.type for c in worked] not in (["OPEN", "BARE", "CLOSE"], ["OPEN", "NB", "CLOSE"]):
        return
    told = [span for span in out.asides if span[1] <= worked[0].start]
    if told:
        out.counts.append(worked[1].value)
        out.unknown += told
        out.asides = [span for span in out.asides if span not in told]
        out.chunks = [c for c in out.chunks if c not in worked]


def _bare_count(body: str, out: Phrases, whole: int) -> bool:
    """ "inc x6, 12 (24)": is the first of two counts a number without a noun, and too small? Then it is work."""
    n, _, end = out.counts[0]
    return n < whole and re.match(r"\s*(?:[(\[{,]|$)", body[end:]) is not None


def before_count(body: str, names: Dictionary) -> Phrases | None:
    """Phrases of a body that ends in a count which is nothing else; None where it does not, or has another."""
    told = tail(body)
    if told is None:
        return _before_asking(body, names)
    worked = body[: told.at]
    out = plain(worked, names) or gathered(worked, names)
    times = any(c.type == "TIMES" for c in out.chunks)
    if out.counts and out.counts[0][0] != told.n and (not times or _bare_count(worked, out, told.n)):
        out = gathered(worked, names, counted=True)  # "dec; 16 sc. You should now have 17": 16 are work
    if out.counts or out.unclosed or not any(c.type in _WORKED for c in out.chunks):
        return None
    out.counts.append((told.n, told.start, told.end))
    return out


def _talk_behind(out: Phrases, low: str) -> None:
    """ "...; leave a tail. Hope it helps! Lg, K.": sentences behind an asking that hold no work are only talk."""
    works = max((c.end for c in out.chunks if c.type not in ("CUE", "SEP")), default=0)
    asked = min((c.end for c in out.cues if c.start >= works), default=len(low))
    ends = _SENTENCE.search(low, asked)
    if ends is not None:
        out.asides.extend(span for span in out.unknown if span[0] >= ends.end())
        out.unknown = [span for span in out.unknown if span[0] < ends.end()]


_ASKS_BEHIND = re.compile(
    r"(?:(?:sl ?st|ss|slip stitch)\b[^.]{0,24},? (?:and )?)?"
    r"(?:fasten|finish|f\.?o\b|cut|break|stuff|begin|start|add|fill|insert|place|put|attach|change|switch|join|continue|"
    r"tie|end off|bind)",
    re.I,
)
_BEHIND_COUNT = re.compile(r"[.!)\]}>](?P<gap>\s+)(?=[A-Z])")


_ALONE = re.compile(r"(?<=[.)\]}*])\s+(?P<n>\d{1,4})\.\s+$")


def _alone(body: str, end: int) -> Tail | None:
    """ "... 6 times. 18. Fasten off.": a number that is a sentence by itself, and what asks behind it."""
    match = _ALONE.search(body, max(0, end - 12), end)
    if match is None or not _ASKS_BEHIND.match(body, end):
        return None
    return Tail(int(match["n"]), *match.span("n"), match.start())


def _before_asking(body: str, names: Dictionary) -> Phrases | None:
    """Phrases of a body whose count is followed by what asks the hands: "sc around <24 sc>. Fasten off." """
    for seam in _BEHIND_COUNT.finditer(body):
        told = tail(body[: seam.end("gap")]) or _alone(body, seam.end("gap"))
        if told is None:
            continue
        out = gathered(f"{body[: told.at]}.".ljust(seam.end()) + body[seam.end() :], names)
        worked = [c for c in out.chunks if c.type in _WORKED and (c.end <= told.at or c.value != "sl st")]
        if out.counts or out.unclosed or out.unknown or not worked or worked[-1].end > told.at:
            return None
        out.counts.append((told.n, told.start, told.end))
        return out
    return None


def gathered(body: str, names: Dictionary, counted: bool = False) -> Phrases:
    """Phrases of a body that may be anything, word by word; `counted`: its count is told elsewhere."""
    found = Gatherer(body, names)
    found.told = counted
    out = found.walk()
    missed = found.unlisted()
    if missed is not None:
        out.unknown.append(missed)
    if ELSEWHERE.search(found.low):
        out.elsewhere = True
    if LAYERS.search(found.low) and not out.over_part:
        out.layers = True
    if out.unknown and out.cues:
        _talk_behind(out, found.low)
    _only_told(out)
    out.chunks = bracketed(tied(out.chunks))
    out.into_spaces = worked_into(out.chunks)
    while out.chunks and out.chunks[-1].type == "SEP":
        out.chunks.pop()
    if found.all_times is not None:
        out.chunks.append(Chunk("CLOSE", ")", len(body), len(body)))
        out.chunks.append(Chunk("TIMES", found.all_times, len(body), len(body)))
    told = {c.type for c in out.chunks}
    filled = any(c.type == "PLACE" and c.value.kind == "fill" for c in out.chunks)
    if found.alternates and not filled and not told & {"REPALL", "REPFROM", "TIMES"}:
        out.chunks.append(Chunk("REPALL", Times(fill=True), len(body), len(body)))
    out.unclosed = bool(found.depth)
    for _ in found.depth:
        out.chunks.append(Chunk("CLOSE", ")", len(body), len(body)))
    _ones_and_twos(out)
    return out


def _ones_and_twos(out: Phrases) -> None:
    """ "1, 2, 1, 2 around": nobody tells plain stitches in ones and twos, so each number goes into one stitch."""
    worked = [c for c in out.chunks if c.type not in _AROUND_LISTS]
    listed, goes = worked[:-1], worked[-1:]
    numbers = [c.value[0] for c in listed if c.type == "BARE"]
    if len(numbers) < len(listed) or set(numbers) != {1, _IN_ONE} or out.unknown or goes[0].type not in _GOES_ROUND:
        return
    for c in listed:
        if c.value[0] == _IN_ONE:
            c.type, c.value = "ST", "inc"
    out.ones_and_twos = True
    half = len(numbers) // 2
    if numbers == numbers[:half] * 2 and len(out.chunks) == 2 * len(listed) and len(numbers) > 2:
        del out.chunks[: 2 * half]  # "1, 2, 1, 2": told twice over, so that it is seen how it goes on


_AROUND_LISTS = frozenset(["SEP", "OPEN", "CLOSE", "STARO", "STARC"])
_GOES_ROUND = frozenset(["PLACE", "TIMES", "REPALL", "REPFROM"])
_IN_ONE = 2  # stitches in one, told by their number alone
