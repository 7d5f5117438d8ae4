"""Every page looked over with axe-core by WCAG 2.2, A and AA (https://www.w3.org/TR/WCAG22/), with room for fingers
and for letters twice as large."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from pages import APART, PHONE, WIDE, at_bench, cut_off, opened, overflow, small_targets
from playwright.sync_api import expect
from test_link import waits_for
from test_mending import begun as buoy
from test_mending import rounds

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page
    from tests.conftest import LiveServer

ROOT = Path(__file__).resolve().parents[2]
AXE = ROOT / "frontend/node_modules/axe-core/axe.min.js"
PAIR = ROOT / "server/hookside/static/pair.html"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]

# demo: a count that is not right, and a stop after two rounds
FENDER = """Fender
US terms

Materials
White yarn, 20 g. 3.5 mm hook.

FENDER (make 2)
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
Stuff firmly.
Rnd 3: (sc, inc) x 6 (19)
Rnd 4: dec x 9 (9)
Fasten off, leaving a 20 cm tail.
"""
# What fits its sizes to its room does so one frame later.
LARGE = """async () => {
    document.documentElement.style.fontSize = '200%';
    for (let frame = 0; frame < 3; frame++) await new Promise(requestAnimationFrame);
}"""
BUSY = re.compile(r"^(Working it out|Making the list|Laying it out|Fetching the list)\.$")


def begun(server: LiveServer) -> tuple[int, int]:
    """A pattern and a making of it."""
    pattern = server.api("POST", "/api/patterns", {"text": FENDER, "terms": "US"})[1]["id"]
    status, making = server.api("POST", "/api/makings", {"pattern": pattern, "order": {"kind": "one"}, "anyway": True})
    assert status == 200, making
    return pattern, int(making["id"])


class Look:
    """Looks at what is on the screen, and keeps what it finds wrong until the end."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.found: list[str] = []
        self.take_along()

    def take_along(self) -> None:
        """The document is a new one: axe comes into it."""
        self.page.add_script_tag(path=AXE)

    def at(self, name: str) -> None:
        """Look at the sheet that lies on top, or else at the whole page."""
        expect(self.page.get_by_role("status").filter(has_text=BUSY)).to_have_count(0)
        self.page.evaluate("document.fonts.ready")
        broken: list[dict[str, Any]] = self.page.evaluate(
            """async tags => {
                const on = document.querySelector('dialog[open]') ?? document;
                const { violations } = await axe.run(on, { runOnly: tags, resultTypes: ['violations'] });
                return violations.map(v => ({ id: v.id, help: v.help, at: v.nodes.map(n => n.html.slice(0, 160)) }));
            }""",
            TAGS,
        )
        self.found += [f"{name}: {rule['id']} ({rule['help']}) at {rule['at']}" for rule in broken]
        self.found += [f"{name}: a small target, {what}" for what in small_targets(self.page)]
        self.found += [f"{name}: wider than the window"] * (overflow(self.page) > 0)
        self.page.evaluate(LARGE)
        self.found += [f"{name} at 200 %: wider than the window"] * (overflow(self.page) > 0)
        self.found += [f"{name} at 200 %: cut off, {what}" for what in cut_off(self.page)]
        self.page.evaluate("document.documentElement.style.fontSize = ''")


SHEETS = ROOT / "frontend/src/pages/bench/sheets.tsx"
# How each sheet is opened: its key, and what is touched then.
WAYS: dict[str, tuple[str, str | None]] = {
    "more": ("j", None), "rip": ("x", None), "goto": ("o", None), "runs": ("c", None), "colours": ("c", "colou?rs"),
    "pattern": ("n", None), "shape": ("1", None), "chart": ("2", None), "notes": ("3", None), "habits": ("i", None),
    "kinds": ("5", None), "gather": ("t", None), "parts": ("f", None), "show": ("v", None), "count": ("k", None),
    "lost": ("q", None), "passed": ("6", None), "recap": ("b", None), "help": ("h", None), "hands": ("7", None),
    "say": ("7", "^What you can say"), "teach": ("7", "^Teach keys"),
}  # fmt: skip
BY_ITSELF = {"spent"}  # comes up when the hook is back before a slip that was mended


def test_no_sheet_is_left_out() -> None:
    """The table of sheets itself says which there are."""
    table = re.search(r"^const SHEETS: Record.*?^};", SHEETS.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)
    assert table is not None
    assert set(re.findall(r"^  (\w+):", table[0], re.MULTILINE)) == set(WAYS) | BY_ITSELF


