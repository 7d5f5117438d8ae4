"""Tests in a real browser share `pages.py`, which lies beside them."""

from __future__ import annotations

import sys
from pathlib import Path

from playwright.sync_api import expect

sys.path.insert(0, str(Path(__file__).resolve().parent))

# What is waited for must come; how soon is measured elsewhere, on a machine that does nothing beside it.
expect.set_options(timeout=30_000)
