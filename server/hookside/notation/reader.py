"""The whole way from a text to a Pattern: every stage in order."""

from __future__ import annotations

import re
from typing import Any

from hookside.notation.askings.colourtalk import yarn_words
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.yarnstaken import words_taken
from hookside.notation.bodies.own import own_stitches
from hookside.notation.courses.countedhead import begins_with
from hookside.notation.courses.cue_notes import CueNotes
from hookside.notation.courses.foretold import Spans, foretold, note_lines
from hookside.notation.courses.headed import with_colours
from hookside.notation.courses.lineup import Lineup
from hookside.notation.courses.sheet import Sheet, Stage
from hookside.notation.courses.told import last_stages
from hookside.notation.courses.toldways import Way, begun, keep, lost, ways_told
from hookside.notation.courses.turning import turning_notes
from hookside.notation.courses.waiting import name_of, slug
from hookside.notation.courses.walking import Walk
from hookside.notation.findings.folding import folded
from hookside.notation.findings.omitted import left_out
from hookside.notation.findings.ownkeys import keys_untaken
from hookside.notation.findings.struck import struck_out
from hookside.notation.findings.table import finding
from hookside.notation.findings.unasked import unasked
from hookside.notation.labels import forsome, references
from hookside.notation.lines import segments
from hookside.notation.lines.copies.above import made_up_of
from hookside.notation.lines.copies.asked import left_open
from hookside.notation.lines.copies.denied import denied
from hookside.notation.lines.copies.numberedparts import numbered_parts
from hookside.notation.lines.copies.uppers import joined, parted
from hookside.notation.lines.keys.keywithin import scattered
from hookside.notation.lines.layout import Layout, RawCourse, RawPiece, RawText
from hookside.notation.page.cleaning import Page, clean
from hookside.notation.supposing import settled
from hookside.notation.terms import Decision, decide
from hookside.notation.uncollected import uncollected
from hookside.notation.unexplained import explained, letters_of, told_of
from hookside.pattern import Finding, Pattern, Piece, Terms, unchecked

MOST_BYTES = 256 * 1024
_LONGEST_HEADING = 300  # letters of a heading: all of a page may stand on one line


