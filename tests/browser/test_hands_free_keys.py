"""Hands-free without a word: taught keys, a whole piece by pedals, what is said where there is no microphone."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from hands_free import HEADSET, MICROPHONE, at, moved_from, sign
from pages import PHONE, STOP_IS_DEAF, TABLET, WIDE, at_bench, heading, opened, overflow, place, small_targets, touch
from playwright.sync_api import expect
from test_bench import begin

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page
    from tests.conftest import LiveServer

# Demo: a fishing float so small that it is worked in a minute, with a pause, two stops and everything else in it.
BOB = """LITTLE BOB
US terms

BOB
Rnd 1: 6 sc in a magic ring. (6)
Rnd 2: inc x 6 (12)
Change to white.
Rnd 3: (sc, dec) x 4 (8)
Stuff the bob.
Rnd 4: dec x 4 (4)
Fasten off, leaving a 20 cm tail.
"""


CUT = """foot => [...foot.querySelectorAll('*')]
    .filter(e => e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== 'inline')
    .map(e => e.textContent)"""


def teach(page: Page, what: str, key: str) -> None:
    """In the sheet for keys: this key for that."""
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("button", name=re.compile(what)).click()
    expect(sheet).to_contain_text("Press the key")
    page.keyboard.press(key)


def key_sheet(page: Page) -> None:
    page.get_by_role("button", name="more").click()
    page.get_by_role("button", name=re.compile("^Hands-free")).click()
    page.get_by_role("button", name="Teach keys and pedals").click()
    expect(page.get_by_role("heading", name="Keys and pedals")).to_be_visible()


def test_any_key_can_be_taught_and_says_what_it_meant(server: LiveServer, chromium: Browser) -> None:
    making = begin(server, BOB)
    with opened(chromium, f"{server.url}/#/bench/{making}") as page:
        at_bench(page)
        key_sheet(page)
        sheet = page.get_by_role("dialog")
        teach(page, "one stitch", "F9")
        expect(sheet).to_contain_text("F9 now means: one stitch.")
        # A key that means something else is asked about, and may be left as it was.
        teach(page, "one stitch", "PageUp")
        expect(sheet).to_contain_text("Page Up means “back by as much” now")
        sheet.get_by_role("button", name="Another key").click()
        page.keyboard.press("Escape")
        expect(sheet.get_by_role("button", name=re.compile("back by as much"))).to_contain_text("Page Up")
        teach(page, "one stitch", "PageDown")
        sheet.get_by_role("button", name="Yes, change it").click()
        expect(sheet.get_by_role("button", name=re.compile("next: the repeat"))).not_to_contain_text("Page Down")
        page.keyboard.press("Escape")
        expect(sheet).to_have_count(0)
        page.keyboard.press("PageDown")  # the magic ring
        page.keyboard.press("F9")
        expect(place(page)).to_contain_text("1 of 6 made")
        # It is kept on this device, and can all be undone.
        page.reload()
        at_bench(page)
        page.keyboard.press("F9")
        expect(place(page)).to_contain_text("2 of 6 made")
        key_sheet(page)
        page.get_by_role("button", name="All keys as they came").click()
        expect(sheet.get_by_role("button", name=re.compile("next: the repeat"))).to_contain_text("Page Down")
        expect(page.locator(":focus")).to_have_count(1)


def test_a_whole_piece_by_pedals_alone(server: LiveServer, chromium: Browser) -> None:
    """Two pedals send what such devices send; the third was taught once. From then on the screen is not touched."""
    making = begin(server, BOB)
    with opened(chromium, f"{server.url}/#/bench/{making}") as page:
        at_bench(page)
        key_sheet(page)
        teach(page, "done, where something waits", "F8")
        expect(page.get_by_role("dialog")).to_contain_text("F8 now means")
        page.keyboard.press("Escape")
        expect(page.get_by_role("dialog")).to_have_count(0)
        stops: list[str] = []
        for _ in range(80):
            if page.locator(".halt.calm").count():
                break
            stop = page.locator(".halt.waits")
            if stop.count():
                title = heading(page).inner_text()
                stops.append(title)
                page.wait_for_timeout(STOP_IS_DEAF + 50)
                page.keyboard.press("PageDown")  # passes nothing
                expect(stop).to_be_visible()
                page.keyboard.press("F8")
                expect(page.locator(".halt.waits h1").filter(has_text=title)).to_have_count(0)
            else:
                page.keyboard.press("PageDown")
                page.wait_for_timeout(70 if page.locator(".pause").count() == 0 else 420)
        assert any("tuff" in s for s in stops), stops
        assert any("asten" in s for s in stops), stops
        expect(heading(page)).to_have_text(re.compile("All is worked"))
        page.keyboard.press("PageUp")  # the way back is there too
        expect(page.locator(".halt.waits")).to_be_visible()


def test_a_refused_microphone_is_told_and_touch_goes_on(server: LiveServer, chromium: Browser) -> None:
    making = begin(server, BOB)
    with opened(chromium, f"{server.url}/#/bench/{making}") as page:
        page.add_init_script(MICROPHONE + "window.noMicrophone = 'NotAllowedError';")
        page.reload()
        at_bench(page)
        page.get_by_role("button", name="Start hands-free").click()
        expect(sign(page)).to_have_text("Not listening")
        expect(page.get_by_role("alert")).to_contain_text("The microphone was refused. Allow it")
        touch(page)
        touch(page)
        expect(heading(page)).to_contain_text("Round 2")
        page.evaluate("window.noMicrophone = 'NotFoundError'")
        page.get_by_role("button", name="try again").click()
        band = page.locator(".band")
        expect(band).to_contain_text("No microphone was found")
        # Read once, it is put away by one touch; the foot goes on saying how it stands, and what touches do.
        expect(page.get_by_role("button", name="Settings of hands-free")).to_be_visible()
        page.get_by_role("button", name="go on by touch").click()
        expect(band).to_have_count(0)
        expect(sign(page)).to_have_text("Not listening")
        assert page.locator(".touch-line").evaluate(CUT) == []
        assert overflow(page) == 0
        before = at(page)
        page.locator(".foot").get_by_role("button", name="round").click()
        moved_from(page, before)(5000)
        expect(band).to_have_count(0)
        page.get_by_role("button", name="Not listening: try again").click()
        expect(band).to_contain_text("No microphone was found")
        page.keyboard.press("Escape")
        expect(band).to_have_count(0)
        page.get_by_role("button", name="Settings of hands-free").click()
        page.get_by_role("button", name="End hands-free").click()
        expect(page.get_by_role("button", name="Start hands-free")).to_be_visible()


def test_an_insecure_address_is_told(server: LiveServer, chromium: Browser) -> None:
    making = begin(server, BOB)
    with opened(chromium, f"{server.url}/#/bench/{making}") as page:
        page.add_init_script("Object.defineProperty(window, 'isSecureContext', { value: false });")
        page.reload()
        at_bench(page)
        page.keyboard.press("m")
        expect(page.get_by_role("alert")).to_contain_text("only to a page on the same machine or over https")
        page.keyboard.press("r")
        expect(heading(page)).to_contain_text("Round 2")


@pytest.mark.parametrize("size", [PHONE, TABLET, WIDE], ids=["phone", "tablet", "wide"])
def test_the_sheets_stand_on_every_screen(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    making = begin(server, BOB)
    with opened(chromium, f"{server.url}/#/bench/{making}", size) as page:
        page.add_init_script(MICROPHONE + "window.noMicrophone = 'NotAllowedError';")
        page.reload()
        at_bench(page)
        page.get_by_role("button", name="Start hands-free").click()
        expect(sign(page)).to_have_text("Not listening")
        assert small_targets(page) == []
        page.locator(".ear-state").click()
        expect(page.get_by_role("heading", name="Hands-free")).to_be_visible()
        assert overflow(page) == 0
        assert small_targets(page) == []
        page.get_by_role("button", name="Teach keys and pedals").click()
        expect(page.get_by_role("heading", name="Keys and pedals")).to_be_visible()
        assert overflow(page) == 0
        assert small_targets(page) == []


def test_minutes_of_nothing_hold(server: LiveServer, chromium: Browser) -> None:
    making = begin(server, BOB)
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True) as page:
        page.add_init_script(MICROPHONE)
        page.clock.install()
        page.reload()
        at_bench(page)
        page.get_by_role("button", name="Start hands-free").click()
        expect(sign(page)).to_have_text("Listening", timeout=30_000)
        page.clock.fast_forward(7 * 60_000)
        page.keyboard.press("PageDown")  # somebody is there
        page.clock.fast_forward(7 * 60_000)
        expect(sign(page)).not_to_have_text("Holding")
        for _ in range(8):  # a line that was cut meanwhile begins its minutes anew
            page.clock.fast_forward(2 * 60_000)
            page.wait_for_timeout(700)
            if sign(page).inner_text() == "Holding":
                break
        expect(sign(page)).to_have_text("Holding")
        expect(page.get_by_role("status").filter(has_text="Nothing was said or moved for a while")).to_be_visible()
        page.keyboard.press("PageDown")  # somebody is there again
        expect(sign(page)).not_to_have_text("Holding")


def test_the_buttons_of_a_headset(server: LiveServer, chromium: Browser) -> None:
    making = begin(server, BOB)
    with opened(chromium, f"{server.url}/#/bench/{making}") as page:
        page.add_init_script(MICROPHONE + HEADSET)
        page.reload()
        at_bench(page)
        page.get_by_role("button", name="Start hands-free").click()
        expect(sign(page)).to_have_text("Listening", timeout=30_000)
        page.locator(".ear-state").click()
        page.get_by_label(re.compile("the buttons of a headset.*Not every browser")).check()
        page.keyboard.press("Escape")
        expect(page.get_by_role("dialog")).to_have_count(0)
        page.evaluate("buttons.nexttrack()")
        page.evaluate("buttons.nexttrack()")
        expect(heading(page)).to_contain_text("Round 2")
        page.evaluate("buttons.previoustrack()")
        expect(heading(page)).to_contain_text("Round 1")
        page.evaluate("buttons.pause()")
        expect(sign(page)).to_have_text("Holding")
