"""The read-through in a real browser: paste, look, mend, start."""

from __future__ import annotations

import os
import re
import shutil
from typing import TYPE_CHECKING

import pytest
from pages import PHONE, TABLET, WIDE, opened, overflow, paste, small_targets
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page
    from tests.conftest import LiveServer

# Demo text. Round 3 works 6 repeats of 3 stitches, uses 12 and makes 18; 20 is misprinted.
BUOY = """Little Net Float
US terms

Float (make 2)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (20)
Rnd 4: sc in each st around (18)
Stuff firmly.
Rnd 5: (sc, dec) x 6 (12)
Rnd 6: dec x 6 (6)
Fasten off, leaving a 20 cm tail.
"""
UNREAD = BUOY.replace("(20)", "(18)").replace("Rnd 4: sc in each st around (18)", "Rnd 4: as the lid of the barrel")


def words(page: Page) -> Locator:
    """The field with the pattern's text. Its value is waited for: a page may still be fetching it."""
    return page.get_by_label("The pattern as text")


def look_at_rounds(page: Page) -> None:
    rounds = page.get_by_role("button", name=re.compile(r"^(\d+ r|R)ounds$"))
    if rounds.is_visible():
        rounds.click()


def course(page: Page, name: str) -> Locator:
    """The row of a round among the rounds."""
    return page.locator(".course > button").filter(has_text=re.compile(f"^{name}(?![0-9])"))


def write(page: Page, text: str) -> None:
    page.get_by_label("The pattern as text").click()
    paste(page, text)


@pytest.mark.parametrize("size", [PHONE, TABLET, WIDE], ids=["phone", "tablet", "wide"])
def test_paste_look_mend_start(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    with opened(chromium, f"{server.url}/#/read/new", size) as page:
        start = page.get_by_role("button", name=re.compile("^Start"))
        expect(start).to_be_disabled()
        write(page, BUOY)

        # A phone shows the rounds by itself once something was pasted.
        expect(page.get_by_role("heading", level=1)).to_have_text("Little Net Float")
        expect(page.get_by_role("heading", name="Float", exact=True)).to_be_visible()
        expect(page.get_by_label("How many of Float to make")).to_have_value("2")
        third = course(page, "Round 3")
        expect(third).to_contain_text("uses 12")
        expect(third).to_contain_text("makes 18")
        expect(third).to_contain_text("printed 20")
        expect(page.get_by_role("status").filter(has_text="place")).to_be_visible()
        expect(start).to_be_in_viewport()

        page.get_by_role("button", name="Show me").click()
        look = page.locator(".finding").first
        expect(look).to_be_in_viewport()
        look.get_by_role("button").first.click()
        expect(page.get_by_text("Every count adds up.")).to_be_visible()
        expect(words(page)).to_have_value(BUOY.replace("(20)", "(18)"))

        page.get_by_role("button", name="Take it back").click()
        expect(third).to_contain_text("printed 20")
        expect(words(page)).to_have_value(BUOY)

        start.click()
        page.wait_for_url(re.compile(r"#/bench/\d+$"))
    _, shelf = server.api("GET", "/api/shelf")
    assert [making["title"] for making in shelf["makings"]] == ["Little Net Float"]
    assert [p["title"] for p in shelf["patterns"] if p["source"] == "yours"] == ["Little Net Float"]


def test_findings_are_underlined_where_they_are(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, BUOY)
        marked = page.locator(".paper mark")
        expect(marked.first).to_be_attached()
        # Letter on letter: the underlined copy breaks its lines exactly where the text field does.
        drift = page.evaluate(
            """() => {
                const pre = document.querySelector('.paper pre'), area = document.querySelector('.paper textarea');
                return [pre.getBoundingClientRect().width - area.getBoundingClientRect().width,
                        pre.scrollHeight - area.scrollHeight];
            }"""
        )
        assert drift == [0, 0]
        line = page.evaluate(
            """() => { const mark = document.querySelector('.paper mark'); const range = document.createRange();
                range.setStart(document.querySelector('.paper pre'), 0); range.setEnd(mark, 0);
                return range.toString().split('\\n').length; }"""
        )
        assert line == 7


def test_a_suggestion_lands_right_behind_letters_of_two_units(server: LiveServer, chromium: Browser) -> None:
    fancy = BUOY.replace("Little Net Float", "\U0001d4db\U0001d4f2\U0001d4fd Net Float")
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, fancy)
        page.locator(".finding").get_by_role("button").first.click()
        expect(page.get_by_text("Every count adds up.")).to_be_visible()
        expect(words(page)).to_have_value(fancy.replace("(20)", "(18)"))


