"""The bounds that the long run reports."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from typing import Any

import pytest

PLACE = Path(__file__).parents[1] / "listening" / "bounds.py"


@pytest.fixture(scope="module")
def bounds() -> Any:
    spec = importlib.util.spec_from_file_location("listening_bounds", PLACE)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


# One-sided 95 %: half the 0.95 quantile of chi-square with 2 (n + 1) degrees of freedom, as scipy 1.17 gives it.
@pytest.mark.parametrize(("count", "most"), [(0, 2.99573), (1, 4.74386), (5, 10.51303), (40, 52.06937)])
def test_events(bounds: Any, count: int, most: float) -> None:
    assert bounds.events(count) == pytest.approx(most, abs=1e-4)


# The 0.95 quantile of the beta distribution (n + 1, of - n), as scipy 1.17 gives it.
@pytest.mark.parametrize(("count", "of", "most"), [(0, 100, 0.029513), (3, 60, 0.124187), (5, 100, 0.102253)])
def test_shares(bounds: Any, count: int, of: int, most: float) -> None:
    assert bounds.share(count, of) == pytest.approx(most, abs=1e-5)


def test_reports(bounds: Any) -> None:
    assert bounds.a_minute(0, 30.0) == {"events": 0, "minutes": 30.0, "a_minute": 0.0, "at_most": 0.1}
    assert bounds.right(97, 100)["share"] == 0.97
    assert bounds.share(4, 4) == 1.0
