"""A phone comes in: the laptop's shelf and the phone's pairing page side by side, in a real browser over real TLS."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from pages import PHONE, TABLET, WIDE, opened, overflow, small_targets
from playwright.sync_api import expect
from tests.conftest import free_port

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PLACE = "127.0.0.1"  # stands for this machine's address in the house
LOCAL = f"--host-resolver-rules=MAP *.local {PLACE}"  # what multicast DNS does in a house
AGENT = (
    "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Mobile Safari/537.36"
)


@pytest.fixture(scope="module")
def phones(chromium: Browser) -> Iterator[Browser]:
    """A browser of devices that trust the house. (A certificate that is only forgiven page by page is not enough for
    a service worker.)"""
    path = os.environ.get("HOOKSIDE_CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
    browser = chromium.browser_type.launch(
        executable_path=path, args=["--no-sandbox", "--disable-gpu", "--ignore-certificate-errors", LOCAL]
    )
    yield browser
    browser.close()


@pytest.fixture(autouse=True)
def patience() -> Iterator[None]:
    """Two browsers and a server over TLS on a machine that may be busy."""
    expect.set_options(timeout=30_000)
    yield
    expect.set_options(timeout=5_000)


@pytest.fixture
def shared_server(tmp_path: Path, server: Any, monkeypatch: pytest.MonkeyPatch) -> Any:
    """The server, able to be shared at an address of its own, and at a port that no other house here wants."""
    plain = server.command
    (server.folder / "doors").mkdir(mode=0o700)
    (server.folder / "doors" / "port").write_text(f"{free_port()}\n", encoding="ascii")
    monkeypatch.setattr(server, "command", lambda: [*plain(), "--address", PLACE])
    server.restart()
    return server


@contextmanager
def phone(browser: Browser, address: str, size: tuple[int, int] = PHONE) -> Iterator[Page]:
    """A phone that trusts the house. Afterwards nothing may have gone wrong in it."""
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]}, user_agent=AGENT, has_touch=True
    )
    page = context.new_page()
    complaints: list[str] = []
    page.on("console", lambda m: complaints.append(m.text) if m.type == "error" and "net::ERR" not in m.text else None)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    try:
        page.goto(address)
        yield page
    finally:
        context.close()
    # A line that is refused, and why it was, are no faults of the page.
    assert [c for c in complaints if "WebSocket connection" not in c and "status of 401" not in c] == []


def doors(page: Page) -> Any:
    return page.get_by_role("region", name="Phones and tablets")


def share(page: Page) -> None:
    doors(page).get_by_role("button", name="Share in the house").click()
    expect(doors(page)).to_contain_text("Shared with paired devices at")


def invite(server: Any, page: Page) -> str:
    """Touch the button; the address that the picture for the camera holds."""
    with page.expect_response("**/api/share/invite") as answer:
        doors(page).get_by_role("button", name="Invite a device").click()
    return str(answer.value.json()["url"])


@pytest.mark.parametrize("size", [PHONE, TABLET, WIDE])
def test_a_phone_comes_in_by_its_camera_and_is_shown_out(
    chromium: Browser, phones: Browser, shared_server: Any, size: tuple[int, int]
) -> None:
    with opened(chromium, shared_server.url, size) as laptop:
        share(laptop)
        link = invite(shared_server, laptop)
        expect(doors(laptop).get_by_role("img")).to_have_count(2)
        expect(doors(laptop).locator(".print span")).to_have_count(4)
        assert overflow(laptop) <= 0
        assert small_targets(laptop) == []
        with phone(phones, link) as device:
            figures = device.locator(".figures")
            expect(figures).to_have_text(re.compile(r"^[1-9]\d$"))
            assert "#" not in device.url
            shown = figures.inner_text()
            assert overflow(device) <= 0
            knock = laptop.get_by_role("form", name="Android phone asks to come in")
            expect(knock).to_contain_text(f"It must show {shown}")
            knock.get_by_label("What you call it").fill("Gull")
            knock.get_by_label("Who works with it").fill("Ada")
            assert overflow(laptop) <= 0
            assert small_targets(laptop) == []
            knock.get_by_role("button", name="Let it in").click()
            expect(device.get_by_role("heading", name="Hookside", exact=True)).to_be_visible()
            expect(device.get_by_role("heading", name="Ours, ready to begin")).to_be_visible()
            expect(doors(device)).to_have_count(0)  # that is decided at the laptop
            row = doors(laptop).get_by_role("listitem").filter(has_text="Gull")
            expect(row).to_contain_text("Ada's")
            row.get_by_role("button", name="Show out Gull").click()
            expect(row).to_have_count(0)
            out = device.get_by_role("alert")
            expect(out).to_contain_text("This device was shown out")
            assert overflow(device) <= 0
            assert small_targets(device) == []
            out.get_by_role("link", name="Pair it again").click()
            expect(device.get_by_role("heading", name="Pair this device with Hookside")).to_be_visible()


def test_typed(chromium: Browser, phones: Browser, shared_server: Any) -> None:
    with opened(chromium, shared_server.url, WIDE) as laptop:
        share(laptop)
        address = invite(shared_server, laptop).split("#")[0]
        typing = doors(laptop).locator(".typing")
        expect(typing).to_have_text(re.compile(r"^\w{4} \w{4}$"))
        typed = typing.inner_text()
        laptop.goto(shared_server.url + "/#/cards")  # whatever the maker looks at meanwhile
        context = phones.new_context(viewport={"width": 390, "height": 844})
        device = context.new_page()
        device.goto(address)
        field, button = device.get_by_role("textbox"), device.get_by_role("button", name="Ask to come in")
        expect(button).to_be_disabled()
        field.fill("aaaaaaaa")
        expect(field).to_have_value("AAAA AAAA")
        button.click()
        expect(device.get_by_role("status")).to_have_text("That is not what the laptop shows. 4 tries are left.")
        field.fill(typed.lower().replace(" ", ""))
        button.click()
        expect(device.locator(".figures")).to_be_visible()
        asks = laptop.get_by_role("status").filter(has_text="asks to come in")
        asks.get_by_role("link", name="Answer on the shelf").click()
        laptop.get_by_role("button", name="Turn it away").click()
        expect(device.get_by_role("status")).to_contain_text("Nobody let this device in")
        context.close()
        expect(laptop.get_by_role("form", name=re.compile("asks to come in"))).to_have_count(0)


def test_an_unpaired_browser_finds_the_pairing_page_and_the_plain_page_tells_how_to_trust(
    chromium: Browser, phones: Browser, shared_server: Any
) -> None:
    with opened(chromium, shared_server.url, WIDE) as laptop:
        share(laptop)
        state = shared_server.api("GET", "/api/share")[1]
    house = state["addresses"][0]
    with phone(phones, f"{house}/#/bench/3") as device:
        expect(device.get_by_role("heading", name="Pair this device with Hookside")).to_be_visible()
        assert small_targets(device) == []
        device.goto(state["trust"])
        expect(device.get_by_role("heading", name="Let this device trust your house")).to_be_visible()
        for system in ("iPhone and iPad", "Android"):
            expect(device.get_by_role("heading", name=system)).to_be_visible()
        assert overflow(device) <= 0
        assert device.context.cookies() == []
        assert state["fingerprint"].replace(":", "") in device.locator(".print").inner_text().replace(" ", "").replace(
            "\n", ""
        )


def test_sharing_stays_until_it_is_stopped(chromium: Browser, shared_server: Any) -> None:
    with opened(chromium, shared_server.url, PHONE, away=True) as laptop:
        share(laptop)
        port = shared_server.api("GET", "/api/share")[1]["addresses"]
        shared_server.restart()
        laptop.reload()
        expect(doors(laptop)).to_contain_text("Shared with paired devices at")
        assert shared_server.api("GET", "/api/share")[1]["addresses"] == port
        doors(laptop).get_by_role("button", name="Stop sharing").click()
        expect(doors(laptop)).to_contain_text("answers on this machine alone")
        shared_server.restart()
        assert shared_server.api("GET", "/api/share")[1]["on"] is False


OPENS = """async ([address, protocols]) => {
    const line = new WebSocket(`${address.replace("https", "wss")}/socket.io/?EIO=4&transport=websocket`, protocols);
    return await new Promise(done => {
        line.onopen = () => done(line.protocol);
        line.onerror = () => done("refused");
    });
}"""


def test_a_page_at_one_address_reaches_the_other(chromium: Browser, phones: Browser, shared_server: Any) -> None:
    with opened(chromium, shared_server.url, WIDE) as laptop:
        share(laptop)
        with phone(phones, invite(shared_server, laptop)) as device:
            laptop.get_by_role("button", name="Let it in").click()
            expect(device.get_by_role("heading", name="Ours, ready to begin")).to_be_visible()
            known = device.evaluate("async () => await (await fetch('/api/addresses')).json()")
            assert [re.sub(r"\w{4}(?=\.local)", "XXXX", a.rsplit(":", 1)[0]) for a in known["addresses"]] == [
                f"https://{PLACE}", "https://hookside-XXXX.local",
            ]  # fmt: skip
            other = known["addresses"][1]
            assert device.evaluate(OPENS, [other, known["protocols"]]) == "hookside"
            assert device.evaluate(OPENS, [other, []]) == "refused"  # no cookie goes there
