"""Bodies that tell stitches alone are read without any of the questions that they would not answer."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookside.notation import read
from hookside.notation.courses import lineup
from hookside.notation.labels.ordinary import ordinary

TEXTS = sorted((Path(__file__).parent / "collection").glob("*.txt"))


@pytest.mark.parametrize("body", ["inc x 6 (12)", "(sc in next 2, inc) x 6 (24)", "sc in each st (30)"])
def test_stitches_and_a_count_are_ordinary(body: str) -> None:
    assert ordinary(body)


@pytest.mark.parametrize(
    "body",
    [
        "repeat R4 (18)", "same", "in blue, as R3", "24 = +6", "work 3 rounds even", "sc around for 3 rounds",
        "sc x 24 around", "sc in the back loops of R5", "sc around (first cone only)", "increase as before to 36",
        "(sc, dec) x 4 (8). Press flat, sc 4 through both layers", "sc around, then work 2 rounds even",
        "inc x 6 (12). Work 12 rounds without shaping.",
    ],
)  # fmt: skip
def test_what_tells_more_is_none(body: str) -> None:
    assert not ordinary(body)


@pytest.mark.parametrize("path", TEXTS[::12], ids=lambda path: path.stem)
def test_all_comes_out_as_with_every_question_asked(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    text = path.read_text(encoding="utf-8")
    quick = read(text)
    monkeypatch.setattr(lineup, "ordinary", lambda body: False)
    assert read(text) == quick
