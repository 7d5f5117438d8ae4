"""kill -9 at random moments: nothing acknowledged is lost, nothing is doubled. tests/long/kill.py does it for hours."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

KILL = Path(__file__).resolve().parents[1] / "long" / "kill.py"


def test_thirty_kills() -> None:
    done = subprocess.run([sys.executable, str(KILL), "--count", "30"], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    result = json.loads(done.stdout.splitlines()[-1])
    assert result["kills"] == 30
    assert result["acknowledged"] > 0
    assert (result["lost"], result["doubled"], result["wrong"]) == (0, 0, [])
