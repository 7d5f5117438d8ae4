"""Names of yarns that no list knows, told by how a text takes them up: "change to raspberry in the last stitch",
"Fasten off wool, join mohair.", "R1 (hot pink): ..." above "R2 (denim): ...".

A name counts where nothing else can be taken up so, or where brackets behind labels hold two names or more that come
back, or a color among them; each is a word or two that are no stitches, parts or places.
"""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.askings.colournames import is_colour
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.heads.parts import MAIN_PARTS, PARTS
from hookside.notation.vocabulary import HARMLESS, NOUNS, NUMBER_WORDS, PREPOSITIONS
from hookside.stitches import singular

_NAME = r"(?P<{0}>[A-Za-z]{{1,12}}(?:[ ][A-Za-z]{{3,12}})??)"
_YARN = r"(?:[ ](?:yarn|wool|cotton|thread))?"
_TAKEN = re.compile(
    rf"\b(?:chang|switch|swap)(?:e|ing|ping|es)?[ ](?:back[ ]|over[ ])?to[ ](?:the[ ])?{_NAME.format('to')}{_YARN}"
    r"(?=[ ]?[.,;:)\n]|[ ](?:in|on|at|for|with)[ ]the[ ](?:last|next|final)\b|[ ](?:in|on|at)[ ](?:last|next)\b)|"
    rf"\b(?:fasten[ ]off|cut|break)[ ](?:the[ ])?{_NAME.format('off')}{_YARN},?[ ](?:and[ ])?(?:join|attach)[ ]"
    rf"(?:in[ ])?(?:the[ ])?{_NAME.format('on')}{_YARN}(?=[ ]?[.,;:)\n])",
    re.I,
)
_IN_A_LETTER = re.compile(r"\b(?:[Ii]n|[Ww]ith|[Uu]sing) (?P<letter>[A-HJ-Z])(?=[ ]?[.,:;)\n])")
_BEHIND_LABEL = re.compile(
    rf"^[^\w\n]{{0,6}}{COURSE}s?\.?[ ]?#?\d{{1,3}}(?:[ ]?-[ ]?\d{{1,3}})?[:.]?[ ]?"
    r"[(\[](?P<name>[A-Za-z]{1,12}(?:[ ][A-Za-z]{3,12})?)[)\]](?=[ ]?[:.-]?[ ]\S)",
    re.I | re.M,
)
_NO_YARN = frozenset(
    [
        "yarn", "color", "colour", "colors", "colours", "sc", "hdc", "dc", "tr", "inc", "dec", "increase", "decrease",
        "increases", "decreases", "plain", "even", "odd", "straight", "working", "rows", "rounds", "row", "round",
        "normal", "smaller", "larger", "bigger", "hook", "right", "wrong", "left", "side", "front", "back", "top",
        "bottom", "again", "other", "new", "next", "same", "optional", "repeat", "times", "last", "first", "rs", "ws",
        "stuff", "eyes", "join", "turn", "blo", "flo", "start", "end", "spiral", "photo", "picture", "see", "main",
        "contrast", "it", "them", "this", "that", "both", "mr", "mc", "cc", "adult", "child", "small", "large",
        "medium", "s", "m", "l", "xl", "working", "neck", "yes", "no", "done", "corner", "corners", "flat", "oval",
        "shell", "fan", "popcorn", "bobble", "puff", "cluster", "mesh", "rib", "ribbing", "edge", "edging", "border",
        "foundation", "setup", "closing", "shaping", "cable", "lace", "worked", "joined",
    ]
)  # fmt: skip
_SIZES = frozenset(["s", "m", "l", "x", "xl", "xs"])
_FEWEST = 3  # brackets behind labels


def _may_be_one(name: str) -> bool:
    words = name.lower().split()
    if len(name) == 1:
        return name.isupper() and name != "I"
    others = (_NO_YARN, HARMLESS, NUMBER_WORDS, PREPOSITIONS, NOUNS, PARTS, MAIN_PARTS)
    return not any(w in told or singular(w) in told for told in others for w in words if w not in COLOURS)


@lru_cache(8)
def yarns_taken(text: str) -> tuple[str, ...]:
    """These names, as they are written; those that our own list knows are no news."""
    found = {m[group] for m in _TAKEN.finditer(text) for group in ("to", "off", "on") if m[group]}
    letters = {m["letter"] for m in _IN_A_LETTER.finditer(text)}
    if len(letters) > 1 or any(len(name) == 1 for name in found):
        found |= letters  # "Body, in A", and B is changed to, or "Head in B" stands below it
    held = [m["name"] for m in _BEHIND_LABEL.finditer(text)]
    names = {name.lower() for name in held}
    come_back = 2 * len(names) <= len(held) or any(not COLOURS.isdisjoint(name.split()) for name in names)
    sizes = names <= _SIZES  # "R1 (M)" above "R3 (S)": of whom nothing else tells
    if len(held) >= _FEWEST and len(names) > 1 and come_back and not sizes and all(map(_may_be_one, held)):
        found.update(held)
    return tuple(sorted(name for name in found if not is_colour(name) and _may_be_one(name)))


def words_taken(text: str) -> frozenset[str]:
    """Their words in small letters, without those that stand before or behind many names."""
    return frozenset(w for name in yarns_taken(text) for w in name.lower().split() if w not in SHADES)
