"""The net below all stages: no line that looks like work is left out without a word.

Whatever ended as neither course, heading, definition nor cue, and yet holds a stitch or the name of a course beside a
number, or begins as an order does, is said at its place. Story stays story.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable

from hookside.notation.askings.byround import told_by_round
from hookside.notation.askings.colourtalk import colours_named, may_change_colour
from hookside.notation.askings.things import names_a_thing
from hookside.notation.askings.when import may_tell_ahead, names_round, when
from hookside.notation.findings.spokenahead import tells_rounds
from hookside.notation.findings.table import finding
from hookside.notation.findings.talk import talk
from hookside.notation.labels.label import at_line_start
from hookside.notation.lines.heads.parts import PARTS
from hookside.notation.lines.keys.definitions import definitions
from hookside.notation.lines.layout import Layout, sentences
from hookside.notation.lines.unlabelled.alone import round_in_words
from hookside.notation.page.beside.captions import may_ask
from hookside.notation.page.cleaning import Page
from hookside.pattern import Finding, Pattern
from hookside.stitches import singular

_MOST = 12  # findings of this kind; what is beyond is counted in the last one
_WORD = re.compile(r"[^\W\d_]{2}")  # what is left of a numbered list, "1.", says nothing
_LONGEST = 300  # characters of a line that are looked at
_STITCH = re.compile(
    r"(?<![a-z])(?:[hd]?dc|sc|h?tr|dtr|inc|dec|sl ?st|ss|ch|mr|[sdh]dc2tog|sc2tog|invdec|single crochets?|"
    r"(?:half )?doubles?(?: crochets?)?|(?:half )?trebles?|slip stitch(?:es)?|increases?|decreases?|chains?|"
    r"stitch(?:es)?|sts?)(?![a-z])",
    re.I,
)
_COURSE = re.compile(r"(?<![a-z])(?:rounds?|rnds?|rows?|rds?|r(?=\d))(?![a-z])", re.I)
# What a number only measures or counts in a story: needles, yarn, time, eyes
_MEASURE = re.compile(
    r"\d+(?:[.,]\d+)?\s*(?:mm|cm|m|g|oz|in(?:ch(?:es)?)?|yards?|metres?|meters?|hours?|minutes?|days?|%|\")(?![a-z])",
    re.I,
)
# "Wiggle the shoal until it is flat": a verb at the front and what it is done to
_ORDER = re.compile(
    r"\s*(?:now |then |next,? |finally,? )?(?!(?:now|then|next|finally|this|that|these|those|the|a|an|it|its|"
    r"all|both|each|every|here|there|"
    r"i|we|you|he|she|they|my|our|your|in|on|of|by|for|at|as|to|from|with|and|but|or|if|so|is|are|was|were|be|"
    r"has|had|"
    r"have|not|no|do|does|did|can|may|will|what|when|where|while|who|how|why|than|like|love|loved|enjoy|thank|see|"
    r"about|after|before|behind|above|below|over|under|between|only|even|just|because|since|once|until|same|"
    r"remember|imagine|hope)\b)"
    r"[a-z]{3,14}\s+(?:the|your|it|them|both|all)\b",
    re.I,
)
_TIMES_WORDS = "two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
# "Turn the work and make 6 sc back", "work 3 rounds": stitches in a sentence that asks for something else
_WORKED = re.compile(
    r"\b(?:sc|dc|hdc|single crochet|double crochet)\b[^.()\[\]]{0,60}[(\[]\s*\d{1,3}\s*(?:sts?|sc|dc)?\s*[)\]]|"
    r"(?<![a-z])(?:work|make|crochet|do|continue|repeat|rep)(?:ing)?\b[^.;:()\d]{0,24}?\s\d{1,3}\s*(?:more\s+)?"
    r"(?:[hd]?dc|sc|h?tr|dtr|sl ?sts?|single crochets?|rounds?|rnds?|rows?)(?![a-z])|"
    r"(?<![a-z])(?:repeat|rep)\s+(?:rounds?|rnds?|rows?)\s+\d|"
    r"(?:\d{1,3}\s*(?:[hd]?dc|sc|h?tr|inc|dec)(?![a-z])[^\d]{1,24}){2}|"
    r"[,;.] ?(?:and |then )?(?:sc|[hd]?dc) \d{1,3}\W*$|"  # "FO, sc 18"
    r"\b(?:rounds?|rnds?|rows?) of \d|\bsc back\b(?! (?:loops?|posts?))|"  # "4 ch., join, 1 row of 6 d.c., draw up."
    rf"\b(?:\d{{1,2}}|{_TIMES_WORDS}) (?:[a-z.]{{2,4}} )?in(?:to)? (?:an? |the )?(?:magic )?(?:ring|loop|circle)\b|"
    r"[)\]*] (?:(?:all )?a?round|across)\b|"
    r"\b(?:sc|dc|hdc)\b[^.()\[\]]{0,60}[,=-] ?\d{1,3} ?(?:sc|[hd]?dc|h?tr)\W*$",  # "and sc both edges together, 5sc"
    re.I,
)
# "Stuff, then dec x 6 and close.", "Edge: sl st around", "Now decrease six times.", "End with a plain round.": a round
# that goes all the way, or closes it, in a sentence that asks for something else or looks like talk
_ROUND_TOLD = re.compile(
    r"(?<![a-z])(?:(?:inv)?dec|inc|sc2tog|(?:de|in)crease)(?:\s?[x*]?\s?\d{1,2}(?![\d\s]*(?:st|row|round|rnd))|"
    rf"\s(?:{_TIMES_WORDS}|\d{{1,2}}) times|\s(?:all )?around)|"
    rf"\b(?:two|three|2|3) (?:(?:sts|stitches|sc) )?together (?:(?:{_TIMES_WORDS}|\d{{1,2}}) times|(?:all )?a?round)|"
    rf"^[^\w\n]{{0,4}}(?:{_TIMES_WORDS}|\d{{1,2}}) (?:increases|decreases)\b|"
    r"\b(?:two|2) (?:stitches|sts|sc) in(?:to)? (?:each|every)\b(?! (?:other|of the (?:round|row)s))|"
    r"(?<![a-z])(?:sl ?st|ss|sc|[hd]?dc) (?:(?:all|evenly) )?(?:around|in each (?:st|sc)\b)|"
    r"(?<![a-z])(?:end|finish|close)(?: off)? with (?:a|one|1|two|2) (?:(?:last|final|plain|even) )?"
    r"(?:sc )?(?:round|rnd|row)s?\b",
    re.I,
)
# "Once stuffed, dec x 6.", "(R4 dec x 6)", "Eyes, then sc 12": the last round of a part, shown as the name of another
_ROUND_IN_NAME = re.compile(
    r"(?<![a-z])(?:(?:inv)?dec|inc|sc2tog) ?[x*] ?\d{1,2}(?!\d)|"
    rf"^[^\w\n]{{0,4}}(?:{_TIMES_WORDS}) (?:increases|decreases)\W*$|"
    r"[,:;.)] ?(?:then )?(?:sc|[hd]?dc|inc|(?:inv)?dec) (?:\d{1,3}(?!\d| ?[cm]m\b)|(?:all )?(?:a?round)\b)",
    re.I,
)
# "Two more rounds, FO", "Stuff after 2 more plain rounds.": work where no round is left for it
_MORE_ROUNDS = re.compile(
    r"\b(?:(?:an?|one|two|three|four|five|six|\d{1,2}) more|another(?: \d| two| three)?|"
    rf"(?:{_TIMES_WORDS}|\d{{1,2}})(?= (?:rounds|rnds) more\b)) (?:(?:plain|even|sc|final|last) )?(?:rounds?|rnds?)\b",
    re.I,
)
_AMOUNT = re.compile(
    r"(?<!\d)\d{1,3} ?(?:sc|[hd]?dc|h?tr|inc|dec|[bf]lo)(?![a-z])|(?<![a-z])(?:sc|inc|dec) ?x ?\d", re.I
)
_LIKES_NUMBERS = re.compile(r"(?:[(\[=-]\s*\d{1,4}(?:\s*(?:sts?|stitches|sc|dc|hdc|htr|tr))?\s*[)\]]?\.?\s*$)", re.I)


def holds_work(text: str) -> bool:
    """A stitch or the name of a course, and a number that is more than a measure."""
    text = text[:_LONGEST]
    return bool(_STITCH.search(text) or _COURSE.search(text)) and bool(re.search(r"\d", _MEASURE.sub(" ", text)))


def _courselike(text: str) -> bool:
    """Does a line in front of the courses, or among notes, stand there as a course does?"""
    text = text[:_LONGEST]
    if not _STITCH.search(text):
        return False
    label = at_line_start(text, len(text) - len(text.lstrip(" -*>#|")), len(text))
    counted = _LIKES_NUMBERS.search(text)
    begins = re.match(r"\W*\d", text) or _AMOUNT.search(text)
    return (label is not None and label.stopped) or bool(begins and counted)


def _tells_rounds(line: str) -> bool:
    return tells_rounds(line) or _COUNTS_IN_A_ROW.match(line) is not None


def _headed(line: str) -> bool:
    """ "top: mr6, 12, 18", "Here comes 6) *4 sc, dec* 2 times = 10": work that is shown as the name of a part."""
    line = line[:_LONGEST]
    if _IN_A_ROW.match(line) is not None or _ROUND_IN_NAME.search(line) is not None:
        return True
    return bool(_LIKES_NUMBERS.search(line) and _AMOUNT.search(line))


Spans = list[tuple[int, int]]


def left_out(
    page: Page,
    layout: Layout,
    pattern: Pattern,
    passed: Spans,
    asked: Spans,
    followed: Spans,
    noted: Spans,
    dyed: set[tuple[int, int]],
) -> list[Finding]:
    """Findings for what would be lost in silence; linear in the page.

    `noted` are the lines of notes, materials and yarns, `passed` the sentences taken for story, `asked` those taken
    for something to do beside the stitches, and `followed` those that name courses of another piece, which then
    stand there; `dyed` those of colors that stand where they begin.
    """
    text = page.text
    said = {c.line for p in pattern.pieces for c in p.courses} | {c.line for p in pattern.pieces for c in p.cues}
    said |= {f.line for f in pattern.findings}
    shown = {p.line for p in pattern.pieces}
    spans: list[tuple[int, int]] = []
    speaks = False  # below rounds told as one speaks, what stands among them is lost with them
    for start, end, role in layout.roles:
        line = text[start:end]
        speaks = role == "notes" and page.line(start) not in said and (speaks or _tells_rounds(line[:_LONGEST]))
        if speaks:
            lost = True
        elif role in ("title", "notes", "materials", "furniture", "make", "gauge"):
            lost = _courselike(line) or _IN_A_ROW.match(line) is not None
        elif role == "abbreviations":
            lost = not definitions(line) and (_courselike(line) or _COUNTED.match(line) is not None)
        elif role in ("course", "heading"):
            number = page.line(start)
            lost = number not in said and (role == "course" or number not in shown) and holds_work(line)
            lost = lost or (role == "heading" and number not in said and _headed(line))
        elif role in ("story", "numbered"):
            begun = any(p.courses and p.courses[0].line < page.line(start) for p in pattern.pieces[:1])
            lost = begun and (role == "numbered" or _WORDLESS.fullmatch(line[:_LONGEST]) is not None)
            lost = lost and page.line(start) not in said
        else:
            continue
        if lost:
            spans.append((start, end))
    lost_lines = {page.line(start) for start, _ in spans}
    own = colours_named([*pattern.materials, *(c.text for p in pattern.pieces for c in p.cues if c.kind == "colour")])
    for start, end in passed:
        if page.line(start) in lost_lines:
            continue
        line = text[start:end]
        orders = _ORDER.match(line) or _ONCE_MORE.match(line) or _BARE.match(line)
        unsure = _ALONE.match(line) is not None or may_change_colour(line, own) or names_a_thing(line)
        if orders or unsure or _ROUND_TOLD.search(line) or (holds_work(line) and not _tells(line)):
            spans.append((start, end))
    quiet = {*passed, *_unheard(text, layout, [*passed, *asked, *followed])} - set(spans)
    spans += _no_talk(text, layout, [span for span in quiet if page.line(span[0]) not in lost_lines])
    lost_lines |= {page.line(start) for start, _ in spans}
    found = _folded(page, sorted(spans))
    found += [
        finding(page, "ahead", start, end, words=page.quote(start, min(end, start + 120)))
        for start, end in _asked_ahead(text, pattern, noted, asked)[:_MOST]
    ]
    quiet -= set(spans)
    quiet |= {(start, end) for start, end, role in layout.roles if role == "furniture" and may_ask(text[start:end])}
    told = sorted(
        (start, end)
        for start, end in quiet
        if (_WORD.search(text, start, end) or _one_number(text, start, end)) and page.line(start) not in lost_lines
    )
    found += talk(page, told)
    worked = [span for span in asked if span not in dyed]
    heard_at = [(span, text[span[0] : min(span[1], span[0] + _LONGEST)]) for span in worked]
    behind = _behind_all(pattern)
    worked = [
        span
        for span, words in heard_at
        if _works(words) or (_MORE_ROUNDS.search(words) is not None and behind(page.line(span[0])))
    ]
    for start, end in worked[:_MOST]:
        found.append(finding(page, "asked-work", start, end, words=page.quote(start, min(end, start + 120))))
    return found


def _behind_all(pattern: Pattern) -> Callable[[int], bool]:
    """Whether a line stands behind all courses of its part, where no more rounds are to come."""
    firsts = {piece.courses[0].line for piece in pattern.pieces if piece.courses}
    lines = sorted({course.line for piece in pattern.pieces for course in piece.courses})

    def behind(line: int) -> bool:
        after = bisect_right(lines, line)
        return after > 0 and (after == len(lines) or lines[after] in firsts)

    return behind


def _works(asked: str) -> bool:
    return _WORKED.search(asked) is not None or _ROUND_TOLD.search(asked) is not None


# "Seafoam" on a line of its own between two rounds: a yarn, a part, nobody knows
_ALONE = re.compile(r"\W*(?![a-z]*(?:ing|ed|eases?|shape)\b)[a-z]{4,14}(?: ?[:,])?\s*$", re.I)
# "6 - 12 - 18 - 24": the counts of rounds, and nothing of how they are worked
_COUNTS_IN_A_ROW = re.compile(r"\W*\d{1,3}(?:[ ]?[-\u2013,>][ ]?\d{1,3}){2,30}[ .,;]*$")
# "top: mr6, 12, 18, 24, 24x5": a whole piece on the line of its name; "2 in each: 12": a round in front of the first
_IN_A_ROW = re.compile(
    r"\W*[a-z][a-z ]{1,20}: *(?:mr|magic|\d{1,2} in (?:mr|(?:a )?(?:magic )?ring))\b ?\d{0,2}(?:[^\d\n]|$)|"
    r"\W*[a-z][a-z ]{1,20}: *mr ?\d|"
    r"\W*(?:\d{1,2}, ?)?\d{1,2} in (?:each|next|1|one)[a-z ]{0,20}: ?\d{1,3}\W*$",
    re.I,
)
_COUNTED = re.compile(r"\W*\d[^=:]{2,80}[(\[]\s*\d{1,4}\s*[)\]]\W*$")  # "6 pb in AM (6)", in words of its own
# "7-9. 24", "24, 24, 24", "24 X (24)": numbers, letters of charts and their signs, more than the number of a list,
# a page or a date
_WORDLESS = re.compile(
    r"(?!\W*\d{1,4}[./]\d{1,2}(?:[./]\d{1,4})?\W*$)"
    r"(?:(?=.*?\d\D+\d|.*?[\dx]\s*[x*\"])[\W\dx]+|"
    r"\W*\d{1,3}(?:\s*(?:[-,&+/]|to|and)\s*\d{1,3})*\s*[.:)]+\s*[(\[*]*(?:\d|[XVA](?![A-Za-z])).{0,60}|"
    r"[\W\dx]*(?<![A-Za-z])[XVA](?![A-Za-z])(?:[\W\dx]|(?<![A-Za-z])[XVAWMTF](?![A-Za-z]))*)"
)
_BARE = re.compile(
    r"\W*\d{1,3} ?[x*] ?\d{1,2}\W*$|"  # "24 x 3"
    r"\W*(?:x ?\d{1,2}|\d{1,2} ?(?:x|times))\W*$|"  # "(x3)"
    r"\W*(?:row|round|rnd) of (?:[hd]?dc|sc)\b|"
    r"\W*\d{1,3}(?: ?- ?\d{1,3})? ?[.):] ?\d{1,3}\W*$",  # "3-4) 12": courses by their counts alone
    re.I,
)

# "Make another the same.", "Repeat.": a piece, or rounds, that would be lost with it
_ONCE_MORE = re.compile(
    r"\W*(?:(?:make|work|crochet|do) (?:another|one more|a second|the second)\b|repeat\W*$|"
    r"(?:(?:make|work|do) )?(?:it )?the same\b[^.]{0,12}\W*$|same (?:again|as)\b)",
    re.I,
)


def _tells(line: str) -> bool:
    """ "Round 4 is a little fiddly", "I make 12 stitches a minute": told, and not asked."""
    return bool(_TELLING.search(line[:_LONGEST])) and not _LIKES_NUMBERS.search(line)


_TELLING = re.compile(
    r"\b(?:is|are|was|were|be|has|have|had|will|would|should|may|might|can|could|looks?|means?|feels?|counts?|gives?|"
    r"shows?|took|takes|loves?|i|my|we|he|she)\b",
    re.I,
)


_SHORT = 60  # characters of a sentence below a name that may tell how many of it are wanted
_OFTEN = re.compile(
    r"\b(?:two|three|four|five|six|seven|eight|nine|ten|twelve|twos|threes|fours|pairs?|twice|both|several|as many|"
    r"\d{1,2} (?:of|times|pieces|in all))\b",
    re.I,
)


def _unheard(text: str, layout: Layout, heard: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Lines behind the first course that came to nothing on their way: neither an asking nor a story in the end.

    Right above it, below a name, also what may tell how often it is to be made.
    A heading of a list is one where a course stands right behind it.
    """
    ends = sorted(end for _, end in heard)
    starts = {end: start for start, end in heard}
    lost: list[tuple[int, int]] = []
    begun = headed = False
    for index, (start, end, role) in enumerate(layout.roles):
        begun = begun or role == "course"
        headed = headed or role in ("heading", "title")
        ahead = bool(layout.roles[index + 1 : index + 2]) and layout.roles[index + 1][2] == "course"
        empty = role == "section" and ahead
        often = headed and not begun and ahead and role == "notes" and end - start < _SHORT
        often = often and _OFTEN.search(text, start, end) is not None
        if not often and (not begun or not (role in ("story", "cue") or empty)):
            continue
        at = bisect_right(ends, start)
        if at == len(ends) or starts[ends[at]] >= end:
            lost.append((start, end))
    return lost


