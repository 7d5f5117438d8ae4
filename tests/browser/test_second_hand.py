"""A bench that stands open follows what is done at the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner
from pages import PHONE, WIDE, opened
from playwright.sync_api import expect

from hookside.cli import main

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.conftest import LiveServer

# demo
PENNANT = (
    "Small Pennant\nUS terms\n\nPennant\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
    "Rnd 3: (sc, inc) x 6 (18)\nStuff firmly.\nRnd 4: (sc, dec) x 6 (12)\nFasten off.\n"
)


@pytest.mark.parametrize("size", [PHONE, WIDE], ids=["phone", "wide"])
def test_an_open_bench_follows(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    def hookside(*words: str) -> str:
        done = CliRunner().invoke(main, [*words, "--folder", str(server.folder)])
        assert done.exit_code == 0, (words, done.output)
        return done.output

    (server.folder / "pennant.txt").write_text(PENNANT, encoding="utf-8")
    hookside("keep", str(server.folder / "pennant.txt"))
    hookside("begin", "Small Pennant")
    with opened(chromium, f"{server.url}/#/bench/1", size) as page:
        expect(page.locator("main")).to_contain_text("Round 1", timeout=30_000)
        hookside("work", "1", "next", "round")
        expect(page.locator("main")).to_contain_text("Round 2")
        hookside("work", "1", "next", "stitch", "5")
        expect(page.locator("main")).to_contain_text("5 of 12")
        hookside("work", "1", "to", "4")
        done = page.get_by_role("button", name="Done", exact=True)
        expect(done).to_be_visible()  # it halts at the stuffing on both
        hookside("work", "1", "done")
        expect(done).to_have_count(0)
        expect(page.locator("main")).to_contain_text("Round 4")
        hookside("note", "1", "mind the dog")
        hookside("work", "1", "rip", "2")
        expect(page.locator("main")).to_contain_text("Round 2")
