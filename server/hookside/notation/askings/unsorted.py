"""A line that orders and tells nothing: it names a thing or where it goes, and is shown to the maker as it is."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.things import names_a_thing

_LONGEST = 12  # words of such a line
# A thing and a colon: "Magnet: pole side down."
_TOPIC = re.compile(r"\W*(?:the |a )?[a-z]{3,12}(?: [a-z]{3,12})?: +(?=[a-z])", re.I)
_GOES = re.compile(
    r"\b(?:goes?|comes?|slips?|fits?|belongs?) "
    r"(?:in(?:to|side)?|on(?:to)?|under|over|through|here|between|behind|at)\b|"
    r"\b(?:before|until|as long as|while) (?:you |it |the \w+ )?(?:is |it )?(?:clos|shut|sew|stuff|open)\w*\b",
    re.I,
)
# "Frost with pink.", "Ice the top in white": whatever that is
_IN_A_SHADE = re.compile(
    r"\W*(?!(?:the|an?|this|that|here|all|both|these|those) )[a-z]{3,12}(?: (?:it|them|(?:the|this|each) [a-z]{3,12}))?"
    r"(?: (?:lightly|all over|around|edges?|again))* (?:with|in|using) (?P<shade>[a-z]+(?: [a-z]+){0,2})\W*",
    re.I,
)
# Told of somebody or something, asked of nobody; a remark on the work; where to find things
_TELLS = re.compile(
    r"\b(?:i|i'[a-z]+|we|we'[a-z]+|my|me|our|us|your|he|she|they|is|are|was|were|be|been|am|isn't|aren't|it's|that's|"
    r"has|"
    r"have|had|"
    r"will|would|can|could|may|might|should|must|do|does|did|don't|loves?|likes?|looks?|gets?|getting|becomes?|narrows?|widens?|makes?|made|took|takes|means?|"
    r"called|said|says|see|thank\w*|enjoy\w*|hope|remember|imagine|page|photos?|pictures?|videos?|tip|tips|note|notes|"
    r"nb|hint|warning|copyright|pattern|design\w*|www|etc|rounds?|rnds?|rows?|tide|sea|harbou?r|done|well|almost|"
    r"congratulations|finally|or|if|maybe|perhaps|never|always|sometimes|usually|yes|no|not|ready|finished|break|"
    r"time)\b",
    re.I,
)


def names_plainly(sentence: str) -> bool:
    """Is a sentence that nothing was made of short, without a verb of telling, and about a thing or a place for it?"""
    if sentence.rstrip()[-1:] in "!?" or len(sentence.split()) > _LONGEST or _TELLS.search(sentence):
        return False
    dressed = _IN_A_SHADE.fullmatch(sentence)
    if dressed is not None and is_colour(dressed["shade"]):
        return True
    return bool(_TOPIC.match(sentence) or _GOES.search(sentence)) or names_a_thing(sentence)
