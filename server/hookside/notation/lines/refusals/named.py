"""A line that may name a part, and what its refusals ask of it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.askings.kinds import classify
from hookside.notation.lines.copies.asked import made_often
from hookside.notation.lines.heads import headings
from hookside.notation.lines.heads.chapters import chapter, has_second
from hookside.notation.lines.placing import Placing
from hookside.notation.lines.unlabelled import alone
from hookside.notation.vocabulary import SEVERAL_WORDS

# "Leave a long tail at the start for / the head.": a line that its sentence began before
_MID_SENTENCE = re.compile(r"\b(?:for|the|an?|to|of|and|with|in|at|on|onto|or|from|by|your|its|his|her),?[ ]*\n[ ]*\Z")
# A round told before "2nd round:"
BEGINS_AT = re.compile(
    r"\W*(?:(?:now|here|so),? )?(?:(?:we|you|i|let's) )?(?:start|begin|commenc)\w* (?:at|from|with|in|by)\b", re.I
)
_WE_NEED = (
    r"(?:(?:you|we)(?:'ll| will)? (?:make|crochet|need|want)|there (?:are|will be)) (?:to make )?"
    r"(?=\w+ (?:of (?:these|those|them|this)|in (?:all|total)|altogether|alike|pieces|copies)\b|\w+\W*$)"
)
MAKE_LINE = re.compile(
    rf"\s*[(\[]?\s*(?:please\s+)?(?:{_WE_NEED}|(?:make|crochet|you need|need)\s+"
    rf"(?:(?:same|identical)\s+(?=\d|{SEVERAL_WORDS}))?|x\s*)(?P<n>\d{{1,3}}|[a-z]+)\b"
    r"(?P<rest>[^.\n]{0,40})[)\]]?[.:]?\s*$"
    r"|\s*[(\[]\s*[a-z][a-z ]{2,24},\s*(?:make|crochet|x)\s*(?P<n3>\d{1,2}|[a-z]+)\s*[)\]][.:]?\s*$"
    rf"|\s*[(\[]?\s*(?P<n2>\d{{1,2}}|{SEVERAL_WORDS})\s*(?:pieces?|pcs|parts|details|x|times|of each|"
    r"alike)\s*[)\]]?[.:]?\s*$",
    re.I,
)
LISTS = ("materials", "yarn", "hook", "gauge", "abbreviations", "terms")
_FEW = 3  # words of a name that stands by itself behind the end of a part: "Bobble" over "With G, in a spiral."
_OWNER = re.compile(r"[\W_]{0,6}(?P<owner>[A-Z]{2,16}'?S )(?=[A-Z])")


@dataclass(slots=True)
class Named:
    """A line that may name a part, and what stands around it."""

    text: str
    at: int
    end: int
    following: tuple[int, int] | None
    index: int
    leads: bool = False  # what a part begins with stands behind it: a course, a ring, how many to make
    first: bool = False  # ... and it is a first course
    hashed: bool = False
    numbered: bool = False  # one of the parts that the text numbers
    marked: bool = False  # set off by signs, or numbered
    shaded: bool = False  # "Fork bar / With slate. / Rnd 1": a name that no list has, above its colour
    below: bool = False  # "POT", right behind a list
    on: bool = False  # the rounds of the piece above go on in number behind it
    known: bool = False  # a part that every maker knows
    known_part: bool = False  # ... by a word of its name
    one_word: bool = False
    head: tuple[str, int] = ("", 1)

    @property
    def alone(self) -> bool:
        """No copies of it are told."""
        return self.head[1] == 1

    @property
    def loud(self) -> bool:
        return self.text.strip().isupper()

    @property
    def opens(self) -> bool:
        """Does it end as what leads to something: "Ears:"?"""
        return self.text.strip().endswith(":")


_TAKES_OVER = re.compile(
    r"\W*(?:(?:with|in|using) [a-z ]{3,24}, )?(?:(?:work|make|crochet|repeat|follow|do|the|same|as|like|for) )*"
    r"(?:rounds?|rnds?|rows?|r) ?\d{1,2} ?(?:-|to|through) ?\d{1,2} (?:of|as|like|for|from) (?:for )?(?:the |your )?"
    r"(?P<name>[a-z]+)",
    re.I,
)


class Naming(Placing):
    """A line that may name a part, looked at with what stands around it."""

    def looked_at(self, text: str, at: int, end: int, following: tuple[int, int] | None, index: int) -> Named:
        """The line with what begins behind it."""
        name = Named(text, at, end, following, index)
        if following is None:
            return name
        below = self.text[following[0] : following[1]]
        if (after := self.letter_above(following)) is not None:
            following = after
        name.leads = (
            self.opens_course(*following)
            or bool(MAKE_LINE.match(below))
            or made_often(below) > 0
            or self.founds(*following, self.line_after(following))
            or bool(alone.ring(below))
            or self.begins_at(following)
            or self.named_below(text, following)
            or self.takes_over(below)
        )
        name.first = self.begins(*following)
        return name

    def takes_over(self, below: str) -> bool:
        """ "Work rounds 1-3 of the cactus in terracotta." below a name: whatever it is called, it is another part."""
        told = _TAKES_OVER.match(below) if self.blank and self.any_course else None
        names = " ".join([self.out.title, *(piece.name for piece in self.out.pieces)]) if told is not None else ""
        return told is not None and told["name"].lower() in re.findall(r"[a-z]+", names.lower())

    def begins_at(self, line: tuple[int, int]) -> bool:
        """ "Starting at the beak with B" in front of a first course: where a part begins, below its name."""
        after = self.line_after(line) if BEGINS_AT.match(self.text, *line) else None
        return after is not None and self.begins(*after)

    def under_capitals(self) -> bool:
        """Is the name of the piece at hand printed with a capital?"""
        name = self.text[self.piece.at : self.piece.at + 40].lstrip(" #*_=~[(") if self.piece is not None else ""
        return bool(self.piece is not None and self.piece.name) and name[:1].isupper()

    def mid_sentence(self, text: str, at: int) -> bool:
        if not text[:1].islower() or _MID_SENTENCE.search(self.text, max(0, at - 40), at) is None:
            return False
        return not self.names_next_part(at, at + len(text))

    def hashed(self, at: int) -> bool:
        """Does the sign of a heading stand right before it?"""
        return "#" in self.text[at - 2 : at + 1] and bool(re.match(r"\s*#", self.text[at - 2 : at + 1]))

    def chapter_goes_on(self, text: str) -> bool:
        """ "Part 2: the wall" behind the rounds of "Part 1: the base", or that one above it."""
        told = chapter(text)
        if told is None or text.rstrip()[-1:] in (".", "!", "?", ";", ",") or classify(text) is not None:
            return False
        word, n = told
        if n == 1:
            return has_second(self.text, word)
        if self.piece is None or not self.any_course or not self.blank:
            return False
        above = self.text[self.piece.at : self.text.find("\n", self.piece.at)]
        return chapter(above) == (word, n - 1)

    def looked_around(self, name: Named) -> Named:
        """The line with all that its refusals ask of it."""
        text, at, following = name.text, name.at, name.following
        apart = self.any_course and self.blank and not name.leads
        name.shaded = apart and (self._coloured(following) or (len(text.split()) < _FEW and self.cut_off()))
        loud = self.blank and name.loud and len(text.split()) > 1
        below = not name.leads and self.section in LISTS and (loud or self._coloured(following))
        name.below = below and self.leads_soon(name.index)
        name.hashed = self.hashed(at)
        name.numbered = self.chapter_goes_on(text)
        return name

    def judged(self, name: Named, head: tuple[str, int]) -> Named:
        """... and with the name that was found in it."""
        name.head = head
        back = self.page.back(name.at)
        starred = "**" in self.page.original[back - 3 if back >= 3 else 0 : back + 1]
        name.marked = bool(re.match(r"\s*#", name.text)) or name.hashed or starred or name.numbered
        words = {w.lower() for w in re.findall(r"[A-Za-z]+", head[0])}
        name.known_part = bool(words & headings.PARTS)
        name.known = name.known_part or (self.blank and headings.dressed(name.text))
        name.one_word = len(words) == 1
        name.on = self.goes_on(name.following)
        return name

    def named_as_above(self, name: Named) -> bool:
        """ "MILO'S MIDDLE" below "MILO'S HEAD", behind a blank line: as loud, called by the same owner, and no talk
        in front of its rounds."""
        if not (name.text.split("(")[0].isupper() and self.blank) or self.piece is None or name.following is None:
            return False
        if not (self.goes_on(name.following) or self._asks(*name.following)):
            return False
        above = _OWNER.match(self.text, self.piece.at)
        return above is not None and name.text.upper().startswith(above["owner"].upper())
