"""Strands at random, and an oracle: the same questions answered by writing every step out.

The room itself never unrolls a repeat; this does nothing else, so the two can hardly be wrong in the same way.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from hypothesis import strategies as st
from laying import Cue, Round, group, lay, times

from hookside.follow import Strand
from hookside.pattern import Group, Node

STITCHES = ["sc", "inc", "dec", "ch", "shell", "ring", "turn", "join"]
BODIES = st.recursive(
    st.lists(
        st.builds(group, st.sampled_from(STITCHES), st.integers(1, 4)),
        min_size=1,
        max_size=3,
    ),
    lambda inner: st.lists(
        st.one_of(
            st.builds(group, st.sampled_from(["sc", "inc", "skip", "ch", "join"]), st.integers(1, 3)),
            st.builds(lambda n, body: times(n, *body), st.integers(1, 3), inner),
        ),
        min_size=1,
        max_size=3,
    ).filter(lambda body: any(written(body))),
    max_leaves=6,
)


def written(body: list[Node]) -> list[Group]:
    """Every group occurrence of a body that has steps, repeats written out."""
    groups: list[Group] = []
    for node in body:
        if isinstance(node, Group):
            groups += [node] if node.steps else []
        else:
            groups += written(node.body) * node.times
    return groups


@st.composite
def cues(draw: st.DrawFn, at: int | None = None) -> Cue:
    return Cue(draw(st.sampled_from(["stop", "pause", "whisper"])), draw(st.sampled_from(["stuff", "colour"])), at)


@st.composite
def strands(draw: st.DrawFn, name: str = "kelp") -> Strand:
    items: list[Round | Cue] = draw(st.lists(cues(), max_size=2))
    for label in range(1, draw(st.integers(1, 4)) + 1):
        body = draw(BODIES)
        if draw(st.integers(0, 7)) == 0:
            items.append(Round(str(label), read=False))
        else:
            most = sum(g.count * g.makes for g in written(body))
            inside = sorted(draw(st.lists(st.integers(0, most), max_size=2)))
            items.append(Round(str(label), body, plain=draw(st.booleans()), cues=[draw(cues(at)) for at in inside]))
        items += draw(st.lists(cues(), max_size=2))
    return lay(name, items)


@dataclass(frozen=True)
class Written:
    """One step of a strand, written out."""

    halts: bool
    whisper: str | None  # its address
    address: str | None  # of any cue, or the id of an unread course
    course: int | None = None
    made: int = 0  # stitches of its course made before it
    makes: int = 0
    path: tuple[int, ...] = ()
    turns: tuple[tuple[int, int], ...] = ()
    group_step: int = 0
    within: tuple[Any, ...] = ()  # the turns it lies in, outermost first, each naming its repeat and its number
    stitch: str = ""
    home: Written | None = None  # the step whose unit it goes with, where it leads into a course or closes it


def unroll(strand: Strand) -> list[Written]:
    """Every step, in order."""
    bodies: dict[int, list[Written]] = {}
    for index, course in enumerate(strand.courses):
        steps: list[Written] = []
        if not course.read:
            steps.append(Written(halts=True, whisper=None, address=course.id, course=index))
        else:
            _unroll(course.body, index, (), (), (), steps)
            steps = sent_home(steps, bool(course.uses))
        bodies[index] = steps[::-1]
    cues = {cue.step: cue for cue in strand.cues}
    line: list[Written] = []
    for step in range(strand.length):
        cue = cues.get(step)
        if cue is not None:
            whisper = cue.address if cue.weight == "whisper" else None
            line.append(Written(halts=cue.weight != "whisper", whisper=whisper, address=cue.address))
            continue
        index = next(i for i, course in enumerate(strand.courses) if course.first <= step < course.end)
        line.append(bodies[index].pop())
    assert not any(bodies.values())
    return line


def sent_home(steps: list[Written], on_stitches: bool) -> list[Written]:
    """The steps of a course, where those before and behind its stitches say which step they go with."""

    def edge(step: Written, *stitches: str) -> bool:
        return not step.makes and not step.within and step.stitch in stitches

    first, last = 0, len(steps) - 1
    while on_stitches and first < len(steps) and edge(steps[first], "ch", "turn", "join"):
        first += 1
    chained = last  # where the chains end that may stand behind the stitches
    while chained >= 0 and edge(steps[chained], "ch"):
        chained -= 1
    if chained < last and chained >= 0 and edge(steps[chained], "join") and one_group(steps[chained + 1 :]):
        last = chained
    while last >= 0 and (edge(steps[last], "turn", "join") or chains_to_turn(steps, last)):
        last -= 1
    if not any(step.makes for step in steps):
        return steps
    assert first <= last
    return [
        replace(step, home=steps[first] if at < first else steps[last] if at > last else None)
        for at, step in enumerate(steps)
    ]


def one_group(steps: list[Written]) -> bool:
    return len({step.path for step in steps}) == 1


def chains_to_turn(steps: list[Written], at: int) -> bool:
    """Whether step `at` is of a chain directly before a turn."""
    here = steps[at]
    behind = next((step for step in steps[at:] if step.path != here.path), None)
    return here.stitch == "ch" and not here.within and behind is not None and behind.stitch == "turn"


def _unroll(
    nodes: list[Node],
    course: int,
    path: tuple[int, ...],
    turns: tuple[tuple[int, int], ...],
    within: tuple[Any, ...],
    line: list[Written],
) -> None:
    for place, node in enumerate(nodes):
        here = (*path, place)
        if not isinstance(node, Group):
            for turn in range(1, node.times + 1):
                _unroll(node.body, course, here, (*turns, (turn, node.times)), (*within, (here, turn)), line)
            continue
        for item in range(node.count):
            for part in range(node.steps):
                made = line[-1].made + line[-1].makes if line else 0
                done = item * node.steps + part
                one = min(node.makes, 1)  # a step of an increase or a shell makes one, a chain none
                line.append(Written(False, None, None, course, made, one, here, turns, done, within, node.stitch))
