"""What stands behind the last round of a piece and tells how many are made of it: "Make 3.", "FO. x4", "The other three
the same"."""

from __future__ import annotations

import re
from collections import Counter
from functools import cached_property

from hookside.notation.askings.askings import askings
from hookside.notation.lines.copies.asked import asked_behind, copies_behind, copies_of_the_cut, only_how_many
from hookside.notation.lines.copies.others import again, others, told_apart
from hookside.notation.lines.heads.beginning import Heads
from hookside.notation.lines.heads.wholethings import another_thing
from hookside.notation.lines.layout import RawCourse, RawPiece, RawText, spans_of_sentences
from hookside.notation.lines.refusals.jobs import JOB_OF_COPIES
from hookside.notation.vocabulary import number_of
from hookside.stitches import singular

# What ends a piece, of which others may be made
_ENDINGS = frozenset(["fasten", "tail", "close", "stuff", "weave"])
_WHICH = frozenset(["first", "second", "third", "fourth", "left", "right", "other", "one", "two", "three", "four"])
_SLIPS = re.compile(r"\W*(?:sl ?st|ss|slip ?st(?:itch)?)\b[^.]{0,40}\W*", re.I)
_BEHIND_ROUND = 120  # letters of a last round in which it may tell how many
# "Make two.", "You need 2.", "Two of them."
_MADE = re.compile(
    r"\W*(?:(?:you )?(?:will )?(?:make|need|crochet|want)\b|"
    r"(?:(?:do|work) )?\w+ (?:of (?:them|these|those)|alike|pieces)\b)",
    re.I,
)
# "Ears: 6 sc in MR (x2)": a ring is worked once
_RING_TWICE = re.compile(
    r"\b(?:ring|mr|loop|circle)\b[ .]*(?:\(\d{1,2}\)[ .]*)?(?P<told>[(\[]x ?(?P<n>[2-9]|1\d)[)\]])(?=\W*\Z)", re.I
)
_MADE_ASIDE = re.compile(r"[(\[](?:make|crochet|you need) \w+[)\]](?=\W*\Z)", re.I)


_MOST_ENDING = 200  # sentences that may end a part: behind them nothing is told of it


