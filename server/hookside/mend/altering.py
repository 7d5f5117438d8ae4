"""A body of stitches that takes up or makes one stitch more or fewer, changed as near its end as it can be.

A change is two numbers: `used`, stitches of the course below that are taken up more than before, and `made`, stitches
that are made more. Only stitches that go simply into the next one are touched; what closes the course stays.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookside.mend.edits import Change, edited
from hookside.mend.kinds import alike, plain_stitch
from hookside.pattern import Group, Node, Repeat, in_order, length, makes, uses

MOST_UNITS = 512  # stitches looked through from the end


def altered(body: Sequence[Node], change: Change, decrease: str = "") -> list[Node] | None:
    """The body with the change in its last repeat, or in a little more where that has no room; None where none has.

    `decrease`: the key of the decrease this maker works, for plain stitches of single crochet.
    """
    work, closing = _closing(body)
    window = _last_turn(work)
    while True:
        rest, units = _peel(work, window)
        found = edited(units, change, decrease)
        if found is not None:
            new = _joined([*rest, *_together(found)]) + closing
            assert uses(new) - uses(list(body)) == change.used
            assert makes(new) - makes(list(body)) == change.made
            return new
        if not rest or window >= MOST_UNITS:
            return None
        window *= 2


def altered_by(body: Sequence[Node], used: int, made: int, decrease: str = "") -> list[Node] | None:
    """`altered`, one stitch at a time, for changes of more than one."""
    new: list[Node] | None = list(body)
    for step in range(max(abs(used), abs(made))):
        if new is None:
            return None
        change = Change((abs(used) > step) * (1 if used > 0 else -1), (abs(made) > step) * (1 if made > 0 else -1))
        new = altered(new, change, decrease)
    return new


def slipped(body: Sequence[Node], more: int, before: int | None = None) -> list[Node]:
    """The body as the hands made it, with `more` stitches more than it should have, shortly before stitch `before`
    of it or near its end. What it takes up of the course below stays where the stitches allow it."""
    front, behind = (list(body), []) if before is None else split(body, max(before, -more))
    new = altered_by(front, 0, more)
    if new is None:
        work, closing = _closing(front)
        new = [*(_with_more(work, more) if more > 0 else _with_fewer(work, -more)), *closing]
    assert makes(new) - makes(front) == more
    return _joined([*new, *behind])


def _with_more(work: list[Node], more: int) -> list[Node]:
    return [*work, Group(stitch="sc", count=more, uses=0, into="same st")]


def _with_fewer(work: list[Node], fewer: int) -> list[Node]:
    """Without the last stitches: each is left out, and of several in one place as many as are too many."""
    rest, units = list(work), list[Node]()
    while fewer and rest:
        rest, taken = _peel(rest, 1)
        unit = taken[0]
        gone = min(fewer, unit.makes)
        fewer -= gone
        if gone < unit.makes or not unit.makes:
            left = {"makes": unit.makes - gone, "steps": max(min(1, unit.steps), unit.steps - gone)}
            units.insert(0, unit.model_copy(update=left))
        elif unit.uses:
            units.insert(0, Group(stitch="skip", count=unit.uses, makes=0, steps=0))
    return [*rest, *units]


def split(body: Sequence[Node], stitches: int) -> tuple[list[Node], list[Node]]:
    """A body in two, the first making `stitches`: one more where that is in the midst of an increase."""
    front: list[Node] = []
    for index, node in enumerate(body):
        made = makes([node])
        if stitches <= 0 and (made or uses([node])):
            return front, list(body[index:])
        if made <= stitches or not made:
            front.append(node)
            stitches -= made
            continue
        rest = list(body[index + 1 :])
        if isinstance(node, Group):
            whole = -(-stitches // node.makes)
            here = node.model_copy(update={"count": whole})
            left = [node.model_copy(update={"count": node.count - whole})] if whole < node.count else []
            return [*front, here], [*left, *rest]
        whole, over = divmod(stitches, makes(node.body))
        turns: list[Node] = [Repeat(body=node.body, times=whole)] if whole else []
        left_turns = node.times - whole - (1 if over else 0)
        a, b = split(node.body, over) if over else ([], [])
        behind: list[Node] = [Repeat(body=node.body, times=left_turns)] if left_turns else []
        return [*front, *turns, *a], [*b, *behind, *rest]
    return front, []


def begins_alike(one: Sequence[Node], other: Sequence[Node], stitches: int) -> bool:
    """Whether the hands do the same in two bodies until so many stitches are made."""
    return _first(one, stitches) == _first(other, stitches)


def _first(body: Sequence[Node], stitches: int) -> list[object]:
    found: list[object] = []
    made = 0
    for unit in _each(body):
        if made >= stitches:
            break
        made += unit.makes
        found.append((unit.stitch, unit.uses, unit.makes, unit.loops, unit.into, unit.colour))
    return found


def _each(body: Sequence[Node]) -> Iterator[Group]:
    """Stitch by stitch."""
    for group in in_order(body):
        yield from [_one(group)] * group.count


def carried(body: Sequence[Node], more: int) -> list[Node] | None:
    """A plain course on `more` stitches more (fewer where negative): the same stitch, in each stitch."""
    plain = [i for i, node in enumerate(body) if isinstance(node, Group) and plain_stitch(node)]
    if len(plain) != 1 or any(isinstance(node, Repeat) for node in body):
        return None
    group = body[plain[0]]
    assert isinstance(group, Group)
    if group.count + more < 1:
        return None
    return [*body[: plain[0]], group.model_copy(update={"count": group.count + more}), *body[plain[0] + 1 :]]


# -- taking a body apart ----------------------------------------------------


def _closing(body: Sequence[Node]) -> tuple[list[Node], list[Node]]:
    """A body and what closes it: everything behind the last stitch that uses or makes one."""
    end = len(body)
    while end and not uses([body[end - 1]]) and not makes([body[end - 1]]):
        end -= 1
    return list(body[:end]), list(body[end:])


def _last_turn(work: Sequence[Node]) -> int:
    """Units of one turn of the last repeat; of a body without one its last group or two."""
    for node in reversed(work):
        if isinstance(node, Repeat):
            while len(node.body) == 1 and isinstance(node.body[0], Repeat):
                node = node.body[0]
            behind = work[work.index(node) + 1 :] if node in work else []
            return max(1, _units([*node.body, *behind]))
    return 4


def _units(body: Sequence[Node]) -> int:
    return sum(n.count if isinstance(n, Group) else n.times * _units(n.body) for n in body)


def _peel(work: Sequence[Node], wanted: int) -> tuple[list[Node], list[Group]]:
    """The last `wanted` units of a body one by one, and what stands before them."""
    rest, units = list(work), list[Group]()
    while rest and len(units) < wanted:
        node = rest.pop()
        if isinstance(node, Repeat):
            turns = [Repeat(body=node.body, times=node.times - 1)] if node.times > 1 else []
            rest += [*turns, *node.body]
            continue
        taken = min(node.count, wanted - len(units))
        if node.count > taken:
            rest.append(node.model_copy(update={"count": node.count - taken}))
        units += [_one(node)] * taken
    return rest, units[::-1]


def _one(group: Group) -> Group:
    return group.model_copy(update={"count": 1})


def _together(units: Sequence[Group]) -> list[Node]:
    """Neighbouring stitches that are alike as one group."""
    groups: list[Node] = []
    for unit in units:
        last = groups[-1] if groups else None
        if isinstance(last, Group) and alike(last, unit):
            groups[-1] = last.model_copy(update={"count": last.count + unit.count})
        else:
            groups.append(unit)
    return groups


def _joined(body: Sequence[Node]) -> list[Node]:
    """The same with neighbouring groups that are alike put together, and a repeat of one turn opened."""
    opened: list[Node] = []
    for node in body:
        if isinstance(node, Repeat) and node.times == 1:
            opened += node.body
        else:
            opened.append(node)
    joined: list[Node] = []
    for node in opened:
        last = joined[-1] if joined else None
        if isinstance(node, Group) and isinstance(last, Group) and alike(last, node):
            joined[-1] = last.model_copy(update={"count": last.count + node.count})
        else:
            joined.append(node)
    return [node for node in joined if length([node]) or uses([node])]
