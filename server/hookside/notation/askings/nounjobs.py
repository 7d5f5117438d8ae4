"""Jobs told by a noun and a verb that says nothing: "do the stuffing before this round", "then see to the face"."""

from __future__ import annotations

import re

from hookside.pattern import CueKind

_KINDS: dict[str, CueKind] = {
    "stuffing": "stuff", "filling": "stuff", "wadding": "stuff", "eyes": "eyes", "face": "embroider",
    "nose": "embroider", "mouth": "embroider", "embroidery": "embroider", "sewing": "sew", "sewing up": "close",
    "closing": "close", "closing up": "close", "weaving in": "weave",
}  # fmt: skip
_TOLD = re.compile(
    r"(?:(?:and|now|then|first|next|so|just|please|here|also|it's|it is|time|to|must|should|have to|need to|best|you|"
    r"we|i|i'd|'ll|always|here's where|this is where|this is when)(?:,? ))*"
    r"(?:do(?:es)?|see to|deal with|take care of|attend to|get on with|get|have|finish) (?:all )?"
    rf"(?:the|your|his|her|its|their) (?P<what>{'|'.join(sorted(_KINDS, key=len, reverse=True))})"
    r"(?! at hand)(?: (?:now|here|first|next|done|in|finished|lightly|firmly|before|after|at|while|in round|ahead|then|"
    r"beforehand)\b.*)?"
)
# "the stuffing happens now", "eyes come next": by the noun, and when
_COMES = re.compile(
    r"(?:(?:and|now|then|so|here) )*(?:the |his |her |its )?(?P<what>stuffing|filling|wadding|eyes)"
    r" (?:happens?|comes?|follows?|is done|are done|gets done|get done|(?:is|are) (?:due|up))"
    r" (?:now|here|next|first|before|after|at|in)\b.*"
)


# "that's where the eyes go", "and here is where his nose sits"
_WHERE = re.compile(
    r"(?:(?:and|so|now) )*(?:that|this|here)(?:'s| is) where (?:the |his |her |its |your )?"
    r"(?P<what>stuffing|filling|eyes|face|nose|mouth) (?:go(?:es)?|comes?|sits?)(?: in)?"
)


def noun_job(whole: str) -> CueKind | None:
    """The job that a sentence in small letters tells so; None where it is about something else."""
    told = _TOLD.fullmatch(whole) or _COMES.fullmatch(whole) or _WHERE.fullmatch(whole)
    return _KINDS[told["what"]] if told is not None else None
