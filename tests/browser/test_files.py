"""A pattern from a file, in a real browser: chosen, dropped, several at once, and one that is none."""

from __future__ import annotations

import base64
from typing import TYPE_CHECKING

import pytest
from pages import PHONE, WIDE, opened, overflow, small_targets
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.conftest import LiveServer

FLOAT = "Cork Float\nUS terms\n\nFloat\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nFasten off.\n"

DROP = """([name, data]) => {
    const carried = new DataTransfer();
    const bytes = Uint8Array.from(atob(data), letter => letter.charCodeAt(0));
    carried.items.add(new File([bytes], name));
    for (const type of ["dragover", "drop"])
        document.body.dispatchEvent(new DragEvent(type, { bubbles: true, cancelable: true, dataTransfer: carried }));
}"""


@pytest.mark.parametrize("size", [PHONE, WIDE], ids=["phone", "wide"])
def test_a_chosen_file_is_read(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    with opened(chromium, f"{server.url}/#/read/new", size) as page:
        expect(page.get_by_role("button", name="Choose a file")).to_be_visible()
        assert small_targets(page) == []
        assert overflow(page) <= 0
        file = {"name": "float.txt", "mimeType": "text/plain", "buffer": FLOAT.encode("utf-16")}
        page.get_by_label("A file with a pattern").set_input_files(file)  # type: ignore[arg-type]
        expect(page.get_by_role("heading", level=1)).to_have_text("Cork Float")
        expect(page.get_by_label("The pattern as text")).to_have_value(FLOAT)


def test_a_second_file_goes_on_the_shelf_and_writes_nothing_over(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE) as page:
        first = base64.b64encode(FLOAT.encode()).decode()
        page.evaluate(DROP, ["float.txt", first])
        expect(page.get_by_label("The pattern as text")).to_have_value(FLOAT)
        page.evaluate(DROP, ["net.txt", base64.b64encode(FLOAT.replace("Cork", "Net").encode()).decode()])
        expect(page.get_by_role("link", name="net.txt")).to_be_visible()
        expect(page.get_by_label("The pattern as text")).to_have_value(FLOAT)


def test_a_picture_is_told_apart(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", WIDE, refused=422) as page:
        page.evaluate(DROP, ["chart.png", base64.b64encode(b"\x89PNG\r\n\x1a\n").decode()])
        expect(page.get_by_role("alert")).to_contain_text("chart.png is a picture")
        expect(page.get_by_label("The pattern as text")).to_have_value("")
