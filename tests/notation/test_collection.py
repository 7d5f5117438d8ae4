"""The collection beside this file: texts in many house styles, with their truth."""

import json
from pathlib import Path

import pytest

from hookside.notation import read

TEXTS = sorted((Path(__file__).parent / "collection").glob("*.txt"))


def test_there_are_thirty() -> None:
    assert len(TEXTS) >= 30


@pytest.mark.parametrize("path", TEXTS, ids=lambda p: p.stem)
def test_text(path: Path) -> None:
    truth = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    pattern = read(path.read_text(encoding="utf-8"))
    assert pattern.terms == truth["terms"]
    assert [(p.name, p.make) for p in pattern.pieces] == [(p["name"], p["make"]) for p in truth["pieces"]]
    for piece, true in zip(pattern.pieces, truth["pieces"], strict=True):
        assert [(c.label, c.kind, c.makes, c.declared) for c in piece.courses] == [
            (c["label"], c["kind"], c["makes"], c["declared"]) for c in true["courses"]
        ]
        assert [(c.after, c.kind) for c in piece.cues] == [
            (c["after"], c["kind"]) for c in truth["cues"] if c["piece"] == true["name"]
        ]
    errors = {(f.piece, f.course) for f in pattern.findings if f.severity == "error"}
    assert errors == {(m["piece"], m["course"]) for m in truth["mistakes"]}
