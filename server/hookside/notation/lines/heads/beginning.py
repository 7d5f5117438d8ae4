"""Where a piece begins: its heading, on a line of its own or glued to its first course; or that it is one of two."""

from __future__ import annotations

import re

from hookside.notation.askings.askings import askings
from hookside.notation.askings.colournames import is_colour, only_shades
from hookside.notation.askings.features import embroidered
from hookside.notation.askings.when import may_tell
from hookside.notation.labels import within
from hookside.notation.labels.references import LIKE_THEN, SAME_THEN
from hookside.notation.lines import furniture
from hookside.notation.lines.copies.asked import copies, copies_behind, only_how_many
from hookside.notation.lines.copies.words import in_our_words
from hookside.notation.lines.heads import headings
from hookside.notation.lines.heads.namedjob import named_job
from hookside.notation.lines.heads.narrated import narrated
from hookside.notation.lines.heads.wholethings import WholeThing, whole_thing
from hookside.notation.lines.layout import RawText, spans_of_sentences
from hookside.notation.lines.refusals.copies import LIKE_ANOTHER
from hookside.notation.lines.refusals.named import MAKE_LINE
from hookside.notation.lines.refusals.rounds import GOES_ON_FROM
from hookside.notation.lines.refusals.table import A_COLOUR, A_SHADE, DONE_TO, IN_A_FRAME, IN_A_WORD, Refusals
from hookside.notation.lines.unlabelled import alone
from hookside.notation.vocabulary import NUMBER_WORDS, SEVERAL, SEVERAL_WORDS

_PIECES = re.compile(r"\s*\d{1,2} ?pcs?\.?\s*", re.I)
_CHAINS = re.compile(r"\s*ch(?:ain)?\b", re.I)
# "POT terracotta": the name in capitals, its yarn in small letters
_LOUD_AND_DYED = re.compile(r"(?P<name>[A-Z][A-Z']{2,14}(?: [A-Z']{2,14})?),? (?P<shade>[a-z]{3,12}(?: [a-z]{3,12})?)")
_GLUED = re.compile(
    r"(?P<name>[A-Z][A-Za-z' ]{1,24}(?:(?:,? ?| -+ )[(\[]?(?i:make|x) ?\w{1,6}[)\]]?|,? ?[(\[]?[2-8] ?x[)\]]?|"
    r",? [(\[]?\d{1,2} (?:pcs\.?|pieces)[)\]]?|"
    rf" \((?:[2-8]|{SEVERAL_WORDS})\)|"
    rf",? {SEVERAL} of (?:them|these))?)"
    r"(?P<shade>,? ?[(\[]?(?!(?:make|two|three|four|five|six|eight|pair)\b)(?:(?:in|with|using) )?"
    r"[a-z]{3,12}(?: [a-z]{3,12}){0,2}[)\]]?)??"
    r"(?:\s*:|\s+-|\.\s+-+|(?<=[A-Z]{3})\.(?=\s+[A-Z\d])|(?<=\))\.)\s*(?=\S)"
)
_LONGEST_TOLD = 60  # letters of a name, its colour and how many, in front of its first round
_TO_BODY = 6  # letters in which a number shows that it is a label
_BEGUN = re.compile(r"(?:commence|begin|start|make|work|chain|ch\b|with\b|using\b|\d)", re.I)
_RING_ALONE = re.compile(r"[^\d.;]*\b(?:ring|circle|"
    r"loop)\b[^\d.;]{0,20}\.?", re.I)  # "With A, form an adjustable ring."
