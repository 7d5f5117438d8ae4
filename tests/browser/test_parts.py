"""Parts that join later, and colours called by the maker's own words, in a real browser."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pages import PHONE, STOP_IS_DEAF, WIDE, at_bench, heading, opened, overflow, small_targets
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page
    from tests.conftest import LiveServer

# demo
DOLL = (
    "Harbour hand\nUS terms\n\nLeg (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n\n"
    "Body\nRnd 3: ch 3, sc 12 around first leg, sc 3 along the chain, sc 12 around second leg, "
    "sc 3 along the other side of the chain (30)\nRnd 4: sc around (30)\n"
)
BUOY = (
    "Harbour buoy\nUS terms\n\nBuoy (make 3)\nWith cream:\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
    "Change to navy.\nRnd 3: sc around (12)\nFasten off.\n"
)

BOBBER = (
    "Harbour bobber\nUS terms\n\nBody\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: sc around (12)\n\n"
    "Head\nRnd 4: (sc, inc) x 6 (18)\nRnd 5: (sc, dec) x 6 (12)\nFasten off.\n"
)


def begun(server: LiveServer, text: str) -> tuple[str, int]:
    """Pattern and making."""
    pattern = server.api("POST", "/api/patterns", {"text": text, "terms": None})[1]["id"]
    return pattern, server.api("POST", "/api/makings", {"pattern": pattern})[1]["id"]


def sheet(page: Page, name: str) -> Any:
    page.get_by_role("button", name="more", exact=True).click()
    page.get_by_role("dialog").get_by_role("button", name=name).first.click()
    return page.get_by_role("dialog", name=name)


def test_a_part_that_is_not_worked_yet_stops_the_round_that_joins_it(server: LiveServer, chromium: Browser) -> None:
    pattern, making = begun(server, DOLL)
    with opened(chromium, f"{server.url}/#/read/{pattern}", WIDE) as page:
        say = "Round 3 of Body goes into both legs: work them first, to their last round."
        expect(page.get_by_text(say)).to_be_visible(timeout=30_000)
        page.goto(f"{server.url}/#/gather/{pattern}/{making}")
        expect(page.get_by_role("heading", name="Ready first")).to_be_visible(timeout=30_000)
        page.goto(f"{server.url}/#/bench/{making}")
        at_bench(page)
        pieces = sheet(page, "Pieces and copies")
        expect(pieces.get_by_text("Round 3 works into them, 12 stitches each, and comes to 30.")).to_be_visible()
        pieces.get_by_role("button", name="take up Body").click()
        expect(heading(page)).to_have_text("Leg 1 and Leg 2 are not worked yet")
        page.keyboard.press("Space")  # nothing but an answer goes on
        expect(heading(page)).to_have_text("Leg 1 and Leg 2 are not worked yet")
        page.wait_for_timeout(STOP_IS_DEAF + 50)
        page.get_by_role("button", name="Work Leg 1").click()
        expect(page.locator(".which")).to_have_text("Leg 1 of 2")
        expect(page.locator(".working")).to_be_visible()
        sheet(page, "Pieces and copies").get_by_role("button", name="take up Body").click()
        expect(heading(page)).to_have_text("Leg 1 and Leg 2 are not worked yet")
        page.wait_for_timeout(STOP_IS_DEAF + 50)
        page.get_by_role("button", name="They are ready").click()  # worked without Hookside
        expect(page.locator(".working")).to_be_visible()
        expect(page.get_by_text("Round 3").first).to_be_visible()


def test_a_part_that_goes_on_from_the_loop_is_taken_up_with_it(server: LiveServer, chromium: Browser) -> None:
    _, making = begun(server, BOBBER)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        at_bench(page)
        for _ in range(12):
            if page.locator(".halt").count():
                break
            page.keyboard.press("r")
            page.wait_for_timeout(250)
        expect(heading(page)).to_have_text("Body is worked")
        halt = page.locator(".halt")
        expect(halt).to_contain_text("keep the loop on the hook: round 4 of Head goes on in these 12 stitches")
        expect(halt).not_to_contain_text("Lay it by")
        assert overflow(page) <= 0


def test_each_copy_is_told_in_the_colours_the_maker_calls_it_by(server: LiveServer, chromium: Browser) -> None:
    pattern, making = begun(server, BUOY)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        at_bench(page)
        expect(page.get_by_text("Take up cream").first).to_be_visible()
        sheet(page, "Pieces and copies").get_by_role("button", name="Colours, copy by copy").click()
        colours = page.get_by_role("dialog", name="Colours")
        every, second = colours.get_by_role("group", name="In every copy"), colours.get_by_role("group", name="Buoy 2")
        every.get_by_label("cream").fill("shell wool")
        second.get_by_label("cream").fill("moss wool")
        second.get_by_label("navy").fill("ink")
        assert small_targets(page) == []
        assert overflow(page) <= 0
        colours.get_by_role("button", name="Keep the colours").click()
        expect(page.get_by_text("Take up shell wool").first).to_be_visible()
        sheet(page, "Pieces and copies").get_by_role("button", name="take up Buoy 2").click()
        expect(page.get_by_text("Take up moss wool").first).to_be_visible()
        page.goto(f"{server.url}/#/gather/{pattern}/{making}")
        expect(page.get_by_text("Yours: shell wool; Buoy 2: moss wool")).to_be_visible(timeout=30_000)
        page.goto(f"{server.url}/#/paper/{pattern}/{making}")
        expect(page.get_by_role("heading", name="Buoy 2")).to_be_visible(timeout=30_000)
        expect(page.get_by_text("Change to ink")).to_be_visible()
        expect(page.get_by_text("Change to navy")).to_have_count(1)  # the other copies, together
    chosen = server.api("GET", f"/api/makings/{making}/choices")[1]["choices"]
    assert chosen == {"colours": {"cream": "shell wool"}, "colours/p1.c2": {"cream": "moss wool", "navy": "ink"}}


def test_the_same_again_says_on_its_bench_what_came_along(server: LiveServer, chromium: Browser) -> None:
    _, making = begun(server, BUOY)
    named = [{"choice": "colours", "value": {"navy": "ink"}}, {"choice": "kinds_off", "value": ["marker"]}]
    server.api("POST", f"/api/makings/{making}/choices", {"choices": named})
    with opened(chromium, f"{server.url}/#/", PHONE) as page:
        page.get_by_role("button", name="More about Harbour buoy").first.click()
        page.get_by_role("button", name="Harbour buoy: the same again").click()
        said = "Came along: what you call the colours. Not taken over: what you turned down there."
        expect(page.get_by_text(said)).to_be_visible(timeout=30_000)
        expect(page).to_have_url(f"{server.url}/#/bench/{making + 1}")


# demo
SET = (
    "Harbour set\nUS terms\n\nBall\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nFasten off.\n\n"
    "Flag\nRow 1: ch 9, sc in 2nd ch from hook and in each ch across (8)\n"
    "Rows 2-6: ch 1, turn, sc in each st across (8)\n"
    "Fasten off.\n\nAssembly\nSew the flag to the ball.\n"
)


def test_sewing_up_waits_for_what_lies_open_and_for_what_comes_first(server: LiveServer, chromium: Browser) -> None:
    _, making = begun(server, SET)

    def finished(page: Page, name: str) -> None:
        """Round by round, every stop answered, until the piece is finished."""
        for _ in range(20):
            page.wait_for_timeout(STOP_IS_DEAF + 50)
            if page.locator(".halt.comes").count():
                break
            page.keyboard.press("d" if page.locator(".halt.waits").count() else "r")
        expect(heading(page)).to_have_text(f"{name} is finished")

    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        at_bench(page)
        page.keyboard.press("r")
        sheet(page, "Pieces and copies").get_by_role("button", name="take up Flag").click()
        expect(page.locator(".which")).to_have_text("Flag")
        finished(page, "Flag")
        expect(page.get_by_role("button", name="On to assembly")).to_have_count(0)
        expect(page.locator(".halt")).to_contain_text("It lies open, at the start of round 2.")
        page.get_by_role("button", name="Take up Ball").click()
        expect(page.locator(".which")).to_have_text("Ball")
        finished(page, "Ball")
        expect(page.locator(".halt")).to_contain_text("Before assembly: Pin the flag out to shape")
        expect(page.get_by_role("button", name="On to assembly")).to_be_visible()
        assert overflow(page) == 0
        page.get_by_role("button", name="Finish list").click()
        jobs = page.get_by_role("dialog", name="Finish list")
        expect(jobs).to_contain_text("0 of ")
        expect(jobs.get_by_role("checkbox", checked=True)).to_have_count(0)
