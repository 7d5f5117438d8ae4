"""A line refused for its rounds: it corrects, counts or repeats them, or they go on behind it."""

from __future__ import annotations

import re

from hookside.notation.lines.refusals.named import BEGINS_AT, Named, Naming

# "Still on the second leg:", "We continue with the second leg." below a name
GOES_ON_FROM = re.compile(
    r"\W*(?:(?:now|so|here|we|you|i)\s+)*(?:still|continu\w+|carry\w* on|go(?:ing|es)? on|work(?:ing)? on|worked on|"
    r"keep(?:ing)?) (?:on|with|from|in|at|directly|straight)\b",
    re.I,
)
# "Neck:", "Shoulders:" in the middle of a front: how far its rows have come, and no part of their own
_ZONE = re.compile(
    r"(?:for )?(?:the )?(?:shaping (?:the )?)?(?:(?:left|right|front|back|first|second) )?(?:neck(?:line)?|shoulders?|"
    r"flap|armholes?|waist|chest|bust|hips|yoke|bib|slit|(?:button|thumb)holes?|"
    r"(?:thumb|arm|leg|ear|tail|neck|mouth|eye|spout|handle|pocket) (?:openings?|holes?|slits?))(?: shaping| opening)?",
    re.I,
)
_CORRECTS = re.compile(
    r"\W*(?:corrections?|erratum|errata|amendments?|(?:rnds?|rounds?|rows?|r) ?\d{1,3}\b[^.;:]{0,20}?\bshould)\b", re.I
)
# "Again, twice.", "Twice more, please"
_HOW_OFTEN = re.compile(
    r"\W*(?:(?:again|once|twice|thrice|more|over|repeat|same|and|then|now|please|(?:\d|two|three|four|five|six) times)"
    r"\b\W*)+",
    re.I,
)
_COUNT_AT_END = re.compile(r"[(\[{] ?(?P<n>\d{1,3}) ?[)\]}]\W{0,3}\Z")
_COUNT_WITHIN = 60  # letters of the end of a round
_LONGEST_ROUND = 160  # letters of a line
_NUMBERED_AND_COUNTED = re.compile(
    r"(?P<word>[^\W\d_]{1,12})\.? ?(?P<n>\d{1,3})\s*[:.)-]\s*(?=\S)[^\n]*[(\[]\s*\d{1,3}\s*[)\]]\W*$"
)
_LONGEST_BOX = 8  # lines of talk under a heading of its own between two rounds


class Rounds(Naming):
    """Does it tell of the rounds around it?"""

    def corrects_a_round(self, name: Named) -> bool:
        return self.any_course and _CORRECTS.match(name.text) is not None

    def says_how_often(self, name: Named) -> bool:
        return self.any_course and _HOW_OFTEN.fullmatch(name.text) is not None

    def works_stitches(self, name: Named) -> bool:
        return self._works_stitches(name.text, name.at, name.end) or self._counts_on(name)

    def _counts_on(self, name: Named) -> bool:
        """ "Toer 2: 6 meerderen (12)" below "Toer 1: 6 vasten in magische ring (6)": rounds, in whichever tongue."""
        here = _NUMBERED_AND_COUNTED.match(name.text)
        if here is None:
            return False
        above = self.text[max(0, name.at - _LONGEST_ROUND) : name.at].rstrip("\n").rpartition("\n")[2]
        below = self.text[slice(*name.following)] if name.following is not None else ""
        near = [_NUMBERED_AND_COUNTED.match(line.strip()) for line in (above, below)]
        like = [told for told in near if told is not None and told["word"] == here["word"]]
        return any(abs(int(told["n"]) - int(here["n"])) == 1 for told in like)

    def ends_in_the_count(self, name: Named) -> bool:
        """ "Tighten up (12)" right below "inc all (12)": the count of that round, and no twelve of anything."""
        course = self.course
        if name.alone or name.known_part or name.marked or self.blank or course is None or course.label is not None:
            return False
        above = _COUNT_AT_END.search(self.text, max(course.start, course.end - _COUNT_WITHIN), course.end)
        here = _COUNT_AT_END.search(name.text)
        return above is not None and here is not None and above["n"] == here["n"]

    def tells_where_to_begin(self, name: Named) -> bool:
        if not (self.no_round_yet() and name.alone):
            return False
        return bool(BEGINS_AT.match(name.text) or GOES_ON_FROM.match(name.text))

    def heads_a_box(self, name: Named) -> bool:
        """ "DID YOU KNOW?" over a paragraph of talk, with the next round of the part above behind it."""
        if self.named_as_above(name):
            return False
        if not name.alone or name.known_part or name.leads or name.following is None or self.finished():
            return False
        if name.numbered:
            return False  # "SECTION TWO: THE LAMPS" over "Join B."
        line: tuple[int, int] | None = name.following
        if self.goes_on(line):
            return False  # a box has talk in it
        for _ in range(_LONGEST_BOX):
            if line is None or self.goes_on(line):
                return line is not None
            if self.stitchy(*line) or self.opens_course(*line):
                return False
            line = self.line_after(line)
        return False

    def goes_on_in_number(self, name: Named) -> bool:
        zone = name.opens and name.alone and _ZONE.fullmatch(name.head[0]) is not None
        sure = not zone and (name.known or name.marked or not name.alone or name.loud)
        return name.on and not sure and not (self.cut_off() if zone else self.finished())