def test_nothing_is_lost_on_reload(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new") as page:
        write(page, BUOY)
        page.reload()
        look_at_rounds(page)
        expect(page.get_by_role("heading", name="Float", exact=True)).to_be_visible()
        expect(words(page)).to_have_value(BUOY)
        page.get_by_role("link", name="Shelf").click()
        page.get_by_role("link", name="Go on with the text you were writing Little Net Float").click()
        expect(page.get_by_label("The pattern as text")).to_have_value(BUOY)


def test_a_new_one_is_an_empty_sheet_and_the_old_text_goes_on_the_shelf(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", TABLET) as page:
        write(page, BUOY)
        expect(course(page, "Round 3")).to_be_visible()
        page.get_by_role("link", name="Shelf").click()
        page.get_by_role("button", name=re.compile("^Paste a new one")).click()
        page.wait_for_url(re.compile("#/read/new$"))
        expect(page.get_by_label("The pattern as text")).to_have_value("")
        write(page, BUOY.replace("Little Net Float", "Cork Float"))
        expect(page.get_by_role("heading", level=1)).to_have_text("Cork Float")
        page.reload()
        page.get_by_role("button", name="A new one; this goes on the shelf").click()
        expect(page.get_by_label("The pattern as text")).to_have_value("")
    _, shelf = server.api("GET", "/api/shelf")
    titles = [p["title"] for p in shelf["patterns"] if p["source"] == "yours"]
    assert titles == ["Little Net Float", "Cork Float"]


@pytest.mark.parametrize("deed", ["Start", "Keep on the shelf"])
def test_what_is_begun_or_kept_is_no_draft_any_more(server: LiveServer, chromium: Browser, deed: str) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, BUOY.replace("(20)", "(18)"))
        expect(page.get_by_text("Every count adds up.")).to_be_visible()
        page.get_by_role("button", name=deed, exact=True).click()
        page.wait_for_url(re.compile(r"#/(bench|read)/(?!new)\w+$"))
        page.goto(f"{server.url}/#/")
        page.get_by_role("link", name=re.compile("Paste a pattern")).click()
        expect(page.get_by_label("The pattern as text")).to_have_value("")
    _, shelf = server.api("GET", "/api/shelf")
    assert len([p for p in shelf["patterns"] if p["source"] == "yours"]) == 1


def test_a_pattern_pasted_into_another_can_stand_alone(server: LiveServer, chromium: Browser) -> None:
    other = BUOY.replace("Little Net Float", "Cork Float").replace("(20)", "(18)")
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, BUOY)
        expect(page.get_by_text("Pasted into the text that was here already.")).to_be_hidden()
        page.keyboard.press("Control+Home")
        for _ in range(6):
            page.keyboard.press("ArrowDown")
        paste(page, other)
        page.get_by_role("button", name="Keep only what I pasted").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Cork Float")
        expect(words(page)).to_have_value(other)
        page.get_by_role("button", name="Take it back").click()
        expect(words(page)).to_have_value(re.compile("Little Net Float"))
        expect(words(page)).to_have_value(re.compile("Cork Float"))


@pytest.mark.parametrize("size", [PHONE, TABLET], ids=["phone", "tablet"])
def test_a_reading_that_was_chosen_is_said_at_its_round(
    server: LiveServer, chromium: Browser, size: tuple[int, int]
) -> None:
    with opened(chromium, f"{server.url}/#/read/new", size) as page:
        write(page, BUOY.replace("Rnd 3: (sc, inc) x 6 (20)", "Rnd 3: (sc, inc) (18)"))
        expect(page.locator("#status")).to_contain_text("Every count adds up; 1 thing noticed.")
        noticed = page.locator(".course").filter(has_text="Round 3").locator(".finding")
        expect(noticed).to_contain_text("Noticed. Round 3 can be read in two ways.")
        page.get_by_role("button", name="Show me").click()
        expect(noticed).to_be_in_viewport()


