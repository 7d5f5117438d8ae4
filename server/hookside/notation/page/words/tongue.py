"""A text put into English word for word has "6 pb", "low points", "fM": where it tells what they are, they become ours.

They are told by its list ("pb = low point"), or by being nothing else: an amount of "low points" is no other stitch.
From memory, unverified: how such translations word the stitches (`bodies/tongues.py` has what lists say).
"""

from __future__ import annotations

import re
from bisect import bisect_right

from hookside.notation.askings.colournames import is_colour
from hookside.notation.bodies.tongues import NOUN, PHRASES, POSTS, key_of
from hookside.notation.lines.keys.definitions import definitions
from hookside.notation.lines.layout import MOST_LINES
from hookside.notation.page.edits import put
from hookside.notation.sought import Sought
from hookside.pattern import Terms
from hookside.stitches import by_name, named, plain_name

# Stitches that have one name in both languages, and those whose US name settles which language it is
_PLAIN = {
    "single crochet": "sc",
    "half double crochet": "hdc",
    "slip stitch": "sl st",
    "chain": "ch",
    "chain stitch": "ch",
    "increase": "inc",
    "decrease": "dec",
    "magic ring": "ring",
}
# ... and those that a bracket tells among other words: "(the double crochet of the Americans)"
_ENGLISH = {
    "half double crochet": "hdc",
    "double crochet": "dc",
    "single crochet": "sc",
    "slip stitch": "sl st",
}
_NAMED_IN = re.compile("|".join(_ENGLISH))
_ANY_PHRASE = re.compile(rf"\b(?:{'|'.join(phrase for _, phrase, _ in PHRASES[:3])})\b", re.I)
_LAST_NOUN = re.compile(rf"\b{NOUN}$")
_WORDS = {"ring": "magic ring"}
_BRITISH = _WORDS | {"sc": "dc", "hdc": "htr", "dc": "tr"}
# "lp: low point (double crochet)": only in UK terms is the lowest stitch called so
_LOWEST_IN_UK = re.compile(r"\b(?:double crochet|dc)\b", re.I)
# "p = points": what any stitch is called there
_ANY_STITCH = re.compile(rf"(?:an? |the )?(?!st|loop|knit|needle){NOUN}(?: of crochet)?")
_MOST_NAMES = 1_000  # of one text: a round with any other of its own is said not to be read
_LIST = re.compile(r"[=:]|\s-+\s|\(")
# "gr: growth, 2 low loops in one": what is made of those words is told there, and stays as it is
_MEANS = re.compile(r"[^\w\n]{0,4}[A-Za-z]{1,8} ?(?:=|:|-(?= ))[^=\n]{3,90}$")
_COURSE_LINE = re.compile(r"[^\w\n]{0,4}[rR](?i:ounds?|nds?|ows?|ds?|)\.? ?\d{1,4} ?[:.)-]")  # no list
_FIRST = re.compile(r"[^,;(]+")
_INSIDE = re.compile(r"\(=? ?([^()]+)")
_OURS = frozenset(["ch", "chs", "chain", "mc", "cc", "tch", "x", "a"])
# What stands before a stitch, wherever it is one: its amount, the beginning of its clause, "each", "the next"
# "number of eyes is the number of stitches", "2 short knitting in one eye": what Japanese calls a stitch
_EYES = re.compile(
    r"\b(?:stitch|(?:short )?knitting) (?:in|into) (?:one|each|every) eye\b|"
    r"\bnumber of eyes?\b|\b(?:in|de)crease eyes?\b", re.I
)
_LEADS = re.compile(
    r"(?:^|[\n\d(\[{,;:.*+x/=-]|\b(?:x|each|every|next|last|first|one|a|an|the|these|those|in|into|and|of|with|all|then|work|make|"
    r"crochet|knit|[a-z]+ing|[2-9](?:nd|rd|th)|second|third|same|other)) ?$",
    re.I,
)
# ... and what stands before one that is a single letter
_COUNTED = re.compile(r"(?:\d ?|\b(?:\d(?:nd|rd|th|st)|second|third|the|last|each|next|first|every|and) )$")
_COUNTS_IT = re.compile(r"(?<![\w.])(?:\d{1,3}|one|two|three|four|five|six) ?$")
_COUNTED_BEHIND = re.compile(r" \d{1,3}(?!\d| ?(?:mm|cm)\b)")  # "fine knit 6"
_NOUN_LEAD = re.compile(
    r"(?:\d|\b(?:each|every|next|last|first|one|same|the|all|of|two|three|four|\d(?:st|nd|rd|th))) ?$", re.I
)


