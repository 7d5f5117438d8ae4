"""Ten devices listen at once, each to an utterance every two seconds, in real time: is everything heard, and how long
after the end of the speech? Prints one line of JSON: milliseconds on the server, processor time of the listening.

    python tests/long/listeners.py [--out FILE]      a minute; says nothing on a machine that does other work
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import random
import sys
import threading
import time
import wave
from array import array
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "server"))

from hookside.voice.heard import BYTES_A_SECOND, RATE  # noqa: E402
from hookside.voice.pool import Pool, Wanted  # noqa: E402

SOUNDS = ROOT / "tests" / "voice" / "sounds"
NAMES = [f"{voice}-{phrase}" for voice in ("slt", "rms", "awb") for phrase in
         ("next-stitch", "round-done", "where-now", "go-back")]  # fmt: skip
LISTENERS, SAID, PACKET = 10, 24, 1600


def still(seconds: float) -> bytes:
    chance = random.Random(1)
    return array("h", (chance.randint(-20, 20) for _ in range(int(seconds * RATE)))).tobytes()


def utterance(name: str) -> bytes:
    with wave.open(str(SOUNDS / f"{name}.wav")) as file:
        said = file.readframes(file.getnframes())
    return said + still(2.0 - len(said) / BYTES_A_SECOND)


def listen(pool: Pool, number: int, heard: list[dict[str, Any]]) -> None:
    names = [NAMES[(number + k) % len(NAMES)] for k in range(SAID)]
    told: list[dict[str, Any]] = []
    about = {"language": "en", "single": False, "log": False, "count": None}
    ear = pool.listen(Wanted("pocketsphinx", "en"), about, lambda event, said: told.append(said))
    stream = still(1.0 + 0.21 * number) + b"".join(map(utterance, names)) + still(0.5)
    begun = time.monotonic()
    for seq, at in enumerate(range(0, len(stream), PACKET)):
        time.sleep(max(0.0, begun + at / BYTES_A_SECOND - time.monotonic()))
        pool.tell(ear.id, {"do": "sound", "seq": seq, "quiet": 0}, stream[at : at + PACKET])
    time.sleep(3)
    pool.unlisten(ear.id)
    wanted = [" ".join(name.split("-")[1:]) for name in names]
    heard += [{**said, "right": said["words"] in wanted} for said in told]


def processor(pool: Pool) -> float:
    """Seconds of the processor that the hearing processes have taken so far."""
    total = 0.0
    for process in pool.processes:
        parts = Path(f"/proc/{process.process.pid}/stat").read_text(encoding="utf-8").rsplit(")", 1)[1].split()
        total += (int(parts[11]) + int(parts[12])) / 100
    return total


def main() -> int:
    parser = argparse.ArgumentParser(description="Ten devices listen at once.")
    parser.add_argument("--out", type=Path)
    out: Path | None = parser.parse_args().out
    load = os.getloadavg()[0]
    pool, heard = Pool(), list[dict[str, Any]]()
    begun = time.monotonic()
    threads = [threading.Thread(target=listen, args=(pool, n, heard)) for n in range(LISTENERS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    taken, seconds = processor(pool), time.monotonic() - begun
    pool.close()
    ms = sorted(said["ms"] for said in heard)
    right = sum(said["right"] for said in heard)
    result = {
        "when": datetime.now(UTC).isoformat(timespec="seconds"),
        "machine": f"{platform.machine()}, {os.cpu_count()} cores {platform.system()}, Python {sys.version.split()[0]}",
        "load_before": round(load, 2),
        "listeners": LISTENERS,
        "said": LISTENERS * SAID,
        "heard": right,
        "ms_median": round(ms[len(ms) // 2]),
        "ms_p95": round(ms[int(0.95 * len(ms))]),
        "cores_taken": round(taken / seconds, 2),
    }
    print(json.dumps(result))
    if out is not None:
        out.write_text(json.dumps(result, indent=1) + "\n", encoding="utf-8")
    return 0 if right >= 0.95 * LISTENERS * SAID and ms[len(ms) // 2] < 350 else 1


if __name__ == "__main__":
    sys.exit(main())
