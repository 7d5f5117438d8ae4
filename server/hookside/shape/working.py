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
LOOSE = 1.15  # a hook this many times the one for a dense fabric lets stuffing show


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
        return own, [own.basis]
    weight = yarns.weight(asked.yarn) if asked.yarn else None
    if unknown := unknown_yarn(asked.yarn) or unknown_hook(asked.hook):
        raise CannotBeMeasured(unknown)
    size = hooks.size(asked.hook) if asked.hook else None
    basis = []
    if weight is not None and size is None:
        size = weight.toy_hook
        basis.append(f"For {weight.name} yarn a {size:g} mm hook makes a dense toy fabric (common practice).")
    theirs_yarn = [] if asked.yarn else yarns.working(materials_of(pattern))
    thick = weight or next((w for line in theirs_yarn if (w := yarns.weight(line))), None)
    if thick is not None and size is not None and toy and size > thick.toy_hook * LOOSE:
        (warnings if warnings is not None else []).append(
            f"With a {size:g} mm hook and {thick.name} yarn the stuffing may show between the stitches: take "
            f"about {thick.toy_hook:g} mm for a toy."
        )
    if size is None:
        return own, [own.basis]
    theirs = hooks.size(pattern.hook)
    if theirs and own.kind == "pattern":
        k = size / theirs
        # One sentence with the other: where only the first is shown, the figures must still follow from it.
        carried = (
            f"{own.basis} That is for a {theirs:g} mm hook; with {size:g} mm all lengths are taken {k:.2f} times that. "
            "A swatch of yours is surer."
        )
        return _wider(own.scaled(k), ANOTHER_HOOK), [carried, *basis]
    guess = gauge.from_hook(size, yarns.metres([asked.yarn] if asked.yarn else materials_of(pattern), size), toy, high)
    return guess, [*basis, guess.basis]


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
    """A sentence on the eyes where the fabric is not the pattern's `own`, and the pattern names their size."""
    k = cloth.width / own.width
    told = [*pattern.materials, *(cue.text for piece in pattern.pieces for cue in piece.cues if cue.kind == "eyes")]
    printed = next((float(found[1].replace(",", ".")) for line in told if (found := _EYES.search(line))), 0.0)
    if not printed or abs(k - 1) < LIKE:
        return []
    return [f"Eyes of {printed:g} mm in the pattern's size: about {max(1, round(printed * k))} mm in this one."]


def _wider(found: Gauge, spread: float) -> Gauge:
    return replace(found, spread=max(found.spread, spread), kind="hook")
