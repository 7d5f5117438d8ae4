"""How a sentence ushers a round in: "Round 5 comes next, and here you", "Then comes round 5:", "Rounds 4 to 6 are all
alike:". `sentences` gives such a round its label.
"""

from __future__ import annotations

import re

from hookside.notation.page.inwords import COURSE, NTH, TO, N
from hookside.notation.sought import Sought

# What stands between the number and the work: ", and here you", ". In it we", ": just"
_LINK = (
    r"(?:[,:;.]|[ ]-)?[ ](?:(?:and|so|but)[ ])?"
    r"(?:(?:here|there|where|(?:it|they) (?:has|have|is|are|gets?)|this time|in which|for which|"
    r"(?:in|for)[ ](?:it|this|that|these|those|them|each|all)(?:[ ](?:one|ones|rounds?|rows?|of them))?),?[ ])?"
    r"(?:(?:you|we|again|just|simply|only|now|will|have to|need to),?[ ])*"
)
_AHEAD = (
    rf"(?:{COURSE.format('kind')} (?P<n>{N})(?: {TO} (?P<last>{N}))?|"
    rf"the (?P<nth>{NTH})(?: {TO} (?:the )?(?P<lastth>{NTH}))? {COURSE.format('kind2')})"
)
_BEHIND = (
    rf"(?:(?:the )?{COURSE.format('kind3')} (?P<n3>{N})(?: (?:{TO}|and) (?P<last3>{N}))?|"
    rf"the (?P<nth4>{NTH})(?: (?:{TO}|and) (?:the )?(?P<lastth4>{NTH}))? {COURSE.format('kind4')})"
)
_THEN = r"(?:next|now|then|after (?:that|this|it)|up next|next up)"
_COMES = (
    rf"(?:(?:comes?|follows?|goes on)(?: {_THEN})?|(?:is|are) {_THEN}|"
    r"(?:is|are) (?:(?:very|quite|also|the) )?(?:easy|simple|short|quick|first|last)(?=[,:;.])|"
    r"(?:is|are|go) (?:(?:worked|made|done|crocheted) )?(?:(?:all|both|just|exactly) ){0,2}"
    r"(?:alike|identical|(?:in )?the same(?: way)?)(?=[,:;.]))"
)
_USHER = (
    rf"(?:{_THEN},? (?:comes?|follows?|is|it is|it's)|next up,?|up next,?|(?:now )?on to|now for|"
    r"(?:that|this|which) (?:brings|leads|takes) (?:us|you) to|(?:(?:now|next|then) )?(?:we|you) (?:now )?"
    r"(?:come|get|go on|move on) to|(?:(?:we|you|let's) )?(?:begin|start|end|finish) with)"
)
USHERED = re.compile(
    r"(?:^[ ]*|(?<=[.!?;:])(?P<gap>[ ]+))(?:(?:and|now|then|so|again|finally),? )?"
    rf"(?:{_USHER} {_AHEAD}|{_BEHIND} {_COMES}){_LINK}(?=(?P<body>[^.;\n]{{0,200}}))",
    re.M | re.I,
)
# A hint of them
MAY_USHER = Sought(
    r"[rR](?:(?<= [rR])(?i:ound|ow|nd)|(?i:ound|ow|nd)[sS]? [a-zA-Z0-9 -]{0,24}(?i:comes?|follows?|is|are|goes|go) )",
    r"(?:comes?|follows?|is|it's|to|for|up|next|with),? (?:the [a-z0-9-]+ )?(?:round|row|rnd)|"
    r"(?:round|row|rnd)s? [a-z0-9 -]{0,24}(?:comes?|follows?|is|are|goes|go) ",
    re.I,
)
