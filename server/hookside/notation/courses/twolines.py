"""A bare round and a line without a label below it, the rest of it or another round: "R3: sc", "dec around"."""

from __future__ import annotations

import re

# One stitch and nothing else, with no sign that something follows
_BARE = re.compile(r"\s{0,3}(?:sc|[hd]?dc|h?tr|inc|dec|even|plain)\.?[ ]{0,3}", re.I)
# ... or one that goes all the way by itself, however often: "sc around x2" above "inc"
_ROUND = re.compile(
    r"\s{0,3}(?:sc|[hd]?dc|h?tr|inc|dec|even|plain)(?: in (?:each|every|all)(?: sts?)?)?(?: all)?(?: the way)?"
    r" (?:a?round|across)(?:,? ?(?:[x*] ?\d{1,2}|\d{1,2} ?(?:x|times)|twice))?\.?[ ]{0,3}",
    re.I,
)
_WORKS = re.compile(r"\b(?:sc|[hd]?dc|h?tr|inc|dec|plain|(?:in|de)creas\w{1,4})\b", re.I)
_GOES_ON = re.compile(r"\s{0,3}(?:[x*,;&(]|(?:in|into|to|a?round|across|all|each|every|the|next|of|and)\b)", re.I)
_GOES_ROUND = re.compile(r"\b(?:a?rounds?|each|every)\b", re.I)  # "dec", "8 sc", "dec": a list, one group a line
_LONGEST = 200  # letters of such a body


def two_lines(body: str) -> tuple[str, str] | None:
    """The two lines that were taken for one round; None for any other body."""
    if "\n" not in body or len(body) > _LONGEST:
        return None
    above, _, below = body.partition("\n")
    whole = _ROUND.fullmatch(above) is not None
    if not (whole or _BARE.fullmatch(above)) or _GOES_ON.match(below):
        return None
    if _WORKS.search(below) is None or not (whole or _GOES_ROUND.search(below)):
        return None
    return above.strip(), " ".join(below.split())
