"""Yarn by colour, for the copies wanted."""

from __future__ import annotations

import re
from collections.abc import Mapping

from hookside.gather.listing import Item
from hookside.gather.materials import Listed
from hookside.gather.notions import place
from hookside.pattern import Pattern, Piece, Repeat
from hookside.shape import Measures, PieceMeasures, Spread, yarns
from hookside.words import colour_named

_CLAUSES = re.compile(r"\s*[;:]\s*")
_LABEL = re.compile(r"(?:(yarn|colou?r) ([A-Z\d])|MC|CC\d?|[A-Z])\s*:", re.IGNORECASE)
_OF_IT = re.compile(r"\d\s?(?:g|m|grams?|metres?|meters?|balls?|skeins?)\b", re.IGNORECASE)
_PARTS = re.compile(r"\s*,\s*|\s+and\s+")


def yarn(
    pattern: Pattern,
    measures: Measures | None,
    by_number: Mapping[int, PieceMeasures],
    copies: Mapping[int, int],
    listed: Listed,
    hers: str = "",
) -> list[Item]:
    """An item for each colour that is worked, then the other lines of yarn of the text's list.

    `hers`: another yarn, as she said it. The names are of that one then, as the amounts are.
    """
    metres: dict[str, Spread] = {}
    for number, piece in by_number.items():
        for colour, m in piece.yarn_m.by_colour.items():
            metres[colour] = _more(metres.get(colour), m * copies[number], piece.yarn_m)
    metres = _in_order(_gathered(metres, listed.yarns), listed.yarns)
    grams = (
        measures.yarn_g.value / measures.yarn_m.value if measures and measures.yarn_g and measures.yarn_m.value else 0
    )
    items, told = [], set[str]()
    lone = len(metres) == 1
    for colour, long in metres.items():
        line = _line(colour, listed.yarns, lone)
        told.add(line)
        g = Spread(**{k: getattr(long, k) * grams for k in ("value", "low", "high")}) if grams else None
        unlisted = listed.there and not line
        printed = _clause(colour, line, list(metres))
        ball = hers or line or next(iter(listed.yarns), "")
        items.append(
            Item(
                id=f"yarn:{_key(colour) or 'only'}", kind="yarn",
                name=_name(_called(colour, printed), ball, "" if lone else _first(pattern)),
                amount=_amount(long, g), metres=long, grams=g, printed=printed,
                why="; ".join(filter(None, (_hers(hers), _changed(pattern, colour) if unlisted and colour else ""))),
                forgotten=unlisted,
            )
        )  # fmt: skip
    rest = [line for line in listed.yarns if line not in told]
    rest += [part for line in told for part in _unclaimed(line, list(metres))]
    return [*items, *(Item(id=f"yarn:{_key(line)[:60]}", kind="yarn", name=line, printed=line) for line in rest)]


def _gathered(metres: dict[str, Spread], lines: list[str]) -> dict[str, Spread]:
    """The yarn that a text begins with and does not name is the first of its list where that has a label, "Yarn A: 50 g
    blue": one ball, not two."""
    label = _label(lines[0]) if lines else ""
    if "" not in metres or len(metres) == 1 or not label:
        return metres
    same = next((colour for colour in metres if colour and _key(colour) == _key(label)), label)
    found: dict[str, Spread] = {}
    for colour, m in metres.items():
        to = colour or same
        before = found.get(to)
        found[to] = (
            m if before is None else Spread(**{k: getattr(before, k) + getattr(m, k) for k in ("value", "low", "high")})
        )
    return found


def _in_order(metres: dict[str, Spread], lines: list[str]) -> dict[str, Spread]:
    """The colours in the order of the list; what it does not name stays where it is first worked, behind them."""
    whole = _key("\n".join(lines))

    def place(colour: str) -> int:
        found = re.search(rf"\b{re.escape(_key(colour))}\b", whole) if colour else None
        return found.start() if found else len(whole)

    return dict(sorted(metres.items(), key=lambda item: place(item[0])))


def _called(colour: str, printed: str) -> str:
    """ "grey (A)", where the list calls A so: "grey (A)", "A grey 50 g"."""
    if len(colour) != 1:
        return colour
    found = re.search(rf"\b([A-Za-z]{{3,}})\s*\(\s*{re.escape(colour)}\s*\)", printed, re.IGNORECASE)
    led = None if found else re.match(rf"(?:(?:yarn|colou?r)\s+)?{re.escape(colour)}\b\W*(.*)", printed, re.IGNORECASE)
    name = found[1].lower() if found else colour_named(led[1]) if led else ""
    return f"{name} ({colour.upper()})" if name else colour


def _label(line: str) -> str:
    """ "yarn A" of "Yarn A: 50 g blue", "MC" of "MC: blue"; "" where a line has none"""
    found = _LABEL.match(line)
    return f"{found[1].lower()} {found[2].upper()}" if found and found[2] else found[0].rstrip(" :") if found else ""


