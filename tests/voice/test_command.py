"""`hookside voice`: what it prints and how it ends."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner

from hookside.cli import main
from hookside.voice.models import fetch

PARTS = {"am/final.mdl": b"m", "graph/HCLr.fst": b"h", "graph/Gr.fst": b"g"}
NAME = "vosk-model-small-en-us-9"  # demo


def run(*arguments: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(main, ["voice", *arguments])
    return result.exit_code, result.stdout, result.stderr


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("HOOKSIDE_HOME", str(tmp_path / "house"))
    return tmp_path / "house"


@pytest.fixture
def file(tmp_path: Path) -> str:
    with zipfile.ZipFile(tmp_path / "given.zip", "w") as zip:
        for name, content in PARTS.items():
            zip.writestr(f"{NAME}/{name}", content)
    return str(tmp_path / "given.zip")


def test_what_listens_is_listed(house: Path) -> None:
    code, out, _ = run("list")
    assert code == 0
    assert "vosk: listens best" in out
    assert "pocketsphinx: listens to English without anything to add" in out
    assert "hookside voice add en" in out
    assert not house.exists()


def test_a_model_from_disk_to_its_end(house: Path, file: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("hookside.voice.pool.trial", lambda language, folder: None)
    code, out, err = run("add", file)
    assert (code, out.startswith(f"{NAME} listens for en from now on")) == (0, True)
    assert "Unpacking" in err
    assert NAME in run("list")[1]
    assert NAME in run("list", "--folder", str(house))[1]
    assert NAME not in run("list", "--folder", str(house / "elsewhere"))[1]
    assert run("remove", NAME)[:2] == (0, f"{NAME} was removed (0 MB).\n")
    assert NAME not in run("list")[1]


def test_a_model_that_vosk_cannot_load(house: Path, file: str, capfd: pytest.CaptureFixture[str]) -> None:
    """Tried in a process of its own, which vosk ends. What vosk says to itself about it is not shown."""
    code, out, err = run("add", file)
    assert (code, out) == (2, "")
    assert err.splitlines()[-1] == "given.zip is no voice model that Hookside can use: vosk can't load it."
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["add", "nowhere.zip"], "There is no nowhere.zip; check the name and the folder."),
        (["add", "en", "--language", "English"], "English is no language"),
        (["remove", "gulls"], "There is no voice model named gulls"),
    ],
)
def test_a_dead_end_is_one_sentence(house: Path, arguments: list[str], sentence: str) -> None:
    code, out, err = run(*arguments)
    assert (code, out) == (2, "")
    assert sentence in err
    assert err.count("\n") == 1


def test_without_a_network_the_way_from_disk_is_named(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("hookside.voice.models.fetch.PLACE", "http://127.0.0.1:9/")
    code, _, err = run("add", "en")
    assert code == 2
    assert fetch.FROM_DISK in err
