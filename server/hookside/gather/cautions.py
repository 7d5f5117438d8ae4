"""What to mind with what is made, and with the hands that make it. None of it is legal or medical advice."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from hookside.gather.listing import Caution, Item
from hookside.gather.materials import Listed
from hookside.shape import PieceMeasures
from hookside.words.eyes import BEADS

# Of the small-parts cylinder: Canada Toys Regulations SOR/2011-17, Sch. 1; 16 CFR 1501.4 has the same in inches.
ACROSS, DEEP = 31.7, 57.1  # mm
TOY = (
    "EN 71-1: soft toys to hold and cuddle count as for under 36 months, whatever the label. What may be sold or given "
    "away is decided by the rules where you live."
)
PARTS = "16 CFR 1501.4; Canada Toys Regulations SOR/2011-17, Schedule 1. The size was worked out, with its spread."
HARD = "Common practice, no source; EN 71-1 tries every part by pulling and turning it."
HANDS = (
    "NHS joint-protection table in Open Orthopaedics J. 12 (2018) 500 for the grip; HSE L26, written for screens, for "
    "the hour; nibusinessinfo RSI checklist. No limit made for crochet was found."
)

_LOOSE = re.compile(
    r"\b(?:beads?|buttons?|wire|pipe cleaners?|pellets?|rice|bells?|magnets?|sequins?|pebbles?|marbles?)\b", re.I
)


def cautions(items: list[Item], listed: Listed, by_number: Mapping[int, PieceMeasures]) -> list[Caution]:
    """What is due for this list: soft toys and babies, small parts, what comes loose; breaks for the hands always."""
    found: list[Caution] = []
    stuffed = [piece for piece in by_number.values() if piece.stuffing_g.value > 0]
    ids = {item.id for item in items}
    if stuffed or "stuffing" in ids:
        found.append(
            Caution(
                id="toy",
                text="Any soft toy may come into the hands of a baby. Embroider the eyes, sew every part on well, keep "
                "cords short.",
                source=TOY,
            )
        )
    if eyes := next((item for item in items if item.id == "eyes"), None):
        sewn = BEADS.match(eyes.name)
        found.append(
            Caution(
                id="eyes",
                text="Beads and buttons come off, however well they are sewn on: leave them off and embroider the eyes "
                "for a child under three."
                if sewn
                else "Plastic eyes can come off, safety eyes too: embroider them for a child under three.",
                source=HARD,
            )
        )
    hard = list(dict.fromkeys(m[0].lower() for line in (*listed.others, *listed.yarns) for m in _LOOSE.finditer(line)))
    if hard and (stuffed or "stuffing" in ids):
        found.append(
            Caution(
                id="loose",
                text=f"The list names {' and '.join(hard)}: leave that off where a child under three may get at it.",
                source=HARD,
            )
        )
    if stuffed or "stuffing" in ids:
        found += _small(by_number.values())
    found.append(
        Caution(
            id="hands",
            text="For your hands: let go of the hook every ten minutes or so, and stop for five to ten minutes in each "
            "hour, before they tire. Pain, numbness or tingling that stays: stop, and ask a doctor or a "
            "physiotherapist.",
            source=HANDS,
        )
    )
    return found


def _small(pieces: Iterable[PieceMeasures]) -> list[Caution]:
    """What goes into the cylinder once it has come off, stuffed or not, in one sentence."""
    small = []
    for piece in pieces:
        # What lies flat has no depth to be in its way.
        sides = sorted((piece.width_mm.value, piece.depth_mm, piece.height_mm.value))
        if 0 < sides[1] <= ACROSS and sides[2] <= DEEP:
            small.append((piece.name or "The piece", f"about {sides[2] / 10:.1f} cm"))
    if not small:
        return []
    each = [f"{name} ({long})" for name, long in small]
    told = f"{each[0]} is a small part: it goes"
    if len(each) > 1:
        told = f"{', '.join(each[:-1])} and {each[-1]} are small parts: they go"
    return [
        Caution(
            id="small",
            text=f"{told} into the testing cylinder. Nothing of that size where a child under three may get at it, "
            "unless it is sewn on to hold.",
            source=PARTS,
        )
    ]
