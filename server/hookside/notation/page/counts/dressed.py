"""Printed counts in a dress of the text's own: `6`, // 12, #18, Sum 24. It is learnt from the text itself.

A text that ends its rounds in a number between the same signs, or behind the same word, prints its counts so, where the
numbers go as counts do: up behind rounds that increase, down behind those that decrease, and stay behind plain ones.
They become "(6)", which every later stage knows.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, pairwise

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.inwords import WORD, value
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import NUMBER_WORDS, TENS
from hookside.pattern import Terms
from hookside.stitches import named

_FEWEST = 4  # rounds that must bear a dress out
_STILL = 6  # ... where none of them shapes
_END = 28  # letters at the end of a round among which its count stands
_NEAR = 24  # ... and at the very end, where its digits do
_MOST = 5000  # rounds that are asked
_NOUN = r"(?: ?(?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr)\b\.?)?"
_SIGNS = r"[^\w\s()\[\]{}<>,+]"
# "Rnds 4-10. SC around. OUT 12 each": what a count of several rounds says of them
_EACH = (
    r"(?: ?\(?(?:both|(?:(?:for|in|on|at|after) )?(?:each|every|all|per)"
    r"(?: (?:time|one|rnd|round|row|of them|of these|rnds|rounds|rows))?)\.?\)?)"
)
_DRESS = re.compile(
    rf"(?:(?<=[\w)\]}}*.!])|(?<=\s))(?P<open>{_SIGNS}{{1,3}}|<|(?<=\s)[^\W\d_]{{1,12}} ?[.:=]{{0,2}})"
    rf" ?(?P<n>\d{{1,4}})(?P<noun>{_NOUN})"
    rf" ?(?P<close>>|{_SIGNS}{{0,3}}){_EACH}?[\s.;,]*$"
)
# The end of one, behind which nothing but stops and blanks is left
_ENDS_DRESSED = re.compile(rf"\d{_NOUN} ?(?:>|{_SIGNS}{{0,3}}){_EACH}?$")
# "[N = 24]", "(n: 24)", "{S 24}", "(# = 24)": a letter or a sign of the text's own before it, in a bracket
_IN_BRACKET = re.compile(
    r"(?P<open>[(\[{<] ?(?P<word>[^\W\d_]{1,8}|[#\u03a3\u2211]) ?[=:]?) ?(?P<n>\d{1,4}) ?(?P<close>[)\]}>])[\s.;,]*$"
)
# "(2 sc, inc) 3  12": nothing but blanks before it
_GAP = Sought(
    rf"  \d{{1,4}}(?i:{_NOUN})[ .]*\n|  \d{{1,4}}(?i:{_NOUN})[ .]*\Z",
    rf"^(?P<body>[^\w\n]{{0,6}}(?:{COURSE}s?\.?[ ]?#?)?\d{{1,3}}[^\n]{{0,300}}?"
    rf"(?P<last>[^\W\d_]{{0,20}}|\d{{1,3}}|[)\]}}*.!])"
    rf"(?P<told>[ ]{{2,20}}(?P<n>\d{{1,4}}){_NOUN}))[ .]*$",
    re.I | re.M,
)
_ALL_OF_THEM = re.compile(rf"\d{_EACH}$")
# What is read wherever it stands, or means something else before a number
_KNOWN = frozenset(["=", "<", "-", "--", ":", "~", ".", "*", "/", "|", "->", "=>", "!", "?", ";", "&", "%", "$"])
_OTHER = frozenset(
    [
        "x", "times", "time", "of", "in", "into", "next", "last", "first", "around", "across", "and", "then",
        "for", "by", "round", "rounds", "rnd", "rnds", "row", "rows", "r", "rd", "step", "at", "on", "over", "the",
        "about", "page", "photo", "fig", "no", "nr", "each", "every", "with", "until", "another", "work", "make",
        "chain", "repeat", "rep", "total", "count", "are", "has", "or", "between", "plus", "size",
        "after", "before", "from", "end",
    ]
)  # fmt: skip
# "2 in each to 12", "..., have 30.", "no change, is 24": counts of who says no more; what stands before them is often
# the last word of the round
_VERBS = frozenset(["to", "is", "have"])
_HANDS = frozenset(["you", "us", "me"])
# "..., is 18. Stuff with rags.", "around to 12, top off the filling"
_VERB_WITHIN = Sought(
    tuple(f"{verb} {figure}" for verb in ("is", "have", "to") for figure in range(10)),
    r"(?P<open>(?<=[.;,)] )(?:is|have)|(?<=[a-z*)] )to) (?P<n>\d{1,4})(?=[.;,] )",
)
# "Rnd 2--{2 sc in next sc} 8 times, 16 sc. Ch 1, turn.": behind a comma, at the end of the first sentence
_COMMA = re.compile(r"(?P<open>,)\s(?P<n>\d{1,4})(?:\s(?P<noun>sc|[hd]?dc|h?tr))?(?=\.(?:\s(?!\s*[(\[=]|\d)|$))")
_LABELLED = re.compile(rf"(?:^[^\w\n]{{0,6}}|(?<=[.)\],] )){COURSE}\.? ?#?\d", re.I | re.M)  # or in a paragraph
_PARAGRAPH = re.compile(r"\n[ \t]*\n")
_LONGEST = 400  # letters of a round that may hold such a count
_ROUND = re.compile(r"[\nrR](?:(?<=\n)|(?<!\w.)(?i:ounds?|nds?|ns?|ows?|ws?|ds?|)\.? ?#?\d)")
_DIGIT = re.compile(r"\d")
_NUMBERS = re.compile(r"\d+")
_WORKED = re.compile(r"[^\W\d_].*\d|\d.*[^\W\d_]", re.S)
_GROWS = re.compile(r"\binc|\d ?inc|\b(?:[23]|two|three) (?:(?:sc|dc|sts?) )?in\b|\baug|\bdoubl|(?-i:\b\d*V\b)", re.I)
_SHRINKS = re.compile(r"\binv|\bdec|\d ?dec|tog\b|together\b|\bskip|(?-i:\b\d*A\b)", re.I)
_FIRST = re.compile(rf"\W*{COURSE}\.? ?#?1(?!\d)", re.I)
_BEGINS = re.compile(r"\bring\b|\bmr\b|\bmc\b|\bmagic|\bcircle\b|\bch(?:ain)?\b", re.I)
_SAYS = re.compile(r"\b(?:which|that|this|it|you)(?: should| now| will)? $", re.I)
# "..., that gives you 18": all of it says what comes
_GIVES = re.compile(
    r"(?:,? ?\b(?:and |so )?(?:which|that|this|it)(?:'ll| should| now| will)? )?"
    r"\b(?:gives?|makes?|leaves?|gets?|brings?|takes?|lands?|puts?) $",
    re.I,
)
# ... and before such a verb: "you'll have 30", "down to 12", "6 to 8"
_SAYS_VERB = re.compile(
    r"\b(?:which|that|this|it|you|we|i|they|there|count|number|brings?|up|down|back|end|from|rem|\d{1,4}|"
    r"(?:next|in|first|last)(?: \d{1,3})?(?: sts?)?)"
    r"(?:'ll|'ve)?(?: should| now| will| must| do| still| may)*,? $",
    re.I,
)
# "same as the top {26 after the third one}": the count of the last round of those that are told
_AFTER_LAST = re.compile(
    r"(?P<like>\b(?:same as|like|as for|as the)\b[^\n()\[\]{}]{2,40})"
    r"[(\[{](?P<n>\d{1,4})(?: (?:sts?|stitches|sc|dc))? (?:after|at) the (?:last|final|end|second|third|fourth|"
    r"fifth|sixth|seventh|eighth|ninth|tenth|\d{1,2}(?:nd|rd|th))(?: (?:one|round|row|rnd)| of (?:them|these))?[)\]}]"
)
# "... all the way, eighteen again. Stop here": what it comes to, and no stitches more
_NUMBERS_IN_WORDS = (*NUMBER_WORDS, *TENS)
_IN_WORD = re.compile(
    r"(?P<round>\b(?:all the way|a?round|to the end|times|together))"
    rf"(?P<told>, (?P<n>{WORD})(?: (?:again|still))?)(?=[.;](?:\s|$))",
    re.I,
)
# "take two together all round. Six. Break the yarn": a sentence that is nothing but a number
_IN_A_SENTENCE = re.compile(
    rf"(?<=[a-z\d)])[.!;] (?P<n>{WORD})(?: (?:again|now|left|altogether|in all|in total|stitches|sts))*"
    r"(?=[.!](?:\s|$))",
    re.I,
)
# "2 in each. 12 + 12 = 24!": how it comes to that
_SUM = re.compile(
    r"(?<=[.;!)] )(?P<sum>(?P<a>\d{1,4}) ?(?P<sign>[+-]) ?(?P<b>\d{1,4}) ?)(?== ?(?P<n>\d{1,4})[.! ]*$)", re.M
)
# "[2 sc, inc], 8 times. s(4) = 32.", "inc x6; N3 = 18", "12 sc. s = 12": a number by its letter, as in mathematics
_BY_LETTER = re.compile(
    r"(?:(?<=[.;:!)] )|(?<=-> )|(?<=, )(?=[A-Za-z][_(\[]))"
    r"(?:(?P<letter>(?![xX])[A-Za-z])(?:_\d{1,3}|[(\[]\d{1,3}[)\]])?|(?P<indexed>[cCnNsS])\d{1,3}) ?"
    r"(?== ?\d{1,4}(?: ?(?:sts?|stitches))?[.,;!]*[ ]*$)",
    re.M,
)
_BOTH: tuple[Terms, Terms] = ("US", "UK")


@dataclass(frozen=True, slots=True)
class _Told:
    """A round that ends in a number: its dress, the number, what is worked before it; where the whole of it stands."""

    dress: tuple[str, str]
    n: int
    body: str
    start: int
    end: int
    counts: bool = False  # it says what it counts: "//40 hdc"


def _rounds(text: str) -> Iterator[tuple[int, int]]:
    """Stretches of a text of which each may be a round: lines, and what stands between two labels in a line."""
    at = 0
    for match in _ROUND.finditer(text):
        if match.start() > at:
            yield at, match.start()
        at = match.start() + (match[0] == "\n")
    yield at, len(text)


def _told(text: str) -> list[_Told]:
    found = []
    by_verb = _VERB_WITHIN.search(text) is not None
    for start, end in _rounds(text):
        last = text[max(start, end - _END) : end].rstrip(" \t.;,")
        match = None
        if last and _DIGIT.search(last, max(0, len(last) - _NEAR)):  # asked first, as it is cheap
            rule = _IN_BRACKET if last[-1] in "]}" or (last[-1] == ")" and not _ALL_OF_THEM.search(last)) else _DRESS
            bare = last[-1] == ")" and last[last.rfind("(") + 1 : -1].isdecimal()  # as others print it
            none = bare if rule is _IN_BRACKET else _ENDS_DRESSED.search(last) is None
            match = None if none else rule.search(text, max(start, end - _END), end)
            if match is not None and rule is _IN_BRACKET and match["word"].lower() in _OTHER:
                continue
        if match is None:
            within = _VERB_WITHIN.search(text, start, end) if by_verb and end - start < _LONGEST else None
            if within is not None and _WORKED.search(body := text[start : within.start()]):
                found.append(_Told((within["open"], ""), int(within["n"]), body, within.start(), within.end("n")))
            continue
        dress = match["open"].rstrip(), match["close"].rstrip(".;,")
        word = dress[0].rstrip(".:= ").lower()
        before = text[max(start, match.start() - 3) : match.start()].rstrip()
        if dress[0][-1] == "." and dress[0].islower() and before[-1:].isalnum():
            continue  # "rep from * to end. 9 dc.": where its sentence ends
        if dress[0] in _KNOWN and not dress[1]:
            continue
        lettered = len(word) < 2 and dress[0][-1] not in ".:="
        if word.isalpha() and (word in _OTHER or lettered or any(named(word, terms) for terms in _BOTH)):
            continue
        body = text[start : match.start()]
        gives = _GIVES.search(body) if word in _HANDS else None
        body = body[: gives.start()] if gives is not None else body
        if (_SAYS_VERB if word in _VERBS else _SAYS).search(body):
            continue  # ", which gives 18 stitches"
        if _WORKED.search(body):
            noun = match.end("n") if rule is _IN_BRACKET else match.end("noun")
            past = match.end("close") if match["close"] else noun
            counts = not word.isalpha() and text[match.end("n") : match.end("n") + 2].strip()[:1].isalpha()
            leads = body.rstrip(" .") if dress[0] == "..." else body  # "inc each ......... 12"
            found.append(_Told(dress, int(match["n"]), leads, start + len(leads), past, counts))
            if len(found) == _MOST:
                break
    return found


def _told_behind_comma(text: str) -> list[_Told]:
    """Rounds that end in a comma and a count, over as many lines as they take."""
    found: list[_Told] = []
    if _COMMA.search(text) is None:
        return found
    starts = [m.start() for m in _LABELLED.finditer(text)][:_MOST]
    for start, after in pairwise([*starts, len(text)]):
        blank = _PARAGRAPH.search(text, start, min(after, start + _LONGEST))
        end = min(after, start + _LONGEST, blank.start() if blank else after)
        match = _COMMA.search(text, start, end)
        if match is not None:
            body = text[start : match.start()]
            found.append(_Told((match["noun"] or "", ""), int(match["n"]), body, match.start(), match.end()))
    return found


def _verdicts(told: list[_Told]) -> Iterator[tuple[_Told, int, int, int]]:
    """Each with whether its number goes as counts go from the one before: (fits, is off, has moved)."""
    before = 0
    for one in told:
        fits = off = moved = 0
        grows, shrinks = _GROWS.search(one.body) is not None, _SHRINKS.search(one.body) is not None
        begins = _BEGINS.search(one.body) is not None and not grows and not shrinks
        begins = begins or (not shrinks and _FIRST.match(one.body) is not None)
        if not before or (begins and one.n != before):
            fits += str(one.n) in _NUMBERS.findall(one.body)
        elif grows != shrinks:
            right = before < one.n <= 3 * before if grows else before // 3 <= one.n < before
            fits, off, moved = fits + right, off + (not right), moved + right
        elif not grows:
            fits, off = fits + (one.n == before), off + (one.n != before)
        before = one.n
        yield one, int(fits), int(off), int(moved)


def _borne_out(told: list[_Told]) -> bool:
    """Do the numbers go as counts go?"""
    fits, off, moved = (sum(column) for column in list(zip(*_verdicts(told), strict=True))[1:])
    still = not off and fits >= _STILL and all(one.counts for one in told)
    short = moved == 1 and not off and fits == len(told)  # a tube of few rounds shapes once
    return fits >= _FEWEST and (moved > 1 or still or short) and fits >= 4 * off


def _behind_commas(text: str) -> list[tuple[int, int, int]]:
    """Counts that stand behind a comma as the next group would, "8 sc in ring, 8 sc.", where most of them bear it out.

    One that does not go as counts go may be a group all the same, and stays what it is.
    """
    spans: list[tuple[int, int, int]] = []
    for _, alike in groupby(sorted(_told_behind_comma(text), key=lambda t: (t.dress, t.start)), lambda t: t.dress):
        ones = list(alike)
        if len(ones) >= _FEWEST and _borne_out(ones):
            spans.extend((one.start, one.end, one.n) for one, fits, _, _ in _verdicts(ones) if fits)
    return spans


def _behind_gaps(text: str) -> list[tuple[int, int, int]]:
    """Counts at the ends of lines with nothing but a gap before them, whatever stands before that."""
    rows = [m for m in _GAP.finditer(text) if _WORKED.search(m["body"], 0, m.start("told") - m.start())]
    if len(rows) < _FEWEST or len({m["last"].lower() for m in rows}) < 2:  # "OUT  18": always the same word
        return []
    ones = [_Told(("", ""), int(m["n"]), text[m.start() : m.start("told")], *m.span("told")) for m in rows[:_MOST]]
    return [(one.start, one.end, one.n) for one in ones] if _borne_out(ones) else []


def undressed(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The text with its own dress of counts as brackets, and the way back."""
    told = _told(text)
    spans = _behind_commas(text) + (_behind_gaps(text) if "  " in text else [])
    if len(told) < _FEWEST and not spans:
        return text, offsets
    for dress, alike in groupby(sorted(told, key=lambda t: (t.dress, t.start)), lambda t: t.dress):
        ones = list(alike)
        if len(ones) < _FEWEST or not _borne_out(ones):
            continue
        spans.extend((one.start, one.end, one.n) for one in ones)
        if len(dress[0]) > 1 and not dress[1] and not dress[0].isalpha():  # "//40, chains included"
            rule = re.compile(rf"{re.escape(dress[0])} ?(\d{{1,4}}){_NOUN}(?=\s*[,;.(]|\s*$)", re.M)
            known = {one.start for one in ones}
            spans.extend((*m.span(), int(m[1])) for m in rule.finditer(text) if m.start() not in known)
        elif dress[0][0].isalpha() and not dress[1]:  # "OUT 18. Change to red."
            behind = r"[\w.;,)*]" if dress[0].lower() in _VERBS else "[.;,)]"
            rule = re.compile(rf"(?<={behind} ){re.escape(dress[0])} ?(\d{{1,4}}){_NOUN}(?=[.;,])")
            known = {one.start for one in ones}
            spans.extend((*m.span(), int(m[1])) for m in rule.finditer(text) if m.start() not in known)
        if dress[1]:  # signs on both sides: a count wherever it stands
            rule = re.compile(rf"{re.escape(dress[0])} ?(\d{{1,4}}){_NOUN} ?{re.escape(dress[1])}")
            known = {one.start for one in ones}
            spans.extend((*m.span(), int(m[1])) for m in rule.finditer(text) if m.start() not in known)
    if not spans:
        return text, offsets
    way = list(range(len(text))) if offsets is None else offsets
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for start, end, n in sorted(spans):
        if start < at:
            continue
        digits = text.index(str(n), start)
        word = f" ({n})"
        parts.append(text[at:start] + word)
        back.extend(way[at:start])
        back.extend([way[start], way[start], *way[digits : digits + len(str(n))], way[end - 1]])
        at = end
    parts.append(text[at:])
    back.extend(way[at:])
    return "".join(parts), back


