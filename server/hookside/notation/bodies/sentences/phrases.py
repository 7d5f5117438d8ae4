"""A round told in sentences as the phrases of a body, each standing where the sentence tells it."""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import replace
from typing import Any

from hookside.notation.bodies.chunks import Chunk, CueClause, Phrases, Place, Times
from hookside.notation.bodies.phrases import gather
from hookside.notation.bodies.sentences.flat import flat
from hookside.notation.bodies.sentences.readings import Reading, joined, readings
from hookside.notation.bodies.sentences.saying import told
from hookside.notation.bodies.telling import TELLING
from hookside.notation.bodies.tokens import Dictionary

_LONGEST = 600  # characters of a body: many times what anyone says in one round
# "inc x 6, 1 round plain, fasten off": a round of its own behind another, and nothing that is said of that one
_ANOTHER = re.compile(
    r"[a-z\d)][,;.]\s*(?:and |then |work )*(?:\d{1,2}|one|two|three|four) (?:more )?(?:rounds?|rows?|rnds?) "
    r"(?:plain|even|straight)(?=\s*(?:[,;.(]|$))",
    re.I,
)
# "That's the top.": what is done then, in words that tell of no stitch to come
_DONE = re.compile(
    r"\W*(?:(?:and|so) )?(?:that|this|it)(?:'s| is| was) (?:the|her|his|its|our|your) [a-z]+(?: [a-z]+)?(?: done)?\W*",
    re.I,
)
_SHORT = {"sc": ("sc", "dc"), "hdc": ("hdc", "htr"), "dc": ("dc", "tr"), "tr": ("tr", "dtr")}


def in_sentences(body: str, names: Dictionary, stitch: str) -> list[Phrases]:
    """What a body told in sentences may mean, the likeliest first; `stitch`: the key of the text's plain one."""
    if len(body) > _LONGEST or (" r" in body and _ANOTHER.search(body) is not None):
        return []
    found = told(flat(body, names, stitch))
    if found is None:
        return []
    plain = Dictionary(names.terms)
    rest = [(span, gather(body[slice(*span)], names)) for span in found.rest]
    if any(not _beside(body[slice(*span)], out) for span, out in rest):
        return []
    name = _SHORT[stitch][names.terms == "UK"]
    out = [_phrases(reading, plain, name) for reading in readings(found.said)]
    out = [p for p in out if not p.unknown]
    for phrases in out:
        for (at, _), asked in rest:
            _ask(phrases, asked, at)
    return out


def _phrases(reading: Reading, plain: Dictionary, name: str) -> Phrases:
    body, starts = joined(reading.pieces)
    # a name stands in for its braces only now, so that each piece keeps its place
    pieces = [p.body.replace("{st}", name).replace("{dec}", f"{name}2tog") for p in reading.pieces]
    body, starts = joined([replace(p, body=b) for p, b in zip(reading.pieces, pieces, strict=True)])
    out = gather(body, plain)

    def span(at: int) -> tuple[int, int]:
        piece = reading.pieces[max(0, bisect_right(starts, at) - 1)]
        return piece.start, piece.end

    if out.counts and reading.count is None:
        out.unknown.append((0, 0))  # its last number is a count, and this is the meaning in which it is none
    out.chunks = [Chunk(c.type, _moved(c.value, span(c.start)), *span(c.start)) for c in out.chunks]
    out.counts = [(reading.count.n, reading.count.start, reading.count.end)] if reading.count is not None else []
    out.asides = []
    return out


def _moved(value: Any, span: tuple[int, int]) -> Any:
    """What a phrase of the body written out says, as told in the sentence."""
    if isinstance(value, Place):
        return replace(value, start=span[0], end=span[1], number=None)
    if isinstance(value, Times):
        return replace(value, number=None)
    return (value[0], *span) if isinstance(value, tuple) and len(value) == 3 else value


def _ask(phrases: Phrases, asked: Phrases, at: int) -> None:
    """Puts what a sentence beside the work asks for behind the work, or before it."""
    shift = len(phrases.cues)
    clauses = [CueClause(c.kind, c.start + at, c.end + at, c.leads, c.joins) for c in asked.cues]
    chunks = [Chunk("CUE", c.value + shift, c.start + at, c.end + at) for c in asked.chunks if c.type == "CUE"]
    before = bool(phrases.chunks) and at < phrases.chunks[0].start
    phrases.chunks = [*chunks, *phrases.chunks] if before else [*phrases.chunks, *chunks]
    phrases.cues += clauses
    phrases.unknown += [(a + at, b + at) for a, b in asked.unknown]


def _beside(words: str, out: Phrases) -> bool:
    """Does a sentence only ask for something beside the stitches, or tell what could be no part of them?"""
    if any(c.type not in ("CUE", "SEP", "COLOUR") for c in out.chunks):
        return False
    return (bool(out.cues) and not out.unknown) or not TELLING.search(words) or _DONE.fullmatch(words) is not None
