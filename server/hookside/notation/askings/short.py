"""Jobs told by their names alone: "Safety eyes. Stuff.", "Eyes + stuffing", "Nose, then eyes", "Now: eyes!"."""

from __future__ import annotations

import re

from hookside.pattern import CueKind

_LONGEST = 60  # letters of such a line
_HINT = re.compile(r"eye|nose|mouth|smile|face|brows|whisker|stuff|fill|tail|wadding", re.I)
_THINGS = (
    r"(?P<eyes>eyes?(?! ?(?:brow|lid|lash))|nose)|(?P<embroider>mouth|smile|face|(?:eye)?brows|whiskers)|"
    r"(?P<stuff>(?:re)?stuff(?:ing)?|fill(?:ing)?|(?:fibre|fiber|poly)fill|wadding)|"
    r"(?P<other>flat|(?:no|without|not) (?:filling|stuffing|stuffed|wadding)|unstuffed|"
    r"(?:don't|do not|dont) (?:stuff|fill))|"
    r"(?P<tail>tail)|(?P<fasten>fasten(?:ing)? off|finish off|f/?o|cut)|(?P<close>clos(?:e|ing)(?: up| it)?|shut)"
)
_LED = (
    r"(?:(?:now|next|then|here|first|also|the|both|two|his|her|its|some|more|light|firm|a|bit|little|long|of|safety|"
    r"plastic|black|lightly|firmly|leave|add|it's|time|for|"
    r"(?:stop|pause|wait|hold on|halt)(?: here)?(?: (?:for )?(?:a|one) (?:moment|minute|while|bit|second|sec))?|"
    r"remember|(?:don't|do not|dont) forget(?: about)?)(?: ?[:,-])? |\d{1,2} ?mm )"
)
_BEHIND = (
    r"(?: ?[(\[] ?\d{1,2} ?mm ?[)\]]| (?:now|here|next|first|again|too|in|on|after|lightly|firmly|well|it|the yarn|"
    r"yarn|\d{1,3} ?(?:cm|mm|in))(?![a-z]))"
)
_ONE = re.compile(rf"{_LED}{{0,5}}(?:{_THINGS})(?![a-z-]){_BEHIND}{{0,4}}", re.I)
_SEAM = re.compile(r" ?(?:[,;.!+&/-]|and then|then|and|n|plus|before)(?: (?:and |then ))? ?", re.I)
# What makes a job of a thing that is named alone: it may as well be a part, or the head of a list
_TIME = re.compile(r"\b(?:now|here|next|time|then|first|remember|forget)\b|\d ?mm\b", re.I)

_KINDS: tuple[CueKind, ...] = ("eyes", "embroider", "stuff", "tail", "fasten", "close", "other")
_HAS_TAIL = re.compile(r"\btail\b", re.I)

Jobs = list[tuple[CueKind, int, int]]


def named_jobs(text: str) -> Jobs:
    """The jobs of a line that names nothing else, in order: (kind, start, end); empty for any other line.

    One thing alone needs a word of time or a size: "Eyes" may as well head a part.
    """
    if len(text) > _LONGEST or _HINT.search(text) is None:
        return []
    at = len(text) - len(text.lstrip(" -*(["))
    stop = len(text.rstrip(" .!)]"))
    found: Jobs = []
    many = 0
    breath = False  # no full stop stands between this job and the one before it
    while (one := _ONE.match(text, at)) is not None:
        kind = next(kind for kind in _KINDS if one[kind])
        before, first, _ = found[-1] if found else (None, at, at)
        if before == kind == "eyes" or (breath and {before, kind} == {"tail", "fasten"}):
            found[-1] = (kind if kind != "tail" else "fasten", first, one.end())  # "Nose, then eyes", "Tail & cut"
        else:
            found.append((kind, at, one.end()))
        at = one.end()
        many += 1
        seam = _SEAM.match(text, at)
        if at >= stop or seam is None:
            break
        breath = seam[0].strip() not in (".", ";", "!")
        at = seam.end()
    kinds = {kind for kind, _, _ in found}
    if kinds == {"tail", "other"} and at >= stop:
        return found  # "flat, no filling, tail"
    if at < stop or "tail" in kinds or not (kinds & {"eyes", "embroider"} or _HAS_TAIL.search(text)):
        return []
    return found if many > 1 or _TIME.search(text) is not None else []


# "sc around (24) - eyes": behind the stitches of a round no part is named
_EYES_ALONE = re.compile(r"(?:(?:the|both|safety|his|her|its) )*(?:eyes?)(?: (?:here|in|now))*")


_LATER = re.compile(r"^(?:after (?:this|that)(?: round| rnd| row)?|then|now|here|next|reminder|job) ?[:,-] ?", re.I)


def named_behind(clause: str) -> CueKind | None:
    """The first job of a clause behind the stitches of a round that names nothing else; None for any other."""
    told = _LATER.sub("", clause.strip(" -!."))
    named = named_jobs(told)
    return named[0][0] if named else "eyes" if _EYES_ALONE.fullmatch(told) else None
