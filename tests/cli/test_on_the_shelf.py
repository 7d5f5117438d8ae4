"""The commands that do what the page does on the shelf and with a making: asked of a running house, and without one."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from hookside.cli import main
from hookside.cli.hers import in_her_words

if TYPE_CHECKING:
    from tests.conftest import LiveServer

VECTORS = Path(__file__).resolve().parents[1] / "vectors" / "colours.json"
# demo
FLOAT = (
    "Cork Float\nUS terms\n\nFloat (make 2)\nWith cream:\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
    "Change to navy.\nRnd 3: sc around (12)\nFasten off.\n"
)


class House:
    """Types commands for one data folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __call__(self, *words: str, code: int = 0) -> Result:
        done = CliRunner().invoke(main, [*words, "--folder", str(self.folder)])
        assert done.exit_code == code, (words, done.output, done.exception)
        return done


@pytest.fixture
def text(tmp_path: Path) -> str:
    file = tmp_path / "float.txt"
    file.write_text(FLOAT, encoding="utf-8")
    return str(file)


@pytest.fixture
def house(server: LiveServer) -> House:
    return House(server.folder)


def test_a_pattern_is_kept_begun_put_away_and_had_back(house: House, text: str) -> None:
    id = house("keep", text).output.split()[0]
    assert house("begin", "Cork Float", "--copies", "float=3", "--order", "pair").output == "1  Cork Float\n"
    assert house("label", "1", "gift", "harbour").output == "Cork Float: gift, harbour\n"
    found = json.loads(house("shelf", "--find", "gift", "--json").output)
    assert [(one["id"], one["labels"]) for one in found["makings"]] == [(1, ["gift", "harbour"])]
    assert found["patterns"] == []
    house("away", "1")
    assert "Put away\n     1  Cork Float" in house("shelf", "--find", "cork").output
    house("off", "1")
    assert "     1  " not in house("shelf", "--find", "cork").output
    assert house("back", "1").output == "Making 1 is among those put away.\n"
    assert house("back", "1").output == "Cork Float is on the shelf, at the place it had.\n"
    house("off", id)
    assert house("shelf", "--find", "cork float").output.startswith("Begun\n")
    assert id not in house("shelf", "--find", "cork").output
    house("back", id)
    assert id in house("shelf", "--find", "cork").output
    assert "     1  Cork Float" in house("shelf", "--find", "float").output
    assert house("away", "Cork Float").exit_code == 0  # by its title too
    assert "not on the shelf" in house("away", "1", code=1).output
    assert 'No making is called "gull"' in house("away", "gull", code=2).stderr


def test_what_is_said_of_a_making(house: House, text: str, server: LiveServer) -> None:
    house("keep", text)
    house("begin", "Cork Float")
    assert house("note", "1", "count", "twice", "--piece", "Float 2", "--round", "3").output == (
        "Kept at round 3 of Float 2.\n"
    )
    assert house("note", "1").output == "  1  Float 2, round 3: count twice\n"
    assert house("note", "1", "--take", "1").output == "Taken away: count twice\n"
    assert json.loads(house("note", "1", "--json").output) == []
    house("colours", "1", "navy=sea blue")
    said = house("colours", "1", "navy=moss green", "--copy", "Float 2").output
    assert said == "navy: sea blue\nFloat 2, navy: moss green\n"
    assert house("copy", "1", "float").output == "One more Float, 3 in all.\n"
    assert house("choose", "1", "--quiet", "marker", "--yes").exit_code == 0
    assert house("choose", "1", "--terms", "UK", "--gauge", "20 sts and 22 rounds = 10 cm", "--yes").exit_code == 0
    chosen = server.api("GET", "/api/makings/1/choices")[1]["choices"]
    assert (chosen["kinds_off"], chosen["terms"], chosen["copies"]) == (["marker"], "UK", {"1": 3})
    house("choose", "1", "--tell", "marker", "--yes")
    assert "kinds_off" not in server.api("GET", "/api/makings/1/choices")[1]["choices"]


