"""A miscount is found and mended, and one who was lost finds her stitch: one question at a time, on the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pages import APART, PHONE, TABLET, at_bench, opened, overflow, small_targets
from playwright.sync_api import expect
from test_link import at, waits_for

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page
    from tests.conftest import LiveServer

# demo
BUOY = """Slipway Buoy
US terms

Buoy
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: sc in each st around (18)
Change to white.
Rnd 5: sc in each st around (18)
Rnd 6: (sc, dec) x 6 (12)
Stuff firmly.
Rnd 7: dec x 6 (6)
"""


def begun(server: LiveServer) -> int:
    _, pattern = server.api("POST", "/api/patterns", {"text": BUOY, "terms": None})
    status, making = server.api("POST", "/api/makings", {"pattern": pattern["id"], "order": {"kind": "one"}})
    assert status == 200, making
    return int(making["id"])


def now(server: LiveServer, making: int) -> tuple[dict[str, Any], dict[str, Any]]:
    """The run as the journal has it, and its strand."""
    told = server.api("GET", f"/api/makings/{making}")[1]
    run = told["state"]["runs"]["p1.c1"]
    return run, told["strands"][run["strand"]]


def said(page: Page) -> Any:
    return page.locator("p.said[role=status]").last


def rounds(page: Page, count: int) -> None:
    """So many rounds by key, each on the screen before the next."""
    expect(said(page)).to_contain_text("Round 1")
    for number in range(2, count + 2):
        page.wait_for_timeout(APART)
        page.keyboard.press("r")
        expect(said(page)).to_contain_text(f"Round {number}")


def answer(page: Page, name: str) -> None:
    page.get_by_role("dialog").get_by_role("button", name=name, exact=True).click()


def test_a_miscount_is_found_and_mended(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        at_bench(page)
        rounds(page, 3)
        page.get_by_role("button", name="not 18?").click()  # beside "take it back"
        sheet = page.get_by_role("dialog")
        expect(sheet).to_contain_text("How many stitches do you count in round 3?")
        assert overflow(page) <= 0
        assert small_targets(page) == []
        answer(page, "17")
        expect(sheet).to_contain_text("Is the marked stitch the very next one to work into?")
        page.keyboard.press("d")  # done says yes
        expect(sheet).to_contain_text("between neighbouring increases there should be 1")
        page.keyboard.press("1")  # the answer with that number
        expect(sheet).to_contain_text("Which gap, counted from the marker?")
        page.keyboard.press("4")
        expect(sheet).to_contain_text("Round 3 has 1 stitch too few, in repeat 4.")
        assert overflow(page) <= 0
        sheet.get_by_role("button", name="In the last repeat of round 6").click()
        expect(sheet).to_have_count(0)
        expect(page.get_by_role("main")).to_contain_text("17 sc")  # round 4, on the stitches there are
        run, strand = now(server, making)
        assert [course["makes"] for course in strand["courses"]] == [6, 12, 17, 17, 17, 12, 6]
        assert strand["courses"][5]["words"]["short"] == "(1 sc, dec) x 5, 2 sc"
        assert run["at"] == strand["courses"][3]["first"]
        # Ripped back before the slip, the mend is not needed, and goes by one answer.
        page.keyboard.press("o")
        sheet.get_by_role("button", name="Round 2").click()
        answer(page, "Go there")
        expect(sheet).to_contain_text("Shall the rounds be as written again?")
        page.keyboard.press("d")
        expect(sheet).to_have_count(0)
        expect(page.locator("p.say")).to_have_text("The rounds are as written again.")
        assert [course["makes"] for course in now(server, making)[1]["courses"]] == [6, 12, 18, 18, 18, 12, 6]


def test_lost_and_found_past_two_things_that_waited(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", TABLET) as page:
        at_bench(page)
        rounds(page, 2)
        page.keyboard.press("q")
        sheet = page.get_by_role("dialog")
        expect(sheet).to_contain_text("Is the loop on the hook?")
        answer(page, "Yes")
        expect(sheet).to_contain_text("Is the marker still in?")
        answer(page, "Yes")
        expect(sheet).to_contain_text("How many stitches from the marker to the hook?")
        page.keyboard.type("3")  # a number that may have two figures is written, then sent
        page.keyboard.press("Enter")
        expect(sheet).to_contain_text("How many whole rounds lie below that, from the start?")
        sheet.get_by_label("another number").fill("6")
        answer(page, "That many")
        expect(sheet).to_contain_text("You are in round 7, and 3 stitches of 6 are made.")
        answer(page, "Yes, I am there")
        ticks = sheet.get_by_role("checkbox")
        expect(ticks).to_have_count(2)
        assert small_targets(page) == []
        answer(page, "All are done")
        expect(sheet).to_have_count(0)
        expect(said(page)).to_contain_text("3 of 6 made")
        page.wait_for_timeout(250)
        page.keyboard.press("b")
        expect(sheet).to_contain_text("Count from the marker to the hook: I expect 3.")
        answer(page, "It is 3")
        expect(page.locator("p.say")).to_have_text("3: good. Go on from here.")
        _, strand = now(server, making)
        waits_for(page, lambda: at(server, making) == strand["courses"][6]["first"] + 3)
        # Three days later the bench opens with what the hands have forgotten.
        page.route("**/rest", lambda asked: asked.fulfill(json={"rested": 3 * 24 * 3600}))
        page.reload()
        expect(sheet).to_contain_text("Where you were")
        expect(sheet).to_contain_text("Yarn in hand: white.")
        expect(sheet).to_contain_text("Last count you gave: 3, in round 7.")


def test_worked_on_past_what_is_not_done_yet(server: LiveServer, chromium: Browser) -> None:
    """Her hands are where she said, whatever waits on the way: no round is counted a second time."""
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        at_bench(page)
        rounds(page, 2)
        page.wait_for_timeout(250)
        page.keyboard.press("6")
        sheet = page.get_by_role("dialog")
        expect(sheet).to_contain_text("To the end of which round?")
        answer(page, "Round 7")
        expect(sheet.get_by_role("checkbox")).to_have_count(2)
        answer(page, "Not yet")
        expect(sheet).to_have_count(0)
        expect(page.get_by_role("main")).to_contain_text("Change to white")
        page.wait_for_timeout(450)  # a pause is deaf at first
        page.keyboard.press("r")
        stop = page.locator(".halt.waits")
        expect(stop).to_contain_text("Stuff firmly")
        expect(stop).to_contain_text("You said that you are at the end of round 7.")
        page.wait_for_timeout(800)
        stop.get_by_role("button", name="Done").click()
        expect(stop.filter(has_text="Stuff firmly")).to_have_count(0)
        expect(page.get_by_role("main")).to_contain_text("Keep this loop, or cut the yarn?")
        _, strand = now(server, making)
        waits_for(page, lambda: at(server, making) == strand["courses"][6]["end"])


def counted(server: LiveServer, making: int) -> list[tuple[str, int | None, bool]]:
    """Counts of a making as the journal has them: label of the round, number, whether it is right."""
    kept = server.api("GET", f"/api/makings/{making}/choices")[1]["choices"].get("counted", [])
    _, strand = now(server, making)
    labels = {course["id"]: course["label"] for course in strand["courses"]}
    return [(labels[one["course"]], one["n"], one["right"]) for one in kept]


def test_a_count_that_waits_is_right_by_the_key_for_done_from_the_next_round_too(
    server: LiveServer, chromium: Browser
) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        at_bench(page)
        rounds(page, 1)
        expect(page.locator(".whisper", has_text="Count: ")).to_have_text("Count: 6")
        page.wait_for_timeout(APART)
        page.keyboard.press("s")
        expect(page.locator(".near .ahead")).to_have_text("count round 1: 6?")
        page.wait_for_timeout(1000)  # what has only just come up hears nothing yet
        page.keyboard.press("d")
        waits_for(page, lambda: counted(server, making) == [("1", 6, True)])


def test_a_count_waits_until_it_is_given_and_three_that_agree_are_enough(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        at_bench(page)
        rounds(page, 1)
        count = page.locator(".whisper", has_text="Count: ")
        expect(count).to_have_text("Count: 6")
        page.wait_for_timeout(1000)  # what has only just come up hears nothing yet
        page.keyboard.press("d")  # "6 it is"
        expect(page.get_by_role("button", name="not 6?")).to_have_count(0)
        waits_for(page, lambda: counted(server, making) == [("1", 6, True)])
        rounds_on(page, 3)
        expect(count).to_have_text("Count: 12")
        page.wait_for_timeout(APART)
        page.keyboard.press("p")
        # The hook is in the next round, and the count still waits.
        expect(page.locator(".near .ahead")).to_have_text("count round 2: 12?")
        page.keyboard.press("k")
        sheet = page.get_by_role("dialog")
        expect(sheet).to_contain_text("Count round 2, the one below. Is it 12?")
        page.keyboard.press("PageDown")  # a pedal pressed once too often gives no count: it walks the answers
        expect(sheet.get_by_role("button", name="Yes")).to_be_focused()
        assert counted(server, making) == [("1", 6, True)]
        page.wait_for_timeout(APART)
        page.keyboard.press("d")
        expect(sheet).to_have_count(0)
        expect(page.locator(".near .ahead").filter(has_text="count")).to_have_count(0)
        rounds_on(page, 4)
        expect(count).to_have_text("Count: 18")
        page.keyboard.press("k")
        expect(sheet).to_contain_text("How many stitches do you count in round 3?")
        page.keyboard.press("PageDown")
        expect(sheet.get_by_role("button", name="16")).to_be_focused()
        page.keyboard.type("1")  # the first of two figures is written, and answers nothing yet
        expect(sheet.get_by_label("another number")).to_have_value("1")
        sheet.get_by_role("heading", level=2).focus()
        page.keyboard.press("d")  # to the number that stands there done says yes
        expect(sheet).to_contain_text("18 is right")
        answer(page, "Done")
        waits_for(page, lambda: counted(server, making) == [("1", 6, True), ("2", 12, True), ("3", 18, True)])
        # Back behind a round, and its count is asked for anew; "not now" is an answer too.
        page.keyboard.press("o")
        sheet.get_by_role("button", name="Round 3").click()
        answer(page, "Go there")
        expect(said(page)).to_contain_text("Round 3")
        waits_for(page, lambda: counted(server, making) == [("1", 6, True), ("2", 12, True)])
        rounds_on(page, 4)
        expect(count).to_have_text("Count: 18")
        page.keyboard.press("k")
        expect(sheet).to_contain_text("How many stitches do you count in round 3?")
        answer(page, "Not now")
        expect(sheet).to_have_count(0)
        expect(page.get_by_role("button", name="18 it is")).to_have_count(0)
        waits_for(page, lambda: counted(server, making)[-1] == ("3", None, False))


def rounds_on(page: Page, number: int) -> None:
    """One round by key, until the hook is at that one."""
    page.wait_for_timeout(APART)
    page.keyboard.press("r")
    expect(said(page)).to_contain_text(f"Round {number}")


def test_counted_and_found_again_without_the_server(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE, away=True) as page:
        at_bench(page)
        rounds(page, 3)
        page.keyboard.press("k")  # what the sheets are made of is fetched once
        sheet = page.get_by_role("dialog")
        expect(sheet).to_contain_text("How many stitches do you count in round 3?")
        page.keyboard.press("Escape")
        expect(sheet).to_have_count(0)
        page.context.set_offline(True)
        expect(page.locator(".head")).to_contain_text("no connection", timeout=60_000)
        page.keyboard.press("k")
        answer(page, "17")
        expect(sheet).to_contain_text("You count 17, I have 18 in round 3.")
        expect(sheet).to_contain_text("how to mend it is asked when the link is back")
        answer(page, "Done")
        expect(sheet).to_have_count(0)
        page.keyboard.press("q")
        expect(sheet).to_contain_text("Is round 4 on the hook?")
        answer(page, "Yes")
        expect(sheet).to_contain_text("How many stitches from the marker to the hook?")
        page.keyboard.type("2")
        page.keyboard.press("Enter")
        expect(sheet).to_contain_text("You are in round 4, and 2 stitches of 18 are made.")
        answer(page, "Yes, I am there")
        expect(said(page)).to_contain_text("2 of 18 made")
        page.keyboard.press("b")
        expect(sheet).to_contain_text("Count from the marker to the hook: I expect 2.")
        expect(sheet).to_contain_text("Last count you gave: 17, in round 3.")
        page.keyboard.press("Escape")
        expect(sheet).to_have_count(0)
        page.keyboard.press("Backspace")
        expect(said(page)).to_contain_text("18 to make")
        page.context.set_offline(False)
        expect(page.locator(".head")).not_to_contain_text("wait", timeout=60_000)
        expect(page.locator(".head")).not_to_contain_text("connection", timeout=60_000)
        page.get_by_role("button", name="17 for 18 in round 3: to be mended").click()
        expect(sheet).to_contain_text("Is the marked stitch the very next one to work into?", timeout=30_000)


def test_a_stop_has_its_count_and_all_its_answers_by_keys_and_pedal(server: LiveServer, chromium: Browser) -> None:
    # demo
    text = (
        "Kelp buoy\nUS terms\n\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
        "No stuffing needed so far.\nStuff firmly.\nRnd 4: (sc, dec) x 6 (12)\n"
    )
    _, pattern = server.api("POST", "/api/patterns", {"text": text, "terms": None})
    _, making = server.api("POST", "/api/makings", {"pattern": pattern["id"], "order": {"kind": "one"}})
    with opened(chromium, f"{server.url}/#/bench/{making['id']}") as page:
        at_bench(page)
        rounds(page, 2)
        stop = page.locator(".halt.waits")
        page.wait_for_timeout(250)
        page.keyboard.press("r")
        expect(stop).to_contain_text("Stuff firmly")
        expect(stop).to_contain_text("No stuffing needed so far.")  # said in passing just before
        expect(stop.get_by_role("button", name="not 18?")).to_be_visible()
        page.wait_for_timeout(900)  # what is pressed sooner was meant for what was there before
        page.keyboard.press("ArrowRight")
        expect(stop.locator(".stood-at")).to_contain_text("Done")
        done = stop.get_by_role("button", name="Done").locator("kbd")
        expect(done).to_be_visible()
        page.wait_for_timeout(250)
        page.keyboard.press("ArrowRight")  # D is the next answer's now, and stands no more on Done
        expect(stop.locator(".stood-at")).not_to_contain_text("Done")
        expect(done).to_be_hidden()
        page.keyboard.press("2")  # as it stands on the answer
        expect(stop.get_by_role("button", name="18 it is")).to_have_count(0)
        expect(stop).to_be_visible()
        page.wait_for_timeout(250)  # sooner it is one bounce of the key
        page.keyboard.press("2")  # go back
        expect(stop).to_have_count(0)
        expect(page.locator("[data-open]")).to_be_visible()
