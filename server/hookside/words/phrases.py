"""Groups and bodies as phrases: short, full, spoken.

Short forms hold to one rule that the page repeats, so that a thread can run under the very words of the repeat
in hand; it stands at `short_body`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from hookside.pattern import Group, Node, Repeat, Terms
from hookside.stitches import TABLE
from hookside.words.names import Manner, Name, manner, name_of, with_article
from hookside.words.numbers import cardinal, times, times_in_digits
from hookside.words.text import spoken_text, translate


@dataclass(frozen=True, slots=True)
class Tongue:
    """Whose words: the maker's terms, the terms the text was written in, the text's own abbreviations."""

    terms: Terms
    written: Terms
    abbreviations: Mapping[str, str] = field(default_factory=dict)

    def name(self, key: str) -> Name:
        return name_of(key, self.terms, self.abbreviations)

    def place(self, into: str) -> str:
        """Where a stitch goes, in the maker's terms: "in 2nd ch from hook", "along the other side"."""
        if into == OTHER_SIDE:
            return "along the other side"
        place = translate(into, self.written, self.terms)
        return place if _PREPOSITION.match(place) else f"in {place}"

    def place_in_words(self, into: str, loops: str = "") -> str:
        """ "2nd ch from hook" -> "in the second chain from the hook"; `loops`: "the back loop of " """
        if into == OTHER_SIDE:
            return f"{'in ' + loops if loops else 'along '}the other side of the chain"
        words = spoken_text(translate(into, self.written, self.terms), self.terms).replace("from hook", "from the hook")
        if _PREPOSITION.match(words):
            return words
        return f"in {loops}{words}" if words.startswith(("the ", "each ")) else f"in {loops}the {words}"


OTHER_SIDE = "other side"  # of a chain that is worked along both its sides
COUNTS = "counts as a stitch"  # a chain that stands for a stitch; its steps are its length
SKIPPED = re.compile(r"the (\d+) skipped ch$")  # chains of the foundation that stand for the first stitch
_PREPOSITION = re.compile(r"(?:in|into|along|around|over|through|between|at|on|under|from|across)\b", re.IGNORECASE)


_ACTION_SHORT = {"ring": "magic ring", "join": "join", "turn": "turn"}
_ACTION_SAID = {"ring": "make a magic ring", "join": "join with a slip stitch", "turn": "turn the work"}


def _skip(terms: Terms) -> str:
    return "skip" if terms == "US" else "miss"


def _size(group: Group) -> str:
    """ " of 7" where a shell is not the table's."""
    entry = TABLE.get(group.stitch)
    odd = entry is not None and entry.makes > 1 and manner(group) == "special" and group.makes != entry.makes
    return f" of {group.makes}" if odd else ""


# -- short ------------------------------------------------------------------


def short(group: Group, tongue: Tongue) -> str:
    """One group for a screen: "4 sc", "1 sc", "inc", "inc x 2", "2 dc in next", "ch 3", "4 sc in back loops".

    A plain stitch has its number even when it is one: beside "4 sc" a lone "sc" looks like a label.
    """
    kind, n = manner(group), group.count
    name = tongue.name(group.stitch).short
    if kind == "action":
        return _ACTION_SHORT[group.stitch]
    if kind == "chain":
        if skipped := SKIPPED.match(group.into or ""):
            return f"{skipped[1]} ch count as 1"
        words = f"ch {group.length}"  # a space that counts as one stitch is made of all its chains
    elif kind == "skip":
        words = f"{_skip(tongue.terms)} {n}"
    elif kind == "several" and (group.stitch != "inc" or group.into or group.uses == 0):
        words = _short_several(group, tongue)
    else:
        words = _short_counted(group, name)
        if group.into:
            words += f" {tongue.place(group.into)}"
    if group.loops:
        words += f" in {group.loops} loop" + ("" if n == 1 and group.uses <= 1 else "s")
    return words + (f" with {group.colour}" if group.colour else "")


def _short_counted(group: Group, name: str) -> str:
    kind = manner(group)
    if group.count == 1 and kind != "each":
        return name + _size(group)
    as_number = kind == "each" or (kind == "special" and group.uses <= 1 and group.makes == 1)
    return f"{group.count} {name}" if as_number else f"{name}{_size(group)} x {group.count}"


def _short_several(group: Group, tongue: Tongue) -> str:
    amount = f"{group.makes} {tongue.name(TABLE[group.stitch].of).short}"
    if group.into:
        return f"{amount} {tongue.place(group.into)}" + (f" x {group.count}" if group.count != 1 else "")
    if group.uses == 0:  # the text does not say into what; that they share it is all that is known
        return f"{amount} in one place" + (f" x {group.count}" if group.count != 1 else "")
    return f"{amount} in next" if group.count == 1 else f"{amount} in each of next {group.count}"


