"""Whether an utterance was meant for Hookside: act on it, ask, or leave it. Pure.

What guards against being fooled, in this order: the whole utterance is a phrase; there was silence before it, more than
a pause as talk has them unless what came before was meant for Hookside too; it is no longer than the phrase takes; what
was heard is like the phrase. How like it must be depends on what a mistake costs.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from hookside.voice.heard import Heard
from hookside.voice.likeness import Sounds
from hookside.voice.phrasebook import ANY, Most, Phrasebook, Said, possible

Act = Literal["act", "ask", "ignore"]

QUIET = 0.35  # seconds of silence before a phrase, behind another or behind what Hookside said
CALM = 1.0  # and behind anything else: a shorter silence is a pause of talk
LULL = 0.6  # or, where something sounds all the time: a burst of that is no talk that pauses
QUIET_ANSWER = 0.15  # and before an answer to what was asked
LEAD, A_SOUND = 0.55, 0.17  # seconds that a phrase may take: so much, and so much for each of its sounds
A_LETTER = 0.11  # or for each letter, where no dictionary tells the sounds
SURE_WORD = 0.9  # vosk's confidence in its least certain word
SURE_BACK = 0.97  # and for what takes something back


@dataclass(frozen=True)
class Bar:
    """Log odds (`likeness.Sounds.odds`) from which an intent is acted on, and from which it is asked about."""

    act: float
    ask: float


# Set on voices, recordings and noise that are not scored: tests/listening/README.md.
BARS = {
    "move": Bar(0.3, -0.8),
    "back": Bar(1.3, -0.5),
    "rest": Bar(0.5, -0.5),
    "count": Bar(1.3, -0.3),
    "tell": Bar(0.3, -0.8),
    "asked": Bar(99.0, -1.2),
    "answer": Bar(-2.0, -2.0),
    "waits": Bar(0.0, -1.5),
}
# Babble blurs sounds, so that a phrase said in it is less like itself: there a little less is enough, after a longer
# silence, which talk seldom has. In a quiet room speech stands 27 dB and more above it, over babble 20 dB softer 18.
BLURRED, CLEAR = 18.0, 24.0  # decibels above the room up to which all of that is granted, and from which none
RELIEF = 1.0
QUIET_RELIEF = 0.8
RELIEVED = ("move", "back", "rest", "count", "tell")
KINDS = {
    **dict.fromkeys(("next", "stitch", "group", "repeat", "round"), "move"),
    **dict.fromkeys(("back", "undo"), "back"),
    **dict.fromkeys(("done", "finish", "hold", "pause", "recount"), "rest"),
    **dict.fromkeys(("where", "left", "ahead", "again", "lost", "listen", "help"), "tell"),
    **dict.fromkeys(("show", "parts", "gather", "habits", "yes", "no"), "tell"),
    **dict.fromkeys(("pattern", "runs", "check", "recap", "shape", "chart", "notes", "record"), "tell"),
    **dict.fromkeys(("kinds", "lock", "hands", "more"), "tell"),
    "count": "count",
    **dict.fromkeys(("goto", "rip", "worked_on"), "asked"),  # these are always asked back
}


# What is listened for beside the answers while something is asked or a sheet lies open, which may be for minutes: it
# answers nothing, so it needs as much as at any other time; and where that is not enough, no second thing is asked.
BESIDE = ("where", "left", "ahead", "again", "lost", "help", "hold", "pause", "listen")


@dataclass(frozen=True)
class Counting:
    """A maker counts along: style "repeat", "round" or "group"; the numbers possible now, the likeliest first; how
    many stitches are left in the round; whether an increase or a decrease may be called."""

    style: str
    next: tuple[int, ...]
    left: int = 0
    inc: bool = False
    dec: bool = False


@dataclass(frozen=True)
class Expecting:
    """What the page waits for: `waits` None, "stop", "pause" or "question"; the intents that answer it; a count; how
    many rounds and stitches there can be."""

    waits: str | None = None
    answers: tuple[str, ...] | None = None
    count: Counting | None = None
    most: Most = field(default_factory=dict)


@dataclass(frozen=True)
class Settings:
    """The engine, and whether single words are allowed."""

    engine: str
    single: bool = False


@dataclass(frozen=True)
class Verdict:
    """`said` is None where the words are no phrase; `why` is for the log; `twin`: the number that may have been said in
    place of that of `said`."""

    verdict: Act
    said: Said | None
    why: str
    scores: dict[str, float] = field(default_factory=dict)
    twin: int | None = None


def decide(heard: Heard, expecting: Expecting, settings: Settings, book: Phrasebook, behind: bool = False) -> Verdict:
    """What to do with an utterance; `behind`: what came before it was meant for Hookside, or was its own voice. What
    answers a question needs less than what comes unasked; but what is only listened for beside the answers does not,
    nor being called back from a pause ("listen"), since people talk for hours meanwhile."""
    said = book.intent(heard.words)
    if said is None:
        return Verdict("ignore", None, "no whole phrase")
    asked = expecting.answers is not None and said.intent in expecting.answers
    if expecting.answers is not None and not asked:
        return Verdict("ignore", None, "no answer to what was asked")
    if not asked and not book.unasked(heard.words, settings.single):
        return Verdict("ignore", None, "a phrase only where it is asked for")
    scores = {"quiet": heard.quiet, "length": heard.length}
    beside = asked and said.intent in BESIDE
    if heard.quiet < silence(heard, asked and not beside, behind):
        return Verdict("ignore", said, "in the middle of talk", scores)
    if heard.length > time_for(heard):
        return Verdict("ignore", said, "longer than the phrase takes", scores)
    kind = KINDS[said.intent]
    if said.intent == "done" and expecting.waits:
        kind = "waits"
    elif asked and not beside:
        kind = "answer"
    sounds = Sounds.load(book.language)
    odds = sounds.odds(heard) if sounds is not None else None
    other = twin(said, book, expecting.most)
    if odds is not None:
        odds += relief(heard, kind)
        verdict = by_odds(odds, kind, said, other, scores)
    else:
        verdict = by_confidence(heard, kind, said, other, scores)
    if beside and verdict.verdict == "ask" and said.intent != "listen":
        verdict = Verdict("ignore", said, "may have been the phrase", verdict.scores)
    return replace(verdict, twin=other)


def silence(heard: Heard, answer: bool, behind: bool) -> float:
    """Seconds of it that an utterance needs before it."""
    if answer:
        return QUIET_ANSWER
    if behind:
        return QUIET
    return CALM if heard.above is None else LULL


def relief(heard: Heard, kind: str) -> float:
    """What is granted to a phrase for the room it was said in."""
    if heard.above is None or heard.quiet < QUIET_RELIEF or kind not in RELIEVED:
        return 0.0
    return RELIEF * min(1.0, max(0.0, (CLEAR - heard.above) / (CLEAR - BLURRED)))


def by_odds(odds: float, kind: str, said: Said, other: int | None, scores: dict[str, float]) -> Verdict:
    scores = {**scores, "odds": odds}
    bar = BARS[kind]
    if odds >= bar.act:
        if kind != "answer" and other is not None:
            return Verdict("ask", said, "a number that sounds like another", scores)
        return Verdict("act", said, "like the phrase", scores)
    if odds >= bar.ask:
        return Verdict("ask", said, "may have been the phrase", scores)
    return Verdict("ignore", said, "unlike the phrase", scores)


def by_confidence(heard: Heard, kind: str, said: Said, other: int | None, scores: dict[str, float]) -> Verdict:
    if heard.score is None:
        return Verdict("ask", said, "nothing to judge by", scores)
    scores = {**scores, "score": heard.score}
    need = 0.0 if kind == "answer" else SURE_BACK if kind in ("back", "rest", "count") else SURE_WORD
    if kind == "asked" or heard.score < need or (kind != "answer" and other is not None):
        return Verdict("ask", said, "asked back", scores)
    return Verdict("act", said, "sure enough", scores)


def twin(said: Said, book: Phrasebook, most: Most = ANY) -> int | None:
    """The number that this one is easily taken for, where it can be meant: thirty for thirteen. Over babble 15 dB
    softer 33 of 35 teens of five tuning voices were heard as tens, so a page asks about both."""
    other = TWINS.get(said.number) if said.number is not None and book.language == "en" else None
    return other if other is not None and possible(other, book.counts[said.intent], most) else None


TWINS = {n: other for ten in range(3, 10) for n, other in ((10 + ten, 10 * ten), (10 * ten, 10 + ten))}


def time_for(heard: Heard) -> float:
    """Seconds that the phrase heard may take."""
    sounds = sum(len((span.sounds or "").split()) for span in heard.spans)
    return longest(sounds) if sounds else LEAD + A_LETTER * len(heard.words.encode("utf-16-le")) / 2 + 0.6


def longest(sounds: int) -> float:
    """Seconds that so many sounds may take."""
    return LEAD + A_SOUND * sounds
