"""Marks that a page is typed with: dashes and dots of print, arrows, pictures, signs of Markdown, lines to write on."""

from __future__ import annotations

import re
from functools import partial

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.print.signs import NAME_MARK, NUMBER_MARK, TEN_MARK, VANISH
from hookside.notation.page.stages import Stages

# "TAIL\u2014Ch 9, ...", "LEGS (Make 4)\u2014With grey, ch 2.": a name in capitals before its work
_NAME_AND_WORK = re.compile(r"^(?P<name>[ ]{0,8}[A-Z][A-Z '&/]{2,30}(?: ?\([^()\n]{3,40}\))?)\.?\u2014(?=[A-Z])", re.M)
# "sc in last ch\u201423 sts": no chain of 23
# ... "top of ch-3\u201412 dc" no range, "in last 4 sc\u201424 sc." nothing worked into 24,
# ... and "Repeat Row 8\u20146 sc." no rows 8 to 6
_COUNT_BEHIND = re.compile(
    r"(?P<lead>\bch(?:-\d)?|\btog(?:ether)?|\brep(?:eat)? (?:rnd|rd|row|round) [\dlO]{1,3}|"
    r"\b(?:in|into|of) (?:[a-z]+ ){0,3}(?:\d{1,3} )?(?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr|ch-\d sp))\u2014"
    r"(?=[\dlO]{1,4} (?:sts?|stitches|sc|dc|hdc|htr|tr)\b)",
    re.I,
)
_NUMBERED_NAME = re.compile(r"(?m)(?<=^\d)\u3001|(?<=^\d\d)\u3001")  # "2\u3001Body": a number before a heading
# "Fine knit ... single crochet": lines of a list, one below the other, with dots between a name and what it means
_DOTS = (
    r"[A-Za-z][A-Za-z ]{0,23} (?:\u2026|\.{2,4}) ?"
    r"(?=[A-Za-z]|\d [a-z]+ (?:[a-z]+ )?(?:are|is|in|into|put|closed)\b)"
)
_DOTTED_LIST = re.compile(rf"^(?:{_DOTS}[^\n]*\n){{2}}(?:{_DOTS}[^\n]*(?:\n|$))+", re.M)
_DOTTED = re.compile(rf"^(?={_DOTS})(?P<name>[^.\u2026\n]+ )(?P<dots>\u2026|\.+)", re.M)
# "Rounds 5 \u2192 7:"
_ARROW = re.compile(
    rf"(?P<first>(?:\b{COURSE}\.?[ ]?|^[ ]{{0,8}})\d{{1,3}}[ ]?)\u2192"
    rf"(?=[ ]?(?:{COURSE}\.?[ ]?)?\d{{1,3}}[ ]?[:.);\]=-])",
    re.I | re.M,
)
_FENCE = re.compile(r"^[ ]{0,3}```[^\n`]{0,20}$", re.M)
_CODE = re.compile(r"`([^`\n]{1,300})`")  # "`R3: inc * 6` `-> 18`"; "`6`" is a count in its own dress
# A small picture, which says nothing that the words do not
_PICTURE = re.compile("[\U0001f1e6-\U0001faff\u2600-\u2604\u2607-\u27bf\ufe0f\u200d]")
# "R4" with the sign of a phone's key around its digit
_KEYS = re.compile("(?:\\d\ufe0f?\u20e3)+(?P<work>(?=[ ]{1,3}[\\w(\\[*]))?|(?:^|(?<=[Rr]))(?P<ten>\U0001f51f)", re.M)
_BOX = re.compile(r"^[ ]{0,8}(?:[-*][ ])?\[[ xX]?\](?=[ ])", re.M)
_FEWEST_BOXES = 3
_LONG_ARROW = re.compile(r"(?:-{2,4}|={2,4})>")
# "R5 -> R8  sc"
_ARROW_BACK = re.compile(r"(?<=\d)[ ]{1,30}<[<=-]{1,3}(?=[ ]?[A-Za-z])")  # "= 12   <- half stuff": told of the round
_ARROW_BEHIND = re.compile(r"^(?P<first>[^\w\n]{0,6}[Rr]?\d{1,3})[ ]{0,4}->(?=[ ]{0,4}[Rr]?\d{1,3}[ :.)])", re.M)
# A wave between the numbers of a range: "R5~R7", "5R~7R", "5th~7th stage"
_WAVE = re.compile(
    r"(?:(?<=[\drR])|(?<=\d(?:st|nd|rd|th)))(?<![a-z]r)~(?=(?:r|rnd|rd|round|row)?s?\.?\d)|"
    r"(?:(?<=[\drR][ ])|(?<=\d(?:st|nd|rd|th)[ ]))~(?=[ ](?:r|rnd|rd|round|row)?\d)",
    re.I,
)
# A sign nobody types between words, at the start of a line: a bullet of some kind. The copyright sign says something.
_LINE_SIGN = re.compile(r"^[ ]{0,20}(?P<sign>[^\x00-\x7f\w\u00a9\ue006]{1,4})", re.M)
_BOLD = re.compile(r"(\*\*|__)(?=[^\s*_])([^*\n]{1,200}?)(?<=[^\s*_])\1(?!\*)")
# "*sc, inc** 6 times": what is starred ends in two of them
_STARS_BEHIND = re.compile(r"(?<![*\w])(?P<group>\*(?=[\w(\[{])[^*]{2,80}\*)\*(?=,?\s+(?:\d|[a-z]+\s+times|rep))", re.I)
# "2 till 4)", "#4 up to 6 sc": a range
_TILL = re.compile(
    rf"^(?P<first>[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?#?)?\d{{1,3}})(?P<to> (?:up to|till) )"
    rf"(?=\d{{1,3}}[ ]?[:.)\]}}=(\[{{-])",
    re.I | re.M,
)
# "Rounds 9-13 (5 rounds) same as round 8": a sign behind such a label
_SO_MANY_THE_SAME = re.compile(
    rf"^(?P<label>[^\w\n]{{0,6}}{COURSE}\.?[ ]?#?\d{{1,3}}[ ]?(?:-|to|thru|through)[ ]?\d{{1,3}}[ ]?"
    r"\(\d{1,3} (?:rounds|rnds|rows)\))[ ](?=(?:the )?(?:same|ditto|as|like|rep|repeat|work as)\b)",
    re.I | re.M,
)
# "no increases |24|": a count between strokes, in a line that has no other
_COUNT_IN_STROKES = re.compile(r"^(?P<line>[^|\n]{2,}[^|\s][ ]?)\|(?P<n>\d{1,4})\|(?=[^|\n]*$)", re.M)
_BOLD_NUMBER = re.compile(r"(?<=[a-z.,:;=-] )(\*\*)\d{1,4}(\*\*)(?![*\d])", re.I)  # "You should see **24**."
_STAR_IN_BRACKETS = re.compile(r"\((?P<star>\*{1,2})\)")  # "(*) sc in next sc. Repeat from (*) around"
_TO_TICK = re.compile(r"(?:\[ {0,3}\]|\( {1,3}\))(?=[ ]*$)", re.M)  # "You have: 12    [ ]"
_BLANK = re.compile(r"_{3,}")  # a line to write on
_UNDERSCORE = re.compile(r"(?<![A-Za-z0-9_])_(?=[^\s_])([^_\n]{1,200}?)(?<=[^\s_])_(?![A-Za-z0-9_])")
# "in each 4-ch sp", "3ch sp": the way round that British texts have it; as long as "ch-4 sp"; "next 3 ch sp" are three
_CHAINS_FIRST = re.compile(
    r"\b(?P<n>\d)(?P<by>-|(?:(?<=\b(?:each|same) \d) |)(?=ch(?:ain)?[ -](?:sp|space|loop|lp|arch)\b))"
    r"(?P<ch>ch(?:ain)?)(?=[ -](?:corner )?(?:sps?|spaces?|loops?|lps?|arch(?:es)?)\b)",
    re.I,
)


