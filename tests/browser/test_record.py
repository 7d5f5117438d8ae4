"""Notes at a place, and the record of a making, in a real browser."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from pages import PHONE, TABLET, WIDE, opened, overflow, small_targets
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.conftest import LiveServer

TEXT = """Gull
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnds 3-5: sc in each st around (12)
"""  # demo


def begun(server: LiveServer) -> int:
    pattern = server.api("POST", "/api/patterns", {"text": TEXT, "terms": "US"})[1]["id"]
    return int(server.api("POST", "/api/makings", {"pattern": pattern})[1]["id"])


def test_a_note_comes_up_again_in_its_round_and_stands_in_the_record(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/bench/{begun(server)}", PHONE) as page:
        expect(page.get_by_role("main")).to_contain_text("Round 1")
        page.keyboard.press("r")
        expect(page.get_by_role("main")).to_contain_text("Round 2")
        page.get_by_role("button", name="more", exact=True).click()
        page.get_by_role("button", name=re.compile("^Notes")).click()
        page.get_by_label("A note here").fill("looser here, a size larger")
        assert small_targets(page) == []
        page.get_by_role("button", name="Keep the note").click()
        expect(page.get_by_role("button", name="looser here, a size larger in round 2")).to_be_visible()
        page.get_by_role("button", name="close").click()
        note = page.get_by_role("main").get_by_text("Your note: looser here")
        expect(note.first).to_be_visible()
        page.keyboard.press("r")  # round 2
        expect(note).to_have_count(0)
        page.keyboard.press("u")
        expect(note.first).to_be_visible()
        page.get_by_role("button", name="more", exact=True).click()
        page.get_by_role("button", name=re.compile("^Record")).click()
        expect(page.get_by_role("heading", name="Left to work")).to_be_visible()
        expect(page.get_by_text("48 stitches of 54, 4 of 5 rounds and rows")).to_be_visible()  # 12 + 3 x 12
        expect(page.get_by_text("looser here, a size larger")).to_be_visible()


@pytest.mark.parametrize("size", [PHONE, TABLET, WIDE], ids=["phone", "tablet", "wide"])
def test_the_record_at_every_size(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    with opened(chromium, f"{server.url}/#/record/{begun(server)}", size) as page:
        expect(page.get_by_text("Not a stitch yet.")).to_be_visible()
        expect(page.get_by_text("By what is common")).to_be_visible()
        assert small_targets(page) == []
        assert overflow(page) <= 0