_NOUN = re.compile(r"[a-z]{3,}")
_NOT_MISSED = ("eyes", "embroider")  # what a note asks for, and no other line of the text


def _may_ask(line: str) -> bool:
    return may_tell_ahead(line) or "eyes" in line.lower()


_JOBS = ("stuff", "eyes", "colour", "embroider", "sew", "close")


def _asked_ahead(text: str, pattern: Pattern, noted: Spans, asked: Spans) -> Spans:
    """ "Stuff the body after round 8." among the notes of several parts, and at no such round is that asked."""
    there = {(cue.kind, cue.after) for piece in pattern.pieces for cue in piece.cues}
    kinds = {kind for kind, _ in there}
    heard = set(asked)
    found: Spans = []
    for line, stop in noted:
        for start, end in sentences(text, line, stop) if _may_ask(text[line:stop]) else []:
            if (start, end) in heard:
                continue
            for kind, first, last, _ in told_by_round(text[start:end]):
                words = text[start + first : start + last]
                told = when(words, kind) if kind in _JOBS else []
                if kind == "sew" and not told and names_round(words) and not _sewn(pattern, words):
                    found.append((start + first, start + last))
                near = {(kind, str(due.course + beside)) for due in told for beside in (-1, 0, 1)}
                left = any(due.left or due.last or due.narrows for due in told) and kind in kinds
                if not told and kind in _NOT_MISSED and kind not in kinds and (start, end) not in heard:
                    found.append((start + first, start + last))
                if told and not left and there.isdisjoint(near) and (start + first, start + last) not in heard:
                    found.append((start + first, start + last))
    return found


