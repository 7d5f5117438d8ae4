"""Technique cards and the finish list in a real browser."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from pages import PHONE, WIDE, at_bench, opened, overflow, small_targets
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page
    from tests.conftest import LiveServer

# demo
TERN = """Harbour tern
US terms

BODY
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: sc around (12)
Stuff firmly.
Rnd 4: dec x 6 (6)
Fasten off, leaving a 20 cm tail.

WING
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Fasten off, leaving a 30 cm tail for sewing.

FINISHING
Sew the wing to round 3 of the body.
"""


def begun(server: LiveServer) -> int:
    _, pattern = server.api("POST", "/api/patterns", {"text": TERN, "terms": None})
    _, making = server.api("POST", "/api/makings", {"pattern": pattern["id"], "order": {"kind": "one"}})
    id: int = making["id"]
    return id


def full_words(server: LiveServer, words: str) -> None:
    _, maker = server.api("GET", "/api/maker")
    server.api("PUT", "/api/maker", {**maker, "words": words})


@pytest.mark.parametrize("size", [PHONE, WIDE], ids=["phone", "wide"])
def test_all_cards_from_the_shelf(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    with opened(chromium, server.url, size) as page:
        page.get_by_role("link", name="How it is done").click()
        expect(page.locator(".all svg")).to_have_count(36)
        assert overflow(page) <= 0
        page.get_by_role("link", name="Half double crochet").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Half double crochet")
        page.get_by_text("UK terms").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Half treble")
        expect(page.locator(".card")).to_contain_text("Yarn round hook before the hook goes in.")
        assert overflow(page) <= 0
        assert small_targets(page) == []


def test_show_me_at_a_first_use_and_walked_by_a_pedal(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    full_words(server, "full")
    try:
        with opened(chromium, f"{server.url}/#/bench/{making}") as page:
            at_bench(page)
            page.get_by_role("button", name="show me Magic ring").click()
            sheet = page.get_by_role("dialog")
            expect(sheet.locator(".here")).to_contain_text("Lay the yarn in a loop")
            assert small_targets(page) == []
            for words in ("Put the hook into the loop", "draw through once", "both strands", "Pull the tail"):
                page.wait_for_timeout(200)  # the same key sooner than that is a bounce
                page.keyboard.press("PageDown")
                expect(sheet.locator(".here")).to_contain_text(words)
            sheet.get_by_text("offer a card").click()
            page.wait_for_timeout(200)
            sheet.locator("h2").focus()
            page.keyboard.press("PageDown")  # behind the last step it stays: a press too many is no stitch
            page.wait_for_timeout(200)
            expect(sheet.locator(".here")).to_contain_text("Pull the tail")
            page.keyboard.press("d")
            expect(sheet).to_have_count(0)
            expect(page.locator(".place")).to_contain_text("6 to make")
            expect(page.get_by_role("button", name="show me")).to_have_count(0)
            page.keyboard.press("v")
            expect(page.get_by_role("dialog").get_by_role("heading", level=2)).to_have_text("Magic ring")
    finally:
        full_words(server, "short")


def hand_size(page: Page) -> float:
    size: float = page.locator(".opened .part.hand").evaluate("e => parseFloat(getComputedStyle(e).fontSize)")
    return size


def test_with_short_words_a_first_use_is_offered_small_and_takes_no_room(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        at_bench(page)
        offer = page.get_by_role("button", name="show me Magic ring")
        expect(offer).to_be_visible()
        assert offer.evaluate("e => parseFloat(getComputedStyle(e).fontSize)") <= 26
        # Its name stands with the work; nothing to touch lies there, where every touch means "next".
        expect(page.locator(".near")).to_contain_text("new here: Magic ring")
        expect(page.locator(".words button, .beside button")).to_have_count(0)
        with_offer = hand_size(page)
        page.keyboard.press("5")
        page.get_by_role("dialog").get_by_text("show me, where something is new").click()
        page.keyboard.press("Escape")
        expect(page.get_by_role("dialog")).to_have_count(0)
        expect(page.get_by_role("button", name="show me")).to_have_count(0)
        assert hand_size(page) <= with_offer
        page.keyboard.press("v")  # it can be asked for all the same
        expect(page.get_by_role("dialog").get_by_role("heading", level=2)).to_have_text("Magic ring")


def test_the_finish_list_keeps_its_ticks_and_works_without_the_server(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True) as page:
        at_bench(page)
        page.keyboard.press("f")
        sheet = page.get_by_role("dialog")
        job: Any = sheet.locator(".job-now")
        expect(sheet.locator(".still")).to_contain_text("Still to work: Body, Wing")
        expect(job).to_contain_text("Pin every part")
        assert small_targets(page) == []
        assert overflow(page) <= 0
        page.keyboard.press("d")
        expect(job).to_contain_text("look at it from the front")
        page.context.set_offline(True)
        page.wait_for_timeout(200)
        page.keyboard.press("d")
        expect(job).to_contain_text("Sew the wing to round 3 of the body.")
        expect(sheet).to_contain_text("Round 3 of the body has 12 stitches.")
        page.keyboard.press("Escape")
        expect(sheet).to_have_count(0)
        page.keyboard.press("f")
        expect(job).to_contain_text("Sew the wing")
        page.context.set_offline(False)
        expect(page.locator(".head")).not_to_contain_text("wait", timeout=20_000)
        page.reload()
        at_bench(page)
        page.keyboard.press("f")
        expect(job).to_contain_text("Sew the wing")
        expect(sheet.locator("input:checked")).to_have_count(2)
