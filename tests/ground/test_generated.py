"""The page's types are those of the common tongue: the committed file is what generating writes."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

FRONTEND = Path(__file__).resolve().parents[2] / "frontend"


@pytest.fixture
def generate() -> ModuleType:
    spec = importlib.util.spec_from_file_location("generate", FRONTEND / "generate.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_types_have_not_drifted(generate: ModuleType) -> None:
    assert generate.TARGET.read_text(encoding="utf-8") == generate.render(), "run python frontend/generate.py"


def test_symbols_have_not_drifted(generate: ModuleType) -> None:
    assert generate.STITCHES.read_text(encoding="utf-8") == generate.render_stitches()


def test_cards_have_not_drifted(generate: ModuleType) -> None:
    assert generate.CARDS.read_text(encoding="utf-8") == generate.render_cards()


def test_a_schema_becomes_the_type_it_describes(generate: ModuleType) -> None:
    assert generate.typescript({"type": "array", "items": {"anyOf": [{"type": "string"}, {"type": "null"}]}}) == (
        "(string | null)[]"
    )
    numbers = {"type": "object", "additionalProperties": {"type": "integer"}}
    assert generate.typescript(numbers) == "Record<string, number>"
    assert generate.typescript({"enum": ["US", "UK"]}) == "Terms"
    assert generate.typescript({"enum": ["round", "row"]}) == '"round" | "row"'
    assert generate.typescript({"$ref": "#/$defs/Cue"}) == "Cue"
    assert generate.typescript({"const": 1}) == "1"
