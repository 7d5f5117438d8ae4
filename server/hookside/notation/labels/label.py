"""What a course is called. "Rnds 9-12 (4 rounds):" -> round, 9 10 11 12."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal

from hookside.notation.labels.patterns import (
    BRACKETED,
    BY_TURNS,
    COUNT_LABEL,
    COURSE,
    EVERY_LABEL,
    LABEL,
    LAP_LABEL,
    NAMED_BEHIND,
    NAMED_LABEL,
    NEXT_LABEL,
    NTH_LABEL,
    NUMBER_LABEL,
    ORDINAL_LABEL,
    SAME_AS,
    WORD_LABEL,
)
from hookside.notation.vocabulary import NUMBER_WORDS, ORDINAL_WORDS, TENS, number_of

CourseKind = Literal["round", "row"]


@dataclass(slots=True)
class Label:
    """What stood before a body. `numbers` in order; `explicit`: it says round or row."""

    start: int
    end: int
    numbers: list[int]
    kind: CourseKind | None
    aside: str = ""
    aside_at: int = 0
    explicit: bool = True
    stopped: bool = True
    dash: bool = False  # a range that may be a label, a dash and a body: "Rnd 1 - 6 sc"
    second: tuple[int, int] | None = None  # where the number behind that dash stands
    relative: int = 0  # "next 4 rounds": how many, without numbers of their own
    number_spans: list[tuple[int, int]] = field(default_factory=list)
    every: bool = False  # "row 2 and all even rows": this one, and every other one from there
    upto: int = 0  # ... to this one
    named: bool = False  # "Inc rnd:", "Dec row 2:": by what it does; a number behind may be its own, or the course's


def kind_of(word: str | None) -> CourseKind | None:
    """ "rnd" -> round."""
    if not word:
        return None
    return "row" if word.lower().startswith(("row", "rw", "line")) else "round"


_MOST_COURSES = 9999


def numbers_of(text: str) -> list[int]:
    """ "3, 5-7 and 9" -> 3 5 6 7 9."""
    found: list[int] = []
    if "incl" in text:
        text = text.replace("and incl", "")  # "5 up to and including 8"
    parts = re.findall(r"\d+|-+>|-|\.\.\.?|to|thru|through|until|till|til|,|&|and|plus|\+|/|:", text.lower())
    span = False
    for part in parts:
        if part.isdecimal():
            n = int(part)
            if span and found and n > found[-1] and n - found[-1] <= _MOST_COURSES:
                found.extend(range(found[-1] + 1, n + 1))
            else:
                found.append(n)
            span = False
        else:
            span = part[-1] == ">" or part in ("-", ":", "..", "...", "to", "thru", "through", "until", "till", "til")
    return found


# "Rows 5 & 6 - 24 sc": a list, a dash, and a body that begins with a number
LIST_THEN_BODY = re.compile(r"(?:,|&|and|\+|/|=)[^,&+/=]{0,24}?\d(?P<dash>\s*-\s*)\d{1,4}$", re.I)


# "Rounds 4-7, 21 sc", "R4 and 5, 18": a list that a comma ends, and a body that begins with a number
_COMMA_THEN_BODY = re.compile(r"(?P<list>\d{1,4}[^,]*\d|\d+\s*,\s*\d+)\s*,\s*(?P<n>\d{1,4})")
_GOES_ON = re.compile(
    r"\s*(?:[.;,\n]|$|\s(?:in (?:each|every|all)|"
    r"sc|[hd]?dc|h?tr|ss|sl sts?|single|double|half|treble|sts?|stitches)\b)",
    re.I,
)
_LISTED = 3  # numbers: two rounds or more, and the stitches of their body
_NEAR = 3  # rounds that such a list may leap over; a count of its own size stands before it
_TOLD_BEFORE = 160  # letters in front of a label in which its count was last told


def _body_behind(text: str, match: re.Match[str]) -> Label | None:
    """ "Rounds 4-7, 21 sc": rounds 4 to 7 with 21 stitches, and no round 21; None for a list of rounds."""
    told = _COMMA_THEN_BODY.fullmatch(match["numbers"])
    if told is None or not _GOES_ON.match(text, match.end("numbers")):
        return None
    numbers = numbers_of(told["list"])
    leap = int(told["n"]) - numbers[-1]
    if leap == 1 or numbers != list(range(numbers[0], numbers[-1] + 1)):
        return None  # "4-5, 6 sc around", "4, 6, 8 sc around"
    at = match.start("numbers")
    before = text[max(0, match.start() - _TOLD_BEFORE) : match.start()]
    if 0 < leap <= _NEAR and re.search(rf"(?<!\d){told['n']}(?!\d)(?! ?[:.)-])", before) is None:
        return None
    spans = [(at, at + told.end("list"))]
    return Label(match.start(), at + told.start("n"), numbers, kind_of(match["kind"]), number_spans=spans)


# "(6) Rnd 1: ...": what a round comes to stands in front of it
_COUNT_BEFORE = re.compile(r"[(\[]\s*(?P<n>\d{1,4})\s*(?:sts?|stitches|sc|dc)?\s*[)\]]\s*[:.-]?\s*(?=[a-z\d])", re.I)


# "R5 (and 6 and 7):": more numbers of the label
_MORE = re.compile(
    rf"\s*(?:(?:and )?also(?: for)?|(?:and )?(?:the )?same (?:for|with|in)|"
    rf"as well as|and|&|,|plus|to|thru|through|until|till)\s*(?:{COURSE}\.?\s*)?#?\d{{1,4}}"
    rf"(?:\s*(?:,|and|&|\+|-|to)\s*(?:{COURSE}\.?\s*)?#?\d{{1,4}})*\s*",
    re.I,
)


# "R5 + 2:", "R5 and 2 more:", "R5 (+2)": so many further courses, where it can be no number in a list
_FURTHER = re.compile(
    rf"(?P<first>\d{{1,4}})?\s*(?:and|&|\+|plus)\s*(?P<n>\d{{1,2}})(?P<more>\s+(?:more|further|others?)(?:\s+{COURSE})?)?",
    re.I,
)
_MORE_OF_THEM = re.compile(rf"\s+(?:more|further|others?)\b(?:\s+{COURSE}\b)?\s*[:.)\]=-]+\s*", re.I)


def _further(text: str, match: re.Match[str], end: int) -> tuple[list[int], int] | None:
    """The courses of "R5 and 2 more:", and where that label ends; None for a list."""
    told = _FURTHER.fullmatch(match["numbers"])
    more = None
    if told is not None and told["first"]:
        first = int(told["first"])
        more = None if match["stop"] else _MORE_OF_THEM.match(text, match.end("numbers"))
        end = more.end() if more is not None else end
    elif match["numbers"].isdecimal() and match["aside"] and (match["stop"] or "").strip():
        first = int(match["numbers"])
        told = _FURTHER.fullmatch(match["aside"].strip())
        more = told if told is not None and told["more"] else None
    if told is None or not int(told["n"]) or (more is None and int(told["n"]) >= first):
        return None
    return list(range(first, first + int(told["n"]) + 1)), end


def aside_of(match: re.Match[str]) -> tuple[str, int]:
    """What stands between a label's numbers and its sign, and where: "(4 rounds)", "still 18"."""
    name = "aside" if match["aside"] else "told"
    return (match[name], match.start(name)) if match[name] else ("", 0)


