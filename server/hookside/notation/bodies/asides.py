"""Brackets that say more about the stitches before them and are no work: what they are called, how they are made."""

from __future__ import annotations

import re

from hookside.notation.askings.roundshades import SHADE, SHARE, SHARES, SOME_SHARES
from hookside.notation.bodies.chunks import CueClause
from hookside.notation.bodies.clauses import Clauses
from hookside.notation.bodies.wording.places import SAME_AS
from hookside.notation.bodies.wording.stretches import MADE_OF, OF_STITCHES
from hookside.notation.vocabulary import number_of

# "(these sit over the increases of round 8)": what is said about the stitches before it
_REMARK = re.compile(
    r"(?:these|those|this|they|where|here|there|as in|note)\b(?:[^\d]|\b(?:rnds?|rounds?|rows?|r) ?\d{1,3}(?!\d)){0,90}"
)
_NAMES = re.compile(
    r"(?:an? |\d{1,2} |one |two |three )?"
    r"(?:(?P<more>inc(?:rease)?s?(?: made)?)|(?:inv(?:isible)?[ -]?)?dec(?:rease)?s?(?: made)?)\.?"
)
# "5 dc in next st (shell)", "(dc, ch 1, dc) in next st (V-st made)": what the stitches before it are called together
_GROUPED = re.compile(
    r"(?:an? |one |first |second |next |last |beg(?:inning)? )?(?:shell|fan|scallop|v-?(?:st|stitch)|cluster|cl|corner|"
    r"picot|puff(?: st)?|bobble|popcorn|pc|cross(?:ed)?[ -](?:st|stitch|dc|tr))"
    r"(?: (?:is )?(?:made|completed|worked|done))?"
)
# "6 inc (2 sc in 1 st)", "dec (sc2tog)": how the stitch before it is worked
_SPELT = {
    "inc3": re.compile(
        r"(?:i\.?e\.?,? |= ?|work )?(?:3|three) ?(?:sc|sts) (?:in|into) (?:the )?(?:one|1|same|each|next|a)\b"
        r"(?: (?:st|stitch|sc))?"
    ),
    "inc": re.compile(
        r"(?:i\.?e\.?,? |= ?|work )?(?:2|two) ?(?:sc|[hd]?dc|h?tr|sts|"
        r"(?:half )?(?:single|double|treble)(?: crochets?)?) (?:in|into) "
        r"(?:the )?(?:one|1|same|each|"
        r"next|a)"
        r"(?: of the)?(?: (?:st|stitch|sc|place))?"
    ),
    "dec": re.compile(
        r"(?:i\.?e\.?,? |= ?|work )?(?:sc ?2 ?tog|(?:sc|crochet|work)?(?: (?:the )?next)? ?(?:2|two) (?:sts |sc |"
        r"stitches )?"
        r"tog(?:ether)?|inv(?:isible)?\.?[ -]?dec\w*|invdec)"
    ),
}
# "(+6)", "(-6 sts)", "(4 shells, 5 sc)": how many more, or what is not counted in stitches
_STEP = re.compile(
    r"[+-]\s?\d{1,3}(?: ?(?:sts?|stitches|sc|incs?|decs?))?|"
    r"(?:\d{1,3} (?:ch-?\d? )?[a-z-]+(?:, | and |; )*)*\d{1,3} (?:shells?|fans?|scallops?|petals?|points?|ripples?|"
    r"arch(?:es)?|arcs?|bows?|repeats?|groups?|v-?sts|waves?|spikes?)\b"
    r"(?: of \d{1,2} (?:chs?|chains?))?(?:(?:, | and |; )\d{1,3} [a-z-]+)*"
)
_TOLD_MORE = re.compile(r"\b(?:2|two|3|three)\b.*\b(?:in|into)\b|\binc")
_IN_SEVERAL = re.compile(r"\b(?:in|into) (?:the )?next (?:\d|two|three|four)")
_TOLD_FEWER = re.compile(r"tog\b|\btogether\b|\bdec|\bover (?:the )?next\b")

# "(bobble = 3 dc tog, these are the claws)": what a stitch is, said in the middle of a round
_DEFINED = re.compile(
    r"[a-z][a-z -]{1,20}[a-z]\s*=\s*(?!\d{1,4}\s*(?:sts?|stitch(?:es)?|sc|[hd]?dc|times|rounds)?\W*$)[a-z\d]"
)

_PLAIN = frozenset(["sc", "hdc", "dc", "tr"])


