"""The short form of tests/long/voice.py: the whole way from sound to verdict, on the few sounds that are kept here."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from hookside.voice.engines.with_pocketsphinx import Sphinx
from hookside.voice.listening import Listening

SOUNDS = Path(__file__).parent / "sounds"
PACKET = 1600
SAID = {
    "next-stitch": ("stitch", "stitch", None), "go-back": ("back", None, None), "round-done": ("round", "round", None),
    "where-now": ("where", None, None), "next-repeat": ("repeat", "repeat", None),
    "wake-up-please": ("listen", None, None), "stop-listening": ("hold", None, None),
    "i-have-twelve": ("count", None, 12),
}  # fmt: skip
OPPOSITES = {("next-stitch", "back"), ("go-back", "stitch"), ("stop-listening", "listen"), ("wake-up-please", "hold")}
NAMES = [f"{voice}-{phrase}" for voice in ("slt", "rms", "awb") for phrase in SAID]


class Page:
    def __init__(self, engine: Sphinx, room: Any, **expect: Any) -> None:
        self.told: list[dict[str, Any]] = []
        self.room, self.seq = room, 0
        self.listening = Listening(
            engine, {"language": "en", **expect}, lambda event, **more: self.told.append({"event": event, **more})
        )
        self.send(room.still(2.0))

    def send(self, sound: bytes) -> list[dict[str, Any]]:
        before = len(self.told)
        for at in range(0, len(sound), PACKET):
            self.listening.hear({"do": "sound", "seq": self.seq, "quiet": 0, "at": 0}, sound[at : at + PACKET])
            self.seq += 1
        return self.told[before:]


def test_phrases_are_acted_on_and_none_is_taken_for_another(room: Any, sphinx: Sphinx) -> None:
    page = Page(sphinx, room)
    acted, wrong = [], []
    names = [name for name in NAMES if (SOUNDS / f"{name}.wav").exists()]
    assert len(names) >= 14
    for name in names:
        phrase = name.split("-", 1)[1]
        for told in page.send(room.said(name) + room.still(1.0)):
            if told["event"] == "heard" and told["verdict"] == "act":
                if (told["intent"], told["unit"], told["number"]) == SAID[phrase]:
                    acted.append(name)
                else:
                    wrong.append(f"{name} -> {told['words']}")
                assert (phrase, told["intent"]) not in OPPOSITES
    page.listening.close()
    assert wrong == []
    assert len(acted) >= 0.9 * len(names), sorted(set(names) - set(acted))


def test_talk_moves_nothing(room: Any, sphinx: Sphinx) -> None:
    page = Page(sphinx, room)
    told = page.send(room.said("talk") + room.still(1.0))
    page.listening.close()
    assert [t for t in told if t["event"] == "heard" and t["verdict"] == "act"] == []


@pytest.mark.parametrize("pause", [0.5, 1.4])
def test_a_count_is_followed(room: Any, sphinx: Sphinx, pause: float) -> None:
    at = 0
    count = {"style": "round", "next": list(range(1, 13)), "left": 12, "words": {"inc": False, "dec": False}}
    page = Page(sphinx, room, count=count)
    for name in ("one", "two", "three", "four", "five", "six"):
        for told in page.send(room.said(f"slt-{name}") + room.still(pause)):
            if told["event"] == "counted":
                assert not told["recount"]
                at = told["number"]
                ahead = {**count, "next": list(range(at + 1, 13)), "left": 12 - at}
                page.listening.hear({"do": "expect", "waits": None, "answers": None, "count": ahead}, b"")
    page.listening.close()
    assert at == 6
