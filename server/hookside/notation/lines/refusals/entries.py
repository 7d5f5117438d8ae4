"""A line refused for where it stands: the title, an entry of a list, talk with no round behind it."""

from __future__ import annotations

import re

from hookside.notation.lines.keys.definitions import DEFINES
from hookside.notation.lines.placing import yarn_led
from hookside.notation.lines.refusals.named import LISTS, Named, Naming

_LETTER = re.compile(r"\W{0,4}\d{1,3}[.)] ?[A-Za-z]\W{0,3}")  # "7) X": an entry of something, and no name


class Entries(Naming):
    """Is it an entry of something else, or the title of all?"""

    def is_a_letter(self, name: Named) -> bool:
        return _LETTER.fullmatch(name.text) is not None

    def defines(self, name: Named) -> bool:
        if self.section != "abbreviations" or name.marked or not DEFINES.match(name.text):
            return False
        told = bool(re.search(r"[:=\-]\s*\w", name.text))
        return told and not (name.leads and name.first and name.known and self.blank)

    def is_the_title(self, name: Named) -> bool:
        begun = self.out.title or self.any_course or self.out.pieces or self.section != "front"
        return not begun and not (name.leads and (name.known or not name.alone))

    def is_of_a_list(self, name: Named) -> bool:
        if self.section not in (*LISTS, "front", "notes") or name.leads or (name.marked and name.known):
            return False
        if not name.alone and self.section == "front":
            return False
        if not name.known or self.section not in ("notes", "front") or name.following is None:
            return True
        if yarn_led(self.text[slice(*name.following)]):
            return False  # "BELLY" above "All light green."
        return not (self.stitchy(*name.following) or (self._asks(*name.following) and self.any_course))

    def names_no_part(self, name: Named) -> bool:
        sure = name.leads or name.marked or not name.alone or name.known or name.loud or name.opens
        told = self.section in ("pattern", "assembly") and self.any_course and not sure
        return told and not self.named_as_above(name)

    def asks_for_something(self, name: Named) -> bool:
        sure = name.leads or name.known or name.marked or not name.alone
        return name.opens and not sure and self._asks(name.at, name.end)