def short_body(body: Sequence[Node], say: Callable[[Group], str]) -> str:
    """A body for a screen: "(4 sc, inc) x 7". `say` gives a group's short words.

    The rule, which the page follows on its own from the `words.short` of the groups:
    - the parts of a body are joined with ", "
    - a repeat is "(" + its body by this rule + ") x " + its times
    - the round brackets are left out where the repeat's body is a single group whose short words hold no space:
      "inc x 6"
    """
    return ", ".join(
        say(node) if isinstance(node, Group) else _short_repeat(node, short_body(node.body, say)) for node in body
    )


def _short_repeat(node: Repeat, inside: str) -> str:
    bare = len(node.body) == 1 and isinstance(node.body[0], Group) and " " not in inside
    return f"{inside} x {node.times}" if bare else f"({inside}) x {node.times}"


# -- full -------------------------------------------------------------------


def _stitches(n: int) -> str:
    return "the next stitch" if n == 1 else f"the next {n} stitches"


def full(group: Group, tongue: Tongue) -> str:
    """One group for a beginner: "4 single crochet, one in each of the next 4 stitches"."""
    kind, n, name = manner(group), group.count, tongue.name(group.stitch)
    if kind == "action":
        return _ACTION_SAID[group.stitch]
    if kind == "chain":
        if skipped := SKIPPED.match(group.into or ""):
            return f"the {skipped[1]} skipped chains count as a stitch"
        n = group.length
        words = f"chain {n}" + (f" {tongue.place_in_words(group.into)}" if group.into and group.into != COUNTS else "")
        words += ", which counts as a stitch" if group.into == COUNTS else ""
    elif kind == "skip":
        words = f"{_skip(tongue.terms)} {_stitches(n)}"
    elif kind == "several":
        words = f"{group.makes} {name.base_many} {_full_places(group, tongue)}"
    elif kind == "together":
        words = f"{group.uses} stitches together in one {name.base_one}"
        words = f"the next {words}" if n == 1 else f"{times_in_digits(n)}: {words}"
    else:
        words = _full_each(group, name, tongue)
    if group.loops:
        words += f", through the {group.loops} loop{'' if n == 1 and group.uses <= 1 else 's'} only"
    return words + (f", with {group.colour}" if group.colour else "")


def _full_places(group: Group, tongue: Tongue) -> str:
    n = group.count
    if group.into:
        return tongue.place_in_words(group.into) + (f", {times_in_digits(n)}" if n != 1 else "")
    if group.uses == 0:
        return "in one place" + (f", {times_in_digits(n)}" if n != 1 else "")
    return "in the next stitch" if n == 1 else f"in each of {_stitches(n)}"


def _full_each(group: Group, name: Name, tongue: Tongue) -> str:
    n = group.count
    words = f"{n} {name.one if n == 1 else name.many}{_size(group)}"
    if group.into:
        return f"{words} {tongue.place_in_words(group.into)}"
    if group.uses == 0:
        return words
    if group.uses > 1:
        return f"{words} over {_stitches(group.uses)}" if n == 1 else f"{words}, each over {group.uses} stitches"
    return f"{words} in the next stitch" if n == 1 else f"{words}, one in each of {_stitches(n)}"


# -- spoken -----------------------------------------------------------------


def spoken(group: Group, tongue: Tongue, before: Group | None = None) -> str:
    """One group for a voice: "single crochet in the next four".

    `before` is the group said just before it; what it has named already is left out: "two in the next", "four".
    """
    kind, name = manner(group), tongue.name(group.stitch)
    known = before is not None and _same_yarn_and_stitch(before, group)
    if kind == "action":
        return _ACTION_SAID[group.stitch]
    if kind == "chain":
        if skipped := SKIPPED.match(group.into or ""):
            return f"the {cardinal(int(skipped[1]))} skipped chains count as a stitch"
        chained = group.length
        words = f"chain {cardinal(chained)}" + (", which counts as a stitch" if group.into == COUNTS else "")
    elif kind == "skip":
        n = group.count
        words = f"{_skip(tongue.terms)} the next" + (f" {cardinal(n)}" if n != 1 else "")
    else:
        words = _spoken_stitch(group, kind, name, known, tongue)
    if group.colour and not known:
        words += f" with {spoken_text(group.colour, tongue.terms) or group.colour}"
    return words


def _same_yarn_and_stitch(before: Group, group: Group) -> bool:
    """Whether the stitch need not be named again."""
    kinds: tuple[Manner, Manner] = (manner(before), manner(group))
    if any(k not in ("each", "several", "together") for k in kinds) or before.into or group.into:
        return False
    same_stitch = TABLE[before.stitch].of == TABLE[group.stitch].of
    return same_stitch and before.loops == group.loops and before.colour == group.colour and group.uses > 0