@pytest.mark.parametrize(("size", "light"), [(PHONE, "light"), (WIDE, "dark")], ids=["phone", "wide and dark"])
def test_every_sheet_can_be_read_and_touched_by_all(
    server: LiveServer, chromium: Browser, size: tuple[int, int], light: str
) -> None:
    _, making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", size, light, looked_over=True) as page:
        at_bench(page)
        look, sheet = Look(page), page.get_by_role("dialog")
        for name, (key, then) in WAYS.items():
            page.wait_for_timeout(APART)
            page.keyboard.press(key)
            heading = sheet.get_by_role("heading", level=2).first
            expect(heading).to_be_visible()
            if then is not None:
                before = heading.inner_text()
                sheet.get_by_role("button", name=re.compile(then, re.IGNORECASE)).first.click()
                expect(heading).not_to_have_text(before)
            look.at(f"sheet {name}, {light}")
            page.keyboard.press("Escape")
            expect(sheet).to_have_count(0)
    assert look.found == [], "\n".join(look.found)


@pytest.mark.parametrize("pedal", [" ", "PageDown"], ids=["space", "page down"])
def test_a_pedal_pressed_too_often_in_a_sheet_does_nothing(server: LiveServer, chromium: Browser, pedal: str) -> None:
    """It walks and never presses, whatever it sends: no count is given, no place is gone to, no copy is taken up."""
    _, making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        at_bench(page)
        rounds(page, 1)
        waits_for(page, lambda: server.api("GET", f"/api/makings/{making}")[1]["head"] == 2)  # the journal has it too
        before = server.api("GET", f"/api/makings/{making}")[1]
        sheet = page.get_by_role("dialog")
        for key in ("j", "x", "o", "c", "n", "3", "i", "5", "t", "v", "k", "q", "6", "7"):
            page.wait_for_timeout(APART)
            page.keyboard.press(key)
            expect(sheet).to_be_visible()
            for _ in range(8):
                page.wait_for_timeout(APART)
                page.keyboard.press(pedal)
            expect(sheet).to_be_visible()
            page.keyboard.press("Escape")
            expect(sheet).to_have_count(0)
        after = server.api("GET", f"/api/makings/{making}")[1]
        assert (after["head"], after["state"], after["choices"]) == (before["head"], before["state"], before["choices"])


@pytest.mark.parametrize("light", ["light", "dark"])
def test_a_mend_and_its_end_can_be_read_and_touched_by_all(server: LiveServer, chromium: Browser, light: str) -> None:
    """The count check with its questions and ways out, and the sheet that comes up by itself when it is over."""
    making = buoy(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE, light, looked_over=True) as page:
        at_bench(page)
        look, sheet = Look(page), page.get_by_role("dialog")
        rounds(page, 3)
        look.at(f"a count that waits, {light}")
        page.keyboard.press("k")
        for asked, said in (
            ("How many stitches do you count in round 3?", "17"),
            ("Is the marked stitch the very next one", "Yes"),
            ("Is one gap different?", "I can't tell"),
        ):
            expect(sheet).to_contain_text(asked)
            look.at(f"{asked}, {light}")
            sheet.get_by_role("button", name=re.compile(f"{re.escape(said)}$")).first.click()
        expect(sheet).to_contain_text("Choose what you would rather do.")
        look.at(f"ways out, {light}")
        sheet.get_by_role("button", name="In the last repeat of round 6").click()
        expect(sheet).to_have_count(0)
        expect(page.get_by_role("main")).to_contain_text("17 sc")
        page.keyboard.press("o")
        sheet.get_by_role("button", name="Round 2").click()
        sheet.get_by_role("button", name="Go there").click()
        expect(sheet).to_contain_text("Shall the rounds be as written again?")
        look.at(f"sheet spent, {light}")
    assert look.found == [], "\n".join(look.found)


