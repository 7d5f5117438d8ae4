"""Where things lie: the data folder of this maker's house, and the patterns that come with Hookside."""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs


def data_folder() -> Path:
    """The folder of journal, port and lock. `HOOKSIDE_HOME` overrides the system's usual place."""
    home = os.environ.get("HOOKSIDE_HOME")
    return Path(home).expanduser() if home else platformdirs.user_data_path("hookside", appauthor=False)


def static_folder() -> Path:
    """Where the built page lies; it may not be there yet."""
    return Path(__file__).parent / "static"


def own_patterns() -> list[Path]:
    """The patterns of our own, by name: inside the package, or beside it in a source tree."""
    here = Path(__file__).parent
    folder = next((f for f in (here / "patterns", here.parents[1] / "patterns") if f.is_dir()), None)
    return sorted(folder.glob("*.txt")) if folder else []
