"""Lines that a page cuts off: the count, the multiplier, the rest of a stitch, one group a line below its round."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.bodies import stacked
from hookside.notation.bodies.wording.counts import ONLY_TURNS
from hookside.notation.bodies.wording.tails import tail
from hookside.notation.labels import howlong, within
from hookside.notation.labels.label import at_line_start, bare_number
from hookside.notation.lines.heads import headings
from hookside.notation.lines.layout import RawCourse
from hookside.notation.lines.questions import Questions
from hookside.notation.lines.unlabelled.alone import begins_ring

COUNTED = re.compile(
    r"(?:\d\s*(?:sts?|stitches)|\s[/|]\s*\d{1,4}|[.=:]\s*\d{1,4}(?:\s*(?:sc|dc|hdc|htr|tr))?|\s-+\s*\d{1,4}|"
    r"\byou(?:'ll)? (?:now )?have \d{1,4})\s*$",
    re.I,
)
PLACE_AT_END = re.compile(r"\b(?:next|last|first|remaining|following|the|of|in|over) \d{1,3} ?(?:sts?|stitches)$")
CUTS_OFF = re.compile(r"\W*(?:fasten off|finish off|f\.?o\b|(?:cut|break) (?:off )?(?:the )?(?:yarn|thread)|stuff\b)")
PRINTED = re.compile(
    r"(?:[(\[={-]\s*\d{1,4}[^()\[\]\d]{0,24}[)\]}]?|[.:]\s*\d{1,4}(?: (?:sts?|stitches|sc|dc|hdc|htr|tr))?|"
    r"\byou(?:'ll)? (?:now )?have \d{1,4})\.?$"
)
LAST_WORD = 12  # letters that hold any of them and the sign before it
# "ears x2: MR 4 (4)": a part and its first round in one line
_PART_AND_RING = re.compile(
    r"[^\w\n]{0,4}(?P<name>[a-z]+(?: [a-z]+)?)(?: ?(?:x ?\d{1,2}|\d{1,2} ?x|[(\[][^()\[\]]{1,20}[)\]]))?: "
    r"(?:mr|magic (?:ring|circle)|ch(?:ain)? ?\d|\d{1,2} (?:sc|dc) in(?:to)? )",
    re.I,
)
# "... twice." and on the next line "6 sts."; "... 6" and then "sts."
_LONGEST_COUNT = 80  # letters of a line that closes a round and tells its count
_BARE_COUNT = re.compile(r"\s*\d{1,4}(?: ?(?:sts?|stitches))?\W*")
_BRACKETED_FIRST = re.compile(r"\s*[(\[{]\s*\d{1,4}[^()\[\]{}]{0,24}[)\]}]")
_ASKS_COUNT = re.compile(
    r"\b(?:(?:count|total|sts|stitches)\s*:|(?:you|there) (?:\w+ ){0,2}(?:have|are|be)|total)$", re.I
)
_OF_STITCHES = re.compile(r"\s*(?:sts?|stitches)\b(?! ?count| ?marker)")
_DIGIT = re.compile(r"\d")
_FEW_WORDS = 4  # of the end of a sentence on a line of its own
_SENTENCE_COUNT = re.compile(r"\s*(?:total:? ?)?\d{1,4} (?:sts?|stitches|sc|[hd]?dc|h?tr|dtr)\.?\s*")
_CHAINS_AT_END = re.compile(r"\bch(?:ain)?$", re.I)
BRACKETED_COUNT = re.compile(r"[(\[{]\s*(?:total:? *|= *)?\d+[^()\[\]{}]{0,24}[)\]}]\s*\.?\s*$")
_NOUN_ALONE = re.compile(r"(?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr)(?: (?:total|in (?:all|total)))?\s*[.)\]}>]*")
_BEGINS_GROUP = re.compile(r"(?:work |then )?(?:[\d(\[{*]|one|two|three|four|five|six|inc|dec|inv|[sdh])", re.I)
_CUT_OFF = re.compile(r"\b(?:in|of|the|to|from|into|with|an?|next|single|double|half|treble|invisible)$", re.I)
_AMOUNT_CUT = re.compile(r"\b(?:each|every|all|following|last|first|remaining|other|\d)$", re.I)
_NOUN_FIRST = re.compile(r"(?:st|sts|stitch|stitches|chains?|single|double|half|other|second)\b")
# "..., sc / 6 (27 sts)"
_REST_AND_COUNT = re.compile(r"\d{1,3}\.?\s*[(\[{<]\s*(?:total:?\s*|=\s*)?\d{1,4}[^()\[\]{}<>]{0,16}[)\]}>]\W*$", re.I)
_TIMES_FIRST = re.compile(r"(?:(?:\d{1,2}|[a-z]{3,6}) (?:more )?times|times \d|twice|once more)\b", re.I)
_NAMED_FIRST = re.compile(r"\s*(?P<name>(?:[A-Z]|\d(?:st|nd|rd|th) )[A-Za-z ]{2,24})(?: ?\([^()\n]{1,20}\))?:")
_AMIDST = re.compile(r"(?:[,(&+]|\b(?:the|of|and|with|for|to|on|both|all|your))\s*$", re.I)  # no sentence ends so
_MOST_SENTENCES = 8  # of one round, a line each
_FEWEST_WORDS = 2  # of a title that is more than the name of a part
# "x6 (18)", "6 times. (18)", "around (18)"
_OFTEN_ALONE = re.compile(
    r"\s*(?:x ?\d{1,2}|(?:\d{1,2}|[a-z]{3,6}) times|twice|a?round|to (?:the )?end)\W*"
    r"(?:[(\[{=-]\s*\d{1,4}(?: ?(?:sts?|stitches|sc))?\s*[)\]}]?\W*)?",
    re.I,
)
# "Shell: green, hook 3", "Puffs (white, 3 mm)", "Fan x2 - 3.5 mm hook, red"
_IN_ITS_YARN = re.compile(
    r"\W{0,4}(?P<name>[A-Z][a-z]{2,11}s?(?: x ?\d{1,2}| ?[(\[]?x ?\d{1,2}[)\]]?|[,:]? \d{1,2} ?x)?)"
    r"\s?(?:[:,(]|-{1,2}\s|(?<=\dx) )\s?"
    r"(?:(?P<size>(?:hook|size|\d(?:[.,]\d{1,2})? ?mm)\b)|"
    r"(?P<shade>[a-z]{3,12}(?: [a-z]{3,12})?)(?=\s?[,;(/]|\s?$| and ))"
)
_MAY_BEGIN = "acfjsty"  # letters that the words of a count or of a turn begin with: "total", "your", "and ch 1, turn"
LONGEST_PRINTED = 60  # ... that a printed count takes, with the words around it
TAIL = 300  # characters of a body that tell whether it goes on


class Broken(Questions):
    """What can be nothing but the rest of the round above, whatever else it looks like."""

    def counts_below(self, at: int, end: int) -> bool:
        """ "Stitch count: 12.", "Join. = 12", and "12." below "... Stitch count:": what a round above comes to."""
        low = self.text[at:end].lower()
        if self.course is None or len(low) > _LONGEST_COUNT:
            return False
        if self.text[self.course.end - 1 : self.course.end].isdecimal() and _NOUN_ALONE.fullmatch(low):
            return True  # "... ch 1, turn - 16 / stitches"
        if self.text[self.course.end - 1 : self.course.end].isdecimal() and _OF_STITCHES.match(low):
            return True  # "...: 40 / sts after Round 5, 48 after Round 6"
        if _DIGIT.search(low) is None:
            return False
        body = self.text[max(self.course.start, self.course.end - TAIL) : self.course.end].rstrip()
        if low.lstrip().startswith(("hook", "the hook")) and body.endswith("from"):
            return True  # "6 sc in 2nd ch from / hook. Sl st to join. - 6 sts"
        if _BARE_COUNT.fullmatch(low) and _ASKS_COUNT.search(body):
            return True
        if body.endswith(":"):
            return False
        bracketed = _BRACKETED_FIRST.match(low)
        if bracketed is not None and not PRINTED.search(body) and ONLY_TURNS.match(low[bracketed.end() :]):
            return True  # "(18 dc.) 1 ch., turn."
        if low[:1].isdecimal() and _CHAINS_AT_END.search(body):
            return True  # "... join, ch / 1. (10)."
        first = low.lstrip()[:1]
        begins = not first.isalpha() or first in _MAY_BEGIN
        alone = _SENTENCE_COUNT.match(low) if body.endswith(".") else None
        if (alone is None and not begins) or PRINTED.search(body, max(0, len(body) - LONGEST_PRINTED)):
            return False  # "R9: sc around (18)": asked of each round there is, the cheap question first
        if alone is not None and self._labelled_on(at, end):
            rest = low[alone.end() :]
            if not rest or ONLY_TURNS.match(rest):
                return True  # "..., sl st to first hdc. / 24 hdc.", "Total: 15 sts. Chain 1, turn."
        low = low.rstrip()
        if not begins:
            return False
        told = tail(low)
        if told is None:
            low = f" {low}"  # as it stands behind the words above: " -- 12 sts"
            told = tail(low)
        return told is not None and (not low[: told.at].strip() or bool(ONLY_TURNS.match(low[: told.at])))

    def sentence_below(self, index: int) -> bool:
        """ "Rnd 2: Ch 1. / Work 2 sc in each st. / Join. (12)": a round told in sentences of a line each, of which the
        last prints its count. The line of that index goes on with the course at hand."""
        course = self.course
        if course is None or self.blank or course.label is None or not course.label.explicit:
            return False
        body = self.text[max(course.start, course.end - TAIL) : course.end].rstrip()
        if body[-1:] != "." or any(count.search(body.rstrip(" .")) for count in (BRACKETED_COUNT, COUNTED, PRINTED)):
            return False
        works = False
        for start, end in self.used_lines[index : index + _MOST_SENTENCES]:
            line = self.text[start:end]
            if not line.strip() or self.label_at(start, end) or self.number_at(start, end):
                return False
            if within.within(self.text, start, end):
                return False  # "Now the neck. Round 12: ..."
            named = _NAMED_FIRST.match(line)
            if named is not None and any(word in headings.PARTS for word in named["name"].lower().split()):
                return False  # "2nd leg: same, do not cut yarn."
            if self.names_next_part(start, end):
                return False
            works = works or self.stitchy(start, end)
            if BRACKETED_COUNT.search(line):
                course.end = self.used_lines[index][1]
                return works or self.stitchy(course.start, course.end)
            if line.rstrip()[-1:] not in (".", ";", ","):
                return False
        return False

    def names_next_part(self, start: int, end: int) -> bool:
        """ "LEGS (4)", "ears x 2:" right below "... fasten off" and above a first round: a part and its copies, and
        neither a count nor the rest of what is asked."""
        text = self.text[start:end]
        inline = _PART_AND_RING.match(text)
        if inline is not None and not headings.PARTS.isdisjoint(re.findall(r"[a-z]+", inline["name"].lower())):
            return True
        head = headings.heading(text, False, True)
        if head is None or head[1] < 2 or self.stitchy(start, end):
            return False
        following = self.line_after((start, end))
        if following is None or _AMIDST.search(self.text, max(0, start - LAST_WORD), start):
            return False
        words = re.findall(r"[a-z]+", head[0].lower())
        named = head[0].isupper() or any(word in headings.PARTS or f"{word}s" in headings.PARTS for word in words)
        label = self.label_at(*following) or self.number_at(*following)
        first = label.numbers[:1] == [1] if label is not None else begins_ring(self.text[slice(*following)])
        return named and first

    def rest_below(self, at: int, end: int) -> bool:
        """ "x6 (18)" behind a blank line and "Rnd 3: (sc, inc)", on a page whose lines stand two apart."""
        last = self.piece.items[-1] if self.blank and self.piece is not None and self.piece.items else None
        if not isinstance(last, RawCourse) or last.foundation or not _OFTEN_ALONE.fullmatch(self.text, at, end):
            return False
        body = self.text[max(last.start, last.end - TAIL) : last.end].rstrip()
        if body[-1:] not in (")", "]", "*", "}") or BRACKETED_COUNT.search(body):
            return False
        last.end, self.course = end, last
        return True

    def title_again(self, text: str, following: tuple[int, int] | None) -> bool:
        """The title of the pattern in the middle of a piece, as pages have it at their heads."""
        title = self.out.title.lower()
        if not self.last_number or len(title.split()) < _FEWEST_WORDS or " ".join(text.lower().split()) != title:
            return False
        label = self.label_at(*following) if following is not None else None
        return following is not None and (label is None or label.numbers[:1] == [self.last_number + 1])

    def ends_in(self, text: str, at: int) -> bool:
        """ "... Cut / yarn.", "use the other / hook.": the end of a sentence that the page broke, and no title."""
        if self.blank or not self.any_course or not text[:1].islower() or not text.rstrip().endswith("."):
            return False
        before = self.text[max(0, at - 80) : at].rstrip()
        return before[-1:].isalpha() and len(text.split()) < _FEW_WORDS

    def _labelled_on(self, at: int, end: int) -> bool:
        """Does the round at hand bear a label, and no label below leave room for another one here?"""
        if self.course is None or self.course.label is None or not self.course.label.numbers:
            return False
        following = self.line_after((self.text.rfind("\n", 0, at) + 1, end))
        after = self.label_at(*following) if following is not None else None
        return after is None or after.numbers[:1] != [self.course.label.numbers[-1] + 2]

    def named_in_its_yarn(self, at: int, end: int) -> bool:
        """ "Shell: green, hook 3" above a first round: a part that is called as a stitch is, and what it is made of."""
        told = _IN_ITS_YARN.match(self.text, at, end)
        if told is None or not (told["size"] or is_colour(told["shade"])):
            return False
        following = self.line_after((self.text.rfind("\n", 0, end) + 1, end))
        label = following and (at_line_start(self.text, *following) or bare_number(self.text, *following))
        if not label or label.numbers[:1] != [1]:
            return False
        return all(t.kind != "stitch" for t in self.tokens(self.text[told.end("name") : end]))

    def stacked(self, at: int, end: int) -> bool:
        """ "3 sc" below "Rnd 4: inc in each of next 3 sts": one group a line, in a round that bears a label."""
        label = self.course.label if self.course is not None else None
        if self.course is None or label is None or label.start == label.end or not self._balanced(self.course):
            return False
        body = self.text[max(self.course.start, self.course.end - TAIL) : self.course.end].rstrip()
        first = self.text[at : at + 1]
        if first.islower() and _CUT_OFF.search(body[-LAST_WORD:]):
            return not CUTS_OFF.match(self.text, at, end)  # "... around, ss to / join"
        if _AMOUNT_CUT.search(body[-LAST_WORD:]) and _NOUN_FIRST.match(self.text, at, end):
            return True  # "... 2 sc in each / stitch around. (12)"
        if _REST_AND_COUNT.match(self.text, at, end):
            return [t.kind for t in self.tokens(body[-LAST_WORD:])[-1:]] == ["stitch"]
        if body[-1:] in (")", "]", "}", "*") and _TIMES_FIRST.match(self.text, at, end):
            return True  # "(sc 4, dec) / five times"
        if not body or body[-1] in ".!:" or (COUNTED.search(body) and not PLACE_AT_END.search(body)):
            return False
        if BRACKETED_COUNT.search(body):
            return False
        begins = _BEGINS_GROUP.match(self.text, at, end) is not None and self.stitchy(at, end)
        begins = begins and not howlong.of_its_own(self.text[at:end])  # "Then sc 3 rounds."
        begins = begins and not (first.isupper() and self.named_in_its_yarn(at, end))
        return begins and stacked.begins(self.tokens(self.text[at:end]))
