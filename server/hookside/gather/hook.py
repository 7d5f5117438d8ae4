"""The hook: millimetres first, the US letter and number beside them."""

from __future__ import annotations

import re

from hookside.gather.listing import Item
from hookside.pattern import Pattern
from hookside.shape import Asked, Measures, hooks, yarns

# mm -> letter and number, from the same list that reads them; "7" is the only common size without a letter; 9 and 10 mm
# go by two letters (Craft Yarn Council's list, confirmed by two retail charts).
_LABEL = re.compile(r"([a-z])(\d.*)")
_US = {mm: f"{label[1].upper()}-{label[2]}" for key, mm in hooks.US.items() if (label := _LABEL.fullmatch(key))}
_US |= {4.5: "7", 9.0: "M/N-13", 10.0: "N/P-15"}


def us_size(mm: float) -> str:
    """ "D-3" for 3.25; "" where no US size is common."""
    return _US.get(round(mm, 2), "")


def us_words(mm: float) -> str:
    """ "US D-3", "between US C-2 and D-3"; "" beyond the sizes that have one."""
    if us := us_size(mm):
        return f"US {us}"
    below = max((size for size in _US if size < mm), default=None)
    above = min((size for size in _US if size > mm), default=None)
    return f"between US {_US[below]} and {_US[above]}" if below and above else ""


def hook(pattern: Pattern, asked: Asked, measures: Measures | None) -> Item | None:
    """The hook to take: hers, else the one that is printed, else a guess from the yarn; None where nothing tells."""
    hers = hooks.size(asked.hook) if asked.hook else None
    mm = hers or hooks.size(pattern.hook)
    unsure = f"the pattern's: Hookside is not sure of “{asked.hook[:80]}”, say it in mm" if asked.hook else ""
    if mm:
        return _item(mm, printed=pattern.hook, why="by what you said of your own hook" if hers else unsure)
    if pattern.hook:
        return Item(id="hook", kind="hook", name=f"hook: {pattern.hook}", printed=pattern.hook, why=unsure)
    told = [asked.yarn] if asked.yarn else pattern.materials
    weight = next((found for line in told if (found := yarns.weight(line))), None)
    metres = yarns.metres(told) or (weight.metres if weight else None)
    if metres is None:
        return Item(
            id="hook",
            kind="hook",
            name="a hook",
            why="the text names none, and no yarn to guess it from",
            forgotten=True,
        )
    toy = measures is not None and measures.stuffing_g.value > 0
    size = yarns.toy_hook(metres) if toy else (weight or yarns.nearest(metres)).hooks[0]
    name = f"{weight.name} yarn" if weight else f"yarn of {metres:.3g} m for 100 g"
    for_what = "a dense fabric that hides the stuffing" if toy else "it, by the yarn standard"
    why = f"the text names none; about {size:g} mm suits {name} for {for_what}: a guess"
    return _item(size, printed="", why=why).model_copy(update={"forgotten": True})


def _item(mm: float, printed: str, why: str) -> Item:
    return Item(id="hook", kind="hook", name=f"{mm:g} mm hook", amount=us_words(mm), printed=printed, why=why)
