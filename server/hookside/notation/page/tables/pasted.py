"""Tables as they are pasted: columns between bars or tabs become "label: body = count"."""

from __future__ import annotations

import itertools
import re
from functools import lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.tables import columns
from hookside.notation.page.tables.columns import LABEL_CELL
from hookside.notation.page.tables.shadecells import ASIDE
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import SEVERAL_WORDS

_NUMBERED = (
    r"(?:(?:rnd|round|row|rd|r)s?\.?[ ]*)?\d{1,4}"
    r"(?:[ ]*(?:-|to|,|&|and|=)[ ]*(?:(?:rnd|round|row|rd|r)\.?[ ]*)?\d{1,4}){0,12}"
)
# "| 18", "| makes 18 sts", "| n=18"
_COUNT = (
    r"(?:(?:makes|total|gives|now|have|=)[ ]+|(?:n|sts)[ ]?[=:][ ]*)?"
    r"[(\[]?(?P<count>\d{1,4})[)\]]?(?:[ ]*(?:sts?|stitches|sc|dc))?"
)
_THREE = re.compile(
    rf"^[ ]{{0,40}}(?:\|[ ]{{0,40}})?(?P<label>{LABEL_CELL})[ .:]*\|(?P<body>[^|\n]*)\|[ ]*{_COUNT}[ ]*(?:\||$)[^\n]*$",
    re.I | re.M,
)
_TWO = re.compile(
    rf"^[ ]{{0,40}}(?:\|[ ]{{0,40}})?(?P<label>{LABEL_CELL})[ .:]*\|(?P<body>[^|\n]*)(?:\|[ ]*){{0,3}}$",
    re.I | re.M,
)
# "| | stuff, long tail | |", "| - | stuff, long tail | |": a row with one cell filled, between two rounds
_ONE_CELL = re.compile(
    r"^[ ]{0,20}\|(?:[ |-]{0,20}[^|\n]*[a-z]{3}[^|\n]*\|[ |-]{0,20}|[ -]{0,20}\|[ |]{0,20}[^|\n]*[a-z]{3}[^|\n]*)$",
    re.I | re.M,
)
_NO_CELL = re.compile(r"\|[ ]*-(?=[ ]*\|)")
# "7-10 | sc 9 | | until it is long enough": no count, and a remark in the last cell
_REMARKED = re.compile(
    rf"^[ ]{{0,40}}(?:\|[ ]{{0,40}})?(?P<label>{LABEL_CELL})[ .:]*\|(?P<body>[^|\n]*[a-z\d][^|\n]*)\|[ ]*\|"
    r"(?P<remark>[^|\n]*[a-z]{2}[^|\n]*)(?:\|[ ]*){0,3}$",
    re.I | re.M,
)
# "3 | (sc, inc) x 6 | change to blue": what is told beside the row, and no count
_NOTED = re.compile(
    rf"^[ ]{{0,40}}(?:\|[ ]{{0,40}})?(?P<label>{LABEL_CELL})[ .:]*\|(?P<body>[^|\n]*\d[^|\n]*)\|"
    r"(?P<remark>[^|\n]*[a-z]{2}[^|\n]*)(?:\|[ ]*){0,3}$",
    re.I | re.M,
)
_COUNTED = re.compile(r"[ ]*[(\[]?\d{1,4}[ ]?(?:sts?|stitches)\b[)\]]?", re.I)
_RULE = re.compile(r"^[ |:\-+=_]*$", re.M)
_DASHED = _NUMBERED.replace("(?:-|", "(?:[-\u2010-\u2015\u2212]|")  # tabs are read before the signs are tidied
_TAB_LABEL = re.compile(rf"^([ \t]{{0,20}}{_DASHED})[.:]?\t", re.I | re.M)
_TAB_COUNT = re.compile(r"\t(?=[ ]*[(\[]?\d{1,4}(?:[ ]?(?:sts?|stitches))?[)\]]?[ ]*$)", re.I | re.M)
HEADER = frozenset(
    [
        "rnd", "rnds", "round", "rounds", "row", "rows", "no", "nr", "number", "stitch", "stitches", "sts", "st",
        "count", "counts", "total", "instruction", "instructions", "directions", "pattern", "work", "what", "to",
        "do", "notes", "note", "of", "in", "the", "and", "how", "many", "result", "colour", "color", "step",
        "steps", "done", "eyes", "loops", "this", "remark", "remarks",
        "comment", "comments", "points", "meshes", "increase", "decrease", "increases", "decreases", "or",
    ]
)


