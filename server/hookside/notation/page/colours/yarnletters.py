"""Rounds led by the letter of their yarn and nothing else: "o 6 sc in ring", "k sc (24)", where a line tells them.

"3 yarns, o(range) w(hite) k(black)" above them. Each becomes a labelled round in its color, "R5: (black) sc (24)".
Where others are led by nothing, a round so led is taken up in so many words ("G, sc around": "With G, ").
"""

from __future__ import annotations

import re

from hookside.colours import COLOURS
from hookside.notation.askings.colournames import told_of_yarn
from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import put

_TOLD = re.compile(r"(?<![^\W_])(?P<letter>[a-z])\((?P<rest>[a-z]{2,11})\)", re.I)
_LED = re.compile(r"^[ ]{0,4}(?P<letter>[a-z])(?P<sign>[ ]?[:.-]?[ ]{1,4})(?=(?P<body>[^\n]{2,300}))", re.M | re.I)
_WORK = re.compile(r"\b(?:sc|[hd]?dc|h?tr|inc|dec|mr|ring|tog|ss|ch)\b|\d", re.I)
_FEWEST = 3  # rounds led so


# "Green: G. Lime: L.", "rose (A)", "B = cream": what a letter stands for, told somewhere
_STANDS_FOR = re.compile(
    r"(?<![^\W_])(?P<name>[A-Za-z]{3,11})[ ]?(?:[:=-][ ]?|\()(?P<letter>[A-Z])(?![^\W_]|[ ]?=)|"
    r"(?<![^\W_])(?P<before>[A-Z])(?:[ ]?[:=-][ ]?|[ ])"
    r"(?:(?:a bit of|a little|some)[ ])?(?P<behind>[A-Za-z]{3,11}(?:[ ][a-z]{3,11})?)\b"
)
# "G, magic ring, 4 sc. (4)": such a letter in front of a round, and a sign behind it
_TAKES = re.compile(r"^(?P<gap>[ ]{0,4})(?P<letter>[A-Z])[ ]?[,:-][ ]{1,3}(?=(?P<body>[^\n]{2,300}))", re.M)
# "Y", on a line of its own above the rounds in it
_ALONE = re.compile(r"^[ ]{0,4}(?P<letter>[A-Z])[ ]{0,4}$", re.M)
_LABEL = re.compile(r"r[a-z]{0,4}\.?[ ]?\d|\d{1,3}[ ]?[.:)]", re.I)

# "Rd 4 (Y): 12sc": one in a bracket behind a label. A to H are read as they stand, others when they are called a yarn
_AT_LABEL = re.compile(
    rf"^[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?#?)?\d{{1,3}}(?:[ ]?-[ ]?\d{{1,3}})?[.:)]?[ ]?[(\[](?P<letter>[A-Z])[)\]]"
    r"(?=[ ]?[:.,-]|[ ]\w)(?![ ]?[x*][ ]?\d)",
    re.M | re.I,
)
LETTER_ALONE = re.compile(r"[(\[](?=[I-Z][)\]])")
# "G    1st rnd    6 sc in loop", "A | R1 | ...": letters at the edge of the page, in front of labels
_AT_EDGE = re.compile(
    rf"^[ ]{{0,8}}[|]?[ ]?(?P<letter>[A-Z])(?:[ ]?[|][ ]{{0,6}}|[ ]{{1,8}})"
    rf"(?P<label>{COURSE}s?\.?[ ]?#?\d{{1,3}}(?:[ ]?(?:-|to|and|&)[ ]?(?:{COURSE}\.?[ ]?)?\d{{1,3}})?|"
    rf"\d{{1,3}}(?:st|nd|rd|th)(?:[ ]?(?:-|to|and|&)[ ]?\d{{1,3}}(?:st|nd|rd|th))?[ ]{COURSE}s?)"
    r"(?:[ ]?[:.)|-]|(?=[ ]))[ ]{0,8}(?=(?P<body>[^\n]{1,300}))",
    re.M | re.I,
)
_LETTERLESS = re.compile(rf"^[ ]{{0,8}}(?:{COURSE}s?\.?[ ]?\d|\d{{1,3}}(?:st|nd|rd|th)[ ]{COURSE}\b)", re.M | re.I)
_EDGE_KEY = re.compile(
    r"(?<![^\W_])(?P<letter>[A-Z])(?:[ ]?[:=-][ ]?|[ ](?:is |for |means )?)"
    rf"(?P<name>(?!{COURSE}\b)[a-z]{{3,11}}(?:[ ][a-z]{{3,11}})?)\b"
)
# "m / 1: mr, 6 sc", "P - 3: sc around": a stroke between such a letter and a bare label; "mustard (m)" tells it
_BEFORE_STROKE = re.compile(
    r"^[ ]{0,8}(?P<letter>[A-Za-z])(?:[ ]?[/|][ ]?|[ ]-[ ])(?P<label>\d{1,3}(?:[ ]?(?:-|to|and|&)[ ]?\d{1,3})?)"
    r"[ ]?[:.)][ ]{1,4}(?=(?P<body>[^\n]{1,300}))",
    re.M,
)
BEFORE_STROKE = re.compile(r"^[ ]{0,8}[A-Za-z][ ]?[/|-][ ]?2[ ]?[:.)]", re.M)  # a hint of it
_FIRST = re.compile(r"(?<!\d)1(?!\d)")
_NAMED_SO = re.compile(r"(?<![^\W_])(?P<name>[a-z]{3,11})[ ]?\((?P<letter>[a-z])\)", re.I)
_FIRST_OF_A_COLOUR = frozenset("ABCDEFGHKNOPRWY")  # without a key; S, M and L would be sizes