def counts_in_brackets(text: str) -> str:
    """ "no increases |24|" -> "no increases (24)"."""
    return _COUNT_IN_STROKES.sub(r"\g<line>(\g<n>)", text)


def commas_behind_words(text: str) -> str:
    """ "sc , inc , sc", "Round 3 , 9 sts": the blank goes behind the comma."""
    return re.sub(r"(?<=[^\s,|]) ,(?=[ \w(\[{*])", ", ", text)


def _unbold(match: re.Match[str]) -> str:
    if match[2].lstrip()[:1].isalnum() or match[2].lstrip()[:1] in "([#":
        return "  " + match[2] + "  "
    return match[0]


def _undotted(match: re.Match[str]) -> str:
    return _DOTTED.sub(lambda m: m["name"] + "=".ljust(len(m["dots"])), match[0])


def _blank(match: re.Match[str]) -> str:
    return " " * len(match[0])


def _code(match: re.Match[str]) -> str:
    return f" {match[1]} " if " " in match[1] or ">" in match[1] else match[0]


def _key(match: re.Match[str]) -> str:
    """The digits of keys on a phone; the last of them is the end of a label."""
    if match["ten"]:
        return TEN_MARK
    digits = "".join(re.findall(r"\d", match[0]))
    end = ":" if match["work"] is not None else ""
    return (digits + end).ljust(len(match[0]), VANISH[0])