# "Round 3: 14 dc | 14": the count behind the only bar
_LAST_BAR = re.compile(
    rf"^(?P<body>[ ]{{0,20}}{_NUMBERED}[ ]?[:.)][^|\n]*[^|\s])[ ]*\|[ ]*{_COUNT}[ ]*$", re.I | re.M
)
# "7 dc in each. Total: 14 loops": a closing sentence that counts, whatever the text calls its stitches
_TOTAL = Sought(
    ("total", "in all", "altogether", "stitches:", "stitches :", "result", "yield", "tally", "check", "outcome"),
    r"(?P<seam>[.,;]?)(?P<lead>[ ]{1,4}(?:total|in all|in total|altogether|stitches[ ]?:|"
    r"(?:results?|yields?|tally|check|outcome)(?=[ ]?[:=]))"
    r"[ ]?[:=]?[ ]{1,4})(?P<n>\d{1,4})"
    r"(?P<noun>(?:[ ][a-z]{2,12})?(?:[ ](?:in all|in total|altogether))?)(?P<stop>[ ]{0,4}[.!]?[ ]{0,4})$",
    re.I | re.M,
)


# "= 12 M": how other tongues abbreviate a stitch
_FOREIGN = re.compile(
    r"(?P<n>[=\-][ ]?\d{1,4})(?P<noun>[ ]?(?:M|Ms|Maschen|mailles|mts?|pts?|puntos|steken|oczek))\b", re.I
)


def totals(text: str) -> str:
    """ "Total: 14 loops" at the end of a line is written "= 14"; the length stays."""
    text = _FOREIGN.sub(lambda m: m["n"] + " " * len(m["noun"]), text)
    return _TOTAL.sub(_total, text)


def _total(match: re.Match[str]) -> str:
    sign = "=".rjust(len(match["seam"]) + len(match["lead"]) - 1)
    ends = "." if "." in match["stop"] else ""  # what stands on the next line is a sentence of its own
    return f"{sign} {match['n']}{ends}".ljust(len(match[0]))


# "R3-5 / 14 dc / 14": columns between slashes
_SLASHES = re.compile(
    rf"^(?P<label>[ ]{{0,20}}{_NUMBERED})[ ]+/(?=[ ])(?P<body>[^\n/]*[a-z][^\n/]*(?:/[^\n/]+)?)[ ]/[ ]*{_COUNT}[ ]*$",
    re.I | re.M,
)


# "STEP 2 / EARS / gray, two pieces", "BOOTS // brown": the colour of a part between strokes
_NAME_AND_SHADE = re.compile(
    r"^(?P<name>(?:[^\w\n]{0,6}[A-Za-z]{4,8} ?\d{1,2} / )?[A-Za-z][A-Za-z &'-]{2,30}) (?P<stroke>//?)"
    r"(?= (?P<shade>[a-z]+(?: [a-z]+)?)(?:$|,| /| x ?\d))",
    re.I | re.M,
)


def slashes(text: str) -> str:
    """Rows with slashes between number, words and count, colours behind names; the length stays."""
    text = _NAME_AND_SHADE.sub(
        lambda m: f"{m['name']} {'-'.rjust(len(m['stroke']))}" if _named(m["shade"]) else m[0], text
    )
    return _SLASHES.sub(_parted, text)


def _named(shade: str) -> bool:
    words = shade.lower().split()
    return words[-1] in COLOURS and all(word in COLOURS or word in SHADES for word in words)


def _parted(match: re.Match[str]) -> str:
    line = match[0]
    first = line.index("/", match.end("label") - match.start())
    second = match.end("body") - match.start() + 1
    return line[:first] + ":" + line[first + 1 : second] + "=" + line[second + 1 :]