# "Using grey and a 3 mm hook, make a magic ring." and nothing more
_RING_BEGUN = re.compile(
    r"(?:(?:with|using|in|take|use)\b[^;:\n]{2,50}?[, ]\s*)?(?:(?:and|then|we|you) )*"
    r"(?:make|form|begin with|start with) an? (?:magic |adjustable |sliding )?(?:ring|circle|loop)\.?",
    re.I,
)
_BEGINS = re.compile(r"\W*(?:start|begin)", re.I)
# "Arm 2: like arm 1", "Leg 2, 3 and 4: the same"
_GLUED_LIKE = re.compile(
    r"(?P<name>[A-Z][A-Za-z]+(?:, ?| ?\()(?:the )?(?i:left|right|inner|outer|second|2nd|other|back|front|upper|lower)"
    r"(?: one)?\)?|[A-Z][A-Za-z' ]{1,24}(?:\d(?:\s?(?:, ?and|[,&+/-]|and|to) ?\d){0,7}|"
    r"(?<= )[B-H](?:\s?(?:, ?and|[,&+/-]|and|to) ?[C-H]){1,5}))"
    rf"\s*(?:[:-]|,|(?<=\d)\.)\s*\s*(?={LIKE_ANOTHER.pattern})",
    re.I,
)
# "Right leg, same R1-R7", "Second leg: join yarn to the other stitches and repeat rounds 12-26."
_OTHER_LIKE = re.compile(
    r"(?P<name>(?i:right|left|second|2nd|other) [a-z]+(?: [a-z]+)?)\s*[,:-]\s*"
    rf"(?=(?:(?:join|attach)\b[^.;:\n]{{0,60}}?\b(?:and|then)\s+)?{LIKE_ANOTHER.pattern})"
)
# "For the second leg do the same, without cutting."
_FOR_OTHER = re.compile(
    r"(?:(?:and|now|then|next),? )?(?:for|make|work|crochet) (?:the |your )?"
    r"(?P<name>(?:right|left|second|2nd|other) [a-z]+),?\s+"
    r"(?=(?:(?:do|make|work|crochet|repeat)\s+)?(?:exactly |just )*(?:in )?(?:the )?same\b(?! (?:as|st|round|row|sp)))",
    re.I,
)
# "Body. We continue with the fourth leg."
# ..., "EAR. (Make 2). Using tan," above "Rnd 1"
_NAMED = re.compile(
    r"(?P<name>(?:The )?[A-Z][a-z]+(?: (?:and |of )?[A-Za-z][a-z]+){0,2}|[A-Z]{3,}(?: [A-Z]{2,}){0,2})"
    r"(?P<copies>\.?\s*[(\[][^()\[\]]{1,24}[)\]]| ?[xX] ?\d{1,2}|"
    r", (?i:make )?[A-Za-z]{3,5} (?i:for|on|per) [a-z ]{4,20})?"
    r"\.\s+(?=[A-Z]|\d{1,2} (?:pieces|pcs|parts|details|of (?:them|these))\b)"
)
# A name of a word or two, and what is told behind its comma
_NAME_AND_MORE = re.compile(r"(?:The )?[A-Z][A-Za-z]+(?: [a-z]+)?(?: ?\([^()\n]{1,24}\))?(?:,| in) ")
_CALLED = re.compile(r",? (?:main )?(?:colou?r|yarn|shade)$")  # "Body, colour: chestnut."
_NO_PART = re.compile(r"\b(?:yarn|wool|cotton|thread|hook|eyes|colou?rs?|shade|felt|terms)\b", re.I)  # what is bought
# "LEG (make 4) With A, form an adjustable ring.", as magazines have it
_LOUD_WITH = re.compile(
    r"(?P<name>[A-Z]{3,}(?: [A-Z]{2,}){0,2})(?P<copies>\s*[(\[](?i:make|work|x) ?\w{1,6}[)\]])?:?\s+(?=(?:With|Using|"
    r"Join)\s)"
)
_CUT_BEHIND = re.compile(r"(?:,| and| then)+ (?:fasten|finish|cut|break|f\.?o\b|bind|tie)", re.I)
_SHADE_LEADS = re.compile(r"\s*(?P<shade>[A-Za-z]+(?: [A-Za-z]+)?)\s*:\s*(?=\S)")
_IN_YARN = re.compile(r"\s*(?:with|using|in) [a-z]+", re.I)
_OF_TWO = (_OTHER_LIKE, _FOR_OTHER)
# How many that is in all, `partslist` counts where all parts are known
_ONE_EACH = re.compile(
    r"\W{0,3}(?:make |work |crochet )?(?:one|1) (?:(?:for|on|to) (?:each|every)|per) [a-z]+\W{0,3}$", re.I
)
# "SIDES (both alike): They are worked in rows."
_NAMED_AND_TOLD = re.compile(
    r"(?P<name>[A-Z][A-Za-z' ]{1,24}?)(?P<copies>\s*[(\[][^()\[\]\n]{1,24}[)\]])?\s*:\s+"
    r"(?=(?:They|It|These|This|Each|Both|All)\b)"
)


