"""Colors told by their rounds with no word that asks for them: "R5-6 yellow, R7 black", "white for R6", "black: R5"."""

from __future__ import annotations

import re

from hookside.colours import COLOURS, SHADES
from hookside.notation.labels.patterns import COURSE

# Of one round or several, in small letters
ROUNDS = (
    rf"(?:{COURSE}\.? ?#?\d{{1,3}}(?: ?(?:-|to|and|,|&|\+) ?(?:{COURSE}\.? ?)?\d{{1,3}}){{0,9}}|"
    rf"(?:all )?(?:odd|even)(?:[- ]numbered)? {COURSE}(?![a-z]))"
)
_SHADE = rf"(?:(?:{'|'.join(sorted(SHADES))}) )*(?:{'|'.join(sorted(COLOURS, key=len, reverse=True))})\b"
# "4 white", "brown 8": so many stitches of a round
_STITCHES = r"(?: (?:sts?|sc|stitches))?"
_OF_SHADE = rf"\d{{1,3}}{_STITCHES}(?: in)? {_SHADE}|{_SHADE}(?: x)? ?\d{{1,3}}{_STITCHES}"
SHARE = re.compile(rf"(?=[^\d]{{0,40}}(?P<n>\d{{1,3}}))(?:{_OF_SHADE})(?![a-z\d])")
SHARES = re.compile(rf"(?:{_OF_SHADE})(?:(?: ?[/,;&+|] ?| and |, and |,? then )(?:{_OF_SHADE})){{1,9}}")
# "2 in red", "one red, two white": which of the stitches, nobody knows
_FEW = rf"(?:\d{{1,3}}|one|two|three|four|five|six){_STITCHES}(?: in)? {_SHADE}"
SOME_SHARES = re.compile(rf"{_FEW}(?:(?: ?[/,;&+|] ?| and |, and |,? then ){_FEW}){{0,9}}")
SHADE = re.compile(_SHADE)
_LINKS = r"(?:(?:onwards?|on|is|are|in|with|only|the|worked|made|to|using|then) )*"
_TOLD = re.compile(
    rf"(?<![a-z]){ROUNDS}(?: ?[:=-] ?| ){_LINKS}{_SHADE}|"
    rf"(?<![a-z]){_SHADE}(?: yarn)?(?: ?[:=-] ?| (?:at|in|for|on|from|over) )(?:the )?{ROUNDS}"
)
_PLACE = (
    r"(?:(?:\d{1,2}(?:st|nd|rd|th)|first|second|third|fourth|fifth|sixth)"
    rf"(?: (?:{COURSE}|one)(?![a-z]))?|(?:last|final) {COURSE}(?![a-z]))(?: on(?:wards?)?)?"
)
# "the third in white", "white from the 3rd round on": told by its place in a range
NTH_SHADE = re.compile(
    rf"(?<![a-z])(?:{_SHADE} (?:from|on|in|at|for) (?:the )?{_PLACE}(?! (?:st|sts|sc|stitch))|"
    rf"{_PLACE} (?:(?:is|are|worked|made) )?(?:in|with) (?:the )?{_SHADE})(?![a-z])"
)
_AND = r"(?: ?[,;.&+/|]? ?(?:and |then |but )?)"
_BY = (
    rf"(?:(?:from |after )?(?:the )?(?:{ROUNDS}|\d{{1,3}}(?: ?- ?\d{{1,3}})?|"
    rf"(?:all )?(?:the )?(?:rest|others?|remaining)(?: {COURSE}(?![a-z]))?)"
    rf"(?: ?[:=(-] ?| )?{_LINKS})"
)
_NAMED = rf"(?:{_SHADE}|(?:yarn |colou?r )?[a-h](?![a-z]))"  # or by the letter of a yarn
_ITEM = (
    rf"(?:use |work |with |make |in )?(?:{_BY}{_NAMED}(?: yarn)?(?: again)?\)?|"
    rf"{_NAMED}(?: yarn)?(?: ?[:=-] ?| (?:at|in|for|on|from|over) )(?:the )?{ROUNDS})"
)
_ENTRY = re.compile(rf"{_AND}{_ITEM}")
_LOOPS = re.compile(
    rf"\W{{0,4}}{ROUNDS}(?: ?[:=-] ?| ){_LINKS}(?:through |into )?(?:the )?(?:(?:back|front) (?:loops?|lps?)|[bf]lo)"
    r"(?: only)?\W{0,4}"
)
_HINT = re.compile(rf"(?<![a-z]){COURSE}\.? ?#?\d|\b(?:odd|even)\b")


def shades_by_round(low: str) -> bool:
    """Does a clause in small letters tell a color of a round by its number?"""
    return _HINT.search(low) is not None and _TOLD.search(low) is not None


def lists_shades(line: str) -> int:
    """How many colors a line tells of rounds by their numbers, where it holds nothing else: "R1-2 brown, R3 white"."""
    low = " ".join(line.lower().split()) if len(line) < 300 else ""
    if not low or _HINT.search(low) is None:
        return 0
    many, at = 0, len(low) - len(low.lstrip(" -*#>(\u2022"))
    while (entry := _ENTRY.match(low, at)) is not None:  # one after the other, so that nothing is tried twice
        many, at = many + 1, entry.end()
    return many if not low[at:].strip(" .,;:!)") else 0


_COUNTED = re.compile(rf"\d ?- ?\d{{1,3}}(?: ?[:=-])? {_SHADE}|{_SHADE}(?: ?[:=-])? \d{{1,3}} ?- ?\d")


def counts_shades(line: str) -> bool:
    """ "1-3 green, 4-5 red": colors of rounds that are told by their numbers alone."""
    return _COUNTED.search(line.lower()) is not None


_BY_TURNS = re.compile(r"\b(?:alternat\w+|by turns|in turn)\b|\bstriped?s?(?: pattern| sequence)?:")
_ANY_SHADE = re.compile(rf"\b{_SHADE}")


def turns_shades(line: str) -> bool:
    """ "Alternate: green, red, green, red": two colors by turns, of whatever length."""
    low = line.lower()
    return _BY_TURNS.search(low) is not None and len(set(_ANY_SHADE.findall(low))) > 1


def tells_loops(line: str) -> bool:
    """ "R3 and R4 in front loops only.": nothing but the loops of such rounds."""
    return len(line) < 120 and _LOOPS.fullmatch(line.lower()) is not None