# "4 | 24 | (2 sc, inc) x 6": the count before the words; a head or a second such row says that it is a table
_COUNT_FIRST = re.compile(
    rf"^(?P<edge>[ ]{{0,20}}\|?[ ]{{0,20}}[(\[]?)(?P<label>{_DASHED})[ ]*[)\]]?[ ]*(?P<bar>[|\t])"
    r"[ ]*(?P<count>\d{1,4})(?P<noun>(?:[ ]?(?:sts?|stitches))?)[ ]*(?P=bar)"
    r"(?P<body>[ ]*(?:[^|\t\n]*[a-z][^|\t\n]*|[+-]?[ ]?\d{1,3}[ ]*|[=-][ ]*))(?P<close>\|?[ ]*)$",
    re.I | re.M,
)
_FEWEST_ROWS = 2


# "12 | R2 | inc x 6": the count in the first column
_COUNT_LABEL = re.compile(
    r"^[ ]{0,8}\|?[ ]{0,4}(?P<n>\d{1,4})[ ]+\|(?=[ ]*(?:rnd|round|row|rd|r)s?\.?[ ]*\d)", re.I | re.M
)

# "[R4] 24 sts | (2 sc, inc) x 6", "Rnd 4 - 24 sts - ...": the count, told as one, between number and words
_TOLD_FIRST = re.compile(
    rf"^(?P<edge>[ ]{{0,20}}[(\[]?)(?P<label>{_NUMBERED})(?P<gap>[ ]*[)\]]?[ ]*[:.|,-]?[ ]*[(\[]?)"
    r"(?<!\d)(?P<count>\d{1,4})(?P<noun>[ ]?(?:sts?|stitches)[)\]]?[ ]*(?:[|:=>;-]+|,|\.(?=[ ])|"
    r"(?=[ ][(\[{*]?(?:\d|sc\b|[hd]?dc\b|h?tr\b|inc|dec|ch\b|ch \d|rep|same|as\b|work|"
    r"(?:single|double) c|half d|into? (?:a )?m|magic)))[ ]*)"
    # `resultfirst` knows "(increase 6: ", "[6 more: "
    r"(?![(\[]?(?:by )?(?:\d{1,2} )?(?:inc|dec|more|fewer|less|[+-](?=\d))[a-z]*\.?(?: by)? ?\d{0,2} ?[:(;=-])"
    r"(?P<body>[a-z\d(\[{*<][^\n]*)$",
    re.I | re.M,
)


def _count_first(match: re.Match[str]) -> str:
    chars = list(match[0].replace("|", " "))
    chars[: len(match["edge"])] = " " * len(match["edge"])
    label, count = match.end("label") - match.start(), match.end("count") - match.start()
    chars[label:count] = ":".ljust(count - label - len(match["count"])) + match["count"]
    bar = match.start("body") - match.start() - 1
    chars[count : bar + 1] = "=".rjust(bar + 1 - count)
    return "".join(chars)


def _told_first(match: re.Match[str]) -> str:
    room = len(match["gap"]) + len(match["count"]) + len(match["noun"])
    edge = match["edge"].replace("(", " ").replace("[", "R" if match["label"].isdecimal() else " ")
    return edge + match["label"] + f": {match['count']}".ljust(room - 1) + "=" + match["body"]


# "4) 24 - 2, inc", "5) 24 - plain": what it comes to in front of a dash, by rows of which each goes on from the last
_DASH_FIRST = re.compile(
    r"^(?P<edge>[ ]{0,20})(?P<label>\d{1,3}(?:-\d{1,3})?)(?P<gap>[).:][ ])(?P<count>\d{1,3})(?P<noun>[ ][-:][ ])"
    r"(?P<body>[^\n]*[a-z][^\n]*)$",
    re.I | re.M,
)
_FEWEST_DASHED = 4
# "1: ring 6" above "2: ...": a first round, and no sixth ring
_RING_FIRST = Sought(
    ("ring ",),
    r"^(?P<lead>[^\w\n]{0,6}1[ ]?[).:][ ])ring (?P<n>\d{1,2})(?=[ ]*(?:[(=.,;]|$)[^\n]*\n[^\w\n]{0,6}2[ ]?[).:][ ])",
    re.I | re.M,
)


