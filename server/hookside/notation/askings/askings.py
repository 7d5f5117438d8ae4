"""The askings of a sentence in their order: "Stuff firmly and close the hole" holds two."""

from __future__ import annotations

import re
from itertools import islice

from hookside.notation.askings.clauses import CLAUSE
from hookside.notation.askings.grammar import begins_with_act, ordered
from hookside.notation.askings.kinds import classify, ties_ends
from hookside.notation.askings.leads import SLIPS
from hookside.notation.askings.short import named_jobs
from hookside.notation.askings.stories import HERE_STUFFED, PAST, STORY
from hookside.notation.askings.swapped import swapped
from hookside.notation.askings.turned import TURNED
from hookside.notation.askings.when import when
from hookside.pattern import CueKind

_SPLIT = re.compile(
    r"(?:\s*[,;:]\s*(?:and then |then |and |before (?!(?:(?:you|we|i) (?:stuff|fill)|(?:stuff|fill|clos)ing)\b))?|"
    r"\s+(?:[+/]|-+)\s+|"
    r"\s+(?=leave (?:a |the |some |long )*(?:tail|yarn|thread|end)\b(?! (?:on|attached|uncut|whole)\b))|"
    r"(?<=off|f/o)\s+(?=(?:then )?(?:close|sew|stuff|weave)\b(?! (?:to|in) the back))|"
    r"(?<=fo)\s+(?=(?:close|sew|stuff)\b)|"
    r"(?<=yarn|wool)\s+(?=weave (?:it|the end|the tail) through\b)|"  # heard, and written without a stop
    r"\s+(?:and then|then|and|&|n|"
    r"before(?! (?:(?:stuff|clos|sew|fill|finish|fasten)ing|(?:you|we|i) (?:stuff|fill))\b))\s+)(?=[a-z])", re.I
)
# What belongs together in one breath: told "fasten off" alone she would cut before she hears of the tail.
_ONE_BREATH = {
    ("fasten", "tail"),
    ("hold", "tail"),
    ("tail", "fasten"),
    ("eyes", "tail"),
    ("hold", "fasten"),
    ("tail", "hold"),
    ("sew", "close"),
    ("close", "close"),
    ("sew", "shape"),
    ("pin", "shape"),
    ("embroider", "sew"),
    ("close", "sew"),
    ("marker", "turn"),
}


# "Change to grey, cut the rust": the yarn that is done with goes with the change
_OLD_YARN = re.compile(r"\W*(?:and |then )*(?:cut|break)(?: off)? (?:the )?[a-z]+(?: [a-z]+)?\W*$", re.I)
# "This is where the neck begins, so stuff the body": a reason, and what is asked for
_SO = re.compile(r"[^.;:]{3,90}?,\s+(?:and\s+)?so\s+(?:now\s+(?!is\b)|do\s+|please\s+|first\s+)*(?=[a-z])", re.I)
# "With silver, embroider hinges": what it is done with, and no yarn to go on in
_WITH_WHAT = re.compile(r"\W*(?:with|using|in) [^,;.]{1,30}$", re.I)


# However long a sentence is: seams that are looked at, and characters ahead of each
_MOST_SEAMS = 200
_AHEAD = 400


