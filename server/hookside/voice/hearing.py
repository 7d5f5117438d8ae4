"""The hearing process: one engine with its model, a thread for each listener. `pool.py` starts it and speaks with it.

Decoding takes the processor, models take memory, and a damaged model can make its library end the whole process: here
none of this touches those who work. What travels is one line of JSON, and behind it as many bytes as its "bytes" says.

    in   {"do": "listen", "ear", ...what is listened for}, then for that ear {"do": "sound", "seq", "quiet", "at",
         "bytes"} with the sound, {"do": "expect", ...}, {"do": "deaf", "on"}, {"do": "unlisten"}
    out  {"event": "engine", "ok", "code", "say"} once, then {"event": "listening" | "heard" | "counted" | "lost" |
         "log", "ear", ...}
"""

from __future__ import annotations

import ctypes
import json
import os
import queue
import sys
import threading
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Any, Final

from hookside.voice.engines import Engine
from hookside.voice.heard import EngineLost

WAITING: Final = 200  # packets of one listener: 10 s of sound. What comes beyond is thrown away
BROKEN: Final = "The listening part of Hookside stumbled. Touch and keys go on; start listening again."


def engine(name: str, language: str, folder: Path | None) -> Engine:
    """The engine of this name. Raises EngineLost."""
    if name == "vosk" and folder is not None:
        from hookside.voice.engines.with_vosk import Vosk

        dither = os.environ.get("HOOKSIDE_VOICE_DITHER")  # for tests, which must come out alike each time
        return Vosk(language, folder, dither=None if dither is None else float(dither))
    from hookside.voice.engines.with_pocketsphinx import Sphinx

    return Sphinx(language)


class Mouth:
    """Says things to the other side, a whole line at a time."""

    def __init__(self, out: IO[bytes]) -> None:
        self.out = out
        self.turn = threading.Lock()

    def say(self, event: str, **more: Any) -> None:
        line = json.dumps({"event": event, **more}, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"
        with self.turn:
            self.out.write(line)
            self.out.flush()


class Listener(threading.Thread):
    """One listener."""

    def __init__(self, engine: Engine, asked: dict[str, Any], mouth: Mouth) -> None:
        super().__init__(daemon=True)
        self.engine, self.asked, self.mouth = engine, asked, mouth
        self.ear: str = asked["ear"]
        self.over = False
        self.waiting: queue.SimpleQueue[tuple[dict[str, Any], bytes] | None] = queue.SimpleQueue()
        self.start()

    def put(self, message: dict[str, Any], sound: bytes) -> None:
        """Called by the thread that reads: never waits. The gap in the sequence tells of sound thrown away."""
        if message["do"] != "sound" or self.waiting.qsize() < WAITING:
            self.waiting.put((message, sound))

    def stop(self) -> None:
        """What still lies there is thrown away."""
        self.over = True
        self.waiting.put(None)

    def run(self) -> None:
        from hookside.voice.listening import Listening  # not needed to try a model

        listening = None
        try:
            listening = Listening(self.engine, self.asked, lambda event, **m: self.mouth.say(event, ear=self.ear, **m))
            self.mouth.say("listening", ear=self.ear, missing=listening.missing)
            while (message := self.waiting.get()) is not None and not self.over:
                listening.hear(*message)
        except EngineLost as e:
            self.mouth.say("lost", ear=self.ear, code=e.code, say=e.say)
        except Exception as e:
            traceback.print_exception(e)
            self.mouth.say("lost", ear=self.ear, code="broken", say=BROKEN)
        finally:
            self.over = True
            if listening is not None:
                listening.close()
            give_back()


def give_back() -> None:
    """Memory that was freed goes back to the system, where the C library can."""
    if sys.platform == "linux":
        try:
            ctypes.CDLL(None).malloc_trim(0)
        except (OSError, AttributeError):
            return  # another C library


@contextmanager
def without_noise() -> Iterator[None]:
    """What a library says in the terminal about a model it cannot load is for those who made the library."""
    kept, nowhere = os.dup(2), os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 2)
    try:
        yield
    finally:
        os.dup2(kept, 2)
        os.close(kept)
        os.close(nowhere)


def serve(inp: IO[bytes], out: IO[bytes], name: str, language: str, folder: Path | None) -> None:
    """Listen until the other side is gone."""
    mouth = Mouth(out)
    try:
        with without_noise():
            loaded = engine(name, language, folder)
    except EngineLost as e:
        mouth.say("engine", ok=False, code=e.code, say=e.say)
        return
    mouth.say("engine", ok=True)
    listeners: dict[str, Listener] = {}
    for line in inp:
        message = json.loads(line)
        sound = inp.read(message.get("bytes", 0))
        ear = message["ear"]
        if message["do"] == "listen":
            listeners[ear] = Listener(loaded, message, mouth)
        elif message["do"] == "unlisten":
            gone = listeners.pop(ear, None)
            if gone is not None:
                gone.stop()
        elif ear in listeners:
            listeners[ear].put(message, sound)


def main() -> None:
    name, language, *folder = sys.argv[1:]
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # whatever a library prints does not get between
    serve(sys.stdin.buffer, out, name, language, Path(folder[0]) if folder else None)
    out.flush()
    os._exit(0)  # threads inside a library are not waited for


if __name__ == "__main__":
    main()
