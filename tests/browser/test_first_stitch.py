"""From the address to the first stitch of a pasted pattern in five actions at most: each touch, each paste is one."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from pages import PHONE, TABLET, WIDE, at_bench, opened, paste, touch
from playwright.sync_api import expect
from test_link import waits_for

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page
    from tests.conftest import LiveServer

SLOW = 30_000
# demo
SOUND = "Quay Mole\nUS terms\n\nMole\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
MISTAKEN = SOUND.replace("inc x 6 (12)", "inc x 5 (12)")


class Actions:
    """What a maker does, counted."""

    def __init__(self, page: Page) -> None:
        self.page, self.done = page, 0

    def click(self, thing: Locator) -> None:
        self.done += 1
        thing.click(timeout=SLOW)

    def paste(self, text: str) -> None:
        self.done += 1
        paste(self.page, text)

    def touch(self) -> None:
        self.done += 1
        touch(self.page)


@pytest.mark.parametrize("size", [PHONE, TABLET, WIDE], ids=["phone", "tablet", "wide"])
@pytest.mark.parametrize("text", [SOUND, MISTAKEN], ids=["sound", "mistaken"])
def test_in_five_actions(server: LiveServer, chromium: Browser, size: tuple[int, int], text: str) -> None:
    with opened(chromium, server.url, size) as page:
        maker = Actions(page)
        maker.click(page.get_by_role("link", name=re.compile("Paste a pattern")))
        expect(page.get_by_label("The pattern as text")).to_be_focused(timeout=SLOW)
        maker.paste(text)
        if text is MISTAKEN:
            everywhere = page.get_by_role("button", name=re.compile("likeliest everywhere", re.IGNORECASE))
            maker.click(everywhere.or_(page.locator(".finding").first.get_by_role("button")).first)
            expect(page.get_by_text("Every count adds up.")).to_be_visible(timeout=SLOW)
        maker.click(page.get_by_role("button", name=re.compile("^Start")))
        at_bench(page)
        maker.touch()  # the ring, which the first stitch goes into
        waits_for(page, lambda: server.api("GET", "/api/makings/1")[1]["state"]["runs"]["p1.c1"]["at"] > 0)
    assert maker.done <= 5
