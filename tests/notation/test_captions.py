"""Captions that name what may be a job, and are taken for what a picture shows, are told in the note on talk."""

import pytest

from hookside.notation import read

_TEXT = "Buoy\nR1: 6 sc in MR (6)\n{}\nR2: inc x 6 (12)\n"


@pytest.mark.parametrize(
    ("caption", "said"),
    [
        ("[photo 3: eyes in place]", True),
        ("[photo 3: placing the eyes]", True),
        ("(Photo 3: eyes)", True),
        ("[photo 3: 6 sc, inc]", True),
        ("[photo 3: the ring from the front]", False),
        ("[photo 3: place the eyes now]", False),
    ],
)
def test_a_caption_that_may_ask_is_told(caption: str, said: bool) -> None:
    found = [f for f in read(_TEXT.format(caption)).findings if f.code == "talk"]
    assert bool(found) == said
