"""Rounds told by how many they are and little else: "Continue for 4 rounds.", "The next 3 rounds are the same."

A sentence of nothing but such words, in whatever order they stand: how many rounds or up to which one, that they are
plain or like the one before, on how many stitches, in which color. Any other word, and it is no such sentence.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from hookside.notation.askings.colournames import SHADE
from hookside.notation.askings.kinds import classify
from hookside.notation.labels import references
from hookside.notation.labels.patterns import COURSE
from hookside.notation.vocabulary import REMEMBERED

_N = rf"(?:\d{{1,3}}|one|{references.SMALL})"
_ROUNDS = r"(?:rounds|rnds|rows|rds|round|rnd|row)"
_R = rf"{COURSE}s?\.? ?#?"
_DONE = r"(?:complete|completed|done|finished|worked|made|reached)"
_UNTIL = r"(?:up )?(?:to|until|till|til|through|thru)"
_MORE = r"(?:more|further|additional)"
_TO = r"(?: ?(?:-|to|through|thru|, and|,|and|&) ?)"
_SHAPING = r"(?:inc(?:s|reas\w+)?|dec(?:s|reas\w+)?|shaping|changes?)"
_LAST = r"(?:last|previous|prev|preceding|above|one before|one above)"
_THIS = r"(?:this|that|these|those)"
# The kinds of phrases; the first that fits is taken
_TABLE = {
    "total": rf"(?:for )?{_UNTIL} (?:there are |you(?:'ve| have)? (?:{_DONE} |got |have )?|a total of )*(?P<all>{_N}) "
    rf"{_ROUNDS}(?: (?:(?:are|have been) {_DONE}|in (?:all|total)|altogether|total))*",
    "upto": rf"{_UNTIL}(?: and including| the end of| you(?:'ve| have)?(?: just)? (?:{_DONE}|got to|reach|finish))*"
    rf" (?:the )?{_R}(?P<to>\d{{1,3}})(?: (?:is|are|has been) {_DONE}| inclusive)?",
    "range": rf"(?:for |in |on |with |over )?(?:{_R})?(?P<from>\d{{1,3}})(?:{_TO}(?:{_R})?\d{{1,3}}){{0,8}}?"
    rf"{_TO}(?:{_R})?(?P<end>\d{{1,3}})(?!\d|{_TO}\d)",
    "often": rf"(?:for |(?P<on1>another |a further ))*(?:(?P<times>{_N}) ?(?P<on2>{_MORE} )?(?:times|x)|"
    rf"x ?(?P<x>\d{{1,2}})|(?P<word>once|twice|thrice))(?P<on3> {_MORE}(?: times?)?)?",
    "these": rf"(?P<n2>{_N}) more of (?:{_THIS}|them)",
    "many": rf"(?:for |over |in |the |next |following |another |a |{_MORE} )*(?P<n>{_N}) "
    rf"(?:{_MORE} |other |such |(?:plain|even|straight) )*{_ROUNDS}(?: {_MORE})?",
    "itself": rf"(?:re?pt?(?:eat)?(?:ing|ed)?\.?(?: (?:{_THIS}|it))?(?: {_ROUNDS})?|"
    rf"(?:of )?(?:the )?(?:{_THIS}|{_LAST}) {_ROUNDS}|the {_ROUNDS} above)(?! ?#?\d{{1,3}}\b(?! (?:more|times|x)\b))",
    "on": rf"like (?:{_THIS}|so)(?! {_LAST})|(?:in )?(?:{_THIS}|the same) (?:way|manner|fashion|pattern)|"
    r"(?:as|in) (?:before|set|established|pattern)|(?:and )?so on|thus",
    "like": rf"(?:exactly |just |all )*(?:the )?same(?: again| way)?(?: as (?:the )?{_LAST}(?: (?:one|{_ROUNDS}))?)?|"
    rf"(?:as|like) (?:the )?{_LAST}(?: (?:one|{_ROUNDS}))?|alike|likewise|of (?:that|this|those|these)|again",
    "named": rf"(?:(?:as|like|same as|the same as) )?{_R}(?P<of>\d{{1,3}})(?!\d|{_TO}(?:{_R})?\d)",
    "count": r"(?:[(\[=-] ?|(?:on|over|at|with|of|x|in|across|to) )?(?:these |the |those |all )*(?P<sts>\d{1,3})"
    r"(?: ?(?:sts|stitches|sc|st))?(?: each| in each| per r\w+)?(?: ?[)\]])?(?=$|[\s.,;:])",
    "plain": rf"even(?:ly)?|plain|straight|steady|unchanged|(?:with |and )?(?:without|no)(?: any)?(?: more)? {_SHAPING}"
    rf"(?:(?: or| and|,) {_SHAPING})?|(?:(?:1|one) )?(?:in )?sc(?: (?:in|into) (?:each|every) (?:stitch|st|sc))?"
    r"(?: (?:all )?(?:the way )?a?round)?|(?:all )?(?:the way )?a?round(?: and a?round)?",
    "shade": rf"(?:(?:all |worked )*(?:in|with|using) )?(?:the )?(?P<yarn>{SHADE})(?: yarn| again)?",
    "go": r"work(?:ing|ed)?|continu(?:e|ing)|carry(?:ing)? on|keep(?: going| on| going on)?|go(?:ing)? on|going|go|"
    r"crochet|do|make|made|stay|hold|proceed|add",
    "glue": r"and|then|now|just|simply|only|please|you|we|i|are|is|have|so|with|for|over|all|each|on|it|this|that|in|"
    r"of|also|too|[^\w]",
}
_WRITTEN = "|".join(f"(?P<{kind}>{told})" for kind, told in _TABLE.items())
_WRITTEN = _WRITTEN.replace(" ?", r"\s*").replace(" ", r"\s+")  # where a page was tidied, several may stand
_PHRASE = re.compile(rf"(?:{_WRITTEN})(?:(?<!\w)|(?!\w))", re.I)
_SHADE_ALONE = re.compile(
    rf"\W*{_TABLE['shade']}(?:[ :]*[(\[=]+ ?(?P<sts>\d{{1,3}})(?: (?:sts|stitches|sc))?)?\W*", re.I
)
_SEAM = re.compile(r"[.,;:]\s+(?:and\s+)?(?:then\s+)?|\s+(?:and\s+)?then\s+|\s+and\s+", re.I)
# "adding 1 sc between increases" is no job
_CHANGES_WORK = re.compile(r"\b(?:sc|[hd]?dc|h?tr|(?:inc|dec)\w*|between|less|fewer|more|extra)\b", re.I)
_MOST_SEAMS = 16
_LONGEST_LINE = 200
_LENGTHS = {"total", "upto", "range", "often", "many", "these"}
_LONGEST = 90  # letters
_MENTIONS = re.compile(rf"\b(?:{_ROUNDS}\b|r ?\d)|\bx ?\d{{1,2}} more\b|\bmore of th", re.I)


@dataclass(frozen=True, slots=True)
class Stretch:
    """So many courses (0: not told), or up to the one of that number.

    `like`: they are as the one before, `on`: they go on as before, `itself`: that very one again, `of`: as the one of
    that number; `plain`: one stitch in each; none of these: it hangs on the one before. `more`: so many beside it, for
    sure.
    """

    n: int
    upto: int
    first: int  # the number of the first, where it is told
    like: bool
    on: bool
    itself: bool
    of: int
    plain: bool
    more: bool
    count: tuple[int, int, int] | None  # the stitches of each, and where that is printed
    shade: tuple[int, int] | None  # where the color of them all stands

    @property
    def same(self) -> bool:
        """Is a course pointed to that they are like?"""
        return self.like or self.itself


@lru_cache(REMEMBERED)
def stretch(text: str) -> Stretch | None:
    """What such a sentence tells; None where there is any other word in it, or where it tells two lengths."""
    if len(text) > _LONGEST or not _MENTIONS.search(text):
        return None
    told: dict[str, re.Match[str]] = {}
    at = 0
    while at < len(text):
        phrase = _PHRASE.match(text, at)
        kind = next((k for k in _TABLE if phrase[k] is not None), "") if phrase is not None else ""
        if phrase is None or (kind in told and kind not in ("glue", "go", "on", "like", "itself", "plain")):
            return None
        told.setdefault(kind, phrase)
        at = phrase.end()
    return _made(told)


def shade_alone(body: str) -> Stretch | None:
    """ "Rounds 8-9: white": the body of a course that tells its color, and how many there are at most."""
    told = _SHADE_ALONE.fullmatch(body) if len(body) <= _LONGEST else None
    if told is None:
        return None
    count = (int(told["sts"]), *told.span("sts")) if told["sts"] else None
    return Stretch(0, 0, 0, False, False, False, 0, False, True, count, told.span("yarn"))


def stretches(text: str) -> list[tuple[int, int, Stretch | None]]:
    """Such a sentence, or several with jobs between them, and where each stands: "Work 3 rounds even, change to red
    and work 2 more rounds." A job tells no stretch; none at all where anything else is told."""
    whole = stretch(text)
    if whole is not None:
        return [(0, len(text), whole)]
    if len(text) > _LONGEST_LINE or not _MENTIONS.search(text):
        return []
    seams = [seam.span() for seam in _SEAM.finditer(text)][:_MOST_SEAMS]
    starts, ends = [0, *(end for _, end in seams)], [*(start for start, _ in seams), len(text)]
    found: list[tuple[int, int, Stretch | None]] = []
    at = 0
    while at < len(starts):
        for to in range(len(ends) - 1, at - 1, -1):
            told = stretch(text[starts[at] : ends[to]].strip(" .;,"))
            if told is not None:
                break
        else:
            to = at
            job = text[starts[at] : ends[at]]
            if _MENTIONS.search(job) or _CHANGES_WORK.search(job) or classify(job) in (None, "other"):
                return []
        if text[starts[at] : ends[to]].strip(" .;,"):
            found.append((starts[at], ends[to], told))
        at = to + 1
    return found if any(told is not None for _, _, told in found) else []


