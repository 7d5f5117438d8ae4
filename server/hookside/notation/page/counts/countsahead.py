"""Counts printed in front of the label: "18 - Rnd 3: (sc, inc) x 6", "[18] 3. (sc, inc) x 6".

They go behind the round, where counts stand. Bare numbers are labels there only where they count up from one: the
number in front is then none, however it is set apart. So do those between a label and its work ("R3 (18) *1 sc, inc*
x 6"). Where nothing but counts in brackets leads the lines ("[6] 6 sc
in a ring", "[12] inc around"), they are no labels either: the rounds get theirs in order.
"""

from __future__ import annotations

import re
from itertools import pairwise

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put
from hookside.notation.page.tables.strokes import steps_on

_FEWEST = 3  # rounds written so; one may be a line of a list
_COUNT = r"(?P<n>\d{1,4})(?: ?(?:sts?|stitches|sc))?"
_SET_APART = _COUNT.replace("<n>", "<set>")
_LED = re.compile(
    rf"^(?P<lead>[ \t]{{0,8}}(?:{_COUNT} ?(?:[-=|)]|:(?= ?(?:\d|(?:{COURSE})\.? ?#?\d))|"
    rf"(?:(?<= st )|(?<= sts )|(?<= stitches ))[ ]{{0,4}}(?=R))|"
    rf"[(\[{{<][ ]{{0,2}}{_SET_APART} ?[)\]}}>][-=|:]?) {{0,2}})"
    rf"(?=(?:{COURSE})\.? ?#?\d|(?P<first>\d{{1,3}})(?: ?- ?(?P<last>\d{{1,3}}))? ?[.:)](?: (?=\S)|(?=[^\d\s.:)])))"
    r"(?P<rest>[^\n]{1,300})$",
    re.I | re.M,
)
_BARE = re.compile(
    rf"^[ \t]{{0,8}}(?P<set>[(\[{{<]{_COUNT} ?[)\]}}>]) {{0,4}}(?=[(\d*A-Za-z])(?P<rest>[^\n]{{2,300}})$", re.M
)
_SEVERAL = re.compile(r"\b(?P<n>\d{1,2}) (?:rounds|rnds|rows|rds)\b", re.I)
_OTHER_LABEL = re.compile(r"(?<!\d )\b(?:rounds?|rnds?|rows?|rds?)\b|^R ?\d|^\d{1,3} ?[-.:)]", re.I)
_LABELLED = re.compile(rf"^[^\w\n]{{0,6}}(?:{COURSE})\.? ?#?\d", re.I | re.M)
_COUNTED = re.compile(r"[(\[{][ ]?\d{1,4}(?: ?(?:sts?|stitches|sc))?[ ]?[)\]}]\W*$")

# A count between a label and its work: in a bracket, whatever sign is behind it, or with its noun between two signs
_RANGE = r"(?:[ ]?(?:-|to|&|and|,|/|\+|\.\.\.?)[ ]?(?:R(?=\d))?\d{1,3}){0,4}"
_SIGNS = r"[ ]?[\])]?[.:=,;>|-]{0,3}"
_BETWEEN_SET = (
    rf"(?P<set>(?:[ ]{{0,4}}[(\[{{<][ ]?{_COUNT}[ ]?[)\]}}>]|"
    rf"(?:[ ]?,|[ ]?-)[ ]?(?P<bare>\d{{1,4}})[ ]?(?:sts|stitches)(?=[ ]?[\])]|[ ]?[.:=,;-]|[ ][(\[*])){_SIGNS})"
)
_NTH = r"\d{1,3}(?:st|nd|rd|th)"
_BETWEEN = re.compile(
    rf"^[^\w\n]{{0,6}}(?:(?:(?:{COURSE}|nr|no|step|line|circle)\.?[ ]?[#(\[]?)\d{{1,3}}{_RANGE}[ ]?[)\]]?[.:]?|"
    rf"{_NTH}(?:[ ]?(?:-|to|and|&)[ ]?{_NTH})?[ ]{COURSE}[.:]?)"
    rf"{_BETWEEN_SET}(?:[ ]{{1,4}}|(?<=[.:)\]}}>])(?=[\d*a-z(\[]))(?P<rest>\S[^\n]{{1,300}})$",
    re.I | re.M,
)

