"""Ears, for the rooms behind the door: which process listens with which model, started when first wanted and ended
when nobody has listened for a minute, so that its memory is given back."""

from __future__ import annotations

import json
import os
import queue
import secrets
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import hookside
from hookside.voice.heard import EngineLost, damaged_model

PATIENCE = 18.0  # seconds for an engine to load its model and begin to listen: pages wait for 20
TRIAL = 300.0  # seconds for the same with a large model on a slow disk
IDLE = 60.0  # seconds without listeners
MOST = 16  # listeners at once
# Listeners of one process. This library decodes with Python's lock in its hand, a breath of sound at a time: whose word
# is over waits until all of the same process are through. Vosk gives it back and takes all cores there are.
FULL = {"pocketsphinx": 2}
WAITING = 2000  # messages on their way to a process; one that takes no more is stuck
HEARING = (sys.executable, "-P", "-m", "hookside.voice.hearing")
OVER = EngineLost("no-engine", "The voice engine stopped by itself. Touch and keys go on; start listening again.")
SLOW = "The voice model is still being loaded. Start listening again in a moment."

Told = Callable[[str, dict[str, Any]], None]


@dataclass(frozen=True)
class Wanted:
    """Which engine: "vosk" with a model's folder, or "pocketsphinx"."""

    engine: str
    language: str
    folder: Path | None = None


@dataclass
class Ear:
    """One listening. `told` is called with what was heard, from a thread of the pool's."""

    id: str
    told: Told
    ready: threading.Event = field(default_factory=threading.Event)
    missing: list[str] = field(default_factory=list)
    lost: EngineLost | None = None


class Pool:
    """All the ears of this house."""

    def __init__(self, command: Sequence[str] = HEARING, patience: float = PATIENCE, idle: float = IDLE) -> None:
        self.command, self.patience, self.idle = command, patience, idle
        self.turn = threading.Lock()
        self.processes: list[Process] = []
        self.ears: dict[str, Process] = {}

    def listen(self, wanted: Wanted, about: dict[str, Any], told: Told) -> Ear:
        """Begin to listen; waits until the engine does. Raises EngineLost."""
        ear = Ear(secrets.token_hex(8), told)
        with self.turn:
            if len(self.ears) >= MOST:
                raise EngineLost("busy", f"{MOST} devices listen already: stop listening on one of them.")
            process = self.place(wanted, ear)
            self.ears[ear.id] = process
        process.send({"do": "listen", "ear": ear.id, **about})
        if not ear.ready.wait(self.patience):
            self.unlisten(ear.id)
            raise EngineLost("busy", SLOW)
        if ear.lost is not None:
            self.unlisten(ear.id)
            raise ear.lost
        return ear

    def place(self, wanted: Wanted, ear: Ear) -> Process:
        """The process that takes this ear: one that has the model and room, or a new one."""
        self.processes = [p for p in self.processes if p.reason is None]
        for process in self.processes:
            room = process.wanted == wanted and len(process.ears) < FULL.get(wanted.engine, MOST)
            if room and process.begin(ear):
                return process
        process = Process(self, wanted)
        process.begin(ear)
        self.processes.append(process)
        return process

    def tell(self, ear: str, message: dict[str, Any], sound: bytes = b"") -> None:
        """Pass on what the page sends: sound, what to expect, being deaf."""
        process = self.ears.get(ear)
        if process is not None:
            process.send({**message, "ear": ear, "at": time.monotonic(), "bytes": len(sound)}, sound)

    def unlisten(self, ear: str) -> None:
        with self.turn:
            process = self.ears.pop(ear, None)
            if process is not None:
                process.finish(ear)

    def close(self) -> None:
        with self.turn:
            ending = list(self.processes)
            self.processes.clear()
            self.ears.clear()
        for process in ending:
            process.close()


