"""What becomes of the stitches that a stretch leaves: "until two are left, and take those two together as well"."""

from __future__ import annotations

import re

_N = r"(?:2|3|two|three)"
# ... told by words that point back to them; the words that say how many stand in front
_THOSE = re.compile(
    rf"(?P<left>\b(?:(?:until|till?)(?: there are| you have| only)* (?P<n>{_N})(?: (?:sts?|stitches|sc|[hd]?dc))?"
    rf"(?: (?:are |is )?(?:left|remain(?:ing)?))|to (?:the |your )?(?:last|final) (?P<n2>{_N})(?: (?:sts?|stitches))?)"
    r"(?:[,;.] ?| )(?:and )?(?:then )?)"
    r"(?P<told>(?:(?:work|crochet|take|put) (?:those|these|them|the|both)(?: last)?(?: (?:of )?(?:them|(?P<m>"
    rf"{_N})))?(?: (?:sts|stitches))? (?:together|tog)|"
    r"(?:dec|decrease)(?: (?:over|in|with|across))?(?: (?:those|these|them|both))(?: (?:of )?(?:them|(?P<m2>"
    rf"{_N})))?(?: (?:sts|stitches))?))(?=\s*(?:[.;,(\[=]|too\b|as well\b|also\b|$))",
    re.I,
)
# "in every stitch too", "as well": what says no more than that it was so before
_TOO = re.compile(r",?(?<=[a-z\d,]) (?:too|as well)(?=\s*(?:[.;,(\[=]|$))", re.I)
_FEW = {"2": 2, "two": 2, "3": 3, "three": 3}


def said_of_last(body: str) -> str:
    """The body with such stitches told as a decrease; of the same length."""
    if " too" in body or " as well" in body:
        body = _TOO.sub(lambda m: " " * len(m[0]), body)
    if " left" in body or " remain" in body or " last" in body or " final" in body:
        body = _THOSE.sub(_together, body)
    return body


def _together(match: re.Match[str]) -> str:
    left = _FEW[(match["n"] or match["n2"]).lower()]
    told = match["m"] or match["m2"]
    if told and _FEW[told.lower()] != left:
        return match[0]  # two of the three: which, nobody says
    name = "dec" if left == 2 else "sc3tog"
    return match["left"] + name.ljust(len(match["told"]))