def askings(sentence: str) -> list[tuple[CueKind, int, int]]:
    """The askings of one sentence, in order: (kind, start, end). "Stuff firmly and close the hole" holds two.

    A clause that asks for nothing stays with the asking beside it, so that no word of the sentence is lost.
    """
    if named := named_jobs(sentence) or swapped(sentence):
        return named
    whole = job(sentence)
    low = " ".join(sentence.lower().split()).strip(" -*:,;.!()[]\"'")
    if whole is None and (STORY.match(low) or PAST.match(low)):
        return _reasoned(sentence)
    if whole == "stuff" and HERE_STUFFED.match(low):
        return [(whole, 0, len(sentence))]
    cuts = [0]
    for match in islice(_SPLIT.finditer(sentence), _MOST_SEAMS):
        rest = sentence[match.end() : match.end() + _AHEAD]
        end = _SPLIT.search(sentence, match.end())
        clause = sentence[match.end() : end.start()] if end else sentence[match.end() :]
        led = _WITH_WHAT.match(sentence, cuts[-1], match.start()) and job(clause) not in (None, "colour", "tail")
        led = led and job(sentence[cuts[-1] : match.start()]) in (None, "colour", "other")
        if _is_tail(clause) and job(sentence[cuts[-1] : match.start()][:_AHEAD]) not in ("stuff", "shape", "close"):
            continue  # "Sew on ears, legs and tail": a part, and no end of yarn
        slips = len(cuts) == 1 and match.start() < _AHEAD and _only_slips(sentence[: match.start()])
        if _asks(clause, rest, match[0]) and not led and not slips:
            cuts.append(match.end())
    parts: list[tuple[CueKind | None, int, int]] = []
    for start, end_at in zip(cuts, [*cuts[1:], len(sentence)], strict=True):
        parts.append((job(sentence[start : start + _without_seam(sentence[start:end_at])]), start, end_at))
    found: list[tuple[CueKind, int, int]] = []
    waiting: int | None = None  # where words without an asking of their own begin
    for kind, start, stop in parts:
        begin = start if waiting is None else waiting
        if kind is None:
            if found:
                found[-1] = (found[-1][0], found[-1][1], stop)
            else:
                waiting = begin
            continue
        waiting = None
        if found:
            before, first, ended = found[-1]
            if _other_round(before, sentence[first:ended], kind, sentence[start:stop]):
                found.append((kind, start, stop))
                continue
            old = before == "colour" and kind == "fasten" and _OLD_YARN.match(sentence, start, stop) is not None
            one = (before, kind) in _ONE_BREATH and not _goes_elsewhere(sentence[start:stop], kind)
            if kind == "close" and not _TIGHT.match(sentence, start, stop):
                one = one and not _goes_elsewhere(sentence[max(first, start - _AHEAD) : start], before)
            if before == kind or old or one or (kind == "other" and before != "other"):
                cut = one and before == "tail" and kind in ("fasten", "hold")  # "Leave a tail and cut"
                found[-1] = (kind if cut else before, first, stop)
                continue
            if before == "fasten" and kind not in ("tail", "hold") and _ONLY_STOPS.match(sentence, first, ended):
                found[-1] = (kind, first, stop)
                continue
            same = before == "shape" and kind == "sew" and _ONE_OF_THEM.match(sentence, start, stop)
            if before == "other" or (before == "shape" and kind == "close") or same:
                found[-1] = (kind, first, stop)
                continue
        found.append((kind, begin, stop))
    if whole == "eyes" and all(kind != "eyes" for kind, _, _ in found):  # "If you use safety eyes, insert them at R3"
        found = [("eyes" if _THEM.match(sentence, a, b) else kind, a, b) for kind, a, b in found]
    if not found and whole is not None:
        return [(whole, 0, len(sentence))]
    return [(kind, first, first + _without_seam(sentence[first:stop])) for kind, first, stop in found]


_THEM = re.compile(r"[^.;]{0,60}\b(?:attach|fix|put|place|insert|set|push|fit|add|pop|sew|glue)\w*\b(?: on| in)? "
                   r"(?:them|these|both)\b", re.I)
# "Stop here and insert the eyes.": the hands rest from the stitches, and no yarn is cut
_ONLY_STOPS = re.compile(
    r"\W*(?:now |then |and )*(?:stop|pause|halt) here\b(?: (?:for )?(?:now|an? \w+)\b)?"
    r"[ ,;:-]*(?:and|to|for)?[ ,]*$", re.I
)
_NOW = re.compile(r"\b(?:now|here|at this point)\b", re.I)  # "Stuff now and top up after R6"


def _other_round(before: CueKind, told: str, kind: CueKind, more: str) -> bool:
    """ "Stuff after round 12 and top up after round 13": each is due by itself, and so is each told by itself."""
    if "colour" in (before, kind):
        return False  # a change of color keeps the words of all its rounds: which of them ends it is known from all
    due, own = when(told, before), when(more, kind)
    if own and not due:
        return before == kind and _NOW.search(told) is not None
    return bool(own) and due[0] != own[0]


def _reasoned(sentence: str) -> list[tuple[CueKind, int, int]]:
    """What is asked for behind a reason; the reason stays with it."""
    so = _SO.match(sentence)
    rest = sentence[so.end() :] if so else ""
    if so is None or not _asks(rest, rest, ","):
        return []
    (kind, _, stop), *more = askings(rest) or [("other", 0, len(rest))]
    return [(kind, 0, so.end() + stop), *((k, so.end() + first, so.end() + last) for k, first, last in more)]


