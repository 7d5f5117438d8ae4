"""First courses: a ring in all its names, two chains, a ring of chains, a chain worked along one or both sides."""

from __future__ import annotations

from .amounts import plain, short, stitch
from .dialect import Dialect
from .made import Course

RINGS = {
    "magic ring": 5, "MR": 3, "magic circle": 1.5, "a magic ring": 2, "mr": 1, "magic loop": 0.8,
    "adjustable ring": 0.7, "MC": 0.4, "an adjustable loop": 0.3, "a sliding loop": 0.2, "Magic Ring": 0.5,
    "a magic loop": 0.5, "the ring": 0.0, "magicring": 0.1, "m.r.": 0.2, "AR": 0.2,
}  # fmt: skip
FORMS = {
    "6 sc in ring": 5, "ring, 6 sc": 2, "in ring 6 sc": 1, "6 sc into ring": 1.5, "start 6 sc in ring": 0.5,
    "make ring, 6 sc in the ring": 1, "work 6 sc into ring": 1, "6 sc inside ring": 0.3, "ring 6": 0.8,
    "ring: 6 sc": 0.4, "make ring and work 6 sc into it": 0.6, "6 sc in ring, pull tight": 0.4,
    "ring with 6 sc": 0.6, "starting with ring, 6 sc": 0.3, "into ring work 6 sc": 0.5,
}  # fmt: skip
CHAINS = {
    "ch 2, 6 sc in 2nd ch from hook": 2, "Ch 2. 6 sc in second ch from hook": 0.7,
    "2 ch, 6 sc in 2nd ch from hook": 0.5, "chain 2, work 6 sc into second chain from hook": 0.8,
    "ch2, 6sc in 2nd ch": 0.5,
}  # fmt: skip
LOOPS = {
    "ch 4, sl st in first ch to form a ring, 6 sc in ring": 1.5,
    "ch 3, join with sl st to form ring, 6 sc into ring": 1,
    "Ch 4 and join with a sl st to make a ring. 6 sc in ring": 0.6,
}  # fmt: skip


def spoken(d: Dialect, n: int) -> str:
    """`n` stitches as they are said of a ring; there "in next" has no sense."""
    s = stitch(d)
    if short(d):
        return f"{n}{s}"
    form = d.chosen.get("amount.form", "") + d.chosen.get("amount.words", "")
    return {"sc 3": f"{s} {n}", "3sc": f"{n}{s}", "sc3": f"{s}{n}", "sc x3": f"{s} x{n}"}.get(form, f"{n} {s}")


def ring(d: Dialect, course: Course) -> tuple[str, str]:
    """(a line of its own before the course, the course)."""
    plain(d, 2)  # the habit of amounts is chosen before a ring says "6 sc"
    n = course.makes
    said = spoken(d, n)
    if short(d):
        form = d.pick("start.letters", {"6X in MR": 2, "MR, 6X": 1, "6X": 0.6, "MR 6": 0.5})
        return "", form.replace("6X", said).replace("6", str(n)).replace(said.replace(str(n), "6"), said)
    how = d.pick("start.how", {"ring": 7, "chain 2": 1.3, "ring of chains": 0.7, "ring on a line of its own": 1})
    uk = d.chosen.get("terms.tongue") == "UK"
    slip = d.pick("start.slip stitch", ["sl st", "ss", "slip stitch"]) if uk else "sl st"
    if how == "chain 2":
        return "", d.pick("start.two chains", CHAINS).replace("6 sc", said).replace("6sc", said)
    if how == "ring of chains":
        return "", d.pick("start.ring of chains", LOOPS).replace("6 sc", said).replace("sl st", slip)
    name = d.pick("start.ring", RINGS)
    article = "" if name.startswith(("a ", "an ")) else "a "
    if how == "ring on a line of its own":
        line = d.pick(
            "start.own line",
            ["Make ring.", "Start with ring.", "Begin with ring", "ring:", "Make ring with black yarn."],
        )
        inside = d.pick("start.into it", ["6 sc in ring", "6 sc into the ring", "work 6 sc in the ring", "6 sc"])
        words = line.replace("ring", article + name, 1) if not line.startswith("ring") else name + "."
        return words, inside.replace("6 sc", said)
    form = d.pick("start.form", FORMS)
    if form == "ring 6":
        return "", f"{name.removeprefix('a ').removeprefix('an ')} {n}"
    if form.startswith("make ring"):
        return "", form.replace("make ring", f"make {article}{name}").replace("6 sc", said)
    return "", form.replace("ring", name, 1).replace("6 sc", said)