def _made(told: dict[str, re.Match[str]]) -> Stretch | None:
    of = int(told["named"]["of"]) if "named" in told else 0
    itself, on, like = "itself" in told, "on" in told, "like" in told or "these" in told or of > 0
    plain = "plain" in told or ("count" in told and not (itself or like or on))
    n, upto, first, more = 0, 0, 0, True
    lengths = [told[kind] for kind in _TABLE if kind in told and kind in _LENGTHS]
    if len(lengths) == 2 and "range" in told and "many" in told:  # "for 3 more rounds (rounds 5-7)"
        if references.small(told["many"]["n"]) != int(told["range"]["end"]) - int(told["range"]["from"]) + 1:
            return None
    elif len(lengths) != 1:
        return None
    if "range" in told:
        first, upto = int(told["range"]["from"]), int(told["range"]["end"])
        if not (itself or like or on or plain):
            return None
    elif "total" in told or "upto" in told:
        upto = references.small(told["total"]["all"]) if "total" in told else int(told["upto"]["to"])
    elif "often" in told:
        often = told["often"]
        n = references.small(often["times"] or often["x"] or often["word"])
        more = any(often[on] for on in ("on1", "on2", "on3")) or (of > 0 and "like" in told)
        if not (itself or of or (often["x"] and more)):
            return None
        itself = itself or not of
    else:
        n = references.small(told["many"]["n"] if "many" in told else told["these"]["n2"])
    if not (itself or like or on or plain or told.keys() & {"go", "shade"}):
        return None
    count = told.get("count")
    printed = (int(count["sts"]), *count.span("sts")) if count is not None else None
    shade = told["shade"].span("yarn") if "shade" in told else None
    return Stretch(n, upto, first, like, on, itself, of, plain, more, printed, shade)
