"""Why a line that looks like a heading is none: a table of refusals, each with its reason.

A line that names a part may as well be a colour, a job between two rounds, an entry of a list. What is asked of it
stands in order, as the first reason that holds is the one that is told (`hookside compile --trace`).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from hookside.notation.askings.askings import askings
from hookside.notation.askings.colournames import is_colour, is_patterned
from hookside.notation.askings.colourtalk import colour_talk
from hookside.notation.askings.features import embroidered, tells_of_a_feature
from hookside.notation.askings.grammar import ordered
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.short import named_jobs
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines import alone, furniture, headings
from hookside.notation.lines.chapters import chapter, has_second
from hookside.notation.lines.copies import made_often
from hookside.notation.lines.definitions import DEFINES
from hookside.notation.lines.framedjob import framed_job
from hookside.notation.lines.layout import RawText
from hookside.notation.lines.parts import MAIN_PARTS
from hookside.notation.lines.placing import Placing, yarn_led
from hookside.notation.vocabulary import NUMBER_WORDS
from hookside.pattern import CueKind

# "Leave a long tail at the start for / the head.": a line that its sentence began before
_MID_SENTENCE = re.compile(r"\b(?:for|the|an?|to|of|and|with|in|at|on|onto|or|from|by|your|its|his|her),?[ ]*\n[ ]*\Z")
# A round told before "2nd round:"
BEGINS_AT = re.compile(
    r"\W*(?:(?:now|here|so),? )?(?:(?:we|you|i|let's) )?(?:start|begin|commenc)\w* (?:at|from|with|in|by)\b", re.I
)
# "Still on the second leg:", "We continue with the second leg." below a name
GOES_ON_FROM = re.compile(
    r"\W*(?:(?:now|so|here|we|you|i)\s+)*(?:still|continu\w+|carry\w* on|go(?:ing|es)? on|work(?:ing)? on|worked on|"
    r"keep(?:ing)?) (?:on|with|from|in|at|directly|straight)\b",
    re.I,
)
# "Left fin: same as the right one"
LIKE_ANOTHER = re.compile(
    r"(?:(?:make|work|crochet|do|repeat|follow|complete|exactly|just|use|worked|made|the|(?:start|begin)s?)\s+)*"
    r"(?:same|as|like|"
    r"identical|repeat|rounds? \d+\s*(?:-|to)\s*\d+ (?:of|as|like)|(?:follow|copy|see) (?:the )?"
    r"(?:[a-z]{3,}|[A-H1-9]))\b",
    re.I,
)
# "Base (same as the shell)"
LIKE_IN_BRACKETS = re.compile(rf"[(\[]\s*(?P<like>{LIKE_ANOTHER.pattern}[^()\[\]\n]{{3,60}})[)\]]", re.I)
_FOR_A_PART = re.compile(r"\W*(?P<shade>[A-Za-z]+(?: [a-z]+)?) for (?:the|his|her|its|both)\b")
# "Cream: rounds 5-8", "Rnds 5 - 8 in cream"
_SHADE_OF_ROUNDS = re.compile(
    rf"[^\w\n]{{0,6}}(?P<shade>[A-Za-z]+(?: [a-z]+)?) ?(?:[:=(-] ?)?(?:(?:for|in|from) )?(?:the )?"
    rf"{COURSE}\.? ?\d(?:[\d ,&)-]|and|to|{COURSE}){{0,16}}\W{{0,3}}$|"
    rf"[^\w\n]{{0,6}}{COURSE}\.? ?\d[\d ,&-]{{0,24}}:? ?(?:in |with |are )?(?P<late>[A-Za-z]+(?: [a-z]+)?)\W{{0,3}}$",
    re.I,
)
_WE_NEED = (
    r"(?:(?:you|we)(?:'ll| will)? (?:make|crochet|need|want)|there (?:are|will be)) (?:to make )?"
    r"(?=\w+ (?:of (?:these|those|them|this)|in (?:all|total)|altogether|alike|pieces|copies)\b|\w+\W*$)"
)
MAKE_LINE = re.compile(
    rf"\s*[(\[]?\s*(?:{_WE_NEED}|(?:make|crochet|you need|need)\s+|x\s*)(?P<n>\d{{1,3}}|"
    r"[a-z]+)\b(?P<rest>[^.\n]{0,40})[)\]]?[.:]?\s*$"
    r"|\s*[(\[]\s*[a-z][a-z ]{2,24},\s*(?:make|crochet|x)\s*(?P<n3>\d{1,2}|[a-z]+)\s*[)\]][.:]?\s*$"
    r"|\s*[(\[]?\s*(?P<n2>\d{1,2}|two|three|four|five|six)\s*(?:pieces?|pcs|parts|details|x|times|of each|"
    r"alike)\s*[)\]]?[.:]?\s*$",
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
_ONCE_MORE = re.compile(r"\W+(?:again|now|once more)\W*$", re.I)  # "DARK AGAIN"
# "Again, twice.", "Twice more, please"
_HOW_OFTEN = re.compile(
    r"\W*(?:(?:again|once|twice|thrice|more|over|repeat|same|and|then|now|please|(?:\d|two|three|four|five|six) times)"
    r"\b\W*)+",
    re.I,
)
_BACK_TO = re.compile(r"\W*(?:(?:and|now|then|go|change|switch) )*back (?:to|in|with)\b", re.I)
_DROPS = re.compile(r"\W*(?:now |then )?drop\b", re.I)
# "2 x 8mm black eyes", "2 x beads (6 mm)": what is bought by its size
_BOUGHT = re.compile(
    r"[^\w\n]{0,6}(?:"
    r"(?:\d{1,2} ?(?:x|pcs\.?|pieces|pairs?)? ?(?:of )?)?"
    r"\d{1,3}(?:[.,/]\d{1,2})? ?(?:mm|cm|g|oz|m|yds?|inch|in)\b (?=[a-z])|"
    r"\d{1,2} ?(?:x|pcs\.?|pieces|pairs? of) [a-z -]{0,24}\b"
    r"(?:eyes|beads|buttons|noses?|joints|pipe ?cleaners?|pins|hooks?|needles?|skeins?|balls? of|hanks?)\b)",
    re.I,
)
_COUNT_AT_END = re.compile(r"[(\[{] ?(?P<n>\d{1,3}) ?[)\]}]\W{0,3}\Z")
_COUNT_WITHIN = 60  # letters of the end of a round
# "Eyes after R4", "Nose between rounds 5 and 6": where a thing goes on the rounds that are there
_WHERE = re.compile(rf"\b(?:after|before|behind|at|in|on|between|over|above|below|around) {COURSE}\.? ?\d", re.I)
# "Arms from R3", "Eyes (R4)", "Eyes R6/7", where that round is made already
_AT_WORKED = re.compile(
    rf"(?:\bfrom|[(\[,:-]|(?<=[a-z])) ?\b{COURSE}\.? ?(?P<n>\d{{1,3}})"
    rf"(?: ?[/&+-] ?(?:{COURSE}\.? ?)?\d{{1,3}})?\W*$",
    re.I,
)
_LISTS = ("materials", "yarn", "hook", "gauge", "abbreviations", "terms")
# A thing, a colon and what is told of it, in more than a name's words and with an end
_THING_TOLD = re.compile(
    r"\W*(?:the )?[A-Za-z][a-z]*(?: [a-z]+){0,2}\s*:\s+(?!(?:(?:make|work|crochet)\b|x ?\d|\d)[^.,]*$)"
    r"(?=(?:[^\s:]+\s+){2})[^:]*[a-z]\W*$"
)
_FEW = 3  # words of a name that stands by itself behind the end of a part: "Bobble" over "With G, in a spiral."
_LONGEST_BOX = 8  # lines of talk under a heading of its own between two rounds
_JOBS = ("stuff", "close", "fasten", "weave")
_MORE_THAN_TALK = (None, "other", "join", "colour", "turn")


_PART_GOES_ON = re.compile(
    r"(?:the )?(?P<name>[a-z]+)\s*[,-]\s+(?:(?:continu(?:e|ed|ing)|go(?:ing)? on|carry(?:ing)? on) )?(?:with|in)\b",
    re.I,
)

# "Snout on.", "Ears in", "Cord through": a thing, and where it goes now
_THING_GOES = re.compile(
    r"\W{0,3}(?:(?:now|next|then),? )?(?:the |his |her |its )?(?P<thing>[a-z]+(?: [a-z]+)?) "
    r"(?:on|in|through|next|off|out)\W{0,3}",
    re.I,
)
# ... and more behind it: "Eyes on now, then stuff", "Whiskers on, eyes in", "Arms on, then stuff"
_THINGS_GO = re.compile(
    r"\W{0,3}(?:(?:now|next|then|here|first),? )?(?:(?:the|his|her|its|both) )?[a-z]+(?: and [a-z]+)? "
    r"(?:(?:on|in|off|out|through)(?: (?:now|next|here|first|again))?"
    r"(?:(?:,| and|,? then|,? and then) (?:(?:then|the|his|her|its|both) ){0,2}[a-z]+(?: [a-z]+){0,2}){0,3})"
    r"[\s.!]{0,3}",
    re.I,
)
_KINDS_TOLD: tuple[tuple[CueKind, re.Pattern[str]], ...] = (
    ("stuff", re.compile(r"\b(?:stuff|fill|wadding)", re.I)),
    ("eyes", re.compile(r"\beyes?\b", re.I)),
)
# "White band.": the rounds to come in their yarn
_BAND = re.compile(
    r"\W{0,3}(?:an? |the |one )?(?P<shade>[a-z]+) "
    r"(?:band|stripe|patch|section|part|bit|ring|tip|top|bottom)\W{0,3}",
    re.I,
)

# "fluff the head!! really full", "Bulk out his tummy": what is done to a part, by whatever verb
_DONE_TO = re.compile(
    r"[^\w\n]{0,6}(?:(?:and|now|then|next|ok|okay|so|please),? ){0,2}"
    r"(?!(?:under|over|around|round|behind|inside|outside|on|in|to|at|for|from|of|with|into|onto|across|along|between|"
    r"beneath|below|above|near|through|against|upon|beyond|past|that'?s|this|it'?s|is|was|here'?s|all|"
    r"both|left|right|front|back|\w+ing)\b)"
    r"[a-z]{3,14} (?:(?:up|out|in|on|down|off|more|some|only|just|all) )?(?:the|his|her|its|your|their) [a-z]{3}",
    re.I,
)
# "tail, sew at 14", "eyes between 9/10, 5 sc between. stuff.": a job, and more of it behind
_JOB_AND_MORE = re.compile(
    r"(?:tail[,.;] (?:sew|stuff|attach|use|join) |(?:safety )?eyes (?:(?:go )?(?:between|on|at|in|after|over) )"
    r"(?:r|rnds?|rounds?|rows?)?\.? ?\d)",
    re.I,
)
# "* LONG TAIL *" behind the rounds of a part
_A_LONG_TAIL = re.compile(
    r"[^\w\n]{0,6}(?:leave |an? |very |extra )*(?:long|sewing|yarn) tail"
    r"(?: (?:for|to) (?:sew(?:ing)?|attach\w*|join\w*))?[^\w\n]{0,6}",
    re.I,
)
_LETTER = re.compile(r"\W{0,4}\d{1,3}[.)] ?[A-Za-z]\W{0,3}")  # "7) X": an entry of something, and no name
# "Sew to head (make 2).": a job of the part above, and how many of that there are
JOB_OF_COPIES = re.compile(
    r"\W{0,3}(?:sew|stuff|close|fasten|attach|weave|pin|glue|stitch|leave|cut|finish|fo)\b[^:\n]{0,60}"
    rf"(?:,|[(\[])\s*make (?P<n>\d{{1,2}}|{'|'.join(w for w in NUMBER_WORDS if len(w) > 2)})\s?[)\]]?\W{{0,3}}$",
    re.I,
)
# "For the second ear, work round 5 with cream.": another part would be named, and end in a colon or in nothing
_ONE_COPY = re.compile(
    r"\W*(?:for|on|with) (?:the |your )?(?:first|second|third|fourth|1st|2nd|3rd|4th|other|left|right|last) [a-z]+,? "
    r"(?:work|make|do|use|crochet|change|leave|skip|omit|add|replace|swap|start|stop)\b",
    re.I,
)


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


class Refusals(Placing):
    """The reasons against a heading. Each is asked of a line only where none before it held."""

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
        )
        name.first = self.begins(*following)
        return name

    def begins_at(self, line: tuple[int, int]) -> bool:
        """ "Starting at the beak with B" in front of a first course: where a part begins, below its name."""
        after = self.line_after(line) if BEGINS_AT.match(self.text, *line) else None
        return after is not None and self.begins(*after)

    def _under_capitals(self) -> bool:
        """Is the name of the piece at hand printed with a capital?"""
        name = self.text[self.piece.at : self.piece.at + 40].lstrip(" #*_=~[(") if self.piece is not None else ""
        return bool(self.piece is not None and self.piece.name) and name[:1].isupper()

    def mid_sentence(self, text: str, at: int) -> bool:
        return text[:1].islower() and bool(_MID_SENTENCE.search(self.text, max(0, at - 40), at))

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
        below = not name.leads and self.section in _LISTS and (loud or self._coloured(following))
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

    def refusal(self, name: Named) -> str | None:
        """Why the line is no heading; None where nothing speaks against it."""
        for why, holds in _BY_ITS_WORDS:
            if holds(self, name):
                return why
        if self.stands_alone(name):
            return None
        return next((why for why, holds in _BY_ITS_PLACE if holds(self, name)), None)

    def stands_alone(self, name: Named) -> bool:
        """ "Torso" under the title and a list of what one needs: its rounds begin a few lines further on."""
        if name.below:
            return True
        part = name.known and name.one_word
        titled = bool(self.out.title) and (part or ((name.known or name.loud) and self.section != "front"))
        front = self._coloured(name.following) or titled
        apart = self.blank or (titled and part and name.loud and not self.any_course)  # "EAR" right below a title
        stands = not name.leads and (name.known or not name.alone) and apart and (self.any_course or front)
        return (stands or name.shaded) and self.leads_soon(name.index)

    def works_stitches(self, name: Named) -> bool:
        return self._works_stitches(name.text, name.at, name.end)

    def is_bought(self, name: Named) -> bool:
        return not name.leads and _BOUGHT.match(name.text) is not None

    def like_another(self, name: Named) -> bool:
        return self._under_heading() and bool(LIKE_ANOTHER.match(name.text))

    def tells_of_a_thing(self, name: Named) -> bool:
        return name.on and name.alone and not name.marked and bool(_THING_TOLD.match(name.text))

    def is_a_letter(self, name: Named) -> bool:
        return _LETTER.fullmatch(name.text) is not None

    def tells_of_one_copy(self, name: Named) -> bool:
        return not name.opens and _ONE_COPY.match(name.text) is not None

    def tells_of_a_feature(self, name: Named) -> bool:
        if name.alone and not name.leads and embroidered(name.text):
            return True
        return name.on and name.alone and not name.hashed and tells_of_a_feature(name.text)

    def tells_where_on_the_rounds(self, name: Named) -> bool:
        if not name.alone or (name.first and not self.no_round_yet()) or name.hashed:
            return False
        worked = _AT_WORKED.search(name.text) if name.on else None
        return _WHERE.search(name.text) is not None or (worked is not None and int(worked["n"]) <= self.last_number)

    def ends_in_the_count(self, name: Named) -> bool:
        """ "Tighten up (12)" right below "inc all (12)": the count of that round, and no twelve of anything."""
        course = self.course
        if name.alone or name.known_part or name.marked or self.blank or course is None or course.label is not None:
            return False
        above = _COUNT_AT_END.search(self.text, max(course.start, course.end - _COUNT_WITHIN), course.end)
        here = _COUNT_AT_END.search(name.text)
        return above is not None and here is not None and above["n"] == here["n"]

    def tells_rounds_of_a_colour(self, name: Named) -> bool:
        told = _SHADE_OF_ROUNDS.match(name.text)
        return told is not None and is_colour(told["shade"] or told["late"])

    def tells_where_to_begin(self, name: Named) -> bool:
        if not (self.no_round_yet() and name.alone):
            return False
        return bool(BEGINS_AT.match(name.text) or GOES_ON_FROM.match(name.text))

    def tells_of_the_part_above(self, name: Named) -> bool:
        same = self.piece is not None and self.piece.name.lower() == name.head[0].lower()
        return self.no_round_yet() and same and name.alone and name.text.rstrip()[-1:] in (".", "!")

    def corrects_a_round(self, name: Named) -> bool:
        return self.any_course and _CORRECTS.match(name.text) is not None

    def says_how_often(self, name: Named) -> bool:
        return self.any_course and _HOW_OFTEN.fullmatch(name.text) is not None

    def is_a_colour(self, name: Named) -> bool:
        lead = _FOR_A_PART.match(name.text) if self.no_round_yet() and name.alone else None
        if lead is not None and is_colour(lead["shade"]):
            return True  # "Red for the hand" below "Arm (make 2)"
        shade = is_colour(_ONCE_MORE.sub("", name.text)) or is_patterned(name.text)
        return shade and (self.piece is not None or bool(name.leads and self.out.title))

    def talks_of_colours(self, name: Named) -> bool:
        told = name.on and name.alone and (_DROPS.match(name.text) or _BACK_TO.match(name.text))
        if told and classify(name.text) == "colour":
            return True  # "Drop the black.", though a drop may be a part; "back to A"
        if self.piece is None or not name.alone or not colour_talk(name.text, self.yarns()):
            return False
        part = _PART_GOES_ON.match(name.text) if (name.opens or name.marked) and name.leads and self.blank else None
        if part is not None and part["name"].lower() in headings.PARTS:
            return False  # "Body, continue with black:"
        apart = self.blank or (name.first and not self.no_round_yet())
        dressed = apart and name.leads and headings.dressed(name.text.rstrip(" :"))  # "Watering can, in grey"
        return name.on or not (dressed or self.names_more(name.head[0]))

    def is_the_yarn_of_a_heading(self, name: Named) -> bool:
        return name.leads and name.alone and self._shade_below(name.text)

    def is_a_job(self, name: Named) -> bool:
        if _JOB_AND_MORE.match(self.text, name.at, name.end) is not None and not self.no_round_yet():
            return True
        if not name.alone:
            told = not name.first and not name.hashed and not self.no_round_yet() and self.piece is not None
            return told and JOB_OF_COPIES.match(name.text) is not None
        if jobs := named_jobs(name.text):
            if any(kind == "tail" for kind, _, _ in jobs):  # "- flat, no filling, tail", the name of a part below it
                return not (self.leads_soon(name.index) or (name.following and self.opens_course(*name.following)))
            return not name.first  # "Eyes + stuffing"
        if _A_LONG_TAIL.fullmatch(name.text):
            return self.piece is not None and not (name.leads or self.leads_soon(name.index))
        if name.hashed and self.leads_soon(name.index):
            return False  # "### Putting together and border" above its rounds
        if ";" in name.text and not name.opens and any(kind != "other" for kind, _, _ in askings(name.text)):
            return True  # "tail; sew the lot on"
        words = len(name.text.split())
        if words <= 2 and classify(name.text) in _JOBS:
            return True
        return words > 2 and not name.loud and not name.opens and classify(name.text) not in _MORE_THAN_TALK

    def does_to_a_part(self, name: Named) -> bool:
        if not name.alone or name.opens or name.marked or name.numbered or name.hashed:
            return False
        if _DONE_TO.match(name.text) is not None and name.on and not name.loud:
            return True
        return (name.on or not name.leads) and ordered(name.text) == "stuff"

    def sets_a_job_in_a_frame(self, name: Named) -> bool:
        """ "** change to sweater colour **", "== Insert eyes ==" in front of the next round: as loud as a name, and a
        job there; "-> eyes between R8 & R9, cross 6X": an arrow leads a job, whatever it counts."""
        begins = self.text.rfind("\n", 0, name.at) + 1
        led = name.on and _ARROW_LED.match(self.text, begins) is not None
        return name.on and (led or (name.alone and not name.numbered)) and framed_job(name.text) is not None

    def tells_of_a_part(self, name: Named) -> bool:
        if self._named_as_above(name):
            return False
        return name.on and not name.marked and not self.finished() and self.spoken_of(name.text)

    def _named_as_above(self, name: Named) -> bool:
        """ "MILO'S MIDDLE" below "MILO'S HEAD", behind a blank line: as loud, called by the same owner, and no talk
        in front of its rounds."""
        if not (name.text.split("(")[0].isupper() and self.blank) or self.piece is None or name.following is None:
            return False
        if not (self.goes_on(name.following) or self._asks(*name.following)):
            return False
        above = _OWNER.match(self.text, self.piece.at)
        return above is not None and name.text.upper().startswith(above["owner"].upper())

    def tells_of_a_side(self, name: Named) -> bool:
        if not (name.on and name.alone) or name.marked:
            return False
        if name.text[:1].islower():
            return self._under_capitals()
        # "Flap:" right below the rounds of "PURSE", in front of the next of them
        small = name.opens and not self.blank and not name.loud and not self.finished()
        return small and self._under_capitals() and self.text[self.piece.at : name.at].split("\n")[0].isupper()  # type: ignore[union-attr]

    def heads_a_box(self, name: Named) -> bool:
        """ "DID YOU KNOW?" over a paragraph of talk, with the next round of the part above behind it."""
        if self._named_as_above(name):
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

    def tells_in_a_word(self, name: Named) -> bool:
        """ "Snout on.", "White band.", "Beak!" with the next round behind it: what is done there, and no other part.

        "Body." between two blank lines, "Body" and "BODY." stay the names of parts that go on from the one above.
        """
        text = name.text.rstrip()
        on = name.on or (_THINGS_GO.fullmatch(text) is not None and self._goes_on_plainly(name.following))
        if not (on and name.alone) or name.marked or name.hashed or self.cut_off():
            return False
        goes = _THING_GOES.fullmatch(text) or _THINGS_GO.fullmatch(text)
        if text[-1:] not in (".", "!"):
            return bool(goes) or self._band(text)
        words = re.findall(r"[a-z]+", text.lower())
        if self.finished() and not MAIN_PARTS.isdisjoint(words):
            return False  # "Body." behind "Legs (make 2)"
        named = all(word in headings.PARTS or word in ("the", "and") for word in words)
        behind = self.text[name.end : name.following[0]] if name.following is not None else ""
        apart = self.blank and behind.count("\n") > 1 and text[-1:] == "."
        return not (named and (name.loud or apart))

    def _goes_on_plainly(self, line: tuple[int, int] | None) -> bool:
        """Is a line a round as the one above, neither of which has a label, and no ring that begins another part?"""
        if line is None or not self._labels_nothing() or not self._opens_plainly(*line):
            return False
        told = self.text[slice(*line)]
        return not alone.ring(told) and furniture.foundation(told) is None

    @staticmethod
    def _band(text: str) -> bool:
        told = _BAND.fullmatch(text)
        return told is not None and is_colour(told["shade"])

    def put_word(self, text: str, at: int, end: int) -> None:
        """ "Snout on.", "Tickle the belly": shown there in its own words, as what it asks for where that is plain."""
        told = _THING_GOES.fullmatch(text)
        kind = classify(text) or alone.job(text) or framed_job(text)
        if kind is None and told is not None and told["thing"].lower().split()[-1] in headings.PARTS:
            kind = "sew" if re.search(r"\bon\W*$", text) else "other"
        elif kind is None and self._band(text):
            kind = "colour"
        kind = kind or ordered(text) or next((of for of, words in _KINDS_TOLD if words.search(text)), None)
        if self.piece is not None:
            self.piece.items.append(RawText(at, end, kind or "other"))
        self.course = None

    def goes_on_in_number(self, name: Named) -> bool:
        zone = name.opens and name.alone and _ZONE.fullmatch(name.head[0]) is not None
        sure = not zone and (name.known or name.marked or not name.alone or name.loud)
        return name.on and not sure and not (self.cut_off() if zone else self.finished())

    def defines(self, name: Named) -> bool:
        if self.section != "abbreviations" or name.marked or not DEFINES.match(name.text):
            return False
        told = bool(re.search(r"[:=\-]\s*\w", name.text))
        return told and not (name.leads and name.first and name.known and self.blank)

    def is_the_title(self, name: Named) -> bool:
        begun = self.out.title or self.any_course or self.out.pieces or self.section != "front"
        return not begun and not (name.leads and (name.known or not name.alone))

    def is_of_a_list(self, name: Named) -> bool:
        if self.section not in (*_LISTS, "front", "notes") or name.leads or (name.marked and name.known):
            return False
        if not name.alone and self.section == "front":
            return False
        if not name.known or self.section not in ("notes", "front") or name.following is None:
            return True
        if yarn_led(self.text[slice(*name.following)]):
            return False  # "BELLY" above "All light green."
        return not (self.stitchy(*name.following) or (self._asks(*name.following) and self.any_course))

    def names_no_part(self, name: Named) -> bool:
        sure = name.leads or name.marked or not name.alone or name.known or name.loud or name.opens
        told = self.section in ("pattern", "assembly") and self.any_course and not sure
        return told and not self._named_as_above(name)

    def asks_for_something(self, name: Named) -> bool:
        sure = name.leads or name.known or name.marked or not name.alone
        return name.opens and not sure and self._asks(name.at, name.end)


_OWNER = re.compile(r"[\W_]{0,6}(?P<owner>[A-Z]{2,16}'?S )(?=[A-Z])")
_ARROW_LED = re.compile(r"[ \t]{0,8}(?:[-=]{1,2}>|>>)[ ]?[a-z]", re.I)
A_COLOUR = "it is a colour"
DONE_TO = "it tells what is done to a part"
IN_A_FRAME = "it is a job in a frame between two rounds"
IN_A_WORD = "it tells in a word what is done between two rounds"
A_SHADE = "it is the yarn of the heading above"
_Table = tuple[tuple[str, Callable[[Refusals, Named], bool]], ...]
_BY_ITS_WORDS: _Table = (
    ("it corrects a round", Refusals.corrects_a_round),  # "Correction: R4 should read (2 sc, inc) x 6"
    ("it says how often the round above is worked", Refusals.says_how_often),  # "Again, twice."
    ("it is a letter behind a number", Refusals.is_a_letter),
    ("it tells of one copy alone", Refusals.tells_of_one_copy),  # "For the second ear, work round 5 with cream."
    ("it works stitches", Refusals.works_stitches),
    ("it is bought and not made", Refusals.is_bought),  # "2 x 8mm black eyes"
    ("it says that this part is like another", Refusals.like_another),
    ("it tells of a thing between two rounds", Refusals.tells_of_a_thing),  # "Cheeks: pink thread, three stitches ..."
    ("it tells of a feature between two rounds", Refusals.tells_of_a_feature),  # "Nose: brown, between R5 and R6."
    ("it tells where a thing goes on the rounds", Refusals.tells_where_on_the_rounds),  # "Eyes after R4"
    ("it ends in the count of the round above", Refusals.ends_in_the_count),  # "Tighten up (12)"
    ("it tells which rounds are in a color", Refusals.tells_rounds_of_a_colour),  # "Cream: rounds 5-8"
    ("it tells where the part begins", Refusals.tells_where_to_begin),  # "Starting at the nose with B"
    ("it tells of the part above", Refusals.tells_of_the_part_above),  # "The head is worked in a spiral."
    (A_COLOUR, Refusals.is_a_colour),  # "Navy:"
    ("it tells of a colour", Refusals.talks_of_colours),  # "Back to red!"
    (A_SHADE, Refusals.is_the_yarn_of_a_heading),
    ("it is a job", Refusals.is_a_job),  # "Stuffing" between two rounds
    (IN_A_FRAME, Refusals.sets_a_job_in_a_frame),  # "** change to sweater colour **"
    (DONE_TO, Refusals.does_to_a_part),  # "fluff the head!! really full"
    ("it tells of a part that the rounds go over into", Refusals.tells_of_a_part),  # "Tail starts here"
    ("it tells of a side of the part above", Refusals.tells_of_a_side),  # "flat bottom:" beneath "BODY"
    ("it heads a box of talk between two rounds", Refusals.heads_a_box),  # "SIDEBAR"
    (IN_A_WORD, Refusals.tells_in_a_word),  # "Snout on.", "White band."
    ("the rounds go on in number behind it, and it names no part", Refusals.goes_on_in_number),
    ("it explains an abbreviation", Refusals.defines),
)
_BY_ITS_PLACE: _Table = (
    ("it is the title", Refusals.is_the_title),
    ("it stands in a list", Refusals.is_of_a_list),
    ("it names no part, and no round follows", Refusals.names_no_part),
    ("it asks for something", Refusals.asks_for_something),
)
REASONS = tuple(why for why, _ in (*_BY_ITS_WORDS, *_BY_ITS_PLACE))
