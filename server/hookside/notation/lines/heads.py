"""Where a piece begins: its heading, on a line of its own or glued to its first course; or that it is one of two."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.colourtalk import colour_talk
from hookside.notation.askings.kinds import classify
from hookside.notation.labels import within
from hookside.notation.lines import alone, furniture, headings
from hookside.notation.lines.definitions import DEFINES as _DEFINES
from hookside.notation.lines.layout import RawCourse, spans_of_sentences
from hookside.notation.lines.placing import Placing

_GLUED = re.compile(
    r"(?P<name>[A-Z][A-Za-z' ]{1,24}(?:,? ?[(\[]?(?i:make|x) ?\w{1,6}[)\]]?|"
    r" \((?:two|three|four|five|six|eight|[2-8])\))?)"
    r"(?:\s*:|\s+-|\.\s+-+|(?<=[A-Z]{3})\.(?=\s+[A-Z\d])|(?<=\))\.)\s*(?=\S)"
)
# "Leave a long tail at the start for / the head.": a line that its sentence began before
_MID_SENTENCE = re.compile(r"\b(?:for|the|an?|to|of|and|with|in|at|on|onto|or|from|by|your|its|his|her),?[ ]*\n[ ]*\Z")
# A round told before "2nd round:"
_BEGINS_AT = re.compile(r"\W*(?:start|begin)\w* (?:at|from|with|in|by)\b", re.I)
_BEGUN = re.compile(r"(?:commence|begin|start|make|work|chain|ch\b|with\b|using\b|\d)", re.I)
# "Left fin: same as the right one"
LIKE_ANOTHER = re.compile(
    r"(?:(?:make|work|crochet|do|repeat|follow|complete|exactly|just|worked|made|the)\s+)*(?:same|as|like|"
    r"identical|repeat|rounds? \d+\s*(?:-|to)\s*\d+ of)\b",
    re.I,
)
_GLUED_LIKE = re.compile(rf"(?P<name>[A-Z][A-Za-z' ]{{1,24}}\d)\s*[:-]\s*(?={LIKE_ANOTHER.pattern})", re.I)
# "Right leg, same R1-R7", "Second leg: join yarn to the other stitches and repeat rounds 12-26."
_OTHER_LIKE = re.compile(
    r"(?P<name>(?i:right|left|second|2nd|other) [a-z]+(?: [a-z]+)?)\s*[,:-]\s*"
    rf"(?=(?:(?:join|attach)\b[^.;:\n]{{0,60}}?\b(?:and|then)\s+)?{LIKE_ANOTHER.pattern})"
)
# "Body. We continue with the fourth leg."
_NAMED = re.compile(r"(?P<name>(?:The )?[A-Z][a-z]+(?: (?:and |of )?[a-z]+){0,2})\.\s+(?=[A-Z])")
MAKE_LINE = re.compile(
    r"\s*[(\[]?\s*(?:(?:make|crochet|you need|need)\s+|x\s*)(?P<n>\d{1,3}|"
    r"[a-z]+)\b(?P<rest>[^.\n]{0,40})[)\]]?[.:]?\s*$"
    r"|\s*[(\[]?\s*(?P<n2>\d{1,2}|two|three|four|five|six)\s*(?:pieces?|pcs|parts|details|x|times|of each|"
    r"alike)\s*[)\]]?[.:]?\s*$",
    re.I,
)
# The same told of the other one of two: "You need a pair.", "The second one is worked alike."
_TWO_OF_IT = re.compile(
    r"\s*(?:(?:you(?:'ll| will)? need|make) (?:a pair|two|2)(?: of (?:these|those|them))?|"
    r"(?:do|repeat|work|make) (?:all|everything|all (?:of )?(?:this|that)|the whole thing)"
    r"(?: again| once more| a second time)? for the (?:other|second) [a-z]+|"
    r"repeat(?: this| that)? for the (?:other|second) (?P<noun>[a-z]+)|"
    r"(?:the (?:second|other)(?: one| (?P<noun2>[a-z]+))?|its (?:twin|pair|partner|mate)) is "
    r"(?:worked|made|done|crocheted) (?:exactly )?(?:alike|(?:in )?the same(?: way)?|likewise|identically)|"
    r"(?:and |then |now )+(?:the (?:other|second) one|"
    r"(?:one more|another(?: one)?)(?: (?:just |exactly )?(?:the same|like (?:it|this|that)))?))\s*[.!]?\s*$",
    re.I,
)
_LISTS = ("materials", "yarn", "hook", "gauge", "abbreviations", "terms")
# A thing, a colon and what is told of it, in more than a name's words and with an end
_THING_TOLD = re.compile(
    r"\W*(?:the )?[A-Za-z][a-z]*(?: [a-z]+){0,2}\s*:\s+(?!(?:(?:make|work|crochet)\b|x ?\d|\d)[^.,]*$)"
    r"(?=(?:[^\s:]+\s+){2})[^:]*[a-z]\W*$"
)


class Heads(Placing):
    """Tells a heading from all that looks like one."""

    def two_of_it(self, text: str, following: tuple[int, int] | None) -> bool:
        """Does the line tell that the piece at hand, which ends here, is one of two?"""
        match = _TWO_OF_IT.match(text)
        if match is None or self.piece is None or self.piece.make != 1:
            return False
        if not any(isinstance(i, RawCourse) for i in self.piece.items):
            return False
        if following is not None and self.opens_course(*following):
            return False
        noun = (match["noun"] or match["noun2"] or "one").lower()
        return noun == "one" or noun.rstrip("s") in (self.piece.name or "").lower()

    def heading_before_course(self, at: int, end: int, index: int) -> str | None:
        """ "Wing (make 2): 5 sc in a magic ring" or "Loop: Ch 10.": a heading with an unnumbered course behind it."""
        match = _OTHER_LIKE.match(self.text, at, end) if self.any_course else None
        match = match or _GLUED.match(self.text, at, end) or _GLUED_LIKE.match(self.text, at, end)
        if not match:
            return None
        inside = within.within(self.text, match.end(), end)
        told = self.text[match.end() : inside[0].start].strip() if inside else ""
        loud = match["name"].split("(")[0].isupper() and _BEGUN.match(told)
        if inside and not (told and (loud or inside[0].numbers[:1] == [1])):
            return None
        head = headings.heading(match["name"], True, True)
        words = re.findall(r"[a-z]+", match["name"].lower())
        if head is None or not (head[1] > 1 or any(w in headings.PARTS for w in words) or match["name"].isupper()):
            return None
        if inside:
            if len(words) > 4 or not self.text[match.end() : inside[0].start].rstrip().endswith((".", ":", ";", ",")):
                return None
            self.new_piece(head[0], head[1], at)
            return self.glued(match.end(), inside, end, index)
        rest = self.text[match.end() : end]
        if self.any_course and (LIKE_ANOTHER.match(rest) or match.re is _OTHER_LIKE):
            self.new_piece(head[0], head[1], at)
            self.put_text(match.end(), end)
            return "reference"
        chains = furniture.foundation(rest) is not None
        if not chains and not self._opens_plainly(match.end(), end):
            return None
        self.new_piece(head[0], head[1], at)
        return self.foundation(match.end(), end) if chains else self.unlabelled(match.end(), end)

    def heading_in_sentence(self, at: int, end: int, following: tuple[int, int] | None) -> str | None:
        """ "Body. We continue with the fourth leg." above row 1, "Tail. We dial 12 ch, ...": a name and a full stop."""
        apart = self.any_course and self.blank and self.section == "pattern"
        match = _NAMED.match(self.text, at, end) if apart else None
        words = match["name"].lower().split() if match is not None else []
        if match is None or not all(w in headings.PARTS or w in ("and", "the", "of") for w in words):
            return None
        rest = spans_of_sentences(self.text, match.end(), end)
        first = rest[0]
        works = self.stitchy(*first) or furniture.foundation(self.text[slice(*first)]) is not None
        if not works and not (following is not None and self.begins(*following)):
            return None
        self.new_piece(headings.tidy_name(match["name"]), 1, at)
        for start, stop in rest:
            if furniture.foundation(self.text[start:stop]) is not None:
                self.foundation(start, stop)
            elif works and (start, stop) == first:
                self.unlabelled(start + len(self.text[start:stop]) - len(self.text[start:stop].lstrip()), stop)
            else:
                self.put_text(start, stop)
        return "heading"

    def begins_at(self, line: tuple[int, int]) -> bool:
        """ "Starting at the beak with B" in front of a first course: where a part begins, below its name."""
        after = self.line_after(line) if _BEGINS_AT.match(self.text, *line) else None
        return after is not None and self.begins(*after)

    def _under_capitals(self) -> bool:
        """Is the name of the piece at hand printed with a capital?"""
        name = self.text[self.piece.at : self.piece.at + 40].lstrip(" #*_=~[(") if self.piece is not None else ""
        return bool(self.piece is not None and self.piece.name) and name[:1].isupper()

    def heading(
        self, text: str, at: int, end: int, following: tuple[int, int] | None, index: int
    ) -> str | None:
        if text[:1].islower() and _MID_SENTENCE.search(self.text, max(0, at - 40), at):
            return None
        leads = following is not None and (
            self.opens_course(*following)
            or bool(MAKE_LINE.match(self.text[following[0] : following[1]]))
            or self.founds(*following, self.line_after(following))
            or alone.ring(self.text[following[0] : following[1]])
            or self.begins_at(following)
        )
        hashed = bool(re.match(r"\s*#", self.text[at - 2 : at + 1]))
        first = following is not None and self.begins(*following)
        head = headings.narrated(text) if leads and (first or text.rstrip().endswith(":")) else None
        if head is not None and not (self._under_heading() and re.match(r"\W*(?:start|begin)", text, re.I)):
            self.new_piece(head[0], head[1], at)
            return "heading"
        # "Fork bar / With slate. / Rnd 1": a name that no list has, above its colour
        shaded = self.any_course and self.blank and not leads and self._coloured(following)
        # "POT", right behind a list
        loud = self.blank and text.strip().isupper() and len(text.split()) > 1
        below = not leads and self.section in _LISTS and (loud or self._coloured(following)) and self.leads_soon(index)
        head = headings.heading("# " + text if hashed else text, self.blank, leads or shaded or below)
        if head is None or self._works_stitches(text, at, end) or (self._under_heading() and LIKE_ANOTHER.match(text)):
            return None
        if self.goes_on(following) and head[1] == 1 and not hashed and _THING_TOLD.match(text):
            return None  # "Cheeks: pink thread, three stitches under each eye." between two rounds
        if self._under_heading() and head[1] == 1 and _BEGINS_AT.match(text):
            return None  # "Head / Starting at the nose with B"
        if is_colour(text) and (self.piece is not None or (leads and self.out.title)):
            self.ensure_piece(at)
            return None  # "Navy:" before a round is a colour
        on = self.goes_on(following)
        talks = self.piece is not None and head[1] == 1 and colour_talk(text, self.yarns())
        dressed = self.blank and leads and headings.dressed(text)  # "Watering can, in grey"
        if talks and (on or not (dressed or self.names_more(head[0]))):
            return None  # "Back to red!"
        if leads and head[1] == 1 and self._shade_below(text):
            return None
        if head[1] == 1 and len(text.split()) <= 2 and classify(text) in ("stuff", "close", "fasten", "weave"):
            return None  # "Stuffing" between two rounds
        if head[1] == 1 and len(text.split()) > 2 and not text.strip().isupper() and text.strip()[-1:] != ":":
            asked = classify(text)
            if asked is not None and asked not in ("other", "join", "colour", "turn"):
                return None
        marked = (
            bool(re.match(r"\s*#", text))
            or hashed
            or "**"
            in self.page.original[self.page.back(at) - 3 if self.page.back(at) >= 3 else 0 : self.page.back(at) + 1]
        )
        words = {w.lower() for w in re.findall(r"[A-Za-z]+", head[0])}
        known = bool(words & headings.PARTS) or (self.blank and headings.dressed(text))
        if on and not marked and not self.finished() and self.spoken_of(text):
            return None
        if on and not marked and head[1] == 1 and text[:1].islower() and self._under_capitals():
            return None  # "flat bottom:" beneath "BODY", its rounds going on in number
        if on and not known and not marked and head[1] == 1 and not text.strip().isupper() and not self.finished():
            return None  # its rounds go on in number and no part is named: no piece begins here
        defines = not marked and bool(_DEFINES.match(text)) and bool(re.search(r"[:=\-]\s*\w", text))
        if self.section == "abbreviations" and defines and not (leads and first and known and self.blank):
            return None
        named = known or text.strip().isupper()
        part = known and len(words) == 1  # "Torso" under the title and a list of what one needs
        front = self._coloured(following) or (bool(self.out.title) and (part or (named and self.section != "front")))
        stands = not leads and (known or head[1] > 1) and self.blank and (self.any_course or front)
        if below or ((stands or shaded) and self.leads_soon(index)):
            self.new_piece(head[0], head[1], at)
            return "heading"
        if (
            not self.out.title
            and not self.any_course
            and not self.out.pieces
            and self.section == "front"
            and not (leads and (known or head[1] > 1))
        ):
            return None
        if (
            self.section in ("front", "materials", "abbreviations", "gauge", "hook", "notes", "yarn", "terms")
            and not leads
            and not (head[1] > 1 and self.section == "front")
            and not (marked and known)
        ):
            asks = following is not None and self._asks(*following) and self.any_course
            if not (
                known
                and self.section in ("notes", "front")
                and following is not None
                and (self.stitchy(*following) or asks)
            ):
                return None
        if (
            self.section in ("pattern", "assembly")
            and self.any_course
            and not leads
            and not marked
            and head[1] == 1
            and not known
            and not text.strip().isupper()
            and not text.strip().endswith(":")
        ):
            return None
        if (
            text.strip().endswith(":")
            and not leads
            and not known
            and not marked
            and head[1] == 1
            and self._asks(at, end)
        ):
            return None
        self.new_piece(head[0], head[1], at)
        return "heading"