def plainly(text: str) -> str:
    """Counts that say after which round or of what sum they are, or stand in a word, as others; the length stays."""
    if " the " in text and (" after " in text or " at " in text):
        text = _AFTER_LAST.sub(lambda m: f"{m['like']}({m['n']})".ljust(len(m[0])), text)
    if "=" in text and len({m["letter"] or m["indexed"] for m in _BY_LETTER.finditer(text)}) == 1:
        text = _BY_LETTER.sub(lambda m: " " * len(m[0]), text)
    low = text.lower()
    if any(word in low for word in _NUMBERS_IN_WORDS):
        text = _IN_A_SENTENCE.sub(_of_its_own, _IN_WORD.sub(_in_figures, text))
    return _SUM.sub(_summed, text) if " = " in text else text


def _in_figures(match: re.Match[str]) -> str:
    n = value(match["n"])
    return match["round"] + f" = {n}".ljust(len(match["told"])) if n >= _FEWEST else match[0]


def _of_its_own(match: re.Match[str]) -> str:
    n = value(match["n"])
    return f" = {n}".ljust(len(match[0])) if n >= _FEWEST else match[0]


def _summed(match: re.Match[str]) -> str:
    a, b, n = int(match["a"]), int(match["b"]), int(match["n"])
    return " " * len(match[0]) if n == (a + b if match["sign"] == "+" else a - b) else match[0]
