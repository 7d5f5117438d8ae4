"""Tests in a real browser share `pages.py`, which lies beside them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
