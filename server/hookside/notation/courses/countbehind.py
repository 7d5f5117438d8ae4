"""A number behind the last comma, "(1, inc) x 6, 18", "6 in mr, 6": as many stitches more, or what they come to?"""

from __future__ import annotations

from dataclasses import replace

from hookside.notation.arithmetic.ground import Ground
from hookside.notation.bodies.chunks import Chunk
from hookside.notation.courses.ahead import goes_plain, on_ground
from hookside.notation.courses.going_round import plain_between
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Parsed, Waiting
from hookside.notation.trees.building import build

_SHORT = ("short",)
_HABIT = 3  # counts printed alike, behind a comma or nothing, that make it an author's way


def _ring(chunk: Chunk) -> bool:
    told = chunk.value[0] if chunk.type == "MARK" else chunk.value.kind if chunk.type == "PLACE" else ""
    return bool(told == "ring")


def _before_count(todo: Waiting) -> str:
    """The sign that stands before the printed count of a course; nothing where its stitches do."""
    at = todo.declared_at[0] - todo.start if todo.declared_at is not None else 0
    before = todo.parsed.body[:at].rstrip()[-1:] if todo.parsed is not None and at > 0 else "?"
    return "" if before.isalnum() or before in ")]}" else before


def _wrong(sheet: Sheet, parsed: Parsed, short: Parsed, ground: Ground) -> bool:
    """Is it, of an author whose counts stand so, a count that is printed wrong, and no work?

    Where neither comes out ("3+dec, 18" on 24), it is where what is there could come to it."""
    if on_ground(parsed, ground, sheet.own).fits:
        return False
    there = ground.there or 0
    likely = there <= 2 * parsed.phrases.chunks[up_to_jobs(parsed.phrases.chunks) - 1].value[0] <= 4 * there
    return likely or on_ground(short, ground, sheet.own).fits


def _other(parsed: Parsed, ground: Ground, sheet: Sheet, sentence: bool) -> bool:
    """Does the number not fit as work, or only in a second meaning, where it is a sentence of its own?

    "inc, sc, inc. 5." on three could put five into the last one.
    """
    taken = on_ground(parsed, ground, sheet.own)
    return not taken.fits or (sentence and any(taken.reading.picks))


def up_to_jobs(chunks: list[Chunk]) -> int:
    """How many there are in front of the jobs that end them: "2 + dec, 18; stuff"."""
    past = len(chunks)
    while past and chunks[past - 1].type in ("CUE", "SEP"):
        past -= 1
    return past if any(chunk.type == "CUE" for chunk in chunks[past:]) else len(chunks)


def _without(parsed: Parsed, past: int, apart: bool, sheet: Sheet) -> Parsed:
    """A body without the number behind it, in front of chunks[past], which is its count; made once. `apart`: behind a
    comma."""
    if _SHORT not in parsed.kept:
        chunks = parsed.phrases.chunks
        counts = [*parsed.phrases.counts, chunks[past - 1].value]
        kept = [*chunks[: past - 1 - apart], *chunks[past:]]
        phrases = replace(parsed.phrases, chunks=kept, counts=counts)
        parsed.kept[_SHORT] = Parsed(phrases, build(phrases, sheet.own), parsed.body)
    short: Parsed = parsed.kept[_SHORT]
    return short


def settle_count(sheet: Sheet, todo: Waiting, ground: Ground) -> None:
    """Takes such a number for the printed count where all before it uses the stitches there and makes just that."""
    parsed = todo.parsed
    if parsed is None or todo.borrowed:
        return
    if todo.declared is not None:
        sheet.counts_behind[_before_count(todo)] += 1
        return
    if not sheet.patience.left:
        return
    past = up_to_jobs(parsed.phrases.chunks)
    chunks = parsed.phrases.chunks[:past]
    last = chunks[-1].type if len(chunks) > 1 else ""
    apart = last == "BARE" and chunks[-2].type == "SEP" and chunks[-2].value == ","
    if not apart and not (last == "NA" and chunks[-1].start > chunks[-2].end):
        return
    if ground.there is None and not ground.chain and not any(_ring(chunk) for chunk in chunks):
        return
    n, start, end = chunks[-1].value
    sentence = not apart and parsed.body[chunks[-2].end : chunks[-1].start].strip() == "."
    if not apart and not parsed.phrases.unknown and not _other(parsed, ground, sheet, sentence):
        return  # "dec 6" on twelve stitches
    short = _without(parsed, past, apart, sheet)
    counted = ground.but(declared=n)
    if short.tree.failed:
        return
    if on_ground(short, counted, sheet.own).fits or plain_between(short, counted, sheet.own) is not None:
        sheet.counts_behind["," if apart else ""] += 1
    elif sheet.counts_behind["," if apart else ""] < _HABIT or not _wrong(sheet, parsed, short, ground):
        return
    todo.parsed, todo.declared, todo.declared_at = short, n, (todo.start + start, todo.start + end)
    ground.declared = n


def of_another_part(todo: Waiting, ground: Ground, sheet: Sheet) -> bool:
    """Does a plain course taken over from another part bring the count of that part, which this one has not?

    "2nd to 5th rows: as 3rd row of Back" upon other stitches: one in each of them, whatever number the back prints.
    """
    if todo.parsed is None or not todo.borrowed or todo.declared_at is None or todo.declared == ground.there:
        return False
    if todo.raw.start <= todo.declared_at[0] < todo.raw.end:
        return False  # printed here
    alone = ground.but(declared=None)
    tried = (alone, alone.but(counts_as=True)) if ground.counts_as is None else (alone,)
    return any(goes_plain(on_ground(todo.parsed, on, sheet.own).reading, ground.there) for on in tried)
