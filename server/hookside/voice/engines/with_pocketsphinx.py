"""pocketsphinx, with the English model inside its wheel: works the minute Hookside is installed.

Each listener has a decoder for the phrases and one that follows the sounds of the language with no words at all (the
phone loop). A grammar turns any sound into the nearest phrase; how much worse the phrase fits than the freest path
tells whether it was said. Both are made with an empty dictionary and learn the words of their phrases alone: so made,
a pair takes 15 ms and 9 MB, and what its phrases take (25 MB for all of English), instead of 190 ms and 58 MB before
any phrase. So each listener gets a new one: one that was handed on would still have the noise of another room in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

from hookside.voice import endpoint
from hookside.voice.engines import Row
from hookside.voice.engines.grammar import jsgf, steps
from hookside.voice.engines.utterances import Utterances
from hookside.voice.heard import RATE, EngineLost, Heard, Span

LEAST = 1e-300  # likelihood of a word that does not fit at all
FRAME = 0.01  # seconds of one frame of the decoder
# What a chance in a grammar weighs beside the sounds. The library's own 6.5 is for pages of dictation: with it a long
# phrase among many, and each pause, cost as much as several wrong sounds, and over babble the short ones won.
WEIGHT = 1.0
# Seconds of silence before a phrase whose last word is lost: within talk every other breath begins like one.
QUIET_CUT = 1.0
STRICT = 2  # of 0 to 3: 0 hears voices in everything, 3 misses soft words
NO_SOUNDS = {"SIL", "+NSN+", "+SPN+"}


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
        self.known: dict[str, list[tuple[str, str]]] = {}
        model = Path(pocketsphinx.get_model_path("en-us"))
        self.acoustics, self.loop = str(model / "en-us"), str(model / "en-us-phone.lm.bin")
        try:
            self.dictionary = b"\n" + (model / "cmudict-en-us.dict").read_bytes()
        except OSError as e:
            raise damaged(e) from e

    def vocabulary(self, words: Iterable[str]) -> set[str]:
        return {word for word in words if self.pronounced(word)}

    def recogniser(self, phrases: Sequence[str]) -> SphinxRecogniser:
        return SphinxRecogniser(self, phrases)

    def close(self) -> None:
        """Nothing is held but the list of words."""

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
        # All sounds in every frame: else a frame is held against those of the phrases alone, and nothing fits badly.
        return (
            self.decoder(lm=None, dict=None, compallsen=True, lw=WEIGHT),
            self.decoder(dict=None, allphone=self.loop),
        )


def cut_short(phrases: Iterable[str]) -> dict[str, str]:
    """Phrases without their last word to the whole, where nothing else begins like that and it is two words at least:
    over babble the end of "ready to sew up" may be too soft, while no other phrase begins like it. Its sounds are held
    against those heard like any other's, and those of the lost word are missing."""
    whole: dict[str, set[str]] = {}
    for phrase in phrases:
        words = phrase.split()
        for n in range(2, len(words)):
            whole.setdefault(" ".join(words[:n]), set()).add(phrase)
    return {
        part: phrase
        for part, (phrase, *more) in ((part, sorted(found)) for part, found in whole.items())
        if not more and len(part.split()) == len(phrase.split()) - 1 and part not in phrases
    }


def damaged(e: Exception) -> EngineLost:
    return EngineLost(
        "damaged", f"The English model of pocketsphinx does not work ({e}): delete the folder .venv and start again."
    )


class SphinxRecogniser(Utterances):
    """One listener."""

    def __init__(self, engine: Sphinx, phrases: Sequence[str]) -> None:
        super().__init__(phrases)
        self.engine = engine
        self.phrase, self.loop = engine.pair()
        self.decoders = [self.phrase, self.loop]
        self.detector = engine.library.Vad(STRICT, RATE, endpoint.FRAME)
        self.cut_short: dict[str, str] = {}
        self.ready()

    def close(self) -> None:
        self.reset()
        self.phrase = self.loop = None
        self.decoders = []

    def voice(self, frame: bytes) -> bool:
        return bool(self.detector.is_speech(frame))

    def begin(self) -> None:
        for decoder in self.decoders:
            decoder.start_utt()

    def learn(self, phrases: tuple[str, ...], row: Row | None) -> None:
        known = []
        for phrase in (*phrases, *(row.said if row else ())):
            ways = [self.engine.pronounced(word) for word in phrase.split()]
            if all(ways):
                known.append(phrase)
            for name, sounds in (way for word in ways for way in word):
                if self.phrase.lookup_word(name) is None:
                    self.phrase.add_word(name, sounds, False)
        self.cut_short = {} if row else cut_short(known)
        if row is None:
            self.phrase.add_jsgf_string("phrases", jsgf(known))
        else:
            last, transitions = steps([p for p in known if p not in row.said], row)
            self.phrase.add_fsg("phrases", self.phrase.create_fsg("phrases", 0, last, transitions))
        self.phrase.activate_search("phrases")

    def take(self, sound: bytes) -> bool:
        for decoder in self.decoders:
            decoder.process_raw(sound)
        return False

    def drop(self) -> None:
        for decoder in self.decoders:
            decoder.end_utt()

    def end(self, quiet: float) -> Heard:
        self.drop()
        best, loop = self.phrase.hyp(), self.loop.hyp()
        start, end = self.speech
        spans = tuple(self.spans()) if best else ()
        words = best.hypstr if best else ""
        if words in self.cut_short and spans and self.ends.noisy and quiet >= QUIET_CUT:
            lost = self.cut_short[words].removeprefix(words).strip()
            words = self.cut_short[words]
            spans += (Span(lost, spans[-1].end, spans[-1].end, spans[-1].sure, self.engine.pronounced(lost)[0][1]),)
        score = None
        if best is not None and loop is not None and best.score > 0 and loop.score > 0:
            # By frames of speech: silence fits both alike. Where words were found in what the room covered, by theirs.
            seconds = max(end - start, spans[-1].end - spans[0].start) if self.once_more and spans else end - start
            score = (math.log(best.score) - math.log(loop.score)) / (seconds / FRAME) * 1e4
        return Heard(
            words=words,
            start=start,
            end=end,
            quiet=quiet,
            score=score,
            engine=self.engine.name,
            spans=spans,
            above=self.ends.above if self.ends.noisy else None,
            phones=self.sounds(start, end, spans) if loop else None,
        )

    def sounds(self, start: float, end: float, spans: Sequence[Span]) -> str:
        """The freest path while there was speech or a word: what the room says before and after is not part of it."""
        start, end = min([start, *(s.start for s in spans)]), max([end, *(s.end for s in spans)])
        return " ".join(
            part.word
            for part in self.loop.seg() or ()
            if part.word not in NO_SOUNDS
            and start <= self.began + (part.start_frame + part.end_frame + 1) / 2 * FRAME <= end
        )

    def spans(self) -> Iterator[Span]:
        """The words of the phrase one by one, pauses left out."""
        for part in self.phrase.seg() or ():
            if part.word[0] not in "<[+":
                begins, ends = (self.began + n * FRAME for n in (part.start_frame, part.end_frame + 1))
                word = part.word.split("(")[0]
                fit = math.log(max(part.ascore, LEAST)) / (part.end_frame - part.start_frame + 1)
                yield Span(word, begins, ends, fit, dict(self.engine.pronounced(word)).get(part.word))
