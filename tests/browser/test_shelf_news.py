"""The shelf beside others: what happens elsewhere shows by itself, what is worked is told from what is finished."""

from __future__ import annotations

import base64
import re
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner
from pages import PHONE, TABLET, WIDE, kept, opened, overflow, small_targets
from playwright.sync_api import expect
from test_link import waits_for
from test_offline import has_copy

from hookside.cli import main

if TYPE_CHECKING:
    from playwright.sync_api import APIResponse, Browser, Route
    from tests.conftest import LiveServer

SLOW = 30_000
# demo
FLOAT = (
    "Cork Float\nUS terms\n\nFloat\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nFasten off, leaving a tail.\n\n"
    "Wing\nRnd 1: 6 sc in magic ring (6)\nFasten off.\n\nMaking up\nSew the wing to the float.\n"
)
DROP = """files => {
    const carried = new DataTransfer();
    for (const [name, data] of files)
        carried.items.add(new File([Uint8Array.from(atob(data), letter => letter.charCodeAt(0))], name));
    for (const type of ["dragover", "drop"])
        document.body.dispatchEvent(new DragEvent(type, { bubbles: true, cancelable: true, dataTransfer: carried }));
}"""


def hookside(server: LiveServer, *words: str) -> str:
    done = CliRunner().invoke(main, [*words, "--folder", str(server.folder)])
    assert done.exit_code == 0, (words, done.output)
    return done.output


def begin(server: LiveServer) -> None:
    (server.folder / "float.txt").write_text(FLOAT, encoding="utf-8")
    hookside(server, "keep", str(server.folder / "float.txt"))
    hookside(server, "begin", "Cork Float")


def work_all(server: LiveServer, making: int) -> None:
    """Every piece to its last step."""
    runs = server.api("GET", f"/api/makings/{making}")[1]["runs"]
    for run in runs:
        hookside(server, "work", str(making), "take", run["piece"])
        while "is worked" not in (said := hookside(server, "work", str(making))) and "All of it" not in said:
            hookside(server, "work", str(making), *(["done"] if "When it is done" in said else ["next", "round"]))


