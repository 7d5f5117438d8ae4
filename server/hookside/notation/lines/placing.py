"""Where a line of work goes once it is known: into a course, a piece."""

from __future__ import annotations

import re
from itertools import islice

from hookside.notation.askings.colournames import is_colour, only_shades, worked_in
from hookside.notation.askings.colourtalk import colour_talk
from hookside.notation.askings.kinds import classify
from hookside.notation.labels import within
from hookside.notation.labels.label import Label, numbers_of
from hookside.notation.labels.patterns import COURSE
from hookside.notation.labels.references import LIKE_THEN, SAME_THEN
from hookside.notation.lines import furniture, sections
from hookside.notation.lines.beside import Beside
from hookside.notation.lines.copies.asked import copies
from hookside.notation.lines.heads import headings
from hookside.notation.lines.heads.inline import Tail, heading_tail
from hookside.notation.lines.keys.definitions import is_definition, lists_several
from hookside.notation.lines.layout import (
    MOST_COURSES,
    MOST_PIECES,
    RawCourse,
    RawPiece,
    RawText,
    spans_of_sentences,
)
from hookside.notation.vocabulary import SEVERAL, SEVERAL_WORDS, number_of

_GROUND_ROW = re.compile(r"(?:foundation|set[ -]?up|base|beginning|starting)\b", re.I)
_SO_MANY_ROUNDS = re.compile(r"(?P<n>\d{1,2}) ?(?:rnds|rounds|rows|rds)\b", re.I)
# ... behind a label and its dash
_FROM_SO_MANY = re.compile(r"\d{1,3} ?- ?(?P<many>\d{1,2}) ?(?:rnds|rounds|rows|rds)\b", re.I)

_MADE_FIRST = re.compile(
    rf"\W*(?:make|work|crochet) (?P<n>{SEVERAL})"
    r"(?: of (?:them|these)| alike| the same)?\.\s+(?=[A-Z])",
    re.I,
)
# "Begin by working 6 sc in a magic ring (6 sc).": a first round told in a sentence
_INTO_RING = re.compile(
    r"(?:(?:to )?(?:begin|start)\w*,? (?:off )?(?:by |with )?)?(?:(?:work|mak|crochet)(?:e|ing)? )?\d{1,2} "
    r"(?:sc|dc|single crochets?|double crochets?) (?:in|into) (?:a|the|your)? ?(?:magic|adjustable|sliding)? ?"
    r"(?:ring|circle|loop)\b|"
    r"\W*(?:commenc|begin|start)\w* (?:with )?(?:2|3|two|three) ch(?:ain)?s?\.?,? (?:and |then )*(?:work(?:ing)? )?"
    r"\d{1,2} (?:sc|dc|[ds]\.c\.|single crochets?|double crochets?) (?:in|into) (?:the )?(?:first|1st|second|2nd)\b",
    re.I,
)

# "Begin as for the body and work the first three rounds. 4th round: ..."
_FIRST_OF = re.compile(
    r"\W*(?:begin|start|commence|work)\w* (?:exactly )?"
    r"(?P<as>(?:as|like|the same as) (?:for )?(?:the )?[a-z][a-z ]{1,30}?)"
    r"(?:,? (?:and|by) |, )(?:(?:work|do|mak|crochet)(?:e|ing)? )?(?:for )?(?:the |its )?first "
    rf"(?P<n>\d{{1,2}}|{SEVERAL_WORDS}) (?:rounds|rnds|rows)\b",
    re.I,
)
# "Using navy, work the first 5 rounds as given for the head (30 sts.).": the same, the other way round
FIRST_AS = re.compile(
    r"(?:^|(?<=[.!?:] ))(?P<lead>(?:using|with|in) [^.,;:()\n\d]{3,30},? )?(?:now )?"
    r"(?:work|make|crochet|follow|repeat|do) (?:the |its )?first "
    rf"(?P<n>\d{{1,2}}|{SEVERAL_WORDS}) (?:rounds|rnds|rows) "
    r"(?P<as>(?:exactly )?(?:as|of|like)(?: (?:given|described|written|worked|set out))?(?: (?:for|in|on|of))? "
    r"(?:the )?[a-z][a-z ]{1,30}?)(?=\s*[(\[.,;=-]|$)",
    re.I,
)

