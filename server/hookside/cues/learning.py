"""What a beginner needs a word for, at the moment it comes up for the first time in a piece.

Common practice, no source. The words lie on every strand as whispers; the page shows them to a maker who likes full
words.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookside.cues.because import because
from hookside.cues.beforehand import lies_double
from hookside.pattern import Course, Cue, Group, Node, Piece, Repeat, makes
from hookside.unstuffed import NOT_STUFFED

SMALL = 12  # stitches of a first round that begins in the middle
RING = (
    "Each stitch goes under both strands, ring and tail. If the ring will not hold, begin with two chains and work "
    "into the first of them: the count is the same."
)
CURLS = 18  # stitches from which a cup can be told inside from outside


def learning(piece: Piece) -> list[Cue]:
    """Whispers for first times: the ring, the second round, an increase, a decrease, curling, rows that turn, one of
    several copies."""
    found: list[Cue] = []
    courses = [course for course in piece.courses if course.read and course.makes]
    said: set[str] = set()

    def say(what: str, before: Course, text: str) -> None:
        if what in said or (found and found[-1].address.startswith(f"{before.id}/")):
            return  # one word at a time: the other finds its place at the next chance
        said.add(what)
        place = piece.courses.index(before)
        if place:  # before the very first stitch there is no place to say it from
            why = because("this comes up here for the first time")
            found.append(_cue(f"{before.id}/learn-{what}.0", piece.courses[place - 1], text, before.line, why))

    first = piece.courses[0] if piece.courses else None
    # What goes on from finished parts has no starting tail, and its right side shows already.
    goes_on = first is not None and bool(first.uses or any(cue.kind == "join" for cue in piece.cues))
    ring = first is not None and first.read and any(group.stitch == "ring" for group in _groups(first.body))
    if first is not None and ring:
        why = because("the first round is worked into a ring")
        found.append(_cue(f"{first.id}/learn-ring.0", first, RING, first.line, why, at=0))
    for index, course in enumerate(courses):
        body = list(_groups(course.body))
        made = courses[0].makes or 0
        if index == 1 and course.kind == "round" and not courses[0].uses and made <= SMALL:
            # Behind a join and a chain nobody counts back well: the join is in that stitch already.
            joined = any(group.stitch == "join" for group in _groups(courses[0].body))
            find = "the one that the join went into" if joined else f"count {made} back from the hook to find it"
            start = "ring" if ring else "chain"
            say("second", course, f"Into the first stitch of the round before, not the {start}: {find}.")
        if any(group.makes > group.uses > 0 for group in body) and (course.makes or 0) > (course.uses or 0):
            say("inc", course, f"An increase: both stitches go into one, so that {course.uses} become {course.makes}.")
        less = any(group.uses > group.makes > 0 for group in body) and (course.makes or 0) < (course.uses or 0)
        if less and not lies_double(course):
            say("dec", course, f"A decrease: two become one, so that {course.uses} become {course.makes}.")
        if (behind := _other_side(course)) is not None and "sides" not in said:
            said.add("sides")
            text = "Turn the work like a dial, do not flip it: now into the loops below, on the chain's other side."
            why = because("this comes up here for the first time")
            found.append(_cue(f"{course.id}/learn-sides.0", course, text, course.line, why, behind))
        if course.kind == "round" and course.plain and (course.makes or 0) >= CURLS and not goes_on:
            say("curl", course, "It begins to curl: smooth side out, starting tail inside. If not, turn it inside out.")
        if course.kind == "row" and index == 1:
            say("edge", course, "The last stitch of a row hides by the edge: count, so that you do not miss it.")
    if piece.make > 1 and piece.courses:
        last = piece.courses[-1]
        filled = any(cue.kind == "stuff" and not NOT_STUFFED.search(cue.text) for cue in piece.cues)
        text = f"Keep it beside its fellows: same count{', same stuffing' if filled else ''}."
        why = because(f"{piece.make} of it are made")
        found.append(_cue(f"{last.id}/learn-pair.0", last, text, last.line, why))
    return found


def _other_side(course: Course) -> int | None:
    """Stitches of a round about a chain before it turns to the chain's other side; None for another."""
    if course.uses:
        return None  # a chain between parts that are joined
    made = 0
    for node in course.body:
        if isinstance(node, Group) and node.into == "other side":
            return made
        made += makes([node])
    return None


def _cue(address: str, after: Course, text: str, line: int, why: str, at: int | None = None) -> Cue:
    return Cue(
        address=address, after=after.label, course_id=after.id, kind="other", text=text, basis="worked out",
        weight="whisper", line=line, advice=why, at=at,
    )  # fmt: skip


def _groups(body: list[Node]) -> Iterator[Group]:
    for node in body:
        if isinstance(node, Repeat):
            yield from _groups(node.body)
        else:
            yield node
