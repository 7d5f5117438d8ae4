"""A pattern on paper: A4 and Letter, with boxes to tick, what to have at hand, and charts."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner
from pages import PHONE, opened, overflow, small_targets
from playwright.sync_api import expect
from pypdf import PdfReader

from hookside.cli import main

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.conftest import LiveServer

# ISO 216 A4 is 210 mm x 297 mm; ANSI/ASME Y14.1 A ("Letter") 8.5 in x 11 in; a point is 1/72 in.
PAPERS = {"A4": (595, 842), "Letter": (612, 792)}


@pytest.mark.parametrize("paper", PAPERS)
def test_it_prints(server: LiveServer, chromium: Browser, paper: str) -> None:
    _, shelf = server.api("GET", "/api/shelf")
    pattern = next(p["id"] for p in shelf["patterns"] if "Seal" in p["title"])
    making = server.api("POST", "/api/makings", {"pattern": pattern})[1]["id"]
    with opened(chromium, f"{server.url}/#/paper/{pattern}/{making}", PHONE) as page:
        expect(page.get_by_role("heading", name="To have at hand")).to_be_visible()
        assert overflow(page) <= 0
        assert small_targets(page) == []
        printed = PdfReader(io.BytesIO(page.pdf(format=paper, prefer_css_page_size=False)))
    wide, high = PAPERS[paper]
    text = ""
    for sheet in printed.pages:
        assert abs(float(sheet.mediabox.width) - wide) < 2
        assert abs(float(sheet.mediabox.height) - high) < 2
        text += sheet.extract_text()
    assert "Round 3" in text
    assert "Shelf" not in text  # what is for the screen stays there


def test_a_text_just_pasted_is_kept_on_the_way_to_its_paper(server: LiveServer, chromium: Browser) -> None:
    with opened(chromium, f"{server.url}/#/read/new", PHONE) as page:
        page.get_by_role("textbox").first.fill("Gull\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n")  # demo
        page.get_by_role("button", name=re.compile(r"^(\d+ r|R)ounds$")).click()
        page.get_by_role("button", name="On paper").click()
        expect(page.get_by_role("heading", name="To have at hand")).to_be_visible()
        page.go_back()
        expect(page.get_by_role("link", name="On paper")).to_be_visible(timeout=30_000)
    assert "Gull" in [p["title"] for p in server.api("GET", "/api/shelf")[1]["patterns"]]


@pytest.mark.parametrize("paper", PAPERS)
def test_the_command_line_lays_out_the_same_charts(
    server: LiveServer, chromium: Browser, tmp_path: Path, paper: str
) -> None:
    """One drawing for both: the file draws itself when it is opened, without a server."""
    _, shelf = server.api("GET", "/api/shelf")
    pattern = next(p["id"] for p in shelf["patterns"] if "Seal" in p["title"])
    making = server.api("POST", "/api/makings", {"pattern": pattern})[1]["id"]
    with opened(chromium, f"{server.url}/#/paper/{pattern}/{making}") as page:
        drawn = page.locator("figure > .chart-frame > svg.chart")
        expect(drawn).to_have_count(3)
        ours = [drawn.nth(n).locator("path.made.lines").get_attribute("d") for n in range(3)]
    out = tmp_path / "seal.html"
    words = ["paper", "--making", str(making), "--paper", paper.lower(), "-o", str(out), "--folder", str(server.folder)]
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 0, done.output
    with opened(chromium, out.as_uri()) as page:
        drawn = page.locator("figure > .chart-frame > svg.chart")
        expect(drawn).to_have_count(3)
        assert [drawn.nth(n).locator("path.made.lines").get_attribute("d") for n in range(3)] == ours
        box = page.locator("li.job svg rect").first  # a box to tick is open
        expect(box).to_have_css("fill", "none")
        printed = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    wide, high = PAPERS[paper]
    assert all(abs(float(one.mediabox.width) - wide) < 2 for one in printed.pages)
    assert all(abs(float(one.mediabox.height) - high) < 2 for one in printed.pages)
    assert "Round 3" in "".join(one.extract_text() for one in printed.pages)
    plain = CliRunner().invoke(main, [*words[:5], "--no-charts", "--folder", str(server.folder)])
    assert "<script" not in plain.output


def test_what_stands_in_a_pattern_ends_no_script(server: LiveServer, chromium: Browser, tmp_path: Path) -> None:
    file, out = tmp_path / "gull.txt", tmp_path / "gull.html"
    file.write_text(
        "Gull\n\n</script><b>Wing</b> <!-- (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n",
        encoding="utf-8",
    )  # demo
    assert CliRunner().invoke(main, ["paper", str(file), "-o", str(out)]).exit_code == 0
    with opened(chromium, out.as_uri()) as page:
        expect(page.locator("figure > .chart-frame > svg.chart")).to_have_count(1)
        expect(page.locator("body > b")).to_have_count(0)
