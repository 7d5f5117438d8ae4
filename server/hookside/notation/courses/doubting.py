"""What is a guess, and what rests on one: said where no printed count has confirmed it since."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.ground import Ground, Reading, fits
from hookside.notation.arithmetic.summing import read_as
from hookside.notation.bodies.qualified import left_over, passed_over
from hookside.notation.bodies.wording.stretches import MEASURED
from hookside.notation.courses.ahead import goes_plain, needed, next_course, told_between
from hookside.notation.courses.countable import beside_count, ends_open
from hookside.notation.courses.inrange import open_which
from hookside.notation.courses.judging import Judge
from hookside.notation.courses.laid import flat_alone
from hookside.notation.courses.leftover import left_by, takes_up, told_left
from hookside.notation.courses.spaces import open_spaces
from hookside.notation.courses.twolines import two_lines
from hookside.notation.courses.unheld import unheld
from hookside.notation.courses.waiting import Waiting, lone, name_of, numbers, ringed, title_of, told_shapings
from hookside.notation.findings.table import finding, spell
from hookside.notation.labels import loops, references
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.asked import every, walk
from hookside.notation.trees.behind import loops_left_over
from hookside.notation.trees.nodes import PLACED, WORKING, Choice, Node, Tree, Work
from hookside.notation.vocabulary import number_of
from hookside.pattern import Course, Finding, Group, Repeat, Suggestion

_CHAINS = re.compile(r"\bch(?:ains?)?[ -]?\Z", re.I)  # "sc across, ch 6": hung on for the row above it
_LAST_COUNT = re.compile(
    r"(?:[(\[{<]\s*|(?<=\s)(?<!row\s)(?<!round\s)(?<!rnd\s))(\d{1,4})"
    r"\s*(?:sts?|stitches|points?|petals?|scallops|tips|waves|teeth|peaks)?\s*[)\]}>]?\s*\.?\s*$"
)


# Two meanings of which nothing decides where the stitches below and the count allow both
_EITHER = frozenset(
    ["spread or in each", "in each or spread", "same or next", "next or same", "times or more times",
     "more times or times", "in all or more times"]
)  # fmt: skip
_ONE_IN_TWO = re.compile(
    r"\b(?:1|one)(?: (?:sc|st|stitch))? (?:in|into|in to) (?P<n>2|two|3|three)(?: sts?| stitches)?\b"
    r"(?! (?:of|places|each))[^\n]{0,20}\b(?:a?round|across)\b",
    re.I,
)
# "sc 18, then again": another time along these stitches, or another round
_AGAIN = re.compile(
    r"(?:[,;] ?|\b)(?P<again>(?:(?:and|then) )+(?:again|repeat)|as many again|(?<=[\d)], )(?:again|repeat))"
    r"\W*(?:\(\d{1,3}\)\W*)?$",
    re.I,
)
# "sc 18, turn and sc back", "sc 18 and a plain round after that": another one, in the words of the first
_BACK_AGAIN = re.compile(
    r"\b(?:sc|[hd]?dc|h?tr|inc|dec)\b[^.]{0,60}?(?P<words>\bturn(?:ing)?\b[^\n\d]{0,14}"
    r"\b(?:sc|[hd]?dc|h?tr|work|go|crochet)(?: \d{1,3})? back\b(?! (?:loops?|posts?|bumps?|only)))",
    re.I,
)
_ONE_MORE = re.compile(
    r"(?P<words>(?:(?<=\S )(?:an?|one|another)|\b(?:two|three|four|five|six|\d{1,2})) "
    r"(?:(?:more|plain|extra|further|last|final) )+(?:rounds?|rnds?|rows?)\b(?! (?:below|before|down)))",
    re.I,
)
# "R3-5: inc 4 each round (25 at the end)", "R3-5: sc (12-12-13)": what the last of a range comes to
_AT_LAST = re.compile(
    r"\b(?P<n>\d{1,4}) ?(?:sts?|stitches|sc)?,? (?:at|by|in) the end\b|"
    r"[(\[]\s?\d{1,4}(?: ?- ?\d{1,4}){1,20} ?- ?(?P<n2>\d{1,4})\s?[)\]]",
    re.I,
)
# What bears a first round that goes into no ring and no chain
_EDGES = re.compile(r"\b(?:edges?|along|rim|sides?|row ends|ends of rows|holes?|opening)\b", re.I)
# "inc in each inc", "dec over every inc": in some stitches of the round below alone
_EACH_SHAPED = re.compile(
    r"\b(?:inc|dec)\w* (?:in|on|over|into|at|above) (?P<where>(?:each|every) (?:(?:of )?the )?(?:inc|dec)\w*)", re.I
)
_IN_EACH = re.compile(r"\b(?:each|every|all)\b", re.I)  # "3 sc in each": in so many words
_STEEP = 3  # times as many stitches as there were
# "(+6)": how many more it makes than there were
_GROWS_BY = re.compile(
    r"[(\[{]\s*(?P<sign>[+-])\s?(?P<n>\d{1,3})(?: ?(?:sts?|stitches|sc|incs?|decs?))?\s*[)\]}]\W*$", re.I
)


_FEW = 3  # stitches of a kind that a petal goes up or down by
_COUNTED = re.compile(r"[(\[](\d{1,3})(?: ?(?:sts?|stitches))?[)\]](?=\W*$|[.;,/] )")  # what a sentence comes to
_ROUNDS = re.compile(r"\b(?:\d{1,2}|two|three|four|five|six) (?:more )?(?:rounds|rnds|rows)\b", re.I)


def melted(items: list[Node], words: str) -> bool:
    """Stitches in a ring, and behind them increases or decreases, as many again of the same stitch, or `words` that
    tell of rounds: rounds that have lost what parted them."""
    told = [n for item in items for n in (item.options[0] if isinstance(item, Choice) else [item])]
    worked = [n for n in told if isinstance(n, WORKING) and not (isinstance(n, Work) and n.key == "ch")]
    behind = [n for n in walk(list(worked[1:])) if isinstance(n, Work)]
    again = any(
        isinstance(a, Work) and isinstance(b, Work) and a.key == b.key and min(a.n, b.n) > _FEW
        for a, b in pairwise(worked)
    )
    return again or any(n.key in ("inc", "dec", "inv dec", "sc2tog") for n in behind) or bool(_ROUNDS.search(words))


def grows(words: str) -> bool:
    """Several printed counts behind one ring, the last the largest: several rounds, whatever the last of them makes."""
    counts = [int(count[1]) for count in _COUNTED.finditer(words)] if words.count("(") + words.count("[") > 1 else []
    return len(counts) > 1 and counts[0] < counts[-1]


def _more(n: int) -> str:
    """6 -> "six more", -6 -> "six fewer", 0 -> "no more"."""
    return f"{spell(abs(n))} {'more' if n > 0 else 'fewer'}" if n else "no more"


def shaping_alone(choice: Choice) -> bool:
    """ "Inc, sc around": a list of stitches without a place or an amount, that may go around as a whole."""
    works = [n for n in choice.options[0] if isinstance(n, Work)]
    return len(works) > 1 and all(n.alone and not n.placed for n in works[:-1])


def at_the_hook(tree: Tree, reading: Reading) -> bool:
    """ "Ch 20, sl st in each ch back": also in the one at the hook, where hardly anybody works one?"""
    if not reading.chain or reading.makes != reading.chain:
        return False
    works = [n for n in every(tree) if isinstance(n, PLACED)]
    if any(n.base == "hook" for n in works):
        return False
    low = any(isinstance(n, Work) and n.fill and n.per == 1 and n.key in ("sc", "sl st") for n in works)
    return low and not (reading.ring or reading.joined)
# "repeat rows 2 and 3 until the cloth is square": what is no number of rows or stitches
_UNTIL_SEEN = re.compile(
    r"\b(?:until|till) (?!(?:the )?(?:end|last|next)\b)"
    r"(?![^.;(){}\[\]\n]{0,80}(?:\d|\brows?\b|\brounds\b|\bround (?:is|was)\b|\brnds?\b|\bsts?\b|\bstitch))"
    r"[^.;(){}\[\]\n]{3,80}"
)


class Doubting(Judge):
    """Keeps the course that is in doubt from here on."""

    def weigh(
        self,
        todo: Waiting,
        taken: Chosen | None,
        ground: Ground,
        course: Course,
        said: int,
        queue: list[Waiting | RawText],
        index: int,
    ) -> None:
        """After a course was judged: says what is a guess in it. `said`: findings there were before it."""
        if taken is not None and taken.fits:
            self.rest(todo, taken, ground, course)
        else:
            self.left = 0
        self.doubt = self.in_doubt(todo, taken, ground, course, said, queue, index)

    def rest(self, todo: Waiting, taken: Chosen, ground: Ground, course: Course) -> None:
        """Says where what is left unworked has another number than it is told, or is worked above after all."""
        where: dict[str, Any] = {"piece": self.piece.name, "course": course.label, "course_id": course.id}
        uses, body = taken.reading.uses, self.page.text[todo.start : todo.end]
        below = self.piece.courses[-1] if self.piece.courses else None
        over = below is not None and self.left and uses == (below.makes or 0) + self.left
        if below is not None and over and not takes_up(body):
            sums: dict[str, Any] = {"n": self.left, "there": below.makes, "found": uses, "Course": title_of(todo)}
            sums["below"] = f"{below.kind} {below.label}"
            borne = todo.declared == course.makes  # by the count that is printed
            add = finding(
                self.page, "left-worked", todo.start, todo.end, severity="note" if borne else None, **sums, **where
            )
            self.sheet.findings.append(add)
        self.left = left_by(todo, taken, ground)
        told = told_left(body) if self.left else None
        if told is not None and told[0] != self.left and todo.first_of and not todo.borrowed:
            first, last = todo.start + told[1], todo.start + told[2]
            sums = {"words": self.page.text[first:last], "found": uses, "there": ground.there, "n": self.left}
            add = finding(self.page, "left-denied", first, last, Course=title_of(todo), **sums, **where)
            self.sheet.findings.append(add)

    def in_doubt(
        self,
        todo: Waiting,
        taken: Chosen | None,
        ground: Ground,
        course: Course,
        said: int,
        queue: list[Waiting | RawText],
        index: int,
    ) -> Waiting | None:
        if taken is None or not course.read or todo.parsed is None:
            return None
        reading = taken.reading
        confirmed = todo.declared is not None and todo.declared == course.makes
        spoken = self.sheet.findings[said:]
        where: dict[str, Any] = {
            "piece": self.piece.name,
            "course": course.label,
            "course_id": course.id,
            "found": course.makes,
            "Course": title_of(todo),
        }
        add = self.sheet.findings.append
        self.which(todo, course, spoken, queue, index)
        guess = False
        if not spoken and self.bottomless(todo, ground, course, queue, index):
            add(finding(self.page, "bottomless", todo.start, todo.end, **where))
        if taken.fits and todo.declared is None and not taken.why and not todo.borrowed and todo.first_of:
            other = self.as_likely(todo, taken, ground)
            if other is not None and not needed(course.makes, next_course(queue, index), self.sheet.own):
                add(finding(self.page, "as-likely", todo.start, todo.end, **where, other=other))
                guess = True
        bare = taken.fits and todo.declared is None and not spoken and (todo.kind == "row" or not ground.chain)
        skipped = any(isinstance(g, Group) and g.stitch == "skip" for g in course.body[:3])  # "Skip the first."
        bare = bare and not skipped and not ground.for_turn and at_the_hook(todo.parsed.tree, reading)
        if bare and not needed(course.makes, next_course(queue, index), self.sheet.own):
            add(finding(self.page, "as-likely", todo.start, todo.end, **where, other=reading.makes - 1))
            guess = True
        if taken.fits and todo.declared is None and not spoken and not todo.borrowed and todo.first_of:
            held = open_spaces(course.makes, todo.parsed.tree, reading, next_course(queue, index), self.sheet.own)
            if held is not None:
                add(finding(self.page, "open-spaces", todo.start, todo.end, **where, other=held))
                guess = True
        if todo.first_of and not todo.borrowed:
            each = flat_alone(todo.parsed, taken, ground, self.page.text[todo.start : todo.end], self.sheet.own)
            if each is not None and not needed(course.makes, next_course(queue, index), self.sheet.own):
                add(finding(self.page, "taken-flat", todo.start, todo.end, **where, other=each))
                guess = True
        lace = todo.first_of and not self.sheet.findings[said:] and ends_open(reading, todo.declared)
        if lace and not any(isinstance(t, Waiting) for t in queue[index + 1 :]):
            add(finding(self.page, "ends-open", todo.start, todo.end, **where, other=reading.stitches + reading.spaces))
        if todo.same:
            add(self.which_same(todo, where))
            guess = True
        if todo.parsed.phrases.respelt and not todo.borrowed and todo.first_of:
            first, last, what = todo.parsed.phrases.respelt[0]
            words = self.page.text[todo.start + first : todo.start + last]
            add(finding(self.page, "respelt", todo.start + first, todo.start + last, **where, words=words, what=what))
            guess = not confirmed
        if todo.parsed.phrases.sizes and not todo.borrowed:
            add(finding(self.page, "sizes", todo.start, todo.end, **where))
        if todo.parsed.phrases.shades_ahead and not todo.borrowed:
            add(finding(self.page, "shades-ahead", todo.start, todo.end, **where))
        if todo.skipped:
            first, last = todo.start + todo.skipped[0][0], todo.start + todo.skipped[-1][1]
            words = self.page.text[first:last] if last - first < 60 else self.page.text[first : first + 60] + "..."
            if todo.first_of:  # one line for several courses: once is enough
                add(finding(self.page, "skipped", first, last, **where, words=" ".join(words.split())))
            guess = not confirmed
        passed = passed_over(self.page.text[todo.start : todo.end], todo.parsed.phrases.asides)
        kept = left_over(self.page.text[todo.start : todo.end]) if todo.parsed.phrases.unworked else None
        if passed is None and kept is not None and ground.there is not None and reading.uses + kept[0] > ground.there:
            passed = kept[1], kept[2]  # "sc 18 (leave 3 unworked)" on 18: none is left
        if passed is not None and not todo.skipped and not todo.borrowed and todo.first_of:
            first, last = todo.start + passed[0], todo.start + passed[1]
            words = self.page.quote(first, min(last, first + 80)).strip(" ()[]{},;")
            add(finding(self.page, "passed-over", first, last, **where, words=words))
            guess = not confirmed
        if loops_left_over(todo.parsed.tree.items) and not todo.borrowed and todo.first_of:
            first, last = next((c.start, c.end) for c in reversed(todo.parsed.phrases.chunks) if c.type == "LOOPS")
            words = self.page.quote(todo.start + first, todo.start + last)
            add(finding(self.page, "passed-over", todo.start + first, todo.start + last, **where, words=words))
        beside = beside_count(self.page.text, todo, reading, ground) if taken.fits and not spoken else None
        if beside is not None:
            words = self.page.text[slice(*beside)].strip(" ()[]{},;")
            add(finding(self.page, "skipped", *beside, **where, words=words))
        if todo.parsed.phrases.unclosed and not confirmed:
            add(finding(self.page, "unclosed", todo.start, todo.end, **where))
            guess = True
        lines = None if todo.borrowed or confirmed else two_lines(self.page.text[todo.start : todo.end])
        if lines is not None and todo.first_of:
            add(finding(self.page, "two-lines", todo.start, todo.end, **where, above=lines[0], what=lines[1]))
            guess = True
        measured = self.measured(todo)
        if measured is not None:
            first, last = measured
            add(finding(self.page, "measured", first, last, **where, words=self.page.text[first:last]))
        body = self.page.text[todo.start : todo.end]
        rounds = reading.ring and not reading.uses and not todo.borrowed
        if rounds and (grows(body) or (not confirmed and melted(todo.parsed.tree.items, body))):
            add(finding(self.page, "ring-melted", todo.start, todo.end, **where))
            guess = True
        if reading.branches and not confirmed:
            add(finding(self.page, "branch", todo.start, todo.end, **where))
            guess = True
        if not confirmed and lone(todo.parsed) and not needed(course.makes, next_course(queue, index), self.sheet.own):
            if todo.first_of:
                add(finding(self.page, "lone", todo.start, todo.end, **where))
            guess = True
        if todo.declared is None and not todo.borrowed and todo.last_of and not spoken:
            apart = _LAST_COUNT.search(self.page.text, todo.start, todo.end)
            chains = apart and _CHAINS.search(self.page.text, max(todo.start, apart.start(1) - 12), apart.start(1))
            at = apart.start(1) - todo.start if apart else 0  # "put a marker in stitch 15": which one it is
            marked = any(c.kind in ("marker", "colour") and c.start <= at < c.end for c in todo.parsed.phrases.cues)
            left = (ground.there or 0) - reading.uses  # "do not work the last 3": told, and done
            if apart and not (chains or marked) and int(apart[1]) not in (0, left, course.makes, *numbers(todo.parsed)):
                add(finding(self.page, "count-apart", *apart.span(1), declared=apart[1], **where))
                guess = True
        ends = _AT_LAST.search(body) if todo.last_of and not (todo.first_of or spoken) else None
        if ends is not None and int(ends["n"] or ends["n2"]) != course.makes:
            first = todo.start + ends.start("n" if ends["n"] else "n2")
            add(finding(self.page, "count-apart", first, first + 2, declared=ends["n"] or ends["n2"], **where))
            guess = True
        odd = self.second_count(todo, taken, ground, course) if not (spoken or guess) else None
        if odd is not None:
            words = self.page.quote(*odd)
            add(finding(self.page, "count-odd", *odd, **where, words=words))
            guess = True
        own = _EACH_SHAPED.search(body) if todo.first_of and not (confirmed or spoken or todo.borrowed) else None
        if own is not None:
            first, last = todo.start + own.start("where"), todo.start + own.end("where")
            add(finding(self.page, "skipped", first, last, **where, words=own["where"]))
            guess = True
        for by, span in self.told_changes(todo, taken, course):
            if course.makes is not None and ground.there and course.makes - ground.there != by:
                where |= {"made": _more(course.makes - ground.there), "printed": _more(by)}
                add(finding(self.page, "change-apart", *span, **where))
                guess = not confirmed
        sure = confirmed or bool(spoken) or guess or course.uses != course.makes
        halved = None if sure else _ONE_IN_TWO.search(body)
        if halved and course.makes and not needed(course.makes, next_course(queue, index), self.sheet.own):
            other = course.makes // number_of(halved["n"])
            add(finding(self.page, "as-likely", todo.start, todo.end, **where, other=other))
            guess = True
        together = len(todo.raw.label.numbers) if todo.raw.label is not None else 0
        which = open_which(body, together) if todo.first_of and not (todo.last_of or todo.borrowed) else None
        if which is not None:
            first, last = todo.start + which[0], todo.start + which[1]
            add(finding(self.page, "shades-of-some", first, last, **where, words=self.page.quote(first, last)))
        alone = todo.first_of and todo.last_of and not (todo.borrowed or spoken)
        again = _AGAIN.search(body) if alone else None
        low = body.lower() if alone and not again else ""
        more = _BACK_AGAIN.search(body) if "turn" in low else None
        more = more or (_ONE_MORE.search(body) if " r" in low else None)
        if more is not None:
            first, last = todo.start + more.start("words"), todo.start + more.end("words")
            add(finding(self.page, "rows-beside", first, last, **where, words=self.page.quote(first, last)))
            guess = not confirmed
        if again and not any(isinstance(g, Repeat) and g.times == 2 for g in course.body):
            first, last = todo.start + again.start("again"), todo.start + again.end("again")
            add(finding(self.page, "skipped", first, last, **where, words=again["again"]))
            guess = not confirmed
        many = steep(todo, ground, course) if not (confirmed or spoken or guess) else 0
        if many and not _IN_EACH.search(body):
            add(finding(self.page, "steep", todo.start, todo.end, **where, n=many))
        if confirmed and self.doubt is not None and self.copies_doubt(todo, reading, queue, index):
            below = name_of(self.doubt.label, self.doubt.kind)
            add(finding(self.page, "rests-on", todo.start, todo.end, below=below, **where))
            return self.doubt
        if confirmed:
            return None
        if any(f.severity != "note" for f in spoken) or guess:
            return todo
        if self.doubt is None or not reading.filled:
            return None
        below = name_of(self.doubt.label, self.doubt.kind)
        add(finding(self.page, "rests-on", todo.start, todo.end, below=below, **where))
        return self.doubt

    def bottomless(
        self, todo: Waiting, ground: Ground, course: Course, queue: list[Waiting | RawText], index: int
    ) -> bool:
        """Does a first course shape, or go into each stitch of, what is nowhere told: was the start above it lost?"""
        nothing = ground.first and ground.there is None and not ground.chain and not ground.free and not course.uses
        if not nothing or todo.parsed is None or todo.borrowed or ringed(todo.parsed):
            return False
        above = [item for item in queue[:index] if isinstance(item, RawText)]
        if len(above) < index:
            return False  # a foundation stands before it
        body = self.page.text[todo.start : todo.end]
        if _EDGES.search(body) or loops.on_fabric(body):
            return False
        if any(loops.joined_above(self.page.text[item.start : item.end]) for item in above):
            return False
        works = [n for n in every(todo.parsed.tree) if isinstance(n, Work) and n.base == "next"]
        if any((n.key == "ch" and n.n > 1) or n.loops for n in works):
            return False  # "chain 8 and join in a ring, 1 sc in each chain", "2 hdc in each front loop"
        return any(n.fill or n.per > 1 or n.key.startswith(("inc", "dec")) for n in works)

    def second_count(self, todo: Waiting, taken: Chosen, ground: Ground, course: Course) -> tuple[int, int] | None:
        """Where a course prints a number that may be its count, and it comes to another."""
        sized = self.sheet.sized or todo.parsed is None or todo.own_count or todo.borrowed
        if sized or not todo.last_of or not taken.fits or not course.makes or todo.parsed is None:
            return None
        reading = taken.reading
        there = ground.there or reading.uses
        known = {*reading.counts(), reading.uses, there, abs(reading.makes - there), course.makes}
        found = unheld(self.page.text[todo.start : todo.end], known, numbers(todo.parsed), course.makes)
        return (todo.start + found[0], todo.start + found[1]) if found is not None else None

    def measured(self, todo: Waiting) -> tuple[int, int] | None:
        """Where "until piece measures 5 cm" stands, in the course or behind a reference or "work even"."""
        if todo.parsed is None:
            return None
        if not todo.borrowed:
            told = todo.parsed.phrases.measured
            return None if told is None else (todo.start + told[0], todo.start + told[1])
        match = MEASURED.search(self.page.text[todo.start : todo.end].lower()) if todo.first_of else None
        if match is None and todo.first_of and todo.until is None:
            label = todo.raw.label
            open_end = label is None or len(label.numbers) < 2
            match = _UNTIL_SEEN.search(self.page.text[todo.start : todo.end].lower()) if open_end else None
        return None if match is None else (todo.start + match.start(), todo.start + match.end())

    def told_changes(self, todo: Waiting, taken: Chosen, course: Course) -> list[tuple[int, tuple[int, int]]]:
        """By how many stitches a course grows in the pattern's own words, and where these stand."""
        told: list[tuple[int, tuple[int, int]]] = []
        grows = _GROWS_BY.search(self.page.text, todo.start, todo.end) if taken.fits and not todo.borrowed else None
        if grows is not None and todo.first_of and todo.last_of and int(grows["n"]) != course.makes:
            told.append((int(grows["n"]) * (1 if grows["sign"] == "+" else -1), grows.span("n")))
        shaped = told_shapings(todo.parsed) if todo.parsed is not None else 0
        return [*told, (shaped, (todo.start, todo.end))] if shaped else told

    def copies_doubt(self, todo: Waiting, reading: Reading, queue: list[Waiting | RawText], index: int) -> bool:
        """Is its count only that of the course in doubt, carried along a plain one, and needed by none behind?

        Then the printed number bears itself out, and nothing else does.
        """
        doubt = self.doubt
        if doubt is None or doubt.declared is None or doubt.declared != todo.declared:
            return False
        if not goes_plain(reading, reading.uses):
            return False
        worked = (c.makes for c in reversed(self.piece.courses) if c.label == str(doubt.label))
        made = next(worked, None)
        if made is None or made == doubt.declared:
            return False
        return told_between(queue, index, made, doubt.declared, self.sheet.own) != doubt.declared

    def never(self, todo: Waiting, course: Course | None) -> None:
        """ "Repeat until 2 sts remain", and that number is never met."""
        told = any(f.course_id == course.id for f in self.sheet.findings[-4:]) if course is not None else True
        if course is None or not course.read or told:
            return
        where: dict[str, Any] = {"piece": self.piece.name, "course": course.label, "course_id": course.id}
        where |= {"found": course.makes, "expected": todo.until, "Course": f"{course.kind.capitalize()} {course.label}"}
        self.sheet.findings.append(finding(self.page, "until-never", todo.start, todo.end, **where))

    def which_same(self, todo: Waiting, where: dict[str, Any]) -> Finding:
        """ "Same" behind a round that shapes, and nothing tells what it means: both are offered."""
        text = self.page.text[todo.start : todo.end]
        word = references.REFERENCE.match(text)
        first, last = todo.start, todo.start + (word.start("rest") if word else len(text))
        plain = f"{'sc' if self.sheet.terms == 'US' else 'dc'} in each st around"
        offers = [plain, f"repeat {todo.what}"]
        span = self.page.span(first, last)
        suggestions = [
            Suggestion(label=f"{title_of(todo)}: {words}", start=span[0], end=span[1], replacement=words)
            for words in offers
        ]
        meant = "as many stitches as there are" if todo.same == "plain" else "the same shaping again"
        return finding(self.page, "same", first, last, suggestions=suggestions, meaning=meant, **where)

    def which(
        self, todo: Waiting, course: Course, spoken: list[Finding], queue: list[Waiting | RawText], index: int
    ) -> None:
        """Where a printed count is off: says which of the two the next course needs, if its own numbers tell."""
        off = next((f for f in spoken if f.code == "count"), None)
        after = next_course(queue, index) if off is not None and self.sheet.patience.left else None
        if off is None or after is None or todo.declared is None:
            return
        made, printed = (needed(n, after, self.sheet.own) for n in (course.makes, todo.declared))
        own, there = self.sheet.own, course.makes
        by = f"The next {todo.kind} needs"
        if there and after.declared == todo.declared and goes_plain(after.on(there, own).reading, there):
            told = told_between(queue, index, there, todo.declared, own)  # its count is only copied
            made, printed, by = told == there, told == todo.declared, f"The {todo.kind}s behind it need"
        if made == printed:
            return
        off.message += f" {by} the {f'{there} that it makes' if made else f'{todo.declared} that are printed'}."
        # What the verdict speaks against is not offered: taken, it only moves the fault one course on
        printed_at = self.page.span(*todo.declared_at)[0] if todo.declared_at is not None else -1
        off.suggestions = [s for s in off.suggestions if (s.start == printed_at) == made]

    def as_likely(self, todo: Waiting, taken: Chosen, ground: Ground) -> int | None:
        """What a course makes by its other meaning, where "2 sc in next 2 sts" comes out both ways; else None."""
        assert todo.parsed is not None
        tree = todo.parsed.tree
        for at, choice in enumerate(tree.choices[:8]):
            alone = choice.why == "last or all around" and shaping_alone(choice)
            if not alone and choice.why not in _EITHER:
                continue
            picks = tuple(1 - p if i == at else p for i, p in enumerate(taken.reading.picks))
            other = read_as(tree, picks, ground, self.sheet.own, taken.counted)
            if fits(other, ground) and other.makes != taken.reading.makes:
                return other.makes
        return None


def steep(todo: Waiting, ground: Ground, course: Course) -> int:
    """How many times as many stitches a round makes as there are, where that is a great many and no count bears it out:
    "3 sts into 1 around" may be three together as well. 0 for any other."""
    there = ground.there or 0
    if todo.declared is not None or todo.borrowed or there < 6 or course.uses != there or not course.makes:
        return 0
    if ground.gaps:  # several stitches in a space are the commonest thing
        return 0
    return course.makes // there if course.makes >= _STEEP * there else 0
