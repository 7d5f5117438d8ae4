"""How well Hookside hears: commands, talk that is none, babble, latency, counting along, recounts.

    python tests/long/voice.py [--out FILE] [--part NAME ...] [--share 1.0] [--at-once 2]

The long form takes an hour of two processors. Brings the voices and recordings from Debian by itself
(tests/listening/material.py). Everything goes through `voice/listening.py`, as the sound of a page does. Nothing that
is scored here was used to set a threshold. Each part is printed as JSON, and kept in FILE, when it is done, with its
date and machine; every rate has its minutes or cases and a 95 % upper bound.
"""

from __future__ import annotations

import argparse
import json
import os
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
    parser.add_argument("--at-once", type=int, default=2, help="parts beside each other")
    asked = parser.parse_args()
    try:
        material.bring()
    except material.NotHere as e:
        print(e)
        return 1
    names = asked.part or list(PARTS)
    with ProcessPoolExecutor(asked.at_once) as pool:
        for name, told, took in pool.map(run, [n for n in names if n != "latency"], [asked.share] * len(names)):
            keep(asked.out, name, told, took, asked.share)
    if "latency" in names:  # by itself, since it measures time
        keep(asked.out, *run("latency", asked.share), asked.share)
    return 0


def keep(out: Path | None, name: str, told: Any, took: float, share: float) -> None:
    """One part, as soon as it is measured; parts that were run before stay as they are."""
    about = {
        "when": datetime.now(UTC).isoformat(timespec="seconds"),
        "machine": f"{platform.machine()}, {os.cpu_count()} cores {platform.system()}, Python {sys.version.split()[0]}",
        "load": [round(n, 1) for n in os.getloadavg()],
        "share": share,  # of the material
        "seconds": round(took),  # of the processor
    }
    print(json.dumps({name: told, "about": about}), flush=True)
    if out is not None:
        whole = json.loads(out.read_text(encoding="utf-8")) if out.exists() else {}
        whole[name] = told
        whole.setdefault("about", {})[name] = about
        out.write_text(json.dumps(whole, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    sys.exit(main())
