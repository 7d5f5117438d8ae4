"""How it is done: the technique cards, in the maker's terms.

The data is `cards.toml`, with its sources at the top of that file. The page gets the cards with the rest of itself
(`frontend/generate.py` writes them into its source), so that they are there without a server.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, get_args

from hookside.pattern import CueKind, Terms
from hookside.stitches import TABLE, full_name, plural

# What the hands do without a card: a stitch that is left out needs no more than its word.
WITHOUT_CARD = frozenset({"skip"})

_BRACE = re.compile(r"\{([^{}]+)\}")


@dataclass(frozen=True, slots=True)
class Card:
    """One card, in one set of terms. `steps` are sentences that can be spoken as they stand; `watch` may be ""."""

    key: str
    title: str
    stitches: tuple[str, ...]  # keys of the stitch table
    cues: tuple[CueKind, ...]
    steps: tuple[str, ...]
    watch: str
    sources: tuple[str, ...]


@cache
def cards(terms: Terms) -> tuple[Card, ...]:
    """All cards, in the order of the page that shows them."""
    table = tomllib.loads(files("hookside.words").joinpath("cards.toml").read_text(encoding="utf-8"))
    words: dict[str, list[str]] = table["words"]
    return tuple(_card(entry, words, terms) for entry in table["card"])


def _card(entry: dict[str, Any], words: dict[str, list[str]], terms: Terms) -> Card:
    kinds = tuple(entry.get("cues", ()))
    if unknown := set(kinds) - set(get_args(CueKind)):
        raise ValueError(f"the card {entry['key']} names cues that are none: {sorted(unknown)}")

    def said(text: str) -> str:
        return _BRACE.sub(lambda m: _word(m[1], words, terms), text)

    return Card(
        key=entry["key"],
        title=said(entry["title"]),
        stitches=tuple(entry.get("stitches", ())),
        cues=kinds,
        steps=tuple(said(step) for step in entry["steps"]),
        watch=said(entry.get("watch", "")),
        sources=tuple(entry["sources"]),
    )


def _word(brace: str, words: dict[str, list[str]], terms: Terms) -> str:
    """What stands for a brace: a stitch by its full name, one of the words; KeyError for what is neither."""
    key, several = (brace[:-2], True) if brace.endswith(" s") else (brace, False)
    small = key[:1].lower() + key[1:]
    forms = words.get(small)
    word = full_name(TABLE[small], terms) if forms is None else forms[0 if terms == "US" else 1]
    if several:
        word = plural(word)
    return word if small == key else word[:1].upper() + word[1:]
