"""Small files that only this user may read, each written in one piece."""

from __future__ import annotations

import os
from pathlib import Path


def private_folder(folder: Path) -> None:
    """Make the folder of keys and devices, for this user alone. Never part of a backup. Raises OSError."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    os.chmod(folder, 0o700)


def keep(path: Path, content: bytes) -> None:
    """Write the file, 0600 from its first moment; the old one stays until the new one is whole. Raises OSError."""
    fresh = path.with_name(path.name + ".new")
    fresh.unlink(missing_ok=True)
    handle = os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    os.replace(fresh, path)
