"""Lays small strands for tests, from a description short enough to check by eye.

This is not how a pattern becomes a strand (the compiler does that); it is the tests' own, so that a mistake
there cannot hide here.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from hookside.follow.place import reach
from hookside.follow.strand import Strand, StrandCourse, StrandCue, flaws
from hookside.pattern import CueKind, Group, Node, Repeat, Weight, Words, length, makes, uses

# One stitch of each: uses, makes, steps (counting as in pattern.py).
STITCHES = {
    "ring": (0, 0, 1),
    "turn": (0, 0, 1),
    "join": (0, 0, 1),
    "ch": (0, 0, 1),
    "skip": (1, 0, 0),
    "sc": (1, 1, 1),
    "hdc": (1, 1, 1),
    "inc": (1, 2, 2),
    "dec": (2, 1, 1),
    "shell": (1, 5, 5),
    "bobble": (1, 1, 1),
}


def group(stitch: str, count: int = 1, *, into: str | None = None) -> Group:
    """A group; one that goes `into` something else than the course below uses up none of its stitches."""
    used, made, steps = STITCHES[stitch]
    used = 0 if into else used
    words = Words(short=f"{count} {stitch}" if count > 1 else stitch)
    return Group(stitch=stitch, count=count, uses=used, makes=made, steps=steps, into=into, words=words)


def times(n: int, *body: Node) -> Repeat:
    return Repeat(body=list(body), times=n)


@dataclass(frozen=True)
class Cue:
    weight: Weight
    kind: CueKind
    at: int | None = None  # inside a course: once that many stitches are made


@dataclass(frozen=True)
class Round:
    label: str
    body: list[Node] = field(default_factory=list)
    plain: bool = False
    read: bool = True
    cues: list[Cue] = field(default_factory=list)


def lay(name: str, items: list[Round | Cue]) -> Strand:
    """Courses and cues, one after another; cues inside a course stand where their stitch count is first reached."""
    at, last, met = 0, "0", 0
    courses: list[StrandCourse] = []
    cues: list[StrandCue] = []

    def put(cue: Cue) -> None:
        nonlocal at, met
        met += 1
        cues.append(
            StrandCue(
                address=f"{name}.{last}/{cue.kind}.{met}",
                step=at,
                kind=cue.kind,
                text=f"{cue.kind} now",
                basis="written",
                weight=cue.weight,
                words=Words(),
            )
        )
        at += 1

    for item in items:
        if isinstance(item, Cue):
            put(item)
            continue
        last, met, first = item.label, 0, at
        own = length(item.body) if item.read else 1
        waiting = list(item.cues)
        if not waiting:
            at += own
        for offset in range(own + 1 if waiting else 0):
            found = reach(item.body, offset)
            made = makes(item.body) if found is None else found.made
            while waiting and waiting[0].at is not None and waiting[0].at <= made and (item.read or offset):
                put(waiting.pop(0))
            at += offset < own
        assert not waiting, "a cue beyond the end of its course"
        courses.append(
            StrandCourse(
                id=f"{name}.{item.label}",
                label=item.label,
                kind="round",
                first=first,
                end=at,
                uses=uses(item.body) if item.read else None,
                makes=makes(item.body) if item.read else None,
                declared=None,
                text="",
                body=item.body,
                read=item.read,
                spiral=False,
                plain=item.plain,
                words=Words(),
            )
        )
    strand = Strand(id=name, piece=name, terms="US", length=at, courses=courses, cues=cues)
    assert not flaws(strand), flaws(strand)
    return strand


WHISPER = Cue("whisper", "marker")


def small_strands() -> dict[str, Strand]:
    """The strands the cases written by hand stand on. Steps are given beside each item."""
    return {
        strand.id: strand
        for strand in [
            lay(
                "buoy",
                [
                    Round("1", [group("ring"), group("sc", 6)]),  # 0, 1-6
                    WHISPER,  # 7
                    Round("2", [group("inc", 6)]),  # 8-19
                    WHISPER,  # 20
                    Round("3", [times(6, group("sc"), group("inc"))]),  # 21-38
                    WHISPER,  # 39
                    Round("4", [group("sc", 18)], plain=True),  # 40-57
                    Cue("stop", "stuff"),  # 58
                    WHISPER,  # 59
                    Round("5", [times(6, group("sc"), group("dec"))]),  # 60-71
                    Cue("pause", "colour"),  # 72
                    Cue("stop", "close"),  # 73
                    Round("6", [group("dec", 6)]),  # 74-79
                    Cue("stop", "fasten"),  # 80
                    Cue("pause", "weave"),  # 81
                ],
            ),
            lay(
                "frond",
                [
                    Round(  # 0-8, pause 9, 10-27
                        "1",
                        [times(3, times(2, group("sc"), group("inc")), group("sc", 3))],
                        cues=[Cue("pause", "colour", at=9)],
                    ),
                    Round(  # sc 28 29, whisper 30, sc 31 32, hdc 33 34, stop 35, hdc 36 37, pause 38
                        "2",
                        [group("sc", 4), group("hdc", 4)],
                        cues=[Cue("whisper", "count", at=2), Cue("stop", "eyes", at=6), Cue("pause", "turn", at=8)],
                    ),
                ],
            ),
            lay(
                "skiff",
                [
                    Round("1", [group("sc", 6)], plain=True),  # 0-5
                    Round("2", read=False),  # 6
                    Cue("stop", "stuff"),  # 7
                    Round("3", [group("sc", 6)], plain=True),  # 8-13
                    Round("4", read=False),  # 14
                ],
            ),
            lay(
                "pennant",
                [
                    Cue("whisper", "tail"),  # 0
                    Round("1", [group("ch", 4), group("sc", 3), group("skip"), group("sc", 2)]),  # 1-4, 5-7, 8-9
                    Round("2", [group("turn"), group("shell", 2), group("bobble")]),  # 10, 11-20, 21
                    Cue("whisper", "weave"),  # 22
                ],
            ),
            lay(
                "hull",
                [
                    Round("1", [group("sc", 3), group("hdc", 3)], plain=True),  # 0-2, 3-5
                    Cue("pause", "colour"),  # 6
                    Round("2", read=False),  # 7
                    Round("3", [group("sc", 4)], cues=[Cue("pause", "eyes", at=4), Cue("stop", "shape", at=4)]),
                    # 8-11, pause 12, stop 13
                    WHISPER,  # 14
                    Round("4", [group("sc", 2), group("hdc", 2), group("sc", 2)]),  # 15-16, 17-18, 19-20
                ],
            ),
            lay(
                "seat",
                [
                    Cue("pause", "colour"),  # 0
                    Round("1", [group("ch", 4), group("sc", 3, into="chain"), group("ch"), group("turn")]),
                    # 1-4, 5-7, 8, 9
                    Round("2", [group("ch"), group("turn"), group("sc", 3)], plain=True),  # 10, 11, 12-14
                    WHISPER,  # 15
                    Round(  # ch 16, sc 17, inc 18 19, sc 20, inc 21 22, pause 23, join 24
                        "3",
                        [group("ch"), times(2, group("sc"), group("inc")), group("join")],
                        cues=[Cue("pause", "colour", at=6)],
                    ),
                    Round(
                        "4",
                        [group("ch", 2), group("hdc", 3), group("ch", 3), group("sc", 3), group("join"), group("ch")],
                    ),
                    # 25-26, 27-29, 30-32, 33-35, 36, 37
                    Round("5", [group("ch"), group("turn")]),  # 38, 39
                ],
            ),
            lay(
                "flag",
                [
                    Round("0", [group("ch", 4)]),  # 0-3
                    Cue("stop", "shape"),  # 4
                    Round("1", [group("sc", 3, into="chain")]),  # 5-7
                    Round("2", [group("sc", 3)]),  # 8-10
                ],
            ),
            lay("scarf", [Round("0", [group("ch", 4)]), Round("1", read=False), Round("2", [group("sc")])]),
            # 0-3, 4, 5
            lay("rigging", [Cue("stop", "pin"), Cue("whisper", "tail"), Cue("stop", "sew")]),  # 0, 1, 2
            lay(
                "flipper",
                [
                    Round("1", [group("sc", 6)]),  # 0-5
                    Round("2", [group("sc", 6)], plain=True),  # 6-11
                    Cue("stop", "stuff"),  # 12
                    Round("3", [group("sc", 6)], plain=True),  # 13-18
                    Cue("stop", "close"),  # 19
                ],
            ),
        ]
    }
