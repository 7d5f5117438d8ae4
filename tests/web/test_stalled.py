"""The short form of tests/long/stalled.py: connections that stall at every stage, and a tablet beside them."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

SCRIPT = Path(__file__).resolve().parents[1] / "long" / "stalled.py"


def test_a_good_client_is_served_beside_every_kind_of_stalled_ones() -> None:
    command = [sys.executable, str(SCRIPT), "--count", "40", "--seconds", "0.5"]
    told = subprocess.run(command, capture_output=True, text=True, timeout=240)
    assert told.returncode == 0, told.stdout + told.stderr
    result = json.loads(told.stdout.splitlines()[-1])
    assert len(result["seen"]) == 8
    assert all(kind["asked"] for kind in result["seen"].values())
