"""One listening page: its sound in, what was heard out. Engine, phrases and decision come together here."""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable
from typing import Any

from hookside.voice.engines import Engine
from hookside.voice.heard import Heard
from hookside.voice.phrasebook import Phrasebook

Tell = Callable[..., None]  # tell(event, **what)
QUIET = 0.5  # seconds of silence before a phrase
LONGEST = 1.8  # seconds of a phrase


class Listening:
    """Belongs to one thread. `tell` may be called within `hear` only."""

    def __init__(self, engine: Engine, asked: dict[str, Any], tell: Tell) -> None:
        """`asked`: language, single, log, and at first what is expected. Raises EngineLost."""
        self.tell = tell
        self.log = bool(asked.get("log"))
        self.single = bool(asked.get("single"))
        self.book = Phrasebook.load(asked["language"])
        self.answers: list[str] | None = None
        words = {word for phrase in self.phrases() for word in phrase.split()}
        self.missing = sorted(words - engine.vocabulary(words))
        self.recogniser = engine.recogniser(self.phrases())
        self.deaf = False
        self.next: int | None = None  # the number of the next packet

    def phrases(self) -> list[str]:
        """What may be said now."""
        return self.book.phrases(self.single) if self.answers is None else self.book.answers(self.answers)

    def hear(self, message: dict[str, Any], sound: bytes) -> None:
        """One message of the page: see `hearing.py`."""
        match message["do"]:
            case "sound":
                self.sound(message, sound)
            case "expect":
                self.answers = message["answers"]
                self.recogniser.expect(self.phrases())
            case "deaf":
                self.deaf = message["on"]
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
        heard += self.recogniser.feed(sound)
        for one in heard:
            # How long ago the speech ended: by the sound that has come since, and by the work on it.
            ms = 1000 * (self.recogniser.clock - one.end + time.monotonic() - came)
            self.judge(one, {"utterance": secrets.token_hex(16), "ms": ms, "at": message["at"]})

    def judge(self, heard: Heard, common: dict[str, Any]) -> None:
        said = self.book.intent(heard.words)
        fits = heard.quiet >= QUIET and heard.length <= LONGEST
        verdict = "act" if said is not None and fits else "ignore"
        self.note(heard, verdict=verdict, why="" if fits else "within talk", intent=said and said.intent)
        if said is not None:
            scores = {"quiet": heard.quiet, "length": heard.length, "fit": heard.score or 0.0}
            self.tell(
                "heard", intent=said.intent, unit=said.unit, number=said.number, words=heard.words, verdict=verdict,
                scores=scores, **common,
            )  # fmt: skip

    def note(self, heard: Heard | None = None, **more: Any) -> None:
        """For the log of decisions, where one is kept. Words and numbers, never sound."""
        if self.log:
            of = {} if heard is None else {
                "words": heard.words, "start": round(heard.start, 2), "length": round(heard.length, 2),
                "quiet": round(heard.quiet, 2), "score": heard.score, "free": heard.free, "phones": heard.phones,
            }  # fmt: skip
            self.tell("log", **of, **more)

    def close(self) -> None:
        self.recogniser.close()
