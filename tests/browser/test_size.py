"""Size, yarn and stuffing in a real browser, and the shape so far beside the work."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import pytest
from pages import PHONE, TABLET, WIDE, at_bench, opened, overflow, small_targets
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.conftest import LiveServer


def ours(server: LiveServer, title: str) -> Any:
    _, shelf = server.api("GET", "/api/shelf")
    return next(p["id"] for p in shelf["patterns"] if title in p["title"].lower())


BALL = """Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnds 4-6: sc in each st around (18)
Rnd 7: (sc, dec) x 6 (12)
Stuff.
"""


def test_how_high_the_whole_toy_stands(server: LiveServer, chromium: Browser) -> None:
    """Demo: a head on a body, by a gauge of 5 mm. The figures have their own tests."""
    top = "Mole of the mole\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\n"
    pieces = f"Head\n{BALL}Rnd 8: dec x 6 (6)\nFasten off and close the hole.\n\nBody\n{BALL}Fasten off.\n\n"
    _, kept = server.api("POST", "/api/patterns", {"text": f"{top}{pieces}Assembly\nSew the head to the body.\n"})
    with opened(chromium, f"{server.url}/#/size/{kept['id']}", PHONE) as page:
        expect(page.get_by_role("heading", name="Put together")).to_be_visible(timeout=30_000)
        expect(page.get_by_text(re.compile(r"Body and head: about [\d.]+ cm high, between"))).to_be_visible()
        assert overflow(page) <= 0


@pytest.mark.parametrize("size", [PHONE, TABLET, WIDE], ids=["phone", "tablet", "wide"])
def test_what_a_pattern_comes_to_and_her_own_swatch(
    server: LiveServer, chromium: Browser, size: tuple[int, int]
) -> None:
    seal = ours(server, "seal")
    server.api("PUT", f"/api/patterns/{seal}/fabric", {})
    with opened(chromium, f"{server.url}/#/read/{seal}", size, refused=422) as page:
        page.get_by_role("link", name="Size, yarn, stuffing").click()
        body = page.locator(".piece-size").first
        expect(body).to_contain_text("about 10 cm")
        expect(page.get_by_text("from the pattern's gauge")).to_be_visible()
        assert small_targets(page) == []
        assert overflow(page) <= 0
        swatch = page.get_by_label("Your swatch")
        swatch.fill("4000 sts = 10 cm")
        page.get_by_role("button", name="Work it out again").click()
        expect(page.get_by_role("alert")).to_contain_text("no yarn makes that")
        expect(body).to_contain_text("about 10 cm")
        swatch.fill("12 sts and 12 rounds = 10 cm")
        page.get_by_role("button", name="Work it out again").click()
        expect(body).to_contain_text(re.compile("about 2[0-9] cm"))
        expect(page.get_by_role("alert")).to_have_count(0)
        page.reload()
        expect(page.get_by_label("Your swatch")).to_have_value("12 sts and 12 rounds = 10 cm")
    server.api("PUT", f"/api/patterns/{seal}/fabric", {})


def test_the_shape_so_far_follows_the_hook(server: LiveServer, chromium: Browser) -> None:
    seal = ours(server, "seal")
    _, making = server.api("POST", "/api/makings", {"pattern": seal, "order": {"kind": "one"}})
    with opened(chromium, f"{server.url}/#/bench/{making['id']}") as page:
        at_bench(page)
        for label in range(1, 7):
            expect(page.get_by_role("heading", level=1)).to_contain_text(f"Round {label}:")
            page.wait_for_timeout(200)  # the same key sooner than that is a bounce
            page.keyboard.press("r")
        expect(page.get_by_role("heading", level=1)).to_contain_text("Round 7:")
        page.get_by_role("button", name="more").click()
        page.get_by_role("button", name="Shape so far").click()
        sheet = page.get_by_role("dialog")
        # Six rounds of 6 more: 30 stitches of 100 / 24 mm are 39.8 mm across (n w / pi).
        expect(sheet).to_contain_text(re.compile("Now (open )?4 cm across"))
        expect(sheet.locator(".made")).to_have_count(1)
        page.keyboard.press("Escape")
        expect(sheet).to_have_count(0)


def test_her_fabric_in_one_making_is_asked_about(server: LiveServer, chromium: Browser) -> None:
    seal = ours(server, "seal")
    _, making = server.api("POST", "/api/makings", {"pattern": seal, "order": {"kind": "one"}})
    with opened(chromium, f"{server.url}/#/bench/{making['id']}", PHONE, refused=422) as page:
        at_bench(page)
        page.get_by_role("button", name="more").click()
        page.get_by_role("button", name="Shape so far").click()
        sheet = page.get_by_role("dialog")
        swatch = sheet.get_by_label("Your swatch")
        swatch.fill("4000 sts = 10 cm")
        sheet.get_by_role("button", name="Work by this").click()
        expect(sheet.get_by_role("alert")).to_contain_text("no yarn makes that")
        swatch.fill("10 sts = 3 cm")
        sheet.get_by_role("button", name="Work by this").click()
        expect(sheet.get_by_text("Kept for this making")).to_be_visible()
        expect(sheet).to_contain_text("from your swatch")
        page.keyboard.press("Escape")
        expect(page.get_by_role("heading", name="What you chose changes the steps")).to_be_visible()
        page.wait_for_timeout(800)  # it hears no touch that was meant for the screen before
        page.get_by_role("button", name="Keep it as it was").click()
        expect(page.get_by_role("heading", level=1)).to_contain_text("Round 1:")


def test_kinds_of_prompt_are_turned_down_in_one_making(server: LiveServer, chromium: Browser) -> None:
    seal = ours(server, "seal")
    _, making = server.api("POST", "/api/makings", {"pattern": seal, "order": {"kind": "one"}})
    with opened(chromium, f"{server.url}/#/bench/{making['id']}", PHONE) as page:
        at_bench(page)
        page.get_by_role("button", name="more").click()
        page.get_by_role("button", name="What to tell you of").click()
        sheet = page.get_by_role("dialog")
        sheet.get_by_label("count now").first.uncheck()
        sheet.get_by_label("where the marker goes").last.uncheck()
        expect(sheet.get_by_label("where the marker goes").last).not_to_be_checked()
        assert small_targets(page) == []
        sheet.get_by_role("button", name="Work by this").click()
        expect(page.get_by_role("heading", name="What you chose changes the steps")).to_be_visible()
        page.wait_for_timeout(800)  # it hears no touch that was meant for the screen before
        page.get_by_role("button", name="Go on there").click()
        expect(page.get_by_role("heading", level=1)).to_contain_text("Round 1:")
        _, made = server.api("GET", f"/api/makings/{making['id']}")
        assert "count" not in {cue["kind"] for strand in made["strands"].values() for cue in strand["cues"]}
    _, maker = server.api("GET", "/api/maker")
    assert maker["quiet"] == ["marker"]
    server.api("PUT", "/api/maker", {**maker, "quiet": []})
