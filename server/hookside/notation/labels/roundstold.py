"""How many courses a body says that it is, beside what its label says: "sc all around, that is six rounds", "That makes
six.", "You now have 8 rounds."

It is held against the numbers of the label alone and makes no course; what denies them is said.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.page.inwords import WORD, value

_ROUNDS = r"(?:rounds|rnds|rows|rds|laps)"
_IN_ALL = r"(?: (?:in all|in total|altogether|all told|total|now|so far|done))"
_TOLD = re.compile(
    r"(?:^|[.;:,!()\[\]-] ?|(?<=around) |(?<=across) |\band )(?:so |now |and |then )*(?:"
    r"(?:that|this|which|these|those|it)(?:'s| is| are| was| were| makes?| gives?(?: you)?| comes? to)|making|giving|"
    r"(?P<far>(?:you|we|there)(?:'ll|'ve| will| should| now| then| already)* (?:have|has|be|are|got)"
    r"(?: now| got| worked| done| made)?)|(?P<bare>))"
    rf" ?(?:a total of |all |now )?(?P<n>\d{{1,3}}|{WORD})"
    rf"(?: (?P<rounds>(?:plain |more |even |straight |such |full |of these |of those )*{_ROUNDS})\b)?"
    rf"(?P<all>{_IN_ALL})?"
    r"(?: (?:of|in) (?:plain |just )?[a-z]{2,8})?(?=\s*(?:[.,;!)\]]|$))",
    re.I,
)
_HINT = re.compile(r"\b(?:that|this|which|these|those|making|giving|have|rounds|rnds|rows|rds|laps)\b", re.I)
_THESE_ALONE = re.compile(r"(?:that|this|which|these|those)", re.I)


@dataclass(frozen=True, slots=True)
class RoundsTold:
    """So many; `named`: it says that they are rounds."""

    n: int
    named: bool


def rounds_beside(body: str) -> RoundsTold | None:
    """What a body says of the number of its courses where it lists none; None where it says nothing."""
    if not _HINT.search(body):
        return None
    for told in _TOLD.finditer(re.sub(r"\s", " ", body)):
        named, n = told["rounds"] is not None, value(told["n"])
        if told["bare"] is not None and not (named and told["all"]):
            continue  # "6 rounds" alone is told to `check_rounds`
        if named or _THESE_ALONE.search(told[0]):
            return RoundsTold(n, named)
    return None
