"""The arithmetic of a course in sentences: what was there, what it uses and makes, what is left, what is printed."""

from __future__ import annotations

from hookside.notation.arithmetic.ground import Ground, Reading, fits
from hookside.notation.arithmetic.summing import read_as
from hookside.notation.courses.meanings import meaning
from hookside.notation.courses.sheet import Account
from hookside.notation.courses.waiting import name_of, title_of
from hookside.notation.explaining.parts import stitches
from hookside.notation.findings import table
from hookside.notation.findings.table import spell
from hookside.notation.trees.nodes import GROUPS, Choice, Node
from hookside.pattern import Group, Repeat, Terms, makes, uses
from hookside.pattern import Node as Made
from hookside.stitches import Stitch

_MOST_LINES = 8  # stretches whose sums are told one by one
_MOST_OTHERS = 3  # double meanings whose other reading is told
_MOST_WORDS = 4  # stitches of a repeat that are named


def there(account: Account) -> str:
    """What the course is worked into."""
    ground, below = account.ground, account.below
    reading = account.taken.reading if account.taken else None
    if ground.there is not None:
        made = table.stitches(ground.there)
        if below is None:
            return f"It goes on with the {made} of the piece before it."
        return f"{title_of(below)} made {made} to work into."
    if reading is not None and reading.ring:
        return "It starts in a ring, so there is nothing below to use."
    if ground.chain:
        return f"It is worked into a chain of {ground.chain}."
    if reading is not None and reading.chain and ground.first:
        return f"It starts with a chain of {reading.chain} of its own."
    return "How many stitches there are below it is not known."


def sums(account: Account, terms: Terms, own: dict[str, Stitch]) -> list[str]:
    """What it uses and makes, stretch by stretch and together, and how that fits what is there."""
    if account.taken is None or account.course is None or not account.course.read:
        return []
    reading, ground = account.taken.reading, account.ground
    counted = [node for node in reading.body if uses([node]) or makes([node])]
    out: list[str] = []
    if len(counted) > 1 or any(isinstance(node, Repeat) for node in counted):
        out += [_stretch(node, terms, own) for node in counted[:_MOST_LINES]]
        if len(counted) > _MOST_LINES:
            rest = counted[_MOST_LINES:]
            out.append(f"The {spell(len(rest))} stretches behind them use {uses(rest)} and make {makes(rest)}.")
    out.append(f"{'Together it' if len(counted) > 1 else 'It'} uses {reading.uses} and makes {reading.makes}.")
    out += _left(reading, ground)
    return out


def _left(reading: Reading, ground: Ground) -> list[str]:
    if reading.over_chain:
        return [f"That goes {spell(reading.over_chain)} further than the chain does."]
    if ground.there is None:
        return []
    if ground.free and reading.uses != ground.there:
        return ["Some of the stitches below are left, or others are worked into: its words say so."]
    over = ground.there - reading.uses
    if over == 0:
        return [f"So all {ground.there} are used and none is left over." if ground.there else "Nothing is left over."]
    if over > 0:
        return [f"So {spell(over)} of the {ground.there} {'is' if over == 1 else 'are'} left over."]
    return [f"That is {spell(-over)} more than there are."]


def _stretch(node: Made, terms: Terms, own: dict[str, Stitch]) -> str:
    if isinstance(node, Group):
        return f"{_named(node, terms, own)}: uses {uses([node])}, makes {makes([node])}."
    inside = ", ".join(_named(part, terms, own) for part in node.body[:_MOST_WORDS])
    inside += ", ..." if len(node.body) > _MOST_WORDS else ""
    used, made = uses(node.body), makes(node.body)
    return (
        f"({inside}): uses {used} and makes {made} each time, {node.times} times: "
        f"{used * node.times} used, {made * node.times} made."
    )


def _named(node: Made, terms: Terms, own: dict[str, Stitch]) -> str:
    if isinstance(node, Repeat):
        return f"({', '.join(_named(n, terms, own) for n in node.body[:_MOST_WORDS])}) {node.times} times"
    return stitches(node.count, node.stitch, terms, own)


def printed(account: Account) -> list[str]:
    """The printed count against what the course makes."""
    course = account.course
    if course is None:
        return []
    if course.declared is None:
        return ["No count is printed."]
    if course.makes is None:
        return [f"The pattern prints {course.declared}; the next course goes by that."]
    if course.declared == course.makes:
        return [f"The pattern prints {course.declared} as well."]
    counted = account.taken.reading.counts() if account.taken else ()
    if course.declared in counted:
        return [f"The pattern prints {course.declared}, which counts its stitches or its spaces alone."]
    apart = abs(course.declared - course.makes)
    more = "more" if course.declared > course.makes else "fewer"
    return [f"The pattern prints {course.declared}, {spell(apart)} {more} than it makes."]


def choices(account: Account, own: dict[str, Stitch]) -> list[str]:
    """Where the words have two meanings: which was taken, and what the other one would come to."""
    taken, parsed = account.taken, account.todo.parsed
    if taken is None or parsed is None or account.course is None or not account.course.read:
        return []
    reading, ground, tree = taken.reading, account.ground, parsed.tree
    out = [f"It was taken as {meaning(why)}, since only so the numbers come out." for why in taken.why if _wider(why)]
    met = [c for c in _met(tree.items, reading.picks) if 0 <= c.index < len(reading.picks)]
    for choice in met[:_MOST_OTHERS]:
        at = choice.index
        pick = reading.picks[at]
        others = [o for o in range(len(choice.options)) if o != pick]
        told = [f"It could be read in {spell(len(choice.options))} ways; I took it as {meaning(choice.why, pick)}."]
        for other in others:
            picks = tuple(other if i == at else p for i, p in enumerate(reading.picks))
            second = read_as(tree, picks, ground, own, taken.counted)
            told.append(f"As {meaning(choice.why, other)} it {_would(second, reading, ground)}.")
        out.append(" ".join(told))
    if len(met) > _MOST_OTHERS:
        out.append(f"There are {spell(len(met) - _MOST_OTHERS)} more such places in it.")
    if taken.bounded:
        out.append("It can be read in more than 64 ways, of which I tried 64.")
    return out


def _would(second: Reading, first: Reading, ground: Ground) -> str:
    if second.unknown:
        return "could not be counted"
    if (second.uses, second.makes) == (first.uses, first.makes):
        return "comes to the same"
    told = f"would use {second.uses} and make {second.makes}"
    if fits(second, ground):
        return told + (", which would fit as well" if fits(first, ground) else ", which would fit")
    return told + ", which does not fit"


def _wider(why: str) -> bool:
    return meaning(why, 0) == meaning(why, 1)


def _met(nodes: list[Node], picks: tuple[int, ...]) -> list[Choice]:
    """The choices on the way that was taken."""
    found: list[Choice] = []
    for node in nodes:
        if isinstance(node, Choice):
            found.append(node)
            if 0 <= node.index < len(picks):
                found.extend(_met(node.options[picks[node.index]], picks))
        elif isinstance(node, GROUPS):
            found.extend(_met(node.body, picks))
    return found


def label(account: Account, between: str) -> str:
    """How the course came to its name; `between` is its label as printed."""
    todo = account.todo
    name = name_of(todo.label, todo.kind)
    if between and not (todo.raw.label is not None and todo.raw.label.relative):
        return f'Its label is "{between}".'
    if between:
        return f'Its label is "{between}", which makes it {name}.'
    if account.below is None:
        return f"It has no label; as the first one it is {name}." if todo.label else "It has no label."
    return f"It has no label; it comes after {name_of(account.below.label, account.below.kind)}, so it is {name}."
