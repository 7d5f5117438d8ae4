"""Words for cues: a few for the bench, the designer's own with the reason why now, and a form for the voice.

The reasons are common practice, no source, unless one is named beside them.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from hookside.pattern import Cue, CueKind, Terms, Words
from hookside.words.text import clip, spoken_text, tidy, translate

BENCH_LETTERS = 40  # a designer's sentence, or its first clause, up to this long stands on the bench as it is

_LENGTH = re.compile(r"\b(\d+(?:\.\d+)?(?:\s*[-\u2013]\s*\d+)?)\s*(cm|mm|m|in|inch|inches|\")(?![a-z])", re.IGNORECASE)
_BETWEEN = re.compile(
    r"\bbetween\s+(?:rounds?|rnds?|r|rows?)?\.?\s*(\d+)\s*(?:and|&|-|\u2013)\s*(?:rounds?|rnds?|r|rows?)?\.?\s*(\d+)",
    re.IGNORECASE,
)
_TO_COLOUR = re.compile(
    r"\b(?:(?:chang|switch|swap|go|return|turn)\w*\s+(?:back\s+)?(?:in)?to|(?:join|attach|add|tak|using|use|with)\w*)"
    r"\s+(?:up\s+)?(?:the\s+)?((?:[\w'-]+\s*){1,6})",
    re.IGNORECASE,
)
# Where the name of a colour is over.
_NAME_ENDS = frozenset(
    {
        "for", "in", "on", "at", "and", "then", "by", "with", "from", "of", "as", "to", "while", "until", "before",
        "after", "leaving", "cut", "do", "last", "next", "st", "stitch",
    }
)  # fmt: skip
# Kinds where the designer's first clause says what to do and our own words could not.
_SAYS_WHAT: frozenset[CueKind] = frozenset({"shape", "sew", "pin", "join", "embroider", "hold"})
_CLAUSE_ENDS = re.compile(r"[,;:.(]\s|\s(?:and|so that|while|until|before|then)\s", re.IGNORECASE)
_NO_STUFFING = re.compile(
    r"\b(?:do not|don't|no need to|without)\s+stuff|\bunstuffed\b|\bno stuffing\b", re.IGNORECASE
)
_TOP_UP = re.compile(
    r"\b(?:top up|last of the stuffing|add (?:more|a little|the last)|finish stuffing|more stuffing)\b", re.IGNORECASE
)
_HOW_FIRM = re.compile(r"\b(firmly|lightly|softly|loosely|tightly|well)\b", re.IGNORECASE)
_START_TAIL = re.compile(r"\b(?:start(?:ing)?|beginning) tail\b", re.IGNORECASE)
_LONG_TAIL = re.compile(r"\blong\s+(?:\w+\s+)?(?:tail|end|length|strand)\b", re.IGNORECASE)
_FASTENED = re.compile(r"\b(?:fasten|finish|bind|tie|cast)\w*\s*off\b|\bf\s?/?\s?o\b", re.IGNORECASE)
_CUT = re.compile(r"\b(?:cut|break|snip|trim)(?: off)?(?: (?!leav|and\b|then\b)[\w'-]+){1,3}", re.IGNORECASE)
_NEEDLEWORK = re.compile(r"\bembroider|\bstitch the eyes|\bsew the eyes", re.IGNORECASE)


def _amount(text: str) -> str:
    """The length a sentence names: "20 cm", or ""."""
    found = _LENGTH.search(text)
    if not found:
        return ""
    unit = "in" if found[2] in ('"', "inch", "inches") else found[2].lower()
    return f"{found[1]} {unit}"


def _stuff(text: str) -> str:
    if _NO_STUFFING.search(text):
        return "Do not stuff"
    if _TOP_UP.search(text):
        return "Top up the stuffing"
    firm = _HOW_FIRM.search(text)
    return f"Stuff {firm[1].lower()} now" if firm else "Stuff now"


def _tail(text: str) -> str:
    if _START_TAIL.search(text):
        return "Starting tail to the inside"
    amount = _amount(text)
    return f"Leave a {amount} tail" if amount else "Leave a long tail"


def _fasten(text: str) -> str:
    # A yarn that is cut while the loop stays live must never be shown as "fasten off".
    cut = None if _FASTENED.search(text) else _CUT.search(text)
    job = cut[0][:1].upper() + cut[0][1:] if cut else "Fasten off"
    amount = _amount(text)
    if amount:
        return f"{job}, {amount} tail"
    return f"{job}, long tail" if _LONG_TAIL.search(text) else job


def _close(text: str) -> str:
    sewn = re.search(r"\bsew\b.*\b(?:shut|closed|opening)\b", text, re.IGNORECASE)
    return "Sew it shut" if sewn else "Close the hole"


def _colour(text: str, terms: Terms) -> str:
    word = "color" if terms == "US" else "colour"
    for found in _TO_COLOUR.finditer(text):
        name: list[str] = []
        for part in found[1].split():
            if part.lower() in _NAME_ENDS or len(name) == 3:
                break
            name.append(part)
        if name and name[0].lower() not in ("new", "a", "an", "this", "that", "other"):
            return f"Change to {' '.join(name)}"
    return f"New {word}"


def _eyes(text: str) -> str:
    place = _BETWEEN.search(text)
    job = "Embroider the eyes" if _NEEDLEWORK.search(text) else "Eyes in"
    return f"{job}, {place[1]}/{place[2]}" if place and job == "Eyes in" else job


_BENCH: dict[CueKind, Callable[[str], str]] = {
    "stuff": _stuff,
    "tail": _tail,
    "close": _close,
    "eyes": _eyes,
    "fasten": _fasten,
    "shape": lambda _: "Shape it now",
    "weave": lambda _: "Weave in the ends",
    "sew": lambda _: "Sew on",
    "turn": lambda _: "Turn the work",
    "marker": lambda _: "Marker into the first stitch",
    "hold": lambda _: "Set this piece aside",
    "join": lambda _: "Join the parts",
    "pin": lambda _: "Pin it first",
    "embroider": lambda _: "Embroider now",
    "count": lambda _: "Count now",
}


def bench_words(kind: CueKind, text: str, terms: Terms) -> str:
    """A few words, imperative: the designer's own where they are few, else the kind's with the amount named."""
    own = tidy(text).rstrip(".!;: ")
    own = own[:1].upper() + own[1:]
    if kind == "other" or len(own) <= BENCH_LETTERS:
        return clip(own, 2 * BENCH_LETTERS)
    if kind in _SAYS_WHAT:
        clause = _CLAUSE_ENDS.split(own, maxsplit=1)[0].strip()
        if clause.count(" ") and len(clause) <= BENCH_LETTERS:
            return clause
    return _colour(text, terms) if kind == "colour" else _BENCH[kind](text)


def reason(cue: Cue, text: str, terms: Terms) -> str:
    """Why now, as a sentence; "" where nothing certain can be said. `text`: the cue's, in the maker's terms."""
    colour = "color" if terms == "US" else "colour"
    match cue.kind:
        case "stuff":
            if _NO_STUFFING.search(text):
                return ""
            if _TOP_UP.search(text):
                return "Squeeze it: a hollow that you feel now stays."
            return "From here on it is harder to reach."
        case "close":
            return "Before the hole is shut: eyes in? Tail inside? Squeeze it: any hollow?"
        case "colour" if cue.after != "0" or cue.at is not None:
            return f"The new {colour} is drawn through the last loops of the stitch before it."
        case "eyes":
            if _NEEDLEWORK.search(text):
                return "Your hand still reaches the inside, so the knots can stay there."
            return "Look at the face from the front before the washer clicks: it will not come off again."
        case "embroider":
            return "Look at it from the front before you pull the thread tight."
        case "tail" if _START_TAIL.search(text):
            return "Once the piece is closed it can no longer be hidden."
        case "tail" | "fasten":
            return "A tail that was cut too short cannot be mended." if _amount(text) else ""
        case "sew":
            return "Pin the part first and look at it from the front."
        case "pin" if "from the front" not in text:
            return "Look from the front: what is pinned can still be moved."
        case "weave" if not re.search(r"\bstuffing\b|\bpass(?:es)?\b", text, re.IGNORECASE):
            return "In a stuffed piece bury the end through the stuffing; in flat work three passes hold it."
        case "hold":
            return "Put a marker into the live loop, so that it cannot run."
        case "marker":
            return "The marker goes in once that stitch is made, not before."
        case _:
            return ""


def _sentence(text: str) -> str:
    text = tidy(text)
    text = text[:1].upper() + text[1:]
    return text if not text or text[-1] in ".!?…" else text + "."


def cue_words(cue: Cue, terms: Terms, written: Terms) -> Words:
    """A cue three ways. `written` says in which terms its text stands.

    short    for the bench: "Stuff firmly now", "Leave a 30 cm tail"
    full     the designer's words, then the reason
    spoken   the same without symbols
    """
    text = tidy(translate(cue.text, written, terms))
    why = reason(cue, text, terms)
    whole = f"{_sentence(text)} {why}".strip() if cue.basis == "written" else _sentence(text)
    return Words(short=bench_words(cue.kind, text, terms), full=whole, spoken=spoken_text(whole, terms))
