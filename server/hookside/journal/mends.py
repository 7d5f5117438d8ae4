"""Mends in the journal: a run put on a strand whose courses are worked otherwise, and what is kept of that.

A mend is a recast row that carries the mends of its runs whole, the oldest first. A strand that is laid anew later,
from a changed text or by other choices, gets those that still fit.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from hookside.follow import Mend, Strand, mended
from hookside.pattern import Course, Node, Repeat, Terms, makes, uses
from hookside.words import course_words, group_words

if TYPE_CHECKING:
    from hookside.journal.standing import Standing

Kept = Mapping[str, Sequence[Mapping[str, Any]]]  # of each run its mends, as they stand in a row


def mends_of(standing: Standing, run: str) -> list[Mend]:
    """The mends a run carries, the oldest first."""
    return [Mend.model_validate(one) for one in standing.mends.get(run, ())]


def mends_after(before: Kept, payload: Mapping[str, Any]) -> Kept:
    """Of each run its mends after a recast row: a run that was moved has those the row names."""
    moved = {one["run"] for one in payload["moved"]}
    kept = {run: mends for run, mends in before.items() if run not in moved}
    return kept | {run: mends for run, mends in payload.get("mends", {}).items() if mends}


def laid_anew(standing: Standing, run: str, new: Strand) -> tuple[Strand, list[Mend]]:
    """A strand laid anew, with the mends of a run that still fit it, in its words; and these mends."""
    return mended(new, [in_terms(mend, new) for mend in mends_of(standing, run)])


def in_terms(mend: Mend, strand: Strand) -> Mend:
    """The mend in the words of a strand: its terms may be others than those it was made in."""
    courses = {course.id: course for course in strand.courses}
    told = []
    for one in mend.deviations:
        was = courses.get(one.course)
        if was is not None:
            body = _worded(one.body, strand.terms)
            course = Course(
                id=was.id, label=was.label, kind=was.kind, uses=uses(body), makes=makes(body), text=was.text, line=1,
                body=body, plain=one.plain,
            )  # fmt: skip
            one = one.model_copy(update={"body": body, "words": course_words(course, strand.terms)})
        told.append(one)
    return mend.model_copy(update={"deviations": told})


def _worded(body: Sequence[Node], terms: Terms) -> list[Node]:
    return [
        Repeat(body=_worded(node.body, terms), times=node.times)
        if isinstance(node, Repeat)
        else node.model_copy(update={"words": group_words(node, terms)})
        for node in body
    ]
