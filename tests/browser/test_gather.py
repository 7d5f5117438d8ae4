"""What to have at hand, ticked before and beside the work; words and habits, changed beside it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from pages import PHONE, WIDE, at_bench, opened, overflow, small_targets
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.conftest import LiveServer

# demo: joined rounds that can be a spiral, a list that forgets the scissors
CUP = """Harbor cup
US terms
Materials
DK yarn (100 g = 230 m): red
Hook: 3 mm

CUP
Rnd 1: 6 sc in magic ring, join with sl st in first sc. (6)
Rnd 2: Ch 1, 2 sc in each st around, join with sl st in first sc. (12)
Rnd 3: Ch 1, sc in each st around, join with sl st in first sc. (12)
Rnd 4: Ch 1, (sc in next st, sc2tog) 4 times, join with sl st in first sc. (8)
Fasten off.
"""


@pytest.fixture
def cup(server: LiveServer) -> str:
    _, added = server.api("POST", "/api/patterns", {"text": CUP, "terms": None})
    id: str = added["id"]
    return id


@pytest.mark.parametrize("size", [PHONE, WIDE], ids=["phone", "wide"])
def test_gathered_before_and_ticked_beside_the_work(
    server: LiveServer, chromium: Browser, cup: str, size: tuple[int, int]
) -> None:
    with opened(chromium, f"{server.url}/#/read/{cup}", size) as page:
        page.get_by_role("link", name="What to have at hand").click()
        expect(page.get_by_text("implied by round 4 of Cup")).to_be_visible()
        expect(page.locator(".thing", has_text="3 mm hook")).to_contain_text("between US C-2 and D-3")
        assert small_targets(page) == []
        assert overflow(page) <= 0
        page.get_by_role("link", name="I have another yarn or hook").click()
        expect(page.get_by_role("heading", name="Size, yarn, stuffing")).to_be_visible()
        page.get_by_role("link", name="What to have at hand").click()
        page.get_by_role("checkbox", name=re.compile("3 mm hook")).check()
        expect(page.get_by_text("Still to find")).to_have_text("Still to find: DK yarn; and scissors.")
        page.get_by_role("link", name="The pattern").click()
        page.get_by_role("button", name="Start", exact=True).click()
        at_bench(page)
        page.keyboard.press("t")
        sheet = page.get_by_role("dialog")
        expect(sheet.get_by_role("checkbox", name=re.compile("3 mm hook"))).to_be_checked()
        page.keyboard.press("d")  # the first thing that is not at hand yet
        expect(sheet.get_by_role("status")).to_have_text("Still to find: scissors.")
        page.keyboard.press("Escape")
        expect(sheet).to_have_count(0)
        page.reload()
        at_bench(page)
        page.keyboard.press("t")
        expect(sheet.get_by_role("checkbox", name=re.compile("DK yarn"))).to_be_checked()


def test_a_spiral_is_asked_about_and_other_words_are_not(server: LiveServer, chromium: Browser, cup: str) -> None:
    _, making = server.api("POST", "/api/makings", {"pattern": cup})
    with opened(chromium, f"{server.url}/#/bench/{making['id']}", PHONE) as page:
        at_bench(page)
        page.keyboard.press("r")
        expect(page.get_by_role("heading", level=1)).to_contain_text("Round 2:")
        page.keyboard.press("i")
        sheet = page.get_by_role("dialog")
        expect(sheet).to_contain_text("It changes rounds 1 to 4 of Cup.")
        assert small_targets(page) == []
        sheet.get_by_text("in UK terms").click()
        sheet.get_by_text("as a spiral, with a marker").click()
        sheet.get_by_role("button", name="Work by this").click()
        expect(page.get_by_role("heading", name="What you chose changes the steps")).to_be_visible()
        answer = page.get_by_role("button", name=re.compile("Go on there|Round 2"))
        answer.first.click(delay=800)  # it hears no touch that was meant for the screen before
        expect(page.get_by_role("button", name="UK terms")).to_be_visible()
        _, made = server.api("GET", f"/api/makings/{making['id']}")
        (strand,) = (made["strands"][run["strand"]] for run in made["runs"])
        assert strand["courses"][2]["words"]["short"] == "12 dc"


def test_a_text_is_shown_in_the_other_terms(server: LiveServer, chromium: Browser, cup: str) -> None:
    with opened(chromium, f"{server.url}/#/read/{cup}", PHONE) as page:
        third = page.locator(".course", has_text="Round 3")
        expect(third).to_contain_text("ch 1, 12 sc, join", timeout=20_000)  # what reads may have to be started
        page.get_by_role("button", name="Show UK words").click()
        expect(third).to_contain_text("ch 1, 12 dc, join")
        expect(page.locator(".terms")).to_contain_text("US terms")
