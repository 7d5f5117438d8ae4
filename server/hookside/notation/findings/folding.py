"""Findings that are alike by the hundred: the first of them stand, and one says how many more there are."""

from __future__ import annotations

from collections import Counter

from hookside.notation.findings.table import say
from hookside.pattern import Finding

MOST_ALIKE = 100  # of one code; a page that people wrote has fewer


def folded(findings: list[Finding]) -> list[Finding]:
    """The findings in their order; those beyond the first hundred of a code in one, where the first of them stood."""
    many = {code: n for code, n in Counter(f.code for f in findings).items() if n > MOST_ALIKE}
    if not many:
        return findings
    out: list[Finding] = []
    met: Counter[str] = Counter()
    for found in findings:
        met[found.code] += 1
        if found.code not in many or met[found.code] < MOST_ALIKE:
            out.append(found)
        elif met[found.code] == MOST_ALIKE:
            out.append(_rest(found, many[found.code] - MOST_ALIKE + 1))
    return out


def _rest(first: Finding, n: int) -> Finding:
    """One finding for `n` of a code, the first of them given."""
    severity = "warning" if first.code == "count" else first.severity  # the stitches of those can be followed
    return first.model_copy(
        update={
            "code": "more-alike",
            "severity": severity,
            "message": say("more-alike", found=f"{n:,}", message=first.message),
            "expected": None,
            "found": n,
            "suggestions": [],
        }
    )
