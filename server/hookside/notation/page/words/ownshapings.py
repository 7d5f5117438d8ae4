"""A text's own increase or decrease, most of all one of three and more, in whichever words it is told: "When I write
inc I mean 3 sc in one stitch.", "INC= 3SC/ST", "Terms used: sc, inc (3 sc in one), dec".

Each becomes a line of a key as others write it, "inc = 3 sc in one st". What tells the common two changes no
count, and is written so only where nothing else knows it for a key.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import number_of

_N = r"(?:[2-9]|two|three|four|five|six)"
_KIND = (
    r"(?:sc|[hd]?dc|h?tr|(?:(?:half )?double|single|half treble|treble) crochets?|singles?|doubles?|trebles?|"
    r"st(?:itche)?s)"
)
_WORKED = r"(?:(?:all|worked|made|crocheted|put|together|placed) )*"
_IN_ONE = (
    rf"(?P<n>{_N}) ?(?:(?P<kind>{_KIND})(?:\(s\))? ?)?(?:/ ?(?:1 ?)?st(?:itch)?|{_WORKED}in(?:to)? "
    r"(?:(?:the )?(?:1|one|same|next|single)|an?|that|each|this)(?: (?:and )?(?:same|single|one))?(?: st(?:itch)?)?)"
)
_TOGETHER = (
    rf"(?:(?:work|crochet|take|join|put)(?:ing)? )?(?P<m>{_N}) (?:(?P<of>{_KIND}) )?(?:worked |taken |joined )?"
    rf"tog(?:ether)?|(?P<short>sc|dc|hdc|htr|tr)(?P<k>[2-9])tog"
)
_DONE = r"(?:(?:by |you |just |always |to )*(?:work|make|do|crochet|put|place)(?:ing)? )?"
_WHAT = rf"{_DONE}(?P<what>{_IN_ONE}|{_TOGETHER})"
_NAME = (
    r"[\"'\u201c\u2018]?(?P<name>inc|dec|increase|decrease)s?[\"'\u201d\u2019]?"
    r"(?: (?:st(?:itch)?|\((?:inc|dec|increase|decrease)\)|(?:increase|decrease)))?"
)
_ENDS = r"(?: (?:for me|here|throughout|in (?:my|this|these|all my) patterns?))?[ ]?[.!)]{0,2}[ \t]{0,8}\|?[ \t]{0,8}$"
_LINE = r"^[ \t]{0,8}(?:[-*+|][ \t]{1,3})?(?:(?:note|notes|nb|key|please note|careful|important)[:,!-]?[ ]{1,2})?"
_HINT = (
    "in one", "into one", "in 1", "into 1", "in the ", "into the ", "in same", "into same", "/st", "/ st", "/1", "/ 1",
    "tog", "in a", "into a", "in each", "into each", "in that", "into that", "in this", "into this", "in next",
    "into next", "in single", "into single",
)  # fmt: skip
# Each a whole line: the name first, and what parts it from its meaning ...
_SIGN = (
    r"(?P<sign>[ \t]{0,3}(?:=|:|/|\||-{1,2}>?|=>|\.{2,6}|\u2192|,(?: which)?(?: here)?(?: is| means)?)[ \t]{0,3}|"
    r"[ \t]*\t[ \t]*|[ ]{2,20}|,? (?:here |always |in (?:this|my) patterns?,? |i |we )*(?:is|are|means?|mean by this)"
    r"(?: (?:here|always|for me|that you))?:? |[ ]?\((?:(?:increase|decrease)(?: by)?[,:]? )?)"
)
_ROWS = [
    Sought(_HINT, rf"{_LINE}(?:an? |the |my )?{_NAME}{_SIGN}{_WHAT}{_ENDS}", re.I | re.M),
    # ... "By inc I mean ...", "Wherever it says inc, work ..."
    Sought(
        _HINT,
        rf"{_LINE}(?:(?:with|by) (?:an? |the word )?{_NAME},? (?:i|we) (?:always )?mean:?|"
        rf"(?:when(?:ever)?|where(?:ver)?|if|every time) (?:i|we|it|you|they|the (?:pattern|text)|this pattern) "
        rf"(?:write|say|put|use|see|read|find|meet)s? (?:an? )?{_NAME.replace('<name>', '<name2>')},? "
        rf"(?:(?:i|we|it|this|that) (?:always )?(?:means?|is)|then|please)?:?) ?{_WHAT}{_ENDS}",
        re.I | re.M,
    ),
    # ... or its meaning first
    Sought(_HINT, rf"{_LINE}{_WHAT}[ ]?(?:=|:|-{{1,2}}>?)[ ]?{_NAME}\.?[ \t]*$", re.I | re.M),
]
# With nothing but a blank between them, or in a bracket of a list: ahead of the first course, where nothing is worked
_BLANK = Sought(_HINT, rf"{_LINE}{_NAME} {_WHAT}{_ENDS}", re.I | re.M)
_LISTED = Sought(
    _HINT,
    rf"(?<![a-z]){_NAME} ?\((?:(?:increase|decrease)[,:]? )?{_WHAT}\)(?=[ ]?(?:[,;.|]|$| and| or))",
    re.I | re.M,
)
# What may tell one in the middle of a sentence
_LOOSE = Sought(
    _HINT,
    rf"(?<![a-z])(?P<name>inc|dec|increas(?:e|es|ing)|decreas(?:e|es|ing))(?![a-z])[^.;\n\d]{{0,60}}?{_WHAT}(?![a-z])|"
    rf"{_WHAT.replace('<', '<b')}(?![a-z])[^.;\n\d]{{0,40}}?(?<![a-z])"
    r"(?P<bname>inc|dec|increas(?:e|es|ing)|decreas(?:e|es|ing))(?![a-z])",
    re.I,
)
_OF_SOME = re.compile(rf"\b{COURSE}\.? ?#?\d|\b(?:corners?|ends?|sides?|edges?|last|first|shells?|beginning)\b", re.I)
_FIRST = re.compile(rf"^\W{{0,6}}{COURSE}\.? ?#?\d{{1,3}}\b|^\W{{0,3}}1[.:)]", re.I | re.M)


# Signs by which no key is known: with them the common two is told as well
_ODD = re.compile(r"[ \t]*(?:/|-{1,2}>|=>|\.{2,6}|\u2192|\t)[ \t]*")


def _told(match: re.Match[str]) -> str:
    """The line of a key; "" where it tells nothing that shapes so."""
    groups = match.groupdict()
    name = (groups["name"] or groups.get("name2") or "").lower()
    grows = name.startswith("inc")
    many = number_of(groups["n"] or groups["m"] or groups["k"])
    if bool(groups["n"]) != grows or (many == 2 and _ODD.fullmatch(groups.get("sign") or "") is None):
        return ""
    if grows:
        kind = (groups["kind"] or "sc").lower()
        return f"{name} = {many} {kind} in one st"
    return f"{name} = {groups['short'].lower()}{many}tog" if groups["short"] else f"{name} = {many} stitches together"


def _keys(text: str) -> Iterator[Edit]:
    low = text.lower()
    if not (("inc" in low or "dec" in low) and any(hint in low for hint in _HINT)):
        return
    for sought in _ROWS:
        for match in sought.pattern.finditer(text):
            if told := _told(match):
                yield *match.span(), told
    first = _FIRST.search(text)
    ends = first.start() if first is not None else 0
    for match in _BLANK.pattern.finditer(text, 0, ends):
        if told := _told(match):
            yield *match.span(), told
    for match in _LISTED.pattern.finditer(text, 0, ends):
        stop = text.find("\n", match.end())
        if (told := _told(match)) and stop >= 0:
            yield stop, stop, f"\n{told}"


def untaken(text: str, start: int, end: int) -> tuple[str, int, int] | None:
    """ "inc" or "dec", and where in a sentence it seems to be told to be of three or more; None where it is not."""
    match = _LOOSE.search(text, start, end)
    if match is None or _OF_SOME.search(text, start, end) is not None:
        return None
    name = (match["name"] or match["bname"])[:3].lower()
    grows = bool(match["n"] or match["bn"])
    if number_of(next(match[g] for g in ("n", "m", "k", "bn", "bm", "bk") if match[g])) == 2:
        return None
    return (name, *match.span()) if grows == (name == "inc") else None


def keyed(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such lines as those of a key, and the way back."""
    edits = list(_keys(text))
    return put(text, offsets, edits) if edits else (text, offsets)
