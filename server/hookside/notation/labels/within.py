"""Labels in the middle of a line, told from mentions of a course ("repeat round 6", "after round 4")."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import islice

from hookside.notation.labels.label import LIST_THEN_BODY, Label, in_words, label_of, numbers_of, ordinal, with_count
from hookside.notation.labels.patterns import COUNT_LABEL, COURSE, LABEL, ORDINAL_LABEL, WORD_LABEL
from hookside.notation.labels.references import LIKE_THEN, OF_EARLIER
from hookside.notation.vocabulary import NUMBER_WORDS, ORDINAL_WORDS, TENS

FIRST_NUMBER = re.compile(r"(?:(?<=[.:!)\]])\s+|\s{2,})[(\[#]?(?P<n>1)(?P<stop>\s?[.):]\]?(?!\d)\s*|\s+-\s+)")
NUMBER_WITHIN = re.compile(
    r"(?:(?<=[)\].;!,:])|(?<=\dst)|(?<=sts)|(?<=[a-z][a-z])(?=\s+\d{1,3}\)\s))(?:\s*[/|*]{1,2})?\s+[(\[#]?"
    r"(?P<numbers>\d{1,3}(?:[.):]?\s*(?:-|to|through|thru|and|&)\s*\d{1,3})?)(?P<stop>\s?[.):]\]?(?:\s*[-:])?|"
    r"\s+-)(?=\s+[a-z(\[*\d])",
    re.I,
)
_NOT_BEFORE = re.compile(
    r"(?:\b(?:repeat|rep|reps|of|to|until|till|after|from|through|thru|as|between|and|in|for|work|works|working|"
    r"like|around|all|on|at|into|with|per|the|previous|last|every|each|before|by|since|end|than|see|&|than|first|next|"
    r"same|both|within|onto|when|while|during|finish|finishing|finished|completed|reached|completing|complete|starting|over|across|plus|or|do|"
    r"did|make|joining|above|below|once|begin|beginning|follow|following|if|next to|near|past|"
    r"rounds?|rnds?|rows?|reaching|,)|[(\[,&\-])\s*$",
    re.I,
)


# The end of a body, though the word may also lead to a mention: "... sc around R5:"
_WORKED_BEFORE = re.compile(r"\b(?:around|across|end|each|over|same|both|work|once|twice)\s*$", re.I)
_GOES_ON = re.compile(
    r"\s*(?:\d|[(\[{*]|sc(?:\b|[23]tog)|dc|hdc|htr|tr\b|inc|dec|inv|plain\b|even\b|slip\b|slst\b|miss\b|ring\b|adjustable|sliding|ch\b|ch\d|chain|in\b|work|blo|flo|back|front|rep|mr(?![a-z])|"
    r"magic|sl\b|ss\b|with\b|using|make|join|change|single|double|half|treble|as\b|same|turn|bobble|sk\b|skip|miss|"
    r"starting)",
    re.I,
)


_SEVERAL = re.compile(r"(?P<n>\d{1,3})(?:\s*(?:-|to|thru|through)\s*(?:r|rd|rnd)?\.?\s?(?P<last>\d{1,3}))?", re.I)
_MOST_MISSING = 4
_SPELT = ("round", "row")  # whoever writes them out writes "rounds 3-4" as well, and "R3-4" for both


def _next_one(text: str, found: list[Label], match: re.Match[str], lead: re.Match[str] | None) -> bool:
    """ "R1 6 sc in MR, R2 sc around": behind a comma, and one more than the round it stands in."""
    first = _SEVERAL.fullmatch(match["numbers"])
    kind, several = match["kind"].lower(), first is not None and first["last"] is not None
    if first is None or (kind.endswith("s") and not several) or (kind in _SPELT and several):
        return False
    if first["last"] is not None and text[max(0, match.start() - 4) : match.start()].rstrip(" ")[-1:] != ",":
        return False  # "eyes between rnds 8 and 9"
    before = _number_before(text, match.start(), found, lead)
    comma = text[max(0, match.start() - 4) : match.start()].rstrip(" ")[-1:] == ","
    if comma and 0 < before < int(first["n"]) <= before + _MOST_MISSING and _STITCHES.match(text, match.end()):
        return True  # "R3 12, stuff, R5 6": the numbers of its part may leave one out
    return before == int(first["n"]) - 1


_NEAR = 400  # letters between a round's label and another label in its words
_RING = re.compile(r"\d{1,2} ?(?:sc|[hd]?dc|h?tr) in(?:to)? (?:an? |the )?(?:mr|mc|magic|ring|adjustable)\b", re.I)


def _rings(text: str, match: re.Match[str], body: int) -> bool:
    """ "Ball R1 6 sc in MR R2 ...": a first round, whatever stands before it."""
    return match["numbers"] == "1" and _RING.match(text, body) is not None


def _number_before(text: str, at: int, found: list[Label], lead: re.Match[str] | None = None) -> int:
    """The last number of the round in which `at` stands; 0 where none is told in its line."""
    label = _label_before(text, at, found, lead)
    return label.numbers[-1] if label is not None else 0


def _label_before(text: str, at: int, found: list[Label], lead: re.Match[str] | None) -> Label | None:
    """The label of the round in which `at` stands; `lead` is the one before it in its line that is found already."""
    inside = next((label for label in reversed(found) if label.start < at), None)
    if inside is not None:
        return inside
    if lead is None:  # it may stand where the words begin
        first = max(0, at - _NEAR)
        for told in LABEL.finditer(text, max(text.rfind("\n", first, at) + 1, first), at):
            lead = told
    elif lead.start() < at - _NEAR:
        return None  # not far off
    return label_of(text, lead) if lead is not None else None


_STITCHES = re.compile(
    r"\W{0,3}(?:\d|[(\[*{]|(?:sc|[hd]?dc|h?tr|inc|dec|sl|ss|ch|single|double|work|rep|as|same)\b)", re.I
)


_SPACED = re.compile(r"\d\s+-+\s*\d|\d\s*-+\s+\d")


def _of_the_range(text: str, found: list[Label], match: re.Match[str], lead: re.Match[str] | None) -> bool:
    """ "R4-9: sc (18), R6 in BLO": a round of the range in which it stands, and no stitches of its own behind it."""
    if _STITCHES.match(text, match.end()):
        return False
    label = _label_before(text, match.start(), found, lead)
    if label is None or len(label.numbers) < 2 or _SPACED.search(text, label.start, label.end):
        return False  # "Round 1 - 5X": no range
    return set(numbers_of(match["numbers"])) < set(label.numbers)


# "... 9. Round 3, sc in next 2 sc, ...": a sentence for each round, its number before the first comma
_COMMA = re.compile(r",\s+(?=[a-z\d(\[*])", re.I)
_DASHED = re.compile(r"^\d{1,4}\s+-+\s+(?P<body>\d{1,4})$")
_ADVERB = re.compile(r"\b(?:way|all|right|straight) round\s*$", re.I)  # "dc all the way round r5 ..."
_JOINS = re.compile(r"(?<!\d)(?<!\d ) and\s*$", re.I)  # "chain 31 and row 1: ...", but not "rows 4 and row 1:"
_NUMBER_BEHIND = re.compile(r"\.?\s*#?\d")
_FROM = re.compile(r"(?:^|[.!?)\]}>:])\s+From $")
_CHAINED_BEFORE = re.compile(
    r"\b(?:ch(?:ain)?s? ?\d{1,3}|\d{1,3} ch(?:ain)?s?)(?:[.,;]|(?:,? (?:and|then))+)\s*$", re.I
)
# "R18 ... (30); 19+20 sc around (30)": numbers of their own between two labels
_NUMBERS_ALONE = re.compile(
    r"(?<=[;.)])\s*;?\s+(?P<numbers>\d{1,3}\s?(?:-|\+|&|and|to)\s?\d{1,3})\s*[:.]?\s+"
    r"(?=(?:\d{1,3} )?(?:sc|[hd]?dc|h?tr)\b|in each|around|[(\[*])",
    re.I,
)


_KIND_BEFORE = re.compile(rf"\b{COURSE}\.?\s*(?:no\.|nr\.|number|#)?\s*$", re.I)
_LONGEST_KIND = 16


_TWO_NUMBERS = re.compile(r"\d\s?(?:[-+&]|[aA][nN][dD]|[tT][oO])\s?\d")


def _numbered(text: str, at: int, end: int, found: list[Label]) -> list[Label]:
    more: list[Label] = []
    if not _TWO_NUMBERS.search(text, at, end):
        return more
    for match in _NUMBERS_ALONE.finditer(text, at, end):
        numbers = numbers_of(match["numbers"])
        if _KIND_BEFORE.search(text, max(at, match.start("numbers") - _LONGEST_KIND), match.start("numbers")):
            continue  # "Round no. 1 - 6 sc"
        if len(numbers) > 1 and numbers[0] == _number_before(text, match.start(), found) + 1:
            more.append(Label(match.start("numbers"), match.end(), numbers, None))
    return more


_COUNTED_KIND = re.compile(r"\d\s?(?:r|rnd|row|round|rd)s?\s?(?:[:.)]|-+\s)", re.I)
_NTH = re.compile(rf"(?:\d(?:st|nd|rd|th|\.)|\b(?:{'|'.join(ORDINAL_WORDS)}))\s+r", re.I)
_BEFORE_R = re.compile(r"[tdhTDH.]\s+[rR]")  # what ends such a number, and the word behind it
_COURSE_WORD = re.compile(r"[rR](?<![^\W\d].)")  # every word for a course begins so, and no word goes into it
_IN_WORDS = re.compile(rf"\b{COURSE}\s+(?:{'|'.join([*NUMBER_WORDS, *TENS])})\b", re.I)


def _counted_kinds(text: str, at: int, end: int) -> list[re.Match[str]]:
    """ "2 rnd: ...", and "2 rnd. ...", "2 rnd - ..." where its neighbour is told so too; "Work 5 rounds." is none."""
    told = []
    for match in COUNT_LABEL.finditer(text, at, end):
        numbers = numbers_of(match["numbers"])
        many = match["kind"][-1:].lower() == "s"
        if ":" in match["stop"] or (match["stop"].lstrip()[:1] in (".", "-", ")") and many == (len(numbers) > 1)):
            told.append((match, numbers))
    listed = {n for _, numbers in told for n in numbers}
    return [m for m, ns in told if ":" in m["stop"] or {ns[0] - 1, ns[-1] + 1} & listed or _after_sentence(text, m)]


_AMOUNT = re.compile(r"(?:\d{1,3} ?|[(\[*]\d{0,2} ?)(?:sc|[hd]?dc|h?tr|inc|dec)\b", re.I)


def _after_sentence(text: str, match: re.Match[str]) -> bool:
    """ "We stuff. 13 row. 6 dec.": one round behind a sentence, and its stitches."""
    ended = text[max(0, match.start() - 2) : match.start()] == ". "
    return ended and match["kind"][-1:].lower() != "s" and _AMOUNT.match(text, match.end()) is not None


_NTH_BEFORE = re.compile(r"\d(?:st|nd|rd|th)\s*$", re.I)
_MOST_NUMBERS = 10_000  # of all labels in a line: twice the courses that are followed, so that it is said behind them
_ENDED = re.compile(r"\d\s*$|\bsts?\s*$|\bstitches\s*$|\s{3,}$|\),$|\],$")


def within(text: str, at: int, end: int) -> list[Label]:
    """Labels in the middle of a line: no word before them leads to a mention, and a sign says that they start."""
    found: list[Label] = []
    matches: list[tuple[re.Match[str], Callable[[str, re.Match[str]], Label | None]]] = []
    if not _COURSE_WORD.search(text, at, end):
        return _numbered(text, at, end, found)
    matches.extend((m, label_of) for m in islice(LABEL.finditer(text, at, end), _MOST_NUMBERS))
    if _BEFORE_R.search(text, at, end) and _NTH.search(text, at, end):
        matches.extend((m, ordinal) for m in ORDINAL_LABEL.finditer(text, at, end))
    counted = _COUNTED_KIND.search(text, at, end) is not None
    if counted:
        matches.extend((m, label_of) for m in _counted_kinds(text, at, end))
    if _IN_WORDS.search(text, at, end):
        matches.extend((m, in_words) for m in WORD_LABEL.finditer(text, at, end))
    if any(made is not label_of for _, made in matches) or counted:
        matches.sort(key=lambda m: m[0].start())
    first = at  # ... of the line's words
    while first < end and text[first] in " =":
        first += 1
    many = 0
    lead: re.Match[str] | None = None  # the label before: to look back from each would take the square of a line
    for i, (match, made) in enumerate(matches):
        numbered = made is label_of
        if i and matches[i - 1][1] is label_of:
            lead = matches[i - 1][0]
        if match.start() == at or (found and match.start() < found[-1].end):
            continue
        before = text[max(at, match.start() - 24) : match.start()]
        if match.start() <= first and OF_EARLIER.match(text, match.start(), end):
            continue  # "R7: R3 (18)"
        if numbered and "-" in text[match.end("kind") : match.start("numbers")] and _NTH_BEFORE.search(before):
            continue  # "as 2nd row - 3 dc remain"
        led = numbered and before.endswith(" From ") and "-" not in match["numbers"]
        led = led and _FROM.search(before) is not None
        before = before[:-5] if led else before  # "... (12) From Rnd 3 to Rnd 5: ..."
        if made is ordinal and match["first"].endswith(".") and _NUMBER_BEHIND.match(text, match.end("kind")):
            continue  # "... count: 6. Rnd 2. ..."
        opened = before.rstrip()[-1:]
        if opened in "([" and (match["stop"] or "").strip()[:1] in (")", "]"):
            before = before.rstrip()[:-1]
        stop = match["stop"] or ""
        body = match.start("aside") - 1 if match["aside"] and not stop else match.end()
        joined = numbered and not stop and "-" in match["numbers"]
        dashed = _DASHED.search(match["numbers"]) if joined else None
        if dashed is not None and match["kind"][-1:].lower() != "s":
            body = match.start("numbers") + dashed.start("body")  # "Rd 3 - 7 sc": a round and its work
        behind = LIST_THEN_BODY.search(match["numbers"]) if joined and dashed is None else None
        if behind is not None:
            body = match.start("numbers") + behind.end("dash")
        comma = _COMMA.match(text, body) if numbered and not stop and text[body : body + 1] == "," else None
        body = comma.end() if comma is not None else body
        goes_on = _GOES_ON.match(text, body) is not None
        if not stop and not goes_on:
            continue
        if numbered and _of_the_range(text, found, match, lead):
            continue
        if before.rstrip()[-1:] == "," and ":" not in stop and not text[body:end].strip():
            continue  # "Mouth: red thread, R8."
        listed = ":" in stop and before.rstrip()[-1:] in (",", "-") and match["kind"][-1:].lower() != "s"
        listed = listed or (":" in stop and bool(_WORKED_BEFORE.search(before)))
        listed = listed or (numbered and before.rstrip()[-1:] == "," and _next_one(text, found, match, lead))
        listed = listed or (numbered and bool(_ADVERB.search(before)) and _next_one(text, found, match, lead))
        listed = listed or (numbered and match["numbers"] == "1" and bool(_CHAINED_BEFORE.search(before)))
        listed = listed or (numbered and match["numbers"] == "1" and before.endswith("  "))  # parted by a wide space
        listed = listed or (numbered and match["numbers"] == "1" and ":" in stop and bool(_JOINS.search(before)))
        listed = listed or (not found and goes_on and LIKE_THEN.fullmatch(text, at, match.start()) is not None)
        last = before.rstrip()[-1:]
        mentioned = (last.isalpha() or last in "([,&-") and _NOT_BEFORE.search(before) is not None
        if mentioned and not before.rstrip().endswith(("),", "],", "--")) and not listed:
            continue
        ended = before.rstrip()[-1:] in ".)]!;:*>}?_-/|" or _ENDED.search(
            before.rstrip(" ") if before.rstrip() else before
        )
        starts = bool(ended) or (numbered and (_rings(text, match, body) or _next_one(text, found, match, lead)))
        if ":" in stop or (starts and (stop or goes_on)) or (listed and goes_on):
            label = with_count(text, made(text, match), end)
            if label:
                label.start -= 5 if led else 0
                found.append(label)
                many += len(label.numbers)
                if many > _MOST_NUMBERS:
                    break  # none of those behind would be followed
    return sorted([*found, *_numbered(text, at, end, found)], key=lambda label: label.start)
