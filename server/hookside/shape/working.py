"""What a pattern is worked with: her swatch, else what it says itself, else a guess; another yarn, another hook.

No numerical library is needed for it: where a cue is due hangs on it too.
"""

from __future__ import annotations

import re
from dataclasses import replace

from hookside.pattern import Pattern
from hookside.shape import gauge, hooks, yarns
from hookside.shape.asked import Asked
from hookside.shape.errors import CannotBeMeasured
from hookside.shape.fabric import fabric, usual_height
from hookside.shape.gauge import Gauge

ANOTHER_HOOK = 0.2  # spread of a gauge carried over to another hook, whose yarn nobody knows (a guess)
LIKE = 0.08  # share by which a fabric must differ before its eyes do
_EYES = re.compile(r"(\d+(?:[.,]\d+)?)\s*-?\s*mm\b[^.;,\d]{0,30}\beyes?\b", re.IGNORECASE)
_SENTENCES = re.compile(r"(?<=[.;!?])\s+")
LOOSE = 1.2  # a hook this many times the one for a dense fabric lets stuffing show


def worked_with(pattern: Pattern, asked: Asked, warnings: list[str] | None = None) -> tuple[Gauge, list[str]]:
    """The gauge a pattern is worked with, and the sentences on where it comes from. `warnings` are added to.

    CannotBeMeasured, with a sentence, for a gauge, yarn or hook that cannot be.
    """
    shapes = [fabric(piece) for piece in pattern.pieces]
    high = usual_height(shapes)
    if asked.gauge:
        found = gauge.swatch(asked.gauge, pattern.terms, high)
        # A swatch goes before yarn and hook: what is said of them is not needed for it, and must not vanish for that.
        strange = [unknown_yarn(asked.yarn), unknown_hook(asked.hook)]
        (warnings if warnings is not None else []).extend(filter(None, strange))
        return found, [found.basis]
    toy = any(shape.stuffed or (shape.stuffed is None and shape.closed) for shape in shapes)
    own = gauge.estimated(pattern.gauge, pattern.hook, materials_of(pattern), pattern.terms, toy, high)
    if not asked.yarn and not asked.hook:
        theirs = gauge.own_hook(pattern.hook, materials_of(pattern))
        (warnings if warnings is not None else []).extend(_shows("", materials_of(pattern), theirs) if toy else [])
        return own, [own.basis]
    if unknown := unknown_yarn(asked.yarn) or unknown_hook(asked.hook):
        raise CannotBeMeasured(unknown)
    size = hooks.size(asked.hook) if asked.hook else None
    basis: list[str] = []
    if size is None:
        size, for_it = _hook_for(asked.yarn, toy)
        basis.append(for_it)
    (warnings if warnings is not None else []).extend(_shows(asked.yarn, materials_of(pattern), size) if toy else [])
    theirs = hooks.size(pattern.hook)
    if theirs and own.kind == "pattern":
        k = _times(size, theirs, asked, materials_of(pattern))
        # One sentence with the other: where only the first is shown, the figures must still follow from it.
        carried = (
            f"{own.basis} That is for a {theirs:g} mm hook; with {size:g} mm{' and your yarn' * bool(asked.yarn)} all "
            f"lengths are taken {k:.2f} times that. "
            "A swatch of yours is surer."
        )
        return _wider(own.scaled(k), ANOTHER_HOOK), [carried, *basis]
    guess = gauge.from_hook(size, _metres(asked.yarn) or yarns.metres(materials_of(pattern), size), toy, high)
    return guess, [*basis, guess.basis]


def _times(size: float, theirs: float, asked: Asked, materials: list[str]) -> float:
    """How many times as large the fabric of another hook, mm, and another yarn is as the pattern's; by the hooks alone
    where a yarn is not known."""
    old = yarns.metres(materials, theirs)
    new = _metres(asked.yarn) or yarns.metres(materials, size)
    if old is None or new is None:
        return size / theirs
    return gauge.from_hook(size, new).width / gauge.from_hook(theirs, old).width


