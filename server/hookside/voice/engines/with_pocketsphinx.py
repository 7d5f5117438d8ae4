"""pocketsphinx, with the English model inside its wheel: works the minute Hookside is installed.

Each listener has a decoder for the phrases and one that follows the sounds of the language with no words at all (the
phone loop). A grammar turns any sound into the nearest phrase; how much worse the phrase fits than the freest path
tells whether it was said. Both are made with an empty dictionary and learn the words of their phrases alone: so made,
a pair takes 9 MB and 15 ms instead of 58 MB and 190 ms.
"""

from __future__ import annotations

import math
import threading
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from hookside.voice.heard import BYTES_A_SECOND, RATE, EngineLost, Heard, Span

FRAME = 0.01  # seconds of one frame of the decoder
LONGEST = 5.0  # seconds of speech after which an utterance is ended: talk, or a noise that does not stop
BRIDGE = 0.9  # seconds of silence fed in place of a gap: more than ends any utterance
NO_VOICE = "40,3,-1"  # means of the sound before any was heard, as the library has it
IDLE = 2  # pairs of decoders kept for the next listener


class Sphinx:
    """The engine."""

    name = "pocketsphinx"

    def __init__(self, language: str = "en") -> None:
        if language != "en":
            raise EngineLost("no-model", "pocketsphinx comes with a model of English only.")
        try:
            import pocketsphinx
        except Exception as e:  # a library of the system that it needs may be what is missing
            raise EngineLost(
                "no-engine", f"The voice library pocketsphinx is not there ({e}): start Hookside with server/start.py."
            ) from e
        self.library = pocketsphinx
        self.language = language
        self.lock = threading.Lock()
        self.spare: list[tuple[Any, Any]] = []
        self.known: dict[str, list[tuple[str, str]]] = {}
        model = Path(pocketsphinx.get_model_path("en-us"))
        self.acoustics, self.loop = str(model / "en-us"), str(model / "en-us-phone.lm.bin")
        self.talk, self.words = str(model / "en-us.lm.bin"), str(model / "cmudict-en-us.dict")
        try:
            self.dictionary = b"\n" + Path(self.words).read_bytes()
        except OSError as e:
            raise damaged(e) from e

    def vocabulary(self, words: Iterable[str]) -> set[str]:
        return {word for word in words if self.pronounced(word)}

    def recogniser(self, phrases: Sequence[str], *, opinion: bool = False) -> SphinxRecogniser:
        with self.lock:
            pair = self.spare.pop() if self.spare else None
        return SphinxRecogniser(self, pair or self.pair(), self.talker() if opinion else None, phrases)

    def close(self) -> None:
        with self.lock:
            self.spare.clear()

    # -- parts ----------------------------------------------------------------

    def pronounced(self, word: str) -> list[tuple[str, str]]:
        """Each way a word is said, as (name in the decoder, sounds); empty where the dictionary lacks it."""
        if word not in self.known:
            ways = []
            for name in (word, *(f"{word}({n})" for n in range(2, 9))):
                at = self.dictionary.find(b"\n" + name.encode() + b" ")
                if at < 0:
                    break
                line = self.dictionary[at + 1 : self.dictionary.find(b"\n", at + 1)].decode()
                ways.append((name, line.split(" ", 1)[1].strip()))
            self.known[word] = ways
        return self.known[word]

    def decoder(self, **more: Any) -> Any:
        try:
            return self.library.Decoder(samprate=RATE, hmm=self.acoustics, loglevel="FATAL", **more)
        except Exception as e:
            raise damaged(e) from e

    def pair(self) -> tuple[Any, Any]:
        return self.decoder(lm=None, dict=None), self.decoder(dict=None, allphone=self.loop)

    def talker(self) -> Any:
        """A decoder of whole English: 96 MB, a fifth of a core while somebody speaks."""
        return self.decoder(lm=self.talk, dict=self.words)

    def give_back(self, pair: tuple[Any, Any]) -> None:
        with self.lock:
            if len(self.spare) < IDLE:
                self.spare.append(pair)


def damaged(e: Exception) -> EngineLost:
    return EngineLost(
        "damaged", f"The English model of pocketsphinx does not work ({e}): delete the folder .venv and start again."
    )


