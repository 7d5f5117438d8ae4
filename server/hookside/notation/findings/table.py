"""The table of mistakes (mistakes.toml) and how a finding is made from it."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from hookside.notation.page.cleaning import Page
from hookside.notation.vocabulary import NUMBER_WORDS
from hookside.pattern import Finding, Severity, Suggestion, unchecked

_WORDS = {n: word for word, n in NUMBER_WORDS.items() if n <= 12}


@dataclass(frozen=True, slots=True)
class Mistake:
    """One line of the table: how it is said, and samples that must bring it out."""

    code: str
    severity: Severity
    say: str
    samples: tuple[str, ...]


@cache
def table() -> dict[str, Mistake]:
    """Every mistake the reader can name."""
    data = tomllib.loads(files("hookside.notation.findings").joinpath("mistakes.toml").read_text(encoding="utf-8"))
    return {
        code: Mistake(code, line["severity"], line["say"], tuple(line.get("samples", ())))
        for code, line in data.items()
    }


def spell(n: int) -> str:
    """Small numbers in words, as one writes them."""
    return _WORDS.get(n, str(n))


def stitches(n: int) -> str:
    """ "1 stitch", "6 stitches"."""
    return f"{n} stitch{'' if n == 1 else 'es'}"


def say(code: str, **values: Any) -> str:
    """The sentence of a mistake."""
    text = table()[code].say.format(**values)
    return text[:1].upper() + text[1:]


def finding(
    page: Page,
    code: str,
    start: int,
    end: int,
    *,
    piece: str | None = None,
    course: str | None = None,
    course_id: str | None = None,
    expected: int | None = None,
    found: int | None = None,
    suggestions: list[Suggestion] | None = None,
    severity: Severity | None = None,
    **values: Any,
) -> Finding:
    """A finding at a span of the cleaned page, its position told in the original text."""
    first, last = page.span(start, end)
    return unchecked(
        Finding,
        severity=severity or table()[code].severity,
        code=code,
        line=page.line(start),
        column=page.column(start),
        span=max(0, last - first),
        piece=piece,
        course=course,
        course_id=course_id,
        message=say(code, expected=expected, found=found, **values),
        expected=expected,
        found=found,
        suggestions=suggestions or [],
    )
