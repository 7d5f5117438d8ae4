"""`hookside finish` and `hookside show`."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hookside.cli import main

OURS = Path(__file__).resolve().parents[2] / "patterns"


def run(*args: str, **more: str) -> Result:
    return CliRunner().invoke(main, list(args), **more)  # type: ignore[arg-type]


def test_the_list_of_the_seal() -> None:
    told = run("finish", str(OURS / "seal-pup.txt"))
    assert told.exit_code == 0
    assert told.output.startswith("[ ] Pin the flippers to R15 of the body, one on each side, with 12 sts")
    assert "Round 15 of the body has 36 stitches." in told.output
    assert "[ ] Pull at every part that was sewn on: none may move. (Hookside adds this)" in told.output


def test_as_json_it_is_what_the_page_gets() -> None:
    told = run("finish", "--json", str(OURS / "harbor-skiff.txt"))
    assert [item["kind"] for item in json.loads(told.output)] == ["block", "pin", "look", "sew", "weave"]


def test_a_story_has_nothing_to_finish() -> None:
    told = run("finish", "-", input="Only a story about the harbour.\n")
    assert told.exit_code == 2
    assert "nothing to finish" in told.output


@pytest.mark.parametrize(
    ("asked", "terms", "first"),
    [
        (["inv", "dec"], "US", "Invisible decrease"),
        (["dc"], "US", "Double crochet"),
        (["dc"], "UK", "Double crochet"),  # US single crochet: the other card
        (["sewing-on"], "UK", "Sewing on, so that no colour shows"),
        (["magic ring"], "US", "Magic ring"),
    ],
)
def test_a_card_by_its_name_or_its_stitch(asked: list[str], terms: str, first: str) -> None:
    told = run("show", "--terms", terms, *asked)
    assert told.exit_code == 0
    assert told.output.splitlines()[0] == first


def test_the_same_short_name_in_other_terms_is_another_stitch() -> None:
    us, uk = run("show", "dc").output, run("show", "dc", "--terms", "UK").output
    assert "Yarn over before the hook goes in." in us
    assert "before the hook goes in" not in uk


def test_what_has_no_card_is_said_with_the_nearest() -> None:
    told = run("show", "sewin-on")
    assert told.exit_code == 2
    assert "Did you mean sewing-on?" in told.output
    assert len(run("show").output.splitlines()) == 36
