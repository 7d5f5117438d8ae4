"""Wordings of leaflets, and of those who talk like one: "pop 6 dc into a ring", "work straight, turning with 1 ch"."""

from __future__ import annotations

from hookside.notation.bodies.rewordings import Rewording, reworded
from hookside.notation.page.inwords import WORD, N, value

_NOUN = r"(?:sc|[hd]?dc|h?tr|sts?|stitch(?:es)?|[sd]\. ?c\.)"
_TABLE = [
    Rewording(("pop ",), rf"^(?P<gap>\s*)pop (?=(?:\d{{1,2}} ?{_NOUN}|an? (?:inc|dec))\b)", r"\g<gap>"),
    # "3rd to 14th rows: Work straight, turning with 1 ch."
    Rewording(
        ("turning with",),
        r"(?:,| and)? turning with (?:1|one) ch(?:ain)?"
        r"(?: (?:each time|at the end of (?:each|every) row))?",
        ", ch 1, turn",
    ),
    # "6 sc in ring. (6) sc.", as a page leaves "6 sc in ring.- 6 sc."
    Rewording(
        (") ",),
        rf"(?P<led>[.;,)*] ?|\b(?:around|round|end|times|ring|hook|across|each|turn) )\((?P<n>\d{{1,3}})\) "
        rf"(?P<noun>{_NOUN})(?P<end>\s*\.?\s*)$",
        r"\g<led>(\g<n> \g<noun>)\g<end>",
    ),
    # "1 sc, 2 hdc, 1 sc, one in each chain": said of all of them
    Rewording(
        ("one in each",),
        r"(?P<work>\b\d{1,2} (?:sc|[hd]?dc|h?tr|half|single|double|treble)\b[^.;\n]{0,200}[a-z]), (?:each )?"
        r"(?:one|1) in(?:to)? each (?:of the )?(?:ch(?:ain)?s?|sts?|stitch(?:es)?)(?: in turn)?(?=\s*[;.,(])",
        r"\g<work>",
    ),
    # "fold flat and sc through both layers, 7 stitches across"
    Rewording(
        ("both ",),
        rf"(?P<both>\bboth [a-z]+,? (?:about )?)(?P<n>\d{{1,3}}|{WORD})(?: (?:stitches|sts|sc|dc))? "
        r"across(?=\s*(?:[.,;(]|$))",
        lambda m: f"{m['both']}{m['n'] if m['n'].isdecimal() else value(m['n'])} sc",
    ),
    # "dec dec dec till theres 6"
    Rewording(
        ("till",),
        r"\b(?P<st>dec|inc)(?:,? (?P=st)){1,4} till? (?:only )?(?:there'?s|there are|you have)(?: only)? "
        rf"(?P<n>{N})(?: (?:left|sts))?(?=\s*(?:[.;(]|$))",
        lambda m: f"{m['st']} around ({m['n'] if m['n'].isdecimal() else value(m['n'])})",
    ),
    Rewording(("the end one",), r"\bin(?:to)? the end one\b", "in the last"),
    # "A plain round of dc", "plain again", "a round of sc": with its stitch, or in a word that `references.EVEN` knows
    Rewording(
        ("plain", "even", "straight", "round of", "round in", "rnd of", "rnd in", "row of", "row in"),
        r"^(?P<gap>\s*)(?:(?:and|now|then|just) )?(?:(?:an?|one|1|another|one more) )?"
        r"(?:(?:plain|even|straight) ?(?:rounds?|rnds?|rows?)?(?: ?(?:of|in))?(?: (?P<st>sc|[hd]?dc|h?tr))?|"
        r"(?:round|rnd|row) (?:plain|even|straight|(?:of|in) (?:plain )?(?P<st2>sc|[hd]?dc|h?tr)))"
        r"(?: (?:again|once more|this time))*"
        r"(?=\s*(?:[.,;(\[{<=]|- ?\d|\d{1,4} (?:sts|stitches)\b|(?:in )?[bf]lo\b|$))",
        lambda m: m["gap"] + (f"{m['st'] or m['st2']} around" if m["st"] or m["st2"] else "plain"),
    ),
]


def modern(body: str) -> str:
    """The body with such wordings as others print them; of the same length."""
    return reworded(body, _TABLE)
