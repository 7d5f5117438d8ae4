"""A time without the server: the page opens on what the browser kept, work goes on, and what waited goes out once."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

from hands_free import HEADSET, MICROPHONE, VOICE, sign
from pages import PHONE, TABLET, at_bench, heading, kept, opened, place, touch
from playwright.sync_api import expect
from test_link import begun, ready, stitches, waits_for, worked
from tests.conftest import ROOT, LiveServer

from hookside.config import static_folder

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

SLOW = 20_000  # milliseconds: a line that was down is tried again every two seconds or so


def waits(page: Page, n: int) -> None:
    expect(page.get_by_text(f"{n} {'move waits' if n == 1 else 'moves wait'}", exact=True)).to_be_visible()


def says(page: Page, words: str) -> None:
    """Until the voice of the device was given these words."""
    waits_for(page, lambda: words in (page.evaluate("spoken.at(-1)") or ""))


def test_the_page_can_be_installed(server: LiveServer, chromium: Browser) -> None:
    """Chromium wants a name, icons of 192 and 512 pixels, a start, a display of its own (from memory of its rules)."""
    with opened(chromium, server.url) as page:
        address = page.locator("link[rel=manifest]").get_attribute("href")
        assert address is not None
        manifest = page.evaluate("async (address) => (await fetch(address)).json()", address)
        assert manifest["name"] == "Hookside"
        assert manifest["display"] == "standalone"
        sizes = page.evaluate(
            """async (icons) => Promise.all(icons.map(async ({src, type}) => {
                const answer = await fetch(src);
                const bitmap = await createImageBitmap(await answer.blob());
                return [answer.headers.get('content-type') === type, `${bitmap.width}x${bitmap.height}`];
            }))""",
            manifest["icons"],
        )
        assert sizes == [[True, icon["sizes"]] for icon in manifest["icons"]]
        assert {icon["sizes"] for icon in manifest["icons"]} >= {"192x192", "512x512"}
        assert any(icon.get("purpose") == "maskable" for icon in manifest["icons"])


def test_shelf_and_bench_open_and_work_while_the_server_is_away(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True) as page:
        ready(page)
        stitches(page, 2)
        waits_for(page, lambda: worked(server, making) == 2)
        kept(page)
        waits_for(page, lambda: has_answer(page, "/api/shelf"))  # asked for behind the first paint
        server.stop()
        # Cold: another tab, nothing of the page in memory.
        cold = page.context.new_page()
        page.close()
        cold.goto(server.url)
        expect(cold.get_by_text("What this device remembers is here to go on with.")).to_be_visible()
        cold.get_by_role("link", name="Resume", exact=True).click()
        at_bench(cold)
        expect(place(cold)).to_contain_text("1 of 6 made")
        stitches(cold, 1)  # by key
        waits(cold, 1)
        touch(cold)  # by finger: to the end of the plain round
        waits(cold, 2)
        expect(cold.get_by_role("main")).to_contain_text("Round 2")
        cold.reload()
        expect(cold.get_by_role("main")).to_contain_text("Round 2")
        waits(cold, 2)
        server.start()
        waits_for(cold, lambda: worked(server, making) >= 7)
        expect(cold.get_by_text(re.compile("moves? waits?"))).to_be_hidden(timeout=SLOW)


def test_it_speaks_and_obeys_a_headset_while_the_server_is_away(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True) as page:
        ready(page)
        kept(page)
        server.stop()
        page.add_init_script(MICROPHONE + VOICE + HEADSET)
        page.reload()
        ready(page)
        page.get_by_role("button", name="Start hands-free").click()
        says(page, "Round 1: make a magic ring")
        page.evaluate("finishSpeaking()")
        # It cannot hear, says so once, and everything else goes on.
        expect(page.get_by_role("alert").filter(has_text="No connection, so nothing is heard.")).to_be_visible()
        expect(sign(page)).to_have_text("Not listening")
        page.keyboard.press("r")
        says(page, "two single crochet in each of the next six")
        page.evaluate("finishSpeaking()")
        waits(page, 1)
        page.locator(".ear-state").click()
        page.get_by_label(re.compile("the buttons of a headset")).check()
        page.keyboard.press("Escape")
        expect(page.get_by_role("dialog")).to_have_count(0)
        page.evaluate("buttons.nexttrack()")
        says(page, "Round 3")
        waits(page, 2)
        server.start()
        expect(page.get_by_text(re.compile("moves? waits?"))).to_be_hidden(timeout=SLOW)
        _, snapshot = server.api("GET", f"/api/makings/{making}")
        (run,) = snapshot["state"]["runs"].values()
        assert run["at"] == snapshot["strands"][run["strand"]]["courses"][2]["first"]


def test_a_piece_that_lies_on_the_shelf_opens_though_it_was_never_opened_here(
    server: LiveServer, chromium: Browser
) -> None:
    making = begun(server)
    with opened(chromium, server.url, away=True) as page:
        kept(page)
        expect(page.get_by_text("Hookside opens on this device while its server is away.")).to_be_visible()
        expect(page.get_by_text("What waits is kept")).to_be_visible()
        waits_for(page, lambda: has_copy(page, making))
        server.stop()
        page.get_by_role("link", name="Begin", exact=True).click()
        ready(page)
        page.get_by_role("button", name="US terms").click()
        expect(page.locator(".as-written")).to_contain_text("Rnd 3: (sc, inc) x 6 (18)")
        later = page.context.new_page()
        later.goto(f"{server.url}/#/bench/{making + 1}")
        expect(later.get_by_text("this device has not seen this piece yet")).to_be_visible()


def has_copy(page: Page, making: int) -> bool:
    """Whether the device keeps a copy of a making."""
    return keeps(page, "snapshots", making)


def has_answer(page: Page, address: str) -> bool:
    """Whether the device keeps what the server answered there."""
    return keeps(page, "answers", address)


def keeps(page: Page, what: str, key: int | str) -> bool:
    return bool(
        page.evaluate(
            """([what, key]) => new Promise((done) => {
                const opening = indexedDB.open('hookside');
                opening.onsuccess = () => {
                    const db = opening.result;
                    const asked = db.transaction(what).objectStore(what).count(key);
                    asked.onsuccess = () => { db.close(); done(asked.result); };
                };
            })""",
            [what, key],
        )
    )


def test_a_network_that_is_gone_is_like_a_server_that_is_gone(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True) as page:
        ready(page)
        kept(page)
        page.context.set_offline(True)
        page.reload()
        ready(page)
        stitches(page, 3)
        waits(page, 3)
        page.context.set_offline(False)
        waits_for(page, lambda: worked(server, making) == 3)


def test_two_tabs_share_one_outbox_and_every_move_is_sent_once(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    address = f"{server.url}/#/bench/{making}"
    sent: list[str] = []

    def watch(page: Page) -> None:
        page.on("websocket", lambda line: line.on("framesent", lambda text: sent.extend(ids_in(text))))

    with opened(chromium, server.url, away=True) as one:
        watch(one)
        one.goto(address)
        one.reload()
        two = one.context.new_page()
        watch(two)
        two.goto(address)
        ready(one)
        ready(two)
        stitches(one, 2)
        expect(place(two)).to_contain_text("1 of 6 made")
        server.stop()
        stitches(two, 1)
        expect(place(one)).to_contain_text("2 of 6 made")
        stitches(one, 2)
        expect(place(two)).to_contain_text("4 of 6 made")
        for tab in (one, two):
            waits(tab, 3)
        server.start()
        waits_for(one, lambda: worked(server, making) == 5)
        for tab in (one, two):
            expect(tab.get_by_text("moves wait")).to_be_hidden(timeout=SLOW)
            expect(place(tab)).to_contain_text("4 of 6 made")
    assert len(sent) == 5
    assert len(set(sent)) == 5


def ids_in(frame: str | bytes) -> list[str]:
    """Ids of the moves in one message of the socket."""
    text = frame.decode() if isinstance(frame, bytes) else frame
    found = re.search(r'\["moves",(\{.*\})\]$', text)
    return [move["id"] for move in json.loads(found.group(1))["moves"]] if found else []


def test_where_the_page_came_from_nobody_answers_and_another_address_does(
    server: LiveServer, chromium: Browser
) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True) as page:
        ready(page)
        # What this very server tells the page of itself has to be there first: it would come on top of the other.
        page.evaluate(
            """(other) => new Promise((done) => {
                const opening = indexedDB.open('hookside');
                const tell = () => {
                    const about = opening.result.transaction('about', 'readwrite').objectStore('about');
                    about.get('elsewhere').onsuccess = ({ target }) => {
                        if (!target.result) { setTimeout(tell, 50); return; }
                        about.put({addresses: [other], protocols: []}, 'elsewhere');
                        about.transaction.oncomplete = () => { opening.result.close(); done(); };
                    };
                };
                opening.onsuccess = tell;
            })""",
            server.url.replace("127.0.0.1", "localhost"),
        )
        page.route_web_socket(re.compile(r"//127\.0\.0\.1"), lambda line: line.close(code=4000))
        page.reload()
        ready(page)
        stitches(page, 2)
        waits_for(page, lambda: worked(server, making) == 2)


def test_moves_for_a_piece_that_was_put_away_are_kept_and_said(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", away=True) as page:
        ready(page)
        kept(page)
        page.context.set_offline(True)
        stitches(page, 2)
        waits(page, 2)
        server.api("DELETE", f"/api/makings/{making}")
        page.context.set_offline(False)
        notice = page.get_by_role("alert").filter(has_text="2 moves for Little Net Float are kept on this device.")
        expect(notice).to_be_visible(timeout=SLOW)
        server.api("POST", f"/api/makings/{making}/back")
        page.goto(server.url)
        page.get_by_role("link", name=re.compile("Begin|Resume")).first.click()
        waits_for(page, lambda: worked(server, making) == 2)
        ready(page)
        expect(place(page)).to_contain_text("1 of 6 made")
        expect(notice).to_be_hidden()


def test_a_full_disk_is_said_before_a_move_is_made(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, server.url) as page:
        page.add_init_script(
            """const put = IDBObjectStore.prototype.put;
            IDBObjectStore.prototype.put = function (value, key) {
                if (value instanceof Uint8Array) throw new DOMException('full', 'QuotaExceededError');
                return put.call(this, value, key);
            };"""
        )
        page.goto(f"{server.url}/#/bench/{making}")
        page.reload()
        expect(page.get_by_role("alert")).to_contain_text("There is no room left on this device.")
        page.get_by_role("button", name="I have seen it").click()
        ready(page)
        stitches(page, 2)
        waits_for(page, lambda: worked(server, making) == 2)


def test_an_older_page_in_another_tab_holds_the_store_and_that_is_said(server: LiveServer, chromium: Browser) -> None:
    making = begun(server)
    with opened(chromium, "about:blank") as old:
        blank = f"{server.url}/blank"
        old.route(blank, lambda route: route.fulfill(body="<link rel=icon href=data:,>", content_type="text/html"))
        old.goto(blank)
        old.evaluate(
            """() => new Promise((done) => {
                const opening = indexedDB.open('hookside', 1);
                opening.onupgradeneeded = () => {
                    const db = opening.result;
                    db.createObjectStore('moves', {autoIncrement: true});
                    for (const name of ['about', 'snapshots', 'strands']) db.createObjectStore(name);
                };
                opening.onsuccess = () => { window.held = opening.result; done(); };
            })"""
        )
        page = old.context.new_page()
        page.goto(f"{server.url}/#/bench/{making}")
        expect(page.get_by_role("alert")).to_contain_text("Close that tab; this one goes on by itself.")
        old.evaluate("window.held.close()")
        ready(page)
        expect(page.get_by_role("alert")).to_be_hidden()


class MovedHouse(LiveServer):
    """A server whose program is a copy, so that its page can be changed."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder / "house")
        self.program = folder / "program"
        here = static_folder().parent
        shutil.copytree(here, self.program / "hookside", ignore=shutil.ignore_patterns("__pycache__"))
        shutil.copytree(ROOT / "patterns", self.program / "hookside" / "patterns", dirs_exist_ok=True)

    def environment(self) -> dict[str, str]:
        return dict(super().environment(), PYTHONPATH=str(self.program))

    def newer_page(self) -> None:
        """Another version of the page: another title, and a worker that knows of it."""
        static = self.program / "hookside" / "static"
        for name, old, new in (
            ("index.html", "<title>Hookside</title>", "<title>Hookside</title><meta name=later content=yes>"),
            ("worker.js", '"url":"index.html"', '"later":1,"url":"index.html"'),
        ):
            text = (static / name).read_text(encoding="utf-8")
            assert old in text
            (static / name).write_text(text.replace(old, new), encoding="utf-8")
            (static / f"{name}.gz").unlink(missing_ok=True)
        worker = (static / "worker.js").read_text(encoding="utf-8")
        changed = re.sub(r'"revision":"[0-9a-f]{32}"', f'"revision":"{"5" * 32}"', worker)
        assert changed != worker
        (static / "worker.js").write_text(changed, encoding="utf-8")


