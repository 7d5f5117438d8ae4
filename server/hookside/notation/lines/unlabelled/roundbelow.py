"""A round that has no label, on the line below one that is whole: "R3: sc 12" and then "hdc around" or "sc 12 more".

Taken for the rest of the round above it would be lost, since that has no stitch left for it. Where the labels leave
room for it, it is the round that is missing; where they leave none, the two of one number are said.
"""

from __future__ import annotations

import re

from hookside.notation.labels import alike
from hookside.notation.labels.label import Label
from hookside.notation.lines.goingon import GoingOn
from hookside.notation.lines.layout import RawCourse
from hookside.notation.lines.unlabelled import alone
from hookside.notation.lines.unlabelled.anotherround import another_round
from hookside.notation.vocabulary import COPIES, SEVERAL_WORDS, number_of

_ST = r"(?:sc|[hd]?dc|h?tr|sl ?st|ss|inc|dec)"
_LOOPS = r"(?: (?:in )?(?:the )?(?:[bf]lo?|(?:back|front) loops?)(?: only)?)?"
_ALL = (
    r"(?:(?:all )?(?:a?round|the way (?:a?round)|across)|"
    r"(?:in )?(?:each|every)(?: (?:st|stitch))?(?: (?:all )?(?:the way )?(?:a?round|across))?)"
)
# A round that goes all the way, and leaves nothing for the line below
_GOES_ROUND = re.compile(rf"\W{{0,3}}(?:{_ST}|single crochet|half double|double crochet){_LOOPS} {_ALL}\W{{0,3}}", re.I)
_AMOUNT = re.compile(rf"\W{{0,3}}(?:(?P<st>{_ST}) (?P<n>\d{{1,3}})|(?P<n2>\d{{1,3}}) (?P<st2>{_ST}))\W{{0,3}}", re.I)
_REPEAT = re.compile(r"\W{0,3}[(\[*](?P<body>[^()\[\]*\n]{2,40})[)\]*] ?[x*] ?(?P<times>\d{1,2})\W{0,3}", re.I)
_SHORT_REPEAT = re.compile(rf"\W{{0,3}}(?P<st>{_ST}) ?[x*] ?(?P<times>\d{{1,3}})\W{{0,3}}", re.I)
_ITEM = re.compile(rf"\s{{0,3}}(?:(?P<n>\d{{1,2}}) ?)?(?P<st>{_ST})(?: (?P<n2>\d{{1,2}}))?\s{{0,3}}", re.I)
_PLAIN = re.compile(rf"\W{{0,3}}(?:sc|[hd]?dc|h?tr|even|plain){_LOOPS}(?: {_ALL})?\W{{0,3}}", re.I)
# What is a round by itself whatever stands above: all the way, or an amount told as no count is told
_BELOW = re.compile(
    rf"\W{{0,3}}(?:reverse |crab st )?(?:{_ST}{_LOOPS} {_ALL}|(?:sc|[hd]?dc|h?tr){_LOOPS} \d{{1,3}}(?: more)?{_LOOPS}|"
    rf"\d{{1,3}} (?:sc|[hd]?dc|h?tr) (?:in )?(?:the )?(?:[bf]lo?|(?:back|front) loops?)(?: only)?|"
    rf"\d{{1,3}} more (?:sc|[hd]?dc|h?tr)|"
    rf"turn(?: and|,)(?: ch 1,)? {_ST} (?:\d{{1,3}}|back|across|around))\W{{0,3}}",
    re.I,
)
# "join two stitches together six times": what a round ends with is one join, and never this
_TOGETHER = re.compile(
    r"\W{0,3}(?:join|take|work|put|crochet) (?:two|2) (?:(?:sts|stitches|sc) )?together "
    rf"(?:(?:\d{{1,2}}|{SEVERAL_WORDS}) times|(?:all )?(?:the way )?a?round)\W{{0,3}}",
    re.I,
)
_OF_ST = rf"(?:{_ST} (?:round|rnd|row)|(?:round|rnd|row) of {_ST})\b"
_DO = r"(?:and |now |next,? )?(?:(?:work|make|do) )?"
_ONE_MORE = re.compile(rf"{_DO}(?:another|one more|1 more) {_OF_ST}", re.I)
# "sc another round, FO", "sc two more rounds": none of it is the rest of a plain round
_ST_MORE = re.compile(
    rf"{_DO}{_ST} (?:for )?(?:another|(?:one|two|three|four|five|six|\d{{1,2}}) more)"
    r"(?: (?:two|three|four|\d{1,2}))? (?:round|rnd|row)s?\b",
    re.I,
)
# "sc around for 3 rounds", "plain for 2 rounds", "sc all around, 3 rounds": how long it goes on, as no rest has
_SO_LONG = re.compile(
    rf"(?:(?:sc|[hd]?dc|h?tr|single crochet){_LOOPS}(?: (?:plain|even|straight))? {_ALL}|"
    rf"(?:sc |work )?(?:plain|even|straight)(?: {_ALL})?),? (?:for )?"
    r"(?:the next |another )?(?:two|three|four|five|six|seven|eight|nine|ten|\d{1,2}) (?:more )?"
    r"(?:round|rnd|row)s\W{0,3}",
    re.I,
)
_ROUND_OF = re.compile(rf"{_DO}(?:another|one more|1 more|an?|1|one) {_OF_ST}", re.I)  # where there is room for it
_REPEATS = re.compile(r"\W{0,3}(?:repeat|rep)\b[^\n]{0,100}\.\s*\Z", re.I)
_IN_A_STITCH = re.compile(r"\b(?:last|first|same|next(?! \d)|marked)\b", re.I)
_SEVERAL = re.compile(r"\d[^,;\d]{0,40},[^,;\d]{1,40}\d")  # amounts one behind the other
_LEADS = re.compile(r"\b(?:in|of|the|next|to|x|from|into|with|last|rep|then|a|work|make|and)$", re.I)
_PRINTED = re.compile(r"[(\[=] ?(\d{1,4})(?: ?(?:sts?|stitches|sc))?[)\]]?\W{0,3}$")
# "Legs: (sl st, sc, 3 hdc in next st, sc, sl st) 5 times": worked on what is there, with neither ring nor chain
_BY_NAME = re.compile(
    r"(?P<name>[A-Z][a-z]{2,11}): (?=[(\[*](?P<group>[^()\[\]*:]{6,80})[)\]*]\s*(?:x ?|repeat )?"
    rf"(?P<times>{COPIES})\b)"
)
_BEGINS_ANEW = re.compile(r"\b(?:ring|mr|ch|chain|ch\d)\b", re.I)
_FEWEST_LEFT = 8  # stitches; fewer are drawn together next
_SHORT_ROUND = 120  # characters of one that is whole at a glance
_MOST_ABOVE = 8  # rounds that go all the way between this one and the last one whose count is told
_MOST_BELOW = 6  # lines of the kind below it in front of the next label