_OTHER_BRACKET = re.compile(
    rf"(?P<lead>\b{COURSE}\.?[ ]?#?\d{{1,3}}{_RANGE}[ ]?[.:]?[ ]?)"
    r"[\[{](?P<count>[ ]?\d{1,4}(?:[ ]?(?:sts?|stitches))?[ ]?)[\]}](?P<sign>[.:,=)-]?)(?=[ -])",
    re.I,
)

# "3 [18] (1, inc) 6 times": labels without a word or a sign, where they count up from one in every part
_BARE_BETWEEN = re.compile(
    rf"^[ \t]{{0,8}}[(\[#]?(?P<first>\d{{1,3}})(?:(?:[ ]?-|\)?[ ]to)[ ]?(?P<last>\d{{1,3}}))?[ ]?[.:)]?"
    rf"{_BETWEEN_SET}[ ]{{1,4}}"
    r"(?P<rest>[^\s\d][^\n]{1,300}|\d{1,3}(?![ ]?[.:)])[^\n]{2,300})$",
    re.I | re.M,
)
_MAY_STAND_BARE = re.compile(r"^[ \t]{0,8}[(\[#]?1[ ]?[.:)]?[ ]{0,4}(?:[(\[{<]|[,-] ?)[ ]?\d", re.M)
# "1 [6] in a ring", "1 (6) sc in mr": its count is its amount as well
_IN_RING = re.compile(
    r"(?:(?:sc|[hd]?dc|h?tr) )?(?:(?:in|into) (?:an? |the |my )?(?:magic |adjustable )?"
    r"(?:ring|loop|circle|mr|mc)|mr|mc)\b",
    re.I,
)


_CHAIN = re.compile(r"(?:make |work )?(?:an? )?(?:\d{1,3} )?ch(?:ain)?s?\b|ch ?\d", re.I)