class Process:
    """One hearing process. Its two threads do all reading and writing, so that nobody waits for it."""

    def __init__(self, pool: Pool, wanted: Wanted) -> None:
        self.pool, self.wanted = pool, wanted
        self.ears: dict[str, Ear] = {}
        self.lock = threading.Lock()
        self.out: queue.Queue[bytes | None] = queue.Queue(WAITING)
        self.reason: EngineLost | None = None  # why it is over
        self.loaded = threading.Event()  # with its model, or over
        self.late: threading.Timer | None = None
        here = str(Path(hookside.__file__).resolve().parents[1])
        paths = os.pathsep.join(p for p in (here, os.environ.get("PYTHONPATH", "")) if p)
        folder = [str(wanted.folder)] if wanted.folder else []
        self.process = subprocess.Popen(
            [*pool.command, wanted.engine, wanted.language, *folder],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": paths},
            start_new_session=True,  # a Ctrl+C in the terminal is for the server, which then ends this one
        )
        self.threads = [threading.Thread(target=t, daemon=True) for t in (self.read, self.write)]
        for thread in self.threads:
            thread.start()

    def begin(self, ear: Ear) -> bool:
        """False where it has ended."""
        with self.lock:
            if self.reason is not None:
                return False
            if self.late is not None:
                self.late.cancel()
                self.late = None
            self.ears[ear.id] = ear
            return True

    def finish(self, ear: str) -> None:
        with self.lock:
            if self.ears.pop(ear, None) is None:
                return
            if not self.ears:
                self.late = threading.Timer(self.pool.idle, self.rest)
                self.late.daemon = True
                self.late.start()
        self.send({"do": "unlisten", "ear": ear})

    def rest(self) -> None:
        """Nobody has listened for a while."""
        with self.pool.turn, self.lock:
            if self.ears:
                return
            self.reason = OVER
        self.close()

    def close(self) -> None:
        """End it; nobody is told. Safe to call again."""
        with self.lock:
            self.ears.clear()
            self.reason = self.reason or OVER
            if self.late is not None:
                self.late.cancel()
        if self.process.poll() is None:
            self.process.kill()
        for thread in self.threads:
            if thread is not threading.current_thread():
                self.end_writing()
                thread.join(5)
        self.process.wait()

    def end_writing(self) -> None:
        try:
            self.out.put_nowait(None)
        except queue.Full:
            self.process.kill()  # its end breaks the pipe that is being written to

    # -- the two threads ----------------------------------------------------------

    def send(self, message: dict[str, Any], sound: bytes = b"") -> None:
        try:
            self.out.put_nowait(json.dumps(message, separators=(",", ":")).encode() + b"\n" + sound)
        except queue.Full:
            self.process.kill()  # stuck: its end is told like any other

    def write(self) -> None:
        assert self.process.stdin is not None
        try:
            with self.process.stdin as pipe:
                while (data := self.out.get()) is not None:
                    pipe.write(data)
                    pipe.flush()
        except OSError:
            return  # it has ended, and reading tells

    def read(self) -> None:
        assert self.process.stdout is not None
        with self.process.stdout as pipe:
            for line in pipe:
                try:
                    message = json.loads(line)
                except ValueError:
                    break  # not ours
                self.hear(message)
        self.process.kill()
        self.process.wait()
        self.end_writing()
        self.gone()

    def hear(self, message: dict[str, Any]) -> None:
        event = message.pop("event")
        if event == "engine":
            if not message["ok"]:
                with self.lock:
                    self.reason = EngineLost(message["code"], message["say"])
            self.loaded.set()
            return
        ear = self.ears.get(message["ear"])
        if ear is None:
            return
        if event == "listening":
            ear.missing = message["missing"]
            ear.ready.set()
        elif event == "lost":
            self.lose(ear, EngineLost(message["code"], message["say"]))
        else:
            if "at" in message:
                message["ms"] += 1000 * (time.monotonic() - message.pop("at"))
            ear.told(event, message)

    def gone(self) -> None:
        """The process has ended: whoever still listened is told."""
        model = self.wanted.folder
        with self.lock:
            listening = list(self.ears.values())
            if self.reason is None:
                # A library may end the process over a model.
                self.reason = OVER if self.loaded.is_set() or model is None else damaged_model(model)
            reason = self.reason
        self.loaded.set()
        for ear in listening:
            self.lose(ear, reason)

    def lose(self, ear: Ear, why: EngineLost) -> None:
        ear.lost = why
        if not ear.ready.is_set():
            ear.ready.set()  # whoever waits for it is told by that
        else:
            self.pool.unlisten(ear.id)
            ear.told("lost", {"ear": ear.id, "code": why.code, "say": why.say})


def trial(language: str, folder: Path) -> None:
    """Load a model once, where it can end nobody but itself. Raises EngineLost."""
    process = Process(Pool(), Wanted("vosk", language, folder))
    try:
        loaded = process.loaded.wait(TRIAL)
        if process.reason is not None or not loaded:
            raise process.reason or damaged_model(folder)
    finally:
        process.close()
