"""The ear: a page sends sound, and that page alone is told what was heard. It makes its moves itself.

One device listens for a making: another that begins takes the ear. Sound goes on to the hearing process and is kept
nowhere; what does not fit the shape, the sequence or the pace of real time is thrown away.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import wraps
from typing import Annotated, Any, Literal

from flask import request
from flask_socketio import SocketIO
from pydantic import Field, ValidationError

from hookside.voice.heard import BYTES_A_SECOND, RATE, EngineLost
from hookside.voice.models import Model, Models
from hookside.voice.phrasebook import languages
from hookside.voice.pool import Pool, Wanted
from hookside.web.body import LARGEST, Strict
from hookside.web.decisions import Decisions
from hookside.web.live import answered
from hookside.web.said import Said

BURST = 5.0  # seconds of sound that may come at once, after a stutter of the network
PACE = 1.5  # seconds of sound a second that may come beyond that
MOST_NUMBERS = 10_000  # stitches of the widest row anybody counts
LONGEST_PACKET = BYTES_A_SECOND  # bytes

Style = Literal["repeat", "round", "group"]
Number = Annotated[int, Field(ge=0, le=100_000)]
Name = Annotated[str, Field(pattern=r"^[a-z_]{1,20}$")]


class Counting(Strict):
    style: Style


class Listen(Strict):
    """Begin to listen. `device` as in `join`."""

    making: Annotated[int, Field(ge=0, le=LARGEST)]
    device: Annotated[str, Field(pattern=r"^[\x21-\x7e]{1,64}$")]
    device_name: Annotated[str, Field(max_length=200)] = ""
    language: Annotated[str, Field(pattern=r"^[a-z]{2,3}$")]
    single: bool = False
    count: Counting | None = None


class CountWords(Strict):
    inc: bool = False
    dec: bool = False


class Count(Strict):
    """Which numbers may come now, in order."""

    style: Style
    next: Annotated[list[Number], Field(max_length=MOST_NUMBERS)]
    left: Number
    words: CountWords = CountWords()


class Most(Strict):
    """The largest numbers that can be meant: rounds of the piece in hand, stitches of a round."""

    rounds: Annotated[int, Field(ge=1)] | None = None
    stitches: Annotated[int, Field(ge=1)] | None = None


class Expect(Strict):
    """`recount`: the maker has begun to count what is there, by a key or a word."""

    ear: str
    waits: Literal["stop", "pause", "question"] | None
    answers: Annotated[list[Name], Field(max_length=60)] | None
    count: Count | None
    recount: bool = False
    most: Most = Most()


class Sound(Strict):
    """Up to a second of sound: 16-bit samples, little-endian, 16 kHz, mono. `quiet`: milliseconds left out before."""

    ear: str
    seq: Annotated[int, Field(ge=0, le=LARGEST)]
    quiet: Annotated[int, Field(ge=0, le=86_400_000)]
    pcm: Annotated[bytes, Field(min_length=2, max_length=LONGEST_PACKET)]


class Deaf(Strict):
    ear: str
    on: bool


class Unlisten(Strict):
    ear: str


@dataclass
class Opened:
    """One device that listens."""

    sid: str
    making: int
    device: str
    began: float = field(default_factory=time.monotonic)
    taken: float = 0.0  # seconds of sound, less what has become free to take since

    def affords(self, seconds: float) -> bool:
        """Whether so much sound may come now, and if so it has."""
        now = time.monotonic()
        self.taken = max(0.0, self.taken - PACE * (now - self.began))
        self.began = now
        if self.taken + seconds > BURST:
            return False
        self.taken += seconds
        return True


def shaped(shape: type[Strict]) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """For events that are not answered: what is not in the shape is not taken."""

    def of(handler: Callable[..., None]) -> Callable[..., None]:
        @wraps(handler)
        def safe(self: Ears, *payload: Any) -> None:
            try:
                (data,) = payload
                handler(self, shape.model_validate(data))
            except (ValueError, ValidationError):
                return

        return safe

    return of


class Ears:
    """Who listens, and with what."""

    def __init__(self, socket: SocketIO, models: Models, pool: Pool, decisions: Decisions) -> None:
        self.socket, self.models, self.pool, self.decisions = socket, models, pool, decisions
        self.lock = threading.Lock()
        self.open: dict[str, Opened] = {}

    def listen_in(self) -> None:
        """Register what is heard of pages."""
        for event, handler in {
            "sound": self.sound, "expect": self.expect, "deaf": self.deaf, "unlisten": self.unlisten,
            "disconnect": self.gone,
        }.items():  # fmt: skip
            self.socket.on_event(event, handler)
        self.socket.server.on("listen", self.listen)  # answered: by its sid, without Flask's request

    # -- what pages say -----------------------------------------------------------

    @answered
    def listen(self, sid: str, data: dict[str, Any]) -> dict[str, Any]:
        """Begin -> {ok, ear, engine, missing, rate}. Waits until the engine listens."""
        try:
            asked = Listen.model_validate(data)
        except ValidationError as e:
            raise Said(400, "malformed", "Hookside could not understand what to listen for. Reload the page.") from e
        self.close(lambda o: o.sid == sid or (o.making == asked.making and o.device == asked.device))
        try:
            ear, engine, missing = self.opened(asked, sid)
        except EngineLost as e:
            raise Said(503, e.code, e.say) from e
        for other in self.close(lambda o: o.making == asked.making, but=ear):
            self.socket.emit("ear_taken", {"making": asked.making, "by": asked.device_name}, to=other.sid)
        if not self.socket.server.manager.is_connected(sid, "/"):
            self.close(lambda o: o.sid == sid)  # it went while the model was being loaded
        return {"ok": True, "ear": ear, "engine": engine, "missing": missing, "rate": RATE}

    @shaped(Sound)
    def sound(self, asked: Sound) -> None:
        opened = self.of(asked.ear)
        if opened is None or len(asked.pcm) % 2 or not opened.affords(len(asked.pcm) / BYTES_A_SECOND):
            return  # the gap in the sequence tells the listener that something is missing
        self.pool.tell(asked.ear, {"do": "sound", "seq": asked.seq, "quiet": asked.quiet}, asked.pcm)

    @shaped(Expect)
    def expect(self, asked: Expect) -> None:
        if self.of(asked.ear):
            self.pool.tell(asked.ear, {"do": "expect", **asked.model_dump(exclude={"ear"})})

    @shaped(Deaf)
    def deaf(self, asked: Deaf) -> None:
        if self.of(asked.ear):
            self.pool.tell(asked.ear, {"do": "deaf", "on": asked.on})

    @shaped(Unlisten)
    def unlisten(self, asked: Unlisten) -> None:
        if self.of(asked.ear):
            self.close(lambda o: o is self.open.get(asked.ear))

    def gone(self, *_: Any) -> None:
        """A page has hung up."""
        sid = sid_now()
        self.close(lambda o: o.sid == sid)

    # -- the table ----------------------------------------------------------------

    def of(self, ear: str) -> Opened | None:
        """This ear, if it belongs to the page that speaks now."""
        opened = self.open.get(ear)
        return opened if opened is not None and opened.sid == sid_now() else None

    def opened(self, asked: Listen, sid: str) -> tuple[str, dict[str, str], list[str]]:
        """Open an ear with the best engine there is for the language. Raises EngineLost."""
        about = {
            "language": asked.language, "single": asked.single, "log": self.decisions.kept,
            "count": asked.count and asked.count.model_dump(),
        }  # fmt: skip
        if asked.language not in languages():
            raise EngineLost("no-model", f"Hookside has no phrases for this language yet; it knows {known()}.")
        model = self.models.of(asked.language)
        before = ""
        opened = Opened(sid, asked.making, asked.device)
        for wanted in choices(asked.language, model):
            try:
                ear = self.pool.listen(wanted, about, lambda event, said: self.told(opened, event, said))
            except EngineLost as e:
                if wanted.engine == "pocketsphinx" or asked.language != "en" or e.code == "busy":
                    raise
                before = e.say + " "
                continue
            with self.lock:
                self.open[ear.id] = opened
            return ear.id, about_engine(wanted, before), ear.missing
        raise EngineLost(
            "no-model",
            f"No voice model for this language is here: “hookside voice add {asked.language}” adds one. "
            "Touch and keys go on.",
        )

    def close(self, which: Callable[[Opened], bool], but: str = "") -> list[Opened]:
        """Close those ears; who held them."""
        with self.lock:
            closing = {ear: o for ear, o in self.open.items() if ear != but and which(o)}
            for ear in closing:
                del self.open[ear]
        for ear in closing:
            self.pool.unlisten(ear)
        return list(closing.values())

    def shut(self) -> None:
        """Nobody listens any more."""
        self.pool.close()
        self.decisions.close()

    def told(self, opened: Opened, event: str, said: dict[str, Any]) -> None:
        """Something was heard. Called from a thread of the pool's."""
        if event == "log":
            self.decisions.write(said)
            return
        if event == "lost":
            with self.lock:
                self.open.pop(said["ear"], None)
            event = "ear_lost"
        self.socket.emit(event, said, to=opened.sid)


def sid_now() -> str:
    return str(request.sid)  # type: ignore[attr-defined]


def known() -> str:
    return " and ".join(languages().values())


def choices(language: str, model: Model | None) -> list[Wanted]:
    """What could listen to a language, the best first."""
    out = [] if model is None else [Wanted("vosk", language, model.folder)]
    return [*out, Wanted("pocketsphinx", language)] if language == "en" else out


def about_engine(wanted: Wanted, before: str) -> dict[str, str]:
    """Which engine listens, in words: what to expect of it."""
    if wanted.folder is None:
        name, say = "English as it comes with pocketsphinx", (
            "English phrases are understood when they are said plainly, near the device, in a quiet room. A better ear "
            "can be added: more, Hands-free, What listens."
        )  # fmt: skip
    else:
        name = wanted.folder.name
        say = f"The better ear listens ({name}): it understands the phrases at an arm's length and more."
    return {"name": wanted.engine, "model": name, "language": wanted.language, "say": before + say}
