"""How much yarn and stuffing a piece takes."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from hookside.pattern import Cue, Piece, Terms
from hookside.shape.errors import CannotBeMeasured
from hookside.shape.lengths import LENGTH, MM, number, tidied, unit
from hookside.shape.threads import threads
from hookside.shape.threads import used as used_in
from hookside.stitches import TABLE

# Yarn of a single crochet in stitch widths. 10.6 was measured in loose flat worsted work (windchilde.com); with the
# gauge of a ball band the same maker's figure for a surface gives 8.4 (12 sc x 15 rows in 4 in). Toys take 2.5 to
# 3.3 cm a stitch of 4 to 5 mm (common practice, no source), about 6.5. So: 7.5, and anything from 5.5 to 10.6.
PER_SC, LEAST, MOST = 7.5, 5.5, 10.6
TABLE_SC = 10.6  # what the stitch table counts for a single crochet; other stitches go by it

START = 125.0  # mm of tail at a start: 10 to 15 cm (common practice, no source)
CLOSING = 200.0  # at a closed end (common practice, no source)
SEWING = 300.0  # for sewing on: 3 times the seam and 20 cm, never under 30 cm (common practice, no source)
CHANGE = 100.0  # at an end where another colour takes over (common practice, no source)

LIGHT, FIRM = (0.02, 0.035), (0.045, 0.08)  # g/cm3 of stuffing: guesses, no source

_USED = re.compile(
    r"(\d+)\s*(sts?|stitch(?:es)?|[a-z]{2,3}|(?:[a-z]+ ){0,2}(?:crochets?|trebles?))\b\D*", re.IGNORECASE
)
_WORKED = ("sc", "hdc", "dc", "tr")  # that yarn is unravelled from


@dataclass(frozen=True, slots=True)
class Use:
    """Yarn of one single crochet (US) in stitch widths: the likely figure, the least, the most, and where from."""

    value: float
    low: float
    high: float
    basis: str


def guessed(terms: Terms) -> Use:
    """Where nothing was unravelled."""
    small = TABLE["sc"].name(terms)
    told = f"Yarn: about {PER_SC} stitch widths for a {small}, a guess between {LEAST} and {MOST}."
    return Use(PER_SC, LEAST, MOST, f"{told} Unravel 20 stitches and measure them to know.")


def used(text: str, width: float, terms: Terms) -> Use:
    """What the maker unravelled: "20 sc used 46 cm", at a stitch width in mm. CannotBeMeasured for anything else.

    Her names are those of the text's terms: in a UK text "20 dc" are its smallest stitch. "20 stitches" always are.
    """
    small = TABLE["sc"]
    count = _USED.search(text)
    length = LENGTH.search(tidied(text[count.end() :] if count else text))
    if count is None or length is None or not int(count[1]):
        raise CannotBeMeasured(
            f"“{' '.join(text.split())[:80]}” does not say how much yarn some stitches took. Unravel 20 "
            f"{small.name(terms)}, measure the yarn, and write, for example: 20 {small.abbreviation(terms)} used 46 cm."
        )
    mm = number(length[1]) * MM[unit(length[2])]
    tall = _stitch(count[2], terms)
    each = mm / int(count[1]) * TABLE_SC / TABLE[tall].yarn
    value = each / width
    if not 2 <= value <= 40:
        raise CannotBeMeasured(
            f"By “{' '.join(text.split())[:80]}” one stitch of {width:.3g} mm would take {each / 10:.3g} cm of yarn, "
            "and that can't be. Count the stitches and measure the yarn once more."
        )
    told = f"Yarn: {each / 10:.3g} cm for a {small.name(terms)}, by your measuring."
    return Use(value, value * 0.95, value * 1.05, told)


def _stitch(name: str, terms: Terms) -> str:
    """The key of a stitch by its name in these terms, or in the others where these have no such name."""
    plain = " ".join(name.lower().split())
    for known in (terms, "UK" if terms == "US" else "US"):
        for key in _WORKED:
            if plain in TABLE[key].names(known) or plain.removesuffix("s") in TABLE[key].names(known):
                return key
    return "sc"


@dataclass(frozen=True, slots=True)
class Yarn:
    """Yarn of one copy of a piece: `widths` of work by colour, in stitch widths of yarn at `TABLE_SC`; tails in mm."""

    widths: dict[str, float]
    tails: dict[str, float]

    def mm(self, use: float, width: float) -> dict[str, float]:
        """By colour, in mm, where a single crochet takes `use` widths of `width` mm."""
        k = use / TABLE_SC * width
        return {colour: k * self.widths.get(colour, 0.0) + self.tails.get(colour, 0.0) for colour in self.colours}

    def spelled(self, names: Mapping[str, str]) -> Yarn:
        """The same with its colours by these names: what becomes one is added."""
        widths: dict[str, float] = defaultdict(float)
        tails: dict[str, float] = defaultdict(float)
        for colour in self.colours:
            name = names.get(colour, colour)
            widths[name] += self.widths.get(colour, 0.0)
            tails[name] += self.tails.get(colour, 0.0)
        return Yarn(dict(widths), dict(tails))

    @property
    def colours(self) -> list[str]:
        """In the order of first use; "" where the text names none."""
        return list(dict.fromkeys([*self.widths, *self.tails]))


def one_spelling(colours: Iterable[str]) -> dict[str, str]:
    """A name for each: those that only capitals tell apart ("a" and "A") are one yarn, called by the larger."""
    found: dict[str, str] = {}
    for colour in colours:
        found[colour.casefold()] = min(colour, found.get(colour.casefold(), colour))
    return {colour: found[colour.casefold()] for colour in colours}


def yarn(piece: Piece, named: Callable[[Cue], str], first: str = "") -> Yarn:
    """The yarn of one copy. `named` tells the colour a cue changes to, "" for none; `first` the colour in hand."""
    widths: dict[str, float] = defaultdict(float)
    tails: dict[str, float] = defaultdict(float)
    uses = list(used_in(piece, named, first))
    for use in uses:
        entry = TABLE.get(use.group.stitch)
        if entry is not None:
            # An entry is one stitch as the table makes it; what a text makes more of, it works more of.
            share = use.group.makes / entry.makes if entry.makes and use.group.makes else 1.0
            widths[use.colour] += use.times * entry.yarn * share
    for thread in threads(piece, uses) if widths else []:
        begins = CHANGE if tails else START
        in_hand = (thread.colour, thread.last) == (uses[-1].colour, uses[-1].course)
        tails[thread.colour] += begins + (_end(piece) if in_hand else CHANGE)
    return Yarn(dict(widths), dict(tails))


def _end(piece: Piece) -> float:
    """Tail at the end in mm: as the text says or the bench asks, else by what becomes of the end."""
    told = [_length(cue.text) or _length(cue.advice) for cue in piece.cues if cue.kind in ("fasten", "tail")]
    longest = max((mm for mm in told if mm), default=0.0)
    if longest:
        return longest
    closes = any(cue.kind == "close" for cue in piece.cues)
    sews = any("sew" in cue.text.lower() for cue in piece.cues)
    return SEWING if sews else CLOSING if closes else START


def _length(text: str) -> float:
    found = LENGTH.search(tidied(text))
    try:
        mm = number(found[1]) * MM[unit(found[2])] if found else 0.0
    except ValueError:
        return 0.0
    return mm if mm <= 3000 else 0.0
