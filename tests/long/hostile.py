"""Pages that mean harm, each as long as a text may be: what the slowest and the hungriest of them take.

    .venv/bin/python tests/long/hostile.py

Each is read in a process of its own; seconds are of the processor, memory is all that the process ever held. The last
line is the result as JSON. Passed: none takes more than SECONDS or MEGABYTES.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

LONGEST = 256 * 1024  # bytes: the longest text that is read
SECONDS = 1.5
MEGABYTES = 200
SERVER = Path(__file__).resolve().parents[2] / "server"
READ = """
import resource, sys, time
from hookside.notation import read
text = sys.stdin.read()
read("Rnd 1: 6 sc in MR (6)")
begun = time.process_time()
read(text)
print(time.process_time() - begun, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def full(again: str, head: str = "", tail: str = "") -> str:
    """`again` until the page is full."""
    room = LONGEST - len((head + tail).encode())
    return head + again * (room // len(again.encode())) + tail


def rounds(body: str, first: str = "Rnd 1: 6 sc in MR (6)\n") -> str:
    """Numbered rounds until the page is full; {n} in the body is the number."""
    out, size, n = [first], len(first), 2
    while size < LONGEST - 100:
        out.append(f"Rnd {n}: {body.format(n=n)}\n")
        size += len(out[-1])
        n += 1
    return "".join(out)


# demo, each found slow once or likely to be
PAGES = {
    "list items": full("<li>sc</li>", "<ol>", "</ol>"),
    "list items with stitches": full("<li>6 sc (6)</li>", "<ol>", "</ol>"),
    "rounds on one line": "ROPE " + " ".join(f"Rnd {n}: sc." for n in range(1, 19_000)),
    "labels on one line": full("R1 "),
    "the same round": full("Rnd 1: 6 sc in MR\n"),
    "cells with semicolons": full("1;6 sc in MR;6\n"),
    "cells that never end": "".join(f"{n};sc in each st around;6\n" for n in range(1, 9_000)),
    "cells with bars": full("|1|6 sc in MR|6|\n"),
    "cells with tabs": full("1\t6 sc in MR\t6\n"),
    "cells below one another": full("1\nsc\n6\n"),
    "a table of a page": full("<tr><td>1</td><td>6 sc in MR</td><td>6</td></tr>", "<table>", "</table>"),
    "two columns": full("Rnd 1: 6 sc in MR (6)          Rnd 9: sc around (6)\n"),
    "brackets": full("((((sc, inc) x 2) x 2) x 2) x 2, ", "Rnd 1: 6 sc in MR\nRnd 2: "),
    "brackets without an end": full("( [ { ", "Rnd 1: 6 sc in MR\nRnd 2: "),
    "stars": full("*sc, inc; rep from * twice, ", "Rnd 1: 6 sc in MR\nRnd 2: "),
    "double meanings": rounds("2 sc in next 2 sts, sc inc, 3 inc, dec 3, sc x 2, inc x 3 around (77)"),
    "wrong counts": rounds("(sc, inc) x 5, dec, (2 sc, dec) x 3 ({n})"),
    "words nobody knows": rounds("wobble {n} gulls in the {n}th gap"),
    "references": rounds("repeat rnd {n}"),
    "until": full("repeat rnd 1 until 500 sts remain\n", "Rnd 1: 6 sc in MR\n"),
    "abbreviations": "Abbreviations:\n" + "".join(f"q{n} = 2 sc in next st\n" for n in range(9_000)),
    "headings": full("## Fin\n"),
    "pieces": full("FIN\nRnd 1: 6 sc in MR (6)\nRnd 2: same as fin\n"),
    "pieces like another": "FIN\nRnd 1: 6 sc in MR (6)\n" + "".join(f"FIN {n}\nWork as fin\n" for n in range(9_000)),
    "no spaces": full("Rnd1:6scinMR(6)"),
    "tiny lines": full("9\n"),
    "blank lines": full("\n", "Rnd 1: 6 sc in MR\n", "Rnd 2: inc x 6"),
    "one word": full("a"),
    "curly signs": full("\u201c\u2018\u2019\u00a0\u2013"),
}


def taken(text: str) -> tuple[float, float]:
    """Seconds and megabytes that reading a text takes."""
    done = subprocess.run(
        [sys.executable, "-c", READ],
        input=text.encode()[:LONGEST].decode("utf-8", "ignore"),
        text=True,
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONPATH": str(SERVER)},
    )
    seconds, megabytes = map(float, done.stdout.split())
    return round(seconds, 2), round(megabytes)


def main() -> int:
    result = {}
    for name, text in PAGES.items():
        result[name] = taken(text)
        print(f"{name:<26} {result[name][0]:5.2f} s {result[name][1]:4.0f} MB", flush=True)
    passed = all(seconds <= SECONDS and megabytes <= MEGABYTES for seconds, megabytes in result.values())
    print(json.dumps({"passed": passed, "seconds and megabytes": result}))
    return 0 if passed else 1


if __name__ == "__main__":
    sys.exit(main())