def test_a_misprinted_count_says_which_number_the_next_round_needs(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, BUOY)
        finding = page.locator(".finding")
        expect(finding).to_contain_text("Look here.")
        expect(finding).to_contain_text("From 18, round 4 comes out at the 18 it prints")
        expect(finding.get_by_role("button").first).to_contain_text("(likelier)")
        expect(page.get_by_role("button", name="Start", exact=True)).to_be_enabled()
        write_over = BUOY.replace("Rnd 4: sc in each st around (18)", "Rnd 4: (8 sc, dec) x 2 (18)")
        page.get_by_label("The pattern as text").click()
        page.keyboard.press("Control+a")
        paste(page, write_over)
        expect(finding.first).to_contain_text("Round 4 needs 20")


def test_the_number_of_copies_is_the_maker_s(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", TABLET) as page:
        write(page, BUOY.replace("(20)", "(18)"))
        copies = page.get_by_label("How many of Float to make")
        expect(copies).to_have_value("2")
        copies.fill("0")
        copies.blur()
        expect(copies).to_have_value("2")
        copies.fill("3")
        expect(page.get_by_text("the pattern says 2")).to_be_visible()
        expect(page.get_by_role("region", name="Order of work")).to_contain_text(re.compile("3 . Float"))
        page.get_by_role("button", name="Start", exact=True).click()
        page.wait_for_url(re.compile(r"#/bench/\d+$"))
        making = page.url.rsplit("/", 1)[1]
    _, snapshot = server.api("GET", f"/api/makings/{making}")
    assert [run["copy"] for run in snapshot["runs"] if run["piece"] == "Float"] == [1, 2, 3]


def test_copies_and_order_outlive_a_look_at_what_to_have_at_hand(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, BUOY.replace("(20)", "(18)"))
        page.get_by_label("How many of Float to make").fill("3")
        page.get_by_role("button", name="Work them another way").click()
        page.get_by_label(re.compile("all to the end of")).check()
        page.get_by_role("button", name="What to have at hand").click()
        # The address changes ahead of the page: what is pressed in between still lands on the sheet that goes.
        expect(page.get_by_role("heading", name="What to have at hand")).to_be_visible()
        page.go_back()
        expect(page.get_by_label("How many of Float to make")).to_have_value("3")
        page.get_by_role("button", name="Start", exact=True).click()
        page.wait_for_url(re.compile(r"#/bench/\d+$"))
        making = page.url.rsplit("/", 1)[1]
        _, snapshot = server.api("GET", f"/api/makings/{making}")
        assert snapshot["order"]["kind"] == "level"
        assert [run["copy"] for run in snapshot["runs"] if run["piece"] == "Float"] == [1, 2, 3]
        # Another making is begun anew.
        page.go_back()
        expect(page.get_by_label("How many of Float to make")).to_have_value("2")


def test_full_words_are_full_here_too(server: LiveServer, chromium: Browser) -> None:
    _, maker = server.api("GET", "/api/maker")
    assert server.api("PUT", "/api/maker", maker | {"words": "full"})[0] == 200
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, BUOY)
        expect(course(page, "Round 2")).to_contain_text("2 single crochet in each of the next 6 stitches")


def test_a_chain_is_told_by_its_length_and_a_start_uses_nothing(server: LiveServer, chromium: Browser) -> None:
    flag = "Flag\nUS terms\n\nRow 0: ch 22\nRow 1: sc in 2nd ch from hook and in each ch across (21)\n"
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, flag)
        chain = page.locator(".course > button").first
        expect(chain).to_contain_text("22 chain")
        expect(chain).not_to_contain_text("uses")
        expect(course(page, "Row 1")).to_contain_text("makes 21")
        expect(course(page, "Row 1")).not_to_contain_text("uses")


def test_another_reading_of_the_terms(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, BUOY.replace("(20)", "(18)").replace("US terms\n", "").replace("sc", "dc"))
        terms = page.locator(".terms")
        expect(terms).to_contain_text("terms")
        before = "US" if "US terms" in terms.inner_text().split("No, it is")[0] else "UK"
        other = "UK" if before == "US" else "US"
        page.get_by_role("button", name=f"No, it is in {other} terms").click()
        expect(terms).to_contain_text(f"{other} terms because you said so.")


