"""Labels told within a sentence: "In round 5 work ...", "Then round 6: ...", "The fifth round is plain."

They become labels like any other, "round 5: ...", where the course is the next one by its number and work stands behind
it: a course that is only spoken of ("in round 5 we change colour") stays what it is.
"""

from __future__ import annotations

import re
from bisect import bisect_left

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.inwords import WORD, value
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import COUNT_WORDS, ORDINAL_WORDS

_TO = r"[ ]?(?:-|,[ ]?and|,|&|and|to|through|thru)[ ]?"
_NUMBER = rf"(?:\d{{1,3}}|{WORD})(?!\d)"
_NTH = rf"(?:\d{{1,3}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)})"
_NAMED = (
    rf"{COURSE}\.?[ ]?(?P<numbers>{_NUMBER}(?:{_TO}(?:{COURSE}[ ])?{_NUMBER}){{0,9}})|"
    rf"(?P<ordinals>{_NTH}(?:{_TO}(?:the[ ])?{_NTH}){{0,9}})[ ](?:rounds?|rnds?|rows?)"
)
_LED = (
    r"(?P<lead>(?:(?:okay|ok|al(?:l[ ])?right|right|well|oh)(?:[ ](?:then|so))?,?[ ]+)?"
    r"(?:(?:(?:and|but)[ ])?(?:now|then|next|and|finally|lastly|so|after[ ]that),?[ ]+)?"
    r"(?P<within>(?:on|in|for|during|over)[ ]+(?:the[ ]+)?)?(?:(?:your|the|work|crochet|do|make|keep|it'?s)[ ]+)?)"
)
# What a course that is told in a sentence begins with
_WORK = (
    rf"(?:in[ ]|into[ ]|[bf]lo\b,?[ ]?|all[ ])*(?:\d{{1,3}}[ ]?(?:x[ ]?)?|[(\[*{{]+[ ]?\d{{0,3}}[ ]?|{WORD}[ ])?(?:"
    r"(?:join|put|take|crochet)[ ](?:(?:the|next|every|each)[ ])*(?:two|2)[ ](?:sts?|stitches)[ ]tog(?:ether)?|"
    r"sc|[hd]?dc|h?tr|inc|dec|invdec|sc2tog|ch|sl[ ]?st|slip[ ]stitch(?:es)?|singles?|"
    r"doubles?|trebles?|half|increase|decrease|repeat|magic)(?![a-z])"
)
_DOES = (
    r"(?:(?:we|you|I)[ ])?(?:just[ ]|simply[ ]|only[ ]|again[ ])*"
    r"(?:(?:work|crochet|make|do)[ ](?:just[ ]|only[ ])?)?"
)
# "is the brim, front loops only, ...": what a round is of the part, in front of its work
_IS_OF_IT = (
    r"[ ](?:is|are)[ ](?:the|our|your|a)[ ](?!same)(?:[a-z]{2,12}[ ]){0,2}[a-z]{2,12}"
    rf"(?:[,:]|[ ]?-)(?=[ ](?:(?:(?:in|through)[ ])?(?:the[ ])?(?:front|back|both)[ ]loops?\b|{_WORK}))"
)
_IS = (
    rf"{_IS_OF_IT}|"
    r"[ ](?:is|are|will[ ]be)[ ](?:(?:just|all|simply|again|also|then|only)[ ])*"
    r"(?:(?:worked|made|crocheted)[ ](?:as[ ])?)?"
    r"(?=(?:plain|even(?:ly)?|straight|the[ ]same(?![ ][a-z]*(?:size|length|way))|same|as[ ]|like[ ]|identical|"
    rf"without|an?[ ](?:plain[ ])?(?:single|double|treble|sc|[hd]?dc)(?:[ ]crochet)?[ ]in(?:to)?[ ]|{_WORK}))|"
    r"[ ](?:has|have)[ ](?=\d{1,3}[ ](?:sc|[hd]?dc|h?tr|single|double|half|treble|sts?|stitches|as well)\b)"
)
# "Work rounds 5 to 7 even", "For rounds 3 and 4 work without increases", "do rows 3-5 in plain sc"
_EVEN = (
    r"(?:,?[ ](?:(?:we|you)[ ])?(?:(?:just|simply|only|again|all|both|then)[ ])*(?:(?:work|crochet|go|keep|stay)[ ])?"
    r"(?:in[ ](?:plain[ ]|just[ ])?(?=sc|[hd]?dc|h?tr|single|double|half))?)"
    r"(?=(?:even(?:ly)?|straight|plain|without[ ](?:any[ ])?(?:inc|dec|shap)|with[ ]no[ ](?:inc|dec|shap)|"
    r"(?:(?<=[ ]in[ ])|(?<=plain[ ])|(?<=just[ ]))"
    r"(?:sc|[hd]?dc|h?tr|(?:half[ ])?(?:single|double|treble)[ ]crochet)\b)(?![ ]as\b))"
)
_PLACE = r"(?:(?<![^\n])[ ]{0,8}|(?<=[.!?:)\]])[ ]{1,2})"
_LEADS = ("on", "in", "for", "during", "over", "then", "next", "next,", "now", "and", "ly", "ly,", "so", "the", "your",
          "work", "crochet", "do", "make", "keep", "st", "nd", "rd", "th")  # fmt: skip