_A_REPEAT = re.compile(r"(?:sc|[hd]?dc|h?tr)\b[^,+&]*(?:,|\+|&|and)\s*\d*\s*(?:inc|dec)|(?:inc|dec)[a-z]*\s*,", re.I)


def label_of(text: str, match: re.Match[str]) -> Label | None:
    numbers_text, stop = match["numbers"], match["stop"]
    aside, aside_at = aside_of(match)
    if aside and " - " in numbers_text and _A_REPEAT.search(aside):
        stop = None  # "Round 3 - 6(1sc, inc) - 18": a body that says how often first
    if stop and not aside and numbers_text.isdecimal():  # "Rnd 12:", as nearly all are
        spans = [match.span("numbers")]
        return Label(match.start(), match.end(), [int(numbers_text)], kind_of(match["kind"]), number_spans=spans)
    numbers = numbers_of(numbers_text)
    if not numbers:
        return None
    further = _further(text, match, match.end()) if len(numbers_text) > 2 or match["aside"] else None
    if further is not None:
        spans = [match.span("numbers")]
        return Label(match.start(), further[1], further[0], kind_of(match["kind"]), number_spans=spans)
    equal = SAME_AS.search(numbers_text) if "=" in numbers_text or ":" in numbers_text else None
    if equal is not None and int(equal["n"]) < numbers[0]:
        # "R5 = R4": an earlier round is no part of a list, but what this one is like
        at = match.start("numbers")
        spans = [(at, at + equal.start())]
        told = numbers_of(numbers_text[: equal.start()])
        return Label(match.start(), at + equal.end(), told, kind_of(match["kind"]), number_spans=spans)
    listed = None if stop else LIST_THEN_BODY.search(numbers_text)
    if listed and (listed["dash"][:1] == " " or text[match.end("numbers") : match.end("numbers") + 1].isalpha()):
        # "Rnd 3,4,5 - 12 sc": a list, a dash, and a body that begins with a number
        cut = match.start("numbers") + listed.end("dash")
        numbers = numbers_of(numbers_text[: listed.start("dash")])
        spans = [(match.start("numbers"), match.start("numbers") + listed.start("dash"))]
        return Label(match.start(), cut, numbers, kind_of(match["kind"]), number_spans=spans)
    behind = None if stop or "," not in numbers_text or len(numbers) < _LISTED else _body_behind(text, match)
    if behind is not None:
        return behind
    end = match.end()
    spans = [(match.start("numbers"), match.end("numbers"))]
    if _MORE.fullmatch(aside) and (more := numbers_of(f"{numbers_text} {aside}")) == sorted(set(more)):
        spans.append(match.span("aside"))
        return Label(match.start(), end, more, kind_of(match["kind"]), stopped=bool(stop), number_spans=spans)
    if aside and not stop and not re.fullmatch(r"\s*\d{1,4}\s*(?:sts?|stitches)\s*", aside):
        aside = ""
        end = match.start("aside") - 1
        while end > match.start() and text[end - 1] in " \t":
            end -= 1
    second = None
    dash = False
    at_end = text[match.end("numbers") : match.end("numbers") + 40].lstrip(" ")[:1] in ("\n", "")
    if len(re.findall(r"\d+", numbers_text)) == 2 and not stop:
        inner = re.match(r"(\d+)\s*(?:-|,)\s*(\d+)$", numbers_text)
        spaced = " - " in numbers_text and not match["kind"].lower().endswith("s")
        if inner and (spaced or not at_end):  # "r3 - 10" at the end of its line: round 3, which comes to 10
            dash = True
            second = (match.start("numbers") + inner.start(2), match.start("numbers") + inner.end(2))
    return Label(
        match.start(),
        end,
        numbers,
        kind_of(match["kind"]),
        aside,
        aside_at,
        True,
        bool(stop),
        dash,
        second,
        0,
        spans,
    )


