"""A picture's caption that asks for something: "[photo 3: place the eyes here]". Where the picture is found is taken
out, so that the rest is read as any other asking; the length stays. One that only shows is no part of the pattern."""

from __future__ import annotations

import re

from hookside.notation.askings.askings import askings
from hookside.notation.askings.when import names_round
from hookside.notation.sought import Sought

_LONGEST = 160  # letters of such a caption
_PICTURE = r"(?:photo(?:graph)?|picture|figure|fig|image|img|pic|illustration|caption|video|step photo)"
_NUMBER = r"(?:\d{1,2}:\d{2}\b|(?:(?:no|nr)\b\.? ?|# ?)?\d{1,3}[a-z]?\b(?: ?(?:-|,|&|and|to) ?\d{1,3}\b)?)"
_HINT = ("photo", "pict", "pic ", "pic.", "pic:", "pics", "fig", "imag", "img", "illus", "caption", "video")
_SEAM = r" ?[:;,.-]+ ?"
# In brackets; without them only where a dot in front of the words would end a sentence: "Fig. 2: Sew on the wings."
_CAPTION = Sought(
    _HINT,
    rf"(?P<lead>(?<=[(\[]) ?(?:see |as in )?{_PICTURE}s?\b(?:\.? ?{_NUMBER}(?:{_SEAM}| (?=[a-z]))|{_SEAM}))"
    rf"(?P<words>[a-z\d][^()\[\]\n]{{0,{_LONGEST}}})(?=[)\]])|"
    rf"^(?P<dotted>[^\w\n(\[]{{0,6}}{_PICTURE}s?\. ?{_NUMBER}{_SEAM})(?P<line>[a-z][^()\[\]\n]{{0,{_LONGEST}}}$)",
    re.I | re.M,
)
# "the head from the front", "how to sew on the arms", "stuffed and closed", "eyes in place": what is to be seen
_SHOWS = re.compile(
    r"\W*(?:(?:how|where|what|why|after|before|with|the|an?|this|these|that|those|my|your|both|all)\b|"
    r"[a-z]{2,10}(?:ed|ing|ion|ment)\b|.{0,40} in place\W*$)",
    re.I,
)
_NOW = re.compile(r"\b(?:now|here|next|must|should|have to|goes|go)\b", re.I)
_NO_JOB = ("other", "count")
_PICTURED = Sought(
    _HINT,
    rf"[^\w\n]{{0,6}}(?:see (?:the )?{_PICTURE}s?\b|{_PICTURE}s?\b\.? ?{_NUMBER}(?:{_SEAM}| )(?=[a-z]))",
    re.I,
)
# What is left to look at: a caption that neither asks nor is plain talk
_MAY_ASK = Sought(
    _HINT,
    rf"[^\w\n]{{0,6}}(?:see )?{_PICTURE}\b.{{0,{_LONGEST}}}?\b(?:stuff|fill|eyes\b|nose\b|mouth\b|sew|attach|join|"
    r"fasten|embroider|insert|plac(?:e|ing)\b|clos(?:e|ing)\b|\d ?(?:sc|dc|inc|dec)\b)",
    re.I,
)


def opened(text: str) -> str:
    """The page with the captions that ask for something led in by nothing but blanks."""
    return _CAPTION.sub(_opened, text)


def shown(line: str) -> bool:
    """ "Photo 3: stuffing the body", "see photo for eye placement": is a line about a picture?"""
    return _PICTURED.match(line) is not None


def may_ask(line: str) -> bool:
    """Is something named in a line below a picture that may have to be done?"""
    return _MAY_ASK.match(line) is not None


def _opened(caption: re.Match[str]) -> str:
    lead, words = (caption["lead"], caption["words"]) if caption["lead"] else (caption["dotted"], caption["line"])
    return " " * len(lead) + words if any(map(_asks, words.split(". "))) else caption[0]


def _asks(sentence: str) -> bool:
    if not any(kind not in _NO_JOB for kind, _, _ in askings(sentence)):
        return False
    return _SHOWS.match(sentence) is None or _NOW.search(sentence) is not None or names_round(sentence)
