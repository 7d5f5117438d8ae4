"""Rounds that count up by words of their own: "For the third, ...", "Third time,", "Round three of nine.", "C) ...".

Each of them gets a label like any other where the numbers go up from one, with work behind them (a letter counts
lines: "f) Four rounds plain" is four); what goes on without a number among them ("Next, ...", "Last round, ...", "For
three turns go up straight") is the next one. The first of them may hide in front of the second: "Put six in a ring.
Second round, two in every stitch".
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.askings.colournames import told_of_yarn
from hookside.notation.bodies.roundwords import SAID
from hookside.notation.page.edits import Edit, put
from hookside.notation.page.inwords import NTH, N, value

_NOUN = (
    r"(?:rounds?|rnds?|rows?|times?(?:[ ]rounds?)?|goes|go|turns?|laps?|circles?|lines?|stages?|levels?|layers?|ones?|"
    r"courses?|steps?|circuits?|trips?|pass(?:es)?|tours?)"
)
_TH = rf"(?:{NTH}|\d{{1,2}}d)"
_AND = r"(?:[ ]?(?:,|&|-|\+)[ ]?(?:and[ ])?|[ ](?:and|to|till|until|through|up to)[ ])"
_BEGINS = r"(?:^[^\w\n]{0,6}|(?<=[.!?;:)][ ])|(?<=[.!?;:)\"][ ]{2}))"
_SIGN = r"[ ]?(?:[.:,]?[ ]?-{1,3}|[:,;)])[ ]?"
_IN = r"(?:(?:and|then|now|so|okay|ok)[ ])?(?P<in>(?:for|on|in|with|at)[ ])?(?P<the>the[ ])?"
_DOES = (
    r"(?=(?:you|we|I|work|make|do|put|one|two|three|four|\d|inc|dec|sc|dc|crochet|plain|straight|nothing|again|"
    r"double|just)\b)"
)
# "Second round increase in every stitch": behind an ordinal that no word leads
_DOES_AT_ONCE = r"(?=(?:five|six|seven|eight|ten|twelve|increase|decrease|single|half)\b)"
# "Rounds four, five and six are your easy rounds, ...": what they are, in front of their work
_ARE = (
    r"[ ](?:are|is)[ ](?:(?:your|the|our|my|all|just|both)[ ])?(?:[a-z]{2,10}[ ]){0,2}"
    r"(?:rounds?|ones?|rows?|same|easy|alike)[,:][ ]"
)
# "Round one is six single crochet in a magic ring."
_IS = rf"[ ](?:is|are)[ ](?=(?:(?:just|all|again)[ ])?(?:{N}|(?:inc|dec)(?:rease)?|single|double|half|sc|dc)[ ])"
# Several with a comma between them only where the noun says so: "Round two, two single crochets"
_NUMBERS = (
    rf"(?:(?<=s[ ]){N}(?:,[ ]{N}){{1,7}}(?:,?[ ](?:and|&)[ ]{N})?|"
    rf"{N}(?:[ ](?:and|&|to|till|until|through|up to)[ ]{N}|[ ]?[-+][ ]?{N})?)"
)
# "For the third,", "3d and 4th. -", "Second time round,", "1st -"; "Round two of nine.", "Rounds four, five and six."
_HEAD = re.compile(
    rf"{_BEGINS}(?:"
    rf"{_IN}(?P<nths>{_TH}(?:{_AND}(?:the[ ])?{_TH}){{0,8}})(?:[ ](?P<noun>{_NOUN})(?![a-z]))?"
    rf"(?P<sign>{_SIGN}|[ ](?<=[a-z][ ])(?:{_DOES}|(?(in)(?!)|{_DOES_AT_ONCE})))|"
    rf"(?:(?:and|then|now|so|okay|ok)[ ]){{0,2}}(?P<for>(?:for|in|on|with|over)[ ](?:the[ ])?)?(?P<kind>{_NOUN})[ ]"
    rf"(?:no\.?[ ]|number[ ])?(?P<numbers>{_NUMBERS})"
    rf"(?P<of>[ ]of[ ](?:the[ ])?{N})?(?P<stop>{_ARE}|{_IS}|(?:\.(?!\d)|{_SIGN})[ ]?|(?<=[a-z])[ ]{_DOES})|"
    r"(?P<letter>(?-i:[A-Z]|(?<=\n)[a-z](?=[.)][ ])))(?:\)|[.:](?=[ ]))[ ]?"
    r"(?!r[a-z]{0,4}\.?[ ]?\d)|"  # "A: R1: ...": a yarn in front of a label
    rf"(?P<var>[a-z])[ ]?=[ ]?(?P<values>\d{{1,3}}(?:{_AND}\d{{1,3}})?)[ ]?:[ ]?)"
    r"(?=\S)(?=(?P<body>[^\n]{0,160}))",
    re.I | re.M,
)
# What goes on among them without a number
_ONWARD = re.compile(
    rf"{_BEGINS}(?:(?:and|then|now)[ ])*(?:"
    rf"(?:the[ ])?(?P<last>(?:very[ ])?last|final)[ ](?:of all|{_NOUN})?[ ]?(?:{_SIGN}|{_DOES})|"
    rf"(?:(?:for|in|on)[ ])?(?:the[ ])?next(?:[ ]{_NOUN})?(?P<colon>{_SIGN})(?![ ]?{_NOUN}[ ]{N}\b)|"
    rf"(?:for|over)[ ](?:the next[ ]|another[ ])?(?P<so_many>{N})(?:[ ]more)?[ ]{_NOUN}[ ,]{{1,2}}"
    rf"(?=(?:you|we|I|go|work|crochet|do|make|keep|plain|straight|just|no|without)\b)|"
    rf"(?:(?:you|we|I)[ ])?(?:go[ ](?:a?round|on)|work|do|make|crochet)[ ](?P<times>twice|once|{N}(?:[ ]times)?)[ ]more"
    rf"(?:[ ]{_NOUN})?(?:[ ]?[,:][ ]?|[ ]))"
    r"(?=\S)(?=(?P<body>[^\n]{0,160}))",
    re.I | re.M,
)
# A hint of them in small letters, asked of every page: so each begins with the letter that it takes
_MAY = re.compile(
    rf"[fst123](?<!\w.)(?:(?:(?<=f)irst|(?<=s)econd|(?<=t)hird|(?<=1)st|(?<=2)n?d|(?<=3)r?d)(?:[ ]{_NOUN})?[ ]?[:,.-]|"
    rf"(?<=f)or the (?:second|third)\b|(?:(?<=s)econd|(?<=t)hird)[ ]{_NOUN}[ ][a-z])"
)
_MAY_BE_LETTERED = re.compile(r"^[^\w\n]{0,4}b[).:]", re.M)
_MAY_BE_SET = re.compile(r"^[a-z][ ]?=[ ]?\d[^\n]{0,10}:", re.M)
_IN_WORDS = re.compile(r" t(?:wo|hree)\b")
_CALLED = re.compile(rf"\b{_NOUN}$")
_LONGEST = 16  # characters of such a noun
_WORK = re.compile(
    rf"\b(?:\d{{1,3}}[a-z]*|{N}|(?:sc|[hd]?dc|h?tr)\d?tog|sc|[hd]?dc|h?tr|inc|dec|plain|even|straight|same|as|like|repeat|double|together|each|"
    r"every|increase|decrease|stitch(?:es)?|again|nothing|half|twice)\b",
    re.I,
)
_LABELLED = re.compile(r"^[^\w\n]{0,6}(?:r|rd|rnd|round|row)s?\.?[ ]?\d{1,3}(?:[ ]?[-:.)(]|[ ]{2})", re.M | re.I)
# "Begin with six doubles into a ring": the sentence in front of the second round that is the first
_RING = re.compile(
    rf"\b(?:{N})\b[^.\n]{{0,60}}\b(?:ring|loop|circle|hole)\b|\b(?:ring|loop|circle)\b[^.\n]{{0,40}}\b{N}\b", re.I
)
# "With the brown, round one, five stitches in a ring"
_BEHIND_YARN = re.compile(
    r"(?:with|in|using|take)[ ][^.,:\n]{2,30}"
    r"(?P<named>,[ ](?:and[ ]|for[ ])?(?:the[ ])?(?:(?:round|rnd|row)[ ](?:1|one)|"
    r"first[ ](?:round|rnd|row))\b[,:]?[ ])",
    re.I,
)
_POINTS = re.compile(
    rf"\b(?:as|like|repeat)[ ](?:in[ ]|for[ ])?(?P<what>(?:the[ ])?(?P<nth>{_TH})(?![ ]?{_NOUN}\b)|"
    r"(?P<letter>(?-i:[A-Z]))\b(?!'))"
    r"(?=[ ]?(?:[,.;:(=]|\n|$|but\b|upon\b|again\b))",
    re.I,
)
# "Rounds four, five and six are on the side.": numbers that a sign does not end
# "f) Four rounds without increases": a letter counts lines, and this one holds several rounds
_SO_MANY = re.compile(
    rf"(?:(?:work|do|make|crochet|then|just)[ ]){{0,2}}(?P<n>{N})[ ]"
    r"(?:more[ ]|plain[ ]|even[ ])?(?:rounds|rnds|rows)\b",
    re.I,
)
_NEXT_OF_THEM = re.compile(rf"(?P<n>{N})(?:,[ ]{N}\b|,?[ ](?:and|to)[ ]{N}\b)", re.I)
_FEWEST = 3


@dataclass(slots=True)
class _Head:
    """A round as its teller heads it."""

    start: int
    end: int
    numbers: list[int]  # none: it goes on from the one before
    scheme: str
    more: int = 1  # how many it goes on for
    last: bool = False
    row: bool = False
    named: bool = False  # it says round, row or the like
    plain: bool = False  # "3rd round:" is a label as it stands


def _may_count(low: str) -> bool:
    """A hint of such rounds in a page in small letters."""
    if _MAY.search(low) is not None or ("=" in low and _MAY_BE_SET.search(low) is not None):
        return True
    if ("b)" in low or "b." in low or "b:" in low) and _MAY_BE_LETTERED.search(low) is not None:
        return True
    return any(_CALLED.search(low, max(0, m.start() - _LONGEST), m.start()) for m in _IN_WORDS.finditer(low))


def labelled(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds labelled, each on a line of its own, and the way back."""
    if not _may_count(text.lower()):
        return text, offsets
    heads = _counting(text)
    own = [h for h in heads if h.numbers and not h.plain]
    labels = len(_LABELLED.findall(text)) + sum(h.plain for h in heads)
    if len(heads) < _FEWEST or len(own) < _FEWEST - 1 or labels >= len(own):
        return text, offsets
    row = next((h.row for h in heads if h.named), False)
    edits: list[Edit] = []
    letters: dict[str, int] = {}  # the number that each lettered line has got
    further = 0
    for head in heads:
        if head.scheme == "letter" and head.numbers:
            further = 0 if head.numbers[0] == 1 else further
            many = _SO_MANY.match(text, head.end)
            first, so_many = head.numbers[0] + further, value(many["n"]) if many else 1
            letters[chr(64 + head.numbers[0])] = first
            further += so_many - 1
            head.numbers = list(range(first, first + so_many))
        if head.plain and any(c.isdecimal() for c in text[head.start : head.end]):
            continue  # a label as it stands; "Fourth round:" is called as the others are
        line = "" if head.start == 0 or text[head.start - 1] == "\n" else "\n"
        if head.numbers[:1] == [2]:
            edits += _first(text, head.start, heads)
        said = SAID.match(text, head.end)
        edits.append((head.start, said.end() if said else head.end, f"{line}{_label(head, row)}: "))
        edits += _pointed(text, head, letters)
    return put(text, offsets, edits)