def _goes_as_counts(rows: list[re.Match[str]]) -> bool:
    """Do their labels count up, and their numbers go as the stitches of a piece do, from its ring on?"""
    before = 0
    for row, after in zip(rows, [*rows[1:], None], strict=True):
        n, first = int(row["count"]), int(row["label"].split("-")[0])
        if first == 1:
            ring = re.search(r"ring|loop|\bm[rc]\b", row["body"], re.I)
            if not 3 <= n <= 12 or ring is None:
                return False
        elif not before // 2 <= n <= 2 * before:
            return False
        before = n
        last = int(row["label"].split("-")[-1])
        if after is not None and int(after["label"].split("-")[0]) not in (1, last + 1):
            return False
    return len({row["count"] for row in rows}) > 1 and rows[0]["label"].split("-")[0] == "1"


def _dashed(match: re.Match[str]) -> str:
    if match["body"].strip().lower() in ("ring", "loop", "magic ring", "magic loop"):
        return f"{match['edge']}{match['label']}: mr {match['count']}".ljust(len(match[0]))
    return _told_first(match)


def told_first(text: str) -> str:
    """Rows "number, so many stitches, words" likewise, whatever stands between; the length stays."""
    text = _RING_FIRST.sub(lambda m: f"{m['lead']}mr {m['n']}".ljust(len(m[0])), text)
    dashed = list(_DASH_FIRST.finditer(text))
    if len(dashed) >= _FEWEST_DASHED and _goes_as_counts(dashed):
        return _DASH_FIRST.sub(_dashed, text)
    if len(_TOLD_FIRST.findall(text)) < _FEWEST_ROWS:
        return text
    return _TOLD_FIRST.sub(_told_first, text)


def counts_first(text: str) -> str:
    """Rows "number, count, words" become "4: 24 = (2 sc, inc) x 6"; the length stays."""
    if len(_COUNT_FIRST.findall(text)) < _FEWEST_ROWS:
        return text
    return _COUNT_FIRST.sub(_count_first, text)


# "Row 2     1 dc in each dc            16 dc": the count in a column of its own, with wide blanks before it
_APART = re.compile(
    rf"^(?P<row>[^\w\n]{{0,6}}(?:{COURSE})s?\.?[ ]?\d{{1,3}}(?:[ ]?(?:-|to|and|&)[ ]?\d{{1,3}})?[^\n]*?[^\s=.\d-])"
    r"(?P<gap>[ ]{4,})(?P<count>\d{1,3} ?(?:sts?|stitches|sc|[hd]?dc|h?tr)\.?)(?=[ ]*$)",
    re.M | re.I,
)


def counts_apart(text: str) -> str:
    """Two rows or more that end in such a count get an equals sign before it; the length stays."""
    if len(_APART.findall(text)) < _FEWEST_ROWS:
        return text
    return _APART.sub(lambda m: m["row"] + "= ".rjust(len(m["gap"])) + m["count"], text)


def tabs(text: str) -> str:
    """Columns with tabs between them: number, words, count."""
    text = counts_first(text)
    text = _TAB_LABEL.sub(lambda m: m[1] + ":", text)
    return _TAB_COUNT.sub("=", text)


# "| inc | 2 sc in 1 st |": a list of what is shortened
_MEANS = re.compile(
    r"^(?P<edge>[ ]{0,8}\|[ ]{0,8})(?!(?:rnd|round|row|rd|r)s?\.?[ ]*\d)(?P<name>[a-z][a-z\d ./-]{0,12}?)"
    r"(?P<gap>[ ]*)\|"
    r"(?P<what>[^|\n]*(?:crochet|stitch|chain|loop|together|\btog|increase|decrease|\bsts?\b|\bsc\b|ring|round)"
    r"[^|\n]*)"
    r"(?P<close>\|?[ ]*)$",
    re.I | re.M,
)