def put_behind(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such counts in brackets behind their rounds, and the way back; where every round has one."""
    text, offsets = _moved(*_unlabelled(_rounded(text), offsets))
    led = list(_LED.finditer(text))
    sure = len(led) == _FEWEST - 1 and all(" st" in m["lead"] for m in led)  # "6 sts R1 .." is no line of a list
    if (len(led) < _FEWEST and not sure) or _LABELLED.search(text) or any(_COUNTED.search(m["rest"]) for m in led):
        return text, offsets
    counts = [int(m["n"] or m["set"]) for m in led]
    if all(b == a + 1 for a, b in pairwise(counts)) or not _counting_up(led):
        return text, offsets  # the lines of a list are numbered
    way = list(range(len(text))) if offsets is None else offsets
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for match in led:
        start, end = match.span("n" if match["n"] else "set")
        blank = " " * (match.end("lead") - match.start("lead"))
        parts += [text[at : match.start()], blank, match["rest"], f" ({text[start:end]})"]
        back += way[at : match.end()]
        back += [way[start], way[start], *way[start:end], way[end - 1]]
        at = match.end()
    parts.append(text[at:])
    back += way[at:]
    return "".join(parts), back


_A_LABEL = re.compile(rf"\W{{0,3}}(?:(?:{COURSE})\.?[ ]?#?\d|\d{{1,3}}[ ]?[-.:)(\[{{])", re.I)


def _rounded(text: str) -> str:
    """The page with round brackets about the counts behind labels, and a sign that a label has: "Rnd 2 {12}, inc x 6"
    runs on in a paragraph."""
    if len(_OTHER_BRACKET.findall(text)) < _FEWEST:
        return text
    return _OTHER_BRACKET.sub(
        lambda m: f"{m['lead']}({m['count']}){':' if m['sign'] in (',', ')') else m['sign']}", text
    )


def _moved(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with the counts between labels and their work behind it."""
    rows = list(_BETWEEN.finditer(text))
    if not rows and _MAY_STAND_BARE.search(text):
        rows = list(_BARE_BETWEEN.finditer(text))
        rows = rows if _counting_up(rows) and any(m["first"] == "1" for m in rows) else []
    if len(rows) < _FEWEST or any(_COUNTED.search(m["rest"]) for m in rows):
        return text, offsets
    first = rows[0]["rest"]
    if not _IN_RING.match(first) and not _CHAIN.match(first) and not _names(rows[0]):
        return text, offsets  # the first of them tells its stitches: "R1 (6) 6 sc in a ring"
    edits: list[Edit] = []
    for row in rows:
        last = _last_line(text, row.start("rest"), row.end())
        if _whole(text[row.start("rest") : last]):
            start, end = row.span("set")
            number = row["n"] or row["bare"]
            before, within = row[0][: start - row.start()].rstrip()[-1:], row[0].lstrip()[:1]
            closed = {"(": ")", "[": "]"}.get(within, "") if before.isalnum() else ""
            sign = closed or ("" if before in ":.)]" else ":")
            amount = _IN_RING.match(row["rest"]) and not _names(row)  # "R1 (6) MR, 6 sc" says it once more
            edits += [(start, end, f"{sign} {number}" if amount else sign),
                      (last - 1, last, f"{text[last - 1]} ({number})")]  # fmt: skip
    return put(text, offsets, edits) if edits else (text, offsets)


_GOES_ON = re.compile(r"\n(?P<indent>[ \t]*)(?P<line>[^\s\n][^\n]*)")


def _last_line(text: str, at: int, end: int) -> int:
    """Where a round from `at` ends that is wrapped: its other lines are set in, or close what is open, and have no
    label."""
    while (below := _GOES_ON.match(text, end)) is not None:
        line = below["line"]
        open_ = not _whole(text[at:end].rstrip())
        if not (open_ or len(below["indent"]) >= _FEWEST) or _OTHER_LABEL.match(line) or _A_LABEL.match(line):
            break
        end = below.end()
    return end


def _names(row: re.Match[str]) -> bool:
    """Does the work name the very number of its count?"""
    return re.search(rf"(?<!\d){row['n'] or row['bare']}(?!\d)", row["rest"]) is not None


def _whole(rest: str) -> bool:
    """Does the line hold all of a round, as far as its brackets and stars say so?"""
    stars = rest.count("*") % 2 == 0 or re.search(r"\brep", rest, re.I) is not None
    return stars and all(rest.count(a) == rest.count(b) for a, b in ("()", "[]")) and rest[-1] not in ",;"


def _counting_up(led: list[re.Match[str]]) -> bool:
    """Do bare labels go on from one to the next, each part from one? Those that say "round" are labels anyhow."""
    bare = [match for match in led if match["first"] is not None]
    return not bare or (int(bare[0]["first"]) == 1 and steps_on(bare) == len(bare) - 1)


def _unlabelled(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with labels in the place of such counts, these behind; each run of lines begins with what it counts."""
    rows = list(_BARE.finditer(text))
    if len(rows) < _FEWEST or any(_OTHER_LABEL.search(m["rest"]) or _COUNTED.search(m["rest"]) for m in rows):
        return text, offsets
    edits: list[Edit] = []
    n, end = 1, -2
    for row in rows:
        n = n if row.start() == end + 1 else 1
        begins = n > 1 or re.search(rf"(?<!\d){row['n']}(?!\d)", row["rest"]) is not None
        if not begins or int(row["n"]) < _FEWEST:
            return text, offsets  # "[1] cut the felt", "[6] inc around": its number is no count, or not of this round
        end = row.end()
        several = _SEVERAL.search(row["rest"])
        last = n + max(1, int(several["n"]) if several is not None else 1) - 1
        label = f"{n}: " if last == n else f"{n}-{last}: "
        edits += [(*row.span("set"), label), (end - 1, end, f"{text[end - 1]} ({row['n']})")]
        n = last + 1
    return put(text, offsets, edits)
