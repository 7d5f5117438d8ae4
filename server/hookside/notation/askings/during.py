"""What is done while a round is worked, or minded in it: behind the round it is told too late."""

from __future__ import annotations

import re

from hookside.pattern import CueKind

# "while doing so slide the wire in", "catching the tail as you go", "inside out halfway through"
_MEANWHILE = re.compile(
    r"\bwhile (?:(?:you|we) (?:do|work|crochet|go|make|are)|doing|working|crocheting|making|going)\b|"
    r"\b(?:at|during) the same time\b|\bas (?:you|we) (?:go|pass|work|crochet|do|make|come|reach|get)\b|"
    r"\balong the way\b|\bhalf ?-?way (?:through|round|around|along)\b|\bmeanwhile\b|\bin passing\b"
)
# "pull tight every few stitches": again and again, so that nothing is closed by it
_NOW_AND_THEN = re.compile(
    r"\b(?:every|each) (?:few|couple(?: of)?|other|second|third|fourth|fifth|2nd|3rd|4th|5th|\d{1,2}|two|three|four|"
    r"five|six|ten) (?:sts?|stitch(?:es)?|sc|rounds|rnds|rows)\b|\bafter (?:each|every) (?:st|stitch|sc)\b|"
    r"\b(?:now and (?:then|again)|from time to time|once in a while)\b"
)
# "leaving a gap for the handle", "remember to hold the flap forward", "the handle goes through here"
_MINDED = re.compile(
    r"(?:(?:and|but|then|also|always|please|just|while|by),? )*"
    r"(?:(?:remember|mind|do not forget|don't forget|never forget|make sure|be sure|ensure|take care|be careful|"
    r"careful|watch)\b|"
    r"(?!(?:[a-z]*thing|string|ring|wing|king|spring|during|increasing|decreasing|beginning|ending|starting|"
    r"joining|turning|closing|fastening|finishing|skipping|missing|repeating|working|crocheting|making|being|going|doing|"
    r"ripping|according|including|excluding|counting|changing|switching)\b)"
    r"[a-z]{2,}ing (?!stitch|round|chain|loop|st\b)[a-z])"
)
_HERE = re.compile(
    r"\b(?:goe?s?|comes?|slips?|fits?|passes|runs?|sits?) (?:in|on|through|under|over|behind|out) here\b"
)
# What is asked behind its round all the same: of these the words above only tell how
_BEHIND = frozenset(["colour", "eyes", "stuff", "fasten", "count", "close"])
# "weave through every other stitch and pull tight": that does close
_THREADED = re.compile(r"\b(?:through|weav\w*|thread\w*|sew\w*|whip\w*|hole|opening|shut|close\w*)\b")


def done_within(text: str, kind: CueKind | None) -> bool:
    """Is the clause, in small letters, done while the stitches of its round are worked?"""
    if kind in _BEHIND:
        return False
    told = text.strip(" -*,;:.!")
    if _MEANWHILE.search(told):
        return True
    if kind in (None, "other", "shape") and _NOW_AND_THEN.search(told) and not _THREADED.search(told):
        return True
    return kind in (None, "other") and bool(_MINDED.match(told) or _HERE.search(told))


def again_and_again(text: str) -> bool:
    """ "pull tight every few stitches": how the round is worked, and nothing that ends it."""
    again = _NOW_AND_THEN.search(text) or re.search(r"\bas (?:you|we) (?:go|work|crochet)\b", text)
    return again is not None and not _THREADED.search(text)
