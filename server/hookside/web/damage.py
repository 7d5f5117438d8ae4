"""What is said while the journal cannot be used: of a damaged one also its last good backup, and how to have it."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from pathlib import Path

from hookside.journal.backups import offer
from hookside.journal.trouble import Damaged, Trouble

LOOKED = 60.0  # seconds for which one look holds: each reads backups through, and pages ask again and again


class Damage:
    """Sentences about the journal in a folder. Never raises."""

    def __init__(self, folder: Path, clock: Callable[[], float] = time.monotonic) -> None:
        self.folder, self.clock = folder, clock
        self.turn = threading.Lock()
        self.found, self.until = "", 0.0

    def say(self, trouble: Trouble) -> str:
        """One trouble in words."""
        if not isinstance(trouble, Damaged):
            return trouble.say
        with self.turn:
            if not self.found or self.clock() >= self.until:
                try:
                    self.found = offer(self.folder)
                except (OSError, Trouble):  # the same disk; then the first sentence has to do
                    return trouble.say
                self.until = self.clock() + LOOKED
        return f"{trouble.say} {self.found}"