@pytest.mark.parametrize("size", [PHONE, WIDE], ids=["phone", "wide"])
def test_every_page_can_be_read_and_touched_by_all(
    server: LiveServer, chromium: Browser, size: tuple[int, int]
) -> None:
    pattern, making = begun(server)
    with opened(chromium, server.url, size, looked_over=True) as page:
        look, shown = Look(page), page.get_by_role("heading", level=1)

        def go(address: str) -> None:
            page.goto(f"{server.url}/#/{address}")

        page.get_by_role("button", name="How you like it").click()
        expect(page.locator("#likes")).to_be_visible()
        look.at("shelf")
        go(f"read/{pattern}")
        expect(page.locator(".finding").first).to_be_attached()
        look.at("read-through")
        for name, address, title in (
            ("size", f"size/{pattern}", "Size, yarn, stuffing"),
            ("cards", "cards", "How it is done"),
            ("card", "cards/ring", "ring"),
            ("gather", f"gather/{pattern}", "What to have at hand"),
            ("paper", f"paper/{pattern}", "Fender"),
            ("record", f"record/{making}", "Fender"),
        ):
            go(address)
            expect(shown).to_contain_text(title)
            look.at(name)
        go(f"bench/{making}")
        at_bench(page)
        look.at("bench")
        for at in ("Round 2", "Stuff"):
            page.wait_for_timeout(APART)
            page.keyboard.press("r")
            expect(page.get_by_role("main")).to_contain_text(at)
        look.at("bench, a stop")
        page.keyboard.press("l")
        expect(page.get_by_role("main")).to_contain_text("Touch is locked")
        look.at("bench, touch locked")
        page.route("**/pair", lambda asked: asked.fulfill(path=PAIR, content_type="text/html"))
        page.goto(f"{server.url}/pair")
        expect(shown).to_have_text("Pair this device with Hookside")
        look.take_along()
        look.at("pair")
    assert look.found == [], "\n".join(look.found)


def test_every_sheet_has_a_key_and_pedals_reach_them_all(server: LiveServer, chromium: Browser) -> None:
    _, making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", WIDE) as page:
        at_bench(page)
        sheet = page.get_by_role("dialog")
        for key, title in (
            ("n", "Fender"), ("t", "What to have at hand"), ("1", "Fender"), ("2", "Chart"), ("v", "ring"),
            ("k", "Count check"), ("q", "lost"), ("6", "worked on"), ("b", "Where you were"), ("x", "Rip back"),
            ("o", "Go to"), ("3", "Notes"), ("c", "Pieces"), ("f", "Finish"), ("i", "habits"),
            ("5", "What to tell you of"), ("7", "Hands-free"), ("h", "What your hands can do"),
        ):  # fmt: skip
            page.keyboard.press(key)
            expect(sheet.get_by_role("heading", level=2).first).to_contain_text(re.compile(title, re.IGNORECASE))
            page.keyboard.press("Escape")
            expect(sheet).to_have_count(0)
        page.keyboard.press("j")
        ways = sheet.locator(".way")
        expect(ways.first).to_be_visible()
        page.keyboard.press("PageDown")
        expect(ways.nth(0)).to_be_focused()
        page.keyboard.press("PageUp")
        expect(sheet.get_by_role("button", name="close")).to_be_focused()
        page.wait_for_timeout(250)  # keys that follow sooner are one bounce of a pedal
        page.keyboard.press("PageUp")
        expect(ways.last).to_be_focused()
        page.keyboard.press("d")
        expect(sheet).to_contain_text("What your hands can do")
        page.keyboard.press("Escape")
        expect(sheet).to_have_count(0)
        # Any sheet is walked alike: another piece is taken up, and what is long is read to its end.
        page.keyboard.press("j")
        expect(ways.filter(has_text="Pieces and copies").locator("kbd")).to_have_text("C")
        page.keyboard.press("c")  # a key printed in the list is that way
        expect(sheet.get_by_role("heading", level=2)).to_have_text("Pieces and copies")
        page.wait_for_timeout(250)
        page.keyboard.press("PageDown")
        expect(sheet.get_by_role("button", name="Fender 2 of 2")).to_be_focused()
        page.keyboard.press("d")
        expect(sheet).to_have_count(0)
        expect(page.locator(".which")).to_have_text("Fender 2 of 2")
        page.keyboard.press("n")
        expect(sheet).to_contain_text("As it is written")
        for _ in range(12):
            page.wait_for_timeout(250)
            page.keyboard.press("PageDown")
            if sheet.get_by_role("button", name="close").evaluate("way => way === document.activeElement"):
                break
        at_end = "sheet => sheet.scrollTop + sheet.clientHeight >= sheet.scrollHeight - 1"
        assert sheet.evaluate(at_end), "the word that puts it away comes when all is read"
        page.keyboard.press("d")
        expect(sheet).to_have_count(0)
        page.keyboard.press("4")
        expect(page.get_by_role("heading", name="Left to work")).to_be_visible()