def test_a_newer_page_is_taken_at_the_next_opening_and_never_under_the_hands(tmp_path: Path, chromium: Browser) -> None:
    server = MovedHouse(tmp_path)
    server.start()
    try:
        making = begun(server)
        with opened(chromium, f"{server.url}/#/bench/{making}", TABLET, away=True) as page:
            ready(page)
            kept(page)
            later = page.locator("meta[name=later]")
            page.evaluate("window.mine = true")
            server.stop()
            server.newer_page()
            server.start()
            stitches(page, 1)
            waits_for(page, lambda: worked(server, making) == 1)
            page.get_by_role("link", name="shelf").click()
            # The browser fetches the whole of it first, while the machine may be busy with other things.
            expect(page.get_by_text("A newer Hookside is here")).to_be_visible(timeout=3 * SLOW)
            assert page.evaluate("window.mine") is True
            expect(later).to_have_count(0)
            page.get_by_role("button", name="Open it now").click()
            expect(later).to_have_count(1)
            expect(heading(page)).to_have_text("Hookside")
    finally:
        if server.process is not None:
            server.stop()


def test_the_worker_is_small_and_answers_for_the_page_alone(server: LiveServer, chromium: Browser) -> None:
    """It counts apart from script and style: it is fetched after the first paint, and stays under 2 kB squeezed."""
    import gzip

    worker = (static_folder() / "worker.js").read_bytes()
    assert len(gzip.compress(worker, mtime=0)) < 2000
    with opened(chromium, server.url, PHONE, away=True) as page:
        kept(page)
        page.reload()
        expect(page.get_by_role("link", name=re.compile("Paste a pattern"))).to_be_visible(timeout=SLOW)
        server.stop()
        for path in ("/api/shelf", "/socket.io/", "/pair", "/trust", "/elsewhere"):
            assert page.evaluate("path => fetch(path).then(() => 'answered', () => 'nobody')", path) == "nobody", path
        assert page.evaluate("fetch('/').then((answer) => answer.status)") == 200
