"""One yarn let go and another taken up in one sentence, by whatever names: "Cut the smoke and carry on in barley."

Two names in the place of yarns tell what neither would alone: "join barley" may join a part.
"""

from __future__ import annotations

import re

from hookside.notation.lines.heads.parts import PARTS
from hookside.pattern import CueKind

# What is cut, dropped or joined besides yarns
_NONE = (
    r"(?!(?:yarns?|threads?|wool|strands?|tails?|ends?|work|pieces?|parts?|stitch(?:es)?|sts?|loops?|hook|needle|"
    r"marker|holder|felt|wire|paper|card|ring|chains?|rows?|rounds?|rnds?|same|other|another|next|last|first|rest|"
    r"both|all|more|new|stuffing|eyes?|sides?|edges?|it|this|that|them|your|our|the|two|three|one|here|now|and|then|"
    r"spirals?|plain|half|single|double|front|back|off|out|way|tightly|again)\b)"
)
_NAME = rf"{_NONE}[a-z]{{3,14}}(?: {_NONE}[a-z]{{3,14}})?"
_SWAPPED = re.compile(
    r"[^\w\n]{0,4}(?:(?:now|then|next|and|here|so),? )*"
    r"(?:(?P<cut>cut|snip|break|fasten|finish|tie)(?: off)?|drop|leave|lay aside|lay down|rest|park)(?: off)? (?:the )?"
    rf"(?P<old>{_NAME})(?: (?:yarn|here|for now|for a while|hanging|behind|at the back|inside))*"
    r"(?: ?\([^()\n]{2,40}\))?(?P<seam>(?:[,;.:]| and| then)+) "
    r"(?:join|attach|take|grab|use|tie|pick|carry|go|continue|keep|change|switch|swap|work|start|begin|introduce)"
    r"(?: (?:on|up|in|back|over|going|again|to|with|using|the|now|working))* "
    rf"(?P<new>{_NAME})(?: (?:yarn|again|now|instead|next|back|up|from here(?: on)?))*\W*",
    re.I,
)
# "Pick the grey back up, cut cream.": the new one first
_TAKEN_UP = re.compile(
    r"[^\w\n]{0,4}(?:(?:now|then|next|and|here|so),? )*"
    r"(?:pick|take|bring|join|attach|grab)(?: (?:up|back|in|to|over|again|the))* "
    rf"(?P<new>{_NAME})(?: (?:yarn|again|back|up|in|now|instead))*(?P<seam>(?:[,;.:]| and| then)+) "
    r"(?:then |now )?"
    r"(?P<cut>cut|snip|break|fasten|finish|tie|drop|leave|lay aside|lay down|rest|park)(?: off)? (?:the )?"
    rf"(?P<old>{_NAME})(?: (?:yarn|off|here|for now|for a while|hanging|behind|at the back|inside))*\W*",
    re.I,
)
_LET_HANG = re.compile(r"drop|leave|lay|rest|park", re.I)
_HINT = re.compile(r"\b(?:cut|snip|break|fasten|finish|tie|drop|leave|lay|rest|park)\b", re.I)
_LONGEST = 120  # letters of such a sentence


def swapped(sentence: str) -> list[tuple[CueKind, int, int]]:
    """Its askings: the change, and in front of it a cut where the old yarn is cut."""
    if len(sentence) > _LONGEST or _HINT.search(sentence) is None:
        return []
    told = _SWAPPED.fullmatch(sentence) or _TAKEN_UP.fullmatch(sentence)
    if told is None or told["old"].lower() == told["new"].lower():
        return []
    if not PARTS.isdisjoint(f"{told['old']} {told['new']}".lower().split()):
        return []
    if not told["cut"] or _LET_HANG.match(told["cut"]):
        return [("colour", 0, len(sentence))]
    if told.start("new") < told.start("cut"):
        return [("colour", 0, told.start("seam")), ("fasten", told.start("cut"), len(sentence))]
    return [("fasten", 0, told.start("seam")), ("colour", told.end("seam") + 1, len(sentence))]
