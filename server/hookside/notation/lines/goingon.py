"""Whether a line goes on: the rest of a course, the next number of a list, a heading whose course is soon to come."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour, worked_in
from hookside.notation.askings.colourtalk import colour_talk, only_a_yarn
from hookside.notation.askings.kinds import classify
from hookside.notation.bodies.wording.places import OTHER_SIDE
from hookside.notation.labels import growth, howlong, references
from hookside.notation.labels.label import Label
from hookside.notation.lines import sections
from hookside.notation.lines.bylabel import ByLabel
from hookside.notation.lines.colours.ownyarns import is_yarn
from hookside.notation.lines.colours.yarnlines import ColourLines
from hookside.notation.lines.heads import headings
from hookside.notation.lines.layout import RawCourse
from hookside.notation.lines.questions import ABOUT_CHAINS, BULLET, LONGEST_BODY, RING_BY_COUNT, SENTENCE_END
from hookside.notation.lines.unlabelled import alone
from hookside.notation.lines.unlabelled.broken import (
    BRACKETED_COUNT,
    COUNTED,
    CUTS_OFF,
    LAST_WORD,
    LONGEST_PRINTED,
    PLACE_AT_END,
    PRINTED,
    TAIL,
    Broken,
)
from hookside.notation.lines.unlabelled.texts import ONLY_COUNT, Unlabelled
from hookside.notation.page.inwords import N

_BETWEEN = re.compile(
    r"\s*[(\[]?(?:with|using|in|make|x|\d+ ?x|\d+ pieces|colou?r|yarn|hook|start|work|this|"
    r"the|note|do not|use)\b",
    re.I,
)
_NUMBERED = re.compile(r"\s*(?P<step>(?:step|part|section|stage) )?\d{1,2}[.:)]\s+", re.I)
_SPACED = re.compile(
    r"(?P<mark>#?)(?P<n>\d{1,3})"
    r"(?:[ ]?(?P<to>[-,&+]|(?<=[ ])(?:to|thru|through|and)(?=[ ]))[ ]?#?(?P<last>\d{1,3}))?[ ]+"
    r'(?=(?P<next>[\da-z(\[*{"<]))',
    re.I,
)
_LEADS_ON = re.compile(
    r"\b(?:in|of|the|next|each|and|to|x|from|into|with|last|rep|then|a|around|work|make)$", re.I
)
# "... do not count as st). 1 / hdc in each ch": an amount whose stitch stands on the next line
_AMOUNT_ALONE = re.compile(r"(?:[.,;)\]]|\band)\s+\d{1,3}$")
_TOLD_COUNT = re.compile(r"[;=)\]-] ?\d{1,4}$")
# ", 6" behind what is whole without it
_COMMA_COUNT = re.compile(
    r"(?:\d ?x|x ?\d{1,2}|times|twice|a?round|[)\]*]|each(?: st)?|all rd|sc|[hd]?dc), ?\d{1,4}$", re.I
)
_GOES_ON_WITH = re.compile(
    r"[^a-z]|(?:in|into|of|to|on|sts?|stitch(?:es)?|sc|[hd]?dc|h?tr|times?|more|a?round|then|and)\b"
)
_CLOSES_ROW = re.compile(r"(?:turn|join)\b[^.]{0,40}\.(?:\s*\d{1,4} (?:sts?|stitches|sc|dc|hdc|htr|tr)\b)?", re.I)
_PUT_TOGETHER = ("sew", "pin", "embroider", "weave", "stuff", "close", "eyes", "shape", "fasten", "tail")
_LONGEST_NAME = 5  # words of a heading
_RAGGED = 14  # letters by which the full lines of a wrapped page differ
_FULL_LINES = 3  # so many of them make a margin
_WIDEST_PAGE = 110
# "Fold it and make 3 pb through both layers": stitches by a name of the text's own, and no copies
_MAKES_STITCHES = re.compile(r"\b(?:make|work|crochet)\s+\d{1,3}\s+(?P<what>[a-z]+)", re.I)
_COUNT_BELOW = re.compile(r"(?:\d{1,4} ?)?(?:sts?|stitches)\s*[.)]*\s*$")
# "sc next 2 sts / together", "sc in 2nd ch from hook / and in each ch across": no line of a text begins so by itself
_MID_SENTENCE = re.compile(r"(?:together|tog|and in(?:to)? (?:each|every|the|next)|of the (?:chain|ch))\b")
_PLACE_FIRST = re.compile(r"in(?:to)? (?:(?:the )?(?:next|last|first|same|remaining)|each|every|\d)\b")
_AMOUNT_BEGUN = re.compile(r"[,;*(\[{]\s*\d{1,2}$")
_OTHER_COURSE = re.compile(r"(?:the |this )?(?:[a-z]{3,12} )?(?:rounds?|rnds?|rows?)(?: [a-z]{2,8}){0,2}\s*:")
# "5-6. 24": a number and nothing else; "(X,V)*6", "6V (12)": the letters of charts
_ONLY_NUMBERS = re.compile(r"(?=.*\d.*\d)[\s\d,;.*x()\[\]{}=:+-]+$")  # "*1, 2* (18)": a round all the same
# "2: 2 in each (12)", "4: *1, 1, 2 in next* (24)"
_BEGINS_BARE = re.compile(r"\s*[\d(\[{*][^.!?]{0,60}?(?:[(\[]\s*\d{1,4}\s*[)\]]|\*\s*\d*)\s*\.?\s*$")
_SIGNED = re.compile(r"\d(?:st|nd|rd|th)?\s*(?:[.:)\]/]|-\s)")  # a number with the sign of a label behind it
_IN_LETTERS = re.compile(r"[\d\s,;.+*x()\[\]=-]*(?:[XVAWMTF](?![A-Za-z])[\d\s,;.+*x()\[\]=-]*)+$")
# "2: 12 = +6": a row of a table that tells a count and what changes
# "1) Make a loop and work 6 dc into it, pull tight."
_RING_AND_WORK = re.compile(
    r"\s*(?:make|form|wind|start with|begin with) (?:an? |the |your )?(?:[a-z]{3,10} )?(?:ring|loop|circle),?"
    rf"(?: and| then)*(?: (?:work|make|crochet|put))? {N} "
    r"(?:sc|[hd]?dc|h?tr|sts?|stitches|(?:single|double)(?: crochets?)?) "
    r"(?:in|into|inside) (?:it|the (?:ring|loop|circle))\b",
    re.I,
)
_ONLY_CHANGE = re.compile(
    r"\s*\d{1,4}\s*=\s*(?:[+-]?\s*\d{1,3}|no (?:change|inc\w*)|none|same|even|[=-]|m\.?[rc]\.?|(?:magic )?ring)"
    r"\s*$",
    re.I,
)
_RINGED = re.compile(r"\b(?:magic|ring|circle|mr|mc|ch(?:ain)? ?2)\b", re.I)
# "Join to the second leg.", "Turn the work inside out.": of a part, and not of the round above
_JOBS_ALONE = re.compile(
    r"(?:now |then |next,? )*(?:(?:join|attach|connect)\b[^.;:]{0,30}?\b(?:legs?|arms?|ears?|"
    r"wings?|fins?|tails?|heads?|body|bodies|pieces?|parts?|halves|sides|feet|foot|paws?|petals?|other)\b|"
    r"(?:turn|flip)\b[^.;]{0,24}?\b(?:(?:inside|right side) out|right way (?:a?round|out))\b)[^.;:]{0,40}\W*$",
    re.I,
)
# What a line that begins with such an asking can't be: the rest of a round
_ASKED = frozenset(["fasten", "stuff", "eyes", "tail", "hold", "close", "weave", "sew", "embroider", "pin"])

# "Do not turn. Work in the round from here.": of all that comes, and no part of the row above
_STAYS = re.compile(
    r"do(?: not|n'?t) turn(?: the work)?[.;,]? (?:and |but )?(?:now |then )?(?:work|continue|go)\b(?! \d)"
)
# "Ch 1, turn." on a line of its own: the end of the row above
_TURNS = re.compile(
    r"\s*(?:and )?(?:(?:ch(?:ain)?\.? ?\d|\d ?ch(?:ain)?)\b\W*(?:and |then )?)?turn(?: the)?(?: work)?\W*$"
)
# ... and of a round that ends in a stitch or its amount: "10X / flatten, sl st closed"
_WHOLE_BODY = re.compile(r"^[A-Z]$|\d ?(?:[A-Z]|[a-z]{1,4})$|(?:[x*] ?|\b(?:sc|dc|hdc) )\d{1,3}$|\b\d{1,3}$")
# "sc in every stitch", "4 dec"; and what talk in small letters begins with
_ENDS_WHOLE = re.compile(
    r"(?:\b(?:st|sts|stitch|stitches|around|round|across|each|every|all|times|plain|even|total|twice|ring)|"
    r"\b\d{1,3} ?(?:sc|inc|dec|hdc|dc)|\d)\W*$",
    re.I,
)
_TALKS = re.compile(
    r"(?:(?:and |so |but )?(?:now|here|it|it's|its|he|she|this|that|that's|thats|these|they|there|i|i'm|we|you|you'll|"
    r"looks?)\b(?! (?:\d|round\b|row\b))|"
    r"(?:the|his|her|your) [a-z' ]{2,24}? (?:is|are|gets?|starts?|begins?|looks?|goes|will|should|narrows|grows|"
    r"becomes|comes)\b|(?:(?:the )?same |a |long )*tail\b)"
)
# "sc around / pop the eye through, fasten off": what is asked on a line of its own below a round without a count
_ASKED_BELOW = _ASKED | {"other", "shape", "colour"}


_BRIEF = 12  # letters of a line that is one
# Of a yarn: in order, or the first of its colour; "-- A --", "[B]", "C2:"
_LETTER = re.compile(r"[-=~*(\[ ]*(?:(?P<ordered>[A-H])|[WGRYNP]|C\d)\W*")

# Work in numbers, and the count it comes to
_SUMMED = re.compile(r"\s*[\d(\[][^=]*(?:\s-|=|[(\[])\s*\d{1,3}\s*[)\]]?\s*$")


# "2nd: twice in each (12)", "3rd: straight", "8th: miss every 3rd": work that names no stitch
_NO_STITCH = re.compile(
    r"\s*(?:twice in|(?:miss|skip) (?:every|each)|straight|plain|even)\b(?! (?:yarn|colou?r))", re.I
)
_OF_LENGTH = re.compile(r"(?:mm|cm|m|g|oz)\b")
_PLAIN_COUNT = re.compile(r"\s*\d{1,3} (?:each|all|again|plain|around|every (?:round|rnd|row))\W*", re.I)


_CHANGES_TO = re.compile(r"(?:change|switch|swap)(?: back)? to (?:the )?[a-z]{2,12}(?: [a-z]{2,12})?[ .!]*$", re.I)

_SLIPS = re.compile(r"\b(?:sl|ss|slst|slip)\b|\bto (?:the )?(?:first|last|top|start|beginning)\b")

# "Straight arm (6 pieces)", "Plain arm - make 2"
_ASKS_FOR_COPIES = re.compile(r"\bmake\b|\bx\s*\d+\s*[)\]]?\s*$|\b\d{1,2} ?(?:pieces?|pcs?|copies)\b", re.I)


class GoingOn(Broken, ByLabel, ColourLines, Unlabelled):
    """What stands before a line, and what it makes of it."""

    def spaced_number(self, at: int, end: int) -> Label | None:
        """ "1 6 sc in MR", "2 inc x 6": numbers with nothing but a space behind, once two numbers began such a list."""
        match = _SPACED.match(self.text, at - (at > 0 and self.text[at - 1] == "#"), end)
        if not match or self.section in ("materials", "abbreviations", "gauge", "hook", "yarn"):
            return None
        n = int(match["n"])
        rest = self.text[match.end() : end]
        begins = n == 1 and (match["mark"] or match["next"].isdecimal() or self._ring_of_list(rest, end))
        begins = begins or (n == 1 and match["to"] == "-" and self._next_of_list(int(match["last"]), rest, end))
        listed = match["last"] and int(match["last"]) > n and self._numbered_courses()  # "7-12 sc all" behind "6- ..."
        follows = (self.spaced or listed) and n == self.last_number + 1
        if not (begins or follows) or (not follows and match["to"] and match["to"].isalpha() and not match["mark"]):
            return None
        told = alone.ring(rest) or (follows and (references.EVEN.match(rest) or ONLY_COUNT.match(rest)))
        told = told or (follows and references.REFERENCE.match(rest))  # "3-10 same"
        told = told or (follows and self.spaced and alone.counted(rest))  # "3 blo even = 12"
        told = told or (follows and self.spaced and _PLAIN_COUNT.fullmatch(rest))  # "8-12 24 each"
        told = told or (follows and self.spaced and self._next_of_list(int(match["last"] or n), rest, end))
        if not told and not self.stitchy(match.end(), end):
            return None
        self.spaced = self.spaced or not listed
        last = max(n, min(int(match["last"] or n), n + 500))
        if match["to"] not in (None, "-", "to", "thru", "through") and last > n:
            return Label(match.start(), match.end(), [n, last], None, explicit=False)
        return Label(match.start(), match.end(), list(range(n, last + 1)), None, explicit=False)

    def _next_of_list(self, n: int, rest: str, end: int) -> bool:
        """ "05 to 12 x24" in front of "13 ...", "14 stuff, (x a)6 (12)": the list goes on with it."""
        if not re.search(r"\d", rest) or _OF_LENGTH.match(rest):
            return False
        following = self.line_after((self.text.rfind("\n", 0, end) + 1, end))
        after = _SPACED.match(self.text, *following) if following is not None else None
        return (after is not None and int(after["n"]) == n + 1) or re.search(r"\(\d{1,3}\)\W*$", rest) is not None

    def between_spaced(self, following: tuple[int, int] | None) -> bool:
        """ "eyes 8mm btw 6+7" in front of "10 (2, dec) x 6", behind 9 in such a list: no heading, whatever it says."""
        after = _SPACED.match(self.text, *following) if following is not None and self.spaced else None
        if after is None or not self.last_number or int(after["n"]) != self.last_number + 1:
            return False
        return following is not None and self.stitchy(after.end(), following[1])

    def _ring_of_list(self, rest: str, end: int) -> bool:
        """ "1 mr 6" in front of "2 inc x 6": a first round, and no amount of rings."""
        following = self.line_after((self.text.rfind("\n", 0, end) + 1, end))
        if following is None or not alone.ring(rest):
            return False
        after = _SPACED.match(self.text, *following)
        return after is not None and after["n"] == "2" and self.stitchy(after.end(), following[1])

    def _ringed(self, at: int, end: int) -> bool:
        """Is a ring named here, by its name or by the text's own: "6x into SH" behind "SH: magic ring"?"""
        if _RINGED.search(self.text, at, end):
            return True
        return bool(self.rings) and not self.rings.isdisjoint(re.findall(r"[a-z]+", self.text[at:end].lower()))

    def _in_its_names(self, at: int, end: int) -> bool:
        """ "1: 6t" below "t = sc; w = inc": an amount of what the list explains, which no list explains itself with."""
        told = re.match(r"\s*\d{1,3} ?(?P<name>[A-Za-z]{1,4})\b", self.text[at:end])
        if told is None or told["name"].lower() not in {name.lower() for name in self.out.abbreviations}:
            return False
        following = self.line_after((self.text.rfind("\n", 0, end) + 1, end))
        after = re.match(r"\s*2 ?[-.:)]", self.text[slice(*following)]) if following is not None else None
        return after is not None and following is not None and self.stitchy(following[0] + after.end(), following[1])

    def bare_is_label(self, label: Label, end: int) -> bool:
        """A number at the start of a line is a label where courses go on from it and stitches follow."""
        begins = label.numbers[0] == 1 and self.stitchy(label.end, end)
        if self.section == "abbreviations" and not (
            begins and (self._ringed(label.end, end) or self._in_its_names(label.end, end))
        ):
            return False
        if self.section in ("materials", "gauge", "hook", "yarn") and not begins:
            return False
        rest = self.text[label.end : end]
        if not rest.strip() or self.numbered_name(label.end, end):
            return False
        if self.section == "notes" and ABOUT_CHAINS.search(rest.lower()):
            return False  # "1. Beginning ch 2 does not count as a hdc."
        if re.match(r"\s*(?:mm|cm|g|m|oz|yards?|skeins?|balls?)\b", rest, re.I):
            return False
        if self.section == "assembly" and classify(rest.strip()) in ("sew", "embroider", "eyes", "stuff"):
            return False
        if self.section == "assembly" and classify(SENTENCE_END.split(rest)[0]) in _PUT_TOGETHER:
            return False  # "2. Sew the shell to R8-R18 of the body."
        n = label.numbers[0]
        expected = (
            self.piece is not None
            and self.last_number
            and n in (self.last_number + 1, self.last_number + 2, self.last_number)
        )
        if expected and self.section == "pattern" and references.EVEN.match(rest) is not None:
            return True  # "5th-7th: plain (24)"
        if self.piece is not None and self.signed(label) and _NO_STITCH.match(rest):
            worked = self.last_number or sum(isinstance(i, RawCourse) for i in self.piece.items)
            return bool(worked) and n == worked + 1
        goes_on = n in self._next_numbers() and self.section == "pattern" and self._numbered_courses()
        bare = (ONLY_COUNT, _ONLY_NUMBERS, _IN_LETTERS, _ONLY_CHANGE)
        if self.next_in_number(label) and (any(kind.match(rest) for kind in bare) or references.REFERENCE.match(rest)):
            return True  # "6-8. 24" behind "Rnd 5. ..."
        if goes_on and (any(kind.match(rest) for kind in bare) or _BEGINS_BARE.match(rest)):
            return True
        if goes_on and self._in_sequence(label, end):
            return True
        if self._first_by_count(label, rest, end) or self._from_piece_before(label, rest):
            return True
        if n == 1 and (RING_BY_COUNT.match(rest) or _RING_AND_WORK.match(rest)):
            return True
        if n == 1 and self.section == "pattern" and references.OF_PIECE.match(rest):
            return True  # "1-3. Work as Rounds 1 to 3 of the Hull."
        if self.stitchy(label.end, end):
            return True
        return bool(
            expected
            and self.section == "pattern"
            and re.match(
                r"\s*(?:rep|repeat|work|same|as|change|with|sew|stuff|fasten|join|continue|turn|fold|press|flatten|"
                r"pinch|close)\b",
                rest,
                re.I,
            )
            and self._numbered_courses()
        )

    def _from_piece_before(self, label: Label, rest: str) -> bool:
        """ "joining the tail" above "5) 10 around one, 10 around two - 20": rounds that go on in the piece before."""
        if not self._under_heading() or len(self.out.pieces) < 2 or not _SUMMED.match(rest):
            return False
        last = next((i.label for i in reversed(self.out.pieces[-2].items) if isinstance(i, RawCourse)), None)
        return last is not None and not last.explicit and last.numbers[-1:] == [label.numbers[0] - 1]

    def counts_on(self, start: int, end: int) -> bool:
        """ "3-4) 12" behind "2) ...": the next of courses that are only numbered."""
        label = self.number_at(start, end)
        return label is not None and self.bare_is_label(label, end)

    def next_in_number(self, label: Label) -> bool:
        """ "6-8." behind round 5, whatever label that one has: whatever stands here, it stands where a course does."""
        goes_on = self.piece is not None and self.last_number and self.section == "pattern"
        return bool(goes_on and label.numbers[:1] == [self.last_number + 1] and self.signed(label))

    def signed(self, label: Label) -> bool:
        """Stands the sign of a label behind its number: "6.", "6-8:"?"""
        return _SIGNED.search(self.text, label.start, label.end) is not None

    def _in_sequence(self, label: Label, end: int) -> bool:
        """ "3: around (12)" behind "2: ...": the next course whatever it says, so that what can't be read is told."""
        if not self.signed(label) or self._names_part(label.end, end):
            return False
        if sections.section_of(self.text[label.end : end]) is not None:
            return False  # "3. Finishing: ..."
        if self.course is None:
            return True
        body = self.text[max(self.course.start, self.course.end - TAIL) : self.course.end].rstrip()
        led = _LEADS_ON.search(body[-LAST_WORD:])
        return self._balanced(self.course) and body[-1:] not in ",;(" and (led is None or led[0].lower() == "around")

    def _numbered_courses(self) -> bool:
        items = self.piece.items if self.piece is not None else []
        return any(isinstance(i, RawCourse) and i.label is not None and not i.label.explicit for i in items)

    def _joins_part(self, at: int, end: int) -> bool:
        """ "Join to the second leg.", "Turn the work inside out.": a job of its own, and no join or turn of the row."""
        text = self.text[at:end]
        if not _JOBS_ALONE.match(text) or classify(text) not in ("join", "shape", "turn", "other"):
            return False
        return not any(t.kind == "stitch" and t.key not in ("join", "turn", "sl st") for t in self.tokens(text))

    def _names_part(self, at: int, end: int) -> bool:
        """ "... sc around / Body / Rnd 1: ...": a part's name between two rounds, however the first of them ends."""
        text = self.text[at:end]
        if not text[:1].isupper() or len(text.split()) > _LONGEST_NAME or self.stitchy(at, end):
            return False
        if headings.PARTS.isdisjoint(re.findall(r"[a-z]+", text.lower())):
            return False
        head = headings.heading(text, False, True)
        if head is None or not set(re.findall(r"[a-z]+", head[0].lower())) & headings.PARTS:
            return False
        following = self.line_after((self.text.rfind("\n", 0, at) + 1, end))
        return following is not None and self.begins(*following)

    def _wrapped(self, body: str, at: int, end: int) -> bool:
        """Did the page, and not the designer, end the line before this one: a labelled course without its count yet?"""
        if self.course is None or self.course.label is None or PRINTED.search(body):
            return False
        if not self.fills(self.course.end, at, end):
            return False
        return self.stitchy(at, end) or _CLOSES_ROW.match(self.text, at, end) is not None

    def fills(self, stop: int, at: int, end: int) -> bool:
        """Is the line that ends at `stop` so long that the first word of the line at `at` had no room in it?"""
        if not self.margin:
            lengths = sorted(len(self.text[a:b].rstrip()) for a, b in self.used_lines if b > a)
            full = sum(n > lengths[-1] - _RAGGED for n in lengths) if lengths else 0
            even = full >= _FULL_LINES and full * 6 >= len(lengths) and lengths[-1] <= _WIDEST_PAGE
            self.margin = lengths[-1] if even else _WIDEST_PAGE * 10
        word = (self.text[at:end].split() or [""])[0]
        return stop - self.text.rfind("\n", 0, stop) + len(word) > self.margin

    def _cell(self, at: int) -> bool:
        """Is a line a cell of a table that stands beside the course before it?"""
        parted = self.text.rfind("\n", 0, at)
        return parted >= 0 and self.page.original[self.page.back(parted) : self.page.back(parted) + 1] == "|"

    def continues(self, at: int, end: int) -> bool:
        """Is this line the rest of the course before it?"""
        assert self.course is not None
        if self.course.end - self.course.start > LONGEST_BODY:
            return False
        if not self._balanced(self.course):
            return True
        if self._cell(at):
            return False
        if self.names_next_part(at, end):
            return False
        body = self.text[max(self.course.start, self.course.end - TAIL) : self.course.end].rstrip()
        first = self.text[at : at + 1]
        if first.isupper() and self.named_in_its_yarn(at, end):
            return False
        low = self.text[at:end].lower()
        if self.course.label is None and self.ends_here(body, low, at, end):
            return False
        if self.plain_above(body, low):
            return False
        if first.islower() and _AMOUNT_ALONE.search(body) and self.stitchy(at, end):
            return True
        if body[-1:] not in ",(" and first.isupper() and _CHANGES_TO.match(self.text, at, end):
            return False  # whatever the yarn is called: "Change to shell."
        joins = first == "J" and body[-1:] not in ",(" and not _SLIPS.search(low)
        if joins and (colour_talk(self.text[at:end], self.yarns()) or classify(self.text[at:end]) == "colour"):
            return False  # "Join red.": no slip stitch
        if body[-1:] not in ",(" and not self.stitchy(at, end) and colour_talk(self.text[at:end], self.yarns()):
            return False
        if first.islower() and _TOLD_COUNT.search(body) and only_a_yarn(self.text[at:end], self.yarns()):
            return False  # "... x 6; 36 / cranberry": the yarn of the next one
        near = max(0, len(body) - LONGEST_PRINTED)
        if _COMMA_COUNT.search(body, near) and not self.stitchy(at, end) and not _GOES_ON_WITH.match(low):
            return False  # "*1 sc, 1 dec* 3x, 6 / same yarn, keep going for the tail fin"
        if _OTHER_COURSE.match(low) or growth.growth(self.text[at:end], False) is not None:
            return False
        if body[-1:] not in ",(" and first == "R" and self._repeats(at, end):
            return False
        if body[-1:] not in ",(" and first.isupper() and howlong.of_its_own(self.text[at:end]):
            return False
        if body[-1:] not in ",(" and first.isupper() and classify(SENTENCE_END.split(self.text[at:end])[0]) in _ASKED:
            return False
        if body[-1:] not in ",(" and first.isupper() and self._joins_part(at, end):
            return False
        if first == "D" and body[-1:] not in ",(" and _STAYS.match(low):
            return False
        if _TURNS.match(low) or (first.islower() and _MID_SENTENCE.match(low)):
            return True
        if body[-1:] not in ".!:)]}" and self.course.label is not None and _PLACE_FIRST.match(low):
            return True
        if self.course.label is not None and _AMOUNT_BEGUN.search(body) and first.islower():
            begins = self.tokens(self.text[at:end][:LAST_WORD])[:1]
            if begins and begins[0].kind == "stitch":
                return True  # "..., sc in next 6 ch, 3 / sc in last ch"
        side = OTHER_SIDE.match(low)
        if side is not None and re.search(r"\bch(?:ain)?s?\b|\bfoundation\b", side[0]) and self.stitchy(at, end):
            return True
        if body[-1:] not in ",;(-&+=*" and self._names_part(at, end):
            return False
        if self._talks_below(body, low, at, end):
            return False
        led = _LEADS_ON.search(body[-LAST_WORD:])
        filled = led is not None and led[0].lower() in ("around", "each")
        if filled and (first.isupper() or self._only_asks(at, end)):
            led = None
        if led is not None and led[0].lower() in ("last", "next", "each") and CUTS_OFF.match(low):
            led = None  # "... in last" and then "fasten off n sew on"
        if body[-1:] in ",;(-&+=*" or led:
            return True
        if BRACKETED_COUNT.match(low) or re.match(r"[-=]\s*\d+", low):
            return True
        if not body or (_COUNT_BELOW.match(low) and not self.blank):
            return True
        if (
            body[-1:] not in ",("
            and not self.stitchy(at, end)
            and classify(SENTENCE_END.split(self.text[at:end])[0]) is not None
        ):
            return False
        closed = body[-1:] in ".!)]}" or (COUNTED.search(body, near) and not PLACE_AT_END.search(body, near))
        if closed and self._wrapped(body, at, end):
            return True
        if first.islower() and not closed:
            whole = _WHOLE_BODY.search(body, near) is not None
            if not whole and _ENDS_WHOLE.search(body[-LAST_WORD:]):  # "same again, fasten off", but no closing slip
                whole = all(t.kind != "stitch" for t in self.tokens(self.text[at:end]))
            return self.course.label is None or not (whole and self._only_asks(at, end))
        if self.stitchy(at, end) and not closed and not headings.heading(self.text[at:end], False, True):
            return True
        if (
            body[-1:] in ")]"
            and not re.search(r"[(\[]\s*\d+[^()\[\]]*[)\]]$", body)
            and self.stitchy(at, end)
            and (first.islower() or first.isdecimal() or first in "([*")
        ):
            return True
        if (
            body[-1:] == "."
            and first.islower()
            and self.stitchy(at, end)
            and not re.search(r"[(\[]\s*\d+[^()\[\]]*[)\]]\.?$", body)
        ):
            return True
        return bool(re.match(r"(?:x\s*\d|\d+\s*times|rep(?:eat)?\b.*\*|around\b|times\b)", low))

    def _talks_below(self, body: str, low: str, at: int, end: int) -> bool:
        """ "sc in every stitch / now the nose part gets smaller": a round that is whole, and talk in small letters."""
        whole = self.course is not None and self.course.label is not None and _ENDS_WHOLE.search(body[-LAST_WORD:])
        return bool(whole) and _TALKS.match(low) is not None and not self.stitchy(at, end)

    def _repeats(self, at: int, end: int) -> bool:
        """ "Repeat rounds 5 and 6 three times, ..." below stitches: courses of its own, though no label says so."""
        told = references.REFERENCE.match(self.text, at, end) if self.text.startswith("Rep", at) else None
        named = told is not None and any(told[group] for group in ("numbers", "ordinal", "last"))
        return named and self.course is not None and self.stitchy(self.course.start, self.course.end)

    def _only_asks(self, at: int, end: int) -> bool:
        """ "sc around / stuff, fasten off": nothing of the round, though it has no count and no full stop."""
        clauses = re.split(r"[,.;]|\band\b", self.text[at:end])
        first = any(classify(clause) in _ASKED_BELOW for clause in clauses[:1])
        return first or (not self.stitchy(at, end) and classify("".join(clauses[1:2])) in _ASKED_BELOW)

    def courses_soon(self, index: int) -> bool:
        """Does any course stand in the three lines below: "Stuff the cap" above "Stem - continue in white"?"""
        told = [line for line in self.used_lines[index + 1 : index + 7] if self.text[slice(*line)].strip()]
        return any(self.opens_course(*line) for line in told[:3])

    def leads_soon(self, index: int) -> bool:
        """Does a course follow within three lines, with only a colour, a note or copies in between?"""
        between = 0
        for start, end in self.used_lines[index + 1 : index + 10]:
            line = self.text[start:end]
            if not line.strip() or self.furniture(start, end):
                continue
            if self.opens_course(start, end) or self.founds(start, end, self.line_after((start, end))):
                return self.begins(start, end)
            between += 1
            if between > 2 or (sections.section_of(line) is not None and not re.match(r"\W*(?:colou?r|"
            r"yarn|hook)", line, re.I)):
                return False
            shade = re.fullmatch(r"\W*[(\[][^()\[\]\d]{3,40}[)\]]\W*", line)
            alone = is_colour(line) or worked_in(line.lower().strip(" *_.:"))  # "Made in brown."
            if shade is not None or alone or only_a_yarn(line, self.yarns()):
                continue
            if not _BETWEEN.match(line) and (headings.heading(line, True, True) is not None or len(line) > 160):
                return False
        return False

    def letter_of_yarn(self, text: str, following: tuple[int, int] | None) -> bool:
        """ "Arms (make two) / B / Round 1 ...": the letter of a yarn below a part's name."""
        letter = _LETTER.fullmatch(text) if len(text) < _BRIEF else None
        if letter is None:
            return False
        if (letter["ordered"] or "C" in text or self.calls_its_yarn(text)) and self.goes_on(following):
            return True  # "B" between two rounds of it
        headed = self.piece is not None and self.piece.headed and not self.piece.items
        return headed and following is not None and self.begins(*following)

    def calls_its_yarn(self, text: str) -> bool:
        """ "A:", where the text has given that letter to a yarn."""
        letter = _LETTER.fullmatch(text) if len(text) < _BRIEF else None
        named = letter[0].strip(" -=~*()[].:") if letter is not None else ""
        if not named:
            return False
        told = (*self.told_yarns(), self.out.title)
        return named.lower() in self.yarns() or is_colour(named) or is_yarn(named, told)

    def letter_above(self, line: tuple[int, int]) -> tuple[int, int] | None:
        """The first course behind a line that is nothing but the letter of a yarn; None for any other line."""
        lettered = _LETTER.fullmatch(self.text[line[0] : line[1]].strip()) is not None
        after = self.line_after(line) if lettered else None
        return after if after is not None and self.opens_course(*after) and self.begins(*after) else None

    def begins(self, start: int, end: int) -> bool:
        """Is the course of this line the first of a piece, by its label?"""
        begin = BULLET.match(self.text, start, end)
        at = self.past_shade(begin.end() if begin else start, end)
        label = self.label_at(at, end) or self.number_at(at, end)
        return label is None or not label.numbers or label.numbers[0] <= 1

    def _works_stitches(self, text: str, at: int, end: int) -> bool:
        """ "6 sc in magic ring (6)" under a heading is a course, whatever its bracket looks like."""
        if alone.ring(text) or alone.short_form(text):
            return self._opens_plainly(at, end)
        if self.named_in_its_yarn(at, end):
            return False
        worked = _MAKES_STITCHES.search(text)
        if worked and any(t.kind == "stitch" for t in self.tokens(worked["what"])):
            return True
        numbered = _NUMBERED.match(text)
        if numbered and self.numbered_name(at + numbered.end(), end, goes_on=numbered["step"] is not None):
            return False
        if not re.search(r"\d", text) or _ASKS_FOR_COPIES.search(text) or text.isupper():
            return False
        return self._opens_plainly(at, end)
