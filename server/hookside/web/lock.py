"""One process for each data folder.

The lock is the system's own, held on an open file for as long as the process lives: a process that died left
none behind, whatever its file still says. Inside the file is who holds it and where to find them.
"""

from __future__ import annotations

import errno
import json
import os
import sys
import time
from pathlib import Path
from types import TracebackType
from typing import Self

NAME = "hookside.lock"
POLL = 0.05  # seconds
FAR = 1 << 30  # Windows locks bytes, not files, and keeps readers off them: lock one far behind the text


class Held(Exception):
    """Another process holds the folder. `url` is where it answers, None where it says nothing: it has not come to it
    yet, or is a command that will be done in a moment and answers nobody."""

    def __init__(self, url: str | None) -> None:
        super().__init__("another process holds the data folder")
        self.url = url


def grab(handle: int) -> bool:
    """Take the lock on an open file if it is free. Never waits."""
    try:
        if sys.platform == "win32":
            import msvcrt

            os.lseek(handle, FAR, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


class FolderLock:
    """Holds the folder from `with` to the end of it, or of the process. Raises Held."""

    def __init__(self, folder: Path, patience: float = 5.0) -> None:
        self.path = folder / NAME
        self.patience = patience  # seconds to wait for the holder to say where it answers, or to let go
        self.handle: int | None = None

    def __enter__(self) -> Self:
        flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_CLOEXEC", 0)
        until = time.monotonic() + self.patience
        while True:
            handle = os.open(self.path, flags, 0o600)
            if grab(handle):
                self.handle = handle
                self.write({"pid": os.getpid()})
                return self
            os.close(handle)
            url = self.holder()
            if url is not None or time.monotonic() >= until:
                raise Held(url)
            time.sleep(POLL)

    def tell(self, url: str) -> None:
        """Write down where this process answers."""
        self.write({"pid": os.getpid(), "url": url})

    def write(self, content: dict[str, object]) -> None:
        assert self.handle is not None, "the lock is not held"
        text = json.dumps(content).encode()
        os.lseek(self.handle, 0, os.SEEK_SET)
        try:
            os.write(self.handle, text)
            os.ftruncate(self.handle, len(text))
        except OSError as e:
            if e.errno not in (errno.ENOSPC, errno.EDQUOT):
                raise
            # The lock is held all the same; only a second start is not told where this one answers.

    def holder(self) -> str | None:
        """Where the holder says that it answers."""
        try:
            url = json.loads(self.path.read_text(encoding="utf-8")).get("url")
        except (OSError, ValueError, AttributeError):
            return None
        return url if isinstance(url, str) else None

    def __exit__(self, kind: type[BaseException] | None, e: BaseException | None, at: TracebackType | None) -> None:
        if self.handle is not None:
            os.close(self.handle)
            self.handle = None