def _pointed(text: str, head: _Head, letters: dict[str, int]) -> list[Edit]:
    """ "As the third", "the same as E" in the round: pointed to as the labels have it."""
    end = text.find("\n", head.end)
    found: list[Edit] = []
    for told in _POINTS.finditer(text, head.end, end if end >= 0 else len(text)):
        n = value(told["nth"]) if told["nth"] else letters.get(told["letter"], 0) if head.scheme == "letter" else 0
        if n and (head.scheme != "nth" or told["nth"]):
            found.append((*told.span("what"), f"round {n}"))
    return found


def _label(head: _Head, row: bool) -> str:
    name = "Row" if (head.row if head.named else row) else "Rnd"
    if head.last:
        return f"Last {name.lower()}"
    if not head.numbers:
        return f"Next {head.more} {name.lower()}s" if head.more > 1 else f"Next {name.lower()}"
    a, b = head.numbers[0], head.numbers[-1]
    if head.numbers == list(range(a, b + 1)):
        return f"{name} {a}" if a == b else f"{name}s {a}-{b}"
    return f"{name}s {', '.join(map(str, head.numbers))}"


def _first(text: str, at: int, heads: list[_Head]) -> list[Edit]:
    """The label of the first round, where it stands in front of the second without one."""
    if any(h.numbers[:1] == [1] and h.end < at for h in heads):
        return []
    above = text.rfind("\n\n", 0, at)
    sentence = -1
    for told in re.finditer(r"(?:^|(?<=[.!?:][ ])|(?<=\n))(?=\S)", text[above + 1 : at]):
        start = above + 1 + told.start()
        ends = re.compile(r"[.!?\n]").search(text, start)
        if _RING.search(text, start, min(at, ends.start() if ends else at)):
            sentence = start
    if sentence < 0:
        return []
    behind = _BEHIND_YARN.match(text, sentence)
    if behind is not None:
        return [(*behind.span("named"), ".\nRnd 1: ")]
    line = "" if sentence == 0 or text[sentence - 1] == "\n" else "\n"
    return [(sentence, sentence, f"{line}Rnd 1: ")]