class Asides(Clauses):
    """What is only said."""

    def steps(self, at: int, closing: int, inner: str) -> int | None:
        """ "(+6)", "(4 shells, 5 sc)"."""
        told = self.out.chunks and not self.depth and _STEP.fullmatch(inner)
        return self.aside(at, closing) if told else None

    def explained(self, at: int, closing: int, inner: str) -> int | None:
        """ "6 inc (2 sc in 1 st)", "(these sit over the increases of round 8)"."""
        told = self._spells(inner) or bool(self.out.chunks and _DEFINED.match(inner))
        told = told or bool(not self.depth and _REMARK.fullmatch(inner))
        return self.aside(at, closing) if told and not self.times(closing + 1) else None

    def named(self, at: int, closing: int, inner: str) -> int | None:
        """ "bobble (5 dc)", "2 sc in next st (inc)", "(same as round 4)"."""
        stitch = self.out.chunks[-1].value if self.last_type() == "ST" else ""
        start = self.toks[at].start
        if self.times(closing + 1):
            return self.aside(at, closing) if SAME_AS.fullmatch(inner) else None
        told = stitch in OF_STITCHES and MADE_OF.fullmatch(inner)
        told = told or (self.last_type() in ("PLACE", "CLOSE") and _GROUPED.fullmatch(inner))
        if told or self._names_each(inner) or self._only_names(inner, start) or SAME_AS.fullmatch(inner):
            return self.aside(at, closing)
        return None

    def shared(self, at: int, closing: int, inner: str) -> int | None:
        """ "sc 12 (4 white / 8 brown)": the stitches before it, so many of them in each color."""
        listed = SHARES.fullmatch(inner) is not None
        if self.depth or self.times(closing + 1) or not (listed or (self.out.chunks and SOME_SHARES.fullmatch(inner))):
            return None
        told = [
            (int(one["n"]), shade[0], *one.span())
            for one in SHARE.finditer(self.low, self.toks[at].end, self.toks[closing].start)
            if (shade := SHADE.search(one[0])) is not None
        ]
        worked = [c for c in self.out.chunks if c.type not in ("SEP", "CUE", "COLOUR")]
        kinds = {c.type: c.value for c in worked}
        many = kinds.get("NB") or kinds.get("NA")
        alone = sorted(kinds) in (["NB", "ST"], ["NA", "ST"], ["PLACE", "ST"], ["ST"]) and len(worked) == len(kinds)
        fills = "PLACE" not in kinds or kinds["PLACE"].kind == "fill"
        apart = many is not None and many[0] != sum(n for n, *_ in told)
        if not (alone and listed) or kinds["ST"] not in _PLAIN or not fills or apart:
            self.out.cues.append(CueClause("other", self.toks[at].end, self.toks[closing].start, leads=True))
            self.emit("CUE", len(self.out.cues) - 1, self.toks[at].start, self.toks[closing].end)
            return closing + 1
        self.out.chunks = [c for c in self.out.chunks if c not in worked]
        for n, name, start, end in told:
            self.emit("NB", (n, start, end), start, end)
            self.emit("ST", kinds["ST"], start, end)
            self.emit("COLOURPOST", name, start, end)
            self.emit("SEP", None, end, end)
        return closing + 1

    def aside(self, at: int, closing: int) -> int:
        self.out.asides.append((self.toks[at].start, self.toks[closing].end))
        return closing + 1

    def _spells(self, inner: str) -> bool:
        """Does a bracket spell out the increase or decrease before it?"""
        before = next((c for c in reversed(self.out.chunks) if c.type not in ("NA", "PLACE", "TIMES")), None)
        spelt = _SPELT.get({"inv dec": "dec"}.get(str(before.value), str(before.value))) if before is not None else None
        return before is not None and before.type == "ST" and spelt is not None and bool(spelt.fullmatch(inner))

    def _names_each(self, inner: str) -> bool:
        """ "2 sc in next 2 sts (2 incs)": as many increases as stitches, so that it is two in each of them."""
        name = _NAMES.fullmatch(inner)
        last = self.out.chunks[-1] if self.out.chunks else None
        if name is None or last is None or last.type != "PLACE" or not name["more"]:
            return False
        place = last.value
        told = re.match(r"\d+|one|two|three", inner)
        if place.kind != "next" or place.n < 2 or (told is not None and number_of(told[0]) != place.n):
            return False
        place.each = place.each or told is not None
        return True

    def _only_names(self, inner: str, start: int) -> bool:
        """Whether a bracket only names what was just told, "2 sc in next st (inc)": it is no stitch of its own."""
        name = _NAMES.fullmatch(inner)
        told = re.split(r"[,;*(\[{]", self.low[:start])[-1].strip()
        if name is None or not told or (name["more"] and _IN_SEVERAL.search(told)):
            return False  # "2 sc in next 2 sts (2 incs)" decides between two meanings, and may not be dropped
        return bool((_TOLD_MORE if name["more"] else _TOLD_FEWER).search(told))