def _spoken_stitch(group: Group, kind: Manner, name: Name, known: bool, tongue: Tongue) -> str:
    n, number = group.count, cardinal(group.count)
    if kind == "together":
        loops = f" through the {group.loops} loops" if group.loops and not known else ""
        many = cardinal(group.uses)
        if n == 1:
            return ("" if known else f"{name.base_one} ") + f"the next {many} together{loops}"
        return ("" if known else f"{name.base_one} ") + f"{many} together{loops}, {times(n)}"
    if kind == "several":
        amount = cardinal(group.makes) + ("" if known else f" {name.base_many}")
        return f"{amount} {_spoken_places(group, tongue, known)}"
    if kind == "each":
        if known:
            return number
        if group.into or group.uses == 0:
            amount = f"one {name.one}" if n == 1 else f"{number} {name.many}"
            return f"{amount} {_spoken_places(group, tongue, known)}".strip()
        return f"{name.one} {_spoken_places(group, tongue, known)}"
    amount = with_article(name.one) if n == 1 else f"{number} {name.many}"
    if _size(group):
        amount += f" of {cardinal(group.makes)}"
    if group.into:
        return f"{amount} {tongue.place_in_words(group.into)}"
    if group.uses == 0:
        return amount
    if group.uses > 1:
        over = cardinal(group.uses)
        return f"{amount} over the next {over}" if n == 1 else f"{amount}, each over {over}"
    return f"{amount} in the next" if n == 1 else f"{amount}, one in each of the next {number}"


def _spoken_places(group: Group, tongue: Tongue, known: bool) -> str:
    n, number = group.count, cardinal(group.count)
    several = manner(group) == "several"
    loops = f"the {group.loops} loop{'s' if n != 1 and not several else ''} of " if group.loops and not known else ""
    if group.into:
        again = f", {times(n)}" if several and n != 1 else ""
        return tongue.place_in_words(group.into, loops) + again
    if group.uses == 0:
        return "in one place" + (f", {times(n)}" if n != 1 else "") if several else ""
    if n == 1:
        return f"in {loops}the next"
    return f"in {loops}each of the next {number}" if several else f"in {loops}the next {number}"


# -- bodies -----------------------------------------------------------------


def _flat(body: Sequence[Node]) -> list[Node]:
    """A body with repeats of one group taken as one longer group, and repeats that run once as their parts."""
    nodes: list[Node] = []
    for node in body:
        if isinstance(node, Group):
            nodes.append(node)
            continue
        inside = _flat(node.body)
        if node.times == 1:
            nodes.extend(inside)
        elif len(inside) == 1 and isinstance(inside[0], Group) and manner(inside[0]) != "action":
            nodes.append(inside[0].model_copy(update={"count": inside[0].count * node.times}))
        else:
            nodes.append(Repeat(body=inside, times=node.times))
    return nodes


def _listed(parts: list[str]) -> str:
    """ "a", "a, then b", "a, b, then c" """
    return parts[0] if len(parts) == 1 else ", ".join(parts[:-1]) + ", then " + parts[-1]


def _said(body: Sequence[Node], words: Callable[[Group, Group | None], str], often: Callable[[int], str]) -> str:
    """A body as a sentence. A course that is one repeat says how often at its end, any other repeat at its head."""
    nodes = _flat(body)
    if len(nodes) == 1 and isinstance(nodes[0], Repeat):
        inside = _said(nodes[0].body, words, often)
        whole = "all of that " if any(isinstance(n, Repeat) for n in nodes[0].body) else ""
        return f"{inside}; {whole}{often(nodes[0].times)} in all"
    clauses: list[str] = []
    run: list[str] = []
    before: Group | None = None
    for node in nodes:
        if isinstance(node, Group):
            run.append(words(node, before))
            before = node
            continue
        if run:
            clauses.append(_listed(run))
        run, before = [], None
        inside = _said(node.body, words, often)
        clauses.append(
            f"{often(node.times)} all of this: {inside}; that is the end of it"
            if any(isinstance(n, Repeat) for n in node.body)
            else f"{often(node.times)}: {inside}"
        )
    if run:
        clauses.append(_listed(run))
    return "; then ".join(clauses)


def full_body(body: Sequence[Node], tongue: Tongue) -> str:
    """A body for a beginner: "4 single crochet, one in each ..., then 2 single crochet ...; 7 times in all"."""
    return _said(body, lambda group, _: full(group, tongue), times_in_digits)


def spoken_body(body: Sequence[Node], tongue: Tongue) -> str:
    """A body for a voice: "single crochet in the next four, then two in the next; seven times in all"."""
    return _said(body, lambda group, before: spoken(group, tongue, before), times)
