"""A heading inside a line, before the first label of its piece: "... Fasten off. ARMS (make 2): Ch 8."."""

from __future__ import annotations

import re
from typing import NamedTuple

from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines import furniture
from hookside.notation.lines.copies.asked import only_how_many
from hookside.notation.lines.heads import headings

# "BELLY in white, this one is oval and flat: ch 9, rnd 1 ...": a name in capitals, and talk of it
_LOUD = re.compile(r"(?P<name>[A-Z]{3,}(?: [A-Z]{2,}){0,2}),? (?=[^:.!?]*[a-z]{2})[^:.!?\d]{6,80}:$")
# "Frill: join yarn in one of the loops you left and rnd 1: ...": a name, a colon, and what is done before the round
_TALKED = re.compile(
    r"(?P<head>[A-Za-z][A-Za-z']*(?: [a-z]+){0,3}(?: ?[(\[][^()\[\]:]{1,24}[)\]])?):\s+"
    r"(?P<talk>(?:[a-z]|With|Using|Join|Begin|Start|Make)\S*\s.*)$",
    re.S,
)
# "WINGS (MAKE 2) Using A, make a magic ring. 1st rnd: ...": a name in capitals or with its number, and its yarn
_DYED = re.compile(
    r"(?P<head>[A-Z]{3,}(?: [A-Z]{2,}){0,2}(?:,? ?[(\[][^()\[\]:]{1,24}[)\]])?|"
    r"[A-Z][a-z]+(?: [a-z]+){0,2} ?[(\[](?i:make |x ?)\w{1,6}[)\]])[.:]?"
    r"\s+(?P<talk>(?:With|Using|Join|Begin|Start|Make)\b[^:]*)$"
)
_LEADS_ON = re.compile(r"(?:,?\s+(?:and|then|now|work|for))+\s*$", re.I)
_SEAM = re.compile(r"[.!;)\]}]\s*")
_CHAINS_BEHIND = re.compile(r"[.!:)\]}]\s*")


class Tail(NamedTuple):
    """Where the course before it ends; the name and copies of the piece that begins there, what is told of it in front
    of its first label, and the chains it begins with."""

    cut: int
    name: tuple[str, int] | None = None
    chains: tuple[int, int] | None = None
    talk: tuple[int, int] | None = None


def _names_part(tail: str, told: str) -> bool:
    """ "... cut, long tail. shell top, brown: r1 ...": a part by its name and a colon, in print without capitals."""
    name = tail[:-1].split(",")[0].split("(")[0]
    words = re.findall(r"[a-z]+", name)
    return tail[-1] == ":" and told.islower() and len(words) < 4 and any(w in headings.PARTS for w in words)


def _talked(text: str, seam: int, first: bool) -> tuple[tuple[str, int], int] | None:
    """The name in front of what is told of its part, and where that begins; only where a `first` round follows."""
    told = (_TALKED.match(text, seam) or _DYED.match(text, seam)) if first else None
    if told is None or not (told["head"][:1].isupper() or "(" in told["head"]):
        return None
    head = headings.heading(f"{told['head']}:", True, True)
    return (head, told.start("talk")) if head is not None else None


def _chained(text: str, start: int, stop: int) -> tuple[int, int] | None:
    """The chains that the piece begins with, behind one of the last seams of the stretch."""
    stop -= len(text[start:stop]) - len(_LEADS_ON.sub("", text[start:stop]))
    seams = [m.end() for m in _CHAINS_BEHIND.finditer(text[start:stop])][-4:]
    for seam in [0, *seams]:
        tail = text[start + seam : stop]
        if tail.strip() and furniture.foundation(tail) is not None:
            return start + seam, stop
    return None


def heading_tail(text: str, start: int, stop: int, first: bool) -> Tail:
    """What a stretch of text before a label ends with. `first`: the label is that of a first course."""
    whole = text[start:stop]
    chains = _chained(text, start, stop)
    stop = chains[0] if chains is not None else stop
    told = text[start:stop]
    for match in reversed([m for m in _SEAM.finditer(told)][-3:]):
        bare = told[match.end() :].strip()
        if not bare or (bare[0].islower() and told[:1] != bare[0] and not _names_part(bare, whole)):
            continue  # "... 6 dc into the first. 2nd round:"
        if only_how_many(bare.split(".")[0]) or is_colour(bare):
            continue  # "Wings. Two.", "Foot (make 2) (orange):"
        loud = _LOUD.match(bare)
        head = headings.heading(bare, True, True)
        if loud is not None and any(w in headings.PARTS for w in loud["name"].lower().split()):
            head = head if head is not None and head[1] > 1 else headings.heading(loud["name"], True, True)
        if head is None and len(bare.split()) <= 6:
            head = headings.heading(bare.rstrip("."), True, True)
        if head is not None:
            return Tail(start + match.end(), head, chains)
        talked = _talked(told, match.end(), first)
        if talked is not None:
            return Tail(start + match.end(), talked[0], chains, (start + talked[1], stop))
    talked = _talked(told, 0, first) if _DYED.match(told) else None
    if talked is not None:
        return Tail(start, talked[0], chains, (start + talked[1], stop))
    return Tail(stop, None, chains)