class Reader:
    """One reading of one text."""

    def __init__(
        self,
        text: str,
        terms: Terms | None,
        watch: bool = False,
        keep: bool = False,
        supposed: dict[str, tuple[int, int]] | None = None,
        letters: dict[str, str] | None = None,
    ) -> None:
        page = clean(text, terms)
        self.supposed = supposed  # what stitches of the text's own use and make, where its words do not say
        self.letters = letters or {}  # ... and what its letters mean that it does not explain
        self.open: list[str] = []  # such stitches
        self.decision: Decision = decide(page.text) if terms is None else Decision(terms, "You chose the terms.", True)
        self.page: Page = page
        self.sheet = Sheet(page, self.decision.terms, watch, keep)
        self.roles: list[tuple[int, int, str]] = []  # lines of the page, each with its role
        self.ways: list[Way] = []  # how rounds are worked, by sentences ahead of them
        self.kept: set[int] = set()  # where those begin that were kept, or of which it is said
        self.notes: list[Spans] = []  # for each piece the notes that may tell its jobs and colours

    def read(self) -> Pattern:
        sheet, page = self.sheet, self.page
        if not page.text.strip():
            return Pattern(findings=[finding(page, "empty", 0, 0)])
        layout = segments.cut(page, sheet.terms)
        self.roles = layout.roles
        if sheet.watch:
            sheet.see("page", 1, page.text, "unchanged" if page.text == page.original else "cleaned")
            for start, end, role in layout.roles:
                why = layout.no_heading.get(start)
                told = f"{role}; no heading: {why}" if why else role
                sheet.see("line", page.line(start), page.text[start:end].strip(), told)
        layout.abbreviations.update(scattered(page.text, layout, sheet.terms))
        if self.letters:
            layout.abbreviations.update(self.letters)
            sheet.findings.append(told_of(page, self.letters))
        own = own_stitches(page, layout.abbreviations, sheet.terms, self.supposed)
        self.open = own.open
        sheet.own, sheet.names = own.stitches, own.names
        sheet.findings.extend(own.findings)
        sheet.findings.extend(struck_out(page))
        sheet.yarns = sheet.names.yarns = yarn_words(layout.materials, page.text) | words_taken(page.text)
        sheet.turning = turning_notes(layout, page.text)
        raws = joined(parted(layout.pieces, page.text))
        for part in numbered_parts(raws, page.text):
            named = finding(page, "copies-numbered", part.at, part.at, name=part.name, piece=part.name)
            sheet.findings.append(named)
        noted = note_lines(page.text, layout)
        self.notes = foretold(page.text, noted, raws)
        self.ways = ways_told(page.text, layout.roles, raws)
        pieces = [self.piece(raw, index, layout) for index, raw in enumerate(raws)]
        shown = [p for p in pieces if p is not None]
        for raw, after, piece in zip(raws, [*raws[1:], None], pieces, strict=False):
            if piece is None:
                self.names_nothing(raw, after)
        if not any(p.courses for p in shown):
            sheet.findings.append(finding(page, "not-a-pattern", 0, 0))
            shown = []
        elif not self.decision.certain:
            sheet.findings.append(finding(page, "terms", 0, 0, because=self.decision.because))
        for start, end in layout.unread:
            words = page.quote(start, end).strip()
            sheet.findings.append(finding(page, "copies-ahead", start, end, words=words))
        already = {f.line for f in sheet.findings if f.code.startswith(("copies-", "for-some"))}
        for start, end, of, code in denied(page.text, layout):
            if page.line(start) not in already:
                about: dict[str, Any] = {"words": page.quote(start, end).strip(" ([,;:.)]")}
                if of is not None:
                    about |= {"name": of.name or layout.title, "n": of.make, "piece": of.name}
                sheet.findings.append(finding(page, code, start, end, **about))
        for start, end in layout.in_part:
            words = page.quote(start, end).strip()
            sheet.findings.append(finding(page, "copies-in-part", start, end, words=words))
        for bound, at in layout.bounds.items():
            if bound != "too-many-courses" or not sheet.full:
                sheet.findings.append(finding(page, bound, at, at))
        sheet.findings.sort(key=_in_the_text)
        pattern = Pattern.model_construct(
            format=1,
            title=layout.title or (shown[0].name if shown else ""),
            terms=sheet.terms,
            terms_because=self.decision.because,
            hook=layout.hook,
            gauge=layout.gauge,
            materials=layout.materials,
            notes=[n for n in layout.notes if n],
            abbreviations=layout.abbreviations,
            pieces=shown,
            findings=sheet.findings,
        )
        if shown:
            self.ways_lost(pattern)
            sheet.findings.extend(keys_untaken(page, layout.roles, sheet.own, pattern))
            heard = sheet.passed, sheet.asked, sheet.followed
            sheet.findings.extend(left_out(page, layout, pattern, *heard, noted, sheet.dyed))
            sheet.findings.extend(unasked(page, layout.roles, pattern))
            sheet.findings.sort(key=_in_the_text)
            pattern.findings = folded(sheet.findings)
        return pattern

    def piece(self, raw: RawPiece, index: int, layout: Layout) -> Piece | None:
        """A piece with its courses and cues; None where nothing in it asks for anything."""
        if not raw.items:
            return None
        name = raw.name or f"Piece {index + 1}"
        if not raw.name and index == 0 and layout.title:
            name = layout.title
        piece = unchecked(Piece, name=name, make=raw.make, line=self.page.line(raw.at), courses=[], cues=[])
        if not any(isinstance(i, RawCourse) for i in raw.items) and not self.like_another(raw):
            notes = CueNotes(self.sheet, piece)
            for item in raw.items:
                if isinstance(item, RawText):
                    notes.text(item, None)
            return piece if piece.cues else None
        said = len(self.sheet.findings)
        self.for_some(raw, piece)
        stem = self.sheet.stem(piece.name)
        lineup = Lineup(self.sheet, piece, raw)
        queue = lineup.run()
        self.sheet.done.setdefault(slug(piece.name), queue)
        for way in self.ways:
            if way.side is not None and (way.general or way.piece == index) and keep(way, queue):
                self.keeps(way)
        dyed = with_colours(self.sheet, piece, raw, queue, self.notes[index])
        for way in self.ways:
            if way.begins and (way.general or way.piece == index):
                dyed = begun(way, raw, dyed, self.page.text)
                break
        Walk(self.sheet, piece, stem, dyed, lineup.ring_ahead, self.notes[index]).run()
        if piece.make > 1 and begins_with(self.page.text, raw.at, piece, self.bottomless(said)):
            stitches: dict[str, Any] = {"piece": piece.name, "name": piece.name, "n": piece.make}
            self.sheet.findings.append(finding(self.page, "copies-or-count", raw.at, raw.at, **stitches))
            piece.make = raw.make = 1
        if raw.copies_of and piece.courses:
            self.joins_copies(piece, raw)
        if raw.under is not None and piece.courses:
            above = raw.under
            told = finding(self.page, above.code, raw.at, raw.at, piece=piece.name, name=piece.name, what=above.name,
                           n=above.made, own=above.own, found=raw.make)  # fmt: skip
            self.sheet.findings.append(told)
        if raw.again is not None:
            quoted: dict[str, Any] = {"piece": piece.name, "name": piece.name, "words": self.page.quote(*raw.again)}
            self.sheet.findings.append(finding(self.page, "more-of-what", *raw.again, **quoted))
        if piece.courses and (words := made_up_of(self.page.text, raw)):
            named: dict[str, Any] = {"piece": raw.name, "name": raw.name}
            self.sheet.findings.append(finding(self.page, "copies-of-what", raw.at, raw.at, words=words, **named))
        words = left_open(self.page.text[raw.at : raw.at + _LONGEST_HEADING].split("\n", 1)[0]) if raw.name else ""
        if words and piece.courses:
            where: dict[str, Any] = {"piece": raw.name, "name": raw.name, "n": raw.make}
            self.sheet.findings.append(finding(self.page, "copies-open", raw.at, raw.at, words=words, **where))
        return piece

    def bottomless(self, said: int) -> bool:
        """Was it said of a piece that its first round goes into nothing? `said`: how much was, before it was walked.

        Thousands of findings may stand behind a thousand pieces.
        """
        return any(found.code == "bottomless" for found in self.sheet.findings[said:])

    def names_nothing(self, raw: RawPiece, after: RawPiece | None) -> None:
        """A heading with nothing below it, which may have been a job ("Tail, over R4"): it is told as passed over.

        Right above another one it is a chapter's.
        """
        end = self.page.text.find("\n", raw.at)
        end = end if end >= 0 else len(self.page.text)
        chapter = after is not None and not self.page.text[end : after.at].strip(" \n\t#*=-_~")
        if raw.name and self.page.text[raw.at : end].strip() and not chapter:
            self.sheet.passed.append((raw.at, end))

    def keeps(self, way: Way) -> None:
        """Says once that rounds go into the loops that a sentence ahead of them tells."""
        if way.start not in self.kept:
            self.kept.add(way.start)
            self.sheet.asked.append((way.start, way.end))
            words = self.page.quote(way.start, way.end)
            told = finding(self.page, "loops-ahead", way.start, way.end, words=words, side=str(way.side))
            self.sheet.findings.append(told)

    def ways_lost(self, pattern: Pattern) -> None:
        """Says what sentences ahead of the rounds tell of them, where nothing was made of it."""
        heard = [*self.sheet.asked, *self.sheet.dyed]
        for way in self.ways:
            words = self.page.text[way.start : way.end]
            if not any(a < way.end and way.start < b for a, b in heard) and lost(way, words, pattern):
                quoted = self.page.quote(way.start, way.end)
                self.sheet.findings.append(finding(self.page, "way-ahead", way.start, way.end, words=quoted))
                self.kept.add(way.start)
        self.sheet.passed = [span for span in self.sheet.passed if span[0] not in self.kept]

    def for_some(self, raw: RawPiece, piece: Piece) -> None:
        """ "Cone (make 2, the second one without R4)": said, and shown in front of the first course."""
        end = self.page.text.find("\n", raw.at)
        heading = self.page.text[raw.at : end if end >= 0 else len(self.page.text)]
        first = next((i for i in raw.items if isinstance(i, RawCourse)), None)
        begins = (first.label.start if first.label else first.start) if first else raw.at + len(heading)
        heading = heading[: max(0, begins - raw.at)]
        spans = forsome.for_some(heading)
        if raw.make > 1 and not spans and (told := forsome.differs(heading)) is not None:
            spans = [told]
        for item in raw.items:
            words = self.page.text[item.start : item.end] if isinstance(item, RawText) and item.job else ""
            if words and forsome.of_one_copy(words) is not None:
                words = words.strip(" ,;:.()[]")
                found = finding(self.page, "for-some", item.start, item.end, piece=piece.name, words=words)
                self.sheet.findings.append(found)
        for a, b in spans if raw.headed else []:
            start, stop = raw.at + a, raw.at + b
            words = self.page.quote(start, stop).strip(" ,;:")
            self.sheet.findings.append(finding(self.page, "for-some", start, stop, piece=piece.name, words=words))
            if not any(isinstance(i, RawText) and i.start <= start and stop <= i.end for i in raw.items):
                raw.items.insert(0, RawText(start, stop, "other"))

    def joins_copies(self, piece: Piece, raw: RawPiece) -> None:
        """Says that rounds under the heading of a part are taken for a part of their own, made of its copies."""
        first = piece.courses[0]
        course = name_of(int(first.label), first.kind).capitalize()
        where: dict[str, Any] = {"piece": piece.name, "course": first.label, "course_id": first.id}
        told = finding(self.page, "copies-joined", raw.at, raw.at, Course=course, name=raw.copies_of, **where)
        self.sheet.findings.append(told)

    def only_dyes(self, item: RawText) -> bool:
        """ "With cream." in front of "Work as the first fin."."""
        words = self.page.text[item.start : item.end]
        return "colour" in (item.job, classify(words)) and not references.of_another(words)

    def like_another(self, raw: RawPiece) -> bool:
        """ "Work as the first fin" and nothing else: a piece whose courses are another one's."""
        ends = self.page.text.find("\n", raw.at)
        below = [item for item in raw.items if item.start > ends] or raw.items  # "LEGS (green)": behind its yarn
        first = next((i for i in below if not (isinstance(i, RawText) and self.only_dyes(i))), below[0])
        if not isinstance(first, RawText) or not self.sheet.done:
            return False
        text = self.page.text[first.start : first.end]
        told = [i for i in raw.items if isinstance(i, RawText)]
        if any(references.FROM_BEFORE.match(self.page.text, i.start, i.end) for i in told):
            return True
        match = references.LIKE_PIECE.match(text)
        if references.same_again(text):
            return True
        rounds_of = references.OF_PIECE.match(text) or references.PIECE_OF.match(text)
        if rounds_of is not None:
            name = _UP_TO.sub("", rounds_of["name"][: references.name_ends(rounds_of["name"])])
            called = set(slug(name).split("-"))
            return any(called <= set(name.split("-")) for name in self.sheet.done)
        return bool(match and slug(re.split(r"[.,;(]", match["name"])[0]))