# "R5 through 7, sc around, 24 sts": a comma is a label's sign where stitches stand right behind it
_COMMA = re.compile(
    r",\s+(?=(?:in )?(?:[bf]lo\b,? ?|\d{1,3} ?(?:x ?)?|[(\[*]\s*\d{0,3} ?)?"
    r"(?:sc|[hd]?dc|h?tr|inc|dec|invdec|ch|sl st|single crochet|double crochet|half double|increase|decrease|"
    r"m[rc]|magic (?:ring|loop|circle)|(?:start|begin)(?:ing)? (?:with )?\d)\b)",
    re.I,
)
_FROM = re.compile(rf"from\s+(?=(?:{COURSE}\.?\s*)?#?\d{{1,4}}\s*(?:-|to|until|through|thru|up|right|all)\s)", re.I)


# "Row one - 6 sts. sc across", "R1, 6 sts - 6 sc in ring": what it comes to, between the number and the work
_COUNT_BEHIND = re.compile(
    r"(?:\s*[,-]?\s*(?P<n>\d{1,4})\s*(?:sts|stitches)\b(?: (?:total|in total))?|"
    r"\s*[(\[]\d{1,3} (?:rounds|rnds|rows)[)\]]\s*[(\[]\s*(?P<n2>\d{1,4})\s*(?:sts|stitches)?\s*[)\]])"
    r"\s*(?:\.\s*-?|:|-+)\s*(?=[a-z\d(\[*{<])",
    re.I,
)
# "[R1 - 7 sts] 7 sc in ring"
_COUNT_CLOSES = re.compile(r"\s*[,-]?\s*(?P<n>\d{1,4})\s*(?:sts|stitches)\s*[)\]]\s*[:.-]*\s*", re.I)
_JUST_COUNT = re.compile(r"\s*\d{1,4}\s*(?:sts?|stitches)?\s*")


