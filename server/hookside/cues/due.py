"""Where a cue is due, as against where it is printed."""

from __future__ import annotations

import re

from hookside.cues.apart import apart
from hookside.cues.cloth import cloth_of
from hookside.cues.endings import endings, with_ending
from hookside.cues.foretold import at_their_rounds
from hookside.cues.jobs import jobs, shown_only
from hookside.cues.loops import loop_changes
from hookside.cues.openings import all_opened
from hookside.cues.stretches import ends_in_a_join
from hookside.cues.tails import sewn_on, with_tails
from hookside.layers import THROUGH_BOTH
from hookside.pattern import Course, Cue, Pattern
from hookside.shape import Asked
from hookside.unstuffed import NOT_STUFFED
from hookside.words import in_last_stitch, in_the_join


def complete(pattern: Pattern, asked: Asked | None = None) -> Pattern:
    """A copy of the pattern with each cue where it is due, and those it forgets or prints too late worked out.

    A change of colour "in the last stitch" of a course, printed after that course, is due before its last stitch is
    made, and one "in the joining slip stitch" before the join: that stitch is finished with the new colour (common
    practice, no source). What else is added says that it was worked out, and why. `asked`: what the maker says of her
    own fabric, by which openings are then worked out.
    """
    pattern = at_their_rounds(apart(pattern))
    gauge = cloth_of(pattern, asked)
    rounds = all_opened(pattern, gauge)
    worked, loops = jobs(pattern, rounds), endings(pattern, gauge)
    pieces, on = [], sewn_on(pattern)
    for number, piece in enumerate(pattern.pieces):
        done = with_tails(shown_only(piece, worked.late, worked.advised), rounds.get(number), gauge, on)
        courses = {course.id: course for course in done.courses if course.read}
        cues = [_held(_in_time(cue, courses.get(cue.course_id or ""))) for cue in done.cues]
        cues = _beside(cues, worked.cues.get(number, []))
        cues = with_ending(cues, loops[number]) if number in loops else cues
        cues += loop_changes(piece)
        pieces.append(done if cues == done.cues else done.model_copy(update={"cues": cues}))
    return pattern.model_copy(update={"pieces": pieces, "findings": [*pattern.findings, *worked.findings]})


def _held(cue: Cue) -> Cue:
    """Work that makes stitches stops the hook: a touch meant for the next round would pass it unworked. "Do not stuff"
    holds nobody up: there is nothing to do."""
    empty = NOT_STUFFED.match if cue.kind == "stuff" or len(cue.text.split()) > 8 else NOT_STUFFED.search
    if cue.kind in ("stuff", "other") and cue.weight == "pause" and empty(cue.text.strip()):
        return cue.model_copy(update={"weight": "whisper"})
    if (
        cue.weight == "pause"
        and cue.kind in ("shape", "other")
        and cue.basis == "written"
        and (_STITCHES.search(cue.text) or (_WORKED.search(cue.text) and THROUGH_BOTH.search(cue.text)))
    ):
        return cue.model_copy(update={"weight": "stop"})
    if cue.kind == "colour" and cue.weight == "pause" and cue.basis == "written" and _EVENLY.search(cue.text):
        return cue.model_copy(update={"weight": "stop"})
    return cue


def _beside(written: list[Cue], ours: list[Cue]) -> list[Cue]:
    """Both in one list; what needs the piece hollow (eyes, a face, the tail) before stuffing printed at the same spot,
    all else behind."""
    cues = list(written)
    for cue in ours:
        spot = next((i for i, c in enumerate(cues) if c.kind == "stuff" and c.course_id == cue.course_id), None)
        cues.insert(len(cues) if spot is None or cue.kind == "stuff" else spot, cue)
    return cues


def _in_time(cue: Cue, course: Course | None) -> Cue:
    made = course.makes if course else None
    if cue.kind != "colour" or cue.at is not None or not made or course is None:
        return cue
    if in_the_join(cue.text):
        return cue.model_copy(update={"at": made})
    if in_last_stitch(cue.text):
        return cue.model_copy(update={"at": made - 1})
    if course.kind == "round" and ends_in_a_join(course.body) and cue.line == course.line and _CHANGE.match(cue.text):
        return cue.model_copy(update={"at": made})
    # A spiral runs on, and a row's turning chain is the next row's: the new colour has to be there before their end.
    if (course.spiral or course.kind == "row") and _CHANGE.match(cue.text):
        return cue.model_copy(update={"at": made - 1, "advice": LAST_PULL})
    return cue


# "Change to white" between two rounds, also where the old one is not cut; not "join white", which begins anew.
_CHANGE = re.compile(
    r"\s*(?:now\s+)?(?:and\s+)?(?:chang(?:e|ing)|switch(?:ing)?|swap(?:ping)?)\b"
    r"(?!.*(?<!don.t )(?<!do not )(?<!not to )(?<!without )\b(?:cut|fasten|join|attach))",
    re.IGNORECASE,
)
# "Fold flat and work 4 sc through both layers", as against "Do not stuff" and "Turn to the right side".
_STITCHES = re.compile(
    r"\b(?:work|make|crochet)\b.{0,30}\b\d+\s*(?:more\s+)?(?:sc|dc|hdc|htr|tr|dtr|sts?|stitch(?:es)?|sl\s?sts?|ss)\b"
    r"|\b(?:sc|dc|sl\s?st|crochet)\b.{0,40}\b(?:together|shut|closed)\b",
    re.IGNORECASE,
)
# "Join pink, sc evenly around": with the color comes work that no course holds
_EVENLY = re.compile(
    r"\b(?:sc|h?dc|htr|tr|crochet)\b[^.;]{0,30}\b(?:evenly|all (?:the way )?a?round|(?:around|along) the edges?)\b",
    re.IGNORECASE,
)
_WORKED = re.compile(r"\b(?:sc|dc|sl\s?st|(?:single |double |half )?crochet)\b", re.IGNORECASE)
LAST_PULL = "The last pull of a stitch belongs to the next one, so it is the new color's."