def _sewn(pattern: Pattern, words: str) -> bool:
    """Is one of the parts that are sewn on by these words sewn on by any cue?"""
    named = {singular(word) for word in _NOUN.findall(words.lower())} & PARTS
    sewn = [cue.text.lower() for piece in pattern.pieces for cue in piece.cues if cue.kind in ("sew", "join")]
    return any(part in text for part in named for text in sewn)


def _one_number(text: str, start: int, end: int) -> bool:
    """A number alone on its line, and not only the number of what stands on the next one."""
    line = text[text.rfind("\n", 0, start) + 1 : end].strip()
    return text[end : end + 1] in ("\n", "") and line.strip("()[]{}=-,\"'. ").isdecimal()


# "ears x2", "2, tog = 18"
_MANY_OF = re.compile(
    r"\W*(?:[a-z]+(?: [a-z]+)?,? [(\[]?(?:x ?\d{1,2}|\d{1,2} ?x|make \d{1,2})|\d{1,2}, ?[a-z]{2,8} ?= ?\d{1,3})\W*$",
    re.I,
)


# "Ear, left: the same but fold the other way", "Flipper B = A": the other one of a part that is there
_WHICH = r"(?:left|right|second|third|fourth|2nd|3rd|4th|other|inner|outer|remaining|upper|lower)"
_ANOTHER = re.compile(
    r"\W{0,6}(?:(?:do|work|make|repeat)(?: the same)? (?:for )?)?(?:the )?"
    rf"(?:(?P<which>{_WHICH}(?:(?:,? and|,| &) (?:the )?{_WHICH})*) (?:(?:two|three|four|\d) )?)?"
    r"(?P<noun>[a-z]{3,12})"
    r"(?:[ ,(]{1,3}(?P<no>[a-h]\b|[2-9]\b|left|right|inner|outer|two|three))?[\d ,&)]{0,12}(?:and \d)?\s?"
    r"(?:[:=]|-\s|\b(?:the )?same\b|like\b|as\b|mirror|(?:is|are) (?:made|worked|done|the same|alike|like))",
    re.I,
)


