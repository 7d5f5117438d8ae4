"""A voice model from a page: a zip of this device, and what is said of one that is none."""

from __future__ import annotations

import io
import zipfile
from typing import TYPE_CHECKING

from pages import PHONE, at_bench, opened, overflow, small_targets
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser, FilePayload
    from tests.conftest import LiveServer


def zipped(name: str, *files: str) -> FilePayload:
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w") as zip:
        for file in files:
            zip.writestr(file, "no")
    return {"name": name, "mimeType": "application/zip", "buffer": whole.getvalue()}


# demo
BUOY = "Buoy\nUS terms\n\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"


def begin(server: LiveServer) -> int:
    _, pattern = server.api("POST", "/api/patterns", {"text": BUOY, "terms": None})
    return int(server.api("POST", "/api/makings", {"pattern": pattern["id"], "order": {"kind": "one"}})[1]["id"])


def test_a_zip_is_taken_in_and_a_wrong_one_is_said(server: LiveServer, chromium: Browser) -> None:
    making = begin(server)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE, refused=422) as page:
        at_bench(page)
        page.keyboard.press("7")
        models = page.locator(".models")
        korean = models.get_by_role("button", name="Add the Korean model")
        expect(models.get_by_role("button", name="Add the English model")).to_be_visible()
        expect(korean).to_be_hidden()  # nothing here speaks it
        models.get_by_text("Another language").click()
        expect(korean).to_be_visible()
        assert overflow(page) <= 0
        assert small_targets(page) == []
        file = models.get_by_label("a voice model from this device")
        file.set_input_files({"name": "gull.txt", "mimeType": "text/plain", "buffer": b"Rnd 1: 6 sc"})
        expect(models.get_by_role("status")).to_contain_text("gull.txt is no zip. Voice models are zips")
        model = ("am/final.mdl", "graph/HCLr.fst", "graph/Gr.fst", "conf/model.conf")
        file.set_input_files(zipped("vosk-model-small-en-9.zip", *model))
        expect(models.get_by_role("status")).to_contain_text("vosk can't load it", timeout=60_000)
        file.set_input_files(zipped("vosk-model-small-en-9.zip", "gull.txt"))
        expect(models.get_by_role("status")).to_contain_text("it lacks am/final.mdl", timeout=60_000)
