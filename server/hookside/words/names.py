"""What a stitch is called: in the maker's terms, one of it and several, and what manner of stitch it is."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Literal

from hookside.pattern import Group, Terms
from hookside.stitches import TABLE, full_name, plural

Manner = Literal["action", "chain", "skip", "each", "several", "together", "special"]

ACTIONS = frozenset({"ring", "join", "turn"})

# Full and spoken forms say "2 single crochet in the next stitch" where print says "inc",
# and "the next 2 stitches together" where it says "dec".
_NAMED_SEVERAL = frozenset({"inc", "inc3", "sl st inc", "hdc inc", "dc inc", "tr inc"})


@dataclass(frozen=True, slots=True)
class Name:
    """One stitch as it is called. The base is the plain stitch it is made of."""

    short: str  # "sc"
    one: str  # "single crochet"
    many: str  # "single crochet", "trebles"
    base: str  # key of the plain stitch, "" where there is none
    base_one: str
    base_many: str


def with_article(name: str) -> str:
    """ "a bobble", "an invisible decrease" """
    return ("an " if name[:1].lower() in "aeiou" else "a ") + name


def name_of(key: str, terms: Terms, abbreviations: Mapping[str, str]) -> Name:
    """The name of a stitch: from the table, else the text's own abbreviation with its meaning where that is a name.

    >>> name_of("sc", "UK", {}).one
    'double crochet'
    >>> name_of("lst", "US", {"lst": "limpet stitch"}).many
    'limpet stitches'
    """
    if key in TABLE:
        return _from_table(key, terms)
    meaning = abbreviations.get(key, "").strip().rstrip(".")
    # a meaning of many words is an instruction ("work 3 hdc in the next st"), not a name
    name = meaning if re.fullmatch(r"[A-Za-z]+(?:[ -][A-Za-z]+){0,3}", meaning) else key
    return Name(key, name, plural(name), "", name, plural(name))


@cache
def _from_table(key: str, terms: Terms) -> Name:
    entry = TABLE[key]
    base = TABLE.get(entry.of, entry)
    one, base_one = full_name(entry, terms), full_name(base, terms)
    return Name(entry.abbreviation(terms), one, plural(one), base.key, base_one, plural(base_one))


def manner(group: Group) -> Manner:
    """How a group is said.

    several    two or more plain stitches in one place: "inc", "2 sc in next st"
    together   one stitch over several: "dec", "sc2tog"
    each       one plain stitch in each stitch: "4 sc"
    special    all else, said by its own name: "inv dec", "bobble"
    """
    entry = TABLE.get(group.stitch)
    if group.stitch in ACTIONS:
        return "action"
    if group.stitch == "ch":
        return "chain"
    if group.stitch == "skip":
        return "skip"
    if entry is None:
        return "special"
    if group.stitch in _NAMED_SEVERAL:
        return "several"
    if group.stitch == "dec" or group.stitch.endswith("tog"):
        return "together"
    if entry.of == entry.key and entry.makes == 1:
        return "several" if group.makes > 1 else "each"
    return "special"
