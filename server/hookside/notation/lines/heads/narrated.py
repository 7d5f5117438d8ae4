"""Headings told as a sentence: "Now we make the fins (2 parts):", "Start with the head."."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.notation.askings.colourtalk import colour_talk
from hookside.notation.askings.when import names_round
from hookside.notation.lines.copies.asked import copies
from hookside.notation.lines.heads.headings import tidy_name
from hookside.notation.lines.heads.parts import MAIN_PARTS, PARTS
from hookside.notation.vocabulary import REMEMBERED, number_of

# "We knit the body.", "Now we make the fins (2 parts):", "Start with the head."
_NARRATED = re.compile(
    r"""^(?:(?:and\ )?(?:now|next|then|so|here|here's|finally|last(?:ly)?|after\ that|last\ but\ not\ least)[,:]?\s+|
    first(?:ly)?(?:\ of\ all)?(?:,\s+|\s+(?=(?:the|a|an|his|her|our|both)\b))|and\s+|on\ )?
    (?:how\ to\s+|(?:it's|it\ is)\ time\ (?:for|to)\s+)?(?:(?:we(?:'ll)?|let's|let\ us|you)\s+)?(?:now\s+)?
    (?:(?:will|can|start|begin|starting|beginning|go\ on|continue|move\ on|proceed|to)\s+){0,2}
    (?:(?:to|with|by|on|for|comes?|up)\s+)?
    (?:(?:knit(?:ting)?|crochet(?:t?ing)?|mak(?:e|ing)|work(?:ing)?|do|tie|sew)\s+)?
    (?:(?:on|the|a|an|our|his|her|its|both)\s+){0,2}(?:of\s+(?:the\s+)?)?
    (?:(?P<n>two|three|four|five|six|\d)\s+(?:x\s+)?)?(?:(?:dozen|pairs\s+of)\s+)?
    (?P<what>[a-z][a-z ]{1,30}?)\s*
    (?P<copies>[(\[][^()\[\]]{1,24}[)\]]|(?:,|\s-)\s*(?:(?:you\ need|make)\ \w+|\d\ (?:pcs|pieces)))?
    (?:[.!]\ (?:you\ )?(?:make|work|need)\ [a-z\d]+(?:\ of\ (?:them|these|those))?)?
    (?:,?\ (?:and\ )?(?:(?:of\ which\ )?(?:you|we)(?:'ll|\ will)?\ (?:need|make|want)\ )?
    (?:only\ |just\ |again\ |once\ more\ )*
    (?P<many>one|two|three|four|five|six|\d)
    (?:\ (?:of\ (?:them|these|those)|again|only|alike|in\ all|this\ time|times))*)?
    (?P<shade>,?\ (?:again\ |also\ |this\ time\ |both\ |all\ )*(?:in|with)\ (?:the\ )?[a-z]+(?:\ (?:yarn|again|too))*)?
    (?:\ (?:like\ this|as\ follows|this\ way))?
    (?:,\ (?:from|starting|beginning|worked|working|in)\b[^.\n]{0,50})?\s*[.:!]?$""",
    re.I | re.X,
)
_WORDS = re.compile(r"[a-z]+")
_NO_PART = frozenset(
    ["forth", "ring", "circle", "loop", "chain", "magic", "round", "row", "rounds", "rows", "pattern", "stitches"]
)


@lru_cache(REMEMBERED)
def narrated(text: str) -> tuple[str, int] | None:
    """A heading told as a sentence, as translations have it -> (name of the part, copies)."""
    if not any(word in PARTS or word.rstrip("s") in PARTS for word in _WORDS.findall(text.lower())):
        return None
    match = _NARRATED.match(text.strip().strip("#*_=~ ").strip())
    if not match or match.start("what") == 0:
        return None
    words = match["what"].lower().split()
    bare = text.replace(match["shade"] or "", "")
    if words[0] in ("with", "at", "in", "from", "using") or (colour_talk(bare) and not set(words) & MAIN_PARTS):
        return None  # "We start with white rope.", "Begin at the snout."
    if words[-1] in ("on", "together", "up") or names_round(text):
        return None  # "Sew the arms on (R7)."
    if len(words) > 3 or _NO_PART & set(words) or not any(w in PARTS or w.rstrip("s") in PARTS for w in words):
        return None
    made = copies(match["copies"] or text)[1]
    if made == 1 and match["copies"]:
        made = copies(f"{match['what']} {match['copies']}")[1]  # "The arms (green, two)": what a name asks for alone
    if made == 1 and re.match(r"\W*both\b", text, re.I):
        made = 2  # "Both paws (alike)"
    told = match["many"] or match["n"]
    return tidy_name(match["what"]), number_of(told) if told and made == 1 else made