def _of_another(text: str, nouns: set[str], at: int) -> bool:
    """Does this line speak of another one of a part that is there, by its side, its number or its letter?"""
    line = text.rfind("\n", 0, at) + 1
    match = _ANOTHER.match(text[line : line + _SHORT]) if at - line < _SHORT else None
    if match is None or not (match["which"] or match["no"]):
        return False
    noun = match["noun"].lower()
    return noun in nouns or noun.rstrip("s") in nouns


def _no_talk(text: str, layout: Layout, spans: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """A count alone on its line, in a text whose rounds are told so, a piece's name and how many of it, or shaping and
    its count: where such a line came to nothing, a round or a piece is lost."""
    if not spans:
        return []
    nouns = {w for piece in layout.pieces if piece.name for w in re.findall(r"[a-z]{3,}", piece.name.lower())}
    nouns |= {noun.rstrip("s") for noun in nouns}
    lost: list[tuple[int, int]] = []
    alone: list[tuple[int, int]] = []
    for span in spans:
        words = text[span[0] : span[1]][:_SHORT]
        if _MANY_OF.match(words) or round_in_words(words) or _of_another(text, nouns, span[0]):
            lost.append(span)
        elif _one_number(text, *span):
            alone.append(span)
    if alone and any(role == "course" and text[start:end].strip().isdecimal() for start, end, role in layout.roles):
        lost += alone
    return lost


def _folded(page: Page, spans: list[tuple[int, int]]) -> list[Finding]:
    """Neighbours in one finding, and never more than a handful."""
    groups: list[list[tuple[int, int]]] = []
    for span in spans:
        if groups and not page.text[groups[-1][-1][1] : span[0]].strip(" .\n|"):
            groups[-1].append(span)
        else:
            groups.append([span])
    if len(groups) > _MOST:
        groups[_MOST - 1 :] = [[span for group in groups[_MOST - 1 :] for span in group]]
    found: list[Finding] = []
    for group in groups:
        start, end = group[0]
        words = page.quote(start, min(end, start + 120))
        more = f" So I did with {len(group) - 1} more below it." if len(group) > 1 else ""
        found.append(finding(page, "left-out", start, end, words=words, more=more))
    return found
