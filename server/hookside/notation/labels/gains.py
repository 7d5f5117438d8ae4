"""What comes of a course that is worked again, told behind the reference: "as row 3, so that each row has 2 sts more".

It asks for no change where that course widens by as much by itself; `courses/borrowing` looks whether it does.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.labels.patterns import COURSE
from hookside.notation.labels.references import SMALL, small
from hookside.notation.page.inwords import WORD, value

_N = rf"(?P<n>\d{{1,2}}|an?|one|{SMALL})"
_NOUN = r"(?: (?:sts?|stitch(?:es)?|sc|dc|hdc))?"
_WAY = r"(?: (?P<way>more|extra|wider|fewer|less|narrower))?"
_EACH = rf"(?:in |on |at |with )?(?:each|every|per) (?:{COURSE}|one|time)\b"
_THAN = (
    rf"(?: than (?:in )?(?:the )?(?:(?:one|last|previous|{COURSE})(?: one| {COURSE})?)(?: (?:before|below)"
    r"(?: it)?)?)?"
)
_LEADS = r"[\s,;.:(-]*(?:so that |so |and |which means |that is,? |thus |always |each time )*"
_TOLD = (
    # "each row has 2 sts more than the one before", "every round grows by 6"
    re.compile(
        rf"{_LEADS}(?:each|every) (?:{COURSE}|one) (?:(?:then|now|will) )?"
        r"(?P<verb>has|have|gets|is|grows(?: by)?|gains|"
        r"increases(?: by)?|widens(?: by)?|loses|shrinks(?: by)?|decreases(?: by)?|narrows(?: by)?) "
        rf"{_N}{_WAY.replace('<way>', '<first>')}{_NOUN}{_WAY}{_THAN}",
        re.I,
    ),
    # "with 2 sts more in every row", "increasing 2 sts each row", "you gain 2 sts per row"
    re.compile(
        rf"{_LEADS}(?:(?:you|we) )?(?P<verb>with|having|add(?:ing)?|gain(?:ing)?|increas(?:e|ing)(?: by)?|"
        rf"los(?:e|ing)|decreas(?:e|ing)(?: by)?|(?<=[a-z] )(?:get|have)|"
        r"(?=\d|an?\b|one\b)) ?"
        rf"{_N}{_WAY.replace('<way>', '<first>')}{_NOUN}{_WAY} {_EACH}{_THAN}",
        re.I,
    ),
)
_MAY = re.compile(r"\b(?:each|every|per) ", re.I)
_MORE = re.compile(r"more|extra|wider|grow|gain|incr|widen|add", re.I)
_FEWER = re.compile(r"fewer|less|narrow|los|shrink|decr", re.I)
# "You end with 33 sts.", "ending with 33", "until there are 33": after the last of them
_ENDS = re.compile(
    r"[\s,;.:)(-]*(?:and |so |then |now |until |till )*(?:(?:you|we) (?:now |then |will |should )*)?"
    r"(?:end(?:ing)?(?: up)?|finish(?:ing)?|"
    r"(?:at the end |in the end )?(?:(?:you|we) )?have|there are)(?: with| on| at)?(?: a total of)? "
    rf"(?P<n>\d{{1,4}}|{WORD}){_NOUN}(?: (?:in all|in total|altogether|now))?(?=\s*(?:[.;,!)]|$))|"
    rf"[\s,;.:(-]+(?P<n2>\d{{1,4}}|{WORD}){_NOUN} at the end(?: of (?:the )?(?:last )?{COURSE}(?: \d{{1,3}})?)?"
    r"(?=\s*(?:[.;,!)]|$))",
    re.I,
)
# Behind the work of a course: where such words may begin
_BEHIND = re.compile(
    r"[,;.(-]\s+(?=(?:so|and|which|that|thus|always|each|every|with|you|we|add|gain|incr|los|decr|\d))", re.I
)
_STOPS = re.compile(r"\s*(?:[.;,!)(]|- |$)")


@dataclass(frozen=True, slots=True)
class Gain:
    """`n` stitches more in each course (fewer where it is below nought); it is told by rest[start:end]."""

    n: int
    start: int
    end: int
    after: tuple[int, int, int] | None  # the count after the last course, and where its digits stand


def gain(rest: str) -> Gain | None:
    """What the words behind a reference say that each of its courses gains; None where they say no such thing."""
    if not _MAY.search(rest):
        return None
    for rule in _TOLD:
        match = rule.match(rest)
        if match is None:
            continue
        ends = _ENDS.match(rest, match.end())
        if ends is None and not _STOPS.match(rest, match.end()):
            continue
        told = " ".join(match[name] or "" for name in ("verb", "first", "way"))
        more, fewer = _MORE.search(told) is not None, _FEWER.search(told) is not None
        if more == fewer:
            continue
        n = small(match["n"])
        told_at = "n" if ends is not None and ends["n"] else "n2"
        after = (value(ends[told_at]), *ends.span(told_at)) if ends is not None else None
        return Gain(n if more else -n, match.start(), ends.end() if ends is not None else match.end(), after)
    return None


def gain_behind(body: str) -> Gain | None:
    """What is said behind the work of a range that each of its courses gains: ", so that you gain one on every row"."""
    if not (_MAY.search(body) and (_MORE.search(body) or _FEWER.search(body))):
        return None
    for begins in _BEHIND.finditer(body):
        told = gain(body[begins.start() :])
        if told is not None:
            at = begins.start()
            after = (told.after[0], told.after[1] + at, told.after[2] + at) if told.after is not None else None
            return Gain(told.n, told.start + at, told.end + at, after)
    return None
