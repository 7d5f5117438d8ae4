"""Lines that a page cuts off: the count, the multiplier, the rest of a stitch, one group a line below its round."""

from __future__ import annotations

import re

from hookside.notation.bodies import stacked
from hookside.notation.bodies.wording.counts import ONLY_TURNS
from hookside.notation.bodies.wording.tails import tail
from hookside.notation.labels import howlong
from hookside.notation.lines.questions import Questions

COUNTED = re.compile(
    r"(?:\d\s*(?:sts?|stitches)|\s[/|]\s*\d{1,4}|[.=:]\s*\d{1,4}(?:\s*(?:sc|dc|hdc|htr|tr))?|\s-+\s*\d{1,4})\s*$", re.I
)
PLACE_AT_END = re.compile(r"\b(?:next|last|first|remaining|following|the|of|in|over) \d{1,3} ?(?:sts?|stitches)$")
CUTS_OFF = re.compile(r"\W*(?:fasten off|finish off|f\.?o\b|(?:cut|break) (?:off )?(?:the )?(?:yarn|thread)|stuff\b)")
PRINTED = re.compile(
    r"(?:[(\[={-]\s*\d{1,4}[^()\[\]\d]{0,24}[)\]}]?|[.:]\s*\d{1,4}(?: (?:sts?|stitches|sc|dc|hdc|htr|tr))?)\.?$"
)
LAST_WORD = 12  # letters that hold any of them and the sign before it
# "... twice." and on the next line "6 sts."; "... 6" and then "sts."
_LONGEST_COUNT = 80  # letters of a line that closes a round and tells its count
_BARE_COUNT = re.compile(r"\s*\d{1,4}(?: ?(?:sts?|stitches))?\W*")
_ASKS_COUNT = re.compile(
    r"\b(?:(?:count|total|sts|stitches)\s*:|(?:you|there) (?:\w+ ){0,2}(?:have|are|be)|total)$", re.I
)
_CHAINS_AT_END = re.compile(r"\bch(?:ain)?$", re.I)
BRACKETED_COUNT = re.compile(r"[(\[{]\s*(?:total:? *|= *)?\d+[^()\[\]{}]{0,24}[)\]}]\s*\.?\s*$")
_NOUN_ALONE = re.compile(r"(?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr)(?: (?:total|in (?:all|total)))?\s*[.)\]}>]*")
_BEGINS_GROUP = re.compile(r"(?:work |then )?(?:[\d(\[{*]|one|two|three|four|five|six|inc|dec|inv|[sdh])", re.I)
_CUT_OFF = re.compile(r"\b(?:in|of|the|to|from|into|with|an?|next|single|double|half|treble|invisible)$", re.I)
# "..., sc / 6 (27 sts)"
_REST_AND_COUNT = re.compile(r"\d{1,3}\.?\s*[(\[{<]\s*(?:total:?\s*|=\s*)?\d{1,4}[^()\[\]{}<>]{0,16}[)\]}>]\W*$", re.I)
_TIMES_FIRST = re.compile(r"(?:(?:\d{1,2}|[a-z]{3,6}) (?:more )?times|times \d|twice|once more)\b", re.I)
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
        if not any(c.isdecimal() for c in low):
            return False
        body = self.text[max(self.course.start, self.course.end - TAIL) : self.course.end].rstrip()
        if low.lstrip().startswith(("hook", "the hook")) and body.endswith("from"):
            return True  # "6 sc in 2nd ch from / hook. Sl st to join. - 6 sts"
        if _BARE_COUNT.fullmatch(low) and _ASKS_COUNT.search(body):
            return True
        if body.endswith(":"):
            return False
        if _CHAINS_AT_END.search(body) and low[:1].isdecimal():
            return True  # "... join, ch / 1. (10)."
        if PRINTED.search(body):
            return False
        low = low.rstrip()
        told = tail(low)
        if told is None:
            low = f" {low}"  # as it stands behind the words above: " -- 12 sts"
            told = tail(low)
        return told is not None and (not low[: told.at].strip() or bool(ONLY_TURNS.match(low[: told.at])))

    def stacked(self, at: int, end: int) -> bool:
        """ "3 sc" below "Rnd 4: inc in each of next 3 sts": one group a line, in a round that bears a label."""
        label = self.course.label if self.course is not None else None
        if self.course is None or label is None or label.start == label.end or not self._balanced(self.course):
            return False
        body = self.text[max(self.course.start, self.course.end - TAIL) : self.course.end].rstrip()
        first = self.text[at : at + 1]
        if first.islower() and _CUT_OFF.search(body[-LAST_WORD:]):
            return not CUTS_OFF.match(self.text, at, end)  # "... around, ss to / join"
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
        return begins and stacked.begins(self.tokens(self.text[at:end]))