@pytest.mark.parametrize("size", [PHONE, WIDE], ids=["phone", "wide"])
def test_what_happens_elsewhere_shows_by_itself(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    with opened(chromium, server.url, size, away=True) as page:
        expect(page.get_by_role("heading", name="Ours, ready to begin")).to_be_visible(timeout=SLOW)
        begin(server)
        lead = page.get_by_role("region", name="On the hook")
        expect(lead).to_contain_text("Cork Float", timeout=SLOW)
        hookside(server, "work", "1", "next", "round")
        expect(lead).to_contain_text("at the start of round 2")
        hookside(server, "label", "1", "for the fair")
        expect(lead).to_contain_text("for the fair")
        with opened(chromium, f"{server.url}/#/bench/1", TABLET, touch=True) as other:  # a device, by its live line
            expect(other.get_by_role("main")).to_contain_text("Round 2", timeout=SLOW)
            other.keyboard.press("s")
            expect(lead).to_contain_text("in round 2, 1 of 12 made")
        hookside(server, "away", "1")
        expect(lead).to_have_count(0)
        server.restart()  # a new line: it says once more that it shows the shelf
        expect(page.get_by_text("Put away: 1")).to_be_visible()
        hookside(server, "back", "1")
        expect(lead).to_contain_text("in round 2, 1 of 12 made", timeout=SLOW)


def test_worked_is_not_finished_and_two_of_one_name_are_told_apart(server: LiveServer, chromium: Browser) -> None:
    begin(server)
    hookside(server, "begin", "Cork Float")
    work_all(server, 1)
    assert "left to finish" in hookside(server, "shelf")
    with opened(chromium, server.url) as page:
        worked = page.locator("section", has=page.get_by_role("heading", name="Worked", exact=True))
        row = worked.get_by_role("listitem")
        told = r"Begun today \d\d:\d\d\. The last stitch was made today \d\d:\d\d\. \d things? left to finish\."
        expect(row).to_contain_text(re.compile(told), timeout=SLOW)
        expect(page.get_by_role("region", name="On the hook")).to_contain_text("No stitch worked yet")
        for wide, high in (PHONE, TABLET, WIDE):
            page.set_viewport_size({"width": wide, "height": high})
            assert overflow(page) <= 0
            assert small_targets(page) == []
        many = len(server.api("GET", "/api/makings/1/finish")[1])
        hookside(server, "finish", "--making", "1", *(word for n in range(many) for word in ("--tick", str(n + 1))))
        expect(row).to_contain_text("Finished. The last stitch was made")
        expect(row).not_to_contain_text("left to finish")
    assert "all of it finished" in hookside(server, "shelf")


def test_a_making_begun_after_the_shelf_was_seen_is_there_without_the_server(
    server: LiveServer, chromium: Browser
) -> None:
    with opened(chromium, server.url, away=True) as page:
        expect(page.get_by_text("Hookside opens on this device while its server is away.")).to_be_visible(timeout=SLOW)
        kept(page)
        page.get_by_role("link", name=re.compile("buoy", re.IGNORECASE)).first.click()
        page.get_by_role("button", name="Start", exact=True).click()
        page.wait_for_url(re.compile(r"#/bench/1$"))
        expect(page.get_by_role("main")).to_contain_text("Round 1", timeout=SLOW)
        waits_for(page, lambda: has_copy(page, 1))
        kept(page)
        server.kill()
        cold = page.context.new_page()
        page.close()
        cold.goto(server.url)
        expect(cold.get_by_text("What this device remembers is here to go on with.")).to_be_visible(timeout=SLOW)
        lead = cold.get_by_role("region", name="On the hook")
        expect(lead).to_contain_text("buoy")
        lead.get_by_role("link", name="Resume", exact=True).click()
        expect(cold.get_by_role("main")).to_contain_text("Round 1", timeout=SLOW)


def test_files_dropped_twice_are_there_once_and_a_letter_is_not_taken(server: LiveServer, chromium: Browser) -> None:
    letter = "Dear Ines,\nthe ferry was late, and the gulls ate my lunch.\nYours, Tom\n"  # demo
    files = [
        [name, base64.b64encode(text.encode()).decode()]
        for name, text in (("float.txt", FLOAT), ("letter.txt", letter), ("net.txt", FLOAT.replace("Cork", "Net")))
    ]
    with opened(chromium, server.url, WIDE, refused=422) as page:
        expect(page.get_by_role("heading", name="Ours, ready to begin")).to_be_visible(timeout=SLOW)
        there = "performance.getEntriesByType('resource').some(e => /around-/.test(e.name))"
        waits_for(page, lambda: page.evaluate(there))
        page.evaluate(DROP, files)
        page.evaluate(DROP, files)  # nothing seems to happen, so once more
        told = page.get_by_role("region", name="Files taken in")
        expect(told).to_contain_text("4 of 6 taken in. 2 of them were there already.", timeout=SLOW)
        expect(page.get_by_text("letter.txt: No round or row could be read in it, so it was not put")).to_be_visible()
        expect(page.get_by_role("button", name="I have read it")).to_be_visible(timeout=SLOW)
    shelved = [p["title"] for p in server.api("GET", "/api/shelf")[1]["patterns"] if p["source"] == "yours"]
    assert sorted(shelved) == ["Cork Float", "Net Float"]


def test_many_files_are_told_in_one_line_move_nothing_and_can_be_stopped(server: LiveServer, chromium: Browser) -> None:
    begin(server)
    for n in range(8):  # as many as bring the word "Find" along, before anything is dropped
        server.api("POST", "/api/patterns", {"text": FLOAT.replace("Cork", f"Reed {n}"), "terms": "US"})
    files = [[f"n{n}.txt", base64.b64encode(FLOAT.replace("Cork", f"Net {n}").encode()).decode()] for n in range(40)]
    with opened(chromium, server.url, PHONE) as page:
        resume = page.get_by_role("region", name="On the hook").get_by_role("link", name="Begin", exact=True)
        expect(resume).to_be_visible(timeout=SLOW)
        there = "performance.getEntriesByType('resource').some(e => /around-/.test(e.name))"
        waits_for(page, lambda: page.evaluate(there))
        before = resume.bounding_box()
        page.evaluate(DROP, files)
        told = page.get_by_role("region", name="Files taken in")
        expect(told.get_by_role("status")).to_have_text(re.compile(r"^[1-9]\d? of 40 taken in\.$"), timeout=SLOW)
        assert resume.bounding_box() == before
        expect(told.locator(".lost")).to_have_count(0)
        told.get_by_role("button", name="Stop taking in").click()
        said = re.compile(r"^(\d+) of 40 taken in\. You stopped it: (\d+) were left\.$")
        expect(told.get_by_role("status")).to_have_text(said, timeout=SLOW)
        found = said.match(told.get_by_role("status").inner_text())
        assert found is not None
        taken, left = map(int, found.groups())
        told.get_by_role("button", name="I have read it").click()
        expect(told).to_have_count(0)
        expect(page.get_by_role("link", name=re.compile(r"^Net \d+ Float"))).to_have_count(taken)
    assert taken + left == 40
    assert len([p for p in server.api("GET", "/api/shelf")[1]["patterns"] if p["source"] == "yours"]) == taken + 9


def test_an_answer_overtaken_by_a_later_one_does_not_bring_the_old_shelf_back(
    server: LiveServer, chromium: Browser
) -> None:
    """The first look's answer is held back until the second was shown."""
    with opened(chromium, server.url, WIDE) as page:
        expect(page.get_by_role("heading", name="Ours, ready to begin")).to_be_visible(timeout=SLOW)
        held: list[tuple[Route, APIResponse]] = []

        def hold(route: Route) -> None:
            if held:
                route.continue_()
            else:
                held.append((route, route.fetch()))

        page.route("**/api/shelf", hold)
        look = "document.dispatchEvent(new Event('visibilitychange'))"
        page.evaluate(look)
        waits_for(page, lambda: bool(held))
        server.api("POST", "/api/patterns", {"text": FLOAT, "terms": "US"})
        page.evaluate(look)
        new = page.get_by_role("link", name=re.compile("^Cork Float"))
        expect(new).to_be_visible(timeout=SLOW)
        with page.expect_response("**/api/shelf"):
            held[0][0].fulfill(response=held[0][1])
        page.evaluate("() => new Promise(done => setTimeout(() => requestAnimationFrame(done)))")
        expect(new).to_be_visible()


def test_ten_pages_of_the_shelf_end_alike_after_much_happened_at_once(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, server.url, WIDE) as page:
        pages = [page, *(page.context.new_page() for _ in range(9))]
        for other in pages[1:]:
            other.goto(server.url)
        for other in pages:
            expect(other.get_by_role("heading", name="Ours, ready to begin")).to_be_visible(timeout=SLOW)
        made = [
            server.api("POST", "/api/patterns", {"text": FLOAT.replace("Cork", f"Cork {n}"), "terms": "US"})[1]["id"]
            for n in range(12)
        ]
        for id in made[:5]:
            server.api("DELETE", f"/api/patterns/{id}")
        for other in pages:
            expect(other.get_by_role("link", name=re.compile(r"^Cork \d+ Float"))).to_have_count(7, timeout=SLOW)


def test_find_has_the_cursor(server: LiveServer, chromium: Browser) -> None:
    for title in ("Gull", "Tern", "Mole", "Pier"):
        server.api("POST", "/api/patterns", {"text": f"{title}\nRnd 1: 6 sc in magic ring (6)\n", "terms": "US"})
    with opened(chromium, server.url, PHONE) as page:
        page.get_by_role("button", name="Find", exact=True).click(timeout=SLOW)
        expect(page.get_by_label("Find on the shelf")).to_be_focused()
        page.keyboard.type("tern")
        expect(page.get_by_role("link", name=re.compile("^Tern"))).to_be_visible()
        expect(page.get_by_role("link", name=re.compile("^Gull"))).to_have_count(0)
