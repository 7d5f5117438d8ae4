"""What a round told in sentences may come to: bodies as others write them, each piece with its place in the text."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from hookside.notation.bodies.sentences.amounts import Said

_MOST = 8  # readings of one body
_WORK = frozenset(["work", "fill", "bare", "marked"])


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a body written out, and where in the sentence it is told."""

    body: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Reading:
    pieces: list[Piece]
    count: Said | None
    wide: bool = False  # the list goes round though nothing says so


def readings(said: list[Said]) -> list[Reading]:
    """Every way the phrases may be meant, the likeliest first."""
    if [s.kind for s in said[-3:]] == ["open", "bare", "close"]:
        said = [*said[:-3], replace(said[-2], kind="count")]
    counts = [s for s in said if s.kind == "count"]
    if counts:  # "so eighteen, eighteen, eighteen": for each of several rounds
        first = said.index(counts[0])
        said = [s for at, s in enumerate(said) if not (at > first and s.kind == "bare" and s.n == counts[0].n)]
    if len({s.n for s in counts}) > 1:
        return []
    work = _unbracketed([s for s in said if s.kind != "count"])
    if work is None:
        return []
    if not any(s.kind in _WORK for s in work):
        return []
    work = [*(s for s in work if s.kind == "loops"), *(s for s in work if s.kind != "loops")]
    if any(s.kind == "marked" for s in work):
        return _marked(work, counts[0] if counts else None)
    out: list[Reading] = []
    last = work[-1] if work and work[-1].kind == "bare" else None
    lone = sum(s.kind in _WORK for s in work) == 1
    told = counts[0] if counts else None
    bodies = [(work, told)]
    if last is not None and told is None and not lone:
        bodies = [(work[:-1], last), (work, None)]
    for body, count in bodies:
        for wide in (False, True):
            for last_only in (False, True):
                pieces = _written(body, last_only, wide)
                if pieces is not None and not any(r.pieces == pieces and r.count == count for r in out):
                    out.append(Reading(pieces, count, wide))
    return out[:_MOST]


def _marked(work: list[Said], count: Said | None) -> list[Reading]:
    """ "One in each, but two in the marked ones, so fifteen": as many more as it takes, where only that is said."""
    if count is None and work[-1].kind == "bare":
        count, work = work[-1], work[:-1]
    beside = [s for s in work if s.kind not in ("marked", "loops") and s.body != "{st} in each st around"]
    if count is None or beside:
        return []
    at = next(s for s in work if s.kind == "marked")
    return [Reading([Piece(f"inc {n} evenly around", at.start, at.end)], count, True) for n in range(2, 10)]


def _unbracketed(said: list[Said]) -> list[Said] | None:
    """Brackets that hold nothing but a count are gone with it; None where they do not close."""
    out: list[Said] = []
    depth = 0
    for phrase in said:
        if phrase.kind == "close":
            if not depth:
                return None
            depth -= 1
            if out and out[-1].kind == "open":
                out.pop()
                continue
        depth += phrase.kind == "open"
        out.append(phrase)
    return out if not depth else None


def _written(said: list[Said], last_only: bool, wide: bool) -> list[Piece] | None:
    """The phrases as a body; `last_only`: what tells how often goes for the phrase before it alone."""
    out: list[Piece] = []
    begins = 0  # where the list begins that a multiplier goes for
    opened: list[int] = []
    many = False
    scoped = False
    for phrase in said:
        span = phrase.start, phrase.end
        if phrase.kind == "open":
            out.append(Piece("(", *span))
            opened.append(len(out) - 1)
        elif phrase.kind == "close":
            out.append(Piece(")", *span))
            begins = opened.pop()
        elif phrase.kind == "loops":
            if phrase.body != "both":
                out.append(Piece(f"in {phrase.body} loops only,", *span))
                begins = len(out)
        elif phrase.kind in ("times", "round"):
            if opened or not (out[begins:] or (out and out[-1].body == ")")):
                return None
            inner = out[begins:]
            told = " around" if phrase.kind == "round" else f" x {phrase.n}"
            if out[-1].body == ")":
                out[-1] = Piece(f"){told}", out[-1].start, phrase.end)
            elif len(inner) == 1 and inner[0].body.endswith(" around") and phrase.kind == "round":
                pass
            else:
                if last_only and len(inner) > 1:
                    begins, scoped = len(out) - 1, True
                out.insert(begins, Piece("(", out[begins].start, out[begins].start))
                out.append(Piece(f"){told}", *span))
            begins, many = len(out), True
        else:
            if phrase.kind != "fill" or all(p.body != phrase.body for p in out):
                out.append(Piece(phrase.body, *span))
            many = many or phrase.kind == "fill"
    if last_only and not scoped:
        return None
    if wide:
        if many or len(out) < 2:
            return None
        out = [Piece("(", out[0].start, out[0].start), *out, Piece(") around", out[-1].end, out[-1].end)]
    return out


def joined(pieces: list[Piece]) -> tuple[str, list[int]]:
    """The body of a reading, and for each piece where it begins there."""
    out, starts = "", []
    for piece in pieces:
        if out and not piece.body.startswith(")") and not re.search(r"[(,]\s*$", out):
            out += ", "
        elif out.endswith(","):
            out += " "
        starts.append(len(out))
        out += piece.body
    return out, starts
