"""Lines without a label that tell of stitches: work, a chain to begin at, what a stitch is called."""

from __future__ import annotations

import re

from hookside.notation.askings.clauses import HANGING
from hookside.notation.labels.label import Label
from hookside.notation.lines import sections
from hookside.notation.lines.copies.somecopies import SomeCopies
from hookside.notation.lines.keys.definitions import is_definition, lists_several, names_one
from hookside.notation.lines.keys.shapingtold import only_tells_shaping
from hookside.notation.lines.layout import RawText, spans_of_sentences
from hookside.notation.lines.questions import FOUNDATION
from hookside.notation.lines.rungs.asked import BOOKISH, Asked

_WHOLE_TEXT = 200  # characters of a line from which it may hold a list of what is shortened and the rounds behind it
# "Chain 40 for a tie, fasten off.": chains that hang from what is there, and no course
_A_TIE = re.compile(
    r"\W*(?:now |then |and )?(?:ch(?:ain)?|make a chain of) ?\d{1,3}(?: ch(?:ain)?s?)?,? (?:(?:for|as|to make|to form) "
    rf"(?:an?|the) (?:[a-z]+ )?(?:{HANGING}|strap|handle)s?"
    # "Ch 12, sl st to the bottom edge of the body."
    r"\b(?! ?:)[^:]*$|(?:and |then )?(?P<put>sl\.? ?st|ss|slip[ -]?stitch|join|attach|sew)(?: it)?"
    r"(?: with (?:an? |1 )?(?:sl\.? ?st|ss|slip[ -]?stitch))? (?:on)?to (?:the |its |his |her )?"
    r"(?!first\b|next\b|same\b|last\b|close\b|form\b|make\b|beg|start|other end|join|ch\b|chain|\d|st\b|sts\b|stitch|"
    r"ring\b|sc\b|dc\b|top of)[a-z]{3,}(?: [a-z]{2,}){0,6}"
    r"(?P<cut>,? (?:and |then )?(?:fasten off|fo|cut[a-z ]{0,12}))?\W*$)",
    re.I,
)
# "Shell = 3 dc in one st" above the first course: what a name stands for, though the list knows a stitch of that name
_SPECIALS = "(?:shell|bobble|popcorn|puff|cluster|scallop|picot)"  # ... or, in any place, of such a one
_SPECIAL = re.compile(rf"\W{{0,3}}{_SPECIALS}\b", re.I)
_OWN_STITCH = re.compile(
    rf"\W{{0,3}}(?:[A-Za-z][A-Za-z -]{{0,13}}\s*=|{_SPECIALS}(?: st(?:itch)?)?(?: \([a-z]{{1,5}}\))?\s*(?::|=|-(?=\s)))"
    r"\s*(?:\d|[(\[])[^=]*\b(?:tog(?:ether)?|"
    r"in(?:to)? (?:the |one |a |same |next |1 |single )*(?:st|stitch|sc|dc|ch|chain|space|sp|place|loop))\b[^=]*$|"
    r"\W{0,3}picots?(?: \([a-z]{1,5}\))?\s*(?::|=|-(?=\s))\s*(?:make |work )?(?:ch(?:ain)? ?\d|\d ?ch)\b[^=]*$",
    re.I,
)
_ONE_MORE_FORM = re.compile(r"\W{0,3}[A-Za-z]{1,12} ?= ?[a-z\d][^=]{3,80}$")


