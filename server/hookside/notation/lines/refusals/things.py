"""A line refused for its thing: one that is bought, or goes somewhere on the rounds that are there."""

from __future__ import annotations

import re

from hookside.notation.askings.features import embroidered, placed_at, tells_of_a_feature
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.refusals.named import Named, Naming
from hookside.notation.page.beside.captions import shown

# "2 x 8mm black eyes", "2 x beads (6 mm)": what is bought by its size
_BOUGHT = re.compile(
    r"[^\w\n]{0,6}(?:"
    r"(?:\d{1,2} ?(?:x|pcs\.?|pieces|pairs?)? ?(?:of )?)?"
    r"\d{1,3}(?:[.,/]\d{1,2})? ?(?:mm|cm|g|oz|m|yds?|inch|in)\b (?=[a-z])|"
    r"\d{1,2} ?(?:x|pcs\.?|pieces|pairs? of) [a-z -]{0,24}\b"
    r"(?:eyes|beads|buttons|noses?|joints|pipe ?cleaners?|pins|hooks?|needles?|skeins?|balls? of|hanks?)\b)",
    re.I,
)
# "Eyes after R4", "Nose between rounds 5 and 6": where a thing goes on the rounds that are there
_WHERE = re.compile(rf"\b(?:after|before|behind|at|in|on|between|over|above|below|around) {COURSE}\.? ?\d", re.I)
# "Eyes R4!", "Remember eyes at R4", "Safety eyes: 6 mm, R3/4": a job and its round, above the first round as well
_JOB_AT = re.compile(
    r"\W*(?:(?:remember|don't forget|do not forget|note|nb|put|place|the|safety|toy|black|small|little)[:,]? )*"
    r"(?:eyes|nose|stuffing|filling)[:,]?(?: \d{1,2} ?mm,?)?"
    rf"(?: (?:go|come|in|placed|set|are))*(?: (?:at|in|on|after|behind|between|before))? {COURSE}\.? ?(?!1\b)\d{{1,3}}"
    rf"(?: ?(?:[/&+]|and) ?(?:{COURSE}\.? ?)?\d{{1,3}})?\W*",
    re.I,
)
# "Arms from R3", "Eyes (R4)", "Eyes R6/7", where that round is made already
_AT_WORKED = re.compile(
    rf"(?:\bfrom|[(\[,:-]|(?<=[a-z])) ?\b{COURSE}\.? ?(?P<n>\d{{1,3}})"
    rf"(?: ?[/&+-] ?(?:{COURSE}\.? ?)?\d{{1,3}})?\W*$",
    re.I,
)
# A thing, a colon and what is told of it, in more than a name's words and with an end
_THING_TOLD = re.compile(
    r"\W*(?:the )?[A-Za-z][a-z]*(?: [a-z]+){0,2}\s*:\s+(?!(?:(?:make|work|crochet)\b|x ?\d|\d)[^.,]*$)"
    r"(?=(?:[^\s:]+\s+){2})[^:]*[a-z]\W*$"
)


class Things(Naming):
    """Is it a thing that nobody crochets here?"""

    def is_bought(self, name: Named) -> bool:
        return not name.leads and _BOUGHT.match(name.text) is not None

    def is_about_a_picture(self, name: Named) -> bool:
        return name.on and name.alone and shown(name.text)

    def tells_of_a_thing(self, name: Named) -> bool:
        return name.on and name.alone and not name.marked and bool(_THING_TOLD.match(name.text))

    def tells_of_a_feature(self, name: Named) -> bool:
        if name.alone and not name.leads and embroidered(name.text):
            return True
        return name.on and name.alone and not name.hashed and tells_of_a_feature(name.text)

    def tells_where_on_the_rounds(self, name: Named) -> bool:
        if not name.hashed and (_JOB_AT.fullmatch(name.text) is not None or placed_at(name.text) > 1):
            return True
        if not name.alone or (name.first and not self.no_round_yet()) or name.hashed:
            return False
        worked = _AT_WORKED.search(name.text) if name.on else None
        return _WHERE.search(name.text) is not None or (worked is not None and int(worked["n"]) <= self.last_number)