def _counting(text: str) -> list[_Head]:
    """The heads of a text that count up, scheme by scheme, with what goes on among them."""
    told = [head for match in _HEAD.finditer(text) if (head := _read(match)) is not None]
    onward = [_onward(match) for match in _ONWARD.finditer(text) if _WORK.search(match["body"])]
    best: list[_Head] = []
    for scheme in sorted({head.scheme for head in told}):
        found: list[_Head] = []
        last = 0
        for head in sorted([h for h in told if _among(h, scheme)] + onward, key=lambda h: h.start):
            if head.numbers and head.scheme != scheme and head.numbers[0] != last + 1:
                continue
            if found and head.start < found[-1].end:
                continue
            if not head.numbers:
                if found:
                    found.append(head)
                    last += head.more
                continue
            first = head.numbers[0]
            if first == last + 1 or first == 1 or (first == 2 and not found):
                found.append(head)
                last = head.numbers[-1]
        if sum(bool(h.numbers) for h in found) > sum(bool(h.numbers) for h in best):
            best = found
    return best


def _among(head: _Head, scheme: str) -> bool:
    """Is it told as the others are? "For rounds eight to twelve" stands among "On the seventh round" as well."""
    return head.scheme == scheme or (head.named and {head.scheme, scheme} == {"nth", "number"})


