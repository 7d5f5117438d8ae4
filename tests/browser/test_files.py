"""A pattern from a file, in a real browser: chosen, dropped, several at once, and one that is none."""

from __future__ import annotations

import base64
from typing import TYPE_CHECKING

import pytest
from pages import PHONE, WIDE, opened, overflow, small_targets
from playwright.sync_api import expect
from test_link import waits_for

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.conftest import LiveServer

FLOAT = "Cork Float\nUS terms\n\nFloat\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nFasten off.\n"

DROP = """files => {
    const carried = new DataTransfer();
    for (const [name, data] of files)
        carried.items.add(new File([Uint8Array.from(atob(data), letter => letter.charCodeAt(0))], name));
    for (const type of ["dragover", "drop"])
        document.body.dispatchEvent(new DragEvent(type, { bubbles: true, cancelable: true, dataTransfer: carried }));
}"""


def carried(**files: bytes) -> list[list[str]]:
    """Files for DROP, by their names without the ending."""
    return [[f"{name}.txt", base64.b64encode(data).decode()] for name, data in files.items()]


def titles(server: LiveServer) -> list[str]:
    """The titles of what was put on the shelf besides ours."""
    return sorted(p["title"] for p in server.api("GET", "/api/shelf")[1]["patterns"] if p["source"] == "yours")


@pytest.mark.parametrize("size", [PHONE, WIDE], ids=["phone", "wide"])
def test_a_chosen_file_is_read(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    with opened(chromium, f"{server.url}/#/read/new", size) as page:
        expect(page.get_by_role("button", name="Choose a file")).to_be_visible(timeout=30_000)
        assert small_targets(page) == []
        assert overflow(page) <= 0
        file = {"name": "float.txt", "mimeType": "text/plain", "buffer": FLOAT.encode("utf-16")}
        page.get_by_label("A file with a pattern").set_input_files(file)  # type: ignore[arg-type]
        expect(page.get_by_role("heading", level=1)).to_have_text("Cork Float", timeout=30_000)
        expect(page.get_by_label("The pattern as text")).to_have_value(FLOAT)


def test_a_second_file_goes_on_the_shelf_and_writes_nothing_over(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        page.evaluate(DROP, carried(float=FLOAT.encode()))
        expect(page.get_by_label("The pattern as text")).to_have_value(FLOAT, timeout=30_000)
        page.evaluate(DROP, carried(net=FLOAT.replace("Cork", "Net").encode()))
        expect(page.get_by_role("link", name="net.txt")).to_be_visible()
        expect(page.get_by_label("The pattern as text")).to_have_value(FLOAT)


def test_a_picture_is_told_apart(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE, refused=422) as page:
        page.evaluate(DROP, [["chart.png", base64.b64encode(b"\x89PNG\r\n\x1a\n").decode()]])
        expect(page.get_by_role("alert")).to_contain_text("chart.png is a picture", timeout=30_000)
        expect(page.get_by_label("The pattern as text")).to_have_value("")


def test_several_at_once_lose_none(server: LiveServer, chromium: Browser) -> None:
    """One drop of three: the first on the empty desk, the others on the shelf; the same for three chosen at once."""
    net, cleat = FLOAT.replace("Cork", "Net"), FLOAT.replace("Cork", "Cleat")
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        expect(page.get_by_role("button", name="Choose a file")).to_be_visible(timeout=30_000)
        page.evaluate(DROP, carried(float=FLOAT.encode(), net=net.encode(), cleat=cleat.encode()))
        expect(page.get_by_label("The pattern as text")).to_have_value(FLOAT)
        expect(page.get_by_role("link", name="net.txt")).to_be_visible(timeout=30_000)
        expect(page.get_by_role("link", name="cleat.txt")).to_be_visible(timeout=30_000)
    assert titles(server) == ["Cleat Float", "Net Float"]
    with opened(chromium, f"{server.url}/#/read/new", PHONE) as page:
        page.get_by_label("A file with a pattern").set_input_files(
            [
                {"name": f"{name}.txt", "mimeType": "text/plain", "buffer": FLOAT.replace("Cork", name).encode()}
                for name in ("Oar", "Keel", "Boom")
            ]  # type: ignore[arg-type]
        )
        expect(page.get_by_label("The pattern as text")).to_have_value(FLOAT.replace("Cork", "Oar"), timeout=30_000)
        expect(page.get_by_role("link", name="Keel.txt")).to_be_visible(timeout=30_000)  # beside the rounds, not behind
        expect(page.get_by_role("link", name="Boom.txt")).to_be_visible(timeout=30_000)
    assert titles(server) == ["Boom Float", "Cleat Float", "Keel Float", "Net Float"]


def test_what_is_dropped_on_the_shelf_goes_on_it(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, server.url, WIDE, refused=422) as page:
        expect(page.get_by_role("heading", name="Ours, ready to begin")).to_be_visible(timeout=30_000)
        there = "performance.getEntriesByType('resource').some(e => /around-/.test(e.name))"
        waits_for(page, lambda: page.evaluate(there))
        several = carried(float=FLOAT.encode(), net=FLOAT.replace("Cork", "Net").encode())
        page.evaluate(DROP, [*several, ["chart.png", base64.b64encode(b"\x89PNG\r\n\x1a\n").decode()]])
        expect(page.get_by_text("2 of 3 taken in.")).to_be_visible(timeout=30_000)
        expect(page.get_by_text("chart.png is a picture")).to_be_visible()
        expect(page.get_by_role("link", name="Cork Float")).to_be_visible()
        expect(page.get_by_role("link", name="Net Float")).to_be_visible()
        with page.expect_response("**/api/shelf"):  # looked at again; what was said stays until read
            page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        assert overflow(page) <= 0
        assert small_targets(page) == []
        read = page.get_by_role("button", name="I have read it")
        read.click()
        expect(read).to_have_count(0)
        expect(page.get_by_text("chart.png is a picture")).to_have_count(0)
    assert titles(server) == ["Cork Float", "Net Float"]
