"""What a sentence behind the rounds says of others like the piece: "Three others like this.", "Now make its twin.",
"FO all 4 knobs"."""

from __future__ import annotations

import re
from typing import NamedTuple

from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines.copies.asked import only_how_many
from hookside.notation.vocabulary import COPIES, number_of
from hookside.stitches import singular

_LONGEST = 70  # letters of such a sentence
_MOST = 60
_LED = r"\W{0,3}(?:(?:and|now|then|next|so|also|please|finally|you(?:'ll)?|we)\b,? )*"
_DOING = (
    r"(?:(?P<verb>make|work|crochet|do|repeat|rep|need|use|follow|ditto|likewise)"
    r"(?:,? (?:in|with) (?:the )?[a-z]{3,12}(?= for ))?"
    r"(?: (?:it|this|that|them|these|all(?: (?:of )?(?:(?:the|these) )?(?:steps|rounds|rows))?|everything|"
    r"(?:exactly )?the same (?:pattern|steps|instructions|rounds|rows|way|method|directions)|"
    r"(?:all )?of (?:this|that|it)|the (?:whole|same)(?: thing)?|"
    r"(?:exactly |just )?the same))*(?P<again>(?: all)?(?: over)? again| once more)? )?"
    r"(?P<same>(?:the )?same(?: again)? (?=for |with ))?(?:for |with )?"
)
_ONES = (
    r"(?: (?P<noun>(?!(?:are|all|both|made|the|same|like|alike|just|exactly|worked|done|crocheted|also|please)\b)"
    r"[a-z]{3,}))?"
)
_ALIKE = (
    r"(?P<alike>\s?[,:;-]?\s?(?:(?:are|is|all|both|each|just|exactly|made|worked|done|crocheted|in|it|them|also) )*"
    r"(?:(?:the )?same(?: way)?|alike|likewise|identical(?:ly)?|"
    r"like (?:this|it|that|these|the (?:first|others?))(?: one)?|as (?:the )?(?:first|above|before)(?: one)?|"
    r"mirrored|mirror[- ]?imaged?|reversed|"
    r"(?:by )?(?:following|using|with) the (?:same|above) (?:pattern|steps|instructions|rounds|directions)|"
    r"to match(?: (?:it|this|the first(?: one)?))?))"
)
_END = r"(?P<please>,? please)?[\s.!)]*"
_CUTTING = (
    r"(?:fasten off|f\.?o\.?|finish(?: off)?|cut(?: the)?(?: yarns?)?(?: on| of)?|"
    r"break(?: the)?(?: yarns?)?(?: on| of)?|close|stuff)"
)
_OTHERS = re.compile(
    rf"{_LED}{_DOING}(?:the |its )?(?:other|remaining|missing|rest,) (?P<n>{COPIES}){_ONES}{_ALIKE}?{_END}", re.I
)
_MORE = re.compile(
    rf"{_LED}{_DOING}(?P<n>{COPIES}|another) (?P<what>others?|more)(?: of (?:them|these|those|the same))?"
    rf"{_ONES}{_ALIKE}?{_END}",
    re.I,
)
_ONE_MORE = re.compile(rf"{_LED}{_DOING}(?:one more|another(?: one)?|a second(?: one)?){_ALIKE}?{_END}", re.I)
_ALL = re.compile(
    rf"{_LED}(?:(?P<cut>{_CUTTING}) |{_DOING})(?:all (?:of the )?(?P<n>{COPIES})|both)(?: of (?:them|these))?{_ONES}"
    rf"{_ALIKE}?{_END}",
    re.I,
)
_TWIN = re.compile(rf"{_LED}{_DOING}(?:its|the|a) (?:twin|partner|mate|double|sister|brother|"
    rf"mirror(?:ed)? (?:image|copy|one)|matching (?:one|second|partner|copy)){_ALIKE}?{_END}", re.I)
