"""What a clause orders by its verb, the thing and the place: "The ears to the head sew", "Stitch on at round 5".

Where the table of rules has no line for a sentence, its words are looked at in whichever order they stand, as other
tongues and people in haste put them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.placed import PLACED
from hookside.notation.askings.rules import HANDS, PAINT
from hookside.notation.askings.stories import NOTHING, STORY
from hookside.notation.lines.heads.parts import PARTS
from hookside.notation.vocabulary import REMEMBERED
from hookside.pattern import CueKind

Act = Literal["sew", "fix", "fill", "shut", "cut", "hide", "make"]
Thing = Literal["eyes", "filling", "hole", "feature", "part", "thread", "it"]

# The verbs of a job, as they order ("sew"), go on ("sewing") and as they are told ("is sewn")
_ACTS: dict[Act, tuple[str, ...]] = {
    "sew": (
        "sew", "sewing", "sewn", "sewed", "stitch", "stitched", "stitching", "oversew", "oversewn", "overcast", "tack",
        "tacked", "whipstitch", "whipstitched", "seam", "handsew", "whip",
    ),
    "fix": (
        "attach", "attached", "attaching", "fix", "fixed", "fixing", "mount", "mounted", "fasten", "fastened", "secure",
        "secured", "glue", "glued", "position", "positioned", "place", "placed", "put", "set", "add", "added", "join",
        "joined", "connect", "connected", "tie", "tied", "apply", "applied", "insert", "inserted", "pop", "snap",
        "click", "press", "push", "pushed", "fit", "fitted", "hang", "hung", "assemble", "install",
    ),
    "fill": ("stuff", "stuffed", "fill", "filled", "pad", "padded", "plump", "fluff", "refill", "pack", "cram", "bulk",
             "wad", "fiberfill", "fibrefill", "polyfill"),
    "shut": ("close", "closed", "closing", "shut", "gather", "gathered", "cinch", "draw", "drawn", "pull", "pulled",
             "contract", "tighten", "tightened"),
    "cut": ("cut", "snip", "trim", "break", "clip", "sever"),
    "hide": ("hide", "hidden", "bury", "buried", "weave", "woven", "darn", "darned", "conceal", "lose", "tuck"),
    "make": ("embroider", "embroidered", "embroidering", "make", "give", "draw", "work", "worked", "sculpt", "form"),
}  # fmt: skip
_ACT_OF: dict[str, Act] = {word: act for act, words in _ACTS.items() for word in words}
# Told, not ordered: counts as a verb only behind "is", "are", "gets", or where nothing else stands before it
_TOLD = frozenset(
    [
        "sewn", "sewed", "stitched", "oversewn", "tacked", "whipstitched", "attached", "fixed", "mounted", "fastened",
        "secured", "glued", "positioned", "placed", "added", "joined", "connected", "tied", "applied", "inserted",
        "pushed", "fitted", "hung", "stuffed", "filled", "padded", "closed", "gathered", "drawn", "pulled",
        "tightened", "hidden", "buried", "woven", "darned", "embroidered", "worked",
    ]
)  # fmt: skip
_FEATURES = frozenset(
    [
        "mouth", "smile", "grin", "nose", "nostril", "nostrils", "whisker", "whiskers", "eyebrow", "eyebrows", "brow",
        "brows", "eyelash", "eyelashes", "lash", "lashes", "freckle", "freckles", "face", "teeth", "tooth", "pupil",
        "pupils", "cheek", "cheeks", "eyelid", "eyelids", "claws", "toes", "lips",
    ]
)  # fmt: skip
_FILLING = frozenset(
    [
        "filling", "stuffing", "wadding", "fibrefill", "fiberfill", "polyfill", "hollowfibre", "fluff", "batting",
        "fibre", "fiber", "padding", "filler",
    ]
)  # fmt: skip
_THREADS = frozenset(["tails", "end", "ends", "thread", "threads", "yarn", "strand", "strands", "tail"])
_NO_PART = frozenset(["light", "main", "upper", "lower", "tie", "point", "drop", "loop", "edge", "side", "sides"])
_IT = frozenset(["it", "them", "these", "both", "all", "everything", "each", "this", "one", "pieces", "parts", "piece"])
_PLACE = re.compile(
    r"\b(?:to|onto|on|over|under|underneath|beneath|behind|along|between|around|round|at|in|inside|into|above|below|"
    r"beside|either side of|across|against|near|opposite|just)\b"
)
_ROUND = re.compile(r"\b(?:r|rd|rnds?|rounds?|rows?)\.? ?\d|\b\d{1,3} ?(?:/|-|and) ?\d{1,3}\b")
_LEAD = re.compile(
    r"(?:(?:and|then|now|next|so|finally|lastly|here|also|first|afterwards|please|you may|you can|only|lightly|firmly|"
    r"carefully|it'?s|time to|time for)\b[\s,]*)+"
)
# "Use the tail to sew the horn on", "using the ends, fix the feet": what it is done with is not what is done
_WITH = re.compile(
    r"(?:(?:use|take) [^,.;]{2,40}?(?: and| to)\s+|(?:using|with) [^,.;]{2,40}?(?:,\s*| (?=(?:sew|stitch|attach|fix|"
    r"close|embroider|make)\b)))"
)
# A teller, another time, a thing that only might be: no order
_STORY = re.compile(
    r"\b(?:i|i'm|i've|i'll|we|we'll|he|she|they|my|mine|our|me|us|if|when|while|because|will|would|could|might|maybe|"
    r"perhaps|later|end up|love\w*|liked?|likes|look|looks|looked|cute|funny|enjoy\w*|photo\w*|picture\w*|video|"
    r"page|was|were|had|has|have|made|took|can't|cannot|never|not|no|don't|didn't|isn't|aren't|without|or|how|why|"
    r"what|which|who|instead|easy|easily|hard|fun|nice|takes|pattern|comment|again later|should)\b|[?]"
)
_THREE_LINES = re.compile(r"\b(?:lines?|stripes?|knots?|stitch(?:es)?|dots?|hearts?|v|x|cross(?:es)?|spots?)\b")
# "Two short stitches each in black": what is embroidered, with no word of where
_LINES_FIRST = re.compile(
    r"(?:a|an|one|two|three|four|some|a few|short|long|small|little|tiny|straight|[ ])+"
    r"(?:lines?|stitch(?:es)?|knots?|dots?|hearts?|cross(?:es)?)\b"
)
_INTO = re.compile(r"(?:in|inside|into)\b")
_BRUSHES = re.compile(r"\bfluff\b.*\b(?:brush|comb|fingers?)|\bfluff (?:it |them |the [a-z]+ )?(?:up|out)\b")
_ATTACHES = re.compile(r"(?:attach|fix|secure|glue|tack|mount|apply)\b")
_OUT = re.compile(r"\b(?:push|pop|press|turn)\w*\b[^.]{0,30}\bout\b")  # "push them out to the right side"
_AWAY = re.compile(r"\b(?:inside|in|away)\b[^.]{0,12}$")
_LONGEST = 24  # words


@dataclass(frozen=True)
class Clause:
    """A clause by its parts: what is done, with what, where."""

    acts: frozenset[Act]
    things: tuple[Thing, ...]  # in the part before the place
    place: str  # from its preposition on; "" where none is told
    before: str  # what stands before the place


def _thing(word: str) -> Thing | None:
    if word in ("eye", "eyes", "washer", "washers"):
        return "eyes"
    if word in _FILLING:
        return "filling"
    if word in ("opening", "hole", "gap", "slit"):
        return "hole"
    if word in _FEATURES:
        return "feature"
    if word in _THREADS and word != "tail":
        return "thread"
    if word not in _NO_PART and (word in PARTS or (word.endswith("s") and word[:-1] in PARTS)):
        return "part"
    return "it" if word in _IT else None


def _parsed(clause: str) -> Clause:
    """A clause by its parts. "Sew on", "set in": the little word belongs to the verb, the place comes behind it."""
    place = _PLACE.search(clause)
    if place is not None and len(clause[: place.start()].split()) <= 1:
        place = _PLACE.search(clause, place.end()) or place
    before, rest = (clause[: place.start()], clause[place.start() :]) if place else (clause, "")
    words = re.findall(r"[a-z']+", _BREATH.split(clause, maxsplit=1)[0])
    verbs = [w for at, w in enumerate(words) if w in _ACT_OF and _is_verb(words, at)]
    named = [w for w in re.findall(r"[a-z']+", _BREATH.split(before, maxsplit=1)[0]) if w not in verbs]
    things = tuple(t for w in named if (t := _thing(w)) is not None)
    return Clause(frozenset(_ACT_OF[w] for w in verbs), things, rest, before)


# Verbs that name no thing, wherever they stand: "Arms and legs sew to the body"
_PLAIN_VERBS = frozenset(["sew", "attach", "embroider", "oversew", "insert", "stuff", "fill", "hide", "weave"])
_BEFORE_NOUN = frozenset(
    [
        "the", "a", "an", "each", "every", "of", "first", "last", "next", "same", "this", "that", "one", "slip", "new",
        "to",
    ]
)  # fmt: skip


def _is_verb(words: list[str], at: int) -> bool:
    """Does the word at a place order, or is it told of what is done to a thing?"""
    word = words[at]
    if word in _TOLD:
        return at == 0 or at == len(words) - 1 or bool({"is", "are", "gets", "get", "be"} & set(words[:at]))
    if at == 0 or (at == len(words) - 1 and words[at - 1] not in _BEFORE_NOUN):
        return True
    if words[at - 1] in ("and", "then", "now", "on", "together", "by"):
        return True
    if word in _PLAIN_VERBS and at > len(words) - 7 and words[at - 1] not in _BEFORE_NOUN:
        return True
    return at > len(words) - 4 and words[at - 1] not in _BEFORE_NOUN


@lru_cache(REMEMBERED)
def ordered(sentence: str) -> CueKind | None:
    """The job that a clause orders by its verb, its thing and its place; None where it tells a story or is no order."""
    low = " ".join(sentence.lower().replace("\u2019", "'").split()).strip(_MARKS)
    if _FORBIDS.search(low) or _PAINTED.search(low):
        return None
    for _ in range(3):
        lead = _LEAD.match(low) or _WITH.match(low)
        if lead is None or lead.end() >= len(low):
            break
        low = low[lead.end() :]
    if low == "eyes" and "!" in sentence:
        return "eyes"
    if _TWO_COLOURS.match(low) and sum(is_colour(w) for w in re.findall(r"[a-z]+", low)) > 1:
        return "colour"
    if STORY.match(low) or NOTHING.match(low) or _LEAVING.match(low):
        return None
    if _STORY.search(low):  # "Lightly stuffed only, the fin should stay floppy"
        low = _SEAM.split(low, maxsplit=1)[0].strip(_MARKS)
        if _STORY.search(low):
            return None
    if not low or len(low.split()) > _LONGEST:
        return None
    topic = re.match(r"(?P<what>[a-z]{3,14}): +(?=[a-z])", low)
    if topic and _thing(topic["what"]) not in ("feature", "part", "eyes"):
        low = low[topic.end() :]
    if PLACED.match(low):
        return "sew"
    low = _IN_TIME.sub("", low)
    return _of(_parsed(low), low)


_SOME_OF = re.compile(r"\b(?:pieces?|lengths?|bits?|strips?|strands?) of\b|\blash thread\b")
# "Insert magnets before stuffing": by when, and nothing that is stuffed
_IN_TIME = re.compile(r"(?<=[a-z]) (?:before|after) (?:you )?(?:stuff|fill|clos|sewing up)\w*\b.*")
_BREATH = re.compile(r"[,;:(]")
_MARKS = " -*:,;.!()[]\"'"
_PAINTED = re.compile(PAINT)  # "Make cheeks with blush": nothing is sewn
_FORBIDS = re.compile(r"n' ?t\b|\b(?:dont|isnt|arent|wont|do not|not|no|never|without)\b")
# "Alternate two rounds blue, two rounds white"
_TWO_COLOURS = re.compile(r"(?:alternat|chang|strip)\w*\b")
_LEAVING = re.compile(r"leav(?:e|ing)\b|keep(?:ing)?\b")
_SEAM = re.compile(r"[,;:(]|\b(?:so|because|or|but|if|when|as|until)\b")
# "Beak between the eyes.", "ears on top of head, R3-R7"
_LIES = re.compile(
    r"(?:(?:the|a|one|two|both|each|left|right|small|little|his|her|its) )*(?P<what>[a-z]{3,12}) "
    r"(?P<place>(?:on|onto|to|at|between|under|below|above|over|behind|along|beside|across)\b [a-z0-9 ,/-]{2,50})$"
)


def _lies(low: str) -> bool:
    """Is a clause nothing but a part and its place on another part, or at a round?"""
    match = _LIES.match(low)
    if match is None or _thing(match["what"]) != "part" or re.search(r"\b(?:is|are|hook|needle)\b", low):
        return False
    return bool(_ROUND.search(match["place"])) or any(
        _thing(w) in ("part", "eyes") for w in re.findall(r"[a-z]+", match["place"])
    )


def _of(clause: Clause, low: str) -> CueKind | None:
    acts, things = clause.acts, clause.things
    first = things[0] if things else None
    at_round = bool(_ROUND.search(low))
    if "fill" in acts and not _BRUSHES.search(low):
        return "stuff"
    if first == "filling":
        led = low.split()[0] in ("more", "some", "very", "light")
        return "stuff" if (acts and "cut" not in acts) or _AWAY.search(low) or led else None
    if first == "eyes" or "safety nose" in clause.before:
        if "sew" in acts or "make" in acts or "embroider" in low:
            return "embroider"
        return "eyes" if "fix" in acts or at_round else None
    if "hole" in things and acts & {"sew", "shut"}:
        return "close"
    if first == "feature" and (acts & {"sew", "make"} or "add" in low.split() or _coloured(low) or _sewn_lines(low)):
        return "embroider"
    if "feature" in things and ("make" in acts or "give" in low.split()) and "sew" not in acts:
        return "embroider"
    if "sew" in acts and _sewn_lines(clause.before[6:]) and "part" not in things:
        return "embroider"
    if "thread" in things and "sew" not in acts:
        return "fasten" if "cut" in acts and not _SOME_OF.search(low) else "weave" if "hide" in acts else None
    if "sew" in acts:
        return "sew" if things or clause.place or re.search(r"\bon$", low) else None
    lands = bool(clause.place) and not (_INTO.match(clause.place) or _OUT.search(low))
    if first in ("part", "it") and "fix" in acts and lands:
        return "sew"
    if first == "part" and acts == {"fix"} and not clause.place and _ATTACHES.match(low):
        return "sew"
    if not acts and _lies(low):
        return "sew"
    if not acts and first in (None, "it") and _LINES_FIRST.match(low) and _coloured(low):
        return "embroider"
    return "other" if HANDS.match(low) and things else None


def _sewn_lines(text: str) -> bool:
    return bool(_THREE_LINES.search(text))


def _coloured(text: str) -> bool:
    """ "nose in black", "mouth with rose thread"."""
    told = re.search(r"\b(?:in|with|from|of) ((?:[a-z]+ ){0,2}[a-z]+)", text)
    if told is None:
        return False
    words = [w for w in told[1].split() if w not in ("thread", "floss", "cotton", "yarn", "wool", "a", "some")]
    return not words or is_colour(words[0]) or len(words[0]) == 1


_ORDERS = frozenset(w for w in _ACT_OF if w not in _TOLD and not w.endswith("ing")) - {
    "work", "draw", "set", "join", "make", "break", "form", "whip", "add", "press",
}  # fmt: skip


def begins_with_act(text: str) -> bool:
    """Is the first word of a text in small letters, behind "and" and "then", the verb of a job, or "use" and "give"?"""
    lead = _LEAD.match(text)
    word = re.match(r"[a-z]+", text[lead.end() :] if lead else text)
    return word is not None and (word[0] in _ORDERS or word[0] in ("use", "using", "give"))
