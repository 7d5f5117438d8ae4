"""How well Hookside hears: commands, talk that is none, babble, latency, counting along, recounts.

    python tests/long/voice.py [--out FILE] [--part NAME ...] [--share 1.0]      the long form: near an hour

Brings the voices and recordings from Debian by itself (tests/listening/material.py). Everything goes through
`voice/listening.py`, as the sound of a page does. Nothing that is scored here was used to set a threshold. The last
line printed is the result as JSON; every rate comes with its minutes or cases and a 95 % upper bound.
"""

from __future__ import annotations

import argparse
import json
import platform
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent / "listening"), str(HERE.parents[1] / "server")]

import material  # noqa: E402
import scoring  # noqa: E402

PARTS = scoring.PARTS


def run(name: str, share: float) -> tuple[str, Any, float]:
    began = time.process_time()
    return name, PARTS[name](share), time.process_time() - began


def main() -> int:
    parser = argparse.ArgumentParser(description="How well Hookside hears.")
    parser.add_argument("--out", type=Path)
    parser.add_argument("--part", action="append", choices=list(PARTS))
    parser.add_argument("--share", type=float, default=1.0, help="of the material, for a first look")
    asked = parser.parse_args()
    try:
        material.bring()
    except material.NotHere as e:
        print(e)
        return 1
    result: dict[str, Any] = {
        "when": datetime.now(UTC).isoformat(timespec="seconds"),
        "machine": f"{platform.machine()}, {platform.system()}, Python {platform.python_version()}",
        "shares": {},  # of the material, by part
        "seconds": {},  # of the processor
    }
    names = asked.part or list(PARTS)
    with ProcessPoolExecutor(2) as pool:
        for name, told, took in pool.map(run, [n for n in names if n != "latency"], [asked.share] * len(names)):
            result[name], result["seconds"][name], result["shares"][name] = told, round(took), asked.share
            print(name, json.dumps(told), flush=True)
    if "latency" in names:  # by itself, since it measures time
        _, result["latency"], took = run("latency", asked.share)
        result["seconds"]["latency"], result["shares"]["latency"] = round(took), asked.share
        print("latency", json.dumps(result["latency"]), flush=True)
    if asked.out and asked.out.exists():  # parts that were run on their own stay as they are
        before = json.loads(asked.out.read_text(encoding="utf-8"))
        result = {**before, **result, **{k: {**before[k], **result[k]} for k in ("shares", "seconds")}}
    text = json.dumps(result, indent=1)
    if asked.out:
        asked.out.write_text(text + "\n", encoding="utf-8")
    print(json.dumps(result))
    return 0


if __name__ == "__main__":
    sys.exit(main())
