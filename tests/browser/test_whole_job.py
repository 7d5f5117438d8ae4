"""The main job from end to end: a pasted text with a slip in it, to the last stitch, over a pause and a crash."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from pages import PHONE, STOP_IS_DEAF, TABLET, at_bench, done, heading, opened, paste, place, touch
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page
    from tests.conftest import LiveServer

# Demo. Round 4 prints 25 where its stitches make 24: the slip.
BOLLARD = """LITTLE BOLLARD
US terms
Materials: black yarn, white yarn, 3 mm hook, stuffing

POST
Rnd 1: 6 sc in magic ring (6)
Rnd 2: 2 sc in each st around (12)
Rnd 3: *sc in next st, 2 sc in next st; rep from * around (18)
Rnd 4: [2 sc, inc] 6 times (25)
Rnds 5-6: sc in each st around (24)
Change to white.
Rnd 7: sc in each st around (24)
Rnd 8: (2 sc, sc2tog) x 6 (18)
Stuff the post firmly.
Rnd 9: (sc, sc2tog) x 6 (12)
Rnd 10: sc2tog 6 times (6)
Fasten off, leaving a 20 cm tail. Weave it through the front loops, pull tight and close the hole.

CAP
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Fasten off, leaving a 30 cm tail for sewing.

ASSEMBLY
Sew the cap onto the post.
"""


def take_up(page: Page, name: str) -> None:
    """Open the list of pieces and take up another one."""
    page.keyboard.press("c")
    page.get_by_role("dialog").get_by_role("button", name=re.compile(f"take up {name}", re.IGNORECASE)).click()


@pytest.mark.parametrize("size", [PHONE, TABLET], ids=["phone", "tablet"])
def test_from_the_pasted_text_to_the_last_stitch(server: LiveServer, chromium: Browser, size: tuple[int, int]) -> None:
    with opened(chromium, f"{server.url}/#/read/new", size, away=True) as page:
        page.get_by_label("The pattern as text").click()
        paste(page, BOLLARD)
        page.get_by_role("button", name="Show me").click()
        finding = page.locator(".finding").first
        expect(finding).to_contain_text("24")
        expect(finding).to_contain_text("25")
        finding.get_by_role("button").first.click()
        expect(page.get_by_text("Every count adds up.")).to_be_visible()
        page.get_by_role("button", name=re.compile("^Start")).click()

        # Into round 3, then the other piece for a round, then back.
        at_bench(page)
        while "Round 3" not in heading(page).inner_text():
            touch(page)
        touch(page)
        touch(page)
        expect(place(page)).to_contain_text("repeat 3 of 6")
        expect(place(page)).to_contain_text("6 of 18 made")
        take_up(page, "cap")
        expect(heading(page)).to_contain_text("Round 1")
        touch(page)
        touch(page)
        expect(heading(page)).to_contain_text("Round 2")
        take_up(page, "post")
        expect(place(page)).to_contain_text("6 of 18 made")
        page.wait_for_timeout(400)

        # The machine goes down in the middle of it, and up again.
        server.kill()
    server.start()

    with opened(chromium, f"{server.url}/", size) as page:
        # A server that has only just come up reads its patterns first.
        expect(page.get_by_text(re.compile(r"in round 3, 6 of 18 made"))).to_be_visible(timeout=30_000)
        page.get_by_role("link", name="Resume").or_(page.get_by_role("button", name="Resume")).first.click()
        at_bench(page)
        expect(place(page)).to_contain_text("repeat 3 of 6")
        expect(place(page)).to_contain_text("6 of 18 made")

        halted: list[str] = []
        pauses: list[str] = []
        for _ in range(160):
            if page.locator(".halt.calm").count():
                break
            if page.locator(".halt.comes").count():
                page.wait_for_timeout(STOP_IS_DEAF + 50)
                page.get_by_role("button", name=re.compile("^(Take up|On to)")).click()
            elif page.locator(".halt.waits").count():
                halted.append(heading(page).inner_text())
                done(page)
            else:
                if page.locator(".pause").count():
                    pauses.append(page.locator(".pause-title").inner_text())
                touch(page)
        told = [re.sub(r"\s+", " ", title).lower() for title in halted]
        for word in ("stuff", "20 cm tail", "close", "30 cm tail"):
            assert any(word in title for title in told), (word, told)
        assert any("white" in title for title in pauses), pauses
        assert any("sew" in title.lower() for title in told + pauses), (told, pauses)
        for _ in range(150):  # the last moves are on their way
            if server.api("GET", "/api/shelf")[1]["makings"][0]["finished"]:
                break
            page.wait_for_timeout(200)

    _, shelf = server.api("GET", "/api/shelf")
    making = shelf["makings"][0]
    assert making["finished"] is True
    _, snapshot = server.api("GET", f"/api/makings/{making['id']}")
    for run in snapshot["state"]["runs"].values():
        assert run["at"] == snapshot["strands"][run["strand"]]["length"]
