"""Tables that tell by how much each round changes: "2   12   +6" becomes "2: +6 = 12" in the same number of characters.

So do those that tell it in words: "2   12   inc 6", "5-8   24   even", "1   6   into the ring".

Only a row whose sum comes out is taken: the count of the row before, and its change, make its own.
"""

from __future__ import annotations

import re

_GAP = r"[ ]{0,12}(?:[ ]{2}|\|)[ ]{0,12}"
_ROW = re.compile(
    rf"^(?P<lead>[ ]{{0,12}}(?:\|[ ]{{0,4}})?)(?P<label>\d{{1,3}}(?:[ ]?-[ ]?\d{{1,3}})?){_GAP}(?P<n>\d{{1,3}}){_GAP}"
    r"(?P<how>[+-][ ]?\d{1,2}|(?P<kind>inc|dec)(?:reases?|s)?\.?[ ](?:by[ ])?(?P<by>\d{1,2})|"
    r"no change|unchanged|even|plain|same|as it is|"
    r"(?P<ring>(?P<so_many>\d{1,2} (?:sc|dc) )?(?:(?:sc|dc|sts) (?=in))?(?:in(?:to)? )?(?:(?:an?|the) )?"
    r"(?:magic (?:ring|circle|loop)|ring|mr)))"
    r"[ ]{0,12}\|?[ ]{0,12}$",
    re.M,
)
_HINT = re.compile(r"\d[ |]{2,24}(?:[+-] ?|(?:inc|dec)[a-z.]{0,7} (?:by )?)\d{1,2}[ |]{0,12}$", re.M)


def retold(text: str) -> str:
    """The page with such rows as rounds: their change as their work, and their number as their count."""
    if not _HINT.search(text):
        return text
    out, at = [], 0
    last: int | None = None
    for row in _ROW.finditer(text):
        n, how = int(row["n"]), re.sub(r"(?<=[+-]) ", "", row["how"])
        if row["kind"]:
            how = f"{'+' if row['kind'] == 'inc' else '-'}{row['by']}"
        if row["ring"]:
            comes_to = int(how.split()[0]) if row["so_many"] else n
            how = how if row["so_many"] else f"mr {n}"
        elif last is None or (how[0] in "+-" and not row["label"].isdecimal()):
            last = None  # "4-6   36   +6": in each of them, or in all
            continue
        else:
            comes_to = last + (int(how) if how[0] in "+-" else 0)
            how = how if how[0] in "+-" else "even"
        last = n if comes_to == n else None
        told = f"{row['lead'].replace('|', ' ')}{row['label']}: {how} = {n}"
        if comes_to == n and len(told) <= len(row[0]):
            out += [text[at : row.start()], told.ljust(len(row[0]))]
            at = row.end()
    return "".join([*out, text[at:]])