# "X = short needle": a text out of the Chinese, which has "line" for yarn
_NEEDLES = Sought((" needle",), r"\b(?:short|long|increase|reduce|add|pull|braid|weaving) needle\b", re.I)
_LINE = re.compile(r"\b(?P<l>[Ll])ine(?P<s>s?)\b(?! \d)")

_VERBS = r"(?:fold|knit|crochet|fasten|cut|fill|stuff|sew|hide|leave|pull|insert|attach|collect|tie|turn|bend)"
# "To fold in half and to knit 3 sc through both edges.": an order, where nothing behind a comma tells what it is for
_INFINITIVE = Sought(
    ("to fold ", "to knit ", "to crochet ", "to fasten ", "to bend ", "to fill ", "to hide ", "to cut ", "to insert "),
    rf"(?P<lead>(?:^|(?<=[.;!] )|(?<=\d: ))[^\w\n]{{0,4}})To (?P<verb>{_VERBS}) (?=[^,.:;\n]{{3,80}}(?:[.;!(]|$))",
    re.I | re.M,
)
_AND_TO = Sought(("and to ",), r"\band(?P<to> to)(?= (?:knit|crochet|fold|bend) )", re.I)


def tongue(text: str, offsets: list[int] | None, terms: Terms | None = None) -> tuple[str, list[int] | None]:
    """The text with its own words for stitches as ours, wherever they stand as stitches do, and the way back."""
    if (ordered := list(_INFINITIVE.finditer(text))):
        edits = [(m.end("lead"), m.end("verb"), m["verb"].capitalize()) for m in ordered]
        edits += [(*m.span("to"), "") for m in _AND_TO.finditer(text)]
        text, offsets = put(text, offsets, edits)
    if _NEEDLES.search(text):
        text = _LINE.sub(lambda m: ("Y" if m["l"] == "L" else "y") + "arn" + m["s"], text)
    lists = _lists(text)
    ours = {name: key for line in lists.values() for name, key in line.items()}
    if sum(key == "ch" for key in ours.values()) > 1:
        ours.pop("c", None)
    spoken = _spoken(text)
    if not ours and not spoken:
        return text, offsets
    single = "sc" in (*ours.values(), *spoken.values()) or re.search(r"\b\d*sc\b|single crochet", text, re.I)
    told = {name: key for name, key in (ours | spoken).items() if key != "dc" or single}
    listed = " / ".join(_lines(text, lists))
    names = [*spoken, *_EYES.findall(text)[:1], *(m[0].lower() for m in _ANY_PHRASE.finditer(listed))]
    nouns = {match[0] for name in names if (match := _LAST_NOUN.search(name))} - {"loop", "loops"}
    if not told:
        return text, offsets
    british = terms == "UK" or (terms is None and _in_uk(text, lists))
    words = {name: (_BRITISH if british else _WORDS).get(key, key) for name, key in told.items()}
    return _put(text, offsets, lists, words, nouns)


def _lines(text: str, lists: dict[int, dict[str, str]]) -> list[str]:
    return [text[at : at + 300].split("\n", 1)[0] for at, told in lists.items() if told]


def _in_uk(text: str, lists: dict[int, dict[str, str]]) -> bool:
    """Does its list call the lowest stitch a double crochet?"""
    lines = _lines(text, {at: told for at, told in lists.items() if "sc" in told.values()})
    return any(_LOWEST_IN_UK.search(line) and not re.search(r"\bsingle\b|\bsc\b", line, re.I) for line in lines)


def _lists(text: str) -> dict[int, dict[str, str]]:
    """Where lines begin that tell what a name means, with the names and stitches they tell."""
    found: dict[int, dict[str, str]] = {}
    at = asked = names = 0
    for line in text.split("\n"):
        if asked > MOST_LINES or names > _MOST_NAMES:
            break
        if _MEANS.match(line):
            found[at] = {}
        if len(line) < 300 and _LIST.search(line) and ("=" in line or not _COURSE_LINE.match(line)):
            asked += 1
            told = {
                name.lower(): key
                for name, what in definitions(line)
                if _may_be(name) and (key := _meant(what)) is not None and (name.lower() != "st" or key == "dc")
            }
            if told:
                found[at] = told
                names += len(told)
        at += len(line) + 1
    return found


