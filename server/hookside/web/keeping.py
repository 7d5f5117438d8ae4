"""Backups while serving: one at the start and one every few hours, each made by a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from pathlib import Path

import hookside

EVERY = 6 * 3600.0  # seconds; where nothing changed none is made
SOON = 60.0  # seconds after the start: the first minute is for who begins, on a small machine too


class Keeping:
    """Looks after the backups of a folder from `with` to the end of it."""

    def __init__(self, folder: Path, soon: float = SOON, every: float = EVERY) -> None:
        self.folder = folder
        self.soon, self.every = soon, every
        self.over = threading.Event()
        self.process: subprocess.Popen[bytes] | None = None
        self.turn = threading.Lock()
        self.thread = threading.Thread(target=self.run, daemon=True, name="backups")

    def __enter__(self) -> Keeping:
        self.thread.start()
        return self

    def run(self) -> None:
        wait = self.soon
        while not self.over.wait(wait):
            self.once()
            wait = self.every

    def once(self) -> int:
        """Make the backup that is due; the exit code of the process."""
        here = str(Path(hookside.__file__).resolve().parents[1])
        paths = os.pathsep.join(p for p in (here, os.environ.get("PYTHONPATH", "")) if p)
        with self.turn:
            if self.over.is_set():
                return 0
            self.process = subprocess.Popen(
                [sys.executable, "-P", "-m", "hookside.journal.rotating", str(self.folder)],
                stdin=subprocess.DEVNULL, env={**os.environ, "PYTHONPATH": paths}, start_new_session=True,
            )  # fmt: skip
        return self.process.wait()

    def __exit__(self, *_: object) -> None:
        with self.turn:
            self.over.set()
            if self.process is not None and self.process.poll() is None:
                self.process.terminate()  # it leaves a part behind at worst, which the next one removes
        self.thread.join(5)
