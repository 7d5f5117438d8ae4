"""The mended lines that are offered beside a finding: edits of the original text, and what they come to in words."""

from __future__ import annotations

import re

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.bodies.wording.stretches import LEAVES, UNWORKED
from hookside.notation.courses.patience import FOUND, MENDS
from hookside.notation.courses.settling import settle
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Parsed, Waiting, in_ring, ringed, title_of
from hookside.notation.findings.mending import Edit, Mend, mends, moved
from hookside.pattern import Suggestion

_MOST_OFFERED = 3
_ALL_READ = ("all read",)
_COUNT_BEHIND = re.compile(r"(?<=[)\]\w])\s*[(\[]\s*\d+[^()\[\]]*[)\]](?!\s*(?:[x*]\s*)?\d)|\.\s")


_NUMBER = re.compile(r"\d+(?!\d| ?(?:mm|cm|\"))")
_LEFT = re.compile(rf"{UNWORKED.pattern}|{LEAVES.pattern}")


def all_read(parsed: Parsed) -> bool:
    """Was every number of a body read, as an amount, a place, or its one count at the end?

    A number that was set aside ("attach the ear (3 sc through both)", "switch to blue with 5 sc"), or a second count
    ("sc(12), inc(6)"), may be just what is missing in the sums.
    """
    if _ALL_READ not in parsed.kept:
        parsed.kept[_ALL_READ] = _all_read(parsed)
    return bool(parsed.kept[_ALL_READ])


def _all_read(parsed: Parsed) -> bool:
    phrases, body = parsed.phrases, parsed.body
    if len({n for n, _, _ in phrases.counts}) > 1 or re.match(r"[a-d]\s*[:.)]", body):
        return False
    worked = [c for c in phrases.chunks if c.type != "CUE"]
    last = max((c.start for c in worked if c.type in ("ST", "BARE", "STARO", "OPEN")), default=0)
    if any(worked[0].start < start < last for _, start, _ in phrases.counts):
        return False
    spans = [(c.start, c.end) for c in worked] + [(start, end) for _, start, end in phrases.counts]
    spans += [m.span() for m in _LEFT.finditer(body.lower())]
    read = bytearray(len(body))
    for a, b in spans:
        read[a:b] = b"\1" * (b - a)
    return all(read[m.start()] for m in _NUMBER.finditer(body))


