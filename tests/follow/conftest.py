"""The vectors' own helpers lie beside them, where the page's tests read the same files."""

import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / "vectors")]
