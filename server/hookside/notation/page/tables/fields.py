"""Rounds told as the fields of a form: "Round: 3", "Work: (sc, inc) x 6", "Stitches: 18", below or beside one another.

Each becomes one line, "Round 3: (sc, inc) x 6 = 18", in the same number of characters. A field of colours or notes is
handed on as the cell of a table is (`shadecells`).
"""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass

from hookside.notation.page.tables.columns import STITCH
from hookside.notation.page.tables.shadecells import ASIDE, END, MARK

# One of these is in every form that is read here; a page without them is looked at no further
_HINTS = (
    "round:", "rnd:", "row:", "step:", "rounds:", "rows:", "round\":", "row\":", "round =", "row =", "round :",
    "no.:", "no:", "number:", "sts:", "stitches:", "stitches =", "sts =", "count:", "total:", "total =", "makes:",
    "work:", "have:",
)
# a label with a sign in front of its number, or as rounds are always labelled, and nothing behind it in its field
_LABEL = re.compile(
    r"^[^\w\n(]{0,6}(?:(?P<word>rounds?|rnds?|rds?|rows?|steps?|laps?|r)"
    r"(?P<gap>[ ]?(?:no\.?|nr\.?|number|#)?[\"*]{0,2}[ ]{0,2}(?P<sign>[:=][\"* ]{0,4})?))?"
    r"(?P<n>\d{1,3}(?:[ ]?(?:-|to|&)[ ]?\d{1,3})?)[\"*.:)]{0,2}(?=[ ]{0,4}(?:$|[,;/|]))",
    re.I | re.M,
)
_SEPARATOR = re.compile(r"[ ]{0,4}(?:\n[ \n]{0,8}|[,;/|][ ]{0,4})(?=\S)")
_COUNT = (
    r"(?:total )?(?:number of |no\.? of )?(?:stitch(?:es)?|sts?)(?: count| total)?|count|total(?: count)?|in all|makes|"
    r"(?:you |now )?have|comes to"
)
_WORK = r"work|do|instructions?|directions?|how(?: to)?|what(?: to do)?|text|pattern"
_SHADE, _NOTE = r"colou?rs?|yarns?|shades?", r"notes?|remarks?|comments?|tips?"
_FIELD = re.compile(
    rf"[^\w\n(]{{0,4}}(?:(?P<count>{_COUNT})|(?P<work>{_WORK})|(?P<shade>{_SHADE})|(?P<note>{_NOTE}))"
    r"[\"*]{0,2}[ ]{0,2}[:=][\"* ]{0,4}",
    re.I,
)
_NEXT_FIELD = re.compile(rf"[ ]{{0,4}}[,;/|](?={_FIELD.pattern})", re.I)
_NUMBER = re.compile(r"(?P<n>\d{1,4})(?: ?(?:sts?|stitches))?[ .\"*}]{0,4}", re.I)
# "Sts: 18" below a round that has its label, in brackets or not
_COUNT_BELOW = re.compile(
    rf"^(?P<lead>[ ]{{0,8}}[(\[]?)(?P<name>(?:{_COUNT})[ ]?[:=][ ]{{0,3}})"
    r"(?P<n>\d{1,4})(?P<noun>(?: ?(?:sts?|stitches))?)(?=[)\]]?[ .]*$)",
    re.I | re.M,
)
# "Part: Ear", "Make: 2", "Quantity: 2"
_PART = re.compile(r"^(?P<name>[ ]{0,8}(?:part|piece|section)[ ]?[:=])(?=[ ]{0,3}[a-z])(?P<rest>[^\n]*)$", re.I | re.M)
_QUANTITY = re.compile(
    r"^(?P<lead>[ ]{0,8})(?P<name>(?:make|quantity|qty|copies|how many|pieces)[ ]?[:=])(?=[ ]{0,3}\d{1,2}[ .]*$)",
    re.I | re.M,
)
# "PIECE: Egg     COPIES: 2     HOOK: 3.5": beside the name
_BESIDE_NAME = re.compile(
    r"(?P<gap>[ ]{2,}|[ ]?[,;/|][ ]?)(?:(?:copies|make|quantity|qty|how many|pieces)[ ]?[:=][ ]{0,3}(?P<n>\d{1,2})|"
    r"(?P<hook>hook|yarn|colou?r)[ ]?[:=][^:=\n]*?)(?=[ ]{2,}|[ ]?[,;/|]|[ ]*$)",
    re.I | re.M,
)
_FEWEST = 2
_MOST_FIELDS = 5
_LONGEST_END = 4


@dataclass(slots=True)
class _Field:
    kind: str
    named: bool
    gap: int  # where what parts it from the field before begins
    start: int
    end: int


def fields(text: str) -> str:
    """The page with such records written as courses, where their numbers go up; the length stays."""
    low = text.lower()
    return _below(_records(text)) if any(hint in low for hint in _HINTS) else text