def at_line_start(text: str, at: int, end: int) -> Label | None:
    """The label that starts at `at`, in any style, with the count behind it where one stands there."""
    return with_count(text, _at_line_start(text, at, end), end)


def with_count(text: str, label: Label | None, end: int) -> Label | None:
    """A label, and the count behind it where one stands between it and the work."""
    told = _COUNT_BEHIND.match(text, label.end, end) if label is not None and label.numbers else None
    if label is not None and told and not label.aside and (told["n2"] or not label.dash):
        which = "n" if told["n"] else "n2"
        label.dash = False
        label.aside, label.aside_at, label.end, label.stopped = told[which], told.start(which), told.end(), True
    named = NAMED_BEHIND.match(text, label.end, end) if label is not None and label.stopped else None
    if label is not None and named is not None:
        label.end = named.end()
    return label


# "4x R5: sc around"
_TIMES_BEFORE = re.compile(rf"(?P<n>\d{{1,2}}) ?[x*] ?(?={COURSE}\.? ?#?\d{{1,4}}\s*[:.)-])", re.I)


# What a label can begin with that begins with neither a number, a bracket nor the word for a course
_BEGINS = frozenset(
    word[:2]
    for word in (
        *ORDINAL_WORDS, *NUMBER_WORDS, "from", "on", "all", "the", "every", "each", "even", "odd", "for", "over", "in",
        "during", "next", "following", "another", "subsequent", "further", "closing", "ending", "foundation", "last",
        "final", "set", "base", "beginning", "starting", "increase", "decrease", "plain", "straight", "shaping", "an",
        "widen", "narrow", "work", "picot", "popcorn", "bobble", "puff", "cluster", "mesh", "lace", "eyelet", "frill",
        "ruffle", "ribbed", "ridge",
    )
)  # fmt: skip


def _at_line_start(text: str, at: int, end: int) -> Label | None:
    first = text[at : at + 1]
    if first in ("r", "R"):
        return _by_kind(text, at, end)
    if first in "([" and at + 1 < end:
        return _enclosed(text, at, end)
    if first.isdecimal():
        before = _TIMES_BEFORE.match(text, at, end)
        often = at_line_start(text, before.end(), end) if before is not None else None
        if before is not None and often is not None and len(often.numbers) == 1 and often.stopped:
            often.start, number = at, often.numbers[0]
            often.numbers = list(range(number, number + int(before["n"])))
            return often
    elif text[at : at + 2].lower() not in _BEGINS:
        return None
    lead = _FROM.match(text, at, end)
    if lead:
        label = at_line_start(text, lead.end(), end)
        if label is not None and len(label.numbers) > 1:
            label.start = at
            return label
    match = EVERY_LABEL.match(text, at, end)
    if match and (match["and"] or match["all"] or match["turn"].lower() not in ("2nd", "second")):
        return _every(match)  # "1st and every 2nd rnd", but not "1st and 2nd rnds"
    match = BY_TURNS.match(text, at, end)
    if match:
        return _by_turns(match)
    match = ORDINAL_LABEL.match(text, at, end)
    if match:
        return ordinal(text, match)
    match = COUNT_LABEL.match(text, at, end)
    if match and not (match["kind"].lower() == "rd" and text[match.start("kind") - 1].isdecimal()):  # "3rd-5th:"
        several = match["numbers"].isdecimal() and match["kind"].lower().endswith("s")
        weak = match["stop"].strip() in ("", ",", ";")
        return None if several and weak else label_of(text, match)  # "3 rounds 12 sc": how many
    match = NEXT_LABEL.match(text, at, end)
    if match:
        how_many = number_of(match["n"] or match["many"] or "one")
        return Label(match.start(), match.end(), [], kind_of(match["kind"]), relative=min(how_many, 500))
    named = NAMED_LABEL.match(text, at, end)
    return _named(named) if named else None


