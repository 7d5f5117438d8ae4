"""Parts and their places, told with no word of sewing: "Ears to R34, wings to the back at R21"."""

from __future__ import annotations

import re

# "Ears to R34, wings to the back at R21": places told without a verb, two of them or more
_PART = (
    r"(?:(?:both|two|three|four|six|the|all|each|one|left|right|upper|lower|front|back|\d) )*"
    r"(?:ears?|arms?|legs?|wings?|feet|foot|fins?|tail|head|body|beak|claws?|eyes|horns?|hat|cap|nose|snout|muzzle|"
    r"hands?|paws?|flippers?|collar|spikes?|comb|feelers?|antennae|hair|bow|scarf)\b"
)
_PLACED = (
    _PART + r"(?: (?:three|two|one|four) on (?:each|either) side)?,? (?:to|in|on|at|onto|between|under|over|below|"
    r"above|"
    r"behind|across|around|along) [a-z0-9 -]{2,50}"
)
PLACED = re.compile(rf"{_PLACED}(?:(?:,|;| and|, and) (?:the )?{_PLACED})+")
# "The comb goes on top of the head": a place told with no word of sewing
_SEWN_PART = _PART.replace("head|body|", "").replace("eyes|", "")
PLACED_ONE = re.compile(
    rf"(?:and |then |now |here |finally |lastly )*(?:(?:the|his|her|its|little|small) )*{_SEWN_PART} (?:then )?"
    r"(?:goe?s?|sits?|belongs?|comes?|(?:is|are|was|were) (?:placed|positioned|attached|put)) "
    r"(?!on (?:for|with|until|and)\b)"
    r"(?:on|onto|to|at|between|under|below|above|over|behind|along|against|across|right|just|in the middle)\b"
    r"(?=[^.]*\b(?:head|body|back|sides?|front|top|bottom|tummy|belly|neck|face|eyes|chest|shoulders?|hull|legs?|arms?|"
    r"(?:r|rnds?|rounds?|rows?)\.? ?\d{1,3})\b)(?![^.]*\b(?:hook|later|if|when|because|needle|loops?|stitch)\b)"
)
