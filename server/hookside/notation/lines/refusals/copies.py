"""A line refused for its part: it tells of the one above, of one copy, of a side, or sends to another."""

from __future__ import annotations

import re

from hookside.notation.lines.refusals.named import Named, Naming

# "Left fin: same as the right one"
LIKE_ANOTHER = re.compile(
    r"(?:(?:make|work|crochet|do|repeat|follow|complete|exactly|just|use|worked|made|the|(?:start|begin)s?)\s+)*"
    r"(?:same|as|like|"
    r"identical|repeat|rounds? \d+\s*(?:-|to)\s*\d+ (?:of|as|like)|(?:follow|copy|see|mirror) (?:the )?"
    r"(?:[a-z]{3,}|[A-H1-9]))\b",
    re.I,
)
# "Base (same as the shell)"
LIKE_IN_BRACKETS = re.compile(rf"[(\[]\s*(?P<like>{LIKE_ANOTHER.pattern}[^()\[\]\n]{{3,60}})[)\]]", re.I)
# "For the second ear, work round 5 with cream.": another part would be named, and end in a colon or in nothing
_ONE_COPY = re.compile(
    r"\W*(?:for|on|with) (?:the |your )?(?:first|second|third|fourth|1st|2nd|3rd|4th|other|left|right|last) [a-z]+,? "
    r"(?:work|make|do|use|crochet|change|leave|skip|omit|add|replace|swap|start|stop)\b",
    re.I,
)


class Copies(Naming):
    """Does it tell of a part that has its name already?"""

    def like_another(self, name: Named) -> bool:
        return self._under_heading() and bool(LIKE_ANOTHER.match(name.text))

    def tells_of_one_copy(self, name: Named) -> bool:
        return not name.opens and _ONE_COPY.match(name.text) is not None

    def tells_of_the_part_above(self, name: Named) -> bool:
        same = self.piece is not None and self.piece.name.lower() == name.head[0].lower()
        return self.no_round_yet() and same and name.alone and name.text.rstrip()[-1:] in (".", "!")

    def tells_of_a_part(self, name: Named) -> bool:
        if self.named_as_above(name):
            return False
        return name.on and not name.marked and not self.finished() and self.spoken_of(name.text)

    def tells_of_a_side(self, name: Named) -> bool:
        if not (name.on and name.alone) or name.marked:
            return False
        if name.text[:1].islower():
            return self.under_capitals()
        # "Flap:" right below the rounds of "PURSE", in front of the next of them
        small = name.opens and not self.blank and not name.loud and not self.finished()
        return small and self.under_capitals() and self.text[self.piece.at : name.at].split("\n")[0].isupper()  # type: ignore[union-attr]