_SECOND = re.compile(
    rf"{_LED}{_DOING}(?:the |its |an? )?(?:other|second|2nd|another)(?: one|{_ONES}){_ALIKE}?{_END}", re.I
)
# "Make a total of 4", "Crochet 4 of these all told", "You need a total of four ears."
_TOTAL = re.compile(
    rf"{_LED}(?:(?:you )?(?:make|work|crochet|do|need|repeat)|for)(?: (?:it|this|these|them|until you have))?"
    rf"(?: up)?(?: to)? (?:a total of|in total|in all|altogether) (?P<n>{COPIES})"
    rf"(?: (?:of (?:them|these|those)|times))?{_ONES}{_ALIKE}?{_END}",
    re.I,
)
# "Repeat 3 times for a total of 4 wings.", "You should have 4 wings.", "Total of 4 wings", "Make 2 wings."
_NAMED_MANY = re.compile(
    rf"{_LED}(?:(?:(?:repeat|rep|do)(?: (?:it|this|that))? {COPIES} (?:more )?times,? (?:for|to (?:make|have|get)) )?"
    r"(?:a )?total(?: of|:)?|(?:make|crochet|need|want)|(?:should )?(?:now )?(?:have|end up with)) "
    rf"(?P<n>{COPIES}) (?:such |of (?:these|those|the) )?(?P<noun>[a-z]{{3,}}s|feet|teeth)"
    r"(?: (?:in (?:all|total)|altogether|now|needed|when (?:done|finished)))?[\s.!)]*",
    re.I,
)
# "Make 3 of these in red and 2 in white.", "Crochet two in blue, one in green"
_DYED = r"(?: (?:of (?:them|these|those)|more|ones?))? (?:in|with|using) (?:the )?[a-z][a-z ]{1,20}?"
_BY_SHADE = re.compile(
    rf"{_LED}(?:make|crochet|work|do) (?:{COPIES}(?: of (?:them|these))? ?[-:,;]+ ?)?"
    rf"(?P<a>{COPIES}){_DYED}(?:,? and (?:then )?|, |,? then )(?:make )?"
    rf"(?P<b>{COPIES}){_DYED}(?:(?:,? and |, )(?P<c>{COPIES}){_DYED})?{_END}",
    re.I,
)
# "Fasten off and work three more.": what ends this one, in the same sentence
_CUT_FIRST = re.compile(
    r"\W{0,3}(?:fasten off|f\.?o\.?|finish off|cut(?: the)?(?: yarn)?|break(?: the)?(?: yarn)?|close)"
    r"(?:,? (?:leaving|with|leave) (?:an? )?(?:long |short )?(?:tail|end)(?: (?:for|to) sew(?:ing)?)?)?"
    r"(?:,? and(?: then)?|,? then|,)\s",
    re.I,
)
# "Make a second fin, but end with a long tail.": what is otherwise on those
_OTHERWISE = re.compile(
    r"(?:[,;]| -)? (?:but|except|leaving|without|only|this time|(?:and )?(?:do not|don'?t|leave|keep)|"
    r"and (?:sew|join|hold)|(?:in|with) (?!the\b|total\b|all\b|exactly\b)(?=[a-z]+(?: [a-z]+)?\W*$))\b",
    re.I,
)
# "Repeat this twice more", "Do this three times.": of the piece, or of its last round
_OBJECT = (
    r"(?:it|this|that|them|these|everything|all (?:of )?(?:this|that|it)|all|the (?:whole|same)(?: thing| piece)?|"
    r"from the (?:start|beginning|top))"
)
_AGAIN = re.compile(
    rf"{_LED}(?:(?:do|repeat|rep)(?: {_OBJECT})*|(?:make|work|crochet)(?: {_OBJECT})+) "
    rf"(?:(?P<n>{COPIES}) (?:times(?P<on> more)?|(?P<more>more)(?: times?)?)|(?P<twice>twice|once)(?P<on2> more)?|"
    rf"(?P<again>again)){_END}",
    re.I,
)
_HINTS = (
    "other", "remaining", "missing", "more", "another", "second", "2nd", "all ", "both", "twin", "partner", "mate",
    "times", "twice", "again", "double", "sister", "brother", "total", " in ", " with ", "mirror", "matching",
    "make ", "need", "want", "have", "side", "piece", "pcs", "qty", "quantity", "alike", "crochet ", "work ",
)  # fmt: skip
# "Fasten off on the first leg only.", "Don't cut the second one.": what tells one from its like
_ENDED = re.compile(r"\b(?:fasten\w*|f\.?o\.?|finish off|cut(?:ting)?|break|snip|yarn|hook)\b", re.I)
_NTH = re.compile(
    r"\b(?:the |your )?(?P<nth>first|second|third|fourth|1st|2nd|3rd|4th|other) (?P<noun>one|[a-z]{3,})\b", re.I
)
_PLACES = {"second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4}
_ANY = frozenset(["one", "ones", "piece", "part", "copy", "copie"])
_NO_PART = frozenset(
    ["side", "edge", "half", "end", "round", "rnd", "row", "time", "stitch", "st", "loop", "corner", "color", "colour"]
)


_OPEN = re.compile(r"\W*(?:(?:and|then|now|just) )*(?:one more|another)\b", re.I)  # "One more the same.": or a round


# "Repeat with blue.": another one in that yarn, or the last round
_DYED_AGAIN = re.compile(
    rf"{_LED}(?:(?:repeat|rep|do)(?: {_OBJECT})*(?: again)?|again|(?:the )?same(?: again)?) (?:in|with) (?:the )?"
    rf"(?P<shade>[a-z]{{3,12}}(?: [a-z]{{3,12}})?){_END}",
    re.I,
)
# "Work it twice.", "24 in all": of the round or of its stitches, as likely as of the part; "Repeat for the other side."
_OF_ROUNDS = re.compile(
    r"\b(?:second|2nd|other)\b|"
    r"^(?!.*\b(?:piece|part|whole)\b).*\b(?:twice|thrice|times|in all|in total|altogether|total)\b|"
    r"^\W*(?:\d{1,3}|[a-z]+)\W*$",
    re.I,
)


def again(sentence: str) -> bool:
    """Does a sentence ask for more, and leave open of what?"""
    told = sentence.strip()
    if len(told) > _LONGEST:
        return False
    open_ = _ONE_MORE.fullmatch(told) is not None and _OPEN.match(told) is not None
    dyed = _DYED_AGAIN.fullmatch(told)
    return open_ or _AGAIN.fullmatch(told) is not None or (dyed is not None and is_colour(dyed["shade"]))


def told_apart(sentence: str, name: str) -> int:
    """How many there are at least of the piece, by words on how one of them ends; 1 where they tell nothing of it."""
    if len(sentence) > _LONGEST or not _ENDED.search(sentence):
        return 1
    called = {singular(word) for word in re.findall(r"[a-z]+", name.lower())}
    found = [m for m in _NTH.finditer(sentence) if singular(m["noun"].lower()) in called - {"tail"}]
    return max((_PLACES.get(m["nth"].lower(), 2) for m in found), default=1)


def _again(match: re.Match[str]) -> int:
    """How many that makes in all; 0 where it may be one more or less: "repeat 3 times"."""
    n = {"twice": 2, "once": 1}.get((match["twice"] or "").lower()) or number_of(match["n"] or "one")
    if match["again"] or match["on"] or match["more"] or match["on2"]:
        return 1 + n
    return 0 if re.match(r"\W*(?:[a-z]+,? )*?rep", match[0], re.I) else n


class Others(NamedTuple):
    """Of how many the piece is one; `job`: the sentence asks for something besides."""

    made: int
    job: bool = False


def others(sentence: str, name: str, cut: bool) -> Others | None:
    """What a sentence behind the rounds of the piece of that name tells of its like; None where it tells nothing.

    `cut`: stands it behind what ends the piece? In front of that, "three more" may be rounds as well."""
    told = sentence.strip()
    low = told.lower()
    if len(told) > _LONGEST or not any(hint in low for hint in _HINTS):
        return None
    shades = _BY_SHADE.fullmatch(told)
    if shades is not None:
        return Others(sum(number_of(shades[part]) for part in "abc" if shades[part]), job=True)
    ended = _CUT_FIRST.match(told)
    otherwise = _OTHERWISE.search(told, ended.end() if ended is not None else 0)
    if ended is not None or otherwise is not None:
        here = told[ended.end() if ended is not None else 0 : otherwise.start() if otherwise is not None else None]
        found = _others(here, name, cut or ended is not None)
        return found._replace(job=True) if found is not None else None
    return _others(told, name, cut)


def _others(told: str, name: str, cut: bool) -> Others | None:
    """The same of a sentence that tells nothing besides."""
    match = _AGAIN.fullmatch(told) if cut else None
    if match is not None:
        return Others(n) if (n := _again(match)) > 1 else None
    match = _TOTAL.fullmatch(told) or _NAMED_MANY.fullmatch(told)
    if match is not None:
        return _so_many(number_of(match["n"]), match, name)
    if not _OF_ROUNDS.search(told) and (many := only_how_many(told)) > 1:
        return Others(many)
    match = _OTHERS.fullmatch(told)
    if match is not None and (match["verb"] or match["same"] or match["alike"] or re.match(r"\W*and\b", told, re.I)):
        return _so_many(1 + number_of(match["n"]), match, name)
    match = _MORE.fullmatch(told)
    made = match is not None and (match["verb"] or "").lower() in ("make", "crochet", "need")
    sure = cut or made or (match is not None and (match["alike"] or match["please"] or match["what"][0] in "oO"))
    if match is not None and sure:
        return _so_many(2 if match["n"].lower() == "another" else 1 + number_of(match["n"]), match, name)
    match = _ONE_MORE.fullmatch(told)
    if match is not None and (match["please"] or cut or (match["alike"] and not _OPEN.match(told))):
        return Others(2)
    match = _ALL.fullmatch(told)
    if match is not None and (match["alike"] or match["cut"] or match["verb"]):
        found = _so_many(number_of(match["n"] or "two"), match, name)
        return Others(found.made, match["cut"] is not None) if found is not None else None
    match = _TWIN.fullmatch(told)
    if match is not None:
        return Others(2)
    match = _SECOND.fullmatch(told)
    if match is not None and (match["alike"] or match["verb"] or match["same"]):
        return _so_many(2, match, name)
    return None


def _so_many(n: int, match: re.Match[str], name: str) -> Others | None:
    """So many, where what is counted bears the name of the piece, or none."""
    noun = singular((match["noun"] or "one").lower())
    if noun in _NO_PART or not 1 < n <= _MOST:
        return None
    called = {singular(word) for word in re.findall(r"[a-z]+", name.lower())}
    return Others(n) if noun in _ANY or noun in called else None