# "Press the ears flat and sew one to each side": alone it would not say one of what
_ONE_OF_THEM = re.compile(r"\W*(?:and |then )*(?:sew|stitch|attach) (?:one|each|the other) (?:on|to|at|in)", re.I)
_SEAM = re.compile(r"[\s,;:]*(?:\b(?:and then|then|and|n|(?<!as )(?<!like )before)|&|[+]|-+)?\s*$", re.I)


def _without_seam(text: str) -> int:
    """The length of an asking without the "and" that led on to the next one."""
    seam = _SEAM.search(text)
    return seam.start() if seam and seam.start() and text[seam.start() :].strip(" ,;:") else len(text)


# Beginnings of an asking between courses that within a course could be stitches
_MORE = re.compile(
    r"(?:and |then |now )*(?:tighten|contract|collect|tuck|hide|(?:draw|pull) (?:it |them )?up\b|"
    r"top(?:ping)? (?:(?:it|them|the [a-z]+) )?up\b|(?:finish|begin|start)(?:ing)? stuffing\b|"
    r"(?:the |a )?(?:long )?(?:tail|end|thread|strand|yarn) (?:to|for)\b|(?:a )?long (?:tail|end|thread|yarn|strand)\b|"
    r"fasten (?:securely|well|firmly)\b|work (?:away|in) (?:(?:the|your|all|both) )*(?:ends?|tails?|threads?)\b|"
    r"(?:the )?(?:opening|hole|gap)(?: is| to be)* (?:drawn|pulled|sewn|gathered)\b|"
    r"make (?:the )?eyes (?:with|in|of)\b|"
    r"cut\b|snip\b|cotton\b|wool in\b|knot\b|end off\b|lash\b|catch\b|yank\b|"
    r"(?:a |the )?(?:(?:little|tiny|small|last) )?(?:bit|little|pinch|touch) of (?:stuffing|filling)\b|"
    r"(?:ends?|tails?) in\b|(?:the )?(?:nose|mouth|eyes?|smile|face) embroider\b|"
    r"(?:roll|coil) (?:it|this|the [a-z]+) up\b|(?:a little |some |more )?(?:stuffing|filling) "
    r"(?:goes|comes|in)\b|keep (?:an?|the|it|this|your|one)\b|"
    r"whip\b|sewn\b|lay (?:(?:it|them|the [a-z]+) )?flat\b|block (?:it|them)\b|"
    r"tail(?: again| too| as well)?(?=\W*$|[,;]| and (?:sew|stuff))|"
    r"(?:ask|get) [^,;]{2,30}? help\b|"
    r"(?:do|work) (?:(?:the|his|her|its|their|both) )?(?:own )?(?:eyes?|nose|mouth|face|smile|cheeks)\b|"
    r"(?:the )?needle through\b|i (?:always|usually) pin\b|pins first\b|"
    r"col(?:ou?r)?\.? ?[1-9]\.?\s*$|eyes? in\b)"
)


# "..., in the second leg do not cut": of which copy, in front of the job
_OF_ONE = re.compile(
    r"^(?:but |and )?(?:on|in|for|with) (?:the )?(?:first|second|third|fourth|1st|2nd|3rd|4th|last|other) [a-z]+,? "
    r"(?=(?:we |you )?(?:cut|break|do not|don't|fasten|keep|leave)\b)"
)
_BY_WHOM = re.compile(r"^(?:and |then )*(?:we|you) (?:then |now |also )*(?=[a-z]+\b (?!(?:will|can|should|may|"
    r"need)\b))")
