"""A text -> the compiled form, cues where they are due, words in the maker's terms."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hookside.cues import coloured, complete
from hookside.joining import with_joinings
from hookside.notation import read as read_text
from hookside.notation import uncollected
from hookside.pattern import Pattern, Terms
from hookside.shape import Asked
from hookside.words import dress, yarn_named

if TYPE_CHECKING:
    from hookside.notation.explaining.explanation import Explainer
    from hookside.shape import Measures


def read(text: str, terms: Terms | None = None, asked: Asked | None = None) -> Pattern:
    """A pattern as people publish it -> the compiled form, cues where they are due, words in its own terms.

    `terms` settles in which terms the text is written, where the maker knows better than the evidence. `asked`: what
    she says of her own fabric; cues that hang on how wide a piece stands open are due by it.
    """
    with uncollected():
        return dress(_due_in_time(read_text(text, terms), asked))


def explained(text: str, terms: Terms | None = None) -> Explainer:
    """How a text was read, line by line, with its cues where they are due."""
    from hookside.notation.explaining.explanation import Explainer  # only for those who ask

    with uncollected():
        return Explainer(text, terms, _due_in_time)


def _due_in_time(pattern: Pattern, asked: Asked | None = None) -> Pattern:
    return coloured(with_joinings(complete(pattern, asked)))


def in_terms(pattern: Pattern, terms: Terms) -> Pattern:
    """A pattern that was read, with all its words in these terms. `terms` of it stays what the text is written in."""
    return dress(pattern, terms)


def measured(pattern: Pattern, asked: Asked | None = None) -> Measures:
    """Sizes, openings, yarn and stuffing of a pattern. CannotBeMeasured, with a sentence, for a gauge that can't be."""
    # Only here: whoever reads or follows a pattern waits for no numerical library.
    from hookside.shape.measure import measure

    return measure(pattern, lambda cue: yarn_named(cue.text), asked)