class Behind(Heads):
    """Counts the copies of a piece by what its end tells of them."""

    def told_behind(self, piece: RawPiece) -> None:
        """ "R3: sc (12). Make 3.": how many of a piece, in its last round or behind it."""
        courses = [at for at, item in enumerate(piece.items) if isinstance(item, RawCourse)]
        if piece.make > 1 or not courses:
            return
        last = piece.items[courses[-1]]
        behind = piece.items[courses[-1] + 1 :]
        asked = self._asked_in(last, len(courses) == 1)
        if asked is not None:
            piece.make, start, end = asked
            rest = RawText(end, last.end)
            last.end = start  # "(12). Make 3.": no work of its round
            if any(c.isalnum() for c in self.text[rest.start : rest.end]):
                piece.items.insert(courses[-1] + 1, rest)  # "Make two and sew them on."
        for item in [last, *behind]:
            start = max(item.start, item.end - _BEHIND_ROUND) if item is last else item.start
            if item is not last and another_thing(self.text[start : item.end], piece.name):
                break
            words = self.text[start : item.end]
            piece.make = max(piece.make, copies_behind(words if item is last else f". {words}"))
            if item is not last and only_how_many(words.strip()) == piece.make > 1:
                self._counted(piece, item)
        texts = [i for i in piece.items[courses[0] + 1 :] if isinstance(i, RawText)]
        jobs = [JOB_OF_COPIES.match(self.text[i.start : i.end]) for i in texts]
        # "Feelers: ch 10, FO (x2)"
        cut_off = (copies_of_the_cut(self.text[i.start : i.end]) for i in piece.items[: courses[-1]])
        piece.make = max([piece.make, *(number_of(cut["n"] or cut["n2"]) for cut in cut_off if cut is not None)])
        piece.make = max([piece.make, *(number_of(job["n"]) for job in jobs if job is not None)])
        for item in piece.items:
            cut = copies_of_the_cut(self.text[item.start : item.end]) if piece.make > 1 else None
            if cut is not None:
                item.end = item.start + cut.end("cut")  # "FO. x4": no work of its round
        ends = spans_of_sentences(self.text, last.start, last.end)[1:] if piece.make == 1 else []
        in_line = (others(self.text[start:end], piece.name, cut=False) for start, end in ends[-2:])
        piece.make = max([piece.make, *(told.made for told in in_line if told is not None)])
        if piece.make == 1:
            self.told_of_others(piece, courses[-1] + 1)
        if piece.make == 1 and self.alone_of_its_kind(piece):
            left = [i for i in piece.items[courses[-1] + 1 :] if isinstance(i, RawText)]
            sentences = (self.text[a:b] for i in left for a, b in self.told_in(i))
            ends_here = (self.text[start:end] for start, end in ends[-2:])
            piece.make = max(told_apart(words, piece.name) for words in (*ends_here, *sentences, ""))

    def _asked_in(self, last: RawCourse | RawText, alone: bool) -> tuple[int, int, int] | None:
        """How many a last round asks for behind its stitches, and where these words stand; `alone`: it is the only one,
        which may tell that in a bracket."""
        ring = _RING_TWICE.search(self.text, last.start, last.end) if alone else None
        if ring is not None:
            return number_of(ring["n"]), *ring.span("told")
        ends = [*spans_of_sentences(self.text, last.start, last.end)[1:]]
        if alone and (aside := _MADE_ASIDE.search(self.text, last.start, last.end)) is not None:
            ends.append(aside.span())
        for start, end in ends:
            words = self.text[start:end].strip()
            made = only_how_many(words.strip(" ()[]")) if _MADE.match(words) else 0
            if made > 1:
                return made, start, end
        begins = max(last.start, last.end - _BEHIND_ROUND)
        asked = asked_behind(self.text[begins : last.end])
        start = max(asked.start("asks"), asked.start("asks2")) if asked is not None else 0
        if asked is None or start <= len(". "):
            return None
        return copies_behind(self.text[begins : last.end]), begins + start, begins + asked.end()

    def alone_of_its_kind(self, piece: RawPiece) -> bool:
        """Is no other part called so, and no place among others in its name ("First leg", "Left leg")?"""
        words = piece.name.lower().split()
        if not words or _WHICH.intersection(words) or any(len(word) == 1 or word.isdecimal() for word in words):
            return False
        return self.parts_called[singular(words[-1])] == 1

    @cached_property
    def parts_called(self) -> Counter[str]:
        """How many parts have a word in their names: counted once, as each of a thousand parts asks it of all others.

        It is asked behind the last line, when all the names are there."""
        return Counter(kind for p in self.out.pieces for kind in set(map(singular, p.name.lower().split())))

    def told_of_others(self, piece: RawPiece, first: int) -> None:
        """ "FO. / Three others like this.": how many, in sentences behind the last round and what ends the piece."""
        cut = besides = False
        name = piece.name or self.called_by_title()
        for item in piece.items[first : first + _MOST_ENDING]:
            if not isinstance(item, RawText):
                return
            left = item.end  # where sentences begin that tell nothing but copies
            for start, end in self.told_in(item):
                words = self.text[start:end]
                told = others(words, name, cut)
                if told is None and not besides and (again(words) or others(words, name, cut=True) is not None):
                    piece.again, item.job = (start, end), "other"
                    return
                if besides and (told is None or not told.named):
                    continue  # "Sew on an eye. Repeat for the other one."
                if told is None:
                    kinds = {kind for kind, _, _ in askings(self.text[start:end])}
                    if _SLIPS.fullmatch(self.text, start, end):
                        continue  # "Sl st in next sc. Fasten off. Make a second pad in the same way."
                    besides = besides or not _ENDINGS.issuperset(kinds)
                    cut, left = cut or "fasten" in kinds, item.end
                    continue
                piece.make = max(piece.make, told.made)
                if told.job and not askings(words):
                    item.job = "other"  # "The other two are red."
                left = item.end if told.job else min(left, start)
            if left <= item.start:
                self._counted(piece, item)
            item.end = left

    def _counted(self, piece: RawPiece, item: RawCourse | RawText) -> None:
        """Takes out what tells nothing but copies."""
        piece.items.remove(item)
        here = range(item.start, item.end)
        self.out.roles[:] = [(a, b, "make" if a in here else role) for a, b, role in self.out.roles]

    def called_by_title(self) -> str:
        """The title, which names a piece without a name."""
        roles = self.out.roles
        while self.untitled < len(roles) and roles[self.untitled][2] != "title":
            self.untitled += 1
        return self.text[slice(*roles[self.untitled][:2])] if self.untitled < len(roles) else ""

    def tells_of_others(self, text: str, at: int, following: tuple[int, int] | None) -> bool:
        """ "3 others the same" behind the rounds of a part, which heads none; "Repeat this twice more" in any place."""
        piece = self.piece
        if piece is None or piece.make != 1 or not any(isinstance(item, RawCourse) for item in piece.items):
            return False
        goes_on = following is not None and self.opens_course(*following)
        if again(text):
            piece.again = (at, at + len(text)) if goes_on else piece.again
            return True
        if goes_on or asked_behind(f". {text}") is not None:
            return False  # "make two." is read where all of the piece is known
        name = piece.name or self.called_by_title()
        sentences = spans_of_sentences(text, 0, len(text))
        return any(others(text[start:end], name, cut=True) is not None for start, end in sentences)

    def told_in(self, item: RawText) -> list[tuple[int, int]]:
        """The sentences of it, line by line."""
        lines = re.finditer(r"[^\n]+", self.text[item.start : item.end])
        spans = (spans_of_sentences(self.text, item.start + m.start(), item.start + m.end()) for m in lines)
        return [(start, end) for found in spans for start, end in found]
