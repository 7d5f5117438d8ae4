"""US or UK: the clues, weighed, and the sentence that says why."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import cast

from hookside.notation.sought import Sought
from hookside.pattern import Terms

_AMERICAN = r"us|u\.s\.?|usa|american|united states"
_ONE_OF_THEM = "(?:single|double|half|treble|triple|slip)"  # "dc is the US single crochet" names one stitch
_SAYS = Sought(
    r"[uUaAbBeE](?i:(?<=u)(?:sa?|k|\.[sk]|nited states)\b|merican|ritish|nglish)",
    rf"\b(?P<us>{_AMERICAN})\b(?! {_ONE_OF_THEM})[^.\n]{{0,30}}"
    r"\b(?:terms?|terminology|abbreviations|crochet|notation|names)\b|"
    rf"\b(?P<uk>uk|u\.k\.?|british|english(?![^.\n]{{0,24}}\b(?:{_AMERICAN})\b))\b(?! {_ONE_OF_THEM})[^.\n]{{0,30}}"
    r"\b(?:terms?|terminology|abbreviations|crochet|notation|names)\b|"
    r"\b(?:terms?|terminology)\b\s*(?:used)?\s*(?:are|is|:|=|-|in)?\s*(?:standard )?"
    r"(?:(?P<us2>us|usa|american|united states)|(?P<uk2>uk|british))\b",
    re.I,
)
_CONVERT = re.compile(r"\b(?:us|uk)\b[^\n]{0,20}\b(?:=|equivalent|in brackets|conversion)", re.I)

# (points, for which terms, what is looked for, how it is said, words of which it has one)
_CLUES: list[tuple[int, Terms, re.Pattern[str], str, tuple[str, ...]]] = [
    (weight, terms, re.compile(pattern, re.I | re.M), said, words)
    for weight, terms, pattern, said, words in cast(
        list[tuple[int, Terms, str, str, tuple[str, ...]]],
        [
            (
                6,
                "US",
                r"\b\d*sc\d*(?:tog)?\b|\bsingle crochets?\b|(?<![a-z])sc(?=\d|\b)",
                'it works "sc"',
                ("sc", "single"),
            ),
            (6, "US", r"(?<![a-z])hdc|\bhalf[ -]double", 'it works "hdc"', ("hdc", "half")),
            (3, "US", r"(?<![a-z])(?:esc|fsc)\b", "it names a US stitch", ("esc", "fsc")),
            (
                7,
                "UK",
                r"(?<![a-z])htr|\bhalf[ -]trebles?\b|quadtr",
                'it works "htr" or half treble',
                ("htr", "half", "quadtr"),
            ),
            (
                4,
                "UK",
                r"\bmiss\s+(?:the\s+|next\s+|\d|one\b|first\b)",
                'it says "miss" for a stitch passed over',
                ("miss",),
            ),
            (2, "US", r"\b(?:skip|sk)\s+(?:the\s+|next\s+|\d|one\b|first\b)", 'it says "skip"', ("sk",)),
            (3, "UK", r"^[^\w\n]{0,12}tension\b[^\n]{0,60}\d", "it gives a tension", ("tension",)),
            (2, "US", r"^[^\w\n]{0,12}gauge\b", "it gives a gauge", ("gauge",)),
            (4, "UK", r"\byrh\b|\byarn (?:a)?round hook\b", 'it says "yarn round hook"', ("yrh", "round hook")),
            (2, "US", r"\byo\b|\byarn over\b", 'it says "yarn over"', ("yo", "yarn over")),
            (2, "UK", r"(?<![a-z])ss\b", 'it writes "ss"', ("ss",)),
            (
                1,
                "UK",
                r"\bcolour|\bgrey\b|\bcentre\b|\bDK\b|\bdouble knitting\b|\b4[ -]ply\b",
                "its spelling is British",
                ("colour", "grey", "centre", "dk", "knitting", "ply"),
            ),
            (1, "US", r"\bcolor|\bgray\b|\bworsted\b|\b[B-K][-/ ]\d\b", "its spelling is American", ()),
            (
                5,
                "UK",
                r"\bdc in (?:the )?(?:2nd|second) ch(?:ain)?s? from",
                "its dc starts in the 2nd chain from the hook",
                ("dc in",),
            ),
            (
                5,
                "US",
                r"\bdc in (?:the )?(?:4th|fourth) ch(?:ain)?s? from",
                "its dc starts in the 4th chain from the hook",
                ("dc in",),
            ),
            (
                4,
                "UK",
                r"\b(?:ch ?1\b|1 ?ch\b)[^\n]{0,40}\bdc in(?:to)? each",
                "its dc rows start with one chain",
                ("dc in each", "dc into each"),
            ),
            (
                4,
                "UK",
                r"\b(?:ch ?3|3 ?ch)\b(?:[^\n]{0,40}\btr in|[^\n.]{0,40}\bcounts as (?:the |a |1 |first )*tr)",
                "its tr rows start with three chains",
                ("tr",),
            ),
            (
                2,
                "US",
                r"(?:^|[:.)] ?|\bturn,? (?:and )?)(?:ch ?2|2 ?ch)\b[^\n.;:(]{0,40}?(?<![a-z])\d{0,3} ?dc\b",
                "its dc courses rise by two chains",
                ("ch 2", "ch2", "2ch", "2 ch"),
            ),
            (
                4,
                "US",
                r"\b(?:ch ?3|3 ?ch)\b(?:[^\n]{0,40}\bdc in|[^\n.]{0,40}\bcounts as (?:the |a |1 |first )*dc)",
                "its dc rows start with three chains",
                ("dc",),
            ),
        ],
    )
]
_UK_DC = Sought(
    ("dc", "double crochet"), r"(?<![a-z\d])(?:\d{1,4}\s{0,3})?dc(?:\d{1,4})?(?![a-z])|\bdouble crochets?\b", re.I
)
_ROUND_DC = re.compile(
    r"(?<![a-z])\d*\s*(?:dc|double crochets?)\b[^\n.]{0,20}\b(?:into|in|to)\s+(?:a |the |an )?(?:magic|mr|ring|"
    r"adjustable)|(?:magic|adjustable) (?:ring|circle|loop)\W{0,4}\d+ ?dc|\b\d+ ?dc (?:in|into) (?:2nd|second) ch",
    re.I,
)
# Three chains stand for a stitch that is as high, and so for no UK dc
_TALL_DC = re.compile(
    r"\bch(?:ain)?[ -]?3\b[^\n.;:]{0,30}?(?<![a-z])\d{0,3} ?dc\b(?! ?(?:in|into) (?:each|every) ch)", re.I
)
# A round or row that rises by two chains, told at its start or its end
_TWO_CHAINS = re.compile(
    r"(?:^|[:.)] ?|\bturn,? (?:and )?|\bjoin,? )(?:ch(?:ain)? ?2|2 ?ch)\b[^\n.;:(]{0,40}?(?<![a-z])\d{0,3} ?dc\b",
    re.I | re.M,
)
_TALLER = re.compile(r"(?<![a-z])d?tr\d?(?![a-z])|\btrebles?\b", re.I)
_DC2TOG = re.compile(r"(?<![a-z])dc2tog", re.I)


# "d.c.", "h.t.r.": as older leaflets print them
_DOTTED = Sought(
    ("d.c", "s.c", "h.t", "h.d", "d.t", "s.s"),
    r"(?<![A-Za-z.])(?:d\.c|s\.c|h\.t\.r|h\.tr|h\.d\.c|d\.tr|s\.s)\.",
)


@dataclass(slots=True)
class Decision:
    terms: Terms
    because: str
    certain: bool


def decide(text: str) -> Decision:
    """The terms a text is written in. Not certain: the best guess, to be asked."""
    text = _DOTTED.sub(lambda m: m[0].replace(".", "").rjust(len(m[0])), text)
    us_said = uk_said = 0
    for match in _SAYS.finditer(text):
        if match["us"] or match["us2"]:
            us_said += 1
        else:
            uk_said += 1
    if us_said and not uk_said:
        return Decision("US", "The text says that it uses US terms.", True)
    if uk_said and not us_said:
        return Decision("UK", "The text says that it uses UK terms.", True)
    points: dict[Terms, int] = {"US": 0, "UK": 0}
    said: dict[Terms, list[tuple[int, str]]] = {"US": [], "UK": []}
    low = text.lower()
    for weight, terms, clue, words, one_of in _CLUES:
        if (not one_of or any(word in low for word in one_of)) and clue.search(text):
            points[terms] += weight
            said[terms].append((weight, words))
    has_sc = any(w == 'it works "sc"' for _, w in said["US"])
    dcs = _UK_DC.count(text)
    if not has_sc and dcs and not _TALL_DC.search(text):
        if _ROUND_DC.search(text):
            weight = 2 if _TWO_CHAINS.search(text) else 6  # a UK dc rises by one chain
            points["UK"] += weight
            said["UK"].append((weight, 'its rounds start with "dc" in a ring, and "sc" never occurs'))
        elif dcs >= 3 and not any(w == 'it works "hdc"' for _, w in said["US"]) and not _TALLER.search(text):
            points["UK"] += 3
            said["UK"].append((3, 'nearly every stitch is "dc" and "sc" never occurs'))
        if _DC2TOG.search(text):
            points["UK"] += 1
    if points["US"] == points["UK"]:
        if points["US"] == 0:
            neutral = not dcs and not _TALLER.search(text)
            if neutral:
                return Decision("US", "No stitch in it has two names, so the terms make no difference.", True)
        return Decision("US", "Nothing in the text tells US from UK terms; US is the more common.", False)
    best: Terms = "US" if points["US"] > points["UK"] else "UK"
    reasons = [words for _, words in sorted(said[best], key=lambda r: -r[0])[:2]]
    sentence = (" and ".join(reasons) or "that fits best") + "."
    certain = abs(points["US"] - points["UK"]) >= 3
    return Decision(best, sentence[0].upper() + sentence[1:], certain)
