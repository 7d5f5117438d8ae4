"""Third stage: what a course is called. "Rnds 9-12 (4 rounds):" -> round, 9 10 11 12."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal

from hookside.notation.vocabulary import NUMBER_WORDS, ORDINAL_WORDS, TENS

CourseKind = Literal["round", "row"]

_KIND = r"(?P<kind>rounds?|rnds?|rows?|rds?|r)"
_KINDS = r"(?:rounds?|rnds?|rows?|rds?|r)"
_ITEM = rf"\d{{1,4}}(?:\s*(?:-+>|-|\.\.|to|thru|through|until|till)\s*(?:{_KINDS}\.?\s*)?#?\d{{1,4}})?"
_NUMBERS = (
    rf"(?P<numbers>{_ITEM}(?:\s*(?:,\s*and|,|&|and|\+|(?<=\d)/(?=[\dr])|"
    rf"(?<=\s)/(?=\s))\s*(?:{_KINDS}\.?\s*)?#?{_ITEM}|\s*=\s*{_KINDS}\.?\s*#?{_ITEM})*)"
)
_ASIDE = r"(?:\s*[(\[](?P<aside>[^()\[\]\n]{1,60})[)\]])?"
_SIDE = r"(?:\s*[,-]?\s*(?:rs|ws|right side|wrong side)\b)?"
_END = r"(?P<end>\s*[:.)\]=/]+[-:.\s]*|\s+-+\s*|\s*-+\s+|-(?=\S))"

LABEL = re.compile(
    rf"\b{_KIND}\s*\.?\s*(?:no\.?|number|nr\.?|#|-)?\s*{_NUMBERS}"
    rf"(?!\d|\s*(?:mm|cm|st|nd|rd|th)\b){_SIDE}{_ASIDE}{_SIDE}(?P<stop>{_END})?",
    re.I,
)
_TENS = "|".join(TENS)
_ONES = "|".join(list(NUMBER_WORDS)[:9])
_WORD = rf"(?:(?-i:[IVX]{{1,6}}(?![A-Za-z]))|(?:{_TENS})(?:[ -](?:{_ONES}))?|{'|'.join(NUMBER_WORDS)})"
# "Round twenty-one:", "Rounds three to five:"; in words it is a label only with a sign behind it
WORD_LABEL = re.compile(
    rf"\b{_KIND}\s+(?P<first>{_WORD})(?:\s*(?P<join>-|to|through|thru|and|&|"
    rf",)\s*(?P<last>{_WORD}))?\b{_SIDE}{_ASIDE}{_SIDE}(?P<stop>{_END})",
    re.I,
)
# "4 row:", "5-8 rows:": numbers first, as translations have them
COUNT_LABEL = re.compile(
    rf"(?P<numbers>\d{{1,4}}(?:\s*(?:{_KINDS}\.?\s*)?(?:-|to|,|&|"
    rf"and)\s*\d{{1,4}})*)\s*{_KIND}\b{_SIDE}{_ASIDE}(?P<stop>{_END})",
    re.I,
)
_ORDINAL = r"(?:\d{1,4}(?:st|nd|rd|th|\.)|" + "|".join(ORDINAL_WORDS) + ")"
ORDINAL_LABEL = re.compile(
    rf"(?P<first>{_ORDINAL})(?:(?:\s*(?:{_KINDS}|steps?)\b)?(?P<join>\s*(?:-|to|thru|through|and|&|"
    rf",)\s*)(?P<last>{_ORDINAL}))?\s*(?P<kind>rounds?|rnds?|rows?|rds?|steps?(?=\s*[.:])|"
    rf"r(?=\s*[.:]))\b{_SIDE}{_ASIDE}(?P<stop>{_END})?",
    re.I,
)
NUMBER_LABEL = re.compile(
    rf"[(\[#]?\s*(?P<numbers>\d{{1,4}}(?:[.)]?\s*(?:-|to|,|&|"
    rf"and)\s*\d{{1,4}})*){_ASIDE}(?P<stop>\s*(?:[.:)\]/]+(?:\s*[-:.])?(?!\d+\s*(?:mm|cm|m\b|g\b|oz|\d|-|\)|$))\s*|"
    rf"\s*-+\s+)|\t\s*|[ ]{{2,}})",
    re.I,
)
# "Lap 4:", "Circle 4.": what machines make of a round, a label only where stitches follow
LAP_LABEL = re.compile(
    rf"(?P<kind>laps?|circles?|tours?|lines?|levels?|ranks?|series|steps?|turns?|"
    rf"rings?)\s*{_NUMBERS}{_ASIDE}(?P<stop>{_END})",
    re.I,
)
NEXT_LABEL = re.compile(
    r"(?P<what>next|foundation|last|final|set[ -]?up|base|beginning|starting)\s+(?:(?P<n>\d{1,3}|two|three|four|"
    r"five|six|seven|eight|nine|ten)\s+)?(?P<kind>rounds?|rnds?|rows?|rds?)\b(?P<aside>)(?P<stop>\s*[:.\-]+\s*)",
    re.I,
)
_NOT_BEFORE = re.compile(
    r"(?:\b(?:repeat|rep|reps|of|to|until|till|after|from|through|thru|as|between|and|in|for|work|works|working|"
    r"like|around|on|at|into|with|per|the|previous|last|every|each|before|by|since|end|than|see|&|than|first|next|"
    r"same|both|within|onto|when|while|during|finish|finishing|completing|complete|starting|over|across|plus|or|do|"
    r"did|make|joining|above|below|once|begin|beginning|follow|following|if|next to|near|past|"
    r"rounds?|rnds?|rows?|reaching|,)|[(\[,&\-])\s*$",
    re.I,
)


# The end of a body, though the word may also lead to a mention: "... sc around R5:"
_WORKED_BEFORE = re.compile(r"\b(?:around|across|end|each|over|same|both|work|once|twice)\s*$", re.I)


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


def kind_of(word: str | None) -> CourseKind | None:
    """ "rnd" -> round."""
    if not word:
        return None
    return "row" if word.lower().startswith(("row", "line")) else "round"


_MOST_COURSES = 9999


def numbers_of(text: str) -> list[int]:
    """ "3, 5-7 and 9" -> 3 5 6 7 9."""
    found: list[int] = []
    parts = re.findall(r"\d+|-+>|-|\.\.|to|thru|through|until|till|,|&|and|\+|/", text.lower())
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
            span = part[-1] == ">" or part in ("-", "..", "to", "thru", "through", "until", "till")
    return found


_LIST_THEN_BODY = re.compile(r"(?:,|&|and|\+|/|=)[^,&+/=]{0,24}?\d(?P<dash>\s*-\s*)\d{1,4}$", re.I)


def _label(text: str, match: re.Match[str]) -> Label | None:
    numbers_text = match["numbers"]
    numbers = numbers_of(numbers_text)
    if not numbers:
        return None
    stop = match["stop"]
    listed = None if stop else _LIST_THEN_BODY.search(numbers_text)
    if listed and (listed["dash"][:1] == " " or text[match.end("numbers") : match.end("numbers") + 1].isalpha()):
        # "Rnd 3,4,5 - 12 sc": a list, a dash, and a body that begins with a number
        cut = match.start("numbers") + listed.end("dash")
        numbers = numbers_of(numbers_text[: listed.start("dash")])
        spans = [(match.start("numbers"), match.start("numbers") + listed.start("dash"))]
        return Label(match.start(), cut, numbers, kind_of(match["kind"]), number_spans=spans)
    aside = match["aside"] or ""
    end = match.end()
    aside_at = match.start("aside") if aside else 0
    if aside and not stop and not re.fullmatch(r"\s*\d{1,4}\s*(?:sts?|stitches)\s*", aside):
        aside = ""
        end = match.start("aside") - 1
        while end > match.start() and text[end - 1] in " \t":
            end -= 1
    second = None
    dash = False
    at_end = text[match.end("numbers") : match.end("numbers") + 40].lstrip(" ")[:1] in ("\n", "")
    if len(re.findall(r"\d+", numbers_text)) == 2 and not stop and not at_end:
        inner = re.match(r"(\d+)\s*(?:-|,)\s*(\d+)$", numbers_text)
        if inner:
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
        [(match.start("numbers"), match.end("numbers"))],
    )


def at_line_start(text: str, at: int, end: int) -> Label | None:
    """The label that starts at `at`, in any style."""
    if text[at : at + 1] in "([" and at + 1 < end:
        inner = LABEL.match(text, at + 1, end)
        if inner and (inner["stop"] or "").strip()[:1] in (")", "]") and not inner["aside"]:
            return _label(text, inner)
    match = LABEL.match(text, at, end)
    if match:
        label = _label(text, match)
        if label is not None and label.end < match.end("numbers"):
            return label
        if (
            match["kind"].lower() == "r"
            and not match["stop"]
            and match.end("numbers") < end
            and text[match.end("numbers")] not in " (:.-)"
            and not (label is not None and label.dash and " - " in match["numbers"])
        ):
            return None
        return label
    match = ORDINAL_LABEL.match(text, at, end)
    if match:
        return _ordinal(match)
    match = WORD_LABEL.match(text, at, end)
    if match:
        return _in_words(match)
    match = COUNT_LABEL.match(text, at, end)
    if match:
        return _label(text, match)
    match = NEXT_LABEL.match(text, at, end)
    if match:
        n = match["n"]
        words = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10}
        how_many = (int(n) if n.isdecimal() else words[n.lower()]) if n else 1
        return Label(match.start(), match.end(), [], kind_of(match["kind"]), relative=min(how_many, 500))
    return None


def _roman(text: str) -> int:
    digits = [{"I": 1, "V": 5, "X": 10}[c] for c in text]
    return sum(-d if d < max(digits[i:]) else d for i, d in enumerate(digits))


def _in_words(match: re.Match[str]) -> Label:
    def value(text: str) -> int:
        if text.isupper():
            return _roman(text)
        return sum(TENS.get(w) or NUMBER_WORDS.get(w, 0) for w in re.split(r"[ -]", text.lower()))

    first = value(match["first"])
    numbers = [first]
    if match["last"]:
        last = value(match["last"])
        apart = match["join"].lower() in ("and", "&", ",")
        numbers = [first, last] if apart or last <= first else list(range(first, last + 1))
    aside_at = match.start("aside") if match["aside"] else 0
    return Label(match.start(), match.end(), numbers, kind_of(match["kind"]), match["aside"] or "", aside_at)


def _ordinal(match: re.Match[str]) -> Label:
    def value(text: str) -> int:
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
            if re.search(r"-|to|thru|through", match["join"]) and first < last <= first + _MOST_COURSES
            else [first, last]
        )
    return Label(
        match.start(),
        match.end(),
        numbers,
        kind_of(match["kind"]),
        match["aside"] or "",
        match.start("aside") if match["aside"] else 0,
        not match["kind"].lower().startswith("step"),
        bool(match["stop"]),
    )


# "6 - 8 sc": rounds 6 to 8, or round 6 with 8 sc? The next label tells.
_RANGE_OR_BODY = re.compile(r"\d{1,4}\s+-\s+(?P<second>\d{1,3})(?=\s+[a-z])", re.I)


def bare_number(text: str, at: int, end: int) -> Label | None:
    """ "4.", "9-13)", "(4)" at the start of a line: a label only where a course is expected."""
    match = NUMBER_LABEL.match(text, at, end)
    if not match:
        lap = LAP_LABEL.match(text, at, end)
        label = _label(text, lap) if lap else None
        if label is not None:
            label.explicit = False
        return label
    numbers = numbers_of(match["numbers"])
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
        match["aside"] or "",
        match.start("aside") if match["aside"] else 0,
        explicit=False,
    )


_GOES_ON = re.compile(
    r"\s*(?:\d|[(\[{*]|sc\b|dc|hdc|htr|tr\b|inc|dec|inv|ch\b|ch\d|chain|in\b|work|blo|flo|back|front|rep|mr\b|"
    r"magic|sl\b|ss\b|with\b|using|make|join|change|single|double|half|treble|as\b|same|turn|bobble|sk\b|skip|miss|"
    r"starting)",
    re.I,
)


def within(text: str, at: int, end: int) -> list[Label]:
    """Labels in the middle of a line: no word before them that leads to a mention, and a sign that they start something."""  # noqa: E501
    found: list[Label] = []
    matches = [(m, False) for m in LABEL.finditer(text, at, end)]
    if re.search(r"\d(?:st|nd|rd|th|\.)\s+(?:r|R)", text[at:end]):
        matches.extend((m, True) for m in ORDINAL_LABEL.finditer(text, at, end))
    if re.search(r"\d\s?(?:r|rnd|row|round)s?\s?:", text[at:end], re.I):
        matches.extend((m, False) for m in COUNT_LABEL.finditer(text, at, end) if ":" in m["stop"])
    matches.sort(key=lambda m: m[0].start())
    for match, is_ordinal in matches:
        if match.start() == at or (found and match.start() < found[-1].end):
            continue
        before = text[max(at, match.start() - 24) : match.start()]
        opened = before.rstrip()[-1:]
        if opened in "([" and (match["stop"] or "").strip()[:1] in (")", "]"):
            before = before.rstrip()[:-1]
        stop = match["stop"] or ""
        body = match.start("aside") - 1 if match["aside"] and not stop else match.end()
        if not stop and not _GOES_ON.match(text, body):
            continue
        listed = ":" in stop and before.rstrip()[-1:] in (",", "-") and match["kind"][-1:].lower() != "s"
        listed = listed or (":" in stop and bool(_WORKED_BEFORE.search(before)))
        if _NOT_BEFORE.search(before) and not before.rstrip().endswith(("),", "],")) and not listed:
            continue
        ended = before.rstrip()[-1:] in ".)]!;:*>}?_-/|" or re.search(
            r"\d\s*$|\bsts?\s*$|\bstitches\s*$|\s{3,}$|\),$|\],$", before.rstrip(" ") if before.rstrip() else before
        )
        goes_on = bool(_GOES_ON.match(text, body))
        if ":" in stop or (ended and (stop or goes_on)):
            label = _ordinal(match) if is_ordinal else _label(text, match)
            if label:
                if label.dash and not label.stopped and label.second is not None:
                    pass
                found.append(label)
    return found


FIRST_NUMBER = re.compile(r"(?:(?<=[.:!)\]])\s+|\s{2,})[(\[#]?(?P<n>1)(?P<stop>\s?[.):]\]?(?!\d)\s*|\s+-\s+)")
NUMBER_WITHIN = re.compile(
    r"(?:(?<=[)\].;!,])|(?<=\dst)|"
    r"(?<=sts))(?:\s*[/|*]{1,2})?\s+[(\[#]?(?P<numbers>\d{1,3}(?:\s*-\s*\d{1,3})?)(?P<stop>\s?[.):]\]?(?:\s*[-:])?|"
    r"\s+-)(?=\s+[a-z(\[*\d])",
    re.I,
)