class Heads(Refusals):
    """Tells a heading from all that looks like one."""

    def other_of_two(self, at: int, end: int) -> re.Match[str] | None:
        """The other one of two, which is made like the one before."""
        if not self.any_course:
            return None
        return _OTHER_LIKE.match(self.text, at, end) or _FOR_OTHER.match(self.text, at, end)

    def made_twice(self, name: str) -> bool:
        """ "Second leg: same" below "Leg (make 2)": is the part at hand made twice already?"""
        piece = self.piece
        return piece is not None and piece.make > 1 and name.lower().split()[-1] in (piece.name or "").lower()

    def heading_before_course(self, at: int, end: int, index: int) -> str | None:
        """ "Wing (make 2): 5 sc in a magic ring" or "Loop: Ch 10.": a heading with an unnumbered course behind it."""
        role = self._glued_heading(at, end, index)
        if role is not None or not self.any_course:
            return role
        thing = whole_thing(self.text[at:end])
        return self.thing_told(thing, at, end) if thing is not None else None

    def _glued_heading(self, at: int, end: int, index: int) -> str | None:
        match = self.other_of_two(at, end)
        if match is not None and self.made_twice(match["name"]):
            self.put_text(at, end)
            return "cue"
        match = match or _GLUED.match(self.text, at, end) or _GLUED_LIKE.match(self.text, at, end)
        if not match:
            return None
        end = at + len(self.text[at:end].rstrip(" ,"))  # "Ear: 5 sc in MR (5),": the page broke it there
        dyed = self.text[at : match.end("shade")] if match.re is _GLUED and match["shade"] else ""
        if dyed and headings.colour_told(dyed) is None:
            return None  # "Beak, in orange: magic ring, 4 sc."
        inside = within.within(self.text, match.end(), end)
        first = within.FIRST_NUMBER.search(self.text, at, min(end, match.end() + _TO_BODY)) if not inside else None
        if first is not None and first.start("n") == match.end() and self.inside(at, end):
            return None  # "Head: 1) MR 6sc (6) 2) 6inc (12)": told as any label inside a line
        told = self.text[match.end() : inside[0].start].strip() if inside else ""
        loud = match["name"].split("(")[0].isupper() and _BEGUN.match(told)
        between = (match.end(), inside[0].start) if inside else (0, 0)
        like = bool(inside) and self.any_course and (
            LIKE_THEN.fullmatch(self.text, *between) or SAME_THEN.fullmatch(self.text, *between)
        )
        if inside and not (told and (like or loud or inside[0].numbers[:1] == [1])):
            return None
        head = headings.heading(match["name"], True, True)
        if head is None and match.re in _OF_TWO:
            head = match["name"], 1  # "2nd leg"
        words = re.findall(r"[a-z]+", match["name"].lower())
        if head is None or not (head[1] > 1 or any(w in headings.PARTS for w in words) or match["name"].isupper()):
            return None
        if inside:
            if inside[0].numbers[:1] == [1] and (made := self._told_with(at, inside[0].start, told)):
                self.new_piece(head[0], made, at)  # "Wings: two, in white. R1: ..."
                self.put_told(at, inside[0].start)
                self.labelled(inside[0], end)
                return "course"
            ended = self.text[match.end() : inside[0].start].rstrip().endswith((".", ":", ";", ","))
            if len(words) > 4 or not (like or ended):
                return None
            self.new_piece(head[0], head[1], at)
            return self.glued(match.end(), inside, end, index)
        rest = self.text[match.end() : end]
        if embroidered(self.text[at:end]) or _PIECES.fullmatch(rest):
            return None  # "Mouth: straight sts", "Tail: 1 pc"
        if self.any_course and (LIKE_ANOTHER.match(rest) or match.re in _OF_TWO):
            self.new_piece(head[0], head[1], at)
            self.put_text(match.end(), end)
            return "reference"
        own = self.label_at(match.end() + len(rest) - len(rest.lstrip()), end)
        if own is not None and own.numbers[:1] == [self.last_number + 1] and _CHAINS.match(self.text, own.end, end):
            self.new_piece(head[0], head[1], at)  # "Rim: Rnd 17. Ch 1, hdc around"
            return self.labelled(own, end)
        begins, shade = self._behind_shade(match.end(), end)
        stop = self._work_ends(begins, end)
        if stop is None:
            return None
        if not (self._under_heading() and self.piece is not None and self.piece.make > 1 and head[1] == 1):
            self.new_piece(head[0], head[1], at)  # "BOOTIE, 2 pcs. / Sole: ch 11." is one piece, by the first name
            if match.re is _GLUED:
                self.put_told(at, match.end("shade" if match["shade"] else "name"))
        if shade is not None:
            self.put_colour(*shade)
        return self._work_in_line(begins, stop, end)

    def thing_told(self, thing: WholeThing, at: int, end: int) -> str | None:
        """ "tentacles - ch 30, 2 sc in each ch from 2nd ch. Make 6": a part of its own, its work in the same line."""
        if not thing.hooked and not thing.asked:
            if self._asks(at, end) or self.piece is None:
                self.put_text(at, end)
            else:
                self.piece.items.append(RawText(at, end, "other"))  # "hair - cut 10 strands"
                self.course = None
            return "cue"
        begins, shade = self._behind_shade(at + thing.begins, end)
        stop = self._work_ends(begins, end) if thing.hooked else None
        if (thing.hooked and stop is None) or self.inside(at, end):
            return None
        self.new_piece(headings.tidy_name(thing.name), thing.make, at)
        self.put_told(at, at + thing.head)
        if shade is not None:
            self.put_colour(*shade)
        if stop is not None:
            return self._work_in_line(begins, stop, end)  # how many are told behind it: `Behind`
        if self.piece is not None:
            self.piece.make = max(thing.make, thing.behind)
            self.piece.items.append(RawText(begins, end, "other"))
        return "heading"

    def _work_ends(self, begins: int, end: int) -> int | None:
        """Where the first course behind a name ends and what becomes of it begins; None where none stands there."""
        if furniture.foundation(self.text[begins:end]) is not None or self._opens_plainly(begins, end):
            return end
        stop = self._cord_ends(begins, end)
        return stop if stop < end and furniture.foundation(self.text[begins:stop]) is not None else None

    def _work_in_line(self, begins: int, stop: int, end: int) -> str:
        """A chain or a round behind a name, and behind a chain what becomes of it."""
        chains = furniture.foundation(self.text[begins:stop]) is not None
        role = self.foundation(begins, stop) if chains else self.unlabelled(begins, stop)
        if stop == end:
            return role
        self.put_text(stop, end)
        return "heading"

    def _cord_ends(self, at: int, end: int) -> int:
        """ "with orange ch 10, fasten off, knot the end": where the chain ends, and what becomes of it begins."""
        stop = spans_of_sentences(self.text, at, end)[0][1] if at < end else end
        cut = _CUT_BEHIND.search(self.text, at, stop)
        return cut.start() if cut is not None else stop

    def heading_with_job(self, at: int, end: int, following: tuple[int, int] | None) -> str | None:
        """ "Body (grey): join grey to the back loops of round 8" above a first round: a name, and what is asked."""
        told = named_job(self.text[at:end]) if following is not None else None
        if told is None or following is None or not (self.opens_course(*following) and self.begins(*following)):
            return None
        if alone.stitches_in_ring(self.text[at + told[1] : end]):
            return None  # "Body: make a ring of 6 sc.": its first round
        name = self.text[at : at + told[0]]
        head = headings.heading(name, True, True)
        if in_our_words(name) == name and in_our_words(self.text[at:end]) != self.text[at:end]:
            return None  # "Ears - make the second the same": copies, and no job
        part = not headings.PARTS.isdisjoint(re.findall(r"[a-z]+", name.lower()))
        if head is None or not (part or head[1] > 1 or headings.colour_told(name) is not None):
            return None
        self.new_piece(head[0], max(head[1], copies_behind(self.text[at + told[1] : end])), at)
        self.put_told(at, at + told[0])
        if self.piece is not None:
            begins = at + told[1]
            asked = askings(self.text[begins:end])
            if all(kind == "other" for kind, _, _ in asked) and _RING_ALONE.fullmatch(self.text[begins:end].strip()):
                self.put_told(begins, end)  # the ring itself is made in round 1
                return "heading"
            self.piece.items.append(RawText(begins, end, None if asked else "other"))
        return "heading"

    def _behind_shade(self, at: int, end: int) -> tuple[int, tuple[int, int] | None]:
        """ "orange. Chain 4, ..." behind a name: where its work begins, and the colour in front of that."""
        led = _SHADE_LEADS.match(self.text, at, end)
        if led is not None and is_colour(led["shade"].lower()):
            return led.end(), led.span("shade")  # "Nose: black: 5 sc in ring"
        spans = spans_of_sentences(self.text, at, end)
        if len(spans) < 2 or not is_colour(self.text[slice(*spans[0])]):
            return at, None
        first, stop = spans[0]
        told = self.text[first:stop]
        begins = spans[1][0] + len(self.text[slice(*spans[1])]) - len(self.text[slice(*spans[1])].lstrip())
        return begins, (first + len(told) - len(told.lstrip()), first + len(told.rstrip(" .")))

    def _told_with(self, at: int, end: int, told: str) -> int:
        """How many of a part, where nothing but that and its colour is told behind its name; 0 for other words."""
        if made := only_how_many(told):
            return made
        words = self.text[at:end].rstrip(" .:")
        name, made = copies(words)
        shade = headings.colour_told(words) if made > 1 and len(words) <= _LONGEST_TOLD else None
        if made < 2 or len(words) > _LONGEST_TOLD or (shade is None and len(name.split()) > 3):
            return 0
        return made if shade is None or shade[1] >= len(words) - 1 else 0

    def heading_in_sentence(self, at: int, end: int, following: tuple[int, int] | None) -> str | None:
        """ "Body. We continue with the fourth leg." above row 1, "Tail. We dial 12 ch, ...": a name and a full stop."""
        told = self.named_with_copies(at, end, following) or self.copies_then_work(at, end, following)
        if told is not None:
            return told
        topic = _NAMED_AND_TOLD.match(self.text, at, end) if following is not None and self.begins(*following) else None
        if topic is not None and headings.PARTS.issuperset(topic["name"].lower().split()) and not self.stitchy(
            topic.end(), end
        ):
            self.new_piece(headings.tidy_name(topic["name"]), copies(topic["name"] + (topic["copies"] or ""))[1], at)
            self.put_text(topic.end(), end)
            return "heading"
        if self.named_with_colour(at, end, following):
            return "heading"
        begins = not self.any_course and following is not None and self.begins(*following)
        match = _NAMED.match(self.text, at, end) if self.section != "assembly" else None
        again = self.any_course and following is not None and self.begins(*following)  # right below the part above
        if match is not None and not (self.blank or begins or again or self._own_chain(match.end(), end)):
            match = None
        front = self.text[match.end() : end].strip() if match is not None and begins else ""
        chained = furniture.foundation(front) is not None or _RING_BEGUN.fullmatch(front) is not None
        if match is not None and begins and not (self.blank or chained):
            match = None  # "Owl. With some talk of it" right below a title
        loud = _LOUD_WITH.match(self.text, at, end) if match is None else None
        goes_on = self.any_course and self.section == "pattern"
        if match is not None and not (match["name"].isupper() or goes_on or chained):
            return None
        match = match or loud
        words = match["name"].lower().split() if match is not None else []
        if match is None or not all(loud or w in headings.PARTS or w in ("and", "the", "of", "with") for w in words):
            return None
        rest = spans_of_sentences(self.text, match.end(), end)
        first = rest[0]
        made = copies(match["copies"] or "")[1]
        told = self.text[slice(*first)]
        if MAKE_LINE.match(told):
            made, rest = copies(told)[1], rest[1:]  # "ARMS. Make 8. Grey for four."
        elif many := only_how_many(told) or bool(_ONE_EACH.match(told)):
            made, rest = many, rest[1:]  # "CUFF. One for each slipper. With white ch 36."
        elif "make" in told.lower() and len(told) <= _LONGEST_TOLD and not self.stitchy(*first):
            made = max(made, copies(told)[1])  # "ARMS. With brown, make 2."
        elif len(rest) == 1 and not match["copies"] and copies(self.text[at:end])[1] > 1:
            made = copies(self.text[at:end])[1]  # "Wings. White, and you want four."
            shade = re.match(r"\s*(?:in )?[a-z]+(?: [a-z]+)?(?=,)", told, re.I)
            dyed = shade is not None and is_colour(shade[0].strip().lower().removeprefix("in "))
            rest = [(first[0], first[0] + shade.end())] if shade is not None and dyed else rest
        told = self.text[slice(*first)].strip()
        ring = _RING_ALONE.fullmatch(told) or _RING_BEGUN.fullmatch(told)
        works = (self.stitchy(*first) and not ring) or furniture.foundation(self.text[slice(*first)]) is not None
        if not works and not (following is not None and self.begins(*following)):
            return None
        self.new_piece(headings.tidy_name(match["name"]), made, at)
        for start, stop in rest:
            if furniture.foundation(self.text[start:stop]) is not None:
                self.foundation(start, stop)
            elif works and (start, stop) == first:
                self.unlabelled(start + len(self.text[start:stop]) - len(self.text[start:stop].lstrip()), stop)
            else:
                self.put_text(start, stop)
        return "heading"

    def _own_chain(self, at: int, end: int) -> bool:
        """ "Handle. With red, make twelve chain and fasten off." right below a round: in another yarn, or behind a part
        that is cut off, it does not go on from its loop."""
        first = spans_of_sentences(self.text, at, end)[:1] if self.any_course else []
        told = self.text[slice(*first[0])] if first else ""
        if furniture.foundation(_CUT_BEHIND.split(told, maxsplit=1)[0]) is None:
            return False
        return _IN_YARN.match(told) is not None or self.finished()

    def named_with_colour(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """ "Nut, light brown.", "Body, colour: chestnut. Work from tail end to neck." above a first round."""
        named = _NAME_AND_MORE.match(self.text, at, end) if following is not None else None
        if named is None or following is None or not self.begins(*following):
            return False
        (first, stop), *rest = spans_of_sentences(self.text, at, end)
        told = self.text[first:stop].rstrip(" .")
        shade = headings.colour_told(told) if self.text[first:stop].rstrip().endswith(".") else None
        if shade is None or shade[1] < len(told) or self.stitchy(first, stop):
            return False
        name, made = copies(_CALLED.sub("", told[: shade[2]]))
        head = headings.heading(name, True, True) if "," not in name else None
        part = not headings.PARTS.isdisjoint(name.lower().split())
        if head is None or is_colour(name) or name.lower() in NUMBER_WORDS or _NO_PART.search(name):
            return False
        if not part and (rest or "," not in told):
            return False  # "Commence in brown."
        self.new_piece(head[0], max(made, head[1]), at)
        self.put_colour(first + shade[0], first + shade[1])
        for begin, ended in rest:
            many = only_how_many(self.text[begin:ended])
            if many and self.piece is not None:
                self.piece.make = many  # "Wing, dark green. Make two."
            else:
                self.put_text(begin, ended)
        return True

    def named_with_copies(self, at: int, end: int, following: tuple[int, int] | None) -> str | None:
        """ "Wing. Crochet it twice." above a first round: a name, a full stop, and how many."""
        match = _NAMED.match(self.text, at, end) if following is not None else None
        if following is None or match is None or match["copies"] or not self.begins(*following):
            return None
        rest = self.text[match.end() : end].strip()
        made = only_how_many(rest)
        name = headings.heading(match["name"], True, True) if made else None
        if name is None:
            return None
        self.new_piece(name[0], made, at)
        return "heading"

    def copies_then_work(self, at: int, end: int, following: tuple[int, int] | None) -> str | None:
        """ "The wings are two alike. With brown make 5 chain.": a part and how many of it in a sentence, and what it
        begins with behind that."""
        parts = spans_of_sentences(self.text, at, end)
        if not parts:  # ">": an empty line of a letter that is quoted
            return None
        (first, stop), *rest = parts
        name = self.text[first:stop].rstrip(" .:")
        if not rest or following is None or len(name) > _LONGEST_TOLD or not (self.blank and self.begins(*following)):
            return None
        head = headings.heading(name, True, True)
        if head is None or head[1] < 2 or headings.PARTS.isdisjoint(head[0].lower().split()):
            return None
        if furniture.foundation(self.text[slice(*rest[-1])]) is None:
            return None
        self.new_piece(*head, at)
        for span in rest[:-1]:
            self.put_text(*span)
        self.foundation(*rest[-1])
        return "heading"

    def heading(self, text: str, at: int, end: int, following: tuple[int, int] | None, index: int) -> str | None:
        """Begins the piece that this line names, where it names one; else the trace says why it does not."""
        may_name = headings.heading(text, True, True) is not None or self.hashed(at) or narrated(text) is not None
        if not may_name or self.mid_sentence(text, at):
            return None
        name = self.looked_at(text, at, end, following, index)
        below = self.blank and following is not None and self.begins_at(following)
        head = narrated(text) if name.leads and (name.first or below or text.rstrip().endswith(":")) else None
        if head is None or (self._under_heading() and (_BEGINS.match(text) or GOES_ON_FROM.match(text))):
            self.looked_around(name)
            told = "# " + text if name.hashed or name.numbered else text
            again = name.first and self.last_number > 0 and not self.no_round_yet()
            titled = bool(self.out.title) and self.piece is None and name.leads
            again = again or (titled and headings.dressed(text))  # "Cake part (pale yellow)" right below a title
            head = headings.heading(told, self.blank or again, name.leads or name.shaded or name.below)
            if head is None:
                return None
            why = self.refusal(self.judged(name, head))
            if why is not None:
                self.out.no_heading[at] = why
                if why == A_COLOUR:
                    self.ensure_piece(at)
                below = why == A_COLOUR and self.no_round_yet() and only_shades(text) and not may_tell(text)
                if why == A_SHADE or below:
                    self.put_colour(at, end)
                    return "cue"
                if why in (IN_A_WORD, IN_A_FRAME) or (why == DONE_TO and name.on):
                    self.put_word(text, at, end)
                    return "cue"
                return None
        dyed = _LOUD_AND_DYED.fullmatch(head[0])
        shade = dyed["shade"] if dyed is not None and is_colour(dyed["shade"]) and dyed["shade"] in text else ""
        self.new_piece(dyed["name"] if dyed is not None and shade else head[0], head[1], at)
        if shade:
            begins = at + text.rindex(shade)
            self.put_colour(begins, begins + len(shade))
        return "heading"