def oval(d: Dialect, course: Course) -> tuple[str, str]:
    """Along both sides of a chain: n - 2 stitches, three in the last chain, n - 3 back, two in the first one: 2n."""
    c, s = course.makes // 2, stitch(d)
    if short(d):
        s = {"letters": "X", "own": s}[d.chosen["terms.tongue"]]
    start = d.pick("start.chain word", {"Ch 7": 3, "Chain 7": 1, "ch 7": 2, "7 ch": 0.7, "Make 7 ch": 0.3, "Ch7": 0.4})
    start = start.replace("7", str(c))
    other = d.pick("start.other side", [
        "working on the other side of the chain", "on the other side of ch", "turn and work along the other side",
        "continue on the other side of the foundation chain", "rotate, working in remaining loops of ch",
    ])  # fmt: skip
    back = c - 3
    middle = f"{s} in next {back} ch" if back > 1 else f"{s} in next ch"
    far = d.pick(
        "start.far end",
        {"3 sc in last ch": 3, "3 sc in the last ch": 2, "3 sc in end ch": 0.5, "work 3 sc in the last ch": 0.5},
    ).replace("sc", s)
    near = d.pick("start.near end", ["2 sc in last ch", "2 sc in last st", "inc in last ch"]).replace("sc", s)
    form = d.pick(
        "start.along",
        [
            "sc in 2nd ch from hook and in next",
            "starting in 2nd ch from hook, sc in next",
            "sc in 2nd ch from hook, sc in next",
        ],
    )
    if form.startswith("starting"):
        along = f"starting in 2nd ch from hook, {s} in next {c - 2} ch"
    else:
        along = form.replace("sc", s) + (f" {back} ch" if back > 1 else " ch")
    body = f"{along}, {far}, {other}, {middle}, {near}"
    if d.has("start.chain on a line of its own", 0.5):
        return f"{start}.", body
    return "", f"{start}, {body}"


def flat(d: Dialect, course: Course) -> tuple[str, str]:
    """The first row: a chain longer by one, and a stitch in each but the first."""
    n, s = course.makes, stitch(d)
    start = d.pick("start.chain word", {"Ch 7": 3, "Chain 7": 1, "ch 7": 2, "7 ch": 0.7, "Make 7 ch": 0.3, "Ch7": 0.4})
    start = start.replace("7", str(n + 1))
    form = d.pick("start.first row", {
        "sc in 2nd ch from hook and in each ch across": 4, "sc in second ch from hook and each ch across": 1,
        "starting in 2nd ch from hook, sc in each ch across": 1, "sc in 2nd ch from hook, sc in next 9 ch": 1,
        "starting from the second ch from hook, 10 sc": 0.5, "sc in 2nd chain from hook and in every chain to end": 0.5,
        "skip 1 ch, sc in each ch to end": 0.4,
    })  # fmt: skip
    if d.chosen.get("terms.tongue") == "UK":
        form = form.replace("skip", "miss")
    body = form.replace("sc", s).replace("next 9 ch", f"next {n - 1} ch").replace(f"10 {s}", f"{n} {s}")
    if d.has("start.chain on a line of its own", 0.5):
        return f"{start}.", body
    return "", f"{start}, {body}"


def start(d: Dialect, course: Course) -> tuple[str, str]:
    return {"ring": ring, "oval": oval, "chain": flat}[course.how](d, course)
