"""What the first courses of a piece are worked into: a chain, a ring, the fabric of another piece."""

from __future__ import annotations

import re

from hookside.notation.arithmetic.ground import Ground, Reading
from hookside.notation.arithmetic.stitches import ROUND_THE_HAND
from hookside.notation.courses.ahead import next_course
from hookside.notation.courses.cue_notes import CueNotes
from hookside.notation.courses.sheet import Account, Sheet
from hookside.notation.courses.taking import Taking
from hookside.notation.courses.waiting import Waiting, lead_chain, ringed
from hookside.notation.labels import loops
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.asked import every
from hookside.notation.trees.nodes import PLACED, Rep, Work
from hookside.pattern import Course, Group, Piece

_HIGHEST = 4  # chains that go up to the height of a course, and are no base
_TWO_OF_THEM = re.compile(r"\b(?:first|1st|other)\b.*\b(?:second|2nd|other)\b|\b(?:second|2nd)\b.*\b(?:first|1st)\b")


class Founding(Taking):
    """The ground of one piece. `queue`: its courses and the sentences between."""

    def __init__(self, sheet: Sheet, piece: Piece, stem: str, queue: list[Waiting | RawText]) -> None:
        super().__init__(sheet)
        self.piece = piece
        self.slug = stem
        self.queue = queue
        self.cues = CueNotes(sheet, piece, stem)

    def founded(self, todo: Waiting, before: Course | None, below: Waiting | None) -> Reading | None:
        """The chains a course is worked into; where they cannot be read, their words are asked as they stand."""
        taken, ground = self.take(todo, Ground(None, 0, True, None), None, [], 0)
        if self.sheet.keep:
            self.sheet.accounts.append(Account(self.piece, todo, taken, ground, below, None))
        if taken is None or taken.reading.unknown:
            self.cues.add("other", todo.start, todo.end, before)
            return None
        for clause in todo.parsed.phrases.cues if todo.parsed is not None else []:
            self.cues.add(clause.kind, todo.start + clause.start, todo.start + clause.end, before)
        return taken.reading

    def foundation_chains(self, made: Reading, queue: list[Waiting | RawText], index: int) -> int:
        """Chains to work into: those of a strand, or of a ring that is worked chain by chain."""
        if not (made.joined or made.ring):
            return made.chain - self.passed_over(made, queue, index)
        chains = [g.count for g in made.body if isinstance(g, Group) and g.stitch == "ch"]
        all_of_them = max([made.chain, *chains])  # "ch 12, join, ch 1": the last one only goes up
        if not self.on_chains(queue, index, all_of_them):
            return 0 if made.joined else made.chain
        return all_of_them

    def passed_over(self, made: Reading, queue: list[Waiting | RawText], index: int) -> int:
        """ "Chain 11. Skip the first chain.": what is not worked into, where the row does not say so from the hook."""
        skipped = sum(g.count for g in made.body if isinstance(g, Group) and g.stitch == "skip")
        after = next_course(queue, index) if skipped else None
        if after is None or any(isinstance(n, PLACED) and n.base == "hook" for n in every(after.parsed.tree)):
            return 0
        return skipped if skipped < made.chain else 0

    def on_chains(self, queue: list[Waiting | RawText], index: int, chains: int) -> bool:
        """Is a closed chain worked along its chains ("sc in each ch around"), and not into the ring it makes?

        A ring so long that it goes round the hand is, where a round says "each st" and prints nothing else.
        """
        after = next_course(queue, index)
        nodes = every(after.parsed.tree) if after is not None else []
        works = [n for n in nodes if isinstance(n, Work)]
        if any(n.fill and n.noun in ("ch", "chain", "chs", "chains") for n in works):
            return True
        around = [n for n in nodes if isinstance(n, (Work, Rep)) and n.fill and not n.last and n.base == "next"]
        told = after is not None and (after.declared in (None, chains) or any(isinstance(n, Rep) for n in around))
        return bool(around) and told and chains >= ROUND_THE_HAND

    def on_fabric(self, todo: Waiting, index: int) -> bool:
        """Does a first course go into what is there: by its words, by the line above, or as one chain is no base?"""
        if loops.on_fabric(self.page.text[todo.start : todo.end]):
            return True
        height = lead_chain(todo.parsed.tree.items) if todo.parsed is not None else 0
        if todo.parsed is None or not height or ringed(todo.parsed):
            return False
        above = self.queue[index - 1] if index else None
        told = isinstance(above, RawText) and loops.joined_above(self.page.text[above.start : above.end])
        return height == 1 or (told and height <= _HIGHEST)

    def made_at(self, label: int) -> int | None:
        """How many stitches the course of that number has, None where there is none."""
        named = [c for c in self.piece.courses if c.label == str(label)]
        first = next((t.label for t in self.queue if isinstance(t, Waiting)), 0)
        if not named and label < first and self.sheet.before is not None:
            return self.sheet.before.counts.get(label)  # the numbers go on from the piece before
        return named[-1].makes if named else None

    def lent(self, body: str) -> tuple[int, ...]:
        """Stitches of the pieces a course works into: those it names, else the last two."""
        words = set(re.findall(r"leg|arm|foot|fin|wing|flipper|ear|tube|half|piece", body.lower()))
        ends = [(part.slug, part.makes) for part in self.sheet.parts if part.makes is not None]
        named_so = [n for slug_, n in ends if any(w in slug_ for w in words)]
        if len(named_so) == 1 and _TWO_OF_THEM.search(body.lower()):
            named_so *= 2  # "make a second one": told in a sentence, and made like the first
        return tuple(named_so or [n for _, n in ends[-2:]])
