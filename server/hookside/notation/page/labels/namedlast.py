"""Rounds whose sentence names them at its end: "With brown, work six sc into a magic ring for round one."

The name goes in front, where labels stand, if the rounds named before and behind it are those before and behind it in
number. What is told of a yarn in front of the work becomes a sentence of its own.
"""

from __future__ import annotations

import re
from bisect import bisect_left

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put
from hookside.notation.page.inwords import NTH, N, value
from hookside.notation.sought import Sought

_MAKES = r"(?:is|was|makes?|made|forms?|completes?|finishes|gives?)"
_LEAD = (
    rf"(?:[,;:.] |[ ])(?:and |so )?(?:(?:that|this|which|it) {_MAKES}|that['\u2019]?s|for|by way of|making|"
    r"(?:as|makes?|to (?:make|form|begin|complete))(?= (?:your|the|our|my|(?:round|rnd|row) (?:one|1)\b)))|"
    r"(?:[.,;] ?|[ ])[-\u2013\u2014]"
)
_NAMED = Sought(
    (" round", " rnd", " row"),
    rf"(?<=[\w)\]])(?P<lead>{_LEAD}) (?:(?:your|the|our|my) )?(?:(?P<kind>round|rnd|row)\.? (?P<n>{N})|(?P<nth>{NTH}) "
    rf"(?P<kind2>round|rnd|row))(?: (?:done|complete|finished|made))?(?=[ ]?[.,;!(]|[ ]?$|[,;]? and (?:it|you)\b)",
    re.I | re.M,
)
_MENTIONED = re.compile(
    rf"\b{COURSE}\.? ?#?(?P<n>{N})(?: ?(?:-|to|and|&) ?(?P<last>{N}))?(?![\w-])|"
    rf"\b(?P<nth>{NTH})(?: (?:to|and) (?:the )?(?P<lastth>{NTH}))? {COURSE}\b",
    re.I,
)
_SENTENCE = re.compile(r"(?:^|(?<=[.!?]) )[^\w\n(\[*]{0,6}(?=[\w(\[*])", re.M)
_LABELLED = re.compile(rf"(?:(?:in|on|for) (?:the )?)?(?:{COURSE}\.? ?#?{N}\b|{NTH} {COURSE}\b|\d{{1,3}} ?[.:)])", re.I)
# "With brown, work six ...", "Begin with six single crochets ..."
_YARN = re.compile(r"(?:(?:with|using|in|take) (?:the )?[^,.;\n\d]{2,30}), (?=[a-z\d])", re.I)
_BEGINS = re.compile(r"(?:begin|start|commence)\w* (?:by |with )?(?:(?:work|mak|crochet)ing )?", re.I)
_ORDERS = re.compile(r"(?:work|make|crochet|put|do|single|double|half|chain|join)\b", re.I)
_WORK = re.compile(
    rf"\b(?:sts?|stitch(?:es)?|singles?|doubles?|crochets?|sc|[hd]?dc|h?tr|inc|dec|increase|decrease|plain)\b|"
    rf"\b{N} into (?:every|each)\b",
    re.I,
)
# What is no round: "Leave six stitches for round five", "Repeat as in round 3", "(12), the same as for round 4"
_NO_ROUND = re.compile(
    r"\b(?:leave|keep|use|mark|save|hold|repeat|same|like|change|switch|until|except|instead|ready|needs?|needed|as|"
    r"stitch marker|between|after|before|again|unworked|free|waiting)\b", re.I
)
_DASHES = ("-", "\u2013", "\u2014")
_AT_END = re.compile(r"[ .!]{0,3}$", re.M)
_NEAR = 600  # letters between two rounds that are told


def _mentions(text: str) -> tuple[list[int], list[tuple[int, int]]]:
    """Where rounds are named, and the first and the last number of each."""
    starts: list[int] = []
    numbers: list[tuple[int, int]] = []
    for told in _MENTIONED.finditer(text):
        starts.append(told.start())
        first = value(told["n"] or told["nth"])
        numbers.append((first, value(last) if (last := told["last"] or told["lastth"]) else first))
    return starts, numbers


def labelled(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds labelled in front, and the way back."""
    edits: list[Edit] = []
    mentions: tuple[list[int], list[tuple[int, int]]] | None = None
    for named in _NAMED.finditer(text):
        n = value(named["n"] or named["nth"])
        low = max(0, named.start() - _NEAR)
        line = max(low, text.rfind("\n", low, named.start()) + 1)
        starts = [m.end() for m in _SENTENCE.finditer(text, line, named.start())]
        if not starts:
            continue
        begins = starts[-1]
        work = text[begins : named.start()]
        if _LABELLED.match(work) or not _WORK.search(work) or _NO_ROUND.search(work):
            continue
        if mentions is None:
            mentions = _mentions(text)
        starts_at, numbers = mentions
        before, after = bisect_left(starts_at, begins) - 1, bisect_left(starts_at, named.end())
        follows = numbers[after][0] if after < len(numbers) and starts_at[after] < named.end() + _NEAR else 0
        told = numbers[before][1] if before >= 0 and starts_at[before] > begins - _NEAR else 0
        if n == 1 and follows != 2:
            continue
        if n > 1 and (told != n - 1 or follows not in (0, 1, n + 1)):
            continue
        if named["lead"].strip()[-1:] in _DASHES and not _AT_END.match(text, named.end()):
            continue  # "6 sc in ring - round 2, inc x 6"
        kind = named["kind"] or named["kind2"]
        name = "row" if kind.lower().startswith("row") else "round"
        yarn = _YARN.match(work)
        at = begins
        if yarn is not None:
            edits.append((begins + yarn.end() - 2, begins + yarn.end() - 1, "."))
            at = begins + yarn.end()
        led = _BEGINS.match(text, at, named.start())
        verb = led is not None or _ORDERS.match(text, at) is not None
        label = f"In {name} {n}, " if verb else f"{name.capitalize()} {n}: "
        edits.append((at, led.end() if led is not None else at, label + ("work " if led is not None else "")))
        edits.append((named.start(), named.end(), ""))
    return put(text, offsets, edits) if edits else (text, offsets)
