"""Where speech begins and where it ends, also in a room where others talk.

A detector of voices alone is not enough: where somebody murmurs in the background it hears voices without end. So a
frame counts as speech when the detector says so *and* it stands out from what the room has sounded like lately.

The numbers were chosen on 85 phrases of the tuning voices over the babble of five recorded speakers. Babble covers soft
beginnings and ends: at 15 dB one phrase in five began 0.15 s before its first frame that stood out, and one in thirty
fell in two, the parts at most 0.45 s from each other. What a grammar is given of the babble before and behind, it takes
for words: over babble 17 dB softer 78 of 88 phrases were recognised with 0.1 s of it at both ends, 43 with 0.4 and
0.25 s, while a pause cost a decoder much. Now that it costs little, 0.24 s before and 0.09 s behind are best: soft
beginnings are heard too. In a quiet room nothing is lost by more.
"""

from __future__ import annotations

import math
from array import array
from bisect import bisect_left, insort
from collections import deque
from operator import mul
from statistics import median

FRAME = 0.03  # seconds of one frame
FRAME_BYTES = 960
ROOM = 100  # frames that tell what the room sounds like: 3 s, longer than any phrase
SHARE = 0.3  # of them lie below the level called the room's
STANDS_OUT = 5.0  # decibels above the room's level that speech has
SOFTEST = -62.0  # decibels of full scale: a room is never taken to be more still than this
BEGINS, OF = 5, 7  # so many frames of so many with speech: it has begun
ENDS, OF_LATER = 8, 9  # so many of so many without: it has ended
BEFORE = 15  # frames given out from before it was clear
BEFORE_NOISY = 8  # and at most so many from before the first of speech, where the room is not quiet
AFTER_NOISY = 3  # and frames behind the last of speech
NOISY = -54.0  # decibels of full scale from which a room is not quiet
# And it is as loud all the time: within 3 s babble had its softest twentieth 2 to 10 dB below the level called the
# room's, continuous talk in a quiet room, which that level is of after a while, 10 to 60 (96 utterances, 143).
SOFT, STEADY = 0.05, 10.0


def level(frame: bytes) -> float:
    """Decibels of full scale of a frame of 16-bit samples."""
    samples = array("h", frame)
    power = sum(map(mul, samples, samples)) / len(samples)
    return 10 * math.log10(power / 2**30) if power else -100.0


class Endpoint:
    """Takes frame by frame; between its beginning and its end there is speech, and `open` is true.

    `first` and `last` are the numbers, counted from 0, of the first and the last frame that counted as speech, in the
    utterance that is open or was open last.
    """

    def __init__(self) -> None:
        self.open = False
        self.first = self.last = -1
        self.count = 0
        self.before: deque[bytes] = deque(maxlen=BEFORE)
        self.marks: deque[bool] = deque([False] * OF_LATER, maxlen=OF_LATER)
        self.over: list[float] = []  # decibels above the room, of the frames of speech in the utterance
        self.lately: deque[float] = deque()
        self.ordered: list[float] = []

    @property
    def room(self) -> float:
        """The level of the room, in decibels of full scale. While little is known of it, nearer to the softest frame:
        most of what was heard so far may be the first word."""
        return max(SOFTEST, self.below(SHARE))

    def below(self, share: float) -> float:
        """The level, in decibels of full scale, that this share of the latest frames lies below."""
        known = len(self.ordered)
        return self.ordered[int(share * known / ROOM * (known - 1))] if known else SOFTEST

    @property
    def noisy(self) -> bool:
        """Whether something sounds in the room all the time. What somebody says without a rest is no room."""
        return self.room > NOISY and self.room - self.below(SOFT) < STEADY

    @property
    def above(self) -> float:
        """Decibels by which the louder half of the speech of an utterance stood above the room: 40 and more where it is
        quiet, about 20 over babble 15 dB softer."""
        return median(self.over) if self.over else 0.0

    def take(self, frame: bytes, voice: bool, known: bool = True) -> list[bytes]:
        """The frames of speech that this one brings, if any. `voice`: what the detector says; `known`: whether it tells
        of the room, as one that stands for a gap does not."""
        now = level(frame)
        room = self.room
        speech = voice and now > room + STANDS_OUT
        if known:
            self.remember(now)
        self.marks.append(speech)
        self.count += 1
        if self.open:
            if speech:
                self.last = self.count - 1
                self.over.append(now - room)
            self.open = self.marks.count(False) < ENDS
            return [frame]
        self.before.append(frame)
        self.over = [*self.over[-OF:], now - room] if speech else self.over[-OF:]
        if list(self.marks)[-OF:].count(True) < BEGINS:
            return []
        self.open = True
        self.first = self.count - OF + list(self.marks)[-OF:].index(True)
        self.last = self.count - 1
        out = list(self.before)
        self.before.clear()
        return out[-(self.count - self.first + BEFORE_NOISY) :] if self.noisy else out

    def forget(self) -> None:
        """Drop the utterance in hand. What the room sounds like is kept."""
        self.open = False
        self.before.clear()
        self.marks.extend([False] * OF_LATER)

    def remember(self, now: float) -> None:
        self.lately.append(now)
        insort(self.ordered, now)
        if len(self.lately) > ROOM:
            del self.ordered[bisect_left(self.ordered, self.lately.popleft())]