class Stitches(SomeCopies):
    """Is it work, though nothing labels it, or what a word means?"""

    def job_by_itself(self, line: Asked) -> str | None:
        if not self.job_alone(line.text, line.following):
            return None
        self.put_job(line.at, line.end)
        return "cue"

    def ring_or_chain_told(self, line: Asked) -> str | None:
        where = line.at, line.end, line.following
        if not (self.ring_told(*where) or self.in_chain_told(*where)):
            return None
        return self.labelled(Label(line.at, line.at, [1], "round", explicit=False), line.end)

    def shades_by_copies(self, line: Asked) -> str | None:
        return "cue" if self.shades_of_copies(line.text, line.at, line.following) else None

    def yarn_by_letter(self, line: Asked) -> str | None:
        if not self.letter_of_yarn(line.text, line.following):
            return None
        self.put_colour(line.at, line.end)
        return "cue"

    def first_like_another(self, line: Asked) -> str | None:
        return "reference" if self.first_as(line.at, line.end, line.following) else None

    def own_stitch(self, line: Asked) -> str | None:
        stitch = _OWN_STITCH.match(line.text) and (not self.any_course or _SPECIAL.match(line.text))
        front = not self.any_course
        if not stitch and not (front and (names_one(line.text, self.terms) or only_tells_shaping(line.text))):
            return None
        self.define(line.text)
        return "abbreviations"

    def surface_work(self, line: Asked) -> str | None:
        return "cue" if self.on_surface(line.at, line.end) else None

    def course_without_label(self, line: Asked) -> str | None:
        if self.bare_course(line.at, line.end, line.following):
            return self.unlabelled(line.at, line.end)
        skipped = self.led_on(line.text, line.at, line.end)
        return self.unlabelled(line.at + skipped, line.end) if skipped else None

    def definition(self, line: Asked) -> str | None:
        if self.any_course:
            return None
        text = line.text
        defines = is_definition(text, self.terms) or lists_several(text)
        defines = defines or (bool(self.lists) and re.split("[ :=]", text, maxsplit=1)[0] in self.lists)
        if not (defines or self._lists_on(text)) or self.chapter_goes_on(text):
            return None
        whole = line.end - line.at > _WHOLE_TEXT and bool(self.inside(line.at, line.end))
        if whole or sections.section_of(text) is not None:
            return None
        self.define(text)
        return "abbreviations"

    def _lists_on(self, text: str) -> bool:
        """ "V = enlarge the nose" right below "X = short knit (sc)": one more of the list, whatever it is called."""
        above = self.out.roles[-1][2] if self.out.roles and not self.blank else ""
        return above == "abbreviations" and _ONE_MORE_FORM.match(text) is not None

    def foundation_chain(self, line: Asked) -> str | None:
        if self.founds(line.at, line.end, line.following):
            return self.foundation(line.at, line.end)
        if line.following is None or not self.founds_over(line.at, line.end, line.following):
            return None
        self.taken = line.following[1]
        return self.foundation(line.at, line.following[1])

    def tie(self, line: Asked) -> str | None:
        tie = _A_TIE.match(line.text) if self.any_course else None
        if tie is None:
            return None
        if tie["put"] and not tie["cut"] and self.piece is not None:
            self.piece.items.append(RawText(line.at, line.end, "other"))
            self.course = None
        else:
            self.put_text(line.at, line.end)
        return "cue"

    def chain_in_sentences(self, line: Asked) -> str | None:
        """ "Chain 12. This is the long side.", "Begin at the toe. Chain 12."."""
        parts = spans_of_sentences(self.text, line.at, line.end)
        if len(parts) > 1 and self.founds(*parts[0], line.following) and not any(
            t.kind == "stitch" for t in self.tokens(self.text[parts[1][0] : line.end])
        ):
            self.foundation(*parts[0])
            self.put_text(parts[1][0], line.end)
            return "foundation"
        if not self.talk_then_chains(parts, line.following):
            return None
        self.ensure_piece(line.at)
        self.put_text(line.at, parts[-2][1])
        return self.foundation(*parts[-1])

    def chain_and_course(self, line: Asked) -> str | None:
        """ "Ch 8, sc in second ch from hook, ..."."""
        foundation = FOUNDATION.match(self.text, line.at, line.end) if self.section not in BOOKISH else None
        if foundation is None or not self.stitchy(foundation.end(), line.end):
            return None
        return self.unlabelled(foundation.end(), line.end)
