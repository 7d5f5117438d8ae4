"""Moves on the way from a real browser's outbox to a real journal: waiting, resent, shared, disputed."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from pages import PHONE, TABLET, opened
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, WebSocketRoute
    from tests.conftest import LiveServer

# Demo text without a cue in the first rounds.
FLOAT = """Little Net Float
US terms

Float
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: sc in each st around (18)
"""


def begun(server: LiveServer) -> int:
    _, pattern = server.api("POST", "/api/patterns", {"text": FLOAT, "terms": None})
    status, making = server.api("POST", "/api/makings", {"pattern": pattern["id"], "order": {"kind": "one"}})
    assert status == 200, making
    return int(making["id"])


def stitches(page: Page, n: int) -> None:
    """Single stitches by key, slowly enough to be meant."""
    for _ in range(n):
        page.keyboard.press("s")
        page.wait_for_timeout(200)


def at(server: LiveServer, making: int) -> int:
    """Where the journal has the only run."""
    _, snapshot = server.api("GET", f"/api/makings/{making}")
    return int(snapshot["state"]["runs"]["p1.c1"]["at"])


def worked(server: LiveServer, making: int) -> int:
    """How many steps of the hook the journal has: without what was only told on the way."""
    _, snapshot = server.api("GET", f"/api/makings/{making}")
    run = snapshot["state"]["runs"]["p1.c1"]
    told = [c for c in snapshot["strands"][run["strand"]]["cues"] if c["weight"] == "whisper" and c["step"] < run["at"]]
    return int(run["at"]) - len(told)


def on_disk(page: Page) -> int:
    """How many moves the browser keeps for the journal."""
    asked = """new Promise(told => {
        const opened = indexedDB.open('hookside');
        opened.onsuccess = () => {
            const count = opened.result.transaction('moves').objectStore('moves').count();
            count.onsuccess = () => { opened.result.close(); told(count.result); };
        };
    })"""
    return int(page.evaluate(asked))


def ready(page: Page) -> None:
    expect(page.get_by_role("main")).to_contain_text("Round 1")


def waits_for(page: Page, check: Callable[[], bool]) -> None:
    """Until it is so, for a minute at most."""
    for _ in range(600):
        if check():
            return
        page.wait_for_timeout(100)
    raise AssertionError("it did not come to be within a minute")


class Cable:
    """The line of one page, which can be pulled out while the rest of the house stays up."""

    def __init__(self, page: Page) -> None:
        self.whole = True
        self.lines: list[WebSocketRoute] = []
        page.route_web_socket(re.compile("/socket.io/"), self.plug)

    def plug(self, line: WebSocketRoute) -> None:
        if self.whole:
            line.connect_to_server()
            self.lines.append(line)
        else:
            line.close(code=4000)

    def cut(self) -> None:
        self.whole = False
        for line in self.lines:
            line.close(code=4000)
        self.lines.clear()

    def mend(self) -> None:
        self.whole = True


def test_moves_wait_while_the_server_is_gone_and_none_is_doubled(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True) as page:
        ready(page)
        stitches(page, 2)
        waits_for(page, lambda: at(server, making) > 0)
        before = at(server, making)
        server.kill()
        stitches(page, 3)
        expect(page.get_by_text("3 moves wait")).to_be_visible()
        server.start()
        waits_for(page, lambda: at(server, making) == before + 3)
        expect(page.get_by_text("moves wait")).to_be_hidden()
        stitches(page, 1)
        waits_for(page, lambda: at(server, making) == before + 4)


def test_moves_survive_a_closed_tab_and_go_out_from_any_page(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True) as page:
        ready(page)
        server.stop()
        stitches(page, 2)
        expect(page.get_by_text("2 moves wait")).to_be_visible()
        waits_for(page, lambda: on_disk(page) == 2)  # a tab that a driver closes is gone within the millisecond
        shelf = page.context.new_page()
        page.close()
        server.start()
        shelf.goto(server.url)
        waits_for(shelf, lambda: worked(server, making) == 2)


def test_two_devices_stay_in_step(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    address = f"{server.url}/#/bench/{making}"
    with opened(chromium, address, PHONE) as phone, opened(chromium, address, TABLET) as tablet:
        ready(phone)
        ready(tablet)
        stitches(phone, 3)
        expect(tablet.get_by_role("main")).to_contain_text(re.compile("2 of 6 made"))
        stitches(tablet, 1)
        expect(phone.get_by_role("main")).to_contain_text(re.compile("3 of 6 made"))
        assert worked(server, making) == 4


@contextmanager
def on_a_cable(
    server: LiveServer, chromium: Browser, making: int, touch: bool = False
) -> Iterator[tuple[Page, Page, Cable]]:
    """A phone and a tablet at one making, both ready, and the cable of the phone."""
    address = f"{server.url}/#/bench/{making}"
    with (
        opened(chromium, server.url, PHONE, away=True, touch=touch) as phone,
        opened(chromium, address, TABLET, touch=touch) as tablet,
    ):
        cable = Cable(phone)
        phone.goto(address)
        phone.reload()
        ready(phone)
        ready(tablet)
        yield phone, tablet, cable


def test_where_two_devices_disagree_the_maker_is_asked(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with on_a_cable(server, chromium, making) as (phone, tablet, cable):
        cable.cut()
        stitches(phone, 2)
        expect(phone.get_by_text("2 moves wait")).to_be_visible()
        stitches(tablet, 4)
        waits_for(tablet, lambda: worked(server, making) == 4)
        cable.mend()
        for page in (phone, tablet):
            expect(page.get_by_text("Where is your marker?")).to_be_visible(timeout=20_000)
        assert worked(server, making) == 4
        phone.wait_for_timeout(1000)  # the question is deaf at first, so that a tap meant for a stitch is no answer
        phone.get_by_role("button", name=re.compile("stitch 1")).click()
        for page in (phone, tablet):
            expect(page.get_by_text("Where is your marker?")).to_be_hidden()
        waits_for(phone, lambda: worked(server, making) == 2)


def test_what_another_device_made_lies_under_what_waits_after_a_reload_without_a_line(
    server: LiveServer, chromium: Browser
) -> None:
    making = begun(server)
    with on_a_cable(server, chromium, making) as (phone, tablet, cable):
        stitches(tablet, 3)
        expect(phone.get_by_role("main")).to_contain_text("2 of 6 made")
        cable.cut()
        stitches(phone, 1)
        expect(phone.get_by_role("main")).to_contain_text("3 of 6 made")
        phone.reload()
        expect(phone.get_by_text("1 move waits")).to_be_visible()
        expect(phone.get_by_role("main")).to_contain_text("3 of 6 made")
        stitches(phone, 1)
        cable.mend()
        waits_for(phone, lambda: worked(server, making) == 5)
        for page in (phone, tablet):
            expect(page.get_by_role("main")).to_contain_text("4 of 6 made")


def test_a_browser_that_keeps_nothing_says_so_first_and_works(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, server.url) as page:
        page.add_init_script(
            "IDBFactory.prototype.open = () => { throw new DOMException('refused', 'SecurityError'); }"
        )
        page.goto(f"{server.url}/#/bench/{making}")
        page.reload()
        expect(page.get_by_role("alert")).to_contain_text("This browser will not keep anything")
        page.get_by_role("button", name="I have seen it").click()
        ready(page)
        stitches(page, 2)
        waits_for(page, lambda: worked(server, making) == 2)


def test_a_making_put_away_elsewhere_is_said_to_be_gone(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    # What the bench asks of a making late, its finish list say, is answered 404 by then.
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True, refused=404) as page:
        ready(page)
        server.api("DELETE", f"/api/makings/{making}")
        server.restart()
        expect(page.get_by_role("heading")).to_contain_text("not here any more")


def test_nothing_of_the_page_comes_from_elsewhere(server: LiveServer, chromium: Browser) -> None:
    """Nothing leaves the house: every address the page asks is the server's own."""
    making = begun(server)
    asked: list[Any] = []
    with opened(chromium, server.url) as page:
        page.on("request", lambda request: asked.append(request.url))
        page.goto(f"{server.url}/#/bench/{making}")
        page.reload()
        ready(page)
    assert asked
    assert [url for url in asked if not url.startswith(server.url)] == []
