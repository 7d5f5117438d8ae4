"""Courses drawn at random come from beside the tests of words."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "words"))