# "Turn and work in rows.", "Now continue in rounds"
_GOES_OVER = re.compile(
    r"\b(?:work|go(?:es)? on|continue|carry on|crochet|proceed|on)(?:ing)? (?:now |back and forth )?in "
    r"(?:rows|rounds)\b",
    re.I,
)
# "Octopus coin purse: I wrote this on the train.": what a whole text in one line begins with
_NAME_AND_TALK = re.compile(r"\W*(?P<name>[A-Z][\w' -]{2,40}):\s+(?=(?:I|I'm|we|this|these|here|my|a|the)\b)", re.I)


_BUT = re.compile(r"\b(?:but|except|only)\b", re.I)
# "For the mouth: R4: ...", where the rounds go on: what its round is for, and no part
_FOR_THE = re.compile(
    r"\W{0,3}(?:now )?(?:for|to (?:make|form|shape)) (?:the|his|her|its|an?) [a-z ]{2,24}\W{0,3}", re.I
)
_YARN_LETTER = re.compile(r"\W*(?:[A-H]|MC|CC ?\d?)\W*")
# "times (12). Rnd 8: ...", below "Rnd 7: (sc, dec) 6": a paragraph that its page cut in the middle of a round
_REST_OF_ROUND = re.compile(
    r"(?:times?|a?round|across|sts?|stitch(?:es)?|more|together|from|of|in|into|each|every|next|and|to|last|twice|once|"
    r"sc|dc|hdc|htr|tr|inc|dec|ring|ch|hook)\b[^A-Z:]*[.)\]]\s+"
)
# "B Rnd 3:", at the start of a line
_LETTERED = re.compile(rf"^\W*(?P<letter>[A-H])\W{{1,3}}{COURSE}\.? ?(?P<n>\d{{1,3}})", re.I | re.M)


def _plain_name(words: str) -> str:
    """ "Legs (make 2)" -> "leg"."""
    bare = re.sub(r"[(\[].*?[)\]]|[^a-z ]", " ", words.lower())
    return " ".join(word.rstrip("s") for word in bare.split() if word not in ("the", "each", "both"))
_MOST_IN_BODY = 300  # stitches that a body begins with, where its label and a dash look like a range


# The yarn of a part on the line below its name, by a colour and little else
_YARN_LED = re.compile(
    r"(?:(?:all|in|with|using|the) ){0,2}(?P<shade>[a-z]{3,12}(?: [a-z]{3,12})?)(?: (?:yarn|wool|cotton|thread))?"
    r"(?:[.]?$|, (?:start(?:s|ing)?|begin(?:s|ning)?|worked|made|crocheted)\b[^\d]{0,40}$|"
    r", (?:in (?:rounds|rows|a spiral|the round)|(?:\d{1,3} )?(?:rounds|rows|rnds)"
    r"(?: in (?:all|total)| altogether)?)\.?$)",
    re.I,
)


def yarn_led(text: str) -> bool:
    """ "All light green.", "brown, starts at the snout": a line that is a colour, or little else."""
    led = _YARN_LED.match(text)
    return (led is not None and is_colour(led["shade"])) or worked_in(text.lower().strip(" *_.:"))