_THING_FIRST = re.compile(
    r"(?:(?:and|then|now|the|both|safety|\d{1,2} ?mm) )*(?:eyes?|nose|mouth|smile|stuffing|filling|fluff|"
    r"wadding|fib(?:re|er)fill)\b"
)
# "the eyes go in after round 7 and the filling after round 9": told by its thing and its round alone
_FILLED_AT = re.compile(
    r"[^\w\n]{0,6}(?:(?:and|then|but|all|the|his|her|its|last|of) ){0,4}"
    r"(?:stuffing|filling|fluff|wadding|fib(?:re|er)fill)"
    r"(?: (?:go(?:es)?|comes?|in|only|follows?)){0,3},? "
    r"(?:after|before|behind|at|from|once|when|between|(?:at|by) the end of) (?:the )?(?:end of )?"
    r"(?:rounds?|rnds?|rows?|r)\.? ?\d(?!.*\b(?:is|was|are|were|looks?)\b(?! (?:done|finished|over|complete|worked)))"
)
# "break the wool", "draw the last 7 together": verbs that between courses begin a job all the same
_SHUTS = re.compile(r"(?:and |then )*(?:break|draw|pull|tighten|snip)\b")
_SENTENCE = re.compile(r"[.;]")
_TIGHT = re.compile(r"\W*(?:and |then )*(?:pull|draw|tighten)\b", re.I)  # "sew a button to each side and pull tight"


def _asks(clause: str, rest: str, seam: str) -> bool:
    """Does a new asking begin here? Its first word is a verb that only an asking has, or the clause is an order."""
    low = rest.lower()
    low = _BY_WHOM.sub("", _OF_ONE.sub("", low, count=1), count=1)
    lead = CLAUSE.match(low) or _MORE.match(low) or TURNED.match(low)
    if lead is None or lead.end() == 0:
        begun = ":" not in seam and begins_with_act(low) and job(clause) not in (None, "other")
        shut = _SHUTS.match(low) is not None and job(clause) in ("close", "fasten")
        told = _SENTENCE.split(rest, maxsplit=1)[0]
        if _THING_FIRST.match(low) and job(clause) in ("eyes", "embroider", "stuff"):
            return True  # "stuff lightly, eyes R4"
        return begun or shut or (";" in seam and job(told) in ("embroider", "eyes", "sew"))  # "...; nose in black"
    kind = job(clause) or job(rest)
    if kind == "other" and job(rest) == "close":
        return True  # "weave it through and pull tight": shut by what follows
    return kind is not None and kind != "other"


_TAIL = re.compile(r"(?:(?:the |and )?same )?tail(?: (?:again|too|as well|(?:as|like) before))?")


def _is_tail(clause: str) -> bool:
    """ "Stuff bottom, tail", "stuff, tail again": the end of the yarn in a word."""
    return _TAIL.fullmatch(clause.strip(" .,;!").lower()) is not None


# "Leave a long tail (FO)", "leave 30 cm before fastening off", "... but do not cut": what becomes of the yarn as well
_CUTS_TOO = re.compile(
    r"(?P<not>(?:\bnot|n['\u2019]?t|\bnever|\bwithout) )?(?<!\bto )(?<!\bfor )(?<!\bbe )"
    r"\b(?:(?:fasten|finish|bind|cast|tie|end)(?:ing)? off\b(?! with)|f[./]?o\b|"
    r"cut(?:ting)?\b|snip\b|break off\b|break (?:the |your )?(?:yarn|thread|wool)\b)",
    re.I,
)


def job(clause: str) -> CueKind | None:
    """The kind of a clause by the table of rules or, where that has none for it, by its verb, thing and place."""
    kind = "tail" if _is_tail(clause) else classify(clause)
    if kind == "tail" and (cut := _CUTS_TOO.search(clause)) is not None:
        return "hold" if cut["not"] else "fasten"  # a tail is shown in passing, a cut holds the hands up
    if kind not in (None, "other") or (kind == "other" and ties_ends(clause)):
        return kind
    return ordered(clause) or ("stuff" if _FILLED_AT.match(clause.lower()) else kind)


# Sewn shut, or sewn to something: "draw closed and tack to the nose"
_ELSEWHERE = re.compile(r"\b(?:together|to|onto|on|over|under|behind|along|between|around|round|at|beside|"
    r"in place)\b", re.I)


def _goes_elsewhere(clause: str, kind: CueKind) -> bool:
    """Does what is sewn in the second half of a breath go to a place of its own?"""
    return kind == "sew" and bool(_ELSEWHERE.search(clause))


def _only_slips(text: str) -> bool:
    slips = SLIPS.match(" ".join(text.lower().split()) + ", fasten")
    return slips is not None and slips.end() == len(slips.string) - len("fasten")
