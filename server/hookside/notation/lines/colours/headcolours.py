"""Several colours in a heading, and where each belongs: "Ball (blue, then white from R5)", "Ears (one red, one white)".

What tells one colour and nothing else is left to `headings.colour_told` and `ownyarns`.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from hookside.colours import COLOURS
from hookside.notation.askings.colournames import STRIPED, is_colour
from hookside.notation.lines.colours.ownyarns import is_yarn
from hookside.notation.lines.copies.sorts import sorts
from hookside.notation.lines.heads.headings import NO_SHADE, some_shade
from hookside.notation.vocabulary import COPIES, REMEMBERED, number_of

_LONGEST = 120  # characters of a heading
_ASIDES = (
    re.compile(r"[(\[{](?P<told>[^()\[\]{}\n]{1,90})[)\]}]?"),
    re.compile(r"(?:\s+-+|:|,)\s+(?P<told>[^()\[\]{}\n]{3,90})$"),
    re.compile(
        r"\s(?P<told>(?:in|with|using) (?=[^()\[\]{}\n]*\b(?:with|and|then|changing|until|up to|for)\b)"
        r"[^()\[\]{}\n]{3,90})$"
    ),
)
_COURSE = r"(?:rounds?|rnds?|rows?|rd|r)\.? ?#?"
_RANGE = rf"{_COURSE}(?P<{{0}}>\d{{{{1,3}}}})(?: ?(?:-|to|and|&) ?(?:{_COURSE})?(?P<{{1}}>\d{{{{1,3}}}}))?"
# What parts one colour from the next; not the "to" of "up to R2" or "rounds 1 to 4"
_SEAM = re.compile(
    r"\s*(?P<sign>[;/+]|(?<!\d),|,(?! ?(?:and )?\d)|&(?! ?\d)|(?<!\d):|"
    r"\band then\b|\bthen\b|\band\b(?! ?(?:r|rnds? ?|rounds? ?|rows? ?)?\d)|"
    r"(?<!up )(?<!\d )\bto\b(?! (?:the |start|begin|r ?\d|rnd|round|row|\d)))\s*",
    re.I,
)
_LEAD = (
    r"(?:(?:we|i|from|start|begin|work|made|make|chang|switch|finish|end|continu|all|with|in|using|of|the|to|on|now|"
    r"crochet)(?:ing|ning|e|ed|s)? )*"
)
_TOLD = re.compile(
    rf"(?:(?:from |for |in )?(?:the )?{_RANGE.format('a', 'b')}(?P<on> on(?:wards)?)?(?: ?:| in| with| is| are)* |"
    rf"(?:for )?(?:the )?first (?P<k>{COPIES}) (?:rounds|rnds|rows)(?: ?:| in| are)* |"
    r"(?P<rest>(?:for )?(?:the )?rest(?: ?:| in| with| is)* )|"
    rf"(?:make |work |crochet )?(?P<copies>{COPIES})(?: ?x)?(?: (?:pieces|pcs|details|units))? (?:in |of |with )?|"
    r"(?:a|one|another|the) (?P<nth>second|third|fourth|more|other)(?: one)? (?:in|with|of) )?"
    rf"{_LEAD}(?P<shade>[A-Za-z]+(?:[ -][A-Za-z]+){{0,3}}?)(?: (?:yarn|wool|cotton|thread|colou?r))?"
    rf"(?P<where> (?:(?P<how>from|at|in|on|after|up to|to|through|until|till|for)(?: and including)? )?"
    rf"(?:the )?{_RANGE.format('c', 'd')}(?: on(?:wards)?)?|"
    rf" (?:for )?(?:the )?(?:first |next )?(?P<n>{COPIES}) (?:rounds?|rnds?|rows?)|"
    r"(?P<last> (?:for |to )?(?:the )?(?:rest|end)(?: of it)?| from there(?: on)?| after(?:wards| that)?)|"
    r" (?:first|to (?:start|begin)(?: with)?|at (?:first|the start)|again|only))?",
    re.I,
)  # fmt: skip
# "(make 4, two in fern for the back and two in clay for the front)"
_IN_ONE = r"in (?!the |a |rows|rounds|each|all|one|both|total)[a-z]+(?: (?!for |and )[a-z]+)?(?: for (?:the )?[a-z]+)?"
_EACH_IN = re.compile(
    rf", ?(?P<told>(?P<n>{COPIES}) {_IN_ONE}(?:,? and|,|;| &) (?P<m>{COPIES}) {_IN_ONE})(?=[)\],.:]|$)"
)
_ALL_COPIES = re.compile(rf"\b(?:make|work|crochet|need|x|made)\s*(?P<n>{COPIES})\b(?! (?:in|of|with) )", re.I)
_WORDS = re.compile(r"[a-z]+", re.I)
_SPEAKS_OF_COPIES = re.compile(r"\b(?:make|work|one|two|three|four|five|six)\b", re.I)
_ORDINALS = {"second": 2, "third": 3, "fourth": 4}
_CALLED = re.compile(r"(?:the )?(?:main )?(?:colou?rs?|yarns?|shades?)(?: [A-H])? ?[:=] ?", re.I)  # "(colour: pink)"
_STRIPES = re.compile(rf"\b{STRIPED}\b", re.I)
_WITH = re.compile(r"\b(?:with|on|over|against)\b", re.I)
_BEGIN = re.compile(r"(?:start|begin)", re.I)


class Shade(NamedTuple):
    """A colour at text[start:end] of the heading and the first course in it; None: the heading does not tell which."""

    start: int
    end: int
    course: int | None


class Colours(NamedTuple):
    """`shades` in their order, where one follows the other; none where that is not plain, or each copy has its own."""

    shades: list[Shade]
    start: int  # ... of all words that tell of them
    end: int
    copies: int  # that are told together with colours; 0: none
    plain: bool  # whether it is clear what is worked in which


@lru_cache(REMEMBERED)
def colours_told(text: str, materials: tuple[str, ...]) -> Colours | None:
    """What a heading tells of several colours, or of one beside other words; None where it tells no such thing."""
    if len(text) > _LONGEST:
        return None
    by_sort = sorts(text)
    if by_sort is not None:  # "Spots: 2 in white and 2 in black"
        return Colours([], by_sort.start, by_sort.end, by_sort.made, True) if by_sort.dyed else None
    each = _EACH_IN.search(text) if " in " in text else None
    if each is not None:  # whatever the shades are called, so many copies are in each
        return Colours([], *each.span("told"), number_of(each["n"]) + number_of(each["m"]), True)
    for aside in _ASIDES:
        for match in aside.finditer(text):
            found = _aside(text, *match.span("told"), materials)
            if found is not None:
                return found
    return None


def _aside(text: str, start: int, end: int, materials: tuple[str, ...]) -> Colours | None:
    called = _CALLED.match(text, start, end)
    start = called.end() if called is not None else start
    spots, at, signs = [], start, [""]
    for seam in _SEAM.finditer(text, start, end):
        spots.append((at, seam.start()))
        signs.append(seam["sign"].lower())
        at = seam.end()
    spots.append((at, end))
    read: list[tuple[re.Match[str], str]] = []
    pending, dark = "", 0
    for (first, stop), sign in zip(spots, signs, strict=True):
        pending = sign if sign != "," or not pending else pending  # "navy, then cream"
        told = text[first:stop].strip(" .")
        if not told:
            continue
        first += text[first:stop].index(told)
        match = _shade(text, first, first + len(told), materials)
        if match is not None:
            read.append((match, pending))
        else:
            dark += len(_named(told, materials))  # "blue with white stripes": two of them in one breath
        pending = ""
    if dark:
        return Colours([], start, end, 0, False) if len(read) + dark > 1 else None
    if not read or (len(read) == 1 and read[0][0].span("shade") == (start, end)):
        return None
    copies = _copies(text, start, end, read)
    if copies:
        return Colours([], start, end, copies, True)
    whole = _ALL_COPIES.search(text, start, end)
    return _in_order(read, start, end, number_of(whole["n"]) if whole is not None else 0)


def _named(told: str, materials: tuple[str, ...]) -> set[str]:
    """The colours that words name which tell more than one colour, or something else of it."""
    known = {w.lower() for w in _WORDS.findall(told) if w.lower() in COLOURS or (len(w) == 1 and is_yarn(w, materials))}
    if known and _STRIPES.search(told):
        return known | {"stripes"}  # "(blue stripes)": on what, is not told
    return known if _WITH.search(told) else set(list(known)[:1])


def _shade(text: str, start: int, end: int, materials: tuple[str, ...]) -> re.Match[str] | None:
    match = _TOLD.fullmatch(text, start, end)
    if match is None:
        return None
    name = match["shade"]
    one = name.isupper() and len(name) == 1
    words = _WORDS.findall(name.lower())
    if one or not NO_SHADE.intersection(words):
        known = is_yarn(name, materials) or (not one and (is_colour(name) or some_shade(name)))
    else:
        known = is_colour(name)
    return match if known else None


def _copies(text: str, start: int, end: int, read: list[tuple[re.Match[str], str]]) -> int:
    """How many copies are told, each with its colour: "two red and two white", "work 2 like this, a third in grey"."""
    each = [number_of(m["copies"]) for m, _ in read if m["copies"]]
    more = [m["nth"].lower() for m, _ in read if m["nth"]]
    told = _ALL_COPIES.search(text)
    whole = number_of(told["n"]) if told is not None else 0
    if more:
        return max(whole + 1 if more[0] in ("more", "other") else _ORDINALS[more[0]], whole)
    plural = text[:start].rstrip(" ([{:-,").lower().endswith(("s", "feet", "pair"))
    if len(each) > 1 and (plural or _SPEAKS_OF_COPIES.search(text)):
        return max(sum(each), whole)
    return 0


def _in_order(read: list[tuple[re.Match[str], str]], start: int, end: int, whole: int) -> Colours | None:
    """Colours that follow each other, in a piece of which `whole` are made in all; 0: that is not told."""
    begun = next((r for r in read[1:] if _BEGIN.match(r[0][0])), None)
    if begun is not None and len(read) == 2:
        read = [begun, (read[0][0], "then")]  # "A; start with B"
    shades: list[Shade] = []
    ends: int | None = 0  # the last course of the colour before
    for index, (match, sign) in enumerate(read):
        if match["copies"] and (len(read) > 1 or number_of(match["copies"]) < whole):
            return Colours([], start, end, 0, False)  # "2 navy, 2 white": rows, or copies; "make 6; 3 pink"
        follows = bool(match["where"] or match["a"] or match["k"] or match["rest"]) or "then" in sign or sign == "to"
        if index and not follows and ends is None:
            return Colours([], start, end, 0, sign in ("/", "and", "&", "+") and len(read) == 2)
        first, ends = _stretch(match, ends)
        shades.append(Shade(*match.span("shade"), first))
    known = [s.course for s in shades if s.course is not None]
    if known != sorted(set(known)):
        return Colours([], start, end, 0, False)
    return Colours(shades, start, end, 0, True)


def _stretch(match: re.Match[str], ends: int | None) -> tuple[int | None, int | None]:
    """The first and the last course in a colour, behind one that ends with course `ends`; None: not told."""
    first = ends + 1 if ends is not None else None
    if match["a"]:
        alone = int(match["a"]) if not match["on"] and not match["b"] else None
        return int(match["a"]), int(match["b"]) if match["b"] else alone
    if match["k"]:
        return 1, number_of(match["k"])
    if match["n"]:
        return first, first + number_of(match["n"]) - 1 if first is not None else None
    if match["c"]:
        how, c = (match["how"] or "").lower(), int(match["c"])
        if match["d"]:
            return c, int(match["d"])
        if how in ("up to", "to", "through"):
            return first, c
        if how in ("until", "till"):
            return first, None
        return (c + 1 if how == "after" else c), c if how in ("for", "in", "") else None
    return first, None