def _named(match: re.Match[str]) -> Label:
    """ "Inc rnd:", "Plain rounds (x3):", "Dec row 2:"."""
    first, many = int(match["first"] or 0), int(match["many"] or 1)
    numbers = list(range(first, max(first, int(match["last"] or 0)) + 1)) if first else []
    spans = [(match.start("first"), match.end("last" if match["last"] else "first"))] if first else []
    return Label(
        match.start(),
        match.end(),
        numbers,
        kind_of(match["kind"]),
        relative=0 if first else many,
        number_spans=spans,
        named=True,
    )


def _enclosed(text: str, at: int, end: int) -> Label | None:
    """ "(Rnd 5) ...", "[R1 - 7 sts] ...", and what a course comes to in front of it: "(6) Rnd 1: ..." """
    told = _COUNT_BEFORE.match(text, at, end)
    if told:
        label = at_line_start(text, told.end(), end)
        if label is not None and label.explicit and not label.aside:
            label.aside, label.aside_at = told["n"], told.start("n")
            return label
    for shape, made in ((LABEL, label_of), (WORD_LABEL, in_words), (ORDINAL_LABEL, ordinal), (COUNT_LABEL, label_of)):
        inner = shape.match(text, at + 1, end)
        told = _COUNT_CLOSES.match(text, inner.end("numbers"), end) if inner and shape is LABEL else None
        if inner and told and len(re.findall(r"\d+", inner["numbers"])) == 1:
            spans = [inner.span("numbers")]
            numbers = numbers_of(inner["numbers"])
            kind = kind_of(inner["kind"])
            return Label(at, told.end(), numbers, kind, told["n"], told.start("n"), number_spans=spans)
        closed = inner is not None and (inner["stop"] or "").strip()[:1] in (")", "]")
        if inner and closed and (not inner["aside"] or _JUST_COUNT.fullmatch(inner["aside"])):
            return made(text, inner)
    return None


def _by_kind(text: str, at: int, end: int) -> Label | None:
    """ "Rnd 5: ...", "Rows 3 and 4: ...": what begins with the word for a course."""
    match = LABEL.match(text, at, end)
    every = EVERY_LABEL.match(text, at, end) if match is None or match["stop"] is None else None
    if every and (every["and"] or every["turn"].lower() not in ("2nd", "second")):
        return _every(every)
    if match is None:
        enclosed = BRACKETED.match(text, at, end)
        if enclosed and (text[at].isupper() or ":" in (enclosed["stop"] or "")):
            numbers = numbers_of(enclosed["numbers"])
            kind, spans = kind_of(enclosed["kind"]), [enclosed.span("numbers")]
            return Label(enclosed.start(), enclosed.end(), numbers, kind, number_spans=spans)
        match = WORD_LABEL.match(text, at, end)
        return in_words(text, match) if match else None
    label = label_of(text, match)
    if label is not None and label.end < match.end("numbers"):
        return label
    comma = _COMMA.match(text, label.end, end) if label is not None and not label.stopped else None
    if label is not None and comma:
        label.end, label.stopped = comma.end(), True
        return label
    if (
        match["kind"].lower() == "r"
        and not match["stop"]
        and match.end("numbers") < end
        and text[match.end("numbers")] not in " (:.-)"
        and not (label is not None and label.dash)
    ):
        return None
    return label


def _every(match: re.Match[str]) -> Label:
    turn = match["turn"].lower()
    if match["n"]:
        first = int(match["n"])
    elif match["nth"]:
        first = ORDINAL_WORDS.get(match["nth"].lower()) or int(re.sub(r"\D", "", match["nth"]) or 0)
    else:
        first = 3 if turn.startswith("odd") else 2
    label = Label(match.start(), match.end(), [first], kind_of(match["kind"]), every=True)
    label.upto = int(match["last"] or 0)
    return label


def _by_turns(match: re.Match[str]) -> Label:
    """ "Odd rounds 5-9:" -> 5 7 9."""
    odd = match["turn"].lower().startswith("odd")
    numbers = [n for n in range(int(match["n"]), int(match["last"]) + 1) if n % 2 == odd][:_MOST_COURSES]
    spans = [(match.start("n"), match.end("last"))]
    return Label(match.start(), match.end(), numbers, kind_of(match["kind"]), number_spans=spans)


