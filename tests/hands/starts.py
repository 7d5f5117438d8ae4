"""First courses: a ring in its many names, a chain along one or both sides. 6 stands for how many."""

from __future__ import annotations

from dialects.dialect import Dialect
from dialects.made import Course

from .stitches import stitch, uk

RINGS = (
    "6 S in magic ring", "6 S in MR", "MR 6", "magic ring, 6 S", "6 S in a magic ring", "Magic ring 6 S", "mr, 6 S",
    "6 S into magic circle", "6 S in ring", "MR with 6 S", "start with 6 S in magic ring",
    "make a magic ring, 6 S in it",
    "magic loop, 6 S", "in a magic ring: 6 S", "S 6 in MR", "S 6 into a magic ring", "ch 2, 6 S in 2nd ch from hook",
    "6 S in MC", "(6 S) in magic ring", "magic ring (6 S)", "MR: 6 S", "MR x 6", "6 in MR", "6 in magic ring", "MR6",
    "make a ring, put 6 S in it", "work 6 S in a MR", "6 S in adjustable ring", "magic ring of 6", "MR - 6 S",
    "MR + 6 S",
    "6 S into the ring", "ch 2, then 6 S in the second ch", "begin with a magic ring of 6 S",
    "6 S inside the magic ring",
    "ch 4, sl st to first ch to form a ring, 6 S in ring", "MR, S x6", "magic ring w/ 6 S", "6 S in mr, pull closed",
    "chain 2, 6 S in the 2nd chain", "6 S ring", "MR 6 S", "6S in MR", "loop, 6 S", "make MR. 6 S",
)  # fmt: skip
CHAINS = ("ch 7, ", "Ch 7. ", "chain 7, ", "7 ch, ", "Chain 7. ", "ch7, ", "make a chain of 7, ", "chain 7 and ",
    "CH 7: ")
ROWS = (
    "S in 2nd ch from hook and in each ch across", "starting in the 2nd ch, 6 S",
    "S in second chain from hook, S in next 5 ch",
    "S in 2nd ch from hook and each ch to end", "skip 1 ch, S in each ch", "from 2nd ch from hook 6 S",
    "6 S from 2nd ch",
    "S in 2nd ch from hook, S across", "6 S along the chain starting from the second ch",
    "1 S in each ch from the 2nd",
    "skip first ch, 6 S", "S in 2nd ch and in every ch",
)  # fmt: skip
SIDES = (
    "S in 2nd ch from hook, S in next 4 ch, 3 S in last ch, on the other side S in next 4 ch, 2 S in last ch",
    "from 2nd ch 5 S, 3 S in last ch, other side of chain: 4 S, 2 S in last",
    "5 S starting in 2nd ch from hook, 3 S in last ch, turn and work along the other side: 4 S, inc",
    "S in 2nd ch, 4 S, 3 S in the last ch, continue on the other side, 4 S, 2 S in the last ch",
    "start in 2nd ch from hook: 5 S, 3 S in one ch, going back along the other side 4 S, 2 S in one ch",
    "skip 1 ch, 5 S, 3 S in end ch, rotate, 4 S on the other side, 2 S in end ch",
)  # fmt: skip


def _named(d: Dialect, text: str) -> str:
    s = stitch(d)
    if uk(d):
        text = text.replace("sl st", "ss").replace("skip", "miss")
    if " " in s or "." in s:
        text = text.replace("6S", "6 S")
    return text.replace(" S x6", f" {s} x6").replace("S", s) if "S" in text else text


def _figures(text: str, numbers: dict[str, int]) -> str:
    return "".join(str(numbers.get(c, c)) for c in text)


def start(d: Dialect, course: Course) -> str:
    if course.how == "ring":
        return _named(d, d.pick("hand.ring", RINGS).replace("6", str(course.makes)))
    chain = d.pick("hand.chain", CHAINS)
    if course.how == "chain":
        n = course.makes
        body = d.pick("hand.first row", ROWS)
        return _named(d, _figures(chain, {"7": n + 1}) + _figures(body, {"6": n, "5": n - 1}))
    c = course.makes // 2
    body = d.pick("hand.both sides", SIDES)
    if c < 6:
        body = SIDES[0]
    if body is SIDES[0] or "S in 2nd ch, 4 S" in body:
        # one in the second chain, then chain - 3 more; chain - 3 back
        return _named(d, _figures(chain, {"7": c}) + _figures(body, {"4": c - 3}))
    return _named(d, _figures(chain, {"7": c}) + _figures(body, {"5": c - 2, "4": c - 3}))
