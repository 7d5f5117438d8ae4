"""Rounds that a text told in sentences numbers with no word: "After that comes a round of", "Then 12 rounds of plain".

`sentences` labels them among those that it knows by their numbers; each is the next one, or the next so many.
"""

from __future__ import annotations

import re

from hookside.notation.page.inwords import COURSE, N, value

_THEN = r"(?:(?:and|so|but|now|then|next|finally|again|after (?:that|this|it|which)|to follow),? )"
_COMES = r"(?:(?:comes?|follows?|is|are|there (?:is|are|comes?|follows?)|(?:you |we |I )?(?:work|make|do|crochet)) )"
_KIND = r"(?:plain |even |straight |more |further |final |last |increase |decrease )*"
ONWARDS = re.compile(
    r"(?:^[ ]*|(?<=[.!?;:])(?P<gap>[ ]+))(?:"
    # "After that comes a round of ...", "Then work another round of ...", "Then a round of ..."
    rf"{_THEN}+{_COMES}?(?:a|one|another|one more) (?P<kinds0>{_KIND}){COURSE.format('next')}(?: more)? "
    r"(?:of|with|in)\b|"
    # "In the round after that work ...", "On the one that follows, ..."
    rf"(?:and |now )?(?:in|on|for|with) the (?:{COURSE.format('next2')} (?:after|behind|above|following)"
    rf"(?: (?:that|this|it|this one|that one))?|{COURSE.format('next3')} (?:that|which) (?:follows|comes next))\b|"
    # "In the following round work ..."
    rf"(?:and |now )?(?:in|on|for|with) the following {COURSE.format('next4')}\b|"
    # "One more of the kind: ..."
    r"(?:one more|another)(?: such)?(?: of (?:the|this|that|these|its) (?:kind|sort|same kind)| like (?:it|that|this))?"
    r"(?=:)|"
    # "Work 12 rounds of plain ...", "Then three plain rounds", "Now do two rows of ..."
    rf"{_THEN}*{_COMES}?(?P<many>{N}) (?P<kinds>{_KIND}){COURSE.format('next5')}(?: more)?"
    r"(?: (?:of|with|in)\b)?|"
    # "Change to the other colour and work 2 rounds of ...", "Go back to ... for the last round, which is ..."
    rf"(?P<first>(?:change|switch|swap|go|turn) (?:back |over )?to [a-z ]{{3,24}}?) (?:and|to) "
    rf"(?:work|make|do|crochet) (?P<many2>{N}) (?P<kinds2>{_KIND}){COURSE.format('next6')} (?:of|with|in)\b|"
    rf"(?P<first2>(?:change|switch|swap|go|turn) (?:back |over )?to [a-z ]{{3,24}}?) (?:for|in) the (?:very )?last "
    rf"{COURSE.format('next7')}, (?:which|and (?:it|that)) (?:is|has)\b)"
    r"[,:]? ?(?=(?P<body>[^.;\n]{0,200}))",
    re.M | re.I,
)
_KINDS = re.compile(r"plain|even|straight|increase|decrease", re.I)


def onward(match: re.Match[str]) -> tuple[str, str]:
    """What stands in front of such a round, and the label that goes in its place with what it says of its kind."""
    told = match.groupdict()
    many = value(told["many"] or told["many2"] or "one")
    name = "row" if any(v and k.startswith("next") and v.lower().startswith("row") for k, v in told.items()) else "rnd"
    kinds = _KINDS.findall(told["kinds0"] or told["kinds"] or told["kinds2"] or "")
    first = told["first"] or told["first2"]
    label = f"Next {many} {name}s:" if many > 1 else f"Next {name}:"
    apart = "," if kinds and match[0].rstrip().endswith(",") else ""
    return (f"{first}.\n" if first else ""), " ".join([label, *kinds]) + apart


# A hint of them in small letters, asked of every page: so it begins with the letter that it takes
_MAY_GO_ON = re.compile(
    r"[amot](?<!\w.)(?:(?:(?<=a)(?:nother)?|(?<=m)ore) (?:[a-z]+ )?(?:round|row|rnd)s? (?:of|with)\b|"
    r"(?<=o)f the kind:|(?<=t)he (?:following |(?:round|row|rnd) (?:after|that)))"
)
_SEVERAL = re.compile(r"r(?<= r)(?:ounds|ows|nds)\b")
_SO_MANY = re.compile(rf"{N} (?:[a-z]+ )?$")
_LONGEST = 60  # characters of a number and a word


def may_go_on(text: str) -> bool:
    low = text.lower()
    return _MAY_GO_ON.search(low) is not None or any(
        _SO_MANY.search(low, max(0, m.start() - _LONGEST), m.start()) for m in _SEVERAL.finditer(low)
    )
