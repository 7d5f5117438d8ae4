"""Lines that say a thing the other way round, or by a sign: "Repeat round 3 for rounds 4-5", "Wing 2 = wing 1".

Each is a row of a table, and becomes what whoever labels puts first: "Rounds 4-5: repeat round 3".
A row is for whole lines alone: within one, the same words tell something else.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put
from hookside.notation.page.inwords import N, value
from hookside.notation.sought import Sought

_ROUNDS = r"(?:rounds|rnds|rows|rds)"
_LINE = r"^(?P<in>[ \t]{0,8})"
_END = r"(?P<end>[ ]?(?:[(\[][^()\[\]\n]{1,20}[)\]])?[ ]?[.!]?)[ \t]{0,8}$"
_NUMBERS = rf"\d{{1,3}}(?:,? ?(?:-|to|through|thru|and|&|,) ?(?:{COURSE}\.? ?)?\d{{1,3}})*"
_WHICH = (
    rf"(?:the )?(?:(?:last|previous|prev\.?|preceding|above|same|this|that) (?:\d |two |three |four )?{COURSE}|"
    rf"{COURSE}\.? ?#?{_NUMBERS})"
)
_EQUALS = r"(?P<{}>[ ]?(?:=|[-:,] ?(?:repeat|copy(?: of)?)\b)[ ]?)(?:the )?"
_FIRST = re.compile(r"\d+")


def _repeated(match: re.Match[str]) -> list[Edit]:
    first = _FIRST.match(match["numbers"] or "")
    if match["label"] and (first is None or first[0] != match["first"]):
        return []  # "R5: repeat round 3 for rounds 6-7": whichever is meant, others say it
    label = f"Rounds {match['numbers']}: " if match["numbers"] else f"Next {match['many']} rounds: "
    if "row" in (match["kind"] or match["kind2"]).lower():
        label = label.replace("ounds", "ows")
    at = match.start("what")
    begins = match.start("label") if match["label"] else at
    return [(begins, at, label), (match.end("what"), match.start("end"), "")]


def _several(match: re.Match[str]) -> list[Edit]:
    return [(match.start("what"), match.end("what"), f"Next {match['many']} {match['kind']}: ")]


def _like(match: re.Match[str]) -> list[Edit]:
    return [(*match.span("seam" if match["seam"] else "seam2"), ": as ")]


def _counted(match: re.Match[str]) -> list[Edit]:
    """A piece told by its counts: they begin as a ring does, double at once, and no later one more than doubles."""
    told = list(_FIRST.finditer(match.string, *match.span("run")))
    counts = [int(m[0]) for m in told]
    grows = counts[1] == 2 * counts[0] and all(a <= 2 * b and b <= 2 * a for a, b in pairwise(counts))
    if not grows or not 4 <= counts[0] <= 12 or _LABELS.search(match.string):
        return []
    labels = [f"{chr(10) if n > 1 or match['name'] else ''}R{n}: " for n in range(1, len(told) + 1)]
    starts = [match.end("name") if match["name"] else match.start("run"), *(m.end() for m in told)]
    return [(at, m.start(), label) for at, m, label in zip(starts, told, labels, strict=False)]


def _last(match: re.Match[str]) -> list[Edit]:
    return [(match.end("what"), match.end("what"), " round")]


def _for_the_other(match: re.Match[str]) -> list[Edit]:
    """All the rounds there are, again for another one: a copy, and no more rounds of the first."""
    above = [int(m["n"]) for m in _LABELS.finditer(match.string, max(0, match.start() - _NEAR), match.start())]
    if not above or above[-1] != int(match["last"]):
        return []
    name = match["name1"] or match["name2"]
    return [(match.start("what"), match.end("what"), f"Make another {name} in the same way")]


_ONCE_TWICE = {"once": 1, "twice": 2, "thrice": 3}


def _shaped_again(match: re.Match[str]) -> list[Edit]:
    told = match.groupdict()
    word = (told["often"] or told["often2"] or "").lower() if "often" in told else told["many"] or told["many2"] or ""
    if not word:
        return []
    many = _ONCE_TWICE.get(word) or value(word)
    label = "Next round" if many == 1 else f"Next {many} rounds"
    how = match["how"][:3].lower()
    return [(match.start("what"), match.start("end"), f"{label}: {how} {match['n']} evenly")]


def _even(match: re.Match[str]) -> list[Edit]:
    return [(match.start("what"), match.start("end"), f"Work {match['many']} {match['kind']} even")]


_LABELS = re.compile(rf"^[^\w\n]{{0,4}}(?:{COURSE}\.? ?#?)(?:\d{{1,3}} ?- ?)?(?P<n>\d{{1,3}})\b", re.I | re.M)
_NEAR = 600  # letters above such a line in which a label is looked for
Put = Callable[[re.Match[str]], list[Edit]]
_ROWS: list[tuple[Sought, Put]] = [
    # "Repeat round 3 for rounds 4-5", "Repeat the previous round over the next 2 rounds"
    (
        Sought(
            ("repeat ", "rep "),
            rf"{_LINE}(?P<label>{COURSE}\.? ?#?(?P<first>\d{{1,3}}) ?[:.)-] ?)?"
            rf"(?P<what>(?:now |then )?(?:repeat|rep) {_WHICH}(?: again)?),? "
            rf"(?:for|in|on|as|over|to make|to get) (?:the )?(?:(?P<kind>{COURSE})\.? ?#?(?P<numbers>{_NUMBERS})|"
            rf"(?:next|following) (?P<many>{N}) (?:more )?(?P<kind2>{_ROUNDS})){_END}",
            re.I | re.M,
        ),
        _repeated,
    ),
    # "Then 5 rounds of plain", "5 rnds sc in each st around (18)": rounds of their own, and no more of the one above
    (
        Sought(
            ("rounds ", "rnds ", "rows ", "rds "),
            rf"{_LINE}(?P<what>(?:(?:and |now |then |work |do |crochet )*)(?P<many>{N}) (?P<kind>{_ROUNDS}) (?:of )?)"
            r"(?=(?:(?:just|only|work|working|1|one) )*(?:sc|[hd]?dc|h?tr|s\.c\.|single crochet|double crochet) "
            r"(?:in|even|evenly|around|each|every|all|across|straight|over)\b|"
            r"\d{1,3} (?:times )?(?:sc|[hd]?dc|h?tr|s\.c\.|single crochet|double crochet)\b|"
            r"(?<=of )(?:plain|straight|even|no (?:inc|dec|shaping))[ ]?(?:[^\w\s]|$))",
            re.I | re.M,
        ),
        _several,
    ),
    # "Wing 2 = wing 1", "Second leg - repeat the first leg": a part that another is like
    (
        Sought(
            ("= ", "repeat ", "copy "),
            rf"{_LINE}(?:(?!{COURSE}\b)(?P<noun>[a-z]{{3,12}}) (?:[2-9]|[B-H]|two|three|four){_EQUALS.format('seam')}"
            r"(?P=noun) (?:\d|[A-H]|one|two|three)|"
            rf"(?:second|2nd|other|left|right) (?!{COURSE}\b)(?P<noun2>[a-z]{{3,12}}){_EQUALS.format('seam2')}"
            rf"(?:first|1st|other|left|right) (?P=noun2)){_END}",
            re.I | re.M,
        ),
        _like,
    ),
    # "Inc 6 twice more.", "Decrease 6 sts in the same way 3 more times": a round each
    (
        Sought(
            (" more", " times"),
            rf"{_LINE}(?P<what>(?:then |now )?(?P<how>inc(?:rease)?|dec(?:rease)?) (?P<n>\d{{1,2}})(?: sts?| stitches)?"
            r"(?: evenly)?,?(?: in the same way| like this| as before)? "
            rf"(?:(?P<often>once|twice|thrice|{N}) more(?: times)?|(?P<often2>{N}) times more))(?: evenly)?{_END}",
            re.I | re.M,
        ),
        _shaped_again,
    ),
    # "Inc 6 sts evenly in each of the next 2 rounds.", "For the next 3 rounds decrease 6."
    (
        Sought(
            ("next ",),
            rf"{_LINE}(?P<what>(?:(?:for|over|in) (?:each of )?(?:the )?next (?P<many2>{N}) {_ROUNDS},? )?"
            r"(?P<how>inc(?:rease)?|dec(?:rease)?) (?P<n>\d{1,2})(?: sts?| stitches)?(?: evenly)?"
            rf"(?:,? (?:for|over|in) (?:each of )?(?:the )?next (?P<many>{N}) {_ROUNDS})?)(?: evenly)?{_END}",
            re.I | re.M,
        ),
        _shaped_again,
    ),
    # "Do not increase any more for 5 rounds."
    (
        Sought(
            ("crease ", "inc ", "dec "),
            rf"{_LINE}(?P<what>(?:now |then )?(?:do not|don'?t|no longer) (?:inc(?:rease)?|dec(?:rease)?)"
            rf"(?: any(?: ?more)?| further)?,? (?:for|over) (?:the next )?(?P<many>{N}) (?P<kind>{_ROUNDS})){_END}",
            re.I | re.M,
        ),
        _even,
    ),
    # "Repeat R1-4 for the second leg.", "For the second leg repeat rounds 1 to 4."
    (
        Sought(
            ("repeat ", "rep "),
            rf"{_LINE}(?P<what>(?:(?P<first>for (?:the |your )?(?:second|other|2nd) (?P<name1>[a-z]{{3,12}}),? ))?"
            rf"(?:repeat|rep|work) {COURSE}s?\.? ?#?1 ?(?:-|to|through) ?(?:{COURSE}\.? ?)?(?P<last>\d{{1,3}})"
            r"(?: again)?(?(first)|,? (?:for|to make|on) (?:the |your )?(?:second|other|2nd) (?P<name2>[a-z]{3,12})))"
            rf"(?P<but>,? (?:but )?(?:do not|don't) (?:fasten|cut|break)[^.\n]{{0,20}})?{_END}",
            re.I | re.M,
        ),
        _for_the_other,
    ),
    # "Last: dec x 6"
    (
        Sought(
            ("last:", "final:"),
            rf"{_LINE}(?P<what>last|final)(?P<end>: )(?=[(\[*]|(?:\d{{1,2}} ?)?(?:x )?(?:sc|[hd]?dc|h?tr|inc|dec)\b)",
            re.I | re.M,
        ),
        _last,
    ),
    # "BODY: 6-12-18-24-24-18": a count for each round, in a text without labels
    (
        Sought(
            tuple(f"{n}{sign}{2 * n}" for n in range(4, 13) for sign in ("-", " - ", ", ", "/", " / ")),
            rf"{_LINE}(?P<name>(?!sizes?\b|ages?\b|months\b)[a-z][a-z' ]{{2,30}}:[ ]?)?"
            rf"(?P<run>\d{{1,2}}(?:[ ]?[-/,][ ]?\d{{1,3}}){{3,60}}){_END}",
            re.I | re.M,
        ),
        _counted,
    ),
]


def told_in_order(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such lines in the order that others use, and the way back."""
    low = text.lower()
    edits: list[Edit] = []
    for sought, told in _ROWS:
        if sought.may_be_in_small(low):
            edits += [edit for m in sought.pattern.finditer(text) for edit in told(m)]
    return put(text, offsets, edits) if edits else (text, offsets)
