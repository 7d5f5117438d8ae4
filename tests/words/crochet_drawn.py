"""Crochet to try words on: groups by their stitch, bodies drawn at random."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import strategies as st

from hookside.pattern import Course, Group, Node, Repeat, makes, uses
from hookside.stitches import TABLE


def group(stitch: str, count: int = 1, **more: object) -> Group:
    """A group with the table's numbers; 2 dc in one are `group("dc", makes=2, steps=2)`."""
    entry = TABLE[stitch]
    numbers: dict[str, object] = {"uses": entry.uses, "makes": entry.makes, "steps": entry.steps}
    return Group.model_validate({"stitch": stitch, "count": count, **numbers, **more})


def times(n: int, *body: Node) -> Repeat:
    return Repeat(body=list(body), times=n)


def course(*body: Node, kind: str = "round", plain: bool = False, read: bool = True, text: str = "") -> Course:
    nodes = list(body)
    return Course.model_validate(
        {
            "id": "hull.4", "label": "4", "kind": kind, "uses": uses(nodes) if read else None,
            "makes": makes(nodes) if read else None, "text": text, "line": 9, "body": nodes, "plain": plain,
            "read": read,
        }
    )  # fmt: skip


def groups() -> st.SearchStrategy[Group]:
    """Single groups of common stitches."""
    plain = st.builds(group, st.sampled_from(["sc", "hdc", "dc", "sl st"]), st.integers(1, 30))
    changed = st.builds(group, st.sampled_from(["inc", "dec", "inv dec", "sc2tog"]), st.integers(1, 8))
    several = st.builds(
        lambda stitch, n, count: group(stitch, count, makes=n, steps=n),
        st.sampled_from(["hdc", "dc"]), st.integers(2, 4), st.integers(1, 5),
    )  # fmt: skip
    return st.one_of(plain, plain, changed, several)


def bodies(depth: int = 2) -> st.SearchStrategy[list[Node]]:
    """Bodies of one to four parts, repeats nested `depth` deep. No two alike groups side by side."""

    def apart(nodes: list[Node]) -> bool:
        return all(
            not (isinstance(a, Group) and isinstance(b, Group) and a.stitch == b.stitch) for a, b in pairwise(nodes)
        )

    part: st.SearchStrategy[Node] = groups()
    if depth:
        # a repeat holds more than one part: "(3 sc) x 2" is 6 sc and nobody writes it
        inside = bodies(depth - 1).filter(lambda body: len(body) > 1)
        part = st.one_of(groups(), groups(), st.builds(lambda body, n: times(n, *body), inside, st.integers(2, 8)))
    return st.lists(part, min_size=1, max_size=4).filter(apart)
