"""Which colour a sentence of the text changes to, begins with, or is nothing but the name of."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS, SHADES

_TO_COLOUR = re.compile(
    r"\b(?:(?:chang|switch|swap|go|return|turn|mov)\w*\s+(?:back\s+|over\s+)?"
    r"(?:from\s+(?:the\s+)?(?!r(?:ounds?|nds?|ows?|\d)|st|top|bottom|here|there)[\w'-]+(?:\s+[\w'-]+)?\s+)?(?:in)?to|"
    r"back\s+to|on\s+with|(?:pull|draw|bring)ing(?=\s[\w' -]{3,30}\sthrough\b)|"
    r"(?:join|add|bring)\w*\s+in(?=\s+(?:the\s+)?(?!(?:the|first|last|next|same|any|each|every|an?|top|front|back|ring|both|"
    r"one|ch|chains?|sts?|stitch\w*|loops?|sps?|spaces?|\d+)\b)[\w'-]+)|"
    r"(?:join|attach|add|tak|pick|using|use|with)\w*)"
    r"\s+(?:up\s+)?(?:the\s+)?((?:[\w'-]+\s*){1,6})",
    re.IGNORECASE,
)
_IN_BRACKETS = re.compile(r"\b(to|with|using|join|attach)\s+\(([\w' -]{1,30})\)", re.IGNORECASE)  # "Change to (A)"
# Where the name of a colour is over.
_NAME_ENDS = frozenset(
    {
        "for", "in", "on", "at", "and", "then", "by", "with", "from", "of", "as", "to", "while", "until", "before",
        "after", "because", "since", "so", "but", "again", "now", "here", "which",
        "leaving", "through", "cut", "do", "last", "next", "st", "stitch", "up", "when", "whenever", "once",
        "finishing", "completing", "ending", "working", "making", "during", "you", "we", "coloured", "colored",
    }
)  # fmt: skip
_BEGINS = re.compile(r"\b(?:in )?((?:(?:yarn|colou?r) )?[A-H])\b(?!')(?<!\bA)|\bin (A)\b")
_WORDS = re.compile(r"[A-Za-z]+|[/&+]")  # "navy/cream" is no shade of cream
_YARN_BY_LETTER = re.compile(r"\b(?:[A-H]|mc|cc|\d)\b", re.IGNORECASE)
_BOTH = re.compile(
    r"[\w' -]{3,30} (?:and|&) [\w' -]{3,30}[.:]?\s*$|[a-z ]{3,30} ?[/+] ?[a-z ]{3,30}$|"
    r"[a-z ]{3,20} (?:inside|outside|outer|inner|top|bottom|front|back)\b,? (?:and )?[a-z]",
    re.IGNORECASE,
)
_SOME = re.compile(r"^(?:(?:some|more|a|bit|little|of|your|my|our)\s+)+", re.IGNORECASE)
_ITS_NOUN = re.compile(r"(?<=[a-z]) (?:yarn|wool|cotton|thread)$", re.IGNORECASE)
_FIRST = re.compile(r"\s+(?:first|please|once|held|too|only)\b.*$", re.IGNORECASE)

_BESIDE = re.compile(r"^(?:now|then)\s+|\s+(?:now|first|again|next)$", re.IGNORECASE)  # "Grey now."
# "Navy/cream": both at once; "Swap back.": the other one, whichever that is
_NO_ONE_NAME = re.compile(
    r"\b(?:change|switch|new|colou?rs?$|and)\b|[/&+]|\bback(?: again)?$|^(?:swap|swop|switch)\b", re.IGNORECASE
)
# "Say goodbye to cream and pick up grey.", "Change back here, cutting cream.": what is let go is not what comes
_LET_GO_FIRST = re.compile(
    r"^\W{0,4}(?:(?:now|so|then),? )?(?:say(?:ing)? |wave )?(?:good-?bye|bye(?:-bye)?|farewell) (?:to )?"
    r"(?:the )?[a-z]+(?: [a-z]+)?(?:,? and|,|;) (?:hello (?:to )?(?:the )?)?",
    re.IGNORECASE,
)
_LET_GO_LAST = re.compile(
    r"(?<=[a-z])(?:,| and|, and) (?:then )?(?:cut|snip|drop|break)(?:t?ing|p?ing|p)?(?: off)? (?:the )?"
    r"[a-z]+(?: [a-z]+)?\W{0,3}$",
    re.IGNORECASE,
)
_IN = re.compile(r"\s*in\s+(?:the\s+)?((?!last|next|first|final|an?\b)[\w-]+(?:\s+[\w-]+)?)", re.IGNORECASE)


def colour_named(text: str) -> str:
    """The colour a sentence changes to or begins with: "color B"; "" where it names none, or several and no change."""
    to = _changed_to(text)
    known = _known(text)
    if to and (not known or len(to) == 1 or any(word.lower() in COLOURS for word in to.split())):
        name = _FIRST.sub("", _SOME.sub("", to)) or to
        return _ITS_NOUN.sub("", name) if known else name
    if to and _YARN_BY_LETTER.search(to):
        return to
    if len(known) == 1 or (known and text.strip().lower().startswith(known[0]) and not _BOTH.match(text)):
        return known[0]
    lettered = _BEGINS.search(text)
    return to or ((lettered[1] or lettered[2]) if lettered and not known else "")


@lru_cache(256)  # a text has a few colours, and asks for each of them over and over
def yarn_named(text: str) -> str:
    """The colour a sentence of the text changes to, also where it is nothing but a name; "" where it names none."""
    low = text.lower()
    if "bye" in low or "farewell" in low:
        text = _LET_GO_FIRST.sub("", text)
    if "cut" in low or "snip" in low or "drop" in low or "break" in low:
        text = _LET_GO_LAST.sub("", text)
    if name := colour_named(text):
        return name
    if found := _IN.match(text):
        return found[1]
    return bare_name(text)


def bare_name(text: str) -> str:
    """The name where a sentence is nothing else: "Grey now." is grey; else ""."""
    bare = _BESIDE.sub("", text.strip(" -*:,;.!()[]\"'"))
    bare = bare[:1].lower() + bare[1:] if bare.istitle() and len(bare) > 1 else bare  # "Oat" is the list's oat
    return bare if 0 < len(bare.split()) <= 3 and not _NO_ONE_NAME.search(bare) else ""


def _changed_to(text: str) -> str:
    """What stands behind the words of a change."""
    for found in _TO_COLOUR.finditer(_IN_BRACKETS.sub(r"\1 \2", text)):
        name: list[str] = []
        for part in found[1].split():
            if part.lower() in _NAME_ENDS or len(name) == 3:
                break
            name.append(part)
        if name == ["A"] or (name and name[0].lower() not in ("new", "a", "an", "this", "that", "other")):
            return " ".join(name)
    return ""


def _known(text: str) -> list[str]:
    """The everyday colours that a text names, each once, with what shades them: "dark blue"."""
    found: list[str] = []
    name: list[str] = []
    for word in [*_WORDS.findall(text.lower()), ""]:
        if word in COLOURS or word in SHADES:
            name.append(word)
            continue
        if name and name[-1] in COLOURS and " ".join(name) not in found:
            found.append(" ".join(name))
        name = []
    return found
