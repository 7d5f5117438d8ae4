"""The vectors, replayed move by move. frontend/src/follow/stepping.test.ts does the same in TypeScript."""

from __future__ import annotations

import subprocess
import sys
from typing import get_args

import pytest
from reading import HERE, vectors
from replaying import difference

from hookside import follow
from hookside.follow.making import IntentName, Status
from hookside.follow.stepping import RefusalCode, Unit

CASES = {f"{folder}/{name}": case for folder in ("follow", "bad", "traces") for name, case in vectors(folder).items()}


def test_there_are_vectors_of_every_kind() -> None:
    assert {name.split("/")[0] for name in CASES} == {"follow", "bad", "traces"}
    assert {case["format"] for case in CASES.values()} == {1}
    assert all(case["why"].endswith((".", "seed " + case["why"].split()[-1])) for case in CASES.values())


@pytest.mark.parametrize("name", CASES)
def test_case(name: str) -> None:
    assert difference(follow, CASES[name]) is None


def test_cases_written_by_hand_name_every_word_there_is() -> None:
    moves = [move for name, case in CASES.items() if not name.startswith("traces") for move in case["moves"]]
    assert {move["refusal"] for move in moves if "refusal" in move} == set(get_args(RefusalCode))
    assert {move["do"]["intent"] for move in moves} == set(get_args(IntentName))
    assert {move["status"] for move in moves if "status" in move} == set(get_args(Status))
    assert {move["do"].get("unit") for move in moves} >= set(get_args(Unit))
    assert {move["do"].get("unit") for move in moves if move["do"]["intent"] == "back" and "to" in move} >= set(
        get_args(Unit)
    )


def test_what_is_made_by_program_is_still_what_it_makes() -> None:
    done = subprocess.run([sys.executable, str(HERE / "write.py"), "--check"], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
