"""Which colour is in the hand, stitch by stitch, and where it changes.

A stitch is finished with the colour of the next one, so a change is due one stitch before the colour is named (common
practice, no source; the last pull is told by `words/pulls.py`). Where the text names what is in the hand already,
nothing changes, and nothing is asked for.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from hookside.cues.due import LAST_PULL
from hookside.cues.shades import Shades, plainly
from hookside.cues.stretches import Stretch, by_colour, colours_of, ends_in_a_join, first_colour
from hookside.pattern import Course, Cue, Finding, Pattern, Piece, unchecked
from hookside.words import bare_name
from hookside.words import yarn_named as named

MOST_CHANGES = 200  # within one course; what changes oftener is worked by the course's own words
MOST_IN_ALL = 10_000  # ... and within one text, which is said: pictures of 100 stitches by 100 rows have half of them
MAIN = "main color"  # what the stitches without a colour are worked in, where no word says which that is

_TAKEN_UP = re.compile(r"\b(?:join|rejoin|attach|add|tie)", re.IGNORECASE)
_CUT_OFF = re.compile(r"\b(?:cut|break|snip|drop|off)\s+(?:off\s+)?(?:the\s+)?(?!off\b|the\b)(\w+)", re.IGNORECASE)
_LED = re.compile(
    r"\s*(?:now |then )?(?:with|using|in|from (?:here|now|this)|(?:go|carry|keep|continue)(?: on)? (?:in|with))\b",
    re.IGNORECASE,
)


class Hand(NamedTuple):
    """The colour in the hand. `known` is false where no word told it, `cut` where the yarn was cut off."""

    name: str = ""
    known: bool = True
    cut: bool = False


UNTOLD = Hand(known=False)
CUT = Hand(known=False, cut=True)


def coloured(pattern: Pattern) -> Pattern:
    """A copy of the pattern with a pause one stitch before each change that only the stitches' own colours tell.

    What names the colour in the hand already is left out where it only leads in the course that says it again, and
    is a whisper elsewhere. Pieces that go on from others' loops begin with their colour.
    """
    if not any(_in_colours(piece) for piece in pattern.pieces):
        return pattern
    shades = Shades(pattern)
    ends: dict[int, Hand] = {}
    pieces = list(pattern.pieces)
    room, beyond = MOST_IN_ALL, list[Finding]()
    for number in _in_order(pattern):
        piece = pieces[number - 1]
        walk = _Walk(piece, shades, _begun_with(pattern, number, ends, shades), room)
        begun = walk.hand
        cues = walk.cues()
        if begun.known and begun.name and any(j.piece == number for j in pattern.joinings):
            cues = _goes_on(piece, begun.name, cues)
        ends[number] = Hand(walk.last) if walk.hand.cut and walk.last else walk.hand
        room -= len(walk.ours)
        if walk.beyond is not None and not beyond:
            beyond.append(_beyond(piece, walk.beyond))
        if cues != piece.cues:
            pieces[number - 1] = piece.model_copy(update={"cues": cues})
    return pattern.model_copy(update={"pieces": pieces, "findings": [*pattern.findings, *beyond]})


def _beyond(piece: Piece, course: Course) -> Finding:
    """Says from where on the changes are not counted any more."""
    told = (
        f"More than {MOST_IN_ALL:,} changes of color come before {course.kind} {course.label} and in it. From here on "
        "I do not stop you at each change that only the stitches name: the words of each course tell its colors."
    )
    return Finding(
        severity="warning", code="too-many-changes", line=course.line, piece=piece.name, course=course.label,
        course_id=course.id, message=told,
    )  # fmt: skip


def _goes_on(piece: Piece, name: str, cues: list[Cue]) -> list[Cue]:
    """The cues of a piece that goes on from the loop of another, the yarn of that loop told first, where no word of its
    own tells another: nothing is to be done, but it is what is in the hand, and what its stitches take."""
    if not piece.courses or any(cue.kind == "colour" and cue.course_id is None for cue in cues):
        return cues
    whisper = Cue(
        address=f"{piece.courses[0].id}/goes-on.0", after="0", course_id=None, kind="colour", text=f"With {name}",
        advice="Worked out: it goes on from a loop in this color.", basis="worked out", weight="whisper",
        line=piece.courses[0].line,
    )  # fmt: skip
    return [whisper, *cues]


def _in_colours(piece: Piece) -> bool:
    """Does a piece tell of any colour, in words of its own or of a stitch?"""
    return any(cue.kind == "colour" for cue in piece.cues) or any(
        colour for course in piece.courses if course.read for colour in colours_of(course.body)
    )


def _in_order(pattern: Pattern) -> list[int]:
    """All pieces by number, those first that others work in."""
    parts = {part.number for joining in pattern.joinings for part in joining.parts}
    return sorted(range(1, len(pattern.pieces) + 1), key=lambda number: number not in parts)


def _begun_with(pattern: Pattern, number: int, ends: dict[int, Hand], shades: Shades) -> Hand:
    """The colour a piece begins with before any word of its own: that of the loop it goes on from."""
    piece = pattern.pieces[number - 1]
    first = next((course for course in piece.courses if course.read), None)
    joined = [j for j in pattern.joinings if first and j.piece == number and j.course_id == first.id]
    if joined:
        hands = [ends.get(part.number, UNTOLD) for part in joined[0].parts]
        alike = all(hand.known and shades.same(hand.name, hands[0].name) for hand in hands)
        return hands[0] if alike and "goes on from its loop" in joined[0].yarn else UNTOLD
    if first is not None and first.uses:
        return ends.get(number - 1, UNTOLD)
    return UNTOLD


@dataclass
class _Walk:
    """One piece from its first stitch to its last, a colour in the hand."""

    piece: Piece
    shades: Shades
    hand: Hand
    room: int  # for so many changes of ours
    last: str = ""  # the colour named last, cut off or not
    told: dict[str, Cue | None] = field(default_factory=dict)  # what becomes of the text's own cues, by address
    ours: list[Cue] = field(default_factory=list)
    numbers: dict[str, int] = field(default_factory=dict)  # of ours, by course
    beyond: Course | None = None  # the first course for whose changes there was no room

    def cues(self) -> list[Cue]:
        """The piece's cues with these changes."""
        between, inside = self._by_place()
        self._between(None, between.get(None, []), self.piece.courses[0] if self.piece.courses else None)
        for index, course in enumerate(self.piece.courses):
            if course.read:
                self._course(index, inside.get(course.id, []))
            after = self.piece.courses[index + 1] if index + 1 < len(self.piece.courses) else None
            self._between(course, between.get(course.id, []), after)
        kept = [self.told.get(cue.address, cue) for cue in self.piece.cues]
        return _placed([cue for cue in kept if cue is not None], self.ours, self.piece.courses)

    def _by_place(self) -> tuple[dict[str | None, list[Cue]], dict[str, list[Cue]]]:
        """The text's cues between courses, by the course before, and its colours inside of them."""
        makes_of = {course.id: course.makes or 0 for course in self.piece.courses if course.read}
        between: dict[str | None, list[Cue]] = {}
        inside: dict[str, list[Cue]] = {}
        for cue in self.piece.cues:
            within = cue.at is not None and cue.course_id in makes_of and cue.at < makes_of[cue.course_id] - 1
            if within and cue.kind == "colour" and cue.course_id:
                inside.setdefault(cue.course_id, []).append(cue)
            elif not within:
                between.setdefault(cue.course_id, []).append(cue)
        return between, inside

    # -- between courses ----------------------------------------------------

    def _between(self, before: Course | None, cues: list[Cue], after: Course | None) -> None:
        changed = False
        for cue in cues:
            if cue.kind == "fasten" and cue.basis == "written" and not changed and not self._another(cue.text):
                self.last, self.hand = self.hand.name or self.last, CUT
            if cue.kind != "colour":
                continue
            name = named(cue.text)
            if self._only_announced(cue, name, after):
                self.told[cue.address] = cue.model_copy(update={"weight": "whisper"})
                continue
            changed = True
            if not name:
                self.hand = UNTOLD
            elif self.hand.known and self.shades.same(name, self.hand.name) and not _TAKEN_UP.search(cue.text):
                self._in_hand(cue, after)
            else:
                self._led_in(cue, before)
                self.hand = Hand(name)

    def _only_announced(self, cue: Cue, name: str, after: Course | None) -> bool:
        """ "Now I change to white for the cheeks." before a round that says its own colours and begins in another: its
        own words count, and what is in the hand stays there."""
        if after is None or not after.read or cue.line == after.line:
            return False
        own = [stretch.colour for stretch in by_colour(after.body, MOST_CHANGES)][:MOST_CHANGES]
        if not name:  # "Now the white comes in."
            words = set(re.findall(r"[a-z]+", cue.text.lower()))
            return bool(own and own[0]) and any(c and c != own[0] and c.lower() in words for c in own)
        if not own or own[0] is None:
            return any(colour is not None and self.shades.same(colour, name) for colour in own)
        return not self.shades.same(own[0], name)

    def _another(self, text: str) -> bool:
        """Whether a yarn that is cut off is another one than that in the hand: "Cut the white"."""
        cut = _CUT_OFF.search(text)
        told = cut is not None and self.hand.known and cut[1].lower() in self._seen
        return cut is not None and told and not self.shades.same(cut[1], self.hand.name)

    @cached_property
    def _seen(self) -> set[str]:
        """The words of all colours of the piece."""
        names = [named(cue.text) for cue in self.piece.cues if cue.kind == "colour"]
        names += [c for course in self.piece.courses for c in colours_of(course.body) if c]
        return {word for name in names for word in plainly(name).split()}

    def _in_hand(self, cue: Cue, after: Course | None) -> None:
        says_it_again = after is not None and after.line == cue.line and first_colour(after.body)
        self.told[cue.address] = None if says_it_again else cue.model_copy(update={"weight": "whisper"})

    def _led_in(self, cue: Cue, before: Course | None) -> None:
        """ "With white" before a round that a spiral runs on into: due before the last stitch is finished."""
        if before is None or not (before.read and before.spiral and before.makes) or self.hand.cut:
            return
        anew = _TAKEN_UP.search(cue.text) or _CUT_OFF.search(cue.text)
        if cue.at is None and not anew and (_LED.match(cue.text) or bare_name(cue.text)):
            self.told[cue.address] = cue.model_copy(update={"at": before.makes - 1, "advice": LAST_PULL})

    # -- within a course ----------------------------------------------------

    def _course(self, index: int, inside: list[Cue]) -> None:
        course = self.piece.courses[index]
        stretches = list(by_colour(course.body, MOST_CHANGES))
        if len(self.ours) + len(stretches) > self.room:
            self.beyond = self.beyond or course
        if len(stretches) > MOST_CHANGES or self.beyond is not None:
            self.hand = UNTOLD
            return
        waiting = sorted(inside, key=lambda cue: cue.at or 0)
        ground = self._ground(index, stretches)
        coloured_yet = False
        for stretch in stretches:
            while waiting and (waiting[0].at or 0) <= stretch.before:
                ground = self._told_inside(course, waiting.pop(0), stretch)
            want = stretch.colour or (ground.name if ground.known else MAIN if coloured_yet else "")
            coloured_yet = coloured_yet or stretch.colour is not None
            if not want:
                continue
            if stretch.colour and not stretch.stitches:
                ground = Hand(want)  # "with brown, ch 2": what stands on that chain is brown as well
            if not (self.hand.known and self.shades.same(want, self.hand.name)):
                self._change(index, stretch, want)
            self.hand = Hand(want)
        for cue in waiting:
            self._told_inside(course, cue, None)

    def _ground(self, index: int, stretches: list[Stretch]) -> Hand:
        """What stitches without a colour are worked in. Where no word told it, and the first course with colours begins
        and ends in the same one, that is it, and it is in the hand."""
        if not self.hand.known and not self.hand.cut and len(stretches) > 2:
            first, last = stretches[0].colour, stretches[-1].colour
            begun = any(course.makes for course in self.piece.courses[:index])
            if first and last and begun and self.shades.same(first, last):
                self.hand = Hand(first)
        return self.hand

    def _told_inside(self, course: Course, cue: Cue, stretch: Stretch | None) -> Hand:
        """A change that the text tells within the course: due one stitch before. Gives the ground from there on."""
        name = named(cue.text)
        at = cue.at or 0
        if name and self.hand.known and self.shades.same(name, self.hand.name):
            self.told[cue.address] = cue.model_copy(update={"weight": "whisper"})
            return self.hand
        if not _TAKEN_UP.search(cue.text) and name:
            on_a_chain = stretch is not None and stretch.before == at and stretch.loose
            if at and not on_a_chain:
                self.told[cue.address] = cue.model_copy(update={"at": at - 1, "advice": LAST_PULL})
        self.hand = Hand(name) if name else UNTOLD
        return self.hand

    def _change(self, index: int, stretch: Stretch, want: str) -> None:
        """A pause of ours where the colour changes, one stitch before it is named."""
        course = self.piece.courses[index]
        if stretch.before:
            at = stretch.before if stretch.loose else stretch.before - 1
            self._put(course, course, f"Change to {_the(want)}.", at, LAST_PULL)
            return
        before = self.piece.courses[index - 1] if index else None
        if before is None:
            begins = not course.uses
            self._put(None, course, f"With {_the(want)}" if begins else f"Change to {_the(want)}.", None, "")
        elif self.hand.cut:
            self._put(before, course, f"Join {_the(want)}.", None, "")
        elif not before.read or not before.makes:
            self._put(before, course, f"Change to {_the(want)}.", None, "")
        elif before.kind == "round" and ends_in_a_join(before.body):
            self._put(before, course, f"Change to {_the(want)} in the joining slip stitch.", before.makes, "")
        else:
            self._put(before, course, f"Change to {_the(want)}.", before.makes - 1, LAST_PULL)

    def _put(self, behind: Course | None, course: Course, text: str, at: int | None, advice: str) -> None:
        number = self.numbers[course.id] = self.numbers.get(course.id, -1) + 1
        self.ours.append(
            unchecked(
                Cue,
                address=f"{course.id}/into.{number}",
                after=behind.label if behind else "0",
                course_id=behind.id if behind else None,
                at=at,
                kind="colour",
                text=text,
                advice=advice,
                basis="written",  # by the course's own words: only where it is due is ours
                weight="pause",
                line=course.line,
            )
        )


def _the(name: str) -> str:
    return f"the {name}" if name == MAIN else name


def _placed(cues: list[Cue], ours: list[Cue], courses: list[Course]) -> list[Cue]:
    """Ours among the others, each behind those that are due no later."""
    place = {course.id: index for index, course in enumerate(courses)}

    def due(cue: Cue) -> tuple[int, float]:
        index = -1 if cue.course_id is None else place.get(cue.course_id, len(courses))
        return index, float("inf") if cue.at is None else cue.at

    found: list[Cue] = []
    waiting = sorted(ours, key=due)
    at = 0
    for cue in cues:
        while at < len(waiting) and due(waiting[at]) < due(cue):
            found.append(waiting[at])
            at += 1
        found.append(cue)
    return [*found, *waiting[at:]]
