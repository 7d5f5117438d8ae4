"""The vectors' own helpers lie beside them, where the page's tests read the same files."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "vectors"))