def _below(text: str) -> str:
    """Counts that stand by name below their rounds, as "= 18"."""
    found = [m for m in _COUNT_BELOW.finditer(text) if STITCH.search(text, *_line_above(text, m.start()))]
    if len(found) < _FEWEST:
        return text
    chars = list(text)
    for match in found:
        sign = " " if match["lead"].strip() else "="
        chars[match.start("name") : match.end("name")] = f"{sign.rjust(len(match['name']) - 1)} "
        chars[match.start("noun") : match.end("noun")] = " " * len(match["noun"])
    return "".join(chars)


def _line_above(text: str, at: int) -> tuple[int, int]:
    """Span of the last line in front of `at` that is not empty, over one empty one."""
    end = max(0, at - 1)
    end = end - 1 if text[end - 1 : end] == "\n" else end
    return text.rfind("\n", 0, end) + 1, end


def _records(text: str) -> str:
    found = list(_LABEL.finditer(text))
    if len(found) < _FEWEST:
        return text
    numbers = [[int(d) for d in re.findall(r"\d+", m["n"])] for m in found]
    if 2 * sum(b[0] in (1, a[-1] + 1) for a, b in itertools.pairwise(numbers)) < len(numbers) - 1:
        return text
    chars = list(text)
    for match, after in itertools.zip_longest(found, found[1:]):
        _written(text, chars, match, after.start() if after is not None else len(text))
    text = _PART.sub(
        lambda m: " " * len(m["name"]) + _BESIDE_NAME.sub(_beside_name, m["rest"]), "".join(chars)
    )
    return _QUANTITY.sub(lambda m: f"{m['lead']}{'x'.ljust(len(m['name']))}", text)


def _beside_name(match: re.Match[str]) -> str:
    if match["hook"]:
        return f"{match['gap'][:-1]}\n{match[0][len(match['gap']) :]}"
    many = f"(x{match['n']})" if int(match["n"]) > 1 else ""
    return f"{match['gap']}{many}".ljust(len(match[0]))


def _record(text: str, at: int, end: int) -> list[_Field]:
    """The fields behind a label, as far as one follows upon the other."""
    told: list[_Field] = []
    below = "\n" in text[at : at + 5]
    while len(told) < _MOST_FIELDS and (gap := _SEPARATOR.match(text, at, end)) is not None:
        named = _FIELD.match(text, gap.end(), end)
        worked = any(field.kind == "work" for field in told)
        if named is None and worked and below:
            break
        start = named.end() if named is not None else gap.end()
        stop = text.find("\n", start, end)
        stop = end if stop < 0 else stop
        further = None if below else _NEXT_FIELD.search(text, start, stop)
        stop = further.start() if further is not None else stop
        if named is not None and named["count"] and not below:
            number = _NUMBER.match(text, start, stop)
            stop = number.end() if number is not None and text[number.end() : stop][:1] in ",;/|" else stop
        kind = (named.lastgroup or "") if named is not None else ("note" if worked else "work")
        if kind == "count" and _NUMBER.fullmatch(text, start, stop) is None:
            kind = "work"  # "Stitches: 6 sc in ring"
        if kind == "work" and (worked or not STITCH.search(text, start, stop)):
            break
        told.append(_Field(kind, named is not None, at, start, stop))
        at = stop
    return told if any(field.kind == "work" for field in told) else []


def _written(text: str, chars: list[str], label: re.Match[str], end: int) -> None:
    told = _record(text, label.end(), end)
    if not told or not (label["sign"] or any(field.named for field in told)):
        return
    worked = counted = False
    for field in told:
        chars[field.gap : field.start] = " " * (field.start - field.gap)
        if field.kind == "count":
            number = _NUMBER.match(text, field.start, field.end)
            past = number.end("n") if number is not None else field.end
            chars[past : field.end] = " " * (field.end - past)
            chars[field.start - 1] = "=" if worked else " "
            counted = counted or not worked
        elif field.kind == "work":
            chars[field.start - 1] = "=" if counted else " "
            worked = True
    first = label.end("word") if label["word"] else label.start("n")
    last = label.end() if label["sign"] else label.end() + 1
    lead = " " * (len(label["gap"] or "") > bool(label["sign"]))
    chars[first:last] = f"{lead}{label['n']}:".ljust(last - first)[: last - first]
    for field in told:
        if field.kind in ("shade", "note"):
            chars[field.gap] = MARK if field.kind == "shade" else ASIDE
            if field is not told[-1]:
                chars[field.end] = END
    for at in range(label.start(), told[-1].end):
        if chars[at] in '"{}':
            chars[at] = " "
    for at in range(told[-1].end, min(end, told[-1].end + _LONGEST_END)):
        if chars[at] not in " ,;/|":
            break
        chars[at] = " "  # an empty field ends the line
