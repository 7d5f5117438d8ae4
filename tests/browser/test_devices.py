"""Several devices on one making: in step whatever their clocks say, asked where they disagree or after a restore."""

from __future__ import annotations

import re
import subprocess
import sys
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hands_free import MICROPHONE, say, say_until, start_hands_free
from pages import PHONE, TABLET, kept, opened, place
from playwright.sync_api import expect
from test_link import begun, on_a_cable, ready, stitches, waits_for, worked

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page
    from tests.conftest import LiveServer

SLOW = 20_000  # milliseconds: a line that was down is tried again every two seconds or so


def answer(page: Page, words: str) -> None:
    """Answer what waits. It hears nothing at first, so that a touch meant for a stitch is no answer."""
    page.wait_for_timeout(1000)
    page.get_by_role("button", name=words, exact=True).click()


def test_the_question_is_asked_as_a_person_would_and_one_touch_answers(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with on_a_cable(server, chromium, making, touch=True) as (phone, tablet, cable):
        cable.cut()
        stitches(phone, 2)
        expect(phone.get_by_text("2 moves wait")).to_be_visible()
        stitches(tablet, 4)
        waits_for(tablet, lambda: worked(server, making) == 4)
        cable.mend()
        asked = {
            phone: "The tablet says round 1, after stitch 3; this phone says round 1, after stitch 1.",
            tablet: "This tablet says round 1, after stitch 3; the phone says round 1, after stitch 1.",
        }
        for page, words in asked.items():
            expect(page.get_by_role("heading", name="Where is your marker?")).to_be_visible(timeout=SLOW)
            expect(page.locator(".halt")).to_contain_text(words)
        answer(tablet, "round 1, after stitch 1")
        for page in asked:
            expect(page.get_by_text("Where is your marker?")).to_be_hidden()
            expect(place(page)).to_contain_text("1 of 6 made")
        assert worked(server, making) == 2


def test_one_word_answers_where_the_marker_is(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with on_a_cable(server, chromium, making, touch=True) as (phone, tablet, cable):
        tablet.add_init_script(MICROPHONE)
        tablet.reload()
        ready(tablet)
        start_hands_free(tablet)

        def disagree(head: int) -> None:
            cable.cut()
            stitches(phone, 1)
            expect(phone.get_by_text("1 move waits")).to_be_visible()
            stitches(tablet, 2)
            waits_for(tablet, lambda: worked(server, making) == head)
            cable.mend()
            for page in (phone, tablet):
                expect(page.get_by_role("heading", name="Where is your marker?")).to_be_visible(timeout=SLOW)

        asked = tablet.get_by_role("group", name="Is your marker in round 1, after stitch 1?")
        disagree(2)
        expect(asked).to_be_visible()
        # What is no answer moves nothing, and the question stands.
        said = tablet.get_by_text("Answer this first: say yes, or no.")
        say_until(tablet, "round-finished", lambda ms: expect(said.first).to_be_visible(timeout=ms))
        expect(asked).to_be_visible()
        assert worked(server, making) == 2
        gone = tablet.get_by_text("Where is your marker?")
        say_until(tablet, "yes-please", lambda ms: expect(gone).to_be_hidden(timeout=ms))
        expect(phone.get_by_text("Where is your marker?")).to_be_hidden(timeout=SLOW)
        for page in (phone, tablet):
            expect(place(page)).to_contain_text("1 of 6 made")
        # Answered by a touch at the other device, the question is not asked here any longer.
        disagree(4)
        again = tablet.get_by_role("group", name="Is your marker in round 1, after stitch 3?")
        expect(again).to_be_visible()
        answer(phone, "round 1, after stitch 3")
        expect(gone).to_be_hidden(timeout=SLOW)
        expect(again).to_have_count(0)
        say(tablet, "yes-please")  # nothing is asked: it answers nothing
        stitches(tablet, 1)
        waits_for(tablet, lambda: worked(server, making) == 5)


def test_clocks_that_are_wrong_by_years_change_nothing(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    address = f"{server.url}/#/bench/{making}"
    with opened(chromium, server.url, PHONE, away=True) as phone, opened(chromium, server.url, TABLET) as tablet:
        phone.clock.set_fixed_time(datetime(2041, 3, 1, 12))
        tablet.clock.set_fixed_time(datetime(1999, 12, 31, 23, 59))
        for page in (phone, tablet):
            page.goto(address)
            page.reload()
            ready(page)
        assert phone.evaluate("new Date().getFullYear()") == 2041
        for n, page in enumerate((phone, tablet, phone, tablet), start=1):
            stitches(page, 1)
            for other in (phone, tablet):
                expect(place(other)).to_contain_text(re.compile(f"{n - 1} of 6 made" if n > 1 else "6 to make"))
        assert worked(server, making) == 4
        # An hour back in the middle of the work, as in autumn; then offline, with a clock of another year again.
        phone.clock.set_fixed_time(datetime(2041, 3, 1, 11))
        stitches(phone, 1)
        expect(place(tablet)).to_contain_text("4 of 6 made")
        phone.context.set_offline(True)
        phone.clock.set_fixed_time(datetime(2009, 1, 1))
        stitches(phone, 1)
        phone.context.set_offline(False)
        waits_for(phone, lambda: worked(server, making) == 6)
        expect(place(tablet)).to_contain_text("5 of 6 made")


def hookside(server: LiveServer, *words: str) -> None:
    """One command of the command line on the server's folder."""
    command = [sys.executable, "-m", "hookside", *words, "--folder", str(server.folder)]
    subprocess.run(command, env=server.environment(), check=True, capture_output=True)


@pytest.mark.parametrize("choice", ["this device", "the copy"])
def test_after_a_copy_was_put_back_both_places_are_shown_and_nothing_is_sent_before_the_answer(
    server: LiveServer, chromium: Browser, tmp_path: Path, choice: str
) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE, away=True) as page:
        ready(page)
        kept(page)
        stitches(page, 2)
        waits_for(page, lambda: worked(server, making) == 2)
        hookside(server, "backup", str(tmp_path / "copy"))
        stitches(page, 2)
        waits_for(page, lambda: worked(server, making) == 4)
        server.stop()
        hookside(server, "restore", str(tmp_path / "copy"), "--over")
        stitches(page, 1)
        expect(page.get_by_text("1 move waits")).to_be_visible()
        server.start()
        halt = page.locator(".halt")
        expect(halt).to_contain_text(
            "A copy was put back: it says round 1, after stitch 1. "
            "This device has 3 moves more, up to round 1, after stitch 4.",
            timeout=SLOW,
        )
        assert worked(server, making) == 2
        if choice == "this device":
            answer(page, "Round 1, after stitch 4")
            waits_for(page, lambda: worked(server, making) == 5)
            expect(place(page)).to_contain_text("4 of 6 made")
        else:
            answer(page, "Round 1, after stitch 1")
            expect(place(page)).to_contain_text("1 of 6 made")
            stitches(page, 1)
            waits_for(page, lambda: worked(server, making) == 3)
        page.reload()
        ready(page)
        expect(halt).to_be_hidden()