def meanings(text: str) -> str:
    """Two rows or more that tell what is shortened get a "=" between their cells; the length stays."""
    if len(_MEANS.findall(text)) < _FEWEST_ROWS:
        return text
    return _MEANS.sub(
        lambda m: f"{m['edge'].replace('|', ' ')}{m['name']}{m['gap']}={m['what']}{' ' * len(m['close'])}", text
    )


# "ARMS | make 2 | same as the legs", "FACE | cream | R1 | 6 sc in ring | 6": what heads the rows below, or its own
_SO_MANY = (
    rf"(?:(?:make|work|crochet|need) (?:\d{{1,2}}|{SEVERAL_WORDS})|x ?\d{{1,2}}|"
    rf"(?:\d{{1,2}}|{SEVERAL_WORDS}) ?(?:x|pieces|pcs)|a pair)"
)
_TITLE = re.compile(
    r"^[ ]{0,8}\|?[ ]{0,4}[*_]{0,2}(?!re?p|colou?r|yarn|hook|needle|size|(?:sc|[hd]?dc|h?tr|inc|dec|ch|sl)\b)"
    rf"(?P<name>[A-Za-z][A-Za-z' ]{{1,30}}?)[*_]{{0,2}}:?[ ]{{0,40}}(?P<bar>\|)(?=(?:[A-Za-z ]{{2,24}}\|)?[ ]*(?:"
    rf"[*_(]{{0,2}}{_SO_MANY}[*_)]{{0,2}}(?:,? [a-z, ]{{3,24}})?[ ]*(?:\||$)|(?:rnd|round|row|r) ?1[ ]*\|))[^\n]*$",
    re.I | re.M,
)
_FIRST_LABEL = re.compile(r"\|(?=[ ]*(?:rnd|round|row|r) ?1[ ]*\|)", re.I)


def _titled(match: re.Match[str]) -> str:
    """ "| ARMS | make 2 |" -> "  ARMS - make 2", what else its row tells on lines of their own; the length stays."""
    if all(word in HEADER for word in match["name"].lower().split()):
        return match[0]
    first = _FIRST_LABEL.search(match[0])
    begins = len(match[0]) if first is None else first.start()
    row, head = list(match[0]), match[0][:begins]
    named = match.start("bar") - match.start()
    for at in (at for at, sign in enumerate(head) if sign in "|*_"):
        if head[at] != "|" or at < named or not head[at + 1 :].strip(" |"):
            row[at] = " "
        else:
            row[at] = "-" if at == named else "\n"
    if first is not None:
        row[begins] = "\n"
    return "".join(row)


# "Leg | qty 4": no row of a table where no other stands above it or below
_QUANTITY = re.compile(
    r"^(?P<name>[ ]{0,3}[A-Za-z][A-Za-z ]{1,24}?)[ ]?\|(?P<told>[ ]?(?:qty|quantity)\.?:? ?\d{1,2}[ ]*)$"
    r"(?!\n[^\n|]{0,80}\|)",
    re.I | re.M,
)


def _quantified(match: re.Match[str]) -> str:
    above = match.string[match.string.rfind("\n", 0, max(0, match.start() - 1)) + 1 : match.start()]
    return match[0] if "|" in above else match[0].replace("|", ",")


_FILLED = re.compile(r"[^\s|][ ]{0,200}\|")  # a cell that holds something, in front of another


def bars(text: str) -> str:
    """Rows with bars between their cells, and the rules below their heads; the length stays."""
    text = meanings(text)
    text = _QUANTITY.sub(_quantified, text) if "qt" in text.lower() or "quant" in text.lower() else text
    filled = _FILLED.search(text) is not None
    text = _TITLE.sub(_titled, text) if filled else text
    text = _RULE.sub(lambda m: " " * len(m[0]) if "|" in m[0] else m[0], text)
    text = _ONE_CELL.sub(lambda m: _NO_CELL.sub(lambda e: " " * len(e[0]), m[0]).replace("|", " "), text)
    text = columns.wide(text)
    if not filled:
        return text
    text = _COUNT_LABEL.sub(lambda m: f"({m['n']})".ljust(len(m[0]) - m[0].index(m["n"])).rjust(len(m[0])), text)
    text = counts_first(text)
    text = _LAST_BAR.sub(lambda m: m[0][: m[0].rindex("|")] + "=" + m[0][m[0].rindex("|") + 1 :], text)
    text = _THREE.sub(_three, text)
    text = _NOTED.sub(_noted, _REMARKED.sub(_remarked, text))
    return _TWO.sub(_two, text)


