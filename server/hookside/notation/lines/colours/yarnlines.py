"""Lines that name a yarn, and courses that go on in number behind them: what begins no piece."""

from __future__ import annotations

import re

from hookside.notation.askings.askings import askings
from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.colourtalk import colour_talk, only_a_yarn, yarn_words
from hookside.notation.askings.yarnstaken import words_taken
from hookside.notation.lines.colours.ownyarns import CALLS_A_YARN, yarns_ahead
from hookside.notation.lines.heads import headings
from hookside.notation.lines.layout import RawCourse
from hookside.notation.lines.questions import BEFORE_LABEL, BULLET, Questions

_TAIL = 300  # characters of a sentence that tell whether it cuts the yarn
_RINGED = re.compile(r"\b(?:magic|ring|circle|mr|mc|ch(?:ain)? ?2)\b", re.I)
_STARTS = re.compile(
    r"\W*(?:(?:i|we|i'm|we're|you|first|so|now|then|let's|and|ok(?:ay)?|here),?\s+)*(?:start|beg[iau]n|with\b|"
    r"using\b|in\b|use\b|"
    r"take\b|grab\b|first\b|[a-z ]{3,16} first\b)",
    re.I,
)
# "Begin with grey yarn. The eyes go in later", "Using grey, begin the head; change to cream in R5."
_FIRST_PART = re.compile(r"(?P<told>[^.!,;:\n]{3,60})[.!,;]")
_SETS_OUT = re.compile(r"\s*(?:we |you |i )?(?:start|beg[iau]n|make|work|crochet)\b", re.I)
_IN_A_LETTER = re.compile(
    r"\W*(?:(?:we|i|you|now|so|first) )*(?:start|begin|work)(?:ing|s)? (?:off |out )?(?:with|in|using) "
    r"(?:yarn |colou?r )?[A-H]\W*", re.I
)
_SPOKEN_OF = re.compile(
    r"\b(?:starts?|begins?|done|finished|ends?|over|that'?s|now|then|so|is|are|was|we|i|you|it|here|goes)\b", re.I
)


_IN_BRACKETS = re.compile(r"\s*[(\[](?P<shade>[A-Za-z ]{3,30})(?:[,;][^()\[\]\d]{0,60})?[)\]]\s*")

# "White rnd: sc in each", "Sky blue row - sc across": a course by its yarn
_BY_YARN = re.compile(
    r"\W{0,3}(?:in )?(?P<shade>[a-z]{3,12}(?: [a-z]{3,12})?)[ ](?P<kind>rounds?|rnds?|rows?|rds?)\.?"
    r"(?:[ ]?[(\[]x?[ ]?(?P<many>\d{1,2})[ ]?x?[)\]])?(?:[ ]?:|[ ]-)[ ]+(?=\S)",
    re.I,
)