class SphinxRecogniser:
    """One listener. What is said is decoded while it is said, so that its end finds nothing left to do."""

    def __init__(self, engine: Sphinx, pair: tuple[Any, Any], talker: Any, phrases: Sequence[str]) -> None:
        self.engine = engine
        self.phrase, self.loop = pair
        self.talker = talker
        for decoder in self.decoders:
            decoder.set_cmn(NO_VOICE)  # it may come from another listener
        self.taught: set[str] = set()
        self.wanted: tuple[str, ...] | None = tuple(phrases)
        self.clock = 0.0
        self.last_end = 0.0  # of speech
        self.rest = b""
        self.open = False
        self.fresh_ears()

    @property
    def decoders(self) -> list[Any]:
        return [d for d in (self.phrase, self.loop, self.talker) if d is not None]

    def fresh_ears(self) -> None:
        """A new endpointer; its own clock begins here."""
        self.ears = self.engine.library.Endpointer(0.2, 0.8, 2, RATE)
        self.zero = self.clock - len(self.rest) / BYTES_A_SECOND

    def feed(self, pcm: bytes) -> list[Heard]:
        self.clock += len(pcm) / BYTES_A_SECOND
        sound, n, at, out = self.rest + pcm, self.ears.frame_bytes, 0, []
        while len(sound) - at >= n:
            heard = self.frame(sound[at : at + n])
            at += n
            if heard is not None:
                out.append(heard)
        self.rest = sound[at:]
        return out

    def gap(self, seconds: float) -> list[Heard]:
        bridge = min(seconds, BRIDGE)
        out = self.feed(bytes(2 * int(bridge * RATE)))
        if seconds > bridge:
            self.clock += seconds - bridge
            self.zero += seconds - bridge
        return out

    def expect(self, phrases: Sequence[str]) -> None:
        self.wanted = tuple(phrases)

    def reset(self) -> None:
        if self.open:
            for decoder in self.decoders:
                decoder.end_utt()
        self.open, self.rest = False, b""
        self.fresh_ears()
        self.last_end = self.clock

    def close(self) -> None:
        self.reset()
        self.engine.give_back((self.phrase, self.loop))
        self.talker = None

    # -- one utterance ----------------------------------------------------------

    def frame(self, sound: bytes) -> Heard | None:
        was, speech = self.ears.in_speech, self.ears.process(sound)
        if speech is None:
            return None
        if not was:
            self.begin(self.zero + self.ears.speech_start, whole=True)
        elif not self.open:
            self.begin(self.began + LONGEST, whole=False)
        for decoder in self.decoders:
            decoder.process_raw(speech)
        self.spoken += len(speech)
        if not self.ears.in_speech or self.spoken >= LONGEST * BYTES_A_SECOND:
            return self.end()
        return None

    def begin(self, at: float, whole: bool) -> None:
        if self.wanted is not None:
            self.learn(self.wanted)
            self.wanted = None
        self.open, self.began, self.whole, self.spoken = True, at, whole, 0
        for decoder in self.decoders:
            decoder.start_utt()

    def learn(self, phrases: tuple[str, ...]) -> None:
        for word in {word for phrase in phrases for word in phrase.split()} - self.taught:
            for name, sounds in self.engine.pronounced(word):
                if self.phrase.lookup_word(name) is None:
                    self.phrase.add_word(name, sounds, False)
            self.taught.add(word)
        known = [p for p in phrases if all(self.engine.pronounced(w) for w in p.split())]
        grammar = f"#JSGF V1.0; grammar phrases; public <phrase> = {' | '.join(known) or '<VOID>'} ;"
        self.phrase.add_jsgf_string("phrases", grammar)
        self.phrase.activate_search("phrases")

    def end(self) -> Heard | None:
        for decoder in self.decoders:
            decoder.end_utt()
        self.open = False
        best, loop = self.phrase.hyp(), self.loop.hyp()
        frames = self.spoken / BYTES_A_SECOND / FRAME
        spans = tuple(
            Span(s.word.split("(")[0], self.began + s.start_frame * FRAME, self.began + (s.end_frame + 1) * FRAME)
            for s in self.phrase.seg() or ()
            if s.word[0] not in "<["
        )
        ended = self.began + self.spoken / BYTES_A_SECOND
        start, end = (spans[0].start, spans[-1].end) if spans else (self.began, ended)
        quiet = max(0.0, start - self.last_end) if self.whole else 0.0
        self.last_end = end
        score = None
        if best is not None and loop is not None and best.score > 0 and loop.score > 0:
            score = (math.log(best.score) - math.log(loop.score)) / frames * 1e4
        free = None
        if self.talker is not None:
            told = self.talker.hyp()
            free = told.hypstr if told else ""
        phones = " ".join(s for s in loop.hypstr.split() if s not in ("SIL", "+NSN+", "+SPN+")) if loop else None
        return Heard(
            best.hypstr if best else "", start, end, quiet, score, free, self.engine.name, spans, phones
        )
