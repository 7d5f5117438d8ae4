"""What the commands of the shelf and of a making refuse, and what is still true afterwards."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hookside.cli import main

# demo
FLOAT = "Cork Float\nUS terms\n\nFloat (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nFasten off.\n"


class House:
    """Types commands for one data folder; the pattern lies on its shelf, and making 1 is begun."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        (folder / "float.txt").write_text(FLOAT, encoding="utf-8")
        self.pattern = self.typed("keep", str(folder / "float.txt")).output.split()[0]
        self.typed("begin", "Cork Float")

    def typed(self, *words: str) -> Result:
        return CliRunner().invoke(main, [*words, "--folder", str(self.folder / "house")])

    def says(self, *words: str, code: int = 0) -> str:
        done = self.typed(*words)
        assert done.exit_code == code, (words, done.output, done.exception)
        return done.output


@pytest.fixture
def house(tmp_path: Path) -> House:
    return House(tmp_path)


def test_one_more_where_the_pattern_was_taken_off(house: House) -> None:
    house.says("off", "Cork Float")
    assert house.says("copy", "1") == "One more Float, 3 in all.\n"
    assert house.says("copy", "1") == "One more Float, 4 in all.\n"
    page = house.says("paper", "--making", "1")  # its list is of the text that is kept
    assert ("not on the shelf" in page, "To have at hand" in page) == (False, True)
    assert page.count("<h2>Float <small>make 4") == 1


def test_a_copy_that_cannot_be_is_not_claimed(house: House) -> None:
    assert house.says("begin", "Cork Float", "--copies", "Float=99") == "2  Cork Float\n"
    refused = house.says("copy", "2", code=1)
    assert "99 or less" in refused
    assert "One more" not in refused
    assert house.says("choose", "2") == "Nothing is chosen: all as the pattern has it.\n"  # and nothing waits


def test_what_was_taken_off_comes_back_by_its_title(house: House) -> None:
    house.says("off", "Cork Float")
    house.says("away", "1")
    assert "Several are called" in house.says("back", "Cork", code=2)
    assert house.says("back", house.pattern) == "Cork Float is on the shelf.\n"
    house.says("off", "1")
    assert house.says("back", "cork") == "Cork Float, making 1, is among those put away.\n"
    assert house.says("back", "cork") == "Cork Float is on the shelf, at the place it had.\n"
    assert 'Nothing called "gull" was put away or taken off.' in house.says("back", "gull", code=2)
    assert "Put it away first: hookside away 1" in house.says("off", "1", code=2)


def test_nothing_empty_is_kept(house: House, tmp_path: Path) -> None:
    assert "nothing to write down" in house.says("note", "1", " ", code=2)
    assert house.says("note", "1") == ""
    empty, picture, good = tmp_path / "empty.txt", tmp_path / "photo.png", tmp_path / "float.txt"
    empty.write_text(" \n", encoding="utf-8")
    picture.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(64))
    for nothing in (str(empty), "/dev/null", "-"):
        house.says("keep", nothing, code=1)
    told = house.says("keep", str(empty), str(good), str(picture), str(tmp_path / "gone.txt"), code=1)
    assert "photo.png is a picture" in told
    assert f"There is no file {tmp_path / 'gone.txt'}" in told
    assert "1 of 4 files are on the shelf." in told
    assert len(json.loads(house.says("shelf", "--find", "cork", "--json"))["patterns"]) == 1
    assert "without a title" not in house.says("shelf")
    assert "Say which pattern" in house.says("begin", "", code=2)


def test_rounds_and_swatches_that_are_not(house: House) -> None:
    for words in (("begin", "Cork Float", "--order", "77"), ("choose", "1", "--order", "banana")):
        assert "There is no round or row" in house.says(*words, code=1)
    assert house.says("shelf").count("no stitch worked yet") == 1  # none was begun
    house.says("choose", "1", "--gauge", "20 sc = 10 cm", "--yes")
    house.says("choose", "1", "--gauge", "tight", code=1)
    house.says("choose", "1", "--order", "2")
    assert house.says("choose", "1") == "gauge: 20 sc = 10 cm\ncopies: all to the end of 2\n"


def test_bounds_are_said(house: House) -> None:
    assert "1 to 99" in house.says("begin", "Cork Float", "--copies", "Float=0", code=2)
    assert "1 to 99" in house.says("begin", "Cork Float", "--copies", "float=100", code=2)
    assert "A label has 40 letters at most" in house.says("label", "1", "x" * 500, code=1)
    assert "2,000 letters at most, and this has 3,000" in house.says("note", "1", "x" * 3000, code=1)
    assert house.says("likes", "hand=foot", code=1) == '"hand" cannot be that: write right or left.\n'
    assert house.says("likes", "breaks=7", code=1) == '"breaks" cannot be that: write 0, 20, 30 or 50.\n'
