"""Lines that name a feature of the face or body and where it goes, with no verb: "Nose: brown, between R5 and R6."."""

from __future__ import annotations

import re

from hookside.pattern import CueKind

_COURSE = r"(?:r|rnds?|rounds?|rows?)\.? ?\d{1,3}"
_EYES = r"(?:(?:the|two|both|safety|black|\d{1,2} ?mm) )*(?:safety )?eyes"
_FEATURE = (
    r"(?:(?:the|his|her|its|two|both|little|small) )*(?:nose|nostrils?|snout|muzzle|beak|mouth|smile|cheeks?|blush|"
    r"eyebrows?|brows?|lashes|eyelashes|whiskers?|freckles?|face|ears?|horns?|spots?|buttons?|belly ?button|navel)"
)
_WHERE = (
    rf"(?:between|betw\.?|at|on|in|over|under|below|above|across|around|from) (?:the )?{_COURSE}|^\W*{_COURSE}\W*$|"
    rf"[,:;] ?{_COURSE}\W*$|\b(?:\d{{1,2}}|two|three|four|five|six|seven|eight|nine|ten)"
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


def feature(line: str) -> CueKind | None:
    """The job of a line that names such a thing with its place, and asks by no verb; None for any other."""
    told = _TOLD.match(line) if len(line.split()) <= _LONGEST else None
    if told is not None and _THREADED.search(told["rest"]):
        return "embroider"
    if told is None or _WORKED.search(told["rest"]) or not _PLACE.search(told["rest"]):
        return None
    if told["eyes"]:
        return "eyes"
    return "sew" if _SEWN.match(told["thing"]) else "embroider"


def embroidered(line: str) -> bool:
    """ "Nose: black satin st": is a feature told with the stitches that make it?"""
    return feature(line) == "embroider" and _THREADED.search(line) is not None


def tells_of_a_feature(line: str) -> bool:
    """Is the line about a feature and its place? Behind one round and in front of the next it heads no part."""
    return feature(line) is not None
