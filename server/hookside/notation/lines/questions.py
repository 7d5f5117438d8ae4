"""What is asked about a line before it is put anywhere: does a course open here, does it go on, is it a mention?"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import Counter
from itertools import islice

from hookside.colours import COLOURS, SHADES
from hookside.notation.askings.askings import askings
from hookside.notation.askings.kinds import classify
from hookside.notation.bodies.tokens import Dictionary, Token, tokens
from hookside.notation.bodies.wording.stretches import MOVES_START
from hookside.notation.bodies.written import told_in
from hookside.notation.labels import growth
from hookside.notation.labels.label import Label, at_line_start, bare_number
from hookside.notation.lines import furniture
from hookside.notation.lines.heads import headings
from hookside.notation.lines.keys.keyed import key_lines, stitch_meant
from hookside.notation.lines.layout import MOST_LINES, Layout, RawCourse, RawPiece, RawText, short_name
from hookside.notation.lines.overandover import OverAndOver
from hookside.notation.lines.unlabelled import alone
from hookside.notation.lines.unlabelled.noted import columns
from hookside.notation.lines.unlabelled.told import loops_lead, shade_lead
from hookside.notation.page.cleaning import Page
from hookside.notation.page.tables.pasted import is_header
from hookside.notation.vocabulary import NOUNS, REMEMBERED
from hookside.pattern import Terms

_SHADES = "|".join(sorted(COLOURS, key=len, reverse=True))
_OPENERS = re.compile(
    r"(?:to (?:begin|start)[,:]? )?(?:"
    r"(?:start|begin)\w*\b[^.\n]{0,24}\b(?:with|by|in)\b|(?:make|into|in)(?: an?| the)?\b[^.\n]{0,12}"
    r"(?:ring|circle|mr)\b|"
    r"in (?:(?:the|your|some) )?(?:[a-z]+ ){0,2}" + rf"(?:{_SHADES})(?: (?:yarn|wool|cotton))?(?:,| -) "
    r"(?=(?:make |work )?(?:ch(?:ain)?\b|\d)[^.\n]*\b(?:sc|[hd]?dc|h?tr)\b)|"
    r"magic|mr\b|ch(?:ain)?\s*-?\d|with\b|using\b|\d+\s*(?:sc|dc|hdc|ch)\b|"
    r"make (?:a )?(?:ch(?:ain)?s? (?:of )?\d|\d+ ?ch(?:ain)?s?\b))",
    re.I,
)
# "Turn, sc 12.", "Turn and sc back": a row, and no turning alone
_TURNED_BACK = re.compile(
    r"turn(?: (?:the work|it|around))?(?: and|,|;|:|\.)? (?:ch(?:ain)? ?\d(?: and|,)? )?(?:then )?(?:work |make )?"
    r"(?:(?:sc|[hd]?dc|h?tr|sl ?st|ss) ?(?:\d{1,3}|back|across|around|to end|in (?:each|every|next|the)\b[^.\n]{0,40})|"
    r"\d{1,3} (?:sc|[hd]?dc|h?tr|sl ?sts?|ss)(?: back| across)?)\W{0,3}"
)
_INTO_CHAINS = re.compile(r"\s*(?:in|into|of|to|from|each|and|next|on|the|last)\b")
SENTENCE_END = re.compile(r"(?<=[.!?])\s+(?=[A-Z*(\"])")
_STOP = re.compile(r"[.!?]\s")
_WORKED = re.compile(r"\d|stitch|crochet|repeat|increas|decreas|\b(?:[hd]?dc|sc|h?tr|inc|dec)\b", re.I)
# "Ch 3 at the start of a round counts as a dc throughout": a note
ABOUT_CHAINS = re.compile(
    r"\b(?:does not |do not |doesn't |never |always )?counts? as\b.*\b(?:throughout|everywhere|always|in (?:all|"
    r"every) (?:rounds?|rows?))\b|\bch(?:ain)?s?\b[^.]{0,30}"
    r"\b(?:at the|at|in the) (?:start|beginning|beg)(?: of (?:a|each|every|the|all))?\b[^.]{0,30}\bcounts?\b|"
    r"\balways counts? as\b|\bch(?:ain)? ?\d\b[^.]{0,30}\b(?:start|beginning|beg)\b[^.]{0,30}(?:\bis|\bare|=) "
    r"(?:only )?(?:for )?(?:height|not a|never a|no st(?:itch)?)\b|"
    r"\bch(?:ain)? ?\d ?(?:=|is) ?(?:not an?|never an?|no) st(?:itch)?\b|"
    r"^\W*(?:the )?(?:turning |beginning |starting )?ch(?:ain)?[ -]?\d "
    r"(?:(?:does not|doesn't|never|always) )?counts? as "
    r"(?:an? |one |the first )?(?:[a-z]+)\W*$"
)
# Beside colors, in "Rounds 1, 2 and 9 in red, the rest in white."
_BESIDE_SHADES = frozenset(["in", "with", "the", "and", "rest", "others", "other", "all", "then", "back", "to", "yarn"])
_TOLD_ASIDE = ("yarn", "materials", "notes")
_LONGEST_SHADES = 60  # characters
_WHERE = frozenset(["in", "each", "around", "across", "every", "all", "next", "into", "end"])
LONGEST_BODY = 8_000  # characters
# "BLO around", "back loops only (12)": a round in so few words
_LOOPS_AROUND = re.compile(
    r"\W*(?:in )?(?:[bf]lo\b|(?:back|front) loops? only\b)[, ]{0,2}(?:all )?"
    r"(?:(?:the way )?(?:a?round|across)\b|$|[(=])",
    re.I,
)
_PLAIN = frozenset(
    [
        "next",
        "each",
        "around",
        "stitch",
        "stitches",
        "from",
        "hook",
        "repeat",
        "times",
        "across",
        "last",
        "magic",
        "ring",
        "first",
        "work",
        "with",
        "back",
        "loops",
        "only",
        "round",
        "chain",
        "join",
        "turn",
        "same",
        "into",
    ]
)
FOUNDATION = re.compile(
    r"\s*(?:foundation|starting|base|beginning|set[ -]?up)?\s*(?:ch(?:ain)?|start|foundation|to (?:start|begin)|"
    r"begin)\s*(?:row|round|rnd)?\s*[:\-]\s*(?=(?:with\b|using\b|make\b|ch\b|ch\d|chain\b|magic\b|mr\b|\d))",
    re.I,
)
_UNFINISHED = re.compile(
    r"\b(?:at|in|on|of|to|from|after|before|between|until|through|by|the|since|repeat|rep|as|like|over|under|below|above|"
    r"along|near|beside|past|onto|into|facing|"
    r"(?:(?<!way )(?<!all )(?<!right )(?<!\bsc )(?<!dc )(?<!tr )(?<!\binc )(?<!\bdec )(?<!\bst )"
    r"round|rounds|rnds?|rows?)"
    r"(?: \d{1,3}(?:,| and|-| to))?)$",
    re.I,
)
# "(W) R1: ...", "[red] Rnd 5: ...": a colour before the label of its course
BEFORE_LABEL = re.compile(
    r"(?P<signed>[(\[]\s*)?(?:(?:in|with|using) )?(?P<shade>[A-Za-z]+(?: [A-Za-z]+)?)(?(signed)\s*[)\]]|(?=[ :-]))"
    r"\s*[:-]?\s*(?=[A-Za-z\d])",
    re.I,
)
# What stands before a line and is no part of it: a sign, a box to tick, a number in front of a label ("6. Rnd 9: ...")
BULLET = re.compile(
    r"\s*(?:(?:[#>]+|[-=]+>|=(?=\s*[A-Za-z]))\s*)?(?:[-+*o~]\s+(?=\S))?(?:\[[ xX]?\]\s*)?[\"']?\s*"
    r"(?:\d{1,3}[.)] +(?=(?i:rounds?|rnds?|rows?|rds?|r)(?:\d|\.? ?\d{1,3}(?: ?[-,&] ?\d{1,3})* *[-:.)=(\[])))?"
)

# "1: 6 = knit 6 fine stitches in the ring": a table begins
RING_BY_COUNT = re.compile(
    r"\s*(?:(?P<n>\d{1,2})\s*=\s*[^=\n]{0,30}\b(?P=n)\b[^=\n]{0,30}\b(?:ring|circle|mr)\b|"
    r"\d{1,2} (?:in|into) (?:an? |the )?(?:magic |adjustable )?(?:ring|circle|loop|mr)\b\s*(?:[-=(:]|$)|"
    r"(?:an? |the )?(?:magic |adjustable )?(?:ring|circle|loop) of \d{1,2}(?: sc| sts| stitches)?\s*(?:[-=(:]|$)|"
    r"(?:in (?:an? |the ))?(?:magic |adjustable )?(?:ring|circle|loop)\s*[,:]\s*\d{1,2}\s*(?:[-=(:\[]|$))",
    re.I,
)
# Of a running title: "52 TOYS TO MAKE", "TOYS TO MAKE 61"
_APART = re.compile(r"[ ]{3,}")
_OF_COUNTS = NOUNS | {"total", "in", "all", "altogether", "now"}
_PAGE_NUMBER = re.compile(r"^\d{1,3} (?=\D)|(?<=\D) \d{1,3}$")


# "from the second loop from the hook 9 slip stitches", below its chains
_FROM_NTH_CHAIN = re.compile(
    r"\W*(?:start\w*|begin\w*|from|in|into|work\w*)(?: (?:at|from|in|into|with))? (?:the )?(?:2nd|second|3rd|third|4th|"
    r"fourth) (?:ch(?:ain)?|loop|stitch|st)\b"
)

_FROM_CHAINS = re.compile(
    r"\b(?:from (?:the |your )?hook|(?:each|every|next \d{1,3}|all \d{1,3}) ch(?:ain)?s?\b)", re.I
)


class Questions:
    """The state of the walk, and the small questions about lines; nothing here changes the layout."""

    def __init__(self, page: Page, terms: Terms) -> None:
        self.page = page
        self.text = page.text
        self.terms = terms
        self.out = Layout()
        self.section: str = "front"
        self.piece: RawPiece | None = None
        self.course: RawCourse | None = None  # the one a continuation line would go on with
        self.names = Dictionary(terms)
        self.names_seen = 0
        self.last_number = 0
        self.blank = True
        self.untitled = 0  # lines from the first on that were asked whether one is the title, and are not
        self.spaced = False  # courses are numbered by a number and a space
        self.any_course = False
        self.tails: list[tuple[int, int]] = []  # told ahead of all parts, to be left before the first stitch
        self.courses = 0  # those cut so far
        self.used_lines: list[tuple[int, int]] = []
        self.asked: dict[tuple[int, int], tuple[int, bool]] = {}  # lines asked about before: does a course open there?
        self.plainly: dict[tuple[int, int], tuple[tuple[int, bool, bool], bool]] = {}  # ... by its stitches alone?
        self.passing: dict[tuple[int, int], bool] = {}  # ... and do they belong to the page alone?
        self.labels: dict[tuple[int, int], Label | None] = {}  # ... what label begins there
        self.bare: dict[tuple[int, int], Label | None] = {}  # ... and what number by itself
        self.parted: tuple[int, int, list[Label]] = (-1, -1, [])  # the line whose inner labels were looked for last
        self.weighed = (-1, -1, True)  # the course whose end was looked at last: start, end, is it closed?
        self.margin = 0  # letters in a full line of a page that wraps its lines; 0 as long as nobody asked
        self.yarns_of = -1  # lines of materials there were when the yarns were looked for
        self.known_yarns: frozenset[str] = frozenset()
        self.lists = told_in(self.text)  # names for lists of stitches
        self.running: set[str] = set()  # lines that stand on the page more than once
        self.told: dict[str, list[Token]] = {}  # stretches whose words were looked at under the names of now
        self.mostly: dict[str, bool] = {}  # ... and whether they are stitches and little else
        at = filled = 0
        for line in self.text.split("\n"):
            self.used_lines.append((at, at + len(line)))
            at += len(line) + 1
            filled += line != "" and not line.isspace()
            if filled > MOST_LINES:
                break  # the walk ends here
        self.keyed = key_lines(self.text, self.used_lines)  # lines that tell what names stand for, wherever they are
        for told in self.keyed.values():
            for name, _ in told:
                if short_name(name):
                    self.names.learn(name.lower(), name)
        meanings = [pair for told in self.keyed.values() for pair in told]
        self.rings = frozenset(name.lower() for name, what in meanings if stitch_meant(what) == "ring")
        # the last sentence or course that was walked back from, how many there were, how far the last course is, and it
        self.walked: tuple[RawCourse | RawText | None, int, int, RawCourse | None] = (None, 0, 0, None)
        self.again = OverAndOver()
        self.taken = 0  # to where the text is read already
        self.noted = columns(self.text, self.used_lines)  # notes without a label, each with its count

    def dictionary(self) -> Dictionary:
        if self.names_seen != len(self.out.abbreviations):
            for name in islice(self.out.abbreviations, self.names_seen, None):
                if short_name(name):
                    self.names.learn(name.lower(), name)
            self.names_seen = len(self.out.abbreviations)
            self.told.clear()
            self.mostly.clear()
        return self.names

    def tokens(self, text: str) -> list[Token]:
        """The tokens of a stretch; remembered, as a line is asked about several times and pages repeat themselves."""
        names = self.dictionary()
        known = self.told.get(text)
        if known is None:
            if len(self.told) >= REMEMBERED:
                self.told.clear()
                self.mostly.clear()
            known = self.told[text] = tokens(text, names)
        return known

    def stitchy(self, start: int, end: int) -> bool:
        """Do stitches stand here, and little else?"""
        text = self.text[start : min(end, start + 400)]
        toks = self.tokens(text)
        if (known := self.mostly.get(text)) is not None:
            return known
        stitches = sum(t.kind == "stitch" for t in toks)
        numbers = sum(t.kind in ("number", "ordinal") for t in toks)
        words = sum(t.kind == "word" and len(t.text) > 3 and t.text not in _PLAIN for t in toks)
        told = stitches > 0 and (stitches + numbers) >= words
        self.mostly[text] = told or _LOOPS_AROUND.match(text) is not None
        return self.mostly[text]

    def no_round_yet(self) -> bool:
        """Does the part at hand have its name, and perhaps its yarn, and no round?"""
        if self.piece is None or not self.piece.headed:
            return False
        return not any(isinstance(item, RawCourse) for item in self.piece.items)

    def worked_on(self) -> bool:
        """Has the part at hand a round yet?"""
        return self.piece is not None and any(isinstance(item, RawCourse) for item in self.piece.items)

    def opens_course(self, at: int, end: int) -> bool:
        """Would the line at `at` begin a course? Remembered, as each line is asked about by those above it."""
        known = self.asked.get((at, end))
        if known is None or known[0] != self.names_seen:
            known = self.asked[at, end] = (self.names_seen, self._opens_course(at, end))
        return known[1]

    def _opens_course(self, at: int, end: int) -> bool:
        if at in self.noted:
            return True
        begin = BULLET.match(self.text, at, end)
        at = self.past_shade(begin.end() if begin else at, end)
        if self.label_at(at, end) or self._founds(at, end):
            return True
        bare = self.number_at(at, end)
        if bare and (self.stitchy(bare.end, end) or RING_BY_COUNT.match(self.text, bare.end, end)):
            return True
        if not self.stitchy(at, end):
            return self._rings_first(at, end)
        return bool(_OPENERS.match(self.text, at, end)) or self._amount_first(at, end)

    def past_shade(self, at: int, end: int) -> int:
        """Where a label begins, behind the colour in brackets before it; `at` where there is none."""
        told = BEFORE_LABEL.match(self.text, at, end) if self.text[at : at + 1] in ("(", "[") else None
        return told.end() if told is not None and self.label_at(told.end(), end) is not None else at

    def _amount_first(self, at: int, end: int) -> bool:
        """ "6 pb in AM (6)": an amount, a stitch by whatever name, and a count behind it."""
        lead = self.tokens(self.text[at : min(end, at + 200)])[:2]
        return [t.kind for t in lead] == ["number", "stitch"] and alone.counted(self.text[at:end])

    def _founds(self, at: int, end: int) -> bool:
        match = FOUNDATION.match(self.text, at, end)
        return match is not None and not match[0].lower().lstrip().startswith("ch")

    def unfinished(self, at: int) -> bool:
        """Does the line right before the one at `at` stop in the middle of naming a course or a place?"""
        return not self.blank and bool(_UNFINISHED.search(self.text[max(0, at - 40) : at].rstrip(" \n")))

    def ends_sentence(self, label: Label, at: int, end: int) -> bool:
        """ "Sew the wings at / round 7.": a line wrapped before the course that it names."""
        first = self.text[label.start : label.start + 1]
        if label.relative and first.islower() and not (label.numbers or label.named) and self.unfinished(at):
            return True  # "rep from * to the / last one sc in the same st"
        if ":" in self.text[label.start : label.end] or not self.unfinished(at) or self.stitchy(label.end, end):
            return False  # the last costs most and is asked last
        # in capitals it may be a label all the same, but for courses that are made already
        made = 0 < max(label.numbers, default=0) <= self.last_number
        return made or self.section == "assembly" or not first.isupper()

    def label_at(self, at: int, end: int) -> Label | None:
        """The label that a line looked ahead at begins with; remembered, as several ask, and never changed."""
        span = at, end
        if span not in self.labels:
            self.labels[span] = at_line_start(self.text, at, end)
        return self.labels[span]

    def number_at(self, at: int, end: int) -> Label | None:
        """The number by itself that it begins with."""
        span = at, end
        if span not in self.bare:
            self.bare[span] = bare_number(self.text, at, end)
        return self.bare[span]

    def next_line(self, index: int) -> tuple[int, int] | None:
        for start, end in self.used_lines[index + 1 : index + 8]:
            if self.text[start:end].strip() and not self.furniture(start, end):
                return start, end
        return None

    def labels_near(self, index: int, start: int, end: int) -> bool:
        """Does a label of a course open this line or the next one?"""
        following = self.next_line(index)
        for here, stop in [(start, end), following] if following is not None else [(start, end)]:
            if self.opens_labelled(here, stop):
                return True
        return False

    def opens_labelled(self, start: int, end: int) -> bool:
        """Does a label or a number open this line?"""
        begin = BULLET.match(self.text, start, end)
        at = begin.end() if begin else start
        return bool(self.label_at(at, end) or self.number_at(at, end))

    def line_after(self, line: tuple[int, int]) -> tuple[int, int] | None:
        """The next line with something on it behind another one."""
        return self.next_line(bisect_left(self.used_lines, line))

    def furniture(self, start: int, end: int) -> bool:
        """Page numbers, copyright lines, heads of tables."""
        if start in self.noted:
            return False
        known = self.passing.get((start, end))
        if known is None:
            known = self.passing[start, end] = self._furniture(start, end)
        return known

    def _furniture(self, start: int, end: int) -> bool:
        line = self.text[start:end]
        if furniture.is_furniture(line) or is_header(line):
            return True
        return not self.page.html and is_header(self.page.original[self.page.back(start) : self.page.back(end)])

    def runs_on(self, text: str, following: tuple[int, int] | None) -> bool:
        """A title printed again at the head of a page, in the middle of a piece whose rounds go on behind it."""
        if not self.last_number or following is None or len(text) > 80:
            return False
        if text[-1:] in ")]}>" or (text[:1].islower() and self.course is not None and not self.blank):
            return False  # "of next 2 sts. [24 sts]": the rest of a round, whose like ends other rounds
        label = self.label_at(*following) or self.number_at(*following)
        if label is None or label.numbers[:1] != [self.last_number + 1]:
            return False
        toks = self.tokens(text)
        words = {w for w in re.findall(r"[a-z]+", text.lower())}
        if words <= _OF_COUNTS:
            return False  # "{10}", "(total 6 sts)" below its round, however often it stands on the page
        if words & headings.PARTS and text.strip().lower() != self.out.title.lower():
            return False
        if classify(text) is not None or len(toks) < 2 or any(t.kind == "stitch" for t in toks) or text[-1:] in ".:!":
            return False
        if not self.running:
            # a running title may share its line: "HARBOUR TOYS            Leaflet 12"
            parts = (part for a, b in self.used_lines if b - a <= 80 for part in _APART.split(self.text[a:b].lower()))
            whole = [" ".join(part.split()) for part in parts]
            lines = Counter(_PAGE_NUMBER.sub("", part) for part in whole if not part.isdecimal())
            self.running = {line for line, n in lines.items() if n > 1 and line} | {self.out.title.lower(), ""}
        return _PAGE_NUMBER.sub("", " ".join(text.lower().split())) in self.running

    def _balanced(self, course: RawCourse) -> bool:
        span = course.start, course.end
        if self.weighed[:2] != span:
            self.weighed = (*span, self._closes(self.text[course.start : course.end]))
        return self.weighed[2]

    def _closes(self, body: str) -> bool:
        """Are the brackets of a body closed, and does it not end in mid-list?"""
        if len(body) > LONGEST_BODY:
            return True  # no course is that long: it has lost its end
        closed = all(body.count(a) <= body.count(b) for a, b in ("()", "[]", "{}"))
        end = body.rstrip()[-1:]
        return closed and end != "" and end not in ",("

    def founds(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """Only chains stand here, for the next course to be worked into."""
        if self.section in ("materials", "yarn", "hook", "gauge", "abbreviations") and not (
            following is not None and self.opens_course(*following)
        ):
            return False
        if self.course is not None and not self.blank and not self._balanced(self.course):
            return False
        text = self.text[at:end]
        if furniture.foundation(text) is None and not self._worked_into(text, following):
            return False
        if self.course is not None and not self.blank and _INTO_CHAINS.match(text):
            return False  # "... hook, sc / in next 12 ch. (13)"
        begun = self.piece is not None and any(isinstance(i, RawCourse) for i in self.piece.items)
        return not (begun and re.match(r"\s*(?:ch(?:ain)?\.?\s*[1-3]\b|[1-3]\s*ch)", text, re.I))

    def _worked_into(self, text: str, following: tuple[int, int] | None) -> bool:
        """ "Ch 15, one strand only." right below a heading, in front of a row into the 2nd chain from the hook."""
        headed = self.piece is not None and self.piece.headed and not self.piece.items
        told = furniture.chains_told(text) if headed and following is not None else None
        if told is None or following is None or _FROM_CHAINS.search(self.text, *following) is None:
            return False
        return not any(t.kind == "stitch" for t in self.tokens(told["rest"]))

    def founds_over(self, at: int, end: int, following: tuple[int, int]) -> bool:
        """ "Ch 36 and join to form a ring, taking care not to / twist it.": the chains of a course over two lines."""
        if "ch" not in self.text[at:end].lower() or self.text[end : following[0]].count("\n") != 1:
            return False
        if not self.text[following[0] : following[0] + 1].islower() or self.text[at:end].rstrip()[-1:] in ".:!;":
            return False
        if self.section in ("materials", "yarn", "hook", "gauge", "abbreviations") or self.course is not None:
            return False
        return furniture.foundation(self.text[at : following[1]].replace("\n", " ")) is not None

    def _mention(self, label: Label, at: int, end: int) -> bool:
        """ "Round 4 is a little fiddly" names a round and is none."""
        if not label.explicit and label.numbers and not _WORKED.search(self.text, label.end, end):
            return True  # "1st step: gather what you need"
        if self._only_colours(label, end):
            return True  # "Rounds 1-4: brown", in front of "R1: 6 sc in MR"
        rest = self.text[label.end : end].strip().lower()
        if label.stopped:
            return self.section in ("materials", "gauge") and not self.stitchy(label.end, end)
        return bool(
            re.match(r"(?:is|are|was|will|and|should|may|can|has|have|looks?|onwards?|for|if|when|where|or)\b", rest)
        ) or (not rest and not label.numbers)

    def _only_colours(self, label: Label, end: int) -> bool:
        """Is nothing told of several courses but their color, in front of all or among the notes, and do no stitches
        stand below?"""
        aside = not self.any_course or self.no_round_yet() or self.section in _TOLD_ASIDE
        if len(label.numbers) < 2 or end - label.end > _LONGEST_SHADES or not aside:
            return False
        words = re.findall(r"[a-z]+", self.text[label.end : end].lower())
        named = [word for word in words if word in COLOURS or (len(word) == 1 and word in "abcdefgh")]
        if not named or not all(word in named or word in SHADES or word in _BESIDE_SHADES for word in words):
            return False
        below = self.line_after((self.text.rfind("\n", 0, label.start) + 1, end))
        return below is None or self.label_at(*below) is not None or not self.stitchy(*below)

    def numbered_name(self, at: int, end: int, goes_on: bool = False) -> bool:
        """ "4. Ears x 4", "1. Big puff" above "R1: ...": a heading with a number, whatever stitches it sounds like;
        `goes_on`: its rounds may go on in number behind those of another, as in "Step 3. The body"."""
        text = self.text[at:end].strip()
        if len(text) > 60 or ":" in text or "=" in text:
            return False
        head = headings.heading(text, True, True)
        if head is None or not set(re.findall(r"[a-z]+", head[0].lower())) & headings.PARTS:
            return False
        following = self.line_after((self.text.rfind("\n", 0, at) + 1, end))
        first = self.label_at(*following) if following is not None else None
        begins = (1, self.last_number + 1) if goes_on else (1,)
        return first is not None and first.explicit and (first.numbers or [0])[0] in begins

    def _opens_plainly(self, at: int, end: int) -> bool:
        """An unnumbered course: stitches from its first word on. Remembered, as by `opens_course`."""
        seen = len(self.out.abbreviations), bool(self.last_number), self.piece is not None
        known = self.plainly.get((at, end))
        if known is None or known[0] != seen:
            known = self.plainly[at, end] = (seen, self._stitches_first(at, end))
        return known[1]

    def _rings_first(self, at: int, end: int) -> bool:
        """ "With oatmeal, 4 sc in a magic circle. Leave a tail for sewing.": a ring by its stitches, whatever is told
        behind it."""
        text = self.text[at:end]
        return alone.ring_led(text) and any(t.kind == "stitch" for t in self.tokens(text[:200]))

    def _stitches_first(self, at: int, end: int) -> bool:
        text = self.text[at:end]
        low = text.lower().strip()
        if self.last_number and ("start" in low or "begin" in low) and MOVES_START.match(low):
            return False
        if self.last_number and self.piece is not None and growth.goes_on(text):
            return True
        led = loops_lead(low) or (shade_lead(low) if self.any_course and self.stitchy(at, end) else 0)
        if led and self._opens_plainly(end - len(text.lstrip()) + led, end):
            return True
        if self._rings_first(at, end):
            return True
        if not self.stitchy(at, end):
            return (
                bool(re.match(r"(?:repeat|rep|work|continue)\b[^.]{0,40}\b(?:rounds?|rnds?|rows?)\b", low))
                and self.piece is not None
                and bool(self.last_number)
            )
        if re.match(r"(?:repeat|rep|work)\b[^.]{0,60}\b(?:rounds?|rnds?|rows?)\b", low) and self.last_number:
            return True
        if re.match(
            r"(?:i|we|you|this|the|note|if|when|tip|for|it|there|these|my|all|please|as|once|after|before|"
            r"rounds|rnds|rows|pieces|parts|stitches)\b",
            low,
        ):
            return False
        if _FROM_NTH_CHAIN.match(low):
            return True
        if ABOUT_CHAINS.search(low):
            return False
        toks = self.tokens(text[:200])
        lead = [t for t in toks[:7] if t.kind != "sign"]
        if not lead:
            return False
        kind = classify(re.split(r"[.;]", text, maxsplit=1)[0])
        if kind in ("sew", "fasten", "weave", "stuff", "eyes", "embroider", "pin", "close", "tail", "marker"):
            return False
        if self.piece is None and re.search(r"\d ?mm\b", low):
            return False
        if self.piece is None and not any(t.kind == "number" or t.text in _WHERE for t in toks if t.kind != "sign"):
            return False  # "sc, dec, FO": a list of short forms
        if lead[0].kind == "stitch" and lead[0].key not in ("turn", "join", "skip"):
            return True
        if lead[0].key == "turn" and self.piece is not None and self.last_number:
            return _TURNED_BACK.fullmatch(low) is not None
        if lead[0].kind == "number" and len(lead) > 1 and lead[1].kind == "stitch":
            return True
        return bool(_OPENERS.match(low)) and any(t.kind == "stitch" for t in lead)

    def _asks(self, at: int, end: int) -> bool:
        text = self.text[at:end]
        if _STOP.search(text) is None:
            asked = (kind for kind, _, _ in askings(text))  # "Oat, start with a long tail", "grey; fasten off"
            return classify(text) is not None or any(kind not in ("other", "colour") for kind in asked)
        return any(classify(s) is not None for s in SENTENCE_END.split(text))