# A table copied cell by cell, each on a line of its own: number, words, count
_STACK = re.compile(r"^[ ]{0,8}(\d{1,4})[ ]*\n([^\n]{1,300})\n[ ]{0,8}(\d{1,4})[ ]*$", re.M)
_SEMICOLONS = Sought((";",), r"^[ ]{0,8}(\d{1,4});([^;\n]{1,300});[ ]*(\d{1,4})[ ]*;?$", re.M)
_COMMAS = Sought((",",), r"^[ ]{0,8}(\d{1,4}(?:-\d{1,4})?),([^\n]{1,300}),[ ]*(\d{1,4})[ ]*$", re.M)


def stacked(text: str) -> str:
    """Cells below one another or between semicolons, where their numbers go up by one; the length stays."""
    for shape, gap in ((_STACK, "\n"), (_SEMICOLONS, ";"), (_COMMAS, ",")):
        rows = [m for m in shape.finditer(text) if not m[2].strip().isdecimal()]
        numbers = [int(m[1].split("-")[0]) for m in rows]
        if len(rows) < 3 or sum(b - a == 1 for a, b in itertools.pairwise(numbers)) < len(rows) // 2:
            continue
        chars = list(text)
        for match in rows:
            chars[text.index(gap, match.end(1))] = ":"
            chars[text.rindex(gap, 0, match.start(3))] = "="
        text = "".join(chars)
    return text


@lru_cache(4096)
def is_header(line: str) -> bool:
    """The head of a table: "Rnd | Instructions | Stitches", in bars, tabs or wide spaces."""
    if len(line) > 120:
        return False
    if "|" not in line and "\t" not in line and "  " not in line:
        return False
    cells = [c for c in re.split(r"\||\t|[ ]{2,}", line) if c.strip()]
    if len(cells) < 2:
        return False
    words = re.findall(r"[a-z]+", line.lower())
    return bool(words) and not re.search(r"\d", line) and all(w in HEADER for w in words)


def _three(match: re.Match[str]) -> str:
    line = match[0]
    first = match.end("label") - match.start()
    bar = line.index("|", first)
    second = line.index("|", bar + 1)
    chars = [" " if c == "|" else c for c in line]
    chars[bar] = ":"
    if line[bar + 1 : second].strip():
        chars[second] = "="
        past = match.end("count") - match.start()
        remark = line.find("|", past)
        if remark < 0 or not columns.REMARK.fullmatch(line[remark:].strip(" |")):
            remark = len(line)
        chars[past:remark] = " " * (remark - past)
        chars[remark : remark + 1] = ASIDE * (remark < len(line))
        number = match.start("count") - match.start()
        chars[second + 1 : number] = " " * (number - second - 1)
    return "".join(chars)


def _remarked(match: re.Match[str]) -> str:
    line = match[0]
    bar = line.index("|", match.end("label") - match.start())
    remark = match.start("remark") - match.start() - 1
    told = f"{line[bar + 1 : remark]}{ASIDE}{line[remark + 1 :]}".replace("|", " ")
    return f"{line[:bar].replace('|', ' ')}:{told}"


def _noted(match: re.Match[str]) -> str:
    """What holds stitches itself is no note."""
    if not columns.STITCH.search(match["body"]) or columns.STITCH.search(match["remark"]):
        return match[0]
    if (told := _COUNTED.match(match["remark"])) is None:
        return _remarked(match)
    line = match[0]
    bar = line.index("|", match.end("label") - match.start())
    start = match.start("remark") - match.start()
    row = f"{line[:bar].replace('|', ' ')}:{line[bar + 1 : start - 1]}={told[0]}"
    return row.ljust(len(line))


def _two(match: re.Match[str]) -> str:
    line = match[0]
    bar = line.index("|", match.end("label") - match.start())
    return line[:bar].replace("|", " ") + ":" + line[bar + 1 :].replace("|", " ")