def _told(text: str) -> dict[str, str]:
    """The letters that stand for a color by what a line tells, and their colors."""
    told = ((m["letter"] or m["before"], (m["name"] or m["behind"]).lower()) for m in _STANDS_FOR.finditer(text))
    return {letter: name for letter, name in told if COLOURS.intersection(name.split())}


# "C (wings), make 2": the letter of a yarn in front of the part that is made of it
_BEFORE_NAME = re.compile(r"^(?P<letter>[A-H])[ ][(](?P<name>[a-z][a-z ]{2,20})[)](?=[ ,:]|$)", re.M | re.I)


def behind_names(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with "Wings (C), make 2" where two such letters or more are those of yarns."""
    led = [m for m in _BEFORE_NAME.finditer(text) if m["letter"].isupper()]
    if len(led) < 2 or not {m["letter"] for m in led}.issubset(_told(text)):
        return text, offsets
    text, back = put(text, offsets, [(m.start(), m.end(), f"{m['name'].capitalize()} ({m['letter']})") for m in led])
    for m in led:  # of the same length, and each letter still knows where it stood
        at = m.start() if offsets is None else offsets[m.start()]
        back[m.start() : m.end()] = [at + m.start("name") - m.start() + i for i in range(len(m["name"]))] + [at] * 4
    return text, back


def in_brackets(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with "(yarn Y)" where two such letters or more stand in brackets behind labels."""
    led = [m for m in _AT_LABEL.finditer(text) if m["letter"].isupper()]
    letters = {m["letter"] for m in led}
    if len(letters) < 2 or not letters - set("ABCDEFGH"):
        return text, offsets
    if not letters <= _FIRST_OF_A_COLOUR:
        letters &= set(_told(text))
    spelt = letters - set("ABCDEFGH")
    edits = [(m.start("letter"), m.end("letter"), f"yarn {m['letter']}") for m in led if m["letter"] in spelt]
    return put(text, offsets, edits)


def taken_up(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with "With G, " in front of each round that is led by a letter of a yarn and by no label."""
    led = [m for m in _TAKES.finditer(text) if _WORK.search(m["body"]) and not told_of_yarn(m["body"])]
    alone = list(_ALONE.finditer(text))
    if len(led) + len(alone) < 2:
        return text, offsets
    shades = _told(text)
    led = [m for m in led if m["letter"] in shades]
    alone = [m for m in alone if m["letter"] in shades]
    if len({m["letter"] for m in [*led, *alone]}) < 2:
        return text, offsets
    behind = [":\n" if _LABEL.match(m["body"]) else ", " for m in led]
    edits = [(m.start("letter"), m.end(), f"With {m['letter']}{sign}") for m, sign in zip(led, behind, strict=True)]
    edits += [(m.start("letter"), m.end("letter"), f"With {m['letter']}:") for m in alone]
    return put(text, offsets, edits)


def before_strokes(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such letters as colors behind labels of their own, where its key tells all of them."""
    led = list(_BEFORE_STROKE.finditer(text))
    named = [*_NAMED_SO.finditer(text), *_EDGE_KEY.finditer(text)]
    told = {m["letter"]: m["name"].lower() for m in named if not m["letter"].isdecimal()}
    if len(led) < _FEWEST or not {m["letter"] for m in led} <= set(told):
        return text, offsets
    edits: list[tuple[int, int, str]] = []
    held = ""
    for match in led:
        anew = match["letter"] != held or match["label"] == "1"
        shade = f"With {told[match['letter']]}, " if anew else ""
        edits.append((match.start("letter"), match.start("body"), f"R{match['label']}: {shade}"))
        held = match["letter"]
    return put(text, offsets, edits)


def at_edge(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such letters, where its key tells their colors, as colors behind their labels."""
    led = [m for m in _AT_EDGE.finditer(text) if m["letter"].isupper()]
    if len(led) < _FEWEST or _LETTERLESS.search(text, led[0].end(), led[-1].start()):
        return text, offsets  # where one has no letter, the one above it holds on
    told = {m["letter"]: m["name"].lower() for m in _EDGE_KEY.finditer(text)}
    shades = _told(text) | {letter: name for letter, name in told.items() if COLOURS.intersection(name.split())}
    if not {m["letter"] for m in led} <= set(shades):
        return text, offsets
    edits: list[tuple[int, int, str]] = []
    held = ""
    for match in led:
        anew = match["letter"] != held or _FIRST.search(match["label"]) is not None
        shade = f"With {shades[match['letter']]}, " if anew else ""
        edits.append((match.start("letter"), match.start("body"), f"{match['label']}: {shade}"))
        held = match["letter"]
    return put(text, offsets, edits)


# "o = orange, w = white" above rounds such as "5) w 8, o 2, w 8" and "9) o: inc*6"
_SMALL_KEY = re.compile(r"(?<![^\W_])(?P<letter>[a-z])[ ]?[=:][ ]?(?P<name>[a-z]{3,11}(?:[ ][a-z]{3,11})?)\b")
_LABELLED = re.compile(
    rf"^[^\w\n]{{0,6}}(?:(?:{COURSE})\.?[ ]?#?\d{{1,3}}|\d{{1,3}}(?=[ ]?[.:)-]))[^\n]{{2,300}}$", re.M | re.I
)
_SMALL_LED = re.compile(
    r"(?<=[\d.:), -][ ])(?<![a-z\d][ ])(?P<letter>[a-z])(?P<sign>:?)"
    r"(?=[ ]?(?:\d|[(\[]|(?:inc|dec|sc|[hd]?dc|h?tr|mr)\b))"
)


# "(R: 2 sc, W: inc) 6 times", "A: 6 sc, B: 12 sc", "N sc 3, C sc 4": such letters within a round
_WITHIN = re.compile(
    r"(?:(?<=[(\[{*])|(?<=[(\[{*,;:][ ])|(?<=[,;]))(?P<letter>[A-Z])"
    r"(?:(?P<sign>:)[ ]?|,?[ ]|(?=\d{1,3}[ ]?[a-z]))(?P<gap>)"
    r"(?=\d|(?:inc|dec|sc|[hd]?dc|h?tr|mr)\b)"
)


_AMOUNT_BEHIND = re.compile(r"(?<![^\W_])(?P<letter>[A-Z])\d{1,2}(?=[,;)\]])")
_MAY_BE_WITHIN = re.compile(r":(?<=[A-Z].) ?[\dimhdst]")


def within(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with "(R) " where such a letter stands within a labelled round; A to H and a colon need no key."""
    told = set(_told(text))
    if not told and _MAY_BE_WITHIN.search(text) is None:
        return text, offsets
    letters = set("ABCDEFGH") | told
    if any(m["letter"] in told for m in _AMOUNT_BEHIND.finditer(text)):
        told = set()  # "(A1, B2, A inc)": a list of letters and their amounts, read as it stands
    edits = [
        (led.start("letter"), led.end("gap"), f"({led['letter']}) ")
        for line in _LABELLED.finditer(text)
        for led in _WITHIN.finditer(text, line.start() + 1, line.end())
        if led["letter"] in (letters if led["sign"] else told)
    ]
    return put(text, offsets, edits) if edits else (text, offsets)


def small(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with the colors of small letters that its key tells, two at least, written out in labelled rounds."""
    told = {m["letter"]: m["name"] for m in _SMALL_KEY.finditer(text)}
    shades = {letter: name for letter, name in told.items() if COLOURS.intersection(name.split())}
    if len(shades) < 2:
        return text, offsets
    edits = [
        (led.start("letter"), led.end("sign"), f"({shades[led['letter']]}) ")
        for line in _LABELLED.finditer(text)
        for led in _SMALL_LED.finditer(text, line.start() + 1, line.end())
        if led["letter"] in shades
    ]
    return put(text, offsets, edits)


def _shade(letter: str, rest: str) -> str:
    """ "o(range)", "k(black)" -> the colour; "" for anything else in brackets."""
    return next((name for name in (f"{letter}{rest}".lower(), rest.lower()) if name in COLOURS), "")


def labelled(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds labelled in their order, and the way back."""
    told = {m["letter"].lower(): _shade(m["letter"], m["rest"]) for m in _TOLD.finditer(text)} if "(" in text else {}
    shades = {letter: name for letter, name in told.items() if name}
    if len(shades) < 2:
        return text, offsets
    led = [m for m in _LED.finditer(text) if m["letter"].lower() in shades and _WORK.search(m["body"])]
    if len(led) < _FEWEST:
        return text, offsets
    way = list(range(len(text))) if offsets is None else offsets
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for n, match in enumerate(led, 1):
        start, end = match.start("letter"), match.end("sign")
        label = f"R{n}: ({shades[match['letter'].lower()]}) "
        parts += [text[at:start], label]
        back += way[at:start]
        back += [way[min(start + i, end - 1)] for i in range(len(label))]
        at = end
    parts.append(text[at:])
    back += way[at:]
    return "".join(parts), back