def without_pictures(text: str) -> str:
    return text if text.isascii() else _PICTURE.sub(_blank, text)


def unchecked(text: str) -> str:
    """The page without the boxes of a list to tick: "[ ] R1: 6 sc in MR", "[x] inc x 6"."""
    return _BOX.sub(_blank, text) if len(_BOX.findall(text)) >= _FEWEST_BOXES else text


def without_bullets(text: str) -> str:
    return text if text.isascii() else _LINE_SIGN.sub(_blank, text)


def bold_numbers(text: str) -> list[tuple[int, int]]:
    """Where the stars around such a number stand."""
    return [match.span(sign) for match in _BOLD_NUMBER.finditer(text) for sign in (1, 2)] if "**" in text else []


def _lines_broken(text: str) -> str:
    """A break of the line in Markdown."""
    return f"{text}\n".replace("\\\n", " \n")[:-1]


_STROKE_TOO = re.compile(r"/{1,2}(?<=\s.)/?(?=\s?=\s?\d)")  # "sc 2, dec, 6 times / = 18": two signs before a count
# Signs of print that mean something before they become the plain ones
PRINTED: Stages = (
    (("\u20e3", "\U0001f51f"), partial(_KEYS.sub, _key)),
    (("\u2014",), partial(_NAME_AND_WORK.sub, lambda m: (m["name"] + NAME_MARK).ljust(len(m[0])))),
    (("\u2014",), partial(_COUNT_BEHIND.sub, lambda m: f"{m['lead']}=")),
    (("/ =", "/="), partial(_STROKE_TOO.sub, _blank)),
    (("\u3001",), partial(_NUMBERED_NAME.sub, NUMBER_MARK)),
    (("\u2026", " .."), partial(_DOTTED_LIST.sub, _undotted)),
    (("\u2192",), partial(_ARROW.sub, lambda m: f"{m['first']}-")),
    (("```",), partial(_FENCE.sub, _blank)),
    (("`",), partial(_CODE.sub, _code)),
)
ARROWS: Stages = (
    (("-->", "==>"), partial(_LONG_ARROW.sub, lambda m: "->".rjust(len(m[0])))),
    (("<-", "<=", "<<"), partial(_ARROW_BACK.sub, lambda m: ";".ljust(len(m[0])))),
    (("->",), partial(_ARROW_BEHIND.sub, lambda m: f"{m['first']}-".ljust(len(m[0])))),
    (("s) ",), partial(_SO_MANY_THE_SAME.sub, lambda m: f"{m['label']}:")),
    ((" till ", " up to "), partial(_TILL.sub, lambda m: m["first"] + " -".ljust(len(m["to"])))),
    (("~",), partial(_WAVE.sub, "-")),
)
TYPED: Stages = (
    (("(*",), partial(_STAR_IN_BRACKETS.sub, lambda m: f" {m['star']} ")),
    (("\\\n",), _lines_broken),
    (("\\*",), lambda text: text.replace("\\*", " *")),
    (("** ", "**,", "**\n"), partial(_STARS_BEHIND.sub, lambda m: f"{m['group']} ")),
    (("**", "__"), partial(_BOLD.sub, _unbold)),
    (("[ ", "[]", "( "), partial(_TO_TICK.sub, _blank)),
)
UNDERLINED: Stages = (
    (("___",), partial(_BLANK.sub, _blank)),
    (("_",), partial(_UNDERSCORE.sub, r" \1 ")),
)
CHAINS: Stages = ((("ch-sp", "ch sp", "-ch"), partial(_CHAINS_FIRST.sub, lambda m: f"{m['ch']}{m['by']}{m['n']}")),)