# "as the head to Rnd 3": what stands behind the name of a part
_UP_TO = re.compile(r"\s+(?:up )?(?:to|until|till|through|thru|as far as)\s*$", re.I)


def _in_the_text(found: Finding) -> tuple[int, int]:
    return found.line, found.column


def read(text: str, terms: Terms | None = None) -> Pattern:
    """Any text -> what it says. Never raises: what cannot be read stays in the pattern as words, with a finding."""
    if len(text) > MOST_BYTES or len(text.encode("utf-8", "replace")) > MOST_BYTES:
        page = Page(text[:1], text[:1], None, [0])
        return Pattern(findings=[finding(page, "too-long", 0, 0)], terms=terms or "US")
    with uncollected():
        return reading(text, terms)[1]


def reading(text: str, terms: Terms | None, watch: bool = False, keep: bool = False) -> tuple[Reader, Pattern]:
    """A reading with what it says; again, where stitches of the text's own have to be supposed by its counts."""
    reader = Reader(text, terms, watch, keep)
    pattern = reader.read()
    if reader.open:
        supposed = settled(reader.open, pattern, lambda sums: Reader(text, terms, supposed=sums).read(), len(text))
        if supposed:
            reader = Reader(text, terms, watch, keep, supposed)
            pattern = reader.read()
    letters = letters_of(pattern)
    if letters and not reader.supposed:
        letters_mean = explained(letters, pattern, lambda told: Reader(text, terms, letters=told).read(), len(text))
        if letters_mean:
            reader = Reader(text, terms, watch, keep, letters=letters_mean)
            pattern = reader.read()
    return reader, pattern


def trace(text: str, terms: Terms | None = None) -> tuple[Pattern, list[Stage]]:
    """The same, with what every stage made of the text."""
    if len(text.encode("utf-8", "replace")) > MOST_BYTES:
        return read(text, terms), []
    reader, pattern = reading(text, terms, watch=True, keep=True)
    return pattern, [*reader.sheet.stages, *last_stages(reader.sheet, pattern.findings)]