def uses(body: str) -> int | None:
    """Stitches of the round below that a body of one amount or repeat works into; None for any other."""
    if told := _AMOUNT.fullmatch(body):
        return int(told["n"] or told["n2"]) * _takes(told["st"] or told["st2"])
    if told := _SHORT_REPEAT.fullmatch(body):
        return int(told["times"]) * _takes(told["st"])
    told = _REPEAT.fullmatch(body)
    items = [_ITEM.fullmatch(item) for item in told["body"].split(",")] if told is not None else []
    if told is None or None in items:
        return None
    return int(told["times"]) * sum(int(i["n"] or i["n2"] or 1) * _takes(i["st"]) for i in items if i is not None)


def _takes(stitch: str) -> int:
    return 2 if stitch.lower() == "dec" else 1


class RoundBelow(GoingOn):
    """Whether a line is a round of its own and not the rest of the one above."""

    def round_below(self, at: int, end: int) -> int | None:
        """Where the round begins that this line tells by itself: behind a "then", if one leads it; None for a rest."""
        course = self.course
        if course is None or self.blank:
            return None
        if course.label is None or not course.label.numbers:
            return at if self._behind_repeat(course, at, end) else self._behind_plain(course, at, end)
        if course.end - course.start > _SHORT_ROUND or not self._balanced(course):
            return None
        body, line = self.text[course.start : course.end].strip(), self.text[at:end].strip()
        if "\n" in body or body[-1:] in ",;(-&+=*:" or _LEADS.search(body):
            return None
        begins = at + alone.lead(line)
        line = self.text[begins:end].strip()
        whole = self._whole(body, course)
        bare = alone.without_count(line)
        if "together" in bare and _TOGETHER.fullmatch(bare):
            return begins
        if _ST_MORE.match(line) and (whole or _PLAIN.fullmatch(alone.without_count(body))):
            return begins
        if _SO_LONG.fullmatch(bare):
            return begins
        if whole and (_BELOW.fullmatch(bare) or _ONE_MORE.match(line)) and self.text[at:begins].lower()[:3] != "now":
            return begins
        if (_GOES_ROUND.fullmatch(body) and self._many_below(begins, end)) or another_round(body, line):
            return begins
        if not (whole or alone.all_round(body)) or not self._room_below(at, end, course.label):
            return None
        if _ROUND_OF.match(line):
            return begins
        if alone.closing(line) or _IN_A_STITCH.search(line) or not self._opens_plainly(begins, end):
            return None
        return begins if whole or alone.all_round(line) or _same_amount(body, line) else None

    def round_by_name(self, at: int, end: int) -> Label | None:
        """ "Legs: (sl st, sc, 3 hdc in next st, sc, sl st) 5 times" behind a round of 25 that is not cut off: the next
        round of that part, called by what it makes."""
        last = self.piece.items[-1] if self.piece is not None and self.piece.items else None
        told = _BY_NAME.match(self.text, at, end) if isinstance(last, RawCourse) and last.label else None
        if told is None or not isinstance(last, RawCourse) or self.cut_off() or _BEGINS_ANEW.search(told["group"]):
            return None
        printed = _PRINTED.search(self.text[max(last.start, last.end - 24) : last.end].strip())
        count = int(printed[1]) if printed is not None else 0
        used = uses(alone.without_count(self.text[told.end() : end]))
        if count <= _FEWEST_LEFT or count % number_of(told["times"]) or used not in (None, count):
            return None
        following = self.line_after((self.text.rfind("\n", 0, at) + 1, end))
        after = following and (self.label_at(*following) or self.number_at(*following))
        if (after and after.numbers[:1] == [self.last_number + 1]) or not self.stitchy(told.end(), end):
            return None
        return Label(at, told.end(), [], "round", relative=1)

    def _behind_repeat(self, course: RawCourse, at: int, end: int) -> bool:
        """ "Repeat rows 2 and 3 until you have 8." and then "dc round": never the rest of that."""
        if course.end - course.start > _SHORT_ROUND or not _REPEATS.match(self.text, course.start, course.end):
            return False
        line = self.text[at:end].strip()
        return any(told.match(line) for told in (_BELOW, _ONE_MORE, _ROUND_OF)) and self.stitchy(at, end)

    def _behind_plain(self, course: RawCourse, at: int, end: int) -> int | None:
        """ "Next round: sc" and then "(2 sc, inc) twice": where the labels tell no numbers, a line that goes all the
        way is no rest of a plain round, which leaves nothing."""
        if course.label is None or not _PLAIN.fullmatch(alone.without_count(self.text[course.start : course.end])):
            return None
        begins = at + alone.lead(self.text[at:end])
        line = self.text[begins:end]
        goes = alone.all_round(line) and not alone.closing(line) and not _IN_A_STITCH.search(line)
        return begins if goes and self._opens_plainly(begins, end) else None

    def _many_below(self, at: int, end: int) -> bool:
        """ "(sc 2, inc) x 6", "sc in next 6, hdc in next 12": a round by its amounts, behind one that goes round."""
        line = alone.without_count(self.text[at:end])
        if _IN_A_STITCH.search(line) or alone.closing(line):
            return False
        if _REPEAT.fullmatch(line) or _SHORT_REPEAT.fullmatch(line):
            return True
        return _SEVERAL.search(line) is not None and self._opens_plainly(at, end)

    def again_below(self, at: int, end: int) -> bool:
        """ "Do this three times." below a plain round: how often that one is worked, told with it."""
        course = self.course
        if course is None or course.label is None or self.blank or course.end - course.start > _SHORT_ROUND:
            return False
        return alike.told_below(self.text[course.start : course.end].strip(), self.text[at:end].strip())

    def _whole(self, body: str, course: RawCourse) -> bool:
        """Does this round leave no stitch of the one below it?"""
        if _GOES_ROUND.fullmatch(body):
            return True
        used = uses(body)
        return used is not None and used == self._stitches_below(course)

    def _stitches_below(self, course: RawCourse) -> int | None:
        """What the round below this one is printed to come to; None where nothing tells it."""
        items = self.piece.items if self.piece is not None else []
        for item in reversed(items[-_MOST_ABOVE:]):
            if not isinstance(item, RawCourse) or item is course:
                continue
            body = self.text[item.start : item.end].strip()
            if (told := _PRINTED.search(body[-24:])) is not None:
                return int(told[1])
            if _GOES_ROUND.fullmatch(body) is None or not body.lower().startswith(("sc", "hdc", "dc", "single")):
                return None
        return None

    def _room_below(self, at: int, end: int, label: Label) -> bool:
        """Does the next label leave a number for this line: "R6:" below it and "R4:" above it?"""
        line: tuple[int, int] | None = (self.text.rfind("\n", 0, at) + 1, end)
        for _ in range(_MOST_BELOW):
            line = self.line_after(line) if line is not None else None
            if line is None:
                return False
            after = self.label_at(*line) or self.number_at(*line)
            if after is not None and after.numbers:
                return after.numbers[0] > label.numbers[-1] + 1
        return False


def _same_amount(body: str, line: str) -> bool:
    """ "sc 18" below "sc 18": with room for it, the round once more."""
    used = uses(body)
    return used is not None and used == uses(line)
