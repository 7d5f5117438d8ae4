"""A pattern is changed while it is being made: the bench asks, and nothing moves before the answer."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pages import PHONE, TABLET, WIDE, opened, overflow, small_targets
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page
    from tests.conftest import LiveServer

# demo
FLOAT = """Little Net Float
US terms

Float
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnds 4-6: sc in each st around (18)
Rnd 7: (sc, dec) x 6 (12)
"""
LONGER = FLOAT.replace("Rnds 4-6", "Rnds 4-8").replace("Rnd 7", "Rnd 9")
OTHER = FLOAT.replace("Rnd 3: (sc, inc) x 6 (18)", "Rnd 3: (inc, sc) x 6 (18)")


def begun(server: LiveServer) -> tuple[int, str]:
    """A making; its id and its pattern's."""
    _, pattern = server.api("POST", "/api/patterns", {"text": FLOAT, "terms": None})
    status, making = server.api("POST", "/api/makings", {"pattern": pattern["id"], "order": {"kind": "one"}})
    assert status == 200, making
    return int(making["id"]), str(pattern["id"])


def change(server: LiveServer, pattern: str, text: str) -> None:
    assert server.api("PUT", f"/api/patterns/{pattern}", {"text": text, "terms": None})[0] == 200


def run_of(server: LiveServer, making: int) -> dict[str, Any]:
    run: dict[str, Any] = server.api("GET", f"/api/makings/{making}")[1]["state"]["runs"]["p1.c1"]
    return run


def work_to_round_3(page: Page) -> None:
    """Rounds 1 and 2 whole, then two stitches, by key; slowly enough that each is meant."""
    said = page.locator("p.said[role=status]").last
    expect(said).to_contain_text("Round 1")
    for key, place in (("r", "Round 2"), ("r", "Round 3"), ("s", "1 of 18 made"), ("s", "2 of 18 made")):
        page.wait_for_timeout(250)
        page.keyboard.press(key)
        expect(said).to_contain_text(place)


def settled(page: Page, server: LiveServer, making: int) -> Any:
    """The run once the server has heard of every move: the page is ahead of it for a moment."""
    found = run_of(server, making)
    for _ in range(40):
        page.wait_for_timeout(250)
        now = run_of(server, making)
        if now == found:
            break
        found = now
    return found


def asks(page: Page, title: str) -> None:
    """Until the question stands there: the changed text is read first, in a process that shares the machine."""
    expect(page.get_by_role("heading", level=1)).to_have_text(title, timeout=30_000)


def test_rounds_ahead_are_new_and_the_place_stays(server: LiveServer, chromium: Browser) -> None:
    making, pattern = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        work_to_round_3(page)
        before = settled(page, server, making)
        change(server, pattern, LONGER)
        asks(page, "The pattern was changed")
        asked = page.locator(".halt")
        expect(asked).to_contain_text("Rounds 8 and 9 are new. Round 7 is different.")
        expect(asked).to_contain_text("You are in round 3, 2 of 18 made: go on there?")
        assert run_of(server, making) == before
        page.keyboard.press(" ")  # a key that means "next" passes nothing
        expect(asked.locator(".stood-at")).to_be_visible()
        page.wait_for_timeout(800)  # it hears no touch that was meant for the screen before
        page.get_by_role("button", name="Go on there").click()
        expect(page.get_by_role("main")).to_contain_text("Round 3")
        expect(page.locator(".halt")).to_have_count(0)
        after = run_of(server, making)
        assert (after["at"], after["strand"] != before["strand"]) == (before["at"], True)
        page.wait_for_timeout(250)
        page.keyboard.press("s")
        expect(page.locator("p.said[role=status]").last).to_contain_text("3 of ")


def test_the_round_in_hand_is_another_one_and_she_says_where_she_is(server: LiveServer, chromium: Browser) -> None:
    making, pattern = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", TABLET) as page:
        work_to_round_3(page)
        change(server, pattern, OTHER)
        asks(page, "Where is your hook?")
        expect(page.locator(".halt")).to_contain_text("Round 3 is different.")
        expect(page.get_by_role("button", name="Round 3, 2 of 18 made")).to_be_visible()
        page.wait_for_timeout(800)
        page.get_by_role("button", name="Round 3, at its start").click()
        expect(page.locator("p.said[role=status]").last).to_contain_text("Round 3")
        expect(page.locator(".halt")).to_have_count(0)
        assert run_of(server, making)["at"] == before_round_3(server, making)


def test_what_lies_behind_the_new_place_is_asked_for(server: LiveServer, chromium: Browser) -> None:
    making, pattern = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        work_to_round_3(page)
        before = settled(page, server, making)
        change(server, pattern, FLOAT.replace("(12)\nRnd 3", "(12)\nStuff the tip.\nRnd 3"))
        asks(page, "The pattern was changed")
        page.wait_for_timeout(800)
        page.get_by_role("button", name="Go on there").click()
        asks(page, "This lies behind you, and was never asked")
        expect(page.locator(".halt")).to_contain_text("Stuff the tip.")
        assert overflow(page) <= 0
        assert small_targets(page) == []
        assert run_of(server, making) == before, "nothing moves before the answer"
        page.wait_for_timeout(800)
        page.get_by_role("button", name="Done").click()
        expect(page.locator(".halt")).to_have_count(0)
        expect(page.locator("p.said[role=status]").last).to_contain_text("2 of 18 made")
        assert run_of(server, making)["strand"] != before["strand"]


def before_round_3(server: LiveServer, making: int) -> int:
    """The step at which round 3 begins: past the whisper that stands before its first stitch, if one does."""
    snapshot = server.api("GET", f"/api/makings/{making}")[1]
    strand = next(iter(snapshot["strands"].values()))
    return int(strand["courses"][2]["first"])


def test_keeping_to_the_old_text(server: LiveServer, chromium: Browser) -> None:
    making, pattern = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", WIDE) as page:
        work_to_round_3(page)
        before = settled(page, server, making)
        change(server, pattern, LONGER)
        asks(page, "The pattern was changed")
        assert overflow(page) <= 0
        assert small_targets(page) == []
        page.wait_for_timeout(800)
        page.get_by_role("button", name="Keep to the old text").click()
        expect(page.locator(".halt")).to_have_count(0)
        assert run_of(server, making) == before
        page.reload()
        expect(page.get_by_role("main")).to_contain_text("Round 3")
        expect(page.locator(".halt")).to_have_count(0)


def test_the_shelf_says_it_too(server: LiveServer, chromium: Browser) -> None:
    making, pattern = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        work_to_round_3(page)
    change(server, pattern, LONGER)
    with opened(chromium, server.url, PHONE) as page:
        expect(page.get_by_text("If your steps are others now, Hookside asks when you resume.")).to_be_visible()
        assert overflow(page) <= 0
        page.get_by_role("link", name="resume").first.click()
        asks(page, "The pattern was changed")