def _metres(yarn: str) -> float | None:
    """Metres for 100 g of a yarn of hers, by its band, else by its weight; None where she named none."""
    weight = yarns.weight(yarn) if yarn else None
    metres = (yarns.metres_per_100_g(yarn) or (weight.metres if weight else None)) if yarn else None
    return metres / yarns.strands(yarn) if metres else None


def _hook_for(yarn: str, toy: bool) -> tuple[float, str]:
    """The hook, mm, that a yarn of hers is worked with where she names none, and a sentence that says so."""
    metres = _metres(yarn)
    assert metres is not None  # asked of `unknown_yarn`
    weight = yarns.weight(yarn)
    name = f"{weight.name} yarn" if weight else f"yarn of {metres:.3g} m for 100 g"
    if toy:
        size = yarns.toy_hook(metres)
        return size, f"For {name} a {size:g} mm hook makes a dense toy fabric (by stuffed pieces that makers printed)."
    size = (weight or yarns.nearest(metres)).hooks[0]
    return size, f"For {name} a {size:g} mm hook is taken, the smallest that the yarn standard names."


def _shows(yarn: str, materials: list[str], hook: float | None) -> list[str]:
    """A sentence where a hook, mm, is so large for her yarn, or else for the pattern's, that stuffing would show."""
    metres = _metres(yarn) or yarns.metres(materials, hook)
    if metres is None or hook is None or hook <= yarns.toy_hook(metres) * LOOSE:
        return []
    lines = [yarn] if yarn else yarns.working(materials)
    weight = next((w for line in lines if (w := yarns.weight(line, hook)) is not None), None)
    name = f"{weight.name} yarn" if weight else f"yarn of {metres:.3g} m for 100 g"
    return [
        f"With a {hook:g} mm hook and {name} the stuffing may show between the stitches: take about "
        f"{yarns.toy_hook(metres):g} mm for a toy."
    ]


def materials_of(pattern: Pattern) -> list[str]:
    """Where a pattern may name its hook and yarn: its list, else what it says before the first round, sentence by
    sentence; and what stands behind its gauge, where that goes on to the hook."""
    behind = [pattern.gauge] if "hook" in pattern.gauge.lower() else []
    lines = pattern.materials or [part for line in pattern.notes for part in _SENTENCES.split(line)]
    return [*lines, *behind]


def unknown_yarn(said: str) -> str:
    """What to say of a yarn of hers that is not understood; "" where it is, or where she said nothing."""
    if not said or yarns.weight(said) or yarns.metres_per_100_g(said):
        return ""
    return (
        f"“{said[:80]}” names no yarn that Hookside knows, so its grams are not worked out. Write its weight (sport, "
        "DK, worsted, aran, chunky) or what its band says, for example: 100 g = 210 m."
    )


def unknown_hook(said: str) -> str:
    """The same of a hook. A letter on which charts disagree is told with what they say of it."""
    if not said or hooks.size(said):
        return ""
    nearly = hooks.about(said)
    charts = f" Charts do not agree on that letter, it is about {nearly:g} mm." if nearly else ""
    return (
        f"“{said[:80]}” is no hook size that Hookside is sure of.{charts} Write it in millimetres, for example: 3.5 mm."
    )


def eyes_in_proportion(pattern: Pattern, cloth: Gauge, own: Gauge) -> list[str]:
    """A sentence on the eyes where the fabric is not the pattern's `own`, and the pattern names their size. None where
    its own is only a guess that may be hers as well."""
    k = cloth.width / own.width
    told = [*pattern.materials, *(cue.text for piece in pattern.pieces for cue in piece.cues if cue.kind == "eyes")]
    printed = next((float(found[1].replace(",", ".")) for line in told if (found := _EYES.search(line))), 0.0)
    if not printed or abs(k - 1) < max(LIKE, own.spread if own.kind in gauge.GUESSES else 0.0):
        return []
    return [f"Eyes of {printed:g} mm in the pattern's size: about {max(1, round(printed * k))} mm in this one."]


def _wider(found: Gauge, spread: float) -> Gauge:
    return replace(found, spread=max(found.spread, spread), kind="hook")
