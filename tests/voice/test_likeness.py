"""How sounds are laid side by side and weighed."""

from __future__ import annotations

import pytest

from hookside.voice.heard import Heard, Span
from hookside.voice.likeness import Sounds, align, kind, measures


def test_sounds_are_laid_beside_those_expected() -> None:
    assert align(["N", "EH", "K", "S", "T"], ["N", "EH", "K", "S", "T"]) == [(s, s) for s in ["N", "EH", "K", "S", "T"]]
    assert align(["G", "OW"], ["K", "OW", "D"]) == [("G", "K"), ("OW", "OW"), ("", "D")]
    assert align(["B", "AE", "K"], ["AE", "K"]) == [("B", ""), ("AE", "AE"), ("K", "K")]
    assert align([], ["S"]) == [("", "S")]


@pytest.mark.parametrize(
    ("pair", "is_a"),
    [(("S", "S"), "same"), (("P", "B"), "kin"), (("P", "IY"), "strange"), (("P", ""), "missing"), (("", "P"), "added")],
)
def test_kinds_of_pairs(pair: tuple[str, str], is_a: str) -> None:
    assert kind(pair) == is_a


def heard(phones: str | None, fit: float | None = -4.0, path: float | None = -5.0) -> Heard:
    spans = (Span("go", 0.0, 0.2, fit, "G OW"), Span("back", 0.2, 0.5, fit, "B AE K"))
    return Heard("go back", 0.0, 0.5, 1.0, path, "pocketsphinx", spans, phones)


def test_what_was_said_is_likelier_than_what_was_not() -> None:
    sounds = Sounds.load("en")
    assert sounds is not None
    said, near, far = (
        sounds.odds(heard(phones, path=path))
        for phones, path in (("G OW B AE K", -5.0), ("K OW B EH T", -10.0), ("S IH M EY N", -30.0))
    )
    assert said is not None
    assert near is not None
    assert far is not None
    assert said > near > far
    assert said > 0 > far
    poor = sounds.odds(heard("G OW B AE K", -12.0))
    assert poor is not None
    assert poor < said
    freer = sounds.odds(heard("G OW B AE K", path=-25.0))  # the freest path does much better than the phrase
    assert freer is not None
    assert freer < said


def test_without_sounds_there_are_no_odds() -> None:
    sounds = Sounds.load("en")
    assert sounds is not None
    assert sounds.odds(heard(None)) is None
    assert measures(heard("G OW", None)) is None
    assert measures(heard("G OW", path=None)) is None
    assert Sounds.load("ko") is None
