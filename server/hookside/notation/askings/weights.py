"""How much each kind of asking holds the hands up."""

from __future__ import annotations

import re

from hookside.notation.askings.kinds import STAYS
from hookside.notation.askings.leads import bare
from hookside.notation.askings.marked import stitches_marked
from hookside.notation.askings.rules import HANDS, LEVELS, MINDS
from hookside.notation.askings.things import wants_hands
from hookside.notation.askings.when import on_fabric
from hookside.pattern import CueKind, Weight

_WEIGHTS: dict[CueKind, Weight] = {
    "eyes": "stop",
    "stuff": "stop",
    "close": "stop",
    "fasten": "stop",
    "hold": "stop",
    "join": "stop",
    "marker": "whisper",
    "count": "whisper",
    "colour": "pause",
    "turn": "pause",
    "tail": "pause",
    "shape": "pause",
    "weave": "pause",
    "sew": "pause",
    "pin": "pause",
    "embroider": "pause",
    "other": "pause",
}

_UNSTUFFED = re.compile(r"(?:do not|don't|no need to) (?:stuff|fill)\b")
# A row along the edges of what is there, told by its name: it stands beside the rounds, where no other step holds it
EDGING = re.compile(
    r"(?:for )?(?:the )?(?P<name>(?:(?:outer|inner|shell|picot|scallop(?:ed)?|lace|crab|simple|plain|final|optional|"
    r"crochet) ){0,2}(?:border|edge|edging|trim))\b(?: \([^()\n]{1,24}\))?\s*(?::|\s-)\s*(?=\S)",
    re.I,
)
_WORKS = re.compile(r"\b(?:sc|h?dc|h?tr|dtr|sl ?sts?|ss|chs?|crochet|crab|picots?|shells?|stitch(?:es)?)\b", re.I)
_FACE = re.compile(r"\b(?:eyes?|face|nose|mouth|snout|muzzle)\b", re.IGNORECASE)


def weight_of(kind: CueKind, text: str) -> Weight:
    """How much a cue holds the hands up: of the jobs without a kind, only what the hands do makes them pause."""
    if kind == "other":
        if EDGING.match(text.strip()) and _WORKS.search(text):
            return "stop"
        asked = bare(" ".join(text.lower().split()).strip(" -*:,;.!()[]\"'"))
        empty = _UNSTUFFED.match(asked) or STAYS.match(asked)
        hands = LEVELS.match(asked) or (HANDS.match(asked) and not MINDS.match(asked))
        hands = hands or wants_hands(asked) or wants_hands(text.lower().strip()) or on_fabric(text)
        return "pause" if empty or hands else "whisper"
    if kind == "embroider" and _FACE.search(text):
        return "stop"  # a face wants a hand inside: once the piece is closed it is too late
    if kind == "marker" and stitches_marked(text):
        return "pause"  # it is more than the one that moves up with each round
    return _WEIGHTS[kind]
