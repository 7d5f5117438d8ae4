"""One listening page: its sound in, what was heard out. Engine, phrases, count and decision come together here."""

from __future__ import annotations

import math
import secrets
import time
from collections.abc import Callable
from typing import Any

from hookside.voice.count import Count, Counted
from hookside.voice.decision import QUIET, Counting, Expecting, Settings, Verdict, decide
from hookside.voice.engines import Engine
from hookside.voice.heard import Heard
from hookside.voice.phrasebook import Most, Phrasebook

Tell = Callable[..., None]  # tell(event, **what)
CLEAR = 1.5  # log odds from which a phrase over babble is not heard once more: its number would only get worse
QUIET_WIDE = 0.8  # seconds of silence before what is heard with the widest edges: within talk they find phrases
SURE_WIDE = 2.0  # log odds that it needs: four right ones of tuning voices had 3.7 and more, two wrong ones 1.3
BESIDE = ("recount",)  # what may be said in a recount beside numbers


def expecting_of(message: dict[str, Any]) -> Expecting:
    """What the page expects, from its message as `web/ear.py` has checked it."""
    count, answers = message.get("count"), message.get("answers")
    return Expecting(
        waits=message.get("waits"),
        answers=None if answers is None else tuple(answers),
        most={of: n for of, n in (message.get("most") or {}).items() if n is not None},
        count=None
        if count is None
        else Counting(
            style=count["style"],
            next=tuple(count.get("next", ())),
            left=count.get("left", 0),
            inc=count.get("words", {}).get("inc", False),
            dec=count.get("words", {}).get("dec", False),
        ),
    )


def likeness(verdict: Verdict) -> float:
    """To compare two verdicts on one utterance."""
    return verdict.scores.get("odds", verdict.scores.get("score", -math.inf))


