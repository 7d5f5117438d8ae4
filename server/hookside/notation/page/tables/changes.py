"""Tables that tell by how much each round changes: "2   12   +6" becomes "2: +6 = 12".

So do those that tell it in words: "2   12   inc 6", "5-8   24   even", "1   6   into the ring".

Only a row whose sum comes out is taken: the count of the row before, and its change, make its own. Lists of them have
labels, and may leave the count to be worked out: "#2 +6", "R7: -6 (12)", "R4-6: =".
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put

_GAP = r"[ ]{0,12}(?:[ ]{2}|\||[ ][/:](?=[ ]))[ ]{0,12}"
_LEAD = r"^(?P<lead>[ ]{0,12}(?:\|[ ]{0,4})?)(?P<label>\d{1,3}(?:[ ]?-[ ]?\d{1,3})?)"
_HOW = (
    r"(?P<how>[+-][ ]?\d{1,2}|(?P<kind>inc|dec)(?:reases?|s)?\.?[ ](?:by[ ])?(?P<by>\d{1,2})|"
    r"no change|unchanged|even|plain|same|as it is|[+-]?0|\u00b1[ ]?0|[=-](?=[ |]*$)|"
    r"(?P<ring>(?P<so_many>\d{1,2} (?:sc|dc) )?(?:(?:sc|dc|sts) (?=in))?(?:in(?:to)? )?(?:(?:an?|the) )?"
    r"(?:magic (?:ring|circle|loop)|ring|mr)(?: start)?|start))"
)
_ENDS = r"[ ]{0,12}\|?[ ]{0,12}$"
_COUNT_FIRST = re.compile(rf"{_LEAD}{_GAP}(?P<n>\d{{1,3}}){_GAP}[(\[]?{_HOW}[)\]]?{_ENDS}", re.M)  # "2  12  (+6)"
_CHANGE_FIRST = re.compile(rf"{_LEAD}{_GAP}[(\[]?{_HOW}[)\]]?{_GAP}(?P<n>\d{{1,3}}){_ENDS}", re.M)  # "| 2 | +6 | 12 |"
_LISTED = re.compile(
    rf"^[ ]{{0,8}}(?P<label>(?:{COURSE}\.?[ ]?|#[ ]?)\d{{1,3}}(?P<to>[ ]?(?:-|to)[ ]?\d{{1,3}})?)[ ]?[:.)-]?[ ]{_HOW}"
    r"(?:[ ]?[(\[=][ ]?(?P<n>\d{1,3})[)\]]?)?[ ]*$",
    re.M | re.I,
)
_SIGNED = re.compile(
    rf"^[ ]{{0,8}}(?:{COURSE}\.?[ ]?|#[ ]?)\d{{1,3}}[ ]?[:.)-]?[ ][+-][ ]?\d{{1,2}}(?:[ ]?[(\[=]|[ ]*$)", re.M | re.I
)
_COMES_TO = re.compile(
    r"[(\[=][ ]?(\d{1,3})[)\]]?\W*$|[ ](\d{1,3}) (?:sc|dc) in\b.{0,12}(?:ring|mr|circle|loop)\W*$|"
    r"\bmr (\d{1,2})\W*$",
    re.I,
)
# "Row | Number | Change" above them
_COLUMNS = re.compile(
    r"(?:^|\n)(?P<words>[ |]{0,8}(?:rounds?|rows?|rnds?|no\.?|#)"
    r"(?:[ ]{0,12}(?:[ ]|\||/)[ ]{0,12}"
    r"(?:numbers?|stitches|sts|counts?|totals?|changes?|difference|work|how|[+]/-)){2})"
    r"[ ]{0,12}\|?[ ]*\n$",
    re.I,
)
_LONGEST_HEAD = 80
_HINT = re.compile(
    r"\d[ |]{2,24}[(\[]?(?:[+-] ?|(?:inc|dec)[a-z.]{0,7} (?:by )?)\d{1,2}[)\]]?[ |]{0,12}$|"
    r"(?:\|| [/:])[ ]*[(\[]?[+-] ?\d{1,2}[)\]]?[ ]*(?:\||/)",
    re.M,
)


def retold(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rows as rounds, their change as their work and their number as their count; the way back."""
    if len(_SIGNED.findall(text)) > 1:
        text, offsets = put(text, offsets, _listed(text))
    if not _HINT.search(text):
        return text, offsets
    edits: list[Edit] = []
    last: int | None = None
    rows = max((list(form.finditer(text)) for form in (_COUNT_FIRST, _CHANGE_FIRST)), key=len)
    columns = _COLUMNS.search(text, max(0, rows[0].start() - _LONGEST_HEAD), rows[0].start()) if rows else None
    if columns is not None:
        edits.append((*columns.span("words"), ""))
    for row in rows:
        n, how = int(row["n"]), re.sub(r"(?<=[+-]) ", "", row["how"])
        still = how.strip("+-\u00b1 ") in ("0", "") or how[0] not in "+-"
        if row["kind"]:
            how, still = f"{'+' if row['kind'] == 'inc' else '-'}{row['by']}", False
        if row["ring"]:
            comes_to = int(how.split()[0]) if row["so_many"] else n
            how = how if row["so_many"] else f"mr {n}"
        elif last is None or not (still or row["label"].isdecimal()):
            last = None  # "4-6   36   +6": in each of them, or in all
            continue
        else:
            comes_to = last + (0 if still else int(how))
            how = "even" if still else how
        last = n if comes_to == n else None
        if comes_to == n:
            begins, ends = row.span("how")
            edits += [(row.end("label"), begins, ": "), (ends, row.end(), f" = {n}")]
            edits += [(begins, ends, how)] if how != row["how"] else []
            edits += [(row.start("lead"), row.end("lead"), "")] if "|" in row["lead"] else []
    return put(text, offsets, edits) if edits else (text, offsets)


def _listed(text: str) -> list[Edit]:
    """Changes in a list with labels, where they come to the counts that are printed."""
    edits: list[Edit] = []
    last: int | None = None
    at = 0
    for line in text.split("\n"):
        row = _LISTED.match(text, at, at + len(line))
        at += len(line) + 1
        if row is None:
            told = _COMES_TO.search(line)
            last = int(next(n for n in told.groups() if n)) if told is not None else None
            continue
        how = row["how"].replace(" ", "")
        still = how[0] not in "+-" or how.strip("+-") in ("0", "")
        printed = int(row["n"] or (row["so_many"] or "0").split()[0]) or None
        if row["ring"] or row["kind"] or (row["to"] and not still):
            last = printed
            continue
        comes_to = None if last is None else last + (0 if still else int(how))
        if comes_to is not None and comes_to > 0 and printed in (None, comes_to):
            printed_so = f" = {comes_to}" if row["n"] else ""
            edits.append((row.end("label"), row.end(), f": {'even' if still else how}{printed_so}"))
        last = comes_to if printed is None else printed
    return edits