_VERBS = (" is ", " will be ", " are ", " has ", " have ")
_HINTS = (*_VERBS, " round", " rnd", " row")
_MAY_BE_TOLD = re.compile("|".join((*_VERBS, *(f"{lead} (?:round|rnd|row)" for lead in _LEADS))))
_TOLD = re.compile(  # labels as they stand among them: they tell how far the numbers went
    rf"{_PLACE}{_LED}(?P<name>{_NAMED})(?P<sign>(?!-\d)[ ]?[:.)-]+[ ]?(?=\S)|{_IS}|"
    rf"(?P<even>{_EVEN})|,?[ ]{_DOES}(?={_WORK}))",
    re.I,
)
_PLAIN = re.compile(
    rf"(?:^[^\w\n]{{0,6}}|(?<=[.!?:)\]])[ ]{{1,3}}){COURSE}\.?[ ]?#?(?P<n>\d{{1,3}})"
    r"(?:[ ]?(?:-|to|and|&)[ ]?(?P<last>\d{1,3}))?(?![\d\w])",
    re.I | re.M,
)
# "repeat rounds four and five", "as round four": pointed to in words
_POINTED = Sought(
    rf"[rR](?i:ounds?|ows?|nds?)[ ](?i:{COUNT_WORDS})",
    r"\b(?P<lead>(?:repeat|rep\.?|as(?:[ ](?:for|in))?|like|of|from|work|through)[ ](?:rounds?|rows?|rnds?)[ ])"
    rf"(?P<first>{WORD})(?:(?P<to>[ ](?:and|to|through)[ ])(?P<last>{WORD}))?(?![\w-])",
    re.I,
)
# "RS Row 5:", "(WS) Row 6:": the side before its row
_SIDE_FIRST = Sought(
    ("rs ", "ws ", "rs)", "ws)", "rs]", "ws]", "rs:", "ws:", "side row", "side: row"),
    r"^(?P<lead>[ ]{0,8})(?P<side>[(\[]?(?:rs|ws|right[ ]side|wrong[ ]side)[)\]]?)(?P<gap>[ ]?[:,-]?[ ]{1,2})"
    rf"(?P<row>{COURSE}\.?[ ]?#?\d{{1,3}}(?:[ ]?-[ ]?\d{{1,3}})?)(?=[ ]?[:.)=-]|[ ])",
    re.I | re.M,
)
_COURSE_AGAIN = re.compile(rf"(?<=[ ]){COURSE}[ ](?=[a-z])", re.I)  # "row four and row five"
_SPLIT = re.compile(rf"{_NTH}|\d{{1,3}}|{WORD}", re.I)


def _pointed(match: re.Match[str]) -> str:
    told = match["lead"] + str(value(match["first"]))
    if match["last"]:
        told += match["to"] + str(value(match["last"]))
    return told.ljust(len(match[0]))


def sentenced(text: str) -> str:
    """The page with such labels plain; the length stays."""
    text = _POINTED.sub(_pointed, text)
    text = _SIDE_FIRST.sub(lambda m: f"{m['lead']}{m['row']} {m['side']}{' ' * (len(m['gap']) - 1)}", text)
    out: list[str] = []
    at = 0
    plain: list[tuple[int, int]] | None = None
    told_last, told_at = 0, -1
    low = text.lower()
    may_be = any(hint in low for hint in _HINTS) and _MAY_BE_TOLD.search(low)
    for match in _TOLD.finditer(text) if may_be else ():
        lead, sign = match["lead"].strip(), match["sign"]
        within = bool(match["within"])
        is_sign = sign.strip()[:1] in tuple(":.)-")
        if not lead and (is_sign or not _is(sign)):
            continue  # a label as it stands
        even = match["even"] is not None and bool(lead)
        if not (within or is_sign or even or _is(sign)):
            continue
        values = [value(m[0]) for m in _SPLIT.finditer(match["numbers"] or match["ordinals"])]
        if plain is None:
            plain = [(m.start(), int(m["last"] or m["n"])) for m in _PLAIN.finditer(text)]
        before = bisect_left(plain, (match.start("lead"), 0)) - 1
        where, last = plain[before] if before >= 0 else (-1, 0)
        last = told_last if told_at > where else last
        if values[0] != last + 1 and (values[0] != 1 or even):
            continue
        label = _COURSE_AGAIN.sub("", match["name"]) + ":"
        start, end = match.start("lead"), match.end("sign")
        if end - start <= len(label):
            continue
        out += [text[at:start], label.ljust(end - start)]
        at = end
        told_last, told_at = max(values[-1], values[0]), start
    return "".join([*out, text[at:]])


def _is(sign: str) -> bool:
    return re.match(r"[ ](?:is|are|will be|has|have)[ ]", sign, re.I) is not None
