"""Pages that mean harm, each as long as a text may be: what the slowest and the hungriest of them take.

    python tests/long/hostile_pages.py [--page NAME ...] [--out FILE]

Each is read in a process of its own; seconds are of the processor, memory is all that the process ever held. The last
line printed is the result as JSON; exit 1 where one takes more than SECONDS or MEGABYTES.
"""

from __future__ import annotations

import argparse
import itertools
import os
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))

from _house import finish

LONGEST = 256 * 1024  # bytes: the longest text that is read
SECONDS = 1.5
MEGABYTES = 200
SERVER = Path(__file__).resolve().parents[2] / "server"
READ = """
import resource, sys, time
from hookside.{room} import read
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


NAMES = ["".join(letters) for letters in itertools.product("abcdefghijklmnopqrstuvwy", repeat=3)][:8000]
MANY_NAMES = ["".join(letters) for letters in itertools.product("abcdefghijklmnopqrstuvwxyz", repeat=3)]

GULL = (
    "R1: 6 sc in MR (6)\nR2: inc around (12)\nR3: (sc, inc) x6 (18)\nR4: (2 sc, inc) x6 (24)\n"
    "R5-8: sc around (24)\nStuff.\n"
)

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
    "wrong rounds, none like another": "Rnd 1: 6 sc in MR (6)\n"
    + "".join(f"Rnd {n}: (sc, inc) x {n % 97}, {n} sc, dec, ({n % 89} sc, dec) x 3 ({n})\n" for n in range(2, 5_500)),
    "words nobody knows": rounds("wobble {n} gulls in the {n}th gap"),
    "references": rounds("repeat rnd {n}"),
    "until": full("repeat rnd 1 until 500 sts remain\n", "Rnd 1: 6 sc in MR\n"),
    "abbreviations": "Abbreviations:\n" + "".join(f"q{n} = 2 sc in next st\n" for n in range(9_000)),
    "names that do nothing": "Abbreviations:\n" + "".join(f"{n} = wobble gently\n" for n in NAMES),
    "names in no list": "".join(f"{n}: odd crochet stitch\n" for n in NAMES) + "\nRnd 1: 6 sc in MR (6)\n",
    "headings": full("## Fin\n"),
    "pieces": full("FIN\nRnd 1: 6 sc in MR (6)\nRnd 2: same as fin\n"),
    "a thousand pieces": "".join(f"PART {n}\n{GULL}" for n in range(1, 4_000))[:LONGEST],
    "a thousand names": "".join(f"{name.upper()}\n{GULL}" for name in NAMES)[:LONGEST],
    "pieces that work in each other": "".join(
        f"LEG {n}\nRnd 1: 6 sc in MR (6)\nRnd 2: sc around the first leg, ch 3, sc around leg {n % 4} (15)\n"
        for n in range(2, 4_000)
    )[:LONGEST],
    "pieces like another": "FIN\nRnd 1: 6 sc in MR (6)\n" + "".join(f"FIN {n}\nWork as fin\n" for n in range(9_000)),
    "no spaces": full("Rnd1:6scinMR(6)"),
    "tiny lines": full("9\n"),
    "blank lines": full("\n", "Rnd 1: 6 sc in MR\n", "Rnd 2: inc x 6"),
    "one word": full("a"),
    "a drawing": full("M0 0", '<svg><path d="', f'"/></svg>\n{GULL}'),
    "pieces of drawings": full('<path d="M0 0L12.5 7.25"/>', "<svg>", f"</svg>\n{GULL}"),
    "comments without an end": full("<!--", "", GULL),
    "digits": GULL + "R9: sc " + "9" * (LONGEST - 200),
    "leader dots": full(".", f"{GULL}R9: sc"),
    "bold signs": full("**", "", GULL),
    "bold words": full("**sc** ", f"{GULL}R9: "),
    "ands": full(" &amp; sc", f"{GULL}R9: sc"),
    "tabs": "\t".join(["R1: 6 sc in mr"] * 15_000),
    "rounds to rounds": full("R1-"),
    "rounds to rounds in lines": full("R1-R2-R3: sc\n"),
    "rounds again": rounds("rep rnds 1-{n}"),
    "accents": "R1: 6 sc" + "\u0301" * 100_000,
    "quotes": full('"', "", GULL),
    "underscores": full("_", "", GULL),
    "colons": full(":", "R1"),
    "colons in lines": full(": \n", GULL),
    "dashes": full("-", f"{GULL}R9: sc "),
    "colours": "Colours:\n" + "".join(f"C{n} - {('red', 'blue', 'grey')[n % 3]}\n" for n in range(14_000)) + GULL,
    "granny": rounds("ch 3, 2 dc in same sp, *3 dc in next sp, ch 1* {n} times, join (wrong {n})"),
    "words misspelt": rounds("slnge crohcet in ecah sitch aruond, inceraes oncc ({n})"),
    "cells in quotes": "".join(f'"{n}","(sc, inc) x 6","{n * 6}"\n' for n in range(1, 9_000)),
    "cells in quotes over lines": full('"1","6 sc\nin mr","6"\n'),
    "eyes between every round": rounds("sc around (6)\nInsert eyes between R{n} and the next."),
    "to the last stitches": rounds("sc to last {n} sts, dec, sc"),
    "to the last stitches on one line": full("sc to last 3 sts, dec, ", f"{GULL}R9: "),
    "stars in stars": full("*sc, **inc, ***dec; rep from *** ", f"{GULL}R9: "),
    "tables in tables": full("<table><tr><td>", "", GULL),
    "bars": "|".join(["R1: sc"] * 30_000),
    "bars on one line": full(" | sc", f"{GULL}R9: "),
    "lines of old machines": full(GULL).replace("\n", "\r"),
    "parts of one round": "".join(f"Ear number {n} (make 2)\nR1: 6 sc in mr (6)\n" for n in range(5_000)),
    "one as the other": full("R1: as R2\nR2: as R1\n"),
    "a thousand joined": "".join(f"LEG {n}\nR1: 6 sc in mr (6)\nR2: sc around (6)\nFasten off.\n" for n in range(1_000))
    + "BODY\n"
    + "".join(f"R{n}: sc around leg {n}, ch 3, sc around leg {n + 1} (15)\n" for n in range(1, 999)),
    "counts alone": full("(6)\n", GULL),
    "lines set in": full("                sc in next\n", GULL),
    "pluses": full("sc + ", f"{GULL}R9: "),
    "jobs of one sentence": full("Sew to head, make ", GULL),
    "copies of one sentence": full("Ears (1 red, ", GULL),
    "rounds of one sentence": full("R9 and ", GULL),
    "tails of one sentence": full("tail, ", f"{GULL}Sew "),
    "keys of one sentence": full("a = sc, ", GULL),
    "stops alone": full(". ", GULL),
    "the round above again": GULL + "".join(f"Repeat R{n}\n" for n in range(1, 20_000)),
    "plain rounds that overlap": GULL + "".join(f"Do rounds {n} to {n + 2} even.\n" for n in range(9, 12_000)),
    "eyes at one round": full("R5: sc around (18)\nPut the eyes at R4.\n", GULL),
    "eyes between two rounds": full("R5: sc around (18)\nEyes between R4 and R5.\n", GULL),
    "jobs behind ranges": full("R9-10: sc 18, stuff after R9\n", GULL),
    "rounds told in a sentence": full("Repeat rounds 3 and 4 twice more.\n", GULL),
    "stars that come out in no way": full("R9: *sc 2, inc; rep from * 5 more times, ** sc; rep from ** (24)\n", GULL),
    "brackets left open in each round": full("R9: [(sc 2, {inc (sc\n", GULL),
    "two colors in each round": full("R9: (sc 2 red, inc white) x 6, red sc 9, white sc 9\n", GULL),
    "shapings that go on": GULL + "".join(f"R{n}-{n + 2}: inc 6 each round\n" for n in range(9, 9_000)),
    "the round before again": rounds("sc around. Repeat R{n}."),
    "a second row": full("Row 2: ch 1, dec at each end, turn (8)\n", GULL),
    "another round, changed": full("R9: as R8 but dec instead of inc\n", GULL),
    "parts like the next": "".join(f"Part{n}\nR1-9: as Part{n + 1}\n" for n in range(1, 9_500)),
    "one paragraph": full(" R9: sc 18 (18). Change to red. Stuff.", GULL.strip()),
    "rounds for rounds": full("sc around for 3 rounds\n"),
    "all but some stitches": full("sc in all but the last 2 sts\n"),
    "shapings at both ends": full("Dec 1 st each end\n"),
    "numbers with their sign": full("#4 sc 18\n"),
    "numbered copies": "".join(f"Ear (make {n})\n" for n in range(15_000)),
    "a table of a page that goes on": "<table>\n"
    + "".join(f"<tr><td>{n}</td><td>sc around</td><td>6</td></tr>\n" for n in range(1, 5_300)),
    "a quoted table": "".join(f"> | {n} | sc around | 6 |\n" for n in range(1, 9_500)),
    "quoted cells": "".join(f"> {n},sc around,6\n" for n in range(1, 12_500)),
    "a key with dashes": "Key\n" + "".join(f"{name} - increase\n" for name in MANY_NAMES),
    "a key with equal signs": "Key\n" + "".join(f"q{name} = single crochet\n" for name in MANY_NAMES),
    "a key the other way round": "".join(f"single crochet ({name})\n" for name in MANY_NAMES) + GULL,
    "the same again": full("same again\n", GULL),
    "plain rounds": rounds("sc around (6)"),
    "rounds that grow": GULL + "".join(f"R{n}: {'sc, inc, ' * n}\n" for n in range(9, 240)),
    "lists that grow": GULL + "".join(f"R9: {', '.join(map(str, range(1, n)))}\n" for n in range(2, 400)),
    "repeats that grow": GULL + "".join(f"R{n}: {'(sc, ' * (n % 30)}{') x 2' * (n % 30)}\n" for n in range(9, 3_000)),
    "stitches of no list": GULL + "".join(f"R{n}: fpdc {name} around\n" for n, name in enumerate(NAMES, 9)),
    "strange words at both ends": GULL + "".join(f"R{n}: {name} x 2, {name}\n" for n, name in enumerate(NAMES, 9)),
    "colors by names": GULL + "".join(f"Color {name}: red\n" for name in NAMES),
    "colors of rounds": full("R9 in red, R10-12 in white, R13 in grey\n", GULL),
    "stripes": GULL + "".join(f"R{n}-{n + 1} red, R{n % 7 + 1} white\n" for n in range(9, 12_000)),
    "colors in turns": rounds("A {n}, B 3, A 3, B 5, sc in the rest (24)"),
    "color after color": full("Change to red. Change to white. Change to grey. ", GULL),
    "rounds quoted thrice": full("> > > R9: sc around (24)\n", GULL),
    "rows of a quoted table": "".join(f"> | {n} | sc around | 6 |\n" for n in range(1, 9_000)),
    "a table with a head": "| Round | Work | Count |\n| --- | --- | --- |\n"
    + "".join(f"| {n} | sc around | 24 |\n" for n in range(1, 9_000)),
    "a table of parts": "| Part | Rnd | Work | Sts |\n"
    + "".join(f"| {name} | {n} | sc around | 24 |\n" for n, name in enumerate(NAMES, 1)),
    "a table with tabs": "".join(f"{n}\tsc around\t24\n" for n in range(1, 14_000)),
    "a table with gaps": "".join(f"{n}      sc around      24\n" for n in range(1, 10_000)),
    "paragraphs of a page": "".join(f"<p><b>Round {n}:</b>&nbsp;sc around (24)</p>\n" for n in range(1, 6_000)),
    "a list of rounds": "<ol>" + "".join(f"<li>Round {n}: (sc, inc) x 6 (24)</li>\n" for n in range(1, 6_500)),
    "struck rounds": full("~~R9: sc~~ R9: inc\n", GULL),
    "sentence after sentence": full("Sew it. ", GULL),
    "eyes in each round": rounds("sc around, put eyes between R3 and R{n} (24)"),
    "as the round before last": rounds("as the round before last"),
    "rounds of a part, for each part": "".join(f"Wing {name}\nR1-8: as body R1-8\n" for name in NAMES),
    "legs of legs": rounds("sc {n} across first leg, ch 3, sc {n} across second leg (15)"),
    "legs and the chain between": full("R9: sc 12 on leg 1, ch 3, sc 12 on leg 2, sc 3 along the chain (30)\n", GULL),
    "cells far apart": full("\t\t5\t(sc, inc) x 6\t\t18\n", GULL),
    "rounds in turns": full("R4, 6, 8: sc around; R5, 7, 9: (sc, dec) x 6\n", GULL),
    "labels of labels": full("Round 4 - Rnds 5-7 & Row 8: sc (18), R9: dec (9)\n", GULL),
    "counts that are off": rounds("(sc, inc) x 6, dec x 3 ({n})"),
    "one line of places": full("sc in next 3 sts, dec over next 2, ", f"{GULL}R9: "),
    "one line of jobs": full("stuff and sew and close and ", GULL),
    "rounds in Russian": "".join(f"{n}. \u0440\u044f\u0434: (\u0441\u0431\u043d) x 6 (24)\n" for n in range(1, 9_000)),
    "rounds in Spanish": "".join(f"Vuelta {n}: (1 pb, 1 aum) x 6 (24)\n" for n in range(1, 9_000)),
    "rounds in Polish": "".join(f"Okr. {n}: (1 ps\u0142, 1 pwo) x 6 (24)\n" for n in range(1, 9_000)),
    "curly signs": full("\u201c\u2018\u2019\u00a0\u2013"),
}


def taken(text: str, room: str) -> tuple[float, float]:
    """Seconds and megabytes that reading a text takes: `notation` alone, or all of it, `compile`."""
    done = subprocess.run(
        [sys.executable, "-c", READ.replace("{room}", room)],
        input=text.encode()[:LONGEST].decode("utf-8", "ignore"),
        text=True,
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONPATH": str(SERVER)},
    )
    seconds, megabytes = map(float, done.stdout.split())
    return round(seconds, 2), round(megabytes)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--page", action="append", choices=list(PAGES), help="this page alone")
    parser.add_argument("--whole", action="store_true", help="with cues and words, as the shelf does")
    parser.add_argument("--out", type=Path)
    asked = parser.parse_args()
    result = {}
    for name in asked.page or PAGES:
        result[name] = taken(PAGES[name], "compile" if asked.whole else "notation")
        print(f"{name:<31} {result[name][0]:5.2f} s {result[name][1]:4.0f} MB", flush=True)
    good = all(seconds <= SECONDS and megabytes <= MEGABYTES for seconds, megabytes in result.values())
    limits = {"seconds": SECONDS, "megabytes": MEGABYTES}
    return finish({"pages": len(result), "limits": limits, "seconds and megabytes": result}, good, asked.out)


if __name__ == "__main__":
    sys.exit(main())
