"""The log of decisions: what was heard, how it was judged and by which scores. Kept only where it is asked for, by
HOOKSIDE_VOICE_LOG=1, in `voice/decisions.log` of the data folder. Words and numbers; never sound."""

from __future__ import annotations

import json
import logging
import os
from logging.handlers import RotatingFileHandler
from pathlib import Path
from typing import Any

ASKED = "HOOKSIDE_VOICE_LOG"
LARGEST = 1 << 20  # bytes of one file
OLDER = 3  # files kept beside it


class Decisions:
    """A line of JSON for each."""

    def __init__(self, data: Path) -> None:
        self.file = data / "voice" / "decisions.log"
        self.kept = os.environ.get(ASKED, "0") not in ("", "0")
        self.handler: RotatingFileHandler | None = None

    def write(self, said: dict[str, Any]) -> None:
        if not self.kept:
            return
        if self.handler is None:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            self.handler = RotatingFileHandler(self.file, maxBytes=LARGEST, backupCount=OLDER, encoding="utf-8")
            self.handler.setFormatter(logging.Formatter("%(asctime)s %(message)s"))
        line = json.dumps(said, ensure_ascii=False)
        self.handler.handle(logging.LogRecord("voice", logging.INFO, "", 0, line, None, None))

    def close(self) -> None:
        if self.handler is not None:
            self.handler.close()
