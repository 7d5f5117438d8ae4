"""The wording of the start and the end of a round: rings, joins, a new yarn."""

from __future__ import annotations

import re

# "make a loop and work 6 sc in loop": the ring of a first round, before any stitch
STARTING_LOOP = re.compile(
    r"(?:make|form|start with|begin with|wind|wrap|with)\s+(?:the yarn (?:in|into|to) )?(?:a|an|one)\s+"
    r"(?:(?:slip|yarn|thread|small|double|finger|closing|drawstring|starting|loose) )?(?:loop|ring|circle)"
    r"(?: (?:of|with|in) (?:the )?(?:yarn|thread|wool))?(?: (?:around|round|on) (?:your |the |a )?(?:index )?finger)?"
    r"\s*(?:,|;|:|\.|-)?\s*(?:and|then)?\s*(?=(?:then )?(?:(?:work|make|crochet|do|in(?:to)? (?:it|the \w+))\s+)*"
    r"(?:\d|three|four|five|six|seven|eight|ch\b))"
)
WITH_RING = re.compile(r"(?:start (?:off )?)?(?:with|in|using) (?:an? )mc\b")
RING_OF = re.compile(
    r"(?:and\s+)?(?:join|sl(?:ip)?[ .-]*st|ss)\b[^.;()\[\]]{0,50}?(?:to|and) (?:form|make|create) (?:a|the) (?:ring|"
    r"circle|loop)\b"
    r"|(?:and\s+)?join(?:ed|ing)?,? (?:it )?(?:in|into|to) (?:a|the) (?:ring|circle)\b"
    r"(?: with (?:an? )?(?:s\.? ?s\b\.?|sl(?:ip)?[ .-]*st(?:itch)?\b\.?))?"
)
JOIN = re.compile(
    r"(?:sl(?:ip)?[ .-]*st(?:itch)?|ss|sl)\.?\s+(?:(?:in|into|to|in to|through|with|on)\s+)?(?:the\s+)?(?:(?:top|"
    r"first|1st|beg(?:inning)?(?! in\b)|starting(?! in\b)|(?:3rd|2nd|4th) (?:ch )?of|both)\b"
    r"[^,.;()\[\]]{0,50}|(?:to|and)?\s*(?:join|close)\b[^,.;()\[\]]{0,50}|joining\b[^,.;()\[\]]{0,40})"
)
# The join that goes into the chain itself, as into a stitch
JOINS_TOP = re.compile(
    r"\b(?:top|2nd ch|3rd ch|4th ch|second ch\w*|third ch\w*|fourth ch\w*|3rd|third)\b(?: (?:ch(?:ain)?|st(?:itch)?))?"
    r"(?: of (?:the |your )?(?:(?:beg(?:inning)?|starting|first|turning|initial|opening) )?"
    r"(?:t-?ch\b|ch(?:ain)?|\d[ -]?ch))"
)
JOIN_PART = re.compile(
    r"(?:and\s+)?(?:join|attach|connect)\w*\b[^,.;()\[\]]{0,60}?\bwith (?:a |an |1 |one )?(?P<st>sc|dc|hdc|htr|sl st|"
    r"ss|slip stitch|single crochet|double crochet)\b(?P<rest>[^,.;()\[\]]{0,60})"
)
JOIN_WORD = re.compile(
    r"(?:and\s+)?(?:join(?:ing|ed)?|close)\b(?! (?:the )?(?:yarn|new|legs?|to leg))[^,.;()\[\]]{0,70}"
)
JOINED_WITH = re.compile(
    r"(?:join|attach|add)(?:ing)? (?:in )?(?P<colour>[^,.;]{0,30}?) ?with (?:an? |1 |one )?(?:standing )?(?P<st>sc|"
    r"dc|hdc|htr|tr|single crochet|double crochet)\b"
    r"(?: (?:in|into|to|at) (?:any|the first|first|the same|same|the next|next|a|the|each) (?:st(?:itch)?|sc|dc|sp|"
    r"space)\b)?"
)
ENDS_ROUND = re.compile(
    r"(?:and )?(?:finish|end|close|complete)(?:ing)? (?:(?:the |off the |this )?(?:round|rnd|row) )?(?:with|"
    r"by working|by) (?:a |an |1 |one )?"
    r"(?:sl(?:ip)?[ .-]*st(?:itch)?|ss)\b[^.;()\[\]=]{0,60}"
)
