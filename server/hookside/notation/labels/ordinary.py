"""Bodies that tell stitches and nothing beside them: most of them do, and the same ones over and over."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.notation.labels import forsome, growth, howlong, references, stretches
from hookside.notation.labels.loops import left_loops
from hookside.notation.vocabulary import REMEMBERED

BETWEEN_LAYERS = ("both", "layers")  # one of which is in what shuts a piece, its two layers worked together
# "sc x 24 around": so many stitches, and no rounds
AMOUNT_AROUND = re.compile(
    r"(?:(?<=[ )\]])x|\*) ?(?P<n>\d{1,3}) (?:all )?(?:the way )?a?round(?=\s*(?:[.,;(\[=]|- ?\d|$))", re.I
)
_LEADS = (references.COUNT_FIRST, references.COLOUR_LEAD, references.EDGE_LEAD, references.REFERENCE, references.EVEN)


@lru_cache(REMEMBERED)
def ordinary(body: str) -> bool:
    """Would the line of courses (`courses/lineup`) get no answer to whatever it asks of the words of one round?

    These hang on the words alone, so that they are asked of each body once: of no count or color in front of the work,
    no other course that it is like, of no number of rounds, no loops of another one, of no copies, growth or layers.
    """
    if any(lead.match(body) for lead in _LEADS) or any(hint in body for hint in BETWEEN_LAYERS):
        return False
    if howlong.parted(body) or howlong.plain_behind(body) or howlong.length(body) or AMOUNT_AROUND.search(body):
        return False
    if stretches.stretch(body) or stretches.shade_alone(body):
        return False
    return not (forsome.for_some(body) or left_loops(body) or growth.growth(body, labelled=True))
