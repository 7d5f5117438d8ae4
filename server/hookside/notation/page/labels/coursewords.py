"""What a text calls its rounds in another tongue, or by a letter of its own: "V1:", "Vuelta 2-5." -> "R1:", "Rnd"."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Container
from itertools import pairwise

from hookside.colours import COLOURS
from hookside.notation.labels.label import roman
from hookside.notation.lines.heads.headings import PARTS
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import NUMBER_WORDS

_TO = r"(?:-|to|t/m|a|al|au|bis|et|e|y|und|och|and|til|do|ate|at\u00e9|\u00e0|,|&|\+)"
_LEAD = re.compile(
    rf"^[^\w\n]{{0,6}}(?P<word>[^\W\d_]{{1,10}})\.?[ ]?(?P<n>\d{{1,3}})"
    rf"(?:[ ]?{_TO}[ ]?(?:(?P=word)\.?[ ]?)?(?P<last>\d{{1,3}}))?[ ]?(?:[:.)=]|-(?=[ ]))(?P<body>[^\n]*)$",
    re.M,
)
# "v1 6 sc" where the text explains "v = round", and "v1 (6) 6 sc": no sign behind the number
_UNSIGNED = re.compile(
    rf"^[^\w\n]{{0,6}}(?P<word>[^\W\d_]{{1,10}})\.?[ ]?(?P<n>\d{{1,3}})"
    rf"(?:[ ]?{_TO}[ ]?(?:(?P=word)\.?[ ]?)?(?P<last>\d{{1,3}}))?"
    r"[ ]{1,6}(?P<count>(?=[(\[]\d{1,3}[)\]][ ]))?(?P<body>[a-z\d*(\[][^\n]*)$",
    re.M | re.I,
)
# "C04-C06 | sc all | 12": in the first cell of a table
_IN_CELL = re.compile(
    rf"^[ ]{{0,8}}(?:\|[ ]{{0,8}})?(?P<word>[^\W\d_]{{1,10}})\.?[ ]?(?P<n>\d{{1,3}})"
    rf"(?:[ ]?{_TO}[ ]?(?:(?P=word)\.?[ ]?)?(?P<last>\d{{1,3}}))?[ ]*\|(?P<body>[^\n]*)$",
    re.M,
)
# "1. lap:", "4.-6. kolo -", "2 tier)", "3 p 12 sc": the number first
_BEHIND = r"(?:[^\W\d_]{2,10}(?=\.?[ ]?(?::|-[ ])|\))|[^\W\d_](?=[ ]?(?:[:.)=]|-[ ])|[ ]))"
_NUMBERED = re.compile(
    rf"^[^\w\n]{{0,6}}(?P<n>\d{{1,3}})(?:\.?[ ]?{_TO}[ ]?(?P<last>\d{{1,3}}))?\.?[ ]?(?P<word>{_BEHIND})[ ]?"
    r"(?:\.?[:.)=]|-(?=[ ]))?(?P<body>[^\n]*)$",
    re.M,
)
# "Body: k1. 6 into ring, 6; k2. inc all, 12; k3-k5. ...": the same within a line
_IN_LINE = re.compile(
    rf"(?:^|(?<=[;.:,)] ))(?P<word>[^\W\d_]{{1,4}})\.?[ ]?(?P<n>\d{{1,3}})"
    rf"(?:[ ]?{_TO}[ ]?(?:(?P=word)\.?[ ]?)?(?P<last>\d{{1,3}}))?[.:)](?=[ ](?P<body>[^\n;]{{0,80}}))",
    re.I | re.M,
)
_TWO_IN_LINE = re.compile(r"1[.:)][ ][^\n]{4,120}?[;.,)][ ][^\W\d_]{1,4}\.?[ ]?2[.:)][ ]")
_RANGE = re.compile(
    rf"^(?P<lead>[^\w\n]{{0,6}}(?:Rnd|Row|Rd|R)[ ]*\.?[ ]?\d{{1,3}}[ ]?)(?P<to>{_TO})(?=[ ]?(?:(?:Rnd|Row|Rd|R)[ "
    rf"]*)?\d)", re.M
)
# ... but not "2 dan: ch 1, turn": a row goes on so
_BEGINS = re.compile(r"\b(?:magic|ring|mr)\b|^\W*(?:ch(?:ain)?\b (?!1\b|[23],? (?:and )?turn)\d)", re.I)
_WORKED = re.compile(r"\d|[(\[*]")
_ROWS = frozenset([
    "reihe", "reihen", "fila", "filas", "hilera", "hileras", "rang", "rangs", "riga", "righe", "rij", "rijen",
    "carreira", "carreiras", "rad", "ro",
])  # fmt: skip
# Words that are read as labels already, and such as number something else
_OTHERS = frozenset([
    "r", "rd", "rds", "rnd", "rnds", "round", "rounds", "row", "rows", "line", "lines", "step", "steps", "part",
    "parts", "page", "picture", "pictures", "photo", "photos", "pic", "pics", "fig", "figure", "figures", "image",
    "video", "chapter", "section", "day", "note", "tip", "size", "option", "version", "method", "leg", "legs",
    "arm", "arms", "ear", "ears", "wing", "wings", "fin", "fins", "piece", "square", "strip", "panel", "petal",
    "motif", "colour", "color", "yarn", "ball", "skein", "block", "side", "item", "chart", "no", "nr", "number",
    "x", "slide", "slides", "card", "cards", "sheet", "sheets", "screen", "screens", "post", "posts",
    "component", "components", "element", "elements", "detail", "details", "unit", "units", "object", "objects",
    "task", "tasks", "item", "items", "st", "nd", "rd", "th",
])  # fmt: skip
# ... and such as number whole parts of the work, unless nearly each of their lines prints the count of a round
_STAGES = frozenset(["stage", "stages", "phase", "phases", "tier", "tiers"])
# ... and such as are read as labels before their number: "Lap 4:"
_LAPS = frozenset([
    "circle", "circles", "level", "levels", "rank", "ranks", "series", "turn",
    "turns", "ring", "rings",
])  # fmt: skip
# A first round right below, or below one line of color: what is numbered there is a part
_FIRST_BELOW = re.compile(r"\n(?:[^\n]{0,80}\n)?[^\w\n]{0,6}(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]?0?1(?!\d)", re.I)
_FEWEST = 3  # lines that count up before a word is taken for a label; two of a letter, where both print a count
_PRINTS = re.compile(r"[(\[=] ?\d{1,3} ?(?:(?:sts?|stitch(?:es)?|sc|dc)[ ]?)?[)\]]?\W*$", re.I)
# "T1 8 sc in a magic ring": no sign behind a letter that is glued to its number, but stitches
_STITCHES = re.compile(
    r"\W{0,3}(?:\d{1,3} ?x? ?)?(?:sc|[hd]?dc|h?tr|inc|dec|x|v|increases?|decreases?|magic|mr)\b|"
    r"\W{0,3}[(\[*] ?\d{0,2} ?(?:sc|[hd]?dc|h?tr|inc|dec)\b",
    re.I,
)


_ROMAN = re.compile(
    r"^(?P<lead>[ ]{0,4}\(?)(?P<n>[IVX]{1,6}|[ivx]{1,6})"
    r"(?P<to>\.?[ ]?(?:-|to|and|&|,)[ ]?(?P<last>[IVX]{1,6}|[ivx]{1,6}))?(?P<stop>[.):])"
    r"(?=[ ]?(?P<body>[^\n]*))",
    re.M,
)


# "Rounds VII., VIII., and IX.--Like Round VI."
_ROMAN_LIST = Sought(
    ("rounds ", "rnds ", "rows ", "rounds. ", "rnds. ", "rows. "),
    r"(?P<word>\b(?:Rounds|Rnds|Rows|ROUNDS|ROWS)\.? )"
    r"(?P<list>[IVX]{1,6}(?:\.?(?:,(?: and)?| and| to|-| &)[ ]?[IVX]{1,6}){1,8})"
    r"(?=[.:)]| ?-)"
)

# "Like Round VI.", "Repeat Row IV": an "I" behind such a word may be whoever writes
_ROMAN_NAMED = Sought(
    tuple(f"{word} {figure}" for word in ("round", "rnd", "row") for figure in "ivx"),
    r"(?P<word>\b(?:Round|Rnd|Row) )(?P<n>[IVX]{2,6}|V|I(?=[.:)]))(?=[.,;:) -]|$)",
    re.M,
)


_TELLS_WORK = re.compile(r"\d|\b(?:sc|[hd]?dc|h?tr|inc|dec|plain|even)\b", re.I)


def _in_figures(match: re.Match[str]) -> str:
    values = [roman(n) for n in re.findall(r"[IVX]+", match["list"])]
    on = all(b == a + 1 for a, b in pairwise(values)) or (len(values) == 2 and values[0] < values[1])
    told = f"{values[0]}-{values[-1]}" if on else ",".join(map(str, values))
    return match["word"] + told.rjust(len(match["list"])) if len(told) <= len(match["list"]) else match[0]


def romans(text: str) -> str:
    """Rounds numbered "I. ... II. ... III. ..." get figures: lines that count up from one, all of them with work."""
    text = _ROMAN_LIST.sub(_in_figures, text)
    text = _ROMAN_NAMED.sub(lambda m: f"{m['word']}{roman(m['n'])}".ljust(len(m[0])), text)
    lines = list(_ROMAN.finditer(text))
    values = [roman(m["n"]) for m in lines]
    lasts = [roman(m["last"] or m["n"]) for m in lines]
    if len(lines) < _FEWEST or not all(_TELLS_WORK.search(m["body"]) for m in lines):
        return text
    if any(n not in (1, before + 1) for before, n in zip([0, *lasts], values, strict=False)):
        return text
    out, at = [], 0
    for match, value, last in zip(lines, values, lasts, strict=True):
        room = match.end("stop") - match.start("n")
        sign = "&" if match["to"] and match["to"].strip(". ")[:1] in ("a", "&", ",") else "-"
        figure = f"{value}{sign}{last}{match['stop']}" if match["to"] else f"{value}{match['stop']}"
        figure = figure.ljust(room)[:room]
        out += [text[at : match.start("n")], figure]
        at = match.end("stop")
    return "".join([*out, text[at:]])


# "R10.- to R14.- 54 sc", "R-10) to R-18) 14 sc", "R7.- R8.- 18 sc", "r25 r26 r27 dc around", "R4)-R8) 18 sc",
# "(R3)-(R6)", "R3), R4) and R5)": labels in a row before one body
_NAMED = r"(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]?"
_CHAINED = re.compile(
    rf"(?P<first>\d{{1,3}})"
    rf"(?P<gap>[ ]?[.:)\]]?-?[ ]*(?:(?P<to>to|thru|through|until|up to|a|al|bis|-+)[ ]+|(?<=[.:)\]-])[ ]?"
    r"(?:(?:,|and|&|\+)[ ]+(?:and[ ]+)?)?|(?<=[ .:)-]))[(\[]?)"
    rf"(?=(?P<name>{_NAMED}-?)(?P<last>\d{{1,3}})(?!\d)[ ]*(?:[.:)-]|{_NAMED}\d|\d{{0,3}}[ ]?[a-z*(\[]))",
    re.I,
)
_LABELLED = re.compile(rf"^[^\w\n]{{0,6}}{_NAMED}-?(?=\d)(?=[^\n]{{0,24}}?{_NAMED}-?\d)", re.I | re.M)


def chained(text: str) -> str:
    """Labels in a row become one that lists them, or goes from the first to the last; the length stays."""
    out, at = [], 0
    for begins in _LABELLED.finditer(text):
        here = begins.end()
        while (match := _CHAINED.match(text, here)) is not None:
            first, last = int(match["first"]), int(match["last"])
            spans = match["to"] or match["gap"].rstrip("([").endswith("-")
            if last <= first if spans else last != first + 1:
                break
            sign = "-" if spans else "&"
            out += [text[at : match.start("gap")], sign.ljust(len(match["gap"]))]
            out.append(match["name"].replace("-", " "))  # "R-10) to R-18)"
            at = here = match.end("name")
    return "".join([*out, text[at:]])


# "T = tour, rg = row", "C: career (each turn of the work)": what its list says of its labels
_TOLD = Sought(
    r"[=:][ ](?i:(?:an? )?(?:what|row|line|rank|round|tour|lap|turn|career|circle))",
    r"(?<![^\W_])(?P<name>[A-Za-z]{1,7})\.?[ ]?[=:][ ](?:an? )?(?:(?P<row>rows?|lines?|ranks?)|rounds?|tours?|laps?|"
    r"turns?|careers?|circles?|what (?:one|you|we|is) (?:makes?|works?|made|worked|crochets?|crocheted) (?:in|by) "
    r"(?:the )?rounds?)(?=[ ]?(?:[,;.(/\n]|$))",
    re.I,
)
# "Rnd 8 up to and including 13:", "Tours 3 t/m 5:", "R4 until R8:": words between two numbers of a label
_SPAN = Sought(
    ("up to", "until ", "till ", "t/m ", "to and ", "through to"),
    r"(?P<lead>^[^\w\n]{0,6}(?:rounds?|rnds?|rows?|rds?|r|tours?|laps?|turns?|circles?|steps?|tiers?)\.?[ ]?\d{1,3})"
    r"(?P<to>[ ]?(?:up to(?: and including)?|until|till|t/m|to and (?:with|including)|through to)[ ])"
    rf"(?=(?:{_NAMED})?\d{{1,3}}(?:(?:st|nd|rd|th)\b)?[ ]?(?:[:.)=-]|$))",
    re.I | re.M,
)


# "Rnds 2 to 7 are worked like the shell.": a label, told as a sentence
_LIKENED = Sought(
    (" are ", " is "),
    r"^(?P<lead>[^\w\n]{0,6}(?:rounds?|rnds?|rows?|rds?|r|laps?)\.?[ ]?\d{1,3}"
    r"(?:[ ]?(?:-|to|and|&|through|,)[ ]?\d{1,3})*)"
    r"(?P<verb>[ ](?:are|is)[ ](?:all[ ])?(?:(?:worked|knitted|knit|made|crocheted|done)[ ])?(?:exactly[ ]|just[ ])?)"
    r"(?P<like>(?:the[ ])?same as|identical(?:ly)? to|equal(?:ly)? (?:to|as)|as|like)"
    r"(?=[ ](?!each|one another|follows|a[ ]))",
    re.I | re.M,
)


# "row 13 is where the head starts 1 chain and dc2tog": the label, and what is told of it
_WHERE = Sought(
    (" is where ",),
    r"^(?P<lead>[^\w\n]{0,6}(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]?\d{1,3})"
    r"(?P<told>[ ]is[ ]where[ ][a-z' ]{3,40}?(?:starts?|begins?|ends?|comes?|goes|happens)[,:;]?)"
    r"(?=[ ](?:[(\[*]|\d|sc|[hd]?dc|h?tr\b|ch\b|chain|inc|dec|work\b))",
    re.I | re.M,
)
# "Rounds from 7 to 12:", "Rows from 3 to 5 included:"
_FROM = Sought(
    (" from ",),
    r"^(?P<lead>[^\w\n]{0,6}(?:rounds?|rnds?|rows?|rds?|laps?|turns?))(?P<word>[ ]from[ ])"
    r"(?P<range>\d{1,3}[ ]?(?:-|to|until|through)[ ]?(?:the )?\d{1,3})(?P<incl>(?:[ ](?:incl\.?|included|inclusive))?)"
    r"(?=[ ]?[:.)=-])",
    re.I | re.M,
)
# "R8 done? Eyes in between R6 and R7.": when something is done, and no round
_DONE = Sought(
    ("done", "finished"),
    rf"^[^\w\n]{{0,6}}(?:{_NAMED}#?\d{{1,3}}[ ](?:is[ ])?(?:all[ ])?(?:done|finished)|"
    rf"(?:done|finished)[ ](?:with[ ])?{_NAMED}#?\d{{1,3}})[ ]?[?!:.,][ ](?=[A-Za-z])",
    re.I | re.M,
)


# "2. Row 1: sc in 2nd ch from hook", "3. Row 2: ...": the items of a list, each with its row behind it
_ITEM = re.compile(
    r"^(?P<lead>[ ]{0,6})(?P<n>\d{1,2})[.)][ ]"
    r"(?P<row>(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]?\d{1,3}(?:\b|(?=[:.,-])))?",
    re.I | re.M,
)


def _unlisted(text: str) -> str:
    """Lists of steps without their numbers, where most of these are rows with a label of their own."""
    items = list(_ITEM.finditer(text))
    rows = [m for m in items if m["row"]]
    if len(rows) < 2 or 2 * len(rows) < len(items):
        return text
    numbers = [int(m["n"]) for m in items]
    if any(b not in (1, a + 1) for a, b in pairwise(numbers)):
        return text
    return _ITEM.sub(lambda m: m["lead"] + " " * (len(m["n"]) + 2) + (m["row"] or ""), text)


def _labelled(match: re.Match[str]) -> str:
    like = match["like"] if match["like"][:2].lower() in ("as", "li", "sa", "th") else "as in".ljust(len(match["like"]))
    return match["lead"] + ":".ljust(len(match["verb"])) + like


# "Rounds 3 4 5: sc around", "Rnds 7 8 and 9 -", "RND 6 7 - SC": numbers that count up with blanks between them
_BLANKS_BETWEEN = Sought(
    r"[sSdDwWrR]\.?[ ]?\d{1,3}[ ]\d",
    r"^(?P<lead>[ ]{0,40}[^\w\n]{0,6}(?:(?:rounds?|rnds?|rows?|rds?)\.?[ ]|r\.?[ ]?))"
    r"(?P<list>\d{1,3}(?:[ ]\d{1,3}){1,6})(?P<last>[ ](?:and|&)[ ]\d{1,3})?(?=[ ]?(?:[:.)=]|-[ ]))",
    re.I | re.M,
)


_NEXT_ONE = re.compile(r"^[^\w\n]{0,6}(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]?(\d{1,3})", re.I | re.M)
# "Laps 4-5-6:", "R3-4-5:": each of them named
_DASHES_BETWEEN = Sought(
    r"\d-\d{1,3}-\d",
    r"^(?P<lead>[^\w\n]{0,6}(?:rounds?|rnds?|rows?|rds?|r|laps?)\.?[ ]?)"
    r"(?P<list>\d{1,3}(?:-\d{1,3}){2,6})(?P<last>)(?![\d-])",
    re.I | re.M,
)


# "Next 5 rounds (R5 to R9): 1 sc in each st": which they are stands behind how many
_NEXT_NAMED = Sought(
    ("rounds (", "rnds (", "rds (", "rows (", "rounds [", "rnds [", "rds [", "rows ["),
    r"^(?P<lead>[^\w\n]{0,6}(?:the )?next (?:\d{1,2}|[a-z]{3,6}) (?P<kind>rounds|rnds|rds|rows) [(\[])"
    r"(?:(?:rounds?|rnds?|rows?|rds?|r)\.? ?)?(?P<list>\d{1,3} ?(?:-|to|thru|through) ?(?:(?:rnd|r)\.? ?)?\d{1,3})"
    r"[)\]][:.,]?(?= )",
    re.I | re.M,
)


# "Work even 6 rnds (Rnds 5-10). [24 sts]", "6 rounds plain (5 to 10)": the same behind them, where it is as many
_NAMED_BEHIND = Sought(
    r"[ (](?i:rounds|rnds|rds|rows)[ a-z]{0,17} ?[(\[](?i:rounds|rnds|rds|rows|r)?\.? ?\d",
    r"\b(?P<many>(?P<n>\d{1,2}|[a-z]{3,6}) (?:more )?(?:rounds|rnds|rds|rows)"
    r"(?: (?:even|plain|straight|without shaping|without increas\w+|(?:of|in) [hs]?dc|(?:of|in) sc))?)"
    r"(?P<told> ?[(\[](?:(?:rounds|rnds|rds|rows|r)\.? ?)?(?P<a>\d{1,3})"
    r" ?(?:-|to|thru|through) ?(?:(?:rnd|r)\.? ?)?(?P<b>\d{1,3})[)\]])",
    re.I,
)


_AHEAD = 60  # letters of its sentence in front of how many
_POINTS_BACK = re.compile(r"\b(?:rep|repeat|again|as|like|same|these|those|last)\b", re.I)


def _named_behind(match: re.Match[str]) -> str:
    n = int(match["n"]) if match["n"].isdecimal() else NUMBER_WORDS.get(match["n"].lower(), 0)
    before = match.string[max(0, match.start() - _AHEAD) : match.start()].rsplit("\n", 1)[-1]
    if n < 2 or int(match["b"]) - int(match["a"]) + 1 != n or _POINTS_BACK.search(before):
        return match[0]
    return match["many"] + " " * len(match["told"])


def _named_next(match: re.Match[str]) -> str:
    word = "Rows " if match["kind"].lower() == "rows" else "Rnds "
    return f"{word}{match['list']}:".rjust(len(match[0]))


def _listed(match: re.Match[str]) -> str:
    numbers = [int(n) for n in re.findall(r"\d+", match["list"] + (match["last"] or ""))]
    if any(b != a + 1 for a, b in pairwise(numbers)):
        return match[0]
    if len(numbers) == 2 and " " in match["list"] and match["lead"].rstrip(" .")[-1:] not in "sS":
        after = _NEXT_ONE.search(match.string, match.end())  # "R5 6: dec" in front of R6 comes to six
        if after is None or int(after[1]) != numbers[-1] + 1:
            return match[0]
    return match["lead"] + re.sub("[ -]", ",", match["list"]) + (match["last"] or "")


def coursewords(text: str) -> str:
    """Lines that count up by a word nobody knows get "R" or "Rnd" in its place; the length stays."""
    text = _DONE.sub(lambda m: " " * len(m[0]), _LIKENED.sub(_labelled, text))
    if ". R" in text or ") R" in text or ". r" in text or ") r" in text:
        text = _unlisted(text)
    text = _WHERE.sub(lambda m: m["lead"] + ":".ljust(len(m["told"])), text)
    text = _FROM.sub(lambda m: f"{m['lead']} {m['range']}".ljust(len(m[0])), text)
    text = _NAMED_BEHIND.sub(_named_behind, _NEXT_NAMED.sub(_named_next, text))
    text = _DASHES_BETWEEN.sub(_listed, _BLANKS_BETWEEN.sub(_listed, text))
    text = _SPAN.sub(lambda m: m["lead"] + "-".ljust(len(m["to"])), chained(text))
    listed = {m["name"].lower(): bool(m["row"]) for m in _TOLD.finditer(text)}
    rows = _ROWS | {name for name, row in listed.items() if row}
    for shape in (_LEAD, _UNSIGNED, _NUMBERED, *((_IN_LINE,) if _TWO_IN_LINE.search(text) else ())):
        for words in _counting(text, shape, listed):
            text = _renamed(text, words, shape is _NUMBERED, rows)
    return text


def in_cells(text: str) -> str:
    """The same for the labels of a table with bars, before its columns are told apart."""
    for words in _counting(text, _IN_CELL, ()):
        text = _renamed(text, words, False, _ROWS)
    return text


def _counting(text: str, shape: re.Pattern[str], listed: Container[str]) -> list[set[str]]:
    """The words by which lines count up, with those of their forms that stand at such lines: "giro", "giri".

    `listed`: words that the text itself explains as its rounds or rows.
    """
    told: dict[str, list[tuple[int, int, bool]]] = {}
    forms: dict[str, set[str]] = {}
    printed: Counter[str] = Counter()
    full: Counter[str] = Counter()  # lines that can hardly be else than rounds
    founded: set[str] = set()  # letters whose first line makes a ring or chains: "A1. 6 sc in mr"
    begun: dict[str, int] = {}  # lines that begin anew, as parts do: "Curl 2: ch 12, ..."
    for match in shape.finditer(text):
        word = match["word"].lower()
        told_so = word in listed
        glued = len(word) == 1 and not match[0][match.end("word") - match.start()].isspace()
        if shape is _UNSIGNED and not (told_so or match["count"] or (glued and _STITCHES.match(match["body"]))):
            continue
        part = word in PARTS or word.rstrip("s") in PARTS
        if word in _OTHERS or word in COLOURS or (part and word.rstrip("s") not in listed):
            continue
        if word in _LAPS and shape is not _NUMBERED:
            continue
        n = int(match["n"])
        stem = word[:3]
        told.setdefault(stem, []).append((n, int(match["last"] or n), told_so or bool(_WORKED.search(match["body"]))))
        begins = n > 1 and (_BEGINS.search(match["body"]) or _FIRST_BELOW.match(text, match.end()))
        begun[stem] = begun.get(stem, 0) + bool(begins)
        counted = bool(_PRINTS.search(match["body"]))
        printed[stem] += counted and len(word) == 1
        full[stem] += counted or bool(_STITCHES.match(match["body"]))
        if n == 1 and len(word) == 1 and _BEGINS.search(match["body"]):
            founded.add(stem)
        forms.setdefault(stem, set()).add(word)
    found = []
    for stem, lines in told.items():
        fewest = 1 if stem in listed else _FEWEST - (printed[stem] == len(lines))
        if forms[stem] & _STAGES and 3 * full[stem] < 2 * len(lines) + 1:
            continue
        if stem in founded and len(founded) > 1:
            named = re.search(rf"\bpart {stem}\b", text, re.I) is not None
            fewest = min(fewest, 1 if named else 2)  # each part has its letter: "E1. ... E2. ..." and "F1. ... F2. ..."
        if begun[stem] > 1 or len(lines) < fewest or 2 * sum(worked for _, _, worked in lines) < len(lines):
            continue
        steps = sum(after[0] == before[1] + 1 for before, after in pairwise(lines))
        if 3 * steps < 2 * (len(lines) - sum(n == 1 for n, _, _ in lines)) or steps < fewest - 1:
            continue
        found.append(forms[stem])
    return found


def _renamed(text: str, words: set[str], behind: bool, rows: Container[str]) -> str:
    """The words of a course, before its number or `behind` it, become ours."""
    for word in sorted(words, key=len, reverse=True):
        ours = ("Row" if word in rows else "Rnd") if len(word) > 2 else "R" if word in rows else "Rd"[: len(word)]
        name = rf"{re.escape(word)}(?:s|n|es)?" if len(word) > 2 else re.escape(word)
        rule = (
            rf"(?<=\d)(?P<gap>\.?[ ]?)(?P<name>{name})(?=\.?[ ]?(?::|-[ ]){'|[ ]?[.)=]' if len(word) == 1 else '|[)]'})"
            if behind
            else rf"(?<![^\W_])(?P<gap>)(?P<name>{name})(?=\.?[ ]?\d{{1,3}}(?!\d))"
        )
        if behind and len(word) == 1:  # "3-5p 12sc" has no sign behind its letter
            number = rf"[^\w\n]{{0,6}}\d{{1,3}}(?:\.?[ ]?{_TO}[ ]?\d{{1,3}})?\.?[ ]?"
            lead = rf"(?m)^(?P<lead>{number}){name}[ ](?=[^:.)=\- ])"
            text = re.sub(lead, lambda m: m["lead"] + "R:", text, flags=re.I)
        text = re.sub(rule, lambda m, ours=ours: m["gap"] + ours.ljust(len(m["name"])), text, flags=re.I)  # type: ignore[misc]
    return _RANGE.sub(lambda m: m["lead"] + "-".ljust(len(m["to"])), text)
