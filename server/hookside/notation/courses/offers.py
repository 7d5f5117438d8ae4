"""The mended lines that are offered beside a finding: edits of the original text, and what they come to in words."""

from __future__ import annotations

import re

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Waiting, title_of
from hookside.notation.findings.mending import Mend, mends
from hookside.pattern import Suggestion

_MOST_FINDINGS = 100  # after so many no mended lines are looked for
_COUNT_BEHIND = re.compile(r"(?<=[)\]\w])\s*[(\[]\s*\d+[^()\[\]]*[)\]]|\.\s")


class Offers:
    """Looks for mended lines and writes them out."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.page = sheet.page

    def mend(self, todo: Waiting, taken: Chosen, ground: Ground) -> list[Mend]:
        if todo.borrowed or todo.parsed is None or len(self.sheet.findings) > _MOST_FINDINGS:
            return []
        return mends(todo.parsed.tree, taken.reading, ground, self.sheet.own)

    def mended(self, todo: Waiting, mend: Mend) -> tuple[int, int, str]:
        """Start, end (in the cleaned page) and new text of the stretch a mend changes."""
        edits = [(todo.start + e.start, todo.start + e.end, str(e.value)) for e in mend.edits]
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
        """The body as a mend leaves it, without its printed count."""
        start, end, new = self.mended(todo, Mend(mend.edits, mend.makes, False))
        a, b = self.page.span(todo.start, todo.end)
        first, last = self.page.span(start, end)
        text = self.page.original[a:first] + new + self.page.original[last:b]
        text = (
            _COUNT_BEHIND.split(text, maxsplit=1)[0] if todo.declared is not None else text
        )
        return " ".join(text.split()).strip(" .")

    def told(self, todo: Waiting, found: list[Mend], ground: Ground) -> str:
        if not found:
            return ""
        used = f"uses all {ground.there} and makes" if ground.there is not None else "makes"
        parts = [f'"{self.whole(todo, m)}" {used} {m.makes}' for m in found[:2]]
        return " " + "; ".join(parts) + "."

    def count_suggestion(self, todo: Waiting, makes: int) -> list[Suggestion]:
        if todo.declared_at is None:
            return []
        first, last = self.page.span(*todo.declared_at)
        return [
            Suggestion(label=f"{title_of(todo)}: {makes} stitches", start=first, end=last, replacement=str(makes))
        ]
