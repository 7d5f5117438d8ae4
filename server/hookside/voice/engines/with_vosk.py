"""vosk, with a model of the language in a folder: better ears than pocketsphinx, and heavier.

The model is loaded from a folder made of links to it, so that its settings can be changed and it cannot. Where the
model can take a grammar, it is given the phrases and a way out for all other sound; where not, it writes down what it
hears, and that has to be a phrase.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import tempfile
import threading
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from hookside.voice.engines import Row
from hookside.voice.engines.utterances import Utterances
from hookside.voice.heard import RATE, EngineLost, Heard, Span, damaged_model

# Seconds of silence after which vosk itself ends an utterance: certain of the words, fairly, not at all. The endpointer
# is mostly sooner; these end what it does not, in noise.
ENDPOINT = {"rule2": 0.25, "rule3": 0.35, "rule4": 0.5}
ELSE = "[unk]"  # whatever is no phrase, in models that have a word for it


class Vosk:
    """The engine, with one model."""

    name = "vosk"

    def __init__(self, language: str, folder: Path, *, dither: float | None = None) -> None:
        """`dither` 0.0: the same sound comes out alike each time; None: as the model has it. Raises EngineLost."""
        try:
            import vosk
        except Exception as e:
            raise EngineLost(
                "no-engine", f"The voice library vosk is not there ({e}): start Hookside with server/start.py."
            ) from e
        self.library = vosk
        self.language, self.folder = language, folder
        self.lock = threading.Lock()
        vosk.SetLogLevel(-1)
        self.grammar = all((folder / "graph" / part).is_file() for part in ("Gr.fst", "HCLr.fst"))
        with tempfile.TemporaryDirectory(prefix="hookside-") as place:
            try:
                settled(folder, Path(place), dither)
                self.model: Any = vosk.Model(place)
            except Exception as e:
                raise damaged_model(folder) from e

    def vocabulary(self, words: Iterable[str]) -> set[str]:
        with self.lock:
            return {word for word in words if self.model.vosk_model_find_word(word) >= 0}

    def recogniser(self, phrases: Sequence[str]) -> VoskRecogniser:
        return VoskRecogniser(self, phrases)

    def close(self) -> None:
        self.model = None

    def kaldi(self, phrases: tuple[str, ...]) -> Any:
        """A recogniser of the library for phrases. Costs a millisecond."""
        if not self.grammar:
            made = self.library.KaldiRecognizer(self.model, RATE)
        else:
            known = self.vocabulary({word for phrase in phrases for word in [*phrase.split(), ELSE]})
            said = [phrase for phrase in phrases if known.issuperset(phrase.split())]
            grammar = [*said, *([ELSE] if ELSE in known or not said else [])]
            made = self.library.KaldiRecognizer(self.model, RATE, json.dumps(grammar, ensure_ascii=False))
        made.SetWords(True)
        return made


def settled(folder: Path, place: Path, dither: float | None) -> None:
    """Make in `place` the model of `folder` with our own endpoint rules."""
    for part in folder.iterdir():
        if part.name != "conf":
            try:
                os.symlink(part.resolve(), place / part.name, target_is_directory=part.is_dir())
            except OSError:  # Windows without the right to make links
                (shutil.copytree if part.is_dir() else shutil.copyfile)(part, place / part.name)
    if (folder / "conf").is_dir():
        shutil.copytree(folder / "conf", place / "conf")
        change(place / "conf" / "model.conf", {f"endpoint.{r}.min-trailing-silence": s for r, s in ENDPOINT.items()})
        if dither is not None:
            change(place / "conf" / "mfcc.conf", {"dither": dither})


def change(file: Path, settings: dict[str, float]) -> None:
    """Set options in a file of them, one a line as --name=value."""
    lines = file.read_text(encoding="utf-8").splitlines() if file.exists() else []
    kept = [line for line in lines if (m := re.match(r"--([\w.-]+)=", line)) is None or m[1] not in settings]
    file.write_text("\n".join([*kept, *(f"--{name}={value}" for name, value in settings.items()), ""]), "utf-8")


class VoskRecogniser(Utterances):
    """One listener. The library gets the speech and none of the silence between."""

    def __init__(self, engine: Vosk, phrases: Sequence[str]) -> None:
        super().__init__(phrases)
        self.engine = engine
        self.phrase: Any = None
        self.earlier = 0.0  # seconds that the recogniser of phrases had taken before this utterance
        self.taken = 0.0  # and with it
        self.ready()

    def close(self) -> None:
        self.reset()
        self.phrase = None

    def voice(self, frame: bytes) -> bool:
        return True  # loud enough is enough: the model itself tells a needle from a voice

    def learn(self, phrases: tuple[str, ...], row: Row | None) -> None:
        # A recogniser that has begun cannot change its grammar: vosk would end the whole process.
        # Its grammar lets one phrase follow another, so that a row needs no more than its parts.
        self.phrase, self.taken = self.engine.kaldi((*phrases, *(row.said if row else ()))), 0.0

    def begin(self) -> None:
        self.earlier = self.taken

    def take(self, sound: bytes) -> bool:
        self.taken += len(sound) / 2 / RATE
        return bool(self.phrase.AcceptWaveform(sound))

    def drop(self) -> None:
        self.phrase.FinalResult()

    def end(self, quiet: float) -> Heard:
        told = json.loads(self.phrase.FinalResult())
        offset = self.began - self.earlier
        spans = tuple(
            Span(part["word"], offset + part["start"], offset + part["end"], part["conf"])
            for part in told.get("result", ())
        )
        start, end = self.speech
        return Heard(
            words=told.get("text", ""),
            start=start,
            end=end,
            quiet=quiet,
            score=min((part["conf"] for part in told.get("result", ())), default=None),
            engine=self.engine.name,
            spans=spans,
        )
