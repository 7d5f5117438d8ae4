"""A file taken apart in a process of its own, which ends when it takes too long or too much."""

from __future__ import annotations

import json
import subprocess
import sys

from hookside.intake.taken import CannotTake, Taken

LARGEST_FILE = 20 << 20  # bytes
PATIENCE = 15.0  # seconds by the clock; the process itself is bounded in seconds of the processor
CHILD = (sys.executable, "-P", "-m", "hookside.intake.child")


def take(data: bytes, name: str) -> Taken:
    """The text of a file, by what is in it; `name` is how sentences call it. CannotTake, with a sentence."""
    name = " ".join(name.split())[:80] or "This file"
    if len(data) > LARGEST_FILE:
        raise CannotTake(f"{name} is larger than {LARGEST_FILE >> 20} MB: save the pattern's pages alone.")
    slow = f"{name} takes longer than Hookside reads: save the pattern's pages alone, or copy the text and paste it."
    try:
        done = subprocess.run(
            [*CHILD, name], input=data, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, timeout=PATIENCE, check=False
        )
    except subprocess.TimeoutExpired as e:
        raise CannotTake(slow) from e
    try:
        answer = json.loads(done.stdout)
    except ValueError as e:
        raise CannotTake(slow) from e
    if "cannot" in answer:
        raise CannotTake(answer["cannot"])
    return Taken(answer["text"], answer["kind"], answer["said"])
