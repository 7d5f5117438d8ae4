"""Lines that name a feature of the face or body and where it goes, with no verb: "Nose: brown, between R5 and R6."."""

from __future__ import annotations

import re

from hookside.notation.lines.heads.parts import is_part
from hookside.pattern import CueKind

_ROUND = r"(?:r|rnds?|rounds?|rows?)\.? ?"
_COURSE = rf"{_ROUND}\d{{1,3}}"
_EYES = r"(?:(?:the|two|both|safety|black|\d{1,2} ?mm) )*(?:safety )?eyes"
_FEATURE = (
    r"(?:(?:the|his|her|its|two|both|little|small) )*(?:nose|nostrils?|snout|muzzle|beak|mouth|smile|cheeks?|blush|"
    r"eyebrows?|brows?|lashes|eyelashes|whiskers?|freckles?|face|ears?|horns?|spots?|buttons?|belly ?button|navel)"
)
_WHERE = (
    rf"(?:between|betw\.?|at|on|in|over|under|below|above|across|around|from) (?:the )?{_COURSE}|"
    rf"^\W*{_COURSE}(?: ?- ?\d{{1,3}})?\W*$|"
    rf"[,:;] ?{_COURSE}(?: ?- ?\d{{1,3}})?\W*$|\b(?:\d{{1,2}}|two|three|four|five|six|seven|eight|nine|ten)"
    r"(?: (?:sts?|stitch(?:es)?|sc|dc))? (?:apart|between)\b|\b(?:on )?(?:each|either) side\b|\bsee (?:below|above|"
    r"photo|picture)s?\b"
)
_TOLD = re.compile(
    rf"\W*(?P<thing>(?P<eyes>{_EYES})|{_FEATURE})(?: ?\([a-z ]{{3,24}}\))?(?: ?[:,!;-]+ ?| )(?P<rest>[^\n]*)", re.I
)
_PLACE = re.compile(_WHERE, re.I)
# "Nose: black satin st", "Mouth: straight stitches": how it is embroidered
_THREADED = re.compile(
    r"\b(?:(?:satin|straight|running|back|stem|long|short|lazy daisy|chain|fly|split)[- ]?(?:sts?|stitch(?:es|ed)?)|"
    r"french knots?|embroidered|embroidery|floss)\b",
    re.I,
)
# Stitches, or how many to make: the heading of a part
_WORKED = re.compile(r"\b(?:make|crochet|x ?\d|\d ?x|ch|mr|ring|\d+ (?:sc|dc|inc|dec)(?! apart))\b", re.I)
_SEWN = re.compile(r"(?:[a-z]+ )*(?:ears?|horns?|snout|muzzle|beak|buttons?)$", re.I)
_LONGEST = 14  # words of such a line
# "Eyes: round 6, 5 stitches apart", "Nose - R7", "Arms: R9."
_AT_ROUND = re.compile(
    r"(?:(?:the|his|her|its|both|two|safety|black|small|\d{1,2} ?mm) )*(?P<name>[a-z]{3,12})(?: ?[:,;-]+ ?| )"
    rf"{_ROUND}(?P<n>\d{{1,3}})(?: ?(?:-|/|&|to|and) ?(?:r\.? ?)?\d{{1,3}})?"
    r"(?:, ?[^.:;,]*\b(?:apart|between|wide|high|long|tall|each side|either side)\b[^.:;,]*)?\W*",
    re.I,
)


def feature(line: str) -> CueKind | None:
    """The job of a line that names such a thing with its place, and asks by no verb; None for any other."""
    told = _TOLD.match(line) if len(line.split()) <= _LONGEST else None
    alone = _AT_ROUND.fullmatch(line.strip()) if told is None else None
    if alone is not None and is_part(alone["name"].lower()) and alone["name"].lower() not in ("body", "head"):
        return "sew"
    if told is not None and _THREADED.search(told["rest"]):
        return "embroider"
    if told is None or _WORKED.search(told["rest"]) or not _PLACE.search(told["rest"]):
        return None
    if told["eyes"]:
        return "eyes"
    return "sew" if _SEWN.match(told["thing"]) else "embroider"


def placed_at(line: str) -> int:
    """The round where a feature or a part is put, by a line that tells nothing else; 0 for any other line."""
    told = _AT_ROUND.fullmatch(line.strip(" -*"))
    return int(told["n"]) if told is not None and feature(line) is not None else 0


def embroidered(line: str) -> bool:
    """ "Nose: black satin st": is a feature told with the stitches that make it?"""
    return feature(line) == "embroider" and _THREADED.search(line) is not None


def tells_of_a_feature(line: str) -> bool:
    """Is the line about a feature and its place? Behind one round and in front of the next it heads no part."""
    return feature(line) is not None
