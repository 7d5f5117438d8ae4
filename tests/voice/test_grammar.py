"""The grammar for a decoder says the phrases it was given, and nothing else."""

from __future__ import annotations

import re

import pytest

from hookside.voice.engines import Row
from hookside.voice.engines.grammar import jsgf, steps


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


def walk(phrases: list[str], row: Row, words: list[str]) -> float:
    """The best chance of the machine to say these words, 0 where it cannot."""
    last, transitions = steps(phrases, row)
    here = {0: 1.0}

    def silently(states: dict[int, float]) -> dict[int, float]:
        out, fresh = dict(states), dict(states)
        while fresh:
            further: dict[int, float] = {}
            for step in transitions:
                chance = fresh.get(step[0], 0.0) * step[2]
                if len(step) == 3 and chance > out.get(step[1], 0.0):
                    further[step[1]] = out[step[1]] = chance
            fresh = further
        return out

    here = silently(here)
    for word in words:
        after: dict[int, float] = {}
        for step in transitions:
            if len(step) == 4 and step[3] == word and step[0] in here:
                after[step[1]] = max(after.get(step[1], 0.0), here[step[0]] * step[2])
        here = silently(after)
    return here.get(last, 0.0)


def test_a_row_is_walked_through_in_order() -> None:
    row = Row(("one", "two", "twenty one", "twenty two"), 1)
    assert walk([], row, ["two", "twenty", "one"]) > walk([], row, ["one", "two", "twenty", "one"]) > 0
    assert walk([], row, ["two", "twenty", "one"]) > 10 * walk([], row, ["two", "twenty", "two"]) > 0
    assert walk([], row, ["two", "one"]) == 0
    assert walk([], row, ["two", "twenty", "one"]) > 3 * walk([], row, ["two", "twenty"]) > 0  # a breath ends within
    row = Row(row.said, 2)
    assert walk([], row, ["twenty", "one"]) > 10 * walk([], row, ["one", "twenty", "two"]) > 0  # and goes on there
    whole, rest = (walk([], r, ["one", "twenty", "two"]) for r in (row, Row(row.said, 2, half=True)))
    assert rest > 10 * whole > 0  # twenty was said already
    assert walk(["let me count"], row, ["let", "me", "count"]) > 0
    assert walk([], row, ["let", "me", "count"]) == 0