_SHORT_NAME = re.compile(r"[a-z]{1,6}")


def _may_be(name: str) -> bool:
    low = name.lower()
    if low in _OURS or is_colour(low) or not _SHORT_NAME.fullmatch(low):
        return False
    if len(low) == 1:
        return name.islower()  # capitals are the shorthand of charts
    return named(low, "US") is None and named(low, "UK") is None


def _meant(what: str) -> str | None:
    """The stitch that a list means: by its first words, by those in a bracket, or by what these are made equal to."""
    low = what.lower()
    for part in [*_INSIDE.findall(low), *_FIRST.findall(low)[:1], *low.split(" = ")]:
        plain = plain_name(part.strip(" .*"))
        key = _PLAIN.get(plain) or key_of(part)
        if key is not None:
            return key
        if _ANY_STITCH.fullmatch(plain):
            return "st"
    within = [m[0] for inside in _INSIDE.findall(low) for m in _NAMED_IN.finditer(inside)]
    return _ENGLISH[within[0]] if len(set(within)) == 1 else None


def _spoken(text: str) -> dict[str, str]:
    """Phrases that stand with amounts, again and again, and can only be stitches: "6 low points"."""
    low = text.lower()
    found: dict[str, str] = {}
    for key, phrase, least in PHRASES:
        if not any(word in low for word in least):
            continue
        names = [m for m in re.finditer(rf"(?<![a-z]){phrase}\b", low)]
        told = sum(_COUNTS_IT.search(low, max(0, m.start() - 7), m.start()) is not None for m in names)
        told += sum(_COUNTED_BEHIND.match(low, m.end()) is not None for m in names)
        # a "reduction" needs no second one, nor does a "connecting post"
        if told > (key not in ("inc", "dec") and least is not POSTS):
            found |= {m[0]: key for m in names}
    return {name: key for name, key in found.items() if plain_name(name) not in by_name("US")}


def _any_of(names: list[str]) -> str:
    """A pattern of any of some names, the longest first: put together by how they begin, as a list may have thousands
    of them, which are then not tried one by one at every word."""
    begun: dict[str, list[str]] = {}
    for name in names:
        begun.setdefault(name[:2], []).append(re.escape(name[2:]))
    return "|".join(f"{re.escape(lead)}(?:{'|'.join(rests)})" for lead, rests in begun.items())


def _put(
    text: str, offsets: list[int] | None, lists: dict[int, dict[str, str]], told: dict[str, str], nouns: set[str]
) -> tuple[str, list[int] | None]:
    names = sorted(told, key=len, reverse=True)
    stems = {n.removesuffix("es").removesuffix("s") for n in nouns}
    rule = re.compile(
        rf"(?<![A-Za-z])(?:(?P<name>{_any_of(names)})(?:s|'s)?"
        rf"{'|(?P<noun>' + '|'.join(map(re.escape, stems)) + ')(?:e?s)?' if stems else ''})(?![A-Za-z])",
        re.I,
    )
    first = sorted(lists)
    way = list(range(len(text))) if offsets is None else offsets
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for match in rule.finditer(text):
        start, end = match.span()
        line = bisect_right(first, start) - 1
        if line >= 0 and text.find("\n", first[line], start) < 0:
            continue  # in a list
        before = text[max(0, start - 12) : start]
        if match["name"]:
            word = told[match["name"].lower()]
            if text[start - 1 : start].isdigit() and match["name"].lower() == "st":
                continue  # "1st"
            lead = _COUNTED if len(match["name"]) == 1 else _LEADS
            if lead.search(before) is None and not (len(match["name"]) == 1 and re.match(r" ?\d", text[end : end + 2])):
                continue
        elif _NOUN_LEAD.search(before):
            word = "sts" if match[0].lower().endswith("s") else "st"
        else:
            continue
        parts.append(text[at:start] + word)
        back.extend(way[at:start])
        back.extend(way[min(start + i, end - 1)] for i in range(len(word)))
        at = end
    if not parts:
        return text, offsets
    parts.append(text[at:])
    back.extend(way[at:])
    whole = "".join(parts)
    return whole, back if len(whole) != len(text) or offsets is not None or back != way else None