def _read(match: re.Match[str]) -> _Head | None:
    start = match.start()
    while match.string[start] in " \t\"'*-#" or match.string[start] == "\n":
        start += 1
    if not _WORK.search(match["body"]):
        return None
    if match["letter"]:
        if told_of_yarn(match["body"]):
            return None  # "A: grey, 20 g"
        return _Head(start, match.end(), [ord(match["letter"].upper()) - 64], "letter")
    words = match["nths"] or match["numbers"] or match["values"]
    numbers = _numbers(words)
    goes_on = _NEXT_OF_THEM.match(match["body"])
    if not numbers or (goes_on is not None and value(goes_on["n"]) == numbers[-1] + 1):
        return None
    noun = (match["noun"] or match["kind"] or "").lower()
    if match["nths"]:
        bare = not noun and not (match["in"] and match["the"])
        if bare and not match["sign"].strip(" ,"):
            return None
        if bare and not words[0].isdecimal() and ":" not in match["sign"] and "-" not in match["sign"]:
            return None
    elif match["numbers"] and not (match["of"] or match["for"]) and words[0].isdecimal() and noun.startswith("r"):
        return None  # a label as it stands
    sign = (match["sign"] or "").strip()
    plain = bool(match["nths"]) and noun.startswith("r") and sign not in ("", ",") and not match["in"]
    scheme = "var" if match["values"] else "nth" if match["nths"] else "number"
    return _Head(start, match.end(), numbers, scheme, row=noun.startswith("row"), named=bool(noun), plain=plain)


def _onward(match: re.Match[str]) -> _Head:
    start = match.start()
    while match.string[start] in " \t\"'*-#\n":
        start += 1
    many = match["so_many"] or match["times"] or "one"
    more = {"twice": 2, "once": 1}.get(many.lower()) or value(many.split(" ")[0])
    return _Head(start, match.end(), [], "onward", more=more, last=bool(match["last"]))


def _numbers(words: str) -> list[int]:
    """ "4th, 5th and 6th", "four to seven" -> the numbers told; none where they do not go up."""
    found: list[int] = []
    span = False
    for told in re.finditer(rf"{_TH}|{N}|-|\bto\b|\btill\b|\buntil\b|\bthrough\b", words, re.I):
        if told[0].lower() in ("-", "to", "till", "until", "through"):
            span = True
            continue
        n = value(told[0])
        found += range(found[-1] + 1, n + 1) if span and found and found[-1] < n <= found[-1] + 60 else [n]
        span = False
    return found if found == sorted(set(found)) and found[0] > 0 else []
