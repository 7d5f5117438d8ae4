"""The shelf in a real browser: the first minute, the next day, how a maker likes it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import pytest
from pages import PHONE, TABLET, WIDE, opened, overflow, small_targets
from playwright.sync_api import expect
from test_link import waits_for

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.conftest import LiveServer


def begun(server: LiveServer, title: str) -> int:
    """A making of one of our own patterns."""
    _, shelf = server.api("GET", "/api/shelf")
    pattern = next(p for p in shelf["patterns"] if title in p["title"].lower())
    status, making = server.api("POST", "/api/makings", {"pattern": pattern["id"], "order": {"kind": "one"}})
    assert status == 200, making
    return int(making["id"])


def move(server: LiveServer, making: int, **intent: Any) -> dict[str, Any]:
    """One move, as a page sends it."""
    from socketio import SimpleClient

    _, snapshot = server.api("GET", f"/api/makings/{making}")
    run = next(run["run"] for run in snapshot["runs"] if run["piece"] in ("Buoy", "Pennant"))
    with SimpleClient() as line:
        line.connect(server.url, transports=["websocket"])
        sent = {
            "id": f"{snapshot['head']:032x}", "device": "d" * 32, "device_seq": snapshot["head"], "making": making,
            "run": run, "strand": snapshot["state"]["runs"][run]["strand"], "base": snapshot["head"], **intent,
        }  # fmt: skip
        answer = line.call("moves", {"epoch": snapshot["epoch"], "moves": [sent]}, timeout=10)
    assert answer["ok"], answer
    done: dict[str, Any] = answer["answers"][0]
    assert done["ok"], done
    return done


@pytest.mark.parametrize("size", [PHONE, TABLET, WIDE], ids=["phone", "tablet", "wide"])
def test_a_newcomer_is_at_the_first_stitch_in_two_taps(
    server: LiveServer, chromium: Browser, size: tuple[int, int]
) -> None:
    with opened(chromium, server.url, size) as page:
        expect(page.get_by_role("link", name=re.compile("Paste a pattern"))).to_be_in_viewport(timeout=30_000)
        page.get_by_role("link", name=re.compile("buoy", re.IGNORECASE)).first.click()
        page.get_by_role("button", name="Start", exact=True).click()
        page.wait_for_url(re.compile(r"#/bench/\d+$"))
        expect(page.get_by_role("main")).to_be_visible()


def test_the_next_day_it_says_where_the_hook_is(server: LiveServer, chromium: Browser) -> None:
    first = begun(server, "buoy")
    move(server, first, intent="next", unit="round")  # the colour it begins with is a pause of its own
    move(server, first, intent="next", unit="round")
    second = begun(server, "pennant")
    move(server, second, intent="take")
    done = move(server, first, intent="next", unit="stitch")
    assert done["kind"] == "move"
    server.restart()
    with opened(chromium, server.url) as page:
        lead = page.get_by_role("region", name="On the hook")
        stopped = re.compile(r"Stopped today \d\d:\d\d in round 2, \d+ of 12 made\.")
        expect(lead).to_contain_text(stopped, timeout=30_000)  # a server just started reads every pattern first
        resume = lead.get_by_role("link", name="Resume")
        expect(resume).to_be_in_viewport()
        assert resume.get_attribute("href") == f"#/bench/{first}"
        expect(page.get_by_role("heading", name="Also begun")).to_be_attached()
        resume.click()
        page.wait_for_url(re.compile(rf"#/bench/{first}$"))


def test_what_is_put_away_keeps_its_place_and_comes_back(server: LiveServer, chromium: Browser) -> None:
    making = begun(server, "buoy")
    move(server, making, intent="next", unit="round")
    with opened(chromium, server.url) as page:
        lead = page.get_by_role("region", name="On the hook")
        before = lead.locator(".recap").inner_text()
        page.get_by_role("button", name=re.compile("^More about")).first.click()
        page.get_by_role("button", name=re.compile("^Put away")).click()
        expect(page.get_by_role("status").filter(has_text="is put away, with its place")).to_be_visible()
        expect(lead).to_have_count(0)
        assert server.api("GET", "/api/shelf")[1]["makings"] == []
        page.get_by_role("button", name="Bring it back", exact=True).click()
        expect(lead.locator(".recap")).to_have_text(before)

        # Any later day it lies at the foot of the shelf.
        page.get_by_role("button", name=re.compile("^More about")).first.click()
        page.get_by_role("button", name=re.compile("^Put away")).click()
        expect(lead).to_have_count(0)
        page.reload()
        page.get_by_text("Put away: 1").click()
        page.get_by_role("button", name=re.compile("^Bring back")).click()
        expect(lead.locator(".recap")).to_have_text(before)
        expect(page.get_by_text("Put away: 1")).to_have_count(0)
    assert [m["id"] for m in server.api("GET", "/api/shelf")[1]["makings"]] == [making]


def test_a_thing_is_found_by_its_own_label_and_comes_back_when_taken_off(server: LiveServer, chromium: Browser) -> None:
    text = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc in each st (12)\n"  # demo
    for title in ("Gull", "Tern", "Buoy", "Seal", "Skiff", "Mole"):
        server.api("POST", "/api/patterns", {"text": f"{title}\n{text}", "terms": "US"})
    with opened(chromium, server.url, PHONE) as page:
        page.get_by_role("button", name="More about Tern").click()
        page.get_by_label("Your own labels").fill("for the fair, blue")
        page.get_by_role("button", name="Keep the labels").click()
        page.get_by_role("button", name="Find", exact=True).click()
        page.get_by_role("button", name="for the fair", exact=True).click()
        expect(page.get_by_role("link", name=re.compile("^Tern"))).to_be_visible()
        expect(page.get_by_role("link", name=re.compile("^Gull"))).to_have_count(0)
        assert overflow(page) <= 0
        assert small_targets(page) == []
        page.get_by_role("button", name="Take Tern off the shelf").click()
        expect(page.get_by_text("Tern is off the shelf.")).to_be_visible()
        expect(page.get_by_text("Nothing on the shelf is called that.")).to_be_visible()
        page.get_by_role("button", name="Bring it back", exact=True).click()
        expect(page.get_by_role("link", name=re.compile("^Tern"))).to_be_visible()


def test_more_belongs_to_the_making_and_the_way_back_outlives_a_reload(server: LiveServer, chromium: Browser) -> None:
    first, second = begun(server, "buoy"), begun(server, "pennant")
    move(server, second, intent="next", unit="round")
    # A second touch that comes before the shelf is drawn anew is refused: that making is away already.
    with opened(chromium, server.url, refused=404) as page:
        page.get_by_role("region", name="On the hook").get_by_role("button", name=re.compile("^More about")).click()
        away = page.get_by_role("button", name=re.compile("^Put away"))
        away.dblclick()  # the second touch must find nothing under it
        expect(page.get_by_text("Put away: 1")).to_be_visible()
        expect(page.get_by_role("region", name="On the hook")).to_be_visible()
        expect(away).to_have_count(0)
        page.reload()
        expect(page.get_by_role("status").filter(has_text="is put away, with its place")).to_be_visible()
        page.get_by_role("button", name="Bring it back", exact=True).click()
        expect(page.get_by_text("Put away: 1")).to_have_count(0)
        page.reload()
        expect(page.get_by_role("region", name="On the hook")).to_be_visible()
        expect(page.get_by_role("button", name="Bring it back", exact=True)).to_have_count(0)
    assert {m["id"] for m in server.api("GET", "/api/shelf")[1]["makings"]} == {first, second}


def test_a_row_says_what_waits(server: LiveServer, chromium: Browser) -> None:
    first = begun(server, "buoy")
    for _ in range(60):
        done = move(server, first, intent="next", unit="round")
        _, shelf = server.api("GET", "/api/shelf")
        if shelf["makings"][0]["in_hand"]["next_cue"]["waits"] or done["kind"] == "refused":
            break
    second = begun(server, "pennant")
    move(server, second, intent="next", unit="round")
    with opened(chromium, server.url) as page:
        row = page.locator(".rows li").filter(has=page.locator(f"a[href='#/bench/{first}']"))
        expect(row).to_contain_text(re.compile("waits? for you there"))


def test_how_she_likes_it_is_kept(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, server.url) as page:
        page.get_by_role("button", name="How you like it").click()
        page.get_by_label("left hand").check()
        page.get_by_label("one stitch").check()
        page.get_by_role("group", name="A key or pedal goes on by").get_by_label("stitch by stitch").check()
        page.get_by_label("lamplight").check()
        wanted = {"hand": "left", "plain": "stitch", "plain_keys": "stitch", "plain_voice": "same"}
        wanted |= {"light": "lamplight"}
        waits_for(page, lambda: wanted.items() <= server.api("GET", "/api/maker")[1].items())
        expect(page.locator("html")).to_have_attribute("data-light", "lamplight")
        page.reload()
        expect(page.locator("html")).to_have_attribute("data-light", "lamplight")


def test_the_light_follows_the_device_until_it_is_chosen(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, server.url, light="dark") as page:
        expect(page.locator("html")).to_have_attribute("data-light", "lamplight")
        page.emulate_media(color_scheme="light")
        expect(page.locator("html")).to_have_attribute("data-light", "daylight")


def test_a_shelf_says_what_to_take_in_hand_to_go_on(server: LiveServer, chromium: Browser) -> None:
    """The hook as the pattern has it, and the yarn in hand where the pattern names one."""
    making = begun(server, "buoy")
    with opened(chromium, f"{server.url}/#/bench/{making}") as page:
        page.locator("[data-open], .halt").first.wait_for()
        page.keyboard.press("r")
        page.get_by_role("link", name="shelf").click()
        expect(page.locator(".needs")).to_have_text(re.compile(r"^Hook 3 mm"))


def test_when_the_server_is_away_it_says_so_and_comes_back_by_itself(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, server.url, away=True) as page:
        expect(page.get_by_role("link", name=re.compile("Paste a pattern"))).to_be_visible(timeout=30_000)
        page.get_by_role("button", name="How you like it").click()
        expect(page.locator("#likes")).to_be_visible()
        server.stop()
        page.get_by_label("left hand").click()
        expect(page.get_by_text("Hookside does not answer.")).to_be_visible()
        expect(page.get_by_label("right hand")).to_be_checked()
        server.start()
        page.get_by_label("left hand").click()
        expect(page.get_by_text("Hookside does not answer.")).to_be_hidden()


@pytest.mark.parametrize("size", [PHONE, (320, 700), WIDE], ids=["phone", "narrow", "wide"])
def test_room_for_fingers_and_for_large_letters(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    """Targets of 44 px (WCAG 2.2, 2.5.5), no sideways scrolling at 320 px (1.4.10), text at 200 % (1.4.4)."""
    begun(server, "buoy")
    with opened(chromium, server.url, size) as page:
        page.get_by_role("button", name="How you like it").click()
        expect(page.locator("#likes")).to_be_visible()
        expect(page.get_by_role("link", name="Begin", exact=True)).to_be_visible()
        assert small_targets(page) == []
        assert overflow(page) <= 0
        page.evaluate("document.documentElement.style.fontSize = '200%'")
        assert overflow(page) <= 0
        expect(page.get_by_role("link", name="Begin", exact=True)).to_be_visible()


def test_the_page_is_light() -> None:
    """Script and style of shelf, read-through and bench stay under 90 kB squeezed.

    What is fetched only when it is asked for counts apart, as does the service worker (test_offline.py).
    """
    from tests.weighing import at_first, squeezed

    from hookside.config import static_folder

    parts = at_first(static_folder(), "bench")
    assert len(parts) >= 4
    assert squeezed(parts) < 90_000, [(p.name, squeezed([p])) for p in parts]
