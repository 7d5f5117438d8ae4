"""A page in a real Chromium, with what it complained about."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Browser, ConsoleMessage, Page

PHONE = (390, 844)
TABLET = (820, 1180)
WIDE = (1180, 820)
STOP_IS_DEAF = 700  # milliseconds
APART = 90  # milliseconds: the same key twice within 60 is one bounce of a pedal


@contextmanager
def opened(
    browser: Browser,
    address: str,
    size: tuple[int, int] = PHONE,
    light: str = "light",
    away: bool = False,
    refused: int | None = None,
    touch: bool = False,
    looked_over: bool = False,
) -> Iterator[Page]:
    """A page at an address. Afterwards nothing may have gone wrong in it: no error, no breach of the policy.

    `away`: the server goes away in between; then the browser's own complaints about the network do not count. Only
    there are the page's files kept on the device by its worker, as in tests of that: to fetch all of them for each of
    three hundred pages took a third of what the browser tests need of the processor.
    `refused`: a status that the test provokes.
    `touch`: it has a screen for fingers, and calls itself a phone or a tablet by its size.
    `looked_over`: a script of the test comes in, which the policy would keep out; nothing moves on its own.
    """
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        color_scheme="dark" if light == "dark" else "light",
        has_touch=touch,
        bypass_csp=looked_over,
        service_workers="allow" if away else "block",
        reduced_motion="reduce" if looked_over else "no-preference",
        permissions=["clipboard-read", "clipboard-write"],
    )
    page = context.new_page()
    complaints: list[str] = []

    def heard(message: ConsoleMessage) -> None:
        # A server that is just being stopped says so: 503.
        network = any(sign in message.text for sign in ("net::ERR", "WebSocket connection", "status of 503"))
        asked_for = refused is not None and f"status of {refused}" in message.text
        if message.type == "error" and not (away and network) and not asked_for:
            complaints.append(message.text)

    page.on("console", heard)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    try:
        page.goto(address)
        yield page
    finally:
        context.close()
    assert complaints == [], f"the page complained: {complaints}"


def paste(page: Page, text: str) -> None:
    """Paste from the clipboard, as a person does, into the field that has the cursor."""
    page.evaluate("text => navigator.clipboard.writeText(text)", text)
    page.keyboard.press("Control+v")


def overflow(page: Page) -> int:
    """Pixels by which the page is wider than its window."""
    return int(page.evaluate("document.documentElement.scrollWidth - innerWidth"))


def small_targets(page: Page) -> list[str]:
    """Visible buttons, links and fields that are less than 44 by 44 CSS pixels (WCAG 2.2, 2.5.5), by their words."""
    return list(
        page.evaluate(
            """() => [...document.querySelectorAll('button, a[href], select, summary, label.choice')]
                .filter(e => e.checkVisibility())
                .filter(e => { const b = e.getBoundingClientRect(); return b.height < 43.5 || b.width < 43.5; })
                .map(e => `${e.textContent} ${e.getBoundingClientRect().width}x${e.getBoundingClientRect().height}`)"""
        )
    )


def cut_off(page: Page) -> list[str]:
    """Texts that do not go into their boxes and cannot be scrolled to either, by their words (WCAG 2.2, 1.4.4).

    Left out is what is only read aloud, one pixel large on purpose, and a name that ends in dots at any size.
    """
    return list(
        page.evaluate(
            """() => [...document.querySelectorAll('body *')]
                .filter(e => e.checkVisibility() && e.innerText?.trim() && e.clientWidth > 2 && e.clientHeight > 2)
                .filter(e => {
                    const { overflowX, overflowY, textOverflow } = getComputedStyle(e);
                    if (textOverflow === 'ellipsis') return false;
                    const shut = flow => flow === 'hidden' || flow === 'clip';
                    return (shut(overflowX) && e.scrollWidth > e.clientWidth + 1)
                        || (shut(overflowY) && e.scrollHeight > e.clientHeight + 1);
                })
                .map(e => `${e.tagName}.${e.className}: ${e.innerText.slice(0, 80)}`)"""
        )
    )


def at_bench(page: Page) -> None:
    """Wait until the bench shows work or something that waits."""
    page.locator(".working, .halt").first.wait_for()
    page.evaluate("document.fonts.ready")


def kept(page: Page) -> None:
    """Wait until the browser keeps the page, and it would open without its server."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")


def touch(page: Page) -> None:
    """One touch in the lower two thirds of the screen, where no aim is needed: off the middle on purpose."""
    size = page.viewport_size
    assert size is not None
    page.mouse.click(size["width"] * 0.37, size["height"] * 0.62, delay=30)
    page.wait_for_timeout(80)


def stroke(page: Page, dx: float, dy: float) -> None:
    size = page.viewport_size
    assert size is not None
    x, y = size["width"] * 0.5, size["height"] * 0.6
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + dx, y + dy, steps=4)
    page.mouse.up()
    page.wait_for_timeout(80)


def heading(page: Page) -> Any:
    return page.get_by_role("heading", level=1)


def place(page: Page) -> Any:
    return page.locator(".place")


def done(page: Page) -> None:
    page.wait_for_timeout(STOP_IS_DEAF + 50)
    page.get_by_role("button", name="Done", exact=True).click()