class Offers:
    """Looks for mended lines and writes them out."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.page = sheet.page

    def mend(self, todo: Waiting, taken: Chosen, ground: Ground) -> list[Mend]:
        parsed, reading, patience = todo.parsed, taken.reading, self.sheet.patience
        if patience.said and not patience.left and (parsed is None or not parsed.kept):
            return []
        if todo.borrowed or parsed is None or todo.skipped or todo.own_count or not all_read(parsed):
            return []  # a wrong offer, taken with one touch, is worse than none; so is one for others of the range too
        told = todo.declared is None, self.printed(todo), *ground.told()
        like = ("mends", reading.picks, reading.uses, reading.makes, *told)
        if like not in parsed.kept and not patience.allows():
            return []
        if like not in parsed.kept:
            found = mends(parsed.tree, reading, ground, self.sheet.own)
            if ground.there is not None and reading.uses == ground.there:
                found += moved(parsed, reading, ground, self.sheet.own)
            sound = [m for m in found if self.comes_out(todo, m.edits, m.makes, ground)][:_MOST_OFFERED]
            parsed.kept[like] = sound
            patience.took(MENDS)
        offered: list[Mend] = parsed.kept[like]
        return offered

    def printed(self, todo: Waiting) -> tuple[int, int] | None:
        """Where its count is printed within its body."""
        if todo.declared_at is None or todo.parsed is None:
            return None
        start, end = (at - todo.start for at in todo.declared_at)
        return (start, end) if start >= 0 and end <= len(todo.parsed.body) else None

    def comes_out(self, todo: Waiting, edits: list[Edit], makes: int, ground: Ground) -> bool:
        """Is the mended body, read anew, what is told of it? The tree knows only what a number meant before.

        "2 inc" is one plain stitch more than "1 inc" in one text and an increase more in the next: words decide that.
        """
        if todo.parsed is None:
            return False
        body, at = todo.parsed.body, self.printed(todo)
        printed = [Edit(*at, makes)] if at is not None else []
        for edit in sorted([*edits, *printed], key=lambda e: (e.start, e.end), reverse=True):
            body = f"{body[: edit.start]}{edit.written(body[edit.start : edit.end])}{body[edit.end :]}"
        parsed = self.sheet.parse(body)
        if parsed.tree.failed or parsed.phrases.unknown:
            return False
        if ringed(todo.parsed) and not ringed(parsed):
            parsed = in_ring(parsed)
        anew = ground.but(declared=makes if todo.declared is not None else None)
        taken = settle(parsed, anew, None, self.sheet.own)
        return taken.fits and taken.reading.makes == makes

    def placed(self, todo: Waiting, mend: Mend) -> list[tuple[int, int, str]]:
        """Start and end (in the cleaned page) of each edit, and what is written there."""
        spans = [(todo.start + e.start, todo.start + e.end, e) for e in mend.edits]
        return [(start, end, e.written(self.page.text[start:end])) for start, end, e in spans]

    def mended(self, todo: Waiting, mend: Mend) -> tuple[int, int, str]:
        """Start, end (in the cleaned page) and new text of the stretch a mend changes."""
        edits = self.placed(todo, mend)
        if mend.count and todo.declared_at is not None:
            edits.append((*todo.declared_at, str(mend.makes)))
        edits.sort()
        start, end = edits[0][0], max(e[1] for e in edits)
        out: list[str] = []
        at = start
        for first, last, value in edits:
            out.append(self.page.original[self.page.span(at, at)[0] : self.page.span(first, last)[0]])
            out.append(value)
            at = last
        return start, end, "".join(out)

    def suggestions(self, todo: Waiting, found: list[Mend]) -> list[Suggestion]:
        out: list[Suggestion] = []
        for mend in found:
            start, end, new = self.mended(todo, mend)
            first, last = self.page.span(start, end)
            out.append(
                Suggestion(
                    label=f"{title_of(todo)}: {self.whole(todo, mend)}, makes {mend.makes}",
                    start=first,
                    end=last,
                    replacement=new,
                )
            )
        return out

    def whole(self, todo: Waiting, mend: Mend) -> str:
        """The body as a mend leaves it, in tidied signs, without its printed count."""
        edits = sorted(self.placed(todo, mend))
        out: list[str] = []
        at = todo.start
        for first, last, value in edits:
            out += [self.page.text[at:first], value]
            at = last
        counted = todo.declared_at[0] if todo.declared_at is not None else todo.end
        out.append(self.page.text[at : counted if at <= counted <= todo.end else todo.end])
        text = "".join(out)
        text = (
            _COUNT_BEHIND.split(text, maxsplit=1)[0] if todo.declared is not None else text
        )
        return " ".join(text.split()).strip(" .").rstrip(" ([{<=|-,:.")

    def told(self, todo: Waiting, found: list[Mend], ground: Ground) -> str:
        if not found:
            return ""
        used = f"uses all {ground.there} and makes" if ground.there is not None else "makes"
        parts = [f'"{self.whole(todo, m)}" {used} {m.makes}' for m in found[:2]]
        return " " + "; ".join(parts) + "."

    def count_suggestion(self, todo: Waiting, makes: int, ground: Ground) -> list[Suggestion]:
        if todo.declared_at is None or todo.parsed is None or not all_read(todo.parsed):
            return []
        kept, patience = todo.parsed.kept, self.sheet.patience
        like = ("count", makes, todo.declared is None, self.printed(todo), *ground.told())
        if like not in kept and not patience.allows():
            return []
        if like not in kept:
            kept[like] = self.comes_out(todo, [], makes, ground)
            patience.took(FOUND)
        if not kept[like]:
            return []
        first, last = self.page.span(*todo.declared_at)
        return [
            Suggestion(label=f"{title_of(todo)}: {makes} stitches", start=first, end=last, replacement=str(makes))
        ]
