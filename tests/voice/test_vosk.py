"""vosk on real sound, with the Korean model that comes as a package. Dither is off, so that it comes out alike."""

from __future__ import annotations

import shutil
import threading
from pathlib import Path
from typing import Any

import pytest

from hookside.voice.engines.with_vosk import ENDPOINT, Vosk, change, settled
from hookside.voice.heard import BYTES_A_SECOND, EngineLost, Heard

from .conftest import feed

PHRASES = ["여기 어디", "다시 시작", "완료", "단 끝"]
NAMES = {"ko-where-here": "여기 어디", "ko-start-again": "다시 시작", "ko-finished": "완료"}


def test_utterances_are_heard_with_their_times(room: Any, korean: Vosk) -> None:
    recogniser = korean.recogniser(PHRASES)
    for name, words in NAMES.items():
        said = room.said(name)
        start = recogniser.clock + 1.0
        (heard,) = feed(recogniser, room.still(1.0) + said + room.still(0.8))
        assert heard.words == words
        assert heard.engine == "vosk"
        assert heard.start == pytest.approx(start, abs=0.15)
        assert heard.end == pytest.approx(start + len(said) / BYTES_A_SECOND, abs=0.15)
        assert heard.quiet >= 0.9
        assert heard.score is not None
        assert 0 < heard.score <= 1
        for span in heard.spans:
            assert heard.start - 0.3 <= span.start < span.end <= heard.end + 0.3
    recogniser.close()


def test_silence_gaps_and_resets(room: Any, korean: Vosk) -> None:
    recogniser = korean.recogniser(PHRASES)
    assert feed(recogniser, room.still(4.0)) == []
    said = room.said("ko-finished")
    feed(recogniser, said[: len(said) // 2])
    recogniser.reset()
    assert feed(recogniser, room.still(1.0)) == []
    feed(recogniser, said)
    (heard,) = recogniser.gap(20.0)
    assert heard.words == "완료"
    assert heard.quiet == pytest.approx(1.0, abs=0.1)
    (heard,) = feed(recogniser, room.said("ko-start-again") + room.still(0.8))
    assert heard.words == "다시 시작"
    assert heard.quiet == pytest.approx(20.0, abs=0.4)
    recogniser.close()


def test_what_is_expected_changes(room: Any, korean: Vosk) -> None:
    recogniser = korean.recogniser(["단 끝"])
    sound = room.still(1.0) + room.said("ko-finished") + room.still(0.8)
    (heard,) = feed(recogniser, sound)
    assert heard.words != "완료"
    recogniser.expect(PHRASES)
    (heard,) = feed(recogniser, sound)
    assert heard.words == "완료"
    assert heard.start == pytest.approx(recogniser.clock - len(sound) / BYTES_A_SECOND + 1.0, abs=0.15)
    assert heard.spans[0].start == pytest.approx(heard.start, abs=0.2)
    recogniser.expect([])
    said = feed(recogniser, sound)
    assert "완료" not in [h.words for h in said]
    recogniser.close()


def test_it_comes_out_alike_each_time_and_in_threads(room: Any, korean: Vosk) -> None:
    sound = b"".join(room.still(0.8) + room.said(name) for name in NAMES) + room.still(0.8)
    told: list[list[Heard]] = [[] for _ in range(4)]

    def listen(i: int) -> None:
        recogniser = korean.recogniser(PHRASES)
        told[i] = feed(recogniser, sound)
        recogniser.close()

    threads = [threading.Thread(target=listen, args=(i,)) for i in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(told[0]) == 3
    assert told[1:] == told[:1] * 3


def test_words_it_does_not_know(korean: Vosk) -> None:
    assert korean.vocabulary(["완료", "끝", "xyzzyx", ""]) == {"완료", "끝"}
    korean.recogniser(["xyzzyx 끝", "단 끝"]).close()


def test_the_copy_has_our_rules_and_the_model_keeps_its_own(korean_folder: Path, tmp_path: Path) -> None:
    before = (korean_folder / "conf" / "model.conf").read_text("utf-8")
    settled(korean_folder, tmp_path, dither=0.0)
    lines = (tmp_path / "conf" / "model.conf").read_text("utf-8").splitlines()
    for rule, seconds in ENDPOINT.items():
        assert [line for line in lines if f".{rule}." in line] == [f"--endpoint.{rule}.min-trailing-silence={seconds}"]
    assert "--endpoint.silence-phones=1:2:3:4:5:6:7:8:9:10" in lines  # what is not ours stays
    assert "--dither=0.0" in (tmp_path / "conf" / "mfcc.conf").read_text("utf-8").splitlines()
    assert (tmp_path / "am").resolve() == (korean_folder / "am").resolve()
    assert (korean_folder / "conf" / "model.conf").read_text("utf-8") == before


def test_an_option_is_set_once(tmp_path: Path) -> None:
    file = tmp_path / "x.conf"
    file.write_text("--a=1\n# told\n--b=2\n", "utf-8")
    change(file, {"a": 3, "c": 4})
    assert file.read_text("utf-8") == "# told\n--b=2\n--a=3\n--c=4\n"


def test_a_folder_that_is_no_model_is_said(tmp_path: Path) -> None:
    (tmp_path / "vosk-model-small-ko-9").mkdir()
    with pytest.raises(EngineLost, match="hookside voice remove vosk-model-small-ko-9") as e:
        Vosk("ko", tmp_path / "vosk-model-small-ko-9")
    assert e.value.code == "damaged"
    with pytest.raises(EngineLost):
        Vosk("ko", tmp_path / "gone")


def test_a_library_that_is_not_there_is_said(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setitem(__import__("sys").modules, "vosk", None)
    with pytest.raises(EngineLost, match=r"start\.py") as e:
        Vosk("ko", tmp_path)
    assert e.value.code == "no-engine"


def test_where_links_cannot_be_made_the_model_is_copied(
    korean_folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    small = tmp_path / "model"
    shutil.copytree(korean_folder / "conf", small / "conf")
    shutil.copytree(korean_folder / "ivector", small / "ivector")

    def refused(*_: Any, **__: Any) -> None:
        raise OSError("a privilege is not held")

    monkeypatch.setattr("os.symlink", refused)
    (tmp_path / "place").mkdir()
    settled(small, tmp_path / "place", None)
    assert {p.name for p in (tmp_path / "place" / "ivector").iterdir()} == {
        p.name for p in (small / "ivector").iterdir()
    }
    assert not (tmp_path / "place" / "ivector").is_symlink()
