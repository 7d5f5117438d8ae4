"""What all recognisers do alike: a stream cut into utterances, a clock, gaps. The library's part is three steps."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from hookside.voice.endpoint import AFTER_NOISY, BEFORE, FRAME, FRAME_BYTES, Endpoint
from hookside.voice.engines import Row
from hookside.voice.heard import BYTES_A_SECOND, Heard

LONGEST = 7.5  # seconds of speech after which an utterance is ended: talk, or a noise that does not stop. Five numbers
# in one breath take a slow speaker so long
LONGEST_ROW = 60.0  # and where a row is listened for, which a cut in the middle of a word would spoil
JOINS = 0.45  # seconds between two parts of one phrase, where the room covers what is said between
BEFORE_AGAIN = 4  # frames of the room before speech that is decoded once more
LEAD = 9  # frames before the sound of an utterance, for the widest edges
BRIDGE = 0.6  # seconds of silence fed in place of a gap: more than ends any utterance


@dataclass
class Part:
    """An utterance that has ended, kept for a moment: it may have been the first part of a phrase."""

    sound: bytes
    began: float
    start: float
    end: float
    quiet: float
    lead: bytes  # what came before the sound
    wanted: bool = False
    after: list[bytes] = field(default_factory=list)  # the frames that followed


class Utterances(ABC):
    """A recogniser but for the library. Speech is decoded while it is said, so that its end finds little left to do,
    and phrases are learnt while nothing is said. Whoever inherits calls `ready` when it is made."""

    def __init__(self, phrases: Sequence[str]) -> None:
        self.clock = 0.0
        self.phrases = tuple(phrases)  # from the next utterance on
        self.row: Row | None = None
        self.given: tuple[tuple[str, ...], Row | None] | None = None  # to the library
        self.ends = Endpoint()
        self.rest = b""  # sound that fills no frame yet
        self.skipped = 0.0  # seconds of gaps that no frame stood for
        self.open = False
        self.began = self.last_end = 0.0
        self.whole = True  # the utterance in hand began with silence
        self.in_hand: list[bytes] = []  # its frames
        self.past: deque[bytes] = deque(maxlen=BEFORE + LEAD)  # the latest frames of all
        self.lead = b""  # what came before those in hand
        self.waiting: list[bytes] = []  # those that the library has not got
        self.part: Part | None = None  # the one before it, which could be joined
        self.joined: Part | None = None  # the one that was
        self.once_more: Part | None = None  # the one that is decoded again

    # -- the library's part -----------------------------------------------------

    @abstractmethod
    def voice(self, frame: bytes) -> bool:
        """Whether a voice may be in this frame."""

    @abstractmethod
    def learn(self, phrases: tuple[str, ...], row: Row | None) -> None:
        """From now on these phrases may be said, and the row. Never within an utterance."""

    @abstractmethod
    def begin(self) -> None:
        """An utterance begins."""

    @abstractmethod
    def take(self, sound: bytes) -> bool:
        """Decode; true where the library thinks that the utterance has ended."""

    @abstractmethod
    def end(self, quiet: float) -> Heard | None:
        """The utterance has ended: `began` is when its first sound was taken, `speech` tells when it was speech."""

    @abstractmethod
    def drop(self) -> None:
        """The utterance in hand is not wanted."""

    # -- the stream ---------------------------------------------------------------

    def feed(self, pcm: bytes) -> list[Heard]:
        return self.frames(pcm, known=True)

    def gap(self, seconds: float) -> list[Heard]:
        bridge = min(seconds, BRIDGE)
        out = self.frames(bytes(round(bridge * BYTES_A_SECOND / 2) * 2), known=False)
        if seconds > bridge:
            self.clock += seconds - bridge
            self.skipped += seconds - bridge
        return out

    def expect(self, phrases: Sequence[str], row: Row | None = None) -> None:
        self.phrases, self.row = tuple(phrases), row
        if not self.open:
            self.ready()

    def ready(self) -> None:
        """Learn what is to be listened for, where it has changed."""
        wanted = (self.phrases, self.row)
        if wanted != self.given:
            self.learn(*wanted)
            self.given = wanted

    def join(self) -> None:
        if self.part is not None:
            self.part.wanted = True

    def again(self, wide: bool = False) -> Heard | None:
        part = self.part
        if part is None or self.open or not self.ends.noisy:
            return None
        if wide:
            cut, sound = -(len(part.lead) // FRAME_BYTES), part.lead + part.sound
        else:
            cut = max(0, round((part.start - part.began) / FRAME) - BEFORE_AGAIN)
            sound = part.sound[cut * FRAME_BYTES :]
        self.once_more, self.began = part, part.began + cut * FRAME
        self.begin()
        self.take(sound)
        heard = self.end(part.quiet)
        self.once_more = None
        # Nothing is granted to it for the room: it had its second chance.
        return None if heard is None else replace(heard, above=None)

    def reset(self) -> None:
        if self.open:
            self.drop()
        self.open, self.rest, self.part, self.waiting = False, b"", None, []
        self.ends.forget()
        self.past.clear()
        self.skipped = self.clock - self.ends.count * FRAME
        self.last_end = self.clock

    # -- one utterance ----------------------------------------------------------

    def time(self, frame: int) -> float:
        """When the frame of this number began, on the clock. Right as long as no gap came after it."""
        return self.skipped + frame * FRAME

    @property
    def speech(self) -> tuple[float, float]:
        """When the utterance in hand was speech, by its frames."""
        if self.once_more is not None:
            return self.once_more.start, self.once_more.end
        start = max(self.began, self.time(self.ends.first)) if self.joined is None else self.joined.start
        return start, self.time(self.ends.last + 1)

    def frames(self, pcm: bytes, known: bool) -> list[Heard]:
        self.clock += len(pcm) / BYTES_A_SECOND
        sound, at, out = self.rest + pcm, 0, []
        while len(sound) - at >= FRAME_BYTES:
            frame = sound[at : at + FRAME_BYTES]
            at += FRAME_BYTES
            heard = self.frame(frame, known)
            if heard is not None:
                out.append(heard)
        self.rest = sound[at:]
        return out

    def frame(self, frame: bytes, known: bool) -> Heard | None:
        was = self.ends.open
        self.past.append(frame)
        speech = self.ends.take(frame, self.voice(frame), known)
        if self.part is not None:
            self.part.after.append(frame)
            if len(self.part.after) * FRAME > LONGEST:
                self.part = None
        if not speech:
            return None
        if not self.open:
            speech = self.opened(speech, was)
        out = b"".join(self.given_out(speech))
        over = bool(out) and self.take(out)
        self.in_hand += speech
        if self.ends.open and not over and len(self.in_hand) * FRAME < (LONGEST if self.row is None else LONGEST_ROW):
            return None
        return self.closed()

    def opened(self, speech: list[bytes], was: bool) -> list[bytes]:
        """An utterance begins, or goes on where it was parted; the frames of it so far."""
        self.open, self.whole, self.in_hand = True, not was, []
        self.began = self.time(self.ends.count - len(speech))
        self.lead = b"".join(list(self.past)[: -len(speech)][-LEAD:])
        part, self.part, self.joined = self.part, None, None
        if part is not None and part.wanted and self.time(self.ends.first) - self.last_end <= JOINS:
            self.joined, self.began = part, part.began
            speech = [part.sound, *part.after[: -len(speech)], *speech]
        self.ready()
        self.begin()
        return speech

    def given_out(self, speech: list[bytes]) -> list[bytes]:
        """What the library gets of it now: in a noisy room what follows speech waits until more speech follows."""
        self.waiting += speech
        behind = self.ends.count - 1 - self.ends.last
        held = max(0, behind - AFTER_NOISY) if self.ends.noisy else 0
        out = self.waiting[: len(self.waiting) - held]
        self.waiting = self.waiting[len(out) :]
        return out

    def closed(self) -> Heard | None:
        self.open = False
        start, end = self.speech
        quiet = max(0.0, start - self.last_end) if self.whole else 0.0
        if self.joined is not None:
            quiet = self.joined.quiet
        heard = self.end(quiet)
        if self.joined is None and self.row is None:
            self.part = Part(b"".join(self.in_hand), self.began, start, end, quiet, self.lead)
        self.last_end, self.in_hand, self.waiting = end, [], []
        return heard