class Listening:
    """Belongs to one thread. `tell` may be called within `hear` only."""

    def __init__(self, engine: Engine, asked: dict[str, Any], tell: Tell) -> None:
        """`asked`: language, single, log, and at first what is expected. Raises EngineLost."""
        self.tell = tell
        self.log = bool(asked.get("log"))
        self.single = bool(asked.get("single"))
        self.settings = Settings(engine=engine.name, single=self.single)
        self.book = Phrasebook.load(asked["language"])
        self.everything: tuple[Most, list[str]] | None = None  # how many there can be, and what may be said at all
        self.beside = self.book.answers(BESIDE)
        self.count = Count(self.book)
        self.expecting = expecting_of(asked)
        words = {word for phrase in self.phrases() for word in phrase.split()}
        self.missing = sorted(words - engine.vocabulary(words))
        self.recogniser = engine.recogniser(self.phrases())
        self.asked: str | None = None  # the intent that the maker was asked about last
        self.recount = False  # the page says that one goes on
        self.deaf = False
        self.behind = True  # what was said last was meant for Hookside, or was its own voice
        self.next: int | None = None  # the number of the next packet

    def listen(self) -> None:
        """Tell the engine what may be said now."""
        row = self.count.row() if self.expecting.answers is None else None
        self.recogniser.expect(self.phrases() if row is None else self.beside, row)

    def phrases(self) -> list[str]:
        """What may be said now."""
        most = self.expecting.most
        if self.everything is None or self.everything[0] != most:
            self.everything = most, self.book.phrases(self.single, most)
        everything = self.everything[1]
        if self.expecting.answers is not None:
            # All other phrases beside them: among answers alone any sound would come nearest to one of these.
            return list(dict.fromkeys([*self.book.answers(self.expecting.answers, most), *everything]))
        return [*everything, *self.count.phrases(self.expecting)]

    def hear(self, message: dict[str, Any], sound: bytes) -> None:
        """One message of the page: see `hearing.py`."""
        match message["do"]:
            case "sound":
                self.sound(message, sound)
            case "expect":
                self.expecting = expecting_of(message)
                self.turn(bool(message.get("recount")))
                self.listen()
            case "deaf":
                self.deaf, self.behind = message["on"], True
                self.recogniser.reset()

    def sound(self, message: dict[str, Any], sound: bytes) -> None:
        came = time.monotonic()
        lost = self.next is not None and message["seq"] != self.next
        self.next = message["seq"] + 1
        if lost:
            self.recogniser.reset()
            self.note(lost=message["seq"])
        if self.deaf:
            return
        heard = self.recogniser.gap(message["quiet"] / 1000) if message["quiet"] else []
        if not heard and not self.recogniser.open and self.count.recounting is not None:
            self.count.rest(self.recogniser.clock)
            if self.count.recounting is None:
                self.listen()
        heard += self.recogniser.feed(sound)
        for one in heard:
            # How long ago the speech ended: by the sound that has come since, and by the work on it.
            ms = 1000 * (self.recogniser.clock - one.end + time.monotonic() - came)
            self.judge(one, {"utterance": secrets.token_hex(16), "ms": ms, "at": message["at"]})

    def judge(self, heard: Heard, common: dict[str, Any]) -> None:
        before = self.count.row()
        counted = self.count.hear(heard, self.expecting) if self.expecting.answers is None else None
        if self.count.row() != before:
            self.listen()
        if self.count.half is not None:
            self.recogniser.join()  # the rest of the number, if it comes at once
        if counted is not None:
            self.counted(heard, counted, common)
            return
        heard, verdict = self.judged(heard)
        said, self.behind = verdict.said, verdict.verdict != "ignore"
        if verdict.verdict == "ignore" and self.expecting.answers is None:
            counted = self.count.guess(heard, self.expecting)
            if counted is not None:
                self.counted(heard, counted, common)
                return
        if said is not None and verdict.verdict != "ignore":
            self.recounts(said.intent, verdict.verdict, heard.end)
        elif heard.quiet >= QUIET and self.expecting.answers is None and self.expecting.count is None:
            self.recogniser.join()
        self.note(heard, verdict=verdict.verdict, why=verdict.why, intent=said and said.intent)
        if said is not None:
            self.tell(
                "heard", intent=said.intent, unit=said.unit, number=said.number, words=heard.words,
                verdict=verdict.verdict, scores=verdict.scores, twin=self.twin(heard, verdict), **common,
            )  # fmt: skip

    def counted(self, heard: Heard, counted: Counted, common: dict[str, Any]) -> None:
        self.behind = True
        self.note(heard, counted=counted.number, confirmed=counted.confirmed, recount=counted.recount)
        self.tell(
            "counted", number=counted.number, confirmed=counted.confirmed, recount=counted.recount,
            words=counted.words, **common,
        )  # fmt: skip

    def judged(self, heard: Heard) -> tuple[Heard, Verdict]:
        """Over babble the edges of an utterance decide what a grammar makes of it: one that was not clear is heard once
        more with others, and where it still is nothing, with what the room covered at both ends; the likeliest
        counts."""
        verdict = decide(heard, self.expecting, self.settings, self.book, self.behind)
        if verdict.verdict == "act" or heard.quiet < QUIET or likeness(verdict) >= CLEAR:
            return heard, verdict
        for wide in (False, True) if heard.quiet >= QUIET_WIDE else (False,):
            again = self.recogniser.again(wide)
            if again is None:
                break
            other = decide(again, self.expecting, self.settings, self.book, self.behind)
            if likeness(other) > max(likeness(verdict), SURE_WIDE if wide else -math.inf):
                heard, verdict = again, other
            if verdict.verdict != "ignore":
                break
        return heard, verdict

    def twin(self, heard: Heard, verdict: Verdict) -> dict[str, Any] | None:
        """What may have been said in place of a number that sounds like another: that number, and the whole phrase."""
        if verdict.twin is None or verdict.said is None or verdict.said.number is None:
            return None
        said, other = (self.book.spoken(n) for n in (verdict.said.number, verdict.twin))
        return {"number": verdict.twin, "words": heard.words.removesuffix(said) + other}

    def recounts(self, intent: str, verdict: str, now: float) -> None:
        """A recount begins with its phrase, or with the yes where it was asked whether that was said."""
        begins = verdict == "act" and (intent == "recount" or (intent == "yes" and self.asked == "recount"))
        self.asked = intent if verdict == "ask" else None
        if begins:
            self.count.begin(now)
            self.listen()

    def turn(self, recount: bool) -> None:
        """The page says whether the maker counts what is there: she may have asked for it by a key, and have done."""
        if recount and not self.recount and self.count.recounting is None:
            self.count.begin(self.recogniser.clock)
        elif self.recount and not recount:
            self.count.recounting = None
        self.recount = recount

    def note(self, heard: Heard | None = None, **more: Any) -> None:
        """For the log of decisions, where one is kept. Words and numbers, never sound."""
        if self.log:
            of = {} if heard is None else {
                "words": heard.words, "start": round(heard.start, 2), "length": round(heard.length, 2),
                "quiet": round(heard.quiet, 2), "score": heard.score, "phones": heard.phones,
            }  # fmt: skip
            self.tell("log", **of, **more)

    def close(self) -> None:
        self.recogniser.close()
