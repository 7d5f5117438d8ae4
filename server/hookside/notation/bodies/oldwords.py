"""Wordings of leaflets, and of those who talk like one: "pop 6 dc into a ring", "work straight, turning with 1 ch"."""

from __future__ import annotations

import re
from collections.abc import Callable

from hookside.notation.page.inwords import WORD, N, value

_NOUN = r"(?:sc|[hd]?dc|h?tr|sts?|stitch(?:es)?|[sd]\. ?c\.)"
_RULES: tuple[tuple[str, re.Pattern[str], Callable[[re.Match[str]], str]], ...] = (
    ("pop ", re.compile(rf"^(?P<gap>\s*)pop (?=(?:\d{{1,2}} ?{_NOUN}|an? (?:inc|dec))\b)", re.I), lambda m: m["gap"]),
    # "3rd to 14th rows: Work straight, turning with 1 ch."
    (
        "turning with",
        re.compile(
            r"(?:,| and)? turning with (?:1|one) ch(?:ain)?"
            r"(?: (?:each time|at the end of (?:each|every) row))?",
            re.I,
        ),
        lambda m: ", ch 1, turn",
    ),
    # "1 sc, 2 hdc, 1 sc, one in each chain": said of all of them
    (
        "one in each",
        re.compile(
            r"(?P<work>\b\d{1,2} (?:sc|[hd]?dc|h?tr|half|single|double|treble)\b[^.;\n]{0,200}[a-z]), (?:each )?"
            r"(?:one|1) in(?:to)? each (?:of the )?(?:ch(?:ain)?s?|sts?|stitch(?:es)?)(?: in turn)?(?=\s*[;.,(])",
            re.I,
        ),
        lambda m: m["work"],
    ),
    # "fold flat and sc through both layers, 7 stitches across"
    (
        "both ",
        re.compile(
            rf"(?P<both>\bboth [a-z]+,? (?:about )?)(?P<n>\d{{1,3}}|{WORD})(?: (?:stitches|sts|sc|dc))? "
            r"across(?=\s*(?:[.,;(]|$))",
            re.I,
        ),
        lambda m: f"{m['both']}{m['n'] if m['n'].isdecimal() else value(m['n'])} sc",
    ),
    # "dec dec dec till theres 6"
    (
        "till",
        re.compile(
            r"\b(?P<st>dec|inc)(?:,? (?P=st)){1,4} till? (?:only )?(?:there'?s|there are|you have)(?: only)? "
            rf"(?P<n>{N})(?: (?:left|sts))?(?=\s*(?:[.;(]|$))",
            re.I,
        ),
        lambda m: f"{m['st']} around ({m['n'] if m['n'].isdecimal() else value(m['n'])})",
    ),
    ("the end one", re.compile(r"\bin(?:to)? the end one\b", re.I), lambda m: "in the last"),
    # "A plain round of dc", "plain again", "a round of sc"
    (
        "",
        re.compile(
            r"^(?P<gap>\s*)(?:(?:and|now|then|just) )?(?:(?:an?|one|1|another|one more) )?"
            r"(?:(?:plain|even|straight) ?(?:rounds?|rnds?|rows?)?(?: ?(?:of|in))?(?: (?P<st>sc|[hd]?dc|h?tr))?|"
            r"(?:round|rnd|row) (?:plain|even|straight|(?:of|in) (?:plain )?(?P<st2>sc|[hd]?dc|h?tr)))"
            r"(?: (?:again|once more|this time))*(?=\s*(?:[.,;(\[=]|- ?\d|$))",
            re.I,
        ),
        lambda m: m["gap"] + (f"{m['st'] or m['st2']} around" if m["st"] or m["st2"] else "plain"),
    ),
)  # a word of which the body has to have, what is looked for, and how others print it


def modern(body: str) -> str:
    """The body with such wordings as others print them; of the same length."""
    low = body.lower()
    for hint, told, printed in _RULES:
        match = told.search(body) if hint in low else None
        new = printed(match) if match is not None else ""
        if match is not None and len(new) <= len(match[0]):
            body = body[: match.start()] + new.ljust(len(match[0])) + body[match.end() :]
    return body