def test_the_same_again_says_what_came_along(house: House, text: str, server: LiveServer) -> None:
    house("keep", text)
    house("begin", "Cork Float", "--copies", "float=4")
    house("colours", "1", "navy=sea blue")
    house("copy", "1")
    house("choose", "1", "--quiet", "marker", "--yes")
    house("note", "1", "a", "note")
    assert house("again", "1").output == (
        "2  Cork Float\nCame along: what you call the colours. "
        "Not taken over: 1 more Float, what you turned down there.\n"
    )
    begun = server.api("GET", "/api/makings/2")[1]
    assert begun["choices"] == {"colours": {"navy": "sea blue"}}
    assert len(begun["runs"]) == 4  # as it was begun; the one more stays with the making it was wanted for


def test_how_she_likes_it(house: House, server: LiveServer) -> None:
    assert "  hand=right\n" in house("likes").output
    said = house("likes", "hand=left", "terms=UK", "breaks=30", "quiet=marker,count", "--who", "Ines").output
    assert said.startswith("Ines:\n  hand=left\n")
    assert "  quiet=marker,count\n" in said
    kept = server.api("GET", "/api/maker")[1]
    assert (kept["hand"], kept["terms"], kept["breaks"], kept["quiet"]) == ("left", "UK", 30, ["marker", "count"])
    assert "  terms=-\n" in house("likes", "terms=-", "quiet=-").output
    assert "hand" in house("likes", "foot=left", code=2).stderr
    assert house("likes", "hand=both", code=1).output != ""


def test_on_paper(house: House, text: str, tmp_path: Path) -> None:
    out = tmp_path / "float.html"
    done = CliRunner().invoke(main, ["paper", text, "--paper", "letter", "-o", str(out)])
    assert (done.exit_code, "laid out for Letter" in done.output) == (0, True)
    page = out.read_text(encoding="utf-8")
    assert "@page { size: letter;" in page
    assert "<b>Round 2</b> inc x 6 (12)" in page
    house("keep", text)
    house("begin", "Cork Float")
    house("colours", "1", "navy=<sea> blue", "--copy", "Float 2")
    made = house("paper", "--making", "1").output
    assert "@page { size: A4;" in made
    assert "<h2>Float 1</h2>" in made  # copies of other colours stand by themselves
    assert "<h2>Float 2</h2>" in made
    assert "; yours: Float 2: &lt;sea&gt; blue" in made
    assert "Change to navy" in made
    assert "Change to &lt;sea&gt; blue" in made
    house("work", "1", "next")  # the colour it begins with is in the first copy's hand, and ticked there
    job = next(
        line for line in house("paper", "--making", "1").output.splitlines() if "class=job" in line and "cream" in line
    )
    assert (job.count("<rect"), job.count('class="worked"')) == (1, 1)
    house("colours", "1", "navy=", "--copy", "Float 2")
    job = next(
        line for line in house("paper", "--making", "1").output.splitlines() if "class=job" in line and "cream" in line
    )
    assert (job.count("<rect"), job.count('class="worked"')) == (2, 1)
    assert CliRunner().invoke(main, ["paper"]).exit_code == 2


def test_without_a_server_the_command_answers_itself(text: str, tmp_path: Path) -> None:
    alone = House(tmp_path / "house")
    alone("keep", text)
    assert alone("begin", "Cork Float").output == "1  Cork Float\n"
    assert alone("note", "1", "first").output == "Kept at round 1 of Float 1.\n"
    assert alone("note", "1").output == "  1  Float 1, round 1: first\n"


@pytest.mark.parametrize("case", json.loads(VECTORS.read_text(encoding="utf-8")), ids=lambda case: case["text"])
def test_her_words_for_colours(case: dict[str, str]) -> None:
    assert in_her_words(case["text"], case["called"]) == case["says"]  # type: ignore[arg-type]
