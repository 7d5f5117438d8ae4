"""A pattern as a listing: each course with its counts, cues between them, then what to look at."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from hookside.pattern import Course, Cue, Finding, Group, Pattern, Piece

if TYPE_CHECKING:
    from hookside.notation.mended import Mended

WIDEST = 160  # letters of a course in the listing
MOST_ALIKE = 20  # findings of one kind that are shown
LONGEST = 400  # letters of a mended line or a reason


def listing(pattern: Pattern, text: str) -> str:
    """The pattern for a reader: each course with its counts, cues between them, then what to look at."""
    lines = [pattern.title or "(no title)", f"{pattern.terms} terms. {pattern.terms_because}".rstrip()]
    lines += [f"{name}: {value}" for name, value in (("Hook", pattern.hook), ("Gauge", pattern.gauge)) if value]
    for piece in pattern.pieces:
        lines += ["", *_piece_lines(piece)]
    found = sorted(pattern.findings, key=lambda f: (f.line, f.column))
    if found:
        lines += ["", "Look here:"]
        source = text.splitlines()
        met: Counter[str] = Counter()
        more = 0
        for finding in found:
            met[finding.code] += 1
            if finding.code == "more-alike":  # the rest of thousands, which has been counted already
                more += finding.found or 0
            elif met[finding.code] <= MOST_ALIKE:
                lines += _finding_lines(finding, source)
            else:
                more += 1
        if more:
            lines.append(f"  And {more:,} more like those.")
    lines += ["", _verdict(pattern)]
    return "\n".join(lines) + "\n"


def changes(done: Mended) -> str:
    """Each mended line as it was and as it is, and why it was changed."""
    if not done.changes and not done.stops:
        return "Nothing was mended: no line is offered that would help.\n\n"
    lines = [f"Mended {_several(len(done.changes), 'line', 'lines')}:" if done.changes else "Nothing was mended."]
    for change in done.changes:
        lines += [f"  Line {change.line}: {_plain(change.why)}"]
        lines += [f"    was: {_plain(change.before)}", f"    is:  {_plain(change.after)}"]
    lines += [f"  {_plain(stop.say)}" for stop in done.stops]
    if done.more:
        lines.append("  There may be more to mend; mend the result once more.")
    return "\n".join(lines) + "\n\n"


def _plain(text: str) -> str:
    """One line of it, as far as it is not too long; control characters as spaces."""
    shown = "".join(c if c.isprintable() else " " for c in text.strip())
    return shown if len(shown) <= LONGEST else shown[: LONGEST - 2] + " …"


def _piece_lines(piece: Piece) -> list[str]:
    copies = f" (make {piece.make})" if piece.make > 1 else ""
    lines = [f"{piece.name or 'Piece'}{copies}"]
    waiting: dict[str | None, list[Cue]] = {}
    for cue in piece.cues:
        waiting.setdefault(cue.course_id, []).append(cue)
    if piece.courses:
        lines.append(f"  {'':<10} {'used':>5} {'made':>5} {'printed':>7}")
    lines += [_cue_line(cue) for cue in waiting.pop(None, [])]
    for course in piece.courses:
        lines.append(_course_line(course))
        lines += [_cue_line(cue) for cue in waiting.pop(course.id, [])]
    return lines + [_cue_line(cue) for rest in waiting.values() for cue in rest]


def _course_line(course: Course) -> str:
    used, made, printed = (("-" if n is None else str(n)) for n in (course.uses, course.makes, course.declared))
    if course.uses == 0:
        used = ""  # a start: there is nothing below to use
        made = f"{chained} ch" if course.makes == 0 and (chained := chain(course)) else made
    words = course.words.short if course.read else f"as written: {course.text}"
    words = words if len(words) <= WIDEST else words[: WIDEST - 2] + " …"
    return f"  {course.kind + ' ' + course.label:<10} {used:>5} {made:>5} {printed:>7}   {words}"


def chain(course: Course) -> int:
    """How many chains a course is made of; 0 where it is not a chain and nothing else."""
    groups = [node for node in course.body if isinstance(node, Group)]
    alone = len(groups) == len(course.body) and all(group.stitch == "ch" for group in groups)
    return sum(group.count for group in groups) if alone else 0


def _cue_line(cue: Cue) -> str:
    when = "" if cue.at is None else f" (after stitch {cue.at})" if cue.at else " (before its first stitch)"
    return f"    {cue.weight}: {cue.kind}{when}: {cue.text}"


_HEADS = {"error": "can't be followed", "warning": "look here", "note": "note"}


def _finding_lines(finding: Finding, source: list[str]) -> list[str]:
    lines = [f"  Line {finding.line}, {_HEADS[finding.severity]}: {finding.message}"]
    if 1 <= finding.line <= len(source):
        shown, at, width = _window(source[finding.line - 1], finding.column - 1, max(1, finding.span))
        lines += [f"    {shown}", f"    {' ' * at}{'^' * width}"]
    lines += [f"    Or: {suggestion.label}" for suggestion in finding.suggestions]
    return lines


def _window(line: str, at: int, width: int, letters: int = 110) -> tuple[str, int, int]:
    """A stretch of a long line round the spot, with the spot's place in it; control characters as spaces."""
    at = min(max(at, 0), len(line))
    start = max(0, at - letters // 2) if len(line) > letters else 0
    shown = "".join(c if c.isprintable() else " " for c in line[start : start + letters])
    return shown, at - start, max(1, min(width, len(shown) - (at - start)))


def _verdict(pattern: Pattern) -> str:
    courses = sum(len(piece.courses) for piece in pattern.pieces)
    if not pattern.can_be_followed:
        return "This can't be followed yet: look at the lines above."
    pieces = sum(1 for piece in pattern.pieces if piece.courses)
    worked = f"{_several(courses, 'round or row', 'rounds and rows')} in {_several(pieces, 'piece', 'pieces')}"
    return f"This can be followed: {worked}."


def _several(n: int, one: str, many: str) -> str:
    return f"{n} {one if n == 1 else many}"
