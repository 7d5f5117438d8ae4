"""Makes the backup of a data folder that is due: `python -m hookside.journal.rotating FOLDER`.

A process of its own: reading a backup through takes time, and who is working must not wait for it.
"""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path

from hookside.journal.backups import rotate
from hookside.journal.journal import utc_now
from hookside.journal.trouble import Trouble


def main() -> int:
    with suppress(AttributeError, OSError):  # not on Windows
        os.nice(10)
    try:
        rotate(Path(sys.argv[1]), utc_now())
    except Trouble as trouble:
        print(f"No backup was made. {trouble.say}", file=sys.stderr, flush=True)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
