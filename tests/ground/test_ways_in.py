"""Everything of the bench has a key and a phrase: the tables of keys, phrases, sheets and what is done by them are held
against each other."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
BENCH = ROOT / "frontend/src/pages/bench"
PHRASES = ROOT / "server/hookside/voice/phrases"

# Sheets that have another name than what is asked for, and those that open from within another that words can walk.
NAMED = {"count": "check"}
KEY_WITHIN = {"colours": "runs", "teach": "hands", "say": "hands"}
WORD_WITHIN = {"colours": "runs", "teach": "hands", "help": "more"}
BY_ITSELF = {"spent"}  # comes up when the hook is back before a slip that was mended
# What is said where a key has a name of its own.
SAID = {"listen": "hold", "help": "more", "passed": "worked_on", "say": "help"}


def _read(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def _table(text: str, start: str, end: str) -> str:
    found = re.search(rf"^{re.escape(start)}.*?^{re.escape(end)}", text, re.MULTILINE | re.DOTALL)
    assert found is not None, start
    return found[0]


def _keys() -> dict[str, list[str]]:
    """The keys of each ask, as the page has them."""
    table = _table(_read(ROOT / "frontend/src/hands/keys.ts"), "export const KEYS", "];")
    return {m[1]: re.findall(r'"([^"]*)"', m[2]) for m in re.finditer(r'ask: "(\w+)",\s*keys: \[([^\]]*)\]', table)}


def _sheets() -> set[str]:
    table = _table(_read(BENCH / "sheets.tsx"), "const SHEETS: Record", "};")
    return set(re.findall(r"^  (\w+):", table, re.MULTILINE))


def _phrases(language: str) -> dict[str, list[str]]:
    rows = tomllib.loads(_read(PHRASES / f"{language}.toml"))["row"]
    found: dict[str, list[str]] = {}
    for row in rows:
        found.setdefault(row["intent"], []).extend(row["phrases"])
    return found


def _cases(path: Path) -> set[str]:
    return set(re.findall(r'case "(\w+)":', _read(path)))


def test_every_ask_has_a_key_of_its_own() -> None:
    keys = _keys()
    assert [ask for ask, own in keys.items() if not own] == []
    all_keys = [key for own in keys.values() for key in own]
    assert len(all_keys) == len(set(all_keys)), "one key, one meaning"
    assert set(keys) <= _cases(BENCH / "asking.ts") | _sheets(), "a key that is pressed does something"


@pytest.mark.parametrize("language", ["en", "ko"])
def test_what_a_key_asks_can_be_said(language: str) -> None:
    phrases = _phrases(language)
    unsaid = [ask for ask in _keys() if not phrases.get(SAID.get(ask, ask))]
    assert unsaid == []
    heard = _cases(BENCH / "handsfree/obey.ts") | {"where", "left", "ahead", "again"}  # told, in telling.ts
    assert {SAID.get(ask, ask) for ask in _keys()} <= heard, "a word that is heard does something"


@pytest.mark.parametrize("language", ["en", "ko"])
def test_every_sheet_has_a_key_and_a_phrase(language: str) -> None:
    keys, phrases = _keys(), _phrases(language)
    for sheet in _sheets() - BY_ITSELF:
        way = KEY_WITHIN.get(sheet, sheet)
        assert keys.get(NAMED.get(way, way)), f"{sheet}: no key"
        way = WORD_WITHIN.get(sheet, sheet)
        ask = NAMED.get(way, way)
        assert phrases.get(SAID.get(ask, ask)), f"{sheet}: no phrase"


def test_what_opens_from_within_a_sheet_is_reached_there_by_words_and_pedals() -> None:
    """Next and back walk such a sheet, done presses what it stands at."""
    files = {"runs": "runssheet.tsx", "hands": "handsfree/handssheet.tsx", "more": "moresheet.tsx"}
    for sheet in {*KEY_WITHIN.values(), *WORD_WITHIN.values()}:
        assert re.search(r"<Sheet [^>]*\bwalked>", _read(BENCH / files[sheet])), sheet


def test_no_sheet_is_deaf() -> None:
    """Each takes words, keys and pedals: it is walked, or answers by itself."""
    own = {"cardsheet", "finishsheet", "recapsheet", "spentsheet", "talksheet", "passedsheet"}
    # What is said or pressed there is tried out: it goes to the work, and to the sheet itself.
    tried = {"saysheet", "teachsheet"}
    deaf = [
        path.name
        for path in BENCH.rglob("*sheet.tsx")
        if path.stem not in own | tried and re.search(r"<Sheet (?![^>]*\bwalked>)", _read(path))
    ]
    assert deaf == []
    for path in BENCH.rglob("*sheet.tsx"):
        if path.stem in own:
            assert re.search(r"\buse(?:Taker|Answers)\(", _read(path)), path.name


def test_the_list_of_everything_names_what_has_a_key() -> None:
    named = re.findall(r'^  \["(\w+)"', _read(BENCH / "moresheet.tsx"), re.MULTILINE)
    keys = _keys()
    assert [name for name in named if not keys.get(NAMED.get(name, name))] == []
    assert len(named) == len(set(named))