class Placing(Beside):
    """Puts courses, headings and sentences where they belong."""

    def meant(self, section: str, text: str) -> str:
        """ "Construction" tells how it is built in front of the pieces, and how to put them together behind them."""
        built = section == "notes" and self.any_course and re.match(r"\W*construction\b", text, re.I)
        return "assembly" if built else section

    def _coloured(self, following: tuple[int, int] | None) -> bool:
        """Is the next line a colour and nothing else: "With white:"?"""
        if following is None:
            return False
        told = self.text[following[0] : following[1]]
        return classify(told) == "colour" or only_shades(told)

    def _shade_below(self, text: str) -> bool:
        """ "Wing (2x) / Petrol / Rnd 1: ...": one plain word below a part's name is its yarn, whatever the shade is."""
        text = text.strip(" *_~()[]")
        if self.piece is None or not self._under_heading():
            return False
        if yarn_led(text):
            return True
        if not text.isalpha() or text.isupper():
            return False
        named = set(re.findall(r"[a-z]+", self.piece.name.lower())) & headings.PARTS
        return bool(named or self.piece.make > 1) and text.strip().lower().rstrip("s") not in headings.PARTS

    def ensure_piece(self, at: int) -> RawPiece:
        if self.piece is None:
            self.piece = RawPiece("", 1, at, headed=False)
            self.out.pieces.append(self.piece)
        return self.piece

    def labelled(self, label: Label, end: int) -> str:
        if label.relative == 1 and not self.last_number and _GROUND_ROW.match(self.text, label.start):
            label.numbers, label.relative = [0], 0
        if label.named and label.numbers and label.numbers[0] <= self.last_number:
            label.numbers, label.relative = [], len(label.numbers)  # the second "Dec rnd", and no round 2
        if label.numbers[:1] == [2] and (ground := self.ground_row()) is not None:
            ground.numbers = [1]
        if self.counts_rounds(label, end):
            label.numbers, label.relative = [], label.numbers[0]
        elif len(label.numbers) > 1 and (many := self.so_many_from(label, end)):
            label.numbers = list(range(label.numbers[0], label.numbers[0] + many))
        rest = within.within(self.text, label.end, end)
        if not rest and not label.explicit:
            rest = self.numbers_within(label, end)
        elif rest and rest[-1].numbers:
            rest = [*rest, *self.numbers_within(rest[-1], end)]  # "Rnd 3. ... (18) 4-6. Sc around (18) 7. ..."
        here = label
        for nxt in [*rest, None]:
            stop = nxt.start if nxt is not None else end
            tail = Tail(stop)
            if nxt is not None and (not nxt.numbers or nxt.numbers[0] <= (here.numbers[-1] if here.numbers else 0)):
                tail = heading_tail(self.text, here.end, stop, nxt.numbers[:1] == [1])
                stop = tail.cut
            self.add_course(here, here.end, self.without_stroke(here.end, stop) if nxt is not None else stop)
            if nxt is None or self.out.full:
                break
            self.begin_piece(tail, nxt.start)
            here = nxt
        return "course"

    def inside(self, at: int, end: int) -> list[Label]:
        """Labels in the middle of a line: "... Rnd 1: ...", or the first of rounds that go by their numbers alone."""
        if self.parted[:2] != (at, end):  # a whole text in one line is asked twice
            self.parted = at, end, within.within(self.text, at, end)
        found = self.parted[2]
        if found or end - at <= 60 or self.section in ("materials", "abbreviations"):
            return found
        number = within.FIRST_NUMBER.search(self.text, at, end)
        if number and self.stitchy(number.end(), min(end, number.end() + 60)):
            return [Label(number.start("n"), number.end(), [1], None, explicit=False)]
        return []

    def made_first(self, at: int, end: int) -> int | None:
        """ "TENTACLES / Make two. In moss, make a slip ring.": its copies in front of its work -> where that begins."""
        piece = self.piece
        if piece is None or piece.make != 1 or any(isinstance(i, RawCourse) for i in piece.items):
            return None
        told = _MADE_FIRST.match(self.text, at, end)
        if told is None:
            return None
        piece.make = number_of(told["n"])
        return told.end()

    def begin_piece(self, tail: Tail, stop: int) -> None:
        """The piece that is named inside a line, its color, what is told of it, and its chains; up to `stop`."""
        if tail.name is not None:
            self.new_piece(*tail.name, tail.cut)
            stop = min([stop, *(spot[0] for spot in (tail.talk, tail.chains) if spot is not None)])
            self.put_told(tail.cut, stop)
        if tail.talk is not None and self.text[slice(*tail.talk)].strip():
            self.put_text(*tail.talk)
        if tail.chains is not None:
            self.foundation(*tail.chains)

    def ground_row(self) -> Label | None:
        """The label of a "foundation row" that is all the piece has so far: with row 2 behind it, it is row 1."""
        items = self.piece.items if self.piece is not None else []
        courses = list(islice((i for i in items if isinstance(i, RawCourse) and not i.foundation), 2))
        return courses[0].label if len(courses) == 1 and courses[0].label and courses[0].label.numbers == [0] else None

    def without_stroke(self, at: int, stop: int) -> int:
        """ "r1 mr6 / r2 inc x6 12 / r3 ...": where a round ends whose label a stroke parts from the next one."""
        body = self.text[at:stop].rstrip()
        return at + len(body.rstrip("/|")) if body[-1:] in ("/", "|") and body.count(body[-1]) == 1 else stop

    def counts_rounds(self, label: Label, end: int) -> bool:
        """ "4 rnds: sc around" behind round 4, or in front of round 9: four rounds, and none of that number."""
        told = _SO_MANY_ROUNDS.match(self.text, label.start, label.end)
        if told is None or label.numbers != [n := int(told["n"])]:
            return False
        following = self.line_after((label.start, end))
        after = self.label_at(*following) if following is not None else None
        goes_on = after is not None and after.numbers[:1] == [self.last_number + n + 1]
        if n == self.last_number + 1:  # "5 rounds: 24" behind "R4: ...": five, where no other label is dressed so
            items = reversed(self.piece.items) if self.piece is not None else []
            before = next((i.label for i in items if isinstance(i, RawCourse)), None)
            dressed = before is not None and before.explicit and not _SO_MANY_ROUNDS.match(self.text, before.start)
            return dressed and n > 1 and (after is None or after.numbers[:1] != [n + 1])
        return bool(self.last_number) and (goes_on or 1 < n <= self.last_number)

    def so_many_from(self, label: Label, end: int) -> int:
        """ "3 - 6 rounds: sc" in front of "9 - ...": from round 3 so many, and no rounds 3 to 6; 0 for a range."""
        told = _FROM_SO_MANY.match(self.text, label.start, label.end)
        following = self.line_after((label.start, end)) if told is not None else None
        if told is None or following is None:
            return 0
        after = self.label_at(*following) or self.number_at(*following)
        many = int(told["many"])
        return many if after is not None and after.numbers[:1] == [label.numbers[0] + many] else 0

    def numbers_within(self, label: Label, end: int) -> list[Label]:
        """ "1. 6 sc in MR (6) 2. inc x 6 (12)": numbers that go up by one, each behind a full stop or a count."""
        found: list[Label] = []
        expected = label.numbers[0 if label.dash else -1] + 1
        sign = self.text[label.start : label.end].strip().lstrip("([#0123456789")
        for match in within.NUMBER_WITHIN.finditer(self.text, label.end, end):
            numbers = numbers_of(match["numbers"])
            near = max(label.end, match.start() - 60), match.start()
            if self.text.count("(", *near) > self.text.count(")", *near):
                continue  # "(sc in next 8) x 6"
            over = sign == ")" == match["stop"].strip() and expected > 1  # "... [9]. 16)": a number left out
            if numbers and (numbers[0] in (expected, 1) or (over and numbers[0] == expected + 1)):
                found.append(Label(match.start("numbers"), match.end(), numbers, None, explicit=False))
                expected = numbers[-1] + 1
        return found

    def add_course(self, label: Label, start: int, end: int) -> None:
        if not self.any_course or self.section != "assembly":
            self.section = "pattern"
        numbers = label.numbers
        if numbers:
            first = numbers[0]
            if (
                self.piece is not None
                and first == 1
                and self.last_number >= 1
                and any(isinstance(i, RawCourse) and i.label for i in self.piece.items)
                and not self.goes_over(label)
            ):
                founded = []
                while self._begins_the_next(self.piece.items[-1]):
                    founded.append(self.piece.items.pop())
                self.new_piece("", 1, label.start, headed=False)
                self.piece.items.extend(reversed(founded))
            elif (
                self.piece is not None
                and self.piece.assembly
                and first == 1
                and not any(isinstance(i, RawCourse) for i in self.piece.items)
            ):
                self.piece.assembly = False
            self.last_number = numbers[-1]
        elif label.relative:
            self.last_number += label.relative
        piece = self.ensure_piece(label.start)
        self.section = "pattern"
        course = RawCourse(label, start, end, label.kind)
        self.put_course(piece, course)
        self.course = course
        self.any_course = True

    def _begins_the_next(self, item: RawCourse | RawText) -> bool:
        """A chain, or the yarn of "C: R1: ...", right in front of a first round: of the part that begins there."""
        if isinstance(item, RawCourse):
            return item.foundation
        return item.job == "colour" or (item.job is None and classify(self.text[item.start : item.end]) == "colour")

    def goes_over(self, label: Label) -> bool:
        """ "Turn and work in rows. Row 1: ..." behind round 1: the same piece, whose rows are counted by themselves."""
        last = next((i for i in reversed(self.piece.items) if isinstance(i, RawCourse)), None) if self.piece else None
        if last is None or last.foundation or None in (last.kind, label.kind) or last.kind == label.kind:
            return False
        return bool(_GOES_OVER.search(self.text, last.start, label.start))

    def in_its_place(self, label: Label) -> bool:
        """ "Second leg: same, R5: (sc, dec) x 4" behind a first leg of five rounds: that one, and no sixth."""
        if not self._under_heading() or len(self.out.pieces) < 2:
            return False
        for piece in reversed(self.out.pieces[:-1]):
            there = {n for i in piece.items if isinstance(i, RawCourse) and i.label for n in i.label.numbers}
            if there:
                return set(label.numbers) <= there
        return False

    def glued(self, at: int, inside: list[Label], end: int, index: int) -> str:
        """A line whose first label stands in its middle: a heading glued to its course, or a whole text in one line."""
        before = self.text[at : inside[0].start]
        like = LIKE_THEN.fullmatch(before) if self.any_course and inside[0].numbers[:1] != [1] else None
        same = SAME_THEN.fullmatch(before) if like is None and self.any_course else None
        if same is not None and self.in_its_place(inside[0]):
            self.put_text(at, end)
            return "reference"
        like = like or (same if inside[0].numbers[:1] != [1] else None)
        if like is not None and _BUT.search(before, like.end("like")):
            self.put_text(at, end)  # "As ear 1, but R7: sc around": in place of that one's round 7
            return "reference"
        if like is not None:
            self.put_text(at + like.start("like"), at + like.end("like"))
            self.labelled(inside[0], end)
            return "course"
        if self.course is not None and not self.blank and _REST_OF_ROUND.fullmatch(before):
            self.course.end = at + len(before.rstrip())
            self.labelled(inside[0], end)
            return "course"
        if self.piece is not None and inside[0].numbers[:1] == [self.last_number + 1] and _FOR_THE.fullmatch(before):
            self.piece.items.append(RawText(at, at + len(before.rstrip(" :,-")), "other"))
            self.labelled(inside[0], end)
            return "course"
        if self.same_part(before, inside[0]):
            self.ensure_piece(at)
            if _YARN_LETTER.fullmatch(before):
                self.put_colour(at, inside[0].start)
            self.labelled(inside[0], end)
            return "course"
        cut, name, chains, talk = heading_tail(self.text, at, inside[0].start, inside[0].numbers[:1] == [1])
        if chains is not None:
            before = self.text[at : chains[0]]
            cut = min(cut, chains[0])
        if name is None:
            head = headings.heading(before.strip(), True, True)
            if head is not None and self.piece is not None and (is_colour(before) or colour_talk(before)):
                head = None  # "[Blue] Rnd 7:"
            if head is not None:
                name, cut = head, at
            elif self.piece is None and not self.any_course and self.begins_in(before):
                self.ensure_piece(at)  # "Start with red. Round 1: ..."
            elif not self.out.title and self.piece is None and not self.any_course and len(before.split()) <= 8:
                self.out.title = headings.tidy_name(before)
                cut = at
        if cut > at:
            self.loose(at, cut, inside[0].numbers[0] if name is None and inside[0].numbers else 0)
        self.begin_piece(Tail(cut, name, chains, talk), inside[0].start)
        self.labelled(inside[0], end)
        return "course"

    def same_part(self, before: str, label: Label) -> bool:
        """ "Leg R2: ...", "B Rnd 3: ...": the name of the part at hand, or the letter of a yarn, before a label that
        goes on from the one above."""
        if label.numbers[:1] != [self.last_number + 1]:
            return False
        if self.piece is None:
            return _YARN_LETTER.fullmatch(before) is not None and self.letters_go_on(before)
        if not self.last_number and not self._under_heading():
            return False
        if _YARN_LETTER.fullmatch(before):
            return True
        name, here = (_plain_name(words) for words in (before, self.piece.name))
        return bool(name) and name == here

    def letters_go_on(self, before: str) -> bool:
        """ "A Rnd 1: ..." with "B Rnd 3: ..." below: yarns, and no parts, whose rounds would begin anew."""
        others = {m["letter"].upper(): int(m["n"]) for m in reversed(list(_LETTERED.finditer(self.text)))}
        others.pop(before.strip(" ()[]*-:").upper(), None)
        return bool(others) and 1 not in others.values()

    def named_below(self, text: str, following: tuple[int, int]) -> bool:
        """ "Leg (make 2)" above "Leg R1: ...": a part whose rounds bear its name."""
        inside = within.within(self.text, *following)
        if not inside or inside[0].numbers[:1] != [1]:
            return False
        name = _plain_name(self.text[following[0] : inside[0].start])
        return bool(name) and name == _plain_name(copies(text)[0])

    def loose(self, at: int, end: int, follows: int = 0) -> None:
        """Text before the first label of a line: front matter, or sentences between courses.

        `follows`: the number of that label; where it is a second round, a ring told here is the first one.
        """
        for start, stop in spans_of_sentences(self.text, at, end):
            sentence = self.text[start:stop].strip()
            begun = self.piece is not None and any(isinstance(i, RawCourse) for i in self.piece.items)
            if follows == 2 and not begun and _INTO_RING.match(sentence):
                self.labelled(Label(start, start, [1], "round"), stop)
                continue
            alike = _FIRST_OF.match(self.text, start, stop) if not begun and follows else None
            if alike is not None and follows == number_of(alike["n"]) + 1:
                at_name, behind = alike.span("as")
                self.labelled(Label(at_name, at_name, list(range(1, follows)), "round"), behind)
                continue
            if furniture.foundation(sentence) is not None:
                self.foundation(start, stop)
                continue
            if self.any_course or self.piece is not None:
                self.put_text(start, stop)
                continue
            if is_definition(sentence, self.terms) or lists_several(sentence):
                self.define(sentence)
                continue
            named = _NAME_AND_TALK.match(self.text, start, stop) if not self.out.title else None
            if named is not None and not self.text[:start].strip() and sections.section_of(named[0]) is None:
                self.out.title = headings.tidy_name(named["name"])
                self.out.notes.append(self.page.quote(named.end(), stop))
                continue
            section = re.match(r"(materials|gauge|tension|hook|yarn|abbreviations|notes?|terms)\s*:\s*", sentence, re.I)
            if section:
                found = sections.section_of(sentence[: section.end()])
                if found:
                    self.open_section(found[0], start + section.end(), stop, sentence)
                    continue
            if not self.out.title and len(sentence.split()) <= 8:
                self.out.title = headings.tidy_name(sentence)
            else:
                self.in_section(sentence, start, stop) if self.section != "front" else self.out.notes.append(
                    self.page.quote(start, stop)
                )

    def first_as(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """Rounds of another part worked first, on a line above "6th round:": they are placed, with their colour."""
        if self.piece is None or following is None or any(isinstance(i, RawCourse) for i in self.piece.items):
            return False
        match = FIRST_AS.search(self.text[at:end])
        if match is None:
            return False
        n = number_of(match["n"])
        after = self.label_at(*following) or self.number_at(*following)
        if after is None or after.numbers[:1] != [n + 1]:
            return False
        begins = at + match.start("as")
        if told := self.text[at : at + (match.end("lead") if match["lead"] else match.start())].rstrip(", "):
            self.put_text(at, at + len(told))
        self.labelled(Label(begins, begins, list(range(1, n + 1)), "round"), end)
        return True

    def new_piece(self, name: str, make: int, at: int, headed: bool = True) -> None:
        self.piece = RawPiece(name, make, at, headed=headed)
        self.out.pieces.append(self.piece)
        if len(self.out.pieces) > MOST_PIECES:
            self.out.bounds.setdefault("too-many-pieces", at)
        self.course = None
        self.last_number = 0
        self.section = "pattern"

    def foundation(self, at: int, end: int) -> str:
        at += furniture.foundation(self.text[at:end]) or 0
        piece = self.ensure_piece(at)
        led = furniture.shade(self.text[at:end])
        if led is not None:  # "White: ch 6."
            told = led.groupdict()
            tool = bool(told.get("tool")) and not told.get("yarn")  # "With 3 mm hook ch 6"
            piece.items.append(RawText(at + led.start("shade"), at + led.end("shade"), "other" if tool else "colour"))
            at += led.end()
        piece.items.append(RawCourse(None, at, end, None, foundation=True))
        self.course = None
        if self.section != "assembly":
            self.section = "pattern"
        return "foundation"

    def put_course(self, piece: RawPiece, course: RawCourse) -> None:
        if self.tails:
            piece.items += [RawText(*tail, "tail") for tail in self.tails]
            self.tails = []
        piece.items.append(course)
        many = len(course.label.numbers) if course.label is not None else 1
        body = course.label is not None and course.label.dash and many < _MOST_IN_BODY  # "R4 - 24 sc" is one round
        self.courses += 1 if body else max(1, many)
        if self.courses > MOST_COURSES:
            self.out.bounds.setdefault("too-many-courses", course.start)

    def unlabelled(self, at: int, end: int) -> str:
        piece = self.ensure_piece(at)
        course = RawCourse(None, at, end, None)
        self.put_course(piece, course)
        self.course = course
        self.any_course = True
        if self.section != "assembly":
            self.section = "pattern"
        return "course"
