"""The grammar for a decoder says the phrases it was given, and nothing else."""

from __future__ import annotations

import re

import pytest

from hookside.voice.engines.grammar import jsgf


def sayings(text: str) -> set[str]:
    """Everything that a grammar of the kind written here can say, by writing it out."""
    rules = dict(re.findall(r"(<\w+>) = (.*) ;", text))

    def alternatives(body: str) -> set[str]:
        return {said for part in body.split(" | ") for said in sequence(part.split())}

    def sequence(parts: list[str]) -> set[str]:
        out = {""}
        optional = False
        for part in parts:
            if part in "[]":
                optional = part == "["
                continue
            ways = alternatives(rules[part]) if part in rules else {part}
            out = {f"{a} {b}".strip() for a in out for b in ways | ({""} if optional else set())}
        return out

    return alternatives(rules["<phrase>"])


@pytest.mark.parametrize(
    "phrases",
    [
        {"next round"},
        {"go back", "go to round one", "go to round two", "go to round twenty", "go to round twenty two", "go"},
        {"i have one", "i have two", "count is one", "count is two", "one", "two"},
    ],
)
def test_all_that_was_given_and_nothing_else(phrases: set[str]) -> None:
    assert sayings(jsgf(phrases)) == phrases


def test_equal_ends_are_one_rule() -> None:
    numbers = ["one", "two", "three", "four", "five", "six", "seven"]
    text = jsgf(f"{lead} {n}" for lead in ("go to round", "count is") for n in numbers)
    assert text.count("seven") == 1


def test_no_phrase_at_all_says_nothing() -> None:
    assert "<VOID>" in jsgf([])
