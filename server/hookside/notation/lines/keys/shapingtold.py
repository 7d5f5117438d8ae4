"""A text's own increase or decrease told in a sentence, where no list explains it: "An increase is 3 sc in one
stitch.", "To decrease, work three stitches together."

What it names goes for every dress of the word ("inc", "increase"): `bodies/own` sees to that.
"""

from __future__ import annotations

import re

_N = r"(?:\d|two|three|four|five)"
_NOUN = r"(?: (?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr|(?:half )?(?:single|double|treble) crochets?))?"
_TOLD = re.compile(
    r"(?:^\W{0,4}|[.!;:] )(?:(?:to|for|here|in this pattern|note|please|all|each|every|an?|the|my|your),? ){0,3}"
    r"(?P<name>inc|dec|(?:in|de)creas(?:e|es|ing))\b(?: \((?:inc|dec)s?\.?\))?(?:,? (?:here|always|in this pattern))?"
    r"(?:,|:| is| are| means| by| here| always| worked| made| done| as| with| you| we| I| just| simply){1,6}"
    r" (?P<what>(?:(?:work|make|put|crochet)(?:ing)? )?"
    rf"{_N}{_NOUN} (?:(?:all )?in(?:to)? (?:the )?(?:one|1|same|a single|next|each)(?: (?:sts?|stitch|sc))?|"
    r"tog(?:ether)?)\b)",
    re.I,
)
_MAY = re.compile(r"\b(?:inc|dec|(?:in|de)creas)", re.I)
_LONG = {"increas": "increase", "decreas": "decrease"}


def shaping_told(line: str) -> dict[str, str]:
    """The shaping that a sentence explains, with its meaning; nothing where none does."""
    found: dict[str, str] = {}
    for told in _TOLD.finditer(line) if _MAY.search(line) else ():
        name = told["name"].lower()
        found[_LONG.get(name[:7], name)] = re.sub(r"^(?:work|make|put|crochet)ing ", "", told["what"], flags=re.I)
    return found


def only_tells_shaping(line: str) -> bool:
    """Is that all the line says? Then it is no round."""
    told = _TOLD.match(line.strip()) if _MAY.search(line) else None
    return told is not None and not line.strip()[told.end() :].strip(" .!)")