def in_words(spread: Spread, unit: str) -> str:
    """ "about 64 m (40 to 107)": what may be a third off has no tenths."""
    return f"about {_n(spread.value)} {unit} ({_n(spread.low)} to {_n(spread.high)})"


def _n(value: float) -> str:
    return f"{value:.0f}" if value >= 9.95 else f"{value:.1f}" if value >= 1 else f"{value:.2g}"


def _amount(metres: Spread, grams: Spread | None) -> str:
    words = in_words(metres, "m")
    return f"{words}, {in_words(grams, 'g')}" if grams else words


def _more(before: Spread | None, m: float, of: Spread) -> Spread:
    """Metres of one colour with those of another piece, spread as that piece's yarn is."""
    share = m / of.value if of.value else 0.0
    low, high = of.low * share, of.high * share
    if before is None:
        return Spread(value=m, low=low, high=high)
    return Spread(value=before.value + m, low=before.low + low, high=before.high + high)


def _key(colour: str) -> str:
    return re.sub(r"[^a-z0-9]+", " ", colour.lower().replace("colour", "color")).strip()


def _line(colour: str, lines: list[str], lone: bool) -> str:
    """The line of the list that names a colour; where there is one yarn and one colour, that one."""
    key = re.sub(r"^the | yarn$", "", _key(colour))
    for line in lines:
        if key and re.search(rf"\b{re.escape(key)}\b", _key(line)):
            return line
    known = [line for line in lines if yarns.weight(line) or yarns.metres_per_100_g(line)] or lines
    return known[0] if known and (not key or (lone and len(lines) == 1)) else ""


def _clause(colour: str, line: str, colours: list[str]) -> str:
    """What a line says of one colour: "color A, madder red, 35 g" of a line that names several."""
    if not colour or not line:
        return line
    key = _key(colour)
    others = [_key(other) for other in colours if other and _key(other) != key]
    for clause in _CLAUSES.split(line):
        if not re.search(rf"\b{re.escape(key)}\b", _key(clause)):
            continue
        if _key(clause) == key and len(_CLAUSES.split(line)) == 2:
            return line  # a label, and behind it what it is
        if not any(re.search(rf"\b{re.escape(other)}\b", _key(clause)) for other in others):
            return clause
        return next((part for part in _PARTS.split(clause) if re.search(rf"\b{re.escape(key)}\b", _key(part))), line)
    return line


def _unclaimed(line: str, colours: list[str]) -> list[str]:
    """What a line of several yarns names with an amount and no round was found to be worked in: "C yellow 5 g"."""
    parts = [part for clause in _CLAUSES.split(line) for part in _PARTS.split(clause)]
    if len(parts) < 2:
        return []
    keys = [re.escape(_key(colour)) for colour in colours if colour]
    claimed = re.compile(rf"\b(?:{'|'.join(keys)})\b") if keys else None
    each = [part for part in parts if _OF_IT.search(part) and colour_named(part)]
    return [part for part in each if claimed is not None and not claimed.search(_key(part))]


def _first(pattern: Pattern) -> str:
    """What a colour is called that the text does not name, beside one that it names."""
    return f"the {'color' if pattern.terms == 'US' else 'colour'} it begins with"


def _name(colour: str, line: str, unnamed: str) -> str:
    weight = yarns.weight(line)
    thick = re.search(rf"\b(?:{'|'.join(re.escape(name) for name in weight.names)})\b", line, re.I) if weight else None
    of = f"{thick[0]} yarn" if thick else "yarn"
    said = colour or unnamed
    return f"{of}, {said}" if said else of


def _hers(said: str) -> str:
    """Why the name is not the one of the text's list."""
    if not said:
        return ""
    if yarns.weight(said) or yarns.metres_per_100_g(said):
        return f"by what you said of your own yarn: {said[:80]}"
    return f"your own yarn, “{said[:80]}”: Hookside does not know it. Say its weight (DK) or 100 g = 210 m"


def _changed(pattern: Pattern, colour: str) -> str:
    """Where a colour comes in that the list does not name."""
    for piece in pattern.pieces:
        for cue in piece.cues:
            if cue.kind == "colour" and colour_named(cue.text) == colour:
                return f"implied by {place(piece, cue)}: the colour is worked with, and the list does not name it"
        course = next((course for course in piece.courses if _has(piece, course.id, colour)), None)
        if course:
            where = f"{course.kind} {course.label} of {piece.name or 'the piece'}"
            return f"implied by {where}: the colour is worked with, and the list does not name it"
    return "the list does not name it"


def _has(piece: Piece, course: str, colour: str) -> bool:
    waiting = [node for one in piece.courses if one.id == course for node in one.body]
    while waiting:
        node = waiting.pop()
        if isinstance(node, Repeat):
            waiting += node.body
        elif node.colour == colour:
            return True
    return False