class ColourLines(Questions):
    """What the walk asks about yarns."""

    def yarns(self) -> frozenset[str]:
        """The words of the list of materials that may name a yarn."""
        if self.yarns_of != len(self.out.materials):
            self.yarns_of, self.known_yarns = len(self.out.materials), (
                yarn_words(self.out.materials, self.text) | words_taken(self.text)
            )
        return self.known_yarns

    def told_yarns(self) -> tuple[str, ...]:
        """The list of materials by its lines, and letters that a key gives to colors: "Key: A = olive, B = sand"."""
        keys = (
            f"Yarn {n[-1]}: {what}"
            for n, what in self.out.abbreviations.items()
            if (len(n) == 1 or CALLS_A_YARN.fullmatch(n)) and is_colour(what)
        )
        return (*self.out.materials, *keys)

    def yarns_of_headings(self) -> tuple[str, ...]:
        """What a heading may name its yarn by: the list, and what a note ahead of the parts tells of yarns."""
        return (*self.told_yarns(), *yarns_ahead(self.text))

    def goes_on(self, line: tuple[int, int] | None) -> bool:
        """Is a line the next course of this piece by its number, and no ring or chain that begins another?"""
        if line is None or not self.last_number:
            return False
        begin = BULLET.match(self.text, *line)
        at = begin.end() if begin else line[0]
        label = self.label_at(at, line[1]) or self.number_at(at, line[1])
        if label is None or not label.numbers or label.numbers[0] not in self._next_numbers():
            return False
        return not _RINGED.search(self.text, label.end, min(line[1], label.end + 60))

    def _next_numbers(self) -> tuple[int, ...]:
        """What the next bare number may be; behind "1 - 6 sc", which may be rounds 1 to 6 or round 1, two answers."""
        items = self.piece.items if self.piece is not None else []
        last = next((i.label for i in reversed(items) if isinstance(i, RawCourse) and i.label is not None), None)
        if last is not None and last.dash and last.numbers:
            return (last.numbers[0] + 1, self.last_number + 1)
        return (self.last_number + 1,)

    def spoken_of(self, text: str) -> bool:
        """ "Tail starts here": of a part that the rounds at hand go over into."""
        return bool(_SPOKEN_OF.search(re.sub(r"\([^()]*\)", "", text)))  # not "HEAD (goes on from the body)"

    def finished(self) -> bool:
        """Is the piece at hand cut off, or to be made again: what comes behind it is another one?"""
        return self.piece is None or self.piece.make > 1 or self.cut_off()

    def cut_off(self) -> bool:
        """Is the piece at hand fastened off?"""
        last = self.piece.items[-1] if self.piece is not None and self.piece.items else None
        if isinstance(last, RawCourse) or last is None:
            return False
        told = self.text[last.start : min(last.end, last.start + _TAIL)]
        return any(kind == "fasten" for kind, _, _ in askings(told))

    def shade_below(self, text: str) -> bool:
        """ "(oat)", "(ecru, worked from head down)" below the name of a part: its yarn, and how it is worked."""
        told = _IN_BRACKETS.fullmatch(text)
        return told is not None and self.no_round_yet() and only_a_yarn(told["shade"], self.yarns())

    def before_label(self, at: int, end: int) -> re.Match[str] | None:
        """ "(W) R1: 6 sc in MR", "In red: R6: ...": the colour of a course in front of its label."""
        told = BEFORE_LABEL.match(self.text, at, end)
        label = self.label_at(told.end(), end) if told is not None else None
        if told is None or label is None:
            return None
        shade = told["shade"]
        if told["signed"] is None:
            return told if is_colour(shade) and self.stitchy(label.end, end) else None
        known = is_colour(shade) or only_a_yarn(shade, self.yarns()) or (len(shade) == 1 and shade.isupper())
        return told if known else None

    def round_by_colour(self, at: int, end: int) -> re.Match[str] | None:
        """ "White rnd: sc in each" behind another round: the next one, in its yarn."""
        told = _BY_YARN.match(self.text, at, end)
        if told is None or not self.worked_on() or not self.stitchy(told.end(), end):
            return None
        return told if is_colour(told["shade"]) or only_a_yarn(told["shade"], self.yarns()) else None

    def begins_in(self, text: str) -> bool:
        """ "Start with red.", in front of the first round of all, whatever stands behind it in its line."""
        if not _STARTS.match(text):
            return False
        if colour_talk(text, self.yarns()) or _IN_A_LETTER.fullmatch(text):
            return True
        first = _FIRST_PART.match(text)
        opens = first is not None and (text[first.end() - 1] in ".!" or _SETS_OUT.match(text, first.end()) is not None)
        return opens and first is not None and colour_talk(first["told"], self.yarns())

    def names_more(self, name: str) -> bool:
        """Does a heading name a part beside its "back": "White stripe", where a piece may begin?"""
        return bool(set(re.findall(r"[a-z]+", name.lower())) & (headings.PARTS - {"back", "top", "bottom"}))
