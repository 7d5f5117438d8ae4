"""Strands for mends: laid by hand beside the vectors, and read from our own patterns."""

import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / "vectors")]