def roman(text: str) -> int:
    """ "IV" -> 4."""
    digits = [{"I": 1, "V": 5, "X": 10}[c] for c in text.upper()]
    return sum(-d if d < max(digits[i:]) else d for i, d in enumerate(digits))


def in_words(_: str, match: re.Match[str]) -> Label:
    def value(word: str) -> int:
        if re.fullmatch("[IVX]+", word):
            return roman(word)
        return sum(TENS.get(w) or NUMBER_WORDS.get(w, 0) for w in re.split(r"[ -]", word.lower()))

    first = value(match["first"])
    numbers = [first]
    if match["last"]:
        last = value(match["last"])
        apart = match["join"].lower() in ("and", "&", ",")
        numbers = [first, last] if apart or last <= first else list(range(first, last + 1))
    return Label(match.start(), match.end(), numbers, kind_of(match["kind"]), *aside_of(match))


def ordinal(_: str, match: re.Match[str]) -> Label:
    def value(text: str) -> int:
        words = re.split("[ -]", text.lower())
        if len(words) == 2 and words[0] in TENS:
            return TENS[words[0]] + ORDINAL_WORDS[words[1]]
        return ORDINAL_WORDS.get(text.lower()) or int(re.sub(r"\D", "", text) or 0)

    first = value(match["first"])
    numbers = [first]
    end = match.end()
    if match["aside"] and not match["stop"]:
        end = match.start("aside") - 1  # "3rd rnd (sc, inc) x 6": the bracket is work
        return Label(match.start(), end, [first], kind_of(match["kind"]), stopped=False)
    if match["last"]:
        last = value(match["last"])
        numbers = (
            list(range(first, last + 1))
            if re.search(r"-|to|until|till|thru|through", match["join"], re.I) and first < last <= first + _MOST_COURSES
            else [first, last]
        )
    if match["between"]:
        numbers[1:1] = [value(part.strip()) for part in re.split("[,+/]", match["between"])[1:]]
    return Label(
        match.start(),
        match.end(),
        numbers,
        kind_of(match["kind"]),
        *aside_of(match),
        not match["kind"].lower().startswith("step"),
        bool(match["stop"]),
    )


# "6 - 8 sc": rounds 6 to 8, or round 6 with 8 sc? The next label tells.
_RANGE_OR_BODY = re.compile(r"\d{1,4}\s+-\s+(?P<second>\d{1,3})(?=\s+[a-z])", re.I)


def bare_number(text: str, at: int, end: int) -> Label | None:
    """ "4.", "9-13)", "(4)" at the start of a line: a label only where a course is expected."""
    match = NUMBER_LABEL.match(text, at, end)
    nth = NTH_LABEL.match(text, at, end) if not match else None
    if nth:
        numbers = numbers_of(re.sub(r"(?<=\d)(?:st|nd|rd|th)", "", nth["numbers"].lower()))
        return Label(nth.start(), nth.end(), numbers, None, explicit=False)
    if not match:
        lap = LAP_LABEL.match(text, at, end) if text[at : at + 1].isalpha() else None
        label = label_of(text, lap) if lap else None
        if label is not None:
            label.explicit = False
        return label
    numbers = numbers_of(match["numbers"])
    if "/" in match["numbers"] and numbers != list(range(numbers[0], numbers[0] + len(numbers))):
        return None  # "1/2", "12/4": no rounds one after the other
    range_or_body = _RANGE_OR_BODY.match(text, match.start("numbers"), end)
    if range_or_body and range_or_body.start("second") == match.end() and int(range_or_body["second"]) > numbers[0]:
        second = range_or_body.span("second")
        spans = [(match.start("numbers"), second[1])]
        whole = numbers_of(f"{numbers[0]}-{range_or_body['second']}")
        return Label(
            match.start(),
            second[1],
            whole,
            None,
            explicit=False,
            stopped=False,
            dash=True,
            second=second,
            number_spans=spans,
        )
    return Label(
        match.start(),
        match.end(),
        numbers,
        None,
        *aside_of(match),
        explicit=False,
    )
