"""The wording of places that are more than the next stitch: the other side, another piece, a bridge, a space."""

from __future__ import annotations

import re

OTHER_SIDE = re.compile(
    r"(?:now |then |and )*(?:(?:rotate|turn(?:ing)?|flip|working|work|continue|continuing|do not turn|"
    r"without turning)\b[^.;()\[\]*]{0,60}?)?"
    r"(?:(?:on|along|down|in|into|across|up|to|around)\s+)?(?:the\s+)?(?:other|opposite|second|bottom|under|back|"
    r"remaining|unused|unworked)\s*(?:side|loops?|edge|half|lps?)?s?\s*(?:side )?(?:of\s+)?(?:the\s+|your\s+)?"
    r"(?:foundation|starting|beginning|base|initial|first|original)?\s*(?:ch(?:ain)?s?|row|foundation|side)\b"
    r"(?:\s*(?:sts|stitches|loops|edge))?"
)
ALONG_EDGE = re.compile(
    r"(?:along|across|down|on) (?:the )?(?:bottom|underside|lower edge|back)(?: of (?:the )?(?:ch(?:ain)?|work))?\b"
    r"(?! loop)"
)
BOTH_ENDS = re.compile(
    r"(?:1 |one )?(?:st |stitch )?(?:at|on|in) (?:the )?(?:(?:beginning|beg|start) and (?:the )?end|each end|"
    r"both ends|each side|both sides|each edge|both edges)"
    r"(?: of (?:the |this |each |every )?(?:row|round|rnd|work|piece))?"
)
STARTING_IN = re.compile(
    r",?\s*(?:starting|beginning|start|begin|working)\s+(?:in|from|with|at|into)\s+(?:the\s+)?"
    r"(?:(?P<n>\d+)(?:st|nd|rd|th)|(?P<word>first|second|third|fourth|fifth))\s+(?:chain|ch)(?: st)?"
    r"(?:\s+from (?:the |your )?hook)?"
)
# "working last sc in top of turning ch": where the last of the stitches told goes
LAST_INTO = re.compile(
    r"(?:and )?work(?:ing)? (?:the |your )?last (?:sc|dc|hdc|htr|tr|dtr|st|stitch) (?:in|into|on) (?:the )?"
    r"(?:top (?:st )?of|turning|3rd|4th|2nd)[^,.;()]{3,40}"
)
ON_CHAIN = re.compile(
    r"(?:along|across|over|down|up|on|in|into)\s+(?:(?:the|each of the|each)\s+)?(?:(?:other|opposite|second|back|"
    r"under) side of (?:the |this |that )?)?"
    r"(?:bridge|(?:connecting |joining |middle )?chains?|ch\b)(?!\s*-?\s*\d)(?! from)(?! sp)(?:\s+(?:bridge|sts?|"
    r"stitches))?"
)
ON_PIECE = re.compile(
    r"(?:around|round|on|of|over|along|across|in|into|to|from|onto)\s+(?:each (?:st|stitch) (?:of|on|around)\s+)?"
    r"(?:the\s+)?"
    r"(?P<which>first|second|third|fourth|other|next|1st|2nd|3rd|4th|left|right|front|back)\s+(?P<what>legs?|arms?|"
    r"pieces?|foot|feet|wings?|fins?|ears?|flippers?|halves|half|tubes?)\b"
    r"(?:\s+(?:\d|one|two))?"
)
PIECE = re.compile(
    r"(?:around|round|on|of|over|along|across|onto)\s+(?:the\s+)?(?P<what>leg|arm|piece|foot|wing|fin|flipper)"
    r"\s+(?P<which>\d|one|two|a|b)\b"
)
TO_ELSEWHERE = frozenset(
    [
        "around",
        "round",
        "on",
        "of",
        "over",
        "along",
        "across",
        "in",
        "into",
        "to",
        "from",
        "onto",
        "through",
        "thru",
        "at",
    ]
).union(
    ["down", "up", "1", "one", "st", "working", "going", "and", "inserting", "work"],
)
ELSEWHERE = re.compile(
    r"\b(?:leg|legs|arm|arms|other piece|first piece|second piece|previous piece|body|both pieces|head)\b"
)
# "3 sc through fin and body": how it is worked
THROUGH_PARTS = re.compile(r"through (?:the )?[a-z]{3,10} and (?:the )?[a-z]{3,10}\b(?=\s*(?:[,.;(\[]|$))")
# "2 sc in last ch (same ch as first sc)": a remark that says which place that is
SAME_AS = re.compile(
    r"(?:this is |that is |i\.?e\.?,? |in )?(?:the )?same (?:ch(?:ain)?|st(?:itch)?|space|sp|place|one)"
    r" (?:as|where|that)(?: you (?:made|worked))?(?: (?:the|your|in))* (?:very )?"
    r"(?:first|1st|last|previous|beginning|starting) ?[a-z ]{0,24}"
)
LAYERED = re.compile(
    r"(?:(?:and )?(?:work(?:ing|ed)?|going|inserting (?:the |your )?hook) )?(?:through|thru|across|in|into) (?:both|"
    r"the two|two|2)(?: the| of the)? "
    r"(?:layers?|sides?|thicknesses|halves|edges|front and back)(?: (?:together|at once|of the \w+))*(?: to (?:close|"
    r"seal|shut|join)(?: (?:it|the \w+))?)?"
)
LAYERS = re.compile(r"\b(?:both layers|through both (?!l(?:oo|p))|both sides together|two layers|both thicknesses)\b")
SPACE = re.compile(r"\bsps?\b|\bspaces?\b|\bch-\d|\b(?:ch|chain)-?\d* ?(?:loops?|lps?)\b|\barch")
CHAINS = re.compile(r"(?:^|\s)ch(?:ain)?s?(?: around| across)?$")
STITCH_TOO = re.compile(r"\b(?:sts?|stitch(?:es)?|[hsd]?[cr]|hdc|htr|dc|sc|tr)\b.*\b(?:and|or|&)\b")
