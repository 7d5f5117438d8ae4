"""The scripts of tests/long for a few seconds each: what must hold there must hold here. Times are not looked at."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

LONG = Path(__file__).resolve().parents[1] / "long"


def result(script: str, *words: str) -> dict[str, Any]:
    done = subprocess.run([sys.executable, str(LONG / script), *words], capture_output=True, text=True)
    assert done.stdout.strip(), done.stderr
    told: dict[str, Any] = json.loads(done.stdout.splitlines()[-1])
    return told


def test_cuts_and_kills_of_a_server() -> None:
    told = result("cuts.py", "--cuts", "8", "--kills", "1")
    assert told["made"] > 8
    assert [told[name] for name in ("lost", "doubled", "other_answers", "wrong", "stumbled")] == [0, 0, 0, [], []]


def test_offline_moves_come_home() -> None:
    told = result("sync.py", "--count", "1500")
    assert (told["applied"], told["place"], told["rows"]) == (1500, 1500, 1500)
    assert (told["wrong"], told["stumbled"]) == ([], [])


def test_clients_at_work() -> None:
    told = result("load.py", "--clients", "12", "--seconds", "3")
    assert told["moves"] >= 24
    assert (told["errors"], told["lost"], told["stumbled"]) == ([], 0, [])


def test_hostile_texts_and_payloads() -> None:
    told = result("hostile.py", "--count", "300")
    assert sum(told["asked"].values()) >= 300
    assert (told["crashes"], told["stumbled"], told["broken"]) == (0, [], [])
    assert told["still_works"] is True


def test_hostile_pages() -> None:
    told = result("hostile_pages.py", "--page", "stars", "--page", "cells with bars")
    assert set(told["seconds and megabytes"]) == {"stars", "cells with bars"}