def test_what_is_not_read_is_shown_and_can_be_started(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new") as page:
        write(page, UNREAD)
        look_at_rounds(page)
        expect(course(page, "Round 4")).to_contain_text("as the lid of the barrel")
        expect(course(page, "Round 4")).not_to_contain_text("makes 18")
        expect(page.locator(".finding").first).to_contain_text("could not read")
        page.get_by_role("button", name="Start", exact=True).click()
        page.wait_for_url(re.compile(r"#/bench/\d+$"))


def test_what_does_not_add_up_can_be_started_anyway(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new") as page:
        write(page, BUOY.replace("Rnd 5: (sc, dec) x 6", "Rnd 5: (sc, dec) x 7"))
        page.get_by_role("button", name="Start anyway").click()
        page.wait_for_url(re.compile(r"#/bench/\d+$"))


def test_the_order_of_work_is_asked_where_there_are_copies(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, BUOY.replace("(20)", "(18)"))
        page.get_by_role("button", name="Work them another way").click()
        page.get_by_label(re.compile("all to the end of")).check()
        page.get_by_role("combobox").select_option("4")
        page.get_by_role("button", name="Start", exact=True).click()
        page.wait_for_url(re.compile(r"#/bench/\d+$"))
        making = page.url.rsplit("/", 1)[1]
    _, snapshot = server.api("GET", f"/api/makings/{making}")
    assert snapshot["order"] == {"kind": "level", "label": "4"}
    assert [run["copy"] for run in snapshot["runs"] if run["piece"] == "Float"] == [1, 2]


def test_a_pattern_of_ours_is_never_changed_only_copied(server: LiveServer, chromium: Browser) -> None:
    _, shelf = server.api("GET", "/api/shelf")
    ours = next(p for p in shelf["patterns"] if p["source"] == "own")
    _, before = server.api("GET", f"/api/patterns/{ours['id']}")
    with opened(chromium, f"{server.url}/#/read/{ours['id']}", WIDE) as page:
        field = page.get_by_label("The pattern as text")
        expect(field).not_to_be_editable()
        page.get_by_role("button", name="Change it, as a copy of yours").click()
        field.click()
        page.keyboard.press("Control+Home")
        page.keyboard.type("My own ")
        page.get_by_role("button", name="Keep on the shelf").click()
        expect(page.get_by_role("button", name="Take it off the shelf")).to_be_visible()
        expect(words(page)).to_have_value(re.compile("^My own "))
    assert server.api("GET", f"/api/patterns/{ours['id']}")[1] == before
    _, shelf = server.api("GET", "/api/shelf")
    assert len([p for p in shelf["patterns"] if p["source"] == "yours"]) == 1


def test_a_course_leads_to_its_line_and_a_line_to_its_course(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new") as page:
        write(page, BUOY)
        look_at_rounds(page)
        course(page, "Round 5").click()
        page.get_by_role("button", name="line 10").click()
        expect(page.get_by_label("The pattern as text")).to_be_focused()
        expect(page.locator(".paper .opened")).to_have_text("Rnd 5: (sc, dec) x 6 (12)")
        chosen = page.evaluate(
            "() => { const a = document.activeElement; return a.value.slice(a.selectionStart, a.selectionEnd); }"
        )
        assert chosen == "Rnd 5: (sc, dec) x 6 (12)"


def test_not_a_pattern_is_one_clear_thing_to_look_at(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        write(page, "The harbour lay still under the fog, and nobody spoke of the lighthouse any more.")
        expect(page.locator(".finding")).to_have_count(1)
        expect(page.get_by_role("button", name=re.compile("^Start"))).to_be_disabled()


@pytest.mark.parametrize("size", [PHONE, (320, 700), WIDE], ids=["phone", "narrow", "wide"])
def test_room_for_fingers_and_for_large_letters(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    """Targets of 44 px (WCAG 2.2, 2.5.5), no sideways scrolling at 320 px (1.4.10), text at 200 % (1.4.4)."""
    with opened(chromium, f"{server.url}/#/read/new", size) as page:
        write(page, BUOY)
        look_at_rounds(page)
        expect(page.locator(".finding").first).to_be_attached()
        assert small_targets(page) == []
        assert overflow(page) <= 0
        page.evaluate("document.documentElement.style.fontSize = '200%'")
        assert overflow(page) <= 0
        expect(page.get_by_role("button", name=re.compile("^Start"))).to_be_in_viewport()


def test_all_of_it_by_keyboard(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        expect(page.get_by_label("The pattern as text")).to_be_focused()
        paste(page, BUOY.replace("(20)", "(18)"))
        expect(page.get_by_text("Every count adds up.")).to_be_visible()
        start = page.get_by_role("button", name="Start", exact=True)
        for _ in range(60):
            page.keyboard.press("Tab")
            if start.evaluate("e => e === document.activeElement"):
                break
        page.keyboard.press("Enter")
        page.wait_for_url(re.compile(r"#/bench/\d+$"))


def test_a_touch_on_a_round_tells_how_it_was_read(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", PHONE) as page:
        write(page, BUOY)
        third = course(page, "Round 3")
        third.click()
        told = page.locator(".course.open .explained")
        expect(told.locator("dt")).to_have_text(["(", "sc", "inc", ") x 6", "(20)"])
        expect(told.locator("dd").nth(3)).to_have_text("from there to here, six times in all")
        expect(told).to_contain_text("Round 2 made 12 stitches to work into.")
        expect(told).to_contain_text("The pattern prints 20, two more than it makes.")
        assert overflow(page) <= 0
        # What was read anew is told anew.
        page.locator(".course.open .finding").get_by_role("button").first.click()
        expect(told).to_contain_text("The pattern prints 18 as well.")
        third.click()
        expect(told).to_have_count(0)


def test_all_offered_lines_are_taken_with_one_touch_and_taken_back_with_one(
    server: LiveServer, chromium: Browser
) -> None:
    broken = BUOY.replace("inc x 6 (12)", "inc x 6 (13)").replace("dec x 6 (6)", "dec x 5 (6)")
    with opened(chromium, f"{server.url}/#/read/new", PHONE) as page:
        write(page, broken)
        expect(page.get_by_text("A mended line is offered at 3 places.")).to_be_visible()
        assert small_targets(page) == []
        page.get_by_role("button", name="Take the likeliest everywhere").click()
        expect(page.get_by_text("Taken: lines 6, 7 and 11 mended.")).to_be_visible()
        expect(page.get_by_text("Every count adds up.")).to_be_visible()
        expect(words(page)).to_have_value(BUOY.replace("(20)", "(18)"))
        page.get_by_role("button", name="Take it back").click()
        expect(words(page)).to_have_value(broken)


def test_each_line_that_is_named_is_a_way_to_it(server: LiveServer, chromium: Browser) -> None:
    talk = BUOY.replace("(20)", "(18)") + "\nThe gulls were loud that morning.\n\nNobody had told the crabs of it.\n"
    with opened(chromium, f"{server.url}/#/read/new", PHONE) as page:
        write(page, talk)
        look_at_rounds(page)
        named = page.locator("#loose .finding").filter(has_text="talk by my reading").get_by_role("button")
        expect(named).to_have_count(2)
        assert small_targets(page) == []
        named.last.click()
        expect(words(page)).to_be_focused()
        chosen = page.evaluate(
            "() => { const a = document.activeElement; return a.value.slice(a.selectionStart, a.selectionEnd); }"
        )
        assert chosen == "Nobody had told the crabs of it."


def test_ordinary_scroll_bars_bring_no_others(server: LiveServer, chromium: Browser) -> None:
    """Scroll bars that take room, as a desk's do: none sideways, and the read-through scrolls in its halves alone."""
    rounds = "".join(f"Rnd {n}: sc around (18)\n" for n in range(4, 60))
    text = BUOY.replace("(20)", "(18)").replace("Rnd 4: sc in each st around (18)\n", "") + "\nLong\n" + rounds
    pattern = server.api("POST", "/api/patterns", {"text": text, "terms": "US"})[1]["id"]
    desk = chromium.browser_type.launch(
        executable_path=os.environ.get("HOOKSIDE_CHROMIUM") or shutil.which("chromium"),
        args=["--no-sandbox"],
        ignore_default_args=["--hide-scrollbars"],
    )
    try:
        with opened(desk, server.url, (1280, 800)) as page:
            expect(page.get_by_role("heading", name="Ours, ready to begin")).to_be_visible(timeout=30_000)
            assert page.evaluate("innerWidth - document.documentElement.clientWidth") > 0, "its bar takes no room"
            assert overflow(page) <= 0
            page.goto(f"{server.url}/#/read/{pattern}")
            expect(page.get_by_label("How many of Float to make")).to_be_visible(timeout=30_000)
            assert page.evaluate("document.documentElement.scrollHeight - innerHeight") <= 0
            assert overflow(page) <= 0
    finally:
        desk.close()
