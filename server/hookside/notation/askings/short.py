"""Jobs told by their names alone: "Safety eyes. Stuff.", "Eyes + stuffing", "Nose, then eyes", "Now: eyes!"."""

from __future__ import annotations

import re

from hookside.notation.askings.things import INSIDE
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.heads.parts import is_part
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import ORDINAL_WORDS
from hookside.pattern import CueKind

_LONGEST = 60  # letters of such a line
_HINT = re.compile(r"eye|nose|mouth|smile|face|brows|whisker|stuff|fill|tail|wadding", re.I)
_THINGS = (
    r"(?P<eyes>eyes?(?! ?(?:brow|lid|lash))|nose)|(?P<embroider>mouth|smile|face|(?:eye)?brows|whiskers)|"
    r"(?P<stuff>(?:re)?stuff(?:ing)?|fill(?:ing)?|(?:fibre|fiber|poly)fill|wadding|padding)|"
    r"(?P<other>flat|(?:no|without|not) (?:filling|stuffing|stuffed|wadding)|unstuffed|"
    r"(?:don't|do not|dont) (?:stuff|fill))|"
    r"(?P<tail>tail)|(?P<fasten>fasten(?:ing)? off|finish off|f/?o|cut)|(?P<close>clos(?:e|ing)(?: up| it)?|shut)"
)
# "After round 6:", "before the next round -"
_AT_ROUND = (
    r"(?:after|before|at the end of|once|when|between) (?:the )?"
    rf"(?:{COURSE}\.? ?#?\d{{1,3}}(?: and (?:{COURSE}\.? ?)?\d{{1,3}})?|"
    rf"(?:next|last|final|\d{{1,2}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)})(?: {COURSE})?)(?: is (?:done|finished))?"
)
_LED = (
    rf"(?:{_AT_ROUND}(?: ?[:,-])? |"
    r"(?:now|next|then|here|first|also|the|both|two|his|her|its|some|more|light|firm|a|bit|little|long|of|safety|"
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
_TIME = re.compile(
    rf"\b(?:{_AT_ROUND}|now|here|next|time|then|first|remember|forget|stop|pause|wait|halt)\b|\d ?mm\b", re.I
)

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


# "sc around (24) - felt eyes", "squeaker!", "Marker out", "guts in": behind the stitches of a round no part is named
_HERE = (
    r"(?: (?:in(?:side|to)?|on|out|up|off|away|through|here|now|next|first|again|too|please|time|"
    r"it|this|round|after(?:wards)?|then))*"
)
_LOOK = (
    r"(?:(?:the|both|an?|one|two|three|four|his|her|its|your|more|some|for|add|safety|plastic|felt|button|bead|glass|"
    r"wooden|black|white|little|small|big|insert|put|stitch|\d{1,2}(?: ?mm| ?x)?) )*"
)
_ALONE = re.compile(
    rf"{_LOOK}(?:(?P<eyes>eyes?|nose(?= (?:in|on|here|goe?s?)\b)(?: goe?s?)?)|"
    r"(?P<marker>(?:stitch )?markers?|pm|sm)|(?P<embroider>whiskers)|(?P<pin>pins?)|"
    rf"(?P<stuff>stuffing|filling|padding|guts|innards|fluff|wadding|pellets|rice)|"
    rf"(?P<weave>(?:yarn |loose )?(?:ends|(?:tail|end)(?= (?:in|through|out|away))))|"
    rf"(?P<sew>(?P<part>[a-z]{{3,12}})(?= (?:on|here|goe?s? (?:on|here))\b)(?: goe?s?)?)|"
    rf"(?P<other>{INSIDE}|(?:glass |wooden )?beads?|buttons?|"
    r"(?:weight|bean|sand|rice|pellet) bags?|(?:change|switch) hooks?|beans|lentils|ribbon|elastic|glue))"
    rf"(?! yarn){_HERE}"
)
_ALONE_KINDS: tuple[CueKind, ...] = ("eyes", "marker", "embroider", "pin", "stuff", "weave", "sew", "other")
# ... and anywhere, where it is reminded of, or told where it goes: "Don't forget the bell", "squeaker time", "tail in"
_REMINDS = Sought(
    ("forget", "remember", "mind", "time for", "now", "here", "stop", "pause", "wait", "halt"),
    r"(?:(?:and|but|please|now|so),? )*(?:(?:do not|don't|dont|never|not to) forget(?: about)?|remember|reminder|mind|"
    r"(?:it's |it is )?time for|(?:now|here)(?: comes?| is| for)?|(?:stop|pause|wait|halt)(?: here)?(?: for)?):? "
)
# "Last call for the eyes", "You must not forget the eyes", "If you forgot the eyes, now is your last chance"
_LAST_CALL = re.compile(
    r"(?:and |but |so |now )*(?:(?:this|now|here|it)(?:'s| is) )?(?:(?:your|the) )?last (?:call|chance) for |"
    r"(?:you|we) must(?:n't| not| never) forget |(?:if )?(?:did )?you (?:forgot|forget|have forgotten) "
    r"(?=[^,]{3,24}[,?] (?:now|do|put|add|this)\b)"
)
_BY_WHEN = re.compile(r",? (?:before|while|as long as|now is|do it|this is) .*")
_SPOT = re.compile(r" (?:in|inside|on|out|off|away|through|here|now|next|time|up)\b")

_LATER = re.compile(r"^(?:after (?:this|that)(?: round| rnd| row)?|then|now|here|next|reminder|job) ?[:,-] ?", re.I)


def named_behind(clause: str) -> CueKind | None:
    """The first job of a clause behind the stitches of a round that names nothing else; None for any other."""
    told = _LATER.sub("", clause.strip(" -!.,;<>*_()[]{}"))
    named = named_jobs(told)
    if named:
        return named[0][0]
    return _alone(told.lower())


def reminded(whole: str) -> CueKind | None:
    """The job of a sentence in small letters that reminds of a thing, or tells where it goes, and no more."""
    told = _REMINDS.sub("", whole, count=1)
    told = _LAST_CALL.sub("", whole, count=1) if told == whole else told
    told = _BY_WHEN.sub("", told) if told != whole else told
    return _alone(told) if told != whole or _SPOT.search(whole) else None


def _alone(told: str) -> CueKind | None:
    alone = _ALONE.fullmatch(told) if len(told) < _LONGEST else None
    if alone is None or (alone["sew"] and not is_part(alone["part"])):
        return None
    return next(kind for kind in _ALONE_KINDS if alone[kind])
